//! In class: where the class is, its guesses, and what its buttons do.

use super::{Event, Page, Sheet, Update};
use crate::class::demo::Place;
use crate::class::guess::{self, Guess, Taken};
use crate::class::{Board, Wanted, handout, screen};
use crate::units;
use crate::way::Way;
use rigging_core::quantity::Units;
use rigging_core::question::Entry;

/// The demonstration on the screen, and what was guessed so far.
#[derive(Debug, Default)]
pub(super) struct Lesson {
    place: Option<Place>,
    board: Board,
    /// Guesses of this sitting: who steps back is not asked again.
    kept: Vec<(Place, Guess)>,
}

impl Lesson {
    pub(super) fn leave(&mut self) {
        self.place = None;
    }

    /// Goes to a stop; the picture of the one before stays faint where the same question is asked.
    fn go(&mut self, place: Place) {
        let before = self.place.filter(|before| before.number == place.number && *before != place);
        let ghost = match before {
            Some(before) => {
                let answer = before.question().and_then(|question| question.answer().ok());
                answer.map(|answer| before.scene(&answer))
            }
            None if self.place == Some(place) => self.board.ghost.take(),
            None => None,
        };
        let guess = self.kept.iter().find(|(kept, _)| *kept == place).map(|(_, guess)| *guess);
        self.board = Board { guess, ghost, ..Board::default() };
        self.place = Some(place);
    }

    fn guessed(&mut self, place: Place) {
        self.kept.retain(|(kept, _)| *kept != place);
        self.kept.extend(self.board.guess.map(|guess| (place, guess)));
    }
}

impl Page {
    /// Goes to a demonstration, which is for classes alone.
    pub(super) fn demonstrate(&mut self, place: Place, units: Units) -> Update {
        let stepped = self.lesson.place.is_some();
        self.way = Way::Class;
        self.units = units;
        self.lesson.go(place);
        let focus = if stepped { "stop".to_owned() } else { String::new() };
        self.stage(place).focused(&focus)
    }

    /// The screen of a demonstration.
    fn stage(&self, place: Place) -> Update {
        let (board, units) = (&self.lesson.board, self.units);
        let Some(Ok(answer)) = place.question().map(|question| question.answer()) else { return Update::default() };
        let stage = screen::Stage { place, board, units, answer: &answer };
        Update {
            put: vec![("app".to_owned(), screen::page(&stage).into_string())],
            fragment: place.write(units),
            way: Way::Class.name(),
            title: [place.demo.title, " · Rigging loads"].concat(),
            said: stage.said(),
            ..Update::default()
        }
    }

    /// What a class does; `None` for what is no different in class.
    pub(super) fn class_event(&mut self, event: Event, id: &str, value: &str, now: &str) -> Option<Update> {
        match (self.lesson.place, &mut self.sheet) {
            (Some(place), _) => self.lesson_event(place, event, id, value, now),
            (None, Some(sheet)) if self.way == Way::Class => sheet.class_event(event, id, value),
            _ => None,
        }
    }

    fn lesson_event(&mut self, place: Place, event: Event, id: &str, value: &str, now: &str) -> Option<Update> {
        let units = self.units;
        let focused = |update: Update| Some(update.focused(id));
        match (event, id) {
            (Event::Input, "force-unit" | "length-unit") => {
                self.units = units::with(units, value);
                focused(self.stage(place))
            }
            (Event::Input, _) => {
                guess::typed(&mut self.lesson.board, id, value);
                None
            }
            (Event::Press, "handout-blank" | "handout-answers") => {
                let sheet = handout::sheet(place, id == "handout-answers", units);
                let put = sheet.map(|sheet| ("paper".to_owned(), sheet.into_string())).into_iter().collect();
                Some(Update { put, print: true, ..Update::default() })
            }
            (Event::Press, _) => match id.strip_prefix("way-").and_then(Way::named) {
                Some(Way::Class) => focused(self.stage(place)),
                // Out of class the demonstration is a question like any other, with numbers that are nobody's.
                Some(way) => {
                    let address = place.link(units).map(|link| link.write()).unwrap_or_default();
                    self.way = way;
                    focused(self.go(&address, "", now))
                }
                None => self.guess(place, id),
            },
            (Event::Leave, _) => None,
        }
    }

    fn guess(&mut self, place: Place, id: &str) -> Option<Update> {
        let answer = place.question().and_then(|question| question.answer().ok()).unwrap_or_default();
        let kind = place.found(&answer)?.kind;
        match guess::pressed(&mut self.lesson.board, id, kind, self.units) {
            Taken::Set => {
                self.lesson.guessed(place);
                Some(self.stage(place).focused("answer"))
            }
            Taken::Wrong => Some(self.stage(place).focused("guess")),
            Taken::Nothing | Taken::Typing => None,
        }
    }
}

impl Sheet {
    fn class_event(&mut self, event: Event, id: &str, value: &str) -> Option<Update> {
        let taken = match event {
            Event::Input => guess::typed(&mut self.board, id, value),
            Event::Press if id == "choose-limit" => {
                // A limit that was there before was not chosen by this class.
                self.board.limit = true;
                let _ = self.question.set("limit", &Entry::Choice("none"));
                return Some(self.whole().focused("limit"));
            }
            Event::Press => {
                let Wanted { kind, .. } = self.seen().wanted?;
                guess::pressed(&mut self.board, id, kind, self.units)
            }
            Event::Leave if id == "guess" => Taken::Typing,
            Event::Leave => Taken::Nothing,
        };
        match taken {
            Taken::Nothing => None,
            Taken::Typing => Some(Update::default()),
            Taken::Wrong => Some(self.results().focused("guess")),
            Taken::Set => {
                self.board.guessed(&self.question);
                Some(self.results().focused("answer"))
            }
        }
    }
}
