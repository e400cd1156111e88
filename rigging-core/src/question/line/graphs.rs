//! The crossing as a curve, force against sag as a curve, and the least sag that a limit allows.

use super::super::graph::{Axis, Graph, Mark};
use super::super::input::BadInput;
use super::Line;
use super::case::{Case, Inputs};
use super::slip::rising_to_zero;
use crate::band::Band;
use crate::quantity::{Kind, decimal};

/// Sags at which the line is looked at, as shares of the span.
const SAGS: [f64; 11] = [0.02, 0.03, 0.04, 0.05, 0.065, 0.08, 0.10, 0.13, 0.17, 0.23, 0.30];

const FORCE: Axis = Axis { name: "force", kind: Kind::Force };

impl Case {
    /// From hanging still to a slip, on the anchor that is pulled hardest.
    pub(super) fn forces(&self) -> Band {
        let (rest, slip) = (self.rest.hardest(), self.slip.hardest());
        Band::of(rest, slip, slip)
    }

    /// Sag hanging still, as a share of the span of the bay.
    pub(super) fn sag_share(&self) -> f64 {
        self.rigged.sag(&self.rest.at) / self.rigged.chord(self.rigged.bay).x
    }
}

impl Line {
    /// Force on the anchor that is pulled hardest while the person crosses, the line being set as it is.
    pub(super) fn crossing(&self, shown: &Case, point: &Inputs) -> Result<Graph, BadInput> {
        let mut case = self.case(point)?;
        let here = Mark { across: self.place.value, up: case.forces() };
        let stops = self.stops();
        let mut curve = Vec::new();
        for step in 0..=12 {
            let place = 0.04 + 0.92 * f64::from(step) / 12.0;
            if stops.iter().any(|(at, _)| (place - at).abs() < 0.01) {
                continue;
            }
            case.rigged.load_at(place);
            if let Ok(case) = self.solved(case.rigged.clone(), point) {
                curve.push(Mark { across: place, up: case.forces() });
            }
        }
        let way = if shown.rigged.clipped { "clipped there" } else { "let go there, running" };
        Ok(Graph {
            title: format!(
                "over the crossing, set as it is and {way}: the anchor that is pulled hardest, from hanging still to a slip"
            ),
            across: Axis { name: "place, share of the span", kind: Kind::Ratio },
            up: FORCE,
            curve,
            here: Some(here),
        })
    }

    /// Force on the anchor that is pulled hardest against the sag the line is set to; and what sag a limit (N) asks for.
    pub(super) fn against_sag(&self, point: &Inputs, limit: Option<f64>) -> Result<(Graph, Vec<String>), BadInput> {
        let case = self.case(point)?;
        let here = Mark { across: case.sag_share(), up: case.forces() };
        let mut curve: Vec<Mark> = SAGS
            .into_iter()
            .filter_map(|sag| Some(Mark { across: sag, up: self.set_to_sag(point, sag).ok()?.forces() }))
            .collect();
        let mut least = Vec::new();
        if let Some(limit) = limit {
            least.push(self.least_sag(point, limit, &curve, "hanging still", |band| band.low()));
            least.push(self.least_sag(point, limit, &curve, "on a slip", |band| band.high()));
        }
        let place = curve.iter().position(|mark| mark.across > here.across).unwrap_or(curve.len());
        curve.insert(place, here);
        let graph = Graph {
            title: "against the sag the line is set to (0.10 is usual, below 0.05 it runs away): the anchor that is pulled hardest, from hanging still to a slip".to_owned(),
            across: Axis { name: "sag hanging still, share of the span", kind: Kind::Ratio },
            up: FORCE,
            curve,
            here: Some(here),
        };
        Ok((graph, least))
    }

    fn set_to_sag(&self, point: &Inputs, sag: f64) -> Result<Case, BadInput> {
        let [weight, span, _, stiffness] = *point;
        let mut rigged = self.straight(span, stiffness)?;
        rigged.set_by_sag(weight, sag * rigged.chord(rigged.bay).x)?;
        self.solved(rigged, point)
    }

    /// The least sag at which the force comes down to the limit, in words.
    pub(super) fn least_sag(
        &self,
        point: &Inputs,
        limit: f64,
        curve: &[Mark],
        state: &str,
        end: fn(&Band) -> f64,
    ) -> String {
        let below = |mark: &Mark| end(&mark.up) <= limit;
        let percent = |share: f64| decimal((1000.0 * share - 1e-6).ceil() / 10.0, 1);
        match curve.iter().position(below) {
            None => format!(
                "Backwards, {state}: none. No sag from 2 to 30 % of the span brings every anchor down to the chosen limit."
            ),
            Some(0) => {
                format!("Backwards, {state}: at 2 % of the span every anchor already gets less than the chosen limit.")
            }
            Some(place) => {
                let at = |place: usize| curve.get(place).map_or(0.0, |mark| mark.across);
                let sag = rising_to_zero(at(place), at(place - 1), &mut |sag| {
                    Ok(limit - end(&self.set_to_sag(point, sag)?.forces()))
                });
                let sag = sag.unwrap_or(at(place));
                format!(
                    "Backwards, {state}: the chosen limit asks for a sag of {} % of the span or more.",
                    percent(sag)
                )
            }
        }
    }
}
