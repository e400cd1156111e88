//! Whatever stands in the fields of a question's type, numbers that are none and counts past counting too: it is
//! answered, or refused in the same words, as the question of its name; and what is refused is never worked out.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a check that cannot go on has failed")]

use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::TestRunner;
use rigging_core::band::Band;
use rigging_core::quantity::{Kind, Length, Ratio, metre, ratio};
use rigging_core::question::{
    Abseil, Against, AnchorLegs, Answer, Ask, BadInput, Bend, Entry, Field, GuidedAbseil, Holds, HumanAnchor,
    InTheCurrent, Line, NaturalAnchor, PullDown, Question, RaiseLower, RopeEnd, Slip, Takes, WeakestPart,
};
use std::cell::Cell;
use std::time::{Duration, Instant};

/// What nobody means: too much, too little, or no number.
const WILD: [f64; 10] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, f64::MIN, 1e9, 4e3, -1e-300, -1.0, -1e9];
/// What a count can be told that is not a count of anything here.
const MANY: [u32; 5] = [0, 7, 1_000, 1_000_000_000, u32::MAX];

/// Longer than any question takes, on a machine that has other things to do.
const LONG: Duration = Duration::from_secs(20);

/// One value of a field: where between the bounds three numbers lie, a choice, and how wild it is.
type Value = ([f64; 3], Index, Option<Index>);

fn any_value() -> impl Strategy<Value = Value> {
    let shares = [0.0..=1.0, 0.0..=1.0, 0.0..=1.0_f64];
    // A few of the fields are wild; most questions have some.
    (shares, any::<Index>(), prop::option::weighted(0.02, any::<Index>()))
}

/// What such a value is for a field.
fn entry<Q>(field: &Field<Q>, (shares, choice, wild): &Value) -> Entry {
    let (least, most) = field.about.takes.bounds();
    let [one, other, third] = shares.map(|share| least + share * (most - least));
    match (field.about.takes, wild) {
        (Takes::Choice(choices), _) => Entry::Choice(choice.get(choices).name),
        (Takes::One { .. }, None) if field.about.kind == Kind::Count => Entry::One(one.round()),
        (Takes::One { .. }, None) => Entry::One(one),
        (Takes::Range { .. }, None) => Entry::Range(Band::of(one, other, third)),
        (Takes::One { .. }, Some(wild)) if field.about.kind == Kind::Count => Entry::One(f64::from(*wild.get(&MANY))),
        (Takes::One { .. }, Some(wild)) => Entry::One(*wild.get(&WILD)),
        (Takes::Range { .. }, Some(wild)) => Entry::Range(Band::of(*wild.get(&WILD), other, third)),
    }
}

/// The question of this type with these values, put where they belong without a look at them.
fn filled<Q: Ask>(values: &[Value]) -> Q {
    let mut question = Q::default();
    for (field, value) in Q::fields().iter().zip(values) {
        (field.set)(&mut question, &entry(field, value));
    }
    question
}

/// What the question of its name says to the same values.
fn by_name<Q: Ask>(question: &Q) -> Result<Answer, BadInput> {
    let mut named = Question::named(Q::NAME)?;
    for field in Q::fields() {
        named.set(field.about.name, &(field.get)(question))?;
    }
    named.answer()
}

/// True if it was answered; a number that is none equals no other, but the words for it do.
fn is_one_question<Q: Ask>(question: Q, wrap: fn(Q) -> Question) -> Result<bool, TestCaseError> {
    let named = by_name(&question);
    let begun = Instant::now();
    let typed = question.answer();
    prop_assert!(begun.elapsed() < LONG, "{} took {:?}", Q::NAME, begun.elapsed());
    let wrapped = wrap(question).answer();
    match (&typed, &named, &wrapped) {
        (Err(typed), Err(named), Err(wrapped)) => {
            let [typed, named, wrapped] = [typed, named, wrapped].map(|error| format!("{error} {error:?}"));
            prop_assert_eq!(&typed, &named);
            prop_assert_eq!(&typed, &wrapped);
        }
        _ => {
            prop_assert!(typed == named, "{}: {:?} or {:?}", Q::NAME, typed.err(), named.err());
            prop_assert!(typed == wrapped, "{}: {:?} or {:?}", Q::NAME, typed.err(), wrapped.err());
        }
    }
    Ok(typed.is_ok())
}

