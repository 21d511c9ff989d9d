//! Where everything of a floor edge lies.

use super::FloorEdge;
use crate::model::detail::{Area, LEAST_SIZE};
use crate::model::drawn::drawing::{EdgeKey, EdgeProblem};
use crate::model::drawn::layers::{CutLayer, CutLayers, cut_layer, is_metal, main_layer, of_kind};
use crate::model::drawn::rail::Rail;
use crate::model::{AssemblyKind, Strip, Told, ToldPart};
use crate::physics::heat::Direction;
use crate::quantity::Length;

/// Air shown beside and below the building, m.
const MARGIN: f64 = 3.0 * crate::quantity::unit::INCH;

/// Where everything lies: x from the wall's inner face, y from the deck's underside, m.
pub(super) struct Frame<'a> {
    pub(super) edge: &'a FloorEdge,
    pub(super) flange: &'a Strip,
    pub(super) floor: CutLayers<'a>,
    pub(super) wall: CutLayers<'a>,
    pub(super) over: Vec<CutLayer<'a>>,
    /// Index of the layer the plate stands on, and of the one above the flange.
    pub(super) deck: usize,
    pub(super) under: usize,
    /// Index of the wall layer the plate lies in.
    pub(super) studs: usize,
    pub(super) wall_outer: f64,
    pub(super) plate_outer: f64,
    pub(super) plate_inner: f64,
    pub(super) frame_outer: f64,
    pub(super) flange_inner: f64,
    pub(super) flange_top: f64,
    pub(super) flange_bottom: f64,
    pub(super) deck_top: f64,
    pub(super) floor_top: f64,
    pub(super) floor_bottom: f64,
    /// Upper face of the pan, or the floor's lowest face where it has none.
    pub(super) pan_top: f64,
    pub(super) rail_bottom: f64,
    pub(super) rim: Option<Area>,
}

impl<'a> Frame<'a> {
    pub(super) fn of(edge: &'a FloorEdge) -> Result<Self, EdgeProblem> {
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
        let studs = main_layer(&wall);
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
    pub(super) fn bay(&self) -> Option<(&CutLayer<'a>, f64)> {
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
            |key, message: Told, expected: Told| Err(EdgeProblem::new(key, message, expected));
        let shown = |meters: f64| ToldPart::Length(Length::from_m(meters));
        let reach_key = match self.edge.reach {
            Some(_) => EdgeKey::Reach,
            None => EdgeKey::Strip,
        };
        if self.floor_bottom > self.flange_bottom + LEAST_SIZE {
            let message = Told::of([
                "the flange's underside lies ".into(),
                shown(self.floor_bottom - self.flange_bottom),
                " below the floor".into(),
            ]);
            let expected = "expected a floor at least as deep as the steel: is a layer missing?";
            return refuse(EdgeKey::Floor, message, expected.into());
        }
        if self.flange_inner <= self.plate_outer + LEAST_SIZE {
            let message = "the flange ends outboard of the wall plate: nothing carries the wall";
            let expected = "expected a wider flange, or one that reaches further inboard";
            return refuse(reach_key, message.into(), expected.into());
        }
        if self.frame_outer > self.plate_outer + LEAST_SIZE {
            let message = Told::of([
                "the frame's outer face lies ".into(),
                shown(self.frame_outer - self.plate_outer),
                " inboard of the plate's outer edge".into(),
            ]);
            let expected = "expected a flange under the whole plate";
            return refuse(reach_key, message, expected.into());
        }
        if self.plate_top() >= self.top() - LEAST_SIZE {
            let expected = "expected a cut that runs up beyond the plate";
            let message = "the cut ends below the plate's top";
            return refuse(EdgeKey::Up, message.into(), expected.into());
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
            let message = Told::of([
                "the cut ends ".into(),
                shown(self.right()),
                " inboard of the wall, within the edge itself".into(),
            ]);
            let expected = Told::of(["expected more than ".into(), shown(inmost)]);
            return refuse(EdgeKey::Inboard, message, expected);
        }
        Ok(())
    }

    pub(super) fn right(&self) -> f64 {
        self.edge.inboard.as_m()
    }

    pub(super) fn top(&self) -> f64 {
        self.floor_top + self.edge.up.as_m()
    }

    pub(super) fn cut(&self) -> Area {
        let left = self.frame_outer.min(self.wall_outer) - MARGIN;
        let bottom = self.floor_bottom.min(self.rail_bottom) - MARGIN;
        Area::new(left, self.right(), bottom, self.top())
    }
}
