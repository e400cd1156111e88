//! The doors that an input can come in by, with good inputs for each.

use super::Door;
use rigging_core::plan::{Answers, Plan};
use rigging_core::quantity::{Kind, Unit, Units};
use rigging_core::question::{Asked, Entry, Question, Takes};
use rigging_core::statics::{Answer, Rig, Settings, solve};
use rigging_web::link::Link;
use rigging_web::number::read;
use rigging_web::page::{Event, Page};
use std::path::Path;

/// Every example, and every example with each of its choices chosen.
fn questions() -> Vec<Question> {
    let mut all = Vec::new();
    for example in Question::all() {
        all.push(example.clone());
        for Asked { about, .. } in example.fields() {
            let Takes::Choice(choices) = about.takes else { continue };
            for choice in choices {
                let mut other = example.clone();
                other.set(about.name, &Entry::Choice(choice.name)).unwrap();
                all.push(other);
            }
        }
    }
    all
}

/// A question as `ask` takes it: read, answered, told.
pub fn question() -> Door {
    let seeds = questions().iter().map(|question| serde_json::to_vec(question).unwrap()).collect();
    let open = |input: &[u8]| {
        let Ok(question) = serde_json::from_slice::<Question>(input) else { return false };
        let text = serde_json::to_string(&question).unwrap();
        let again: Question = serde_json::from_str(&text).unwrap();
        assert_eq!(text, serde_json::to_string(&again).unwrap(), "what was written is read as something else");
        if let Ok(answer) = question.answer() {
            for finding in &answer.findings {
                let ends = [finding.band.low(), finding.band.typical(), finding.band.high()];
                assert!(ends.iter().all(|end| end.is_finite()), "{}: {ends:?}", finding.what);
            }
            serde_json::to_string(&answer).unwrap();
        }
        true
    };
    Door { name: "question", seeds, open, usually: 1500 }
}

/// A plan as a file of it is opened: read as far as it can be, checked, told, and written again.
pub fn plan() -> Door {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../rigging-core/tests/plans");
    let old = std::fs::read(folder.join("version-1.json")).unwrap();
    let seeds = vec![Plan::example().write().into_bytes(), Plan::default().write().into_bytes(), old];
    let open = |input: &[u8]| {
        let Ok(reading) = Plan::read(&String::from_utf8_lossy(input)) else { return false };
        let plan = reading.plan;
        let checked = plan.check(&mut Answers::default(), Units::default());
        assert!(!plan.text(&checked).is_empty());
        let again = Plan::read(&plan.write()).unwrap();
        assert_eq!(again.refused, [], "what was written is refused");
        assert_eq!(again.plan.write(), plan.write(), "what was written is read as something else");
        true
    };
    Door { name: "plan", seeds, open, usually: 200 }
}

/// A rig as `solve_rig` takes it.
pub fn rig() -> Door {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("rigs");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.sort();
    let rigs = files.iter().filter(|file| file.to_string_lossy().ends_with(".rig.json"));
    // A network of a hundred points that finds no balance may take a second to say so, as built for tests.
    let seeds = rigs.map(|file| std::fs::read(file).unwrap()).filter(|text| text.len() < 20_000).collect();
    let open = |input: &[u8]| {
        let Ok(rig) = serde_json::from_slice::<Rig>(input) else { return false };
        let solution = solve(&rig, &Settings::default());
        if let Some(rest) = solution.balanced() {
            assert!(solution.imbalance <= 1e-9);
            assert!(rest.lines.iter().all(|line| line.tension_first.is_finite() && line.tension_last >= 0.0));
            assert!(rest.points.iter().all(|point| point.at.iter().all(|number| number.is_finite())));
        }
        serde_json::to_string(&Answer::new(&rig, &solution)).unwrap();
        true
    };
    Door { name: "rig", seeds, open, usually: 1500 }
}

