//! Daylight on the floor of a canyon, by the solar position algorithm of the crate `solar-positioning`.
//!
//! Times are of the clock, counted from midnight of the day; an event after the next midnight lies beyond 24 h.

use super::day::{Date, seconds};
use crate::band::Band;
use crate::quantity::{Angle, Time, degree};
use solar_positioning::{Location, SolarPosition, SolarPositions, time::JulianDate};
use std::fmt;

/// Where, when, and behind what rim.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::plan::{Date, Sky, daylight};
/// use rigging_core::quantity::{Angle, Time, degree, second};
///
/// // A clock an hour ahead shows an hour more.
/// let (latitude, longitude) = (Angle::new::<degree>(45.0), Angle::new::<degree>(0.0));
/// let (date, rim) = (Date { year: 2031, month: 6, day: 14 }, Band::exact(Angle::default()));
/// let sky = Sky { date, latitude, longitude, ahead_of_utc: Time::default(), rim };
/// let ahead = Sky { ahead_of_utc: Time::new::<second>(3600.0), ..sky };
/// assert!((daylight(&ahead)?.noon.value - daylight(&sky)?.noon.value - 3600.0).abs() < 1.0);
/// # Ok::<(), rigging_core::plan::NoLight>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sky {
    /// The day.
    pub date: Date,
    /// Latitude, north above 0.
    pub latitude: Angle,
    /// Longitude, east above 0.
    pub longitude: Angle,
    /// The clock is ahead of Universal Time by.
    pub ahead_of_utc: Time,
    /// Elevation of the rim above level, where the sun goes down.
    pub rim: Band<Angle>,
}

/// The sun of one day. An event that does not take place is `None`.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::plan::{Date, Sky, daylight};
/// use rigging_core::quantity::{Angle, Time, degree};
///
/// // In June the sun does not set beyond the polar circle. On the meridian of Greenwich it stands highest within 17
/// // minutes of twelve.
/// let (latitude, longitude) = (Angle::new::<degree>(80.0), Angle::new::<degree>(0.0));
/// let (date, rim) = (Date { year: 2031, month: 6, day: 21 }, Band::exact(Angle::default()));
/// let sun = daylight(&Sky { date, latitude, longitude, ahead_of_utc: Time::default(), rim })?;
/// assert_eq!((sun.sunrise, sun.sunset, sun.dusk), (None, None, None));
/// assert!((sun.noon.value / 60.0 - 720.0).abs() < 17.0);
/// # Ok::<(), rigging_core::plan::NoLight>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Daylight {
    /// The upper edge of the sun rises over a level horizon.
    pub sunrise: Option<Time>,
    /// The sun stands in the meridian.
    pub noon: Time,
    /// Whether its upper edge is above a level horizon then: where it neither rises nor sets, whether it stays up.
    pub up_at_noon: bool,
    /// The last direct sun leaves the floor, for the high end, the typical value and the low end of the rim's
    /// elevation, so from the earliest to the latest. None where it does not reach the floor in the afternoon.
    pub direct_sun_leaves: [Option<Time>; 3],
    /// The upper edge of the sun sets on a level horizon.
    pub sunset: Option<Time>,
    /// End of civil twilight: the centre of the sun 6° below level.
    pub dusk: Option<Time>,
}

/// No daylight can be worked out: the reason.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::plan::{Date, NoLight, Sky, daylight};
/// use rigging_core::quantity::{Angle, Time, degree};
///
/// // There is no place 91° north.
/// let (latitude, longitude) = (Angle::new::<degree>(91.0), Angle::new::<degree>(0.0));
/// let (date, rim) = (Date { year: 2031, month: 6, day: 21 }, Band::exact(Angle::default()));
/// assert_eq!(daylight(&Sky { date, latitude, longitude, ahead_of_utc: Time::default(), rim }), Err(NoLight));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoLight;

impl fmt::Display for NoLight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "no daylight can be worked out: latitude from -90° to 90°, longitude from -180° to 180°")
    }
}

impl std::error::Error for NoLight {}

/// Half of the sun's width, degrees.
const SEMI_DIAMETER: f64 = 0.266_6;

/// How far the air lifts what is seen at an elevation, degrees.
///
/// # References
/// Bennett, *The calculation of astronomical refraction in marine navigation*, Journal of Navigation 35 (1982)
/// 255–259 (from memory): `R = cot(h + 7.31/(h + 4.4))` minutes of arc, h in degrees.
fn refraction(elevation: f64) -> f64 {
    let angle = (elevation + 7.31 / (elevation + 4.4)).to_radians();
    1.0 / angle.tan() / 60.0
}

/// Elevation of the sun's centre, without air, when its upper edge touches a rim, degrees.
///
/// # Formula
/// `rim − 0.27° − refraction`
pub(super) fn touches(rim: Angle) -> Angle {
    let rim = rim.get::<degree>();
    Angle::new::<degree>(rim - SEMI_DIAMETER - refraction(rim))
}

