//! The height stack: a chain of dimensions at a view's left, its words moved out with leaders.

use super::super::place::spread;
use super::super::sheet::{FAINT, INK, LINE, Lettering, SIZE, Sheet};
use super::paper::Paper;
use super::shape::Shape;
use crate::quantity::{Length, Style};

/// From the words to the chain, with room for the leaders.
pub(super) const LEADERS: i32 = 900;

/// The chain's words from the lowest term up.
pub(super) struct Chain {
    words: Vec<String>,
    sum: Vec<String>,
}

impl Chain {
    /// The terms of a house's height; in both units where there is room for them.
    pub(super) fn new(shape: &Shape<'_>, both: bool, style: Style) -> Self {
        let measure = |meters: f64| in_units(meters, both, style);
        let terms = shape.terms.iter();
        let words = terms.map(|term| format!("{} {}", term.name, measure(term.value)));
        let all = match shape.road {
            Some(_) => "height together",
            None => "above the frame",
        };
        Self {
            words: words.collect(),
            sum: vec![all.to_owned(), measure(shape.top)],
        }
    }

    /// Width of its widest words.
    pub(super) fn width(&self) -> i32 {
        let plain = self.words.iter().map(|words| Lettering::PLAIN.width(words));
        let bold = self
            .sum
            .iter()
            .map(|words| Lettering::PLAIN.bold().width(words));
        plain.chain(bold).max().unwrap_or(0)
    }

    /// The height its words need beside each other.
    pub(super) fn height(&self) -> i32 {
        LINE * i32::try_from(self.words.len()).unwrap_or(0)
    }

    /// Draws it between two heights, its words ending at `right` and no wider than `names`, the sum
    /// under it.
    pub(super) fn draw(
        &self,
        sheet: &mut Sheet,
        (paper, shape): (&Paper, &Shape<'_>),
        (right, names): (i32, i32),
        (top, bottom): (i32, i32),
    ) {
        let x = right + LEADERS - 150;
        let mut from = paper.y(shape.road.unwrap_or(shape.frame));
        let mut height = shape.road.unwrap_or(shape.frame);
        let mut middles = Vec::new();
        tick(sheet, (x, from));
        let foot = from;
        for term in shape.terms {
            height += term.value;
            let to = paper.y(height);
            tick(sheet, (x, to));
            middles.push(i32::midpoint(from, to));
            from = to;
        }
        sheet.line(vec![(x, foot), (x, from)], INK, 12);
        // From the road up the places descend on the paper.
        let labels = spread(&middles, LINE, (top, bottom));
        for ((words, middle), label) in self.words.iter().zip(middles).zip(labels) {
            let leader = vec![
                (x - 40, middle),
                (x - 250, middle),
                (right + 150, label),
                (right + 60, label),
            ];
            sheet.line(leader, FAINT, 9);
            let set = Lettering::PLAIN.right();
            let words = set.fit(words, names - 60);
            sheet.text(&words, (right, label + SIZE * 36 / 100), set);
        }
        let mut baseline = bottom + LINE + LINE / 2;
        for words in &self.sum {
            let set = Lettering::PLAIN.bold().right();
            sheet.text(words, (right, baseline), set);
            baseline += LINE;
        }
    }
}

fn tick(sheet: &Sheet, (x, y): (i32, i32)) {
    sheet.line(vec![(x - 70, y + 70), (x + 70, y - 70)], INK, 18);
}

/// A term as it is added up by hand, with the other reader's unit where there is room.
pub(super) fn in_units(meters: f64, both: bool, style: Style) -> String {
    let length = Length::from_m(meters);
    let own = style.measure(length);
    match both {
        true => format!("{own} ({})", style.other().measure(length)),
        false => own,
    }
}
