//! `dewmargin materials [NAME]`

use super::arguments::MaterialOptions;
use super::output::{err, out};
use crate::error::Error;
use crate::material::{Kind, Library, Material, Measured, VaporRate, sources};
use crate::quantity::{Style, UnitSystem, fixed};

pub(super) fn run(options: &MaterialOptions) -> Result<u8, Error> {
    let library = Library::new();
    let style = Style {
        units: UnitSystem::from(options.units),
    };
    let name = options.name.join(" ");
    if name.is_empty() {
        return out(&list(&library.all(), style)).map(|()| 0);
    }
    if let Some(material) = library.find(&name) {
        return out(&show(&material, style)).map(|()| 0);
    }
    let wanted = name.to_lowercase();
    let matches = |text: &str| text.to_lowercase().contains(&wanted);
    let found: Vec<Material> = library
        .all()
        .into_iter()
        .filter(|m| matches(&m.id) || matches(&m.name) || m.aliases.iter().any(|a| matches(a)))
        .collect();
    if !found.is_empty() {
        return out(&list(&found, style)).map(|()| 0);
    }
    let near = library
        .nearest(&name)
        .map_or_else(String::new, |near| format!("; did you mean `{near}`?"));
    let list = "`dewmargin materials` lists all; those of a project file aren't among them";
    err(&format!("no material is called `{name}`{near}; {list}\n"))?;
    Ok(super::BAD_INPUT)
}

fn list(materials: &[Material], style: Style) -> String {
    let mut text = String::new();
    for (word, kind) in Kind::WORDS {
        let of_kind: Vec<&Material> = materials.iter().filter(|m| m.kind == kind).collect();
        if of_kind.is_empty() {
            continue;
        }
        text += &format!("{word}\n");
        for material in of_kind {
            let k = material
                .conductivity
                .as_ref()
                .map_or_else(|| "-".into(), |k| style.conductivity(k.nominal));
            let vapor = vapor_rate(material.vapor.mid.nominal, style);
            text += &format!(
                "  {:<30} {k:>22}  {vapor:>22}  {}\n",
                material.id, material.name
            );
        }
    }
    text + &format!(
        "{} materials; `dewmargin materials NAME` shows one with its sources\n",
        materials.len()
    )
}

/// One material, every value with its range, source and tag, then the sources in full.
fn show(material: &Material, style: Style) -> String {
    let mut text = format!("{}: {}\n", material.id, material.name);
    let mut cited = Vec::new();
    if !material.aliases.is_empty() {
        text += &format!("  also called: {}\n", material.aliases.join(", "));
    }
    text += &format!("  kind: {}\n", material.kind.word());
    if let Some(board) = material.board {
        text += &format!("  board: {}\n", board.word());
    }
    if let Some(chart) = material.gauge {
        text += &format!("  gauge: {}\n", chart.word());
    }
    let words = [
        (material.air_permeable, "air moves through it"),
        (material.bonded, "bonded by nature: air can't get around it"),
    ];
    words
        .iter()
        .filter(|(holds, _)| *holds)
        .for_each(|(_, words)| text += &format!("  {words}\n"));
    if let Some(thickness) = material.thickness {
        text += &format!(
            "  thickness: {}\n",
            both(|style| style.show(thickness), style)
        );
    }
    let mut line = |what: &str, value: String, range: Option<String>, source: &str, tag: &str| {
        let range = range.map_or_else(String::new, |range| format!(" ({range})"));
        text += &format!("  {what}: {value}{range} [{source}, {tag}]\n");
        if !cited.contains(&source.to_owned()) {
            cited.push(source.to_owned());
        }
    };
    if let Some(mold) = &material.mold {
        let declines = format!(
            "{} (goes back {} % as fast as on pine)",
            mold.class.word(),
            fixed(mold.decline * 100.0, 0)
        );
        line("mold", declines, None, &mold.source, mold.tag.words());
    }
    if let Some(density) = &material.density {
        line(
            "density",
            both(|style| style.show(density.nominal), style.other()),
            None,
            &density.source,
            density.tag.words(),
        );
    }
    if let Some(weight) = &material.areal_density {
        line(
            "weight",
            style.show(weight.nominal),
            None,
            &weight.source,
            weight.tag.words(),
        );
    }
    if let Some(k) = &material.conductivity {
        let range = range_of(k, |v| style.conductivity(*v));
        line(
            "conductivity",
            both(|style| style.conductivity(k.nominal), style),
            range,
            &k.source,
            k.tag.words(),
        );
    }
    if let Some(heat) = &material.specific_heat {
        let print = format!("{} J/(kg·K)", fixed(heat.nominal.as_si(), 0));
        line("specific heat", print, None, &heat.source, heat.tag.words());
    }
    let vapor = &material.vapor;
    for (what, value) in [
        ("dry", vapor.dry.as_ref()),
        ("mid", Some(&vapor.mid)),
        ("damp", vapor.damp.as_ref()),
    ] {
        let Some(value) = value else { continue };
        let at = value
            .at
            .map_or_else(String::new, |at| format!(", at {}", style.show(at)));
        let range = range_of(value, |v| vapor_rate(*v, style));
        let what = format!("vapor, {what}{at}");
        line(
            &what,
            both(|style| vapor_rate(value.nominal, style), style),
            range,
            &value.source,
            value.tag.words(),
        );
    }
    for (mean, k) in &material.by_temperature {
        let mean = style.show(*mean);
        text += &format!("  at a mean of {mean}: {}\n", style.conductivity(*k));
    }
    if let Some(note) = &material.note {
        text += &format!("  note: {note}\n");
    }
    text += "sources\n";
    for source in sources().iter().filter(|source| cited.contains(&source.id)) {
        text += &format!(
            "  {}: {}. {}\n",
            source.id,
            source.title.trim_end_matches('.'),
            source.detail
        );
    }
    text
}

fn both(print: impl Fn(Style) -> String, style: Style) -> String {
    format!("{} ({})", print(style), print(style.other()))
}

fn range_of<T>(value: &Measured<T>, print: impl Fn(&T) -> String) -> Option<String> {
    match (&value.low, &value.high) {
        (Some(low), Some(high)) => Some(format!("{} to {}", print(low), print(high))),
        (Some(low), None) => Some(format!("from {}", print(low))),
        (None, Some(high)) => Some(format!("up to {}", print(high))),
        (None, None) => None,
    }
}

fn vapor_rate(rate: VaporRate, style: Style) -> String {
    match rate {
        VaporRate::PerSheet(permeance) => style.show(permeance),
        VaporRate::PerThickness(value) => style.show(value),
    }
}
