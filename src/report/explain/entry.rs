//! What can be asked, and the derivation behind each of it.

use super::super::{Judged, JudgedDetail};
use super::assembly::Section;
use super::{Derivation, air, path, plane, transmittance};
use crate::quantity::Style;
use crate::solve::PathResult;

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
}

/// Everything that can be asked of a project, in the order of the report.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::{self, explain};
///
/// let text = include_str!("../../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("cabin-wall.yaml", text).unwrap();
/// let judged = report::judge_all(&project);
/// let entries = explain::entries(&judged, &[]);
/// let u = entries.iter().find(|entry| entry.place == "wall / U").unwrap();
/// let derivation = u.derive(Style { units: UnitSystem::Metric });
/// assert!(derivation.steps.iter().any(|step| step.symbol == "R'"));
/// ```
#[must_use]
pub fn entries<'a>(judged: &'a [Judged<'a>], details: &'a [JudgedDetail<'a>]) -> Vec<Entry<'a>> {
    let _ = details;
    let mut all = List::default();
    if let Some(first) = judged.first() {
        let tells = "dew point of the room air";
        all.add("dew point".into(), tells, Subject::DewPoint(first))
            .also("room / dew point".into());
    }
    for one in judged {
        all.variant = one.case.variant.as_deref();
        for end in &one.result.ends {
            of_section(Section { one, end }, &mut all);
        }
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
        let tells = "resistances and temperatures";
        all.add(place.clone(), tells, Subject::Path(section, path));
        for (n, plane) in path.plane_names.iter().enumerate() {
            let tells = "temperature, dew-point margin, leak margin";
            let subject = Subject::Plane(section, path, n);
            all.add(format!("{place} / {plane}"), tells, subject);
        }
    }
}

impl Entry<'_> {
    /// The derivation, in the reader's units.
    #[must_use]
    pub fn derive(&self, style: Style) -> Derivation {
        let place = &self.place;
        match self.subject {
            Subject::DewPoint(one) => {
                air::derive_dew_point(place, one.stop, one.result.room_dew_point, style)
            }
            Subject::Transmittance(section) => transmittance::derive(section, place, style),
            Subject::Path(section, path) => path::derive(section, path, place, style),
            Subject::Plane(section, path, n) => plane::derive(section, path, n, place, style),
        }
    }

    /// Whether what it tells is as precise as was asked for.
    #[must_use]
    pub fn settled(&self) -> bool {
        match self.subject {
            Subject::DewPoint(_) | Subject::Transmittance(_) => true,
            Subject::Path(_, path) | Subject::Plane(_, path, _) => path.winter.converged,
        }
    }
}
