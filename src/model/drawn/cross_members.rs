//! Steel members that cross under the floor on a pitch: cold strips beneath the finish.
//!
//! ```text
//!    │ finish ─────────────────────────────────────────────── │   room above
//!    │ deck (subfloor) ────────────────────────────────────── │
//!    │ foam over the strip ──┬───────────────────────────────  │
//!    ╞═══ half the strip ════╡                                 │   adiabatic on both
//!    ║ half the                  bay, between the joists       │   symmetry planes
//!    ║ web                                                     │
//!    ║ ────────────────────────────────────── lining ───────── │
//!    ╨═══════════════════════════════════════ pan ════════════ │   outdoors below
//!    0                                                    half the pitch
//! ```
//! The strip lies directly under the layer the file names, as in the floor itself. Its web stands
//! below its middle, by default down to the pan.

use super::case::{CaseRegion, DetailCase, DetailKind, Part, Surface};
use super::drawing::{Drawing, EdgeKey, EdgeProblem, Stuff, stated, stated_by_facing};
use super::films::{FilmRole, StatedFilms};
use super::layers::{CutLayer, CutLayers, conducting, cut_layer, is_metal, of_kind, outside_role};
use super::plan::DetailPlan;
use super::reference::Reference;
use crate::model::detail::{Area, Facing, LEAST_SIZE};
use crate::model::{Assembly, AssemblyKind, Strip, Told, ToldPart};
use crate::physics::heat::Direction;
use crate::quantity::Length;

/// Air shown below the floor and above it, m.
const MARGIN: f64 = 3.0 * crate::quantity::unit::INCH;

/// What a detail of cross members is drawn from.
#[derive(Clone, Debug, PartialEq)]
pub struct CrossMembers {
    /// The detail's name.
    pub name: String,
    /// The variant's name.
    pub variant: Option<String>,
    /// The floor.
    pub floor: Assembly,
    /// Which of its strips is the member's upper face.
    pub strip: usize,
    /// From center to center.
    pub pitch: Length,
    /// Overall height of the member with its strip; `None`: down to the pan.
    pub height: Option<Length>,
    /// Thickness of the web below the strip; `None`: as the strip.
    pub web: Option<Length>,
}

impl CrossMembers {
    /// Draws half a pitch.
    ///
    /// # Errors
    /// The first thing that can't be built that way, with the key it is about.
    pub fn draw(&self) -> Result<DetailCase, EdgeProblem> {
        let Some(strip) = self.floor.strips.get(self.strip) else {
            let message = format!("`{}` has no such strip", self.floor.name);
            let expected = "expected a strip of the floor";
            return Err(EdgeProblem::new(EdgeKey::Strip, message, expected));
        };
        of_kind(&self.floor, AssemblyKind::Floor, EdgeKey::Floor)?;
        let over: Vec<_> = strip
            .over
            .iter()
            .map(|layer| cut_layer(layer, Direction::Down, EdgeKey::Strip))
            .collect::<Result<_, _>>()?;
        let bay = Bay {
            members: self,
            strip,
            layers: CutLayers::of(&self.floor, EdgeKey::Floor)?,
            over,
        };
        bay.sound()?;
        Ok(DetailCase {
            plan: Some(DetailPlan::CrossMembers(Box::new(self.clone()))),
            ..bay.draw()
        })
    }
}

/// Half a pitch: x from the member's middle, y from the underside of the layer above the strip, m.
struct Bay<'a> {
    members: &'a CrossMembers,
    strip: &'a Strip,
    layers: CutLayers<'a>,
    over: Vec<CutLayer<'a>>,
}

