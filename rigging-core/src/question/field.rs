//! What a question takes: the table of its fields.
//!
//! One [`Field`] says everything about one input: its name on the wire, its words, its unit, what it
//! may be, where its default comes from, and how to reach it in the question. The list that `ask
//! --list` prints, the JSON, the link and the entry form of the page are all made from this table.

use crate::band::Band;
use crate::quantity::{
    Angle, Force, Kind, Length, Mass, Ratio, Time, Velocity, kilogram, metre, metre_per_second, newton, radian, ratio,
    second,
};
use crate::working::Source;
use std::ops::RangeInclusive;

/// A value of a field, in SI.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::question::{Entry, Question};
///
/// // A place is one number, a span may be a range, a setting goes by its name.
/// let mut line = Question::named("line")?;
/// line.set("place", &Entry::One(0.4))?;
/// line.set("span_m", &Entry::Range(Band::of(11.0, 12.0, 14.0)))?;
/// line.set("setting", &Entry::Choice("slack"))?;
/// // What has another shape than its field is refused.
/// assert!(line.set("place", &Entry::Range(Band::of(0.3, 0.4, 0.5))).is_err());
/// assert!(line.set("span_m", &Entry::Choice("wide")).is_err());
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Entry {
    /// One number.
    One(f64),
    /// A range.
    Range(Band),
    /// The name of a choice.
    Choice(&'static str),
}

/// What a field takes.
/// ```
/// use rigging_core::question::{Choice, Takes, Whether};
///
/// assert_eq!(Takes::One { least: 0.5, most: 200.0 }.bounds(), (0.5, 200.0));
/// // A choice has no bounds; its names are those of JSON, its words those of the page.
/// let yes_or_no = Takes::Choice(Whether::CHOICES);
/// assert_eq!(yes_or_no.bounds(), (0.0, 0.0));
/// assert_eq!(Whether::CHOICES[0], Choice { name: "yes", words: "yes" });
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Takes {
    /// One number within bounds (SI).
    One {
        /// The least it may be.
        least: f64,
        /// The most it may be.
        most: f64,
    },
    /// A range within bounds (SI).
    Range {
        /// The least its low end may be.
        least: f64,
        /// The most its high end may be.
        most: f64,
    },
    /// One of several named choices.
    Choice(&'static [Choice]),
}

impl Takes {
    /// The least and the most it may be (SI); both 0 for a choice.
    /// ```
    /// use rigging_core::question::{Ask, HumanAnchor};
    ///
    /// // One to six people hold, of 30 to 200 kg each.
    /// let fields = HumanAnchor::fields();
    /// let of = |name| fields.iter().find(|field| field.about.name == name).map(|field| field.about.takes.bounds());
    /// assert_eq!((of("holders"), of("holder_kg")), (Some((1.0, 6.0)), Some((30.0, 200.0))));
    /// ```
    pub const fn bounds(&self) -> (f64, f64) {
        match *self {
            Takes::One { least, most } | Takes::Range { least, most } => (least, most),
            Takes::Choice(_) => (0.0, 0.0),
        }
    }
}

impl Entry {
    /// The number, or the middle of the range (SI); 0 for a choice.
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::question::Entry;
    ///
    /// // The middle lies half way between the ends, wherever the typical value is.
    /// assert_eq!(Entry::Range(Band::of(2.0, 3.0, 6.0)).middle(), 4.0);
    /// assert_eq!(Entry::One(3.0).middle(), 3.0);
    /// ```
    pub fn middle(&self) -> f64 {
        match self {
            Entry::One(si) => *si,
            Entry::Range(band) => (band.low() + band.high()) / 2.0,
            Entry::Choice(_) => 0.0,
        }
    }
}

/// One of the choices of a field.
/// ```
/// use rigging_core::question::{Question, Takes};
///
/// // What a field lets one choose from: by name in JSON, in these words on the page.
/// let fields = Question::named("line")?.fields();
/// let setting = fields.iter().find(|field| field.about.name == "setting").ok_or("no such field")?;
/// let Takes::Choice(choices) = setting.about.takes else { return Err("no choice".into()) };
/// let slack = choices.iter().find(|choice| choice.name == "slack").ok_or("no such name")?;
/// assert_eq!(slack.words, "left longer than the straight distance");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// Its name in JSON and in the link.
    pub name: &'static str,
    /// What it says on the page.
    pub words: &'static str,
}

/// Everything about a field but where it stands in its question.
/// ```
/// use rigging_core::question::{Question, Takes};
///
/// // A name in JSON ends in the unit of what the field measures.
/// let span = Question::named("line")?.fields()[0].about;
/// assert!(span.name == "span_m" && span.kind.suffix() == "_m");
/// assert_eq!(span.takes, Takes::Range { least: 0.5, most: 200.0 });
/// # Ok::<(), rigging_core::question::BadInput>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct About {
    /// Name in JSON; ends in the SI unit.
    pub name: &'static str,
    /// The letter it has in a link; never given to another field of the question.
    pub key: char,
    /// Its name on the page.
    pub label: &'static str,
    /// How to measure it, or what it means.
    pub note: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// What it may be.
    pub takes: Takes,
    /// Where its default comes from.
    pub source: Source,
}

