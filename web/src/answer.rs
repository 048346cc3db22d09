//! The answer in words: sentence, stack, methods side by side, checks in brief, description.
//!
//! No sentence gives permission: it says what the calculation found and what it did not.

use footroom_core::case::{Case, GearKind};
use footroom_core::solve::{Doubt, Method, Outcome, WorkerOutcome};

use crate::fault_text::Voice;
use crate::fields::below_name;
use crate::format::{self, FOOT_M, Rounding, Units};
use crate::order::{sort, sort_numbers};
use crate::shown::ShownStack;
use crate::view::{Answer, Check, Kind, Mark, StackRow, Table, Verdict};

/// Stands where no number can be given.
pub const DASH: &str = "—";

/// Greatest arrest force with a body harness, N: the 8 kN of 29 CFR 1926.502(d)(16)(ii), the
/// lower of its two figures (1,800 lbf is 8.007 kN).
pub const ARREST_FORCE_MAX_N: f64 = 8_000.0;

/// Greatest free fall, m: the 6 ft of 29 CFR 1926.502(d)(16)(iii). Its other figure, 1.8 m, is
/// 29 mm less and would refuse a lanyard of 6 ft on a line that sags.
pub const FREE_FALL_MAX_M: f64 = 6.0 * FOOT_M;

/// Greatest deceleration distance, m: the 3.5 ft of 29 CFR 1926.502(d)(16)(iv), the lower of its
/// two figures (the other is 1.07 m).
pub const DECELERATION_MAX_M: f64 = 3.5 * FOOT_M;

/// Strength over demand that every part keeps: 29 CFR 1926.502(d)(8), a safety factor of two for
/// horizontal lifelines.
pub const STRENGTH_RATIO_MIN: f64 = 2.0;

/// Clause of [`ARREST_FORCE_MAX_N`].
const ARREST_CLAUSE: &str = "29 CFR 1926.502(d)(16)(ii)";
/// Clause of [`FREE_FALL_MAX_M`].
const FREE_FALL_CLAUSE: &str = "29 CFR 1926.502(d)(16)(iii)";
/// Clause of [`DECELERATION_MAX_M`].
const DECELERATION_CLAUSE: &str = "29 CFR 1926.502(d)(16)(iv)";
/// Clause of [`STRENGTH_RATIO_MIN`].
const STRENGTH_CLAUSE: &str = "29 CFR 1926.502(d)(8)";

/// A case with its outcome, and the voice to tell of it.
#[derive(Clone, Copy)]
pub struct Told<'a> {
    /// Language and units.
    pub voice: Voice,
    /// The case.
    pub case: &'a Case,
    /// Its outcome.
    pub outcome: &'a Outcome,
}

/// Greatest line tension to compare with strengths, N: the greater of the two methods, the time
/// history's with the bound of axial inertia added.
pub fn tension_for_strength_n(outcome: &Outcome) -> f64 {
    let history = &outcome.history;
    (history.tension_max_n + history.axial_inertia_bound_n).max(outcome.balance.tension_max_n)
}

/// Whether a doubt takes the number away instead of standing beside it.
pub fn blocks(doubt: &Doubt) -> bool {
    match doubt {
        Doubt::BeyondBreaking { .. } | Doubt::TooSteep { .. } | Doubt::NotFinished { .. } => true,
        Doubt::AbsorberUsedUp { .. }
        | Doubt::InlineAbsorberUsedUp { .. }
        | Doubt::Strikes { .. } => false,
        // A doubt that the core has learnt since: rather no number than a doubtful one.
        _ => true,
    }
}

/// The answer when nothing has been computed.
pub fn not_computed(voice: Voice) -> Answer {
    let t = voice.texts();
    Answer {
        number: DASH.to_owned(),
        word: t.word_unknown.to_owned(),
        kind: Kind::Unknown,
        sentence: (t.say.cannot_say)(t.not_computed),
        detail: String::new(),
        doubts: Vec::new(),
    }
}

/// First letter in capitals and a full stop at the end.
fn sentence(text: &str) -> String {
    let mut out = text.to_owned();
    // No sentence here begins with an accented letter; the library's tables of all capitals would
    // weigh more than the rest of this file.
    if let Some(first) = out.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    if !out.ends_with('.') {
        out.push('.');
    }
    out
}

