//! Every numeric input of a case, reached by its name in `FIELDS`.

use footroom_core::case::{Absorber, Case, EndPost, InlineAbsorber, Tieback};

/// Sets the numeric input `name` of the first element of its list (or the only one) to `value`,
/// making the optional part that holds it. Returns false for a name that it does not know.
pub fn set(case: &mut Case, name: &str, value: f64) -> bool {
    let line = &mut case.line;
    let slot: &mut f64 = match name {
        "line.spans_m" => &mut line.spans_m[0],
        "line.height_above_beam_m" => &mut line.height_above_beam_m,
        "line.pretension_n" => &mut line.pretension_n,
        "line.rope.diameter_m" => &mut line.rope.diameter_m,
        "line.rope.axial_stiffness_n" => &mut line.rope.axial_stiffness_n,
        "line.rope.mass_per_length_kg_per_m" => &mut line.rope.mass_per_length_kg_per_m,
        "line.rope.breaking_force_n" => line.rope.breaking_force_n.insert(value),
        "line.inline_absorber.yield_force_n" => {
            &mut line
                .inline_absorber
                .get_or_insert_with(InlineAbsorber::default)
                .yield_force_n
        }
        "line.inline_absorber.max_extension_m" => {
            &mut line
                .inline_absorber
                .get_or_insert_with(InlineAbsorber::default)
                .max_extension_m
        }
        "line.left_end_stiffness_n_per_m" => line.left_end_stiffness_n_per_m.insert(value),
        "line.right_end_stiffness_n_per_m" => line.right_end_stiffness_n_per_m.insert(value),
        "site.beam_top_m" => &mut case.site.beam_top_m,
        "site.beam_depth_m" => &mut case.site.beam_depth_m,
        "site.margin_m" => &mut case.site.margin_m,
        "site.reach_m" => &mut case.site.reach_m,
        "site.below.from_m" => &mut case.site.below[0].from_m,
        "site.below.to_m" => &mut case.site.below[0].to_m,
        "site.below.height_m" => &mut case.site.below[0].height_m,
        "motion.damping_s" => &mut case.motion.damping_s,
        "motion.duration_s" => &mut case.motion.duration_s,
        "strengths.termination_efficiency_ratio" => {
            &mut case.strengths.termination_efficiency_ratio
        }
        "strengths.end_anchorage_n" => case.strengths.end_anchorage_n.insert(value),
        "strengths.post_moment_n_m" => case.strengths.post_moment_n_m.insert(value),
        "strengths.post_compression_n" => case.strengths.post_compression_n.insert(value),
        "strengths.tieback_n" => case.strengths.tieback_n.insert(value),
        "strengths.tieback_anchorage_n" => case.strengths.tieback_anchorage_n.insert(value),
        "strengths.intermediate_post_n" => case.strengths.intermediate_post_n.insert(value),
        "strengths.intermediate_post_along_n" => {
            case.strengths.intermediate_post_along_n.insert(value)
        }
        "strengths.lanyard_n" => case.strengths.lanyard_n.insert(value),
        "strengths.self_retracting_n" => case.strengths.self_retracting_n.insert(value),
        "strengths.required_ratio" => &mut case.strengths.required_ratio,
        "tolerances.mass_ratio" => &mut case.tolerances.mass_ratio,
        "tolerances.absorber_force_ratio" => &mut case.tolerances.absorber_force_ratio,
        "tolerances.pretension_ratio" => &mut case.tolerances.pretension_ratio,
        "tolerances.axial_stiffness_ratio" => &mut case.tolerances.axial_stiffness_ratio,
        "tolerances.end_stiffness_ratio" => &mut case.tolerances.end_stiffness_ratio,
        "tolerances.inline_force_ratio" => &mut case.tolerances.inline_force_ratio,
        "allowance.clearance_ratio" => &mut case.allowance.clearance_ratio,
        "allowance.tension_ratio" => &mut case.allowance.tension_ratio,
        "temperature.installed_k" => &mut case.temperature.installed_k,
        "temperature.today_k" => &mut case.temperature.today_k,
        _ => {
            if let Some(rest) = name.strip_prefix("posts.left.") {
                return set_post(case.posts.left.get_or_insert_default(), rest, value);
            }
            if let Some(rest) = name.strip_prefix("posts.right.") {
                return set_post(case.posts.right.get_or_insert_default(), rest, value);
            }
            return set_worker(case, name, value);
        }
    };
    *slot = value;
    true
}

fn set_post(post: &mut EndPost, name: &str, value: f64) -> bool {
    let slot: &mut f64 = match name {
        "bending_stiffness_n_m2" => &mut post.bending_stiffness_n_m2,
        "tieback.set_back_m" => &mut post.tieback.get_or_insert_with(Tieback::default).set_back_m,
        "tieback.axial_stiffness_n" => {
            &mut post
                .tieback
                .get_or_insert_with(Tieback::default)
                .axial_stiffness_n
        }
        _ => return false,
    };
    *slot = value;
    true
}

fn set_worker(case: &mut Case, name: &str, value: f64) -> bool {
    let worker = &mut case.workers[0];
    let gear = &mut worker.gear;
    let slot: &mut f64 = match name {
        "workers.position_m" => &mut worker.position_m,
        "workers.offset_along_m" => &mut worker.offset_along_m,
        "workers.edge_distance_m" => &mut worker.edge_distance_m,
        "workers.mass_kg" => &mut worker.mass_kg,
        "workers.dring_height_m" => &mut worker.dring_height_m,
        "workers.harness_stretch_m" => &mut worker.harness_stretch_m,
        "workers.fall_time_s" => worker.fall_time_s.insert(value),
        "workers.gear.length_m" => &mut gear.length_m,
        "workers.gear.lock_distance_m" => &mut gear.lock_distance_m,
        "workers.gear.stiffness_n_per_m" => &mut gear.stiffness_n_per_m,
        "workers.gear.free_fall_m" => gear.free_fall_m.insert(value),
        "workers.gear.absorber.average_force_n" => {
            &mut gear
                .absorber
                .get_or_insert_with(Absorber::default)
                .average_force_n
        }
        "workers.gear.absorber.maximum_force_n" => gear
            .absorber
            .get_or_insert_with(Absorber::default)
            .maximum_force_n
            .insert(value),
        "workers.gear.absorber.max_extension_m" => {
            &mut gear
                .absorber
                .get_or_insert_with(Absorber::default)
                .max_extension_m
        }
        "workers.gear.absorber.locked_stiffness_n_per_m" => {
            &mut gear
                .absorber
                .get_or_insert_with(Absorber::default)
                .locked_stiffness_n_per_m
        }
        _ => return false,
    };
    *slot = value;
    true
}

/// Names that a fault may carry although they hold no number: counts of lists and texts.
pub const COUNTED: &[&str] = &[
    "title",
    "workers",
    "site.below",
    "line.spans_m",
    "point_loads",
];

#[cfg(test)]
mod tests {
    use super::*;
    use footroom_core::case::Below;
    use footroom_core::demo::demo;
    use footroom_core::field::FIELDS;

    #[test]
    fn every_field_of_a_case_can_be_set() {
        for field in FIELDS.iter().filter(|f| !f.name.starts_with("point_loads")) {
            let mut case = demo();
            case.site.below.push(Below::default());
            assert!(set(&mut case, field.name, field.min), "{}", field.name);
        }
    }
}
