//! Questions on their way into the plan and back to their own screens.

use super::{Left, PlanSheet};
use crate::link::{Link, value, with_key};
use crate::page::Whose;
use crate::page::sheet::{Sheet, Typed, Wrong};
use crate::plan::{List, Side, name_of};
use rigging_core::plan::{AskedToday, MOST, PlannedDrop, Row, WaterToday};
use rigging_core::quantity::Units;
use rigging_core::question::{Held, Question};

impl PlanSheet {
    /// Says where a sheet stands beside the plan; the question that stands there, as it is asked today, if it is this one.
    pub(in crate::page) fn side(&self, side: &mut Side) -> Option<AskedToday> {
        side.drops = (0..self.plan.drops.len()).map(|place| name_of(&self.plan, place)).collect();
        side.at = None;
        let at = side.of.and_then(|(key, _)| self.place_of(List::Drops, key));
        let asked = at.zip(side.of).and_then(|(at, of)| self.plan.asked_today(at).into_iter().nth(of.1))?;
        let now = given_in(&asked);
        if !side.was.is_empty() && side.was != now {
            return None;
        }
        let fields = asked.fields.iter().map(|field| field.about);
        side.given = fields.filter(|about| asked.given.contains(&about.name)).map(|about| about.label).collect();
        side.chosen = side.chosen.or(at);
        (side.at, side.was) = (at, now);
        Some(asked)
    }

    /// The same of a sheet that is shown again: what the plan says itself of its question is as it is said now.
    pub(in crate::page) fn stands(&self, sheet: &mut Sheet) {
        let Some(asked) = self.side(&mut sheet.side) else { return };
        for field in asked.fields.iter().filter(|field| asked.given.contains(&field.about.name)) {
            let _ = sheet.question.set(field.about.name, &field.entry);
        }
    }

    /// The question at `drop/question` on a sheet of its own, as it is asked today; or one not asked yet, by its letters.
    pub(in crate::page) fn question(&self, drop: usize, question: &str) -> Option<Sheet> {
        let key = *self.keys_of(List::Drops).get(drop)?;
        let units = self.units;
        let opened = |question, whose| Sheet::opened(Link { question, units, from: None }, whose);
        let Some(place) = question.parse::<usize>().ok().and_then(|number| number.checked_sub(1)) else {
            // What the plan says of the drop is not asked twice; its water is raised once it is in the plan.
            let (mut plan, place) = (self.plan.clone(), drop);
            plan.day.water = WaterToday::AsEntered;
            let (drop, mut question) = (plan.drops.get_mut(drop)?, with_key(question)?);
            // What it hangs on, where the question knows such anchors.
            for field in Row::asked(drop).iter().filter(|field| field.about.name == "anchor") {
                let _ = question.set("anchor", &field.entry);
            }
            drop.put(Held::example(question));
            let mut sheet = opened(plan.asked_today(place).pop()?.question, Whose::Example);
            sheet.side = Side { chosen: Some(place), of_drop: true, ..Side::default() };
            self.side(&mut sheet.side);
            return Some(sheet);
        };
        let asked = self.plan.asked_today(drop).into_iter().nth(place)?;
        let whose = match &self.whose {
            // What was never said to be anybody's stays an example.
            Whose::Mine(_) | Whose::Earlier(_) if !asked.missing.is_empty() => Whose::Example,
            whose => whose.clone(),
        };
        let mut sheet = opened(asked.question, whose);
        sheet.side = Side { of: Some((key, place)), of_drop: true, ..Side::default() };
        self.side(&mut sheet.side);
        if let Some(left) = self.left.iter().find(|left| left.of == (key, place)) {
            (sheet.typed, sheet.wrong) = (left.typed.clone(), left.wrong.clone());
            // The plan may be told in other units now.
            sheet.read_refused(units);
        }
        Some(sheet)
    }

