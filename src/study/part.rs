//! The parts of a project that each have a verdict: assemblies, details, the house.

use std::cmp::Reverse;

use super::{Judged, JudgedBoxes, JudgedDetail, JudgedHouse, Study};
use crate::check::{Finding, On, Status, Verdict, weighed};
use crate::quantity::Temperature;

/// What the house is asked for by.
const HOUSE: &str = "house";

/// What a part is.
#[derive(Clone, Copy, Debug)]
pub enum Subject<'s> {
    /// An assembly.
    Assembly(&'s Judged<'s>),
    /// A detail.
    Detail(&'s JudgedDetail<'s>),
    /// A detail in three dimensions.
    Boxes(&'s JudgedBoxes<'s>),
    /// The house.
    House(&'s JudgedHouse<'s>),
}

/// A part of a project under one variant, with what counts for it: what lies between the steel for a
/// floor, what lies at the steel for its edge.
#[derive(Clone, Debug)]
pub struct Part<'s> {
    /// What it is asked for by, such as `floor` or `floor edge`.
    pub name: &'s str,
    /// What it is; of an edge drawn at several walls the worst.
    pub subject: Subject<'s>,
    /// How it came out.
    pub status: Status,
    /// What it hangs on, where it is `depends`.
    pub on: Option<On>,
    /// What was found of it; nothing of the house, whose findings are its own.
    pub verdict: Verdict,
}

impl<'s> Part<'s> {
    fn new(name: &'s str, subject: Subject<'s>, verdict: Verdict) -> Self {
        Self {
            name,
            subject,
            status: verdict.status,
            on: verdict.on(),
            verdict,
        }
    }

    fn house(house: &'s JudgedHouse<'s>) -> Self {
        let status = house.verdict.status;
        Self {
            status,
            // What the file doesn't state can't be added up.
            on: (status.severity() == 1).then_some(On::NotLookedAt),
            ..Self::new(HOUSE, Subject::House(house), weighed(Vec::new()))
        }
    }

    /// The finding that speaks for it; none of the house.
    #[must_use]
    pub fn speaking(&self) -> Option<&Finding> {
        self.verdict.speaking()
    }

    /// Worst first; of what depends, by what it hangs on.
    fn rank(&self) -> (Reverse<u8>, Option<On>) {
        (Reverse(self.status.severity()), self.on)
    }

    /// The site a finding of it is of; `None` for the house, and where there is one site alone.
    #[must_use]
    pub fn site_of(&self, finding: &Finding) -> Option<&'s str> {
        let sites: Vec<&'s str> = match self.subject {
            Subject::Assembly(one) => one.sites.iter().map(|at| at.stop.name.as_str()).collect(),
            Subject::Detail(one) => one.sites.iter().map(|at| at.stop.name.as_str()).collect(),
            Subject::Boxes(one) => one.sites.iter().map(|at| at.stop.name.as_str()).collect(),
            Subject::House(_) => Vec::new(),
        };
        (sites.len() > 1).then(|| sites[finding.site])
    }

    /// The design night of the site that a finding is of.
    #[must_use]
    pub fn design_night_of(&self, finding: &Finding) -> Option<Temperature> {
        let stop = match self.subject {
            Subject::Assembly(one) => one.sites.get(finding.site)?.stop,
            Subject::Detail(one) => one.sites.get(finding.site)?.stop,
            Subject::Boxes(one) => one.sites.get(finding.site)?.stop,
            Subject::House(_) => return None,
        };
        Some(stop.conditions.design_night?.temperature)
    }
}

impl<'a> Study<'a> {
    /// The variants in the order they are met, as drawn (`None`) first.
    #[must_use]
    pub fn options(&self) -> Vec<Option<&str>> {
        let of_cases = self.assemblies.iter().map(|one| &one.case.variant);
        let of_details = self.details.iter().map(|one| &one.case.variant);
        let of_volumes = self.volumes.iter().map(|one| &one.case.variant);
        let of_houses = self.houses.iter().map(|one| one.case.variant);
        let mut options: Vec<Option<&str>> = Vec::new();
        let all = of_cases.chain(of_details).chain(of_volumes);
        let all = all.map(|variant| variant.as_deref());
        for variant in all.chain(of_houses) {
            if !options.contains(&variant) {
                options.push(variant);
            }
        }
        options.sort_by_key(Option::is_some);
        options
    }

