//! The mold index: how far mold grows on a surface, from nothing (0) to a dense cover (6).
//!
//! 1: seen under a microscope; 2 and 3: 10 and 30 % of the surface under it, 3 just seen by eye;
//! 4, 5 and 6: 10, 50 and 100 % seen by eye.
//!
//! Source: Hukka and Viitanen 1999 (growth on pine and spruce), Ojanen et al. 2010 (four classes of
//! sensitivity, decline); the coefficients were seen in two open transcriptions of these papers, the
//! classes' typical materials and decline factors are from memory. In the form of 2010: the terms of
//! surface quality and kind of wood are 0.

use crate::quantity::{MoldClass, RelativeHumidity, Temperature};

/// The numbers of a class.
struct Class {
    /// Speed of growth below and from an index of 1.
    speed: [f64; 2],
    /// A, B and C of the greatest index.
    greatest: [f64; 3],
    /// The least humidity at which anything grows, %.
    least: f64,
}

/// The numbers of a class.
fn class_of(class: MoldClass) -> Class {
    let (speed, greatest, least) = match class {
        MoldClass::VerySensitive => ([1.0, 2.0], [1.0, 7.0, 2.0], 80.0),
        MoldClass::Sensitive => ([0.578, 0.386], [0.3, 6.0, 1.0], 80.0),
        MoldClass::MediumResistant => ([0.072, 0.097], [0.0, 5.0, 1.5], 85.0),
        MoldClass::Resistant => ([0.033, 0.014], [0.0, 3.0, 1.0], 85.0),
    };
    Class {
        speed,
        greatest,
        least,
    }
}

/// What air at a surface does to mold there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Climate {
    /// Below 0 °C: neither growth nor decline.
    Frost,
    /// Below the critical humidity: it declines.
    Dry,
    /// It grows.
    Growth {
        /// Index per hour at a speed of 1, far below the greatest.
        rate: f64,
        /// The greatest index it tends to.
        greatest: f64,
    },
}

/// The humidity above which mold grows on a surface, as a fraction.
///
/// ```text
/// RHcrit = −0.00267 θ³ + 0.160 θ² − 3.13 θ + 100 % up to 20 °C, then and at least 80 or 85 %
/// ```
/// θ in °C.
///
/// Source: Hukka and Viitanen 1999, eq. for RHcrit; least values by class, Ojanen et al. 2010 (seen).
/// Valid: 0 to 50 °C.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::mold_index::critical_humidity;
/// # use dewmargin::quantity::{MoldClass, Temperature};
/// let at_ten = critical_humidity(Temperature::from_celsius(10.0), MoldClass::Sensitive);
/// assert!((at_ten.as_fraction() - 0.8203).abs() < 1e-9);
/// ```
#[must_use]
pub fn critical_humidity(temperature: Temperature, class: MoldClass) -> RelativeHumidity {
    RelativeHumidity::from_fraction(critical(temperature.as_celsius(), class) / 100.0)
}

/// %.
fn critical(celsius: f64, class: MoldClass) -> f64 {
    let least = class_of(class).least;
    match celsius > 20.0 {
        true => least,
        false => {
            let curve = ((-0.002_67 * celsius + 0.160) * celsius - 3.13) * celsius + 100.0;
            curve.max(least)
        }
    }
}

/// What air of a temperature and humidity does to mold on a surface.
///
/// ```text
/// rate = 1 / (24 · 7 · exp(−0.68 ln θ − 13.9 ln RH + 66.02)) per hour
/// greatest = A + B x − C x²        x = (RHcrit − RH) / (RHcrit − 100)
/// ```
/// θ in °C, RH in %.
///
/// Source: Hukka and Viitanen 1999; A, B, C by class: Ojanen et al. 2010 (seen).
/// Valid: 0 to 50 °C.
/// Departure: none.
///
/// # Example
/// ```
/// # use dewmargin::physics::mold_index::{Climate, climate};
/// # use dewmargin::quantity::{MoldClass, RelativeHumidity, Temperature};
/// let room = (Temperature::from_celsius(22.0), RelativeHumidity::from_fraction(0.9));
/// let Climate::Growth { greatest, .. } = climate(room.0, room.1, MoldClass::Sensitive) else {
///     panic!("it grows");
/// };
/// assert!((greatest - 3.05).abs() < 1e-9);
/// ```
#[must_use]
pub fn climate(temperature: Temperature, humidity: RelativeHumidity, class: MoldClass) -> Climate {
    let (celsius, percent) = (
        temperature.as_celsius(),
        (humidity.as_fraction() * 100.0).min(100.0),
    );
    if celsius <= 0.0 {
        return Climate::Frost;
    }
    let critical = critical(celsius, class);
    if percent < critical {
        return Climate::Dry;
    }
    let weeks = libm::exp(-0.68 * libm::log(celsius) - 13.9 * libm::log(percent) + 66.02);
    let [a, b, c] = class_of(class).greatest;
    // At 0 °C only saturated air is at the critical humidity.
    let x = match critical < 100.0 {
        true => (critical - percent) / (critical - 100.0),
        false => 1.0,
    };
    Climate::Growth {
        rate: 1.0 / (24.0 * 7.0 * weeks),
        greatest: a + b * x - c * x * x,
    }
}

