//! How large type must be on a projector, and what that is on the screen at hand.
//!
//! A letter is read without effort when its capitals subtend 20 minutes of arc, and can be read
//! at 16 (ISO 9241-303, from memory: 16 at least, 20 to 22 preferred). From [`DISTANCE_M`] on a
//! picture [`SCREEN_HEIGHT_M`] tall, 16 minutes are 10 m × tan 16′ = 47 mm, which is 3.1 % of the
//! picture's height. Capitals are 0.72 of the type's size in the faces that browsers use
//! (common practice, no source), so type is 4.3 % of the height: 47 px of 1080. That is the
//! smallest type of the talk; the sentence is set [`SENTENCE_RATIO`] times as large, 20 minutes and
//! more.

/// Distance of the reader, m.
pub const DISTANCE_M: f64 = 10.0;

/// Height of the projected picture, m: one 2.67 m wide at 16 to 9.
pub const SCREEN_HEIGHT_M: f64 = 1.5;

/// Height of a capital letter as seen by the reader, minutes of arc.
pub const LETTER_ARC_MIN: f64 = 16.0;

/// Height of a capital over the size of the type.
pub const CAPITAL_RATIO: f64 = 0.72;

/// Size of the sentence over that of the smallest type.
pub const SENTENCE_RATIO: f64 = 1.3;

/// Height of a capital letter over that of the screen: the tangent of [`LETTER_ARC_MIN`] (equal to
/// the angle to a part in 100 000) times the distance over the height of the picture.
pub const LETTER_SHARE: f64 =
    LETTER_ARC_MIN / 60.0 * core::f64::consts::PI / 180.0 * DISTANCE_M / SCREEN_HEIGHT_M;

/// Least type on any screen, CSS px: one that is held in the hand.
const LEAST_PX: f64 = 15.0;

/// Size of the smallest type on a screen of `width_px` by `height_px`, CSS px. A screen that is
/// narrower than 16 to 9 is taken as the picture that fits its width.
pub fn type_px(width_px: f64, height_px: f64) -> f64 {
    let tall = height_px.min(width_px * 9.0 / 16.0);
    (tall * LETTER_SHARE / CAPITAL_RATIO).max(LEAST_PX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn type_is_readable_at_the_stated_distance() {
        for (width, height) in [
            (1920.0, 1080.0),
            (1280.0, 720.0),
            (1024.0, 768.0),
            (3840.0, 2160.0),
        ] {
            let type_px = type_px(width, height);
            let picture = height.min(width * 9.0 / 16.0);
            let capital_m = type_px * CAPITAL_RATIO / picture * SCREEN_HEIGHT_M;
            let arc_min = (capital_m / DISTANCE_M).atan().to_degrees() * 60.0;
            assert!((15.99..16.5).contains(&arc_min), "{width}: {arc_min}");
            let sentence = (SENTENCE_RATIO * capital_m / DISTANCE_M)
                .atan()
                .to_degrees()
                * 60.0;
            assert!(sentence >= 20.0, "{sentence}");
        }
        assert!((0.031..0.0311).contains(&LETTER_SHARE), "{LETTER_SHARE}");
        assert_eq!(type_px(1920.0, 1080.0).round(), 47.0);
        assert_eq!(type_px(390.0, 844.0), LEAST_PX);
    }
}
