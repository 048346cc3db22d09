//! Sorting of short lists.
//!
//! The library's sorts are made for long ones: each use of theirs adds some kilobytes to the
//! download, and no list here has more than a few hundred entries, those of [`crate::draws`] a
//! thousand.

/// Sorts in place, keeping equal entries in their order (insertion sort). `before` tells whether
/// its first argument must stand before the second.
pub fn sort<T>(items: &mut [T], mut before: impl FnMut(&T, &T) -> bool) {
    for end in 1..items.len() {
        let mut at = end;
        while at > 0 && before(&items[at], &items[at - 1]) {
            items.swap(at, at - 1);
            at -= 1;
        }
    }
}
