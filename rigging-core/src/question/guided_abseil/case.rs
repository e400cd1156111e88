//! One solved case of the guided abseil: the way down, step by step, on the engine.

use super::super::carried::larger;
use super::super::input::BadInput;
use super::super::people::State;
use super::super::rest::at_rest_again;
use super::{Guide, GuidedAbseil};
use crate::band::{Band, Spread, sweep_corners};
use crate::law::OutOfDomain;
use crate::statics::{LineId, PointId, Rig, Solver, Vector};

/// What is uncertain: load (N), how far out the bottom anchor is (m), how the guide is set, stiffness (N).
pub(super) type Inputs = [f64; 4];

/// One of the three anchors; as a number, where its force stands among the results of the sweep.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum On {
    Abseil,
    Top,
    Bottom,
}

impl On {
    pub(super) const ALL: [On; 3] = [On::Abseil, On::Top, On::Bottom];

    pub(super) fn words(self) -> &'static str {
        match self {
            On::Abseil => "in the abseil rope and on its anchor",
            On::Top => "in the guide line and on its top anchor",
            On::Bottom => "on the guide's bottom anchor",
        }
    }
}

/// What is found over the ranges.
pub(super) struct Found {
    /// Force on each anchor, N: that on its top anchor is the tension of the guide, that on the abseil anchor the
    /// tension of the rope; then that on the top anchor with the most friction of the ring.
    forces: [Spread<4>; 4],
    /// Of a person who hangs still: how far below the stance the way is inside the falling water (m), how far beyond
    /// the pool it ends (m), how far above the foot that is (m), and whether it ends inside the falling water (1 or 0).
    pub(super) way: [Spread<4>; 4],
}

impl Found {
    pub(super) fn on(&self, on: On) -> &Spread<4> {
        let [abseil, top, bottom, _] = &self.forces;
        match on {
            On::Abseil => abseil,
            On::Top => top,
            On::Bottom => bottom,
        }
    }

    /// Force on the guide's top anchor from no friction of the ring to the most.
    pub(super) fn rubbed(&self) -> Spread<4> {
        let [_, top, _, rubbed] = &self.forces;
        let (without, most) = (top.band, rubbed.band);
        let typical = f64::midpoint(without.typical(), most.typical());
        Spread { band: Band::of(without.low(), typical, most.high()), ..*rubbed }
    }
}

/// A load, and where it comes from.
pub(super) struct Load {
    pub(super) band: Band,
    /// Body mass and kit (kg), and what is uncertain about the state, at the highest load.
    pub(super) at_high: [f64; 3],
}

impl Load {
    /// A slip is one on the rope that was entered.
    pub(super) fn of(abseil: &GuidedAbseil, state: State) -> Result<Load, OutOfDomain> {
        let uncertain = match state {
            State::Slip => abseil.stiffness.map(|stiffness| stiffness.value),
            _ => state.uncertain().0,
        };
        let spread = abseil.people.spread_over(state, uncertain)?;
        Ok(Load { band: spread.band, at_high: spread.at_high })
    }
}

/// One place on the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Step {
    /// Rope paid out, without stretch, m.
    pub(super) paid_out: f64,
    /// Where the person is, m.
    pub(super) person: Vector,
    /// Where the ring is on the guide, m.
    pub(super) ring: Vector,
    /// Force on each anchor, N.
    pub(super) forces: [Vector; 3],
    pub(super) rope: f64,
    pub(super) guide: f64,
    pub(super) tail: f64,
}

impl Step {
    pub(super) fn on(&self, on: On) -> Vector {
        self.forces.get(on as usize).copied().unwrap_or_default()
    }
}

/// The way down.
pub(super) struct Case {
    pub(super) load: f64,
    pub(super) top: Vector,
    pub(super) bottom: Vector,
    /// Length of the guide without tension, m.
    pub(super) guide: f64,
    /// The way under the load, from the stance to the foot.
    pub(super) way: Vec<Step>,
    /// How far above the foot the way ends, m: above 0 if the rope goes slack before, and the guide alone holds.
    pub(super) above: f64,
    rigged: Rigged,
}

