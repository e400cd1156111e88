//! Good inputs made bad, the same on every run of a seed.

use checks::Dice;

/// What a number is replaced by: the ends of what a float can be, the ends of what a field may be, and what is no number.
const NUMBERS: [&str; 26] = [
    "0",
    "-0",
    "0.0",
    "1",
    "-1",
    "2",
    "3",
    "6",
    "0.5",
    "0.02",
    "90",
    "200",
    "1e-9",
    "1e-308",
    "5e-324",
    "1e9",
    "1e15",
    "1e308",
    "-1e308",
    "1e999",
    "9007199254740993",
    "18446744073709551616",
    "NaN",
    "1e-999",
    "1e2147483647",
    "1e-2147483648",
];

/// What is put in anywhere.
const PIECES: [&str; 14] =
    ["[", "]", "{", "}", ",", "null", "\"\"", "/", "_", "\u{2212}", "\u{a0}", "\u{fffd}", "[[[[[[[[", "kN"];

/// No input grows beyond this.
const LONGEST: usize = 100_000;

/// Makes one changed input after another.
pub struct Mutator<'a> {
    seeds: &'a [Vec<u8>],
    dice: Dice,
}

impl<'a> Mutator<'a> {
    /// Changes `seeds`, as `seed` says.
    pub fn new(seed: u64, seeds: &'a [Vec<u8>]) -> Self {
        Mutator { seeds, dice: Dice::new(seed) }
    }

    fn any(&mut self) -> Vec<u8> {
        let place = self.dice.below(self.seeds.len());
        self.seeds[place].clone()
    }

    /// The next input.
    pub fn another(&mut self) -> Vec<u8> {
        let mut input = self.any();
        for _ in 0..=self.dice.below(4) {
            // Numbers most often: what still reads goes deepest.
            match self.dice.below(12) {
                0..=6 => self.other_number(&mut input),
                7 => self.other_byte(&mut input),
                8 => self.cut(&mut input),
                9 => self.twice(&mut input),
                10 => self.splice(&mut input),
                _ => self.put_in(&mut input),
            }
        }
        input.truncate(LONGEST);
        input
    }

    fn other_number(&mut self, input: &mut Vec<u8>) {
        let is_part = |byte: u8| byte.is_ascii_digit() || b".-+eE".contains(&byte);
        let end_of = |start: usize| (start..input.len()).find(|&at| !is_part(input[at])).unwrap_or(input.len());
        let is_start = |at: usize| input[at].is_ascii_digit() && (at == 0 || !is_part(input[at - 1]));
        // What stands before a quotation mark ends a name.
        let starts: Vec<usize> =
            (0..input.len()).filter(|&at| is_start(at) && input.get(end_of(at)) != Some(&b'"')).collect();
        if starts.is_empty() {
            return;
        }
        let start = starts[self.dice.below(starts.len())];
        let end = end_of(start);
        let number = match self.dice.below(3) {
            0 => NUMBERS[self.dice.below(NUMBERS.len())].to_owned(),
            // Near what it was.
            1 => {
                let was: f64 =
                    std::str::from_utf8(&input[start..end]).ok().and_then(|was| was.parse().ok()).unwrap_or(1.0);
                format!("{}", was * (self.dice.below(4001) as f64 / 1000.0 - 0.5))
            }
            // Any size there is.
            _ => format!("{:e}", f64::from_bits(self.dice.bits())).replace("inf", "1e400"),
        };
        input.splice(start..end, number.bytes());
    }

    fn other_byte(&mut self, input: &mut [u8]) {
        let (at, bit, whole) = (self.dice.below(input.len()), self.dice.below(8), self.dice.bits() as u8);
        if let Some(byte) = input.get_mut(at) {
            *byte = if whole & 1 == 0 { *byte ^ (1 << bit) } else { whole };
        }
    }

    /// A part of it: usually short, at times anything.
    fn part(&mut self, length: usize) -> std::ops::Range<usize> {
        let start = self.dice.below(length + 1);
        let most = if self.dice.below(3) == 0 { length } else { 24 };
        start..(start + self.dice.below(most + 1)).min(length)
    }

    fn cut(&mut self, input: &mut Vec<u8>) {
        let part = self.part(input.len());
        input.drain(part);
    }

    fn twice(&mut self, input: &mut Vec<u8>) {
        let part = input[self.part(input.len())].to_vec();
        let at = self.dice.below(input.len() + 1);
        input.splice(at..at, part);
    }

    fn splice(&mut self, input: &mut Vec<u8>) {
        let other = self.any();
        let end = self.dice.below(input.len() + 1);
        input.truncate(end);
        input.extend_from_slice(&other[self.dice.below(other.len())..]);
    }

    fn put_in(&mut self, input: &mut Vec<u8>) {
        let (piece, at) = (PIECES[self.dice.below(PIECES.len())], self.dice.below(input.len() + 1));
        input.splice(at..at, piece.bytes());
    }
}
