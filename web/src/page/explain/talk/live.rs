//! What the leader tries with the crew while the talk runs: one user more or fewer, the crew farther
//! left or right. It is done to a copy; the case on the page stays as it is planned.

use footroom_core::assess::Assessment;
use footroom_core::case::Case;
use footroom_core::constants::WORKERS_MAX;
use footroom_core::fit::layout::with_users;

use super::script::answered;
use crate::page::beside::is_beside;
use crate::say::faults::Voice;
use crate::say::format::{self, FOOT_M, Units};
use crate::say::texts::talk as words;

/// What is changed. Those who leave and those who join undo each other: one or the other is empty.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tried {
    /// Which of the planned crew have left, in the order in which they did.
    pub left: Vec<usize>,
    /// How many have joined it.
    pub joined: usize,
    /// Steps to the right; to the left when negative.
    pub steps: i32,
}

/// Those of the planned crew whom a step of the talk is about: they stay the same whatever is tried, so
/// that before and after are of the same place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct About {
    /// Who falls alone.
    pub alone: Option<usize>,
    /// The one with the least footroom as planned.
    pub focus: Option<usize>,
}

/// The changed copy with its answer.
#[derive(Debug)]
pub struct Live {
    tried: Tried,
    about: About,
    /// The case.
    pub case: Case,
    /// Its answer; `None`: it takes long, and is waited for.
    pub assessment: Option<Assessment>,
}

/// How far the crew moves in a step, m.
pub fn step_m(units: Units) -> f64 {
    match units {
        Units::Metric => 0.5,
        Units::Us => 2.0 * FOOT_M,
    }
}

impl Tried {
    /// One user more: the last who left is back, or one more joins. `None`: there is none.
    pub fn more(mut self, planned: &Case) -> Option<Self> {
        if self.left.pop().is_none() {
            self.joined += 1;
        }
        (planned.workers.len() + self.joined <= WORKERS_MAX).then_some(self)
    }

    /// One user fewer: the last who joined, or one of those at hand. Whoever the step is about stays to
    /// the last, whoever falls in it (`falls`, of those at hand) stays longer than who does not, and
    /// whoever is nearer to the one it is about longer than who is farther. `None`: one is left.
    pub fn fewer(mut self, planned: &Case, about: Option<usize>, falls: &[bool]) -> Option<Self> {
        if self.joined > 0 {
            self.joined -= 1;
            return Some(self);
        }
        let here = self.here(planned);
        let at_m = |who: usize| planned.workers.get(who).map_or(0.0, |w| w.position_m);
        let stays = about.filter(|who| here.contains(who));
        let stays = stays.or(here.first().copied())?;
        let away_m = |who: usize| (at_m(who) - at_m(stays)).abs();
        let leaves = here.iter().enumerate().filter(|(_, who)| **who != stays);
        let leaves = leaves.max_by(|(i, a), (j, b)| {
            let stands = |i: usize| !falls.get(i).copied().unwrap_or(false);
            let key = stands(*i).cmp(&stands(*j));
            key.then(away_m(**a).total_cmp(&away_m(**b)))
        });
        self.left.push(*leaves?.1);
        Some(self)
    }

    /// Which of the planned crew are at hand, in their order.
    fn here(&self, planned: &Case) -> Vec<usize> {
        let all = 0..planned.workers.len();
        all.filter(|who| !self.left.contains(who)).collect()
    }

    /// The crew a step to the right or to the left.
    pub fn moved(self, right: bool) -> Self {
        Self {
            steps: self.steps + if right { 1 } else { -1 },
            ..self
        }
    }

    /// The planned case without those who have left; if none falls any more, the first of them does at 0.
    fn without_left(&self, planned: &Case) -> Case {
        let mut case = planned.clone();
        let here = self.here(planned).into_iter();
        case.workers = here.map(|who| planned.workers[who]).collect();
        if case.workers.iter().all(|w| w.fall_time_s.is_none())
            && let Some(first) = case.workers.first_mut()
        {
            first.fall_time_s = Some(0.0);
        }
        case
    }

