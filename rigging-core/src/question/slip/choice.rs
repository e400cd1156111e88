//! What gives, and what catches.

use super::super::field::choices;
use crate::band::Band;
use crate::working::Source;

/// What happens.
/// ```
/// use rigging_core::question::{Ask, BadInput, Slip, SlipEvent};
///
/// // A rope that locks under one who goes down 2 m in a second, by hand: W + v √(m EA/L), the heaviest 92 + 20 + 5 kg
/// // on 8 m of the stiffest rope, 49 kN.
/// let peak = |event| -> Result<f64, BadInput> {
///     Ok(Slip { event, ..Slip::default() }.answer()?.findings[0].adverse())
/// };
/// let by_hand = 117.0 * 9.806_65 + 2.0 * (117.0 * 49e3 / 8.0_f64).sqrt();
/// assert!((peak(SlipEvent::Stopped)? - by_hand).abs() < 1e-6);
/// // A metre of slack pulls harder.
/// assert!(peak(SlipEvent::Slack)? > by_hand);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum SlipEvent {
    /// A fall until slack rope comes tight.
    #[default]
    Slack,
    /// A fall on a cow's tail that is clipped to the anchor.
    Tail,
    /// An anchor or a leg fails, and the point people hang on drops.
    Fails,
    /// A fall on a rope whose device slips at a force.
    Slips,
    /// A rope locks under someone who goes down it.
    Stopped,
    /// Someone off to the side swings under the anchor.
    Swing,
}
choices!(SlipEvent {
    Slack = "slack rope", "a fall until slack rope comes tight";
    Tail = "cow's tail", "a fall on a cow's tail";
    Fails = "anchor fails", "an anchor or a leg fails, the point drops";
    Slips = "device slips", "a fall on a device that slips at a force";
    Stopped = "stopped", "the rope locks under one who goes down";
    Swing = "swing", "a swing from the side (pendulum)";
});

impl SlipEvent {
    /// Whether the rope may run over an edge here.
    pub(super) fn has_edge(self) -> bool {
        matches!(self, SlipEvent::Slack | SlipEvent::Slips | SlipEvent::Stopped)
    }
}

/// The rope that catches.
/// ```
/// use rigging_core::question::{Ask, BadInput, Catcher, Slip};
///
/// // A dynamic rope catches more softly than one of low stretch, mostly, and harder once it is used or wet.
/// let peak = |catcher| -> Result<_, BadInput> { Ok(Slip { catcher, ..Slip::default() }.answer()?.findings[0].band) };
/// let (low, new, used) = (peak(Catcher::LowStretch)?, peak(Catcher::Dynamic)?, peak(Catcher::UsedDynamic)?);
/// assert!(new.typical() < low.typical() && new.high() < used.high());
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Catcher {
    /// Low-stretch rope as it comes out of canyons.
    #[default]
    Canyon,
    /// New low-stretch rope.
    LowStretch,
    /// New single dynamic rope.
    Dynamic,
    /// A dynamic rope that was used, or is wet.
    UsedDynamic,
    /// A stiffness of the user's own.
    Own,
}
choices!(Catcher {
    Canyon = "canyon", "canyon rope, used, wet or dry";
    LowStretch = "low-stretch", "low-stretch rope type A, new and dry";
    Dynamic = "dynamic", "dynamic single rope, new and dry";
    UsedDynamic = "used dynamic", "dynamic single rope, used or wet";
    Own = "own", "a stiffness of my own";
});

impl Catcher {
    /// Stiffness EA in a fall, N, and how it is known; none if it is the user's own. Low-stretch rope is stiffer the harder
    /// it catches: the high end is a little more than what made the forces that were measured at a fall factor of 1.
    /// ```
    /// use rigging_core::question::Catcher;
    ///
    /// // EN 1891: from 50 to 150 kg at most 5 % longer. 100 kg · g / 0.05 = 19.6 kN is the least a new rope may have.
    /// let low = Catcher::LowStretch.stiffness().map(|(stiffness, _)| stiffness.low());
    /// assert!(low.is_some_and(|least| (least - 100.0 * 9.806_65 / 0.05).abs() < 50.0));
    /// // Nothing is known beforehand of one's own.
    /// assert_eq!(Catcher::Own.stiffness(), None);
    /// ```
    pub fn stiffness(self) -> Option<(Band, Source)> {
        let dynamic = "EN 892: 10 % static elongation, 9 kN (declared) and at most 12 kN in the test fall";
        Some(match self {
            Catcher::Canyon => (
                Band::of(20e3, 30e3, 49e3),
                Source::assumed("used canyon rope; about 41 measured (10 kN at fall factor 1, 100 kg, old rope)"),
            ),
            Catcher::LowStretch => (
                Band::of(19.6e3, 30e3, 68e3),
                Source::derived(
                    "EN 1891: at most 5 % from 50 to 150 kg; about 61 measured (12 kN at fall factor 1, 100 kg)",
                ),
            ),
            Catcher::Dynamic => (Band::of(7.3e3, 24.1e3, 45.1e3), Source::derived(dynamic)),
            Catcher::UsedDynamic => (
                Band::of(7.3e3, 31e3, 59e3),
                Source::assumed("as new, but up to 1.3 times as stiff: wet and worn ropes catch harder"),
            ),
            Catcher::Own => return None,
        })
    }
}

