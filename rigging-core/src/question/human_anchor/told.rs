//! What is told of the people who hold: remarks, person by person, working, cautions.

use super::super::answer::{Caution, Finding, Gravity, Outcome};
use super::case::{Found, Hold, Inputs, Way, friction, minutes};
use super::list::Person;
use super::{HumanAnchor, Released, Stance, TRIAL_MASS, Whether};
use crate::band::{Band, sweep};
use crate::law::OutOfDomain;
use crate::quantity::{Force, Kind, decimal, pound_force};
use crate::working::{Formula, Given, Source, Step};

/// Beyond this no way of giving way is told, N: people hold far less.
const TOO_MUCH: f64 = 10_000.0;

impl Way {
    pub(super) fn words(self) -> &'static str {
        match self {
            Way::Dragged => "dragged",
            Way::Topples => "toppled",
            Way::Lifted => "lifted",
            Way::Tires => "overcome",
        }
    }
}

impl HumanAnchor {
    /// The loads at rest and in a slip, as they end a sentence.
    pub(super) fn load_words(&self) -> [&'static str; 2] {
        if self.is_hung() {
            ["pulled by the person who hangs still", "pulled by the person who slips"]
        } else {
            ["pulled by the load at rest", "pulled by the load at a slip or catch"]
        }
    }

    /// What the trials are about: not for an abseil, and only for a stance and a rope as in them.
    pub(super) fn seconds(&self) -> Option<Outcome> {
        let [first, _] = self.first();
        let trial = Force::new::<pound_force>(self.stance.trial()).value;
        (self.stance.was_tried() && first.is_straight()).then(|| Outcome {
            case: "For several seconds only, never for an abseil".into(),
            // A mean is no least: it is told as what was reached.
            findings: vec![Finding::load(
                "held by the average person of the stance trials in this stance; about half of them held less",
                Band::exact(trial),
            )],
        })
    }

    /// Person by person: the force at which each gives way, and how first.
    pub(super) fn each(&self) -> Result<Vec<Outcome>, OutOfDomain> {
        let mut outcomes = Vec::new();
        for (number, person) in self.line().iter().enumerate() {
            outcomes.push(self.one(number, person)?);
        }
        Ok(outcomes)
    }

    fn one(&self, number: usize, person: &Person) -> Result<Outcome, OutOfDomain> {
        let mass = self.holder.map(|mass| mass.value);
        let [least, dragged, toppled, lifted, tires, pulls] =
            sweep([mass, friction(), minutes()], |&[mass, place, share]| {
                let hold = self.hold(person, mass, place, share)?;
                let [dragged, toppled, lifted] = hold.ways.map(|force| force.min(TOO_MUCH));
                Ok::<_, OutOfDomain>([hold.force, dragged, toppled, lifted, hold.trial, hold.pulls])
            })?;
        let [mass, place, share] = least.at_low;
        let first = self.hold(person, mass, place, share)?;
        let mut findings = Vec::new();
        for (what, spread) in [
            ("dragged at", dragged),
            ("toppled at", toppled),
            ("lifted off at", lifted),
            ("too much for their strength, for minutes, at", tires),
        ] {
            if spread.band.low() < TOO_MUCH {
                findings.push(Finding::strength(what, spread.band));
            }
        }
        if pulls.band.high() > 0.0 {
            findings
                .push(Finding::load("pulled toward the lip by this person, who slides without any rope", pulls.band));
        }
        let number = decimal(number as f64 + 1.0, 0);
        let case = ["Person ", &number, ", ", first.placed.stance.words(), ": ", first.way.words(), " first"].concat();
        Ok(Outcome { case, findings })
    }

    pub(super) fn remarks(&self, worst: &Hold, found: &Found) -> Vec<String> {
        let way = match worst.way {
            Way::Dragged if worst.force == 0.0 => "they slide toward the lip without any rope: the floor is too steep",
            Way::Dragged => "the first person is dragged toward the lip",
            Way::Topples => "the first person topples forward",
            Way::Lifted => "the first person is lifted off the ground",
            Way::Tires => "their strength, as assumed for minutes",
        };
        let mut remarks = vec![["What gives way first: ", way, "."].concat()];
        let mut say = |words: &str| remarks.push(words.to_owned());
        if found.ratio_slip.band.low() < 1.0 {
            say("At the adverse ends of the ranges a slip pulls harder than these people hold: they go over with it.");
        }
        if found.ratio_still.band.low() < 1.0 {
            say(if self.is_hung() {
                "At the adverse ends they do not even hold the person hanging still."
            } else {
                "At the adverse ends they do not even hold the load at rest."
            });
        }
        if self.holders > 1 {
            say(if found.all.band.low() < found.alone.band.low() {
                "The first carries until moved; at the adverse end the others pull at the first: they slide without any rope."
            } else {
                "The first carries until moved; at the adverse end the others add nothing: slack between them is enough."
            });
        }
        say(match self.released {
            Released::No => {
                "Nobody can let go under load: whoever is dragged goes over, whoever is stuck below stays there."
            }
            Released::AtPerson => {
                "Whoever lets go leaves all of the load to the others at once. Quick-release harnesses failed to release fully in a quarter of trials."
            }
            Released::AtStation => "The rope can be let out, but whoever is dragged cannot leave it.",
            Released::Both => {
                "A release counts only if it was tried under load: quick-release harnesses failed to release fully in a quarter of trials."
            }
        });
        if self.by_water == Whether::Yes {
            say(
                "In or beside moving water nobody may be tied in: a person off their feet is held under by the rope. The push of the water on them, and the weight that it carries, are not in these numbers.",
            );
        }
        say("That a group was held this way before, five people or fifty, changes nothing here.");
        remarks
    }

