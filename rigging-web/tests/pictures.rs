//! The pictures of every question, pinned: each is a file that a browser shows with the style sheet of the page.
//!
//! A picture that changed is written beside the pinned one as `<name>.changed.svg`; after a deliberate change
//! `UPDATE_PICTURES=1 cargo test -p rigging-web --test pictures` renews them: look at them before committing.

#![expect(
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a check that cannot go on has failed"
)]

use rigging_core::band::Band;
use rigging_core::quantity::Units;
use rigging_core::question::{Entry, Question, Takes};
use rigging_web::link::Link;
use rigging_web::page::Page;
use std::collections::HashSet;
use std::fs;
use std::path::Path;

/// Pictures by name and link: every example, and the modes in which something else is drawn.
const PICTURES: [(&str, &str); 45] = [
    ("anchor-legs", "1/al"),
    ("anchor-legs-self-equalising", "1/al/r1"),
    ("anchor-legs-loop", "1/al/r2"),
    ("anchor-legs-three", "1/al/N3"),
    ("anchor-legs-six", "1/al/N6"),
    ("anchor-legs-deep", "1/al/R0.2/P0.4"),
    ("anchor-legs-one-slack", "1/al/s45/t0"),
    ("anchor-legs-feet", "1/al/Upf"),
    ("natural-tree", "1/na"),
    ("natural-block", "1/na/a1"),
    ("natural-log", "1/na/a2"),
    ("natural-chockstone", "1/na/a3"),
    ("natural-buried", "1/na/a4"),
    ("natural-pull-rises", "1/na/c-0.5"),
    ("bend", "1/bd"),
    ("bend-directions", "1/bd/z1/h20/x-100"),
    ("bend-three", "1/bd/c3"),
    ("bend-straight-back", "1/bd/b180"),
    ("bend-edge", "1/bd/a5"),
    ("line", "1/ln"),
    ("line-bays", "1/ln/i3"),
    ("line-sideways", "1/ln/v1"),
    ("line-slack", "1/ln/t2/i1"),
    ("line-nearly-straight", "1/ln/s0.01_0.02"),
    ("rope-end", "1/rp"),
    ("rope-end-ground", "1/rp/b0"),
    ("abseil", "1/ab"),
    ("guided-abseil", "1/ga"),
    ("guided-abseil-pool", "1/ga/h8/f2"),
    ("current-diagonal", "1/cu"),
    ("current-hand-line", "1/cu/a0"),
    ("current-tether", "1/cu/a2"),
    ("current-thrown-line", "1/cu/a3/A5/H9"),
    ("human-anchor", "1/ha"),
    ("human-anchor-standing", "1/ha/s2/g2/a3"),
    ("slip", "1/sl"),
    ("slip-tail", "1/sl/a1"),
    ("slip-anchor-fails", "1/sl/a2"),
    ("slip-device-slips", "1/sl/a3"),
    ("slip-stopped", "1/sl/a4"),
    ("slip-swing", "1/sl/a5"),
    ("raise-lower", "1/rl"),
    ("raise-lower-plain", "1/rl/b1"),
    ("pull-down", "1/pd"),
    ("weakest-part", "1/wp"),
];

/// The pictures of a link: each from `<svg class="scene"`, `"polygon"` or `"graph"` to its end.
fn pictures(link: &str) -> Vec<String> {
    let update = Page::default().go(link, "", "2026-03-04 10:30");
    let html = &update.put[0].1;
    let pictures = ["scene", "polygon", "graph"].map(|class| format!("<svg class=\"{class}\""));
    let mut found = Vec::new();
    for (start, _) in html.match_indices("<svg class=") {
        if pictures.iter().any(|picture| html[start..].starts_with(picture)) {
            let end = start + html[start..].find("</svg>").unwrap() + "</svg>".len();
            found.push(html[start..end].to_owned());
        }
    }
    found
}

fn attribute<'a>(tag: &'a str, name: &str) -> &'a str {
    let start = tag.find(&format!(" {name}=\"")).unwrap_or_else(|| panic!("{name} in {tag}")) + name.len() + 3;
    &tag[start..start + tag[start..].find('"').unwrap()]
}

fn number(tag: &str, name: &str) -> f64 {
    attribute(tag, name).parse().unwrap()
}

fn size(svg: &str) -> (f64, f64) {
    let mut sides = attribute(svg, "viewBox").split(' ').skip(2).map(|side| side.parse().unwrap());
    (sides.next().unwrap(), sides.next().unwrap())
}

/// All pictures of a link one below the other, an element a line.
fn sheet(link: &str) -> String {
    let mut high = 0.0;
    let mut inside = String::new();
    for svg in pictures(link) {
        let (wide, tall) = size(&svg);
        let placed = format!("<svg y=\"{high}\" width=\"{wide}\" height=\"{tall}\" class=");
        inside += &svg.replacen("<svg class=", &placed, 1).replace("><", ">\n<");
        inside.push('\n');
        high += tall;
    }
    let style = "<?xml-stylesheet type=\"text/css\" href=\"../../../www/style.css\"?>";
    format!("{style}\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"360\" height=\"{high}\">\n{inside}</svg>\n")
}

