//! The comparison plot: what each variant does to the coldest path.

use super::columns::{self, Column, Layout};
use super::cut::{Cut, compared_path, drawn_end};
use super::sheet::{Figure, Sheet};
use super::title::{Frame, LETTER};
use crate::model::Project;
use crate::quantity::{Dimension, Style, Temperature};
use crate::report::figure::Best;
use crate::solve::EndResult;
use crate::study::Judged;

/// Draws it.
pub(super) fn draw(project: &Project, rows: &[Judged<'_>], best: Best<'_>, style: Style) -> Figure {
    let beside = columns::beside(rows.iter().map(|row| row.case));
    let width = columns::width(beside);
    let columns: Vec<Column<'_>> = rows
        .iter()
        .filter_map(|row| column(row, best.is(row.case.variant.as_deref()), width, style))
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
        first.stop(),
        "comparison",
        &word,
        remark,
        assemblies,
        style,
    )
    .with_dew_point(first.result().room_dew_point, style);
    let layout = Layout::new(&columns, &frame, beside, style);
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

fn column<'a>(row: &'a Judged<'a>, is_best: bool, width: i32, style: Style) -> Option<Column<'a>> {
    let end = drawn_end(row.result())?;
    let cut = Cut::new(row, compared_path(end)?);
    let plane = cut.least();
    Some(Column {
        name: columns::name(&row.name(), width),
        title: row.name(),
        word: row.verdict.status.word(),
        mark: is_best.then_some("best by the rule"),
        margin: (cut.leak_margin(plane), cut.path.plane_names[plane].clone()),
        kind: row.case.assembly.kind,
        facts: facts(&cut, end, style),
        cut,
    })
}

/// What is compared in numbers.
fn facts(cut: &Cut<'_>, end: &EndResult, style: Style) -> Vec<(String, Vec<String>)> {
    let at = |plane: usize| {
        let which = cut.margin(plane);
        let margin = which.map(|m| format!(", {} {}", style.margin_number(m.value), m.word));
        format!(
            "{}{}",
            style.show(cut.temperature(plane)),
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
    facts.push(("coldest room surface".to_owned(), style.show(coldest)));
    let u = &end.transmittance;
    let number = |watts: f64| Dimension::Transmittance.number(watts, style);
    let bracket = format!(
        "{} … {}",
        number(u.parallel_path),
        number(u.isothermal_planes)
    );
    facts.push((
        format!("U, {}", Dimension::Transmittance.unit(style)),
        bracket,
    ));
    facts
        .into_iter()
        .map(|(what, value)| (what, vec![value]))
        .collect()
}

/// The plot in words.
fn words(columns: &[Column<'_>], style: Style) -> String {
    let each = columns.iter().map(|column| {
        let mark = column.mark.map(|mark| format!(", {mark}"));
        let cut = &column.cut;
        format!(
            "{}: {}{}; {} on the path {}, leak margin {} at {}.",
            column.title,
            column.word,
            mark.unwrap_or_default(),
            style.show(cut.temperature(cut.least())),
            cut.path.path.name,
            style.margin(column.margin.0),
            column.margin.1,
        )
    });
    format!(
        "Sections at one scale, side by side. {}",
        each.collect::<Vec<_>>().join(" ")
    )
}
