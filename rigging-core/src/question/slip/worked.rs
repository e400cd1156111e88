//! How the numbers of a slip come about.

use super::case::{Case, Spreads};
use super::{InTheWay, Slip, SlipEvent};
use crate::law::{OutOfDomain, swing};
use crate::quantity::{Angle, Force, Kind, newton};
use crate::working::{Formula, Given, Source, Step};

const SPRING: Source = Source::published("energy of a linear spring; OpenStax University Physics, worked example");
const PENDULUM: Source = Source::derived("pendulum: energy kept, and the pull that bends its way");
const ELASTIC: Source = Source::derived("an upper bound, held against the motion in small steps");

fn force(symbol: &'static str, newtons: f64) -> Given {
    Given::exact(symbol, newtons, Kind::Force)
}
fn length(symbol: &'static str, metres: f64) -> Given {
    Given::exact(symbol, metres, Kind::Length)
}

impl Slip {
    pub(super) fn working(&self, spreads: &Spreads) -> Result<Vec<Step>, OutOfDomain> {
        let point = &spreads.peak.at_high;
        let [body, kit, stiffness, legs, .., slips, share] = *point;
        let case = self.case(point)?;
        let mut steps = vec![self.people.step(body, kit)];
        let mut step = |what: &str, formula, given, result, source| {
            steps.push(Step { what: what.to_owned(), formula, given, result, source });
        };
        let (known, source) = self.stiffness();
        step(
            "Stiffness of what catches, tension for a strain of 1; the pull is highest where it is stiffest",
            "EA",
            vec![Given::new("known", known, Kind::Force)],
            force("EA", stiffness),
            source,
        );
        let weight = force("W", case.weight);
        if self.event == SlipEvent::Swing {
            steps.extend(self.swing_steps(spreads, &case, stiffness)?);
            return Ok(steps);
        }
        let fails = self.event == SlipEvent::Fails;
        let mut given = vec![weight.clone(), force("EA", stiffness * self.strands()), length("L", self.length().value)];
        if fails {
            given.push(force("EA of the leg", legs));
            given.push(length("l", self.sling.value));
        }
        given.push(length("a", self.anchor_gives.value));
        step(
            if fails {
                "What rope, leg and anchor give under the weight, 1/k = Σ 1/k; a is the anchor's under 95 kg"
            } else {
                "What rope and anchor give under the weight, 1/k = Σ 1/k; a is the anchor's under 95 kg"
            },
            if fails { "d = W L/EA + W l/EA of the leg + a W/(95 kg g)" } else { "d = W L/EA + a W/(95 kg g)" },
            given,
            length("d", case.gives),
            Source::derived("springs in a row"),
        );
        let fall = length("h", self.free_fall().value);
        let give = length("d", case.gives);
        let (what, formula, given, source) = match self.event {
            SlipEvent::Stopped => (
                "Peak when the rope locks, hanging on it at the speed v",
                "F = W + v √(k m) = W (1 + v/√(g d))",
                vec![weight.clone(), Given::exact("v", self.speed.value, Kind::Speed), give],
                SPRING,
            ),
            SlipEvent::Fails => (
                "Peak at the catch, at most: the person falls as far as the point drops",
                "F = W + √(W² + 2 W k h) = W (1 + √(1 + 2 h/d))",
                vec![weight.clone(), fall, give, Given::exact("share of loose rope", share, Kind::Ratio)],
                Source::derived("energy of springs in a row; held against a simulation in time"),
            ),
            SlipEvent::Slips => (
                "Peak: what the rope alone would give, but no more than the device holds",
                "F = least of T and W (1 + √(1 + 2 h/d))",
                vec![weight.clone(), fall, give, force("T", slips)],
                Source::derived("work and energy"),
            ),
            _ => (
                "Peak, edge not counted",
                "F = W + √(W² + 2 W k h) = W (1 + √(1 + 2 h/d))",
                vec![weight.clone(), fall, give],
                SPRING,
            ),
        };
        step(what, formula, given, force("F", case.peak), source);
        let longest = self.case(&spreads.fallen.at_high)?;
        let of = |symbol, metres| length(symbol, metres);
        let mut given = vec![of("h", self.free_fall().value), of("stretch F d/W", longest.stretch)];
        let formula = match self.event {
            SlipEvent::Slips => {
                given.push(of("s", longest.travel));
                "h + F d/W + s, s = [W (h + x) − T x/2]/(T − W), x = T d/W"
            }
            SlipEvent::Stopped => "h + F d/W − d",
            SlipEvent::Fails => "h + F d/W, less W L/EA of the rope that was stretched before",
            _ => "h + F d/W",
        };
        step(
            "Fallen in all, where that is most",
            formula,
            given,
            of("fallen", longest.fallen),
            Source::derived("work and energy"),
        );
        if self.crosses_edge() {
            let point = &spreads.before.at_high;
            let [.., friction, _, _] = *point;
            let case = self.case(point)?;
            step(
                "Before the edge and behind it, its friction counted: the rope behind bears and gives less, so all of it is \
                 taken as stiffer",
                "before = F with EA e^(μ φ), behind = before × e^(−μ φ)",
                vec![
                    Given::exact("μ", friction, Kind::Ratio),
                    Given::exact("φ", self.edge_turn.value, Kind::Angle),
                    force("before", case.before),
                ],
                force("behind", case.behind),
                Source::published("Euler–Eytelwein; friction of edges: Delaney 2020, range assumed"),
            );
        }
        Ok(steps)
    }

