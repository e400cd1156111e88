//! The list of bends put in order: what turns how far, where a clamp grabs, and what cannot be rigged.

use super::super::bend::Over;
use super::super::input::BadInput;
use super::{EndAt, Listed, Moves, RaiseLower, SecondEnd};
use crate::law::OutOfDomain;
use crate::law::bend;
use crate::law::haul::{Begins, Haul, Part, follow};
use crate::quantity::{Angle, Ratio, radian, ratio};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// A bend whose turn is known. Headings are those of the way from the load's end to the hand, from the x axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bendy {
    /// Its place in the list, counted from 0.
    pub(super) place: usize,
    pub(super) moves: Moves,
    pub(super) over: Over,
    pub(super) turn: f64,
    pub(super) heading: f64,
}

/// What the rope meets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Thing {
    Bend(Bendy),
    /// Where the bends with a clamp grab the rope.
    Clamp,
    /// A second rope that is clamped to the first.
    Tied,
    /// A second rope tied to an anchor, and the heading of its first strand.
    Anchored(f64),
}

/// Most bends that a list may have.
pub(super) const MOST: usize = 6;

fn refused<T>(what: &'static str, why: &'static str) -> Result<T, BadInput> {
    Err(BadInput::Refused { what, why })
}

/// The same direction between −π and π, half a turn being to the right.
fn wrapped(turn: f64) -> f64 {
    let turn = turn % TAU;
    if turn > PI + 1e-9 {
        turn - TAU
    } else if turn < 1e-9 - PI {
        turn + TAU
    } else {
        turn
    }
}

impl RaiseLower {
    /// The bends in order from the load's end.
    fn entries(&self) -> Vec<Listed> {
        let mut entries = vec![self.first, self.second, self.third, self.fourth, self.fifth, self.sixth];
        entries.truncate(self.bends as usize);
        entries
    }

    /// The list with its turns, clamps and ropes, if it can be rigged.
    pub(super) fn list(&self) -> Result<Vec<Thing>, BadInput> {
        let entries = self.entries();
        let takes_over = if entries.is_empty() { 0 } else { self.takes_over as usize };
        let split = if takes_over == 0 { entries.len() } else { takes_over };
        let Some((rope, second)) = entries.split_at_checked(split) else {
            return refused(
                "a second rope beyond a bend that is not listed",
                "let it take over beyond an earlier bend",
            );
        };
        let mut list = Vec::new();
        let anchored = self.rope_end == EndAt::Anchor;
        let mut heading = thread(&mut list, rope, 0, if anchored { -FRAC_PI_2 } else { FRAC_PI_2 }, anchored)?;
        if takes_over > 0 {
            if second.iter().any(|entry| entry.moves == Moves::WithLoad) {
                return refused(
                    "a bend of the second rope on the load itself",
                    "the second rope hauls the first: let its bends travel with a clamp",
                );
            }
            let anchored = self.second_end == SecondEnd::Anchor;
            if anchored {
                heading += PI;
            }
            list.push(if anchored { Thing::Anchored(heading) } else { Thing::Tied });
            thread(&mut list, second, split, heading, anchored)?;
        }
        Ok(list)
    }

    /// Length of rope through the hands for a length of the load's way.
    pub(super) fn rope_per_load(&self, list: &[Thing]) -> Result<f64, OutOfDomain> {
        Ok(self.follow(list, &[0.0; MOST])?.load.value)
    }

    /// All tensions for 1 N of the hand, at some friction of each bend: above 0 where it adds tension toward the hand.
    pub(super) fn follow(&self, list: &[Thing], frictions: &[f64; MOST]) -> Result<Haul, OutOfDomain> {
        let mut parts = Vec::with_capacity(list.len());
        for thing in list {
            parts.push(match thing {
                Thing::Clamp | Thing::Tied => Part::Clamp,
                Thing::Anchored(_) => Part::NewRope,
                Thing::Bend(bendy) => {
                    let friction = frictions.get(bendy.place).copied().unwrap_or_default();
                    let turn = Angle::new::<radian>(bendy.turn.abs());
                    let gain = bend::tight_to_slack(Ratio::new::<ratio>(friction.abs()), turn)?;
                    let gain = if friction < 0.0 { Ratio::new::<ratio>(1.0 / gain.value) } else { gain };
                    match bendy.moves {
                        Moves::Stays => Part::Stays(gain),
                        Moves::WithLoad => Part::AtLoad(gain),
                        Moves::WithClamp => Part::Travels(gain),
                    }
                }
            });
        }
        let begins = if self.rope_end == EndAt::Load { Begins::AtLoad } else { Begins::AtAnchor };
        follow(begins, &parts)
    }
}

/// Puts the bends of one rope on the list; gives the heading beyond the last.
fn thread(
    list: &mut Vec<Thing>,
    entries: &[Listed],
    before: usize,
    mut heading: f64,
    anchored: bool,
) -> Result<f64, BadInput> {
    let travels = |entry: &Listed| entry.moves != Moves::Stays;
    if anchored && !entries.iter().any(travels) {
        return refused(
            "a rope tied to an anchor, all its bends fixed",
            "nothing on it pulls: let a bend travel, or tie the rope to what it is to pull",
        );
    }
    // What bends that travel pull runs against the way of a rope that comes from an anchor.
    let along = if anchored { heading + PI } else { heading };
    let mut clamped_along = along;
    let first = entries.iter().position(travels).unwrap_or(entries.len());
    let clamps = !anchored && entries.iter().any(|entry| entry.moves == Moves::WithClamp);
    let mut last = 1.0;
    for (number, entry) in entries.iter().enumerate() {
        let next = entries.get(number + 1).filter(|next| travels(next));
        if travels(entry) && !entry.over.has_anchor() {
            return refused(
                "rock, a roller or timber that travels",
                "let it stay, or run the rope over a pulley there",
            );
        }
        let follows_travelling = number.checked_sub(1).and_then(|one| entries.get(one)).map_or(!anchored, travels);
        if travels(entry) && follows_travelling {
            return refused(
                "a bend that travels right after the rope's end or after another that travels",
                "no fixed bend lies between, so it cannot pull: list the fixed bend first",
            );
        }
        if clamps && number + 1 == first {
            list.push(Thing::Clamp);
            clamped_along = heading;
        }
        let turn = match (travels(entry), next) {
            (true, _) => -PI * last,
            (false, Some(next)) => {
                let pulled = if next.moves == Moves::WithLoad { along } else { clamped_along };
                wrapped(heading - pulled + PI)
            }
            (false, None) => entry.turn.value,
        };
        let place = before + number;
        list.push(Thing::Bend(Bendy { place, moves: entry.moves, over: entry.over, turn, heading }));
        last = if turn < 0.0 { -1.0 } else { 1.0 };
        heading -= turn;
    }
    Ok(heading)
}
