//! A rope that hauls over bends, some of which stay and some of which travel: its tension followed bend by bend.
//!
//! A part passes tension on by its **gain**: tension on the hand's side over tension on the load's side. While the
//! rope runs toward the hand (raising) it is 1/η or `e^{+μφ}`, while it runs toward the load (lowering) η or `e^{−μφ}`.

use super::{OutOfDomain, check, finite, not_negative, positive};
use crate::quantity::{Force, Ratio, newton, ratio};

/// Where a rope begins, at the load's end of the list.
/// ```
/// use rigging_core::law::haul::{self, Begins, Part};
/// use rigging_core::quantity::{Ratio, ratio};
///
/// // A pulley at the load, without loss. The rope tied to an anchor: two strands pull the load. Tied to the load, and
/// // over a pulley at the anchor first: three.
/// let free = Ratio::new::<ratio>(1.0);
/// let two = haul::follow(Begins::AtAnchor, &[Part::AtLoad(free)])?;
/// let three = haul::follow(Begins::AtLoad, &[Part::Stays(free), Part::AtLoad(free)])?;
/// assert_eq!((two.load.value, three.load.value), (2.0, 3.0));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Begins {
    /// It is tied to the load: its first strand pulls the load.
    AtLoad,
    /// It is tied to an anchor: only bends that travel pull the load.
    AtAnchor,
}

/// What the rope meets on its way from the load's end to the hand. Strands at a bend that travels run side by side.
/// ```
/// use rigging_core::law::haul::{self, Begins, Part};
/// use rigging_core::quantity::{Ratio, ratio};
///
/// let free = Ratio::new::<ratio>(1.0);
/// let (stays, travels) = (Part::Stays(free), Part::Travels(free));
/// // Without loss: three strands pull a clamp, and the rope that it grips goes on to three again: 3 · 3 = 9.
/// let on_a_clamp = haul::follow(Begins::AtLoad, &[stays, travels, Part::Clamp, stays, travels])?;
/// // A new rope, tied to an anchor, of which two strands pull the three: 2 · 3 = 6.
/// let on_a_new_rope = haul::follow(Begins::AtLoad, &[stays, travels, Part::NewRope, travels])?;
/// assert_eq!((on_a_clamp.load.value, on_a_new_rope.load.value), (9.0, 6.0));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Part {
    /// A bend that stays where it is, of some gain.
    Stays(Ratio),
    /// A bend that travels with the load, of some gain: both its strands pull the load.
    AtLoad(Ratio),
    /// A bend that travels, of some gain: both its strands pull what stands before it in the list, the nearest
    /// [`Part::Clamp`], [`Part::NewRope`], or else the load.
    Travels(Ratio),
    /// A clamp on the rope: it goes on, or a new rope is tied to the clamp and goes on.
    Clamp,
    /// A new rope, tied to an anchor: only bends that travel on it pull the rope before.
    NewRope,
}

/// Tensions on both sides of a part.
/// ```
/// use rigging_core::law::haul::{self, Begins, Part, Sides};
/// use rigging_core::quantity::{Ratio, ratio};
///
/// // A bend at the anchor that takes half. By hand: 1 on the hand's side, 0.5 on the load's, so the anchor feels 1.5.
/// let gain = Ratio::new::<ratio>(2.0);
/// let haul = haul::follow(Begins::AtLoad, &[Part::Stays(gain)])?;
/// let half = Ratio::new::<ratio>(0.5);
/// assert_eq!(haul.sides, [Sides { load: half, hand: Ratio::new::<ratio>(1.0) }]);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sides {
    /// On the load's side.
    pub load: Ratio,
    /// On the hand's side; for a new rope the tension at its end, which its anchor holds.
    pub hand: Ratio,
}

/// All tensions of a haul, each over the force of the hand.
/// ```
/// use rigging_core::law::haul::{self, Begins};
///
/// // A rope straight from the hand to the load: what the hand pulls arrives, and there is nothing on the way.
/// let haul = haul::follow(Begins::AtLoad, &[])?;
/// assert_eq!((haul.load.value, haul.end.value, haul.sides.len()), (1.0, 1.0, 0));
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Haul {
    /// Force on the load.
    pub load: Ratio,
    /// Tension at the beginning of the rope: on the load, or on the anchor of the rope's end.
    pub end: Ratio,
    /// Tensions beside each part, in the order of the list.
    pub sides: Vec<Sides>,
}

