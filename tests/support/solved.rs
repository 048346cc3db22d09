//! Cases solved, where a faulty one is a mistake of the check.

use footroom_core::case::Case;
use footroom_core::ready::Ready;
use footroom_core::solve::{Options, Outcome};

/// The outcome.
///
/// # Panics
/// When the case is faulty.
pub fn solved(case: &Case) -> Outcome {
    with(case, Options::default())
}

/// The outcome with its traces.
///
/// # Panics
/// When the case is faulty.
pub fn traced(case: &Case) -> Outcome {
    with(
        case,
        Options {
            traces: true,
            ..Options::default()
        },
    )
}

/// The case as the mechanics takes it.
///
/// # Panics
/// When the case is faulty.
pub fn ready(case: &Case) -> Ready {
    case.ready()
        .unwrap_or_else(|faults| panic!("{}: {faults:?}", case.title))
}

fn with(case: &Case, options: Options) -> Outcome {
    ready(case).solve(options)
}
