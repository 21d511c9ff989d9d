//! The report of `check` as text: verdict first, then the numbers, then the reasons, cautions last and once.

use super::Judged;
use super::range::{corners, decides, flips};
use super::sentence::sentence;
use super::short::in_short;
use super::table::{Table, wrap};
use crate::check::{Status, cautions};
use crate::model::{Content, Openness, Project, Stop, Substance};
use crate::quantity::{Permeance, Style, TemperatureDifference, fixed, unit};
use crate::solve::{EndResult, PathResult};

/// Widest line printed.
pub(super) const WIDTH: usize = 100;

/// The report of `check`.
#[must_use]
pub fn check_text(project: &Project, judged: &[Judged<'_>], style: Style) -> String {
    let mut text = conditions(project, judged, style);
    for one in judged {
        text += "\n";
        text += &headline(one, style);
    }
    text += &reading_aid(style);
    for one in judged {
        text += &format!("\n{}\n", one.name());
        for end in &one.result.ends {
            text += &numbers(one, end, style);
        }
        text += &made_of(one);
        text += "  reasons\n";
        for finding in &one.verdict.findings {
            let parts = [
                sentence(finding, &one.stop.conditions, style),
                corners(finding),
                decides(finding, style),
            ];
            let parts: Vec<&str> = parts
                .iter()
                .map(String::as_str)
                .filter(|part| !part.is_empty())
                .collect();
            let line = format!(
                "{}, {}: {} [{}]",
                finding.status.word(),
                finding.check.title(),
                parts.join(" "),
                finding.source
            );
            text += &wrap(&line, "    ", WIDTH);
        }
    }
    text + &caution_text(judged)
}

/// What the columns of the path tables mean.
fn reading_aid(style: Style) -> String {
    let aid = "In the tables each row is a layer with its thickness, thermal resistance and permeance; then, at \
        its outer face on the winter mean: the temperature, the dew point of the vapor there by \
        diffusion, the margin between them, and where leaking room air gets to, the margin over the \
        room air's dew point on the winter mean (leak) and on the design night (night).";
    let aid = match perm_heading(style) {
        "perm" => aid.to_owned(),
        // The unit is too long for a heading.
        _ => aid.replace("permeance;", "permeance, ng/(s·m²·Pa);"),
    };
    format!("\n{}", wrap(&aid, "", WIDTH))
}

/// Conditions in both units, and the dew point they give.
pub(super) fn conditions(project: &Project, judged: &[Judged<'_>], style: Style) -> String {
    let air = |air: crate::model::AirState| {
        format!(
            "{} ({}) at {}",
            style.temperature(air.temperature),
            style.other().temperature(air.temperature),
            style.humidity(air.humidity)
        )
    };
    let Some(first) = judged.first() else {
        return String::new();
    };
    let conditions = &first.stop.conditions;
    let mut line = format!(
        "{}: {}room {}; winter mean {}",
        project.title,
        climate(first.stop),
        air(conditions.indoor),
        air(conditions.winter_mean)
    );
    if let Some(night) = conditions.design_night {
        line += &format!("; design night {}", air(night));
    }
    if let Some(first) = judged.first() {
        let dew = first.result.room_dew_point;
        line += &format!(
            ". Room air condenses below {} ({}).",
            style.temperature(dew),
            style.other().temperature(dew)
        );
    }
    wrap(&line, "", WIDTH)
}

/// `climate wet-coast (invented, built in), marine zone 4; `, nothing where the file gives none.
fn climate(stop: &Stop) -> String {
    if stop.name.is_empty() {
        return String::new();
    }
    let zone = stop.code.zone.map(|zone| format!(", {zone}"));
    format!(
        "climate {} ({}){}; ",
        stop.name,
        stop.origin,
        zone.unwrap_or_default()
    )
}

/// Name and verdict, then the sentence that decides.
pub(super) fn headline(one: &Judged<'_>, style: Style) -> String {
    let verdict = &one.verdict;
    let mut text = format!("{}: {}\n", one.name(), verdict.status.word());
    let judged = verdict
        .findings
        .iter()
        .filter(|finding| finding.status != Status::Note);
    let deciding = judged
        .clone()
        .find(|finding| finding.status.severity() == verdict.status.severity());
    if let Some(finding) = deciding {
        let words = format!(
            "{} {}",
            sentence(finding, &one.stop.conditions, style),
            flips(finding, style)
        );
        text += &wrap(&words, "  ", WIDTH);
    }
    text += &wrap(&in_short(verdict, style), "  ", WIDTH);
    let others = judged
        .filter(|finding| finding.status.severity() > 0)
        .count();
    if others > 1 {
        text += &format!(
            "  {} more {}.\n",
            others - 1,
            if others == 2 {
                "finding isn't clear"
            } else {
                "findings aren't clear"
            }
        );
    }
    text
}

fn numbers(one: &Judged<'_>, end: &EndResult, style: Style) -> String {
    let mut text = String::new();
    if one.case.assembly.has_vented_air() {
        let words = match end.openness {
            Openness::Closed => "vented air spaces taken closed",
            Openness::Open => "vented air spaces taken open",
        };
        text += &format!("  {words}\n");
    }
    for path in &end.paths {
        text += &path_table(path, end, one, style);
    }
    text + &transmittance(end, style) + &weight(one, style)
}

/// What every layer, member and strip is made of, and where its numbers come from.
fn made_of(one: &Judged<'_>) -> String {
    let assembly = &one.case.assembly;
    let over = assembly.strips.iter().flat_map(|strip| &strip.over);
    let mut parts: Vec<(String, &Substance)> = Vec::new();
    for layer in assembly.layers.iter().chain(over) {
        if let Content::Solid(substance) = &layer.content {
            parts.push((layer.name.clone(), substance));
        }
        if let Some(framing) = &layer.framing {
            parts.push((format!("{} framing", layer.name), &framing.substance));
        }
    }
    let strips = assembly
        .strips
        .iter()
        .map(|strip| (strip.name.clone(), &strip.metal));
    parts.extend(strips);
    let line = |(name, substance): &(String, &Substance)| {
        let words = format!(
            "{name}: {}. {}",
            substance.label,
            substance.sources.join("; ")
        );
        wrap(&words, "    ", WIDTH)
    };
    let lines: String = parts.iter().map(line).collect();
    format!(
        "  made of (R at the layer's own mean temperature; sources by `dewmargin materials`)\n{lines}"
    )
}

/// Layers with their resistances, and what holds at each one's outer face: a reviewer can add up.
/// Most characters of a layer's name in a table: with every other column at its widest, the line
/// stays within [`WIDTH`].
const NAME_WIDTH: usize = 26;

fn perm_heading(style: Style) -> &'static str {
    if style.permeance(Permeance::from_si(0.0)).ends_with("perm") {
        "perm"
    } else {
        "permeance"
    }
}

fn path_table(path: &PathResult, end: &EndResult, one: &Judged<'_>, style: Style) -> String {
    let profile = &path.winter;
    let mut text = format!(
        "  {}: {} % of the area, {} in all, films included\n",
        path.path.name,
        fixed(path.path.share.as_fraction() * 100.0, 1),
        style.resistance(profile.total_resistance),
    );
    let perm = perm_heading(style);
    let r = if style.temperature_unit() == "°F" {
        "R"
    } else {
        "m²K/W"
    };
    let header = [
        "inside to outside",
        "thickness",
        r,
        perm,
        style.temperature_unit(),
        "dew pt",
        "margin",
        "leak",
        "night",
    ];
    let mut table = Table::new(&header, 1);
    let film = end.boundary.interior_film.as_si();
    let state = |n: usize| plane_cells(path, n, one, style);
    table.row(
        [
            vec![
                "room air film".into(),
                String::new(),
                resistance(film, style),
                String::new(),
            ],
            state(0),
        ]
        .concat(),
    );
    for (n, piece) in path.path.pieces.iter().enumerate() {
        let sheet = Permeance::from_si(1.0 / piece.slab.vapor_resistance);
        let permeance = style.permeance(sheet);
        let number = permeance.split(' ').next().unwrap_or_default().to_owned();
        let name = if piece.bonded {
            format!(
                "{} (bonded)",
                short(&piece.name, NAME_WIDTH - " (bonded)".len())
            )
        } else {
            short(&piece.name, NAME_WIDTH)
        };
        let thickness = if piece.thickness.as_m() > 0.0 {
            style.length(piece.thickness)
        } else {
            String::new()
        };
        let cells = vec![
            name,
            thickness,
            resistance(profile.resistances[n].as_si(), style),
            number,
        ];
        table.row([cells, state(n + 1)].concat());
    }
    let layers: f64 = profile.resistances.iter().map(|r| r.as_si()).sum();
    let exterior = profile.total_resistance.as_si() - layers - film;
    let name = if path.path.ends_at_ventilated_air {
        "film to the ventilated gap"
    } else {
        "outdoor air film"
    };
    table.row(vec![
        name.into(),
        String::new(),
        resistance(exterior, style),
    ]);
    text += &table.render("    ");
    if let Some(factor) = path.temperature_factor {
        text += &format!(
            "    temperature factor of the room surface: {}\n",
            fixed(factor, 3)
        );
    }
    for least in &profile.inner_minima {
        text += &format!(
            "    least margin inside {}: {} at {} % of its depth\n",
            path.path.pieces[least.slab].name,
            style.margin(least.margin),
            fixed(least.position * 100.0, 0),
        );
    }
    if !profile.converged {
        text += "    The temperature-dependent conductivities didn't settle: don't use these numbers.\n";
    }
    text
}

/// A name cut to a column's width.
pub(super) fn short(name: &str, width: usize) -> String {
    if name.chars().count() <= width {
        return name.to_owned();
    }
    name.chars().take(width - 1).chain(['…']).collect()
}

fn resistance(si: f64, style: Style) -> String {
    match style.temperature_unit() {
        "°F" => fixed(si / unit::R_VALUE, 2),
        _ => fixed(si, 3),
    }
}

/// Temperature, dew point of the vapor, dew-point margin, leak margin, the night's leak margin.
fn plane_cells(path: &PathResult, plane: usize, one: &Judged<'_>, style: Style) -> Vec<String> {
    let state = &path.winter.planes[plane];
    let dew_point = one.result.room_dew_point;
    let reached = path.roles[plane].reached;
    let margin = |margin: Option<TemperatureDifference>| {
        margin.map_or_else(|| "-".to_owned(), |margin| style.margin_number(margin))
    };
    let leak = reached.then(|| state.temperature - dew_point);
    let night = path.night.as_ref().filter(|_| reached);
    vec![
        style.temperature_number(state.temperature),
        state
            .dew_point
            .map_or_else(|| "-".into(), |dew| style.temperature_number(dew)),
        margin(state.dew_point_margin),
        margin(leak),
        margin(night.map(|night| night.planes[plane].temperature - dew_point)),
    ]
}

fn transmittance(end: &EndResult, style: Style) -> String {
    let u = &end.transmittance;
    let mut line = format!(
        "U {} by the parallel path, {} by isothermal planes",
        style.transmittance_number(u.parallel_path),
        style.transmittance(u.isothermal_planes),
    );
    match (u.combined, u.strips_in_series) {
        (Some(combined), _) => {
            line += &format!(
                "; {} by the combined method, error at most {} %.",
                style.transmittance_number(combined),
                fixed(u.combined_error * 100.0, 1)
            );
        }
        (None, Some(series)) => {
            line += &format!(
                "; in isothermal planes the metal stands beside what it replaces, each with its own outer film: a bracket, since metal runs through (R'/R'' {}); the combined method isn't applicable. \
                 With the strips in series with what lies below them it would be {}: for comparison only.",
                fixed(u.ratio, 2),
                style.transmittance_number(series)
            );
        }
        (None, None) => {
            line += &format!(
                "; the combined method isn't applicable (R'/R'' {}, over 1.5).",
                fixed(u.ratio, 2)
            );
        }
    }
    wrap(&line, "  ", WIDTH)
}

fn weight(one: &Judged<'_>, style: Style) -> String {
    let thickness = style.length(one.result.thickness);
    let weight = match one.result.weight {
        Some(weight) => style.areal_density(weight),
        None => format!("weight not known for {}", one.result.unweighed.join(", ")),
    };
    if one.result.thickness.as_m() == 0.0 {
        return format!("  thickness not given, {weight}\n");
    }
    format!("  {thickness} thick, {weight}\n")
}

pub(super) fn caution_text(judged: &[Judged<'_>]) -> String {
    let list = cautions(judged.iter().map(|one| &one.case.assembly));
    let lines: String = list
        .iter()
        .map(|caution| wrap(&format!("- {caution}"), "  ", WIDTH))
        .collect();
    format!("\ncautions\n{lines}")
}
