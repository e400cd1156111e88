//! What is set beside an answer for another case is what the question says when that case is asked.

use super::{any_of, any_pair, holds};
use proptest::prelude::*;
use rigging_core::question::{Answer, Finding, Question, Takes};
use serde_json::{Value, json};

/// Another case that an answer tells of: how its heading begins, and its finding; the fields that make the question ask
/// for it, and the finding of its answer.
struct Case {
    heading: String,
    told: &'static str,
    set: Value,
    asked: &'static str,
}

fn case(heading: impl Into<String>, told: &'static str, set: Value, asked: &'static str) -> Case {
    Case { heading: heading.into(), told, set, asked }
}

fn slip(fields: &Value, made: &[(&str, &str)]) -> Vec<Case> {
    let metres = |name: &str| fields[name].as_f64().unwrap();
    let (rope, sling) = (metres("rope_m"), metres("sling_m"));
    let mut cases = Vec::new();
    let mut other = |heading: &str, set: Value, depth| {
        cases.push(case(heading, "on the anchor", set.clone(), "on the anchor"));
        cases.push(case(heading, "fallen in all", set, depth));
    };
    other("The same on half the rope", json!({"rope_m": rope / 2.0}), "fallen in all");
    other("The same on twice the rope", json!({"rope_m": rope * 2.0}), "fallen in all");
    let lip = json!({"what": "slack rope", "slack_m": 0.5, "rope_m": 3});
    other("A slip with 0.5 m of slack on 3 m of this rope", lip, "fallen in all");
    other("From as far out on half the rope", json!({"rope_m": rope / 2.0}), "down from where it begins");
    other("From as far out on twice the rope", json!({"rope_m": rope * 2.0}), "down from where it begins");
    other("The same tail, hanging straight below", json!({"above_m": -sling}), "fallen in all");
    other("The same tail, harness level", json!({"above_m": 0}), "fallen in all");
    other("The same tail, as far above", json!({"above_m": sling}), "fallen in all");
    for (name, words) in made {
        other(&format!("The same fall on {words}"), json!({"sling": name}), "fallen in all");
    }
    cases
}

fn current(fields: &Value) -> Vec<Case> {
    let slack = &fields["slack"];
    let twice = match slack.as_f64() {
        Some(slack) => json!(2.0 * slack),
        None => slack.as_array().unwrap().iter().map(|end| 2.0 * end.as_f64().unwrap()).collect(),
    };
    let both = |heading: &str, slack: Value| {
        ["on the near end of the line, a person broadside", "from the far bank, where the current"]
            .map(|what| case(heading, what, json!({"slack": slack}), what))
    };
    [both("If the line were straight at first", json!(0)), both("If it had twice the slack", twice)]
        .into_iter()
        .flatten()
        .collect()
}

fn pull_down(fields: &Value) -> Vec<Case> {
    let none = "neither";
    let metres = |name: &str| fields[name].as_f64().unwrap();
    // On the strand beside the slope the height to its foot is not hung on any more.
    let (slab, falls) = (metres("slab_m"), metres("slab_falls_rad"));
    let foot = slab * falls.sin();
    let (hangs, other) = match fields["slab_on"].as_str() {
        Some("rising") => (metres("height_m") - foot, metres("height_m") - foot),
        Some("pulled") => (metres("height_m"), metres("height_m") + foot),
        _ => (metres("height_m"), metres("height_m")),
    };
    let all = json!({"height_m": hangs, "edge_1_on": none, "edge_2_on": none, "slab_on": none});
    let mut lip = json!({"height_m": hangs, "slab_on": none});
    for edge in ["edge_1", "edge_2"] {
        let (on, down) = (format!("{edge}_on"), format!("{edge}_down_m"));
        let nearer = metres(&down) - slab;
        if nearer < 0.0 {
            lip[on] = json!(none);
        } else {
            lip[down] = json!(nearer);
        }
    }
    let other_strand = |met: &Value| match met.as_str().unwrap() {
        "pulled" => json!("rising"),
        "rising" => json!("pulled"),
        _ => met.clone(),
    };
    let swapped = json!({
        "rising_m": fields["height_m"],
        "height_m": other,
        "edge_1_on": other_strand(&fields["edge_1_on"]),
        "edge_2_on": other_strand(&fields["edge_2_on"]),
        "slab_on": other_strand(&fields["slab_on"]),
    });
    let start = "to pull at the start";
    let mut cases: Vec<Case> = [
        ("If edge 1 is avoided", json!({"edge_1_on": none})),
        ("If edge 2 is avoided", json!({"edge_2_on": none})),
        ("If the ring hangs at the lip of the slope", lip),
        ("If the ring hangs beyond all", all),
        ("If the rope runs through a connector", json!({"ring": "connector"})),
        ("If the rope runs through a ring", json!({"ring": "ring"})),
        ("If the other strand is pulled", swapped),
    ]
    .into_iter()
    .map(|(heading, set)| case(heading, start, set, start))
    .collect();
    let more = json!({"pullers": fields["pullers"].as_f64().unwrap() + 1.0});
    cases.push(case("If one person more pulls", "pulled steadily by", more, "pulled steadily by"));
    cases
}

