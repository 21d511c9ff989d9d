//! Worst cases over the materials' ranges, and which input decides.
//!
//! Every judged finding is run again at two corners: each material property at the end of its
//! spread that is adverse to this check, then each at the kind one. The adverse end is found by
//! moving one property at a time, at the place that the finding names; at the corners every place is
//! looked at, since another may be the worse one there. A status that isn't the same at nominal and at both corners is
//! `depends`. The inputs that move the result most are named, with the value at which each of them
//! changes the status.

pub use super::flip::{Flip, FlipValue, Input, Mover, Range};
use super::group::Group;
use super::verdict::over_ends;
use super::{
    Check, Finding, On, Status, air_leak, diffusion, drying, inward_leak, room_surface, steel_wood,
    year,
};
use crate::model::{Assembly, Case, Conditions, Property, PropertyKind, Stop};
use crate::quantity::{Permeance, RelativeHumidity, ThermalResistance};
use crate::solve::{AssemblyResult, Extent, StripFactors, solve_shown};

/// Margins closer to zero than this can't be told from it, K.
const ROUNDING: f64 = 0.05;
/// How far the room's humidity is moved to rank it among the inputs, as a fraction.
const HUMIDITY_STEP: f64 = 0.05;
/// Where flip values of the room's humidity are looked for.
const HUMIDITIES: [f64; 2] = [0.20, 0.80];
/// Factor up and down within which flip values of a permeance are looked for.
const PERMEANCE_REACH: f64 = 30.0;
/// The same for a resistance.
const RESISTANCE_REACH: f64 = 2.5;
/// What moves a result less than this doesn't move it, in the check's own unit.
const NO_EFFECT: f64 = 1e-6;
/// How many inputs are named.
const NAMED: usize = 3;
/// Halvings of the span in which a status changes: to a hundredth of it.
const HALVINGS: usize = 9;

