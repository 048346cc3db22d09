//! Physical constants and limits of the model, each with its source.

/// Standard acceleration of gravity, m/s² (3rd General Conference on Weights and Measures, 1901).
pub const GRAVITY_M_PER_S2: f64 = 9.806_65;

/// The international inch, m (exact, 1959).
pub const INCH_M: f64 = 0.0254;

/// The international foot, m (exact, 1959).
pub const FOOT_M: f64 = 0.3048;

/// The avoirdupois pound, kg (exact, 1959).
pub const POUND_KG: f64 = 0.453_592_37;

/// The pound-force, N: a pound times the standard acceleration of gravity (exact).
pub const POUND_FORCE_N: f64 = 4.448_221_615_260_5;

/// Average deployment force of a personal energy absorber over its maximum force.
///
/// Source: Carrión, Saez, Pomares, González, Int. J. Environ. Res. Public Health 17 (2020) 7647
/// (20 drop tests, 10 models).
pub const AVERAGE_OVER_MAXIMUM_FORCE: f64 = 0.875;

/// Most workers on one line that the model takes.
pub const WORKERS_MAX: usize = 6;

/// Most spans of one line that the model takes.
pub const SPANS_MAX: usize = 12;

/// Most things below that a case can list.
pub const BELOW_MAX: usize = 12;

/// Most sag at rest, as a part of the span, for which the line still counts as taut.
///
/// At 1/20 the parabola is within 0.7 % of the catenary; a slacker line is not a lifeline.
pub const SAG_RATIO_MAX: f64 = 1.0 / 20.0;

/// Greatest slope of the line, vertical over horizontal, that vertical motion is taken to describe.
///
/// Against an independent cable whose nodes move along and across (tests/cable.rs), 0.15 to 2.6 m from
/// a post, lines of 1 to 4.4 kN, with and without an in-line absorber, slopes up to 0.89: drop from 7 mm
/// short to 6 mm too deep, tension from 3.8 % low (within 0.5 m of a post) to 0.9 % high, neither of
/// which grew with the slope. Steeper was not tried.
pub const SLOPE_MAX: f64 = 0.85;

/// Greatest residual of a run's energy ledger, as a part of the work of gravity, without a doubt.
pub const RESIDUAL_MAX: f64 = 1.0e-3;

/// Version of the mechanics: changes whenever any reported number may change.
pub const MODEL_VERSION: u32 = 7;