    fn swing_steps(&self, spreads: &Spreads, case: &Case, stiffness: f64) -> Result<Vec<Step>, OutOfDomain> {
        let begins = self.begins()?;
        let angle = |symbol, angle: Angle| Given::exact(symbol, angle.value, Kind::Angle);
        let rope = length("L", self.rope.value);
        let weight = Force::new::<newton>(case.weight);
        let rigid = swing::sideways(weight, begins)?;
        let mut steps = Vec::new();
        let mut step = |what: &str, formula, given, result, source| {
            steps.push(Step { what: what.to_owned(), formula, given, result, source });
        };
        step(
            "Rope from plumb where it begins",
            "θ₀ = asin(a/L)",
            vec![length("a", self.out.value), rope.clone()],
            angle("θ₀", begins),
            Source::derived("a right triangle"),
        );
        step(
            "Pull at the bottom if the rope does not stretch",
            "F = W (3 − 2 cos θ₀)",
            vec![force("W", case.weight), angle("θ₀", begins)],
            force("F", swing::peak(weight, begins)?.value),
            PENDULUM,
        );
        step(
            "Pull at most on the first swing, the rope elastic and only just straight when it begins",
            "F = W (3 − cos θ₀)",
            vec![force("W", case.weight), angle("θ₀", begins)],
            force("F", case.peak),
            ELASTIC,
        );
        step(
            "Pull to the side if the rope does not stretch, where it is most",
            "H = W (3 cos θ − 2 cos θ₀) sin θ",
            vec![force("W", case.weight), angle("θ₀", begins), angle("θ", rigid.at)],
            force("H", rigid.pull.value),
            PENDULUM,
        );
        step(
            "Pull to the side at most on the first swing, the rope elastic",
            "H = (1 + 1.5 W/EA) W · most of (3 cos θ − cos θ₀) sin θ",
            vec![force("W", case.weight), force("EA", stiffness), angle("θ₀", begins)],
            force("H", spreads.sideways.band.high()),
            ELASTIC,
        );
        let (at, what) = match self.obstacle {
            InTheWay::Wall => (self.ends()?, "Free fall with the speed at the wall, without the stretch"),
            InTheWay::None => (Angle::default(), "Free fall with the speed at the bottom, without the stretch"),
        };
        let fall = swing::equal_fall(self.rope, begins, at)?.value;
        step(
            what,
            "h = L (cos θ − cos θ₀)",
            vec![rope, angle("θ", at), angle("θ₀", begins)],
            length("h", fall),
            Source::derived("energy kept"),
        );
        Ok(steps)
    }
}

pub(super) const FORMULAS: [Formula; 9] = [
    Formula::new("what rope and anchor give under the weight W, k = W/d", "d = W L/EA + what the anchor gives", SPRING),
    Formula::new("peak of a fall h onto a loose rope", "F = W + √(W² + 2 W k h)", SPRING),
    Formula::new(
        "the same with a speed v where h begins; hanging on the rope at v",
        "F = W + √(W² + k m v² + 2 W k h); F = W + v √(k m)",
        SPRING,
    ),
    Formula::new(
        "a leg fails, the point drops e, the rope gives r under W, s = e − r; at most a free fall of e",
        "F = W + √(W² + 2 W k s), for s < 0 F = 2 W + k s; at most W + √(W² + 2 W k e)",
        Source::derived("energy of springs in a row; held against a simulation in time"),
    ),
    Formula::new(
        "a device slips at T, x the stretch at T; at the anchor those before an edge get T e^(+μ φ), the most μ",
        "F = least of T and the peak; s = [W (h + x) − T x/2]/(T − W)",
        Source::derived("work and energy"),
    ),
    Formula::new(
        "an edge that turns the rope by φ: behind it, before it with a rope e^(μ φ) stiffer",
        "behind = before × e^(−μ φ); not counted μ = 0",
        Source::published("Euler–Eytelwein; friction of edges: Delaney 2020, range assumed"),
    ),
    Formula::new(
        "a swing from θ₀: bottom, sideways, speed as a free fall; elastic, first swing, at most the last",
        "W (3 − 2 cos θ₀); W (3 cos θ − 2 cos θ₀) sin θ; L (cos θ − cos θ₀); W (3 − cos θ₀)",
        PENDULUM,
    ),
    Formula::new(
        "lip at a below the anchor that the rope saws along from θ₀ to θ₁",
        "s = a |tan θ₀ − tan θ₁|, at most to where the person is at the lip",
        Source::derived("where a straight rope crosses a level line"),
    ),
    Formula::new(
        "stiffness of a dynamic rope in a fall from its test: U its peak there, w 80 kg, f 1.77",
        "EA = U (U − 2 w)/(2 f w): 24 kN for 9 kN, 45 kN for 12 kN",
        Source::derived("EN 892 and the peak of a linear rope"),
    ),
];
