//! A link as a code that a camera reads (ISO/IEC 18004), for the sheet of paper.

use maud::{Markup, html};
use qrcodegen::{QrCode, QrCodeEcc};

/// Empty modules that the standard asks for on each side.
const QUIET: i32 = 4;

/// The code of a text as a picture; nothing if the text is too long for any code.
///
/// Paper gets wet: a seventh of the code may be lost (level M, or better where there is room).
pub fn code(text: &str) -> Option<Markup> {
    let code = QrCode::encode_binary(text.as_bytes(), QrCodeEcc::Medium).ok()?;
    let whole = code.size() + 2 * QUIET;
    Some(html! {
        svg.qr viewBox={ "0 0 " (whole) " " (whole) } role="img" aria-label="QR code of the link below" shape-rendering="crispEdges" {
            rect width=(whole) height=(whole) fill="#fff" {}
            path fill="#000" d=(runs(&code)) {}
        }
    })
}

/// Each run of dark modules in a row as one bar: neighbours drawn one by one would show seams.
fn runs(code: &QrCode) -> String {
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let from = x;
            while code.get_module(x, y) {
                x += 1;
            }
            if x > from {
                path += &format!("M{} {}h{}v1h-{}z", from + QUIET, y + QUIET, x - from, x - from);
            }
            x += 1;
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The picture drawn with eight points to a module, from the bars of its path and nothing else.
    fn drawn(svg: &str) -> (usize, Vec<bool>) {
        let after = |text: &str, mark: &str| text.split_once(mark).unwrap().1.to_owned();
        let side: usize = after(svg, "viewBox=\"0 0 ").split(' ').next().unwrap().parse().unwrap();
        let path = after(svg, " d=\"");
        let mut dark = vec![false; 64 * side * side];
        for bar in path.split('"').next().unwrap().split_terminator('z') {
            let (x, rest) = bar.strip_prefix('M').unwrap().split_once(' ').unwrap();
            let (y, rest) = rest.split_once('h').unwrap();
            let wide = rest.split_once('v').unwrap().0;
            let [x, y, wide] = [x, y, wide].map(|number| 8 * number.parse::<usize>().unwrap());
            for row in y..y + 8 {
                dark[row * 8 * side + x..][..wide].fill(true);
            }
        }
        (8 * side, dark)
    }

    /// Read by a program that has nothing in common with the one that writes.
    fn read(svg: &str) -> String {
        let (side, dark) = drawn(svg);
        let mut picture =
            rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| if dark[y * side + x] { 0 } else { 255 });
        let grids = picture.detect_grids();
        assert_eq!(grids.len(), 1);
        grids[0].decode().unwrap().1
    }

    #[test]
    fn a_code_reads_back_as_its_link_short_or_as_long_as_links_get() {
        let long = format!("https://a.example/some/folder/#1/ln/{}", "a7.5_8.5/".repeat(33));
        for text in ["#1/ln", "https://a.example/#1/al/N6/a1.2_1.4/Upf", &long] {
            assert_eq!(read(&code(text).unwrap().into_string()), text);
        }
    }

    #[test]
    fn what_no_code_can_hold_is_not_drawn() {
        assert!(code(&"x".repeat(3000)).is_none());
    }
}
