//! What is said once for the whole plan, and goes into every question that asks for it.
//!
//! | of | goes into |
//! |---|---|
//! | the group | `body_kg` of every question |
//! | the day | `kit_kg`, `suit_water_kg` of every question, where masses of the group are known |
//! | the water | `flow`, `float_s`, `depth` of *in the current*; `falling_water` of the *abseil* |
//! | the drop | `height_m`, `set_back_m`, `bottom` of the *rope*; `height_m` of the *abseil*, its high end |
//! | the rope chosen for a drop, else the longest | `rope_m`, `diameter_m` of the *rope*; `diameter_m` of *abseil* and *pull-down* |
//! | the drops still below | `next_drop_m`, and the longest other rope as `spare_m`, of the *pull-down* |
//!
//! What a step of water does not move: what is at the bottom, what lies downstream, and a line that is dry.

use super::day::is_entered;
use super::planned_drop::Held;
use super::{Plan, PlannedDrop, group};
use crate::band::Band;
use crate::question::field::{Choice, Enters};
use crate::question::{BadInput, Depth, Entry, FallingWater, Flow, Question};

/// A question as it is asked today.
#[derive(Debug, Clone, PartialEq)]
pub struct AskedToday {
    /// The question with what the plan says put in: asked on its own screen it has the same answer.
    pub question: Question,
    /// Fields that the plan gave.
    pub given: Vec<&'static str>,
    /// Fields that matter and that nobody gave.
    pub missing: Vec<&'static str>,
    /// What the plan says and the question does not take.
    pub refused: Vec<BadInput>,
}

/// How many times as fast one step of water is: the words of speed lie 1.6 times apart (assumed).
const FASTER: f64 = 1.6;

/// The choice some steps farther along a list that grows worse, at most the last.
fn worse(choices: &'static [Choice], now: &Entry, steps: usize) -> Option<Entry> {
    let Entry::Choice(name) = now else { return None };
    let place = choices.iter().position(|choice| choice.name == *name)?;
    let last = choices.len().checked_sub(1)?;
    choices.get((place + steps).min(last)).map(|choice| Entry::Choice(choice.name))
}

impl Plan {
    /// Index of the rope for a drop in the list of ropes carried: the one chosen, else the longest.
    pub fn rope_of(&self, drop: &PlannedDrop) -> Option<usize> {
        let hangs = |place: usize| self.ropes.get(place).and_then(super::CarriedRope::hangs);
        match (drop.rope as usize).checked_sub(1) {
            Some(place) => hangs(place).map(|_| place),
            None => self.longest_but(None),
        }
    }

    /// Index of the longest rope to hang on, one left aside; the first of those that are equally long.
    pub fn longest_but(&self, aside: Option<usize>) -> Option<usize> {
        let ropes = self.ropes.iter().enumerate().filter(|(place, _)| Some(*place) != aside);
        let known = ropes.filter_map(|(place, rope)| rope.hangs().map(|length| (place, length)));
        known
            .fold(None, |best: Option<(usize, f64)>, rope| match best {
                Some(best) if best.1 >= rope.1 => Some(best),
                _ => Some(rope),
            })
            .map(|(place, _)| place)
    }

    /// The highest of the drops after one, where a rope is used, m; 0 after the last.
    pub fn highest_after(&self, place: usize) -> f64 {
        let drops = self.drops.iter().skip(place + 1).filter(|drop| drop.uses_rope());
        drops.map(|drop| drop.height.high().value).fold(0.0, f64::max)
    }

    /// The questions of a drop, as they are asked today.
    pub fn asked_today(&self, place: usize) -> Vec<AskedToday> {
        let Some(drop) = self.drops.get(place) else { return Vec::new() };
        drop.questions.iter().map(|held| self.asked(place, drop, held)).collect()
    }

