//! The tension by how far a hung weight moves the line, and back.

use alloc::vec::Vec;

use super::{
    Band, GOOD_READING_RATIO, Plan, TensionReading, check, check_span, error_ratio, middle_m,
    pretension_range_n, sag_m, span_m, with_pretension,
};
use crate::case::Line;
use crate::fault::{Fault, FieldRef};
use crate::line::{PointLoad, Static, hang};
use crate::order::sort;
use crate::roots;

/// Heaviest weight that is proposed, N: what can be carried to the beam and hung by hand.
pub const WEIGHT_MAX_N: f64 = 500.0;

/// Step in which weights are proposed, N.
pub(super) const WEIGHT_STEP_N: f64 = 10.0;

/// Part of a tension to which the one that gives a movement is found.
pub(super) const ROOT_RATIO: f64 = 1e-7;

/// Tension check with a weight hung from the middle of a span.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct WeightCheck {
    /// The span, counted from 0.
    pub span: usize,
    /// Its middle, m from the left end post.
    pub position_m: f64,
    /// The weight, N.
    pub weight_n: f64,
    /// How far the weight pulls the line down from where it rests, m.
    pub movement_m: f64,
    /// The same at the greatest pretension of the tolerance, m.
    pub movement_least_m: f64,
    /// The same at the least pretension of the tolerance, m.
    pub movement_most_m: f64,
    /// Depth of the loaded point below the level of the supports, m.
    pub deflection_m: f64,
    /// Horizontal tension while the weight hangs, N.
    pub tension_loaded_n: f64,
    /// The weight makes an in-line absorber yield: it must not be hung.
    pub absorber_yields: bool,
    /// Error of the tension, as a part of it, that the reading error makes; `None`: more than the
    /// reading tells.
    pub error_ratio: Option<f64>,
    /// Least weight of whole tens of newtons that brings the error to [`GOOD_READING_RATIO`], N;
    /// `None`: none up to [`WEIGHT_MAX_N`] does.
    pub good_weight_n: Option<f64>,
}

/// The line with the weight hung from the middle of a span.
pub(super) struct Hung {
    pub(super) movement_m: f64,
    deflection_m: f64,
    tension_n: f64,
    pub(super) yields: bool,
}

pub(super) fn hung(line: &Line, span: usize, weight_n: f64) -> Result<Hung, Vec<Fault>> {
    let position_m = middle_m(line, span);
    let with = |force_n| {
        hang(
            line,
            &[PointLoad {
                position_m,
                force_n,
            }],
        )
    };
    let at = |still: &Static| still.deflection_m.first().copied().unwrap_or(0.0);
    let still = with(weight_n)?;
    // Not the parabola of the line at rest, which on a slack line is off by a part of a millimetre.
    let rest_m = at(&with(0.0)?);
    Ok(Hung {
        movement_m: at(&still) - rest_m,
        deflection_m: at(&still),
        tension_n: still.tension_horizontal_n,
        yields: still.inline_extension_m > 0.0,
    })
}

pub(super) fn weight_check(
    line: &Line,
    span: usize,
    plan: &Plan,
    within: Band,
) -> Result<WeightCheck, Vec<Fault>> {
    let at = |pretension_n| hung(&with_pretension(line, pretension_n), span, plan.weight_n);
    let set = hung(line, span, plan.weight_n)?;
    Ok(WeightCheck {
        span,
        position_m: middle_m(line, span),
        weight_n: plan.weight_n,
        movement_m: set.movement_m,
        movement_least_m: at(within.high_n)?.movement_m,
        movement_most_m: at(within.low_n)?.movement_m,
        deflection_m: set.deflection_m,
        tension_loaded_n: set.tension_n,
        absorber_yields: set.yields,
        error_ratio: weight_error(line, span, plan.weight_n, plan.reading_error_m),
        good_weight_n: good_weight_n(line, span, plan.reading_error_m),
    })
}

/// Error of the tension, as a part of it, that a reading error makes under this weight.
pub(super) fn weight_error(
    line: &Line,
    span: usize,
    weight_n: f64,
    reading_error_m: f64,
) -> Option<f64> {
    let set = hung(line, span, weight_n).ok()?;
    if set.yields {
        return None;
    }
    Curve::of(line, span, weight_n)
        .read(set.movement_m, reading_error_m)?
        .error_ratio
}

