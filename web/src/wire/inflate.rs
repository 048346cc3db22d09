//! Unpacks what links carry: a zlib stream (RFC 1950) around a DEFLATE stream (RFC 1951).
//!
//! A link is a few thousand bytes, and each module of the page has to have this. So it reads a code bit by
//! bit and has no tables but the counts of codes by length and their letters in order, which
//! RFC 1951, 3.2.2, makes enough; an unpacker made for speed is four times as large. What it must hold
//! is what it makes, bounded by `most`, and two trees.

use crate::wire::steps;

/// Why a stream was refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// It ends too early.
    Truncated,
    /// It is no such stream, from about this byte on, counted from 1.
    Damaged(usize),
    /// The checksum does not fit.
    Checksum,
    /// Something follows after its end.
    Trailing,
    /// It holds more than was allowed.
    TooLong,
}

/// Letters of lengths and literals, and of distances: those that are coded, RFC 1951, 3.2.6.
const LETTERS: usize = 288;
const FAR_LETTERS: usize = 32;
/// The letter that ends a block.
const END: usize = 256;
/// Longest code, bits.
const LONGEST: usize = 15;
/// In which order the lengths of the codes of lengths are written, RFC 1951, 3.2.7.
const ORDER: [u8; 19] = [
    16, 17, 18, 0, 8, 7, 9, 6, 10, 5, 11, 4, 12, 3, 13, 2, 14, 1, 15,
];

/// Unpacks one stream that must end where the bytes end, into `most` bytes at most.
///
/// # Errors
/// The first reason for which it cannot be unpacked.
pub fn inflate(packed: &[u8], most: usize) -> Result<Vec<u8>, Fault> {
    let mut reader = Reader::new(packed, most);
    let read = reader.stream();
    steps::count(reader.at + reader.made.len());
    read.map(|()| reader.made)
}

/// A code by which letters are written, RFC 1951, 3.2.2: the shorter first, of one length in order.
struct Tree {
    /// How many letters have a code of each length.
    counts: [u16; LONGEST + 1],
    /// The letters in the order of their codes.
    letters: [u16; LETTERS],
}

impl Tree {
    /// The code in which each letter has this length; 0: it has none. `None`: there is no such code. A
    /// code of which something is left is taken only if it has one letter, RFC 1951, 3.2.7, or none.
    fn new(lengths: &[u8]) -> Option<Self> {
        steps::count(lengths.len());
        let mut counts = [0; LONGEST + 1];
        for &length in lengths {
            *counts.get_mut(usize::from(length))? += 1;
        }
        counts[0] = 0;
        let mut places = [0; LONGEST + 1];
        let (mut left, mut used) = (1_i32, 0);
        for (place, &count) in places.iter_mut().zip(&counts).skip(1) {
            *place = used;
            used += usize::from(count);
            left = 2 * left - i32::from(count);
            if left < 0 {
                return None;
            }
        }
        if left > 0 && used > 1 {
            return None;
        }
        let mut letters = [0; LETTERS];
        for (letter, &length) in lengths.iter().enumerate().filter(|(_, l)| **l > 0) {
            let place = places.get_mut(usize::from(length))?;
            *letters.get_mut(*place)? = letter as u16;
            *place += 1;
        }
        Some(Self { counts, letters })
    }
}

struct Reader<'a> {
    packed: &'a [u8],
    /// How many bytes have been taken.
    at: usize,
    /// Bits of the last byte that were not read yet, the next one lowest, and how many.
    held: u32,
    bits: u32,
    made: Vec<u8>,
    most: usize,
}

impl<'a> Reader<'a> {
    fn new(packed: &'a [u8], most: usize) -> Self {
        Reader {
            packed,
            at: 0,
            held: 0,
            bits: 0,
            made: Vec::new(),
            most,
        }
    }

    fn damaged(&self) -> Fault {
        Fault::Damaged(self.at.max(1))
    }

    fn byte(&mut self) -> Result<u8, Fault> {
        let byte = *self.packed.get(self.at).ok_or(Fault::Truncated)?;
        self.at += 1;
        Ok(byte)
    }

    /// A number of so many bits, 16 at most.
    fn number(&mut self, bits: u32) -> Result<usize, Fault> {
        while self.bits < bits {
            self.held |= u32::from(self.byte()?) << self.bits;
            self.bits += 8;
        }
        let number = self.held & ((1 << bits) - 1);
        self.held >>= bits;
        self.bits -= bits;
        Ok(number as usize)
    }

    fn letter(&mut self, tree: &Tree) -> Result<usize, Fault> {
        // How far the code lies behind the first of its length, and the place of that one's letter.
        let (mut behind, mut place) = (0, 0);
        for &count in &tree.counts[1..] {
            let count = usize::from(count);
            behind = 2 * behind + self.number(1)?;
            if behind < count {
                let letter = tree.letters.get(place + behind);
                return letter.map(|l| usize::from(*l)).ok_or(self.damaged());
            }
            behind -= count;
            place += count;
        }
        Err(self.damaged())
    }

