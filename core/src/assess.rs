//! The whole answer: the case as given, its tolerance corners, the band from damping, and which of
//! them governs each number.
//!
//! Runs made: nominal, nominal without damping, soft corner, stiff corner, and where the two
//! corners are not known to be the worst (an in-line absorber in the line, or a personal absorber
//! used up in the soft corner) a mixed one: weak absorbers on a stiff line. tests/corners.rs
//! measures what any other combination can add. Where at least two fall, the runs of
//! [`crate::nearby`] too: as many again as there are workers, three times and more, so that
//! [`Assessing`] makes them two at a time.

use alloc::vec::Vec;

use crate::answer::{Unknown, decisive, unknown};
use crate::case::{Case, Worker};
use crate::check::{Check, Demands, EndDemand, WorkerDemand, checks};
use crate::corner::{Corner, Sides, moved};
use crate::fault::Fault;
use crate::nearby::{Around, Nearby, Neighbors};
use crate::ready::Ready;
use crate::solve::{Doubt, Method, Options, Outcome, solve_each};
use crate::standing::Standing;
use crate::support::PostKick;

/// The whole answer to a case.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Assessment {
    /// The case as given; its doubts also name what keeps any other run from being relied on.
    pub nominal: Outcome,
    /// What every corner gave, the nominal first.
    pub corners: Vec<CornerAnswer>,
    /// What every nearby run gave, see [`crate::nearby`]; empty where fewer than two fall.
    pub nearby: Vec<CornerAnswer>,
    /// All runs were made; otherwise the nearby ones, or some of them, are still to be.
    pub whole: bool,
    /// Least footroom over all runs, m, of a crew less [`Assessment::beyond_m`].
    pub footroom: Governed,
    /// What is left out of the footroom of a crew, and added to the required depths, for what the
    /// runs do not show, m: [`crate::nearby::BEYOND_M`], or 0.
    pub beyond_m: f64,
    /// Greatest line tension over all runs, N, the allowance included.
    pub tension_max: Governed,
    /// Greatest arrest force over all runs, N.
    pub arrest_force_max: Governed,
    /// An absorber, personal or in the line, is used up in a run.
    pub absorber_used_up: bool,
    /// What damping changes, nominal inputs.
    pub band: Band,
    /// What the fall asks of workers and parts, the worst of all runs in each number.
    pub demands: Demands,
}

/// A number with where it came from.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Governed {
    /// The number, in the unit of its field.
    pub value: f64,
    /// Corner that gave it.
    pub corner: Corner,
    /// The run without damping gave it.
    pub undamped: bool,
    /// Which difference within the crew gave it; `None`: the crew as given.
    pub nearby: Option<Nearby>,
    /// Worker concerned, counted from 0; for a tension, the governing worker of that corner.
    pub worker: usize,
    /// Method that gave it.
    pub method: Method,
}

/// The numbers of one corner.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct CornerAnswer {
    /// Which corner.
    pub corner: Corner,
    /// The line has no damping.
    pub undamped: bool,
    /// Which difference within the crew; `None`: the crew as given.
    pub nearby: Option<Nearby>,
    /// Its footroom, m.
    pub footroom_m: f64,
    /// Its governing worker, counted from 0.
    pub governing_worker: usize,
    /// Method that governs his clearance.
    pub governing_method: Method,
    /// Greatest line tension of both methods, N.
    pub tension_max_n: f64,
    /// Greatest horizontal pull on an end support of the time history, N.
    pub end_pull_max_n: f64,
    /// Greatest arrest force of both methods, N.
    pub arrest_force_max_n: f64,
    /// Worker who feels it, counted from 0.
    pub arrest_force_worker: usize,
    /// A personal absorber was used up.
    pub absorber_used_up: bool,
}

/// Least and greatest of a number.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Range {
    /// Least.
    pub least: f64,
    /// Greatest.
    pub greatest: f64,
}

impl Range {
    fn of(a: f64, b: f64) -> Self {
        Self {
            least: a.min(b),
            greatest: a.max(b),
        }
    }
}

/// What the damping of the line changes, none to the stated one: how far the time history may be
/// trusted to the digit.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Band {
    /// Greatest line tension, N.
    pub tension_max_n: Range,
    /// Required depth below the line of every worker, m, in the order of the case.
    pub required_m: Vec<Range>,
    /// Extension of every worker's absorber, m.
    pub absorber_extension_m: Vec<Range>,
    /// Arrest force of every worker, N.
    pub arrest_force_max_n: Vec<Range>,
    /// Line tension by the energy balance, N: without the line's inertia.
    pub tension_balance_n: f64,
}

