//! The example `ask` as a script calls it: answers on standard output, what is wrong on standard error.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a check that cannot go on has failed")]

mod program;

fn ask(arguments: &[&str], input: &[u8]) -> (i32, String, String) {
    program::run("ask", arguments, input)
}

#[test]
fn a_question_is_answered_and_what_was_not_given_is_named() {
    let (status, out, err) = ask(&[], br#"{"question": "line", "span_m": 9, "people": 2}"#);
    assert_eq!((status, err.as_str()), (0, ""));
    let said: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(said["question"]["span_m"], 9.0);
    let kept = said["taken_from_the_example"].as_array().unwrap();
    assert!(kept.iter().any(|name| name == "sag") && !kept.iter().any(|name| name == "span_m"), "{kept:?}");
    let range = said["answer"]["findings"][0]["range_n"].as_array().unwrap();
    assert_eq!(said["answer"]["findings"][0]["up_to_n"], range[2]);
    assert_eq!(said["answer"]["comparisons"][0]["standing"], "not checked");
}

#[test]
fn what_is_wrong_is_named_on_standard_error_with_status_1() {
    let deep = format!("{{\"question\": \"line\", \"span_m\": {}", "[".repeat(100_000));
    for (input, words) in [
        ("", "nothing came in"),
        ("soup", "expected"),
        (r#"{"question": "line""#, "EOF"),
        (r#"{"question": "line", "colour": 3}"#, "\"colour\" is not a field of \"line\""),
        (r#"{"question": "line", "span_m": -3}"#, "span_m is -3: it must be from 0.5 to 200 m"),
        (r#"{"question": "line", "span_m": 1e999}"#, "number out of range"),
        (r#"{"question": "line", "setting": "loose"}"#, "setting is \"loose\": it must be one of"),
        (r#"{"question": "anchor legs", "right_higher_m": 5}"#, "height of one anchor above the other"),
        (r#"{"question": "tea"}"#, "question is \"tea\": it must be one of"),
        (deep.as_str(), "recursion limit"),
    ] {
        let (status, out, err) = ask(&[], input.as_bytes());
        assert_eq!((status, out.as_str()), (1, ""), "{input}");
        assert!(err.starts_with("ask: ") && err.contains(words), "{words:?} is not in {err:?}");
    }
    let (status, _, err) = ask(&[], b"\xff\xfe");
    assert!(status == 1 && err.contains("no text in UTF-8"), "{err}");
    assert_eq!(ask(&["--help"], b"").0, 1);
}

/// A question at the limit is answered; nothing after it is passed over, be it blank or not.
#[test]
fn what_is_too_long_is_refused_and_never_cut() {
    let padded = |length: usize, end: &str| {
        let mut input = br#"{"question": "line", "span_m": 9}"#.to_vec();
        input.resize(length - end.len(), b' ');
        [input, end.as_bytes().to_vec()].concat()
    };
    assert_eq!(ask(&[], &padded(1_000_000, "")).0, 0);
    for input in [padded(1_000_001, ""), padded(1_000_010, "soup"), vec![b'x'; 10_000_000], vec![b'['; 2_000_000]] {
        let (status, out, err) = ask(&[], &input);
        assert_eq!((status, out.as_str()), (1, ""));
        assert!(err.contains("longer than 1000000 bytes"), "{err}");
    }
    let (status, _, err) = ask(&[], &padded(1_000_000, "soup"));
    assert!(status == 1 && err.contains("trailing characters"), "{err}");
}

/// What a stranger copies from the README does what it says there.
#[test]
fn the_commands_of_the_readme_work_as_they_stand() {
    let readme = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../README.md")).unwrap();
    let (mut asked, mut listed) = (0, 0);
    for line in readme.lines().filter(|line| line.contains("--example ask")) {
        let (before, arguments) = line.split_once("cargo run -q -p rigging-core --example ask").unwrap();
        if let Some(question) = before.strip_prefix("echo '") {
            let (status, out, err) = ask(&[], question.strip_suffix("' | ").unwrap().as_bytes());
            assert!(status == 0 && arguments.is_empty() && out.contains("findings"), "{line}: {err}");
            asked += 1;
        } else {
            // What comes before the two dashes is Cargo's, and it refuses what it does not know.
            let arguments: Vec<&str> = arguments.strip_prefix(" -- ").unwrap().split(' ').collect();
            assert!(before.is_empty() && ask(&arguments, b"").0 == 0, "{line}");
            listed += 1;
        }
    }
    assert_eq!((asked, listed), (1, 1));
}

#[test]
fn a_number_is_told_as_short_as_it_was_meant() {
    for question in rigging_core::question::Question::all() {
        let (_, out, _) = ask(&[], format!(r#"{{"question": "{}"}}"#, question.name()).as_bytes());
        let said: serde_json::Value = serde_json::from_str(&out).unwrap();
        let told = said["question"].to_string();
        assert!(!told.contains("00000") && !told.contains("99999"), "{told}");
        // It is the question all the same, and what is no short number stays as it was.
        let again: rigging_core::question::Question = serde_json::from_str(&told).unwrap();
        for (told, meant) in again.fields().iter().zip(question.fields()) {
            let (told, meant) = (told.entry.middle(), meant.entry.middle());
            assert!((told - meant).abs() <= 1e-15 * meant.abs(), "{told} for {meant}");
        }
    }
    let (_, out, _) = ask(&[], br#"{"question": "abseil"}"#);
    assert!(out.contains("_m\": 0.009,"), "{out}");
    let (_, out, _) = ask(&[], br#"{"question": "abseil", "height_m": 12.345678901234567}"#);
    assert!(out.contains("12.345678901234567"), "{out}");
}

#[test]
fn the_list_has_every_question_with_its_fields_units_defaults_and_ranges() {
    let (status, out, _) = ask(&["--list"], b"");
    assert_eq!(status, 0);
    for question in rigging_core::question::Question::all() {
        assert!(out.contains(&format!("\"question\": \"{}\"", question.name())));
        for field in question.fields() {
            assert!(out.contains(&format!("\"{}\": ", field.about.name)), "{}", field.about.name);
        }
    }
    assert!(out.contains("\"span_m\": [7.5, 8, 8.5]") && out.contains("range within 0.5 to 200"), "{out}");
}

/// Every field takes both ends that the list, and a refusal, tell of it.
#[test]
fn what_the_list_tells_as_an_end_is_taken() {
    use rigging_core::band::Band;
    use rigging_core::question::{Entry, Question, Takes};
    let (_, out, _) = ask(&["--list"], b"");
    let mut told = 0;
    for mut question in Question::all() {
        let section = out.split(&format!("\"question\": \"{}\"", question.name())).nth(1).unwrap();
        for field in question.fields() {
            let (between, entry): (_, fn(f64) -> Entry) = match field.about.takes {
                Takes::One { .. } => ("; ", Entry::One),
                Takes::Range { .. } => ("; range within ", |end| Entry::Range(Band::exact(end))),
                Takes::Choice(_) => continue,
            };
            let line = section.split(&format!("  \"{}\": ", field.about.name)).nth(1).unwrap().lines().nth(1).unwrap();
            let noted = line.split_once(&format!("({})", field.about.note)).unwrap().1;
            let refused = question.set(field.about.name, &entry(-1e9)).unwrap_err().to_string();
            let ends = [noted.strip_prefix(between).unwrap(), refused.split_once(": it must be from ").unwrap().1]
                .map(|words| words.split_once(" to ").unwrap());
            for end in ends.into_iter().flat_map(|(least, most)| [least, most.split([';', ' ']).next().unwrap()]) {
                let taken = question.set(field.about.name, &entry(end.parse().unwrap()));
                assert!(taken.is_ok(), "{} {}: {end}: {taken:?}", question.name(), field.about.name);
                told += 1;
            }
        }
    }
    assert!(told > 400, "{told}");
}
