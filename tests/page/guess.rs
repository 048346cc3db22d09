//! Guess and learn: a mark by field, keys and pointer, what comes of it, and the trainee's questions.

use footroom_core::assess::assess;
use footroom_core::demo::demo;
use footroom_core::solve::Options;
use thirtyfour::Key;

use crate::rig::{self, Setup};

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_guess_is_made_let_go_and_counted() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.view("guess").await;
        page.wait_for("document.querySelector('#guess-depth')?.value")
            .await;
        // Nothing tells the answer while somebody guesses.
        let seen = "getComputedStyle(document.querySelector('#answer-number')).visibility";
        assert_eq!(page.eval(seen).await, "hidden");
        page.eval("document.querySelector('#guess-depth').select()")
            .await;
        page.press("99").await;
        page.press(Key::Tab + "").await;
        assert!(page.text("#guess-fault").await.contains("9.10 m"));
        page.eval("document.querySelector('#guess-depth').select()")
            .await;
        page.press("4.5").await;
        page.press(Key::Tab + "").await;
        page.wait_for("document.querySelector('#guess-depth').value === '4.50 m'")
            .await;
        // The slider has the focus now.
        page.press(Key::Right + "").await;
        page.wait_for("document.querySelector('#guess-depth').value === '4.55 m'")
            .await;
        page.shot("guess-before", false).await;
        page.click("#guess-go").await;
        page.wait_for("document.querySelector('.guess__is')").await;
        let said = page.text(".guess__said").await;
        // As the drawing and the stack have it: what is required, rounded up, less the margin of 1 m.
        let found = assess(&demo(), Options::default()).expect("the example has no faults");
        let asked = found.demands.workers[found.footroom.worker];
        let soles_m = (asked.required_depth_m * 100.0 - 1.0e-6).ceil() / 100.0 - asked.margin_m;
        let stop = format!("{soles_m:.2} m");
        let deeper = format!("{:.2} m deeper", soles_m - 4.55);
        for part in ["4.55 m", &stop, &deeper] {
            assert!(said.contains(part), "{said} {part}");
        }
        assert_eq!(page.eval(seen).await, "visible");
        assert!(page.text(".guess__tally").await.starts_with("1 mark"));
        page.shot("guess-after", false).await;
        page.click("#guess-go").await;
        page.eval("document.querySelector('.guess__canvas').scrollIntoView({ block: 'center' })")
            .await;
        let place = page
            .eval(
                "(() => { const box = document.querySelector('.guess__canvas')\
                 .getBoundingClientRect(); return [Math.round(box.x + box.width / 2), \
                 Math.round(box.y + 0.7 * box.height)]; })()",
            )
            .await;
        let at = |i: usize| place[i].as_i64().expect("a place");
        let before = page
            .eval("document.querySelector('#guess-depth').value")
            .await;
        page.driver
            .action_chain()
            .move_to(at(0), at(1))
            .click_and_hold()
            .move_by_offset(0, 30)
            .release()
            .perform()
            .await
            .expect("the pointer moves");
        let after = page
            .eval("document.querySelector('#guess-depth').value")
            .await;
        assert_ne!(before, after);
        page.reload().await;
        page.wait_ready().await;
        page.view("guess").await;
        page.wait_for("document.querySelector('.guess__tally')?.textContent.startsWith('1 mark')")
            .await;
    });
}

/// A question for trainees falls on a copy: the case on the page stays until it is asked for, and can be
/// had back then. An address of the time when questions were a task of their own opens them too.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_question_falls_beside_the_case_on_the_page() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("#&room=explain.learn").await;
        page.wait_for("document.querySelector('#guess-depth')?.value")
            .await;
        // Two falls and what they make of the footroom take a while.
        for question in ["0", "4"] {
            page.eval(&format!(
                "(() => {{ const list = document.querySelector('#guess-question'); \
                 list.value = '{question}'; list.dispatchEvent(new Event('change')); }})()"
            ))
            .await;
            page.wait_for("!document.querySelector('#guess-go').disabled")
                .await;
        }
        let asked = page.text(".guess__ask").await;
        assert!(asked.contains("self-retracting"), "{asked}");
        let begins = page
            .eval("document.querySelector('#guess-depth').value")
            .await;
        let begins = begins.as_str().expect("a depth").to_owned();
        assert!(asked.contains(&format!("{begins} below")), "{asked}");
        page.eval("document.querySelector('#guess-go').click()")
            .await;
        page.wait_for("document.querySelector('.guess__why')").await;
        let said = page.text(".guess__is").await;
        assert!(said.contains("higher"), "{said}");
        assert!(page.text(".guess__numbers").await.contains("footroom"));
        page.wait_for("localStorage.getItem('footroom.learnt') === '4'")
            .await;
        let count = "document.querySelector('#in-workers-count').value";
        assert_eq!(page.eval(count).await, "3", "the case on the page moved");
        let covered = "getComputedStyle(document.querySelector('#answer-number')).visibility";
        assert_eq!(
            page.eval(covered).await,
            "hidden",
            "an answer to another case"
        );
        page.shot("guess-question", false).await;

        page.click("#guess-put").await;
        page.wait_for(&format!("{count} === '1'")).await;
        page.click("#undo").await;
        page.wait_for(&format!("{count} === '3'")).await;
    });
}

/// Before the mark is let go and after it, in both languages, light and dark, on a phone too.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_the_guess() {
    for (language, dark, size) in [
        ("en-GB", false, Setup::default()),
        ("es-MX", true, Setup::phone()),
    ] {
        let setup = Setup {
            language,
            dark,
            ..size
        };
        let what = format!("{language}, dark: {dark}, {:?}", size.size_px);
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            page.view("guess").await;
            page.wait_for("document.querySelector('#guess-depth')?.value")
                .await;
            let found = page.axe().await;
            assert!(found.is_empty(), "{what}:\n  {}", found.join("\n  "));
            page.eval("document.querySelector('#guess-go').click()")
                .await;
            page.wait_for("document.querySelector('.guess__is')").await;
            let found = page.axe().await;
            assert!(found.is_empty(), "{what}, told:\n  {}", found.join("\n  "));
            page.eval(
                "(() => { const list = document.querySelector('#guess-question'); \
                 list.value = '2'; list.dispatchEvent(new Event('change')); })()",
            )
            .await;
            page.wait_for("!document.querySelector('#guess-go').disabled")
                .await;
            let found = page.axe().await;
            assert!(found.is_empty(), "{what}, asked:\n  {}", found.join("\n  "));
        });
    }
}
