//! The rig file: what is read, what is refused and in which words.
#![cfg(not(target_arch = "wasm32"))]
#![expect(clippy::unwrap_used, reason = "a check that cannot go on has failed")]

use rigging_core::statics::{Answer, Rig, Settings, solve};
use serde_json::{Value, json};

const TWO_LEGS: &str = r#"{"points":[{"name":"left bolt","at_m":[-0.5,0,0],"held":true},
           {"name":"right bolt","at_m":[0.5,0,0],"held":true},
           {"name":"master point","at_m":[0,0,-0.8],"load_n":[0,0,-785]}],
 "lines":[{"name":"left leg","through":["left bolt","master point"],"length_m":0.94,"stiffness_n":30000},
          {"name":"right leg","through":["right bolt","master point"],"length_m":0.94,"stiffness_n":30000}]}"#;

/// The answer as JSON, or why the file is refused.
fn run(input: &[u8]) -> Result<Value, String> {
    let rig: Rig = serde_json::from_slice(input).map_err(|fault| fault.to_string())?;
    Ok(serde_json::to_value(Answer::new(&rig, &solve(&rig, &Settings::default()))).unwrap())
}

fn answer(input: &str) -> Value {
    run(input.as_bytes()).unwrap()
}

fn refusal(input: &[u8]) -> String {
    run(input).unwrap_err()
}

/// The two legs with one thing changed.
fn changed(change: impl FnOnce(&mut Value)) -> String {
    let mut rig: Value = serde_json::from_str(TWO_LEGS).unwrap();
    change(&mut rig);
    rig.to_string()
}

fn refused(change: impl FnOnce(&mut Value), words: &[&str]) {
    let message = refusal(changed(change).as_bytes());
    for word in words {
        assert!(message.contains(word), "{word:?} is not in {message:?}");
    }
    assert_eq!(message.trim().lines().count(), 1, "{message}");
}

/// The rigs of the project's own checks, and one with a load on an anchor.
#[test]
fn a_rig_that_is_written_is_read_as_it_was() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/rigs");
    let mut texts: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path())
        .filter(|path| path.to_string_lossy().ends_with(".rig.json"))
        .map(|path| std::fs::read_to_string(path).unwrap())
        .collect();
    texts.push(changed(|rig| rig["points"][0]["load_n"] = json!([0.0, 3.0, -5.0])));
    assert!(texts.len() > 20, "{}", texts.len());
    for text in texts {
        let rig: Rig = serde_json::from_str(&text).unwrap();
        let written = serde_json::to_string(&rig).unwrap();
        assert_eq!(serde_json::from_str::<Rig>(&written).unwrap(), rig, "{text}");
        // And no field is written that was not there.
        let fields = |text: &str| text.matches("\":").count();
        assert!(fields(&written) <= fields(&text), "{text}");
    }
}

#[test]
fn a_rig_is_answered_with_every_field_of_the_format() {
    let answer = answer(TWO_LEGS);
    assert_eq!(answer["status"], "balanced");
    assert!(answer["imbalance"].as_f64().unwrap() <= 1e-9);
    assert!(answer["iterations"].as_u64().unwrap() > 0);
    assert_eq!(answer["points"][0]["name"], "left bolt");
    assert_eq!(answer["points"][0]["at_m"], json!([-0.5, 0.0, 0.0]));
    let reaction = answer["points"][0]["reaction_n"][2].as_f64().unwrap();
    assert!((reaction + 392.5).abs() < 1e-6);
    assert!(answer["points"][2].get("reaction_n").is_none());
    assert!(answer["points"][2].get("determined").is_none());
    let leg = &answer["lines"][0];
    assert_eq!(leg["tension_n"].as_array().unwrap().len(), 1);
    assert_eq!(leg["slack"], false);
    let (tension, length) = (leg["tension_n"][0].as_f64().unwrap(), leg["length_m"].as_f64().unwrap());
    assert!((length - 0.94 * (1.0 + tension / 30_000.0)).abs() < 1e-9);
    assert!(leg.get("end_stops").is_none());
}

