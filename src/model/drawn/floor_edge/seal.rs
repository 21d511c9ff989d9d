//! The air seal on the room side of the wood that stays on the steel.
//!
//! ```text
//!             s│░ wall ░┃l│        ┃ from `wall-lining`: up the lining's back
//!             h├────────┃i│        ┃ from `plate`: up the plate alone
//!             e│ plate  ┃n│
//!             a┏━━━━━━━━┛g├─ finish     from `deck`: under the plate and down the sheathing
//!             t┃        deck
//!             h┡━━━━━━━━┓───┏━━━━┓
//!             i│packing ┃foa┃rim ┃      to `rim-joist`: all around the joist as well
//!             ng━━━━━━━━┛m  ┃    ┃
//!              ╞ flange ════╡    ┃      to `flange`: around the packing, down to the steel
//!                           ┗━━━━┛
//! ```
//! The deck inboard of the plate, and what lies over the flange there, stay on the room's side: no
//! seal keeps the room's air from the floor it walks on. Joints between steel and wood count as
//! leaky until they are sealed, so packing and sheathing are bedded on the flange.

use super::frame::Frame;
use crate::model::detail::{Area, LEAST_SIZE};
use crate::model::drawn::drawing::{Drawing, EdgeKey, EdgeProblem};

/// Where an edge's air seal starts; each includes those after it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SealFrom {
    /// At the wall's lining, sealed over its whole height: room air stays out of the wall.
    WallLining,
    /// At the top of the plate's inner face.
    Plate,
    /// At the joint between deck and plate.
    Deck,
}

/// Where it ends; each includes those before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SealTo {
    /// At the deck, under the plate.
    Deck,
    /// On the flange: packing and sheathing are bedded on it.
    Flange,
    /// Around the rim joist.
    RimJoist,
}

/// An air seal that the file promises at a floor edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EdgeSeal {
    /// Where it starts, from the room's side.
    pub from: SealFrom,
    /// Where it ends.
    pub to: SealTo,
}

impl EdgeSeal {
    /// What its lines are called.
    pub const NAME: &'static str = "air seal";
    /// The words of a file for where it starts.
    pub const FROM: [(&'static str, SealFrom); 3] = [
        ("wall-lining", SealFrom::WallLining),
        ("plate", SealFrom::Plate),
        ("deck", SealFrom::Deck),
    ];
    /// The words of a file for where it ends.
    pub const TO: [(&'static str, SealTo); 3] = [
        ("deck", SealTo::Deck),
        ("flange", SealTo::Flange),
        ("rim-joist", SealTo::RimJoist),
    ];

    /// `from the wall lining to the rim joist`.
    #[must_use]
    pub fn course(self) -> String {
        let from = match self.from {
            SealFrom::WallLining => "wall lining",
            SealFrom::Plate => "plate",
            SealFrom::Deck => "deck",
        };
        let to = match self.to {
            SealTo::Deck => "deck",
            SealTo::Flange => "flange",
            SealTo::RimJoist => "rim joist",
        };
        format!("from the {from} to the {to}")
    }
}

impl Frame<'_> {
    pub(super) fn draw_seal(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let Some(seal) = self.edge.seal else {
            return Ok(());
        };
        if (seal.from, seal.to) == (SealFrom::Deck, SealTo::Deck) {
            let message = "this air seal starts and ends at the deck";
            let expected =
                "expected `from: plate` or `wall-lining`, or `to: flange` or `rim-joist`";
            return Err(EdgeProblem::new(EdgeKey::Seal, message, expected));
        }
        if seal.to == SealTo::RimJoist && self.rim.is_none() {
            let message =
                "this edge has no rim joist: the floor has no framed layer below the flange";
            let expected = "expected `to: flange`";
            return Err(EdgeProblem::new(EdgeKey::Seal, message, expected));
        }
        for line in self.seal_lines(seal) {
            let is_line =
                line.right - line.left > LEAST_SIZE || line.top - line.bottom > LEAST_SIZE;
            if is_line {
                drawing.promised_seal(EdgeSeal::NAME, line);
            }
        }
        drawing.notes([format!(
            "an air seal {} is promised: room air is taken to get no further there",
            seal.course()
        )]);
        let fill = &self.wall.all[self.studs].layer;
        if seal.from != SealFrom::WallLining && !fill.bonded {
            drawing.notes([format!(
                "the air seal leaves the wall's lining out: air that gets behind it, into `{}`, \
                 still reaches plate and sheathing",
                fill.name
            )]);
        }
        Ok(())
    }

    fn seal_lines(&self, seal: EdgeSeal) -> Vec<Area> {
        let upright = |x: f64, bottom: f64, top: f64| Area::new(x, x, bottom, top);
        let level = |left: f64, right: f64, y: f64| Area::new(left, right, y, y);
        let mut lines = Vec::new();
        match seal.from {
            SealFrom::WallLining => {
                lines.push(upright(self.plate_inner, self.deck_top, self.top()))
            }
            SealFrom::Plate => {
                lines.push(upright(self.plate_inner, self.deck_top, self.plate_top()))
            }
            SealFrom::Deck => {}
        }
        lines.push(level(self.plate_outer, self.plate_inner, self.deck_top));
        if seal.to == SealTo::Deck {
            return lines;
        }
        // Down the sheathing's inner face, and under and around what stands on the flange.
        lines.push(upright(self.plate_outer, self.flange_top, self.deck_top));
        lines.push(level(self.plate_outer, self.plate_inner, 0.0));
        let packed = self.packed();
        lines.push(upright(packed, self.flange_top, 0.0));
        lines.push(level(self.wall_outer, packed, self.flange_top));
        if let (SealTo::RimJoist, Some(rim)) = (seal.to, self.rim) {
            lines.push(level(rim.left, rim.right, rim.top));
            lines.push(upright(rim.right, rim.bottom, rim.top));
            lines.push(level(rim.left, rim.right, rim.bottom));
            lines.push(upright(rim.left, rim.bottom, rim.top));
        }
        lines
    }
}
