//! What the answer asks for: the stack of one worker with the inputs as given, and what the
//! tolerance corner that governs adds to it.
//!
//! The fall that is played is the one with the inputs as given. The footroom that is answered is
//! the least over all corners and all small differences within a crew, so the stack on the page has
//! one length more, between the soles and the margin: how much deeper the governing run brings them,
//! and what is left out of a crew's footroom.

use footroom_core::assess::{Assessment, Governed};
use footroom_core::case::Case;
use footroom_core::corner::Corner;
use footroom_core::curve::Shape;
use footroom_core::hash::Hash;
use footroom_core::nearby::Nearby;
use footroom_core::solve::Stack;

use crate::say::texts::Texts;

/// Which of the computed falls gave a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GoverningRun {
    /// The inputs as given.
    Given,
    /// The inputs as given, the line without damping.
    Undamped,
    /// The soft corner of the tolerances.
    Soft,
    /// The stiff corner.
    Stiff,
    /// Weak absorbers on a stiff line.
    Mixed,
}

impl GoverningRun {
    /// Where a number came from.
    fn of(governed: &Governed) -> Self {
        match governed.corner {
            Corner::Nominal if governed.undamped => Self::Undamped,
            Corner::Nominal => Self::Given,
            Corner::Soft => Self::Soft,
            Corner::Stiff => Self::Stiff,
            Corner::Mixed => Self::Mixed,
        }
    }

    /// Its name.
    pub fn name(self, t: &Texts) -> &'static str {
        match self {
            Self::Given => t.corner_nominal,
            Self::Undamped => t.corner_undamped,
            Self::Soft => t.corner_soft,
            Self::Stiff => t.corner_stiff,
            Self::Mixed => t.corner_mixed,
        }
    }

    /// Name of what it adds to the stack.
    fn row(self, t: &Texts) -> &'static str {
        match self {
            // Adds nothing, so the name is not shown.
            Self::Given => t.corner_nominal,
            Self::Undamped => t.tolerance_undamped,
            Self::Soft => t.tolerance_soft,
            Self::Stiff => t.tolerance_stiff,
            Self::Mixed => t.tolerance_mixed,
        }
    }

    /// In plain words, what it takes for the inputs of a case: only what is off in that case.
    pub fn taken(self, t: &Texts, case: &Case) -> String {
        let by = &case.tolerances;
        let (soft_line, weak_absorbers) = match self {
            Self::Given | Self::Undamped => return String::new(),
            Self::Soft => (true, true),
            Self::Stiff => (false, false),
            Self::Mixed => (false, true),
        };
        let pick = |soft: bool, a: &'static str, b: &'static str| if soft { a } else { b };
        let posts = &case.posts;
        let line = &case.line;
        let ends_move = posts.left.is_some()
            || posts.right.is_some()
            || line.left_end_stiffness_n_per_m.is_some()
            || line.right_end_stiffness_n_per_m.is_some();
        let absorbers = || case.workers.iter().filter_map(|w| w.gear.absorber);
        // A curve is stronger all along by the tolerance, an average goes up to the maximum.
        let strong = if absorbers().any(|a| a.shape() == Shape::Average) {
            (true, t.off_absorber_strong)
        } else {
            let promised = absorbers().any(|a| a.maximum_n() > a.greatest_n());
            let off = promised || by.absorber_force_ratio > 0.0;
            (off, t.off_absorber_stronger)
        };
        let weak = (by.absorber_force_ratio > 0.0, t.off_absorber_weak);
        let (off, absorber_words) = if weak_absorbers { weak } else { strong };
        let inline = line.inline_absorber.is_some() && by.inline_force_ratio > 0.0;
        let words = [
            (off && absorbers().next().is_some(), absorber_words),
            (
                by.axial_stiffness_ratio > 0.0,
                pick(soft_line, t.off_rope_soft, t.off_rope_stiff),
            ),
            (
                ends_move && by.end_stiffness_ratio > 0.0,
                pick(soft_line, t.off_ends_soft, t.off_ends_stiff),
            ),
            (
                by.pretension_ratio > 0.0,
                pick(soft_line, t.off_pretension_low, t.off_pretension_high),
            ),
            (by.mass_ratio > 0.0, t.off_mass),
            (
                inline,
                pick(weak_absorbers, t.off_inline_early, t.off_inline_late),
            ),
            (!soft_line && case.motion.damping_s > 0.0, t.off_friction),
        ];
        let taken: Vec<&str> = words.iter().filter(|w| w.0).map(|w| w.1).collect();
        taken.join(", ")
    }
}

/// The answer to a case as a stack: the worker with the least footroom over all corners.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GoverningStack {
    /// The worker, counted from 0.
    pub worker: usize,
    /// Which of the computed falls gave the footroom.
    pub run: GoverningRun,
    /// Which difference within the crew it had; `None`: the crew as given.
    pub nearby: Option<Nearby>,
    /// Part of [`GoverningStack::tolerance_m`] that is left out of a crew's footroom, m.
    pub beyond_m: f64,
    /// His stack with the inputs as given.
    pub stack: Stack,
    /// What that fall adds to the required depth, and what is left out for a crew, m; 0 for one who
    /// falls with the inputs as given.
    pub tolerance_m: f64,
}

impl GoverningStack {
    /// The answer of an assessment; `None`: it names no worker.
    pub fn of(assessment: &Assessment) -> Option<Self> {
        let governed = &assessment.footroom;
        let stack = assessment.nominal.workers.get(governed.worker)?.stack;
        let (run, nearby) = (GoverningRun::of(governed), governed.nearby);
        // The least over all runs, and what lies below him is the same in every one.
        let tolerance_m = match (run, nearby) {
            (GoverningRun::Given, None) => assessment.beyond_m,
            _ => (stack.footroom_m - governed.value).max(0.0),
        };
        Some(Self {
            worker: governed.worker,
            run,
            nearby,
            beyond_m: assessment.beyond_m,
            stack,
            tolerance_m,
        })
    }

