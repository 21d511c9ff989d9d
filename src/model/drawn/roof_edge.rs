//! The roof's edge: where wall and roof meet above the room, drawn from their assemblies. With itself it
//! makes the room's upper corner, where two walls and the roof meet.
//!
//! ```text
//!                         outdoors, or the roof's open gap
//!   ┌─────────────────────────────────────────────────────────
//!   │ roof layers outside of the rafters, to the wall's outer face
//!   ├──┬──────────────────────────────────────────────────────
//!   │  │ rafter bay, over the plates
//!   │s ├────────┬─────────────────────────────────────────────
//!   │h │ plates │      ceiling, to the plates' inner edge      up
//!   │e ├────────┼─┬───────────────────────────────────────    │
//!   │a │ wall   │l│   room                                    └── inboard
//!   │t │ fill   │i│
//! ```
//! What runs where, and why:
//! - The **plates** lie on the studs, their upper face at the rafters' underside; the **ceiling** runs to
//!   their inner edge, and the wall's **lining** stands up to it.
//! - **Sheathing** and all wall layers outside of the studs run up to the top of the rafters; the roof's
//!   layers above them run out to the wall's outer face. A panel counts as rafters, or as studs, by its
//!   thickest layer; without studs there are no plates.
//! - Everything is drawn level and at a right angle, whatever the roof's pitch. Eaves and rakes end at the
//!   wall: a rafter's tail conducts little along its length. The cut runs between rafters and between
//!   studs, as a floor edge's does.
//! - An open gap is outdoor air with the inner film; what lies beyond it is left out.

use super::case::{CaseRegion, DetailCase, DetailKind, Part, Surface};
use super::drawing::{Drawing, EdgeKey, EdgeProblem, Stuff, stated};
use super::films::{FilmRole, StatedFilms};
use super::layers::{CutLayers, conducting, main_layer, of_kind, outside_role};
use super::plan::DetailPlan;
use crate::model::detail::{Area, Facing, LEAST_SIZE};
use crate::model::{Assembly, AssemblyKind, Substance, Told, ToldPart};
use crate::quantity::Length;

/// Air shown outside, m.
const MARGIN: f64 = 3.0 * crate::quantity::unit::INCH;

const JUDGED: &str = "the room's surfaces alone are judged here; what air leaks do to this wood is judged \
                      of wall and roof";

/// What a roof's edge is drawn from.
#[derive(Clone, Debug, PartialEq)]
pub struct RoofEdge {
    /// The detail's name.
    pub name: String,
    /// The variant's name.
    pub variant: Option<String>,
    /// The wall.
    pub wall: Assembly,
    /// The roof.
    pub roof: Assembly,
    /// Height of the plates on the studs, all together.
    pub plates: Length,
    /// Whether the room has a corner where two such walls meet under the roof.
    pub corner: bool,
    /// How far the cut runs into the roof from the wall's inner face.
    pub inboard: Length,
    /// How far it runs down the wall from the ceiling.
    pub down: Length,
}

impl RoofEdge {
    /// Draws it.
    ///
    /// # Errors
    /// The first thing that can't be built that way, with the key it is about.
    pub fn draw(&self) -> Result<DetailCase, EdgeProblem> {
        let lines = Lines::of(self)?;
        let kind = DetailKind::RoofEdge;
        let mut drawing = Drawing::new(&self.name, self.variant.as_deref(), kind);
        drawing.notes(lines.roof.notes.iter().chain(&lines.wall.notes).cloned());
        drawing.notes(lines.left_out());
        drawing.notes([JUDGED.to_owned()]);
        lines.draw_roof(&mut drawing);
        lines.draw_wall(&mut drawing);
        lines.draw_air(&mut drawing);
        lines.measure(&mut drawing);
        let left = lines.wall_outer - MARGIN;
        let cut = Area::new(left, lines.right, lines.bottom, lines.roof_top + MARGIN);
        Ok(DetailCase {
            plan: Some(DetailPlan::RoofEdge(Box::new(self.clone()))),
            ..drawing.finish(cut)
        })
    }
}

