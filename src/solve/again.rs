//! One assembly solved again and again while the properties of its materials move.
//!
//! A property changes the paths that it lies on and no other: what was found of a path whose layers
//! are all as before holds to the last bit, and is remembered. Of a path whose layers resist heat as
//! before, it is as warm as before all through the year: each path has a year's solver of its own,
//! which keeps those temperatures.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;

use super::assembly::{AssemblyResult, Extent, PathResult, plane_names, solve_one, solved};
use super::path::Path;
use super::profile::{Slab, SlabHeat};
use super::setting::Setting;
use super::shown::StripFactors;
use super::year::YearSolver;
use crate::model::{Assembly, Conditions, Openness};

/// Paths that are remembered at most.
const MOST: usize = 512;

/// An assembly whose materials' properties move, all else the same: its air, the strips that details
/// show, and everything about its layers that isn't a property.
#[derive(Debug)]
pub struct Again {
    conditions: Conditions,
    shown: Vec<Option<StripFactors>>,
    /// By path, those of the open end behind those of the closed one.
    kept: Vec<Kept>,
    /// By a hash of their layers.
    known: HashMap<u64, Vec<Known>>,
    count: usize,
}

/// What of a path holds however its properties move.
#[derive(Debug, Default)]
struct Kept {
    solver: YearSolver,
    plane_names: Option<Arc<[String]>>,
}

/// A path that was solved.
#[derive(Debug)]
struct Known {
    openness: Openness,
    wanted: Wanted,
    result: PathResult,
}

/// What of a path was asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wanted {
    Winter,
    Heat,
    Year,
    Drying,
    DryingAt(usize),
    /// The drying of a plane of another path.
    DryingElsewhere,
    All,
}

impl Wanted {
    fn of(extent: Extent<'_>, path: &Path) -> Self {
        match extent {
            Extent::Winter => Self::Winter,
            Extent::Heat => Self::Heat,
            Extent::Year => Self::Year,
            Extent::Drying(None) => Self::Drying,
            Extent::Drying(Some((name, plane))) if name == path.name => Self::DryingAt(plane),
            Extent::Drying(Some(_)) => Self::DryingElsewhere,
            Extent::All => Self::All,
        }
    }
}

impl Again {
    /// Nothing solved yet; `shown` as in [`super::solve_shown`].
    #[must_use]
    pub fn new(conditions: &Conditions, shown: &[Option<StripFactors>]) -> Self {
        Self {
            conditions: *conditions,
            shown: shown.to_vec(),
            kept: Vec::new(),
            known: HashMap::new(),
            count: 0,
        }
    }

    /// The assembly with its properties as they are now.
    ///
    /// # Example
    /// ```
    /// use dewmargin::solve::{Again, Extent, solve_shown};
    ///
    /// let text = include_str!("../../examples/cabin-wall.yaml");
    /// let project = dewmargin::input::resolve_text("wall.yaml", text).unwrap();
    /// let (wall, conditions) = (&project.cases[0].assembly, &project.stops[0].conditions);
    /// let mut again = Again::new(conditions, &[]);
    /// for property in wall.properties() {
    ///     for factor in [0.5, 2.0] {
    ///         let moved = wall.with(&property, factor);
    ///         let afresh = solve_shown(&moved, conditions, Extent::Year, &[]);
    ///         assert_eq!(again.solve(&moved, Extent::Year), afresh);
    ///     }
    /// }
    /// ```
    #[must_use]
    pub fn solve(&mut self, assembly: &Assembly, extent: Extent<'_>) -> AssemblyResult {
        let (conditions, shown) = (self.conditions, self.shown.clone());
        let setting = Setting {
            assembly,
            conditions: &conditions,
        };
        solved(self, &setting, extent, &shown)
    }