impl Case {
    /// Where on the way an anchor is pulled hardest.
    pub(super) fn hardest(&self, on: On) -> Step {
        let force = |step: &Step| step.on(on).norm();
        let none = Step {
            paid_out: 0.0,
            person: Vector::zeros(),
            ring: Vector::zeros(),
            forces: [Vector::zeros(); 3],
            rope: 0.0,
            guide: 0.0,
            tail: 0.0,
        };
        self.way.iter().copied().fold(none, |most, step| if force(&step) >= force(&most) { step } else { most })
    }

    /// How far below the stance the way is still inside the reach of falling water, m.
    fn inside(&mut self, reach: f64) -> Result<f64, BadInput> {
        let leaves = |pair: &[Step; 2]| pair[0].person.x < reach && pair[1].person.x >= reach;
        // Above the first place of the way the rope pulls the guide in: it may leave there already.
        let mut steps = self.way.clone();
        for _ in 0..6 {
            let Some(first) = steps.first().filter(|step| step.person.x >= reach && reach > 0.0).copied() else {
                break;
            };
            steps.insert(0, self.rigged.at(first.paid_out / 2.0)?);
        }
        // Whoever comes back in is not out.
        if let Some(last) = self.way.last().filter(|step| step.person.x < reach) {
            return Ok((-last.person.z).max(0.0));
        }
        let pairs = steps.iter().zip(steps.iter().skip(1)).map(|(before, after)| [*before, *after]);
        let Some([mut inside, mut outside]) = pairs.rev().find(leaves) else { return Ok(0.0) };
        // The way bends: the place is looked for, not taken from the chord.
        for number in 0..8 {
            // By halves in turn: where a slack guide comes taut the way has a corner, and chords stop short of it.
            let chord = (reach - inside.person.x) / (outside.person.x - inside.person.x);
            let share = if number % 2 == 0 { chord } else { 0.5 };
            let step = self.rigged.at(inside.paid_out + share * (outside.paid_out - inside.paid_out))?;
            if (step.person.x - reach).abs() < NEAR {
                outside = step;
                break;
            }
            *(if step.person.x < reach { &mut inside } else { &mut outside }) = step;
        }
        // Not nearer: where they are surely out.
        Ok((-outside.person.z).max(0.0))
    }

    /// Looks closer where something pulls hardest, so that a peak between the places of the way is not missed.
    pub(super) fn look_closer(&mut self, pull: &dyn Fn(&Case, &Step) -> f64) -> Result<(), BadInput> {
        for _ in 0..2 {
            let pulls = self.way.iter().map(|step| pull(self, step)).enumerate();
            let most = pulls.fold((0, 0.0), |most, here| if here.1 >= most.1 { here } else { most });
            let place = most.0;
            let Some(hardest) = self.way.get(place).map(|step| step.paid_out) else { break };
            let length = |place: Option<usize>| place.and_then(|place| self.way.get(place)).map(|step| step.paid_out);
            let (before, after) = (length(place.checked_sub(1)), length(Some(place + 1)));
            if let Some(after) = after {
                let step = self.rigged.at(f64::midpoint(hardest, after))?;
                self.way.insert(place + 1, step);
            }
            if let Some(before) = before {
                let step = self.rigged.at(f64::midpoint(before, hardest))?;
                self.way.insert(place, step);
            }
        }
        Ok(())
    }

    /// The same, at so many places evenly along the way.
    #[cfg(test)]
    pub(super) fn look_at(&mut self, places: u32) -> Result<(), BadInput> {
        let length = |step: Option<&Step>| step.map_or(0.0, |step| step.paid_out);
        let (first, last) = (length(self.way.first()), length(self.way.last()));
        for place in 0..=places {
            let step = self.rigged.at(Band::of(first, last, last).across(place, places))?;
            self.way.push(step);
        }
        Ok(())
    }

    /// The most that each anchor gets on the way, N, and the guide's top anchor with the most friction of the ring.
    pub(super) fn most(&self) -> [f64; 4] {
        self.way.iter().fold([0.0; 4], |most, step| {
            let [abseil, top, bottom] = On::ALL.map(|on| step.on(on).norm());
            let mut here = [abseil, top, bottom, self.rubbed(step)].into_iter();
            most.map(|most| f64::max(most, here.next().unwrap_or_default()))
        })
    }
}

