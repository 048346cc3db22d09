//! The drop's player: instants reached by button and by key.

use thirtyfour::Key;

use crate::rig::{self, Page, Setup};

/// The instant that is shown, as the player has it.
async fn time(page: &Page) -> String {
    page.text("#time").await
}

/// What is read aloud of the instant that is shown.
async fn spoken(page: &Page) -> String {
    let words = page.eval("document.querySelector('#now-spoken').textContent");
    words.await.as_str().expect("words").to_owned()
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn lowest_rebound_and_hanging_are_reached_by_button_and_by_key() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let lowest = time(page).await;
        for by_key in [false, true] {
            let go = async |button: &str, key: String| {
                if by_key {
                    page.eval("document.querySelector('#scene').focus()").await;
                    page.press(key).await;
                } else {
                    page.click(button).await;
                }
            };
            go("#to-start", Key::Home.value().to_string()).await;
            assert_eq!(time(page).await, "0.00 s");
            go("#to-lowest", "l".to_owned()).await;
            assert_eq!(time(page).await, lowest);
            assert!(spoken(page).await.contains("at the lowest point"));
            // On from there he comes up again.
            let mut steps = 0;
            while !spoken(page).await.contains("Worker 2 on the rebound") {
                go("#step-forward", Key::Right.value().to_string()).await;
                steps += 1;
                assert!(steps < 20, "{}", spoken(page).await);
            }
            assert_ne!(time(page).await, lowest);
            page.shot("drop-rebound", false).await;
            for _ in 0..steps {
                go("#step-back", Key::Left.value().to_string()).await;
            }
            assert_eq!(time(page).await, lowest);
            go("#to-hanging", Key::End.value().to_string()).await;
            assert_eq!(time(page).await, "—");
            assert_eq!(spoken(page).await.matches("hanging").count(), 3);
            page.shot("drop-hanging", false).await;
        }
    });
}
