//! Limits of the user's own.

use super::{
    Check, CheckSet, Demands, Ends, Kind, Source, Subject, WorkerDemand, judge, limit, worst_of,
    worst_worker,
};
use crate::limits::{OwnLimit, OwnQuantity};

pub(super) fn own_check(own: &OwnLimit, demands: &Demands, ends: &Ends) -> Check {
    let worker = |read: fn(&WorkerDemand) -> f64| worst_worker(demands, read);
    let (demand, subject) = match own.quantity {
        OwnQuantity::ArrestForce => worker(|w| w.arrest_force_n),
        OwnQuantity::FreeFall => worker(|w| w.free_fall_m),
        OwnQuantity::DecelerationDistance => worker(|w| w.deceleration_distance_m),
        OwnQuantity::RequiredDepth => worker(|w| w.required_depth_m),
        OwnQuantity::Footroom => {
            // The least room is the greatest lack of it.
            let (lack, subject) = worker(|w| w.required_depth_m - w.available_depth_m);
            (lack.map(|m| -m), subject)
        }
        OwnQuantity::LineTension => (Some(demands.tension_max_n), Subject::System),
        OwnQuantity::EndTension => {
            let (left, right) = (demands.left_end.tension_n, demands.right_end.tension_n);
            if right > left || right.is_nan() {
                (Some(right), Subject::RightEnd)
            } else {
                (Some(left), Subject::LeftEnd)
            }
        }
        OwnQuantity::TiebackTension => ends.worst(|f| f.tieback.map(|t| t.tension_n)),
        OwnQuantity::PostCompression => ends.worst(|f| Some(f.post_compression_n)),
        OwnQuantity::PostMoment => ends.worst(|f| Some(f.base_moment_n_m)),
        OwnQuantity::IntermediatePostLoad => worst_of(
            demands
                .intermediate_posts
                .iter()
                .enumerate()
                .map(|(post, kick)| (kick.vertical_n, Subject::IntermediatePost { post })),
        ),
    };
    let mut check = limit(
        "own",
        CheckSet::Own,
        subject,
        own.quantity.quantity(),
        demand.unwrap_or(f64::NAN),
        own.limit,
        Source::Own {
            reference: own.reference.clone(),
        },
    );
    check.label = Some(own.label.clone());
    if own.quantity == OwnQuantity::Footroom {
        check.kind = Kind::AtLeast;
    }
    judge(check)
}
