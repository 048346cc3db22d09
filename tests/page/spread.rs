//! Falls drawn within the tolerances.

use std::io::Write as _;

use crate::rig::{self, Page, Setup};

const WHOLE: &str = "document.querySelector('#spread .late').dataset.state === 'whole'";

/// Opens the view and waits for it.
async fn unfold(page: &Page) {
    page.view("spread").await;
    page.wait_for("document.querySelector('#spread-start')")
        .await;
    page.eval("document.querySelector('#spread').scrollIntoView()")
        .await;
}

/// Draws with a seed; gives what is told of the draws.
async fn draw(page: &Page, seed: &str) -> String {
    page.eval(&format!(
        "void (document.querySelector('#spread-seed').value = '{seed}')"
    ))
    .await;
    page.eval("document.querySelector('#spread-start').click()")
        .await;
    wait_whole(page).await;
    page.text(".spread__said").await
}

/// As [`Page::wait_for`], for what takes long where several browsers share a small machine.
async fn wait_whole(page: &Page) {
    let start = std::time::Instant::now();
    while page.eval(WHOLE).await != serde_json::Value::Bool(true) {
        assert!(
            start.elapsed() < std::time::Duration::from_secs(120),
            "the draws are not whole after two minutes"
        );
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
}

async fn no_findings(page: &Page, what: &str) {
    let found = page.axe().await;
    assert!(found.is_empty(), "{what}:\n  {}", found.join("\n  "));
}

async fn choose(page: &Page, id: &str, value: &str) {
    page.eval(&format!(
        "(() => {{ const s = document.querySelector('#{id}'); s.value = '{value}'; \
         s.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
    ))
    .await;
}

/// Whoever opens the link gets the same draws, seed and numbers.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn draws_come_back_by_the_link() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page).await;
        let answer = page.text("#answer-number").await;
        let first = draw(page, "7").await;
        assert!(first.contains(&answer), "{answer}: {first}");
        let took_ms = page
            .eval(
                "(() => { const { started, whole } = document.querySelector('#spread .late')\
                 .dataset; return whole - started; })()",
            )
            .await;
        let _ = writeln!(
            std::io::stderr(),
            "1,000 draws of the demonstration: {took_ms} ms"
        );
        let hash = page.eval("location.hash").await;
        let hash = hash.as_str().expect("a text").to_owned();
        assert!(hash.contains(".&draws=7"), "{hash}");
        let other = draw(page, "8").await;
        assert_ne!(other, first);
        page.open_ready(&hash).await;
        unfold(page).await;
        let seed = page
            .eval("document.querySelector('#spread-seed').value")
            .await;
        assert_eq!(seed, "7");
        assert_eq!(draw(page, "7").await, first);
        let rows = page
            .eval("[...document.querySelectorAll('#spread table')].map((t) => t.tBodies[0].rows.length)")
            .await;
        assert_eq!(rows[1], 10, "{rows}");
    });
}

/// It is seen how far they are; they stop, nothing of them stays, and the keyboard is where it was.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn draws_show_how_far_they_are_and_can_be_stopped() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page).await;
        let seen = page
            .eval(
                "await (async () => { \
                 const of = (id) => document.querySelector(`#spread-${id}`); \
                 const said = () => document.querySelector('.spread__said').textContent; \
                 const run = () => document.querySelector('#spread .search__run'); \
                 const wait = (ms) => new Promise((turn) => setTimeout(turn, ms)); \
                 of('start').click(); \
                 while (!(of('progress').value > 0)) await wait(1); \
                 const { value, max } = of('progress'); \
                 const step = run().textContent; \
                 of('stop').focus(); of('stop').click(); \
                 const stopped = said(); const focus = document.activeElement.id; \
                 await wait(1500); \
                 return { value, max, step, stopped, focus, later: said(), hidden: run().hidden, \
                   tables: document.querySelectorAll('#spread table').length }; })()",
            )
            .await;
        let (made, of) = (&seen["value"], &seen["max"]);
        assert!(made.as_f64() > Some(0.0) && of == 1000, "{seen}");
        let step = seen["step"].as_str().expect("a sentence");
        assert!(
            step.starts_with(&format!("{made} of 1,000 falls calculated.")),
            "{step}"
        );
        let said = seen["stopped"].as_str().expect("a sentence");
        assert!(said.starts_with("Stopped before the end"), "{said}");
        assert_eq!(seen["later"], seen["stopped"]);
        assert_eq!(seen["focus"], "spread-start");
        assert_eq!(
            (&seen["hidden"], &seen["tables"]),
            (&true.into(), &0.into())
        );
    });
}

