//! The questions a leader or an instructor asks, one folder each, and the one door to them.
//!
//! ```
//! use rigging_core::question::Question;
//!
//! let question: Question = serde_json::from_str(
//!     r#"{"question": "anchor legs", "apart_m": 1.0, "down_m": 0.87, "people": 2}"#,
//! )?;
//! let answer = question.answer()?;
//! assert!(answer.findings[0].band.high() > answer.findings[0].band.low());
//! // Every step that led there, with its formula and its source.
//! assert!(answer.working.iter().all(|step| !step.formula.is_empty()));
//!
//! // What cannot be used is named, with its rule.
//! let wrong = serde_json::from_str::<Question>(r#"{"question": "line", "span_m": -3}"#).unwrap_err();
//! assert!(wrong.to_string().starts_with("span_m is -3: it must be from 0.5 to 200 m"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod abseil;
mod against;
mod anchor_legs;
mod answer;
mod asked;
mod bend;
mod carried;
mod current;
mod edge;
pub(crate) mod field;
mod figure_of;
pub mod graph;
mod guided_abseil;
mod held;
mod human_anchor;
mod input;
mod line;
mod natural_anchor;
mod people;
mod pull_down;
mod pullers;
mod raise_lower;
mod rest;
mod rope_end;
pub mod scene;
mod slip;
mod weakest_part;
pub(crate) mod wire;

pub use abseil::{Abseil, BackUp, FallingWater, HandState, Release, Strands, Tail, Whether};
pub use against::{Against, Holds, LimitChoice};
pub use anchor_legs::{AnchorLegs, Knots, LegMaterial, Rig, Spot};
pub use answer::{Answer, Caution, ChosenLimit, Comparison, End, Finding, Gravity, Outcome, as_people};
pub use asked::Asked;
pub use bend::{Bend, Bolt, Over, Pulls, Runs, Told, Turn};
pub use carried::{Carried, HangOn, HeldBy};
pub use current::{Bed, Depth, Downstream, EndsOn, Flow, InTheCurrent, SlidesOn, SpeedBy, Tool};
pub use edge::Edge;
pub use field::{About, Choice, Enters, Entry, Field, Takes};
pub use guided_abseil::{Guide, GuidedAbseil};
pub use held::Held;
pub use human_anchor::{Further, HumanAnchor, Released, Seat, Stance, Stands};
pub use input::{BadInput, Rule, Said, check, settled};
pub use line::{Between, Line, Meets, OnLine, Setting, Way};
pub use natural_anchor::{Contact, Ground, Natural, NaturalAnchor, Rooted, Seating, Shape, TreeKind};
pub use people::{People, State};
pub use pull_down::{EdgeMet, Met, PullDown, PulledBy, Slab};
pub use pullers::PullFrom;
pub use raise_lower::{EndAt, Listed, Moves, RaiseLower, SecondEnd, Shared};
pub use rope_end::{Bottom, Hung, LetOut, RopeEnd, StretchBy, Water};
pub use slip::{Catcher, InTheWay, Slip, SlipEvent, SlipsAt, TailMade};
pub use weakest_part::{Forces, RopeMeets, Slot, WeakestPart, Whose};

use asked::{asked, put};

/// One question: its fields, their defaults (an example of our own), and how it is answered.
///
/// The questions are those of this crate: no other type can be one, for none could enter [`Question`].
/// ```
/// use rigging_core::question::{Ask, PullDown, Question};
///
/// // By its type and by its name it is one question.
/// let (by_type, by_name) = (PullDown::default(), Question::named(PullDown::NAME)?);
/// assert_eq!((by_name.name(), by_name.words()), (PullDown::NAME, PullDown::WORDS));
/// assert_eq!(PullDown::fields().len(), by_name.fields().len());
/// assert_eq!(by_type.answer()?, by_name.answer()?);
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[expect(private_bounds, reason = "what works a question out looks at no bounds, so nobody else may call it")]
pub trait Ask: Solve + Clone + Default + PartialEq {
    /// Its name in JSON.
    const NAME: &'static str;
    /// The question in a leader's words.
    const WORDS: &'static str;
    /// What the answer tells, in one line.
    const ABOUT: &'static str;
    /// What the example shows, in one sentence.
    const EXAMPLE: &'static str;

