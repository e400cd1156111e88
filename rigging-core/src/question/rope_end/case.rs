//! One rope at one set of values, and the sweep over all of them.

use super::super::people::People;
use super::{Bottom, Hung, RopeEnd, Water};
use crate::band::{Band, Spread, sweep_corners};
use crate::law::{OutOfDomain, gravity, rope};
use crate::quantity::{Force, Length, Ratio, metre, newton, ratio};

/// Height of the drop (m), body and kit of one person (kg), stiffness of a strand (N), share by which the rope shrinks,
/// and water in it as a share of its dry mass.
pub(super) type Inputs = [f64; 6];

/// What is found for one rope.
pub(super) struct Case {
    /// Load on one strand, N.
    pub(super) load: f64,
    /// Length of the strand as it hangs, without load, m.
    pub(super) hung: f64,
    /// Length of what is stretched of it, set-back included, m: no more than the way down.
    pub(super) taut: f64,
    /// Weight of what hangs of the strand below the lip, N.
    pub(super) weight: f64,
    /// Stretch of the strand by its own weight, and with the load too, m.
    pub(super) stretch: [f64; 2],
    /// Height of the end above the bottom, unloaded and loaded, m.
    pub(super) end: [f64; 2],
    /// Declared length of strand for which the loaded end is where it is wanted, m.
    pub(super) needed: f64,
    /// Stretch of the whole way down under the load, m.
    pub(super) whole_stretch: f64,
    /// What has to stay at the station, declared, m.
    pub(super) reserve: f64,
    /// Rope left at the station less the reserve, declared, m.
    pub(super) spare: f64,
    /// Declared length of rope for the loaded end to be where it is wanted, reserve and knots counted, m.
    pub(super) total: f64,
    /// Declared length of what is pulled, a cord or one of two strands, that reaches a hand at the bottom, m.
    pub(super) cord: f64,
    /// What of it is left over in that hand, declared, m.
    pub(super) cord_spare: f64,
    /// Mass of the rope, dry and wet, kg.
    pub(super) mass: [f64; 2],
}

/// The same over all the values.
pub(super) struct Spreads {
    /// Height of the end above the bottom with someone hanging at it.
    pub(super) end: Spread<6>,
    /// The same unloaded.
    pub(super) free_end: Spread<6>,
    pub(super) lowered: Spread<6>,
    pub(super) needed: Spread<6>,
    pub(super) reserve: Spread<6>,
    pub(super) spare: Spread<6>,
    pub(super) total: Spread<6>,
    pub(super) cord: Spread<6>,
    pub(super) cord_spare: Spread<6>,
    pub(super) mass: [Spread<6>; 2],
}

impl RopeEnd {
    pub(super) fn inputs(&self, people: &People) -> Result<[Band; 6], OutOfDomain> {
        let [body, kit] = people.inputs();
        let shrinkage =
            if self.water == Water::Dry { Band::exact(0.0) } else { self.shrinkage.map(|share| share.value) };
        Ok([self.height.map(|height| height.value), body, kit, self.stiffness()?, shrinkage, self.water.taken_up().0])
    }

