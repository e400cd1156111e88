//! The page's outline with its places filled, and the check that it points nowhere else.

use crate::Outcome;

/// Fills every `{{name}}` of the outline. Each place must be there once; what is put in is not read again.
pub(crate) fn fill(outline: &str, parts: &[(&str, &str)]) -> Outcome<String> {
    let mut page = String::new();
    let mut rest = outline;
    let mut filled = Vec::new();
    while let Some((before, after)) = rest.split_once("{{") {
        let (name, after) = after.split_once("}}").ok_or("shell.html: a place opens with {{ and never closes")?;
        let (_, text) = parts
            .iter()
            .find(|(part, _)| *part == name)
            .ok_or_else(|| format!("shell.html: nothing goes into {{{{{name}}}}}"))?;
        if filled.contains(&name) {
            return Err(format!("shell.html: {{{{{name}}}}} is there twice").into());
        }
        filled.push(name);
        page.push_str(before);
        page.push_str(text);
        rest = after;
    }
    page.push_str(rest);
    match parts.iter().find(|(part, _)| !filled.contains(part)) {
        Some((part, _)) => Err(format!("shell.html: the place {{{{{part}}}}} is missing").into()),
        None => Ok(page),
    }
}

/// The one address a page may hold: the name of a picture's vocabulary, which no browser asks for.
const VOCABULARY: &str = "http://www.w3.org/2000/svg";

/// What can make a browser ask for something, in lower case.
/// What a style sheet can ask for is refused by [`Style`](crate::inline::Style).
const ADDRESSES: [&str; 16] = [
    "http:",
    "https:",
    "ws:",
    "wss:",
    "ftp:",
    "file:",
    "\"//",
    "'//",
    "`//",
    "=//",
    "src=",
    "srcset=",
    "<link",
    "<base",
    "<iframe",
    "http-equiv=\"refresh\"",
];

/// Where the page is hosted, for the codes on paper; empty if it is nowhere.
pub(crate) struct Address(String);

impl Address {
    /// Refuses what is no plain address of a folder or a file, or would end the attribute that it stands in.
    pub(crate) fn new(text: &str) -> Outcome<Address> {
        let plain = |letter: char| letter.is_ascii_alphanumeric() || "-._~:/%".contains(letter);
        if text.is_empty() || (text.starts_with("https://") && text.chars().all(plain)) {
            return Ok(Address(text.to_owned()));
        }
        Err(format!("hosted-address.txt: {text:?} is no plain https address").into())
    }

    /// The address.
    pub(crate) fn text(&self) -> &str {
        &self.0
    }
}

/// Refuses a page that holds an address of anything outside itself; its own, in the one attribute that no browser
/// follows, is none.
pub(crate) fn refuse_addresses(page: &str, own: &Address) -> Outcome<()> {
    let own = format!("data-address=\"{}\"", own.text());
    let lower = page.replacen(&own, "", 1).to_ascii_lowercase().replace(VOCABULARY, "");
    for address in ADDRESSES {
        if let Some((before, _)) = lower.split_once(address) {
            let line = before.matches('\n').count() + 1;
            return Err(format!("line {line} of the page contains {address}: it must point nowhere else").into());
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_is_filled_and_what_is_put_in_is_not_read_again() {
        let page = fill("<a>{{one}}</a><b>{{two}}</b>", &[("one", "{{two}}"), ("two", "2")]);
        assert_eq!(page.expect("all is there"), "<a>{{two}}</a><b>2</b>");
    }

    #[test]
    fn a_place_that_is_missing_unknown_doubled_or_open_is_named() {
        let parts = [("one", "1")];
        for (outline, complaint) in [
            ("nothing", "{{one}} is missing"),
            ("{{one}}{{two}}", "nothing goes into {{two}}"),
            ("{{one}}{{one}}", "{{one}} is there twice"),
            ("{{one", "never closes"),
        ] {
            let error = fill(outline, &parts).expect_err(outline).to_string();
            assert!(error.contains(complaint), "{outline}: {error}");
        }
    }

    const NOWHERE: Address = Address(String::new());

    #[test]
    fn a_page_that_points_elsewhere_is_refused_whatever_the_case() {
        for address in ADDRESSES {
            for page in [format!("<p>\n{address}x"), format!("<p>\n{}x", address.to_ascii_uppercase())] {
                let error = refuse_addresses(&page, &NOWHERE).expect_err(&page).to_string();
                assert!(error.starts_with("line 2 "), "{page}: {error}");
            }
        }
    }

    #[test]
    fn a_page_may_name_the_vocabulary_of_pictures_and_its_own_places() {
        let page = r##"<svg xmlns="http://www.w3.org/2000/svg"></svg><a href="#1/anchor">// no address</a>"##;
        assert!(refuse_addresses(page, &NOWHERE).is_ok());
    }

    #[test]
    fn the_address_of_the_page_is_let_through_once_and_as_data_only() {
        let own = Address::new("https://a.example/loads/").expect("it is plain");
        let data = r#"<html data-address="https://a.example/loads/">"#;
        assert!(refuse_addresses(data, &own).is_ok());
        assert!(refuse_addresses(data, &NOWHERE).is_err());
        assert!(refuse_addresses(&data.repeat(2), &own).is_err());
        for page in [r#"<a href="https://a.example/loads/">"#, r#"<html data-address="https://b.example/">"#] {
            assert!(refuse_addresses(page, &own).is_err(), "{page}");
        }
    }

    #[test]
    fn an_address_that_is_not_plain_is_refused() {
        assert!(Address::new("").is_ok());
        for text in [
            "http://a.example/",
            "a.example",
            "https://a.example/\" onload=\"",
            "https://a.example/#1",
            "https://a.example/?a",
        ] {
            assert!(Address::new(text).is_err(), "{text}");
        }
    }
}
