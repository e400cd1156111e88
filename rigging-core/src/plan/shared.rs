//! What is said once for the whole plan, and goes into every question that asks for it.
//!
//! | of | goes into |
//! |---|---|
//! | the group | `body_kg` of every question |
//! | the day | `kit_kg`, `suit_water_kg` of every question, where masses of the group are known or they were changed |
//! | the water | `flow`, `float_s`, `depth` of *in the current*; `falling_water` of the *abseil* |
//! | the drop | `height_m`, `bottom`, and `set_back_m` if it is not 0, of the *rope*; `height_m` of *abseil* and, with `rising_m`, of a *pull-down* without a slab, its high end |
//! | the rope chosen for a drop, else the longest | `rope_m`, `diameter_m` of the *rope*; `diameter_m` of *abseil* and *pull-down* |
//! | the longest other rope, where two are joined | `second_m` of the *rope* |
//! | the longest pull cord, else the longest other rope, where one is pulled | `cord_m` of the *rope* |
//! | the longest way down still below, set-back counted | `next_drop_m`, and the longest rope that is not at this drop as `spare_m`, of the *pull-down* |
//!
//! Kit and water of a day that are those assumed, and masses of a group of which one is missing, take nothing off what
//! a question says: of ranges both count, from the least to the most, of a single number the larger; so does the next drop
//! while one below has no height. A *rope* is asked for a height of a metre at least.
//!
//! What a step of water does not move: what is at the bottom, what lies downstream, and a line that is dry.

use super::day::is_entered;
use super::{Plan, PlannedDrop, RopeKind, group};
use crate::band::Band;
use crate::quantity::{Length, metre};
use crate::question::field::{Choice, Enters, put};
use crate::question::{
    Asked, BadInput, Bottom, Depth, Entry, FallingWater, Flow, Held, Hung, Met, Question, RopeEnd, Tool,
};

/// A question as it is asked today.
/// ```
/// use rigging_core::plan::{Person, Plan, PlannedDrop};
/// use rigging_core::quantity::{Mass, kilogram};
/// use rigging_core::question::{Held, Question};
///
/// // Of an example question the plan gives the masses; the span is still nobody's.
/// let drop = PlannedDrop { questions: vec![Held::example(Question::named("line")?)], ..PlannedDrop::default() };
/// let group = vec![Person { body: Mass::new::<kilogram>(80.0), ..Person::default() }];
/// let asked = &Plan { group, drops: vec![drop], ..Plan::default() }.asked_today(0)[0];
/// assert!(asked.given.contains(&"body_kg") && !asked.missing.contains(&"body_kg"));
/// assert!(asked.missing.contains(&"span_m") && asked.refused.is_empty());
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct AskedToday {
    /// The question with what the plan says put in: asked on its own screen it has the same answer.
    pub question: Question,
    /// Its fields as they then stand.
    pub fields: Vec<Asked>,
    /// Fields that the plan gave.
    pub given: Vec<&'static str>,
    /// Fields that matter and that nobody gave.
    pub missing: Vec<&'static str>,
    /// What the plan says and the question does not take.
    pub refused: Vec<BadInput>,
    /// Whether a step of water would change it.
    pub moves_with_water: bool,
}

/// Whether two ropes are joined.
fn is_joined(rope: &RopeEnd) -> bool {
    rope.hung == Hung::Doubled && rope.second.value > 0.0
}

/// Whether it is of a line that takes a rope of its own, which no question counts.
pub(super) fn takes_a_line(held: &Held) -> bool {
    match &held.question {
        Question::GuidedAbseil(_) | Question::Line(_) => true,
        // A throw line comes in a bag of its own.
        Question::InTheCurrent(current) => current.tool != Tool::ThrowLine,
        _ => false,
    }
}

/// The choice some steps farther along a list that grows worse, at most the last.
fn worse(choices: &'static [Choice], now: &Entry, steps: usize) -> Option<Entry> {
    let Entry::Choice(name) = now else { return None };
    let place = choices.iter().position(|choice| choice.name == *name)?;
    let last = choices.len().checked_sub(1)?;
    choices.get((place + steps).min(last)).map(|choice| Entry::Choice(choice.name))
}

