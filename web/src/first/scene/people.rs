//! People: a jointed figure whose posture tells the phase of the fall, and its connecting gear.

use super::layout::Layout;
use super::moment::{Phase, WorkerMoment, held};
use super::pattern::Pattern;
use super::pen::{Pen, ribbon};
use super::surface::{Point, Rect, at};
use super::turn::sin_cos;

/// Stature over the height of the D-ring, which is drawn at the level of the shoulder joint.
const STATURE_PER_DRING: f64 = 1.2;
/// Length of the folded absorber pack, m. Only drawn.
const PACK_M: f64 = 0.24;
/// Extension at which the drawn pack is empty, m. Only drawn.
const PACK_EMPTY_M: f64 = 1.1;

/// Angles of a body, degrees. The trunk's from upright, all others from straight down; forward
/// is positive. Arms and legs are (near, far), each with its upper and its lower part.
#[derive(Clone, Copy, Debug)]
struct Posture {
    trunk: f64,
    head: f64,
    arms: [(f64, f64); 2],
    legs: [(f64, f64); 2],
}

/// At work: upright, one hand out.
const STANDING: Posture = Posture {
    trunk: 5.0,
    head: 12.0,
    arms: [(38.0, 72.0), (10.0, 34.0)],
    legs: [(9.0, -1.0), (-9.0, -9.0)],
};
/// In the air: arms flung up, legs apart.
const FALLING: Posture = Posture {
    trunk: 16.0,
    head: -18.0,
    arms: [(128.0, 158.0), (-112.0, -148.0)],
    legs: [(42.0, -26.0), (-12.0, -24.0)],
};
/// Caught at the back: folded forward, limbs swung out.
const CAUGHT: Posture = Posture {
    trunk: 30.0,
    head: 42.0,
    arms: [(78.0, 100.0), (52.0, 74.0)],
    legs: [(62.0, 18.0), (10.0, 6.0)],
};
/// Hanging: leaning a little, limbs loose.
const HANGING: Posture = Posture {
    trunk: 14.0,
    head: 24.0,
    arms: [(14.0, 24.0), (2.0, 14.0)],
    legs: [(24.0, -4.0), (6.0, -10.0)],
};

impl Posture {
    fn mix(self, other: Self, part: f64) -> Self {
        let one = |a: f64, b: f64| a + (b - a) * part;
        let two = |a: (f64, f64), b: (f64, f64)| (one(a.0, b.0), one(a.1, b.1));
        Self {
            trunk: one(self.trunk, other.trunk),
            head: one(self.head, other.head),
            arms: [
                two(self.arms[0], other.arms[0]),
                two(self.arms[1], other.arms[1]),
            ],
            legs: [
                two(self.legs[0], other.legs[0]),
                two(self.legs[1], other.legs[1]),
            ],
        }
    }

    /// The posture in a phase; limbs trail behind the speed while the body bounces.
    fn of(phase: Phase, speed_m_per_s: f64) -> Self {
        let mut posture = STANDING
            .mix(FALLING, phase.falling)
            .mix(CAUGHT, phase.caught)
            .mix(HANGING, phase.hanging);
        let trail = held(speed_m_per_s, -3.0, 3.0) * 5.0 * phase.caught;
        for limb in posture.arms.iter_mut().chain(&mut posture.legs) {
            limb.0 += trail;
            limb.1 += 1.5 * trail;
        }
        posture
    }
}

/// How a figure is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// The worker whose stack is drawn.
    Focus,
    /// Another worker.
    Other,
    /// The outline of a place that is not the present one.
    Ghost,
    /// Has come down on what is below.
    Struck,
}

/// Joints of a figure, px.
struct Figure {
    unit: f64,
    shoulder: Point,
    hip: Point,
    head: Point,
    head_turn: f64,
    facing: f64,
    arms: [[Point; 3]; 2],
    legs: [[Point; 4]; 2],
}

impl Figure {
    /// A figure whose back is caught at `back`, and whose lower foot stands on `soles_y`.
    fn new(posture: Posture, back: Point, soles_y: f64, stature_px: f64, facing: f64) -> Self {
        let unit = stature_px;
        let turn = |from: Point, length: f64, degrees: f64| {
            let (sin, cos) = sin_cos(degrees.to_radians());
            at(
                from.x + facing * length * unit * sin,
                from.y + length * unit * cos,
            )
        };
        let shoulder = at(back.x + facing * 0.05 * unit, back.y);
        // The trunk leans forward about the shoulder, where the D-ring holds it.
        let hip = turn(shoulder, 0.30, -posture.trunk);
        let head = turn(
            shoulder,
            -0.145,
            -(posture.trunk + 0.6 * posture.head).min(75.0),
        );
        let arm = |(upper, lower): (f64, f64)| {
            let elbow = turn(shoulder, 0.165, upper);
            [shoulder, elbow, turn(elbow, 0.165, lower)]
        };
        let leg = |(upper, lower): (f64, f64)| {
            let knee = turn(hip, 0.255, upper);
            let ankle = turn(knee, 0.235, lower);
            [hip, knee, ankle, turn(ankle, 0.085, lower + 74.0)]
        };
        let mut figure = Self {
            unit,
            shoulder,
            hip,
            head,
            head_turn: posture.trunk + posture.head,
            facing,
            arms: [arm(posture.arms[0]), arm(posture.arms[1])],
            legs: [leg(posture.legs[0]), leg(posture.legs[1])],
        };
        figure.stretch_to(soles_y);
        figure
    }

