//! The day: where and when, the water, and what everybody carries.

use super::record::{Record, Text, text};
use crate::band::Band;
use crate::quantity::{Angle, Kind, Length, Mass, Time, kilogram, second};
use crate::question::Whether;
use crate::question::field::{Field, choices, place, table};
use crate::working::Source;
use std::f64::consts::{FRAC_PI_2, PI};

/// A day of the calendar.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::plan::{Date, Sky, daylight};
/// use rigging_core::quantity::{Angle, Time, degree};
///
/// // In the north the sun sets later in June than in December.
/// let sunset = |month| {
///     let date = Date { year: 2031, month, day: 21 };
///     let (latitude, rim) = (Angle::new::<degree>(45.0), Band::exact(Angle::default()));
///     let sky = Sky { date, latitude, longitude: Angle::default(), ahead_of_utc: Time::default(), rim };
///     daylight(&sky).map(|sun| sun.sunset)
/// };
/// assert!(sunset(12)?.is_some() && sunset(6)? > sunset(12)?);
/// # Ok::<(), rigging_core::plan::NoLight>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Date {
    /// The year, 1900 to 2999.
    pub year: u16,
    /// The month, from 1.
    pub month: u8,
    /// The day of the month, from 1.
    pub day: u8,
}

impl Date {
    /// The day that a text like `2031-06-14` names, if there is such a day.
    /// ```
    /// use rigging_core::plan::Date;
    ///
    /// assert_eq!(Date::read("2031-06-14"), Some(Date { year: 2031, month: 6, day: 14 }));
    /// // Every fourth year has a 29th of February, but of the centuries only every fourth.
    /// assert!(Date::read("2032-02-29").is_some() && Date::read("2031-02-29").is_none());
    /// assert!(Date::read("2000-02-29").is_some() && Date::read("2100-02-29").is_none());
    /// ```
    pub fn read(text: &str) -> Option<Date> {
        let mut parts = text.split('-');
        let mut part = |digits: usize| {
            let part = parts.next()?;
            (part.len() == digits && part.bytes().all(|byte| byte.is_ascii_digit()))
                .then(|| part.parse::<u16>().ok())?
        };
        let (year, month, day) = (part(4)?, part(2)?, part(2)?);
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            4 | 6 | 9 | 11 => 30,
            2 if leap => 29,
            2 => 28,
            _ => 31,
        };
        let is_day = (1900..3000).contains(&year) && (1..=12).contains(&month) && (1..=days).contains(&day);
        (parts.next().is_none() && is_day).then_some(Date { year, month: month as u8, day: day as u8 })
    }
}

/// The water today beside that for which the drops were entered.
/// ```
/// use rigging_core::plan::{Day, Person, Plan, RopeSkill, WaterToday};
///
/// // Water that is higher than entered, or that nobody has seen, may make everything take longer.
/// let longer_for = |water| {
///     let group = vec![Person { rope: RopeSkill::Rigs, ..Person::default() }];
///     Plan { day: Day { water, ..Day::default() }, group, ..Plan::default() }.times().hard
/// };
/// assert_eq!(longer_for(WaterToday::AsEntered), None);
/// assert_eq!(longer_for(WaterToday::NotSeen), Some("water not seen yet"));
/// assert_eq!(longer_for(WaterToday::MuchHigher), Some("high water"));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum WaterToday {
    /// Nobody has seen it.
    #[default]
    NotSeen,
    /// As entered, or less.
    AsEntered,
    /// One step more, in the words of the questions.
    Higher,
    /// Two steps more.
    MuchHigher,
}
choices!(WaterToday {
    NotSeen = "not seen", "not seen yet";
    AsEntered = "as entered", "as entered, or less";
    Higher = "higher", "one step higher than entered";
    MuchHigher = "much higher", "two steps higher than entered";
});

impl WaterToday {
    /// How many steps it stands above the water for which the drops were entered.
    /// ```
    /// use rigging_core::plan::WaterToday;
    ///
    /// // Water that nobody has seen is counted as entered.
    /// assert_eq!(WaterToday::NotSeen.steps(), WaterToday::AsEntered.steps());
    /// assert_eq!((WaterToday::Higher.steps(), WaterToday::MuchHigher.steps()), (1, 2));
    /// ```
    pub fn steps(self) -> usize {
        match self {
            WaterToday::NotSeen | WaterToday::AsEntered => 0,
            WaterToday::Higher => 1,
            WaterToday::MuchHigher => 2,
        }
    }
}