/// Least weight of whole steps that brings the error down to what counts as good.
///
/// A heavier weight is not always better, since it tightens a soft line: the steps are tried in
/// turn, each by the slope of the movement first, and proved by reading back.
pub(super) fn good_weight_n(line: &Line, span: usize, reading_error_m: f64) -> Option<f64> {
    let (low, high) = pretension_range_n(line);
    let below = (line.pretension_n * 0.99).max(low);
    let above = (line.pretension_n * 1.01).min(high);
    let (looser, tighter) = (with_pretension(line, below), with_pretension(line, above));
    let mut weight_n = WEIGHT_STEP_N;
    while weight_n <= WEIGHT_MAX_N {
        let far = hung(&looser, span, weight_n).ok()?;
        let near = hung(&tighter, span, weight_n).ok()?;
        if far.yields || near.yields {
            return None;
        }
        let per_part = (far.movement_m - near.movement_m) * line.pretension_n / (above - below);
        if reading_error_m <= GOOD_READING_RATIO * per_part {
            // A weight that does not tell leaves a heavier one to tell even less.
            if weight_error(line, span, weight_n, reading_error_m)? <= GOOD_READING_RATIO {
                return Some(weight_n);
            }
        }
        weight_n += WEIGHT_STEP_N;
    }
    None
}

/// Movement under a weight against the pretension at rest.
///
/// It falls as the pretension rises, but only while the line is taut: a slack one is straightened
/// by the weight rather than moved by it. So one reading may fit several pretensions.
struct Curve<'a> {
    line: &'a Line,
    span: usize,
    weight_n: f64,
    /// Pretension, N, and movement, m, from the greatest pretension down, as far as the in-line
    /// absorber does not yield; the turns of the curve are among them.
    points: Vec<(f64, f64)>,
}

impl<'a> Curve<'a> {
    fn of(line: &'a Line, span: usize, weight_n: f64) -> Self {
        const STEP: f64 = 0.9;
        let (low, high) = pretension_range_n(line);
        let mut curve = Self {
            line,
            span,
            weight_n,
            points: Vec::new(),
        };
        let mut pretension_n = high;
        loop {
            if let Some(movement_m) = curve.at(pretension_n) {
                curve.points.push((pretension_n, movement_m));
            }
            // Written so that a value that is not a number ends the walk too.
            if pretension_n > low {
                pretension_n = (pretension_n * STEP).max(low);
            } else {
                break;
            }
        }
        let turns: Vec<(f64, f64)> = curve
            .points
            .windows(3)
            .filter_map(|three| curve.turn(three))
            .collect();
        curve.points.extend(turns);
        sort(&mut curve.points, |a, b| b.0.total_cmp(&a.0).is_lt());
        curve
    }

    fn at(&self, pretension_n: f64) -> Option<f64> {
        hung(
            &with_pretension(self.line, pretension_n),
            self.span,
            self.weight_n,
        )
        .ok()
        .filter(|h| !h.yields)
        .map(|h| h.movement_m)
    }

    /// Where the curve turns between the outer two of three points; `None` where it does not.
    ///
    /// Between the points it would rise or fall by more than the error of a reading.
    fn turn(&self, three: &[(f64, f64)]) -> Option<(f64, f64)> {
        // Thirds: 2/3 of the interval stay each time, a thousandth of it in the end.
        const ROUNDS: usize = 18;
        let &[(mut high, first), (_, middle), (mut low, last)] = three else {
            return None;
        };
        let sign = if middle > first && middle >= last {
            1.0
        } else if middle < first && middle <= last {
            -1.0
        } else {
            return None;
        };
        for _ in 0..ROUNDS {
            let third = (high - low) / 3.0;
            let (below, above) = (low + third, high - third);
            if sign * self.at(below)? > sign * self.at(above)? {
                high = above;
            } else {
                low = below;
            }
        }
        let pretension_n = 0.5 * (low + high);
        Some((pretension_n, self.at(pretension_n)?))
    }

    /// Pretensions that give this movement, the greatest first.
    fn roots(&self, movement_m: f64) -> impl Iterator<Item = f64> {
        self.points.windows(2).filter_map(move |pair| {
            let [(high, tight), (low, loose)] = *pair else {
                return None;
            };
            // Half-open, so that a point of the walk counts once.
            let crosses = (tight <= movement_m) != (loose <= movement_m);
            crosses.then(|| {
                roots::bracketed(
                    |p| self.at(p).map_or(f64::NAN, |m| m - movement_m),
                    low,
                    high,
                    ROOT_RATIO * high,
                )
                .x
            })
        })
    }

    /// All pretensions whose movement is this one within its error, the greatest first.
    fn fits(&self, movement_m: f64, error_m: f64) -> Vec<Band> {
        let (Some(&(greatest, _)), Some(&(least, _))) = (self.points.first(), self.points.last())
        else {
            return Vec::new();
        };
        let mut edges: Vec<f64> = self
            .roots(movement_m + error_m)
            .chain(self.roots(movement_m - error_m))
            .chain([greatest, least])
            .collect();
        sort(&mut edges, |a, b| b.total_cmp(a).is_lt());
        let mut bands: Vec<Band> = Vec::new();
        for pair in edges.windows(2) {
            let [high_n, low_n] = *pair else { continue };
            let middle = self.at(0.5 * (low_n + high_n));
            if !middle.is_some_and(|m| (m - movement_m).abs() <= error_m) {
                continue;
            }
            match bands.last_mut() {
                Some(last) if last.low_n <= high_n => last.low_n = low_n,
                _ => bands.push(Band { low_n, high_n }),
            }
        }
        // A band may be narrower than a root is found.
        for root in self.roots(movement_m) {
            if !bands.iter().any(|band| band.holds(root)) {
                bands.push(Band {
                    low_n: root,
                    high_n: root,
                });
            }
        }
        sort(&mut bands, |a, b| b.high_n.total_cmp(&a.high_n).is_lt());
        bands
    }