/// The tensions of a rope that hauls a load over a list of parts, for each newton of the hand.
///
/// Without loss (each gain 1) the force on the load is also the length of rope that the hand takes in for each metre
/// that the load rises: no work is lost.
///
/// # Formula
/// From the hand (tension 1) to the load: at a bend `T_load side = T_hand side / gain`; at a clamp
/// `T_load side = T_hand side + Σ` of the strands of the bends that pull it; on the load the sum of all strands that
/// pull it. Haul in three parts, raising with efficiencies η: `1 + η₂ + η₁η₂`; lowering: `1 + 1/η₂ + 1/(η₁η₂)`.
/// # Errors
/// [`OutOfDomain`] if a gain is not above 0, nothing pulls the load, or a tension is too large for a number.
/// # References
/// Sum of the strands on each body; Delaney, *Physics for Roping Technicians*, 2020.
/// ```
/// use rigging_core::law::haul::{self, Begins, Part};
/// use rigging_core::quantity::{Ratio, ratio};
///
/// // Delaney, 2020: a haul in three parts, efficiency 0.9 at the anchor and 0.5 nearest the hand, raises 1.95.
/// // By hand: 1 at the hand, 0.5 beyond the bend that travels, 0.45 beyond the anchor; 1 + 0.5 + 0.45.
/// let gain = |efficiency: f64| Ratio::new::<ratio>(1.0 / efficiency);
/// let haul = haul::follow(Begins::AtLoad, &[Part::Stays(gain(0.9)), Part::Travels(gain(0.5))])?;
/// assert!((haul.load.value - 1.95).abs() < 1e-12);
/// assert!((haul.end.value - 0.45).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn follow(begins: Begins, parts: &[Part]) -> Result<Haul, OutOfDomain> {
    let (mut tension, mut pulled, mut load) = (1.0, 0.0, 0.0);
    let mut sides = Vec::new();
    for part in parts.iter().rev() {
        let hand = tension;
        match *part {
            Part::Stays(gain) | Part::AtLoad(gain) | Part::Travels(gain) => {
                tension = finite("tension", hand / positive("gain of a bend", gain.value)?)?;
                match part {
                    Part::AtLoad(_) => load += hand + tension,
                    Part::Travels(_) => pulled += hand + tension,
                    _ => {}
                }
            }
            Part::Clamp => (tension, pulled) = (finite("tension", hand + pulled)?, 0.0),
            Part::NewRope => (tension, pulled) = (pulls("the rope before the new one", pulled)?, 0.0),
        }
        sides.push(Sides { load: Ratio::new::<ratio>(tension), hand: Ratio::new::<ratio>(hand) });
    }
    sides.reverse();
    load += pulled;
    if begins == Begins::AtLoad {
        load += tension;
    }
    let load = pulls("the load", finite("force on the load", load)?)?;
    Ok(Haul { load: Ratio::new::<ratio>(load), end: Ratio::new::<ratio>(tension), sides })
}

/// `force` if there is any.
fn pulls(what: &'static str, force: f64) -> Result<f64, OutOfDomain> {
    check(what, force, force > 0.0, "pulled by a strand: a rope tied to an anchor needs a bend that travels")
}

