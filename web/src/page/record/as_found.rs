//! The line as it is found, against the line as planned; and what of it goes into the log.

use footroom_core::assess::{Assessment, assess};
use footroom_core::case::Case;
use footroom_core::fault::Fault;
use footroom_core::field::Quantity;
use footroom_core::found::{Depth, Measured, as_found};
use footroom_core::setup::{self, Plan, SwingReading, TensionReading, WeightReading};
use footroom_core::solve::Options;
use footroom_core::support::line_on_posts;
use serde::Serialize;

use crate::first::answer::{DASH, Told};
use crate::first::view::Table;
use crate::page::plan::set_up::{Typed, better_reading, counted, hung, parsed};
use crate::page::record::book::{Compared, LogEntry, trimmed};
use crate::page::record::calendar::is_date;
use crate::say::faults::{self, Voice};
use crate::say::format::{self, Rounding, Units};

/// What was typed on the site; empty texts: as planned, or not read.
#[derive(Clone, Copy, Debug, Default)]
pub struct Site<'a> {
    /// Weight hung from the middle of the span; empty: that of the figures.
    pub weight: &'a str,
    /// How far it moved the line down.
    pub movement: &'a str,
    /// Number of full swings that were timed; empty: that of the figures.
    pub swings: &'a str,
    /// Their time.
    pub time: &'a str,
    /// Temperature of the rope.
    pub temperature: &'a str,
    /// Height of the line above the beam top.
    pub height: &'a str,
    /// Depth from the line down to what is below the worker with the least footroom.
    pub depth: &'a str,
}

/// What was read on the line, each as typed: what the page keeps of it.
#[derive(Clone, Debug, Default)]
pub struct Readings {
    weight: String,
    movement: String,
    swings: String,
    time: String,
    temperature: String,
    height: String,
    depth: String,
}

impl Readings {
    /// Takes what was typed of one: a field of [`Site`] by its name. `None`: there is no such one.
    pub fn take(&mut self, name: &str, text: &str) -> Option<()> {
        let place = match name {
            "weight" => &mut self.weight,
            "movement" => &mut self.movement,
            "swings" => &mut self.swings,
            "time" => &mut self.time,
            "temperature" => &mut self.temperature,
            "height" => &mut self.height,
            "depth" => &mut self.depth,
            _ => return None,
        };
        text.clone_into(place);
        Some(())
    }

    /// Those that the set-up figures are made for.
    pub fn typed(&self) -> Typed<'_> {
        Typed {
            weight: &self.weight,
            swings: &self.swings,
        }
    }

    /// All of them.
    pub fn site(&self) -> Site<'_> {
        Site {
            weight: &self.weight,
            movement: &self.movement,
            swings: &self.swings,
            time: &self.time,
            temperature: &self.temperature,
            height: &self.height,
            depth: &self.depth,
        }
    }
}

/// The line as it is found, in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FoundView {
    /// Planned and found side by side; no rows while nothing was measured.
    pub table: Table,
    /// What today's readings say of the line, in one sentence.
    pub verdict: String,
    /// That the line is not to be used, and why, beside what the verdict says; empty: nothing else
    /// says so.
    pub alert: String,
    /// The answer for the line as it is found.
    pub sentence: String,
    /// What has to stand beside it: what is not met, every warning, how many checks were made.
    pub remarks: Vec<String>,
    /// What else is to be known of the tension that was read.
    pub reading: String,
    /// The tension is outside the tolerance, or the line as it is found is not to be used for
    /// another reason.
    pub outside: bool,
    /// What was typed wrongly.
    pub problems: Vec<FoundProblem>,
    /// Unit of the temperature.
    pub temperature_unit: &'static str,
    /// Unit of the lengths.
    pub length_unit: &'static str,
    /// Which keys a length is typed with, as `inputmode` names them: a keypad has no blank, no slash
    /// and no quotes for feet and inches.
    pub length_keys: &'static str,
}

/// A field that cannot be used as typed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FoundProblem {
    /// `weight`, `movement`, `swings`, `time`, `temperature`, `height`, `depth`, or `all`.
    pub field: &'static str,
    /// What is wrong.
    pub message: String,
}

/// The readings as numbers, with what was wrong.
struct Read {
    weight_n: Option<f64>,
    movement_m: Option<f64>,
    swings: Option<u32>,
    time_s: Option<f64>,
    temperature_k: Option<f64>,
    height_m: Option<f64>,
    depth_m: Option<f64>,
    problems: Vec<FoundProblem>,
}

