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

/// Refuses a page that holds an address of anything outside itself.
pub(crate) fn refuse_addresses(page: &str) -> Outcome<()> {
    let lower = page.to_ascii_lowercase().replace(VOCABULARY, "");
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

    #[test]
    fn a_page_that_points_elsewhere_is_refused_whatever_the_case() {
        for address in ADDRESSES {
            for page in [format!("<p>\n{address}x"), format!("<p>\n{}x", address.to_ascii_uppercase())] {
                let error = refuse_addresses(&page).expect_err(&page).to_string();
                assert!(error.starts_with("line 2 "), "{page}: {error}");
            }
        }
    }

    #[test]
    fn a_page_may_name_the_vocabulary_of_pictures_and_its_own_places() {
        let page = r##"<svg xmlns="http://www.w3.org/2000/svg"></svg><a href="#1/anchor">// no address</a>"##;
        assert!(refuse_addresses(page).is_ok());
    }
}
