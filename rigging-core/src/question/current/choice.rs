//! What a leader sees of a current and chooses from, and what that is in numbers.

use super::super::Over;
use super::super::field::choices;
use crate::band::Band;
use crate::working::Source;

/// Which of the four tools. They are never mixed.
/// ```
/// use rigging_core::question::{Entry, Question};
///
/// // Who slides along a line is not asked how deep they wade, and who wades slides on nothing.
/// let mut current = Question::named("in the current")?;
/// let asks = |current: &Question, name: &str| {
///     current.fields().iter().any(|field| field.about.name == name && field.matters)
/// };
/// assert_eq!((asks(&current, "depth"), asks(&current, "slides_on")), (false, true));
/// current.set("tool", &Entry::Choice("hand-line"))?;
/// assert_eq!((asks(&current, "depth"), asks(&current, "slides_on")), (true, false));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Tool {
    /// A loose line that waders hold in their hands.
    HandLine,
    /// A line slanted to the current, along which people slide.
    #[default]
    Diagonal,
    /// A line from upstream that ends on the person.
    Tether,
    /// A line thrown to a swimmer.
    ThrowLine,
}
choices!(Tool {
    HandLine = "hand-line", "a loose hand-line to wade along";
    Diagonal = "diagonal", "a slanted line, to slide along";
    Tether = "tether", "a tether from upstream, on the person";
    ThrowLine = "throw line", "a throw line to a swimmer";
});

/// How the speed of the water is known.
/// ```
/// use rigging_core::question::{Ask, BadInput, InTheCurrent, SpeedBy};
///
/// // 10 m in 7 s, 30 % faster at the most: 1.86 m/s. By its look, at walking pace, at most 1.8 m/s.
/// let fastest = |speed_by| {
///     let findings = InTheCurrent { speed_by, ..InTheCurrent::default() }.answer()?.findings;
///     let speed = findings.iter().find(|finding| finding.what.starts_with("speed of the water"));
///     Ok::<_, BadInput>(speed.map_or(0.0, |finding| finding.adverse()))
/// };
/// assert!((fastest(SpeedBy::Float)? - 1.3 * 10.0 / 7.0).abs() < 1e-9);
/// assert_eq!(fastest(SpeedBy::Look)?, 1.8);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum SpeedBy {
    /// By how fast one would have to go beside it.
    #[default]
    Look,
    /// By a stick or a bag that floats a measured way.
    Float,
}
choices!(SpeedBy { Look = "look", "by its look"; Float = "float", "by timing what floats"; });

/// How fast the water goes, beside someone on the bank.
/// ```
/// use rigging_core::question::{Ask, BadInput, Flow, InTheCurrent, Tool};
///
/// // The drag grows with the square of the speed: at most 1.8 m/s at walking pace, 3.1 m/s at jogging pace.
/// let pushed = |flow| {
///     let findings = InTheCurrent { tool: Tool::HandLine, flow, ..InTheCurrent::default() }.answer()?.findings;
///     let drag = findings.iter().find(|finding| finding.what.starts_with("drag on one who stands"));
///     Ok::<_, BadInput>(drag.map_or(0.0, |finding| finding.adverse()))
/// };
/// assert!((pushed(Flow::Jog)? / pushed(Flow::Walk)? - (3.1_f64 / 1.8).powi(2)).abs() < 1e-9);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Flow {
    /// It hardly moves.
    AlmostStill,
    /// A stroll.
    Stroll,
    /// Walking pace.
    #[default]
    Walk,
    /// Jogging pace.
    Jog,
    /// Running pace.
    Run,
    /// Nobody keeps up.
    Faster,
}
choices!(Flow {
    AlmostStill = "almost still", "almost still";
    Stroll = "stroll", "a slow stroll keeps up with it";
    Walk = "walk", "walking pace";
    Jog = "jog", "jogging pace";
    Run = "run", "running pace";
    Faster = "faster", "faster than anybody runs";
});

