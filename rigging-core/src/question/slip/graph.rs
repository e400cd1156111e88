//! The peak force against rope out, height above the anchor, or the angle of a swing.

use super::super::graph::{Axis, Graph, Mark};
use super::{Slip, SlipEvent};
use crate::band::{Band, Spread};
use crate::law::OutOfDomain;
use crate::quantity::{Kind, Length, metre};

/// How many places of a curve are solved.
const MARKS: u32 = 16;

impl Slip {
    /// The value that the curve moves, and the same slip at another one; it is none where none could be rigged.
    fn moved(&self, to: f64) -> Slip {
        let length = Length::new::<metre>(to);
        match self.event {
            SlipEvent::Swing => Slip { out: (self.rope * to.sin()).max(Length::default()).min(self.rope), ..*self },
            SlipEvent::Tail => Slip { above: length.max(-self.sling), ..*self },
            _ => Slip { rope: length, ..*self },
        }
    }

    pub(super) fn graph(&self, peak: &Spread<7>) -> Result<Graph, OutOfDomain> {
        let typical = self.inputs().map(|input| input.typical());
        let rope = self.rope.value;
        let (least, most, here, across, title) = match self.event {
            SlipEvent::Swing => (
                0.0,
                std::f64::consts::FRAC_PI_2,
                self.begins()?.value,
                Axis { name: "rope from plumb where it begins", kind: Kind::Angle },
                "pull at the bottom of the swing, against the angle where it begins",
            ),
            SlipEvent::Tail => (
                -self.sling.value,
                self.sling.value,
                self.above.value,
                Axis { name: "harness above the anchor", kind: Kind::Length },
                "peak force on the anchor, against how far the harness is above it",
            ),
            _ => (
                (0.25 * rope).max(0.5 * self.free_fall().value.min(2.0 * rope)).max(0.15),
                (3.0 * rope).max(3.0),
                rope,
                Axis { name: "rope from the anchor to the person", kind: Kind::Length },
                "peak force on the anchor, the same fall on more or less rope",
            ),
        };
        let mark = |at: f64| -> Result<Mark, OutOfDomain> {
            let moved = self.moved(at);
            let force = |point| Ok::<_, OutOfDomain>(moved.case(point)?.peak);
            let up = Band::of(force(&peak.at_low)?, force(&typical)?, force(&peak.at_high)?);
            Ok(Mark { across: at, up })
        };
        let mut curve = Vec::new();
        for number in 0..=MARKS {
            curve.push(mark(least + (most - least) * f64::from(number) / f64::from(MARKS))?);
        }
        Ok(Graph {
            title: title.to_owned(),
            across,
            up: Axis { name: "peak force", kind: Kind::Force },
            curve,
            here: Some(mark(here)?),
        })
    }
}
