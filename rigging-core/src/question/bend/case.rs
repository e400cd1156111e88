//! One solved case of the bends, and the sweep over all of them.

use super::super::answer::Comparison;
use super::super::people::{SLACK, State, under};
use super::super::scene::Pull;
use super::super::slip::Catcher;
use super::told::name;
use super::{Bend, Bolt, Over, Pulls, Runs, Told, Turn, Whether};
use crate::band::{Band, Spread, sweep};
use crate::law::{OutOfDomain, bend, bolt, fall, swing};
use crate::quantity::{Angle, Force, Length, Ratio, metre, newton, radian, ratio};
use crate::strength::Strength;
use crate::strength::hardware::{BOLT_AXIAL, BOLT_RADIAL};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// One bend of a solved case. Headings are those of the way from the load to the hand, radians from
/// the x axis; the turn is to the right above 0; forces N.
#[derive(Clone, Copy, Default)]
pub(super) struct Bent {
    pub(super) over: Over,
    pub(super) turn: f64,
    /// Coefficient of friction: above 0 where it adds to the tension toward the hand.
    pub(super) friction: f64,
    pub(super) heading_in: f64,
    pub(super) heading_out: f64,
    pub(super) tension_in: f64,
    pub(super) tension_out: f64,
}

/// A pull of some size along a heading.
pub(in super::super) fn along(heading: f64, size: f64) -> Pull {
    let (sine, cosine) = heading.sin_cos();
    [size * cosine, size * sine]
}

impl Bent {
    /// Pull of the rope on what holds the bend.
    pub(super) fn on(&self) -> Pull {
        let ([x, y], [u, v]) = (along(self.heading_in, -self.tension_in), along(self.heading_out, self.tension_out));
        [x + u, y + v]
    }

    /// Its size.
    pub(super) fn resultant(&self) -> Result<Force, OutOfDomain> {
        let newtons = Force::new::<newton>;
        bend::resultant(newtons(self.tension_in), newtons(self.tension_out), Angle::new::<radian>(self.turn.abs()))
    }

    /// Tension and shear of a bolt that holds the bend, the rock facing `wall` (from plumb).
    pub(super) fn on_bolt(&self, wall: Angle) -> Result<bolt::Parts, OutOfDomain> {
        let ([x, y], [u, v]) = (self.on(), along(wall.value - FRAC_PI_2, 1.0));
        let from_straight_out = (x * v - y * u).abs().atan2(x * u + y * v);
        bolt::parts(self.resultant()?, Angle::new::<radian>(from_straight_out))
    }
}

/// Share of the published limits of a new bolt that a pull uses up.
pub(super) fn share_of_limit(parts: bolt::Parts) -> Result<f64, OutOfDomain> {
    Ok(bolt::share_of_limit(parts, BOLT_AXIAL.force(), BOLT_RADIAL.force())?.value)
}

/// The bend at a place, counted from the load.
pub(super) fn nth(bends: &[Bent; 3], place: usize) -> Bent {
    bends.get(place).copied().unwrap_or_default()
}

/// For 1 N in the rope: force on what holds a bend, tension and shear of its bolt, share of its limits used up, share of
/// the force that goes into the rock, and tension beyond the last bend. Swept are the signed frictions and the share of the way past bend 1.
pub(super) type Shape = [Spread<4>; 6];

/// A way in which friction works, none if it is not counted, and what a bend then gets.
pub(super) type Row = (Option<Runs>, Shape);

/// A bend and its two answers, the one that hurts more first.
pub(super) struct Judged {
    pub(super) place: usize,
    pub(super) anchored: bool,
    pub(super) rows: [Row; 2],
}

impl Judged {
    /// How friction works at the force that hurts most.
    pub(super) fn worst(&self) -> Option<Runs> {
        let [(runs, _), _] = &self.rows;
        *runs
    }
}

/// What follows if bend 1 lets go and the rope runs straight from what holds it beyond.
pub(super) struct Failed {
    /// How far down the person gets, m.
    pub(super) drop: f64,
    /// How far to the side of plumb the person is when it lets go, m.
    pub(super) aside: f64,
    /// The same as an angle: so far to either side of plumb the person swings, rad.
    pub(super) swings: f64,
    /// Pull of that rope: from a swing without a fall to a fall without a swing.
    pub(super) pull: Band,
    /// How far straight they are from what holds the rope then, m.
    pub(super) straight: f64,
    /// At the most it may pull: weight, stiffness of the rope and its pull before above the bend and below, N; and how far
    /// below what holds the rope then all of it begins, m.
    pub(super) at_most: [f64; 5],
}