/// Both ends of a range, or the one value it is.
fn ends(band: Band) -> impl Iterator<Item = f64> {
    [band.low(), band.high()].into_iter().take(if band.is_exact() { 1 } else { 2 })
}

/// How many places of the way are looked at.
const STEPS: u32 = 6;
/// Height of a person's waist above the feet, m (assumed): there the rope holds, and so far above the foot
/// the way ends.
pub(super) const WAIST: f64 = 1.0;
/// How near to the end of the way counts as the end, m.
const NEAR: f64 = 1e-3;
/// Share of the load below which the abseil rope counts as slack.
pub(super) const SLACK: f64 = 1e-3;

struct Rigged {
    rig: Rig,
    solver: Solver,
    anchors: [PointId; 3],
    person: PointId,
    ring: PointId,
    rope: LineId,
    guide: LineId,
    tail: LineId,
}

impl Rigged {
    fn at(&mut self, paid_out: f64) -> Result<Step, BadInput> {
        self.rig.set_length(self.rope, paid_out)?;
        let rest = at_rest_again(&mut self.solver, &self.rig)?;
        self.rig.start_from(&rest);
        let place = |id| rest.point(id).map_or(Vector::zeros(), |point| point.at);
        let tension = |id| rest.line(id).map_or(0.0, |line| line.tension());
        let force = |id| rest.point(id).and_then(|point| point.reaction).unwrap_or_default();
        Ok(Step {
            paid_out,
            person: place(self.person),
            ring: place(self.ring),
            forces: self.anchors.map(force),
            rope: tension(self.rope),
            guide: tension(self.guide),
            tail: tension(self.tail),
        })
    }
}

impl Rigged {
    /// The end of the way: the waist is down, or the rope has no pull left because the guide alone holds.
    ///
    /// The waist sinks as rope is paid out, so one root is looked for between `short` and `long`: by chords that keep
    /// it between them (Illinois), by halves where the rope goes slack first.
    fn last(&mut self, waist: f64, short: f64, long: f64, load: f64) -> Result<Step, BadInput> {
        let (mut short, mut long) = ((short, f64::INFINITY), (long, f64::NEG_INFINITY));
        let mut last = self.at(long.0)?;
        let above = |step: &Step| step.person.z - waist;
        let first = self.at(short.0)?;
        (short.1, long.1) = (above(&first), above(&last));
        let over = |step: &Step| step.rope <= SLACK * load;
        for _ in 0..40 {
            let sinks = short.1 > 0.0 && long.1 < 0.0 && !over(&last);
            let share = if sinks { (short.1 / (short.1 - long.1)).clamp(0.02, 0.98) } else { 0.5 };
            let step = self.at(short.0 + share * (long.0 - short.0))?;
            if above(&step) < 0.0 || over(&step) {
                long = (step.paid_out, above(&step));
                short.1 *= 0.5;
                last = step;
            } else {
                short = (step.paid_out, above(&step));
                long.1 *= 0.5;
            }
            if (above(&step).abs() < NEAR && !over(&step)) || long.0 - short.0 < 1e-4 * long.0 {
                return Ok(if above(&step).abs() < NEAR { step } else { last });
            }
        }
        Ok(last)
    }
}

impl GuidedAbseil {
    /// Refuses what is no guided abseil.
    pub(super) fn check(&self) -> Result<(), OutOfDomain> {
        let room = self.height.value - self.bottom_up.value + self.top_up.value.min(0.0);
        if room < 1.0 {
            let must = "at least 1 m below both upper anchors";
            return Err(OutOfDomain { what: "height of the guide's bottom anchor", value: self.bottom_up.value, must });
        }
        let level = self.bottom_out.low().value - self.top_out.value;
        if level < 0.1 {
            let must = "farther out than its top anchor by 0.1 m or more";
            return Err(OutOfDomain { what: "bottom anchor of the guide", value: self.bottom_out.low().value, must });
        }
        Ok(())
    }