    fn put(&mut self, byte: u8) -> Result<(), Fault> {
        if self.made.len() == self.most {
            return Err(Fault::TooLong);
        }
        self.made.push(byte);
        Ok(())
    }

    fn stream(&mut self) -> Result<(), Fault> {
        let (method, flags) = (self.byte()?, self.byte()?);
        let check = u32::from(method) * 256 + u32::from(flags);
        // DEFLATE with a window of 32 kB or less, and no dictionary.
        if method & 15 != 8 || method > 0x78 || flags & 32 != 0 || check % 31 != 0 {
            return Err(self.damaged());
        }
        loop {
            let last = self.number(1)? == 1;
            match self.number(2)? {
                0 => self.stored()?,
                1 => {
                    let mut lengths = [8; LETTERS];
                    lengths[144..256].fill(9);
                    lengths[256..280].fill(7);
                    self.coded(&lengths, &[5; FAR_LETTERS])?;
                }
                2 => self.described()?,
                _ => return Err(self.damaged()),
            }
            if last {
                break;
            }
        }
        let mut sum = 0;
        for _ in 0..4 {
            sum = sum << 8 | u32::from(self.byte()?);
        }
        if sum != adler_32(&self.made) {
            return Err(Fault::Checksum);
        }
        if self.at < self.packed.len() {
            return Err(Fault::Trailing);
        }
        Ok(())
    }

    /// A block of bytes as they are. What is left of a byte before it means nothing.
    fn stored(&mut self) -> Result<(), Fault> {
        (self.held, self.bits) = (0, 0);
        let length = self.number(16)?;
        if self.number(16)? != length ^ 0xffff {
            return Err(self.damaged());
        }
        for _ in 0..length {
            let byte = self.byte()?;
            self.put(byte)?;
        }
        Ok(())
    }

    /// A block whose codes are described at its beginning, RFC 1951, 3.2.7.
    fn described(&mut self) -> Result<(), Fault> {
        let near = self.number(5)? + 257;
        let far = self.number(5)? + 1;
        let written = self.number(4)? + 4;
        if near > 286 || far > 30 {
            return Err(self.damaged());
        }
        let mut lengths = [0; ORDER.len()];
        for &letter in &ORDER[..written] {
            lengths[usize::from(letter)] = self.number(3)? as u8;
        }
        let tree = Tree::new(&lengths).ok_or(self.damaged())?;
        let mut lengths = Vec::with_capacity(LETTERS + FAR_LETTERS);
        while lengths.len() < near + far {
            let letter = self.letter(&tree)?;
            let (length, times) = match letter {
                16 => {
                    let before = *lengths.last().ok_or(self.damaged())?;
                    (before, 3 + self.number(2)?)
                }
                17 => (0, 3 + self.number(3)?),
                18 => (0, 11 + self.number(7)?),
                length => (length as u8, 1),
            };
            lengths.resize(lengths.len() + times, length);
        }
        if lengths.len() > near + far {
            return Err(self.damaged());
        }
        let (near, far) = lengths.split_at(near);
        self.coded(near, far)
    }

    /// The letters of a block, by codes of these lengths.
    fn coded(&mut self, near: &[u8], far: &[u8]) -> Result<(), Fault> {
        let near = Tree::new(near).ok_or(self.damaged())?;
        let far = Tree::new(far).ok_or(self.damaged())?;
        loop {
            match self.letter(&near)? {
                END => return Ok(()),
                byte if byte < END => self.put(byte as u8)?,
                letter => {
                    let letter = letter - END - 1;
                    let length = match letter {
                        28 => 258,
                        29.. => return Err(self.damaged()),
                        _ => self.spread(letter, 2)? + 3,
                    };
                    let letter = self.letter(&far)?;
                    if letter >= 30 {
                        return Err(self.damaged());
                    }
                    let back = self.spread(letter, 1)? + 1;
                    for _ in 0..length {
                        let from = self.made.len().checked_sub(back);
                        let byte = from.and_then(|from| self.made.get(from)).copied();
                        self.put(byte.ok_or(self.damaged())?)?;
                    }
                }
            }
        }
    }

    /// Lengths and distances from 0, RFC 1951, 3.2.5: the first two groups of `2^fine` letters stand for one
    /// each, those of each later group for twice as many as before, which of them is told by more bits.
    fn spread(&mut self, letter: usize, fine: u32) -> Result<usize, Fault> {
        let group = letter >> fine;
        if group < 2 {
            return Ok(letter);
        }
        let more = group as u32 - 1;
        let begins = (letter - ((group - 1) << fine)) << more;
        Ok(begins + self.number(more)?)
    }
}

