//! Air around the floor edge, and what a drawing of it measures.

use super::frame::Frame;
use crate::model::detail::{Area, Facing};
use crate::model::drawn::case::{CaseRegion, Surface};
use crate::model::drawn::drawing::{Drawing, stated, stated_by_facing};
use crate::model::drawn::films::{FilmRole, StatedFilms};
use crate::model::drawn::layers::outside_role;

impl Frame<'_> {
    pub(super) fn draw_air(&self, drawing: &mut Drawing) {
        let cut = self.cut();
        let (floor, wall) = (stated(&self.edge.floor), stated(&self.edge.wall));
        let below = outside_role(&self.floor);
        let outside = StatedFilms {
            down: floor.1,
            sideways: wall.1,
            up: wall.1,
        };
        let mut add = |air, area, role, stated| {
            drawing.region(CaseRegion {
                air,
                area,
                role,
                stated,
            });
        };
        let room = Area::new(0.0, cut.right, self.floor_top, cut.top);
        add(0, room, FilmRole::Room, stated_by_facing(floor.0, wall.0));
        let under = Area::new(cut.left, cut.right, cut.bottom, self.floor_bottom);
        add(1, under, below, outside);
        let beside = Area::new(
            cut.left,
            self.frame_outer,
            self.floor_bottom,
            self.flange_top,
        );
        add(1, beside, FilmRole::Outdoors, outside);
        let (role, stated) = match self.wall.sheltered {
            true => (FilmRole::Sheltered, StatedFilms::default()),
            false => (FilmRole::Outdoors, outside),
        };
        let beside = Area::new(cut.left, self.wall_outer, self.flange_top, cut.top);
        add(1, beside, role, stated);
    }

    /// Surfaces, reference lengths and the measures a drawing shows.
    pub(super) fn measure(&self, drawing: &mut Drawing) {
        let (right, top, floor_top) = (self.right(), self.top(), self.floor_top);
        let mut surface = |name: &str, line, facing| {
            drawing.surface(Surface {
                name: name.into(),
                line,
                facing,
            });
        };
        let floor_line = Area::new(0.0, right, floor_top, floor_top);
        surface("floor surface", floor_line, Facing::Up);
        surface(
            "wall surface",
            Area::new(0.0, 0.0, floor_top, top),
            Facing::Right,
        );
        drawing.counted_against(&self.edge.floor, right, &self.floor);
        drawing.counted_against(&self.edge.wall, self.edge.up.as_m(), &self.wall);
        drawing.shows_strip(&self.edge.floor.name, &self.flange.name);
        let level = |from: f64, to: f64, y: f64| Area::new(from.min(to), from.max(to), y, y);
        let upright = |x: f64, bottom: f64, top: f64| Area::new(x, x, bottom, top);
        let bottom = self.floor_bottom;
        let measures = [
            ("flange", level(self.frame_outer, self.flange_inner, bottom)),
            ("wall", level(self.wall_outer, 0.0, top)),
            ("floor", upright(right, bottom, floor_top)),
            ("rise", upright(right, -self.edge.floor.rise.as_m(), 0.0)),
            (
                "rail",
                upright(self.frame_outer, self.rail_bottom, self.flange_bottom),
            ),
        ];
        for (name, line) in measures {
            drawing.dimension(name, line);
        }
        let name = match self.flange_inner < 0.0 {
            true => "flange short of the wall's inner face",
            false => "flange inboard of the wall's inner face",
        };
        drawing.dimension(name, level(self.flange_inner, 0.0, floor_top));
    }
}
