//! A sizing on the bench: its parts evaluated at a thickness, nominal or at the adverse corners.

use std::sync::Mutex;

use rayon::prelude::*;

use super::corner::Corners;
use super::measure::measure;
use super::{Fidelity, Row, Value};
use crate::model::{Moved, Sizing, Stop, Told};
use crate::quantity::Length;

/// Thickness in m, whether at the corners, and what came out by row.
type Solved = (f64, bool, Vec<Option<Value>>);

/// A sizing on the bench: everything it is evaluated with.
pub(super) struct Bench<'a, 'b> {
    pub(super) sizing: &'a Sizing,
    pub(super) stops: &'b [Stop],
    pub(super) rows: Vec<Row>,
    pub(super) unbuildable: Mutex<Option<(f64, Told)>>,
    /// What was solved in full.
    full: Mutex<Vec<Solved>>,
}

impl<'a, 'b> Bench<'a, 'b> {
    pub(super) fn new(sizing: &'a Sizing, stops: &'b [Stop], rows: Vec<Row>) -> Self {
        Self {
            sizing,
            stops,
            rows,
            unbuildable: Mutex::new(None),
            full: Mutex::new(Vec::new()),
        }
    }

    pub(super) fn slacks(&self, x: f64, corners: Option<&Corners>, fidelity: Fidelity) -> Vec<f64> {
        let values = self.values(Length::from_m(x), corners, fidelity);
        let slack = |value: Option<Value>| value.map_or(f64::INFINITY, |value| value.slack);
        values.into_iter().map(slack).collect()
    }

    /// Every row where it is worst, over parts and stops; in full each thickness is solved once.
    pub(super) fn values(
        &self,
        thickness: Length,
        corners: Option<&Corners>,
        fidelity: Fidelity,
    ) -> Vec<Option<Value>> {
        let at_corners = corners.is_some();
        let is_it =
            |one: &Solved| one.0.to_bits() == thickness.as_m().to_bits() && one.1 == at_corners;
        if fidelity == Fidelity::Full
            && let Ok(full) = self.full.lock()
            && let Some((.., values)) = full.iter().find(|one| is_it(one))
        {
            return values.clone();
        }
        let parts = 0..self.sizing.parts.len();
        let of_part = |part: usize| match corners {
            None => self.of_part(part, thickness, &[], fidelity),
            Some(corners) => self.at_corners(part, thickness, &corners[part], fidelity),
        };
        let all: Vec<_> = parts.into_par_iter().map(of_part).collect();
        let values = all.into_iter().fold(vec![None; self.rows.len()], worse);
        if fidelity == Fidelity::Full
            && let Ok(mut full) = self.full.lock()
        {
            full.push((thickness.as_m(), at_corners, values.clone()));
        }
        values
    }

    /// Each row at its own corner; rows with the same one share a solution.
    fn at_corners(
        &self,
        part: usize,
        thickness: Length,
        corners: &[Vec<Moved>],
        fidelity: Fidelity,
    ) -> Vec<Option<Value>> {
        let mut distinct: Vec<&Vec<Moved>> = Vec::new();
        for corner in corners {
            if !distinct.contains(&corner) {
                distinct.push(corner);
            }
        }
        let solve = |corner: &&Vec<Moved>| self.of_part(part, thickness, corner, fidelity);
        let solved: Vec<_> = distinct.par_iter().map(solve).collect();
        let of_row = |(row, corner): (usize, &Vec<Moved>)| {
            let n = distinct.iter().position(|one| *one == corner)?;
            solved[n][row].clone()
        };
        corners.iter().enumerate().map(of_row).collect()
    }

    /// Every row where it is worst at the stops, for one part.
    pub(super) fn of_part(
        &self,
        part: usize,
        thickness: Length,
        moved: &[Moved],
        fidelity: Fidelity,
    ) -> Vec<Option<Value>> {
        let nothing = || vec![None; self.rows.len()];
        let sizing = self.sizing;
        let built = sizing.at(&sizing.parts[part], thickness, moved);
        let built = match built {
            Ok(built) => built,
            Err(why) => {
                self.refuse(thickness, why.message);
                return self.impossible(part);
            }
        };
        let at_stop = |(n, stop): (usize, &Stop)| {
            let measured = measure(sizing, &built, stop, &self.rows, fidelity);
            let values = measured.unwrap_or_else(|_| {
                self.refuse(thickness, "the detail can't be solved".into());
                self.impossible(part)
            });
            let placed = |value: Value| Value {
                part,
                stop: n,
                ..value
            };
            values
                .into_iter()
                .map(|value| value.map(placed))
                .collect::<Vec<_>>()
        };
        let stops: Vec<_> = self.stops.par_iter().enumerate().map(at_stop).collect();
        stops.into_iter().fold(nothing(), worse)
    }

    /// What can't be built meets nothing.
    fn impossible(&self, part: usize) -> Vec<Option<Value>> {
        let value = |row: &Row| {
            let suits = self.sizing.parts[part].suits(row.target);
            suits.then(|| Value {
                value: f64::NAN,
                slack: f64::NEG_INFINITY,
                at: String::new(),
                bar: 0.0,
                part,
                stop: 0,
                settled: true,
            })
        };
        self.rows.iter().map(value).collect()
    }

    /// Keeps the thinnest of the thicknesses that can't be built.
    fn refuse(&self, thickness: Length, why: Told) {
        if let Ok(mut found) = self.unbuildable.lock()
            && found
                .as_ref()
                .is_none_or(|(least, _)| thickness.as_m() < *least)
        {
            *found = Some((thickness.as_m(), why));
        }
    }
}

/// By row the value with less slack.
pub(super) fn worse(kept: Vec<Option<Value>>, other: Vec<Option<Value>>) -> Vec<Option<Value>> {
    let pairs = kept.into_iter().zip(other);
    pairs
        .map(|pair| match pair {
            (Some(a), Some(b)) if b.slack < a.slack => Some(b),
            (Some(a), _) => Some(a),
            (None, b) => b,
        })
        .collect()
}
