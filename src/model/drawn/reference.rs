//! The plane assemblies that a detail is counted against.

use super::films::{DetailFilms, FilmRole, StatedFilms};
use crate::material::ConductivityCurve;
use crate::model::AssemblyKind;
use crate::model::detail::Facing;
use crate::physics::heat::conductivity_at;
use crate::quantity::Temperature;

/// A plane assembly that reaches the cut's edge: what psi is counted against.
#[derive(Clone, Debug, PartialEq)]
pub struct Reference {
    /// The assembly's name.
    pub assembly: String,
    /// Which way heat flows through it.
    pub kind: AssemblyKind,
    /// Its inside length in the cut, m.
    pub length: f64,
    /// Its layers between the members, as drawn.
    pub layers: Vec<ReferenceLayer>,
    /// The films at its outer side.
    pub outside: FilmRole,
    /// Stated films at its inner and outer side, m²·K/W.
    pub stated: (StatedFilms, StatedFilms),
}

/// A layer of a plane assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct ReferenceLayer {
    /// m.
    pub thickness: f64,
    /// W/(m·K).
    pub conductivity: f64,
    /// Conductivity by mean temperature; empty where it is constant.
    pub by_temperature: ConductivityCurve,
}

/// Rounds in which conductivities follow the layers' mean temperatures.
const ROUNDS: usize = 50;

impl Reference {
    /// Films inside and outside, m²·K/W.
    #[must_use]
    pub fn films(&self, room_is_warmer: bool, films: &DetailFilms) -> (f64, f64) {
        let (inner, outer) = match self.kind {
            AssemblyKind::Wall => (Facing::Right, Facing::Left),
            AssemblyKind::Floor => (Facing::Up, Facing::Down),
            AssemblyKind::Roof => (Facing::Down, Facing::Up),
        };
        (
            films.at(FilmRole::Room, &self.stated.0, inner, room_is_warmer),
            films.at(self.outside, &self.stated.1, outer, !room_is_warmer),
        )
    }

    /// U between the members, W/(m²·K).
    #[must_use]
    pub fn transmittance(&self, room_is_warmer: bool, films: &DetailFilms) -> f64 {
        let (inside, outside) = self.films(room_is_warmer, films);
        1.0 / (inside + self.resistance() + outside)
    }

    /// Resistance of its layers, without films, m²·K/W.
    #[must_use]
    pub fn resistance(&self) -> f64 {
        let of = |layer: &ReferenceLayer| layer.thickness / layer.conductivity;
        self.layers.iter().map(of).sum()
    }

    /// The same with every layer's conductivity at its own mean temperature.
    #[must_use]
    pub fn settled(&self, (indoor, outdoor): (Temperature, Temperature)) -> Self {
        let mut settled = self.clone();
        if self
            .layers
            .iter()
            .all(|layer| layer.by_temperature.is_empty())
        {
            return settled;
        }
        let (inside, outside) = self.films(indoor >= outdoor, &DetailFilms::default());
        for _ in 0..ROUNDS {
            let total = inside + settled.resistance() + outside;
            let flux = (indoor - outdoor).as_kelvin() / total;
            let mut face = indoor.as_celsius() - flux * inside;
            for layer in &mut settled.layers {
                let beyond = face - flux * layer.thickness / layer.conductivity;
                if !layer.by_temperature.is_empty() {
                    let mean = Temperature::from_celsius(0.5 * (face + beyond));
                    layer.conductivity = conductivity_at(&layer.by_temperature, mean).as_si();
                }
                face = beyond;
            }
        }
        settled
    }
}
