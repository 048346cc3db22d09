//! The assessment against the single runs that it is made of.

use footroom_core::assess::{Assessment, assess};
use footroom_core::case::{Case, InlineAbsorber};
use footroom_core::case::{EndPost, Tolerances};
use footroom_core::corner::{Corner, Sides, moved};
use footroom_core::demo::demo;
use footroom_core::solve::{Options, Outcome};
use footroom_core::support::line_on_posts;
use support::closeness::assert_close;
use support::solved::{ready, solved};

fn assessed(case: &Case) -> Assessment {
    assess(case, Options::default()).expect("a valid case")
}

/// The demonstration, its posts described, with an in-line absorber that opens.
fn opening() -> Case {
    let mut case = demo();
    case.site.below.clear();
    case.workers.truncate(1);
    case.line.inline_absorber = Some(InlineAbsorber {
        yield_force_n: 12_000.0,
        max_extension_m: 1.2,
        ..InlineAbsorber::default()
    });
    case.allowance.tension_ratio = 0.0;
    case
}

fn runs(case: &Case) -> Vec<Outcome> {
    let case = ready(case);
    [
        case.clone(),
        case.undamped(),
        moved(&case, Sides::SOFT),
        moved(&case, Sides::STIFF),
        moved(&case, Sides::MIXED),
    ]
    .iter()
    .map(|c| c.solve(Options::default()))
    .collect()
}

/// Every number of the answer is the worst of its runs.
#[test]
fn the_answer_is_the_worst_of_its_runs() {
    let case = opening();
    let found = assessed(&case);
    let runs = runs(&case);
    let most = |of: &dyn Fn(&Outcome) -> f64| runs.iter().map(of).fold(f64::MIN, f64::max);
    let opened_m = most(&|o| o.history.inline_extension_m);
    assert!(
        opened_m > 0.01,
        "the in-line absorber must open: {opened_m}"
    );
    assert_eq!(found.footroom.value, -most(&|o| -o.footroom_m));
    let tension_n = most(&|o| o.history.tension_max_n.max(o.balance.tension_max_n));
    assert_eq!(found.tension_max.value, tension_n);
    assert_eq!(found.demands.tension_max_n, tension_n);
    let left_n = most(&|o| o.supports[0].tension_max_n);
    assert_eq!(found.demands.left_end.tension_n, left_n);
    let right_n = most(&|o| o.supports[2].tension_max_n);
    assert_eq!(found.demands.right_end.tension_n, right_n);
    let kick_n = most(&|o| o.supports[1].vertical_max_n);
    assert_eq!(found.demands.intermediate_posts[0].vertical_n, kick_n);
    let corners: Vec<Corner> = found.corners.iter().map(|c| c.corner).collect();
    assert_eq!(
        corners,
        [Corner::Nominal, Corner::Soft, Corner::Stiff, Corner::Mixed]
    );
}

/// The allowance on tension goes on every force that the line brings to its parts, and on nothing else.
#[test]
fn the_allowance_on_tension_goes_on_every_part() {
    let mut case = opening();
    let plain = assessed(&case);
    case.allowance.tension_ratio = 0.17;
    let more = assessed(&case);
    let forces = |a: &Assessment| {
        let d = &a.demands;
        vec![
            a.tension_max.value,
            d.tension_max_n,
            d.left_end.tension_n,
            d.left_end.horizontal_n,
            d.left_end.vertical_n,
            d.right_end.tension_n,
            d.right_end.horizontal_n,
            d.right_end.vertical_n,
            d.intermediate_posts[0].vertical_n,
            d.intermediate_posts[0].horizontal_n,
        ]
    };
    for (a, b) in forces(&plain).into_iter().zip(forces(&more)) {
        assert_close("with the allowance", b, 1.17 * a, 1.0e-12);
    }
    assert_eq!(plain.footroom, more.footroom);
    assert_eq!(plain.arrest_force_max, more.arrest_force_max);
    assert_eq!(plain.demands.workers, more.demands.workers);
}

/// Posts are turned into stiffnesses once, before the tolerances: solved by hand the corners of
/// described posts are those of the assessment, and a tolerance on the stiffness of the ends moves
/// what the posts come to.
#[test]
fn the_corners_of_described_posts_are_those_solved_by_hand() {
    let slender = EndPost {
        bending_stiffness_n_m2: 1.2e5,
        tieback: None,
    };
    for post in [EndPost::default(), slender] {
        let mut case = demo();
        case.posts.left = Some(post);
        case.posts.right = Some(post);
        case.tolerances = Tolerances {
            mass_ratio: 0.0,
            absorber_force_ratio: 0.0,
            pretension_ratio: 0.0,
            axial_stiffness_ratio: 0.0,
            end_stiffness_ratio: 0.25,
            inline_force_ratio: 0.0,
        };
        let found = assessed(&case);
        for (corner, sides, factor) in [
            (Corner::Soft, Sides::SOFT, 0.75),
            (Corner::Stiff, Sides::STIFF, 1.25),
        ] {
            let corner = found.corners.iter().find(|c| c.corner == corner).unwrap();
            let by_hand = moved(&ready(&case), sides).solve(Options::default());
            assert_eq!(corner.footroom_m.to_bits(), by_hand.footroom_m.to_bits());
            // The same from nothing but a line without posts.
            let mut bare = case.clone();
            bare.line = line_on_posts(&case.line, &case.posts).unwrap();
            bare.posts = Default::default();
            for end in [
                &mut bare.line.left_end_stiffness_n_per_m,
                &mut bare.line.right_end_stiffness_n_per_m,
            ] {
                *end = end.map(|k| factor * k);
            }
            if sides == Sides::STIFF {
                bare.motion.damping_s = 0.0;
                for worker in &mut bare.workers {
                    let absorber = worker.gear.absorber.as_mut().unwrap();
                    absorber.average_force_n = absorber.maximum_n();
                }
            }
            assert_eq!(
                corner.footroom_m.to_bits(),
                solved(&bare).footroom_m.to_bits()
            );
        }
        let softer_m = found.nominal.footroom_m - found.corners[1].footroom_m;
        assert!(softer_m > 0.005, "{softer_m}");
    }
}
