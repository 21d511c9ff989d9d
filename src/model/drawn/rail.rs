//! The steel frame's edge member under the flange.

use super::case::Part;
use super::drawing::{Drawing, EdgeKey, EdgeProblem, Stuff};
use super::layers::air_conductivity;
use crate::model::detail::Area;
use crate::model::{Substance, Told};
use crate::physics::heat::Direction;
use crate::quantity::Length;

/// The section of an edge member.
///
/// ```text
/// tube              angle             angle with a foot   channel
/// ══flange══════    ══flange══════    ══flange══════      ══flange══════
/// ┌──────────┐      │                 │                   ┌─────────
/// │          │      │                 │                   │
/// └──────────┘      │                 └─────────          └─────────
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RailShape {
    /// Closed on four sides.
    Tube,
    /// One upright leg at the outer face; the flange, or a foot below the floor, is the other.
    Angle,
    /// An upright web at the outer face with two legs inward.
    Channel,
}

/// The frame's edge member; its outer face is the frame's.
#[derive(Clone, Debug, PartialEq)]
pub struct Rail {
    /// Its section.
    pub shape: RailShape,
    /// What it is made of.
    pub substance: Substance,
    /// Conductivity of it, W/(m·K).
    pub conductivity: f64,
    /// Overall height below the flange; `None`: down to the pan.
    pub height: Option<Length>,
    /// Overall width; `None` only for an angle without a foot.
    pub width: Option<Length>,
    /// Thickness of its walls.
    pub thickness: Length,
    /// Of a tube: whether it is hollow.
    pub hollow: bool,
}

impl Rail {
    /// What is wrong with its own measures.
    pub(super) fn sound(&self, height: f64) -> Result<(), EdgeProblem> {
        let thickness = self.thickness.as_m();
        let walls = match self.shape {
            RailShape::Angle => 1.0,
            RailShape::Tube | RailShape::Channel => 2.0,
        };
        let is_solid = self.shape == RailShape::Tube && !self.hollow;
        if height <= walls * thickness && !is_solid {
            let message = Told::of([
                "a rail ".into(),
                Length::from_m(height).into(),
                " high has no room for walls of ".into(),
                self.thickness.into(),
            ]);
            let expected = "expected a greater height, or thinner walls";
            return Err(EdgeProblem::new(EdgeKey::RailHeight, message, expected));
        }
        match self.width.map(|width| width.as_m()) {
            None if self.shape != RailShape::Angle => {
                let message = "a tube or channel has a width";
                let expected = "expected a `width:` such as `2 in`";
                Err(EdgeProblem::new(EdgeKey::RailWidth, message, expected))
            }
            Some(width) if width <= walls * thickness && !is_solid => {
                let message = Told::of([
                    "this rail has no room for walls of ".into(),
                    self.thickness.into(),
                ]);
                let expected = "expected a greater width, or thinner walls";
                Err(EdgeProblem::new(EdgeKey::RailWidth, message, expected))
            }
            _ => Ok(()),
        }
    }

    /// How far it reaches inward, m.
    pub(super) fn depth(&self) -> f64 {
        let width = self.width.unwrap_or(self.thickness);
        width.as_m().max(self.thickness.as_m())
    }

    /// Draws it with its outer face at x, between two heights.
    pub(super) fn draw(&self, drawing: &mut Drawing, x: f64, bottom: f64, top: f64) {
        let steel = Stuff::Substance(&self.substance, self.conductivity);
        let (t, inner) = (self.thickness.as_m(), x + self.depth());
        let mut add = |name: &str, area| drawing.block(name, Part::Rail, &steel, area, true);
        match self.shape {
            RailShape::Tube => {
                add("rail", Area::new(x, inner, bottom, top));
                if self.hollow {
                    let width = inner - x - 2.0 * t;
                    let k = air_conductivity(Length::from_m(width), Direction::Horizontal);
                    let hollow = Area::new(x + t, inner - t, bottom + t, top - t);
                    drawing.block("rail hollow", Part::Cavity, &Stuff::Cavity(k), hollow, true);
                }
            }
            RailShape::Angle => {
                add("rail", Area::new(x, x + t, bottom, top));
                add("rail foot", Area::new(x + t, inner, bottom, bottom + t));
            }
            RailShape::Channel => {
                add("rail", Area::new(x, x + t, bottom, top));
                add("rail foot", Area::new(x + t, inner, bottom, bottom + t));
                add("rail head", Area::new(x + t, inner, top - t, top));
            }
        }
    }
}
