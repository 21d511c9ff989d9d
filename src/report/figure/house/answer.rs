//! What the figure answers, above all else: each limit with its verdict and what is left of it.

use super::super::lettering::wrap;
use super::super::sheet::{GRAY, INK, LINE, Lettering, PAPER, Point, SIZE, Sheet};
use crate::check::house::{TONGUE, WEIGHT};
use crate::check::{HouseFinding, Status};
use crate::quantity::{Length, Mass, Style};
use crate::study::JudgedHouse;

/// An answer needs at least this width.
const NARROWEST: i32 = 5600;
/// Between two answers.
const APART: i32 = 300;
/// Type sizes of the margin, the first that fits.
const SIZES: [i32; 4] = [560, 490, 420, SIZE];
/// Height of the margin's line.
const LARGE: i32 = 620;
/// Between two rows of answers.
const BELOW: i32 = 200;

/// One limit and how it came out.
struct Answer {
    name: &'static str,
    status: Option<Status>,
    margin: String,
    lines: Vec<String>,
}

/// All answers, in as many rows as they need.
pub(super) struct Answers {
    all: Vec<Answer>,
    columns: usize,
    width: i32,
}

impl Answers {
    /// Width, height, length where it has a limit, weight, head room.
    ///
    /// In `brief` only the margins, without what they are of.
    pub(super) fn new(one: &JudgedHouse<'_>, style: Style, width: i32, brief: bool) -> Self {
        let findings = one.verdict.findings.iter();
        let judged = findings.filter(|finding| finding.check != &TONGUE);
        let mut all: Vec<Answer> = judged.map(|finding| answer(finding, style)).collect();
        all.extend(head_room(one, style));
        let most = usize::try_from((width + APART) / (NARROWEST + APART)).unwrap_or(1);
        let rows = all.len().div_ceil(most.max(1)).max(1);
        let columns = all.len().div_ceil(rows).max(1);
        let count = i32::try_from(columns).unwrap_or(1);
        let width = (width - APART * (count - 1)) / count;
        for one in &mut all {
            if brief {
                one.lines.clear();
            }
            let set = Lettering::PLAIN;
            let lines = one.lines.iter();
            one.lines = lines
                .flat_map(|line| wrap(line, set.size, false, width))
                .collect();
        }
        Self {
            all,
            columns,
            width,
        }
    }

    fn row_height(row: &[Answer]) -> i32 {
        let lines = row.iter().map(|one| one.lines.len()).max().unwrap_or(0);
        LINE + LARGE + LINE * i32::try_from(lines).unwrap_or(0) + BELOW
    }

    /// The height they take.
    pub(super) fn height(&self) -> i32 {
        self.all.chunks(self.columns).map(Self::row_height).sum()
    }

    /// Draws them.
    pub(super) fn draw(&self, sheet: &mut Sheet, (left, mut top): Point) {
        for row in self.all.chunks(self.columns) {
            for (n, one) in row.iter().enumerate() {
                let across = (self.width + APART) * i32::try_from(n).unwrap_or(0);
                one.draw(sheet, (left + across, top), self.width);
            }
            top += Self::row_height(row);
        }
    }
}

impl Answer {
    fn draw(&self, sheet: &mut Sheet, (left, top): Point, width: i32) {
        let bold = Lettering::PLAIN.bold();
        let baseline = top + SIZE;
        let name = match self.status {
            Some(_) => format!("{}, computed: ", self.name),
            None => self.name.to_owned(),
        };
        sheet.text(&name, (left, baseline), Lettering::PLAIN);
        if let Some(status) = self.status {
            let x = left + Lettering::PLAIN.width(&name);
            let word = status.word();
            // White on black: to be seen across the table, and on a copy.
            if status == Status::Fail {
                let [l, t, r, b] = Sheet::would_take(word, (x, baseline), bold);
                sheet.fill((l - 60, t - 70), (r + 60, b), INK);
                sheet.text(word, (x, baseline), bold.color(PAPER));
            } else {
                sheet.text(word, (x, baseline), bold);
            }
        }
        let fits = |size: &i32| bold.size(*size).width(&self.margin) <= width;
        let size = SIZES.into_iter().find(fits).unwrap_or(SIZE);
        let large = bold.size(size);
        let baseline = top + LINE + LARGE * 3 / 4;
        sheet.text(&large.fit(&self.margin, width), (left, baseline), large);
        let mut baseline = top + LINE + LARGE + SIZE;
        for (n, line) in self.lines.iter().enumerate() {
            let set = match n {
                0 => Lettering::PLAIN,
                _ => Lettering::PLAIN.color(GRAY),
            };
            sheet.text(line, (left, baseline), set);
            baseline += LINE;
        }
    }
}