fn rope(fields: &Value, rigged: &[(&str, &str)]) -> Vec<Case> {
    let end = |name: &str, which: usize| match fields[name].as_f64() {
        Some(one) => one,
        None => fields[name][which].as_f64().unwrap(),
    };
    let hanging = |which| json!({"body_kg": end("body_kg", which), "kit_kg": end("kit_kg", which)});
    let mut cases = Vec::new();
    for (who, which) in [("lightest", 0), ("heaviest", 2)] {
        let heading = format!("If the {who} hangs at the end");
        cases.push(case(heading.clone(), "above the", hanging(which), "above the"));
        for what in ["to let out from the station, as declared", "for each strand, as declared"] {
            cases.push(case(heading.clone(), what, hanging(which), what));
        }
    }
    for (name, words) in rigged {
        let heading = format!("Rigged otherwise: {words}");
        for what in ["of rope needed, as declared", "of pull cord needed", "above the"] {
            cases.push(case(heading.clone(), what, json!({"rigged": name}), what));
        }
    }
    cases
}

fn human_anchor(fields: &Value) -> Vec<Case> {
    let lightest = match fields["body_kg"].as_f64() {
        Some(one) => one,
        None => fields["body_kg"][0].as_f64().unwrap(),
    };
    let (heading, ratio) = ("What would change the ratio at a slip most", "ratio at a slip");
    vec![
        case(heading, "as it stands", json!({}), ratio),
        case(heading, "with the rope straight to the lip", json!({"to_side_m": 0}), ratio),
        case(heading, "with only the lightest", json!({"body_kg": lightest, "people": 1}), ratio),
    ]
}

fn abseil() -> Vec<Case> {
    let (heading, hand) = ("More friction, one change at a time", "for the brake hand of the heaviest");
    vec![
        case(heading, "with one more carabiner", json!({"extra_carabiner": "yes"}), hand),
        case(heading, "with a second strand", json!({"strands": "two"}), hand),
    ]
}

/// The names and words of a field's choices.
fn choices<'a>(question: &Question, field: &str) -> Vec<(&'a str, &'a str)> {
    let found = question.fields().into_iter().find(|asked| asked.about.name == field);
    let Some(Takes::Choice(choices)) = found.map(|asked| asked.about.takes) else { panic!("{field} is no choice") };
    choices.iter().map(|choice| (choice.name, choice.words)).collect()
}

fn cases(question: &Question, fields: &Value) -> Vec<Case> {
    match question.name() {
        "slip" => slip(fields, &choices(question, "sling")),
        "in the current" => current(fields),
        "pull-down" => pull_down(fields),
        "rope" => rope(fields, &choices(question, "rigged")),
        "human anchor" => human_anchor(fields),
        "abseil" => abseil(),
        other => panic!("no case of {other}"),
    }
}

fn beginning<'a>(findings: &'a [Finding], words: &str) -> Option<&'a Finding> {
    findings.iter().find(|finding| finding.what.starts_with(words))
}

fn asked(fields: &Value, set: &Value) -> Option<Answer> {
    let mut fields = fields.clone();
    for (name, value) in set.as_object().unwrap() {
        fields[name] = value.clone();
    }
    serde_json::from_value::<Question>(fields).ok()?.answer().ok()
}

