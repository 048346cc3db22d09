//! The answer in words: sentence, methods side by side, doubts. What stands beside the drop is in
//! `drop.rs`.
//!
//! No sentence gives permission: it says what the calculation found and what it did not.

use footroom_core::anywhere::Anywhere;
use footroom_core::assess::Assessment;
use footroom_core::case::Case;
use footroom_core::nearby::{self, Nearby};
use footroom_core::solve::{Doubt, Method, Outcome, WorkerOutcome};
use footroom_core::standing::Mark;

use crate::first::governing::{self, GoverningRun, GoverningStack};
use crate::first::lines;
use crate::first::outside_checked;
use crate::first::view::{Answer, FootroomKind, Table};
use crate::first::whole_steps::{ABSORBER, LINE, MARGIN, ShownStack, TOLERANCE};
use crate::order::sort_numbers;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding, Units};
use crate::say::names::inline_extension_name;

/// What of a crew's footroom the page says it cannot promise, m: nine draws in ten of the small
/// differences within a crew lie closer together (`tests/crew.rs`), and nobody has measured what
/// webbing and bodies take out of a rebound.
const UNPROMISED_M: f64 = 0.1;

/// Stands where no number can be given.
pub const DASH: &str = "—";

/// A case with its assessment, and the voice to tell of it.
#[derive(Clone, Copy)]
pub struct Told<'a> {
    /// Language and units.
    pub voice: Voice,
    /// The case.
    pub case: &'a Case,
    /// Its assessment.
    pub assessment: &'a Assessment,
    /// The fall with the inputs as given: the one that is played.
    pub outcome: &'a Outcome,
    /// The worst anywhere on the line; `None`: it is still looked for.
    pub anywhere: Option<&'a Anywhere>,
}

/// The answer when nothing has been computed.
pub fn not_computed(voice: Voice) -> Answer {
    let t = voice.texts();
    Answer {
        number: DASH.to_owned(),
        word: t.word_unknown.to_owned(),
        kind: FootroomKind::Unknown,
        mark: lines::mark_key(Mark::Unknown),
        headline: t.word_unknown.to_owned(),
        lines: Vec::new(),
        sentence: (t.say.cannot_say)(t.not_computed),
        detail: String::new(),
        doubts: Vec::new(),
    }
}

/// The answer under a link that could not be read: none, rather than that of another case.
pub fn link_unread(voice: Voice) -> Answer {
    Answer {
        sentence: voice.texts().link_no_result.to_owned(),
        ..not_computed(voice)
    }
}

/// First letter in capitals.
pub(super) fn capital(text: &str) -> String {
    let mut out = text.to_owned();
    // No sentence here begins with an accented letter; the library's tables of all capitals would
    // weigh more than the rest of this file.
    if let Some(first) = out.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    out
}

/// First letter in capitals and a full stop at the end.
pub(crate) fn sentence(text: &str) -> String {
    let mut out = capital(text);
    if !out.ends_with('.') {
        out.push('.');
    }
    out
}

impl<'a> Told<'a> {
    /// Tells of an assessed case.
    pub fn of(voice: Voice, case: &'a Case, assessment: &'a Assessment) -> Self {
        Self {
            voice,
            case,
            assessment,
            outcome: &assessment.nominal,
            anywhere: None,
        }
    }

    /// The same with the worst anywhere on the line, once that is known.
    pub fn with_anywhere(self, anywhere: Option<&'a Anywhere>) -> Self {
        Self { anywhere, ..self }
    }
}

