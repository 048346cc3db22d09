//! A quantity compared with its reference, and the tables that the checks print.

use crate::closeness::Interval;

/// One compared quantity.
#[derive(Clone, Debug)]
pub struct Compared {
    /// Number of the reference case.
    pub id: String,
    /// Group that the report sums up by.
    pub group: String,
    /// Name of the quantity.
    pub quantity: String,
    /// Core's value.
    pub value: f64,
    /// Core's value without damping, where that was run.
    pub value_undamped: Option<f64>,
    /// The reference value, or the interval of them.
    pub reference: Interval,
    /// Where it passes.
    pub allowed: Interval,
    /// Where whatever model must lie.
    pub allowed_any_model: Interval,
}

impl Compared {
    /// Whether it passes.
    pub fn passes(&self) -> bool {
        self.allowed.holds(self.value)
    }

    /// Whether it lies where whatever model must lie, or passes anyhow.
    pub fn lies_with_any_model(&self) -> bool {
        self.passes() || self.allowed_any_model.holds(self.value)
    }

    /// Signed deviation from the nearest reference value, relative; 0 between the reference values.
    pub fn deviation(&self) -> f64 {
        let nearest = if self.value < self.reference.low {
            self.reference.low
        } else {
            self.reference.high
        };
        let outside = self.reference.outside_by(self.value);
        if outside == 0.0 {
            0.0
        } else {
            outside / nearest.abs()
        }
    }

    /// One line: what, value, reference, deviation, verdict.
    pub fn line(&self) -> String {
        let undamped = self
            .value_undamped
            .map_or(String::new(), |v| format!(" undamped {v:<11.6}"));
        format!(
            "{:4} {:34} {:<11.6}{undamped} reference {:.6}..{:.6} allowed {:.6}..{:.6} {:+.2} %{}",
            self.id,
            self.quantity,
            self.value,
            self.reference.low,
            self.reference.high,
            self.allowed.low,
            self.allowed.high,
            100.0 * self.deviation(),
            match (self.passes(), self.lies_with_any_model()) {
                (true, _) => "",
                (false, true) => "  OUT",
                (false, false) => "  OUT, outside any model",
            }
        )
    }
}

/// Prints per group: how many pass, and the quantity with the largest deviation that has a
/// meaningful relative deviation, and the one closest to or furthest over its own allowance.
pub fn print_worst_per_group(title: &str, all: &[Compared]) {
    println!("\n{title}");
    let mut groups: Vec<&str> = Vec::new();
    for c in all {
        if !groups.contains(&c.group.as_str()) {
            groups.push(&c.group);
        }
    }
    for group in groups {
        let of: Vec<&Compared> = all.iter().filter(|c| c.group == group).collect();
        let good = of.iter().filter(|c| c.passes()).count();
        println!("  {group}: {good} of {} pass", of.len());
        if let Some(worst) = of.iter().max_by(|a, b| used(a).total_cmp(&used(b))) {
            println!(
                "    worst for its tolerance ({:.0} % of it): {}",
                100.0 * used(worst),
                worst.line()
            );
        }
    }
    let good = all.iter().filter(|c| c.passes()).count();
    println!("  all: {good} of {} pass", all.len());
}

/// Part of its tolerance that a quantity uses up: 0 between the reference values, 1 at the limit.
fn used(c: &Compared) -> f64 {
    let outside = c.reference.outside_by(c.value);
    let room = if outside < 0.0 {
        c.reference.low - c.allowed.low
    } else {
        c.allowed.high - c.reference.high
    };
    if outside == 0.0 {
        0.0
    } else {
        outside.abs() / room
    }
}
