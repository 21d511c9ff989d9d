//! The board over the steel: searched on coarse grids as sizing does, confirmed on the usual ones.

use super::ground::Ground;
use super::{Measure, OverStrip};
use crate::check::{Check, Detail, Finding, On};
use crate::model::drawn::{DetailCase, DetailPlan, FoamReach};
use crate::model::{Content, Layer, SoldBoard, Stop, Strip};
use crate::physics::moist_air::saturation_vapor_pressure;
use crate::quantity::{Length, RelativeHumidity, Temperature, TemperatureDifference, unit::INCH};
use crate::solve::conduction::{Coldest, Precision};
use crate::solve::detail::solve_spots;
use crate::study::{JudgedDetail, Study};

/// The thickest board that is told, m.
pub(super) const THICKEST: f64 = 4.0 * INCH + 1e-6;
/// Most solutions of one search; then words have to do.
const MOST_SOLVED: u32 = 14;
/// Relative humidity above which mold grows.
const MOLD: f64 = 0.8;

/// What would make a finding of a detail pass: a board, else drier air.
pub(super) fn measures(
    study: &Study<'_>,
    one: &JudgedDetail<'_>,
    finding: &Finding,
) -> Vec<Measure> {
    let mut search = Search::new(study, one, finding);
    let found = search.as_mut().and_then(Search::run);
    match found {
        Some(over) => vec![Measure::OverStrip(over)],
        None => drier(study, one, finding).into_iter().collect(),
    }
}

/// A board over a strip that no detail shows: by the strip alone it is only known to help.
pub(super) fn by_hand(ground: &Ground<'_>) -> Vec<Measure> {
    let assembly = ground.assembly();
    let named = |strip: &&Strip| Some(&strip.name) == ground.finding.strip.as_ref();
    let Some(strip) = assembly.strips.iter().find(named) else {
        return Vec::new();
    };
    let Some((board, there)) = board_for(&ground.project.stock.boards, strip) else {
        return Vec::new();
    };
    let settled = |measure: &Measure| {
        let clear = |after: Option<Finding>| {
            after.is_none_or(|one| one.status.severity() == 0 || one.on == Some(On::Drawing))
        };
        ground.tried(measure).is_ok_and(clear)
    };
    let all = thicknesses(board, there).into_iter().map(|thickness| {
        Measure::OverStrip(OverStrip {
            drawn: false,
            ..over(&ground.name(), strip, board, there, thickness)
        })
    });
    let all: Vec<Measure> = all.collect();
    let first = all.into_iter().find(settled);
    first.or_else(|| ground.drier()).into_iter().collect()
}

/// The board to lay over a strip, and the layer there that it takes the place of: the foam that lies
/// there already, else what the file lays over its strips elsewhere, else the library's usual one.
fn board_for<'s>(
    boards: &'s [SoldBoard],
    strip: &'s Strip,
) -> Option<(&'s SoldBoard, Option<&'s Layer>)> {
    let label = |layer: &Layer| match &layer.content {
        Content::Solid(substance) => Some(substance.label.clone()),
        Content::Air(_) => None,
    };
    let there = strip.over.iter().find_map(|layer| {
        let label = label(layer)?;
        let board = boards.iter().find(|one| one.substance.label == label)?;
        Some((board, Some(layer)))
    });
    let other = || {
        let mut boards = boards.iter().filter(|one| !one.substance.air_permeable);
        boards.next().map(|board| (board, None))
    };
    there.or_else(other)
}

/// What is sold and thicker than what is there; first the same, if only the adhesive is missing.
fn thicknesses(board: &SoldBoard, there: Option<&Layer>) -> Vec<Length> {
    let now = there.map_or(0.0, |layer| layer.thickness.as_m());
    let loose = there.filter(|layer| !layer.bonded);
    let same = loose.map(|layer| layer.thickness);
    let thicker = board.sold.iter().copied();
    let thicker = thicker.filter(|one| (now + 1e-6..=THICKEST).contains(&one.as_m()));
    same.into_iter().chain(thicker).collect()
}

fn over(
    floor: &str,
    strip: &Strip,
    board: &SoldBoard,
    there: Option<&Layer>,
    thickness: Length,
) -> OverStrip {
    OverStrip {
        floor: floor.to_owned(),
        strip: strip.name.clone(),
        name: board.name.clone(),
        substance: Box::new(board.substance.clone()),
        thickness,
        replaces: there.map(|layer| layer.name.clone()),
        only_bonded: there.is_some_and(|layer| layer.thickness == thickness),
        reach: None,
        winter_alone: false,
        drawn: true,
    }
}

