//! What a case must keep: the range of every input ([`crate::field`]), how many there may be of what,
//! and what inputs ask of each other. (`#[cold]`: as there.)

use alloc::string::String;
use alloc::vec::Vec;
use core::ops::RangeInclusive;

use crate::case::{Absorber, Case, GearKind, Line};
use crate::constants::{SAG_RATIO_MAX, WORKERS_MAX};
use crate::curve::{POINTS_MAX, POINTS_MIN, Shape};
use crate::fault::{Fault, FieldRef};
use crate::field::{self, Field, Visitor};

impl Case {
    /// Every fault of the inputs, in their order, those of several inputs together after those of
    /// the structure that holds them; what only the line on its posts at today's temperature shows is
    /// not in it.
    pub(crate) fn input_faults(&self) -> Vec<Fault> {
        let mut checker = Checker::new(&self.line, Some(self));
        field::visit(&mut self.clone(), &mut checker);
        checker.faults
    }
}

impl Line {
    /// The faults of the line alone: what the statics need.
    pub fn line_faults(&self) -> Vec<Fault> {
        let mut checker = Checker::new(self, None);
        field::visit_line(&mut self.clone(), &mut checker);
        checker.of_line();
        checker.faults
    }
}

/// Collects faults.
struct Checker<'a> {
    line: &'a Line,
    /// `None`: only a part of a case is looked at.
    case: Option<&'a Case>,
    /// Place in the list that is looked at.
    index: Option<usize>,
    faults: Vec<Fault>,
}

impl<'a> Checker<'a> {
    fn new(line: &'a Line, case: Option<&'a Case>) -> Self {
        Self {
            line,
            case,
            index: None,
            faults: Vec::new(),
        }
    }

    /// No fault of this number was found.
    #[cold]
    fn sound(&self, name: &str, index: Option<usize>) -> bool {
        let of = |fault: &Fault| fault.field().name == name && fault.field().index == index;
        !self.faults.iter().any(of)
    }

    /// What the inputs of the line ask of each other.
    #[cold]
    fn of_line(&mut self) {
        let line = self.line;
        let field = FieldRef::new("line.pretension_n");
        let value = line.pretension_n;
        let spans = (0..line.spans_m.len()).all(|i| self.sound("line.spans_m", Some(i)));
        let good = spans
            && self.sound(field.name, None)
            && self.sound("line.rope.mass_per_length_kg_per_m", None);
        if !good {
            return;
        }
        let yields = line.inline_absorber.map(|inline| inline.yield_force_n);
        let yields = yields.filter(|_| self.sound("line.inline_absorber.yield_force_n", None));
        let breaks = line.rope.breaking_force_n;
        let breaks = breaks.filter(|_| self.sound("line.rope.breaking_force_n", None));
        let too_high = |most: Option<f64>| {
            let max = most.filter(|&most| value > most)?;
            Some(Fault::PretensionTooHigh { field, value, max })
        };
        self.faults.extend(too_high(yields));
        // Sag w L²/(8 H) at most SAG_RATIO_MAX × L.
        let longest = line.spans_m.iter().fold(0.0_f64, |a, &b| a.max(b));
        let min = line.weight_n_per_m() * longest / (8.0 * SAG_RATIO_MAX);
        if value < min {
            self.faults.push(Fault::SlackAtRest { field, value, min });
        }
        self.faults.extend(too_high(breaks));
    }

    /// What the inputs of a worker ask of each other and of the line.
    #[cold]
    fn of_worker(&mut self, i: usize) {
        const POSITION: &str = "workers.position_m";
        const LENGTH: &str = "workers.gear.length_m";
        const AVERAGE: &str = "workers.gear.absorber.average_force_n";
        const MAXIMUM: &str = "workers.gear.absorber.maximum_force_n";
        let (at, line) = (Some(i), self.line);
        let Some(worker) = self.case.and_then(|case| case.workers.get(i)) else {
            return;
        };
        if self.sound(POSITION, at) {
            let place = Fault::beyond_line(POSITION, i, worker.position_m, line.length_m());
            self.faults.extend(place);
        }
        let gear = &worker.gear;
        if let Some(absorber) = &gear.absorber
            && absorber.shape() == Shape::Average
            && let Some(value) = absorber.maximum_force_n
            && self.sound(AVERAGE, at)
            && self.sound(MAXIMUM, at)
            && value < absorber.average_force_n
        {
            self.faults.push(Fault::ForceOrder {
                field: FieldRef::at(MAXIMUM, i),
                value,
                min: absorber.average_force_n,
            });
        }
        if let Some(absorber) = &gear.absorber {
            self.of_shape(i, absorber);
        }
        let way = worker.line_above_dring_m(line);
        if self.sound(LENGTH, at)
            && gear.kind == GearKind::Lanyard
            && gear.free_fall_m.is_none()
            && gear.length_m < way
        {
            self.faults.push(Fault::LanyardTooShort {
                field: FieldRef::at(LENGTH, i),
                value: gear.length_m,
                min: way,
            });
        }
    }