    pub(super) fn working(&self, worst: &Hold, at: &Inputs, all: f64) -> Result<Vec<Step>, OutOfDomain> {
        let &[_, _, _, mass, place, share, further, _] = at;
        let placed = worst.placed;
        let directions = placed.directions();
        let side = placed.side_slope().value;
        let (_, friction_source) = self.seat.friction();
        let angle = |symbol, angle: f64| Given::exact(symbol, angle, Kind::Angle);
        let force = |symbol, force: f64| Given::exact(symbol, force, Kind::Force);
        let plain = |symbol, value: f64| Given::exact(symbol, value, Kind::Ratio);
        let length = |symbol, value: f64| Given::exact(symbol, value, Kind::Length);
        let weight = force("W", worst.weight);
        let mut steps = vec![Step {
            what: "Weight of the first person, with kit".into(),
            formula: "W = m g",
            given: vec![Given::exact("m", mass, Kind::Mass)],
            result: weight.clone(),
            source: Source::published("standard gravity 9.80665 m/s²"),
        }];
        let what = "Most that a person of this mass holds in this stance, for minutes; scaling with mass assumed";
        steps.push(Step {
            what: if placed.is_straight() {
                what.into()
            } else {
                [what, "; half of the trial, pulled to one side"].concat()
            },
            formula: "H = s · trial · m / reference mass",
            given: vec![
                plain("s", share),
                force("trial", worst.trial * TRIAL_MASS / (mass * share)),
                Given::exact("m", mass, Kind::Mass),
                Given::exact("reference mass", TRIAL_MASS, Kind::Mass),
            ],
            result: force("H", worst.trial),
            source: self.stance.trial_source(),
        });
        if self.stance == Stance::SeatedBraced {
            steps.push(Step {
                what:
                    "Push of the feet, for the minutes of a descent; μ_t is the friction taken off the trial: 0.35, or \
                       more if typical of the seat"
                        .into(),
                formula: "B = H − μ_t W, not below 0",
                given: vec![force("H", worst.trial), plain("μ_t", self.seat.trial_friction()), weight.clone()],
                result: force("B", worst.push),
                source: Source::derived("the trial is the whole hold; its friction, assumed, is taken off it"),
            });
        }
        let beta = angle("β", directions.slope.value);
        let theta = angle("θ", directions.rope.value);
        let gamma = (side > 0.0).then(|| angle("γ", side));
        let up = directions.slope.value + directions.rope.value > 0.0;
        let aslant = placed.aside > 0.0 && worst.push > 0.0;
        let drags = match (side > 0.0, up) {
            _ if aslant && up => {
                "√((T cos a + W sin β − b cos ψ)² + (W cos β sin γ + b sin ψ)²) = μ (W cos β cos γ − T sin a), a = θ + β, b up to B as serves best, ψ the rope to one side"
            }
            _ if aslant => {
                "√((T cos a + W sin β − b cos ψ)² + (Q sin γ + b sin ψ)²) = μ Q cos γ, Q = W cos β − T sin a, a = θ + β, b up to B as serves best, ψ the rope to one side"
            }
            (false, _) => "T = [W(μ cos β − sin β) + B] / (cos a + μ sin a), a = θ + β",
            (true, true) => "√((T cos a + W sin β − B)² + (W cos β sin γ)²) = μ (W cos β cos γ − T sin a), a = θ + β",
            (true, false) => {
                "T = [W(μ′ cos β − sin β) + B] / (cos a + μ′ sin a), a = θ + β, μ′ = √((μ cos γ)² − sin² γ), none below 0"
            }
        };
        let [behind, height, back] = worst.levers;
        let with_side = |mut given: Vec<Given>| {
            given.extend(gamma.clone());
            given.extend(aslant.then(|| angle("ψ", placed.aside)));
            given
        };
        let dragged =
            vec![weight.clone(), plain("μ", worst.friction), force("B", worst.push), beta.clone(), theta.clone()];
        let toppled =
            vec![weight.clone(), length("d", behind), length("h", height), length("a_t", back), theta.clone()];
        let ways = [
            ("Dragged at", worst.slides, drags, with_side(dragged), friction_source),
            (
                "Topples at",
                worst.topples,
                "T = W d / [h cos θ + a_t sin θ]",
                toppled,
                Source::assumed("reference geometry of the stance"),
            ),
            (
                "Lifted at",
                worst.lifts,
                if side > 0.0 { "T = W cos β cos γ / sin a" } else { "T = W cos β / sin a" },
                with_side(vec![weight, beta, theta]),
                Source::derived("balance square to the ground"),
            ),
        ];
        for (what, limit, formula, given, source) in ways {
            if let Some(limit) = limit {
                let result = force("T", limit.value);
                steps.push(Step { what: what.to_owned(), formula, given, result, source });
            }
        }
        let (mut others, mut pulls) = (0.0, 0.0);
        for (number, person) in self.line().iter().enumerate() {
            let hold = self.hold(person, mass, place, share)?;
            others += if number > 0 { hold.force } else { 0.0 };
            pulls += hold.pulls;
        }
        steps.push(Step {
            what:
                "All in line: each further person adds a share of their own hold, or nothing; P pull those who slide \
                   without any rope"
                    .into(),
            formula: "T_all = T + share · ΣT_further − ΣP, not below 0",
            given: vec![
                force("T", worst.force),
                plain("share", further),
                force("ΣT_further", others),
                force("ΣP", pulls),
            ],
            result: force("T_all", all),
            source: Source::assumed("0 to 0.8 of their own hold, only if tied without slack, each with a foothold"),
        });
        Ok(steps)
    }
}

