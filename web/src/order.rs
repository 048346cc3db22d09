//! Sorting of short lists, see [`footroom_core::order`].

pub use footroom_core::order::sort;

/// Sorts numbers upward; what is not a number keeps its place among its neighbours.
pub fn sort_numbers(numbers: &mut [f64]) {
    sort(numbers, |a, b| a < b);
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn equal_entries_keep_their_order() {
        let mut list = [(2, 'a'), (1, 'b'), (2, 'c'), (1, 'd')];
        sort(&mut list, |a, b| a.0 < b.0);
        assert_eq!(list, [(1, 'b'), (1, 'd'), (2, 'a'), (2, 'c')]);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn sorts_like_the_library(mut list in proptest::collection::vec(any::<i16>(), 0..60)) {
            let mut sorted = list.clone();
            sorted.sort();
            sort(&mut list, |a, b| a < b);
            prop_assert_eq!(list, sorted);
        }
    }
}
