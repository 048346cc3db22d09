//! Why two cases differ, as steps from the one footroom to the other.
//!
//! Everything is counted in whole shown steps, so that what the reader sees adds up as it is seen:
//! both ends are shown as the page shows a stack ([`ShownStack`]), and the shown difference of each
//! length is dealt out among the causes by largest remainders. Required depth and
//! footroom of a cause are then the sums of its lengths.

use footroom_core::case::Case;
use footroom_core::corner::Corner;
use footroom_core::field::Quantity;
use footroom_core::fit::{Effort, Unknown, find};
use footroom_core::solve::Stack;
use footroom_core::why::{self, Asked, Cause, Follow, Part, State};
use serde::Serialize;

use crate::first::view::Table;
use crate::first::whole_steps::{ALLOWANCE, ShownStack, TOLERANCE};
use crate::order::sort;
use crate::page::fit::stop;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding, Units};
use crate::say::names::{inline_place_name, rope_name};

/// The way from one case to another.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WhyView {
    /// From what to what.
    pub heading: String,
    /// The first footroom, the steps, the last footroom.
    pub steps: Vec<WhyStep>,
    /// Where no footroom stands on the scale of the bars, per cent of its width.
    pub zero_percent: f64,
    /// The same as a table: lengths and forces down, causes across.
    pub table: Table,
    /// What makes the split less sure; empty: nothing.
    pub note: String,
    /// That a footroom at an end of the way is not known, and why: there are no steps then. Else
    /// empty.
    pub unknown: String,
    /// Why the two cases differ, in one sentence; empty where there are no steps, and from one user on.
    pub brief: String,
}

/// A bar with its sentence.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WhyStep {
    /// What it is.
    pub kind: StepKind,
    /// Its name.
    pub label: String,
    /// How much, with its sign.
    pub amount: String,
    /// Left end of the bar, per cent of the scale.
    pub start_percent: f64,
    /// Length of the bar, per cent of the scale.
    pub width_percent: f64,
    /// What it does, with numbers, to be read after its name.
    pub sentence: String,
}

/// What a bar shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StepKind {
    /// The footroom at an end of the way.
    End,
    /// A cause that takes footroom.
    Takes,
    /// A cause that gives footroom.
    Gives,
    /// A cause that leaves it as it is.
    Same,
}

/// Lengths of a stack here, without what the tolerances add: they are in every number.
const LENGTHS: usize = 7;

/// One state or one part in whole shown steps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Column {
    /// Line, gear, absorber, allowance, harness, D-ring to sole, margin.
    lengths: [i64; LENGTHS],
    available: i64,
    /// Line tension, arrest force.
    forces: [i64; 2],
}

impl Column {
    fn required(&self) -> i64 {
        self.lengths.iter().sum()
    }

    fn footroom(&self) -> i64 {
        self.available - self.required()
    }

    fn less(&self, other: &Self) -> Self {
        Self {
            lengths: core::array::from_fn(|i| self.lengths[i] - other.lengths[i]),
            available: self.available - other.available,
            forces: core::array::from_fn(|i| self.forces[i] - other.forces[i]),
        }
    }
}

/// A cause with what it changes, shown and as it is.
struct Step {
    label: String,
    column: Column,
    part: Part,
}

/// Newtons in a shown step of a force.
fn force_step_n(units: Units) -> f64 {
    match units {
        Units::Metric => 100.0,
        Units::Us => 10.0 * format::POUND_FORCE_N,
    }
}

fn state_column(units: Units, state: &State) -> Column {
    let shown = ShownStack::of(
        units,
        &Stack {
            line_deflection_m: state.line_deflection_m,
            lanyard_m: state.lanyard_m,
            absorber_extension_m: state.absorber_extension_m,
            allowance_m: state.allowance_m,
            harness_stretch_m: state.harness_stretch_m,
            dring_to_sole_m: state.dring_to_sole_m,
            margin_m: state.margin_m,
            required_m: state.required_m,
            available_m: state.available_m,
            footroom_m: state.footroom_m,
        },
    );
    let mut parts = shown.parts.to_vec();
    parts.remove(TOLERANCE);
    let force = |n: f64| format::steps(n / force_step_n(units), 1, Rounding::Up);
    Column {
        lengths: core::array::from_fn(|i| parts.get(i).copied().unwrap_or(0)),
        available: shown.available,
        forces: [force(state.tension_n), force(state.arrest_force_n)],
    }
}

