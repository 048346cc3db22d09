//! Names of what a case is made of.

use footroom_core::case::{BelowKind, InlinePlace};
use footroom_core::check::OwnQuantity;
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
