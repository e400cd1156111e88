//! Classes that flood services give to water by its depth and speed.
//!
//! They were made for floods over land. On the page they stand as words only, beside everything else: no class says
//! that a place in a canyon can be stood in.

use super::{OutOfDomain, finite, not_negative};
use crate::quantity::{Length, Ratio, Velocity, ratio};

/// Hazard class of a flood, from the least to the worst: flood hazard guideline FB03, New South Wales, 2023.
/// ```
/// use rigging_core::law::flood::{self, Class};
/// use rigging_core::quantity::{Length, Velocity, metre, metre_per_second};
///
/// // The worst of depth, speed and both decides, so classes have an order. FB03, 2023: 0.2 m at 2.5 m/s is H5.
/// let shallow = flood::class(Length::new::<metre>(0.2), Velocity::new::<metre_per_second>(2.5))?;
/// assert_eq!(shallow, Class::H5);
/// assert!(Class::H1 < shallow && shallow < Class::H6);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// The least of six.
    H1,
    /// Dangerous for small vehicles.
    H2,
    /// Dangerous for children, old people and vehicles.
    H3,
    /// Dangerous for all people and vehicles.
    H4,
    /// Dangerous for all people; ordinary buildings are damaged.
    H5,
    /// Dangerous for all people; no building is reckoned to stand.
    H6,
}

impl Class {
    /// The class in words.
    /// ```
    /// use rigging_core::law::flood::Class;
    ///
    /// // FB03, 2023: from H4 on the water is dangerous for all people.
    /// let for_all = |class: Class| class.words().contains("all people");
    /// assert!(!for_all(Class::H3) && for_all(Class::H4) && for_all(Class::H5) && for_all(Class::H6));
    /// ```
    pub const fn words(self) -> &'static str {
        match self {
            Class::H1 => "the least of six flood classes",
            Class::H2 => "dangerous for small vehicles",
            Class::H3 => "dangerous for children and old people",
            Class::H4 => "dangerous for all people",
            Class::H5 => "dangerous for all people, buildings damaged",
            Class::H6 => "dangerous for all people, buildings fail",
        }
    }
}

/// Hazard class of water by its depth and speed.
///
/// # Formula
/// The worst of three: depth × speed up to 0.3 m²/s H1, 0.6 H2, 1.0 H4, 4.0 H5, else H6; depth up to 0.3 m H1, 0.5 H2,
/// 1.2 H3, 2 H4, 4 H5, else H6; speed above 2 m/s H5, above 4 H6.
/// # Errors
/// [`OutOfDomain`] if depth or speed is negative or their product too large for a number.
/// # References
/// NSW Flood Risk Management Guideline FB03, 2023.
/// ```
/// use rigging_core::law::flood::{self, Class};
/// use rigging_core::quantity::{Length, Velocity, metre, metre_per_second};
///
/// // FB03, 2023: 0.8 m deep at 0.8 m/s.
/// let class = flood::class(Length::new::<metre>(0.8), Velocity::new::<metre_per_second>(0.8))?;
/// assert_eq!(class, Class::H4);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn class(depth: Length, speed: Velocity) -> Result<Class, OutOfDomain> {
    use Class::{H1, H2, H3, H4, H5, H6};
    let depth = not_negative("depth of the water", depth.value)?;
    let speed = not_negative("speed of the water", speed.value)?;
    let both = finite("depth times speed", depth * speed)?;
    let first =
        |value: f64, steps: &[(f64, Class)]| steps.iter().find(|step| value <= step.0).map_or(H6, |step| step.1);
    Ok(first(both, &[(0.3, H1), (0.6, H2), (1.0, H4), (4.0, H5)])
        .max(first(depth, &[(0.3, H1), (0.5, H2), (1.2, H3), (2.0, H4), (4.0, H5)]))
        .max(first(speed, &[(2.0, H1), (4.0, H5)])))
}

/// For whom a flood is dangerous, by its hazard rating: FD2320, flood risks to people, 2006.
/// ```
/// use rigging_core::law::flood::Danger;
/// use rigging_core::quantity::{Ratio, ratio};
///
/// // Four degrees, the least first; a rating that is no number is taken for the worst.
/// assert!(Danger::Low < Danger::Some && Danger::Some < Danger::Most && Danger::Most < Danger::All);
/// assert_eq!(Danger::of(Ratio::new::<ratio>(f64::NAN)), Danger::All);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Danger {
    /// Rating below 0.75.
    Low,
    /// Up to 1.25.
    Some,
    /// Up to 2.
    Most,
    /// Above 2.
    All,
}

impl Danger {
    /// The danger in words.
    /// ```
    /// use rigging_core::law::flood::Danger;
    ///
    /// // FD2320: above 2 there is danger for all, those who come to help among them; no degree is without hazard.
    /// assert!(Danger::All.words().contains("rescuers"));
    /// assert!(Danger::Low.words().contains("hazard"));
    /// ```
    pub const fn words(self) -> &'static str {
        match self {
            Danger::Low => "the least of four, still a hazard",
            Danger::Some => "danger for some: children, old people",
            Danger::Most => "danger for most people",
            Danger::All => "danger for all, rescuers too",
        }
    }

    /// The danger that a rating stands for; what is no number is taken for the worst.
    /// ```
    /// use rigging_core::law::flood::Danger;
    /// use rigging_core::quantity::{Ratio, ratio};
    ///
    /// // FD2320: 0.7 (2.0 + 0.5) + 0.5 = 2.25 is danger for all; at 2 it is still danger for most.
    /// assert_eq!(Danger::of(Ratio::new::<ratio>(2.25)), Danger::All);
    /// assert_eq!(Danger::of(Ratio::new::<ratio>(2.0)), Danger::Most);
    /// ```
    pub fn of(rating: Ratio) -> Self {
        match rating.value {
            rating if rating < 0.75 => Danger::Low,
            rating if rating <= 1.25 => Danger::Some,
            rating if rating <= 2.0 => Danger::Most,
            _ => Danger::All,
        }
    }
}

