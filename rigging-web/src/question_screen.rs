//! The screen of one question: answer, picture, entries, working, cautions.

use crate::class::{Board, Wanted};
use crate::figure::Stage;
use crate::page::{Asking, Typed, Whose, Wrong};
use crate::units::{FORCES, LENGTHS, Units};
use crate::way::{self, Way};
use crate::written::{Written, written};
use crate::{figure, glance, plan, result, working};
use maud::{Markup, html};
use rigging_core::quantity::{Kind, Unit};
use rigging_core::question::scene::Scene;
use rigging_core::question::{About, Answer, Asked, BadInput, Entry, Gravity, Question, Takes};

/// What a screen is made from.
#[derive(Debug, Clone)]
pub struct View<'a> {
    /// The question with its values.
    pub question: &'a Question,
    /// The units chosen.
    pub units: Units,
    /// Where the page is used.
    pub way: Way,
    /// The letters of the question that its forces were taken from.
    pub from: Option<&'static str>,
    /// Whose numbers these are.
    pub whose: &'a Whose,
    /// What stands in the boxes as typed, by their ids.
    pub typed: &'a Typed,
    /// What is wrong, by the name of the field.
    pub wrong: &'a Wrong,
    /// What undoing would bring back, in words; nothing if nothing was changed.
    pub undoes: Option<String>,
    /// Where it stands beside the plan.
    pub side: &'a plan::Side,
    /// What was asked for once and wants to be asked for again.
    pub asking: Asking,
    /// How the pictures stand while a hand drags; nothing otherwise.
    pub stages: &'a [Stage],
    /// The answer; nothing while an entry is unusable.
    pub answer: Option<&'a Result<Answer, BadInput>>,
    /// What stands on the board, in class.
    pub board: Option<&'a Board>,
    /// What the class is to guess; its numbers are not in the answer then.
    pub wanted: Option<&'a Wanted>,
    /// The picture before the last change, in class.
    pub ghost: Option<&'a Scene>,
}

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

impl<'a> View<'a> {
    /// Its entries.
    pub fn boxes(&self) -> Boxes<'a> {
        Boxes { prefix: "", units: self.units, way: self.way, typed: self.typed, wrong: self.wrong }
    }

    /// The answer, if there is one.
    pub fn found(&self) -> Option<&'a Answer> {
        self.answer.and_then(|answer| answer.as_ref().ok())
    }
}

/// The whole screen.
pub fn page(view: &View) -> Markup {
    let question = view.question;
    html! {
        @if view.way == Way::Lip {
            // One drop of water opens it at most.
            header {
                details.top {
                    summary { "At the lip: all questions, other ways, units" }
                    (ways_out(view))
                }
            }
        } @else {
            header.top { (ways_out(view)) }
        }
        main {
            h1 { (question.words()) }
            p.about { (question.about()) "." }
            div.desk {
                section #answer aria-label="Answer" tabindex="-1" { (answer(view)) }
                // At the lip what is changed comes next to what it changes.
                @if view.way == Way::Lip { (yours(view)) }
                figure #picture { (figure::picture(view)) }
                @if view.way != Way::Lip { (yours(view)) }
                section #more aria-label="Also found" { (result::more(view)) }
            }
            section #plan-side aria-label="The rigging plan" { (plan::side(view.side, view.way)) }
            div.below {
                section #working { (working::steps(view)) }
                section #cautions aria-label="Cautions" { (cautions(view.found())) }
                section #not-in { (not_in(view.found())) }
            }
        }
        footer { (foot(view)) }
    }
}

fn strip(view: &View) -> Markup {
    html! {
        @match view.found().and_then(|answer| answer.findings.first()) {
            Some(first) => { (result::end_word(first)) " " strong { (view.units.adverse(first)) } " " (first.what) }
            None if view.wanted.is_some() => strong { "?" },
            None => strong { "—" },
        }
    }
}

fn answer(view: &View) -> Markup {
    if view.way == Way::Lip { glance::answer(view) } else { result::answer(view) }
}

fn confirm(view: &View) -> Markup {
    if view.way == Way::Lip {
        glance::confirm(view)
    } else {
        html! {}
    }
}

/// What is entered, with the ways back.
fn yours(view: &View) -> Markup {
    html! {
        section #entries aria-label="Your numbers" {
            // The answer stays in sight of what changes it; those who listen are told by the status.
            @if view.way != Way::Lip { p #strip aria-hidden="true" { (strip(view)) } }
            div #undo-place { (undo(view)) }
            (entries(view))
            div #confirm-place { (confirm(view)) }
            (back(view))
        }
    }
}

fn ways_out(view: &View) -> Markup {
    html! {
        a.home href="#" { "All questions" }
        (way::buttons(view.way))
        (unit_choices(view.units))
    }
}

