//! What can be asked, and the derivation behind each of it.

use super::super::sentence_detail::estimate_name;
use super::assembly::Section;
use super::{Derivation, air, check, detail, hand_check, path, plane, room, transmittance, water};
use crate::check::detail::HAND_CHECK;
use crate::check::{Detail, Finding};
use crate::quantity::Style;
use crate::solve::PathResult;
use crate::solve::detail::{DetailResult, HandCheck};
use crate::study::{Judged, JudgedDetail};

/// A number of the report that can be asked about.
#[derive(Clone)]
pub struct Entry<'a> {
    /// What it is asked by: `floor / cavity / subfloor / bay`.
    pub place: String,
    /// Other ways to ask for it.
    pub also: Vec<String>,
    /// The variant it belongs to; `None` as drawn.
    pub variant: Option<&'a str>,
    /// What its derivation tells.
    pub tells: &'static str,
    subject: Subject<'a>,
}

#[derive(Clone)]
enum Subject<'a> {
    DewPoint(&'a Judged<'a>),
    Transmittance(Section<'a>),
    Path(Section<'a>, &'a PathResult),
    Plane(Section<'a>, &'a PathResult, usize),
    RoomHumidity(&'a Judged<'a>),
    Wetting(Section<'a>, &'a PathResult),
    Check(&'a Judged<'a>, &'a Finding),
    HeatFlow(&'a JudgedDetail<'a>, &'a DetailResult),
    Psi(&'a JudgedDetail<'a>, &'a DetailResult),
    Spot(&'a JudgedDetail<'a>, &'a DetailResult, &'a Finding),
    HandCheck(&'a JudgedDetail<'a>, &'a DetailResult, &'a HandCheck),
}

/// Everything that can be asked of a project, in the order of the report.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::explain;
/// use dewmargin::study::Study;
///
/// let text = include_str!("../../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("cabin-wall.yaml", text).unwrap();
/// let judged = Study::of(&project).assemblies;
/// let entries = explain::entries(&judged, &[]);
/// let u = entries.iter().find(|entry| entry.place == "wall 2x6 / U").unwrap();
/// let derivation = u.derive(Style { units: UnitSystem::Metric });
/// assert!(derivation.steps.iter().any(|step| step.symbol == "R'"));
/// ```
#[must_use]
pub fn entries<'a>(judged: &'a [Judged<'a>], details: &'a [JudgedDetail<'a>]) -> Vec<Entry<'a>> {
    let mut all = List::default();
    if let Some(first) = judged.first() {
        let tells = "dew point of the room air";
        all.add("dew point".into(), tells, Subject::DewPoint(first))
            .also("room / dew point".into());
        let tells = "where the room's humidity comes from";
        all.add("room humidity".into(), tells, Subject::RoomHumidity(first))
            .also("room / humidity".into());
    }
    for one in judged {
        all.variant = one.case.variant.as_deref();
        for end in &one.result().ends {
            of_section(Section { one, end }, &mut all);
        }
        of_checks(one, &mut all);
    }
    for one in details {
        all.variant = one.case.variant.as_deref();
        of_detail(one, &mut all);
    }
    all.entries
}

#[derive(Default)]
struct List<'a> {
    entries: Vec<Entry<'a>>,
    variant: Option<&'a str>,
}

impl<'a> List<'a> {
    fn add(&mut self, place: String, tells: &'static str, subject: Subject<'a>) -> &mut Self {
        self.entries.push(Entry {
            place,
            also: Vec::new(),
            variant: self.variant,
            tells,
            subject,
        });
        self
    }

    /// Another name for the last one.
    fn also(&mut self, place: String) {
        if let Some(last) = self.entries.last_mut() {
            last.also.push(place);
        }
    }
}

fn of_section<'a>(section: Section<'a>, all: &mut List<'a>) {
    let name = section.name();
    let tells = "thermal transmittance, framing and steel included";
    all.add(
        format!("{name} / U"),
        tells,
        Subject::Transmittance(section),
    )
    .also(name.clone());
    for path in &section.end.paths {
        let place = format!("{name} / {}", path.path.name);
        let tells = "resistances, temperatures, temperature factor";
        all.add(place.clone(), tells, Subject::Path(section, path))
            .also(format!("{place} / temperature factor"));
        for (n, plane) in path.plane_names.iter().enumerate() {
            let tells = "temperature, dew-point margin, leak margin";
            let subject = Subject::Plane(section, path, n);
            all.add(format!("{place} / {plane}"), tells, subject);
        }
        let tells = "vapor flows by diffusion, and a leak's beside them";
        let subject = Subject::Wetting(section, path);
        all.add(format!("{place} / wetting"), tells, subject)
            .also(format!("{place} / leak ratio"));
    }
}

/// The checks of a case by title, and by their id.
fn of_checks<'a>(one: &'a Judged<'a>, all: &mut List<'a>) {
    let name = one.case.name();
    for finding in &one.verdict.findings {
        let place = format!("{name} / {}", finding.title());
        let tells = "what this check found, and its limit";
        all.add(place, tells, Subject::Check(one, finding))
            .also(format!("{name} / {}", finding.check.id));
    }
}

/// A detail's heat flow, psi, judged places and simple estimates.
fn of_detail<'a>(one: &'a JudgedDetail<'a>, all: &mut List<'a>) {
    let Ok(result) = one.result() else { return };
    let name = one.case.full_name();
    let tells = "heat flow in two dimensions, grids, balance, error bar";
    all.add(
        format!("{name} / heat flow"),
        tells,
        Subject::HeatFlow(one, result),
    )
    .also(name.clone());
    if result.psi.is_some() {
        let tells = "linear thermal transmittance against the plane assemblies";
        all.add(format!("{name} / psi"), tells, Subject::Psi(one, result));
    }
    for finding in &one.verdict.findings {
        let Some(place) = detail::spot_place(finding) else {
            continue;
        };
        if matches!(finding.detail, Detail::Spot(_)) && finding.check != &HAND_CHECK {
            let tells = "the coldest place there against its limit";
            let subject = Subject::Spot(one, result, finding);
            all.add(format!("{name} / {place}"), tells, subject)
                .also(format!("{name} / {}", finding.check.id));
        }
    }
    for estimate in &one.here().hand_checks {
        let kind = estimate_name(estimate.kind);
        let tells = "a simple estimate of the same cut, and its error";
        let subject = Subject::HandCheck(one, result, estimate);
        all.add(format!("{name} / hand-check, {kind}"), tells, subject);
    }
}

impl Entry<'_> {
    /// The derivation, in the reader's units.
    #[must_use]
    pub fn derive(&self, style: Style) -> Derivation {
        let place = &self.place;
        match self.subject {
            Subject::DewPoint(one) => {
                air::derive_dew_point(place, one.stop(), one.result().room_dew_point, style)
            }
            Subject::Transmittance(section) => transmittance::derive(section, place, style),
            Subject::Path(section, path) => path::derive(section, path, place, style),
            Subject::Plane(section, path, n) => plane::derive(section, path, n, place, style),
            Subject::RoomHumidity(one) => room::derive(one.stop(), place, style),
            Subject::Wetting(section, path) => water::derive(section, path, place, style),
            Subject::Check(one, finding) => check::derive(one, finding, place, style),
            Subject::HeatFlow(one, result) => detail::derive_heat_flow(one, result, place, style),
            Subject::Psi(one, result) => detail::derive_psi(one, result, place, style),
            Subject::Spot(one, result, finding) => {
                detail::derive_spot(one, result, finding, place, style)
            }
            Subject::HandCheck(one, result, estimate) => {
                hand_check::derive(one, result, estimate, place, style)
            }
        }
    }

    /// Whether what it tells is as precise as was asked for.
    #[must_use]
    pub fn settled(&self) -> bool {
        match self.subject {
            Subject::Path(_, path) | Subject::Plane(_, path, _) | Subject::Wetting(_, path) => {
                path.winter.converged
            }
            Subject::HeatFlow(_, result)
            | Subject::Psi(_, result)
            | Subject::Spot(_, result, _)
            | Subject::HandCheck(_, result, _) => result.settled(),
            Subject::DewPoint(_)
            | Subject::RoomHumidity(_)
            | Subject::Transmittance(_)
            | Subject::Check(..) => true,
        }
    }
}
