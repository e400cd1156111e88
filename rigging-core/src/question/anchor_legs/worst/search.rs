//! How the worst is searched for: scans over the ranges, then climbs and turns from the highest places met.

use super::super::rigged::{MOST, Point, Rigged, There};
use super::super::{AnchorLegs, BadInput, Rig, State};
use super::{FRICTION, LENGTHS, LOAD, Load, SAME, STIFFNESS, SWING, SWINGS, Worst, loaded, put};
use crate::band::{Band, Spread};

/// Halvings of the step in a climb.
const CLIMBS: u32 = 5;
/// How often each input is taken to its ends, and at how many swings to either side: to an eighth of the range.
const TURNS: u32 = 4;
const BESIDE: i32 = 4;

/// Climbs from a place and its value: each input from the first one on in turn, in steps that halve.
fn climb(
    bands: &[Band],
    first: usize,
    (mut point, mut best): (Point, f64),
    value: &mut dyn FnMut(&Point) -> Result<f64, BadInput>,
) -> Result<f64, BadInput> {
    for round in 0..CLIMBS {
        for (place, band) in bands.iter().enumerate().take(LENGTHS).skip(first) {
            let now = point.get(place).copied().unwrap_or_default();
            let whole = if place == SWING { 0.125 } else { 1.0 };
            let step = whole * (band.high() - band.low()) / f64::from(1_u32 << round);
            for tried in [now - step, now + step] {
                let tried = tried.max(band.low()).min(band.high());
                if tried == now {
                    continue;
                }
                let mut there = point;
                put(&mut there, place, tried);
                let result = value(&there)?;
                if result > best {
                    (point, best) = (there, result);
                    break;
                }
            }
        }
    }
    Ok(best)
}

impl<'a> Worst<'a> {
    pub(super) fn begin(legs: &'a AnchorLegs, there: There, state: State) -> Result<Self, BadInput> {
        let mut bands = legs.bands(state);
        for (number, band) in bands.iter_mut().skip(LENGTHS).enumerate() {
            if !there.leg(number) {
                *band = Band::exact(0.0);
            }
        }
        let typical = bands.map(|band| band.typical());
        let [light, heavy] = legs.loads(state)?;
        let rigged = Rigged::new(legs, there)?;
        let mut worst = Worst { rigged, state, bands, found: Vec::new(), scanned: Vec::new(), light, heavy };
        let found = worst.results(&typical)?;
        let spread =
            |result| Spread { band: Band::exact(result), moves: [0.0; 8 + MOST], at_low: typical, at_high: typical };
        worst.found = found.into_iter().map(spread).collect();
        Ok(worst)
    }

    fn results(&mut self, point: &Point) -> Result<Vec<f64>, BadInput> {
        let case = self.rigged.at(self.state, point)?;
        let mut results: Vec<f64> = case.on.iter().map(|on| on.norm()).collect();
        results.push(case.tensions.iter().copied().fold(0.0, f64::max));
        results.push(case.included);
        Ok(results)
    }

    pub(super) fn look(&mut self, point: &Point) -> Result<Vec<f64>, BadInput> {
        let results = self.results(point)?;
        for (spread, result) in self.found.iter_mut().zip(&results) {
            // Of places that come to the same the first: the picture would jump from one to the other.
            if *result > spread.band.high() * (1.0 + SAME) || *result < spread.band.low() * (1.0 - SAME) {
                spread.take_in(*result, point);
            }
        }
        Ok(results)
    }

    fn value(&mut self, point: &Point, which: usize) -> Result<f64, BadInput> {
        Ok(self.look(point)?.get(which).copied().unwrap_or_default())
    }

    /// The anchor that is loaded most, and its range.
    pub(in super::super) fn most(&self) -> (usize, Band) {
        let mut most = (0, Band::exact(0.0));
        for (number, spread) in self.found.iter().take(self.rigged.legs.count()).enumerate() {
            if spread.band.high() > most.1.high() {
                most = (number, spread.band);
            }
        }
        most
    }

    /// How far each input alone moves what is found.
    pub(super) fn each_alone(&mut self) -> Result<(), BadInput> {
        let typical = self.bands.map(|band| band.typical());
        for (place, band) in self.bands.into_iter().enumerate().filter(|(_, band)| !band.is_exact()) {
            let mut reach: Vec<_> =
                self.found.iter().map(|spread| (spread.band.typical(), spread.band.typical())).collect();
            for end in [band.low(), band.high()] {
                let mut point = typical;
                put(&mut point, place, end);
                for (reach, result) in reach.iter_mut().zip(self.look(&point)?) {
                    *reach = (reach.0.min(result), reach.1.max(result));
                }
            }
            for (spread, (least, most)) in self.found.iter_mut().zip(reach) {
                put(&mut spread.moves, place, most - least);
            }
        }
        Ok(())
    }

