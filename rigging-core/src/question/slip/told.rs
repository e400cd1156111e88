//! What is found and said of a slip.

use super::super::answer::{Caution, Finding, Gravity};
use super::super::edge::Edge;
use super::super::people::State;
use super::case::{INPUTS, Spreads};
use super::other::APART;
use super::{InTheWay, Slip, SlipEvent, SlipsAt, TailMade};
use crate::band::{Band, Spread};
use crate::law::{OutOfDomain, fall, swing};
use crate::quantity::{Angle, Kind};

/// A length whose high end hurts.
pub(super) fn length(what: &str, band: Band) -> Finding {
    Finding::load(what, band).measured_as(Kind::Length)
}

impl Slip {
    pub(super) fn crosses_edge(&self) -> bool {
        self.event.has_edge() && self.edge != Edge::Free
    }

    pub(super) fn findings(
        &self,
        spreads: &Spreads,
        each: f64,
        alone: Option<Band>,
        apart: Option<Band>,
    ) -> Result<Vec<Finding>, OutOfDomain> {
        let moved = |finding: Finding, spread: &Spread<7>| finding.moved_by(spread, &INPUTS);
        let load = |what: &str, spread: &Spread<7>| moved(Finding::load(what, spread.band), spread);
        let edge = self.crosses_edge();
        let on = match self.event {
            SlipEvent::Swing => "on the anchor at the bottom of the first swing",
            SlipEvent::Tail if each > 1.0 => "on the anchor, all falling at once",
            _ if edge && each > 1.0 => "on the anchor, all on one rope, edge not counted",
            _ if edge => "on the anchor, edge not counted",
            _ if each > 1.0 => "on the anchor, all on one rope",
            _ => "on the anchor and on those who fall",
        };
        let mut findings = vec![load(on, &spreads.peak)];
        if edge {
            findings.push(load("on the anchor, friction of the edge counted", &spreads.behind));
            let before = match (self.event, self.slipping) {
                (SlipEvent::Slips, SlipsAt::Anchor) => {
                    "on those who fall, before the edge whose friction helps the device hold"
                }
                _ => "on those who fall, before the edge whose friction makes the rope stiffer",
            };
            findings.push(load(before, &spreads.before));
        }
        if each > 1.0 {
            let most = if edge { &spreads.before } else { &spreads.peak };
            findings.push(Finding::load("on the harness of each, shared alike", most.band.map(|force| force / each)));
            // The rope, the tail or the anchor gives less under one.
            findings.extend(alone.map(|alone| Finding::load("on the harness of one who falls alone", alone)));
            findings.extend(apart.map(|apart| Finding::load(APART, apart)));
        }
        let stretch = moved(length("stretch of rope and anchor at the peak", spreads.stretch.band), &spreads.stretch);
        let fallen = |what: &str| moved(length(what, spreads.fallen.band), &spreads.fallen);
        if self.event == SlipEvent::Swing {
            findings.extend(self.swing_findings(spreads)?);
            findings.push(fallen("down from where it begins to the lowest point, stretch included"));
            findings.push(stretch);
        } else {
            findings.push(fallen("fallen in all, stretch included"));
            findings.push(stretch);
            if self.event == SlipEvent::Slips {
                findings.push(moved(length("of rope run through the device", spreads.travel.band), &spreads.travel));
            }
            if self.event != SlipEvent::Stopped && self.event != SlipEvent::Fails {
                let factor = fall::fall_factor(self.free_fall(), self.length())?.value;
                let what = "fall factor: free fall ÷ what catches";
                findings.push(Finding::load(what, Band::exact(factor)).measured_as(Kind::Ratio));
            }
        }
        if self.clear.value > 0.0 {
            let left = spreads.fallen.band.map(|fallen| self.clear.value - fallen);
            let what = "left above ledge, ground or water at the lowest point; below 0 it is struck";
            let left = Finding::strength(what, left).measured_as(Kind::Length);
            findings.push(moved(left, &spreads.fallen));
        }
        Ok(findings)
    }

    fn swing_findings(&self, spreads: &Spreads) -> Result<Vec<Finding>, OutOfDomain> {
        let (begins, ends) = (self.begins()?, self.ends()?);
        let mut findings = vec![
            Finding::load("on the anchor to the side, at most on the way", spreads.sideways.band)
                .moved_by(&spreads.sideways, &INPUTS),
        ];
        if self.obstacle == InTheWay::Wall {
            let fall = self.equal_fall(self.wall_out.value, ends, spreads.stretch.band.high())?;
            findings.push(length("of free fall would give the speed at which the wall is met", fall));
        }
        let stretch = spreads.stretch.band.high();
        let fall = self.equal_fall(0.0, Angle::default(), stretch)?;
        findings.push(length("of free fall would give the speed at the bottom, if it swings so far", fall));
        let (across, what) = match self.obstacle {
            InTheWay::Wall => {
                (Band::exact((self.out - self.wall_out).value), "across to the wall from where it begins")
            }
            InTheWay::None => {
                let both = 2.0 * self.out.value;
                (Band::of(both, both, both + stretch), "across to where it turns, if nothing is in the way")
            }
        };
        findings.push(length(what, across));
        if self.lip.value > 0.0 {
            let drawn = swing::drawn_along_lip(self.lip, self.rope, begins, ends)?.value;
            findings.push(length("of lip that the rope saws along, one way", Band::exact(drawn)));
        }
        let at = Band::exact(begins.value);
        findings.push(Finding::load("rope from plumb where it begins", at).measured_as(Kind::Angle));
        Ok(findings)
    }