/// How last light is known.
/// ```
/// use rigging_core::plan::{Day, LightBy, Plan};
/// use rigging_core::quantity::{Angle, Time, degree, second};
///
/// // 17:00 of the leader's own counts only if it is chosen. Near the equator the sun sets in March soon after 18:00; a
/// // latitude or longitude that is 0 was not entered.
/// let last_light = |light_by| {
///     let own_last_light = Time::new::<second>(17.0 * 3600.0);
///     let (date, latitude) = ("2031-03-20".to_owned(), Angle::new::<degree>(0.1));
///     let day = Day { light_by, own_last_light, date, latitude, longitude: latitude, ..Day::default() };
///     Plan { day, ..Plan::default() }.times().last_light.map(|time| time / 3600.0)
/// };
/// assert_eq!((last_light(LightBy::NotEntered), last_light(LightBy::Own)), (None, Some(17.0)));
/// assert!(last_light(LightBy::Place).is_some_and(|hours| hours > 18.0 && hours < 18.25));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
#[non_exhaustive]
pub enum LightBy {
    /// It is not.
    #[default]
    NotEntered,
    /// Worked out from date and place.
    Place,
    /// Entered as a time.
    Own,
}
choices!(LightBy {
    NotEntered = "not entered", "not entered";
    Place = "place and date", "worked out from place and date";
    Own = "own", "a time of my own";
});

/// What the day is about.
/// ```
/// use rigging_core::plan::{Day, LightBy, Row};
/// use rigging_core::question::Entry;
///
/// // 9 h after midnight are 32 400 s; a day that there is not is no date.
/// let mut day = Day::default();
/// assert_eq!((day.start.value, day.light_by), (32_400.0, LightBy::NotEntered));
/// day.say("date", "2031-06-14")?;
/// assert!(day.say("date", "2031-06-31").is_err() && day.date == "2031-06-14");
/// day.set("start_s", &Entry::One(7.5 * 3600.0))?;
/// assert_eq!(day.start.value, 27_000.0);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// Name of the descent.
    pub name: String,
    /// The planned date, like `2031-06-14`; empty if it was not entered.
    pub date: String,
    /// The mark by which the water is judged, and where it stood for these numbers.
    pub water_mark: String,
    /// The order in which the leader lets the group go down.
    pub order: String,
    /// Notes.
    pub notes: String,
    /// Whether all of it is made up, to show what a plan is.
    pub invented: Whether,
    /// The water today.
    pub water: WaterToday,
    /// How last light is known.
    pub light_by: LightBy,
    /// Latitude, north above 0.
    pub latitude: Angle,
    /// Longitude, east above 0.
    pub longitude: Angle,
    /// The clock is ahead of Universal Time by.
    pub ahead_of_utc: Time,
    /// Elevation of the canyon rim above level, seen from the floor where the sun goes down.
    pub rim: Band<Angle>,
    /// Last light of the leader's own, on the clock.
    pub own_last_light: Time,
    /// When the group sets off, on the clock.
    pub start: Time,
    /// Walk to the first drop.
    pub walk_in: Band<Time>,
    /// Walk from the last drop to where light is no longer needed.
    pub walk_out: Band<Time>,
    /// Kit that each carries.
    pub kit: Band<Mass>,
    /// Water in each suit.
    pub suit_water: Mass,
}

/// A clock time or a span, s.
pub(super) fn seconds(value: f64) -> Time {
    Time::new::<second>(value)
}

/// A range of times from minutes.
pub(super) fn minutes(low: f64, typical: f64, high: f64) -> Band<Time> {
    Band::of(low, typical, high).map(|minutes| seconds(60.0 * minutes))
}

/// Kit of each, from the least to the most, and water in each suit, kg, until somebody says otherwise.
const ASSUMED: [f64; 4] = [5.0, 10.0, 20.0, 5.0];

impl Default for Day {
    fn default() -> Self {
        let [least, typical, most, water] = ASSUMED;
        Day {
            name: String::new(),
            date: String::new(),
            water_mark: String::new(),
            order: String::new(),
            notes: String::new(),
            invented: Whether::No,
            water: WaterToday::NotSeen,
            light_by: LightBy::NotEntered,
            latitude: Angle::default(),
            longitude: Angle::default(),
            ahead_of_utc: Time::default(),
            rim: Band::exact(Angle::default()),
            own_last_light: seconds(18.0 * 3600.0),
            start: seconds(9.0 * 3600.0),
            walk_in: minutes(0.0, 0.0, 0.0),
            walk_out: minutes(0.0, 0.0, 0.0),
            kit: Band::of(least, typical, most).map(Mass::new::<kilogram>),
            suit_water: Mass::new::<kilogram>(water),
        }
    }
}