#[test]
fn every_picture_is_as_it_was_pinned() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pictures");
    let renew = std::env::var_os("UPDATE_PICTURES").is_some();
    let mut changed = Vec::new();
    for (name, link) in PICTURES {
        let (pinned, beside) = (folder.join(format!("{name}.svg")), folder.join(format!("{name}.changed.svg")));
        let drawn = sheet(link);
        assert!(drawn.contains("class=\"scene\""), "{name}: the link {link} draws nothing");
        let _ = fs::remove_file(&beside);
        if renew {
            fs::write(pinned, drawn).unwrap();
        } else if fs::read_to_string(pinned).unwrap_or_default() != drawn {
            fs::write(&beside, drawn).unwrap();
            changed.push(beside.display().to_string());
        }
    }
    let drawn: HashSet<String> = PICTURES.iter().map(|(_, link)| sheet(link)).collect();
    assert_eq!(drawn.len(), PICTURES.len(), "two are the same");
    assert!(changed.is_empty(), "changed, look at them: {}", changed.join(", "));
}

/// A word in a picture: left, top, right, bottom.
type Frame = (f64, f64, f64, f64);

/// The words of a picture with the room they take, as wide as `labels.rs` takes them to be.
fn words(svg: &str) -> Vec<(String, Frame)> {
    svg.match_indices("<text ")
        .map(|(start, _)| {
            let tag = &svg[start..start + svg[start..].find('>').unwrap() + 1];
            let text = &svg[start + tag.len()..start + svg[start..].find("</text>").unwrap()];
            let wide = 8.0 * text.replace("&amp;", "&").chars().count() as f64;
            let (x, y) = (number(tag, "x"), number(tag, "y"));
            let left = match tag.contains("text-anchor").then(|| attribute(tag, "text-anchor")) {
                Some("middle") => x - wide / 2.0,
                Some("end") => x - wide,
                _ => x,
            };
            (text.to_owned(), (left, y - 12.0, left + wide, y + 3.0))
        })
        .collect()
}

/// What is wrong with the words of a picture: one over another, or out of the picture.
fn misplaced(svg: &str) -> Vec<String> {
    let (wide, tall) = size(svg);
    let words = words(svg);
    let mut wrong = Vec::new();
    for (place, (text, frame)) in words.iter().enumerate() {
        if frame.0 < -0.1 || frame.2 > wide + 0.1 || frame.1 < 0.0 || frame.3 > tall {
            wrong.push(format!("out of the picture: {text} {frame:?}"));
        }
        for (other, at) in &words[place + 1..] {
            if frame.0 < at.2 && at.0 < frame.2 && frame.1 < at.3 && at.1 < frame.3 {
                wrong.push(format!("one over the other: {text} | {other}"));
            }
        }
    }
    wrong
}

#[test]
fn words_never_cover_each_other_nor_leave_the_picture() {
    let mut wrong = Vec::new();
    for (name, link) in PICTURES {
        for svg in pictures(link) {
            wrong.extend(misplaced(&svg).into_iter().map(|words| format!("{name}: {words}")));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A row of numbers from 0 to 1 that is the same each time.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }
}

/// A question with a third of its fields changed at random: near the example, or anywhere within bounds.
fn at_random(example: &Question, chance: &mut Chance) -> Question {
    let mut question = example.clone();
    for field in example.fields() {
        if chance.next() > 0.35 {
            continue;
        }
        let near = chance.next() < 0.7;
        let mut draw = |least: f64, most: f64, now: f64| {
            let share = chance.next();
            if near { (now * (0.4 + 1.6 * share)).clamp(least, most) } else { least + share * (most - least) }
        };
        let entry = match (field.about.takes, field.entry) {
            (Takes::One { least, most }, Entry::One(now)) => {
                let value = draw(least, most, now);
                Entry::One(if field.about.name.contains('_') { value } else { value.round() })
            }
            (Takes::Range { least, most }, Entry::Range(now)) => {
                let (one, other) = (draw(least, most, now.low()), draw(least, most, now.high()));
                Entry::Range(Band::of(one.min(other), (one + other) / 2.0, one.max(other)))
            }
            (Takes::Choice(choices), _) => Entry::Choice(choices[(chance.next() * choices.len() as f64) as usize].name),
            (_, entry) => entry,
        };
        // What cannot be set so stays as it is.
        let _ = question.set(field.about.name, &entry);
    }
    question
}

#[test]
fn words_keep_their_places_whatever_is_entered() {
    let mut chance = Chance(7);
    let mut wrong = Vec::new();
    let mut drawn = 0;
    for example in Question::all() {
        let rounds = if example.name() == "guided abseil" { 6 } else { 40 };
        for _ in 0..rounds {
            let question = at_random(&example, &mut chance);
            let link = Link { question, units: Units::default(), from: None }.write();
            for svg in pictures(&link) {
                drawn += 1;
                wrong.extend(misplaced(&svg).into_iter().map(|words| format!("{link}: {words}")));
            }
        }
    }
    assert!(drawn > 500, "only {drawn} pictures");
    assert!(wrong.is_empty(), "{} of {drawn} pictures:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn every_picture_is_told_in_sentences_with_its_numbers() {
    for (name, link) in PICTURES {
        for svg in pictures(link) {
            let told = svg.match_indices("role=\"img\"").map(|(at, _)| attribute(&svg[at..], "aria-label"));
            let told: Vec<&str> = told.collect();
            assert_eq!(told.len(), 1, "{name}");
            assert!(told[0].ends_with('.'), "{name}: {}", told[0]);
            if svg.contains("class=\"graph\"") {
                continue;
            }
            // Whatever is written in the picture is said, with its number; the scale mark belongs to the eye.
            for (text, _) in words(&svg).iter().filter(|(text, _)| !text.ends_with("in both pictures")) {
                let told = told[0].to_lowercase();
                assert!(told.contains(&text.to_lowercase()), "{name}: {text:?} is not in {told:?}");
            }
        }
    }
}
