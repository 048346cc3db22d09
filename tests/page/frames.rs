//! How long a frame of the fall takes: run by  cargo xtask test --page --chromium frame_time

use std::io::Write as _;

use crate::rig::{self, Setup};

/// Plays the fall with a processor four times slower and prints how far apart the frames came.
/// The bound only keeps a fall from stopping altogether: on a shared machine frames wait for others.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn frame_time_of_the_fall_chromium_only() {
    for (name, setup) in [
        ("laptop", Setup::default()),
        ("projector", Setup::projector()),
    ] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            page.slow_down(4.0).await;
            let times = page
                .eval(
                    "await new Promise((done) => { const gaps = []; let last = 0; \
                     document.querySelector('#to-start').click(); \
                     document.querySelector('#play').click(); \
                     const tick = (now) => { if (last) gaps.push(now - last); last = now; \
                     if (gaps.length < 120) requestAnimationFrame(tick); else { \
                     gaps.sort((a, b) => a - b); done([gaps[60], gaps[114]]); } }; \
                     requestAnimationFrame(tick); })",
                )
                .await;
            let ms = |i: usize| times[i].as_f64().expect("a time");
            // Past the capture of the test's output, so that the numbers are read without a failure.
            let told = writeln!(
                std::io::stderr(),
                "{name}, 4 times slower: median {:.1} ms, 95th percentile {:.1} ms",
                ms(0),
                ms(1)
            );
            told.expect("the numbers are written");
            assert!(ms(0) < 250.0, "{} ms", ms(0));
        });
    }
}
