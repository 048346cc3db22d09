//! The views that help to decide: what fits, why two cases differ, layouts side by side.

use std::io::Write as _;

use crate::rig::{self, Page, Setup};

/// Opens a view and waits for what it makes.
async fn unfold(page: &Page, id: &str, ready: &str) {
    page.view(id).await;
    wait_long(page, ready).await;
}

async fn wait_long(page: &Page, condition: &str) {
    page.wait_long(condition).await;
}

/// Sets a field that may be folded away.
async fn set_field(page: &Page, selector: &str, text: &str) {
    page.eval(&format!(
        "(() => {{ const f = document.querySelector('{selector}'); f.value = '{text}'; \
         f.dispatchEvent(new Event('change', {{ bubbles: true }})); }})()"
    ))
    .await;
}

async fn say_in_spanish(page: &Page) {
    page.eval(
        "(() => { const s = document.querySelector('#language'); s.value = 'es'; \
         s.dispatchEvent(new Event('change', { bubbles: true })); })()",
    )
    .await;
    page.wait_for("document.documentElement.lang === 'es'")
        .await;
}

async fn no_findings(page: &Page, what: &str) {
    let found = page.axe().await;
    assert!(found.is_empty(), "{what}:\n  {}", found.join("\n  "));
}

/// The demonstration with six on the line, its searches in sight.
async fn open_search(page: &Page) {
    page.open_ready("").await;
    unfold(
        page,
        "search",
        "document.querySelector('#search-delay').disabled === false",
    )
    .await;
    set_field(page, "[name=\"workers.count\"]", "6").await;
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_search_shows_how_far_it_is_and_can_be_stopped() {
    rig::in_browser(Setup::default(), async |page| {
        open_search(page).await;
        // In one go, so that the driver's messages do not take as long as the search.
        let seen = page
            .eval(
                "await (async () => { \
                 const of = (id) => document.querySelector(`#search-${id}`); \
                 const wait = (ms) => new Promise((turn) => setTimeout(turn, ms)); \
                 of('delay').click(); \
                 const begun = { shown: !of('run').hidden, step: of('step').textContent }; \
                 while (!(of('progress').value > 0)) await wait(1); \
                 const { value, max } = of('progress'); \
                 const step = of('step').textContent; \
                 of('stop').click(); \
                 const said = of('result').textContent; \
                 await wait(1500); \
                 return { begun, value, max, step, said, run: of('run').hidden, \
                   later: of('result').textContent, load: of('load').hidden }; })()",
            )
            .await;
        assert_eq!(seen["begun"]["shown"], true, "{seen}");
        let (made, of) = (&seen["value"], &seen["max"]);
        assert!(made.as_f64() >= Some(1.0) && of.as_f64() > made.as_f64());
        assert_eq!(seen["step"], format!("Searching: step {made} of {of}."));
        let said = seen["said"].as_str().expect("a sentence");
        assert!(said.starts_with("Stopped before the end"), "{said}");
        // Nothing comes after it.
        assert_eq!(seen["later"], seen["said"]);
        assert_eq!((&seen["run"], &seen["load"]), (&true.into(), &true.into()));
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_a_search_that_was_stopped() {
    rig::in_browser(Setup::default(), async |page| {
        open_search(page).await;
        page.eval("document.querySelector('#search-delay').click()")
            .await;
        page.wait_for("document.querySelector('#search-progress').value > 0")
            .await;
        no_findings(page, "search").await;
        page.eval("document.querySelector('#search-stop').click()")
            .await;
        page.wait_for("document.querySelector('#search-run').hidden")
            .await;
        no_findings(page, "search").await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn six_users_are_told_their_worst_timing_and_can_load_it_at_length() {
    rig::in_browser(Setup::default(), async |page| {
        open_search(page).await;
        let before = page.text("#answer-number").await;
        for what in ["delay", "places"] {
            page.eval(&format!("document.querySelector('#search-{what}').click()"))
                .await;
            wait_long(
                page,
                "document.querySelector('#search-run').hidden \
                 && document.querySelector('#search-result').textContent",
            )
            .await;
            let said = page.text("#search-result").await;
            assert!(said.starts_with("Worst found: "), "{said}");
            // What the page shows is what the found case is compared with.
            assert!(said.contains(&format!("as entered: {before}")), "{said}");
        }
        page.shot("search", false).await;
        let said = page.text("#search-result").await;
        page.eval("document.querySelector('#search-load').click()")
            .await;
        page.wait_for("document.querySelector('#search-load').hidden")
            .await;
        let number = page.text("#answer-number").await;
        let word = page.text("#answer-word").await;
        let told = if word.starts_with("short") {
            format!("short by {number}")
        } else {
            format!("{number} to spare")
        };
        assert!(said.contains(&told), "{told}: {said}");
    });
}

/// No layout is waited for.
const SOLVED: &str = "(document.querySelector('#layouts-link')?.disabled === false \
    && !document.querySelector('.compare__layout[data-looking]'))";
const MAP_WHOLE: &str = "document.querySelector('.map')?.dataset.state === 'whole'";
const FIT_WHOLE: &str = "document.querySelector('.map')?.dataset.state === 'whole' \
    && document.querySelector('.fit__suggestions')?.dataset.state === 'whole' \
    && [...document.querySelectorAll('.ask')].every((a) => a.dataset.state === 'whole')";

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_cell_of_the_map_is_loaded_and_says_the_answer() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "fit", MAP_WHOLE).await;
        let map = page
            .eval("[...document.querySelectorAll('.map tbody tr')].map((r) => r.cells.length)")
            .await;
        assert_eq!(map.as_array().map(Vec::len), Some(8));
        let cell = "document.querySelector('.map tbody').rows[2].cells[2]";
        let said = page
            .eval(&format!("{cell}.querySelector('.map__number').textContent"))
            .await;
        page.eval(&format!("{cell}.querySelector('button').click()"))
            .await;
        page.wait_for("document.querySelector('#in-workers-count').value === '2'")
            .await;
        // Number and unit stay in one line of a cell.
        let said = said.as_str().map(|text| text.replace('\u{a0}', " "));
        assert_eq!(Some(page.text("#answer-number").await), said);
        // The cell of the loaded case is now marked as the present one.
        page.wait_for(&format!(
            "{MAP_WHOLE} && {cell}.classList.contains('map__cell--present')"
        ))
        .await;
        page.click("#undo").await;
        page.wait_for("document.querySelector('#in-workers-count').value === '3'")
            .await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_suggestion_makes_the_case_fit() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        // What is parked below grows: it does not fit any more.
        page.type_into("#in-site-below-0-height_m", "3.6").await;
        page.wait_for("document.querySelector('#answer').dataset.kind === 'short'")
            .await;
        set_field(page, "#in-strengths-required_ratio", "1").await;
        unfold(page, "fit", FIT_WHOLE).await;
        page.shot("fit-short", false).await;
        page.eval("document.querySelector('.fit__changes button').click()")
            .await;
        page.wait_for("document.querySelector('#answer').dataset.kind === 'spare'")
            .await;
        page.wait_for("!document.querySelector('.fit__changes')")
            .await;
        page.click("#undo").await;
        page.wait_for("document.querySelector('#answer').dataset.kind === 'short'")
            .await;
    });
}

/// The example is too weak: what its rope would need stands there with what it gives here, anywhere and
/// in strength, after steps that were told; applied, it holds. What has no rating is named with it.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_line_that_is_too_weak_is_told_what_would_do_at_length() {
    for setup in [Setup::default(), Setup::phone()] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            page.eval(
                "void (() => { window.steps = new Set(); const tick = () => { \
                 const step = document.querySelector('.fit__step'); \
                 if (step) window.steps.add(step.textContent); requestAnimationFrame(tick); }; \
                 tick(); })()",
            )
            .await;
            unfold(page, "fit", FIT_WHOLE).await;
            let steps = page.eval("[...window.steps]").await;
            let steps = steps.as_array().expect("a list").len();
            assert!(steps > 2, "{steps} steps were told");
            let rows = page
                .eval(
                    "[...document.querySelectorAll('.fit__row')].map((r) => \
                     [...r.cells].map((c) => c.textContent))",
                )
                .await;
            let first: Vec<&str> = (rows[0].as_array().expect("a row").iter())
                .map(|cell| cell.as_str().expect("a text"))
                .collect();
            assert!(first[0].starts_with("rope breaking strength "), "{first:?}");
            assert!(first[0].contains(" kN or more"), "{first:?}");
            assert_eq!(first[1], first[1].replace("short", ""));
            assert!(first[1].contains("to spare") && first[2].contains("to spare"));
            assert_eq!(first[3].split(" of ").nth(1), Some("2.00"), "{first:?}");
            let ratings = page.text(".fit__ratings").await;
            assert!(ratings.contains("enter the rated strength"), "{ratings}");
            page.eval("document.querySelector('#fit .fit__part').scrollIntoView()")
                .await;
            page.shot("fit-weak", false).await;
            page.eval("document.querySelector('.fit__changes button').click()")
                .await;
            wait_long(
                page,
                &format!("{FIT_WHOLE} && !document.querySelector('.fit__changes')"),
            )
            .await;
            let verdict = page.text(".fit__verdict").await;
            assert!(!verdict.contains("does not fit"), "{verdict}");
        });
    }
}

