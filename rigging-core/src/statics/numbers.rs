//! Numbers without pattern for the tests of the engine, the same in every run.

use super::Vector;

/// The last number, from 0 to 1.
pub(super) struct Numbers(pub f64);

impl Numbers {
    /// From 0 to 1.
    pub(super) fn next(&mut self) -> f64 {
        self.0 = (self.0 * 997.0 + 0.618_033_988_749_895).fract();
        self.0
    }

    /// Each part from −1 to 1.
    pub(super) fn place(&mut self) -> Vector {
        Vector::new(self.next(), self.next(), self.next()) * 2.0 - Vector::repeat(1.0)
    }
}
