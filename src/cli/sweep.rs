//! `dewmargin sweep FILE -o TABLE`

mod table;

use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use super::arguments::{SweepOptions, style};
use super::output::{out, width};
use super::reading::read_project;
use super::written::write_file;
use super::{UNSETTLED, output};
use crate::check::sweep::Rows;
use crate::error::{Error, did_you_mean};
use crate::model::{Project, Sweep};
use crate::report::figure;
use crate::report::sweep::{Form, Table, caution_text};
use table::{Ended, Written};

/// Values of an axis that lines show, and that a map shows.
const MOST_POINTS: usize = 2000;
const MOST_CELLS: usize = 150;

pub(super) fn run(options: &SweepOptions) -> Result<u8, Error> {
    let file = options.file.display().to_string();
    let mut project = read_project(&options.file)?;
    let style = style(options.units, &project);
    let sweep = chosen(&mut project, options.entry.as_deref(), &file)?;
    let ending = options
        .output
        .extension()
        .map(|end| end.to_string_lossy().to_lowercase());
    let form = match ending.as_deref() {
        Some("csv") => Form::Csv,
        Some("json") => Form::Json,
        _ => {
            let name = options.output.display().to_string();
            let help = "end its name in .csv or .json".to_owned();
            return Err(Error::input(
                &name,
                "what kind of table is this to be?",
                Some(help),
            ));
        }
    };
    is_apart(options)?;
    let rows = Rows::new(&sweep);
    let table = Table::new(&sweep, style, form);
    if options.plot.is_some() {
        can_be_drawn(&sweep, &file)?;
    }
    let stop = interrupted();
    let written = table::write(&options.output, &table, &rows, options.again, &stop)?;
    told(options, &written, rows.count())?;
    if let (Some(plot), Ended::Whole) = (&options.plot, &written.ended) {
        let drawing = figure::sweep(&project, &sweep, &rows.of_first_two(), style);
        write_file(plot, &drawing.looking(options.look.into()).svg())?;
        out(&format!("{} drawn\n", plot.display()))?;
    }
    out(&caution_text(&sweep).set(width()))?;
    match written.ended {
        Ended::Whole => Ok(0),
        Ended::Interrupted => Ok(UNSETTLED),
    }
}

/// Neither the table nor the plot may stand where the project does, nor one where the other does; and a
/// plot isn't put over a file that is no picture.
fn is_apart(options: &SweepOptions) -> Result<(), Error> {
    let refuse = |path: &Path, message: &str, help: &str| {
        let name = path.display().to_string();
        Err(Error::input(&name, message, Some(help.to_owned())))
    };
    let other = "give another name";
    if is_same(&options.output, &options.file) {
        return refuse(
            &options.output,
            "the table would be written over the project",
            other,
        );
    }
    let Some(plot) = &options.plot else {
        return Ok(());
    };
    if is_same(plot, &options.file) {
        return refuse(plot, "the plot would be written over the project", other);
    }
    if is_same(plot, &options.output) {
        return refuse(plot, "the plot would be written over its own table", other);
    }
    if plot
        .extension()
        .is_none_or(|end| !end.eq_ignore_ascii_case("svg"))
    {
        return refuse(
            plot,
            "what kind of picture is this to be?",
            "end its name in .svg",
        );
    }
    let is_picture = || {
        std::fs::read(plot)
            .is_ok_and(|bytes| bytes.starts_with(b"<svg") || bytes.starts_with(b"<?xml"))
    };
    if plot.exists() && !options.again && !is_picture() {
        return refuse(
            plot,
            "a file that is no picture stands here",
            "give another name, or --again",
        );
    }
    Ok(())
}

/// Whether two names lead to one place.
fn is_same(one: &Path, other: &Path) -> bool {
    let place = |path: &Path| {
        let there = path.canonicalize();
        there.unwrap_or_else(|_| {
            let folder = path
                .parent()
                .filter(|folder| !folder.as_os_str().is_empty());
            let folder = folder.unwrap_or(Path::new(".")).canonicalize();
            let name = path.file_name().unwrap_or_default();
            folder.map_or_else(|_| path.to_path_buf(), |folder| folder.join(name))
        })
    };
    place(one) == place(other)
}

/// More values of an axis than there is room for on a sheet are refused before anything is computed.
fn can_be_drawn(sweep: &Sweep, file: &str) -> Result<(), Error> {
    let shown = sweep.axes.iter().take(2);
    let most = if sweep.axes.len() > 1 {
        MOST_CELLS
    } else {
        MOST_POINTS
    };
    for axis in shown {
        let count = axis.values.count();
        if count > most {
            let message = format!(
                "axis `{}` has {count} values, more than a plot can show",
                axis.name
            );
            let help = format!("take greater steps (at most {most} values), or leave out --plot");
            return Err(Error::input(file, message, Some(help)));
        }
    }
    Ok(())
}

/// What there is now.
fn told(options: &SweepOptions, written: &Written, count: u64) -> Result<(), Error> {
    let name = options.output.display();
    let before = match written.before {
        0 => String::new(),
        rows => format!(", {rows} of them from before"),
    };
    match written.ended {
        Ended::Whole => out(&format!("{count} combinations in {name}{before}\n")),
        Ended::Interrupted => output::err(&format!(
            "interrupted: {} of {count} combinations in {name}{before}\n\
             the same command goes on from there\n",
            written.rows
        )),
    }
}

/// Set as soon as the user asks to stop; the rows in hand are finished.
fn interrupted() -> Arc<AtomicBool> {
    let asked = Arc::new(AtomicBool::new(false));
    let set = Arc::clone(&asked);
    // Without a handler an interruption ends the process at once, and nothing is lost either.
    let _ = ctrlc::set_handler(move || set.store(true, Ordering::Relaxed));
    asked
}

/// The sweep asked for, taken out of the project.
fn chosen(project: &mut Project, entry: Option<&str>, file: &str) -> Result<Sweep, Error> {
    let mut all = std::mem::take(&mut project.sweeps);
    let names: Vec<String> = all.iter().map(|one| one.name.clone()).collect();
    let refuse = |message: String, help: String| Err(Error::input(file, message, Some(help)));
    let listed = || format!("there are: {}", names.join("; "));
    let Some(wanted) = entry else {
        return match all.len() {
            0 => refuse(
                "this file has nothing to sweep".into(),
                "write a `sweep:` block into it, as in examples/cabin-sweep.yaml".into(),
            ),
            1 => Ok(all.remove(0)),
            _ => refuse(
                "this file has several sweeps".into(),
                format!("choose one with --entry; {}", listed()),
            ),
        };
    };
    match all.iter().position(|one| one.name == wanted) {
        Some(at) => Ok(all.remove(at)),
        None => {
            let help = match did_you_mean(wanted, names.iter().map(String::as_str)) {
                Some(near) => format!("did you mean `{near}`?"),
                None => listed(),
            };
            refuse(format!("there is no entry `{wanted}` under `sweep:`"), help)
        }
    }
}
