//! Loads on rope rigging, as honest ranges with their sources.
//!
//! A [`Question`](question::Question) goes in at the top, falls through one floor at a time, and an
//! [`Answer`](question::Answer) comes back up the same stairs:
//!
//! | floor | what stands there |
//! |---|---|
//! | [`plan`] | the rigging plan of a whole descent: drops, group, ropes, time, light |
//! | [`question`] | one folder per question a leader asks: input → answer, working, cautions |
//! | [`limit`] | a load band against a limit → one of four standings |
//! | [`strength`] | published strengths and limits with their sources |
//! | [`statics`] | the engine: where a rig comes to rest and what every line carries |
//! | [`published`] | the form of answers that this library did not make, and its own beside them |
//! | [`law`] | single physical laws, formula and source in the doc |
//! | [`working`] | the steps of an answer, and where each number comes from |
//! | [`band`] | a value known only within a range, and how ranges pass through a calculation |
//! | [`mod@quantity`] | force, length, mass, angle with units in the types |
//!
//! Nothing on a lower floor knows a name above it. The crate is pure: no clock, no files, no
//! randomness, no network; it does not panic on any input. `tutorial` goes from two legs to a guide line.
//!
//! ```
//! use rigging_core::question::Question;
//!
//! // Two bolts 1 m apart, the master point 0.5 m below them: 90° between the legs. One person of 80 kg hangs still.
//! let question: Question = serde_json::from_str(
//!     r#"{"question": "anchor legs", "apart_m": 1, "down_m": 0.5, "right_higher_m": 0, "length_scatter_m": 0,
//!         "swing_left_rad": 0, "swing_right_rad": 0, "people": 1, "body_kg": 80, "kit_kg": 0,
//!         "suit_water_kg": 0, "state": "still"}"#,
//! )?;
//! let answer = question.answer()?;
//! let left = answer.findings.first().ok_or("there is a finding")?;
//! // By hand, for legs that do not stretch: 80 · 9.80665 / (2 cos 45°) = 554.7 N. These give a little.
//! assert!(left.band.low() > 551.0 && left.band.high() < 554.7);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # The mathematics
//!
//! **Where a rig comes to rest.** Of all places `x` of its free points, a rig of elastic lines takes those at which
//! the potential energy is least:
//!
//! ```text
//! Π(x) = Σ  EA/(2 L0) · max(0, ℓ(x) − L0)²  −  Σ f·x
//!       lines                                 points
//! ```
//!
//! `L0` is a line's length without tension (m), `EA` its stiffness (N), `ℓ(x)` the length of its path (m), `f` the load
//! on a point (N). A line pulls and never pushes. A length is a convex function of `x`, and so is a rising convex
//! function of it, and the sum: **one equilibrium, no local trap, any first guess will do**, and tensions are unique
//! even where places are not. A line with weight between two points is an elastic catenary, convex too. The search is
//! a damped Newton method with a line search. (Least potential energy: Timoshenko & Young, *Theory of Structures*, from
//! memory. Convexity: Boyd & Vandenberghe, *Convex Optimization*, section 3.2, from memory.) More in [`statics`].
//!
//! **How an answer proves itself.** No number leaves the engine on trust. It is *balanced* only if the largest force
//! left over at any free point is at most 10⁻⁹ of the largest load or tension (another share, up to 10⁻³, if
//! [`statics::Settings`] ask for it); and by convexity that remainder bounds
//! the error. With `E` (J) a bound on `r·(x* − x)`, `r` the forces left over and `x*` the places at rest, and
//! `k = EA/L0` (N/m):
//!
//! ```text
//! Σ (T − T*)² / k  ≤  E        so        |T − T*|  ≤  √(k E)
//!     T* the true tension
//! ```
//!
//! ([`statics::Equilibrium::energy_bound`], [`statics::LineAtRest::tension_bound`].) What is not balanced is a
//! [`statics::Status`] without numbers.
//!
//! **What is known only within a range.** Inputs are [`band::Band`]s: low, typical, high. [`band::sweep`] runs the whole
//! calculation over the box that they span:
//!
//! ```text
//! typical  +  each input alone at low, ¼, ½, ¾, typical, high  +  2ⁿ corners  +  32 fixed points inside
//! ```
//!
//! and keeps the extremes, *where* they were found, and which input alone moves the result most. Corners are exact
//! wherever a result only rises or only falls with each input; the points inside (Halton, *Numerische Mathematik* 2,
//! 1960, 84–90, from memory) are there for what does not. It is a search, not an enclosure.
//!
//! **Friction** at a bend is a band from the force balance with both extreme ratios of the capstan equation
//! `T₁/T₂ = e^(±μφ)`, not a factor on a frictionless result ([`law::bend`]).
//!
//! **How a load stands beside a limit.** Both are ranges, touching is crossing, and there are four standings and no
//! fifth ([`limit::Standing`]):
//!
//! ```text
//! high(load) < low(limit)     below limit
//! low(load)  > high(limit)    above limit
//! else                        range crosses limit
//! no number, or no limit holds for such a part: not checked, and why
//! ```
//!
//! **What a part resists** is `figure × knot × condition × loading`, all low ends together and all high ends together
//! ([`strength::resistance`]).
//!
//! # What may change
//! What comes out of a question, a plan or the engine (answers, scenes and graphs with their parts, workings, what was
//! checked) and rows of tables are `#[non_exhaustive]`, and so are enums that are meant to grow: [`quantity::Kind`] and
//! [`quantity::Unit`], the choices of questions and plans, limits, devices, species, what a part is made of and what a
//! factor is one of, how a thing is known, errors with their rules, and why a drop comes first. What goes in (questions,
//! plans and their rows, [`statics::Settings`]) may get another field with a minor version: start from `Default`;
//! and [`question::Ask`], which no other crate can implement, may get another item.
//!
//! The rest stays as it is until the next major version. Of enums, so that a `match` may name every case:
//!
//! - what a screen has to know in full before it can ask, tell or draw: [`question::Takes`], [`question::Entry`],
//!   [`question::End`], [`question::Gravity`], [`question::scene::Pose`], [`question::scene::Role`],
//!   [`question::scene::Grip`], [`limit::Standing`], [`quantity::Toward`], [`plan::About`], [`plan::Fades`],
//!   [`strength::Bound`], [`strength::knot::Kept`];
//! - the two kinds of things there are in a rig: [`statics::Owner`];
//! - what a check value is written as: [`published::Input`], [`published::Within`];
//! - what a law tells apart: [`law::flood::Class`], [`law::flood::Danger`], [`law::haul::Begins`], [`law::haul::Part`],
//!   [`law::pull_down::Piece`], [`law::standing::Conditions`], [`law::standing::Wader`], [`law::standing::Curve`],
//!   [`law::tree::Soil`].
//!
//! And of structs what is written as a literal: what goes into a law and comes out of it ([`law::haul::Haul`],
//! [`law::taut_line::TautLine`], [`law::ground::Block`] and their like), [`statics::LoadOnLine`], [`quantity::Units`],
//! [`strength::item::Made`], [`plan::Date`], [`plan::Sky`], [`plan::NoLight`], [`published::Row`] with
//! its parts, [`published::Checked`], [`plan::Reading`], the fields of a question ([`question::Field`], [`question::About`],
//! [`question::Choice`]). Names on the wire (JSON), once published, stay; rows of tables are only added at the end; the
//! lists `ALL` of an enum that may grow get longer with it: go through them, do not write their length. What
//! comes from serde, uom and nalgebra in signatures (`Vector`, the quantities) changes with their major versions.
//!
//! Questions, plans and answers are `Send` and `Sync`, what is kept of a check of a plan is neither ([`plan::Answered`]
//! is counted on one thread); questions are not `UnwindSafe`, because of uom: to catch a panic
//! around one, wrap it in `AssertUnwindSafe`.
//!
//! What it computes is a load, never a permission: it does not replace qualified instruction, local
//! codes or looking at the anchor.

// The unit macro calls its own helpers by bare name.
#[macro_use]
extern crate uom;

pub mod band;
pub mod law;
pub mod limit;
pub mod plan;
pub mod published;
pub mod quantity;
pub mod question;
pub mod statics;
pub mod strength;
#[cfg(any(doc, doctest))]
pub mod tutorial;
pub mod working;

/// The README is what a stranger copies first.
#[cfg(doctest)]
#[doc = include_str!("../README.md")]
struct Readme;