/// Answers a case.
///
/// # Errors
/// Every fault of case and options, when there is one.
pub fn assess(case: &Case, options: Options) -> Result<Assessment, Vec<Fault>> {
    Ok(assessed(options.with(case.ready())?, options))
}

/// Answers a case that was made ready.
pub(crate) fn assessed(ready: Ready, options: Options) -> Assessment {
    let mut assessing = Assessing::of(ready, options);
    while assessing.step() {}
    assessing.assessment()
}

/// An assessment that is made in steps: first all runs of the crew as given, then the nearby ones,
/// two a step.
///
/// # Examples
/// ```
/// use footroom_core::assess::{Assessing, assess};
/// use footroom_core::demo::demo;
/// use footroom_core::solve::Options;
/// let mut assessing = Assessing::start(&demo(), Options::default()).unwrap();
/// let first = assessing.assessment();
/// while assessing.step() {}
/// let whole = assessing.assessment();
/// assert!(!first.whole && whole.whole);
/// assert!(whole.footroom.value < first.footroom.value);
/// assert_eq!(whole, assess(&demo(), Options::default()).unwrap());
/// ```
#[derive(Clone, Debug)]
pub struct Assessing {
    ready: Ready,
    others: Options,
    runs: Runs,
    neighbors: Neighbors,
}

impl Assessing {
    /// Makes the first runs.
    ///
    /// # Errors
    /// Every fault of case and options, when there is one.
    pub fn start(case: &Case, options: Options) -> Result<Self, Vec<Fault>> {
        Ok(Self::of(options.with(case.ready())?, options))
    }

    /// The same for a case that was checked. Options out of range are taken as they are, see
    /// [`Assessing::start`].
    pub fn of(ready: Ready, options: Options) -> Self {
        let others = Options {
            traces: false,
            ..options
        };
        Self {
            runs: runs(&ready, options, others),
            neighbors: Neighbors::of(ready.case()),
            ready,
            others,
        }
    }

    /// Makes the next two nearby runs; false: there was none left.
    pub fn step(&mut self) -> bool {
        let Runs { together, .. } = &self.runs;
        self.neighbors.step(
            &self.ready,
            |around| together[around.place()].footroom_m,
            self.others,
        )
    }

    /// The answer by the runs made so far.
    pub fn assessment(&self) -> Assessment {
        let case = self.ready.case();
        let Runs {
            together: [nominal, undamped, soft, stiff],
            mixed,
        } = &self.runs;
        let mut corners = alloc::vec![
            CornerAnswer::of(Corner::Nominal, nominal),
            CornerAnswer {
                undamped: true,
                ..CornerAnswer::of(Corner::Nominal, undamped)
            },
            CornerAnswer::of(Corner::Soft, soft),
            CornerAnswer::of(Corner::Stiff, stiff),
        ];
        if let Some(mixed) = mixed {
            corners.push(CornerAnswer::of(Corner::Mixed, mixed));
        }
        let made = self.neighbors.made();
        let nearby: Vec<CornerAnswer> = (made.iter())
            .map(|n| CornerAnswer {
                undamped: n.around == Around::Undamped,
                nearby: Some(n.nearby),
                ..CornerAnswer::of(n.around.corner(), &n.outcome)
            })
            .collect();
        let all = || corners.iter().chain(&nearby);
        let footroom = governed(all(), |c| -c.footroom_m, |c| c.governing_worker);
        let tension = governed(all(), |c| c.tension_max_n, |c| c.governing_worker);
        let arrest = governed(all(), |c| c.arrest_force_max_n, |c| c.arrest_force_worker);
        let band = Band {
            tension_max_n: Range::of(
                nominal.history.tension_max_n,
                undamped.history.tension_max_n,
            ),
            required_m: pairs(nominal, undamped, |o, i| {
                o.workers[i].history_stack.required_m
            }),
            absorber_extension_m: pairs(nominal, undamped, |o, i| {
                o.workers[i].absorber_extension_m
            }),
            arrest_force_max_n: pairs(nominal, undamped, |o, i| o.workers[i].arrest_force_max_n),
            tension_balance_n: nominal.balance.tension_max_n,
        };
        let outcomes: Vec<&Outcome> = [nominal, undamped, soft, stiff]
            .into_iter()
            .chain(mixed)
            .chain(made.iter().map(|n| &n.outcome))
            .collect();
        let beyond_m = self.neighbors.beyond_m();
        let demands = demands(case, &outcomes, beyond_m);
        let doubts = doubts(case, &outcomes, demands.tension_max_n);
        let mut nominal = nominal.clone();
        nominal.doubts = doubts;
        // The undamped run is only the other end of the band, not a corner to list.
        corners.remove(1);
        Assessment {
            nominal,
            corners,
            nearby,
            whole: self.neighbors.are_made(),
            footroom: Governed {
                value: -footroom.value - beyond_m,
                ..footroom
            },
            beyond_m,
            tension_max: Governed {
                value: tension.value * (1.0 + case.allowance.tension_ratio),
                ..tension
            },
            arrest_force_max: arrest,
            absorber_used_up: (outcomes.iter().flat_map(|o| &o.doubts)).any(|d| {
                matches!(
                    d,
                    Doubt::AbsorberUsedUp { .. } | Doubt::InlineAbsorberUsedUp { .. }
                )
            }),
            band,
            demands,
        }
    }
}

