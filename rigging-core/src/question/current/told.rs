//! What is told of a current: words, outcomes, graphs, working, cautions.

use super::super::answer::{Caution, Finding, Gravity, Outcome};
use super::choice::Posture;
use super::{Depth, Downstream, InTheCurrent, Tool};
use crate::band::{Band, Spread};
use crate::law::flood::{self, Danger};
use crate::law::{OutOfDomain, slanted_line};
use crate::quantity::{Angle, Kind, Length, Ratio, Velocity, decimal, metre, metre_per_second, radian, ratio};
use crate::working::{Formula, Source};
use std::f64::consts::FRAC_PI_2;

pub(super) const ON_NEAR: &str =
    "on the near end of the line, a person broadside, wherever on it, or swept into its middle";
pub(super) const ON_FAR: &str =
    "on the far end of the line, a person broadside, wherever on it, or swept into its middle";
pub(super) const SWEPT_NEARER: &str =
    "Someone clipped in who is swept in near an end pulls it harder than is told here, by half and more.";
pub(super) const LEFT: &str = "from the far bank, where the current leaves the person";
pub(super) const ABOUT_NEAR: &str =
    "below the near end, feet counted, should the far end let go and the hands hold on: a swing about the near end";
pub(super) const ABOUT_FAR: &str =
    "below the near end, feet counted, should the near end let go and the hands hold on: a swing about the far end";
pub(super) const ON_MORE: &str = "on whichever end of the line gets more";
pub(super) const LETS_GO: &str = "Should an end of the line let go, it runs out through what they slide on, and they float off: nothing holds the person then.";
pub(super) const HANDS_LET_GO: &str =
    "Hands that let go of the line: they float off, and nothing holds the person then.";
pub(super) const NEVER_BELOW: &str =
    "Of a person in the water nothing here is ever below a limit: it is too much, or it is not checked.";

/// That those who hold do not, or may not.
pub(super) fn remark_on_hold(hold: Band, force: Band) -> Option<String> {
    let never = if force.low() > hold.high() { "does not" } else { "may not" };
    (force.high() > hold.low()).then(|| {
        format!(
            "One person at an end {never} hold this: they let go, or they follow. A line ended on people is only as strong as what they hold for minutes."
        )
    })
}