/// An answer begins with the case that is shown, and the map's cell of it says why it is not the answer.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn questions_and_map_start_from_the_case_that_is_shown_at_length() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "fit", FIT_WHOLE).await;
        let why = page.text(".fit__why").await;
        let number = page.text("#answer-number").await;
        assert!(why.starts_with("This case: the map puts the crew"), "{why}");
        assert!(
            why.replace('\u{a0}', " ").contains(&number),
            "{why} {number}"
        );
        let present = "document.querySelector('.ask__present').textContent";
        let said = page.eval(present).await;
        let said = said.as_str().expect("a text").to_owned();
        assert!(
            said.starts_with("This case, 9.00 m, does not fit: "),
            "{said}"
        );
        set_field(page, "#in-line-spans_m", "6 + 6 + 6").await;
        wait_long(
            page,
            &format!("{FIT_WHOLE} && {present}.startsWith('This case, 6.00 m, fits')"),
        )
        .await;
        // First what ends the range around it.
        let reason = page
            .eval("document.querySelector('.ask__reason').textContent")
            .await;
        let reason = reason.as_str().expect("a text");
        assert!(reason.starts_with("At ") || reason.starts_with("It fits all the way"));
        page.eval("document.querySelector('.ask').scrollIntoView()")
            .await;
        page.shot("fit-questions", false).await;
    });
}

