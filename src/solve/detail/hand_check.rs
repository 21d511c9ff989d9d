//! What simple estimates say of the same detail, to be held against the two-dimensional result.
//!
//! ```text
//! by strip    Q = Δθ (U_w l_w + U_f (l_f − w) + U_s w)      the steel at the outdoor film
//! by area     the same with U_s in series with what lies below the steel
//! isothermal  Q = Δθ (U_w l_w + U'' l_f)                     planes across the floor
//! fin         m = √((1/R_up + 1/R_down)/(k t)), root at the outdoor temperature:
//!             Q_s = (w (θ_i − θ_∞) + (θ_∞ − θ_e) tanh(m w)/m) / R_up
//! ```
//! w width of the steel under the floor inside the wall, l inside lengths of the cut, U_f and U_w
//! between the members. Source: parallel path and isothermal planes as in
//! [`crate::solve::transmittance`]; the straight fin with an adiabatic tip (any textbook on heat
//! transfer). Their errors are what this is for: none of them decides.

use crate::model::detail::Facing;
use crate::model::drawn::{DetailCase, DetailFilms, Part};
use crate::model::{Assembly, AssemblyKind, Openness};
use crate::quantity::Temperature;
use crate::solve::path::strip_in_series;
use crate::solve::profile::solve_path;
use crate::solve::{EndResult, PathKind, PathResult, heat_direction};

/// Which estimate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HandCheckKind {
    /// Parallel path, the steel at the outdoor film.
    ByStrip,
    /// Parallel path by area, the steel in series with what lies below it.
    ByArea,
    /// Isothermal planes across the floor.
    IsothermalPlanes,
    /// The straight fin.
    Fin,
}

/// An estimate of a detail.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HandCheck {
    /// Which one.
    pub kind: HandCheckKind,
    /// Heat flow through the cut, W/m.
    pub heat_flow: f64,
    /// Coldest floor surface.
    pub floor: Temperature,
    /// Outer face of the wood nearest to the steel; `None` where there is none.
    pub wood: Option<Temperature>,
    /// What it starts from.
    pub basis: HandCheckBasis,
}

/// The numbers every estimate of a detail starts from, SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HandCheckBasis {
    /// Room and outdoor air.
    pub air: (Temperature, Temperature),
    /// Width of steel under the floor inside the wall, m.
    pub width: f64,
    /// Inside length of the floor, m.
    pub length: f64,
    /// Heat through the wall, W/m.
    pub wall: f64,
    /// Film at the floor's surface, m²·K/W.
    pub film: f64,
    /// Total resistance between the members, m²·K/W.
    pub cavity: f64,
    /// Total resistance over the steel as this estimate takes it, m²·K/W.
    pub steel: f64,
    /// From the room's air to the underside of the layers common to both paths, m²·K/W.
    pub above: f64,
    /// From there to outdoors on the steel's path and beside it, m²·K/W.
    pub below: (f64, f64),
    /// From the room's air to the steel's outer face, m²·K/W.
    pub up: f64,
    /// Conductivity and thickness of the steel, W/(m·K) and m.
    pub metal: (f64, f64),
    /// The steel as a fin.
    pub fin: Fin,
}

/// The steel as a fin between what lies over it and what lies below it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fin {
    /// From the steel both ways, 1/R_up + 1/R_down, W/(m²·K).
    pub conductance: f64,
    /// m = √(conductance/(k t)), 1/m.
    pub parameter: f64,
    /// What the steel would come to without its cold edge, °C.
    pub far: f64,
}

/// What the estimates start from.
struct Start<'a> {
    floor: &'a Assembly,
    strip: usize,
    end: &'a EndResult,
    cavity: &'a PathResult,
    over_steel: &'a PathResult,
    /// Width of steel under the floor, m.
    width: f64,
    /// Inside length of the floor, m.
    length: f64,
    /// Heat through the wall, W/m.
    wall: f64,
}

/// The estimates of a detail generated from a floor with its strip; empty for details drawn by hand.
#[must_use]
pub fn hand_checks(case: &DetailCase, floor: &Assembly, end: &EndResult) -> Vec<HandCheck> {
    let Some(start) = Start::of(case, floor, end) else {
        return Vec::new();
    };
    let estimates = [
        start.by_strip(),
        start.by_area(),
        start.isothermal(),
        start.fin(),
    ];
    estimates.into_iter().flatten().collect()
}