    /// The case; `None`: somebody would stand beyond the line, or it has faults.
    pub fn case(&self, planned: &Case, units: Units) -> Option<Case> {
        let mut case = if self.joined > 0 {
            with_users(planned, planned.workers.len() + self.joined)
        } else {
            self.without_left(planned)
        };
        let shift_m = f64::from(self.steps) * step_m(units);
        let length_m = case.line.length_m();
        for worker in &mut case.workers {
            worker.position_m += shift_m;
            if !(0.0..=length_m).contains(&worker.position_m) {
                return None;
            }
        }
        case.faults().is_empty().then_some(case)
    }
}

impl Live {
    /// What is tried next; `None`: that cannot be done.
    pub fn of(tried: Tried, about: About, planned: &Case, units: Units) -> Option<Self> {
        let case = tried.case(planned, units)?;
        Some(Self {
            tried,
            about,
            assessment: if is_beside(&case) {
                None
            } else {
                answered(&case)
            },
            case,
        })
    }

    /// What is tried.
    pub fn tried(&self) -> &Tried {
        &self.tried
    }

    /// Whom the talk is about, of the planned crew.
    pub fn about(&self) -> About {
        self.about
    }

    /// One of the planned crew among those at hand; `None`: he has left.
    pub fn place_of(&self, who: usize) -> Option<usize> {
        let left = &self.tried.left;
        (!left.contains(&who)).then(|| who - left.iter().filter(|gone| **gone < who).count())
    }

