//! What a rig makes the usual parts carry, and how that stands against the figures of their standards.

use super::against::{Against, Holds};
use super::answer::{ChosenLimit, Comparison};
use crate::band::Band;
use crate::limit::Standing;
use crate::strength::hardware::{ARREST_EN, ARREST_US, BOLT_AXIAL, CONNECTOR, CONNECTOR_OPEN};
use crate::strength::rope::{ROPE_A_PEAK, ROPE_B_TIED, SINGLE_PEAK};
use crate::strength::{Bound, Strength};

/// Forces that reach the parts which every rig has, N.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carried {
    /// In the rope that people hang on.
    pub rope: Band,
    /// How many hang on it.
    pub people: u32,
    /// On the anchor that is pulled hardest.
    pub anchor: Band,
}

impl Carried {
    /// Each of them against published figures for new, dry parts, whatever else was chosen to compare with: strengths
    /// over the design factor, most forces as they are.
    pub fn compare(&self, against: &Against) -> Vec<Comparison> {
        let factor = against.factor.value;
        let one = self.rope.map(|force| force / f64::from(self.people.max(1)));
        let unknown = if against.holds == Holds::KnownBolt { None } else { Some("nobody knows what this anchor is") };
        let row = |what: &str, load: Band, figure: Strength, unknown: Option<&'static str>| {
            let force = figure.force().value;
            let factor = if figure.bound == Bound::AtLeast { factor } else { 1.0 };
            let band = Band::exact(force / factor);
            let limit =
                ChosenLimit { band, figure: force, factor, part: figure.part.to_owned(), source: figure.source };
            let standing = Standing::of(load, band);
            let standing = unknown.map_or(standing, |reason| standing.of_unknown_part(reason));
            Comparison { what: what.to_owned(), load, limit: Some(limit), standing }
        };
        vec![
            row("on the harness of one person", one, ARREST_EN, None),
            row("on the harness of one person", one, ARREST_US, None),
            row("in the rope", self.rope, ROPE_A_PEAK, None),
            row("in the rope", self.rope, SINGLE_PEAK, None),
            row("in the rope, with its knot", self.rope, ROPE_B_TIED, None),
            row("on a connector in the rope", self.rope, CONNECTOR, None),
            row("on a connector in the rope, should its gate open", self.rope, CONNECTOR_OPEN, None),
            row("on the anchor that is pulled hardest", self.anchor, BOLT_AXIAL, unknown),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Ratio;

    #[test]
    fn strengths_are_divided_by_the_design_factor_and_most_forces_are_not() {
        let carried = Carried { rope: Band::of(2000.0, 3000.0, 5000.0), people: 2, anchor: Band::exact(2900.0) };
        let mut against = Against { holds: Holds::KnownBolt, ..Against::default() };
        let stand = |against: &Against| -> Vec<&'static str> {
            carried.compare(against).iter().map(|row| row.standing.words()).collect()
        };
        let (below, crosses, above) = ("below limit", "range crosses limit", "above limit");
        // By hand, factor 5: 2.5 kN each of 6 and 8 kN; 5 of 6 and 12 kN; of 12/5 = 2.4; 20/5 = 4; 7/5 = 1.4; 2.9 of 15/5.
        assert_eq!(stand(&against), [below, below, below, below, crosses, crosses, above, below]);
        against.factor = Ratio::new::<crate::quantity::ratio>(10.0);
        assert_eq!(stand(&against), [below, below, below, below, above, crosses, above, above]);
        against.holds = Holds::Natural;
        against.factor = Ratio::new::<crate::quantity::ratio>(5.0);
        assert_eq!(stand(&against)[7], "not checked");
    }
}