impl Read {
    fn of(voice: Voice, site: &Site<'_>) -> Self {
        let mut problems = Vec::new();
        let swings = counted(voice, site.swings).and_then(|read| {
            read.map_err(|message| {
                problems.push(FoundProblem {
                    field: "swings",
                    message,
                });
            })
            .ok()
        });
        let mut known = |field, typed: Option<Result<f64, String>>| match typed? {
            Ok(value) => Some(value),
            Err(message) => {
                problems.push(FoundProblem { field, message });
                None
            }
        };
        let weight_n = known("weight", hung(voice, site.weight));
        let mut take = |field, quantity, text| known(field, parsed(voice, quantity, text));
        Self {
            weight_n,
            movement_m: take("movement", Quantity::Length, site.movement),
            swings,
            time_s: take("time", Quantity::Time, site.time),
            temperature_k: take("temperature", Quantity::Temperature, site.temperature),
            height_m: take("height", Quantity::Length, site.height),
            depth_m: take("depth", Quantity::Length, site.depth),
            problems,
        }
    }
}

/// The tension that was read, by the weight where there is a movement, else by the swings.
struct Tension {
    reading: Option<TensionReading>,
    weight_n: Option<f64>,
    swings: Option<u32>,
    /// What would read it better.
    better: String,
}

fn tension(voice: Voice, case: &Case, read: &mut Read) -> Tension {
    let none = Tension {
        reading: None,
        weight_n: None,
        swings: None,
        better: String::new(),
    };
    let plan = Plan::default();
    let (Ok(line), Ok(figures)) = (
        line_on_posts(&case.line, &case.posts),
        setup::set_up(case, &plan),
    ) else {
        return none;
    };
    let (field, found, by) = if let Some(movement_m) = read.movement_m {
        let weight_n = read.weight_n.unwrap_or(plan.weight_n);
        let reading = WeightReading {
            span: figures.weight.span,
            weight_n,
            movement_m,
            reading_error_m: plan.reading_error_m,
        };
        let by = Tension {
            better: better_reading(voice, &figures, Some(weight_n)),
            weight_n: Some(weight_n),
            ..none
        };
        (
            "movement",
            setup::tension_from_deflection(&line, &reading),
            by,
        )
    } else if let Some(time_s) = read.time_s {
        let swings = read.swings.unwrap_or(plan.swings);
        let reading = SwingReading {
            span: figures.swings.span,
            swings,
            time_s,
            timing_error_s: plan.timing_error_s,
        };
        let by = Tension {
            better: better_reading(voice, &figures, None),
            swings: Some(swings),
            ..none
        };
        ("time", setup::tension_from_swings(&line, &reading), by)
    } else {
        return none;
    };
    match found {
        Ok(reading) => Tension {
            reading: Some(reading),
            ..by
        },
        Err(faults) => {
            let first = faults.first();
            let message = first.map(|f| faults::case_fault(voice, case, f));
            let of_weight = first.is_some_and(|f| f.field().name == "reading.weight_n");
            read.problems.push(FoundProblem {
                field: if of_weight { "weight" } else { field },
                message: message.unwrap_or_default(),
            });
            by
        }
    }
}

/// Tension that the plan expects at a temperature, N.
fn expected_n(case: &Case, temperature_k: Option<f64>) -> Option<f64> {
    let line = line_on_posts(&case.line, &case.posts).ok()?;
    let now_k = temperature_k.unwrap_or(case.temperature.today_k);
    let at = setup::tension_at_temperature(&line, case.temperature.installed_k, now_k);
    at.ok().map(|at| at.tension_n)
}

fn compared(case: &Case, reading: Option<&TensionReading>, expected_n: Option<f64>) -> Compared {
    let (Some(reading), Some(expected_n)) = (reading.filter(|r| tells(r)), expected_n) else {
        return Compared::NotTold;
    };
    let off = reading.tension_n / expected_n - 1.0;
    let tolerance = case.tolerances.pretension_ratio;
    if off.abs() <= tolerance {
        return if is_poor(reading) {
            Compared::Vague
        } else {
            Compared::Within
        };
    }
    // Another tension that fits as well may be the expected one.
    let (least, most) = (
        expected_n * (1.0 - tolerance),
        expected_n * (1.0 + tolerance),
    );
    let others = &reading.others;
    if others.iter().any(|b| b.low_n <= most && b.high_n >= least) {
        Compared::NotTold
    } else if off < 0.0 {
        Compared::Below
    } else {
        Compared::Above
    }
}

/// True when a reading is not precise enough alone.
fn is_poor(reading: &TensionReading) -> bool {
    let error = reading.error_ratio;
    error.is_none_or(|error| error > setup::GOOD_READING_RATIO)
}

/// True when a reading says which tension the line has, as closely as a tension can be given.
fn tells(reading: &TensionReading) -> bool {
    let most = footroom_core::field::find("tolerances.pretension_ratio").map_or(0.0, |f| f.max);
    reading.error_ratio.is_some_and(|error| error <= most)
}

