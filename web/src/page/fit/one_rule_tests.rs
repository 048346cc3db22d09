//! A case whose answer has no number has none in any view, and none calls it fitting.

use footroom_core::answer::Unknown;
use footroom_core::assess::assess;
use footroom_core::case::{Case, GearKind};
use footroom_core::demo::demo;
use footroom_core::fit::map::{Map, MapSpec, Rows};
use footroom_core::fit::{Effort, row};
use footroom_core::solve::Options;

use crate::first::answer::{DASH, Told};
use crate::first::view::FootroomKind;
use crate::page::compare::solved::Solved;
use crate::page::explain::guess;
use crate::page::explain::why;
use crate::page::fit::ask;
use crate::page::fit::search::{Running, Search};
use crate::page::fit::stop;
use crate::page::fit::suggest;
use crate::page::fit::sweep::{self, Across, Sweep};
use crate::page::plan::view::VerdictKind;
use crate::say::faults::Voice;

/// One case for each way to lose the number that inputs alone bring about, not a word of it left to
/// chance: the line would break, grows too steep, the time is over, a swing ends below the stack.
fn cases() -> [(Unknown, Case); 4] {
    let mut base = demo();
    base.workers.truncate(1);
    base.motion.duration_s = 2.0;
    base.site.beam_top_m = 20.0;
    base.site.below.clear();
    let mut breaks = base.clone();
    breaks.line.rope.breaking_force_n = Some(9.0e3);
    let mut steep = base.clone();
    steep.line.pretension_n = 2_000.0;
    steep.workers[0].position_m = 0.1;
    let mut soon = base.clone();
    soon.motion.duration_s = 0.7;
    let mut aside = base;
    aside.workers[0].gear.kind = GearKind::SelfRetracting;
    aside.workers[0].offset_along_m = 2.0;
    [
        (Unknown::LineBreaks, breaks),
        (Unknown::TooSteep, steep),
        (Unknown::NotFinished, soon),
        (Unknown::SwingsBelowStack, aside),
    ]
}

#[test]
fn an_unknown_is_unknown_in_every_view() {
    let voice = Voice::ALL[0];
    for (why, case) in cases() {
        let assessment = assess(&case, Options::default()).expect("no faults");
        assert_eq!(assessment.answer(), Err(why));
        let because = stop::unknown(voice, why);
        let told = Told::of(voice, &case, &assessment);
        let answer = told.answer();
        assert_eq!(
            (answer.kind, answer.number.as_str()),
            (FootroomKind::Unknown, DASH)
        );
        let stack = told.stack();
        let shown = |key| {
            stack
                .iter()
                .find(|r| r.key == key)
                .map(|r| r.value.as_str())
        };
        assert_eq!(
            (shown("footroom"), shown("required")),
            (Some(DASH), Some(DASH))
        );
        let rows = told.check_rows(&told.checks());
        assert!(rows.iter().all(|r| r.verdict_kind != VerdictKind::Meets));
        assert_eq!(guess::soles_m(&told), None);

        let suggested = suggest::suggested(voice, &case).expect("no faults");
        assert!(
            !suggested.fits && suggested.verdict.contains(because),
            "{suggested:?}"
        );
        let kept = why::cases(voice, &case, &demo()).expect("no faults");
        assert!(kept.steps.is_empty() && kept.unknown.contains(because));
        let numbers = Solved::of(&case).expect("no faults").numbers();
        let solved = Solved::from_numbers(&numbers).expect("its own numbers");
        assert_eq!(solved.row.finding.footroom(), Err(why));
        assert_eq!(row(&case).expect("no faults"), solved.row);
        let place = Sweep::new(voice, &case, Across::Pretension, &[]).start();
        let mut points = [f64::NAN, 0.0].repeat(place);
        points.extend(sweep::point(&case, Across::Pretension, place));
        let said = Sweep::new(voice, &case, Across::Pretension, &points).read(place);
        assert!(said.contains(because), "{said}");
        // A drop, however deep, does not bring the number back.
        let drop = ask::answer(voice, &case, 4).expect("it applies");
        assert!(drop.case_text.is_empty(), "{drop:?}");
        let mut running = Running::new(&case, Search::Delay).expect("no faults");
        let found = loop {
            let step = running.advance(voice);
            if step.done {
                break step;
            }
        };
        assert!(
            found.sentence.contains(voice.office().search_unresolved),
            "{found:?}"
        );

        // The cell of the case itself.
        let spec = MapSpec {
            users_max: 1,
            rows: Rows::Posts { least: 1, most: 1 },
            effort: Effort::Full,
            places: footroom_core::fit::layout::Places::Kept,
        };
        let map = Map::new(&case, spec).expect("no faults");
        assert_eq!(map.case_of(0, 0).as_ref(), Some(&case));
        assert_eq!(map.cell(0, 0).and_then(|c| c.footroom_m()), None);
    }
}
