//! Sweeps: an assembly as the file draws it, and what each axis changes in it.

mod axis;
mod steps;
mod text;

pub(super) use text::SweepsText;
use text::{AxisText, SweepText};

use super::cases::Bases;
use super::layer::missing_name;
use super::resolve::assembly;
use super::schema::AssemblyText;
use super::surroundings::{Files, Surroundings};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::model::{Axis, AxisValues, Case, Stop, Sweep};

/// More combinations than this are refused.
const MOST_COMBINATIONS: u64 = 10_000_000;

/// Where and how everything is judged.
pub(super) struct Around<'a> {
    /// The project's own stops; empty where something is wrong with them.
    pub(super) stops: &'a [Stop],
    /// What the file says of them: a climate axis is read with it.
    pub(super) surroundings: &'a Surroundings,
}

/// Every sweep that can be used.
pub(super) fn sweeps(
    read: Option<SweepsText>,
    bases: &Bases<'_>,
    around: &Around<'_>,
    files: &mut Files<'_>,
    problems: &mut Problems,
) -> Vec<Sweep> {
    let entries = read.map_or_else(Vec::new, |read| read.0);
    let found = entries.iter().map(|(name, text)| {
        let entry = Entry {
            name: name.as_ref(),
            text,
            bases,
            around,
        };
        entry.resolve(files, problems)
    });
    found.collect::<Vec<_>>().into_iter().flatten().collect()
}

/// One sweep being resolved.
struct Entry<'a> {
    name: Option<&'a At<Word>>,
    text: &'a SweepText,
    bases: &'a Bases<'a>,
    around: &'a Around<'a>,
}

