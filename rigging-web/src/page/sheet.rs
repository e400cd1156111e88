//! A question being worked on: its values, what stands in the boxes as typed, and whose numbers these are.

use super::hands::{Asking, Before};
use super::{Update, Whose, typed};
use crate::class::{Board, Wanted};
use crate::entry::{self, Boxes};
use crate::figure::Stage;
use crate::link::{Link, as_linked};
use crate::paper;
use crate::plan::{Side, question_at};
use crate::question_screen::{self as screen, View};
use crate::result;
use crate::standing::unstood;
use crate::units;
use crate::way::Way;
use crate::written::written;
use rigging_core::quantity::{Kind, Units};
use rigging_core::question::scene::Scene;
use rigging_core::question::{About, Answer, Asked, BadInput, Entry, Question, Takes};

/// A question being worked on.
#[derive(Debug, Clone)]
pub(super) struct Sheet {
    pub(super) question: Question,
    pub(super) units: Units,
    pub(super) way: Way,
    /// The letters of the question that its forces were taken from.
    pub(super) from: Option<&'static str>,
    pub(super) whose: Whose,
    /// What stands in a box as typed, by the id of the box, while it differs from the value.
    pub(super) typed: Typed,
    /// What is wrong, by the name of the field.
    pub(super) wrong: Wrong,
    /// How things stood before each change.
    pub(super) before: Vec<Before>,
    /// Whether the last change was of letters.
    pub(super) typing: bool,
    /// What was asked for once and wants to be asked for again.
    pub(super) asking: Asking,
    /// Where it stands beside the plan.
    pub(super) side: Side,
    /// How the pictures stand while a hand drags.
    pub(super) stages: Vec<Stage>,
    /// What stands on the board, in class.
    pub(super) board: Board,
}

/// An answer as it may be shown, and what is to be guessed while its numbers are hidden.
pub(super) struct Seen {
    answer: Option<Result<Answer, BadInput>>,
    pub(super) wanted: Option<Wanted>,
    ghost: Option<Scene>,
}

/// An answer, or nothing while an entry that matters is unusable.
pub(super) type Answered = Option<Result<Answer, BadInput>>;

/// Words kept by name: a handful, so that a list serves.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept<K>(Vec<(K, String)>);

/// What stands in boxes as typed, by their ids.
pub type Typed = Kept<String>;
/// What is wrong with entries, by their ids.
pub type Wrong = Kept<String>;

impl<K> Default for Kept<K> {
    fn default() -> Self {
        Kept(Vec::new())
    }
}

impl<K: AsRef<str>> Kept<K> {
    /// The words kept under a name.
    pub fn get(&self, name: &str) -> Option<&String> {
        self.0.iter().find(|(kept, _)| kept.as_ref() == name).map(|(_, words)| words)
    }

    /// All that is kept, with its name.
    pub fn each(&self) -> impl Iterator<Item = &(K, String)> {
        self.0.iter()
    }

    pub(super) fn keep(&mut self, name: K, words: String) {
        self.forget(name.as_ref());
        self.0.push((name, words));
    }

    /// Keeps what another one keeps.
    pub(super) fn keep_all(&mut self, other: &Kept<K>)
    where
        K: Clone,
    {
        other.each().for_each(|(name, words)| self.keep(name.clone(), words.clone()));
    }

    pub(super) fn forget(&mut self, name: &str) {
        self.0.retain(|(kept, _)| kept.as_ref() != name);
    }

    /// Forgets what is kept under names that begin with a prefix.
    pub(super) fn forget_all(&mut self, prefix: &str) {
        self.0.retain(|(kept, _)| !kept.as_ref().starts_with(prefix));
    }

    /// True if nothing is kept.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Typed {
    /// Forgets what stands in the boxes of a field.
    pub(super) fn forget_field(&mut self, name: &str) {
        self.0.retain(|(id, _)| place(id).0 != name);
    }

    /// What stands in the boxes of one field, a bare number with the unit beside it: it is a number in no other.
    pub(super) fn of_field(&self, name: &str, about: &About, units: Units) -> Typed {
        let mut typed = Typed::default();
        for (id, text) in self.0.iter().filter(|(id, _)| place(id).0 == name) {
            typed.keep(id.clone(), written(about, units).in_its_unit(text, about.kind));
        }
        typed
    }

