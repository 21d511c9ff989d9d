//! The floor edge: where floor and wall stand on the steel frame, drawn from their assemblies.
//!
//! ```text
//!   outdoors   ┆  wall layers       room
//!   (or the    ┆│░░░░░░░░│▒│
//!   ventilated ┆│░ wall ░│l│
//!   gap)       ┆│░ fill ░│i│                                         up
//!             s┆│░░░░░░░░│n│                                         │
//!             h┆├────────┤i│                                         └── inboard
//!             e┆│ plate  │n│
//!             a┆├────────┴─┤g├── finish, and all else above the deck ──────────
//!             t┆│          deck (subfloor), under the plate to the sheathing
//!             h┆├──────┬───┬────┬───────────────────────────────────────────────
//!             i┆│pack- │foam    │rim │              ┐ rise of a proud frame
//!             n┆│ing   │over it │    │              ┘
//!             g┆╞══════╧════════╡joist│    bay, between the joists
//!              ║ flange         │    │
//!              ║ rail    bay    ├────┘             joist depth ends here: below a raised
//!              ║                │                  joist lies `rise` more of the bay's fill
//!              ║────────────────┴────────────────────────── lining ────────────
//!              ╚═══════════════════════════════════════════ pan ═══════════════
//!                                     outdoors
//! ```
//!
//! What runs where, and why:
//! - The **deck** is the outermost wooden layer above the flange (the subfloor); it and what lies
//!   between it and the flange run under the plate as far as the sheathing's inner face. Layers
//!   above it (finish, foam under the finish) stop at the wall's inner face.
//! - The **lining** stands on the deck, the **plate** too; **sheathing** and all layers outside of
//!   the studs run down past the deck's edge to the top of the flange.
//! - The **flange** starts at the frame's outer face, which lies flush with the wall's outer face
//!   (the sheathing's, where a ventilated gap follows) unless a reach is given: then its inner
//!   edge lies that far inboard of the wall's inner face (outboard, where it is negative).
//! - The **rim joist** stands against the flange's inner edge, or the rail's where that reaches
//!   further. Under the flange the floor's layers run on to the frame's outer face.
//! - A **proud** frame raises joists, deck and all above by what lies over the flange: the bay gets
//!   that much deeper, while flange, rail and pan stay. Foam over the flange reaches from the
//!   flange's inner edge outward to the plate's inner edge, the rest being **packed** with the
//!   plate's wood, or on under the plate.
//! - The **pan** runs to the frame's outer face and, where the rail ends above it, is turned up to
//!   the rail.
//! - A ventilated or vented gap in the wall is outdoor air with the inner film; the cladding is
//!   left out. The cut runs between joists and between studs: their share is in the assemblies' U,
//!   not in the detail.

use super::case::{CaseRegion, DetailCase, DetailKind, Part, Reference, Surface};
use super::drawing::{Drawing, EdgeKey, EdgeProblem, Stuff, stated, stated_by_facing};
use super::films::{FilmRole, StatedFilms};
use super::layers::{CutLayer, CutLayers, cut_layer};
use super::rail::Rail;
use crate::model::detail::{Area, Facing, LEAST_SIZE};
use crate::model::{Assembly, AssemblyKind, Content, Kind, Layer, Strip, Substance};
use crate::physics::heat::Direction;
use crate::quantity::{Length, inches};

/// Air shown beside and below the building, m.
const MARGIN: f64 = 3.0 * crate::quantity::unit::INCH;

/// How far foam over the flange reaches outward.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoamReach {
    /// To the plate's inner edge: the plate stands on solid packing.
    PlateInnerEdge,
    /// On under the plate to the sheathing.
    UnderPlate,
}

/// A member in section: the bottom plate, or the rim joist.
#[derive(Clone, Debug, PartialEq)]
pub struct Plate {
    /// What it is made of; `None`: as the framing of its layer.
    pub substance: Option<Substance>,
    /// The plate's height, or the joist's width.
    pub thickness: Length,
}

