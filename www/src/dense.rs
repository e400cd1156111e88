//! Bytes as text that stands in a page as it is: 13 bits in two letters, where base64 puts 12.
//!
//! Method: that of basE91 (Henke) with 93 letters, the printable ones of ASCII but `<`: no other means anything inside a
//! script. `unpack.js` is the way back.

/// The letters, in the order of their values.
fn letters() -> [u8; 93] {
    let mut letters = [0; 93];
    let printable = (b'!'..=b'~').filter(|letter| *letter != b'<');
    letters.iter_mut().zip(printable).for_each(|(place, letter)| *place = letter);
    letters
}

/// Bytes as text.
pub(crate) fn dense(bytes: &[u8]) -> String {
    let letters = letters();
    let mut text = String::with_capacity(bytes.len() * 5 / 4);
    let mut put = |value: u32| text.extend(letters.get(value as usize).map(|letter| char::from(*letter)));
    let (mut bits, mut count) = (0_u32, 0);
    for byte in bytes {
        bits |= u32::from(*byte) << count;
        count += 8;
        if count > 13 {
            // Two letters have 8649 values: those below 457 have room for a fourteenth bit.
            let width = if bits % 8192 > 456 { 13 } else { 14 };
            let value = bits % (1 << width);
            bits >>= width;
            count -= width;
            put(value % 93);
            put(value / 93);
        }
    }
    if count > 0 {
        put(bits % 93);
        if count > 7 || bits > 92 {
            put(bits / 93);
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The way back, as `unpack.js` goes it.
    fn back(text: &str) -> Vec<u8> {
        let letters = letters();
        let values = text.bytes().map(|letter| letters.iter().position(|other| *other == letter).unwrap() as u32);
        let values: Vec<u32> = values.collect();
        let mut bytes = Vec::new();
        let (mut bits, mut count) = (0_u32, 0);
        for pair in values.chunks(2) {
            let [low, high] = pair else {
                bytes.push((bits | pair[0] << count) as u8);
                break;
            };
            let value = low + 93 * high;
            bits |= value << count;
            count += if value % 8192 > 456 { 13 } else { 14 };
            while count > 7 {
                bytes.push(bits as u8);
                bits >>= 8;
                count -= 8;
            }
        }
        bytes
    }

    #[test]
    fn bytes_of_every_kind_and_length_come_back() {
        let mut state = 1_u32;
        let mut random = move || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            (state >> 24) as u8
        };
        for length in (0..200).chain([5000]) {
            let cases = [vec![0; length], vec![255; length], (0..length).map(|_| random()).collect::<Vec<u8>>()];
            for bytes in cases {
                let text = dense(&bytes);
                let read = back(&text);
                // A last letter of nothing but padding may bring a zero along; the header of the module says its length.
                assert_eq!(&read[..length], bytes, "{length}");
                assert!(read[length..].iter().all(|byte| *byte == 0) && read.len() <= length + 1, "{length}");
            }
        }
    }

    #[test]
    fn it_takes_five_letters_for_four_bytes_and_none_means_anything_to_a_page() {
        let bytes: Vec<u8> = (0..100_000_u32).map(|place| (place.wrapping_mul(2_654_435_761) >> 13) as u8).collect();
        let text = dense(&bytes);
        assert!(text.len() < 122_700, "{}", text.len());
        assert!(text.bytes().all(|letter| letter.is_ascii_graphic() && letter != b'<'));
    }
}
