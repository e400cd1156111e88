//! The picture of a haul, drawn from its list.

use super::super::bend::along;
use super::super::scene::{Arrow, Person, Place, Pose, Role, Scene, Strand};
use super::case::{Case, Held, Way};
use super::list::{Bendy, Thing};
use super::{EndAt, Moves, RaiseLower, Shared};
use std::f64::consts::{FRAC_PI_2, PI};

/// Lengths of the picture, m: rope between bends, and beside a clamp; how far the load hangs below bends that travel
/// with it; radius of a bend; sling of an anchor.
const APART: f64 = 1.0;
const BESIDE: f64 = 0.5;
const BELOW: f64 = 0.5;
const RADIUS: f64 = 0.1;
const SLING: f64 = 0.35;

/// The place so far away along a heading.
fn step([x, y]: Place, heading: f64, far: f64) -> Place {
    let [u, v] = along(heading, far);
    [x + u, y + v]
}

/// The picture as far as it is drawn.
struct Pen {
    scene: Scene,
    at: Place,
    heading: f64,
    /// What bends with a clamp pull.
    clamp: Place,
    /// Where what hangs on the one anchor point leaves for it.
    slings: Vec<(Place, f64)>,
}

impl Pen {
    fn run(&mut self, far: f64, tension: f64) {
        let to = step(self.at, self.heading, far);
        self.scene.lines.push(Strand { from: self.at, to, tension });
        self.at = to;
    }

    /// Round a sheave whose centre lies on the side to which the rope turns; gives centre and arc.
    fn round(&mut self, bendy: &Bendy, tension: f64) -> (Place, Vec<Place>) {
        let side = if bendy.turn < 0.0 { FRAC_PI_2 } else { -FRAC_PI_2 };
        let centre = step(self.at, self.heading + side, RADIUS);
        let mut arc = vec![self.at];
        for part in 1..=4 {
            let heading = bendy.heading - bendy.turn * f64::from(part) / 4.0;
            let to = step(centre, heading - side, RADIUS);
            self.scene.lines.push(Strand { from: self.at, to, tension });
            arc.push(to);
            self.at = to;
        }
        self.heading = bendy.heading - bendy.turn;
        (centre, arc)
    }
}

impl RaiseLower {
    /// One case: every strand with its tension, every force on what holds.
    pub(super) fn scene(&self, case: &Case, hardest: Option<Held>) -> Scene {
        let words = match case.way {
            Way::Raising => "the most for the hand while raising",
            _ => "the most for the hand while lowering, the case of the big number",
        };
        let arrow = |at, pull, role, name| Arrow { at, pull, role, name };
        let anchored = self.rope_end == EndAt::Anchor;
        let shared = self.shared == Shared::One;
        let mut pen = Pen {
            scene: Scene {
                case: format!("Drawn: {words}, hanging still. Not to scale but for the forces."),
                ..Scene::default()
            },
            at: if anchored { [0.0, APART] } else { [0.0, -BELOW] },
            heading: if anchored { -FRAC_PI_2 } else { FRAC_PI_2 },
            clamp: [RADIUS, -BELOW],
            slings: Vec::new(),
        };
        let load = if anchored { pen.clamp } else { pen.at };
        let mut tension = case.end;
        let mut far = APART + if anchored { 0.0 } else { BELOW };
        if anchored {
            pen.hold(pen.at, along(pen.heading, tension), shared, "anchor");
        }
        for (thing, [before, after]) in &case.things {
            match thing {
                Thing::Clamp | Thing::Tied => {
                    pen.run(if far > APART { BELOW } else { BESIDE }, *before);
                    pen.clamp = pen.at;
                }
                Thing::Anchored(heading) => {
                    pen.run(BESIDE, *before);
                    pen.clamp = pen.at;
                    pen.at = step(step(pen.at, pen.heading, APART), heading + FRAC_PI_2, RADIUS);
                    pen.heading = *heading;
                    pen.hold(pen.at, along(*heading, *after), shared, "anchor");
                }
                Thing::Bend(bendy) => {
                    pen.run(far, *before);
                    let (centre, arc) = pen.round(bendy, *after);
                    let ([x, y], [u, v]) = (along(bendy.heading, -before), along(bendy.heading - bendy.turn, *after));
                    let pull = [x + u, y + v];
                    match bendy.moves {
                        Moves::Stays if bendy.over.has_anchor() => pen.hold(centre, pull, shared, "anchor"),
                        Moves::Stays => pen.edge(bendy, centre, arc, pull),
                        Moves::WithLoad | Moves::WithClamp => {
                            let to = if bendy.moves == Moves::WithLoad { load } else { pen.clamp };
                            pen.scene.lines.push(Strand { from: to, to: centre, tension: before + after });
                        }
                    }
                }
            }
            (tension, far) = (*after, APART);
        }
        pen.run(APART, tension);
        pen.tie_to_one();
        let Pen { mut scene, at, heading, .. } = pen;
        scene.people.push(Person { at: load, pose: Pose::Hanging });
        scene.forces.push(arrow(load, [0.0, -case.load], Role::Load, "load"));
        scene.forces.push(arrow(at, along(heading, case.hand), Role::Load, "hand"));
        scene.polygon = match hardest {
            Some(held) => {
                let [x, y] = case.on(held.slot);
                let strands = case.strands(held.slot).into_iter().map(|pull| arrow(load, pull, Role::Load, "rope"));
                let holds = if held.edge { "edge holds" } else { "anchor holds" };
                strands.chain([arrow(load, [-x, -y], Role::OnAnchor, holds)]).collect()
            }
            None => vec![
                arrow(load, [0.0, -case.load], Role::Load, "load"),
                arrow(load, [0.0, case.load], Role::Load, "hand"),
            ],
        };
        scene
    }
}

