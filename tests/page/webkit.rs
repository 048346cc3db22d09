//! The engine of many phones, through its standard driver alone: what the others are tested for at
//! length, once each. Chromium and Firefox leave these out.

use footroom_core::case::Case;
use footroom_web::page::Page as Calculation;
use footroom_web::say::format::{Lang, Units};
use footroom_web::wire::link::decode;

use crate::rig::{self, Page, Setup};

#[path = "../support/corpus.rs"]
#[allow(
    dead_code,
    reason = "the bindings' tests compare the record; this compares what the page shows"
)]
mod corpus;
#[path = "../support/finished.rs"]
mod finished;

use finished::finish;

/// How many of the corpus' cases are opened as links.
const CASES: u64 = 4;

/// The link to a case with the native answer's fingerprint, and that one as the page shows it.
fn native(case: Case) -> (String, String) {
    let mut page = Calculation::empty(Lang::En, Units::Metric);
    page.load(case).expect("no faults");
    finish(&mut page);
    let link = page.link().expect("an answer");
    let digits = decode(&link).expect("own link").fingerprint;
    let groups = [0, 4, 8, 12].map(|at| &digits[at..at + 4]);
    (link, groups.join(" "))
}

/// What the page says its answer was computed to.
async fn shown(page: &Page) -> String {
    let said = page.text("#model").await;
    let words: Vec<&str> = said.split(' ').collect();
    words[words.len().saturating_sub(4)..].join(" ")
}

/// The example, a case that was changed by typing, and cases of the corpus by their links have the native
/// fingerprints, and a link out leads back in.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn answers_are_the_native_ones() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let example = footroom_core::demo::demo();
        assert_eq!(shown(page).await, native(example.clone()).1);
        let before = page.text("#answer-number").await;
        page.type_into("#in-line-pretension_n", "3.1").await;
        page.wait_for(&format!(
            "document.querySelector('#answer-number').textContent !== {before:?}"
        ))
        .await;
        let mut typed = example;
        typed.line.pretension_n = 3_100.0;
        let (_, native_typed) = native(typed);
        assert_eq!(shown(page).await, native_typed);
        let number = page.text("#answer-number").await;
        page.click("#share").await;
        page.wait_for("location.hash.startsWith('#v1.')").await;
        let out = page.eval("location.hash").await;
        page.go("about:blank").await;
        page.open_ready(out.as_str().expect("a link")).await;
        assert_eq!(page.text("#answer-number").await, number);
        for n in 0..CASES {
            let (link, native) = native(corpus::case(n));
            page.eval(&format!("void (location.hash = '#{link}')"))
                .await;
            page.wait_for(&format!(
                "document.querySelector('#model').textContent.endsWith({native:?})"
            ))
            .await;
            let same = page.text("#answer-shared").await;
            assert!(same.contains("ame result"), "case {n}: {same}");
        }
    });
}

/// The talk opens by its key, goes on and closes; the record has its preview, what is ticked in the
/// inspection is kept, and what fits is found beside the page.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn talk_record_and_searches_open_on_a_phone() {
    rig::in_browser(Setup::phone(), async |page| {
        page.open_ready("").await;
        page.press("t").await;
        page.wait_for("document.querySelector('.talk')?.open").await;
        let step = "document.querySelector('.talk__screen').dataset.step";
        let first = page.eval(step).await;
        page.press(thirtyfour::Key::Right + "").await;
        page.wait_for(&format!("{step} !== {first}")).await;
        page.shot("talk-phone", false).await;
        page.press(thirtyfour::Key::Escape + "").await;
        page.wait_for("!document.querySelector('.talk')?.open")
            .await;
        page.view("record").await;
        page.wait_for("document.querySelector('.record__preview .paper svg')")
            .await;
        page.shot("record-phone", false).await;
        page.view("record-inspection").await;
        page.wait_for("document.querySelector('[name=point-edge]')")
            .await;
        page.eval("document.querySelector('[name=point-edge][value=pass]').click()")
            .await;
        page.wait_for("localStorage.getItem('footroom.site')?.includes('edge')")
            .await;
        page.wait_long("document.querySelector('#anywhere-number').textContent !== '…'")
            .await;
        page.view("fit").await;
        page.wait_long("document.querySelectorAll('#fit td').length > 4")
            .await;
        page.shot("fit-phone", false).await;
        // The first version that is stored is no newer one.
        page.wait_for(
            "(await navigator.serviceWorker.getRegistration())?.active?.state === 'activated'",
        )
        .await;
        page.wait_for("navigator.serviceWorker.controller").await;
        assert_eq!(
            page.eval("document.querySelector('#newer').hidden").await,
            true
        );
        page.eval("localStorage.clear()").await;
    });
}
