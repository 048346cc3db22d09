//! The rig of the page tests: one browser session a test, its errors, pictures and checks.
//!
//! `cargo xtask test --page` builds the page, serves it, starts the browser's driver and says in the
//! environment where they are. A test is an ordinary function:
//!
//! ```ignore
//! #[test]
//! #[ignore = "needs a browser: cargo xtask test --page"]
//! fn a_longer_lanyard_takes_footroom() {
//!     rig::in_browser(Setup::default(), async |page| {
//!         page.open("").await;
//!         page.type_into("#lanyard", "2.4").await;
//!         page.wait_for("document.body.dataset.state === 'ready'").await;
//!         assert!(page.text("#answer").await.contains("short by"));
//!     });
//! }
//! ```
//!
//! The mark `ignore` keeps the test from being counted where there is no browser. After the test the
//! rig fails it for any error on the console, any violation of the page's policy and any file that
//! could not be loaded, unless [`Page::allow_error`] has named it. A test that fails leaves a picture
//! in `target/shots/failed-<browser>-<test>.png`.
//!
//! Parts of a test's name choose where it runs: `axe` needs the accessibility checker,
//! `chromium_only` the developer protocol of Chromium, `site_only` the finished site with its service
//! worker (not `--dev`). Where these are missing the tests are reported as skipped. WebKit's driver has
//! no event channel: only tests that ask for nothing of it run there, in a light page of any size.
//!
//! The page says in `<body data-state="loading|ready|failed">` how far it is, and has
//! `data-waiting` there between a change of the answer and that of all else; the rig reads nothing
//! then.
#![allow(dead_code, reason = "each program of the rig uses its part of it")]

use std::io::{BufRead, BufReader};
use std::panic::{AssertUnwindSafe, resume_unwind};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::{Arc, Condvar, LazyLock, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

use base64::Engine as _;
use futures_util::{FutureExt, StreamExt};
use serde_json::{Value, json};
use thirtyfour::bidi::events::LogEntryAdded;
use thirtyfour::bidi::modules::browsing_context::{
    CaptureScreenshot, ScreenshotOrigin, SetViewport, Viewport,
};
use thirtyfour::bidi::modules::log::LogLevel;
use thirtyfour::bidi::modules::script::AddPreloadScript;
use thirtyfour::bidi::{BiDi, BrowsingContextId};
use thirtyfour::prelude::*;

/// Longest wait for a condition. A page that is well needs a tenth of it on a busy machine.
const WAIT_LIMIT: Duration = Duration::from_secs(15);

/// Longest time for a page to load.
const LOAD_LIMIT: Duration = Duration::from_secs(30);

/// Waits in the page until all of it shows the last change.
const ALL_SHOWN: &str = "while (document.body?.matches('[data-waiting], [data-coming]')) { \
    await new Promise((next) => setTimeout(next)); }";

/// No window of WebKit's browser needs to be wider than this for its bar.
const NARROWEST_PX: u32 = 480;

/// Time between two looks at a condition.
const WAIT_STEP: Duration = Duration::from_millis(20);

/// Last entry of the console before its errors are judged.
const END_MARK: &str = "end of the page test";

/// Runs in every document before its own scripts, and turns what the browsers do not report as an
/// entry of the console into one.
const WATCH: &str = r#"() => {
    addEventListener("securitypolicyviolation", (event) => console.error(
        `policy violation: ${event.violatedDirective} blocks ${event.blockedURI} `
        + `in ${event.sourceFile}:${event.lineNumber}`));
    addEventListener("error", (event) => {
        const source = event.target?.src || event.target?.href;
        if (source) console.error(`cannot load ${source}`);
    }, true);
}"#;

/// Notes what becomes an entry of the console, where no event tells of it.
const WATCH_LATE: &str = r#"() => {
    const noted = window.rigErrors = [];
    const { error } = console;
    console.error = (...parts) => { noted.push(parts.join(" ")); error(...parts); };
    // No engine tells of sizes that go on changing in the next frame as an error of the console.
    addEventListener("error", ({ message }) => {
        if (message && !message.startsWith("ResizeObserver loop")) noted.push(message);
    });
    addEventListener("unhandledrejection", ({ reason }) => noted.push(String(reason)));
}"#;