    /// Name of the length that it adds to the stack.
    pub fn row(&self, t: &Texts) -> &'static str {
        match self.run {
            run if self.nearby.is_none() && self.beyond_m == 0.0 => run.row(t),
            GoverningRun::Given => t.tolerance_crew,
            GoverningRun::Undamped
            | GoverningRun::Soft
            | GoverningRun::Stiff
            | GoverningRun::Mixed => t.tolerance_and_crew,
        }
    }
}

/// Which of the computed falls gave the greatest line tension.
pub fn tension_from(assessment: &Assessment) -> GoverningRun {
    GoverningRun::of(&assessment.tension_max)
}

/// Hash of everything that was answered, bit by bit: the fall with the inputs as given, every
/// corner, and the numbers that govern.
pub fn fingerprint(assessment: &Assessment) -> u64 {
    let mut hash = Hash::default();
    hash.whole(assessment.nominal.fingerprint);
    for corner in assessment.corners.iter().chain(&assessment.nearby) {
        for value in [
            corner.footroom_m,
            corner.tension_max_n,
            corner.end_pull_max_n,
            corner.arrest_force_max_n,
        ] {
            hash.number(value);
        }
    }
    for governed in [
        &assessment.footroom,
        &assessment.tension_max,
        &assessment.arrest_force_max,
    ] {
        hash.number(governed.value);
        hash.whole(governed.worker as u64);
    }
    hash.value()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::say::format::Lang;
    use crate::say::texts;
    use footroom_core::assess::assess;
    use footroom_core::case::{InlineAbsorber, Tolerances};
    use footroom_core::curve::Points;
    use footroom_core::demo::demo;
    use footroom_core::solve::Options;

    fn assessed(case: &Case) -> Assessment {
        assess(case, Options::default()).expect("a case without faults")
    }

    fn no_tolerances() -> Tolerances {
        Tolerances {
            mass_ratio: 0.0,
            absorber_force_ratio: 0.0,
            pretension_ratio: 0.0,
            axial_stiffness_ratio: 0.0,
            end_stiffness_ratio: 0.0,
            inline_force_ratio: 0.0,
        }
    }

    #[test]
    fn the_tolerance_takes_the_given_footroom_to_the_answer() {
        let mut cases = vec![demo(), demo(), demo()];
        cases[1].tolerances.mass_ratio = 0.2;
        cases[1].tolerances.absorber_force_ratio = 0.2;
        cases[2].line.inline_absorber = Some(InlineAbsorber::default());
        for case in &cases {
            let assessment = assessed(case);
            let governing = GoverningStack::of(&assessment).expect("a worker");
            let left = governing.stack.footroom_m - governing.tolerance_m;
            assert!((left - assessment.footroom.value).abs() < 1.0e-12);
            assert!(governing.tolerance_m >= 0.0);
        }
        // Heavier workers with weaker absorbers need more room.
        let governing = GoverningStack::of(&assessed(&cases[1])).expect("a worker");
        assert_eq!(governing.run, GoverningRun::Soft);
        assert!(governing.tolerance_m > 0.02, "{}", governing.tolerance_m);
    }

    #[test]
    fn a_corner_names_only_what_is_off() {
        let t = texts::of(Lang::En);
        let mut case = demo();
        case.tolerances = no_tolerances();
        assert_eq!(GoverningRun::Soft.taken(t, &case), "");
        // The maximum force of absorbers is an input, not a tolerance; nor is damping.
        assert_eq!(
            GoverningRun::Stiff.taken(t, &case),
            "absorbers at their maximum force, no internal friction in the line"
        );
        case.motion.damping_s = 0.0;
        assert_eq!(GoverningRun::Stiff.taken(t, &case), t.off_absorber_strong);
        // A curve has no maximum force of its own: it is stronger by the tolerance.
        let mut curves = case.clone();
        for worker in &mut curves.workers {
            let absorber = worker.gear.absorber.as_mut().expect("there");
            absorber.curve_extension_m = Points::of(&[0.0, 1.0]);
            absorber.curve_force_n = Points::of(&[3_000.0, 4_000.0]);
        }
        assert_eq!(GoverningRun::Stiff.taken(t, &curves), "");
        curves.tolerances.absorber_force_ratio = 0.15;
        assert_eq!(
            GoverningRun::Stiff.taken(t, &curves),
            t.off_absorber_stronger
        );
        case.tolerances.pretension_ratio = 0.1;
        case.tolerances.end_stiffness_ratio = 0.2;
        assert_eq!(
            GoverningRun::Soft.taken(t, &case),
            "more flexible ends, less pretension"
        );
        assert_eq!(
            GoverningRun::Mixed.taken(t, &case),
            "stiffer ends, more pretension"
        );
        case.posts = Default::default();
        assert_eq!(GoverningRun::Soft.taken(t, &case), "less pretension");
    }

    #[test]
    fn the_fingerprint_tells_answers_apart() {
        let case = demo();
        let base = assessed(&case);
        let mut tolerant = case.clone();
        tolerant.tolerances.pretension_ratio = 0.11;
        let other = assessed(&tolerant);
        // The fall as given is the same; the answer is not.
        assert_eq!(base.nominal.fingerprint, other.nominal.fingerprint);
        assert_ne!(fingerprint(&base), fingerprint(&other));
        assert_eq!(fingerprint(&base), fingerprint(&assessed(&case)));
    }
}