/// One input of the question `Q`.
/// ```
/// use rigging_core::quantity::Kind;
/// use rigging_core::question::{Entry, Field};
/// use rigging_core::working::{Known, Source};
///
/// /// A ledge: how long it is, and whether anybody has to cross it.
/// struct Ledge(f64, bool);
/// let place: (fn(&Ledge) -> Entry, fn(&mut Ledge, &Entry)) =
///     (|ledge| Entry::One(ledge.0), |ledge, entry| ledge.0 = entry.middle());
/// let long = Field::one('l', "long_m", Kind::Length, 0.5..=50.0, place)
///     .says("Length", "along the wall")
///     .from(Source::assumed("a short ledge"))
///     .asked_if(|ledge: &Ledge| ledge.1);
/// assert_eq!((long.about.takes.bounds(), long.about.source.known), ((0.5, 50.0), Known::Assumed));
/// // What it writes it reads.
/// let mut ledge = Ledge(3.0, false);
/// (long.set)(&mut ledge, &Entry::One(8.0));
/// assert_eq!(((long.get)(&ledge), (long.asked)(&ledge)), (Entry::One(8.0), false));
/// ```
#[derive(Debug, Clone, Copy)]
pub struct Field<Q> {
    /// What it is.
    pub about: About,
    /// Reads it.
    pub get: fn(&Q) -> Entry,
    /// Writes it; an entry of the wrong shape changes nothing.
    pub set: fn(&mut Q, &Entry),
    /// Whether it matters, the other fields being what they are.
    pub asked: fn(&Q) -> bool,
}

impl<Q> Field<Q> {
    const fn new(key: char, name: &'static str, kind: Kind, takes: Takes, place: Place<Q>) -> Self {
        let about = About { name, key, label: "", note: "", kind, takes, source: Source::YOURS };
        Field { about, get: place.0, set: place.1, asked: |_| true }
    }

    /// A field that takes one number within `bounds` (SI).
    /// ```
    /// use rigging_core::quantity::Kind;
    /// use rigging_core::question::{Entry, Field, check};
    ///
    /// /// How long a ledge is.
    /// struct Ledge(f64);
    /// let long = Field::one('l', "long_m", Kind::Length, 0.5..=50.0, (
    ///     |ledge: &Ledge| Entry::One(ledge.0),
    ///     |ledge, entry| ledge.0 = entry.middle(),
    /// ));
    /// // The bounds may be reached, not passed.
    /// assert!(check(&long.about, &Entry::One(50.0)).is_ok() && check(&long.about, &Entry::One(50.1)).is_err());
    /// ```
    pub const fn one(key: char, name: &'static str, kind: Kind, bounds: RangeInclusive<f64>, place: Place<Q>) -> Self {
        Field::new(key, name, kind, Takes::One { least: *bounds.start(), most: *bounds.end() }, place)
    }

