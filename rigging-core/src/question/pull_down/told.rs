//! What is told of the pull: what would change it, remarks, working, cautions.

use super::super::Over;
use super::super::answer::{Caution, ChosenLimit, Comparison, Finding, Gravity, Outcome};
use super::super::carried::larger;
use super::super::graph::Mark;
use super::super::pullers::{HARD, TOGETHER};
use super::case::{Inputs, Part, Side};
use super::{DROP, EdgeMet, Met, PullDown, PulledBy};
use crate::band::Band;
use crate::law::pull_down::{Piece, beyond, pull_with_bends_at_the_ring};
use crate::law::{OutOfDomain, pullers};
use crate::limit::Standing;
use crate::quantity::{Force, Kind, Length, Ratio, decimal, newton, ratio};
use crate::working::{Formula, Given, Source, Step};
use std::f64::consts::FRAC_PI_2;

pub(super) const AT_START: &str = "to pull at the start";
const AT_MOST: &str = "to pull where it takes most, later on the way";

/// What a knot leaves of a cord at the low end of those told here, a bowline; and the thickest cord of EN 564, m.
const KNOTTED: f64 = 0.55;
const THICKEST_CORD: f64 = 0.008;

const BALANCE: Source = Source::derived("balance of forces along the rope; Coulomb friction");

impl PullDown {
    /// Words for what so many who pull pull together.
    pub(super) fn steady_words(&self, pullers: u32) -> String {
        let who = if pullers == 1 { "1 person".to_owned() } else { format!("{pullers} people") };
        format!("pulled steadily by {who} {}", self.pull_from.words())
    }

    /// The start, and what comes later where that may be harder: of a cord heavier than the rope it is.
    pub(super) fn compared(&self, start: Band, curve: &[Mark], steady: Band) -> Vec<Comparison> {
        let later = harder_later(start, curve).map(|most| self.compare(AT_MOST, most, steady));
        [self.compare(AT_START, start, steady)].into_iter().chain(later).collect()
    }

    fn compare(&self, what: &str, load: Band, steady: Band) -> Comparison {
        Comparison {
            what: what.to_owned(),
            load,
            limit: Some(ChosenLimit {
                band: steady,
                figure: steady.low(),
                factor: 1.0,
                part: "steady pull of those who pull".to_owned(),
                source: self.pull_from.of_one().1,
            }),
            standing: Standing::of(load, steady)
                .of_unknown_part("what wedges, twists or jams a rope is not in the number"),
        }
    }

    /// What could be changed before the last person leaves, and what it would do.
    pub(super) fn outcomes(&self) -> Result<Vec<Outcome>, OutOfDomain> {
        let mut changes: Vec<(&str, PullDown)> = Vec::new();
        let mut change = |case, change: &dyn Fn(&mut PullDown)| {
            let mut changed = *self;
            change(&mut changed);
            changes.push((case, changed));
        };
        let met = [self.first.met, self.second.met, self.slab.met].map(|met| met != Met::Neither);
        let [first, second, slab] = met;
        if first {
            change("If edge 1 is avoided or the ring hangs beyond it", &|pull| pull.first.met = Met::Neither);
        }
        if second {
            change("If edge 2 is avoided or the ring hangs beyond it", &|pull| pull.second.met = Met::Neither);
        }
        // On a strand beside the slope nobody asked how far an edge would then be from the ring.
        let beside = |edge: &EdgeMet| ![Met::Neither, self.slab.met].contains(&edge.met);
        // What would hang on the strand that is pulled: from the foot of the slope where it lies on it, else from the ring.
        let foot = self.slab.length * self.slab.falls.value.sin();
        let (off_slope, other) = match self.slab.met {
            Met::Rising => (self.height - foot, self.height - foot),
            Met::Pulled => (self.height, self.height + foot),
            Met::Both | Met::Neither => (self.height, self.height),
        };
        let hangs = |height: Length| DROP.contains(&height.value);
        if slab && hangs(off_slope) && (self.slab.met == Met::Both || !self.edges().into_iter().any(beside)) {
            change("If the ring hangs at the lip of the slope", &|pull| {
                let lip = pull.slab.length;
                for edge in [&mut pull.first, &mut pull.second] {
                    if edge.down < lip {
                        edge.met = Met::Neither;
                    }
                    edge.down -= lip;
                }
                pull.height = off_slope;
                pull.slab.met = Met::Neither;
            });
        }
        if hangs(off_slope) && met.into_iter().filter(|met| *met).count() > 1 {
            change("If the ring hangs beyond all of them", &|pull| {
                pull.first.met = Met::Neither;
                pull.second.met = Met::Neither;
                pull.height = off_slope;
                pull.slab.met = Met::Neither;
            });
        }
        match self.ring {
            Over::Ring => change("If the rope runs through a connector", &|pull| pull.ring = Over::Connector),
            Over::PolishedRock | Over::RoughRock | Over::Roller | Over::Timber => {
                change("If the rope runs through a ring or quick link", &|pull| pull.ring = Over::Ring);
            }
            _ => {}
        }
        // Only where the strands differ, and the other one reaches down to the hands.
        let differ = [self.first.met, self.second.met, self.slab.met]
            .into_iter()
            .any(|met| matches!(met, Met::Pulled | Met::Rising));
        if differ && self.pulled_by == PulledBy::Rope && self.rising >= other && hangs(other) {
            change("If the other strand is pulled", &|pull| {
                (pull.rising, pull.height) = (pull.height, other);
                for met in [&mut pull.first.met, &mut pull.second.met, &mut pull.slab.met] {
                    *met = match *met {
                        Met::Pulled => Met::Rising,
                        Met::Rising => Met::Pulled,
                        same => same,
                    };
                }
            });
        }
        let mut outcomes = Vec::new();
        for (case, changed) in changes {
            let start = changed.pull_at(0.0)?;
            let later = harder_later(start, &changed.curve()?);
            let most = later.map_or_else(|| Finding::load(AT_START, start), |most| Finding::load(AT_MOST, most));
            let findings = vec![most];
            outcomes.push(Outcome { case: case.to_owned(), findings });
        }
        if self.pullers < pullers::MOST {
            let more = self.pullers + 1;
            let steady = Finding::strength(self.steady_words(more), self.pull_from.of_all(more)?);
            outcomes.push(Outcome { case: "If one person more pulls".to_owned(), findings: vec![steady] });
        }
        Ok(outcomes)
    }

