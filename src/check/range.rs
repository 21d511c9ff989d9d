//! Worst cases over the materials' ranges, and which input decides.
//!
//! Every judged finding is run again at two corners: each material property at the end of its
//! spread so that together they are adverse to this check, then the kindest corner: how they are
//! found, `check::corner`. A status that isn't the same at nominal and at both corners is
//! `depends`; but what takes over a year to dry at the nominal values fails, whatever the kind
//! corner. The inputs that move the result most are named, with the value at which each of them
//! changes the status.

use super::corner::{self, Badness, Seek};
pub use super::flip::{Flip, FlipValue, Input, Mover, Range};
use super::group::Group;
use super::kind::{Ranged, Run, Scene};
use super::memo::{Depth, End, Memo};
use super::verdict::over_ends;
use super::{Finding, On, Status};
use crate::model::{Assembly, Case, Conditions, PropertyKind, Stop};
use crate::solve::{AssemblyResult, Extent, PathKind, PathResult};

/// Margins closer to zero than this can't be told from it, K.
pub(super) const ROUNDING: f64 = 0.05;

/// How much of a range is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    /// All of it: margins at the corners where they are quick, what moves the result and where it flips.
    Whole,
    /// The words at both corners.
    Word,
    /// Whether it passes: nothing makes a pass of what isn't one at the nominal values.
    Pass,
}

/// Runs every judged finding at the corners and changes its status where the data's range does.
pub(super) fn widen(
    case: &Case,
    stop: &Stop,
    result: &AssemblyResult,
    findings: &mut [Finding],
    asked: Asked,
) {
    let memo = Memo::new(case, stop, &result.shown);
    let may_pass = |finding: &&mut Finding| finding.status.severity() == 0;
    for finding in findings
        .iter_mut()
        .filter(|finding| asked != Asked::Pass || may_pass(finding))
    {
        let Some(aim) = Aim::new(&memo, result, finding) else {
            continue;
        };
        let range = aim.range(finding, asked);
        let statuses = [range.adverse, finding.status, range.kind].map(Status::severity);
        let stands = aim.ranged.stands && finding.status == Status::Fail;
        let flips = !stands && statuses.iter().any(|severity| *severity != statuses[0]);
        if range.too_close || flips {
            let on = match flips {
                true => aim.ranged.on,
                false => On::Tolerance,
            };
            // What hangs on tightness or a cold spell already does so first.
            finding.on = match finding.status.severity() {
                1 => finding.on,
                _ => Some(on),
            };
            finding.status = Status::Depends;
        }
        finding.range = Some(Box::new(range));
    }
}

/// One check at one place, to be evaluated again with changed inputs.
pub(super) struct Aim<'a> {
    pub(super) case: &'a Case,
    pub(super) stop: &'a Stop,
    pub(super) memo: &'a Memo<'a>,
    ranged: &'static Ranged,
    run: fn(&Scene<'_>, &Group<'_>) -> Vec<Finding>,
    path: Option<&'a str>,
    plane: Option<usize>,
    strip: Option<&'a str>,
}

impl<'a> Aim<'a> {
    /// `None` for findings that don't hang on the materials' ranges.
    fn new(memo: &'a Memo<'a>, result: &'a AssemblyResult, finding: &'a Finding) -> Option<Self> {
        let ranged = finding.check.ranged.as_ref()?;
        let Run::Group(run) = finding.check.run else {
            return None;
        };
        let judged = matches!(
            finding.status,
            Status::Pass | Status::Depends | Status::Fail
        );
        finding.slack?;
        let place = finding.place.as_ref()?;
        let paths = result.ends.iter().flat_map(|end| &end.paths);
        let path = paths
            .into_iter()
            .find(|path| path.path.name == place.path)?;
        judged.then(|| Self {
            case: memo.case,
            stop: memo.stop,
            memo,
            ranged,
            run,
            path: Some(&path.path.name),
            plane: path
                .plane_names
                .iter()
                .position(|name| *name == place.plane),
            strip: finding.strip.as_deref(),
        })
    }

