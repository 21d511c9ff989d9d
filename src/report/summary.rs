//! The report as text: verdict first, then the numbers, then the reasons, cautions last and once.

use super::Judged;
use super::sentence::sentence;
use super::table::{Table, wrap};
use crate::check::{Status, Verdict, best, cautions, overview};
use crate::model::{Openness, Project};
use crate::quantity::{Permeance, Style, TemperatureDifference, fixed, unit};
use crate::solve::{EndResult, PathResult};

/// Widest line printed.
const WIDTH: usize = 100;

/// The report of `check`.
#[must_use]
pub fn check_text(project: &Project, judged: &[Judged<'_>], style: Style) -> String {
    let mut text = conditions(project, judged, style);
    for one in judged {
        text += "\n";
        text += &headline(project, one, style);
    }
    text += &reading_aid();
    for one in judged {
        text += &format!("\n{}\n", one.name());
        for end in &one.result.ends {
            text += &numbers(one, end, style);
        }
        text += "  reasons\n";
        for finding in &one.verdict.findings {
            let line = format!(
                "{}, {}: {} [{}]",
                finding.status.word(),
                finding.check.title(),
                sentence(finding, project, style),
                finding.source
            );
            text += &wrap(&line, "    ", WIDTH);
        }
    }
    text + &caution_text(judged)
}

/// What the columns of the path tables mean.
fn reading_aid() -> String {
    let aid = "In the tables each row is a layer with its thickness, thermal resistance and permeance; then, at \
        its outer face on the winter mean: the temperature, the dew point of the vapor there by \
        diffusion, the margin between them, and where leaking room air gets to, the margin over the \
        room air's dew point on the winter mean (leak) and on the design night (night).";
    format!("\n{}", wrap(aid, "", WIDTH))
}

/// Conditions in both units, and the dew point they give.
fn conditions(project: &Project, judged: &[Judged<'_>], style: Style) -> String {
    let air = |air: crate::model::AirState| {
        format!(
            "{} ({}) at {}",
            style.temperature(air.temperature),
            style.other().temperature(air.temperature),
            style.humidity(air.humidity)
        )
    };
    let conditions = &project.conditions;
    let mut line = format!(
        "{}: room {}; winter mean {}",
        project.title,
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

/// Name and verdict, then the sentence that decides.
fn headline(project: &Project, one: &Judged<'_>, style: Style) -> String {
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
        text += &wrap(&sentence(finding, project, style), "  ", WIDTH);
    }
    let others = judged
        .filter(|finding| finding.status.severity() > 0)
        .count();
    if others > 1 {
        text += &format!(
            "  {} more below it {}.\n",
            others - 1,
            if others == 2 {
                "isn't clear"
            } else {
                "aren't clear"
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

/// Layers with their resistances, and what holds at each one's outer face: a reviewer can add up.
fn path_table(path: &PathResult, end: &EndResult, one: &Judged<'_>, style: Style) -> String {
    let profile = &path.winter;
    let mut text = format!(
        "  {}: {} % of the area, {} in all, films included\n",
        path.path.name,
        fixed(path.path.share.as_fraction() * 100.0, 1),
        style.resistance(profile.total_resistance),
    );
    let perm = if style.permeance(Permeance::from_si(0.0)).ends_with("perm") {
        "perm"
    } else {
        "ng/(s·m²·Pa)"
    };
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
        "dew point",
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
            format!("{} (bonded)", short(&piece.name, 24))
        } else {
            short(&piece.name, 33)
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
    if !profile.converged {
        text += "    The temperature-dependent conductivities didn't settle: don't use these numbers.\n";
    }
    text
}

/// A name cut to a column's width.
fn short(name: &str, width: usize) -> String {
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
                ": a bracket, since metal runs through (R'/R'' {}); the combined method isn't applicable. \
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
    format!("  {thickness} thick, {weight}\n")
}

fn caution_text(judged: &[Judged<'_>]) -> String {
    let list = cautions(judged.iter().map(|one| &one.case.assembly));
    let lines: String = list
        .iter()
        .map(|caution| wrap(&format!("- {caution}"), "  ", WIDTH))
        .collect();
    format!("\ncautions\n{lines}")
}

/// The report of `compare`.
#[must_use]
pub fn compare_text(project: &Project, judged: &[Judged<'_>], style: Style) -> String {
    let mut text = conditions(project, judged, style);
    text += "\n";
    text += &wood_sentences(judged, style);
    text += &best_sentence(judged);
    text += "\n";
    text += &comparison_table(judged, style);
    for one in judged {
        text += "\n";
        text += &headline(project, one, style);
    }
    text + &caution_text(judged)
}

/// Which cases keep the wood at the steel clear, which don't, and which are colder than as drawn.
fn wood_sentences(judged: &[Judged<'_>], style: Style) -> String {
    let mut clear = Vec::new();
    let mut wet = Vec::new();
    for one in judged {
        let overview = overview(&one.result);
        let (Some(at), Some(margin)) = (overview.wood_at_steel, overview.wood_margin) else {
            continue;
        };
        let words = format!(
            "{} ({}, {})",
            one.name(),
            style.temperature(at),
            style.margin(margin)
        );
        if margin.as_kelvin() > 0.0 {
            clear.push(words)
        } else {
            wet.push(words)
        }
    }
    if clear.is_empty() && wet.is_empty() {
        return String::new();
    }
    let list = |words: Vec<String>| {
        if words.is_empty() {
            "none".to_owned()
        } else {
            words.join("; ")
        }
    };
    let mut text = wrap(
        &format!(
            "Wood at the steel clear of the room air's dew point: {}.",
            list(clear)
        ),
        "",
        WIDTH,
    );
    text += &wrap(&format!("Below it: {}.", list(wet)), "", WIDTH);
    for one in judged.iter().filter(|one| one.case.variant.is_some()) {
        let base = judged.iter().find(|base| {
            base.case.variant.is_none() && base.case.assembly.name == one.case.assembly.name
        });
        let wood = |judged: &Judged<'_>| overview(&judged.result).wood_at_steel;
        if let (Some(changed), Some(drawn)) = (wood(one), base.and_then(wood))
            && changed < drawn
        {
            let colder = style.difference(drawn - changed);
            let line = format!(
                "{}: that wood is {colder} colder than as drawn, without it.",
                one.name()
            );
            text += &wrap(&line, "", WIDTH);
        }
    }
    text
}

fn best_sentence(judged: &[Judged<'_>]) -> String {
    let verdicts: Vec<&Verdict> = judged.iter().map(|one| &one.verdict).collect();
    best(&verdicts).map_or_else(String::new, |n| {
        let rule = "fewest fails, then fewest depends, then the largest least margin";
        wrap(
            &format!("Best by the rule ({rule}): {}.", judged[n].name()),
            "",
            WIDTH,
        )
    })
}

fn comparison_table(judged: &[Judged<'_>], style: Style) -> String {
    let u = format!("U, {}", style.transmittance_unit());
    let header = [
        "",
        "verdict",
        "coldest surface",
        "wood at steel",
        "dew margin",
        "leak margin",
        &u,
        "thickness",
        "weight",
    ];
    let mut columns: Vec<Vec<String>> =
        header.iter().map(|cell| vec![(*cell).to_owned()]).collect();
    for one in judged {
        let overview = overview(&one.result);
        let margin =
            |m: Option<TemperatureDifference>| m.map_or_else(|| "-".into(), |m| style.margin(m));
        let u = &one.result.ends[0].transmittance;
        let cells = [
            short(&one.name(), 37),
            one.verdict.status.word().into(),
            style.temperature(overview.coldest_surface),
            overview
                .wood_at_steel
                .map_or_else(|| "-".into(), |wood| style.temperature(wood)),
            margin(overview.dew_point_margin),
            margin(overview.leak_margin),
            format!(
                "{} … {}",
                style.transmittance_number(u.parallel_path),
                style.transmittance_number(u.isothermal_planes)
            ),
            style.length(one.result.thickness),
            one.result
                .weight
                .map_or_else(|| "-".into(), |weight| style.areal_density(weight)),
        ];
        columns
            .iter_mut()
            .zip(cells)
            .for_each(|(column, cell)| column.push(cell));
    }
    // Cases as rows, in two blocks, so that no line gets wider than a terminal.
    let block = |columns: &[&Vec<String>]| {
        let row = |n: usize| {
            columns
                .iter()
                .map(|column| column[n].clone())
                .collect::<Vec<_>>()
        };
        let header: Vec<String> = row(0);
        let header: Vec<&str> = header.iter().map(String::as_str).collect();
        let mut table = Table::new(&header, 1);
        (1..=judged.len()).for_each(|n| table.row(row(n)));
        table.render("  ")
    };
    let first = block(&[
        &columns[0],
        &columns[1],
        &columns[2],
        &columns[3],
        &columns[4],
        &columns[5],
    ]);
    let second = block(&[&columns[0], &columns[6], &columns[7], &columns[8]]);
    format!("{first}\n{second}")
}
