//! The hash that fingerprints are made with.

/// FNV-1a with 64 bits, over the bits of numbers.
///
/// # Source
/// G. Fowler, L. C. Noll, K.-P. Vo, the FNV hash (public domain), offset and prime for 64 bits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Hash(u64);

impl Default for Hash {
    /// Of nothing.
    fn default() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }
}

impl Hash {
    /// Adds a byte.
    pub fn byte(&mut self, byte: u8) {
        self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    }

    /// Adds a whole number, its least byte first.
    pub fn whole(&mut self, whole: u64) {
        for byte in whole.to_le_bytes() {
            self.byte(byte);
        }
    }

    /// Adds a number, bit by bit.
    pub fn number(&mut self, value: f64) {
        self.whole(value.to_bits());
    }

    /// What came of it.
    pub fn value(self) -> u64 {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: test vectors of the FNV reference code, from memory.
    #[test]
    fn known_texts_have_their_hash() {
        for (text, expected) in [
            ("", 0xcbf2_9ce4_8422_2325),
            ("a", 0xaf63_dc4c_8601_ec8c),
            ("foobar", 0x8594_4171_f739_67e8),
        ] {
            let mut hash = Hash::default();
            text.bytes().for_each(|byte| hash.byte(byte));
            assert_eq!(hash.value(), expected, "{text}");
        }
    }
}