    /// What it takes.
    fn fields() -> Vec<Field<Self>>;

    /// The answer; nothing is worked out before every field was held to its bounds.
    ///
    /// # Errors
    /// [`BadInput`] if a field is out of its bounds, or if the values together describe nothing that can be rigged, or
    /// nothing that comes to rest.
    /// ```
    /// use rigging_core::question::{Ask, Bend, Question};
    ///
    /// // No bends come to be counted that no rope has: by its type a question is refused as by its name.
    /// let many = Bend { bends: 1_000_000_000, ..Bend::default() };
    /// let refused = many.answer().unwrap_err();
    /// assert!(refused.to_string().starts_with("bends is 1000000000: it must be from 1 to "), "{refused}");
    /// assert_eq!(Question::Bend(many).answer(), Err(refused));
    /// ```
    fn answer(&self) -> Result<Answer, BadInput> {
        for field in Self::fields() {
            check(&field.about, &(field.get)(self))?;
        }
        let mut answer = self.solve()?;
        figure_of::remark_on_factor(&mut answer);
        Ok(answer)
    }
}

/// What a question leaves to this crate: how it is worked out once its fields are checked.
///
/// Nobody else can call it, not even of any question, which [`Ask::answer`] they can:
/// ```
/// fn checked<Q: rigging_core::question::Ask>(question: &Q) -> bool {
///     question.answer().is_ok()
/// }
/// ```
/// ```compile_fail,E0624
/// fn unchecked<Q: rigging_core::question::Ask>(question: &Q) -> bool {
///     question.solve().is_ok()
/// }
/// ```
/// and so nobody else can make a question, even one that says all that [`Ask`] wants said:
/// ```compile_fail,E0277
/// use rigging_core::question::{Ask, Field};
///
/// #[derive(Clone, Default, PartialEq)]
/// struct Mine;
/// impl Ask for Mine {
///     const NAME: &'static str = "mine";
///     const WORDS: &'static str = "Does mine hold?";
///     const ABOUT: &'static str = "";
///     const EXAMPLE: &'static str = "";
///     fn fields() -> Vec<Field<Self>> {
///         Vec::new()
///     }
/// }
/// ```
pub(crate) trait Solve {
    /// Its letters in a link.
    const KEY: &'static str;

    /// The answer, each field being within its bounds.
    ///
    /// # Errors
    /// [`BadInput`] if the values together describe nothing that can be rigged, or nothing that comes to rest.
    fn solve(&self) -> Result<Answer, BadInput>;
}