/// A search over boards and reaches for one finding of a detail.
struct Search<'s> {
    case: &'s DetailCase,
    stop: &'s Stop,
    finding: &'s Finding,
    floor: &'s str,
    strip: &'s Strip,
    board: &'s SoldBoard,
    there: Option<&'s Layer>,
    own_reach: Option<FoamReach>,
    /// Temperature factor that is needed: at every time, and on the winter mean alone.
    needed: [f64; 2],
    solved: u32,
}

impl<'s> Search<'s> {
    fn new(study: &'s Study<'_>, one: &'s JudgedDetail<'_>, finding: &'s Finding) -> Option<Self> {
        let case = one.case;
        let (floor, strip, own_reach) = match case.plan.as_ref()? {
            DetailPlan::FloorEdge(edge) => (&edge.floor, edge.flange, Some(edge.foam)),
            DetailPlan::CrossMembers(members) => (&members.floor, members.strip, None),
        };
        let strip = floor.strips.get(strip)?;
        let (board, there) = board_for(&study.project.stock.boards, strip)?;
        let needed = |winter_alone: bool| {
            let stops = one.stops.iter();
            let all = stops.flat_map(|stop| needed_at(stop, finding.check, winter_alone));
            all.fold(f64::NEG_INFINITY, f64::max)
        };
        matches!(finding.detail, Detail::Spot(_)).then(|| Self {
            case,
            stop: &one.stops[finding.site],
            finding,
            floor: &floor.name,
            strip,
            board,
            there,
            own_reach,
            needed: [needed(false), needed(true)],
            solved: 0,
        })
    }

    /// The least board that clears every time; where none does, the least that clears the winter mean
    /// of what fails on it.
    fn run(&mut self) -> Option<OverStrip> {
        let reaches: &[Option<FoamReach>] = match self.own_reach {
            None | Some(FoamReach::UnderPlate) => &[None],
            Some(FoamReach::PlateInnerEdge) => &[None, Some(FoamReach::UnderPlate)],
        };
        let fails = self.finding.status.severity() == 2 && !self.finding.check.is_of_mold();
        for needed in 0..if fails { 2 } else { 1 } {
            for reach in reaches {
                if let Some(found) = self.least(*reach, self.needed[needed]) {
                    return Some(OverStrip {
                        winter_alone: needed == 1,
                        ..found
                    });
                }
            }
        }
        None
    }

    fn at(&self, thickness: Length, reach: Option<FoamReach>) -> OverStrip {
        // Bare steel has no reach of its own to change: the board's says how far it goes.
        OverStrip {
            reach,
            ..over(self.floor, self.strip, self.board, self.there, thickness)
        }
    }

    /// The least board at a reach: by halving on coarse grids, then confirmed, or one up.
    fn least(&mut self, reach: Option<FoamReach>, needed: f64) -> Option<OverStrip> {
        let all: Vec<OverStrip> = thicknesses(self.board, self.there)
            .into_iter()
            .map(|thickness| self.at(thickness, reach))
            .collect();
        let mut clears = |over: &OverStrip, quick: bool| {
            self.factor(over, quick)
                .is_some_and(|factor| factor > needed)
        };
        let (mut low, mut high) = (0, all.len().checked_sub(1)?);
        if !clears(&all[high], true) {
            return None;
        }
        while low < high {
            let middle = low.midpoint(high);
            match clears(&all[middle], true) {
                true => high = middle,
                false => low = middle + 1,
            }
        }
        let up = all.into_iter().skip(high).take(2);
        let mut up = up.filter(|over| clears(over, false));
        up.next()
    }

