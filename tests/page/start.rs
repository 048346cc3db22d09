//! The page starts, in every browser, without an error.

use crate::rig::{self, Setup};

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_page_gets_ready_without_an_error() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.shot("start", false).await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_page_gets_ready_on_a_phone_and_fits_its_width() {
    rig::in_browser(Setup::phone(), async |page| {
        page.open_ready("").await;
        page.shot("start-phone", false).await;
        let over_px = "document.documentElement.scrollWidth - innerWidth";
        let over_px = page.eval(over_px).await.as_f64().expect("a width");
        assert!(
            over_px <= 0.0,
            "the page is {over_px} px wider than the phone"
        );
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_at_the_start() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let found = page.axe().await;
        assert!(found.is_empty(), "accessibility:\n  {}", found.join("\n  "));
    });
}

/// The rig must see an error, or the tests above prove nothing.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn errors_of_every_kind_are_seen() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        assert_eq!(page.errors().await, Vec::<String>::new());
        page.eval("console.error('an error of the console')").await;
        page.eval("setTimeout(() => { throw new Error('thrown later') })")
            .await;
        page.eval("void Promise.reject(new Error('refused promise'))")
            .await;
        // A style attribute is against the page's policy.
        page.eval("document.body.setAttribute('style', 'color: red')")
            .await;
        page.eval("document.body.append(Object.assign(new Image(), { src: 'no-such.png' }))")
            .await;
        let expected = [
            "an error of the console",
            "thrown later",
            "refused promise",
            "policy violation: style-src",
            "no-such.png",
        ];
        for part in expected {
            assert!(page.sees_error(part).await, "no error holds {part:?}");
        }
        for part in expected {
            page.allow_error(part);
        }
        // The browsers say the same about the policy once more, each in its own words.
        page.allow_error("Content Security Policy");
        page.allow_error("Content-Security-Policy");
    });
}
