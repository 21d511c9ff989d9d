//! The heat loss of a house: its table, and what the edge means for it.

use crate::quantity::{Area, Dimension, Style, fixed, percent};
use crate::report::table::Table;
use crate::solve::house::{
    Basis, HeatLoss, HeatPart, HeatPartKind, NotApplicable, Size, StripShare,
};
use crate::study::JudgedHouse;

/// Steel whose cover saves less than this share of the whole heat loss matters little for heat
/// (common practice: what no heater is sized by).
const MATTERS: f64 = 0.05;

/// What all edges lose, W/K.
pub(super) fn of_edges(heat: &HeatLoss) -> f64 {
    let edges = heat
        .parts
        .iter()
        .filter(|part| part.kind == HeatPartKind::Edge);
    edges.map(HeatPart::loss).sum()
}

/// The headline's sentence.
pub(in crate::report) fn sentence(heat: &HeatLoss, style: Style) -> String {
    let mut text = format!(
        "Heat loss through the skin {}",
        Dimension::HeatLoss.show(heat.total(), style)
    );
    if let (Some(watts), Some(night)) = (heat.on_design_night(), heat.design_night) {
        let (rate, night) = (Dimension::HeatRate.show(watts, style), style.show(night));
        text += &format!(", {rate} on the design night ({night})");
    }
    let largest = heat
        .parts
        .iter()
        .max_by(|a, b| a.loss().total_cmp(&b.loss()));
    if let Some(part) = largest.filter(|part| part.loss() > 0.0) {
        text += &format!(
            "; most of it by {}, {}",
            part.name,
            percent(heat.share(part))
        );
    }
    text += ".";
    let unknown = heat.unknown();
    if !unknown.is_empty() {
        text += &format!(" Not known and not counted: {}.", unknown.join("; "));
    }
    text
}

/// How a variant's heat loss differs, to follow the headline's sentence; empty as drawn.
pub(super) fn saved(one: &JudgedHouse<'_>, base: &JudgedHouse<'_>, style: Style) -> String {
    if one.case.variant.is_none() {
        return String::new();
    }
    let saved = base.result.heat.total() - one.result.heat.total();
    let share = percent(saved.abs() / base.result.heat.total().max(f64::MIN_POSITIVE));
    let word = if saved < 0.0 { "more" } else { "less" };
    format!(
        " That is {} ({share}) {word} than as drawn.",
        Dimension::HeatLoss.show(saved.abs(), style)
    )
}

/// Every part with its size, its transmittance and its share.
pub(in crate::report) fn table(heat: &HeatLoss, style: Style) -> Table {
    let header = [
        "heat loss",
        "size",
        "",
        "U, psi, chi",
        "±",
        Dimension::HeatLoss.unit(style),
        "of all",
        "night",
    ];
    let mut table = Table::new(&header, 1);
    let span = heat
        .design_night
        .map(|night| (heat.indoor - night).as_kelvin());
    for part in &heat.parts {
        let (size, unit) = size(part.size, style);
        let missing = || "not known".to_owned();
        table.row(vec![
            part.name.clone(),
            size,
            unit.into(),
            part.value
                .map_or_else(missing, |value| transmittance(part, value, style)),
            match part.bar > 0.0 {
                true => transmittance(part, part.bar, style),
                false => "-".into(),
            },
            part.value.map_or_else(
                || "-".into(),
                |_| Dimension::HeatLoss.number(part.loss(), style),
            ),
            percent(heat.share(part)),
            span.map_or_else(
                || "-".into(),
                |span| Dimension::HeatRate.show(part.loss() * span, style),
            ),
        ]);
    }
    let mut row = vec![String::new(); 4];
    row[0] = "together".into();
    row.extend([
        Dimension::HeatLoss.number(heat.bar(), style),
        Dimension::HeatLoss.number(heat.total(), style),
        String::new(),
        heat.on_design_night().map_or_else(
            || "-".into(),
            |watts| Dimension::HeatRate.show(watts, style),
        ),
    ]);
    table.row(row);
    table
}