impl Told<'_> {
    fn units(&self) -> Units {
        self.voice.units
    }

    fn length(&self, metres: f64, rounding: Rounding) -> String {
        format::length_rounded(self.units(), metres, rounding)
    }

    fn force(&self, newtons: f64) -> String {
        format::force(self.units(), self.voice.lang, newtons)
    }

    fn governing(&self) -> Option<&WorkerOutcome> {
        self.outcome.workers.get(self.outcome.governing_worker)
    }

    fn worker(&self, index: usize) -> String {
        (self.voice.texts().say.worker)(index + 1)
    }

    /// The governing worker as a label.
    pub fn worker_label(&self) -> String {
        (self.voice.texts().say.worker_label)(self.outcome.governing_worker + 1)
    }

    /// Whether no number can be given.
    pub fn is_unknown(&self) -> bool {
        self.outcome.doubts.iter().any(blocks) || self.governing().is_none()
    }

    /// The answer in words and one number.
    pub fn answer(&self) -> Answer {
        let t = self.voice.texts();
        let doubts = self.outcome.doubts.iter().map(|d| sentence(&self.doubt(d)));
        let doubts: Vec<String> = doubts.collect();
        let Some(governing) = self.governing() else {
            return not_computed(self.voice);
        };
        if let Some(doubt) = self.outcome.doubts.iter().find(|d| blocks(d)) {
            return Answer {
                number: DASH.to_owned(),
                word: t.word_unknown.to_owned(),
                kind: Kind::Unknown,
                sentence: (t.say.cannot_say)(&self.doubt(doubt)),
                detail: self.group(),
                doubts,
            };
        }
        let shown = ShownStack::of(self.units(), &governing.stack);
        let number = shown.footroom_text();
        let worker = self.worker(self.outcome.governing_worker);
        let [.., margin] = shown.parts;
        let margin_text = shown.text(margin);
        let short = shown.footroom < 0;
        let sentence = if short {
            (t.say.short)(
                &number,
                &worker,
                &shown.text(shown.required),
                &shown.text(shown.available),
            )
        } else {
            (t.say.spare)(&number, &worker, &margin_text)
        };
        let mut detail = vec![self.group()];
        if short {
            let clear = shown.footroom + margin;
            detail.insert(
                0,
                if clear >= 0 {
                    (t.say.margin_not_kept)(&shown.text(clear), &margin_text)
                } else {
                    (t.say.soles_too_low)(&shown.text(-clear))
                },
            );
        }
        detail.push(self.why_methods_differ());
        detail.retain(|part| !part.is_empty());
        Answer {
            number,
            word: if short { t.word_short } else { t.word_spare }.to_owned(),
            kind: if short { Kind::Short } else { Kind::Spare },
            sentence,
            detail: detail.join(" "),
            doubts,
        }
    }

    fn doubt(&self, doubt: &Doubt) -> String {
        let t = self.voice.texts();
        let lang = self.voice.lang;
        match *doubt {
            Doubt::BeyondBreaking {
                tension_n,
                breaking_force_n,
            } => (t.say.beyond_breaking)(
                &self.force(tension_n),
                &format::force_rounded(self.units(), breaking_force_n, Rounding::Down),
            ),
            Doubt::TooSteep { slope, slope_max } => (t.say.too_steep)(
                &format::number_rounded(slope, 2, Rounding::Up),
                &format::number_rounded(slope_max, 2, Rounding::Down),
            ),
            Doubt::AbsorberUsedUp {
                worker,
                arrest_force_n,
            } => (t.say.absorber_used_up)(&self.worker(worker), &self.force(arrest_force_n)),
            Doubt::InlineAbsorberUsedUp { tension_n } => {
                (t.say.inline_used_up)(&self.force(tension_n))
            }
            Doubt::Strikes {
                worker,
                time_s,
                speed_m_per_s,
            } => (t.say.strikes)(
                &self.worker(worker),
                &format::time(lang, time_s),
                &format::speed(self.units(), lang, speed_m_per_s),
            ),
            Doubt::NotFinished { worker } => (t.say.not_finished)(&self.worker(worker)),
            // A doubt that the core has learnt since.
            _ => t.doubt_other.to_owned(),
        }
    }

    /// Who falls, and when.
    fn group(&self) -> String {
        let t = self.voice.texts();
        let all = self.case.workers.len();
        let mut times: Vec<f64> = self
            .case
            .workers
            .iter()
            .filter_map(|w| w.fall_time_s)
            .collect();
        let falling = times.len();
        sort_numbers(&mut times);
        times.dedup();
        match times.as_slice() {
            [] => t.nobody_falls.to_owned(),
            [_] => (t.say.fall_together)(falling, all),
            _ => {
                let times = times.iter().map(|&s| format::time(self.voice.lang, s));
                (t.say.fall_in_turn)(falling, all, &times.collect::<Vec<_>>().join(", "))
            }
        }
    }

    /// Which method asks for more, by how much as shown, and why.
    fn why_methods_differ(&self) -> String {
        let t = self.voice.texts();
        let Some(governing) = self.governing() else {
            return String::new();
        };
        let balance = ShownStack::of(self.units(), &governing.balance_stack);
        let history = ShownStack::of(self.units(), &governing.history_stack);
        let more = history.required - balance.required;
        if more == 0 {
            return (t.say.methods_agree)(&history.text(1));
        }
        let amount = history.text(more.abs());
        match governing.method {
            Method::TimeHistory => {
                let later_s = governing.time_lowest_s;
                let deflects = history.parts[0] - balance.parts[0];
                let pays_out = history.parts[2] - balance.parts[2];
                let why = if deflects >= pays_out {
                    let rope_kg = self.outcome.rest.unstretched_length_m
                        * self.case.line.rope.mass_per_length_kg_per_m;
                    let rope = format::mass(self.units(), self.voice.lang, rope_kg);
                    (t.say.why_overshoot)(&rope)
                } else if later_s > governing.time_first_lowest_s {
                    (t.say.why_rebound)(&format::time(self.voice.lang, later_s))
                } else {
                    t.why_absorber.to_owned()
                };
                (t.say.history_governs)(&amount, &why)
            }
            Method::EnergyBalance => {
                let mut times = self.case.workers.iter().filter_map(|w| w.fall_time_s);
                let first = times.next();
                let staggered = times.any(|s| Some(s) != first);
                let why = if staggered {
                    t.why_balance_staggered
                } else {
                    t.why_balance
                };
                (t.say.balance_governs)(&amount, why)
            }
        }
    }

    /// The stack under the governing worker, as it is shown.
    pub fn stack(&self) -> Vec<StackRow> {
        let Some(governing) = self.governing() else {
            return Vec::new();
        };
        let t = self.voice.texts();
        let stack = &governing.stack;
        let shown = ShownStack::of(self.units(), stack);
        let unknown = self.is_unknown();
        let kind = self.case.workers.get(self.outcome.governing_worker);
        let retracting = kind.is_some_and(|w| w.gear.kind == GearKind::SelfRetracting);
        let lanyard = if retracting {
            t.self_retracting
        } else {
            t.lanyard
        };
        // Key, name, steps, length, pattern, whether it hangs on what was computed.
        let parts = [
            (
                "line_deflection",
                t.line_deflection,
                stack.line_deflection_m,
                "level",
                true,
            ),
            ("lanyard", lanyard, stack.lanyard_m, "plain", false),
            (
                "absorber_extension",
                t.absorber_extension,
                stack.absorber_extension_m,
                "rising",
                true,
            ),
            (
                "harness_stretch",
                t.harness_stretch,
                stack.harness_stretch_m,
                "falling",
                false,
            ),
            (
                "dring_to_sole",
                t.dring_to_sole,
                stack.dring_to_sole_m,
                "upright",
                false,
            ),
            ("margin", t.margin, stack.margin_m, "dots", false),
        ];
        let row = |key, label: &str, steps, length_m, pattern, computed: bool, total| StackRow {
            key,
            label: label.to_owned(),
            value: if unknown && computed {
                DASH.to_owned()
            } else {
                shown.text(steps)
            },
            length_m,
            pattern,
            total,
        };
        let mut rows: Vec<StackRow> = parts
            .iter()
            .zip(shown.parts)
            .map(|(&(key, label, length_m, pattern, computed), steps)| {
                row(key, label, steps, length_m, pattern, computed, false)
            })
            .collect();
        let (required, available) = (shown.required, shown.available);
        rows.push(row(
            "required",
            t.required,
            required,
            stack.required_m,
            "",
            true,
            true,
        ));
        // Without a footroom to agree with, the measured depth is its own rounding.
        let available = if unknown {
            format::length_steps(self.units(), stack.available_m, Rounding::Down)
        } else {
            available
        };
        rows.push(row(
            "available",
            t.available,
            available,
            stack.available_m,
            "",
            false,
            false,
        ));
        rows.push(row(
            "footroom",
            t.footroom,
            shown.footroom,
            stack.footroom_m,
            "",
            true,
            true,
        ));
        rows
    }

    /// The two methods side by side for the governing worker.
    pub fn methods(&self) -> Table {
        let t = self.voice.texts();
        let i = self.outcome.governing_worker;
        let Some(governing) = self.governing() else {
            return Table::default();
        };
        let balance = ShownStack::of(self.units(), &governing.balance_stack);
        let history = ShownStack::of(self.units(), &governing.history_stack);
        let row = |label: &str, a: String, b: String| vec![label.to_owned(), a, b];
        let arrest_n = self
            .outcome
            .balance
            .arrest_force_n
            .get(i)
            .copied()
            .unwrap_or(0.0);
        let with_bound_n =
            self.outcome.history.tension_max_n + self.outcome.history.axial_inertia_bound_n;
        let mut rows = vec![
            row(
                t.line_deflection,
                balance.text(balance.parts[0]),
                history.text(history.parts[0]),
            ),
            row(
                t.absorber_extension,
                balance.text(balance.parts[2]),
                history.text(history.parts[2]),
            ),
            row(
                t.required,
                balance.text(balance.required),
                history.text(history.required),
            ),
            row(
                t.arrest_force,
                self.force(arrest_n),
                self.force(governing.arrest_force_max_n),
            ),
            row(
                t.line_tension,
                self.force(self.outcome.balance.tension_max_n),
                self.force(with_bound_n),
            ),
        ];
        if self.case.line.inline_absorber.is_some() {
            rows.push(row(
                t.inline_extension,
                self.length(self.outcome.balance.inline_extension_m, Rounding::Up),
                self.length(self.outcome.history.inline_extension_m, Rounding::Up),
            ));
        }
        Table {
            caption: (t.say.of_worker)(t.methods_heading, &self.worker(i)),
            head: vec![
                String::new(),
                t.energy_balance.to_owned(),
                t.time_history.to_owned(),
            ],
            rows,
            note: if self.is_unknown() {
                String::new()
            } else {
                self.why_methods_differ()
            },
        }
    }

    /// Limits and strengths in brief, the greatest demand over the workers that fall.
    pub fn checks(&self) -> Vec<Check> {
        let t = self.voice.texts();
        let outcome = self.outcome;
        let most = |demand: &dyn Fn(usize, &WorkerOutcome) -> f64| {
            let fallen = outcome.workers.iter().enumerate().filter(|(_, w)| w.fell);
            fallen
                .map(|(i, w)| (i, demand(i, w)))
                .max_by(|a, b| a.1.total_cmp(&b.1))
        };
        let mut checks = Vec::new();
        let mut limited = |key,
                           label,
                           found: Option<(usize, f64)>,
                           limit,
                           texts: (String, &str),
                           source: &str| {
            let Some((worker, demand)) = found else {
                return;
            };
            let (text, limit_text) = texts;
            let verdict = if demand > limit {
                Verdict::Over
            } else {
                Verdict::Within
            };
            checks.push(Check {
                key,
                label: (t.say.of_worker)(label, &self.worker(worker)),
                value: (t.say.with_limit)(&text, limit_text),
                verdict,
                verdict_text: self.verdict_text(verdict).to_owned(),
                source: source.to_owned(),
            });
        };
        let metric = self.units() == Units::Metric;
        let balance_n = |i: usize| {
            outcome
                .balance
                .arrest_force_n
                .get(i)
                .copied()
                .unwrap_or(0.0)
        };
        let found = most(&|i, w| w.arrest_force_max_n.max(balance_n(i)));
        limited(
            "arrest_force",
            t.arrest_force,
            found,
            ARREST_FORCE_MAX_N,
            (
                self.force(found.map_or(0.0, |f| f.1)),
                if metric { "8 kN" } else { "1,800 lbf" },
            ),
            ARREST_CLAUSE,
        );
        let found = most(&|_, w| w.free_fall_m);
        limited(
            "free_fall",
            t.free_fall,
            found,
            FREE_FALL_MAX_M,
            (
                self.length(found.map_or(0.0, |f| f.1), Rounding::Up),
                if metric { "1.83 m (6 ft)" } else { "6 ft" },
            ),
            FREE_FALL_CLAUSE,
        );
        let found = most(&|_, w| {
            let (a, b) = (&w.balance_stack, &w.history_stack);
            a.absorber_extension_m.max(b.absorber_extension_m)
        });
        limited(
            "deceleration_distance",
            t.deceleration_distance,
            found,
            DECELERATION_MAX_M,
            (
                self.length(found.map_or(0.0, |f| f.1), Rounding::Up),
                if metric {
                    "1.07 m (3.5 ft)"
                } else {
                    "3 ft 6 in"
                },
            ),
            DECELERATION_CLAUSE,
        );
        let tension_n = tension_for_strength_n(outcome);
        checks.push(Check {
            key: "line_tension",
            label: t.line_tension.to_owned(),
            value: self.force(tension_n),
            verdict: Verdict::None,
            verdict_text: String::new(),
            source: String::new(),
        });
        checks.push(self.rope_check(tension_n));
        checks
    }

    fn rope_check(&self, tension_n: f64) -> Check {
        let t = self.voice.texts();
        let ratio = self.case.line.rope.breaking_force_n.map(|n| n / tension_n);
        let (value, verdict) = match ratio {
            None => (t.not_evaluated.to_owned(), Verdict::NotEvaluated),
            Some(ratio) => (
                (t.say.with_required)(&format::number_rounded(ratio, 2, Rounding::Down), "2"),
                if ratio < STRENGTH_RATIO_MIN {
                    Verdict::Over
                } else {
                    Verdict::Within
                },
            ),
        };
        Check {
            key: "rope_ratio",
            label: t.rope_ratio.to_owned(),
            value,
            verdict,
            verdict_text: match verdict {
                Verdict::NotEvaluated => String::new(),
                Verdict::Over => t.verdict_too_weak.to_owned(),
                _ => self.verdict_text(verdict).to_owned(),
            },
            source: STRENGTH_CLAUSE.to_owned(),
        }
    }

    fn verdict_text(&self, verdict: Verdict) -> &'static str {
        let t = self.voice.texts();
        match verdict {
            Verdict::Within => t.verdict_within,
            Verdict::Over => t.verdict_over,
            Verdict::NotEvaluated | Verdict::None => "",
        }
    }

    /// Instants of note, in order of time: gear taut and lowest point of each who falls, and the
    /// greatest tension.
    pub fn marks(&self) -> Vec<Mark> {
        let t = self.voice.texts();
        let mut marks = Vec::new();
        for (i, worker) in self.outcome.workers.iter().enumerate() {
            if !worker.fell {
                continue;
            }
            let label = (t.say.worker_label)(i + 1);
            if let Some(traces) = &self.outcome.traces
                && let Some(frame) = traces
                    .force_n
                    .iter()
                    .skip(i)
                    .step_by(traces.workers.max(1))
                    .position(|&force| force > 0.0)
            {
                marks.push(Mark {
                    time_s: frame as f64 * traces.interval_s,
                    label: (t.say.mark_taut)(&label),
                });
            }
            marks.push(Mark {
                time_s: worker.time_lowest_s,
                label: (t.say.mark_lowest)(&label),
            });
        }
        marks.push(Mark {
            time_s: self.outcome.history.time_tension_max_s,
            label: t.mark_peak_tension.to_owned(),
        });
        sort(&mut marks, |a, b| a.time_s < b.time_s);
        marks
    }

    /// The governing worker's lowest instant, s.
    pub fn lowest_time_s(&self) -> f64 {
        self.governing().map_or(0.0, |w| w.time_lowest_s)
    }

    /// The scene in words, for who cannot see it.
    pub fn description(&self) -> String {
        let t = self.voice.texts();
        let say = &t.say;
        let near = |m: f64| self.length(m, Rounding::Nearest);
        let line = &self.case.line;
        let spans: Vec<String> = line.spans_m.iter().map(|&m| near(m)).collect();
        let mut parts = vec![(say.describe_line)(
            &near(line.length_m()),
            &spans.join(" + "),
            &near(line.height_above_beam_m),
            &near(self.case.site.beam_top_m),
        )];
        for below in &self.case.site.below {
            parts.push((say.describe_below)(
                below_name(self.voice, below.kind),
                &near(below.from_m),
                &near(below.to_m),
                &near(below.height_m),
            ));
        }
        let unknown = self.is_unknown();
        for (i, (worker, result)) in self
            .case
            .workers
            .iter()
            .zip(&self.outcome.workers)
            .enumerate()
        {
            let name = (say.worker_label)(i + 1);
            let place = near(worker.position_m);
            if !result.fell {
                parts.push((say.describe_standing)(&name, &place));
            } else if !unknown {
                let shown = ShownStack::of(self.units(), &result.stack);
                parts.push((say.describe_fall)(
                    &name,
                    &place,
                    &self.length(result.free_fall_m, Rounding::Up),
                    &self.force(result.arrest_force_max_n),
                    &format::time(self.voice.lang, result.time_lowest_s),
                    &shown.text(shown.required - shown.parts[5]),
                ));
                if let Some(&above_m) = self.outcome.hanging.soles_above_m.get(i)
                    && above_m > 0.0
                {
                    parts.push((say.describe_hanging)(
                        &name,
                        &self.length(above_m, Rounding::Down),
                    ));
                }
            }
        }
        parts.push(self.answer().sentence);
        parts.join(" ")
    }

    /// Model version and fingerprint, in groups of four digits.
    pub fn model(&self) -> String {
        let digits = fingerprint_text(self.outcome.fingerprint);
        let groups: Vec<&str> = (0..4)
            .filter_map(|i| digits.get(4 * i..4 * i + 4))
            .collect();
        (self.voice.texts().say.model)(self.outcome.model_version, &groups.join(" "))
    }

    /// Half the rope's breaking force, N: the greatest tension at [`STRENGTH_RATIO_MIN`].
    pub fn tension_limit_n(&self) -> Option<f64> {
        let breaking = self.case.line.rope.breaking_force_n;
        breaking.map(|n| n / STRENGTH_RATIO_MIN)
    }

    /// The limit of the arrest force as it is written.
    pub fn arrest_limit_text(&self) -> &'static str {
        match self.units() {
            Units::Metric => "8 kN",
            Units::Us => "1,800 lbf",
        }
    }
}