    fn asked(&self, place: usize, drop: &PlannedDrop, held: &Held) -> AskedToday {
        let mut asked =
            AskedToday { question: held.question.clone(), given: Vec::new(), missing: Vec::new(), refused: Vec::new() };
        if let Some(body) = group::masses(&self.group) {
            asked.put("body_kg", body.to_entry());
            asked.put("kit_kg", self.day.kit.to_entry());
            asked.put("suit_water_kg", self.day.suit_water.to_entry());
        }
        let used = self.rope_of(drop);
        let question = asked.question.name();
        if question == "rope" || question == "abseil" {
            if is_entered(&drop.height) {
                let height = drop.height.to_entry();
                // The abseil takes one height: the most rope hangs and brakes at the highest.
                asked.put("height_m", if question == "rope" { height } else { drop.height.high().to_entry() });
            }
            if question == "rope" {
                asked.put("set_back_m", drop.set_back.to_entry());
                asked.put("bottom", drop.bottom.to_entry());
            }
        }
        if question == "rope" || question == "abseil" || question == "pull-down" {
            if let Some(rope) = used.and_then(|place| self.ropes.get(place)) {
                asked.put("diameter_m", rope.diameter.to_entry());
                if question == "rope" {
                    asked.put("rope_m", rope.length.to_entry());
                }
            }
        }
        if question == "pull-down" && !self.ropes.is_empty() {
            let spare =
                self.longest_but(used).and_then(|spare| self.ropes.get(spare)).map_or(0.0, |rope| rope.length.value);
            asked.put("spare_m", Entry::One(spare));
            asked.put("next_drop_m", Entry::One(self.highest_after(place)));
        }
        self.raise_water(&mut asked);
        asked.missing = held.missing.iter().copied().filter(|name| !asked.given.contains(name)).collect();
        asked
    }

    fn raise_water(&self, asked: &mut AskedToday) {
        let steps = self.day.water.steps();
        if steps == 0 {
            return;
        }
        let now: Vec<_> = asked
            .question
            .fields()
            .into_iter()
            .filter(|field| field.matters)
            .map(|field| (field.about.name, field.entry))
            .collect();
        for (name, entry) in now {
            let raised = match (name, entry) {
                ("flow", _) => worse(Flow::CHOICES, &entry, steps),
                ("depth", _) => worse(Depth::CHOICES, &entry, steps),
                // A line that hangs dry is taken to stay dry: look at it.
                ("falling_water", entry) if entry != FallingWater::None.to_entry() => {
                    worse(FallingWater::CHOICES, &entry, steps)
                }
                ("float_s", Entry::One(time)) => Some(Entry::One((time / FASTER.powi(steps as i32)).max(0.5))),
                _ => None,
            };
            if let Some(raised) = raised.filter(|raised| *raised != entry) {
                asked.put_known(name, raised);
            }
        }
    }
}

impl PlannedDrop {
    /// Whether a rope is used.
    pub fn uses_rope(&self) -> bool {
        self.anchor != super::DropAnchor::NoRope
    }

    /// Puts a question to the drop: what the drop does not say yet, it takes from it.
    pub fn put(&mut self, held: Held) {
        let value = |name: &str| {
            held.question.fields().into_iter().find(|field| field.about.name == name).map(|field| field.entry)
        };
        if held.question.name() == "rope" && held.missing.is_empty() && !is_entered(&self.height) {
            let (height, set_back, bottom) = (value("height_m"), value("set_back_m"), value("bottom"));
            if let Some(height) = height.and_then(|entry| Band::from_entry(&entry)) {
                self.height = height;
            }
            if let Some(set_back) = set_back.and_then(|entry| Enters::from_entry(&entry)) {
                self.set_back = set_back;
            }
            if let Some(bottom) = bottom.and_then(|entry| Enters::from_entry(&entry)) {
                self.bottom = bottom;
            }
        }
        self.questions.push(held);
    }
}

impl AskedToday {
    /// Sets a field if the question has it.
    fn put(&mut self, name: &'static str, entry: Entry) {
        if self.question.fields().iter().any(|field| field.about.name == name) {
            self.put_known(name, entry);
        }
    }

    fn put_known(&mut self, name: &'static str, entry: Entry) {
        match self.question.set(name, &entry) {
            Ok(()) => self.given.push(name),
            Err(error) => self.refused.push(error),
        }
    }
}
