//! A plan in a link: `plan~1~d/'0Name/w2~n/m82/r3~r/l60~o/a9_10_12~q1/al/q0!ab~z`.
//!
//! A version, then rows one after the other: the day `d`, the pace `p`, a person `n`, a rope `r`, a drop `o`, a
//! question of the last drop `q` with its own link. A row holds the letter and the value of each field that differs
//! from an empty one, and each text as `'`, its place and its words, percent-encoded. A question ends with `!` and
//! the letters of the fields that nobody gave. The end says that it is the end: a link that was cut short must not
//! lose a drop, or make 6 m of a rope of 60. Everything is in SI, so that it is read the same everywhere.

use crate::link::{Link, entry, value};
use rigging_core::plan::{CarriedRope, Day, MOST as ROWS, Pace, Person, Plan, PlannedDrop, Row};
use rigging_core::quantity::Units;
use rigging_core::question::Held;

/// What a link of a plan begins with.
pub const START: &str = "plan~1~";
/// What it ends with.
const END: &str = "~z";
/// The most letters that a link may have: messages cut longer ones.
pub const MOST: usize = 2000;

/// The link, without `#`.
pub fn write(plan: &Plan) -> String {
    let (person, rope, empty) = (Person::default(), CarriedRope::default(), PlannedDrop::default());
    let mut rows = vec![row('d', &plan.day, &Day::default()), row('p', &plan.pace, &Pace::default())];
    rows.extend(plan.group.iter().map(|row_of| row('n', row_of, &person)));
    rows.extend(plan.ropes.iter().map(|row_of| row('r', row_of, &rope)));
    for drop in &plan.drops {
        rows.push(row('o', drop, &empty));
        rows.extend(drop.questions.iter().map(held));
    }
    [START, &rows.join("~"), END].concat()
}

fn row(letter: char, row: &dyn Row, empty: &dyn Row) -> String {
    let mut text = letter.to_string();
    for (place, said) in row.words().iter().enumerate() {
        if !said.words.is_empty() {
            text += &["/'", &place.to_string(), &encoded(&said.words)].concat();
        }
    }
    for (field, usual) in row.asked().iter().zip(empty.asked()) {
        if field.entry != usual.entry {
            text += &["/", &String::from(field.about.key), &value(field, Units::default())].concat();
        }
    }
    text
}

fn held(held: &Held) -> String {
    let link = Link { question: held.question.clone(), units: Units::default(), from: None };
    let fields = held.question.fields();
    let missing: String =
        fields.iter().filter(|field| held.missing.contains(&field.about.name)).map(|field| field.about.key).collect();
    let mut text = ["q", &link.write()].concat();
    if !missing.is_empty() {
        text += &["!", &missing].concat();
    }
    text
}

/// The plan of a link; nothing if any part of it cannot be read.
pub fn read(fragment: &str) -> Option<Plan> {
    let mut plan = Plan::default();
    for text in fragment.strip_prefix(START)?.strip_suffix(END)?.split('~') {
        let mut letters = text.chars();
        let letter = letters.next()?;
        let rest = letters.as_str();
        match letter {
            'd' => read_row(rest, &mut plan.day)?,
            'p' => read_row(rest, &mut plan.pace)?,
            'n' => {
                plan.group.push(Person::default());
                read_row(rest, plan.group.last_mut()?)?;
            }
            'r' => {
                plan.ropes.push(CarriedRope::default());
                read_row(rest, plan.ropes.last_mut()?)?;
            }
            'o' => {
                plan.drops.push(PlannedDrop::default());
                read_row(rest, plan.drops.last_mut()?)?;
            }
            'q' => plan.drops.last_mut()?.questions.push(read_held(rest)?),
            _ => return None,
        }
    }
    let rows = plan.group.len().max(plan.ropes.len()).max(plan.drops.len());
    let of_each = plan.drops.iter().map(|drop| drop.questions.len()).max().unwrap_or_default();
    (rows <= ROWS[0] && of_each <= ROWS[1] && plan.questions() <= ROWS[2]).then_some(plan)
}

fn read_row(text: &str, row: &mut dyn Row) -> Option<()> {
    for part in text.split('/').skip(1) {
        let mut letters = part.chars();
        let key = letters.next()?;
        let rest = letters.as_str();
        if key == '\'' {
            let (place, words) = rest.split_at_checked(1)?;
            let text = row.words().into_iter().nth(place.parse().ok()?)?;
            row.say(text.name, &decoded(words)?).ok()?;
        } else {
            let field = row.asked().into_iter().find(|field| field.about.key == key)?;
            let entry = entry(&field, rest, Units::default())?;
            row.set(field.about.name, &entry).ok()?;
        }
    }
    Some(())
}

fn read_held(text: &str) -> Option<Held> {
    let (link, missing) = text.split_once('!').unwrap_or((text, ""));
    let question = Link::read(link).ok()?.question;
    let fields = question.fields();
    let missing = missing
        .chars()
        .map(|key| fields.iter().find(|field| field.about.key == key).map(|field| field.about.name))
        .collect::<Option<Vec<_>>>()?;
    Some(Held { question, missing })
}

fn encoded(words: &str) -> String {
    let mut text = String::new();
    for byte in words.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._,".contains(&byte) {
            text.push(char::from(byte));
        } else if byte == b' ' {
            text.push('+');
        } else {
            text.push('%');
            for half in [byte >> 4, byte & 15] {
                text.push(char::from_digit(u32::from(half), 16).unwrap_or('0'));
            }
        }
    }
    text
}

fn decoded(text: &str) -> Option<String> {
    let mut bytes = Vec::new();
    let mut letters = text.bytes();
    while let Some(byte) = letters.next() {
        bytes.push(match byte {
            b'+' => b' ',
            b'%' => {
                let mut half = || char::from(letters.next()?).to_digit(16);
                u8::try_from(16 * half()? + half()?).ok()?
            }
            other => other,
        });
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigging_core::question::Question;

    #[test]
    fn a_plan_comes_back_from_its_link() {
        let mut plan = Plan::example();
        plan.day.order = "é, ~/'%+ 🧗 B first".to_owned();
        if let Some(drop) = plan.drops.first_mut() {
            drop.questions.push(Held::example(Question::named("line").unwrap()));
        }
        let link = write(&plan);
        assert!(link.bytes().all(|byte| byte.is_ascii_graphic()), "{link}");
        let back = read(&link).unwrap();
        assert_eq!(write(&back), link);
        assert_eq!(back.day.order, plan.day.order);
        assert_eq!(back.group, plan.group);
        assert_eq!(back.drops.len(), plan.drops.len());
        for (back, drop) in back.drops.iter().zip(&plan.drops) {
            let missing =
                |drop: &PlannedDrop| drop.questions.iter().map(|held| held.missing.clone()).collect::<Vec<_>>();
            assert_eq!(missing(back), missing(drop));
        }
        assert_eq!(read(&write(&Plan::default())), Some(Plan::default()));
    }

    #[test]
    fn a_link_that_was_cut_or_changed_is_not_read() {
        let link = write(&Plan::example());
        for cut in [
            "plan~1",
            "plan~2~d",
            "plan~1~",
            "plan~1~d/~z",
            "plan~1~x~z",
            "plan~1~q1/al~z",
            "plan~1~d/'9a~z",
            "plan~1~d/'0%4~z",
        ] {
            assert_eq!(read(cut), None, "{cut}");
        }
        for end in 0..link.len() {
            assert_eq!(read(link.get(..end).unwrap_or_default()), None, "cut after {end} letters");
        }
    }
}
