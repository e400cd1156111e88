//! What would change it most, found by trying: one change at a time, everything else as it stands.

use super::super::answer::{Finding, Outcome};
use super::super::edge::Edge;
use super::case::Found;
use super::list::{Further, MOST, Stands};
use super::{HumanAnchor, Stance};
use crate::band::Band;
use crate::law::OutOfDomain;
use crate::quantity::{Kind, Length, Ratio, metre, ratio};

/// How many are told.
const TOLD: usize = 3;

/// How far the rope is lowered on a body that stands, m.
const LOWER: f64 = 0.2;

type Change = (&'static str, fn(&mut HumanAnchor));

/// Each change alone; one that changes nothing here is passed over.
const CHANGES: [Change; 9] = [
    ("with a real edge for the feet of all who sit without", |line| {
        line.all_stand(|stance| if stance == Stance::Seated { Stance::SeatedBraced } else { stance });
    }),
    ("with all seated, nothing for the feet", |line| {
        line.all_stand(|stance| if stance.is_seated() { stance } else { Stance::Seated });
        line.seat = line.seat.under(line.stance);
    }),
    ("with one foot well forward", |line| {
        line.all_stand(|stance| if stance == Stance::FeetTogether { Stance::FootForward } else { stance });
    }),
    ("with one person more, like the first", |line| {
        if let Some(next) = line.further.get_mut((line.holders as usize).saturating_sub(1)) {
            *next = Further::default();
            line.holders += 1;
        }
    }),
    ("on ground that falls neither forward nor sideways", |line| {
        let level = |falls: &mut Ratio| *falls = Ratio::new::<ratio>(falls.value.min(0.0));
        for (falls, side) in line.floors() {
            level(falls);
            level(side);
        }
    }),
    ("with the rope 0.2 m lower on those who stand", |line| {
        if !line.stance.is_seated() {
            line.raised -= Length::new::<metre>(LOWER);
            line.above_lip -= Length::new::<metre>(LOWER);
        }
    }),
    ("with the rope straight to the lip", |line| line.to_side = Length::new::<metre>(0.0)),
    ("on clean rock", |line| line.seat = line.seat.cleaned()),
    ("with only the lightest of the group on the rope, one at a time", |line| {
        line.people.body = Band::exact(line.people.body.low());
        line.people.count = 1;
    }),
];

impl HumanAnchor {
    /// Puts all who are in line into other stances.
    fn all_stand(&mut self, change: fn(Stance) -> Stance) {
        self.stance = change(self.stance);
        for further in &mut self.further {
            if let Some(stance) = further.stands.own() {
                further.stands = match change(stance) {
                    Stance::SeatedBraced => Stands::SeatedBraced,
                    Stance::Seated => Stands::Seated,
                    Stance::FootForward => Stands::FootForward,
                    Stance::FeetTogether => Stands::FeetTogether,
                };
            }
        }
    }

    /// The floor under each: its fall toward the drop and to one side.
    fn floors(&mut self) -> impl Iterator<Item = (&mut Ratio, &mut Ratio)> {
        let further = self.further.iter_mut().map(|further| (&mut further.floor_falls, &mut further.side_falls));
        std::iter::once((&mut self.floor_falls, &mut self.side_falls)).chain(further)
    }

    /// The changes that raise the ratio at a slip, the one that raises it most first: by its adverse end, then by
    /// the typical value.
    pub(super) fn changes(&self, now: &Found) -> Result<Option<Outcome>, OutOfDomain> {
        let mut told: Vec<(&'static str, Band)> = Vec::new();
        let above = |one: Band, other: Band| {
            let low = 1e-3 * other.high();
            one.low() > other.low() + low || (one.low() > other.low() - low && one.typical() > other.typical() + low)
        };
        for (what, change) in CHANGES {
            let mut changed = *self;
            change(&mut changed);
            if changed == *self {
                continue;
            }
            // A change that leads out of what can be worked out is none.
            let Ok(found) = changed.found() else { continue };
            let band = found.ratio_slip.band;
            if above(band, now.ratio_slip.band) {
                let at = told.iter().position(|(_, other)| above(band, *other)).unwrap_or(told.len());
                told.insert(at, (what, band));
            }
        }
        if told.is_empty() {
            return Ok(None);
        }
        told.truncate(TOLD);
        told.insert(0, ("as it stands", now.ratio_slip.band));
        let finding = |(what, band): (&str, Band)| Finding::strength(what, band).measured_as(Kind::Ratio);
        Ok(Some(Outcome {
            case: "What would change the ratio at a slip most, one change at a time: arithmetic, no advice to go"
                .into(),
            findings: told.into_iter().map(finding).collect(),
        }))
    }

    /// With a roller at the lip the rope is spared, but less of its pull stays in the edge.
    pub(super) fn protected(&self) -> Result<Option<Finding>, OutOfDomain> {
        if matches!(self.edge, Edge::Free | Edge::Roller) {
            return Ok(None);
        }
        let roller = HumanAnchor { edge: Edge::Roller, ..*self }.found()?;
        let what = "held by all with a roller or protector at the lip instead, its friction counted";
        Ok(Some(Finding::strength(what, roller.counted.band)))
    }
}

const _: () = assert!(MOST == 6, "a further person has a place for each");