/// What is no seed is said at its field and draws nothing; the key Enter draws.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_seed_is_typed_and_a_wrong_one_is_said() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page).await;
        let before = page.eval("location.hash").await;
        page.type_into("#spread-seed", "seven").await;
        page.press(thirtyfour::Key::Enter + "").await;
        page.wait_for("document.querySelector('#spread-fault').textContent")
            .await;
        let state = "document.querySelector('#spread-seed').getAttribute('aria-invalid')";
        assert_eq!(page.eval(state).await, "true");
        let running = "document.querySelector('#spread .search__run').hidden";
        assert_eq!(page.eval(running).await, true);
        assert_eq!(page.eval("location.hash").await, before);
        page.type_into("#spread-seed", "12").await;
        page.press(thirtyfour::Key::Enter + "").await;
        wait_whole(page).await;
        assert_eq!(page.eval(state).await, "false");
        assert_eq!(page.text("#spread-fault").await, "");
        let hash = page.eval("location.hash").await;
        assert!(hash.as_str().is_some_and(|h| h.contains("&draws=12")));
    });
}

/// In other words and units the draws stay; of another case nothing does.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn draws_stay_in_other_words_and_go_with_another_case() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page).await;
        let first = draw(page, "1").await;
        choose(page, "units", "us").await;
        page.wait_for("document.querySelector('.spread__said').textContent.includes('lbf')")
            .await;
        choose(page, "language", "es").await;
        page.wait_for("document.querySelector('.spread__said').textContent.includes('sorteos')")
            .await;
        choose(page, "units", "metric").await;
        choose(page, "language", "en").await;
        page.wait_for("document.querySelector('.spread__said').textContent.includes('draws')")
            .await;
        assert_eq!(page.text(".spread__said").await, first);
        page.eval("document.querySelector('#spread-start').focus()")
            .await;
        page.eval(
            "(() => { const f = document.querySelector('[name=\"workers.count\"]'); \
             f.value = '2'; f.dispatchEvent(new Event('change', { bubbles: true })); })()",
        )
        .await;
        page.wait_for("!document.querySelector('#spread table')")
            .await;
        assert_eq!(page.text(".spread__said").await, "");
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_the_spread() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page).await;
        no_findings(page, "before the draws").await;
        page.eval("void (document.querySelector('#spread-seed').value = 'x')")
            .await;
        page.eval("document.querySelector('#spread-start').click()")
            .await;
        no_findings(page, "a wrong seed").await;
        draw(page, "1").await;
        no_findings(page, "the draws").await;
        choose(page, "language", "es").await;
        page.wait_for("document.querySelector('.spread__said').textContent.includes('sorteos')")
            .await;
        no_findings(page, "the draws, Spanish").await;
    });
}

/// Pictures on every kind of screen, to be looked at; nothing is wider than its screen.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_spread_has_its_pictures_at_length() {
    for (name, setup, language, units) in [
        ("spread-phone", Setup::phone(), "es", "us"),
        ("spread-wide", Setup::projector(), "en", "metric"),
        (
            "spread-dark",
            Setup {
                dark: true,
                ..Setup::default()
            },
            "en",
            "us",
        ),
    ] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            choose(page, "language", language).await;
            choose(page, "units", units).await;
            unfold(page).await;
            draw(page, "1").await;
            page.eval("document.querySelector('#spread').scrollIntoView()")
                .await;
            page.shot(name, false).await;
            page.eval("document.querySelector('#spread .charts__pair').scrollIntoView()")
                .await;
            page.shot(&format!("{name}-charts"), false).await;
            page.eval("document.querySelector('.spread__tables').scrollIntoView()")
                .await;
            page.shot(&format!("{name}-tables"), false).await;
            let wide = page
                .eval("document.documentElement.scrollWidth - innerWidth")
                .await;
            assert!(wide.as_f64() <= Some(0.0), "{name}: {wide}");
        });
    }
}
