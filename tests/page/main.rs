//! The page in real browsers; `cargo xtask test --page` runs these tests, see `rig.rs`.

mod journey;
mod offline;
mod record;
mod rig;
mod start;
