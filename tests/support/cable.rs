//! A rope in the vertical plane, cut into short straight elements whose nodes move along and across:
//! an independent model of the same falls, with nothing of core in it but the case that is described.
//!
//! Elements carry tension only; masses are lumped at the nodes. Intermediate supports are points: the
//! element that passes over one is bent there and slides without friction, and nodes pass from one
//! side to the other. An in-line absorber at either end, without mass, in line with the element there, is
//! rigid up to its tension, then plastic; an end that moves is a spring. Workers are masses that move
//! vertically on gear with memory, fixed to a node. Damping is proportional to stiffness: the rate of
//! an element's force on its nodes times the stated time is added to it. Explicit leapfrog.
//!
//! Against `reference/multispan_dynamics.json`, an independent model of the same kind, and against
//! the finite element lines of `reference/dynamics.json`, see `cable.rs` among the checks.

use footroom_core::case::{Absorber, Case, Gear};
use footroom_core::constants::GRAVITY_M_PER_S2;

/// How fine a cable is.
#[derive(Clone, Copy, Debug)]
pub struct Fineness {
    /// Length of an element, m.
    pub element_m: f64,
    /// Step, s.
    pub step_s: f64,
    /// Simulated time, s.
    pub duration_s: f64,
}

/// Elements and steps as fine as the references.
pub const STANDARD: Fineness = Fineness {
    element_m: 0.3,
    step_s: 1.2e-5,
    duration_s: 6.0,
};

/// What happened to one worker.
#[derive(Clone, Debug, Default)]
pub struct Arrested {
    /// Greatest force in his gear, N.
    pub force_max_n: f64,
    /// Drop to the first lowest point, m.
    pub drop_first_lowest_m: f64,
    /// Greatest drop, m.
    pub drop_max_m: f64,
    /// Greatest deflection of his connector, m.
    pub deflection_max_m: f64,
    /// Extension of his absorber, m.
    pub extension_m: f64,
    turned: bool,
}

/// What a cable gives.
#[derive(Clone, Debug, Default)]
pub struct CableFall {
    /// One a worker, in the order of the case.
    pub workers: Vec<Arrested>,
    /// Raw peak of the tension anywhere, N.
    pub tension_max_n: f64,
    /// Greatest mean of it over 2 ms, N.
    pub tension_max_2ms_n: f64,
    /// Greatest horizontal pull on the left and the right end, N.
    pub end_horizontal_max_n: [f64; 2],
    /// Greatest downward force on the intermediate posts, N, left to right.
    pub post_vertical_max_n: Vec<f64>,
    /// Greatest force on them along the line, N.
    pub post_along_max_n: Vec<f64>,
    /// Extension of the in-line absorbers at the left and the right end, m.
    pub inline_extension_m: [f64; 2],
    /// Greatest slope of an element, vertical over horizontal.
    pub slope_max: f64,
}

/// A point mass of rope.
#[derive(Clone, Copy, Default)]
struct Node {
    x: f64,
    z: f64,
    vx: f64,
    vz: f64,
    fx: f64,
    fz: f64,
    mass: f64,
}

/// A straight element, or one bent over a support.
#[derive(Clone, Copy, Default)]
struct Element {
    rope: f64,
    tension: f64,
    /// Its pull along and down on its left node and its right one, and the support that it is over,
    /// at the last step.
    pull: [f64; 4],
    over: usize,
    /// Sum of its tensions over the last 2 ms.
    sum: f64,
}

/// A worker on his gear.
struct Body {
    node: usize,
    mass: f64,
    start: f64,
    free: f64,
    rest: f64,
    drop: f64,
    speed: f64,
    gear: Gear,
    extension: f64,
}

impl Body {
    /// Force at this stretch of gear and absorber together.
    fn force(&mut self, stretch: f64) -> f64 {
        let k = self.gear.stiffness_n_per_m;
        let elastic = (k * (stretch - self.extension)).max(0.0);
        let Some(absorber) = self.gear.absorber else {
            return elastic;
        };
        if !absorber.curve_extension_m.is_empty() {
            return self.force_on_curve(absorber, stretch);
        }
        let plateau = absorber.average_force_n;
        if elastic <= plateau {
            return elastic;
        }
        let wanted = stretch - plateau / k;
        self.extension = wanted.min(absorber.max_extension_m);
        let beyond = wanted - self.extension;
        plateau + absorber.locked_stiffness_n_per_m * beyond
    }
}

