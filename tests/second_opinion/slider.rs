//! A person on a slanted slack line: `law::slanted_line` against the engine, which knows nothing of bends with
//! friction. The line is cut in two at the person; the engine finds where they hang and what each part carries; the
//! cut is moved along until the two tensions can be those of one line over a bend.

use crate::dice::Dice;
use rigging_core::law::slanted_line::{SlantedLine, at_rest, passing};
use rigging_core::quantity::{Angle, Force, Length, Ratio, metre, newton, radian, ratio};
use rigging_core::statics::{Rig, Settings, Vector, solve};

/// Stiffness over drag: the line hardly stretches, and the engine still comes to rest.
const STIFF: f64 = 2e6;

#[derive(Debug)]
struct Case {
    span: f64,
    slack: f64,
    angle: f64,
    friction: f64,
    drag: f64,
}

struct Hung {
    near: f64,
    far: f64,
    bend: f64,
    at: Vector,
}

impl Case {
    fn random(dice: &mut Dice) -> Self {
        Case {
            span: dice.between(3.0, 40.0),
            slack: dice.decades(0.005, 0.3),
            angle: dice.between(5.0, 90.0_f64).to_radians(),
            friction: dice.between(0.0, 0.6),
            drag: dice.decades(50.0, 3000.0),
        }
    }
    fn law(&self) -> SlantedLine {
        SlantedLine {
            span: Length::new::<metre>(self.span),
            slack: Ratio::new::<ratio>(self.slack),
            to_current: Angle::new::<radian>(self.angle),
            friction: Ratio::new::<ratio>(self.friction),
        }
    }
    fn length(&self) -> f64 {
        self.span * (1.0 + self.slack)
    }
    fn anchor(&self) -> Vector {
        Vector::new(self.span * self.angle.cos(), self.span * self.angle.sin(), 0.0)
    }
    fn drag(&self) -> Vector {
        Vector::new(self.drag, 0.0, 0.0)
    }

    /// The line cut in two at the person, each part at rest as long as it is there: what tension stretches it (Hooke,
    /// `T L0 / EA`) it is made shorter beforehand.
    fn cut_at(&self, near_part: f64) -> Hung {
        let parts = [near_part, self.length() - near_part];
        let mut hung = self.hang(parts);
        for _ in 0..2 {
            let stretched = [hung.near, hung.far].map(|tension| 1.0 + tension / (STIFF * self.drag));
            hung = self.hang([parts[0] / stretched[0], parts[1] / stretched[1]]);
        }
        hung
    }

    /// A person between two lines of these lengths without tension.
    fn hang(&self, [near_part, far_part]: [f64; 2]) -> Hung {
        let mut rig = Rig::new();
        let start = rig.add_held("near anchor", [0.0, 0.0, 0.0]).unwrap();
        let end = rig.add_held("far anchor", self.anchor()).unwrap();
        let guess = self.anchor() * (near_part / self.length()) + Vector::new(0.1, 0.0, 0.0);
        let person = rig.add_free("person", guess, self.drag()).unwrap();
        let near = rig.add_line("near part", &[start, person], near_part, STIFF * self.drag).unwrap();
        let far = rig.add_line("far part", &[person, end], far_part, STIFF * self.drag).unwrap();
        // A short stiff part leaves a little more unbalanced than the engine lets stand by itself.
        let solution = solve(&rig, &Settings { balance: 1e-7, ..Settings::default() });
        let rest = solution.balanced().expect("two stiff lines hold a load in their plane");
        let at = rest.point(person).unwrap().at;
        let (back, on) = (-at, self.anchor() - at);
        let bend = std::f64::consts::PI - (back.dot(&on) / back.norm() / on.norm()).clamp(-1.0, 1.0).acos();
        Hung { near: rest.line(near).unwrap().tension(), far: rest.line(far).unwrap().tension(), bend, at }
    }

    /// Whether the current carries the person on from here: the near part pulls harder than the bend can make up for.
    fn slides_on(&self, near_part: f64) -> bool {
        let hung = self.cut_at(near_part);
        hung.near > hung.far * (self.friction * hung.bend).exp()
    }

    /// The first near part, coming from the near anchor, at which the person stays.
    fn first_rest(&self) -> f64 {
        const STEPS: usize = 60;
        let spare = self.span * self.slack / 2.0;
        let place = |number: usize| spare + self.span * (number as f64 + 1e-6) / (STEPS as f64 + 2e-6);
        let stop = (0..=STEPS).find(|&number| !self.slides_on(place(number))).unwrap_or(STEPS);
        let (mut low, mut high) = (place(stop.saturating_sub(1)), place(stop));
        for _ in 0..40 {
            let middle = (low + high) / 2.0;
            if self.slides_on(middle) { low = middle } else { high = middle }
        }
        (low + high) / 2.0
    }
}