    pub(super) fn remarks(&self, start: Band, curve: &[Mark], outcomes: &[Outcome]) -> Vec<String> {
        let mut remarks = Vec::new();
        // Of what lowers the pull, the change that leaves least.
        let mut least: Option<(&str, f64)> = None;
        let now = harder_later(start, curve).unwrap_or(start).high();
        for outcome in outcomes {
            for finding in outcome.findings.iter().filter(|finding| [AT_START, AT_MOST].contains(&&*finding.what)) {
                let most = finding.band.high();
                if most < least.map_or(now, |(_, least)| least) {
                    least = Some((&outcome.case, most));
                }
            }
        }
        if let Some((case, most)) = least {
            remarks.push(format!(
                "Before the last person leaves, this takes most off the pull: {}{}. Up to {} N would then be left.",
                case.get(..1).unwrap_or_default().to_ascii_lowercase(),
                case.get(1..).unwrap_or_default(),
                decimal(most.ceil(), 0)
            ));
        }
        remarks.push(runs_by_itself(curve));
        if self.pulled_by == PulledBy::Cord {
            remarks.push(
                "Only the cord can be pulled: the knot or block comes down with it and catches where the cord does not. The other strand cannot be pulled instead.".to_owned(),
            );
        }
        let keeps = KNOTTED * 0.2e9 * self.cord.value.powi(2);
        let hard = HARD * f64::from(self.pullers);
        let is_cord = self.pulled_by == PulledBy::Cord && self.cord.value <= THICKEST_CORD;
        if is_cord && hard.max(start.high()) > keeps {
            remarks.push(format!(
                "New, the cord holds some {} N with its knot (55 % of 0.2 d² kN, EN 564): {} can break it. It then whips, and the rope stays up.",
                decimal((keeps / 10.0).floor() * 10.0, 0),
                if start.high() > keeps { "what the pull may need" } else { "all of you pulling hard" }
            ));
        }
        let (spare, drop) = (self.spare.value, self.next_drop.value);
        if self.spare_missing() > 0.0 {
            remarks.push(format!(
                "Spare rope: {} m for a drop of {} m still below. If this rope is lost, the group stands above that drop without a rope that reaches down: a metre of knots and 6 % of shrinkage are counted, set-back as entered.",
                decimal((10.0 * spare).floor() / 10.0, 1),
                decimal((10.0 * drop).ceil() / 10.0, 1)
            ));
        } else if drop > 0.0 {
            remarks.push(
                "Spare rope: as long as the longest drop still below, a metre of knots and 6 % of shrinkage counted, set-back as entered; it hangs as a single strand, and to pull it down there too takes twice as much, or a cord. See where a rope ends."
                    .to_owned(),
            );
        }
        remarks
    }

