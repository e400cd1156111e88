//! The crossing as a curve, force against sag as a curve, and the sags that a limit allows.

use super::super::graph::{Axis, Graph, Mark};
use super::super::input::BadInput;
use super::Line;
use super::case::{Case, Inputs};
use crate::band::Band;
use crate::quantity::{Kind, decimal};

/// Sags at which the line is looked at, as shares of the span.
const SAGS: [f64; 11] = [0.02, 0.03, 0.04, 0.05, 0.065, 0.08, 0.10, 0.13, 0.17, 0.23, 0.30];

/// Nearest to an anchor that the crossing is looked at, m: where a hand holds the anchor (assumed). Not as far as the
/// cow's tail reaches: a longer one falls farther there.
const NEAREST: f64 = 0.3;

const FORCE: Axis = Axis { name: "force", kind: Kind::Force };

/// What a crossing makes at the most, for every way in which the line may be set, N.
pub(super) struct Crossed {
    /// On the anchor that is pulled hardest, and where.
    pub(super) anchor: Mark,
    /// In the line beside the person.
    pub(super) line: f64,
    /// On the cow's tail.
    pub(super) tail: f64,
}

impl Case {
    /// From hanging still to the harder of jerks and a slip, on the anchor that is pulled hardest.
    pub(super) fn forces(&self) -> Band {
        let (rest, most) = (self.rest.hardest(), self.caught.hardest().max(self.jerks.hardest()));
        Band::of(rest, most, most)
    }

    /// Sag hanging still, as a share of the span of the bay.
    pub(super) fn sag_share(&self) -> f64 {
        self.rigged.sag(&self.rest.at) / self.rigged.chord(self.rigged.bay).x
    }
}

impl Line {
    /// Force on the anchor that is pulled hardest while the person crosses, the line being set as it is; and whether
    /// every place of it came to rest.
    pub(super) fn crossing(&self, shown: &Case, point: &Inputs) -> Result<(Graph, bool), BadInput> {
        let mut case = self.case(point)?;
        let here = Mark { across: self.place.value, up: case.forces() };
        let (mut curve, mut whole) = (Vec::new(), true);
        let [_, span, ..] = *point;
        let even = || (1..16).map(|step| f64::from(step) / 16.0);
        let in_bay = |[from, to]: [f64; 2]| {
            [from].into_iter().chain(even().filter(move |place| from < *place && *place < to)).chain([to])
        };
        for place in self.bays(span).into_iter().flat_map(in_bay) {
            case.rigged.load_at(place);
            match self.solved(case.rigged.clone(), point) {
                Ok(case) => curve.push(Mark { across: place, up: case.forces() }),
                Err(_) => whole = false,
            }
        }
        let way = if shown.rigged.clipped { "clipped there" } else { "let go there, running" };
        let graph = Graph {
            title: format!(
                "over the crossing, set as it is and {way}: the anchor that is pulled hardest, from hanging still to the harder of jerks and a slip"
            ),
            across: Axis { name: "place, share of the span", kind: Kind::Ratio },
            up: FORCE,
            curve,
            here: Some(here),
        };
        Ok((graph, whole))
    }

    /// The ways between two anchors, as shares of the span: who is nearer to one than [`NEAREST`] is at the anchor, not on
    /// the line.
    fn bays(&self, span: f64) -> Vec<[f64; 2]> {
        let stops = self.stops();
        let bay = |(&(from, _), &(to, _)): (&(f64, f64), &(f64, f64))| {
            let nearest = (NEAREST / span).max(0.01).min(0.4 * (to - from));
            [from + nearest, to - nearest]
        };
        stops.iter().zip(stops.iter().skip(1)).map(bay).collect()
    }

    /// What the crossing makes at the most, for every way in which the line may be set: at the place that is worst for
    /// one of them, and where the crossing comes nearest to an anchor.
    pub(super) fn crossing_in_any_set(&self, worst: Mark) -> Crossed {
        let bands = self.inputs();
        let mut most = Crossed { anchor: worst, line: 0.0, tail: 0.0 };
        for corner in 0..if self.is_set_one_way() { 1 } else { 8_usize } {
            let mut point = bands.map(|band| band.high());
            for (bit, (value, band)) in point.iter_mut().zip(&bands).skip(1).enumerate() {
                *value = if corner >> bit & 1 == 1 { band.high() } else { band.low() };
            }
            let [_, span, ..] = point;
            // A set that does not come to rest is not one they can hang on; that it may be worse is said of the curve.
            let Ok(rigged) = self.rigged(&point) else { continue };
            for place in self.bays(span).into_iter().flatten().chain([worst.across]) {
                let mut rigged = rigged.clone();
                rigged.load_at(place);
                let Ok(case) = self.solved(rigged, &point) else { continue };
                if case.forces().high() > most.anchor.up.high() {
                    most.anchor = Mark { across: place, up: case.forces() };
                }
                most.line = most.line.max(case.caught.tension).max(case.jerks.tension());
                most.tail = most.tail.max(case.caught.load).max(case.jerks.load);
            }
        }
        most
    }