impl Flow {
    /// Speed, m/s.
    /// ```
    /// use rigging_core::question::Flow;
    ///
    /// // 5 km/h, as people walk, are 1.39 m/s.
    /// let walk = Flow::Walk.speed();
    /// assert!(walk.low() < 5.0 / 3.6 && 5.0 / 3.6 < walk.high());
    /// ```
    pub fn speed(self) -> Band {
        match self {
            Flow::AlmostStill => Band::of(0.05, 0.15, 0.3),
            Flow::Stroll => Band::of(0.3, 0.6, 1.0),
            Flow::Walk => Band::of(1.0, 1.4, 1.8),
            Flow::Jog => Band::of(1.8, 2.4, 3.1),
            Flow::Run => Band::of(2.8, 4.0, 5.2),
            Flow::Faster => Band::of(5.0, 6.5, 8.5),
        }
    }

    /// What a speed (m/s) becomes where the water is one word faster: each word becomes the next, what lies between two
    /// words lies between what they become, and beyond the words it grows as much as the last of them did.
    pub(crate) fn one_word_faster(speed: f64) -> f64 {
        use Flow::{AlmostStill, Faster, Jog, Run, Stroll, Walk};
        let (mut from, mut to) = (0.0, 0.0);
        for [word, next] in [[AlmostStill, Stroll], [Stroll, Walk], [Walk, Jog], [Jog, Run], [Run, Faster]] {
            let [word, next] = [word, next].map(|flow| flow.speed().typical());
            if speed <= word {
                return to + (next - to) * (speed - from) / (word - from);
            }
            (from, to) = (word, next);
        }
        speed * to / from
    }
}

/// What lies downstream. There is no default that helps.
/// ```
/// use rigging_core::question::{Ask, BadInput, Downstream, InTheCurrent, Tool};
///
/// // Of a tether it is told how much water is left before a lip; of what nobody has seen, only to go and look.
/// let tether = |downstream| InTheCurrent { tool: Tool::Tether, downstream, ..InTheCurrent::default() }.answer();
/// let (lip, not_seen) = (tether(Downstream::Lip)?, tether(Downstream::NotSeen)?);
/// assert_eq!(lip.findings[0].what, "of water left between the feet and the lip");
/// assert!(not_seen.findings.iter().all(|finding| !finding.what.contains("of water left")));
/// assert!(not_seen.remarks.iter().any(|remark| remark.contains("go and look")));
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Downstream {
    /// A slow, shallow pool with nothing in it.
    FlatRunOut,
    /// Boulders.
    Boulders,
    /// A log, branches or wire that water runs through.
    Strainer,
    /// Water that runs under rock.
    Undercut,
    /// The lip of a drop.
    #[default]
    Lip,
    /// Nobody looked.
    NotSeen,
}
choices!(Downstream {
    FlatRunOut = "flat run-out", "a flat run-out, slow and shallow";
    Boulders = "boulders", "boulders";
    Strainer = "strainer", "a log or branches that water runs through";
    Undercut = "undercut", "an undercut or a siphon";
    Lip = "lip", "the lip of a drop";
    NotSeen = "not seen", "not seen yet";
});

impl Downstream {
    /// What it is called in a sentence.
    /// ```
    /// use rigging_core::question::Downstream;
    ///
    /// assert_eq!(format!("{} is 25 m below", Downstream::Lip.name()), "the lip is 25 m below");
    /// ```
    pub fn name(self) -> &'static str {
        match self {
            Downstream::FlatRunOut => "a flat run-out",
            Downstream::Boulders => "the boulders",
            Downstream::Strainer => "the strainer",
            Downstream::Undercut => "the undercut",
            Downstream::Lip => "the lip",
            Downstream::NotSeen => "what nobody has seen yet",
        }
    }

    /// Whether it is a thing at a place.
    /// ```
    /// use rigging_core::question::Downstream;
    ///
    /// // A lip is somewhere; a run-out goes on, and what nobody has seen is nowhere yet.
    /// assert!(Downstream::Lip.has_place() && !Downstream::FlatRunOut.has_place() && !Downstream::NotSeen.has_place());
    /// ```
    pub fn has_place(self) -> bool {
        !matches!(self, Downstream::FlatRunOut | Downstream::NotSeen)
    }
}