macro_rules! questions {
    ($($question:ident),+ $(,)?) => {
        /// Any of the questions; its JSON is an object with the field `question` and the question's own.
        /// ```
        /// use rigging_core::question::{Line, Question};
        ///
        /// // Each is found by its name, has letters of its own in a link and begins as the example of its type.
        /// for question in Question::all() {
        ///     assert_eq!(Question::named(question.name())?, question);
        ///     assert_eq!(Question::all().iter().filter(|other| other.key() == question.key()).count(), 1);
        ///     assert!(question.words().ends_with('?') && question.is_example());
        ///     assert!(!question.about().is_empty() && !question.example().is_empty());
        /// }
        /// assert_eq!(Question::named("line")?, Question::Line(Line::default()));
        /// # Ok::<(), rigging_core::question::BadInput>(())
        /// ```
        #[derive(Debug, Clone)]
        #[non_exhaustive]
        pub enum Question {
            $(
                #[doc = concat!("See [`", stringify!($question), "`].")]
                $question($question)
            ),+
        }

        impl Question {
            /// Every question with its example, in the order of the leader's walk.
            /// ```
            /// use rigging_core::question::Question;
            ///
            /// // From what holds to whether every part of it does.
            /// let names: Vec<_> = Question::all().iter().map(Question::name).collect();
            /// assert_eq!((names.first(), names.last()), (Some(&"anchor legs"), Some(&"weakest part")));
            /// ```
            pub fn all() -> Vec<Question> {
                vec![$(Question::$question($question::default())),+]
            }
            /// Its name in JSON.
            /// ```
            /// use rigging_core::question::{PullDown, Question};
            ///
            /// // It stands in the field `question`.
            /// let json = serde_json::to_value(Question::PullDown(PullDown::default()))?;
            /// assert_eq!(json["question"], Question::named("pull-down")?.name());
            /// # Ok::<(), Box<dyn std::error::Error>>(())
            /// ```
            pub fn name(&self) -> &'static str {
                match self { $(Question::$question(_) => $question::NAME),+ }
            }
            /// Its letters in a link.
            /// ```
            /// use rigging_core::question::Question;
            ///
            /// // A few small ones: they are part of every link.
            /// let key = Question::named("pull-down")?.key();
            /// assert!(key.len() == 2 && key.chars().all(|letter| letter.is_ascii_lowercase()));
            /// # Ok::<(), rigging_core::question::BadInput>(())
            /// ```
            // For the page, which makes links; nobody else has a use for it.
            #[doc(hidden)]
            pub fn key(&self) -> &'static str {
                match self { $(Question::$question(_) => $question::KEY),+ }
            }
            /// The question in a leader's words.
            /// ```
            /// use rigging_core::question::Question;
            ///
            /// assert_eq!(Question::named("pull-down")?.words(), "Will the rope come?");
            /// # Ok::<(), rigging_core::question::BadInput>(())
            /// ```
            pub fn words(&self) -> &'static str {
                match self { $(Question::$question(_) => $question::WORDS),+ }
            }
            /// What its answer tells, in one line.
            /// ```
            /// use rigging_core::question::Question;
            ///
            /// // What it says is among what is found.
            /// let pull = Question::named("pull-down")?;
            /// assert!(pull.about().starts_with("Pull needed from below at the start"));
            /// assert_eq!(pull.answer()?.findings[0].what, "to pull at the start");
            /// # Ok::<(), rigging_core::question::BadInput>(())
            /// ```
            pub fn about(&self) -> &'static str {
                match self { $(Question::$question(_) => $question::ABOUT),+ }
            }
            /// What its example shows, in one sentence.
            /// ```
            /// use rigging_core::question::Question;
            ///
            /// // "… it sags a tenth of its span": so it stands in its field.
            /// let line = Question::named("line")?;
            /// let sag = line.fields().into_iter().find(|field| field.about.name == "sag").ok_or("no such field")?;
            /// assert!(line.example().contains("sags a tenth of its span"));
            /// assert!((sag.entry.middle() - 0.1).abs() < 1e-12);
            /// # Ok::<(), Box<dyn std::error::Error>>(())
            /// ```
            pub fn example(&self) -> &'static str {
                match self { $(Question::$question(_) => $question::EXAMPLE),+ }
            }
            /// Its fields as they stand, in the order in which they are asked.
            /// ```
            /// use rigging_core::question::{Entry, Question};
            ///
            /// // What was set stands there, a number of a range as a range without width.
            /// let mut line = Question::named("line")?;
            /// line.set("span_m", &Entry::One(12.0))?;
            /// let span = &line.fields()[0];
            /// assert_eq!((span.about.name, span.entry.middle()), ("span_m", 12.0));
            /// assert!(matches!(span.entry, Entry::Range(span) if span.is_exact()));
            /// # Ok::<(), rigging_core::question::BadInput>(())
            /// ```
            pub fn fields(&self) -> Vec<Asked> {
                match self { $(Question::$question(question) => asked(question)),+ }
            }
            /// Gives a field a value.
            /// ```
            /// use rigging_core::question::{Entry, Question};
            ///
            /// let mut line = Question::named("line")?;
            /// line.set("place", &Entry::One(0.5))?;
            /// assert!(line.set("place", &Entry::One(2.0)).is_err());
            /// # Ok::<(), rigging_core::question::BadInput>(())
            /// ```
            ///
            /// # Errors
            /// [`BadInput`] if there is no such field or the value breaks its rule; nothing is changed.
            pub fn set(&mut self, name: &str, entry: &Entry) -> Result<(), BadInput> {
                self.put(&[(name, *entry)]).pop().flatten().unwrap_or_else(|| {
                    let fields = self.fields().iter().map(|field| field.about.name).collect();
                    Err(BadInput::UnknownField { name: name.to_owned(), question: self.name(), fields })
                })
            }
            /// Gives fields a value each, with one look at the table of fields; none for a field that it has not.
            pub(crate) fn put(&mut self, entries: &[(&str, Entry)]) -> Vec<Option<Result<(), BadInput>>> {
                match self { $(Question::$question(question) => put(question, entries)),+ }
            }
            /// The answer: that of [`Ask::answer`].
            ///
            /// # Errors
            /// [`BadInput`] if a field is out of its bounds or the fields do not fit together.
            /// ```
            /// use rigging_core::question::{Entry, Question};
            ///
            /// // Each of these may be, but not both: nobody falls farther than twice the rope.
            /// let mut abseil = Question::named("abseil")?;
            /// abseil.set("rope_out_m", &Entry::One(1.0))?;
            /// abseil.set("slack_m", &Entry::One(2.5))?;
            /// assert!(abseil.answer().unwrap_err().to_string().contains("not more than twice the rope"));
            /// # Ok::<(), rigging_core::question::BadInput>(())
            /// ```
            pub fn answer(&self) -> Result<Answer, BadInput> {
                match self { $(Question::$question(question) => question.answer()),+ }
            }
        }
    };
}

