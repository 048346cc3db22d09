//! Base64 for addresses: the URL-safe alphabet of RFC 4648, section 5, without padding.

use crate::wire::steps;

const ALPHABET: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/// Why a text is not the encoding of any bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// A character that cannot stand there; its byte, counted from 0.
    Character(usize),
    /// No such number of characters.
    Length,
}

/// Writes bytes.
pub fn encode(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len() / 3 * 4 + 4);
    for group in bytes.chunks(3) {
        let mut bits = 0;
        for at in 0..3 {
            bits = bits << 8 | usize::from(group.get(at).copied().unwrap_or(0));
        }
        for place in 0..=group.len() {
            let six = bits >> (18 - 6 * place) & 63;
            text.push(char::from(ALPHABET[six]));
        }
    }
    text
}

/// Reads bytes back. Only what [`encode`] writes is taken, so the bits left over must be zero.
///
/// # Errors
/// The first reason for which it cannot be read.
pub fn decode(text: &str) -> Result<Vec<u8>, Fault> {
    let mut bytes = Vec::with_capacity(text.len() / 4 * 3 + 2);
    let (mut bits, mut left) = (0u32, 0u32);
    steps::count(text.len());
    for (at, character) in text.bytes().enumerate() {
        let six = match character {
            b'A'..=b'Z' => character - b'A',
            b'a'..=b'z' => character - b'a' + 26,
            b'0'..=b'9' => character - b'0' + 52,
            b'-' => 62,
            b'_' => 63,
            _ => return Err(Fault::Character(at)),
        };
        bits = bits << 6 | u32::from(six);
        left += 6;
        if left >= 8 {
            left -= 8;
            bytes.push((bits >> left) as u8);
            bits &= (1 << left) - 1;
        }
    }
    match left {
        6 => Err(Fault::Length),
        _ if bits != 0 => Err(Fault::Character(text.len() - 1)),
        _ => Ok(bytes),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use base64::Engine;
    use base64::engine::general_purpose::URL_SAFE_NO_PAD;
    use proptest::prelude::*;

    #[test]
    fn what_cannot_be_read_has_its_place() {
        assert_eq!(decode("ab*d"), Err(Fault::Character(2)));
        assert_eq!(decode("ab=="), Err(Fault::Character(2)));
        assert_eq!(decode("abcda"), Err(Fault::Length));
        // One byte leaves four bits, two leave two: all must be zero.
        assert_eq!(decode("_w"), Ok(vec![255]));
        assert_eq!(decode("_x"), Err(Fault::Character(1)));
        assert_eq!(decode("__8"), Ok(vec![255, 255]));
        assert_eq!(decode("__9"), Err(Fault::Character(2)));
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn agrees_with_the_library(bytes in proptest::collection::vec(any::<u8>(), 0..40)) {
            let text = encode(&bytes);
            prop_assert_eq!(&text, &URL_SAFE_NO_PAD.encode(&bytes));
            prop_assert_eq!(decode(&text), Ok(bytes));
        }

        #[test]
        fn takes_what_the_library_takes(text in "[A-Za-z0-9_=+/\u{e9}-]{0,12}") {
            prop_assert_eq!(decode(&text).ok(), URL_SAFE_NO_PAD.decode(&text).ok());
        }
    }
}