/// The lengths of a part in the order of [`Column::lengths`], m.
fn lengths_m(part: &Part) -> [f64; LENGTHS] {
    [
        part.line_deflection_m,
        part.lanyard_m,
        part.absorber_extension_m,
        part.allowance_m,
        part.harness_stretch_m,
        part.dring_to_sole_m,
        part.margin_m,
    ]
}

/// Whole steps for each part that add up to `total`: rounded down, then one more for those with the
/// largest remainders. A part of nothing takes no step unless all are nothing.
fn dealt(parts: &[f64], step: f64, total: i64) -> Vec<i64> {
    let mut steps: Vec<i64> = parts
        .iter()
        .map(|&p| format::steps(p / step, 1, Rounding::Down))
        .collect();
    let mut order: Vec<usize> = (0..parts.len()).filter(|&i| parts[i] != 0.0).collect();
    if order.is_empty() {
        order.extend(0..parts.len().min(1));
    }
    let rest: Vec<f64> = parts
        .iter()
        .zip(&steps)
        .map(|(p, &s)| p / step - s as f64)
        .collect();
    sort(&mut order, |&a, &b| rest[a] > rest[b]);
    let mut missing = total - steps.iter().sum::<i64>();
    if missing < 0 {
        order.reverse();
    }
    while missing != 0 && !order.is_empty() {
        for &i in &order {
            if missing == 0 {
                break;
            }
            steps[i] += missing.signum();
            missing -= missing.signum();
        }
    }
    steps
}

/// The parts of a way in shown steps: their sums are the shown difference of its ends.
fn part_columns(units: Units, parts: &[Part], whole: &Column) -> Vec<Column> {
    let mut columns = vec![Column::default(); parts.len()];
    let mut deal =
        |values: Vec<f64>, step: f64, total: i64, put: fn(&mut Column, usize, i64), i| {
            for (column, steps) in columns.iter_mut().zip(dealt(&values, step, total)) {
                put(column, i, steps);
            }
        };
    let step_m = format::length_of_step_m(units);
    for i in 0..LENGTHS {
        let values = parts.iter().map(|p| lengths_m(p)[i]).collect();
        deal(
            values,
            step_m,
            whole.lengths[i],
            |c, i, s| c.lengths[i] = s,
            i,
        );
    }
    let available = parts.iter().map(|p| p.available_m).collect();
    deal(
        available,
        step_m,
        whole.available,
        |c, _, s| c.available = s,
        0,
    );
    let forces: [fn(&Part) -> f64; 2] = [|p| p.tension_n, |p| p.arrest_force_n];
    for (i, of) in forces.into_iter().enumerate() {
        let values = parts.iter().map(of).collect();
        deal(
            values,
            force_step_n(units),
            whole.forces[i],
            |c, i, s| c.forces[i] = s,
            i,
        );
    }
    columns
}

/// A view without steps: the footroom of `which` is not known.
fn no_footroom(voice: Voice, which: &str, why: Unknown) -> WhyView {
    let d = voice.decide();
    WhyView {
        heading: String::new(),
        steps: Vec::new(),
        zero_percent: 0.0,
        table: Table::default(),
        note: String::new(),
        unknown: (d.say.why_unknown)(which, stop::unknown(voice, why)),
        brief: String::new(),
    }
}

fn corner_name(voice: Voice, corner: Corner) -> &'static str {
    let t = voice.texts();
    match corner {
        Corner::Nominal => t.corner_nominal,
        Corner::Soft => t.corner_soft,
        Corner::Stiff => t.corner_stiff,
        Corner::Mixed => t.corner_mixed,
    }
}

