//! The width stack: what stands out beyond the deck on both sides, enlarged, against the road's limit.

use super::super::hatch::{self, Hatch};
use super::super::scale::Scale;
use super::super::sheet::{FAINT, GRAY, INK, LINE, Lettering, Point, SIZE, Sheet};
use super::answer::margin;
use super::chain::in_units;
use super::end::LANE;
use super::views::RULE;
use crate::check::house::WIDTH;
use crate::model::Content;
use crate::model::house::Side;
use crate::quantity::{Length, Style};
use crate::solve::house::{Term, TermKind};
use crate::study::JudgedHouse;

/// Height of the bar.
const BAR: i32 = 900;
/// Above the bar: its caption, and where there is a limit that and what is left of it.
const CAPTION: i32 = LINE + 200;
const LIMIT: i32 = 2 * LANE - 200;
/// What is shown of the deck at either side at least, m, and the break in it on paper.
const STUB: f64 = 0.02;
const BREAK: i32 = 900;
/// From the bar down to its first words, and between bar and words sideways.
const BELOW: i32 = 350;
const BESIDE: i32 = 350;

/// A layer, a trim or an overhang at one side.
struct Part {
    words: String,
    value: f64,
    hatch: Option<Hatch>,
}

/// One side, from the deck outward.
struct Flank {
    parts: Vec<Part>,
    /// What is shown of the deck, m.
    stub: f64,
    /// The deck's width in words, at the left side.
    deck: String,
}

impl Flank {
    fn beyond(&self) -> f64 {
        self.parts.iter().map(|part| part.value).sum()
    }

    fn shown(&self) -> f64 {
        self.beyond() + self.stub
    }

    fn rows(&self) -> usize {
        self.parts.len() + usize::from(!self.deck.is_empty())
    }

    /// Width of its words, within reason for a figure so wide.
    fn names(&self, width: i32) -> i32 {
        let words = self.parts.iter().map(|part| &part.words);
        let widths = words
            .chain([&self.deck])
            .map(|words| Lettering::PLAIN.width(words));
        widths.max().unwrap_or(0).min(width * 2 / 5)
    }
}

/// The stack, laid out.
pub(super) struct Stack {
    flanks: [Flank; 2],
    sum: String,
    total: f64,
    limit: Option<f64>,
    limit_words: String,
    scale: Scale,
    width: i32,
    /// Widths of the words at the left and at the right.
    names: (i32, i32),
}

impl Stack {
    /// At the largest standard scale that fits; `None` where nothing stands out beyond the deck.
    pub(super) fn new(
        one: &JudgedHouse<'_>,
        style: Style,
        width: i32,
        magnify: f64,
    ) -> Option<Self> {
        let measure = one.result.fit.width.as_ref()?;
        let both = width >= super::WIDE;
        let of = |side: Side| {
            let terms = measure.terms.iter().filter(move |term| is_at(term, side));
            let parts = terms.map(|term| part(one, (term, side), both, style));
            Flank {
                parts: parts.collect(),
                stub: STUB,
                deck: String::new(),
            }
        };
        let mut flanks = [of(Side::Left), of(Side::Right)];
        if flanks.iter().all(|flank| flank.parts.is_empty()) {
            return None;
        }
        let deck = measure
            .terms
            .iter()
            .find(|term| term.kind == TermKind::Deck)?;
        flanks[0].deck = format!("deck {}", in_units(deck.value, both, style));
        let total = measure.total().as_m();
        let limit = one.case.house.road.width.map(Length::as_m);
        // A limit that lies within the deck is shown there.
        let over = limit.map_or(0.0, |limit| total - limit - flanks[1].beyond());
        flanks[1].stub = STUB.max(over * 1.2).min(deck.value - STUB).max(STUB);
        let limit = limit.filter(|limit| {
            let least = total - flanks[1].shown();
            (least..=2.0 * total).contains(limit)
        });
        let spare = limit.map_or(0.0, |limit| (limit - total).max(0.0));
        let life = flanks[0].shown() + flanks[1].shown() + spare;
        let names = (flanks[0].names(width), flanks[1].names(width));
        let room = width - names.0 - names.1 - BREAK - 2 * BESIDE;
        let left = one.verdict.findings.iter().find(|one| one.check == &WIDTH);
        let left = left.and_then(|found| margin(found, style));
        Some(Self {
            sum: format!("together {}", in_units(total, true, style)),
            limit_words: limit.map_or_else(String::new, |limit| {
                let left = left.map_or_else(String::new, |left| format!(": {left}"));
                format!("road width limit {}{left}", in_units(limit, true, style))
            }),
            scale: Scale::largest(Length::from_m(life), room, style.units, magnify),
            flanks,
            total,
            limit,
            width,
            names,
        })
    }

