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
    /// How many times the page was laid out.
    layouts: f64,
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
        layouts: of("LayoutCount"),
    }
}

/// Most times that a playing frame calls a canvas: the drop as the demonstration has it, with three
/// workers falling. What is drawn grows with the case, not with the size of the page; a tenth more
/// than when it was counted.
const CALLS_MAX: f64 = 1_300.0;

/// Most strokes among them, each of which costs three to six microseconds to paint.
const STROKES_MAX: f64 = 105.0;

/// Counts what is called of canvases and read of the layout, from now until `counted()`.
const COUNT: &str = "(() => { const calls = {}; let reads = 0; \
    const count = (name) => { calls[name] = (calls[name] ?? 0) + 1; }; \
    const canvas = CanvasRenderingContext2D.prototype; \
    for (const name of Object.getOwnPropertyNames(canvas)) { \
    const was = Object.getOwnPropertyDescriptor(canvas, name); \
    if (typeof was.value === 'function' && name !== 'constructor') { \
    canvas[name] = function (...given) { count(name); return was.value.apply(this, given); }; } \
    else if (was.set) { Object.defineProperty(canvas, name, { ...was, \
    set(value) { count('set ' + name); was.set.call(this, value); } }); } } \
    for (const [kind, names] of [[Element, ['clientWidth', 'clientHeight', 'scrollTop', \
    'scrollHeight']], [HTMLElement, ['offsetWidth', 'offsetHeight', 'offsetTop', 'offsetLeft']]]) { \
    for (const name of names) { \
    const was = Object.getOwnPropertyDescriptor(kind.prototype, name); \
    Object.defineProperty(kind.prototype, name, { ...was, \
    get() { reads += 1; return was.get.call(this); } }); } } \
    for (const name of ['getBoundingClientRect', 'getClientRects']) { \
    const was = Element.prototype[name]; \
    Element.prototype[name] = function () { reads += 1; return was.call(this); }; } \
    const style = getComputedStyle; \
    window.getComputedStyle = (...given) => { reads += 1; return style(...given); }; \
    window.counted = () => ({ calls, reads }); \
    window.countAgain = () => { for (const name in calls) delete calls[name]; reads = 0; }; })()";

/// Plays the fall from its beginning; gives the distances of the frames, ms, from the shortest on.
const PLAY: &str = "await new Promise((done) => { const gaps = []; let last = 0; \
    document.querySelector('#to-start').click(); document.querySelector('#play').click(); \
    window.countAgain?.(); \
    const tick = (now) => { if (last) gaps.push(now - last); last = now; \
    if (gaps.length < FRAMES) requestAnimationFrame(tick); \
    else done(gaps.sort((a, b) => a - b)); }; \
    requestAnimationFrame(tick); })";

/// Steps through the fall; gives, in ms from the least on, what the script takes and what painting
/// the drop takes then. Reading a pixel back waits for all that was drawn.
const STEP: &str = "await (async () => { document.querySelector('#to-start').click(); \
    const scrub = document.querySelector('#scrub'); \
    const context = document.querySelector('#scene').getContext('2d'); \
    const script = []; const paint = []; \
    for (let i = 0; i < 60; i++) { scrub.value = String(0.02 * i); \
    context.getImageData(0, 0, 1, 1); const begin = performance.now(); \
    scrub.dispatchEvent(new Event('input')); const middle = performance.now(); \
    context.getImageData(0, 0, 1, 1); script.push(middle - begin); \
    paint.push(performance.now() - middle); } \
    return [script, paint].map((all) => all.sort((a, b) => a - b)); })()";

/// Past the capture of the test's output, so that the numbers are read without a failure.
pub(crate) fn tell(line: &str) {
    writeln!(std::io::stderr(), "{line}").expect("the numbers are written");
}

