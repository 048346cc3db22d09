//! Whatever comes in from outside gets a right answer or a clear no: decoders, the batch door and the
//! assessment under texts and cases made at random, most of them nearly right.
//!
//! A run takes a piece of the corpus (the frozen links and files, see `../golden.rs`), damages it
//! where it hurts (its letters, its packed bytes, or its content, packed anew so that its checksum
//! fits) and asks that nothing panics, that what is taken comes back the same, that no number of an
//! answer is not a number, and that steps and memory stay within bounds. Steps are counted, not
//! timed; only the long run looks at the clock.
//!
//! `cargo test` makes a fixed number of runs. `cargo xtask fuzz [--runs N] [--seed S] [--from I]
//! [TARGET]` makes as many as asked for, optimised; a run that fails names its seed and number and
//! leaves its input behind, and `--seed S --from I --runs 1 TARGET` makes it again.

mod assessment;
mod content;
mod decoders;
mod door;
mod stream;

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use footroom_web::wire::steps::counted;
use libtest_mimic::{Arguments, Failed, Trial};
use peak_alloc::PeakAlloc;

use crate::stream::Stream;

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

/// Most memory that a run may take at once beyond what was there before, bytes.
const MEMORY_MAX: usize = 64 << 20;

/// Most time for an assessment of ordinary size in the long run: a count of at most
/// [`assessment::ORDINARY`].
const ASSESSMENT_MAX: Duration = Duration::from_millis(100);

/// What a run is to be held to, and what it found.
pub struct Made {
    /// What went in, kept when the run fails.
    pub input: Vec<u8>,
    /// Whether it was taken.
    pub taken: bool,
    /// Most steps that reading it may take.
    pub steps_max: u64,
    /// Whether its time is bounded in the long run.
    pub timed: bool,
}

/// A target: its name, how many runs belong to every check, and one run. The run hands over what
/// goes in before it does anything with it.
type Target = (
    &'static str,
    u64,
    fn(&mut Stream, &mut dyn FnMut(&[u8])) -> Made,
);

const TARGETS: [Target; 10] = [
    ("link", 1_500, decoders::link),
    ("set_link", 1_000, decoders::set_link),
    ("talk_plan", 1_500, decoders::talk_plan),
    ("case_file", 1_500, decoders::case_file),
    ("site_file", 1_000, decoders::site_file),
    ("lines_file", 600, decoders::lines_file),
    ("batch_door", 150, door::lines),
    ("assessment", 40, assessment::ordinary),
    ("assessment_brief", 60, assessment::brief),
    ("assessment_extreme", 10, assessment::extreme),
];

/// What the long run asks for.
struct Asked {
    runs: Option<u64>,
    seed: u64,
    from: u64,
}

fn asked() -> Asked {
    let number = |name: &str| {
        let text = std::env::var(name).ok()?;
        Some(text.parse().unwrap_or_else(|_| panic!("{name}: {text}")))
    };
    Asked {
        runs: number("FOOTROOM_FUZZ_RUNS"),
        seed: number("FOOTROOM_FUZZ_SEED").unwrap_or(1),
        from: number("FOOTROOM_FUZZ_FROM").unwrap_or(0),
    }
}

fn main() {
    let mut arguments = Arguments::from_args();
    // Memory is counted over the whole program.
    arguments.test_threads = Some(1);
    let trials = TARGETS.map(|target| Trial::test(target.0, move || runs(target)));
    libtest_mimic::run(&arguments, trials.into()).exit();
}

/// Time that this thread has worked so far: what it waited for others on a busy machine is not counted,
/// where the system tells it (Linux, `/proc/thread-self/schedstat`, ns, in steps of some ms).
fn worked(begin: Instant) -> Duration {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let ns = told.and_then(|text| text.split(' ').next()?.parse().ok());
    ns.map_or_else(|| begin.elapsed(), Duration::from_nanos)
}

fn runs((name, usual, run): Target) -> Result<(), Failed> {
    let asked = asked();
    let count = asked.runs.unwrap_or(usual);
    let long = asked.runs.is_some();
    let (mut taken, mut most_steps, mut most_memory) = (0, 0.0_f64, 0);
    let mut slowest = Duration::ZERO;
    let begin = Instant::now();
    for number in asked.from..asked.from + count {
        let mut input = Vec::new();
        let mut before = MEMORY.current_usage();
        let started = worked(begin);
        let made = catch_unwind(AssertUnwindSafe(|| {
            let mut stream = Stream::of(asked.seed, number);
            let goes_in = &mut |bytes: &[u8]| {
                input = bytes.to_vec();
                // What it took to make it is not what it takes to read it.
                before = MEMORY.current_usage();
                MEMORY.reset_peak_usage();
            };
            counted(|| run(&mut stream, goes_in))
        }));
        let mut took = worked(begin) - started;
        let memory = MEMORY.peak_usage().saturating_sub(before);
        let fault = match &made {
            Err(_) => Some("it panicked".to_owned()),
            Ok(_) if memory > MEMORY_MAX => Some(format!("{memory} bytes at once")),
            Ok((made, steps)) if *steps > made.steps_max => {
                Some(format!("{steps} steps, {} at most", made.steps_max))
            }
            Ok((made, _)) if long && made.timed && took > ASSESSMENT_MAX => {
                // Somebody else may have been at work beside it: the least of five says how long it takes.
                for _ in 0..4 {
                    let again = worked(begin);
                    let _ = run(&mut Stream::of(asked.seed, number), &mut |_| {});
                    took = took.min(worked(begin) - again);
                }
                (took > ASSESSMENT_MAX).then(|| format!("it takes {took:?}"))
            }
            Ok(_) => None,
        };
        if let Some(fault) = fault {
            let kept = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"))
                .join(format!("fuzz-{name}-{}-{number}", asked.seed));
            std::fs::write(&kept, &input).map_err(|error| Failed::from(error.to_string()))?;
            return Err(Failed::from(format!(
                "run {number} of seed {}: {fault}; its input is {}",
                asked.seed,
                kept.display()
            )));
        }
        if let Ok((made, steps)) = made {
            taken += u64::from(made.taken);
            most_steps = most_steps.max(steps as f64 / (made.input.len().max(1) as f64));
            most_memory = most_memory.max(memory);
            if made.timed {
                slowest = slowest.max(took);
            }
        }
    }
    println!(
        "{name}: {count} runs in {:.0} s, {taken} taken, at most {most_steps:.0} steps a byte and \
         {:.1} MB{}",
        begin.elapsed().as_secs_f64(),
        most_memory as f64 / f64::from(1 << 20),
        if slowest.is_zero() {
            String::new()
        } else {
            format!(", {:.0} ms", slowest.as_secs_f64() * 1.0e3)
        }
    );
    // Where nothing is taken, nothing behind the first check is looked at.
    if count >= usual && taken == 0 {
        return Err(Failed::from("nothing was taken"));
    }
    Ok(())
}