/// What the plan says; while that is not all entered, what stands in the question too: from the least of both to the
/// most.
fn said(question: &Question, name: &'static str, says: Entry, is_entered: bool) -> (&'static str, Entry) {
    let fields = question.fields();
    let own = fields.iter().find(|field| field.about.name == name && !is_entered).map(|field| field.entry);
    let both = match (says, own) {
        (Entry::Range(says), Some(Entry::Range(own))) => {
            Entry::Range(Band::of(says.low().min(own.low()), says.typical(), says.high().max(own.high())))
        }
        (Entry::One(says), Some(Entry::One(own))) => Entry::One(says.max(own)),
        _ => says,
    };
    (name, both)
}

impl Plan {
    /// Index of the rope for a drop in the list of ropes carried: the one chosen, else the longest.
    /// ```
    /// use rigging_core::plan::{CarriedRope, Plan, PlannedDrop, RopeKind};
    /// use rigging_core::quantity::{Length, metre};
    ///
    /// let rope = |length, kind| CarriedRope { length: Length::new::<metre>(length), kind, ..CarriedRope::default() };
    /// let ropes = vec![rope(25.0, RopeKind::Rope), rope(60.0, RopeKind::Rope), rope(80.0, RopeKind::PullCord)];
    /// let plan = Plan { ropes, ..Plan::default() };
    /// // None chosen: the longest to hang on; else the one chosen, counted from 1, unless it is a cord.
    /// let of = |rope| plan.rope_of(&PlannedDrop { rope, ..PlannedDrop::default() });
    /// assert_eq!((of(0), of(1), of(3)), (Some(1), Some(0), None));
    /// ```
    pub fn rope_of(&self, drop: &PlannedDrop) -> Option<usize> {
        let hangs = |place: usize| self.ropes.get(place).and_then(super::CarriedRope::hangs);
        match (drop.rope as usize).checked_sub(1) {
            Some(place) => hangs(place).map(|_| place),
            None => self.longest_but(&[]),
        }
    }

    /// Index of the longest rope to hang on, some left aside; the first of those that are equally long.
    /// ```
    /// use rigging_core::plan::{CarriedRope, Plan, RopeKind};
    /// use rigging_core::quantity::{Length, metre};
    ///
    /// let rope = |length, kind| CarriedRope { length: Length::new::<metre>(length), kind, ..CarriedRope::default() };
    /// let ropes = vec![rope(25.0, RopeKind::Rope), rope(60.0, RopeKind::Rope), rope(80.0, RopeKind::PullCord)];
    /// let plan = Plan { ropes, ..Plan::default() };
    /// assert_eq!((plan.longest_but(&[]), plan.longest_but(&[1]), plan.longest_but(&[0, 1])), (Some(1), Some(0), None));
    /// ```
    pub fn longest_but(&self, aside: &[usize]) -> Option<usize> {
        self.longest(aside, super::CarriedRope::hangs)
    }

    fn longest(&self, aside: &[usize], length: fn(&super::CarriedRope) -> Option<f64>) -> Option<usize> {
        let ropes = self.ropes.iter().enumerate().filter(|(place, _)| !aside.contains(place));
        let mut best: Option<(usize, f64)> = None;
        for (place, length) in ropes.filter_map(|(place, rope)| length(rope).map(|length| (place, length))) {
            if best.is_none_or(|(_, longest)| length > longest) {
                best = Some((place, length));
            }
        }
        best.map(|(place, _)| place)
    }

    /// Index of the rope that a question needs beside the one that hangs: the longest joined to it, or that pulls it.
    /// A rope pulls only where there is no cord: it may be meant to stay free.
    pub(super) fn beside(&self, own: Option<usize>, question: &Question) -> Option<usize> {
        let own: Vec<usize> = own.into_iter().collect();
        match question {
            Question::RopeEnd(rope) if is_joined(rope) => self.longest_but(&own),
            Question::RopeEnd(rope) if rope.hung == Hung::PullCord => {
                let cord = |cord: &super::CarriedRope| {
                    Some(cord.length.value).filter(|length| *length > 0.0 && cord.kind == RopeKind::PullCord)
                };
                self.longest(&own, cord).or_else(|| self.longest_but(&own))
            }
            _ => None,
        }
    }

