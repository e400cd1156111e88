//! A plan that was checked: per drop and over all. Nothing here is ever more than *below a limit*.

use super::answers::{Answered, Answers};
use super::rests::{Unknown, rests_on};
use super::ropes::{Parts, Ropes};
use super::shared::AskedToday;
use super::time::Times;
use super::{Plan, WaterToday, open};
use crate::band::Band;
use crate::limit::Standing;
use crate::quantity::{Kind, Toward, Units};
use crate::question::{Answer, Comparison};

/// Why a drop is listed first, the gravest first.
/// ```
/// use rigging_core::limit::Standing;
/// use rigging_core::plan::{Unknown, Why};
///
/// // In the words of the standing it tells of.
/// assert_eq!(Why::Above.words(), Standing::AboveLimit.words());
/// assert_eq!(Why::Crosses.words(), Standing::RangeCrosses.words());
/// assert_eq!(Why::RestsOn(Unknown::People).words(), "rests on");
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Why {
    /// A whole range lies above its limit, more rope is needed than there is, or it ends where it is not wanted.
    Above,
    /// A range crosses its limit.
    Crosses,
    /// A question has no answer.
    NoAnswer,
    /// A range that would be compared, if somebody had said that these numbers are theirs.
    NotConfirmed,
    /// It rests on what nobody knows the strength of.
    RestsOn(Unknown),
}

impl Why {
    const CLASSES: usize = 4;

    fn class(self) -> usize {
        match self {
            Why::Above => 0,
            Why::Crosses => 1,
            Why::NoAnswer | Why::NotConfirmed => 2,
            Why::RestsOn(_) => 3,
        }
    }

    /// The reason in a few words.
    /// ```
    /// use rigging_core::plan::{Answers, Plan};
    /// use rigging_core::quantity::Units;
    ///
    /// // While nobody said that the numbers are theirs, no reason says how a range stands against a limit.
    /// let checked = Plan::example().check(&mut Answers::default(), Units::default()).not_confirmed();
    /// let reasons = checked.drops.iter().flat_map(|drop| &drop.reasons);
    /// let words: Vec<_> = reasons.map(|reason| reason.why.words()).collect();
    /// assert!(words.contains(&"not checked, not confirmed as yours"));
    /// assert!(words.iter().all(|words| !words.contains("limit")));
    /// ```
    pub fn words(self) -> &'static str {
        match self {
            Why::Above => Standing::AboveLimit.words(),
            Why::Crosses => Standing::RangeCrosses.words(),
            Why::NoAnswer => "no answer",
            Why::NotConfirmed => "not checked, not confirmed as yours",
            Why::RestsOn(_) => "rests on",
        }
    }
}

/// A reason to look at a drop first.
/// ```
/// use rigging_core::plan::{Answers, DropAnchor, Plan, PlannedDrop, Unknown, Why};
/// use rigging_core::quantity::Units;
///
/// // A drop that people hold rests on them, and that does not come from one of its questions.
/// let drop = PlannedDrop { anchor: DropAnchor::People, ..PlannedDrop::default() };
/// let checked = Plan { drops: vec![drop], ..Plan::default() }.check(&mut Answers::default(), Units::default());
/// let reason = &checked.drops[0].reasons[0];
/// assert_eq!((reason.why, reason.what.as_str()), (Why::RestsOn(Unknown::People), "people"));
/// assert_eq!(reason.question, None);
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Reason {
    /// Its kind.
    pub why: Why,
    /// What crosses which limit, or what it rests on.
    pub what: String,
    /// What would change it; empty if nothing in particular.
    pub change: String,
    /// The question it comes from, among those of the drop.
    pub question: Option<usize>,
}

