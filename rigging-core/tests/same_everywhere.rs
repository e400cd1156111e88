//! The laws, and every published check, give the same numbers natively and in wasm.
//!
//! Every law is asked the same questions in both, and every row of `tests/published` is answered; the native answers
//! are pinned in `law_values.json`, which wasm reads too. After a change of a law write the file anew:
//! `WRITE_LAW_VALUES=1 cargo test -p rigging-core --test same_everywhere`. To hold them to the last digit, where the file
//! was written or on the like of it: `EXACT_LAW_VALUES=1`.
#![expect(clippy::unwrap_used, reason = "a law that refuses a sample stops the test")]

use rigging_core::band::Band;
use rigging_core::law::ground::{Block, Directions};
use rigging_core::law::haul::{Begins, Part};
use rigging_core::law::pull_down::Piece;
use rigging_core::law::slanted_line::{SlantedLine, Slider};
use rigging_core::law::standing::{Board, Conditions, Curve};
use rigging_core::law::taut_line::{Hung, TautLine};
use rigging_core::law::tree::{Soil, Species};
use rigging_core::law::{
    bend, bolt, buried, caught_on_line, descender, drag, fall, falling_water, flood, gravity, ground, haul,
    leg_failure, line_catch, log, pull_down, pullers, pulley, rope, side_slope, slanted_line, sling, standing, swing,
    taut_line, tree, triangle, two_legs,
};
use rigging_core::published::{Row, check};
use rigging_core::quantity::{
    Angle, Area, Energy, Force, Length, Mass, MassDensity, Pressure, Ratio, Torque, Velocity, Volume, VolumeRate,
    cubic_metre, degree, joule, kilogram, kilogram_per_cubic_metre, litre_per_second, megapascal, metre,
    metre_per_second, millimetre, newton, newton_metre, ratio, square_metre,
};
use std::collections::BTreeMap;
#[cfg(target_arch = "wasm32")]
use wasm_bindgen_test::wasm_bindgen_test as test;

const PINNED: &str = include_str!("law_values.json");
/// The published checks: wasm has no files to read.
const PUBLISHED: [&str; 7] = [
    include_str!("../../tests/published/bends.json"),
    include_str!("../../tests/published/natural.json"),
    include_str!("../../tests/published/people.json"),
    include_str!("../../tests/published/slack.json"),
    include_str!("../../tests/published/statics.json"),
    include_str!("../../tests/published/units.json"),
    include_str!("../../tests/published/water.json"),
];
/// How many times each law is asked.
const SAMPLES: usize = 16;
/// Sines, powers and logarithms may differ in their last digit from one system to the next, with the library they come
/// from; what is worked out from them may then differ by a few more.
const RELATIVE: f64 = 1e-12;
/// The system that wrote the file repeats itself: asked for by `EXACT_LAW_VALUES=1`, as the checks of the forge do.
const EXACT: f64 = 1e-15;

/// One set of inputs: each call takes the next one, spread evenly over its range and the same
/// everywhere (only operations that IEEE 754 rounds exactly).
struct Sample {
    number: usize,
    taken: usize,
}

