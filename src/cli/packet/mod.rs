//! `dewmargin packet FILE -o DIR`

mod files;
mod name;
mod watch;

use rayon::prelude::*;

use super::arguments::{PacketOptions, style};
use super::distinct::distinct;
use super::output::{File, err, out};
use super::reading::{AS_DRAWN, keep_variant, read_project};
use super::{FAILED, UNSETTLED};
use crate::check::plan_review::{Missing, Paper as Lettering, plan_review};
use crate::error::Error;
use crate::model::Project;
use crate::report::figure::{Drawing, Info, pdf};
use crate::report::house::{JudgedHouse, judge_one_house};
use crate::report::packet::{self, Contents, Form, PacketSheet, Paper};
use crate::report::{judge_all, judge_details, plan_review as review_text};
use files::write_all;

pub(super) fn run(options: &PacketOptions) -> Result<u8, Error> {
    match options.watch {
        true => watch::keep_up(&options.file, || once(options)),
        false => once(options),
    }
}

/// Reads, solves, draws, and only then writes.
fn once(options: &PacketOptions) -> Result<u8, Error> {
    let mut project = read_project(&options.file)?;
    // A variant's house stands on what the variant leaves as drawn, too.
    let whole = project.house.is_some().then(|| project.clone());
    let left_out = keep(&mut project, options)?;
    let style = style(options.units, &project);
    let form = Form {
        paper: options.paper.map_or(Paper::usual(style.units), Paper::from),
        style,
        look: options.look.into(),
    };
    let (judged, details) = rayon::join(|| judge_all(&project), || judge_details(&project));
    let variant = options.variant.as_deref();
    let house = whole
        .as_ref()
        .and_then(|whole| judge_one_house(whole, variant, &details));
    let missing = missing(&project, form);
    let contents = Contents {
        project: &project,
        judged: &judged,
        details: &details,
        house: house.as_ref(),
        missing: &missing,
        left_out: &left_out,
    };
    let sheets = packet::sheets(&contents, form);
    let mut made = pdf_files(&project, &sheets)?;
    if options.svg {
        made.extend(svg_files(&sheets));
    }
    if options.html {
        let page = packet::page(&contents, style, form.look);
        made.push((name::page(&project), page.into_bytes()));
    }
    let listed = name::contents(&project, &sheets, &made);
    made.push(listed);
    write_all(&options.output, &made)?;
    tell(options, &sheets, &made, &missing)?;
    let house_settled = |one: &JudgedHouse<'_>| one.result.heat.settled;
    if details.iter().any(|one| !one.settled()) || !house.as_ref().is_none_or(house_settled) {
        return Ok(UNSETTLED);
    }
    let failed = options.strict && !missing.is_empty();
    Ok(if failed { FAILED } else { 0 })
}

/// Keeps one variant, or what the file draws; returns the names of the others.
fn keep(project: &mut Project, options: &PacketOptions) -> Result<Vec<String>, Error> {
    let cases = project.cases.iter().map(|case| &case.variant);
    let details = project.details.iter().map(|case| &case.variant);
    let mut names: Vec<String> = cases.chain(details).flatten().cloned().collect();
    names.sort();
    names.dedup();
    let wanted = options.variant.as_deref().unwrap_or(AS_DRAWN);
    keep_variant(project, wanted, &options.file.display().to_string())?;
    names.retain(|name| name != wanted);
    Ok(names)
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
    sheets: &[PacketSheet],
    made: &[File],
    missing: &[Missing],
) -> Result<(), Error> {
    let bound = made.first().map_or("", |(name, _)| name);
    let paper = sheets.len();
    let sheets_word = if paper == 1 { "sheet" } else { "sheets" };
    out(&format!(
        "{}: {paper} {sheets_word}, bound; {} files in all\n",
        options.output.join(bound).display(),
        made.len()
    ))?;
    match missing.is_empty() {
        true => Ok(()),
        false => err(&review_text::text(missing)),
    }
}
