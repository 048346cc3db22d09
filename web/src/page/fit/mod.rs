//! What fits: the map, the inverse questions, single changes, charts of one input, the searches for
//! the worst timing and places, falls drawn within the tolerances.
//!
//! Everything here, as in `compare` and `explain`, is a function of voice and case that gives plain
//! data, so that it can run in a worker beside the page.

pub mod anywhere;
pub mod ask;
pub mod map;
pub mod search;
pub mod spread;
pub mod stop;
pub mod suggest;
pub mod sweep;

#[cfg(test)]
mod one_rule_tests;