/// How deep a wader stands.
/// ```
/// use rigging_core::question::{Ask, BadInput, Depth, InTheCurrent, Tool};
///
/// // In deeper water the speed at which people fell is lower.
/// let fell = |depth| {
///     let outcomes = InTheCurrent { tool: Tool::HandLine, depth, ..InTheCurrent::default() }.answer()?.outcomes;
///     Ok::<_, BadInput>((outcomes[0].case.clone(), outcomes[0].findings[0].adverse()))
/// };
/// let ((case, at_knee), (_, at_chest)) = (fell(Depth::Knee)?, fell(Depth::Chest)?);
/// assert!(case.contains("water to the knee") && at_chest < at_knee);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Depth {
    /// To the knee.
    Knee,
    /// To the middle of the thigh.
    #[default]
    MidThigh,
    /// To the waist.
    Waist,
    /// To the chest.
    Chest,
}
choices!(Depth {
    Knee = "knee", "knee";
    MidThigh = "mid-thigh", "middle of the thigh";
    Waist = "waist", "waist";
    Chest = "chest", "chest";
});

impl Depth {
    /// Share of the height that is under water (assumed).
    /// ```
    /// use rigging_core::question::Depth;
    ///
    /// // To the waist of someone 1.75 m tall: about a metre.
    /// assert!((Depth::Waist.of_height().typical() * 1.75 - 1.0).abs() < 0.01);
    /// ```
    pub fn of_height(self) -> Band {
        match self {
            Depth::Knee => Band::of(0.26, 0.285, 0.31),
            Depth::MidThigh => Band::of(0.36, 0.40, 0.44),
            Depth::Waist => Band::of(0.54, 0.57, 0.62),
            Depth::Chest => Band::of(0.70, 0.74, 0.78),
        }
    }

    /// Area that faces the current, m² (assumed).
    /// ```
    /// use rigging_core::question::Depth;
    ///
    /// // The deeper, the more.
    /// let areas = [Depth::Knee, Depth::MidThigh, Depth::Waist, Depth::Chest].map(Depth::area);
    /// assert!(areas.is_sorted() && areas[0] > 0.0);
    /// ```
    pub fn area(self) -> f64 {
        match self {
            Depth::Knee => 0.11,
            Depth::MidThigh => 0.20,
            Depth::Waist => 0.29,
            Depth::Chest => 0.45,
        }
    }
}

/// What a wader stands on.
/// ```
/// use rigging_core::question::{Ask, BadInput, Bed, Depth, InTheCurrent, Tool};
///
/// // In water to the knee the first of the published limits is 2 m/s on gravel, in one figure; boulders leave half.
/// let limit = |bed| {
///     let wading = InTheCurrent { tool: Tool::HandLine, depth: Depth::Knee, bed, ..InTheCurrent::default() };
///     Ok::<_, BadInput>(wading.answer()?.outcomes[0].findings[0].adverse())
/// };
/// assert_eq!((limit(Bed::Gravel)?, limit(Bed::Boulders)?), (2.0, 1.0));
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Bed {
    /// Clean rock.
    CleanRock,
    /// Rock with slime.
    #[default]
    SlimyRock,
    /// Gravel.
    Gravel,
    /// Boulders.
    Boulders,
}
choices!(Bed {
    CleanRock = "clean rock", "clean rock";
    SlimyRock = "slimy rock", "slimy rock";
    Gravel = "gravel", "gravel";
    Boulders = "boulders", "boulders";
});

