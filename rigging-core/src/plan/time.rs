//! How long the day takes, and what light is left.

use super::day::{Date, LightBy, WaterToday, is_entered};
use super::light::{self, DAY, Daylight, Sky};
use super::shared::takes_a_line;
use super::{DropAnchor, Plan, PlannedDrop, group};
use crate::band::Band;
use crate::quantity::Time;
use crate::question::{Bottom, Hung, PullDown, Question};
use std::f64::consts::TAU;

/// The times of one drop, s.
/// ```
/// use rigging_core::plan::{Day, LightBy, Person, Plan, PlannedDrop, RopeSkill, WaterToday};
/// use rigging_core::quantity::{Time, second};
///
/// // Last light at 18:00, an hour in hand: the rest of the day has to begin so much earlier as it takes.
/// let day = Day { water: WaterToday::AsEntered, light_by: LightBy::Own, ..Day::default() };
/// let day = Day { own_last_light: Time::new::<second>(18.0 * 3600.0), ..day };
/// let group = vec![Person { rope: RopeSkill::Rigs, ..Person::default() }];
/// let times = Plan { day, group, drops: vec![PlannedDrop::default()], ..Plan::default() }.times();
/// let drop = &times.drops[0];
/// assert_eq!(drop.not_after.map(|[slow, _]| slow + drop.spent.high()), Some(17.0 * 3600.0));
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct DropTime {
    /// Spent there by the whole group, from rigging to the pulled rope; nothing is saved by a second rope yet.
    pub spent: Band,
    /// On the clock, when the group comes to it.
    pub reached: Band,
    /// On the clock, the latest at which it may be reached so that the rest leaves what is kept in hand before last
    /// light: at the slow end of the rest, and at its typical value. None if no last light is known.
    pub not_after: Option<[f64; 2]>,
}

/// A moment of the fading day.
/// ```
/// use rigging_core::plan::{Day, Fades, LightBy, Plan};
/// use rigging_core::quantity::{Time, second};
///
/// // Who sets off at nine runs past a last light at eight.
/// let light = Time::new::<second>(8.0 * 3600.0);
/// let day = Day { light_by: LightBy::Own, own_last_light: light, ..Day::default() };
/// assert_eq!(Plan { day, ..Plan::default() }.times().past, [(Fades::LastLight, light.value)]);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fades {
    /// The sun does not come up that day: from the start on.
    Dark,
    /// The last direct sun leaves the floor.
    DirectSun,
    /// The sun sets, or the leader's own last light.
    LastLight,
    /// End of civil twilight.
    Dusk,
}

/// The times of the day, s on the clock.
/// ```
/// use rigging_core::plan::{Plan, PlannedDrop};
///
/// // Without a last light nothing runs past it, and nothing is told of a latest start; one rope rigs nothing ahead.
/// let times = Plan { drops: vec![PlannedDrop::default()], ..Plan::default() }.times();
/// assert_eq!((times.last_light, times.start_by, times.past.len()), (None, None, 0));
/// assert!(times.second_rope.is_err());
/// // The day ends when all drops are done, for there is no walk out.
/// assert_eq!(times.out.typical(), times.drops[0].reached.typical() + times.descent.typical());
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Times {
    /// The drops in their order.
    pub drops: Vec<DropTime>,
    /// All of the drops, a second rope counted, from the first to the last.
    pub descent: Band,
    /// The end of the walk out.
    pub out: Band,
    /// The drops at which a second rope is counted as rigged ahead, while another hangs above, or why at none.
    pub second_rope: Result<Vec<usize>, &'static str>,
    /// Why everything may take longer, if it may.
    pub hard: Option<&'static str>,
    /// What moves the end most.
    pub moved_most_by: Option<&'static str>,
    /// The sun, if date and place are known.
    pub sun: Option<Daylight>,
    /// Last light on the clock: sunset, or the leader's own; None if it is not known.
    pub last_light: Option<f64>,
    /// What may come before the end of the walk out, the gravest first.
    pub past: Vec<(Fades, f64)>,
    /// Latest start that leaves what is kept in hand before last light: at the slow end, and typically.
    pub start_by: Option<[f64; 2]>,
    /// The last drop with a way out before it, and the latest time at which it may be passed.
    pub turn_round: Option<(usize, [f64; 2])>,
}

