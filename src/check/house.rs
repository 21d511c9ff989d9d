//! # The house on the road
//!
//! **What it checks.** Overall width, height and length against the limits the file states; the
//! dry weight against the trailer's rating less its own weight; the share on the tongue.
//!
//! **Why it matters.** Foam, rain screens and siding stand outside of the framing and add up on
//! both sides; a proud frame lifts the house.
//!
//! **Method.** The sums of [`crate::solve::house`]. Where one is over its limit, the help names what
//! could give way: whatever reaches beyond the siding, else the thickest solid layer that is thick
//! enough, else the deck or the walls themselves.
//!
//! **Limit.** Only what the file states. Road limits are state law: without one there is nothing to
//! judge, and a note tells what is common. A tongue share of 10 to 15 % is common practice and isn't
//! judged.
//!
//! **When it does not apply.** Furniture, water and people aren't counted; what isn't known of a
//! weight makes it `unknown`, or `fail` where the known part alone is too heavy.
//!
//! **Example.** A 96 in deck with 1/2 in sheathing, 3/4 in gap and 5/8 in siding each side is
//! 99-3/4 in wide: pass where 102 in are stated, a note where nothing is.

use super::{Status, worst};
use crate::model::house::{House, HouseCase};
use crate::model::{Content, Layer};
use crate::quantity::Length;
use crate::solve::house::{Fit, HouseResult, Measure, Term, TermKind, Weight};

/// Sums of this many terms in meters are equal within it, m or kg.
const ROUNDING: f64 = 1e-6;

/// What is held against a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HouseCheck {
    /// Overall width.
    Width,
    /// Overall height.
    Height,
    /// Overall length, tongue included.
    Length,
    /// Dry weight.
    Weight,
    /// The tongue's share of it.
    Tongue,
}

impl HouseCheck {
    /// The stable id used in JSON.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Width => "overall-width",
            Self::Height => "overall-height",
            Self::Length => "overall-length",
            Self::Weight => "dry-weight",
            Self::Tongue => "tongue-share",
        }
    }

    /// What it is called in reports.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Width => "width",
            Self::Height => "height",
            Self::Length => "length",
            Self::Weight => "weight",
            Self::Tongue => "tongue",
        }
    }
}

/// What could give way, and by how much.
#[derive(Clone, Debug, PartialEq)]
pub struct Shave {
    /// Its name, such as `siding` or `the deck`.
    pub what: String,
    /// The assembly it is a layer of.
    pub assembly: Option<String>,
    /// Whether both sides give way, each by that much.
    pub each_side: bool,
    /// By how much.
    pub by: Length,
    /// What is left of it; `None` where that says nothing.
    pub leaves: Option<Length>,
}

/// One check of the house.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseFinding {
    /// Which.
    pub check: HouseCheck,
    /// How it came out.
    pub status: Status,
    /// The value, m or kg; of the tongue its share. `None`: not known.
    pub value: Option<f64>,
    /// The stated limit, in the same unit.
    pub limit: Option<f64>,
    /// What could give way, the least first.
    pub shaves: Vec<Shave>,
    /// What isn't known and would be needed.
    pub missing: Vec<String>,
    /// Where the limit comes from.
    pub source: &'static str,
}

impl HouseFinding {
    /// How far the value keeps below its limit, in its unit.
    #[must_use]
    pub fn slack(&self) -> Option<f64> {
        Some(self.limit? - self.value?)
    }
}

/// The findings of a house and what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseVerdict {
    /// The worst status.
    pub status: Status,
    /// Width, height, length, weight, tongue.
    pub findings: Vec<HouseFinding>,
}

/// Judges a house.
#[must_use]
pub fn judge_house(case: &HouseCase<'_>, result: &HouseResult) -> HouseVerdict {
    judge_on_road(case, &result.fit, &result.weight)
}

/// The same from measures and weight alone: heat has no limit.
#[must_use]
pub fn judge_on_road(case: &HouseCase<'_>, fit: &Fit, weighed: &Weight) -> HouseVerdict {
    let house = case.house;
    let mut findings = Vec::new();
    if house.shell.is_some() {
        findings.extend(measures(case, house, fit));
    }
    findings.push(weight(house, weighed));
    findings.extend(tongue(weighed));
    HouseVerdict {
        status: worst(findings.iter().map(|finding| finding.status)),
        findings,
    }
}

const STATED: &str = "limit stated in the file; road limits are state law";
const NO_WIDTH: &str = "no limit stated: 8 ft 6 in is common practice, state law governs";
const NO_HEIGHT: &str = "no limit stated: 13 ft 6 in is common practice, state law governs";
const NO_LENGTH: &str = "no limit stated: state law governs";