    /// Stretches the legs so that the lowest sole is exactly at `soles_y`.
    fn stretch_to(&mut self, soles_y: f64) {
        let sole = 0.026 * self.unit;
        let lowest = self
            .legs
            .iter()
            .flatten()
            .fold(self.hip.y + 1.0, |low: f64, p| low.max(p.y));
        let factor = held(
            (soles_y - sole - self.hip.y) / (lowest - self.hip.y),
            0.2,
            1.6,
        );
        for p in self.legs.iter_mut().flatten() {
            p.y = self.hip.y + (p.y - self.hip.y) * factor;
        }
    }

    /// Draws every part as one silhouette, `more` px wider than the body. Parts of a width go
    /// together, so that the surface can make one stroke of them.
    fn silhouette(&self, pen: &mut Pen<'_>, colour: &str, more: f64) {
        for bone in 0..3 {
            for i in [1, 0] {
                self.bone(pen, i, bone, colour, more);
            }
        }
        self.trunk(pen, colour, more);
        for i in [1, 0] {
            self.arm(pen, i, colour, more);
        }
        self.skull(pen, colour, more);
    }

    fn arm(&self, pen: &mut Pen<'_>, i: usize, colour: &str, more: f64) {
        pen.trace(&self.arms[i]);
        pen.surface
            .stroke(colour, (0.058 * self.unit).max(1.6) + more, &[]);
    }

    fn leg(&self, pen: &mut Pen<'_>, i: usize, colour: &str, more: f64) {
        for bone in 0..3 {
            self.bone(pen, i, bone, colour, more);
        }
    }

    /// Thigh, shank or foot.
    fn bone(&self, pen: &mut Pen<'_>, i: usize, bone: usize, colour: &str, more: f64) {
        let (width, least) = [(0.086, 2.0), (0.066, 1.8), (0.052, 1.6)][bone];
        pen.trace(&self.legs[i][bone..bone + 2]);
        pen.surface
            .stroke(colour, (width * self.unit).max(least) + more, &[]);
    }

    fn trunk(&self, pen: &mut Pen<'_>, colour: &str, more: f64) {
        pen.trace(&[self.shoulder, self.hip]);
        pen.surface
            .stroke(colour, (0.122 * self.unit).max(2.4) + more, &[]);
    }

    fn skull(&self, pen: &mut Pen<'_>, colour: &str, more: f64) {
        pen.surface.path();
        pen.surface
            .circle(self.head, 0.058 * self.unit + 0.5 * more);
        pen.surface.fill(colour);
    }

    /// The helmet: half a disc with a peak, turned with the head.
    fn helmet(&self, pen: &mut Pen<'_>, colour: &str) {
        let r = 0.073 * self.unit;
        let tilt = self.head_turn.clamp(-35.0, 70.0).to_radians();
        let (sin, cos) = sin_cos(tilt);
        // Local axes: u forward along the brim, v up through the crown.
        let local = |u: f64, v: f64| {
            at(
                self.head.x + self.facing * (u * cos + v * sin),
                self.head.y + u * sin - v * cos,
            )
        };
        let steps = 10;
        pen.surface.path();
        pen.surface.move_to(local(r * 1.55, r * 0.12));
        for i in 0..=steps {
            let (up, along) = sin_cos(core::f64::consts::PI * f64::from(i) / f64::from(steps));
            pen.surface
                .line_to(local(r * along, r * (0.18 + up * 0.98)));
        }
        pen.surface.line_to(local(-r, r * 0.1));
        pen.surface.close();
        pen.surface.fill(colour);
    }

