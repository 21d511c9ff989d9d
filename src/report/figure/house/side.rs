//! What stands under the view along the house: openings by their places, the trailer's marks, lengths.

use super::super::detail::measure::across;
use super::super::lettering::wrap;
use super::super::sheet::{FAINT, GRAY, INK, LINE, Lettering, SIZE, Sheet};
use super::chain::in_units;
use super::end::LANE;
use super::paper::Paper;
use super::shape::Shape;
use crate::model::house::{Opening, OpeningPlace, Side};
use crate::quantity::{Length, Style};
use crate::study::JudgedHouse;

/// An opening whose place along its wall is known.
struct Placed {
    side: Side,
    from: f64,
    to: f64,
    name: String,
    /// In both units, and in the reader's own where they don't fit.
    sizes: [String; 2],
}

/// A place on the trailer, m from the deck's front.
type Mark = (f64, &'static str);

/// Everything under the view.
pub(super) struct Under {
    openings: Vec<Placed>,
    marks: Vec<Mark>,
    deck: String,
    all: Option<(f64, String)>,
    limit: Option<String>,
    sum: String,
}

/// The middle of an opening whose place along its wall the file tells: of several at one place it tells
/// the middle of them all.
fn place(opening: &Opening) -> Option<(Side, f64)> {
    match (opening.place, opening.at, opening.count) {
        (OpeningPlace::Wall(side), Some(at), 1) if side.is_long() => Some((side, at.as_m())),
        _ => None,
    }
}

/// The openings that aren't drawn, by name.
pub(super) fn left_out(one: &JudgedHouse<'_>) -> Vec<String> {
    let openings = one.case.house.openings.iter();
    let without = openings.filter(|opening| place(opening).is_none());
    let name = |opening: &Opening| match opening.count {
        1 => opening.name.clone(),
        count => format!("{} ({count})", opening.name),
    };
    without.map(name).collect()
}

/// Whether any opening is drawn.
pub(super) fn has_placed(one: &JudgedHouse<'_>) -> bool {
    one.case
        .house
        .openings
        .iter()
        .any(|opening| place(opening).is_some())
}

fn placed(opening: &Opening, both: bool, style: Style) -> Option<Placed> {
    let (side, middle) = place(opening)?;
    let size = |style: Style| {
        let [width, height] = [opening.width, opening.height].map(|one| style.show(one));
        format!("{width} × {height}")
    };
    let half = opening.width.as_m() / 2.0;
    let own = format!(", {}", size(style));
    let other = match both {
        true => format!("{own} ({})", size(style.other())),
        false => own.clone(),
    };
    Some(Placed {
        side,
        from: middle - half,
        to: middle + half,
        name: format!("{}: {}", side.word(), opening.name),
        sizes: [other, own],
    })
}

impl Under {
    /// Gathers it.
    ///
    /// With the `sum` of the length where there is room for it.
    pub(super) fn new(one: &JudgedHouse<'_>, both: bool, sum: bool, style: Style) -> Self {
        let house = one.case.house;
        let trailer = &house.trailer;
        let coupler = trailer.tongue.map(|tongue| (-tongue.as_m(), "coupler"));
        let axles = trailer.axles_at.map(|at| (at.as_m(), "axles"));
        let tape = |length: Length| {
            let of = |style: Style| style.on_tape(length, f64::round);
            format!("{} ({})", of(style), of(style.other()))
        };
        let deck = house.shell.as_ref().map(|shell| shell.length);
        let length = one.result.fit.length.as_ref();
        let terms = length.map(|length| {
            let term = |term: &crate::solve::house::Term| {
                format!("{} {}", term.name, in_units(term.value, false, style))
            };
            let terms: Vec<String> = length.terms.iter().map(term).collect();
            let total = in_units(length.total().as_m(), true, style);
            format!("Length: {} = {total}.", terms.join(" + "))
        });
        let openings = house.openings.iter();
        Self {
            openings: openings
                .filter_map(|one| placed(one, both, style))
                .collect(),
            marks: coupler.into_iter().chain(axles).collect(),
            deck: deck.map_or_else(String::new, |length| format!("deck {}", tape(length))),
            all: length.map(|length| {
                let total = length.total();
                (total.as_m(), format!("long {}", tape(total)))
            }),
            limit: house
                .road
                .length
                .map(|limit| format!("limit {}", tape(limit))),
            sum: terms.filter(|_| sum).unwrap_or_default(),
        }
    }

    fn lanes(&self) -> i32 {
        1 + i32::from(self.all.is_some()) + i32::from(self.limit.is_some())
    }

    /// The height it takes where its words have that width.
    pub(super) fn height(&self, width: i32) -> i32 {
        let count = |n: usize| i32::try_from(n).unwrap_or(0);
        let rows = count(self.openings.len()) + i32::from(!self.marks.is_empty());
        let lines = count(wrap(&self.sum, SIZE, false, width).len());
        200 + LINE * rows + LANE * self.lanes() + 250 + LINE * lines
    }

    /// Draws it between these bounds.
    pub(super) fn draw(
        &self,
        sheet: &mut Sheet,
        (paper, shape): (&Paper, &Shape<'_>),
        limit: Option<f64>,
        (left, right): (i32, i32),
    ) {
        let edge = paper.y(shape.bottom());
        let mut y = edge;
        if !self.marks.is_empty() {
            self.marks(sheet, paper, y);
            y += LINE;
        }
        for opening in &self.openings {
            y += LINE;
            row(sheet, paper, (shape, opening), y - 80, (left, right));
        }
        y += 400;
        let view = shape.along();
        let lane = |sheet: &mut Sheet, (from, to): (f64, f64), y: i32, words: &str| {
            let ends = (paper.x(from), paper.x(to));
            across(sheet, ends, ((y - 100, y - 100), y), right, words);
        };
        lane(sheet, (0.0, view.deck), y, &self.deck);
        y += LANE;
        let back = view.extent().1;
        if let Some((length, words)) = &self.all {
            lane(sheet, (back - length, back), y, words);
            y += LANE;
            if let (Some(limit), Some(words)) = (limit, &self.limit) {
                let front = back - length;
                lane(sheet, (front, front + limit), y, words);
                y += LANE;
            }
        }
        for line in wrap(&self.sum, SIZE, false, right - left) {
            sheet.text(&line, (left, y + 100), Lettering::PLAIN.color(GRAY));
            y += LINE;
        }
    }

    /// Where coupler and axles are: a point on the road each, since no more is known of them.
    fn marks(&self, sheet: &mut Sheet, paper: &Paper, road: i32) {
        let plain = Lettering::PLAIN;
        for (n, (place, name)) in self.marks.iter().enumerate() {
            let x = paper.x(*place);
            let corners = vec![(x, road), (x + 130, road + 230), (x - 130, road + 230)];
            sheet.polygon(corners, INK);
            let next = self.marks.get(n + 1).map(|(place, _)| paper.x(*place));
            let fits = next.is_none_or(|next| x + 500 + plain.width(name) < next);
            match fits {
                true => sheet.text(name, (x + 200, road + 330), plain),
                false => sheet.text(name, (x - 200, road + 330), plain.right()),
            }
        }
    }
}

/// An opening as a bar as wide as it is, its words where there is room for them; over the wall that is
/// seen, dashed lines at its sides.
fn row(
    sheet: &mut Sheet,
    paper: &Paper,
    (shape, opening): (&Shape<'_>, &Placed),
    y: i32,
    (left, right): (i32, i32),
) {
    let (from, to) = (paper.x(opening.from), paper.x(opening.to));
    if opening.side == Side::Left {
        for x in [from, to] {
            let line = [(x, paper.y(shape.floor)), (x, paper.y(shape.bottom()))];
            sheet.dashes(&line, (60.0, 60.0), FAINT, 12);
        }
    }
    sheet.fill((from, y - 150), (to, y - 60), INK);
    for x in [from, to] {
        sheet.line(vec![(x, y - 200), (x, y)], INK, 18);
    }
    let plain = Lettering::PLAIN;
    let (before, behind) = (from - left - 150, right - to - 150);
    let room = before.max(behind);
    let [both, own] = &opening.sizes;
    let all = plain.width(&opening.name) + plain.width(both);
    let size = if all <= room { both } else { own };
    // What is too long is the name: tables have it.
    let name = plain.fit(&opening.name, room - plain.width(size));
    let words = name + size;
    if plain.width(&words) <= behind || behind >= before {
        sheet.text(&words, (to + 150, y), plain);
    } else {
        sheet.text(&words, (from - 150, y), plain.right());
    }
}
