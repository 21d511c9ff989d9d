//! The verdict of an assembly: its worst finding.

use super::group::Group;
use super::kind::{ALL, DetailScene, Run, Scene};
use super::range::Asked;
use super::{Finding, On, Status, air_leak, detail, range, room_surface, steel_wood};
use crate::model::drawn::DetailCase;
use crate::model::{Case, Conditions, Stop};
use crate::quantity::{Temperature, TemperatureDifference};
use crate::solve::detail::{DetailFailure, DetailResult, HandCheck};
use crate::solve::{AssemblyResult, EndResult, PathResult, Profile};

/// All findings of one case and what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// The worst status, in words `pass`, `depends` or `fail`.
    pub status: Status,
    /// The findings, worst first, then in the order of the checks.
    pub findings: Vec<Finding>,
    /// The least margin among the judged findings, winter mean.
    pub least_margin: Option<TemperatureDifference>,
}

impl Verdict {
    /// The finding that decides: the first that made the word, since findings stand worst first,
    /// then in the order of [`super::ALL`], then by how far over the limit.
    #[must_use]
    pub fn deciding(&self) -> Option<&Finding> {
        let severity = self.status.severity();
        let judged =
            |one: &&Finding| one.status != Status::Note && one.status.severity() == severity;
        self.findings.iter().find(judged)
    }

    /// The finding that speaks: the one that decides; of a pass, the judged one whose margin is least.
    #[must_use]
    pub fn speaking(&self) -> Option<&Finding> {
        if self.status.severity() > 0 {
            return self.deciding();
        }
        let judged = self.findings.iter().filter(|f| f.status != Status::Note);
        let closest = judged
            .filter(|finding| finding.margin.is_some() && !finding.check.is_of_mold)
            .max_by(|a, b| a.excess().total_cmp(&b.excess()));
        closest.or_else(|| self.deciding())
    }

    /// The same verdict as that of a site, which every finding of it carries.
    #[must_use]
    pub(crate) fn at(mut self, site: usize) -> Self {
        for finding in &mut self.findings {
            finding.site = site;
        }
        self
    }

    /// What the word hangs on, where it is `depends`.
    #[must_use]
    pub fn on(&self) -> Option<On> {
        match self.status.severity() {
            1 => self.deciding()?.on,
            _ => None,
        }
    }
}

/// Runs every check on what was solved, then again at the ends of the materials' ranges.
#[must_use]
pub fn judge(case: &Case, stop: &Stop, result: &AssemblyResult) -> Verdict {
    let mut findings = every_check(case, stop, result);
    range::widen(case, stop, result, &mut findings, Asked::Whole);
    weighed(spanned(findings, &stop.conditions))
}

/// Runs every check once, at the materials' nominal values: nothing of what the data's range does.
///
/// # Example
/// ```
/// use dewmargin::check::{judge, judge_nominal};
///
/// let text = include_str!("../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("wall.yaml", text).unwrap();
/// let (case, stop) = (&project.cases[0], &project.stops[0]);
/// let result = dewmargin::solve::solve(&case.assembly, &stop.conditions);
/// let nominal = judge_nominal(case, stop, &result);
/// assert!(nominal.findings.iter().all(|finding| finding.range.is_none()));
/// assert_eq!(nominal.least_margin, judge(case, stop, &result).least_margin);
/// ```
#[must_use]
pub fn judge_nominal(case: &Case, stop: &Stop, result: &AssemblyResult) -> Verdict {
    let findings = every_check(case, stop, result);
    weighed(spanned(findings, &stop.conditions))
}

/// One finding judged again after a change, as [`judge`] does as far as it is asked; `None` where the check has nothing more
/// to judge.
pub(crate) fn judge_again(
    case: &Case,
    stop: &Stop,
    result: &AssemblyResult,
    wanted: &Finding,
    asked: Asked,
) -> Option<Finding> {
    let mut findings = every_check(case, stop, result);
    findings.retain(|finding| finding.is_alike(wanted) && finding.status != Status::Note);
    range::widen(case, stop, result, &mut findings, asked);
    let findings = spanned(findings, &stop.conditions).into_iter();
    findings.reduce(|kept, other| match other.is_worse_than(&kept) {
        true => other,
        false => kept,
    })
}

