//! What the checks share: closeness, the tolerance table, readers of the reference files, access to
//! every numeric input by its name, generators of cases, cases solved. (`corpus.rs`, `finished.rs` and
//! `spread.rs` are included by those who ask for them.)
//!
//! No check lives here, and no tolerance lives anywhere but in [`tolerance`].

pub mod cable;
pub mod closeness;
#[cfg(test)]
#[allow(dead_code, reason = "only the number of its cases is asked for here")]
mod corpus;
pub mod energy;
pub mod figures;
pub mod generate;
pub mod inputs;
pub mod reference;
pub mod report;
pub mod solved;
pub mod tolerance;
