//! The cover: what the packet is about, how everything comes out, which sheets there are.

use super::content::{Chapter, Group, Item, Table};
use super::{house, words};
use crate::check::plan_review::Missing;
use crate::check::{Status, worst};
use crate::model::Project;
use crate::quantity::{Dimension, Mass, Style, TemperatureDifference};
use crate::report::figure::{Listed, Part, drawn_end};
use crate::report::plan_review;
use crate::report::sentence::Sites;
use crate::study::{Judged, JudgedBoxes, JudgedDetail, JudgedHouse};

/// What a cover is made from.
pub(super) struct Cover<'a> {
    pub(super) project: &'a Project,
    pub(super) judged: &'a [Judged<'a>],
    pub(super) details: &'a [JudgedDetail<'a>],
    pub(super) volumes: &'a [JudgedBoxes<'a>],
    pub(super) house: Option<&'a JudgedHouse<'a>>,
    pub(super) missing: &'a [Missing],
    /// Variants of the file that aren't in the packet.
    pub(super) left_out: &'a [String],
    /// Parts of the file that aren't asked for.
    pub(super) omitted: &'a [String],
    pub(super) style: Style,
    /// Whether it leaves room for a stamp.
    pub(super) stamp: bool,
}

impl<'a> Cover<'a> {
    /// The chapter, with the list of sheets where there is one.
    pub(super) fn chapter(&self, listed: &[Listed]) -> Chapter<'a> {
        let mut groups = vec![self.verdicts()];
        if !listed.is_empty() {
            groups.push(sheets(listed));
        }
        groups.extend(self.stops());
        if self.stamp {
            groups.push(Group::narrow("", vec![Item::Blank("stamp")]));
        }
        groups.extend(self.not_here());
        if !self.missing.is_empty() {
            groups.push(self.missing());
        }
        groups.push(self.glance());
        let statuses: Vec<Status> = self.named().into_iter().map(|(status, _)| status).collect();
        Chapter {
            name: "Cover".to_owned(),
            title: format!("{}: heat and moisture at its sections", self.project.title),
            word: Some(worst(statuses.iter().copied()).word()),
            face: self.face(&statuses),
            facts: Vec::new(),
            stop: None,
            groups,
        }
    }

    /// How every subject comes out.
    fn named(&self) -> Vec<(Status, String)> {
        let judged = self.judged.iter();
        let assemblies = judged.map(|one| (one.verdict.status, one.case.name()));
        let details = self.details.iter();
        let details = details.map(|one| (one.verdict.status, one.name()));
        let volumes = self.volumes.iter();
        let volumes = volumes.map(|one| (one.verdict.status, one.name()));
        let house = self.house.map(|one| (one.verdict.status, one.name()));
        let parts = assemblies.chain(details).chain(volumes);
        parts.chain(house).collect()
    }

    fn face(&self, statuses: &[Status]) -> String {
        let named = |severity: u8| -> Vec<String> {
            let counts = |(status, _): &(Status, String)| status.severity() == severity;
            let found = self.named().into_iter().filter(counts);
            found.map(|(_, name)| name).collect()
        };
        let (fails, depends) = (named(2), named(1));
        let mut words = Vec::new();
        if !fails.is_empty() {
            words.push(format!("Fails: {}.", fails.join("; ")));
        }
        if !depends.is_empty() {
            words.push(format!("Depends, undecided: {}.", depends.join("; ")));
        }
        match (words.is_empty(), statuses.is_empty()) {
            (true, false) => "Every check passes by the methods named on the sheets.".to_owned(),
            _ => words.join(" "),
        }
    }

    fn verdicts(&self) -> Group<'a> {
        let mut items: Vec<Item<'a>> = Vec::new();
        for one in self.judged {
            let words = words::speaking(&one.verdict, Sites(one.stops), self.style);
            items.push(Item::Verdict(
                one.case.name(),
                one.verdict.status.word(),
                words,
            ));
        }
        for one in self.details {
            let words = words::speaking(&one.verdict, Sites(one.stops), self.style);
            items.push(Item::Verdict(one.name(), one.verdict.status.word(), words));
        }
        for one in self.volumes {
            let words = words::speaking(&one.verdict, Sites(one.stops), self.style);
            let name = one.name();
            items.push(Item::Verdict(name, one.verdict.status.word(), words));
        }
        if let Some(one) = self.house {
            let words = house::face(one, self.style);
            items.push(Item::Verdict(one.name(), one.verdict.status.word(), words));
        }
        Group::narrow("Verdicts", items)
    }

    /// The numbers that are asked first, subject by subject.
    fn glance(&self) -> Group<'a> {
        let (style, other) = (self.style, self.style.other());
        let both = |print: &dyn Fn(Style) -> String| format!("{} ({})", print(style), print(other));
        let margin = format!("least leak\nmargin, {}", Dimension::Temperature.unit(style));
        let headings = ["", "U", "thickness", "weight", &margin];
        let mut table = Table::new(&headings, 1);
        for one in self.judged {
            let Some(end) = drawn_end(one.result()) else {
                continue;
            };
            let u = &end.transmittance;
            let (low, high) = (u.parallel_path, u.isothermal_planes);
            table.row(vec![
                one.case.name(),
                match u.combined {
                    Some(combined) => both(&|style| Dimension::Transmittance.show(combined, style)),
                    None => both(&|style| {
                        let least = Dimension::Transmittance.number(low.min(high), style);
                        let most = Dimension::Transmittance.show(low.max(high), style);
                        format!("{least} to {most}")
                    }),
                },
                both(&|style| style.show(one.result().thickness)),
                one.result().weight.map_or_else(
                    || "not known".to_owned(),
                    |weight| both(&|style| style.show(weight)),
                ),
                least_leak(one, style),
            ]);
        }
        for one in self.details {
            let psi = one
                .result()
                .as_ref()
                .ok()
                .and_then(|result| result.psi.as_ref());
            let judged = one
                .verdict
                .findings
                .iter()
                .filter(|one| one.status != Status::Note);
            let margins = judged.filter_map(|finding| Some((finding.margin?, finding)));
            let least = margins.min_by(|a, b| a.0.as_kelvin().total_cmp(&b.0.as_kelvin()));
            let least = least.map(|(margin, finding)| {
                at_site(style.margin_number(margin), Sites(one.stops).name(finding))
            });
            table.row(vec![
                one.name(),
                psi.map_or_else(String::new, |psi| {
                    format!(
                        "psi {}",
                        style.with_bar(Dimension::LinearTransmittance, psi.value, psi.bar)
                    )
                }),
                String::new(),
                String::new(),
                least.unwrap_or_else(|| "–".to_owned()),
            ]);
        }
        if let Some(one) = self.house {
            let (heat, weight) = (&one.result.heat, &one.result.weight);
            let lost = both(&|style| Dimension::HeatLoss.show(heat.total(), style));
            let least = |known: bool| if known { "" } else { "at least " };
            table.row(vec![
                one.name(),
                format!("UA {}{lost}", least(heat.unknown().is_empty())),
                String::new(),
                format!(
                    "{}{}",
                    least(weight.unknown.is_empty()),
                    both(&|style| style.show(Mass::from_kg(weight.house)))
                ),
                "–".to_owned(),
            ]);
        }
        Group::tables("At a glance", vec![Item::Table(table)])
    }

    /// The verdicts at every stop; `None` for a single climate.
    fn stops(&self) -> Option<Group<'a>> {
        let stops = &self.project.stops;
        if stops.len() < 2 {
            return None;
        }
        let mut headings = vec![""];
        headings.extend(stops.iter().map(|stop| stop.name.as_str()));
        let mut table = Table::new(&headings, 1);
        for one in self.judged {
            let words = one
                .sites
                .iter()
                .map(|at| at.verdict.status.word().to_owned());
            table.row(std::iter::once(one.case.name()).chain(words).collect());
        }
        for one in self.details {
            let words = one
                .sites
                .iter()
                .map(|at| at.verdict.status.word().to_owned());
            table.row(std::iter::once(one.name()).chain(words).collect());
        }
        for one in self.volumes {
            let words = one
                .sites
                .iter()
                .map(|at| at.verdict.status.word().to_owned());
            let name = std::iter::once(one.name());
            table.row(name.chain(words).collect());
        }
        let table = vec![Item::Table(table)];
        Some(Group::narrow("At the stops of the route", table))
    }

    /// What of the file isn't in the packet.
    fn not_here(&self) -> Option<Group<'a>> {
        let lists = [("Parts", self.omitted), ("Variants", self.left_out)];
        let said = lists.into_iter().filter(|(_, names)| !names.is_empty());
        let notes = said.map(|(what, names)| {
            let names = names.join("; ");
            Item::Note(format!(
                "{what} of the file that aren't in this packet: {names}."
            ))
        });
        let notes: Vec<Item<'a>> = notes.collect();
        (!notes.is_empty()).then(|| Group::narrow("", notes))
    }

    fn missing(&self) -> Group<'a> {
        let rows = plan_review::rows(self.missing);
        let mut items: Vec<Item<'a>> = rows.iter().map(|row| Item::Text(row.sentence())).collect();
        items.push(Item::Note(plan_review::FOOTING.to_owned()));
        Group::narrow(plan_review::HEADING, items)
    }
}