/// Counts who works and what the visitor sees meanwhile: answers of the workers, cells that the page
/// computed itself, frames, and how many cells had come with each of them.
const WATCH_MAP: &str = "await (async () => { \
    let background; while (!(background = performance.getEntriesByType('resource') \
    .map(({ name }) => name).find((name) => /\\/background(-[0-9a-f]{10})?\\.js$/.test(name)))) \
    await new Promise((next) => setTimeout(next, 20)); \
    const [planner] = /pkg\\/planner(-[0-9a-f]{10})?\\.js/.exec(await (await fetch(background)).text()); \
    const { Planner } = await import(new URL(`../${planner}`, background)); const own = Planner.prototype.map_cell; \
    Planner.prototype.map_cell = function (...all) { window.seen.own += 1; \
    return own.apply(this, all); }; \
    const tick = () => { const map = document.querySelector('.map'); \
    if (map?.dataset.started && !map.dataset.whole) { \
    if (window.seen.run !== map.dataset.started) Object.assign(window.seen, \
    { run: map.dataset.started, frames: 0, filled: [] }); window.seen.frames += 1; \
    const filled = map.querySelectorAll('.map__cell[data-kind]').length; \
    if (filled !== window.seen.filled.at(-1)) window.seen.filled.push(filled); } \
    requestAnimationFrame(tick); }; requestAnimationFrame(tick); return planner; })()";

/// Counts the cells that workers give: before the page starts any.
const WATCH_WORKERS: &str = "() => { window.seen = { answers: 0, own: 0 }; \
    const Plain = window.Worker; \
    window.Worker = class extends Plain { constructor(...all) { super(...all); \
    this.addEventListener('message', ({ data }) => { if (data.value?.kind) window.seen.answers += 1; }); } }; }";

/// The page goes on while the map is made: it computes no cell itself, each comes on its own, and
/// frames are painted between the first and the last. (How long they take would tell who else is at
/// work on the machine; a page that computed the map itself shows one frame, when all is over.)
async fn was_left_free(page: &Page, when: &str, answers_before: u64) -> u64 {
    let seen = page.eval("window.seen").await;
    // Reported whether the test passes or not.
    let _ = writeln!(std::io::stderr(), "{when}: {seen}");
    assert_eq!(seen["own"], 0, "{when}: the page computed cells");
    let answers = seen["answers"].as_u64().expect("a count") - answers_before;
    assert!(answers >= 2 * CELLS_ALL, "{when}: {answers} answers");
    assert!(
        seen["frames"].as_u64() >= Some(FRAMES_LEAST),
        "{when}: {seen}"
    );
    answers + answers_before
}

/// Cells of the map: six users by eight numbers of posts.
const CELLS_ALL: u64 = 48;
/// Frames while a map is made: it takes some ten times as long as a frame, on a busy machine too, as
/// both share it.
const FRAMES_LEAST: u64 = 3;

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_map_comes_cell_by_cell_and_leaves_the_page_free() {
    rig::in_browser(Setup::default(), async |page| {
        page.prepare_documents(WATCH_WORKERS).await;
        page.open_ready("").await;
        page.eval(WATCH_MAP).await;
        unfold(page, "fit", MAP_WHOLE).await;
        let answers = was_left_free(page, "at first", 0).await;
        // Inputs that change meanwhile: only the last map stands in the end.
        set_field(page, "#in-workers-count", "2").await;
        set_field(page, "#in-workers-count", "1").await;
        page.wait_for(
            "document.querySelector('.map')?.dataset.state === 'whole' && document.querySelector\
             ('.map tbody').rows[1].cells[1].classList.contains('map__cell--present')",
        )
        .await;
        was_left_free(page, "with warm workers", answers).await;
    });
}

/// What every cell says.
const CELLS: &str = "[...document.querySelectorAll('.map__load')].map((b) => b.textContent)";