impl Bed {
    /// Friction of soles on it (from memory).
    /// ```
    /// use rigging_core::question::Bed;
    ///
    /// // Slime costs the soles more than half of what clean rock gives, typically.
    /// assert!(Bed::SlimyRock.friction().typical() < 0.5 * Bed::CleanRock.friction().typical());
    /// ```
    pub fn friction(self) -> Band {
        match self {
            Bed::CleanRock => Band::of(0.4, 0.55, 0.7),
            Bed::SlimyRock | Bed::Boulders => Band::of(0.10, 0.20, 0.30),
            Bed::Gravel => Band::of(0.4, 0.5, 0.6),
        }
    }

    /// Share of the published products of depth and speed that is left on it (assumed).
    /// ```
    /// use rigging_core::question::Bed;
    ///
    /// // Boulders halve what an even bed leaves.
    /// assert_eq!(Bed::Boulders.left() / Bed::Gravel.left(), 0.5);
    /// ```
    pub fn left(self) -> f64 {
        if self == Bed::Boulders { 0.5 } else { 1.0 }
    }
}

/// What the line ends on.
/// ```
/// use rigging_core::limit::Standing;
/// use rigging_core::question::{Ask, EndsOn, InTheCurrent};
///
/// // Beside the pull stands what a person holds for minutes; more than that is told, less never is.
/// let on_people = InTheCurrent { ends_on: EndsOn::People, ..InTheCurrent::default() }.answer()?;
/// let compared = &on_people.comparisons[0];
/// assert!(compared.limit.as_ref().is_some_and(|limit| limit.part.contains("one person holds for minutes")));
/// assert!(on_people.comparisons.iter().all(|compared| compared.standing != Standing::BelowLimit));
/// // No limit is chosen yet for anchors.
/// let on_anchors = InTheCurrent { ends_on: EndsOn::Anchors, ..InTheCurrent::default() }.answer()?;
/// assert_eq!(on_anchors.comparisons[0].limit, None);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum EndsOn {
    /// Anchors.
    #[default]
    Anchors,
    /// People, one at an end.
    People,
}
choices!(EndsOn { Anchors = "anchors", "anchors"; People = "people", "people, one at an end"; });

/// What a person slides on.
/// ```
/// use rigging_core::question::{Over, SlidesOn};
///
/// // A line on it is a wet rope over the same thing.
/// assert_eq!(SlidesOn::Connector.friction(), Over::Connector.friction(true));
/// assert_eq!(SlidesOn::Pulley.friction(), Over::BallBearing.friction(true));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum SlidesOn {
    /// A connector.
    #[default]
    Connector,
    /// A pulley.
    Pulley,
}
choices!(SlidesOn { Connector = "connector", "a connector"; Pulley = "pulley", "a pulley with a ball bearing"; });

impl SlidesOn {
    /// Friction of a wet line on it, and how it is known.
    /// ```
    /// use rigging_core::question::SlidesOn;
    ///
    /// // One slides on along a straight tight line while tan γ < 1/μ: at the most friction of a wet connector,
    /// // 1.3 · 0.29, below 69.3°, on a pulley still at 87°.
    /// let below = |slides_on: SlidesOn| (1.0 / slides_on.friction().0.high()).atan().to_degrees();
    /// assert!((below(SlidesOn::Connector) - 69.3).abs() < 0.1);
    /// assert!(below(SlidesOn::Pulley) > 87.0);
    /// ```
    pub fn friction(self) -> (Band, Source) {
        match self {
            SlidesOn::Connector => Over::Connector.friction(true),
            SlidesOn::Pulley => Over::BallBearing.friction(true),
        }
    }
}

/// How a body lies or stands in the current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Posture {
    /// Swimming across it.
    Broadside,
    /// Swimming along it.
    InLine,
    /// Standing so deep.
    Standing(Depth),
}

impl Posture {
    /// Area that faces the current, m² (assumed).
    pub fn area(self) -> f64 {
        match self {
            Posture::Broadside => 0.65,
            Posture::InLine => 0.12,
            Posture::Standing(depth) => depth.area(),
        }
    }
}
