//! The year: water in balance, never negative, monotone in the room's humidity, the same from the
//! other side.

use dewmargin::quantity::RelativeHumidity;
use dewmargin::solve::profile::{Boundary, Slab, solve_path};
use dewmargin::solve::year::{MONTH_DAYS, Watched, WaterYear, Year, dry_out, solve_year};
use proptest::prelude::*;

use super::{config, decades, resistance, slabs, slabs_with_barriers};
use crate::build_up::{air, boundary, slab};

/// Layers of which some follow their humidity and some let nothing through.
fn living_slabs() -> impl Strategy<Value = Vec<Slab>> {
    let z = prop_oneof![5 => decades(1e8, 1e12), 1 => Just(f64::INFINITY)];
    let opens = prop_oneof![1 => Just(1.0), 2 => 1.0..40.0];
    let one =
        (resistance(), z, opens, 0.2..0.8).prop_map(|(r, z, opens, split): (_, f64, f64, f64)| {
            let mut slab = slab(r, z);
            if z.is_finite() && opens > 1.0 {
                let mid = z * opens.powf(-split);
                slab.by_humidity = vec![(0.25, z), (0.6, mid), (0.85, z / opens)];
            }
            slab
        });
    prop::collection::vec(one, 1..8)
}

/// Twelve months around a mean, from the wet coast to the deep cold, with a room on the other
/// side; vapor films or none.
fn years() -> impl Strategy<Value = [Boundary; 12]> {
    let swing = [
        -1.0, -0.87, -0.5, 0.0, 0.5, 0.87, 1.0, 0.87, 0.5, 0.0, -0.5, -0.87,
    ];
    let outdoor = (-5.0..25.0, 2.0..20.0, prop::array::uniform12(0.3..1.0));
    let indoor = (17.0..26.0, 0.2..0.8);
    let films = (0.05..0.25, 0.02..0.2);
    let vapor = prop_oneof![Just((0.0, 0.0)), (decades(1e7, 1e9), decades(1e7, 1e9))];
    (outdoor, indoor, films, vapor).prop_map(move |(outdoor, indoor, films, vapor)| {
        std::array::from_fn(|month| Boundary {
            interior_vapor_film: vapor.0,
            exterior_vapor_film: vapor.1,
            ..boundary(
                air(indoor.0, indoor.1),
                air(outdoor.0 + outdoor.1 * swing[month], outdoor.2[month]),
                films,
            )
        })
    })
}

fn places(year: &Year) -> impl Iterator<Item = &WaterYear> {
    year.planes.iter().chain(&year.inside)
}

/// Vapor that could pass in a month, for what counts as rounding.
fn scale(year: &Year) -> f64 {
    let flows = year
        .months
        .iter()
        .map(|m| m.vapor_in.abs() + m.vapor_out.abs());
    let water = places(year).flat_map(|place| place.change.map(f64::abs));
    flows.chain(water).fold(0.0, f64::max)
}