impl<'a> Start<'a> {
    fn of(case: &DetailCase, floor: &'a Assembly, end: &'a EndResult) -> Option<Self> {
        let reference = case
            .references
            .iter()
            .find(|one| one.assembly == floor.name)?;
        let of_kind = |kind: PathKind| end.paths.iter().find(|path| path.path.kind == kind);
        let cavity = of_kind(PathKind::Cavity)?;
        let (_, shown) = case.shows()?;
        let strip = floor.strips.iter().position(|strip| strip.name == shown)?;
        let over_steel = of_kind(PathKind::Strip(strip))?;
        let surface = case
            .surfaces
            .iter()
            .find(|surface| surface.facing == Facing::Up)?;
        let steel = case
            .blocks_of(Part::Flange)
            .chain(case.blocks_of(Part::CrossMember));
        let (left, right) = (surface.line.left, surface.line.right);
        let covered = steel.map(|one| {
            let area = one.block.area;
            (area.right.min(right) - area.left.max(left)).max(0.0)
        });
        let (indoor, outdoor) = (end.boundary.indoor, end.boundary.outdoor);
        let span = (indoor.temperature - outdoor.temperature).as_kelvin();
        let walls = case
            .references
            .iter()
            .filter(|one| one.kind == AssemblyKind::Wall);
        let films = DetailFilms::default();
        let through = walls.map(|wall| wall.length * wall.transmittance(span >= 0.0, &films));
        Some(Self {
            floor,
            strip,
            end,
            cavity,
            over_steel,
            width: covered.fold(0.0, f64::max),
            length: reference.length,
            wall: through.sum::<f64>() * span,
        })
    }

    fn indoor(&self) -> f64 {
        self.end.boundary.indoor.temperature.as_celsius()
    }

    fn outdoor(&self) -> f64 {
        self.end.boundary.outdoor.temperature.as_celsius()
    }

    fn span(&self) -> f64 {
        self.indoor() - self.outdoor()
    }

    /// Heat through the wall and the floor beside the steel, W/m.
    fn beside(&self) -> f64 {
        let u = 1.0 / self.cavity.in_one_dimension().total_resistance.as_si();
        self.wall + self.span() * u * (self.length - self.width).max(0.0)
    }

    fn by_strip(&self) -> Option<HandCheck> {
        let path = self.over_steel;
        let u = 1.0 / path.in_one_dimension().total_resistance.as_si();
        let wood = path.roles.iter().position(|role| role.wood_at_steel);
        Some(HandCheck {
            kind: HandCheckKind::ByStrip,
            heat_flow: self.beside() + self.span() * u * self.width,
            floor: path.in_one_dimension().planes[0].temperature,
            wood: wood.map(|plane| path.in_one_dimension().planes[plane].temperature),
            basis: self.basis(path.in_one_dimension().total_resistance.as_si())?,
        })
    }

    fn by_area(&self) -> Option<HandCheck> {
        let strip = self.floor.strips.get(self.strip)?;
        let boundary = &self.end.boundary;
        let direction = heat_direction(
            self.floor.kind,
            boundary.indoor.temperature,
            boundary.outdoor.temperature,
        );
        let pieces = strip_in_series(self.floor, strip, Openness::Closed, direction);
        let slabs: Vec<_> = pieces.iter().map(|piece| piece.slab.clone()).collect();
        let profile = solve_path(&slabs, boundary);
        let u = 1.0 / profile.total_resistance.as_si();
        // The wood's outer face has the same number of layers above it as over the bare steel.
        let wood = self
            .over_steel
            .roles
            .iter()
            .position(|role| role.wood_at_steel);
        Some(HandCheck {
            kind: HandCheckKind::ByArea,
            heat_flow: self.beside() + self.span() * u * self.width,
            floor: profile.planes[0].temperature,
            wood: wood.and_then(|plane| Some(profile.planes.get(plane)?.temperature)),
            basis: self.basis(profile.total_resistance.as_si())?,
        })
    }

