//! Figures of README's table of accuracy: each is written by the check that measures it, and held
//! against the page at every run.
//!
//! In the README a figure stands between `<!--NAME-->` and `<!--/-->`, which no reader sees. Write
//! them anew, one check after another, with
//! `FOOTROOM_RECORD=1 cargo test --package footroom-tests -- --test-threads=1`.

use std::path::PathBuf;

/// The figures that the README shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Worst deviation of the statics under load from the exact catenaries.
    StaticsLoaded,
    /// Worst deviation of the sag under self weight.
    StaticsSag,
    /// Worst deviation of the energy balance from a line without inertia.
    Balance,
    /// Reference falls of the line with mass, and the part of their quantities inside their intervals.
    ArrestFalls,
    /// See [`Figure::ArrestFalls`].
    ArrestInside,
    /// The most by which the tension lies outside its interval where an in-line absorber deploys.
    ArrestInline,
    /// Falls on several spans: how far the tension is below the mean over 2 ms and above the raw peak at
    /// most, and how far a first lowest point is off.
    MultispanLow,
    /// See [`Figure::MultispanLow`].
    MultispanHigh,
    /// See [`Figure::MultispanLow`].
    MultispanLowest,
    /// The greatest deviations from the independent integration: drops.
    IndependentDrop,
    /// The same for line tensions.
    IndependentTension,
    /// The same for extensions of absorbers.
    IndependentExtension,
    /// Random falls with twice the nodes and half the step: part of the tensions, of the arrest
    /// forces that move by less than the design's bound, and the most that a required depth moves.
    RefinementTension,
    /// See [`Figure::RefinementTension`].
    RefinementForce,
    /// See [`Figure::RefinementTension`].
    RefinementDepth,
    /// Beside a support, against four times the nodes: the most that a depth moves.
    SupportDepth,
    /// Crews that need more in ten seconds than in six, and the most that one does.
    LaterCrews,
    /// See [`Figure::LaterCrews`].
    LaterMost,
    /// What other combinations of tolerances take from the least footroom, and add to the greatest
    /// tension, of the corners.
    CornerFootroom,
    /// See [`Figure::CornerFootroom`].
    CornerTension,
    /// Crews of which a draw of small differences leaves less than the crew exactly as given, by more
    /// than a crew's tolerance, and the most that one leaves less than the answer.
    CrewGiven,
    /// See [`Figure::CrewGiven`].
    CrewMost,
    /// Draws within the tolerances that are worse than the answer, and than the tolerances alone.
    DrawsAnswer,
    /// See [`Figure::DrawsAnswer`].
    DrawsSides,
    /// Cases with the same bits natively and in browsers.
    Corpus,
}

impl Figure {
    /// All of them.
    pub const EACH: [Self; 25] = [
        Self::StaticsLoaded,
        Self::StaticsSag,
        Self::Balance,
        Self::ArrestFalls,
        Self::ArrestInside,
        Self::ArrestInline,
        Self::MultispanLow,
        Self::MultispanHigh,
        Self::MultispanLowest,
        Self::IndependentDrop,
        Self::IndependentTension,
        Self::IndependentExtension,
        Self::RefinementTension,
        Self::RefinementForce,
        Self::RefinementDepth,
        Self::SupportDepth,
        Self::LaterCrews,
        Self::LaterMost,
        Self::CornerFootroom,
        Self::CornerTension,
        Self::CrewGiven,
        Self::CrewMost,
        Self::DrawsAnswer,
        Self::DrawsSides,
        Self::Corpus,
    ];

    /// Its name between the marks.
    pub fn name(self) -> &'static str {
        match self {
            Self::StaticsLoaded => "statics-loaded",
            Self::StaticsSag => "statics-sag",
            Self::Balance => "balance",
            Self::ArrestFalls => "arrest-falls",
            Self::ArrestInside => "arrest-inside",
            Self::ArrestInline => "arrest-inline",
            Self::MultispanLow => "multispan-low",
            Self::MultispanHigh => "multispan-high",
            Self::MultispanLowest => "multispan-lowest",
            Self::IndependentDrop => "independent-drop",
            Self::IndependentTension => "independent-tension",
            Self::IndependentExtension => "independent-extension",
            Self::RefinementTension => "refinement-tension",
            Self::RefinementForce => "refinement-force",
            Self::RefinementDepth => "refinement-depth",
            Self::SupportDepth => "support-depth",
            Self::LaterCrews => "later-crews",
            Self::LaterMost => "later-most",
            Self::CornerFootroom => "corner-footroom",
            Self::CornerTension => "corner-tension",
            Self::CrewGiven => "crew-given",
            Self::CrewMost => "crew-most",
            Self::DrawsAnswer => "draws-answer",
            Self::DrawsSides => "draws-sides",
            Self::Corpus => "corpus",
        }
    }
}

