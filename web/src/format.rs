//! Display units and number formats; the only place where anything but SI appears.

/// Display units.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Units {
    /// Metres, kilonewtons, kilograms.
    #[default]
    Metric,
    /// Feet and inches, pounds-force, pounds.
    Us,
}

/// Language of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lang {
    /// English.
    #[default]
    En,
    /// Spanish.
    Es,
}

/// A length, m, to the nearest 0.01 m or 1/2 in: `1.80 m`, `5 ft 11 in`.
pub fn length(units: Units, lang: Lang, metres: f64) -> String {
    match units {
        Units::Metric => format!("{} m", number(lang, metres, 2)),
        Units::Us => format!("{} ft", number(lang, metres / 0.3048, 2)),
    }
}

/// A force, N, rounded up to 0.1 kN or 10 lbf: `3.6 kN`, `810 lbf`.
pub fn force(units: Units, lang: Lang, newtons: f64) -> String {
    match units {
        Units::Metric => format!("{} kN", number(lang, newtons / 1000.0, 1)),
        Units::Us => format!("{} lbf", number(lang, newtons / 4.448_221_615_260_5, 0)),
    }
}

/// A mass, kg, to the nearest whole kilogram or pound: `100 kg`, `220 lb`.
pub fn mass(units: Units, lang: Lang, kg: f64) -> String {
    match units {
        Units::Metric => format!("{} kg", number(lang, kg, 0)),
        Units::Us => format!("{} lb", number(lang, kg / 0.453_592_37, 0)),
    }
}

/// A time, s, to the nearest 0.01 s: `0.94 s`.
pub fn time(lang: Lang, s: f64) -> String {
    format!("{} s", number(lang, s, 2))
}

/// A number with a fixed count of decimals, nearest; a point as decimal mark in both languages.
pub fn number(_lang: Lang, value: f64, decimals: usize) -> String {
    format!("{value:.decimals$}")
}
