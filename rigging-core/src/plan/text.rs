//! A checked plan as plain text, for a message or a page of paper.

use super::check::{Checked, Reason, Why};
use super::day::is_entered;
use super::group::TEACHINGS;
use super::ropes::{Parts, RopeNeed, needed_and_there};
use super::section::{About, Lines, Section};
use super::time::{Fades, Times, clock, rigged_ahead, span};
use super::{Plan, PlannedDrop, Row, group};
use crate::band::Band;
use crate::quantity::{Kind, Time, Toward, Units};
use crate::question::{Asked, End, Entry, Finding, Takes, Whether};

/// The words of a choice, as the page has them.
fn words(fields: &[Asked], name: &str) -> &'static str {
    let field = fields.iter().find(|field| field.about.name == name);
    match field.map(|field| (field.about.takes, field.entry)) {
        Some((Takes::Choice(choices), Entry::Choice(name))) => {
            choices.iter().find(|choice| choice.name == name).map_or("", |choice| choice.words)
        }
        _ => "",
    }
}

/// A range of spans, the slow end first.
fn spans(band: &Band) -> String {
    if band.is_exact() {
        span(band.high())
    } else {
        format!("up to {}, typically {}, at least {}", span(band.high()), span(band.typical()), span_down(band.low()))
    }
}

/// The quick end is not rounded up past the minute that is over.
fn span_down(time: f64) -> String {
    span(((time / 60.0 + 1e-6).floor() * 60.0).max(0.0))
}

fn clocks(band: &Band) -> String {
    let (low, high) = (clock(band.low(), true), clock(band.high(), false));
    if low == high { low } else { format!("{low} to {high}, typically {}", clock(band.typical(), false)) }
}

/// What is left over at the least, or missing at the most.
fn left(units: Units, metres: f64) -> String {
    let told = |toward| units.measured(metres.abs(), Kind::Length, toward);
    if metres < 0.0 {
        ["up to ", &told(Toward::More), " too short"].concat()
    } else {
        ["at least ", &told(Toward::Less), " left"].concat()
    }
}

/// A latest time, at the slow end and typically.
fn latest([slow, typical]: [f64; 2]) -> String {
    format!("{} at the slow end, {} typically", clock(slow, true), clock(typical, true))
}

/// Of a latest time, what lies too early: the slow end alone, or the typical one too.
fn at_which_end(typically: bool) -> &'static str {
    if typically { "" } else { "at the slow end " }
}

/// What stands until something else is entered may be entered too.
fn perhaps_assumed(is_another: bool) -> &'static str {
    if is_another { "" } else { " (assumed if not entered)" }
}

/// What may come before the end of the day.
fn fades(fades: Fades) -> &'static str {
    match fades {
        Fades::Dark => "all daylight: no sun all day, twilight at most",
        Fades::DirectSun => "the last direct sun on the floor",
        Fades::LastLight => "last light",
        Fades::Dusk => "the end of twilight",
    }
}

impl Plan {
    /// The checked plan as plain text: what runs past last light, open decisions and reserve rope head it, then
    /// the drops to look at first, then everything in the order of the descent.
    /// ```
    /// use rigging_core::plan::{Answers, Plan};
    /// use rigging_core::quantity::Units;
    ///
    /// // Of a plan without a name, a day and a drop.
    /// let plan = Plan::default();
    /// let text = plan.text(&plan.check(&mut Answers::default(), Units::default()));
    /// assert!(text.starts_with("RIGGING PLAN: no name\nDate: __________\n"));
    /// assert!(text.contains("- no drop entered\n"));
    /// ```
    pub fn text(&self, checked: &Checked) -> String {
        let mut text = String::new();
        for (place, Section { head, lines, .. }) in self.sections(checked).into_iter().enumerate() {
            let head = if place == 0 { lines } else { [String::new(), head].into_iter().chain(lines).collect() };
            for line in head {
                text.push_str(&line);
                text.push('\n');
            }
        }
        text
    }

