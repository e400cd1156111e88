//! The same slip done otherwise, side by side.

use super::super::answer::{Finding, Outcome};
use super::super::people::State;
use super::case::{INPUTS, Inputs};
use super::told::length;
use super::{InTheWay, Slip, SlipEvent, TailMade};
use crate::band::{Band, Spread};
use crate::law::{OutOfDomain, fall};
use crate::quantity::{Angle, Force, Length, Ratio, Velocity, metre, newton, ratio};

/// Slack and rope of the slip that every answer is set beside, m.
const SLACK: f64 = 0.5;
const ROPE: f64 = 3.0;

/// What one that fails in such a slip, or in a jerk, leaves to the others.
pub(super) const MOVING: &str = "on the anchor that is left, one failing in the middle of a slip or a jerk";

/// What a rope pulls that is loose when it locks.
pub(super) const LOOSE: &str = "on the anchor, the rope loose but straight";

/// What several pull who do not hang on one rope.
pub(super) const APART: &str = "on the anchor, each on a rope of their own";

/// To how many places on either side of its bottom a swing is looked at.
const PLACES: i32 = 200;

fn metres(length: f64) -> Length {
    Length::new::<metre>(length)
}

impl Slip {
    pub(super) fn outcomes(&self) -> Result<Vec<Outcome>, OutOfDomain> {
        let mut outcomes = Vec::new();
        let mut beside = |case: &str, other: &Slip| -> Result<(), OutOfDomain> {
            outcomes.push(Outcome { case: case.to_owned(), findings: other.short()? });
            Ok(())
        };
        match self.event {
            SlipEvent::Tail => {
                for (case, above) in [
                    ("The same tail, hanging straight below the anchor and let go", -self.sling),
                    ("The same tail, harness level with the anchor", metres(0.0)),
                    ("The same tail, as far above the anchor as it reaches", self.sling),
                ] {
                    beside(case, &Slip { above, ..*self })?;
                }
                for made in TailMade::ALL.into_iter().filter(|made| *made != self.made) {
                    let other = Slip { made, ..*self };
                    beside(&format!("The same fall on {}", made.words()), &other)?;
                }
            }
            SlipEvent::Swing => {
                // Whatever is in the way stays where it is.
                let twice = Slip { rope: self.rope * 2.0, ..*self };
                if self.out * 2.0 <= self.rope && self.lip * 2.0 <= self.rope {
                    beside("From as far out on half the rope", &Slip { rope: self.rope / 2.0, ..*self })?;
                }
                beside("From as far out on twice the rope", &twice)?;
            }
            SlipEvent::Slack | SlipEvent::Slips | SlipEvent::Fails | SlipEvent::Stopped => {
                // On less than half as much rope as it falls nobody falls.
                if self.free_fall() <= self.rope || !matches!(self.event, SlipEvent::Slack | SlipEvent::Slips) {
                    beside("The same on half the rope", &Slip { rope: self.rope / 2.0, ..*self })?;
                }
                beside("The same on twice the rope", &Slip { rope: self.rope * 2.0, ..*self })?;
                let lip = Slip { event: SlipEvent::Slack, slack: metres(SLACK), rope: metres(ROPE), ..*self };
                beside("A slip with 0.5 m of slack on 3 m of this rope", &lip)?;
            }
        }
        match self.event {
            SlipEvent::Stopped => outcomes.push(self.loose()?),
            SlipEvent::Fails => {
                let finding = Finding::load(MOVING, self.fails_moving()?);
                let case = "If it fails in the middle of a slip, half a metre of slack on this rope, or of a jerk";
                outcomes.push(Outcome { case: case.to_owned(), findings: vec![finding] });
            }
            SlipEvent::Swing if self.deviates() => outcomes.push(self.deviated()?),
            _ => {}
        }
        Ok(outcomes)
    }

    /// What matters of another case.
    fn short(&self) -> Result<Vec<Finding>, OutOfDomain> {
        let spreads = self.spread()?;
        let load = |what: &str, spread: &Spread<7>| Finding::load(what, spread.band).moved_by(spread, &INPUTS);
        let mut findings = vec![load(
            if self.crosses_edge() { "on the anchor, edge not counted" } else { "on the anchor" },
            &spreads.peak,
        )];
        if self.event == SlipEvent::Swing {
            findings.push(load("on the anchor to the side, at most", &spreads.sideways));
            if self.obstacle == InTheWay::Wall {
                let fall = self.equal_fall(self.wall_out.value, self.ends()?, spreads.stretch.band.high())?;
                findings.push(length("of free fall would give the speed at the wall", fall));
            }
        }
        findings.push(length("fallen in all, stretch included", spreads.fallen.band));
        Ok(findings)
    }

