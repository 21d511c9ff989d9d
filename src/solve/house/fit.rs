//! Outside measures of the house as sums of terms, and the head room inside.
//!
//! ```text
//! width    deck + Σ outboard layers + trim or overhang, both sides
//! length   the same from front to back; at the front the tongue where it reaches further
//! height   deck height + over strips + subfloor and below + framed wall + rise
//!          + Σ roof layers from the rafters outward × √(1 + pitch²) + what stands above
//! ```
//! Trim and overhang both start at the siding: the greater counts. A shed roof rises on over its
//! high wall to the eave's end.

use super::layout::{Layout, built};
use crate::model::house::{HouseCase, RoofForm, Shell, Side};
use crate::model::{Assembly, Layer};
use crate::quantity::Length;

/// What a term is; a help knows by it what can be shaved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TermKind {
    /// The deck.
    Deck,
    /// A layer of a wall outside of the deck's edge.
    WallLayer(Side),
    /// Trim and fasteners.
    Trim(Side),
    /// A roof's overhang.
    Overhang(Side),
    /// The tongue.
    Tongue,
    /// The frame's top over the road.
    DeckHeight,
    /// What lies over the floor's strips.
    OverStrips,
    /// A layer of the floor.
    FloorLayer,
    /// The walls.
    WallHeight,
    /// The roof's rise over the walls.
    Rise,
    /// Its further rise over an overhang.
    EaveRise,
    /// A layer of the roof.
    RoofLayer,
    /// What stands above the roof.
    StandsAbove,
}

/// One term of a measure.
#[derive(Clone, Debug, PartialEq)]
pub struct Term {
    /// What it is.
    pub kind: TermKind,
    /// In words, such as `left sheathing`.
    pub name: String,
    /// The assembly and the layer, where it is one.
    pub layer: Option<(String, String)>,
    /// What it adds, m.
    pub value: f64,
    /// A sloped layer's thickness, square to the slope, m.
    pub square: Option<f64>,
}

/// A measure of the outside.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Measure {
    /// Its terms.
    pub terms: Vec<Term>,
}

impl Measure {
    /// The sum of its terms.
    #[must_use]
    pub fn total(&self) -> Length {
        Length::from_m(self.terms.iter().map(|term| term.value).sum())
    }

    fn add(&mut self, kind: TermKind, name: impl Into<String>, value: f64) {
        if value > 0.0 {
            self.terms.push(Term {
                kind,
                name: name.into(),
                layer: None,
                value,
                square: None,
            });
        }
    }

    fn layer(&mut self, kind: TermKind, prefix: &str, assembly: &Assembly, layer: &Layer) {
        let thickness = built(layer);
        if thickness > 0.0 {
            self.terms.push(Term {
                kind,
                name: format!("{prefix}{}", layer.name),
                layer: Some((assembly.name.clone(), layer.name.clone())),
                value: thickness,
                square: None,
            });
        }
    }
}

/// Head room from the floor's surface to the ceiling.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadRoom {
    /// At the inner face of the lowest wall, m.
    pub least: f64,
    /// At the highest place, m.
    pub greatest: f64,
    /// The framed height at the place of the least, m.
    pub framed: f64,
    /// What floor and ceiling take of it, m.
    pub floor: f64,
    /// The ceiling's share of that, upright, m.
    pub ceiling: f64,
}

/// The outside measures of a house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fit {
    /// Side to side.
    pub width: Option<Measure>,
    /// Front to back.
    pub length: Option<Measure>,
    /// Road to the highest point; `None` without a deck height.
    pub height: Option<Measure>,
    /// The height's terms without the deck's: what the house itself builds on the frame.
    pub above_deck: Option<Measure>,
    /// Head room.
    pub head_room: Option<HeadRoom>,
    /// What isn't stated and was taken as nothing.
    pub not_stated: Vec<&'static str>,
}

impl Fit {
    /// Everything between the frame's top and the roof's that isn't head room, m: at the same
    /// overall height, what a variant adds to it is head room lost.
    #[must_use]
    pub fn height_taken(&self) -> Option<f64> {
        Some(self.above_deck.as_ref()?.total().as_m() - self.head_room?.least)
    }
}

/// Adds up the outside measures.
#[must_use]
pub fn fit(case: &HouseCase<'_>, layout: Option<&Layout>) -> Fit {
    let Some((shell, layout)) = case.house.shell.as_ref().zip(layout) else {
        return Fit::default();
    };
    let upward = upward(case, shell, layout);
    let deck_height = case.house.trailer.deck_height;
    let height = deck_height.map(|deck| {
        let mut height = Measure::default();
        height.add(TermKind::DeckHeight, "deck height", deck.as_m());
        height.terms.extend(upward.terms.iter().cloned());
        height
    });
    let tongue = case.house.trailer.tongue.map(Length::as_m);
    Fit {
        width: Some(across(case, shell, layout, (Side::Left, Side::Right), None)),
        length: Some(across(
            case,
            shell,
            layout,
            (Side::Front, Side::Back),
            tongue,
        )),
        height,
        above_deck: Some(upward),
        head_room: Some(head_room(shell, layout)),
        not_stated: not_stated(case, shell),
    }
}

