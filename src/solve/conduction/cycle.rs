//! The coarse levels: one V-cycle with exact line solves, even lines and odd lines in turn.

use super::lanes::{Columns, LANES, Row, ZERO, by_lane, from_right, sum};
use super::line::{Lines, Side, gather_even};
use super::stencil::Stencil;

/// A coarse level: its factored lines, its couplings, its vectors.
#[derive(Debug)]
pub(super) struct Level {
    even: Lines,
    odd: Lines,
    left: Side,
    right: Side,
    pub(super) rhs_even: Columns,
    pub(super) rhs_odd: Columns,
    pub(super) x_even: Columns,
    pub(super) x_odd: Columns,
    zero: Vec<Row>,
}

/// All levels below a stencil, down to a single column.
pub(super) fn levels(stencil: Stencil) -> Vec<Level> {
    let mut levels = Vec::new();
    let mut next = Some(stencil);
    while let Some(stencil) = next {
        let (level, coarser) = Level::of(stencil);
        levels.push(level);
        next = coarser;
    }
    levels
}

impl Level {
    fn of(mut stencil: Stencil) -> (Self, Option<Stencil>) {
        let (kept, ny) = (stencil.columns.div_ceil(2), stencil.ny);
        let vector = || Columns::zero(kept, ny);
        let coarser = (stencil.columns > 1).then(|| stencil.coarsen::<true>());
        let Stencil {
            even,
            odd,
            left,
            right,
            ..
        } = stencil;
        let level = Self {
            even: Lines::factor(even),
            // A single column has no odd ones: unit lines, factors of themselves.
            odd: Lines::factored(odd),
            left,
            right,
            rhs_even: vector(),
            rhs_odd: vector(),
            x_even: vector(),
            x_odd: vector(),
            zero: vec![ZERO; ny + 2],
        };
        (level, coarser)
    }

    fn panels(&self) -> usize {
        self.rhs_even.panels()
    }

    /// Even lines, as if the odd ones were zero.
    fn solve_even_alone(&mut self, panel: usize) {
        let x = self.x_even.panel_mut(panel);
        let rhs = &self.rhs_even.panel(panel)[..x.len()];
        self.even.solve(panel, x, |y| rhs[y]);
    }

    /// Odd lines between the even ones as they are.
    fn solve_odd(&mut self, panel: usize) {
        let x = self.x_odd.panel_mut(panel);
        let rows = x.len();
        let rhs = &self.rhs_odd.panel(panel)[..rows];
        let (left, right) = (
            self.left.panel(panel).cut(rows),
            self.right.panel(panel).cut(rows),
        );
        let even = &self.x_even.panel(panel)[..rows];
        let next = &self.x_even.panel_after(panel)[..rows];
        // Shifted rows serve three times: they are carried along.
        let east = |y: usize| from_right(&even[y], &next[y]);
        let (mut east_below, mut east_here) = (ZERO, east(1));
        self.odd.solve(panel, x, |y| {
            let east_above = east(y + 1);
            let west = left.weigh_odd(y, [&even[y - 1], &even[y], &even[y + 1]]);
            let weight = right.weigh_odd(y, [&east_below, &east_here, &east_above]);
            (east_below, east_here) = (east_here, east_above);
            by_lane(|k| rhs[y][k] - west[k] - weight[k])
        });
    }

    /// Even lines between the odd ones as they are.
    fn solve_even(&mut self, panel: usize) {
        let x = self.x_even.panel_mut(panel);
        let rows = x.len();
        let rhs = &self.rhs_even.panel(panel)[..rows];
        let odd = &self.x_odd.panel(panel)[..rows];
        let before = &self.x_odd.panel_before(panel, &self.zero)[..rows];
        let left = self.left.panel(panel).cut(rows);
        let right = self.right.panel(panel).cut(rows);
        let right_before = self.right.panel_before(panel, &self.zero).cut(rows);
        self.even.solve(panel, x, |y| {
            let weight = gather_even((left, odd), (right_before, right, before), y);
            by_lane(|k| rhs[y][k] - weight[k])
        });
    }

    /// What is left to do at the even columns goes to the next level; at the odd ones nothing is.
    fn restrict(&self, panel: usize, next: &mut Self) {
        let odd = self.x_odd.panel(panel);
        let rows = odd.len();
        let before = &self.x_odd.panel_before(panel, &self.zero)[..rows];
        let left = self.left.panel(panel).cut(rows);
        let right = self.right.panel(panel).cut(rows);
        let right_before = self.right.panel_before(panel, &self.zero).cut(rows);
        next.take(panel, |y| {
            gather_even((left, odd), (right_before, right, before), y)
        });
    }

    /// Takes the negative of a finer level's panel as the right-hand side.
    pub(super) fn take(&mut self, panel: usize, row: impl Fn(usize) -> Row) {
        let (to, half) = (panel / 2, panel % 2 * (LANES / 2));
        let even = self.rhs_even.panel_mut(to);
        let rows = even.len();
        let odd = &mut self.rhs_odd.panel_mut(to)[..rows];
        for y in 1..rows - 1 {
            let values = row(y);
            let even = &mut even[y][half..half + LANES / 2];
            let odd = &mut odd[y][half..half + LANES / 2];
            for k in 0..LANES / 2 {
                even[k] = -values[2 * k];
                odd[k] = -values[2 * k + 1];
            }
        }
    }

    /// Hands a finer level's panel the correction of its even columns.
    pub(super) fn give(&self, panel: usize, mut put: impl FnMut(usize, Row)) {
        let (from, half) = (panel / 2, panel % 2 * (LANES / 2));
        let even = self.x_even.panel(from);
        let rows = even.len();
        let odd = &self.x_odd.panel(from)[..rows];
        for y in 1..rows - 1 {
            let even = &even[y][half..half + LANES / 2];
            let odd = &odd[y][half..half + LANES / 2];
            put(
                y,
                by_lane(|k| if k % 2 == 0 { even[k / 2] } else { odd[k / 2] }),
            );
        }
    }

    fn prolong(&mut self, panel: usize, next: &Self) {
        let x = self.x_even.panel_mut(panel);
        next.give(panel, |y, correction| {
            x[y] = sum(&x[y], &correction);
        });
    }
}

/// One V-cycle from zero: right-hand sides to corrections on the first of the levels.
pub(super) fn cycle(levels: &mut [Level]) {
    let Some((level, coarser)) = levels.split_first_mut() else {
        return;
    };
    let panels = level.panels();
    let Some(next) = coarser.first_mut() else {
        // A single column: solved outright.
        level.solve_even_alone(0);
        return;
    };
    level.solve_even_alone(0);
    for panel in 0..panels {
        if panel + 1 < panels {
            level.solve_even_alone(panel + 1);
        }
        level.solve_odd(panel);
        level.restrict(panel, next);
    }
    cycle(coarser);
    let next = &coarser[0];
    level.prolong(0, next);
    for panel in 0..panels {
        if panel + 1 < panels {
            level.prolong(panel + 1, next);
        }
        level.solve_odd(panel);
        level.solve_even(panel);
    }
}