    /// The same text in its parts.
    /// ```
    /// use rigging_core::plan::{Answers, Plan};
    /// use rigging_core::quantity::Units;
    ///
    /// // They are the text, line by line.
    /// let plan = Plan::example();
    /// let checked = plan.check(&mut Answers::default(), Units::default());
    /// let lines = plan.sections(&checked).iter().map(|section| section.lines.len()).sum::<usize>();
    /// let heads_and_gaps = 2 * (plan.sections(&checked).len() - 1);
    /// assert_eq!(plan.text(&checked).lines().count(), lines + heads_and_gaps);
    /// ```
    pub fn sections(&self, checked: &Checked) -> Vec<Section> {
        let mut lines = Lines { sections: Vec::new(), units: checked.units };
        self.title(&mut lines);
        self.late(&mut lines, &checked.times);
        self.open(&mut lines, checked);
        self.reserve(&mut lines, checked);
        self.first(&mut lines, checked);
        self.light(&mut lines, &checked.times);
        for (place, drop) in self.drops.iter().enumerate() {
            self.drop(&mut lines, checked, place, drop);
        }
        self.order(&mut lines);
        self.bring(&mut lines, checked.parts);
        if !self.day.notes.is_empty() {
            lines.head(About::Notes, "NOTES");
            lines.say(self.day.notes.clone());
        }
        lines.head(About::End, "Loads and times are ranges from what was entered. They know nothing of the rock, the anchors, the weather or the people today.");
        lines.sections
    }

    fn title(&self, lines: &mut Lines) {
        lines.head(About::Title, "");
        if self.day.invented == Whether::Yes {
            lines.say("EXAMPLE: everything in this plan is made up. There is no such place.");
        }
        let blank = |text: &str, blank: &str| if text.is_empty() { blank.to_owned() } else { text.to_owned() };
        lines.say(format!("RIGGING PLAN: {}", blank(&self.day.name, "no name")));
        lines.say(format!("Date: {}", blank(&self.day.date, "__________")));
        lines.say(format!(
            "Water: {}. Mark: {}",
            words(&self.day.asked(), "water"),
            blank(&self.day.water_mark, "none")
        ));
        lines.say("To fill in by hand on the day. Water at the mark: __________ Date and time: __________");
        lines.say("While this line is blank the plan is not valid.");
    }

    fn late(&self, lines: &mut Lines, times: &Times) {
        if times.past.is_empty() {
            return;
        }
        lines.head(About::Late, "LATE");
        for (what, time) in &times.past {
            let surely = if times.out.low() >= *time { "Runs" } else { "May run" };
            lines.say(format!("- {surely} past {} ({}): out {}", fades(*what), clock(*time, true), clocks(&times.out)));
        }
        if let Some(input) = times.moved_most_by {
            lines.say(format!("  moved most by: {input}"));
        }
    }

    fn open(&self, lines: &mut Lines, checked: &Checked) {
        if checked.open.is_empty() {
            return;
        }
        lines.head(About::Open, "OPEN DECISIONS");
        for open in &checked.open {
            let place = open.drop.map(|place| ["drop ", &self.name_of(place), ": "].concat());
            lines.say(format!("- {}{}", place.unwrap_or_default(), open.what));
        }
    }

    fn reserve(&self, lines: &mut Lines, checked: &Checked) {
        let units = lines.units;
        let ropes = &checked.ropes;
        lines.head(About::Reserve, "RESERVE ROPE");
        let dictates = ropes.dictated_by.and_then(|place| ropes.needs.get(place));
        match (dictates, ropes.reserve) {
            (Some(need), Some(reserve)) => {
                let name = self.name_of(need.drop);
                // One without an answer may need more.
                let dictates = if ropes.unanswered.is_empty() && ropes.unsaid.is_empty() {
                    ["- Drop ", &name, " dictates the rope"].concat()
                } else {
                    ["- Of those with an answer, drop ", &name, " dictates the rope"].concat()
                };
                lines.say(format!(
                    "{dictates}: {}, {}",
                    needed_and_there(units, &need.needed, need.there, need.carried),
                    left(units, reserve.low())
                ));
            }
            _ => lines.say("- not checked: no drop says how much rope it needs"),
        }
        let short = |what: String, needed: &Band, there: f64, carried: bool| {
            let told = || {
                format!(
                    "- {what}: {}, {}",
                    needed_and_there(units, needed, there, carried),
                    left(units, there - needed.high())
                )
            };
            (needed.high() > there).then(told)
        };
        for other in &ropes.needs {
            let name = self.name_of(other.drop);
            let cord = other.cord.as_ref();
            lines.say_if(cord.and_then(|(cord, there)| {
                short(format!("Pull cord of drop {name}"), cord, *there, other.beside.is_some())
            }));
            if dictates.is_none_or(|need| other.drop != need.drop) {
                let how = if other.end.is_none() { "even in a single strand, doubled twice as much" } else { "too" };
                lines.say_if(short(format!("Drop {name} {how}"), &other.needed, other.there, other.carried));
            }
        }
        for place in &ropes.unanswered {
            lines.say(format!("- Drop {}: no answer about its rope", self.name_of(*place)));
        }
        if let Some(spare) = ropes.spare {
            lines.say(format!(
                "- If the rope of drop {} is lost: {} needed in one piece for drop {} still below, {} with its set-back, {} there, {}; it hangs as a single strand, and to pull it down there too takes twice as much, or a cord",
                self.name_of(spare.lost_at),
                units.measured(spare.needed, Kind::Length, Toward::More),
                self.name_of(spare.down),
                units.measured(spare.below, Kind::Length, Toward::More),
                units.measured(spare.there, Kind::Length, Toward::Less),
                left(units, spare.there - spare.needed)
            ));
        }
        let unknown = self.unknown_from(1);
        if !unknown.is_empty() {
            let names = self.names_of(&unknown);
            lines.say(format!("- If a rope is lost above drop {names}: not checked, its height is not entered"));
        }
    }

