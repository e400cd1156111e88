//! Decisions that are still open: what nobody entered, saw or chose.

use super::Plan;
use super::check::{CheckedDrop, Open};
use super::day::{Date, LightBy, WaterToday, is_entered};
use super::group::{self, RopeSkill, WaterSkill};
use super::record::Row;
use super::shared::takes_a_line;
use super::time::{Ahead, Times, clock};
use crate::limit::Standing;
use crate::question::{Asked, Bottom, Entry, Hung, PulledBy, Question, Release, Strands, check};

/// Seven o'clock, s: who is at a drop before that may come to it in the dark (common practice, no source).
const EARLY: f64 = 7.0 * 3600.0;

/// Everything that is open: first what concerns the whole plan, then drop by drop.
pub(super) fn decisions(plan: &Plan, drops: &[CheckedDrop], times: &Times) -> Vec<Open> {
    let mut open = Vec::new();
    of_the_plan(plan, times, &mut |what| open.push(Open { drop: None, what }));
    let ahead = plan.second_rope().unwrap_or_default();
    for place in 0..plan.drops.len() {
        of_a_drop(plan, drops, place, &ahead, &mut |what| open.push(Open { drop: Some(place), what }));
    }
    open
}

/// What could not be read, and numbers that no file would take, set by hand: no drop is below a limit then.
pub(super) fn beyond(plan: &Plan) -> Vec<Open> {
    let mut open = Vec::new();
    for line in &plan.unread {
        open.push(Open { drop: None, what: ["could not be read: ", line].concat() });
    }
    let mut look = |row: &dyn Row, whose: String, drop| {
        for field in row.asked() {
            if let Err(error) = check(&field.about, &field.entry) {
                open.push(Open { drop, what: [&whose, error.words().as_str()].concat() });
            }
        }
    };
    let numbered = |row: &dyn Row, place: usize| format!("{} {}: ", row.name(), place + 1);
    look(&plan.day, String::new(), None);
    look(&plan.pace, String::new(), None);
    for (place, row) in plan.group.iter().enumerate() {
        look(row, numbered(row, place), None);
    }
    for (place, row) in plan.ropes.iter().enumerate() {
        look(row, numbered(row, place), None);
    }
    for (place, row) in plan.drops.iter().enumerate() {
        look(row, String::new(), Some(place));
    }
    open
}

fn of_the_plan(plan: &Plan, times: &Times, add: &mut dyn FnMut(String)) {
    let day = &plan.day;
    if day.water == WaterToday::NotSeen {
        add("water not seen yet: the numbers are those of the water as entered".into());
    }
    if day.water.steps() > 0 {
        add("higher water: bottoms, what lies downstream and lines that hang dry stand as entered; look again".into());
    }
    if day.water_mark.is_empty() {
        add("no mark by which the water is judged".into());
    }
    if Date::read(&day.date).is_none() {
        add("no date".into());
    }
    match (day.light_by, times.last_light) {
        (LightBy::NotEntered, _) => add("last light not entered".into()),
        (LightBy::Place, _) if day.latitude.value == 0.0 || day.longitude.value == 0.0 => {
            add("place not entered: no sunset is worked out where latitude or longitude is 0; enter 0.01° for one that is".into());
        }
        (LightBy::Place, None) if Date::read(&day.date).is_some() => {
            add(match plan.odd_noon() {
                Some(noon) => format!(
                    "no sunset can be worked out: by the clock entered the sun would stand highest at {}; enter how far the clock is ahead of Universal Time, below 0 in the west, or look at the longitude",
                    clock(noon, false)
                ),
                None if times.is_dark() => "the sun does not come up: enter a last light of your own".into(),
                None => "no sunset can be worked out for this place and day: enter a last light of your own".into(),
            });
        }
        _ => {}
    }
    if let (Some(first), Some(sunrise)) = (times.drops.first(), times.sun.and_then(|sun| sun.sunrise))
        && first.reached.low() < sunrise.value
    {
        add(format!("the first drop may be reached before sunrise, {}", clock(sunrise.value, false)));
    }
    // Nothing is known of the morning where only the evening was entered.
    let reached = times.drops.first().map_or(f64::INFINITY, |first| first.reached.low());
    if times.last_light.is_some() && times.sun.is_none() && reached < EARLY {
        add(format!(
            "the first drop may be reached at {}: whether it is light by then is not known",
            clock(reached, false)
        ));
    }
    if plan.group.is_empty() {
        add("nobody entered: the masses are those of each question, and times are those of one person".into());
    } else {
        let count = |is: &dyn Fn(&super::Person) -> bool| plan.group.iter().filter(|person| is(person)).count();
        let no_mass = count(&|person| person.mass().is_none());
        if no_mass > 0 {
            add(format!(
                "body mass not entered for {no_mass} of {}: they may be the lightest or the heaviest, and the masses are those of each question too",
                plan.group.len()
            ));
        }
        let no_skill = count(&|person| person.rope == RopeSkill::Unknown || person.water == WaterSkill::Unknown);
        if no_skill > 0 {
            add(format!("skills not entered for {no_skill} of {}", plan.group.len()));
        }
        if count(&|person| person.rope == RopeSkill::Rigs) == 0 {
            add("nobody entered who can rig, release and pull".into());
        }
        if day.order.is_empty() {
            add("order of the group: the leader's".into());
        }
    }
    if plan.drops.is_empty() {
        add("no drop entered".into());
    } else if plan.ropes.iter().all(|rope| rope.hangs().is_none()) {
        add("no rope entered that people can hang on: those of the questions count".into());
    }
}