/// What a floor edge is drawn from.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorEdge {
    /// The detail's name.
    pub name: String,
    /// The variant's name.
    pub variant: Option<String>,
    /// The floor.
    pub floor: Assembly,
    /// The wall.
    pub wall: Assembly,
    /// Which strip of the floor is the flange.
    pub flange: usize,
    /// Which layer of the floor the plate stands on; `None`: the outermost wooden one above it.
    pub deck: Option<usize>,
    /// The edge member below the flange.
    pub rail: Option<Rail>,
    /// The wall's bottom plate.
    pub plate: Plate,
    /// The joist along the edge.
    pub rim_joist: Plate,
    /// How far the flange reaches inboard of the wall's inner face, m; `None`: frame and wall
    /// flush outside.
    pub reach: Option<f64>,
    /// How far foam over the flange reaches.
    pub foam: FoamReach,
    /// How far the cut runs into the floor from the wall's inner face.
    pub inboard: Length,
    /// How far it runs up the wall from the floor's surface.
    pub up: Length,
}

impl FloorEdge {
    /// Draws it.
    ///
    /// # Errors
    /// The first thing that can't be built that way, with the key it is about.
    pub fn draw(&self) -> Result<DetailCase, EdgeProblem> {
        let frame = Frame::of(self)?;
        let mut drawing = Drawing::new(&self.name, self.variant.as_deref(), DetailKind::FloorEdge);
        drawing.notes(frame.floor.notes.iter().chain(&frame.wall.notes).cloned());
        frame.draw_floor(&mut drawing)?;
        frame.draw_steel(&mut drawing);
        frame.draw_wall(&mut drawing)?;
        frame.draw_air(&mut drawing);
        frame.measure(&mut drawing);
        Ok(drawing.finish(frame.cut()))
    }

    fn flange(&self) -> Option<&Strip> {
        self.floor.strips.get(self.flange)
    }

    /// The layer the plate stands on.
    fn deck_index(&self, under: usize) -> usize {
        let is_wood = |layer: &Layer| match &layer.content {
            Content::Solid(substance) => substance.kind.is_some_and(Kind::is_wood),
            Content::Air(_) => false,
        };
        let wooden = || self.floor.layers[..=under].iter().rposition(is_wood);
        self.deck.or_else(wooden).unwrap_or(under).min(under)
    }
}

/// Where everything lies: x from the wall's inner face, y from the deck's underside, m.
struct Frame<'a> {
    edge: &'a FloorEdge,
    flange: &'a Strip,
    floor: CutLayers<'a>,
    wall: CutLayers<'a>,
    over: Vec<CutLayer<'a>>,
    /// Index of the layer the plate stands on, and of the one above the flange.
    deck: usize,
    under: usize,
    /// Index of the wall layer the plate lies in.
    studs: usize,
    wall_outer: f64,
    plate_outer: f64,
    plate_inner: f64,
    frame_outer: f64,
    flange_inner: f64,
    flange_top: f64,
    flange_bottom: f64,
    deck_top: f64,
    floor_top: f64,
    floor_bottom: f64,
    /// Upper face of the pan, or the floor's lowest face where it has none.
    pan_top: f64,
    rail_bottom: f64,
    rim: Option<Area>,
}