/// Looks at the map each time it is begun anew, before anything else can happen on the page, and at
/// every number that is put into it from then on.
const WATCH_CELLS: &str = "void (() => { window.left = []; window.put = []; \
    const map = document.querySelector('.map'); \
    const number = (cell) => cell.querySelector('.map__number').textContent; \
    new MutationObserver(() => { window.put = []; \
    const cells = [...map.querySelectorAll('.map__cell')]; \
    window.left.push(cells.filter((cell) => cell.dataset.kind || number(cell) !== '…').length); }) \
    .observe(map, { attributes: true, attributeFilter: ['data-started'] }); \
    new MutationObserver((all) => { for (const { target } of all) { \
    const cell = target.parentElement?.closest('.map__number') && target.parentElement.closest('td'); \
    if (cell?.dataset.kind) window.put.push([cell.parentElement.rowIndex, cell.cellIndex, \
    target.data]); } }).observe(map, { characterData: true, subtree: true }); })()";

/// The cells into which a number was put that is off by more than half the change of the margin from
/// what stands there now, and how many numbers were looked at.
const ODD_CELLS: &str = "(() => { const map = document.querySelector('.map'); const odd = []; \
    let looked = 0; for (const [row, column, text] of window.put) { \
    const stands = map.rows[row].cells[column].querySelector('.map__number').textContent; \
    const [was, is] = [parseFloat(text), parseFloat(stands)]; \
    if (Number.isNaN(was) || Number.isNaN(is)) continue; looked += 1; \
    if (Math.abs(was - is) > 0.7) odd.push([row, column, text, stands]); } \
    return { odd, looked }; })()";

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn no_cell_of_another_case_stays_in_the_map_at_length() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "fit", MAP_WHOLE).await;
        let before = page.eval(CELLS).await;
        page.eval(WATCH_CELLS).await;
        // In the same turn as the change nothing is left, and what was under way is not put in. All
        // footrooms move with the margin, and the two assessments of a cell differ by less.
        for margin in ["2.5", "4", "0.9"] {
            set_field(page, "#in-site-margin_m", margin).await;
        }
        page.wait_for(MAP_WHOLE).await;
        assert_eq!(page.eval("window.left").await, serde_json::json!([0, 0, 0]));
        let put = page.eval(ODD_CELLS).await;
        assert_eq!(put["odd"], serde_json::json!([]), "of another case");
        assert!(put["looked"].as_u64() >= Some(CELLS_ALL / 2), "{put}");
        let changed = page.eval(CELLS).await;
        page.reload().await;
        page.wait_ready().await;
        unfold(page, "fit", MAP_WHOLE).await;
        assert_eq!(page.eval(CELLS).await, changed, "not as computed afresh");
        assert_ne!(changed, before);
    });
}

/// One worker whose program cannot be had, and from then on none at all: the page works itself.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_map_comes_without_workers() {
    rig::in_browser(Setup::default(), async |page| {
        // Before the page starts some itself.
        page.prepare_documents(
            "() => { window.asked = 0; window.Worker = function () { window.asked += 1; \
             if (window.asked > 1) throw new Error('no worker'); \
             const lost = new EventTarget(); lost.postMessage = lost.terminate = () => {}; \
             setTimeout(() => lost.dispatchEvent(new Event('error'))); return lost; }; }",
        )
        .await;
        page.open_ready("").await;
        unfold(page, "fit", MAP_WHOLE).await;
        assert!(page.eval("window.asked").await.as_u64() > Some(1));
        let kinds = page
            .eval("document.querySelectorAll('.map__cell[data-kind]').length")
            .await;
        assert_eq!(kinds, 48);
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_what_fits() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "fit", FIT_WHOLE).await;
        page.shot("fit", false).await;
        no_findings(page, "fit").await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn the_map_prints_on_one_page_chromium_only() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "fit", MAP_WHOLE).await;
        // As the command does before it opens the browser's dialogue.
        page.eval("void (document.documentElement.dataset.print = 'fit')")
            .await;
        let pdf = page
            .driver
            .print_page(thirtyfour::common::print::PrintParameters::default())
            .await
            .expect("a PDF");
        let shots = std::env::var("FOOTROOM_SHOTS").expect("the folder of the pictures");
        std::fs::write(std::path::Path::new(&shots).join("fit.pdf"), &pdf).expect("written");
        let text = String::from_utf8_lossy(&pdf);
        let pages = text.matches("/Type /Page\n").count();
        assert_eq!(pages, 1, "pages");
    });
}

