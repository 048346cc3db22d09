//! The rooms of the page: what each of those who use it reaches with how many actions, that nothing
//! is cut, and that the room stays over back, forward and reload.

use serde_json::Value;
use thirtyfour::Key;

use crate::rig::{self, Page, Setup};

/// The sizes at which a task is to be in sight, CSS px.
const SIZES: [(u32, u32); 4] = [(1920, 1080), (1366, 768), (1280, 720), (390, 844)];

/// The rooms in the order of the job.
const ROOMS: [&str; 5] = ["plan", "decide", "explain", "site", "file"];

/// Chooses units or language on the page.
pub async fn choose(page: &Page, what: &str, value: &str) {
    page.eval(&format!(
        "(() => {{ const list = document.querySelector('#{what}'); list.value = '{value}'; \
         list.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
    ))
    .await;
}

async fn choose_language(page: &Page, language: &str) {
    choose(page, "language", language).await;
    page.wait_for(&format!("document.documentElement.lang === '{language}'"))
        .await;
}

/// The room that is shown, and whether it is the only one.
async fn room(page: &Page) -> String {
    let shown = page
        .eval("[...document.querySelectorAll('.room:not([hidden])')].map((room) => room.id).join()")
        .await;
    shown.as_str().expect("a room").to_owned()
}

/// A picture of each room at each size, for the eye, and what is wider than its page.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn no_room_is_wider_than_its_page_at_any_size() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let mut wide = Vec::new();
        for language in ["en", "es"] {
            choose_language(page, language).await;
            for size in SIZES.into_iter().chain([(320, 640), (640, 360)]) {
                page.set_size(size, 1.0).await;
                for room in ROOMS {
                    page.eval(&format!("document.querySelector('#door-{room}').click()"))
                        .await;
                    page.wait_for(&format!(
                        "[...document.querySelectorAll('#room-{room} details[open] > .late')]\
                         .every((late) => late.firstChild)"
                    ))
                    .await;
                    let over = page
                        .eval("document.documentElement.scrollWidth - innerWidth")
                        .await;
                    let (width, height) = size;
                    let name = format!("room-{room}-{language}-{width}x{height}");
                    if over.as_f64() > Some(0.0) {
                        wide.push(format!("{name}: {over} px"));
                    }
                    page.shot(&name, false).await;
                }
            }
        }
        assert!(wide.is_empty(), "wider than the page: {wide:#?}");
    });
}

/// Presses what a person would; the number of actions so far goes up by one.
struct Visit<'a> {
    page: &'a Page,
    actions: u32,
}

impl Visit<'_> {
    async fn press(&mut self, selector: &str) {
        let find = self.page.find(selector).await;
        find.click()
            .await
            .unwrap_or_else(|error| panic!("cannot press {selector}: {error}"));
        self.actions += 1;
    }
}

/// Those of `selectors` that are not whole in what is in view, or have something over them.
pub async fn out_of_sight(page: &Page, selectors: &[&str]) -> Vec<String> {
    let list = serde_json::to_string(selectors).expect("a list");
    let found = page
        .eval(&format!(
            "{list}.filter((selector) => {{ const part = document.querySelector(selector); \
             const box = part?.getBoundingClientRect(); if (!box?.width) return true; \
             const x = box.left + box.width / 2; \
             const ends = [box.top + 2, box.bottom - 2]; \
             return box.left < 0 || box.right > innerWidth + 1 || ends.some((y) => {{ \
             const top = document.elementFromPoint(x, y); \
             return !top || !(part.contains(top) || top.closest('label')?.contains(part)); }}); }})"
        ))
        .await;
    serde_json::from_value(found).expect("names")
}