proptest! {
    #![proptest_config(config(256))]

    #[test]
    fn vapor_in_less_vapor_out_is_the_water_gained(slabs in living_slabs(), months in years()) {
        let year = solve_year(&slabs, &months);
        let scale = scale(&year);
        for (n, month) in year.months.iter().enumerate() {
            let gained: f64 = places(&year).map(|place| place.change[n]).sum();
            let balance = month.vapor_in - month.vapor_out - gained;
            prop_assert!(balance.abs() <= 1e-11 * scale + 1e-13, "month {n}: {balance} of {scale}");
        }
    }

    #[test]
    fn water_is_never_negative(slabs in living_slabs(), months in years()) {
        let year = solve_year(&slabs, &months);
        for place in places(&year) {
            prop_assert!(place.held.iter().all(|held| *held >= 0.0 && *held <= place.peak));
            prop_assert_eq!(place.dry_by.is_some(), place.peak_month.is_some() && !place.never_dry);
            let sum: f64 = place.change.iter().sum();
            prop_assert!((sum - place.left_over).abs() <= 1e-11 * scale(&year) + 1e-13 * (1.0 + place.peak));
        }
        let last = slabs.len();
        for surface in [&year.planes[0], &year.planes[last]] {
            prop_assert_eq!(surface.peak, 0.0);
        }
    }

    #[test]
    fn humidity_always_fits(slabs in living_slabs(), months in years()) {
        let year = solve_year(&slabs, &months);
        prop_assert!(year.converged);
    }

    #[test]
    fn vapor_never_passes_saturation(slabs in living_slabs(), months in years()) {
        let year = solve_year(&slabs, &months);
        for (month, air) in year.months.iter().zip(&months) {
            let profile = solve_path(&slabs, air);
            for (plane, pressure) in month.pressures.iter().enumerate() {
                if let Some(pressure) = pressure {
                    let saturation = profile.planes[plane].saturation.as_pa();
                    prop_assert!(*pressure <= saturation * (1.0 + 1e-12));
                }
            }
        }
    }

    #[test]
    fn a_year_is_wet_where_a_month_condenses(slabs in slabs_with_barriers(), months in years()) {
        let year = solve_year(&slabs, &months);
        let inner = 1..slabs.len();
        let condensing = |air: &Boundary| {
            let profile = solve_path(&slabs, air);
            let planes: f64 = profile.planes[inner.clone()].iter().map(|p| p.condensing_flow).sum();
            planes + profile.condensing_inside.iter().sum::<f64>()
        };
        let most = months.iter().map(condensing).fold(0.0, f64::max);
        if most == 0.0 {
            prop_assert_eq!(year.start, None);
            prop_assert!(places(&year).all(|place| place.peak == 0.0));
        } else if most > 1e-13 {
            prop_assert!(year.start.is_some());
            prop_assert!(places(&year).any(|place| place.peak > 0.0));
        }
    }

    #[test]
    fn a_drier_room_never_means_more_water(
        slabs in slabs(), months in years(), part in 0.3..1.0,
    ) {
        let drier = months.map(|mut month| {
            let humidity = month.indoor.humidity.as_fraction();
            month.indoor.humidity = RelativeHumidity::from_fraction(humidity * part);
            month
        });
        let (damp, dry) = (solve_year(&slabs, &months), solve_year(&slabs, &drier));
        prop_assume!(damp.settled && dry.settled);
        let rounding = 1e-9 * (scale(&damp) + scale(&dry)) + 1e-13;
        for (damp, dry) in places(&damp).zip(places(&dry)) {
            prop_assert!(dry.left_over <= damp.left_over + rounding);
            if damp.never_dry {
                continue;
            }
            prop_assert!(!dry.never_dry);
            for month in 0..12 {
                prop_assert!(dry.held[month] <= damp.held[month] + rounding);
            }
        }
    }

    #[test]
    fn the_same_from_the_other_side(slabs in slabs_with_barriers(), months in years()) {
        let mirrored: Vec<Slab> = slabs.iter().rev().cloned().collect();
        let turned = months.map(|month| Boundary {
            indoor: month.outdoor,
            outdoor: month.indoor,
            interior_film: month.exterior_film,
            exterior_film: month.interior_film,
            interior_vapor_film: month.exterior_vapor_film,
            exterior_vapor_film: month.interior_vapor_film,
        });
        let (ours, other) = (solve_year(&slabs, &months), solve_year(&mirrored, &turned));
        let rounding = 1e-9 * scale(&ours) + 1e-12;
        for (a, b) in ours.planes.iter().zip(other.planes.iter().rev()) {
            prop_assert!((a.peak - b.peak).abs() <= rounding, "{} and {}", a.peak, b.peak);
            prop_assert!((a.left_over - b.left_over).abs() <= rounding);
        }
        for (a, b) in ours.months.iter().zip(&other.months) {
            prop_assert!((a.vapor_in + b.vapor_out).abs() <= rounding);
        }
    }

    #[test]
    fn water_that_dries_out_went_somewhere(
        slabs in living_slabs(), months in years(), at in any::<prop::sample::Index>(), start in 0..12_usize,
    ) {
        let plane = at.index(slabs.len() + 1);
        let all = (vec![true; slabs.len() + 1], vec![true; slabs.len()]);
        let damp: Vec<bool> = (0..slabs.len()).map(|n| n == plane || n + 1 == plane).collect();
        let watched = Watched { planes: &all.0, inside: &all.1, damp: &damp };
        let out = dry_out(&slabs, &months, (plane, 1.0), start, watched, 400.0);
        let put = if plane == 0 || plane == slabs.len() { 0.0 } else { 1.0 };
        let now: f64 = out.moved.iter().chain(&out.inside).sum();
        let went = out.to_room + out.to_outdoors;
        let through = out.to_room.abs() + out.to_outdoors.abs();
        prop_assert!(out.moved.iter().chain(&out.inside).all(|water| *water >= 0.0));
        // A slab without resistance to vapor at the surface puts the next plane at the air too.
        prop_assert!((put - now - went).abs() <= 1e-11 * (1.0 + through), "{out:?}");
        prop_assert_eq!(out.gone_after_days.is_some(), out.left == 0.0);
        prop_assert!(out.gone_after_days.is_none_or(|days| days <= 400.0));
    }
}

#[test]
fn the_year_has_365_days() {
    assert_eq!(MONTH_DAYS.iter().sum::<u32>(), 365);
}
