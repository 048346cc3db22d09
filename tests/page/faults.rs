//! What a browser can refuse or lose: storage denied, full of what cannot be read, the clipboard, a
//! module cut off, a canvas' surface, room for the text. Each is survived, or said.

use crate::host::{Host, Manner};
use crate::rig::{self, Page, Setup};

/// Every key that the page keeps something under.
const KEYS: [&str; 10] = [
    "language",
    "units",
    "guesses",
    "learnt",
    "kept-case",
    "layouts",
    "site",
    "sheets",
    "lines",
    "cases",
];

/// The views that read what is kept.
const READERS: [&str; 6] = [
    "guess",
    "why",
    "compare",
    "record",
    "record-inspection",
    "lines",
];

/// Opens every view that reads what is kept.
async fn open_readers(page: &Page) {
    for view in READERS {
        page.view(view).await;
    }
}

/// The browser denies all storage: the page shows its answer and opens its views, and a tick in the
/// inspection says that it is not kept.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn denied_storage_is_said_and_takes_nothing_else() {
    rig::in_browser(Setup::default(), async |page| {
        page.prepare_documents(
            "() => { for (const name of ['localStorage', 'sessionStorage']) \
             Object.defineProperty(window, name, { get() { \
             throw new DOMException('denied', 'SecurityError'); } }); }",
        )
        .await;
        page.open_ready("").await;
        assert!(page.text("#answer-number").await.ends_with(" m"));
        open_readers(page).await;
        page.view("record-inspection").await;
        page.eval("document.querySelector('[name=point-edge][value=pass]').click()")
            .await;
        page.wait_for("!document.querySelector('#notice').hidden")
            .await;
        let said = page.text("#notice-text").await;
        assert!(said.contains("storage full or blocked"), "{said}");
        // Nor is there a clipboard: the link stands there to be copied.
        page.eval(
            "void Object.defineProperty(navigator, 'clipboard', { value: { \
             writeText: () => Promise.reject(new Error('denied')) } })",
        )
        .await;
        page.click("#share").await;
        page.wait_for("document.querySelector('#share-copy')").await;
        page.click("#share-copy").await;
        page.wait_for(
            "document.querySelector('.share__note').textContent.includes('copy the link from here')",
        )
        .await;
        let selected = "(({ value, selectionStart, selectionEnd }) => value.includes('#v1.') \
            && selectionStart === 0 && selectionEnd === value.length)\
            (document.querySelector('#share-link'))";
        assert_eq!(page.eval(selected).await, true);
    });
}

/// Whatever stands under a key, the page starts with its own example, opens its views, and throws nothing
/// away that was entered bit by bit.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn what_cannot_be_read_under_any_key_stops_nothing() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let number = page.text("#answer-number").await;
        for text in ["{\"\u{0}", "[[1,{}],null]"] {
            page.eval(&format!(
                "void {}.forEach((key) => localStorage.setItem('footroom.' + key, {}))",
                serde_json::json!(KEYS),
                serde_json::json!(text)
            ))
            .await;
            page.reload().await;
            page.wait_ready().await;
            assert_eq!(page.text("#answer-number").await, number);
            open_readers(page).await;
            for key in ["guesses", "layouts", "site", "lines"] {
                let there = page
                    .eval(&format!(
                        "Object.entries(localStorage).some(([key, text]) => \
                         key.startsWith('footroom.{key}') && text === {})",
                        serde_json::json!(text)
                    ))
                    .await;
                assert_eq!(there, true, "{text:?} under {key} is gone");
            }
        }
        page.eval("localStorage.clear()").await;
    });
}

/// A module whose bytes end half-way is said like one that is missing, and the button takes the whole one.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_module_that_breaks_off_is_said() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner {
            cut: Some("pkg/footroom_bg"),
            missing: vec!["page/offline"],
            ..Manner::default()
        });
        page.go(&host.address("")).await;
        page.wait_for("document.body?.dataset.state === 'failed'")
            .await;
        let said = page.text("#start").await;
        assert!(said.contains("could not be loaded"), "{said}");
        // The first is whole now, and the second breaks off: the first answer stays, and says so.
        host.change(|manner| manner.cut = Some("pkg/office_bg"));
        page.click("#reload").await;
        page.wait_for("document.querySelector('#notice')?.hidden === false")
            .await;
        let said = page.text("#notice-text").await;
        assert!(said.contains("Could not load"), "{said}");
        assert!(page.text("#answer-number").await.ends_with(" m"));
        page.allow_error("");
    });
}

