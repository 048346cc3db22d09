//! A case made ready for the mechanics: checked, its posts turned into stiffnesses, its pretension
//! that of today's temperature.
//!
//! That must happen once and before the tolerances: a tolerance on the stiffness of the ends acts on
//! what the posts come to, and one on pretension on today's. So it has a type of its own, which
//! nothing outside this crate can take a [`Case`] out of again. Inside, the case that it holds has no
//! posts and one temperature any more, so that making it ready again would change nothing.

use alloc::vec::Vec;

use crate::case::{Case, Line, Posts, Temperature};
use crate::fault::Fault;
use crate::setup::tension_at_temperature;
use crate::support::line_on_posts;

/// A case without faults, as the mechanics takes it. [`Case::ready`] makes it.
///
/// # Examples
/// ```
/// use footroom_core::corner::{Sides, moved};
/// use footroom_core::demo::demo;
/// use footroom_core::solve::Options;
/// let ready = demo().ready().unwrap();
/// let soft = moved(&ready, Sides::SOFT).solve(Options::default());
/// assert!(soft.footroom_m < ready.solve(Options::default()).footroom_m);
/// let mut nobody = demo();
/// nobody.workers.clear();
/// assert!(nobody.ready().is_err());
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Ready {
    case: Case,
}

impl Case {
    /// Every fault of the case, in the order of its fields; empty when it can be solved.
    pub fn faults(&self) -> Vec<Fault> {
        self.ready().err().unwrap_or_default()
    }

    /// The case as the mechanics takes it.
    ///
    /// # Errors
    /// Every fault of the case, when there is one.
    pub fn ready(&self) -> Result<Ready, Vec<Fault>> {
        let faults = self.input_faults();
        if !faults.is_empty() {
            return Err(faults);
        }
        Ok(Ready {
            case: Case {
                line: line_today(self)?,
                posts: Posts::default(),
                temperature: Temperature {
                    installed_k: self.temperature.today_k,
                    ..self.temperature
                },
                ..self.clone()
            },
        })
    }
}

/// The line on its posts at today's temperature.
///
/// # Errors
/// Posts too soft, or a tension at today's temperature outside what a line may have.
fn line_today(case: &Case) -> Result<Line, Vec<Fault>> {
    let mut line = line_on_posts(&case.line, &case.posts)?;
    let temperature = case.temperature;
    if temperature.installed_k != temperature.today_k {
        line.pretension_n =
            tension_at_temperature(&line, temperature.installed_k, temperature.today_k)?.tension_n;
        let faults = line.line_faults();
        if !faults.is_empty() {
            return Err(faults);
        }
    }
    Ok(line)
}

impl Ready {
    /// The line as the mechanics takes it: today's pretension, and what the posts come to as the
    /// stiffness of its ends.
    pub fn line(&self) -> &Line {
        &self.case.line
    }

    /// The same without damping of the line.
    pub fn undamped(&self) -> Self {
        self.with(|case| case.motion.damping_s = 0.0)
    }

    /// What the mechanics reads: described posts are stiffnesses here, and no posts any more.
    pub(crate) fn case(&self) -> &Case {
        &self.case
    }

    /// The same with something changed. Whoever changes it keeps it such that it can be solved;
    /// nothing is checked again.
    pub(crate) fn with(&self, change: impl FnOnce(&mut Case)) -> Self {
        let mut changed = self.clone();
        change(&mut changed.case);
        changed
    }
}

#[cfg(test)]
mod tests {
    use crate::corner::{Sides, moved};
    use crate::demo::demo;

    /// The temperature and the posts of the demonstration are in its line, once.
    #[test]
    fn is_made_once_and_making_it_again_changes_nothing() {
        let mut case = demo();
        assert!(case.posts.left.is_some());
        case.temperature.today_k += 15.0;
        let ready = case.ready().unwrap();
        assert!(ready.line().pretension_n < case.line.pretension_n - 100.0);
        assert!(ready.line().left_end_stiffness_n_per_m.is_some());
        assert_eq!(ready.case().ready().unwrap(), ready);
        let soft = moved(&ready, Sides::SOFT);
        assert_eq!(soft.case().ready().unwrap(), soft);
    }

    #[test]
    fn a_faulty_case_gives_all_its_faults() {
        let mut case = demo();
        case.line.pretension_n = f64::NAN;
        case.workers[1].mass_kg = -1.0;
        assert_eq!(case.ready().unwrap_err(), case.faults());
        assert_eq!(case.faults().len(), 2);
    }
}
