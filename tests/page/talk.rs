//! The talk on the projector: given from the keyboard, edited, sent in a link.

use thirtyfour::Key;

use crate::rig::{self, Page, Setup};

const STEPS: [&str; 7] = ["rest", "one", "two", "all", "used_up", "post", "today"];

/// The list of steps, its sentences computed.
pub async fn open_list(page: &Page) {
    page.view("talk").await;
    page.wait_for(
        "[...document.querySelectorAll('.talk-list__sentence')].every((field) => field.value)",
    )
    .await;
}

/// The step on the screen.
async fn step(page: &Page) -> String {
    let key = page.eval("document.querySelector('.talk__screen').dataset.step");
    key.await.as_str().expect("a step").to_owned()
}

/// Waits until the fall is held at its lowest point.
pub async fn held(page: &Page) {
    page.wait_for("document.querySelector('.talk__screen').dataset.playing === 'false'")
        .await;
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_whole_talk_is_given_from_the_keyboard() {
    rig::in_browser(Setup::projector(), async |page| {
        page.open_ready("").await;
        // One key, wherever one is.
        page.press("t").await;
        page.wait_for("document.querySelector('.talk')?.open").await;
        for (i, key) in STEPS.iter().enumerate() {
            if i > 0 {
                let on = if i % 2 == 0 {
                    Key::Right
                } else {
                    Key::PageDown
                };
                page.press(on + "").await;
            }
            assert_eq!(step(page).await, *key);
            // The first plays to its end; the others are held, as one who goes on does.
            let playing = "document.querySelector('.talk__screen').dataset.playing === 'true'";
            if i > 0 && page.eval(playing).await == true {
                page.press(" ").await;
            }
            held(page).await;
            let place = page.text(".talk__place").await;
            // The code comes behind them.
            assert_eq!(place, format!("{} of {}", i + 1, STEPS.len() + 1));
            // Nothing of the screen is pushed out of it.
            let out = "[...document.querySelectorAll('.talk__screen p, .talk__screen dd, \
                       .talk__bar button')].filter((part) => { const box = \
                       part.getBoundingClientRect(); return box.bottom > innerHeight + 1 || \
                       box.right > innerWidth + 1; }).map((part) => part.className).join()";
            assert_eq!(page.eval(out).await, "", "{key}");
            let apart = "(() => { const box = (name) => document.querySelector(name) \
                         .getBoundingClientRect(); return box('.talk__side').top >= \
                         box('.talk__head').bottom - 1 && box('.talk__side').bottom <= \
                         box('.talk__say').top + 1; })()";
            assert_eq!(
                page.eval(apart).await,
                true,
                "{key}: the numbers run into the rest"
            );
            page.shot(&format!("talk-{key}"), false).await;
        }
        // Its number is the answer of the page.
        let answer = page.eval("document.querySelector('#answer-number').textContent");
        let answer = answer.await.as_str().expect("a number").to_owned();
        assert_eq!(page.text(".talk__number").await, answer);

        // The last step is the code of the link, as large as the screen lets it be.
        page.press(Key::Right + "").await;
        assert_eq!(step(page).await, "code");
        let side = "document.querySelector('.talk__code svg').getBoundingClientRect().height \
                    / innerHeight";
        let side = page.eval(side).await;
        assert!(side.as_f64() > Some(0.5), "{side}");
        page.shot("talk-code", false).await;
        page.press(Key::Left + "").await;
        assert_eq!(step(page).await, "today");
        held(page).await;

        // Another crew is tried on the step at hand, on a copy, and put back by one key.
        page.wait_for("document.querySelector('.talk__screen').dataset.prepared === 'true'")
            .await;
        page.press("+").await;
        page.wait_for("document.querySelector('.talk__live').textContent.startsWith('4 users')")
            .await;
        assert_eq!(step(page).await, "today");
        held(page).await;
        assert_ne!(page.text(".talk__number").await, answer);
        // Said in the line of the title, so that the drawing keeps its size.
        let height = "document.querySelector('.talk__canvas').clientHeight";
        let tried = page.eval(height).await;
        assert!(page.text(".talk__rows").await.contains("As planned, 3"));
        page.shot("talk-four", false).await;
        page.press(Key::Shift + Key::Left).await;
        page.wait_for("document.querySelector('.talk__live').textContent.endsWith(' left')")
            .await;
        held(page).await;
        page.press("0").await;
        page.wait_for("!document.querySelector('.talk__live').textContent")
            .await;
        assert_eq!(page.text(".talk__number").await, answer);
        assert_eq!(page.eval(height).await, tried);
        let count = page.eval("document.querySelector('#in-workers-count').value");
        assert_eq!(count.await, "3");
        held(page).await;

        // Space plays it again, and holds it.
        page.press(" ").await;
        page.wait_for("document.querySelector('.talk__screen').dataset.playing === 'true'")
            .await;
        page.press(" ").await;
        held(page).await;

        // Tab stays among the commands of the screen, both ways round; and where no command has the
        // focus, as after one that was disabled, the keys hold all the same.
        let last =
            "document.activeElement === [...document.querySelectorAll('.talk__bar button')].pop()";
        page.press(Key::Shift + Key::Tab).await;
        assert_eq!(page.eval(last).await, true, "backwards from the screen");
        page.press(Key::Tab + "").await;
        let first = "document.activeElement === document.querySelector('.talk__bar button')";
        assert_eq!(page.eval(first).await, true, "past the last");
        page.press(Key::Shift + Key::Tab).await;
        assert_eq!(page.eval(last).await, true, "before the first");
        page.eval("document.activeElement.blur()").await;
        page.press(Key::Left + "").await;
        assert_eq!(step(page).await, "post");
        page.press(Key::Right + "").await;
        assert_eq!(step(page).await, "today");
        held(page).await;

        // Dark, by either key; any key brings the screen back and does nothing else.
        for key in ["b", "."] {
            page.press(key).await;
            let dark = "!document.querySelector('.talk__dark').hidden";
            page.wait_for(dark).await;
            let at = page.eval("(document.elementFromPoint(innerWidth / 2, 90)).className");
            assert_eq!(at.await, "talk__dark");
            page.press(Key::Left + "").await;
            page.wait_for("document.querySelector('.talk__dark').hidden")
                .await;
            assert_eq!(step(page).await, "today");
        }
        page.press("n").await;
        assert!(page.text(".talk__notes").await.contains("hanging"));
        page.shot("talk-notes", false).await;
        page.press("n").await;
        page.press(Key::PageUp + "").await;
        assert_eq!(step(page).await, "post");
        page.press(Key::Home + "").await;
        assert_eq!(step(page).await, "rest");

        // The end leads back to the list of its steps.
        page.press(Key::Escape + "").await;
        page.wait_for("!document.querySelector('.talk')").await;
        assert_eq!(page.eval("document.activeElement.id").await, "talk-start");
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_talk_is_edited_reordered_and_travels_in_the_link() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        open_list(page).await;
        page.click("[data-step=used_up] .talk-list__on").await;
        page.click("[data-step=post] .talk-list__earlier").await;
        page.click("[data-step=post] .talk-list__earlier").await;
        let own = "One goes over: mind the flatbed.";
        page.eval("document.querySelector('[data-step=one] textarea').select()")
            .await;
        page.eval("document.querySelector('[data-step=one] textarea').focus()")
            .await;
        page.press(own).await;
        page.press(Key::Tab + "").await;
        page.wait_for("!document.querySelector('[data-step=one] .talk-list__edited').hidden")
            .await;
        page.shot("talk-edited", false).await;
        assert!(page.text(".talk-list").await.contains("are not calculated"));
        page.wait_for("location.hash.includes('.t1.')").await;
        let link = page.eval("location.hash").await;
        let link = link.as_str().expect("a link").to_owned();

        page.go("about:blank").await;
        page.open_ready(&link).await;
        assert!(page.text("#answer-shared").await.contains("ame result"));
        open_list(page).await;
        let shown = page.eval("document.querySelector('[data-step=one] textarea').value");
        assert_eq!(shown.await, own);
        page.click("#talk-start").await;
        page.wait_for("document.querySelector('.talk')?.open").await;
        for key in ["rest", "one", "two", "post", "all", "today"] {
            assert_eq!(step(page).await, key);
            let edited = page.text(".talk__edited").await;
            assert_eq!(edited.is_empty(), key != "one", "{key}: {edited}");
            if key == "one" {
                assert_eq!(page.text(".talk__sentence").await, own);
            }
            page.press(Key::Down + "").await;
        }
        page.press(Key::Escape + "").await;

        // A damaged talk leaves the case, and says so.
        let (plan, room) = link.split_once('&').expect("the room behind the talk");
        let cut = &format!("{}&{room}", &plan[..plan.len() - 6]);
        page.go("about:blank").await;
        page.open_ready(cut).await;
        let notice = page.text("#notice").await;
        assert!(notice.contains("not the talk"), "{notice}");
        assert!(page.text("#answer-shared").await.contains("ame result"));
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_notice_of_a_new_version_does_not_interrupt_a_talk() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        open_list(page).await;
        page.click("#talk-start").await;
        page.wait_for("document.querySelector('.talk')?.open").await;
        page.press(Key::Right + "").await;
        // What the page does when a newer version is there.
        page.eval("document.querySelector('#notice').hidden = false")
            .await;
        held(page).await;
        let over = page.eval("document.querySelector('.talk').contains(document.elementFromPoint(innerWidth / 2, 60))");
        assert_eq!(over.await, true);
        let focus = page.eval("document.activeElement.className").await;
        assert_eq!(focus, "talk__screen");
        assert_eq!(step(page).await, "one");
    });
}

/// The fall as a file: recorded in the browser, named by the job, whole or not at all.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_fall_is_recorded_as_a_film() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.view("film").await;
        page.wait_for("document.querySelector('.film__canvas')?.height > 600")
            .await;
        page.eval(
            "(() => { const make = URL.createObjectURL; \
             URL.createObjectURL = (blob) => { window.film = blob; return make.call(URL, blob); }; \
             HTMLAnchorElement.prototype.click = function () { window.filmName = this.download; }; \
             })()",
        )
        .await;
        // What is stopped is no file.
        page.click("#film-make").await;
        page.click("#film-stop").await;
        page.wait_for("!document.querySelector('#film-make').hidden")
            .await;
        assert_eq!(page.text(".film__said").await, "");
        page.click("#film-make").await;
        page.wait_for("document.querySelector('.film__progress').value > 0.2")
            .await;
        page.shot("film", false).await;
        page.wait_for("window.filmName").await;
        let name = page.eval("window.filmName").await;
        assert_eq!(name, "footroom-wharf-shed-beam-b4.webm");
        let file = page
            .eval(
                "await window.film.arrayBuffer().then((bytes) => ({ type: window.film.type, \
                 size: bytes.byteLength, head: [...new Uint8Array(bytes, 0, 4)] }))",
            )
            .await;
        assert_eq!(file["type"], "video/webm");
        assert!(file["size"].as_f64() > Some(20_000.0), "{file}");
        // The mark of the container (RFC 8794, section 11.2.1: the EBML header's identifier).
        assert_eq!(file["head"], serde_json::json!([0x1A, 0x45, 0xDF, 0xA3]));
        assert!(page.text(".film__said").await.contains("downloads"));
    });
}

