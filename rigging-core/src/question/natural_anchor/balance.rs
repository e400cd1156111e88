use super::*;
use proptest::prelude::*;

/// Whether ground that gives no pull back, and friction of at most so much, can keep a block at rest: forces and moments
/// in axes of gravity, about the ends of what it stands on.
fn stays(block: &NaturalAnchor, weight: f64, friction: f64, [front, rear]: [f64; 2], pull: f64) -> bool {
    let slope = block.falls.value.atan();
    let turn = |[along, square]: [f64; 2]| {
        [along * slope.cos() + square * slope.sin(), square * slope.cos() - along * slope.sin()]
    };
    let rope = -(block.down / block.out).value.atan();
    let rope = [pull * rope.cos(), pull * rope.sin()];
    let force = [rope[0], rope[1] - weight];
    let (along, square) = (turn([1.0, 0.0]), turn([0.0, 1.0]));
    let dot = |a: [f64; 2], b: [f64; 2]| a[0] * b[0] + a[1] * b[1];
    let (presses, drags) = (-dot(force, square), dot(force, along));
    let moment =
        |about: [f64; 2], at: [f64; 2], force: [f64; 2]| (at[0] - about[0]) * force[1] - (at[1] - about[1]) * force[0];
    // The block lies from -long to 0; its sling is at the face toward the load.
    let centre = turn([-block.long.value / 2.0, block.high.value / 2.0]);
    let sling = turn([0.0, block.sling.value]);
    let about = |edge: f64| moment(turn([edge, 0.0]), centre, [0.0, -weight]) + moment(turn([edge, 0.0]), sling, rope);
    // About the edge toward the load what acts turns it back onto the ground; about the rear edge, forward.
    presses >= 0.0 && drags.abs() <= friction * presses && about(front) >= 0.0 && about(rear) <= 0.0
}

proptest! {
    #[test]
    fn a_block_stays_until_the_pull_that_is_found_and_not_beyond(
        long in 0.3..3.0_f64, high in 0.3..3.0_f64, sling in 0.05..1.0_f64, falls in -0.7..0.3_f64,
        down in -2.0..2.0_f64, friction in 0.15..0.6_f64, share in 0.0..=1.0_f64, foot in 0.6..=1.0_f64,
    ) {
        let block = NaturalAnchor {
            kind: Natural::Block,
            long: metres(long),
            high: metres(high),
            sling: metres(sling * high),
            falls: Ratio::new::<ratio>(falls),
            out: metres(2.0),
            down: metres(down),
            ..NaturalAnchor::default()
        };
        let mut point = block.inputs().map(|input| input.typical());
        (point[6], point[7], point[11]) = (share, friction, foot);
        let weight = block.weight(&point).unwrap().value;
        let ways = block.ways(&point).unwrap();
        // What it stands on is in its middle. A pull that rises off the ground would gain by an edge farther back than
        // the face: for it the edge is at the face, and its toppling is counted with the shorter foot all the same.
        let rises = falls.atan() - (down / 2.0).atan() >= 0.0;
        let front = if rises { 0.0 } else { -long * (1.0 - foot) / 2.0 };
        let foot = [front, -long * (1.0 + foot) / 2.0];
        let least = ways.into_iter().flatten().fold(f64::INFINITY, f64::min);
        if least == 0.0 {
            prop_assert!(rises && ways[1] == Some(0.0) || !stays(&block, weight, friction, foot, 1e-9 * weight));
        } else if least < 1e6 * weight {
            // Without a pull too: ground that rises toward the load may let it slide away or tip back.
            prop_assert!(stays(&block, weight, friction, foot, 1e-9 * least), "{least}");
            prop_assert!(stays(&block, weight, friction, foot, least * (1.0 - 1e-9)), "{least}");
            let topples = ways[1].is_some_and(|force| force <= least);
            prop_assert!(rises && topples || !stays(&block, weight, friction, foot, least * (1.0 + 1e-9)), "{least}");
        }
    }
}

fn metres(value: f64) -> Length {
    Length::new::<metre>(value)
}
