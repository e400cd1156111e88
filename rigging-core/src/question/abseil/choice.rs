//! What the abseil lets one choose from.

use super::super::answer::{ChosenLimit, Comparison};
use super::super::field::choices;
use crate::band::Band;
use crate::law::descender::Descender;
use crate::limit::Standing;
use crate::quantity::{VolumeRate, litre_per_second};
use crate::working::Source;

choices!(Descender {
    FigureEight = "figure-eight", "figure-eight descender";
    RescueEight = "rescue eight", "rescue eight";
    BarRack = "bar rack", "rack of brake bars";
    ItalianHitch = "italian hitch", "italian (munter) hitch";
    Tube = "tube", "tube or plate";
    CarabinerBrake = "carabiner brake", "brake of crossed carabiners";
});

/// What brakes below the device.
/// ```
/// use rigging_core::question::{Abseil, Ask, BadInput, Tail};
///
/// // The hand counts on a tail that surely hangs; whether the lightest moves is asked of one that may hang.
/// let told = |tail, what: &str| {
///     let findings = Abseil { tail, ..Abseil::default() }.answer()?.findings;
///     Ok::<_, BadInput>(findings.iter().any(|finding| finding.what.starts_with(what)))
/// };
/// let (hand, start) = ("for the brake hand at the start", "ratio for the lightest to start");
/// assert!(told(Tail::Free, hand)? && told(Tail::Free, start)?);
/// assert!(!told(Tail::Floating, hand)? && told(Tail::Floating, start)?);
/// assert!(!told(Tail::Carried, hand)? && !told(Tail::Carried, start)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Tail {
    /// The rope hangs free below the person.
    #[default]
    Free,
    /// It is carried in a bag, or lies on a ledge or on the ground.
    Carried,
    /// It hangs down to the water and floats there.
    Floating,
    /// It hangs in the falling water.
    InFall,
}
choices!(Tail {
    Free = "free", "hangs free to the bottom";
    Carried = "carried", "is in a bag, or lies on a ledge";
    Floating = "floating", "floats on the water at the bottom";
    InFall = "in the fall", "hangs in the falling water";
});

impl Tail {
    /// Whether its weight surely brakes: what a hand may count on.
    pub(super) fn surely_hangs(self) -> bool {
        matches!(self, Tail::Free | Tail::InFall)
    }

    /// Whether its weight may brake. What floats may still hang from the lip down to the water.
    pub(super) fn may_hang(self) -> bool {
        self != Tail::Carried
    }
}

/// How much water falls, as it looks.
/// ```
/// use rigging_core::question::{Abseil, Ask, BadInput, FallingWater};
///
/// // By hand: 100 kg of a full pipe in a second, all of it after a fall of 12 m, press 100 √(2 · 9.80665 · 12) N.
/// let pressed = |water| {
///     let findings = Abseil { water, ..Abseil::default() }.answer()?.findings;
///     let pressed = findings.iter().find(|finding| finding.what.starts_with("pressed on the person"));
///     Ok::<_, BadInput>(pressed.map_or(0.0, |finding| finding.adverse()))
/// };
/// assert!((pressed(FallingWater::FullPipe)? - 1534.1).abs() < 0.1);
/// // 2 kg of a trickle press a fiftieth of that, no water nothing.
/// assert!((pressed(FallingWater::Trickle)? - 1534.1 / 50.0).abs() < 0.01);
/// assert_eq!(pressed(FallingWater::None)?, 0.0);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum FallingWater {
    /// None where the person and the rope are.
    #[default]
    None,
    /// A trickle.
    Trickle,
    /// As a strong shower.
    Shower,
    /// As out of a full pipe.
    FullPipe,
}
choices!(FallingWater {
    None = "none", "none on person and rope";
    Trickle = "trickle", "a trickle: up to 2 l/s";
    Shower = "shower", "a shower: 5 to 10 l/s";
    FullPipe = "full pipe", "a full pipe: 30 to 100 l/s";
});

