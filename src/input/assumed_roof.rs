//! The roof's edge drawn without being asked: of a house whose measures are given, with each of its walls,
//! by stated defaults, where no detail of the file shows it.
//!
//! What it makes with itself, the upper corner of the room, is where a small humid room grows mold first,
//! and neither wall nor roof shows it.

use super::assumed::{Drawn, case, numbered, ready};
use super::detail::{PLATES, REACH};
use crate::model::drawn::{AssumedEdge, RoofEdge, UndrawnEdge};
use crate::model::house::House;
use crate::model::{Case, DetailCase, DetailPlan};
use crate::quantity::Length;

/// The roof's edges of a house, as drawn and under every variant that changes its roof or that wall.
pub(super) fn roof_edges(house: &House, cases: &[Case], details: &[DetailCase]) -> Drawn {
    let mut drawn = Drawn::default();
    let Some(shell) = &house.shell else {
        return drawn;
    };
    let roof = shell.roof.assembly.as_str();
    let mut walls: Vec<&str> = Vec::new();
    for wall in &shell.walls {
        if !walls.contains(&wall.assembly.as_str()) {
            walls.push(&wall.assembly);
        }
    }
    let taken = |name: &str| {
        cases.iter().any(|case| case.assembly.name == name)
            || details.iter().any(|detail| detail.name == name)
    };
    let at = |subject: &str, wall: &str| match walls.len() {
        1 => subject.to_owned(),
        _ => format!("{subject} at {wall}"),
    };
    let is_taken =
        |subject: &str| taken(subject) || walls.iter().any(|wall| taken(&at(subject, wall)));
    let subject = numbered("roof edge", is_taken);
    for wall in &walls {
        let mut variants: Vec<Option<&str>> = vec![None];
        for case in cases {
            let is_ours = [roof, wall].contains(&case.assembly.name.as_str());
            let variant = case.variant.as_deref();
            if is_ours && !variants.contains(&variant) {
                variants.push(variant);
            }
        }
        for variant in variants {
            if is_shown(details, variant, (wall, roof)) {
                continue;
            }
            let found = |name: &str| case(cases, variant, name).map(|case| &case.assembly);
            let (Some(of_wall), Some(of_roof)) = (found(wall), found(roof)) else {
                continue;
            };
            let plan = RoofEdge {
                name: at(&subject, wall),
                variant: variant.map(str::to_owned),
                wall: of_wall.clone(),
                roof: of_roof.clone(),
                plates: Length::from_m(PLATES),
                corner: true,
                inboard: Length::from_m(REACH),
                down: Length::from_m(REACH),
            };
            match ready(plan.draw()) {
                Ok(case) => drawn.details.push(DetailCase {
                    assumed: Some(AssumedEdge {
                        subject: subject.clone(),
                        wall: Some((*wall).to_owned()),
                    }),
                    ..case
                }),
                Err(why) => drawn.undrawn.push(UndrawnEdge {
                    assembly: roof.to_owned(),
                    variant: variant.map(str::to_owned),
                    strip: None,
                    wall: Some((*wall).to_owned()),
                    why,
                }),
            }
        }
    }
    drawn
}

/// Whether a detail of the file shows wall and roof, as drawn or with a variant's changes made.
fn is_shown(details: &[DetailCase], variant: Option<&str>, pair: (&str, &str)) -> bool {
    let mut there = details.iter().filter(|one| match &one.variant {
        Some(own) => Some(own.as_str()) == variant,
        None => true,
    });
    there.any(|one| match &one.plan {
        Some(DetailPlan::RoofEdge(edge)) => {
            (edge.wall.name.as_str(), edge.roof.name.as_str()) == pair
        }
        _ => false,
    })
}
