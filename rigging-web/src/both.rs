//! Words that tell a quantity in metres, kilograms or newtons, with the units chosen beside it.
//!
//! The library words its remarks, notes and cases once. Who reads feet types feet beside them: a number that has to be
//! turned over in the head is one that is misread.

use rigging_core::quantity::{self, Kind, Toward, Unit, Units};

/// What the library's words use.
const UNITS: [(&str, Kind, Unit); 5] = [
    ("m", Kind::Length, Unit::Metre),
    ("m/s", Kind::Speed, Unit::MetrePerSecond),
    ("kg", Kind::Mass, Unit::Kilogram),
    ("N", Kind::Force, Unit::Newton),
    ("kN", Kind::Force, Unit::Kilonewton),
];

/// The same words; behind each quantity, or range of it, that is not in the units chosen stands what it is in them.
pub fn both(words: &str, units: Units) -> String {
    let mut told = String::with_capacity(words.len());
    let mut before = [""; 3];
    for word in words.split(' ') {
        if !told.is_empty() {
            told.push(' ');
        }
        let bare = word.trim_end_matches(['.', ',', ';', ':', ')']);
        told += bare;
        if let Some(other) = other(&before, bare, units) {
            told += &[" (", &other, ")"].concat();
        }
        told += word.get(bare.len()..).unwrap_or_default();
        before = [before[1], before[2], word];
    }
    told
}

/// What the words before a unit make with it, in the units chosen.
fn other(&[low, to, high]: &[&str; 3], symbol: &str, units: Units) -> Option<String> {
    let (_, kind, unit) = UNITS.into_iter().find(|(name, ..)| *name == symbol)?;
    let metric = matches!(units.of(kind), Unit::Kilonewton | Unit::Metre | Unit::MetrePerSecond | Unit::Kilogram);
    let number = |word: &str| quantity::number(word.trim_start_matches('(')).filter(|_| !metric);
    let told = |number| units.measured(unit.to_si(number), kind, Toward::Nearest);
    let high = told(number(high)?);
    Some(match number(low).filter(|_| to == "to") {
        Some(low) => [told(low).as_str(), " to ", high.as_str()].concat(),
        None => high,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const FEET: Units = Units { force: Unit::PoundForce, length: Unit::Foot };

    #[test]
    fn what_was_chosen_stands_beside_what_is_told() {
        // 1 ft = 0.3048 m, 1 lb = 0.453 592 37 kg, 1 lbf = 4.448 222 N, all exact or nearly so.
        for (told, expected) in [
            ("Spare rope: 25 m for a drop.", "Spare rope: 25 m (82\u{a0}ft) for a drop."),
            ("0.5 m of slack on 3 m", "0.5 m (1.64\u{a0}ft) of slack on 3 m (9.84\u{a0}ft)"),
            ("goes 0.3 to 1 m, a fast one", "goes 0.3 to 1 m (0.984\u{a0}ft to 3.28\u{a0}ft), a fast one"),
            ("at 1.1 to 2.3 m/s;", "at 1.1 to 2.3 m/s (3.61\u{a0}ft/s to 7.55\u{a0}ft/s);"),
            ("(500 N each)", "(500 N (112\u{a0}lbf) each)"),
            ("can pull 15 kN and more", "can pull 15 kN (3370\u{a0}lbf) and more"),
            ("under 95 kg", "under 95 kg (209\u{a0}lb)"),
        ] {
            assert_eq!(both(told, FEET), expected);
        }
    }

    #[test]
    fn what_is_no_quantity_or_in_the_units_chosen_stays() {
        for told in ["800 to 1100 kg/m³", "0.65 m² and", "a metre", "W₁ m", "rope 9 mm thick", "to m", "", "lbs 3"]
        {
            assert_eq!(both(told, FEET), told);
        }
        let told = "3 m, 5 kN, 60 N, 80 kg, 1 m/s.";
        assert_eq!(both(told, Units::default()), told);
        assert_eq!(both("3 m, 5 kN", Units { length: Unit::Foot, ..Units::default() }), "3 m (9.84\u{a0}ft), 5 kN");
    }
}