    /// What stands in boxes whose entry cannot be used, behind a tab each: id, text, id, text.
    pub(super) fn unusable(&self, wrong: &Wrong) -> String {
        let unusable = self.0.iter().filter(|(id, _)| wrong.get(place(id).0).is_some());
        unusable.map(|(id, text)| ["\t", id, "\t", &text.replace(char::is_control, " ")].concat()).collect()
    }

    /// Takes up what [`Typed::unusable`] gave; the names of its entries.
    pub(super) fn take_up<'a>(&mut self, kept: impl Iterator<Item = &'a str>) -> Vec<&'a str> {
        let (mut kept, mut names) = (kept.fuse(), Vec::new());
        while let (Some(id), Some(text)) = (kept.next(), kept.next()) {
            self.keep(id.to_owned(), text.to_owned());
            names.push(place(id).0);
        }
        names
    }

    /// Forgets what stands in all boxes but those whose entry cannot be used.
    pub(super) fn forget_usable(&mut self, wrong: &Wrong) {
        self.0.retain(|(id, _)| wrong.get(place(id).0).is_some());
    }
}

/// What the browser keeps beside the address of an example, changed or not.
pub(super) const EXAMPLE: &str = "example";

/// What is the same in every question, in the order of [`OF_THE_GROUP`].
pub(super) type Masses = Vec<OfAll>;
/// An entry that is the same in every question; where what was typed last cannot be used, that and what is wrong with it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct OfAll {
    entry: Entry,
    refused: Option<(Typed, String)>,
}
/// Names of these fields.
pub(super) const OF_THE_GROUP: [&str; 3] = ["body_kg", "kit_kg", "suit_water_kg"];

/// The name of the field an input belongs to, and which end of a range it is.
pub(super) fn place(id: &str) -> (&str, Option<&str>) {
    match id.rsplit_once('-') {
        Some((name, end @ ("low" | "high"))) => (name, Some(end)),
        _ => (id, None),
    }
}

impl Sheet {
    /// A sheet as it is opened.
    pub(super) fn opened(link: Link, whose: Whose) -> Sheet {
        let Link { question, units, from } = link;
        Sheet {
            question,
            units,
            way: Way::default(),
            from,
            whose,
            typed: Typed::default(),
            wrong: Wrong::default(),
            before: Vec::new(),
            typing: false,
            asking: Asking::Nothing,
            side: Side::default(),
            stages: Vec::new(),
            board: Board::default(),
        }
    }

    pub(super) fn link(&self) -> Link {
        Link { question: self.question.clone(), units: self.units, from: self.from }
    }

    /// The links to other questions that its answer offers, without `#`.
    pub(super) fn offers(&self) -> Vec<String> {
        let Some(Ok(answer)) = self.answer() else { return Vec::new() };
        result::ways_on(&answer, &self.question, self.units).iter().map(Link::write).collect()
    }

    /// The masses of the group as they stand, if people hang here.
    pub(super) fn masses(&self) -> Option<Masses> {
        let of_all = |name| {
            let Asked { about, entry, .. } = self.field(name)?;
            let typed = || self.typed.of_field(name, &about, self.units);
            Some(OfAll { entry, refused: self.wrong.get(name).map(|wrong| (typed(), wrong.clone())) })
        };
        OF_THE_GROUP.into_iter().map(of_all).collect()
    }

    pub(super) fn has_own_masses(&self) -> bool {
        let example = Question::named(self.question.name()).map(|example| example.fields()).unwrap_or_default();
        let fields = self.question.fields();
        fields.iter().zip(&example).any(|(field, usual)| OF_THE_GROUP.contains(&field.about.name) && field != usual)
    }

    pub(super) fn take_masses(&mut self, group: &Masses) {
        for (name, OfAll { entry, refused }) in OF_THE_GROUP.into_iter().zip(group) {
            // A question that asks for none has no such field.
            if self.question.set(name, entry).is_err() {
                continue;
            }
            self.typed.forget_field(name);
            self.wrong.forget(name);
            // What cannot be used in one question is not another number in the next.
            if let Some((typed, wrong)) = refused {
                self.typed.keep_all(typed);
                self.wrong.keep(name.to_owned(), wrong.clone());
            }
        }
    }

    pub(super) fn field(&self, name: &str) -> Option<Asked> {
        self.question.fields().into_iter().find(|field| field.about.name == name)
    }

    /// The answer, or nothing while an entry that matters is unusable.
    pub(super) fn answer(&self) -> Answered {
        self.refused().is_empty().then(|| self.question.answer())
    }