    /// Indices of the ropes at a drop: the one that hangs, and those that its questions need beside it.
    pub(super) fn at(&self, own: Option<usize>, drop: &PlannedDrop) -> Vec<usize> {
        let beside = drop.questions.iter().filter_map(|held| self.beside(own, &held.question));
        own.into_iter().chain(beside).collect()
    }

    /// Length of a rope of the list, 0 if it is none.
    fn long(&self, rope: Option<usize>) -> Entry {
        Entry::One(rope.and_then(|rope| self.ropes.get(rope)).map_or(0.0, |rope| rope.length.value))
    }

    /// Which of the drops after one, where a rope is used, takes the longest rope from its station to its bottom, and
    /// how long that is, m; none after the last.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::plan::{DropAnchor, Plan, PlannedDrop};
    /// use rigging_core::quantity::{Length, metre};
    ///
    /// let drop = |height, set_back, anchor| {
    ///     let (height, set_back) = (Band::exact(Length::new::<metre>(height)), Length::new::<metre>(set_back));
    ///     PlannedDrop { height, set_back, anchor, ..PlannedDrop::default() }
    /// };
    /// // The second is the higher, the third stands farther behind its lip, and the last is jumped.
    /// let known = DropAnchor::Known;
    /// let roped = [drop(30.0, 0.0, known), drop(12.0, 1.0, known), drop(10.0, 5.0, known)];
    /// let drops = roped.into_iter().chain([drop(20.0, 0.0, DropAnchor::NoRope)]).collect();
    /// let plan = Plan { drops, ..Plan::default() };
    /// assert_eq!([0, 1, 2].map(|place| plan.longest_after(place)), [Some((2, 15.0)), Some((2, 15.0)), None]);
    /// ```
    pub fn longest_after(&self, place: usize) -> Option<(usize, f64)> {
        let (mut longest, mut most) = (None, 0.0);
        for (place, drop) in self.drops.iter().enumerate().skip(place.saturating_add(1)) {
            let way = drop.way().value;
            if drop.uses_rope() && way > most {
                (longest, most) = (Some(place), way);
            }
        }
        longest.map(|place| (place, most))
    }

    /// The drops from one on, where a rope is used, whose heights were not entered: any may take the longest rope.
    pub(super) fn unknown_from(&self, place: usize) -> Vec<usize> {
        let after = self.drops.iter().enumerate().skip(place);
        after.filter(|(_, drop)| drop.uses_rope() && !is_entered(&drop.height)).map(|(place, _)| place).collect()
    }

    /// The questions of a drop, as they are asked today.
    /// ```
    /// use rigging_core::plan::{Day, Plan, PlannedDrop, WaterToday};
    /// use rigging_core::question::{Entry, Held, Question};
    ///
    /// // Water one step higher than entered: what went at walking pace now goes at that of jogging.
    /// let questions = vec![Held::new(Question::named("in the current")?)];
    /// let drop = PlannedDrop { questions, ..PlannedDrop::default() };
    /// let day = Day { water: WaterToday::Higher, ..Day::default() };
    /// let asked = &Plan { day, drops: vec![drop], ..Plan::default() }.asked_today(0)[0];
    /// let flow = asked.fields.iter().find(|field| field.about.name == "flow").map(|field| field.entry);
    /// assert_eq!((flow, asked.moves_with_water), (Some(Entry::Choice("jog")), true));
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn asked_today(&self, place: usize) -> Vec<AskedToday> {
        let Some(drop) = self.drops.get(place) else { return Vec::new() };
        drop.questions.iter().map(|held| self.asked(place, drop, held)).collect()
    }

