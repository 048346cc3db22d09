//! How long a frame of the fall and an answer take in the browser: measured and printed, run by
//! cargo xtask test --page --chromium time_of

use std::io::Write as _;

use serde_json::{Value, json};

use crate::rig::{self, Page, Setup};

/// Frames of a measured playback.
const FRAMES: u32 = 120;

/// Times that the browser's main thread has worked so far, s: not counted is what it waited for
/// others on a busy machine.
#[derive(Clone, Copy)]
struct Spent {
    script: f64,
    layout: f64,
    all: f64,
}

async fn spent(page: &Page) -> Spent {
    let metrics = page
        .driver
        .cdp()
        .send_raw("Performance.getMetrics", json!({}))
        .await
        .expect("the times of the main thread");
    let of = |name: &str| {
        let all = metrics["metrics"].as_array().expect("a list");
        let found = all.iter().find(|metric| metric["name"] == name);
        found
            .and_then(|metric| metric["value"].as_f64())
            .expect(name)
    };
    Spent {
        script: of("ScriptDuration"),
        layout: of("LayoutDuration") + of("RecalcStyleDuration"),
        all: of("TaskDuration"),
    }
}

/// Plays the fall with a processor four times slower and prints how far apart the frames came, what
/// the main thread did in each, and what painting a drawing takes that was recorded already. The
/// script is the page's own; the rest is the browser's, and on a machine without a graphics
/// processor it paints with the processor that is measured here.
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
            page.driver
                .cdp()
                .send_raw("Performance.enable", json!({ "timeDomain": "threadTicks" }))
                .await
                .expect("the times of the main thread");
            page.slow_down(4.0).await;
            let before = spent(page).await;
            let times = page
                .eval(&format!(
                    "await new Promise((done) => {{ const gaps = []; let last = 0; \
                     document.querySelector('#to-start').click(); \
                     document.querySelector('#play').click(); \
                     const tick = (now) => {{ if (last) gaps.push(now - last); last = now; \
                     if (gaps.length < {FRAMES}) requestAnimationFrame(tick); else {{ \
                     gaps.sort((a, b) => a - b); \
                     done([gaps[{}], gaps[{}]]); }} }}; \
                     requestAnimationFrame(tick); }})",
                    FRAMES / 2,
                    FRAMES * 95 / 100
                ))
                .await;
            let after = spent(page).await;
            // Reading a pixel back waits for all that was drawn.
            let drawn = page
                .eval(
                    "await (async () => { document.querySelector('#to-start').click(); \
                     const scrub = document.querySelector('#scrub'); \
                     const context = document.querySelector('#scene').getContext('2d'); \
                     const script = []; const paint = []; \
                     for (let i = 0; i < 60; i++) { scrub.value = String(0.02 * i); \
                     context.getImageData(0, 0, 1, 1); const begin = performance.now(); \
                     scrub.dispatchEvent(new Event('input')); const middle = performance.now(); \
                     context.getImageData(0, 0, 1, 1); script.push(middle - begin); \
                     paint.push(performance.now() - middle); } \
                     const told = (all) => { all.sort((a, b) => a - b); \
                     return [all[0], all[30]]; }; \
                     return [...told(script), ...told(paint)]; })()",
                )
                .await;
            let ms = |value: &Value, i: usize| value[i].as_f64().expect("a time");
            let each = |of: fn(Spent) -> f64| 1.0e3 * (of(after) - of(before)) / f64::from(FRAMES);
            let (script, layout, all) = (each(|s| s.script), each(|s| s.layout), each(|s| s.all));
            // Past the capture of the test's output, so that the numbers are read without a failure.
            let told = writeln!(
                std::io::stderr(),
                "{name}, 4 times slower: frames apart: median {:.1} ms, 95th percentile {:.1} ms; \
                 main thread in each: script {script:.1} ms, style and layout {layout:.1} ms, \
                 painting and the rest {:.1} ms; a step with all that is shown: script {:.1} ms at \
                 least, median {:.1} ms, then painting the drop {:.1} ms, {:.1} ms",
                ms(&times, 0),
                ms(&times, 1),
                all - script - layout,
                ms(&drawn, 0),
                ms(&drawn, 1),
                ms(&drawn, 2),
                ms(&drawn, 3),
            );
            told.expect("the numbers are written");
            assert!(
                ms(&times, 0) > 0.0 && ms(&times, 1) >= ms(&times, 0),
                "no frames came"
            );
            assert!(script > 0.0 && all > script, "nothing was measured");
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