/// From one user to all of the crew; `None` for a case with faults or with one user.
pub fn users(voice: Voice, case: &Case) -> Option<WhyView> {
    let corner = find(case, Effort::Full).ok()?.corner;
    let steps = why::users(case, corner).ok()?;
    if steps.len() < 2 {
        return None;
    }
    let d = voice.decide();
    for step in &steps {
        if let Err(why) = find(&step.case, Effort::Full).ok()?.footroom() {
            return Some(no_footroom(voice, &(d.say.users)(step.users), why));
        }
    }
    let columns: Vec<Column> = steps
        .iter()
        .map(|s| state_column(voice.units, &s.state))
        .collect();
    let parts = columns
        .windows(2)
        .zip(&steps[1..])
        .filter_map(|(pair, step)| {
            Some(Step {
                label: (d.say.why_user)(step.users),
                column: pair[1].less(&pair[0]),
                part: step.added?,
            })
        })
        .collect();
    let (first, last) = (steps[0].users, steps[steps.len() - 1].users);
    let view = WhyWords { voice }.told(
        &(d.say.why_from_users)(
            &(d.say.users)(first),
            &(d.say.users)(last),
            corner_name(voice, corner),
        ),
        ((d.say.users)(first), columns[0]),
        parts,
        ((d.say.users)(last), columns[columns.len() - 1]),
    );
    Some(view)
}

/// From a kept case to the present one; `None` where one of them has faults.
pub fn cases(voice: Voice, from: &Case, to: &Case) -> Option<WhyView> {
    let d = voice.decide();
    let heading = |corner: &str| (d.say.why_from_kept)(corner);
    between(voice, (from, d.why_kept), (to, d.why_present), &heading)
}

/// From one layout to another, each with its name; `None` where one of them has faults.
pub fn layouts(voice: Voice, from: (&Case, &str), to: (&Case, &str)) -> Option<WhyView> {
    let say = voice.decide().say.why_from_layouts;
    between(voice, from, to, &|corner| say(from.1, to.1, corner))
}

/// `heading`: by the name of the corner.
fn between(
    voice: Voice,
    (from, from_name): (&Case, &str),
    (to, to_name): (&Case, &str),
    heading: &dyn Fn(&str) -> String,
) -> Option<WhyView> {
    let (first, last) = (find(from, Effort::Full).ok()?, find(to, Effort::Full).ok()?);
    let d = voice.decide();
    for (found, which) in [(&first, from_name), (&last, to_name)] {
        if let Err(why) = found.footroom() {
            return Some(no_footroom(voice, which, why));
        }
    }
    let corner = last.corner;
    let asked = Asked {
        follow: Follow::Governing,
        corner,
    };
    let split = why::why(from, to, asked).ok()?;
    let first = state_column(voice.units, &split.from);
    let last = state_column(voice.units, &split.to);
    let columns = part_columns(voice.units, &split.parts, &last.less(&first));
    let parts: Vec<Step> = split
        .parts
        .iter()
        .zip(columns)
        .map(|(part, column)| Step {
            label: cause(voice, from, to, part.cause),
            column,
            part: *part,
        })
        .collect();
    let words = WhyWords { voice };
    let brief = words.brief((from_name, first), (to_name, last), &parts);
    let mut view = words.told(
        &heading(corner_name(voice, corner)),
        (from_name.to_owned(), first),
        parts,
        (to_name.to_owned(), last),
    );
    if split.doubtful > 0 {
        view.note = d.why_doubtful.to_owned();
    }
    view.brief = brief;
    Some(view)
}