/// Field of the page that a fault of the found case belongs to.
fn field_of(fault: &Fault) -> &'static str {
    match fault.field().name {
        "temperature.today_k" => "temperature",
        "line.height_above_beam_m" | "workers.gear.length_m" => "height",
        "site.beam_top_m" | "site.below.height_m" => "depth",
        _ => "all",
    }
}

/// Compares the line as it is found with the plan; `failed`: its inspection found a point that fails.
pub fn found(told: &Told<'_>, site: &Site<'_>, failed: bool) -> FoundView {
    let (voice, plan) = (told.voice, told.case);
    let r = voice.record();
    let mut read = Read::of(voice, site);
    let tension = tension(voice, plan, &mut read);
    let expected = expected_n(plan, read.temperature_k);
    let compared = compared(plan, tension.reading.as_ref(), expected);
    let mut view = FoundView {
        table: Table::default(),
        verdict: r.found_nothing.to_owned(),
        alert: String::new(),
        sentence: String::new(),
        remarks: Vec::new(),
        reading: String::new(),
        outside: matches!(compared, Compared::Below | Compared::Above),
        problems: Vec::new(),
        temperature_unit: format::unit(Quantity::Temperature, voice.units),
        length_unit: format::unit(Quantity::Length, voice.units),
        length_keys: match voice.units {
            Units::Metric => "decimal",
            Units::Us => "text",
        },
    };
    let mut said = None;
    if let (Some(reading), Some(expected)) = (&tension.reading, expected) {
        let force = |n| format::force_rounded(voice.units, n, Rounding::Nearest);
        let band = |low, high| (r.say.found_band)(&force(low), &force(high));
        let mut fits: Vec<String> = reading
            .low_n
            .zip(reading.high_n)
            .map(|(low, high)| band(low, high))
            .into_iter()
            .collect();
        fits.extend(reading.others.iter().map(|b| band(b.low_n, b.high_n)));
        let now_k = (read.temperature_k).unwrap_or(plan.temperature.today_k);
        let at = format::field_text_with_unit(Quantity::Temperature, voice.units, now_k);
        let (tension_text, expected) = (force(reading.tension_n), force(expected));
        let verdict = |say: fn(&str, &str, &str) -> String| say(&tension_text, &expected, &at);
        said = Some(match compared {
            Compared::Vague => verdict(r.say.found_is_vague),
            Compared::Within => verdict(r.say.found_is_within),
            Compared::Below => verdict(r.say.found_is_below),
            Compared::Above => verdict(r.say.found_is_above),
            Compared::NotTold => r.found_not_told.to_owned(),
        });
        let mut sentences = Vec::new();
        if view.outside {
            sentences.push(r.found_until.to_owned());
        }
        if !fits.is_empty() {
            sentences.push((r.say.found_fits)(&fits.join("; ")));
        }
        if !reading.others.is_empty() {
            sentences.push(r.found_which.to_owned());
        }
        let poor = is_poor(reading);
        if poor && compared != Compared::NotTold {
            sentences.push(voice.office().setup_read_poor.to_owned());
        }
        if poor || compared == Compared::NotTold {
            sentences.push(tension.better.clone());
        }
        view.reading = sentences.join(" ");
    }
    // A tension that the reading does not tell is no reason to calculate with it.
    let told_tension = tension
        .reading
        .as_ref()
        .filter(|_| compared != Compared::NotTold);
    let measured = Measured {
        tension_n: told_tension.map(|t| t.tension_n),
        tension_error_ratio: told_tension.and_then(|t| t.error_ratio),
        temperature_k: read.temperature_k,
        height_above_beam_m: read.height_m,
        depth: read.depth_m.map(|depth_m| Depth {
            worker: told.focus(),
            depth_m,
        }),
    };
    let mut why = Vec::new();
    if failed {
        why.push(r.do_not_use_why.to_owned());
    }
    if measured != Measured::default() && read.problems.is_empty() {
        let solved = as_found(plan, &measured).and_then(|case| {
            let assessment = assess(&case, Options::default())?;
            Ok((case, assessment))
        });
        match solved {
            Ok((case, assessment)) => why.extend(compare(told, &case, &assessment, &mut view)),
            Err(faults) => {
                if let Some(fault) = faults.first() {
                    read.problems.push(FoundProblem {
                        field: field_of(fault),
                        message: faults::case_fault(voice, plan, fault),
                    });
                }
            }
        }
    }
    if !read.problems.is_empty() {
        // What cannot be used makes nothing good: what forbids the use of the line as planned stays said,
        // and of the tension only that it is wrong, where nothing it comes from is at fault.
        let mut planned = view.clone();
        why.extend(compare(told, plan, told.assessment, &mut planned));
        let elsewhere = |p: &FoundProblem| matches!(p.field, "height" | "depth" | "all");
        if !view.outside || !read.problems.iter().all(elsewhere) {
            said = Some(r.found_faulty.to_owned());
            view.outside = false;
            view.reading.clear();
        }
    }
    view.problems = read.problems;
    // First what forbids the use: no other sentence stands out beside it.
    match (said, why.is_empty()) {
        (Some(said), true) => view.verdict = said,
        (None, true) => {}
        (Some(said), false) if view.outside => {
            view.verdict = said;
            view.alert = alert(voice, &why);
        }
        (said, false) => {
            view.verdict = alert(voice, &why);
            view.reading = [said.unwrap_or_default(), view.reading].join(" ");
        }
    }
    view.outside |= !why.is_empty();
    view
}