/// Where everything lies: x from the wall's inner face, y from the ceiling's surface, m.
struct Lines<'a> {
    edge: &'a RoofEdge,
    wall: CutLayers<'a>,
    roof: CutLayers<'a>,
    /// Index of the wall's layer between the studs, and of the roof's between the rafters.
    studs: usize,
    rafters: usize,
    wall_outer: f64,
    plate_outer: f64,
    plate_inner: f64,
    /// Underside and top of the rafters.
    rafters_bottom: f64,
    rafters_top: f64,
    roof_top: f64,
    right: f64,
    bottom: f64,
}

impl<'a> Lines<'a> {
    fn of(edge: &'a RoofEdge) -> Result<Self, EdgeProblem> {
        of_kind(&edge.wall, AssemblyKind::Wall, EdgeKey::Wall)?;
        of_kind(&edge.roof, AssemblyKind::Roof, EdgeKey::Roof)?;
        let wall = CutLayers::of(&edge.wall, EdgeKey::Wall)?;
        let roof = CutLayers::of(&edge.roof, EdgeKey::Roof)?;
        let (studs, rafters) = (main_layer(&wall), main_layer(&roof));
        let plate_inner = -wall.depth_before(studs);
        let rafters_bottom = roof.depth_before(rafters);
        let lines = Self {
            edge,
            studs,
            rafters,
            wall_outer: -wall.thickness(),
            plate_outer: -wall.depth_before(studs + 1),
            plate_inner,
            rafters_bottom,
            rafters_top: roof.depth_before(rafters + 1),
            roof_top: roof.thickness(),
            right: edge.inboard.as_m(),
            bottom: -edge.down.as_m(),
            wall,
            roof,
        };
        lines.sound()?;
        Ok(lines)
    }

    fn sound(&self) -> Result<(), EdgeProblem> {
        let too_short = |key, what: &str, least: f64| {
            let shown = ToldPart::Length(Length::from_m(least));
            let expected = Told::of(["expected more than ".into(), shown]);
            Err(EdgeProblem::new(key, what, expected))
        };
        for (key, layers, what) in [
            (
                EdgeKey::Wall,
                &self.wall,
                "nothing of the wall is left to draw",
            ),
            (
                EdgeKey::Roof,
                &self.roof,
                "nothing of the roof is left to draw",
            ),
        ] {
            if layers.thickness() <= LEAST_SIZE {
                return Err(EdgeProblem::new(
                    key,
                    what,
                    "expected solid layers inside of its open air space",
                ));
            }
        }
        let below = self.plates_height() - self.rafters_bottom;
        if -self.bottom <= below.max(0.0) + LEAST_SIZE {
            let what = "the cut ends above the plates' underside";
            return too_short(EdgeKey::Down, what, below);
        }
        if self.right <= LEAST_SIZE {
            let what = "the cut ends at the wall's inner face";
            return too_short(EdgeKey::Inboard, what, LEAST_SIZE);
        }
        Ok(())
    }

    /// The wood of the plates; `None` where the wall has no studs.
    fn plate_wood(&self) -> Option<(&'a Substance, f64)> {
        let framing = self.wall.all.get(self.studs)?.layer.framing.as_ref()?;
        conducting(&framing.substance)
    }

    fn plates_height(&self) -> f64 {
        self.plate_wood().map_or(0.0, |_| self.edge.plates.as_m())
    }

    /// What of the roof's outer surface the cut doesn't have.
    fn left_out(&self) -> Option<String> {
        let offsets = &self.edge.roof.surface_offsets;
        let night_sky = offsets.night_sky.as_kelvin() > 0.0;
        night_sky.then(|| {
            "sun and night sky on the roof are left out: under a clear sky it is colder here".into()
        })
    }

    fn draw_roof(&self, drawing: &mut Drawing) {
        let roof = &self.edge.roof;
        let mut y = 0.0;
        for (n, layer) in self.roof.all.iter().enumerate() {
            let (bottom, top) = (y, y + layer.thickness);
            y = top;
            let left = match n.cmp(&self.rafters) {
                std::cmp::Ordering::Less => self.plate_inner,
                std::cmp::Ordering::Equal => self.plate_outer,
                std::cmp::Ordering::Greater => self.wall_outer,
            };
            let area = Area::new(left, self.right, bottom, top);
            let stuff = Stuff::Layer(roof, *layer);
            drawing.block(&layer.layer.name, Part::Roof, &stuff, area, false);
        }
    }

