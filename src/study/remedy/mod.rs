//! What to do about a finding that fails or depends: a change of the model, tried before it is told.
//!
//! - *At the steel* the least board sold that makes the finding pass at every site, over the strip and
//!   bonded; where none does, the humidity of the room at which it would.
//! - *Elsewhere* changes by the check: an air seal, a board outside, a retarder, a more open layer. Each
//!   is applied and judged again; one that makes nothing better, or makes another check fail, isn't
//!   told.
//! - *What no change helps*, the edition of a code or an edge that isn't drawn, is told as that.

mod apply;
mod assembly;
mod board;
mod drier;
mod ground;
mod house;
mod table;
mod vapor;

use super::{Part, Study, Subject};
use crate::check::{
    Check, Detail, Finding, On, UnseenDetail, air_leak, barrier, detail, diffusion, drying,
    insulation_table, inward_leak, mold, retarder, room_surface, steel_wood, unvented_roof, year,
};
use crate::model::Substance;
use crate::model::drawn::FoamReach;
use crate::quantity::{Length, Permeance, RelativeHumidity, ThermalResistance};
pub use ground::DRIEST;
use ground::Ground;

/// What would make a part's finding better.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// The variant it is about; `None` as drawn.
    pub variant: Option<String>,
    /// Each of them does it alone; at least one.
    pub measures: Vec<Measure>,
    /// Whether the first makes the finding pass, as far as the model can tell; else it makes it better,
    /// and any other makes it pass.
    pub clears: bool,
}

/// One thing to do.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Measure {
    /// A board over a strip, under the wood, bonded.
    OverStrip(OverStrip),
    /// A board outside of a layer.
    Outside(Outside),
    /// A layer with no air path around or behind it.
    Seal {
        /// The assembly.
        assembly: String,
        /// The layer.
        layer: String,
        /// Against outdoor air rather than the room's.
        outer: bool,
    },
    /// A vapor retarder.
    Retarder {
        /// The assembly.
        assembly: String,
        /// The layer it lies inside of, or whose place it takes.
        layer: String,
        /// Whether it takes that layer's place.
        replaces: bool,
        /// What it is.
        substance: Box<Substance>,
    },
    /// A layer that lets more vapor through.
    Open {
        /// The assembly.
        assembly: String,
        /// The layer.
        layer: String,
        /// At least this much, at mid humidity.
        permeance: Permeance,
    },
    /// A layer left out.
    Without {
        /// The assembly.
        assembly: String,
        /// The layer.
        layer: String,
    },
    /// Better insulation between members.
    Cavity {
        /// The assembly.
        assembly: String,
        /// The layer.
        layer: String,
        /// By its label.
        resistance: ThermalResistance,
        /// How deep the cavity is.
        depth: Length,
    },
    /// A layer from which water runs out.
    Drain {
        /// The assembly.
        assembly: String,
        /// The layer.
        layer: String,
    },
    /// Room air no more humid than this, at every site.
    DrierRoom {
        /// The greatest relative humidity.
        humidity: RelativeHumidity,
        /// Whether it is clear on the winter mean alone, and not in a cold spell.
        winter_alone: bool,
        /// Whether a cold spell alone asks for it: on the winter mean the room may be as it is.
        for_cold_spell: bool,
    },
    /// Something of the house that gives way.
    Shave(crate::check::Shave),
    /// What the model has no change for.
    Told(Told),
}

/// A board over a strip.
#[derive(Clone, Debug, PartialEq)]
pub struct OverStrip {
    /// The floor.
    pub floor: String,
    /// The strip.
    pub strip: String,
    /// What the board is called.
    pub name: String,
    /// What it is made of.
    pub substance: Box<Substance>,
    /// Its thickness in all.
    pub thickness: Length,
    /// The layer that is there already and gives way to it.
    pub replaces: Option<String>,
    /// Whether only the adhesive is new.
    pub only_bonded: bool,
    /// How far it reaches, where that changes; the plate then stands on it.
    pub reach: Option<FoamReach>,
    /// Whether it is clear on the winter mean alone, and not in a cold spell.
    pub winter_alone: bool,
    /// Whether a detail sized it; by the strip alone the drawing decides.
    pub drawn: bool,
}

/// A board outside.
#[derive(Clone, Debug, PartialEq)]
pub struct Outside {
    /// The assembly.
    pub assembly: String,
    /// What the board is called.
    pub name: String,
    /// What it is made of.
    pub substance: Box<Substance>,
    /// How much is added.
    pub thickness: Length,
    /// The layer it makes thicker, or outside of which it lies.
    pub layer: String,
    /// Whether that layer gets thicker.
    pub thickens: bool,
    /// What a code table asks for in all, where it does.
    pub asked: Option<ThermalResistance>,
}

/// What can't be tried out on the model.
#[derive(Clone, Debug, PartialEq)]
pub enum Told {
    /// State the code's edition and zone.
    Edition,
    /// Draw the edge at a strip as a detail.
    Draw(String),
    /// Look yourself: this method doesn't.
    NotLookedAt(UnseenDetail),
    /// An air seal on the room side of wood that stays on the steel.
    WoodSeal(Vec<String>),
    /// State what isn't known.
    State(Vec<String>),
    /// So much has to go, kg.
    Lighter(f64),
}

