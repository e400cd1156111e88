//! Whether an expression of licences, as crates write it, is met by a list of them.
//!
//! # References
//! SPDX specification 2.3, annex D: `AND` binds closer than `OR`. Old crates write `/` for `OR`.

/// True if `list` holds enough of what `expression` asks for; false for what cannot be read.
pub fn is_met(expression: &str, list: &[&str]) -> bool {
    let spaced = expression.replace('/', " OR ").replace('(', " ( ").replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut rest = words.as_slice();
    let met = any(&mut rest, list);
    met == Some(true) && rest.is_empty()
}

fn any(words: &mut &[&str], list: &[&str]) -> Option<bool> {
    let mut met = all(words, list)?;
    while took(words, "OR") {
        met |= all(words, list)?;
    }
    Some(met)
}

fn all(words: &mut &[&str], list: &[&str]) -> Option<bool> {
    let mut met = one(words, list)?;
    while took(words, "AND") {
        met &= one(words, list)?;
    }
    Some(met)
}

fn one(words: &mut &[&str], list: &[&str]) -> Option<bool> {
    if took(words, "(") {
        let met = any(words, list)?;
        return took(words, ")").then_some(met);
    }
    let (name, rest) = words.split_first()?;
    *words = rest;
    if !took(words, "WITH") {
        return Some(list.contains(name));
    }
    let (exception, rest) = words.split_first()?;
    *words = rest;
    Some(list.contains(&format!("{name} WITH {exception}").as_str()))
}

fn took(words: &mut &[&str], word: &str) -> bool {
    match words.split_first() {
        Some((first, rest)) if *first == word => {
            *words = rest;
            true
        }
        _ => false,
    }
}

#[test]
fn an_expression_is_read_as_its_standard_says() {
    let list = ["MIT", "ISC", "Apache-2.0 WITH LLVM-exception"];
    for met in ["MIT", "MIT OR GPL-3.0", "GPL-3.0/MIT", "(GPL-3.0 OR MIT) AND ISC", "Apache-2.0 WITH LLVM-exception"] {
        assert!(is_met(met, &list), "{met}");
    }
    for not in
        ["", "GPL-3.0", "MIT AND GPL-3.0", "(GPL-3.0 AND MIT) OR", "Apache-2.0", "MIT OR ISC AND", "MIT MIT", "(MIT"]
    {
        assert!(!is_met(not, &list), "{not}");
    }
    // `AND` binds closer: this asks for GPL-3.0, or for both others.
    assert!(is_met("GPL-3.0 OR MIT AND ISC", &list) && !is_met("GPL-3.0 AND MIT OR GPL-3.0", &list));
}