/// Plays the fall with a processor four times slower and tells how far apart the frames came, what
/// the main thread did in each, and what painting the drop takes that was recorded already. The
/// script is the page's own; the rest is the browser's, and on a machine without a graphics
/// processor it paints with the processor that is measured here.
///
/// No bound on the times: on a shared machine frames wait for others. What is bounded is what they
/// come from: calls of the canvas, and layout.
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
            let play = PLAY.replace("FRAMES", &FRAMES.to_string());
            let before = spent(page).await;
            let gaps = page.eval(&play).await;
            let after = spent(page).await;
            let stepped = page.eval(STEP).await;
            page.slow_down(1.0).await;
            let ms = |all: &Value, percent: usize| {
                let all = all.as_array().expect("times");
                let at = (all.len() * percent / 100).min(all.len() - 1);
                all[at].as_f64().expect("a time")
            };
            let each = |of: fn(Spent) -> f64| (of(after) - of(before)) / f64::from(FRAMES);
            let (script, layout) = (1.0e3 * each(|s| s.script), 1.0e3 * each(|s| s.layout));
            let all = 1.0e3 * each(|s| s.all);
            tell(&format!(
                "{name}, 4 times slower: frames apart: median {:.1} ms, 95th percentile {:.1} ms; \
                 main thread in each {all:.1} ms: script {script:.1} ms, style and layout \
                 {layout:.1} ms, painting and the rest {:.1} ms; a step with all that is shown: \
                 script {:.1} ms at least, median {:.1} ms, then painting the drop {:.1} ms, \
                 {:.1} ms",
                ms(&gaps, 50),
                ms(&gaps, 95),
                all - script - layout,
                ms(&stepped[0], 0),
                ms(&stepped[0], 50),
                ms(&stepped[1], 0),
                ms(&stepped[1], 50),
            ));
            assert!(ms(&gaps, 0) > 0.0, "no frames came");
            assert!(script > 0.0 && all > script, "nothing was measured");
            // The slider moves every third frame, the read-outs with every second move of it.
            let layouts = each(|s| s.layouts);
            assert!(layouts <= 0.5, "{name}: laid out {layouts} times a frame");

            page.eval(COUNT).await;
            page.eval(&play).await;
            let counted = page.eval("counted()").await;
            let calls = counted["calls"].as_object().expect("calls by name");
            let of = |call: &str| {
                let count = calls.get(call).and_then(Value::as_f64);
                count.unwrap_or(0.0) / f64::from(FRAMES)
            };
            let mut kinds: Vec<(&String, f64)> = calls.keys().map(|k| (k, of(k))).collect();
            kinds.sort_by(|a, b| b.1.total_cmp(&a.1));
            let total: f64 = kinds.iter().map(|kind| kind.1).sum();
            let kinds: Vec<String> = kinds
                .iter()
                .map(|(kind, count)| format!("{kind} {count:.1}"))
                .collect();
            tell(&format!(
                "{name}: {total:.0} calls of canvases a frame: {}",
                kinds.join(", ")
            ));
            assert!(of("stroke") > 10.0, "{name}: nothing was counted");
            assert!(total <= CALLS_MAX, "{name}: {total} calls a frame");
            assert!(of("stroke") <= STROKES_MAX, "{name}: {kinds:?}");
            // The back is copied, not drawn: its hatches alone ask for a limit.
            assert!((of("drawImage") - 1.0).abs() < 0.05, "{name}: {kinds:?}");
            assert!(of("clip") < 0.05, "{name}: {kinds:?}");
            // Widths are known, but for those of a chart's axis.
            assert!(of("measureText") < 10.0, "{name}: {kinds:?}");
            let reads = counted["reads"].as_f64().expect("a count") / f64::from(FRAMES);
            assert!(reads < 0.05, "{name}: {reads} reads of the layout a frame");
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
                 const find = (end) => names.find((name) => end.test(name) \
                 && name.includes('/pkg/')); \
                 const module = await import(find(/office[^/]*\\.js$/)); \
                 await module.default({ module_or_path: find(/office[^/]*\\.wasm$/) }); \
                 const desk = new module.Page('en', 'metric'); desk.demo(); \
                 const timed = (task) => { const all = []; for (let i = 0; i < 40; i++) { \
                 const begin = performance.now(); task(i); all.push(performance.now() - begin); } \
                 all.sort((a, b) => a - b); return [all[0], all[20], all[38]]; }; \
                 const answer = timed(() => { const made = new module.Page('en', 'metric'); made.demo(); \
                 while (made.step()); made.free(); }); \
                 const change = timed((i) => { desk.set('line.pretension_n', i % 2 ? '4.5' : '4.4'); \
                 desk.view(); while (desk.step()); desk.view(); desk.form(); }); \
                 return [...answer, ...change]; })()",
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