    /// What the numbers of a peak or a curve ask of each other and of the average. What is not used is
    /// not asked.
    #[cold]
    fn of_shape(&mut self, i: usize, absorber: &Absorber) {
        const AVERAGE: &str = "workers.gear.absorber.average_force_n";
        const MOST: &str = "workers.gear.absorber.max_extension_m";
        const PEAK: &str = "workers.gear.absorber.peak.force_n";
        const OVER: &str = "workers.gear.absorber.peak.over_m";
        const EXTENSION: &str = "workers.gear.absorber.curve_extension_m";
        const FORCE: &str = "workers.gear.absorber.curve_force_n";
        let at = Some(i);
        let (extension_m, force_n) = (
            absorber.curve_extension_m.as_slice(),
            absorber.curve_force_n.as_slice(),
        );
        if !extension_m.is_empty() || !force_n.is_empty() {
            if !(self.sound(EXTENSION, at) && self.sound(FORCE, at)) {
                return;
            }
            let many = extension_m.len();
            let few = Fault::of_count(FieldRef::at(EXTENSION, i), many, POINTS_MIN..=POINTS_MAX);
            let uneven = || Fault::of_count(FieldRef::at(FORCE, i), force_n.len(), many..=many);
            if let Some(fault) = few.or_else(uneven) {
                self.faults.push(fault);
                return;
            }
            // From 0 on, never back, over a way at least as long as an extension may be.
            let field = FieldRef::at(EXTENSION, i);
            let least_m = field::find(MOST).map_or(0.0, |f| f.min);
            let most_m = field::find(EXTENSION).map_or(0.0, |f| f.max);
            let mut before_m = 0.0;
            for (place, &value) in extension_m.iter().enumerate() {
                let last = place + 1 == extension_m.len();
                let min = if last {
                    least_m.max(before_m)
                } else {
                    before_m
                };
                let max = if place == 0 { 0.0 } else { most_m };
                if !(min..=max).contains(&value) {
                    let fault = Fault::OutOfRange {
                        field,
                        value,
                        min,
                        max,
                    };
                    self.faults.push(fault);
                    return;
                }
                before_m = value;
            }
        } else if let Some(peak) = absorber.peak {
            let sound = [AVERAGE, MOST, PEAK, OVER].map(|name| self.sound(name, at));
            if sound.contains(&false) {
                return;
            }
            if peak.force_n < absorber.average_force_n {
                self.faults.push(Fault::ForceOrder {
                    field: FieldRef::at(PEAK, i),
                    value: peak.force_n,
                    min: absorber.average_force_n,
                });
                return;
            }
            let max = absorber.peak_over_most_m(peak.force_n);
            if peak.over_m > max {
                self.faults.push(Fault::OutOfRange {
                    field: FieldRef::at(OVER, i),
                    value: peak.over_m,
                    min: 0.0,
                    max,
                });
            }
        }
    }

    /// Somebody must fall.
    #[cold]
    fn of_crew(&mut self) {
        let Some(case) = self.case.filter(|case| !case.workers.is_empty()) else {
            return;
        };
        let falling = case.workers.iter().filter(|w| w.fall_time_s.is_some());
        let field = FieldRef::new("workers.fall_time_s");
        let fault = Fault::of_count(field, falling.count(), 1..=WORKERS_MAX);
        self.faults.extend(fault);
    }

    /// What the inputs of a thing below ask of each other and of the beam.
    #[cold]
    fn of_below(&mut self, i: usize) {
        const FROM: &str = "site.below.from_m";
        const TO: &str = "site.below.to_m";
        const HEIGHT: &str = "site.below.height_m";
        let Some(site) = self.case.map(|case| &case.site) else {
            return;
        };
        let Some(below) = site.below.get(i) else {
            return;
        };
        let at = Some(i);
        if self.sound(FROM, at) && self.sound(TO, at) && below.to_m < below.from_m {
            self.faults.push(Fault::Reversed {
                field: FieldRef::at(TO, i),
                value: below.to_m,
                min: below.from_m,
            });
        }
        if self.sound(HEIGHT, at)
            && self.sound("site.beam_top_m", None)
            && below.height_m > site.beam_top_m
        {
            self.faults.push(Fault::AboveBeam {
                field: FieldRef::at(HEIGHT, i),
                value: below.height_m,
                max: site.beam_top_m,
            });
        }
    }
}

impl Visitor for Checker<'_> {
    #[cold]
    fn number(&mut self, field: &Field, value: &mut f64) {
        self.faults.extend(field.fault(self.index, *value));
    }

    fn optional(&mut self, field: &Field, value: &mut Option<f64>) {
        if let Some(value) = value {
            self.number(field, value);
        }
    }

    fn numbers(&mut self, field: &Field, counts: RangeInclusive<usize>, values: &mut Vec<f64>) {
        let list = FieldRef {
            name: field.name,
            index: self.index,
        };
        self.faults
            .extend(Fault::of_count(list, values.len(), counts));
        for (i, &value) in (0..).zip(values.iter()) {
            // Within a list the place is that of its entry.
            let index = self.index.or(Some(i));
            self.faults.extend(field.fault(index, value));
        }
    }

    fn flag(&mut self, _name: &'static str, _value: &mut bool) {}

    #[cold]
    fn text(&mut self, name: &'static str, longest: usize, value: &mut String) {
        let field = FieldRef {
            name,
            index: self.index,
        };
        let count = value.chars().count();
        self.faults
            .extend(Fault::of_count(field, count, 0..=longest));
    }

    fn choice(
        &mut self,
        _name: &'static str,
        _keys: &[&'static str],
        _unsaid: Option<usize>,
        _place: &mut usize,
    ) {
    }

    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Visitor)) {
        body(self);
        if name == "line" {
            self.of_line();
        }
    }

    fn perhaps(
        &mut self,
        _name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Visitor),
    ) {
        if *there {
            body(self);
        }
    }

    #[cold]
    fn list(
        &mut self,
        name: &'static str,
        counts: RangeInclusive<usize>,
        count: usize,
        body: &mut dyn FnMut(usize, &mut dyn Visitor),
    ) {
        self.faults
            .extend(Fault::of_count(FieldRef::new(name), count, counts));
        for i in 0..count {
            self.index = Some(i);
            body(i, self);
            match name {
                "workers" => self.of_worker(i),
                "site.below" => self.of_below(i),
                _ => {}
            }
        }
        self.index = None;
        if name == "workers" {
            self.of_crew();
        }
    }
}