const WHY_WHOLE: &str = "document.querySelector('.why')?.dataset.state === 'whole'";

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn a_kept_case_is_compared_with_the_changed_one() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "why", WHY_WHOLE).await;
        page.wait_for("document.querySelectorAll('.why__step').length === 4")
            .await;
        let last = "[...document.querySelectorAll('.why__amount')].at(-1).textContent";
        let said = page.eval(last).await;
        assert_eq!(
            Some(page.text("#answer-number").await.as_str()),
            said.as_str()
        );
        page.eval("document.querySelector('#why-keep').click()")
            .await;
        set_field(page, "#in-line-pretension_n", "6").await;
        // One input, and what small differences within the crew make of it.
        page.wait_for("document.querySelectorAll('.why__step').length === 4")
            .await;
        page.wait_for(&format!(
            "{last} === document.querySelector('#answer-number').textContent"
        ))
        .await;
        // It is kept over a new visit.
        page.reload().await;
        page.wait_ready().await;
        unfold(page, "why", WHY_WHOLE).await;
        page.eval("document.querySelector('#why-load').click()")
            .await;
        page.wait_for("document.querySelector('#in-line-pretension_n').value === '4.4'")
            .await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_why() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "why", WHY_WHOLE).await;
        no_findings(page, "why").await;
        say_in_spanish(page).await;
        page.wait_for(WHY_WHOLE).await;
        no_findings(page, "why, Spanish").await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn layouts_travel_in_one_link() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "compare", "document.querySelector('#layout-add')").await;
        for (i, (field, text)) in [
            ("#in-workers-count", "3"),
            ("#in-line-spans_m", "18"),
            ("#in-workers-count", "2"),
            ("#in-line-pretension_n", "6.2"),
        ]
        .into_iter()
        .enumerate()
        {
            set_field(page, field, text).await;
            set_field(page, "#layout-name", &format!("layout {}", i + 1)).await;
            page.eval("document.querySelector('#layout-add').click()")
                .await;
            page.wait_for(&format!(
                "document.querySelectorAll('.compare__layout').length === {}",
                i + 1
            ))
            .await;
        }
        page.wait_for(&format!(
            "document.querySelector('#layout-add').disabled && {SOLVED}"
        ))
        .await;
        let figures = page.text(".compare__table").await;
        page.eval("document.querySelector('#layouts-link').click()")
            .await;
        page.wait_for("document.querySelector('.compare__status').dataset.link")
            .await;
        let address = page
            .eval("document.querySelector('.compare__status').dataset.link")
            .await;
        let address = address.as_str().expect("a link").to_owned();
        let (_, set) = address.split_once('#').expect("a fragment");
        eprintln!(
            "the link to four layouts has {} characters, its fragment {}",
            address.len(),
            set.len()
        );
        assert!(address.len() < 2_000, "{} characters", address.len());
        page.shot("compare", false).await;

        // Opened in a page that keeps nothing yet, it shows the same figures.
        page.eval("localStorage.clear()").await;
        page.go("about:blank").await;
        page.open_ready(&format!("#{set}")).await;
        page.wait_for(&format!(
            "document.querySelectorAll('.compare__layout').length === 4 && {SOLVED}"
        ))
        .await;
        page.shot("compare-linked", false).await;
        assert_eq!(page.text(".compare__table").await, figures);
        // The case on the page is the first of them, and the address keeps them all.
        let first = page
            .eval("document.querySelector('#in-line-spans_m').value")
            .await;
        assert_eq!(first, "9.00 + 9.00");
        page.wait_for("location.hash.startsWith('#c3.')").await;
        // Loaded, a layout is the case on the page.
        page.eval("document.querySelector('#layout-load-1').click()")
            .await;
        page.wait_for("document.querySelector('#in-line-spans_m').value === '18.00'")
            .await;
        // A visitor's own set takes over when it is asked for.
        page.eval("document.querySelector('#layouts-own').click()")
            .await;
        page.wait_for("!document.querySelector('.compare__layout')")
            .await;
    });
}

/// What is too long for a link is said, and goes as a file.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn layouts_too_long_for_a_link_go_as_a_file_at_length() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "compare", "document.querySelector('#layout-add')").await;
        for users in ["3", "2"] {
            set_field(page, "#in-workers-count", users).await;
            page.eval("document.querySelector('#layout-add').click()")
                .await;
        }
        page.wait_for(&format!(
            "document.querySelectorAll('.compare__layout').length === 2 && {SOLVED}"
        ))
        .await;
        let figures = page.text(".compare__table").await;
        // The page's own address takes the room.
        page.eval("history.replaceState(null, '', `?${'x'.repeat(1900)}${location.hash}`)")
            .await;
        page.eval("document.querySelector('#layouts-link').click()")
            .await;
        page.wait_for(
            "document.querySelector('.compare__status').textContent.includes('as a file')",
        )
        .await;
        let link = page
            .eval("document.querySelector('.compare__status').dataset.link ?? null")
            .await;
        assert_eq!(link, serde_json::Value::Null);
        assert_eq!(page.eval("document.activeElement.id").await, "layouts-file");
        page.eval(
            "(() => { const make = URL.createObjectURL; URL.createObjectURL = (blob) => { \
             void blob.text().then((text) => { window.saved = text; }); return make.call(URL, blob); }; \
             document.querySelector('#layouts-file').click(); })()",
        )
        .await;
        page.wait_for("window.saved?.startsWith('c3.')").await;
        page.shot("compare-too-long", false).await;
        // Opened where nothing is kept, it shows the same.
        for _ in 0..2 {
            page.eval("document.querySelector('#layout-remove-0').click()")
                .await;
        }
        page.wait_for("!document.querySelector('.compare__layout')")
            .await;
        page.eval(
            "(() => { const data = new DataTransfer(); \
             data.items.add(new File([window.saved], 'layouts.txt', { type: 'text/plain' })); \
             document.body.dispatchEvent(new DragEvent('drop', \
             { dataTransfer: data, bubbles: true, cancelable: true })); })()",
        )
        .await;
        page.wait_for(&format!(
            "document.querySelectorAll('.compare__layout').length === 2 && {SOLVED}"
        ))
        .await;
        assert_eq!(page.text(".compare__table").await, figures);
    });
}

