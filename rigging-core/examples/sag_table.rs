//! A guide line between two anchors: how far it sags and what it carries, by how tight it was pulled beforehand.
//!
//! EXAMPLE: every number here is invented; put your own in their place.
//!
//! ```text
//! cargo run --package rigging-core --example sag_table
//! ```

use rigging_core::law::OutOfDomain;
use rigging_core::law::taut_line::{self, Hung, TautLine};
use rigging_core::quantity::{Force, Length, decimal, kilonewton, metre, newton};

/// EXAMPLE: 20 m level, stiffness 30 kN, 800 N in the middle, pulled straight to `pre_tension` before.
fn hung(pre_tension: Force) -> Result<Hung, OutOfDomain> {
    let (span, stiffness) = (Length::new::<metre>(20.0), Force::new::<kilonewton>(30.0));
    let line = TautLine {
        span,
        rise: Length::new::<metre>(0.0),
        at: span / 2.0,
        unstretched: taut_line::unstretched_when_pulled_to(span, pre_tension, stiffness)?,
        stiffness,
    };
    taut_line::at_rest(&line, Force::new::<newton>(800.0))
}

fn main() -> Result<(), OutOfDomain> {
    println!("EXAMPLE: 800 N hanging still on a line of 20 m. A load, never a permission.\n");
    println!("pulled to   sag in the middle   tension");
    for pre_tension in [0.0, 0.5, 1.0, 2.0, 5.0] {
        let hung = hung(Force::new::<kilonewton>(pre_tension))?;
        let (sag, tension) = (hung.sag.get::<metre>(), hung.tension.get::<kilonewton>());
        println!("{:>6} kN   {:>15} m   {:>4} kN", decimal(pre_tension, 1), decimal(sag, 2), decimal(tension, 2));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: at any sag the tension is `W / (2 sin δ)`, tan δ = sag / 10 m; and a tighter line sags less and carries
    /// more.
    #[test]
    fn sag_and_tension_belong_together() {
        let mut before = (f64::INFINITY, 0.0);
        for pre_tension in [0.0, 0.5, 1.0, 2.0, 5.0] {
            let hung = hung(Force::new::<kilonewton>(pre_tension)).unwrap();
            let (sag, tension) = (hung.sag.value, hung.tension.value);
            assert!((tension - 800.0 / (2.0 * (sag / 10.0).atan().sin())).abs() < 1e-6 * tension);
            assert!(sag < before.0 && tension > before.1);
            before = (sag, tension);
        }
    }
}
