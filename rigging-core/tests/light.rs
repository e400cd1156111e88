//! Daylight against almanacs: sunrise, sunset and civil twilight of the US Naval Observatory, to the minute.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a check that cannot go on has failed")]

use rigging_core::band::Band;
use rigging_core::plan::{Date, Daylight, Sky, daylight};
use rigging_core::quantity::{Angle, Time, degree, second};

fn sun(date: &str, latitude: f64, longitude: f64, ahead_h: f64, rim: f64) -> Daylight {
    let degrees = Angle::new::<degree>;
    daylight(&Sky {
        date: Date::read(date).unwrap(),
        latitude: degrees(latitude),
        longitude: degrees(longitude),
        ahead_of_utc: Time::new::<second>(3600.0 * ahead_h),
        rim: Band::exact(degrees(rim)),
    })
    .unwrap()
}

/// A printed time is rounded to the minute: half a minute, and 10 s for what two programs differ by.
fn near(found: Option<Time>, printed: &str) {
    let (hours, minutes) = printed.split_at(2);
    let expected = 60.0 * (60.0 * hours.parse::<f64>().unwrap() + minutes.parse::<f64>().unwrap());
    let found = found.unwrap().value;
    assert!((found - expected).abs() <= 40.0, "{printed}: {} s off", found - expected);
}

#[test]
fn sunrise_of_the_check_values() {
    // Row L1: 25 June 1990, 40.9 N 74.3 W, sunrise 09:26 UT to 1 min; Almanac for Computers 1990, US Naval Observatory.
    let rise = sun("1990-06-25", 40.9, -74.3, 0.0, 0.0).sunrise.unwrap().value;
    // The clock of Greenwich: the sun rises in the morning of the same day.
    assert!((rise - 60.0 * (9.0 * 60.0 + 26.0)).abs() <= 60.0, "{rise}");
}

#[test]
fn sunrise_and_sunset_are_those_printed_for_a_year() {
    // US Naval Observatory, Rise and Set for the Sun for 2023, W112 31, N36 57, zone 7 h west: the 1st and 15th of
    // each month; as printed in a public test file that quotes the table.
    let printed = [
        ("01-01", "0743", "1724"),
        ("01-15", "0742", "1737"),
        ("02-01", "0733", "1755"),
        ("02-15", "0719", "1810"),
        ("03-01", "0701", "1824"),
        ("03-15", "0641", "1837"),
        ("04-01", "0616", "1852"),
        ("04-15", "0556", "1905"),
        ("05-01", "0536", "1919"),
        ("05-15", "0522", "1931"),
        ("06-01", "0512", "1944"),
        ("06-15", "0510", "1951"),
        ("07-01", "0514", "1954"),
        ("07-15", "0522", "1949"),
        ("08-01", "0535", "1937"),
        ("08-15", "0547", "1922"),
        ("09-01", "0601", "1859"),
        ("09-15", "0612", "1838"),
        ("10-01", "0625", "1814"),
        ("10-15", "0638", "1754"),
        ("11-01", "0654", "1733"),
        ("11-15", "0708", "1721"),
        ("12-01", "0724", "1714"),
        ("12-15", "0736", "1715"),
        ("12-31", "0743", "1723"),
    ];
    for (day, rise, set) in printed {
        let sun = sun(&format!("2023-{day}"), 36.0 + 57.0 / 60.0, -(112.0 + 31.0 / 60.0), -7.0, 0.0);
        near(sun.sunrise, rise);
        near(sun.sunset, set);
    }
}

#[test]
fn summer_time_and_another_place_are_as_printed() {
    // US Naval Observatory, 2001, W079 25, N43 40, zone 4 h west; as printed in a public test file that quotes it.
    for (day, rise, set) in [("04-01", "0659", "1945"), ("04-15", "0635", "2001"), ("04-30", "0611", "2019")] {
        let sun = sun(&format!("2001-{day}"), 43.0 + 40.0 / 60.0, -(79.0 + 25.0 / 60.0), -4.0, 0.0);
        near(sun.sunrise, rise);
        near(sun.sunset, set);
    }
}

#[test]
fn south_of_the_equator_and_the_end_of_twilight_are_as_printed() {
    // US Naval Observatory, S36 50, E174 48: sunset of 2020 and end of civil twilight of 2023, Universal Time; as
    // printed in the test data of the crate that is used, which keeps the tables as they came.
    for (day, set) in [("01-05", "0744"), ("03-15", "0640"), ("05-15", "0522")] {
        near(sun(&format!("2020-{day}"), -36.833_333, 174.8, 0.0, 0.0).sunset, set);
    }
    for (day, dusk) in [("01-05", "0814"), ("02-15", "0745"), ("03-15", "0707")] {
        near(sun(&format!("2023-{day}"), -36.833_333, 174.8, 0.0, 0.0).dusk, dusk);
    }
    // N78 13, E15 38 in 2020: the sun does not set on 15 May, and does not rise on 15 January.
    let (day, night) =
        (sun("2020-05-15", 78.216_667, 15.633_333, 1.0, 0.0), sun("2020-01-15", 78.216_667, 15.633_333, 1.0, 0.0));
    assert!(day.sunset.is_none() && night.sunset.is_none() && night.sunrise.is_none());
}

#[test]
fn a_higher_rim_takes_the_sun_earlier_and_a_level_one_as_the_almanac_says() {
    let at = |rim| sun("2023-07-01", 36.95, -112.52, -7.0, rim);
    let level = at(0.0);
    let apart = level.sunset.unwrap().value - level.direct_sun_leaves.first().unwrap().unwrap().value;
    assert!(apart.abs() < 10.0, "{apart}");
    let mut last = f64::INFINITY;
    for rim in [0.0, 10.0, 30.0, 50.0, 70.0] {
        let leaves = at(rim).direct_sun_leaves.first().unwrap().unwrap().value;
        assert!(leaves < last, "{rim}");
        last = leaves;
    }
    assert!(last > at(0.0).noon.value);
    // In winter the sun stands at most 90° − 36.95° − 23.4° = 29.6° high there.
    let winter = |rim| sun("2023-12-21", 36.95, -112.52, -7.0, rim).direct_sun_leaves.first().copied().unwrap();
    assert!(winter(29.0).is_some() && winter(31.0).is_none());
}

#[test]
fn nowhere_has_no_daylight_and_the_poles_are_no_panic() {
    let sky = |latitude: f64, longitude: f64| Sky {
        date: Date::read("2031-06-21").unwrap(),
        latitude: Angle::new::<degree>(latitude),
        longitude: Angle::new::<degree>(longitude),
        ahead_of_utc: Time::new::<second>(0.0),
        rim: Band::exact(Angle::new::<degree>(85.0)),
    };
    for (latitude, longitude) in [(91.0, 0.0), (0.0, 181.0), (f64::NAN, 0.0), (0.0, f64::INFINITY)] {
        assert!(daylight(&sky(latitude, longitude)).is_err(), "{latitude} {longitude}");
    }
    for latitude in [90.0, -90.0, 0.0] {
        daylight(&sky(latitude, 180.0)).unwrap();
    }
}

#[test]
fn noon_lies_in_the_day_of_the_clock_even_beside_the_date_line() {
    for (longitude, ahead) in [(-175.0, 13.0), (175.0, -12.0), (0.0, 0.0), (179.0, 12.0)] {
        let noon = sun("2031-06-14", 45.0, longitude, ahead, 0.0).noon.value;
        assert!((11.0 * 3600.0..13.5 * 3600.0).contains(&noon), "{longitude}, {ahead}: {noon} s");
    }
}
