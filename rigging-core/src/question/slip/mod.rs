//! What if something gives, or I lose my feet?

mod case;
mod choice;
mod drawn;
mod graph;
mod other;
#[cfg(test)]
mod tests;
mod told;
mod worked;

pub use choice::{Catcher, InTheWay, SlipEvent, SlipsAt, TailMade};

use case::Spreads;
use told::{CAUTIONS, NOT_IN};
use worked::FORMULAS;

use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Comparison, Finding};
use super::carried::{Carried, HangOn, HeldBy, USUAL, larger, usual_row};
use super::edge::Edge;
use super::field::{Field, place, table};
use super::figure_of::Through;
use super::input::BadInput;
use super::people::{self, People, asks_people};
use super::{Ask, Solve};
use crate::band::Band;
use crate::law::OutOfDomain;
use crate::quantity::{Angle, Force, Kind, Length, Velocity, degree, kilonewton, metre, metre_per_second};
use crate::strength::rope::CORDS;
use crate::strength::row;
use crate::working::Source;

/// Something gives, or someone loses their feet.
/// ```
/// use rigging_core::question::Question;
///
/// // Without slack a rope that was not loaded yet still pulls twice the weight, whatever its stiffness.
/// let slip: Question = serde_json::from_str(
///     r#"{"question": "slip", "what": "slack rope", "slack_m": 0, "edge": "free",
///         "body_kg": 80, "kit_kg": 0, "suit_water_kg": 0}"#,
/// )?;
/// let peak = slip.answer()?.findings[0].band;
/// assert!((peak.low() - 2.0 * 784.532).abs() < 1e-6 && (peak.high() - 2.0 * 784.532).abs() < 1e-6);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slip {
    /// What happens.
    pub event: SlipEvent,
    /// Rope from the anchor to the person.
    pub rope: Length,
    /// What rope it is.
    pub catcher: Catcher,
    /// Stiffness of the rope if it is the user's own.
    pub own_stiffness: Band<Force>,
    /// Free fall until the rope comes tight.
    pub slack: Length,
    /// How far down someone goes in a second.
    pub speed: Velocity,
    /// What the rope runs over.
    pub edge: Edge,
    /// How far the rope turns there.
    pub edge_turn: Angle,
    /// What the cow's tail, or the leg that is left, is made of.
    pub made: TailMade,
    /// Its length.
    pub sling: Length,
    /// How far the harness is above the anchor; negative below.
    pub above: Length,
    /// How far the point that people hang on drops.
    pub drop: Length,
    /// Force at which the device slips.
    pub slips_at: Band<Force>,
    /// Where that device is.
    pub slipping: SlipsAt,
    /// Level distance from plumb below the anchor where a swing begins.
    pub out: Length,
    /// What is in its way.
    pub obstacle: InTheWay,
    /// Level distance of the wall from plumb below the anchor; negative beyond it.
    pub wall_out: Length,
    /// Rope between the anchor and the lip that it swings over.
    pub lip: Length,
    /// Rope from a deviation, or a second line, to the person; 0 if there is none.
    pub deviation_rope: Length,
    /// Level distance of the person from plumb below that.
    pub deviation_out: Length,
    /// Height of the person above ledge, ground or water; 0 if there is none near.
    pub clear: Length,
    /// How far the anchor gives under one person.
    pub anchor_gives: Length,
    /// Who hangs.
    pub people: People,
    /// What the force at the anchor is compared with.
    pub against: Against,
}

impl Default for Slip {
    fn default() -> Self {
        let metres = Length::new::<metre>;
        Slip {
            event: SlipEvent::Slack,
            rope: metres(8.0),
            catcher: Catcher::Canyon,
            own_stiffness: Band::of(20.0, 30.0, 41.0).map(Force::new::<kilonewton>),
            slack: metres(1.0),
            speed: Velocity::new::<metre_per_second>(2.0),
            edge: Edge::PolishedRock,
            edge_turn: Angle::new::<degree>(70.0),
            made: TailMade::Hmpe,
            sling: metres(0.6),
            above: metres(0.0),
            drop: metres(0.3),
            slips_at: Band::of(2.0, 3.0, 4.5).map(Force::new::<kilonewton>),
            slipping: SlipsAt::Person,
            out: metres(3.0),
            obstacle: InTheWay::Wall,
            wall_out: metres(0.0),
            lip: metres(1.0),
            deviation_rope: metres(0.0),
            deviation_out: metres(0.0),
            clear: metres(3.0),
            anchor_gives: metres(0.0),
            people: People::default(),
            against: Against::default(),
        }
    }
}

