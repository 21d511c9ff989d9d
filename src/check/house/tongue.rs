//! The tongue's share of house and trailer.

use super::{HouseCheck, HouseFinding};
use crate::check::Status;
use crate::quantity::{Style, fixed, percent};
use crate::solve::house::Weight;

/// The tongue's share of the weight.
pub static TONGUE: HouseCheck = HouseCheck {
    id: "tongue-share",
    title: "tongue",
    unit: "share",
    print: |share, _| format!("{} %", fixed(share * 100.0, 1)),
    run: |scene| judged(scene.weight),
    say,
};

fn judged(weight: &Weight) -> Option<HouseFinding> {
    let tongue = weight.tongue.as_ref()?;
    Some(HouseFinding {
        check: &TONGUE,
        status: Status::Note,
        value: Some(tongue.share),
        limit: None,
        shaves: Vec::new(),
        missing: tongue.at_centroid.clone(),
        source: "10 to 15 % is common practice; the maker of trailer and hitch says what they take",
    })
}

fn say(finding: &HouseFinding, _: Style) -> String {
    let share = finding.value.unwrap_or_default();
    let text = match share < 0.0 {
        true => format!(
            "The load lifts the coupler: {} on the tongue",
            percent(share)
        ),
        false => format!("{} of house and trailer on the tongue", percent(share)),
    };
    text + "; 10 to 15 % is common practice."
}
