//! The report of `compare` as text: which build-up keeps the wood clear, which is best, side by side.

use super::path_table::short;
use super::summary::{WIDTH, caution_text, conditions, headline};
use super::table::{Table, wrap};
use super::trade_off::{trade_off, trade_off_text};
use super::{Judged, JudgedDetail, detail_comparison, detail_text};
use crate::check::{Check, Detail, Status, Verdict, best, overview};
use crate::model::Project;
use crate::quantity::{ArealDensity, Style, TemperatureDifference, fixed, month_name};

/// The report of `compare`.
#[must_use]
pub fn compare_text(
    project: &Project,
    judged: &[Judged<'_>],
    details: &[JudgedDetail<'_>],
    style: Style,
) -> String {
    let mut text = conditions(project, judged, style);
    text += "\n";
    text += &wood_sentences(judged, style);
    text += &best_sentence(judged);
    text += "\n";
    text += &comparison_table(judged, style);
    for one in judged {
        text += "\n";
        text += &headline(one, style);
    }
    text += &detail_comparison::tables(details, style);
    for one in details {
        text += "\n";
        text += &detail_text::headline(one, style);
    }
    if let Some(options) = trade_off(project, judged, details) {
        text += &trade_off_text(&options, style);
    }
    text + &caution_text(project, judged, details)
}

/// What `compare` prints with `--format json`: the report, and its options under `trade_off`.
#[must_use]
pub fn compare_json(
    project: &Project,
    judged: &[Judged<'_>],
    details: &[JudgedDetail<'_>],
) -> serde_json::Value {
    let mut report = super::json::report("compare", project, judged, details);
    if let Some(object) = report.as_object_mut() {
        let options = trade_off(project, judged, details);
        let options = options.as_ref().map(super::trade_off::json);
        object.insert("trade_off".into(), options.into());
    }
    report
}

/// Which cases keep the wood at the steel clear, which don't, and which are colder than as drawn.
fn wood_sentences(judged: &[Judged<'_>], style: Style) -> String {
    let mut clear = Vec::new();
    let mut wet = Vec::new();
    for one in judged {
        let overview = overview(&one.result);
        let (Some(at), Some(margin)) = (overview.wood_at_steel, overview.wood_margin) else {
            continue;
        };
        let words = format!(
            "{} ({}, {})",
            one.name(),
            style.temperature(at),
            style.margin(margin)
        );
        if margin.as_kelvin() > 0.0 {
            clear.push(words)
        } else {
            wet.push(words)
        }
    }
    if clear.is_empty() && wet.is_empty() {
        return String::new();
    }
    let list = |words: Vec<String>| {
        if words.is_empty() {
            "none".to_owned()
        } else {
            words.join("; ")
        }
    };
    let mut text = wrap(
        &format!(
            "Wood at the steel clear of the room air's dew point: {}.",
            list(clear)
        ),
        "",
        WIDTH,
    );
    text += &wrap(&format!("Below it: {}.", list(wet)), "", WIDTH);
    for one in judged.iter().filter(|one| one.case.variant.is_some()) {
        let base = judged.iter().find(|base| {
            base.case.variant.is_none() && base.case.assembly.name == one.case.assembly.name
        });
        let wood = |judged: &Judged<'_>| overview(&judged.result).wood_at_steel;
        if let (Some(changed), Some(drawn)) = (wood(one), base.and_then(wood))
            && changed < drawn
        {
            let colder = style.difference(drawn - changed);
            let line = format!(
                "{}: that wood is {colder} colder than as drawn, without it.",
                one.name()
            );
            text += &wrap(&line, "", WIDTH);
        }
    }
    text
}

fn best_sentence(judged: &[Judged<'_>]) -> String {
    let verdicts: Vec<&Verdict> = judged.iter().map(|one| &one.verdict).collect();
    best(&verdicts).map_or_else(String::new, |n| {
        let rule = "fewest fails, then fewest depends, then the largest least margin";
        wrap(
            &format!("Best by the rule ({rule}): {}.", judged[n].name()),
            "",
            WIDTH,
        )
    })
}

fn comparison_table(judged: &[Judged<'_>], style: Style) -> String {
    let u = format!("U, {}", style.transmittance_unit());
    let header = [
        "",
        "verdict",
        "coldest surface",
        "wood at steel",
        "dew margin",
        "leak margin",
        &u,
        "thickness",
        "weight",
    ];
    let mut columns: Vec<Vec<String>> =
        header.iter().map(|cell| vec![(*cell).to_owned()]).collect();
    for one in judged {
        let overview = overview(&one.result);
        let margin =
            |m: Option<TemperatureDifference>| m.map_or_else(|| "-".into(), |m| style.margin(m));
        let u = &one.result.ends[0].transmittance;
        let cells = [
            short(&one.name(), 37),
            one.verdict.status.word().into(),
            style.temperature(overview.coldest_surface),
            overview
                .wood_at_steel
                .map_or_else(|| "-".into(), |wood| style.temperature(wood)),
            margin(overview.dew_point_margin),
            margin(overview.leak_margin),
            format!(
                "{} … {}",
                style.transmittance_number(u.parallel_path),
                style.transmittance_number(u.isothermal_planes)
            ),
            style.length(one.result.thickness),
            one.result
                .weight
                .map_or_else(|| "-".into(), |weight| style.areal_density(weight)),
        ];
        columns
            .iter_mut()
            .zip(cells)
            .for_each(|(column, cell)| column.push(cell));
    }
    // Cases as rows, in two blocks, so that no line gets wider than a terminal.
    let block = |columns: &[&Vec<String>]| {
        let row = |n: usize| {
            columns
                .iter()
                .map(|column| column[n].clone())
                .collect::<Vec<_>>()
        };
        let header: Vec<String> = row(0);
        let header: Vec<&str> = header.iter().map(String::as_str).collect();
        let mut table = Table::new(&header, 1);
        (1..=judged.len()).for_each(|n| table.row(row(n)));
        table.render("  ")
    };
    let first = block(&[
        &columns[0],
        &columns[1],
        &columns[3],
        &columns[4],
        &columns[5],
    ]);
    let second = block(&[
        &columns[0],
        &columns[2],
        &columns[6],
        &columns[7],
        &columns[8],
    ]);
    format!("{first}\n{second}{}", year_table(judged, style))
}

/// What the year and the drying come to, case by case; empty without a climate.
fn year_table(judged: &[Judged<'_>], style: Style) -> String {
    if judged.iter().all(|one| one.stop.conditions.year.is_none()) {
        return String::new();
    }
    let peak = format!("peak, {}", style.water_unit());
    let header = [
        "",
        "leaks",
        "diffusion",
        &peak,
        "dry by",
        "drying",
        "days to dry",
    ];
    let mut table = Table::new(&header, 1);
    for one in judged {
        let of = |check: Check| {
            let judged = one
                .verdict
                .findings
                .iter()
                .filter(|f| f.status != Status::Note);
            judged.into_iter().find(|finding| finding.check == check)
        };
        let word = |check: Check| {
            of(check)
                .map_or("-", |finding| finding.status.word())
                .to_owned()
        };
        let (water, dry_by) = match of(Check::Year).map(|finding| &finding.detail) {
            Some(Detail::Year(detail)) => (
                style.water_number(ArealDensity::from_si(detail.peak)),
                match (detail.never_dry, detail.dry_by) {
                    (true, _) => "never".to_owned(),
                    (false, month) => month.map_or("-", month_name).to_owned(),
                },
            ),
            Some(_) => (
                style.water_number(ArealDensity::from_si(0.0)),
                "-".to_owned(),
            ),
            None => ("-".to_owned(), "-".to_owned()),
        };
        let gone = match of(Check::Drying).map(|finding| &finding.detail) {
            Some(Detail::Drying(detail)) => detail
                .days
                .map_or_else(|| "over 1825".to_owned(), |days| fixed(days, 0)),
            _ => "-".to_owned(),
        };
        table.row(vec![
            short(&one.name(), 30),
            word(Check::AirLeak),
            word(Check::Year),
            water,
            dry_by,
            word(Check::Drying),
            gone,
        ]);
    }
    format!("\n{}", table.render("  "))
}