asks_people!(Slip);
asks_limit!(Slip);

impl Slip {
    fn swings(&self) -> bool {
        self.event == SlipEvent::Swing
    }
    fn is_roped(&self) -> bool {
        self.event != SlipEvent::Tail
    }
    fn has_slack(&self) -> bool {
        matches!(self.event, SlipEvent::Slack | SlipEvent::Slips)
    }
    fn has_sling(&self) -> bool {
        matches!(self.event, SlipEvent::Tail | SlipEvent::Fails)
    }

    /// Whether the rope is drawn along a lip under load.
    fn saws(&self) -> bool {
        self.swings() && self.lip.value > 0.0
    }

    /// Whether a deviation or a second line holds the person aside.
    fn deviates(&self) -> bool {
        self.swings() && self.deviation_rope.value > 0.0
    }

    /// Whether what is below is reached before the rope has stopped a fall so deep (m).
    pub(super) fn strikes(&self, fallen: Band) -> bool {
        self.clear.value > 0.0 && fallen.high() >= self.clear.value
    }

    /// Whether a later swing may pull harder than the first.
    fn is_steep(&self) -> Result<bool, OutOfDomain> {
        Ok(self.swings() && self.begins()?.value > case::STEEP)
    }

    /// What the force runs through.
    fn through(&self) -> Through {
        match (self.event, self.made, self.catcher) {
            (SlipEvent::Tail, TailMade::Hmpe | TailMade::Nylon, _) => Through::Sling,
            (SlipEvent::Tail, TailMade::Rope | TailMade::Cord, _) => Through::Tied,
            (_, _, Catcher::Dynamic | Catcher::UsedDynamic) => Through::DynamicRope,
            _ => Through::Rope,
        }
    }

    /// On the anchor, and on those who fall.
    fn pulls(&self, spreads: &Spreads) -> Result<[Band; 2], OutOfDomain> {
        let peak = spreads.peak.band;
        // While a deviation holds, the anchor gets the pull of the swing from there.
        let anchor = if self.deviates() { larger(peak, self.held_aside().spread()?.peak.band) } else { peak };
        Ok([anchor, larger(anchor, spreads.before.band)])
    }

    /// A case beside the one asked about that may pull harder, and is as near: an anchor that fails in the middle of a
    /// slip or a jerk; a rope that does not carry who goes down on it when it locks. On the anchor, and on those who fall:
    /// it comes through rope and harness too.
    fn worse(&self) -> Result<Option<(&'static str, [Band; 2])>, OutOfDomain> {
        Ok(match self.event {
            SlipEvent::Fails => Some((other::MOVING, [self.fails_moving()?; 2])),
            SlipEvent::Stopped => Some((other::LOOSE, self.locks_loose(0.0)?.map(|spread| spread.band))),
            SlipEvent::Slack | SlipEvent::Tail | SlipEvent::Slips | SlipEvent::Swing => None,
        })
    }

