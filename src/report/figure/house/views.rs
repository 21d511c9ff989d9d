//! Both views of the house at one scale, beside each other or one below the other.

use super::super::hatch;
use super::super::lettering::wrap;
use super::super::scale::Scale;
use super::super::sheet::{GRAY, INK, LINE, Lettering, Point, SIZE, Sheet};
use super::beyond::{sideways, upward};
use super::chain::{Chain, LEADERS};
use super::end;
use super::paper::Paper;
use super::shape::{Corners, Shape, Span, View};
use super::side::Under;
use crate::quantity::{Length, Style};
use crate::study::JudgedHouse;

/// Above a view: its caption and some air.
const CAPTION: i32 = LINE + 350;
/// Between two views below each other.
const BETWEEN: i32 = 400;
/// A limit is drawn where it is no further away than this many times the house.
const DRAWN: f64 = 2.0;
/// How a limit is dashed, and how wide its line is.
pub(super) const RULE: ((f64, f64), u32) = ((320.0, 110.0), 50);

/// What is drawn of the road's limits, m.
#[derive(Clone, Copy)]
pub(super) struct Limits {
    pub(super) width: Option<f64>,
    pub(super) height: Option<f64>,
    pub(super) length: Option<f64>,
}

impl Limits {
    fn of(one: &JudgedHouse<'_>, shape: &Shape<'_>) -> Self {
        let (road, fit) = (&one.case.house.road, &one.result.fit);
        let near = |limit: Option<Length>, total: Option<f64>| {
            let total = total?;
            limit
                .map(Length::as_m)
                .filter(|limit| *limit <= DRAWN * total)
        };
        let of = |measure: &Option<_>| measure.as_ref().map(total_of);
        Self {
            width: near(road.width, of(&fit.width)),
            height: near(road.height, shape.road.map(|_| shape.top)),
            length: near(road.length, of(&fit.length)),
        }
    }
}

fn total_of(measure: &crate::solve::house::Measure) -> f64 {
    measure.total().as_m()
}

/// Both views, laid out.
pub(super) struct Views<'a> {
    one: &'a JudgedHouse<'a>,
    style: Style,
    shape: Shape<'a>,
    chain: Chain,
    under: Under,
    limits: Limits,
    /// The words of the height's limit.
    limit: Vec<String>,
    width: i32,
    /// Width of the chain's words.
    names: i32,
    /// Right of the end view.
    gap: i32,
    is_beside: bool,
    scale: Scale,
}

impl<'a> Views<'a> {
    /// At the largest standard scale that fits; `None` without measures. With the `sum` of the length
    /// written out under them.
    pub(super) fn new(
        one: &'a JudgedHouse<'a>,
        style: Style,
        (width, height): Point,
        magnify: f64,
        sum: bool,
    ) -> Option<Self> {
        let shape = Shape::of(one)?;
        let is_wide = width >= super::WIDE;
        let mut views = Self::laid(one, style, (shape, is_wide, width), (height, magnify), sum);
        if is_wide {
            // One unit beside the chain where that makes the drawing larger: tables have both.
            let shape = Shape::of(one)?;
            let other = Self::laid(one, style, (shape, false, width), (height, magnify), sum);
            if views.scale.is_coarser_than(other.scale) {
                views = other;
            }
        }
        Some(views)
    }

