//! What the code's tables ask for, as boards and retarders.

use super::ground::Ground;
use super::{Measure, Outside, Told, assembly, vapor};
use crate::check::retarder::Ground as Why;
use crate::check::{Detail, Finding};
use crate::quantity::ThermalResistance;

/// Whether a finding says enough to size what is asked for; else the edition is missing.
pub(super) fn is_sizable(finding: &Finding) -> bool {
    match &finding.detail {
        Detail::Retarder(found) => found.ground != Why::NotStated,
        Detail::Insulation(found) => !found.options.is_empty(),
        Detail::UnventedRoof(found) => found.needed.is_some(),
        _ => false,
    }
}

/// By the table's own numbers.
pub(super) fn measures(ground: &Ground<'_>) -> Vec<Measure> {
    let found = match &ground.finding.detail {
        Detail::Retarder(found) => match found.ground {
            Why::TooTight => found
                .layer
                .iter()
                .map(|layer| Measure::Without {
                    assembly: ground.name(),
                    layer: layer.clone(),
                })
                .collect(),
            Why::BothSides => vapor::retarders(ground),
            _ => {
                let board = found.needed.map(|needed| board(ground, needed));
                vapor::retarders(ground)
                    .into_iter()
                    .take(1)
                    .chain(board.flatten())
                    .collect()
            }
        },
        Detail::Insulation(found) => {
            let has = found.has;
            let outside = found
                .options
                .iter()
                .filter(|option| has.cavity.as_si() >= option.cavity.as_si() - 1e-3);
            let outside = outside.filter_map(|option| board(ground, option.continuous));
            let cavity = found
                .options
                .iter()
                .filter(|option| has.continuous.as_si() >= option.continuous.as_si() - 1e-3);
            let layer = ground
                .assembly()
                .layers
                .iter()
                .find(|one| one.framing.is_some());
            let cavity = cavity.zip(layer).map(|(option, layer)| Measure::Cavity {
                assembly: ground.name(),
                layer: layer.name.clone(),
                resistance: option.cavity,
                depth: layer.thickness,
            });
            outside.take(1).chain(cavity.take(1)).collect::<Vec<_>>()
        }
        Detail::UnventedRoof(found) => {
            let needed = found.needed.and_then(|needed| board(ground, needed));
            needed.into_iter().collect()
        }
        _ => Vec::new(),
    };
    let clears = |measure: &Measure| ground.clears(measure) && !ground.harms(measure);
    let found: Vec<Measure> = found.into_iter().filter(clears).collect();
    match found.is_empty() && ground.finding.status.severity() == 1 {
        true => vec![Measure::Told(Told::Edition)],
        false => found,
    }
}

/// The least board outside with which the table is met, and what it asks for in all.
fn board(ground: &Ground<'_>, asked: ThermalResistance) -> Option<Measure> {
    let all = assembly::outside(ground).into_iter();
    let told = all.map(|measure| match measure {
        Measure::Outside(outside) => Measure::Outside(Outside {
            asked: Some(asked),
            ..outside
        }),
        other => other,
    });
    let mut clearing = told.filter(|measure| ground.clears(measure));
    clearing.next()
}
