//! What gives way where the house doesn't fit the road.

use super::{Measure, Told};
use crate::check::house::WEIGHT;
use crate::check::{HouseFinding, Shave};
use crate::model::Project;
use crate::quantity::Length;
use crate::study::JudgedHouse;

/// Of the worst finding what could give way, the least first; what isn't known.
pub(super) fn measures(house: &JudgedHouse<'_>) -> Vec<Measure> {
    let worst: Option<&HouseFinding> = house.worst_first().into_iter().next();
    let Some(finding) = worst.filter(|finding| finding.status.severity() > 0) else {
        return Vec::new();
    };
    let shaves = finding.shaves.iter().take(2).cloned();
    let mut found: Vec<Measure> = shaves.map(Measure::Shave).collect();
    if finding.check == &WEIGHT && finding.status.severity() == 2 {
        let over = finding.slack().map(|slack| -slack);
        found.extend(over.map(|over| Measure::Told(Told::Lighter(over))));
    } else if !finding.missing.is_empty() {
        found.push(Measure::Told(Told::State(finding.missing.clone())));
    }
    found
}

/// The project with a layer, the deck or the overhang giving way.
pub(super) fn shaved(project: &Project, variant: Option<&str>, shave: &Shave) -> Option<Project> {
    let mut changed = project.clone();
    let less = |length: Length| Length::from_m(length.as_m() - shave.by.as_m());
    if let Some(name) = &shave.assembly {
        let mut cases = changed.cases.iter_mut();
        let own = |variant: Option<&str>| {
            let named = project.cases.iter();
            let mut named = named.filter(|case| case.assembly.name == *name);
            named.any(|case| case.variant.as_deref() == variant)
        };
        let variant = variant.filter(|variant| own(Some(variant)));
        let case =
            cases.find(|case| case.assembly.name == *name && case.variant.as_deref() == variant)?;
        let place = case.assembly.place_of(&shave.what)?;
        let now = case.assembly.written_thickness(place)?;
        case.assembly = case.assembly.with_thickness(place, less(now));
        return Some(changed);
    }
    let shell = changed.house.as_mut()?.shell.as_mut()?;
    match shave.what.as_str() {
        "the deck" => shell.width = less(shell.width),
        "the overhang" => {
            let sides = shell.roof.overhangs.iter_mut().flatten();
            sides.for_each(|side| *side = less(*side));
        }
        _ => shell.wall_height = less(shell.wall_height),
    }
    Some(changed)
}
