//! The example `solve_rig` as a script calls it: the answer as JSON, or one line that says what is wrong.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a check that cannot go on has failed")]

mod program;

const HUNG: &str = r#"{"points":[{"name":"bolt","at_m":[0,0,0],"held":true},
           {"name":"pack","at_m":[0,0,-1],"load_n":[0,0,-100]}],
 "lines":[{"name":"cord","through":["bolt","pack"],"length_m":1,"stiffness_n":10000}]}"#;

fn solve_rig(input: &[u8]) -> (i32, String, String) {
    program::run("solve_rig", &[], input)
}

#[test]
fn a_rig_goes_in_and_its_answer_comes_out() {
    let (status, answer, err) = solve_rig(HUNG.as_bytes());
    assert_eq!((status, err.as_str()), (0, ""));
    assert!(answer.ends_with("}\n"));
    let answer: serde_json::Value = serde_json::from_str(&answer).unwrap();
    assert_eq!(answer["status"], "balanced");
    // 1 m, and 100 N of 10 kN.
    let hung = answer["points"][1]["at_m"][2].as_f64().unwrap();
    assert!((hung + 1.01).abs() < 1e-9, "{hung}");
}

#[test]
fn what_cannot_be_read_ends_with_one_line_and_no_answer() {
    let unread = HUNG.replacen("\"length_m\":1", "\"length_m\":0", 1);
    for (input, words) in [("", "empty"), (" \n", "empty"), (unread.as_str(), "length_m"), ("[]", "\"points\"")] {
        let (status, answer, err) = solve_rig(input.as_bytes());
        assert_eq!((status, answer.as_str()), (1, ""), "{input}");
        assert!(err.contains(words) && err.lines().count() == 1, "{err}");
    }
}
