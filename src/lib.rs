//! Where a wall, floor or roof meets cold steel: temperatures, dew-point margins, the verdict in a
//! sentence, and the section plot.
//!
//! A project file becomes a [`model::Project`] ([`input`]), every case of it is solved
//! ([`solve`]) and judged ([`check`]), and the findings are shown ([`report`]). The formulas are in
//! [`physics`], one cited equation each. Inside, everything is SI; [`quantity`] converts at the
//! edge.
//!
//! ```
//! use dewmargin::quantity::{Style, UnitSystem};
//! use dewmargin::{check, input, report};
//!
//! let text = include_str!("../examples/cabin-floor.yaml");
//! let project = input::resolve_text("cabin-floor.yaml", text)?;
//! let judged = Study::of(&project).assemblies;
//!
//! // As drawn, the subfloor lies bare on the steel flange.
//! let bare = check::overview(&judged[0].result);
//! assert!(bare.wood_margin.unwrap().as_kelvin() < 0.0);
//!
//! // An inch of foam over the flange, bonded, keeps it clear.
//! let foam = check::overview(&judged[1].result);
//! assert!(foam.wood_margin.unwrap().as_kelvin() > 0.0);
//!
//! let style = Style { units: UnitSystem::Imperial };
//! println!("{}", report::comparison::compare_text(&project, &judged, &[], style));
//! # Ok::<(), dewmargin::error::Error>(())
//! ```
//!
//! Limits: one-dimensional and steady. A metal strip is a hand-check, whose known errors stand in
//! [`solve::transmittance`] and in the cautions of every report.

pub mod check;
pub mod cli;
pub mod climate;
pub mod document;
pub mod error;
pub mod input;
pub mod material;
pub mod model;
pub mod physics;
pub mod quantity;
pub mod report;
pub mod solve;
pub mod study;
