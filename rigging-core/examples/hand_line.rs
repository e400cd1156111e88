//! A hand-line before a group goes onto it: what reaches the end anchors on a slip, beside a limit.
//!
//! EXAMPLE: every number here is invented; put your own in their place.
//!
//! ```text
//! cargo run --package rigging-core --example hand_line
//! ```

use std::error::Error;

use rigging_core::band::Band;
use rigging_core::quantity::decimal;
use rigging_core::question::{Answer, Question};

/// EXAMPLE: a hand-line of 8 m that sags a tenth of its span, one person on it; its ends are bolts that are known, beside a
/// limit that an instructor chose aloud. On an anchor that was found in place nothing would be below it.
const HAND_LINE: &str = r#"{
    "question": "line",
    "span_m": [7.5, 8, 8.5],
    "sag": [0.08, 0.1, 0.12],
    "people": 1,
    "body_kg": [60, 75, 95],
    "anchor": "known",
    "limit": "own",
    "own_limit_n": 4000
}"#;

fn asked(hand_line: &str) -> Result<Answer, Box<dyn Error>> {
    let question: Question = serde_json::from_str(hand_line)?;
    Ok(question.answer()?)
}

fn told(band: Band) -> String {
    let [low, high] = [band.low(), band.high()].map(|newtons| decimal(newtons / 1e3, 2));
    format!("{low} to {high} kN")
}

fn main() -> Result<(), Box<dyn Error>> {
    let answer = asked(HAND_LINE)?;
    println!("EXAMPLE. A load beside a limit, never a permission.\n\nOn the anchor that is pulled hardest:");
    for state in &answer.states {
        println!("  {:<26} {}", state.what, told(state.band));
    }
    println!("\nBeside the limit:");
    for row in &answer.comparisons {
        println!("  {}: {}, {}", row.what, told(row.load), row.standing.words());
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigging_core::limit::Standing;

    /// By hand: a line hung with W in its middle carries `W / (2 sin δ)`, tan δ = 2 sag, at either end; elsewhere, and
    /// with its own weight, more. The lightest: (60 + 5 kit + 5 water) kg at a sag of 0.12.
    #[test]
    fn hanging_still_the_line_carries_what_its_sag_says_and_a_slip_more() {
        let answer = asked(HAND_LINE).unwrap();
        let least = 70.0 * 9.80665 / (2.0 * 0.24_f64.atan().sin());
        let still = answer.states[0].band;
        assert!(still.low() > 0.95 * least && still.low() < 1.3 * least, "{still:?} {least}");
        let slip = &answer.comparisons[0];
        // What reaches beyond the limit is never said to be below it.
        assert!(slip.load.high() > still.high() && slip.load.high() > 4000.0);
        assert_ne!(slip.standing, Standing::BelowLimit);
    }

    #[test]
    fn nothing_is_below_a_limit_on_an_anchor_that_was_found_in_place() {
        let high = HAND_LINE.replace("4000", "90000");
        let below = |hand_line: &str| {
            let rows = asked(hand_line).unwrap().comparisons;
            rows.iter().filter(|row| row.standing == Standing::BelowLimit).count()
        };
        assert!(below(&high) > 0);
        assert_eq!(below(&high.replace("known", "found")), 0);
    }
}