/// The least leak margin of all sites, with the site it is of.
fn least_leak(one: &Judged<'_>, style: Style) -> String {
    let least = one.least(|overview| Some(overview.leak_margin?.as_kelvin()));
    least.map_or_else(
        || "–".to_owned(),
        |(kelvin, site)| {
            let number = style.margin_number(TemperatureDifference::from_kelvin(kelvin));
            let several = one.sites.len() > 1;
            at_site(number, several.then(|| one.sites[site].stop.name.as_str()))
        },
    )
}

/// `−10.8, high plain`
fn at_site(number: String, site: Option<&str>) -> String {
    match site {
        Some(site) => format!("{number}, {site}"),
        None => number,
    }
}

/// A row for each chapter, with the numbers of its sheets and what is to scale on them.
fn sheets<'a>(listed: &[Listed]) -> Group<'a> {
    let mut table = Table::new(&["sheets", "subject", "scale"], 3);
    let parts = listed.iter().flat_map(|sheet| {
        let number = sheet.number.as_str();
        sheet.parts.iter().map(move |part| (number, part))
    });
    let parts: Vec<(&str, &Part)> = parts.collect();
    for chapter in parts.chunk_by(|a, b| a.1.chapter == b.1.chapter) {
        let (first, last) = (chapter[0].0, chapter[chapter.len() - 1].0);
        let numbers = match first == last {
            true => first.to_owned(),
            false => format!("{first} to {last}"),
        };
        let mut scales: Vec<&str> = Vec::new();
        for (_, part) in chapter.iter().filter(|(_, part)| !part.scale.is_empty()) {
            if !scales.contains(&part.scale.as_str()) {
                scales.push(&part.scale);
            }
        }
        let name = chapter[0].1.chapter.clone();
        table.row(vec![numbers, name, scales.join("; ")]);
    }
    Group::narrow("Sheets", vec![Item::Table(table)])
}