pub(super) const FORMULAS: [Formula; 8] = [
    Formula::new(
        "dragged: slope β, a the rope above the slope (the first's not counted below it), B the push of the feet, straight on",
        "T = [W(μ cos β − sin β) + B] / (cos a + μ sin a)",
        Source::derived("friction on an incline"),
    ),
    Formula::new(
        "topples: d the weight behind the feet, h the rope above them, a_t behind them, θ above level",
        "T = W d / (h cos θ + a_t sin θ)",
        Source::derived("moments about the feet"),
    ),
    Formula::new(
        "on a floor that falls γ to one side, the rope along or below it: for μ",
        "μ′ = √((μ cos γ)² − sin² γ), none beyond tan γ = μ",
        Source::derived("friction against the sum of two pulls"),
    ),
    Formula::new(
        "on such a floor, or the rope ψ to one side of feet that push, b up to B; along or below the floor W cos β − T sin a for W cos β, and no T sin a",
        "√((T cos a + W sin β − b cos ψ)² + (W cos β sin γ + b sin ψ)²) = μ (W cos β cos γ − T sin a)",
        Source::derived("friction against the sum of two pulls"),
    ),
    Formula::new("lifts off", "T = W cos β cos γ / sin a", Source::derived("balance square to the ground")),
    Formula::new(
        "tires: the trials held 350 lbf seated and braced, half with the rope outside the feet; 200 standing, one foot forward, pulled from below, less than half with the feet together or sideways (half is taken); half without a foothold is assumed; for minutes a share",
        "H = trial × share × m/80 kg; braced B = H − μ_t W, not below 0, μ_t = 0.35 or the seat's typical if more; else B = 0",
        Source::published("stance trials told in a mountaineering handbook; share and scaling assumed"),
    ),
    Formula::new(
        "further people in line, each 0 to 0.8 of their own hold; P pull those who slide without any rope",
        "all = first + share × Σ further − ΣP, not below 0",
        Source::assumed("tied without slack, each with a foothold"),
    ),
    Formula::new(
        "over an edge to a load that hangs plumb, its friction with the holders: φ = 90° + θ",
        "all × e^(+μ φ), the least μ",
        Source::published("Euler–Eytelwein; friction of edges: Delaney 2020, range assumed"),
    ),
];

pub(super) const CAUTIONS: [Caution; 5] = [
    Caution::new(
        Gravity::Danger,
        "People tied to a rope that pulls them to the lip",
        "Whoever is dragged goes over, and the one on the rope falls with them.",
        "Use a rock or tree anchor; if people must hold, have them releasable and far from the lip.",
    ),
    Caution::new(
        Gravity::Danger,
        "Holding in or beside moving water, tied in",
        "A person pulled off their feet is held under by the rope.",
        "Nobody tied in there, release or not.",
    ),
    Caution::new(
        Gravity::Warning,
        "Minutes, not seconds",
        "Trials measured a pull of several seconds; muscles give out long before an abseil is over.",
        "What friction and footholds hold is assumed here.",
    ),
    Caution::new(
        Gravity::Warning,
        "A slip on a rope held by people",
        "It comes without notice and pulls several times the weight.",
        "No slack at the lip; another anchor.",
    ),
    Caution::new(
        Gravity::Caution,
        "No load-cell test of a human anchor in a canyon is known to this project",
        "The ranges here are built from stance trials on land, means over several seconds, and assumed friction.",
        "Let qualified instruction, local rules and a trial on flat ground decide.",
    ),
];

pub(super) const NOT_IN: [&str; 7] = [
    "footholds that break, and feet that slip off them",
    "people who lean, or topple by the side slope alone",
    "slack between the people in line",
    "wet hands that slip on the rope, and the release",
    "fatigue beyond the share of strength assumed",
    "water that pushes on those who hold, and carries part of their weight",
    "people who are not ready when the pull comes",
];
