//! The working of the rope at one set of values, and the formulas behind the other numbers.

use super::case::Inputs;
use super::{RopeEnd, Water};
use crate::law::{OutOfDomain, gravity};
use crate::quantity::Kind;
use crate::working::{Formula, Given, Source, Step};

impl RopeEnd {
    pub(super) fn working(&self, point: &Inputs) -> Result<Vec<Step>, OutOfDomain> {
        let &[height, body, kit, stiffness, shrinkage, water] = point;
        let strand = self.strand(self.hung);
        let case = self.case(self.hung, Some(strand), point)?;
        let length = |symbol, si: f64| Given::exact(symbol, si, Kind::Length);
        let force = |symbol, si: f64| Given::exact(symbol, si, Kind::Force);
        let share = |symbol, si: f64| Given::exact(symbol, si, Kind::Ratio);
        let step = |what: &str, formula, given: Vec<Given>, result, source| Step {
            what: what.into(),
            formula,
            given,
            result,
            source,
        };
        let mut steps = vec![self.people.step(body, kit)];
        if let Some((mass, source)) = self.stretch_by.mass() {
            let load = gravity::weight(mass).value;
            steps.push(step(
                "Stiffness, from the elongation that the standard finds",
                "EA = m g / ε",
                vec![Given::exact("m", mass.value, Kind::Mass), share("ε", load / stiffness)],
                force("EA", stiffness),
                source,
            ));
        }
        steps.push(step(
            "Length of the strand as it hangs, without load",
            "L = L₀ (1 − σ)",
            vec![length("L₀", strand), share("σ", shrinkage)],
            length("L", case.hung),
            self.shrinkage_source(),
        ));
        steps.push(step(
            "Weight of what hangs of it below the lip, with its water; ℓ is L, but no more than the way down h + s",
            "G = 0.6456 g/m · (d/mm)² · (ℓ − s)(1 + u) g/(1 − σ)",
            vec![
                Given::exact("d", self.diameter.value, Kind::Thickness),
                length("ℓ", case.taut),
                length("s", self.set_back.value),
                share("u", water),
                share("σ", shrinkage),
            ],
            force("G", case.weight),
            self.water.taken_up().1,
        ));
        let [own, all] = case.stretch;
        let lengths = || {
            vec![
                length("ℓ", case.taut),
                length("s", self.set_back.value),
                force("G", case.weight),
                force("EA", stiffness),
            ]
        };
        steps.push(step(
            "Stretch by its own weight; the end unloaded",
            "ΔL₀ = [G s + G (ℓ − s)/2]/EA; e₀ = h + s − L − ΔL₀",
            [vec![length("h", height), length("L", case.hung), length("ΔL₀", own)], lengths()].concat(),
            length("e₀", case.end[0]),
            Source::derived("Hooke's law, summed along the rope"),
        ));
        steps.push(step(
            "Stretch with the person too: the load on one strand is F",
            "ΔL = [(F + G) s + (F + G/2)(ℓ − s)]/EA",
            [vec![force("F", case.load)], lengths()].concat(),
            length("ΔL", all),
            Source::derived("Hooke's law, summed along the rope"),
        ));
        steps.push(step(
            "Height of the end above the bottom with the person on it; negative is below",
            "e = h + s − L − ΔL",
            vec![length("h", height), length("s", self.set_back.value), length("L", case.hung), length("ΔL", all)],
            length("e", case.end[1]),
            Source::derived("lengths along the rope"),
        ));
        steps.push(step(
            "What a stuck person would need at the station, wherever they are stuck",
            "R = (h + s + ΔL + 1 m)/(1 − σ)",
            vec![
                length("h", height),
                length("s", self.set_back.value),
                length("ΔL", case.whole_stretch),
                share("σ", shrinkage),
            ],
            length("R", case.reserve),
            RESERVE,
        ));
        Ok(steps)
    }

    fn shrinkage_source(&self) -> Source {
        if self.water == Water::Dry {
            Source::derived("a dry rope does not shrink")
        } else {
            Source::memory("makers declare 1.5 to 6 %")
        }
    }
}

const RESERVE: Source = Source::practice("leaders who rig releasable; each part taken where it is largest");

pub(super) const FORMULAS: [Formula; 6] = [
    Formula::new(
        "stretch of a hanging rope: F the load, G the rope's weight",
        "ΔL = (F + G/2) L/EA",
        Source::derived("Hooke's law, summed along the rope"),
    ),
    Formula::new(
        "stiffness from a declared elongation: 100 kg for low-stretch, 75 kg for dynamic rope",
        "EA = m g/ε",
        Source::published("EN 1891: at most 5 % from 50 to 150 kg; EN 892 from memory"),
    ),
    Formula::new(
        "rope to let out for an end a above the bottom, solved for L",
        "L + ΔL = h + s − a",
        Source::derived("lengths along the rope"),
    ),
    Formula::new(
        "reserve at the station; a strand or cord to pull, without ΔL",
        "R = (h + s + ΔL + 1 m)/(1 − σ)",
        RESERVE,
    ),
    Formula::new(
        "mass of a rope, u the water in it as a share",
        "m = 0.6456 g/m · (d/mm)² L (1 + u)",
        Source::derived("declared masses of ropes of 8 to 11 mm"),
    ),
    Formula::new(
        "length in water, σ the shrinkage",
        "L = L₀ (1 − σ)",
        Source::memory("makers declare 1.5 to 6 %; a low-grade report has 10 % for wet dynamic rope"),
    ),
];