/// Letters and lines set wider by the visitor (WCAG 2.2, 1.4.12: lines 1.5, letters 0.12, words 0.16 of
/// the type's size) at 320 px, which is 1280 at 400 %: nothing is wider than the page and no button's
/// words are cut. What is drawn comes back with the next picture when the canvas has lost its surface,
/// and a page that was hidden goes on when it is seen again.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn spaced_text_a_lost_canvas_and_a_hidden_page_are_survived() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.set_size((320, 640), 1.0).await;
        page.eval(
            "void (() => { const sheet = new CSSStyleSheet(); sheet.replaceSync('* { \
             line-height: 1.5 !important; letter-spacing: 0.12em !important; \
             word-spacing: 0.16em !important; }'); document.adoptedStyleSheets = [sheet]; })()",
        )
        .await;
        for language in ["en", "es"] {
            crate::doors::choose(page, "language", language).await;
            for room in ["plan", "decide", "explain", "site", "file"] {
                page.click(&format!("#door-{room}")).await;
                let found = page
                    .eval(
                        "[document.documentElement.scrollWidth - innerWidth, \
                         [...document.querySelectorAll('button')].filter((button) => \
                         button.checkVisibility() && getComputedStyle(button).overflowX !== 'visible' \
                         && button.scrollWidth > button.clientWidth + 1) \
                         .map((button) => button.textContent)]",
                    )
                    .await;
                assert!(found[0].as_f64() <= Some(0.0), "{room} {language}: {found}");
                assert_eq!(found[1], serde_json::json!([]), "{room} {language}");
                page.shot(&format!("spaced-{room}-{language}"), true).await;
            }
        }
        page.eval("document.adoptedStyleSheets = []").await;
        page.set_size((1280, 800), 1.0).await;
        page.click("#to-lowest").await;
        // A surface that is taken away comes back empty, and the browser says so.
        let drawn = "(() => { const { width, height } = document.querySelector('#scene'); \
            const bytes = document.querySelector('#scene').getContext('2d') \
            .getImageData(0, 0, width, height).data; \
            return new Set(new Uint32Array(bytes.buffer)).size; })()";
        let before = page.eval(drawn).await.as_u64().expect("a count");
        assert!(before > 20, "{before} colours");
        page.eval(
            "void (() => { const scene = document.querySelector('#scene'); \
             scene.dispatchEvent(new Event('contextlost')); \
             scene.getContext('2d').reset(); \
             scene.dispatchEvent(new Event('contextrestored')); })()",
        )
        .await;
        page.wait_for(&format!("{drawn} === {before}")).await;
        // No frame comes to a page that is hidden; half a second later it is seen again.
        page.click("#to-start").await;
        let before = page.text("#answer-number").await;
        page.eval(
            "void (() => { const frame = window.requestAnimationFrame; const held = []; \
             window.requestAnimationFrame = (f) => held.push(f); \
             document.querySelector('#play').click(); \
             const field = document.querySelector('#in-line-pretension_n'); field.value = '3.1'; \
             field.dispatchEvent(new Event('change', { bubbles: true })); \
             setTimeout(() => { window.requestAnimationFrame = frame; \
             for (const f of held) frame(f); }, 500); })()",
        )
        .await;
        page.wait_for("Number(document.querySelector('#scrub').value) > 0")
            .await;
        let number = page.text("#answer-number").await;
        assert_ne!(number, before);
    });
}

/// In forced colours what tells the marks apart is no colour alone: words and signs stand there, what has
/// the focus is outlined.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn forced_colours_keep_marks_and_focus() {
    let setup = Setup {
        forced_colors: true,
        ..Setup::default()
    };
    rig::in_browser(setup, async |page| {
        page.open_ready("").await;
        assert_eq!(
            page.eval("matchMedia('(forced-colors: active)').matches")
                .await,
            true
        );
        let strength = page.text("#line-strength").await;
        assert!(
            strength.contains('✗') && strength.contains("of 2.00 required"),
            "{strength}"
        );
        let outline = page
            .eval(
                "(() => { const share = document.querySelector('#share'); \
                 share.focus({ focusVisible: true }); const { outlineStyle, outlineWidth } = \
                 getComputedStyle(share); return [outlineStyle, parseFloat(outlineWidth)]; })()",
            )
            .await;
        assert!(
            outline[0] != "none" && outline[1].as_f64() >= Some(1.0),
            "{outline}"
        );
        page.shot("forced-colours", false).await;
    });
}
