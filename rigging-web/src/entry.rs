//! The entries of a screen: each value with its label, its boxes, what moves it, and what is wrong with it.

use crate::both::both;
use crate::figure::scenes;
use crate::number::plain;
use crate::page::{Typed, Wrong, slide_id, step};
use crate::question_screen::View;
use crate::way::Way;
use crate::written::{Written, written};
use maud::{Markup, html};
use rigging_core::quantity::{Kind, Units};
use rigging_core::question::{About, Asked, Entry, Question, Takes};

/// What entries are shown with: those of a question, or of a row of a plan.
#[derive(Debug, Clone, Copy)]
pub struct Boxes<'a> {
    /// What the ids begin with.
    pub prefix: &'a str,
    /// The units chosen.
    pub units: Units,
    /// Where the page is used.
    pub way: Way,
    /// What stands in the boxes as typed, by their ids.
    pub typed: &'a Typed,
    /// What is wrong, by the id of the entry.
    pub wrong: &'a Wrong,
}

impl Boxes<'_> {
    /// The id of a field.
    pub fn id(&self, name: &str) -> String {
        [self.prefix, name].concat()
    }
}

/// The entries in their groups.
pub fn entries(view: &View) -> Markup {
    let fields = view.question.fields();
    // A class chooses a limit aloud, or has none.
    let without =
        view.board.is_some_and(|board| !board.limit) && fields.iter().any(|field| field.about.name == "limit");
    let fields: Vec<Asked> =
        fields.into_iter().filter(|field| !(without && group_of(field.about.name) == Group::Limit)).collect();
    let group = |wanted: Group| fields.iter().filter(move |field| group_of(field.about.name) == wanted);
    html! {
        @for (wanted, title) in [(Group::Own, "What you measure"), (Group::People, "Who hangs"), (Group::Limit, "Compare with a limit")] {
            @if group(wanted).next().is_some() {
                fieldset {
                    legend { (title) }
                    @if wanted == Group::People { p.note { "Masses are entered once: they are the same in every question." } }
                    @for field in group(wanted) { (entry(field, &view.boxes(), &|label| slider(field, label, view))) }
                }
            }
        }
    }
}

/// What a field is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Group {
    /// The question's own.
    Own,
    /// Those who hang.
    People,
    /// A limit to compare with.
    Limit,
}

/// What the field of this name is about.
pub fn group_of(name: &str) -> Group {
    match name {
        "people" | "body_kg" | "kit_kg" | "suit_water_kg" | "state" => Group::People,
        "anchor" | "limit" | "own_limit_n" | "design_factor" | "whose_factor" | "factor" => Group::Limit,
        _ => Group::Own,
    }
}

