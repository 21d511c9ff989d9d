//! The paths of an assembly that are judged together: cavity and framing, or one strip.
//!
//! Steel is told apart from what lies between it. A strip that a detail shows has the detail's
//! temperatures ([`crate::solve::shown`]), and its surfaces and wood are judged there. One that no
//! detail shows is a hand-check, which errs: against an independent two-dimensional code on 198
//! edges of this family it showed the wood up to 0.38 of the difference between room and outdoors
//! too warm where something lies over the strip, up to 0.05 where it is bare at a wall, and never
//! too warm in mid-floor. So it passes only by more than that.

use super::{On, Status, Times, When};
use crate::model::{Case, Conditions, Strip, StripPlace};
use crate::quantity::TemperatureDifference;
use crate::solve::{EndResult, PathKind, PathResult};

/// How much too warm a strip at an edge shows its wood, as a share of θ_i − θ_e, at most: with
/// something over it, and bare.
pub const TOO_WARM: [f64; 2] = [0.38, 0.05];

/// Paths that are judged together.
pub struct Group<'a> {
    /// The end of vented gaps they belong to.
    pub end: &'a EndResult,
    /// The paths, at least one.
    pub paths: Vec<&'a PathResult>,
    /// The strip, where it is one.
    pub strip: Option<&'a Strip>,
}

impl<'a> Group<'a> {
    /// The groups of an end: cavity and framing together, then each strip.
    #[must_use]
    pub fn all(case: &'a Case, end: &'a EndResult) -> Vec<Self> {
        let strip_of = |path: &PathResult| match path.path.kind {
            PathKind::Strip(n) => case.assembly.strips.get(n),
            _ => None,
        };
        let between: Vec<&PathResult> = end
            .paths
            .iter()
            .filter(|path| strip_of(path).is_none())
            .collect();
        let strips = end.paths.iter().filter_map(|path| {
            Some(Self {
                end,
                paths: vec![path],
                strip: Some(strip_of(path)?),
            })
        });
        let between = (!between.is_empty()).then_some(Self {
            end,
            paths: between,
            strip: None,
        });
        between.into_iter().chain(strips).collect()
    }

    /// Whether a detail shows it: then the detail speaks for its surfaces and its wood.
    #[must_use]
    pub fn is_shown(&self) -> bool {
        self.paths.iter().any(|path| path.by_strip.is_some())
    }

    /// Whether it is a strip that no detail shows.
    fn is_hand_check(&self) -> bool {
        self.strip.is_some() && !self.is_shown()
    }

    /// How much too warm its temperatures may be, as a share of θ_i − θ_e.
    #[must_use]
    pub fn too_warm(&self) -> f64 {
        self.strip
            .filter(|_| self.is_hand_check())
            .map_or(0.0, too_warm)
    }

    /// A status of its margins, as far as a hand-check can give it: what passes by less than its
    /// error depends on the drawing.
    pub(super) fn bounded(
        &self,
        (status, on): (Status, Option<On>),
        margins: impl IntoIterator<Item = (TemperatureDifference, TemperatureDifference)>,
    ) -> (Status, Option<On>) {
        let share = self.too_warm();
        let mut margins = margins.into_iter();
        let within = |(margin, span): (TemperatureDifference, TemperatureDifference)| {
            margin.as_kelvin() <= share * span.as_kelvin().abs()
        };
        match status {
            Status::Pass if share > 0.0 && margins.any(within) => {
                (Status::Depends, Some(On::Drawing))
            }
            _ => (status, on),
        }
    }
}

/// How much too warm a strip's hand-check may be, as a share of θ_i − θ_e.
#[must_use]
pub fn too_warm(strip: &Strip) -> f64 {
    let covered = strip.over.iter().any(|layer| layer.thickness.as_m() > 0.0);
    match (strip.at, covered) {
        (StripPlace::MidFloor, _) => 0.0,
        (StripPlace::Edge, true) => TOO_WARM[0],
        (StripPlace::Edge, false) => TOO_WARM[1],
    }
}

/// The margins of the three times, each with θ_i − θ_e then.
pub(super) fn spans(
    conditions: &Conditions,
    times: &Times,
) -> Vec<(TemperatureDifference, TemperatureDifference)> {
    let with_span = |(when, margin): (When, TemperatureDifference)| (margin, when.span(conditions));
    times.all().map(with_span).collect()
}
