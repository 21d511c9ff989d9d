//! The house's outline in meters, as its study has it.
//!
//! Heights are counted from the road, or from the frame's top where the file doesn't say how high that
//! lies; places along a view from the deck's edge.

use crate::model::house::{RoofForm, Shell, Side};
use crate::solve::house::{Layout, Measure, Term, TermKind, thickness_as_built};
use crate::study::JudgedHouse;

/// The levels of a house, m.
pub(super) struct Shape<'a> {
    pub(super) shell: &'a Shell,
    layout: &'a Layout,
    /// The terms from the lowest level up.
    pub(super) terms: &'a [Term],
    /// The road; `None` where the frame's top stands for it.
    pub(super) road: Option<f64>,
    /// The frame's top.
    pub(super) frame: f64,
    /// What the walls stand on.
    plate: f64,
    /// The floor's surface.
    pub(super) floor: f64,
    /// The floor's underside.
    floor_below: f64,
    /// The roof outside of where it stands on the walls, upright.
    roof: f64,
    /// The roof inside of that, upright.
    ceiling: f64,
    /// What stands above the roof.
    above: f64,
    /// The highest point.
    pub(super) top: f64,
}

impl<'a> Shape<'a> {
    /// `None` without measures.
    pub(super) fn of(one: &'a JudgedHouse<'a>) -> Option<Self> {
        let result = &one.result;
        let (shell, layout) = one.case.house.shell.as_ref().zip(result.layout.as_ref())?;
        let height = result.fit.height.as_ref();
        let measure = height.or(result.fit.above_deck.as_ref())?;
        let of = |kind: TermKind| sum(measure, kind);
        let frame = of(TermKind::DeckHeight);
        let plate = frame + of(TermKind::OverStrips) + of(TermKind::FloorLayer);
        let floor = plate + layout.floor_inside;
        let depth = one
            .case
            .assembly(&shell.floor)
            .map_or(0.0, thickness_as_built);
        Some(Self {
            shell,
            layout,
            terms: &measure.terms,
            road: height.map(|_| 0.0),
            frame,
            plate,
            floor,
            floor_below: floor - depth,
            roof: of(TermKind::RoofLayer),
            ceiling: layout.taken(shell) - layout.floor_inside,
            above: of(TermKind::StandsAbove),
            top: measure.total().as_m(),
        })
    }

    /// The lowest level there is.
    pub(super) fn bottom(&self) -> f64 {
        self.road.unwrap_or(self.frame).min(self.floor_below)
    }

    /// Seen along the house, from behind: left and right as the driver has them.
    pub(super) fn across(&self) -> View<'_> {
        View::new(self, Side::Left, Side::Right)
    }

    /// Seen from the left, its front at the left.
    pub(super) fn along(&self) -> View<'_> {
        View::new(self, Side::Front, Side::Back)
    }
}

fn sum(measure: &Measure, kind: TermKind) -> f64 {
    let terms = measure.terms.iter().filter(|term| term.kind == kind);
    terms.map(|term| term.value).sum()
}

/// The corners of a piece: place and height, m.
pub(super) type Corners = Vec<(f64, f64)>;

/// From one place of a view to another, m.
pub(super) type Span = (f64, f64);

/// The house seen across or along.
pub(super) struct View<'a> {
    shape: &'a Shape<'a>,
    ends: (Side, Side),
    /// The deck from one end to the other.
    pub(super) deck: f64,
}

impl<'a> View<'a> {
    fn new(shape: &'a Shape<'a>, one: Side, other: Side) -> Self {
        let along = if one.is_long() {
            Side::Front
        } else {
            Side::Left
        };
        Self {
            shape,
            ends: (one, other),
            deck: shape.shell.side_length(along),
        }
    }

    /// How far something reaches beyond both ends of the deck.
    fn beyond(&self, of: impl Fn(Side) -> f64) -> (f64, f64) {
        (-of(self.ends.0), self.deck + of(self.ends.1))
    }

    /// Both ends of all there is, trim and overhangs included.
    pub(super) fn extent(&self) -> (f64, f64) {
        let shell = self.shape.shell;
        let trim = |side: Side| {
            shell.walls[side.index()]
                .trim
                .map_or(0.0, |trim| trim.as_m())
        };
        self.beyond(|side| {
            self.shape.layout.outside[side.index()] + shell.overhang(side).max(trim(side))
        })
    }

    fn outer_faces(&self) -> (f64, f64) {
        self.beyond(|side| self.shape.layout.outside[side.index()])
    }

    /// Inner faces of the walls at both ends.
    pub(super) fn inner_faces(&self) -> (f64, f64) {
        self.beyond(|side| -self.shape.layout.insets[side.index()])
    }

    fn eaves(&self) -> (f64, f64) {
        self.beyond(|side| self.shape.layout.reach(self.shape.shell, side))
    }

    /// Whether the roof's slope runs across this view.
    fn shows_slope(&self) -> bool {
        let start = self.shape.shell.slope_from().0;
        start == self.ends.0 || start == self.ends.1
    }

    /// What the roof stands on at a place of a view that shows the slope.
    fn framed(&self, at: f64) -> f64 {
        let shell = self.shape.shell;
        let place = match shell.slope_from().0 == self.ends.0 {
            true => at,
            false => self.deck - at,
        };
        self.shape.plate + shell.framed_height_at(place)
    }

