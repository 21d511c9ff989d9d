//! What a plan reviewer will ask for, as the library lists it for the packet.

use dewmargin::check::Verdict;
use dewmargin::check::plan_review::{Paper, plan_review};
use dewmargin::input::{read_project, resolve_text};
use dewmargin::report::plan_review as shown;
use dewmargin::study::Study;

use crate::support::repository;

fn listed(text: &str) -> String {
    let project = resolve_text("cabin.yaml", text).expect("a project");
    shown::text(&plan_review(&project, &Paper::ANY)).set(100)
}

/// A wall whose file says as little as it can.
const BARE: &str = "
indoor: {heating: 68 F, humidity: 50 %}
outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, r-value: R-1, permeance: 30 perm}
      - {name: board, r-value: R-5, permeance: 1 perm}
";

#[test]
fn a_bare_file_is_asked_for_everything() {
    let expected = "\
A plan reviewer will ask for
  - title: sheets of one application are told by it. Write `title:` under `project:`.
  - address: applications are filed by the site. Write `address:` under `project:`.
  - owner: the application names the owner, and so do its sheets. Write `owner:` under `project:`.
  - designer: someone must answer questions about the sheets. Write `designer:` under `project:`.
  - date: a sheet without a date can't be told from an older one. Write `date:` under `project:`.
  - revision: corrections are checked against the revision before. Write `revision:` under
  `project:`.
  - code basis: plans are reviewed against the code they name. Write `code-basis:` under `project:`.
  - code edition: the prescriptive tables differ by edition. Write `edition:` under `code:`, such as
  `IRC 2018`.
  - climate zone: the prescriptive tables are entered by zone. Write `zone:` under `code:`, such as
  `4C`.
  - source of the climate: design conditions are compared with the site's. Write `source:` under
  `outdoor:`.
  - thickness (lining of wall, board of wall): the section is checked layer by layer. Write
  `thickness:` of the layer.
  - source of a value (lining of wall, board of wall): a stated R-value or permeance, and so the
  vapor class, needs the product's data. Write the values under `materials:`, each with its
  `source:`, such as a data sheet.
  This list changes no verdict. What offices ask for differs: yours may ask for more.
";
    assert_eq!(listed(BARE), expected);
}

#[test]
fn many_places_are_counted_not_listed() {
    let layers: Vec<String> = (1..=9)
        .map(|n| format!("{{name: layer {n}, r-value: R-1, permeance: 30 perm}}"))
        .collect();
    let text = BARE.split("    layers:").next().expect("the beginning");
    let list = listed(&format!("{text}    layers: [{}]", layers.join(", ")));
    assert!(list.contains("layer 6 of wall and 3 more)"), "{list}");
}

#[test]
fn the_whole_cabin_lacks_only_a_real_climate() {
    let project = read_project(&repository().join("examples/cabin.yaml")).expect("a project");
    let rows = shown::rows(&plan_review(&project, &Paper::ANY));
    let what: Vec<String> = rows.iter().map(shown::Row::what).collect();
    let stops = "wet-coast, cold-continental, hot-humid";
    assert_eq!(what, [format!("source of the climate ({stops})")]);
}

/// What the head of the example says of itself.
#[test]
fn the_whole_cabin_fails_nowhere_and_is_not_all_clear() {
    let project = read_project(&repository().join("examples/cabin.yaml")).expect("a project");
    let judged = Study::of(&project).assemblies;
    let words = |verdicts: Vec<&Verdict>| -> Vec<&str> {
        verdicts.iter().map(|one| one.status.word()).collect()
    };
    let at_stops: Vec<_> = judged
        .iter()
        .map(|one| words(one.route().iter().map(|at| &at.verdict).collect()))
        .collect();
    assert_eq!(
        at_stops,
        [
            ["pass", "pass", "pass"],
            ["depends", "depends", "depends"],
            ["pass", "depends", "pass"],
        ]
    );
    let details = Study::of(&project).details;
    assert_eq!(
        words(details.iter().map(|one| &one.verdict).collect()),
        ["depends", "pass"],
        "the floor's edge, and the roof's that is drawn without being asked"
    );
}

#[test]
fn no_verdict_hangs_on_the_title_block() {
    let text = std::fs::read_to_string(repository().join("examples/cabin-wall.yaml"));
    let text = text.expect("the example");
    let bare = text.replace(
        "project: {title: Fern Hollow cabin, sheet-prefix: A-5}\n",
        "",
    );
    assert_ne!(bare, text);
    let verdicts = |text: &str| {
        let project = resolve_text("cabin.yaml", text).expect("a project");
        let assemblies = Study::of(&project)
            .assemblies
            .into_iter()
            .map(|one| one.verdict);
        let assemblies: Vec<_> = assemblies.collect();
        let details = Study::of(&project)
            .details
            .into_iter()
            .map(|one| one.verdict);
        (assemblies, details.collect::<Vec<_>>())
    };
    assert_eq!(verdicts(&text), verdicts(&bare));
}