impl InTheCurrent {
    pub(super) fn reaches(&self) -> &'static str {
        match self.tool {
            Tool::ThrowLine => {
                "below the thrower, feet and stretch counted, at the end of the swing to the bank, if it is held"
            }
            _ => "below the anchor of the tether, feet and stretch counted, straight below it",
        }
    }

    pub(super) fn on_catch(&self) -> &'static str {
        match self.tool {
            Tool::ThrowLine => "on the thrower when the line comes tight, the swimmer broadside",
            _ => "on the upper end when the tether comes tight, the person broadside",
        }
    }

    /// A length rounded up or down to a tenth of a metre.
    fn metres(length: f64, up: bool) -> String {
        let tenths = if up { (10.0 * length).ceil() } else { (10.0 * length).floor() };
        decimal(tenths / 10.0, 1)
    }

    /// The rig with another slack.
    fn with_slack(&self, drag: &Spread<6>, slack: Band<Ratio>, case: &str) -> Result<Outcome, OutOfDomain> {
        let other = InTheCurrent { slack, ..*self };
        let [rest, near, ..] = other.bends(drag, Posture::Broadside)?;
        let mut findings = vec![Finding::load(ON_NEAR, near.spread.band)];
        if self.tool == Tool::Diagonal {
            findings.insert(0, Finding::load(LEFT, rest.spread.band).measured_as(Kind::Length));
        }
        Ok(Outcome { case: case.to_owned(), findings })
    }

    pub(super) fn slack_outcomes(&self, drag: &Spread<6>) -> Result<Vec<Outcome>, OutOfDomain> {
        let none = Band::exact(Ratio::new::<ratio>(0.0));
        Ok(vec![
            self.with_slack(drag, none, "If the line were straight at first, without any slack")?,
            self.with_slack(drag, self.slack.map(|slack| 2.0 * slack), "If it had twice the slack")?,
        ])
    }

    /// What lies downstream where no line reaches anybody who comes off: nothing about a place is to be told.
    pub(super) fn where_one_floats(&self) -> String {
        let word = self.downstream.words();
        match self.downstream {
            Downstream::NotSeen => format!(
                "Downstream: {word}. Nothing here says where a person who comes off the line ends: go and look before anyone is in the water."
            ),
            Downstream::FlatRunOut => format!(
                "Downstream: {word}, as you said. Who comes off the line ends there only if they float past all that lies before it."
            ),
            _ => format!(
                "Downstream: {word}, {} m below the near end. Who comes off the line floats on to {}.",
                Self::metres(self.to_hazard.value, false),
                self.downstream.name()
            ),
        }
    }

    /// That the line leads to what lies downstream, the feet getting so far down (m).
    pub(super) fn where_the_line_leads(&self, feet: Band) -> Option<String> {
        let (way, name) = (self.to_hazard.value, self.downstream.name());
        (self.downstream.has_place() && feet.high() >= way).then(|| {
            format!(
                "The line itself leads the feet up to {} m down, {} m beyond {name}: who is on it may get there. Tie the line so far above {name}, its far end first, that bow and legs end short of it.",
                Self::metres(feet.high(), true),
                Self::metres(feet.high() - way, true),
            )
        })
    }

    /// What lies downstream and whether the line ends before it; `may_fail` if whoever holds may not hold.
    pub(super) fn where_one_ends(&self, reach: Band, may_fail: bool) -> String {
        if !self.downstream.has_place() {
            return self.where_one_floats();
        }
        let (word, way, name) = (self.downstream.words(), self.to_hazard.value, self.downstream.name());
        let (far, over) = (Self::metres(reach.high(), true), Self::metres((reach.high() - way).max(0.0), true));
        let what = match self.tool {
            Tool::HandLine | Tool::Diagonal => "should an end of the line let go, who keeps hold of the line",
            Tool::Tether => "on this tether the person",
            Tool::ThrowLine => "on the swing to the bank the swimmer",
        };
        // Whoever holds an end is not asked to hold any more where it lets go.
        let lets_go = self.tool == Tool::HandLine;
        if reach.low() >= way {
            format!("Downstream: {word}. At every end of what was asked, {what} gets to {name} or beyond it.")
        } else if reach.high() >= way {
            let even = if may_fail && !lets_go { "even if whoever holds does hold, " } else { "" };
            let what = sentence(&[even, what].concat());
            format!("Downstream: {word}. {what} gets up to {far} m down, {over} m beyond {name}.")
        } else if lets_go {
            format!("Downstream: {word}. {} gets up to {far} m down.", sentence(what))
        } else {
            let what = if may_fail { format!("only if whoever holds does hold, {what}") } else { what.to_owned() };
            format!(
                "Downstream: {word}. {} gets up to {far} m down, {} m short of {name}, as far as this is asked: see what is not in the numbers.",
                sentence(&what),
                Self::metres(way - reach.high(), false),
            )
        }
    }

    pub(super) fn remarks_on_standing(&self, limits: &Outcome) -> Result<Vec<String>, OutOfDomain> {
        let (speed, share) = (self.speed()?, self.depth.of_height());
        let depth = share.high() * self.height.high().value;
        let (least, most) = limits.findings.iter().fold((f64::INFINITY, 0.0_f64), |(least, most), finding| {
            (least.min(finding.band.low()), most.max(finding.band.high()))
        });
        let deep = Length::new::<metre>(depth);
        let fast = Velocity::new::<metre_per_second>(speed.high());
        let class = flood::class(deep, fast)?;
        let danger = Danger::of(flood::hazard_rating(deep, fast, flood::debris(deep, fast)?)?);
        let mut remarks = vec![format!(
            "Water at {} to {} m/s; the published limits at this depth are {} to {} m/s.",
            decimal(speed.low(), 1),
            decimal(speed.high(), 1),
            decimal(least, 1),
            decimal(most, 1)
        )];
        let knee = "Water above the knee is hazardous to wade (common practice, no source).";
        remarks.push(match self.depth {
            Depth::Knee => format!("{knee} It is at the knee here: a step away it may be deeper."),
            _ => format!("{knee} It is above the knee here."),
        });
        remarks.push(format!(
            "Were this a flood over land, guidelines would call it: {} (New South Wales 2023); {} (FD2320). These are words for floods, not grades of canyons.",
            class.words(),
            danger.words()
        ));
        Ok(remarks)
    }

    /// What the angle at the place does for a straight tight line.
    pub(super) fn remark_on_angle(&self) -> String {
        let (friction, drift) = (self.slides_on.friction().0.high(), self.drift.map(|drift| drift.value.atan()));
        let line = self.across.value.atan2(self.down.value);
        let (widest, past) = (line - drift.low(), drift.high() - line);
        let angle = widest.max(past);
        let most = (1.0 / friction).atan().to_degrees();
        let carries = angle <= FRAC_PI_2
            && slanted_line::carries_on(Angle::new::<radian>(angle.max(0.0)), Ratio::new::<ratio>(friction))
                .unwrap_or(false);
        let presses = if past > 0.0 {
            " The current may set past the line, toward the far bank, and press them to its other side."
        } else {
            ""
        };
        format!(
            "Angle to the current: up to {}°.{presses} A straight tight line would {}, at the most friction: it does only below {}° (tan γ < 1/μ). Slack turns the line ahead toward straight across and eats that angle.",
            decimal(angle.to_degrees().ceil(), 0),
            if carries { "carry on" } else { "not carry on" },
            decimal(most.floor(), 0)
        )
    }

    pub(super) fn cautions(&self) -> Vec<Caution> {
        let own = match self.tool {
            Tool::HandLine => BY_HAND,
            Tool::Diagonal => SLANTED,
            Tool::Tether => TETHERED,
            Tool::ThrowLine => THROWN,
        };
        vec![NO_RELEASE, own, FLIP, WATER_CHANGES, Caution::OF_EVERY_NUMBER]
    }
}

fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters
        .next()
        .map_or_else(String::new, |first| [first.to_ascii_uppercase().to_string().as_str(), letters.as_str()].concat())
}

pub(super) const FORMULAS: [Formula; 7] = [
    Formula::new(
        "drag of the current on a body or a line held in it",
        "F = ½ ρ C_d A (s v)², s = 1 to 1.4",
        Source::memory("Jonkman & Penning-Rowsell 2008; Keller & Mitsch 1993; areas and surges assumed"),
    ),
    Formula::new(
        "a line from bank to bank, a person in its middle: γ to the current, δ from the straight line",
        "T = F sin γ/(2 sin δ) ± F cos γ/(2 cos δ)",
        Source::derived("balance of the person"),
    ),
    Formula::new(
        "where a slider is left, γ of the line before and ahead to the current; straight and tight: on while tan γ < 1/μ",
        "sin γ_far = sin γ_near e^(μ (γ_far − γ_near))",
        Source::derived("balance of the slider"),
    ),
    Formula::new(
        "a catch by a line of stiffness EA and length L",
        "P = F + √(F² + (EA/L) (1 + a) m v²), a = 0 to 1",
        Source::derived("energy; m with the water carried along, broadside up to as much again (from memory)"),
    ),
    Formula::new(
        "standing, depth times speed: Abt; Karvonen",
        "0.0929 (e^(0.001906 L m + 1.09))²; 0.002 to 0.006 L m + 0.1 to 0.3",
        Source::published("Abt and others 1989; Karvonen and others 2000, good and poor from memory"),
    ),
    Formula::new(
        "standing, toppled: Xia, h depth, L height, V the body",
        "U = α (h/L)^β √(m/(ρh²) − (0.633/L² + 0.367/(hL)) V)",
        Source::published("Xia and others 2014"),
    ),
    Formula::new(
        "standing: pushed off the feet; toppled, W_a what is left of the weight, b 0.40 m, d 0.15 m",
        "h v² = 2 μ W_a/(ρ C_d b); h v = √(4 d W_a/(ρ C_d b))",
        Source::memory("form after Jonkman & Penning-Rowsell 2008"),
    ),
];

const NO_RELEASE: Caution = Caution::new(
    Gravity::Danger,
    "Tied to a line in moving water",
    "A person held by a line in a current is pushed under and kept there.",
    "Nobody is tied to a line without a release at the person and at the station (common practice, no source). Releases jam: in a quarter of published trials a quick-release harness did not open fully. Have a knife.",
);
const FLIP: Caution = Caution::new(
    Gravity::Danger,
    "What holds on the shelf drowns in the water",
    "On a dry shelf above a drop one is clipped short; in the water only to what can be released. The rule flips at the water's edge.",
    "Change over before the first step into the water, and back before the lip (common practice, no source).",
);
const BY_HAND: Caution = Caution::new(
    Gravity::Danger,
    "A hand-line clipped to, or pulled taut",
    "Whoever loses their feet hangs in the bend of the line; taut, a little water makes a large pull at both ends.",
    "Keep it loose, in the hands only, upstream of the wader; who holds it must be able to let go (common practice, no source).",
);
const SLANTED: Caution = Caution::new(
    Gravity::Danger,
    "A line straight across the current",
    "It bends into a V, and the person hangs at its bottom in the fastest water.",
    "Slanted downstream, tight, never straight across; someone at each end who can release it (common practice, no source).",
);
const TETHERED: Caution = Caution::new(
    Gravity::Danger,
    "A tether that is a little too long",
    "It catches the person in the tongue of the lip, where nobody pulls them back.",
    "Measure it on the shelf, feet and stretch counted; releasable at the person and at the station (common practice, no source).",
);
const THROWN: Caution = Caution::new(
    Gravity::Danger,
    "A thrower who is pulled in",
    "The jerk comes at once and is larger than what one person holds.",
    "Seated or braced, the line never tied or wrapped round a hand; let it run, or let it go (common practice, no source).",
);
const WATER_CHANGES: Caution = Caution::new(
    Gravity::Warning,
    "Water that rises, turns brown or sounds different",
    "Twice the speed pushes four times as hard, and all numbers here are of an hour ago.",
    "Set a mark at the edge, look at it; leave by land while one can.",
);

pub(super) const NOT_IN: [&str; 11] = [
    "holes and stoppers that hold a body",
    "undercuts, siphons and strainers",
    "aerated water, which carries a body less and hides the bed",
    "rising water",
    "what the line or a foot catches under the surface; a foot that is wedged",
    "a body that is pressed under by the line",
    "waves beyond the surges assumed",
    "an end let go that runs out through what one slides on, and hands that let go: nothing holds the person then",
    "cold, hands that cannot hold on, and how long it lasts",
    "an end that gives way slowly, and knots that slip",
    "a current whose speed or direction changes along the line",
];