fn measures(case: &HouseCase<'_>, house: &House, fit: &Fit) -> Vec<HouseFinding> {
    let road = &house.road;
    let of = |check, measure: Option<&Measure>, limit: Option<Length>, without| {
        let value = measure.map(|measure| measure.total().as_m());
        let limit = limit.map(Length::as_m);
        let over = value.zip(limit).map(|(value, limit)| value - limit);
        let status = match (limit, over) {
            (None, _) => Status::Note,
            (Some(_), None) => Status::Unknown,
            (Some(_), Some(over)) if over > ROUNDING => Status::Fail,
            _ => Status::Pass,
        };
        let missing = match (status, check) {
            (Status::Unknown, HouseCheck::Height) if fit.width.is_some() => {
                "`deck-height:` of the trailer"
            }
            (Status::Unknown, _) => {
                "the layer the measures start from, which this variant takes away"
            }
            _ => "",
        };
        HouseFinding {
            check,
            status,
            value,
            limit,
            shaves: match (status, measure, over) {
                (Status::Fail, Some(measure), Some(over)) => shaves(case, check, measure, over),
                _ => Vec::new(),
            },
            missing: Some(missing)
                .filter(|text| !text.is_empty())
                .map(str::to_owned)
                .into_iter()
                .collect(),
            source: if limit.is_some() { STATED } else { without },
        }
    };
    let mut findings = vec![
        of(HouseCheck::Width, fit.width.as_ref(), road.width, NO_WIDTH),
        of(
            HouseCheck::Height,
            fit.height.as_ref(),
            road.height,
            NO_HEIGHT,
        ),
    ];
    if road.length.is_some() {
        findings.push(of(
            HouseCheck::Length,
            fit.length.as_ref(),
            road.length,
            NO_LENGTH,
        ));
    }
    findings
}

/// What could give way: first what costs nothing inside, last what the house stands on.
fn shaves(case: &HouseCase<'_>, check: HouseCheck, measure: &Measure, over: f64) -> Vec<Shave> {
    let mut found: Vec<Shave> = beyond(measure, over).into_iter().collect();
    if found.is_empty() {
        found.extend(thickest(case, measure, over));
    }
    let (what, kind) = match check {
        HouseCheck::Height => ("the walls, and with them head room", TermKind::WallHeight),
        _ => ("the deck", TermKind::Deck),
    };
    let term = measure.terms.iter().find(|term| term.kind == kind);
    found.extend(term.filter(|term| term.value > over).map(|term| Shave {
        what: what.into(),
        assembly: None,
        each_side: false,
        by: Length::from_m(over),
        leaves: Some(Length::from_m(term.value - over)),
    }));
    found
}

/// Whatever reaches beyond the siding, or stands above the roof.
fn beyond(measure: &Measure, over: f64) -> Option<Shave> {
    let is_beyond = |term: &&Term| {
        matches!(
            term.kind,
            TermKind::Overhang(_) | TermKind::Trim(_) | TermKind::StandsAbove
        )
    };
    let terms: Vec<&Term> = measure.terms.iter().filter(is_beyond).collect();
    let least = terms
        .iter()
        .map(|term| term.value)
        .fold(f64::INFINITY, f64::min);
    let by = over / terms.len().max(1) as f64;
    let first = terms.first().filter(|_| least > by)?;
    let what = match first.kind {
        TermKind::Overhang(_) => "the overhang",
        TermKind::Trim(_) => "trim and fasteners",
        _ => "what stands above the roof",
    };
    Some(Shave {
        what: what.into(),
        assembly: None,
        each_side: terms.len() > 1,
        by: Length::from_m(by),
        leaves: (terms.len() == 1
            || terms
                .iter()
                .all(|term| (term.value - least).abs() < ROUNDING))
        .then(|| Length::from_m(least - by)),
    })
}

/// The thickest solid layer that is thick enough alone, a gap where none is; members keep theirs.
fn thickest(case: &HouseCase<'_>, measure: &Measure, over: f64) -> Option<Shave> {
    let mut best: Option<(bool, f64, Shave)> = None;
    for term in &measure.terms {
        let is_outer = matches!(term.kind, TermKind::WallLayer(_) | TermKind::RoofLayer);
        let Some((assembly, layer)) = term.layer.as_ref().filter(|_| is_outer) else {
            continue;
        };
        let Some(found) = find(case, assembly, layer).filter(|found| found.framing.is_none())
        else {
            continue;
        };
        let same = measure
            .terms
            .iter()
            .filter(|other| other.layer == term.layer)
            .count();
        // Measured square to a roof's slope.
        let stretch = term.square.map_or(1.0, |square| term.value / square);
        let by = over / same as f64 / stretch;
        let thickness = found.thickness.as_m();
        let solid = matches!(found.content, Content::Solid(_));
        let better = best
            .as_ref()
            .is_none_or(|(is_solid, most, _)| (solid, thickness) > (*is_solid, *most));
        if by < thickness && better {
            let shave = Shave {
                what: layer.clone(),
                assembly: Some(assembly.clone()),
                each_side: same > 1,
                by: Length::from_m(by),
                leaves: Some(Length::from_m(thickness - by)),
            };
            best = Some((solid, thickness, shave));
        }
    }
    best.map(|(_, _, shave)| shave)
}

fn find<'a>(case: &HouseCase<'a>, assembly: &str, layer: &str) -> Option<&'a Layer> {
    let mut layers = case.assembly(assembly)?.layers.iter();
    layers.find(|one| one.name == layer)
}

fn weight(house: &House, weight: &Weight) -> HouseFinding {
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
        check: HouseCheck::Weight,
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

fn tongue(weight: &Weight) -> Option<HouseFinding> {
    let tongue = weight.tongue.as_ref()?;
    Some(HouseFinding {
        check: HouseCheck::Tongue,
        status: Status::Note,
        value: Some(tongue.share),
        limit: None,
        shaves: Vec::new(),
        missing: tongue.at_centroid.clone(),
        source: "10 to 15 % is common practice; the maker of trailer and hitch says what they take",
    })
}
