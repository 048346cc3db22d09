//! Placing of texts so that none touches another, or a line of the drawing.

use super::surface::{Point, Rect};

/// Free space kept around a text, px.
const CLEAR_PX: f64 = 3.0;

/// What is already on the sheet.
#[derive(Debug, Default)]
pub struct Labels {
    taken: Vec<Rect>,
    lines: Vec<(Point, Point)>,
}

impl Labels {
    /// Keeps texts out of a rectangle.
    pub fn block(&mut self, area: Rect) {
        self.taken.push(area);
    }

    /// Keeps texts off a straight line.
    pub fn block_line(&mut self, a: Point, b: Point) {
        self.lines.push((a, b));
    }

    /// Whether a text of this box would stand free.
    pub fn is_free(&self, area: &Rect) -> bool {
        let wide = area.grown(CLEAR_PX);
        !self.taken.iter().any(|t| t.meets(&wide))
            && !self.lines.iter().any(|&(a, b)| wide.crossed_by(a, b))
    }

    /// The first of the places at which a text stands free and inside `sheet`; it is then taken.
    pub fn place(&mut self, sheet: &Rect, places: impl Iterator<Item = Rect>) -> Option<Rect> {
        let found = places
            .filter(|r| sheet.holds(r))
            .find(|r| self.is_free(r))?;
        self.taken.push(found);
        Some(found)
    }
}

/// Moves heights apart until each has `gap` to the next, as near to the wanted ones as the least
/// squares allow, within `low..=high` when they fit. `wanted` must be in rising order.
///
/// # Source
/// Pool adjacent violators (Ayer et al., Ann. Math. Statist. 26 (1955) 641) on wanted − i·gap.
pub fn spread(wanted: &[f64], gap: f64, low: f64, high: f64) -> Vec<f64> {
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (i, &w) in wanted.iter().enumerate() {
        let mut pool = (w - gap * i as f64, 1);
        while let Some(&(mean, n)) = pools.last() {
            if mean <= pool.0 {
                break;
            }
            let count = n + pool.1;
            pool = (
                (mean * n as f64 + pool.0 * pool.1 as f64) / count as f64,
                count,
            );
            pools.pop();
        }
        pools.push(pool);
    }
    let last = wanted.len().saturating_sub(1) as f64;
    let top = (high - gap * last).max(low);
    let mut placed = Vec::with_capacity(wanted.len());
    for (mean, n) in pools {
        for _ in 0..n {
            let i = placed.len() as f64;
            placed.push(mean.min(top).max(low) + gap * i);
        }
    }
    placed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::scene::surface::at;

    #[test]
    fn spread_keeps_order_gap_and_bounds() {
        let placed = spread(&[10.0, 11.0, 11.5, 90.0, 99.0], 14.0, 0.0, 100.0);
        for pair in placed.windows(2) {
            assert!(pair[1] - pair[0] >= 14.0 - 1e-9, "{placed:?}");
        }
        assert!(placed[0] >= 0.0 && placed[4] <= 100.0 + 1e-9, "{placed:?}");
        assert_eq!(spread(&[5.0, 50.0], 14.0, 0.0, 100.0), vec![5.0, 50.0]);
        assert!(spread(&[], 14.0, 0.0, 100.0).is_empty());
    }

    #[test]
    fn a_text_takes_the_first_free_place() {
        let sheet = Rect {
            x: 0.0,
            y: 0.0,
            w: 200.0,
            h: 100.0,
        };
        let text = |x: f64, y: f64| Rect {
            x,
            y,
            w: 40.0,
            h: 12.0,
        };
        let mut labels = Labels::default();
        labels.block_line(at(0.0, 16.0), at(200.0, 16.0));
        let tried = [text(10.0, 10.0), text(10.0, 40.0), text(60.0, 40.0)];
        assert_eq!(
            labels.place(&sheet, tried.iter().copied()),
            Some(text(10.0, 40.0))
        );
        assert_eq!(
            labels.place(&sheet, tried.iter().copied()),
            Some(text(60.0, 40.0))
        );
        assert_eq!(labels.place(&sheet, tried.iter().copied()), None);
        assert_eq!(labels.place(&sheet, [text(170.0, 70.0)].into_iter()), None);
    }
}