/// The runs of an answer but for the nearby ones.
#[derive(Clone, Debug)]
pub(crate) struct Runs {
    /// Nominal, undamped, soft corner, stiff corner.
    pub(crate) together: [Outcome; 4],
    /// The mixed corner, where it may be the worst.
    pub(crate) mixed: Option<Outcome>,
}

/// Makes the runs of a case; `given`: what is wanted of the nominal one, `others`: of the others.
#[inline(never)]
pub(crate) fn runs(case: &Ready, given: Options, others: Options) -> Runs {
    let undamped = case.undamped();
    let (soft, stiff) = (moved(case, Sides::SOFT), moved(case, Sides::STIFF));
    let together = solve_each([
        (case, given),
        (&undamped, others),
        (&soft, others),
        (&stiff, others),
    ]);
    let used_up = together[2].workers.iter().any(|w| w.absorber_used_up);
    let mixed = (used_up || case.line().inline_absorber.is_some())
        .then(|| moved(case, Sides::MIXED).solve(others));
    Runs { together, mixed }
}

impl Assessment {
    /// The checks of the demands against limits and rated strengths. `case`: the one assessed.
    pub fn checks(&self, case: &Case) -> Vec<Check> {
        checks(case, &self.demands, case.sets, &case.own_limits)
    }

    /// How the case stands, by all its runs. `case`: the one assessed.
    pub fn standing(&self, case: &Case) -> Standing {
        Standing::of(
            self.answer().map(|footroom| footroom.value),
            &self.checks(case),
            self.absorber_used_up,
        )
    }
}

/// The doubts of the first run, and of the others what takes their numbers away, as far as no run
/// before has one of the kind: the answer is the worst of all runs, and one whose motion was not
/// resolved counts for nothing in it, on the wrong side. The line breaks or holds by the tension that
/// its strength is held against.
pub(crate) fn doubts(case: &Case, outcomes: &[&Outcome], tension_n: f64) -> Vec<Doubt> {
    let mut all: Vec<Doubt> = Vec::new();
    for (i, doubt) in
        (outcomes.iter().enumerate()).flat_map(|(i, o)| o.doubts.iter().map(move |d| (i, d)))
    {
        let new = || match doubt.takes_away() {
            None | Some(Unknown::LineBreaks) => false,
            why => all.iter().all(|known| known.takes_away() != why),
        };
        if i == 0 || new() {
            all.push(*doubt);
        }
    }
    if let Some(breaking_force_n) = case.line.rope.breaking_force_n
        && tension_n > breaking_force_n
        && all
            .iter()
            .all(|d| d.takes_away() != Some(Unknown::LineBreaks))
    {
        all.push(Doubt::BeyondBreaking {
            tension_n,
            breaking_force_n,
        });
    }
    all
}

/// The worst of every number over all runs, with the allowance on tension, and `beyond_m` on the
/// required depths.
pub(crate) fn demands(case: &Case, outcomes: &[&Outcome], beyond_m: f64) -> Demands {
    let greatest = |of: &dyn Fn(&Outcome) -> f64| outcomes.iter().fold(0.0, |m, o| of(o).max(m));
    let more = 1.0 + case.allowance.tension_ratio;
    let last = case.line.spans_m.len();
    let peak = |o: &Outcome, i: usize| o.supports.get(i).copied().unwrap_or_default();
    let end = |i: usize| EndDemand {
        tension_n: more * greatest(&|o| peak(o, i).tension_max_n),
        horizontal_n: more * greatest(&|o| peak(o, i).horizontal_max_n),
        vertical_n: more * greatest(&|o| peak(o, i).vertical_max_n),
    };
    let fell = |(i, w): (usize, &Worker)| w.fall_time_s.map(|_| i);
    Demands {
        workers: case
            .workers
            .iter()
            .enumerate()
            .filter_map(fell)
            .map(|i| {
                let stack_of = |o: &Outcome| o.workers[i].stack;
                WorkerDemand {
                    worker: i,
                    arrest_force_n: greatest(&|o| {
                        o.workers[i]
                            .arrest_force_max_n
                            .max(o.balance.arrest_force_n[i])
                    }),
                    free_fall_m: greatest(&|o| o.workers[i].free_fall_m),
                    deceleration_distance_m: greatest(&|o| o.workers[i].deceleration_m()),
                    required_depth_m: greatest(&|o| stack_of(o).required_m) + beyond_m,
                    margin_m: case.site.margin_m,
                    available_depth_m: outcomes
                        .iter()
                        .fold(f64::INFINITY, |m, o| m.min(stack_of(o).available_m)),
                    contact: outcomes.iter().any(|o| {
                        o.doubts
                            .iter()
                            .any(|d| matches!(d, Doubt::Strikes { worker, .. } if *worker == i))
                    }),
                }
            })
            .collect(),
        tension_max_n: more * greatest(&|o| o.history.tension_max_n.max(o.balance.tension_max_n)),
        left_end: end(0),
        right_end: end(last),
        intermediate_posts: (1..last)
            .map(|i| PostKick {
                vertical_n: more * greatest(&|o| peak(o, i).vertical_max_n),
                horizontal_n: more * greatest(&|o| peak(o, i).horizontal_max_n),
            })
            .collect(),
    }
}

