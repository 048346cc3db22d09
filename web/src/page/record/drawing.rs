//! The drop at the lowest point with the stack beside it, for paper and for files. On paper it stands
//! beside the answer; a file is handed on alone, so that all that has to stand beside the answer is
//! written under the drawing.

use crate::first::answer::Told;
use crate::first::governing::GoverningStack;
use crate::first::scene::surface::{Align, Face, Rect, Surface, at};
use crate::first::scene::svg::{Measure, SvgSurface, ink_only};
use crate::first::scene::theme::Theme;
use crate::first::scene::{self, SceneView};
use crate::page::compare::shelf::wrapped;

/// Draws it as scalable vector graphics, black on white. `name` tells it apart in a page.
pub fn lowest(
    told: &Told<'_>,
    measure: Measure<'_>,
    name: &str,
    width_px: f64,
    height_px: f64,
) -> String {
    let theme = ink_only();
    let governing = GoverningStack::of(told.assessment);
    let mut surface = SvgSurface::new(measure, name, width_px, height_px, &told.description());
    let view = SceneView::new(
        told.case,
        (Some(told.outcome), governing.as_ref()),
        told.voice,
        &theme,
        [width_px, height_px, 1.0],
        told.lowest_time_s(),
    );
    scene::draw(&mut surface, &view);
    surface.finish()
}

/// Height of the type of the caption against the width of the picture.
const TYPE_RATIO: f64 = 1.0 / 62.0;
/// Distance of its lines in heights of the type.
const LEADING: f64 = 1.35;

/// A line of the caption.
struct Line {
    text: String,
    bold: bool,
}

/// What is written under the drawing, in lines of this width: that the line is not to be used, the
/// answer, what is not met, every warning, the cautions and the model.
fn caption(told: &Told<'_>, width: &dyn Fn(&str, Face) -> f64, width_px: f64) -> Vec<Line> {
    let r = told.voice.record();
    let (answer, remarks) = (told.answer(), told.remarks());
    let mut said: Vec<(String, bool)> = Vec::new();
    if !remarks.do_not_use.is_empty() {
        let why = remarks.do_not_use.join(" ");
        said.push((format!("{}: {why}", r.do_not_use), true));
    }
    said.push((answer.sentence, true));
    said.extend(remarks.not_met.into_iter().map(|text| (text, true)));
    said.extend(remarks.lines.into_iter().map(|text| (text, true)));
    said.extend(remarks.warnings.into_iter().map(|text| (text, false)));
    said.push((remarks.tally, false));
    let caution = told.voice.texts().caution;
    // A picture that is handed on alone says so of invented data.
    let job = if told.case.invented {
        format!("{} ({})", told.case.title, told.voice.texts().invented)
    } else {
        told.case.title.clone()
    };
    said.push((
        format!("{job}. {caution} Footroom, {}.", told.model()),
        false,
    ));
    let mut lines = Vec::new();
    for (text, bold) in said.into_iter().filter(|(text, _)| !text.is_empty()) {
        let face = face(width_px, bold);
        let room_px = width_px - 2.0 * face.size_px;
        let parts = wrapped(&|text| width(text, face), &text, room_px);
        lines.extend(parts.into_iter().map(|text| Line { text, bold }));
    }
    lines
}

fn face(width_px: f64, bold: bool) -> Face {
    Face {
        size_px: width_px * TYPE_RATIO,
        bold,
    }
}

/// Height of a picture of this width, whose drawing has that height, px.
pub fn picture_height_px(
    told: &Told<'_>,
    width: &dyn Fn(&str, Face) -> f64,
    width_px: f64,
    drawing_px: f64,
) -> f64 {
    let lines = caption(told, width, width_px).len() as f64;
    drawing_px + (lines + 1.0) * LEADING * face(width_px, false).size_px
}

/// Draws the picture: the drop at an instant, s, and under it what has to stand there.
pub fn picture(
    surface: &mut dyn Surface,
    told: &Told<'_>,
    theme: &Theme,
    [width_px, drawing_px, dpr]: [f64; 3],
    time_s: f64,
) {
    let governing = GoverningStack::of(told.assessment);
    let view = SceneView::new(
        told.case,
        (Some(told.outcome), governing.as_ref()),
        told.voice,
        theme,
        [width_px, drawing_px, dpr],
        time_s,
    );
    scene::draw(surface, &view);
    let measured = |text: &str, face| surface.text_width(text, face);
    let lines = caption(told, &measured, width_px);
    let type_px = face(width_px, false).size_px;
    // To the edge, where a frame of a film is rounded to whole px.
    let height_px = (lines.len() as f64 + 1.0) * LEADING * type_px + 2.0;
    surface.path();
    surface.rect(Rect {
        x: 0.0,
        y: drawing_px,
        w: width_px,
        h: height_px,
    });
    surface.fill(&theme.paper);
    for (i, line) in lines.iter().enumerate() {
        let y = drawing_px + (i as f64 + 0.75) * LEADING * type_px;
        let face = face(width_px, line.bold);
        surface.text(&line.text, at(type_px, y), Align::Left, face, &theme.ink);
    }
}

/// The same as a file, at the lowest point, black on white.
pub fn picture_svg(
    told: &Told<'_>,
    measure: Measure<'_>,
    width_px: f64,
    drawing_px: f64,
) -> String {
    let theme = ink_only();
    let height_px = picture_height_px(told, measure, width_px, drawing_px);
    let words = told.description();
    let mut surface = SvgSurface::new(measure, "drop", width_px, height_px, &words);
    let size = [width_px, drawing_px, 1.0];
    picture(&mut surface, told, &theme, size, told.lowest_time_s());
    surface.finish()
}
