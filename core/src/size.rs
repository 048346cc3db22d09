//! How much there is to compute of an answer, known before it is computed: a count, the same on every
//! machine, so that who has to answer something else meanwhile can have it computed elsewhere.

use crate::ready::Ready;
use crate::solve;

/// How often a run with an in-line absorber, or of somebody who falls without an energy absorber, is made
/// on the average, with ever shorter steps, until its energies add up: the time of some cases over their
/// count, measured (3 to 8 without an energy absorber).
const REPEATED_RUNS: u64 = 4;

/// Moved nodes times steps of all runs of a whole answer, [`crate::assess`]: those of the crew as
/// given, and the nearby ones as if they were scattered. Of a run by the mesh, the step and the time
/// simulated; a corner's step differs by some per cent, and a run that must be repeated with a
/// shorter step counts once, but for that of an in-line absorber or without an energy absorber.
///
/// # Examples
/// ```
/// use footroom_core::demo::demo;
/// use footroom_core::size::node_steps;
/// let mut case = demo();
/// let of_three = node_steps(&case.ready().unwrap());
/// case.workers.truncate(1);
/// assert!(node_steps(&case.ready().unwrap()) < of_three / 4);
/// ```
pub fn node_steps(ready: &Ready) -> u64 {
    let (of_one, used_up) = solve::size(ready);
    let case = ready.case();
    let inline = case.line.inline_absorber.is_some();
    let fall = || case.workers.iter().filter(|w| w.fall_time_s.is_some());
    let repeated = inline || fall().any(|w| w.gear.absorber.is_none());
    let of_one = of_one.saturating_mul(if repeated { REPEATED_RUNS } else { 1 });
    let mixed = u64::from(used_up || inline);
    let crew = match fall().count() as u64 {
        0 | 1 => 0,
        crew => 3 * (2 * crew + 1),
    };
    of_one.saturating_mul(4 + mixed + crew)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::case::{Case, Line, Worker};
    use crate::demo::demo;
    use crate::fit::layout::with_users;
    use crate::solve::{Options, solve};
    use alloc::vec::Vec;

    fn count(case: &Case) -> u64 {
        node_steps(&case.ready().unwrap())
    }

    /// Of one who falls alone it is what the run reports, times its runs.
    #[test]
    fn is_what_the_runs_take() {
        let mut case = demo();
        case.workers.truncate(1);
        let history = solve(&case, Options::default()).unwrap().history;
        let of_nodes = 4 * u64::from(history.steps) * u64::from(history.nodes);
        let found = count(&case);
        assert!(
            found > of_nodes && found < of_nodes * 5 / 4,
            "{found} {of_nodes}"
        );
        // As many nearby runs as there can be.
        let crew = demo();
        let runs = 4 + 3 * (2 * crew.workers.len() + 1);
        assert!(assess(&crew, Options::default()).unwrap().nearby.len() + 4 <= runs);
    }

    /// Without an energy absorber runs are repeated, whoever of those who fall has none.
    #[test]
    fn counts_the_repeated_runs_of_who_has_no_absorber() {
        let mut case = demo();
        let with = count(&case);
        case.workers[2].gear.absorber = None;
        assert!(count(&case) > 3 * with);
        case.workers[2].fall_time_s = None;
        assert!(count(&case) < with);
    }

    /// More of anything is more; the largest case that there can be is far beyond the example.
    #[test]
    fn grows_with_the_crew_the_line_and_the_time() {
        let counts: Vec<u64> = (1..=6).map(|n| count(&with_users(&demo(), n))).collect();
        assert!(counts.is_sorted(), "{counts:?}");
        let mut longer = demo();
        longer.motion.duration_s *= 1.5;
        assert!(count(&longer) > count(&demo()) * 13 / 10);
        let most = Case {
            line: Line {
                spans_m: alloc::vec![60.0; 12],
                ..Line::default()
            },
            workers: (0..6)
                .map(|i| Worker {
                    position_m: 30.0 + 120.0 * f64::from(i),
                    ..Worker::default()
                })
                .collect(),
            ..Case::default()
        };
        assert!(count(&most) > 20 * count(&demo()));
    }
}
