//! After the first visit the page needs no network; a newer version waits until it is asked for, and
//! takes nothing from anybody who is at work with the one before.

use crate::host::{COPIES, Host, Manner};
use crate::rig::{self, Page, Server, Setup};

/// Active means that all files have been stored.
const STORED: &str =
    "(await navigator.serviceWorker.getRegistration())?.active?.state === 'activated'";

/// A newer version has been stored and waits.
const WAITS: &str = "(await navigator.serviceWorker.getRegistration())?.waiting";

/// The version that the page is of.
const VERSION: &str = "document.body?.dataset.version ?? '1'";

async fn visit(page: &Page, address: &str) {
    // What leaving the page before has cut off.
    page.allow_error("dynamically imported module");
    page.go("about:blank").await;
    page.go(address).await;
    page.wait_ready().await;
}

async fn first_visit(page: &Page, address: &str) {
    visit(page, address).await;
    page.wait_for(STORED).await;
    page.wait_for("navigator.serviceWorker.controller").await;
}

/// Has the browser look for a newer version now, not in its own time.
async fn look_for_news(page: &Page) {
    page.eval(
        "await (await navigator.serviceWorker.getRegistration()).update().then(() => true, () => true)",
    )
    .await;
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_the_page_opens_without_its_server() {
    rig::in_browser(Setup::default(), async |page| {
        let server = Server::start();
        let address = server.address().to_owned();
        page.go(&address).await;
        page.wait_ready().await;
        page.wait_for(STORED).await;
        server.stop();
        let gone = format!("await fetch('{address}no-such-file').then(() => false, () => true)");
        page.wait_for(&gone).await;
        // A new visit, not a reload: the driver of Firefox reloads past the worker.
        page.go(&address).await;
        page.wait_ready().await;
        // The looks at a file that is not there, before and after the server went away.
        page.allow_error("no-such-file");
    });
}

/// The host lets browsers keep the page for an hour. The newer version's cache holds the newer page.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_a_newer_version_is_stored_past_the_browsers_own_cache() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner {
            keeps: true,
            ..Manner::default()
        });
        let address = host.address("");
        first_visit(page, &address).await;
        host.change(|manner| manner.newer = true);
        look_for_news(page).await;
        page.wait_for(WAITS).await;
        // A page of the first version that begins meanwhile tidies up, and leaves the newer one's files.
        page.eval("void (window.former = true, location.reload())")
            .await;
        page.wait_for("!window.former && document.body?.dataset.views === 'ready'")
            .await;
        // Nothing of it shows before it is asked for; then all of it is of one version.
        assert_eq!(page.eval(VERSION).await, "1");
        page.wait_for("!document.querySelector('#newer').hidden")
            .await;
        page.click("#newer-take").await;
        page.wait_for(&format!("({VERSION}) === '2'")).await;
        page.wait_ready().await;
        // Offline it is the same.
        host.change(|manner| manner.missing = vec![""]);
        visit(page, &address).await;
        assert_eq!(page.eval(VERSION).await, "2");
        page.view("record").await;
        page.wait_for("document.querySelector('.record__preview .paper svg')")
            .await;
        page.allow_error("404");
    });
}

/// A cache on the way still gives out the old page with the new worker: no mixture is stored.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_a_page_of_another_version_is_not_stored() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner::default());
        let address = host.address("");
        first_visit(page, &address).await;
        host.change(|manner| (manner.newer, manner.stale_page) = (true, true));
        look_for_news(page).await;
        page.wait_for("!(await navigator.serviceWorker.getRegistration()).installing")
            .await;
        assert_eq!(page.eval(&format!("Boolean({WAITS})")).await, false);
        // Once it has come through, it is.
        host.change(|manner| manner.stale_page = false);
        look_for_news(page).await;
        page.wait_for(WAITS).await;
        page.allow_error("of another version");
        page.allow_error("error");
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_an_update_that_breaks_off_leaves_the_version_before_whole() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner::default());
        let address = host.address("");
        first_visit(page, &address).await;
        let caches = page.eval("await caches.keys()").await;
        for part in ["pkg/office_bg", "page/record/record", "manifest"] {
            host.change(|manner| (manner.newer, manner.cut) = (true, Some(part)));
            look_for_news(page).await;
            page.wait_for("!(await navigator.serviceWorker.getRegistration()).installing")
                .await;
            assert!(
                host.asked().iter().any(|path| path.contains(part)),
                "{part}"
            );
            assert_eq!(page.eval(&format!("Boolean({WAITS})")).await, false);
            assert_eq!(page.eval("await caches.keys()").await, caches, "{part}");
        }
        host.change(|manner| manner.missing = vec![""]);
        visit(page, &address).await;
        assert_eq!(page.eval(VERSION).await, "1");
        page.view("talk").await;
        // What breaks off is told in many ways.
        page.allow_error("");
    });
}

