//! The example `plan` as a script calls it: text or JSON on standard output, what is wrong on standard error.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a check that cannot go on has failed")]

mod program;

fn plan(arguments: &[&str], input: &[u8]) -> (i32, String, String) {
    program::run("plan", arguments, input)
}

#[test]
fn a_plan_goes_in_and_its_text_or_its_json_comes_out() {
    let (status, example, _) = plan(&["--example"], b"");
    assert_eq!(status, 0);
    let (status, text, err) = plan(&[], example.as_bytes());
    assert_eq!((status, err.as_str()), (0, ""));
    assert!(text.contains("RIGGING PLAN: Example gorge (invented)"));
    let (status, json, err) = plan(&["--json"], example.as_bytes());
    assert_eq!((status, err.as_str()), (0, ""));
    let said: serde_json::Value = serde_json::from_str(&json).unwrap();
    assert_eq!(said["drops"].as_array().unwrap().len(), 6);
    assert_eq!(said["plan"]["format"], "rigging plan");
    let abseil = &said["drops"][1]["questions"][2];
    assert_eq!(abseil["question"]["question"], "abseil");
    assert!(abseil["answer"]["findings"][0]["up_to_n"].as_f64().unwrap() > 0.0);
}

#[test]
fn what_cannot_be_read_is_named_and_what_can_be_is_checked() {
    let (_, example, _) = plan(&["--example"], b"");
    let mut damaged = example.replacen("\"rigs\"", "\"flies\"", 1).into_bytes();
    let place = damaged.windows(6).position(|part| part == b"Narrow").unwrap();
    damaged[place] = 0xff;
    let (status, text, err) = plan(&[], &damaged);
    assert_eq!(status, 1);
    assert!(err.contains("rope_skill is \"flies\"") && err.contains("line "), "{err}");
    assert!(text.contains("DROP 6 Last hall"));
}

#[test]
fn what_is_no_plan_is_an_error_and_nothing_is_printed() {
    for input in [&b""[..], b"  \n", b"{}", b"not json", b"[1, 2", b"\xff\xfe"] {
        let (status, out, err) = plan(&[], input);
        assert_eq!((status, out.as_str()), (1, ""), "{input:?}");
        assert!(err.starts_with("plan: "), "{err}");
    }
    assert_eq!(plan(&["--colour"], b"").0, 1);
}