    /// Every result over the ranges.
    pub(super) fn found(&self, load: Band) -> Result<Found, BadInput> {
        let mut forces = sweep_corners(self.inputs(load), |point| Ok::<_, BadInput>(self.case(point)?.most()))?;
        // An anchor may be pulled hardest where the bottom is somewhere between its ends.
        let mut cases = Vec::new();
        for point in self.heaviest(load, 8) {
            let case = self.case(&point)?;
            for (spread, most) in forces.iter_mut().zip(case.most()) {
                spread.take_in(most, &point);
            }
            cases.push((point, case));
        }
        let [abseil, top, bottom, _] = &forces;
        let hardest = [abseil.at_high, top.at_high, bottom.at_high];
        for (point, on) in hardest.iter().zip(On::ALL) {
            for (spread, most) in forces.iter_mut().zip(self.closely(point, on)?.most()) {
                spread.take_in(most, point);
            }
        }
        let [.., rubbed] = &mut forces;
        let (pulls, point) = self.rubs_most_of(cases)?;
        rubbed.take_in(pulls, &point);
        let still = self.people.spread(State::Still)?.band;
        let way = sweep_corners(self.inputs(still), |point| {
            let mut case = self.case(point)?;
            let last = case.way.last().map_or(0.0, |step| step.person.x);
            let inside = case.inside(self.fall_out.value)?;
            let never = if last < self.fall_out.value { 1.0 } else { 0.0 };
            Ok::<_, BadInput>([inside, last - self.pool_to.value, case.above, never])
        })?;
        Ok(Found { forces, way })
    }

    /// In the abseil rope, N, in the state that is judged: the guide pulls it beyond the weight.
    pub(super) fn in_rope(&self) -> Result<Band, BadInput> {
        let load = Load::of(self, self.state)?.band;
        Ok(larger(load, self.found(load)?.on(On::Abseil).band))
    }

    /// Force on the anchor that is pulled hardest in another state: the guide set as it was where each anchor was
    /// pulled hardest.
    pub(super) fn hardest_under(&self, load: Band, found: &Found) -> Result<Band, BadInput> {
        let [_, out, set, stiffness] = self.inputs(load);
        // Friction of the ring only adds: the least and the usual are without it.
        let force = |point: &Inputs| -> Result<f64, BadInput> {
            let [abseil, top, bottom, _] = self.case(point)?.most();
            Ok(abseil.max(top).max(bottom))
        };
        let usual = [load.typical(), out.typical(), set.typical(), stiffness.typical()];
        let typical = force(&usual)?;
        let mut least = typical;
        for out in [out.low(), out.typical(), out.high()] {
            for set in ends(set) {
                least = least.min(force(&[load.low(), out, set, stiffness.low()])?);
            }
        }
        // Where each anchor was pulled hardest in the state that is judged, and everywhere else.
        let mut hardest = On::ALL.map(|on| {
            let [_, out, set, stiffness] = found.on(on).at_high;
            (0.0, [load.high(), out, set, stiffness])
        });
        let mut cases = Vec::new();
        let mut points = self.heaviest(load, 4);
        points.extend(hardest.map(|(_, point)| point));
        for point in points {
            let case = self.case(&point)?;
            for (most, force) in hardest.iter_mut().zip(case.most()) {
                if force > most.0 {
                    *most = (force, point);
                }
            }
            cases.push((point, case));
        }
        let mut most = self.rubs_most_of(cases)?.0.max(typical);
        for ((_, point), on) in hardest.iter().zip(On::ALL) {
            most = self.closely(point, on)?.most().into_iter().fold(most, f64::max);
        }
        Ok(Band::of(least, typical, most))
    }

    /// Under the heaviest, in so many steps of the bottom through its range and at both ends of how the guide is set and how
    /// stiff it is: farther out it may first pull harder and then less.
    fn heaviest(&self, load: Band, steps: u32) -> Vec<Inputs> {
        let [load, out, set, stiffness] = self.inputs(load);
        let mut points = Vec::new();
        for place in 0..=if out.is_exact() { 0 } else { steps } {
            for set in ends(set) {
                for stiffness in ends(stiffness) {
                    points.push([load.high(), out.across(place, steps), set, stiffness]);
                }
            }
        }
        points
    }