impl Study<'_> {
    /// What would make the finding better that speaks for a part; `None` where it passes, or where
    /// nothing that was tried does.
    ///
    /// # Example
    /// ```
    /// use dewmargin::study::{Measure, Study};
    ///
    /// let text = include_str!("../../../examples/cabin-wall.yaml");
    /// let project = dewmargin::input::resolve_text("cabin-wall.yaml", text).unwrap();
    /// let study = Study::of(&project);
    /// let parts = study.parts(None);
    /// let part = parts.iter().find(|part| part.name == "wall 2x6").unwrap();
    /// let remedy = study.remedy(part).unwrap();
    /// // Room air that leaks wets the sheathing: it is kept in.
    /// assert!(matches!(remedy.measures[0], Measure::Seal { .. }));
    /// let better = remedy.measures[0].apply(&project, None).unwrap();
    /// let after = Study::of(&better);
    /// let parts = after.parts(None);
    /// let sealed = parts.iter().find(|part| part.name == "wall 2x6").unwrap();
    /// assert_ne!(sealed.on, part.on);
    /// ```
    #[must_use]
    pub fn remedy(&self, part: &Part<'_>) -> Option<Remedy> {
        if part.status.severity() == 0 {
            return None;
        }
        let with_ground = |ground: &Ground<'_>| {
            let measures = of_assembly(ground);
            let by_vapor = [
                &year::CHECK,
                &diffusion::CHECK,
                &drying::CHECK,
                &mold::CHECK,
            ];
            let by_vapor = by_vapor.contains(&ground.finding.check);
            let clears = !by_vapor || measures.first().is_some_and(|one| ground.clears(one));
            (measures, clears)
        };
        let (variant, (measures, clears)) = match part.subject {
            Subject::House(house) => (house.case.variant, (house::measures(house), true)),
            Subject::Assembly(one) => {
                let ground = Ground::new(self, one, part.speaking()?);
                (one.case.variant.as_deref(), with_ground(&ground))
            }
            Subject::Boxes(one) => {
                let measures = of_boxes(one, part.speaking()?).into_iter().collect();
                (one.case.variant.as_deref(), (measures, true))
            }
            Subject::Detail(one) => {
                let variant = one.case.variant.as_deref();
                let finding = part.speaking()?;
                let floor = one.case.shows().map(|(floor, _)| floor);
                let floor = floor.and_then(|floor| self.assembly(floor, variant));
                match (&finding.strip, floor) {
                    (Some(_), Some(floor)) => {
                        let ground = Ground::new(self, floor, finding);
                        (floor.case.variant.as_deref(), with_ground(&ground))
                    }
                    _ => (variant, (of_detail(self, one, finding), true)),
                }
            }
        };
        (!measures.is_empty()).then(|| Remedy {
            variant: variant.map(str::to_owned),
            measures,
            clears,
        })
    }
}

fn of_detail(study: &Study<'_>, one: &super::JudgedDetail<'_>, finding: &Finding) -> Vec<Measure> {
    if let Detail::AirSeal(spots) = &finding.detail {
        let parts = spots.iter().map(|spot| spot.part.clone()).collect();
        return vec![Measure::Told(Told::WoodSeal(parts))];
    }
    match finding.check == &detail::LEAK {
        true => drier::drier(one, finding).into_iter().collect(),
        false => board::measures(study, one, finding),
    }
}

/// Drawn box by box: what could be moved the drawing doesn't say.
fn of_boxes(one: &super::JudgedBoxes<'_>, finding: &Finding) -> Option<Measure> {
    let place = finding.place.as_ref()?;
    match finding.check == &detail::LEAK {
        true => Some(Measure::Told(Told::WoodSeal(vec![place.path.clone()]))),
        false => drier::drier_of_boxes(one, finding.status),
    }
}

/// What is tried against a finding.
type Tried = fn(&Ground<'_>) -> Vec<Measure>;

/// What could help where a check of an assembly fails or depends.
const MEASURES: [(&Check, Tried); 14] = [
    (&steel_wood::CHECK, board::by_hand),
    (&room_surface::CONDENSATION, of_surface),
    (&room_surface::MOLD, of_surface),
    (&air_leak::CHECK, assembly::leak),
    (&inward_leak::CHECK, assembly::inward),
    (&year::CHECK, vapor::wetting),
    (&diffusion::CHECK, vapor::wetting),
    (&mold::CHECK, vapor::wetting),
    (&drying::CHECK, vapor::drying),
    (&barrier::DOUBLE, vapor::barriers),
    (&barrier::PAN, vapor::pan),
    (&retarder::CHECK, table::measures),
    (&insulation_table::CHECK, table::measures),
    (&unvented_roof::CHECK, table::measures),
];

fn of_assembly(ground: &Ground<'_>) -> Vec<Measure> {
    let finding = ground.finding;
    match finding.on {
        Some(On::Edition) if !table::is_sizable(finding) => {
            return vec![Measure::Told(Told::Edition)];
        }
        Some(On::Drawing) => {
            let strip = finding.strip.clone().unwrap_or_default();
            return vec![Measure::Told(Told::Draw(strip))];
        }
        _ => {}
    }
    let of_check = MEASURES.iter().find(|(check, _)| *check == finding.check);
    match of_check {
        Some((_, measures)) => measures(ground),
        None => assembly::unseen(ground),
    }
}

fn of_surface(ground: &Ground<'_>) -> Vec<Measure> {
    match ground.finding.strip.is_some() {
        true => board::by_hand(ground),
        false => assembly::warmer(ground),
    }
}
