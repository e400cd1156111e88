//! Values that this code did not make: every row of the data files here is answered, within its tolerance.
//!
//! A row names its source beside its numbers, and whether the value is printed there or was worked out from it; where
//! nobody noted who wrote it, it says so. The functions that answer the rows are those of `rigging_core::published`, so
//! that the page can show the same list.
#![expect(clippy::expect_used, clippy::panic, clippy::unwrap_used, reason = "data that cannot be read stops the run")]

use rigging_core::published::{Row, check, ids};
use rigging_core::working::Known;
use std::collections::BTreeSet;
use std::path::Path;

/// The rows of every data file beside this one.
fn rows() -> Vec<Row> {
    lists().into_iter().flat_map(|(_, rows)| rows).collect()
}

/// The data files by their names.
fn lists() -> Vec<(String, Vec<Row>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("published");
    let mut files: Vec<_> = folder.read_dir().expect("the folder is there").map(|file| file.unwrap().path()).collect();
    files.retain(|path| path.extension().is_some_and(|ending| ending == "json"));
    files.sort();
    let read = |path: &std::path::PathBuf| {
        let text = std::fs::read_to_string(path).expect("the file can be read");
        let rows = serde_json::from_str(&text).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        (path.file_stem().unwrap().to_string_lossy().into_owned(), rows)
    };
    files.iter().map(read).collect()
}

/// Prints each row beside its own answers; everything that is wrong with the list, in sentences.
fn faults(rows: &[Row]) -> Vec<String> {
    let mut faults = Vec::new();
    let mut values = 0;
    let mut unused: BTreeSet<&str> = ids().collect();
    let mut seen = BTreeSet::new();
    for row in rows {
        let id = &row.id;
        unused.remove(id.as_str());
        if !seen.insert(id) {
            faults.push(format!("{id} stands twice"));
        }
        let source = &row.source;
        if [&row.what, &source.title, &source.place].iter().any(|text| text.trim().is_empty()) {
            faults.push(format!("{id} does not say what it is or where it was read"));
        }
        if matches!(source.known, Known::Assumed | Known::Yours) {
            faults.push(format!("{id} rests on nothing outside this project"));
        }
        println!("{id:4} {} [{}: {}, {}]", row.what, source.known.word(), source.title, source.place);
        match check(row) {
            Err(error) => faults.push(format!("{id}: {error}")),
            Ok(checked) if checked.is_empty() => faults.push(format!("{id} expects nothing")),
            Ok(checked) => {
                for value in checked {
                    let (misses_by, unit) = (value.misses_by(), &value.unit);
                    values += 1;
                    println!(
                        "     {}: expected {} {unit}, got {:.6} {unit}, difference ÷ tolerance {misses_by:.3}",
                        value.what, value.expected, value.got
                    );
                    if misses_by.is_nan() || misses_by > 1.0 {
                        faults.push(format!("{id}, {}: expected {}, got {}", value.what, value.expected, value.got));
                    }
                }
            }
        }
    }
    faults.extend(unused.into_iter().map(|id| format!("{id} has a function and no row")));
    if values == 0 {
        faults.push("no value was checked".into());
    }
    println!("{} rows, {values} values", rows.len());
    faults
}

#[test]
fn every_published_value_comes_out() {
    let faults = faults(&rows());
    assert!(faults.is_empty(), "{faults:#?}");
}

/// What stands in the place of a source that a reader cannot look up: a sheet, a course or a handbook without a name.
const NOT_NOTED: &str = "; no author";

/// The README says of each list how many rows it has, how many values are printed in their source, how many of these in
/// one that a reader can look up, how many were worked out, and how far off the worst is as a share of what the digits
/// leave open; and of all lists how many printed values can be looked up and how many cannot.
#[test]
fn the_readme_tells_the_worst_of_every_list() {
    let readme = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../README.md")).unwrap();
    let mut missing = Vec::new();
    let (mut all_printed, mut all_named) = (0, 0);
    for (name, rows) in lists() {
        let values = rows.iter().flat_map(|row| check(row).unwrap().into_iter().map(move |value| (row, value)));
        let values: Vec<_> = values.collect();
        let printed: Vec<_> = values
            .iter()
            .filter(|(row, value)| row.source.known == Known::Published && !value.what.contains("(derived)"))
            .collect();
        let named = printed.iter().filter(|(row, _)| !row.source.place.ends_with(NOT_NOTED)).count();
        let (printed, all) = (printed.len(), values.len());
        (all_printed, all_named) = (all_printed + printed, all_named + named);
        let misses = values.iter().map(|(row, value)| (value.misses_by(), &row.id));
        let (worst, id) = misses.max_by(|one, other| one.0.total_cmp(&other.0)).unwrap();
        let cells =
            format!("| `{name}` | {} | {printed} | {named} | {} | {worst:.2} ({id}) |", rows.len(), all - printed);
        if !readme.contains(&cells) {
            missing.push(cells);
        }
    }
    let counted = format!(
        "Of the {all_printed} printed values {all_named} stand in a work that you can look up; for the other {} ",
        all_printed - all_named
    );
    if !readme.contains(&counted) {
        missing.push(counted);
    }
    assert!(missing.is_empty(), "README.md should say: {missing:#?}");
}

#[cfg(test)]
mod the_check_can_fail {
    use super::*;