impl Day {
    /// Whether kit and water in the suit are others than those assumed.
    pub(super) fn carries(&self) -> [bool; 2] {
        let [least, typical, most, water] = ASSUMED;
        [self.kit.map(|kit| kit.value) != Band::of(least, typical, most), self.suit_water.value != water]
    }
}

/// The longest of a day, s.
const DAY: f64 = 86_400.0;

impl Record for Day {
    const NAME: &'static str = "day";

    fn texts() -> Vec<Text<Self>> {
        vec![
            text!(name, 80, "Name of the descent", "yours; nothing is looked up"),
            text!(date, 10, "Date", "year-month-day, like 2031-06-14", |date| {
                (!date.is_empty() && Date::read(date).is_none()).then_some("it is no day: write it like 2031-06-14")
            }),
            text!(water_mark, 200, "Mark of the water", "what you look at before the start, and where it stood"),
            text!(order, 400, "Order in which the group goes down", "the leader's choice"),
            text!(notes, 4000, "Notes", "ways out, where a phone has a signal, who waits at home"),
        ]
    }

    fn fields() -> Vec<Field<Self>> {
        table![
            Field::choice('i', "invented", Whether::CHOICES, place!(invented))
                .says("All of it is made up", "an example, to show what a plan is"),
            Field::choice('w', "water", WaterToday::CHOICES, place!(water))
                .says("Water today", "one step moves speed, depth and falling water of every drop one word up"),
            Field::choice('l', "light_by", LightBy::CHOICES, place!(light_by))
                .says("Last light", "by the sun, or a time you know"),
            Field::one('a', "latitude_rad", Kind::Angle, -FRAC_PI_2..=FRAC_PI_2, place!(latitude))
                .says("Latitude", "south below 0; 0 if not entered")
                .asked_if(|day| day.light_by == LightBy::Place),
            Field::one('o', "longitude_rad", Kind::Angle, -PI..=PI, place!(longitude))
                .says("Longitude", "west below 0; 0 if not entered")
                .asked_if(|day| day.light_by == LightBy::Place),
            Field::one('u', "ahead_of_utc_s", Kind::Time, -43_200.0..=50_400.0, place!(ahead_of_utc))
                .says("Clock ahead of Universal Time by", "summer time counted; behind it is below 0")
                .asked_if(|day| day.light_by == LightBy::Place),
            Field::range('e', "rim_rad", Kind::Angle, 0.0..=1.5, place!(rim))
                .says("Elevation of the rim", "above level, from the floor toward where the sun goes down")
                .asked_if(|day| day.light_by == LightBy::Place),
            Field::one('p', "own_last_light_s", Kind::Time, 0.0..=DAY, place!(own_last_light))
                .says("Last light", "on the clock, after midnight")
                .asked_if(|day| day.light_by == LightBy::Own),
            Field::one('s', "start_s", Kind::Time, 0.0..=DAY, place!(start))
                .says("Setting off", "on the clock, after midnight"),
            Field::range('j', "walk_in_s", Kind::Time, 0.0..=DAY, place!(walk_in))
                .says("Walk to the first drop", "with packs"),
            Field::range('x', "walk_out_s", Kind::Time, 0.0..=DAY, place!(walk_out))
                .says("Walk out after the last drop", "until light is no longer needed"),
            Field::range('k', "kit_kg", Kind::Mass, 0.0..=60.0, place!(kit))
                .says("Kit each person carries", "harness, helmet, suit, pack and rope")
                .from(Source::assumed("light kit to a full pack with rope")),
            Field::one('q', "suit_water_kg", Kind::Mass, 0.0..=30.0, place!(suit_water))
                .says("Water in the suit", "what a wet suit and boots hold; 0 for a dry descent")
                .from(Source::assumed("a wet suit and boots")),
        ]
    }
}

