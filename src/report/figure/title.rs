//! What frames a plot: heading, conditions, legend, cautions, foot.

use super::legend::{self, Item};
use super::lettering::wrap;
use super::sheet::{GRAY, LINE, Lettering, Point, SIZE, Sheet};
use crate::check::cautions;
use crate::model::{AirState, Assembly, Project, Stop};
use crate::quantity::{Style, Temperature};

/// Letter paper lying down, hundredths of a millimeter.
pub(super) const LETTER: Point = (27_940, 21_590);
/// Empty edge of the sheet.
pub(super) const EDGE: i32 = 950;
/// Width between the edges.
pub(super) const WIDTH: i32 = LETTER.0 - 2 * EDGE;
/// How many lines of cautions there is room for.
const CAUTION_LINES: usize = 4;
/// From one line of cautions to the next.
const TIGHT: i32 = 405;
const LEFT_OUT: &str = "More cautions stand in the text report.";

/// The words around a plot, broken into lines.
pub(super) struct Frame {
    heading: String,
    word: String,
    conditions: Vec<String>,
    cautions: Vec<String>,
    foot: String,
    legend: &'static [Item],
    /// How the heading is set.
    set: Lettering,
}

impl Frame {
    /// Gathers the words. `subject` follows the project's title, `word` stands at the right,
    /// `remark` follows the conditions.
    pub(super) fn new<'a>(
        project: &'a Project,
        stop: &Stop,
        subject: &str,
        word: &str,
        remark: &str,
        assemblies: impl IntoIterator<Item = &'a Assembly>,
        style: Style,
    ) -> Self {
        let conditions = format!("{} {remark}", conditions_words(stop, style));
        Self::about(project, subject, word, &conditions, assemblies)
    }

    /// The same under conditions in words of its own.
    pub(super) fn about<'a>(
        project: &'a Project,
        subject: &str,
        word: &str,
        conditions: &str,
        assemblies: impl IntoIterator<Item = &'a Assembly>,
    ) -> Self {
        Self {
            heading: format!("{}: {subject}", project.title),
            word: word.to_owned(),
            conditions: wrap(conditions, SIZE, false, WIDTH),
            cautions: caution_lines(&cautions(assemblies, &project.stops)),
            foot: format!("{} · dewmargin {}", project.file, env!("CARGO_PKG_VERSION")),
            legend: legend::SECTION,
            set: Lettering::PLAIN.bold().size(560),
        }
    }

    /// Another legend.
    pub(super) fn with_legend(self, legend: &'static [Item]) -> Self {
        Self { legend, ..self }
    }

    /// Other cautions.
    pub(super) fn with_cautions(self, cautions: &[&str]) -> Self {
        Self {
            cautions: caution_lines(cautions),
            ..self
        }
    }

    /// A small heading and word, where the plot says something larger itself.
    pub(super) fn quiet(self) -> Self {
        Self {
            set: Lettering::PLAIN.size(400),
            ..self
        }
    }

    /// Adds the dew point of the room air to the conditions.
    pub(super) fn with_dew_point(mut self, dew_point: Temperature, style: Style) -> Self {
        let all = format!(
            "{} Room air condenses below {}.",
            self.conditions.join(" ").trim_end(),
            both(dew_point, style)
        );
        self.conditions = wrap(&all, SIZE, false, WIDTH);
        self
    }

    /// Where the plot may begin.
    pub(super) fn top(&self) -> i32 {
        EDGE + 620 + LINE * count(&self.conditions) + 400
    }

    /// How much of the sheet's foot is taken.
    pub(super) fn bottom(&self) -> i32 {
        EDGE + LINE + TIGHT * count(&self.cautions) + legend::height(self.legend, WIDTH) + 350
    }

    /// Draws everything around the plot on a sheet of that height; `left` stands at its foot.
    pub(super) fn draw(&self, sheet: &mut Sheet, height: i32, left: &str) {
        let large = self.set.bold();
        let right = LETTER.0 - EDGE;
        sheet.text(&self.word, (right, EDGE + 430), large.right());
        let room = WIDTH - large.width(&self.word) - 400;
        let heading = self.set.fit(&self.heading, room);
        sheet.text(&heading, (EDGE, EDGE + 430), self.set);
        let mut baseline = EDGE + 430 + 590;
        for line in &self.conditions {
            sheet.text(line, (EDGE, baseline), Lettering::PLAIN.color(GRAY));
            baseline += LINE;
        }
        let top = height - self.bottom();
        sheet.line(vec![(EDGE, top), (right, top)], GRAY, 15);
        legend::draw(sheet, (EDGE, top + 460), WIDTH, self.legend);
        let mut baseline = top + 460 + legend::height(self.legend, WIDTH) + 110;
        for line in &self.cautions {
            sheet.text(line, (EDGE, baseline), Lettering::PLAIN.color(GRAY));
            baseline += TIGHT;
        }
        let foot = height - EDGE;
        sheet.text(left, (EDGE, foot), Lettering::PLAIN);
        let room = WIDTH - Lettering::PLAIN.width(left) - 400;
        let words = Lettering::PLAIN.fit(&self.foot, room);
        sheet.text(&words, (right, foot), Lettering::PLAIN.right());
    }
}

fn count(lines: &[String]) -> i32 {
    i32::try_from(lines.len()).unwrap_or(i32::MAX / LINE / 4)
}

/// A temperature in both units, the reader's own first.
pub(super) fn both(value: Temperature, style: Style) -> String {
    style.both(value)
}

fn conditions_words(stop: &Stop, style: Style) -> String {
    let air = |air: AirState| {
        format!(
            "{} at {}",
            both(air.temperature, style),
            style.show(air.humidity)
        )
    };
    let conditions = &stop.conditions;
    let night = conditions
        .design_night
        .map(|night| format!(" Design night {}.", air(night)));
    format!(
        "Drawn for the winter mean: room {}, outdoors {}.{}",
        air(conditions.indoor),
        air(conditions.winter_mean),
        night.unwrap_or_default(),
    )
}

/// As many whole cautions as there is room for: the first and the last before the others, in
/// their own order.
fn caution_lines(all: &[&str]) -> Vec<String> {
    let set = |kept: &[usize]| {
        let mut kept = kept.to_vec();
        kept.sort_unstable();
        let mut words: Vec<&str> = kept.iter().map(|n| all[*n]).collect();
        if kept.len() < all.len() {
            words.push(LEFT_OUT);
        }
        wrap(&words.join(" "), SIZE, false, WIDTH)
    };
    let last = all.len().saturating_sub(1);
    let mut kept: Vec<usize> = Vec::new();
    for n in [0, last].into_iter().chain(1..last) {
        let more = [kept.clone(), vec![n]].concat();
        if n < all.len() && !kept.contains(&n) && set(&more).len() <= CAUTION_LINES {
            kept = more;
        }
    }
    set(&kept)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cautions_are_kept_whole_and_the_last_always() {
        let long = "Water ".repeat(160);
        let all = ["First.", long.as_str(), "Second.", "Not structural."];
        let text = caution_lines(&all).join(" ");
        assert_eq!(text, format!("First. Second. Not structural. {LEFT_OUT}"));
    }
}
