//! Where a layer to be sized stands: the texts an entry starts from, and the assemblies it is in.

use super::text::SizedLayer;
use super::{Entry, Start};
use crate::document::{At, FromNode, Problems, Word};
use crate::error::Problem;
use crate::input::cases::Variant;
use crate::input::detail;
use crate::input::layer::missing_name;
use crate::input::schema::{AssemblyText, ChangeText};
use crate::input::variant;

impl Entry<'_> {
    /// The texts to start from. A variant's own mistakes are reported where it is resolved.
    pub(super) fn start(&self, variants: &[Variant], problems: &mut Problems) -> Option<Start> {
        let mut start = Start {
            assemblies: self.bases.assemblies.entries.clone(),
            details: self
                .bases
                .details
                .entries
                .iter()
                .map(|(name, base)| (name.clone(), base.text.clone()))
                .collect(),
        };
        let Some(wanted) = &self.text.variant else {
            return Some(start);
        };
        let found = variants.iter().find(|(name, _)| name.value == wanted.value);
        let Some((_, changes)) = found else {
            let known = variants.iter().map(|(name, _)| name.value.0.as_str());
            let mut problem = missing_name("variant", wanted, known);
            problem.label = "not a variant of this file".into();
            problems.push(problem);
            return None;
        };
        let mut told = Vec::new();
        for (name, change) in &changes.entries {
            let assembly = start
                .assemblies
                .iter_mut()
                .find(|(at, _)| at.value == name.value);
            let base = self.bases.details.entries.iter();
            let base = base.clone().find(|(at, _)| at.value == name.value);
            if let Some((_, text)) = assembly {
                let change = ChangeText::from_node(&change.0, &mut told)?;
                *text = variant::changed(text, &change, &mut told);
            } else if let Some((_, base)) = base {
                let changed = detail::changed(base, &change.0, &mut told)?;
                let detail = start
                    .details
                    .iter_mut()
                    .find(|(at, _)| at.value == name.value);
                detail
                    .into_iter()
                    .for_each(|(_, text)| *text = changed.clone());
            }
        }
        Some(start)
    }

    /// The names of the assemblies the layer stands in.
    pub(super) fn within(&self, start: &Start, problems: &mut Problems) -> Option<Vec<Word>> {
        match &self.text.within {
            Some(named) => self.named_within(&named.0, start, problems),
            None => self.found_within(start, problems),
        }
    }

    fn named_within(
        &self,
        named: &[At<Word>],
        start: &Start,
        problems: &mut Problems,
    ) -> Option<Vec<Word>> {
        let before = problems.len();
        if named.is_empty() {
            let message = "nothing is named here";
            let label = "expected an assembly, or leave `in:` out";
            problems.push(Problem::at(self.name.span, message).expected(label));
        }
        for name in named {
            let mut all = start.assemblies.iter();
            match all.find(|(at, _)| at.value == name.value) {
                None => self.unknown_assembly(name, problems),
                Some((_, text)) => self.holds_its_place(text, problems),
            }
        }
        let names = named.iter().map(|at| at.value.clone()).collect();
        (problems.len() == before).then_some(names)
    }

    /// Where the file doesn't say it: the one assembly that has the place.
    fn found_within(&self, start: &Start, problems: &mut Problems) -> Option<Vec<Word>> {
        let all = || start.assemblies.iter();
        let has_place = |text: &AssemblyText| {
            let anchor = self.anchor().map(|at| at.value.0.as_str());
            anchor.is_some_and(|anchor| names(text).contains(&anchor))
        };
        let holders: Vec<&Word> = all()
            .filter(|(_, text)| has_place(text))
            .map(|(at, _)| &at.value)
            .collect();
        let wanted = self.concerned(start);
        let meant = holders.iter().filter(|name| wanted.contains(name));
        // What `of:` names wrongly is told where that is read.
        let meant: Vec<&Word> = match meant.copied().collect::<Vec<_>>() {
            none if none.is_empty() => holders,
            meant => meant,
        };
        let mut found = meant.into_iter().cloned();
        let (first, second) = (found.next(), found.next());
        match (first, second, self.anchor()) {
            (Some(first), None, _) => Some(vec![first]),
            (Some(first), Some(second), Some(anchor)) => {
                let message = format!(
                    "`{}` is in `{}` and in `{}`",
                    anchor.value.0, first.0, second.0
                );
                let label = "expected `in:` with one of them, or a list";
                problems.push(Problem::at(anchor.span, message).expected(label));
                None
            }
            (None, _, Some(anchor)) => {
                let known: Vec<&str> = all().flat_map(|(_, text)| names(text)).collect();
                let mut problem = missing_name("layer or strip", anchor, known.into_iter());
                problem.label = "not a layer or strip of this file".into();
                problems.push(problem);
                None
            }
            (_, _, None) => {
                // The place is missing: adding the layer to any assembly says so.
                let mut told = Vec::new();
                if let Some((_, text)) = all().next() {
                    variant::changed(text, &self.change(), &mut told);
                }
                problems.extend(told);
                None
            }
        }
    }

    /// The name the layer goes by, or that of what it is put beside.
    fn anchor(&self) -> Option<&At<Word>> {
        match &self.text.layer {
            SizedLayer::Named(name) => Some(name),
            SizedLayer::New(layer) => {
                let places = [&layer.over, &layer.inside_of, &layer.outside_of];
                let mut given = places.into_iter().flatten();
                given.next().filter(|_| given.next().is_none())
            }
        }
    }

    /// The assemblies that `of:` names, or that the details it names are drawn from.
    fn concerned(&self, start: &Start) -> Vec<Word> {
        let drawn_from = |name: &Word| {
            let details = start.details.iter().filter(|(at, _)| at.value == *name);
            let words = details.flat_map(|(_, text)| detail::drawn_from(text));
            words.cloned().collect::<Vec<_>>()
        };
        let of = self.text.of.iter().flat_map(|of| &of.0);
        let names = of.map(|at| &at.value);
        names
            .flat_map(|name| [drawn_from(name), vec![name.clone()]].concat())
            .collect()
    }

    /// An existing layer has to be in the assembly; where a new one goes is seen when it is added.
    fn holds_its_place(&self, text: &AssemblyText, problems: &mut Problems) {
        if let SizedLayer::Named(name) = &self.text.layer {
            let known = names(text);
            if !known.contains(&name.value.0.as_str()) {
                problems.push(missing_name("layer", name, known.into_iter()));
            }
        }
    }

    fn unknown_assembly(&self, name: &At<Word>, problems: &mut Problems) {
        if !self.bases.assemblies.unreadable.contains(&name.value) {
            let known = self.bases.assemblies.entries.iter();
            let mut problem =
                missing_name("assembly", name, known.map(|(at, _)| at.value.0.as_str()));
            problem.label = "not an assembly of this file".into();
            problems.push(problem);
        }
    }
}

/// The layers and strips of an assembly.
fn names(text: &AssemblyText) -> Vec<&str> {
    let strips = || text.strips.iter().flatten();
    let over = strips().flat_map(|strip| strip.over.iter().flatten());
    let layers = text.layers.iter().chain(over).map(|layer| &layer.name);
    let all = layers.chain(strips().map(|strip| &strip.name));
    all.map(|name| name.value.0.as_str()).collect()
}