/// How many places on the way past a bend are looked at.
const ON_THE_WAY: u32 = 24;

impl Bend {
    /// The bends in order from the load; those not asked for let the rope run straight on.
    pub(super) fn turns(&self) -> [Turn; 3] {
        let mut turns = [self.first, self.second, self.third];
        if self.told == Told::Directions {
            let turn = PI + self.load_runs.value - self.hand_runs.value;
            let turn = if turn > PI { turn - TAU } else { turn };
            turns[0].angle = Angle::new::<radian>(turn.clamp(-PI, PI));
        }
        for turn in turns.iter_mut().skip(self.bends as usize) {
            *turn = Turn::default();
        }
        turns
    }

    /// Force in the rope before it bends, N.
    pub(super) fn load(&self, state: State) -> Result<Spread<3>, OutOfDomain> {
        if self.pulls == Pulls::People {
            return self.people.spread(state);
        }
        let band = self.rope_force.map(|force| force.value);
        let at = |force| [0.0, 0.0, force];
        Ok(Spread { band, moves: at(band.high() - band.low()), at_low: at(band.low()), at_high: at(band.high()) })
    }

    /// What the person is taken to do while the rope runs so: in a state, or in the one that is judged. A slip or a
    /// descent drives the rope toward the load: neither happens while it is raised or lies still, and friction then
    /// works on the weight alone. But a slip is judged as the worst of the four, and what is raised may be jerked.
    pub(super) fn state_while(&self, runs: Option<Runs>, state: Option<State>) -> State {
        let raised = self.state.while_raised().filter(|_| state.is_none() && runs == Some(Runs::Raising));
        match (runs, raised.or(state).unwrap_or(self.state)) {
            (Some(Runs::Rest), _) | (Some(Runs::Raising), State::Slip | State::Descending) => State::Still,
            (_, state) => state,
        }
    }

    /// A part of an answer under the force in the rope, in a state or in the one that is judged.
    pub(super) fn loaded(
        &self,
        runs: Option<Runs>,
        part: &Spread<4>,
        state: Option<State>,
    ) -> Result<Spread<7>, OutOfDomain> {
        Ok(under(part, &self.load(self.state_while(runs, state))?))
    }

    /// All that either of the two answers allows, of a part of them.
    pub(super) fn either(
        &self,
        judged: &Judged,
        part: fn(&Shape) -> &Spread<4>,
        state: Option<State>,
    ) -> Result<Spread<7>, OutOfDomain> {
        let [(runs, one), (other_runs, other)] = &judged.rows;
        let mut both = self.loaded(*runs, part(one), state)?;
        both.take_wider(&self.loaded(*other_runs, part(other), state)?);
        Ok(both)
    }

    /// What is left once bend 1 has let go: the rope runs from the person to the next bend, so far from plumb, and pulls
    /// as it does then.
    fn without_the_first(&self, failed: &Failed, from_plumb: f64) -> Bend {
        let [first, second, third] = self.turns();
        let turn = from_plumb + first.angle.value + second.angle.value - self.load_runs.value;
        let onto = |angle: f64| Turn { angle: Angle::new::<radian>(angle), ..second };
        Bend {
            told: Told::Turn,
            first: onto(0.0),
            second: onto(turn - TAU * (turn / TAU).round()),
            third,
            load_runs: Angle::new::<radian>(from_plumb),
            runs: Runs::Lowering,
            passed: Whether::No,
            pulls: Pulls::Own,
            rope_force: failed.pull.map(Force::new::<newton>),
            ..*self
        }
    }

    /// What each bend that is left gets then, wherever the person swings: from where bend 1 let go to as far on the other
    /// side of plumb.
    pub(super) fn left(&self, failed: &Failed) -> Result<(Bend, Vec<Judged>), OutOfDomain> {
        let plumb = self.without_the_first(failed, 0.0);
        // Where the rope runs straight back it pulls this bend hardest, where it runs straight on the next one.
        let angle = plumb.second.angle.value;
        let between = [PI.copysign(angle) - angle, -angle].into_iter().filter(|swing| swing.abs() < failed.swings);
        let swings = (-4..=4).map(|part| f64::from(part) / 4.0 * failed.swings);
        let swings: Vec<f64> = swings.chain(between).collect();
        let mut judged = Vec::new();
        for place in 1..self.bends as usize {
            let mut wide = plumb.judge(place)?;
            for swing in &swings {
                let there = self.without_the_first(failed, *swing).judge(place)?;
                for ((_, wide), (_, found)) in wide.rows.iter_mut().zip(&there.rows) {
                    wide.iter_mut().zip(found).for_each(|(wide, found)| wide.take_wider(found));
                }
            }
            judged.push(wide);
        }
        Ok((plumb, judged))
    }

