//! What gives, and what catches.

use super::super::field::choices;
use crate::band::Band;
use crate::working::Source;

/// What happens.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
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
    /// Stiffness EA in a fall, N, and how it is known; none if it is the user's own.
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
                Band::of(20e3, 30e3, 41e3),
                Source::assumed("used canyon rope; 41 is what EN 1891 allows in its test fall"),
            ),
            Catcher::LowStretch => (
                Band::of(19.6e3, 30e3, 49e3),
                Source::derived("EN 1891: at most 5 % from 50 to 150 kg; ropes declare 2 to 4 %"),
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
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
            TailMade::Nylon => (Band::of(40e3, 70e3, 110e3), Source::assumed("sewn nylon tape")),
            TailMade::Rope => {
                (Band::of(7.3e3, 24.1e3, 45.1e3), Source::derived("the limits of EN 892; knots soften it"))
            }
            TailMade::Cord => (Band::of(14e3, 20e3, 28e3), Source::assumed("cord of 7 mm")),
        }
    }
}

/// Where the device that slips is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
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
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
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
