//! Mechanics of a fall on a temporary horizontal lifeline.
#![no_std]
extern crate alloc;
