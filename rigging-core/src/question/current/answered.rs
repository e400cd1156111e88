//! The answer for each tool: a line from bank to bank, or one that ends on the person.

use super::super::against::Against;
use super::super::answer::{Answer, ChosenLimit, Comparison, Finding};
use super::super::carried::{Carried, HangOn, HeldBy, larger};
use super::super::input::BadInput;
use super::case::Found;
use super::choice::Posture;
use super::told::{self, FORMULAS};
use super::{IN_WATER, InTheCurrent, Tool};
use crate::band::Band;
use crate::law::OutOfDomain;
use crate::quantity::Kind;
use crate::working::Step;

impl InTheCurrent {
    /// One of several, if there are.
    fn alone(&self) -> Option<InTheCurrent> {
        self.people.alone().map(|people| InTheCurrent { people, ..*self })
    }

    /// What is told whichever the tool.
    fn told_of_all(&self, hold: Option<Band>) -> Result<Vec<Finding>, OutOfDomain> {
        let mut findings = Vec::new();
        if let Some(hold) = hold {
            findings.push(Finding::strength("held for minutes by one person at an end, on level ground", hold));
        }
        findings.push(Finding::load("speed of the water, surges not counted", self.speed()?).measured_as(Kind::Speed));
        Ok(findings)
    }

    /// How much water is left before what lies downstream, if it has a place, for feet that get so far down (m).
    fn water_left(&self, whose: &str, feet: Band, moved_most_by: Option<&'static str>) -> Option<Finding> {
        let left = feet.map(|feet| (self.to_hazard.value - feet).max(0.0));
        let what = format!("of water left between {whose} and {}", self.downstream.name());
        let finding = Finding { moved_most_by, ..Finding::strength(what, left).measured_as(Kind::Length) };
        self.downstream.has_place().then_some(finding)
    }

    pub(super) fn answer_of_a_bend(&self) -> Result<Answer, BadInput> {
        let hold = self.held_by_one()?;
        let (broadside, in_line) = (self.drag(Posture::Broadside)?, self.drag(Posture::InLine)?);
        let [rest, near, far, hung, angle, leads] = self.bends(&broadside, Posture::Broadside)?;
        let [_, near_in_line, far_in_line, ..] = self.bends(&in_line, Posture::InLine)?;
        let slides = self.tool == Tool::Diagonal;
        let mut findings = Vec::new();
        if slides {
            findings.push(rest.load(told::LEFT, Kind::Length));
        }
        findings.push(near.load(told::ON_NEAR, Kind::Force));
        findings.push(far.load(told::ON_FAR, Kind::Force));
        findings.push(near_in_line.load("on the near end, the person in line with the current", Kind::Force));
        findings.push(far_in_line.load("on the far end, the person in line with the current", Kind::Force));
        findings.push(angle.load("between the straight line and the current at that place", Kind::Angle));
        let ends = [&far, &near_in_line, &far_in_line];
        let force = ends.into_iter().fold(near.spread.band, |force, end| larger(force, end.spread.band));
        let may_fail = hold.is_some_and(|hold| force.high() > hold.low());
        let mut outcomes = self.slack_outcomes(&broadside)?;
        let mut stands = Vec::new();
        let mut remarks: Vec<String> = hold.and_then(|hold| told::remark_on_hold(hold, force)).into_iter().collect();
        remarks.push(told::SWEPT_NEARER.to_owned());
        // Nobody is sure to be left where friction leaves them: the lowest place of the line is looked at.
        let lowest = self.feet_at(leads.spread.band);
        findings.extend(self.water_left("the feet at the lowest place of the line", lowest, leads.moved_most_by));
        remarks.extend(self.where_the_line_leads(lowest));
        if slides {
            remarks.push(self.where_one_floats());
            remarks.push(told::LETS_GO.to_owned());
            remarks.push(self.remark_on_angle());
        } else {
            let [about_near, about_far] = self.swings(&broadside)?;
            findings.push(about_near.load(told::ABOUT_NEAR, Kind::Length));
            findings.push(about_far.load(told::ABOUT_FAR, Kind::Length));
            remarks.push(self.where_one_ends(about_far.spread.band, may_fail));
            remarks.push(told::HANDS_LET_GO.to_owned());
            let upright = self.standing()?;
            findings.push(upright.load("drag on one who stands, surges counted", Kind::Force));
            let (limits, [adverse, every]) = self.limits_of_standing()?;
            stands.push(format!(
                "At the adverse end the water is above {adverse} of {} published limits of standing, above {every} at every end; the others are not checked, not kept.",
                limits.findings.len()
            ));
            remarks.extend(self.remarks_on_standing(&limits)?);
            outcomes.insert(0, limits);
        }
        remarks.push(told::NEVER_BELOW.to_owned());
        findings.extend(self.told_of_all(hold)?);
        let (at, drawn) = if slides { (&rest.spread, true) } else { (&near.spread, false) };
        let bent = self.bent(&at.at_high)?;
        let [swept, ..] = self.swept_in(&at.at_high, Posture::Broadside)?;
        let mut working = self.drag_steps(&broadside.at_high)?;
        working.extend(self.bend_steps(&at.at_high, &bent, swept)?);
        let carried = Carried {
            on: HangOn::Line,
            rope: force,
            point: force,
            anchor: force,
            ..Carried::by_rope(hung.spread.band, self.people.count, self.held())
        };
        // One of several may be swept in alone.
        let alone = match self.alone() {
            Some(one) => {
                let [.., hung, _, _] = one.bends(&one.drag(Posture::Broadside)?, Posture::Broadside)?;
                Some(hung.spread.band)
            }
            None => None,
        };
        let carried = carried.or_one_alone(alone);
        let graph = self.graph_of_angle(at, &broadside, slides)?;
        Ok(Answer {
            comparisons: self.compared(vec![self.compare(told::ON_MORE, force, hold)], force),
            findings,
            outcomes,
            remarks,
            stands,
            scene: self.scene_of_bend(&bent, &at.at_high, drawn),
            graphs: vec![graph],
            ..self.common(carried, working)
        })
    }