    /// The pretension that fits a movement, nearest to the one that was set, with the band around
    /// it in which the movement stays within its error, and all other such bands.
    fn read(&self, movement_m: f64, error_m: f64) -> Option<TensionReading> {
        let set = self.line.pretension_n;
        let away = |t: f64| (t / set).max(set / t);
        let tension_n = self
            .roots(movement_m)
            .min_by(|&a, &b| away(a).total_cmp(&away(b)))
            .or_else(|| {
                // At a turn the movement may miss the reading by less than its error.
                let off = |m: f64| (m - movement_m).abs();
                let points = self.points.iter().filter(|&&(_, m)| off(m) <= error_m);
                points
                    .min_by(|a, b| off(a.1).total_cmp(&off(b.1)))
                    .map(|&(tension_n, _)| tension_n)
            })?;
        let mut others = self.fits(movement_m, error_m);
        let own = others.iter().position(|band| band.holds(tension_n))?;
        let own = others.remove(own);
        let (greatest, least) = (self.points.first()?.0, self.points.last()?.0);
        let low_n = (own.low_n > least).then_some(own.low_n);
        let high_n = (own.high_n < greatest).then_some(own.high_n);
        // Another pretension is told apart by eye where the line at rest hangs differently by more
        // than the movement that was read.
        let sag = |tension_n| sag_m(&with_pretension(self.line, tension_n), self.length_m());
        let tells = others.iter().all(|other| {
            let (looser, tighter) = if other.high_n <= own.low_n {
                (other.high_n, own.low_n)
            } else {
                (own.high_n, other.low_n)
            };
            sag(looser) - sag(tighter) > movement_m
        });
        let ends = low_n.zip(high_n).filter(|_| tells);
        Some(TensionReading {
            tension_n,
            low_n,
            high_n,
            error_ratio: ends.map(|ends| error_ratio(tension_n, ends)),
            others,
        })
    }

    fn length_m(&self) -> f64 {
        span_m(self.line, self.span)
    }
}

/// A movement read under a hung weight.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct WeightReading {
    /// Span with the weight at its middle, counted from 0.
    pub span: usize,
    /// The weight, N.
    pub weight_n: f64,
    /// How far it pulled the line down from where it rested, m.
    pub movement_m: f64,
    /// Error of that reading, m, either way.
    pub reading_error_m: f64,
}

/// The pretension at rest from how far a hung weight pulled the line down.
///
/// Geometry, rope and ends are those of `line`; its pretension is what is sought. The one that
/// `line` has, as set, only decides which is named first where several fit.
///
/// # Errors
/// The faults of the line and of the reading (`reading…`). A movement that no pretension of this
/// line gives within the error: the fault holds the least and the greatest that one does.
///
/// # Accuracy
/// The root is found to 1e-7 of the tension; the model as [`hang`].
///
/// # Examples
/// ```
/// use footroom_core::case::Line;
/// use footroom_core::setup::{WeightReading, tension_from_deflection};
/// let reading = WeightReading {
///     span: 0,
///     weight_n: 100.0,
///     movement_m: 0.063,
///     reading_error_m: 0.003,
/// };
/// let tension = tension_from_deflection(&Line::default(), &reading).unwrap();
/// assert!((tension.tension_n / 4_400.0 - 1.0).abs() < 0.02);
/// let wrong = WeightReading { movement_m: 5.0, ..reading };
/// assert!(tension_from_deflection(&Line::default(), &wrong).is_err());
/// ```
pub fn tension_from_deflection(
    line: &Line,
    reading: &WeightReading,
) -> Result<TensionReading, Vec<Fault>> {
    let mut faults = line.line_faults();
    check_span(&mut faults, "reading.span", reading.span, line);
    for (name, value) in [
        ("reading.weight_n", reading.weight_n),
        ("reading.movement_m", reading.movement_m),
        ("reading.reading_error_m", reading.reading_error_m),
    ] {
        check(&mut faults, name, None, value);
    }
    if !faults.is_empty() {
        return Err(faults);
    }
    let curve = Curve::of(line, reading.span, reading.weight_n);
    curve
        .read(reading.movement_m, reading.reading_error_m)
        .ok_or_else(|| {
            let movements = || curve.points.iter().map(|&(_, movement)| movement);
            alloc::vec![Fault::OutOfRange {
                field: FieldRef::new("reading.movement_m"),
                value: reading.movement_m,
                min: movements().fold(f64::MAX, f64::min),
                max: movements().fold(0.0, f64::max),
            }]
        })
}
