//! The views that help to decide: what fits, why two cases differ, layouts side by side.

use crate::rig::{self, Page, Setup};

/// Opens the fold of a view and waits for it.
async fn unfold(page: &Page, id: &str, ready: &str) {
    page.eval(&format!(
        "void (document.querySelector('#{id}').open = true)"
    ))
    .await;
    wait_long(page, ready).await;
    page.eval(&format!("document.querySelector('#{id}').scrollIntoView()"))
        .await;
}

/// As [`Page::wait_for`], for what takes long where several browsers share a small machine.
async fn wait_long(page: &Page, condition: &str) {
    let start = std::time::Instant::now();
    while page.eval(&format!("Boolean({condition})")).await != serde_json::Value::Bool(true) {
        assert!(
            start.elapsed() < std::time::Duration::from_secs(120),
            "after two minutes it does not hold that {condition}"
        );
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
}

async fn say_in_spanish(page: &Page) {
    page.eval(
        "(() => { const s = document.querySelector('#language'); s.value = 'es'; \
         s.dispatchEvent(new Event('change', { bubbles: true })); })()",
    )
    .await;
    page.wait_for("document.documentElement.lang === 'es'")
        .await;
}

async fn no_findings(page: &Page, what: &str) {
    let found = page.axe().await;
    assert!(found.is_empty(), "{what}:\n  {}", found.join("\n  "));
}

const MAP_WHOLE: &str = "document.querySelector('.map')?.dataset.state === 'whole'";
const FIT_WHOLE: &str = "document.querySelector('.map')?.dataset.state === 'whole' \
    && document.querySelector('.fit__suggestions')?.dataset.state === 'whole' \
    && [...document.querySelectorAll('.ask')].every((a) => a.dataset.state === 'whole')";

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_cell_of_the_map_is_loaded_and_says_the_answer() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "fit", MAP_WHOLE).await;
        let map = page
            .eval("[...document.querySelectorAll('.map tbody tr')].map((r) => r.cells.length)")
            .await;
        assert_eq!(map.as_array().map(Vec::len), Some(8));
        let cell = "document.querySelector('.map tbody').rows[2].cells[2]";
        let said = page
            .eval(&format!("{cell}.querySelector('.map__number').textContent"))
            .await;
        page.eval(&format!("{cell}.querySelector('button').click()"))
            .await;
        page.wait_for("document.querySelector('#in-workers-count').value === '2'")
            .await;
        assert_eq!(
            Some(page.text("#answer-number").await.as_str()),
            said.as_str()
        );
        // The cell of the loaded case is now marked as the present one.
        page.wait_for(&format!(
            "{MAP_WHOLE} && {cell}.classList.contains('map__cell--present')"
        ))
        .await;
        page.click("#undo").await;
        page.wait_for("document.querySelector('#in-workers-count').value === '3'")
            .await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_suggestion_makes_the_case_fit() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        // What is parked below grows: it does not fit any more.
        page.type_into("#in-site-below-0-height_m", "3.6").await;
        page.wait_for("document.querySelector('#answer').dataset.kind === 'short'")
            .await;
        page.type_into("#in-strengths-required_ratio", "1").await;
        unfold(page, "fit", FIT_WHOLE).await;
        page.shot("fit-short", false).await;
        page.eval("document.querySelector('.fit__changes button').click()")
            .await;
        page.wait_for("document.querySelector('#answer').dataset.kind === 'spare'")
            .await;
        page.wait_for("!document.querySelector('.fit__changes')")
            .await;
        page.click("#undo").await;
        page.wait_for("document.querySelector('#answer').dataset.kind === 'short'")
            .await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_map_comes_row_by_row_and_leaves_the_page_free() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        // Frames go on while it computes: the longest gap between two of them is kept.
        page.eval(
            "void (() => { let last = performance.now(); window.gap = 0; \
             const tick = (now) => { window.gap = Math.max(window.gap, now - last); last = now; \
             requestAnimationFrame(tick); }; requestAnimationFrame(tick); })()",
        )
        .await;
        unfold(page, "fit", MAP_WHOLE).await;
        let spent = page
            .eval(
                "(({ started, rough, whole }) => [rough - started, whole - started, window.gap])\
                 (document.querySelector('.map').dataset)",
            )
            .await;
        eprintln!("ms to the rough map, to the whole, longest gap between frames: {spent}");
        // Inputs that change meanwhile: only the last map stands in the end.
        page.type_into("#in-workers-count", "2").await;
        page.type_into("#in-workers-count", "1").await;
        page.wait_for(
            "document.querySelector('.map')?.dataset.state === 'whole' && document.querySelector\
             ('.map tbody').rows[1].cells[1].classList.contains('map__cell--present')",
        )
        .await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_what_fits() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "fit", FIT_WHOLE).await;
        page.shot("fit", false).await;
        no_findings(page, "fit").await;
        say_in_spanish(page).await;
        wait_long(page, FIT_WHOLE).await;
        no_findings(page, "fit, Spanish").await;
    });
}

const WHY_WHOLE: &str = "document.querySelector('.why')?.dataset.state === 'whole'";

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_kept_case_is_compared_with_the_changed_one() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "why", WHY_WHOLE).await;
        page.wait_for("document.querySelectorAll('.why__step').length === 4")
            .await;
        let last = "[...document.querySelectorAll('.why__amount')].at(-1).textContent";
        let said = page.eval(last).await;
        assert_eq!(
            Some(page.text("#answer-number").await.as_str()),
            said.as_str()
        );
        page.eval("document.querySelector('#why-keep').click()")
            .await;
        page.type_into("#in-line-pretension_n", "6").await;
        page.wait_for("document.querySelectorAll('.why__step').length === 3")
            .await;
        page.wait_for(&format!(
            "{last} === document.querySelector('#answer-number').textContent"
        ))
        .await;
        // It is kept over a new visit.
        page.reload().await;
        page.wait_ready().await;
        unfold(page, "why", WHY_WHOLE).await;
        page.eval("document.querySelector('#why-load').click()")
            .await;
        page.wait_for("document.querySelector('#in-line-pretension_n').value === '4.4'")
            .await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_why() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "why", WHY_WHOLE).await;
        no_findings(page, "why").await;
        say_in_spanish(page).await;
        page.wait_for(WHY_WHOLE).await;
        no_findings(page, "why, Spanish").await;
    });
}

/// Pictures of every view on every kind of screen, to be looked at.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn every_view_has_its_pictures() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        for (size, name) in [
            ((1920, 1080), "wide"),
            ((1280, 720), "laptop"),
            ((390, 844), "phone"),
        ] {
            page.set_size(size, 1.0).await;
            unfold(page, "fit", FIT_WHOLE).await;
            page.shot(&format!("fit-{name}"), false).await;
            unfold(page, "why", WHY_WHOLE).await;
            page.shot(&format!("why-{name}"), false).await;
        }
    });
}
