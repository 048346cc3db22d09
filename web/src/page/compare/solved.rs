//! A layout as a worker beside the page solved it, and its way back as plain numbers: the row of
//! the comparison, and of the fall what the drawing of its lowest instant reads.

use footroom_core::case::Case;
use footroom_core::fit::{Row, row};
use footroom_core::solve::{Doubt, Options, Outcome, Traces, WorkerOutcome, solve};

use crate::page::carried::answer::of_outcome;
use crate::page::carried::{NO_FINDING, Numbers, of_finding};

/// What is known of a layout once it is solved.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// What it is put up with and what it gives, by all runs.
    pub row: Row,
    /// The fall with the inputs as given, as far as the drawing reads it: up to the lowest instant
    /// of the governing worker. All else in it is nothing.
    pub fall: Outcome,
}

impl Solved {
    /// Solves a case; `None`: it has faults.
    pub fn of(case: &Case) -> Option<Self> {
        let options = Options {
            traces: true,
            ..Options::default()
        };
        let whole = solve(case, options).ok()?;
        let mut fall = Outcome {
            governing_worker: whole.governing_worker,
            workers: whole.workers.iter().map(drawn).collect(),
            doubts: whole.doubts,
            traces: whole.traces,
            ..Outcome::default()
        };
        fall.history.inline_end_extension_m = whole.history.inline_end_extension_m;
        (fall.doubts).retain(|doubt| matches!(doubt, Doubt::Strikes { .. }));
        let mut solved = Self {
            row: row(case).ok()?,
            fall,
        };
        let lowest_s = solved.lowest_s();
        if let Some(traces) = &mut solved.fall.traces {
            end_after(traces, lowest_s);
        }
        Some(solved)
    }

    /// The instant that is drawn, s.
    pub fn lowest_s(&self) -> f64 {
        let governing = self.fall.workers.get(self.fall.governing_worker);
        governing.map_or(0.0, |w| w.time_lowest_s)
    }

    /// As plain numbers.
    pub fn numbers(&self) -> Vec<f64> {
        let mut out = Numbers::default();
        of_solved(&mut self.clone(), &mut out);
        out.values
    }

    /// From the numbers of [`Solved::numbers`]; `None`: they are not all of them.
    pub fn from_numbers(values: &[f64]) -> Option<Self> {
        let mut numbers = Numbers::read(values);
        let mut solved = empty();
        of_solved(&mut solved, &mut numbers);
        numbers.all_read().then_some(solved)
    }
}

fn drawn(worker: &WorkerOutcome) -> WorkerOutcome {
    let mut kept = WorkerOutcome {
        fell: worker.fell,
        free_fall_m: worker.free_fall_m,
        drop_first_lowest_m: worker.drop_first_lowest_m,
        time_first_lowest_s: worker.time_first_lowest_s,
        time_lowest_s: worker.time_lowest_s,
        ..WorkerOutcome::default()
    };
    kept.stack.lanyard_m = worker.stack.lanyard_m;
    kept
}

/// Cuts traces off after the two frames around an instant, and drops what only charts read.
fn end_after(traces: &mut Traces, time_s: f64) {
    let before = if traces.interval_s > 0.0 {
        (time_s / traces.interval_s) as usize
    } else {
        0
    };
    let frames = traces.frames.min(before.saturating_add(2));
    traces.frames = frames;
    let (crew, nodes) = (traces.workers, traces.node_x_m.len());
    for (values, columns) in [
        (&mut traces.tension_max_n, 1),
        (&mut traces.inline_extension_m, 1),
        (&mut traces.node_deflection_m, nodes),
        (&mut traces.drop_m, crew),
        (&mut traces.speed_m_per_s, crew),
        (&mut traces.force_n, crew),
        (&mut traces.connector_deflection_m, crew),
        (&mut traces.absorber_extension_m, crew),
    ] {
        values.truncate(frames * columns);
    }
    traces.tension_horizontal_n.clear();
    traces.gear_stretch_m.clear();
}

fn empty() -> Solved {
    Solved {
        row: Row {
            users: 0,
            spans: 0,
            end_posts: 0,
            intermediate_posts: 0,
            tiebacks: 0,
            rope_m: 0.0,
            personal_absorbers: 0,
            inline_absorbers: 0,
            finding: NO_FINDING,
        },
        fall: Outcome::default(),
    }
}

