//! Tables that need no calculation, written into the file when it is packed: published strengths, knots, conditions,
//! design factors, and what the page was checked against.

use maud::{Markup, html};
use rigging_core::band::Band;
use rigging_core::published::{Checked, Row};
use rigging_core::quantity::{decimal, with_unit};
use rigging_core::strength::condition::CONDITIONS;
use rigging_core::strength::factor::FACTORS;
use rigging_core::strength::item::Material;
use rigging_core::strength::knot::{KNOTS, Kept};
use rigging_core::strength::{Bound, Strength, TABLES};

use crate::number::plain;

/// All tables, each folded, and the check values with this library's own answers.
pub fn still_tables(checks: &[(Row, Vec<Checked>)], notices: &[Notice]) -> String {
    html! {
        section.tables aria-label="Tables" {
            details #strengths { summary { "Published strengths, knots, conditions and design factors" } (strengths()) }
            details #checks { summary { "What this was checked against" } (checked(checks)) }
            details #licences { summary { "Licences" } (licences(notices)) }
        }
    }
    .into_string()
}

/// Who wrote a part of the module, and under which licence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// The name of the crate.
    pub name: String,
    /// Its licence, as crates write it.
    pub licence: String,
    /// Whom its notices name.
    pub holders: String,
}

/// Our own licence, whose words stand for most of the parts too.
fn licences(notices: &[Notice]) -> Markup {
    let (own, words) = include_str!("../../LICENSE").split_once("\n\nPermission").unwrap_or_default();
    html! {
        p { (own.replace('\n', " ")) ". “Permission " (words.trim()) "”" }
        p {
            "Under the same words, but where another licence is named: "
            @for (place, Notice { name, licence, holders }) in notices.iter().enumerate() {
                @if place > 0 { "; " }
                (name) " (" (holders) @if licence != "MIT" { ", " (licence) } ")"
            }
            ". The texts of the other licences are in licences.txt, published beside this page."
        }
    }
}

fn strengths() -> Markup {
    html! {
        p { "New, dry, conditioned specimens, one standard beside the other. They are not what hangs in a canyon. “From memory” means recalled, not read in the source." }
        @for table in TABLES {
            table {
                caption { (table.words) }
                tbody {
                    @for (row, from) in table.rows.iter().zip(known_from(table.rows, |row| row.source.told())) {
                        tr { th scope="row" { (row.part) } td { (figure(row)) } (from) }
                    }
                }
            }
        }
        table {
            caption { "Knots: strength kept of the unknotted rope, cord, tape or sling" }
            thead { tr { th scope="col" { "Knot" } th scope="col" { "Nylon, polyester" } th scope="col" { "HMPE" } th scope="col" { "Known from" } } }
            tbody {
                @for (knot, from) in KNOTS.iter().zip(known_from(KNOTS, |knot| knot.source.told())) {
                    tr {
                        th scope="row" { (knot.words) }
                        td { (kept(knot.measured(Material::Nylon))) }
                        td { (kept(knot.measured(Material::Hmpe))) }
                        (from)
                    }
                }
            }
        }
        table {
            caption { "Condition: strength kept" }
            tbody {
                @for (condition, from) in CONDITIONS.iter().zip(known_from(CONDITIONS, |row| row.source.told())) {
                    tr {
                        th scope="row" { (condition.words) }
                        td {
                            @match condition.kept {
                                Ok((low, _, high)) => (percent(Band::of(low, low, high))),
                                Err(why) => { "not checked: " (why) }
                            }
                        }
                        (from)
                    }
                }
            }
        }
        table {
            caption { "Design factors that people use" }
            tbody { @for factor in FACTORS { tr { th scope="row" { (factor.words) } td { (factor.source.told()) } } } }
        }
    }
}

/// How each row is known: told once for rows in a row that are known from the same.
fn known_from<T>(rows: &[T], told: impl Fn(&T) -> String) -> Vec<Markup> {
    let told: Vec<String> = rows.iter().map(told).collect();
    let alike = told.chunk_by(|one, other| one == other);
    let cells = alike.flat_map(|alike| {
        alike.iter().enumerate().map(|(place, words)| {
            let rows = (alike.len() > 1).then_some(alike.len());
            html! { @if place == 0 { td rowspan=[rows] { (words) } } }
        })
    });
    cells.collect()
}