/// How fast the group is, from drop to drop. None of it was measured: each is assumed, and the leader's to change.
/// ```
/// use rigging_core::plan::{Pace, Row};
/// use rigging_core::question::Entry;
///
/// // Five minutes to rig a drop until the leader says how long this group takes; none of it was measured.
/// let mut pace = Pace::default();
/// assert_eq!(pace.rig.typical().value, 300.0);
/// pace.set("rig_s", &Entry::One(600.0))?;
/// assert_eq!(pace.rig.typical().value, 600.0);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Pace {
    /// Rigging a drop.
    pub rig: Band<Time>,
    /// Clipping in and being checked, each person.
    pub check: Band<Time>,
    /// Speed on the rope.
    pub speed: Band<crate::quantity::Velocity>,
    /// Getting off the rope on ground.
    pub off_ground: Band<Time>,
    /// Getting off the rope in water.
    pub off_water: Band<Time>,
    /// Signal to the next.
    pub signal: Band<Time>,
    /// Pulling the rope down.
    pub pull: Band<Time>,
    /// How many times as long it takes in high water or with a new group; where fewer than half are new to ropes, what
    /// each person takes grows by twice their share of it.
    pub hard: Band<crate::quantity::Ratio>,
    /// Share of the time that is left where a second rope is rigged ahead.
    pub second_rope: Band<crate::quantity::Ratio>,
    /// What stays in hand before last light.
    pub in_hand: Time,
}

impl Default for Pace {
    fn default() -> Self {
        let ratios = |low, typical, high| {
            Band::of(low, typical, high).map(crate::quantity::Ratio::new::<crate::quantity::ratio>)
        };
        let speed = crate::quantity::Velocity::new::<crate::quantity::metre_per_second>(0.3);
        Pace {
            rig: minutes(5.0, 5.0, 5.0),
            check: minutes(1.0, 2.0, 4.0),
            speed: Band::exact(speed),
            off_ground: minutes(0.5, 0.5, 1.0),
            off_water: minutes(0.5, 1.0, 3.0),
            signal: minutes(0.5, 1.0, 2.0),
            pull: minutes(3.0, 3.0, 3.0),
            hard: ratios(1.0, 1.5, 2.5),
            second_rope: ratios(0.5, 0.6, 0.8),
            in_hand: seconds(3600.0),
        }
    }
}

const OWN_CHOICE: Source = Source::assumed("no published minutes for each person are known");

impl Record for Pace {
    const NAME: &'static str = "pace";

    fn texts() -> Vec<Text<Self>> {
        Vec::new()
    }

    fn fields() -> Vec<Field<Self>> {
        const HOUR: f64 = 3600.0;
        let fields: Vec<Field<Self>> = table![
            Field::range('r', "rig_s", Kind::Time, 0.0..=HOUR, place!(rig))
                .says("Rigging a drop", "until the first can clip in"),
            Field::range('c', "check_s", Kind::Time, 0.0..=HOUR, place!(check))
                .says("Clip in and check", "each person"),
            Field::range('v', "speed_m_per_s", Kind::Speed, 0.02..=3.0, place!(speed))
                .says("Speed on the rope", "a calm abseil"),
            Field::range('g', "off_ground_s", Kind::Time, 0.0..=HOUR, place!(off_ground))
                .says("Off the rope on ground", "each person, until the rope is free"),
            Field::range('w', "off_water_s", Kind::Time, 0.0..=HOUR, place!(off_water))
                .says("Off the rope in water", "each person, swimming clear"),
            Field::range('s', "signal_s", Kind::Time, 0.0..=HOUR, place!(signal))
                .says("Signal", "to the next at the station"),
            Field::range('p', "pull_s", Kind::Time, 0.0..=HOUR, place!(pull))
                .says("Pulling the rope", "and packing it"),
            Field::range('h', "hard", Kind::Ratio, 1.0..=10.0, place!(hard)).says(
                "High water or a new group: times as long",
                "once, also where both hold; with water not seen it may be either",
            ),
            Field::range('o', "second_rope", Kind::Ratio, 0.3..=1.0, place!(second_rope))
                .says("Second rope rigged ahead: share of the time left", "only with two ropes and two who can rig",),
            Field::one('i', "in_hand_s", Kind::Time, 0.0..=6.0 * HOUR, place!(in_hand))
                .says("In hand before last light", "for what nobody planned"),
        ];
        fields.into_iter().map(|field| field.from(OWN_CHOICE)).collect()
    }
}

/// Whether a drop's height counts as entered.
pub(super) fn is_entered(height: &Band<Length>) -> bool {
    height.high().value >= 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_days_of_the_calendar_are_dates() {
        for (text, is) in [
            ("2031-06-14", true),
            ("2032-02-29", true),
            ("2031-02-29", false),
            ("2100-02-29", false),
            ("2000-02-29", true),
            ("2031-13-01", false),
            ("2031-00-10", false),
            ("2031-04-31", false),
            ("2031-4-30", false),
            ("2031-04-30-1", false),
            ("0999-04-30", false),
            ("+031-04-30", false),
            ("", false),
            ("tomorrow", false),
        ] {
            assert_eq!(Date::read(text).is_some(), is, "{text}");
        }
    }
}