    fn asked(&self, place: usize, drop: &PlannedDrop, held: &Held) -> AskedToday {
        let mut question = held.question.clone();
        let mut says: Vec<(&'static str, Entry)> = Vec::new();
        let day = &self.day;
        let [is_kit, is_water] = day.carries();
        let body = group::masses(&self.group);
        if let Some(body) = body {
            // Whoever's mass is not known may be the lightest or the heaviest.
            let is_whole = self.group.iter().all(|person| person.mass().is_some());
            says.push(said(&question, "body_kg", body.to_entry(), is_whole));
        }
        if body.is_some() || is_kit {
            says.push(said(&question, "kit_kg", day.kit.to_entry(), is_kit));
        }
        if body.is_some() || is_water {
            says.push(said(&question, "suit_water_kg", day.suit_water.to_entry(), is_water));
        }
        let rope = self.rope_of(drop);
        let used = rope.and_then(|rope| self.ropes.get(rope));
        match question.name() {
            "rope" => {
                if is_entered(&drop.height) {
                    // A drop that goes down to less than a metre is asked about from a metre on.
                    let least = Length::new::<metre>(1.0);
                    says.push(("height_m", drop.height.map(|height| height.max(least)).to_entry()));
                }
                if drop.set_back.value > 0.0 {
                    says.push(("set_back_m", drop.set_back.to_entry()));
                }
                says.push(("bottom", drop.bottom.to_entry()));
                says.extend(used.map(|rope| ("rope_m", rope.length.to_entry())));
                says.extend(used.map(|rope| ("diameter_m", rope.diameter.to_entry())));
                let beside = || self.long(self.beside(rope, &question));
                match &question {
                    _ if self.ropes.is_empty() => {}
                    Question::RopeEnd(rope) if is_joined(rope) => says.push(("second_m", beside())),
                    Question::RopeEnd(rope) if rope.hung == Hung::PullCord => says.push(("cord_m", beside())),
                    _ => {}
                }
            }
            "abseil" => {
                if is_entered(&drop.height) {
                    // It takes one height: the most rope hangs and brakes at the highest.
                    says.push(("height_m", drop.height.high().to_entry()));
                }
                says.extend(used.map(|rope| ("diameter_m", rope.diameter.to_entry())));
            }
            "pull-down" => {
                // The strand that rises hangs as much less than the other as its question says. Of a slab the question asks how
                // far it goes down from its foot.
                if let Question::PullDown(pull) = &question
                    && is_entered(&drop.height)
                    && pull.slab.met == Met::Neither
                {
                    let height = drop.height.high();
                    says.push(("height_m", height.to_entry()));
                    says.push(("rising_m", (height - pull.height + pull.rising).max(Length::default()).to_entry()));
                }
                says.extend(used.map(|rope| ("diameter_m", rope.diameter.to_entry())));
                if !self.ropes.is_empty() {
                    says.push(("spare_m", self.long(self.longest_but(&self.at(rope, drop)))));
                    let way = self.longest_after(place).map_or(0.0, |(_, way)| way);
                    says.push(said(&question, "next_drop_m", Entry::One(way), self.unknown_from(place + 1).is_empty()));
                }
            }
            _ => {}
        }
        says.extend(raised(&question, self.day.water.steps()));
        let moves_with_water = !raised(&question, 1).is_empty();
        let (mut given, mut refused) = (Vec::new(), Vec::new());
        for ((name, _), outcome) in says.iter().zip(question.put(&says)) {
            match outcome {
                Some(Ok(())) => given.push(*name),
                Some(Err(error)) => refused.push(error),
                None => {}
            }
        }
        let missing = held.missing.iter().copied().filter(|name| !given.contains(name)).collect();
        let fields = question.fields();
        // What is not asked was not given: masses change nothing where forces were taken over.
        given.retain(|name| fields.iter().any(|field| field.about.name == *name && field.matters));
        AskedToday { fields, question, given, missing, refused, moves_with_water }
    }
}

/// What the steps of water make of a question.
fn raised(question: &Question, steps: usize) -> Vec<(&'static str, Entry)> {
    if steps == 0 || !matches!(question.name(), "in the current" | "abseil") {
        return Vec::new();
    }
    let fields = question.fields();
    let way = fields.iter().find_map(|field| match field.entry {
        Entry::One(way) if field.about.name == "float_m" => Some(way),
        _ => None,
    });
    let raised = |field: &Asked| match (field.about.name, field.entry) {
        ("flow", entry) => worse(Flow::CHOICES, &entry, steps),
        ("depth", entry) => worse(Depth::CHOICES, &entry, steps),
        // A line that hangs dry is taken to stay dry: look at it.
        ("falling_water", entry) if entry != FallingWater::None.to_entry() => {
            worse(FallingWater::CHOICES, &entry, steps)
        }
        ("float_s", Entry::One(time)) => {
            let way = way?;
            let faster = (0..steps).fold(way / time, |speed, _| Flow::one_word_faster(speed));
            // No faster than the question takes.
            Some(Entry::One((way / faster).max(way / 11.99).max(0.5)))
        }
        _ => None,
    };
    let changed = fields
        .iter()
        .filter(|field| field.matters)
        .filter_map(|field| raised(field).filter(|entry| *entry != field.entry).map(|entry| (field.about.name, entry)));
    changed.collect()
}

impl PlannedDrop {
    /// Whether a rope is used.
    /// ```
    /// use rigging_core::plan::{DropAnchor, PlannedDrop};
    ///
    /// let on = |anchor| PlannedDrop { anchor, ..PlannedDrop::default() }.uses_rope();
    /// assert!(on(DropAnchor::People) && !on(DropAnchor::NoRope));
    /// ```
    pub fn uses_rope(&self) -> bool {
        self.anchor != super::DropAnchor::NoRope
    }

