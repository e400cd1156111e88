//! The units that a person can choose from, and their letters in a link.

use rigging_core::quantity::{Unit, Units};

/// The forces to choose from.
pub const FORCES: [Unit; 3] = [Unit::Kilonewton, Unit::PoundForce, Unit::KilogramForce];
/// The lengths to choose from.
pub const LENGTHS: [Unit; 2] = [Unit::Metre, Unit::Foot];

/// The letters of these units in a link: nothing for kN and m.
pub fn letters(units: Units) -> String {
    let force = match units.force {
        Unit::PoundForce => "p",
        Unit::KilogramForce => "k",
        _ => "",
    };
    let length = if units.length == Unit::Foot { "f" } else { "" };
    format!("{force}{length}")
}

/// The units of these letters.
pub fn from_letters(letters: &str) -> Option<Units> {
    let mut units = Units::default();
    for letter in letters.chars() {
        match letter {
            'p' => units.force = Unit::PoundForce,
            'k' => units.force = Unit::KilogramForce,
            'f' => units.length = Unit::Foot,
            _ => return None,
        }
    }
    Some(units)
}

/// Units with the one chosen that has this symbol, of those to choose from.
pub fn with(units: Units, symbol: &str) -> Units {
    let is_named = |unit: &&Unit| unit.symbol() == symbol;
    Units {
        force: FORCES.iter().find(is_named).copied().unwrap_or(units.force),
        length: LENGTHS.iter().find(is_named).copied().unwrap_or(units.length),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_survive_a_link() {
        for force in FORCES {
            for length in LENGTHS {
                let units = Units { force, length };
                assert_eq!(from_letters(&letters(units)), Some(units));
            }
        }
        assert_eq!(from_letters("x"), None);
    }
}