impl Entry<'_> {
    fn resolve(&self, files: &mut Files<'_>, problems: &mut Problems) -> Option<Sweep> {
        let (name, base) = self.base(problems)?;
        // What is wrong in the assembly itself is told where it is resolved.
        let mut told = Vec::new();
        let assembly = assembly(name, base, self.bases.library, &mut told)?;
        let before = problems.len();
        if self.text.axes.entries.is_empty() && self.text.axes.unreadable.is_empty() {
            let label =
                "expected at least one under `axes:`, such as `room: {humidity: [40 %, 50 %]}`";
            problems.push(Problem::at(self.text.of.span, "this sweep has no axes").expected(label));
        }
        let mut axes: Vec<(&At<Word>, Axis)> = Vec::new();
        for (name, text) in &self.text.axes.entries {
            let place = (name, text);
            if let Some(values) = self.values(place, (&assembly, base), files, problems) {
                self.is_new(name, &values, &axes, problems);
                let name_told = name.value.0.clone();
                axes.push((
                    name,
                    Axis {
                        name: name_told,
                        values,
                    },
                ));
            }
        }
        let climates = |axis: &Axis| matches!(axis.values, AxisValues::Climate(_));
        let has_climates = self
            .text
            .axes
            .entries
            .iter()
            .any(|(_, text)| text.climate.is_some());
        if self.around.stops.len() > 1 && !has_climates {
            let message =
                "this file's climate is a route, and a sweep is judged in one climate at a time";
            let label = "expected one climate in the file, or an axis such as `climate: {climate: [wet-coast]}`";
            problems.push(Problem::at(self.text.of.span, message).expected(label));
        }
        if problems.len() > before || !self.text.complete {
            return None;
        }
        let stop = axes.iter().find_map(|(_, axis)| match &axis.values {
            AxisValues::Climate(stops) if climates(axis) => stops.first(),
            _ => None,
        });
        let sweep = Sweep {
            name: self
                .name
                .map_or_else(String::new, |name| name.value.0.clone()),
            case: Case {
                variant: None,
                assembly,
            },
            stop: stop.or(self.around.stops.first())?.clone(),
            axes: axes.into_iter().map(|(_, axis)| axis).collect(),
        };
        self.sound(&sweep, problems).then_some(sweep)
    }

    /// The assembly that is swept.
    fn base(&self, problems: &mut Problems) -> Option<(&At<Word>, &AssemblyText)> {
        let of = &self.text.of;
        let all = &self.bases.assemblies;
        if let Some((name, text)) = all.entries.iter().find(|(at, _)| at.value == of.value) {
            return Some((name, text));
        }
        if self
            .bases
            .details
            .entries
            .iter()
            .any(|(at, _)| at.value == of.value)
        {
            let message = format!(
                "`{}` is a detail: its two dimensions aren't swept",
                of.value.0
            );
            let label = "expected an assembly; `size:` finds a thickness in a detail";
            problems.push(Problem::at(of.span, message).expected(label));
        } else if !all.unreadable.contains(&of.value) {
            let known = all.entries.iter().map(|(at, _)| at.value.0.as_str());
            let mut problem = missing_name("assembly", of, known);
            problem.label = "not an assembly of this file".into();
            problems.push(problem);
        }
        None
    }

    /// Two axes may not change the same thing.
    fn is_new(
        &self,
        name: &At<Word>,
        values: &AxisValues,
        axes: &[(&At<Word>, Axis)],
        problems: &mut Problems,
    ) {
        let same = |other: &AxisValues| match (values, other) {
            (AxisValues::Thickness { layer: a, .. }, AxisValues::Thickness { layer: b, .. })
            | (AxisValues::Material { layer: a, .. }, AxisValues::Material { layer: b, .. }) => {
                a == b
            }
            (one, other) => {
                !one.is_of_the_assembly()
                    && std::mem::discriminant(one) == std::mem::discriminant(other)
            }
        };
        if let Some((first, _)) = axes.iter().find(|(_, axis)| same(&axis.values)) {
            let message = format!("`{}` and `{}` change the same", first.value.0, name.value.0);
            problems.push(Problem::at(name.span, message).expected("keep one of the two axes"));
        }
    }

    /// What holds for all axes together.
    fn sound(&self, sweep: &Sweep, problems: &mut Problems) -> bool {
        let before = problems.len();
        let place = self
            .text
            .axes
            .entries
            .first()
            .map_or(self.text.of.span, |(at, _)| at.span);
        let count = sweep.count();
        if count > MOST_COMBINATIONS {
            let told = match count {
                u64::MAX => "far too many".to_owned(),
                count => grouped(count),
            };
            let message = format!("this sweep has {told} combinations");
            let label = format!("expected at most {}", grouped(MOST_COMBINATIONS));
            let problem = Problem::at(place, message).expected(label);
            problems.push(problem.help("take greater steps, or fewer axes at a time"));
        }
        // Each layer may be left out, but not any two of them together.
        let mut left = sweep.case.assembly.clone();
        for (axis, (name, _)) in sweep.axes.iter().zip(&self.text.axes.entries) {
            let AxisValues::Thickness { layer, steps } = &axis.values else {
                continue;
            };
            let ends = [steps.at(0), steps.at(steps.count().saturating_sub(1))];
            let any_zero = match steps {
                crate::model::Steps::List(values) => values.contains(&0.0),
                crate::model::Steps::Grid { .. } => ends.contains(&0.0),
            };
            let Some(at) = left.place_of(layer).filter(|_| any_zero) else {
                continue;
            };
            if !left.can_do_without(at) {
                let message = format!("`{layer}` can't be left out where the others are");
                let label = "expected more than 0 here";
                problems.push(Problem::at(name.span, message).expected(label));
                break;
            }
            left = left.with_thickness(at, crate::quantity::Length::from_m(0.0));
        }
        problems.len() == before
    }
}

/// `10,000,000`.
fn grouped(count: u64) -> String {
    let digits = count.to_string();
    let mut told = String::new();
    for (n, digit) in digits.chars().enumerate() {
        if n > 0 && (digits.len() - n).is_multiple_of(3) {
            told.push(',');
        }
        told.push(digit);
    }
    told
}