/// Each who uses the page starts a task with at most so many actions from the first view, and its
/// first control is in sight, without scrolling, at all sizes in both languages.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn each_task_is_two_actions_away_and_in_sight() {
    let phone = |size: (u32, u32)| size.0 < 500;
    for size in SIZES {
        let setup = Setup {
            size_px: size,
            ..Setup::default()
        };
        rig::in_browser(setup, async |page| {
            for language in ["en", "es"] {
                page.open_ready("").await;
                choose_language(page, language).await;
                let what = format!("{language}, {size:?}");

                // The first view: the answer's lines, the drop, its player.
                let mut first = vec!["#line-strength", "#line-room", "#scene", "#play"];
                if !phone(size) {
                    first.extend(["#in-line-spans_m", "#stack-rows"]);
                }
                assert_eq!(out_of_sight(page, &first).await, [""; 0], "first, {what}");

                // The planner: line and crew.
                let mut visit = Visit { page, actions: 0 };
                if phone(size) {
                    visit.press("#parts [data-part=inputs]").await;
                }
                let seen = ["#in-line-spans_m", "#line-room"];
                assert_eq!(out_of_sight(page, &seen).await, [""; 0], "planner, {what}");
                assert!(visit.actions <= 1, "planner, {what}");

                // The competent person: today's reading.
                let mut visit = Visit { page, actions: 0 };
                visit.press("#door-site").await;
                page.wait_for("document.querySelector('#reading .late').firstChild")
                    .await;
                let seen = [
                    "#found-temperature",
                    "#read-weight",
                    "#read-movement",
                    "#found-verdict",
                    "#line-room",
                ];
                assert_eq!(out_of_sight(page, &seen).await, [""; 0], "reading, {what}");
                assert!(visit.actions <= 1, "reading, {what}");

                // The trainee: the guess; while somebody guesses the answer is covered.
                let mut visit = Visit { page, actions: 0 };
                visit.press("#door-explain").await;
                visit.press("#task-guess").await;
                page.wait_for("document.querySelector('#guess-depth')?.value")
                    .await;
                let seen = ["#guess-depth", "#guess-go", ".guess__ask", ".guess__canvas"];
                assert_eq!(out_of_sight(page, &seen).await, [""; 0], "guess, {what}");
                assert!(visit.actions <= 2, "guess, {what}");
                // A question of the list is in sight as well, with its drawing and its mark.
                page.eval(
                    "(() => { const list = document.querySelector('#guess-question'); \
                     list.value = '0'; list.dispatchEvent(new Event('change')); })()",
                )
                .await;
                page.wait_for("!document.querySelector('#guess-go').disabled")
                    .await;
                assert_eq!(out_of_sight(page, &seen).await, [""; 0], "question, {what}");

                // The estimator: layouts side by side.
                let mut visit = Visit { page, actions: 0 };
                visit.press("#door-decide").await;
                visit.press("#task-compare").await;
                page.wait_for("document.querySelector('#layout-add')").await;
                let seen = ["#layout-add", "#line-room", "#line-strength"];
                assert_eq!(out_of_sight(page, &seen).await, [""; 0], "compare, {what}");
                assert!(visit.actions <= 2, "compare, {what}");

                // Checks and sheets.
                for (task, control) in [
                    ("checks", "#checks-table .checks__group"),
                    ("record", "[name=sheet]"),
                ] {
                    let mut visit = Visit { page, actions: 0 };
                    visit.press("#door-file").await;
                    visit.press(&format!("#task-{task}")).await;
                    page.wait_for(&format!("document.querySelector('{control}')"))
                        .await;
                    let missing = out_of_sight(page, &[control]).await;
                    assert_eq!(missing, [""; 0], "{task}, {what}");
                    assert!(visit.actions <= 2, "{task}, {what}");
                    page.eval("document.querySelector('#door-plan').click()")
                        .await;
                }

                // The crew lead: one key, and the first step stands.
                page.eval("document.activeElement.blur()").await;
                page.press("t").await;
                page.wait_for("document.querySelector('.talk')?.open").await;
                let seen = [".talk__sentence", ".talk__canvas"];
                assert_eq!(out_of_sight(page, &seen).await, [""; 0], "talk, {what}");
                page.press(Key::Escape + "").await;
                page.wait_for("!document.querySelector('.talk')").await;
            }
        });
    }
}

/// The room stays over reload, back and forward; the case is that of now, not that of the entry.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn back_forward_reload_and_the_address_keep_the_room() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        assert_eq!(room(page).await, "room-plan");
        page.click("#door-decide").await;
        page.click("#task-compare").await;
        page.click("#door-site").await;
        assert_eq!(room(page).await, "room-site");
        page.reload().await;
        page.wait_ready().await;
        assert_eq!(room(page).await, "room-site");

        // A change on the way is not taken back by going back.
        page.type_into("#in-workers-count", "1").await;
        let changed = page.text("#answer-number").await;
        page.wait_for("location.hash.startsWith('#v1.')").await;
        assert_eq!(room(page).await, "room-plan");
        page.driver.back().await.expect("back");
        page.wait_for("!document.querySelector('#room-site').hidden")
            .await;
        page.driver.back().await.expect("back");
        page.wait_for("!document.querySelector('#room-decide').hidden")
            .await;
        assert_eq!(
            page.eval("document.querySelector('#compare').open").await,
            true
        );
        assert_eq!(page.text("#answer-number").await, changed);
        page.driver.forward().await.expect("forward");
        page.wait_for("!document.querySelector('#room-site').hidden")
            .await;
        assert_eq!(page.text("#answer-number").await, changed);

        // The address alone opens the same room with the same case; one of an older version the plan.
        let address = page.eval("location.hash").await;
        let address = address.as_str().expect("an address").to_owned();
        assert!(address.ends_with("&room=site"), "{address}");
        let link = address.split('&').next().expect("a link").to_owned();
        for (open, shown) in [(address.as_str(), "room-site"), (&link, "room-plan")] {
            page.go("about:blank").await;
            page.open_ready(open).await;
            assert_eq!(room(page).await, shown);
            assert_eq!(page.text("#answer-number").await, changed);
            assert!(page.text("#answer-shared").await.contains("ame result"));
        }
        // A room that there is not opens the plan.
        page.go("about:blank").await;
        page.open_ready(&format!("{link}&room=attic.rope")).await;
        assert_eq!(room(page).await, "room-plan");
    });
}