/// Types `COUNT` times into a field; gives, in ms from the least on, the time from the change to the
/// drawn drop and to the end of the frame that shows it. The callback for the frame is asked for
/// before the change, so its message comes before what the page does after the frame.
const TYPE: &str = "await (async () => { \
    const field = document.querySelector('#in-line-pretension_n'); \
    const wait = (ms) => new Promise((done) => setTimeout(done, ms)); \
    const drawn = []; const framed = []; \
    for (let i = 0; i < COUNT; i++) { await wait(100 + 16 * Math.random()); \
    const end = new Promise((done) => requestAnimationFrame(() => { \
    const channel = new MessageChannel(); channel.port1.onmessage = () => done(performance.now()); \
    channel.port2.postMessage(0); })); \
    field.value = String(4 + 0.02 * i); const begin = performance.now(); \
    field.dispatchEvent(new Event('change', { bubbles: true })); \
    drawn.push(performance.now() - begin); framed.push(await end - begin); } \
    return [drawn, framed].map((all) => all.sort((a, b) => a - b)); })()";

/// Types into a field and tells when the answer, the stack and the drop show it: the first changes,
/// while the browser is still at making the modules quick and the first look along the whole line is
/// under way, and those after it. No bound on the times, see above; what must not wait and what may is
/// held by the test after this one.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn time_of_typing() {
    for (name, setup) in [
        ("laptop", Setup::default()),
        ("projector", Setup::projector()),
    ] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            for (when, count) in [("at once", 6), ("then", 120)] {
                let times = page.eval(&TYPE.replace("COUNT", &count.to_string())).await;
                let ms = |of: usize, percent: usize| {
                    let all = times[of].as_array().expect("times");
                    let at = (all.len() * percent / 100).min(all.len() - 1);
                    all[at].as_f64().expect("a time")
                };
                let of = |i| format!("{:.1}, {:.1}, {:.1}", ms(i, 0), ms(i, 50), ms(i, 95));
                tell(&format!(
                    "{name}, typed {when}, least, median, 95th percentile: drawn after {} ms, the \
                     frame done after {} ms",
                    of(0),
                    of(1)
                ));
                assert!(ms(0, 0) > 0.0 && ms(1, 0) >= ms(0, 0), "nothing was timed");
            }
        });
    }
}

