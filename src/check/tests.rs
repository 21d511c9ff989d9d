//! Walls and roofs for the tests of the table checks.

use crate::input::resolve_text;
use crate::model::{Case, Code, Edition, Zone};
use crate::solve::{AssemblyResult, solve};

/// A case of a kind from its layers in YAML, each on a line of its own, solved at 68 °F and 50 %
/// inside, 32 °F and 80 % outside.
pub(crate) fn solved(kind: &str, layers: &[&str]) -> (Case, AssemblyResult) {
    solved_in(kind, layers, "68 F", "32 F", "{}")
}

pub(crate) fn solved_in(
    kind: &str,
    layers: &[&str],
    indoor: &str,
    outdoor: &str,
    films: &str,
) -> (Case, AssemblyResult) {
    let layers: String = layers.iter().map(|l| format!("      - {l}\n")).collect();
    let text = format!(
        "indoor: {{heating: {indoor}, humidity: 50 %}}\n\
         outdoor: {{winter-mean: {{temperature: {outdoor}, humidity: 80 %}}}}\n\
         assemblies:\n  subject:\n    kind: {kind}\n    films: {films}\n    layers:\n{layers}"
    );
    let project = match resolve_text("test.yaml", &text) {
        Ok(project) => project,
        Err(error) => panic!("{error}"),
    };
    let case = project.cases[0].clone();
    let result = solve(&case.assembly, &project.stops[0].conditions);
    (case, result)
}

/// `2018 6A`, `2021 marine 4`, or with a `-` for what isn't stated.
pub(crate) fn code(text: &str) -> Code {
    let (edition, zone) = text.split_once(' ').expect("an edition and a zone");
    let edition = match edition {
        "2009" => Some(Edition::Irc2009),
        "2018" => Some(Edition::Irc2012To2018),
        "2021" => Some(Edition::Irc2021),
        _ => None,
    };
    let number = |text: &str| text[..1].parse().ok();
    let zone = match zone.strip_prefix("marine ") {
        Some(rest) => number(rest).map(|number| Zone {
            number,
            marine: true,
            moist: None,
        }),
        None => number(zone).map(|number| Zone {
            number,
            marine: false,
            moist: zone.chars().nth(1),
        }),
    };
    Code {
        asked: true,
        edition,
        zone,
    }
}