impl Sample {
    fn share(&mut self) -> f64 {
        const ROOTS_OF: [f64; 9] = [2.0, 3.0, 5.0, 7.0, 11.0, 13.0, 17.0, 19.0, 23.0];
        let root = ROOTS_OF.iter().cycle().nth(self.taken).unwrap().sqrt();
        self.taken += 1;
        ((self.number + 1) as f64 * root).fract()
    }
    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.share() * (high - low)
    }
    fn force(&mut self) -> Force {
        Force::new::<newton>(self.between(50.0, 5000.0))
    }
    fn stiffness(&mut self) -> Force {
        Force::new::<newton>(self.between(5e3, 1e5))
    }
    fn degrees(&mut self, low: f64, high: f64) -> Angle {
        Angle::new::<degree>(self.between(low, high))
    }
    fn metres(&mut self, low: f64, high: f64) -> Length {
        Length::new::<metre>(self.between(low, high))
    }
    fn thickness(&mut self) -> Length {
        Length::new::<millimetre>(self.between(8.0, 22.0))
    }
    fn flow(&mut self) -> VolumeRate {
        VolumeRate::new::<litre_per_second>(self.between(0.5, 100.0))
    }
    fn speed(&mut self) -> Velocity {
        Velocity::new::<metre_per_second>(self.between(0.5, 30.0))
    }
    fn density(&mut self) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_metre>(self.between(1000.0, 1100.0))
    }
    fn wader(&mut self) -> (Length, Mass) {
        (self.metres(1.3, 2.1), Mass::new::<kilogram>(self.between(30.0, 130.0)))
    }
    fn board(&mut self) -> Board {
        Board {
            weight: self.force(),
            breadth: self.metres(0.2, 0.6),
            coefficient: self.plain(1.0, 1.5),
            density: self.density(),
            depth: self.metres(0.1, 1.5),
        }
    }
    fn slanted(&mut self) -> SlantedLine {
        SlantedLine {
            span: self.metres(3.0, 40.0),
            slack: self.plain(0.001, 0.3),
            to_current: self.degrees(0.0, 90.0),
            friction: self.plain(0.0, 0.5),
        }
    }
    fn plain(&mut self, low: f64, high: f64) -> Ratio {
        Ratio::new::<ratio>(self.between(low, high))
    }
    fn directions(&mut self) -> Directions {
        Directions { slope: self.degrees(-30.0, 15.0), rope: self.degrees(-40.0, 40.0) }
    }
    fn rock(&mut self) -> Mass {
        Mass::new::<kilogram>(self.between(400.0, 3000.0))
    }
    fn species(&mut self) -> Species {
        let place = self.between(0.0, Species::ALL.len() as f64) as usize;
        *Species::ALL.get(place).unwrap()
    }
    fn straight(&mut self) -> Piece {
        let weight = Force::new::<newton>(self.between(0.0, 50.0));
        Piece::Straight { weight, rises: self.degrees(-90.0, 90.0), friction: self.plain(0.0, 1.0) }
    }
    fn turn(&mut self) -> Piece {
        Piece::Bend { friction: self.plain(0.0, 1.0), turning_angle: self.degrees(0.0, 180.0) }
    }
    /// Both parts of a line that slopes.
    fn parts(&mut self) -> [caught_on_line::Part; 2] {
        let (span, rise, share) = (self.between(5.0, 40.0), self.between(-0.5, 0.5), self.between(0.1, 0.9));
        let (longer, stiffness) = (self.between(1.0, 1.1), self.stiffness());
        let part = |along: f64| caught_on_line::Part {
            along: Length::new::<metre>(along * span),
            above: Length::new::<metre>(along * span * rise),
            beyond: Length::new::<metre>(0.0),
            unstretched: Length::new::<metre>(along.abs() * span * (1.0 + rise * rise).sqrt() * longer),
            stiffness,
        };
        [part(-share), part(1.0 - share)]
    }
    fn line(&mut self) -> TautLine {
        let (span, share) = (self.between(5.0, 40.0), self.between(0.2, 0.8));
        TautLine {
            span: Length::new::<metre>(span),
            rise: self.metres(-0.3 * span, 0.3 * span),
            at: Length::new::<metre>(share * span),
            unstretched: self.metres(0.98 * span, 1.2 * span),
            stiffness: self.stiffness(),
        }
    }
}

/// A law's name, and what it answers to one sample: parts by name, or nothing where it has no limit.
type Law = (&'static str, fn(&mut Sample) -> Vec<(&'static str, Option<f64>)>);

fn one(value: f64) -> Vec<(&'static str, Option<f64>)> {
    vec![("", Some(value))]
}
fn maybe(force: Option<Force>) -> Vec<(&'static str, Option<f64>)> {
    vec![("", force.map(|force| force.value))]
}
fn hung(hung: Hung) -> Vec<(&'static str, Option<f64>)> {
    vec![
        ("tension", Some(hung.tension.value)),
        ("sag", Some(hung.sag.value)),
        ("near_below_level", Some(hung.near_below_level.value)),
        ("far_below_level", Some(hung.far_below_level.value)),
    ]
}
fn slid(slider: Slider) -> Vec<(&'static str, Option<f64>)> {
    vec![
        ("near_part", Some(slider.near_part.value)),
        ("far_part", Some(slider.far_part.value)),
        ("near_to_current", Some(slider.near_to_current.value)),
        ("far_to_current", Some(slider.far_to_current.value)),
        ("near_tension", Some(slider.near_tension.value)),
        ("far_tension", Some(slider.far_tension.value)),
    ]
}
fn most_of(most: &mut [f64; 2]) -> impl FnMut(&caught_on_line::Moment) {
    move |moment| *most = [most[0].max(moment.near.value), most[1].max(moment.far.value)]
}
fn ends(band: Band) -> Vec<(&'static str, Option<f64>)> {
    vec![("low", Some(band.low())), ("typical", Some(band.typical())), ("high", Some(band.high()))]
}

