//! What is told of the rope: findings, outcomes, remarks, cautions.

use super::super::answer::{Answer, Caution, End, Finding, Gravity, Outcome};
use super::case::Spreads;
use super::{Bottom, Hung, INPUTS, RopeEnd, Water};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::quantity::{Kind, Length, decimal, metre};

const CORD_NEEDED: &str = "of pull cord needed, as declared";
const PULLED_MISSING: &str = "of the strand or cord to pull missing, as declared, to reach a hand at the bottom";
const RESERVE_NEEDED: &str = "needed at the station, as declared, to let someone down who is stuck anywhere";
const ON_IT: &str = "the end of the rope with someone hanging at it";

/// A quantity that hurts when it is large.
fn most(what: impl Into<String>, spread: &Spread<6>) -> Finding {
    Finding::load(what, spread.band).moved_by(spread, &INPUTS).measured_as(Kind::Length)
}

/// What there is too little of, or what is left over.
fn spare(missing: &str, left: &str, spread: &Spread<6>) -> Finding {
    if spread.band.low() < 0.0 {
        let minus = if spread.band.high() > 0.0 { "; with a minus, left over" } else { "" };
        turned(most([missing, minus].concat(), spread))
    } else {
        Finding { end: End::Low, ..most(left, spread) }
    }
}

/// The band of what an answer tells in these words.
fn told(answer: &Answer, what: &str) -> Option<Band> {
    answer.findings.iter().find(|finding| finding.what == what).map(|finding| finding.band)
}

/// The same counted the other way.
fn turned(finding: Finding) -> Finding {
    Finding { band: finding.band.map(|value| -value), ..finding }
}

/// Metres in words, away from zero.
fn up(metres: f64) -> String {
    let size = (10.0 * metres.abs() - 1e-6).ceil() / 10.0;
    decimal(if metres < 0.0 { -size } else { size }, 1) + " m"
}

/// Rope that hangs, and what it would have to be.
/// ```
/// use rigging_core::question::{Ask, Bottom, RopeEnd};
///
/// // What hangs is judged by the bottom: above moving water more than is needed is a danger as less is.
/// let rope = RopeEnd { bottom: Bottom::Moving, ..RopeEnd::default() };
/// assert!(rope.let_out_needed(&rope.answer()?).is_some_and(|end| end.bottom == Bottom::Moving));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct LetOut {
    /// For the end to be where it is wanted with someone on it, as declared, m.
    pub needed: Band,
    /// What hangs, as declared, m.
    pub there: f64,
    /// What is at the bottom: it says whether more of it is a danger too.
    pub bottom: Bottom,
    /// Whether it is let out, more or less of it; else a strand is as long as the rope makes it.
    pub released: bool,
}

impl RopeEnd {
    /// Whether a rope that ends too high hurts most; else one that ends too low.
    pub(super) fn adverse_is_short(&self) -> bool {
        self.bottom != Bottom::Moving
    }