    /// The roof's underside: where it slopes its own, else that at the inner face of its lowest wall.
    fn underside(&self, at: f64) -> f64 {
        match self.shows_slope() {
            true => self.framed(at),
            false => {
                let shell = self.shape.shell;
                let (start, _) = self.shape.layout.slope_within(shell);
                self.shape.plate + shell.framed_height_at(start)
            }
        }
    }

    /// A stretch of the roof, cut in two at a ridge within.
    fn stretches(&self, (from, to): (f64, f64)) -> Vec<(f64, f64)> {
        let ridge = self.deck / 2.0;
        let bends = matches!(self.shape.shell.roof.form, RoofForm::Gable { .. });
        match bends && self.shows_slope() && from < ridge && ridge < to {
            true => vec![(from, ridge), (ridge, to)],
            false => vec![(from, to)],
        }
    }

    /// Between the roof's underside raised by these amounts.
    fn under_roof(&self, between: (f64, f64), (low, high): (f64, f64)) -> Vec<Corners> {
        let piece = |(from, to): (f64, f64)| {
            let (a, b) = (self.underside(from), self.underside(to));
            vec![
                (from, a + low),
                (to, b + low),
                (to, b + high),
                (from, a + high),
            ]
        };
        self.stretches(between).into_iter().map(piece).collect()
    }

    /// Floor, walls and roof cut through, each a convex piece.
    pub(super) fn cut(&self) -> Vec<Corners> {
        let shape = self.shape;
        let (inner, outer) = (self.inner_faces(), self.outer_faces());
        let wall = |from: f64, to: f64| {
            let (a, b) = (self.underside(from), self.underside(to));
            vec![(from, shape.plate), (to, shape.plate), (to, b), (from, a)]
        };
        let mut pieces = vec![
            level((0.0, self.deck), (shape.floor_below, shape.plate)),
            wall(outer.0, inner.0),
            wall(inner.1, outer.1),
        ];
        if shape.floor > shape.plate {
            pieces.push(level(inner, (shape.plate, shape.floor)));
        }
        pieces.extend(self.under_roof(self.eaves(), (0.0, shape.roof)));
        if shape.ceiling > 0.0 {
            pieces.extend(self.under_roof(inner, (-shape.ceiling, 0.0)));
        }
        pieces
    }

    /// Floor, walls and roof as seen from outside.
    pub(super) fn outside(&self) -> Vec<Corners> {
        let shape = self.shape;
        let faces = self.outer_faces();
        let mut pieces = vec![level((0.0, self.deck), (shape.floor_below, shape.plate))];
        pieces.extend(self.stretches(faces).into_iter().map(|(from, to)| {
            let (a, b) = (self.near(from), self.near(to));
            vec![(from, shape.plate), (to, shape.plate), (to, b), (from, a)]
        }));
        match self.shows_slope() {
            true => pieces.extend(self.under_roof(self.eaves(), (0.0, shape.roof))),
            false => {
                let near = self.near(0.0) + shape.roof;
                pieces.push(level(self.eaves(), (self.near(0.0), near)));
                let top = shape.top - shape.above;
                if top > near {
                    pieces.push(level(self.eaves(), (near, top)));
                }
            }
        }
        pieces
    }

    /// The top of the wall that is looked at.
    fn near(&self, at: f64) -> f64 {
        let shell = self.shape.shell;
        match self.shows_slope() {
            true => self.framed(at),
            // Seen from the left or from behind: the eave of a gable, the end of a shed.
            false => {
                let seen = if self.ends.0.is_long() {
                    Side::Back
                } else {
                    Side::Left
                };
                let (start, _) = shell.slope_from();
                let is_high = matches!(shell.roof.form, RoofForm::Shed { .. }) && seen != start;
                let rise = if is_high { shell.rise() } else { 0.0 };
                self.shape.plate + shell.wall_height.as_m() + rise
            }
        }
    }

    /// Where head room is least: the place, floor and ceiling, m.
    pub(super) fn head_room(&self) -> (f64, f64, f64) {
        let (from, to) = self.inner_faces();
        let at = match self.underside(from) <= self.underside(to) {
            true => from,
            false => to,
        };
        (
            at,
            self.shape.floor,
            self.underside(at) - self.shape.ceiling,
        )
    }

    /// What rises behind a cut that doesn't show the slope.
    pub(super) fn behind(&self) -> Vec<Corners> {
        let shape = self.shape;
        let (low, high) = (self.underside(0.0) + shape.roof, shape.top - shape.above);
        match !self.shows_slope() && high > low + 1e-6 {
            true => vec![level(self.eaves(), (low, high))],
            false => Vec::new(),
        }
    }

    /// What is drawn by its outer end alone: trim at the far end, what stands above the roof.
    pub(super) fn extras(&self) -> Vec<Corners> {
        let shape = self.shape;
        let trim = (self.outer_faces().1, self.extent().1);
        let wall = (shape.plate, self.underside(self.deck));
        let above = (shape.top - shape.above, shape.top);
        vec![level(trim, wall), level(self.eaves(), above)]
    }

    /// Where something stands above the roof, if it does: a level over its whole length.
    pub(super) fn above(&self) -> Option<[(f64, f64); 2]> {
        let (from, to) = self.eaves();
        let top = self.shape.top;
        (self.shape.above > 0.0).then_some([(from, top), (to, top)])
    }
}

fn level((left, right): (f64, f64), (low, high): (f64, f64)) -> Corners {
    vec![(left, low), (right, low), (right, high), (left, high)]
}
