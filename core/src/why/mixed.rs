//! Cases mixed of two others, one cause at a time, and what each step changes.

use alloc::vec;
use alloc::vec::Vec;

use super::figures::{NUMBERS, Numbers, State, grid, on_grid};
use super::{Asked, Cause, Follow};
use crate::case::{Case, Line, Site, Worker};
use crate::corner::{Corner, Sides, moved};
use crate::ready::Ready;
use crate::solve::Options;

/// Mixed cases looked at in search of an order that can be solved.
const SEARCH_MAX: u32 = 4_096;

pub(super) fn at_corner(case: &Ready, corner: Corner) -> Ready {
    match corner {
        Corner::Nominal => case.clone(),
        Corner::Soft => moved(case, Sides::SOFT),
        Corner::Stiff => moved(case, Sides::STIFF),
        Corner::Mixed => moved(case, Sides::MIXED),
    }
}

/// Puts shares on the grid; what is left over of `whole` goes to the greatest of them.
pub(super) fn round_to_sum(shares: &mut [Numbers], whole: &Numbers) {
    for (i, &wanted) in whole.iter().enumerate() {
        let mut left = wanted;
        let mut greatest = 0;
        for j in 0..shares.len() {
            shares[j][i] = on_grid(shares[j][i], grid(i));
            left -= shares[j][i];
            if shares[j][i].abs() > shares[greatest][i].abs() {
                greatest = j;
            }
        }
        if let Some(share) = shares.get_mut(greatest) {
            share[i] += left;
        }
    }
}

/// The mixed cases between two cases. A set is a bit mask over `causes`: bit set, from `to`.
pub(super) struct Way<'a> {
    from: &'a Case,
    to: &'a Case,
    asked: Asked,
    /// Pairs of workers who are the same person in both.
    pairs: Vec<(usize, usize)>,
    /// What differs.
    pub(super) causes: Vec<Cause>,
    /// The worker followed in `from` and in `to`; `None`: the governing one of each case.
    followed: Option<(usize, usize)>,
    known: Vec<(u32, Option<State>)>,
    pub(super) solved: u32,
    pub(super) doubtful: u32,
}

impl<'a> Way<'a> {
    pub(super) fn new(from: &'a Case, to: &'a Case, asked: Asked) -> Self {
        let pairs = pairs(&from.workers, &to.workers);
        let causes = Cause::EACH
            .into_iter()
            .filter(|&c| differs(from, to, &pairs, c))
            .collect();
        let mut way = Self {
            from,
            to,
            asked,
            pairs,
            causes,
            followed: None,
            known: Vec::new(),
            solved: 0,
            doubtful: 0,
        };
        let worker = match asked.follow {
            Follow::Governing => None,
            Follow::One { worker } => Some(worker),
            Follow::Same => way.state(way.all()).map(|s| s.worker),
        };
        // What is known by now is at most `to` under the worker who is to be followed.
        way.followed = worker.map(|in_to| (way.partner(in_to), in_to));
        way
    }

    /// The worker of `from` who is this one of `to`, or stands nearest to his place.
    fn partner(&self, in_to: usize) -> usize {
        if let Some(&(in_from, _)) = self.pairs.iter().find(|p| p.1 == in_to) {
            return in_from;
        }
        let place = self.to.workers.get(in_to).map_or(0.0, |w| w.position_m);
        (0..self.from.workers.len())
            .min_by(|&a, &b| {
                let away = |i: usize| (self.from.workers[i].position_m - place).abs();
                away(a).total_cmp(&away(b))
            })
            .unwrap_or(0)
    }

    pub(super) fn all(&self) -> u32 {
        (1 << self.causes.len()) - 1
    }

    fn mixed(&self, set: u32) -> Case {
        let takes = |cause: Cause| {
            self.causes
                .iter()
                .position(|&c| c == cause)
                .is_some_and(|bit| set & (1 << bit) != 0)
        };
        let of = |cause: Cause| if takes(cause) { self.to } else { self.from };
        Case {
            line: Line {
                spans_m: of(Cause::Spans).line.spans_m.clone(),
                height_above_beam_m: of(Cause::LineHeight).line.height_above_beam_m,
                pretension_n: of(Cause::Pretension).line.pretension_n,
                rope: of(Cause::Rope).line.rope,
                inline_absorber: of(Cause::InlineAbsorber).line.inline_absorber,
                left_end_stiffness_n_per_m: of(Cause::Ends).line.left_end_stiffness_n_per_m,
                right_end_stiffness_n_per_m: of(Cause::Ends).line.right_end_stiffness_n_per_m,
            },
            workers: mixed_crew(self.from, self.to, &self.pairs, &takes),
            site: Site {
                beam_top_m: of(Cause::Drop).site.beam_top_m,
                beam_depth_m: self.from.site.beam_depth_m,
                below: of(Cause::Below).site.below.clone(),
                reach_m: of(Cause::Below).site.reach_m,
                margin_m: of(Cause::Margin).site.margin_m,
            },
            posts: of(Cause::Ends).posts,
            temperature: of(Cause::Pretension).temperature,
            tolerances: of(Cause::Others).tolerances,
            allowance: of(Cause::Others).allowance,
            motion: of(Cause::Others).motion,
            ..self.from.clone()
        }
    }