    fn range(&self, nominal: &Finding, asked: Asked) -> Range {
        let properties = &self.memo.properties;
        let by_heat_alone = matches!(self.ranged.needs, Depth::Winter | Depth::Heat);
        let spread = (0..properties.len()).filter(|n| {
            let property = &properties[*n];
            let matters = property.kind == PropertyKind::Conductivity || !by_heat_alone;
            property.spread.is_known() && matters
        });
        let spread: Vec<usize> = spread.collect();
        let singles: Vec<[View; 2]> = spread
            .iter()
            .map(|n| {
                [false, true].map(|high| {
                    let mut ends = self.memo.nominal();
                    ends[*n] = End::of(high);
                    self.view(&ends)
                })
            })
            .collect();
        let by_place: Vec<Vec<[f64; 2]>> = singles
            .iter()
            .map(|[low, high]| {
                let both = low.places.iter().zip(&high.places);
                both.map(|(low, high)| [*low, *high]).collect()
            })
            .collect();
        let at_corner = |corner: &[bool]| {
            let mut ends = self.memo.nominal();
            for (n, high) in spread.iter().zip(corner) {
                ends[*n] = End::of(*high);
            }
            self.view(&ends).badness
        };
        let own = (nominal.status.severity(), -nominal.slack.unwrap_or(0.0));
        let found = |seek: Seek| {
            let named = singles.iter().find_map(|[low, _]| low.named_place);
            let starts = corner::starts(seek, &by_place, named);
            // Heat alone is quick: there the margins at the corners are told as well.
            let word = asked != Asked::Whole || !by_heat_alone;
            let found = corner::search(seek, word, starts, at_corner);
            found.unwrap_or(own)
        };
        let (adverse, kind) = (found(Seek::Worst), found(Seek::Best));
        let by_temperature = nominal.margin.is_some();
        let statuses = [adverse.0, kind.0].map(|severity| severity == nominal.status.severity());
        let is_told = self.ranged.always_ranked || statuses != [true, true];
        let movers = match is_told && asked == Asked::Whole {
            true => self.movers(nominal.status, &spread, &singles),
            false => Vec::new(),
        };
        Range {
            nominal: nominal.status,
            adverse: word(adverse, nominal.status),
            kind: word(kind, nominal.status),
            slack: [-adverse.1, -kind.1],
            too_close: by_temperature && nominal.slack.is_some_and(|s| s.abs() < ROUNDING),
            movers,
        }
    }

    /// How the check comes out with the properties at these ends, as a whole and place by place.
    fn view(&self, ends: &[End]) -> View {
        let result = self.memo.at(self.ranged.needs, ends);
        let mut places = Vec::new();
        let mut named = None;
        for path in result.ends.iter().flat_map(|end| &end.paths) {
            if !self.concerns(path) {
                continue;
            }
            let from = places.len();
            places.extend((self.ranged.by_place)(path));
            let here = (Some(path.path.name.as_str()) == self.path).then_some(from);
            named = named.or(here);
        }
        let (status, slack) = match self.ranged.word {
            Some(word) => word(places.iter().copied().fold(0.0, f64::max)),
            None => self.judged(&self.stop.conditions, &result),
        };
        let its_own = named.filter(|_| self.ranged.ranked_by_named_place);
        let its_own = its_own.zip(self.plane);
        let its_own = its_own.and_then(|(from, plane)| places.get(from + plane));
        View {
            named_place: named.zip(self.plane).map(|(from, plane)| from + plane),
            badness: (status.severity(), -slack),
            named: its_own
                .copied()
                .filter(|days| days.is_finite())
                .unwrap_or(slack),
            places,
        }
    }

    /// Whether a path is among those that the check judges together.
    fn concerns(&self, path: &PathResult) -> bool {
        let strip = match path.path.kind {
            PathKind::Strip(n) => self.case.assembly.strips.get(n),
            _ => None,
        };
        strip.map(|strip| strip.name.as_str()) == self.strip
    }

    /// Status and slack of the check under changed inputs, drying at the named plane alone.
    pub(super) fn evaluate(&self, assembly: &Assembly, conditions: &Conditions) -> (Status, f64) {
        let named = self.path.zip(self.plane);
        self.evaluate_to(self.ranged.needs.extent(named), assembly, conditions)
    }

