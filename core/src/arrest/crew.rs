//! Those who fall in two histories: their motion, the pull of their gear and their lowest points.

use alloc::vec::Vec;

use wide::{CmpGt, CmpLe};

use super::gear::Gears;
use super::pair::{NONE, ONE, Pair, SIDES, greater, of, with};
use super::strands::Strands;
use super::{Fall, Wanted};
use crate::absorber::Pull;
use crate::case::Case;
use crate::constants::GRAVITY_M_PER_S2;
use crate::maths::sqrt;
use crate::mesh::Mesh;

/// One who falls in one history.
#[derive(Clone, Debug)]
pub(super) struct Body {
    /// His place in the case.
    pub worker: usize,
    pub mass_kg: f64,
    pub fall_time_s: f64,
    pub free_fall_m: f64,
    /// Drop at which his soles reach what is below, m.
    pub strike_drop_m: f64,
    /// Node on the left of his connector, and the part of the way from it to the next.
    pub node: usize,
    pub part: f64,
    /// Deflection of his connector at rest, m.
    pub rest_m: f64,
    pub pull: Pull,
}

impl Body {
    /// All who fall, in the order of the case.
    pub fn all(case: &Case, wanted: Wanted<'_>, mesh: &Mesh) -> Vec<Self> {
        case.workers
            .iter()
            .enumerate()
            .filter_map(|(worker, w)| {
                let at = mesh.attachments[worker];
                let rest = |n: usize| mesh.nodes[n].rest_m;
                w.fall_time_s.map(|fall_time_s| Self {
                    worker,
                    mass_kg: w.mass_kg,
                    fall_time_s,
                    free_fall_m: w.free_fall_m(&case.line),
                    strike_drop_m: wanted.strike_drop_m[worker],
                    node: at.node,
                    part: at.part,
                    rest_m: rest(at.node) + at.part * (rest(at.node + 1) - rest(at.node)),
                    pull: Pull::new(&w.gear),
                })
            })
            .collect()
    }

    /// Time at which his gear is taut, the line at rest, s.
    pub fn taut_s(&self) -> f64 {
        self.fall_time_s + sqrt(2.0 * self.free_fall_m / GRAVITY_M_PER_S2)
    }
}

/// One who falls, in both histories.
pub(super) struct Faller {
    bodies: [Body; SIDES],
    falls: [Fall; SIDES],
    node: usize,
    part: Pair,
    rest_m: Pair,
    weight_n: Pair,
    per_mass_per_kg: Pair,
    /// Gravity, m/s²: none until he lets go.
    gravity_m_per_s2: Pair,
    /// Drop from which the gear is taut, the line at rest, m: none reaches it until he lets go.
    slack_m: Pair,
    /// What keeps the connector's deflection from being counted until he lets go, m.
    hold_m: Pair,
    /// Drop of the next strike, m: none until he lets go, and after the first.
    strike_ahead_m: Pair,
    gear: Gears,
    pub drop_m: Pair,
    pub speed_m_per_s: Pair,
    pub force_n: Pair,
    /// Stretch of the gear beyond its unstretched length, negative while slack, m.
    stretch_m: Pair,
    deflection_m: Pair,
    force_max_n: Pair,
    stretch_max_m: Pair,
    deflection_max_m: Pair,
}

/// All who fall, in both histories.
pub(super) struct Crew {
    pub fallers: Vec<Faller>,
    step_s: Pair,
    /// When the next one lets go, s; infinite when all have.
    next_s: Pair,
    /// Greatest work of gravity on them so far, J.
    gravity_work_max_j: Pair,
}

impl Crew {
    /// `bodies`: those who fall in each history, as many in both; all stand.
    pub fn new(bodies: [&[Body]; SIDES], step_s: Pair) -> Self {
        let fallers = bodies[0].iter().zip(bodies[1]);
        let mut crew = Self {
            fallers: fallers.map(|(a, b)| Faller::new([a, b])).collect(),
            step_s,
            next_s: NONE,
            gravity_work_max_j: NONE,
        };
        for side in 0..SIDES {
            crew.look_for_next(side);
        }
        crew
    }

    /// Strikes before a history starts, while everybody still falls freely: on the parabola.
    pub fn strike_before(&mut self, side: usize, start_s: f64) {
        for faller in &mut self.fallers {
            let (body, fall) = (&faller.bodies[side], &mut faller.falls[side]);
            let strike = body.strike_drop_m.max(0.0);
            let time_s = body.fall_time_s + sqrt(2.0 * strike / GRAVITY_M_PER_S2);
            if time_s < start_s {
                let speed = GRAVITY_M_PER_S2 * (time_s - body.fall_time_s);
                fall.struck = Some((time_s, speed));
            }
        }
    }