/// Layouts are solved beside the page; what is changed meanwhile does not mix them up.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn layouts_are_solved_beside_the_page() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        // Counts what the workers are asked for, and holds their answers back.
        page.eval(
            "(() => { window.asked = 0; window.held = []; window.hold = true; \
             const post = Worker.prototype.postMessage; \
             Worker.prototype.postMessage = function (message, ...rest) { \
             if (message.task?.method === 'layout') window.asked += 1; \
             if (window.hold) window.held.push(() => post.call(this, message, ...rest)); \
             else post.call(this, message, ...rest); }; })()",
        )
        .await;
        unfold(page, "compare", "document.querySelector('#layout-add')").await;
        for users in ["3", "2", "1"] {
            set_field(page, "#in-workers-count", users).await;
            page.eval("document.querySelector('#layout-add').click()")
                .await;
        }
        page.wait_for("document.querySelectorAll('.compare__footroom--waiting').length === 3")
            .await;
        // Nothing is given away before its figures are there.
        page.wait_for("document.querySelector('#layouts-link').disabled && window.held.length")
            .await;
        assert_eq!(
            page.eval("localStorage.getItem('footroom.layouts')").await,
            serde_json::Value::Null
        );
        // The first goes while it is being solved: the others keep their own figures.
        page.eval("document.querySelector('#layout-remove-0').click()")
            .await;
        page.eval("(() => { window.hold = false; for (const go of window.held) go(); })()")
            .await;
        wait_long(page, SOLVED).await;
        let users = page
            .eval(
                "[...document.querySelector('.compare__table').tBodies[0].rows[4].cells]\
                   .map((c) => c.textContent)",
            )
            .await;
        assert_eq!(users, serde_json::json!(["users", "2", "1"]));
        let shown = page.text("#answer-number").await;
        let figures = page
            .text(".compare__layout:last-child .compare__footroom")
            .await;
        assert!(figures.contains(&shown), "{figures} and {shown}");
        assert!(page.eval("window.asked").await.as_f64() >= Some(3.0));
        page.wait_for("localStorage.getItem('footroom.layouts')")
            .await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn layouts_without_storage_and_damaged_ones_are_said_plainly() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval("void localStorage.setItem('footroom.layouts', 'c1.broken')")
            .await;
        page.eval("void (Storage.prototype.setItem = () => { throw new Error('full'); })")
            .await;
        unfold(page, "compare", "document.querySelector('#layout-add')").await;
        page.wait_for("document.querySelector('.compare__status p')")
            .await;
        let damaged = page.text(".compare__status").await;
        assert!(damaged.contains("cannot be read"), "{damaged}");
        page.eval("document.querySelector('#layout-add').click()")
            .await;
        page.wait_for("document.querySelectorAll('.compare__layout').length === 1")
            .await;
        page.wait_for(
            "document.querySelector('.compare__status').textContent.includes('stores nothing')",
        )
        .await;
        page.eval("void (location.hash = '#c3.AAAA')").await;
        page.wait_for("!document.querySelector('#refused').hidden")
            .await;
        assert!(!page.text("#refused-why").await.is_empty());
        // The set of this visit is not lost with it, though nothing of it could be stored.
        page.wait_for("document.querySelectorAll('.compare__layout').length === 1")
            .await;
    });
}

