//! Forces against time over all runs of an answer: between which values they lie at each instant.

use alloc::vec::Vec;

use crate::assess::{Runs, runs};
use crate::case::Case;
use crate::fault::Fault;
use crate::ready::Ready;
use crate::solve::{Options, Traces};

/// Least and greatest value at each frame, over all runs that [`crate::assess::assess`] makes of the
/// crew as given: small differences within it ([`crate::nearby`]) are not in it.
///
/// The allowance, which the answer adds to a run's greatest tension, is not in it. Between two frames
/// a run may go higher.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Envelope {
    /// Greatest tension along the line, one a frame, N.
    pub tension_max_n: Band,
    /// Force in the gear of every worker, N, in the order of the case; one a frame each.
    pub force_n: Vec<Band>,
}

/// Two curves, one value a frame each.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Band {
    /// The lower one.
    pub least: Vec<f64>,
    /// The upper one.
    pub greatest: Vec<f64>,
}

impl Band {
    fn of<'a>(runs: impl Iterator<Item = &'a [f64]>, from: usize, every: usize) -> Self {
        let mut band = Self::default();
        for values in runs {
            for (frame, &value) in values.iter().skip(from).step_by(every).enumerate() {
                if frame == band.least.len() {
                    band.least.push(value);
                    band.greatest.push(value);
                }
                let (least, greatest) = (&mut band.least[frame], &mut band.greatest[frame]);
                *least = least.min(value);
                *greatest = greatest.max(value);
            }
        }
        band
    }
}

/// Solves all runs of a case with their traces.
///
/// # Errors
/// Every fault of the case, when there is one.
pub fn envelope(case: &Case) -> Result<Envelope, Vec<Fault>> {
    Ok(envelope_of(&case.ready()?))
}

/// The same for a case that was checked.
pub fn envelope_of(ready: &Ready) -> Envelope {
    let traced = Options {
        traces: true,
        ..Options::default()
    };
    let Runs { together, mixed } = runs(ready, traced, traced);
    let outcomes = together.iter().chain(&mixed);
    let traces: Vec<&Traces> = outcomes.filter_map(|o| o.traces.as_ref()).collect();
    let (all, workers) = (traces.iter(), ready.case().workers.len());
    let forces = || traces.iter().map(|t| t.force_n.as_slice());
    Envelope {
        tension_max_n: Band::of(all.map(|t| t.tension_max_n.as_slice()), 0, 1),
        force_n: (0..workers)
            .map(|i| Band::of(forces(), i, workers))
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::Assessing;
    use crate::case::InlineAbsorber;
    use crate::demo::demo;

    fn greatest(values: &[f64]) -> f64 {
        values.iter().copied().fold(0.0, f64::max)
    }

    /// The run as given lies in it, and its ends are those of the worst runs.
    #[test]
    fn the_given_run_lies_in_it_and_the_worst_bound_it() {
        let mut with_inline = demo();
        with_inline.line.inline_absorber = Some(InlineAbsorber::default());
        for case in [demo(), with_inline] {
            let options = Options {
                traces: true,
                ..Options::default()
            };
            let assessment = Assessing::start(&case, options).unwrap().assessment();
            let traces = assessment.nominal.traces.as_ref().unwrap();
            let envelope = envelope(&case).unwrap();
            let bands =
                core::iter::once((&envelope.tension_max_n, &traces.tension_max_n[..], 0, 1)).chain(
                    envelope
                        .force_n
                        .iter()
                        .enumerate()
                        .map(|(i, band)| (band, &traces.force_n[..], i, traces.workers)),
                );
            for (band, given, from, every) in bands {
                assert_eq!(band.least.len(), traces.frames);
                assert_eq!(band.greatest.len(), traces.frames);
                for (frame, value) in given.iter().skip(from).step_by(every).enumerate() {
                    assert!((band.least[frame]..=band.greatest[frame]).contains(value));
                }
                assert!(greatest(&band.greatest) > greatest(&band.least));
            }
            // Nothing goes beyond the peaks. They are met but for what a force does within a frame, 5 ms.
            // A wave across the rope takes ten times as long to a support; one along it less than a
            // frame, which leaves a per cent of a tension where nothing damps it, and a few of a force
            // where an in-line absorber sends its fronts.
            let most = assessment
                .demands
                .workers
                .iter()
                .fold(0.0, |m: f64, w| m.max(w.arrest_force_n));
            let shown = envelope
                .force_n
                .iter()
                .fold(0.0, |m: f64, b| m.max(greatest(&b.greatest)));
            let met = if case.line.inline_absorber.is_some() {
                0.97
            } else {
                0.998
            };
            assert!(shown <= most && shown > met * most, "{shown} {most}");
            let more = 1.0 + case.allowance.tension_ratio;
            let most = assessment.demands.tension_max_n / more;
            let shown = greatest(&envelope.tension_max_n.greatest);
            assert!(shown <= most * (1.0 + 1e-12), "{shown} {most}");
            if case.line.inline_absorber.is_none() {
                let stiff = assessment
                    .corners
                    .iter()
                    .fold(0.0, |m: f64, c| m.max(c.tension_max_n));
                assert!(shown > 0.985 * stiff, "{shown} {stiff}");
            }
        }
    }

    #[test]
    fn a_case_with_faults_has_none() {
        let mut case = demo();
        case.line.pretension_n = -1.0;
        assert!(envelope(&case).is_err());
    }
}