impl<'a> Frame<'a> {
    fn of(edge: &'a FloorEdge) -> Result<Self, EdgeProblem> {
        let Some(flange) = edge.flange() else {
            let message = format!("`{}` has no such strip", edge.floor.name);
            return Err(EdgeProblem::new(
                EdgeKey::Strip,
                message,
                "expected a strip of the floor",
            ));
        };
        of_kind(&edge.floor, AssemblyKind::Floor, EdgeKey::Floor)?;
        of_kind(&edge.wall, AssemblyKind::Wall, EdgeKey::Wall)?;
        let floor = CutLayers::of(&edge.floor, EdgeKey::Floor)?;
        let wall = CutLayers::of(&edge.wall, EdgeKey::Wall)?;
        let over = flange.over.iter();
        let over: Vec<_> = over
            .map(|layer| cut_layer(layer, Direction::Down, EdgeKey::Strip))
            .collect::<Result<_, _>>()?;
        let under = flange.under;
        let deck = edge.deck_index(under);
        let studs = stud_layer(&wall);
        let depth = |layers: &[CutLayer<'_>]| layers.iter().map(|one| one.thickness).sum::<f64>();
        let plate_inner = -depth(&wall.all[..studs]);
        let wall_outer = -wall.thickness();
        let width = flange.width.as_m();
        let frame_outer = edge.reach.map_or(wall_outer, |reach| reach - width);
        let flange_top = -depth(&over);
        let flange_bottom = flange_top - flange.thickness.as_m();
        let floor_bottom = -depth(&floor.all[under + 1..]);
        let pan = floor.all.last().filter(|layer| is_metal(layer.layer));
        let pan_top = floor_bottom + pan.map_or(0.0, |pan| pan.thickness);
        let rail_bottom = match &edge.rail {
            None => flange_bottom,
            Some(rail) => rail
                .height
                .map_or(pan_top, |height| flange_bottom - height.as_m()),
        };
        let mut frame = Self {
            edge,
            flange,
            deck,
            under,
            studs,
            wall_outer,
            plate_outer: plate_inner - wall.all[studs].thickness,
            plate_inner,
            frame_outer,
            flange_inner: frame_outer + width,
            flange_top,
            flange_bottom,
            deck_top: depth(&floor.all[deck..=under]),
            floor_top: depth(&floor.all[..=under]),
            floor_bottom,
            pan_top,
            rail_bottom,
            rim: None,
            floor,
            wall,
            over,
        };
        frame.rim = frame.rim_joist();
        frame.sound()?;
        Ok(frame)
    }

    /// The first framed layer below the flange's, with its upper face.
    fn bay(&self) -> Option<(&CutLayer<'a>, f64)> {
        let mut top = 0.0;
        for layer in &self.floor.all[self.under + 1..] {
            if layer.layer.framing.is_some() {
                return Some((layer, top));
            }
            top -= layer.thickness;
        }
        None
    }

    /// A joist as deep as its bay was before a proud frame raised it.
    fn rim_joist(&self) -> Option<Area> {
        let (bay, top) = self.bay()?;
        let depth = bay.thickness - self.edge.floor.rise.as_m();
        let rail = self.edge.rail.as_ref().map_or(0.0, Rail::depth);
        let left = self.flange_inner.max(self.frame_outer + rail);
        let right = left + self.edge.rim_joist.thickness.as_m();
        Some(Area::new(left, right, top - depth, top))
    }

    fn sound(&self) -> Result<(), EdgeProblem> {
        let refuse =
            |key, message: String, expected: &str| Err(EdgeProblem::new(key, message, expected));
        let shown = |meters: f64| inches(Length::from_m(meters));
        let reach_key = match self.edge.reach {
            Some(_) => EdgeKey::Reach,
            None => EdgeKey::Strip,
        };
        if self.floor_bottom > self.flange_bottom + LEAST_SIZE {
            let message = format!(
                "the flange's underside lies {} below the floor",
                shown(self.floor_bottom - self.flange_bottom)
            );
            let expected = "expected a floor at least as deep as the steel: is a layer missing?";
            return refuse(EdgeKey::Floor, message, expected);
        }
        if self.flange_inner <= self.plate_outer + LEAST_SIZE {
            let message = "the flange ends outboard of the wall plate: nothing carries the wall";
            let expected = "expected a wider flange, or one that reaches further inboard";
            return refuse(reach_key, message.into(), expected);
        }
        if self.frame_outer > self.plate_outer + LEAST_SIZE {
            let message = format!(
                "the frame's outer face lies {} inboard of the plate's outer edge",
                shown(self.frame_outer - self.plate_outer)
            );
            return refuse(
                reach_key,
                message,
                "expected a flange under the whole plate",
            );
        }
        if self.deck_top + self.edge.plate.thickness.as_m() >= self.top() - LEAST_SIZE {
            let expected = "expected a cut that runs up beyond the plate";
            return refuse(
                EdgeKey::Up,
                "the cut ends below the plate's top".into(),
                expected,
            );
        }
        if let Some(rail) = &self.edge.rail {
            rail.sound(self.flange_bottom - self.rail_bottom)?;
        }
        let steel = self.edge.rail.as_ref().map_or(0.0, Rail::depth) + self.frame_outer;
        let inmost = self
            .flange_inner
            .max(steel)
            .max(self.rim.map_or(0.0, |rim| rim.right));
        if inmost >= self.right() - LEAST_SIZE {
            let message = format!(
                "the cut ends {} inboard of the wall, within the edge itself",
                shown(self.right())
            );
            let expected = format!("expected more than {}", shown(inmost));
            return refuse(EdgeKey::Inboard, message, &expected);
        }
        Ok(())
    }

    fn right(&self) -> f64 {
        self.edge.inboard.as_m()
    }

    fn top(&self) -> f64 {
        self.floor_top + self.edge.up.as_m()
    }

    fn cut(&self) -> Area {
        let left = self.frame_outer.min(self.wall_outer) - MARGIN;
        let bottom = self.floor_bottom.min(self.rail_bottom) - MARGIN;
        Area::new(left, self.right(), bottom, self.top())
    }

    fn draw_floor(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let floor = &self.edge.floor;
        let right = self.right();
        let mut y = self.floor_top;
        for (n, layer) in self.floor.all.iter().enumerate() {
            let (top, bottom) = (y, y - layer.thickness);
            y = bottom;
            let left = match n {
                n if n < self.deck => 0.0,
                n if n <= self.under => self.plate_outer,
                _ => self.flange_inner,
            };
            let part = match n + 1 == self.floor.all.len() && is_metal(layer.layer) {
                true => Part::Pan,
                false => Part::Floor,
            };
            let stuff = Stuff::Layer(floor, *layer);
            let name = &layer.layer.name;
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
            if n > self.under {
                // Beneath the flange, as far as its steel leaves room.
                let top = top.min(self.flange_bottom);
                let area = Area::new(self.frame_outer, self.flange_inner, bottom, top);
                let name = format!("{name} under the flange");
                drawing.block(&name, part, &stuff, area, false);
            }
        }
        self.draw_over(drawing)?;
        self.draw_rim(drawing)
    }

    /// What lies over the flange, and the packing under the plate.
    fn draw_over(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let packed = match self.edge.foam {
            FoamReach::UnderPlate => self.plate_outer,
            FoamReach::PlateInnerEdge => self.plate_inner.min(self.flange_inner),
        };
        let mut y = 0.0;
        for layer in &self.over {
            let area = Area::new(packed, self.flange_inner, y - layer.thickness, y);
            y = area.bottom;
            let stuff = Stuff::Layer(&self.edge.floor, *layer);
            drawing.block(&layer.layer.name, Part::OverFlange, &stuff, area, false);
            if layer.thickness == 0.0 && layer.layer.bonded {
                drawing.seal(&layer.layer.name, area);
            }
        }
        if self.flange_top < -LEAST_SIZE && packed > self.plate_outer + LEAST_SIZE {
            let (wood, k) = self.plate_wood()?;
            let area = Area::new(self.plate_outer, packed, self.flange_top, 0.0);
            let stuff = Stuff::Substance(wood, k);
            drawing.block(
                "packing under the plate",
                Part::Packing,
                &stuff,
                area,
                false,
            );
        }
        if self.flange_top < -LEAST_SIZE && packed >= self.flange_inner - LEAST_SIZE {
            drawing.notes([format!(
                "`{}` ends under the plate, so nothing lies over it: foam that reaches on under \
                 the plate needs `foam: {{reach: under-plate}}`",
                self.flange.name
            )]);
        }
        Ok(())
    }

    fn draw_rim(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let (Some(area), Some((bay, _))) = (self.rim, self.bay()) else {
            let note = "the floor has no framed layer below the flange: no rim joist is drawn";
            drawing.notes([note.to_owned()]);
            return Ok(());
        };
        let own = self.edge.rim_joist.substance.as_ref();
        let framing = bay.layer.framing.as_ref().map(|framing| &framing.substance);
        let Some((wood, k)) = own.or(framing).and_then(conducting) else {
            let message = "how the rim joist conducts isn't known";
            let expected = "expected `rim-joist: {material: …}`";
            return Err(EdgeProblem::new(EdgeKey::RimJoist, message, expected));
        };
        drawing.block(
            "rim joist",
            Part::RimJoist,
            &Stuff::Substance(wood, k),
            area,
            true,
        );
        Ok(())
    }

    fn draw_steel(&self, drawing: &mut Drawing) {
        if let Some((metal, k)) = conducting(&self.flange.metal) {
            let area = Area::new(
                self.frame_outer,
                self.flange_inner,
                self.flange_bottom,
                self.flange_top,
            );
            let stuff = Stuff::Substance(metal, k);
            drawing.block(&self.flange.name, Part::Flange, &stuff, area, false);
        }
        if let Some(rail) = &self.edge.rail {
            rail.draw(
                drawing,
                self.frame_outer,
                self.rail_bottom,
                self.flange_bottom,
            );
        }
        let pan = self.floor.all.last().filter(|layer| is_metal(layer.layer));
        if let Some(pan) = pan {
            let (left, right) = (self.frame_outer, self.frame_outer + pan.thickness);
            let area = Area::new(left, right, self.pan_top, self.rail_bottom);
            let stuff = Stuff::Layer(&self.edge.floor, *pan);
            let name = format!("{} turned up", pan.layer.name);
            drawing.block(&name, Part::Pan, &stuff, area, true);
        }
    }

    fn plate_wood(&self) -> Result<(&Substance, f64), EdgeProblem> {
        let own = self.edge.plate.substance.as_ref();
        let framing = self.wall.all[self.studs].layer.framing.as_ref();
        let framing = framing.map(|framing| &framing.substance);
        own.or(framing).and_then(conducting).ok_or_else(|| {
            let message = "the plate's material isn't known: the wall has no framed layer";
            let expected = "expected `plate: {material: spruce-pine-fir}`";
            EdgeProblem::new(EdgeKey::Plate, message, expected)
        })
    }

    fn draw_wall(&self, drawing: &mut Drawing) -> Result<(), EdgeProblem> {
        let (wood, k) = self.plate_wood()?;
        let plate_top = self.deck_top + self.edge.plate.thickness.as_m();
        let plate = Area::new(self.plate_outer, self.plate_inner, self.deck_top, plate_top);
        drawing.block(
            "plate",
            Part::Plate,
            &Stuff::Substance(wood, k),
            plate,
            false,
        );
        let mut x = 0.0;
        for (n, layer) in self.wall.all.iter().enumerate() {
            let (left, right) = (x - layer.thickness, x);
            x = left;
            let bottom = match n.cmp(&self.studs) {
                std::cmp::Ordering::Less => self.deck_top,
                std::cmp::Ordering::Equal => plate_top,
                std::cmp::Ordering::Greater => self.flange_top,
            };
            let area = Area::new(left, right, bottom, self.top());
            if layer.thickness == 0.0 && layer.layer.bonded {
                drawing.seal(&layer.layer.name, area);
            }
            let stuff = Stuff::Layer(&self.edge.wall, *layer);
            drawing.block(&layer.layer.name, Part::Wall, &stuff, area, false);
        }
        Ok(())
    }

    fn draw_air(&self, drawing: &mut Drawing) {
        let cut = self.cut();
        let (floor, wall) = (stated(&self.edge.floor), stated(&self.edge.wall));
        let below = outside_role(&self.floor);
        let outside = StatedFilms {
            down: floor.1,
            sideways: wall.1,
            up: wall.1,
        };
        let mut add = |air, area, role, stated| {
            drawing.region(CaseRegion {
                air,
                area,
                role,
                stated,
            });
        };
        let room = Area::new(0.0, cut.right, self.floor_top, cut.top);
        add(0, room, FilmRole::Room, stated_by_facing(floor.0, wall.0));
        let under = Area::new(cut.left, cut.right, cut.bottom, self.floor_bottom);
        add(1, under, below, outside);
        let beside = Area::new(
            cut.left,
            self.frame_outer,
            self.floor_bottom,
            self.flange_top,
        );
        add(1, beside, FilmRole::Outdoors, outside);
        let (role, stated) = match self.wall.sheltered {
            true => (FilmRole::Sheltered, StatedFilms::default()),
            false => (FilmRole::Outdoors, outside),
        };
        let beside = Area::new(cut.left, self.wall_outer, self.flange_top, cut.top);
        add(1, beside, role, stated);
    }

    /// Surfaces, reference lengths and the measures a drawing shows.
    fn measure(&self, drawing: &mut Drawing) {
        let (right, top, floor_top) = (self.right(), self.top(), self.floor_top);
        let mut surface = |name: &str, line, facing| {
            drawing.surface(Surface {
                name: name.into(),
                line,
                facing,
            });
        };
        let floor_line = Area::new(0.0, right, floor_top, floor_top);
        surface("floor surface", floor_line, Facing::Up);
        surface(
            "wall surface",
            Area::new(0.0, 0.0, floor_top, top),
            Facing::Right,
        );
        let all = |film: Option<f64>| film.map_or_else(StatedFilms::default, StatedFilms::all);
        let mut reference = |assembly: &Assembly, length, layers: &CutLayers<'_>, outside| {
            let (inner, outer) = stated(assembly);
            let outer = outer.filter(|_| outside == FilmRole::Outdoors);
            drawing.reference(Reference {
                assembly: assembly.name.clone(),
                kind: assembly.kind,
                length,
                resistance: layers.resistance(),
                outside,
                stated: (all(inner), all(outer)),
            });
        };
        reference(
            &self.edge.floor,
            right,
            &self.floor,
            outside_role(&self.floor),
        );
        reference(
            &self.edge.wall,
            self.edge.up.as_m(),
            &self.wall,
            outside_role(&self.wall),
        );
        let level = |from: f64, to: f64, y: f64| Area::new(from.min(to), from.max(to), y, y);
        let upright = |x: f64, bottom: f64, top: f64| Area::new(x, x, bottom, top);
        let bottom = self.floor_bottom;
        let measures = [
            ("flange", level(self.frame_outer, self.flange_inner, bottom)),
            ("wall", level(self.wall_outer, 0.0, top)),
            ("floor", upright(right, bottom, floor_top)),
            ("rise", upright(right, -self.edge.floor.rise.as_m(), 0.0)),
            (
                "rail",
                upright(self.frame_outer, self.rail_bottom, self.flange_bottom),
            ),
        ];
        for (name, line) in measures {
            drawing.dimension(name, line);
        }
        let name = match self.flange_inner < 0.0 {
            true => "flange short of the wall's inner face",
            false => "flange inboard of the wall's inner face",
        };
        drawing.dimension(name, level(self.flange_inner, 0.0, floor_top));
    }
}

