//! Sliding and toppling in water of `law::standing` against contact forces under both edges of the feet, with the drag
//! added up slice by slice.

use crate::contacts::Body;
use crate::dice::Dice;
use rigging_core::law::standing::{Board, slides_in_water, topples_in_water};
use rigging_core::quantity::{Force, Length, MassDensity, Ratio, kilogram_per_cubic_metre, metre, newton, ratio};

#[test]
fn a_board_in_the_current_goes_where_the_contacts_let_go() {
    let (mut slid, mut toppled) = (0, 0);
    for seed in 0..2000 {
        let dice = &mut Dice::new(seed ^ 0x57A2D);
        let (weight, friction) = (dice.between(50.0, 1200.0), dice.between(0.1, 1.0));
        let (breadth, coefficient) = (dice.between(0.2, 0.7), dice.between(0.9, 1.6));
        let (density, depth) = (dice.between(1000.0, 1100.0), dice.between(0.1, 1.6));
        let arm = dice.between(0.05, 0.5);
        let board = Board {
            weight: Force::new::<newton>(weight),
            breadth: Length::new::<metre>(breadth),
            coefficient: Ratio::new::<ratio>(coefficient),
            density: MassDensity::new::<kilogram_per_cubic_metre>(density),
            depth: Length::new::<metre>(depth),
        };
        let slides = slides_in_water(&board, Ratio::new::<ratio>(friction)).unwrap().value;
        let topples = topples_in_water(&board, Length::new::<metre>(arm)).unwrap().value;
        // At 1 m/s, slice by slice; the sum acts at the height that has the same moment.
        const SLICES: usize = 500;
        let slice = depth / SLICES as f64;
        let push = density * coefficient * breadth * slice / 2.0;
        let (mut force, mut moment) = (0.0, 0.0);
        for number in 0..SLICES {
            force += push;
            moment += push * slice * (number as f64 + 0.5);
        }
        let body = Body {
            weight,
            centre: [-arm, 0.9],
            friction,
            push: 0.0,
            slope: 0.0,
            rope: 0.0,
            sling: [0.0, moment / force],
            contacts: vec![[0.0, 0.0], [-2.0 * arm, 0.0]],
        };
        let speed = (body.holds(100.0 * weight).unwrap() / force).sqrt();
        let law = slides.min(topples);
        assert!((speed - law).abs() < 1e-5 * law, "{seed}: contacts {speed}, slides {slides}, topples {topples}");
        if slides < topples { slid += 1 } else { toppled += 1 }
    }
    assert!(slid > 300 && toppled > 300, "{slid} {toppled}");
}
