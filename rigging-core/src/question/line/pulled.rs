//! How tight people pull a line, and what the anchors then get.

use super::super::answer::{Finding, Outcome};
use super::super::input::BadInput;
use super::super::people::State;
use super::Line;
use crate::band::Band;
use crate::quantity::decimal;

/// Pull of one person standing dry, N (assumed).
const PULL: [f64; 3] = [100.0, 200.0, 300.0];

/// How they pull, and the efficiency of each bend: published teaching ranges, the same figures as for raising.
const WAYS: [(&str, [f64; 3], u32); 3] = [
    ("Pulled tight straight by hand (100 to 300 N each, assumed)", [1.0; 3], 1),
    ("Pulled tight on a 3:1 over carabiners", [0.40, 0.53, 0.66], 3),
    ("Pulled tight on a 3:1 over pulleys", [0.86, 0.90, 0.95], 3),
];

const PEOPLE: [(f64, &str, &str); 3] = [
    (1.0, "pre-tension, 1 person pulling", "then on the anchor pulled hardest, hanging still to jerks or a slip"),
    (2.0, "pre-tension, 2 people", "then on the anchor, still to jerks or a slip"),
    (3.0, "pre-tension, 3 people", "then on the anchor, still to jerks or a slip"),
];

/// Gain of the pull: each bend hands on its efficiency of the tension, `1 + e + e²` for a 3:1.
pub(super) fn gain(efficiency: f64, strands: u32) -> f64 {
    (0..strands).map(|bend| efficiency.powi(bend as i32)).sum()
}

impl Line {
    /// The pre-tension that one, two and three people reach, and what then comes on the anchors; with a warning if
    /// that leaves too little sag.
    pub(super) fn pulled(&self) -> Result<(Vec<Outcome>, Vec<String>), BadInput> {
        let [weight, span, _, stiffness] = self.inputs();
        let easy = (weight.low(), span.high(), stiffness.low());
        let usual = (weight.typical(), span.typical(), stiffness.typical());
        let mut hard = vec![
            (weight.high(), span.low(), stiffness.high()),
            (weight.high(), span.high(), stiffness.high()),
            (weight.high(), span.low(), stiffness.low()),
            (weight.high(), span.high(), stiffness.low()),
        ];
        hard.dedup();
        let mut outcomes = Vec::new();
        let mut warning = None;
        for (case, efficiency, strands) in WAYS {
            let mut findings = Vec::new();
            for (people, pre_tension, then) in PEOPLE {
                let mut pulled = PULL;
                for (tension, efficiency) in pulled.iter_mut().zip(efficiency) {
                    *tension *= people * gain(efficiency, strands);
                }
                let mut forces = [0.0; 3];
                // The looser of two lines may catch a slip the harder, or the longer one.
                let all_hard = pulled.iter().flat_map(|tension| hard.iter().map(move |corner| (2, *corner, *tension)));
                let [little, middling, _] = pulled;
                for (end, (weight, span, stiffness), tension) in
                    [(0, easy, little), (1, usual, middling)].into_iter().chain(all_hard)
                {
                    let mut rigged = self.straight(span, stiffness)?;
                    rigged.length = 1.0 / (1.0 + tension / stiffness);
                    let mut ready = rigged.ready()?;
                    let rest = ready.at_rest(weight)?;
                    let force = if end < 2 {
                        rest.hardest()
                    } else {
                        let jerks = ready.at_rest(State::Jerky.uncertain().0.high() * weight)?.hardest();
                        let slip = ready.slip(weight, self.falls())?;
                        ready.caught(&slip, weight, self.falls())?.hardest().max(jerks)
                    };
                    if let Some(most) = forces.get_mut(end) {
                        *most = force.max(*most);
                    }
                    let sag = ready.rigged.sag(&rest.at) / ready.rigged.chord(ready.rigged.bay).x;
                    if sag < 0.05 && warning.is_none() {
                        warning = Some(format!(
                            "{case}, {} pulling: under the person the line then sags less than 5 % of its span.",
                            decimal(people, 0)
                        ));
                    }
                }
                let [low, typical, high] = pulled;
                findings.push(Finding::load(pre_tension, Band::of(low, typical, high)));
                let [low, typical, high] = forces;
                findings.push(Finding::load(then, Band::of(low, typical, high)));
            }
            outcomes.push(Outcome { case: case.to_owned(), findings });
        }
        let history = "\"No more than three people\" is history (common practice, no source): what counts is the pre-tension they reach.";
        Ok((outcomes, warning.into_iter().chain([history.to_owned()]).collect()))
    }
}