/// The name of a cause, with its two values where they can be said in brief.
fn cause(voice: Voice, from: &Case, to: &Case, cause: Cause) -> String {
    let d = voice.decide();
    let length = |m| format::length(voice.units, m);
    let spans = |case: &Case| {
        let spans: Vec<String> = case.line.spans_m.iter().map(|&m| length(m)).collect();
        if spans.len() > 3 {
            (d.say.why_spans)(spans.len(), &length(case.line.length_m()))
        } else {
            spans.join(" + ")
        }
    };
    let force = |n| format::limit_text(Quantity::Force, voice.units, n, Rounding::Nearest);
    let (name, values) = match cause {
        Cause::Users => (
            d.cause_users,
            [from, to].map(|c| c.workers.len().to_string()).to_vec(),
        ),
        Cause::Timing => (d.cause_timing, Vec::new()),
        Cause::Places => (d.cause_places, Vec::new()),
        Cause::Spans => (d.cause_spans, [from, to].map(spans).to_vec()),
        Cause::Pretension => (
            d.cause_pretension,
            [from, to].map(|c| force(c.line.pretension_n)).to_vec(),
        ),
        Cause::Rope => (
            d.cause_rope,
            [from, to].map(|c| rope_name(voice, &c.line.rope)).to_vec(),
        ),
        Cause::Ends => (d.cause_ends, Vec::new()),
        Cause::InlineAbsorber => {
            let place = |case: &Case| case.line.inline_absorber.map(|a| a.place);
            let moved = match (place(from), place(to)) {
                (Some(was), Some(is)) if was != is => [was, is]
                    .map(|place| inline_place_name(voice, place).to_owned())
                    .to_vec(),
                _ => Vec::new(),
            };
            (d.cause_inline, moved)
        }
        Cause::Lanyard => (d.cause_lanyard, Vec::new()),
        Cause::Absorber => (d.cause_absorber, Vec::new()),
        Cause::Mass => (d.cause_mass, Vec::new()),
        Cause::LineHeight => (
            d.cause_height,
            [from, to]
                .map(|c| length(c.line.height_above_beam_m))
                .to_vec(),
        ),
        Cause::Body => (d.cause_body, Vec::new()),
        Cause::Margin => (
            d.cause_margin,
            [from, to].map(|c| length(c.site.margin_m)).to_vec(),
        ),
        Cause::Drop => (
            d.cause_drop,
            [from, to].map(|c| length(c.site.beam_top_m)).to_vec(),
        ),
        Cause::Below => (d.cause_below, Vec::new()),
        Cause::Others => (d.cause_others, Vec::new()),
        Cause::Together => (d.cause_together, Vec::new()),
        Cause::Differences => (d.cause_differences, Vec::new()),
    };
    match values.as_slice() {
        [a, b] if a != b => (d.say.why_values)(name, a, b),
        _ => name.to_owned(),
    }
}

struct WhyWords {
    voice: Voice,
}

impl WhyWords {
    fn signed(&self, steps: i64) -> String {
        let size = format::length_of_steps(self.voice.units, steps.abs());
        with_sign(steps, &size)
    }

    fn force(&self, steps: i64) -> String {
        let n = steps as f64 * force_step_n(self.voice.units);
        format::force_rounded(self.voice.units, n, Rounding::Nearest)
    }

    /// Names of the rows of the table, in the order of [`Column`].
    fn names(&self) -> [&'static str; LENGTHS] {
        let t = self.voice.texts();
        let d = self.voice.decide();
        [
            t.line_deflection,
            d.why_gear,
            t.absorber_extension,
            t.allowance,
            t.harness_stretch,
            t.dring_to_sole,
            t.margin,
        ]
    }

