//! Where a wall, floor or roof meets cold steel: temperatures, dew-point margins, the verdict in a
//! sentence, and the section plot.
//!
//! A project file becomes a [`model::Project`] ([`input`]); the [`study`] solves ([`solve`]) and
//! judges ([`check`]) everything asked of it, once, and says which number speaks; [`report`] shows it.
//! The formulas are in [`physics`], one cited equation each. Inside, everything is SI; [`quantity`]
//! converts at the edge.
//!
//! ```
//! use dewmargin::quantity::{Style, UnitSystem};
//! use dewmargin::{check, input, report::screen, study::Study};
//!
//! let text = include_str!("../examples/cabin-floor.yaml");
//! let project = input::resolve_text("cabin-floor.yaml", text)?;
//! let study = Study::of(&project);
//!
//! // As drawn, the subfloor lies bare on the steel flange: by the detail of its edge, which nobody
//! // drew, the wood is under the dew point of the room air.
//! let floor = study.assembly("floor", None).unwrap();
//! let bare = check::overview(floor.result()).wood_margin.unwrap();
//! assert!(bare.as_kelvin() < 0.0);
//!
//! // An inch of foam over the flange makes it warmer, and not warm enough at 60 %.
//! let floor = study.assembly("floor", Some("foam over flange")).unwrap();
//! let foam = check::overview(floor.result()).wood_margin.unwrap();
//! assert!(bare < foam && foam.as_kelvin() < 0.0);
//!
//! let style = Style { units: UnitSystem::Imperial };
//! println!("{}", screen::check_screen(&study, "cabin-floor.yaml", style, 80).text());
//! # Ok::<(), dewmargin::error::Error>(())
//! ```
//!
//! Limits: steady. A metal strip alone is a hand-check, whose bound stands in [`check::group`].

pub mod check;
pub mod cli;
pub mod climate;
mod code_table;
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
