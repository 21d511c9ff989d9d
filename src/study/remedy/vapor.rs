//! Wetting by diffusion and drying: a retarder, a layer that lets more vapor through, drier air.

use super::Measure;
use super::ground::Ground;
use crate::check::range::{FlipValue, Input};
use crate::check::{Detail, Finding};
use crate::model::{Content, Kind, Layer, LayerPlace, PropertyKind, Substance, VaporRate};
use crate::quantity::Permeance;

/// A layer whose permeance decides is opened a little beyond where the verdict changes.
const BEYOND: f64 = 1.05;
/// Where no permeance changes the verdict, one is doubled.
const TWICE: f64 = 2.0;
/// A layer beyond that lets less than this share through makes opening one pointless.
const TIGHTER: f64 = 0.1;
/// Class I ends at 0.1 perm; just beyond, kg/(s·m²·Pa).
const CLASS_TWO: f64 = 0.105 * crate::quantity::unit::PERM;

/// Water from the room is kept out by a retarder, water from outdoors leaves through an open layer:
/// both are tried.
pub(super) fn wetting(ground: &Ground<'_>) -> Vec<Measure> {
    let mut all = retarders(ground);
    all.extend(opened(ground));
    let found = ground.best(all);
    let clears = found.as_ref().is_some_and(|found| ground.clears(found));
    let drier = match clears {
        true => None,
        false => ground.drier(),
    };
    found.into_iter().chain(drier).collect()
}

/// The layer in the way.
pub(super) fn drying(ground: &Ground<'_>) -> Vec<Measure> {
    let all = opened(ground);
    ground.best(all).into_iter().collect()
}

/// One of the two barriers gives way: a film inside that opens when humid, else over class I.
pub(super) fn barriers(ground: &Ground<'_>) -> Vec<Measure> {
    let Detail::DoubleBarrier(inner, outer) = &ground.finding.detail else {
        return Vec::new();
    };
    let assembly = ground.name();
    let film = ground.project.stock.retarders.get(1);
    let is_film = |layer: &&Layer| layer.name == *inner && kind(layer) == Some(Kind::Membrane);
    let inside = ground.assembly().layers.iter().find(is_film);
    let swapped = film.zip(inside).map(|(film, _)| Measure::Retarder {
        assembly: assembly.clone(),
        layer: inner.clone(),
        replaces: true,
        substance: Box::new(film.clone()),
    });
    let opened = [inner, outer].map(|layer| Measure::Open {
        assembly: assembly.clone(),
        layer: layer.clone(),
        permeance: Permeance::from_si(CLASS_TWO),
    });
    let all = swapped.into_iter().chain(opened).collect();
    ground.best(all).into_iter().collect()
}

/// A drain in the pan.
pub(super) fn pan(ground: &Ground<'_>) -> Vec<Measure> {
    let layer = ground.assembly().layers.last();
    let drain = layer.map(|layer| Measure::Drain {
        assembly: ground.name(),
        layer: layer.name.clone(),
    });
    drain.into_iter().collect()
}

fn kind(layer: &Layer) -> Option<Kind> {
    match &layer.content {
        Content::Solid(substance) => substance.kind,
        Content::Air(_) => None,
    }
}