impl Pen {
    /// Something hangs on an anchor: on its own, or on the one of all.
    fn hold(&mut self, centre: Place, pull: [f64; 2], shared: bool, name: &'static str) {
        let [x, y] = pull;
        if shared {
            self.slings.push((centre, x.hypot(y)));
            let all = self.scene.forces.iter_mut().find(|arrow| arrow.role == Role::OnAnchor && arrow.name == name);
            if let Some(all) = all {
                let [u, v] = all.pull;
                all.pull = [x + u, y + v];
            } else {
                self.scene.forces.push(Arrow { at: centre, pull, role: Role::OnAnchor, name });
            }
            return;
        }
        let anchor = step(centre, y.atan2(x), -SLING);
        self.scene.lines.push(Strand { from: anchor, to: centre, tension: x.hypot(y) });
        self.scene.anchors.push(anchor);
        self.scene.forces.push(Arrow { at: anchor, pull, role: Role::OnAnchor, name });
    }

    fn edge(&mut self, bendy: &Bendy, centre: Place, mut arc: Vec<Place>, pull: [f64; 2]) {
        if let (Some(first), Some(last)) = (arc.first().copied(), arc.last().copied()) {
            arc.insert(0, step(first, bendy.heading, -SLING));
            arc.push(step(last, bendy.heading - bendy.turn, SLING));
        }
        if bendy.turn < 0.0 {
            arc.reverse();
        }
        self.scene.rock.push(arc);
        self.scene.forces.push(Arrow { at: centre, pull, role: Role::OnAnchor, name: "edge" });
    }

    /// The one anchor point lies beyond the middle of what hangs on it, against its pull.
    fn tie_to_one(&mut self) {
        let number = self.slings.len() as f64;
        let Some(all) =
            self.scene.forces.iter_mut().find(|arrow| arrow.role == Role::OnAnchor && arrow.name == "anchor")
        else {
            return;
        };
        if number == 0.0 {
            return;
        }
        let [x, y] = self.slings.iter().fold([0.0, 0.0], |[x, y], ([u, v], _)| [x + u / number, y + v / number]);
        let [u, v] = all.pull;
        let anchor = step([x, y], v.atan2(u) + PI, 2.0 * SLING);
        all.at = anchor;
        self.scene.anchors.push(anchor);
        let strands =
            self.slings.iter().map(|(centre, tension)| Strand { from: anchor, to: *centre, tension: *tension });
        self.scene.lines.extend(strands);
    }
}