    /// Free fall with the speed of the swing this far from plumb (m), where the rope has an angle, up to a rope that is
    /// stretched the most: it lets the person come lower, and faster.
    pub(super) fn equal_fall(&self, aside: f64, at: Angle, stretch: f64) -> Result<Band, OutOfDomain> {
        let begins = self.begins()?;
        let fall = swing::equal_fall(self.rope, begins, at)?.value;
        let (rope, aside) = (self.rope.value, aside.abs());
        let reach = (rope + stretch - aside).max(0.0).sqrt() * (rope + stretch + aside).sqrt();
        Ok(Band::of(fall, fall, (reach - rope * begins.value.cos()).max(fall)))
    }

    /// The usual states beside this one.
    pub(super) fn states(&self, peak: Band) -> Result<Vec<Finding>, OutOfDomain> {
        let mut states = Vec::new();
        for state in [State::Still, State::Descending, State::Jerky] {
            states.push(Finding::load(state.of("in the rope"), self.people.spread(state)?.band));
        }
        states.push(Finding::load("this case", peak));
        Ok(states)
    }

    pub(super) fn remarks(&self, spreads: &Spreads) -> Result<Vec<String>, OutOfDomain> {
        let mut remarks = Vec::new();
        let mut say = |remark: &str| remarks.push(remark.to_owned());
        let clear = self.clear.value;
        if clear > 0.0 && self.free_fall().value >= clear {
            say(
                "What is below is struck in free fall, before the rope holds anything: the forces here are then never reached.",
            );
        } else if self.strikes(spreads.fallen.band) {
            say("At the adverse end what is below is struck before the rope has stopped the fall.");
        }
        let level = self.event == SlipEvent::Tail && self.free_fall() > self.sling / 4.0;
        if level && matches!(self.made, TailMade::Hmpe | TailMade::Nylon) {
            say(
                "A sewn sling hardly gives: a fall on it from near the anchor or above can pull 15 kN and more. Stay below the anchor, the tail nearly tight.",
            );
        } else if level {
            say("Stay below the anchor, the tail nearly tight: the fall is then a step and not a drop.");
        }
        match self.event {
            SlipEvent::Slack => {
                say(
                    "What counts is slack ÷ rope: half a metre close to the anchor can pull harder than two far below it.",
                );
            }
            SlipEvent::Fails => say(
                "How far the point drops depends on the rig: the question about the anchor legs works it out leg by leg, with its swing to the side.",
            ),
            SlipEvent::Slips => {
                say(
                    "A device that slips at the stated force when new may slip earlier or later wet, muddy or on another rope.",
                );
                say(
                    "What runs through must be there: where the rope or what is left of it ends sooner, and no knot stops it, the person falls off its end.",
                );
            }
            SlipEvent::Swing => {
                if self.saws() {
                    say(
                        "The rope saws along the lip under load: a sharp one can cut it, and no number here counts that.",
                    );
                }
                if self.obstacle == InTheWay::Wall {
                    say(
                        "The wall is met with the speed of that fall, sideways and often with the hip or the head: the rope does nothing against it.",
                    );
                }
            }
            SlipEvent::Tail | SlipEvent::Stopped => {}
        }
        if self.is_steep()? {
            say(
                "From more than 30° out the bounce of the rope may grow, it may go slack at the turn and catch again: later swings may then pull harder than the first, not computed.",
            );
        }
        Ok(remarks)
    }
}

pub(super) const CAUTIONS: [Caution; 6] = [
    Caution::new(
        Gravity::Danger,
        "Slack at the lip, or standing above the anchor",
        "A fall of a metre on little rope pulls many times the weight, and slings do not soften it.",
        "Stay below the anchor with the tail tight; weight the rope before you leave the station.",
    ),
    Caution::new(
        Gravity::Danger,
        "A loaded rope drawn over a sharp lip",
        "It can be cut through in one swing, at a force far below its strength.",
        "Pad or move the edge, deviate the rope, or come down where you want to end.",
    ),
    Caution::new(
        Gravity::Warning,
        "A swing into a wall or a corner",
        "It is a fall from the same height, met sideways.",
        "Deviate the rope, hold the person with a second line, or go where the rope hangs plumb.",
    ),
    Caution::new(
        Gravity::Warning,
        "A ledge, shallow water or ground within reach of the stretch",
        "Slack, stretch and slip add up: the rope may catch only below it.",
        "Keep the rope tight there, and count the whole way down.",
    ),
    Caution::new(
        Gravity::Caution,
        "A rope, sling or device that caught a fall",
        "It may be weaker than it looks, and the next fall pulls harder.",
        "Retire it, or have it inspected.",
    ),
    Caution::OF_EVERY_NUMBER,
];

pub(super) const NOT_IN: [&str; 10] = [
    "give of the body, the harness and the knots, and the losses in the rope: they soften a catch",
    "a rope cut, jammed or worn at an edge",
    "that a rope is stiffer the harder it catches: at a fall factor of 1 low-stretch rope was measured above the middle of the range; harder it may pull up to 30 % more than the range says, as tests found; gently a dynamic rope may stretch more",
    "a hand that has to hold the rope meanwhile: the question about the abseil compares it",
    "how strong anchor, rope, knots and slings are: the question for the weakest part asks it",
    "what a person stands in a stop, a swing or an impact; hanging on without moving afterwards",
    "a swing to the side when an anchor fails, and what its neighbours then get",
    "a swing with slack in the rope, or a rope that catches on the lip and swings from there",
    "current and falling water that pull at a person on the rope",
    "several who fall one after the other, and a heavier one who gets more than an equal share",
];