    /// The harness over the trunk.
    fn harness(&self, pen: &mut Pen<'_>, colour: &str) {
        let (s, h) = (self.shoulder, self.hip);
        let mix = |u: f64, side: f64| {
            let (dx, dy) = (h.x - s.x, h.y - s.y);
            let half = 0.05 * self.unit * side;
            let length = (dx * dx + dy * dy).sqrt().max(1.0);
            at(
                s.x + dx * u - dy / length * half,
                s.y + dy * u + dx / length * half,
            )
        };
        let width = (0.016 * self.unit).max(0.9);
        pen.trace(&[mix(-0.05, 1.0), mix(0.55, -1.0), mix(1.02, -1.0)]);
        pen.surface.stroke(colour, width, &[]);
        pen.trace(&[mix(-0.05, -1.0), mix(0.55, 1.0), mix(1.02, 1.0)]);
        pen.surface.stroke(colour, width, &[]);
        pen.trace(&[mix(1.0, -1.1), mix(1.0, 1.1)]);
        pen.surface.stroke(colour, width * 1.4, &[]);
    }

    /// Box around everything, px.
    fn bounds(&self) -> Rect {
        let mut low = self.head;
        let mut high = self.head;
        for p in self.arms.iter().flatten().chain(self.legs.iter().flatten()) {
            low = at(low.x.min(p.x), low.y.min(p.y));
            high = at(high.x.max(p.x), high.y.max(p.y));
        }
        let r = 0.11 * self.unit;
        Rect {
            x: low.x.min(self.head.x - r),
            y: low.y.min(self.head.y - r),
            w: high.x.max(self.head.x + r) - low.x.min(self.head.x - r),
            h: high.y - low.y.min(self.head.y - r),
        }
        .grown(0.03 * self.unit)
    }
}

/// Which way a worker faces: neighbours face each other's way, so that a row does not look copied.
fn facing(worker: usize) -> f64 {
    if worker.is_multiple_of(2) { 1.0 } else { -1.0 }
}

/// Draws a worker with his gear. Gives the box of the figure.
pub fn draw(
    pen: &mut Pen<'_>,
    layout: &Layout,
    worker: &WorkerMoment,
    index: usize,
    look: Look,
) -> Rect {
    let theme = pen.theme;
    let ring = layout.point(worker.position_m, worker.dring_m);
    let back = layout.point(worker.position_m, worker.dring_m + worker.harness_m);
    let soles_y = layout.depth_y(worker.soles_m);
    let facing = facing(index);
    let stature_px = worker.dring_height_m * STATURE_PER_DRING * layout.px_per_m;
    let posture = Posture::of(worker.phase, worker.speed_m_per_s);
    let figure = Figure::new(posture, back, soles_y, stature_px, facing);

    if look != Look::Ghost {
        gear(pen, layout, worker, ring, facing);
        if worker.harness_m > 0.01 {
            pen.trace(&[ring, at(back.x + facing * 0.02 * stature_px, back.y)]);
            pen.surface
                .stroke(&theme.ink, (0.03 * stature_px).max(1.8), &[]);
        }
    }
    match look {
        Look::Ghost | Look::Struck => {
            let colour = if look == Look::Ghost {
                &theme.muted
            } else {
                &theme.warning
            };
            figure.silhouette(pen, colour, 1.6);
            figure.silhouette(pen, &theme.paper, -0.6);
            if look == Look::Struck {
                figure.helmet(pen, colour);
            }
        }
        Look::Focus | Look::Other => {
            let body = if look == Look::Focus {
                &theme.person
            } else {
                &theme.muted
            };
            let paper = &theme.paper;
            // Each part has an edge of paper, so that it stands off from the part behind it.
            figure.silhouette(pen, paper, 3.0);
            figure.arm(pen, 1, body, 0.0);
            figure.leg(pen, 1, body, 0.0);
            figure.leg(pen, 0, paper, 2.0);
            figure.leg(pen, 0, body, 0.0);
            figure.trunk(pen, body, 0.0);
            figure.harness(pen, paper);
            figure.arm(pen, 0, paper, 2.0);
            figure.arm(pen, 0, body, 0.0);
            figure.skull(pen, body, 0.0);
            figure.helmet(pen, paper);
            figure.helmet(pen, &theme.absorber);
        }
    }
    if look != Look::Ghost {
        let radius = (0.026 * stature_px).max(1.6);
        pen.ring(ring, radius, 1.2, [&theme.ink, &theme.paper]);
    }
    figure.bounds()
}

