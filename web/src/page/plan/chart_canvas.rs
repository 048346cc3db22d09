//! The plotters backend for the page, on the canvas's own calls.
//!
//! plotters' backend for canvases measures text with a hidden element and a style attribute, which
//! costs a layout each time and which the page's content policy forbids; and it writes numbers with
//! the standard formatter, which the rest of the page does without.

use plotters::drawing::IntoDrawingArea;
use plotters::style::RGBColor;
use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
    FontTransform,
};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::first::scene::theme::Theme;
use crate::page::fit::spread::{self, Histogram};
use crate::page::fit::sweep::{self, Sweep};
use crate::page::plan::chart::{self, Chart, Palette, Plotted, Scale};
use crate::say::format::ungrouped;

/// Draws a chart; where it stands then.
///
/// # Errors
/// In words: no context, or what the backend reports.
pub fn draw(
    canvas: &HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    chart: Chart,
    theme: &Theme,
    dpr: f64,
) -> Result<Plotted, String> {
    let backend = Plotter::new(canvas, context).ok_or("no canvas context")?;
    let palette = backend.palette(theme);
    let (area, scale) = (backend.into_drawing_area(), Scale(dpr));
    let frame = chart::draw(&area, &chart, &palette, scale).map_err(|fault| fault.to_string())?;
    Ok(Plotted::new(chart, frame, scale))
}

/// Draws what an input does to the footroom, with a point picked out.
///
/// # Errors
/// In words: no context, or what the backend reports.
pub fn draw_sweep(
    canvas: &HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    shown: &Sweep,
    theme: &Theme,
    dpr: f64,
    picked: Option<usize>,
) -> Result<(), String> {
    let backend = Plotter::new(canvas, context).ok_or("no canvas context")?;
    let palette = backend.palette(theme);
    let area = backend.into_drawing_area();
    sweep::draw(&area, shown, &palette, Scale(dpr), picked).map_err(|fault| fault.to_string())
}

/// Draws how falls spread.
///
/// # Errors
/// In words: no context, or what the backend reports.
pub fn draw_spread(
    canvas: &HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    shown: &Histogram,
    theme: &Theme,
    dpr: f64,
) -> Result<(), String> {
    let backend = Plotter::new(canvas, context).ok_or("no canvas context")?;
    let palette = backend.palette(theme);
    let area = backend.into_drawing_area();
    spread::draw(&area, shown, &palette, Scale(dpr)).map_err(|fault| fault.to_string())
}

/// Draws on a canvas what plotters asks for, in device pixels.
struct Plotter {
    size_px: (u32, u32),
    context: CanvasRenderingContext2d,
}

/// The browser has refused a call: it does for numbers that are not finite.
#[derive(Debug)]
struct Refused;

impl std::fmt::Display for Refused {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str("the canvas refused a number")
    }
}

impl std::error::Error for Refused {}

impl From<Refused> for DrawingErrorKind<Refused> {
    fn from(fault: Refused) -> Self {
        DrawingErrorKind::DrawingError(fault)
    }
}

impl Plotter {
    fn new(canvas: &HtmlCanvasElement, context: CanvasRenderingContext2d) -> Option<Self> {
        // Refused only for numbers that are not finite.
        context.set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0).ok()?;
        context.set_line_join("round");
        context.set_line_cap("butt");
        Some(Self {
            size_px: (canvas.width(), canvas.height()),
            context,
        })
    }

    /// The theme's colours as numbers: the context turns every CSS colour, system colours of a
    /// forced palette included, into hexadecimal or `rgba()`.
    fn palette(&self, theme: &Theme) -> Palette {
        Palette::of(theme, |css| self.resolve(css))
    }

    fn resolve(&self, css: &str) -> Option<RGBColor> {
        self.context.set_fill_style_str(css);
        chart::parse_colour(&self.context.fill_style().as_string()?)
    }

    fn set_stroke(&self, style: &impl BackendStyle) {
        self.context.set_stroke_style_str(&css(style.color()));
        self.context.set_line_width(f64::from(style.stroke_width()));
    }

    /// Makes the outline of a path the current one.
    fn outline(&self, points: impl IntoIterator<Item = (f64, f64)>) {
        self.context.begin_path();
        for (i, (x, y)) in points.into_iter().enumerate() {
            if i == 0 {
                self.context.move_to(x, y);
            } else {
                self.context.line_to(x, y);
            }
        }
    }
}

/// The upper left corner of a pixel.
fn corner((x, y): BackendCoord) -> (f64, f64) {
    (f64::from(x), f64::from(y))
}

