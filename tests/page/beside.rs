//! An answer that takes long is made in a worker: the page stays free, the last result stands there and
//! is marked, and what comes is the answer to what was entered last.

use footroom_core::assess::assess;
use footroom_core::case::{Case, Line, Motion, Site, Worker};
use footroom_core::constants::MODEL_VERSION;
use footroom_core::solve::Options;
use footroom_web::wire::link::{self, Shared};

use crate::rig::{self, Setup};

/// The longest line with the most users, for two seconds of motion: dozens of times the example.
fn longest() -> Case {
    Case {
        title: "twelve spans".to_owned(),
        line: Line {
            spans_m: vec![60.0; 12],
            ..Line::default()
        },
        workers: (0..6)
            .map(|i| Worker {
                position_m: 30.0 + 120.0 * f64::from(i),
                ..Worker::default()
            })
            .collect(),
        site: Site {
            beam_top_m: 40.0,
            ..Site::default()
        },
        motion: Motion {
            duration_s: 2.0,
            ..Motion::default()
        },
        ..Case::default()
    }
}

/// Enters a margin, and then two more, one right after the other, and waits for the answer; gives what
/// was there meanwhile, and for how long the page did nothing else at most, ms.
const ENTER: &str = "await (async () => { \
    const text = (id) => document.querySelector(id).textContent; \
    const enter = (value) => { const field = document.querySelector('#in-site-margin_m'); \
    field.value = value; field.dispatchEvent(new Event('change', { bubbles: true })); }; \
    const room = () => document.querySelector('.room:not([hidden])').getBoundingClientRect().top; \
    const made = async () => { while (document.body.hasAttribute('data-coming')) \
    await new Promise((next) => setTimeout(next)); }; \
    enter('0.9'); \
    await made(); \
    const before = [text('#answer-number'), location.hash, room()]; \
    const began = performance.now(); \
    enter('0.8'); \
    await new Promise((next) => setTimeout(next, 50)); \
    enter('0.7'); \
    const during = [text('#answer-number'), location.hash, room()]; \
    const said = text('#answer-stale'); \
    let last = performance.now(); let gap = 0; let turns = 0; \
    while (document.body.hasAttribute('data-coming')) { \
    await new Promise((next) => setTimeout(next)); \
    const now = performance.now(); gap = Math.max(gap, now - last); last = now; turns += 1; } \
    return { same: before.join() === during.join(), said, gap, turns, \
    took: performance.now() - began, stale: document.querySelector('#answer-stale').hidden }; })()";

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_long_answer_leaves_the_page_free() {
    rig::in_browser(Setup::default(), async |page| {
        let mut case = longest();
        let shared = Shared {
            model: MODEL_VERSION,
            fingerprint: "0".repeat(16),
            footroom_m: 0.0,
            required_m: 0.0,
            case: case.clone(),
        };
        let sent = link::encode(&shared).expect("finite");
        page.open_ready(&format!("#{sent}")).await;
        page.wait_for("!document.querySelector('#result').hidden")
            .await;
        assert_eq!(page.text("#job-title").await, "twelve spans");
        let told = page.eval(ENTER).await;
        crate::frames::tell(&format!("a long answer: {told}"));
        assert_eq!(told["same"], true, "{told}");
        assert!(
            told["said"]
                .as_str()
                .is_some_and(|s| s.starts_with("Calculating…")),
            "{told}"
        );
        assert_eq!(told["stale"], true, "{told}");
        // A ratio, which a busy machine does not decide: on the page it would be one turn.
        let number = |name: &str| told[name].as_f64().expect("a number");
        assert!(number("gap") < 0.5 * number("took"), "{told}");
        assert!(number("turns") > 10.0, "{told}");
        // The address has the answer to the margin entered last, to the bit.
        case.site.margin_m = 0.7;
        let here = assess(&case, Options::default()).expect("no faults");
        page.wait_for(&format!("!location.hash.startsWith('#{sent}')"))
            .await;
        let kept = page.eval("location.hash").await;
        let kept = link::decode(kept.as_str().expect("a link")).expect("an own link");
        assert_eq!(kept.case, case);
        assert_eq!(kept.footroom_m.to_bits(), here.footroom.value.to_bits());

        // What was entered while the answer is made is there when the page is loaded again. Firefox's
        // driver ends what is asked of a page that goes.
        if rig::engine() != rig::Engine::Firefox {
            page.eval(
                "void (() => { const field = document.querySelector('#in-site-margin_m'); \
                 field.value = '0.65'; field.dispatchEvent(new Event('change', { bubbles: true })); \
                 if (!document.body.hasAttribute('data-coming')) throw Error('it is there already'); \
                 window.former = true; location.reload(); })()",
            )
            .await;
            page.wait_for("!window.former && document.body?.dataset.views === 'ready'")
                .await;
            page.wait_for("document.querySelector('#in-site-margin_m').value === '0.65'")
                .await;
            page.wait_for("document.querySelector('#answer-stale').hidden")
                .await;
        }

        // Who prints the handout at once gets a word, not a page that stands still; then the steps.
        let printed = "(() => { dispatchEvent(new Event('beforeprint')); \
            const said = document.querySelector('body > .papers')?.textContent ?? ''; \
            dispatchEvent(new Event('afterprint')); return said; })()";
        page.click("#door-explain").await;
        page.wait_for(&format!("{printed}.includes('Still calculating')"))
            .await;
        page.wait_for(&format!("{printed}.includes('worker')"))
            .await;
    });
}