/// Every view of the talk in one language, for the accessibility checker and for the eye.
async fn look(page: &Page, language: &str) -> Vec<String> {
    page.eval(&format!(
        "(() => {{ const pick = document.querySelector('#language'); pick.value = '{language}'; \
         pick.dispatchEvent(new Event('change')); }})()"
    ))
    .await;
    page.wait_for(&format!("document.documentElement.lang === '{language}'"))
        .await;
    open_list(page).await;
    let mut found = page.axe().await;
    page.shot(&format!("talk-list-{language}"), false).await;
    for (task, shown) in [
        ("handout", "document.querySelector('#handout .paper svg')"),
        (
            "film",
            "document.querySelector('.film__canvas')?.height > 600",
        ),
    ] {
        page.view(task).await;
        page.wait_for(shown).await;
        found.extend(page.axe().await);
        page.shot(&format!("{task}-{language}"), false).await;
    }
    page.view("talk").await;
    page.click("#talk-start").await;
    page.wait_for("document.querySelector('.talk')?.open").await;
    page.press(Key::End + "").await;
    held(page).await;
    found.extend(page.axe().await);
    page.press("n").await;
    found.extend(page.axe().await);
    page.shot(&format!("talk-notes-{language}"), false).await;
    page.press("b").await;
    found.extend(page.axe().await);
    page.press(Key::Escape + "").await;
    page.wait_for("!document.querySelector('.talk')").await;
    found
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_the_talk() {
    let phone_at_night = Setup {
        dark: true,
        ..Setup::phone()
    };
    for (setup, language) in [(Setup::default(), "en"), (phone_at_night, "es")] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            let found = look(page, language).await;
            assert!(found.is_empty(), "{language}:\n  {}", found.join("\n  "));
        });
    }
}