fn of_solved(solved: &mut Solved, n: &mut Numbers) {
    let Row {
        users,
        spans,
        end_posts,
        intermediate_posts,
        tiebacks,
        rope_m,
        personal_absorbers,
        inline_absorbers,
        finding,
    } = &mut solved.row;
    for count in [
        users,
        spans,
        end_posts,
        intermediate_posts,
        tiebacks,
        personal_absorbers,
        inline_absorbers,
    ] {
        n.count(count);
    }
    n.number(rope_m);
    of_finding(finding, n);
    of_outcome(&mut solved.fall, n);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::scene::recording::Recording;
    use crate::first::scene::small;
    use crate::first::scene::surface::Rect;
    use crate::first::scene::theme::Theme;
    use crate::page::carried::PARTS;
    use crate::page::compare::layouts_link::tests::four;
    use footroom_core::case::{EndPost, InlineAbsorber, InlinePlace, Posts};
    use footroom_core::demo::demo;
    use footroom_core::fit::{Effort, find};

    fn cases() -> Vec<Case> {
        let mut cases: Vec<Case> = four().layouts.into_iter().map(|l| l.case).collect();
        let mut strong = demo();
        strong.posts = Posts {
            left: Some(EndPost::default()),
            right: Some(EndPost::default()),
        };
        strong.strengths.intermediate_post_n = Some(1.0e3);
        strong.site.below[0].height_m = 5.5;
        cases.push(strong.clone());
        strong.strengths.intermediate_post_n = None;
        strong.strengths.tieback_n = Some(2.0e3);
        strong.line.rope.breaking_force_n = Some(9.0e3);
        strong.workers[0].fall_time_s = None;
        cases.push(strong);
        for place in [InlinePlace::Left, InlinePlace::Both] {
            let mut absorbed = demo();
            absorbed.workers[0].position_m = 2.0;
            absorbed.line.inline_absorber = Some(InlineAbsorber {
                place,
                ..InlineAbsorber::default()
            });
            cases.push(absorbed);
        }
        cases
    }

    #[test]
    fn a_solved_layout_comes_back_as_it_went() {
        for case in cases() {
            let solved = Solved::of(&case).expect("no faults");
            assert_eq!(solved.row, row(&case).expect("no faults"));
            let numbers = solved.numbers();
            assert_eq!(Solved::from_numbers(&numbers), Some(solved));
            assert_eq!(Solved::from_numbers(&numbers[1..]), None);
            for end in [0, 1, 20, 40, numbers.len() - 1] {
                assert_eq!(Solved::from_numbers(&numbers[..end]), None, "{end}");
            }
        }
        assert_eq!(Solved::from_numbers(&[f64::INFINITY; 90]), None);
        let mut faulty = demo();
        faulty.workers.clear();
        assert_eq!(Solved::of(&faulty), None);
    }

    /// What is drawn from the numbers is what is drawn from the whole outcome.
    #[test]
    fn the_drawing_is_that_of_the_whole_outcome() {
        for case in cases() {
            let numbers = Solved::of(&case).expect("no faults").numbers();
            let solved = Solved::from_numbers(&numbers).expect("own numbers");
            let options = Options {
                traces: true,
                ..Options::default()
            };
            let whole = solve(&case, options).expect("no faults");
            let [mine, theirs] = [&solved.fall, &whole].map(|outcome| {
                let mut sheet = Recording::default();
                let area = Rect {
                    x: 0.0,
                    y: 0.0,
                    w: 400.0,
                    h: 300.0,
                };
                let at_s = solved.lowest_s();
                let theme = Theme::default();
                small::draw(&mut sheet, &theme, area, 18.0, &case, Some(outcome), at_s);
                format!("{sheet:?}")
            });
            assert_eq!(mine, theirs);
        }
    }

    #[test]
    fn every_part_has_its_place() {
        let mut seen: Vec<&str> = Vec::new();
        for case in cases() {
            let found = find(&case, Effort::Full).expect("no faults");
            let key = found.standing.strength.expect("a strength").key;
            assert!(PARTS.contains(&key), "{key}");
            seen.push(key);
        }
        seen.sort_unstable();
        seen.dedup();
        assert!(seen.len() > 2, "{seen:?}");
        let mut known = demo();
        known.posts.left = Some(EndPost::default());
        let all = footroom_core::assess::assess(&known, Options::default()).expect("no faults");
        for check in all.checks(&known) {
            if check.key.starts_with("part.") {
                assert!(PARTS.contains(&check.key), "{}", check.key);
            }
        }
    }
}
