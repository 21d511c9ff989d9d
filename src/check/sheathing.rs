//! # Sheathing humidity
//!
//! *What it checks.* The humidity at the inner face of the outermost wood-based panel, month by
//! month, in bands: under 80 % dry, 80 to 95 % watch, over 95 % wet.
//!
//! *Why it matters.* Behind any vapor barrier the sheathing of a wet coast stands at 77 to 84 % in
//! winter: 80 % alone is the weather, not a mistake. What counts is how high and for how long.
//!
//! *Method and source.* Vapor pressure of the yearly balance over saturation at the plane; bands by
//! common practice.
//!
//! *Limit.* None: a note with the number of months in each band. Diffusion through the year and
//! drying judge.
//!
//! *When it does not apply.* Without a climate, or without a panel on the cavity's path.
//!
//! *Example.* Five months from 80 to 95 %, highest 88 % in January: a note.

use super::kind::{Column, Run};
use super::words::{percent, place};
use super::{Check, Detail, Finding, Place, SheathingDetail, Status};
use crate::model::{Conditions, Kind};
use crate::quantity::{Dimension, Style, month_name};
use crate::solve::{EndResult, PathKind};

/// Humidity of the sheathing through the year.
pub static CHECK: Check = Check {
    id: "sheathing-humidity",
    title: "sheathing humidity",
    run: Run::End(|_, end| check(end).into_iter().collect()),
    column: Some(Column {
        dimension: Some(Dimension::Humidity),
        has_limit: false,
        measure: |finding| match &finding.detail {
            Detail::Sheathing(sheathing) => [Some(sheathing.highest), None],
            _ => [None, None],
        },
    }),
    say,
    ..Check::PLAIN
};

const SOURCE: &str = "ISO 13788 yearly balance; bands by common practice";
/// Upper end of dry and of watch, fractions.
const BANDS: [f64; 2] = [0.80, 0.95];

/// A note on the outermost panel of the cavity's path.
#[must_use]
pub fn check(end: &EndResult) -> Option<Finding> {
    let path = end
        .paths
        .iter()
        .find(|path| path.path.kind == PathKind::Cavity)?;
    let is_panel = |piece: &crate::solve::Piece| piece.kind == Some(Kind::Panel);
    let plane = path.path.pieces.iter().rposition(is_panel)?;
    if plane == 0 {
        return None;
    }
    let year = path.year.as_ref()?;
    let mut months = [0_u8; 3];
    let (mut highest, mut when) = (0.0, 0);
    for (month, state) in year.months.iter().enumerate() {
        let humidity = state.humidity(plane)?;
        let band = BANDS.iter().filter(|limit| humidity > **limit).count();
        months[band] += 1;
        if humidity > highest {
            (highest, when) = (humidity, month);
        }
    }
    Some(Finding {
        place: Some(Place {
            path: path.path.name.clone(),
            plane: path.plane_names[plane].clone(),
        }),
        detail: Detail::Sheathing(SheathingDetail {
            months,
            highest,
            month: when,
        }),
        ..Finding::new(&CHECK, Status::Note, SOURCE)
    })
}

fn say(finding: &Finding, _: &Conditions, _: Style) -> String {
    let Detail::Sheathing(SheathingDetail {
        months: [dry, watch, wet],
        highest,
        month,
    }) = finding.detail
    else {
        return String::new();
    };
    format!(
        "{} stands under 80 % in {dry} months, from 80 to 95 % in {watch}, over 95 % in {wet}; the \
         highest monthly mean is {} in {}.",
        place(finding),
        percent(highest),
        month_name(month)
    )
}
