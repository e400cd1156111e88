//! Text that goes inside an element of the page: only what the browser will read back byte for byte.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

use crate::Outcome;

/// A script that can stand between `<script>` and `</script>`.
pub(crate) struct Script(String);

/// A style sheet that can stand between `<style>` and `</style>`.
pub(crate) struct Style(String);

impl Script {
    /// Refuses text that would end the element early, or change how its end is read.
    /// See the HTML standard, "Restrictions for contents of script elements".
    pub(crate) fn new(text: &str) -> Outcome<Script> {
        refuse("script", text, &["</script", "<script", "<!--"])?;
        Ok(Script(text.to_owned()))
    }

    /// The very bytes of the element.
    pub(crate) fn text(&self) -> &str {
        &self.0
    }
}

impl Style {
    /// Refuses text that would end the element early, or that asks for anything but a place in the page itself.
    pub(crate) fn new(text: &str) -> Outcome<Style> {
        refuse("style sheet", &text.replace("url(#", "("), &["</style", "url(", "image-set(", "@import"])?;
        Ok(Style(text.to_owned()))
    }

    /// The very bytes of the element.
    pub(crate) fn text(&self) -> &str {
        &self.0
    }
}

/// Bytes as standard base64 with padding, in one line.
pub(crate) fn base64(bytes: &[u8]) -> String {
    STANDARD.encode(bytes)
}

/// The browser turns carriage returns and NUL into other characters before it takes the hash, so they are refused too.
fn refuse(what: &str, text: &str, marks: &[&str]) -> Outcome<()> {
    let lower = text.to_ascii_lowercase();
    match marks.iter().chain(&["\r", "\0"]).find(|mark| lower.contains(**mark)) {
        Some(mark) => Err(format!("the {what} contains {mark:?}, which cannot be inlined").into()),
        None => Ok(()),
    }
}

/// The lines of a script or a style sheet without their indentation, and without those that only say something to
/// whoever reads the source: a tenth of the page beside its module.
///
/// Lines are kept apart, so that no statement is joined to the next. A text over several lines would be changed, so a
/// backtick must be closed on its line.
pub(crate) fn bare(text: &str) -> Outcome<String> {
    let (mut bare, mut says) = (String::new(), false);
    for line in text.lines().map(str::trim) {
        if !line.matches('`').count().is_multiple_of(2) {
            return Err(format!("a text goes over the end of a line: {line}").into());
        }
        says |= line.starts_with("/*");
        let end = line.find("*/").map(|at| at + 2);
        // What follows a remark on its line stays, the remark before it too.
        let all = line.starts_with("//") || line.is_empty() || says && end.is_none_or(|end| end == line.len());
        if !all {
            bare.push_str(line);
            bare.push('\n');
        }
        says &= end.is_none();
    }
    Ok(bare)
}

/// A script without the spaces that only its reader needs: none in a text, and none on a line with a pattern, a remark or
/// a text that may hold code.
pub(crate) fn bare_script(text: &str) -> Outcome<String> {
    const WIDE: [&str; 21] = [
        " = ", ", ", " {", "{ ", " }", "; ", " === ", " !== ", " => ", " && ", " || ", " ? ", " : ", ": ", " < ",
        " > ", " (", " * ", " += ", " -= ", " >>> ",
    ];
    let narrow = |code: &str| WIDE.iter().fold(code.to_owned(), |code, wide| code.replace(wide, wide.trim()));
    let mut script = String::new();
    for line in bare(text)?.lines() {
        let mut rest = if line.contains(['`', '/']) { "" } else { line };
        script.push_str(if rest.is_empty() { line } else { "" });
        while let Some((code, quote)) = rest.find(['\'', '"']).and_then(|at| rest.split_at_checked(at)) {
            let mark = quote.chars().next().unwrap_or_default();
            // What follows a backslash ends nothing.
            let mut taken = false;
            let end = quote.char_indices().skip(1).find(|&(_, sign)| {
                let ends = sign == mark && !taken;
                taken = sign == '\\' && !taken;
                ends
            });
            let (text, after) = end.and_then(|(end, _)| quote.split_at_checked(end + 1)).ok_or("a text without end")?;
            script.extend([&narrow(code), text]);
            rest = after;
        }
        script.push_str(&narrow(rest));
        // After these nothing can be read into the end of a line that holds no remark.
        if rest.is_empty() || !rest.ends_with([';', '{', ',']) {
            script.push('\n');
        }
    }
    Ok(script)
}

