//! What the rows of a plan have in common: named texts, and fields in the table that questions use too.

use crate::question::field::{Entry, Field};
use crate::question::{Asked, BadInput, check, settled};

/// A text that a row holds.
/// ```
/// use rigging_core::plan::{Day, Record};
///
/// let mut day = Day::default();
/// let texts = Day::texts();
/// let date = texts.iter().find(|text| text.name == "date").ok_or("no such text")?;
/// // What is written at its place is read there.
/// *(date.place)(&mut day) = "2031-06-14".to_owned();
/// assert_eq!((date.get)(&day), "2031-06-14");
/// assert!((date.wrong)("2031-06-14").is_none() && (date.wrong)("tomorrow").is_some());
/// # Ok::<(), &str>(())
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Text<R> {
    /// Its name in JSON.
    pub name: &'static str,
    /// Its name on the page.
    pub label: &'static str,
    /// What belongs there.
    pub note: &'static str,
    /// The most letters it may have.
    pub most: usize,
    /// Reads it.
    pub get: fn(&R) -> &String,
    /// The place it is written to.
    pub place: fn(&mut R) -> &mut String,
    /// What a text must be beyond its length, if it is not as it must be.
    pub wrong: fn(&str) -> Option<&'static str>,
}

/// A row of a plan: its texts and fields are said once; JSON, screens and messages are made from them.
/// ```
/// use rigging_core::plan::{CarriedRope, Record};
///
/// // The table of its fields is all that JSON, screens and messages need.
/// let fields = CarriedRope::fields();
/// let names: Vec<_> = fields.iter().map(|field| field.about.name).collect();
/// assert_eq!((CarriedRope::NAME, names), ("rope carried", vec!["length_m", "diameter_m", "kind"]));
/// assert_eq!(CarriedRope::texts()[0].name, "name");
/// ```
pub trait Record: Clone + Default + PartialEq + 'static {
    /// What it is, in one word.
    const NAME: &'static str;

    /// The texts it holds.
    fn texts() -> Vec<Text<Self>>;

    /// The fields it holds, in the order in which they are asked.
    fn fields() -> Vec<Field<Self>>;

    /// Why a value within its bounds cannot be meant, if it cannot.
    fn refuses(_name: &str, _entry: &Entry) -> Option<&'static str> {
        None
    }
}

/// A text of a row as it stands.
/// ```
/// use rigging_core::plan::{CarriedRope, Row};
///
/// let rope = CarriedRope { name: "orange".to_owned(), ..CarriedRope::default() };
/// let words = &rope.words()[0];
/// assert_eq!((words.name, words.words.as_str(), words.most), ("name", "orange", 60));
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Words {
    /// Its name in JSON.
    pub name: &'static str,
    /// Its name on the page.
    pub label: &'static str,
    /// What belongs there.
    pub note: &'static str,
    /// The most letters it may have.
    pub most: usize,
    /// What stands there.
    pub words: String,
}

/// A row, whichever it is: what reads and shows rows has one copy for all of them.
/// ```
/// use rigging_core::plan::{CarriedRope, Person, Row};
/// use rigging_core::question::Entry;
///
/// // Rows of any kind, in one list.
/// let mut rows: [Box<dyn Row>; 2] = [Box::new(Person::default()), Box::new(CarriedRope::default())];
/// for row in &mut rows {
///     row.say("name", "orange")?;
///     // Too long a name is refused, and changes nothing.
///     assert!(row.say("name", &"x".repeat(61)).is_err());
///     assert_eq!(row.words()[0].words, "orange");
/// }
/// rows[1].set("length_m", &Entry::One(60.0))?;
/// assert_eq!((rows[1].name(), rows[1].asked()[0].entry), ("rope carried", Entry::One(60.0)));
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
pub trait Row {
    /// What it is, in one word.
    fn name(&self) -> &'static str;

    /// The fields as they stand, in the order in which they are asked.
    fn asked(&self) -> Vec<Asked>;

    /// The texts as they stand.
    fn words(&self) -> Vec<Words>;

    /// Gives a field a value.
    ///
    /// # Errors
    /// [`BadInput`] if there is no such field or the value breaks its rule; nothing is changed.
    fn set(&mut self, name: &str, entry: &Entry) -> Result<(), BadInput>;

    /// Gives a text its words.
    ///
    /// # Errors
    /// [`BadInput`] if there is no such text, or it is too long or not what it must be; nothing is changed.
    fn say(&mut self, name: &str, words: &str) -> Result<(), BadInput>;
}

impl<R: Record> Row for R {
    fn name(&self) -> &'static str {
        R::NAME
    }

    fn asked(&self) -> Vec<Asked> {
        R::fields()
            .iter()
            .map(|field| Asked { about: field.about, entry: (field.get)(self), matters: (field.asked)(self) })
            .collect()
    }

    fn words(&self) -> Vec<Words> {
        let words = |&Text { name, label, note, most, get, .. }: &Text<R>| Words {
            name,
            label,
            note,
            most,
            words: get(self).clone(),
        };
        R::texts().iter().map(words).collect()
    }

    fn set(&mut self, name: &str, entry: &Entry) -> Result<(), BadInput> {
        let fields = R::fields();
        let Some(field) = fields.iter().find(|field| field.about.name == name) else { return Err(unknown(self, name)) };
        let entry = settled(&field.about, entry);
        check(&field.about, &entry)?;
        if let Some(why) = R::refuses(name, &entry) {
            return Err(BadInput::Refused { what: field.about.name, why });
        }
        (field.set)(self, &entry);
        Ok(())
    }

    fn say(&mut self, name: &str, words: &str) -> Result<(), BadInput> {
        let texts = R::texts();
        let Some(text) = texts.iter().find(|text| text.name == name) else { return Err(unknown(self, name)) };
        if words.chars().nth(text.most).is_some() {
            return Err(BadInput::Refused { what: text.name, why: "it is too long" });
        }
        if let Some(why) = (text.wrong)(words) {
            return Err(BadInput::Refused { what: text.name, why });
        }
        words.clone_into((text.place)(self));
        Ok(())
    }
}

/// There is no such text or field.
pub(super) fn unknown(row: &dyn Row, name: &str) -> BadInput {
    let mut fields: Vec<_> = row.words().iter().map(|text| text.name).collect();
    fields.extend(row.asked().iter().map(|field| field.about.name));
    BadInput::UnknownField { name: name.to_owned(), question: row.name(), fields }
}

/// Declares a text of the row that is `Self` where this stands.
macro_rules! text {
    ($name:ident, $most:literal, $label:literal, $note:literal) => {
        $crate::plan::record::text!($name, $most, $label, $note, |_| None)
    };
    ($name:ident, $most:literal, $label:literal, $note:literal, $wrong:expr) => {
        $crate::plan::record::Text {
            name: stringify!($name),
            label: $label,
            note: $note,
            most: $most,
            get: |row: &Self| &row.$name,
            place: |row: &mut Self| &mut row.$name,
            wrong: $wrong,
        }
    };
}
pub(super) use text;
