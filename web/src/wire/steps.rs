//! Counts of what the decoders do, so that tests can bound it without a clock.
//!
//! A step is a byte looked at or written, a name or entry compared, a part of a long number worked
//! on. They are counted in tests and with the feature `steps` only: the page has none of it.

#[cfg(any(test, feature = "steps"))]
mod kept {
    use core::cell::Cell;

    std::thread_local! {
        static STEPS: Cell<u64> = const { Cell::new(0) };
    }

    /// Adds steps of this thread.
    pub fn count(steps: usize) {
        STEPS.with(|kept| kept.set(kept.get().saturating_add(steps as u64)));
    }

    /// The steps that this thread takes in `work`, and what comes of it.
    pub fn counted<T>(work: impl FnOnce() -> T) -> (T, u64) {
        let before = STEPS.with(Cell::get);
        let made = work();
        (made, STEPS.with(Cell::get).saturating_sub(before))
    }
}

#[cfg(any(test, feature = "steps"))]
pub use kept::{count, counted};

/// Not counted here.
#[cfg(not(any(test, feature = "steps")))]
#[inline(always)]
pub fn count(_steps: usize) {}