    /// What a step changes. Where only the shown digit of a length moves, it is the rounding that
    /// changed, and the sentence says so.
    fn sentence(&self, step: &Step) -> String {
        let d = self.voice.decide();
        let t = self.voice.texts();
        let Step { column, part, .. } = step;
        let mut changes = Vec::new();
        let mut rounding = 0;
        let lengths = self.names().into_iter().zip(column.lengths);
        for ((name, steps), metres) in lengths.zip(lengths_m(part)) {
            if metres == 0.0 {
                rounding += steps;
            } else if steps != 0 {
                changes.push(format!("{name} {}", self.signed(steps)));
            }
        }
        if part.available_m == 0.0 {
            rounding -= column.available;
        } else if column.available != 0 {
            changes.push(format!("{} {}", t.available, self.signed(column.available)));
        }
        if rounding != 0 {
            changes.push(format!("{} {}", d.why_rounding, self.signed(rounding)));
        }
        for (name, steps) in [t.line_tension, t.arrest_force].iter().zip(column.forces) {
            if steps != 0 {
                changes.push(format!(
                    "{name} {}",
                    with_sign(steps, &self.force(steps.abs()))
                ));
            }
        }
        let changes = if changes.is_empty() {
            d.why_nothing.to_owned()
        } else {
            changes.join(", ")
        };
        let footroom = column.footroom();
        let amount = format::length_of_steps(self.voice.units, footroom.abs());
        let say = match footroom.signum() {
            -1 => d.say.why_takes,
            1 => d.say.why_gives,
            _ => d.say.why_same,
        };
        format::unbroken(&say(&amount, &changes))
    }

    fn told(
        &self,
        heading: &str,
        first: (String, Column),
        parts: Vec<Step>,
        last: (String, Column),
    ) -> WhyView {
        let d = self.voice.decide();
        let mut level = first.1.footroom();
        // Label, kind, from, to, how it is written, sentence.
        let mut bars: Vec<(String, StepKind, i64, i64, String)> = Vec::new();
        let end = |(label, column): &(String, Column)| {
            let footroom = column.footroom();
            let text = with_minus(footroom, self.voice.units);
            (label.clone(), StepKind::End, 0, footroom, text)
        };
        bars.push(end(&first));
        for Step { label, column, .. } in &parts {
            let change = column.footroom();
            let kind = match change.signum() {
                -1 => StepKind::Takes,
                1 => StepKind::Gives,
                _ => StepKind::Same,
            };
            let text = self.signed(change);
            bars.push((label.clone(), kind, level, level + change, text));
            level += change;
        }
        bars.push(end(&last));
        let low = bars.iter().map(|b| b.2.min(b.3)).min().unwrap_or(0).min(0);
        let high = bars.iter().map(|b| b.2.max(b.3)).max().unwrap_or(0).max(0);
        let scale = 100.0 / (high - low).max(1) as f64;
        let at = |steps: i64| (steps - low) as f64 * scale;
        let sentences = std::iter::once(String::new())
            .chain(parts.iter().map(|step| self.sentence(step)))
            .chain(std::iter::once(String::new()));
        let steps = bars
            .iter()
            .zip(sentences)
            .map(|((label, kind, from, to, amount), sentence)| WhyStep {
                kind: *kind,
                label: label.clone(),
                amount: amount.clone(),
                start_percent: at(*from.min(to)),
                width_percent: at(*from.max(to)) - at(*from.min(to)),
                sentence,
            })
            .collect();
        WhyView {
            heading: heading.to_owned(),
            steps,
            zero_percent: at(0),
            table: self.table(d.why_table, &first, &parts, &last),
            note: String::new(),
            unknown: String::new(),
            brief: String::new(),
        }
    }

    /// Why the second of two cases differs from the first: how much more or less room it leaves, and which
    /// cause has the greatest part in that.
    fn brief(&self, from: (&str, Column), to: (&str, Column), parts: &[Step]) -> String {
        let say = &self.voice.decide().say;
        let change = to.1.footroom() - from.1.footroom();
        let size = |part: &Step| part.column.footroom() * change.signum();
        let mut first = None;
        for part in parts.iter().filter(|part| size(part) > 0) {
            if first.is_none_or(|most| size(part) > size(most)) {
                first = Some(part);
            }
        }
        let Some(part) = first else {
            return (say.why_alike)(to.0, from.0);
        };
        let said = if change > 0 {
            say.why_more
        } else {
            say.why_less
        };
        let amount = format::length_of_steps(self.voice.units, change.abs());
        let step = self.signed(part.column.footroom());
        format::unbroken(&said(to.0, from.0, &amount, &part.label, &step))
    }

