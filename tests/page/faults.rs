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

/// Workers that can be made to die at a task, in turn without a word (as the browser ends one), by an
/// error, by a trap; each once it has started. `deadly` says at which tasks.
const MORTAL: &str = "() => { const Real = window.Worker; window.deaths = 0; \
    window.deadly = (task) => task.method === 'anywhere'; \
    window.Worker = class extends Real { \
    constructor(...how) { super(...how); \
    queueMicrotask(() => this.addEventListener('message', ({ data }) => { \
    if (data.held) { this.held = true; this.due?.(); } })); } \
    postMessage(message, ...rest) { super.postMessage(message, ...rest); \
    if (!message.task || !window.deadly(message.task)) return; \
    const how = [() => this.terminate(), () => this.dispatchEvent(new ErrorEvent('error')), \
    () => this.dispatchEvent(new MessageEvent('message', { data: { error: 'trap' } }))][window.deaths % 3]; \
    window.deaths += 1; this.due = how; if (this.held) how(); } }; }";

/// A worker that dies in the middle of a task: another one makes it. Where that dies too, each view says so
/// in words and looks for nothing for ever; with the next change it is made.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_worker_that_dies_is_replaced_or_said() {
    rig::in_browser(Setup::default(), async |page| {
        page.prepare_documents(MORTAL).await;
        page.open_ready("").await;
        let deadly = async |of: &str| {
            page.eval(&format!("void (window.deadly = (task) => {of})"))
                .await
        };
        let failed = |place: &str| {
            format!(
                "document.querySelector('{place}')?.textContent.includes('Could not calculate')"
            )
        };
        let press = async |place: &str| {
            page.wait_for(&format!("document.querySelector('{place}')"))
                .await;
            page.eval(&format!("document.querySelector('{place}').click()"))
                .await;
        };
        let enter = async |value: &str| {
            page.eval(&format!(
                "(() => {{ const field = document.querySelector('#in-site-margin_m'); \
                 field.value = '{value}'; \
                 field.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
            ))
            .await;
        };
        // The third line; what is known goes before it.
        page.wait_for(&failed("#line-anywhere .band__text")).await;
        assert_eq!(page.eval("window.deaths").await, 2);
        let title = page.eval("document.title").await.to_string();
        assert!(title.contains("Strength"), "{title}");
        // One death, of each kind: the answer comes from another worker.
        for value in ["0.9", "0.8", "0.7"] {
            page.eval("void (window.left = 1)").await;
            deadly("task.method === 'anywhere' && window.left-- > 0").await;
            enter(value).await;
            page.wait_for("/[0-9]/.test(document.querySelector('#anywhere-number').textContent)")
                .await;
            assert_eq!(page.eval("window.left < 1").await, true);
        }
        for (view, at, pressed, place) in [
            (
                "why",
                "task.method === 'why_users'",
                "",
                "#why .why__status",
            ),
            (
                "compare",
                "task.method === 'layout'",
                "#layout-add",
                ".compare__footroom",
            ),
            (
                "sweeps",
                "String(task.args) === 'users,2'",
                "",
                "#sweeps .sweep__read",
            ),
            (
                "spread",
                "task.args[1] === 40",
                "#spread-start",
                "#spread .spread__said",
            ),
            (
                "search",
                "task.method === 'search'",
                "#search-delay",
                "#search-result",
            ),
            (
                "fit",
                "task.method === 'suggested' || String(task.args) === '2,0,false'",
                "",
                ".fit__status",
            ),
            (
                "lines",
                "task.method === 'anywhere'",
                "#lines-keep",
                ".lines__text--anywhere",
            ),
        ] {
            deadly(at).await;
            page.view(view).await;
            if !pressed.is_empty() {
                press(pressed).await;
            }
            page.wait_for(&failed(place)).await;
            match view {
                "fit" => page.wait_long(&failed(".fit__suggestions")).await,
                "sweeps" => {
                    page.wait_for(
                        "document.querySelector('#sweeps .late').dataset.state === 'whole'",
                    )
                    .await;
                }
                "compare" => {
                    // Nothing is given away, and the next change asks again.
                    assert_eq!(
                        page.eval("document.querySelector('#layouts-link').disabled")
                            .await,
                        true
                    );
                    deadly("false").await;
                    enter("0.6").await;
                    page.wait_for("!document.querySelector('#layouts-link').disabled")
                        .await;
                }
                _ => {}
            }
        }
        // A question for trainees is made anew when its fold is opened again.
        deadly("task.method === 'lesson'").await;
        page.view("guess").await;
        page.eval(
            "(() => { const list = document.querySelector('#guess-question'); list.value = '1'; \
             list.dispatchEvent(new Event('change')); })()",
        )
        .await;
        page.wait_for(&failed(".guess__ask")).await;
        deadly("false").await;
        page.view("talk").await;
        page.view("guess").await;
        page.wait_for("!document.querySelector('#guess-put').hidden")
            .await;
        assert!(page.eval("window.deaths").await.as_u64() > Some(18));
    });
}

