//! What is judged: every assembly and detail as drawn, and again under every variant.

use super::detail::{self, DetailNode, DetailText, Within};
use super::layer::missing_name;
use super::resolve::assembly;
use super::schema::{AssemblyText, ChangeNode, ChangeText};
use super::variant;
use crate::document::{At, FromNode, Named, Problems, Word};
use crate::error::Problem;
use crate::material::Library;
use crate::model::{BoxesCase, Case, DetailCase};
use crate::quantity::UnitSystem;

/// What variants change.
pub(super) struct Bases<'a> {
    pub(super) library: &'a Library,
    pub(super) assemblies: Named<AssemblyText>,
    pub(super) details: Named<DetailNode>,
    /// Those the file speaks.
    pub(super) units: UnitSystem,
}

/// What is judged.
#[derive(Default)]
pub(super) struct Cases {
    pub(super) assemblies: Vec<Case>,
    pub(super) details: Vec<DetailCase>,
    pub(super) volumes: Vec<BoxesCase>,
}

impl Cases {
    fn add(&mut self, detail: Option<detail::Resolved>) {
        match detail {
            None => {}
            Some(detail::Resolved::Cut(case)) => self.details.push(*case),
            Some(detail::Resolved::Boxes(case)) => self.volumes.push(case),
        }
    }
}

/// A variant: its name, and what it changes by the name of that.
pub(super) type Variant = (At<Word>, Named<ChangeNode>);

impl Bases<'_> {
    /// Resolves all of them. Whether all variants could be read: what is missing after a mistake
    /// isn't a second one.
    pub(super) fn resolve(
        &self,
        variants: &[Variant],
        cases: &mut Cases,
        problems: &mut Problems,
    ) -> bool {
        for (name, text) in &self.assemblies.entries {
            let case = self.case(None, name, text, problems);
            cases.assemblies.extend(case);
        }
        self.names_apart(problems);
        let within = self.within(&self.assemblies.entries);
        for (name, base) in &self.details.entries {
            cases.add(detail::detail(None, name, &base.text, &within, problems));
        }
        let mut readable = true;
        for variant in variants {
            readable &= self.variant(variant, cases, problems);
        }
        readable
    }

    pub(super) fn within<'b>(&'b self, assemblies: &'b [(At<Word>, AssemblyText)]) -> Within<'b> {
        Within {
            library: self.library,
            assemblies,
            unreadable: &self.assemblies.unreadable,
            units: self.units,
        }
    }

    /// A variant goes by names: an assembly and a detail may not share one.
    fn names_apart(&self, problems: &mut Problems) {
        for (name, _) in &self.details.entries {
            let mut assemblies = self.assemblies.entries.iter();
            if assemblies.any(|(other, _)| other.value == name.value) {
                let message = format!("`{}` is the name of an assembly too", name.value.0);
                let label = "expected a name of its own for the detail";
                problems.push(Problem::at(name.span, message).expected(label));
            }
        }
    }

    /// One variant: its assemblies first, then the details that are changed or drawn from them.
    fn variant(
        &self,
        (variant, changes): &Variant,
        cases: &mut Cases,
        problems: &mut Problems,
    ) -> bool {
        let mut readable = true;
        let mut assemblies = self.assemblies.entries.clone();
        let mut changed: Vec<&Word> = Vec::new();
        let mut of_details: Vec<(&Word, &ChangeNode)> = Vec::new();
        for (name, change) in &changes.entries {
            if let Some(n) = assemblies
                .iter()
                .position(|(other, _)| other.value == name.value)
            {
                let before = problems.len();
                let change = ChangeText::from_node(&change.0, problems);
                readable &= problems.len() == before;
                let Some(change) = change else { continue };
                let text = variant::changed(&self.assemblies.entries[n].1, &change, problems);
                let found = self.with_variant(("variant", variant), problems, |problems| {
                    self.case(Some(variant), name, &text, problems)
                });
                cases.assemblies.extend(found);
                assemblies[n].1 = text;
                changed.push(&name.value);
            } else if self
                .details
                .entries
                .iter()
                .any(|(other, _)| other.value == name.value)
            {
                of_details.push((&name.value, change));
            } else {
                problems.extend(self.unknown(name));
            }
        }
        let within = self.within(&assemblies);
        for (name, base) in &self.details.entries {
            let change = of_details.iter().find(|(other, _)| **other == name.value);
            let found = self.with_variant(("variant", variant), problems, |problems| {
                let mut is_drawn_from = detail::drawn_from(&base.text);
                let text: DetailText = match change {
                    Some((_, change)) => {
                        let text = detail::changed(base, &change.0, problems);
                        readable &= problems.is_empty();
                        text?
                    }
                    None if is_drawn_from.any(|word| changed.contains(&word)) => base.text.clone(),
                    None => return None,
                };
                detail::detail(Some(variant), name, &text, &within, problems)
            });
            cases.add(found);
        }
        readable
    }

    /// A mistake in the base shows again in every variant of it: once is enough. One that a
    /// variant makes of a line of its base is told with the variant's name.
    pub(super) fn with_variant<T>(
        &self,
        (what, variant): (&str, &At<Word>),
        problems: &mut Problems,
        resolve: impl FnOnce(&mut Problems) -> T,
    ) -> T {
        let mut own = Vec::new();
        let found = resolve(&mut own);
        own.retain(|problem| !problems.contains(problem));
        for problem in &mut own {
            if problem
                .span
                .is_some_and(|span| span.start < variant.span.start)
            {
                let name = &variant.value.0;
                problem.message = format!("with {what} `{name}`, {}", problem.message);
            }
        }
        own.retain(|problem| !problems.contains(problem));
        problems.extend(own);
        found
    }

    pub(super) fn unknown(&self, name: &At<Word>) -> Option<Problem> {
        let lists = [&self.assemblies.unreadable, &self.details.unreadable];
        if lists.iter().any(|list| list.contains(&name.value)) {
            return None;
        }
        let assemblies = self.assemblies.entries.iter().map(|(name, _)| name);
        let details = self.details.entries.iter().map(|(name, _)| name);
        let known = assemblies.chain(details).map(|name| name.value.0.as_str());
        let what = match self.details.entries.is_empty() {
            true => "assembly",
            false => "assembly or detail",
        };
        let mut problem = missing_name(what, name, known);
        problem.label = format!("not an {what} of this file");
        Some(problem)
    }

    fn case(
        &self,
        variant: Option<&At<Word>>,
        name: &At<Word>,
        text: &AssemblyText,
        problems: &mut Problems,
    ) -> Option<Case> {
        let assembly = assembly(name, text, self.library, problems)?;
        Some(Case {
            variant: variant.map(|variant| variant.value.0.clone()),
            assembly,
        })
    }
}
