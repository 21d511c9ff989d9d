//! `dewmargin plot FILE -o DIR`

use super::arguments::{PlotOptions, style};
use super::output::{out, write_file};
use crate::check::best;
use crate::error::Error;
use crate::input::read_project;
use crate::report::figure::{comparison, section};
use crate::report::{Judged, judge_all};

pub(super) fn run(options: &PlotOptions) -> Result<u8, Error> {
    let project = read_project(&options.file)?;
    let folder = &options.output;
    if !folder.is_dir() {
        let name = folder.display().to_string();
        return Err(Error::output(
            &name,
            "there is no such folder to write to: make it first",
        ));
    }
    let judged = judge_all(&project);
    let style = style(options.units, &project);
    let stem = options
        .file
        .file_stem()
        .map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    // Everything is drawn before the first file is written.
    let mut drawings: Vec<(String, String)> = judged
        .iter()
        .map(|one| {
            let drawing = section(&project, one.case, &one.result, &one.verdict, style);
            (format!("{stem}-{}.svg", plain(&one.case.name())), drawing)
        })
        .collect();
    if judged.len() > 1 {
        let verdicts: Vec<_> = judged.iter().map(|one| &one.verdict).collect();
        let rows: Vec<_> = judged.iter().map(Judged::compared).collect();
        let drawing = comparison(&project, &rows, best(&verdicts), style);
        drawings.push((format!("{stem}-compared.svg"), drawing));
    }
    for (name, drawing) in &drawings {
        write_file(&folder.join(name), drawing)?;
        out(&format!("{}\n", folder.join(name).display()))?;
    }
    Ok(0)
}

/// A name as part of a file name: letters and digits joined by hyphens.
fn plain(name: &str) -> String {
    let words = name
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty());
    let name = words.collect::<Vec<_>>().join("-").to_lowercase();
    name.chars().take(50).collect()
}