/// What a cow's tail, or a leg, is made of.
/// ```
/// use rigging_core::question::{Ask, BadInput, Slip, SlipEvent, TailMade};
///
/// // A fall of its own length, by hand: W [1 + √(1 + 2 EA/W)], the heaviest 92 + 20 + 5 kg, HMPE 250 kN. Nylon gives
/// // more.
/// let on = |made| -> Result<f64, BadInput> {
///     Ok(Slip { event: SlipEvent::Tail, made, ..Slip::default() }.answer()?.findings[0].adverse())
/// };
/// let weight = 117.0 * 9.806_65_f64;
/// assert!((on(TailMade::Hmpe)? - weight * (1.0 + (1.0 + 2.0 * 250e3 / weight).sqrt())).abs() < 1e-6);
/// assert!(on(TailMade::Nylon)? < on(TailMade::Hmpe)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum TailMade {
    /// A sewn loop of HMPE tape.
    #[default]
    Hmpe,
    /// A sewn loop of nylon tape.
    Nylon,
    /// One strand of dynamic rope with its knots.
    Rope,
    /// One strand of 7 mm cord.
    Cord,
}
choices!(TailMade {
    Hmpe = "hmpe", "sewn HMPE sling";
    Nylon = "nylon", "sewn nylon tape";
    Rope = "dynamic rope", "dynamic rope, one strand";
    Cord = "cord", "cord of 7 mm, one strand";
});

impl TailMade {
    pub(super) const ALL: [TailMade; 4] = [TailMade::Hmpe, TailMade::Nylon, TailMade::Rope, TailMade::Cord];

    /// Stiffness EA, N, and how it is known.
    /// ```
    /// use rigging_core::question::{Catcher, TailMade};
    ///
    /// // A cow's tail of dynamic rope is as stiff as a dynamic rope.
    /// let rope = Catcher::Dynamic.stiffness().map(|(stiffness, _)| stiffness);
    /// assert_eq!(Some(TailMade::Rope.stiffness().0), rope);
    /// ```
    pub fn stiffness(self) -> (Band, Source) {
        match self {
            TailMade::Hmpe => {
                (Band::of(130e3, 160e3, 250e3), Source::derived("one published drop test of HMPE slings"))
            }
            TailMade::Nylon => {
                (Band::of(40e3, 70e3, 150e3), Source::assumed("sewn tape: over 15 kN measured in a fall of factor 1"))
            }
            TailMade::Rope => {
                (Band::of(7.3e3, 24.1e3, 45.1e3), Source::derived("the limits of EN 892; knots soften it"))
            }
            TailMade::Cord => (Band::of(14e3, 20e3, 28e3), Source::assumed("cord of 7 mm")),
        }
    }
}

/// Where the device that slips is.
/// ```
/// use rigging_core::question::{Ask, BadInput, Slip, SlipEvent, SlipsAt};
///
/// // A device that slips at 4.5 kN at the most: on the person it gives them no more. At the anchor the edge between
/// // helps it hold, and they get more.
/// let on_them = |slipping| -> Result<f64, BadInput> {
///     let slip = Slip { event: SlipEvent::Slips, slipping, ..Slip::default() };
///     Ok(slip.answer()?.findings[2].adverse())
/// };
/// assert!((on_them(SlipsAt::Person)? - 4500.0).abs() < 1e-6);
/// assert!(on_them(SlipsAt::Anchor)? > 4500.0);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum SlipsAt {
    /// On the person who falls.
    #[default]
    Person,
    /// At the anchor.
    Anchor,
}
choices!(SlipsAt {
    Person = "person", "on the person";
    Anchor = "anchor", "at the anchor";
});

/// What is in the way of a swing.
/// ```
/// use rigging_core::question::{Ask, InTheWay, Slip, SlipEvent};
///
/// // From 3 m out to a wall plumb below the anchor, or on to 3 m on the other side.
/// let across = |obstacle| {
///     let found = Slip { event: SlipEvent::Swing, obstacle, ..Slip::default() }.answer().ok()?.findings;
///     found.iter().find(|finding| finding.what.starts_with("across to")).map(|finding| finding.band.low())
/// };
/// assert_eq!((across(InTheWay::Wall), across(InTheWay::None)), (Some(3.0), Some(6.0)));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum InTheWay {
    /// A wall or a corner that the person meets.
    #[default]
    Wall,
    /// Nothing.
    None,
}
choices!(InTheWay {
    Wall = "wall", "a wall or a corner";
    None = "none", "nothing";
});