/// How the visitor's browser is set up.
#[derive(Clone, Copy)]
pub struct Setup {
    /// Language asked for, as in `navigator.language`.
    pub language: &'static str,
    /// Dark colour scheme.
    pub dark: bool,
    /// Forced colours (high contrast).
    pub forced_colors: bool,
    /// Less motion.
    pub reduced_motion: bool,
    /// Width and height of the page's area, in CSS pixels.
    pub size_px: (u32, u32),
    /// Device pixels per CSS pixel.
    pub scale: f64,
}

impl Default for Setup {
    fn default() -> Self {
        Self::LAPTOP
    }
}

impl Setup {
    /// A laptop: English with metric units, light, 1280 x 800 at scale 1.
    pub const LAPTOP: Setup = Setup {
        language: "en-GB",
        dark: false,
        forced_colors: false,
        reduced_motion: false,
        size_px: (1280, 800),
        scale: 1.0,
    };

    /// A phone: 390 x 844 at scale 3.
    pub fn phone() -> Self {
        Setup {
            size_px: (390, 844),
            scale: 3.0,
            ..Setup::default()
        }
    }

    /// A projector: 1920 x 1080 at scale 1.
    pub fn projector() -> Self {
        Setup {
            size_px: (1920, 1080),
            ..Setup::default()
        }
    }
}

/// The browser's engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    /// Chromium.
    Chromium,
    /// Firefox.
    Firefox,
    /// WebKitGTK.
    WebKit,
}

/// A variable that the build tool sets.
fn given(name: &str) -> String {
    std::env::var(name)
        .unwrap_or_else(|_| panic!("{name} is not set; run this by  cargo xtask test --page"))
}

/// The engine of the browser that the tests run in.
pub fn engine() -> Engine {
    match given("FOOTROOM_BROWSER").as_str() {
        "chromium" => Engine::Chromium,
        "firefox" => Engine::Firefox,
        "webkit" => Engine::WebKit,
        other => panic!("no rig for the browser {other:?}"),
    }
}

/// What is kept under a lock; that another test has failed meanwhile does not spoil it.
fn locked<T>(kept: &Mutex<T>) -> MutexGuard<'_, T> {
    kept.lock().unwrap_or_else(PoisonError::into_inner)
}

/// A driver for the time of a session.
struct Turn {
    address: String,
}

/// Drivers that nobody uses. Chromium's keeps any number of sessions, the others one at a time.
static FREE: LazyLock<Mutex<Vec<String>>> = LazyLock::new(|| {
    let addresses = given("FOOTROOM_DRIVERS");
    Mutex::new(addresses.split(' ').map(str::to_owned).collect())
});

/// Told when a driver has become free.
static FREED: Condvar = Condvar::new();

impl Turn {
    fn take() -> Self {
        let mut free = FREED
            .wait_while(locked(&FREE), |free| free.is_empty())
            .unwrap_or_else(PoisonError::into_inner);
        let address = match engine() {
            Engine::Firefox | Engine::WebKit => free.pop().expect("waited for one"),
            Engine::Chromium => free[0].clone(),
        };
        Turn { address }
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        if engine() != Engine::Chromium {
            locked(&FREE).push(std::mem::take(&mut self.address));
            FREED.notify_one();
        }
    }
}

/// Runs `test` in a new browser session, ends the session whatever happens, and then fails for what
/// failed in the test or for the errors that the page left on the console.
pub fn in_browser(setup: Setup, test: impl AsyncFnOnce(&Page)) {
    let turn = Turn::take();
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_all()
        .build()
        .expect("a runtime for the session");
    runtime.block_on(async {
        let page = Page::start(setup, &turn.address).await;
        let ran = AssertUnwindSafe(async {
            test(&page).await;
            page.check_errors().await;
        })
        .catch_unwind()
        .await;
        if ran.is_err() {
            page.keep_evidence().await;
        }
        let driver = page.driver.clone();
        drop(page);
        let ended = driver.quit().await;
        if let Err(panic) = ran {
            resume_unwind(panic);
        }
        ended.expect("the session ends");
    });
}