/// A style sheet without the spaces that only its reader needs.
pub(crate) fn bare_style(text: &str) -> Outcome<String> {
    const WIDE: [(&str, &str); 15] = [
        ("; ", ";"),
        (": ", ":"),
        (", ", ","),
        (" {", "{"),
        ("{ ", "{"),
        (" }", "}"),
        (" > ", ">"),
        (" 0.", " ."),
        (":0.", ":."),
        (",0.", ",."),
        ("(0.", "(."),
        ("\n", ""),
        (";}", "}"),
        ("#ffffff", "#fff"),
        ("#000000", "#000"),
    ];
    let style = WIDE.iter().fold(bare(text)?, |style, (wide, narrow)| style.replace(wide, narrow));
    Ok(style)
}

/// Elements without what every browser puts there by itself: a paragraph ends where the next begins (HTML standard,
/// "Optional tags"); what stands out does so by the shorter name, which looks alike.
pub(crate) fn bare_html(html: &str) -> String {
    const SHORTER: [(&str, &str); 5] =
        [("</p><p>", "<p>"), ("<strong>", "<b>"), ("</strong>", "</b>"), ("<em>", "<i>"), ("</em>", "</i>")];
    SHORTER.iter().fold(bare_tags(&bare_tables(html)), |html, (long, short)| html.replace(long, short))
}

/// Tables without the ends of their titles, cells, rows and groups, which every browser puts there by itself (HTML standard,
/// "Optional tags"): a hundredth of the file. What follows an end is another cell or row, or the end of what holds it.
/// A header heads its row by itself where its column holds nothing but headers ("Forming relationships between data cells
/// and header cells"), as the first column does here.
fn bare_tables(html: &str) -> String {
    let ends = ["</caption>", "</td>", "</th>", "</tr>", "</thead>", "</tbody>", " scope=\"row\""];
    ends.iter().fold(html.to_owned(), |html, end| html.replace(end, ""))
}