    /// The way down at one point of the ranges, looked at closely where an anchor is pulled hardest.
    pub(super) fn closely(&self, point: &Inputs, on: On) -> Result<Case, BadInput> {
        let mut case = self.case(point)?;
        case.look_closer(&|_, step| step.on(on).norm())?;
        Ok(case)
    }

    fn inputs(&self, load: Band) -> [Band; 4] {
        [load, self.bottom_out.map(|out| out.value), self.set(), self.stiffness.map(|stiffness| stiffness.value)]
    }

    /// How the guide is set: tension (N), or slack as a share.
    pub(super) fn set(&self) -> Band {
        match self.guide {
            Guide::PreTension => self.pre_tension.map(|tension| tension.value),
            Guide::Slack => self.slack.map(|slack| slack.value),
        }
    }

    /// The ends of the guide, and its length without tension, m.
    pub(super) fn guide_line(&self, bottom_out: f64, set: f64, stiffness: f64) -> ([Vector; 2], f64) {
        let top = Vector::new(self.top_out.value, 0.0, self.top_up.value);
        let bottom = Vector::new(bottom_out, 0.0, self.bottom_up.value - self.height.value);
        let chord = (bottom - top).norm();
        let guide = match self.guide {
            Guide::PreTension => chord / (1.0 + set / stiffness),
            Guide::Slack => chord * (1.0 + set),
        };
        ([top, bottom], guide)
    }

    /// The way down at one point of the ranges.
    pub(super) fn case(&self, &[load, bottom_out, set, stiffness]: &Inputs) -> Result<Case, BadInput> {
        let foot = -self.height.value;
        let ([top, bottom], guide) = self.guide_line(bottom_out, set, stiffness);
        let chord = (bottom - top).norm();
        let waist = (foot + WAIST).min(-0.5);
        let mut rigged = self.rigged([top, bottom], guide, stiffness, load)?;

        let last =
            rigged.last(waist, 0.02 * self.height.value, bottom.norm() + self.height.value + self.tail.value, load)?;
        // The way begins where the rope lets the person reach the guide; shorter, it would pull the guide in.
        let along = (-top).dot(&(bottom - top)) / chord.powi(2);
        let reach = (top + along.clamp(0.0, 1.0) * (bottom - top)).norm() - self.tail.value;
        let first = (0.05 * last.paid_out).max(reach).min(0.9 * last.paid_out);
        let mut way = Vec::new();
        for step in 0..STEPS {
            way.push(rigged.at(first + (last.paid_out - first) * f64::from(step) / f64::from(STEPS))?);
        }
        way.push(last);
        let above = (last.person.z - waist - NEAR).max(0.0);
        Ok(Case { load, top, bottom, guide, way, above, rigged })
    }

    fn rigged(&self, [top, bottom]: [Vector; 2], guide: f64, stiffness: f64, load: f64) -> Result<Rigged, BadInput> {
        let mut rig = Rig::new();
        let abseil = rig.add_held("abseil anchor", [0.0, 0.0, 0.0])?;
        let [top_id, bottom_id] =
            [rig.add_held("top of the guide", top)?, rig.add_held("bottom of the guide", bottom)?];
        let ring = rig.add_free("ring", 0.7 * top + 0.3 * bottom, [0.0, 0.0, 0.0])?;
        let person = rig.add_free("person", 0.7 * top + 0.3 * bottom - Vector::z(), [0.0, 0.0, -load])?;
        let rope = rig.add_line("abseil rope", &[abseil, person], 1.0, stiffness)?;
        let line = rig.add_line("guide line", &[top_id, ring, bottom_id], guide, stiffness)?;
        // A cow's tail is short: that of the rope's stuff gives little.
        let tail = rig.add_line("cow's tail", &[person, ring], self.tail.value, stiffness)?;
        Ok(Rigged {
            rig,
            solver: Solver::default(),
            anchors: [abseil, top_id, bottom_id],
            person,
            ring,
            rope,
            guide: line,
            tail,
        })
    }
}
