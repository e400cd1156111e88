//! What is told of the line: working, remarks, cautions.

use super::super::answer::{Caution, Gravity};
use super::super::graph::{Graph, Mark};
use super::super::people::State;
use super::case::{Case, Inputs, WET};
use super::rigged::Hung;
use super::{Line, Setting, Way, Whether};
use crate::law::two_legs;
use crate::quantity::{Angle, Force, Kind, decimal, newton, radian};
use crate::working::{Formula, Given, Source, Step};
use std::f64::consts::FRAC_PI_2;

/// What the lengths among the findings are, while the load hangs and while it pulls sideways.
pub(super) const DOWN: [&str; 4] = [
    "below the straight line at the lowest point of a slip",
    "below the straight line, hanging still",
    "below the near anchor's level: where a slip leaves the person, cow's tail counted",
    "along from the near anchor, level: where a slip leaves the person",
];
pub(super) const ABOVE: &str = "above the near anchor's level: where a slip leaves the person, cow's tail counted";
pub(super) const SIDEWAYS: [&str; 4] = [
    "out from the straight line at the farthest point of a slip",
    "out from the straight line, held still",
    "out from the near anchor: where a slip leaves the person, cow's tail counted",
    "along from the near anchor, level: where a slip leaves the person",
];

impl Line {
    pub(super) fn working(&self, point: &Inputs, case: &Case, shown: &Hung, jerks: bool) -> Vec<Step> {
        let [weight, span, set, stiffness] = *point;
        let force = |symbol, si: f64| Given::exact(symbol, si, Kind::Force);
        let length = |symbol, si: f64| Given::exact(symbol, si, Kind::Length);
        let rigged = &case.rigged;
        let straight = rigged.chord(rigged.bay).norm();
        let (formula, given) = match self.setting {
            Setting::Sag => (
                "the length at which the solved sag is the sag asked for",
                vec![force("W", weight), length("sag", set * rigged.chord(rigged.bay).x)],
            ),
            Setting::PreTension => ("L₀ = c / (1 + T₀/EA)", vec![force("T₀", set)]),
            Setting::Slack => ("L₀ = c (1 + slack)", vec![Given::exact("slack", set, Kind::Ratio)]),
        };
        let (body, kit) = self.body_and_kit(weight);
        let stiff = force("EA", stiffness);
        let mut steps = vec![self.people.step(body, kit)];
        steps.push(Step {
            what: format!(
                "Weight of the line, {}{}",
                if self.wet == Whether::Yes { format!("wet: × {}", decimal(WET, 1)) } else { "dry".into() },
                if rigged.tied && rigged.clipped { "" } else { "; it runs through points, so it is put on them" }
            ),
            formula: "w = 0.6456 g/m · (d/mm)² · c g",
            given: vec![Given::exact("d", self.diameter.value, Kind::Thickness), length("c", straight)],
            result: force("w", rigged.weight * straight),
            source: Source::derived("declared masses of ropes of 8 to 11 mm; wet: at most half more"),
        });
        steps.push(Step {
            what: "Length of the line without tension, in the bay with the load".into(),
            formula,
            given: given.into_iter().chain([length("span", span), length("c", straight), stiff.clone()]).collect(),
            result: length("L₀", rigged.length * straight),
            source: Source::derived("definition of stiffness; balance of forces"),
        });
        if jerks {
            steps.push(Step {
                what: "Load moving in jerks".into(),
                formula: "F = factor · W",
                given: vec![Given::exact("factor", shown.load / weight, Kind::Ratio), force("W", weight)],
                result: force("F", shown.load),
                source: State::Jerky.uncertain().1,
            });
        } else {
            let fall = (shown.at - rigged.start()).dot(&rigged.toward);
            steps.push(Step {
                what: "Slip: the steady load at which the line has stored what the weight gave; h until the cow's tail is tight".into(),
                formula: "Σ EA/(2L₀) (⟨ℓ − L₀⟩² − ⟨c − L₀⟩²) = W (fall + h), solved for F",
                given: vec![force("W", weight), length("fall", fall), length("h", self.falls()), stiff],
                result: force("F", shown.load),
                source: Source::derived("conservation of energy, nothing lost, at rest at its lowest place"),
            });
        }
        let [near, far] = shown.pulls.map(|pull| pull.norm());
        if let Some((textbook, [first, second])) = self.textbook(shown) {
            steps.push(Step {
                what: "Textbook, at the solved angles: the part to the near anchor where the load is".into(),
                formula: "T₁ = F cos δ₂ / sin(δ₁ + δ₂); in the middle of a level line F / (2 sin δ), tan δ = 2 sag/span",
                given: vec![
                    force("F", (shown.pulls[0] + shown.pulls[1]).norm()),
                    Given::exact("δ₁", first, Kind::Angle),
                    Given::exact("δ₂", second, Kind::Angle),
                ],
                result: force("T₁", textbook),
                source: Source::published("Lami's theorem; OpenStax University Physics, walker on a wire"),
            });
        }
        steps.push(Step {
            what: "On the anchor that is pulled hardest, found by the engine".into(),
            formula: "the balance of every point: parts to the near and far anchor T₁, T₂",
            given: vec![force("T₁", near), force("T₂", far)],
            result: force("T", shown.hardest()),
            source: Source::derived("least energy of the elastic line; the balance of forces is proved for each case"),
        });
        let most = case.caught.hardest();
        if !jerks && most > shown.hardest() {
            steps.push(Step {
                what: "The same slip followed in time: one anchor gets more on the way".into(),
                formula: "(W/g) a = W + T₁ + T₂, beginning at √(2 g h)",
                given: vec![force("W", weight), length("h", self.falls()), force("EA", stiffness)],
                result: force("T", most),
                source: Source::derived("Newton's second law, nothing lost"),
            });
        }
        steps
    }

