//! One part of the house's heat loss, and where its number comes from.

use crate::quantity::Length;

/// What a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeatPartKind {
    /// An assembly: U·A.
    Assembly,
    /// Windows or doors: U·A.
    Opening,
    /// An edge: psi·length.
    Edge,
    /// Bolts: chi·count.
    Bolts,
}

/// How much of it there is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// m².
    Area(f64),
    /// m.
    Length(f64),
    /// Pieces.
    Count(u32),
}

impl Size {
    /// The number alone.
    #[must_use]
    pub fn number(self) -> f64 {
        match self {
            Self::Area(size) | Self::Length(size) => size,
            Self::Count(count) => f64::from(count),
        }
    }
}

/// Why a fastener's correction can't be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotApplicable {
    /// Both ends touch steel.
    BothEndsOnSteel,
    /// Both neighbors of the layer are metal.
    BetweenMetal,
}

/// Where a transmittance comes from.
#[derive(Clone, Debug, PartialEq)]
pub enum Basis {
    /// The combined method; strips named here are left to a detail.
    Combined {
        /// Left out of the U-value.
        left_to_detail: Vec<String>,
    },
    /// The middle of the bracket of parallel path and isothermal planes, since the combined method
    /// doesn't apply.
    Bracket {
        /// Parallel path, W/(m²·K).
        low: f64,
        /// Isothermal planes, W/(m²·K).
        high: f64,
        /// Strips still in it.
        strips: Vec<String>,
    },
    /// Stated in the file.
    Stated,
    /// A detail in two dimensions; of a cross member the cut shows half, so psi counts twice.
    Detail {
        /// Whether psi counts twice.
        twice: bool,
    },
    /// The correction for fasteners.
    Fastener {
        /// λ_f, W/(m·K).
        conductivity: f64,
        /// A_f, m².
        section: f64,
        /// d_1, m.
        depth: Length,
        /// d_0, m.
        thickness: Length,
        /// R_1, m²·K/W.
        penetrated: f64,
        /// R_T, m²·K/W.
        total: f64,
    },
    /// A fastener that conducts less than 1 W/(m·K): nothing is added.
    PoorConductor,
    /// The layer the fastener goes through isn't in the assembly, or lies outside of a ventilated
    /// gap: nothing is added.
    NoSuchLayer,
    /// The correction for fasteners doesn't apply: counted as not known.
    NotApplicable(NotApplicable),
    /// Not known.
    Unknown,
}

/// One part.
#[derive(Clone, Debug, PartialEq)]
pub struct HeatPart {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: HeatPartKind,
    /// How much of it there is.
    pub size: Size,
    /// U, psi or chi in SI units; `None`: not known.
    pub value: Option<f64>,
    /// How far that may be off, in the same unit; 0 where nothing tells.
    pub bar: f64,
    /// Where it comes from.
    pub basis: Basis,
}

impl HeatPart {
    /// What it loses per degree, W/K; nothing where it isn't known.
    #[must_use]
    pub fn loss(&self) -> f64 {
        self.value.map_or(0.0, |value| value * self.size.number())
    }

    /// How far that may be off, W/K.
    #[must_use]
    pub fn loss_bar(&self) -> f64 {
        self.bar * self.size.number()
    }
}
