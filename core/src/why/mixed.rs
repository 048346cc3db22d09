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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{EndPost, InlineAbsorber};
    use crate::demo::demo;
    use crate::spread::Spread;

    fn way<'a>(from: &'a Case, to: &'a Case, worker: usize) -> Way<'a> {
        let asked = Asked {
            follow: Follow::One { worker },
            corner: Corner::Nominal,
        };
        Way::new(from, to, asked)
    }

    /// One worker, a short motion, nothing below.
    fn brief() -> Case {
        let mut case = demo();
        case.workers.truncate(1);
        case.site.below.clear();
        case.motion.duration_s = 0.5;
        case
    }

    /// Every order of these, those that begin with the first first.
    fn orders(of: &[usize]) -> Vec<Vec<usize>> {
        if of.is_empty() {
            return vec![Vec::new()];
        }
        let mut all = Vec::new();
        for (i, &first) in of.iter().enumerate() {
            let mut rest = of.to_vec();
            rest.remove(i);
            for order in orders(&rest) {
                all.push(core::iter::once(first).chain(order).collect());
            }
        }
        all
    }

    /// The sets on the way of an order, the first empty.
    fn sets(order: &[usize]) -> Vec<usize> {
        let mut sets = vec![0];
        for bit in order {
            sets.push(sets[sets.len() - 1] | 1 << bit);
        }
        sets
    }

    #[test]
    fn rounded_shares_add_up_and_the_greatest_takes_what_is_left() {
        let mut by = Spread::new(9);
        for count in 1..6 {
            let exact: Vec<Numbers> = (0..count)
                .map(|_| core::array::from_fn(|_| by.between(-3.0, 3.0)))
                .collect();
            let whole: Numbers =
                core::array::from_fn(|i| on_grid(exact.iter().map(|s| s[i]).sum(), grid(i)));
            let mut shares = exact.clone();
            round_to_sum(&mut shares, &whole);
            for i in 0..NUMBERS {
                let sum: f64 = shares.iter().map(|s| s[i]).sum();
                assert_eq!(sum, whole[i]);
                let greatest = exact.iter().map(|s| s[i].abs()).fold(0.0, f64::max);
                for (share, exact) in shares.iter().zip(&exact) {
                    let takes = exact[i].abs() == greatest;
                    let steps = if takes { 0.5 * count as f64 + 1.0 } else { 0.5 };
                    assert!(
                        (share[i] - exact[i]).abs() <= steps * grid(i),
                        "{count} {i}"
                    );
                }
            }
        }
    }

    /// What a cause changes is the mean over all orders that can be solved: against each of them.
    #[test]
    fn shares_are_the_mean_over_every_order_that_can_be_solved() {
        let case = brief();
        let outcome = case.ready().unwrap().solve(Options::default());
        let state = State::of(&outcome, 0);
        let mut by = Spread::new(4);
        let (mut some, mut none) = (0, 0);
        for round in 0..60 {
            let k = 1 + round % 4;
            let mut known: Vec<(u32, Option<State>)> = Vec::new();
            for set in 0..1 << k {
                let line_deflection_m = by.between(0.0, 1.0);
                let there = State {
                    line_deflection_m,
                    ..state
                };
                // Both ends are known before they are asked for.
                let end = set == 0 || set + 1 == 1 << k;
                known.push((set, (end || by.odds(0.4)).then_some(there)));
            }
            let at = |set: usize| known[set].1.map(|s| s.line_deflection_m);
            let all: Vec<usize> = (0..k).collect();
            let solved: Vec<Vec<usize>> = (orders(&all).into_iter())
                .filter(|order| sets(order).into_iter().all(|set| at(set).is_some()))
                .collect();
            let mut mean = vec![0.0; k];
            for order in &solved {
                for (&bit, sets) in order.iter().zip(sets(order).windows(2)) {
                    let change = at(sets[1]).unwrap() - at(sets[0]).unwrap();
                    mean[bit] += change / solved.len() as f64;
                }
            }
            let mut way = way(&case, &case, 0);
            way.causes = Cause::EACH[..k].to_vec();
            way.known = known;
            match way.all_orders() {
                None => {
                    assert!(solved.is_empty());
                    none += 1;
                }
                Some(shares) => {
                    assert!(!solved.is_empty());
                    for (share, mean) in shares.iter().zip(&mean) {
                        assert!((share[0] - mean).abs() < 1e-12, "{share:?} {mean}");
                    }
                    some += 1;
                }
            }
        }
        assert!(some > 10 && none > 10, "{some} {none}");
    }

    /// Where some mixed cases cannot be solved the way goes round them: the first order of all that
    /// has none, as trying every order finds it. The spans first leave no way on: the lower tension
    /// is too slack for the heavy rope, the lighter rope too weak for the higher tension.
    #[test]
    fn the_order_taken_is_the_first_that_can_be_solved() {
        let mut from = brief();
        from.posts = Default::default();
        from.workers[0].position_m = 5.0;
        from.line.spans_m = vec![10.0];
        from.line.pretension_n = 12.0e3;
        from.line.rope.mass_per_length_kg_per_m = 2.0;
        from.line.rope.breaking_force_n = Some(60.0e3);
        let mut to = from.clone();
        to.line.spans_m = vec![40.0];
        to.line.pretension_n = 1.0e3;
        to.line.rope.mass_per_length_kg_per_m = 0.5;
        to.line.rope.breaking_force_n = Some(8.0e3);
        to.line.height_above_beam_m = 3.9;
        to.workers[0].gear.length_m = 2.6;
        to.workers[0].mass_kg += 10.0;
        let mut no_way = from.clone();
        no_way.line.spans_m = vec![40.0];
        let (mut found, mut none) = (0, 0);
        for from in [&from, &no_way] {
            let way = way(from, &to, 0);
            let k = way.causes.len();
            let solves: Vec<bool> = (0..1 << k)
                .map(|set| way.mixed(set).ready().is_ok())
                .collect();
            assert!(solves[0] && solves[(1 << k) - 1]);
            let forward: Vec<usize> = (0..k).collect();
            let backward: Vec<usize> = (0..k).rev().collect();
            for (reversed, bits) in [(false, forward), (true, backward)] {
                let first = (orders(&bits).into_iter())
                    .find(|order| sets(order).into_iter().all(|set| solves[set]));
                assert_eq!(way.order(reversed), first, "{reversed}");
                found += usize::from(first.is_some());
                none += usize::from(first.is_none());
            }
        }
        assert_eq!((found, none), (2, 2));
    }

    /// An input that is changed alone is one cause, and of two that are changed one is taken.
    #[test]
    fn each_input_is_of_one_cause() {
        type Change = fn(&mut Case);
        let changes: [(Cause, Change); 26] = [
            (Cause::Timing, |c| c.workers[1].fall_time_s = Some(0.5)),
            (Cause::Timing, |c| c.workers[1].fall_time_s = None),
            (Cause::Places, |c| c.workers[1].position_m += 0.5),
            (Cause::Places, |c| c.workers[1].offset_along_m = 0.5),
            (Cause::Places, |c| c.workers[1].edge_distance_m += 0.5),
            (Cause::Spans, |c| c.line.spans_m = vec![6.0; 3]),
            (Cause::Pretension, |c| c.line.pretension_n += 500.0),
            (Cause::Pretension, |c| c.temperature.today_k += 5.0),
            (Cause::Rope, |c| c.line.rope.axial_stiffness_n *= 1.1),
            (Cause::Ends, |c| c.posts.left = None),
            (Cause::Ends, |c| {
                c.line.left_end_stiffness_n_per_m = Some(1.0e6)
            }),
            (Cause::Ends, |c| {
                c.line.right_end_stiffness_n_per_m = Some(1.0e6)
            }),
            (Cause::Ends, |c| {
                let tieback = None;
                c.posts.right = Some(EndPost {
                    tieback,
                    ..EndPost::default()
                });
            }),
            (Cause::InlineAbsorber, |c| {
                c.line.inline_absorber = Some(InlineAbsorber::default())
            }),
            (Cause::Lanyard, |c| c.workers[1].gear.length_m = 1.6),
            (Cause::Absorber, |c| c.workers[1].gear.absorber = None),
            (Cause::Mass, |c| c.workers[1].mass_kg += 10.0),
            (Cause::LineHeight, |c| c.line.height_above_beam_m += 0.1),
            (Cause::Body, |c| c.workers[1].dring_height_m += 0.05),
            (Cause::Body, |c| c.workers[1].harness_stretch_m += 0.05),
            (Cause::Margin, |c| c.site.margin_m += 0.1),
            (Cause::Drop, |c| c.site.beam_top_m += 1.0),
            (Cause::Below, |c| c.site.below[0].height_m += 0.5),
            (Cause::Below, |c| c.site.reach_m += 0.5),
            (Cause::Others, |c| c.tolerances.mass_ratio += 0.01),
            (Cause::Others, |c| c.allowance.tension_ratio += 0.01),
        ];
        let motion: (Cause, Change) = (Cause::Others, |c| c.motion.duration_s += 0.5);
        let from = demo();
        let changed = |changes: &[Change]| {
            let mut case = from.clone();
            changes.iter().for_each(|change| change(&mut case));
            case
        };
        for (i, &(cause, change)) in changes.iter().chain([&motion]).enumerate() {
            let to = changed(&[change]);
            let alone = way(&from, &to, 0);
            assert_eq!(alone.causes, [cause], "{i}");
            assert_eq!((alone.mixed(0), alone.mixed(1)), (from.clone(), to), "{i}");
            for &(other, also) in &changes {
                let to = changed(&[change, also]);
                if other != cause {
                    let both = way(&from, &to, 0);
                    assert_eq!(both.causes.len(), 2, "{i} {other:?}");
                    let bit = both.causes.iter().position(|c| *c == cause).unwrap();
                    assert_eq!(both.mixed(1 << bit), changed(&[change]), "{i} {other:?}");
                }
            }
        }
    }

    /// Who is in both cases is taken cause by cause, who is in one of them comes and goes as a user.
    #[test]
    fn a_mixed_crew_has_the_number_of_one_case_and_the_inputs_of_both() {
        let masses = |case: &Case| -> Vec<f64> { case.workers.iter().map(|w| w.mass_kg).collect() };
        let mut from = demo();
        from.workers[1].gear.length_m = 1.5;
        let mut to = from.clone();
        to.workers.remove(1);
        to.workers.iter_mut().for_each(|w| w.mass_kg = 100.0);
        for (from, to, mass, users) in [
            (
                &from,
                &to,
                [100.0, 90.0, 100.0].to_vec(),
                [90.0, 90.0].to_vec(),
            ),
            (
                &to,
                &from,
                [90.0, 90.0].to_vec(),
                [100.0, 90.0, 100.0].to_vec(),
            ),
        ] {
            let way = way(from, to, 0);
            assert_eq!(way.causes, [Cause::Users, Cause::Mass]);
            assert_eq!(way.mixed(0), *from);
            assert_eq!(masses(&way.mixed(2)), mass);
            assert_eq!(masses(&way.mixed(1)), users);
            assert_eq!(way.mixed(3), *to);
        }
    }

    /// One person is followed through every mixed case; who is in one case only has the nearest for a
    /// partner. Mixed cases alone count as doubtful.
    #[test]
    fn one_person_is_followed_through_every_mixed_case() {
        let from = brief();
        let mut to = from.clone();
        to.workers.insert(0, from.workers[0]);
        to.workers[0].position_m = 3.0;
        to.workers[0].gear.length_m = 1.6;
        to.workers[1].mass_kg += 10.0;
        let mut way_of = way(&from, &to, 1);
        assert_eq!(way_of.causes, [Cause::Users, Cause::Mass]);
        let followed: Vec<usize> = (0..4)
            .map(|set| way_of.state(set).unwrap().worker)
            .collect();
        assert_eq!(followed, [0, 1, 0, 1]);
        // Half a second is too short for any of the four.
        assert_eq!((way_of.solved, way_of.doubtful), (4, 2));
        // The two cases themselves do not count.
        let mut ends = way(&from, &to, 1);
        for set in [0, 3] {
            ends.state(set);
        }
        assert_eq!((ends.solved, ends.doubtful), (2, 0));
        let mut from = demo();
        from.workers.truncate(2);
        for (place_m, partner) in [(10.0, 0), (11.9, 0), (12.1, 1), (17.0, 1)] {
            let mut to = from.clone();
            to.workers.insert(1, from.workers[0]);
            to.workers[1].mass_kg += 10.0;
            to.workers[1].position_m = place_m;
            assert_eq!(way(&from, &to, 1).followed, Some((partner, 1)), "{place_m}");
            assert_eq!(way(&from, &to, 2).followed, Some((1, 2)), "{place_m}");
        }
    }

    /// Every way to pair the shorter crew within the longer, both in their order.
    fn pairings(short: usize, long: usize) -> Vec<Vec<usize>> {
        if short == 0 {
            return vec![Vec::new()];
        }
        let mut all = Vec::new();
        for last in short - 1..long {
            for mut pairing in pairings(short - 1, last) {
                pairing.push(last);
                all.push(pairing);
            }
        }
        all
    }

    #[test]
    fn crews_are_paired_by_the_least_difference_of_all_pairings() {
        let mut by = Spread::new(12);
        let one = demo().workers[0];
        let mut crew = |count: usize| -> Vec<Worker> {
            let mut worker = || {
                let mut w = one;
                w.position_m = by.between(0.0, 18.0);
                w.mass_kg += if by.odds(0.3) { 10.0 } else { 0.0 };
                w.dring_height_m += if by.odds(0.3) { 0.1 } else { 0.0 };
                w.gear.length_m -= if by.odds(0.3) { 0.2 } else { 0.0 };
                w.gear.absorber = if by.odds(0.3) { None } else { w.gear.absorber };
                w.fall_time_s = if by.odds(0.3) { None } else { w.fall_time_s };
                w
            };
            (0..count).map(|_| worker()).collect()
        };
        let cost = |a: &Worker, b: &Worker| {
            let differing = [
                a.mass_kg != b.mass_kg,
                a.dring_height_m != b.dring_height_m,
                a.gear.length_m != b.gear.length_m,
                a.gear.absorber != b.gear.absorber,
                a.fall_time_s != b.fall_time_s,
            ];
            let count = differing.into_iter().filter(|d| *d).count();
            1_000.0 * count as f64 + (a.position_m - b.position_m).abs()
        };
        for round in 0..80 {
            let (a, b) = (crew(1 + round % 5), crew(1 + round / 5 % 5));
            let of = |pairs: &[(usize, usize)]| -> f64 {
                pairs.iter().map(|&(i, j)| cost(&a[i], &b[j])).sum()
            };
            let found = pairs(&a, &b);
            assert!(found.is_sorted(), "{found:?}");
            let (short, long) = (a.len().min(b.len()), a.len().max(b.len()));
            let all: Vec<Vec<(usize, usize)>> = (pairings(short, long).into_iter())
                .map(|pairing| {
                    let way = |(s, &l)| if a.len() <= b.len() { (s, l) } else { (l, s) };
                    pairing.iter().enumerate().map(way).collect()
                })
                .collect();
            assert!(all.contains(&found), "{found:?}");
            let least = all.iter().map(|p| of(p)).fold(f64::INFINITY, f64::min);
            assert!((of(&found) - least).abs() < 1e-9, "{found:?} {least}");
        }
        // Of equals the first.
        assert_eq!(pairs(&[one], &[one; 3]), [(0, 0)]);
        assert_eq!(pairs(&[one; 3], &[one]), [(0, 0)]);
    }
}