/// Storage is full for one key after the other: each time the visitor is told in words, and what was entered
/// stands on the page.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_store_that_is_full_under_any_key_is_said() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval(
            "void (() => { const put = Storage.prototype.setItem; \
             Storage.prototype.setItem = function (key, text) { if (key === `footroom.${window.full}`) \
             throw new DOMException('full', 'QuotaExceededError'); put.call(this, key, text); }; })()",
        )
        .await;
        const NOTICE: &str = "#notice:not([hidden]) #notice-text";
        let change = |place: &str, value: &str| {
            format!(
                "(() => {{ const field = document.querySelector('{place}'); field.value = '{value}'; \
                 field.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
            )
        };
        let press = |place: &str| format!("document.querySelector('{place}').click()");
        let frame = "await new Promise((turn) => setTimeout(turn, 50))";
        // The key, its view, what writes it, where it is told, and what then stands on the page.
        let table = [
            (
                "units",
                "",
                change("#units", "us"),
                NOTICE,
                "document.querySelector('#units').value === 'us'",
            ),
            (
                "language",
                "",
                change("#language", "es"),
                NOTICE,
                "document.documentElement.lang === 'es'",
            ),
            (
                "cases",
                "",
                format!(
                    "{}, {frame}, {}, {frame}, {}",
                    press("#own"),
                    change("#in-workers-count", "2"),
                    press("#demo")
                ),
                NOTICE,
                "!document.querySelector('#undo').disabled",
            ),
            (
                "guesses",
                "guess",
                press("#guess-go"),
                NOTICE,
                "document.querySelector('.guess__tally').textContent.includes('1')",
            ),
            (
                "learnt",
                "guess",
                format!(
                    "{}, await (async () => {{ const go = document.querySelector('#guess-go'); \
                     while (go.disabled) await new Promise((turn) => setTimeout(turn)); go.click(); }})()",
                    change("#guess-question", "0")
                ),
                NOTICE,
                "/\\(/.test(document.querySelector('#guess-question').selectedOptions[0].text)",
            ),
            (
                "kept-case",
                "why",
                press("#why-keep"),
                "#why .why__status",
                "document.querySelector('#why-load')",
            ),
            (
                "layouts",
                "compare",
                press("#layout-add"),
                ".compare__status",
                "document.querySelector('.compare__layout')",
            ),
            (
                "site",
                "record-inspection",
                press("[name=point-edge][value=pass]"),
                NOTICE,
                "document.querySelector('[name=point-edge][value=pass]').checked",
            ),
            (
                "sheets",
                "record",
                press("#record-further [value=inspection]"),
                NOTICE,
                "document.querySelector('#record-further [value=inspection]').checked",
            ),
            (
                "lines",
                "lines",
                press("#lines-keep"),
                NOTICE,
                "document.querySelector('.lines__line')",
            ),
        ];
        let mut tried: Vec<&str> = Vec::new();
        for (key, view, write, place, stands) in &table {
            if !view.is_empty() {
                page.view(view).await;
            }
            page.eval(&format!(
                "void (window.full = '{key}', document.querySelector('#notice').hidden = true)"
            ))
            .await;
            page.eval(&format!("void ({write})")).await;
            let there = format!("document.querySelector('{place}')?.textContent");
            page.wait_for(&format!("/keeps nothing|no guarda nada/.test({there})"))
                .await;
            page.wait_for(stands).await;
            assert_eq!(
                page.eval(&format!("localStorage.getItem('footroom.{key}')"))
                    .await,
                serde_json::Value::Null
            );
            tried.push(key);
        }
        tried.sort_unstable();
        let mut keys = KEYS;
        keys.sort_unstable();
        assert_eq!(tried, keys);
        page.eval("localStorage.clear()").await;
    });
}

