//! A full session asks for nothing but the page's own files, and what comes in a link or a file never
//! becomes more than a text.

use std::sync::{Arc, Mutex, PoisonError};

use footroom_core::case::Case;
use footroom_core::check::{OwnLimit, OwnQuantity};
use footroom_core::demo::demo;
use footroom_web::page::Page as Calculation;
use footroom_web::page::compare::layouts_link::{self, Layout, Set};
use footroom_web::page::explain::talk::script::Step;
use footroom_web::page::record::book::{Book, Compared, LogEntry};
use footroom_web::say::format::{Lang, Units};
use futures_util::StreamExt;
use thirtyfour::bidi::events::BeforeRequestSent;

use crate::rig::{self, Page, Setup};

/// An image that cannot be loaded runs what stands in its `onerror`, wherever it gets into a page as
/// markup.
const HOSTILE: &str = "<img src=x onerror=hostile()><svg onload=hostile()>";

fn case() -> Case {
    let mut case = demo();
    case.title = HOSTILE.to_owned();
    case.own_limits = vec![OwnLimit {
        label: HOSTILE.to_owned(),
        quantity: OwnQuantity::ArrestForce,
        limit: 4_000.0,
        reference: HOSTILE.to_owned(),
    }];
    case
}

/// The link to the case, with a talk.
fn link() -> String {
    let mut page = Calculation::empty(Lang::En, Units::Us);
    page.load(case()).expect("a case");
    page.finish();
    page.talk().0.plan_mut().say(Step::One, HOSTILE);
    page.link().expect("an answer")
}

/// The link to two layouts; a name has 40 characters at most.
fn layouts() -> String {
    let layout = |name: &str| Layout {
        name: name.to_owned(),
        footroom_m: 0.5,
        case: case(),
    };
    let set = Set {
        model: 1,
        layouts: vec![
            layout("<img src=x onerror=hostile()>"),
            layout("<svg onload=hostile()>"),
        ],
    };
    layouts_link::encode(&set).expect("finite")
}

fn book() -> String {
    let mut book = Book::default();
    for job in [HOSTILE, &demo().title] {
        book.sign(job, "2026-03-04", HOSTILE);
        book.look(job, "rope_rust", "fail", HOSTILE)
            .expect("a point");
        assert!(book.enter(LogEntry {
            job: job.to_owned(),
            date: "2026-03-04".to_owned(),
            name: HOSTILE.to_owned(),
            temperature_k: Some(293.15),
            weight_n: Some(444.8),
            movement_m: Some(0.05),
            swings: None,
            time_s: None,
            tension_n: Some(4_300.0),
            expected_n: Some(4_400.0),
            compared: Compared::Within,
            note: HOSTILE.to_owned(),
        }));
    }
    book.text()
}

/// What a text would leave behind if it had become markup anywhere.
async fn nothing_ran(page: &Page, when: &str) {
    let ran = page.eval("window.ran ?? 0").await;
    assert_eq!(ran, 0, "{when}: a text has run");
    let odd = page
        .eval(
            "[...document.querySelectorAll('*')].filter((part) => \
             ['IMG', 'IFRAME', 'OBJECT', 'EMBED', 'BASE', 'FORM'].includes(part.tagName) \
                 && part.id !== 'inputs' \
             || [...part.attributes].some(({ name, value }) => name.startsWith('on') \
                 || /^\\s*javascript:/i.test(value))).map((part) => part.outerHTML.slice(0, 90))",
        )
        .await;
    assert_eq!(odd, serde_json::json!([]), "{when}");
}