/// A browser window with the page.
pub struct Page {
    /// The session, for what the rig has no word for.
    pub driver: WebDriver,
    /// Its engine.
    pub engine: Engine,
    /// The event channel with its name for the window.
    channel: Option<(BiDi, BrowsingContextId)>,
    log: Arc<Mutex<Vec<Entry>>>,
    allowed: Mutex<Vec<String>>,
}

/// An entry of the console.
#[derive(Clone, Debug)]
struct Entry {
    error: bool,
    text: String,
}

impl Page {
    async fn start(setup: Setup, address: &str) -> Self {
        let engine = engine();
        let capabilities = capabilities(engine, setup);
        let driver = WebDriver::new(address, capabilities)
            .await
            .unwrap_or_else(|error| panic!("no session with {engine:?}: {error}"));
        let prepared = AssertUnwindSafe(Page::prepare(&driver, engine, setup))
            .catch_unwind()
            .await;
        match prepared {
            Ok((channel, log)) => {
                let page = Page {
                    driver,
                    engine,
                    channel,
                    log,
                    allowed: Mutex::new(Vec::new()),
                };
                page.set_size(setup.size_px, setup.scale).await;
                page
            }
            Err(panic) => {
                // The session must not outlive the failure; that one is the news.
                let _ = driver.quit().await;
                resume_unwind(panic)
            }
        }
    }

    async fn prepare(
        driver: &WebDriver,
        engine: Engine,
        setup: Setup,
    ) -> (Option<(BiDi, BrowsingContextId)>, Arc<Mutex<Vec<Entry>>>) {
        driver
            .set_page_load_timeout(LOAD_LIMIT)
            .await
            .expect("the limit for loading");
        if engine == Engine::WebKit {
            return (None, Arc::default());
        }
        let bidi = driver.bidi().await.expect("the driver's event channel");
        let mut events = bidi
            .subscribe::<LogEntryAdded>()
            .await
            .expect("the console's entries");
        let log = Arc::new(Mutex::new(Vec::new()));
        let kept = Arc::clone(&log);
        tokio::spawn(async move {
            while let Some(event) = events.next().await {
                let entry = Entry {
                    error: matches!(event.level, LogLevel::Error),
                    text: event.text.unwrap_or_default(),
                };
                locked(&kept).push(entry);
            }
        });
        bidi.send(AddPreloadScript {
            function_declaration: WATCH.to_owned(),
            arguments: Vec::new(),
            sandbox: None,
            contexts: Vec::new(),
        })
        .await
        .expect("the watch on the page's errors");
        let window = bidi
            .browsing_context()
            .top_level()
            .await
            .expect("the session's window");
        if engine == Engine::Chromium {
            let on = |name: &str, value: &str| json!({ "name": name, "value": value });
            let scheme = if setup.dark { "dark" } else { "light" };
            let mut features = vec![on("prefers-color-scheme", scheme)];
            if setup.forced_colors {
                features.push(on("forced-colors", "active"));
            }
            if setup.reduced_motion {
                features.push(on("prefers-reduced-motion", "reduce"));
            }
            driver
                .cdp()
                .send_raw(
                    "Emulation.setEmulatedMedia",
                    json!({ "features": features }),
                )
                .await
                .expect("the colour scheme");
        }
        (Some((bidi, window)), log)
    }

    /// The session's event channel, for what the rig has no word for.
    pub fn bidi(&self) -> &BiDi {
        let channel = self.channel.as_ref();
        &channel.expect("this browser has an event channel").0
    }

    /// Opens the page. `at` is what comes after its address: `""`, `"#c=..."`, `"?x"`.
    pub async fn open(&self, at: &str) {
        self.go(&format!("{}{at}", given("FOOTROOM_URL"))).await;
    }

    /// Opens the page and waits until it is ready.
    pub async fn open_ready(&self, at: &str) {
        self.open(at).await;
        self.wait_ready().await;
    }

    /// Runs a function, given as JavaScript, in every document before its own scripts from now on.
    pub async fn prepare_documents(&self, function: &str) {
        self.bidi()
            .send(AddPreloadScript {
                function_declaration: function.to_owned(),
                arguments: Vec::new(),
                sandbox: None,
                contexts: Vec::new(),
            })
            .await
            .expect("a script before the page's own");
    }