/// The checksum of RFC 1950, 8.2.
fn adler_32(bytes: &[u8]) -> u32 {
    let (mut a, mut b) = (1_u32, 0);
    for &byte in bytes {
        a = (a + u32::from(byte)) % 65_521;
        b = (b + a) % 65_521;
    }
    b << 16 | a
}

#[cfg(test)]
mod tests {
    use super::*;
    use miniz_oxide::deflate::compress_to_vec_zlib;
    use miniz_oxide::inflate::TINFLStatus;
    use miniz_oxide::inflate::core::{DecompressorOxide, decompress, inflate_flags};
    use proptest::prelude::*;
    use proptest::{collection, sample};

    const MOST: usize = 100_000;

    /// The same by another program: what was made, and how many bytes were read for it.
    fn otherwise(packed: &[u8]) -> Option<(Vec<u8>, usize)> {
        let mut made = vec![0; MOST];
        let flags = inflate_flags::TINFL_FLAG_PARSE_ZLIB_HEADER
            | inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
        let mut state = DecompressorOxide::new();
        let (status, read, written) = decompress(&mut state, packed, &mut made, 0, flags);
        made.truncate(written);
        (status == TINFLStatus::Done).then_some((made, read))
    }

    fn the_same(packed: &[u8]) {
        let whole = otherwise(packed).filter(|(_, read)| *read == packed.len());
        assert_eq!(
            inflate(packed, MOST).ok(),
            whole.map(|(made, _)| made),
            "{packed:02x?}"
        );
    }

    /// A zlib stream around these bits of DEFLATE, the first lowest in its byte, that stands for `made`.
    fn around(bits: &str, made: &[u8]) -> Vec<u8> {
        let bits: Vec<u8> = bits
            .bytes()
            .filter(|b| b.is_ascii_digit())
            .map(|b| b - b'0')
            .collect();
        let bytes = bits
            .chunks(8)
            .map(|bits| bits.iter().rev().fold(0, |byte, bit| byte << 1 | bit));
        let mut packed = vec![0x78, 0x9c];
        packed.extend(bytes);
        packed.extend(adler_32(made).to_be_bytes());
        packed
    }

    /// By hand after RFC 1950, 8.2: one more than the sum of the bytes, and the sum of these sums.
    #[test]
    fn the_checksum_is_the_two_sums() {
        assert_eq!(adler_32(b"ab"), (98 + 196) << 16 | 196);
        assert_eq!(adler_32(b""), 1);
    }

    /// Each group of RFC 1951, 3.2.5: its least and its greatest length and distance. The numbers are those
    /// of the tables there, from memory.
    #[test]
    fn lengths_and_distances_are_those_of_the_tables() {
        let spread = |letter, fine, bits: [u8; 2]| {
            let mut reader = Reader::new(&bits, 0);
            reader.spread(letter, fine)
        };
        let least = |letter, fine| spread(letter, fine, [0, 0]).unwrap();
        let greatest = |letter, fine| spread(letter, fine, [255, 255]).unwrap();
        let lengths = [
            3, 4, 5, 6, 7, 8, 9, 10, 11, 13, 15, 17, 19, 23, 27, 31, 35, 43, 51, 59, 67, 83, 99,
            115, 131, 163, 195, 227, 259,
        ];
        for letter in 0..28 {
            assert_eq!(least(letter, 2) + 3, lengths[letter], "{letter}");
            assert_eq!(greatest(letter, 2) + 4, lengths[letter + 1], "{letter}");
        }
        let distances = [
            1, 2, 3, 4, 5, 7, 9, 13, 17, 25, 33, 49, 65, 97, 129, 193, 257, 385, 513, 769, 1025,
            1537, 2049, 3073, 4097, 6145, 8193, 12289, 16385, 24577, 32769,
        ];
        for letter in 0..30 {
            assert_eq!(least(letter, 1) + 1, distances[letter], "{letter}");
            assert_eq!(greatest(letter, 1) + 2, distances[letter + 1], "{letter}");
        }
    }

    #[test]
    fn refusals_name_their_reason() {
        let packed = compress_to_vec_zlib(b"the worker, the line, the worker, the line", 9);
        let changed = |at: usize, with: u8| {
            let mut packed = packed.clone();
            packed[at] ^= with;
            inflate(&packed, MOST)
        };
        for end in 0..packed.len() {
            assert_eq!(
                inflate(&packed[..end], MOST),
                Err(Fault::Truncated),
                "{end}"
            );
        }
        // Another method, a dictionary (its flag and a check that fits), a window that is not allowed.
        assert_eq!(changed(0, 1), Err(Fault::Damaged(2)));
        assert_eq!(inflate(&[0x78, 0xbb], MOST), Err(Fault::Damaged(2)));
        assert_eq!(inflate(&[0x88, 0x1c], MOST), Err(Fault::Damaged(2)));
        assert_eq!(changed(packed.len() - 1, 1), Err(Fault::Checksum));
        assert_eq!(inflate(&packed, 42).map(|made| made.len()), Ok(42));
        assert_eq!(inflate(&packed, 41), Err(Fault::TooLong));
        let mut more = packed.clone();
        more.push(0);
        assert_eq!(inflate(&more, MOST), Err(Fault::Trailing));
    }

