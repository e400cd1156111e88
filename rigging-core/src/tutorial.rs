//! From two legs to a guide line, in ten steps.
//!
//! Every snippet runs as a test, and beside each number in an `assert!` stands where it comes from: it was printed by
//! somebody else or can be worked out by hand, but for step 9, where it is another solver's. What comes out is a load,
//! never a permission.
//!
//! # 1. Two equal legs
//! A law is a formula with units, a domain and a source. 2000 lb on two legs, at four angles from the level:
//! Spellman & Whiting, *Mathematics and Statistics for the Environment*, example 11.3, prints 1155, 1414, 2000
//! and 3864 lb in each.
//!
//! ```text
//! T = F / (2 cos(θ/2))        θ the angle between the legs
//! ```
//! ```
//! use rigging_core::law::two_legs;
//! use rigging_core::quantity::{Angle, Force, degree, pound_force};
//!
//! let load = Force::new::<pound_force>(2000.0);
//! for (from_level, printed) in [(60.0, 1155.0), (45.0, 1414.0), (30.0, 2000.0), (15.0, 3864.0)] {
//!     let between = Angle::new::<degree>(180.0 - 2.0 * from_level);
//!     let leg = two_legs::equal(load, between)?;
//!     assert!((leg.get::<pound_force>() - printed).abs() < 0.5);
//! }
//!
//! // Outside its domain a law says so, and gives no number.
//! assert!(two_legs::equal(load, Angle::new::<degree>(180.0)).is_err());
//! # Ok::<(), rigging_core::law::OutOfDomain>(())
//! ```
//!
//! # 2. Two unequal legs, as a rig
//! The engine knows no formula for legs: it knows points and lines. A lamp of 15.0 kg on wires 30° and 45° above
//! the level, g = 9.8 m/s²: OpenStax, *College Physics*, the traffic light, prints 108 N and 132 N. The wires of
//! the book do not stretch, so these hardly do.
//! ```
//! use rigging_core::statics::{Rig, Settings, solve};
//!
//! let (low, steep) = (30_f64.to_radians(), 45_f64.to_radians());
//! let mut rig = Rig::new();
//! let left = rig.add_held("left", [-low.cos(), 0.0, low.sin()])?;
//! let right = rig.add_held("right", [steep.cos(), 0.0, steep.sin()])?;
//! let lamp = rig.add_free("lamp", [0.0, 0.0, 0.0], [0.0, 0.0, -15.0 * 9.8])?;
//! let at_left = rig.add_line("left wire", &[left, lamp], 1.0, 1e8)?;
//! let at_right = rig.add_line("right wire", &[right, lamp], 1.0, 1e8)?;
//!
//! let solution = solve(&rig, &Settings::default());
//! let rest = solution.balanced().ok_or("no balance, so no numbers")?;
//! let tension = |line| rest.line(line).map_or(f64::NAN, |line| line.tension());
//! assert!((tension(at_left) - 108.0).abs() < 0.5);
//! assert!((tension(at_right) - 132.0).abs() < 0.5);
//!
//! // The proof that comes with it: what is left over at the lamp, as a share of the largest force.
//! assert!(solution.imbalance <= 1e-9);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 3. Legs that stretch
//! What stretches changes the angles, and so the forces. Two steel bars of 15 ft (180 in), 0.5 in², 30·10⁶ psi, 30°
//! below the level, bear 5000 lb: Timoshenko, *Strength of Materials I*, page 10, problem 2, prints a deflection of
//! 0.12 in, and 10000 psi for the angle as built. The engine does not mind the book's units so long as they belong
//! together. At the angle under load the stress is less, by hand: the joint is 90.12 in below the anchors, so that the
//! sine of the slope is 90.12/√(180² cos² 30° + 90.12²) = 0.5005, and 5000/(2 · 0.5005 · 0.5) = 9990 psi.
//! ```
//! # use rigging_core::statics::{Rig, Settings, solve};
//! let slope = 30_f64.to_radians();
//! let (half, drop, area) = (180.0 * slope.cos(), 180.0 * slope.sin(), 0.5);
//! let mut rig = Rig::new();
//! let left = rig.add_held("left", [-half, 0.0, 0.0])?;
//! let right = rig.add_held("right", [half, 0.0, 0.0])?;
//! let joint = rig.add_free("joint", [0.0, 0.0, -drop], [0.0, 0.0, -5000.0])?;
//! let bar = rig.add_line("left bar", &[left, joint], 180.0, area * 30e6)?;
//! rig.add_line("right bar", &[right, joint], 180.0, area * 30e6)?;
//!
//! let solution = solve(&rig, &Settings::default());
//! let rest = solution.balanced().ok_or("no balance, so no numbers")?;
//! let deflection = rest.point(joint).map_or(f64::NAN, |joint| -drop - joint.at.z);
//! let stress = rest.line(bar).map_or(f64::NAN, |bar| bar.tension() / area);
//! assert!((deflection - 0.12).abs() < 0.0005);
//! assert!((stress - 9990.0).abs() < 0.5);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 4. Three legs in space
//! Nothing changes but the third coordinate. 40 lb on three cables: Hibbeler, *Statics*, example 3.7, prints 23.6,
//! 23.6 and 15.0 lb.
//! ```
//! # use rigging_core::statics::{Rig, Settings, Vector, solve};
//! let mut rig = Rig::new();
//! let ring = rig.add_free("ring", [0.0, 0.0, 0.0], [0.0, 0.0, -40.0])?;
//! let mut cables = Vec::new();
//! for (name, at) in [("one", [-3.0, -4.0, 8.0]), ("two", [-3.0, 4.0, 8.0]), ("three", [10.0, 0.0, 0.0])] {
//!     let anchor = rig.add_held(name, at)?;
//!     cables.push(rig.add_line(name, &[anchor, ring], Vector::from(at).norm(), 1e7)?);
//! }
//! let solution = solve(&rig, &Settings::default());
//! let rest = solution.balanced().ok_or("no balance, so no numbers")?;
//! for (cable, printed) in cables.into_iter().zip([23.6, 23.6, 15.0]) {
//!     assert!(rest.line(cable).is_some_and(|cable| (cable.tension() - printed).abs() < 0.05));
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 5. A sling that runs
//! A line is tied at its ends and runs through every point between them. A closed loop through two level anchors and
//! the load, 90° at the load: both strands at an anchor carry `T = F / (2 cos 45°)`, 45° apart, so the anchor feels
//! `2 T cos 22.5° = 1.3066 F` (by hand; the trade prints 1.3).
//! ```
//! # use rigging_core::statics::{Rig, Settings, solve};
//! let mut rig = Rig::new();
//! let left = rig.add_held("left", [-1.0, 0.0, 0.0])?;
//! let right = rig.add_held("right", [1.0, 0.0, 0.0])?;
//! let ring = rig.add_free("ring", [0.0, 0.0, -1.0], [0.0, 0.0, -1000.0])?;
//! rig.add_line("loop", &[left, right, ring, left], 2.0 + 8_f64.sqrt(), 1e8)?;
//!
//! let solution = solve(&rig, &Settings::default());
//! let rest = solution.balanced().ok_or("no balance, so no numbers")?;
//! let pull = rest.point(right).and_then(|right| right.reaction).ok_or("an anchor has a reaction")?;
//! assert!((pull.norm() - 1306.6).abs() < 0.1);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 6. A load that is known only within a range
//! A [`Band`](crate::band::Band) is low, typical, high; [`sweep`](crate::band::sweep) takes a calculation over every
//! corner of the bands and between. 1.8 to 2.4 kN on legs 60 to 120° apart; the factors 0.57735, 0.70711 and 1 are
//! `1 / (2 cos(θ/2))`, by hand.
//! ```
//! use rigging_core::band::{Band, sweep};
//! use rigging_core::law::two_legs;
//! use rigging_core::quantity::{Angle, Force, degree, newton};
//!
//! let load = Band::of(1800.0, 2000.0, 2400.0);
//! let between = Band::of(60.0, 90.0, 120.0);
//! let [leg] = sweep([load, between], |&[load, between]| {
//!     two_legs::equal(Force::new::<newton>(load), Angle::new::<degree>(between)).map(|leg| [leg.value])
//! })?;
//! assert!((leg.band.low() - 1800.0 * 0.57735).abs() < 0.1);
//! assert!((leg.band.typical() - 2000.0 * 0.70711).abs() < 0.1);
//! assert!((leg.band.high() - 2400.0).abs() < 1e-9);
//! // The angle alone moves it by 2000 (1 − 0.57735) = 845 N, the load alone by 600 · 0.70711 = 424 N.
//! assert_eq!(leg.moved_most_by(), Some(1));
//! # Ok::<(), rigging_core::law::OutOfDomain>(())
//! ```
//!
//! # 7. Beside a limit
//! A range and a limit stand in one of four ways; none of them is a permission. The limit is an invented one.
//! ```
//! use rigging_core::band::Band;
//! use rigging_core::limit::Standing;
//!
//! let leg = Band::of(1039.2, 1414.2, 2400.0);
//! assert_eq!(Standing::of(leg, Band::exact(2000.0)).words(), "range crosses limit");
//! assert_eq!(Standing::of(leg, Band::exact(2500.0)).words(), "below limit");
//! // A part found in place is never said to be below a limit, whatever figure is put beside it.
//! let found = Standing::of(leg, Band::exact(2500.0)).of_unknown_part("found in place");
//! assert_eq!(found.words(), "not checked");
//! ```
//!
//! # 8. A question
//! A [`Question`](crate::question::Question) asks the engine, sweeps what is uncertain, and tells how it came to its
//! numbers. 70 kg in the middle of a line whose sides run 5.0° below the level, so that the sag is `tan 5° / 2` of the
//! span: OpenStax, *University Physics*, the tightrope walker, prints 3935 N before it rounds, for a wire without
//! weight and g = 9.80. This rope weighs something, and g is 9.80665: together less than 1 %.
//! ```
//! use rigging_core::question::Question;
//!
//! let question: Question = serde_json::from_str(
//!     r#"{"question": "line", "span_m": 10, "far_higher_m": 0, "setting": "sag", "sag": 0.0437443,
//!         "place": 0.5, "held": "clipped", "people": 1, "body_kg": 70, "kit_kg": 0, "suit_water_kg": 0}"#,
//! )?;
//! let answer = question.answer()?;
//! let still = answer.states.first().ok_or("hanging still comes first")?;
//! assert_eq!(still.what, "hanging still");
//! assert!((still.band.typical() / 3935.0 - 1.0).abs() < 0.01);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 9. A guide line, as a rig
//! An abseil rope of 5 m, a guide line from the stance to a boulder 15 m out and 20 m down, a cow's tail of 0.5 m
//! whose ring runs along the guide (invented numbers). No book prints this one; the forces were found as a cone
//! program by another solver and polished to an 80-bit residual. Rig and answer are `tests/rigs/guide-line-00.*.json` at the top of the
//! repository; the package of the library does not hold them.
//! ```
//! # use rigging_core::statics::{Rig, Settings, solve};
//! let mut rig = Rig::new();
//! let top = rig.add_held("guide, top", [0.0, 0.0, 0.0])?;
//! let boulder = rig.add_held("guide, boulder", [15.0, 0.0, -20.0])?;
//! let abseil = rig.add_held("abseil anchor", [0.3, 0.2, 0.0])?;
//! let ring = rig.add_free("ring", [3.1, 0.0, -4.3], [0.0, 0.0, 0.0])?;
//! let person = rig.add_free("person", [3.1, 0.0, -4.8], [0.0, 0.0, -900.0])?;
//! let guide = rig.add_line("guide", &[top, ring, boulder], 24.5, 30_000.0)?;
//! let tail = rig.add_line("cow's tail", &[ring, person], 0.5, 50_000.0)?;
//! let rope = rig.add_line("abseil rope", &[abseil, person], 5.0, 30_000.0)?;
//!
//! let solution = solve(&rig, &Settings::default());
//! let rest = solution.balanced().ok_or("no balance, so no numbers")?;
//! for (line, reference) in [(guide, 826.352901), (tail, 241.526899), (rope, 799.586628)] {
//!     assert!(rest.line(line).is_some_and(|line| (line.tension() - reference).abs() < 1e-4));
//! }
//! // The guide carries the person out of the fall: 1.61 m from the stance, not 0.3 m.
//! assert!(rest.point(person).is_some_and(|person| (person.at.x - 1.614570).abs() < 1e-5));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 10. The same as a question, held to a case that can be done by hand
//! The question goes down the whole abseil and tells the worst of it. A guide to a boulder 4 m out, left three tenths
//! longer than the straight distance, never tightens: 19.0 m of it, and 14.1 m down and 4 m across are 18.1 m. So
//! 80 kg hang on the abseil rope alone, 80 · 9.80665 = 784.532 N. To a boulder 9 m out and pulled straight beforehand,
//! the anchor at its foot carries more than the person weighs: that is what being carried out costs.
//! ```
//! use rigging_core::band::Band;
//! use rigging_core::question::{Entry, Question};
//!
//! let mut question: Question = serde_json::from_str(
//!     r#"{"question": "guided abseil", "height_m": 14, "bottom_out_m": 4, "guide": "slack", "slack": 0.3,
//!         "people": 1, "body_kg": 80, "kit_kg": 0, "suit_water_kg": 0, "state": "still"}"#,
//! )?;
//! let weight = 784.532;
//! let hardest = |question: &Question| -> Result<f64, Box<dyn std::error::Error>> {
//!     Ok(question.answer()?.findings.first().ok_or("there is a finding")?.band.high())
//! };
//! assert!((hardest(&question)? - weight).abs() < 0.01);
//!
//! question.set("bottom_out_m", &Entry::Range(Band::exact(9.0)))?;
//! question.set("guide", &Entry::Choice("pre-tension"))?;
//! question.set("pre_tension_n", &Entry::Range(Band::exact(600.0)))?;
//! assert!(hardest(&question)? > weight);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! From here: `cargo run --example ask -- --list` prints every question with its fields, units and bounds;
//! `examples/` has programs of one page each.