/// Opens every fold in turn, the sheets of the record among them.
async fn look_at_all(page: &Page, when: &str) {
    let folds = page
        .eval("[...document.querySelectorAll('details.panel')].map((fold) => fold.id)")
        .await;
    let folds: Vec<String> = serde_json::from_value(folds).expect("names");
    assert!(folds.len() > 8, "{folds:?}");
    for id in folds.iter().filter(|id| !id.is_empty()) {
        page.eval(&format!(
            "void (document.getElementById('{id}').open = true)"
        ))
        .await;
        page.wait_for(&format!(
            "[...document.querySelectorAll('#{id} .late')].every((late) => late.firstChild)"
        ))
        .await;
        nothing_ran(page, &format!("{when}, {id}")).await;
    }
    for kind in ["record", "tag", "sign_in"] {
        page.eval(&format!(
            "document.querySelector('[name=sheet][value={kind}]').click()"
        ))
        .await;
        page.wait_for(&format!(
            "document.querySelector('.record__preview .paper--{kind}')"
        ))
        .await;
        let shown = page
            .eval("document.querySelector('.record__preview').textContent")
            .await;
        let shown = shown.as_str().expect("a sheet").to_owned();
        assert!(
            shown.contains("<img src=x onerror="),
            "{when}, {kind}: {shown}"
        );
        nothing_ran(page, &format!("{when}, {kind}")).await;
    }
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_session_asks_its_own_host_only_and_texts_stay_texts() {
    rig::in_browser(Setup::default(), async |page| {
        let asked = Arc::new(Mutex::new(Vec::new()));
        let kept = Arc::clone(&asked);
        let mut requests = (page.bidi())
            .subscribe::<BeforeRequestSent>()
            .await
            .expect("the requests");
        tokio::spawn(async move {
            while let Some(event) = requests.next().await {
                let mut kept = kept.lock().unwrap_or_else(PoisonError::into_inner);
                kept.push(event.request.url);
            }
        });
        page.open_ready("").await;
        let home = page.eval("location.href").await;
        let home = home.as_str().expect("an address").to_owned();
        let prepare = format!(
            "void (() => {{ localStorage.setItem('footroom.site', {book:?}); \
             localStorage.setItem('footroom.sheets', 'inputs set_up inspection log rescue'); }})()",
            book = book()
        );
        page.eval(&prepare).await;
        page.go("about:blank").await;
        page.open_ready(&format!("#{}", link())).await;
        let watch = "void (window.ran = 0, window.hostile = () => { window.ran += 1; })";
        page.eval(watch).await;
        assert!(page.text("#job-title").await.contains("<img src=x"));
        look_at_all(page, "English").await;
        page.eval(
            "(() => { const s = document.querySelector('#language'); s.value = 'es'; \
             s.dispatchEvent(new Event('change', { bubbles: true })); })()",
        )
        .await;
        page.wait_for("document.documentElement.lang === 'es'")
            .await;
        look_at_all(page, "Spanish").await;

        // The talk, from its list to the step with the leader's own sentence.
        page.view("talk").await;
        page.wait_for(
            "[...document.querySelectorAll('.talk-list__sentence')]\
             .some((field) => field.value.includes('<img src=x'))",
        )
        .await;
        nothing_ran(page, "the talk").await;

        // Layouts with such names, and a file that is none.
        page.go("about:blank").await;
        page.open_ready(&format!("#{}", layouts())).await;
        page.eval(watch).await;
        page.wait_for("document.querySelectorAll('.compare__layout').length === 2")
            .await;
        let shown = page.text(".compare__layout").await;
        assert!(shown.contains("<img src=x"), "{shown}");
        nothing_ran(page, "layouts").await;
        page.eval(
            "void (() => { const dropped = new DataTransfer(); dropped.items.add(new File(\
             ['{\"<img src=x onerror=hostile()>\":1}'], '<svg onload=hostile()>.json')); \
             dispatchEvent(new DragEvent('drop', { dataTransfer: dropped, cancelable: true })); \
             })()",
        )
        .await;
        page.wait_for("document.querySelector('#notice-field').value.includes('<img')")
            .await;
        nothing_ran(page, "a file").await;

        let asked = asked.lock().unwrap_or_else(PoisonError::into_inner);
        assert!(asked.len() > 30, "{} requests were seen", asked.len());
        let own = |url: &String| {
            let url = url.strip_prefix("blob:").unwrap_or(url);
            url.starts_with(&home) || url.starts_with("data:") || url == "about:blank"
        };
        let others: Vec<&String> = asked.iter().filter(|url| !own(url)).collect();
        assert!(others.is_empty(), "{others:?}");
        // What stands in a link is never sent.
        assert!(
            asked
                .iter()
                .all(|url| !url.contains("v1.") || url.contains('#'))
        );
    });
}

/// Where the browser has Trusted Types no text becomes markup or a script's address past the page's
/// one policy, and that lets no foreign script pass.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn texts_become_markup_or_scripts_by_the_policy_only() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        // Its own rules hold in every browser; one of them says what it thinks of half a drawing.
        page.allow_error("XML Parsing Error");
        let refused = |call: &str| {
            format!(
                "await (async () => {{ const trusted = await import([...performance.getEntriesByType('resource')].map((e) => e.name)\
                 .find((name) => /page\\/trusted[^/]*\\.js$/.test(name))); \
                 try {{ {call}; return 'taken'; }} catch (error) {{ return error.name; }} }})()"
            )
        };
        page.wait_for(
            "performance.getEntriesByType('resource')\
             .some(({ name }) => /page\\/trusted[^/]*\\.js$/.test(name))",
        )
        .await;
        for call in [
            "trusted.scriptAddress('https://example.org/a.js')",
            "trusted.scriptAddress('data:text/javascript,1')",
            "trusted.scriptAddress('//example.org/a.js')",
            "trusted.scriptAddress('a.svg')",
            "trusted.drawing('<p>')",
            "trusted.drawing('<svg xmlns=\"http://www.w3.org/2000/svg\"><script/></svg>')",
            "trusted.drawing('<svg xmlns=\"http://www.w3.org/2000/svg\" onload=\"1\"></svg>')",
            "trusted.drawing('<svg xmlns=\"http://www.w3.org/2000/svg\"><a href=\"x\"/></svg>')",
            "trusted.drawing('<svg ')",
        ] {
            assert_eq!(page.eval(&refused(call)).await, "TypeError", "{call}");
        }
        let taken = "trusted.drawing('<svg xmlns=\"http://www.w3.org/2000/svg\"><path/></svg>')";
        assert_eq!(page.eval(&refused(taken)).await, "taken");
        if page.eval("typeof trustedTypes").await == "undefined" {
            return;
        }
        for call in [
            "document.createElement('div').innerHTML = '<b>x</b>'",
            "new Worker('page/worker.js')",
            "new DOMParser().parseFromString('<p>', 'text/html')",
            "document.body.insertAdjacentHTML('beforeend', '<p>')",
            "trustedTypes.createPolicy('another', {})",
            "trustedTypes.createPolicy('footroom', {})",
        ] {
            assert_eq!(page.eval(&refused(call)).await, "TypeError", "{call}");
        }
        for part in [
            "policy violation: require-trusted-types-for",
            "rusted",
            "policy violation: trusted-types",
        ] {
            page.allow_error(part);
        }
        page.allow_error("Content Security Policy");
        page.allow_error("Content-Security-Policy");
    });
}