    /// Opens any address, such as that of a [`Server`].
    pub async fn go(&self, address: &str) {
        self.leave().await;
        self.driver
            .goto(address)
            .await
            .unwrap_or_else(|error| panic!("cannot open {address}: {error}"));
        self.watch().await;
    }

    /// Loads the page again.
    pub async fn reload(&self) {
        self.leave().await;
        self.driver.refresh().await.expect("the page loads again");
        self.watch().await;
    }

    /// Where there is no event channel, notes the errors of the document from its load on. What comes
    /// before keeps it from getting ready, or is seen with the other engines.
    async fn watch(&self) {
        if self.channel.is_none() {
            self.eval(&format!("({WATCH_LATE})(), ({WATCH})()")).await;
        }
    }

    /// Takes what [`Page::watch`] has noted.
    async fn take_errors(&self) {
        let noted = self.eval("window.rigErrors?.splice(0) ?? []").await;
        let noted = noted.as_array().into_iter().flatten();
        let texts = noted.filter_map(Value::as_str).map(str::to_owned);
        locked(&self.log).extend(texts.map(|text| Entry { error: true, text }));
    }

    /// Firefox tells a load that leaving the page has cut off as an error of the service worker. It is
    /// let pass only where a test leaves a page; what really is not served keeps a page from its start.
    async fn leave(&self) {
        if self.channel.is_none() {
            return self.take_errors().await;
        }
        let address = self.driver.current_url().await.expect("an address");
        if self.engine == Engine::Firefox && address.scheme().starts_with("http") {
            self.allow_error(
                "A ServiceWorker intercepted the request and encountered an unexpected",
            );
        }
    }

    /// Waits until the page says that it is ready; fails at once when it says that it failed.
    pub async fn wait_ready(&self) {
        self.wait_for("['ready', 'failed'].includes(document.body?.dataset.state)")
            .await;
        let state = self.eval("document.body.dataset.state").await;
        assert_eq!(state, "ready", "the page could not start");
        self.wait_for("document.body.dataset.views === 'ready'")
            .await;
    }

    /// The value of a JavaScript expression, once all of the page shows the last change. `await` may
    /// stand in it.
    pub async fn eval(&self, expression: &str) -> Value {
        let script = format!(
            "const done = arguments[arguments.length - 1]; \
             (async () => {{ {ALL_SHOWN} return ({expression}); }})() \
             .then((value) => done({{ value: value ?? null }}), \
                   (error) => done({{ error: String(error) }}));"
        );
        let answer = self
            .driver
            .execute_async(script, Vec::new())
            .await
            .unwrap_or_else(|error| panic!("cannot evaluate {expression}: {error}"));
        let answer = answer.json();
        if let Some(error) = answer.get("error") {
            panic!("{expression} throws {error}");
        }
        answer.get("value").cloned().unwrap_or_default()
    }

    /// Waits until a JavaScript expression is true. Wait for conditions, never for a time.
    pub async fn wait_for(&self, condition: &str) {
        let start = Instant::now();
        let wanted = format!("Boolean({condition})");
        while self.eval(&wanted).await != Value::Bool(true) {
            assert!(
                start.elapsed() < WAIT_LIMIT,
                "after {} s it does not hold that {condition}",
                WAIT_LIMIT.as_secs()
            );
            tokio::time::sleep(WAIT_STEP).await;
        }
    }