    fn first(&self, lines: &mut Lines, checked: &Checked) {
        if checked.first.is_empty() {
            return;
        }
        lines.head(About::First, "LOOK AT THESE DROPS FIRST");
        for place in &checked.first {
            let Some(found) = checked.drops.get(*place) else { continue };
            lines.say(["Drop ", &self.name_of(*place)].concat());
            for reason in &found.reasons {
                lines.say(format!("- {}", told(reason)));
                if !reason.change.is_empty() {
                    lines.say(format!("  what would change it: {}", reason.change));
                }
            }
        }
    }

    fn light(&self, lines: &mut Lines, times: &Times) {
        let units = lines.units;
        let day = &self.day;
        lines.head(About::Light, "TIME AND LIGHT");
        lines.say(format!(
            "- Set off {}, the drops take {}, out {}",
            clock(day.start.value, false),
            spans(&times.descent),
            clocks(&times.out)
        ));
        let unknown = self.unknown_from(0);
        if !unknown.is_empty() {
            lines.say(format!(
                "  without the way down of drop {}, whose height is not entered",
                self.names_of(&unknown)
            ));
        }
        if let Some((why, times)) = self.hard() {
            let [all, each] = times.map(|times| units.range(&times, Kind::Ratio, Toward::More));
            let each = if all == each { String::new() } else { format!(", {each} what each person takes") };
            lines.say(format!("- Longer for {why}: {all} times{each}"));
        }
        lines.say(match &times.second_rope {
            Ok(ahead) => format!("- A second rope is {}", rigged_ahead(ahead)),
            Err(why) => format!("- Nothing is rigged ahead: {why}"),
        });
        if let Some(sun) = &times.sun {
            let at = |time: Option<Time>, none: &str| time.map_or(none.to_owned(), |time| clock(time.value, true));
            let [earliest, _, latest] = sun.direct_sun_leaves;
            let leaves = match (earliest, latest) {
                (None, None) if sun.up_at_noon && sun.sunset.is_none() => {
                    "direct sun on the floor may never leave".to_owned()
                }
                (None, None) => "no direct sun on the floor in the afternoon".to_owned(),
                (None, latest) => {
                    format!("last direct sun on the floor {} at the latest, perhaps none", at(latest, ""))
                }
                (earliest, latest) if earliest == latest => {
                    format!("last direct sun on the floor {}", at(earliest, ""))
                }
                (earliest, latest) => {
                    format!("last direct sun on the floor {} to {}", at(earliest, ""), at(latest, "never"))
                }
            };
            let none = if sun.up_at_noon { "none, the sun stays up" } else { "none, the sun stays down" };
            lines.say(format!(
                "- Sunrise {}, sunset {}, end of twilight {}, {leaves}",
                sun.sunrise.map_or(none.to_owned(), |time| clock(time.value, false)),
                at(sun.sunset, none),
                at(sun.dusk, "none")
            ));
        } else if let Some(light) = times.last_light {
            lines.say(format!("- Last light {}", clock(light, true)));
        }
        let hand = span(self.pace.in_hand.value);
        if let Some(start) = times.start_by {
            lines.say(format!("- To be out {hand} before last light, set off by {}", latest(start)));
            // Nobody sets off in the dark because a plan says so.
            let sunrise = times.sun.as_ref().and_then(|sun| sun.sunrise);
            if sunrise.is_some_and(|sunrise| start[0] < sunrise.value) {
                let typically = sunrise.is_some_and(|sunrise| start[1] < sunrise.value);
                lines.say(["  ", at_which_end(typically), "that is in the dark"].concat());
            }
            if start[0] < day.start.value {
                let typically = start[1] < day.start.value;
                lines.say(["  ", at_which_end(typically), "that is before the start entered"].concat());
            }
        }
        match times.turn_round {
            Some((place, time)) => {
                lines.say(format!(
                    "- Turn-round: take the way out before drop {} if it is not reached by {}",
                    self.name_of(place),
                    latest(time)
                ));
                let before = |time: f64| times.drops.get(place).is_some_and(|drop| time < drop.reached.low());
                if before(time[0]) {
                    lines.say(["  ", at_which_end(before(time[1])), "that is before anybody is there"].concat());
                }
            }
            None if times.last_light.is_some() => {
                lines.say("- No way out entered after the start: the start is the place to turn round")
            }
            None => lines.say("- Turn-round: not known, for last light is not"),
        }
    }