/// Every question by its name, with the check of its type.
type Check = fn(&[Value]) -> Result<bool, TestCaseError>;
macro_rules! checks {
    ($($question:ident),+) => {
        [$(($question::NAME, (|values| is_one_question(filled::<$question>(values), Question::$question)) as Check)),+]
    };
}
const CHECKS: [(&str, Check); 13] = checks!(
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
    WeakestPart
);

#[test]
fn every_question_is_the_same_by_its_type_as_by_its_name() {
    let names: Vec<_> = CHECKS.iter().map(|(name, _)| *name).collect();
    assert_eq!(names, Question::all().iter().map(Question::name).collect::<Vec<_>>());
    let most = Question::all().iter().map(|question| question.fields().len()).max().unwrap();
    let (answered, refused) = (Cell::new(0_u32), Cell::new(0_u32));
    let config = ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() };
    let cases = (select(&CHECKS[..]), prop::collection::vec(any_value(), most));
    let outcome = TestRunner::new(config).run(&cases, |((_, check), values)| {
        let told = if check(&values)? { &answered } else { &refused };
        told.set(told.get() + 1);
        Ok(())
    });
    if let Err(error) = outcome {
        panic!("{error}");
    }
    // A check that saw only one of the two saw half of the door.
    assert!(answered.get().min(refused.get()) > 60, "{} answered, {} refused", answered.get(), refused.get());
}

/// What a question says of itself where no answer may be given.
fn refused<Q: Ask>(question: Q, wrap: fn(Q) -> Question) -> String {
    assert!(!is_one_question(question.clone(), wrap).unwrap(), "{}", Q::NAME);
    let error = question.answer().unwrap_err();
    assert!(matches!(error, BadInput::Field { .. }), "{error}");
    error.to_string()
}

#[test]
fn no_type_answers_what_its_name_refuses() {
    let legs = AnchorLegs::default();
    let divided = |factor| Against { factor: Ratio::new::<ratio>(factor), ..legs.against };
    let apart = |metres| AnchorLegs { apart: Band::exact(Length::new::<metre>(metres)), ..legs };
    let words = [
        refused(AnchorLegs { against: divided(0.01), ..legs }, Question::AnchorLegs),
        refused(apart(-1.0), Question::AnchorLegs),
        refused(apart(f64::NAN), Question::AnchorLegs),
        refused(Bend { bends: 1_000_000_000, ..Bend::default() }, Question::Bend),
        refused(RaiseLower { bends: u32::MAX, ..RaiseLower::default() }, Question::RaiseLower),
    ];
    let of =
        ["design_factor is 0.01:", "apart_m is -1:", "apart_m is ", "bends is 1000000000:", "bends is 4294967295:"];
    for (words, of) in words.iter().zip(of) {
        assert!(words.starts_with(of) && words.contains("it must be from "), "{words}");
    }
}

#[test]
fn a_small_design_factor_is_remarked_on_by_type_too() {
    let mut named = Question::named("bend").unwrap();
    named.set("anchor", &Entry::Choice("known")).unwrap();
    named.set_choice("limit", "rope A tied").unwrap();
    named.set("design_factor", &Entry::One(2.0)).unwrap();
    let Question::Bend(bend) = &named else { panic!("{} is no bend", named.name()) };
    assert_eq!(bend.against.holds, Holds::KnownBolt);
    let answer = bend.answer().unwrap();
    assert!(answer.remarks.iter().any(|remark| remark.starts_with("A design factor below 5")), "{:?}", answer.remarks);
    assert_eq!(answer, named.answer().unwrap());
}