/// The steps from one layout to another stand there.
const SPLIT: &str = "document.querySelector('#compare .why')?.dataset.state === 'whole' \
    && document.querySelectorAll('#compare .why__step').length > 2";

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn two_layouts_say_why_they_differ() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "compare", "document.querySelector('#layout-add')").await;
        for spans in ["9 + 9", "18", "6 + 6 + 6"] {
            set_field(page, "#in-line-spans_m", spans).await;
            set_field(page, "#layout-name", "beam").await;
            page.eval("document.querySelector('#layout-add').click()")
                .await;
        }
        wait_long(page, SPLIT).await;
        let ends = "(() => { const s = [...document.querySelectorAll('#compare .why__step')]; \
             return [s[0], s.at(-1)].map((e) => e.firstChild.textContent + ' ' \
             + e.querySelector('.why__amount').textContent); })()";
        let between = async |from: &str, to: &str| {
            let shown = format!(
                "{SPLIT} && {ends}[0].startsWith('{from} ') && {ends}[1].startsWith('{to} ')"
            );
            wait_long(page, &shown).await;
            page.eval(ends).await
        };
        let there = between("beam (1)", "beam (2)").await;
        let choose = async |end: &str, layout: &str| {
            set_field(page, &format!("#layouts-{end}"), layout).await;
        };
        // The same on both ends: they change places.
        choose("from", "1").await;
        let back = between("beam (2)", "beam (1)").await;
        assert_eq!((&there[0], &there[1]), (&back[1], &back[0]));
        choose("to", "2").await;
        between("beam (2)", "beam (3)").await;
        // The footrooms at the ends are those of the layouts.
        let shown = page.text(".compare__layouts").await;
        for end in there.as_array().expect("two ends") {
            let amount = end.as_str().and_then(|e| e.split(") ").nth(1));
            let amount = amount.expect("an amount").trim_start_matches('−');
            assert!(shown.contains(amount), "{amount}: {shown}");
        }
        page.eval("document.querySelector('#layout-remove-1').click()")
            .await;
        between("beam (1)", "beam (2)").await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_compare() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "compare", "document.querySelector('#layout-add')").await;
        for (name, users) in [("one", "1"), ("two", "2")] {
            set_field(page, "#in-workers-count", users).await;
            set_field(page, "#layout-name", name).await;
            page.eval("document.querySelector('#layout-add').click()")
                .await;
        }
        wait_long(page, &format!("{SOLVED} && {SPLIT}")).await;
        no_findings(page, "compare").await;
        say_in_spanish(page).await;
        no_findings(page, "compare, Spanish").await;
    });
}

const SWEEPS_WHOLE: &str = "document.querySelector('#sweeps .late').dataset.state === 'whole'";

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn charts_are_read_by_key_and_pointer() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "sweeps", SWEEPS_WHOLE).await;
        let read = "document.querySelector('.sweep__read').textContent";
        let answer = page.text("#answer-number").await;
        page.wait_for(&format!("{read}.includes('{answer}')")).await;
        page.eval("document.querySelector('.sweep__slider').focus()")
            .await;
        page.press(thirtyfour::Key::Right + "").await;
        page.wait_for(&format!("{read}.startsWith('4 users')"))
            .await;
        page.eval(
            "(() => { const c = document.querySelector('.sweep__sheet'); \
             const at = c.getBoundingClientRect(); c.dispatchEvent(new PointerEvent('pointermove', \
             { clientX: at.left + 1, clientY: at.top + 30, bubbles: true })); })()",
        )
        .await;
        page.wait_for(&format!("{read}.startsWith('1 user:')"))
            .await;
        let rows = page
            .eval(
                "[...document.querySelectorAll('#sweeps .twin table')].map((t) => t.tBodies[0]\
                 .rows.length)",
            )
            .await;
        assert_eq!(rows.as_array().map(Vec::len), Some(5));
        assert_eq!(rows[0], 6);
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn charts_against_time_are_read_by_pointer_and_key() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        page.eval("void (document.querySelector('#charts').open = true)")
            .await;
        let time = page.text("#now-time").await;
        // Number and unit stay in one line.
        let read = "document.querySelector('#read-tension').textContent.replaceAll('\\u00a0', ' ')";
        page.wait_for(&format!("{read}.startsWith('{time} · line tension: ')"))
            .await;
        // As the panel of the present instant says.
        let now = page.text("#now-rows").await;
        let said = page.eval(read).await.as_str().unwrap_or("").to_owned();
        let value = said
            .split("line tension: ")
            .nth(1)
            .and_then(|s| s.split(';').next());
        let value = value.unwrap_or_else(|| panic!("{said}"));
        assert!(now.contains(value), "{said} and {now}");
        assert!(said.contains("range with the tolerances"), "{said}");
        page.eval(
            "void (() => { const c = document.querySelector('#chart-tension'); \
             window.point = (type, part, buttons, pointerType = 'mouse') => { \
             const at = c.getBoundingClientRect(); c.setPointerCapture = () => {}; \
             c.dispatchEvent(new PointerEvent(type, { buttons, pointerType, \
             clientX: at.left + part * at.width, clientY: at.top + 90, bubbles: true })); }; })()",
        )
        .await;
        // Over the chart it is only read, and what is played stays where it is.
        page.eval("window.point('pointermove', 0, 0)").await;
        let there = page.eval(read).await;
        assert!(there.as_str().is_some_and(|s| s.starts_with("0.00 s · ")));
        assert_eq!(page.text("#now-time").await, time);
        page.eval("window.point('pointerleave', 0, 0)").await;
        assert_eq!(page.eval(read).await, said.as_str());
        // A finger that only passes moves nothing, one that taps does.
        page.eval(
            "(window.point('pointerdown', 0.5, 1, 'touch'), \
             window.point('pointercancel', 0.5, 0, 'touch'))",
        )
        .await;
        assert_eq!(page.text("#now-time").await, time);
        page.eval("window.point('click', 0, 0, 'touch')").await;
        page.wait_for("document.querySelector('#now-time').textContent === '0.00 s'")
            .await;
        // A press takes the fall there.
        page.eval("window.point('pointerdown', 1, 1)").await;
        page.wait_for("document.querySelector('#now-time').textContent === '6.00 s'")
            .await;
        page.eval("window.point('pointerleave', 1, 0)").await;
        page.eval("document.body.focus()").await;
        page.press(thirtyfour::Key::Left + "").await;
        page.wait_for(&format!(
            "{read}.startsWith(document.querySelector('#now-time').textContent + ' · ') \
             && !{read}.startsWith('6.00 s')"
        ))
        .await;
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_charts() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        unfold(page, "sweeps", SWEEPS_WHOLE).await;
        no_findings(page, "charts").await;
        say_in_spanish(page).await;
        wait_long(page, SWEEPS_WHOLE).await;
        no_findings(page, "charts, Spanish").await;
    });
}

