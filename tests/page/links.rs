//! What was sent opens as it was sent: layouts on the first screen of a phone, in the sender's units and
//! language, the talk at its first step; and what is given away, in its dialog.

use std::sync::LazyLock;

use footroom_core::assess::assess;
use footroom_core::case::Case;
use footroom_core::constants::MODEL_VERSION;
use footroom_core::demo::demo;
use footroom_core::solve::Options;
use footroom_web::page::compare::layouts_link::{self, Layout, Set};
use thirtyfour::Key;

use crate::doors::{choose, out_of_sight};
use crate::rig::{self, Page, Setup};

/// Two layouts of the invented example: as it is, and with a post more.
static TWO: LazyLock<String> = LazyLock::new(|| {
    let mut more = demo();
    more.line.spans_m = vec![6.0; 3];
    let layout = |name: &str, case: Case| Layout {
        name: name.to_owned(),
        footroom_m: assess(&case, Options::default())
            .expect("no faults")
            .footroom
            .value,
        case,
    };
    let set = Set {
        model: MODEL_VERSION,
        layouts: vec![layout("one post", demo()), layout("two posts", more)],
    };
    layouts_link::encode(&set).expect("finite")
});

fn two() -> &'static str {
    &TWO
}

/// Both layouts are solved, and it is said why they differ.
const SAID_WHY: &str = "(document.querySelectorAll('.compare__layout').length === 2 \
    && document.querySelector('#layouts-link')?.disabled === false \
    && document.querySelector('#compare .why')?.dataset.state === 'whole')";

async fn value(page: &Page, expression: &str) -> String {
    let value = page.eval(expression).await;
    value.as_str().unwrap_or_default().to_owned()
}

/// The client, on a phone, by link: what am I looking at, which one, and why.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn sent_layouts_stand_on_the_first_screen_of_a_phone() {
    rig::in_browser(Setup::phone(), async |page| {
        for (language, units, sent, unit, above) in [
            (
                "es",
                "us",
                "Le enviaron: 2 disposiciones",
                " in",
                "La respuesta de arriba",
            ),
            (
                "en",
                "metric",
                "You were sent: 2 layouts",
                " m",
                "The answer at the top",
            ),
        ] {
            let link = format!(
                "#{}&units={units}&language={language}&room=decide.compare",
                two()
            );
            page.go("about:blank").await;
            page.open_ready(&link).await;
            page.wait_long(SAID_WHY).await;
            assert_eq!(value(page, "document.documentElement.lang").await, language);
            let heading = page.text(".compare__sent").await;
            assert!(
                heading.starts_with(sent) && heading.contains("B4"),
                "{heading}"
            );
            let looks = page.text(".compare__looks").await;
            assert!(
                looks.contains(above) && looks.contains("one post"),
                "{looks}"
            );
            let reason = page.text(".compare__reason").await;
            assert!(
                reason.contains("two posts") && reason.contains(unit),
                "{reason}"
            );
            // The answer above is that of the first, in the sender's units.
            let number = page.text("#answer-number").await;
            assert!(number.ends_with(unit.trim()), "{number}");
            let first = page.text(".compare__layout .compare__footroom").await;
            assert!(first.contains(&number), "{first}, {number}");
            // All of it without scrolling, and nothing to fill in.
            page.eval("scrollTo(0, 0)").await;
            page.shot(&format!("sent-{language}"), false).await;
            let seen = [
                ".compare__sent",
                ".compare__looks",
                ".compare__layout:first-child .compare__footroom",
                ".compare__layout:first-child canvas",
                ".compare__layout:last-child .compare__footroom",
                ".compare__layout:last-child canvas",
                ".compare__reason",
            ];
            assert_eq!(out_of_sight(page, &seen).await, [""; 0], "{language}");
            let fields = page
                .eval(
                    "[...document.querySelectorAll('#compare input, #compare select')]\
                     .filter((field) => field.getBoundingClientRect().top < innerHeight).length",
                )
                .await;
            assert_eq!(fields, 0, "fields to fill in");
            // What stands first for the eye comes first by keys as well.
            let after = "document.querySelector('.compare__sent').compareDocumentPosition(\
                document.querySelector('#room-decide .room__side')) \
                === Node.DOCUMENT_POSITION_FOLLOWING";
            assert_eq!(page.eval(after).await, true, "the other tasks come first");
            // The link changed nothing that the device keeps, and loaded again the layouts stand there.
            let kept = "[localStorage.getItem('footroom.units'), \
                localStorage.getItem('footroom.language')].join()";
            assert_eq!(value(page, kept).await, ",");
            page.reload().await;
            page.wait_ready().await;
            assert!(page.text(".compare__sent").await.starts_with(sent));
        }
        // What the reader chooses goes before the link, is kept, and goes along from then on.
        choose(page, "units", "us").await;
        page.reload().await;
        page.wait_ready().await;
        assert_eq!(
            value(page, "document.querySelector('#units').value").await,
            "us"
        );
        assert!(
            page.text(".compare__sent")
                .await
                .starts_with("You were sent")
        );
        page.go("about:blank").await;
        page.open_ready(&format!("#{}", two())).await;
        assert_eq!(
            value(page, "document.querySelector('#units').value").await,
            "us"
        );
        let address = page.eval("location.hash").await;
        let address = address.as_str().expect("an address");
        assert!(address.ends_with("&room=decide.compare"), "{address}");
        // What is not known is left out, and another layout is said to be another.
        page.go("about:blank").await;
        page.open_ready(&format!("#{}&units=ells&language=xx&color=red", two()))
            .await;
        page.wait_long(SAID_WHY).await;
        assert_eq!(value(page, "document.documentElement.lang").await, "en");
        page.eval("document.querySelector('#layout-load-1').click()")
            .await;
        page.wait_for(
            "document.querySelector('.compare__looks').textContent.includes('two posts')",
        )
        .await;
        // The address, which whoever changes the room takes along, still has all of them.
        for task in ["#task-why", "#task-compare"] {
            page.eval(&format!("document.querySelector('{task}').click()"))
                .await;
        }
        page.reload().await;
        page.wait_ready().await;
        assert!(
            page.text(".compare__sent")
                .await
                .starts_with("You were sent")
        );
    });
}