    /// The temperature factor at the finding's place with a board; less its error bar, once in full.
    fn factor(&mut self, over: &OverStrip, quick: bool) -> Option<f64> {
        self.solved += 1;
        if self.solved > MOST_SOLVED {
            return None;
        }
        let measure = Measure::OverStrip(over.clone());
        let case = self.case.replanned(|plan| measure.replan(plan)).ok()?;
        let precision = match quick {
            true => Precision::quick(),
            false => Precision::default(),
        };
        let of_surface = self.finding.check != Check::DetailWood;
        let conditions = &self.stop.conditions;
        let spots = solve_spots(&case, conditions, &precision, of_surface).ok()?;
        let place = &self.finding.place.as_ref()?.path;
        let coldest: Coldest = match of_surface {
            true => spots.surfaces.iter().find(|(name, _)| name == place)?.1,
            false => {
                let part = spots.wood.iter().find(|part| part.name == *place)?;
                match &part.reached {
                    Some((coldest, _)) => *coldest,
                    // No air gets there any more.
                    None => return Some(f64::INFINITY),
                }
            }
        };
        let bar = if quick { 0.0 } else { coldest.bar };
        let outdoor = conditions.winter_mean.temperature.as_celsius();
        let span = conditions.indoor.temperature.as_celsius() - outdoor;
        Some((coldest.point.temperature - bar - outdoor) / span)
    }
}

/// Room and outdoor temperature at the times a check looks at, with the humidity of the room.
fn times(
    stop: &Stop,
    check: Check,
    winter_alone: bool,
) -> Vec<(Temperature, Temperature, RelativeHumidity)> {
    let conditions = &stop.conditions;
    let room = conditions.indoor;
    let winter = (
        room.temperature,
        conditions.winter_mean.temperature,
        room.humidity,
    );
    let by_month = |month: &crate::model::MonthState| {
        let indoor = month.indoor;
        (
            indoor.temperature,
            month.outdoor.temperature,
            indoor.humidity,
        )
    };
    let mut all = vec![winter];
    if check.is_of_mold() {
        let months: Vec<_> = conditions.year.iter().flatten().map(by_month).collect();
        return if months.is_empty() { all } else { months };
    }
    if winter_alone {
        return all;
    }
    let night = conditions.design_night;
    all.extend(night.map(|night| (room.temperature, night.temperature, room.humidity)));
    if check != Check::DetailCondensation {
        let month = conditions.coldest_month().zip(conditions.year.as_ref());
        all.extend(month.map(|(month, year)| by_month(&year[month])));
    }
    all
}

/// The vapor's share of saturation at the place that a check allows.
fn allowed(check: Check) -> f64 {
    if check.is_of_mold() { MOLD } else { 1.0 }
}

/// Temperature factors that a check needs at a site.
fn needed_at(stop: &Stop, check: Check, winter_alone: bool) -> Vec<f64> {
    let all = times(stop, check, winter_alone).into_iter();
    let factor = |(indoor, outdoor, humidity): (Temperature, Temperature, RelativeHumidity)| {
        let span = (indoor - outdoor).as_kelvin();
        let vapor = saturation_vapor_pressure(indoor).as_pa() * humidity.as_fraction();
        let at = crate::physics::moist_air::dew_point(crate::quantity::Pressure::from_pa(
            vapor / allowed(check),
        ));
        (span > 0.0).then(|| (at - outdoor).as_kelvin() / span)
    };
    all.filter_map(factor).collect()
}

/// The most humid room, in whole percent, at which a place of a detail is clear at every site.
pub(super) fn drier(_: &Study<'_>, one: &JudgedDetail<'_>, finding: &Finding) -> Option<Measure> {
    let Detail::Spot(spot) = &finding.detail else {
        return None;
    };
    let stop = &one.stops[finding.site];
    let winter = &stop.conditions;
    let span = (winter.indoor.temperature - winter.winter_mean.temperature).as_kelvin();
    let factor = spot.factor? - spot.bar / span.abs().max(1e-9);
    let clear = |(indoor, outdoor, _): (Temperature, Temperature, RelativeHumidity)| {
        let kelvin = factor * (indoor - outdoor).as_kelvin();
        let there = outdoor + TemperatureDifference::from_kelvin(kelvin);
        let at_place = saturation_vapor_pressure(there).as_pa();
        let room = saturation_vapor_pressure(indoor).as_pa();
        allowed(finding.check) * at_place / room
    };
    let stops = one.stops.iter();
    let all = stops.flat_map(|stop| times(stop, finding.check, false));
    let least = all.map(clear).fold(f64::INFINITY, f64::min);
    // Just under it, in whole percent.
    let percent = ((least - 1e-3) * 100.0).floor();
    (percent >= 1.0).then(|| Measure::DrierRoom {
        humidity: RelativeHumidity::from_fraction(percent / 100.0),
    })
}
