//! Work of many pieces that do not depend on each other, so that several can be done at the same time.

use core::ops::Range;

/// Work that falls into pieces.
///
/// Whoever has several workers prepares the same work in each, lets each find the numbers of other pieces, and gives
/// them all, in the order of the pieces, to one of them. The result is the same to the bit, whoever found them.
pub trait Pieces {
    /// Pieces whose numbers were taken, and pieces in all.
    fn progress(&self) -> (usize, usize);

    /// The numbers of some pieces, one piece behind the other, equally many for each.
    fn numbers(&self, pieces: Range<usize>) -> Vec<f64>;

    /// Takes the numbers of the next pieces.
    fn take(&mut self, numbers: &[f64]);

    /// Does some more pieces here; false when all are done.
    fn advance(&mut self, pieces: usize) -> bool {
        let (done, all) = self.progress();
        let next = done..all.min(done + pieces);
        let numbers = self.numbers(next);
        self.take(&numbers);
        let (done, all) = self.progress();
        done < all
    }
}
