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
    assert_eq!(ask(&[], b"\xff\xfe").0, 1);
    assert_eq!(ask(&[], &vec![b'x'; 10_000_000]).0, 1);
    assert_eq!(ask(&["--help"], b"").0, 1);
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