/// Runs every judged finding at the corners and changes its status where the data's range does.
pub(super) fn widen(case: &Case, stop: &Stop, result: &AssemblyResult, findings: &mut [Finding]) {
    let properties = case.assembly.properties();
    for finding in findings {
        let Some(aim) = Aim::new(case, stop, result, finding) else {
            continue;
        };
        let range = aim.range(&properties, finding);
        let statuses = [range.adverse, finding.status, range.kind].map(Status::severity);
        let flips = statuses.iter().any(|severity| *severity != statuses[0]);
        if range.too_close || flips {
            let on = match flips {
                true => On::Material,
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
struct Aim<'a> {
    case: &'a Case,
    stop: &'a Stop,
    check: Check,
    path: Option<&'a str>,
    plane: Option<usize>,
    strip: Option<&'a str>,
    shown: &'a [Option<StripFactors>],
}

impl<'a> Aim<'a> {
    /// `None` for findings that don't hang on the materials' ranges.
    fn new(
        case: &'a Case,
        stop: &'a Stop,
        result: &'a AssemblyResult,
        finding: &'a Finding,
    ) -> Option<Self> {
        let ranged = matches!(
            finding.check,
            Check::WoodAtSteel
                | Check::Drying
                | Check::AirLeak
                | Check::InwardLeak
                | Check::Year
                | Check::SurfaceCondensation
                | Check::SurfaceMold
        );
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
        (ranged && judged).then(|| Self {
            case,
            stop,
            check: finding.check,
            path: Some(&path.path.name),
            plane: path
                .plane_names
                .iter()
                .position(|name| *name == place.plane),
            strip: finding.strip.as_deref(),
            shown: &result.shown,
        })
    }

    fn range(&self, properties: &[Property], nominal: &Finding) -> Range {
        let assembly = &self.case.assembly;
        let conditions = &self.stop.conditions;
        let by_heat_alone = !matches!(self.check, Check::Year | Check::Drying);
        let spread = properties.iter().filter(|property| {
            let matters = property.kind == PropertyKind::Conductivity || !by_heat_alone;
            property.spread.is_known() && matters
        });
        let mut adverse = assembly.clone();
        let mut kind = assembly.clone();
        let mut effects: Vec<(f64, Lever<'_>)> = Vec::new();
        for property in spread {
            let ends = [property.spread.low, property.spread.high];
            let ends = ends.map(|factor| assembly.with(property, factor));
            let [low, high] = [0, 1].map(|n| self.evaluate(&ends[n], conditions));
            let decides = match self.check == Check::Drying && (low.1 - high.1).abs() < NO_EFFECT {
                // Nothing at the named plane hangs on it; at another one something may.
                true => [0, 1].map(|n| self.evaluate_to(self.extent(None), &ends[n], conditions)),
                false => [low, high],
            };
            let (worse, better) = match is_worse(decides[0], decides[1]) {
                true => (property.spread.low, property.spread.high),
                false => (property.spread.high, property.spread.low),
            };
            adverse.multiply(property, worse);
            kind.multiply(property, better);
            effects.push(((high.1 - low.1).abs(), Lever::Material(property)));
        }
        let humidity = |step| self.evaluate(assembly, &moved(conditions, step)).1;
        let effect = (humidity(HUMIDITY_STEP) - humidity(-HUMIDITY_STEP)).abs();
        effects.push((effect, Lever::Humidity));
        effects.retain(|(effect, _)| *effect > NO_EFFECT);
        effects.sort_by(|a, b| b.0.total_cmp(&a.0));
        let movers = effects.iter().take(NAMED);
        let movers = movers
            .map(|(_, lever)| self.mover(lever, nominal.status))
            .collect();
        let at_corner = |corner| self.evaluate_to(self.extent(None), corner, conditions);
        let (adverse, kind) = (at_corner(&adverse), at_corner(&kind));
        let by_temperature = nominal.margin.is_some();
        Range {
            nominal: nominal.status,
            adverse: adverse.0,
            kind: kind.0,
            slack: [adverse.1, kind.1],
            too_close: by_temperature && nominal.slack.is_some_and(|s| s.abs() < ROUNDING),
            movers,
        }
    }

    /// What has to be solved for the check: drying of one plane, or of all of them.
    fn extent<'p>(&self, plane: Option<(&'p str, usize)>) -> Extent<'p> {
        match self.check {
            Check::Year => Extent::Year,
            Check::Drying => Extent::Drying(plane),
            Check::SurfaceMold | Check::InwardLeak => Extent::Heat,
            _ => Extent::Winter,
        }
    }

    /// Status and slack of the check under changed inputs, drying at the named plane alone.
    fn evaluate(&self, assembly: &Assembly, conditions: &Conditions) -> (Status, f64) {
        let named = self.path.zip(self.plane);
        self.evaluate_to(self.extent(named), assembly, conditions)
    }

    fn evaluate_to(
        &self,
        extent: Extent<'_>,
        assembly: &Assembly,
        conditions: &Conditions,
    ) -> (Status, f64) {
        let result = solve_shown(assembly, conditions, extent, self.shown);
        let findings = over_ends(&result, |end| {
            let groups = Group::all(self.case, end);
            let is_meant =
                |group: &&Group<'_>| group.strip.map(|strip| strip.name.as_str()) == self.strip;
            let meant = groups.iter().filter(is_meant);
            meant
                .flat_map(|group| self.run(conditions, &result, group))
                .collect()
        });
        let mut judged = findings.iter().filter(|f| f.status != Status::Note);
        judged
            .next()
            .map_or((Status::Pass, f64::INFINITY), |finding| {
                (finding.status, finding.slack.unwrap_or(0.0))
            })
    }

    fn run(
        &self,
        conditions: &Conditions,
        result: &AssemblyResult,
        group: &Group<'_>,
    ) -> Vec<Finding> {
        match self.check {
            Check::WoodAtSteel => steel_wood::check(conditions, result, group)
                .into_iter()
                .collect(),
            Check::Drying => vec![drying::check(group)],
            Check::AirLeak => vec![air_leak::check(conditions, result, group)],
            Check::InwardLeak => inward_leak::check(conditions, group).into_iter().collect(),
            Check::Year => year::check(group),
            Check::SurfaceCondensation => {
                vec![room_surface::condensation(conditions, result, group)]
            }
            Check::SurfaceMold => vec![room_surface::mold(conditions, result, group)],
            _ => diffusion::check(group),
        }
    }

    fn mover(&self, lever: &Lever<'_>, nominal: Status) -> Mover {
        let assembly = &self.case.assembly;
        let input = match lever {
            Lever::Humidity => Input::RoomHumidity,
            Lever::Material(property) => {
                let name = assembly.part_name(property);
                match property.kind {
                    PropertyKind::Conductivity => Input::Resistance(name),
                    PropertyKind::Vapor => Input::Permeance(name),
                }
            }
        };
        Mover {
            input,
            flip: self.flip(lever, nominal),
        }
    }

    /// Where the status changes: outward from the nominal value, downward first.
    fn flip(&self, lever: &Lever<'_>, nominal: Status) -> Option<Flip> {
        let conditions = &self.stop.conditions;
        let assembly = &self.case.assembly;
        let room = conditions.indoor.humidity.as_fraction();
        // Everything in one coordinate: humidity straight, factors by their logarithm.
        let (start, ends) = match lever {
            Lever::Humidity => (room, HUMIDITIES),
            Lever::Material(property) => {
                let reach = match property.kind {
                    PropertyKind::Conductivity => libm::log(RESISTANCE_REACH),
                    PropertyKind::Vapor => libm::log(PERMEANCE_REACH),
                };
                (0.0, [-reach, reach])
            }
        };
        let status = |x: f64| match lever {
            Lever::Humidity => self.evaluate(assembly, &moved(conditions, x - room)).0,
            Lever::Material(property) => {
                let changed = assembly.with(property, libm::exp(x));
                self.evaluate(&changed, conditions).0
            }
        };
        let changes = |end: f64| status(end).severity() != nominal.severity();
        let end = ends.into_iter().find(|end| changes(*end))?;
        let (mut near, mut far) = (start, end);
        for _ in 0..HALVINGS {
            let middle = 0.5 * (near + far);
            if changes(middle) {
                far = middle
            } else {
                near = middle
            }
        }
        let at = 0.5 * (near + far);
        let value = |property: &Property, x: f64| {
            assembly
                .layer_value(property)
                .map(|value| value * libm::exp(x))
        };
        let (at, above) = match lever {
            Lever::Humidity => (
                FlipValue::Humidity(RelativeHumidity::from_fraction(at)),
                end > start,
            ),
            Lever::Material(property) => match property.kind {
                PropertyKind::Vapor => (
                    FlipValue::Permeance(Permeance::from_si(value(property, at)?)),
                    end > start,
                ),
                // More conductivity is less resistance.
                PropertyKind::Conductivity => (
                    FlipValue::Resistance(ThermalResistance::from_si(value(property, -at)?)),
                    end < start,
                ),
            },
        };
        Some(Flip {
            at,
            becomes: status(far),
            from: nominal,
            above,
        })
    }
}

/// What is moved.
enum Lever<'a> {
    Humidity,
    Material(&'a Property),
}

fn is_worse(one: (Status, f64), other: (Status, f64)) -> bool {
    (one.0.severity(), -one.1) > (other.0.severity(), -other.1)
}

/// Conditions with the room's humidity moved in every month, within what air can hold.
fn moved(conditions: &Conditions, step: f64) -> Conditions {
    let shift = |humidity: RelativeHumidity| {
        RelativeHumidity::from_fraction((humidity.as_fraction() + step).clamp(0.01, 1.0))
    };
    let mut moved = *conditions;
    moved.indoor.humidity = shift(moved.indoor.humidity);
    for month in moved.year.iter_mut().flatten() {
        month.indoor.humidity = shift(month.indoor.humidity);
    }
    moved
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
            .find(|one| one.check == Check::Drying)
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