    /// A field that takes a range within `bounds` (SI).
    /// ```
    /// use rigging_core::band::Band;
    /// use rigging_core::quantity::Kind;
    /// use rigging_core::question::{Entry, Field, Takes, check};
    ///
    /// /// How long a ledge is, known within a range.
    /// struct Ledge(Band);
    /// let long = Field::range('l', "long_m", Kind::Length, 0.5..=50.0, (
    ///     |ledge: &Ledge| Entry::Range(ledge.0),
    ///     |ledge, entry| if let Entry::Range(long) = entry { ledge.0 = *long },
    /// ));
    /// assert_eq!(long.about.takes, Takes::Range { least: 0.5, most: 50.0 });
    /// // Both ends keep to the bounds.
    /// assert!(check(&long.about, &Entry::Range(Band::of(1.0, 2.0, 50.0))).is_ok());
    /// assert!(check(&long.about, &Entry::Range(Band::of(0.0, 2.0, 50.0))).is_err());
    /// ```
    pub const fn range(
        key: char,
        name: &'static str,
        kind: Kind,
        bounds: RangeInclusive<f64>,
        place: Place<Q>,
    ) -> Self {
        Field::new(key, name, kind, Takes::Range { least: *bounds.start(), most: *bounds.end() }, place)
    }

    /// A field that takes one of `choices`.
    /// ```
    /// use rigging_core::question::{Enters, Entry, Field, Whether, check};
    ///
    /// /// Whether a ledge is wet.
    /// struct Ledge(Whether);
    /// let wet = Field::choice('w', "wet", Whether::CHOICES, (
    ///     |ledge: &Ledge| ledge.0.to_entry(),
    ///     |ledge, entry| ledge.0 = Whether::from_entry(entry).unwrap_or(ledge.0),
    /// ));
    /// let mut ledge = Ledge(Whether::No);
    /// (wet.set)(&mut ledge, &Entry::Choice("yes"));
    /// assert_eq!((wet.get)(&ledge), Entry::Choice("yes"));
    /// // A name that is none of the choices is refused.
    /// assert!(check(&wet.about, &Entry::Choice("perhaps")).is_err());
    /// ```
    pub const fn choice(key: char, name: &'static str, choices: &'static [Choice], place: Place<Q>) -> Self {
        Field::new(key, name, Kind::Count, Takes::Choice(choices), place)
    }

    /// The words of the field: its label, and how to measure it or what it means.
    /// ```
    /// use rigging_core::question::{Ask, Line};
    ///
    /// // In other words it is the same field.
    /// let [before, after] = [Line::fields().remove(0), Line::fields().remove(0).says("Span", "lip to lip")];
    /// assert_eq!((after.about.label, after.about.note), ("Span", "lip to lip"));
    /// assert_eq!((after.about.name, after.about.takes), (before.about.name, before.about.takes));
    /// ```
    pub const fn says(mut self, label: &'static str, note: &'static str) -> Self {
        self.about.label = label;
        self.about.note = note;
        self
    }

    /// Where the default comes from, if it is not simply the user's to give.
    /// ```
    /// use rigging_core::question::{Ask, Line};
    /// use rigging_core::working::{Known, Source};
    ///
    /// let source = Line::fields().remove(0).from(Source::assumed("a short line")).about.source;
    /// assert_eq!((source.known, source.place), (Known::Assumed, "a short line"));
    /// ```
    pub const fn from(mut self, source: Source) -> Self {
        self.about.source = source;
        self
    }

    /// When the field matters.
    /// ```
    /// use rigging_core::question::{Ask, Line, Setting};
    ///
    /// // A span that is asked only of a line left long.
    /// let span = Line::fields().remove(0).asked_if(|line: &Line| line.setting == Setting::Slack);
    /// let asked = |setting| (span.asked)(&Line { setting, ..Line::default() });
    /// assert!(asked(Setting::Slack) && !asked(Setting::Sag));
    /// ```
    pub const fn asked_if(mut self, asked: fn(&Q) -> bool) -> Self {
        self.asked = asked;
        self
    }
}

/// How to read and to write a field.
pub type Place<Q> = (fn(&Q) -> Entry, fn(&mut Q, &Entry));

