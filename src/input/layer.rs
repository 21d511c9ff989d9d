//! Resolving layers: materials found, thicknesses settled, shares added up.

use std::sync::Arc;

use super::schema::{FramingText, LayerText};
use super::substance::{by_numbers, substance};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::material::{Kind, Library, Material, VaporRate};
use crate::model::{AirSpace, Content, Framing, Layer};
use crate::quantity::{Length, Share, Thickness};

/// Finds a material or says which ones are near.
pub(super) fn material(
    name: &At<Word>,
    library: &Library,
    problems: &mut Problems,
) -> Option<Material> {
    let found = library.find(&name.value.0);
    if found.is_none() && !library.is_set_aside(&name.value.0) {
        let near = library.nearest(&name.value.0);
        let list = format!("`dewmargin materials` lists all {}", library.count());
        let help = near.map_or_else(
            || list.clone(),
            |near| format!("did you mean `{near}`? {list}"),
        );
        let problem = Problem::at(name.span, unknown_material(name));
        problems.push(
            problem
                .expected("not in the library, nor under `materials:`")
                .help(help),
        );
    }
    found
}

/// The message for a material that isn't there.
pub(super) fn unknown_material(name: &At<Word>) -> String {
    format!("unknown material `{}`", name.value.0)
}

/// A layer, if everything it needs is there.
pub(super) fn layer(text: &LayerText, library: &Library, problems: &mut Problems) -> Option<Layer> {
    // Framing and thickness are looked at even where the material is unknown: all problems at once.
    let framing = text
        .framing
        .as_ref()
        .map(|framing| self::framing(framing, library, problems));
    if let Some(air) = &text.air {
        return air_layer(text, air, framing, problems);
    }
    let found = text
        .material
        .as_ref()
        .map(|name| material(name, library, problems));
    let thickness = thickness(text, found.as_ref().and_then(Option::as_ref), problems);
    let by_nature = matches!(&found, Some(Some(material)) if material.bonded);
    let substance = match found {
        Some(found) => substance(&found?, text),
        None => by_numbers(text, problems)?,
    };
    if matches!(substance.vapor, VaporRate::PerThickness(_)) && thickness? == Length::from_m(0.0) {
        let message = format!(
            "layer `{}` has a permeability but no thickness",
            text.name.value.0
        );
        problems.push(Problem::at(text.name.span, message).expected("expected a `thickness:`"));
        return None;
    }
    if let Some(framing) = text
        .framing
        .as_ref()
        .filter(|_| thickness == Some(Length::from_m(0.0)))
    {
        let message = format!(
            "layer `{}` is framed and has no thickness",
            text.name.value.0
        );
        let label = "expected a `thickness:` beside it: how deep its members are";
        problems.push(Problem::at(framing.material.span, message).expected(label));
        return None;
    }
    Some(Layer {
        name: text.name.value.0.clone(),
        content: Content::Solid(Arc::new(substance)),
        thickness: thickness?,
        resistance: text.r_value.as_ref().map(|at| at.value),
        bonded: text.bonded.as_ref().map_or(by_nature, |at| at.value),
        bond_is_promised: text.bonded.as_ref().is_some_and(|at| at.value) && !by_nature,
        built_in_water: text.built_in_water.as_ref().is_some_and(|at| at.value),
        drains: text.drains.as_ref().is_some_and(|at| at.value),
        framing: match framing {
            Some(framing) => Some(framing?),
            None => None,
        },
    })
}

fn air_layer(
    text: &LayerText,
    air: &At<Word>,
    framing: Option<Option<Framing>>,
    problems: &mut Problems,
) -> Option<Layer> {
    let words = [
        ("still", AirSpace::Still),
        ("vented", AirSpace::Vented),
        ("ventilated", AirSpace::Ventilated),
    ];
    let air = crate::material::one_of(air, &words, "air space", problems);
    let thickness = thickness(text, None, problems);
    if let Some(material) = &text.material {
        let message = format!(
            "layer `{}` is an air space and a material at once",
            text.name.value.0
        );
        problems
            .push(Problem::at(material.span, message).expected("expected `air:` or `material:`"));
        return None;
    }
    Some(Layer {
        name: text.name.value.0.clone(),
        content: Content::Air(air?),
        thickness: thickness?,
        resistance: text.r_value.as_ref().map(|at| at.value),
        bonded: false,
        bond_is_promised: false,
        built_in_water: false,
        drains: text.drains.as_ref().is_some_and(|at| at.value),
        framing: match framing {
            Some(framing) => Some(framing?),
            None => None,
        },
    })
}