    fn drop(&self, lines: &mut Lines, checked: &Checked, place: usize, drop: &PlannedDrop) {
        let units = lines.units;
        let Some(found) = checked.drops.get(place) else { return };
        let fields = drop.asked();
        lines.head(About::Drop(place), format!("DROP {}: {}", self.name_of(place), found.standing.words()));
        let height = drop.height.map(|height| height.value);
        let height = if is_entered(&drop.height) {
            units.measured_range(&height, Kind::Length)
        } else {
            "height not entered".to_owned()
        };
        // Where it is 0 its questions have their own.
        let set_back = units.measured(drop.set_back.value, Kind::Length, Toward::More);
        let set_back = if drop.set_back.value > 0.0 { [", set-back ", &set_back].concat() } else { String::new() };
        let rope = self.rope_of(drop).filter(|_| drop.uses_rope());
        lines.say(format!(
            "  {height}{set_back}; at the bottom: {}; on: {}{}",
            words(&fields, "bottom"),
            words(&fields, "anchor"),
            rope.map_or(String::new(), |rope| format!("; rope {}", self.rope_name(rope)))
        ));
        let is_dictating =
            checked.ropes.dictated_by.and_then(|need| checked.ropes.needs.get(need)).map(|need| need.drop);
        for need in checked.ropes.needs.iter().filter(|need| need.drop == place) {
            lines.say(self.rope_line(units, need, is_dictating == Some(place)));
        }
        for (asked, answered) in found.asked.iter().zip(&found.answers) {
            let name = asked.question.name();
            match answered.as_ref() {
                Err(error) => lines.say(format!("  {name}: {}", error.words())),
                Ok(_) if !asked.missing.is_empty() => lines.say(format!("  {name}: an example still, not compared")),
                Ok(answer) => {
                    if let Some(finding) = answer.findings.first() {
                        lines.say(format!("  {name}: {}", found_in_words(units, finding)));
                    }
                }
            }
        }
        if let Some(time) = checked.times.drops.get(place) {
            // A time before anybody comes there is a clock that nobody would read as too late.
            let not_after = match time.not_after {
                Some([_, typical]) if typical < time.reached.low() => "; too late for the light left".to_owned(),
                Some([slow, typical]) if slow < time.reached.low() => {
                    format!("; not after {} typically, at the slow end too late as it is", clock(typical, true))
                }
                Some(time) => format!("; not after {}", latest(time)),
                None => String::new(),
            };
            lines.say(format!("  takes {}, reached {}{not_after}", spans(&time.spent), clocks(&time.reached)));
        }
        if drop.way_out == Whether::Yes {
            lines.say("  A way out before it");
        }
        if !drop.notes.is_empty() {
            lines.say(format!("  {}", drop.notes));
        }
    }

