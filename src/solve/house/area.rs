//! Net areas by assembly: inside ones for heat, framed ones for weight.
//!
//! ```text
//! inside   floor    length × width between the walls' inner faces
//!          wall     inside length × clear height, floor surface to ceiling
//!          roof     floor area × √(1 + pitch²)
//! framed   floor    deck
//!          wall     length at the deck's edge × framed height (corners counted twice)
//!          roof     deck × √(1 + pitch²); layers outside of the rafters, and the rafters
//!                   themselves, with the overhangs
//! ```
//! less the openings. An area stated in the file stands for both.

use super::layout::Layout;
use crate::model::house::{HouseCase, NO_INSETS, OpeningPlace, Shell, Side};

/// One surface of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct AreaPart {
    /// `floor`, `left wall`, `roof`.
    pub name: String,
    /// By inside measures, openings included, m².
    pub inside: f64,
    /// Out to out of the framing, openings included, m².
    pub framed: f64,
    /// Of the openings in it, m².
    pub openings: f64,
}

/// The surfaces of one assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct AssemblyArea {
    /// The assembly.
    pub assembly: String,
    /// Its surfaces; empty where the area is stated.
    pub parts: Vec<AreaPart>,
    /// Net by inside measures, m²: for heat.
    pub inside: f64,
    /// Net out to out of the framing, m²: for weight.
    pub framed: f64,
    /// As `framed`, with a roof's overhangs.
    pub with_overhangs: f64,
    /// Whether the file states it.
    pub stated: bool,
}

/// Areas of every assembly of a house, in the order floor, walls, roof, others.
#[must_use]
pub fn areas(case: &HouseCase<'_>, layout: Option<&Layout>) -> Vec<AssemblyArea> {
    let house = case.house;
    let shell = house.shell.as_ref().zip(layout);
    let of = |name: &str| {
        let stated = house.areas.iter().find(|(known, _)| known == name);
        if let Some((_, area)) = stated {
            let area = area.as_m2();
            return Some(AssemblyArea {
                assembly: name.to_owned(),
                parts: Vec::new(),
                inside: area,
                framed: area,
                with_overhangs: area,
                stated: true,
            });
        }
        let (shell, layout) = shell?;
        Some(computed(case, shell, layout, name))
    };
    house.assemblies().into_iter().filter_map(of).collect()
}

fn computed(case: &HouseCase<'_>, shell: &Shell, layout: &Layout, name: &str) -> AssemblyArea {
    let mut parts = Vec::new();
    let mut overhangs = 0.0;
    let openings = |place: OpeningPlace| {
        let all = case.house.openings.iter();
        let here = all.filter(|one| one.place == place);
        here.map(|one| one.area().as_m2()).sum::<f64>()
    };
    let deck = shell.length.as_m() * shell.width.as_m();
    if shell.floor == name {
        parts.push(AreaPart {
            name: "floor".into(),
            inside: layout.floor_area(shell),
            framed: deck,
            openings: 0.0,
        });
    }
    for side in Side::ALL {
        if shell.walls[side.index()].assembly != name {
            continue;
        }
        let clear = shell.wall_area(side, &layout.insets);
        let taken = layout.taken(shell) * shell.length_within(side, &layout.insets);
        parts.push(AreaPart {
            name: format!("{} wall", side.word()),
            inside: clear - taken,
            framed: shell.wall_area(side, &NO_INSETS),
            openings: openings(OpeningPlace::Wall(side)),
        });
    }
    if shell.roof.assembly == name {
        let stretch = shell.roof.form.pitch().stretch();
        let reach = |side: Side| layout.reach(shell, side);
        let length = shell.length.as_m() + reach(Side::Front) + reach(Side::Back);
        let width = shell.width.as_m() + reach(Side::Left) + reach(Side::Right);
        overhangs = (length * width - deck) * stretch;
        parts.push(AreaPart {
            name: "roof".into(),
            inside: layout.floor_area(shell) * stretch,
            framed: deck * stretch,
            openings: openings(OpeningPlace::Roof),
        });
    }
    let net = |gross: fn(&AreaPart) -> f64| {
        let of = |part: &AreaPart| (gross(part) - part.openings).max(0.0);
        parts.iter().map(of).sum::<f64>()
    };
    let framed = net(|part| part.framed);
    AssemblyArea {
        assembly: name.to_owned(),
        inside: net(|part| part.inside),
        framed,
        with_overhangs: framed + overhangs,
        stated: false,
        parts,
    }
}