    /// What the anchors that are left get if one fails in the middle of a slip, when slack and drop are one fall, or of a
    /// jerk.
    pub(super) fn fails_moving(&self) -> Result<Band, OutOfDomain> {
        let [slip, jerk] = crate::band::sweep(self.inputs(), |point| {
            let case = self.case(point)?;
            let (weight, gives) = (Force::new::<newton>(case.weight), metres(case.gives));
            // Nobody slips farther than the rope is long.
            let fall = self.drop + metres(SLACK).min(self.rope);
            let slip = fall::caught(weight, gives, fall, Velocity::default())?;
            let times = Ratio::new::<ratio>(State::Jerky.uncertain().0.high());
            Ok::<_, OutOfDomain>([slip.value, fall::in_a_jerk(weight, times, gives, self.drop)?.value])
        })?;
        let band = slip.band;
        Ok(Band::of(band.low(), band.typical(), band.high().max(jerk.band.high())))
    }

    /// Going down as fast, and the rope, so much too long (m), does not carry who does: on the anchor, an edge not counted,
    /// and before it.
    pub(super) fn locks_loose(&self, slack: f64) -> Result<[Spread<7>; 2], OutOfDomain> {
        crate::band::sweep(self.inputs(), |point| {
            let case = self.case(point)?;
            // As much stiffer as the edge bears.
            let pull = |edge: f64| {
                fall::caught(Force::new::<newton>(case.weight), metres(case.gives / edge), metres(slack), self.speed)
            };
            Ok::<_, OutOfDomain>([pull(1.0)?.value, pull(case.before / case.behind)?.value])
        })
    }

    /// Going down as fast, but on a rope that is loose when it locks.
    fn loose(&self) -> Result<Outcome, OutOfDomain> {
        let ([anchor, before], [slack, _]) = (self.locks_loose(0.0)?, self.locks_loose(SLACK)?);
        let told = |what: &str, spread: &Spread<7>| Finding::load(what, spread.band).moved_by(spread, &INPUTS);
        let mut findings = vec![told(LOOSE, &anchor), told("on the anchor, with 0.5 m of slack as well", &slack)];
        if self.crosses_edge() {
            findings.push(told("before the edge, the rope loose but straight", &before));
        }
        Ok(Outcome { case: "At that speed, but not hanging on the rope when it locks".to_owned(), findings })
    }

    /// The swing from a deviation or a second line.
    pub(super) fn held_aside(&self) -> Slip {
        Slip {
            rope: self.deviation_rope.max(metres(0.01)),
            out: self.deviation_out,
            obstacle: InTheWay::None,
            lip: metres(0.0),
            ..*self
        }
    }

    /// What the deviation gets on that swing.
    pub(super) fn on_deviation(&self) -> Result<Finding, OutOfDomain> {
        let other = self.held_aside();
        let peak = other.spread()?.peak;
        let begins = other.begins()?.value;
        let down = |slip: &Slip| -> Result<f64, OutOfDomain> { Ok(slip.rope.value * slip.begins()?.value.cos()) };
        // Where the deviation is, seen from the anchor: the rope entered straight to the person, or over the deviation.
        let aside = (self.out - self.deviation_out).value;
        let straight = aside.atan2(down(self)? - down(&other)?);
        let reach = (self.rope - other.rope).value;
        let over = if reach > 0.0 && aside.abs() <= reach { (aside / reach).asin() } else { straight };
        let leads = [straight, over];
        let pull = |[body, kit, _, _, _, _, share]: Inputs| {
            let weight = self.people.weight_of_all(body, kit);
            // The bound of the elastic swing, place by place; the softest rope bounces most.
            let bounce = share * 1.5 * weight / self.stiffness().0.low();
            let mut most = 0.0_f64;
            for step in -PLACES..=PLACES {
                let at = begins * f64::from(step) / f64::from(PLACES);
                let pulls = (3.0 * at.cos() - (2.0 - share) * begins.cos()) * (1.0 + bounce);
                for lead in leads {
                    most = most.max(2.0 * weight * pulls * ((at - lead) / 2.0).sin().abs());
                }
            }
            most
        };
        let low = pull(peak.at_low);
        let on = Band::of(low, pull(self.inputs().map(|input| input.typical())), pull(peak.at_high));
        Ok(Finding::load("on the deviation, at most on the way, friction there not counted", on))
    }

    /// The swing from the deviation, and what it gets.
    fn deviated(&self) -> Result<Outcome, OutOfDomain> {
        let other = self.held_aside();
        let spreads = other.spread()?;
        let aside = (self.out - self.deviation_out).value.abs();
        let fall = other.equal_fall(0.0, Angle::default(), spreads.stretch.band.high())?;
        let findings = vec![
            Finding::load(
                "in the rope at the bottom of that swing; so much on a second line's anchor",
                spreads.peak.band,
            ),
            self.on_deviation()?,
            length("of free fall would give the speed at the bottom", fall),
            length("from plumb below the anchor, where the person comes to hang", Band::exact(aside)),
        ];
        let case = "From the deviation or second line; should it fail, the person first falls through the slack it frees: \
                    not computed";
        Ok(Outcome { case: case.to_owned(), findings })
    }
}