    /// On the anchor and on those who fall, that case counted.
    fn or_worse([point, caught]: [Band; 2], worse: Option<(&'static str, [Band; 2])>) -> [Band; 2] {
        worse.map_or([point, caught], |(_, [there, on_them])| [larger(point, there), larger(caught, on_them)])
    }

    /// What is compared with the limit, and what stands in the way of calling it below.
    fn comparisons(
        &self,
        on: String,
        [anchor, rope, fallen]: [Band; 3],
        deviation: Option<Finding>,
        worse: [Option<(&str, Band)>; 2],
    ) -> Result<Vec<Comparison>, OutOfDomain> {
        let doubt = if self.strikes(fallen) {
            Some("what is below is struck first: an impact, not computed")
        } else if self.deviates() {
            Some("should the deviation or second line fail, slack comes first: not computed")
        } else if self.is_steep()? {
            Some("from more than 30° out later swings may pull harder: not computed")
        } else {
            None
        };
        let what = if self.event == SlipEvent::Tail { "in a cow's tail" } else { "in the rope where it carries most" };
        let saws = self.saws().then_some("the rope saws along the lip, which no figure counts");
        let mut compared = vec![self.against.compare_rope(what, rope).unless(saws)];
        // Rope, cord or a sling runs to one person; a link or a connector may be where all of them pull.
        let most = worse.iter().flatten().fold(anchor.high(), |most, (_, pull)| most.max(pull.high()));
        let in_rope = self.against.is_of_rope() && rope.high() >= most;
        if !in_rope && !self.against.is_soft() {
            compared.insert(0, self.against.compare_any_way(on, anchor));
            let worse = worse.into_iter().flatten();
            compared.extend(worse.map(|(what, pull)| self.against.compare_any_way(what.to_owned(), pull)));
        }
        if let Some(on) = deviation.filter(|_| !self.against.is_of_low_stretch_rope()) {
            let harder = compared.first().is_some_and(|first| on.band.high() > first.load.high());
            let place = if harder { 0 } else { compared.len() };
            compared.insert(place, self.against.compare_any_way(on.what, on.band));
        }
        let doubt = doubt.or(self.against.not_of(self.through()));
        Ok(compared.into_iter().map(|row| row.unless(doubt)).collect())
    }

    fn refuse(&self) -> Result<(), OutOfDomain> {
        let refused = |what, value: Length, must| Err(OutOfDomain { what, value: value.value, must });
        if self.has_slack() && self.slack > self.rope * 2.0 {
            let must = "not more than twice the rope: nobody can fall farther";
            return refused("free fall until the rope comes tight", self.slack, must);
        }
        if self.event == SlipEvent::Tail && self.above.abs() > self.sling {
            return refused("harness above or below the anchor", self.above, "not more than the tail is long");
        }
        if self.swings() {
            if self.obstacle == InTheWay::Wall && self.wall_out.abs() > self.out {
                let must = "on the way of the swing: it goes as far beyond plumb as it began before it";
                return refused("place of the wall", self.wall_out, must);
            }
            if self.lip > self.rope {
                return refused("rope from the anchor to the lip", self.lip, "not more than the rope");
            }
            if self.deviation_out > self.deviation_rope {
                let must = "not more than the rope from the deviation";
                return refused("way out from below the deviation", self.deviation_out, must);
            }
        }
        Ok(())
    }
}

impl Ask for Slip {
    const NAME: &'static str = "slip";
    const WORDS: &'static str = "What if something gives, or I lose my feet?";
    const ABOUT: &'static str =
        "Peak force and depth of a fall, of a failed anchor, of a device that slips, and what a swing does";
    const EXAMPLE: &'static str =
        "Someone slips with a metre of slack in 8 m of canyon rope over a polished lip, a ledge 3 m below.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::choice('a', "what", SlipEvent::CHOICES, place!(event))
                .says("What happens", "what is asked below follows from it"),
            Field::one('b', "rope_m", Kind::Length, 0.3..=200.0, place!(rope))
                .says("Rope from the anchor to the person", "along the rope; short rope catches harder")
                .asked_if(Slip::is_roped),
            Field::choice('c', "rope", Catcher::CHOICES, place!(catcher))
                .says("Which rope", "its stiffness in a fall, a range")
                .from(Source::derived("the limits of EN 1891 and EN 892; used and wet assumed"))
                .asked_if(Slip::is_roped),
            Field::range('d', "stiffness_n", Kind::Force, 1000.0..=1_000_000.0, place!(own_stiffness))
                .says("Stiffness of the rope (EA)", "tension that would double its length")
                .asked_if(|slip: &Slip| slip.is_roped() && slip.catcher == Catcher::Own),
            Field::one('z', "slack_m", Kind::Length, 0.0..=30.0, place!(slack))
                .says("Free fall until the rope comes tight", "the slack; climbed above the anchor, twice as much")
                .asked_if(Slip::has_slack),
            Field::one('p', "speed_m_per_s", Kind::Speed, 0.1..=15.0, place!(speed))
                .says("Speed: way down in one second", "a calm abseil goes 0.3 to 1 m, a fast one 2 m and more")
                .asked_if(|slip: &Slip| slip.event == SlipEvent::Stopped),
            Field::choice('e', "edge", Edge::CHOICES, place!(edge))
                .says("Edge between anchor and person", "friction there takes load off the anchor; counted only second")
                .asked_if(|slip: &Slip| slip.event.has_edge()),
            Field::one('u', "edge_turn_rad", Kind::Angle, 0.0..=std::f64::consts::PI, place!(edge_turn))
                .says("Turning angle at the edge", "how far the rope changes direction there; 0 is straight on")
                .asked_if(|slip: &Slip| slip.event.has_edge() && slip.edge != Edge::Free),
            Field::choice('s', "sling", TailMade::CHOICES, place!(made))
                .says("Cow's tail, or leg that is left", "what it is made of")
                .from(Source::derived("HMPE from one published drop test; nylon and cord assumed"))
                .asked_if(Slip::has_sling),
            Field::one('f', "sling_m", Kind::Length, 0.1..=10.0, place!(sling))
                .says("Its length", "from the anchor to the harness, or to the point that people hang on")
                .asked_if(Slip::has_sling),
            Field::one('h', "above_m", Kind::Length, -10.0..=10.0, place!(above))
                .says("Harness above the anchor by", "negative below; level with it the fall is as long as the tail")
                .asked_if(|slip: &Slip| slip.event == SlipEvent::Tail),
            Field::one('i', "drop_m", Kind::Length, 0.0..=20.0, place!(drop))
                .says("Drop of the point that people hang on", "until the next anchor or leg is tight, straight down")
                .asked_if(|slip: &Slip| slip.event == SlipEvent::Fails),
            Field::range('t', "slips_at_n", Kind::Force, 100.0..=50_000.0, place!(slips_at))
                .says("Force at which the device slips", "as its maker states; a hand on a descender holds far less")
                .from(Source::assumed("rope grabs and braking devices slip at some 2 to 4.5 kN"))
                .asked_if(|slip: &Slip| slip.event == SlipEvent::Slips),
            Field::choice('g', "device_at", SlipsAt::CHOICES, place!(slipping))
                .says("Where the device is", "at the anchor the edge's friction adds to what the person gets")
                .asked_if(|slip: &Slip| slip.event == SlipEvent::Slips),
            Field::one('r', "out_m", Kind::Length, 0.0..=200.0, place!(out))
                .says("Out: person from plumb below the anchor", "level distance where the swing begins")
                .asked_if(Slip::swings),
            Field::choice('x', "obstacle", InTheWay::CHOICES, place!(obstacle))
                .says("In the way of the swing", "what the person would meet")
                .asked_if(Slip::swings),
            Field::one('j', "wall_out_m", Kind::Length, -200.0..=200.0, place!(wall_out))
                .says("Wall: from plumb below the anchor", "level; toward the person above 0, beyond plumb below 0")
                .asked_if(|slip: &Slip| slip.swings() && slip.obstacle == InTheWay::Wall),
            Field::one('v', "lip_m", Kind::Length, 0.0..=200.0, place!(lip))
                .says("Down: anchor to the lip", "where the rope would saw; 0 if it hangs free")
                .asked_if(Slip::swings),
            Field::one('A', "deviation_rope_m", Kind::Length, 0.0..=200.0, place!(deviation_rope))
                .says("Rope from a deviation or second line", "to the person; 0 if there is none")
                .asked_if(Slip::swings),
            Field::one('B', "deviation_out_m", Kind::Length, 0.0..=200.0, place!(deviation_out))
                .says("Out: person from plumb below that", "level distance where that swing begins")
                .asked_if(|slip: &Slip| slip.swings() && slip.deviation_rope.value > 0.0),
            Field::one('C', "clear_m", Kind::Length, 0.0..=200.0, place!(clear))
                .says("Down: person to ledge, ground or water", "from where it begins; 0 if there is none near"),
            Field::one('D', "anchor_gives_m", Kind::Length, 0.0..=1.0, place!(anchor_gives))
                .says("Anchor gives under one person", "95 kg hanging still; 0 for a bolt, some for a young tree")
                .asked_if(|slip: &Slip| !slip.swings()),
        ];
        fields.extend(people::fields());
        fields.extend(against::fields());
        fields
    }
}

