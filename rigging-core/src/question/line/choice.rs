//! What the line lets one choose from, and an anchor between its ends.

use super::super::field::choices;
use crate::quantity::{Length, Ratio};

/// How the line is set.
/// ```
/// use rigging_core::question::{Ask, Line, Setting};
///
/// // Set by its sag, a tenth of 8 m, the person hangs so far below the straight line; lower on a line pulled straight
/// // to 500 N, lowest on one left 2 % longer.
/// let below = |setting| {
///     let found = Line { setting, ..Line::default() }.answer().ok()?.findings;
///     let sag = found.iter().find(|finding| finding.what == "below the straight line, hanging still")?;
///     Some(sag.band.typical())
/// };
/// assert!(below(Setting::Sag).is_some_and(|sag| (sag - 0.8).abs() < 1e-6));
/// assert!(below(Setting::Sag) < below(Setting::PreTension) && below(Setting::PreTension) < below(Setting::Slack));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Setting {
    /// By the sag it shows with the person hanging on it.
    #[default]
    Sag,
    /// Pulled straight to a tension before anyone is on it.
    PreTension,
    /// Longer than the straight distance.
    Slack,
}
choices!(Setting {
    Sag = "sag", "by its sag with the person on it";
    PreTension = "pre-tension", "pulled straight to a tension beforehand";
    Slack = "slack", "left longer than the straight distance";
});

/// How the line meets an intermediate anchor.
/// ```
/// use rigging_core::question::{Ask, BadInput, Line, Meets};
///
/// // A line that runs through an anchor brings the rope of the other bay along: a slip is caught more softly.
/// let slip = |meets| -> Result<f64, BadInput> {
///     let line = Line { intermediates: 1, meets, ..Line::default() };
///     Ok(line.answer()?.findings[0].adverse())
/// };
/// assert!(slip(Meets::Runs)? < slip(Meets::Tied)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Meets {
    /// Tied: each bay is a line of its own.
    #[default]
    Tied,
    /// It runs through without friction.
    Runs,
}
choices!(Meets {
    Tied = "tied", "tied to each";
    Runs = "runs", "runs through them";
});

/// How the person is on the line.
/// ```
/// use rigging_core::question::{Ask, Line, OnLine};
///
/// // Held at the middle of 8 m the person stays about there; running freely they end more than a metre nearer to the
/// // near anchor, which is lower.
/// let along = |held| {
///     let found = Line { held, ..Line::default() }.answer().ok()?.findings;
///     let along = found.iter().find(|finding| finding.what.starts_with("along from the near anchor"))?;
///     Some(along.band.typical())
/// };
/// assert!(along(OnLine::Clipped).is_some_and(|along| (along - 4.0).abs() < 0.1));
/// assert!(along(OnLine::Running).is_some_and(|along| along < 3.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum OnLine {
    /// Tied to the line at a place.
    #[default]
    Clipped,
    /// Runs along it to its lowest place.
    Running,
}
choices!(OnLine {
    Clipped = "clipped", "held at this place of the line";
    Running = "running", "runs freely: slides to the lowest place";
});

/// Which way the load pulls.
/// ```
/// use rigging_core::question::{Ask, Line, Way};
///
/// // 0.8 m of sag and 0.6 m of cow's tail: who leans out ends 1.4 m out. Who hangs ends some 1.15 m below the near
/// // anchor, since the straight line is 0.25 m above it there.
/// let ends = |way, words: &str| {
///     let found = Line { way, ..Line::default() }.answer().ok()?.findings;
///     found.iter().find(|finding| finding.what.starts_with(words)).map(|finding| finding.band.typical())
/// };
/// let out = ends(Way::Sideways, "out from the near anchor");
/// let below = ends(Way::Down, "below the near anchor's level");
/// assert!(out.is_some_and(|out| (out - 1.4).abs() < 1e-6) && below.is_some_and(|below| (below - 1.15).abs() < 0.01));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum Way {
    /// Plumb.
    #[default]
    Down,
    /// Level, square to the line.
    Sideways,
}
choices!(Way {
    Down = "down", "hanging: down";
    Sideways = "sideways", "leaning out: level, square to the line";
});

/// An anchor between the ends.
/// ```
/// use rigging_core::quantity::{Length, metre};
/// use rigging_core::question::{Ask, BadInput, Between, Line};
///
/// // An anchor a metre above the straight line is drawn down by both parts of the rope: it gets more than one on it.
/// let on_it = |above| -> Result<f64, BadInput> {
///     let line = Line { intermediates: 1, ..Line::default() };
///     let first = Between { above: Length::new::<metre>(above), ..line.first };
///     let outcomes = Line { first, ..line }.answer()?.outcomes;
///     Ok(outcomes[0].findings[0].adverse())
/// };
/// assert!(on_it(1.0)? > on_it(0.0)?);
/// # Ok::<(), BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Between {
    /// Its place, as a share of the span from the near anchor.
    pub at: Ratio,
    /// Its height above the straight line of the ends.
    pub above: Length,
}
