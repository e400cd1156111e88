//! One solved case of the line, and the sweep over all of them.

use super::{Line, Setting};
use crate::band::{Band, Spread, sweep};
use crate::law::OutOfDomain;
use crate::law::taut_line::{self, Hung, TautLine};
use crate::quantity::{Force, Length, metre, newton};

pub(super) struct Case {
    pub(super) line: TautLine,
    pub(super) weight: Force,
    pub(super) rest: Hung,
    pub(super) slip: Hung,
}

impl Line {
    /// Tension and sag over the ranges, as some law of a loaded line has them.
    pub(super) fn spread(
        &self,
        factor: Band,
        law: impl Fn(&TautLine, Force) -> Result<Hung, OutOfDomain>,
    ) -> Result<[Spread<6>; 2], OutOfDomain> {
        let [body, kit] = self.people.inputs();
        let set = match self.setting {
            Setting::Sag => self.sag.map(|sag| sag.value),
            Setting::PreTension => self.pre_tension.map(|tension| tension.value),
            Setting::Slack => self.slack.map(|slack| slack.value),
        };
        let span = self.span.map(|span| span.value);
        let stiffness = self.stiffness.map(|stiffness| stiffness.value);
        sweep([body, kit, span, set, stiffness, factor], |point| {
            let (line, weight) = self.loaded(point)?;
            let hung = law(&line, weight)?;
            Ok([hung.tension.value, hung.sag.value])
        })
    }

    /// The line at one point of the ranges: body, kit, span, setting, stiffness, factor on the load.
    pub(super) fn case(&self, point: &[f64; 6]) -> Result<Case, OutOfDomain> {
        let (line, weight) = self.loaded(point)?;
        let rest = taut_line::at_rest(&line, weight)?;
        let slip = taut_line::at_lowest_point(&line, weight, self.drop)?;
        Ok(Case { line, weight, rest, slip })
    }

    /// The line as it is set, and the load on it.
    pub(super) fn loaded(
        &self,
        &[body, kit, span, set, stiffness, factor]: &[f64; 6],
    ) -> Result<(TautLine, Force), OutOfDomain> {
        let standing = Force::new::<newton>(self.people.weight_of_all(body, kit));
        let span = Length::new::<metre>(span);
        let straight = taut_line::chord(span, self.far_higher);
        let mut line = TautLine {
            span,
            rise: self.far_higher,
            at: span * self.place,
            unstretched: straight,
            stiffness: Force::new::<newton>(stiffness),
        };
        line.unstretched = match self.setting {
            // The sag is what shows with the person hanging still, whatever happens afterwards.
            Setting::Sag => taut_line::unstretched_for_sag(&line, standing, span * set)?,
            Setting::PreTension => {
                taut_line::unstretched_when_pulled_to(straight, Force::new::<newton>(set), line.stiffness)?
            }
            Setting::Slack => straight * (1.0 + set),
        };
        Ok((line, standing * factor))
    }
}
