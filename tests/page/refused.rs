//! A link that cannot be read shows no answer that is not its own, from the first view on.

use crate::host::{Host, Manner};
use crate::rig::{self, Page, Setup};

/// What is wrong with this one: it is a link's beginning, and then nothing of a link.
const DAMAGED: &str = "#v1.AAAAdamagedAAAA";

/// What can be seen of the page.
async fn seen(page: &Page) -> String {
    let text = page.eval("document.body.innerText").await;
    text.as_str().expect("a text").to_owned()
}

/// The example's answer, for which the page without a link is looked at.
async fn example(page: &Page, address: &str) -> [String; 2] {
    page.go(address).await;
    page.wait_for("document.body?.dataset.state === 'ready'")
        .await;
    let number = page.text("#answer-number").await;
    let sentence = page.text("#answer-sentence").await;
    page.go("about:blank").await;
    [number, sentence]
}

/// No number of the example is seen; the link is there to be had again.
async fn shows_only_the_refusal(
    page: &Page,
    address: &str,
    example: &[String; 2],
    says: [&str; 2],
) {
    let refused = page.text("#refused").await;
    assert!(refused.contains(says[0]), "{refused}");
    let answer = page.text("#answer").await;
    assert!(answer.contains(says[1]), "{answer}");
    let all = seen(page).await;
    for part in example {
        assert!(
            !all.contains(part.as_str()),
            "{part} under a refused link: {all}"
        );
    }
    let digits = answer.chars().filter(char::is_ascii_digit).count();
    assert_eq!(digits, 0, "{answer}");
    for hidden in [
        "#scene",
        "#stack-rows",
        "#inputs",
        "#checks",
        "#share",
        ".doors",
    ] {
        let shown = page
            .eval(&format!(
                "document.querySelector('{hidden}').checkVisibility()"
            ))
            .await;
        assert_eq!(shown, false, "{hidden}");
    }
    let kept = page
        .eval("document.querySelector('#refused-link').value")
        .await;
    assert_eq!(kept.as_str(), Some(format!("{address}{DAMAGED}").as_str()));
    assert_eq!(page.eval("document.title").await, "Footroom");
}

/// The example, on demand, with the refused link still there.
async fn shows_the_example(page: &Page, example: &[String; 2], other: &str) {
    page.click("#refused-demo").await;
    page.wait_for("document.querySelector('#scene').checkVisibility()")
        .await;
    assert_eq!(&page.text("#answer-number").await, &example[0]);
    let refused = page.text("#refused").await;
    assert!(refused.contains(other), "{refused}");
    let kept = page
        .eval("document.querySelector('#refused-link').value")
        .await;
    assert!(kept.as_str().is_some_and(|link| link.ends_with(DAMAGED)));
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_damaged_link_shows_no_answer_though_the_second_module_fails() {
    for (language, says, other) in [
        (
            "en-GB",
            ["could not be read", "No result"],
            "not from this link",
        ),
        (
            "es-MX",
            ["No se pudo leer", "Sin resultado"],
            "no es el de este enlace",
        ),
    ] {
        let setup = Setup {
            language,
            ..Setup::default()
        };
        rig::in_browser(setup, async |page| {
            let host = Host::start(Manner {
                missing: vec!["pkg/office"],
                ..Manner::default()
            });
            let address = host.address("");
            let example = example(page, &address).await;
            page.go(&format!("{address}{DAMAGED}")).await;
            page.wait_for("document.body?.dataset.state === 'ready'")
                .await;
            page.wait_for("document.querySelector('#notice')?.hidden === false")
                .await;
            shows_only_the_refusal(page, &address, &example, says).await;
            page.shot(&format!("refused-{language}"), false).await;
            shows_the_example(page, &example, other).await;
            // Each browser tells of the missing module in several ways.
            page.allow_error("");
        });
    }
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_damaged_link_gives_its_reason_and_a_good_one_ends_it() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner::default());
        let address = host.address("");
        let example = example(page, &address).await;
        page.go(&format!("{address}{DAMAGED}")).await;
        page.wait_ready().await;
        let says = ["could not be read", "No result"];
        shows_only_the_refusal(page, &address, &example, says).await;
        assert!(!page.text("#refused-why").await.is_empty());
        // What the notice says next does not take its place.
        let apart = page.eval(
            "!document.querySelector('#notice').contains(document.querySelector('#refused')) \
            && !document.querySelector('#newer').contains(document.querySelector('#refused'))",
        );
        assert_eq!(apart.await, true);
        // Nothing that is done to the page takes the damaged link out of the address by itself.
        assert_eq!(page.eval("location.hash").await, DAMAGED);
        shows_the_example(page, &example, "not from this link").await;
        // A case of one's own stays under the next one, and is said not to be the link's.
        page.type_into("#in-workers-count", "1").await;
        page.wait_for("location.hash.startsWith('#v1.') && !location.hash.includes('damaged')")
            .await;
        let own = page.text("#answer-number").await;
        let link = page.eval("location.href").await;
        page.eval(&format!("void (location.hash = '{DAMAGED}')"))
            .await;
        page.wait_for("document.querySelector('#refused-why').textContent.includes('left as it')")
            .await;
        assert_eq!(page.text("#answer-number").await, own);
        // The good link ends it.
        page.eval(&format!("void (location.href = {link})")).await;
        page.wait_for("document.querySelector('#refused').hidden")
            .await;
        assert_eq!(page.text("#answer-number").await, own);
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_link_with_layouts_shows_no_case_before_they_are_there() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner {
            missing: vec!["pkg/office"],
            ..Manner::default()
        });
        let address = host.address("");
        let example = example(page, &address).await;
        page.go(&format!("{address}#c1.AAAA")).await;
        page.wait_for("document.querySelector('#notice')?.hidden === false")
            .await;
        let all = seen(page).await;
        assert!(!all.contains(&example[0]), "{all}");
        page.allow_error("");
        // And a damaged set is refused like a damaged case.
        host.change(|manner| manner.missing.clear());
        page.go("about:blank").await;
        page.go(&format!("{address}#c1.AAAA")).await;
        page.wait_ready().await;
        let all = seen(page).await;
        assert!(!all.contains(&example[0]), "{all}");
        assert!(!page.text("#refused-why").await.is_empty());
        let hash = page.eval("location.hash").await;
        let hash = hash.as_str().expect("a text");
        // What was received stays, with the room that it leads to.
        assert!(
            hash == "#c1.AAAA" || hash.starts_with("#c1.AAAA&room="),
            "{hash}"
        );
    });
}