const LAWS: [Law; 102] = [
    ("bend::tight_to_slack", |s| one(bend::tight_to_slack(s.plain(0.0, 1.0), s.degrees(0.0, 400.0)).unwrap().value)),
    ("bend::slack_side", |s| one(bend::slack_side(s.force(), s.plain(0.0, 1.0), s.degrees(0.0, 400.0)).unwrap().value)),
    ("bend::tight_side", |s| one(bend::tight_side(s.force(), s.plain(0.0, 1.0), s.degrees(0.0, 400.0)).unwrap().value)),
    ("bend::friction_from_pair", |s| {
        let (lowering, gain) = (s.force(), s.between(1.5, 20.0));
        one(bend::friction_from_pair(lowering * gain, lowering, s.degrees(20.0, 400.0)).unwrap().value)
    }),
    ("bend::resultant", |s| one(bend::resultant(s.force(), s.force(), s.degrees(0.0, 180.0)).unwrap().value)),
    ("bolt::parts", |s| {
        let parts = bolt::parts(s.force(), s.degrees(0.0, 180.0)).unwrap();
        vec![("out", Some(parts.out.value)), ("along", Some(parts.along.value))]
    }),
    ("bolt::share_of_limit", |s| {
        let parts = bolt::Parts { out: s.force(), along: s.force() };
        one(bolt::share_of_limit(parts, s.stiffness(), s.stiffness()).unwrap().value)
    }),
    ("buried::wedge", |s| {
        let (deep, wide) = (s.metres(0.1, 2.0), s.metres(0.1, 3.0));
        one(buried::wedge(deep, wide, Force::new::<newton>(s.between(8e3, 2e4)), s.degrees(0.0, 45.0)).unwrap().value)
    }),
    ("buried::table", |s| one(buried::table(s.metres(0.91, 2.0), s.plain(1.0, 4.0)).unwrap().value)),
    ("caught_on_line::dropped", |s| {
        let [near, far] = s.parts();
        let (weight, drop, mut most) = (s.force(), s.metres(0.0, 2.0), [0.0; 2]);
        caught_on_line::dropped(&near, &far, weight, drop, &mut most_of(&mut most)).unwrap();
        vec![("near", Some(most[0])), ("far", Some(most[1]))]
    }),
    ("caught_on_line::held", |s| {
        let [near, far] = s.parts();
        let rest = caught_on_line::held(&near, &far, s.force()).unwrap();
        vec![("near", Some(rest.near.value)), ("far", Some(rest.far.value))]
    }),
    ("caught_on_line::swept", |s| {
        let [near, far] = s.parts();
        let (drag, mass) = (s.force(), Mass::new::<kilogram>(s.between(40.0, 400.0)));
        let (speed, mut most) = (s.speed(), [0.0; 2]);
        caught_on_line::swept(&near, &far, drag, mass, speed, &mut most_of(&mut most)).unwrap();
        vec![("near", Some(most[0])), ("far", Some(most[1]))]
    }),
    ("descender::friction_ratio", |s| {
        let in_use = descender::Use {
            diameter: Length::new::<millimetre>(s.between(8.0, 11.0)),
            two_strands: s.share() < 0.5,
            extra_carabiner: s.share() < 0.5,
            wet: s.share() < 0.5,
        };
        ends(descender::friction_ratio(descender::Descender::FigureEight, &in_use).unwrap())
    }),
    ("descender::hand_force", |s| {
        one(descender::hand_force(s.force(), Force::new::<newton>(s.between(0.0, 40.0)), s.plain(1.0, 30.0))
            .unwrap()
            .value)
    }),
    ("descender::held_back_by", |s| {
        one(descender::held_back_by(s.force(), Force::new::<newton>(s.between(0.0, 900.0)), s.plain(1.0, 30.0))
            .unwrap()
            .value)
    }),
    ("descender::start_ratio", |s| {
        one(descender::start_ratio(s.force(), Force::new::<newton>(s.between(1.0, 900.0)), s.plain(1.0, 30.0))
            .unwrap()
            .value)
    }),
    ("descender::warming", |s| {
        let (work, share) = (Energy::new::<joule>(s.between(1e3, 1e5)), s.plain(0.2, 0.5));
        let (_, heat, _) = descender::Descender::FigureEight.metal();
        one(descender::warming(work, share, Mass::new::<kilogram>(s.between(0.05, 1.0)), heat).unwrap().value)
    }),
    ("drag::drag", |s| {
        let area = Area::new::<square_metre>(s.between(0.05, 1.0));
        one(drag::drag(s.density(), s.plain(0.5, 1.5), area, s.speed()).unwrap().value)
    }),
    ("fall::peak", |s| {
        one(fall::peak(s.force(), s.stiffness(), s.metres(0.0, 5.0), s.metres(1.0, 30.0)).unwrap().value)
    }),
    ("fall::fall_factor", |s| one(fall::fall_factor(s.metres(0.0, 5.0), s.metres(1.0, 30.0)).unwrap().value)),
    ("fall::gives", |s| {
        one(fall::gives(s.force(), s.stiffness(), s.metres(1.0, 30.0), s.metres(0.0, 0.5)).unwrap().value)
    }),
    ("fall::caught", |s| {
        one(fall::caught(s.force(), s.metres(0.01, 0.5), s.metres(0.0, 5.0), s.speed()).unwrap().value)
    }),
    ("fall::stopped", |s| one(fall::stopped(s.force(), s.metres(0.01, 0.5), s.speed()).unwrap().value)),
    ("fall::braked", |s| {
        let weight = s.force();
        let (gives, fall) = (s.metres(0.01, 0.5), s.metres(0.0, 5.0));
        let braked = fall::braked(weight, gives, fall, weight * s.between(1.1, 8.0)).unwrap();
        vec![("peak", Some(braked.peak.value)), ("travel", Some(braked.travel.value))]
    }),
    ("fall::in_a_jerk", |s| {
        one(fall::in_a_jerk(s.force(), s.plain(1.0, 4.0), s.metres(0.01, 1.0), s.metres(0.0, 2.0)).unwrap().value)
    }),
    ("fall::let_go", |s| {
        let rope = [(); 2].map(|()| (s.metres(1.0, 20.0), s.force()));
        let straight = (rope[0].0 + rope[1].0) * s.between(0.3, 1.0);
        one(fall::let_go(s.force(), s.stiffness(), rope, straight, straight * s.between(-1.0, 1.0)).unwrap().value)
    }),
    ("fall::stiffness_from_peak", |s| {
        let weight = s.force();
        one(fall::stiffness_from_peak(weight * s.between(2.5, 12.0), weight, s.plain(0.1, 2.0)).unwrap().value)
    }),
    ("falling_water::speed_after", |s| one(falling_water::speed_after(s.metres(0.5, 100.0)).unwrap().value)),
    ("falling_water::push", |s| one(falling_water::push(s.flow(), s.speed()).unwrap().value)),
    ("falling_water::drag", |s| {
        one(falling_water::drag(s.thickness(), s.metres(1.0, 60.0), s.speed(), s.plain(0.005, 0.02)).unwrap().value)
    }),
    ("falling_water::speed_along", |s| {
        one(falling_water::speed_along(s.flow(), s.thickness(), s.metres(1.0, 60.0), s.plain(0.005, 0.02))
            .unwrap()
            .value)
    }),
    ("flood::class", |s| one(f64::from(flood::class(s.metres(0.0, 3.0), s.speed() / 8.0).unwrap() as u8))),
    ("flood::debris", |s| one(flood::debris(s.metres(0.0, 1.0), s.speed() / 8.0).unwrap().value)),
    ("flood::hazard_rating", |s| {
        one(flood::hazard_rating(s.metres(0.0, 3.0), s.speed() / 8.0, s.plain(0.0, 1.0)).unwrap().value)
    }),
    ("gravity::weight", |s| one(gravity::weight(Mass::new::<kilogram>(s.between(30.0, 200.0))).value)),
    ("ground::slides_at", |s| {
        maybe(ground::slides_at(s.force(), s.plain(0.3, 0.9), s.force(), s.directions()).unwrap())
    }),
    ("ground::person_topples_at", |s| {
        let (weight, behind, above, back) = (s.force(), s.metres(0.1, 0.7), s.metres(0.2, 1.2), s.metres(0.0, 0.7));
        maybe(ground::person_topples_at(weight, behind, above, back, s.directions()).unwrap())
    }),
    ("ground::block_topples_at", |s| {
        let block = Block {
            centre_behind_edge: s.metres(0.2, 1.0),
            centre_height: s.metres(0.1, 0.6),
            sling_height: s.metres(0.1, 1.0),
            sling_behind_edge: s.metres(0.0, 0.5),
        };
        maybe(ground::block_topples_at(s.force(), &block, s.directions()).unwrap())
    }),
    ("ground::block_tips_back_at", |s| {
        let block = Block {
            centre_behind_edge: s.metres(0.2, 1.0),
            centre_height: s.metres(0.1, 0.6),
            sling_height: s.metres(0.1, 0.3),
            sling_behind_edge: s.metres(0.0, 0.5),
        };
        maybe(ground::block_tips_back_at(s.force(), &block, s.metres(1.0, 2.0), s.directions()).unwrap())
    }),
    ("ground::push_of_feet", |s| one(ground::push_of_feet(s.force(), s.force(), s.plain(0.1, 0.9)).unwrap().value)),
    ("ground::block_mass", |s| {
        let lengths = [s.metres(0.2, 3.0), s.metres(0.2, 3.0), s.metres(0.2, 3.0)];
        one(ground::block_mass(lengths, s.plain(0.4, 1.0), s.rock()).unwrap().value)
    }),
    ("ground::weight_in_water", |s| {
        let mass = Mass::new::<kilogram>(s.between(10.0, 5000.0));
        let (rock, share) = (s.rock(), s.plain(0.0, 1.0));
        one(ground::weight_in_water(mass, rock, share, Mass::new::<kilogram>(1000.0)).unwrap().value)
    }),
    ("ground::lifts_at", |s| maybe(ground::lifts_at(s.force(), s.directions()).unwrap())),
    ("haul::by_share_of_load", |s| {
        one(haul::by_share_of_load(s.force(), s.plain(0.0, 8.0), s.plain(0.0, 0.2), s.plain(1.0, 8.0)).unwrap().value)
    }),
    ("haul::follow", |s| {
        let mut gain = || s.plain(0.4, 2.5);
        let parts =
            [Part::Stays(gain()), Part::Clamp, Part::Stays(gain()), Part::Travels(gain()), Part::AtLoad(gain())];
        let begins = if s.share() < 0.5 { Begins::AtLoad } else { Begins::AtAnchor };
        let haul = haul::follow(begins, &parts).unwrap();
        let at_clamp = haul.sides.first_chunk::<2>().unwrap()[1];
        vec![
            ("load", Some(haul.load.value)),
            ("end", Some(haul.end.value)),
            ("clamp_load_side", Some(at_clamp.load.value)),
            ("clamp_hand_side", Some(at_clamp.hand.value)),
        ]
    }),
    ("leg_failure::peak", |s| {
        let caught = leg_failure::peak(s.force(), s.metres(0.0, 1.0), s.metres(0.0, 0.1), s.metres(0.01, 0.5)).unwrap();
        vec![("computed", Some(caught.computed.value)), ("most", Some(caught.most.value))]
    }),
    ("line_catch::peak", |s| {
        let (held, stiffness, line) = (s.force(), s.stiffness(), s.metres(1.0, 30.0));
        let mass = Mass::new::<kilogram>(s.between(30.0, 200.0));
        one(line_catch::peak(held, stiffness, line, mass, s.speed() / 8.0).unwrap().value)
    }),
    ("log::diameter", |s| one(log::diameter(s.metres(0.1, 3.0)).unwrap().value)),
    ("log::breaks_at", |s| {
        let strength = Pressure::new::<megapascal>(s.between(10.0, 60.0));
        one(log::breaks_at(s.metres(0.05, 0.6), s.metres(0.5, 8.0), strength).unwrap().value)
    }),
    ("log::mass", |s| one(log::mass(s.metres(0.05, 0.6), s.metres(0.5, 12.0), s.rock()).unwrap().value)),
    ("pull_down::beyond", |s| one(pull_down::beyond(s.force(), &s.straight()).unwrap().value)),
    ("pull_down::pull", |s| {
        let way = [s.straight(), s.turn(), s.straight(), s.turn(), s.straight()];
        one(pull_down::pull(&way).unwrap().value)
    }),
    ("pull_down::pull_with_bends_at_the_ring", |s| {
        one(pull_down::pull_with_bends_at_the_ring(s.force(), s.force(), s.plain(0.0, 3.0)).unwrap().value)
    }),
    ("pullers::loss", |s| one(pullers::loss(s.between(1.0, 9.0) as u32).unwrap().value)),
    ("pullers::together", |s| one(pullers::together(s.force(), s.between(1.0, 9.0) as u32).unwrap().value)),
    ("pullers::needed", |s| {
        let (force, each) = (s.force(), s.force());
        vec![("", pullers::needed(force, each).unwrap().map(f64::from))]
    }),
    ("pulley::friction", |s| one(pulley::friction(s.plain(0.5, 1.0)).unwrap().value)),
    ("rope::hanging_length", |s| {
        let (distance, load, weight) = (s.metres(1.0, 200.0), s.force(), Force::new::<newton>(s.between(0.3, 1.5)));
        one(rope::hanging_length(distance, load, weight, s.stiffness()).unwrap().value)
    }),
    ("rope::hanging_stretch", |s| {
        let (load, weight) = (s.force(), Force::new::<newton>(s.between(0.0, 200.0)));
        one(rope::hanging_stretch(load, weight, s.metres(1.0, 200.0), s.stiffness()).unwrap().value)
    }),
    ("rope::reserve", |s| {
        one(rope::reserve(s.metres(1.0, 100.0), s.metres(0.0, 20.0), s.metres(0.0, 5.0)).unwrap().value)
    }),
    ("rope::shrunk", |s| one(rope::shrunk(s.metres(5.0, 200.0), s.plain(0.0, 0.1)).unwrap().value)),
    ("rope::stiffness_from_elongation", |s| {
        one(rope::stiffness_from_elongation(s.force(), s.plain(0.01, 0.1)).unwrap().value)
    }),
    ("rope::stretch", |s| one(rope::stretch(s.force(), s.metres(1.0, 100.0), s.stiffness()).unwrap().value)),
    ("rope::mass", |s| {
        one(rope::mass(Length::new::<millimetre>(s.between(7.0, 12.0)), s.metres(1.0, 100.0)).unwrap().value)
    }),
    ("rope::wet_mass", |s| {
        one(rope::wet_mass(Mass::new::<kilogram>(s.between(1.0, 10.0)), s.plain(0.0, 0.6)).unwrap().value)
    }),
    ("slanted_line::carries_on", |s| {
        one(f64::from(slanted_line::carries_on(s.degrees(0.0, 90.0), s.plain(0.0, 1.0)).unwrap()))
    }),
    ("slanted_line::at_rest", |s| slid(slanted_line::at_rest(&s.slanted(), s.force()).unwrap())),
    ("slanted_line::passing", |s| {
        let line = s.slanted();
        let near = line.span * (line.slack / 2.0 + s.plain(0.0, 1.0));
        slid(slanted_line::passing(&line, s.force(), near).unwrap())
    }),
    ("slanted_line::tightest", |s| {
        let slider = slanted_line::tightest(&s.slanted(), s.force()).unwrap();
        // The place of a flat top is not as sharp as its height.
        vec![("near_tension", Some(slider.near_tension.value))]
    }),
    ("side_slope::slides_at", |s| {
        let (weight, friction, push) = (s.force(), s.plain(0.3, 0.9), s.force());
        let aside = s.degrees(-30.0, 60.0).max(Angle::default());
        maybe(side_slope::slides_at(weight, friction, push, aside, s.directions(), s.degrees(0.0, 30.0)).unwrap())
    }),
    ("side_slope::pulls_by_itself", |s| {
        let (weight, friction, push) = (s.force(), s.plain(0.1, 0.4), s.plain(0.0, 0.2));
        let directions = Directions { slope: s.degrees(0.0, 30.0), rope: s.degrees(-40.0, 40.0) };
        let aside = s.degrees(-30.0, 60.0).max(Angle::default());
        one(side_slope::pulls_by_itself(weight, friction, weight * push, aside, directions, s.degrees(0.0, 30.0))
            .unwrap()
            .value)
    }),
    ("sling::parts", |s| {
        let parts = sling::parts(s.force(), s.degrees(0.0, 170.0), s.plain(0.0, 0.5)).unwrap();
        vec![("heavy", Some(parts.heavy.value)), ("light", Some(parts.light.value))]
    }),
    ("sling::ring_at_rest", |s| {
        let apart = s.between(0.2, 2.0);
        let both = Length::new::<metre>(apart * s.between(1.05, 3.0));
        let ring = sling::ring_at_rest(Length::new::<metre>(apart), both, s.degrees(95.0, 170.0)).unwrap();
        vec![
            ("along", Some(ring.along.value)),
            ("across", Some(ring.across.value)),
            ("included_angle", Some(ring.included_angle.value)),
        ]
    }),
    ("sling::ring_held_back", |s| {
        let apart = s.between(0.2, 2.0);
        let (apart, both) = (Length::new::<metre>(apart), Length::new::<metre>(apart * s.between(1.05, 3.0)));
        let (pull, friction) = (s.degrees(95.0, 150.0), s.plain(-0.4, 0.4));
        let held = sling::ring_held_back(apart, both, pull, s.force(), friction).unwrap();
        vec![
            ("across", Some(held.ring.across.value)),
            ("first", Some(held.first.value)),
            ("second", Some(held.second.value)),
        ]
    }),
    ("standing::abt_limit", |s| {
        let (height, mass) = s.wader();
        one(standing::abt_limit(height, mass).unwrap().value)
    }),
    ("standing::apparent_weight", |s| {
        let (weight, density) = (s.force(), s.density());
        let volume = Volume::new::<cubic_metre>(s.between(0.03, 0.15));
        let flotation = Force::new::<newton>(s.between(0.0, 120.0));
        one(standing::apparent_weight(weight, density, volume, s.plain(0.0, 1.0), flotation).unwrap().value)
    }),
    ("standing::body_volume", |s| one(standing::body_volume(s.wader().1).unwrap().value)),
    ("standing::karvonen_limit", |s| {
        let (height, mass) = s.wader();
        let of = |conditions| Some(standing::karvonen_limit(height, mass, conditions).unwrap().value);
        vec![("good", of(Conditions::Good)), ("ordinary", of(Conditions::Ordinary)), ("poor", of(Conditions::Poor))]
    }),
    ("standing::slides_in_water", |s| one(standing::slides_in_water(&s.board(), s.plain(0.1, 0.9)).unwrap().value)),
    ("standing::submerged_share", |s| one(standing::submerged_share(s.plain(0.0, 1.0)).unwrap().value)),
    ("standing::topples_in_water", |s| one(standing::topples_in_water(&s.board(), s.metres(0.05, 0.4)).unwrap().value)),
    ("standing::xia_topple_speed", |s| {
        let (height, mass) = s.wader();
        let depth = height * s.plain(0.05, 0.95);
        let of = |curve| Some(standing::xia_topple_speed(depth, height, mass, curve).unwrap().value);
        vec![("low", of(Curve::Low)), ("high", of(Curve::High))]
    }),
    ("swing::from_plumb", |s| one(swing::from_plumb(s.metres(-5.0, 5.0), s.metres(5.0, 30.0)).unwrap().value)),
    ("swing::equal_fall", |s| {
        one(swing::equal_fall(s.metres(1.0, 30.0), s.degrees(45.0, 90.0), s.degrees(-45.0, 45.0)).unwrap().value)
    }),
    ("swing::sideways", |s| {
        let most = swing::sideways(s.force(), s.degrees(0.0, 90.0)).unwrap();
        vec![("pull", Some(most.pull.value)), ("at", Some(most.at.value))]
    }),
    ("swing::on_elastic", |s| {
        let most = swing::on_elastic(s.force(), s.stiffness() * 3.0, s.degrees(0.0, 90.0)).unwrap();
        vec![
            ("peak", Some(most.peak.value)),
            ("sideways", Some(most.sideways.value)),
            ("stretch", Some(most.stretch.value)),
        ]
    }),
    ("swing::drawn_along_lip", |s| {
        let (rope, begins, ends) = (s.metres(5.0, 30.0), s.degrees(0.0, 90.0), s.degrees(-90.0, 0.0));
        one(swing::drawn_along_lip(s.metres(0.0, 5.0), rope, begins, ends).unwrap().value)
    }),
    ("swing::peak", |s| one(swing::peak(s.force(), s.degrees(0.0, 90.0)).unwrap().value)),
    ("taut_line::chord", |s| one(taut_line::chord(s.metres(1.0, 50.0), s.metres(-20.0, 20.0)).value)),
    ("taut_line::unstretched_when_pulled_to", |s| {
        one(taut_line::unstretched_when_pulled_to(s.metres(1.0, 50.0), s.force(), s.stiffness()).unwrap().value)
    }),
    ("taut_line::unstretched_for_sag", |s| {
        let line = s.line();
        one(taut_line::unstretched_for_sag(&line, s.force(), line.span * s.between(0.02, 0.3)).unwrap().value)
    }),
    ("taut_line::at_rest", |s| hung(taut_line::at_rest(&s.line(), s.force()).unwrap())),
    ("taut_line::at_lowest_point", |s| {
        hung(taut_line::at_lowest_point(&s.line(), s.force(), s.metres(0.0, 2.0)).unwrap())
    }),
    ("tree::usual_height", |s| one(tree::usual_height(s.metres(0.05, 0.6)).unwrap().value)),
    ("tree::stem_mass", |s| {
        let species = s.species();
        one(tree::stem_mass(species, s.metres(0.05, 0.6), s.metres(2.0, 50.0)).unwrap().value)
    }),
    ("tree::tips_over", |s| {
        let (species, soil) = (s.species(), if s.share() < 0.5 { Soil::Draining } else { Soil::Gleyed });
        one(tree::tips_over(species, soil, Mass::new::<kilogram>(s.between(1.0, 2000.0))).unwrap().value)
    }),
    ("tree::stem_breaks", |s| {
        let species = s.species();
        one(tree::stem_breaks(species, s.metres(0.05, 0.6)).unwrap().value)
    }),
    ("tree::pulls_at", |s| {
        let (over, breaks) = (s.between(100.0, 1e5), s.between(100.0, 1e5));
        let [over, breaks] = [over, breaks].map(Torque::new::<newton_metre>);
        let by = [s.plain(0.58, 1.73), s.plain(0.25, 1.0)];
        let pulls = tree::pulls_at(over, breaks, by, s.metres(0.0, 4.0)).unwrap();
        vec![("tips", Some(pulls.tips.value)), ("strains", Some(pulls.strains.value))]
    }),
    ("triangle::anchor_force", |s| one(triangle::anchor_force(s.force(), s.degrees(0.0, 170.0)).unwrap().value)),
    ("triangle::strands_at_anchor", |s| {
        one(triangle::strands_at_anchor(s.force(), s.degrees(0.0, 170.0)).unwrap().value)
    }),
    ("two_legs::equal", |s| one(two_legs::equal(s.force(), s.degrees(0.0, 170.0)).unwrap().value)),
    ("two_legs::tensions", |s| {
        let both = two_legs::tensions(s.force(), s.degrees(-20.0, 80.0), s.degrees(20.0, 80.0)).unwrap();
        vec![("a", Some(both.a.value)), ("b", Some(both.b.value))]
    }),
];