    fn table(
        &self,
        caption: &str,
        first: &(String, Column),
        parts: &[Step],
        last: &(String, Column),
    ) -> Table {
        let t = self.voice.texts();
        let mut head = vec![self.voice.decide().why_length.to_owned(), first.0.clone()];
        head.extend(parts.iter().map(|p| p.label.clone()));
        head.push(last.0.clone());
        let row = |name: &str, of: &dyn Fn(&Column) -> i64, force: bool| {
            let plain = |steps: i64| {
                if force {
                    self.force(steps)
                } else {
                    with_minus(steps, self.voice.units)
                }
            };
            let signed = |steps: i64| {
                if force {
                    with_sign(steps, &self.force(steps.abs()))
                } else {
                    self.signed(steps)
                }
            };
            let mut row = vec![name.to_owned(), plain(of(&first.1))];
            row.extend(parts.iter().map(|p| signed(of(&p.column))));
            row.push(plain(of(&last.1)));
            row
        };
        let columns = || {
            [&first.1, &last.1]
                .into_iter()
                .chain(parts.iter().map(|p| &p.column))
        };
        let mut rows: Vec<Vec<String>> = self
            .names()
            .iter()
            .enumerate()
            .filter(|&(i, _)| i != ALLOWANCE || columns().any(|c| c.lengths[i] != 0))
            .map(|(i, name)| row(name, &|c| c.lengths[i], false))
            .collect();
        rows.push(row(t.required, &Column::required, false));
        rows.push(row(t.available, &|c| c.available, false));
        rows.push(row(t.footroom, &Column::footroom, false));
        rows.push(row(t.line_tension, &|c| c.forces[0], true));
        rows.push(row(t.arrest_force, &|c| c.forces[1], true));
        Table {
            caption: caption.to_owned(),
            head,
            rows,
            note: String::new(),
        }
    }
}

fn with_sign(steps: i64, size: &str) -> String {
    match steps.signum() {
        1 => format!("+{size}"),
        -1 => format!("\u{2212}{size}"),
        _ => size.to_owned(),
    }
}

