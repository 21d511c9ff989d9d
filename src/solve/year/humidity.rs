//! Permeances that follow their layer's humidity, brought into agreement with it.
//!
//! Sought is a fixed point of x → g(x), x the logarithms of the resistances and g what the mean
//! humidities that follow from x make of them. With the wet nodes given, pressures and therefore g
//! are continuous and bounded by the points, so a fixed point exists (Brouwer). What is wet
//! changes only between phases, never while x is sought: a plane that dries out makes the
//! permeance beside it jump, but from one phase to the next.
//!
//! Method: a secant on every component (Wegstein, 1958), which needs two to five rounds. If that
//! doesn't settle: for a single layer bisection, since g(x) − x changes its sign over the range of
//! the points; for several, small steps toward g, smaller and smaller, each series of them
//! followed by Newton's method from where they led.

use nalgebra::{DMatrix, DVector};

use super::engine::Engine;

/// Greatest relative change of a resistance that counts as settled.
const SETTLED: f64 = 1e-8;
/// Rounds of the secant before safer methods take over.
const SECANTS: usize = 30;
/// Halvings of a single layer's range.
const HALVINGS: usize = 60;
/// Parts of the way to g taken in small steps, and how many steps.
const SMALL_STEPS: [(f64, usize); 4] = [(0.3, 60), (0.1, 150), (0.03, 400), (0.01, 1000)];
/// Steps of Newton's method.
const NEWTONS: usize = 25;
/// Step of its difference quotients.
const DIFFERENCE: f64 = 1e-6;

impl Engine {
    /// Makes `logs` fit the humidity; whether it did.
    pub(super) fn fit_humidity(&mut self, month: usize) -> bool {
        if self.secant(month) {
            return true;
        }
        if self.logs.len() == 1 {
            return self.bisect(month);
        }
        SMALL_STEPS
            .iter()
            .any(|(part, steps)| self.creep(month, *part, *steps) || self.newton(month))
    }

    fn fits(&self) -> bool {
        self.misfit() < SETTLED
    }

    /// The greatest distance between a logarithm and what the humidity makes of it.
    fn misfit(&self) -> f64 {
        let pairs = self.answers.iter().zip(&self.logs);
        pairs.fold(0.0, |most, (g, x)| most.max((g - x).abs()))
    }

    /// Moves one logarithm, kept within its points.
    fn set(&mut self, layer: usize, log: f64) {
        let (low, high) = self.nodes.layers[layer].range();
        self.logs[layer] = log.clamp(low, high);
    }

    fn secant(&mut self, month: usize) -> bool {
        for round in 0..SECANTS {
            self.respond(month);
            if self.fits() {
                return true;
            }
            for n in 0..self.logs.len() {
                let (x, g) = (self.logs[n], self.answers[n]);
                let (x_before, g_before) = self.before[n];
                let moved = x - x_before;
                let slope = if round > 0 && moved.abs() > 1e-12 {
                    (g - g_before) / moved
                } else {
                    0.0
                };
                // A slope of 1 and more leads away: then no more than a plain step.
                let part = if slope < 0.9 {
                    1.0 / (1.0 - slope)
                } else {
                    1.0
                };
                self.before[n] = (x, g);
                self.set(n, x + part * (g - x));
            }
        }
        false
    }

    fn bisect(&mut self, month: usize) -> bool {
        let (mut low, mut high) = self.nodes.layers[0].range();
        for _ in 0..HALVINGS {
            self.logs[0] = 0.5 * (low + high);
            self.respond(month);
            if self.fits() {
                return true;
            }
            if self.answers[0] > self.logs[0] {
                low = self.logs[0];
            } else {
                high = self.logs[0];
            }
        }
        false
    }

    fn creep(&mut self, month: usize, part: f64, steps: usize) -> bool {
        for _ in 0..steps {
            self.respond(month);
            if self.fits() {
                return true;
            }
            for n in 0..self.logs.len() {
                let (x, g) = (self.logs[n], self.answers[n]);
                self.set(n, x + part * (g - x));
            }
        }
        false
    }