    /// Resistance from the room's air to the underside of the layers common to both paths, and
    /// from there to outdoors on the steel's and on the cavity's path, m²·K/W.
    fn split(&self) -> Option<(f64, f64, f64)> {
        let common = self.floor.strips.get(self.strip)?.under + 1;
        let sum = |path: &PathResult| -> f64 {
            let layers = path.in_one_dimension().resistances.iter().take(common);
            layers.map(|r| r.as_si()).sum()
        };
        let above = self.end.boundary.interior_film.as_si() + sum(self.cavity);
        let below = |path: &PathResult| {
            path.in_one_dimension().total_resistance.as_si()
                - self.end.boundary.interior_film.as_si()
                - sum(path)
        };
        Some((above, below(self.over_steel), below(self.cavity)))
    }

    /// Resistance from the room's air to the steel's outer face, m²·K/W.
    fn up(&self) -> f64 {
        let layers = self.over_steel.in_one_dimension().resistances.iter();
        self.end.boundary.interior_film.as_si() + layers.map(|r| r.as_si()).sum::<f64>()
    }

    /// The steel as a fin; without conductivity it is cold all over.
    fn as_fin(&self, up: f64, down: f64, (conductivity, thickness): (f64, f64)) -> Fin {
        let conductance = 1.0 / up + 1.0 / down;
        Fin {
            conductance,
            parameter: libm::sqrt(conductance / (conductivity * thickness)),
            far: (self.indoor() / up + self.outdoor() / down) / conductance,
        }
    }

    fn basis(&self, steel: f64) -> Option<HandCheckBasis> {
        let strip = self.floor.strips.get(self.strip)?;
        let (above, at_steel, beside) = self.split()?;
        let boundary = &self.end.boundary;
        let metal = (
            strip.metal.conductivity.map_or(0.0, |k| k.as_si()),
            strip.thickness.as_m(),
        );
        Some(HandCheckBasis {
            air: (boundary.indoor.temperature, boundary.outdoor.temperature),
            width: self.width,
            length: self.length,
            wall: self.wall,
            film: boundary.interior_film.as_si(),
            cavity: self.cavity.in_one_dimension().total_resistance.as_si(),
            steel,
            above,
            below: (at_steel, beside),
            up: self.up(),
            metal,
            fin: self.as_fin(self.up(), beside, metal),
        })
    }

    fn isothermal(&self) -> Option<HandCheck> {
        let (above, at_steel, beside) = self.split()?;
        let share = self.width / self.length;
        let below = 1.0 / (share / at_steel + (1.0 - share) / beside);
        let u = 1.0 / (above + below);
        let flux = self.span() * u;
        let film = self.end.boundary.interior_film.as_si();
        Some(HandCheck {
            kind: HandCheckKind::IsothermalPlanes,
            heat_flow: self.wall + flux * self.length,
            floor: Temperature::from_celsius(self.indoor() - flux * film),
            wood: None,
            basis: self.basis(self.over_steel.in_one_dimension().total_resistance.as_si())?,
        })
    }

    fn fin(&self) -> Option<HandCheck> {
        let strip = self.floor.strips.get(self.strip)?;
        let conductivity = strip.metal.conductivity?.as_si();
        let path = self.over_steel;
        let film = self.end.boundary.interior_film.as_si();
        let up = self.up();
        let (_, _, down) = self.split()?;
        let metal = (conductivity, strip.thickness.as_m());
        let Fin {
            parameter: m, far, ..
        } = self.as_fin(up, down, metal);
        let w = self.width;
        let lost = w * (self.indoor() - far) + (far - self.outdoor()) * libm::tanh(m * w) / m;
        let at = |resistance: f64| {
            Temperature::from_celsius(self.indoor() - self.span() * resistance / up)
        };
        let wood = path.roles.iter().position(|role| role.wood_at_steel);
        let to_wood = |plane: usize| {
            let layers = path.in_one_dimension().resistances.iter().take(plane);
            film + layers.map(|r| r.as_si()).sum::<f64>()
        };
        Some(HandCheck {
            kind: HandCheckKind::Fin,
            heat_flow: self.beside() + lost / up,
            floor: at(film),
            wood: wood.map(|plane| at(to_wood(plane))),
            basis: self.basis(path.in_one_dimension().total_resistance.as_si())?,
        })
    }
}