    /// Whether the line is set in one way only.
    pub(super) fn is_set_one_way(&self) -> bool {
        self.inputs().iter().skip(1).all(|input| input.low() == input.high())
    }

    /// Force on the anchor that is pulled hardest against the sag the line is set to; and what sag a limit (N) asks for.
    pub(super) fn against_sag(&self, point: &Inputs, limit: Option<f64>) -> Result<(Graph, Vec<String>), BadInput> {
        let case = self.case(point)?;
        let here = Mark { across: case.sag_share(), up: case.forces() };
        let mut curve: Vec<Mark> = SAGS
            .into_iter()
            .filter_map(|sag| Some(Mark { across: sag, up: self.set_to_sag(point, sag).ok()?.forces() }))
            .collect();
        let words = limit.map_or(Vec::new(), |limit| self.backwards(limit));
        let place = curve.iter().position(|mark| mark.across > here.across).unwrap_or(curve.len());
        curve.insert(place, here);
        let graph = Graph {
            title: "against the sag the line is set to (0.10 is usual, below 0.05 it runs away): the anchor that is pulled hardest, from hanging still to the harder of jerks and a slip".to_owned(),
            across: Axis { name: "sag hanging still, share of the span", kind: Kind::Ratio },
            up: FORCE,
            curve,
            here: Some(here),
        };
        Ok((graph, words))
    }

    fn set_to_sag(&self, point: &Inputs, sag: f64) -> Result<Case, BadInput> {
        let [weight, span, _, stiffness] = *point;
        let mut rigged = self.straight(span, stiffness)?;
        rigged.set_by_sag(weight, sag * rigged.chord(rigged.bay).x)?;
        self.solved(rigged, point)
    }

    /// The hardest forces with the line set to a sag, hanging still and in jerks or on a slip: of the heaviest at every
    /// corner of span and stiffness; none where one of them cannot be set so or does not come to rest.
    fn hardest_at(&self, sag: f64) -> Option<[f64; 2]> {
        let [weight, span, _, stiffness] = self.inputs();
        let ends = |band: Band| [band.low(), band.high()].into_iter().skip(usize::from(band.is_exact()));
        let mut most = [0.0_f64; 2];
        for span in ends(span) {
            for stiffness in ends(stiffness) {
                let [still, moving] = most;
                let forces = self.set_to_sag(&[weight.high(), span, 0.0, stiffness], sag).ok()?.forces();
                most = [still.max(forces.low()), moving.max(forces.high())];
            }
        }
        Some(most)
    }

    /// What sags a limit (N) allows, in words: more sag hangs easier and slips harder.
    fn backwards(&self, limit: f64) -> Vec<String> {
        let looked = SAGS.into_iter().map(|sag| self.hardest_at(sag).map(|forces| (sag, forces)));
        let looked: Vec<_> = looked.skip_while(Option::is_none).map_while(|found| found).collect();
        if looked.is_empty() {
            return Vec::new();
        }
        vec![
            self.kept_from(limit, &looked, "hanging still", |[still, _]| still),
            self.kept_from(limit, &looked, "in jerks and on a slip", |[_, moving]| moving),
        ]
    }

    /// Between which sags the force stays at or under the limit, in words.
    fn kept_from(&self, limit: f64, looked: &[(f64, [f64; 2])], state: &str, of: fn([f64; 2]) -> f64) -> String {
        let keeps = |force: [f64; 2]| of(force) <= limit;
        let at = |place: usize| looked.get(place).map_or(0.0, |(sag, _)| *sag);
        let percent = |share: f64| decimal(100.0 * share, 1);
        let last = percent(at(looked.len() - 1));
        let state = format!("Backwards, {state} at the place entered:");
        let Some(kept) = looked.iter().position(|(_, force)| keeps(*force)) else {
            return format!(
                "{state} none. At every sag from {} to {last} % of the span some anchor gets more than the chosen limit.",
                percent(at(0))
            );
        };
        // Where the force passes the limit between two sags, told on the side that keeps to it.
        let passes = |under: usize, above: usize| {
            let (mut under, mut above) = (at(under), at(above));
            for _ in 0..8 {
                let middle = f64::midpoint(under, above);
                *(if self.hardest_at(middle).is_some_and(keeps) { &mut under } else { &mut above }) = middle;
            }
            under
        };
        let least = if kept == 0 {
            format!("{} % of the span, the least looked at,", percent(at(0)))
        } else {
            format!("{} % of the span", percent((1000.0 * passes(kept, kept - 1)).ceil() / 1000.0))
        };
        let most = match looked.iter().skip(kept).position(|(_, force)| !keeps(*force)) {
            None => format!("{last} %, the most looked at"),
            Some(beyond) => {
                format!("{} %", percent((1000.0 * passes(kept + beyond - 1, kept + beyond)).floor() / 1000.0))
            }
        };
        format!(
            "{state} the chosen limit is not passed with a sag from {least} to {most}. Who crosses may come to worse places."
        )
    }
}