#[test]
fn a_line_with_weight_has_a_tension_at_each_end_and_is_never_slack() {
    let answer = answer(&changed(|rig| rig["lines"][0]["weight_n_per_m"] = json!(2.0)));
    assert_eq!(answer["lines"][0]["tension_n"].as_array().unwrap().len(), 2);
    assert_eq!(answer["lines"][0]["slack"], false);
    let zero = self::answer(&changed(|rig| rig["lines"][0]["weight_n_per_m"] = json!(0)));
    assert_eq!(zero["lines"][0]["tension_n"].as_array().unwrap().len(), 1);
}

#[test]
fn a_load_that_nothing_holds_is_named_and_no_number_is_given() {
    let answer = answer(&changed(|rig| {
        rig["points"][0]["held"] = json!(false);
        rig["points"][1]["held"] = json!(false);
    }));
    assert_eq!(answer["status"], "unheld");
    assert_eq!(answer["unheld"], json!(["master point"]));
    assert!(answer.get("lines").is_none() && answer.get("points").is_none());
}

#[test]
fn a_point_on_slack_lines_has_no_determined_position() {
    let answer = answer(&changed(|rig| rig["points"][2]["load_n"] = json!([0, 0, 0])));
    assert_eq!(answer["status"], "balanced");
    assert_eq!(answer["imbalance"], 0.0);
    assert_eq!(answer["points"][2]["determined"], false);
    assert_eq!(answer["lines"][0]["slack"], true);
    assert_eq!(answer["lines"][0]["tension_n"], json!([0.0]));
}

#[test]
fn what_a_rig_cannot_be_is_refused_with_its_name_and_the_rule() {
    refused(|rig| rig["points"][1]["name"] = json!("left bolt"), &["point \"left bolt\"", "repeated"]);
    refused(|rig| rig["lines"][1]["name"] = json!("left leg"), &["line \"left leg\"", "repeated"]);
    refused(|rig| rig["points"][1]["name"] = json!(""), &["point number 2", "name"]);
    refused(|rig| rig["lines"][0]["through"][1] = json!("ring"), &["line \"left leg\"", "\"ring\""]);
    refused(|rig| rig["lines"][0]["through"] = json!(["left bolt"]), &["line \"left leg\"", "at least two"]);
    refused(|rig| rig["lines"][0]["through"] = json!([]), &["line \"left leg\"", "at least two"]);
    refused(|rig| rig["lines"][0]["length_m"] = json!(0), &["line \"left leg\"", "length_m", "above 0"]);
    refused(|rig| rig["lines"][0]["length_m"] = json!(-1), &["line \"left leg\"", "length_m", "above 0"]);
    refused(|rig| rig["lines"][0]["stiffness_n"] = json!(0), &["line \"left leg\"", "stiffness_n", "above 0"]);
    refused(|rig| rig["lines"][0]["weight_n_per_m"] = json!(-2), &["line \"left leg\"", "weight_n_per_m", "0 or more"]);
    refused(
        |rig| {
            rig["lines"][0]["through"] = json!(["left bolt", "master point", "right bolt"]);
            rig["lines"][0]["weight_n_per_m"] = json!(1);
        },
        &["line \"left leg\"", "weight", "exactly two"],
    );
    refused(|rig| rig["points"] = json!([]), &["no points"]);
}

