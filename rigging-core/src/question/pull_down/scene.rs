//! The picture of the pull: ring, both strands, what they run over, who pulls.

use super::super::pullers::PullFrom;
use super::super::scene::{Arrow, Dimension, Person, Place, Pose, Role, Scene, Strand};
use super::PullDown;
use super::case::{Inputs, Part, Side};
use crate::law::OutOfDomain;
use crate::law::pull_down::{Piece, beyond};
use crate::quantity::{Force, newton};

/// Shares of the longer strand: least rope drawn between bends, distance of the strands, rock beyond its last bend.
const APART: f64 = 0.07;
const BESIDE: f64 = 0.02;
const BEYOND: f64 = 0.15;

/// The place so far away in a direction from plumb, to the right above 0.
fn step([x, y]: Place, from_plumb: f64, far: f64) -> Place {
    let (sine, cosine) = from_plumb.sin_cos();
    [x + far * sine, y - far * cosine]
}

/// A strand as it is drawn.
struct Drawn {
    strands: Vec<Strand>,
    /// The places at which it bends, with its directions from plumb before and after.
    bends: Vec<(Place, f64, f64)>,
    end: Place,
}

/// Rock behind the ring and under the bends: one surface if both strands follow it, else a piece at each bend.
fn rock(bends: &[(Place, f64, f64)], leaves: f64, long: f64, both: bool) -> Vec<Vec<Place>> {
    let below = |[x, y]: Place| [x - 2.0 * BESIDE * long, y - 2.0 * BESIDE * long];
    let mut pieces = vec![vec![below(step([0.0, 0.0], leaves, -BEYOND * long))]];
    let mut last = ([0.0, 0.0], leaves);
    for &(at, before, after) in bends {
        if !both {
            let (end, start) = (step(last.0, last.1, APART * long), below(step(at, before, -APART * long)));
            if let Some(piece) = pieces.last_mut() {
                piece.push(below(end));
            }
            pieces.push(vec![start]);
        }
        if let Some(piece) = pieces.last_mut() {
            piece.push(below(at));
        }
        last = (at, after);
    }
    if let Some(piece) = pieces.last_mut() {
        piece.push(below(step(last.0, last.1, BEYOND * long)));
    }
    pieces
}

impl PullDown {
    /// Draws a strand from the ring down, each part with the higher of the tensions at its ends.
    fn drawn(&self, side: Side, from: Place, leaves: f64, parts: &[(&Part, f64)], long: f64) -> Drawn {
        let mut drawn = Drawn { strands: Vec::new(), bends: Vec::new(), end: from };
        let (mut heading, mut since) = (leaves, 0.0);
        // What the other strand turns more is drawn where this one first bends.
        let mut turns = leaves - self.turns(side);
        let run = |drawn: &mut Drawn, heading: f64, length: f64, tension: f64| {
            let to = step(drawn.end, heading, length);
            drawn.strands.push(Strand { from: drawn.end, to, tension });
            drawn.end = to;
        };
        for (part, tension) in parts {
            match part.piece {
                Piece::Bend { turning_angle, .. } => {
                    if since < APART * long {
                        run(&mut drawn, heading, APART * long - since, *tension);
                    }
                    let before = heading;
                    heading -= turning_angle.value + turns;
                    drawn.bends.push((drawn.end, before, heading));
                    (since, turns) = (0.0, 0.0);
                }
                Piece::Straight { .. } => {
                    let mut length = part.length;
                    if turns > 0.0 && self.turns(side) == 0.0 {
                        run(&mut drawn, heading, APART * long, *tension);
                        heading -= turns;
                        turns = 0.0;
                        length = (length - APART * long).max(APART * long);
                    }
                    run(&mut drawn, heading, length, *tension);
                    since += length;
                }
            }
        }
        drawn
    }

    pub(super) fn scene(&self, point: &Inputs) -> Result<Scene, OutOfDomain> {
        let way = self.way(0.0, point)?;
        let long = self.long(Side::Rising).max(self.long(Side::Pulled));
        let leaves = self.turns(Side::Rising).max(self.turns(Side::Pulled));
        let mut tension = Force::new::<newton>(0.0);
        let mut tensions = Vec::new();
        for part in way.parts() {
            let after = beyond(tension, &part.piece)?;
            tensions.push((part, tension.max(after).value));
            tension = after;
        }
        let (rising, pulled) = tensions.split_at(way.rising.len());
        let rising: Vec<_> = rising.iter().rev().copied().collect();
        let ring = [0.0, 0.0];
        // The strand that rises lies on the side of the rock.
        let beside = step(ring, leaves - std::f64::consts::FRAC_PI_2, BESIDE * long);
        let rising = self.drawn(Side::Rising, beside, leaves, &rising, long);
        let pulled = self.drawn(Side::Pulled, ring, leaves, pulled.get(1..).unwrap_or_default(), long);
        let [before, after] = way.at_ring()?;
        let along = |force: f64| step([0.0, 0.0], leaves, force);
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let mut forces = vec![arrow(ring, along(before + after), Role::OnAnchor, "anchor")];
        let hand = pulled.end;
        if tension.value > 0.0 {
            forces.push(arrow(hand, [0.0, -tension.value], Role::Load, "pull"));
        }
        let (one, other) = (self.turns(Side::Rising), self.turns(Side::Pulled));
        let rock = rock(if one > other { &rising.bends } else { &pulled.bends }, leaves, long, one == other);
        let pullers = (0..self.pullers)
            .map(|place| Person { at: [hand[0] + 1.1 * f64::from(place), hand[1]], pose: Pose::Standing });
        let mut water = Vec::new();
        if self.pull_from == PullFrom::Swimming {
            water.push([[hand[0] - 2.0, hand[1]], [hand[0] + 2.0 + 1.1 * f64::from(self.pullers), hand[1]]]);
        }
        let lengths = pulled.strands.last().map(|last| Dimension { from: last.from, to: last.to, name: "hangs" });
        Ok(Scene {
            case:
                "Drawn: the start of the pull, with the most friction; bends that lie close together are drawn apart."
                    .to_owned(),
            rock,
            anchors: vec![ring],
            lines: rising.strands.into_iter().chain(pulled.strands).collect(),
            people: pullers.collect(),
            water,
            polygon: vec![
                arrow(ring, along(before), Role::Load, "strand that rises"),
                arrow(ring, along(after), Role::Load, "strand pulled"),
                arrow(ring, along(-before - after), Role::OnAnchor, "anchor holds"),
            ],
            forces,
            lengths: lengths.into_iter().collect(),
            ..Scene::default()
        })
    }
}