impl Bay<'_> {
    fn right(&self) -> f64 {
        self.members.pitch.as_m() / 2.0
    }

    fn half_strip(&self) -> f64 {
        self.strip.width.as_m() / 2.0
    }

    fn half_web(&self) -> f64 {
        self.members.web.unwrap_or(self.strip.thickness).as_m() / 2.0
    }

    fn strip_top(&self) -> f64 {
        -self.over.iter().map(|layer| layer.thickness).sum::<f64>()
    }

    fn strip_bottom(&self) -> f64 {
        self.strip_top() - self.strip.thickness.as_m()
    }

    fn top(&self) -> f64 {
        let above = &self.layers.all[..=self.strip.under];
        above.iter().map(|layer| layer.thickness).sum()
    }

    fn bottom(&self) -> f64 {
        self.top() - self.layers.thickness()
    }

    fn member_bottom(&self) -> f64 {
        let pan = self.layers.all.last().filter(|layer| is_metal(layer.layer));
        let pan_top = self.bottom() + pan.map_or(0.0, |pan| pan.thickness);
        let height = self.members.height.map(|height| height.as_m());
        height.map_or(pan_top, |height| self.strip_top() - height)
    }

    fn sound(&self) -> Result<(), EdgeProblem> {
        let shown = |meters: f64| ToldPart::Length(Length::from_m(meters));
        if self.half_strip() >= self.right() - LEAST_SIZE {
            let message = Told::of([
                "a pitch of ".into(),
                shown(2.0 * self.right()),
                " leaves nothing between the strips".into(),
            ]);
            let expected = Told::of([
                "expected more than the strip's ".into(),
                shown(2.0 * self.half_strip()),
            ]);
            return Err(EdgeProblem::new(EdgeKey::Pitch, message, expected));
        }
        if self.half_web() > self.half_strip() + LEAST_SIZE {
            let message = "the web is thicker than its strip is wide";
            let expected = Told::of(["expected at most ".into(), shown(2.0 * self.half_strip())]);
            return Err(EdgeProblem::new(EdgeKey::RailThickness, message, expected));
        }
        if self.member_bottom() > self.strip_bottom() + LEAST_SIZE {
            let message = "the member is less high than its strip is thick";
            let least = shown(self.strip.thickness.as_m());
            let expected = Told::of(["expected at least ".into(), least]);
            return Err(EdgeProblem::new(EdgeKey::MemberHeight, message, expected));
        }
        if self.bottom() > self.strip_bottom() + LEAST_SIZE {
            let message = "the strip's underside lies below the floor";
            let expected = "expected a floor at least as deep as the steel: is a layer missing?";
            return Err(EdgeProblem::new(EdgeKey::Floor, message, expected));
        }
        Ok(())
    }

    fn draw(&self) -> DetailCase {
        let members = self.members;
        let kind = DetailKind::CrossMembers;
        let mut drawing = Drawing::new(&members.name, members.variant.as_deref(), kind);
        drawing.notes(self.layers.notes.iter().cloned());
        self.draw_layers(&mut drawing);
        self.draw_member(&mut drawing);
        self.draw_air(&mut drawing);
        self.measure(&mut drawing);
        let bottom = self.bottom().min(self.member_bottom()) - MARGIN;
        drawing.finish(Area::new(0.0, self.right(), bottom, self.top() + MARGIN))
    }

    fn draw_layers(&self, drawing: &mut Drawing) {
        let (floor, right, half) = (&self.members.floor, self.right(), self.half_strip());
        let mut y = self.top();
        for (n, layer) in self.layers.all.iter().enumerate() {
            let (top, bottom) = (y, y - layer.thickness);
            y = bottom;
            let part = match n + 1 == self.layers.all.len() && is_metal(layer.layer) {
                true => Part::Pan,
                false => Part::Floor,
            };
            let (stuff, name) = (Stuff::Layer(floor, *layer), &layer.layer.name);
            let left = if n > self.strip.under { half } else { 0.0 };
            if layer.thickness == 0.0 && layer.layer.bonded {
                drawing.seal(name, Area::new(left, right, top, top));
            }
            drawing.block(
                name,
                part,
                &stuff,
                Area::new(left, right, bottom, top),
                false,
            );
            if n > self.strip.under {
                let area = Area::new(0.0, half, bottom, top.min(self.strip_bottom()));
                drawing.block(
                    &format!("{name} under the strip"),
                    part,
                    &stuff,
                    area,
                    false,
                );
            }
        }
        let mut y = 0.0;
        for layer in &self.over {
            let area = Area::new(0.0, half, y - layer.thickness, y);
            y = area.bottom;
            let stuff = Stuff::Layer(floor, *layer);
            drawing.block(&layer.layer.name, Part::OverFlange, &stuff, area, false);
            if layer.thickness == 0.0 && layer.layer.bonded {
                drawing.seal(&layer.layer.name, area);
            }
        }
    }

    fn draw_member(&self, drawing: &mut Drawing) {
        let Some((metal, k)) = conducting(&self.strip.metal) else {
            return;
        };
        let stuff = Stuff::Substance(metal, k);
        let (top, bottom) = (self.strip_top(), self.strip_bottom());
        let strip = Area::new(0.0, self.half_strip(), bottom, top);
        drawing.block(&self.strip.name, Part::Flange, &stuff, strip, false);
        let web = Area::new(0.0, self.half_web(), self.member_bottom(), bottom);
        let name = format!("{} web", self.strip.name);
        drawing.block(&name, Part::CrossMember, &stuff, web, true);
    }

    fn draw_air(&self, drawing: &mut Drawing) {
        let (inner, outer) = stated(&self.members.floor);
        let lowest = self.bottom().min(self.member_bottom()) - MARGIN;
        let mut add = |air, bottom, top, role, stated| {
            drawing.region(CaseRegion {
                air,
                area: Area::new(0.0, self.right(), bottom, top),
                role,
                stated,
            });
        };
        let inner = stated_by_facing(inner, None);
        add(0, self.top(), self.top() + MARGIN, FilmRole::Room, inner);
        let outer = outer.map_or_else(StatedFilms::default, StatedFilms::all);
        add(1, lowest, self.bottom(), outside_role(&self.layers), outer);
    }

    fn measure(&self, drawing: &mut Drawing) {
        let (right, top) = (self.right(), self.top());
        drawing.surface(Surface {
            name: "floor surface".into(),
            line: Area::new(0.0, right, top, top),
            facing: Facing::Up,
        });
        let all = |film: Option<f64>| film.map_or_else(StatedFilms::default, StatedFilms::all);
        let (inner, outer) = stated(&self.members.floor);
        drawing.reference(Reference {
            assembly: self.members.floor.name.clone(),
            kind: AssemblyKind::Floor,
            length: right,
            layers: self.layers.as_reference(),
            outside: outside_role(&self.layers),
            stated: (all(inner), all(outer)),
        });
        drawing.shows_strip(&self.members.floor.name, &self.strip.name);
        let bottom = self.bottom();
        let (half, under) = (self.half_strip(), self.strip_bottom());
        drawing.dimension("half the strip", Area::new(0.0, half, under, under));
        drawing.dimension("half the pitch", Area::new(0.0, right, bottom, bottom));
        drawing.dimension("floor", Area::new(right, right, bottom, top));
    }
}