fn figure(row: &Strength) -> String {
    let bound = match row.bound {
        Bound::AtLeast => "at least ",
        Bound::AtMost => "at most ",
        Bound::Typical => "about ",
    };
    [bound, &with_unit(&plain(row.printed), row.unit)].concat()
}

fn kept(kept: Kept) -> String {
    match kept {
        Kept::Share(low, _, high) => percent(Band::of(low, low, high)),
        Kept::NotMeasured(why) => format!("not measured: {why}"),
        Kept::Refused(why) => format!("refused: {why}"),
    }
}

fn percent(share: Band) -> String {
    let of = |share: f64| decimal(100.0 * share, 0);
    if share.is_exact() {
        format!("{} %", of(share.low()))
    } else {
        format!("{} to {} %", of(share.low()), of(share.high()))
    }
}

fn checked(checks: &[(Row, Vec<Checked>)]) -> Markup {
    html! {
        p { "Each published answer, and this page's own to the same inputs. The tests read the same list." }
        table {
            thead { tr { th scope="col" { "Case" } th scope="col" { "Expected" } th scope="col" { "Got" } th scope="col" { "Known from" } } }
            tbody {
                @for (row, values) in checks {
                    @let rows = (values.len() > 1).then_some(values.len());
                    @for (number, value) in values.iter().enumerate() {
                        tr {
                            @if number == 0 { th scope="row" rowspan=[rows] { (row.id) ": " (row.what) } }
                            td { (value.expected) " " (value.unit) }
                            td { (figures(value)) " " (value.unit) }
                            @if number == 0 {
                                td rowspan=[rows] { (row.source.title) ", " (row.source.place) " (" (row.source.known.word()) ")" }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Our own answer to one digit more than it is held to.
fn figures(value: &Checked) -> String {
    let places = (1.0 - value.tolerance.abs().max(1e-9).log10().floor()).clamp(0.0, 9.0) as usize;
    format!("{:.places$}", value.got)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_strength_knot_and_factor_is_in_the_tables_with_how_it_is_known() {
        let page = still_tables(&[], &[]);
        let escaped = |text: &str| html! { (text) }.into_string();
        for row in TABLES.iter().flat_map(|table| table.rows) {
            assert!(page.contains(&escaped(row.part)) && page.contains(&escaped(&row.source.told())), "{}", row.name);
        }
        for words in KNOTS.iter().map(|knot| knot.words).chain(FACTORS.iter().map(|factor| factor.words)) {
            assert!(page.contains(&escaped(words)), "{words}");
        }
        assert!(page.contains("at most 1800\u{a0}lbf") && page.contains("66 to 80 %") && page.contains("from memory"));
    }

    #[test]
    fn what_rows_in_a_row_are_known_from_is_told_once_beside_all_of_them() {
        let cells = known_from(&["a", "a", "b", "a"], |row| (*row).to_owned());
        let cells: Vec<String> = cells.into_iter().map(Markup::into_string).collect();
        assert_eq!(cells, ["<td rowspan=\"2\">a</td>", "", "<td>b</td>", "<td>a</td>"]);
    }

    #[test]
    fn a_check_shows_expected_and_got_with_its_source() {
        let row: Row = serde_json::from_str(
            r#"{"id": "F4", "what": "A rope bent", "inputs": {"tight_n": 1000, "friction": 0.25, "turning_angle_deg": 180},
                "expected": [{"what": "slack side", "unit": "N", "values": [455.9], "within": {"absolute": 0.05}}],
                "source": {"title": "Tayal, Engineering Mechanics", "place": "example 7.4", "known": "published"}}"#,
        )
        .unwrap();
        let values = rigging_core::published::check(&row).unwrap();
        let page = still_tables(&[(row, values)], &[]);
        assert!(page.contains("<td>455.9 N</td><td>455.938 N</td>"), "{page}");
        assert!(page.contains("Tayal, Engineering Mechanics, example 7.4 (published)"));
    }

    #[test]
    fn the_licences_of_what_is_inside_are_told_with_their_words() {
        let notice = |name: &str, licence: &str| Notice {
            name: name.to_owned(),
            licence: licence.to_owned(),
            holders: "2020 A. Person".to_owned(),
        };
        let page = still_tables(&[], &[notice("one", "MIT"), notice("other", "Apache-2.0")]);
        assert!(page.contains("“Permission is hereby granted, free of charge"), "{page}");
        assert!(page.contains("one (2020 A. Person); other (2020 A. Person, Apache-2.0)."), "{page}");
    }
}