/// Tables wider or higher than their place are scrolled by keys too, and say then what they are.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn what_scrolls_can_be_focused_and_no_header_is_empty() {
    rig::in_browser(Setup::phone(), async |page| {
        page.open_ready("").await;
        page.set_size((260, 700), 1.0).await;
        let bad = "[...document.querySelectorAll('*')].filter((part) => { \
            const { overflowX, overflowY } = getComputedStyle(part); \
            const scrolls = /auto|scroll/; \
            const wide = scrolls.test(overflowX) && part.scrollWidth > part.clientWidth; \
            const high = scrolls.test(overflowY) && part.scrollHeight > part.clientHeight; \
            return (wide || high) && part.clientWidth && part !== document.documentElement \
                && part.tabIndex < 0 && !part.querySelector('a, button, input, select, summary'); })\
            .map((part) => part.id || part.className)";
        let focused = "[...document.querySelectorAll('.panel__scroll[tabindex]')]";
        let named = format!("{focused}.every((part) => part.getAttribute('aria-label'))");
        for id in ["ways", "checks", "set-up"] {
            page.view(id).await;
            page.wait_for(&format!("({bad}).length === 0")).await;
            assert_eq!(page.eval(&named).await, true, "{id}");
        }
        page.wait_for(&format!("{focused}.length > 0")).await;
        let empty = "[...document.querySelectorAll('th')].filter((cell) => \
            !cell.textContent.trim() && cell.getClientRects().length).length";
        assert_eq!(page.eval(empty).await, 0);
    });
}