impl FallingWater {
    /// The flow.
    /// ```
    /// use rigging_core::quantity::litre_per_second;
    /// use rigging_core::question::FallingWater;
    ///
    /// // A shower: 5 to 10 litres in a second, as its words say.
    /// let shower = FallingWater::Shower.flow();
    /// assert!((shower.high().get::<litre_per_second>() - 10.0).abs() < 1e-9);
    /// assert!(FallingWater::Shower.words().contains("5 to 10 l/s"));
    /// ```
    pub fn flow(self) -> Band<VolumeRate> {
        let litres = match self {
            FallingWater::None => Band::exact(0.0),
            FallingWater::Trickle => Band::of(0.0, 1.0, 2.0),
            FallingWater::Shower => Band::of(5.0, 7.5, 10.0),
            FallingWater::FullPipe => Band::of(30.0, 65.0, 100.0),
        };
        litres.map(VolumeRate::new::<litre_per_second>)
    }
}

/// The hand that brakes.
/// ```
/// use rigging_core::question::{Abseil, Ask, HandState};
///
/// // The heaviest needs 117 · 9.80665 / 4.2 N. One tired hand may hold 50 N of that, two 80 N.
/// for (hand, weakest) in [(HandState::Tired, 50.0), (HandState::BothTired, 80.0)] {
///     let findings = Abseil { hand, ..Abseil::default() }.answer()?.findings;
///     let missing = findings.iter().find(|finding| finding.what.starts_with("times as much friction"));
///     let missing = missing.map_or(1.0, |finding| finding.adverse());
///     assert!((missing - 117.0 * 9.806_65 / 4.2 / weakest).abs() < 1e-9);
/// }
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum HandState {
    /// One dry, rested hand.
    Rested,
    /// One wet, cold or tired hand.
    #[default]
    Tired,
    /// Two wet, cold or tired hands.
    BothTired,
}
choices!(HandState {
    Rested = "rested", "one gloved hand, dry and rested";
    Tired = "tired", "one hand, wet, cold or tired";
    BothTired = "both tired", "two hands, wet, cold or tired";
});

impl HandState {
    /// What the hand can hold, N, and how it is known.
    /// ```
    /// use rigging_core::question::HandState;
    ///
    /// // Two tired hands hold 1.6 times as much as one (assumed).
    /// let (one, two) = (HandState::Tired.holds().0, HandState::BothTired.holds().0);
    /// assert!((two.low() - 1.6 * one.low()).abs() < 1e-9 && (two.high() - 1.6 * one.high()).abs() < 1e-9);
    /// ```
    pub fn holds(self) -> (Band, Source) {
        match self {
            HandState::Rested => (
                Band::of(50.0, 200.0, 400.0),
                Source::published("50 to 400 N over a thousand grip trials, one gloved hand"),
            ),
            HandState::Tired => (Band::of(50.0, 100.0, 150.0), Source::assumed("wet, cold or tired")),
            HandState::BothTired => (Band::of(80.0, 160.0, 240.0), Source::assumed("1.6 times one tired hand")),
        }
    }

    /// How what it has to hold (N) stands against what it can: never below it.
    pub(in crate::question) fn compare(self, what: String, needed: Band) -> Comparison {
        let (holds, source) = self.holds();
        let part = self.words().to_owned();
        let limit = ChosenLimit { band: holds, figure: holds.low(), factor: 1.0, part, source };
        let standing = Standing::of(needed, holds).of_unknown_part("a hand is a person, not a rated part");
        Comparison { what, load: needed, limit: Some(limit), standing }
    }
}

/// Yes or no.
/// ```
/// use rigging_core::question::{Abseil, Ask, BadInput, FallingWater, Whether};
///
/// // No rope stays dry where water falls.
/// let where_water_falls = |wet| Abseil { wet, water: FallingWater::Trickle, ..Abseil::default() }.answer();
/// assert!(where_water_falls(Whether::Yes).is_ok());
/// assert!(matches!(where_water_falls(Whether::No), Err(BadInput::Refused { .. })));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Whether {
    /// Yes.
    Yes,
    /// No.
    No,
}
choices!(Whether { Yes = "yes", "yes"; No = "no", "no"; });

/// How many strands run through the device.
/// ```
/// use rigging_core::question::{Abseil, Ask, Strands};
///
/// // For the brake hand: a second strand brakes up to 1.3 times as much, at the adverse end no more (assumed).
/// let hand = |strands| Abseil { strands, ..Abseil::default() }.answer().map(|answer| answer.findings[0].band);
/// let (one, two) = (hand(Strands::One)?, hand(Strands::Two)?);
/// assert!((one.low() / two.low() - 1.3).abs() < 1e-9 && (one.high() - two.high()).abs() < 1e-9);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Strands {
    /// One.
    One,
    /// Two, side by side.
    Two,
}
choices!(Strands { One = "one", "one strand"; Two = "two", "two strands"; });