fn pairs(a: &Outcome, b: &Outcome, of: impl Fn(&Outcome, usize) -> f64) -> Vec<Range> {
    (0..a.workers.len())
        .map(|i| Range::of(of(a, i), of(b, i)))
        .collect()
}

/// The corner with the greatest value; the earliest of equals.
fn governed<'a>(
    corners: impl Iterator<Item = &'a CornerAnswer>,
    value: impl Fn(&CornerAnswer) -> f64,
    worker: impl Fn(&CornerAnswer) -> usize,
) -> Governed {
    let mut best: Option<&CornerAnswer> = None;
    for corner in corners {
        if best.is_none_or(|b| value(corner) > value(b)) {
            best = Some(corner);
        }
    }
    best.map_or(
        Governed {
            value: 0.0,
            corner: Corner::Nominal,
            undamped: false,
            nearby: None,
            worker: 0,
            method: Method::TimeHistory,
        },
        |b| Governed {
            value: value(b),
            corner: b.corner,
            undamped: b.undamped,
            nearby: b.nearby,
            worker: worker(b),
            method: b.governing_method,
        },
    )
}

impl CornerAnswer {
    fn of(corner: Corner, outcome: &Outcome) -> Self {
        let mut arrest = (0.0, 0);
        for (i, worker) in outcome.workers.iter().enumerate() {
            let force = worker
                .arrest_force_max_n
                .max(outcome.balance.arrest_force_n[i]);
            if force > arrest.0 {
                arrest = (force, i);
            }
        }
        let history = &outcome.history;
        let ends = [outcome.supports.first(), outcome.supports.last()];
        Self {
            corner,
            undamped: false,
            nearby: None,
            footroom_m: outcome.footroom_m,
            governing_worker: outcome.governing_worker,
            governing_method: outcome.governing_method,
            tension_max_n: history.tension_max_n.max(outcome.balance.tension_max_n),
            end_pull_max_n: ends
                .iter()
                .flatten()
                .fold(0.0, |most, end| end.horizontal_max_n.max(most)),
            arrest_force_max_n: arrest.0,
            arrest_force_worker: arrest.1,
            absorber_used_up: outcome.workers.iter().any(|w| w.absorber_used_up),
        }
    }
}

impl Assessment {
    /// The least footroom over all runs, or why it cannot be known.
    ///
    /// # Errors
    /// The reason, when a doubt of any run takes the number away; [`Assessment::decisive_doubt`] has
    /// its figures.
    ///
    /// # Examples
    /// ```
    /// use footroom_core::answer::Unknown;
    /// use footroom_core::assess::assess;
    /// use footroom_core::demo::demo;
    /// use footroom_core::solve::Options;
    /// let mut case = demo();
    /// let found = assess(&case, Options::default()).unwrap();
    /// assert_eq!(found.answer(), Ok(found.footroom));
    /// case.line.rope.breaking_force_n = Some(0.9 * found.tension_max.value);
    /// let found = assess(&case, Options::default()).unwrap();
    /// assert_eq!(found.answer(), Err(Unknown::LineBreaks));
    /// ```
    pub fn answer(&self) -> Result<Governed, Unknown> {
        unknown(&self.nominal.doubts, self.footroom.value).map_or(Ok(self.footroom), Err)
    }

    /// The doubt that takes the answer away and is said; `None`: no doubt does.
    pub fn decisive_doubt(&self) -> Option<&Doubt> {
        decisive(&self.nominal.doubts)
    }
}
