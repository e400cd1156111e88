//! A checked plan as JSON: numbers in SI, times in seconds on the clock of the day.

use super::check::{Checked, CheckedDrop};
use super::group::TEACHINGS;
use super::json::{Json, Node};
use super::time::{Fades, Times, rigged_ahead};
use super::{CarriedRope, Plan, PlannedDrop};
use crate::band::Band;
use serde::ser::SerializeMap;
use serde::{Serialize, Serializer};

fn object(members: Vec<(&str, Node)>) -> Node {
    Json::Object(members.into_iter().map(|(name, node)| (name.to_owned(), node)).collect()).into()
}

fn list(nodes: impl Iterator<Item = Node>) -> Node {
    Json::List(nodes.collect()).into()
}

fn text(words: impl Into<String>) -> Node {
    Json::Text(words.into()).into()
}

fn number(value: f64) -> Node {
    Json::Number(value).into()
}

fn count(value: usize) -> Node {
    number(value as f64)
}

fn perhaps(value: Option<f64>) -> Node {
    value.map_or(Json::Other.into(), number)
}

/// At the slow end, and typically.
fn latest(times: Option<[f64; 2]>) -> Node {
    times.map_or(Json::Other.into(), |times| list(times.into_iter().map(number)))
}

fn ends(band: &Band) -> Node {
    list([band.low(), band.typical(), band.high()].into_iter().map(number))
}

/// A checked plan beside the plan it was made from.
/// ```
/// use rigging_core::plan::{Answers, Plan, Said};
/// use rigging_core::quantity::Units;
///
/// let plan = Plan::example();
/// let checked = plan.check(&mut Answers::default(), Units::default());
/// let json = serde_json::to_value(Said { plan: &plan, checked: &checked })?;
/// // The plan itself stands among it, and each drop says how it stands.
/// assert_eq!(serde_json::from_value::<Plan>(json["plan"].clone())?, plan);
/// assert_eq!(json["drops"][0]["standing"], checked.drops[0].standing.words());
/// # Ok::<(), serde_json::Error>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Said<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// What its check found.
    pub checked: &'a Checked,
}

impl Serialize for Said<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let Said { plan, checked } = self;
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("late", &late(&checked.times))?;
        let open = checked.open.iter().map(|open| {
            let drop = perhaps(open.drop.map(|place| (place + 1) as f64));
            object(vec![("drop", drop), ("what", text(&open.what))])
        });
        map.serialize_entry("open", &list(open))?;
        map.serialize_entry("ropes", &ropes(checked))?;
        map.serialize_entry("first", &list(checked.first.iter().map(|place| count(place + 1))))?;
        map.serialize_entry("times", &times(&checked.times))?;
        let parts = checked.parts;
        let at =
            |(most, drop): (u32, usize)| object(vec![("most", number(f64::from(most))), ("drop", count(drop + 1))]);
        map.serialize_entry(
            "parts",
            &object(vec![
                ("slings", at(parts.slings)),
                ("connectors", at(parts.connectors)),
                ("links_left", number(f64::from(parts.links_left))),
                ("slings_left", number(f64::from(parts.slings_left))),
            ]),
        )?;
        let teachings = TEACHINGS.iter().map(|teaching| {
            object(vec![
                ("name", text(teaching.name)),
                ("first", text(teaching.first)),
                ("last", text(teaching.last)),
                ("price", text(teaching.price)),
            ])
        });
        map.serialize_entry(
            "order_of_the_group",
            &object(vec![("teachings", list(teachings)), ("leader", text(&plan.day.order))]),
        )?;
        map.serialize_entry("drops", &Drops(plan, &checked.drops))?;
        map.serialize_entry("plan", plan)?;
        map.end()
    }
}

fn late(times: &Times) -> Node {
    list(times.past.iter().map(|(what, time)| {
        let what = match what {
            Fades::Dark => "the start, no sun all day",
            Fades::DirectSun => "direct sun",
            Fades::LastLight => "last light",
            Fades::Dusk => "dusk",
        };
        object(vec![("past", text(what)), ("at_s", number(*time)), ("out_s", ends(&times.out))])
    }))
}

fn ropes(checked: &Checked) -> Node {
    let ropes = &checked.ropes;
    let needs = ropes.needs.iter().enumerate().map(|(place, need)| {
        let mut members = vec![
            ("drop", count(need.drop + 1)),
            ("needed_m", ends(&need.needed)),
            ("there_m", number(need.there)),
            ("dictates", text(if ropes.dictated_by == Some(place) { "yes" } else { "no" })),
        ];
        if let Some(rope) = need.beside {
            members.push(("rope_beside", count(rope + 1)));
        }
        if let Some((cord, there)) = &need.cord {
            members.extend([("cord_needed_m", ends(cord)), ("cord_there_m", number(*there))]);
        }
        object(members)
    });
    let spare = ropes.spare.map_or(Json::Other.into(), |spare| {
        object(vec![
            ("lost_at_drop", count(spare.lost_at + 1)),
            ("below_drop", count(spare.down + 1)),
            ("below_m", number(spare.below)),
            ("needed_m", number(spare.needed)),
            ("there_m", number(spare.there)),
        ])
    });
    let reserve = ropes.reserve.as_ref().map_or(Json::Other.into(), ends);
    // The reserve is that of the others.
    let without =
        (0..checked.drops.len()).filter(|place| ropes.unsaid.contains(place) || ropes.unanswered.contains(place));
    let without = list(without.map(|place| count(place + 1)));
    object(vec![("needs", list(needs)), ("reserve_m", reserve), ("drops_without_an_answer", without), ("spare", spare)])
}

