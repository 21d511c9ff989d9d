//! The three questions of a year in three short sentences: does it leak safely, does diffusion wet
//! it, can it dry.

use super::sentence::Sites;
use crate::check::words::distance;
use crate::check::{self, Check, Detail, Finding, Status, Verdict};
use crate::quantity::{ArealDensity, Style, month_name};

/// Three short sentences; empty without a climate.
pub(super) fn in_short(verdict: &Verdict, sites: Sites<'_>, style: Style) -> String {
    let of = |check: &Check| {
        let judged = verdict.findings.iter().filter(|f| f.status != Status::Note);
        judged.into_iter().find(|finding| finding.check == check)
    };
    let (Some(year), Some(drying)) = (of(&check::year::CHECK), of(&check::drying::CHECK)) else {
        return String::new();
    };
    let leak = of(&check::air_leak::CHECK).map(|finding| (leak(finding, style), finding));
    let all = leak.into_iter().chain([
        (diffusion(year, style), year),
        (self::drying(drying), drying),
    ]);
    // Each names its own site, since each is the worst of all.
    let told = all.map(|(said, finding)| match sites.name(finding) {
        Some(site) => format!("{}, {site}.", said.trim_end_matches('.')),
        None => said,
    });
    told.collect::<Vec<_>>().join(" ")
}

fn plane(finding: &Finding) -> &str {
    finding.place.as_ref().map_or("", |place| &place.plane)
}

fn leak(finding: &Finding, style: Style) -> String {
    let word = finding.status.word();
    let Some(margin) = finding.margin else {
        return format!("Leaks: {word}, nothing that matters is reached.");
    };
    let distance = distance(margin, style);
    format!(
        "Leaks: {word}, {} {distance} the dew point.",
        plane(finding)
    )
}

fn diffusion(finding: &Finding, style: Style) -> String {
    let word = finding.status.word();
    match &finding.detail {
        Detail::Year(detail) if detail.never_dry => {
            format!("Diffusion: {word}, {} is never dry.", plane(finding))
        }
        Detail::Year(detail) => {
            let peak = style.water(ArealDensity::from_si(detail.peak));
            let dry = detail.dry_by.map_or("", month_name);
            format!(
                "Diffusion: {word}, {} gathers {peak}, dry again in {dry}.",
                plane(finding)
            )
        }
        Detail::Closest { .. } if finding.status == Status::Pass => {
            format!("Diffusion: {word}, nothing condenses at wood or open insulation.")
        }
        Detail::Closest { .. } => {
            format!("Diffusion: {word}, nothing condenses at the nominal values.")
        }
        _ => format!("Diffusion: {word}."),
    }
}

fn drying(finding: &Finding) -> String {
    let word = finding.status.word();
    match &finding.detail {
        Detail::Drying(detail) => match (detail.days, detail.month) {
            (Some(days), Some(month)) => {
                let when = check::drying::when(detail.start, days, month);
                format!("Drying: {word}, 1 kg/m² is gone by {when}.")
            }
            _ => format!("Drying: {word}, 1 kg/m² isn't gone in five years."),
        },
        _ => format!("Drying: {word}, nothing inside needs to."),
    }
}