    /// Kick and drift.
    pub fn advance(&mut self) {
        let dt = self.step_s;
        for faller in &mut self.fallers {
            let acceleration = faller.gravity_m_per_s2 - faller.force_n * faller.per_mass_per_kg;
            faller.speed_m_per_s += dt * acceleration;
            faller.drop_m += dt * faller.speed_m_per_s;
        }
    }

    /// Those who let go before now join on their exact parabola.
    #[inline]
    pub fn let_go(&mut self, now_s: Pair) {
        if now_s.cmp_gt(self.next_s).any() {
            for side in 0..SIDES {
                self.start(side, of(now_s, side));
            }
        }
    }

    #[cold]
    fn start(&mut self, side: usize, now_s: f64) {
        let dt = of(self.step_s, side);
        for faller in &mut self.fallers {
            let body = &faller.bodies[side];
            if faller.stands(side) && now_s > body.fall_time_s {
                let since = now_s - body.fall_time_s;
                let drop_m = 0.5 * GRAVITY_M_PER_S2 * since * since;
                let speed = GRAVITY_M_PER_S2 * (since - 0.5 * dt);
                let slack_m = body.free_fall_m;
                if faller.falls[side].struck.is_none() {
                    let strike_m = body.strike_drop_m;
                    faller.strike_ahead_m = with(faller.strike_ahead_m, side, strike_m);
                }
                faller.gravity_m_per_s2 = with(faller.gravity_m_per_s2, side, GRAVITY_M_PER_S2);
                faller.drop_m = with(faller.drop_m, side, drop_m);
                faller.speed_m_per_s = with(faller.speed_m_per_s, side, speed);
                faller.slack_m = with(faller.slack_m, side, slack_m);
                faller.hold_m = with(faller.hold_m, side, 0.0);
            }
        }
        self.look_for_next(side);
    }

    fn look_for_next(&mut self, side: usize) {
        let next_s = self
            .fallers
            .iter()
            .filter(|faller| faller.stands(side))
            .map(|faller| faller.bodies[side].fall_time_s)
            .fold(f64::INFINITY, f64::min);
        self.next_s = with(self.next_s, side, next_s);
    }

    /// Stretches the gear between those who fall and the line: its forces.
    pub fn stretch(&mut self, strands: &Strands) {
        for faller in &mut self.fallers {
            let (left, right) = (strands.z_m(faller.node), strands.z_m(faller.node + 1));
            let deflection_m = left + faller.part * (right - left);
            let lowered_m = deflection_m - faller.rest_m;
            faller.deflection_m = deflection_m;
            faller.stretch_m = faller.drop_m - lowered_m - faller.slack_m;
            faller.force_n = faller.gear.force_n(faller.stretch_m);
        }
    }

    /// Forces of the gear on the nodes.
    pub fn pull(&self, strands: &mut Strands) {
        for faller in &self.fallers {
            strands.add(faller.node, (ONE - faller.part) * faller.force_n);
            if faller.part.cmp_gt(NONE).any() {
                strands.add(faller.node + 1, faller.part * faller.force_n);
            }
        }
    }

    /// Peaks and lowest points.
    pub fn watch(&mut self, now_s: Pair) {
        let dt = self.step_s;
        let mut work_j = NONE;
        for faller in &mut self.fallers {
            work_j += faller.weight_n * faller.drop_m;
            faller.force_max_n = greater(faller.force_n, faller.force_max_n);
            faller.stretch_max_m = greater(faller.stretch_m, faller.stretch_max_m);
            faller.deflection_max_m =
                greater(faller.deflection_m - faller.hold_m, faller.deflection_max_m);
            let acceleration = faller.gravity_m_per_s2 - faller.force_n * faller.per_mass_per_kg;
            let ahead = faller.speed_m_per_s + dt * acceleration;
            let turns = faller.speed_m_per_s.cmp_gt(NONE) & ahead.cmp_le(NONE);
            if (turns | faller.drop_m.cmp_gt(faller.strike_ahead_m)).any() {
                for side in 0..SIDES {
                    faller.pass(side, of(now_s, side), of(ahead, side));
                }
            }
        }
        self.gravity_work_max_j = greater(work_j, self.gravity_work_max_j);
    }

    /// Greatest work of gravity on those who fall in one history so far, J.
    pub fn gravity_work_max_j(&self, side: usize) -> f64 {
        of(self.gravity_work_max_j, side)
    }