    pub(super) fn surface(&self) -> &'static str {
        match self.bottom {
            Bottom::Stand => "the ground",
            Bottom::Still | Bottom::Moving => "the water",
            Bottom::NotSeen => "the bottom as estimated",
        }
    }

    /// Where an end is, told on the side of the bottom on which it hurts.
    fn height_of(&self, which: &str, spread: &Spread<6>, short: bool) -> Finding {
        let (low, high) = (spread.band.low(), spread.band.high());
        let minus = match (low < 0.0 && high > 0.0, short) {
            (false, _) => "",
            (true, true) => "; with a minus, below",
            (true, false) => "; with a minus, above",
        };
        let (side, finding) = match (short, low, high) {
            (true, _, 0.0..) => ("above", most("", spread)),
            (true, ..) => ("below", turned(Finding { end: End::Low, ..most("", spread) })),
            (false, ..=0.0, _) => ("below", turned(most("", spread))),
            (false, ..) => ("above", Finding { end: End::Low, ..most("", spread) }),
        };
        Finding { what: format!("{side} {}: {which}{minus}", self.surface()), ..finding }
    }

    pub(super) fn findings(&self, spreads: &Spreads) -> Vec<Finding> {
        let short = self.adverse_is_short();
        let end = &spreads.end;
        let mut findings = vec![self.height_of(ON_IT, end, short)];
        // The other danger, where it is one: too short above moving water, too long on what nobody has seen.
        let both = end.band.low() < 0.0 && end.band.high() > 0.0;
        if self.bottom == Bottom::Moving && end.band.high() > 0.0 || self.bottom == Bottom::NotSeen && both {
            findings.push(self.height_of(ON_IT, end, !short));
        }
        match self.hung {
            Hung::Releasable => {
                findings.extend([self.spare_at_station(&spreads.spare), most(RESERVE_NEEDED, &spreads.reserve)])
            }
            Hung::PullCord | Hung::Fixed | Hung::Doubled => findings.push(spare(
                PULLED_MISSING,
                "of the strand or cord to pull left in a hand at the bottom",
                &spreads.cord_spare,
            )),
        }
        if self.hung == Hung::PullCord {
            findings.push(most(CORD_NEEDED, &spreads.cord));
        }
        findings.push(self.let_out(&spreads.needed, self.hung));
        findings.push(most(self.hung.total_words(), &spreads.total));
        findings.push(self.height_of("the end of the rope, unloaded", &spreads.free_end, short));
        let [dry, wet] = &spreads.mass;
        findings.push(most("to carry, dry", dry).measured_as(Kind::Mass));
        if self.water != Water::Dry {
            findings.push(most("to carry, wet", wet).measured_as(Kind::Mass));
        }
        findings
    }

    /// Rope needed in all, as declared, in an answer to this question, m; none in an answer to another. Where more is
    /// let out than has to be, with that: it is missing at the station.
    /// ```
    /// use rigging_core::quantity::{Length, metre};
    /// use rigging_core::question::{Ask, RopeEnd};
    ///
    /// // The most of it is what the answer tells.
    /// let rope = RopeEnd::default();
    /// let answer = rope.answer()?;
    /// let told = answer.findings.iter().find(|finding| finding.what.starts_with("of rope needed"));
    /// assert!(told.is_some() && rope.needed(&answer).map(|needed| needed.high()) == told.map(|told| told.adverse()));
    /// // 10 m more let out than here, and 10 m more are needed.
    /// let out = |metres| RopeEnd { let_out: Length::new::<metre>(metres), rope: Length::new::<metre>(80.0), ..rope };
    /// let [more, most] = [out(30.0), out(40.0)].map(|rope| rope.answer().ok().and_then(|answer| rope.needed(&answer)));
    /// assert!(more.zip(most).is_some_and(|(more, most)| (most.high() - more.high() - 10.0).abs() < 1e-9));
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn needed(&self, answer: &Answer) -> Option<Band> {
        let total = told(answer, self.hung.total_words())?;
        let out = if self.hung.is_let_out() { (self.let_out + self.knots).value } else { 0.0 };
        let reserve = told(answer, RESERVE_NEEDED).unwrap_or(Band::exact(0.0));
        let at_station = reserve.map(|reserve| reserve + out);
        let more = |end: fn(&Band) -> f64| end(&total).max(end(&at_station));
        Some(Band::of(more(Band::low), more(Band::typical), more(Band::high)))
    }

    /// The same with rope enough for an answer, so that it tells what a rope that is too short would need.
    pub(crate) fn of_any_length(&self) -> RopeEnd {
        let long = Length::new::<metre>(300.0);
        RopeEnd { rope: long, second: if self.second.value > 0.0 { long } else { self.second }, ..*self }
    }

    /// Rope that each strand needs for its end to be where it is wanted, in an answer to this question.
    /// ```
    /// use rigging_core::question::{Ask, RopeEnd};
    ///
    /// // 24 m let out down 18 to 23 m, 3 m behind the lip: less than may be needed.
    /// let rope = RopeEnd::default();
    /// let end = rope.let_out_needed(&rope.answer()?).ok_or("told")?;
    /// assert!(end.there == 24.0 && end.needed.low() < 24.0 && end.needed.high() > 24.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn let_out_needed(&self, answer: &Answer) -> Option<LetOut> {
        let needed = told(answer, &self.let_out_words(self.hung))?;
        let released = self.hung.is_let_out();
        Some(LetOut { needed, there: self.strand(self.hung).max(0.0), bottom: self.bottom, released })
    }

    /// Pull cord needed, as declared, in an answer to this question, m; none where no cord is used.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Length, metre};
    /// use rigging_core::question::{Ask, Hung, RopeEnd, Water};
    ///
    /// // 3 m to the lip, 20 m down and 1 m for a hand at the bottom; without a cord none is needed.
    /// let height = Band::exact(Length::new::<metre>(20.0));
    /// let cord = RopeEnd { hung: Hung::PullCord, height, water: Water::Dry, ..RopeEnd::default() };
    /// assert_eq!(RopeEnd::cord_needed(&cord.answer()?), Some(Band::exact(24.0)));
    /// assert_eq!(RopeEnd::cord_needed(&RopeEnd::default().answer()?), None);
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn cord_needed(answer: &Answer) -> Option<Band> {
        told(answer, CORD_NEEDED)
    }

    /// What is missing of the strand or cord to pull for it to reach a hand at the bottom, in an answer to this question, m:
    /// below 0 it is left over; none where nothing is missing.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::{Length, metre};
    /// use rigging_core::question::{Ask, Hung, RopeEnd, Water};
    ///
    /// // A cord of 20 m where 3 m to the lip, 20 m down and 1 m for a hand are needed; 30 m miss nothing.
    /// let cord = |metres| {
    ///     let [height, cord] = [20.0, metres].map(Length::new::<metre>);
    ///     let height = Band::exact(height);
    ///     RopeEnd { hung: Hung::PullCord, height, cord, water: Water::Dry, ..RopeEnd::default() }.answer()
    /// };
    /// assert_eq!(RopeEnd::pulled_missing(&cord(20.0)?), Some(Band::exact(4.0)));
    /// assert_eq!(RopeEnd::pulled_missing(&cord(30.0)?), None);
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn pulled_missing(answer: &Answer) -> Option<Band> {
        answer.findings.iter().find(|finding| finding.what.starts_with(PULLED_MISSING)).map(|finding| finding.band)
    }

    fn spare_at_station(&self, spread: &Spread<6>) -> Finding {
        spare(
            "missing at the station, as declared, to let someone down who is stuck anywhere",
            "left at the station, as declared, beyond what lets someone down who is stuck anywhere",
            spread,
        )
    }

    /// Too much of it hurts where the end must not be too low.
    fn let_out(&self, spread: &Spread<6>, hung: Hung) -> Finding {
        let finding = most(self.let_out_words(hung), spread);
        if self.adverse_is_short() { finding } else { Finding { end: End::Low, ..finding } }
    }

    fn let_out_words(&self, hung: Hung) -> String {
        let which = if hung.is_let_out() { "to let out from the station" } else { "for each strand" };
        let but =
            if self.adverse_is_short() { "with less it may end too high" } else { "with more it may end too low" };
        format!("{which}, as declared, for the end to be where it is wanted with someone on it; {but}")
    }

    /// The lightest and the heaviest, and the other ways of rigging.
    pub(super) fn outcomes(&self) -> Result<Vec<Outcome>, OutOfDomain> {
        let short = self.adverse_is_short();
        let mut outcomes = Vec::new();
        let (body, kit) = (self.people.body, self.people.kit);
        for (who, body, kit) in [("lightest", body.low(), kit.low()), ("heaviest", body.high(), kit.high())] {
            let mut rope = *self;
            (rope.people.body, rope.people.kit) = (Band::exact(body), Band::exact(kit));
            let spreads = rope.spread(self.hung, Some(self.strand(self.hung)), &rope.people)?;
            outcomes.push(Outcome {
                case: format!("If the {who} hangs at the end"),
                findings: vec![
                    self.height_of("the end of the rope", &spreads.end, short),
                    most("lower than the same rope unloaded", &spreads.lowered),
                    self.let_out(&spreads.needed, self.hung),
                ],
            });
        }
        for hung in Hung::ALL.into_iter().filter(|hung| *hung != self.hung) {
            let strand = (!hung.is_let_out() && self.hangs(hung)).then(|| self.strand(hung));
            let spreads = self.spread(hung, strand, &self.people)?;
            let mut findings = vec![most(hung.total_words(), &spreads.total)];
            match hung {
                Hung::Releasable => findings.push(self.spare_at_station(&spreads.spare)),
                Hung::PullCord => findings.push(most(CORD_NEEDED, &spreads.cord)),
                Hung::Fixed | Hung::Doubled if strand.is_some() => {
                    findings.push(self.height_of(ON_IT, &spreads.end, short));
                }
                Hung::Fixed | Hung::Doubled => {}
            }
            let set = if hung == Hung::Releasable { ", with just what is needed let out" } else { "" };
            outcomes.push(Outcome { case: format!("Rigged otherwise: {}{set}", hung.words()), findings });
        }
        Ok(outcomes)
    }

    pub(super) fn remarks(&self, spreads: &Spreads) -> Result<Vec<String>, OutOfDomain> {
        let mut remarks = Vec::new();
        let why = match self.hung {
            Hung::Releasable => None,
            Hung::Fixed => Some("The knot at the station is loaded"),
            Hung::Doubled => Some("Both strands are loaded at the ring"),
            Hung::PullCord => Some("The block sits against the ring under load"),
        };
        let missing = spreads.spare.band.low();
        if let Some(why) = why {
            remarks.push(format!("Cannot be paid out: nothing to lower a stuck person with. {why}."));
        } else if missing < 0.0 {
            remarks.push(format!(
                "This rope may be {} too short at the station: someone stuck near the lip could be let down only part of the way.",
                up(-missing)
            ));
        }
        let (rope, second) = (self.rope.value, self.second.value);
        if self.hung == Hung::Doubled && second > 0.0 && rope != second {
            remarks.push(format!(
                "Two ropes of unlike length: one end hangs {} lower than the other. The numbers are of the {} one; whoever goes down on both is off the shorter one first.",
                up((rope - second).abs()),
                if self.adverse_is_short() { "shorter" } else { "longer" }
            ));
        }
        remarks.push(self.twice_the_drop(spreads)?);
        let teachings = "Contested: knot in the end or none. One teaching: a knot keeps anyone from running off the end above the ground. The other: in moving water a knot holds a person in the flow or under it, so the end stays free and is set to the level of the water.";
        remarks.push(format!(
            "{teachings} {}",
            match self.bottom {
                Bottom::Stand => "Here people land on the ground, where the first is heard most.",
                Bottom::Still => "Here people swim in still water: a rope that ends too high drops them into it, and teachers differ.",
                Bottom::Moving => "Here the water moves, where the second is heard most.",
                Bottom::NotSeen => "Here nobody has seen the bottom: neither can be chosen by it. Whoever goes first must be able to be let down, and to come back up.",
            }
        ));
        if self.bottom == Bottom::NotSeen {
            remarks
                .push("Nobody has seen the bottom: every number here is only as good as the estimated height.".into());
        }
        Ok(remarks)
    }

    /// What the rope needed comes from, beside twice the drop.
    fn twice_the_drop(&self, spreads: &Spreads) -> Result<String, OutOfDomain> {
        let point = &spreads.total.at_high;
        let case = self.case(self.hung, None, point)?;
        let [height, ..] = *point;
        let (strand, knots) = (up(case.needed), up(self.knots.value));
        let parts = match self.hung {
            Hung::Releasable => format!(
                "{strand} let out, {} at the station, {knots} in knots",
                up(case.total - case.needed - self.knots.value)
            ),
            Hung::Fixed | Hung::Doubled => {
                format!("two strands of {}, {knots} in knots", up(case.needed.max(case.cord)))
            }
            Hung::PullCord => {
                format!(
                    "{strand} let out, {knots} in knots; with {} of pull cord {}",
                    up(case.cord),
                    up(case.total + case.cord)
                )
            }
        };
        let total = case.total + if self.hung == Hung::PullCord { case.cord } else { 0.0 };
        let more = total - 2.0 * height;
        Ok(format!(
            "Rope needed at most: {parts}: {} times a drop of {}. The practice of twice the drop falls out of this; {}.",
            decimal(total / height, 2),
            up(height),
            if more > 0.0 {
                format!("set-back, shrinkage, knots and the last metre make it {} more", up(more))
            } else {
                format!("the end is wanted so far up that {} less do", up(-more))
            }
        ))
    }
}

