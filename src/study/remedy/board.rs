//! The board over the steel: searched on coarse grids as sizing does, confirmed on the usual ones.

use super::drier::{drier, fails_on_the_mean, needed_at};
use super::ground::Ground;
use super::{Measure, OverStrip};
use crate::check::{self, Detail, Finding, On};
use crate::model::drawn::{DetailCase, DetailPlan, FoamReach};
use crate::model::{Content, Layer, SoldBoard, Stop, Strip};
use crate::quantity::{Length, unit::INCH};
use crate::solve::conduction::Coldest;
use crate::solve::detail::{CornerSpot, SpotPrecision, Spots, solve_spots};
use crate::study::{JudgedDetail, Study};

/// The thickest board that is told, m.
pub(super) const THICKEST: f64 = 4.0 * INCH + 1e-6;
/// Most solutions of one search; then words have to do.
const MOST_SOLVED: u32 = 14;
/// What would make a finding of a detail pass: a board, else drier air.
pub(super) fn measures(
    study: &Study<'_>,
    one: &JudgedDetail<'_>,
    finding: &Finding,
) -> Vec<Measure> {
    let mut search = Search::new(study, one, finding);
    let found = search.as_mut().map_or_else(Vec::new, Search::run);
    match found.is_empty() {
        true => drier(one, finding).into_iter().collect(),
        false => found.into_iter().map(Measure::OverStrip).collect(),
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
            DetailPlan::RoofEdge(_) => return None,
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
    /// of what fails on it. Under the plate too, where less is enough then.
    fn run(&mut self) -> Vec<OverStrip> {
        let reaches: &[Option<FoamReach>] = match self.own_reach {
            None | Some(FoamReach::UnderPlate) => &[None],
            Some(FoamReach::PlateInnerEdge) => &[None, Some(FoamReach::UnderPlate)],
        };
        for winter_alone in [false, true] {
            if winter_alone && !fails_on_the_mean(self.finding) {
                continue;
            }
            let needed = self.needed[usize::from(winter_alone)];
            let mut found: Vec<OverStrip> = Vec::new();
            for reach in reaches {
                let least = self.least(*reach, needed);
                let is_less = |over: &OverStrip| {
                    let mut thinner = found.iter().map(|one| one.thickness);
                    thinner.all(|one| over.thickness < one)
                };
                found.extend(least.filter(is_less).map(|over| OverStrip {
                    winter_alone,
                    ..over
                }));
            }
            if !found.is_empty() {
                return found;
            }
        }
        Vec::new()
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
            true => SpotPrecision::quick(),
            false => SpotPrecision::full(),
        };
        let of_surface = self.finding.check != &check::detail::WOOD;
        let conditions = &self.stop.conditions;
        let spots = solve_spots(&case, conditions, &precision, of_surface).ok()?;
        // The temperature and its bar: in full the bar counts against it.
        let least = |found: &mut dyn Iterator<Item = (f64, f64)>| {
            let all = found.map(|(celsius, bar)| celsius - if quick { 0.0 } else { bar });
            all.reduce(f64::min)
        };
        let along = least(&mut self.along(&spots)?.into_iter());
        let corner = spots.corner.iter().filter(|spot| self.is_meant(spot));
        let corner = least(&mut corner.map(|spot| (spot.temperature, spot.bar)));
        // Where no air gets any more, nothing is too cold.
        let celsius = along
            .into_iter()
            .chain(corner)
            .fold(f64::INFINITY, f64::min);
        let outdoor = conditions.winter_mean.temperature.as_celsius();
        let span = conditions.indoor.temperature.as_celsius() - outdoor;
        Some((celsius - outdoor) / span)
    }

    /// The finding's place in the cut; nothing where it lies at the corner, or where air doesn't get there
    /// any more. `None` where there is no such place.
    fn along(&self, spots: &Spots) -> Option<Option<(f64, f64)>> {
        let told = |coldest: &Coldest| (coldest.point.temperature, coldest.bar);
        let place = &self.finding.place.as_ref()?.path;
        if self.is_at_corner() {
            return Some(None);
        }
        if self.finding.check != &check::detail::WOOD {
            let mut surfaces = spots.surfaces.iter();
            let (_, coldest) = surfaces.find(|(name, _)| name == place)?;
            return Some(Some(told(coldest)));
        }
        let part = spots.wood.iter().find(|part| part.name == *place)?;
        Some(part.reached.as_ref().map(|(coldest, _)| told(coldest)))
    }

    /// Whether a place at the corner has to be clear with it: the finding's own, or what its place is
    /// called there. Mold at the corner alone is judged more mildly.
    fn is_meant(&self, spot: &CornerSpot) -> bool {
        let place = self.finding.place.as_ref().map(|place| &place.path);
        let Some(place) = place else { return false };
        let check = self.finding.check;
        match self.is_at_corner() {
            true => spot.name == *place,
            false if check == &check::detail::WOOD => true,
            false => !check.is_of_mold && spot.along == *place,
        }
    }

    fn is_at_corner(&self) -> bool {
        matches!(&self.finding.detail, Detail::Spot(spot) if spot.is_at_corner())
    }
}
