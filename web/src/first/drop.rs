//! What stands beside the drop: the rows of the stack, the instants of note, the scene in words.

use footroom_core::case::GearKind;
use footroom_core::solve::WorkerOutcome;

use crate::first::answer::{DASH, Told, capital};
use crate::first::scene::moment::Moment;
use crate::first::view::{Mark, StackRow};
use crate::first::whole_steps::{ALLOWANCE, TOLERANCE, lengths_m};
use crate::order::sort;
use crate::say::format::{self, Rounding};
use crate::say::names::below_name;

impl Told<'_> {
    /// The stack under the governing worker, as it is shown: with the inputs as given, and what the
    /// tolerances add. Allowance and tolerances stand there only when there are any.
    pub fn stack(&self) -> Vec<StackRow> {
        let Some(governing) = self.governing() else {
            return Vec::new();
        };
        let t = self.voice.texts();
        let shown = self.shown(&governing);
        let lengths = lengths_m(&governing.stack, governing.tolerance_m);
        let unknown = self.is_unknown();
        let kind = self.case.workers.get(governing.worker);
        let retracting = kind.is_some_and(|w| w.gear.kind == GearKind::SelfRetracting);
        let lanyard = if retracting {
            t.self_retracting
        } else {
            t.lanyard
        };
        // Key, name, pattern, whether it hangs on what was computed.
        let parts = [
            ("line_deflection", t.line_deflection, "level", true),
            ("lanyard", lanyard, "plain", false),
            ("absorber_extension", t.absorber_extension, "rising", true),
            ("allowance", t.allowance, "filled", true),
            ("harness_stretch", t.harness_stretch, "falling", false),
            ("dring_to_sole", t.dring_to_sole, "upright", false),
            ("tolerance", governing.row(t), "grid", true),
            ("margin", t.margin, "dots", false),
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
            .enumerate()
            .filter(|&(i, _)| !matches!(i, ALLOWANCE | TOLERANCE) || lengths[i] > 0.0)
            .map(|(i, &(key, label, pattern, computed))| {
                let steps = shown.parts[i];
                row(key, label, steps, lengths[i], pattern, computed, false)
            })
            .collect();
        let (required, available) = (shown.required, shown.available);
        let required_m = lengths.iter().sum();
        rows.push(row(
            "required", t.required, required, required_m, "", true, true,
        ));
        // Without a footroom to agree with, the measured depth is its own rounding.
        let available_m = governing.stack.available_m;
        let available = if unknown {
            format::length_steps(self.units(), available_m, Rounding::Down)
        } else {
            available
        };
        rows.push(row(
            "available",
            t.available,
            available,
            available_m,
            "",
            false,
            false,
        ));
        rows.push(row(
            "footroom",
            t.footroom,
            shown.footroom,
            self.assessment.footroom.value,
            "",
            true,
            true,
        ));
        rows
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
        self.governing_worker().map_or(0.0, |w| w.time_lowest_s)
    }

    /// Part of the true speed at which the fall is played up to the lowest instant: a quarter, slow
    /// enough to be followed, and faster where nobody would wait for a late bounce.
    pub fn play_speed(&self) -> f64 {
        const SLOW: f64 = 0.25;
        const WAIT_MAX_S: f64 = 9.0;
        SLOW.max(self.lowest_time_s() / WAIT_MAX_S)
    }

    /// How far below the line the feet of a worker are at the lowest point of the motion, m: what the
    /// drawing shows at that instant, without what is added to the stack.
    fn soles_lowest_m(&self, worker: usize, result: &WorkerOutcome) -> f64 {
        let stack = &result.history_stack;
        let moment = (self.outcome.traces.as_ref())
            .map(|_| Moment::at(self.case, Some(self.outcome), result.time_lowest_s));
        let now = moment.and_then(|moment| Some(moment.workers.get(worker)?.soles_m));
        now.unwrap_or(stack.required_m - stack.margin_m - stack.allowance_m)
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
            let name = capital(&self.worker(i));
            let place = near(worker.position_m);
            if !result.fell {
                parts.push((say.describe_standing)(&name, &place));
                if !unknown {
                    let height = self.length(result.line_height_min_m, Rounding::Down);
                    parts.push((say.describe_pulled)(&height));
                }
            } else if !unknown {
                parts.push((say.describe_fall)(
                    &name,
                    &place,
                    &self.length(result.free_fall_m, Rounding::Up),
                    &self.force(result.arrest_force_max_n),
                    &format::time(result.time_lowest_s),
                    &self.length(self.soles_lowest_m(i, result), Rounding::Up),
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
}