/// Pictures of every view on every kind of screen, to be looked at.
#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn every_view_has_its_pictures_at_length() {
    rig::in_browser(Setup::default(), async |page| {
        page.open_ready("").await;
        let views = [
            ("fit", FIT_WHOLE),
            ("why", WHY_WHOLE),
            ("compare", "document.querySelector('#layout-add')"),
            ("sweeps", SWEEPS_WHOLE),
        ];
        for (size, name) in [
            ((1920, 1080), "wide"),
            ((1280, 720), "laptop"),
            ((390, 844), "phone"),
        ] {
            page.set_size(size, 1.0).await;
            if name == "phone" {
                say_in_spanish(page).await;
                page.eval(
                    "(() => { const s = document.querySelector('#units'); s.value = 'us'; \
                     s.dispatchEvent(new Event('change', { bubbles: true })); })()",
                )
                .await;
            }
            for (id, whole) in views {
                unfold(page, id, whole).await;
                if id == "compare" {
                    page.eval("document.querySelector('#layout-add').click()")
                        .await;
                    page.eval("document.querySelector('#compare').scrollIntoView()")
                        .await;
                }
                page.shot(&format!("{id}-{name}"), false).await;
                let over_px = page
                    .eval("document.documentElement.scrollWidth - innerWidth")
                    .await;
                assert!(
                    over_px.as_f64() <= Some(0.0),
                    "{id} is {over_px} px too wide"
                );
            }
        }
    });
}

#[test]
#[ignore = "needs a browser: cargo xtask test --page"]
fn axe_finds_nothing_in_checks_folded_or_not() {
    for setup in [Setup::default(), Setup::phone()] {
        rig::in_browser(setup, async |page| {
            page.open_ready("").await;
            unfold(page, "checks", "document.querySelector('#checks-fold')").await;
            // What is not met is seen at once, what is not evaluated is counted and named.
            let seen = "[...document.querySelectorAll('#checks-table tr')]\
                 .filter((r) => r.checkVisibility() && r.querySelector('.verdict')).length";
            let folded = page.eval(seen).await.as_u64().expect("a count");
            assert!(
                page.eval(
                    "[...document.querySelectorAll('#checks-table .verdict--does_not_meet')]\
                     .every((v) => v.checkVisibility())"
                )
                .await
                .as_bool()
                .expect("a truth")
            );
            no_findings(page, "checks, folded").await;
            page.eval("document.querySelector('#checks-fold').focus()")
                .await;
            page.press(thirtyfour::Key::Enter + "").await;
            page.wait_for(
                "document.querySelector('#checks-fold').getAttribute('aria-expanded') === 'true'",
            )
            .await;
            let all = page.eval(seen).await.as_u64().expect("a count");
            let open = page.text("#checks-fold").await;
            assert!(
                open.ends_with(&format!(" {}", all - folded)),
                "{open}: {folded}, {all}"
            );
            no_findings(page, "checks, unfolded").await;
            // A change keeps it open, and the page no wider than it is.
            set_field(page, "#in-site-margin_m", "0.9").await;
            assert_eq!(page.eval(seen).await.as_u64(), Some(all));
            let wider = "[document.documentElement, ...document.querySelectorAll('#checks-table')]\
                 .some((e) => e.scrollWidth > e.clientWidth)";
            assert_eq!(page.eval(wider).await, false);
        });
    }
}
