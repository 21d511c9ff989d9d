//! The weight as one bar against the rating.

use super::super::hatch;
use super::super::sheet::{GRAY, INK, LINE, Lettering, PAPER, Point, SIZE, Sheet};
use super::answer::{least, margin, missing};
use super::views::RULE;
use crate::check::house::{TONGUE, WEIGHT};
use crate::quantity::{Mass, Style};
use crate::solve::house::{Weight, WeightGroup};
use crate::study::JudgedHouse;

/// Height of the bar.
const BAR: i32 = 800;
/// Above the bar: its caption, the rating and what is left of it.
const ABOVE: i32 = 3 * LINE + 150;
/// Between the bar and the rows of its parts.
const BELOW: i32 = 250;
/// Parts below this share of all stand together where there are several of them.
const SMALL: f64 = 0.02;

/// A part of the bar.
pub(super) struct Part {
    words: String,
    /// Its weight, kg.
    pub(super) mass: f64,
}

/// The bar, laid out.
pub(super) struct Load {
    /// Its parts from the left.
    pub(super) parts: Vec<Part>,
    rating: Option<f64>,
    rating_words: String,
    caption: String,
    notes: Vec<String>,
    width: i32,
}

impl Load {
    /// The trailer, every assembly, the openings together, the allowances together.
    ///
    /// With notes where no findings stand beside it.
    pub(super) fn new(one: &JudgedHouse<'_>, style: Style, width: i32, noted: bool) -> Self {
        let weight = &one.result.weight;
        let parts = grouped(named(one), total(weight));
        let rating = one.case.house.trailer.rating.map(Mass::as_kg);
        let found = one.verdict.findings.iter().find(|one| one.check == &WEIGHT);
        let left = found.and_then(|found| margin(found, style).filter(|_| found.limit.is_some()));
        let left = left.map_or_else(String::new, |left| format!(": {left}"));
        let rating_words = rating.map_or_else(
            || "no rating stated".to_owned(),
            |rating| format!("rating {}{left}", style.both(Mass::from_kg(rating))),
        );
        let part = |(name, mass): (String, f64)| Part {
            words: format!("{name} {}", style.both(Mass::from_kg(mass))),
            mass,
        };
        Self {
            parts: parts.into_iter().map(part).collect(),
            rating,
            rating_words,
            caption: {
                let what = match weight.trailer {
                    Some(_) => "House and trailer together",
                    None => "The house without its trailer",
                };
                let all = style.both(Mass::from_kg(total(weight)));
                format!("{what} {}{all}", found.map_or("", least))
            },
            notes: if noted { notes(one, style) } else { Vec::new() },
            width,
        }
    }

    fn note_lines(&self) -> Vec<String> {
        let wrap = |note: &String| super::super::lettering::wrap(note, SIZE, false, self.width);
        self.notes.iter().flat_map(wrap).collect()
    }

    fn rows(&self) -> i32 {
        i32::try_from(self.parts.len()).unwrap_or(0)
    }

    /// The height it takes.
    pub(super) fn height(&self) -> i32 {
        let lines = i32::try_from(self.note_lines().len()).unwrap_or(0);
        ABOVE + BAR + BELOW + LINE * (self.rows() + lines) + LINE / 2
    }

    fn total(&self) -> f64 {
        self.parts.iter().map(|part| part.mass).sum()
    }

    /// Draws it.
    pub(super) fn draw(&self, sheet: &mut Sheet, (left, top): Point) {
        let gray = Lettering::PLAIN.color(GRAY);
        sheet.text(
            &gray.fit(&self.caption, self.width),
            (left, top + SIZE),
            gray,
        );
        let most = self
            .total()
            .max(self.rating.unwrap_or(0.0))
            .max(f64::MIN_POSITIVE);
        let at = |kg: f64| left + (f64::from(self.width - 200) * kg / most).round() as i32;
        let bar = (top + ABOVE, top + ABOVE + BAR);
        let mut from = 0.0;
        let mut y = bar.1 + BELOW;
        for part in &self.parts {
            let ends = (at(from), at(from + part.mass));
            let corners = [
                (ends.0, bar.0),
                (ends.1, bar.0),
                (ends.1, bar.1),
                (ends.0, bar.1),
            ];
            sheet.hatching(|sheet| hatch::cut(sheet, &corners));
            sheet.outline(corners[0], corners[2], INK, 30);
            y += LINE;
            row(sheet, &part.words, ends, y, (left, left + self.width));
            from += part.mass;
        }
        self.rating(sheet, &at, bar, left);
        y += LINE + LINE / 3;
        for line in self.note_lines() {
            sheet.text(&line, (left, y), Lettering::PLAIN);
            y += LINE;
        }
    }