#[test]
fn what_is_told_of_another_case_is_what_the_question_says_of_it() {
    let names = ["slip", "in the current", "pull-down", "rope", "human anchor", "abseil"];
    let all = || Question::all().into_iter().filter(|question| names.contains(&question.name())).collect();
    let usual = any_pair().prop_map(|(wide, _)| wide).prop_filter("another", move |q| names.contains(&q.name()));
    holds(prop_oneof![any_of(all()), usual], 0.3, |question| {
        let Ok(answer) = question.answer() else { return Ok(false) };
        let fields = serde_json::to_value(&question).unwrap();
        let mut looked = false;
        for Case { heading, told, set, asked: what } in cases(&question, &fields) {
            let there = answer.outcomes.iter().filter(|outcome| outcome.case.starts_with(&heading));
            let Some(told) = there.clone().find_map(|outcome| beginning(&outcome.findings, told)) else { continue };
            let Some(other) = asked(&fields, &set) else { continue };
            let Some(itself) = beginning(&other.findings, what) else { continue };
            looked = true;
            let pairs = [
                (told.band.low(), itself.band.low()),
                (told.band.typical(), itself.band.typical()),
                (told.band.high(), itself.band.high()),
            ];
            for (one, other) in pairs {
                let near = (one - other).abs() <= 1e-9 * one.abs().max(1.0);
                prop_assert!(
                    near,
                    "{}, {}: {:?}, not {:?}\n{}\n{}",
                    heading,
                    told.what,
                    told.band,
                    itself.band,
                    fields,
                    set
                );
            }
        }
        Ok(looked)
    });
}

#[test]
fn a_line_pulled_tight_gets_no_less_than_one_of_that_pre_tension() {
    let lines = any_pair().prop_map(|(wide, _)| wide).prop_filter("another", |question| question.name() == "line");
    holds((lines, 0_usize..9), 0.3, |(question, which)| {
        // Close to an anchor the short part is thrown off and caught again: a third more or less from one mass to the
        // next; and on a line that runs through anchors between the ends somewhat less.
        let mut fields = serde_json::to_value(&question).unwrap();
        fields["place"] = json!(fields["place"].as_f64().unwrap().clamp(0.1, 0.9));
        fields["intermediates"] = json!(0);
        let Some(answer) = asked(&fields, &json!({})) else { return Ok(false) };
        let pulled = answer.outcomes.iter().filter(|outcome| outcome.case.starts_with("Pulled tight"));
        let pairs: Vec<_> = pulled.flat_map(|outcome| outcome.findings.chunks(2)).collect();
        let [pulled, then] = pairs[which] else { panic!("{:?}", pairs[which]) };
        let pre_tension = [pulled.band.low(), pulled.band.typical(), pulled.band.high()];
        let set = json!({"setting": "pre-tension", "pre_tension_n": pre_tension});
        let Some(itself) = asked(&fields, &set) else { return Ok(false) };
        let slip = itself.findings.iter().find(|finding| {
            finding.what.starts_with("on the anchor that is pulled hardest") && finding.what.ends_with("on a slip")
        });
        let Some(slip) = slip.map(|slip| slip.band) else { return Ok(false) };
        let within = then.band.high() >= 0.97 * slip.high();
        prop_assert!(within, "{}: {:?}, not {:?}\n{}\n{}", pulled.what, then.band, slip, fields, set);
        Ok(true)
    });
}

/// The sags between which a limit is kept, as shares of the span, in the words that tell them of a state.
fn kept(answer: &Answer, state: &str) -> Option<[f64; 2]> {
    let words =
        answer.remarks.iter().find_map(|words| words.strip_prefix(&format!("Backwards, {state} at the place")))?;
    let (_, words) = words.split_once(" with a sag from ")?;
    let numbers = words.split(' ').filter_map(|word| word.parse::<f64>().ok());
    let percents: Vec<f64> = numbers.take(2).collect();
    Some([percents[0] / 100.0, percents[1] / 100.0])
}

#[test]
fn a_sag_that_is_said_to_keep_to_a_limit_does() {
    let lines = any_pair().prop_map(|(wide, _)| wide).prop_filter("another", |question| question.name() == "line");
    holds((lines, 0.1..0.9_f64, 0.3..1.5_f64, 0.0..=1.0_f64), 0.3, |(question, place, share, within)| {
        let mut fields = serde_json::to_value(&question).unwrap();
        fields["place"] = json!(place);
        let Some(free) = asked(&fields, &json!({"limit": "none"})) else { return Ok(false) };
        let limit = share * free.findings[0].band.high();
        let set = json!({"limit": "own", "own_limit_n": limit.clamp(500.0, 50e3), "anchor": "known"});
        let Some(answer) = asked(&fields, &set) else { return Ok(false) };
        let mut looked = false;
        for (state, states) in [("hanging still", 0..1), ("in jerks and on a slip", 2..4)] {
            let Some([least, most]) = kept(&answer, state) else { continue };
            let sag = least + within * (most - least);
            let Some(there) = asked(&fields, &json!({"setting": "sag", "sag": sag})) else { continue };
            looked = true;
            let force = there.states[states].iter().map(|state| state.band.high()).fold(0.0, f64::max);
            prop_assert!(force <= 1.005 * limit.clamp(500.0, 50e3), "{state}, {sag}: {force} of {limit}\n{fields}");
        }
        Ok(looked)
    });
}
