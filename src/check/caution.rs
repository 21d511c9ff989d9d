//! The cautions that go with the numbers, chosen by what an assembly holds and where it stands,
//! each once.

use crate::model::{Assembly, Content, Kind, Stop};

/// The cautions for a set of assemblies and the stops they are judged at.
#[must_use]
pub fn cautions<'a>(
    assemblies: impl IntoIterator<Item = &'a Assembly>,
    stops: impl IntoIterator<Item = &'a Stop>,
) -> Vec<&'static str> {
    let stops: Vec<&Stop> = stops.into_iter().collect();
    let by_month = stops.iter().any(|stop| stop.conditions.year.is_some());
    let heater = stops.iter().any(|stop| {
        let household = stop.indoor.household;
        household.is_some_and(|household| household.unvented_heater)
    });
    let assemblies: Vec<&Assembly> = assemblies.into_iter().collect();
    let holds = |kind: Kind| assemblies.iter().any(|assembly| has(assembly, kind));
    let has_strips = assemblies
        .iter()
        .any(|assembly| !assembly.strips.is_empty());
    let mut cautions = vec![match by_month {
        true => {
            "Monthly means and diffusion alone: storage in the materials, capillary flow, driven \
             rain and air moving through the layers are left out. Bulk water and air sealing are \
             not checked."
        }
        false => {
            "Steady-state estimate at one room humidity. Bulk water, air sealing and storage in \
             the materials are not checked."
        }
    }];
    if has_strips {
        cautions.push(
            "A strip alone is a hand-check: at a wall edge it can show the wood much too warm, the \
             unsafe side. The two-dimensional detail decides there; where none shows the strip, it \
             passes only by more than it may err.",
        );
        cautions.push(
            "Foam over steel makes the steel itself colder: vapor that still reaches it condenses \
             sooner, so the foam needs an air seal.",
        );
    }
    if holds(Kind::Foam) {
        cautions.push("Foam plastic needs a thermal barrier where the code asks for one.");
    }
    if holds(Kind::Metal) || has_strips {
        cautions.push(
            "Keep treated wood off bare steel, and give water that gets onto a pan a way out.",
        );
    }
    if heater {
        cautions.push(
            "An unvented heater brings water, carbon monoxide and nitrogen dioxide into the room: \
             many codes forbid it where people sleep.",
        );
    }
    cautions.push("Not structural. Local codes govern; licensed practice where it is required.");
    cautions
}

fn has(assembly: &Assembly, kind: Kind) -> bool {
    let over = assembly.strips.iter().flat_map(|strip| &strip.over);
    assembly.layers.iter().chain(over).any(
        |layer| matches!(&layer.content, Content::Solid(substance) if substance.kind == Some(kind)),
    )
}