/// Tags whose values stand without quotes where every browser reads them alike (HTML standard, "Unquoted attribute
/// value syntax").
fn bare_tags(html: &str) -> String {
    let mut bare = String::with_capacity(html.len());
    let mut rest = html;
    while let Some((before, after)) = rest.split_once("=\"") {
        bare.push_str(before);
        let inside = bare.rfind('<') > bare.rfind('>');
        let value = after.split_once('"').filter(|(value, next)| {
            let plain = value.chars().all(|letter| letter.is_ascii_alphanumeric() || "-_.#".contains(letter));
            inside && plain && !value.is_empty() && next.starts_with([' ', '>'])
        });
        let Some((value, next)) = value else {
            bare.push_str("=\"");
            rest = after;
            continue;
        };
        bare.push('=');
        bare.push_str(value);
        rest = next;
    }
    bare + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_bare_says_the_same_to_a_browser() {
        let text = "// why\nvar a = 'x'; // kept\n\n  /* a */ b();\n/* all of it */\n/**\n * @param x\n */\n    return a + `// ${b}`;\n";
        let expected = "var a = 'x'; // kept\n/* a */ b();\nreturn a + `// ${b}`;\n";
        assert_eq!(bare(text).expect("it is plain"), expected);
        assert!(bare("a = `one\n  two`;").is_err());
    }

    #[test]
    fn a_bare_script_does_the_same() {
        let text = "  if (a === b && c !== d) {\n return e ? f : g(h, { x: i });\n}\ni = \"a, b = { c }\"; j = 'k = \\'l'  + 'm; ' + n;\nconst o = p => q - -r + +s;\nt = u / 2; v(\"/ = \");\n";
        let bare = "if(a===b&&c!==d){return e?f:g(h,{x:i});}\ni=\"a, b = { c }\";j='k = \\'l'  + 'm; ' + n;const o=p=>q - -r + +s;t = u / 2; v(\"/ = \");\n";
        assert_eq!(bare_script(text).expect("it is plain"), bare);
        assert!(bare_script("a = 'b;\n").is_err());
    }

    #[test]
    fn a_bare_style_sheet_has_the_same_rules() {
        let text = "/* why */\n.a :is(b, p) > i { margin: 0 0.5px; content: \"a b\"; color: #ffffff; }\n@media (min-width: 60rem) {\n  a { x: calc(1px + 2px) }\n}\n";
        let expected =
            ".a :is(b,p)>i{margin:0 .5px;content:\"a b\";color:#fff}@media (min-width:60rem){a{x:calc(1px + 2px)}}";
        assert_eq!(bare_style(text).expect("it is plain"), expected);
    }

    #[test]
    fn a_script_keeps_its_bytes() {
        let text = "if (a < b) { c = '\u{2014}' }\n";
        assert_eq!(Script::new(text).expect("it is plain").text(), text);
    }

    #[test]
    fn a_script_that_would_end_its_element_is_refused_in_any_case() {
        for text in ["'</script>'", "'</SCRIPT '", "'<Script>'", "<!-- x", "a\r\nb", "a\0"] {
            assert!(Script::new(text).is_err(), "{text:?}");
        }
    }

    #[test]
    fn a_style_sheet_that_would_end_its_element_or_ask_for_a_file_is_refused() {
        for text in ["'</Style>'", "url(a.png)", "URL('a.png')", "image-set('a.png' 1x)", "@import 'a.css';"] {
            assert!(Style::new(text).is_err(), "{text:?}");
        }
        assert!(Style::new("a > b { fill: url(#hatch) }").is_ok());
    }

    /// RFC 4648, section 10.
    #[test]
    fn base64_agrees_with_the_vectors_of_its_standard() {
        let encoded = ["", "f", "fo", "foo", "foob", "fooba", "foobar"].map(|text| base64(text.as_bytes()));
        assert_eq!(encoded, ["", "Zg==", "Zm8=", "Zm9v", "Zm9vYg==", "Zm9vYmE=", "Zm9vYmFy"]);
    }

    #[test]
    fn a_value_loses_its_quotes_only_where_nothing_else_could_be_read() {
        let full = "<a href=\"#ln\" class=\"x y\" title=\"\" aria-label=\"a=b\" id=\"z\">x=\"1\" </a><img alt=\"a\"/>";
        let bare = "<a href=#ln class=\"x y\" title=\"\" aria-label=\"a=b\" id=z>x=\"1\" </a><img alt=\"a\"/>";
        assert_eq!(bare_tags(full), bare);
    }

    #[test]
    fn tables_keep_all_that_a_browser_cannot_know() {
        let full = "<table><caption>a</caption><thead><tr><th scope=\"col\">b</th></tr></thead>\
                    <tbody><tr><th scope=\"row\">c</th><td>d</td></tr><tr><td>e</td></tr></tbody></table><p>f</p>";
        let bare = "<table><caption>a<thead><tr><th scope=\"col\">b\
                    <tbody><tr><th>c<td>d<tr><td>e</table><p>f</p>";
        assert_eq!(bare_tables(full), bare);
        assert_eq!(bare_html("<p>a</p><p><strong>b</strong></p><ul>c</ul>"), "<p>a<p><b>b</b></p><ul>c</ul>");
    }
}
