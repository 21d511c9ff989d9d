//! The tables of a house: every term of a measure, every area, every weight.

use super::sentence::lost;
use crate::quantity::{Area, Dimension, Length, Mass, Style, percent};
use crate::report::table::Table;
use crate::solve::house::{AssemblyArea, HeadRoom, Measure, Weight, WeightLine};
use crate::study::JudgedHouse;

/// What stands before the name of a line that its group's line sums up.
pub(in crate::report) const OF_A_GROUP: &str = "  ";

/// All variants side by side: what fits, then what it weighs and loses.
pub(super) fn compared(houses: &[JudgedHouse<'_>], style: Style) -> Table {
    let header = [
        "",
        "verdict",
        "width",
        "height",
        "head room",
        "lost",
        Dimension::Mass.unit(style),
        Dimension::HeatLoss.unit(style),
        "of edges",
        "design night",
    ];
    let mut table = Table::new(&header, 1);
    let length = |meters: Option<f64>| {
        meters.map_or_else(|| "-".to_owned(), |m| style.measure(Length::from_m(m)))
    };
    let total = |measure: Option<&Measure>| length(measure.map(|one| one.total().as_m()));
    for one in houses {
        let (fit, heat) = (&one.result.fit, &one.result.heat);
        let lost = lost(one, &houses[0]).filter(|lost| lost.abs() > 1e-6);
        let known = one.result.weight.unknown.is_empty();
        let weight = style.number(Mass::from_kg(one.result.weight.house));
        let night = heat.on_design_night();
        table.row(vec![
            one.variant().to_owned(),
            one.verdict.status.word().into(),
            total(fit.width.as_ref()),
            total(fit.height.as_ref()),
            length(fit.head_room.map(|room| room.least)),
            lost.map_or_else(|| "-".to_owned(), |m| signed_length(m, style)),
            if known {
                weight
            } else {
                format!("≥{weight}")
            },
            Dimension::HeatLoss.number(heat.total(), style),
            Dimension::HeatLoss.number(super::heat::of_edges(heat), style),
            night.map_or_else(
                || "-".to_owned(),
                |watts| Dimension::HeatRate.show(watts, style),
            ),
        ]);
    }
    table
}

fn signed_length(meters: f64, style: Style) -> String {
    let text = style.measure(Length::from_m(meters.abs()));
    if meters < 0.0 {
        format!("−{text}")
    } else {
        text
    }
}

/// A measure term by term, the sum, and the limit.
pub(in crate::report) fn measure(
    name: &str,
    measure: &Measure,
    limit: Option<Length>,
    style: Style,
) -> Table {
    let mut table = Table::new(&[name, "", ""], 1);
    for term in &measure.terms {
        let slope = term.square.map_or_else(String::new, |square| {
            let stretch = term.value / square;
            let square = style.measure(Length::from_m(square));
            format!("{square} × {}", crate::quantity::fixed(stretch, 4))
        });
        let value = style.measure(Length::from_m(term.value));
        table.row(vec![term.name.clone(), slope, value]);
    }
    let total = style.measure(measure.total());
    table.row(vec!["together".into(), String::new(), total]);
    if let Some(limit) = limit {
        table.row(vec![
            "stated limit".into(),
            String::new(),
            style.measure(limit),
        ]);
    }
    table
}

/// How the least head room comes about.
pub(in crate::report) fn head_room(room: &HeadRoom, style: Style) -> Table {
    let print = |meters: f64| style.measure(Length::from_m(meters));
    let mut table = Table::new(&["head room, at the lowest wall's inner face", ""], 1);
    let rows = [
        ("wall, framed, there", print(room.framed)),
        (
            "floor above what the walls stand on",
            format!("−{}", print(room.floor)),
        ),
        (
            "ceiling inside of the rafters, upright",
            format!("−{}", print(room.ceiling)),
        ),
        ("together", print(room.least)),
    ];
    for (name, value) in rows {
        table.row(vec![name.into(), value]);
    }
    table
}

/// Areas: inside ones for heat, framed ones for weight.
pub(in crate::report) fn areas(areas: &[AssemblyArea], style: Style) -> Table {
    let unit = Dimension::Area.unit(style);
    let title = format!("areas, {unit}");
    let header = [
        title.as_str(),
        "inside",
        "framed",
        "openings",
        "net, inside",
        "net, framed",
    ];
    let mut table = Table::new(&header, 1);
    let number = |m2: f64| style.number(Area::from_m2(m2));
    for area in areas {
        for part in &area.parts {
            table.row(vec![
                part.name.clone(),
                number(part.inside),
                number(part.framed),
                number(part.openings),
                number(part.inside - part.openings),
                number(part.framed - part.openings),
            ]);
        }
        if area.parts.len() != 1 {
            table.row(whole(area, &number));
        }
        if area.with_overhangs > area.framed + 1e-9 {
            let mut row = vec![String::new(); 5];
            row[0] = "with its overhangs".into();
            row.push(number(area.with_overhangs));
            table.row(row);
        }
    }
    table
}

fn whole(area: &AssemblyArea, number: &dyn Fn(f64) -> String) -> Vec<String> {
    let how = if area.stated { "stated" } else { "all of it" };
    let mut row = vec![String::new(); 4];
    row[0] = format!("{}, {how}", area.assembly);
    row.extend([number(area.inside), number(area.framed)]);
    row
}

/// Weights, line by line and in all.
pub(in crate::report) fn weight(weight: &Weight, style: Style) -> Table {
    let density = format!(
        "{} or\n{}",
        Dimension::Density.unit(style),
        Dimension::ArealDensity.unit(style)
    );
    let header = [
        "weight",
        "thickness",
        density.as_str(),
        "share",
        Dimension::Area.unit(style),
        Dimension::Mass.unit(style),
        "of all",
    ];
    let mut table = Table::new(&header, 1);
    let mass = |kg: f64| style.number(Mass::from_kg(kg));
    for group in &weight.groups {
        for line in &group.lines {
            table.row(line_cells(&group.name, line, style));
        }
        let mut row = vec![String::new(); 5];
        row[0].clone_from(&group.name);
        let known = !group.lines.is_empty() || group.unknown.is_empty();
        row.push(if known {
            mass(group.mass)
        } else {
            "not known".into()
        });
        row.push(percent(group.mass / weight.house.max(f64::MIN_POSITIVE)));
        table.row(row);
    }
    let mut row = vec![String::new(); 5];
    row[0] = "dry weight".into();
    row.push(mass(weight.house));
    table.row(row);
    table
}

fn line_cells(group: &str, line: &WeightLine, style: Style) -> Vec<String> {
    let per = match (line.density, line.areal) {
        (Some(density), _) => Dimension::Density.show_fine(density.as_si(), style),
        (None, Some(areal)) => Dimension::ArealDensity.show_fine(areal.as_si(), style),
        (None, None) => "not known".into(),
    };
    let thickness = match line.thickness > 0.0 {
        true => style.measure(Length::from_m(line.thickness)),
        false => "-".into(),
    };
    vec![
        format!("{OF_A_GROUP}{group}: {}", line.name),
        thickness,
        per,
        percent(line.share),
        style.number(Area::from_m2(line.area)),
        line.mass.map_or_else(
            || "not known".into(),
            |kg| Dimension::Mass.fine_number(kg, style),
        ),
        String::new(),
    ]
}
