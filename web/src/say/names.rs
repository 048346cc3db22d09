//! Names of what a case is made of.

use footroom_core::case::{BelowKind, InlinePlace};
use footroom_core::check::{OwnQuantity, Subject};
use footroom_core::curve::Shape;
use footroom_core::field::Quantity;
use footroom_core::rope::{Construction, Rope};

use crate::say::faults::Voice;
use crate::say::format;
use crate::say::texts::Texts;

/// A rope by diameter and construction.
pub fn rope_name(voice: Voice, rope: &Rope) -> String {
    let form = voice.form();
    let name = match rope.construction {
        Construction::Galvanised7x19 => form.rope_galvanised_7x19,
        Construction::Stainless7x19 => form.rope_stainless_7x19,
        Construction::FibreCore6x19 => form.rope_fibre_core_6x19,
        Construction::Own => form.rope_own,
    };
    let diameter = format::field_text_with_unit(Quantity::Diameter, voice.units, rope.diameter_m);
    format!("{diameter} {name}")
}

/// Name of what an own limit bounds.
pub fn own_quantity_name(voice: Voice, quantity: OwnQuantity) -> &'static str {
    let form = voice.form();
    match quantity {
        OwnQuantity::ArrestForce => form.own_arrest_force,
        OwnQuantity::FreeFall => form.own_free_fall,
        OwnQuantity::DecelerationDistance => form.own_deceleration_distance,
        OwnQuantity::RequiredDepth => form.own_required_depth,
        OwnQuantity::Footroom => form.own_footroom,
        OwnQuantity::LineTension => form.own_line_tension,
        OwnQuantity::EndTension => form.own_end_tension,
        OwnQuantity::TiebackTension => form.own_tieback_tension,
        OwnQuantity::PostCompression => form.own_post_compression,
        OwnQuantity::PostMoment => form.own_post_moment,
        OwnQuantity::IntermediatePostLoad => form.own_intermediate_post_load,
    }
}

/// At which end of the line an in-line absorber is.
pub fn inline_place_name(voice: Voice, place: InlinePlace) -> &'static str {
    let form = voice.form();
    match place {
        InlinePlace::Left => form.inline_place_left,
        InlinePlace::Right => form.inline_place_right,
        InlinePlace::Both => form.inline_place_both,
    }
}

/// Name of a way to tell the force of an absorber.
pub fn shape_name(voice: Voice, shape: Shape) -> &'static str {
    let form = voice.form();
    match shape {
        Shape::Average => form.shape_average,
        Shape::Peak => form.shape_peak,
        Shape::Curve => form.shape_curve,
    }
}

/// Name of the extension of what is in the line at a place: two count together.
pub fn inline_extension_name(t: &Texts, place: InlinePlace) -> &'static str {
    match place {
        InlinePlace::Both => t.inline_extension_both,
        InlinePlace::Left | InlinePlace::Right => t.inline_extension,
    }
}

/// Name of a kind of thing below.
pub fn below_name(voice: Voice, kind: BelowKind) -> &'static str {
    let t = voice.texts();
    match kind {
        BelowKind::Vehicle => t.below_vehicle,
        BelowKind::Structure => t.below_structure,
        BelowKind::Access => t.below_access,
        BelowKind::Stack => t.below_stack,
        BelowKind::Other => t.below_other,
    }
}

/// The name of a check, without its subject; empty for a key that is not one.
pub fn check_name(voice: Voice, key: &str) -> &'static str {
    let t = voice.texts();
    match key {
        "us.arrest_force" => t.arrest_force,
        "us.free_fall" => t.free_fall,
        "us.deceleration_distance" => t.deceleration_distance,
        "us.no_contact" => t.check_no_contact,
        "us.system_factor" => t.check_system_factor,
        "us.anchorage_alternative" => t.check_anchorage_alternative,
        "us.lanyard_strength" => t.check_lanyard_strength,
        "us.self_retracting_strength" => t.check_self_retracting_strength,
        "us.twice_impact_energy" => t.check_twice_impact_energy,
        "us.user_mass" => t.check_user_mass,
        "eu.arrest_force" => t.check_en_arrest_force,
        "eu.absorber_extension" => t.check_en_extension,
        "eu.retractable_arrest_force" => t.check_en_retractable_force,
        "eu.retractable_arrest_distance" => t.check_en_retractable_distance,
        "eu.users" => t.check_en_users,
        "site.footroom" => t.check_footroom,
        "part.rope" => t.check_rope,
        "part.rope_termination" => t.check_termination,
        "part.end_anchorage" => t.check_end_anchorage,
        "part.post_moment" => t.check_post_moment,
        "part.post_compression" => t.check_post_compression,
        "part.tieback" => t.check_tieback,
        "part.tieback_anchorage" => t.check_tieback_anchorage,
        "part.intermediate_post" => t.check_intermediate_post,
        "part.intermediate_post_along_line" => t.check_intermediate_along,
        _ => "",
    }
}

/// Whom or what a check is about; empty for the whole system.
pub fn subject_name(voice: Voice, subject: Subject) -> String {
    let t = voice.texts();
    match subject {
        Subject::System => String::new(),
        Subject::Worker { worker } => (t.say.worker)(worker + 1),
        Subject::LeftEnd => t.subject_left_end.to_owned(),
        Subject::RightEnd => t.subject_right_end.to_owned(),
        Subject::IntermediatePost { post } => (t.say.subject_post)(post + 1),
    }
}