    /// One rope; a strand of no given length is as long as it is wanted.
    pub(super) fn case(&self, hung: Hung, strand: Option<f64>, point: &Inputs) -> Result<Case, OutOfDomain> {
        let &[height, body, kit, stiffness, shrinkage, water] = point;
        let (force, length) = (Force::new::<newton>, Length::new::<metre>);
        let set_back = self.set_back.value;
        let (way, stiff) = (set_back + height, force(stiffness));
        // What one declared metre becomes.
        let kept = rope::shrunk(length(1.0), Ratio::new::<ratio>(shrinkage))?.value;
        let wet = |declared: f64| -> Result<[f64; 2], OutOfDomain> {
            let dry = rope::mass(self.diameter, length(declared))?;
            Ok([dry, rope::wet_mass(dry, Ratio::new::<ratio>(water))?].map(|mass| mass.value))
        };
        let [_, metre_mass] = wet(1.0 / kept)?;
        let metre_weight = gravity::STANDARD_GRAVITY * metre_mass;
        let load = self.people.weight_of_all(body, kit) / hung.strands();
        // What lies at the bottom does not pull; whoever hangs, hangs at the end or where the bottom bears them.
        let stretch = |load: f64, below_lip: f64| -> Result<f64, OutOfDomain> {
            let weight = metre_weight * below_lip;
            let hanging = rope::hanging_stretch(force(load), force(weight), length(below_lip), stiff)?;
            Ok((hanging + rope::stretch(force(load + weight), self.set_back, stiff)?).value)
        };

        if load > 0.5 * stiffness {
            let must = "half of its length at most, for no rope does more: enter a stiffer rope, or fewer people on it";
            return Err(OutOfDomain { what: "stretch of the rope as a share", value: load / stiffness, must });
        }
        let from_lip = way - self.end_above.value - set_back * (1.0 + load / stiffness);
        if from_lip <= 0.0 {
            let must = "lower: the stretch alone brings the end there";
            let what = "height of the end above the bottom";
            return Err(OutOfDomain { what, value: self.end_above.value, must });
        }
        let whole_stretch = stretch(load, height)?;
        let behind = force(load + metre_weight * set_back);
        let below_lip = rope::hanging_length(length(from_lip), behind, force(metre_weight), stiff)?.value;
        let needed = set_back + below_lip;
        // Below the bottom nothing hangs, so nothing stretches.
        let needed = if below_lip > height { way - self.end_above.value - whole_stretch } else { needed } / kept;

        let strand = strand.unwrap_or(needed);
        let long = strand * kept;
        let hanging = (long.min(way) - set_back).max(0.0);
        let both = [stretch(0.0, hanging)?, stretch(load, hanging)?];
        let reserve = rope::reserve(length(height), self.set_back, length(whole_stretch))?.value;
        // What is pulled bears nobody: it reaches a hand as a reserve without stretch would.
        let cord = rope::reserve(length(height), self.set_back, length(0.0))?.value / kept;
        let knots = self.knots.value;
        let total = match hung {
            Hung::Releasable => needed + reserve / kept + knots,
            // In moving water a strand long enough to pull would hold whoever hangs on it.
            Hung::Fixed | Hung::Doubled if self.bottom == Bottom::Moving => 2.0 * needed + knots,
            // The strands are alike, and one is to be pulled.
            Hung::Fixed | Hung::Doubled => 2.0 * needed.max(cord) + knots,
            Hung::PullCord => needed + knots,
        };
        let second = if hung == Hung::Doubled { self.second.value } else { 0.0 };
        Ok(Case {
            load,
            hung: long,
            taut: set_back + hanging,
            weight: metre_weight * hanging,
            stretch: both,
            end: both.map(|stretch| way - long - stretch),
            needed,
            whole_stretch,
            reserve: reserve / kept,
            spare: self.rope.value - knots - strand - reserve / kept,
            total,
            cord,
            cord_spare: self.pulled(hung) - cord,
            mass: wet(self.rope.value + second)?,
        })
    }

    /// Every result over all the values; each only rises or only falls with each of them.
    pub(super) fn spread(&self, hung: Hung, strand: Option<f64>, people: &People) -> Result<Spreads, OutOfDomain> {
        let [end, free_end, lowered, needed, reserve, spare, total, cord, cord_spare, dry, wet] =
            sweep_corners(self.inputs(people)?, |point| {
                let case = self.case(hung, strand, point)?;
                let ([free, end], [own, all], [dry, wet]) = (case.end, case.stretch, case.mass);
                Ok::<_, OutOfDomain>([
                    end,
                    free,
                    all - own,
                    case.needed,
                    case.reserve,
                    case.spare,
                    case.total,
                    case.cord,
                    case.cord_spare,
                    dry,
                    wet,
                ])
            })?;
        let mass = [dry, wet];
        Ok(Spreads { end, free_end, lowered, needed, reserve, spare, total, cord, cord_spare, mass })
    }
}