/// Retarders inside of the frame, over a strip above the deck, in the place of one that is there.
pub(super) fn retarders(ground: &Ground<'_>) -> Vec<Measure> {
    let assembly = ground.assembly();
    let layers = &assembly.layers;
    let open = |layer: &Layer| {
        let permeable =
            matches!(&layer.content, Content::Solid(substance) if substance.air_permeable);
        permeable || layer.framing.is_some()
    };
    let strip = ground.finding.strip.as_ref();
    let strip = assembly.strips.iter().find(|one| Some(&one.name) == strip);
    let inside_of = match strip {
        Some(strip) => Some(strip.under),
        None => layers.iter().position(open),
    };
    let Some(n) = inside_of else {
        return Vec::new();
    };
    let there = layers[..n]
        .iter()
        .position(|layer| kind(layer) == Some(Kind::Membrane));
    let measure = |substance: &Substance| {
        let same = |n: usize| match &layers[n].content {
            Content::Solid(one) => one.label == substance.label,
            Content::Air(_) => false,
        };
        (!there.is_some_and(same)).then(|| Measure::Retarder {
            assembly: assembly.name.clone(),
            layer: layers[there.unwrap_or(n)].name.clone(),
            replaces: there.is_some(),
            substance: Box::new(substance.clone()),
        })
    };
    let all = ground.project.stock.retarders.iter();
    all.filter_map(measure).collect()
}

/// Layers opened: to where the finding's own range says that the verdict changes, else twice as open.
fn opened(ground: &Ground<'_>) -> Vec<Measure> {
    let assembly = ground.assembly();
    let finding: &Finding = ground.finding;
    let movers = finding.range.iter().flat_map(|range| &range.movers);
    let severity = finding.status.severity();
    let of_range = movers.filter_map(|mover| {
        let Input::Permeance(layer) = &mover.input else {
            return None;
        };
        let flip = mover
            .flip
            .filter(|flip| flip.above && flip.becomes.severity() < severity)?;
        let FlipValue::Permeance(at) = flip.at else {
            return None;
        };
        Some((layer.clone(), at.as_si() * BEYOND))
    });
    let properties = assembly.properties().into_iter();
    let vapor = properties.filter(|one| one.kind == PropertyKind::Vapor);
    let doubled = vapor.filter_map(|property| {
        let value = assembly.layer_value(&property)?;
        Some((assembly.part_name(&property), value * TWICE))
    });
    // What members let through isn't anyone's choice, nor what a metal does.
    let is_layer = |(name, _): &(String, f64)| {
        let layer = assembly.place_of(name).and_then(|at| assembly.layer_at(at));
        layer.is_some_and(|layer| kind(layer) != Some(Kind::Metal))
    };
    let all = of_range.chain(doubled).filter(is_layer);
    let all = all.filter(|(name, _)| is_way_out(ground, name));
    let measure = |(layer, permeance): (String, f64)| Measure::Open {
        assembly: assembly.name.clone(),
        layer,
        permeance: Permeance::from_si(permeance),
    };
    all.map(measure).collect()
}

/// Whether what passes a layer gets on: no layer beyond it, on its side of the wet place, is ten times
/// as tight.
fn is_way_out(ground: &Ground<'_>, name: &str) -> bool {
    let assembly = ground.assembly();
    let Some(LayerPlace::Layer(n)) = assembly.place_of(name) else {
        return true;
    };
    let plane = ground
        .finding
        .place
        .as_ref()
        .map(|place| place.plane.as_str());
    let inner = plane.and_then(|plane| plane.split(" / ").next());
    let inner = inner.map(|inner| inner.trim_start_matches("inside "));
    let wet = assembly
        .layers
        .iter()
        .position(|layer| Some(layer.name.as_str()) == inner);
    let permeance = |n: usize| {
        let layer = assembly.layers.get(n)?;
        let Content::Solid(substance) = &layer.content else {
            return None;
        };
        Some(match substance.vapor {
            VaporRate::PerSheet(permeance) => permeance.as_si(),
            VaporRate::PerThickness(rate) => rate.as_si() / layer.thickness.as_m(),
        })
    };
    let is_inside = wet.is_some_and(|wet| n <= wet);
    let gap = assembly.layers.iter().position(Layer::is_open_air);
    let last = gap.unwrap_or(assembly.layers.len());
    let beyond = if is_inside { 0..n } else { n + 1..last };
    let own = permeance(n).unwrap_or(0.0);
    let mut others = beyond.filter_map(permeance);
    others.all(|other| other > TIGHTER * own)
}