// In the order of the leader's walk.
questions!(
    AnchorLegs,
    NaturalAnchor,
    Bend,
    Line,
    RopeEnd,
    Abseil,
    GuidedAbseil,
    InTheCurrent,
    HumanAnchor,
    Slip,
    RaiseLower,
    PullDown,
    WeakestPart,
);

/// One and the same question, each field as it stands: all that a question is goes through its fields.
impl PartialEq for Question {
    fn eq(&self, other: &Self) -> bool {
        let entries = |question: &Question| question.fields().into_iter().map(|field| field.entry);
        self.key() == other.key() && entries(self).eq(entries(other))
    }
}

impl Question {
    /// The question of this name, with its example.
    ///
    /// # Errors
    /// [`BadInput::UnknownQuestion`] with the names there are.
    /// ```
    /// use rigging_core::question::{Entry, Question};
    ///
    /// let mut legs = Question::named("anchor legs")?;
    /// legs.set("down_m", &Entry::One(0.8))?;
    /// assert!(!legs.is_example());
    /// // What breaks the rule of its field is refused and changes nothing.
    /// assert!(legs.set("down_m", &Entry::One(-1.0)).is_err());
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn named(name: &str) -> Result<Question, BadInput> {
        let all = Question::all();
        match all.iter().find(|question| question.name() == name) {
            Some(question) => Ok(question.clone()),
            None => Err(BadInput::UnknownQuestion {
                name: name.to_owned(),
                questions: all.iter().map(Question::name).collect(),
            }),
        }
    }

    /// Gives a field one of its choices, by a name that is known only when the program runs.
    /// ```
    /// use rigging_core::question::Question;
    ///
    /// let mut line = Question::named("line")?;
    /// let read = String::from("slack");
    /// line.set_choice("setting", &read)?;
    /// assert!(line.fields().iter().any(|field| field.about.name == "slack" && field.matters));
    /// // A name that is none of its choices is refused with those there are.
    /// let refused = line.set_choice("setting", "tight").unwrap_err();
    /// assert!(refused.to_string().starts_with("setting is \"tight\": it must be one of \"sag\", "));
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    ///
    /// # Errors
    /// As [`Question::set`].
    pub fn set_choice(&mut self, name: &str, choice: &str) -> Result<(), BadInput> {
        let entry = match self.fields().iter().find(|field| field.about.name == name) {
            Some(field) => wire::entry(&field.about, wire::Wire::Text(choice.to_owned()))?,
            // Refused by name when it is set.
            None => Entry::One(0.0),
        };
        self.set(name, &entry)
    }