    fn boxes(&self) -> Boxes<'_> {
        Boxes { prefix: "", units: self.units, way: self.way, typed: &self.typed, wrong: &self.wrong }
    }

    /// The answer, in class without what the class has not guessed yet.
    pub(super) fn seen(&self) -> Seen {
        self.see(self.answer())
    }

    /// Leaves of an answer what may be told: numbers that are not the user's own are compared with nothing.
    fn leave_told(&self, answer: &mut Answered, mine: bool) {
        if let (Some(Ok(answer)), false) = (answer, mine && matches!(self.whose, Whose::Mine(_))) {
            unstood(answer);
        }
    }

    fn see(&self, mut answer: Answered) -> Seen {
        self.leave_told(&mut answer, true);
        match answer {
            Some(Ok(answer)) if self.way == Way::Class => {
                let (answer, wanted) = self.board.seen(&self.question, answer);
                Seen { answer: Some(Ok(answer)), wanted, ghost: self.board.behind(&self.question) }
            }
            answer => Seen { answer, wanted: None, ghost: None },
        }
    }

    fn view<'a>(&'a self, seen: &'a Seen) -> View<'a> {
        View {
            question: &self.question,
            units: self.units,
            way: self.way,
            from: self.from,
            whose: &self.whose,
            typed: &self.typed,
            wrong: &self.wrong,
            undoes: self.undoes(),
            side: &self.side,
            asking: self.asking,
            stages: &self.stages,
            answer: seen.answer.as_ref(),
            board: (self.way == Way::Class).then_some(&self.board),
            wanted: seen.wanted.as_ref(),
            ghost: seen.ghost.as_ref(),
        }
    }

    fn update(&self) -> Update {
        Update {
            fragment: self.link().write(),
            memory: self.whose.memory(),
            way: self.way.name(),
            title: format!("{} · Rigging loads", self.question.words()),
            ..Update::default()
        }
    }

    pub(super) fn whole(&self) -> Update {
        let html = screen::page(&self.view(&self.seen())).into_string();
        Update { put: vec![("app".to_owned(), html)], ..self.update() }
    }

    /// The sheet of paper; `address` is where the page lies.
    pub(super) fn on_paper(&self, address: &str, now: &str) -> String {
        // What a class has not guessed yet is worth nothing on paper; hand-outs are for classes. Nor is a limit chosen aloud.
        let mut answer = self.answer();
        self.leave_told(&mut answer, self.way != Way::Class);
        let seen = Seen { answer, wanted: None, ghost: None };
        let view = View { board: None, ..self.view(&seen) };
        paper::sheet(&view, address, &self.link().write(), now).into_string()
    }

    /// Everything that follows from the numbers, the entries left as they are.
    pub(super) fn results(&self) -> Update {
        self.results_of(self.answer())
    }

    /// The same after an entry that can be used: what was said of it is said no more.
    pub(super) fn results_of_entry(&self, name: &str) -> Update {
        let mut update = self.results();
        update.put.push((entry::message_id(name), String::new()));
        update
    }

    /// The same with the answer at hand.
    pub(super) fn results_of(&self, answer: Answered) -> Update {
        let seen = self.see(answer);
        let view = self.view(&seen);
        let fields = self.question.fields();
        let entries = fields.iter().map(|field| (entry::entry_id(field.about.name), !field.matters));
        let sliders = fields.iter().map(|field| (entry::slide_place(field.about.name), !entry::slides(field, &view)));
        let hidden = entries.chain(sliders).collect();
        let mut put: Vec<(String, String)> =
            screen::results(&view).into_iter().map(|(id, html)| (id.to_owned(), html.into_string())).collect();
        if self.way == Way::Lip {
            for field in self.question.fields() {
                let shown = entry::message(&entry::summed(&field, &view.boxes())).into_string();
                put.push((entry::shown_id(field.about.name), shown));
            }
        }
        let values = self.question.fields().iter().flat_map(|field| self.boxed(field.about.name)).collect();
        Update { put, hidden, values, said: screen::sentence(&view), ..self.update() }
    }

    pub(super) fn confirm(&mut self, now: &str) {
        self.asking = Asking::Nothing;
        self.whose = Whose::Mine(now.to_owned());
    }

    /// Numbers that were mine on an earlier day are asked about; true if they just became so.
    pub(super) fn age(&mut self, now: &str) -> bool {
        self.whose.age(now)
    }

    pub(super) fn touched(&mut self, now: &str) {
        if matches!(self.whose, Whose::Mine(_)) {
            self.confirm(now);
        }
    }

    /// Takes up what could not be used when the page was left.
    pub(super) fn take_up<'a>(&mut self, kept: impl Iterator<Item = &'a str>) {
        for name in self.typed.take_up(kept) {
            match self.field(name) {
                Some(field) => self.read_again(&field),
                // Where it stands in the plan.
                None => {
                    self.side.of = question_at(name);
                    self.side.was = self.typed.get(name).cloned().unwrap_or_default();
                }
            }
        }
    }

    /// What was typed and cannot be used, by the fields that matter.
    pub(super) fn refused(&self) -> Vec<Asked> {
        let fields = self.question.fields().into_iter();
        fields.filter(|field| field.matters && self.wrong.get(field.about.name).is_some()).collect()
    }

    /// Reads again what could not be used, in the units of the time when it was typed.
    pub(super) fn read_refused(&mut self, before: Units) {
        for field in self.question.fields() {
            let name = field.about.name;
            if self.wrong.get(name).is_some() {
                let typed = self.typed.of_field(name, &field.about, before);
                self.typed.keep_all(&typed);
                self.read_again(&field);
            }
        }
    }

    /// Reads what stands in the boxes of a field in the units there are now: it is what is seen there.
    fn read_again(&mut self, field: &Asked) {
        let name = field.about.name;
        match typed::entry(field, &self.boxes()) {
            Ok(entry) => {
                self.wrong.forget(name);
                let _ = self.question.set(name, &as_linked(&field.with(entry), self.units));
                self.typed.forget_field(name);
            }
            Err(wrong) => self.wrong.keep(name.to_owned(), wrong),
        }
    }

    /// Another unit is chosen. What was unusable stays what it was, in the unit that stood beside it; all else is told in it.
    pub(super) fn change_unit(&mut self, id: &str, value: &str) -> Update {
        self.typed.forget_usable(&self.wrong);
        let before = self.units;
        self.units = units::with(before, value);
        let example = Question::named(self.question.name());
        let usual = example.map(|example| example.fields()).unwrap_or_default();
        for (field, usual) in self.question.fields().iter().zip(&usual) {
            if field.entry != usual.entry {
                let _ = self.question.set(field.about.name, &as_linked(field, self.units));
            }
        }
        self.read_refused(before);
        self.whole().focused(id)
    }

    /// Takes in what is typed; the numbers change at once, what is wrong is said when the field is left.
    pub(super) fn enter(&mut self, id: &str, value: &str, now: &str) -> Update {
        let (name, _) = place(id);
        let Some(field) = self.field(name) else { return Update::default() };
        self.mark(id, !matches!(field.about.takes, Takes::Choice(_)));
        self.typed.keep(id.to_owned(), value.to_owned());
        match typed::entry(&field, &self.boxes()) {
            Ok(entry) => {
                self.wrong.forget(field.about.name);
                let linked = as_linked(&field.with(entry), self.units);
                // What is on the screen is what its link says; eight figures of a value within bounds settle there.
                let _ = self.question.set(field.about.name, &linked);
                if field.about.kind == Kind::Force {
                    // What is typed was not taken from another question.
                    self.from = None;
                }
                self.touched(now);
                self.results_of_entry(name)
            }
            Err(wrong) => {
                self.wrong.keep(field.about.name.to_owned(), wrong);
                // The beginning of what cannot be used is nobody's number: what stood there before counts elsewhere.
                let was = self.before.last().and_then(|before| before.entry(name));
                if let Some(was) = was {
                    let _ = self.question.set(name, &was);
                }
                self.results_of_entry(name)
            }
        }
    }

    pub(super) fn leave(&mut self, id: &str) -> Update {
        self.typing = false;
        let (name, _) = place(id);
        let Some(field) = self.field(name) else { return Update::default() };
        let message = match self.wrong.get(name) {
            Some(wrong) => entry::message(wrong),
            None => entry::echo(&field, &self.boxes()),
        };
        Update { put: vec![(entry::message_id(name), message.into_string())], ..Update::default() }
    }
}

impl Whose {
    /// What was mine on an earlier day is asked about; true if it just became so.
    pub(super) fn age(&mut self, now: &str) -> bool {
        let day = |time: &str| time.split_once(' ').map(|(day, _)| day.to_owned());
        match self {
            Whose::Mine(touched) if day(touched) != day(now) => {
                *self = Whose::Earlier(touched.clone());
                true
            }
            _ => false,
        }
    }
}