/// A fingerprint as sixteen hexadecimal digits.
pub fn fingerprint_text(fingerprint: u64) -> String {
    format!("{fingerprint:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::format::Lang;
    use footroom_core::case::InlineAbsorber;
    use footroom_core::demo::demo;
    use footroom_core::solve::{Options, solve};

    const VOICES: [Voice; 4] = [
        Voice {
            lang: Lang::En,
            units: Units::Metric,
        },
        Voice {
            lang: Lang::En,
            units: Units::Us,
        },
        Voice {
            lang: Lang::Es,
            units: Units::Metric,
        },
        Voice {
            lang: Lang::Es,
            units: Units::Us,
        },
    ];

    fn outcome(case: &Case) -> Outcome {
        let options = Options {
            traces: true,
            ..Options::default()
        };
        solve(case, options).expect("a case without faults")
    }

    fn told<'a>(case: &'a Case, outcome: &'a Outcome) -> Told<'a> {
        Told {
            voice: VOICES[0],
            case,
            outcome,
        }
    }

    /// Moves the footroom of the governing worker, sum kept.
    fn with_footroom(case: &Case, mut outcome: Outcome, footroom_m: f64) -> Outcome {
        let _ = case;
        let i = outcome.governing_worker;
        let stack = &mut outcome.workers[i].stack;
        stack.available_m = stack.required_m + footroom_m;
        stack.footroom_m = footroom_m;
        outcome.footroom_m = footroom_m;
        outcome.doubts.clear();
        outcome
    }

    #[test]
    fn words_for_spare_and_short() {
        let case = demo();
        let base = outcome(&case);
        let spare = with_footroom(&case, base.clone(), 0.849);
        let answer = told(&case, &spare).answer();
        assert_eq!(
            (answer.kind, answer.number.as_str()),
            (Kind::Spare, "0.84 m")
        );
        assert!(
            answer.sentence.starts_with("0.84 m to spare under worker "),
            "{}",
            answer.sentence
        );
        let short = with_footroom(&case, base.clone(), -0.301);
        let answer = told(&case, &short).answer();
        assert_eq!(
            (answer.kind, answer.number.as_str()),
            (Kind::Short, "0.31 m")
        );
        assert!(
            answer.sentence.starts_with("Short by 0.31 m: worker "),
            "{}",
            answer.sentence
        );
        // The margin is 1 m: the soles stop clear of what is below, and the answer is still no.
        assert!(
            answer.detail.contains("margin of 1.00 m is not kept"),
            "{}",
            answer.detail
        );
        let deep = with_footroom(&case, base, -1.5);
        let answer = told(&case, &deep).answer();
        assert!(answer.detail.contains("0.50 m lower"), "{}", answer.detail);
    }

    #[test]
    fn the_shown_stack_adds_up_in_every_voice() {
        let case = demo();
        let outcome = outcome(&case);
        for voice in VOICES {
            let told = Told {
                voice,
                case: &case,
                outcome: &outcome,
            };
            let rows = told.stack();
            let steps = |row: &StackRow| {
                let metres = format::parse(
                    footroom_core::field::Quantity::Length,
                    voice.units,
                    &row.value,
                )
                .expect("shown length");
                format::length_steps(voice.units, metres, Rounding::Nearest)
            };
            let parts: i64 = rows[..6].iter().map(steps).sum();
            assert_eq!(parts, steps(&rows[6]));
            assert_eq!(steps(&rows[7]) - steps(&rows[6]), steps(&rows[8]));
            let total: f64 = rows[..6].iter().fold(0.0, |sum, row| sum + row.length_m);
            assert_eq!(total.to_bits(), rows[6].length_m.to_bits());
        }
    }

    #[test]
    fn blocking_doubts_take_the_number_away() {
        let case = demo();
        let base = outcome(&case);
        let blocking = [
            Doubt::BeyondBreaking {
                tension_n: 70_000.0,
                breaking_force_n: 64_000.0,
            },
            Doubt::TooSteep {
                slope: 0.93,
                slope_max: 0.8,
            },
            Doubt::NotFinished { worker: 1 },
        ];
        for doubt in blocking {
            let mut outcome = base.clone();
            outcome.doubts = vec![
                Doubt::AbsorberUsedUp {
                    worker: 0,
                    arrest_force_n: 9_000.0,
                },
                doubt,
            ];
            for voice in VOICES {
                let told = Told {
                    voice,
                    case: &case,
                    outcome: &outcome,
                };
                let answer = told.answer();
                assert_eq!((answer.kind, answer.number.as_str()), (Kind::Unknown, DASH));
                assert_eq!(answer.doubts.len(), 2);
                let texts = [answer.sentence, answer.detail, told.description()].join(" ");
                let rows = told.stack();
                // Neither the sentence nor the rows give away a footroom.
                assert_eq!(rows[8].value, DASH);
                assert_eq!(rows[6].value, DASH);
                let footroom = ShownStack::of(
                    voice.units,
                    &outcome.workers[outcome.governing_worker].stack,
                );
                assert!(!texts.contains(&footroom.footroom_text()), "{texts}");
            }
        }
    }

    #[test]
    fn warnings_stand_beside_the_number() {
        let case = demo();
        let mut outcome = with_footroom(&case, outcome(&case), 0.5);
        outcome.doubts = vec![
            Doubt::AbsorberUsedUp {
                worker: 0,
                arrest_force_n: 9_000.0,
            },
            Doubt::InlineAbsorberUsedUp {
                tension_n: 30_000.0,
            },
            Doubt::Strikes {
                worker: 2,
                time_s: 1.02,
                speed_m_per_s: 4.3,
            },
        ];
        let answer = told(&case, &outcome).answer();
        assert_eq!(answer.kind, Kind::Spare);
        assert!(answer.doubts[0].starts_with("The absorber of worker 1 is used up"));
        assert!(answer.doubts[2].contains("worker 3") || answer.doubts[2].contains("Worker 3"));
        assert!(answer.doubts[2].contains("4.3 m/s"), "{}", answer.doubts[2]);
        let spanish = Told {
            voice: VOICES[2],
            case: &case,
            outcome: &outcome,
        };
        assert!(spanish.answer().doubts[0].contains("del trabajador 1"));
    }

    #[test]
    fn nothing_said_gives_permission() {
        let mut case = demo();
        for absorber in [None, Some(InlineAbsorber::default())] {
            case.line.inline_absorber = absorber;
            let outcome = outcome(&case);
            for footroom in [-2.0, -0.2, 1.0] {
                let outcome = with_footroom(&case, outcome.clone(), footroom);
                for voice in VOICES {
                    let told = Told {
                        voice,
                        case: &case,
                        outcome: &outcome,
                    };
                    let answer = told.answer();
                    let mut said = vec![
                        answer.sentence,
                        answer.detail,
                        answer.word,
                        told.description(),
                    ];
                    said.extend(
                        told.checks()
                            .into_iter()
                            .flat_map(|c| [c.value, c.verdict_text]),
                    );
                    for text in said {
                        let low = text.to_lowercase();
                        for word in ["safe", "segur", "approv", "aprob", "permit", "ok", "pass"] {
                            let found = low
                                .split(|c: char| !c.is_alphabetic())
                                .any(|w| w.starts_with(word));
                            assert!(!found, "{word}: {text}");
                        }
                    }
                }
            }
        }
    }

    fn check<'a>(checks: &'a [Check], key: &str) -> &'a Check {
        checks.iter().find(|c| c.key == key).expect(key)
    }

    #[test]
    fn checks_compare_with_their_clauses() {
        let case = demo();
        let mut outcome = outcome(&case);
        for (i, worker) in outcome.workers.iter_mut().enumerate() {
            worker.arrest_force_max_n = 4_000.0 + 100.0 * i as f64;
            worker.free_fall_m = 1.808;
        }
        outcome.balance.arrest_force_n = vec![3_900.0; 3];
        let checks = told(&case, &outcome).checks();
        let force = check(&checks, "arrest_force");
        assert_eq!(force.label, "arrest force, worker 3");
        assert_eq!(force.value, "4.2 kN, limit 8 kN");
        assert_eq!(force.verdict, Verdict::Within);
        let fall = check(&checks, "free_fall");
        assert_eq!(fall.value, "1.81 m, limit 1.83 m (6 ft)");
        assert_eq!(fall.verdict, Verdict::Within);
        outcome.balance.arrest_force_n[1] = 8_000.1;
        outcome.workers[0].free_fall_m = 1.829;
        outcome.workers[2].history_stack.absorber_extension_m = 1.067;
        let checks = told(&case, &outcome).checks();
        let force = check(&checks, "arrest_force");
        assert_eq!(
            (force.value.as_str(), force.verdict),
            ("8.1 kN, limit 8 kN", Verdict::Over)
        );
        assert_eq!(force.label, "arrest force, worker 2");
        assert_eq!(check(&checks, "free_fall").verdict, Verdict::Over);
        assert_eq!(
            check(&checks, "deceleration_distance").verdict,
            Verdict::Over
        );
    }

    #[test]
    fn the_rope_ratio_takes_the_greatest_tension_and_the_bound() {
        let mut case = demo();
        let mut outcome = outcome(&case);
        case.line.rope.breaking_force_n = Some(60_000.0);
        outcome.history.tension_max_n = 28_000.0;
        outcome.history.axial_inertia_bound_n = 1_000.0;
        outcome.balance.tension_max_n = 20_000.0;
        let checks = told(&case, &outcome).checks();
        assert_eq!(check(&checks, "rope_ratio").value, "2.06, required 2");
        assert_eq!(check(&checks, "line_tension").value, "29.0 kN");
        outcome.balance.tension_max_n = 30_001.0;
        let ratio = told(&case, &outcome).checks();
        let ratio = check(&ratio, "rope_ratio");
        assert_eq!(
            (ratio.value.as_str(), ratio.verdict),
            ("1.99, required 2", Verdict::Over)
        );
        case.line.rope.breaking_force_n = None;
        let unknown = told(&case, &outcome).checks();
        let unknown = check(&unknown, "rope_ratio");
        assert_eq!(unknown.value, "not evaluated: enter the rated strength");
        assert_eq!(unknown.verdict, Verdict::NotEvaluated);
    }

    #[test]
    fn the_methods_are_told_apart_with_their_reason() {
        let case = demo();
        let mut outcome = outcome(&case);
        let i = outcome.governing_worker;
        let worker = &mut outcome.workers[i];
        worker.method = Method::TimeHistory;
        let lowest_s = worker.time_lowest_s;
        worker.time_first_lowest_s = lowest_s;
        worker.balance_stack = worker.history_stack;
        worker.balance_stack.line_deflection_m -= 0.1;
        worker.balance_stack.required_m -= 0.1;
        let table = told(&case, &outcome).methods();
        assert!(
            table.note.contains("0.10 m more") && table.note.contains("rope's own mass"),
            "{}",
            table.note
        );
        assert!(table.rows.iter().all(|row| row.len() == table.head.len()));
        // The absorber, not the line, makes the difference: at the first stop, then after it.
        let worker = &mut outcome.workers[i];
        worker.balance_stack.line_deflection_m += 0.1;
        worker.balance_stack.absorber_extension_m -= 0.1;
        let note = told(&case, &outcome).methods().note;
        assert!(note.contains("do not all stop at one instant"), "{note}");
        outcome.workers[i].time_first_lowest_s = lowest_s - 1.0;
        let note = told(&case, &outcome).methods().note;
        assert!(note.contains("only after a rebound"), "{note}");
        let worker = &mut outcome.workers[i];
        worker.method = Method::EnergyBalance;
        worker.balance_stack.required_m = worker.history_stack.required_m + 0.1;
        let note = told(&case, &outcome).methods().note;
        assert!(
            note.contains("same instant") && !note.contains("one after another"),
            "{note}"
        );
        let mut staggered = case.clone();
        staggered.workers[1].fall_time_s = Some(0.4);
        let note = told(&staggered, &outcome).methods().note;
        assert!(note.contains("one after another"), "{note}");
        let worker = &mut outcome.workers[i];
        worker.history_stack.required_m = worker.balance_stack.required_m;
        let note = told(&case, &outcome).methods().note;
        assert!(note.contains("agree within 0.01 m"), "{note}");
    }

    #[test]
    fn marks_are_in_order_and_inside_the_motion() {
        let case = demo();
        let outcome = outcome(&case);
        let traces = outcome.traces.as_ref().expect("traces");
        let end = traces.interval_s * traces.frames as f64;
        let marks = told(&case, &outcome).marks();
        assert_eq!(marks.len(), 2 * 3 + 1);
        assert!(marks.windows(2).all(|m| m[0].time_s <= m[1].time_s));
        assert!(marks.iter().all(|m| m.time_s >= 0.0 && m.time_s <= end));
        // Free fall of about 1.8 m lasts sqrt(2 h/g) = 0.61 s.
        assert!((marks[0].time_s - 0.61).abs() < 0.02, "{}", marks[0].time_s);
    }
}