impl Body {
    /// The same on a curve: the absorber gives by hundredths of a millimetre while it is pulled by more
    /// than it bears.
    fn force_on_curve(&mut self, absorber: Absorber, stretch: f64) -> f64 {
        const GIVES: f64 = 1.0e-5;
        let k = self.gear.stiffness_n_per_m;
        let x = absorber.curve_extension_m.as_slice();
        let f = absorber.curve_force_n.as_slice();
        let bears = |extension: f64| {
            let to = x.iter().position(|x| *x > extension);
            let to = to.unwrap_or(x.len() - 1).max(1);
            let part = (extension - x[to - 1]).min(x[to] - x[to - 1]) / (x[to] - x[to - 1]);
            f[to - 1] + part * (f[to] - f[to - 1])
        };
        let most = x[x.len() - 1];
        while self.extension < most && k * (stretch - self.extension) > bears(self.extension) {
            self.extension = most.min(self.extension + GIVES);
        }
        let elastic = (k * (stretch - self.extension)).max(0.0);
        let last = bears(most);
        if self.extension < most || elastic <= last {
            return elastic;
        }
        last + absorber.locked_stiffness_n_per_m * (stretch - most - last / k)
    }
}

/// Places of the nodes at rest: the ends, both sides of every support, the connectors, and equal
/// elements between.
fn places(case: &Case, element_m: f64) -> Vec<f64> {
    let line = &case.line;
    let half = 0.5 * element_m;
    let mut fixed = vec![0.0];
    let mut start = 0.0;
    for (i, length) in line.spans_m.iter().enumerate() {
        let end = start + length;
        if i > 0 {
            fixed.push(start + half);
        }
        for worker in &case.workers {
            let x = worker.position_m;
            if worker.fall_time_s.is_some() && x > start && x <= end {
                fixed.push(x);
            }
        }
        fixed.push(if i + 1 == line.spans_m.len() {
            end
        } else {
            end - half
        });
        start = end;
    }
    fixed.sort_by(f64::total_cmp);
    fixed.dedup_by(|a, b| (*a - *b).abs() < 1.0e-3);
    let mut out = vec![0.0];
    for pair in fixed.windows(2) {
        let count = ((pair[1] - pair[0]) / element_m).round().max(1.0);
        for k in 1..=count as usize {
            out.push(pair[0] + (pair[1] - pair[0]) * k as f64 / count);
        }
    }
    out
}