impl Hung {
    fn total_words(self) -> &'static str {
        match self {
            Hung::Releasable => "of rope needed, as declared: let out, reserve and knots",
            Hung::Fixed => "of rope needed, as declared: both halves and the knots",
            Hung::Doubled => "of rope needed, as declared: both strands and the knots",
            Hung::PullCord => "of rope needed, as declared: let out and knots, without the cord",
        }
    }
}

pub(super) const CAUTIONS: [Caution; 5] = [
    Caution::new(
        Gravity::Danger,
        "A rope that ends above the ground",
        "Whoever does not see the end runs off it and falls.",
        "See or feel the end reach the bottom before anyone goes, let the first be held from above, and choose about a knot.",
    ),
    Caution::new(
        Gravity::Danger,
        "Hanging on the rope in moving water",
        "The flow holds whoever is still on the rope, over the head within moments; loops of rope too long hold an arm or a leg.",
        "Set the end to the level of the water for the one who hangs on it, and keep someone at the station ready to pay out.",
    ),
    Caution::new(
        Gravity::Danger,
        "Nothing left to pay out",
        "Someone stuck in the fall cannot be let down and may drown.",
        "Rig releasable with the whole reserve at the station, or have another rope ready there.",
    ),
    Caution::new(
        Gravity::Warning,
        "A height judged by eye",
        "From above, drops look shorter than they are, and pools rise and fall with the water.",
        "Enter a range that holds the worst, and watch the end from the side where you can.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 9] = [
    "strength of the anchor, the rope and its knots",
    "bouncing and braking, which lower the end by as much again or more",
    "friction at the lip, which takes stretch off the rope behind it",
    "one strand of a doubled rope that bears more than the other",
    "water that drags or lifts the rope, and water pressed out of it in a device",
    "more stretch of a rope that is wet, old or knotted than entered",
    "ledges and slopes on the way, which ask for more rope",
    "the mass of the pull cord, and what pulling the rope down asks for",
    "a spare rope, should this one be stuck or lost: as long as the longest drop still ahead",
];
