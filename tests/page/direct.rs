//! Things moved in the drop itself, by pointer and by keys.

use serde_json::Value;
use thirtyfour::Key;

use crate::rig::{self, Page, Setup};

/// Where a handle stands in the window, px.
async fn place(page: &Page, key: &str) -> (i64, i64) {
    let at = page
        .eval(&format!(
            "(() => {{ const box = document.querySelector('[data-handle={key}]')\
             .getBoundingClientRect(); return [Math.round(box.x + box.width / 2), \
             Math.round(box.y + box.height / 2)]; }})()"
        ))
        .await;
    let number = |i: usize| at[i].as_i64().expect("a place");
    (number(0), number(1))
}

async fn value(page: &Page, field: &str) -> String {
    let value = page
        .eval(&format!("document.querySelector('#in-{field}').value"))
        .await;
    value.as_str().expect("a value").to_owned()
}

async fn told(page: &Page, key: &str) -> Value {
    page.eval(&format!(
        "document.querySelector('[data-handle={key}]').getAttribute('aria-valuetext')"
    ))
    .await
}

/// Drags a handle by px, in two parts with a pause between them.
async fn drag(page: &Page, key: &str, by: (i64, i64)) {
    let (x, y) = place(page, key).await;
    let half = (by.0 / 2, by.1 / 2);
    page.driver
        .action_chain()
        .move_to(x, y)
        .click_and_hold()
        .move_by_offset(half.0, half.1)
        .perform()
        .await
        .expect("the pointer moves");
    // Longer than changes of one field may lie apart to be one step of undo.
    page.eval("await new Promise((done) => setTimeout(done, 800))")
        .await;
    page.driver
        .action_chain()
        .move_by_offset(by.0 - half.0, by.1 - half.1)
        .release()
        .perform()
        .await
        .expect("the pointer lets go");
    page.eval(
        "await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))",
    )
    .await;
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn what_is_dragged_changes_its_field_in_one_step() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.wait_for("document.querySelectorAll('.handle').length === 9")
            .await;
        let number = page.text("#answer-number").await;
        for (key, field, by) in [
            ("worker-0", "workers-0-position_m", (-60, 0)),
            ("post-0", "line-spans_m", (30, 0)),
            ("whole-0", "site-below-0-middle_m", (-35, 0)),
            ("top-0", "site-below-0-height_m", (0, 40)),
            ("from-0", "site-below-0-from_m", (-20, 0)),
            ("height", "line-height_above_beam_m", (0, -8)),
        ] {
            let before = value(page, field).await;
            drag(page, key, by).await;
            let after = value(page, field).await;
            assert_ne!(before, after, "{key}");
            let focus = page.eval("document.activeElement.dataset.handle").await;
            assert_eq!(focus, key);
            page.shot(&format!("drag-{key}"), false).await;
            page.click("#undo").await;
            assert_eq!(value(page, field).await, before, "{key}: one step back");
            assert_eq!(page.text("#answer-number").await, number);
        }
        assert_eq!(
            page.eval("document.querySelector('#undo').disabled").await,
            true
        );
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn every_handle_is_moved_by_keys() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.wait_for("document.querySelectorAll('.handle').length === 9")
            .await;
        page.eval("document.querySelector('#scene').focus()").await;
        page.press(Key::Tab + "").await;
        let keys = [
            "worker-0", "worker-1", "worker-2", "post-0", "height", "whole-0", "top-0", "from-0",
            "to-0",
        ];
        for key in keys {
            let focus = page.eval("document.activeElement.dataset.handle").await;
            assert_eq!(focus, key);
            let name = page
                .eval("document.activeElement.getAttribute('aria-label')")
                .await;
            assert!(!name.as_str().expect("a name").is_empty());
            let before = told(page, key).await;
            page.press(Key::Left + "").await;
            let less = told(page, key).await;
            assert_ne!(before, less, "{key}");
            page.press(Key::Right + "").await;
            assert_eq!(told(page, key).await, before, "{key}");
            page.press(Key::PageDown + "").await;
        }
        let focus = page.eval("document.activeElement.dataset.handle").await;
        assert_eq!(focus, "worker-0");
        page.press(Key::Shift + Key::Left).await;
        assert_eq!(value(page, "workers-0-position_m").await, "10.50");
        // A whole thing: both edges go, by key, by its field, and back in one step each.
        let edges = async || {
            let mut both = Vec::new();
            for edge in ["from", "to"] {
                both.push(value(page, &format!("site-below-0-{edge}_m")).await);
            }
            both
        };
        let before = edges().await;
        page.eval("document.querySelector('[data-handle=whole-0]').focus()")
            .await;
        page.press(Key::Shift + Key::Right).await;
        assert_eq!(edges().await, ["10.50", "16.50"]);
        page.click("#undo").await;
        assert_eq!(edges().await, before);
        page.type_into("#in-site-below-0-middle_m", "12").await;
        assert_eq!(edges().await, ["9.00", "15.00"]);
        page.click("#undo").await;
        assert_eq!(edges().await, before);
        page.shot("handle-keys", false).await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_about_the_handles() {
    for setup in [Setup::default(), Setup::phone()] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            page.wait_for("document.querySelector('.handle')").await;
            page.eval("document.querySelector('.handle').focus()").await;
            let found = page.axe().await;
            assert!(found.is_empty(), "accessibility:\n  {}", found.join("\n  "));
            page.shot("handles-focus", false).await;
        });
    }
}
