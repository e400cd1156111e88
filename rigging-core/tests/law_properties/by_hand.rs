//! Vectors and step-by-step motion: the other way to the same answer.

/// A force or a place in a vertical plane: across, up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plane(pub f64, pub f64);

impl Plane {
    /// Of length 1, at an angle above the level.
    pub fn at(above_level: f64) -> Self {
        Plane(above_level.cos(), above_level.sin())
    }
    pub fn plus(self, other: Self) -> Self {
        Plane(self.0 + other.0, self.1 + other.1)
    }
    pub fn minus(self, other: Self) -> Self {
        Plane(self.0 - other.0, self.1 - other.1)
    }
    pub fn times(self, factor: f64) -> Self {
        Plane(self.0 * factor, self.1 * factor)
    }
    pub fn size(self) -> f64 {
        self.0.hypot(self.1)
    }
    pub fn unit(self) -> Self {
        self.times(1.0 / self.size())
    }
    pub fn dot(self, other: Self) -> f64 {
        self.0 * other.0 + self.1 * other.1
    }
    /// Moment about the origin of a force that acts at this place.
    pub fn moment(self, force: Self) -> f64 {
        self.0 * force.1 - self.1 * force.0
    }
}

/// Tension at the far end of a bend, walked round it in small steps of `dT = μ T dφ` (Runge–Kutta).
pub fn round_a_bend(slack: f64, friction: f64, angle: f64) -> f64 {
    const STEPS: usize = 4000;
    let step = angle / STEPS as f64;
    (0..STEPS).fold(slack, |tension, _| {
        let slope = |tension: f64| friction * tension;
        let first = slope(tension);
        let second = slope(tension + step / 2.0 * first);
        let third = slope(tension + step / 2.0 * second);
        let fourth = slope(tension + step * third);
        tension + step / 6.0 * (first + 2.0 * second + 2.0 * third + fourth)
    })
}

/// How far down a body gets that starts with a speed, moved step by step (Runge–Kutta) until it turns.
pub fn lowest_point(start_speed: f64, step: f64, acceleration: impl Fn(f64) -> f64) -> f64 {
    let (mut place, mut speed) = (0.0, start_speed);
    loop {
        let (k1, a1) = (speed, acceleration(place));
        let (k2, a2) = (speed + step / 2.0 * a1, acceleration(place + step / 2.0 * k1));
        let (k3, a3) = (speed + step / 2.0 * a2, acceleration(place + step / 2.0 * k2));
        let (k4, a4) = (speed + step * a3, acceleration(place + step * k3));
        let next_place = place + step / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
        let next_speed = speed + step / 6.0 * (a1 + 2.0 * a2 + 2.0 * a3 + a4);
        if next_speed <= 0.0 {
            // It turns within this step, braked evenly.
            return place + speed * speed / (2.0 * (speed - next_speed) / step);
        }
        (place, speed) = (next_place, next_speed);
    }
}

/// Where a function that falls and then rises is least, to about eight digits.
pub fn least(low: f64, high: f64, function: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..200 {
        let third = (high - low) / 3.0;
        if function(low + third) <= function(high - third) { high -= third } else { low += third }
    }
    (low + high) / 2.0
}

/// Where a function that is true up to some place stops being true.
pub fn last_true(low: f64, high: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..200 {
        let middle = (low + high) / 2.0;
        if holds(middle) { low = middle } else { high = middle }
    }
    low
}
