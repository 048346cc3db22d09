//! After the first visit the page needs no network.

use crate::rig::{self, Server, Setup};

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn site_only_the_page_opens_without_its_server() {
    rig::in_browser(Setup::default(), async |page| {
        let server = Server::start();
        let address = server.address().to_owned();
        page.go(&address).await;
        page.wait_ready().await;
        // Active means that all files have been stored.
        page.wait_for(
            "(await navigator.serviceWorker.getRegistration())?.active?.state === 'activated'",
        )
        .await;
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
