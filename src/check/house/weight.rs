//! Dry weight against the rating.

use super::{HouseCheck, HouseFinding, ROUNDING, Scene};
use crate::check::Status;
use crate::quantity::{Mass, Style};

/// Dry weight.
pub static WEIGHT: HouseCheck = HouseCheck {
    id: "dry-weight",
    title: "weight",
    unit: "kg",
    print,
    run: |scene| Some(judged(scene)),
    say,
};

fn print(kg: f64, style: Style) -> String {
    style.show(Mass::from_kg(kg))
}

fn judged(scene: &Scene<'_>) -> HouseFinding {
    let (house, weight) = (scene.case.house, scene.weight);
    let rated = house.trailer.rating.is_some();
    let over = weight
        .capacity
        .is_some_and(|capacity| weight.house > capacity + ROUNDING);
    let mut missing = weight.unknown.clone();
    if rated && weight.trailer.is_none() {
        missing.push("the trailer's own `weight:`".into());
    }
    let status = match (rated, weight.capacity) {
        (false, _) => Status::Note,
        (true, _) if over => Status::Fail,
        (true, Some(_)) if missing.is_empty() => Status::Pass,
        (true, _) => Status::Unknown,
    };
    HouseFinding {
        check: &WEIGHT,
        status,
        value: Some(weight.house),
        limit: weight.capacity,
        shaves: Vec::new(),
        missing,
        source: match rated {
            true => "the trailer's rating less its own weight, as the file states them",
            false => "no rating stated",
        },
    }
}

fn say(finding: &HouseFinding, style: Style) -> String {
    let print = |kg: f64| print(kg, style);
    let least = if finding.missing.is_empty() {
        ""
    } else {
        "at least "
    };
    let value = finding.value.map_or_else(String::new, print);
    let mut text = match (finding.limit, finding.slack()) {
        (Some(limit), Some(slack)) if slack < 0.0 => format!(
            "Dry weight {least}{value}, {} over the {} that the rating leaves beside the trailer.",
            print(-slack),
            print(limit)
        ),
        (Some(limit), Some(slack)) => format!(
            "Dry weight {least}{value}; the rating leaves {} beside the trailer, so {} for \
             furniture, water and people, which aren't counted.",
            print(limit),
            print(slack)
        ),
        _ => format!("Dry weight {least}{value}; {}.", finding.source),
    };
    if !finding.missing.is_empty() {
        text += &format!(" Not known: {}.", finding.missing.join("; "));
    }
    text
}