    /// An assembly under a variant, as drawn where that leaves it alone.
    #[must_use]
    pub fn assembly(&self, name: &str, variant: Option<&str>) -> Option<&Judged<'a>> {
        let of = |variant: Option<&str>| {
            self.assemblies.iter().find(|one| {
                one.case.assembly.name == name && one.case.variant.as_deref() == variant
            })
        };
        of(variant).or_else(|| of(None))
    }

    /// A detail under a variant, as drawn where that leaves it alone.
    #[must_use]
    pub fn detail(&self, name: &str, variant: Option<&str>) -> Option<&JudgedDetail<'a>> {
        let of = |variant: Option<&str>| {
            let mut details = self.details.iter();
            details.find(|one| one.case.name == name && one.case.variant.as_deref() == variant)
        };
        of(variant).or_else(|| of(None))
    }

    /// A detail in three dimensions under a variant, as drawn where that leaves it alone.
    fn boxes(&self, name: &str, variant: Option<&str>) -> Option<&JudgedBoxes<'a>> {
        let of = |variant: Option<&str>| {
            let mut volumes = self.volumes.iter();
            volumes.find(|one| one.case.name == name && one.case.variant.as_deref() == variant)
        };
        of(variant).or_else(|| of(None))
    }

    /// The house under a variant, as drawn where that leaves it alone.
    #[must_use]
    pub fn house(&self, variant: Option<&str>) -> Option<&JudgedHouse<'a>> {
        let of = |variant: Option<&str>| self.houses.iter().find(|one| one.case.variant == variant);
        of(variant).or_else(|| self.houses.first())
    }

    /// The names of all assemblies, in the file's order.
    #[must_use]
    pub fn assembly_names(&self) -> Vec<&str> {
        distinct(
            self.assemblies
                .iter()
                .map(|one| one.case.assembly.name.as_str()),
        )
    }

    /// The names of all details, in the file's order.
    #[must_use]
    pub fn detail_names(&self) -> Vec<&str> {
        distinct(self.details.iter().map(|one| one.case.name.as_str()))
    }

    /// What parts are asked for by: assemblies, details, the house.
    #[must_use]
    pub fn part_names(&self) -> Vec<&str> {
        let assemblies = self
            .assemblies
            .iter()
            .map(|one| one.case.assembly.name.as_str());
        let details = self.details.iter().map(|one| one.case.subject());
        let volumes = self.volumes.iter().map(|one| one.case.name.as_str());
        let house = self.houses.first().map(|_| HOUSE);
        distinct(assemblies.chain(details).chain(volumes).chain(house))
    }

    /// The study of one part alone: an assembly with the details that show its strips, a detail with
    /// the floor whose strip it shows, or the house. Nothing is solved again.
    #[must_use]
    pub fn part(&self, name: &str) -> Self {
        // A detail's part counts the year and the drying over the strip it shows: its floor has them.
        let asked = self.details.iter().filter(|one| one.case.subject() == name);
        let floors: Vec<&str> = asked
            .filter_map(|one| one.case.shows().map(|(floor, _)| floor))
            .collect();
        let assemblies = self.assemblies.iter().filter(|one| {
            let own = one.case.assembly.name.as_str();
            own == name || floors.contains(&own)
        });
        let details = self.details.iter().filter(|one| {
            let shows = one.case.shows().is_some_and(|(floor, _)| floor == name);
            shows || one.case.subject() == name
        });
        let volumes = self.volumes.iter().filter(|one| one.case.name == name);
        Self {
            project: self.project,
            assemblies: assemblies.cloned().collect(),
            details: details.cloned().collect(),
            volumes: volumes.cloned().collect(),
            houses: match name {
                HOUSE => self.houses.clone(),
                _ => Vec::new(),
            },
        }
    }

    /// The study with nothing but what is named so, by [`Study::part_names`]. Nothing is solved again.
    #[must_use]
    pub fn only(mut self, names: &[String]) -> Self {
        let is_named = |name: &str| names.iter().any(|one| one == name);
        self.assemblies
            .retain(|one| is_named(&one.case.assembly.name));
        self.details.retain(|one| is_named(one.case.subject()));
        self.volumes.retain(|one| is_named(&one.case.name));
        self.houses.retain(|_| is_named(HOUSE));
        self
    }

    /// The parts of the whole project under a variant, the worst first.
    #[must_use]
    pub fn parts(&self, variant: Option<&str>) -> Vec<Part<'_>> {
        let details: Vec<&JudgedDetail<'a>> = self
            .detail_names()
            .into_iter()
            .filter_map(|name| self.detail(name, variant))
            .collect();
        let assemblies: Vec<&Judged<'a>> = self
            .assembly_names()
            .into_iter()
            .filter_map(|name| self.assembly(name, variant))
            .collect();
        let between = assemblies.iter().map(|one| between_the_steel(one));
        let mut parts: Vec<Part<'_>> = between.collect();
        for part in details.iter().map(|one| at_the_steel(one, &assemblies)) {
            // Of an edge at several walls the worst speaks.
            match parts.iter_mut().find(|other| is_same(other, &part)) {
                Some(kept) if is_worse(&part, kept) => *kept = part,
                Some(_) => {}
                None => parts.push(part),
            }
        }
        let volumes = distinct(self.volumes.iter().map(|one| one.case.name.as_str())).into_iter();
        let volumes = volumes.filter_map(|name| self.boxes(name, variant));
        parts.extend(volumes.map(|one| {
            let verdict = one.verdict.clone();
            Part::new(&one.case.name, Subject::Boxes(one), verdict)
        }));
        parts.extend(self.house(variant).map(Part::house));
        parts.sort_by_key(Part::rank);
        parts
    }
}

