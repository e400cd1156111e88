//! Whatever line of people is entered.

use super::*;
use crate::limit::Standing;
use crate::question::Takes;
use proptest::prelude::*;

/// Any line of people that can be entered, on what its first stands or sits on.
fn any_line() -> impl Strategy<Value = HumanAnchor> {
    let fields = HumanAnchor::fields();
    prop::collection::vec((0.0..=1.0_f64, 0.0..=1.0_f64, 0_usize..60), fields.len()).prop_map(move |shares| {
        let mut line = HumanAnchor::default();
        for (field, (one, other, choice)) in fields.iter().zip(shares) {
            let entry = match field.about.takes {
                Takes::One { least, most } if field.about.kind == Kind::Count => {
                    Entry::One((least + one * (most - least)).round())
                }
                // A third of the time nothing, a third of the time little.
                Takes::One { least, most } if least <= 0.0 => {
                    let reach = [0.0, 0.15, 1.0][choice % 3];
                    Entry::One((least + one * (most - least)) * reach)
                }
                Takes::One { least, most } => Entry::One(least + one * (most - least)),
                Takes::Range { least, most } => {
                    let reach = [0.02, 1.0][choice % 2];
                    let (low, high) = (one.min(other) * reach, one.max(other) * reach);
                    let at = |share: f64| least + share * (most - least);
                    Entry::Range(Band::of(at(low), at((low + high) / 2.0), at(high)))
                }
                Takes::Choice(choices) => Entry::Choice(choices[choice % choices.len()].name),
            };
            (field.set)(&mut line, &entry);
        }
        HumanAnchor { seat: line.seat.under(line.stance), ..line }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn people_are_never_below_a_limit(line in any_line()) {
        // As entered, and under a load that almost anybody holds.
        let (still, caught) = (Band::exact(Force::new::<newton>(10.0)), Band::exact(Force::new::<newton>(11.0)));
        let light = HumanAnchor { forces: Forces::Taken, still, caught, ..line };
        for answer in [line.solve(), light.solve()].into_iter().flatten() {
            for row in answer.comparisons.iter().chain(&answer.usual) {
                prop_assert_ne!(row.standing, Standing::BelowLimit, "{}", row.what);
            }
        }
    }

    #[test]
    fn a_side_slope_or_a_rope_to_one_side_never_helps(line in any_line()) {
        let mut straight = line;
        straight.to_side = metres(0.0);
        straight.side_falls = share(0.0);
        for further in &mut straight.further {
            further.side_falls = share(0.0);
        }
        if let (Ok(aside), Ok(straight)) = (line.found(), straight.found()) {
            for (aside, straight) in [
                (aside.all, straight.all),
                (aside.alone, straight.alone),
                (aside.counted, straight.counted),
                (aside.ratio_slip, straight.ratio_slip),
            ] {
                let more = 1e-9 * straight.band.high() + 1e-9;
                prop_assert!(aside.band.low() <= straight.band.low() + more, "{:?} {:?}", aside.band, straight.band);
                prop_assert!(aside.band.typical() <= straight.band.typical() + more);
                prop_assert!(aside.band.high() <= straight.band.high() + more);
            }
        }
    }

    #[test]
    fn the_sum_is_never_more_than_the_first_and_most_of_what_others_hold(line in any_line()) {
        if let (Ok(found), Ok(told)) = (line.found(), line.each()) {
            let most = |outcome: &crate::question::Outcome| {
                outcome.findings.iter().filter(|finding| finding.end == crate::question::End::Low)
                    .map(|finding| finding.band.high()).fold(f64::INFINITY, f64::min)
            };
            let sum: f64 = told.iter().enumerate().map(|(number, one)| most(one) * if number == 0 { 1.0 } else { 0.8 }).sum();
            prop_assert!(found.all.band.high() <= sum * (1.0 + 1e-9) + 1e-9, "{} {sum}", found.all.band.high());
            prop_assert!(found.all.band.low() <= found.alone.band.low() + 1e-9);
        }
    }
}
