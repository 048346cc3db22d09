//! What the example's answer costs, in counts that a busy machine does not decide: runs, steps, what is
//! moved in them, memory asked for, instructions. `core/benches/solve.rs` has the times.
//!
//! The bounds are a tenth above what was counted when they were set. Who makes the answer dearer raises
//! them with a reason; who makes it much cheaper lowers them.

use std::alloc::System;
#[cfg(target_arch = "x86_64")]
use std::process::Command;

use footroom_core::assess::{Assessment, assess};
use footroom_core::demo::demo;
use footroom_core::size::node_steps;
use footroom_core::solve::Options;
use stats_alloc::{INSTRUMENTED_SYSTEM, Region, StatsAlloc};

#[global_allocator]
static MEMORY: &StatsAlloc<System> = &INSTRUMENTED_SYSTEM;

/// Runs of the example's answer: four of the crew as given, 21 near it (`core/src/nearby.rs`).
const RUNS: usize = 4 + 21;
/// Steps of its nominal run: 6 s of motion less the free fall, at the longest step.
const STEPS_MAX: u32 = 6_300;
/// What its runs move, as it is counted before they are made.
const NODE_STEPS_MAX: u64 = 4_700_000;
/// How often it asks for memory, and for how much in all, bytes.
const ALLOCATIONS_MAX: usize = 2_750;
const BYTES_MAX: usize = 1_950_000;
/// Instructions of one answer on x86-64, the mechanics optimized as in tests.
const INSTRUCTIONS_MAX: u64 = 430_000_000;

fn answer() -> Assessment {
    let options = Options {
        traces: true,
        ..Options::default()
    };
    assess(&demo(), options).expect("the example has no faults")
}

/// In one test, as memory is counted over the whole program.
#[test]
fn the_examples_answer_stays_within_its_counts() {
    answer();
    let counted = Region::new(MEMORY);
    let found = answer();
    let memory = counted.change();
    let (steps, near) = (found.nominal.history.steps, found.nearby.len());
    drop(found);
    let left = counted.change();
    let asked = memory.allocations + memory.reallocations;
    let moved = demo().ready().map_or(0, |ready| node_steps(&ready));
    println!(
        "{steps} steps, {moved} node steps, memory asked for {asked} times, {} bytes",
        memory.bytes_allocated
    );
    assert_eq!(4 + near, RUNS);
    assert!(steps <= STEPS_MAX, "{steps} steps");
    assert!(moved <= NODE_STEPS_MAX, "{moved} node steps");
    assert!(asked <= ALLOCATIONS_MAX, "memory asked for {asked} times");
    let bytes = memory.bytes_allocated;
    assert!(bytes <= BYTES_MAX, "{bytes} bytes");
    // It leaves nothing behind.
    assert_eq!(left.allocations, left.deallocations);
    #[cfg(target_arch = "x86_64")]
    within_its_instructions();
}

/// Makes as many answers as it is told to, for [`instructions`].
#[test]
#[ignore = "run by another test, under a counter of instructions"]
fn answers() {
    let count = std::env::var("FOOTROOM_ANSWERS").map_or(0, |n| n.parse().expect("a number"));
    for _ in 0..count {
        std::hint::black_box(answer());
    }
}

/// Instructions that this program takes for so many answers; `None`: there is no counter.
#[cfg(target_arch = "x86_64")]
fn instructions(answers: u32) -> Option<u64> {
    let this = std::env::current_exe().expect("the program of the test");
    let output = Command::new("valgrind")
        .args([
            "--tool=cachegrind",
            "--cache-sim=no",
            "--cachegrind-out-file=/dev/null",
        ])
        .arg(this)
        .args(["--exact", "answers", "--ignored", "--test-threads=1"])
        .env("FOOTROOM_ANSWERS", answers.to_string())
        .output()
        .ok()?;
    assert!(output.status.success(), "{output:?}");
    let text = String::from_utf8_lossy(&output.stderr).into_owned();
    let (_, count) = text.rsplit_once("refs:")?;
    let digits: String = count
        .lines()
        .next()?
        .chars()
        .filter(char::is_ascii_digit)
        .collect();
    digits.parse().ok()
}

/// The second answer's instructions: what the program takes for two less what it takes for one.
#[cfg(target_arch = "x86_64")]
fn within_its_instructions() {
    let Some(one) = instructions(1) else {
        println!("skipped: instructions are counted by valgrind, which is not here");
        return;
    };
    let two = instructions(2).expect("it was there a moment ago");
    let answer = two - one;
    println!("{answer} instructions");
    assert!(answer <= INSTRUCTIONS_MAX, "{answer} instructions");
    // Fewer than a step of a node can take: the counter counts something else.
    assert!(answer > NODE_STEPS_MAX, "{answer} instructions");
}
