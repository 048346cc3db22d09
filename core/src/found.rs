//! The line as it is found on the site: the case that was planned, with what was measured in
//! place of what was assumed.

use alloc::vec::Vec;

use crate::case::Case;
use crate::fault::{Fault, FieldRef};

/// What was measured; `None`: as planned.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(default, deny_unknown_fields))]
pub struct Measured {
    /// Horizontal tension at rest as it was read today, N.
    pub tension_n: Option<f64>,
    /// Error of that reading, as a part of the tension.
    pub tension_error_ratio: Option<f64>,
    /// Temperature of the rope today, K.
    pub temperature_k: Option<f64>,
    /// Height of the line above the beam top, m.
    pub height_above_beam_m: Option<f64>,
    /// Depth from line level down to the highest thing within the reach of a worker.
    pub depth: Option<Depth>,
}

/// A measured depth.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "serde", serde(deny_unknown_fields))]
pub struct Depth {
    /// The worker under whom it was measured, counted from 0.
    pub worker: usize,
    /// From line level down to the highest thing within his reach, m.
    pub depth_m: f64,
}

/// The planned case with what was measured in place of what was assumed.
///
/// A tension that was read is that of today: the line counts as set to it at today's temperature.
/// Its error takes the place of the tolerance of the pretension where it is greater; one beyond the
/// range of that tolerance is refused by its name. A depth moves the beam, with all that stands on it, above
/// what is below, which keeps its own heights.
///
/// # Errors
/// The faults of the case that comes of it, named as those of its inputs; a depth under a worker
/// who is not there, named `workers`.
///
/// # Examples
/// ```
/// use footroom_core::{demo::demo, found::{Depth, Measured, as_found}};
/// let plan = demo();
/// let read = Measured { tension_n: Some(3_800.0), ..Measured::default() };
/// assert_eq!(as_found(&plan, &read).unwrap().line.pretension_n, 3_800.0);
/// let nowhere = Measured { depth: Some(Depth { worker: 9, depth_m: 5.0 }), ..Measured::default() };
/// assert!(as_found(&plan, &nowhere).is_err());
/// ```
pub fn as_found(plan: &Case, measured: &Measured) -> Result<Case, Vec<Fault>> {
    let mut case = plan.clone();
    if let Some(today_k) = measured.temperature_k {
        case.temperature.today_k = today_k;
    }
    if let Some(tension_n) = measured.tension_n {
        case.line.pretension_n = tension_n;
        case.temperature.installed_k = case.temperature.today_k;
        if let Some(error) = measured.tension_error_ratio {
            let ratio = &mut case.tolerances.pretension_ratio;
            // Not `max`, which would pass over an error that is not a number.
            if error.is_nan() || error > *ratio {
                *ratio = error;
            }
        }
    }
    if let Some(height_m) = measured.height_above_beam_m {
        case.line.height_above_beam_m = height_m;
    }
    let mut faults = Vec::new();
    if let Some(depth) = measured.depth {
        match case.workers.get(depth.worker) {
            Some(worker) => {
                let below_m = case
                    .site
                    .highest_below_m(worker.position_m, worker.offset_along_m);
                case.site.beam_top_m = depth.depth_m - case.line.height_above_beam_m + below_m;
            }
            None => faults.push(Fault::Count {
                field: FieldRef::new("workers"),
                count: case.workers.len(),
                min: depth.worker.saturating_add(1),
                max: crate::constants::WORKERS_MAX,
            }),
        }
    }
    faults.extend(case.faults());
    if faults.is_empty() {
        Ok(case)
    } else {
        Err(faults)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::case::Temperature;
    use crate::demo::demo;
    use crate::setup::tension_at_temperature;
    use crate::solve::Options;
    use crate::support::line_on_posts;

    fn footroom_m(case: &Case) -> f64 {
        assess(case, Options::default()).unwrap().footroom.value
    }

    #[test]
    fn nothing_measured_is_the_plan() {
        assert_eq!(as_found(&demo(), &Measured::default()), Ok(demo()));
    }

    /// A line that is read exactly as the temperature predicts falls as the plan at that
    /// temperature does.
    #[test]
    fn the_expected_reading_gives_the_answer_of_that_day() {
        let plan = demo();
        let today_k = 303.15;
        let line = line_on_posts(&plan.line, &plan.posts).unwrap();
        let installed_k = plan.temperature.installed_k;
        let at = tension_at_temperature(&line, installed_k, today_k).unwrap();
        let read = Measured {
            tension_n: Some(at.tension_n),
            temperature_k: Some(today_k),
            ..Measured::default()
        };
        let mut that_day = plan.clone();
        that_day.temperature = Temperature {
            installed_k,
            today_k,
        };
        let found = footroom_m(&as_found(&plan, &read).unwrap());
        let expected = footroom_m(&that_day);
        assert!((found - expected).abs() < 1e-6, "{found} {expected}");
    }

    #[test]
    fn a_slacker_line_and_a_lesser_depth_leave_less_room() {
        let plan = demo();
        let planned = footroom_m(&plan);
        let slack = Measured {
            tension_n: Some(2_500.0),
            ..Measured::default()
        };
        assert!(footroom_m(&as_found(&plan, &slack).unwrap()) < planned);
        let worker = assess(&plan, Options::default()).unwrap().footroom.worker;
        let load_m = plan.site.below[0].height_m;
        let available_m = plan.line.height_above_beam_m + plan.site.beam_top_m - load_m;
        let raised = Measured {
            depth: Some(Depth {
                worker,
                depth_m: available_m - 0.2,
            }),
            ..Measured::default()
        };
        let found = footroom_m(&as_found(&plan, &raised).unwrap());
        assert!((planned - found - 0.2).abs() < 1e-9, "{planned} {found}");
        // A lower line with the measured depth kept: the beam goes up with respect to the line.
        let lower = Measured {
            height_above_beam_m: Some(1.2),
            depth: Some(Depth {
                worker,
                depth_m: available_m,
            }),
            ..Measured::default()
        };
        let case = as_found(&plan, &lower).unwrap();
        assert!((case.site.beam_top_m + 1.2 - load_m - available_m).abs() < 1e-12);
    }

    #[test]
    fn an_uncertain_reading_widens_the_tolerance_within_its_range() {
        let read = |error| Measured {
            tension_n: Some(4_400.0),
            tension_error_ratio: Some(error),
            ..Measured::default()
        };
        let ratio = |error| {
            let case = as_found(&demo(), &read(error)).unwrap();
            case.tolerances.pretension_ratio
        };
        let given = demo().tolerances.pretension_ratio;
        assert_eq!(ratio(0.5 * given), given);
        assert_eq!(ratio(given + 0.05), given + 0.05);
        for wide in [9.0, f64::NAN] {
            let faults = as_found(&demo(), &read(wide)).unwrap_err();
            assert_eq!(faults[0].field().name, "tolerances.pretension_ratio");
        }
    }

    #[test]
    fn what_cannot_be_is_named() {
        let names = |measured: Measured| -> Vec<&'static str> {
            let faults = as_found(&demo(), &measured).unwrap_err();
            faults.iter().map(|f| f.field().name).collect()
        };
        for bad in [f64::NAN, f64::INFINITY, -1.0, 1.0e9] {
            let all = names(Measured {
                tension_n: Some(bad),
                tension_error_ratio: None,
                temperature_k: Some(bad),
                height_above_beam_m: Some(bad),
                depth: Some(Depth {
                    worker: 7,
                    depth_m: bad,
                }),
            });
            for name in [
                "line.pretension_n",
                "temperature.today_k",
                "line.height_above_beam_m",
                "workers",
            ] {
                assert!(all.contains(&name), "{bad}: {all:?}");
            }
        }
        let shallow = Measured {
            depth: Some(Depth {
                worker: 0,
                depth_m: 0.5,
            }),
            ..Measured::default()
        };
        assert!(!names(shallow).is_empty());
    }

    /// A depth under somebody who is not there names how many there would have to be.
    #[test]
    fn a_depth_under_nobody_says_how_many_there_are() {
        let depth = Some(Depth {
            worker: 3,
            depth_m: 5.0,
        });
        let read = Measured {
            depth,
            ..Measured::default()
        };
        let faults = as_found(&demo(), &read);
        let count = Fault::Count {
            field: FieldRef::new("workers"),
            count: 3,
            min: 4,
            max: crate::constants::WORKERS_MAX,
        };
        assert_eq!(faults, Err(alloc::vec![count]));
    }
}