    /// By hand, a block each: the kind that is none, a length that is not confirmed, a distance before
    /// the beginning, letters that are none, codes that are too many, too few, and nothing to repeat.
    #[test]
    fn damaged_blocks_are_refused() {
        for (bits, what) in [
            ("1 11", "kind"),
            ("1 00 00000 1000000000000000 1111111111111111", "stored"),
            ("1 10 0000001 00000", "distance"),
            ("1 10 11000110 00000", "length 286"),
            ("1 10 00110000 0000001 01111", "distance 30"),
            ("1 01 00000 00000 0000 100 100 100 000", "too many"),
            ("1 01 00000 00000 0000 010 010 000 000", "too few"),
            (
                "1 01 00000 00000 0000 100 000 000 100 1 00",
                "nothing before",
            ),
            ("1 01 11111 00000 0000 000 000 000 000", "287 letters"),
        ] {
            let packed = around(&format!("{bits}{}", "0".repeat(200)), b"");
            let read = inflate(&packed, MOST);
            assert!(matches!(read, Err(Fault::Damaged(_))), "{what}: {read:?}");
            assert_eq!(otherwise(&packed), None, "{what}");
        }
    }

    /// By hand: one letter of a distance with a code of one bit and the other bit free, RFC 1951, 3.2.7;
    /// an empty block of each kind before another.
    #[test]
    fn what_is_rare_is_read() {
        let nothing = around(
            "0 00 00000 0000000000000000 1111111111111111 1 10 0000000",
            b"",
        );
        assert_eq!(inflate(&nothing, MOST), Ok(Vec::new()));
        the_same(&nothing);
        let text = vec![b'a'; 60_000];
        the_same(&compress_to_vec_zlib(&text, 9));
        assert_eq!(inflate(&compress_to_vec_zlib(&text, 9), MOST), Ok(text));
    }

    /// Blocks whose trees cost most for the fewest bytes: a tree is built at most for each 10 bits.
    #[test]
    fn steps_are_in_proportion_to_the_stream() {
        for block in ["0 10 0000000", "0 01 00000 00000 1011"] {
            let packed = around(&block.repeat(8_000), b"");
            let (_, counted) = steps::counted(|| inflate(&packed, MOST));
            assert!(counted <= 400 * packed.len() as u64, "{block}: {counted}");
        }
    }

    fn text() -> impl Strategy<Value = Vec<u8>> {
        const WORDS: [&str; 8] = [
            "spans", "workers", "0.9", ":{", "\"", "\u{e9}", "[1,2]", "x",
        ];
        let pieces = collection::vec(sample::select(&WORDS[..]), 0..600);
        let noise = collection::vec(any::<u8>(), 0..300);
        (pieces, noise).prop_map(|(pieces, noise)| [pieces.concat().as_bytes(), &noise].concat())
    }

    proptest! {
        #[test]
        fn what_was_packed_comes_back(text in text(), effort in 0_u8..=10) {
            prop_assert_eq!(inflate(&compress_to_vec_zlib(&text, effort), MOST), Ok(text));
        }

        /// The same is read, and refused, as another program does, whatever is damaged.
        #[test]
        fn another_program_reads_the_same(
            text in text(), effort in 0_u8..=10, at in 2_usize..2_000, with in 1_u8..,
        ) {
            let mut packed = compress_to_vec_zlib(&text, effort);
            let at = at.min(packed.len() - 1);
            packed[at] ^= with;
            // With a sum that fits, so that what was read is compared and not only refused.
            if let Ok(made) = inflate_alone(&packed) {
                let end = packed.len() - 4;
                packed[end..].copy_from_slice(&adler_32(&made).to_be_bytes());
            }
            the_same(&packed);
        }

        #[test]
        fn noise_is_read_the_same(noise in collection::vec(any::<u8>(), 0..400)) {
            let packed = [&[0x78, 0x9c], &noise[..]].concat();
            the_same(&packed);
        }
    }

    /// What a stream stands for whatever its sum is.
    fn inflate_alone(packed: &[u8]) -> Result<Vec<u8>, Fault> {
        let mut reader = Reader::new(packed, MOST);
        match reader.stream() {
            Ok(()) | Err(Fault::Checksum) => Ok(reader.made),
            Err(fault) => Err(fault),
        }
    }
}