    /// Where the heaviest load each most, kept for the climbs. Two legs that may be tied are looked at in every way of it.
    pub(super) fn scan_heaviest(&mut self, swings: u32) -> Result<(), BadInput> {
        if self.to_tie().1.len() != 2 {
            self.scan(swings, Load::Heavy)?;
        }
        self.scan_ways(swings)?;
        self.scanned = self.found.iter().map(|spread| spread.at_high).collect();
        Ok(())
    }

    /// Every corner of the distances and the friction at swings across the range, under a load: the lightest on legs
    /// of typical stiffness, the heaviest on the softest and the stiffest, which share it in their own ways.
    pub(super) fn scan(&mut self, swings: u32, load: Load) -> Result<(), BadInput> {
        self.scan_from(self.bands.map(|band| band.typical()), swings, load)
    }

    /// The same on legs that are tied as at a point.
    fn scan_from(&mut self, mut point: Point, swings: u32, load: Load) -> Result<(), BadInput> {
        let [_, _, _, stiffness, apart, down, swing, friction, ..] = self.bands;
        let ends = |band: Band| if band.is_exact() { vec![band.typical()] } else { vec![band.low(), band.high()] };
        let (load, stiff) = match load {
            Load::Light => (self.light, vec![stiffness.typical()]),
            Load::Heavy => (self.heavy, ends(stiffness)),
        };
        let swings = if swing.is_exact() { 0 } else { swings };
        for number in 0..=swings {
            put(&mut point, SWING, swing.across(number, swings));
            for apart in ends(apart) {
                put(&mut point, 4, apart);
                for down in ends(down) {
                    put(&mut point, 5, down);
                    for friction in ends(friction) {
                        put(&mut point, FRICTION, friction);
                        for stiff in &stiff {
                            put(&mut point, STIFFNESS, *stiff);
                            self.look(&loaded(point, load))?;
                        }
                    }
                }
            }
        }
        Ok(())
    }

    /// Every corner of all that is uncertain under the heaviest, at swings across the range: few places for two legs, far
    /// too many for six.
    pub(super) fn corners(&mut self, swings: u32) -> Result<(), BadInput> {
        let bands = self.bands;
        let ends =
            || bands.iter().enumerate().skip(LOAD.len()).filter(|(place, band)| *place != SWING && !band.is_exact());
        let swing = self.bands.get(SWING).copied().unwrap_or(Band::exact(0.0));
        let swings = if swing.is_exact() { 0 } else { swings };
        let mut point = loaded(self.bands.map(|band| band.typical()), self.heavy);
        for number in 0..=swings {
            put(&mut point, SWING, swing.across(number, swings));
            for corner in 0..1_usize << ends().count() {
                for (bit, (place, band)) in ends().enumerate() {
                    put(&mut point, place, if corner >> bit & 1 == 1 { band.high() } else { band.low() });
                }
                self.look(&point)?;
            }
        }
        Ok(())
    }

    /// Legs tied so that few carry most, at swings across the range: one or two of them short, or one of them long. Two legs
    /// are few enough to look at every corner.
    fn scan_ways(&mut self, swings: u32) -> Result<(), BadInput> {
        let (long, legs) = self.to_tie();
        if long <= 0.0 || legs.len() < 2 {
            return Ok(());
        }
        if legs.len() == 2 {
            for way in 0..4 {
                let mut point = self.bands.map(|band| band.typical());
                self.tied(&mut point, way);
                self.scan_from(point, swings, Load::Heavy)?;
            }
            return Ok(());
        }
        let few = |way: &usize| (1..=2).contains(&way.count_ones()) || way.count_ones() as usize + 1 == legs.len();
        for way in (0..1_usize << legs.len()).filter(few) {
            let mut point = loaded(self.bands.map(|band| band.typical()), self.heavy);
            self.tied(&mut point, way);
            let swing = self.bands.get(SWING).copied().unwrap_or(Band::exact(0.0));
            let swings = if swing.is_exact() { 0 } else { swings };
            for number in 0..=swings {
                put(&mut point, SWING, swing.across(number, swings));
                self.look(&point)?;
            }
        }
        Ok(())
    }

    /// Ties the legs that are there short where `way` has a bit, else long.
    fn tied(&self, point: &mut Point, way: usize) {
        let (long, legs) = self.to_tie();
        for (bit, leg) in legs.into_iter().enumerate() {
            put(point, leg, if way >> bit & 1 == 1 { -long } else { long });
        }
    }

    /// As high as it goes: by the inputs, from where the scans found it and from where it was met since, tied in every way
    /// there, then by each input's ends and the inputs again.
    pub(super) fn rise(&mut self, which: usize) -> Result<(), BadInput> {
        self.find_slope(which)?;
        let met = self.found.get(which).map(|spread| spread.at_high);
        if let Some(&scanned) = self.scanned.get(which).filter(|scanned| met.as_ref() != Some(scanned)) {
            self.climb_from(which, scanned)?;
        }
        self.climb(which)?;
        if self.rigged.legs.rig == Rig::Fixed {
            self.tie_every_way(which)?;
            for _ in 0..TURNS {
                if !self.turn(which)? {
                    break;
                }
                self.climb(which)?;
            }
        }
        Ok(())
    }