impl Solve for Slip {
    const KEY: &'static str = "sl";

    fn solve(&self) -> Result<Answer, BadInput> {
        self.refuse()?;
        let spreads = self.spread()?;
        let each = f64::from(self.people.count);
        let held = HeldBy::Said(self.against.holds);
        let [anchor, hung] = self.pulls(&spreads)?;
        let one = self.people.alone().map(|people| Slip { people, ..*self });
        let alone = one.map(|one| one.pulls(&one.spread()?)).transpose()?;
        let worse_alone = one.map(|one| one.worse()).transpose()?.flatten();
        let alone_or_worse = alone.map(|alone| Self::or_worse(alone, worse_alone));
        // On a rope each the anchor gets what each gets alone; a tail is each one's own already.
        let apart = alone_or_worse.filter(|_| self.is_roped() && !self.swings());
        let apart = apart.map(|[alone, _]| alone.map(|force| force * each));
        let or_apart = |pull| apart.map_or(pull, |apart| larger(pull, apart));
        let worse = self.worse()?;
        let [point, caught] = Self::or_worse([anchor, hung], worse);
        let worse = [worse.map(|(what, [pull, _])| (what, pull)), apart.map(|pull| (other::APART, pull))];
        let tail = self.event == SlipEvent::Tail;
        let on = if tail { HangOn::Tail } else { HangOn::Rope };
        let deviation = if self.deviates() { Some(self.on_deviation()?) } else { None };
        let hardest = deviation.as_ref().map_or(anchor, |on| larger(anchor, on.band));
        let carried = Carried {
            on,
            point: or_apart(point),
            anchor: or_apart(larger(hardest, point)),
            ..Carried::by_rope(caught, self.people.count, held)
        };
        let carried = carried.or_one_alone(alone_or_worse.map(|[_, caught]| caught));
        // Each has a tail of their own.
        let rope = if tail { carried.one } else { caught };
        let carried = Carried { rope, ..carried };
        let mut usual = carried.compare(&self.against);
        if tail && self.through() == Through::Tied {
            // What is tied is no sewn sling.
            usual.retain(|row| !row.what.ends_with("sewn sling"));
        }
        if self.has_sling() && self.made == TailMade::Cord {
            let (cord, factor) = (const { row(CORDS, "cord 7 mm") }, self.against.factor_in_use());
            let what = if tail { "in the cow's tail" } else { "in the leg that is left" };
            usual.push(usual_row(what, rope, cord, factor, USUAL));
        }
        let findings = self.findings(&spreads, each, alone.map(|[_, hung]| hung), apart)?;
        let mut on = findings.first().map(|finding| finding.what.clone()).unwrap_or_default();
        if self.deviates() {
            on += ", or while the deviation holds";
        }
        let comparisons = self.comparisons(on, [anchor, rope, spreads.fallen.band], deviation, worse)?;
        let mut working = self.working(&spreads)?;
        let limit = comparisons.first().and_then(|compared| compared.limit.as_ref());
        working.extend(limit.map(|limit| limit.step()));
        let [smooth, jerks, _] = people::FORMULAS;
        Ok(Answer {
            findings,
            states: self.states(hung)?,
            outcomes: self.outcomes()?,
            comparisons,
            usual,
            carried: Some(carried),
            remarks: self.remarks(&spreads)?,
            scene: self.scene(&spreads.peak.at_high)?,
            graphs: vec![self.graph(&spreads.peak)?],
            working,
            formulas: [FORMULAS.as_slice(), &[smooth, jerks]].concat(),
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}