/// Every finding with the difference between room and outdoors that its margins are measured by.
pub(super) fn spanned(mut findings: Vec<Finding>, conditions: &Conditions) -> Vec<Finding> {
    for finding in &mut findings {
        finding.span = Some(finding.when().span(conditions));
    }
    findings
}

fn every_check(case: &Case, stop: &Stop, result: &AssemblyResult) -> Vec<Finding> {
    let scene = Scene {
        case,
        stop,
        conditions: &stop.conditions,
        result,
    };
    let mut findings = over_ends(result, |end| at_end(&scene, end));
    for check in ALL {
        match check.run {
            Run::Whole(run) => findings.extend(run(&scene)),
            Run::Table(run) => findings.extend(run(&scene).into_iter().map(|one| noted(stop, one))),
            Run::Group(_) | Run::End(_) | Run::Detail(_) | Run::Along => {}
        }
    }
    findings
}

/// What hangs on the air in vented gaps: on the paths between the steel together, over each strip, and
/// on the end as a whole.
fn at_end(scene: &Scene<'_>, end: &EndResult) -> Vec<Finding> {
    let groups = Group::all(scene.case, end);
    let mut findings = Vec::new();
    for check in ALL {
        match check.run {
            Run::Group(run) => {
                let all = groups.iter().flat_map(|group| of_group(run, scene, group));
                findings.extend(all);
            }
            Run::End(run) => findings.extend(run(scene, end)),
            Run::Whole(_) | Run::Table(_) | Run::Detail(_) | Run::Along => {}
        }
    }
    findings
}

/// The findings of a group carry the name of its strip.
fn of_group(
    run: fn(&Scene<'_>, &Group<'_>) -> Vec<Finding>,
    scene: &Scene<'_>,
    group: &Group<'_>,
) -> Vec<Finding> {
    let mut findings = run(scene, group);
    for finding in &mut findings {
        finding.strip = group.strip.map(|strip| strip.name.clone());
    }
    findings
}

/// Who doesn't name a code isn't held against its tables; who names half of one is told so.
fn noted(stop: &Stop, finding: Finding) -> Finding {
    match (finding.status, stop.code.asked) {
        (Status::Depends | Status::Fail, false) => Finding {
            status: Status::Note,
            on: None,
            ..finding
        },
        (Status::Depends, true) => Finding {
            on: Some(On::Edition),
            ..finding
        },
        _ => finding,
    }
}

/// The findings in order, and what they come to.
pub(crate) fn weighed(mut findings: Vec<Finding>) -> Verdict {
    findings.sort_by(|a, b| {
        a.rank()
            .cmp(&b.rank())
            .then(b.excess().total_cmp(&a.excess()))
    });
    let status = worst(findings.iter().map(|finding| finding.status));
    let judged = findings.iter().filter(|f| f.status != Status::Note);
    let least_margin = judged
        .filter_map(|finding| finding.margin)
        .min_by(|a, b| a.as_kelvin().total_cmp(&b.as_kelvin()));
    Verdict {
        status,
        findings,
        least_margin,
    }
}

/// Judges a detail. One that couldn't be solved can't be judged, and says so.
#[must_use]
pub fn judge_detail(
    case: &DetailCase,
    stop: &Stop,
    result: &Result<DetailResult, DetailFailure>,
    estimates: &[HandCheck],
) -> Verdict {
    let findings = match result {
        Ok(result) => {
            let scene = DetailScene {
                case,
                conditions: &stop.conditions,
                result,
                estimates,
            };
            let runs = ALL.iter().filter_map(|check| match check.run {
                Run::Detail(run) => Some(run(&scene)),
                _ => None,
            });
            runs.flatten().collect()
        }
        Err(_) => vec![Finding {
            on: Some(On::Tolerance),
            ..Finding::new(
                &detail::WOOD,
                Status::Unknown,
                "the detail couldn't be solved",
            )
        }],
    };
    weighed(spanned(findings, &stop.conditions))
}

