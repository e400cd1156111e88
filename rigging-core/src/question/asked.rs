//! The fields of a question as they stand, and values put into them.

use super::{About, Ask, BadInput, Entry, check, settled};

/// A field of a question as it stands.
/// ```
/// use rigging_core::question::{Entry, Question};
///
/// // A line set by its sag is not asked for its slack, one left long not for its sag.
/// let mut line = Question::named("line")?;
/// let asks = |line: &Question, name: &str| {
///     line.fields().iter().any(|field| field.about.name == name && field.matters)
/// };
/// assert_eq!((asks(&line, "sag"), asks(&line, "slack")), (true, false));
/// line.set("setting", &Entry::Choice("slack"))?;
/// assert_eq!((asks(&line, "sag"), asks(&line, "slack")), (false, true));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct Asked {
    /// What the field is.
    pub about: About,
    /// Its value.
    pub entry: Entry,
    /// Whether it matters, the other fields being what they are.
    pub matters: bool,
}

impl Asked {
    /// The same field with another value.
    /// ```
    /// use rigging_core::question::{Entry, Question};
    ///
    /// let mut line = Question::named("line")?;
    /// let span = line.fields().into_iter().find(|field| field.about.name == "span_m").ok_or("no span")?;
    /// let wider = span.with(Entry::One(20.0));
    /// assert_eq!((wider.entry, wider.about.name, wider.matters), (Entry::One(20.0), "span_m", span.matters));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub fn with(&self, entry: Entry) -> Asked {
        Asked { entry, ..self.clone() }
    }
}

/// The fields of a question as they stand.
pub(super) fn asked<Q: Ask>(question: &Q) -> Vec<Asked> {
    Q::fields()
        .iter()
        .map(|field| Asked { about: field.about, entry: (field.get)(question), matters: (field.asked)(question) })
        .collect()
}

/// Gives fields a value each; what became of it, none for a field that there is not.
pub(super) fn put<Q: Ask>(question: &mut Q, entries: &[(&str, Entry)]) -> Vec<Option<Result<(), BadInput>>> {
    let fields = Q::fields();
    let mut outcomes = Vec::new();
    for (name, entry) in entries {
        outcomes.push(fields.iter().find(|field| field.about.name == *name).map(|field| {
            let entry = settled(&field.about, entry);
            check(&field.about, &entry)?;
            (field.set)(question, &entry);
            Ok(())
        }));
    }
    outcomes
}
