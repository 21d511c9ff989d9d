//! What stands around the tables of a house in sentences, for a terminal and for the packet alike.

use crate::quantity::{Style, Volume, fixed, pitch_words};
use crate::study::JudgedHouse;

/// What the numbers leave out.
pub(in crate::report) const CAUTIONS: [&str; 4] = [
    "Measures are sums of what the file states: tolerances of building, a leaning trailer, tires and \
     springs aren't in them. Measure the finished house before it moves. Road limits, permits and \
     ratings are for the state and the maker to say.",
    "Weight counts layers, members, openings and allowances of the file. Plates and headers beyond the \
     framing share, fasteners, glue, furniture, water and people aren't counted. Densities are means of \
     handbooks: design loads for panels and gypsum board run up to a third higher. Weigh the house.",
    "Heat loss is through the skin alone: air that leaks or is exchanged on purpose, the sun and what \
     edges no detail or psi is given for are left out. It doesn't size a heater.",
    "Not structural. Local codes govern; licensed practice where it is required.",
];

/// Where psi of a detail isn't as precise as asked for.
pub(in crate::report) const UNSETTLED: &str =
    "A detail's error bars are wider than asked for: don't rely on its psi.";

/// What the measures leave out.
pub(in crate::report) fn membranes(one: &JudgedHouse<'_>) -> Option<String> {
    let fit = &one.result.fit;
    let width = fit.width.as_ref();
    width.map(|_| "Membranes under 1 mm take no room.".to_owned())
}

/// What the measures take as nothing.
pub(in crate::report) fn not_stated(one: &JudgedHouse<'_>) -> Option<String> {
    let names = &one.result.fit.not_stated;
    let words = || format!("Not stated and taken as nothing: {}.", names.join(", "));
    (!names.is_empty()).then(words)
}

/// Which areas are meant, the room's volume, the roof's slope.
pub(in crate::report) fn areas(one: &JudgedHouse<'_>, style: Style) -> Option<String> {
    let shell = one.case.house.shell.as_ref()?;
    let volume = style.show(Volume::from_m3(one.result.volume?));
    let pitch = shell.roof.form.pitch();
    let slope = match pitch.as_ratio() > 0.0 {
        true => format!(
            "; roof {}, × {}",
            pitch_words(pitch),
            fixed(pitch.stretch(), 4)
        ),
        false => String::new(),
    };
    Some(format!(
        "inside: between the inner faces, for heat, as psi is counted; framed: out to out of the \
         framing, for weight, corners twice; room {volume}{slope}"
    ))
}

/// What the trailer's own weight holds already.
pub(in crate::report) fn included(one: &JudgedHouse<'_>) -> Option<String> {
    let names = &one.case.house.trailer.includes;
    let words = || format!("Weighed with the trailer, not here: {}.", names.join(", "));
    (!names.is_empty()).then(words)
}

/// What the tongue's share takes at its middle.
pub(in crate::report) fn placed(one: &JudgedHouse<'_>) -> Option<String> {
    let tongue = one.result.weight.tongue.as_ref()?;
    let names = tongue.at_centroid.join(", ");
    let words = || {
        format!(
            "For the tongue's share taken at their middles, since their places aren't stated: {names}."
        )
    };
    (!names.is_empty()).then(words)
}