/// Pull at the hand by the rule that each sheave adds a share of the load: another convention for the same loss.
///
/// It does not multiply from bend to bend as [`follow`] does, so the two differ by about a tenth where four sheaves turn.
///
/// # Formula
/// `(W + s n W) / p` where `W` is the load (N), `n` the number of sheaves, `s` the share of the load that each adds
/// (0.10), and `p` the number of parts of rope at the moving block.
/// # Errors
/// [`OutOfDomain`] if W, n or s is negative or p not above 0.
/// # References
/// US Navy, *Steelworker*, vol. 2.
/// ```
/// use rigging_core::law::haul;
/// use rigging_core::quantity::{Force, Ratio, percent, pound_force, ratio};
///
/// // Steelworker, vol. 2: 1000 lb on a twofold purchase, four sheaves and four parts, 10 % for each sheave: 350 lb.
/// let (load, four) = (Force::new::<pound_force>(1000.0), Ratio::new::<ratio>(4.0));
/// let pull = haul::by_share_of_load(load, four, Ratio::new::<percent>(10.0), four)?;
/// assert!((pull.get::<pound_force>() - 350.0).abs() < 1e-9);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn by_share_of_load(load: Force, sheaves: Ratio, share: Ratio, parts: Ratio) -> Result<Force, OutOfDomain> {
    let load = not_negative("load", load.value)?;
    let sheaves = not_negative("number of sheaves", sheaves.value)?;
    let share = not_negative("share of the load for each sheave", share.value)?;
    let parts = positive("number of parts", parts.value)?;
    finite("pull", load * (1.0 + share * sheaves) / parts).map(Force::new::<newton>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use approx::assert_relative_eq;

    fn gain(efficiency: f64) -> Ratio {
        Ratio::new::<ratio>(1.0 / efficiency)
    }

    /// Force on the load for 1 N of the hand.
    fn load(begins: Begins, parts: &[Part]) -> f64 {
        follow(begins, parts).unwrap().load.value
    }

    #[test]
    fn hauls_without_loss_multiply_by_their_strands() {
        let (stays, travels) = (Part::Stays(gain(1.0)), Part::Travels(gain(1.0)));
        assert_eq!(load(Begins::AtLoad, &[]), 1.0);
        assert_eq!(load(Begins::AtAnchor, &[travels]), 2.0);
        assert_eq!(load(Begins::AtLoad, &[stays, travels]), 3.0);
        assert_eq!(load(Begins::AtLoad, &[stays, travels, stays, travels]), 5.0);
        // Three parts on three, and three on two.
        assert_eq!(load(Begins::AtLoad, &[stays, travels, Part::Clamp, stays, travels]), 9.0);
        assert_eq!(load(Begins::AtAnchor, &[travels, Part::Clamp, stays, travels]), 6.0);
        // Two on three: the second rope is tied to an anchor.
        assert_eq!(load(Begins::AtLoad, &[stays, travels, Part::NewRope, travels]), 6.0);
    }

    #[test]
    fn three_parts_worked_by_hand() {
        // Raising, 0.8 at the anchor, 0.9 at the clamp: hand 1, then 0.9, then 0.72; on the load 2.62.
        let haul = follow(Begins::AtLoad, &[Part::Clamp, Part::Stays(gain(0.8)), Part::Travels(gain(0.9))]).unwrap();
        assert_relative_eq!(haul.load.value, 2.62, max_relative = 1e-15);
        let [clamp, anchor, moving] = haul.sides.as_slice() else { panic!("three parts") };
        assert_relative_eq!(clamp.hand.value, 0.72, max_relative = 1e-15);
        assert_relative_eq!(anchor.load.value + anchor.hand.value, 1.62, max_relative = 1e-15);
        assert_relative_eq!(moving.load.value + moving.hand.value, 1.9, max_relative = 1e-15);
        // The same over an edge that takes half: 1.31 arrives.
        let over = [Part::Stays(gain(0.5)), Part::Clamp, Part::Stays(gain(0.8)), Part::Travels(gain(0.9))];
        assert_relative_eq!(load(Begins::AtLoad, &over), 1.31, max_relative = 1e-15);
    }

    #[test]
    fn a_rope_that_pulls_nothing_is_refused() {
        let stays = Part::Stays(gain(0.9));
        assert_eq!(follow(Begins::AtAnchor, &[stays]).unwrap_err().what, "the load");
        assert!(follow(Begins::AtLoad, &[stays, Part::NewRope, stays]).unwrap_err().what.contains("before the new"));
        assert_eq!(
            follow(Begins::AtLoad, &[Part::Stays(Ratio::new::<ratio>(0.0))]).unwrap_err().what,
            "gain of a bend"
        );
    }

    #[test]
    fn by_share_of_the_load_four_sheaves_lose_more_than_by_efficiency() {
        // The twofold purchase of row F9: 350 lb by that rule, 315 to 323 lb with 10 % lost at each sheave in turn.
        for (efficiency, pull) in [(1.0 / 1.1, 315.5), (0.9, 323.1)] {
            let (stays, travels) = (Part::Stays(gain(efficiency)), Part::Travels(gain(efficiency)));
            let each = load(Begins::AtAnchor, &[travels, stays, travels, stays]);
            assert_relative_eq!(1000.0 / each, pull, epsilon = 0.05);
        }
    }
}
