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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{Below, InlineAbsorber};
    use crate::curve::{Peak, Points};
    use crate::demo::demo;

    fn absorber(case: &mut Case, i: usize) -> &mut Absorber {
        case.workers[i].gear.absorber.as_mut().unwrap()
    }

    /// A case in which every rule has something to compare, and none finds a fault.
    fn held() -> Case {
        let mut case = demo();
        case.line.spans_m = alloc::vec![10.0, 40.0];
        case.line.inline_absorber = Some(InlineAbsorber::default());
        case.line.rope.breaking_force_n = Some(60.0e3);
        absorber(&mut case, 0).maximum_force_n = Some(6.0e3);
        absorber(&mut case, 1).peak = Some(Peak::default());
        let curve = absorber(&mut case, 2);
        curve.curve_extension_m = Points::of(&[0.0, 0.5, 1.0]);
        curve.curve_force_n = Points::of(&[3.0e3, 4.0e3, 5.0e3]);
        case
    }

    /// Each rule: what still keeps it, to the last number, and what does not, with the fault that is named
    /// and no other. A number that is no number is said once, and nothing is compared with it.
    #[test]
    fn each_rule_turns_at_its_number_and_names_its_fault() {
        type Change = fn(&mut Case);
        let line = |name| FieldRef::new(name);
        let pretension = line("line.pretension_n");
        let high = |value, max| Fault::PretensionTooHigh {
            field: pretension,
            value,
            max,
        };
        let range = |name, i, value, min, max| Fault::OutOfRange {
            field: FieldRef::at(name, i),
            value,
            min,
            max,
        };
        let count = |field, count, min, max| Fault::Count {
            field,
            count,
            min,
            max,
        };
        let nan = |field| Fault::NotFinite { field };
        let order = |name, i, value, min| Fault::ForceOrder {
            field: FieldRef::at(name, i),
            value,
            min,
        };
        const MAXIMUM: &str = "workers.gear.absorber.maximum_force_n";
        const PEAK: &str = "workers.gear.absorber.peak.force_n";
        const OVER: &str = "workers.gear.absorber.peak.over_m";
        const EXTENSION: &str = "workers.gear.absorber.curve_extension_m";
        const FORCE: &str = "workers.gear.absorber.curve_force_n";
        let base = held();
        let sag_min_n = |case: &Case| {
            // w L²/(8 H) ≤ L/20.
            case.line.weight_n_per_m() * 40.0 / 0.4
        };
        let taut_n = sag_min_n(&base);
        assert!((150.0..2.0e3).contains(&taut_n));
        let way_m = base.workers[1].line_above_dring_m(&base.line);
        let over_m = base.workers[1]
            .gear
            .absorber
            .unwrap()
            .peak_over_most_m(5.0e3);
        let rows: Vec<(Change, Vec<Fault>)> = alloc::vec![
            (|_| (), Vec::new()),
            // The line.
            (|c| c.line.pretension_n = 10.0e3, Vec::new()),
            (
                |c| c.line.pretension_n = 10.1e3,
                alloc::vec![high(10.1e3, 10.0e3)]
            ),
            (
                |c| {
                    c.line.inline_absorber = None;
                    c.line.rope.breaking_force_n = Some(4_400.0);
                },
                Vec::new()
            ),
            (
                |c| c.line.rope.breaking_force_n = Some(4_300.0),
                alloc::vec![high(4_400.0, 4_300.0)]
            ),
            (
                |c| c.line.rope.breaking_force_n = Some(f64::NAN),
                alloc::vec![nan(line("line.rope.breaking_force_n"))]
            ),
            (
                |c| c.line.spans_m[1] = f64::NAN,
                alloc::vec![nan(FieldRef::at("line.spans_m", 1))]
            ),
            (
                |c| {
                    c.line.pretension_n = f64::INFINITY;
                },
                alloc::vec![nan(pretension)]
            ),
            (
                |c| c.line.rope.mass_per_length_kg_per_m = f64::NAN,
                alloc::vec![nan(line("line.rope.mass_per_length_kg_per_m"))]
            ),
            // The crew.
            (|c| c.workers[2].position_m = 50.0, Vec::new()),
            (
                |c| c.workers[2].position_m = 50.1,
                alloc::vec![range("workers.position_m", 2, 50.1, 0.0, 50.0)]
            ),
            (
                |c| c.workers[1].position_m = f64::NAN,
                alloc::vec![nan(FieldRef::at("workers.position_m", 1))]
            ),
            (
                |c| c.workers.iter_mut().for_each(|w| w.fall_time_s = None),
                alloc::vec![count(line("workers.fall_time_s"), 0, 1, WORKERS_MAX)]
            ),
            (
                |c| c.workers.clear(),
                alloc::vec![count(line("workers"), 0, 1, WORKERS_MAX)]
            ),
            (
                |c| c.workers[1].gear.length_m = 0.2,
                if way_m > 0.2 {
                    panic!("{way_m}")
                } else {
                    Vec::new()
                }
            ),
            // Averages and greatest forces: those that are used.
            (|c| absorber(c, 0).average_force_n = 6.0e3, Vec::new()),
            (
                |c| absorber(c, 0).average_force_n = 6.5e3,
                alloc::vec![order(MAXIMUM, 0, 6.0e3, 6.5e3)]
            ),
            (
                |c| absorber(c, 0).average_force_n = f64::NAN,
                alloc::vec![nan(FieldRef::at(
                    "workers.gear.absorber.average_force_n",
                    0
                ))]
            ),
            (|c| absorber(c, 1).maximum_force_n = Some(2.0e3), Vec::new()),
            (
                |c| absorber(c, 1).peak = Some(Peak {
                    force_n: 3.0e3,
                    over_m: 3.0
                }),
                alloc::vec![order(
                    PEAK,
                    1,
                    3.0e3,
                    base.workers[1].gear.absorber.unwrap().average_force_n
                )]
            ),
            (
                |c| absorber(c, 1).peak = Some(Peak {
                    force_n: f64::NAN,
                    over_m: 3.0
                }),
                alloc::vec![nan(FieldRef::at(PEAK, 1))]
            ),
            // Curves.
            (
                |c| absorber(c, 2).curve_extension_m = Points::of(&[0.0]),
                alloc::vec![count(FieldRef::at(EXTENSION, 2), 1, POINTS_MIN, POINTS_MAX)]
            ),
            (
                |c| absorber(c, 2).curve_force_n = Points::of(&[3.0e3, 4.0e3]),
                alloc::vec![count(FieldRef::at(FORCE, 2), 2, 3, 3)]
            ),
            (
                |c| absorber(c, 2).curve_extension_m = Points::of(&[]),
                alloc::vec![count(FieldRef::at(EXTENSION, 2), 0, POINTS_MIN, POINTS_MAX)]
            ),
            (
                |c| absorber(c, 2).curve_force_n = Points::of(&[]),
                alloc::vec![count(FieldRef::at(FORCE, 2), 0, 3, 3)]
            ),
            (
                |c| absorber(c, 2).curve_force_n = Points::of(&[3.0e3, f64::NAN, 4.0e3]),
                alloc::vec![nan(FieldRef::at(FORCE, 2))]
            ),
            (
                |c| absorber(c, 2).curve_extension_m = Points::of(&[0.1, 0.5, 1.0]),
                alloc::vec![range(EXTENSION, 2, 0.1, 0.0, 0.0)]
            ),
            (
                |c| absorber(c, 2).curve_extension_m = Points::of(&[0.0, 1.0, 1.0]),
                Vec::new()
            ),
            (
                |c| absorber(c, 2).curve_extension_m = Points::of(&[0.0, 1.0, 0.9]),
                alloc::vec![range(EXTENSION, 2, 0.9, 1.0, 3.0)]
            ),
            (
                |c| absorber(c, 2).curve_extension_m = Points::of(&[0.0, 0.9, 0.8, 1.0]),
                alloc::vec![count(FieldRef::at(FORCE, 2), 3, 4, 4)]
            ),
            (
                |c| absorber(c, 2).curve_extension_m = Points::of(&[0.0, -0.1, 1.0]),
                alloc::vec![range(EXTENSION, 2, -0.1, 0.0, 3.0)]
            ),
            (
                |c| absorber(c, 2).curve_extension_m = Points::of(&[0.0, 0.01, 0.04]),
                alloc::vec![range(EXTENSION, 2, 0.04, 0.05, 3.0)]
            ),
            // Things below.
            (
                |c| c.site.below[0].to_m = 9.0,
                alloc::vec![Fault::Reversed {
                    field: FieldRef::at("site.below.to_m", 0),
                    value: 9.0,
                    min: 10.0,
                }]
            ),
            (|c| c.site.below[0].to_m = 10.0, Vec::new()),
            (
                |c| c.site.below.push(Below {
                    from_m: f64::NAN,
                    to_m: 3.0,
                    ..c.site.below[0]
                }),
                alloc::vec![nan(FieldRef::at("site.below.from_m", 1))]
            ),
            (|c| c.site.below[0].height_m = c.site.beam_top_m, Vec::new()),
            (
                |c| {
                    c.site.beam_top_m = 8.0;
                    c.site.below[0].height_m = 8.5;
                },
                alloc::vec![Fault::AboveBeam {
                    field: FieldRef::at("site.below.height_m", 0),
                    value: 8.5,
                    max: 8.0,
                }]
            ),
            (
                |c| c.site.beam_top_m = f64::NAN,
                alloc::vec![nan(line("site.beam_top_m"))]
            ),
            // After a list a field has no place in it.
            (
                |c| c.site.margin_m = f64::NAN,
                alloc::vec![nan(line("site.margin_m"))]
            ),
        ];
        for (i, (change, faults)) in rows.iter().enumerate() {
            let mut case = base.clone();
            change(&mut case);
            // What is no number equals nothing: its words are compared.
            let (found, expected) = (case.input_faults(), faults);
            assert_eq!(
                alloc::format!("{found:?}"),
                alloc::format!("{expected:?}"),
                "{i}"
            );
        }
        // What is taut, and a peak as long as it may be, by numbers that follow from others.
        let mut case = base.clone();
        case.line.pretension_n = taut_n * 1.000_001;
        assert_eq!(case.input_faults(), []);
        assert_eq!(case.line.line_faults(), []);
        case.line.pretension_n = taut_n * 0.999_999;
        let [Fault::SlackAtRest { field, value, min }] = case.input_faults()[..] else {
            panic!("{:?}", case.input_faults());
        };
        assert_eq!((field, value), (pretension, case.line.pretension_n));
        assert!((min / taut_n - 1.0).abs() < 1e-12);
        assert_eq!(case.line.line_faults(), case.input_faults());
        let mut case = base.clone();
        absorber(&mut case, 1).peak.as_mut().unwrap().over_m = over_m;
        assert_eq!(case.input_faults(), []);
        absorber(&mut case, 1).peak.as_mut().unwrap().over_m = over_m + 0.01;
        assert_eq!(
            case.input_faults(),
            [range(OVER, 1, over_m + 0.01, 0.0, over_m)]
        );
    }

    /// One fault does not hide another: of another entry, of another number of the same one, of the line.
    #[test]
    fn each_of_two_faults_is_named() {
        let names = |change: fn(&mut Case)| -> Vec<(&'static str, Option<usize>)> {
            let mut case = held();
            change(&mut case);
            let field = |fault: &Fault| (fault.field().name, fault.field().index);
            case.input_faults().iter().map(field).collect()
        };
        let position = "workers.position_m";
        assert_eq!(
            names(|c| {
                c.workers[0].position_m = f64::NAN;
                c.workers[2].position_m = 60.0;
            }),
            [(position, Some(0)), (position, Some(2))]
        );
        assert_eq!(
            names(|c| {
                c.workers[0].mass_kg = f64::NAN;
                c.workers[0].position_m = 60.0;
            }),
            [("workers.mass_kg", Some(0)), (position, Some(0))]
        );
        assert_eq!(
            names(|c| {
                c.line.height_above_beam_m = f64::NAN;
                c.line.pretension_n = 20.0e3;
            }),
            [
                ("line.height_above_beam_m", None),
                ("line.pretension_n", None)
            ]
        );
        // With a span that is no number nothing is said of how taut the line is.
        for span in [0, 1] {
            let mut case = held();
            case.line.spans_m[span] = f64::NAN;
            case.line.pretension_n = 60.0;
            let field = FieldRef::at("line.spans_m", span);
            assert_eq!(case.input_faults(), [Fault::NotFinite { field }]);
            assert_eq!(case.line.line_faults(), [Fault::NotFinite { field }]);
        }
        // A curve is told its first fault.
        assert_eq!(
            names(|c| absorber(c, 2).curve_extension_m = Points::of(&[0.1, 0.5, 0.4])).len(),
            1
        );
    }

    /// A lanyard must reach from the line to him who stands, to the last millimetre; a free fall that is
    /// given, and what pays out, need not.
    #[test]
    fn a_lanyard_reaches_down_to_the_worker() {
        let mut case = held();
        case.line.height_above_beam_m = 3.0;
        case.workers.truncate(1);
        let least_m = case.workers[0].line_above_dring_m(&case.line);
        assert!(least_m > 1.4);
        case.workers[0].gear.length_m = least_m;
        assert_eq!(case.input_faults(), []);
        let value = least_m - 0.001;
        case.workers[0].gear.length_m = value;
        let short = Fault::LanyardTooShort {
            field: FieldRef::at("workers.gear.length_m", 0),
            value,
            min: least_m,
        };
        assert_eq!(case.input_faults(), [short]);
        case.workers[0].gear.free_fall_m = Some(0.5);
        assert_eq!(case.input_faults(), []);
        case.workers[0].gear.free_fall_m = None;
        case.workers[0].gear.kind = GearKind::SelfRetracting;
        assert_eq!(case.input_faults(), []);
        case.workers[0].gear.kind = GearKind::Lanyard;
        case.workers[0].gear.length_m = 0.1;
        assert_eq!(case.input_faults().len(), 1);
    }
}