/// A decision that is still open.
/// ```
/// use rigging_core::plan::{Answers, Open, Plan, PlannedDrop};
/// use rigging_core::quantity::Units;
///
/// // Of the first drop nobody has seen the bottom; of the whole plan the date is missing.
/// let plan = Plan { drops: vec![PlannedDrop::default()], ..Plan::default() };
/// let open = plan.check(&mut Answers::default(), Units::default()).open;
/// let is_open = |drop, what| open.iter().any(|open: &Open| open.drop == drop && open.what == what);
/// assert!(is_open(Some(0), "bottom not seen") && is_open(None, "no date"));
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Open {
    /// The drop, if it is one of a drop.
    pub drop: Option<usize>,
    /// What has to be decided, seen or entered.
    pub what: String,
}

/// A drop that was checked.
/// ```
/// use rigging_core::limit::Standing;
/// use rigging_core::plan::{Answers, Plan};
/// use rigging_core::quantity::Units;
///
/// // Each question has an answer beside it, and no drop with a reason is below a limit.
/// let plan = Plan::example();
/// for (drop, checked) in plan.drops.iter().zip(plan.check(&mut Answers::default(), Units::default()).drops) {
///     assert_eq!((checked.asked.len(), checked.answers.len()), (drop.questions.len(), drop.questions.len()));
///     assert!(checked.reasons.is_empty() || checked.standing != Standing::BelowLimit);
/// }
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct CheckedDrop {
    /// Its questions as they are asked today.
    pub asked: Vec<AskedToday>,
    /// Their answers, in the same order.
    pub answers: Vec<Answered>,
    /// Why it is listed first, the gravest first; empty if it is not.
    pub reasons: Vec<Reason>,
    /// How it stands as a whole: as the gravest of its reasons does; below a limit only if nothing about it is open.
    pub standing: Standing,
}

/// A plan that was checked.
/// ```
/// use rigging_core::plan::{Answers, Plan};
/// use rigging_core::quantity::Units;
///
/// let plan = Plan::example();
/// let checked = plan.check(&mut Answers::default(), Units::default());
/// // Every drop is checked, and all of those that have a reason are to be looked at first.
/// assert_eq!((checked.drops.len(), checked.times.drops.len()), (plan.drops.len(), plan.drops.len()));
/// let with_reason = checked.drops.iter().filter(|drop| !drop.reasons.is_empty()).count();
/// assert_eq!(checked.first.len(), with_reason);
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Checked {
    /// Decisions that are still open, those of the whole plan first.
    pub open: Vec<Open>,
    /// Drops to look at first: those with the gravest reasons, each kind in the order of the descent.
    pub first: Vec<usize>,
    /// The drops in the order of the descent.
    pub drops: Vec<CheckedDrop>,
    /// Rope needed, in reserve and to spare.
    pub ropes: Ropes,
    /// Slings, connectors and links.
    pub parts: Parts,
    /// Time and light.
    pub times: Times,
    /// The units that everything is told in.
    pub units: Units,
}

impl Checked {
    /// As it may be shown while nobody said that these numbers are theirs: nothing is compared with a limit.
    /// ```
    /// use rigging_core::limit::Standing;
    /// use rigging_core::plan::{Answers, Plan, Why};
    /// use rigging_core::quantity::Units;
    ///
    /// let checked = Plan::example().check(&mut Answers::default(), Units::default()).not_confirmed();
    /// for drop in &checked.drops {
    ///     assert!(matches!(drop.standing, Standing::NotChecked(_)));
    ///     assert!(drop.reasons.iter().all(|reason| !matches!(reason.why, Why::Above | Why::Crosses)));
    /// }
    /// ```
    pub fn not_confirmed(mut self) -> Self {
        for drop in &mut self.drops {
            drop.standing = Standing::NotChecked("not confirmed as yours");
            for reason in drop.reasons.iter_mut().filter(|reason| matches!(reason.why, Why::Above | Why::Crosses)) {
                reason.why = Why::NotConfirmed;
            }
        }
        self
    }
}

