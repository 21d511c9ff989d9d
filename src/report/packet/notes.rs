//! The chapter of what holds for every sheet: how to read them, methods, limits, materials, sources.

use super::content::{Chapter, Group, Item};
use super::words::{self, Sources};
use super::{Calculations, Contents, calculation, materials};
use crate::check;
use crate::quantity::Style;
use crate::report::figure::assemblies_of;
use crate::report::house::words::CAUTIONS;
use crate::report::summary;

/// The chapter.
pub(super) fn chapter<'a>(contents: &Contents<'a>, sources: &Sources, style: Style) -> Chapter<'a> {
    let mut groups = vec![
        basis(contents, style),
        read(contents.calculations),
        cautions(contents),
        words::methods(contents),
    ];
    groups.extend(sources.group());
    groups.extend(materials::groups(contents.judged, style));
    Chapter {
        name: "Notes and materials".to_owned(),
        title: "Notes and materials".to_owned(),
        word: None,
        face: String::new(),
        facts: Vec::new(),
        stop: None,
        groups,
    }
}

/// The climates, the air on both sides, the code as stated.
fn basis<'a>(contents: &Contents<'_>, style: Style) -> Group<'a> {
    let project = contents.project;
    let mut lines = summary::stop_sentences(&project.stops, style);
    let code = project.title_data.code_basis.trim_end_matches('.');
    lines.push(match code.is_empty() {
        true => "No code basis is stated.".to_owned(),
        false => format!("Code basis as stated: {code}."),
    });
    Group::narrow("Basis", lines.into_iter().map(Item::Text).collect())
}

/// The cautions of all that is shown, each once.
fn cautions<'a>(contents: &Contents<'_>) -> Group<'a> {
    let project = contents.project;
    let assemblies = contents.judged.iter().map(|one| &one.case.assembly);
    let details = contents.details.iter();
    let details = details.flat_map(|one| assemblies_of(project, one));
    let mut told = check::cautions(assemblies.chain(details), &project.stops);
    let of_house = contents.house.iter().flat_map(|_| CAUTIONS);
    for words in of_house {
        if !told.contains(&words) {
            told.push(words);
        }
    }
    let items = told.into_iter().map(|words| Item::Text(words.to_owned()));
    Group::narrow("Cautions", items.collect())
}

/// What the words mean, how the calculations are read, and what isn't said.
fn read<'a>(calculations: Calculations) -> Group<'a> {
    let by_hand = (calculations != Calculations::None).then_some(calculation::HOW);
    let items = WORDS.into_iter().chain(by_hand);
    let items = items.map(|words| Item::Text(words.to_owned()));
    Group::narrow("How to read the sheets", items.collect())
}

const WORDS: [&str; 3] = [
    "`pass`: clear of its limit, and where the check hangs on the materials at both ends of their ranges \
     too. `depends`: it hangs on what is said beside it: material (it flips within the range of the \
     materials' data), a cold spell (the coldest month or the design night alone), tightness, the \
     drawing, what isn't looked at, tolerance, or the code's edition. `fail`: over its limit.",
    "Numbers in square brackets are those of the limits listed here. `from memory`: the value wasn't \
     looked up and has to be before it is relied on.",
    "These sheets report what was computed. They state no compliance with any code: the authority \
     having jurisdiction decides that.",
];
