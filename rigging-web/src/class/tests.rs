mod board;
mod demos;

use super::demo::Place;
use crate::page::{Event, Page, Update};
use rigging_core::question::Answer;

const NOW: &str = "2026-03-04 10:30";

fn everywhere() -> impl Iterator<Item = Place> {
    Place::firsts().flat_map(Place::all)
}

fn answer(place: Place) -> Answer {
    let question = place.question().unwrap_or_else(|| panic!("{place:?} sets what is not there"));
    question.answer().unwrap_or_else(|error| panic!("{} {}: {error}", place.demo.title, place.at))
}

/// Everything that the update brings before eyes and ears.
fn told(update: &Update) -> String {
    let put: Vec<&str> = update.put.iter().map(|(_, html)| html.as_str()).collect();
    [put.concat(), update.said.clone(), update.title.clone(), update.fragment.clone()].concat()
}

fn press(page: &mut Page, id: &str) -> Update {
    page.event(Event::Press, id, "", NOW)
}

fn in_class() -> Page {
    let mut page = Page::default();
    page.go("", "", NOW);
    press(&mut page, "way-class");
    page
}
