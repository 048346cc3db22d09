//! The three lines of the answer: room, strength, and the worst anywhere on the line.

use crate::rig::{self, Page, Setup};

/// The third line is known.
const FOUND: &str = "document.querySelector('#anywhere-number').textContent !== '…'";

/// Waits for the third line as for what takes long where several browsers share a small machine.
async fn found(page: &Page) {
    for _ in 0..600 {
        if page.eval(FOUND).await == serde_json::Value::Bool(true) {
            return;
        }
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
    panic!("the worst anywhere was not found in a minute");
}

/// Marks of the lines, from left to right, and of all of them.
const MARKS: &str = "[...document.querySelectorAll('.band__line'), document.querySelector('#band')] \
    .map((line) => line.dataset.mark).join(' ')";

/// In the example strength decides: it is told without a fold, in both languages and units, and no
/// number has the colour of what holds.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_example_says_that_it_is_too_weak() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        found(page).await;
        let marks = page.eval(MARKS).await;
        assert_eq!(marks, "holds fails fails fails");
        let title = page.eval("document.title").await;
        let title = title.as_str().unwrap_or_default();
        assert!(title.starts_with("Strength: 1."), "{title}");
        let accent = page
            .eval(
                "(() => { const probe = document.body.appendChild(document.createElement('i')); \
                 probe.style.color = 'var(--accent)'; const accent = getComputedStyle(probe).color; \
                 probe.remove(); return [...document.querySelectorAll('.band__number')] \
                 .filter((number) => getComputedStyle(number).color === accent).length; })()",
            )
            .await;
        assert_eq!(accent, 0, "no number in the colour of what holds");
        for (list, value) in [("language", "es"), ("units", "us")] {
            page.eval(&format!(
                "(() => {{ const list = document.querySelector('#{list}'); list.value = '{value}'; \
                 list.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
            ))
            .await;
        }
        page.wait_for("document.querySelector('#answer-number').textContent.includes('in')")
            .await;
        // A change of words is no change of the case: nothing is looked for again.
        assert_eq!(page.eval(MARKS).await, "holds fails fails fails");
        let said = page.text("#line-strength").await;
        assert!(
            said.contains("Resistencia") && said.contains("2.00"),
            "{said}"
        );
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_the_answer() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        found(page).await;
        let axe = page.axe().await;
        assert!(axe.is_empty(), "{axe:?}");
    });
}

/// One press puts the crew where the worst was found, and the answer there is what the line said.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn one_press_shows_the_worst() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        found(page).await;
        // All beside the left end: there is more room than in the middle of a span.
        for (i, at) in ["1", "2", "3"].into_iter().enumerate() {
            page.eval(&format!(
                "(() => {{ const f = document.querySelector('#in-workers-{i}-position_m'); \
                 f.value = '{at}'; f.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
            ))
            .await;
        }
        let start = std::time::Instant::now();
        page.wait_for("!document.body.hasAttribute('data-waiting')")
            .await;
        found(page).await;
        println!(
            "note: the worst anywhere was found {} ms after the last change",
            start.elapsed().as_millis()
        );
        page.wait_for("!document.querySelector('#show-worst').hidden")
            .await;
        let line = page.text("#anywhere-number").await;
        let here = page.text("#answer-number").await;
        assert_ne!(line, here);
        page.eval("document.querySelector('#show-worst').click()")
            .await;
        page.wait_for("!document.body.hasAttribute('data-waiting')")
            .await;
        page.wait_for(&format!(
            "document.querySelector('#answer-number').textContent === {line:?}"
        ))
        .await;
        found(page).await;
        page.click("#undo").await;
        page.wait_for(&format!(
            "document.querySelector('#answer-number').textContent === {here:?}"
        ))
        .await;
    });
}
