//! What a layer is made of: a material's values with their spread, or the file's own numbers.

use super::schema::LayerText;
use crate::document::{At, Problems, Word};
use crate::error::{Problem, Span};
use crate::material::{Kind, Material, Measured, MoldOn, Vapor, VaporRate};
use crate::model::{Spread, Substance};
use crate::quantity::{Conductivity, Permeability, Permeance, RelativeHumidity};

/// A substance from a material, with what the layer states instead.
pub(super) fn substance(material: &Material, text: &LayerText) -> Substance {
    let given = |what: &str| format!("{what}: {}", Substance::GIVEN);
    let cited = |what: &str, source: &str, tag: crate::material::Tag| match source {
        "" => given(what),
        source => format!("{what}: {source} ({})", tag.words()),
    };
    let mut sources = Vec::new();
    match (&text.conductivity, &text.r_value, &material.conductivity) {
        (Some(_), _, _) => sources.push(given("conductivity")),
        (None, Some(_), _) => sources.push(given("resistance")),
        (None, None, Some(k)) => sources.push(cited("conductivity", &k.source, k.tag)),
        (None, None, None) => {}
    }
    let vapor = stated_vapor(text.permeance.as_ref(), text.permeability.as_ref());
    sources.push(match vapor {
        Some(_) => given("vapor"),
        None => cited("vapor", &material.vapor.mid.source, material.vapor.mid.tag),
    });
    if let Some(density) = &material.density {
        sources.push(cited("density", &density.source, density.tag));
    } else if let Some(weight) = &material.areal_density {
        sources.push(cited("weight", &weight.source, weight.tag));
    }
    Substance {
        label: material.name.clone(),
        kind: Some(material.kind),
        board: material.board,
        air_permeable: material.air_permeable,
        conductivity: text
            .conductivity
            .as_ref()
            .map(|at| at.value)
            .or(material.conductivity.as_ref().map(|k| k.nominal)),
        by_temperature: match text.conductivity {
            Some(_) => Vec::new(),
            None => material.by_temperature.clone(),
        },
        conductivity_spread: match (&text.conductivity, &text.r_value, &material.conductivity) {
            (None, None, Some(k)) => spread(k.nominal, k.low, k.high, Conductivity::as_si),
            _ => Spread::NONE,
        },
        by_humidity: match vapor {
            Some(_) => Vec::new(),
            None => humidity_factors(&material.vapor),
        },
        vapor_spread: match vapor {
            Some(_) => Spread::NONE,
            None => vapor_spread(&material.vapor),
        },
        vapor: vapor.unwrap_or(material.vapor.mid.nominal),
        own_thickness: material
            .thickness
            .filter(|_| material.kind == Kind::Insulation),
        density: material.density.as_ref().map(|density| density.nominal),
        areal_density: material
            .areal_density
            .as_ref()
            .map(|density| density.nominal),
        mold: material
            .mold
            .as_ref()
            .map(|mold| (mold.class, mold.decline)),
        prices: material.prices.clone(),
        sources,
    }
}

/// A substance from a material alone.
pub(super) fn plain(material: &Material) -> Substance {
    let name = At {
        value: Word(material.id.clone()),
        span: Span {
            start: 0,
            end: 0,
            line: 1,
            column: 1,
        },
    };
    substance(material, &super::layer::bare(&name))
}

fn spread<T: Copy>(nominal: T, low: Option<T>, high: Option<T>, si: fn(T) -> f64) -> Spread {
    let nominal = si(nominal);
    let factor = |value: Option<T>| match value {
        Some(value) if nominal > 0.0 => si(value) / nominal,
        _ => 1.0,
    };
    Spread {
        low: factor(low),
        high: factor(high),
    }
}

/// The spread at mid humidity; where only another humidity has one, that one.
fn vapor_spread(vapor: &Vapor) -> Spread {
    let of = |value: &Measured<VaporRate>| {
        spread(value.nominal, value.low, value.high, VaporRate::as_si)
    };
    let others = vapor.damp.iter().chain(&vapor.dry);
    std::iter::once(&vapor.mid)
        .chain(others)
        .map(of)
        .find(|spread| spread.is_known())
        .unwrap_or(Spread::NONE)
}

/// Where a source doesn't print the humidity of a dry, mid or damp value.
const USUAL_HUMIDITIES: [f64; 3] = [0.3, 0.5, 0.8];

/// Dry, mid and damp values as factors of the mid one, rising in humidity.
fn humidity_factors(vapor: &Vapor) -> Vec<(RelativeHumidity, f64)> {
    let mid = vapor.mid.nominal.as_si();
    if mid <= 0.0 || vapor.dry.is_none() && vapor.damp.is_none() {
        return Vec::new();
    }
    let values = [vapor.dry.as_ref(), Some(&vapor.mid), vapor.damp.as_ref()];
    let mut factors: Vec<(RelativeHumidity, f64)> = values
        .into_iter()
        .zip(USUAL_HUMIDITIES)
        .filter_map(|(value, usual)| {
            let value = value.filter(|value| value.nominal.as_si() > 0.0)?;
            let at = value.at.unwrap_or(RelativeHumidity::from_fraction(usual));
            Some((at, value.nominal.as_si() / mid))
        })
        .collect();
    factors.sort_by(|a, b| a.0.as_fraction().total_cmp(&b.0.as_fraction()));
    factors.dedup_by(|a, b| a.0 == b.0);
    factors
}

fn stated_vapor(
    permeance: Option<&At<Permeance>>,
    permeability: Option<&At<Permeability>>,
) -> Option<VaporRate> {
    let sheet = permeance.map(|at| VaporRate::PerSheet(at.value));
    sheet.or(permeability.map(|at| VaporRate::PerThickness(at.value)))
}

/// A substance given by numbers alone.
pub(super) fn by_numbers(text: &LayerText, problems: &mut Problems) -> Option<Substance> {
    let vapor = stated_vapor(text.permeance.as_ref(), text.permeability.as_ref());
    let has_heat = text.r_value.is_some() || text.conductivity.is_some();
    let kind = text
        .kind
        .as_ref()
        .map(|word| crate::material::one_of(word, &Kind::WORDS, "kind", problems));
    let (Some(vapor), true) = (vapor, has_heat) else {
        if !text.complete {
            return None;
        }
        let message = format!("layer `{}` has no material", text.name.value.0);
        let label = "expected `material:`, `air:`, or both `r-value:` and `permeance:`";
        problems.push(Problem::at(text.name.span, message).expected(label));
        return None;
    };
    let kind = match kind {
        Some(kind) => Some(kind?),
        None => None,
    };
    Some(Substance {
        label: text.name.value.0.clone(),
        kind,
        board: None,
        air_permeable: kind == Some(Kind::Insulation),
        conductivity: text.conductivity.as_ref().map(|at| at.value),
        by_temperature: Vec::<(_, Conductivity)>::new(),
        conductivity_spread: Spread::NONE,
        vapor,
        by_humidity: Vec::new(),
        vapor_spread: Spread::NONE,
        own_thickness: None,
        density: None,
        areal_density: None,
        mold: kind
            .and_then(|kind| MoldOn::of_kind(kind, None))
            .map(|mold| (mold.class, mold.decline)),
        prices: Vec::new(),
        sources: vec![format!("resistance and vapor: {}", Substance::GIVEN)],
    })
}