/// One value of everything that is uncertain.
#[derive(Clone, Copy, PartialEq, Eq)]
enum At {
    Low,
    Typical,
    High,
}

/// What is uncertain, for what moves the end most.
const LABELS: [&str; 13] = [
    "rigging a drop",
    "clip in and check",
    "speed on the rope",
    "off the rope",
    "signal",
    "pulling the rope",
    "high water or people new to ropes",
    "the second rope",
    "the way between the drops",
    "time besides",
    "the heights",
    "the walk in",
    "the walk out",
];

/// A drop that is rigged while the one above is gone down, and the rope of the list that it is rigged with.
pub(super) struct Ahead {
    pub(super) above: usize,
    pub(super) place: usize,
    pub(super) rope: usize,
}

impl Times {
    /// Whether the sun does not come up that day.
    pub(super) fn is_dark(&self) -> bool {
        self.past.first().is_some_and(|(what, _)| *what == Fades::Dark)
    }
}

struct Sums {
    drops: Vec<[f64; 2]>,
    total: f64,
}

impl Plan {
    /// Where a second rope is rigged ahead, or why nowhere.
    pub(super) fn second_rope(&self) -> Result<Vec<Ahead>, &'static str> {
        if self.ropes.iter().filter(|rope| rope.hangs().is_some()).count() < 2 {
            return Err("fewer than two ropes: the next drop is rigged when the rope has come down");
        }
        if group::riggers(&self.group) < 2 {
            return Err("fewer than two can rig: nobody rigs ahead");
        }
        let roped = |drop: &PlannedDrop| drop.uses_rope() || has_a_line(drop);
        let roped: Vec<_> = self.drops.iter().enumerate().filter(|(_, drop)| roped(drop)).collect();
        let mut ahead: Vec<Ahead> = Vec::new();
        for ((above, over), (place, drop)) in roped.iter().zip(roped.iter().skip(1)) {
            // What was rigged ahead above hangs there, whatever else would.
            let before = ahead.last().filter(|last| last.place == *above).map(|last| last.rope);
            let hangs = self.at(before.or(self.rope_of(over)), over);
            if let Some(rope) = self.rigged_ahead(&hangs, over, drop) {
                ahead.push(Ahead { above: *above, place: *place, rope });
            }
        }
        if ahead.is_empty() { Err("no free rope surely reaches down a drop below another") } else { Ok(ahead) }
    }

    /// The rope that does not hang at the drop above and reaches down a drop, a metre of knots and shrinkage counted.
    fn rigged_ahead(&self, hangs: &[usize], above: &PlannedDrop, drop: &PlannedDrop) -> Option<usize> {
        let free = match drop.rope {
            0 => self.longest_but(hangs),
            _ => self.rope_of(drop).filter(|rope| !hangs.contains(rope)),
        };
        // Two strands, or a reserve as long as what hangs, unless a cord is said to pull the rope.
        let by_cord = drop
            .questions
            .iter()
            .any(|held| matches!(&held.question, Question::RopeEnd(rope) if rope.hung == Hung::PullCord));
        let down = drop.way() * if by_cord { 1.0 } else { 2.0 };
        let reaches = |rope: &super::CarriedRope| PullDown::spare_for(down) <= rope.length;
        let stays = !matches!(drop.anchor, DropAnchor::People | DropAnchor::Unseen) && is_entered(&drop.height);
        // What a line takes is not free.
        let stays = stays && !has_a_line(above) && !has_a_line(drop);
        free.filter(|rope| stays && self.ropes.get(*rope).is_some_and(reaches))
    }

    /// Why everything may take longer, how many times as long, and so for what each person takes: less where some are new
    /// and others are not.
    pub(super) fn hard(&self) -> Option<(&'static str, [Band; 2])> {
        let times = self.pace.hard.map(|factor| factor.value);
        let new = group::new_to_ropes(&self.group);
        // Half of the group or more hold up everyone, fewer by their share; all of them wait for the slowest. So one more
        // who goes down alone makes nobody quicker.
        let in_part = times.map(|factor| 1.0 + (factor - 1.0) * (2.0 * new).min(1.0));
        // Nobody knows: it may be ordinary.
        let at_most = |low: Band| Band::of(low.low(), low.typical(), times.high());
        Some(match (self.day.water, new > 0.0) {
            (WaterToday::Higher | WaterToday::MuchHigher, true) => ("high water, and people new to ropes", [times; 2]),
            (WaterToday::Higher | WaterToday::MuchHigher, false) => ("high water", [times; 2]),
            (WaterToday::NotSeen, true) => {
                ("water not seen yet, and people new to ropes or skills not entered", [times, at_most(in_part)])
            }
            (WaterToday::AsEntered, true) => ("people new to ropes, or skills not entered", [times, in_part]),
            (WaterToday::NotSeen, false) => ("water not seen yet", [at_most(Band::exact(1.0)); 2]),
            (WaterToday::AsEntered, false) => return None,
        })
    }

    /// Times spent at each drop and on the way to the next, the second rope counted. One copy for all that ask is 2 kB of
    /// the module less.
    fn sums(&self, at: &dyn Fn(usize) -> At) -> Sums {
        let of = |label: usize, band: Band| match at(label) {
            At::Low => band.low(),
            At::Typical => band.typical(),
            At::High => band.high(),
        };
        // More speed is less time.
        let slow = |label: usize, band: Band| match at(label) {
            At::Low => band.high(),
            At::Typical => band.typical(),
            At::High => band.low(),
        };
        let si = |band: &Band<Time>| band.map(|time| time.value);
        let pace = &self.pace;
        let [hard, each] = self.hard().map_or([Band::exact(1.0); 2], |(_, times)| times).map(|times| of(6, times));
        let people = self.group.len().max(1) as f64;
        let last = self.drops.len().saturating_sub(1);
        let mut drops = Vec::new();
        for (place, drop) in self.drops.iter().enumerate() {
            let off = if matches!(drop.bottom, Bottom::Stand) { &pace.off_ground } else { &pace.off_water };
            let height =
                if is_entered(&drop.height) { drop.height.map(|height| height.value) } else { Band::exact(0.0) };
            let down = of(10, height) / slow(2, pace.speed.map(|speed| speed.value));
            // Who jumps or slides waits until the one before has swum clear and said so.
            let clear = down + of(3, si(off)) + of(4, si(&pace.signal));
            let [once, of_each] = if drop.uses_rope() {
                [of(0, si(&pace.rig)) + of(5, si(&pace.pull)), of(1, si(&pace.check)) + clear]
            } else {
                [0.0, clear]
            };
            let spent = hard * (once + of(9, si(&drop.extra))) + each * people * of_each;
            let to_next = if place == last { 0.0 } else { hard * of(8, si(&drop.to_next)) };
            drops.push([spent, to_next]);
        }
        let ahead = self.second_rope().unwrap_or_default();
        let saved = 1.0 - of(7, pace.second_rope.map(|share| share.value));
        for Ahead { above, place, .. } in ahead {
            // What is done ahead is done while the drop above takes its time, or what is left of it.
            let above = drops.get(above).map_or(0.0, |[spent, _]| *spent);
            if let Some([spent, _]) = drops.get_mut(place) {
                *spent -= (saved * *spent).min(above);
            }
        }
        let total = drops.iter().map(|[spent, to_next]| spent + to_next).sum();
        Sums { drops, total }
    }

    /// When the sun stands highest by the clock entered, s, 17 minutes more or less, if that is no clock of the place: none
    /// shows it more than three hours and a quarter off noon; and Universal Time, which stands there until another is
    /// entered, is kept from the Azores in summer, 31° west, to Ghana and Togo, 2° east (tz database, from memory).
    pub(super) fn odd_noon(&self) -> Option<f64> {
        let ahead = self.day.ahead_of_utc.value;
        let days = (ahead / DAY) - self.day.longitude.value / TAU;
        let late = (days - days.round()) * DAY;
        (late.abs() > 11_700.0 || ahead == 0.0 && !(-1_000.0..7_800.0).contains(&late)).then_some(DAY / 2.0 + late)
    }

    fn sky(&self) -> Option<Sky> {
        let day = &self.day;
        // One that is 0 was not entered: a sunset of the equator or of Greenwich would be told for it.
        let entered = day.latitude.value != 0.0 && day.longitude.value != 0.0;
        (day.light_by == LightBy::Place && entered && self.odd_noon().is_none()).then(|| {
            Date::read(&day.date).map(|date| Sky {
                date,
                latitude: day.latitude,
                longitude: day.longitude,
                ahead_of_utc: day.ahead_of_utc,
                rim: day.rim,
            })
        })?
    }

    /// The times of the day. Every end of a range is that of the slowest or the quickest of everything.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::plan::{Day, Person, Plan, PlannedDrop, RopeSkill, WaterToday};
    /// use rigging_core::quantity::{Length, metre};
    /// use rigging_core::question::Bottom;
    ///
    /// // By hand: 5 min to rig, one person, 2 min to clip in, 12 m at 0.3 m/s, half a minute to get off on ground, 1
    /// // min for the signal, 3 min to pull: 12 min 10 s.
    /// let height = Band::exact(Length::new::<metre>(12.0));
    /// let drops = vec![PlannedDrop { height, bottom: Bottom::Stand, ..PlannedDrop::default() }];
    /// let group = vec![Person { rope: RopeSkill::Rigs, ..Person::default() }];
    /// let day = Day { water: WaterToday::AsEntered, ..Day::default() };
    /// let times = Plan { day, group, drops, ..Plan::default() }.times();
    /// assert!((times.descent.typical() - 730.0).abs() < 1e-9);
    /// ```
    pub fn times(&self) -> Times {
        let [low, typical, high] = [At::Low, At::Typical, At::High].map(|at| self.sums(&|_| at));
        let start = self.day.start.value;
        let walk_in = self.day.walk_in.map(|time| time.value);
        let walk_out = self.day.walk_out.map(|time| time.value);
        let sun = self.sky().and_then(|sky| light::daylight(&sky).ok());
        let last_light = match self.day.light_by {
            LightBy::NotEntered => None,
            LightBy::Own => Some(self.day.own_last_light.value),
            LightBy::Place => sun.and_then(|sun| sun.sunset).map(|time| time.value),
        };
        let in_hand = self.pace.in_hand.value;
        let latest = |rest: [f64; 2]| {
            let [slow, typical] = rest;
            last_light
                .map(|light| [light - in_hand - walk_out.high() - slow, light - in_hand - walk_out.typical() - typical])
        };
        let mut drops = Vec::new();
        let mut reached = [walk_in.low(), walk_in.typical(), walk_in.high()].map(|walk| start + walk);
        let mut rest = [high.total, typical.total];
        for (place, spent) in self.spent_alone().into_iter().enumerate() {
            let parts = [&low, &typical, &high].map(|sums| sums.drops.get(place).copied().unwrap_or_default());
            drops.push(DropTime {
                spent,
                reached: Band::of(reached[0], reached[1], reached[2]),
                not_after: latest([rest[0] + self.not_saved(place, spent, [&low, &high]), rest[1]]),
            });
            for (clock, [spent, to_next]) in reached.iter_mut().zip(parts) {
                *clock += spent + to_next;
            }
            for (rest, [spent, to_next]) in rest.iter_mut().zip([parts[2], parts[1]]) {
                *rest -= spent + to_next;
            }
        }
        let out = Band::of(reached[0] + walk_out.low(), reached[1] + walk_out.typical(), reached[2] + walk_out.high());
        let way_out = self.drops.iter().rposition(|drop| drop.way_out == crate::question::Whether::Yes);
        let turn_round =
            way_out.and_then(|place| drops.get(place).and_then(|drop| drop.not_after).map(|time| (place, time)));
        Times {
            descent: Band::of(low.total, typical.total, high.total),
            out,
            second_rope: self.second_rope().map(|ahead| ahead.into_iter().map(|ahead| ahead.place).collect()),
            hard: self.hard().map(|(why, _)| why),
            moved_most_by: self.moved_most_by(),
            past: past(start, out.high(), last_light, sun.as_ref()),
            start_by: latest([high.total + walk_in.high(), typical.total + walk_in.typical()]),
            turn_round,
            sun,
            last_light,
            drops,
        }
    }

    /// What a second rope saves less at a drop, s, where the drop above took its shortest time and not its longest: what
    /// follows is slow, what is over may have been quick.
    fn not_saved(&self, place: usize, alone: Band, ends: [&Sums; 2]) -> f64 {
        let ahead = self.second_rope().unwrap_or_default();
        let saved = (1.0 - self.pace.second_rope.high().value) * alone.high();
        ahead.iter().find(|ahead| ahead.place == place).map_or(0.0, |ahead| {
            // What was itself done ahead takes less.
            let [quick, slow] = ends.map(|sums| sums.drops.get(ahead.above).map_or(0.0, |[spent, _]| *spent));
            saved.min(slow) - saved.min(quick)
        })
    }

    /// Time spent at each drop without a second rope, s.
    fn spent_alone(&self) -> Vec<Band> {
        let mut alone = self.clone();
        alone.ropes.clear();
        let [low, typical, high] = [At::Low, At::Typical, At::High].map(|at| alone.sums(&|_| at));
        let ends = low.drops.iter().zip(&typical.drops).zip(&high.drops);
        ends.map(|(([low, _], [typical, _]), [high, _])| Band::of(*low, *typical, *high)).collect()
    }

    fn moved_most_by(&self) -> Option<&'static str> {
        let mut most = (0.0, None);
        for (label, words) in LABELS.iter().enumerate() {
            let alone = |end: At| self.sums(&|other| if other == label { end } else { At::Typical }).total;
            let walked = |walk: &Band<Time>| (walk.high() - walk.low()).value;
            let moves = match label {
                11 => walked(&self.day.walk_in),
                12 => walked(&self.day.walk_out),
                _ => alone(At::High) - alone(At::Low),
            };
            if moves > most.0 {
                most = (moves, Some(*words));
            }
        }
        most.1
    }
}