/// That the line is not to be used, and why.
fn alert(voice: Voice, why: &[String]) -> String {
    format!("{}: {}", voice.record().do_not_use, why.join(" "))
}

/// Puts plan and found side by side; gives why the line as it is found is not to be used.
fn compare(
    plan: &Told<'_>,
    case: &Case,
    assessment: &Assessment,
    view: &mut FoundView,
) -> Vec<String> {
    let voice = plan.voice;
    let (r, t) = (voice.record(), voice.texts());
    let found = Told::of(voice, case, assessment);
    let answer = found.answer();
    let column = |told: &Told<'_>| {
        let force = |n| format::force_rounded(voice.units, n, Rounding::Nearest);
        let length = |m| format::length_rounded(voice.units, m, Rounding::Nearest);
        // As the stack on the page says them, which also knows what cannot be said.
        let stack = told.stack();
        let row = |label: &str| {
            let found = stack.iter().find(|row| row.label == label);
            found.map_or(DASH.to_owned(), |row| row.value.clone())
        };
        let number = told.answer();
        [
            expected_n(told.case, None).map_or(DASH.to_owned(), force),
            length(told.case.line.height_above_beam_m),
            row(t.available),
            row(t.required),
            format!("{} {}", number.number, number.word),
        ]
    };
    let labels = [
        r.found_tension,
        voice
            .form()
            .fields
            .find("line.height_above_beam_m")
            .map_or("", |f| f.label),
        t.available,
        t.required,
        t.footroom,
    ];
    let (planned, as_is) = (column(plan), column(&found));
    let rows = labels
        .iter()
        .zip(planned)
        .zip(as_is)
        .map(|((label, a), b)| vec![(*label).to_owned(), a, b]);
    view.table = Table {
        caption: r.found_heading.to_owned(),
        head: ["", r.found_planned, r.found_found]
            .map(str::to_owned)
            .to_vec(),
        rows: rows.collect(),
        note: String::new(),
    };
    let remarks = found.remarks();
    view.sentence = answer.sentence;
    view.remarks = remarks.not_met;
    view.remarks.extend(remarks.warnings);
    view.remarks.push(remarks.tally);
    remarks.do_not_use
}

/// The day's entry for the log.
///
/// # Errors
/// What was typed wrongly, in words.
pub fn entry(
    voice: Voice,
    case: &Case,
    site: &Site<'_>,
    signed: (&str, &str, &str),
) -> Result<LogEntry, String> {
    let (date, name, note) = signed;
    if !is_date(date.trim()) {
        return Err(voice.record().log_no_date.to_owned());
    }
    let mut read = Read::of(voice, site);
    let tension = tension(voice, case, &mut read);
    if let Some(range) = footroom_core::field::find("temperature.today_k")
        && read
            .temperature_k
            .is_some_and(|k| !(range.min..=range.max).contains(&k))
    {
        let (min, max) =
            format::range_texts(Quantity::Temperature, voice.units, range.min, range.max);
        return Err((voice.record().say.log_temperature)(&min, &max));
    }
    if let Some(problem) = read.problems.first() {
        return Err(problem.message.clone());
    }
    let expected = expected_n(case, read.temperature_k);
    let compared = compared(case, tension.reading.as_ref(), expected);
    let by_weight = tension.weight_n.is_some();
    Ok(LogEntry {
        job: case.title.clone(),
        date: date.trim().to_owned(),
        name: trimmed(name),
        temperature_k: read.temperature_k,
        weight_n: tension.weight_n,
        movement_m: read.movement_m.filter(|_| by_weight),
        swings: tension.swings,
        time_s: read.time_s.filter(|_| !by_weight),
        compared,
        tension_n: tension
            .reading
            .filter(|_| compared != Compared::NotTold)
            .map(|t| t.tension_n),
        expected_n: expected,
        note: trimmed(note),
    })
}