/// A link as the page opens it, with all that is then drawn.
pub fn link() -> Door {
    let link = |question: Question| Link { question, units: Units::default(), from: None }.write();
    let mut texts: Vec<String> = questions().into_iter().map(link).collect();
    // Every field, so that there is something to change.
    for mut question in Question::all() {
        for Asked { about, entry, .. } in question.fields() {
            let moved = match entry {
                Entry::One(number) if number + 1.0 <= about.takes.bounds().1 => Entry::One(number + 1.0),
                Entry::Range(band) => Entry::Range(rigging_core::band::Band::exact(band.high())),
                other => other,
            };
            // A value that does not fit changes nothing.
            let _ = question.set(about.name, &moved);
        }
        texts.push(link(question));
    }
    texts.extend(["demo/3/2", "plan", "plan/3", "plan/2/1", "plan/1/al"].map(str::to_owned));
    texts.push(include_str!("../../rigging-web/src/page/plan/example.txt").trim_end().to_owned());
    let open = |input: &[u8]| {
        let text = String::from_utf8_lossy(input);
        let read = Link::read(&text);
        if let Ok(link) = &read {
            let again = Link::read(&link.write());
            assert!(again.is_ok_and(|again| again.question.name() == link.question.name()), "a link made from a link");
        }
        let understood = read.is_ok() || text.starts_with("demo/") || text.starts_with("plan");
        Page::default().go(&text, "", "2026-11-26");
        understood
    };
    Door { name: "link", seeds: texts.into_iter().map(String::into_bytes).collect(), open, usually: 600 }
}

/// What a browser kept of the page, which it may mix up, cut, or hand to another version.
pub fn kept() -> Door {
    const NOW: &str = "2026-11-26 18:00";
    let mut page = Page::default();
    for (fragment, id, typed) in [("1/ln", "drop_m", "abc"), ("1/al", "down_m", "0.7"), ("1/cu", "body_kg-high", "99")]
    {
        page.go(fragment, "", NOW);
        page.event(Event::Press, "mine", "", NOW);
        page.event(Event::Input, id, typed, NOW);
    }
    page.go("plan/2", "", NOW);
    page.event(Event::Input, "drop-2.height_m-high", "twelve", NOW);
    page.event(Event::Input, "drop-2.name", "mine", NOW);
    let open = |input: &[u8]| {
        let text = String::from_utf8_lossy(input);
        let mut page = Page::default();
        page.recall(&text);
        for fragment in ["", "plan", "plan/2"] {
            page.go(fragment, "", NOW);
        }
        let again = page.kept();
        let mut next = Page::default();
        next.recall(&again);
        assert_eq!(next.kept(), again, "what was kept is read as something else");
        text.starts_with("1\n")
    };
    Door { name: "kept", seeds: vec![page.kept().into_bytes()], open, usually: 150 }
}

/// A number as a field of the page reads it, of every kind.
pub fn entry() -> Door {
    const KINDS: [(Kind, Unit); 9] = [
        (Kind::Force, Unit::Kilonewton),
        (Kind::Length, Unit::Metre),
        (Kind::Thickness, Unit::Millimetre),
        (Kind::Mass, Unit::Pound),
        (Kind::Angle, Unit::Degree),
        (Kind::Speed, Unit::FootPerSecond),
        (Kind::Time, Unit::Second),
        (Kind::Ratio, Unit::Percent),
        (Kind::Count, Unit::One),
    ];
    let texts = ["12", "0,5", "-3.25 kN", "1.5e3 N", "90°", "12 %", "5 ft", "\u{2212}7", "80 kg", "1\u{a0}m"];
    let open = |input: &[u8]| {
        let text = String::from_utf8_lossy(input);
        let mut understood = false;
        for (kind, unit) in KINDS {
            if let Ok(typed) = read(&text, kind, unit) {
                assert!(typed.si.is_finite(), "{kind:?} {typed:?}");
                understood = true;
            }
        }
        understood
    };
    let seeds = texts.iter().map(|text| text.as_bytes().to_vec()).collect();
    Door { name: "entry", seeds, open, usually: 50_000 }
}