#[test]
fn what_does_not_fit_the_format_is_refused_with_its_name() {
    refused(|rig| rig["points"][1]["colour"] = json!("red"), &["point", "colour"]);
    refused(|rig| rig["lines"][1]["colour"] = json!("red"), &["line", "colour"]);
    refused(|rig| rig["colour"] = json!("red"), &["colour"]);
    refused(|rig| drop(rig["points"][1].as_object_mut().unwrap().remove("at_m")), &["point \"right bolt\"", "at_m"]);
    refused(|rig| drop(rig["points"][1].as_object_mut().unwrap().remove("name")), &["point number 2", "name"]);
    refused(
        |rig| drop(rig["lines"][1].as_object_mut().unwrap().remove("length_m")),
        &["line \"right leg\"", "length_m"],
    );
    refused(|rig| drop(rig["lines"][1].as_object_mut().unwrap().remove("name")), &["line number 2", "name"]);
    refused(|rig| drop(rig.as_object_mut().unwrap().remove("lines")), &["lines"]);
    refused(|rig| rig["points"][2]["at_m"] = json!([0, 0]), &["point", "at_m"]);
    refused(|rig| rig["points"][2]["at_m"] = json!([0, 0, null]), &["point", "at_m"]);
    refused(|rig| rig["lines"][0]["length_m"] = json!("0.94"), &["line", "length_m"]);
    // Without a name it is told by its number, counted from 1.
    let nameless = |rig: &mut Value| rig["points"][2] = json!({ "colour": "red" });
    refused(nameless, &["point number 3", "colour"]);
    // What should have stood there is said.
    refused(|rig| rig["lines"] = json!(7), &["a list of lines"]);
    refused(|rig| rig["points"] = json!("none"), &["a list of points"]);
    refused(|rig| rig["points"][1] = json!("left bolt"), &["point number 2", "a point with its fields"]);
    refused(|rig| *rig = json!([1, 2]), &["an object with \"points\" and \"lines\""]);
}

#[test]
fn a_number_beyond_all_bounds_is_refused_with_its_line() {
    let message = refusal(TWO_LEGS.replace("0.94", "1e999").as_bytes());
    assert!(message.contains("\"left leg\"") && message.contains("length_m"), "{message}");
    let message = refusal(TWO_LEGS.replace("0.94", "NaN").as_bytes());
    assert!(message.contains("\"left leg\"") && message.contains("length_m"), "{message}");
}

#[test]
fn a_field_given_twice_is_refused() {
    let message = refusal(TWO_LEGS.replace("\"length_m\"", "\"length_m\":1,\"length_m\"").as_bytes());
    assert!(message.contains("\"left leg\"") && message.contains("length_m"), "{message}");
    for list in ["points", "lines"] {
        let twice = TWO_LEGS.replacen('{', &format!("{{\"{list}\":[],"), 1);
        let message = refusal(twice.as_bytes());
        assert!(message.contains("duplicate") && message.contains(list), "{message}");
    }
}

#[test]
fn nothing_garbage_and_deep_nesting_end_in_a_message() {
    assert!(!refusal(b"").is_empty());
    assert!(!refusal(b"{}").is_empty());
    assert!(!refusal(b"[]").is_empty());
    let garbage: Vec<u8> = (0..10_000_000_u32).map(|number| (number.wrapping_mul(2_654_435_761) >> 24) as u8).collect();
    assert!(!refusal(&garbage).is_empty());
    let mut deep = b"{\"points\":".to_vec();
    deep.resize(1_000_000, b'[');
    assert!(!refusal(&deep).is_empty());
    let mut deep = b"{\"points\":[{\"name\":\"a\",\"x\":".to_vec();
    deep.resize(1_000_000, b'[');
    assert!(refusal(&deep).contains("point \"a\""));
}

#[test]
fn extreme_numbers_end_in_a_status_or_a_message_and_never_in_a_panic() {
    for huge in ["1e308", "-1e308", "1e-308", "1e200", "1e-200", "1e30", "4.9e-324"] {
        for place in ["-785", "0.94", "30000", "-0.8", "-0.5"] {
            if let Ok(answer) = run(TWO_LEGS.replacen(place, huge, 1).as_bytes()) {
                assert!(answer["status"] != "balanced" || answer["imbalance"].as_f64().unwrap() <= 1e-9);
            }
        }
    }
}