    /// As [`Page::wait_for`], for what takes long where several browsers share a small machine.
    pub async fn wait_long(&self, condition: &str) {
        let start = Instant::now();
        while self.eval(&format!("Boolean({condition})")).await != Value::Bool(true) {
            assert!(
                start.elapsed() < Duration::from_secs(120),
                "after two minutes it does not hold that {condition}"
            );
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
    }

    /// The first element that a CSS selector names; it fails when there is none.
    pub async fn find(&self, selector: &str) -> WebElement {
        self.driver
            .find(By::Css(selector))
            .await
            .unwrap_or_else(|_| panic!("the page has no {selector}"))
    }

    /// Goes to where an element is, as a person does: through the door of its room, to its task, and to
    /// its part of the plan where that stands alone. Where it is shown already, nothing is pressed.
    pub async fn reach(&self, selector: &str) {
        self.eval(&format!(
            "void (() => {{ const part = document.querySelector({selector:?}); \
             const room = part?.closest('.room'); \
             const about = part?.closest('#about'); if (about) about.open = true; \
             if (document.body?.dataset.state !== 'ready' || !room) return; \
             if (room.hidden) document.querySelector(`#${{room.id.replace('room', 'door')}}`).click(); \
             const task = part.closest('details[name=folds]'); \
             if (task && !task.open) document.querySelector(`#task-${{task.id}}`).click(); \
             const parts = [['.drop', 'drop'], ['#inputs', 'inputs'], ['.stack, .now', 'stack'], \
             ['#charts', 'charts']]; \
             const [, name] = parts.find(([where]) => part.closest(where)) ?? []; \
             const entry = document.querySelector(`#parts [data-part=${{name}}]`); \
             if (name && !part.closest(parts.find(([, n]) => n === name)[0]).getClientRects().length) \
             entry.click(); }})()"
        ))
        .await;
    }

    /// What a reader of codes makes of a code that the page shows, by its pixels, four to a module.
    pub async fn scanned(&self, selector: &str) -> String {
        let drawn = self
            .eval(&format!(
                "await (async () => {{ \
                 const svg = document.querySelector({selector:?}).cloneNode(true); \
                 const side = 4 * svg.viewBox.baseVal.width; \
                 svg.setAttribute('width', side); svg.setAttribute('height', side); \
                 const image = new Image(); \
                 image.src = 'data:image/svg+xml,' \
                   + encodeURIComponent(new XMLSerializer().serializeToString(svg)); \
                 await image.decode(); \
                 const canvas = document.createElement('canvas'); \
                 canvas.width = side; canvas.height = side; \
                 const context = canvas.getContext('2d'); context.drawImage(image, 0, 0); \
                 const pixels = context.getImageData(0, 0, side, side).data; \
                 let text = ''; \
                 for (let i = 0; i < pixels.length; i += 4) text += pixels[i] < 128 ? 1 : 0; \
                 return {{ side, text }}; }})()"
            ))
            .await;
        let side = drawn["side"].as_u64().expect("a side") as usize;
        let pixels = drawn["text"].as_str().expect("pixels").as_bytes();
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
            if pixels[y * side + x] == b'1' { 0 } else { 255 }
        });
        let grids = image.detect_grids();
        let read: Vec<String> = grids
            .iter()
            .filter_map(|grid| grid.decode().ok())
            .map(|(_, text)| text)
            .collect();
        assert_eq!(read.len(), 1, "codes read at {selector}");
        read.concat()
    }

    /// Opens a view, named by the id of its fold, and waits until it is there.
    pub async fn view(&self, id: &str) {
        self.reach(&format!("#{id} > *")).await;
        self.wait_for(&format!(
            "document.querySelector('#{id}').open && !document.querySelector('#{id}').closest('.room').hidden \
             && [...document.querySelectorAll('#{id} > .late')].every((late) => late.firstChild && !late.hidden)"
        ))
        .await;
    }

    /// The visible text of an element, once all of the page shows the last change.
    pub async fn text(&self, selector: &str) -> String {
        self.reach(selector).await;
        // A view may be made anew between the two: it is read once more then.
        for _ in 0..4 {
            if let Ok(text) = self.find(selector).await.text().await {
                return text;
            }
        }
        let element = self.find(selector).await;
        element.text().await.expect("the element's text")
    }

    /// Clicks an element as a person does: it must be in view or scroll there, with nothing over it.
    pub async fn click(&self, selector: &str) {
        self.reach(selector).await;
        let element = self.find(selector).await;
        element
            .click()
            .await
            .unwrap_or_else(|error| panic!("cannot click {selector}: {error}"));
    }

    /// Replaces what stands in a field, key by key, and leaves the field with the tab key.
    pub async fn type_into(&self, selector: &str, text: &str) {
        self.reach(selector).await;
        let element = self.find(selector).await;
        let typed = async {
            element.clear().await?;
            element.send_keys(text).await?;
            element.send_keys(Key::Tab).await
        };
        typed
            .await
            .unwrap_or_else(|error| panic!("cannot type into {selector}: {error}"));
    }

    /// Presses keys where the focus is: text, or a [`Key`] such as `Key::Right + ""`.
    pub async fn press(&self, keys: impl Into<TypingData>) {
        if self.engine == Engine::WebKit {
            // Its driver ends at a key for an element that takes no text.
            let chain = self.driver.action_chain().send_keys(keys);
            return chain.perform().await.expect("the keys are taken");
        }
        let element = self
            .driver
            .active_element()
            .await
            .expect("an element with the focus");
        element.send_keys(keys).await.expect("the keys are taken");
    }

    /// Sets the page's area in CSS pixels, and the device pixels per CSS pixel (in WebKit it has those
    /// of the session's start).
    pub async fn set_size(&self, size_px: (u32, u32), scale: f64) {
        let Some((bidi, window)) = &self.channel else {
            return self.set_window(size_px).await;
        };
        bidi.send(SetViewport {
            context: window.clone(),
            viewport: Some(Viewport {
                width: size_px.0,
                height: size_px.1,
            }),
            device_pixel_ratio: Some(scale),
        })
        .await
        .expect("the size of the page's area");
    }

    /// Sets the page's area by the size of the window around it, which has a bar and is no narrower than
    /// that: a phone's page is somewhat wider then.
    async fn set_window(&self, (width, height): (u32, u32)) {
        let start = Instant::now();
        loop {
            let sides = "[innerWidth, innerHeight, outerWidth, outerHeight]";
            let sides = self.eval(sides).await;
            let side = |i: usize| sides[i].as_u64().unwrap_or_default() as u32;
            let wide = side(0) == width || (width..NARROWEST_PX).contains(&side(0));
            if wide && side(1) == height {
                return;
            }
            assert!(start.elapsed() < WAIT_LIMIT, "the window keeps {sides}");
            let outer = |i: usize, wanted: u32| (side(i + 2) + wanted).saturating_sub(side(i));
            self.driver
                .set_window_rect(0, 0, outer(0, width), outer(1, height))
                .await
                .expect("the size of the window");
            tokio::time::sleep(WAIT_STEP).await;
        }
    }

    /// A picture for the eye, as [`Page::picture`] takes it, where the run is one that somebody looks at:
    /// one of named tests. In a run of all they are a minute that nobody sees.
    pub async fn shot(&self, name: &str, full: bool) {
        if std::env::var_os("FOOTROOM_PICTURES").is_some() {
            self.picture(name, full).await;
        }
    }

    /// A picture of what is in view, as `target/shots/<name>-<browser>.png`; `full` takes the whole
    /// page (in WebKit what is in view).
    pub async fn picture(&self, name: &str, full: bool) -> PathBuf {
        let browser = given("FOOTROOM_BROWSER");
        let file = PathBuf::from(given("FOOTROOM_SHOTS")).join(format!("{name}-{browser}.png"));
        let bytes = match &self.channel {
            Some((bidi, window)) => {
                let picture = bidi
                    .send(CaptureScreenshot {
                        context: window.clone(),
                        origin: full.then_some(ScreenshotOrigin::Document),
                        format: None,
                    })
                    .await
                    .expect("a picture");
                base64::engine::general_purpose::STANDARD
                    .decode(picture.data)
                    .expect("the picture's text is base64")
            }
            None => {
                // Its driver takes what has been painted, which may be nothing yet.
                let painted = "await new Promise((done) => \
                    requestAnimationFrame(() => requestAnimationFrame(done)))";
                self.eval(painted).await;
                self.driver.screenshot_as_png().await.expect("a picture")
            }
        };
        std::fs::write(&file, bytes).expect("the picture is written");
        file
    }

    /// What the accessibility checker finds in the page as it stands: one line for each rule and
    /// place. Only in tests with `axe` in their name.
    pub async fn axe(&self) -> Vec<String> {
        // Half a megabyte that stays in the document.
        if self.eval("typeof axe").await != "object" {
            let file = given("FOOTROOM_AXE");
            let script = std::fs::read_to_string(&file).expect("the accessibility checker");
            self.driver
                .execute(script, Vec::new())
                .await
                .expect("the accessibility checker starts");
        }
        let found = self
            .eval(
                "(await axe.run()).violations.flatMap((rule) => rule.nodes.map((node) => \
                 `${rule.id} (${rule.impact}): ${node.target.join(' ')}: ${rule.help}`))",
            )
            .await;
        let lines = found.as_array().expect("a list of findings");
        lines
            .iter()
            .map(|line| line.as_str().unwrap_or_default().to_owned())
            .collect()
    }

    /// Chromium: makes the processor `times` slower; 1 is its own speed.
    pub async fn slow_down(&self, times: f64) {
        self.driver
            .cdp()
            .send_raw("Emulation.setCPUThrottlingRate", json!({ "rate": times }))
            .await
            .expect("a slower processor");
    }

    /// Chromium: a network as a phone's, latency in ms and bytes a second; nothing is kept of earlier
    /// visits. `None`: the machine's own.
    pub async fn network(&self, slow: Option<(f64, f64)>) {
        let (latency_ms, bytes_per_s) = slow.unwrap_or((0.0, -1.0));
        let cdp = self.driver.cdp();
        for (command, with) in [
            ("Network.enable", json!({})),
            (
                "Network.setCacheDisabled",
                json!({ "cacheDisabled": slow.is_some() }),
            ),
            (
                "Network.setBypassServiceWorker",
                json!({ "bypass": slow.is_some() }),
            ),
            (
                "Network.emulateNetworkConditions",
                json!({ "offline": false, "latency": latency_ms,
                    "downloadThroughput": bytes_per_s, "uploadThroughput": bytes_per_s }),
            ),
        ] {
            cdp.send_raw(command, with).await.expect("another network");
        }
    }

    /// Errors whose text holds `part` belong to this test and do not fail it.
    pub fn allow_error(&self, part: &str) {
        locked(&self.allowed).push(part.to_owned());
    }

    /// The errors so far, without the allowed ones.
    pub async fn errors(&self) -> Vec<String> {
        self.all_entries_have_come().await;
        let mut errors: Vec<String> = self
            .entries()
            .into_iter()
            .filter(|entry| entry.error)
            .map(|entry| entry.text)
            .collect();
        if self.engine == Engine::Chromium {
            // What never reaches the console's entries: files that were not found. Reading this log
            // empties it, so what was read is kept with the entries.
            let log = self.driver.browser_log().await.expect("the browser's log");
            for entry in log.into_iter().filter(|entry| entry.level == "SEVERE") {
                errors.push(entry.message.clone());
                locked(&self.log).push(Entry {
                    error: true,
                    text: entry.message,
                });
            }
        }
        let allowed = locked(&self.allowed);
        errors.retain(|text| !allowed.iter().any(|part| text.contains(part)));
        errors
    }

    fn entries(&self) -> Vec<Entry> {
        locked(&self.log).clone()
    }

    /// Waits for an error whose text holds `part`; false when none comes in time.
    pub async fn sees_error(&self, part: &str) -> bool {
        let start = Instant::now();
        loop {
            if self.errors().await.iter().any(|text| text.contains(part)) {
                return true;
            }
            if start.elapsed() > WAIT_LIMIT {
                return false;
            }
            tokio::time::sleep(WAIT_STEP).await;
        }
    }

    async fn check_errors(&self) {
        let errors = self.errors().await;
        assert!(
            errors.is_empty(),
            "the page left errors:\n  {}",
            errors.join("\n  ")
        );
    }

    /// Entries come in their order, but later than what caused them: writes one and waits for it.
    async fn all_entries_have_come(&self) {
        if self.channel.is_none() {
            return self.take_errors().await;
        }
        locked(&self.log).retain(|entry| entry.text != END_MARK);
        self.eval(&format!("console.info({END_MARK:?})")).await;
        let start = Instant::now();
        while !self.entries().iter().any(|entry| entry.text == END_MARK) {
            assert!(
                start.elapsed() < WAIT_LIMIT,
                "the console's entries do not come"
            );
            tokio::time::sleep(WAIT_STEP).await;
        }
    }

    /// After a failure: a picture and the console. What cannot be had any more is left out, so that
    /// the failure itself stays the news.
    async fn keep_evidence(&self) {
        let name = std::thread::current()
            .name()
            .unwrap_or("test")
            .replace("::", "-");
        let picture = AssertUnwindSafe(self.picture(&format!("failed-{name}"), false))
            .catch_unwind()
            .await;
        if let Ok(file) = picture {
            eprintln!("picture: {}", file.display());
        }
        for entry in self.entries() {
            if entry.text == END_MARK {
                continue;
            }
            let kind = if entry.error { "error" } else { "entry" };
            eprintln!("console {kind}: {}", entry.text);
        }
    }
}