/// All canvases lose what is on them, as their surface is taken away, and are told when it is back: each has
/// the same picture again.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn every_canvas_that_loses_its_surface_is_drawn_anew() {
    const LOSE: &str = "await (async () => { const frame = () => new Promise(requestAnimationFrame); \
        await frame(); await frame(); \
        const all = [...document.querySelectorAll('canvas')].filter((one) => one.checkVisibility() && one.width); \
        const of = (one) => { const bytes = one.getContext('2d').getImageData(0, 0, one.width, one.height).data; \
        let sum = 0; for (const word of new Uint32Array(bytes.buffer)) sum = (31 * sum + word) | 0; return sum; }; \
        const before = all.map(of); \
        for (const one of all) { one.dispatchEvent(new Event('contextlost')); one.getContext('2d').reset(); } \
        const empty = all.filter((one, i) => of(one) === before[i]).length; \
        for (const one of all) one.dispatchEvent(new Event('contextrestored')); \
        await frame(); await frame(); \
        return { empty, names: all.map((one) => one.id || one.className), \
        other: all.filter((one, i) => of(one) !== before[i]).map((one) => one.id || one.className) }; })()";
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.click("#to-lowest").await;
        let mut seen = std::collections::BTreeSet::new();
        let places = [
            ("charts", "", "true"),
            (
                "sweeps",
                "",
                "document.querySelector('#sweeps .late').dataset.state === 'whole'",
            ),
            (
                "spread",
                "#spread-start",
                "document.querySelector('#spread .late').dataset.state === 'whole'",
            ),
            (
                "compare",
                "#layout-add",
                "document.querySelector('#layouts-link')?.disabled === false \
                && !document.querySelector('.compare__layout[data-looking]')",
            ),
            (
                "guess",
                "",
                "document.querySelector('.guess__canvas')?.height > 150",
            ),
            (
                "film",
                "",
                "document.querySelector('.film__canvas')?.height > 150",
            ),
            (
                "talk",
                "#talk-start",
                "document.querySelector('.talk__screen')?.dataset.prepared === 'true'",
            ),
        ];
        for (view, pressed, ready) in places {
            page.reach(&format!("#{view} > *")).await;
            if !pressed.is_empty() {
                page.wait_for(&format!(
                    "document.querySelector('{pressed}')?.disabled === false"
                ))
                .await;
                page.click(pressed).await;
            }
            page.wait_long(ready).await;
            page.wait_for("document.querySelector('#anywhere-number').textContent !== '…'")
                .await;
            let told = page.eval(LOSE).await;
            assert_eq!(told["other"], serde_json::json!([]), "{view}: {told}");
            assert_eq!(told["empty"], 0, "{view}: {told}");
            let names = told["names"].as_array().expect("a list");
            seen.extend(
                names
                    .iter()
                    .filter_map(|name| name.as_str())
                    .map(str::to_owned),
            );
        }
        let kinds: Vec<&str> = seen.iter().map(String::as_str).collect();
        assert_eq!(
            kinds,
            [
                "chart-force",
                "chart-tension",
                "chart__canvas sweep__sheet",
                "compare__sheet",
                "film__canvas",
                "guess__canvas",
                "scene",
                "spread-footroom",
                "spread-tension",
                "talk__canvas"
            ]
        );
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