/// By keys alone: the dialog opens, gives the case, the layouts and the talk, and closes; the talk's link
/// opens the talk, once.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn what_is_given_away_is_chosen_by_keys() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval("document.querySelector('#share').focus()").await;
        page.press(Key::Enter + "").await;
        page.wait_for("document.querySelector('.share')?.open")
            .await;
        let given = "document.querySelector('#share-link').value";
        let case = value(page, given).await;
        assert!(case.contains("#v1.") && case.contains("&units=metric&language=en"));
        page.shot("share", false).await;
        // No layouts yet: it is said, and there is nothing to copy.
        page.press(Key::Right + "").await;
        page.wait_for("document.querySelector('.share').dataset.given === 'layouts'")
            .await;
        assert_eq!(value(page, given).await, "");
        assert!(page.text(".share__note").await.contains("No layouts yet"));
        page.press(Key::Right + "").await;
        page.wait_for(&format!("{given}.endsWith('&room=explain.talk.start')"))
            .await;
        let talk = value(page, given).await;
        assert_eq!(page.scanned(".share__code svg").await, talk);
        page.press(Key::Escape + "").await;
        page.wait_for("!document.querySelector('.share')").await;
        assert_eq!(value(page, "document.activeElement.id").await, "share");
        page.go("about:blank").await;
        page.go(&talk).await;
        page.wait_ready().await;
        page.wait_for("document.querySelector('.talk')?.open").await;
        page.press(Key::Escape + "").await;
        page.wait_for("!document.querySelector('.talk')").await;
        let hash = value(page, "location.hash").await;
        assert!(
            !hash.contains("start") && hash.contains("&room=explain"),
            "{hash}"
        );
        // Where one looks at layouts, they are what one means.
        page.go("about:blank").await;
        page.open_ready(&format!("#{}&room=decide.compare", two()))
            .await;
        page.wait_long(SAID_WHY).await;
        page.click("#share").await;
        page.wait_for("document.querySelector('.share')?.open")
            .await;
        let set = value(page, given).await;
        assert!(set.ends_with("&room=decide.compare"), "{set}");
        assert_eq!(page.scanned(".share__code svg").await, set);
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_what_is_sent_and_given_away() {
    for (setup, language) in [(Setup::default(), "en"), (Setup::phone(), "es")] {
        rig::in_browser(setup, async |page| {
            page.open_ready(&format!("#{}&language={language}", two()))
                .await;
            page.wait_long(SAID_WHY).await;
            let found = page.axe().await;
            assert!(found.is_empty(), "sent:\n  {}", found.join("\n  "));
            page.click("#share").await;
            page.wait_for("document.querySelector('#share-link')?.value")
                .await;
            page.shot(&format!("share-{language}"), false).await;
            let found = page.axe().await;
            assert!(found.is_empty(), "share:\n  {}", found.join("\n  "));
        });
    }
}
