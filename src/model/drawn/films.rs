//! Surface films of a detail, by the way a face looks and the way heat flows through it.

use crate::model::detail::{FaceFilms, Facing};
use crate::physics::heat::{Direction, exterior_surface_resistance, interior_surface_resistance};

/// What kind of air a face meets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FilmRole {
    /// Still air of the room.
    Room,
    /// Still air of another closed space, with a temperature of its own: a crawl space, a garage.
    Space,
    /// Outdoor air in the open.
    Outdoors,
    /// Outdoor air in a ventilated gap: still at the surface, so the inner film stands there
    /// (ISO 6946, well ventilated air layers).
    Sheltered,
}

/// Films the file states instead of the standard's, m²·K/W.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct StatedFilms {
    /// Of faces that look up.
    pub up: Option<f64>,
    /// Of faces that look sideways.
    pub sideways: Option<f64>,
    /// Of faces that look down.
    pub down: Option<f64>,
}

impl StatedFilms {
    /// The same in every direction, m²·K/W.
    #[must_use]
    pub const fn all(resistance: f64) -> Self {
        Self {
            up: Some(resistance),
            sideways: Some(resistance),
            down: Some(resistance),
        }
    }
}

/// Films a calculation asks for instead of those of the file, m²·K/W.
///
/// The default takes the file's, and ISO 6946 where it states none.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DetailFilms {
    /// At the faces that the room's own air meets, such as 0.25 where mold is judged. A larger film
    /// that the file states there stays: it keeps the surface colder.
    pub room: Option<f64>,
    /// At every face that outdoor air meets in the open.
    pub outdoors: Option<f64>,
}

impl DetailFilms {
    /// The film of a face, m²·K/W. `gives_heat`: whether the air is warmer than the solid.
    #[must_use]
    pub fn at(
        &self,
        role: FilmRole,
        stated: &StatedFilms,
        facing: Facing,
        gives_heat: bool,
    ) -> f64 {
        let stated = match facing {
            Facing::Up => stated.up,
            Facing::Down => stated.down,
            Facing::Left | Facing::Right => stated.sideways,
        };
        let asked = match role {
            FilmRole::Room => self.room.map(|film| film.max(stated.unwrap_or(film))),
            FilmRole::Outdoors => self.outdoors,
            FilmRole::Space | FilmRole::Sheltered => None,
        };
        asked
            .or(stated)
            .unwrap_or_else(|| standard(role, facing, gives_heat))
    }

    pub(super) fn of_region(
        &self,
        role: FilmRole,
        stated: &StatedFilms,
        gives_heat: bool,
    ) -> FaceFilms {
        let at = |facing| self.at(role, stated, facing, gives_heat);
        FaceFilms {
            up: at(Facing::Up),
            sideways: at(Facing::Left),
            down: at(Facing::Down),
        }
    }
}

/// ISO 6946 by the direction of heat flow.
fn standard(role: FilmRole, facing: Facing, gives_heat: bool) -> f64 {
    if role == FilmRole::Outdoors {
        return exterior_surface_resistance().as_si();
    }
    // A floor faces up and takes heat from warmer air above it: heat flows down.
    let direction = match (facing, gives_heat) {
        (Facing::Left | Facing::Right, _) => Direction::Horizontal,
        (Facing::Up, true) | (Facing::Down, false) => Direction::Down,
        (Facing::Up, false) | (Facing::Down, true) => Direction::Up,
    };
    interior_surface_resistance(direction).as_si()
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    // ISO 6946: 0.10 up, 0.13 sideways, 0.17 down (from memory, as in `physics::heat`).
    #[rstest]
    #[case::warm_floor(FilmRole::Room, Facing::Up, true, 0.17)]
    #[case::warm_wall(FilmRole::Room, Facing::Right, true, 0.13)]
    #[case::warm_ceiling(FilmRole::Room, Facing::Down, true, 0.10)]
    #[case::floor_of_a_cooled_room(FilmRole::Room, Facing::Up, false, 0.10)]
    #[case::flange_in_the_gap(FilmRole::Sheltered, Facing::Up, false, 0.10)]
    #[case::underside(FilmRole::Outdoors, Facing::Down, false, 0.04)]
    fn films_go_by_the_direction_of_heat_flow(
        #[case] role: FilmRole,
        #[case] facing: Facing,
        #[case] gives_heat: bool,
        #[case] expected: f64,
    ) {
        let film = DetailFilms::default().at(role, &StatedFilms::default(), facing, gives_heat);
        assert_eq!(film, expected);
    }

    #[test]
    fn the_film_for_mold_is_the_rooms_alone() {
        let asked = DetailFilms {
            room: Some(0.25),
            outdoors: None,
        };
        let film = |role, stated| asked.at(role, &StatedFilms::all(stated), Facing::Up, true);
        assert_eq!(film(FilmRole::Room, 0.11), 0.25);
        assert_eq!(film(FilmRole::Room, 0.3), 0.3);
        assert_eq!(film(FilmRole::Space, 0.11), 0.11);
        assert_eq!(film(FilmRole::Outdoors, 0.11), 0.11);
        let unstated = asked.at(FilmRole::Space, &StatedFilms::default(), Facing::Up, true);
        assert_eq!(unstated, 0.17);
    }
}