fn distinct<'s>(names: impl Iterator<Item = &'s str>) -> Vec<&'s str> {
    let mut found: Vec<&str> = Vec::new();
    for name in names {
        if !found.contains(&name) {
            found.push(name);
        }
    }
    found
}

fn is_same(one: &Part<'_>, other: &Part<'_>) -> bool {
    let is_detail = |part: &Part<'_>| matches!(part.subject, Subject::Detail(_));
    is_detail(one) && is_detail(other) && one.name == other.name
}

fn is_worse(one: &Part<'_>, other: &Part<'_>) -> bool {
    match (one.verdict.speaking(), other.verdict.speaking()) {
        (Some(a), Some(b)) => a.comes_before(b),
        _ => one.rank() < other.rank(),
    }
}

/// An assembly with what is found of its cavity and framing, and of strips that no detail shows.
fn between_the_steel<'s>(one: &'s Judged<'s>) -> Part<'s> {
    let counts = |finding: &&Finding| finding.strip.as_deref().is_none_or(|s| !is_shown(one, s));
    let findings = one.verdict.findings.iter().filter(counts).cloned();
    Part::new(
        &one.case.assembly.name,
        Subject::Assembly(one),
        weighed(findings.collect()),
    )
}

/// A detail with what the year and the drying say of the strip it shows.
fn at_the_steel<'s>(one: &'s JudgedDetail<'s>, assemblies: &[&'s Judged<'s>]) -> Part<'s> {
    let of_strip = one.case.shows().and_then(|(floor, strip)| {
        let mut floors = assemblies.iter();
        let floor = floors.find(|other| other.case.assembly.name == floor)?;
        is_shown(floor, strip).then_some((*floor, strip))
    });
    let mut findings = one.verdict.findings.clone();
    if let Some((floor, strip)) = of_strip {
        let at_strip = |finding: &&Finding| {
            finding.strip.as_deref() == Some(strip) && finding.status != Status::Note
        };
        findings.extend(floor.verdict.findings.iter().filter(at_strip).cloned());
    }
    Part::new(one.case.subject(), Subject::Detail(one), weighed(findings))
}

fn is_shown(one: &Judged<'_>, strip: &str) -> bool {
    let mut strips = one.case.assembly.strips.iter();
    let Some(n) = strips.position(|other| other.name == strip) else {
        return false;
    };
    let shown =
        |result: &crate::solve::AssemblyResult| result.shown.get(n).is_some_and(Option::is_some);
    one.sites.iter().any(|at| shown(&at.result))
}