fn has_a_line(drop: &PlannedDrop) -> bool {
    drop.questions.iter().any(takes_a_line)
}

/// Where a second rope is rigged ahead, in words.
pub(super) fn rigged_ahead(drops: &[usize]) -> String {
    let drops: Vec<_> = drops.iter().map(|place| (place + 1).to_string()).collect();
    format!("rigged ahead at drop{} {}", if drops.len() == 1 { "" } else { "s" }, drops.join(", "))
}

/// What may come before a time, the gravest first.
fn past(start: f64, out: f64, last_light: Option<f64>, sun: Option<&Daylight>) -> Vec<(Fades, f64)> {
    let dark = sun.filter(|sun| !sun.up_at_noon).map(|_| (Fades::Dark, start));
    let dusk = sun.and_then(|sun| sun.dusk).map(|time| (Fades::Dusk, time.value));
    let light = last_light.map(|time| (Fades::LastLight, time));
    let direct = sun.and_then(|sun| sun.direct_sun_leaves.into_iter().flatten().next());
    let direct = direct.map(|time| (Fades::DirectSun, time.value));
    [dark, dusk, light, direct].into_iter().flatten().filter(|(_, time)| out >= *time).collect()
}

/// A time of the clock in hours and minutes, the minute begun or the minute over; with the days after the first.
/// ```
/// use rigging_core::plan::clock;
///
/// // Half a minute past nine: the latest time is told early, the earliest late.
/// let time = 9.0 * 3600.0 + 30.0;
/// assert_eq!((clock(time, true), clock(time, false)), ("09:00".to_owned(), "09:01".to_owned()));
/// assert_eq!(clock(25.0 * 3600.0, true), "01:00 the next day");
/// ```
pub fn clock(time: f64, is_latest: bool) -> String {
    if !time.is_finite() || time.abs() > 1e7 {
        return "—".to_owned();
    }
    let minutes = if is_latest { (time / 60.0 + 1e-6).floor() } else { (time / 60.0 - 1e-6).ceil() } as i64;
    let (day, minute) = (minutes.div_euclid(1440), minutes.rem_euclid(1440));
    let two = |number: i64| if number < 10 { format!("0{number}") } else { number.to_string() };
    let clock = format!("{}:{}", two(minute / 60), two(minute % 60));
    match day {
        0 => clock,
        1 => format!("{clock} the next day"),
        -1 => format!("{clock} the day before"),
        2.. => format!("{clock}, {day} days later"),
        _ => format!("{clock}, {} days before", -day),
    }
}

/// A span in hours and minutes, rounded up.
/// ```
/// use rigging_core::plan::span;
///
/// assert_eq!((span(61.0), span(7200.0), span(5400.0)), ("2 min".into(), "2 h".into(), "1 h 30 min".into()));
/// ```
pub fn span(time: f64) -> String {
    if !(0.0..1e7).contains(&time) {
        return "—".to_owned();
    }
    let minutes = (time / 60.0 - 1e-6).ceil().max(0.0) as i64;
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes} min"),
    }
}