/// The units of that table's transmittances.
pub(in crate::report) fn units(style: Style) -> String {
    format!(
        "U in {}, psi in {}, chi in {}",
        Dimension::Transmittance.unit(style),
        Dimension::LinearTransmittance.unit(style),
        Dimension::PointTransmittance.unit(style)
    )
}

fn size(size: Size, style: Style) -> (String, &'static str) {
    match size {
        Size::Area(m2) => (style.number(Area::from_m2(m2)), Dimension::Area.unit(style)),
        Size::Length(m) => (Dimension::Run.number(m, style), Dimension::Run.unit(style)),
        Size::Count(count) => (count.to_string(), "pieces"),
    }
}

fn transmittance(part: &HeatPart, value: f64, style: Style) -> String {
    match part.kind {
        HeatPartKind::Assembly | HeatPartKind::Opening => {
            Dimension::Transmittance.number(value, style)
        }
        HeatPartKind::Edge => Dimension::LinearTransmittance.number(value, style),
        HeatPartKind::Bolts => Dimension::PointTransmittance.number(value, style),
    }
}

/// Where each number comes from.
pub(in crate::report) fn origins(heat: &HeatLoss, style: Style) -> Vec<String> {
    let parts = heat.parts.iter();
    let line = |part: &HeatPart| format!("{}: {}", part.name, origin(part, style));
    parts.map(line).collect()
}

fn origin(part: &HeatPart, style: Style) -> String {
    match &part.basis {
        Basis::Combined { left_to_detail } if left_to_detail.is_empty() => {
            "combined method (ISO 6946), winter mean.".into()
        }
        Basis::Combined { left_to_detail } => format!(
            "combined method (ISO 6946), winter mean, without {}: a detail along the edges has it \
             in its psi, so it isn't counted here as well.",
            left_to_detail.join(", ")
        ),
        Basis::Bracket { low, high, strips } => {
            let bracket = format!(
                "the middle between parallel path ({}) and isothermal planes ({}), since the \
                 combined method doesn't apply",
                Dimension::Transmittance.number(*low, style),
                Dimension::Transmittance.number(*high, style)
            );
            match strips.is_empty() {
                true => format!("{bracket}: R'/R'' is above 1.5."),
                false => format!(
                    "{bracket} with {} in it; a detail along its edges would tell better.",
                    strips.join(", ")
                ),
            }
        }
        Basis::Stated => "as stated in the file.".into(),
        Basis::Detail { twice: false } => {
            "psi of the detail in two dimensions, winter mean, by inside dimensions as the areas."
                .into()
        }
        Basis::Detail { twice: true } => {
            "psi of the detail in two dimensions, winter mean; the cut shows half a member, so it \
             counts twice."
                .into()
        }
        Basis::Fastener { .. } => fastener(&part.basis, style),
        Basis::PoorConductor => {
            "conducts less than 1 W/(m·K): ISO 6946 asks for no correction.".into()
        }
        Basis::NoSuchLayer => {
            "no such layer of insulation here, or outside of a ventilated gap: nothing is added."
                .into()
        }
        Basis::NotApplicable(why) => {
            let why = match why {
                NotApplicable::BothEndsOnSteel => "both ends touch steel",
                NotApplicable::BetweenMetal => "the layer lies between metal sheets",
            };
            format!(
                "{why}: the correction of ISO 6946 doesn't apply there. Only a calculation in three \
                 dimensions tells; give its result as `chi:`."
            )
        }
        Basis::Unknown => "not stated: give it in the file.".into(),
    }
}

