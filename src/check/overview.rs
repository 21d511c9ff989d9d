//! The numbers that alternatives are compared by.

use crate::quantity::{Temperature, TemperatureDifference};
use crate::solve::{AssemblyResult, PathKind, PathResult};

/// One case at a glance, on the winter mean, the worse end of vented gaps taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Overview {
    /// The coldest room surface.
    pub coldest_surface: Temperature,
    /// The wood nearest to a strip's metal; `None` where no strip has wood on it.
    pub wood_at_steel: Option<Temperature>,
    /// Whether leaking room air reaches that wood.
    pub wood_is_reached: bool,
    /// That wood's margin over the dew point of the room air.
    pub wood_margin: Option<TemperatureDifference>,
    /// Least leak margin among the judged planes.
    pub leak_margin: Option<TemperatureDifference>,
    /// Least dew-point margin among the vulnerable planes.
    pub dew_point_margin: Option<TemperatureDifference>,
}

/// Gathers the overview of a solved case.
#[must_use]
pub fn overview(result: &AssemblyResult) -> Overview {
    let paths = || result.ends.iter().flat_map(|end| &end.paths);
    let least = |values: &mut dyn Iterator<Item = f64>| values.min_by(f64::total_cmp);
    let surface = least(&mut paths().map(|path| path.winter.planes[0].temperature.as_celsius()));
    let wood = paths()
        .filter_map(wood_at_steel)
        .min_by(|a, b| a.0.as_celsius().total_cmp(&b.0.as_celsius()));
    let limit = result.room_dew_point;
    let leak = least(&mut paths().flat_map(|path| {
        let judged = path
            .roles
            .iter()
            .zip(&path.winter.planes)
            .filter(|(role, _)| role.judged);
        judged.map(|(_, plane)| (plane.temperature - limit).as_kelvin())
    }));
    let dew = least(&mut paths().flat_map(|path| {
        let planes = path
            .roles
            .iter()
            .zip(&path.winter.planes)
            .filter(|(role, _)| role.vulnerable);
        planes
            .filter_map(|(_, plane)| plane.dew_point_margin)
            .map(|margin| margin.as_kelvin())
    }));
    Overview {
        coldest_surface: Temperature::from_celsius(surface.unwrap_or(f64::NAN)),
        wood_at_steel: wood.map(|wood| wood.0),
        wood_is_reached: wood.is_some_and(|wood| wood.1),
        wood_margin: wood.map(|wood| wood.0 - limit),
        leak_margin: leak.map(TemperatureDifference::from_kelvin),
        dew_point_margin: dew.map(TemperatureDifference::from_kelvin),
    }
}

fn wood_at_steel(path: &PathResult) -> Option<(Temperature, bool)> {
    matches!(path.path.kind, PathKind::Strip(_)).then_some(())?;
    let plane = path.roles.iter().position(|role| role.wood_at_steel)?;
    Some((
        path.winter.planes[plane].temperature,
        path.roles[plane].reached,
    ))
}
