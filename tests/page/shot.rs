//! A picture of the page; `cargo xtask shot` runs it.
//!
//! Options: `--size WIDTHxHEIGHT` and `--scale S` (device pixels per CSS pixel), `--dark`,
//! `--forced` (forced colours), `--at FRAGMENT` (what comes after the address), `--click SELECTOR` (any number, in order, each
//! after the page is ready), `--choose SELECTOR=VALUE` (any number, a list's entry, before the
//! clicks), `--full` (the whole page instead of what is in view), `--print` (what comes out of a printer, as a PDF), `--out NAME`.

mod rig;

use rig::Setup;
use thirtyfour::common::print::PrintParameters;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let values = |name: &str| -> Vec<&str> {
        words
            .windows(2)
            .filter(|pair| pair[0] == name)
            .map(|pair| pair[1].as_str())
            .collect()
    };
    let value = |name: &str, usual| values(name).last().copied().unwrap_or(usual);
    let flag = |name: &str| words.iter().any(|word| word == name);

    let (width, height) = value("--size", "1280x800")
        .split_once('x')
        .expect("a size is WIDTHxHEIGHT");
    let setup = Setup {
        size_px: (
            width.parse().expect("a width in CSS pixels"),
            height.parse().expect("a height in CSS pixels"),
        ),
        scale: value("--scale", "1").parse().expect("a scale, such as 2"),
        dark: flag("--dark"),
        forced_colors: flag("--forced"),
        ..Setup::default()
    };
    rig::in_browser(setup, async |page| {
        page.open_ready(value("--at", "")).await;
        for choice in values("--choose") {
            let (selector, value) = choice.rsplit_once('=').expect("a choice is SELECTOR=VALUE");
            page.eval(&format!(
                "(() => {{ const list = document.querySelector({selector:?}); list.value = {value:?}; \
                 list.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
            ))
            .await;
            page.wait_ready().await;
            page.wait_for("!document.body.hasAttribute('data-waiting')")
                .await;
        }
        for selector in values("--click") {
            // What a press opens may be fetched first.
            page.wait_for(&format!("document.querySelector({selector:?})"))
                .await;
            page.click(selector).await;
        }
        // The third line of the answer is looked for beside the page.
        page.wait_for(
            "document.body.hasAttribute('data-blank') \
             || document.querySelector('#anywhere-number').textContent !== '…'",
        )
        .await;
        // What the last click changed is on the screen after two frames.
        page.eval(
            "await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))",
        )
        .await;
        if flag("--print") {
            let pdf = page.driver.print_page(PrintParameters::default()).await;
            let folder = std::env::var("FOOTROOM_SHOTS").expect("the folder of the pictures");
            let file = std::path::Path::new(&folder)
                .join(value("--out", "page"))
                .with_extension("pdf");
            std::fs::write(&file, pdf.expect("a PDF")).expect("written");
            println!("{}", file.display());
            return;
        }
        let file = page.picture(value("--out", "page"), flag("--full")).await;
        println!("{}", file.display());
    });
}