const END: &str = "<!--/-->";

/// The README's path.
fn path() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../README.md")
}

/// The README as it is.
///
/// # Panics
/// When it cannot be read.
pub fn readme() -> String {
    std::fs::read_to_string(path()).expect("the README can be read")
}

/// Where a figure of this name stands in a text: from behind its first mark to the end mark.
fn place(text: &str, name: &str) -> Option<std::ops::Range<usize>> {
    let mark = format!("<!--{name}-->");
    let from = text.find(&mark)? + mark.len();
    let to = from + text[from..].find(END)?;
    Some(from..to)
}

/// The names of all figures in a text, in its order.
pub fn names(text: &str) -> Vec<&str> {
    let opened = text.split("<!--").skip(1);
    opened
        .filter_map(|rest| rest.split_once("-->"))
        .map(|(name, _)| name)
        .filter(|&name| name != "/")
        .collect()
}

/// Holds the README's figure against the measured one; writes it where `FOOTROOM_RECORD` is set.
///
/// # Panics
/// When the README shows another one, or none.
#[track_caller]
pub fn hold(figure: Figure, measured: &str) {
    let name = figure.name();
    let mut text = readme();
    let at = place(&text, name).unwrap_or_else(|| panic!("the README shows no figure {name}"));
    if std::env::var_os("FOOTROOM_RECORD").is_some() {
        text.replace_range(at, measured);
        std::fs::write(path(), text).expect("the README can be written");
        return;
    }
    let shown = &text[at];
    assert!(
        shown == measured,
        "the README says {shown} for {name}, measured is {measured}; FOOTROOM_RECORD=1 writes it"
    );
}

/// A part in per cent, two digits, rounded away from nought: what is said is not exceeded.
pub fn at_most_percent(part: f64) -> String {
    let percent = 100.0 * part;
    let decimals = decimals_of(percent);
    format!("{:.*} %", decimals, raised(percent, decimals))
}

/// A part in per cent, one decimal, rounded down: at least so much.
pub fn at_least_percent(part: f64) -> String {
    format!("{:.1} %", (1000.0 * part).floor() / 10.0)
}

/// A length in m, to the centimetre or millimetre, rounded up.
pub fn at_most_m(length_m: f64) -> String {
    let decimals = if length_m < 0.01 { 3 } else { 2 };
    // No minus before nothing.
    format!("{:.*} m", decimals, raised(length_m, decimals) + 0.0)
}

/// Decimals that leave two digits, at most three.
fn decimals_of(value: f64) -> usize {
    match value {
        v if v >= 10.0 => 0,
        v if v >= 1.0 => 1,
        v if v >= 0.1 => 2,
        _ => 3,
    }
}

fn raised(value: f64, decimals: usize) -> f64 {
    let scale = 10.0_f64.powi(decimals as i32);
    // What is a whole number of the last digit stays it.
    (value * scale - 1.0e-9).ceil().max(0.0) / scale
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_readme_counts_the_corpus() {
        hold(Figure::Corpus, &crate::corpus::CASES.to_string());
    }

    #[test]
    fn figures_are_rounded_to_the_worse_side() {
        assert_eq!(at_most_percent(0.001_301), "0.14 %");
        assert_eq!(at_most_percent(0.000_012_3), "0.002 %");
        assert_eq!(at_most_percent(0.047), "4.7 %");
        assert_eq!(at_most_percent(0.121), "13 %");
        assert_eq!(at_least_percent(0.996_49), "99.6 %");
        assert_eq!(at_most_m(0.251), "0.26 m");
        assert_eq!(at_most_m(0.002_1), "0.003 m");
    }

    #[test]
    fn the_readme_shows_each_figure_once() {
        let text = readme();
        let mut shown = names(&text);
        let mut known = Figure::EACH.map(Figure::name).to_vec();
        shown.sort_unstable();
        known.sort_unstable();
        assert_eq!(shown, known);
    }
}