    fn draw_wall(&self, drawing: &mut Drawing) {
        let plates_bottom = self.rafters_bottom - self.plates_height();
        if let Some((wood, conductivity)) = self.plate_wood() {
            let (left, right) = (self.plate_outer, self.plate_inner);
            let area = Area::new(left, right, plates_bottom, self.rafters_bottom);
            let stuff = Stuff::Substance(wood, conductivity);
            drawing.block("top plates", Part::Plate, &stuff, area, false);
        }
        let mut x = 0.0;
        for (n, layer) in self.wall.all.iter().enumerate() {
            let (left, right) = (x - layer.thickness, x);
            x = left;
            let top = match n.cmp(&self.studs) {
                std::cmp::Ordering::Less => 0.0,
                std::cmp::Ordering::Equal => plates_bottom,
                std::cmp::Ordering::Greater => self.rafters_top,
            };
            let area = Area::new(left, right, self.bottom, top);
            let stuff = Stuff::Layer(&self.edge.wall, *layer);
            drawing.block(&layer.layer.name, Part::Wall, &stuff, area, false);
        }
    }

    fn draw_air(&self, drawing: &mut Drawing) {
        let (wall, roof) = (stated(&self.edge.wall), stated(&self.edge.roof));
        let (left, top) = (self.wall_outer - MARGIN, self.roof_top + MARGIN);
        let mut add = |air, area, role, stated| {
            drawing.region(CaseRegion {
                air,
                area,
                role,
                stated,
            });
        };
        let inside = StatedFilms {
            up: None,
            sideways: wall.0,
            down: roof.0,
        };
        let outside = StatedFilms {
            up: roof.1,
            sideways: wall.1,
            down: None,
        };
        // The inner film stands in a gap, whatever the file says of the outermost face.
        let outdoors = |role| match role {
            FilmRole::Outdoors => outside,
            _ => StatedFilms::default(),
        };
        let room = Area::new(0.0, self.right, self.bottom, 0.0);
        add(0, room, FilmRole::Room, inside);
        let role = outside_role(&self.wall);
        let beside = Area::new(left, self.wall_outer, self.bottom, self.rafters_top);
        add(1, beside, role, outdoors(role));
        let fascia = Area::new(left, self.wall_outer, self.rafters_top, self.roof_top);
        add(1, fascia, FilmRole::Outdoors, outside);
        let role = outside_role(&self.roof);
        let above = Area::new(left, self.right, self.roof_top, top);
        add(1, above, role, outdoors(role));
    }

    /// Surfaces, reference lengths and the measures a drawing shows.
    fn measure(&self, drawing: &mut Drawing) {
        let (right, bottom) = (self.right, self.bottom);
        for (name, line, facing) in [
            (
                "ceiling surface",
                Area::new(0.0, right, 0.0, 0.0),
                Facing::Down,
            ),
            (
                "wall surface",
                Area::new(0.0, 0.0, bottom, 0.0),
                Facing::Right,
            ),
        ] {
            drawing.surface(Surface {
                name: name.into(),
                line,
                facing,
            });
        }
        drawing.counted_against(&self.edge.roof, right, &self.roof);
        drawing.counted_against(&self.edge.wall, -bottom, &self.wall);
        drawing.dimension("wall", Area::new(self.wall_outer, 0.0, bottom, bottom));
        drawing.dimension("roof", Area::new(right, right, 0.0, self.roof_top));
    }
}

/// A post at the corner of two walls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerPost {
    /// Its outer and inner face from both outer faces of the cut, m.
    pub left: f64,
    /// See `left`.
    pub right: f64,
    /// Its lower and upper end in the cut, m.
    pub bottom: f64,
    /// See `bottom`.
    pub top: f64,
    /// W/(m·K).
    pub conductivity: f64,
}

impl DetailCase {
    /// The post where two walls meet under a roof: solid wood of the plates, as deep as they are both
    /// ways, up to their underside. Around a corner its two distances from the outer faces are alike.
    #[must_use]
    pub fn corner_post(&self) -> Option<CornerPost> {
        let mut plates = self.blocks_of(Part::Plate);
        let plates = &plates
            .next()
            .filter(|_| self.kind == DetailKind::RoofEdge)?
            .block;
        Some(CornerPost {
            left: plates.area.left,
            right: plates.area.right,
            bottom: 0.0,
            top: plates.area.bottom,
            conductivity: plates.conductivity.x,
        })
    }
}
