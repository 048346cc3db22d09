//! How long a frame of the fall and an answer take in the browser: measured and printed, run by
//! cargo xtask test --page --chromium time_of

use std::io::Write as _;

use crate::rig::{self, Setup};

/// Plays the fall with a processor four times slower and prints how far apart the frames came.
/// No bound on the times: on a shared machine frames wait for others.
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
            assert!(ms(0) > 0.0 && ms(1) >= ms(0), "no frames came");
        });
    }
}

/// Solves the example over and over: the full answer (two methods, all corners, three workers, two
/// spans), and one change of a field up to all that the page shows of it.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn time_of_an_answer() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let times = page
            .eval(
                "await (async () => { const names = performance.getEntriesByType('resource') \
                 .map((entry) => entry.name); \
                 const name = names.find((name) => /office[^/]*\\.js$/.test(name) \
                 && name.includes('/pkg/')); \
                 const module = await import(name); \
                 const desk = new module.Desk('en', 'metric'); \
                 const timed = (task) => { const all = []; for (let i = 0; i < 40; i++) { \
                 const begin = performance.now(); task(i); all.push(performance.now() - begin); } \
                 all.sort((a, b) => a - b); return [all[0], all[20], all[38]]; }; \
                 const answer = timed(() => new module.Desk('en', 'metric').free()); \
                 const change = timed((i) => { desk.set('line.pretension_n', i % 2 ? '4.5' : '4.4'); \
                 desk.view(); desk.form(); }); return [...answer, ...change]; })()",
            )
            .await;
        let ms = |i: usize| times[i].as_f64().expect("a time");
        let told = writeln!(
            std::io::stderr(),
            "full answer: least {:.1}, median {:.1}, 95th percentile {:.1} ms; a change with all \
             that is shown: {:.1}, {:.1}, {:.1} ms",
            ms(0),
            ms(1),
            ms(2),
            ms(3),
            ms(4),
            ms(5)
        );
        told.expect("the numbers are written");
        assert!(ms(0) > 0.0 && ms(3) > 0.0, "nothing was timed");
    });
}
