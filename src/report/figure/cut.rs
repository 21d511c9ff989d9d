//! One path ready to be drawn: its layers as built, its planes with their margins.

use super::hatch::Hatch;
use crate::check::{Status, path_status};
use crate::material::Kind;
use crate::model::{Case, Content, Layer};
use crate::quantity::{Length, Style, Temperature, TemperatureDifference, ThermalResistance};
use crate::solve::{AssemblyResult, EndResult, PathKind, PathResult, Piece};
use crate::study::Judged;

/// How many paths a section plot shows.
const MOST_PATHS: usize = 4;

/// A layer as drawn.
pub(super) struct Cell {
    /// Its name.
    pub(super) name: String,
    /// What it is made of.
    pub(super) label: String,
    /// Its thickness.
    pub(super) thickness: Length,
    /// How it is filled.
    pub(super) hatch: Hatch,
    /// Its resistance; `None` where it lies outside ventilated air and isn't counted.
    pub(super) resistance: Option<ThermalResistance>,
}

/// One path with what the drawing needs to know.
pub(in crate::report) struct Cut<'a> {
    /// The solved path.
    pub(in crate::report) path: &'a PathResult,
    /// Its layers, inside to outside, those outside ventilated air included.
    pub(super) cells: Vec<Cell>,
    /// The worst of its findings.
    pub(super) status: Status,
    /// Room air.
    pub(super) room: Temperature,
    /// Outdoor air on the winter mean.
    pub(super) outdoors: Temperature,
    /// Dew point of the room air.
    pub(super) dew_point: Temperature,
}

/// A plane's margin and which of the two it is.
pub(super) struct Margin {
    /// How far above the dew point.
    pub(super) value: TemperatureDifference,
    /// `leak`, `dew point`, or `not judged` where leaking air goes on to outdoors.
    pub(super) word: &'static str,
}

impl<'a> Cut<'a> {
    /// A path of a case.
    pub(in crate::report) fn new(one: &Judged<'_>, path: &'a PathResult) -> Self {
        let conditions = &one.stop().conditions;
        Self {
            path,
            cells: cells(one.case, path),
            status: path_status(&one.verdict, path, one.result().room_dew_point),
            room: conditions.indoor.temperature,
            outdoors: conditions.winter_mean.temperature,
            dew_point: one.result().room_dew_point,
        }
    }

    /// The last plane that leaking room air reaches.
    pub(super) fn reached_to(&self) -> usize {
        self.path
            .roles
            .iter()
            .rposition(|role| role.reached)
            .unwrap_or(0)
    }

    /// The last plane the air-leak check judges; what lies beyond faces outdoor air or is sealed in.
    pub(super) fn judged_to(&self) -> usize {
        self.path
            .roles
            .iter()
            .rposition(|role| role.judged)
            .unwrap_or(0)
    }

    /// The coldest judged plane; where none is judged, the room's surface.
    pub(in crate::report) fn least(&self) -> usize {
        self.path.coldest(|role| role.judged).unwrap_or(0)
    }

    /// A plane's temperature on the winter mean.
    pub(in crate::report) fn temperature(&self, plane: usize) -> Temperature {
        self.path.winter.planes[plane].temperature
    }

    /// A plane's leak margin where leaking room air reaches it.
    pub(super) fn leak_margin(&self, plane: usize) -> TemperatureDifference {
        self.temperature(plane) - self.dew_point
    }

    /// The leak margin at the same plane on the design night.
    pub(super) fn night_margin(&self, plane: usize) -> Option<TemperatureDifference> {
        let night = self.path.night.as_ref()?;
        Some(night.planes[plane].temperature - self.dew_point)
    }

    /// A plane's own margin: leak margin where air reaches, else dew-point margin by diffusion.
    pub(super) fn margin(&self, plane: usize) -> Option<Margin> {
        if self.path.roles[plane].reached {
            let value = self.leak_margin(plane);
            let is_judged = plane <= self.judged_to() || value.as_kelvin() > 0.0;
            return Some(Margin {
                value,
                word: if is_judged { "leak" } else { "not judged" },
            });
        }
        let value = self.path.winter.planes[plane].dew_point_margin?;
        Some(Margin {
            value,
            word: "dew point",
        })
    }

    /// Thickness of everything drawn.
    pub(super) fn thickness(&self) -> Length {
        Length::from_m(self.cells.iter().map(|cell| cell.thickness.as_m()).sum())
    }

    /// Every temperature the chart has to show, °C.
    pub(super) fn temperatures(&self) -> impl Iterator<Item = f64> + '_ {
        let planes = self.path.winter.planes.iter();
        let of_planes = planes.flat_map(|plane| {
            [Some(plane.temperature), plane.dew_point]
                .into_iter()
                .flatten()
        });
        let others = [self.room, self.outdoors, self.dew_point];
        of_planes.chain(others).map(Temperature::as_celsius)
    }

    /// What lies at the path's outer end.
    pub(super) fn outer_word(&self) -> &'static str {
        match self.path.path.kind {
            PathKind::Strip(_) => "cold steel",
            _ => "outdoors",
        }
    }
}

