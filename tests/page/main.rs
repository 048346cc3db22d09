//! The page in real browsers; `cargo xtask test --page` runs these tests, see `rig.rs`.

mod answer;
mod beside;
mod decide;
mod direct;
mod doors;
mod drop;
mod faults;
mod frames;
mod guess;
mod host;
mod journey;
mod kept;
mod links;
mod offline;
mod record;
mod refused;
mod requests;
mod rig;
mod spread;
mod start;
mod still;
mod talk;
mod webkit;