/// The connecting gear: a slack curve or a taut line, with the absorber at its lower end.
fn gear(pen: &mut Pen<'_>, layout: &Layout, worker: &WorkerMoment, ring: Point, facing: f64) {
    let theme = pen.theme;
    let connector = layout.point(worker.position_m, worker.connector_m);
    let length_px = worker.lanyard_m * layout.px_per_m;
    let pack_px = PACK_M * layout.px_per_m;
    let width = (0.035 * layout.px_per_m).clamp(1.6, 4.0);
    let gap = ring.y - connector.y;
    let taut = gap >= length_px - 0.5;
    let curve = if taut {
        vec![connector, ring]
    } else {
        slack(connector, ring, length_px, -facing)
    };
    pen.trace(&curve);
    pen.surface.stroke(&theme.paper, width + 2.0, &[]);
    pen.thread(&curve, &theme.line, width, &[]);
    if worker.has_absorber {
        let torn_px = worker.absorber_m * layout.px_per_m;
        let left = held(1.0 - worker.absorber_m / PACK_EMPTY_M, 0.3, 1.0);
        let thick = (0.13 * layout.px_per_m).clamp(4.0, 16.0);
        if taut {
            // Torn webbing from the D-ring up, then what is left of the pack.
            let foot = at(ring.x, ring.y - 0.05 * layout.px_per_m);
            let joint = at(foot.x, foot.y - torn_px);
            if torn_px > 1.5 {
                let strip = Rect {
                    x: foot.x - 0.4 * thick,
                    y: joint.y,
                    w: 0.8 * thick,
                    h: torn_px,
                };
                pen.block(strip, &theme.paper, Pattern::Rising, (&theme.absorber, 1.1));
            }
            let pack = ribbon(joint, at(joint.x, joint.y - pack_px * left), thick);
            pen.area(&pack, &theme.absorber, Pattern::Plain, (&theme.paper, 1.0));
        } else {
            let pack = end_of(&curve, pack_px * left);
            pen.trace(&pack);
            pen.surface.stroke(&theme.paper, thick + 2.0, &[]);
            pen.trace(&pack);
            pen.surface.stroke(&theme.absorber, thick, &[]);
        }
    }
    let radius = (0.045 * layout.px_per_m).clamp(2.0, 5.0);
    pen.ring(connector, radius, 1.4, [&theme.line, &theme.paper]);
}

/// A slack line of a given length between two points: it hangs down in a bow, to one side.
fn slack(a: Point, b: Point, length_px: f64, side: f64) -> Vec<Point> {
    let straight = ((b.x - a.x).powi(2) + (b.y - a.y).powi(2)).sqrt();
    let bow = side * 0.17 * (length_px - straight).max(0.0);
    // Place along it, to the side, and share of the hang, of each point.
    let shape: [[f64; 3]; 17] = core::array::from_fn(|i| {
        let u = i as f64 / 16.0;
        let aside = bow * sin_cos(core::f64::consts::PI * u).0;
        [u, aside, 4.0 * u * (1.0 - u)]
    });
    let curve = |hang: f64| {
        shape.map(|[u, aside, part]| {
            at(
                a.x + (b.x - a.x) * u + aside,
                a.y + (b.y - a.y) * u + hang * part,
            )
        })
    };
    let measure = |points: &[Point]| -> f64 {
        points
            .windows(2)
            .map(|p| ((p[1].x - p[0].x).powi(2) + (p[1].y - p[0].y).powi(2)).sqrt())
            .sum()
    };
    let (mut low, mut high) = (0.0, length_px.max(1.0));
    for _ in 0..24 {
        let middle = 0.5 * (low + high);
        if measure(&curve(middle)) < length_px {
            low = middle;
        } else {
            high = middle;
        }
    }
    curve(low).to_vec()
}

/// The last part of a curve, of a given length.
fn end_of(points: &[Point], length_px: f64) -> Vec<Point> {
    let mut left = length_px;
    let mut part = Vec::new();
    for pair in points.windows(2).rev() {
        let (from, to) = (pair[1], pair[0]);
        if part.is_empty() {
            part.push(from);
        }
        let step = ((to.x - from.x).powi(2) + (to.y - from.y).powi(2)).sqrt();
        if step >= left {
            let u = left / step.max(1.0e-6);
            part.push(at(
                from.x + (to.x - from.x) * u,
                from.y + (to.y - from.y) * u,
            ));
            break;
        }
        left -= step;
        part.push(to);
    }
    part
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slack_lanyard_keeps_its_length() {
        for gap in [-40.0, 0.0, 30.0, 79.0] {
            let curve = slack(at(10.0, 10.0), at(10.0, 10.0 + gap), 80.0, 1.0);
            let length: f64 = curve
                .windows(2)
                .map(|p| (p[1].x - p[0].x).hypot(p[1].y - p[0].y))
                .sum();
            assert!((length - 80.0).abs() < 0.5, "{gap}: {length}");
        }
    }

    #[test]
    fn the_lowest_sole_is_at_the_level_of_the_soles_in_every_phase() {
        for posture in [STANDING, FALLING, CAUGHT, HANGING] {
            let figure = Figure::new(posture, at(0.0, 100.0), 250.0, 180.0, 1.0);
            let lowest = figure
                .legs
                .iter()
                .flatten()
                .fold(0.0, |low: f64, p| low.max(p.y));
            assert!((lowest + 0.026 * 180.0 - 250.0).abs() < 1e-9);
        }
    }
}
