//! A question of which some numbers may still be the example's.

use super::{BadInput, Entry, Question};

/// A question, and which of its numbers are not the user's.
///
/// From JSON as a [`Question`]: fields that matter and were not given are missing. To JSON what matters and is not missing.
/// ```
/// use rigging_core::question::{Entry, Held, Question};
///
/// // What JSON leaves out stays the example's, and is named.
/// let asked: Held = serde_json::from_str(r#"{"question": "line", "span_m": 12}"#)?;
/// assert!(asked.missing.contains(&"body_kg") && !asked.missing.contains(&"span_m"));
///
/// // All of it is the user's: nothing is missing, and a value that breaks its rule changes nothing.
/// let mut held = Held::new(Question::named("line")?);
/// assert!(held.missing.is_empty());
/// assert!(held.set("span_m", &Entry::One(-3.0)).is_err());
/// assert_eq!(held, Held::new(Question::named("line")?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Held {
    /// The question as it was entered.
    pub question: Question,
    /// Fields that matter and that nobody gave: the example's values stand there. A plan compares nothing of such a
    /// question; whoever asks it alone has to say which they are, as `examples/ask` does.
    pub missing: Vec<&'static str>,
}

impl Held {
    /// A question of which every number is the user's.
    /// ```
    /// use rigging_core::question::{Held, Question};
    ///
    /// let line = Question::named("line")?;
    /// assert!(Held::new(line.clone()).missing.is_empty() && !Held::example(line).missing.is_empty());
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn new(question: Question) -> Self {
        Held { question, missing: Vec::new() }
    }

    /// A question of which no number was given yet: the example, and every field that matters as missing.
    /// ```
    /// use rigging_core::question::{Entry, Held, Question};
    ///
    /// // Each field that matters is missing until it is given.
    /// let mut held = Held::example(Question::named("line")?);
    /// assert!(held.missing.contains(&"span_m") && !held.missing.contains(&"slack"));
    /// held.set("span_m", &Entry::One(12.0))?;
    /// assert!(!held.missing.contains(&"span_m"));
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn example(question: Question) -> Self {
        Held::given(question, &[])
    }

    /// A question of which these fields were given: the others that matter are missing.
    pub(crate) fn given(question: Question, given: &[&str]) -> Self {
        let asked = question.fields().into_iter().filter(|field| field.matters).map(|field| field.about.name);
        let missing = asked.filter(|name| !given.contains(name)).collect();
        Held { question, missing }
    }

    /// Gives a field a value: it is then no longer missing. What only matters by that is; what no longer matters is not.
    ///
    /// # Errors
    /// As [`Question::set`].
    /// ```
    /// use rigging_core::question::{Entry, Held, Question};
    ///
    /// let mut held = Held { question: Question::named("line")?, missing: vec!["span_m", "place"] };
    /// held.set("place", &Entry::One(0.4))?;
    /// assert_eq!(held.missing, ["span_m"]);
    /// // Set by its slack, nobody gave that yet.
    /// held.set("setting", &Entry::Choice("slack"))?;
    /// assert_eq!(held.missing, ["span_m", "slack"]);
    /// # Ok::<(), rigging_core::question::BadInput>(())
    /// ```
    pub fn set(&mut self, name: &str, entry: &Entry) -> Result<(), BadInput> {
        let asks = |question: &Question| {
            let fields = question.fields().into_iter().filter(|field| field.matters);
            fields.map(|field| field.about.name).collect::<Vec<_>>()
        };
        let before = asks(&self.question);
        self.question.set(name, entry)?;
        let now = asks(&self.question);
        self.missing.retain(|missing| *missing != name && now.contains(missing));
        self.missing.extend(now.into_iter().filter(|field| *field != name && !before.contains(field)));
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_and_read_again_misses_the_same_whatever_was_given() {
        for question in Question::all() {
            for given in 0..4 {
                let mut held = Held::example(question.clone());
                for field in question.fields().into_iter().skip(given).step_by(4) {
                    held.set(field.about.name, &field.entry).unwrap();
                }
                let json = serde_json::to_string(&held).unwrap();
                let mut again: Held = serde_json::from_str(&json).unwrap();
                let missing = |held: &mut Held| {
                    held.missing.sort_unstable();
                    held.missing.clone()
                };
                assert_eq!(missing(&mut again), missing(&mut held), "{json}");
                assert!(!again.missing.is_empty());
                // What does not matter is not written: it is nobody's.
                let written: serde_json::Map<String, serde_json::Value> = serde_json::from_str(&json).unwrap();
                let matters = held.question.fields().into_iter().filter(|field| field.matters).count();
                assert_eq!(written.len(), 1 + matters - held.missing.len(), "{json}");
            }
        }
    }

    #[test]
    fn what_matters_only_by_a_field_that_was_set_is_missing_and_the_other_way_round() {
        let mut held = Held::example(Question::named("line").unwrap());
        held.set("setting", &Entry::Choice("slack")).unwrap();
        assert!(held.missing.contains(&"slack") && !held.missing.contains(&"sag"));
        held.set("setting", &Entry::Choice("sag")).unwrap();
        assert!(held.missing.contains(&"sag") && !held.missing.contains(&"slack"));
    }
}