    /// Everybody stands still from now on in one history.
    pub fn stop(&mut self, side: usize) {
        self.next_s = with(self.next_s, side, f64::INFINITY);
        for faller in &mut self.fallers {
            for none in [
                &mut faller.gravity_m_per_s2,
                &mut faller.speed_m_per_s,
                &mut faller.force_n,
            ] {
                *none = with(*none, side, 0.0);
            }
            for never in [&mut faller.slack_m, &mut faller.strike_ahead_m] {
                *never = with(*never, side, f64::INFINITY);
            }
        }
    }
}

impl Faller {
    fn new(bodies: [&Body; SIDES]) -> Self {
        let each = |what: fn(&Body) -> f64| Pair::new(bodies.map(what));
        let never = Pair::splat(f64::INFINITY);
        let rest_m = each(|b| b.rest_m);
        Self {
            bodies: bodies.map(Body::clone),
            falls: [Fall::default(); SIDES],
            node: bodies[0].node,
            part: each(|b| b.part),
            rest_m,
            weight_n: each(|b| b.mass_kg * GRAVITY_M_PER_S2),
            per_mass_per_kg: each(|b| 1.0 / b.mass_kg),
            gravity_m_per_s2: NONE,
            slack_m: never,
            hold_m: never,
            strike_ahead_m: never,
            gear: Gears::new(bodies.map(|b| &b.pull)),
            drop_m: NONE,
            speed_m_per_s: NONE,
            force_n: NONE,
            stretch_m: NONE,
            deflection_m: rest_m,
            force_max_n: NONE,
            stretch_max_m: NONE,
            deflection_max_m: NONE,
        }
    }

    /// He has not let go yet.
    pub fn stands(&self, side: usize) -> bool {
        of(self.hold_m, side) > 0.0
    }

    /// He of one history.
    pub fn body(&self, side: usize) -> &Body {
        &self.bodies[side]
    }

    /// A first strike, or a turning point, if there is one in one history.
    #[cold]
    fn pass(&mut self, side: usize, now_s: f64, ahead_m_per_s: f64) {
        let [drop_m, speed_m_per_s, deflection_m] =
            [self.drop_m, self.speed_m_per_s, self.deflection_m].map(|v| of(v, side));
        let fall = &mut self.falls[side];
        let mean_m_per_s = 0.5 * (speed_m_per_s + ahead_m_per_s);
        if drop_m > of(self.strike_ahead_m, side) {
            fall.struck = Some((now_s, mean_m_per_s));
            self.strike_ahead_m = with(self.strike_ahead_m, side, f64::INFINITY);
        }
        if speed_m_per_s > 0.0 && ahead_m_per_s <= 0.0 {
            // The turning point lies within half a step of now: fit the parabola.
            let acceleration = of(self.gravity_m_per_s2, side)
                - of(self.force_n, side) * of(self.per_mass_per_kg, side);
            let drop = drop_m - mean_m_per_s * mean_m_per_s / (2.0 * acceleration);
            let time = now_s - mean_m_per_s / acceleration;
            if !fall.turned {
                fall.turned = true;
                fall.drop_first_lowest_m = drop;
                fall.time_first_lowest_s = time;
            }
            if drop > fall.drop_max_m {
                fall.drop_max_m = drop;
                fall.time_lowest_s = time;
                fall.deflection_at_lowest_m = deflection_m;
            }
        }
    }

    /// What happened to him in one history until now.
    pub fn fall(&self, side: usize, now_s: f64) -> Fall {
        let mut fall = self.falls[side];
        fall.arrest_force_max_n = of(self.force_max_n, side);
        fall.stretch_max_m = of(self.stretch_max_m, side);
        fall.deflection_max_m = of(self.deflection_max_m, side);
        fall.extension_m = self.gear.extension_m(side);
        let pull = &self.bodies[side].pull;
        fall.used_up = pull.used_up(fall.arrest_force_max_n, fall.stretch_max_m);
        // Until he turns, he is at his lowest now.
        if !fall.turned && !self.stands(side) {
            fall.drop_max_m = of(self.drop_m, side);
            fall.time_lowest_s = now_s;
            fall.deflection_at_lowest_m = of(self.deflection_m, side);
        }
        fall
    }

    /// Work taken by his absorber in one history so far, J.
    pub fn absorbed_j(&self, side: usize) -> f64 {
        self.gear.absorbed_j(side)
    }

    /// Extension of his absorber in one history so far, m.
    pub fn extension_m(&self, side: usize) -> f64 {
        self.gear.extension_m(side)
    }
}