    pub(super) fn working(&self, point: &Inputs) -> Result<Vec<Step>, OutOfDomain> {
        let &[.., soaked] = point;
        let force = |symbol, force: f64| Given::exact(symbol, force, Kind::Force);
        let plain = |symbol, number: f64| Given::exact(symbol, number, Kind::Ratio);
        let mut steps = Vec::new();
        let cord = (self.pulled_by == PulledBy::Cord).then_some(("Weight of a metre of cord", self.cord, true));
        for (what, diameter, is_cord) in [("Weight of a metre of rope", self.diameter, false)].into_iter().chain(cord) {
            steps.push(Step {
                what: what.to_owned(),
                formula: "w = 0.6456 g/m · (d in mm)² · g · water",
                given: vec![Given::exact("d", diameter.value, Kind::Thickness), plain("water", soaked)],
                result: force("w", self.of_a_metre(is_cord, soaked)?),
                source: Source::derived("declared masses of ropes; wet up to half as heavy again (UIAA)"),
            });
        }
        let way = self.way(0.0, point)?;
        let mut tension = Force::new::<newton>(0.0);
        let (mut rising, mut pulled, mut sum, mut lies) = (0.0, 0.0, 0.0, false);
        for part in way.parts() {
            let after = beyond(tension, &part.piece)?;
            let before = force("T₁", tension.value);
            let (formula, given, source) = match part.piece {
                Piece::Bend { friction, turning_angle } => {
                    sum += friction.value * turning_angle.value;
                    let angle = Given::exact("φ", turning_angle.value, Kind::Angle);
                    ("T₂ = T₁ e^(μφ)", vec![before, plain("μ", friction.value), angle], self.known(part))
                }
                Piece::Straight { weight, rises, friction } if part.over.is_some() => {
                    lies = true;
                    let (weight, angle) = (force("W", weight.value), Given::exact("β", rises.value, Kind::Angle));
                    let formula = "T₂ = T₁ + W (sin β + μ cos β), not below 0; β how steeply the rope moves up";
                    (formula, vec![before, weight, angle, plain("μ", friction.value)], self.known(part))
                }
                Piece::Straight { weight, rises, .. } => {
                    let up = rises.value > 0.0;
                    *(if up { &mut rising } else { &mut pulled }) += weight.value;
                    let formula = if up { "T₂ = T₁ + W" } else { "T₂ = T₁ − W, not below 0" };
                    (formula, vec![before, force("W", weight.value)], BALANCE)
                }
            };
            steps.push(Step {
                what: format!("Tension beyond {}", part.name),
                formula,
                given,
                result: force("T₂", after.value),
                source,
            });
            tension = after;
        }
        if !lies {
            let newtons = Force::new::<newton>;
            let most = pull_with_bends_at_the_ring(newtons(rising), newtons(pulled), Ratio::new::<ratio>(sum))?;
            steps.push(Step {
                what: "The same with every edge close below the ring, which costs most".to_owned(),
                formula: "P = W₂ e^(Σμφ) − W₁, not below 0",
                given: vec![force("W₂", rising), plain("Σμφ", sum), force("W₁", pulled)],
                result: force("P", most.value),
                source: Source::derived("Euler–Eytelwein and the weight of both strands"),
            });
        }
        steps.push(Step {
            what: "What those who pull pull steadily together".to_owned(),
            formula: "F = n · one · (1 − lost)",
            given: vec![
                Given::exact("n", f64::from(self.pullers), Kind::Count),
                Given::new("one", self.pull_from.of_one().0, Kind::Force),
                plain("lost", pullers::loss(self.pullers)?.value),
            ],
            result: Given::new("F", self.steady()?, Kind::Force),
            source: TOGETHER,
        });
        let stuck = self.stuck()?;
        steps.push(Step {
            what: "Anchor, the rope held beyond the ring and all pulling hard; W₁ the strand that is pulled, edges and friction not counted".to_owned(),
            formula: "R = 2 (n · hard + W₁)",
            given: vec![
                Given::exact("n", f64::from(self.pullers), Kind::Count),
                force("hard", HARD),
                force("W₁", stuck.high() / 2.0 - HARD * f64::from(self.pullers)),
            ],
            result: force("R", stuck.high()),
            source: Source::assumed("500 N each; both strands pull on the ring"),
        });
        Ok(steps)
    }

    fn known(&self, part: &Part) -> Source {
        part.over.map_or(BALANCE, |over| over.friction(self.is_wet()).1)
    }

    /// How far a strand turns between the ring and plumb, its bends taken together.
    pub(super) fn turns(&self, side: Side) -> f64 {
        let edges = self.edges().into_iter().filter(|edge| edge.met.by(side)).map(|edge| edge.turn.value).sum::<f64>();
        edges + if self.slab.met.by(side) { FRAC_PI_2 - self.slab.falls.value } else { 0.0 }
    }
}