/// The sun of a day.
///
/// # Errors
/// [`NoLight`] if the place is none on Earth.
/// # References
/// Reda & Andreas, *Solar position algorithm for solar radiation applications*, Solar Energy 76 (2004) 577–589,
/// as the crate has it; sunrise and sunset at −50′, civil twilight at −6°, as almanacs count them.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::plan::{Date, Sky, daylight};
/// use rigging_core::quantity::{Angle, Time, degree};
///
/// // Almanac for Computers 1990: on 25 June 1990 at 40.9° N, 74.3° W the sun rises at 09:26 Universal Time.
/// let (latitude, longitude) = (Angle::new::<degree>(40.9), Angle::new::<degree>(-74.3));
/// let date = Date { year: 1990, month: 6, day: 25 };
/// let sky = Sky { date, latitude, longitude, ahead_of_utc: Time::default(), rim: Band::exact(Angle::default()) };
/// let sunrise = daylight(&sky)?.sunrise.map(|time| time.value / 60.0);
/// assert!(sunrise.is_some_and(|minutes| (minutes - (9.0 * 60.0 + 26.0)).abs() < 1.0));
/// # Ok::<(), rigging_core::plan::NoLight>(())
/// ```
pub fn daylight(sky: &Sky) -> Result<Daylight, NoLight> {
    let (latitude, longitude) = (sky.latitude.get::<degree>(), sky.longitude.get::<degree>());
    let place = Location { latitude, longitude };
    let Date { year, month, day } = sky.date;
    let (year, month, day) = (i32::from(year), u32::from(month), u32::from(day));
    let none = |_| NoLight;
    let midnight = JulianDate::from_utc(year, month, day, 0, 0, 0.0, DELTA).map_err(none)?.julian_date()
        - sky.ahead_of_utc.value / DAY;
    let sun = |julian: f64| -> Result<SolarPosition, NoLight> {
        let time = JulianDate::new(julian, DELTA).map_err(none)?;
        SolarPositions::new().at_from_julian(time, place, 0.0, None).map_err(none)
    };
    // Before noon the sun is in the east. The mean noon of the place lies at most 17 minutes off it.
    let mean = 0.5 + sky.ahead_of_utc.value / DAY - longitude / 360.0;
    // Where the clock is a day away from the sun, it is still the noon of its own day.
    let mean = midnight + mean - mean.floor();
    let is_west = |julian: f64| Ok(sun(julian)?.azimuth() >= 180.0);
    let noon = turns(mean - OFF, mean + OFF, &is_west)?.unwrap_or(mean);
    let is_below = |elevation: f64| move |julian: f64| Ok(sun(julian)?.elevation_angle() < elevation);
    let clock = |julian: f64| seconds((julian - midnight) * DAY);
    let sets = |elevation: f64| Ok(turns(noon, noon + 0.5, &is_below(elevation))?.map(clock));
    let behind = |rim: Angle| sets(touches(rim).get::<degree>());
    let is_up = is_below(LEVEL);
    Ok(Daylight {
        sunrise: turns(noon - 0.5, noon, &|julian| Ok(!is_up(julian)?))?.map(clock),
        noon: clock(noon),
        up_at_noon: !is_up(noon)?,
        direct_sun_leaves: [behind(sky.rim.high())?, behind(sky.rim.typical())?, behind(sky.rim.low())?],
        sunset: sets(LEVEL)?,
        dusk: sets(TWILIGHT)?,
    })
}

/// How far the clock of the planets is ahead of that of the Earth in these decades, s. Half an hour more or less moves
/// sunset by seconds.
const DELTA: f64 = 70.0;

/// Where a condition that holds at the end and not at the beginning turns, to a tenth of a second; none if it does not.
///
/// The crate looks for events too, with 25 kB of the module.
fn turns(mut from: f64, mut to: f64, holds: &dyn Fn(f64) -> Result<bool, NoLight>) -> Result<Option<f64>, NoLight> {
    if holds(from)? || !holds(to)? {
        return Ok(None);
    }
    while to - from > 1e-6 {
        let middle = (from + to) / 2.0;
        if holds(middle)? {
            to = middle;
        } else {
            from = middle;
        }
    }
    Ok(Some(to))
}

/// Elevation of the sun's centre at sunrise and sunset, degrees.
const LEVEL: f64 = -50.0 / 60.0;

/// Elevation of the sun's centre at the end of civil twilight, degrees.
const TWILIGHT: f64 = -6.0;

/// More than noon ever lies off the mean noon, days.
const OFF: f64 = 0.02;

/// The seconds of a day.
pub(super) const DAY: f64 = 86_400.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn behind_a_level_rim_the_sun_goes_down_when_the_almanac_says() {
        let level = touches(Angle::new::<degree>(0.0)).get::<degree>();
        assert!((level + 50.0 / 60.0).abs() < 0.02, "{level}");
    }
}