    /// Hardware before edges, whatever they carry: an edge has no anchor to judge.
    pub(super) fn rank(&self, judged: &Judged) -> Result<(bool, f64), OutOfDomain> {
        Ok((judged.anchored, self.either(judged, |[force, ..]| force, None)?.band.high()))
    }

    /// The bends, the person doing what `runs` allows, at one point of the ranges: body, kit, what is uncertain about the state (or the force
    /// itself), signed friction of each bend, share of the way past bend 1.
    pub(super) fn case(
        &self,
        runs: Option<Runs>,
        &[body, kit, at, one, two, three, past]: &[f64; 7],
    ) -> Result<[Bent; 3], OutOfDomain> {
        let tension = match self.pulls {
            Pulls::People => self.people.load_of_all(self.state_while(runs, None), body, kit, at)?,
            Pulls::Own => at,
        };
        self.bent(tension, &[one, two, three, past])
    }

    fn bent(&self, mut tension: f64, &[one, two, three, past]: &[f64; 4]) -> Result<[Bent; 3], OutOfDomain> {
        let mut turns = self.turns();
        // Until the person is past it the rope runs straight from what is beyond the bend.
        let [first, ..] = &mut turns;
        let mut heading = FRAC_PI_2 + self.load_runs.value - (1.0 - past) * first.angle.value;
        first.angle *= past;
        let mut bends = [Bent::default(); 3];
        for ((bent, turn), friction) in bends.iter_mut().zip(turns).zip([one, two, three]) {
            let (before, mu) = (Force::new::<newton>(tension), Ratio::new::<ratio>(friction.abs()));
            let law = if friction < 0.0 { bend::slack_side } else { bend::tight_side };
            *bent = Bent {
                over: turn.over,
                turn: turn.angle.value,
                friction,
                heading_in: heading,
                heading_out: heading - turn.angle.value,
                tension_in: tension,
                tension_out: law(before, mu, turn.angle.abs())?.value,
            };
            (heading, tension) = (bent.heading_out, bent.tension_out);
        }
        Ok(bends)
    }

    /// What the bend at `place` gets while friction works as the rope `runs`, or is not counted.
    pub(super) fn shape(&self, place: usize, runs: Option<Runs>) -> Result<Shape, OutOfDomain> {
        let mut signed = [Band::exact(0.0); 3];
        for (signed, turn) in signed.iter_mut().zip(self.turns()).take(self.bends as usize) {
            let friction = turn.over.friction(self.is_wet()).0;
            *signed = match runs {
                None => *signed,
                Some(Runs::Raising) => friction,
                Some(Runs::Lowering) => friction.map(|friction| -friction),
                Some(Runs::Rest) => Band::of(-friction.high(), 0.0, friction.high()),
            };
        }
        let [one, two, three] = signed;
        let at = |past: f64| {
            sweep([one, two, three, Band::exact(past)], |point| {
                let bends = self.bent(1.0, point)?;
                let [.., last] = bends;
                let bent = nth(&bends, place);
                let parts = bent.on_bolt(self.wall)?;
                let force = bent.resultant()?.value;
                let (out, along) = (parts.out.value, parts.along.value);
                // What goes into the rock is in neither part.
                let pressed = if force > 0.0 { 1.0 - out.hypot(along) / force } else { 0.0 };
                Ok([force, out, along, share_of_limit(parts)?, pressed, last.tension_out])
            })
        };
        let mut shape: Shape = at(1.0)?;
        if self.is_passed() {
            for number in 0..ON_THE_WAY {
                let earlier = at(f64::from(number) / f64::from(ON_THE_WAY))?;
                for (spread, earlier) in shape.iter_mut().zip(&earlier) {
                    spread.take_wider(earlier);
                }
            }
        }
        Ok(shape)
    }

    /// The bend at `place`: friction not counted first, unless counting it makes the force larger.
    pub(super) fn judge(&self, place: usize) -> Result<Judged, OutOfDomain> {
        let mut rows = [(None, self.shape(place, None)?), (Some(self.runs), self.shape(place, Some(self.runs))?)];
        let [plain, counted] = &rows;
        let most = |(runs, [force, ..]): &Row| Ok::<_, OutOfDomain>(self.loaded(*runs, force, None)?.band.high());
        if most(counted)? > most(plain)? {
            rows.swap(0, 1);
        }
        let anchored = self.turns().get(place).is_some_and(|turn| turn.over.has_anchor());
        Ok(Judged { place, anchored, rows })
    }

