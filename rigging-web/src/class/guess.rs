//! Guess first: the box in which a class guesses, and the guess beside what was computed.

use super::{Board, Wanted};
use crate::number::{self, plain};
use crate::result::end_words;
use maud::{Markup, html};
use rigging_core::quantity::{Kind, Toward, Unit, Units, decimal, with_unit};
use rigging_core::question::Finding;

/// What a class guessed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Guess {
    /// A number, SI.
    Number(f64),
    /// Less, the same or more than before.
    Than(&'static str),
    /// The class guesses aloud; nothing is written down.
    Aloud,
}

/// The buttons that need no number: their ids, what they say, what is kept.
const THAN: [(&str, &str, &str); 3] = [
    ("guess-less", "Less", "less than before"),
    ("guess-same", "The same", "the same as before"),
    ("guess-more", "More", "more than before"),
];

/// What came of an event.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Taken {
    /// It is none of the guess.
    Nothing,
    /// It changes nothing that is shown.
    Typing,
    /// What is typed cannot be used.
    Wrong,
    /// There is a guess now.
    Set,
}

/// Takes in what is typed.
pub fn typed(board: &mut Board, id: &str, value: &str) -> Taken {
    if id != "guess" {
        return Taken::Nothing;
    }
    value.clone_into(&mut board.typed);
    Taken::Typing
}

/// Takes in a button.
pub fn pressed(board: &mut Board, id: &str, kind: Kind, units: Units) -> Taken {
    let guess = match id {
        "guess-show" => Guess::Aloud,
        "guess-set" => match number::read(&board.typed, kind, units.of(kind)) {
            Ok(typed) if typed.si >= 0.0 => Guess::Number(typed.si),
            _ => {
                let like = with_unit("1.5", units.of(kind));
                board.wrong = format!("Your guess: it must be a number not below 0, for example {like}.");
                return Taken::Wrong;
            }
        },
        _ => match THAN.iter().find(|(name, ..)| *name == id) {
            Some((_, _, words)) => Guess::Than(words),
            None => return Taken::Nothing,
        },
    };
    board.wrong.clear();
    board.guess = Some(guess);
    Taken::Set
}

/// The place of the big number while it is hidden, and the ways to guess it: also against the one before.
pub fn asked(board: &Board, wanted: &Wanted, before: bool, units: Units) -> Markup {
    let unit = units.of(wanted.kind);
    html! {
        p.big #headline { strong { "?" } }
        p.what { (wanted.what) }
        div.guess {
            label for="guess" { "Your guess" @if unit != Unit::One { " (" (unit.symbol()) ")" } }
            input #guess type="text" inputmode="decimal" autocomplete="off" value=(board.typed)
                aria-describedby="guess-message" aria-invalid=[(!board.wrong.is_empty()).then_some("true")];
            button #guess-set type="button" { "Set the guess" }
        }
        p.message #guess-message role="alert" { (board.wrong) }
        @if before {
            div.guess role="group" aria-label="Your guess, against the number before" {
                @for (id, words, _) in THAN { button id=(id) type="button" { (words) } }
            }
        }
        button #guess-show type="button" { "Show without a guess" }
    }
}

/// The guess beside what was computed, in words and on one bar.
pub fn told(guess: Guess, finding: &Finding, units: Units) -> Markup {
    let guessed = words(guess, finding.kind, units);
    html! {
        @if guess != Guess::Aloud {
            p.guessed { "Your guess " strong { (guessed) } " · computed " strong { (end_words(finding, units)) } }
        }
        @if let Guess::Number(si) = guess { (bar(si, finding, units)) }
    }
}

fn words(guess: Guess, kind: Kind, units: Units) -> String {
    match guess {
        Guess::Number(si) => with_unit(&plain(units.of(kind).from_si(si)), units.of(kind)),
        Guess::Than(words) => words.to_owned(),
        Guess::Aloud => String::new(),
    }
}