/// What the driver is to start.
fn capabilities(engine: Engine, setup: Setup) -> Capabilities {
    let program = given("FOOTROOM_BROWSER_PROGRAM");
    let mut capabilities = Capabilities::new();
    let mut set = |name: &str, value: Value| {
        capabilities
            .set(name, value)
            .expect("a capability is plain JSON");
    };
    if engine != Engine::WebKit {
        set("webSocketUrl", json!(true));
    }
    match engine {
        Engine::Chromium => {
            // Painted by the processor at once: without a graphics processor to drive, what stands in for
            // one takes a fifth of the time of all tests.
            let mut args = vec![
                "--headless=new",
                "--disable-dev-shm-usage",
                "--disable-gpu",
                "--disable-gpu-rasterization",
            ];
            if given("FOOTROOM_NO_SANDBOX") == "1" {
                args.push("--no-sandbox");
            }
            set("browserName", json!("chrome"));
            set("goog:loggingPrefs", json!({ "browser": "ALL" }));
            set(
                "goog:chromeOptions",
                json!({
                    "binary": program,
                    "args": args,
                    "prefs": { "intl.accept_languages": setup.language },
                }),
            );
        }
        Engine::Firefox => {
            set("browserName", json!("firefox"));
            set(
                "moz:firefoxOptions",
                json!({
                    "binary": program,
                    "args": ["-headless"],
                    "prefs": {
                        "intl.accept_languages": setup.language,
                        "ui.systemUsesDarkTheme": u8::from(setup.dark),
                        "ui.prefersReducedMotion": u8::from(setup.reduced_motion),
                        "browser.display.document_color_use":
                            if setup.forced_colors { 2 } else { 0 },
                    },
                }),
            );
        }
        Engine::WebKit => {
            assert!(
                !(setup.forced_colors || setup.reduced_motion),
                "the rig has no such setting for WebKit"
            );
            // Of the languages of the C library, these are there without being installed; what has no
            // country is not of the United States.
            let language = match setup.language {
                "en-GB" => "C.UTF-8",
                "en-US" => "C",
                other => panic!("the rig does not set the language {other} in WebKit"),
            };
            let mut args = vec![
                format!("LC_ALL={language}"),
                "GDK_BACKEND=x11".to_owned(),
                format!("GDK_SCALE={}", setup.scale),
                program,
                "--automation".to_owned(),
            ];
            if setup.dark {
                args.push("--dark-mode".to_owned());
            }
            set("browserName", json!("MiniBrowser"));
            set(
                "webkitgtk:browserOptions",
                json!({ "binary": "/usr/bin/env", "args": args }),
            );
        }
    }
    capabilities
}

/// A server of the page of its own, for tests that take it away: stop it, reload, and what still
/// shows has come from the service worker.
pub struct Server {
    child: Child,
    address: String,
}

impl Server {
    /// Starts it on a free port.
    pub fn start() -> Self {
        let mut command = Command::new(given("FOOTROOM_XTASK"));
        let mut child = command
            .args(given("FOOTROOM_SERVE").split(' '))
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the server starts");
        let mut address = String::new();
        if let Some(stdout) = child.stdout.take() {
            BufReader::new(stdout)
                .read_line(&mut address)
                .expect("the server's address");
        }
        assert!(address.starts_with("http://"), "the server did not start");
        Server {
            child,
            address: address.trim().to_owned(),
        }
    }

    /// The page's address there, with the slash at its end.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Takes it away.
    pub fn stop(self) {
        drop(self);
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // It fails only when the process has ended already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
