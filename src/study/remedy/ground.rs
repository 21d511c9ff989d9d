//! An assembly on which measures are tried out for one finding.

use rayon::prelude::*;

use super::Measure;
use crate::check::{
    self, Asked, Check, Finding, Status, judge_again, judge_nominal, judge_on_road, worst,
};
use crate::model::{Assembly, Case, Project, Stop};
use crate::quantity::RelativeHumidity;
use crate::solve::house::{areas, fit, layout, weight};
use crate::solve::{Extent, StripFactors, solve_shown};
use crate::study::{Judged, Study};

/// The driest room that is looked at, as a fraction: below it people mind.
pub const DRIEST: f64 = 0.25;

/// An assembly and the finding that measures are tried out for.
pub(super) struct Ground<'s> {
    pub(super) project: &'s Project,
    pub(super) one: &'s Judged<'s>,
    pub(super) finding: &'s Finding,
}

impl<'s> Ground<'s> {
    pub(super) fn new(study: &'s Study<'s>, one: &'s Judged<'s>, finding: &'s Finding) -> Self {
        Self {
            project: study.project,
            one,
            finding,
        }
    }

    pub(super) fn assembly(&self) -> &'s Assembly {
        &self.one.case.assembly
    }

    pub(super) fn name(&self) -> String {
        self.assembly().name.clone()
    }

    /// How much has to be solved for the check.
    fn extent(&self) -> Extent<'static> {
        let check = self.finding.check;
        match check == &check::drying::CHECK {
            true => Extent::Drying(None),
            false if check == &check::year::CHECK || check == &check::mold::CHECK => Extent::Year,
            false => Extent::Heat,
        }
    }

    /// The finding after a measure, at the worst site; `Err` where it can't be carried out, `None`
    /// where there is nothing left to find.
    pub(super) fn tried(&self, measure: &Measure) -> Result<Option<Finding>, ()> {
        self.judged(measure, Asked::Word)
    }

    fn judged(&self, measure: &Measure, asked: Asked) -> Result<Option<Finding>, ()> {
        let assembly = match measure {
            Measure::DrierRoom { .. } => self.assembly().clone(),
            _ => measure.change(self.assembly()).ok_or(())?,
        };
        let case = Case {
            variant: self.one.case.variant.clone(),
            assembly,
        };
        let at = |(site, stop): (usize, &Stop)| {
            let stop = match measure {
                Measure::DrierRoom { humidity, .. } => stop.with_humidity_at_most(*humidity),
                _ => stop.clone(),
            };
            let shown = self.shown(site);
            let result = solve_shown(&case.assembly, &stop.conditions, self.extent(), shown);
            judge_again(&case, &stop, &result, self.finding, asked)
        };
        let stops = self.one.stops.par_iter().enumerate();
        let found: Vec<Option<Finding>> = stops.map(at).collect();
        let found = found.into_iter().flatten();
        Ok(
            found.reduce(|kept, other| match other.is_worse_than(&kept) {
                true => other,
                false => kept,
            }),
        )
    }

    fn shown(&self, site: usize) -> &[Option<StripFactors>] {
        &self.one.sites[site].result.shown
    }

    /// Whether a measure makes the finding pass.
    pub(super) fn clears(&self, measure: &Measure) -> bool {
        let passes = |found: Option<Finding>| found.is_none_or(|one| one.status.severity() == 0);
        self.judged(measure, Asked::Pass).is_ok_and(passes)
    }

    /// How far over its limit the finding is after a measure that makes it better.
    pub(super) fn better(&self, measure: &Measure) -> Option<(u8, f64)> {
        let after = self.tried(measure).ok()?;
        let rank = |one: &Finding| (one.status.severity(), one.excess());
        let after = after.as_ref().map_or((0, f64::NEG_INFINITY), rank);
        let (severity, excess) = rank(self.finding);
        // A hundredth of what it is over isn't a remedy.
        let step = 0.05 * excess.abs();
        (after.0 < severity || after.0 == severity && after.1 < excess - step).then_some(after)
    }

    /// Of measures the first that makes it pass, else the one that makes it best; none that makes
    /// another check fail.
    pub(super) fn best(&self, measures: Vec<Measure>) -> Option<Measure> {
        let tried = measures.into_par_iter().filter_map(|measure| {
            let after = self.better(&measure)?;
            (!self.harms(&measure)).then_some((after, measure))
        });
        let tried: Vec<((u8, f64), Measure)> = tried.collect();
        let clears = tried.iter().position(|(after, _)| after.0 == 0);
        let least = || {
            let all = tried.iter().enumerate();
            let best =
                all.min_by(|(_, (a, _)), (_, (b, _))| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
            best.map(|(n, _)| n)
        };
        let n = clears.or_else(least)?;
        tried.into_iter().nth(n).map(|(_, measure)| measure)
    }

    /// Whether a measure makes another check fail that doesn't fail now, or doesn't fit.
    pub(super) fn harms(&self, measure: &Measure) -> bool {
        let Some(assembly) = measure.change(self.assembly()) else {
            return false;
        };
        let changed = Case {
            variant: self.one.case.variant.clone(),
            assembly,
        };
        let fails = |case: &Case, site: usize, stop: &Stop| -> Vec<&'static Check> {
            let conditions = &stop.conditions;
            let shown = self.shown(site);
            let result = solve_shown(&case.assembly, conditions, Extent::All, shown);
            let findings = judge_nominal(case, stop, &result).findings.into_iter();
            let failing = findings.filter(|one| one.status == Status::Fail);
            failing.map(|one| one.check).collect()
        };
        let worse_at = |(site, stop): (usize, &Stop)| {
            let after = fails(&changed, site, stop);
            let before = match after.is_empty() {
                true => Vec::new(),
                false => fails(self.one.case, site, stop),
            };
            after.iter().any(|check| !before.contains(check))
        };
        self.one.stops.par_iter().enumerate().any(worse_at) || self.doesnt_fit(measure)
    }

    /// Whether a measure can't be built with the details drawn from the assembly, or makes the house
    /// fail on the road that doesn't fail without.
    fn doesnt_fit(&self, measure: &Measure) -> bool {
        let variant = self.one.case.variant.as_deref();
        let on_road = |project: &Project| {
            let cases = project.house_cases();
            let own = cases.iter().find(|case| case.variant == variant);
            let verdict = own.or(cases.first()).map(|case| {
                let layout = layout(case);
                let fit = fit(case, layout.as_ref());
                let areas = areas(case, layout.as_ref());
                judge_on_road(case, &fit, &weight(case, layout.as_ref(), &areas)).status
            });
            worst(verdict).severity()
        };
        let after = measure.apply(self.project, variant);
        after.is_none_or(|after| on_road(&after) > on_road(self.project))
    }

    /// The most humid room, in whole percent, at which the finding passes.
    pub(super) fn drier(&self) -> Option<Measure> {
        let stop = self.one.sites.get(self.finding.site)?.stop;
        let now = stop.conditions.indoor.humidity.as_fraction();
        let at = |percent: u32| Measure::DrierRoom {
            humidity: RelativeHumidity::from_fraction(f64::from(percent) / 100.0),
            winter_alone: false,
            for_cold_spell: false,
        };
        let (mut low, mut high) = ((DRIEST * 100.0) as u32, (now * 100.0).ceil() as u32);
        if low >= high || !self.clears(&at(low)) {
            return None;
        }
        while high - low > 1 {
            let middle = low.midpoint(high);
            match self.clears(&at(middle)) {
                true => low = middle,
                false => high = middle,
            }
        }
        Some(at(low))
    }
}