/// The correction with its numbers put in, in SI units as the standard has it.
fn fastener(basis: &Basis, style: Style) -> String {
    let Basis::Fastener {
        conductivity,
        section,
        depth,
        thickness,
        penetrated,
        total,
    } = basis
    else {
        return String::new();
    };
    let recessed = match depth < thickness {
        true => format!(
            " · {}/{}",
            fixed(depth.as_m() * 1e3, 1),
            fixed(thickness.as_m() * 1e3, 1)
        ),
        false => String::new(),
    };
    let (r1, rt) = (fixed(*penetrated, 3), fixed(*total, 3));
    let [of, all] = [*penetrated, *total].map(|si| Dimension::Resistance.show(si, style));
    let own = style.pick(format!(" ({of} of {all})"), String::new());
    format!(
        "correction for fasteners (ISO 6946, from memory), chi = 0.8{recessed} · λ·A/d · (R1/RT)² = \
         0.8{recessed} · {} W/mK · {} mm² / {} mm · ({r1}/{rt})² in W/K{own}. An upper estimate: of \
         bare bolts with flush heads conduction gave a fifth of it or less.",
        fixed(*conductivity, 1),
        fixed(section * 1e6, 1),
        fixed(depth.as_m() * 1e3, 1),
    )
}

/// What a variant saves that covers a strip, along the edges that stand for that strip alone: does
/// its steel matter for heat, or for mold alone?
pub(super) fn covered(one: &JudgedHouse<'_>, base: &JudgedHouse<'_>, style: Style) -> String {
    let height = |house: &JudgedHouse<'_>, floor: &str, strip: &str| {
        let floor = house.case.assembly(floor)?;
        let strip = floor.strips.iter().find(|one| one.name == strip)?;
        Some(
            strip
                .over
                .iter()
                .map(|layer| layer.thickness.as_m())
                .sum::<f64>(),
        )
    };
    let covers = |strip: &&StripShare| {
        let [before, after] = [base, one].map(|house| height(house, &strip.floor, &strip.strip));
        before
            .zip(after)
            .is_some_and(|(before, after)| after > before)
    };
    let same = |a: &StripShare, b: &StripShare| (&a.floor, &a.strip) == (&b.floor, &b.strip);
    let found = base.result.heat.strips.iter().filter(covers);
    let pairs: Vec<(&StripShare, &StripShare)> = found
        .filter_map(|before| {
            let mut after = one.result.heat.strips.iter();
            Some((before, after.find(|after| same(before, after))?))
        })
        .collect();
    if pairs.is_empty() {
        return String::new();
    }
    let names: Vec<&str> = pairs.iter().map(|pair| pair.0.strip.as_str()).collect();
    let names = names.join(" and the ");
    let saved: f64 = pairs.iter().map(|(a, b)| a.by_detail - b.by_detail).sum();
    let share = saved / base.result.heat.total().max(f64::MIN_POSITIVE);
    let (its, matters) = match pairs.len() {
        1 => ("its", "matters"),
        _ => ("their", "matter"),
    };
    let meaning = match share >= MATTERS {
        true => format!("the {names} {matters} for heat as well as for mold"),
        false => format!(
            "for heat the {names} {matters} little; what is decided there is mold and rot (`check`)"
        ),
    };
    format!(
        "Covering the {names} (`{}`) saves {} along {its} edges, {} of the whole: {meaning}.",
        one.variant(),
        Dimension::HeatLoss.show(saved, style),
        percent(share),
    )
}

/// What the edge with the steel loses.
pub(in crate::report) fn edge_words(heat: &HeatLoss, style: Style) -> Vec<String> {
    let mut lines = Vec::new();
    for strip in &heat.strips {
        let share = strip.by_detail / heat.total().max(f64::MIN_POSITIVE);
        let mut line = format!(
            "The {} of the {}: the whole edge with plate, joist, corner and steel loses {} ({}) by \
             the detail. By its share of the area alone the strip would add {} to U·A. What the \
             steel itself loses shows in a variant that covers it.",
            strip.strip,
            strip.floor,
            Dimension::HeatLoss.show(strip.by_detail, style),
            percent(share),
            Dimension::HeatLoss.show(strip.by_bracket, style),
        );
        if strip.edge_length < 0.95 * strip.strip_length {
            line += &format!(
                " The edge runs {} of the strip's {}: the rest of the strip is counted nowhere.",
                Dimension::Run.show(strip.edge_length, style),
                Dimension::Run.show(strip.strip_length, style)
            );
        }
        lines.push(line);
    }
    lines
}
