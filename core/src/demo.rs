//! The invented demonstration: a wharf shed beam over a yard with a loaded flatbed below.
//!
//! What it tells: three users on one 18 m span do not fit over the flatbed, two do; with a post in
//! the middle all three have some room, and now strength decides: the rope's termination keeps less
//! than the two that it must. A second post makes it hold. The test below holds the story; when the
//! mechanics moves its numbers, the two constants bring it back:
//! - `LOAD_HEIGHT_M` moves every footroom by as much, the other way, and nothing else;
//! - `WORKER_MASS_KG` moves the soft corner: a kilogram takes some 1.5 cm of footroom and adds as much
//!   to the deceleration distance, which is near its limit without the post. Tensions hardly feel it:
//!   they come from the absorbers' greatest force, the spans and the rope.

use alloc::string::ToString;
use alloc::vec;

use crate::case::{Below, BelowKind, Case, EndPost, Line, Posts, Site, Worker};

/// Top of the flatbed's load above the yard, m.
const LOAD_HEIGHT_M: f64 = 2.55;

/// Mass of each of the crew with clothing and tools, kg.
const WORKER_MASS_KG: f64 = 90.0;

/// "Wharf shed, beam B4", invented: three workers setting edge forms on an 18 m beam, 7.6 m above
/// the yard, over a loaded flatbed. One intermediate post at 9 m.
pub fn demo() -> Case {
    let worker = |position_m| Worker {
        position_m,
        mass_kg: WORKER_MASS_KG,
        dring_height_m: 1.45,
        ..Worker::default()
    };
    Case {
        title: "Wharf shed, beam B4".to_string(),
        invented: true,
        line: Line {
            spans_m: vec![9.0, 9.0],
            ..Line::default()
        },
        workers: vec![worker(11.0), worker(13.0), worker(15.0)],
        site: Site {
            below: vec![Below {
                kind: BelowKind::Vehicle,
                from_m: 10.0,
                to_m: 16.0,
                height_m: LOAD_HEIGHT_M,
            }],
            ..Site::default()
        },
        posts: Posts {
            left: Some(EndPost::default()),
            right: Some(EndPost::default()),
        },
        ..Case::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assess::assess;
    use crate::check::{Check, Verdict};
    use crate::solve::Options;

    /// Footroom, m, and checks of the demonstration on other spans, with the first of its crew.
    fn told(spans_m: &[f64], users: &[usize]) -> (f64, vec::Vec<Check>) {
        let mut case = demo();
        case.line.spans_m = spans_m.to_vec();
        case.workers = users.iter().map(|&i| demo().workers[i]).collect();
        let assessment = assess(&case, Options::default()).unwrap();
        assert!(assessment.nominal.doubts.is_empty(), "{spans_m:?}");
        assert!(assessment.corners.iter().all(|c| !c.absorber_used_up));
        (assessment.footroom.value, assessment.checks(&case))
    }

    fn ratio(checks: &[Check], key: &str) -> f64 {
        let of_key = checks.iter().filter(|c| c.key == key);
        of_key.filter_map(|c| c.ratio).fold(f64::INFINITY, f64::min)
    }

    /// The checks that do not hold.
    fn failed(checks: &[Check]) -> vec::Vec<&'static str> {
        let failed = checks.iter().filter(|c| c.verdict == Verdict::DoesNotMeet);
        failed.map(|c| c.key).collect()
    }

    #[test]
    fn the_story_is_told_with_the_default_tolerances() {
        let all = [0, 1, 2];
        let (room_m, checks) = told(&[18.0], &all);
        assert!((-0.40..-0.10).contains(&room_m), "no post: {room_m}");
        assert!(ratio(&checks, "part.rope_termination") < 1.5);
        let (room_m, _) = told(&[18.0], &[0, 2]);
        assert!((0.03..0.25).contains(&room_m), "no post, two: {room_m}");

        let (room_m, checks) = told(&[9.0, 9.0], &all);
        assert!((0.12..0.35).contains(&room_m), "one post: {room_m}");
        assert!((1.3..1.9).contains(&ratio(&checks, "part.rope_termination")));
        // Strength alone says no.
        assert_eq!(
            failed(&checks),
            ["us.system_factor", "part.rope", "part.rope_termination"]
        );

        let (room_m, checks) = told(&[6.0; 3], &all);
        assert!(room_m > 0.5, "two posts: {room_m}");
        assert!(failed(&checks).is_empty(), "{:?}", failed(&checks));
    }
}
