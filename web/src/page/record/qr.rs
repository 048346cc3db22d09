//! The link as a code for a phone's camera (ISO/IEC 18004), drawn as scalable vector graphics.

use core::fmt::Write;

use qrcodegen::{QrCode, QrCodeEcc};

/// Free modules around the code that a reader needs (ISO/IEC 18004).
const QUIET: i32 = 4;

/// A code as a grid of modules.
#[derive(Clone, PartialEq, Eq)]
pub struct Code {
    inner: QrCode,
}

impl Code {
    /// The code of a text; `None` when it is longer than a code holds (2,953 bytes).
    pub fn of(text: &str) -> Option<Self> {
        let inner = QrCode::encode_binary(text.as_bytes(), QrCodeEcc::Low).ok()?;
        Some(Self { inner })
    }

    /// Modules of a side, the free ones around it included.
    pub fn side(&self) -> i32 {
        self.inner.size() + 2 * QUIET
    }

    /// Whether a module is dark; false outside.
    pub fn dark(&self, x: i32, y: i32) -> bool {
        self.inner.get_module(x - QUIET, y - QUIET)
    }

    /// The code as a drawing, one unit a module, with `words` for who cannot see it.
    pub fn svg(&self, words: &str) -> String {
        let side = self.side();
        let mut path = String::new();
        for y in 0..side {
            let mut x = 0;
            while x < side {
                let from = x;
                while self.dark(x, y) {
                    x += 1;
                }
                if x > from {
                    // Writing to a string cannot fail.
                    let _ = write!(path, "M{from} {y}h{}v1H{from}z", x - from);
                }
                x += 1;
            }
        }
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 {side} {side}\" \
             shape-rendering=\"crispEdges\"><title>{words}</title>\
             <path d=\"M0 0h{side}v{side}H0z\" fill=\"#fff\"/><path d=\"{path}\" fill=\"#000\"/></svg>"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What a reader of codes makes of a grid of pixels.
    fn decoded(side: usize, dark: impl Fn(usize, usize) -> bool) -> String {
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
            if dark(x, y) { 0 } else { 255 }
        });
        // A large code can hold what looks like another one: that does not decode.
        let grids = image.detect_grids();
        let read: Vec<String> = grids
            .iter()
            .filter_map(|grid| grid.decode().ok())
            .map(|(_, text)| text)
            .collect();
        assert_eq!(read.len(), 1, "codes read");
        read.concat()
    }

    fn read_back(code: &Code) -> String {
        const PX: usize = 4;
        let side = code.side() as usize * PX;
        decoded(side, |x, y| code.dark((x / PX) as i32, (y / PX) as i32))
    }

    #[test]
    fn a_reader_reads_the_exact_text() {
        for text in [
            "a".to_owned(),
            "https://example.org/footroom/#v1.AbC-_09".to_owned(),
            "x".repeat(1_000),
            "Aa0-_".repeat(590),
        ] {
            let code = Code::of(&text).expect("short enough");
            assert_eq!(read_back(&code), text);
        }
    }

    #[test]
    fn the_drawing_has_the_same_modules() {
        let text = "https://example.org/#v1.Zz";
        let code = Code::of(text).expect("short enough");
        let svg = code.svg("words");
        let runs = svg.split("d=\"").nth(2).expect("the second path");
        let runs = runs.split('"').next().expect("its end");
        let side = code.side() as usize;
        let mut grid = vec![false; side * side];
        for run in runs.split('M').skip(1) {
            let (from, rest) = run.split_once(' ').expect("x");
            let (y, rest) = rest.split_once('h').expect("y");
            let (length, _) = rest.split_once('v').expect("length");
            let number = |text: &str| text.parse::<usize>().expect("a number");
            for x in number(from)..number(from) + number(length) {
                grid[number(y) * side + x] = true;
            }
        }
        let found = decoded(4 * side, |x, y| grid[(y / 4) * side + x / 4]);
        assert_eq!(found, text);
    }

    #[test]
    fn a_text_that_is_too_long_has_no_code() {
        assert!(Code::of(&"x".repeat(2_953)).is_some());
        assert!(Code::of(&"x".repeat(2_954)).is_none());
    }
}
