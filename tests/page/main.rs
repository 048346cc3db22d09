//! The page in real browsers; `cargo xtask test --page` runs these tests, see `rig.rs`.

mod decide;
mod direct;
mod drop;
mod frames;
mod guess;
mod journey;
mod offline;
mod record;
mod rig;
mod start;
mod still;
mod talk;