fn with_minus(steps: i64, units: Units) -> String {
    let size = format::length_of_steps(units, steps.abs());
    if steps < 0 {
        format!("\u{2212}{size}")
    } else {
        size
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use footroom_core::demo::demo;
    use proptest::prelude::*;

    fn other() -> Case {
        let mut to = demo();
        to.line.spans_m = vec![18.0];
        to.line.pretension_n = 6.0e3;
        to.workers.truncate(2);
        to.site.margin_m = 0.6;
        to
    }

    /// Half inches or centimetres in a text such as `−1 ft 2 1/2 in`.
    fn count(text: &str, units: Units) -> i64 {
        let sign = if text.starts_with('\u{2212}') { -1 } else { 1 };
        let size = text.trim_start_matches(['+', '\u{2212}']);
        let quantity = Quantity::Length;
        let metres = crate::say::typed::parse(quantity, units, size).expect(text);
        sign * format::length_steps(units, metres, Rounding::Nearest)
    }

    /// What is shown adds up as it is shown: across by causes, down by lengths.
    fn adds_up(view: &WhyView, units: Units) {
        let lengths = view.table.rows.len() - 5;
        let number = |row: usize, column: usize| count(&view.table.rows[row][column], units);
        let last = view.table.head.len() - 1;
        for row in 0..lengths + 3 {
            let sum: i64 = (1..last).map(|c| number(row, c)).sum();
            assert_eq!(sum, number(row, last), "{:?}", view.table.rows[row]);
        }
        for column in 1..=last {
            let sum: i64 = (0..lengths).map(|r| number(r, column)).sum();
            assert_eq!(sum, number(lengths, column), "required");
            let footroom = number(lengths + 1, column) - number(lengths, column);
            assert_eq!(footroom, number(lengths + 2, column), "footroom");
        }
        let bars: i64 = view.steps[..view.steps.len() - 1]
            .iter()
            .map(|s| count(&s.amount, units))
            .sum();
        assert_eq!(bars, count(&view.steps[view.steps.len() - 1].amount, units));
    }

    #[test]
    fn what_is_shown_adds_up_in_every_voice() {
        for voice in Voice::ALL {
            let from_one = users(voice, &demo()).expect("three users");
            assert_eq!(from_one.steps.len(), 4);
            adds_up(&from_one, voice.units);
            let between = cases(voice, &demo(), &other()).expect("no faults");
            // The four inputs, and what each answer is below the run that is split.
            assert_eq!(between.steps.len(), 2 + 4 + 1);
            adds_up(&between, voice.units);
            for step in from_one.steps.iter().chain(&between.steps) {
                assert_eq!(step.kind == StepKind::End, step.sentence.is_empty());
                assert!(step.start_percent >= 0.0);
                assert!(step.start_percent + step.width_percent <= 100.0 + 1e-9);
            }
        }
    }

    #[test]
    fn the_core_s_parts_add_up_to_a_billionth_of_a_metre() {
        let split = why::why(&demo(), &other(), Asked::default()).expect("no faults");
        let whole = split.to.footroom_m - split.from.footroom_m;
        let sum: f64 = split.parts.iter().map(|p| p.footroom_m).sum();
        assert!((sum - whole).abs() <= 1e-9);
        for i in 0..LENGTHS {
            let of = |s: &State| {
                [
                    s.line_deflection_m,
                    s.lanyard_m,
                    s.absorber_extension_m,
                    s.allowance_m,
                    s.harness_stretch_m,
                    s.dring_to_sole_m,
                    s.margin_m,
                ][i]
            };
            let sum: f64 = split.parts.iter().map(|p| lengths_m(p)[i]).sum();
            assert!((sum - (of(&split.to) - of(&split.from))).abs() <= 1e-9);
        }
    }

    /// Nothing is said to change that stays: a user more does not move what is measured.
    #[test]
    fn what_only_rounding_moves_is_called_so() {
        for voice in Voice::ALL {
            let t = voice.texts();
            for step in users(voice, &demo()).expect("three users").steps {
                for name in [t.available, t.harness_stretch, t.dring_to_sole, t.margin] {
                    assert!(!step.sentence.contains(name), "{}", step.sentence);
                }
            }
        }
    }

    /// One sentence says how much the second leaves more or less than the first, as the bars do, and the
    /// cause that does most of it.
    #[test]
    fn one_sentence_says_which_leaves_more_and_why() {
        for voice in Voice::ALL {
            let say = &voice.decide().say;
            let (a, b) = ((&demo(), "A"), (&other(), "B"));
            for (from, to) in [(a, b), (b, a)] {
                let view = layouts(voice, from, to).expect("no faults");
                let ends = [&view.steps[0], &view.steps[view.steps.len() - 1]];
                let [first, last] = ends.map(|end| count(&end.amount, voice.units));
                let change = last - first;
                assert_ne!(change, 0);
                let most = view.steps[1..view.steps.len() - 1]
                    .iter()
                    .max_by_key(|step| count(&step.amount, voice.units) * change.signum())
                    .expect("causes");
                let said = if change > 0 {
                    say.why_more
                } else {
                    say.why_less
                };
                let amount = format::length_of_steps(voice.units, change.abs());
                let expected = said(to.1, from.1, &amount, &most.label, &most.amount);
                assert_eq!(view.brief, format::unbroken(&expected));
            }
            let same = layouts(voice, a, (&demo(), "B")).expect("no faults");
            assert_eq!(same.brief, (say.why_alike)("B", "A"));
            assert_eq!(users(voice, &demo()).expect("users").brief, "");
        }
    }

    /// The last bar is the answer of the page.
    #[test]
    fn the_ends_are_the_answers() {
        let voice = Voice::ALL[0];
        let mut desk = crate::page::Page::new(voice.lang, voice.units);
        let answer = desk.whole_view().answer.number;
        let view = users(voice, &demo()).expect("three users");
        assert_eq!(view.steps.last().expect("an end").amount, answer);
        let kept = cases(voice, &other(), &demo()).expect("no faults");
        assert_eq!(kept.steps.last().expect("an end").amount, answer);
        // Two layouts are split alike, under their names.
        let named = layouts(voice, (&other(), "A"), (&demo(), "B")).expect("no faults");
        let inner = |view: &WhyView| view.steps[1..view.steps.len() - 1].to_vec();
        assert_eq!(inner(&named), inner(&kept));
        assert!(named.steps.len() > 3 && named.heading.contains("from A to B"));
        let ends = [&named.steps[0], &named.steps[named.steps.len() - 1]];
        assert_eq!(ends.map(|end| end.label.as_str()), ["A", "B"]);
        assert_eq!(ends[1].amount, answer);
    }

    /// Where the line would break at an end of the way there is no footroom to be split, and it is
    /// said; where it would only on the way, that is said beside the steps.
    #[test]
    fn a_line_that_would_break_is_not_split() {
        let mut weak = demo();
        weak.site.beam_top_m = 20.0;
        weak.line.rope.breaking_force_n = Some(9.0e3);
        for voice in Voice::ALL {
            let d = voice.decide();
            for (view, which) in [
                (users(voice, &weak), (d.say.users)(1)),
                (cases(voice, &weak, &demo()), d.why_kept.to_owned()),
                (cases(voice, &demo(), &weak), d.why_present.to_owned()),
            ] {
                let view = view.expect("no faults");
                let said = view.unknown;
                assert!(
                    said.contains(d.stop_breaks) && said.contains(&which),
                    "{said}"
                );
                assert!(view.steps.is_empty() && view.table.rows.is_empty());
            }
            let sound = cases(voice, &demo(), &other()).expect("no faults");
            assert_eq!((sound.unknown, sound.note), Default::default());
            // The crew of three breaks the thin rope, and one man alone does not.
            let mut thin = demo();
            thin.workers.truncate(1);
            let (one, three) = (find(&thin, Effort::Full), find(&demo(), Effort::Full));
            let (one, three) = (one.expect("no faults"), three.expect("no faults"));
            assert!(one.tension_max_n < 0.8 * three.tension_max_n);
            thin.line.rope.breaking_force_n = Some(1.01 * one.tension_max_n);
            thin.line.rope.mass_per_length_kg_per_m *= 1.001;
            let view = cases(voice, &thin, &demo()).expect("no faults");
            assert_eq!(view.unknown, "");
            assert_eq!(view.note, d.why_doubtful);
            assert!(!view.steps.is_empty());
        }
    }

    #[test]
    fn cases_that_are_equal_or_faulty_give_no_steps() {
        let voice = Voice::ALL[0];
        let same = cases(voice, &demo(), &demo()).expect("no faults");
        assert_eq!(same.steps.len(), 2);
        let mut one = demo();
        one.workers.truncate(1);
        assert_eq!(users(voice, &one), None);
        one.workers.clear();
        assert_eq!(cases(voice, &demo(), &one), None);
    }

    #[test]
    fn every_cause_has_a_name() {
        let (from, to) = (demo(), other());
        for voice in Voice::ALL {
            let mut names: Vec<String> = Cause::EACH
                .into_iter()
                .chain([Cause::Together, Cause::Differences])
                .map(|c| cause(voice, &from, &to, c))
                .collect();
            names.sort();
            names.dedup();
            assert_eq!(names.len(), Cause::EACH.len() + 2);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn dealt_steps_add_up_and_stay_near(
            parts in proptest::collection::vec(-3.0..3.0f64, 1..8), off in -2i64..3
        ) {
            let whole: f64 = parts.iter().sum();
            let total = (whole / 0.01).round() as i64 + off;
            let steps = dealt(&parts, 0.01, total);
            prop_assert_eq!(steps.iter().sum::<i64>(), total);
            for (part, step) in parts.iter().zip(steps) {
                prop_assert!((part / 0.01 - step as f64).abs() < 4.0);
            }
        }
    }
}
