//! Strengths of the parts that the arrest loads.

use alloc::vec::Vec;

use super::{Check, Demands, EndDemand, Reason, Subject, judge, larger, strength};
use crate::case::{Case, EndPost};
use crate::quantity::Quantity;
use crate::support::{
    EndPull, SupportForces, TiebackForces, support_forces, termination_strength_n,
};

/// Forces on both end posts, where they are described.
pub(super) struct Ends {
    pub(super) left: Option<SupportForces>,
    pub(super) right: Option<SupportForces>,
}

impl Ends {
    pub(super) fn of(case: &Case, demands: &Demands) -> Self {
        let forces = |post: Option<EndPost>, end: &EndDemand| {
            support_forces(
                &post?,
                case.line.height_above_beam_m,
                EndPull {
                    horizontal_n: end.horizontal_n,
                    vertical_n: end.vertical_n,
                },
                case.tolerances.end_stiffness_ratio,
            )
        };
        Self {
            left: forces(case.posts.left, &demands.left_end),
            right: forces(case.posts.right, &demands.right_end),
        }
    }

    /// The greater of a force over both ends, with its end; `None`: known at neither.
    pub(super) fn worst(
        &self,
        read: impl Fn(&SupportForces) -> Option<f64>,
    ) -> (Option<f64>, Subject) {
        let at = |forces: &Option<SupportForces>| forces.as_ref().and_then(&read);
        match (at(&self.left), at(&self.right)) {
            (Some(left), Some(right)) if right > left => (Some(right), Subject::RightEnd),
            (Some(left), _) => (Some(left), Subject::LeftEnd),
            (None, right) => (right, Subject::RightEnd),
        }
    }
}

/// Every part from the rope outward.
pub(super) fn parts(case: &Case, demands: &Demands, ends: &Ends) -> Vec<Check> {
    let strengths = &case.strengths;
    let required = strengths.required_ratio;
    let breaking = case.line.rope.breaking_force_n;
    let end_tension_n = larger(demands.left_end.tension_n, demands.right_end.tension_n);
    // NaN at one end must not hide behind a number at the other.
    let end_tension_n = if demands.left_end.tension_n.is_nan() {
        f64::NAN
    } else {
        end_tension_n
    };
    let at_right = demands.right_end.tension_n > demands.left_end.tension_n;
    let mut all = Vec::new();
    all.push(judge(strength(
        "part.rope",
        Subject::System,
        Quantity::Force,
        demands.tension_max_n,
        breaking,
        required,
        "line.rope.breaking_force_n",
    )));
    all.push(judge(strength(
        "part.rope_termination",
        if at_right {
            Subject::RightEnd
        } else {
            Subject::LeftEnd
        },
        Quantity::Force,
        end_tension_n,
        breaking.and_then(|force| {
            termination_strength_n(force, strengths.termination_efficiency_ratio)
        }),
        required,
        "line.rope.breaking_force_n",
    )));
    for (subject, end, post, forces) in [
        (
            Subject::LeftEnd,
            &demands.left_end,
            case.posts.left,
            ends.left,
        ),
        (
            Subject::RightEnd,
            &demands.right_end,
            case.posts.right,
            ends.right,
        ),
    ] {
        all.push(judge(strength(
            "part.end_anchorage",
            subject,
            Quantity::Force,
            end.tension_n,
            strengths.end_anchorage_n,
            required,
            "strengths.end_anchorage_n",
        )));
        let mut push = |key, quantity, demand: Option<f64>, capacity, field| {
            let mut check = judge(strength(
                key,
                subject,
                quantity,
                demand.unwrap_or(f64::NAN),
                capacity,
                required,
                field,
            ));
            if post.is_none() {
                check.reason = Some(Reason::PostNotDescribed);
            }
            all.push(check);
        };
        push(
            "part.post_moment",
            Quantity::Moment,
            forces.map(|f| f.base_moment_n_m),
            strengths.post_moment_n_m,
            "strengths.post_moment_n_m",
        );
        push(
            "part.post_compression",
            Quantity::Force,
            forces.map(|f| f.post_compression_n),
            strengths.post_compression_n,
            "strengths.post_compression_n",
        );
        // A post without a tieback has none to check; an end that is not described may have one.
        if post.is_some_and(|p| p.tieback.is_none()) {
            continue;
        }
        let tieback: Option<TiebackForces> = forces.and_then(|f| f.tieback);
        push(
            "part.tieback",
            Quantity::Force,
            tieback.map(|t| t.tension_n),
            strengths.tieback_n,
            "strengths.tieback_n",
        );
        push(
            "part.tieback_anchorage",
            Quantity::Force,
            tieback.map(|t| t.tension_n),
            strengths.tieback_anchorage_n,
            "strengths.tieback_anchorage_n",
        );
    }
    for (post, kick) in demands.intermediate_posts.iter().enumerate() {
        let subject = Subject::IntermediatePost { post };
        all.push(judge(strength(
            "part.intermediate_post",
            subject,
            Quantity::Force,
            kick.vertical_n,
            strengths.intermediate_post_n,
            required,
            "strengths.intermediate_post_n",
        )));
        all.push(judge(strength(
            "part.intermediate_post_along_line",
            subject,
            Quantity::Force,
            kick.horizontal_n.abs(),
            strengths.intermediate_post_along_n,
            required,
            "strengths.intermediate_post_along_n",
        )));
    }
    all
}
