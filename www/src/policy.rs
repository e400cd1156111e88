//! The content policy: the page may run its own scripts and style, start its module, and nothing else.

use sha2::{Digest, Sha256};

use crate::inline::{Script, Style, base64};

/// The policy as it stands in the page's `meta` element: these scripts and styles and no others, whoever puts them in.
pub(crate) fn policy(scripts: &[&Script], styles: &[&Style]) -> String {
    let scripts: String = scripts.iter().map(|script| hash(script.text()) + " ").collect();
    let styles: Vec<String> = styles.iter().map(|style| hash(style.text())).collect();
    format!(
        "default-src 'none'; script-src {scripts}'wasm-unsafe-eval'; style-src {}; base-uri 'none'; form-action 'none'",
        styles.join(" "),
    )
}

/// The policy of the hosted copy: it may also keep itself on the device, and has a picture for the home screen.
/// The page takes this end off again when it hands out the single file.
pub(crate) fn hosted(policy: &str) -> String {
    format!("{policy}; worker-src 'self'; manifest-src 'self'; img-src 'self'")
}

/// The hash source expression of an inline element with this text: W3C, *Content Security Policy Level 3*, section 2.3.1.
fn hash(text: &str) -> String {
    format!("'sha256-{}'", base64(&Sha256::digest(text.as_bytes())))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// W3C, *Content Security Policy Level 2*, section 7.17.1 (usage of hashes in `script-src`).
    #[test]
    fn the_hash_agrees_with_the_example_of_its_standard() {
        assert_eq!(hash("alert('Hello, world.');"), "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='");
    }

    /// FIPS 180-4, message digest of the empty message.
    #[test]
    fn the_hash_of_nothing_is_the_published_one() {
        assert_eq!(hash(""), "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
    }

    #[test]
    fn the_policy_allows_its_own_script_style_and_module_only() {
        let script = Script::new("alert('Hello, world.');").expect("it is plain");
        let style = Style::new("").expect("it is plain");
        let two = policy(&[&script, &Script::new("").expect("it is plain")], &[&style]);
        let both = "script-src 'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng=' 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=' 'wasm-unsafe-eval'";
        assert_eq!(two.split("; ").nth(1), Some(both));
        let two = policy(&[&script], &[&style, &style]);
        let both = "style-src 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=' 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='";
        assert_eq!(two.split("; ").nth(2), Some(both));
        assert_eq!(
            policy(&[&script], &[&style]).split("; ").collect::<Vec<_>>(),
            [
                "default-src 'none'",
                "script-src 'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng=' 'wasm-unsafe-eval'",
                "style-src 'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='",
                "base-uri 'none'",
                "form-action 'none'",
            ]
        );
    }
}
