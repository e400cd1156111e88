//! The picture on a home screen: a closed polygon of three forces, as one drawing and as points.

use std::fmt::Write;

use crate::Outcome;

/// Sides of a square that the drawing fills.
const SIDE: f64 = 100.0;
const PAPER: Colour = [0xf4, 0xf1, 0xea];

type Colour = [u8; 3];

/// A stroke with round ends.
struct Stroke {
    from: (f64, f64),
    to: (f64, f64),
    wide: f64,
    colour: Colour,
}

const LOAD: Colour = [0x8f, 0x1d, 0x14];
const ANCHOR: Colour = [0x0a, 0x4a, 0x7d];

/// Later strokes lie on earlier ones. All of it stays in the circle that phones may cut out.
const STROKES: [Stroke; 4] = [
    Stroke { from: (38.0, 24.0), to: (38.0, 74.0), wide: 9.0, colour: LOAD },
    Stroke { from: (38.0, 74.0), to: (72.0, 44.0), wide: 9.0, colour: ANCHOR },
    Stroke { from: (72.0, 44.0), to: (38.0, 24.0), wide: 9.0, colour: ANCHOR },
    // The end of the load, where the polygon closes.
    Stroke { from: (38.0, 74.0), to: (38.0, 74.0), wide: 18.0, colour: LOAD },
];

/// The drawing as SVG.
pub(crate) fn svg() -> String {
    let hex = |colour: Colour| colour.iter().fold("#".to_owned(), |text, part| text + &format!("{part:02x}"));
    let mut svg = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {SIDE} {SIDE}"><rect width="{SIDE}" height="{SIDE}" fill="{}"/>"#,
        hex(PAPER)
    );
    for Stroke { from, to, wide, colour } in &STROKES {
        let _ = write!(
            svg,
            r#"<path d="M{} {}L{} {}" stroke="{}" stroke-width="{wide}" stroke-linecap="round"/>"#,
            from.0,
            from.1,
            to.0,
            to.1,
            hex(*colour)
        );
    }
    svg + "</svg>\n"
}

/// The drawing as PNG, so many points on a side.
pub(crate) fn png(side: u32) -> Outcome<Vec<u8>> {
    let points = (0..side).flat_map(|y| (0..side).flat_map(move |x| point(x, y, side))).collect::<Vec<u8>>();
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, side, side);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.write_header()?.write_image_data(&points)?;
    Ok(file)
}

/// The colour of a point: each stroke covers it as far as the point's middle lies within the stroke's edge.
fn point(x: u32, y: u32, side: u32) -> Colour {
    let scale = SIDE / f64::from(side);
    let at = ((f64::from(x) + 0.5) * scale, (f64::from(y) + 0.5) * scale);
    STROKES.iter().fold(PAPER, |under, stroke| {
        let cover = ((stroke.wide / 2.0 - distance(at, stroke)) / scale + 0.5).clamp(0.0, 1.0);
        let mut parts = under.iter().zip(&stroke.colour);
        std::array::from_fn(|_| {
            let (under, over) = parts.next().map_or((0.0, 0.0), |(under, over)| (f64::from(*under), f64::from(*over)));
            (under + cover * (over - under)).round() as u8
        })
    })
}

/// From a point to the middle line of a stroke.
fn distance((x, y): (f64, f64), Stroke { from, to, .. }: &Stroke) -> f64 {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let square = dx * dx + dy * dy;
    let along = if square > 0.0 { ((x - from.0) * dx + (y - from.1) * dy) / square } else { 0.0 };
    let along = along.clamp(0.0, 1.0);
    (x - from.0 - along * dx).hypot(y - from.1 - along * dy)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_have_the_colours_of_the_drawing() {
        assert_eq!(point(0, 0, 100), PAPER);
        assert_eq!(point(38, 50, 100), LOAD);
        assert_eq!(point(60, 36, 100), ANCHOR);
    }

    /// W3C, *Portable Network Graphics*, sections 5.2 and 11.2.1.
    #[test]
    fn the_picture_is_a_png_of_its_size() {
        let file = png(180).expect("memory can be written");
        assert_eq!(&file[..8], b"\x89PNG\r\n\x1a\n");
        assert_eq!(&file[16..24], [0, 0, 0, 180, 0, 0, 0, 180]);
    }

    #[test]
    fn what_is_drawn_stays_in_the_circle_that_is_not_cut_away() {
        // Web Application Manifest, "maskable": a radius of 40 % of the side.
        for Stroke { from, to, wide, .. } in STROKES {
            for (x, y) in [from, to] {
                assert!((x - 50.0_f64).hypot(y - 50.0) + wide / 2.0 <= 40.0, "{x} {y}");
            }
        }
    }
}