    fn rating(
        &self,
        sheet: &mut Sheet,
        at: &impl Fn(f64) -> i32,
        (top, bottom): (i32, i32),
        left: i32,
    ) {
        let bold = Lettering::PLAIN.bold();
        let width = bold.width(&self.rating_words);
        let baseline = top - LINE - 170;
        let Some(rating) = self.rating else {
            sheet.text(&self.rating_words, (left, baseline), bold);
            return;
        };
        let (x, end) = (at(rating), at(self.total()));
        sheet.dashes(&[(x, top - LINE), (x, bottom + 150)], RULE.0, INK, RULE.1);
        if x < end {
            hatch::beyond(sheet, &[(x, top), (end, top), (end, bottom), (x, bottom)]);
        }
        let start = (x - width / 2).min(left + self.width - width).max(left);
        sheet.text(&self.rating_words, (start, baseline), bold);
    }
}

/// A part once more below the bar, with its words where there is room for them.
fn row(sheet: &mut Sheet, words: &str, (from, to): (i32, i32), y: i32, (left, right): (i32, i32)) {
    let middle = y - SIZE * 36 / 100;
    sheet.fill((from, middle - 90), (to.max(from + 20), middle + 90), INK);
    let plain = Lettering::PLAIN;
    let width = plain.width(words);
    if to + 150 + width <= right {
        sheet.text(words, (to + 150, y), plain);
    } else if from - 150 - width >= left {
        sheet.text(words, (from - 150, y), plain.right());
    } else {
        // Over the bar, which is long.
        let at = ((from + 150).min(right - width).max(left), y);
        let [l, t, r, b] = Sheet::would_take(words, at, plain);
        sheet.fill((l - 60, t), (r + 60, b), PAPER);
        sheet.text(&plain.fit(words, right - left), at, plain);
    }
}

fn total(weight: &Weight) -> f64 {
    weight.house + weight.trailer.unwrap_or(0.0)
}

/// Trailer, assemblies, openings, allowances by their names.
fn named(one: &JudgedHouse<'_>) -> Vec<(String, f64)> {
    let (house, weight) = (one.case.house, &one.result.weight);
    let others = house.openings.len() + house.allowances.len();
    let split = weight.groups.len().saturating_sub(others);
    let (shell, others) = weight.groups.split_at(split);
    let (openings, allowances) = others.split_at(house.openings.len().min(others.len()));
    let sum = |groups: &[WeightGroup]| groups.iter().map(|group| group.mass).sum::<f64>();
    let trailer = weight.trailer.map(|mass| ("trailer".to_owned(), mass));
    let shell = shell.iter().map(|group| (group.name.clone(), group.mass));
    let rest = [
        ("windows and doors".to_owned(), sum(openings)),
        ("allowances".to_owned(), sum(allowances)),
    ];
    trailer
        .into_iter()
        .chain(shell)
        .chain(rest)
        .filter(|(_, mass)| *mass > 0.0)
        .collect()
}

/// Several small parts become one, the last.
fn grouped(parts: Vec<(String, f64)>, total: f64) -> Vec<(String, f64)> {
    let is_small = |(_, mass): &(String, f64)| *mass < SMALL * total;
    let (small, mut large): (Vec<_>, Vec<_>) = parts.into_iter().partition(is_small);
    match small.len() {
        0 | 1 => large.extend(small),
        _ => {
            let names: Vec<&str> = small.iter().map(|(name, _)| name.as_str()).collect();
            let mass = small.iter().map(|(_, mass)| mass).sum();
            large.push((names.join(", "), mass));
        }
    }
    large
}

/// What isn't known or counted, and the tongue's share.
fn notes(one: &JudgedHouse<'_>, style: Style) -> Vec<String> {
    let findings = one.verdict.findings.iter();
    let weight = findings.clone().find(|one| one.check == &WEIGHT);
    let mut notes = Vec::new();
    if let Some(found) = weight.filter(|found| !found.missing.is_empty()) {
        notes.push(format!("Not known and not in the bar: {}.", missing(found)));
    }
    notes.push("Furniture, water and people aren't counted.".to_owned());
    let tongue = findings.clone().find(|one| one.check == &TONGUE);
    if let (Some(found), Some(tongue)) = (tongue, &one.result.weight.tongue) {
        let load = style.both(Mass::from_kg(tongue.load));
        notes.push(format!(
            "Load on the tongue {load}. {}",
            found.sentence(style)
        ));
    }
    vec![notes.join(" ")]
}