/// One entry with its label, what else moves it, its note and message.
pub fn entry(field: &Asked, view: &Boxes, moved_by: &dyn Fn(&str) -> Markup) -> Markup {
    let about = &field.about;
    let (name, written) = (&view.id(about.name), written(about, view.units));
    let label = match (about.takes, written.symbol()) {
        (Takes::Choice(_), _) | (_, "") => about.label.to_owned(),
        (_, symbol) => format!("{} ({symbol})", about.label),
    };
    let note = format!("{name}-note");
    let message = message_id(name);
    let described = format!("{note} {message}");
    let wrong = view.wrong.get(name);
    let number = |id: &str, si: f64, words: &str| {
        let shown = view.typed.get(id).cloned().unwrap_or_else(|| written.text(si));
        let keys = if about.takes.bounds().0 < 0.0 || written == Written::Clock { "text" } else { "decimal" };
        let named = if words.is_empty() { label.clone() } else { format!("{label}, {words}") };
        // The keyboard steps with its arrows in the box; see the shell.
        html! {
            span.number {
                button.step id={ "less:" (id) } type="button" tabindex="-1" aria-label={ "Less: " (named) } { "−" }
                input id=(id) type="text" inputmode=(keys) autocomplete="off" value=(shown)
                    aria-label=[(!words.is_empty()).then_some(&named)]
                    aria-describedby=(described) aria-invalid=[wrong.map(|_| "true")];
                @if !written.symbol().is_empty() { span.symbol aria-hidden="true" { (written.symbol()) } }
                button.step id={ "more:" (id) } type="button" tabindex="-1" aria-label={ "More: " (named) } { "+" }
            }
        }
    };
    let body = html! {
        @match (about.takes, field.entry) {
            (Takes::Choice(choices), Entry::Choice(chosen)) => {
                (named_by(view, name, &label))
                select id=(name) aria-label=[(view.way == Way::Lip).then_some(&label)] aria-describedby=(described) {
                    @for choice in choices {
                        option value=(choice.name) selected[choice.name == chosen] { (choice.words) }
                    }
                }
            }
            (_, Entry::Range(band)) => {
                @if view.way != Way::Lip { span.label { (label) } }
                span.range role="group" aria-label=(label) {
                    (number(&format!("{name}-low"), band.low(), "at least"))
                    span.to { "to" }
                    (number(&format!("{name}-high"), band.high(), "at most"))
                }
            }
            (_, Entry::One(si)) => {
                (named_by(view, name, &label))
                (number(name, si, if view.way == Way::Lip { "value" } else { "" }))
            }
            _ => {}
        }
        (moved_by(&label))
        p.note id=(note) { (both(about.note, view.units)) "." }
        @if !about.source.place.is_empty() && view.prefix.is_empty() {
            details.source {
                summary { "Where the default comes from" }
                p { (about.source.known.word()) ": " (about.source.place) "." }
            }
        }
        p.message id=(message) role="alert" { @if let Some(wrong) = wrong { (wrong) } }
    };
    html! {
        @if view.way == Way::Lip {
            // Opened before it can be changed: a drop of water opens it at most.
            details.entry id=(entry_id(name)) name="entry" hidden[!field.matters] {
                summary {
                    span.label { (about.label) }
                    strong id=(shown_id(name)) { (summed(field, view)) }
                }
                (body)
            }
        } @else {
            div.entry id=(entry_id(name)) hidden[!field.matters] { (body) }
        }
    }
}

/// The label of an entry, where its summary does not say it already.
fn named_by(view: &Boxes, name: &str, label: &str) -> Markup {
    html! { @if view.way != Way::Lip { label for=(name) { (label) } } }
}

/// What a folded entry shows.
pub fn summed(field: &Asked, view: &Boxes) -> String {
    match view.wrong.get(&view.id(field.about.name)) {
        Some(_) => "—".to_owned(),
        None => shown(field, view.units),
    }
}

/// The id of what a folded entry shows.
pub fn shown_id(name: &str) -> String {
    format!("{name}-shown")
}

/// Whether a field has a slider on the screen: it is what a handle of the picture moves, for those who do not drag.
pub fn slides(field: &Asked, view: &View) -> bool {
    let name = field.about.name;
    let moves = |answer| scenes(answer).flat_map(|scene| &scene.handles).any(|handle| handle.moves(name));
    can_slide(field, view) && view.found().is_some_and(moves)
}

/// At the lip a drop of water would move it.
fn can_slide(field: &Asked, view: &View) -> bool {
    view.way != Way::Lip && matches!(field.about.kind, Kind::Length | Kind::Angle | Kind::Ratio)
}

/// The id of what holds the slider of a field.
pub fn slide_place(name: &str) -> String {
    format!("{name}-slide")
}

/// The slider of a field; it goes as far as is usual, the box beside it as far as the field does.
fn slider(field: &Asked, label: &str, view: &View) -> Markup {
    let Asked { about, entry, .. } = field;
    let unit = view.units.of(about.kind);
    let (least, most) = about.takes.bounds();
    let usual = Question::named(view.question.name()).ok();
    let usual = usual.and_then(|usual| usual.fields().into_iter().find(|other| other.about.name == about.name));
    let reach = (3.0 * usual.map_or(0.0, |usual| usual.entry.middle().abs())).max(20.0 * step(about, view.units));
    let ends = if about.kind == Kind::Angle { (least, most) } else { (least.max(-reach), most.min(reach)) };
    html! {
        @if can_slide(field, view) {
            span.slide id=(slide_place(about.name)) hidden[!slides(field, view)] {
                input id=(slide_id(about.name)) type="range" step="any" min=(plain(unit.from_si(ends.0))) max=(plain(unit.from_si(ends.1)))
                    value=(plain(unit.from_si(entry.middle()))) aria-label={ "Slide: " (label) };
            }
        }
    }
}

