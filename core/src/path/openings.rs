//! A short list of openings that lives on the stack.

/// Most inlets, and most exits, that a cowl may have.
pub const MAX_OPENINGS: usize = 4;

/// Up to [`MAX_OPENINGS`] openings.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Openings<T> {
    items: [T; MAX_OPENINGS],
    count: usize,
}

impl<T: Copy + Default> Openings<T> {
    /// Adds an opening; returns false, and leaves it out, beyond [`MAX_OPENINGS`].
    ///
    /// # Example
    /// Four at most:
    /// ```
    /// use coolpath_core::path::openings::Openings;
    ///
    /// let mut areas = Openings::default();
    /// for area in [0.01, 0.02, 0.03, 0.04] {
    ///     assert!(areas.push(area));
    /// }
    /// assert!(!areas.push(0.05));
    /// assert_eq!(areas.as_slice(), [0.01, 0.02, 0.03, 0.04]);
    /// ```
    pub fn push(&mut self, item: T) -> bool {
        if self.count == MAX_OPENINGS {
            return false;
        }
        self.items[self.count] = item;
        self.count += 1;
        true
    }

    /// The openings in their order.
    #[must_use]
    pub fn as_slice(&self) -> &[T] {
        &self.items[..self.count]
    }

    /// The openings, to be changed.
    pub(crate) fn as_mut_slice(&mut self) -> &mut [T] {
        &mut self.items[..self.count]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_opening_that_is_changed_stays_changed() {
        let mut areas = Openings::default();
        assert!(areas.push(0.01) && areas.push(0.02));
        areas.as_mut_slice()[1] = 0.05;
        assert_eq!(areas.as_slice(), [0.01, 0.05]);
    }
}