    /// The state of a mixed case; `None`: it cannot be solved.
    pub(super) fn state(&mut self, set: u32) -> Option<State> {
        if let Some(known) = self.known.iter().find(|k| k.0 == set) {
            return known.1;
        }
        let state = self.mixed(set).ready().ok().map(|ready| {
            self.solved += 1;
            let outcome = at_corner(&ready, self.asked.corner).solve(Options::default());
            if set != 0 && set != self.all() && outcome.unknown().is_some() {
                self.doubtful += 1;
            }
            let users = self.causes.iter().position(|&c| c == Cause::Users);
            let in_to = users.is_some_and(|bit| set & (1 << bit) != 0);
            let worker = match self.followed {
                None => outcome.governing_worker,
                Some((_, worker)) if in_to => worker,
                Some((worker, _)) => worker,
            };
            State::of(&outcome, worker)
        });
        self.known.push((set, state));
        state
    }

    /// Average over all orders that can be solved; `None`: there is none.
    pub(super) fn all_orders(&mut self) -> Option<Vec<Numbers>> {
        let k = self.causes.len();
        let sets = 1_usize << k;
        let states: Vec<Option<State>> = (0..sets as u32).map(|set| self.state(set)).collect();
        // Number of orders from nothing to a set, and from a set to everything.
        let mut to_here = vec![0.0; sets];
        let mut from_here = vec![0.0; sets];
        to_here[0] = 1.0;
        from_here[sets - 1] = 1.0;
        for set in 1..sets {
            if states[set].is_some() {
                to_here[set] = bits(set, k).map(|bit| to_here[set ^ bit]).sum();
            }
            let low = sets - 1 - set;
            if states[low].is_some() {
                from_here[low] = bits(set, k).map(|bit| from_here[low | bit]).sum();
            }
        }
        let orders = to_here[sets - 1];
        if orders == 0.0 {
            return None;
        }
        let mut shares = vec![[0.0; NUMBERS]; k];
        for set in 0..sets {
            for (bit, share) in shares.iter_mut().enumerate() {
                let next = set | (1 << bit);
                if next == set {
                    continue;
                }
                let weight = to_here[set] * from_here[next] / orders;
                if let (Some(before), Some(after)) = (states[set], states[next])
                    && weight > 0.0
                {
                    add(share, &after.less(&before), weight);
                }
            }
        }
        Some(shares)
    }

    /// Average over two orders that can be solved; `None`: there is none.
    pub(super) fn two_orders(&mut self) -> Option<Vec<Numbers>> {
        let k = self.causes.len();
        let orders = [self.order(false)?, self.order(true)?];
        let mut shares = vec![[0.0; NUMBERS]; k];
        for order in orders {
            let mut set = 0;
            for bit in order {
                let (before, after) = (self.state(set)?, self.state(set | (1 << bit))?);
                add(&mut shares[bit], &after.less(&before), 0.5);
                set |= 1 << bit;
            }
        }
        Some(shares)
    }

    /// The first order, in the order of causes or its reverse, whose every mixed case can be
    /// solved: depth first, a dead end is never looked at twice.
    fn order(&self, reversed: bool) -> Option<Vec<usize>> {
        let k = self.causes.len();
        let mut dead = vec![false; 1 << k];
        let mut taken: Vec<usize> = Vec::new();
        // Per depth, the next candidate to look at.
        let mut next = vec![0_usize];
        let mut set = 0_usize;
        let mut looked = 0;
        while taken.len() < k {
            let depth = taken.len();
            let candidate = next[depth];
            if candidate == k {
                dead[set] = true;
                next.pop();
                let bit = taken.pop()?;
                set ^= 1 << bit;
                continue;
            }
            next[depth] += 1;
            let bit = if reversed {
                k - 1 - candidate
            } else {
                candidate
            };
            let tried = set | (1 << bit);
            if tried == set || dead[tried] {
                continue;
            }
            looked += 1;
            if looked > SEARCH_MAX {
                return None;
            }
            if self.mixed(tried as u32).ready().is_ok() {
                taken.push(bit);
                next.push(0);
                set = tried;
            } else {
                dead[tried] = true;
            }
        }
        Some(taken)
    }
}

fn bits(set: usize, count: usize) -> impl Iterator<Item = usize> {
    (0..count)
        .map(|bit| 1 << bit)
        .filter(move |bit| set & bit != 0)
}

pub(super) fn add(share: &mut Numbers, change: &Numbers, weight: f64) {
    for (s, c) in share.iter_mut().zip(change) {
        *s += weight * c;
    }
}

