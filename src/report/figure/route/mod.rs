//! The route: a table of sites, that which decides bold, with small bars beside the numbers.

mod bars;
mod site;

use super::badge;
use super::legend::Item;
use super::lettering::wrap;
use super::sheet::{BAND, FAINT, Figure, GRAY, INK, LINE, Lettering, MOISTURE, SIZE, Sheet};
use super::title::{EDGE, Frame, LETTER, WIDTH};
use crate::check::Status;
use crate::model::Project;
use crate::quantity::Style;
use crate::study::Judged;
use site::{HEADINGS, Measure, Site};

/// Type size of the answer, and from one of its lines to the next.
const ANSWER: (i32, i32) = (520, 640);
/// Width of the sites' names with their verdicts.
const NAMES: i32 = 5600;
/// Of each measure: where its number ends, and where its bar begins and ends.
const NUMBER: i32 = 2150;
const BAR: (i32, i32) = (2330, 6300);
/// Over and under a row.
const AROUND: i32 = 200;
/// The most a row is spread beyond what it needs.
const SPREAD: i32 = 500;

/// Draws it; `None` where there is no route.
pub(super) fn draw(project: &Project, one: &Judged<'_>, style: Style) -> Option<Figure> {
    if one.route().is_empty() {
        return None;
    }
    let at = |n: usize| Site::new(&one.alone(n), n == one.speaks, style);
    let sites: Vec<Site> = (0..one.sites.len()).map(at).collect();
    let subject = format!("{}, the route", one.case.name());
    let word = format!("all checks: {}", one.verdict.status.word());
    let conditions = format!(
        "{} stops in the order of the route, each on its own climate; bars of a column are on one axis. \
         The verdict is that of the worst stop, in bold.",
        sites.len()
    );
    let frame = Frame::about(project, &subject, &word, &conditions, [&one.case.assembly])
        .with_legend(LEGEND)
        .quiet();
    let answer = answer(one, &sites);
    let table = Table::new(&answer, &sites, frame.top()).spread(LETTER.1 - frame.bottom());
    let height = LETTER.1.max(table.bottom() + frame.bottom());
    let mut sheet = Sheet::new((LETTER.0, height));
    table.draw(&mut sheet);
    frame.draw(&mut sheet, height, "Margins on the winter mean");
    let title = format!("{}: {subject}", project.title);
    let each: Vec<String> = sites.iter().map(Site::in_words).collect();
    let words = format!("Table of the route's stops. {answer}. {}", each.join(" "));
    Some(sheet.finish(&title, &words))
}

/// How many stops it fails at, and what decides at the worst.
fn answer(one: &Judged<'_>, sites: &[Site]) -> String {
    let status = one.verdict.status;
    let alike = sites
        .iter()
        .filter(|site| site.status.severity() == status.severity());
    let verb = match status {
        Status::Fail => "Fails",
        Status::Pass | Status::Note => "Passes",
        Status::Depends | Status::Unknown => "Depends",
    };
    let worst = &sites[one.speaks];
    let (alike, all) = (alike.count(), sites.len());
    let at = match (alike == all, alike) {
        (true, _) => format!("at all {all} stops, closest at {}", worst.name),
        (_, 1) => format!("at {}", worst.name),
        _ => format!("at {alike} of {all} stops, worst at {}", worst.name),
    };
    format!("{verb} {at}: {}", worst.because)
}

/// A site with its words broken to the columns.
struct Row<'a> {
    site: &'a Site,
    places: [Vec<String>; 3],
    air: Vec<String>,
    around: i32,
    height: i32,
}

/// The table with what stands over it.
struct Table<'a> {
    sites: &'a [Site],
    answer: Vec<String>,
    rows: Vec<Row<'a>>,
    top: i32,
}

/// Where a measure's column begins.
fn column(measure: usize) -> i32 {
    let width = (WIDTH - NAMES) / 3;
    EDGE + NAMES + width * i32::try_from(measure).unwrap_or(0)
}

fn lines(count: usize) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX / LINE / 8)
}