/// Why a comparison puts a drop first, if it does: as it stands, or under the whole figure, whatever factor was chosen.
fn compared(units: Units, name: &str, row: &Comparison, whole: bool) -> Option<(Why, String)> {
    let figure = row.limit.as_ref().map(|limit| Band::exact(limit.figure));
    let (standing, [load, limit]) = match figure {
        Some(figure) if whole => {
            let digits = units.figures_beside(row.load.high(), figure.low());
            let told = |band: &Band, exact| units.range_in(band, Kind::Force, digits, exact);
            (Standing::of(row.load, figure), [told(&row.load, Toward::More), told(&figure, Toward::Less)])
        }
        _ => (row.standing, units.compared(row)),
    };
    let why = match standing {
        Standing::AboveLimit => Why::Above,
        Standing::RangeCrosses => Why::Crosses,
        Standing::BelowLimit | Standing::NotChecked(_) => return None,
    };
    let against = row.limit.as_ref().map_or(String::new(), |chosen| format!(" against {limit} ({})", chosen.part));
    Some((why, format!("{name}: {load} {}{against}", row.what)))
}

/// What would change most how people hold, as that question works it out.
fn helps_people(answer: &Answer) -> Option<String> {
    let outcome = answer.outcomes.iter().find(|outcome| outcome.case.starts_with("What would change"))?;
    // The first is as it stands.
    let best = outcome.findings.iter().skip(1).fold(None, |best: Option<(f64, &str)>, finding| match best {
        Some(best) if best.0 >= finding.adverse() => Some(best),
        _ => Some((finding.adverse(), &finding.what)),
    })?;
    Some(format!("{}; of the changes worked out, most: {}", Unknown::People.change(), best.1))
}

impl Plan {
    /// Checks the plan; what was answered before is taken from `answers`.
    ///
    /// What is said once for the whole plan goes into every question first, so that each answer is the one that
    /// the question has on its own screen with the same numbers.
    /// ```
    /// use rigging_core::limit::Standing;
    /// use rigging_core::plan::{Answers, Plan, PlannedDrop};
    /// use rigging_core::quantity::Units;
    /// use rigging_core::question::{BadInput, Held, Question};
    ///
    /// // A question in a plan of one's own has the answer that it has on its own screen.
    /// let question = Question::named("pull-down")?;
    /// let drop = PlannedDrop { questions: vec![Held::new(question.clone())], ..PlannedDrop::default() };
    /// let plan = Plan { drops: vec![drop], ..Plan::default() };
    /// let checked = plan.check(&mut Answers::default(), Units::default());
    /// assert_eq!(*checked.drops[0].answers[0], question.answer());
    /// // What it hangs on is not seen yet: it is not below any limit, and to be looked at.
    /// assert_ne!(checked.drops[0].standing, Standing::BelowLimit);
    /// assert_eq!(checked.first, [0]);
    /// # Ok::<(), BadInput>(())
    /// ```
    pub fn check(&self, answers: &mut Answers, units: Units) -> Checked {
        let mut drops: Vec<CheckedDrop> = Vec::new();
        for place in 0..self.drops.len() {
            let asked = self.asked_today(place);
            let answered = asked.iter().map(|asked| answers.to(&asked.question, &asked.fields)).collect();
            drops.push(CheckedDrop {
                asked,
                answers: answered,
                reasons: Vec::new(),
                standing: Standing::NotChecked(""),
            });
        }
        answers.forget_unasked();
        let ropes = self.ropes_for(&drops);
        let times = self.times();
        let mut open = open::beyond(self);
        // Whoever's mass is not known may be the heaviest.
        let known = open.is_empty() && self.group.iter().all(|person| person.mass().is_some());
        let seen = self.day.water != WaterToday::NotSeen;
        open.extend(open::decisions(self, &drops, &times));
        for (place, (drop, checked)) in self.drops.iter().zip(&mut drops).enumerate() {
            let mut reasons = checked.compared(units);
            reasons.extend(ropes.reasons(place, units));
            for (unknown, question) in rests_on(drop, &checked.asked) {
                let change = match (unknown, question.and_then(|place| checked.answers.get(place)).map(AsRef::as_ref)) {
                    (Unknown::People, Some(Ok(answer))) => helps_people(answer),
                    _ => None,
                };
                reasons.push(Reason {
                    why: Why::RestsOn(unknown),
                    what: unknown.words().to_owned(),
                    change: change.unwrap_or_else(|| unknown.change().to_owned()),
                    question,
                });
            }
            // What is still open about a drop may be what decides.
            let decided = open.iter().all(|open| open.drop != Some(place));
            let all_below = known && decided && checked.is_below(seen);
            checked.reasons = by_class(&reasons);
            checked.standing = match checked.reasons.first().map(|reason| reason.why) {
                Some(Why::Above) => Standing::AboveLimit,
                Some(Why::Crosses) => Standing::RangeCrosses,
                None if all_below => Standing::BelowLimit,
                _ => Standing::NotChecked(""),
            };
        }
        let mut first = Vec::new();
        for class in 0..Why::CLASSES {
            let gravest = |drop: &CheckedDrop| drop.reasons.first().map(|reason| reason.why.class());
            let places =
                drops.iter().enumerate().filter(|(_, drop)| gravest(drop) == Some(class)).map(|(place, _)| place);
            first.extend(places);
        }
        Checked { open, first, ropes, parts: self.parts(&drops), times, drops, units }
    }
}