/// Whether two workers are alike in one cause.
fn alike(a: &Worker, b: &Worker, cause: Cause) -> bool {
    let bare_gear = |w: &Worker| crate::case::Gear {
        absorber: None,
        ..w.gear
    };
    match cause {
        Cause::Timing => a.fall_time_s == b.fall_time_s,
        Cause::Places => {
            a.position_m == b.position_m
                && a.offset_along_m == b.offset_along_m
                && a.edge_distance_m == b.edge_distance_m
        }
        Cause::Lanyard => bare_gear(a) == bare_gear(b),
        Cause::Absorber => a.gear.absorber == b.gear.absorber,
        Cause::Mass => a.mass_kg == b.mass_kg,
        Cause::Body => {
            a.dring_height_m == b.dring_height_m && a.harness_stretch_m == b.harness_stretch_m
        }
        _ => true,
    }
}

fn differs(a: &Case, b: &Case, pairs: &[(usize, usize)], cause: Cause) -> bool {
    let (l, m) = (&a.line, &b.line);
    let (s, t) = (&a.site, &b.site);
    match cause {
        Cause::Users => a.workers.len() != b.workers.len(),
        Cause::Spans => l.spans_m != m.spans_m,
        Cause::Pretension => l.pretension_n != m.pretension_n || a.temperature != b.temperature,
        Cause::Rope => l.rope != m.rope,
        Cause::Ends => {
            a.posts != b.posts
                || l.left_end_stiffness_n_per_m != m.left_end_stiffness_n_per_m
                || l.right_end_stiffness_n_per_m != m.right_end_stiffness_n_per_m
        }
        Cause::InlineAbsorber => l.inline_absorber != m.inline_absorber,
        Cause::LineHeight => l.height_above_beam_m != m.height_above_beam_m,
        Cause::Margin => s.margin_m != t.margin_m,
        Cause::Drop => s.beam_top_m != t.beam_top_m,
        Cause::Below => s.below != t.below || s.reach_m != t.reach_m,
        Cause::Others => {
            a.tolerances != b.tolerances || a.allowance != b.allowance || a.motion != b.motion
        }
        _ => pairs
            .iter()
            .any(|&(i, j)| !alike(&a.workers[i], &b.workers[j], cause)),
    }
}

/// The crew of a mixed case: whose number it has, with the paired workers' inputs mixed.
fn mixed_crew(
    from: &Case,
    to: &Case,
    pairs: &[(usize, usize)],
    takes: &dyn Fn(Cause) -> bool,
) -> Vec<Worker> {
    let whole = if takes(Cause::Users) { to } else { from };
    let mut crew = whole.workers.clone();
    for &(i, j) in pairs {
        let (a, b) = (&from.workers[i], &to.workers[j]);
        let of = |cause: Cause| if takes(cause) { b } else { a };
        let mut gear = of(Cause::Lanyard).gear;
        gear.absorber = of(Cause::Absorber).gear.absorber;
        let place = of(Cause::Places);
        let body = of(Cause::Body);
        crew[if takes(Cause::Users) { j } else { i }] = Worker {
            position_m: place.position_m,
            offset_along_m: place.offset_along_m,
            edge_distance_m: place.edge_distance_m,
            mass_kg: of(Cause::Mass).mass_kg,
            dring_height_m: body.dring_height_m,
            harness_stretch_m: body.harness_stretch_m,
            fall_time_s: of(Cause::Timing).fall_time_s,
            gear,
        };
    }
    crew
}

/// Pairs the workers of two crews in their order, as many as the smaller has, so that the sum over
/// the pairs of what differs is least: 1,000 for every cause, and the distance of the places in m.
pub(super) fn pairs(a: &[Worker], b: &[Worker]) -> Vec<(usize, usize)> {
    const EACH_CAUSE: f64 = 1_000.0;
    let cost = |i: usize, j: usize| {
        let (a, b) = (&a[i], &b[j]);
        let differing = [
            Cause::Timing,
            Cause::Lanyard,
            Cause::Absorber,
            Cause::Mass,
            Cause::Body,
        ]
        .into_iter()
        .filter(|&c| !alike(a, b, c))
        .count();
        EACH_CAUSE * differing as f64 + (a.position_m - b.position_m).abs()
    };
    let (short, long) = (a.len().min(b.len()), a.len().max(b.len()));
    let of = |s: usize, l: usize| if a.len() <= b.len() { (s, l) } else { (l, s) };
    // least[s][l]: the first s of the shorter paired within the first l of the longer.
    let mut least = vec![vec![f64::INFINITY; long + 1]; short + 1];
    least[0].fill(0.0);
    for s in 1..=short {
        for l in s..=long {
            let (i, j) = of(s - 1, l - 1);
            least[s][l] = (least[s - 1][l - 1] + cost(i, j)).min(least[s][l - 1]);
        }
    }
    let mut pairs = Vec::new();
    let (mut s, mut l) = (short, long);
    while s > 0 {
        // Leaving the last one out when that costs no more keeps the first of equals.
        if l > s && least[s][l - 1] <= least[s][l] {
            l -= 1;
            continue;
        }
        pairs.push(of(s - 1, l - 1));
        (s, l) = (s - 1, l - 1);
    }
    pairs.reverse();
    pairs
}
