//! The assessment: of cases as they occur, and of cases from the ends of every range.

use footroom_core::assess::assess;
use footroom_core::case::{Case, Worker};
use footroom_core::size::node_steps;
use footroom_core::solve::Options;
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use support::generate;

use crate::Made;
use crate::stream::Stream;

fn drawn(stream: &mut Stream, from: impl Strategy<Value = Case>) -> Case {
    let mut seed = [0; 32];
    for part in seed.chunks_mut(8) {
        part.copy_from_slice(&stream.next().to_le_bytes());
    }
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &seed);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let tree = from.new_tree(&mut runner).expect("a case can be drawn");
    tree.current()
}

/// Most of [`node_steps`] of an ordinary assessment: at 4 ns each a third of what it may take.
pub const ORDINARY: u64 = 8_000_000;

/// How much more an answer's runs may move than was counted before: a step that is shorter by the
/// tension of a corner, and the runs that were repeated with shorter steps, of which the last is told.
const BEYOND_COUNT: f64 = 16.0;

fn answered(case: Case, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let input = format!("{case:?}").into_bytes();
    goes_in(&input);
    let counted = case.ready().map_or(0, |ready| node_steps(&ready));
    let mut most = counted;
    let found = assess(&case, Options::default());
    match &found {
        Ok(found) => {
            let text = format!("{found:?}");
            assert!(!text.contains("NaN"), "{text}");
            let checks = found.checks(&case);
            assert!(!format!("{checks:?}").contains("NaN"));
            let numbers = [
                found.footroom.value,
                found.tension_max.value,
                found.arrest_force_max.value,
            ];
            assert!(numbers.iter().all(|n| n.is_finite()), "{numbers:?}");
            // What is counted before it is made is what it comes to.
            let history = found.nominal.history;
            let moved = f64::from(history.steps) * f64::from(history.nodes);
            let runs = (4 + found.nearby.len()) as f64;
            // Where the run had to be repeated with shorter steps there was more to do.
            most = most.max((moved * runs) as u64);
            assert!(
                moved * runs <= BEYOND_COUNT * counted as f64,
                "{moved} in {runs} runs, {counted} counted"
            );
        }
        Err(faults) => {
            assert!(!faults.is_empty());
            assert!(faults.iter().all(|fault| !fault.to_string().is_empty()));
        }
    }
    Made {
        input,
        taken: found.is_ok(),
        steps_max: 0,
        timed: (1..=ORDINARY).contains(&most),
    }
}

pub fn ordinary(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let mut case = drawn(stream, generate::varied());
    // As long as the page computes it.
    case.motion.duration_s = Case::default().motion.duration_s;
    answered(case, goes_in)
}

/// The first moments of a case: its falls come soon, it ends soon after the last of them, and in nine of
/// ten cases one of the crew falls alone. All that depends on what was entered is run through in a
/// fiftieth of the time, so that the long run can make a million.
pub fn brief(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let mut case = drawn(stream, generate::varied());
    let falls = case
        .workers
        .iter_mut()
        .filter_map(|w| w.fall_time_s.as_mut());
    let mut last_s: f64 = 0.0;
    for fall_s in falls {
        *fall_s *= 0.3;
        last_s = last_s.max(*fall_s);
    }
    case.motion.duration_s = last_s + 0.8;
    if !stream.once_in(10) {
        let falls = |worker: &&mut Worker| worker.fall_time_s.is_some();
        for worker in case.workers.iter_mut().filter(falls).skip(1) {
            worker.fall_time_s = None;
        }
    }
    answered(case, goes_in)
}

pub fn extreme(stream: &mut Stream, goes_in: &mut dyn FnMut(&[u8])) -> Made {
    let case = drawn(stream, generate::ranged());
    answered(case, goes_in)
}
