//! Places for the words of a picture, so that none covers another.

/// A rectangle: left, top, right, bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Left edge.
    pub left: f64,
    /// Top edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Bottom edge.
    pub bottom: f64,
}

impl Frame {
    fn shared(&self, other: &Frame) -> f64 {
        let width = self.right.min(other.right) - self.left.max(other.left);
        let height = self.bottom.min(other.bottom) - self.top.max(other.top);
        if width > 0.0 && height > 0.0 { width * height } else { 0.0 }
    }

    fn grown(&self, by: f64) -> Frame {
        Frame { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    fn outside(&self, room: &Frame) -> f64 {
        (room.left - self.left).max(0.0)
            + (self.right - room.right).max(0.0)
            + (room.top - self.top).max(0.0)
            + (self.bottom - room.bottom).max(0.0)
    }
}

/// A word with the middle of its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// What it says.
    pub text: String,
    /// Its class in the style sheet.
    pub class: &'static str,
    /// Middle of the text.
    pub at: (f64, f64),
    /// The room it takes.
    pub frame: Frame,
    /// What it belongs to.
    pub near: (f64, f64),
    /// Whether a line leads there.
    led: bool,
}

/// A word farther from what it belongs to is led to it by a line, as is one nearer to something else.
const FAR: f64 = 16.0;

impl Label {
    /// The line from a word to what it belongs to, if it needs one.
    pub fn lead(&self) -> Option<((f64, f64), (f64, f64))> {
        self.led.then_some((self.edge(), self.near))
    }

    /// Where the frame is nearest to what the word belongs to.
    fn edge(&self) -> (f64, f64) {
        let Frame { left, top, right, bottom } = self.frame;
        (self.near.0.max(left).min(right), self.near.1.max(top).min(bottom))
    }

    fn gap(&self) -> f64 {
        let (x, y) = self.edge();
        (self.near.0 - x).hypot(self.near.1 - y)
    }
}

/// Finds places for words, one after the other; those put first have the better choice.
#[derive(Debug, Clone)]
pub struct Labels {
    room: Frame,
    strokes: Vec<((f64, f64), (f64, f64))>,
    placed: Vec<Label>,
    kept_off: Vec<Frame>,
}

/// Width of a letter and height of a line, in units of the picture: at most 7.9 on average in the widest of the
/// fonts that the browser checks meet.
const LETTER: f64 = 8.0;
const LINE: f64 = 16.0;

impl Labels {
    /// An empty picture of some size, with the strokes that words should keep off.
    pub fn new(width: f64, height: f64, strokes: Vec<((f64, f64), (f64, f64))>) -> Self {
        let room = Frame { left: 2.0, top: 2.0, right: width - 2.0, bottom: height - 2.0 };
        Labels::within(room, strokes)
    }

    /// The same in a part of a picture.
    pub fn within(room: Frame, strokes: Vec<((f64, f64), (f64, f64))>) -> Self {
        Labels { room, strokes, placed: Vec::new(), kept_off: Vec::new() }
    }

    /// Keeps words off something round.
    pub fn keep_off(&mut self, (x, y): (f64, f64), reach: f64) {
        self.kept_off.push(Frame { left: x - reach, top: y - reach, right: x + reach, bottom: y + reach });
    }

    /// Puts a word near a place.
    pub fn put(&mut self, text: String, class: &'static str, near: (f64, f64)) {
        let (width, height) = (LETTER * text.chars().count() as f64 + 4.0, LINE);
        let mut best: Option<(f64, Label)> = None;
        for ring in 0..9 {
            for turn in 0..16 {
                let angle = f64::from(turn) * std::f64::consts::TAU / 16.0;
                let reach = 4.0 + 12.0 * f64::from(ring);
                let at = (near.0 + angle.cos() * (reach + width / 2.0), near.1 + angle.sin() * (reach + height / 2.0));
                let frame = Frame {
                    left: at.0 - width / 2.0,
                    top: at.1 - height / 2.0,
                    right: at.0 + width / 2.0,
                    bottom: at.1 + height / 2.0,
                };
                let placed = self.placed.iter().map(|label| &label.frame);
                let covered: f64 = placed.chain(&self.kept_off).map(|other| other.shared(&frame)).sum();
                let crossed = self.strokes.iter().filter(|(from, to)| crosses(*from, *to, &frame)).count();
                let cost = 1000.0 * covered + 1000.0 * frame.outside(&self.room) + 40.0 * crossed as f64 + reach;
                let least = best.as_ref().map_or(f64::INFINITY, |(least, _)| *least);
                if cost >= least {
                    continue;
                }
                let mut label = Label { text: text.clone(), class, at, frame, near, led: false };
                let astray = self.is_astray(&label);
                label.led = astray || label.gap() > FAR;
                let hidden = self.is_hidden(&label);
                let cost = cost + 60.0 * f64::from(u8::from(astray)) + 100.0 * f64::from(u8::from(hidden));
                if cost < least {
                    best = Some((cost, label));
                }
            }
        }
        self.placed.extend(best.map(|(_, label)| label));
    }

