//! Targets and the conditions they are held at.

use super::Entry;
use crate::document::{At, Problems, Word};
use crate::error::{Problem, Span};
use crate::model::{SizedAt, SizedPart, Target};

/// What an edge with an outside corner is asked for by.
const CORNER: &str = "corner";

impl Entry<'_> {
    /// The targets, each one that something judged here can be held against.
    pub(super) fn targets(
        &self,
        parts: &[SizedPart],
        problems: &mut Problems,
    ) -> Option<Vec<Target>> {
        let text = &self.text.targets;
        let mut found: Vec<(Target, Span)> = Vec::new();
        if let Some(at) = &text.leak_margin {
            found.push((Target::LeakMargin(at.value), at.span));
        }
        if let Some(at) = &text.dew_point_margin {
            found.push((Target::DewPointMargin(at.value), at.span));
        }
        if let Some(at) = &text.temperature_factor {
            found.push((Target::TemperatureFactor(at.value.as_number()), at.span));
        }
        if let Some(at) = &text.u_value {
            found.push((Target::Transmittance(at.value.as_si()), at.span));
        }
        if let Some(at) = text.dry_within_the_year.as_ref().filter(|at| at.value) {
            found.push((Target::DryWithinTheYear, at.span));
        }
        if let Some(at) = &text.days_to_dry {
            found.push((Target::DaysToDry(at.value.as_number()), at.span));
        }
        if found.is_empty() {
            if text.complete {
                let message = format!("`{}` has no targets", self.name.value.0);
                let label = "expected at least one under `targets:`, such as `leak-margin: 2 F`";
                problems.push(Problem::at(self.name.span, message).expected(label));
            }
            return None;
        }
        let before = problems.len();
        for (target, span) in &found {
            self.can_be_held(*target, *span, parts, problems);
        }
        let targets = found.into_iter().map(|(target, _)| target).collect();
        (problems.len() == before && text.complete).then_some(targets)
    }

    fn can_be_held(
        &self,
        target: Target,
        span: Span,
        parts: &[SizedPart],
        problems: &mut Problems,
    ) {
        if !parts.iter().any(|part| part.suits(target)) {
            let message = "only details are judged here, and a detail is solved for heat alone";
            let label = "expected an assembly under `of:` for this target";
            problems.push(Problem::at(span, message).expected(label));
        }
        let without = |stop: &crate::model::Stop| stop.conditions.year.is_none();
        if target.needs_a_year() && self.stops.iter().any(without) {
            let message = "drying goes through the months, and this file has none";
            let label = "expected a `climate:` in the file for this target";
            problems.push(Problem::at(span, message).expected(label));
        }
    }

    /// The conditions margins are taken at.
    pub(super) fn conditions(&self, problems: &mut Problems) -> Option<Vec<SizedAt>> {
        let words = [
            ("winter mean", Some(SizedAt::WinterMean)),
            ("design night", Some(SizedAt::DesignNight)),
            (CORNER, None),
        ];
        let Some(named) = &self.text.at else {
            return Some(vec![SizedAt::WinterMean]);
        };
        let before = problems.len();
        let mut found = Vec::new();
        for word in &named.0 {
            // The file's own keys are spelled with hyphens: either is right here.
            let spaced = At {
                value: Word(word.value.0.replace('-', " ")),
                span: word.span,
            };
            let at = crate::material::one_of(&spaced, &words, "condition", problems).flatten();
            if at == Some(SizedAt::DesignNight) && self.lacks_a_night() {
                let message = "this file has no design night";
                let label = "expected `winter mean`, or a `design-night:` under `outdoor:`";
                problems.push(Problem::at(word.span, message).expected(label));
            }
            found.extend(at.filter(|at| !found.contains(at)));
        }
        if named.0.is_empty() {
            let label = "expected `winter mean`, `design night`, or leave `at:` out";
            problems.push(Problem::at(self.name.span, "no condition is named").expected(label));
        }
        if found.is_empty() {
            found.push(SizedAt::WinterMean);
        }
        (problems.len() == before).then_some(found)
    }

    /// Who asks for the corner has one.
    pub(super) fn has_its_corner(&self, parts: &[SizedPart], problems: &mut Problems) {
        let mut named = self.text.at.iter().flat_map(|named| &named.0);
        let Some(word) = named.find(|word| word.value.0 == CORNER) else {
            return;
        };
        let has_corner = |part: &SizedPart| match part {
            SizedPart::Detail(case) => case.has_corner(),
            SizedPart::Assembly(_) => false,
        };
        if !parts.iter().any(has_corner) {
            let message = "nothing that is judged here has a corner";
            let label = "expected a floor edge under `of:` whose `corner:` isn't `none`";
            problems.push(Problem::at(word.span, message).expected(label));
        }
    }

    fn lacks_a_night(&self) -> bool {
        let without = |stop: &crate::model::Stop| stop.conditions.design_night.is_none();
        self.stops.iter().any(without)
    }
}
