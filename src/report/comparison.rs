//! The report of `compare` as text: which build-up keeps the wood clear, which is best, side by side.

use super::summary::{caution_text, conditions, headline};
use super::table::Table;
use super::text::{Text, short};
use super::trade_off::trade_off_text;
use super::{boxes_text, detail_comparison, detail_text};
use crate::check::{self, Check, Detail, Status, overview};
use crate::quantity::{Dimension, Style, TemperatureDifference, fixed, month_name};
use crate::solve::Transmittance;
use crate::study::trade_off::trade_off;
use crate::study::{Choice, Judged, Study, best_of};

/// All of `compare`: every case and detail side by side, then the options.
#[must_use]
pub fn compare_text(study: &Study<'_>, style: Style) -> Text {
    let (judged, details) = (&study.assemblies, &study.details);
    let mut text = conditions(study, style);
    text.blank();
    text.say(0, best_sentence(study));
    text.blank();
    text.table(2, comparison_table(judged, style));
    for table in year_tables(judged, style) {
        text.blank();
        text.table(2, table);
    }
    for one in judged {
        text.blank();
        text.add(headline(one, style));
    }
    for table in detail_comparison::tables(details, style) {
        text.blank();
        text.table(2, table);
    }
    for one in details {
        text.blank();
        text.add(detail_text::headline(one, style));
    }
    for one in &study.volumes {
        text.blank();
        text.add(boxes_text::headline(one, style));
    }
    if let Some(options) = trade_off(study) {
        text.add(trade_off_text(&options, style));
    }
    text.add(caution_text(study));
    text
}

/// What `compare` prints with `--format json`: the report, and its options under `trade_off`.
#[must_use]
pub fn compare_json(study: &Study<'_>) -> serde_json::Value {
    let mut report = super::json::report("compare", study);
    if let Some(object) = report.as_object_mut() {
        let options = trade_off(study);
        let options = options.as_ref().map(super::trade_off::json);
        object.insert("trade_off".into(), options.into());
    }
    report
}

/// The best option by the rule; nothing where there is one alone.
fn best_sentence(study: &Study<'_>) -> String {
    let choices = study.choices();
    let best = best_of(&choices).filter(|_| choices.len() > 1);
    best.map_or_else(String::new, |n| {
        let name = choices[n].variant.as_deref().unwrap_or("as drawn");
        format!("Best option by the rule ({}): {name}.", Choice::RULE)
    })
}

fn comparison_table(judged: &[Judged<'_>], style: Style) -> Table {
    let u = format!("U, {}", Dimension::Transmittance.unit(style));
    let header = [
        "",
        "verdict",
        "wood at steel",
        "dew margin",
        "leak margin",
        "coldest surface",
        &u,
        "thickness",
        "weight",
    ];
    let mut table = Table::new(&header, 1);
    for one in judged {
        let overview = overview(one.result());
        let margin =
            |m: Option<TemperatureDifference>| m.map_or_else(|| "-".into(), |m| style.margin(m));
        let u = worse_end(one);
        table.row(vec![
            one.name(),
            one.verdict.status.word().to_owned() + &site_cell(one, one.speaks),
            overview
                .wood_at_steel
                .map_or_else(|| "-".into(), |wood| style.show(wood)),
            margin(overview.dew_point_margin),
            margin(overview.leak_margin),
            style.show(overview.coldest_surface),
            format!(
                "{} … {}",
                Dimension::Transmittance.number(u.parallel_path, style),
                Dimension::Transmittance.number(u.isothermal_planes, style)
            ),
            style.show(one.result().thickness),
            one.result()
                .weight
                .map_or_else(|| "-".into(), |weight| style.show(weight)),
        ]);
    }
    table
}

/// U-values of the end of vented gaps that loses more.
fn worse_end<'a>(one: &'a Judged<'_>) -> &'a Transmittance {
    let ends = &one.result().ends;
    let worse = ends.iter().map(|end| &end.transmittance);
    let worse = worse.max_by(|a, b| a.isothermal_planes.total_cmp(&b.isothermal_planes));
    worse.unwrap_or(&ends[0].transmittance)
}

/// The site's name as a cell; nothing where there is one site alone.
fn site_cell(one: &Judged<'_>, site: usize) -> String {
    match one.route().is_empty() {
        true => String::new(),
        false => format!(", {}", short(&one.sites[site].stop.name, 17)),
    }
}

/// What the year and the drying come to, case by case; empty without a climate.
fn year_tables(judged: &[Judged<'_>], style: Style) -> Vec<Table> {
    if judged
        .iter()
        .all(|one| one.stop().conditions.year.is_none())
    {
        return Vec::new();
    }
    let peak = format!("peak, {}", Dimension::Water.unit(style));
    // Two tables: with a site in each cell one line wouldn't hold both.
    let mut wetting = Table::new(&["", "leaks", "diffusion", &peak, "dry by"], 1);
    let mut drying = Table::new(&["", "drying", "days to dry"], 1);
    for one in judged {
        let of = |check: &Check| {
            let judged = one
                .verdict
                .findings
                .iter()
                .filter(|f| f.status != Status::Note);
            judged.into_iter().find(|finding| finding.check == check)
        };
        let word = |check: &Check| {
            of(check).map_or_else(
                || "-".to_owned(),
                |finding| finding.status.word().to_owned() + &site_cell(one, finding.site),
            )
        };
        let (water, dry_by) = match of(&check::year::CHECK).map(|finding| &finding.detail) {
            Some(Detail::Year(detail)) => (
                Dimension::Water.number(detail.peak, style),
                match (detail.never_dry, detail.dry_by) {
                    (true, _) => "never".to_owned(),
                    (false, month) => month.map_or("-", month_name).to_owned(),
                },
            ),
            Some(_) => (Dimension::Water.number(0.0, style), "-".to_owned()),
            None => ("-".to_owned(), "-".to_owned()),
        };
        let gone = match of(&check::drying::CHECK).map(|finding| &finding.detail) {
            Some(Detail::Drying(detail)) => detail
                .days
                .map_or_else(|| "over 1825".to_owned(), |days| fixed(days, 0)),
            _ => "-".to_owned(),
        };
        let name = one.name();
        wetting.row(vec![
            name.clone(),
            word(&check::air_leak::CHECK),
            word(&check::year::CHECK),
            water,
            dry_by,
        ]);
        drying.row(vec![name, word(&check::drying::CHECK), gone]);
    }
    vec![wetting, drying]
}