/// A message of an entry.
pub fn message(wrong: &str) -> Markup {
    html! { (wrong) }
}

/// What an entry must be, in the chosen units, and like what.
pub fn must_be(about: &About, units: Units) -> String {
    let written = written(about, units);
    let show = |si: f64| written.with_unit(&written.text(si));
    match about.takes {
        Takes::Choice(_) => "Choose one of the list.".to_owned(),
        Takes::One { least, most } | Takes::Range { least, most } => {
            let near = if written == Written::Clock { 34_200.0 } else { like(about, least, most) };
            // "2.0" is no whole number to write.
            let example = if about.kind == Kind::Count { written.text(near.floor()) } else { written.like(near) };
            let example = written.with_unit(&example);
            let kind = match (about.kind, written) {
                (Kind::Count, _) => "a whole number",
                (_, Written::Clock) => "hours and minutes",
                _ => "a number",
            };
            format!("It must be {kind} from {} to {}, for example {}.", show(least), show(most), example)
        }
    }
}

/// A value to write like: a round one inside the bounds.
fn like(about: &About, least: f64, most: f64) -> f64 {
    let wanted = match about.kind {
        Kind::Force => 2000.0,
        Kind::Length => 1.5,
        Kind::Thickness => 0.01,
        Kind::Mass => 75.0,
        Kind::Angle => 0.5,
        Kind::Speed => 1.5,
        Kind::Time if most >= 36_000.0 => 1800.0,
        Kind::Time if most >= 3600.0 => 300.0,
        Kind::Time => 5.0,
        Kind::Ratio => 0.1,
        _ => 2.0,
    };
    if (least..=most).contains(&wanted) { wanted } else { (least + most) / 2.0 }
}

/// What was understood, where a unit was typed with the number.
pub fn echo(field: &Asked, view: &Boxes) -> Markup {
    let written = written(&field.about, view.units);
    let name = view.id(field.about.name);
    let read: Vec<String> = [name.clone(), format!("{name}-low"), format!("{name}-high")]
        .iter()
        .filter_map(|id| view.typed.get(id))
        .filter(|text| text.contains(|letter: char| !letter.is_ascii_digit() && !" .,-+−eE".contains(letter)))
        .filter_map(|text| written.read(text, field.about.kind).ok().map(|read| (text, read.0)))
        .map(|(text, si)| format!("{} is read as {}", text.trim(), written.with_unit(&written.text(si))))
        .collect();
    html! { @if !read.is_empty() { span.echo { (read.join("; ")) "." } } }
}

/// The id of the part that holds an entry.
pub fn entry_id(name: &str) -> String {
    format!("{name}-entry")
}

/// The id of the place for the message of an entry.
pub fn message_id(name: &str) -> String {
    format!("{name}-message")
}

/// What stands in an entry, in words.
pub fn shown(field: &Asked, units: Units) -> String {
    let written = written(&field.about, units);
    let text = |si: f64| written.text(si);
    match (field.about.takes, field.entry) {
        (_, Entry::One(si)) => written.with_unit(&text(si)),
        (_, Entry::Range(band)) if band.is_exact() => written.with_unit(&text(band.low())),
        (_, Entry::Range(band)) => written.with_unit(&format!("{} to {}", text(band.low()), text(band.high()))),
        (Takes::Choice(choices), Entry::Choice(chosen)) => {
            let chosen = choices.iter().find(|choice| choice.name == chosen);
            chosen.map(|choice| choice.words.to_owned()).unwrap_or_default()
        }
        _ => String::new(),
    }
}
