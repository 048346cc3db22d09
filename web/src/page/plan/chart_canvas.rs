//! The plotters backend for the page: plotters-canvas inside a wrapper that measures text with
//! the canvas itself and keeps hairlines sharp.
//!
//! plotters-canvas alone measures text with a hidden element and a style attribute, which costs a
//! layout each time and which the page's content policy forbids.

use plotters::drawing::IntoDrawingArea;
use plotters::style::RGBColor;
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
};
use plotters_canvas::CanvasBackend;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::first::scene::theme::Theme;
use crate::page::fit::spread::{self, Histogram};
use crate::page::fit::sweep::{self, Sweep};
use crate::page::plan::chart::{self, Chart, Palette, Plotted, Scale};

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
    let backend = Measured::new(canvas, context).ok_or("no canvas context")?;
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
    let backend = Measured::new(canvas, context).ok_or("no canvas context")?;
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
    let backend = Measured::new(canvas, context).ok_or("no canvas context")?;
    let palette = backend.palette(theme);
    let area = backend.into_drawing_area();
    spread::draw(&area, shown, &palette, Scale(dpr)).map_err(|fault| fault.to_string())
}

/// The wrapper.
struct Measured {
    inner: CanvasBackend,
    context: CanvasRenderingContext2d,
}

impl Measured {
    fn new(canvas: &HtmlCanvasElement, context: CanvasRenderingContext2d) -> Option<Self> {
        let inner = CanvasBackend::with_canvas_object(canvas.clone())?;
        // Refused only for numbers that are not finite.
        context.set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0).ok()?;
        context.set_line_join("round");
        context.set_line_cap("butt");
        Some(Self { inner, context })
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
}

type Done = Result<(), DrawingErrorKind<<CanvasBackend as DrawingBackend>::ErrorType>>;

impl DrawingBackend for Measured {
    type ErrorType = <CanvasBackend as DrawingBackend>::ErrorType;

    fn get_size(&self) -> (u32, u32) {
        self.inner.get_size()
    }

    fn ensure_prepared(&mut self) -> Done {
        self.inner.ensure_prepared()
    }

    fn present(&mut self) -> Done {
        self.inner.present()
    }

    fn draw_pixel(&mut self, point: BackendCoord, color: BackendColor) -> Done {
        self.inner.draw_pixel(point, color)
    }

    fn draw_line<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
    ) -> Done {
        self.inner.draw_line(from, to, style)
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        upper_left: BackendCoord,
        bottom_right: BackendCoord,
        style: &S,
        fill: bool,
    ) -> Done {
        self.inner.draw_rect(upper_left, bottom_right, style, fill)
    }

    /// Two points are a line, which plotters-canvas sets on whole pixels when it is upright or
    /// level; it does not for paths.
    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        let points: Vec<BackendCoord> = path.into_iter().collect();
        match points.as_slice() {
            &[from, to] => self.inner.draw_line(from, to, style),
            _ => self.inner.draw_path(points, style),
        }
    }

    fn draw_circle<S: BackendStyle>(
        &mut self,
        center: BackendCoord,
        radius: u32,
        style: &S,
        fill: bool,
    ) -> Done {
        self.inner.draw_circle(center, radius, style, fill)
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        vert: I,
        style: &S,
    ) -> Done {
        self.inner.fill_polygon(vert, style)
    }

    fn draw_text<S: BackendTextStyle>(&mut self, text: &str, style: &S, pos: BackendCoord) -> Done {
        self.inner.draw_text(text, style, pos)
    }

    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        text: &str,
        style: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Self::ErrorType>> {
        let size = style.size();
        self.context
            .set_font(&format!("{size}px {}", style.family().as_str()));
        // Without a measure, six tenths of the type size a letter.
        let width = self.context.measure_text(text).map_or_else(
            |_| 0.6 * size * text.chars().count() as f64,
            |measure| measure.width(),
        );
        Ok((width.ceil() as u32, size.ceil() as u32))
    }
}
