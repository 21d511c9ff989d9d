//! Permeances that follow their layer's humidity, brought into agreement with it.
//!
//! Sought is a fixed point of x → g(x), x the logarithms of the resistances and g what the mean
//! humidities that follow from x make of them. With the wet nodes given, pressures and therefore g
//! are continuous and bounded by the points, so a fixed point exists (Brouwer). What is wet
//! changes only between phases, never while x is sought: a plane that dries out makes the
//! permeance beside it jump, but from one phase to the next.
//!
//! Method: a secant on every component (Wegstein, 1958), which needs two to five rounds; if that
//! doesn't settle, bisection on one component after the other: each g_k(x) − x_k changes its sign
//! over the range of its points, so every single bisection succeeds.

use super::engine::Engine;

/// Greatest relative change of a resistance that counts as settled.
const SETTLED: f64 = 1e-8;
/// Rounds of the secant before bisection takes over.
const SECANTS: usize = 40;
/// Rounds of bisection over all layers.
const SWEEPS: usize = 25;
/// Halvings of a layer's range per bisection.
const HALVINGS: usize = 40;

impl Engine {
    /// Makes `logs` fit the humidity; whether it did.
    pub(super) fn fit_humidity(&mut self, month: usize) -> bool {
        self.secant(month) || self.bisect(month)
    }

    fn fits(&self) -> bool {
        let pairs = self.answers.iter().zip(&self.logs);
        pairs.into_iter().all(|(g, x)| (g - x).abs() < SETTLED)
    }

    fn secant(&mut self, month: usize) -> bool {
        let layers = self.logs.len();
        for round in 0..SECANTS {
            self.respond(month);
            if self.fits() {
                return true;
            }
            for n in 0..layers {
                let (x, g) = (self.logs[n], self.answers[n]);
                let (x_before, g_before) = self.before[n];
                let (low, high) = self.nodes.layers[n].range();
                let moved = x - x_before;
                let slope = if round > 0 && moved.abs() > 1e-12 {
                    (g - g_before) / moved
                } else {
                    0.0
                };
                // A slope over 1 runs away from the fixed point: then no more than a plain step.
                let part = if slope < 0.9 {
                    1.0 / (1.0 - slope)
                } else {
                    1.0
                };
                self.before[n] = (x, g);
                self.logs[n] = (x + part * (g - x)).clamp(low, high);
            }
        }
        false
    }

    fn bisect(&mut self, month: usize) -> bool {
        for _ in 0..SWEEPS {
            for n in 0..self.logs.len() {
                let (mut low, mut high) = self.nodes.layers[n].range();
                for _ in 0..HALVINGS {
                    self.logs[n] = 0.5 * (low + high);
                    self.respond(month);
                    if self.answers[n] > self.logs[n] {
                        low = self.logs[n];
                    } else {
                        high = self.logs[n];
                    }
                }
            }
            self.respond(month);
            if self.fits() {
                return true;
            }
        }
        false
    }
}
