//! The residential code's prescriptive tables, by edition and climate zone: the data of
//! `materials/code-tables.yaml`, each row with its clause and how well it is known.
//!
//! A table is parsed when an edition of it is first asked for and kept from then on. What a build-up has, and
//! whether that meets a table, is the checks' to say.

mod table;

pub(crate) use table::Table;

use crate::document::{At, FromNode, Node, Problems, Range, Value, Word};
use crate::material::one_of;
use crate::quantity::{Permeance, Quantity, ThermalResistance};

/// What is believed of an R-value in a table.
const R_VALUES: Range = Range {
    least: "R-0",
    most: "R-60",
};
/// What is believed of a permeance in a table.
const PERMEANCES: Range = Range {
    least: "0.01 perm",
    most: "100 perm",
};

/// Insulation that a wall's frame may have, any of the pairs.
pub(crate) static INSULATION: Table<Vec<WallInsulation>> = Table::embedded("insulation", pairs);
/// The class of the retarder on the warm side.
pub(crate) static RETARDER_INSIDE: Table<Inside> = Table::embedded("retarder-inside", inside);
/// What a class I retarder opens to when damp, at least, where there is another one outside.
pub(crate) static RETARDER_BOTH_SIDES: Table<Permeance> =
    Table::embedded("retarder-both-sides", permeance);
/// Continuous insulation that class III takes over a 2x4 frame.
pub(crate) static CLASS_THREE_OVER_2X4: Table<ThermalResistance> =
    Table::embedded("class-three-over-2x4", r_value);
/// Continuous insulation that class III takes over a 2x6 frame.
pub(crate) static CLASS_THREE_OVER_2X6: Table<ThermalResistance> =
    Table::embedded("class-three-over-2x6", r_value);
/// The sheathings over which vented cladding allows class III.
pub(crate) static CLASS_THREE_BEHIND_VENTED_CLADDING: Table<Behind> =
    Table::embedded("class-three-behind-vented-cladding", behind);
/// Air-impermeable insulation at the deck of an unvented roof.
pub(crate) static UNVENTED_ROOF: Table<ThermalResistance> =
    Table::embedded("unvented-roof", r_value);

/// Insulation in the cavity and continuous beside it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallInsulation {
    /// Between the members.
    pub cavity: ThermalResistance,
    /// Not crossed by framing.
    pub continuous: ThermalResistance,
}

/// What the warm side must have, or must not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Inside {
    /// Class I or II.
    Tight,
    /// Neither of them.
    NotTight,
}

/// The sheathings behind vented cladding that a row allows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Behind {
    /// Not a wood panel.
    FiberboardOrGypsum,
    /// Any of the three.
    WoodPanelToo,
}

/// `20 or 13+5`: R in the cavity, with continuous R.
fn pairs(asked: &At<Word>, problems: &mut Problems) -> Option<Vec<WallInsulation>> {
    let mut read = |number: &str| r_value(&within(asked, &format!("R-{number}")), problems);
    let pair = |text: &str| {
        let (cavity, continuous) = text.split_once('+').unwrap_or((text, "0"));
        Some(WallInsulation {
            cavity: read(cavity)?,
            continuous: read(continuous)?,
        })
    };
    asked.value.0.split(" or ").map(pair).collect()
}

/// A part of what a row asks for, at the row's place.
fn within(asked: &At<Word>, text: &str) -> At<Word> {
    At {
        value: Word(text.to_owned()),
        span: asked.span,
    }
}

fn r_value(asked: &At<Word>, problems: &mut Problems) -> Option<ThermalResistance> {
    number(asked, R_VALUES, problems)
}

fn permeance(asked: &At<Word>, problems: &mut Problems) -> Option<Permeance> {
    number(asked, PERMEANCES, problems)
}

fn number<T: Quantity>(asked: &At<Word>, range: Range, problems: &mut Problems) -> Option<T> {
    let node = Node {
        value: Value::Text(asked.value.0.clone()),
        span: asked.span,
    };
    At::from_node_within(&node, range, problems).map(|at| at.value)
}

fn inside(asked: &At<Word>, problems: &mut Problems) -> Option<Inside> {
    let words = [
        ("class I or II", Inside::Tight),
        ("no class I or II", Inside::NotTight),
    ];
    one_of(asked, &words, "class", problems)
}

fn behind(asked: &At<Word>, problems: &mut Problems) -> Option<Behind> {
    let words = [
        ("fiberboard or gypsum", Behind::FiberboardOrGypsum),
        ("wood panel, fiberboard or gypsum", Behind::WoodPanelToo),
    ];
    one_of(asked, &words, "sheathing", problems)
}

#[cfg(test)]
mod tests;