/// The first number says in words that it is one, in both languages; neither the title nor the link
/// has it, and it gives way to the whole answer by itself. Whoever falls alone has the whole at once.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_first_number_says_so_and_gives_way_to_the_whole_answer() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval(
            "void (() => { const say = (id) => document.querySelector('#' + id).textContent; \
             window.told = () => ({ busy: document.querySelector('#answer').ariaBusy, \
             number: say('answer-number'), detail: say('answer-detail'), title: document.title, \
             worst: document.querySelector('.band__line[data-worst] output').textContent, \
             hash: location.hash }); \
             window.type = (id, text) => { const field = document.querySelector(id); \
             const before = told(); field.value = text; \
             field.dispatchEvent(new Event('change', { bubbles: true })); \
             return [before, told()]; }; \
             window.whole = async () => { const begin = performance.now(); \
             while (document.body.hasAttribute('data-waiting')) \
             await new Promise((next) => setTimeout(next)); return performance.now() - begin; }; \
             })()",
        )
        .await;
        let mut spans = ["18", "9 + 9"].iter().cycle();
        for (language, first) in [("en", "First number"), ("es", "Primer número")] {
            let choose = format!("await (type('#language', '{language}'), whole())");
            page.eval(&choose).await;
            let text = spans.next().expect("it goes round");
            let seen = page
                .eval(&format!(
                    "await (async () => {{ const [before, first] = type('#in-line-spans_m', '{text}'); \
                     const ms = await whole(); return {{ before, first, ms, then: told() }}; }})()"
                ))
                .await;
            tell(&format!(
                "the whole answer after {:.0} ms",
                seen["ms"].as_f64().expect("ms")
            ));
            let detail = |of: &str| seen[of]["detail"].as_str().expect("words").to_owned();
            assert_eq!(seen["first"]["busy"], "true");
            assert!(detail("first").starts_with(first), "{}", detail("first"));
            assert_eq!(seen["first"]["title"], seen["before"]["title"]);
            assert_eq!(seen["first"]["hash"], seen["before"]["hash"]);
            assert_eq!(seen["then"]["busy"], "false");
            assert!(!detail("then").contains(first), "{}", detail("then"));
            assert_ne!(seen["then"]["number"], seen["first"]["number"]);
            // The title has the worst of the lines: here the strength.
            let worst = seen["then"]["worst"].as_str().expect("a number");
            let title = seen["then"]["title"].as_str().expect("a title");
            assert!(title.contains(worst), "{title}: {worst}");
        }
        // Whatever takes the answer away takes the whole one: here the link.
        let shared = page
            .eval(
                "(type('#in-line-spans_m', '6 + 6 + 6'), document.querySelector('#share').click(), \
                 told().busy)",
            )
            .await;
        assert_eq!(shared, "false");
        let alone = page.eval("type('#in-workers-count', '1')[1]").await;
        assert_eq!(alone["busy"], "false");
        assert!(!alone["detail"].as_str().expect("words").contains("Primer"));
    });
}

/// In the turn of the change: the answer, the stack and the drop. All else after the next frame, or
/// before anything else is done.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_answer_comes_first_and_the_rest_before_anything_else_is_done() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval(
            "void (() => { window.shown = () => ['#answer-number', '#stack-rows', '#scene-words', \
             '#brief-rows', '#methods'].map((id) => document.querySelector(id).textContent); \
             window.type = (text) => { const field = document.querySelector('#in-line-spans_m'); \
             field.value = text; const scene = document.querySelector('#scene'); \
             const before = [...shown(), scene.toDataURL()]; \
             field.dispatchEvent(new Event('change', { bubbles: true })); \
             return [...shown(), scene.toDataURL()].map((now, i) => now !== before[i]); }; })()",
        )
        .await;
        let first = json!([true, true, false, false, false, true]);
        assert_eq!(page.eval("type('18')").await, first);
        let of = |text: &str| format!("document.querySelector('#{text}').textContent");
        let rest = page.eval(&of("brief-rows")).await;
        assert_eq!(
            page.eval("document.querySelector('#undo').disabled").await,
            false
        );
        for input in [
            "new MouseEvent('click')",
            "new KeyboardEvent('keydown')",
            "new InputEvent('beforeinput')",
            "new PointerEvent('pointerdown')",
            "new Event('beforeprint')",
        ] {
            page.eval("type('9 + 9')").await;
            assert_ne!(page.eval(&of("brief-rows")).await, rest);
            let now = page
                .eval(&format!(
                    "(type('18'), document.body.dispatchEvent({input}), {})",
                    of("brief-rows")
                ))
                .await;
            assert_eq!(now, rest, "{input}");
        }
        // The charts follow too, and stand as if drawn afresh.
        let charts = "['force', 'tension'].map((kind) => \
             document.querySelector('#chart-' + kind).toDataURL())";
        page.eval("void (document.querySelector('#charts').open = true)")
            .await;
        page.eval("await new Promise(requestAnimationFrame)").await;
        page.eval("type('9 + 9')").await;
        page.eval("type('18')").await;
        let drawn = page.eval(charts).await;
        page.eval("void document.querySelector('#charts').dispatchEvent(new Event('toggle'))")
            .await;
        assert_eq!(page.eval(charts).await, drawn);
        page.eval("type('9 + 9')").await;
        assert_ne!(page.eval(charts).await, drawn);
    });
}
