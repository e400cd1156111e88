//! For a class: what the angle between two equal legs does, per kilonewton of load.
//!
//! ```text
//! cargo run --package rigging-core --example angle_table
//! ```

use rigging_core::law::{OutOfDomain, two_legs};
use rigging_core::quantity::{Angle, Force, decimal, degree, kilonewton};

/// `angle  each leg` in degrees and kN, one line each.
fn table() -> Result<String, OutOfDomain> {
    let load = Force::new::<kilonewton>(1.0);
    let mut text = String::from("between the legs   each leg carries\n");
    for angle in [0, 30, 60, 90, 120, 150, 160, 170, 175] {
        let leg = two_legs::equal(load, Angle::new::<degree>(f64::from(angle)))?;
        text += &format!("{angle:>14}°   {:>10} kN\n", decimal(leg.get::<kilonewton>(), 2));
    }
    Ok(text)
}

fn main() -> Result<(), OutOfDomain> {
    print!("A load of 1 kN on two equal legs. A load, never a permission.\n\n{}", table()?);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::table;

    /// Spellman & Whiting, *Mathematics and Statistics for the Environment*, example 11.3: legs 30° above the level,
    /// so 120° apart, carry the whole load each; 60° above the level, 1155 of 2000 lb.
    #[test]
    fn the_table_holds_the_printed_values() {
        let table = table().unwrap();
        assert!(table.contains("120°         1.00 kN") && table.contains("60°         0.58 kN"), "{table}");
    }
}