    /// The change in words.
    pub fn said(&self, voice: Voice, planned: &Case) -> String {
        let t = words::of(voice.lang);
        let users = self.case.workers.len();
        let mut said = vec![(t.say.live_users)(users, planned.workers.len())];
        if !self.tried.left.is_empty() {
            // By their places: those at hand are counted anew.
            let left = self
                .tried
                .left
                .iter()
                .filter_map(|who| planned.workers.get(*who));
            let places: Vec<String> = left
                .map(|w| format::length(voice.units, w.position_m))
                .collect();
            said.push((t.say.live_without)(&places.join(", "), places.len()));
        }
        let steps = self.tried.steps;
        if steps != 0 {
            let by_m = f64::from(steps.abs()) * step_m(voice.units);
            said.push((t.say.live_moved)(
                &format::length(voice.units, by_m),
                steps > 0,
            ));
        }
        said.join("; ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::Page;
    use crate::page::explain::talk::Shown;
    use crate::page::explain::talk::script::Step;
    use crate::say::format::Lang;
    use footroom_core::demo::{demo, demo_us};

    /// A page with a case in US units, everything of it made.
    fn page(case: &Case) -> Page {
        let mut page = Page::new(Lang::En, Units::Us);
        page.load(case.clone()).expect("no faults");
        page.finish_all();
        page
    }

    fn shown(page: &mut Page, step: Step) -> Option<Shown> {
        let (talk, subject) = page.talk();
        talk.step(subject, step)
    }

    /// Where those who fall in a step do, in feet.
    fn fall_at(page: &mut Page, step: Step) -> Vec<f64> {
        use crate::first::scene::SceneView;
        use crate::first::scene::theme::Theme;
        shown(page, step).expect("an answer");
        let theme = Theme::default();
        let voice = page.voice();
        let (talk, subject) = page.talk();
        let sheet = [800.0, 600.0, 1.0];
        let rest = SceneView::new(subject.case, (None, None), voice, &theme, sheet, 0.0);
        let scene = talk.scene(subject, step, &rest).expect("a scene");
        let falls = scene
            .case
            .workers
            .iter()
            .filter(|w| w.fall_time_s.is_some());
        falls.map(|w| (w.position_m / FOOT_M).round()).collect()
    }

    /// Before and after are of the same place: whoever falls in the step stays, the others leave from the
    /// far end; and whoever has left comes back as they went.
    #[test]
    fn whoever_falls_in_the_step_stays_where_they_fall() {
        let mut page = page(&demo_us());
        let planned = shown(&mut page, Step::One).expect("an answer");
        assert_eq!(fall_at(&mut page, Step::One), [43.0]);
        for said in [
            "2 users, 3 planned; without the worker at 50 ft",
            "1 user, 3 planned; without the workers at 50 ft, 36 ft",
        ] {
            assert!(page.try_users(Step::One, false));
            let tried = shown(&mut page, Step::One).expect("an answer");
            assert_eq!(tried.live, said);
            assert_eq!(fall_at(&mut page, Step::One), [43.0], "{said}");
            // Whoever stands takes nothing of the room: no gain is shown where there is none.
            assert_eq!(tried.number, planned.number, "{said}");
            assert!(tried.rows[0].value.starts_with(&planned.number), "{said}");
        }
        assert!(!page.try_users(Step::One, false), "one is left");
        assert!(page.try_users(Step::One, true) && page.try_users(Step::One, true));
        assert_eq!(shown(&mut page, Step::One), Some(planned));
        // One more joins, and the same one falls.
        assert!(page.try_users(Step::One, true));
        assert_eq!(fall_at(&mut page, Step::One), [43.0]);
        assert!(page.try_users(Step::One, false));
        assert!(page.talk().1.live.is_none());
    }

    /// Two still fall while two are left; then one falls, where they fell as planned.
    #[test]
    fn two_fall_while_two_are_left() {
        let mut page = page(&demo_us());
        let planned = shown(&mut page, Step::Two).expect("an answer");
        assert_eq!(fall_at(&mut page, Step::Two), [36.0, 43.0]);
        assert!(page.try_users(Step::Two, false));
        let (talk, subject) = page.talk();
        assert!(talk.steps(subject).contains(&Step::Two));
        let tried = shown(&mut page, Step::Two).expect("an answer");
        assert_eq!(fall_at(&mut page, Step::Two), [36.0, 43.0]);
        assert_eq!(
            (tried.title, tried.number, tried.place),
            (planned.title, planned.number, planned.place)
        );
        assert!(page.try_users(Step::Two, false));
        let (talk, subject) = page.talk();
        assert!(!talk.steps(subject).contains(&Step::Two));
        assert_eq!(fall_at(&mut page, Step::One), [43.0]);
        // A crew that is planned as two has no such step, whatever is tried.
        let mut two = demo_us();
        two.workers.truncate(2);
        let mut page = self::page(&two);
        assert!(page.try_place(false) && shown(&mut page, Step::Two).is_none());
    }

    /// Where all fall the far one leaves, and it is said who; where some stand as planned they go first.
    #[test]
    fn where_all_fall_it_is_said_who_left() {
        let mut page = page(&demo_us());
        assert!(page.try_users(Step::All, false));
        assert_eq!(fall_at(&mut page, Step::All), [36.0, 43.0]);
        let tried = shown(&mut page, Step::All).expect("an answer");
        assert!(
            tried.live.ends_with("the worker at 50 ft"),
            "{}",
            tried.live
        );
        let mut case = demo();
        case.workers[0].fall_time_s = None;
        case.workers[1].fall_time_s = None;
        let places: Vec<f64> = case.workers.iter().map(|w| w.position_m).collect();
        let mut tried = Tried::default();
        for left in [vec![0], vec![0, 1]] {
            // As given the third falls.
            let falls: Vec<bool> = (left.len() - 1..3).map(|i| i == 2).collect();
            tried = tried.fewer(&case, Some(2), &falls).expect("one left");
            assert_eq!(tried.left, left);
            let case = tried.case(&case, Units::Metric).expect("no faults");
            let here: Vec<f64> = case.workers.iter().map(|w| w.position_m).collect();
            assert_eq!(here, places[left.len()..]);
        }
        // Far or near, whoever falls outlasts whoever stands.
        let first = Tried::default().fewer(&case, Some(1), &[true, false, false]);
        assert_eq!(first.map(|tried| tried.left), Some(vec![2]));
    }
}