    /// Puts the question of a sheet into the drop chosen there, or into a new one; what became of it.
    pub(in crate::page) fn put_in(&mut self, sheet: &Sheet, now: &str) -> Result<Side, &'static str> {
        if !sheet.refused().is_empty() {
            return Err("An entry cannot be used: see the message beside it.");
        }
        let held = held(sheet);
        let chosen = sheet.side.chosen.unwrap_or(0).min(self.plan.drops.len());
        if self.plan.drops.get(chosen).is_some_and(|drop| drop.questions.len() >= MOST[1]) {
            return Err("This drop holds as many questions as it can.");
        }
        if chosen >= MOST[0] {
            return Err("The plan holds as many drops as it can.");
        }
        if self.plan.questions() >= MOST[2] {
            return Err("The plan holds as many questions as it can.");
        }
        self.mark("put:", false);
        if chosen == self.plan.drops.len() {
            let key = self.new_key(List::Drops);
            self.keys.get_mut(List::Drops as usize).ok_or("There is no such list.")?.push(key);
            self.plan.drops.push(PlannedDrop::default());
        }
        let Some(drop) = self.plan.drops.get_mut(chosen) else { return Err("There is no such drop.") };
        drop.put(held);
        let of = self
            .keys_of(List::Drops)
            .get(chosen)
            .copied()
            .zip(self.plan.drops.get(chosen).map(|drop| drop.questions.len() - 1));
        self.touched(now);
        let said = format!("Put into drop {}.", name_of(&self.plan, chosen));
        let mut side = Side { chosen: Some(chosen), of, of_drop: sheet.side.of_drop, said, ..Side::default() };
        self.side(&mut side);
        Ok(side)
    }

    /// Takes the question of a sheet back into the drop that it came from, if it was changed; what became of it. What the
    /// plan says itself stays as the plan says it, so that a change of the water is not taken twice.
    pub(in crate::page) fn take_back(&mut self, sheet: &Sheet, now: &str) -> Option<String> {
        let mut side = sheet.side.clone();
        self.side(&mut side);
        let (at, of) = side.at.zip(side.of)?;
        // Of an earlier day it is not of today because a question of it is.
        self.age(now);
        let place = of.1;
        self.left.retain(|left| left.of != of);
        self.turned_away = None;
        let refused = self.leave_refused(sheet, of);
        let today = self.plan.asked_today(at).into_iter().nth(place)?;
        let link = |question: &Question| Link { question: question.clone(), units: sheet.units, from: None }.write();
        let told = matches!(sheet.whose, Whose::Mine(_)) && !today.missing.is_empty();
        if !told && link(&today.question) == link(&sheet.question) {
            return (!refused.is_empty()).then(|| "Not taken back: an entry cannot be used.".to_owned());
        }
        let mut back = held(sheet);
        let (was, given) = (today.question.fields(), today.given);
        let held = self.plan.drops.get(at)?.questions.get(place)?;
        // In a plan that is nobody's yet, nothing counts either way; what was never given stays so.
        if !matches!(self.whose, Whose::Mine(_)) && !matches!(sheet.whose, Whose::Mine(_)) {
            back.missing.clone_from(&held.missing);
        }
        // An example's number is nobody's where another was meant.
        let still = held.missing.iter().filter(|name| refused.contains(name) && !back.missing.contains(name));
        back.missing = back.missing.iter().chain(still).copied().collect();
        let mut stays = Vec::new();
        for ((now, before), stored) in sheet.question.fields().iter().zip(&was).zip(held.question.fields()) {
            if given.contains(&stored.about.name) {
                if now.entry != before.entry {
                    stays.push(now.about.label);
                }
                let _ = back.question.set(stored.about.name, &stored.entry);
            }
        }
        self.mark("put:", false);
        if let Some(held) = self.plan.drops.get_mut(at).and_then(|drop| drop.questions.get_mut(place)) {
            *held = back;
        }
        self.touched(now);
        let mut said = format!("Taken back into drop {}.", name_of(&self.plan, at));
        if !stays.is_empty() {
            let stays = format!("{}: the plan says it itself, change it there", stays.join("; "));
            said = format!("{said} Not taken: {stays}.");
            self.turned_away = Some(stays);
        }
        if !refused.is_empty() {
            said += " Not all of it: an entry cannot be used.";
        }
        Some(said)
    }

    /// Keeps what was typed into the question of a drop and cannot be used, so that it stands there again; the names of
    /// its fields.
    fn leave_refused(&mut self, sheet: &Sheet, of: (u32, usize)) -> Vec<&'static str> {
        let (mut typed, mut wrong) = (Typed::default(), Wrong::default());
        let refused = sheet.refused();
        for about in refused.iter().map(|field| field.about) {
            let name = about.name;
            typed.keep_all(&sheet.typed.of_field(name, &about, sheet.units));
            wrong.keep(name.to_owned(), sheet.wrong.get(name).cloned().unwrap_or_default());
        }
        if !refused.is_empty() {
            let labels: Vec<_> = refused.iter().map(|field| field.about.label).collect();
            let why = format!(
                "{}, {}: what was typed cannot be used; what stood there before counts",
                sheet.question.name(),
                labels.join("; ")
            );
            self.left.push(Left { of, typed, wrong, why });
        }
        refused.iter().map(|field| field.about.name).collect()
    }
}

/// All that somebody gave of a question that stands in a plan, in SI; of the rest a file says nothing, and what the plan
/// says itself may change.
fn given_in(asked: &AskedToday) -> String {
    let mut given = asked.question.key().to_owned();
    for field in asked.fields.iter().filter(|field| field.matters) {
        let name = &field.about.name;
        if !asked.missing.contains(name) && !asked.given.contains(name) {
            given += "/";
            given += &value(field, Units::default());
        }
    }
    given
}

/// The question of a sheet; nothing in it counts unless it is mine.
fn held(sheet: &Sheet) -> Held {
    let question = sheet.question.clone();
    if matches!(sheet.whose, Whose::Mine(_)) { Held::new(question) } else { Held::example(question) }
}