impl<'a> Table<'a> {
    fn new(answer: &str, sites: &'a [Site], top: i32) -> Self {
        let row = |site: &'a Site| {
            let broken = |measure: &Measure| wrap(&measure.at, SIZE, false, BAR.1);
            let places = site.measures.each_ref().map(broken);
            let words = format!("decided by {}; {}", site.because, site.air);
            let air = wrap(&words, SIZE, false, WIDTH);
            let most = places.iter().map(Vec::len).max().unwrap_or(0).max(1);
            Row {
                site,
                height: 2 * AROUND + LINE * (1 + lines(most) + lines(air.len())) + 60,
                around: AROUND,
                places,
                air,
            }
        };
        Self {
            sites,
            answer: wrap(answer, ANSWER.0, true, WIDTH),
            rows: sites.iter().map(row).collect(),
            top,
        }
    }

    /// The same with its rows spread down to a height.
    fn spread(mut self, bottom: i32) -> Self {
        let more = (bottom - self.bottom()) / lines(self.rows.len()).max(1);
        let more = more.clamp(0, SPREAD);
        for row in &mut self.rows {
            row.around += more / 2;
            row.height += more / 2 * 2;
        }
        self
    }

    /// Where the headings' line lies.
    fn head(&self) -> i32 {
        self.top + ANSWER.1 * lines(self.answer.len()) + LINE * 2
    }

    fn bottom(&self) -> i32 {
        self.head() + self.rows.iter().map(|row| row.height).sum::<i32>() + LINE
    }

    fn draw(&self, sheet: &mut Sheet) {
        let set = Lettering::PLAIN.bold().size(ANSWER.0);
        let mut y = self.top + ANSWER.0 * 3 / 4;
        for line in &self.answer {
            sheet.text(line, (EDGE, y), set);
            y += ANSWER.1;
        }
        let head = self.head();
        let gray = Lettering::PLAIN.color(GRAY);
        sheet.text("stop", (EDGE, head - 130), gray);
        for (n, words) in HEADINGS.into_iter().enumerate() {
            sheet.text(words, (column(n), head - 130), gray);
        }
        let mut y = head;
        rule(sheet, y, true);
        for (n, row) in self.rows.iter().enumerate() {
            self.row(sheet, y + row.around, row);
            y += row.height;
            let next = self.rows.get(n + 1).is_some_and(|next| next.site.decides);
            rule(sheet, y, row.site.decides || next);
        }
    }

    fn row(&self, sheet: &mut Sheet, top: i32, row: &Row<'_>) {
        let base = top + LINE * 3 / 4;
        let site = row.site;
        let plain = Lettering::PLAIN;
        let set = if site.decides { plain.bold() } else { plain };
        sheet.text(&set.fit(&site.name, NAMES - 300), (EDGE, base), set);
        badge::draw(
            sheet,
            (EDGE, base + LINE + 60),
            site.status.word(),
            site.status,
        );
        for (n, measure) in site.measures.iter().enumerate() {
            let left = column(n);
            let words = set.fit(&measure.words, NUMBER);
            sheet.text(&words, (left + NUMBER, base), set.right());
            let axis = bars::axis(self.sites, n, (left + BAR.0, left + BAR.1));
            bars::draw(sheet, axis, base - SIZE * 36 / 100, site, n);
            let mut y = base + LINE + 60;
            for line in &row.places[n] {
                sheet.text(line, (left, y), plain);
                y += LINE;
            }
        }
        let mut y = top + row.height - 2 * row.around - LINE * lines(row.air.len()) + LINE * 3 / 4;
        for line in &row.air {
            sheet.text(line, (EDGE, y), plain.color(GRAY));
            y += LINE;
        }
    }
}

fn rule(sheet: &Sheet, y: i32, is_heavy: bool) {
    let (color, width) = if is_heavy { (INK, 30) } else { (FAINT, 8) };
    sheet.line(vec![(EDGE, y), (EDGE + WIDTH, y)], color, width);
}

const LEGEND: &[Item] = &[
    ("above the dew point", |sheet, (x, y)| {
        sheet.fill((x, y - 130), (x + 900, y + 130), BAND);
        sheet.outline((x, y - 130), (x + 900, y + 130), INK, 15);
    }),
    ("below it; water", |sheet, (x, y)| {
        sheet.fill((x, y - 130), (x + 900, y + 130), MOISTURE);
    }),
    ("days", |sheet, (x, y)| {
        sheet.fill((x, y - 130), (x + 900, y + 130), GRAY);
    }),
    ("limit", |sheet, (x, y)| {
        sheet.line(vec![(x + 450, y - 200), (x + 450, y + 200)], INK, 45);
    }),
];