/// The gravest first, each kind in the order in which it came.
fn by_class(reasons: &[Reason]) -> Vec<Reason> {
    let of = |class| reasons.iter().filter(move |reason| reason.why.class() == class);
    (0..Why::CLASSES).flat_map(of).cloned().collect()
}

impl CheckedDrop {
    fn compared(&self, units: Units) -> Vec<Reason> {
        let mut reasons = Vec::new();
        for (place, (asked, answered)) in self.asked.iter().zip(&self.answers).enumerate() {
            let name = asked.question.name();
            for refused in &asked.refused {
                reasons.push(no_answer(
                    place,
                    format!("{name}: what the plan says does not go into it: {}", refused.words()),
                ));
            }
            match answered.as_ref() {
                Err(error) => reasons.push(no_answer(place, format!("{name}: {}", error.words()))),
                // Numbers of the example say nothing of this drop.
                Ok(_) if !asked.missing.is_empty() => {}
                Ok(answer) => {
                    let asked_of = answer.comparisons.iter().map(|row| (row, false));
                    for (row, usual) in asked_of.chain(answer.usual.iter().map(|row| (row, true))) {
                        let Some((why, what)) = compared(units, name, row, usual) else { continue };
                        let of_it = answer.findings.iter().find(|finding| finding.what == row.what);
                        let moved =
                            of_it.or(answer.findings.first().filter(|_| !usual)).and_then(|it| it.moved_most_by);
                        let change = moved.map_or_else(String::new, |input| ["moved most by: ", input].concat());
                        reasons.push(Reason { why, what, change, question: Some(place) });
                    }
                }
            }
        }
        reasons
    }

    /// Whether everything that was compared lies below its limit, and something was; the water seen, where it counts.
    fn is_below(&self, water_seen: bool) -> bool {
        let mut any = false;
        for (asked, answered) in self.asked.iter().zip(&self.answers) {
            let Ok(answer) = answered.as_ref() else { return false };
            if !asked.missing.is_empty() || asked.moves_with_water && !water_seen {
                return false;
            }
            any |= !answer.comparisons.is_empty();
            if answer.comparisons.iter().any(|comparison| comparison.standing != Standing::BelowLimit) {
                return false;
            }
        }
        any
    }
}

fn no_answer(place: usize, what: String) -> Reason {
    Reason { why: Why::NoAnswer, what, change: "change these numbers".to_owned(), question: Some(place) }
}