/// Findings of both ends of vented gaps; for each check the worse one counts.
pub(super) fn over_ends(
    result: &AssemblyResult,
    of_end: impl Fn(&EndResult) -> Vec<Finding>,
) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    for finding in result.ends.iter().flat_map(of_end) {
        match findings.iter_mut().find(|kept| same_place(kept, &finding)) {
            Some(kept) if is_worse(&finding, kept) => *kept = finding,
            Some(_) => {}
            None => findings.push(finding),
        }
    }
    findings
}

fn same_place(one: &Finding, other: &Finding) -> bool {
    let noted = |finding: &Finding| finding.status == Status::Note;
    one.check == other.check
        && one.strip == other.strip
        && noted(one) == noted(other)
        && (!noted(one) || one.place == other.place)
}

fn is_worse(one: &Finding, other: &Finding) -> bool {
    let slack = |f: &Finding| {
        let margin = f.margin.map(TemperatureDifference::as_kelvin);
        f.slack.or(margin).unwrap_or(f64::INFINITY)
    };
    (one.status.severity(), -slack(one)) > (other.status.severity(), -slack(other))
}

/// The worst of several statuses: fail, then depends, then pass.
#[must_use]
pub fn worst(statuses: impl IntoIterator<Item = Status>) -> Status {
    match statuses.into_iter().map(Status::severity).max() {
        Some(2) => Status::Fail,
        Some(1) => Status::Depends,
        _ => Status::Pass,
    }
}

/// The worst of a path's findings on the temperatures of the winter mean and the design night,
/// which a section shows. A check that reports only the worst of all paths counts for every path
/// that crosses the same limit.
#[must_use]
pub fn path_status(verdict: &Verdict, path: &PathResult, room_dew_point: Temperature) -> Status {
    if path.by_strip.is_some() {
        return shown_status(path, room_dew_point);
    }
    let shown = [
        &steel_wood::CHECK,
        &air_leak::CHECK,
        &room_surface::CONDENSATION,
    ];
    let concerns = |finding: &&Finding| {
        if !shown.contains(&finding.check) {
            return false;
        }
        let place = finding.place.as_ref();
        place.is_some_and(|place| place.path == path.path.name) || shares(finding, path)
    };
    worst(
        verdict
            .findings
            .iter()
            .filter(concerns)
            .map(|finding| finding.status),
    )
}

/// Over a strip that a detail shows, the detail judges: its wood by the detail's temperatures.
fn shown_status(path: &PathResult, room_dew_point: Temperature) -> Status {
    let Some(wood) = path.roles.iter().position(|role| role.wood_at_steel) else {
        return Status::Pass;
    };
    let crosses = |profile: &Profile| profile.planes[wood].temperature <= room_dew_point;
    match (
        path.roles[wood].reached,
        crosses(&path.winter),
        path.night.as_deref().is_some_and(crosses),
    ) {
        (false, ..) | (true, false, false) => Status::Pass,
        (true, true, _) => Status::Fail,
        (true, false, true) => Status::Depends,
    }
}

fn shares(finding: &Finding, path: &PathResult) -> bool {
    let of_surface = finding.check == &room_surface::CONDENSATION;
    let plane = match finding.check == &air_leak::CHECK {
        true => path.coldest(|role| role.judged),
        false => of_surface.then_some(0),
    };
    let (Some(plane), Some(limit)) = (plane, finding.limit) else {
        return false;
    };
    let crosses = |profile: &Profile| profile.planes[plane].temperature <= limit;
    let on_night = path.night.as_deref().is_some_and(crosses);
    // What crosses on the design night alone never fails.
    crosses(&path.winter) || of_surface && finding.status == Status::Depends && on_night
}
