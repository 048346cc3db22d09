//! What a person does on the first day: looks at the example, lets the fall play, changes a field,
//! mistypes one, sends the link.

use thirtyfour::Key;

use crate::rig::{self, Page, Setup};

/// What the page says the answer is, and what it was computed with.
async fn answer(page: &Page) -> [String; 4] {
    [
        page.text("#answer-number").await,
        page.text("#answer-sentence").await,
        page.text("#stack-rows").await,
        page.text("#model").await,
    ]
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_example_plays_changes_and_travels_in_a_link() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let example = answer(page).await;
        assert!(page.text("#job-note").await.contains("invented"));

        // The fall plays: from rest, the clock of the player moves on by itself.
        page.click("#to-start").await;
        page.wait_for("Number(document.querySelector('#scrub').value) === 0")
            .await;
        page.click("#play").await;
        page.wait_for("Number(document.querySelector('#scrub').value) > 0")
            .await;
        page.click("#to-lowest").await;
        page.shot("journey-lowest", false).await;

        // One field changes: so do the answer and the fingerprint.
        page.type_into("#in-workers-count", "1").await;
        page.wait_for("document.querySelector('#stack-of').textContent.includes('1')")
            .await;
        let changed = answer(page).await;
        assert_ne!(changed[0], example[0]);
        assert_ne!(changed[3], example[3]);

        // The link, opened in another page, gives the same numbers to the shown digit.
        page.click("#share").await;
        page.wait_for("location.hash.startsWith('#v1.')").await;
        let link = page.eval("location.hash").await;
        let link = link.as_str().expect("a link").to_owned();
        page.go("about:blank").await;
        page.open_ready(&link).await;
        assert_eq!(answer(page).await, changed);
        let shared = page.text("#answer-shared").await;
        assert!(shared.contains("ame result"), "{shared}");
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_wrong_value_and_a_damaged_link_lose_nothing() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let example = answer(page).await;
        page.type_into("#in-line-pretension_n", "444").await;
        page.wait_for("!document.querySelector('#problems').hidden")
            .await;
        let typed = page.eval("document.querySelector('#in-line-pretension_n').value");
        assert_eq!(typed.await.as_str(), Some("444"));
        let fault = page.text("#in-line-pretension_n-fault").await;
        assert!(fault.contains("40.0 kN"), "{fault}");
        assert_eq!(page.text("#answer-number").await, example[0]);
        assert!(!page.text("#answer-stale").await.is_empty());
        // It is there again when the page is loaded again.
        page.reload().await;
        page.wait_for("document.querySelector('#in-line-pretension_n')?.value === '444'")
            .await;
        assert_eq!(page.text("#answer-number").await, example[0]);
        // A press below the field is not lost, though the field's hint folds when the focus goes. In WebKit
        // it still is; why is not known.
        let presses = rig::engine() != rig::Engine::WebKit;
        if presses {
            page.eval("document.querySelector('#in-workers-count').focus()")
                .await;
            let of_below =
                "document.querySelectorAll('#inputs [id^=in-site-below-][id$=-from_m]').length";
            let there = page.eval(of_below).await.as_u64().expect("a number");
            page.click("#add-below").await;
            page.wait_for(&format!("{of_below} === {}", there + 1))
                .await;
            page.click("#undo").await;
        }
        page.click("#undo").await;
        // On a slow machine clearing the field and typing into it are two steps.
        let faulty = "!document.querySelector('#problems').hidden";
        if page.eval(faulty).await == true {
            page.click("#undo").await;
        }
        page.wait_for("document.querySelector('#problems').hidden")
            .await;
        assert_eq!(answer(page).await, example);

        page.eval("void (location.hash = '#v1.AAAAdamagedAAAA')")
            .await;
        page.wait_for("!document.querySelector('#refused').hidden")
            .await;
        assert_eq!(answer(page).await, example);
    });
}

/// The crew's absorbers by the curve of their sheet: typed once for all, refused where it cannot be read,
/// in the answer, and again in the link.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_curve_of_the_absorbers_is_typed_and_travels() {
    const SHAPE: &str = "document.querySelector('[name=\"workers.all.gear.absorber.shape\"]')";
    const CURVE: &str = "document.querySelector('[name=\"workers.all.gear.absorber.curve\"]')";
    async fn put(page: &Page, field: &str, text: &str) {
        page.wait_for(&format!("{field} !== null")).await;
        page.eval(&format!(
            "(() => {{ const f = {field}; f.value = {text:?}; \
             f.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
        ))
        .await;
    }
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let example = answer(page).await;
        put(page, SHAPE, "curve").await;
        put(page, CURVE, "0: 3; x").await;
        page.wait_for("!document.querySelector('#problems').hidden")
            .await;
        put(page, CURVE, "0: 6.5; 0.2: 3.2; 1.07: 3").await;
        page.wait_for("document.querySelector('#problems').hidden")
            .await;
        page.wait_for(&format!(
            "document.querySelector('#answer-number').textContent !== {:?}",
            example[0]
        ))
        .await;
        let shown = page.eval(&format!("{CURVE}.value")).await;
        let expected = "0.00 m: 6.5 kN; 0.20 m: 3.2 kN; 1.07 m: 3.0 kN";
        assert_eq!(shown.as_str(), Some(expected));
        page.click("#share").await;
        page.wait_for("location.hash.startsWith('#v1.')").await;
        let link = page.eval("location.hash").await;
        let link = link.as_str().expect("a link").to_owned();
        page.go("about:blank").await;
        page.open_ready(&link).await;
        page.wait_for(&format!("{CURVE} !== null")).await;
        let again = page.eval(&format!("{CURVE}.value")).await;
        assert_eq!(again.as_str(), Some(expected));
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn units_and_language_change_the_words_and_no_value() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let example = answer(page).await;
        page.click("#to-lowest").await;
        page.eval(
            "(() => { const s = document.querySelector('#language'); s.value = 'es'; \
             s.dispatchEvent(new Event('change', { bubbles: true })); })()",
        )
        .await;
        page.wait_for("document.documentElement.lang === 'es'")
            .await;
        assert_eq!(page.text("#answer-number").await, example[0]);
        assert_ne!(page.text("#answer-sentence").await, example[1]);
        page.eval(
            "(() => { const s = document.querySelector('#units'); s.value = 'us'; \
             s.dispatchEvent(new Event('change', { bubbles: true })); })()",
        )
        .await;
        page.wait_for("document.querySelector('#answer-number').textContent.includes('in')")
            .await;
        page.shot("journey-es-us", false).await;
        let fingerprint = |text: &str| text.rsplit(' ').take(4).collect::<Vec<_>>().join(" ");
        assert_eq!(
            fingerprint(&page.text("#model").await),
            fingerprint(&example[3])
        );
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_player_obeys_the_keyboard() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval("document.activeElement.blur()").await;
        let at = "Number(document.querySelector('#scrub').value)";
        page.press(Key::Home + "").await;
        page.wait_for(&format!("{at} === 0")).await;
        page.press(Key::Right + "").await;
        page.wait_for(&format!("{at} > 0")).await;
        page.press("l").await;
        page.wait_for(&format!("{at} > 0.5")).await;
        page.press(Key::End + "").await;
        page.wait_for(&format!("{at} > 1")).await;
    });
}