    /// Tension of the near part by the textbook at the solved angles below level, if both parts are taut and hang.
    pub(super) fn textbook(&self, hung: &Hung) -> Option<(f64, [f64; 2])> {
        let [near, far] = &hung.pulls;
        let load = (near + far).norm();
        if self.way != Way::Down || near.norm().min(far.norm()) < 1e-3 * load {
            return None;
        }
        let below = |pull: &crate::statics::Vector| pull.z.atan2(pull.x.abs());
        let angles = [below(near), below(far)];
        let plumb = |angle: f64| Angle::new::<radian>(FRAC_PI_2 - angle);
        let legs = two_legs::tensions(Force::new::<newton>(load), plumb(angles[0]), plumb(angles[1])).ok()?;
        Some((legs.a.value, angles))
    }

    /// `crossed` is where the crossing pulls hardest, and how much harder than the place entered, as a share.
    pub(super) fn remarks(&self, tightest: &Case, crossed: Option<(f64, f64)>, whole: bool) -> Vec<String> {
        let mut remarks = Vec::new();
        let sag = tightest.sag_share();
        if sag < 0.05 {
            remarks.push(format!(
                "At the tight end of the range the line sags only {} % of its span. Below 5 % a little less sag costs a lot more tension.",
                decimal(100.0 * sag, 1)
            ));
        }
        remarks.push(
            "Hanging still, half the sag means about twice the tension. More slack means a harder slip.".to_owned(),
        );
        if !whole {
            remarks.push(
                "Some places of the crossing did not come to rest in the calculation: the curve leaves them out, and they may be worse."
                    .to_owned(),
            );
        }
        if let Some((place, more)) = crossed.filter(|(_, more)| *more > 0.01) {
            remarks.push(format!(
                "Over the crossing jerks or a slip pull hardest at {} of the span: up to {} % more than at the place entered. Near an anchor a slip falls onto a short piece of line that gives little; the cow's tail is counted as if it gave nothing.",
                decimal(place, 2),
                decimal((100.0 * more).ceil(), 0)
            ));
        }
        if !tightest.rigged.clipped {
            remarks.push("Running freely, nothing but the shape of the line stops the person: at the lowest place they hang, and a slip that slides there is counted without friction.".to_owned());
        }
        if tightest.rigged.anchors.len() > 2 && tightest.rigged.tied {
            remarks.push("Tied at each anchor, a bay bears its load alone; if one anchor fails, the next bay gets its slack and a fall: that is not computed here.".to_owned());
        }
        remarks
    }
}

/// Where on the crossing an anchor is pulled hardest.
pub(super) fn hardest(crossing: &Graph) -> Option<Mark> {
    crossing.curve.iter().copied().reduce(|most, mark| if mark.up.high() > most.up.high() { mark } else { most })
}

pub(super) const FORMULAS: [Formula; 4] = [
    Formula::new(
        "every force: parts of the line pull by their stretch, and where everything rests the energy is least; a bay with weight is an elastic catenary",
        "T = EA (ℓ − L₀)/L₀; Σ EA (ℓ − L₀)²/(2 L₀) − F · x is least",
        Source::derived("convex energy of elastic lines; forces balanced to one part in 10⁹"),
    ),
    Formula::new(
        "a slip: the load at which the line has stored what the weight W lost, h before the cow's tail is tight",
        "Σ EA/(2 L₀) (⟨ℓ − L₀⟩² − ⟨c − L₀⟩²) = W (fall + h)",
        Source::derived("conservation of energy, nothing lost"),
    ),
    Formula::new(
        "moving steadily and in jerks: the weight times a factor",
        "F = 1.0 to 1.5 W; 2.0 to 3.2 W",
        Source::published("caving federation tests 2014; HSE CRR 364/2001"),
    ),
    Formula::new(
        "pre-tension that people reach: e the efficiency of a bend over 180°",
        "T₀ = pull; through 3:1, pull (1 + e + e²)",
        Source::published("Delaney, Physics for Roping Technicians, 2020; efficiencies of teaching texts"),
    ),
];

pub(super) const CAUTIONS: [Caution; 4] = [
    Caution::new(
        Gravity::Danger,
        "A taut line across moving water",
        "Someone swept onto it is held under and cannot get off.",
        "Slant it downstream, keep it loose or releasable, and never tie anyone to it without a release.",
    ),
    Caution::new(
        Gravity::Warning,
        "A line pulled tight",
        "The flatter it is, the harder it pulls on its anchors: many times the weight that hangs on it.",
        "Leave sag; a tenth of the span is usual. Think twice before pulling with a mechanical advantage.",
    ),
    Caution::new(
        Gravity::Warning,
        "A slip onto the line",
        "The peak is far above the tension hanging still, most of all with slack in line or cow's tail.",
        "Stay below the line, short-clipped, and judge the anchors on the slip.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 8] = [
    "the strength of the anchors and of the knots in the line",
    "water that pulls on the line",
    "friction where a connector runs on the line, or the line through an anchor",
    "slip of the knots and give of the anchors and of the cow's tail, which soften a slip",
    "a swing against the rock, and what follows the first catch",
    "off the middle, the swing on a slack cow's tail: a tenth more on the nearer anchor",
    "an anchor between the ends that fails",
    "on the crossing, a fall within 0.3 m of an anchor",
];