fn across(
    case: &HouseCase<'_>,
    shell: &Shell,
    layout: &Layout,
    (one, other): (Side, Side),
    tongue: Option<f64>,
) -> Measure {
    let mut measure = Measure::default();
    // The deck from left to right is as long as the front wall.
    let along = if one.is_long() {
        Side::Front
    } else {
        Side::Left
    };
    measure.add(TermKind::Deck, "deck", shell.side_length(along));
    let first = outboard(case, shell, layout, one);
    match tongue.filter(|tongue| *tongue > first.total().as_m()) {
        Some(tongue) => measure.add(TermKind::Tongue, "tongue", tongue),
        None => measure.terms.extend(first.terms),
    }
    measure
        .terms
        .extend(outboard(case, shell, layout, other).terms);
    measure
}

/// What stands out beyond the deck's edge at a side.
fn outboard(case: &HouseCase<'_>, shell: &Shell, layout: &Layout, side: Side) -> Measure {
    let mut measure = Measure::default();
    let wall = &shell.walls[side.index()];
    if let Some(assembly) = case.assembly(&wall.assembly) {
        for layer in assembly.layers.iter().skip(layout.outboard[side.index()]) {
            let prefix = format!("{} ", side.word());
            measure.layer(TermKind::WallLayer(side), &prefix, assembly, layer);
        }
    }
    let trim = wall.trim.map_or(0.0, Length::as_m);
    let overhang = shell.overhang(side);
    match overhang > trim {
        true => {
            let name = format!("{} overhang", side.word());
            measure.add(TermKind::Overhang(side), name, overhang);
        }
        false => measure.add(TermKind::Trim(side), format!("{} trim", side.word()), trim),
    }
    measure
}

/// From the frame's top to the highest point.
fn upward(case: &HouseCase<'_>, shell: &Shell, layout: &Layout) -> Measure {
    let mut measure = Measure::default();
    measure.add(TermKind::OverStrips, "over the strips", layout.over_strips);
    if let Some(floor) = case.assembly(&shell.floor) {
        for layer in floor.layers[layout.plate_on..=layout.above_frame]
            .iter()
            .rev()
        {
            measure.layer(TermKind::FloorLayer, "", floor, layer);
        }
    }
    measure.add(
        TermKind::WallHeight,
        "wall, framed",
        shell.wall_height.as_m(),
    );
    measure.add(TermKind::Rise, "roof's rise", shell.rise());
    if let RoofForm::Shed { low, pitch } = shell.roof.form {
        let beyond = layout.reach(shell, low.opposite());
        measure.add(
            TermKind::EaveRise,
            "rise over the high eave",
            pitch.as_ratio() * beyond,
        );
    }
    let stretch = shell.roof.form.pitch().stretch();
    if let Some(roof) = case.assembly(&shell.roof.assembly) {
        for layer in &roof.layers[layout.on_walls..] {
            measure.layer(TermKind::RoofLayer, "roof ", roof, layer);
            let sloped = stretch > 1.0;
            if let Some(last) = measure
                .terms
                .last_mut()
                .filter(|_| sloped && built(layer) > 0.0)
            {
                last.square = Some(last.value);
                last.value *= stretch;
            }
        }
    }
    let above = shell.roof.stands_above.map_or(0.0, Length::as_m);
    measure.add(TermKind::StandsAbove, "stands above the roof", above);
    measure
}

fn head_room(shell: &Shell, layout: &Layout) -> HeadRoom {
    let (from, to) = layout.slope_within(shell);
    let low = shell.framed_height_at(from).min(shell.framed_height_at(to));
    let high = match shell.roof.form {
        RoofForm::Gable { .. } => shell.framed_height_at((shell.span() / 2.0).clamp(from, to)),
        _ => shell.framed_height_at(from).max(shell.framed_height_at(to)),
    };
    let taken = layout.taken(shell);
    HeadRoom {
        least: low - taken,
        greatest: high - taken,
        framed: low,
        floor: layout.floor_inside,
        ceiling: taken - layout.floor_inside,
    }
}

fn not_stated(case: &HouseCase<'_>, shell: &Shell) -> Vec<&'static str> {
    let roof = &shell.roof;
    let missing = [
        (
            "trim beyond the siding",
            shell.walls.iter().any(|wall| wall.trim.is_none()),
        ),
        (
            "a roof overhang",
            roof.overhangs.iter().any(Option::is_none),
        ),
        ("what stands above the roof", roof.stands_above.is_none()),
        ("the tongue", case.house.trailer.tongue.is_none()),
    ];
    let names = missing.into_iter().filter(|(_, missing)| *missing);
    names.map(|(name, _)| name).collect()
}