/// What the pull comes to later on the way, where that may be harder than at the start.
fn harder_later(start: Band, curve: &[Mark]) -> Option<Band> {
    let most = curve.iter().fold(start, |most, mark| larger(most, mark.up));
    (most.high() > start.high()).then_some(most)
}

/// From where on the rope runs by itself: at the earliest with the least friction, at the latest with the most.
fn runs_by_itself(curve: &[Mark]) -> String {
    // Between two places of the curve the earlier one for the least friction, the later one for the most. What runs and then
    // has to be pulled again, as where the cord is heavier than the rope, runs from the last of these on.
    let pulls = |end: fn(&Band) -> f64| curve.iter().rposition(|mark| end(&mark.up) > 0.0).map_or(0, |place| place + 1);
    let (early, late) = (pulls(Band::low), pulls(Band::high));
    let at = |place: usize| curve.get(place).map(|mark| mark.across);
    if !curve.is_empty() && curve.iter().all(|mark| mark.up.high() <= 0.0) {
        return "It runs by itself from the start on: all of it comes down at once, and the free end whips.".to_owned();
    }
    let runs_before = curve.iter().take(early).any(|mark| mark.up.low() <= 0.0);
    let before =
        if runs_before { "It may run by itself on a part of its way, and has to be pulled again. " } else { "" };
    let Some(_) = at(early) else {
        let words = if runs_before { "Then" } else { "It does not run by itself anywhere:" };
        return [before, words, " it has to be pulled until the free end comes down."].concat();
    };
    let from = match early.checked_sub(1).and_then(at) {
        None => "from the start on".to_owned(),
        Some(early) => format!("once {} m of what hangs are pulled", decimal(early.floor(), 0)),
    };
    let late = match at(late) {
        Some(late) => format!("at the latest from {} m on", decimal(late.ceil(), 0)),
        None => "with the most friction nowhere".to_owned(),
    };
    format!("{before}It may run by itself {from}, {late}: the rest then comes down at once, and the free end whips.")
}

pub(super) const FORMULAS: [Formula; 4] = [
    Formula::new(
        "a bend of either strand, φ its turning angle; 180° at the ring",
        "T₂ = T₁ e^(μ φ)",
        Source::published("Euler–Eytelwein; Baker & Haynes, Engineering Statics, chapter 9"),
    ),
    Formula::new("rope that hangs, W its weight: + where it rises, − where it comes down", "T₂ = T₁ ± W", BALANCE),
    Formula::new(
        "rope on a slope α: + sin α where it is drawn up, − sin α where it comes down",
        "T₂ = T₁ + W (± sin α + μ cos α)",
        BALANCE,
    ),
    Formula::new(
        "steady pull of several, n · one less what they lose together",
        "9 % of two to 20 % of eight",
        TOGETHER,
    ),
];

pub(super) const CAUTIONS: [Caution; 6] = [
    Caution::new(
        Gravity::Danger,
        "Climbing or hanging on a stuck rope",
        "What holds it is not known: a knot in a crack or a loop round a spike lets go under the next jerk.",
        "Never trust weight to it. Pull from other places and angles, flick it, pull the other strand while you have both; else leave it.",
    ),
    Caution::new(
        Gravity::Danger,
        "The last person down before anyone has pulled",
        "A rope that does not come is lost, and with it the way down the drops still below.",
        "Pull a metre or two from below while someone who can free it is still at the anchor; keep both ends in reach until it runs.",
    ),
    Caution::new(
        Gravity::Warning,
        "The free end and loose stones",
        "The end whips and stones come with it onto whoever stands below.",
        "Pull from the side, helmets on, nobody in the line of fall; look up when it begins to run.",
    ),
    Caution::new(
        Gravity::Warning,
        "Rope that falls into moving water",
        "It runs off downstream, catches under a rock, or loops round a swimmer.",
        "Stuff it into its bag as it comes, out of the current, a knife at hand.",
    ),
    Caution::new(
        Gravity::Warning,
        "Everybody pulling hard on a stuck rope",
        "The anchor, the block or the edge gets many times the steady pull, and jams tighten.",
        "Stop, look, change the direction. Let nobody hang from an anchor that is pulled at so.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 9] = [
    "a knot, block or end that jams in a crack, at an edge or in the ring",
    "strands that are twisted round each other, and knots left in the end",
    "the knot that joins two ropes and catches at an edge; the weight of a block",
    "ice, mud and sand on rope and edge; a groove that pinches the rope",
    "moving water on the strands, and rope held by a pool or a siphon",
    "stretch of the rope, jerks, and friction greater when it starts than when it runs",
    "a pull to the side, which bends the rope over more",
    "rope that lies on ledges or on the ground and drags",
    "the strength of a thin pull cord, and hands that slip on it",
];