/// What floating debris adds to the hazard rating of a flood: the middle column, for woodland.
///
/// # Formula
/// 0 below 0.25 m of depth, 0.5 up to 0.75 m, 1 in deeper water or above 2 m/s.
/// # Errors
/// [`OutOfDomain`] if depth or speed is negative.
/// # References
/// Defra and Environment Agency, FD2320, 2006 (from memory).
/// ```
/// use rigging_core::law::flood;
/// use rigging_core::quantity::{Length, Velocity, metre, metre_per_second};
///
/// // Half of the factor at half a metre, all of it above 2 m/s, none where there is no water.
/// let half = Length::new::<metre>(0.5);
/// assert_eq!(flood::debris(half, Velocity::new::<metre_per_second>(1.0))?.value, 0.5);
/// assert_eq!(flood::debris(half, Velocity::new::<metre_per_second>(2.5))?.value, 1.0);
/// assert_eq!(flood::debris(Length::default(), Velocity::default())?.value, 0.0);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn debris(depth: Length, speed: Velocity) -> Result<Ratio, OutOfDomain> {
    let depth = not_negative("depth of the water", depth.value)?;
    let speed = not_negative("speed of the water", speed.value)?;
    let factor = match depth {
        _ if depth > 0.75 || speed > 2.0 => 1.0,
        _ if depth < 0.25 => 0.0,
        _ => 0.5,
    };
    Ok(Ratio::new::<ratio>(factor))
}

/// Hazard rating of a flood; what it stands for is [`Danger::of`] it.
///
/// # Formula
/// `HR = d (v + 0.5) + DF`: `d` ≥ 0 the depth (m), `v` ≥ 0 the speed (m/s), `DF` ≥ 0 for debris, see [`debris`].
/// # Errors
/// [`OutOfDomain`] outside these ranges or if HR is too large for a number.
/// # References
/// Defra and Environment Agency, FD2320, 2006.
/// ```
/// use rigging_core::law::flood;
/// use rigging_core::quantity::{Length, Velocity, metre, metre_per_second};
///
/// // FD2320: 0.7 m of water at 2 m/s, with debris: 0.7 (2 + 0.5) + 0.5 = 2.25.
/// let (deep, fast) = (Length::new::<metre>(0.7), Velocity::new::<metre_per_second>(2.0));
/// let rating = flood::hazard_rating(deep, fast, flood::debris(deep, fast)?)?;
/// assert!((rating.value - 2.25).abs() < 1e-12);
/// # Ok::<(), rigging_core::law::OutOfDomain>(())
/// ```
pub fn hazard_rating(depth: Length, speed: Velocity, debris: Ratio) -> Result<Ratio, OutOfDomain> {
    let depth = not_negative("depth of the water", depth.value)?;
    let speed = not_negative("speed of the water", speed.value)?;
    let debris = not_negative("debris factor", debris.value)?;
    finite("hazard rating", depth * (speed + 0.5) + debris).map(Ratio::new::<ratio>)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{metre, metre_per_second};

    fn water(depth: f64, speed: f64) -> (Length, Velocity) {
        (Length::new::<metre>(depth), Velocity::new::<metre_per_second>(speed))
    }

    #[test]
    fn dangers_and_debris_change_where_the_method_says() {
        // FD2320, 2006 (from memory).
        for (rating, danger) in [
            (0.0, Danger::Low),
            (0.749, Danger::Low),
            (0.75, Danger::Some),
            (1.25, Danger::Some),
            (1.251, Danger::Most),
            (2.0, Danger::Most),
            (2.001, Danger::All),
            (f64::NAN, Danger::All),
        ] {
            assert_eq!(Danger::of(Ratio::new::<ratio>(rating)), danger, "{rating}");
        }
        for (depth, speed, adds) in
            [(0.24, 2.0, 0.0), (0.25, 2.0, 0.5), (0.75, 2.0, 0.5), (0.76, 0.0, 1.0), (0.1, 2.01, 1.0), (0.0, 0.0, 0.0)]
        {
            let (deep, fast) = water(depth, speed);
            assert_eq!(debris(deep, fast).unwrap().value, adds, "{depth} m, {speed} m/s");
        }
    }

    #[test]
    fn classes_change_where_the_guideline_says() {
        // NSW FB03, 2023: just up to and just beyond each line, the two others far from theirs.
        for (depth, speed, expected) in [
            (0.3, 1.0, Class::H1),
            (0.301, 0.5, Class::H2),
            (0.5, 0.5, Class::H2),
            (0.501, 0.5, Class::H3),
            (1.2, 0.4, Class::H3),
            (1.21, 0.4, Class::H4),
            (2.0, 0.4, Class::H4),
            (2.01, 0.4, Class::H5),
            (4.0, 0.4, Class::H5),
            (4.01, 0.1, Class::H6),
            (0.25, 1.21, Class::H2),
            (0.3, 1.99, Class::H2),
            (0.4, 1.51, Class::H4),
            (0.5, 2.0, Class::H4),
            (0.6, 1.7, Class::H5),
            (0.1, 2.0, Class::H1),
            (0.1, 2.01, Class::H5),
            (0.1, 4.01, Class::H6),
            (1.5, 2.7, Class::H6),
        ] {
            let (depth_is, speed_is) = water(depth, speed);
            assert_eq!(class(depth_is, speed_is).unwrap(), expected, "{depth} {speed}");
        }
    }
}
