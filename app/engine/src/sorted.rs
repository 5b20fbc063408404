//! Putting things in order, by one copy of the code for it.
//!
//! The standard library's sort is copied for every type and every order, which for
//! the browser comes to half a megabyte. Here only indices are sorted, and what
//! they stand for is moved into its place afterwards.

use std::cmp::Ordering;

/// What can be put in order; what is equal stays as it was.
pub trait InOrder<T> {
    /// By the order that the items have.
    fn put_in_order(&mut self)
    where
        T: Ord;

    /// By what is made of each.
    fn put_in_order_by_key<K: Ord>(&mut self, key: impl FnMut(&T) -> K);

    /// By an order that is told for two at a time.
    fn put_in_order_by(&mut self, order: impl FnMut(&T, &T) -> Ordering);
}

impl<T> InOrder<T> for [T] {
    fn put_in_order(&mut self)
    where
        T: Ord,
    {
        self.put_in_order_by(T::cmp);
    }

    fn put_in_order_by_key<K: Ord>(&mut self, mut key: impl FnMut(&T) -> K) {
        self.put_in_order_by(|one, other| key(one).cmp(&key(other)));
    }

    fn put_in_order_by(&mut self, mut order: impl FnMut(&T, &T) -> Ordering) {
        let mut from: Vec<usize> = (0..self.len()).collect();
        sort(&mut from, &mut |one, other| {
            order(&self[*one], &self[*other])
        });
        // Each goes where it belongs, along the rings of those that change places.
        for start in 0..from.len() {
            let mut at = start;
            loop {
                let next = std::mem::replace(&mut from[at], at);
                if next == start || next == at {
                    break;
                }
                self.swap(at, next);
                at = next;
            }
        }
    }
}

fn sort(indices: &mut [usize], order: &mut dyn FnMut(&usize, &usize) -> Ordering) {
    indices.sort_by(order);
}

#[cfg(test)]
mod tests {
    use std::cmp::Reverse;

    use proptest::prelude::*;

    use super::InOrder as _;

    proptest! {
        #[test]
        fn it_is_the_order_of_the_standard_library(mut items: Vec<(u8, usize)>) {
            for (place, item) in items.iter_mut().enumerate() {
                item.1 = place;
            }
            let mut sorted = items.clone();
            sorted.sort_by_key(|item| item.0);
            let mut ours = items.clone();
            ours.put_in_order_by_key(|item| item.0);
            prop_assert_eq!(&ours, &sorted);
            ours.put_in_order_by(|one, other| other.1.cmp(&one.1));
            items.sort_by_key(|item| Reverse(item.1));
            prop_assert_eq!(&ours, &items);
            ours.put_in_order();
            items.sort_unstable();
            prop_assert_eq!(ours, items);
        }
    }
}