/// Decline of pine's index per hour: in the first six hours, none until a day has passed, then on.
const DECLINE: [(f64, f64); 3] = [(6.0, 0.001_33), (24.0, 0.0), (f64::INFINITY, 0.000_667)];

/// Mold on a surface as time passes.
///
/// # Example
/// Thirty days at 20 °C and 50 % on a material that declines a quarter as fast as pine:
/// ```
/// # use dewmargin::physics::mold_index::{Mold, climate};
/// # use dewmargin::quantity::{MoldClass, RelativeHumidity, Temperature};
/// let mut mold = Mold::new(MoldClass::Sensitive, 0.25);
/// mold.index = 3.0;
/// let room = (Temperature::from_celsius(20.0), RelativeHumidity::from_fraction(0.5));
/// for _ in 0..30 * 24 {
///     mold.pass(climate(room.0, room.1, MoldClass::Sensitive), 1.0);
/// }
/// assert!((mold.index - 2.8819).abs() < 1e-4);
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mold {
    /// The index, 0 to 6.
    pub index: f64,
    /// Hours since it last grew.
    dry_hours: f64,
    speed: [f64; 2],
    /// Decline over that of pine.
    decline: f64,
}

impl Mold {
    /// A clean surface. `decline`: how fast mold goes back there over how fast on pine.
    ///
    /// Source: Ojanen et al. 2010 (decline by material, from memory).
    /// Valid: 0 ≤ decline ≤ 1.
    /// Departure: none.
    ///
    /// # Example
    /// ```
    /// # use dewmargin::physics::mold_index::Mold;
    /// # use dewmargin::quantity::MoldClass;
    /// assert_eq!(Mold::new(MoldClass::Sensitive, 0.25).index, 0.0);
    /// ```
    #[must_use]
    pub fn new(class: MoldClass, decline: f64) -> Self {
        Self {
            index: 0.0,
            dry_hours: 0.0,
            speed: class_of(class).speed,
            decline,
        }
    }

    /// Lets some hours pass in the same air.
    ///
    /// ```text
    /// dM/dt = k1 k2 · rate        k2 = max(1 − exp(2.3 (M − greatest)), 0)
    /// ```
    /// k1 by class, below and from M = 1. Where it is dry M falls by 0.001 33 an hour for six hours,
    /// not at all until a day has passed, then by 0.000 667, times the decline of the material.
    ///
    /// Source: Hukka and Viitanen 1999; Ojanen et al. 2010 (seen).
    /// Valid: any step in which the air stays the same.
    /// Departure: up to an hour one explicit step, as the published values were computed; longer ones
    /// by the closed form, M = greatest − ln(1 + (u − 1) exp(−2.3 k1 rate t)) / 2.3 with
    /// u = exp(2.3 (greatest − M)).
    ///
    /// # Example
    /// ```
    /// # use dewmargin::physics::mold_index::{Climate, Mold};
    /// # use dewmargin::quantity::MoldClass;
    /// let mut mold = Mold::new(MoldClass::VerySensitive, 1.0);
    /// mold.pass(Climate::Growth { rate: 0.001, greatest: 4.0 }, 10.0);
    /// assert!((mold.index - 0.01).abs() < 2e-6);
    /// ```
    pub fn pass(&mut self, climate: Climate, hours: f64) {
        match climate {
            Climate::Frost => {}
            Climate::Growth { rate, greatest } => {
                match hours > 1.0 {
                    true => self.grow(rate, greatest, hours),
                    false => {
                        let k1 = self.speed[usize::from(self.index >= 1.0)];
                        let k2 = (1.0 - libm::exp(2.3 * (self.index - greatest))).max(0.0);
                        self.index += hours * k1 * k2 * rate;
                    }
                }
                self.dry_hours = 0.0;
            }
            Climate::Dry => {
                let until = self.dry_hours + hours;
                let mut from = self.dry_hours;
                for (end, rate) in DECLINE {
                    let to = until.min(end);
                    if to > from {
                        self.index -= (to - from) * rate * self.decline;
                        from = to;
                    }
                }
                self.index = self.index.max(0.0);
                self.dry_hours = until;
            }
        }
    }

    /// Growth by the closed form, first at the speed below 1, then at the one from 1 on.
    fn grow(&mut self, rate: f64, greatest: f64, hours: f64) {
        if self.index >= greatest {
            return;
        }
        let after = |from: f64, speed: f64, hours: f64| {
            let span = libm::exp(2.3 * (greatest - from)) - 1.0;
            greatest - libm::log1p(span * libm::exp(-2.3 * speed * rate * hours)) / 2.3
        };
        let [slow, fast] = self.speed;
        if self.index >= 1.0 {
            self.index = after(self.index, fast, hours);
            return;
        }
        let reached = after(self.index, slow, hours);
        if reached <= 1.0 {
            self.index = reached;
            return;
        }
        // The hours until the index is 1.
        let span = |index: f64| libm::exp(2.3 * (greatest - index)) - 1.0;
        let until = libm::log(span(self.index) / span(1.0)) / (2.3 * slow * rate);
        self.index = after(1.0, fast, (hours - until).max(0.0));
    }
}