    /// Newton's method on g(x) − x with difference quotients; a step that makes the misfit worse
    /// is halved.
    fn newton(&mut self, month: usize) -> bool {
        let layers = self.logs.len();
        self.respond(month);
        for _ in 0..NEWTONS {
            let (x, g) = (self.logs.clone(), self.answers.clone());
            let misfit = self.misfit();
            if misfit < SETTLED {
                return true;
            }
            let mut slopes = DMatrix::zeros(layers, layers);
            for column in 0..layers {
                self.logs.copy_from_slice(&x);
                self.logs[column] += DIFFERENCE;
                self.respond(month);
                for row in 0..layers {
                    let slope = (self.answers[row] - g[row]) / DIFFERENCE;
                    slopes[(row, column)] = f64::from(u8::from(row == column)) - slope;
                }
            }
            let gap = DVector::from_iterator(layers, g.iter().zip(&x).map(|(g, x)| g - x));
            let Some(step) = slopes.lu().solve(&gap) else {
                self.logs.copy_from_slice(&x);
                return false;
            };
            let mut part = 1.0;
            loop {
                for n in 0..layers {
                    self.set(n, x[n] + part * step[n]);
                }
                self.respond(month);
                if self.misfit() < misfit {
                    break;
                }
                part *= 0.5;
                if part < 1e-3 {
                    // The way to g itself is always open.
                    self.logs.copy_from_slice(&x);
                    return false;
                }
            }
        }
        self.fits()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::AirState;
    use crate::quantity::{RelativeHumidity, Temperature, ThermalResistance};
    use crate::solve::profile::{Boundary, Slab, SlabHeat};
    use approx::assert_abs_diff_eq;
    use rstest::rstest;

    /// Air of 20 °C on both sides, 80 % and 20 %: through the layers the humidity falls with the
    /// resistance. One of 10⁹ m²·s·Pa/kg lies before one that follows its humidity.
    ///
    /// By hand: where that one has 10⁹ too, it is 50 % between them and (50 + 20)/2 = 35 % within,
    /// halfway, by logarithms, from 10¹⁰ at 25 % to 10⁸ at 45 %. What makes it tighter makes it damper
    /// and so more open: there is no other solution.
    fn engine() -> Engine {
        let air = |percent: f64| AirState {
            temperature: Temperature::from_celsius(20.0),
            humidity: RelativeHumidity::from_fraction(percent / 100.0),
        };
        let film = ThermalResistance::from_si(0.1);
        let boundary = Boundary {
            indoor: air(80.0),
            outdoor: air(20.0),
            interior_film: film,
            exterior_film: film,
            interior_vapor_film: 0.0,
            exterior_vapor_film: 0.0,
        };
        let slab = |points: &[(f64, f64)]| Slab {
            heat: SlabHeat::Fixed(ThermalResistance::from_si(0.1)),
            vapor_resistance: 1e9,
            by_humidity: points.to_vec(),
        };
        let mut engine = Engine::default();
        let follows = [(0.05, 1e12), (0.25, 1e10), (0.45, 1e8)];
        engine.prepare(&[slab(&[]), slab(&follows)], &[boundary]);
        engine
    }

    /// Each method on its own, also from where whole steps of Newton's lead away.
    #[rstest]
    #[case::secant(9e9, |engine: &mut Engine| engine.secant(0))]
    #[case::bisection(9e9, |engine: &mut Engine| engine.bisect(0))]
    #[case::small_steps(9e9, |engine: &mut Engine| engine.creep(0, 0.1, 150))]
    #[case::newton(2e9, |engine: &mut Engine| engine.newton(0))]
    #[case::newton_halved(9e9, |engine: &mut Engine| engine.newton(0))]
    #[case::whatever_settles(9e9, |engine: &mut Engine| engine.fit_humidity(0))]
    fn every_method_finds_the_resistance(
        #[case] from: f64,
        #[case] method: fn(&mut Engine) -> bool,
    ) {
        let mut engine = engine();
        engine.logs[0] = libm::log(from);
        assert!(method(&mut engine));
        assert_abs_diff_eq!(engine.logs[0], libm::log(1e9), epsilon = 1e-7);
    }
}
