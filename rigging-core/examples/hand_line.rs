//! A hand-line before a group goes onto it: what reaches the end anchors on a slip, beside a limit.
//!
//! EXAMPLE: every number here is invented; put your own in their place.
//!
//! ```text
//! cargo run --package rigging-core --example hand_line
//! ```

use std::error::Error;

use rigging_core::band::Band;
use rigging_core::limit::Standing;
use rigging_core::quantity::decimal;
use rigging_core::question::Question;

/// EXAMPLE: a hand-line of 8 m that sags a tenth of its span, one person on it.
const HAND_LINE: &str = r#"{
    "question": "line",
    "span_m": [7.5, 8, 8.5],
    "sag": [0.08, 0.1, 0.12],
    "people": 1,
    "body_kg": [60, 75, 95]
}"#;

/// EXAMPLE: a limit that an instructor chose aloud, N.
const LIMIT: f64 = 4000.0;

/// What the person does, the range of the pull (N), and how it stands.
type State = (String, Band, Standing);

/// The states of the person on it, from hanging still to a slip.
fn states() -> Result<Vec<State>, Box<dyn Error>> {
    let question: Question = serde_json::from_str(HAND_LINE)?;
    let states = question.answer()?.states.into_iter();
    Ok(states.map(|state| (state.what, state.band, Standing::of(state.band, Band::exact(LIMIT)))).collect())
}

fn main() -> Result<(), Box<dyn Error>> {
    println!("EXAMPLE. On the anchor that is pulled hardest, beside {} kN; a load, never a permission.\n", LIMIT / 1e3);
    for (what, band, standing) in states()? {
        let kilonewtons = |newtons: f64| decimal(newtons / 1e3, 2);
        println!("{what:<26} {} to {} kN   {}", kilonewtons(band.low()), kilonewtons(band.high()), standing.words());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a line hung with W in its middle carries `W / (2 sin δ)`, tan δ = 2 sag, at either end; elsewhere, and
    /// with its own weight, more. The lightest: (60 + 5 kit + 5 water) kg at a sag of 0.12.
    #[test]
    fn hanging_still_the_line_carries_what_its_sag_says_and_a_slip_more() {
        let states = states().unwrap();
        let least = 70.0 * 9.80665 / (2.0 * 0.24_f64.atan().sin());
        let (_, still, _) = &states[0];
        assert!(still.low() > 0.95 * least && still.low() < 1.3 * least, "{still:?} {least}");
        let (_, slip, standing) = &states[states.len() - 1];
        // What reaches beyond the limit is never said to be below it.
        assert!(slip.high() > still.high() && slip.high() > LIMIT);
        assert_ne!(*standing, Standing::BelowLimit);
    }
}