#[test]
fn a_slider_rests_where_the_engine_and_a_bend_say() {
    let mut worst: f64 = 0.0;
    for seed in 0..300 {
        let case = Case::random(&mut Dice::new(seed ^ 0x51_1DE));
        let law = at_rest(&case.law(), Force::new::<newton>(case.drag)).unwrap();
        let found = case.first_rest();
        let apart = (found - law.near_part.value).abs() / case.span;
        assert!(apart < 1e-7, "{seed}: engine {found}, law {law:?}, {case:?}");
        worst = worst.max(apart);
        let hung = case.cut_at(law.near_part.value);
        for (engine, law) in [(hung.near, law.near_tension.value), (hung.far, law.far_tension.value)] {
            assert!((engine - law).abs() < 1e-3 * hung.near, "{seed}: engine {engine}, law {law}");
        }
        let seen = [law.near_to_current.value.cos(), law.near_to_current.value.sin()];
        let place = Vector::new(seen[0], seen[1], 0.0) * law.near_part.value;
        assert!((place - hung.at).norm() < 1e-4 * case.span, "{seed}: {place} {}", hung.at);
    }
    println!("300 sliders, farthest apart {worst:e} of the span");
}

#[test]
fn without_friction_the_engine_finds_the_place_by_itself() {
    for seed in 0..200 {
        let case = Case { friction: 0.0, ..Case::random(&mut Dice::new(seed ^ 0xF4EE)) };
        let mut rig = Rig::new();
        let start = rig.add_held("near anchor", [0.0, 0.0, 0.0]).unwrap();
        let end = rig.add_held("far anchor", case.anchor()).unwrap();
        let person = rig.add_free("person", case.anchor() / 2.0, case.drag()).unwrap();
        let line = rig.add_line("line", &[start, person, end], case.length(), STIFF * case.drag).unwrap();
        let solution = solve(&rig, &Settings::default());
        let rest = solution.balanced().expect("one stiff line holds a load in its plane");
        let (at, tension) = (rest.point(person).unwrap().at, rest.line(line).unwrap().tension());
        let law = at_rest(&case.law(), Force::new::<newton>(case.drag)).unwrap();
        assert!((law.near_part.value - at.norm()).abs() < 1e-3 * case.span, "{seed}: {at} {law:?}");
        assert!((law.near_tension.value - tension).abs() < 1e-3 * tension, "{seed}: {tension} {law:?}");
    }
}

#[test]
fn a_person_held_on_the_way_pulls_the_line_as_the_engine_says() {
    // Held along the way by long lines to both sides, so that only what acts across it is left to the line.
    let mut compared = 0;
    for seed in 0..200 {
        let dice = &mut Dice::new(seed ^ 0x9A55);
        let case = Case { friction: 0.0, ..Case::random(dice) };
        let near_part = case.span * (case.slack / 2.0 + dice.between(0.05, 0.95));
        let law = passing(&case.law(), Force::new::<newton>(case.drag), Length::new::<metre>(near_part)).unwrap();
        if law.near_tension.value < 0.05 * case.drag {
            continue;
        }
        let bearing = law.near_to_current.value;
        let place = Vector::new(bearing.cos(), bearing.sin(), 0.0) * near_part;
        let across = (-place).normalize() + (case.anchor() - place).normalize();
        let along = Vector::new(-across.y, across.x, 0.0).normalize();
        let mut rig = Rig::new();
        let start = rig.add_held("near anchor", [0.0, 0.0, 0.0]).unwrap();
        let end = rig.add_held("far anchor", case.anchor()).unwrap();
        let person = rig.add_free("person", place, case.drag()).unwrap();
        let line = rig.add_line("line", &[start, person, end], case.length(), STIFF * case.drag).unwrap();
        for (name, away) in [("up the way", 1e4), ("down the way", -1e4)] {
            let held = rig.add_held(name, place + along * away).unwrap();
            rig.add_line(name, &[held, person], 1e4, 1e12).unwrap();
        }
        let solution = solve(&rig, &Settings::default());
        let Some(rest) = solution.balanced() else { continue };
        let tension = rest.line(line).unwrap().tension();
        assert!((tension - law.near_tension.value).abs() < 0.01 * tension, "{seed}: engine {tension}, law {law:?}");
        compared += 1;
    }
    assert!(compared > 120, "{compared}");
}