    /// True if every field still has the value of the example.
    /// ```
    /// use rigging_core::question::{Entry, Question};
    ///
    /// let mut line = Question::named("line")?;
    /// line.set("place", &Entry::One(0.4))?;
    /// assert!(!line.is_example());
    /// // Back at the middle it is the example again.
    /// line.set("place", &Entry::One(0.5))?;
    /// assert!(line.is_example());
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn is_example(&self) -> bool {
        // By the fields: a comparison of its own for every question is 3 kB of the module.
        Question::named(self.name()).is_ok_and(|example| example.fields() == self.fields())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_example_has_an_answer_with_all_its_parts() {
        for question in Question::all() {
            let answer = question.answer().unwrap_or_else(|error| panic!("{}: {error}", question.name()));
            assert!(!answer.findings.is_empty() && !answer.working.is_empty(), "{}", question.name());
            assert!(answer.formulas.len() > 2, "{}", question.name());
            assert!(answer.formulas.iter().all(|formula| !formula.source.place.is_empty()), "{}", question.name());
            assert!(!answer.cautions.is_empty() && !answer.not_in.is_empty(), "{}", question.name());
            assert!(!answer.scene.polygon.is_empty() && !answer.scene.case.is_empty(), "{}", question.name());
        }
    }

    #[test]
    fn the_drawn_polygon_of_forces_closes() {
        for question in Question::all() {
            let polygon = question.answer().unwrap().scene.polygon;
            let largest = polygon.iter().map(|arrow| scene::size(arrow.pull)).fold(0.0, f64::max);
            let sum = polygon.iter().fold([0.0, 0.0], |[x, y], arrow| [x + arrow.pull[0], y + arrow.pull[1]]);
            assert!(scene::size(sum) < 1e-9 * largest, "{}: {sum:?}", question.name());
        }
    }

    #[test]
    fn names_and_letters_of_fields_are_never_used_twice() {
        for question in Question::all() {
            let fields = question.fields();
            let names: HashSet<_> = fields.iter().map(|field| field.about.name).collect();
            let keys: HashSet<_> = fields.iter().map(|field| field.about.key).collect();
            assert_eq!((names.len(), keys.len()), (fields.len(), fields.len()), "{}", question.name());
        }
    }

    #[test]
    fn every_field_has_words_and_ends_in_its_unit() {
        for question in Question::all() {
            for Asked { about, .. } in question.fields() {
                assert!(!about.label.is_empty() && !about.note.is_empty(), "{}", about.name);
                if !matches!(about.takes, Takes::Choice(_)) {
                    assert!(about.name.ends_with(about.kind.suffix()), "{}", about.name);
                }
            }
        }
    }

    #[test]
    fn every_field_can_be_written_and_read_back() {
        for mut question in Question::all() {
            for Asked { about, .. } in question.fields() {
                let entries: Vec<Entry> = match about.takes {
                    Takes::One { least, most } => vec![Entry::One(least), Entry::One(most)],
                    Takes::Range { least, most } => {
                        vec![Entry::Range(crate::band::Band::of(least, (least + most) / 2.0, most))]
                    }
                    Takes::Choice(choices) => choices.iter().map(|choice| Entry::Choice(choice.name)).collect(),
                };
                for entry in entries {
                    question.set(about.name, &entry).unwrap();
                    let read = question.fields().into_iter().find(|field| field.about == about).unwrap().entry;
                    assert_eq!(read, entry, "{} of {}", about.name, question.name());
                }
            }
        }
    }

    #[test]
    fn a_value_out_of_bounds_is_named_with_its_field_and_its_rule() {
        let mut line = Question::named("line").unwrap();
        let error = line.set("span_m", &Entry::One(-3.0)).unwrap_err().to_string();
        assert!(error.contains("span_m") && error.contains("-3") && error.contains("from"), "{error}");
        assert!(line.set("span_m", &Entry::One(f64::NAN)).is_err());
        assert!(line.is_example(), "a refused value changes nothing");
    }
}
