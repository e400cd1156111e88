//! Where people fell in moving water, and would fall: published limits side by side, as speeds at one depth.

use super::super::answer::{Finding, Outcome};
use super::{Bed, InTheCurrent};
use crate::band::{Band, Spread, sweep_corners};
use crate::law::standing::{
    Board, Conditions, Curve, Wader, abt_limit, apparent_weight, body_volume, karvonen_limit, slides_in_water,
    submerged_share, topples_in_water, xia_topple_speed,
};
use crate::law::{OutOfDomain, gravity};
use crate::limit::Standing;
use crate::quantity::{
    Force, Kind, Length, Mass, MassDensity, Ratio, kilogram, kilogram_per_cubic_metre, metre, newton, ratio,
};

/// What makes a limit uncertain: depth over height, height (m), body (kg), kit (kg), friction, drag coefficient,
/// density (kg/m³), buoyancy of suit and aid (N).
pub(super) type Stands = [f64; 8];

/// How many limits there are.
const LIMITS: usize = 11;
const NAMES: [&str; LIMITS] = [
    "Abt and others 1989, people in a flume",
    "Karvonen and others 2000, good conditions (from memory)",
    "Karvonen and others 2000, ordinary conditions",
    "Karvonen and others 2000, poor conditions (from memory)",
    "Cox, Shand & Blacka 2010, adults: low hazard up to here",
    "Cox, Shand & Blacka 2010, trained people at work",
    "Cox, Shand & Blacka 2010, adults: extreme from here",
    "Xia and others 2014, toppled: curve fitted to people",
    "Xia and others 2014, toppled: curve fitted to a model",
    "pushed off the feet, friction of this bed",
    "toppled, the weight 0.15 m before the edge of the feet",
];

/// A speed in one figure, rounded down.
fn one_figure(speed: f64) -> f64 {
    if speed >= 1.0 { speed.floor() } else { (10.0 * speed).floor() / 10.0 }
}

impl InTheCurrent {
    pub(super) fn stands(&self) -> Result<[Band; 8], OutOfDomain> {
        let [_, _, density, coefficient, ..] = self.wet()?;
        let [body, kit] = self.people.inputs();
        Ok([
            self.depth.of_height(),
            self.height.map(|height| height.value),
            body,
            kit,
            self.bed.friction(),
            coefficient,
            density,
            // Suit 40 to 70 N, aid 50 N; in white water both are lost.
            Band::of(0.0, 55.0, 120.0),
        ])
    }

    /// Speed at which each limit is reached, m/s.
    pub(super) fn falls_at(&self, point: &Stands) -> Result<[f64; LIMITS], OutOfDomain> {
        let &[share, height, body, kit, friction, coefficient, density, flotation] = point;
        let (depth, height) = (Length::new::<metre>(share * height), Length::new::<metre>(height));
        let (mass, left) = (Mass::new::<kilogram>(body), self.bed.left());
        let product = |limit: f64| left * limit / depth.value;
        let karvonen = |conditions| Ok::<_, OutOfDomain>(product(karvonen_limit(height, mass, conditions)?.value));
        let cox = |wader: Wader| {
            let limits = wader.limits();
            if depth > limits.depth { 0.0 } else { product(limits.product.value).min(limits.speed.value) }
        };
        let xia = |curve| Ok::<_, OutOfDomain>(left * xia_topple_speed(depth, height, mass, curve)?.value);
        let density = MassDensity::new::<kilogram_per_cubic_metre>(density);
        let under = submerged_share(Ratio::new::<ratio>(share))?;
        let weight = gravity::weight(Mass::new::<kilogram>(body + kit));
        let board = Board {
            weight: apparent_weight(weight, density, body_volume(mass)?, under, Force::new::<newton>(flotation))?,
            breadth: Length::new::<metre>(0.40),
            coefficient: Ratio::new::<ratio>(coefficient),
            density,
            depth,
        };
        Ok([
            product(abt_limit(height, mass)?.value),
            karvonen(Conditions::Good)?,
            karvonen(Conditions::Ordinary)?,
            karvonen(Conditions::Poor)?,
            cox(Wader::Adult),
            cox(Wader::Trained),
            cox(Wader::Extreme),
            xia(Curve::Low)?,
            xia(Curve::High)?,
            slides_in_water(&board, Ratio::new::<ratio>(friction))?.value,
            topples_in_water(&board, Length::new::<metre>(0.15))?.value,
        ])
    }

    /// The limits side by side, and in how many the water is too fast at the adverse end, and at every end.
    pub(super) fn limits_of_standing(&self) -> Result<(Outcome, [usize; 2]), OutOfDomain> {
        let water = self.speed()?;
        let spreads: [Spread<8>; LIMITS] = sweep_corners(self.stands()?, |point| self.falls_at(point))?;
        let mut above = [0, 0];
        let mut findings = Vec::new();
        for (name, spread) in NAMES.into_iter().zip(spreads) {
            // Nobody is below a limit of standing: too fast, or not checked.
            let standing = Standing::of(water, spread.band);
            let (adverse, every) = (standing != Standing::BelowLimit, standing == Standing::AboveLimit);
            let told = match (adverse, every) {
                (_, true) => standing.words(),
                (true, _) => "above limit at the adverse end",
                _ => Standing::NotChecked("").words(),
            };
            let [at_adverse, at_every] = above;
            above = [at_adverse + usize::from(adverse), at_every + usize::from(every)];
            let band = spread.band.map(one_figure);
            findings.push(Finding { stands: Some(told), ..Finding::strength(name, band).measured_as(Kind::Speed) });
        }
        let case = format!(
            "Standing on {}, water to the {}: speeds at which people fell or would fall, in one figure",
            match self.bed {
                Bed::Boulders => "boulders, which halve what was found on even beds",
                bed => bed.words(),
            },
            self.depth.words()
        );
        Ok((Outcome { case, findings }, above))
    }
}
