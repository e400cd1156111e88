//! In class: ten demonstrations in which one quantity moves, a guess before every number, no standing until a limit
//! was chosen aloud.

pub mod demo;
pub mod guess;
pub mod handout;
pub mod screen;
mod ten;

#[cfg(test)]
mod tests;

use crate::entry::{Group, group_of};
use crate::standing::unstood;
use guess::Guess;
use rigging_core::quantity::Kind;
use rigging_core::question::scene::Scene;
use rigging_core::question::{Answer, Asked, Entry, Question};

/// What stands on the board beside a question.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Board {
    /// The last guess; numbers are hidden while there is none for the question as it stands.
    pub guess: Option<Guess>,
    /// The question that was guessed.
    pub of: Option<Question>,
    /// The picture before it, to be drawn faint behind.
    pub ghost: Option<Scene>,
    /// What is being typed as a guess.
    pub typed: String,
    /// What is wrong with it.
    pub wrong: String,
    /// Whether a limit is being chosen aloud.
    pub limit: bool,
}

/// What a class is to guess.
#[derive(Debug, Clone, PartialEq)]
pub struct Wanted {
    /// What it is, as in a finding.
    pub what: String,
    /// What it measures.
    pub kind: Kind,
}

impl Board {
    /// What a class sees of an answer, and what it is to guess while its numbers are hidden.
    ///
    /// What is not to be seen is taken out of the answer here, once, so that no screen can show it.
    pub fn seen(&self, question: &Question, mut answer: Answer) -> (Answer, Option<Wanted>) {
        let fields = question.fields();
        let none = |field: &&Asked| field.about.name == "limit" && field.entry != Entry::Choice("none");
        if !self.limit || !fields.iter().any(|field| none(&field)) {
            answer.comparisons.clear();
            answer.usual.clear();
            unstood(&mut answer);
        }
        match answer.findings.first() {
            Some(first) if self.guess.is_none() || !self.is_of(question) => {
                let wanted = Wanted { what: first.what.clone(), kind: first.kind };
                (hidden(answer, wanted.kind), Some(wanted))
            }
            _ => (answer, None),
        }
    }

    /// Whether the guess was made for this question, whatever it is compared with.
    fn is_of(&self, question: &Question) -> bool {
        let own = |question: &Question| -> Vec<Asked> {
            question.fields().into_iter().filter(|field| group_of(field.about.name) != Group::Limit).collect()
        };
        self.of.as_ref().is_some_and(|of| own(of) == own(question))
    }

    /// The picture to draw faint behind that of a question: of what was guessed last, or of what came before it.
    pub fn behind(&self, question: &Question) -> Option<Scene> {
        if self.is_of(question) {
            return self.ghost.clone();
        }
        self.of.as_ref().and_then(|of| of.answer().ok()).map(|answer| answer.scene)
    }

    /// Keeps a guess as that of a question.
    pub fn guessed(&mut self, question: &Question) {
        self.ghost = self.behind(question);
        self.of = Some(question.clone());
        self.typed.clear();
    }
}

/// An answer without anything that was found: how things lie, what threatens and what is not in it.
fn hidden(answer: Answer, kind: Kind) -> Answer {
    let Answer { scene, aside, cautions, not_in, .. } = answer;
    let bare = |scene| bare(scene, kind);
    let mut hidden = Answer::default();
    (hidden.scene, hidden.aside) = (bare(scene), aside.map(bare));
    (hidden.cautions, hidden.not_in) = (cautions, not_in);
    hidden
}

/// A scene without forces; without what shows a length or an angle too if such a one is asked for.
pub fn bare(mut scene: Scene, kind: Kind) -> Scene {
    // Where a length is asked for, it could be read off from where people and lines are.
    let placed = kind == Kind::Length;
    scene.case.clear();
    scene.forces.clear();
    scene.polygon.clear();
    if placed {
        scene.lines.clear();
        scene.people.clear();
        scene.lengths.clear();
    }
    if kind == Kind::Angle {
        scene.angles.clear();
    }
    // That a line hangs slack is found, too.
    for line in &mut scene.lines {
        line.tension = 1.0;
    }
    scene
}