    /// The height it takes.
    pub(super) fn height(&self) -> i32 {
        self.above() + BAR + BELOW + LINE * self.rows() + 2 * LANE
    }

    fn above(&self) -> i32 {
        CAPTION + self.limit.map_or(0, |_| LIMIT)
    }

    /// Rows of words below the bar.
    fn rows(&self) -> i32 {
        let rows = self.flanks.iter().map(Flank::rows).max();
        i32::try_from(rows.unwrap_or(0)).unwrap_or(0)
    }

    fn drawn(&self, meters: f64) -> i32 {
        self.scale.on_paper(Length::from_m(meters)).round() as i32
    }

    /// Draws it.
    pub(super) fn draw(&self, sheet: &mut Sheet, (left, top): Point) {
        let caption = format!("Width stack, {}, the deck cut short", self.scale.words());
        let gray = Lettering::PLAIN.color(GRAY);
        sheet.text(&gray.fit(&caption, self.width), (left, top + SIZE), gray);
        let bar = (top + self.above(), top + self.above() + BAR);
        let spare = self
            .limit
            .map_or(0.0, |limit| (limit - self.total).max(0.0));
        let [one, other] = &self.flanks;
        let taken = self.drawn(one.shown() + other.shown() + spare) + BREAK;
        let free = self.width - taken - self.names.0 - self.names.1 - 2 * BESIDE;
        let from = left + self.names.0 + BESIDE + free / 2;
        // Edges of the deck, and outermost ends.
        let inner = (from + self.drawn(one.beyond()), {
            let cut = from + self.drawn(one.shown()) + BREAK;
            cut + self.drawn(other.stub)
        });
        let end = inner.1 + self.drawn(other.beyond());
        let outer = end + self.drawn(spare);
        self.flank(sheet, one, (inner.0, -1), bar, from - BESIDE);
        self.flank(sheet, other, (inner.1, 1), bar, outer + BESIDE);
        self.deck(sheet, (inner.0, inner.1), bar);
        self.limit(sheet, (from, end), bar, left);
        let middle = i32::midpoint(from, end);
        let y = bar.1 + BELOW + LINE * self.rows();
        for (x, edge) in [(from, bar.1), (end, bar.1)] {
            sheet.line(vec![(x, edge), (x, y + 90)], FAINT, 9);
            sheet.line(vec![(x - 70, y + 70), (x + 70, y - 70)], INK, 18);
        }
        sheet.line(vec![(from, y), (end, y)], INK, 12);
        let bold = Lettering::PLAIN.bold().centered();
        let half = bold.width(&self.sum) / 2;
        let x = middle.max(left + half).min(left + self.width - half);
        sheet.text(&self.sum, (x, y + LANE), bold);
    }

    /// The deck's ends with the break between them.
    fn deck(&self, sheet: &mut Sheet, (from, to): (i32, i32), (top, bottom): (i32, i32)) {
        let cut = (
            from + self.drawn(self.flanks[0].stub),
            to - self.drawn(self.flanks[1].stub),
        );
        for (a, b) in [(from, cut.0), (cut.1, to)] {
            for y in [top, bottom] {
                sheet.line(vec![(a, y), (b, y)], INK, 30);
            }
        }
        let middle = i32::midpoint(top, bottom);
        for x in [cut.0, cut.1] {
            let zigzag = vec![
                (x, top - 120),
                (x, middle - 180),
                (x + 130, middle - 60),
                (x - 130, middle + 60),
                (x, middle + 180),
                (x, bottom + 120),
            ];
            sheet.line(zigzag, INK, 18);
        }
    }