    /// The limit that was chosen, if it is that of a bolt which holds the bend.
    pub(super) fn limit_of_bolt(&self, anchored: bool) -> Option<&'static Strength> {
        let figure = self.against.figure().filter(|_| anchored && self.bolt != Bolt::None);
        figure.filter(|limit| [BOLT_AXIAL.name, BOLT_RADIAL.name].contains(&limit.name))
    }

    /// How each bend that an anchor holds stands against the limit, the worst first: tension and shear of its bolt
    /// together, if the limit is that of a bolt. The smaller pull can be the worse one, straight out of the rock.
    pub(super) fn compare(
        &self,
        judged: &Judged,
        others: &[Judged],
        at_rest: &[Judged],
    ) -> Result<Vec<Comparison>, OutOfDomain> {
        let mut comparisons: Vec<Comparison> = Vec::new();
        for held in [judged].into_iter().chain(others.iter().filter(|other| other.anchored)) {
            // One row for each, or a milder one could be taken for all of it.
            let mut worst = self.compare_one(held)?;
            if let Some(stopped) = at_rest.iter().find(|stopped| stopped.place == held.place) {
                let stopped = self.compare_one(stopped)?;
                if stopped.load.high() > worst.load.high() {
                    worst = stopped;
                }
            }
            let worse = comparisons.first().is_some_and(|first| worst.load.high() > first.load.high());
            comparisons.insert(if worse { 0 } else { comparisons.len() }, worst);
        }
        Ok(comparisons)
    }

    /// Whoever raises or lowers also stops, and friction then holds either way: what is judged so, and of the others
    /// what an anchor holds.
    pub(super) fn at_rest(&self, judged: &Judged, others: &[Judged]) -> Result<Vec<Judged>, OutOfDomain> {
        let mut at_rest = Vec::new();
        for held in [judged].into_iter().chain(others) {
            if self.runs != Runs::Rest && (held.anchored || held.place == judged.place) {
                let rest = (Some(Runs::Rest), self.shape(held.place, Some(Runs::Rest))?);
                at_rest.push(Judged { rows: [rest, rest], ..*held });
            }
        }
        Ok(at_rest)
    }

    pub(super) fn compare_one(&self, judged: &Judged) -> Result<Comparison, OutOfDomain> {
        let comparison = match self.limit_of_bolt(judged.anchored) {
            Some(limit) => {
                let share = self.either(judged, |[_, _, _, share, ..]| share, None)?.band;
                let way = if limit.name == BOLT_AXIAL.name { "straight out of the rock" } else { "along the rock" };
                let name = name(judged.place);
                let at_rest = if judged.worst() == Some(Runs::Rest) { " at rest" } else { "" };
                let what =
                    format!("as an equal pull {way}, tension and shear together, on the bolt of {name}{at_rest}");
                self.against.compare(self.with_states(what, None), share.map(|share| share * limit.force().value))
            }
            None => {
                let force = self.either(judged, |[force, ..]| force, None)?.band;
                let what = self.with_states(self.compared_words(judged), judged.worst());
                self.against.compare(what, force)
            }
        };
        let unknown = match self.bolt {
            _ if !judged.anchored => "an edge has no published strength",
            Bolt::Proud => "a bolt that stands proud bends",
            Bolt::None => "a sling, a tree or a block: no published strength holds for it",
            Bolt::Flat if Self::is_pressed(judged) => {
                "the pull presses into the rock: a figure of a bolt says nothing of that"
            }
            Bolt::Flat if comparison.load.high() == 0.0 => "nothing pulls on it: a straight rope is no bend",
            Bolt::Flat => return Ok(comparison),
        };
        Ok(comparison.of_unknown_part(unknown))
    }

    /// Whether some of the pull goes into the rock: then tension and shear leave some of it out.
    fn is_pressed(judged: &Judged) -> bool {
        judged.rows.iter().any(|(_, [.., pressed, _])| pressed.band.high() > 0.001)
    }

    /// What follows if bend 1 lets go under the person.
    pub(super) fn failed(&self) -> Result<Failed, OutOfDomain> {
        let [first, ..] = self.bent(1.0, &[0.0, 0.0, 0.0, 1.0])?;
        let [x, y] = along(first.heading_out, self.rope_above.value);
        let [u, v] = along(first.heading_in, -self.rope_below.value);
        let rope = self.rope_above + self.rope_below;
        let (aside, depth) = ((x - u).abs(), y - v);
        let drop = rope - Length::new::<metre>(depth);
        let drop = drop.max(Length::new::<metre>(0.0));
        let straight = aside.hypot(depth);
        let [body, kit] = self.people.inputs();
        let weight = |body, kit| Force::new::<newton>(self.people.weight_of_all(body, kit));
        // A bend gives way when it is pulled hardest: whoever lowers stops too, and friction may then hold back what is above.
        // Or earlier: then all of the slip or the jerk goes on as part of the fall.
        let [gone, ..] = self.turns();
        let friction = Ratio::new::<ratio>(gone.over.friction(self.is_wet()).0.high());
        let held_back = bend::tight_to_slack(friction, Angle::new::<radian>(gone.angle.value.abs()))?.value;
        let before = |body, kit, stiffness: f64| {
            let uncertain = self.state.uncertain().0;
            let at = if self.state == State::Slip { stiffness.min(uncertain.high()) } else { uncertain.high() };
            let pull = self.people.load_of_all(self.state, body, kit, at)?;
            Ok::<_, OutOfDomain>([held_back * pull, pull])
        };
        let pulls = |[body, kit, stiffness]: [f64; 3], [above, below]: [f64; 2]| {
            let rope = [(self.rope_above, above), (self.rope_below, below)];
            let rope = rope.map(|(length, pull)| (length, Force::new::<newton>(pull)));
            let [straight, down] = [straight, depth].map(Length::new::<metre>);
            Ok::<_, OutOfDomain>(
                fall::let_go(weight(body, kit), Force::new::<newton>(stiffness), rope, straight, down)?.value,
            )
        };
        // What that pulls, and how much higher than where they hang a fall begins that pulls as much (m). Who may slip may
        // come down in jerks as well, which pull harder on much rope.
        let moving = |weight: Force, stiffness: f64| {
            let (stiff, slack) = (Force::new::<newton>(stiffness), Length::new::<metre>(SLACK));
            let mut most = (fall::peak(weight, stiff, drop, rope)?.value, 0.0);
            if self.state == State::Slip {
                most = (fall::peak(weight, stiff, drop + slack, rope)?.value, SLACK);
            }
            if matches!(self.state, State::Slip | State::Jerky) {
                let gives = rope * (weight / stiff);
                let times = State::Jerky.uncertain().0.high();
                let jerk = fall::in_a_jerk(weight, Ratio::new::<ratio>(times), gives, drop)?.value;
                if jerk > most.0 {
                    most = (jerk, ((times - 1.0).powi(2) - 1.0) / 2.0 * gives.value);
                }
            }
            Ok::<_, OutOfDomain>(most)
        };
        let fallen = |stiffness| {
            sweep([body, kit, stiffness], |&point| {
                let [body, kit, stiffness] = point;
                let tight = pulls(point, before(body, kit, stiffness)?)?;
                let (loose, _) = moving(weight(body, kit), stiffness)?;
                Ok::<_, OutOfDomain>([tight.max(loose)])
            })
        };
        // As stiff as in the slip before, and as in the hardest fall that was measured.
        let [mut fall] = fallen(State::Slip.uncertain().0)?;
        if let Some((stiffness, _)) = Catcher::Canyon.stiffness() {
            let [hard] = fallen(Band::exact(stiffness.high()))?;
            fall.take_wider(&hard);
        }
        let [body, kit, _] = fall.at_low;
        // From beyond level it is a fall, whatever else it is.
        let from_plumb = Angle::new::<radian>(aside.atan2(depth).min(FRAC_PI_2));
        let swing = swing::peak(weight(body, kit), from_plumb)?.value;
        let [body, kit, stiffness] = fall.at_high;
        let before = before(body, kit, stiffness)?;
        let is_tight = pulls(fall.at_high, before)? >= fall.band.high();
        let (_, higher) = moving(weight(body, kit), stiffness)?;
        let ([above, below], begins) =
            if is_tight { (before, depth) } else { ([0.0; 2], (rope - drop).value - higher) };
        Ok(Failed {
            drop: drop.value,
            aside,
            swings: from_plumb.value,
            pull: Band::of(swing, fall.band.typical(), fall.band.high()),
            straight,
            at_most: [weight(body, kit).value, stiffness, above, below, begins],
        })
    }
}