    fn evaluate_to(
        &self,
        extent: Extent<'_>,
        assembly: &Assembly,
        conditions: &Conditions,
    ) -> (Status, f64) {
        let result = match std::ptr::eq(conditions, &self.stop.conditions) {
            true => self.memo.moved(assembly, extent),
            false => self.memo.moved_in(conditions, assembly, extent),
        };
        self.judged(conditions, &result)
    }

    fn judged(&self, conditions: &Conditions, result: &AssemblyResult) -> (Status, f64) {
        let scene = Scene {
            case: self.case,
            stop: self.stop,
            conditions,
            result,
        };
        let findings = over_ends(result, |end| {
            let groups = Group::all(self.case, end);
            let is_meant =
                |group: &&Group<'_>| group.strip.map(|strip| strip.name.as_str()) == self.strip;
            let meant = groups.iter().filter(is_meant);
            meant.flat_map(|group| (self.run)(&scene, group)).collect()
        });
        let mut judged = findings.iter().filter(|f| f.status != Status::Note);
        judged
            .next()
            .map_or((Status::Pass, f64::INFINITY), |finding| {
                (finding.status, finding.slack.unwrap_or(0.0))
            })
    }
}

/// A check on one changed assembly.
pub(super) struct View {
    badness: Badness,
    /// The place that the finding names.
    named_place: Option<usize>,
    /// At the place that the finding names, or of the check as a whole.
    pub(super) named: f64,
    /// By place: greater is worse.
    places: Vec<f64>,
}

/// The word of a severity; that of the nominal values where it is the same.
fn word((severity, _): Badness, nominal: Status) -> Status {
    match severity {
        same if same == nominal.severity() => nominal,
        0 => Status::Pass,
        1 => Status::Depends,
        _ => Status::Fail,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::resolve_text;
    use crate::solve::solve;

    /// Two boards with a foil between them. The inner one, behind a coat whose value is known, dries
    /// slower; the outer one, behind a coat of 5 perm that may have half a perm, is dry soon.
    fn drying(least: &str) -> Finding {
        let text = format!(
            "indoor: {{heating: 68 F, cooling: 75 F, humidity: 40 %}}
climate: wet-coast
materials:
  even board: {{kind: wood, conductivity: 0.12 W/mK, vapor: 20 perm-in}}
  foil: {{kind: membrane, vapor: 0 perm}}
  inner coat: {{kind: lining, conductivity: 0.2 W/mK, vapor: 1 perm}}
  outer coat:
    kind: lining
    conductivity: 0.2 W/mK
    vapor: {{mid: {{nominal: 5 perm, low: {least}, high: 9 perm}}}}
assemblies:
  wall:
    kind: wall
    layers:
      - {{name: inner coat, material: inner coat, thickness: 1 mm}}
      - {{name: inner board, material: even board, thickness: 1/2 in}}
      - {{name: foil, material: foil, thickness: 0.1 mm}}
      - {{name: outer board, material: even board, thickness: 1/2 in}}
      - {{name: outer coat, material: outer coat, thickness: 1 mm}}
"
        );
        let project = resolve_text("wall.yaml", &text).expect("a sound file");
        let (case, stop) = (&project.cases[0], &project.stops[0]);
        let result = solve(&case.assembly, &stop.conditions);
        let verdict = crate::check::judge(case, stop, &result);
        let mut found = verdict.findings.into_iter();
        found
            .find(|one| one.check == &super::super::drying::CHECK)
            .expect("drying is judged")
    }

    #[test]
    fn another_plane_may_be_the_slowest_where_the_data_are_worst() {
        let [open, tight] = ["4.5 perm", "0.5 perm"].map(drying);
        for finding in [&open, &tight] {
            let place = finding.place.as_ref().expect("a place");
            assert!(place.plane.contains("inner board"), "{place:?}");
        }
        let range = |finding: &Finding| finding.range.clone().expect("a range");
        assert_eq!(range(&open).adverse, Status::Pass);
        assert_eq!(open.status, Status::Pass);
        assert_eq!(range(&tight).adverse, Status::Fail);
        assert_eq!(
            (range(&tight).nominal, range(&tight).kind),
            (Status::Pass, Status::Pass)
        );
        assert_eq!(tight.status, Status::Depends);
    }
}