/// Every law's answers and those to every published check, by name.
fn computed() -> BTreeMap<String, Option<f64>> {
    let mut values = BTreeMap::new();
    for row in PUBLISHED.iter().flat_map(|list| serde_json::from_str::<Vec<Row>>(list).unwrap()) {
        for (place, value) in check(&row).unwrap().into_iter().enumerate() {
            values.insert(format!("published {} {place:02}", row.id), Some(value.got));
        }
    }
    for (law, ask) in LAWS {
        for number in 0..SAMPLES {
            for (part, value) in ask(&mut Sample { number, taken: 0 }) {
                let name = format!("{law} {number:02} {part}");
                assert!(values.insert(name.trim_end().to_owned(), value).is_none(), "{name} stands twice");
            }
        }
    }
    values
}

/// How far two answers are apart, as a share of the larger one.
fn apart(one: Option<f64>, other: Option<f64>) -> f64 {
    match (one, other) {
        (Some(one), Some(other)) if one == other => 0.0,
        (Some(one), Some(other)) => (one - other).abs() / one.abs().max(other.abs()),
        (None, None) => 0.0,
        _ => f64::INFINITY,
    }
}

fn say(line: &str) {
    #[cfg(target_arch = "wasm32")]
    wasm_bindgen_test::console_log!("{line}");
    #[cfg(not(target_arch = "wasm32"))]
    println!("{line}");
}