impl Cell {
    /// `subfloor: plywood, 3/4 in`, or without the material.
    pub(super) fn words(&self, style: Style, with_material: bool) -> String {
        let thickness = match self.thickness.as_m() {
            0.0 => String::new(),
            _ => format!(", {}", style.show(self.thickness)),
        };
        let same = self.name.to_lowercase() == self.label.to_lowercase();
        match with_material && !same {
            true => format!("{}: {}{thickness}", self.name, self.label),
            false => format!("{}{thickness}", self.name),
        }
    }

    /// Its resistance: `R 5.00`, or the number alone where the heading gives the unit.
    pub(super) fn resistance_words(&self, style: Style) -> String {
        let Some(resistance) = self.resistance else {
            return "not counted".to_owned();
        };
        let words = style.show(resistance);
        words.trim_end_matches(" m²K/W").to_owned()
    }
}

fn cells(case: &Case, path: &PathResult) -> Vec<Cell> {
    let pieces = path
        .path
        .pieces
        .iter()
        .zip(&path.in_one_dimension().resistances);
    let mut cells: Vec<Cell> = pieces
        .map(|(piece, r)| piece_cell(case, piece, *r))
        .collect();
    if path.path.ends_at_ventilated_air {
        let last = path.path.pieces.last().and_then(|piece| piece.layer);
        let counted = last.map_or(0, |last| last + 1);
        let beyond = case.assembly.layers.iter().skip(counted);
        cells.extend(beyond.map(beyond_cell));
    }
    cells
}

fn piece_cell(case: &Case, piece: &Piece, resistance: ThermalResistance) -> Cell {
    let layer = piece.layer.and_then(|n| case.assembly.layers.get(n));
    let is_member = layer.is_some_and(|layer| layer.name != piece.name);
    let is_air = !is_member && layer.is_some_and(|l| matches!(l.content, Content::Air(_)));
    Cell {
        name: piece.name.clone(),
        label: piece.label.clone(),
        thickness: piece.thickness,
        hatch: match (is_member, is_air) {
            (true, _) => member_hatch(piece.kind),
            (_, true) => Hatch::Air,
            _ => Hatch::Kind(piece.kind),
        },
        resistance: Some(resistance),
    }
}

fn member_hatch(kind: Option<Kind>) -> Hatch {
    if kind == Some(Kind::Metal) {
        Hatch::Kind(kind)
    } else {
        Hatch::Member
    }
}

fn beyond_cell(layer: &Layer) -> Cell {
    let (label, hatch) = match &layer.content {
        Content::Solid(solid) => (solid.label.clone(), Hatch::Kind(solid.kind)),
        Content::Air(_) => ("air space".to_owned(), Hatch::Air),
    };
    Cell {
        name: layer.name.clone(),
        label,
        thickness: layer.thickness,
        hatch,
        resistance: None,
    }
}

/// The end of the range of vented gaps that is drawn: the one with the least leak margin.
pub(in crate::report) fn drawn_end(result: &AssemblyResult) -> Option<&EndResult> {
    let least = |end: &EndResult| {
        let coldest = end.paths.iter().map(coldest_judged);
        coldest.fold(f64::INFINITY, f64::min)
    };
    result
        .ends
        .iter()
        .min_by(|a, b| least(a).total_cmp(&least(b)))
}

/// The coldest judged temperature of a path, °C; infinite where nothing is judged.
fn coldest_judged(path: &PathResult) -> f64 {
    let plane = path.coldest(|role| role.judged);
    plane.map_or(f64::INFINITY, |n| {
        path.winter.planes[n].temperature.as_celsius()
    })
}

/// The paths a section plot shows, in the order of the assembly: the first cavity path, the
/// worst strip, and the worst of the rest.
pub(in crate::report) fn shown_paths(end: &EndResult) -> Vec<&PathResult> {
    let is_strip = |path: &PathResult| matches!(path.path.kind, PathKind::Strip(_));
    let mut order: Vec<usize> = (0..end.paths.len()).collect();
    order.sort_by(|a, b| coldest_judged(&end.paths[*a]).total_cmp(&coldest_judged(&end.paths[*b])));
    let strip = order.iter().copied().find(|n| is_strip(&end.paths[*n]));
    let mut shown: Vec<usize> = Vec::new();
    for n in [Some(0), strip].into_iter().flatten().chain(order) {
        if shown.len() < MOST_PATHS && !shown.contains(&n) && n < end.paths.len() {
            shown.push(n);
        }
    }
    shown.sort_unstable();
    shown.into_iter().map(|n| &end.paths[n]).collect()
}

/// The path a comparison shows: the worst strip's, or without strips the one with the least leak
/// margin.
pub(super) fn compared_path(end: &EndResult) -> Option<&PathResult> {
    let rank = |path: &PathResult| {
        (
            !matches!(path.path.kind, PathKind::Strip(_)),
            coldest_judged(path),
        )
    };
    end.paths.iter().min_by(|a, b| {
        let (a, b) = (rank(a), rank(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    })
}