fn times(times: &Times) -> Node {
    let mut members = vec![
        ("descent_s", ends(&times.descent)),
        ("out_s", ends(&times.out)),
        ("second_rope", text(times.second_rope.as_deref().map_or_else(|why| (*why).to_owned(), rigged_ahead))),
        ("longer_for", text(times.hard.unwrap_or("nothing"))),
        ("moved_most_by", text(times.moved_most_by.unwrap_or("nothing"))),
        ("last_light_s", perhaps(times.last_light)),
        ("start_by_s", latest(times.start_by)),
    ];
    if let Some((place, time)) = times.turn_round {
        members.push(("turn_round", object(vec![("drop", count(place + 1)), ("not_after_s", latest(Some(time)))])));
    }
    if let Some(sun) = &times.sun {
        let at = |time: Option<crate::quantity::Time>| perhaps(time.map(|time| time.value));
        members.push((
            "sun",
            object(vec![
                ("sunrise_s", at(sun.sunrise)),
                ("noon_s", number(sun.noon.value)),
                ("direct_sun_leaves_s", list(sun.direct_sun_leaves.into_iter().map(at))),
                ("sunset_s", at(sun.sunset)),
                ("dusk_s", at(sun.dusk)),
            ]),
        ));
    }
    let drops = times.drops.iter().map(|drop| {
        object(vec![
            ("spent_s", ends(&drop.spent)),
            ("reached_s", ends(&drop.reached)),
            ("not_after_s", latest(drop.not_after)),
        ])
    });
    members.push(("drops", list(drops)));
    object(members)
}

/// The drops, each answer written as its question writes it.
struct Drops<'a>(&'a Plan, &'a [CheckedDrop]);

impl Serialize for Drops<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let assumed = |drop| self.0.assumed(drop);
        serializer.collect_seq(self.0.drops.iter().zip(self.1).map(|(drop, checked)| OneDrop(checked, assumed(drop))))
    }
}

/// A drop, and what the plan may only assume for its questions.
struct OneDrop<'a>(&'a CheckedDrop, Vec<&'static str>);

impl Plan {
    /// Fields whose values stand as they do where nobody entered any.
    fn assumed(&self, drop: &PlannedDrop) -> Vec<&'static str> {
        let [is_kit, is_water] = self.day.carries();
        let rope = self.rope_of(drop).and_then(|rope| self.ropes.get(rope));
        let fields =
            [("kit_kg", is_kit), ("suit_water_kg", is_water), ("diameter_m", rope.is_none_or(CarriedRope::is_another))];
        fields.into_iter().filter(|(_, is_entered)| !is_entered).map(|(name, _)| name).collect()
    }
}

impl Serialize for OneDrop<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let OneDrop(drop, assumed) = self;
        let mut map = serializer.serialize_map(Some(3))?;
        map.serialize_entry("standing", drop.standing.words())?;
        let reasons = drop.reasons.iter().map(|reason| {
            object(vec![
                ("why", text(reason.why.words())),
                ("what", text(&reason.what)),
                ("change", text(&reason.change)),
            ])
        });
        map.serialize_entry("reasons", &list(reasons))?;
        let answers: Vec<_> =
            drop.asked.iter().zip(&drop.answers).map(|(asked, answered)| Asked { asked, assumed, answered }).collect();
        map.serialize_entry("questions", &answers)?;
        map.end()
    }
}

struct Asked<'a> {
    asked: &'a super::AskedToday,
    assumed: &'a [&'static str],
    answered: &'a super::Answered,
}

impl Serialize for Asked<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        map.serialize_entry("question", &self.asked.question)?;
        let given = |is_assumed: bool| -> Vec<_> {
            self.asked.given.iter().filter(|name| self.assumed.contains(name) == is_assumed).collect()
        };
        map.serialize_entry("given_by_the_plan", &given(false))?;
        map.serialize_entry("assumed_by_the_plan_if_not_entered", &given(true))?;
        map.serialize_entry("example_stands_for", &self.asked.missing)?;
        match self.answered.as_ref() {
            Ok(answer) => map.serialize_entry("answer", answer)?,
            Err(error) => map.serialize_entry("no_answer", &error.to_string())?,
        }
        map.end()
    }
}
