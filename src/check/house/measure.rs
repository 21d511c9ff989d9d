//! Width, height and length.

use super::shave::{help, shaves};
use super::{HouseCheck, HouseFinding, ROUNDING, Scene, measured};
use crate::check::Status;
use crate::model::house::House;
use crate::quantity::{Length, Style};
use crate::solve::house::{Measure, TermKind};

/// Overall width.
pub static WIDTH: HouseCheck = HouseCheck {
    id: "overall-width",
    title: "width",
    unit: "m",
    print: measured,
    run: |scene| {
        let road = &shell(scene)?.road;
        let without = "no limit stated: 8 ft 6 in is common practice, state law governs";
        let measure = scene.fit.width.as_ref();
        Some(judged(&WIDTH, scene, (measure, road.width), DECK, without))
    },
    say: |finding, style| say(finding, "wide", style),
};

/// Overall height.
pub static HEIGHT: HouseCheck = HouseCheck {
    id: "overall-height",
    title: "height",
    unit: "m",
    print: measured,
    run: |scene| {
        let road = &shell(scene)?.road;
        let without = "no limit stated: 13 ft 6 in is common practice, state law governs";
        let measure = scene.fit.height.as_ref();
        let walls = ("the walls, and with them head room", TermKind::WallHeight);
        let mut found = judged(&HEIGHT, scene, (measure, road.height), walls, without);
        if found.status == Status::Unknown && scene.fit.width.is_some() {
            found.missing = vec!["`deck-height:` of the trailer".to_owned()];
        }
        Some(found)
    },
    say: |finding, style| say(finding, "high", style),
};

/// Overall length, tongue included; only where a limit is stated.
pub static LENGTH: HouseCheck = HouseCheck {
    id: "overall-length",
    title: "length",
    unit: "m",
    print: measured,
    run: |scene| {
        let limit = shell(scene)?.road.length?;
        let measure = scene.fit.length.as_ref();
        let without = "no limit stated: state law governs";
        Some(judged(
            &LENGTH,
            scene,
            (measure, Some(limit)),
            DECK,
            without,
        ))
    },
    say: |finding, style| say(finding, "long", style),
};

const STATED: &str = "limit stated in the file; road limits are state law";
const DECK: (&str, TermKind) = ("the deck", TermKind::Deck);

/// A house that has a shell to measure.
fn shell<'a>(scene: &Scene<'a>) -> Option<&'a House> {
    let house = scene.case.house;
    house.shell.as_ref().map(|_| house)
}

fn judged(
    check: &'static HouseCheck,
    scene: &Scene<'_>,
    (measure, limit): (Option<&Measure>, Option<Length>),
    gives_way_last: (&str, TermKind),
    without: &'static str,
) -> HouseFinding {
    let value = measure.map(|measure| measure.total().as_m());
    let limit = limit.map(Length::as_m);
    let over = value.zip(limit).map(|(value, limit)| value - limit);
    let status = match (limit, over) {
        (None, _) => Status::Note,
        (Some(_), None) => Status::Unknown,
        (Some(_), Some(over)) if over > ROUNDING => Status::Fail,
        _ => Status::Pass,
    };
    let missing = "the layer the measures start from, which this variant takes away";
    HouseFinding {
        check,
        status,
        value,
        limit,
        shaves: match (status, measure, over) {
            (Status::Fail, Some(measure), Some(over)) => {
                shaves(scene.case, gives_way_last, measure, over)
            }
            _ => Vec::new(),
        },
        missing: match status {
            Status::Unknown => vec![missing.to_owned()],
            _ => Vec::new(),
        },
        source: if limit.is_some() { STATED } else { without },
    }
}

fn say(finding: &HouseFinding, word: &str, style: Style) -> String {
    let print = |meters: f64| style.measure(Length::from_m(meters));
    let limit = finding.limit.map(print);
    let Some(value) = finding.value.map(print) else {
        let missing = finding.missing.join(", ");
        return match (limit, missing.is_empty()) {
            (Some(limit), false) => {
                format!("How {word} it is isn't known without {missing}; {limit} is stated.")
            }
            _ => format!("How {word} it is isn't known."),
        };
    };
    match (limit, finding.slack()) {
        (Some(limit), Some(slack)) if finding.status == Status::Fail => {
            let over = print(-slack);
            let help = help(&finding.shaves, style);
            format!("{value} {word}, {over} over the {limit} stated. {help}")
        }
        (Some(limit), Some(slack)) if slack.abs() < 1e-6 => {
            format!("{value} {word}, just the {limit} stated: nothing to spare.")
        }
        (Some(limit), Some(slack)) => {
            format!("{value} {word}, {} under the {limit} stated.", print(slack))
        }
        _ => format!("{value} {word}; {}.", finding.source),
    }
}
