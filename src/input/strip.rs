//! Resolving strips: their metal, their share of the deck, and what lies over them.

use std::sync::Arc;

use super::layer::{self, bare, by_gauge, material, missing_name};
use super::schema::StripText;
use super::substance::substance;
use crate::document::Problems;
use crate::error::Problem;
use crate::material::{Kind, Library, Material, one_of};
use crate::model::{Strip, StripPlace};
use crate::quantity::{Length, Share};

/// A strip, if everything it needs is there.
pub(super) fn strip(
    text: &StripText,
    layers: &[&str],
    library: &Library,
    problems: &mut Problems,
) -> Option<Strip> {
    let places = [
        ("edge", StripPlace::Edge),
        ("mid-floor", StripPlace::MidFloor),
    ];
    let at = match &text.at {
        None => Some(StripPlace::Edge),
        Some(word) => one_of(word, &places, "place of a strip", problems),
    };
    let metal = material(&text.metal, library, problems);
    let over: Vec<_> = text
        .over
        .iter()
        .flatten()
        .map(|over| layer::layer(over, library, problems))
        .collect();
    let under = layers.iter().position(|name| *name == text.under.value.0);
    if under.is_none() {
        problems.push(missing_name("layer", &text.under, layers.iter().copied()));
    }
    // Everything is looked at before the first thing missing ends it: all problems at once.
    let share = share(text, problems);
    let metal = metal.and_then(|metal| a_metal(metal, text, problems));
    let thickness = metal
        .as_ref()
        .and_then(|metal| thickness(text, metal, problems));
    Some(Strip {
        name: text.name.value.0.clone(),
        at: at?,
        metal: Arc::new(substance(&metal?, &bare(&text.metal))),
        thickness: thickness?,
        width: text.width.as_ref()?.value,
        share: share?,
        under: under?,
        over: over.into_iter().collect::<Option<Vec<_>>>()?,
    })
}

/// The share of the deck from which metal is no band in it but a layer of it.
pub(super) const MOST_OF_DECK: f64 = 0.999;

fn share(text: &StripText, problems: &mut Problems) -> Option<Share> {
    let (width, across) = (text.width.as_ref()?, text.across.as_ref()?);
    let count = text.count.as_ref().map_or(1.0, |at| f64::from(at.value));
    let share = width.value.as_m() * count / across.value.as_m();
    if share > MOST_OF_DECK {
        let name = &text.name.value.0;
        let message = match count {
            1.0 => format!("strip `{name}` is as wide as the deck, or wider"),
            _ => format!("{count} strips `{name}` together are as wide as the deck, or wider"),
        };
        let label = "expected width × count of less than `across`";
        let help = "metal over the whole deck is a layer: put it among `layers:`";
        problems.push(Problem::at(width.span, message).expected(label).help(help));
        return None;
    }
    Some(Share::from_fraction(share))
}

fn a_metal(material: Material, text: &StripText, problems: &mut Problems) -> Option<Material> {
    if material.kind == Kind::Metal {
        return Some(material);
    }
    let message = format!("`{}` isn't a metal", text.metal.value.0);
    let label = "expected a metal such as `carbon steel`";
    problems.push(Problem::at(text.metal.span, message).expected(label));
    None
}

fn thickness(text: &StripText, metal: &Material, problems: &mut Problems) -> Option<Length> {
    let at = text.thickness.as_ref()?;
    by_gauge(at, Some(metal), problems)
}