/// How a question about the rope has it hang, and how one about the abseil or about pulling it down does, where these are
/// not the same.
fn rigged_in_two_ways(checked: &CheckedDrop) -> Vec<[&'static str; 3]> {
    let mut ways = Vec::new();
    for one in &checked.asked {
        for other in &checked.asked {
            let Question::RopeEnd(rope) = &one.question else { continue };
            let way = match &other.question {
                Question::Abseil(abseil) if (rope.hung == Hung::Doubled) != (abseil.strands == Strands::Two) => {
                    abseil.strands.words()
                }
                Question::Abseil(abseil) if (rope.hung == Hung::Releasable) == (abseil.release == Release::Fixed) => {
                    abseil.release.words()
                }
                Question::PullDown(pull) if (rope.hung == Hung::PullCord) != (pull.pulled_by == PulledBy::Cord) => {
                    pull.pulled_by.words()
                }
                _ => continue,
            };
            let way = [rope.hung.words(), other.question.name(), way];
            if !ways.contains(&way) {
                ways.push(way);
            }
        }
    }
    ways
}

fn of_a_drop(plan: &Plan, drops: &[CheckedDrop], place: usize, ahead: &[Ahead], add: &mut dyn FnMut(String)) {
    let (Some(drop), Some(checked)) = (plan.drops.get(place), drops.get(place)) else { return };
    if !is_entered(&drop.height) && drop.uses_rope() {
        add("height not entered".into());
    }
    if drop.bottom == Bottom::NotSeen {
        add("bottom not seen".into());
    }
    // Water that nobody has seen may be higher.
    let higher = match plan.day.water {
        WaterToday::AsEntered => None,
        WaterToday::NotSeen => Some("water not seen"),
        WaterToday::Higher | WaterToday::MuchHigher => Some("higher water"),
    };
    if let Some(water) = higher
        && matches!(drop.bottom, Bottom::Stand | Bottom::Still)
    {
        add(format!("{water}: its bottom stands as entered, and may move now"));
    }
    let asks = |names: &[&str]| checked.asked.iter().any(|asked| names.contains(&asked.question.name()));
    // Where people are in a current the water moves, whatever it does at the bottom.
    let moves = drop.bottom == Bottom::Moving || asks(&["in the current"]);
    let (water, swims): (_, &[WaterSkill]) = if moves {
        ("moving water", &[WaterSkill::Moving])
    } else {
        ("water too deep to stand", &[WaterSkill::Still, WaterSkill::Moving])
    };
    let unready = plan.group.iter().filter(|person| !swims.contains(&person.water)).count();
    if (moves || drop.bottom == Bottom::Still) && unready > 0 {
        add(format!("{water}: {unready} of {} are not entered as swimming it", plan.group.len()));
    }
    if !drop.uses_rope() {
        add("jumped, slid or climbed: neither how far nor how deep it is below is checked".into());
    }
    if !drop.uses_rope() && asks(&["rope", "abseil", "guided abseil", "raise and lower", "anchor legs", "pull-down"]) {
        add("nobody goes down a rope here, and yet a rope or its anchor is asked about".into());
    }
    if drop.uses_rope() && plan.rope_of(drop).is_none() && asks(&["rope"]) {
        add("no rope of the list hangs here: the one of its question counts".into());
    }
    if drop.uses_rope() && !asks(&["rope"]) {
        add("nothing asked about its rope: it may be the drop that dictates it".into());
    }
    if drop.rope > 0 && plan.rope_of(drop).is_none() {
        add(format!("rope {} of the list is none that people can hang on", drop.rope));
    }
    for ahead in ahead.iter().filter(|ahead| ahead.place == place && plan.rope_of(drop) != Some(ahead.rope)) {
        add(format!("rigged ahead with rope {}: enter it here to have the drop checked on it", ahead.rope + 1));
    }
    for held in drop.questions.iter().filter(|held| takes_a_line(held)) {
        add(format!("{}: its line takes a rope that is not counted", held.question.name()));
    }
    for [rope, other, way] in rigged_in_two_ways(checked) {
        add(format!("rope ({rope}) and {other} ({way}): both only if it is rigged anew in between"));
    }
    if asks(&["pull-down"]) && !plan.unknown_from(place + 1).is_empty() {
        add("pull-down: a drop still below has no height yet, and may take more rope than any that has".into());
    }
    for (asked, answered) in checked.asked.iter().zip(&checked.answers) {
        let name = asked.question.name();
        if !asked.missing.is_empty() {
            let mut fields = String::new();
            for field in asked.fields.iter().filter(|field| asked.missing.contains(&field.about.name)) {
                fields += if fields.is_empty() { "" } else { "; " };
                fields += field.about.label;
            }
            add(format!("{name}: not compared, for numbers of an example stand for {fields}"));
            continue;
        }
        // Whoever hangs there holds and pulls nothing.
        let count = |name: &str| {
            let field = asked.fields.iter().find(|asked| asked.matters && asked.about.name == name);
            field.and_then(|field| if let Entry::One(count) = field.entry { Some(count) } else { None })
        };
        let hang = count("people").unwrap_or(if name == "human anchor" { 1.0 } else { 0.0 });
        for field in ["holders", "pullers"] {
            let has = (plan.group.len() as f64 - hang).max(0.0) as usize;
            if let Some(count) = count(field)
                && !plan.group.is_empty()
                && count > has as f64
            {
                add(format!("{name}: {field} {}, and of the group there are {has} for it", count as usize));
            }
        }
        // The plan does not give their masses, for it knows not who holds.
        let kit = &plan.day.kit;
        let bodies = group::masses(&plan.group);
        let beyond = |field: &Asked| match (field.entry, bodies) {
            (Entry::Range(each), Some(body)) if field.about.name == "holder_kg" => {
                each.low() < (body.low() + kit.low()).value || each.high() > (body.high() + kit.high()).value
            }
            _ => false,
        };
        if asked.fields.iter().any(beyond) {
            add(format!("{name}: who holds may be lighter or heavier than anybody entered, with kit"));
        }
        // What the plan says reaches the question it was taken from, not this one.
        let is_taken = |field: &Asked| {
            let taken = [("forces", "taken"), ("pulls", "own")];
            taken.iter().any(|&(name, choice)| field.about.name == name && field.entry == Entry::Choice(choice))
        };
        if asked.fields.iter().any(|field| field.matters && is_taken(field)) {
            add(format!("{name}: its forces were taken over, and do not follow what the plan says"));
        }
        let Ok(answer) = answered.as_ref() else {
            add(format!("{name}: no answer"));
            continue;
        };
        let mut said: Vec<&str> = Vec::new();
        for comparison in &answer.comparisons {
            if let Standing::NotChecked(why) = comparison.standing
                && !said.contains(&why)
            {
                said.push(why);
                add(format!("{name}: not checked, {why}"));
            }
        }
        for field in &asked.fields {
            let unseen = field.about.name == "downstream" && field.entry == Entry::Choice("not seen");
            if unseen && field.matters {
                add(format!("{name}: what lies downstream is not seen"));
            }
            let dry = field.about.name == "falling_water" && field.entry == Entry::Choice("none");
            if let Some(water) = higher.filter(|_| dry && field.matters) {
                add(format!("{name}: {water}, and yet it hangs dry as entered"));
            }
        }
    }
}