/// Whether the rope can be let out from the station while someone hangs on it, and through what.
/// ```
/// use rigging_core::question::{Abseil, Ask, Release};
///
/// // For each newton of the hand at the station an italian hitch holds at least twice what a tube holds, 8 and 4 (from
/// // memory): the hand on the tube needs twice as much. Tied off, nobody is lowered.
/// let lowered = |release| Abseil { release, ..Abseil::default() }.answer().map(|answer| {
///     let case = answer.outcomes.into_iter().find(|outcome| outcome.case.starts_with("If they are lowered"));
///     case.map(|outcome| outcome.findings[0].adverse())
/// });
/// let hitch = lowered(Release::ItalianHitch)?.ok_or("not told")?;
/// let tube = lowered(Release::Tube)?.ok_or("not told")?;
/// assert!((tube / hitch - 2.0).abs() < 1e-9);
/// assert_eq!(lowered(Release::Fixed)?, None);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Release {
    /// It is tied off.
    #[default]
    Fixed,
    /// On an italian hitch.
    ItalianHitch,
    /// On a figure-eight descender.
    FigureEight,
    /// On a rescue eight.
    RescueEight,
    /// On a tube or plate.
    Tube,
}
choices!(Release {
    Fixed = "fixed", "tied off: it cannot be let out";
    ItalianHitch = "italian hitch", "let out on an italian (munter) hitch";
    FigureEight = "figure-eight", "let out on a figure-eight descender";
    RescueEight = "rescue eight", "let out on a rescue eight";
    Tube = "tube", "let out on a tube or plate";
});

impl Release {
    /// The device at the station, if there is one.
    /// ```
    /// use rigging_core::law::descender::Descender;
    /// use rigging_core::question::Release;
    ///
    /// // What is tied off cannot be let out.
    /// assert_eq!(Release::Fixed.device(), None);
    /// assert_eq!(Release::FigureEight.device(), Some(Descender::FigureEight));
    /// ```
    pub fn device(self) -> Option<Descender> {
        match self {
            Release::Fixed => None,
            Release::ItalianHitch => Some(Descender::ItalianHitch),
            Release::FigureEight => Some(Descender::FigureEight),
            Release::RescueEight => Some(Descender::RescueEight),
            Release::Tube => Some(Descender::Tube),
        }
    }
}

/// What catches someone whose hand lets go.
/// ```
/// use rigging_core::question::{Abseil, Ask, BackUp, BadInput};
///
/// // What catches a person in falling water can also hold them there.
/// let can_drown = |back_up| {
///     let remarks = Abseil { back_up, ..Abseil::default() }.answer()?.remarks;
///     Ok::<_, BadInput>(remarks.iter().any(|remark| remark.contains("can drown")))
/// };
/// assert!(can_drown(BackUp::Below)? && can_drown(BackUp::TopRope)? && can_drown(BackUp::FrictionHitch)?);
/// assert!(!can_drown(BackUp::None)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum BackUp {
    /// Nothing.
    #[default]
    None,
    /// A person at the foot pulls the rope.
    Below,
    /// A rope of its own, held from above.
    TopRope,
    /// A hitch that grips the rope.
    FrictionHitch,
}
choices!(BackUp {
    None = "none", "none";
    Below = "below", "a person below pulls the rope (bottom brake)";
    TopRope = "top rope", "a second rope held from above";
    FrictionHitch = "friction hitch", "a friction hitch on the rope";
});

impl BackUp {
    /// What it does, above all in flow.
    pub(super) fn remark(self) -> &'static str {
        match self {
            BackUp::None => "No back-up: once the hand lets go, nothing but the friction of the device slows the fall.",
            BackUp::Below => {
                "The pull from below stops a person only while somebody watches, stands clear of stones and the pool, and has the rope in hand. In falling water a firm pull holds the person under it and can drown them: let go there at once."
            }
            BackUp::TopRope => {
                "The second rope also holds when device or hand fail, but its anchor gets the catch, and somebody has to pay it out all the way. Held tight in falling water it holds a person under it and can drown them: it must be possible to let it out under load, and the water may be louder than any call."
            }
            BackUp::FrictionHitch => {
                "A friction hitch grips when the hand lets go of it, and a startled hand may not let go. In falling water it holds a person under the fall until they loosen it, which under load they may not manage: they can drown."
            }
        }
    }
}