    /// From where a leg is slack no climb leads anywhere, and where one of many carries most, the others are slack: it is
    /// tied short, the others long, at every corner.
    fn find_slope(&mut self, which: usize) -> Result<(), BadInput> {
        let (long, legs) = self.to_tie();
        if long > 0.0 && legs.len() > 2 {
            let mut point = self.bands.map(|band| band.typical());
            for leg in legs {
                put(&mut point, leg, if leg == LENGTHS + which { -long } else { long });
            }
            self.scan_from(point, SWINGS, Load::Heavy)?;
        }
        Ok(())
    }

    /// Climbs from the highest place found.
    pub(super) fn climb(&mut self, which: usize) -> Result<(), BadInput> {
        let Some(mut spread) = self.found.get(which).copied() else { return Ok(()) };
        // A force grows with the load; how legs lie need not.
        let first = if which <= self.rigged.legs.count() { LOAD.len() } else { 0 };
        if first > 0 {
            let point = loaded(spread.at_high, self.heavy);
            spread.take_in(self.value(&point, which)?, &point);
        }
        self.climb_from(which, spread.at_high)
    }

    fn climb_from(&mut self, which: usize, point: Point) -> Result<(), BadInput> {
        let first = if which <= self.rigged.legs.count() { LOAD.len() } else { 0 };
        let (bands, value) = (self.bands, self.value(&point, which)?);
        climb(&bands, first, (point, value), &mut |point| self.value(point, which))?;
        Ok(())
    }

    /// How far legs may be tied long, and the places of those that are there.
    fn to_tie(&self) -> (f64, Vec<usize>) {
        let legs = self.bands.iter().enumerate().skip(LENGTHS).filter(|(_, band)| !band.is_exact());
        (self.rigged.legs.tied_long(), legs.map(|(place, _)| place).collect())
    }

    /// Takes each other input to its ends, the load swung a little to either side: legs that stretch or are tied otherwise
    /// are loaded most at another swing. Whether that led higher.
    fn turn(&mut self, which: usize) -> Result<bool, BadInput> {
        let Some(before) = self.found.get(which).copied() else { return Ok(false) };
        let (mut point, mut best) = (before.at_high, before.band.high());
        let bands = self.bands;
        let swing = bands.get(SWING).copied().unwrap_or(Band::exact(0.0));
        let beside = if swing.is_exact() { 0 } else { BESIDE };
        for (place, band) in bands.iter().enumerate().skip(LOAD.len()) {
            if place == SWING || band.is_exact() {
                continue;
            }
            let from = point;
            let now = from.get(SWING).copied().unwrap_or_default();
            for end in [band.low(), band.high()] {
                for step in -beside..=beside {
                    let by = f64::from(step) * (swing.high() - swing.low()) / f64::from(8 * BESIDE);
                    let mut tried = from;
                    put(&mut tried, place, end);
                    put(&mut tried, SWING, (now + by).max(swing.low()).min(swing.high()));
                    let result = self.value(&tried, which)?;
                    if result > best {
                        (point, best) = (tried, result);
                    }
                }
            }
        }
        Ok(best > before.band.high() * (1.0 + SAME))
    }

    /// Ties each leg long or short, as it lowers what is found, then turns single legs round where that takes it further.
    pub(super) fn lower(&mut self, which: usize) -> Result<(), BadInput> {
        let (long, legs) = self.to_tie();
        let Some(start) = self.found.get(which).map(|spread| spread.at_low).filter(|_| long > 0.0) else {
            return Ok(());
        };
        let mut point = start;
        for &leg in &legs {
            if self.found.get(which).is_some_and(|spread| spread.band.low() <= 0.0) {
                return Ok(());
            }
            let mut tried = start;
            put(&mut tried, leg, long);
            let longer = self.value(&tried, which)?;
            put(&mut tried, leg, -long);
            put(&mut point, leg, if longer < self.value(&tried, which)? { long } else { -long });
        }
        let mut best = self.value(&point, which)?;
        for leg in legs {
            let mut tried = point;
            let now = point.get(leg).copied().unwrap_or_default();
            put(&mut tried, leg, -now);
            let result = self.value(&tried, which)?;
            if result < best {
                (point, best) = (tried, result);
            }
        }
        Ok(())
    }

    /// Every way in which the legs can be tied long or short, at the place where an anchor is loaded most.
    pub(super) fn tie_every_way(&mut self, which: usize) -> Result<(), BadInput> {
        let (long, legs) = self.to_tie();
        let Some(start) = self.found.get(which).map(|spread| spread.at_high).filter(|_| long > 0.0) else {
            return Ok(());
        };
        for way in 0..1_usize << legs.len() {
            let mut point = start;
            self.tied(&mut point, way);
            self.look(&point)?;
        }
        self.climb(which)
    }
}
