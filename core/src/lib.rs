//! Mechanics of a fall on a temporary horizontal lifeline.
//!
//! [`case::Case`] is what the user describes, [`solve::solve`] gives the [`solve::Outcome`].
#![no_std]
extern crate alloc;

pub mod case;
pub mod constants;
pub mod demo;
pub mod fault;
pub mod field;
mod maths;
pub mod rope;
pub mod solve;
