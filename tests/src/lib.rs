//! What several checks share.

/// The README is what a stranger copies first.
#[cfg(doctest)]
#[doc = include_str!("../../README.md")]
struct Readme;

/// Random numbers, the same ones in every run.
///
/// SplitMix64: Steele, Lea and Flood, *Fast splittable pseudorandom number generators*, 2014 (from memory).
#[derive(Debug, Clone)]
pub struct Dice(u64);

impl Dice {
    /// Begins with this seed.
    pub const fn new(seed: u64) -> Self {
        Dice(seed)
    }

    /// The next 64 bits.
    pub const fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        bits ^ (bits >> 31)
    }

    /// A number from `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number from `low` to `high`, each decade as likely as the next.
    pub fn decades(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }

    /// A whole number below `end`; 0 if there is none.
    pub fn below(&mut self, end: usize) -> usize {
        (self.bits() % end.max(1) as u64) as usize
    }

    /// A whole number from `low` to `high`, both included.
    pub fn count(&mut self, low: usize, high: usize) -> usize {
        low + self.below(high - low + 1)
    }

    /// True in this share of all cases.
    pub fn chance(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }
}
