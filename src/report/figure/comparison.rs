//! The comparison plot: what each variant does to the coldest path.

use super::column;
use super::cut::{Cut, compared_path, drawn_end};
use super::lettering::wrap;
use super::place::{AIR, AXIS, Place};
use super::scale::{Scale, Span};
use super::schedule::{layer_words, swatch};
use super::section::{NUMBERS, margin_large};
use super::sheet::{Figure, GRAY, INK, LINE, Lettering, Point, Sheet};
use super::title::{EDGE, Frame, LETTER, WIDTH};
use crate::model::{AssemblyKind, Project};
use crate::quantity::{Length, Style, Temperature};
use crate::report::Judged;
use crate::solve::EndResult;

/// Columns beside each other.
const MOST: usize = 6;
const GAP: i32 = 500;
const NAME_SIZE: i32 = 400;
const NAME_LINE: i32 = 470;
/// The least room given to the layers.
const LEAST_ROOM: i32 = 2600;
/// Across the chart of a wall.
const WALL_CHART: i32 = 3000;

/// One column: a row of the comparison with the path it shows.
struct Column<'a> {
    row: &'a Judged<'a>,
    end: &'a EndResult,
    cut: Cut<'a>,
    name: Vec<String>,
    is_best: bool,
}

/// Draws it.
pub(super) fn draw(
    project: &Project,
    rows: &[Judged<'_>],
    best: Option<usize>,
    style: Style,
) -> Figure {
    let beside = rows.len().clamp(1, MOST);
    let width = column_width(beside);
    let columns: Vec<Column<'_>> = rows
        .iter()
        .enumerate()
        .filter_map(|(n, row)| column(row, best == Some(n), width))
        .collect();
    let assemblies = rows.iter().map(|row| &row.case.assembly);
    let remark = "Each column shows the path at the steel, or without steel the one with the \
                  least leak margin.";
    let word = format!("{} compared", rows.len());
    let Some(first) = rows.first() else {
        return Sheet::new(LETTER).finish(&project.title, "nothing to compare");
    };
    let frame = Frame::new(
        project,
        first.stop,
        "comparison",
        &word,
        remark,
        assemblies,
        style,
    )
    .with_dew_point(first.result.room_dew_point, style);
    let layout = Layout::new(&columns, &frame, width, beside, style);
    let mut sheet = Sheet::new((LETTER.0, layout.height));
    for (n, column) in columns.iter().enumerate() {
        layout.draw(&mut sheet, n, column, style);
    }
    frame.draw(&mut sheet, layout.height, &layout.scale.foot());
    sheet.finish(
        &format!("{}: comparison", project.title),
        &words(&columns, style),
    )
}

fn column_width(beside: usize) -> i32 {
    let count = i32::try_from(beside).unwrap_or(1);
    ((WIDTH - GAP * (count - 1)) / count).min(8000)
}

fn column<'a>(row: &'a Judged<'a>, is_best: bool, width: i32) -> Option<Column<'a>> {
    let end = drawn_end(&row.result)?;
    let path = compared_path(end)?;
    let cut = Cut::new(row, path);
    let name = wrap(&row.name(), NAME_SIZE, true, width);
    Some(Column {
        row,
        end,
        cut,
        name,
        is_best,
    })
}

/// Sizes common to all columns.
struct Layout {
    height: i32,
    top: i32,
    band: i32,
    beside: usize,
    width: i32,
    names: i32,
    deep: i32,
    layers: i32,
    scale: Scale,
    span: Span,
}

fn lines(counts: impl Iterator<Item = usize>) -> i32 {
    i32::try_from(counts.max().unwrap_or(0)).unwrap_or(1)
}

impl Layout {
    fn new(columns: &[Column<'_>], frame: &Frame, width: i32, beside: usize, style: Style) -> Self {
        let names = NAME_LINE * lines(columns.iter().map(|column| column.name.len()));
        let layers = lines(columns.iter().map(|column| column.cut.cells.len()));
        let numbers = lines(columns.iter().map(|column| facts(column, style).len()));
        let bands = i32::try_from(columns.len().div_ceil(beside)).unwrap_or(1);
        let around = names + 3 * LINE + 2 * AXIS + 300 + 550 + LINE * (layers + 2 * numbers) + 500;
        let walls = columns.iter().any(|column| is_wall(column));
        let free = (LETTER.1 - frame.top() - frame.bottom()) / bands - around - 2 * AIR;
        let thickest = columns
            .iter()
            .map(|c| c.cut.thickness().as_m())
            .fold(0.0, f64::max);
        let flat = free.max(LEAST_ROOM);
        let room = if walls {
            flat.min(width - 2 * AIR - 2 * 1250)
        } else {
            flat
        };
        let scale = Scale::largest(Length::from_m(thickest), room, style.units);
        let paper = (scale.on_paper(Length::from_m(thickest)).ceil() as i32).max(1);
        let deep = (paper + 2 * AIR).max(if walls { WALL_CHART + 1500 } else { 0 });
        let band = around + deep;
        let needed = frame.top() + frame.bottom() + band * bands;
        Self {
            height: LETTER.1.max(needed),
            top: frame.top(),
            band,
            beside,
            width,
            names,
            deep,
            layers,
            scale,
            span: Span::around(columns.iter().flat_map(|column| column.cut.temperatures())),
        }
    }

    fn draw(&self, sheet: &mut Sheet, n: usize, column: &Column<'_>, style: Style) {
        let whole = |n: usize| i32::try_from(n).unwrap_or(0);
        let x = EDGE + whole(n % self.beside) * (self.width + GAP);
        let mut y = self.top + whole(n / self.beside) * self.band + 310;
        let name = Lettering::PLAIN.bold().size(NAME_SIZE);
        for line in &column.name {
            sheet.text(line, (x, y), name);
            y += NAME_LINE;
        }
        y = self.top + whole(n / self.beside) * self.band + 310 + self.names;
        self.verdict(sheet, (x, y), column);
        margin_large(sheet, (x, y + 560), &column.cut, style);
        let gray = Lettering::PLAIN.color(GRAY);
        let plane = &column.cut.path.plane_names[column.cut.least()];
        sheet.text(&gray.fit(plane, self.width), (x, y + 560 + LINE), gray);
        let top = y + 560 + LINE + 300 + AXIS;
        column::draw(sheet, self.place(column, (x, top)), &column.cut, style);
        let mut y = top + self.deep + AXIS + 450;
        for cell in &column.cut.cells {
            swatch(sheet, (x, y), cell);
            let words = layer_words(cell, self.width - 560, style);
            sheet.text(&words, (x + 560, y), Lettering::PLAIN);
            y += LINE;
        }
        y = top + self.deep + AXIS + 450 + LINE * self.layers + 150;
        for (what, value) in facts(column, style) {
            let gray = Lettering::PLAIN.color(GRAY);
            sheet.text(&gray.fit(&what, self.width), (x, y), gray);
            let plain = Lettering::PLAIN;
            sheet.text(
                &plain.fit(&value, self.width),
                (x, y + LINE),
                plain.color(INK),
            );
            y += 2 * LINE;
        }
    }

    fn verdict(&self, sheet: &mut Sheet, (x, y): Point, column: &Column<'_>) {
        let bold = Lettering::PLAIN.bold();
        let word = column.row.verdict.status.word();
        sheet.text(word, (x, y), bold);
        if column.is_best {
            let from = bold.width(word) + 120;
            let words = Lettering::PLAIN
                .italic()
                .fit("best by the rule", self.width - from);
            sheet.text(&words, (x + from, y), Lettering::PLAIN.italic());
        }
    }

    fn place(&self, column: &Column<'_>, (x, top): Point) -> Place {
        let kind = column.row.case.assembly.kind;
        let (scale, span) = (self.scale, self.span);
        if kind == AssemblyKind::Wall {
            let along = (x + 1250, x + self.width - 1250);
            let layers = (top, top + 1000);
            let chart = (top + self.deep - 300, top + 1200);
            return Place {
                kind,
                along,
                layers,
                chart,
                scale,
                span,
            };
        }
        let layers = (x + NUMBERS, x + NUMBERS + self.width * 18 / 100);
        let chart = (layers.1 + 150, x + self.width - 600);
        Place {
            kind,
            along: (top, top + self.deep),
            layers,
            chart,
            scale,
            span,
        }
    }
}

fn is_wall(column: &Column<'_>) -> bool {
    column.row.case.assembly.kind == AssemblyKind::Wall
}

/// What is compared in numbers.
fn facts(column: &Column<'_>, style: Style) -> Vec<(String, String)> {
    let Column { cut, end, .. } = column;
    let at = |plane: usize| {
        let which = cut.margin(plane);
        let margin = which.map(|m| format!(", {} {}", style.margin_number(m.value), m.word));
        format!(
            "{}{}",
            style.temperature(cut.temperature(plane)),
            margin.unwrap_or_default()
        )
    };
    let mut facts = Vec::new();
    if let Some(wood) = cut.path.roles.iter().position(|role| role.wood_at_steel) {
        facts.push(("wood at the steel".to_owned(), at(wood)));
    }
    let surfaces = end
        .paths
        .iter()
        .map(|path| path.winter.planes[0].temperature.as_celsius());
    let coldest = Temperature::from_celsius(surfaces.fold(f64::INFINITY, f64::min));
    facts.push((
        "coldest room surface".to_owned(),
        style.temperature(coldest),
    ));
    let u = &end.transmittance;
    let number = |watts: f64| style.transmittance_number(watts);
    let bracket = format!(
        "{} … {}",
        number(u.parallel_path),
        number(u.isothermal_planes)
    );
    facts.push((format!("U, {}", style.transmittance_unit()), bracket));
    facts
}

/// The plot in words.
fn words(columns: &[Column<'_>], style: Style) -> String {
    let each = columns.iter().map(|column| {
        let cut = &column.cut;
        let best = if column.is_best {
            ", best by the rule"
        } else {
            ""
        };
        format!(
            "{}: {}{best}; {} on the path {}, leak margin {} at {}.",
            column.row.name(),
            column.row.verdict.status.word(),
            style.temperature(cut.temperature(cut.least())),
            cut.path.path.name,
            style.margin(cut.leak_margin(cut.least())),
            cut.path.plane_names[cut.least()],
        )
    });
    format!(
        "Sections at one scale, side by side. {}",
        each.collect::<Vec<_>>().join(" ")
    )
}
