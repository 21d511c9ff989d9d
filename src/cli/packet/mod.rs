//! `dewmargin packet FILE -o DIR`

mod name;
mod watch;

use rayon::prelude::*;

use super::arguments::{PacketOptions, style};
use super::distinct::distinct;
use super::listed::write_listed;
use super::output::{all_numbers, err, out, width};
use super::reading::{AS_DRAWN, read_project, scope};
use super::told::is_there;
use super::written::File;
use super::{FAILED, code_of};
use crate::check::plan_review::{Missing, Paper as Lettering, plan_review};
use crate::error::Error;
use crate::model::Project;
use crate::report::figure::{Drawing, Info, pdf};
use crate::report::packet::{self, Contents, Form, PacketSheet, Paper};
use crate::report::plan_review as review_text;
use crate::study::{Scope, Study};

pub(super) fn run(options: &PacketOptions) -> Result<u8, Error> {
    match options.watch {
        true => watch::keep_up(&options.file, || once(options)),
        false => once(options),
    }
}

/// Reads, solves, draws, and only then writes.
fn once(options: &PacketOptions) -> Result<u8, Error> {
    let project = read_project(&options.file)?;
    let wanted = options.variant.as_deref().unwrap_or(AS_DRAWN);
    let scope = scope(&project, Some(wanted), &options.file)?;
    let left_out = left_out(&project, wanted);
    let style = style(options.units, &project);
    let form = Form {
        paper: options.paper.map_or(Paper::usual(style.units), Paper::from),
        style,
        look: options.look.into(),
    };
    let study = Study::within(&project, scope);
    let file = options.file.display().to_string();
    for name in &options.only {
        is_there(&study, name, &file)?;
    }
    let (study, omitted) = asked_for(study, &options.only);
    let missing = missing(&drawn(&project, scope), form);
    let contents = Contents {
        project: &project,
        judged: &study.assemblies,
        details: &study.details,
        volumes: &study.volumes,
        house: study.houses.first(),
        missing: &missing,
        left_out: &left_out,
        omitted: &omitted,
        calculations: options.calculations.into(),
    };
    let sheets = packet::sheets(&contents, form);
    for sheet in &sheets {
        all_numbers(&sheet.number, &sheet.drawing.lettering())?;
    }
    let mut made = pdf_files(&project, &sheets)?;
    if options.svg {
        made.extend(svg_files(&sheets));
    }
    if options.html {
        let page = packet::page(&contents, style, form.look);
        made.push((name::page(&project), page.into_bytes()));
    }
    let bound = made
        .first()
        .map_or_else(String::new, |(name, _)| name.clone());
    let count = made.len() + 1;
    let list = name::list(&project, &sheets, &made);
    write_listed(&options.output, made, &list)?;
    tell(options, sheets.len(), (&bound, count), &missing)?;
    let failed = options.strict && !missing.is_empty();
    Ok(match failed {
        true => FAILED,
        false => code_of(&study),
    })
}

/// The study as far as it is asked for, and the parts that aren't.
fn asked_for<'a>(study: Study<'a>, only: &[String]) -> (Study<'a>, Vec<String>) {
    if only.is_empty() {
        return (study, Vec::new());
    }
    let names = study.part_names().into_iter().map(str::to_owned);
    let omitted = names.filter(|name| !only.contains(name)).collect();
    (study.only(only), omitted)
}

/// The names of the variants that the packet doesn't show.
fn left_out(project: &Project, wanted: &str) -> Vec<String> {
    let cases = project.cases.iter().map(|case| &case.variant);
    let details = project.details.iter().map(|case| &case.variant);
    let volumes = project.volumes.iter().map(|case| &case.variant);
    let all = cases.chain(details).chain(volumes);
    let mut names: Vec<String> = all.flatten().cloned().collect();
    names.sort();
    names.dedup();
    names.retain(|name| name != wanted);
    names
}

/// The project as far as the packet draws it.
fn drawn(project: &Project, scope: Scope<'_>) -> Project {
    let mut drawn = project.clone();
    drawn
        .cases
        .retain(|case| scope.takes(case.variant.as_deref()));
    drawn
        .details
        .retain(|case| scope.takes(case.variant.as_deref()));
    drawn
}

fn missing(project: &Project, form: Form) -> Vec<Missing> {
    let paper = Lettering {
        section_fits: &|assembly| packet::section_fits(assembly, form),
        detail_fits: &|case| packet::detail_fits(case, form),
        letters: &|character| packet::has_letter(character),
    };
    plan_review(project, &paper)
}

/// The bound file, then one for each sheet.
fn pdf_files(project: &Project, sheets: &[PacketSheet]) -> Result<Vec<File>, Error> {
    let date = packet::date(project)
        .ok_or_else(|| Error::output("packet", "there is no date to give the files"))?;
    let info = |subject: &str| Info {
        title: project.title.clone(),
        author: project.title_data.designer.clone(),
        subject: subject.to_owned(),
        date,
    };
    let all: Vec<Drawing> = sheets.iter().map(|sheet| sheet.drawing.clone()).collect();
    let bound = (name::bound(project), "Permit packet".to_owned(), &all[..]);
    let single = sheets.iter().enumerate().map(|(n, sheet)| {
        let subject = format!("{} {}", sheet.number, sheet.title);
        (name::of_sheet(sheet, n, "pdf"), subject, &all[n..=n])
    });
    let jobs: Vec<(String, String, &[Drawing])> = std::iter::once(bound).chain(single).collect();
    let written = jobs.par_iter().map(|(name, subject, drawings)| {
        let bytes = pdf(drawings, &info(subject));
        let bytes = bytes.map_err(|error| Error::output(name, error.to_string()))?;
        Ok((name.clone(), bytes))
    });
    let mut files: Vec<File> = written.collect::<Result<_, Error>>()?;
    distinct(&mut files);
    Ok(files)
}

fn svg_files(sheets: &[PacketSheet]) -> Vec<File> {
    let named = sheets.iter().enumerate().map(|(n, sheet)| {
        let name = name::of_sheet(sheet, n, "svg");
        (name, sheet.drawing.svg().into_bytes())
    });
    let mut files: Vec<File> = named.collect();
    distinct(&mut files);
    files
}

/// What was written, and what a plan reviewer will ask for.
fn tell(
    options: &PacketOptions,
    paper: usize,
    (bound, count): (&str, usize),
    missing: &[Missing],
) -> Result<(), Error> {
    let sheets_word = if paper == 1 { "sheet" } else { "sheets" };
    out(&format!(
        "{}: {paper} {sheets_word}, bound; {count} files in all\n",
        options.output.join(bound).display()
    ))?;
    match missing.is_empty() {
        true => Ok(()),
        false => err(&review_text::text(missing).set(width())),
    }
}