/// One tab asks for the newer version; another goes on with what it has, whatever it opens.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_a_tab_at_work_keeps_its_version_when_another_takes_the_newer() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner::default());
        let address = host.address("");
        first_visit(page, &address).await;
        page.type_into("#in-workers-count", "1").await;
        let own = page.text("#answer-number").await;
        let first = page.driver.window().await.expect("a tab");
        let second = page.driver.new_tab().await.expect("another tab");
        page.driver
            .switch_to_window(second.clone())
            .await
            .expect("the other tab");
        page.driver.goto(&address).await.expect("the page");
        page.wait_ready().await;
        host.change(|manner| manner.newer = true);
        look_for_news(page).await;
        page.wait_for("!document.querySelector('#newer').hidden")
            .await;
        page.click("#newer-take").await;
        page.wait_for(&format!("({VERSION}) === '2'")).await;
        page.wait_ready().await;
        page.driver.switch_to_window(first).await.expect("the tab");
        assert_eq!(page.eval(VERSION).await, "1");
        assert_eq!(page.text("#answer-number").await, own);
        // The driver's own, of a tab that another one took the place of.
        page.allow_error("Permission denied to access property");
        // What it fetches only now is of its own version, and the host does not have it any more.
        page.view("record").await;
        page.wait_for("document.querySelector('.record__preview .paper svg')")
            .await;
        page.view("talk").await;
        assert!(page.eval("document.querySelector('#notice').hidden").await == true);
        // Once all tabs have the newer one, the files of the version before go.
        assert_eq!(page.eval("(await caches.keys()).length").await, 2);
        visit(page, &address).await;
        assert_eq!(page.eval(VERSION).await, "2");
        page.driver
            .switch_to_window(second)
            .await
            .expect("the other tab");
        page.driver.close_window().await.expect("closed");
        let tabs = page.driver.windows().await.expect("tabs");
        page.driver
            .switch_to_window(tabs[0].clone())
            .await
            .expect("the tab that is left");
        visit(page, &address).await;
        page.wait_for("(await caches.keys()).length === 1").await;
    });
}

/// What stands in no link is there again when the newer version has come.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_a_newer_version_loses_nothing_that_was_typed() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner::default());
        let address = host.address("");
        first_visit(page, &address).await;
        page.view("reading").await;
        page.wait_for("document.querySelector('#found-depth')")
            .await;
        page.eval(
            "(() => { document.querySelector('[name=reading-by][value=swings]').click(); \
             document.querySelector('.found__also').open = true; })()",
        )
        .await;
        page.type_into("#read-time", "4.1").await;
        page.type_into("#found-depth", "5.6").await;
        page.type_into("#in-line-pretension_n", "444").await;
        page.type_into("#in-workers-count", "2").await;
        page.wait_for("!document.querySelector('#problems').hidden")
            .await;
        let problems = page.text("#problems").await;
        host.change(|manner| manner.newer = true);
        look_for_news(page).await;
        page.wait_for("!document.querySelector('#newer').hidden")
            .await;
        // Where there is no room to carry it over, that is said, and the page stays.
        page.eval(
            "void (window.put = Storage.prototype.setItem, Storage.prototype.setItem = () => { \
             throw new DOMException('full', 'QuotaExceededError'); })",
        )
        .await;
        page.click("#newer-take").await;
        page.wait_for("!document.querySelector('#notice').hidden")
            .await;
        let said = page.text("#notice-text").await;
        assert!(said.contains("keeps nothing"), "{said}");
        assert_eq!(page.text("#problems").await, problems);
        page.eval("void (Storage.prototype.setItem = window.put)")
            .await;
        page.click("#newer-take").await;
        page.wait_for(&format!("({VERSION}) === '2'")).await;
        page.wait_ready().await;
        page.wait_for("document.querySelector('#found-depth')?.value === '5.6'")
            .await;
        assert_eq!(page.text("#problems").await, problems);
        for (field, text) in [
            ("#read-time", "4.1"),
            ("#in-line-pretension_n", "444"),
            ("#in-workers-count", "2"),
        ] {
            let value = format!("document.querySelector('{field}').value");
            assert_eq!(page.eval(&value).await, text, "{field}");
        }
    });
}

/// A refused link and a newer version have a place each.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_the_news_of_a_version_leaves_a_refused_link_in_its_place() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner::default());
        let address = host.address("");
        first_visit(page, &address).await;
        visit(page, &format!("{address}#v1.AAAAdamagedAAAA")).await;
        host.change(|manner| manner.newer = true);
        look_for_news(page).await;
        page.wait_for("!document.querySelector('#newer').hidden")
            .await;
        assert!(page.text("#refused").await.contains("could not be read"));
        let kept = page
            .eval("document.querySelector('#refused-link').value")
            .await;
        assert!(
            kept.as_str()
                .is_some_and(|link| link.ends_with("damagedAAAA"))
        );
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_two_copies_on_one_host_leave_each_other_alone() {
    rig::in_browser(Setup::default(), async |page| {
        let host = Host::start(Manner::default());
        for copy in COPIES {
            first_visit(page, &host.address(copy)).await;
        }
        let mut caches = page.eval("await caches.keys()").await;
        assert_eq!(caches.as_array().map(Vec::len), Some(2), "{caches}");
        // One of them gets a newer version.
        host.change(|manner| manner.newer = true);
        visit(page, &host.address(COPIES[1])).await;
        look_for_news(page).await;
        page.wait_for("!document.querySelector('#newer').hidden")
            .await;
        page.click("#newer-take").await;
        page.wait_for(&format!("({VERSION}) === '2'")).await;
        page.wait_ready().await;
        page.wait_for("(await caches.keys()).length === 2").await;
        let now = page.eval("await caches.keys()").await;
        caches = caches[0].take();
        assert!(
            now.as_array().is_some_and(|all| all.contains(&caches)),
            "{now}"
        );
        // Both open without the host.
        host.change(|manner| manner.missing = vec![""]);
        for (copy, version) in COPIES.iter().zip(["1", "2"]) {
            visit(page, &host.address(copy)).await;
            assert_eq!(page.eval(VERSION).await, version, "{copy}");
        }
        page.allow_error("404");
    });
}
