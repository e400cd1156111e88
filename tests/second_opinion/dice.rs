//! Random numbers, the same ones in every run.

/// A small generator of numbers (splitmix64).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Dice(seed)
    }

    /// A number from `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        bits ^= bits >> 31;
        low + (high - low) * (bits >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A number from `low` to `high`, each decade as likely as the next.
    pub fn decades(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }

    pub fn chance(&mut self, share: f64) -> bool {
        self.between(0.0, 1.0) < share
    }
}
