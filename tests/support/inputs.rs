//! Every numeric input of a case, reached by its name in `FIELDS`.

use std::ops::RangeInclusive;

use footroom_core::case::Case;
use footroom_core::field::{self, Field, Visitor};

/// Sets the numeric input `name` of the first element of its list (or the only one) to `value`,
/// making the optional part that holds it. Returns false for a name that it does not know.
pub fn set(case: &mut Case, name: &str, value: f64) -> bool {
    let mut setter = Setter {
        name,
        put: value,
        done: false,
    };
    field::visit(case, &mut setter);
    setter.done
}

struct Setter<'a> {
    name: &'a str,
    put: f64,
    done: bool,
}

impl Setter<'_> {
    fn within(&self, name: &str) -> bool {
        self.name
            .strip_prefix(name)
            .is_some_and(|rest| rest.starts_with('.'))
    }
}

impl Visitor for Setter<'_> {
    fn number(&mut self, field: &Field, value: &mut f64) {
        if field.name == self.name {
            *value = self.put;
            self.done = true;
        }
    }

    fn optional(&mut self, field: &Field, value: &mut Option<f64>) {
        if field.name == self.name {
            *value = Some(self.put);
            self.done = true;
        }
    }

    fn numbers(&mut self, field: &Field, _: RangeInclusive<usize>, values: &mut Vec<f64>) {
        if let Some(value) = values.first_mut() {
            self.number(field, value);
        }
    }

    fn flag(&mut self, _: &'static str, _: &mut bool) {}

    fn text(&mut self, _: &'static str, _: usize, _: &mut String) {}

    fn choice(&mut self, _: &'static str, _: &[&'static str], _: Option<usize>, _: &mut usize) {}

    fn object(&mut self, name: &'static str, body: &mut dyn FnMut(&mut dyn Visitor)) {
        if self.within(name) {
            body(self);
        }
    }

    fn perhaps(
        &mut self,
        name: &'static str,
        there: &mut bool,
        body: &mut dyn FnMut(&mut dyn Visitor),
    ) {
        *there |= self.within(name);
        self.object(name, body);
    }

    fn list(
        &mut self,
        name: &'static str,
        _: RangeInclusive<usize>,
        _: usize,
        body: &mut dyn FnMut(usize, &mut dyn Visitor),
    ) {
        if self.within(name) {
            body(0, self);
        }
    }
}

/// Names that a fault may carry although they hold no number: counts of lists and texts.
pub const COUNTED: &[&str] = &[
    "title",
    "workers",
    "site.below",
    "line.spans_m",
    "point_loads",
];

#[cfg(test)]
mod tests {
    use super::*;
    use footroom_core::case::Below;
    use footroom_core::demo::demo;
    use footroom_core::field::FIELDS;

    #[test]
    fn every_field_of_a_case_can_be_set() {
        for field in FIELDS.iter().filter(|f| !f.name.starts_with("point_loads")) {
            let mut case = demo();
            case.site.below.push(Below::default());
            assert!(set(&mut case, field.name, field.min), "{}", field.name);
        }
    }
}
