//! What is kept on the device outlives a second tab, a former version and a text that cannot be read.

use crate::rig::{self, Page, Setup};

/// Opens the page with its inspection.
async fn open_inspection(page: &Page) {
    page.open_ready("").await;
    page.view("record-inspection").await;
    page.wait_for("document.querySelector('[name=point-rope_rust]')")
        .await;
}

/// Says something of a point of the inspection.
async fn mark(page: &Page, point: &str, found: &str) {
    page.eval(&format!(
        "document.querySelector('[name=point-{point}][value={found}]').click()"
    ))
    .await;
}

/// What the device keeps of the inspection, as a condition of the browser.
fn stored(condition: &str) -> String {
    format!(
        "((book) => {{ const [inspection] = book?.inspections ?? []; \
         const at = (key) => inspection?.looked.find((l) => l.point === key)?.found; \
         return {condition}; }})(JSON.parse(localStorage.getItem('footroom.site')))"
    )
}

async fn other_tab(page: &Page) -> [thirtyfour::WindowHandle; 2] {
    let first = page.driver.window().await.expect("a tab");
    let second = page.driver.new_tab().await.expect("another tab");
    page.driver
        .switch_to_window(second.clone())
        .await
        .expect("the other tab");
    [first, second]
}

async fn turn_to(page: &Page, tab: &thirtyfour::WindowHandle) {
    page.driver
        .switch_to_window(tab.clone())
        .await
        .expect("the tab");
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_failed_point_survives_a_tab_that_was_opened_before() {
    // With the browser's locks, and as on an address where it gives none.
    for locks in [true, false] {
        rig::in_browser(Setup::default(), async |page| {
            open_inspection(page).await;
            // The driver's own, of a tab that another one took the place of.
            page.allow_error("Permission denied to access property");
            let tabs = other_tab(page).await;
            open_inspection(page).await;
            if !locks {
                page.eval("void Object.defineProperty(navigator, 'locks', { value: undefined })")
                    .await;
            }
            // Something is being typed there that is not to be lost.
            page.eval(
                "(() => { const note = document.querySelector('[aria-label^=\"Note\"]'); \
                 note.focus(); note.value = 'half a no'; })()",
            )
            .await;
            turn_to(page, &tabs[0]).await;
            mark(page, "rope_rust", "fail").await;
            page.wait_for(&stored("at('rope_rust') === 'fail'")).await;
            turn_to(page, &tabs[1]).await;
            // The other tab has heard of it, and has left alone what is being typed.
            page.wait_for("document.querySelector('[name=point-rope_rust][value=fail]').checked")
                .await;
            assert_eq!(page.eval("document.activeElement.value").await, "half a no");
            assert!(
                page.text("#inspection-failed")
                    .await
                    .starts_with("Do not use")
            );
            page.type_into("#inspection-name", "N. N.").await;
            page.wait_for(&stored("inspection?.name === 'N. N.'")).await;
            assert_eq!(page.eval(&stored("at('rope_rust')")).await, "fail");
            turn_to(page, &tabs[0]).await;
            page.wait_for("document.querySelector('#inspection-name').value === 'N. N.'")
                .await;
            // Who sees the fail can take it back.
            mark(page, "rope_rust", "pass").await;
            page.wait_for(&stored(
                "at('rope_rust') === 'pass' && inspection.name === 'N. N.'",
            ))
            .await;
            page.eval("localStorage.clear()").await;
        });
    }
}

/// A tab that the browser had put to sleep is told nothing; it still writes what it has in its turn.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_tab_that_slept_undoes_no_fail() {
    rig::in_browser(Setup::default(), async |page| {
        open_inspection(page).await;
        mark(page, "edge", "pass").await;
        page.wait_for(&stored("at('edge') === 'pass'")).await;
        // As another tab would write it, but without the news of it: the same window gets none.
        page.eval(
            "(() => { const book = JSON.parse(localStorage.getItem('footroom.site')); \
             book.inspections[0].looked[0].found = 'fail'; \
             localStorage.setItem('footroom.site', JSON.stringify(book)); })()",
        )
        .await;
        page.type_into("#inspection-name", "N. N.").await;
        page.wait_for(&stored("inspection?.name === 'N. N.'")).await;
        assert_eq!(page.eval(&stored("at('edge')")).await, "fail");
        page.wait_for("document.querySelector('[name=point-edge][value=fail]').checked")
            .await;
        // The same once more, and now this tab, which has not seen it, says that the point is none.
        mark(page, "edge", "pass").await;
        page.wait_for(&stored("at('edge') === 'pass'")).await;
        page.eval(
            "(() => { const book = JSON.parse(localStorage.getItem('footroom.site')); \
             book.inspections[0].looked[0].found = 'fail'; \
             localStorage.setItem('footroom.site', JSON.stringify(book)); })()",
        )
        .await;
        mark(page, "edge", "not_applicable").await;
        page.wait_for(
            "document.querySelector('#notice-text').textContent.includes('stays failed')",
        )
        .await;
        assert_eq!(page.eval(&stored("at('edge')")).await, "fail");
        page.eval("localStorage.clear()").await;
    });
}

