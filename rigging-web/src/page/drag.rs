//! What a hand or a key does to the picture: numbers follow as if they had been typed.

use super::sheet::{Answered, Sheet};
use super::{Page, Update};
use crate::figure::{self, Point, Stage};
use crate::way::Way;
use rigging_core::question::scene::{Grip, Handle, Place};

/// A hand that holds a handle.
#[derive(Debug, Clone)]
pub(super) struct Held {
    handle: Handle,
    /// Scale of its picture.
    stage: Stage,
    /// Where in the picture it was taken hold of.
    from: Point,
    /// What the fields that follow were then (SI).
    start: Vec<f64>,
    /// Everything as it was.
    before: Box<Sheet>,
}

impl Page {
    /// A hand takes hold of a handle at a point of its picture.
    pub fn grip(&mut self, id: &str, x: f64, y: f64) {
        self.held = None;
        let Some(sheet) = &mut self.sheet else { return };
        let Some((handle, picture, stages)) = sheet.handle(id) else { return };
        let Some(stage) = stages.get(picture).cloned() else { return };
        let start = handle.grips.iter().map(|grip| sheet.middle(grip)).collect();
        let before = Box::new(sheet.clone());
        sheet.stages = stages;
        self.held = Some(Held { handle, stage, from: (x, y), start, before });
    }

    /// The hand goes to a point of the picture.
    pub fn pull(&mut self, x: f64, y: f64, now: &str) -> Update {
        let (Some(held), Some(sheet)) = (&self.held, &mut self.sheet) else { return Update::default() };
        let way = [(x - held.from.0) / held.stage.metre, (held.from.1 - y) / held.stage.metre];
        if !way.iter().all(|part| part.is_finite()) {
            return Update::default();
        }
        let moved = held.handle.grips.iter().zip(&held.start).map(|(grip, start)| {
            // To whole parts of what one unit of the picture is.
            let part = sheet.part(grip, held.handle.at, &held.stage, 1.5);
            let by = grip.moved(held.handle.at, way);
            (grip.field(), if by == 0.0 { *start } else { ((start + by) / part).round() * part })
        });
        let moved: Vec<(&str, f64)> = moved.collect();
        let Some(answer) = sheet.follow(&moved, now, &held.before) else { return Update::default() };
        // The address waits until the hand lets go, and so does who listens.
        Update { fragment: String::new(), said: String::new(), ..sheet.results_of(answer) }
    }

    /// The hand lets go: the picture fits itself anew.
    pub fn let_go(&mut self) -> Update {
        let (Some(_), Some(sheet)) = (self.held.take(), &mut self.sheet) else { return Update::default() };
        sheet.stages = Vec::new();
        sheet.results()
    }

    /// What the hand did is taken back: everything is as it was.
    pub fn take_back(&mut self) -> Update {
        let Some(held) = self.held.take() else { return Update::default() };
        let update = Update { said: String::new(), ..held.before.results() };
        self.sheet = Some(*held.before);
        update
    }

    /// A key moves a handle by a step; `key` is the name of an arrow key.
    pub fn nudge(&mut self, id: &str, key: &str, now: &str) -> Update {
        let Some(sheet) = &mut self.sheet else { return Update::default() };
        let Some((handle, picture, stages)) = sheet.handle(id) else { return Update::default() };
        let Some(stage) = stages.get(picture) else { return Update::default() };
        let (u, v) = match key {
            "ArrowLeft" => (-1.0, 0.0),
            "ArrowRight" => (1.0, 0.0),
            "ArrowUp" => (0.0, 1.0),
            "ArrowDown" => (0.0, -1.0),
            _ => return Update::default(),
        };
        // The grip that goes most this way; a key across it moves it too, right and up being more.
        let along = |grip: &Grip| {
            let [right, up] = grip.growth(handle.at);
            (u * right + v * up) / right.hypot(up).max(f64::MIN_POSITIVE)
        };
        let most = |best: Grip, grip: Grip| if along(&grip).abs() > along(&best).abs() { grip } else { best };
        let Some(grip) = handle.grips.iter().copied().reduce(most) else { return Update::default() };
        let way = if along(&grip).abs() > 0.1 { along(&grip) } else { u + v };
        let part = sheet.part(&grip, handle.at, stage, 6.0);
        let to = ((sheet.middle(&grip) / part).round() + way.signum()) * part;
        let before = sheet.clone();
        match sheet.follow(&[(grip.field(), to)], now, &before) {
            Some(answer) => sheet.results_of(answer),
            None => Update::default(),
        }
    }
}

impl Sheet {
    /// The handle of an id, the number of its picture, and how the pictures stand.
    fn handle(&self, id: &str) -> Option<(Handle, usize, Vec<Stage>)> {
        let (picture, number) = figure::read(id).filter(|_| self.way != Way::Lip)?;
        let answer = self.answer()?.ok()?;
        let handle = figure::scenes(&answer).nth(picture)?.handles.get(number)?.clone();
        Some((handle, picture, figure::scenes(&answer).map(Stage::of).collect()))
    }

    fn middle(&self, grip: &Grip) -> f64 {
        self.field(grip.field()).map_or(0.0, |field| field.entry.middle())
    }

    /// A round part (SI) of the field that follows: at most what so many units of the picture are.
    fn part(&self, grip: &Grip, at: Place, stage: &Stage, units: f64) -> f64 {
        let [right, up] = grip.growth(at);
        let Some(field) = self.field(grip.field()) else { return 1.0 };
        let unit = self.units.of(field.about.kind);
        let most = unit.from_si(units * right.hypot(up) / stage.metre);
        let decade = 10_f64.powi(most.max(1e-9).log10().floor() as i32);
        let round = [5.0, 2.0, 1.0].into_iter().map(|step| step * decade).find(|round| *round <= most);
        unit.to_si(round.unwrap_or(decade))
    }

    /// Moves fields to values and gives the answer; nothing if nothing changes. Where nothing could be rigged so,
    /// the rig stays as it is.
    fn follow(&mut self, moved: &[(&str, f64)], now: &str, before: &Sheet) -> Option<Answered> {
        let last = self.clone();
        for (name, si) in moved {
            self.shift(name, *si, now);
        }
        let answer = if self.question == last.question { None } else { self.answer() };
        if !matches!(answer, Some(Ok(_))) {
            *self = last;
            return None;
        }
        // One drag is one change.
        if last.question == before.question && last.before.len() == before.before.len() {
            let (name, _) = moved.first().copied().unwrap_or_default();
            self.mark_from(before, name);
        }
        Some(answer)
    }
}