/// One key a door, the platform's keys for undo and redo, and nothing jumps.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn keys_open_doors_and_take_back_what_was_changed() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval("document.activeElement.blur()").await;
        for (i, room_of) in ROOMS.iter().enumerate() {
            page.press((i + 1).to_string()).await;
            page.wait_for(&format!(
                "!document.querySelector('#room-{room_of}').hidden"
            ))
            .await;
            assert_eq!(room(page).await, format!("room-{room_of}"));
            assert_eq!(page.eval("scrollY").await, 0);
            let focus = page.eval("document.activeElement.id").await;
            assert_eq!(focus, format!("room-{room_of}"));
        }
        // A number that is typed is no door.
        let before = page.text("#answer-number").await;
        page.type_into("#in-workers-count", "1").await;
        assert_eq!(room(page).await, "room-plan");
        let after = page.text("#answer-number").await;
        assert_ne!(before, after);
        page.press(Key::Control + "z").await;
        page.wait_for("document.querySelector('#in-workers-count').value === '3'")
            .await;
        assert_eq!(page.text("#answer-number").await, before);
        page.press(Key::Control + "y").await;
        page.wait_for("document.querySelector('#in-workers-count').value === '1'")
            .await;
        assert_eq!(page.text("#answer-number").await, after);
        // What is being typed is the field's to take back.
        page.eval("document.querySelector('#in-line-pretension_n').select()")
            .await;
        page.eval("document.querySelector('#in-line-pretension_n').focus()")
            .await;
        page.press("7").await;
        page.press(Key::Control + "z").await;
        let count = page
            .eval("document.querySelector('#in-workers-count').value")
            .await;
        assert_eq!(count, "1");
    });
}

/// The crew in rows and spans as a list: each worker a row, nothing of the list is cut off.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_crew_stands_in_rows_and_no_span_is_cut_off() {
    for setup in [Setup::default(), Setup::phone()] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            page.reach("#in-line-spans_m").await;
            let rows = "[...document.querySelectorAll('.crew__row:not(.crew__head)')]";
            let cells = page
                .eval(&format!(
                    "{rows}.map((row) => row.querySelectorAll('input').length)"
                ))
                .await;
            assert_eq!(cells, serde_json::json!([2, 4, 4, 4]));
            let cut = "[...document.querySelectorAll('#in-line-spans_m, .crew input')]\
                 .filter((field) => field.scrollWidth > field.clientWidth + 1 \
                 || field.scrollHeight > field.clientHeight + 1).map((field) => field.id)";
            for units in ["metric", "us"] {
                page.eval(&format!(
                    "(() => {{ const list = document.querySelector('#units'); \
                     list.value = '{units}'; \
                     list.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
                ))
                .await;
                page.type_into("#in-line-spans_m", &["2.5"; 12].join(" + "))
                    .await;
                page.wait_for("document.querySelector('#in-line-spans_m').rows > 2")
                    .await;
                assert_eq!(page.eval(cut).await, serde_json::json!([]), "{units}");
                page.shot(&format!("spans-{units}"), false).await;
            }
            page.type_into("#in-line-spans_m", "9 m + 9 m").await;
            page.wait_for("document.querySelector('#problems').hidden")
                .await;
            // One who stays standing.
            page.eval("document.querySelector(\".crew [name='workers[0].falls']\").click()")
                .await;
            page.wait_for(
                "!document.querySelector(\".crew [name='workers[0].falls']\").checked \
                 && !document.querySelector('#now-rows').textContent.includes('worker 1')",
            )
            .await;
        });
    }
}

/// What is printed is the room that one is in.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_sheet_of_the_room_is_printed() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        for (view, printed) in [
            ("record", "record"),
            ("record-inspection", "record"),
            ("set-up", "record"),
        ] {
            page.view(view).await;
            page.wait_for(
                "(dispatchEvent(new Event('beforeprint')), document.documentElement.dataset.print)",
            )
            .await;
            let mark = page.eval("document.documentElement.dataset.print").await;
            assert_eq!(mark, printed, "{view}");
            let sheets = page
                .eval("document.querySelectorAll('body > .papers > .paper').length")
                .await;
            let count = if view == "record" { 2 } else { 1 };
            assert!(sheets.as_u64() >= Some(count), "{view}: {sheets} sheets");
            if view != "record" {
                assert_eq!(sheets, 1, "{view}");
            }
            page.eval("void dispatchEvent(new Event('afterprint'))")
                .await;
            let left = page
                .eval("document.documentElement.dataset.print ?? null")
                .await;
            assert_eq!(left, Value::Null, "{view}: the page is back");
        }
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_any_room() {
    for setup in [Setup::default(), Setup::phone()] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            for room in ROOMS {
                page.eval(&format!("document.querySelector('#door-{room}').click()"))
                    .await;
                page.wait_for(&format!(
                    "[...document.querySelectorAll('#room-{room} details[open] > .late')]\
                     .every((late) => late.firstChild)"
                ))
                .await;
                let found = page.axe().await;
                let found = found.join("\n  ");
                assert!(found.is_empty(), "{room}, {:?}:\n  {found}", setup.size_px);
            }
            page.eval("document.querySelector('#about').open = true")
                .await;
            let found = page.axe().await;
            assert!(found.is_empty(), "about:\n  {}", found.join("\n  "));
        });
    }
}