    fn laid(
        one: &'a JudgedHouse<'a>,
        style: Style,
        (shape, both, width): (Shape<'a>, bool, i32),
        (height, magnify): (i32, f64),
        sum: bool,
    ) -> Self {
        let chain = Chain::new(&shape, both, style);
        let names = (chain.width() + 60).min(width / 2);
        let limits = Limits::of(one, &shape);
        let words = limits
            .height
            .map(|_| end::limit_words(one, style))
            .unwrap_or_default();
        let mut views = Self {
            one,
            style,
            limits,
            limit: wrap(&words, SIZE, true, width - names - LEADERS),
            under: Under::new(one, width >= super::WIDE, sum, style),
            width,
            names,
            gap: 900,
            is_beside: true,
            scale: Scale::largest(Length::from_m(1.0), 1, style.units, magnify),
            shape,
            chain,
        };
        views.place(height, magnify);
        // Words that don't fit into the view stand at its right. Where they make it smaller, others may
        // have to join them.
        for _ in 0..2 {
            let words = views.outside();
            if words > 0 {
                views.gap = words + 700;
                views.place(height, magnify);
            }
        }
        views
    }

    /// Width of the end view's words that don't fit into it.
    fn outside(&self) -> i32 {
        let view = self.shape.across();
        let (inner, all) = (view.inner_faces(), view.extent());
        let inner = self.drawn(inner.1 - inner.0);
        let limit = self
            .limits
            .width
            .map_or(i32::MAX, |limit| self.drawn(limit));
        let rooms = (inner - end::inset(inner), self.drawn(all.1 - all.0), limit);
        end::outside(self.one, self.style, rooms)
    }

    /// Above a view: its caption and the words of the height's limit.
    fn above(&self) -> i32 {
        CAPTION + LINE * i32::try_from(self.limit.len()).unwrap_or(0)
    }

    fn place(&mut self, height: i32, magnify: f64) {
        let beside = self.scale_for(true, height, magnify);
        let below = self.scale_for(false, height, magnify);
        self.is_beside = !beside.is_much_coarser_than(below);
        self.scale = if self.is_beside { beside } else { below };
    }

    fn scale_for(&self, is_beside: bool, height: i32, magnify: f64) -> Scale {
        let fits = |meters: f64, room: i32| {
            Scale::largest(Length::from_m(meters), room, self.style.units, magnify)
        };
        let life = |(from, to): Span| to - from;
        let (end, side) = (life(self.end_span()), life(self.side_span()));
        let left = self.width - self.names - LEADERS - self.gap;
        let up = self.top() - self.shape.bottom();
        let under = (end::UNDER, self.under.height(self.side_room(is_beside)));
        match is_beside {
            true => {
                let free = height - self.above() - under.0.max(under.1);
                fits(end + side, left - 300).coarser(fits(up, free))
            }
            false => {
                let free = height - self.above() - CAPTION - BETWEEN - under.0 - under.1;
                let across = fits(end, left).coarser(fits(side, self.width - 300));
                across.coarser(fits(2.0 * up, free))
            }
        }
    }

    /// The width that the side view's words have.
    fn side_room(&self, is_beside: bool) -> i32 {
        match is_beside {
            true => (self.width - self.names - LEADERS) / 2,
            false => self.width,
        }
    }

    fn end_span(&self) -> Span {
        let (left, right) = self.shape.across().extent();
        (
            left,
            self.limits
                .width
                .map_or(right, |limit| right.max(left + limit)),
        )
    }

    fn side_span(&self) -> Span {
        let (front, back) = self.shape.along().extent();
        let length = self.one.result.fit.length.as_ref().map(total_of);
        let left = length.map_or(front, |length| back - length);
        (
            left,
            self.limits
                .length
                .map_or(back, |limit| back.max(left + limit)),
        )
    }

    fn top(&self) -> f64 {
        let top = self.shape.top;
        self.limits.height.map_or(top, |limit| top.max(limit))
    }

    /// The scale both are drawn to.
    pub(super) fn scale(&self) -> Scale {
        self.scale
    }

    fn drawn(&self, meters: f64) -> i32 {
        self.scale.on_paper(Length::from_m(meters)).round() as i32
    }

    /// Height of what is drawn to scale.
    fn up(&self) -> i32 {
        self.drawn(self.top() - self.shape.bottom())
    }

    /// The same of the end view, whose heights need room for their words.
    fn end_up(&self) -> i32 {
        self.up().max(self.chain.height())
    }

    /// The height they take.
    pub(super) fn height(&self) -> i32 {
        let end = self.end_span();
        let taken = self.names + LEADERS + self.drawn(end.1 - end.0) + self.gap;
        let under = self.under.height(match self.is_beside {
            true => self.width - taken,
            false => self.width,
        });
        match self.is_beside {
            true => self.above() + self.end_up() + end::UNDER.max(under),
            false => {
                let end = self.above() + self.end_up() + end::UNDER;
                end + BETWEEN + CAPTION + self.up() + under
            }
        }
    }

    /// Draws them.
    pub(super) fn draw(&self, sheet: &mut Sheet, (left, top): Point) {
        let (end, side) = (self.end_span(), self.side_span());
        let right = left + self.width;
        let foot = top + self.above() + self.end_up();
        let at = |x: i32, foot: i32, span: Span| Paper {
            scale: self.scale,
            origin: (
                x - self.drawn(span.0),
                foot + self.drawn(self.shape.bottom()),
            ),
        };
        let x = left + self.names + LEADERS;
        let across = at(x, foot, end);
        let (beside, side_foot) = match self.is_beside {
            true => (across.x(end.1) + self.gap, foot),
            false => (left, foot + end::UNDER + BETWEEN + CAPTION + self.up()),
        };
        let along = at(beside + 150, side_foot, side);
        let side_top = match self.is_beside {
            true => top,
            false => side_foot - self.up() - CAPTION,
        };
        self.caption(sheet, (left, top), "Across, cut, seen from behind");
        self.caption(sheet, (beside, side_top), "Along, seen from the left");
        let ends = [
            (x - 150, across.x(end.1) + 150),
            (beside, along.x(side.1) + 150),
        ];
        for (ends, paper) in ends.into_iter().zip([&across, &along]) {
            self.limit_of_height(sheet, ends, paper);
        }
        let mut baseline = across.y(self.top()) - 230;
        for words in self.limit.iter().rev() {
            sheet.text(words, (x - 150, baseline), Lettering::PLAIN.bold());
            baseline -= LINE;
        }
        let edge = (across.x(end.1) + self.gap - 150).min(right);
        self.end_view(sheet, &across, (end, edge));
        let above = top + CAPTION;
        self.chain.draw(
            sheet,
            (&across, &self.shape),
            (left + self.names, self.names),
            (above, foot),
        );
        self.side_view(sheet, &along, (side, beside, right));
    }

    fn caption(&self, sheet: &mut Sheet, (left, top): Point, words: &str) {
        sheet.text(words, (left, top + SIZE), Lettering::PLAIN.color(GRAY));
    }

    /// The limit as a level rule over a view.
    fn limit_of_height(&self, sheet: &Sheet, (left, right): (i32, i32), paper: &Paper) {
        if let Some(limit) = self.limits.height {
            let y = paper.y(limit);
            sheet.dashes(&[(left, y), (right, y)], RULE.0, INK, RULE.1);
        }
    }

    fn end_view(&self, sheet: &mut Sheet, paper: &Paper, (span, right): (Span, i32)) {
        let view = self.shape.across();
        let (mut all, cut) = (view.behind(), view.cut());
        pieces(sheet, paper, &all, false);
        pieces(sheet, paper, &cut, true);
        all.extend(cut);
        self.outline(sheet, paper, (&view, span), &all, self.limits.width);
        end::draw(
            sheet,
            (paper, &self.shape),
            self.one,
            (self.limits.width, right),
            self.style,
        );
    }

    fn side_view(&self, sheet: &mut Sheet, paper: &Paper, (span, left, right): (Span, i32, i32)) {
        let view = self.shape.along();
        let seen = view.outside();
        pieces(sheet, paper, &seen, false);
        self.outline(sheet, paper, (&view, span), &seen, self.limits.length);
        self.under.draw(
            sheet,
            (paper, &self.shape),
            self.limits.length,
            (left, right),
        );
    }

    /// The road, the frame's top, what stands above, and what is beyond the limits.
    fn outline(
        &self,
        sheet: &Sheet,
        paper: &Paper,
        (view, span): (&View<'_>, Span),
        drawn: &[Corners],
        limit: Option<f64>,
    ) {
        let shape = &self.shape;
        let road = paper.y(shape.road.unwrap_or(shape.frame));
        let ends = (paper.x(span.0) - 150, paper.x(span.1) + 150);
        sheet.line(vec![(ends.0, road), (ends.1, road)], INK, 35);
        let frame = [0.0, view.deck].map(|place| paper.at((place, shape.frame)));
        sheet.line(frame.to_vec(), INK, 25);
        if let Some(above) = view.above() {
            sheet.dashes(&above.map(|at| paper.at(at)), (120.0, 90.0), INK, 18);
        }
        if let Some(limit) = limit {
            for x in [span.0, span.0 + limit].map(|place| paper.x(place)) {
                let rule = [(x, paper.y(shape.top) - 150), (x, road)];
                sheet.dashes(&rule, RULE.0, INK, RULE.1);
            }
            for piece in sideways(view, drawn, span.0 + limit) {
                hatch::beyond(sheet, &paper.corners(&piece));
            }
        }
        if let Some(limit) = self.limits.height {
            for piece in upward(view, drawn, limit) {
                hatch::beyond(sheet, &paper.corners(&piece));
            }
        }
    }
}

/// Pieces of the house: cut ones hatched, others in outline.
fn pieces(sheet: &Sheet, paper: &Paper, pieces: &[Corners], cut: bool) {
    for piece in pieces {
        let mut corners = paper.corners(piece);
        if cut {
            sheet.hatching(|sheet| hatch::cut(sheet, &corners));
        }
        corners.extend(corners.first().copied());
        sheet.line(corners, INK, if cut { 30 } else { 22 });
    }
}
