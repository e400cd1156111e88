//! How tight does a line get when someone hangs on it?

mod case;
mod told;

use told::{CAUTIONS, NOT_IN, remarks};

use super::Ask;
use super::against::{self, Against, asks_limit};
use super::answer::{Answer, Finding};
use super::field::{Field, choices, place, table};
use super::input::BadInput;
use super::people::{self, People, State, asks_people};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::law::taut_line;
use crate::quantity::{Force, Kind, Length, Ratio, kilonewton, metre, ratio};
use crate::working::Source;

/// How the line is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Setting {
    /// By the sag it shows with the person hanging on it.
    #[default]
    Sag,
    /// Pulled straight to a tension before anyone is on it.
    PreTension,
    /// Longer than the straight distance.
    Slack,
}
choices!(Setting {
    Sag = "sag", "by its sag with the person on it";
    PreTension = "pre-tension", "pulled straight to a tension beforehand";
    Slack = "slack", "left longer than the straight distance";
});

/// One span between two anchors, one load on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Horizontal distance of the anchors.
    pub span: Band<Length>,
    /// How much higher the far anchor is than the near one.
    pub far_higher: Length,
    /// Where the load is, as a share of the span from the near anchor.
    pub place: Ratio,
    /// How the line is set.
    pub setting: Setting,
    /// Sag with the load hanging still, as a share of the span.
    pub sag: Band<Ratio>,
    /// Tension before anyone is on the line.
    pub pre_tension: Band<Force>,
    /// Slack: extra length, as a share of the straight distance.
    pub slack: Band<Ratio>,
    /// Stiffness of the rope: tension for a strain of 1.
    pub stiffness: Band<Force>,
    /// How far above the straight line a slip begins.
    pub drop: Length,
    /// Who hangs.
    pub people: People,
    /// What the tension is compared with.
    pub against: Against,
}

impl Default for Line {
    fn default() -> Self {
        let ratios = |low, typical, high| Band::of(low, typical, high).map(Ratio::new::<ratio>);
        let kilonewtons = |low, typical, high| Band::of(low, typical, high).map(Force::new::<kilonewton>);
        Line {
            span: Band::of(7.5, 8.0, 8.5).map(Length::new::<metre>),
            far_higher: Length::new::<metre>(0.5),
            place: Ratio::new::<ratio>(0.5),
            setting: Setting::Sag,
            sag: ratios(0.08, 0.10, 0.12),
            pre_tension: kilonewtons(0.2, 0.5, 1.0),
            slack: ratios(0.01, 0.02, 0.03),
            stiffness: kilonewtons(20.0, 30.0, 41.0),
            drop: Length::new::<metre>(0.0),
            people: People::default(),
            against: Against::default(),
        }
    }
}

asks_people!(Line);
asks_limit!(Line);

const INPUTS: [&str; 6] =
    [people::LABELS[0], people::LABELS[1], "span", "how tight the line is set", "stiffness of the rope", "jerks"];

impl Ask for Line {
    const NAME: &'static str = "line";
    const KEY: &'static str = "ln";
    const WORDS: &'static str = "How tight does a line get, and where does a slip leave me?";
    const ABOUT: &'static str = "Tension and sag of a traverse line or hand-line with someone hanging on it";
    const EXAMPLE: &'static str = "A line along a ledge to the next stance, set so that it sags a tenth of its span under the person clipped to it.";

    fn fields() -> Vec<Field<Self>> {
        let mut fields = table![
            Field::range('a', "span_m", Kind::Length, 0.5..=200.0, place!(span))
                .says("Span: anchor to anchor, level", "horizontal distance; a range if you can only guess"),
            Field::one('h', "far_higher_m", Kind::Length, -50.0..=50.0, place!(far_higher))
                .says("Far anchor higher by", "negative if it is lower than the near one"),
            Field::one('x', "place", Kind::Ratio, 0.02..=0.98, place!(place)).says(
                "Where the person is, as a share of the span",
                "0.5 is the middle; measured from the near anchor",
            ),
            Field::choice('t', "setting", Setting::CHOICES, place!(setting))
                .says("How the line is set", "by what you can see or feel"),
            Field::range('s', "sag", Kind::Ratio, 0.005..=0.6, place!(sag))
                .says(
                    "Sag with the person on it, as a share of the span",
                    "0.10: a tenth of the span; below 0.05 the tension runs away",
                )
                .from(Source::practice("a sag of a tenth of the span"))
                .asked_if(|line: &Line| line.setting == Setting::Sag),
            Field::range('p', "pre_tension_n", Kind::Force, 0.0..=20_000.0, place!(pre_tension))
                .says("Tension before anyone is on it", "one person pulling straight reaches less than half of a body weight")
                .from(Source::assumed("one or two people pulling straight"))
                .asked_if(|line: &Line| line.setting == Setting::PreTension),
            Field::range('z', "slack", Kind::Ratio, 0.0..=0.5, place!(slack))
                .says(
                    "Slack, as a share of the straight distance",
                    "0.02: a line 2 % longer than the straight distance",
                )
                .asked_if(|line: &Line| line.setting == Setting::Slack),
            Field::range('e', "stiffness_n", Kind::Force, 1000.0..=1_000_000.0, place!(stiffness))
                .says(
                    "Stiffness of the rope (EA)",
                    "tension that would double its length if it stayed straight; the range shown first is for a used canyon rope",
                )
                .from(Source::assumed("used canyon rope; EN 1891 type A lies at its low end")),
            Field::one('d', "drop_m", Kind::Length, 0.0..=5.0, place!(drop)).says(
                "A slip begins above the straight line by",
                "0: let go from the height of the straight line; slack in the cow's tail adds to it",
            ),
        ];
        fields.extend(people::fields());
        fields.extend(against::fields());
        fields
    }