    /// The same in other air: nothing is remembered of it.
    #[must_use]
    pub fn solve_in(
        &mut self,
        conditions: &Conditions,
        assembly: &Assembly,
        extent: Extent<'_>,
    ) -> AssemblyResult {
        let setting = Setting {
            assembly,
            conditions,
        };
        let mut afresh = Forgetful(&mut self.kept);
        solved(&mut afresh, &setting, extent, &self.shown)
    }
}

/// What solves the paths of an assembly, one after another.
pub(super) trait Paths {
    /// A path by its number and the end of vented gaps it belongs to.
    fn path(
        &mut self,
        at: (usize, Openness),
        setting: &Setting<'_>,
        path: Path,
        extent: Extent<'_>,
        factors: Option<StripFactors>,
    ) -> PathResult;
}

impl Paths for YearSolver {
    fn path(
        &mut self,
        _: (usize, Openness),
        setting: &Setting<'_>,
        path: Path,
        extent: Extent<'_>,
        factors: Option<StripFactors>,
    ) -> PathResult {
        let names = plane_names(setting.assembly.kind, &path);
        solve_one(self, setting, path, names, extent, factors)
    }
}

impl Paths for Again {
    fn path(
        &mut self,
        (n, openness): (usize, Openness),
        setting: &Setting<'_>,
        path: Path,
        extent: Extent<'_>,
        factors: Option<StripFactors>,
    ) -> PathResult {
        let wanted = Wanted::of(extent, &path);
        let hash = hash(&path);
        let is_it = |known: &&Known| {
            known.wanted == wanted && known.openness == openness && *known.result.path == path
        };
        let mut alike = self.known.get(&hash).into_iter().flatten();
        if let Some(known) = alike.find(is_it) {
            return known.result.clone();
        }
        let kept = kept(&mut self.kept, (n, openness));
        let result = kept.solve(setting, path, extent, factors);
        if self.count < MOST {
            self.count += 1;
            self.known.entry(hash).or_default().push(Known {
                openness,
                wanted,
                result: result.clone(),
            });
        }
        result
    }
}

/// Solvers by path, and nothing remembered but their temperatures.
struct Forgetful<'s>(&'s mut Vec<Kept>);

impl Paths for Forgetful<'_> {
    fn path(
        &mut self,
        at: (usize, Openness),
        setting: &Setting<'_>,
        path: Path,
        extent: Extent<'_>,
        factors: Option<StripFactors>,
    ) -> PathResult {
        kept(self.0, at).solve(setting, path, extent, factors)
    }
}

fn kept(all: &mut Vec<Kept>, (n, openness): (usize, Openness)) -> &mut Kept {
    let at = 2 * n + usize::from(openness == Openness::Open);
    if all.len() <= at {
        all.resize_with(at + 1, Kept::default);
    }
    &mut all[at]
}

impl Kept {
    fn solve(
        &mut self,
        setting: &Setting<'_>,
        path: Path,
        extent: Extent<'_>,
        factors: Option<StripFactors>,
    ) -> PathResult {
        let kind = setting.assembly.kind;
        let names = self
            .plane_names
            .get_or_insert_with(|| plane_names(kind, &path));
        let names = Arc::clone(names);
        solve_one(&mut self.solver, setting, path, names, extent, factors)
    }
}

/// Of the resistances of a path's layers.
fn hash(path: &Path) -> u64 {
    let mut hasher = DefaultHasher::new();
    for piece in &path.pieces {
        let Slab {
            heat,
            vapor_resistance,
            ..
        } = &piece.slab;
        vapor_resistance.to_bits().hash(&mut hasher);
        match heat {
            SlabHeat::Fixed(resistance) => resistance.as_si().to_bits().hash(&mut hasher),
            SlabHeat::Curve(thickness, curve) => {
                thickness.as_m().to_bits().hash(&mut hasher);
                let conductivities = curve.iter().map(|(_, conductivity)| conductivity.as_si());
                conductivities.for_each(|si| si.to_bits().hash(&mut hasher));
            }
        }
    }
    hasher.finish()
}