/// A type that a field can hold.
/// ```
/// use rigging_core::band::Band;
/// use rigging_core::quantity::{Length, metre};
/// use rigging_core::question::{Enters, Entry, Whether};
///
/// // What became an entry is read back from it.
/// let length = Length::new::<metre>(3.0);
/// assert_eq!(Length::from_entry(&length.to_entry()), Some(length));
/// // A number of a range is one without width; half a person is none.
/// assert_eq!(Band::<Length>::from_entry(&Entry::One(3.0)), Some(Band::exact(length)));
/// assert_eq!(u32::from_entry(&Entry::One(2.5)), None);
/// // A choice goes by its name.
/// assert_eq!(Whether::from_entry(&Entry::Choice("yes")), Some(Whether::Yes));
/// ```
pub trait Enters: Sized {
    /// The value as an entry.
    fn to_entry(&self) -> Entry;
    /// The value of an entry, if it has the right shape.
    fn from_entry(entry: &Entry) -> Option<Self>;
}

/// Writes an entry where it belongs.
pub fn put<T: Enters>(place: &mut T, entry: &Entry) {
    if let Some(value) = T::from_entry(entry) {
        *place = value;
    }
}

/// Reads and writes the field at a path of the question that is `Self` where this stands.
macro_rules! place {
    ($($path:ident).+) => {
        (
            |question: &Self| $crate::question::field::Enters::to_entry(&question.$($path).+),
            |question: &mut Self, entry| $crate::question::field::put(&mut question.$($path).+, entry),
        )
    };
}
pub(crate) use place;

/// The fields of a question. They are constants: made by code they are 6 kB more of the module.
macro_rules! table {
    ($($field:expr),+ $(,)?) => {
        Vec::from(const { [$($field),+] })
    };
}
pub(crate) use table;

macro_rules! quantity_enters {
    ($($quantity:ident in $unit:ident),*) => {$(
        impl Enters for $quantity {
            fn to_entry(&self) -> Entry {
                Entry::One(self.value)
            }
            fn from_entry(entry: &Entry) -> Option<Self> {
                match entry {
                    Entry::One(si) => Some($quantity::new::<$unit>(*si)),
                    _ => None,
                }
            }
        }
        impl Enters for Band<$quantity> {
            fn to_entry(&self) -> Entry {
                Entry::Range(self.map(|quantity| quantity.value))
            }
            fn from_entry(entry: &Entry) -> Option<Self> {
                match entry {
                    Entry::Range(band) => Some(band.map(|si| $quantity::new::<$unit>(si))),
                    Entry::One(si) => Some(Band::exact($quantity::new::<$unit>(*si))),
                    Entry::Choice(_) => None,
                }
            }
        }
    )*};
}
quantity_enters!(Force in newton, Length in metre, Mass in kilogram, Angle in radian, Ratio in ratio, Time in second, Velocity in metre_per_second);

impl Enters for u32 {
    fn to_entry(&self) -> Entry {
        Entry::One(f64::from(*self))
    }
    fn from_entry(entry: &Entry) -> Option<Self> {
        match entry {
            Entry::One(number) if number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(number) => {
                Some(*number as u32)
            }
            _ => None,
        }
    }
}

/// Gives an enum its choices: the name and the words of each variant.
macro_rules! choices {
    ($type:ident { $($variant:ident = $name:literal, $words:literal;)+ }) => {
        impl $type {
            /// The choices, as JSON names them and as the page words them.
            pub const CHOICES: &'static [$crate::question::field::Choice] =
                &[$($crate::question::field::Choice { name: $name, words: $words }),+];
            /// What it says on the page.
            pub const fn words(self) -> &'static str {
                match self {
                    $(Self::$variant => $words),+
                }
            }
        }
        impl $crate::question::field::Enters for $type {
            fn to_entry(&self) -> $crate::question::field::Entry {
                $crate::question::field::Entry::Choice(match self {
                    $(Self::$variant => $name),+
                })
            }
            fn from_entry(entry: &$crate::question::field::Entry) -> Option<Self> {
                match entry {
                    $($crate::question::field::Entry::Choice($name) => Some(Self::$variant),)+
                    _ => None,
                }
            }
        }
    };
}
pub(crate) use choices;
