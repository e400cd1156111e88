//! The colours of the style sheet, held to their contrasts: text 7:1 on whatever it stands on (WCAG 2.2, 1.4.6),
//! what is drawn 3:1 (1.4.11), in light and in dark.

use std::collections::BTreeMap;

const STYLE: &str = include_str!("../style.css");
const SCREENS: &str = include_str!("../screens.css");

/// Text, and the grounds it stands on.
const TEXT: [(&str, &[&str]); 6] = [
    ("ink", &["paper", "sheet"]),
    ("muted", &["paper", "sheet"]),
    ("load", &["paper", "sheet"]),
    ("anchor", &["paper", "sheet"]),
    // A button that is chosen.
    ("paper", &["ink"]),
    ("#ffffff", &["above", "danger"]),
];

/// Lines and shapes without which something could not be understood, and the grounds they lie on.
const DRAWN: [(&str, &[&str]); 6] = [
    // Borders of boxes and entries, people, bars.
    ("ink", &["paper", "sheet"]),
    ("muted", &["paper", "sheet"]),
    ("load", &["paper", "sheet"]),
    // The outline of what has the focus, too.
    ("anchor", &["paper", "sheet"]),
    // A line under the questions of the first screen.
    ("rope", &["paper", "sheet"]),
    ("rock", &["paper", "sheet"]),
];

/// Colours of hazard notices, the same in both themes: ground, words, the frame around.
const NOTICES: [(&str, &str); 4] =
    [("#ffffff", "#000000"), ("#ff8a1f", "#000000"), ("#ffd400", "#000000"), ("danger", "#ffffff")];

type Palette = BTreeMap<String, String>;

/// The custom properties of light, and of dark where they differ.
fn palettes() -> [(&'static str, Palette); 2] {
    let read = |from: &str| -> Palette {
        let block = STYLE.split_once(from).expect(from).1.split_once('}').expect("it ends").0;
        block
            .lines()
            .filter_map(|line| line.trim().strip_prefix("--")?.strip_suffix(';')?.split_once(": "))
            .filter(|(_, value)| value.starts_with('#'))
            .map(|(name, value)| (name.to_owned(), value.to_owned()))
            .collect()
    };
    let light = read("=== Palette and measures === */\n:root {");
    let mut dark = light.clone();
    dark.extend(read("@media (prefers-color-scheme: dark) {\n  :root {"));
    [("light", light), ("dark", dark)]
}

fn colour<'a>(palette: &'a Palette, name: &'a str) -> &'a str {
    if name.starts_with('#') { name } else { palette.get(name).unwrap_or_else(|| panic!("--{name} is not there")) }
}

/// Relative luminance of an sRGB colour: WCAG 2.2, definition "relative luminance".
fn luminance(colour: &str) -> f64 {
    let part = |at: usize| {
        let part = f64::from(u8::from_str_radix(&colour[at..at + 2], 16).expect(colour)) / 255.0;
        if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
}

/// WCAG 2.2, definition "contrast ratio".
fn contrast(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

fn hold(least: f64, pairs: &[(&str, &[&str])]) {
    for (theme, palette) in palettes() {
        for (name, grounds) in pairs {
            for ground in *grounds {
                let got = contrast(colour(&palette, name), colour(&palette, ground));
                assert!(got >= least, "{theme}: {name} on {ground} is {got:.2}, less than {least}");
            }
        }
    }
}

/// 21:1 is the largest ratio there is (WCAG 2.2, note to "contrast ratio"); grey #767676 on white is known as the
/// palest that keeps 4.5:1 (4.54), #949494 as the palest that keeps 3:1, #595959 as the palest for 7:1 (WebAIM,
/// "Contrast and Color Accessibility", and its checker; from memory).
#[test]
fn the_formula_agrees_with_published_ratios() {
    for (one, other, expected) in [
        ("#000000", "#ffffff", 21.0),
        ("#ffffff", "#ffffff", 1.0),
        ("#767676", "#ffffff", 4.54),
        ("#777777", "#ffffff", 4.48),
        ("#949494", "#ffffff", 3.03),
        ("#595959", "#ffffff", 7.0),
        ("#ff0000", "#ffffff", 4.0),
        ("#0000ff", "#ffffff", 8.59),
    ] {
        let got = contrast(one, other);
        assert!((got - expected).abs() <= 0.005, "{one} on {other}: {got}, published {expected}");
    }
}

#[test]
fn text_stands_out_from_every_ground_it_is_on() {
    hold(7.0, &TEXT);
    for (_, palette) in palettes() {
        for (ground, words) in NOTICES {
            let got = contrast(colour(&palette, ground), words);
            assert!(got >= 7.0, "{words} on {ground}: {got:.2}");
        }
    }
}

#[test]
fn what_is_drawn_stands_out_from_every_ground_it_is_on() {
    hold(3.0, &DRAWN);
    hold(3.0, &[("water", &["paper"])]);
}

/// A colour that is told apart from another by its hue alone would be lost on some eyes and every black printer.
#[test]
fn every_colour_of_the_palette_is_held_to_a_contrast() {
    let held: Vec<&str> =
        TEXT.iter().chain(&DRAWN).flat_map(|(name, grounds)| grounds.iter().chain([name])).copied().collect();
    for (_, palette) in palettes() {
        for name in palette.keys() {
            assert!(held.contains(&name.as_str()) || name == "water", "--{name} is held to nothing");
        }
        assert!(palette.len() >= 10);
    }
}

/// Elsewhere in the sheets colours are the palette's, but for hazard notices, what is printed, and words on a ground
/// of their own.
#[test]
fn the_style_sheets_take_their_colours_from_the_palette() {
    let rules = STYLE.split_once("=== Page ===").expect("there are rules").1;
    let ends = |letter: char| letter.is_whitespace() || ";(),".contains(letter);
    let others = ["#ffffff", "#000000", "#222222", "#ff8a1f", "#ffd400"];
    for word in rules.split(ends).chain(SCREENS.split(ends)) {
        let digits = word.strip_prefix('#').unwrap_or_default();
        let is_colour = digits.len() >= 3 && digits.bytes().all(|digit| digit.is_ascii_hexdigit());
        assert!(!is_colour || others.contains(&word), "{word} is not of the palette");
    }
}