impl Told<'_> {
    pub(super) fn units(&self) -> Units {
        self.voice.units
    }

    pub(super) fn length(&self, metres: f64, rounding: Rounding) -> String {
        format::length_rounded(self.units(), metres, rounding)
    }

    /// A force asked of people or gear.
    pub fn force(&self, newtons: f64) -> String {
        format::force(self.units(), newtons)
    }

    /// The worker with the least footroom over all tolerance corners, counted from 0.
    pub fn focus(&self) -> usize {
        self.assessment.footroom.worker
    }

    pub(super) fn governing_worker(&self) -> Option<&WorkerOutcome> {
        self.outcome.workers.get(self.focus())
    }

    pub(super) fn governing(&self) -> Option<GoverningStack> {
        GoverningStack::of(self.assessment)
    }

    /// The answered stack as it is shown.
    pub(super) fn shown(&self, governing: &GoverningStack) -> ShownStack {
        ShownStack::with(self.units(), &governing.stack, governing.tolerance_m)
    }

    pub(super) fn worker(&self, index: usize) -> String {
        (self.voice.texts().say.worker)(index + 1)
    }

    /// The governing worker as a label.
    pub fn worker_label(&self) -> String {
        (self.voice.texts().say.worker_label)(self.focus() + 1)
    }

    /// Whether no number can be given.
    pub fn is_unknown(&self) -> bool {
        self.assessment.answer().is_err() || self.governing_worker().is_none()
    }

    /// The answer in words and numbers.
    pub fn answer(&self) -> Answer {
        let t = self.voice.texts();
        let doubts = self.outcome.doubts.iter().map(|d| sentence(&self.doubt(d)));
        let mut doubts: Vec<String> = doubts.collect();
        let Some(governing) = self.governing() else {
            return not_computed(self.voice);
        };
        doubts.extend(self.doubts_of_corners().iter().map(|d| sentence(d)));
        doubts.extend(self.swings().iter().map(|s| sentence(s)));
        doubts.extend(
            outside_checked::outside(self.voice, &self.outcome.outside_checked)
                .map(|s| sentence(&s)),
        );
        let lines = self.lines();
        let mut answer = Answer {
            number: DASH.to_owned(),
            word: t.word_unknown.to_owned(),
            kind: FootroomKind::Unknown,
            mark: lines::mark_key(lines.mark),
            headline: self.headline(),
            lines: lines.lines,
            sentence: String::new(),
            detail: String::new(),
            doubts,
        };
        if self.is_unknown() {
            let because = self.assessment.decisive_doubt().map(|d| self.doubt(d));
            answer.sentence = (t.say.cannot_say)(because.as_deref().unwrap_or(t.not_computed));
            answer.detail = self.who_falls(true);
            return answer;
        }
        let shown = self.shown(&governing);
        let worker = self.worker(governing.worker);
        let short = shown.footroom < 0;
        answer.number = shown.footroom_text();
        (answer.kind, answer.word) = if short {
            (FootroomKind::Short, t.word_short.to_owned())
        } else {
            (FootroomKind::Spare, t.word_spare.to_owned())
        };
        answer.sentence = if short {
            (t.say.short)(
                &answer.number,
                &worker,
                &shown.text(shown.required),
                &shown.text(shown.available),
            )
        } else {
            (t.say.spare)(&answer.number, &worker, &shown.text(shown.parts[MARGIN]))
        };
        if !self.assessment.whole {
            answer.detail = t.first_answer.to_owned();
            return answer;
        }
        // In view beside the number: what a lack of room means, and a doubt as large as the room.
        let mut detail: Vec<String> = self.lack(&shown).into_iter().collect();
        detail.push(self.who_falls(true));
        detail.push([&self.side(&governing), "."].concat());
        if !short && governing.beyond_m > 0.0 && self.assessment.footroom.value < UNPROMISED_M {
            detail.push(self.crew_last());
        }
        answer.detail = detail.join(" ");
        answer
    }

    /// What a lack of room means for the feet; `None`: there is room.
    fn lack(&self, shown: &ShownStack) -> Option<String> {
        let t = self.voice.texts();
        let margin = shown.parts[MARGIN];
        let clear = shown.footroom + margin;
        (shown.footroom < 0).then(|| {
            if clear > 0 {
                (t.say.margin_not_kept)(&shown.text(clear), &shown.text(margin))
            } else if clear == 0 {
                t.soles_touch.to_owned()
            } else {
                (t.say.soles_too_low)(&shown.text(-clear))
            }
        })
    }

    /// How the number comes about, in full: what a lack of room means, who falls, which tolerance
    /// corner governs; what differences within the crew add. Of these the answer shows the short.
    fn reasons_of_run(&self) -> Vec<String> {
        let Some(governing) = self.governing().filter(|_| !self.is_unknown()) else {
            return vec![self.who_falls(false)];
        };
        let mut run: Vec<String> = self.lack(&self.shown(&governing)).into_iter().collect();
        run.push(self.who_falls(false));
        run.push(self.corner(&governing));
        let mut parts = vec![run.join(" ")];
        let crew = self.crew(&governing).join(" ");
        if !crew.is_empty() {
            parts.push(crew);
        }
        parts
    }

    /// How the number comes about, in full, with the method that governs: for sheets.
    pub fn reasons(&self) -> String {
        let mut parts = self.reasons_of_run();
        if !self.is_unknown() {
            parts.push(self.why_methods_differ(false));
        }
        parts.join(" ")
    }

    /// Which tolerance corner governs, without the full stop.
    fn side(&self, governing: &GoverningStack) -> String {
        let t = self.voice.texts();
        match governing.run {
            GoverningRun::Given => t.given_governs.to_owned(),
            GoverningRun::Undamped => t.undamped_governs.to_owned(),
            from => (t.say.corner_governs)(from.name(t)),
        }
    }

    /// Which tolerance corner governs, what it takes, and how much more it asks for as shown.
    fn corner(&self, governing: &GoverningStack) -> String {
        let (t, o) = (self.voice.texts(), self.voice.office());
        let shown = self.shown(governing);
        let more = shown.text(shown.parts[TOLERANCE]);
        let more = match governing.run {
            GoverningRun::Given => return o.nominal_governs.to_owned(),
            GoverningRun::Undamped => (o.say.undamped_more)(&more),
            from => (o.say.corner_takes)(&more, &from.taken(t, self.case)),
        };
        [self.side(governing), more].concat()
    }

    /// What of a crew's footroom cannot be promised.
    fn crew_last(&self) -> String {
        let size = self.length(UNPROMISED_M, Rounding::Nearest);
        (self.voice.texts().say.crew_last)(&size)
    }

    /// What small differences within the crew have to do with the answer; nothing for one who falls
    /// alone.
    fn crew(&self, governing: &GoverningStack) -> Vec<String> {
        let o = self.voice.office();
        if governing.beyond_m == 0.0 {
            return Vec::new();
        }
        let later = |s| format::time(s);
        let heavier = format::mass(self.units(), nearby::HEAVIER_KG);
        let run = governing.nearby.map(|nearby| match nearby {
            Nearby::One { worker } => {
                (o.say.crew_one)(&self.worker(worker), &later(nearby::LATE_S), &heavier)
            }
            Nearby::All => (o.say.crew_all)(&later(nearby::LATEST_S), &heavier),
            Nearby::Others { worker } => {
                (o.say.crew_others)(&self.worker(worker), &later(nearby::LATE_S), &heavier)
            }
        });
        let size = |m| self.length(m, Rounding::Nearest);
        run.into_iter()
            .chain([
                (o.say.crew_beyond)(&size(governing.beyond_m)),
                self.crew_last(),
            ])
            .collect()
    }

    /// The line tension over all corners, with its band from damping and by the other method.
    fn tension(&self) -> String {
        let (t, o) = (self.voice.texts(), self.voice.office());
        let band = &self.assessment.band;
        let from = governing::tension_from(self.assessment);
        let taken = from.taken(t, self.case);
        let corner = if taken.is_empty() {
            from.name(t).to_owned()
        } else {
            (t.say.corner_list)(from.name(t), &taken)
        };
        (o.say.tension_range)(
            &self.force(self.assessment.tension_max.value),
            &corner,
            &self.force(band.tension_max_n.least),
            &self.force(band.tension_max_n.greatest),
            &self.force(band.tension_balance_n),
        )
    }

    /// What happens in a tolerance corner but not with the inputs as given.
    fn doubts_of_corners(&self) -> Vec<String> {
        let t = self.voice.texts();
        let given = |is: fn(&Doubt) -> bool| self.outcome.doubts.iter().any(is);
        let mut said = Vec::new();
        if !given(|d| matches!(d, Doubt::AbsorberUsedUp { .. })) {
            let assessment = self.assessment;
            let corner =
                (assessment.corners.iter().chain(&assessment.nearby)).find(|c| c.absorber_used_up);
            said.extend(corner.map(|c| {
                let name = match c.corner {
                    footroom_core::corner::Corner::Nominal => t.corner_nominal,
                    footroom_core::corner::Corner::Soft => t.corner_soft,
                    footroom_core::corner::Corner::Stiff => t.corner_stiff,
                    footroom_core::corner::Corner::Mixed => t.corner_mixed,
                };
                (t.say.corner_used_up)(name)
            }));
        }
        for demand in self.assessment.demands.workers.iter().filter(|w| w.contact) {
            let told =
                self.outcome.doubts.iter().any(
                    |d| matches!(d, Doubt::Strikes { worker, .. } if *worker == demand.worker),
                );
            if !told {
                said.push((t.say.corner_contact)(&self.worker(demand.worker)));
            }
        }
        said
    }

    /// Who hits what is below in a computed motion, the worker with the least footroom first, and
    /// what is said of it; `None`: nobody does. True beside it: only with the tolerances.
    pub fn hit(&self) -> Option<(usize, bool, String)> {
        let strikes = |worker: usize| {
            let mut doubts = self.outcome.doubts.iter();
            let is = |d: &&Doubt| matches!(d, Doubt::Strikes { worker: w, .. } if *w == worker);
            doubts.find(is).map(|d| (worker, false, self.doubt(d)))
        };
        let demands = &self.assessment.demands.workers;
        let contact = |worker: usize| {
            demands
                .iter()
                .any(|d| d.worker == worker && d.contact)
                .then(|| {
                    let said = self.voice.texts().say.corner_contact;
                    (worker, true, said(&self.worker(worker)))
                })
        };
        let all = || core::iter::once(self.focus()).chain(0..self.case.workers.len());
        all().find_map(strikes).or_else(|| all().find_map(contact))
    }

    /// Swing falls, and gear over the edge.
    fn swings(&self) -> Vec<String> {
        let say = &self.voice.texts().say;
        let mut said = Vec::new();
        for (i, worker) in self.outcome.workers.iter().enumerate() {
            let Some(swing) = worker.swing.filter(|_| worker.fell) else {
                continue;
            };
            let up = |m| self.length(m, Rounding::Up);
            said.push((say.swing)(
                &self.worker(i),
                &up(swing.offset_m),
                &up(swing.drop_m),
            ));
            if let Some(reach_m) = worker.standing_reach_m.filter(|_| swing.beyond_reach) {
                said.push((say.beyond_reach)(
                    &self.worker(i),
                    &up(swing.offset_m),
                    &self.length(reach_m, Rounding::Down),
                ));
            }
            if swing.edge_contact {
                said.push((say.edge_contact)(&self.worker(i)));
            }
            if swing.edge_slide_m > 0.0 {
                said.push((say.edge_slide)(&self.worker(i), &up(swing.edge_slide_m)));
            }
            if swing.line_on_edge {
                said.push((say.line_on_edge)(&self.worker(i)));
            }
        }
        said
    }

    pub(super) fn doubt(&self, doubt: &Doubt) -> String {
        let t = self.voice.texts();
        match *doubt {
            Doubt::BeyondBreaking {
                tension_n,
                breaking_force_n,
            } => {
                let say = if self.outcome.history.tension_max_n > breaking_force_n {
                    t.say.beyond_breaking
                } else {
                    t.say.corner_breaks
                };
                say(
                    &self.force(tension_n),
                    &format::force_rounded(self.units(), breaking_force_n, Rounding::Down),
                )
            }
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
                &format::time(time_s),
                &format::speed(self.units(), speed_m_per_s),
            ),
            Doubt::LedgerOpen { residual_ratio } => (t.say.ledger_open)(&format::number_rounded(
                100.0 * residual_ratio,
                1,
                Rounding::Up,
            )),
            Doubt::NotFinished { worker } => {
                let most = footroom_core::field::find("motion.duration_s").map(|field| field.max);
                let longest = most.is_some_and(|s| self.case.motion.duration_s >= s);
                (t.say.not_finished)(&self.worker(worker), longest)
            }
            Doubt::RetractingBelowDring {
                worker,
                dring_above_m,
                free_fall_m,
            } => (t.say.retracting_below)(
                &self.worker(worker),
                &self.length(dring_above_m, Rounding::Up),
                &self.length(free_fall_m, Rounding::Up),
            ),
            Doubt::FreeFallRaised {
                worker,
                given_m,
                free_fall_m,
            } => (t.say.free_fall_raised)(
                &self.worker(worker),
                &self.length(given_m, Rounding::Nearest),
                &self.length(free_fall_m, Rounding::Up),
            ),
            Doubt::SwingsBelowStack {
                worker,
                below_stack_m,
            } => (t.say.swings_below_stack)(
                &self.worker(worker),
                &self.length(below_stack_m, Rounding::Up),
            ),
            // A doubt that the core has learnt since.
            _ => t.doubt_other.to_owned(),
        }
    }

    /// Who falls, and, unless `brief`, when.
    pub(crate) fn who_falls(&self, brief: bool) -> String {
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
                let mut said = (t.say.fall_in_turn)(falling, all);
                if brief {
                    said.push('.');
                } else {
                    let times: Vec<String> = times.iter().map(|&s| format::time(s)).collect();
                    said.push_str(&(t.say.fall_at)(&times.join(", "), falling < all));
                }
                said
            }
        }
    }

    /// Which method asks for more, by how much as shown, and why; `in_full`: beside the two methods'
    /// numbers, where there is room.
    fn why_methods_differ(&self, in_full: bool) -> String {
        let o = self.voice.office();
        let Some(governing) = self.governing_worker() else {
            return String::new();
        };
        let balance = ShownStack::of(self.units(), &governing.balance_stack);
        let history = ShownStack::of(self.units(), &governing.history_stack);
        let more = history.required - balance.required;
        if more == 0 {
            return (o.say.methods_agree)(&history.text(1));
        }
        let amount = history.text(more.abs());
        match governing.method {
            Method::TimeHistory => {
                let later_s = governing.time_lowest_s;
                let deflects = history.parts[LINE] - balance.parts[LINE];
                let pays_out = history.parts[ABSORBER] - balance.parts[ABSORBER];
                let why = if deflects >= pays_out {
                    let rope_kg = self.outcome.rest.unstretched_length_m
                        * self.case.line.rope.mass_per_length_kg_per_m;
                    let rope = format::mass(self.units(), rope_kg);
                    (o.say.why_overshoot)(&rope)
                } else if later_s > governing.time_first_lowest_s {
                    let why = (o.say.why_rebound)(&format::time(later_s));
                    if in_full {
                        [why.as_str(), o.why_rebound_more].concat()
                    } else {
                        why
                    }
                } else {
                    o.why_absorber.to_owned()
                };
                (o.say.history_governs)(&amount, &why)
            }
            Method::EnergyBalance => {
                let mut times = self.case.workers.iter().filter_map(|w| w.fall_time_s);
                let first = times.next();
                let staggered = times.any(|s| Some(s) != first);
                let why = if staggered {
                    o.why_balance_staggered
                } else {
                    o.why_balance
                };
                (o.say.balance_governs)(&amount, why)
            }
        }
    }

    /// The two methods side by side for the governing worker.
    pub fn methods(&self) -> Table {
        let t = self.voice.texts();
        let i = self.focus();
        let Some(governing) = self.governing_worker() else {
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
        let tension_n = self.outcome.history.tension_max_n;
        let mut rows = vec![
            row(
                t.line_deflection,
                balance.text(balance.parts[LINE]),
                history.text(history.parts[LINE]),
            ),
            row(
                t.absorber_extension,
                balance.text(balance.parts[ABSORBER]),
                history.text(history.parts[ABSORBER]),
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
                self.force(tension_n),
            ),
        ];
        if let Some(absorber) = self.case.line.inline_absorber {
            rows.push(row(
                inline_extension_name(t, absorber.place),
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
            // Its sentences come with the views.
            note: String::new(),
        }
    }

    /// Beside the two methods: why they differ, and how the number comes about, a paragraph a line.
    pub fn methods_note(&self) -> String {
        let mut parts = self.reasons_of_run();
        if !self.is_unknown() {
            parts.insert(0, [self.why_methods_differ(true), self.tension()].join(" "));
        }
        parts.join("\n")
    }

    /// Model version and fingerprint, in groups of four digits.
    pub fn model(&self) -> String {
        let digits = fingerprint_text(governing::fingerprint(self.assessment));
        let groups: Vec<&str> = (0..4)
            .filter_map(|i| digits.get(4 * i..4 * i + 4))
            .collect();
        (self.voice.texts().say.model)(self.outcome.model_version, &groups.join(" "))
    }

    /// The greatest tension at which the rope keeps the required ratio of strength to load, N.
    pub fn tension_limit_n(&self) -> Option<f64> {
        let breaking = self.case.line.rope.breaking_force_n;
        breaking.map(|n| n / self.case.strengths.required_ratio)
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
    use crate::first::view::StackRow;
    use crate::say::format::Lang;
    use footroom_core::assess::assess;
    use footroom_core::case::{GearKind, InlineAbsorber, Tolerances};
    use footroom_core::corner::Corner;
    use footroom_core::demo::demo;
    use footroom_core::solve::Options;

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

    fn outcome(case: &Case) -> Assessment {
        let options = Options {
            traces: true,
            ..Options::default()
        };
        assess(case, options).expect("a case without faults")
    }

    fn told<'a>(case: &'a Case, assessment: &'a Assessment) -> Told<'a> {
        Told::of(VOICES[0], case, assessment)
    }

    /// Moves the footroom of the governing worker, sum kept; no corner asks for more.
    fn with_footroom(mut assessment: Assessment, footroom_m: f64) -> Assessment {
        let outcome = &mut assessment.nominal;
        let i = outcome.governing_worker;
        let stack = &mut outcome.workers[i].stack;
        stack.available_m = stack.required_m + footroom_m;
        stack.footroom_m = footroom_m;
        outcome.footroom_m = footroom_m;
        outcome.doubts.clear();
        assessment.footroom.worker = i;
        assessment.footroom.value = footroom_m;
        assessment.footroom.corner = Corner::Nominal;
        assessment.footroom.undamped = false;
        assessment.footroom.nearby = None;
        assessment.beyond_m = 0.0;
        assessment
    }

    #[test]
    fn words_for_spare_and_short() {
        let case = demo();
        let base = outcome(&case);
        let spare = with_footroom(base.clone(), 0.849);
        let answer = told(&case, &spare).answer();
        assert_eq!(
            (answer.kind, answer.number.as_str()),
            (FootroomKind::Spare, "0.84 m")
        );
        assert!(
            answer.sentence.starts_with("0.84 m to spare under worker "),
            "{}",
            answer.sentence
        );
        let short = with_footroom(base.clone(), -0.301);
        let answer = told(&case, &short).answer();
        assert_eq!(
            (answer.kind, answer.number.as_str()),
            (FootroomKind::Short, "0.31 m")
        );
        assert!(
            answer.sentence.starts_with("Short by 0.31 m: worker "),
            "{}",
            answer.sentence
        );
        // The margin is 1 m: the feet stop clear of the lower level, and the answer is still no.
        assert!(
            answer.detail.contains("less than the 1.00 m margin"),
            "{}",
            answer.detail
        );
        let deep = with_footroom(base, -1.5);
        let answer = told(&case, &deep).answer();
        assert!(answer.detail.contains("hits the lower level") && answer.detail.contains("0.50 m"));
        // To touch it is to hit it.
        let touch = with_footroom(outcome(&case), -1.0);
        for voice in VOICES {
            let t = voice.texts();
            let answer = Told::of(voice, &case, &touch).answer();
            if voice.units == Units::Metric {
                assert!(
                    answer.detail.starts_with(t.soles_touch),
                    "{}",
                    answer.detail
                );
            }
            assert!(!answer.detail.contains("0.00"), "{}", answer.detail);
        }
    }

    #[test]
    fn the_shown_stack_adds_up_in_every_voice() {
        let mut cases = vec![demo(), demo(), demo()];
        cases[1].allowance.clearance_ratio = 0.15;
        cases[1].tolerances.mass_ratio = 0.1;
        cases[2].tolerances = Tolerances {
            mass_ratio: 0.0,
            absorber_force_ratio: 0.0,
            pretension_ratio: 0.0,
            axial_stiffness_ratio: 0.0,
            end_stiffness_ratio: 0.0,
            inline_force_ratio: 0.0,
        };
        for case in &cases {
            let assessment = outcome(case);
            for voice in VOICES {
                let told = Told::of(voice, case, &assessment);
                let rows = told.stack();
                let steps = |row: &StackRow| {
                    let metres = crate::say::typed::parse(
                        footroom_core::field::Quantity::Length,
                        voice.units,
                        &row.value,
                    )
                    .expect("shown length");
                    format::length_steps(voice.units, metres, Rounding::Nearest)
                };
                let (parts, totals) = rows.split_at(rows.len() - 3);
                assert_eq!(parts.iter().map(steps).sum::<i64>(), steps(&totals[0]));
                assert_eq!(
                    steps(&totals[1]) - steps(&totals[0]),
                    steps(&totals[2]),
                    "{rows:?}"
                );
                let total: f64 = parts.iter().fold(0.0, |sum, row| sum + row.length_m);
                assert_eq!(total.to_bits(), totals[0].length_m.to_bits());
                let allowed = case.allowance.clearance_ratio > 0.0;
                assert_eq!(rows.iter().any(|r| r.key == "allowance"), allowed);
                // The big number is the last row.
                let answer = told.answer();
                if answer.kind != FootroomKind::Unknown {
                    assert_eq!(totals[2].value.trim_start_matches('-'), answer.number);
                    assert_eq!(totals[2].length_m, assessment.footroom.value);
                }
            }
        }
    }

    #[test]
    fn the_corner_that_governs_is_named_with_what_it_takes() {
        let mut case = demo();
        case.tolerances.mass_ratio = 0.1;
        case.tolerances.absorber_force_ratio = 0.1;
        let assessment = outcome(&case);
        let reasons = told(&case, &assessment).reasons();
        let expected = "The soft side of the tolerances governs (weaker absorbers, stretchier rope, \
             more flexible ends, less pretension, heavier workers)";
        assert!(reasons.contains(expected), "{reasons}");
        let rows = told(&case, &assessment).stack();
        let row = rows.iter().find(|r| r.key == "tolerance").expect("row");
        assert_eq!(row.label, "tolerances and crew");
        let more = format!(": {} more than the inputs as entered", row.value);
        assert!(reasons.contains(&more), "{reasons}");
        let tension = format!(
            "Line tension up to {}",
            format::force(Units::Metric, assessment.tension_max.value)
        );
        let note = told(&case, &assessment).methods_note();
        assert!(note.contains(&tension), "{note}");
        // Who falls alone has no crew's differences.
        let mut alone = case.clone();
        alone.workers.truncate(1);
        let one = outcome(&alone);
        let rows = told(&alone, &one).stack();
        let row = rows.iter().find(|r| r.key == "tolerance").expect("row");
        assert_eq!(row.label, "tolerances, soft side");
        // Where the inputs as given govern, that is said, and no row stands for nothing.
        let given = with_footroom(assessment, 0.3);
        let reasons = told(&case, &given).reasons();
        assert!(reasons.contains("The tolerances add nothing"));
        let rows = told(&case, &given).stack();
        assert!(rows.iter().all(|r| r.key != "tolerance"));
    }

    /// Under the number stands a line for a phone, which fall and which side governs; all that brought
    /// the number about stands with the two methods and on sheets.
    #[test]
    fn the_reasons_are_a_short_line_and_in_full_with_the_methods() {
        let mut turn = demo();
        for (worker, fall_s) in turn.workers.iter_mut().zip([Some(0.0), Some(0.4), None]) {
            worker.fall_time_s = fall_s;
        }
        for (case, at) in [(demo(), ""), (turn, "0.40 s")] {
            for run in [
                (Corner::Nominal, false),
                (Corner::Nominal, true),
                (Corner::Soft, false),
                (Corner::Stiff, false),
                (Corner::Mixed, false),
            ] {
                let mut assessment = with_footroom(outcome(&case), 0.3);
                (assessment.footroom.corner, assessment.footroom.undamped) = run;
                assessment.beyond_m = 0.02;
                assessment.footroom.nearby = Some(Nearby::All);
                for voice in VOICES {
                    let (t, told) = (voice.texts(), Told::of(voice, &case, &assessment));
                    let line = told.answer().detail;
                    let most = if voice.lang == Lang::En { 90 } else { 110 };
                    assert!(
                        line.chars().count() <= most && !line.contains('('),
                        "{line}"
                    );
                    let governing = told.governing().expect("a worker");
                    let crew = told.crew(&governing);
                    assert_eq!(crew.len(), 3);
                    let (note, sheet) = (told.methods_note(), told.reasons());
                    for text in [&note, &sheet] {
                        assert!(text.contains(at), "{text}");
                        for part in [told.who_falls(false), told.corner(&governing)]
                            .iter()
                            .chain(&crew)
                            .chain([&told.why_methods_differ(false)])
                        {
                            assert!(text.contains(part.trim_end_matches('.')), "{part}: {text}");
                        }
                    }
                    assert!(note.contains(&told.tension()), "{note}");
                    assert!(note.lines().count() == 3 && !sheet.contains('\n'), "{note}");
                    // Where the doubt within a crew is larger than the room, it stays in view.
                    let last = (t.say.crew_last)(&told.length(UNPROMISED_M, Rounding::Nearest));
                    assert!(!line.contains(&last), "{line}");
                    let mut little = assessment.clone();
                    little.footroom.value = 0.05;
                    let line = Told::of(voice, &case, &little).answer().detail;
                    assert!(line.ends_with(&last), "{line}");
                }
            }
            // A lack of room stands in view, and in full with the rest.
            let short = with_footroom(outcome(&case), -1.5);
            for voice in VOICES {
                let told = Told::of(voice, &case, &short);
                let lack = told.lack(&told.shown(&told.governing().expect("a worker")));
                let lack = lack.expect("no room");
                for text in [told.answer().detail, told.methods_note(), told.reasons()] {
                    assert!(text.contains(&lack), "{text}");
                }
            }
        }
    }

    #[test]
    fn what_only_a_corner_does_is_told() {
        let case = demo();
        let mut assessment = with_footroom(outcome(&case), 0.3);
        for corner in &mut assessment.corners {
            corner.absorber_used_up = false;
        }
        for worker in &mut assessment.demands.workers {
            worker.contact = false;
        }
        let doubts = |a: &Assessment| told(&case, a).answer().doubts;
        assert_eq!(doubts(&assessment), Vec::<String>::new());
        assessment.corners[1].absorber_used_up = true;
        assessment.demands.workers[1].contact = true;
        let said = doubts(&assessment);
        assert!(said[0].contains("soft side") && said[0].contains("fully deployed"));
        assert!(said[1].contains("worker 2 hits"), "{}", said[1]);
    }

    /// The footroom is the least of all corners: where the line breaks in one, there is none.
    #[test]
    fn a_line_that_breaks_in_a_corner_only_takes_the_number_away() {
        let mut case = demo();
        let whole = outcome(&case);
        let given_n = whole.nominal.history.tension_max_n;
        case.line.rope.breaking_force_n = Some(0.5 * (given_n + whole.demands.tension_max_n));
        let assessment = outcome(&case);
        for voice in VOICES {
            let answer = Told::of(voice, &case, &assessment).answer();
            assert_eq!(
                (answer.kind, answer.number.as_str()),
                (FootroomKind::Unknown, DASH)
            );
        }
        let said = told(&case, &assessment).answer().sentence;
        assert!(
            said.contains("with the tolerances the rope would break"),
            "{said}"
        );
    }

    #[test]
    fn a_worker_beside_his_connector_swings() {
        let mut case = demo();
        case.workers[1].offset_along_m = 0.8;
        case.workers[1].edge_distance_m = 0.4;
        let assessment = outcome(&case);
        let answer = told(&case, &assessment).answer();
        let said = answer.doubts.join(" ");
        assert!(said.contains("worker 2 goes over 0.90 m away"), "{said}");
        assert!(
            said.contains("Worker 2's lanyard or SRL bears on the beam edge"),
            "{said}"
        );
        assert!(said.contains("the gear drags 0."), "{said}");
        assert!(!said.contains("only reaches"), "{said}");
        case.workers[1].offset_along_m = 1.9;
        let assessment = outcome(&case);
        let said = told(&case, &assessment).answer().doubts.join(" ");
        assert!(
            said.contains("Worker 2 stands 1.95 m from the connector")
                && said.contains("only reaches 1.79 m"),
            "{said}"
        );
    }

    /// An old link may have a free fall that the geometry does not allow: it opens, and says so.
    #[test]
    fn gear_clipped_below_the_dring_is_told_beside_the_number() {
        let mut case = demo();
        case.line.height_above_beam_m = 0.5;
        case.workers[1].gear.kind = GearKind::SelfRetracting;
        case.workers[2].gear.free_fall_m = Some(0.4);
        let link = crate::wire::link::encode(&crate::wire::link::Shared {
            model: 5,
            fingerprint: "0123456789abcdef".to_owned(),
            footroom_m: 0.2,
            required_m: 6.0,
            case: case.clone(),
        });
        let mut desk = crate::first::desk::Desk::new(VOICES[0].lang, VOICES[0].units);
        assert_eq!(desk.open_link(&link.expect("a link")), Ok(()));
        assert_eq!(desk.case(), &case);
        let assessment = outcome(&case);
        for voice in VOICES {
            let told = Told::of(voice, &case, &assessment);
            let answer = told.answer();
            assert_ne!(answer.kind, FootroomKind::Unknown);
            let free_fall = |i: usize| {
                let free_fall_m = assessment.nominal.workers[i].free_fall_m;
                format::length_rounded(voice.units, free_fall_m, Rounding::Up)
            };
            let given = format::length_rounded(voice.units, 0.4, Rounding::Nearest);
            for (i, needle) in [(1, "D-ring"), (1, "anillo D"), (2, given.as_str())] {
                let there =
                    (answer.doubts.iter()).any(|d| d.contains(needle) && d.contains(&free_fall(i)));
                let other = needle == "D-ring" && voice.lang == format::Lang::Es
                    || needle == "anillo D" && voice.lang == format::Lang::En;
                assert!(there != other, "{needle} {:?}", answer.doubts);
            }
        }
    }

    #[test]
    fn a_swing_deeper_than_the_stack_takes_the_number_away() {
        let mut case = demo();
        case.workers[1].gear.kind = GearKind::SelfRetracting;
        case.workers[1].offset_along_m = 0.8;
        let assessment = outcome(&case);
        for voice in VOICES {
            let answer = Told::of(voice, &case, &assessment).answer();
            assert_eq!(
                (answer.kind, answer.number.as_str()),
                (FootroomKind::Unknown, DASH)
            );
        }
        let below_stack_m = assessment
            .nominal
            .doubts
            .iter()
            .find_map(|doubt| match doubt {
                Doubt::SwingsBelowStack { below_stack_m, .. } => Some(*below_stack_m),
                _ => None,
            });
        let length = format::length_rounded(
            Units::Metric,
            below_stack_m.expect("the doubt"),
            Rounding::Up,
        );
        let said = told(&case, &assessment).answer().sentence;
        assert!(said.contains(&format!("{length} deeper")), "{said}");
    }

    #[test]
    fn blocking_doubts_take_the_number_away() {
        let case = demo();
        let base = with_footroom(outcome(&case), 0.849);
        let blocking = [
            Doubt::BeyondBreaking {
                tension_n: 70_000.0,
                breaking_force_n: 64_000.0,
            },
            Doubt::TooSteep {
                slope: 0.93,
                slope_max: 0.8,
            },
            Doubt::LedgerOpen {
                residual_ratio: 0.02,
            },
            Doubt::NotFinished { worker: 1 },
        ];
        for doubt in blocking {
            let mut outcome = base.clone();
            outcome.nominal.doubts = vec![
                Doubt::AbsorberUsedUp {
                    worker: 0,
                    arrest_force_n: 9_000.0,
                },
                doubt,
            ];
            for voice in VOICES {
                let told = Told::of(voice, &case, &outcome);
                let answer = told.answer();
                assert_eq!(
                    (answer.kind, answer.number.as_str()),
                    (FootroomKind::Unknown, DASH)
                );
                assert_eq!(answer.doubts.len(), 2);
                let texts = [answer.sentence, answer.detail, told.description()].join(" ");
                let rows = told.stack();
                // Neither the sentence nor the rows give away a footroom.
                let [.., required, _, footroom] = rows.as_slice() else {
                    panic!("{rows:?}");
                };
                assert_eq!(
                    (required.value.as_str(), footroom.value.as_str()),
                    (DASH, DASH)
                );
                let footroom = told.shown(&told.governing().expect("a worker"));
                assert!(!texts.contains(&footroom.footroom_text()), "{texts}");
            }
        }
    }

    /// Nobody is told to simulate longer than can be simulated.
    #[test]
    fn who_goes_down_to_the_longest_time_is_not_told_to_take_a_longer_one() {
        let mut case = demo();
        let mut outcome = with_footroom(outcome(&case), 0.849);
        outcome.nominal.doubts = vec![Doubt::NotFinished { worker: 1 }];
        for voice in VOICES {
            let (longer, known) = match voice.lang {
                Lang::En => ("increase the simulated time", "is not known"),
                Lang::Es => ("aumente el tiempo simulado", "no se sabe"),
            };
            for (duration_s, at_most) in [(9.99, false), (10.0, true)] {
                case.motion.duration_s = duration_s;
                let answer = Told::of(voice, &case, &outcome).answer();
                for said in [&answer.sentence, &answer.doubts[0]] {
                    assert_eq!(said.contains(longer), !at_most, "{said}");
                    assert_eq!(said.contains(known), at_most, "{said}");
                }
            }
        }
    }

    /// The scene in words puts the feet where the values at that instant put them, and names a worker as a
    /// sentence does.
    #[test]
    fn the_scene_in_words_gives_the_depth_of_the_readout() {
        let case = demo();
        let assessment = outcome(&case);
        assert!(assessment.nominal.workers[0].stack.allowance_m > 0.0);
        for voice in VOICES {
            let told = Told::of(voice, &case, &assessment);
            let worker = told.focus();
            let lowest_s = assessment.nominal.workers[worker].time_lowest_s;
            let now = crate::first::readout::readout(&told, lowest_s);
            let label = voice.texts().soles_below_line;
            let row = now.rows.iter().find(|row| row.label.starts_with(label));
            let depth = &row.expect("the feet").value;
            let at = format::time(lowest_s);
            let (said, name) = match voice.lang {
                Lang::En => (format!("at {at}, the feet are {depth} below"), "Worker 1, "),
                Lang::Es => (
                    format!("{at}, tiene los pies {depth} bajo"),
                    " El trabajador 1, ",
                ),
            };
            let words = told.description();
            assert!(
                words.contains(&said) && words.contains(name),
                "{said}: {words}"
            );
            assert!(!words.contains("Trabajador"), "{words}");
        }
    }

    /// What follows within the line of the strength begins small.
    #[test]
    fn a_deployed_absorber_is_named_within_a_line() {
        let case = demo();
        let mut outcome = outcome(&case);
        outcome.nominal.doubts = vec![Doubt::AbsorberUsedUp {
            worker: 0,
            arrest_force_n: 9_000.0,
        }];
        let mut standing = told(&case, &outcome).standing();
        standing.absorber_used_up = true;
        for voice in VOICES {
            let line = lines::strength_line(voice, &standing);
            let (_, last) = line
                .text
                .rsplit_once("; ")
                .expect("behind the weakest part");
            assert!(last.starts_with(['a', 'u']), "{}", line.text);
        }
    }

    #[test]
    fn warnings_stand_beside_the_number() {
        let case = demo();
        let mut outcome = with_footroom(outcome(&case), 0.5);
        outcome.nominal.doubts = vec![
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
        assert_eq!(answer.kind, FootroomKind::Spare);
        assert!(answer.doubts[0].starts_with("Worker 1's energy absorber is fully deployed"));
        assert!(answer.doubts[2].contains("worker 3") || answer.doubts[2].contains("Worker 3"));
        assert!(answer.doubts[2].contains("4.3 m/s"), "{}", answer.doubts[2]);
        let spanish = Told::of(VOICES[2], &case, &outcome);
        assert!(spanish.answer().doubts[0].contains("del trabajador 1"));
    }

    #[test]
    fn nothing_said_gives_permission() {
        let mut case = demo();
        for absorber in [None, Some(InlineAbsorber::default())] {
            case.line.inline_absorber = absorber;
            let outcome = outcome(&case);
            for footroom in [-2.0, -0.2, 1.0] {
                let outcome = with_footroom(outcome.clone(), footroom);
                for voice in VOICES {
                    let told = Told::of(voice, &case, &outcome);
                    let answer = told.answer();
                    let mut said = vec![
                        answer.sentence,
                        answer.detail,
                        answer.word,
                        told.description(),
                    ];
                    said.extend(
                        told.checks_brief(&told.checks())
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

    #[test]
    fn the_methods_are_told_apart_with_their_reason() {
        let case = demo();
        let mut outcome = outcome(&case);
        let i = outcome.nominal.governing_worker;
        outcome.footroom.worker = i;
        let worker = &mut outcome.nominal.workers[i];
        worker.method = Method::TimeHistory;
        let lowest_s = worker.time_lowest_s;
        worker.time_first_lowest_s = lowest_s;
        worker.balance_stack = worker.history_stack;
        worker.balance_stack.line_deflection_m -= 0.1;
        worker.balance_stack.required_m -= 0.1;
        let table = told(&case, &outcome).methods();
        let note = told(&case, &outcome).methods_note();
        assert!(
            note.contains("0.10 m more") && note.contains("rope's own mass"),
            "{note}"
        );
        assert!(table.rows.iter().all(|row| row.len() == table.head.len()));
        // The absorber, not the line, makes the difference: at the first stop, then after it.
        let worker = &mut outcome.nominal.workers[i];
        worker.balance_stack.line_deflection_m += 0.1;
        worker.balance_stack.absorber_extension_m -= 0.1;
        let note = told(&case, &outcome).methods_note();
        assert!(note.contains("do not all stop at one instant"), "{note}");
        outcome.nominal.workers[i].time_first_lowest_s = lowest_s - 1.0;
        let note = told(&case, &outcome).methods_note();
        assert!(note.contains("only after a rebound"), "{note}");
        let worker = &mut outcome.nominal.workers[i];
        worker.method = Method::EnergyBalance;
        worker.balance_stack.required_m = worker.history_stack.required_m + 0.1;
        let note = told(&case, &outcome).methods_note();
        assert!(
            note.contains("same instant") && !note.contains("one after another"),
            "{note}"
        );
        let mut staggered = case.clone();
        staggered.workers[1].fall_time_s = Some(0.4);
        let note = told(&staggered, &outcome).methods_note();
        assert!(note.contains("one after another"), "{note}");
        let worker = &mut outcome.nominal.workers[i];
        worker.history_stack.required_m = worker.balance_stack.required_m;
        let note = told(&case, &outcome).methods_note();
        assert!(note.contains("agree within 0.01 m"), "{note}");
    }

    #[test]
    fn marks_are_in_order_and_inside_the_motion() {
        let case = demo();
        let outcome = outcome(&case);
        let traces = outcome.nominal.traces.as_ref().expect("traces");
        let end = traces.interval_s * traces.frames as f64;
        let marks = told(&case, &outcome).marks();
        assert_eq!(marks.len(), 2 * 3 + 1);
        assert!(marks.windows(2).all(|m| m[0].time_s <= m[1].time_s));
        assert!(marks.iter().all(|m| m.time_s >= 0.0 && m.time_s <= end));
        // Free fall of about 1.8 m lasts sqrt(2 h/g) = 0.61 s.
        assert!((marks[0].time_s - 0.61).abs() < 0.02, "{}", marks[0].time_s);
    }
}