    pub(super) fn answer_of_a_catch(&self) -> Result<Answer, BadInput> {
        let hold = self.held_by_one()?;
        let (broadside, in_line) = (self.drag(Posture::Broadside)?, self.drag(Posture::InLine)?);
        let [reach, peak, held] = self.catches(&broadside, Posture::Broadside)?;
        let [_, peak_in_line, held_in_line] = self.catches(&in_line, Posture::InLine)?;
        // They let go, or they follow: no water is left then.
        let force = peak.spread.band;
        let may_fail = hold.is_some_and(|hold| force.high() > hold.low());
        let mut findings = Vec::new();
        let lowest = if may_fail {
            Band::of(reach.spread.band.low(), reach.spread.band.typical(), f64::INFINITY)
        } else {
            reach.spread.band
        };
        findings.extend(self.water_left("the feet", lowest, reach.moved_most_by));
        findings.push(reach.load(self.reaches(), Kind::Length));
        findings.push(peak.load(self.on_catch(), Kind::Force));
        findings.push(peak_in_line.load("when the line comes tight, the person in line with the current", Kind::Force));
        findings.push(held.load("to be held afterwards, the person broadside", Kind::Force));
        findings.push(held_in_line.load("to be held afterwards, in line with the current", Kind::Force));
        findings.extend(self.told_of_all(hold)?);
        let mut working = self.drag_steps(&broadside.at_high)?;
        working.extend(self.catch_steps(&peak.spread, &reach.spread)?);
        let alone = match self.alone() {
            Some(one) => Some(one.catches(&one.drag(Posture::Broadside)?, Posture::Broadside)?[1].spread.band),
            None => None,
        };
        let carried = Carried::by_rope(force, self.people.count, self.held()).or_one_alone(alone);
        let mut remarks: Vec<String> = hold.and_then(|hold| told::remark_on_hold(hold, force)).into_iter().collect();
        remarks.extend([self.where_one_ends(reach.spread.band, may_fail), told::NEVER_BELOW.to_owned()]);
        let ends = vec![
            self.compare(self.on_catch(), force, hold),
            self.compare("to be held afterwards, the person broadside", held.spread.band, hold),
        ];
        Ok(Answer {
            comparisons: self.compared(ends, force),
            findings,
            remarks,
            scene: self.scene_of_catch(&peak.spread, &reach.spread)?,
            graphs: vec![self.graph_of_length(&peak.spread)?],
            ..self.common(carried, working)
        })
    }

    /// The rows of the ends, and of the line beside the limit that was chosen, if one was asked.
    fn compared(&self, mut rows: Vec<Comparison>, force: Band) -> Vec<Comparison> {
        if !self.on_people() {
            rows.push(self.against.compare_rope("in the line", force).of_unknown_part(IN_WATER));
        }
        rows
    }

    fn held(&self) -> HeldBy {
        if self.on_people() { HeldBy::People } else { HeldBy::Said(self.against.holds) }
    }

    fn common(&self, carried: Carried, mut working: Vec<Step>) -> Answer {
        if !self.on_people() {
            let limit = self.against.compare("", carried.anchor).limit;
            working.extend(limit.as_ref().map(ChosenLimit::step));
        }
        Answer {
            // Beside people no limit and no factor is asked.
            usual: if self.on_people() { carried.compare(&Against::default()) } else { carried.compare(&self.against) },
            carried: Some(carried),
            working,
            formulas: FORMULAS.to_vec(),
            cautions: self.cautions(),
            not_in: told::NOT_IN.to_vec(),
            ..Answer::default()
        }
    }
}

impl<const N: usize> Found<N> {
    /// The finding of it as a load.
    fn load(&self, what: &str, kind: Kind) -> Finding {
        Finding { moved_most_by: self.moved_most_by, kind, ..Finding::load(what, self.spread.band) }
    }
}