    fn order(&self, lines: &mut Lines) {
        let units = lines.units;
        lines.head(About::Order, "ORDER OF THE GROUP (two teachings, common practice, no source; nobody is sorted)");
        for teaching in TEACHINGS {
            lines.say(format!("{}:", teaching.name));
            lines.say(format!("  first: {}", teaching.first));
            lines.say(format!("  last: {}", teaching.last));
            lines.say(format!("  its price: {}", teaching.price));
        }
        for person in &self.group {
            let fields = person.asked();
            let mass = person
                .mass()
                .map_or("mass not entered".to_owned(), |mass| units.measured(mass.value, Kind::Mass, Toward::More));
            let name = if person.name.is_empty() { "no name" } else { &person.name };
            lines.say(format!(
                "- {name}: {mass}; on ropes: {}; in water: {}",
                words(&fields, "rope_skill"),
                words(&fields, "water_skill")
            ));
        }
        if group::masses(&self.group).is_some() {
            let kit = units.measured_range(&self.day.kit.map(|kit| kit.value), Kind::Mass);
            let water = units.measured(self.day.suit_water.value, Kind::Mass, Toward::More);
            let [of_kit, of_water] = self.day.carries().map(perhaps_assumed);
            lines.say(format!("- each with {kit} of kit{of_kit}, and {water} of water in the suit{of_water}"));
        }
        let order = if self.day.order.is_empty() { "______________________________" } else { &self.day.order };
        lines.say(format!("The leader's order: {order}"));
    }

    /// A drop as it is called: its number and its name.
    fn name_of(&self, place: usize) -> String {
        let name = self.drops.get(place).map_or("", |drop| &drop.name);
        [(place + 1).to_string().as_str(), if name.is_empty() { "" } else { " " }, name].concat()
    }

    fn names_of(&self, places: &[usize]) -> String {
        places.iter().map(|place| self.name_of(*place)).collect::<Vec<_>>().join(", drop ")
    }

    /// A rope as the list of what to bring has it.
    fn rope_name(&self, place: usize) -> String {
        let name = self.ropes.get(place).map_or("", |rope| &rope.name);
        [(place + 1).to_string().as_str(), ". ", if name.is_empty() { "no name" } else { name }].concat()
    }

    fn rope_line(&self, units: Units, need: &RopeNeed, dictates: bool) -> String {
        let how = if need.end.is_none() { "  rope, in a single strand " } else { "  rope " };
        let mut line = [how, &needed_and_there(units, &need.needed, need.there, need.carried)].concat();
        if need.cord.is_none() && need.end.is_some_and(|end| end.released) {
            line += ", what is let out counted as entered";
        }
        if let Some((cord, there)) = &need.cord {
            let with = need.beside.map_or("a cord".to_owned(), |rope| self.rope_name(rope));
            let told = needed_and_there(units, cord, *there, need.beside.is_some());
            line += &["; pulled with ", &with, ": ", &told].concat();
        }
        if dictates {
            line += " <- DICTATES THE ROPE";
        }
        line
    }

    fn bring(&self, lines: &mut Lines, parts: Parts) {
        let units = lines.units;
        lines.head(About::Bring, "BRING");
        for (place, rope) in self.ropes.iter().enumerate() {
            let fields = rope.asked();
            let length = if rope.length.value > 0.0 {
                units.measured(rope.length.value, Kind::Length, Toward::Less)
            } else {
                "length not entered".to_owned()
            };
            let diameter = units.measured(rope.diameter.value, Kind::Thickness, Toward::Less);
            let assumed = perhaps_assumed(rope.is_another());
            lines.say(format!(
                "- {}: {length}, {diameter}{assumed}, {}",
                self.rope_name(place),
                words(&fields, "kind")
            ));
        }
        let at = |(count, drop): (u32, usize), what: &str| match count {
            0 => format!("no {what} counted besides what is left behind"),
            1 => format!("1 {} at once, at drop {}", what.trim_end_matches('s'), self.name_of(drop)),
            _ => format!("{count} {what} at once, at drop {}", self.name_of(drop)),
        };
        lines.say(format!("- {}", at(parts.slings, "slings")));
        lines.say(format!("- {}", at(parts.connectors, "connectors")));
        lines.say(format!("- to be left behind: links {}, slings {}", parts.links_left, parts.slings_left));
        lines.say("  Counted: anchor legs, natural anchors, lines, guided abseils, a link for each rope that hangs, what was entered besides; not what other questions use, legs that stay with their link, personal kit.");
    }
}

/// A finding as the sentence that its `what` ends: "up to 2.0 kN on the left anchor".
fn found_in_words(units: Units, finding: &Finding) -> String {
    let said = match finding.end {
        End::High => "up to ",
        End::Low if finding.at_most => "at most ",
        End::Low => "at least ",
    };
    [said, &units.adverse(finding), " ", &finding.what].concat()
}

fn told(reason: &Reason) -> String {
    match reason.why {
        Why::RestsOn(unknown) => format!("{} {}: nobody knows its strength", reason.why.words(), unknown.words()),
        _ => format!("{}: {}", reason.why.words(), reason.what),
    }
}
