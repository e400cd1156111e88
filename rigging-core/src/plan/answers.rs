//! Answers that are kept: a question that was asked before is not worked out again.

use crate::question::{Answer, Asked, BadInput, Entry, Question};
use std::rc::Rc;

/// An answer, or why there is none.
/// ```
/// use rigging_core::plan::{Answered, Answers, Plan, PlannedDrop};
/// use rigging_core::quantity::Units;
/// use rigging_core::question::{Held, Question};
/// use std::rc::Rc;
///
/// // One question at two drops has one answer, which both hold.
/// let drop = PlannedDrop { questions: vec![Held::new(Question::named("line")?)], ..PlannedDrop::default() };
/// let plan = Plan { drops: vec![drop.clone(), drop], ..Plan::default() };
/// let checked = plan.check(&mut Answers::default(), Units::default());
/// let [one, other] = [0, 1].map(|place| -> &Answered { &checked.drops[place].answers[0] });
/// assert!(Rc::ptr_eq(one, other));
/// assert!(matches!(one.as_ref(), Ok(answer) if !answer.findings.is_empty()));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
pub type Answered = Rc<Result<Answer, BadInput>>;

/// Answers by their questions. Kept from one check of a plan to the next, only what changed is worked out.
/// ```
/// use rigging_core::plan::{Answers, Plan};
/// use rigging_core::quantity::Units;
///
/// let (mut plan, mut answers) = (Plan::example(), Answers::default());
/// let first = plan.check(&mut answers, Units::default());
/// let worked_out = answers.worked_out();
/// // Notes change no question: nothing is worked out again, and the answers are the same.
/// plan.day.notes.push_str("Call before the start.");
/// assert_eq!(plan.check(&mut answers, Units::default()).drops, first.drops);
/// assert_eq!(answers.worked_out(), worked_out);
/// ```
#[derive(Debug, Default)]
pub struct Answers {
    kept: Vec<Kept>,
    worked_out: usize,
}

#[derive(Debug)]
struct Kept {
    name: &'static str,
    // By the entries: a comparison of its own for every question is 3 kB of the module.
    entries: Vec<Entry>,
    answered: Answered,
    /// The check in which it was last asked for.
    asked_in: bool,
}

impl Answers {
    /// How many questions were worked out so far.
    /// ```
    /// use rigging_core::plan::{Answers, Plan, PlannedDrop};
    /// use rigging_core::quantity::Units;
    /// use rigging_core::question::{Entry, Held, Question};
    ///
    /// // One question at two drops is worked out once, and once more when its span changes at one of them.
    /// let drop = PlannedDrop { questions: vec![Held::new(Question::named("line")?)], ..PlannedDrop::default() };
    /// let (mut plan, mut answers) = (Plan { drops: vec![drop.clone(), drop], ..Plan::default() }, Answers::default());
    /// plan.check(&mut answers, Units::default());
    /// assert_eq!(answers.worked_out(), 1);
    /// plan.drops[1].questions[0].set("span_m", &Entry::One(12.5))?;
    /// plan.check(&mut answers, Units::default());
    /// assert_eq!(answers.worked_out(), 2);
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn worked_out(&self) -> usize {
        self.worked_out
    }

    /// The answer to a question whose fields stand as told.
    pub(super) fn to(&mut self, question: &Question, fields: &[Asked]) -> Answered {
        let name = question.name();
        let is_it =
            |kept: &&mut Kept| kept.name == name && kept.entries.iter().eq(fields.iter().map(|field| &field.entry));
        if let Some(kept) = self.kept.iter_mut().find(is_it) {
            kept.asked_in = true;
            return Rc::clone(&kept.answered);
        }
        self.worked_out += 1;
        let answered = Rc::new(question.answer());
        let entries = fields.iter().map(|field| field.entry).collect();
        self.kept.push(Kept { name, entries, answered: Rc::clone(&answered), asked_in: true });
        answered
    }

    /// Forgets what nobody asked for since the last time, so that the list does not grow with every keystroke.
    pub(super) fn forget_unasked(&mut self) {
        self.kept.retain(|kept| kept.asked_in);
        for kept in &mut self.kept {
            kept.asked_in = false;
        }
    }
}