/// The parts that follow from the numbers, by the id of their place.
pub fn results(view: &View) -> Vec<(&'static str, Markup)> {
    vec![
        ("answer", answer(view)),
        ("strip", strip(view)),
        ("undo-place", undo(view)),
        ("confirm-place", confirm(view)),
        ("picture", figure::picture(view)),
        ("more", result::more(view)),
        ("working", working::steps(view)),
        ("cautions", cautions(view.found())),
        ("not-in", not_in(view.found())),
    ]
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

/// The answer in one sentence, for those who listen.
pub fn sentence(view: &View) -> String {
    if view.wanted.is_some() {
        return "Guess first: the number is hidden.".to_owned();
    }
    match view.found().and_then(|answer| answer.findings.first()) {
        Some(finding) => format!("{} {}", result::end_words(finding, view.units), finding.what),
        None => "No answer: an entry cannot be used.".to_owned(),
    }
}

/// The lists of units to choose from.
pub fn unit_choices(units: Units) -> Markup {
    html! {
        (unit_choice("force-unit", "Forces in", &FORCES, units.force))
        (unit_choice("length-unit", "Lengths in", &LENGTHS, units.length))
    }
}

fn unit_choice(id: &str, label: &str, units: &[Unit], chosen: Unit) -> Markup {
    html! {
        label.unit for=(id) {
            span { (label) }
            select id=(id) {
                @for unit in units {
                    option value=(unit.symbol()) selected[*unit == chosen] { (unit.symbol()) }
                }
            }
        }
    }
}

/// The id of the part that holds an entry.
pub fn entry_id(name: &str) -> String {
    format!("{name}-entry")
}

/// The id of the place for the message of an entry.
pub fn message_id(name: &str) -> String {
    format!("{name}-message")
}

fn entries(view: &View) -> Markup {
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
                    @for field in group(wanted) { (entry(field, &view.boxes())) }
                }
            }
        }
    }
}

/// The way back from the last change.
fn undo(view: &View) -> Markup {
    html! {
        @if let Some(undoes) = &view.undoes {
            button #undo type="button" { "Undo: " (undoes) }
        }
    }
}

/// The way back to the example, asked for twice.
fn back(view: &View) -> Markup {
    html! {
        div #reset-place {
            @if view.asking == Asking::Reset {
                p { strong { "Back to our example? Your numbers here go; undo brings them back." } }
                (sure("reset-sure", "Yes, back to the example"))
            } @else {
                button #reset type="button" { "Back to the example" }
            }
        }
    }
}

/// The second of two touches, away from the first: the other stands where the first was.
pub fn sure(id: &str, words: &str) -> Markup {
    html! {
        p.sure {
            button #not-sure type="button" { "No" }
            button id=(id) type="button" { (words) }
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

/// One entry with its label, note and message.
pub fn entry(field: &Asked, view: &Boxes) -> Markup {
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
        let keys = if least(about) < 0.0 || written == Written::Clock { "text" } else { "decimal" };
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
        p.note id=(note) { (about.note) "." }
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

fn least(about: &About) -> f64 {
    match about.takes {
        Takes::One { least, .. } | Takes::Range { least, .. } => least,
        Takes::Choice(_) => 0.0,
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
            let example = written.with_unit(&written.like(like(about, least, most)));
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
        Kind::Count => 2.0,
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
        .filter(|text| text.trim().ends_with(|letter: char| !letter.is_ascii_digit() && letter != '.'))
        .filter_map(|text| written.read(text, field.about.kind).ok().map(|read| (text, read.0)))
        .map(|(text, si)| format!("{} is read as {}", text.trim(), written.with_unit(&written.text(si))))
        .collect();
    html! { @if !read.is_empty() { span.echo { (read.join("; ")) "." } } }
}

/// The class and the published word of a caution.
pub fn word(gravity: Gravity) -> (&'static str, &'static str) {
    match gravity {
        Gravity::Danger => ("danger", "DANGER"),
        Gravity::Warning => ("warning", "WARNING"),
        Gravity::Caution => ("caution", "CAUTION"),
    }
}

/// The cautions of an answer.
pub fn cautions(answer: Option<&Answer>) -> Markup {
    html! {
        h2 { "Cautions" }
        @for caution in answer.map(|answer| answer.cautions.as_slice()).unwrap_or_default() {
            @let (class, word) = word(caution.gravity);
            div class={ "notice " (class) } {
                p.word { strong { (word) } }
                p { strong { (caution.hazard) ". " } (caution.consequence) " " em { (caution.avoidance) } }
            }
        }
    }
}

/// What is not in an answer.
pub fn not_in(answer: Option<&Answer>) -> Markup {
    html! {
        h2 { "What is not in these numbers" }
        ul { @for missing in answer.map(|answer| answer.not_in.as_slice()).unwrap_or_default() { li { (missing) } } }
    }
}

fn foot(view: &View) -> Markup {
    let question = view.question;
    let all = Question::all();
    let next = all.iter().skip_while(|other| other.key() != question.key()).nth(1);
    html! {
        @if let Some(next) = next {
            p { "Next on the walk: " a href={ "#1/" (next.key()) } { (next.words()) } }
        }
        p { a href="#" { "All questions" } }
        // Nobody prints at the lip, and a drop of water must not.
        @if view.way != Way::Lip { p { button #print type="button" { "Print this on paper" } } }
        p { "Version " (env!("CARGO_PKG_VERSION")) ". A load is worked out here, never a permission. It does not replace qualified instruction, local rules, or looking at the anchor." }
    }
}