fn css(color: BackendColor) -> String {
    let (r, g, b) = color.rgb;
    format!("rgba({r},{g},{b},{})", ungrouped(color.alpha, 3))
}

type Done = Result<(), DrawingErrorKind<Refused>>;

impl DrawingBackend for Plotter {
    type ErrorType = Refused;

    fn get_size(&self) -> (u32, u32) {
        self.size_px
    }

    fn ensure_prepared(&mut self) -> Done {
        Ok(())
    }

    fn present(&mut self) -> Done {
        Ok(())
    }

    fn draw_pixel(&mut self, point: BackendCoord, color: BackendColor) -> Done {
        let (x, y) = corner(point);
        self.context.set_fill_style_str(&css(color));
        self.context.fill_rect(x, y, 1.0, 1.0);
        Ok(())
    }

    /// Upright and level lines stand on whole pixels, so that hairlines are sharp.
    fn draw_line<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
    ) -> Done {
        let shift = |same: bool| if same { 0.5 } else { 0.0 };
        let (dx, dy) = (shift(from.0 == to.0), shift(from.1 == to.1));
        self.set_stroke(style);
        self.outline([from, to].map(|point| {
            let (x, y) = corner(point);
            (x - dx, y - dy)
        }));
        self.context.stroke();
        Ok(())
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        upper_left: BackendCoord,
        bottom_right: BackendCoord,
        style: &S,
        fill: bool,
    ) -> Done {
        let (left, top) = corner(upper_left);
        let (right, bottom) = corner(bottom_right);
        if fill {
            self.context.set_fill_style_str(&css(style.color()));
            self.context
                .fill_rect(left, top, right - left, bottom - top);
        } else {
            self.set_stroke(style);
            self.context
                .stroke_rect(left, top, right - left, bottom - top);
        }
        Ok(())
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        let points: Vec<BackendCoord> = path.into_iter().collect();
        if let &[from, to] = points.as_slice() {
            return self.draw_line(from, to, style);
        }
        self.set_stroke(style);
        self.outline(points.into_iter().map(corner));
        self.context.stroke();
        Ok(())
    }

    fn draw_circle<S: BackendStyle>(
        &mut self,
        center: BackendCoord,
        radius: u32,
        style: &S,
        fill: bool,
    ) -> Done {
        let (x, y) = corner(center);
        self.context.begin_path();
        self.context
            .arc(x, y, f64::from(radius), 0.0, std::f64::consts::TAU)
            .map_err(|_| Refused)?;
        if fill {
            self.context.set_fill_style_str(&css(style.color()));
            self.context.fill();
        } else {
            self.set_stroke(style);
            self.context.stroke();
        }
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        vert: I,
        style: &S,
    ) -> Done {
        self.context.set_fill_style_str(&css(style.color()));
        self.outline(vert.into_iter().map(corner));
        self.context.close_path();
        self.context.fill();
        Ok(())
    }

    fn draw_text<S: BackendTextStyle>(&mut self, text: &str, style: &S, pos: BackendCoord) -> Done {
        let quarters = match style.transform() {
            FontTransform::None => 0.0,
            FontTransform::Rotate90 => 1.0,
            FontTransform::Rotate180 => 2.0,
            FontTransform::Rotate270 => 3.0,
        };
        let (x, y) = corner(pos);
        let context = &self.context;
        context.set_text_baseline(match style.anchor().v_pos {
            VPos::Top => "top",
            VPos::Center => "middle",
            VPos::Bottom => "bottom",
        });
        context.set_text_align(match style.anchor().h_pos {
            HPos::Left => "start",
            HPos::Right => "end",
            HPos::Center => "center",
        });
        context.set_fill_style_str(&css(style.color()));
        context.set_font(&format!(
            "{} {}px {}",
            style.style().as_str(),
            ungrouped(style.size(), 2),
            style.family().as_str(),
        ));
        context.save();
        let written = context
            .translate(x, y)
            .and_then(|()| context.rotate(quarters * std::f64::consts::FRAC_PI_2))
            .and_then(|()| context.fill_text(text, 0.0, 0.0));
        context.restore();
        written.map_err(|_| Refused)?;
        Ok(())
    }

    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        text: &str,
        style: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Self::ErrorType>> {
        let size = style.size();
        self.context.set_font(&format!(
            "{}px {}",
            ungrouped(size, 2),
            style.family().as_str()
        ));
        // Without a measure, six tenths of the type size a letter.
        let width = self.context.measure_text(text).map_or_else(
            |_| 0.6 * size * text.chars().count() as f64,
            |measure| measure.width(),
        );
        Ok((width.ceil() as u32, size.ceil() as u32))
    }
}