    /// Whether a word comes nearer to another stroke than to its own.
    fn is_astray(&self, label: &Label) -> bool {
        let (x, y) = label.near;
        let own = Frame { left: x, top: y, right: x, bottom: y }.grown(1.0);
        // How near a stroke comes, in steps that double; what a word belongs to need be no stroke.
        let reaches = |mine: bool, reach: f64| {
            let around = label.frame.grown(reach);
            self.strokes.iter().any(|(from, to)| crosses(*from, *to, &own) == mine && crosses(*from, *to, &around))
        };
        let far = label.gap();
        let near = [2.0, 4.0, 8.0, 16.0, 32.0].into_iter().find(|reach| *reach >= far || reaches(true, *reach));
        reaches(false, near.unwrap_or(far).min(far))
    }

    /// Whether a word is led to its own through another, or covers what leads another to its own.
    fn is_hidden(&self, label: &Label) -> bool {
        let over = |one: &Label, other: &Label| one.lead().is_some_and(|(from, to)| crosses(from, to, &other.frame));
        self.placed.iter().any(|other| over(label, other) || over(other, label))
    }

    /// The words with their places.
    pub fn done(self) -> Vec<Label> {
        self.placed
    }
}

/// Whether a stroke passes through a rectangle (Liang–Barsky clipping).
fn crosses(from: (f64, f64), to: (f64, f64), frame: &Frame) -> bool {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (step, room) in
        [(-dx, from.0 - frame.left), (dx, frame.right - from.0), (-dy, from.1 - frame.top), (dy, frame.bottom - from.1)]
    {
        if step == 0.0 {
            if room < 0.0 {
                return false;
            }
        } else if step < 0.0 {
            enters = enters.max(room / step);
        } else {
            leaves = leaves.min(room / step);
        }
    }
    enters <= leaves
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_around_one_place_do_not_cover_each_other() {
        let mut labels = Labels::new(360.0, 300.0, vec![((180.0, 0.0), (180.0, 300.0))]);
        for _ in 0..6 {
            labels.put("on the left anchor 4.7 kN".into(), "", (180.0, 150.0));
        }
        let placed = labels.done();
        assert_eq!(placed.len(), 6);
        for (place, one) in placed.iter().enumerate() {
            assert_eq!(one.frame.outside(&Frame { left: 0.0, top: 0.0, right: 360.0, bottom: 300.0 }), 0.0);
            for other in &placed[place + 1..] {
                assert_eq!(one.frame.shared(&other.frame), 0.0, "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn a_word_is_nearer_to_its_own_stroke_than_to_another_and_its_lead_is_seen() {
        // A short arrow beside a long one, as in the polygon of a rope that is pulled down.
        let (long, short) = (((100.0, 60.0), (100.0, 240.0)), ((112.0, 130.0), (112.0, 170.0)));
        let mut labels = Labels::new(360.0, 300.0, vec![long, short]);
        labels.put("strand that rises 0.022 kN".into(), "", (112.0, 150.0));
        labels.put("strand pulled 0.072 kN".into(), "", (100.0, 150.0));
        let [rises, pulled] = &labels.done()[..] else { panic!("two words") };
        let near = |word: &Label, stroke: ((f64, f64), (f64, f64))| {
            (0..400).map(f64::from).find(|reach| crosses(stroke.0, stroke.1, &word.frame.grown(*reach))).unwrap()
        };
        assert!(
            near(rises, short) < near(rises, long) && near(pulled, long) < near(pulled, short),
            "{rises:?} {pulled:?}"
        );
        for (one, other) in [(rises, pulled), (pulled, rises)] {
            assert!(one.lead().is_none_or(|(from, to)| !crosses(from, to, &other.frame)));
        }
    }

    #[test]
    fn a_stroke_through_a_rectangle_is_seen() {
        let frame = Frame { left: 0.0, top: 0.0, right: 10.0, bottom: 10.0 };
        assert!(crosses((-5.0, 5.0), (15.0, 5.0), &frame));
        assert!(crosses((2.0, 2.0), (3.0, 3.0), &frame));
        assert!(!crosses((-5.0, 11.0), (15.0, 11.0), &frame));
        assert!(!crosses((-5.0, 0.0), (0.0, -5.0), &frame));
    }
}
