//! Daylight on the floor of a canyon, by the solar position algorithm of the crate `solar-positioning`.
//!
//! Times are of the clock, counted from midnight of the day; an event after the next midnight lies beyond 24 h.

use super::day::{Date, seconds};
use crate::band::Band;
use crate::quantity::{Angle, Time, degree};
use solar_positioning::{Horizon, Location, SolarEvents, delta_t, time::JulianDate};
use std::fmt;

/// Where, when, and behind what rim.
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
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Daylight {
    /// The upper edge of the sun rises over a level horizon.
    pub sunrise: Option<Time>,
    /// The sun stands in the meridian.
    pub noon: Time,
    /// The last direct sun leaves the floor, for the high end, the typical value and the low end of the rim's
    /// elevation, so from the earliest to the latest. None where it does not reach the floor in the afternoon.
    pub direct_sun_leaves: [Option<Time>; 3],
    /// The upper edge of the sun sets on a level horizon.
    pub sunset: Option<Time>,
    /// End of civil twilight: the centre of the sun 6° below level.
    pub dusk: Option<Time>,
}

/// No daylight can be worked out: the reason.
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
pub fn daylight(sky: &Sky) -> Result<Daylight, NoLight> {
    let (latitude, longitude) = (sky.latitude.get::<degree>(), sky.longitude.get::<degree>());
    let place = Location { latitude, longitude };
    let Date { year, month, day } = sky.date;
    let (year, month, day) = (i32::from(year), u32::from(month), u32::from(day));
    let none = |_| NoLight;
    let delta = delta_t::estimate_from_date(year, month).map_err(none)?;
    let midnight = JulianDate::from_utc(year, month, day, 0, 0, 0.0, delta).map_err(none)?.julian_date()
        - sky.ahead_of_utc.value / DAY;
    let sun = SolarEvents::new();
    let clock = |julian: f64| seconds((julian - midnight) * DAY);
    let noon = sun.next_transit_from_julian(midnight, midnight + 1.0, longitude, delta).map_err(none)?;
    // A day can miss its noon by the equation of time: the clock's is near enough.
    let noon = noon.unwrap_or(midnight + 0.5);
    let sets = |horizon| sun.next_set_from_julian(noon, noon + 0.5, place, delta, horizon).map_err(none);
    let behind = |rim: Angle| sets(Horizon::Custom(touches(rim).get::<degree>())).map(|event| event.map(clock));
    let rise = sun.next_rise_from_julian(noon - 0.5, noon, place, delta, Horizon::SunriseSunset).map_err(none)?;
    Ok(Daylight {
        sunrise: rise.map(clock),
        noon: clock(noon),
        direct_sun_leaves: [behind(sky.rim.high())?, behind(sky.rim.typical())?, behind(sky.rim.low())?],
        sunset: sets(Horizon::SunriseSunset)?.map(clock),
        dusk: sets(Horizon::CivilTwilight)?.map(clock),
    })
}

/// The seconds of a day.
const DAY: f64 = 86_400.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn behind_a_level_rim_the_sun_goes_down_when_the_almanac_says() {
        let level = touches(Angle::new::<degree>(0.0)).get::<degree>();
        assert!((level + 50.0 / 60.0).abs() < 0.02, "{level}");
    }
}
