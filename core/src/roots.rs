//! A bracketing root finder: regula falsi with the Illinois rule, falling back to bisection.

/// What a root search ended with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Root {
    /// Best abscissa found.
    pub x: f64,
    /// Evaluations used.
    pub evaluations: u32,
}

/// Finds x in \[`low`, `high`\] with `f(x)` = 0 for a continuous `f` of which `f(low)` and
/// `f(high)` differ in sign, to within `tolerance` in x.
///
/// When the signs do not differ the end with the smaller |f| is returned. Each step shrinks the
/// bracket, at most 200 evaluations are made, and NaN from `f` ends the search.
pub(crate) fn bracketed(
    mut f: impl FnMut(f64) -> f64,
    low: f64,
    high: f64,
    tolerance: f64,
) -> Root {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (f(a), f(b));
    let mut evaluations = 2;
    let nearest = |a: f64, fa: f64, b: f64, fb: f64| if fa.abs() < fb.abs() { a } else { b };
    if fa * fb > 0.0 || fa.is_nan() || fb.is_nan() {
        return Root {
            x: nearest(a, fa, b, fb),
            evaluations,
        };
    }
    let mut side = 0_i8;
    while (b - a).abs() > tolerance && evaluations < 200 {
        // Every fourth step halves the bracket, so that a flat side cannot stall the search.
        let secant = b - fb * (b - a) / (fb - fa);
        let x = if evaluations % 4 == 1 || !secant.is_finite() {
            0.5 * (a + b)
        } else {
            secant
        };
        let fx = f(x);
        evaluations += 1;
        if fx == 0.0 || fx.is_nan() {
            return Root { x, evaluations };
        }
        if fx * fb < 0.0 {
            (a, fa) = (b, fb);
            (b, fb) = (x, fx);
            side = 0;
        } else {
            (b, fb) = (x, fx);
            if side == 1 {
                fa *= 0.5;
            }
            side = 1;
        }
    }
    Root {
        x: nearest(a, fa, b, fb),
        evaluations,
    }
}

/// Finds x with `f(x)` = 0 near two guesses by secants, to within `tolerance` of x as a part of it;
/// the last evaluation was made there. `None` where the secants leave the neighbourhood, a factor
/// of five, or take more than twelve evaluations: the root has to be bracketed.
pub(crate) fn nearby(
    mut f: impl FnMut(f64) -> f64,
    guesses: [f64; 2],
    tolerance: f64,
) -> Option<f64> {
    let [mut before, mut now] = guesses;
    let mut f_before = f(before);
    for _ in 0..11 {
        let f_now = f(now);
        let step = f_now * (now - before) / (f_now - f_before);
        if step.abs() <= tolerance * now.abs() {
            return Some(now);
        }
        let next = now - step;
        let stays = next > 0.2 * now && next < 5.0 * now;
        if !stays {
            break;
        }
        (before, f_before) = (now, f_now);
        now = next;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_a_cube_root() {
        let root = bracketed(|x| x * x * x - 2.0, 0.0, 10.0, 1e-14);
        assert!((root.x - 1.259_921_049_894_873).abs() < 1e-12);
        assert!(root.evaluations < 60, "{}", root.evaluations);
    }

    #[test]
    fn a_steep_side_does_not_stall() {
        let root = bracketed(|x| 1.0 / (x * x) - 1.0e-4, 1.0e-3, 1.0e6, 1e-9);
        assert!((root.x - 100.0).abs() < 1e-6, "{root:?}");
    }

    #[test]
    fn secants_find_what_is_near_and_say_when_it_is_not() {
        let mut last = 0.0;
        let root = nearby(
            |x| {
                last = x;
                x * x - 2.0
            },
            [1.5, 1.4],
            1e-12,
        );
        assert_eq!(root, Some(last));
        assert!((last - 2.0_f64.sqrt()).abs() < 1e-12);
        assert_eq!(nearby(|x| x * x + 1.0, [1.0, 1.1], 1e-12), None);
        assert_eq!(nearby(|_| f64::NAN, [1.0, 1.1], 1e-12), None);
        assert_eq!(nearby(|x| x - 100.0, [1.0, 1.1], 1e-12), None);
    }

    #[test]
    fn without_a_bracket_the_nearer_end_comes_back() {
        assert_eq!(bracketed(|x| x + 1.0, 0.0, 1.0, 1e-9).x, 0.0);
        assert!(bracketed(|_| f64::NAN, 0.0, 1.0, 1e-9).x.is_finite());
    }
}