/// Behind a ventilated gap outdoor air is still.
pub(super) fn outside_role(layers: &CutLayers<'_>) -> FilmRole {
    match layers.sheltered {
        true => FilmRole::Sheltered,
        false => FilmRole::Outdoors,
    }
}

/// Refuses an assembly of another kind.
pub(super) fn of_kind(
    assembly: &Assembly,
    kind: AssemblyKind,
    key: EdgeKey,
) -> Result<(), EdgeProblem> {
    if assembly.kind == kind {
        return Ok(());
    }
    let what = match kind {
        AssemblyKind::Wall => "wall",
        AssemblyKind::Floor => "floor",
        AssemblyKind::Roof => "roof",
    };
    let message = format!("`{}` isn't a {what}", assembly.name);
    let expected = format!("expected an assembly with `kind: {what}`");
    Err(EdgeProblem::new(key, message, &expected))
}

/// The wall layer the plate lies in: the framed one, or the thickest.
fn stud_layer(wall: &CutLayers<'_>) -> usize {
    let framed = wall.all.iter().position(|one| one.layer.framing.is_some());
    let by_thickness = |a: &(usize, &CutLayer<'_>), b: &(usize, &CutLayer<'_>)| {
        a.1.thickness.total_cmp(&b.1.thickness)
    };
    let thickest = || wall.all.iter().enumerate().max_by(by_thickness);
    framed.or_else(|| thickest().map(|(n, _)| n)).unwrap_or(0)
}

/// A substance with its conductivity, where it is known, W/(m·K).
pub(super) fn conducting(substance: &Substance) -> Option<(&Substance, f64)> {
    substance.conductivity.map(|k| (substance, k.as_si()))
}

/// A layer of sheet metal.
pub(super) fn is_metal(layer: &Layer) -> bool {
    let is = |substance: &Substance| substance.kind == Some(Kind::Metal);
    matches!(&layer.content, Content::Solid(substance) if is(substance))
}
