//! A catch by a line: `law::line_catch` against the motion of a mass on a spring, step by step (Runge–Kutta).

use crate::dice::Dice;
use rigging_core::law::line_catch::peak;
use rigging_core::quantity::{Force, Length, Mass, Velocity, kilogram, metre, metre_per_second, newton};

struct Catch {
    /// Drag on the body held still (N).
    drag: f64,
    stiffness: f64,
    line: f64,
    mass: f64,
    speed: f64,
}

impl Catch {
    fn random(dice: &mut Dice) -> Self {
        Catch {
            drag: dice.decades(20.0, 4000.0),
            stiffness: dice.decades(5e3, 1e5),
            line: dice.decades(1.0, 40.0),
            mass: dice.between(40.0, 150.0),
            speed: dice.between(0.3, 5.0),
        }
    }

    fn law(&self) -> f64 {
        peak(
            Force::new::<newton>(self.drag),
            Force::new::<newton>(self.stiffness),
            Length::new::<metre>(self.line),
            Mass::new::<kilogram>(self.mass),
            Velocity::new::<metre_per_second>(self.speed),
        )
        .unwrap()
        .value
    }

    /// Greatest tension until the body turns back, under a drag that may depend on its speed.
    fn walked(&self, drag: impl Fn(f64) -> f64) -> f64 {
        let pull = |stretch: f64| (self.stiffness / self.line * stretch).max(0.0);
        let mass = self.mass;
        let change = |stretch: f64, speed: f64| (speed, (drag(speed) - pull(stretch)) / mass);
        let step = (mass * self.line / self.stiffness).sqrt() / 1000.0;
        let (mut stretch, mut speed, mut most) = (0.0, self.speed, 0.0_f64);
        // It turns back once and is pulled hardest there; or creeps up to where the drag alone holds it.
        while speed > 1e-6 * self.speed {
            let (v1, a1) = change(stretch, speed);
            let (v2, a2) = change(stretch + step / 2.0 * v1, speed + step / 2.0 * a1);
            let (v3, a3) = change(stretch + step / 2.0 * v2, speed + step / 2.0 * a2);
            let (v4, a4) = change(stretch + step * v3, speed + step * a3);
            stretch += step / 6.0 * (v1 + 2.0 * v2 + 2.0 * v3 + v4);
            speed += step / 6.0 * (a1 + 2.0 * a2 + 2.0 * a3 + a4);
            most = most.max(pull(stretch));
        }
        most
    }

    /// With the drag of water that passes the body: none while both move alike.
    fn with_passing_water(&self) -> f64 {
        self.walked(|speed| {
            let passing = (self.speed - speed) / self.speed;
            self.drag * passing * passing.abs()
        })
    }
}

#[test]
fn with_its_whole_drag_from_the_start_it_is_the_motion_step_by_step() {
    for seed in 0..200 {
        let catch = Catch::random(&mut Dice::new(seed ^ 0xCA7C));
        let (walked, law) = (catch.walked(|_| catch.drag), catch.law());
        assert!((walked - law).abs() < 1e-6 * law, "{seed}: {walked} {law}");
    }
}

#[test]
fn with_water_that_passes_it_is_a_bound() {
    let (mut nearest, mut farthest) = (0.0_f64, 1.0_f64);
    for seed in 0..500 {
        let catch = Catch::random(&mut Dice::new(seed ^ 0xB0_0D));
        let share = catch.with_passing_water() / catch.law();
        assert!(share <= 1.0 + 1e-9, "{seed}: {share}");
        // Water that the body takes along pulls too: with it in the mass the law is a bound again.
        let with_water = Catch { mass: 2.0 * catch.mass, ..catch };
        assert!(with_water.with_passing_water() <= with_water.law() * (1.0 + 1e-9), "{seed}");
        (nearest, farthest) = (nearest.max(share), farthest.min(share));
    }
    println!("between {farthest:.2} and {nearest:.2} of the law");
    assert!(farthest < 0.5 && nearest > 0.95, "{farthest} {nearest}");
}

#[test]
fn the_example_is_one_kilonewton_in_line_and_one_point_six_broadside() {
    // 95 kg at 2 m/s, 8 m of line of 20 kN, C_d 1.2 on 0.12 and 0.65 m²: the law gives 1.3 and 3.4 kN.
    for (drag, walked, law) in [(288.0, 1.0, 1.3), (1560.0, 1.6, 3.4)] {
        let catch = Catch { drag, stiffness: 20e3, line: 8.0, mass: 95.0, speed: 2.0 };
        assert!((catch.law() / 1000.0 - law).abs() < 0.05, "{}", catch.law());
        let found = catch.with_passing_water() / 1000.0;
        assert!((found - walked).abs() < 0.05, "{found}");
    }
}
