//! Answers published elsewhere, and this library's own to the same inputs.
//!
//! The rows are data: inputs, the published answer, how close it must be met, where it was read. For
//! each id a function here asks the laws with the inputs of its row and no number of its own.
//!
//! ```
//! use rigging_core::published::{Row, check};
//!
//! let row: Row = serde_json::from_str(
//!     r#"{"id": "F4", "what": "A rope bent through 180°",
//!         "inputs": {"tight_n": 1000, "friction": 0.25, "turning_angle_deg": 180},
//!         "expected": [{"what": "slack side", "unit": "N", "values": [455.9], "within": {"absolute": 0.05}}],
//!         "source": {"title": "Tayal, Engineering Mechanics", "place": "example 7.4", "known": "published"}}"#,
//! )?;
//! for value in check(&row)? {
//!     assert!(value.misses_by() <= 1.0, "{value:?}");
//! }
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod bends;
mod natural;
mod people;
mod pull_down;
mod row;
mod slack;
mod statics;
mod units;
mod water;

pub use row::{Checked, Expected, Input, Row, Unanswered, Within, WrittenIn};

/// Own answers to a row, in SI: one list for each list of expected values.
type Answers = Result<Vec<Vec<f64>>, Unanswered>;
/// The id of a row and the function that answers it.
type Answerer = (&'static str, fn(&Row) -> Answers);

const ANSWERERS: [&[Answerer]; 8] = [
    statics::ANSWERERS,
    bends::ANSWERERS,
    people::ANSWERERS,
    pull_down::ANSWERERS,
    slack::ANSWERERS,
    units::ANSWERERS,
    water::ANSWERERS,
    natural::ANSWERERS,
];

/// The ids of all rows that can be answered.
/// ```
/// use rigging_core::published::ids;
///
/// // Each once.
/// assert_eq!(ids().filter(|id| *id == "F4").count(), 1);
/// assert!(ids().all(|id| ids().filter(|other| *other == id).count() == 1));
/// ```
pub fn ids() -> impl Iterator<Item = &'static str> {
    ANSWERERS.into_iter().flatten().map(|(id, _)| *id)
}

/// Each expected value of a row beside this library's own answer.
///
/// # Errors
/// [`Unanswered`] if no function has the row's id, an input or unit is missing or unknown, a law
/// refuses an input, or there are more or fewer answers than expected values.
/// ```
/// use rigging_core::published::{Row, check};
///
/// let row: Row = serde_json::from_str(
///     r#"{"id": "F10", "what": "600 lb on a single luff, friction not counted",
///         "inputs": {"load_lbf": 600, "efficiency": 1},
///         "expected": [{"what": "pull", "unit": "lbf", "values": [200], "within": {"relative": 1e-12}}],
///         "source": {"title": "US Navy, Builder", "place": "single luff, 600 lb", "known": "published"}}"#,
/// )?;
/// // Three parts carry 600 lb: 200 lb.
/// let [pull] = &check(&row)?[..] else { panic!("one value") };
/// assert!((pull.got - 200.0).abs() < 1e-9 && pull.expected == 200.0 && pull.misses_by() <= 1.0);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn check(row: &Row) -> Result<Vec<Checked>, Unanswered> {
    let answerer = ANSWERERS.into_iter().flatten().find(|(id, _)| *id == row.id);
    let (_, answer) = answerer.ok_or_else(|| Unanswered::NoFunction { id: row.id.clone() })?;
    row.beside(&answer(row)?)
}