    fn solve(&self) -> Result<Answer, BadInput> {
        let rise = self.far_higher.value.abs();
        if rise > self.span.low().value {
            let must = "not more than the span: a steeper line is not this question";
            return Err(OutOfDomain { what: "height difference of the anchors", value: rise, must }.into());
        }
        let still = Band::exact(1.0);
        let [slip, sag_slip] = self.spread(still, |line, load| taut_line::at_lowest_point(line, load, self.drop))?;
        let [still, sag_still] = self.spread(still, taut_line::at_rest)?;
        let [moving, _] = self.spread(State::Descending.uncertain().0, taut_line::at_rest)?;
        let [jerky, _] = self.spread(State::Jerky.uncertain().0, taut_line::at_rest)?;
        // Which of the two pulls harder depends on how tight the line is set.
        let jerks = jerky.band.high() > slip.band.high();
        let (worst, what) = if jerks {
            (&jerky, "at each end of the line, moving in jerks")
        } else {
            (&slip, "at each end of the line, on a slip")
        };
        let load = |what: &str, spread: &Spread<6>| Finding::load(what, spread.band).moved_by(spread, &INPUTS);
        let findings = vec![
            load(what, worst),
            load("at each end, hanging still", &still),
            load("below the straight line at the lowest point of a slip", &sag_slip).measured_as(Kind::Length),
            load("below the straight line, hanging still", &sag_still).measured_as(Kind::Length),
        ];
        let states = vec![
            Finding::load(State::Still.words(), still.band),
            Finding::load("moving steadily", moving.band),
            Finding::load("moving in jerks", jerky.band),
            Finding::load("a slip onto the line", slip.band),
        ];
        let case = self.case(&worst.at_high)?;
        let comparison = self.against.compare(what, worst.band);
        let mut working = self.working(&worst.at_high, &case);
        working.extend(comparison.limit.as_ref().map(|limit| limit.step()));
        let tightest = self.case(&still.at_high)?;
        Ok(Answer {
            remarks: remarks(tightest.rest.sag.value / tightest.line.span.value),
            scene: self.scene(&case, if jerks { &case.rest } else { &case.slip }, what),
            findings,
            states,
            comparisons: vec![comparison],
            working,
            cautions: CAUTIONS.to_vec(),
            not_in: NOT_IN.to_vec(),
            ..Answer::default()
        })
    }
}

#[cfg(test)]
mod tests {
    use super::case::Case;
    use super::*;
    use approx::assert_relative_eq;

    #[test]
    fn the_sag_that_was_asked_for_is_the_sag_that_is_found() {
        let line = Line::default();
        let case = line.case(&[80.0, 10.0, 8.0, 0.1, 25e3, 1.0]).unwrap();
        assert_relative_eq!(case.rest.sag.value, 0.8, max_relative = 1e-9);
    }

    #[test]
    fn hanging_still_the_stiffness_does_not_matter_if_the_sag_is_given() {
        let [still, _] = Line::default().spread(Band::exact(1.0), taut_line::at_rest).unwrap();
        assert!(still.moves[4] < 1e-6 * still.band.high(), "{:?}", still.moves);
    }

    #[test]
    fn a_tighter_line_pulls_harder_and_slack_rope_catches_harder_than_it_holds() {
        let at = |pre_tension: f64| {
            let line = Line { setting: Setting::PreTension, ..Line::default() };
            line.case(&[80.0, 10.0, 8.0, pre_tension, 25e3, 1.0]).unwrap()
        };
        assert!(at(2000.0).rest.tension > at(500.0).rest.tension);
        let gain = |case: &Case| (case.slip.tension / case.rest.tension).value;
        assert!(gain(&at(100.0)) > gain(&at(5000.0)));
    }
}