    /// What is said of the list after something was done to it.
    fn faults_after(change: impl FnOnce(&mut Vec<Row>)) -> Vec<String> {
        let mut rows = rows();
        change(&mut rows);
        faults(&rows)
    }

    #[test]
    fn each_single_value_that_is_off_is_found() {
        for (place, row) in rows().iter().enumerate() {
            for (list, expected) in row.expected.iter().enumerate() {
                for value in 0..expected.values.len() {
                    let found = faults_after(|rows| {
                        let wrong = &mut rows[place].expected[list].values[value];
                        *wrong += 0.02 * wrong.abs() + 0.02;
                    });
                    assert_eq!(found.len(), 1, "{} {value}", row.id);
                    assert!(found[0].starts_with(&row.id), "{found:?}");
                }
            }
        }
    }

    /// Numbers that may be off and no value of their row moves, with the reason.
    const UNSEEN: [(&str, &str); 21] = [
        ("F1 between_parts_deg 1", "parts that are nearly parallel: the cosine hardly changes"),
        ("F1 between_parts_deg 2", "parts that are nearly parallel: the cosine hardly changes"),
        ("F1 tension_kn 0", FACTOR),
        ("P3 rope_above_level_deg 0", TENTH),
        ("P3 rope_behind_feet_m 0", "a level rope turns by its height, wherever along it its end is"),
        ("P3 slope_deg 0", TENTH),
        ("P5 slope_deg 0", TENTH),
        ("D1 rope_m 0", "the stiffness of the whole rope is given, whatever its length"),
        ("D2 rope_m 0", "only the fall as a share of the rope counts"),
        ("D6 weight_n 0", FACTOR),
        ("D7 weight_n 0", FACTOR),
        ("D8 span_m 0", "a line without weight, twice as long, pulls alike"),
        ("D9 pull_of_legs_for_a_metre_kn 0", "the rope behind the legs gives seven times as much as they do"),
        ("D13 span_m 0", "a line without weight, twice as long, pulls alike"),
        ("S3 load_kn 0", FACTOR),
        ("S4 load_kn 0", FACTOR),
        ("S5 load_kn 0", FACTOR),
        ("S23 leg_a_deg 0", "the near leg carries all, and the other is slack whatever its angle"),
        ("S23 leg_b_deg 0", "the near leg carries all, and the other is slack whatever its angle"),
        ("W4 depth_m 1", "a class is wide, and this water in the middle of it"),
        ("W4 speed_m_per_s 1", "a class is wide, and this water in the middle of it"),
    ];
    const FACTOR: &str = "what comes out is a share of it";
    const TENTH: &str = "a tenth of a degree is less than the digits of the value";

    #[test]
    fn each_input_that_is_off_is_found() {
        use rigging_core::published::Input;
        let mut unseen = Vec::new();
        for (place, row) in rows().iter().enumerate() {
            for (name, input) in &row.inputs {
                // Each number of a list by itself.
                let each = if let Input::Numbers(numbers) = input { numbers.len() } else { 1 };
                for number in 0..each {
                    let found = faults_after(|rows| match rows[place].inputs.get_mut(name).unwrap() {
                        Input::Flag(flag) => *flag = !*flag,
                        Input::Number(number) => *number = *number * 1.1 + 0.1,
                        Input::Numbers(numbers) => numbers[number] = numbers[number] * 0.9 - 0.1,
                    });
                    if found.is_empty() {
                        unseen.push(format!("{} {name} {number}", row.id));
                    }
                }
            }
        }
        let known: Vec<_> = UNSEEN.iter().map(|(input, _)| *input).collect();
        assert_eq!(unseen, known);
    }

    #[test]
    fn a_value_that_is_not_a_number_is_a_miss() {
        let found = faults_after(|rows| rows[0].expected[0].values[0] = f64::NAN);
        assert_eq!(found.len(), 1, "{found:?}");
    }

    #[test]
    fn a_row_without_a_function_and_a_function_without_a_row_are_refused() {
        let found = faults_after(|rows| rows[0].id = "X1".into());
        assert_eq!(found.len(), 2, "{found:?}");
        assert!(found[0].contains("no function answers X1") && found[1].contains("no row"), "{found:?}");
    }

    #[test]
    fn an_id_that_stands_twice_is_refused() {
        let found = faults_after(|rows| rows.push(rows[0].clone()));
        assert!(found.len() == 1 && found[0].contains("twice"), "{found:?}");
    }

    #[test]
    fn a_row_without_a_source_is_refused() {
        assert_eq!(faults_after(|rows| rows[0].source.title.clear()).len(), 1);
        assert_eq!(faults_after(|rows| rows[0].source.place = " ".into()).len(), 1);
        assert_eq!(faults_after(|rows| rows[0].source.known = Known::Yours).len(), 1);
        let bare = r#"{"id": "S1", "what": "x", "inputs": {}, "expected": []}"#;
        let error = serde_json::from_str::<Row>(bare).unwrap_err().to_string();
        assert!(error.contains("source"), "{error}");
    }

    #[test]
    fn a_list_of_nothing_is_refused() {
        assert!(faults(&[]).iter().any(|fault| fault == "no value was checked"));
        assert_eq!(faults_after(|rows| rows[0].expected.clear()).len(), 1);
        let found = faults_after(|rows| {
            rows[0].expected[0].values.pop();
        });
        assert!(found.len() == 1 && found[0].contains("came out"), "{found:?}");
    }
}