fn thickness(
    text: &LayerText,
    material: Option<&Material>,
    problems: &mut Problems,
) -> Option<Length> {
    let Some(at) = &text.thickness else {
        let own = material.and_then(|material| material.thickness);
        // A resistance and a permeance are enough without a thickness.
        let by_numbers = text.r_value.is_some() && text.permeance.is_some();
        // An unknown material may well have one: that problem is reported already.
        let unknown = text.material.is_some() && material.is_none();
        return match own.or((by_numbers || unknown).then_some(Length::from_m(0.0))) {
            Some(length) => Some(length),
            None if !text.complete => None,
            None => {
                let message = format!("layer `{}` has no thickness", text.name.value.0);
                problems.push(
                    Problem::at(text.name.span, message)
                        .expected("expected a `thickness:` such as `3/4 in`"),
                );
                None
            }
        };
    };
    by_gauge(at, material, problems)
}

pub(super) fn by_gauge(
    at: &At<Thickness>,
    material: Option<&Material>,
    problems: &mut Problems,
) -> Option<Length> {
    let metal = material.filter(|material| material.kind == Kind::Metal);
    match (at.value, metal.map(|metal| metal.gauge)) {
        (Thickness::Length(length), _) => Some(length),
        (gauge @ Thickness::Gauge(_), Some(Some(chart))) => gauge.of(chart),
        (Thickness::Gauge(_), Some(None)) => {
            let name = metal.map_or("", |metal| &metal.id);
            let message = format!("`{name}` doesn't say which chart its gauges go by");
            let label = "expected a length such as `0.8 mm`, or `gauge:` in its entry";
            let help = "under `materials:` write `gauge: steel`, `galvanized` or `aluminum`";
            problems.push(Problem::at(at.span, message).expected(label).help(help));
            None
        }
        (Thickness::Gauge(_), None) => {
            let message = "a gauge needs a sheet metal to mean a thickness";
            problems
                .push(Problem::at(at.span, message).expected("expected a length such as `3/4 in`"));
            None
        }
    }
}

fn framing(text: &FramingText, library: &Library, problems: &mut Problems) -> Option<Framing> {
    let material = material(&text.material, library, problems);
    let share = framing_share(text, problems);
    Some(Framing {
        substance: Arc::new(substance(&material?, &bare(&text.material))),
        share: share?,
        members: text
            .width
            .as_ref()
            .zip(text.spacing.as_ref())
            .map(|(width, spacing)| (width.value, spacing.value)),
        crosswise: text.crosswise.as_ref().is_some_and(|at| at.value),
        clear_below: Length::from_m(0.0),
    })
}

fn framing_share(text: &FramingText, problems: &mut Problems) -> Option<Share> {
    let (share, span) = match (&text.share, &text.width, &text.spacing) {
        (Some(share), None, None) => (share.value.as_fraction(), share.span),
        (None, Some(width), Some(spacing)) => {
            (width.value.as_m() / spacing.value.as_m(), width.span)
        }
        _ if !text.complete => return None,
        _ => {
            let message = "framing needs its share of the area";
            let label = "expected `width:` and `spacing:`, or `share:` alone";
            problems.push(Problem::at(text.material.span, message).expected(label));
            return None;
        }
    };
    if share > 0.0 && share < 1.0 {
        return Some(Share::from_fraction(share));
    }
    let message = format!("framing takes {:.0} % of the area", share * 100.0);
    problems.push(Problem::at(span, message).expected("expected more than 0 and less than 100 %"));
    None
}

/// A layer's text with nothing in it but a name: no overrides.
pub(super) fn bare(name: &At<Word>) -> LayerText {
    LayerText {
        name: name.clone(),
        material: None,
        air: None,
        thickness: None,
        r_value: None,
        conductivity: None,
        permeance: None,
        permeability: None,
        kind: None,
        bonded: None,
        drains: None,
        built_in_water: None,
        framing: None,
        complete: true,
    }
}

/// The problem of a name that isn't there, with the nearest one that is.
pub(super) fn missing_name<'a>(
    what: &str,
    name: &At<Word>,
    known: impl Iterator<Item = &'a str>,
) -> Problem {
    let known: Vec<&str> = known.collect();
    let near = crate::error::did_you_mean(&name.value.0, known.iter().copied());
    let help = match near {
        Some(near) => format!("did you mean `{near}`?"),
        None if known.is_empty() => "there are none".to_owned(),
        None => format!("there are: {}", known.join(", ")),
    };
    let message = format!("there is no {what} `{}`", name.value.0);
    Problem::at(name.span, message)
        .expected(format!("not a {what} of this assembly"))
        .help(help)
}