/// Guess above and computed range below on one scale that both fill.
fn bar(guess: f64, finding: &Finding, units: Units) -> Markup {
    let full = full(guess.max(finding.band.high()), finding.kind, units);
    let place = |si: f64| 200.0 * (si / full).clamp(0.0, 1.0);
    let (low, high) = (place(finding.band.low()), place(finding.band.high()));
    let end = units.show(full, finding.kind, Toward::Nearest);
    let said = [
        "Your guess ",
        &words(Guess::Number(guess), finding.kind, units),
        ", computed ",
        &units.range(&finding.band, finding.kind, finding.end.toward()),
        ", on a scale from 0 to ",
        &end,
    ];
    html! {
        svg.bar.both viewBox="0 0 204 26" preserveAspectRatio="none" role="img" aria-label=(said.concat()) {
            line.track x1="0" y1="7" x2="200" y2="7" {}
            line.limit x1="0" y1="7" x2=(decimal(place(guess), 1)) y2="7" {}
            line.track x1="0" y1="19" x2="200" y2="19" {}
            line.range x1=(decimal(low.min(high - 2.0).max(0.0), 1)) y1="19" x2=(decimal(high, 1)) y2="19" {}
            line.tick x1="200" y1="2" x2="200" y2="24" {}
        }
        p.scale { "Above: your guess. Below: computed. 0 to " (end) "." }
    }
}

/// A round number not below a value.
fn full(si: f64, kind: Kind, units: Units) -> f64 {
    let unit = units.of(kind);
    let value = unit.from_si(si);
    if !(value > 0.0 && value.is_finite()) {
        return unit.to_si(1.0);
    }
    let decade = 10_f64.powi(value.log10().floor() as i32);
    let step = [1.0, 2.0, 5.0].into_iter().find(|step| step * decade >= value).unwrap_or(10.0);
    unit.to_si(step * decade)
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigging_core::band::Band;

    #[test]
    fn a_guess_and_the_computed_range_lie_on_one_scale() {
        let finding = Finding::load("on the left anchor", Band::of(800.0, 900.0, 1400.0));
        let html = told(Guess::Number(500.0), &finding, Units::default()).into_string().replace('\u{a0}', " ");
        assert!(html.contains("Your guess <strong>0.5 kN</strong> · computed <strong>up to 1.4 kN"), "{html}");
        // 0 to 2 kN on 200: the guess a quarter, the range from 80 to 140.
        assert!(html.contains(r#"x2="50.0""#) && html.contains(r#"x1="80.0" y1="19" x2="140.0""#), "{html}");
        assert!(html.contains("on a scale from 0 to 2.0 kN"), "{html}");
    }

    #[test]
    fn a_guess_can_be_a_number_with_or_without_unit_or_a_word_or_nothing_written() {
        let units = Units::default();
        for (text, guess) in [
            ("1,5", Some(Guess::Number(1500.0))),
            ("100 lbf", Some(Guess::Number(444.822_161_526_05))),
            ("-1", None),
            ("", None),
            ("much", None),
            ("1,234", None),
        ] {
            let mut board = Board::default();
            assert_eq!(typed(&mut board, "guess", text), Taken::Typing);
            let taken = pressed(&mut board, "guess-set", Kind::Force, units);
            assert_eq!(taken, if guess.is_some() { Taken::Set } else { Taken::Wrong }, "{text}");
            match (board.guess, guess) {
                (Some(Guess::Number(got)), Some(Guess::Number(expected))) => assert!((got - expected).abs() < 1e-6),
                (got, expected) => assert_eq!(got, expected, "{text}"),
            }
        }
        let mut board = Board::default();
        assert_eq!(pressed(&mut board, "guess-more", Kind::Force, units), Taken::Set);
        assert_eq!(board.guess, Some(Guess::Than("more than before")));
        assert_eq!(pressed(&mut board, "soup", Kind::Force, units), Taken::Nothing);
    }
}
