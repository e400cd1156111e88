//! The picture in words: names with their numbers, and whole sentences for those who listen.

use crate::both::both;
use rigging_core::quantity::{Kind, Toward, Units, decimal};
use rigging_core::question::scene::{Arc, Arrow, Dimension, Pull, Role, Scene, from_plumb, size};

/// A force: its name and its size.
pub fn force(arrow: &Arrow, units: Units) -> String {
    let toward = if arrow.role == Role::Held { Toward::Less } else { Toward::More };
    format!("{} {}", arrow.name, units.show(size(arrow.pull), Kind::Force, toward))
}

/// A length: its name and its size.
pub fn length(length: &Dimension, units: Units) -> String {
    let metres = (length.from[0] - length.to[0]).hypot(length.from[1] - length.to[1]);
    format!("{} {}", length.name, units.show(metres, Kind::Length, Toward::Nearest))
}

/// An angle: its name and its size.
pub fn angle(arc: &Arc) -> String {
    format!("{} {}°", arc.name, decimal((arc.to - arc.from).abs().to_degrees(), 0))
}

/// What is written beside the way that water flows.
pub const CURRENT: &str = "current";

/// The picture in sentences.
pub fn description(scene: &Scene, units: Units) -> String {
    let mut words = sentence_case(both(&scene.case, units).trim_end_matches('.'));
    words += if words.is_empty() { "The lines as they lie, without forces." } else { "." };
    for arrow in &scene.forces {
        words += &format!(" {} {}.", sentence_case(&force(arrow, units)), direction(arrow.pull));
    }
    for arc in &scene.angles {
        words += &format!(" {}.", sentence_case(&angle(arc)));
    }
    for named in &scene.lengths {
        words += &format!(" {}.", sentence_case(&length(named, units)));
    }
    for [from, to] in &scene.flows {
        words += &format!(" The current flows {}.", direction([to[0] - from[0], to[1] - from[1]]));
    }
    match scene.lines.iter().filter(|line| line.tension <= 0.0).count() {
        0 => {}
        1 => words += " One line hangs slack.",
        slack => words += &format!(" {} lines hang slack.", slack),
    }
    words
}

/// The same, with what is drawn faint behind it.
pub fn described(scene: &Scene, ghost: Option<&Scene>, units: Units) -> String {
    let mut words = description(scene, units);
    if let Some(ghost) = ghost {
        words += " Faint behind it, the lines of the position before";
        for arc in &ghost.angles {
            words += ", ";
            words += &angle(arc);
        }
        words.push('.');
    }
    words
}

/// The polygon in one sentence.
pub fn polygon(scene: &Scene, units: Units) -> String {
    let sides: Vec<String> =
        scene.polygon.iter().map(|arrow| format!("{} {}", force(arrow, units), direction(arrow.pull))).collect();
    format!("Forces that balance, head to tail, to the same scale: {}; back where they began.", sides.join(", then "))
}

/// Where a force points, in words: "30° left of down".
fn direction(pull: Pull) -> String {
    let Some(from_plumb) = from_plumb(pull) else { return String::new() };
    let from_down = from_plumb.to_degrees();
    let side = if from_down < 0.0 { "left" } else { "right" };
    let (from, way) = if from_down.abs() <= 90.0 { (from_down.abs(), "down") } else { (180.0 - from_down.abs(), "up") };
    if from < 0.5 {
        format!("straight {way}")
    } else if from > 89.5 {
        format!("level to the {side}")
    } else {
        format!("{}° {side} of straight {way}", decimal(from, 0))
    }
}

/// The same with a capital in front.
pub fn sentence_case(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| std::iter::once(first.to_ascii_uppercase()).chain(letters).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_direction_is_told_from_the_nearer_plumb() {
        assert_eq!(direction([0.0, -5.0]), "straight down");
        assert_eq!(direction([0.0, 5.0]), "straight up");
        assert_eq!(direction([-5.0, 0.0]), "level to the left");
        assert_eq!(direction([1.0, -3.0_f64.sqrt()]), "30° right of straight down");
        assert_eq!(direction([-1.0, 1.0]), "45° left of straight up");
    }
}