    /// Rope from the station to the bottom at the most, its set-back that of its questions about the rope where it leaves
    /// it to them; 0 while the height was not entered.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::plan::PlannedDrop;
    /// use rigging_core::quantity::{Length, metre};
    /// use rigging_core::question::{Held, Question};
    ///
    /// // The example about a rope stands 3 m behind the lip.
    /// let questions = vec![Held::new(Question::named("rope")?)];
    /// let mut drop = PlannedDrop { questions, ..PlannedDrop::default() };
    /// assert_eq!(drop.way().value, 0.0);
    /// drop.height = Band::exact(Length::new::<metre>(20.0));
    /// assert_eq!(drop.way().value, 23.0);
    /// drop.set_back = Length::new::<metre>(5.0);
    /// assert_eq!(drop.way().value, 25.0);
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn way(&self) -> Length {
        let (height, own) = (self.height.high(), self.set_back);
        let asked = self.questions.iter().filter(|_| own.value <= 0.0).map(|held| match &held.question {
            Question::RopeEnd(rope) if !held.missing.contains(&"set_back_m") => rope.set_back,
            _ => own,
        });
        if height.value > 0.0 { height + asked.fold(own, Length::max) } else { height }
    }

    /// Puts a question to the drop: what the drop does not say yet, it takes from it.
    /// ```
    /// use rigging_core::plan::PlannedDrop;
    /// use rigging_core::question::{Entry, Held, Question};
    ///
    /// // The drop takes its height from the question about its rope, once.
    /// let mut drop = PlannedDrop::default();
    /// for height in [20.0, 25.0] {
    ///     let mut rope = Question::named("rope")?;
    ///     rope.set("height_m", &Entry::One(height))?;
    ///     drop.put(Held::new(rope));
    /// }
    /// assert_eq!((drop.height.typical().value, drop.questions.len()), (20.0, 2));
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn put(&mut self, held: Held) {
        if held.question.name() == "rope" && held.missing.is_empty() {
            for field in held.question.fields() {
                match field.about.name {
                    "height_m" if !is_entered(&self.height) => put(&mut self.height, &field.entry),
                    "set_back_m" if self.set_back.value <= 0.0 => put(&mut self.set_back, &field.entry),
                    "bottom" if self.bottom == Bottom::NotSeen => put(&mut self.bottom, &field.entry),
                    _ => {}
                }
            }
        }
        self.questions.push(held);
    }
}
