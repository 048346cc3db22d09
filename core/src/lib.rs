//! Mechanics of a fall on a temporary horizontal lifeline.
//!
//! [`case::Case`] is what the user describes, [`solve::solve`] gives the [`solve::Outcome`]. Why it is
//! as it is stands in `core/DESIGN.md`, here `design`.
#![no_std]
extern crate alloc;
// What the checks from outside share with the unit tests names the crate as they do.
#[cfg(test)]
extern crate self as footroom_core;

mod absorber;
pub mod answer;
pub mod anywhere;
mod arrest;
pub mod assess;
mod balance;
pub mod case;
pub mod check;
pub mod constants;
pub mod corner;
pub mod curve;
pub mod demo;
#[cfg(doc)]
#[doc = include_str!("../DESIGN.md")]
pub mod design {}
pub mod draws;
pub mod envelope;
pub mod fault;
pub mod field;
pub mod fit;
pub mod found;
pub mod group;
pub mod hash;
pub mod limits;
pub mod line;
mod maths;
mod mesh;
pub mod nearby;
pub mod order;
pub mod outcome;
pub mod points;
mod quantity;
pub mod ready;
mod roots;
pub mod rope;
mod rules;
pub mod scope;
pub mod setup;
pub mod size;
pub mod solve;
#[cfg(test)]
#[path = "../../tests/support/spread.rs"]
mod spread;
mod stack;
pub mod standing;
pub mod support;
mod swing;
pub mod trial;
pub mod why;
