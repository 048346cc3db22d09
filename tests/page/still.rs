//! Without motion the fall is shown as the instants of note, and nothing between them.

use thirtyfour::Key;

use crate::rig::{self, Page, Setup};
use crate::talk;

const LESS_MOTION: Setup = Setup {
    reduced_motion: true,
    ..Setup::LAPTOP
};

/// Keeps from now on every instant that `shown`, an expression, names; `null` names none.
async fn watch(page: &Page, shown: &str) {
    page.eval(&format!(
        "void (() => {{ const seen = window.seen = new Set(); new MutationObserver(() => {{ \
         const shown = {shown}; if (shown) seen.add(shown); }}).observe(document.body, \
         {{ subtree: true, childList: true, characterData: true, attributes: true }}); }})()"
    ))
    .await;
}

/// How many instants were seen; the same to the shown digit counts once.
async fn seen(page: &Page) -> u64 {
    let count = page.eval("window.seen.size").await;
    count.as_u64().expect("a count")
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn with_less_motion_the_drop_shows_still_frames() {
    rig::in_browser(LESS_MOTION, async |page| {
        page.open_ready("").await;
        page.click("#to-start").await;
        watch(page, "document.querySelector('#time').textContent").await;
        page.click("#play").await;
        page.wait_for("document.querySelector('#time').textContent === '—'")
            .await;
        // Rest, for each of three workers the taut lanyard and the lowest point, the greatest
        // tension, hanging.
        let frames = seen(page).await;
        assert!((4..=9).contains(&frames), "{frames} frames");
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn with_less_motion_the_talk_shows_still_frames() {
    rig::in_browser(LESS_MOTION, async |page| {
        page.open_ready("").await;
        talk::open_list(page).await;
        let screen = "document.querySelector('.talk__screen[data-step=one]')?.dataset.time";
        watch(page, screen).await;
        page.click("#talk-start").await;
        page.wait_for("document.querySelector('.talk')?.open").await;
        page.press(Key::Right + "").await;
        talk::held(page).await;
        let frames = seen(page).await;
        assert!((3..=6).contains(&frames), "{frames} frames");
    });
}