    /// The parts of one side, which way they go from the deck's edge, their words toward the margin.
    fn flank(
        &self,
        sheet: &mut Sheet,
        flank: &Flank,
        (edge, way): (i32, i32),
        (top, bottom): (i32, i32),
        words: i32,
    ) {
        let mut beyond = 0.0;
        let mut middles = Vec::new();
        for part in &flank.parts {
            let a = edge + way * self.drawn(beyond);
            beyond += part.value;
            let b = edge + way * self.drawn(beyond);
            let (from, to) = ((a.min(b), top), (a.max(b), bottom));
            if let Some(hatch) = part.hatch {
                hatch::fill(sheet, hatch, from, to, true);
            }
            sheet.outline(from, to, INK, 25);
            middles.push((part.words.as_str(), i32::midpoint(a, b)));
        }
        if !flank.deck.is_empty() {
            let stub = edge - way * self.drawn(flank.stub) / 2;
            middles.insert(0, (flank.deck.as_str(), stub));
        }
        // The outermost word stands highest, so that no leader crosses another.
        let mut y = bottom + BELOW;
        let names = if way > 0 { self.names.1 } else { self.names.0 };
        for (told, x) in middles.into_iter().rev() {
            sheet.line(vec![(x, bottom), (x, y), (words - way * 60, y)], FAINT, 9);
            let set = match way > 0 {
                true => Lettering::PLAIN,
                false => Lettering::PLAIN.right(),
            };
            let at = (words, y + SIZE * 36 / 100);
            sheet.text(&set.fit(told, names), at, set);
            y += LINE;
        }
    }

    /// The limit as two upright rules, the left one at the house's left; beyond the right one hatched.
    fn limit(
        &self,
        sheet: &mut Sheet,
        (from, end): (i32, i32),
        (top, bottom): (i32, i32),
        left: i32,
    ) {
        let Some(limit) = self.limit else {
            return;
        };
        let to = end + self.drawn(limit - self.total);
        let y = top - LANE / 2;
        for x in [from, to] {
            sheet.dashes(&[(x, y - 100), (x, bottom + 150)], RULE.0, INK, RULE.1);
            sheet.line(vec![(x - 70, y + 70), (x + 70, y - 70)], INK, 18);
        }
        sheet.line(vec![(from, y), (to, y)], INK, 12);
        if to < end {
            hatch::beyond(sheet, &[(to, top), (end, top), (end, bottom), (to, bottom)]);
        }
        let bold = Lettering::PLAIN.bold();
        let width = bold.width(&self.limit_words);
        let x = (i32::midpoint(from, to) - width / 2)
            .max(left)
            .min(left + self.width - width);
        let words = bold.fit(&self.limit_words, self.width);
        sheet.text(&words, (x.max(left), y - 170), bold);
    }
}

/// Whether a term of the width lies at a side.
fn is_at(term: &Term, side: Side) -> bool {
    matches!(term.kind, TermKind::WallLayer(at) | TermKind::Trim(at) | TermKind::Overhang(at) if at == side)
}

fn part(one: &JudgedHouse<'_>, (term, side): (&Term, Side), both: bool, style: Style) -> Part {
    let layer = term.layer.as_ref().and_then(|(assembly, layer)| {
        let mut layers = one.case.assembly(assembly)?.layers.iter();
        layers.find(|one| one.name == *layer)
    });
    let hatch = layer.map(|layer| match &layer.content {
        Content::Solid(substance) => Hatch::Kind(substance.kind),
        Content::Air(_) => Hatch::Air,
    });
    let prefix = format!("{} ", side.word());
    let name = match both {
        true => &term.name,
        // Its place says which side it is.
        false => term.name.strip_prefix(&prefix).unwrap_or(&term.name),
    };
    Part {
        words: format!("{name} {}", in_units(term.value, both, style)),
        value: term.value,
        hatch,
    }
}