/// A case that another tab has kept meanwhile stays there, though this one's has the same name.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_recent_case_of_another_tab_keeps_its_place() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.click("#own").await;
        page.eval(
            "(() => { const f = document.querySelector('#in-title'); f.value = 'Same beam'; \
             f.dispatchEvent(new Event('change', { bubbles: true })); })()",
        )
        .await;
        page.wait_for("document.querySelector('#job-title').textContent === 'Same beam'")
            .await;
        // As another tab writes it.
        let names = page
            .eval(
                "(() => { const other = [['Same beam: of another tab', 'v1.other']]; \
                 localStorage.setItem('footroom.cases', JSON.stringify(other)); \
                 dispatchEvent(new Event('pagehide')); \
                 return JSON.parse(localStorage.getItem('footroom.cases')).map(([name]) => name); \
                 })()",
            )
            .await;
        let names = names.as_array().expect("a list");
        assert_eq!(names.len(), 2, "{names:?}");
        assert_eq!(names[1], "Same beam: of another tab");
        page.eval("localStorage.clear()").await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn what_a_former_version_kept_is_taken_over() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval(
            "(() => { localStorage.clear(); const put = (k, v) => localStorage.setItem(k, v); \
             put('language', 'es'); put('units', 'us'); put('guesses', '0.1000 0.3000'); \
             put('learnt', '0 2'); put('somebody', 'else'); })()",
        )
        .await;
        page.reload().await;
        page.wait_ready().await;
        assert_eq!(page.eval("document.documentElement.lang").await, "es");
        let number = page.text("#answer-number").await;
        assert!(number.contains("ft") || number.contains("in"), "{number}");
        let kept = page
            .eval("Object.fromEntries(Object.entries(localStorage).sort())")
            .await;
        assert_eq!(
            kept,
            serde_json::json!({
                "footroom.guesses": "0.1000 0.3000",
                "footroom.language": "es",
                "footroom.learnt": "0 2",
                "footroom.units": "us",
                "language": "es",
                "somebody": "else",
                "units": "us",
            })
        );
        page.eval("localStorage.clear()").await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn layouts_that_cannot_be_read_are_kept_aside() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval("void localStorage.setItem('footroom.layouts', 'c9.broken')")
            .await;
        page.view("compare").await;
        page.wait_for("document.querySelector('#layout-add')").await;
        assert!(
            page.text(".compare__status")
                .await
                .contains("cannot be read")
        );
        let aside = "localStorage.getItem('footroom.layouts.aside')";
        assert_eq!(page.eval(aside).await, "c9.broken");
        page.eval("document.querySelector('#layout-add').click()")
            .await;
        // On a busy machine a worker takes its time to solve it.
        page.wait_for("document.querySelector('.compare__layout')")
            .await;
        page.wait_for("!document.querySelector('.compare__footroom--waiting')")
            .await;
        let stored = "localStorage.getItem('footroom.layouts')";
        page.wait_for(&format!(
            "/^c\\d\\./.test({stored}) && {stored} !== 'c9.broken'"
        ))
        .await;
        assert_eq!(page.eval(aside).await, "c9.broken");
        page.eval("localStorage.clear()").await;
    });
}