/// How much is left or over, `2-1/4 in to spare`; the value where there is no limit.
pub(super) fn margin(finding: &HouseFinding, style: Style) -> Option<String> {
    let Some(slack) = finding.slack() else {
        return finding.value.map(|value| shown(finding, value, style));
    };
    // Half a thousandth of an inch, or a hundredth of a pound.
    if slack.abs() < 1e-5 {
        return Some("nothing to spare".to_owned());
    }
    let is_over = slack < 0.0;
    let amount = if finding.check == &WEIGHT {
        style.show(Mass::from_kg(slack.abs()))
    } else {
        let to = if is_over { f64::ceil } else { f64::floor };
        style.on_tape(Length::from_m(slack.abs()), to)
    };
    Some(format!(
        "{amount} {}",
        if is_over { "over" } else { "to spare" }
    ))
}

/// A value as a tape or a scale shows it.
pub(super) fn shown(finding: &HouseFinding, value: f64, style: Style) -> String {
    match finding.check == &WEIGHT {
        true => style.show(Mass::from_kg(value)),
        false => style.on_tape(Length::from_m(value), f64::round),
    }
}

fn answer(finding: &HouseFinding, style: Style) -> Answer {
    let lines = match (finding.value, finding.limit) {
        (Some(value), Some(limit)) => {
            let of = |style| {
                format!(
                    "{} of {}",
                    shown(finding, value, style),
                    shown(finding, limit, style)
                )
            };
            let whose = if finding.check == &WEIGHT {
                "house "
            } else {
                ""
            };
            let own = format!("{whose}{}{}", least(finding), of(style));
            vec![own, of(style.other())]
        }
        (Some(value), None) => vec![shown(finding, value, style.other())],
        (None, _) => Vec::new(),
    };
    // What is missing says more than where a limit would come from.
    let why = match (finding.limit, finding.missing.is_empty()) {
        (_, false) => Some(format!("not known: {}", missing(finding))),
        (None, true) => Some(finding.source.to_owned()),
        (Some(_), true) => None,
    };
    Answer {
        name: finding.check.title,
        status: Some(finding.status),
        margin: margin(finding, style).unwrap_or_else(|| "not known".to_owned()),
        lines: lines.into_iter().chain(why).collect(),
    }
}

/// What isn't known, without the marks of a file's keys.
pub(super) fn missing(finding: &HouseFinding) -> String {
    finding
        .missing
        .join(", ")
        .replace(":`", "")
        .replace('`', "")
}

/// What stands before a value of which a part isn't known.
pub(super) fn least(finding: &HouseFinding) -> &'static str {
    let is_least = finding.check == &WEIGHT && !finding.missing.is_empty();
    if is_least { "at least " } else { "" }
}

fn head_room(one: &JudgedHouse<'_>, style: Style) -> Option<Answer> {
    let room = one.result.fit.head_room?;
    let of = |style: Style| {
        let tape = |meters: f64| style.on_tape(Length::from_m(meters), f64::floor);
        match (room.greatest - room.least).abs() < 1e-6 {
            true => tape(room.least),
            false => format!("{} to {}", tape(room.least), tape(room.greatest)),
        }
    };
    Some(Answer {
        name: "head room",
        status: None,
        margin: of(style),
        lines: vec!["at inner faces, not judged".to_owned(), of(style.other())],
    })
}