#[test]
fn laws_give_the_pinned_values() {
    let computed = computed();
    #[cfg(not(target_arch = "wasm32"))]
    if std::env::var_os("WRITE_LAW_VALUES").is_some() {
        let text = serde_json::to_string_pretty(&computed).unwrap() + "\n";
        std::fs::write(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/law_values.json"), text).unwrap();
        return;
    }
    let pinned: BTreeMap<String, Option<f64>> = serde_json::from_str(PINNED).unwrap();
    assert!(computed.keys().eq(pinned.keys()), "the pinned file lists other values: write it anew");
    let beside = computed.iter().zip(pinned.values());
    let apart = beside.map(|((name, &value), &pinned)| (apart(value, pinned), name, value, pinned));
    let (worst, name, value, pinned) = apart.max_by(|one, other| one.0.total_cmp(&other.0)).unwrap();
    say(&format!("{} values; furthest apart {worst:.1e}: {name}", computed.len()));
    let exact = !cfg!(target_arch = "wasm32") && std::env::var_os("EXACT_LAW_VALUES").is_some();
    assert!(worst <= if exact { EXACT } else { RELATIVE }, "{name}: {value:?}, pinned {pinned:?}");
}

/// A list of published checks that is not among those above would be the same only by luck.
#[cfg(not(target_arch = "wasm32"))]
#[test]
fn every_published_check_is_among_them() {
    let rows = PUBLISHED.iter().flat_map(|list| serde_json::from_str::<Vec<Row>>(list).unwrap());
    let here: std::collections::BTreeSet<String> = rows.map(|row| row.id).collect();
    let answered: std::collections::BTreeSet<String> = rigging_core::published::ids().map(str::to_owned).collect();
    assert_eq!(here, answered);
}

/// A law that nobody listed above would be the same everywhere only by luck.
#[cfg(not(target_arch = "wasm32"))]
#[test]
fn every_public_law_is_asked() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/law");
    let mut found = 0;
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let module = path.file_stem().unwrap().to_str().unwrap().to_owned();
        for line in std::fs::read_to_string(&path).unwrap().lines() {
            let Some(rest) = line.strip_prefix("pub fn ") else { continue };
            let law = format!("{module}::{}", rest.split('(').next().unwrap());
            assert!(LAWS.iter().any(|(name, _)| *name == law), "{law} is not asked");
            found += 1;
        }
    }
    assert_eq!(found, LAWS.len());
}
