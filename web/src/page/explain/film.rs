//! The fall as a film: how long it stands, falls and holds, and what each frame shows. The frames are
//! pictures of the record, so that all that has to stand beside the answer is in every one of them.

use crate::first::answer::Told;
use crate::first::scene::surface::{Face, Surface};
use crate::first::scene::theme::Theme;
use crate::page::record::drawing;

/// Time for which the crew stands at first, and for which the lowest point is held, s.
const STANDS_S: f64 = 1.5;
const HOLDS_S: f64 = 3.0;
/// Width of a frame and height of the drawing in it, px.
const WIDTH_PX: f64 = 1280.0;
const DRAWING_PX: f64 = 600.0;

/// What is recorded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Film {
    /// Its length, s.
    pub duration_s: f64,
    /// Width of a frame, px.
    pub width_px: f64,
    /// Height of the drawing in it, px.
    pub drawing_px: f64,
    /// Height of a frame with the words under the drawing, px: an even number, as encoders ask for.
    pub height_px: f64,
}

impl Film {
    /// The film of a case. The fall plays at a quarter of its speed, or so fast that it does not take
    /// longer than the talk lets it, see [`Told::play_speed`].
    pub fn of(told: &Told<'_>, width: &dyn Fn(&str, Face) -> f64) -> Self {
        let high = drawing::picture_height_px(told, width, WIDTH_PX, DRAWING_PX);
        Self {
            duration_s: duration_s(told),
            width_px: WIDTH_PX,
            drawing_px: DRAWING_PX,
            height_px: 2.0 * (0.5 * high).ceil(),
        }
    }

    /// Draws the frame at a time of the film, s.
    pub fn draw(&self, surface: &mut dyn Surface, told: &Told<'_>, theme: &Theme, film_s: f64) {
        let size = [self.width_px, self.drawing_px, 1.0];
        drawing::picture(surface, told, theme, size, fall_s(told, film_s));
    }
}

/// Length of the film, s.
pub fn duration_s(told: &Told<'_>) -> f64 {
    STANDS_S + told.lowest_time_s() / told.play_speed() + HOLDS_S
}

/// The instant of the fall that a time of the film shows, s.
pub fn fall_s(told: &Told<'_>, film_s: f64) -> f64 {
    let falls_s = (film_s - STANDS_S) * told.play_speed();
    falls_s.max(0.0).min(told.lowest_time_s())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::scene::recording::Recording;
    use crate::first::scene::svg::ink_only;
    use crate::page::explain::talk::script::answered;
    use crate::say::faults::Voice;
    use footroom_core::demo::demo;

    /// Every frame holds the answer, what is not met, the cautions, and that the data are invented.
    #[test]
    fn every_frame_holds_the_words() {
        let case = demo();
        let assessment = answered(&case).expect("a case without faults");
        let theme = ink_only();
        for voice in Voice::ALL {
            let told = Told::of(voice, &case, &assessment);
            let ruler = Recording::default();
            let film = Film::of(&told, &|text, face| ruler.text_width(text, face));
            assert!((5.0..=14.0).contains(&film.duration_s), "{film:?}");
            assert!(
                film.height_px % 2.0 == 0.0 && film.height_px < 1200.0,
                "{film:?}"
            );
            let packed = |text: &str| text.split_whitespace().collect::<String>();
            for part in [0.0, 0.4, 0.8, 1.0] {
                let mut frame = Recording::default();
                film.draw(&mut frame, &told, &theme, part * film.duration_s);
                let said: Vec<&str> = frame.texts.iter().map(|t| t.text.as_str()).collect();
                let said = packed(&said.concat());
                let (answer, remarks) = (told.answer(), told.remarks());
                let t = voice.texts();
                let mut must = vec![answer.sentence, t.caution.to_owned(), t.invented.to_owned()];
                must.extend(remarks.not_met);
                must.extend(remarks.warnings);
                for text in must {
                    assert!(said.contains(&packed(&text)), "{part}: {text}");
                }
                let low = frame.texts.iter().map(|t| t.area.bottom());
                let low = low.fold(0.0, f64::max);
                assert!(low <= film.height_px, "{low} {film:?}");
            }
            // It begins before the fall, and ends at its lowest point.
            assert_eq!(fall_s(&told, 0.0), 0.0);
            let end_s = film.duration_s - HOLDS_S;
            assert!((fall_s(&told, end_s) - told.lowest_time_s()).abs() < 1e-9);
            assert_eq!(fall_s(&told, film.duration_s), told.lowest_time_s());
        }
    }
}