/// The motion of a rope and of those who fall on it. The case is taken as it stands: stiffnesses of
/// its ends, not described posts; free falls as they follow from it.
pub fn fall(case: &Case, fineness: Fineness) -> CableFall {
    let line = &case.line;
    let Fineness {
        element_m,
        step_s: dt,
        duration_s,
    } = fineness;
    let (g, ea) = (GRAVITY_M_PER_S2, line.rope.axial_stiffness_n);
    let mu = line.rope.mass_per_length_kg_per_m;
    let h = line.pretension_n;
    let xs = places(case, element_m);
    let last = xs.len() - 1;
    let mut supports: Vec<f64> = Vec::new();
    let mut at = 0.0;
    for length in &line.spans_m[..line.spans_m.len() - 1] {
        at += length;
        supports.push(at);
    }
    let mut nodes: Vec<Node> = xs
        .iter()
        .map(|&x| Node {
            x,
            z: line.rest_deflection_m(x),
            ..Node::default()
        })
        .collect();
    // The element over each support: from this node to the next.
    let mut over: Vec<usize> = supports
        .iter()
        .map(|s| xs.iter().rposition(|x| x < s).expect("a node before"))
        .collect();
    let chord = |a: &Node, b: &Node| ((b.x - a.x).powi(2) + (b.z - a.z).powi(2)).sqrt();
    let mut elements: Vec<Element> = (0..last)
        .map(|i| {
            let (a, b) = (&nodes[i], &nodes[i + 1]);
            let length = match over.iter().position(|o| *o == i) {
                Some(s) => {
                    let post = Node {
                        x: supports[s],
                        ..Node::default()
                    };
                    chord(a, &post) + chord(&post, b)
                }
                None => chord(a, b),
            };
            let tension = h * length / (b.x - a.x);
            Element {
                rope: length / (1.0 + tension / ea),
                tension,
                // No force to compare with yet.
                over: usize::MAX - 1,
                ..Element::default()
            }
        })
        .collect();
    for (i, e) in elements.iter().enumerate() {
        nodes[i].mass += 0.5 * mu * e.rope;
        nodes[i + 1].mass += 0.5 * mu * e.rope;
    }
    let mut bodies: Vec<Body> = Vec::new();
    let mut whose = Vec::new();
    for (i, w) in case.workers.iter().enumerate() {
        if let Some(start) = w.fall_time_s {
            let node = (0..=last)
                .min_by(|a, b| {
                    (xs[*a] - w.position_m)
                        .abs()
                        .total_cmp(&(xs[*b] - w.position_m).abs())
                })
                .expect("nodes");
            bodies.push(Body {
                node,
                mass: w.mass_kg,
                start,
                free: w.free_fall_m(line),
                rest: nodes[node].z,
                drop: 0.0,
                speed: 0.0,
                gear: w.gear,
                extension: 0.0,
            });
            whose.push(i);
        }
    }
    let mut out = CableFall {
        workers: vec![Arrested::default(); case.workers.len()],
        post_vertical_max_n: vec![0.0; supports.len()],
        post_along_max_n: vec![0.0; supports.len()],
        ..CableFall::default()
    };
    let springs = [
        line.left_end_stiffness_n_per_m,
        line.right_end_stiffness_n_per_m,
    ];
    let inline = line.inline_absorber;
    let mut extensions = [0.0_f64; 2];
    // Up to 2 ms before the first gear is taut nothing moves.
    let taut = bodies
        .iter()
        .map(|b| b.start + (2.0 * b.free / g).sqrt())
        .fold(f64::INFINITY, f64::min);
    let first = ((taut - 0.002).max(0.0) / dt).floor() as u64;
    let steps = (duration_s / dt).ceil() as u64;
    let window = (0.002 / dt).round() as usize;
    let mut ring: Vec<f64> = vec![0.0; elements.len() * window];
    let beta = case.motion.damping_s;
    let mut straddles = vec![usize::MAX; elements.len()];
    for step in first..=steps {
        let now = step as f64 * dt;
        let slot = (step as usize % window) * elements.len();
        straddles.fill(usize::MAX);
        for (s, i) in over.iter().enumerate() {
            straddles[*i] = s;
        }
        for node in &mut nodes {
            node.fx = 0.0;
            node.fz = node.mass * g;
        }
        let mut ends = [0.0; 2];
        let full = step - first >= window as u64;
        for i in 0..elements.len() {
            let (a, b) = (nodes[i], nodes[i + 1]);
            let element = &mut elements[i];
            let s = straddles[i];
            let (length, from_a, to_b) = if s == usize::MAX {
                let (dx, dz) = (b.x - a.x, b.z - a.z);
                let length = (dx * dx + dz * dz).sqrt();
                let way = (dx / length, dz / length);
                (length, way, way)
            } else {
                let (ax, az) = (supports[s] - a.x, -a.z);
                let (bx, bz) = (b.x - supports[s], b.z);
                let la = (ax * ax + az * az).sqrt().max(1.0e-9);
                let lb = (bx * bx + bz * bz).sqrt().max(1.0e-9);
                (la + lb, (ax / la, az / la), (bx / lb, bz / lb))
            };
            let mut stretched = length;
            let end = match i {
                0 => Some(0),
                _ => (i + 1 == last).then_some(1),
            };
            if let Some(end) = end
                && let Some(a) = inline.filter(|a| a.place.is_at(end))
            {
                // In line with its element: at the yield force it gives what that is too long.
                let wanted = length - element.rope * (1.0 + a.yield_force_n / ea);
                let given = &mut extensions[end];
                *given = given.max(wanted.min(a.max_extension_m));
                stretched -= *given;
            }
            let tension = (ea * (stretched / element.rope - 1.0)).max(0.0);
            let pull = [from_a.0, from_a.1, to_b.0, to_b.1].map(|part| tension * part);
            // The rate of the force, unless the element has just come to a support or left it.
            let rate = if element.over == s { beta / dt } else { 0.0 };
            let damped: [f64; 4] =
                core::array::from_fn(|k| pull[k] + rate * (pull[k] - element.pull[k]));
            element.pull = pull;
            element.over = s;
            element.tension = tension;
            let mean = &mut ring[slot + i];
            element.sum += tension - *mean;
            *mean = tension;
            out.tension_max_n = out.tension_max_n.max(tension);
            if full {
                out.tension_max_2ms_n = out.tension_max_2ms_n.max(element.sum / window as f64);
            }
            nodes[i].fx += damped[0];
            nodes[i].fz += damped[1];
            nodes[i + 1].fx -= damped[2];
            nodes[i + 1].fz -= damped[3];
            if s != usize::MAX {
                let down = tension * (to_b.1 - from_a.1);
                let along = (tension * (to_b.0 - from_a.0)).abs();
                out.post_vertical_max_n[s] = out.post_vertical_max_n[s].max(down);
                out.post_along_max_n[s] = out.post_along_max_n[s].max(along);
            }
            if i == 0 {
                ends[0] = tension * from_a.0;
            }
            if i + 1 == elements.len() {
                ends[1] = tension * to_b.0;
            }
            if tension > 100.0 {
                out.slope_max = out.slope_max.max((from_a.1 / from_a.0).abs());
            }
        }
        for (most, now) in out.end_horizontal_max_n.iter_mut().zip(ends) {
            *most = most.max(now);
        }
        // Those who fall.
        for (body, worker) in bodies.iter_mut().zip(&whose) {
            let deflection = nodes[body.node].z;
            let found = &mut out.workers[*worker];
            if now <= body.start {
                continue;
            }
            if body.speed == 0.0 && body.drop == 0.0 {
                let since = now - body.start;
                body.drop = 0.5 * g * since * since;
                body.speed = g * (since - 0.5 * dt);
            }
            let force = body.force(body.drop - (deflection - body.rest) - body.free);
            nodes[body.node].fz += force;
            let before = body.speed;
            body.speed += dt * (g - force / body.mass);
            found.force_max_n = found.force_max_n.max(force);
            found.deflection_max_m = found.deflection_max_m.max(deflection);
            found.extension_m = body.extension;
            if before > 0.0 && body.speed <= 0.0 {
                if !found.turned {
                    found.turned = true;
                    found.drop_first_lowest_m = body.drop;
                }
                if body.drop > found.drop_max_m {
                    found.drop_max_m = body.drop;
                }
            }
            body.drop += dt * body.speed;
        }
        // The ends: what holds them on the other side.
        for (end, k) in springs.into_iter().enumerate() {
            let (i, inward) = if end == 0 { (0, 1.0) } else { (last, -1.0) };
            let home = if end == 0 { 0.0 } else { xs[last] };
            let node = &mut nodes[i];
            node.fz = 0.0;
            node.vz = 0.0;
            match k {
                Some(k) => node.fx -= (h + k * (node.x - home) * inward) * inward,
                None => {
                    node.fx = 0.0;
                    node.vx = 0.0;
                }
            }
        }
        for node in &mut nodes {
            node.vx += dt * node.fx / node.mass;
            node.vz += dt * node.fz / node.mass;
            node.x += dt * node.vx;
            node.z += dt * node.vz;
        }
        nodes[0].z = 0.0;
        nodes[last].z = 0.0;
        for (i, x) in over.iter_mut().zip(&supports) {
            if nodes[*i].x >= *x && *i > 0 {
                *i -= 1;
            } else if nodes[*i + 1].x < *x && *i + 2 < nodes.len() {
                *i += 1;
            }
        }
    }
    out.inline_extension_m = extensions;
    out
}
