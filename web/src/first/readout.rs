//! Values at one instant, as the drawing shows it.

use footroom_core::constants::GRAVITY_M_PER_S2;

use crate::first::answer::Told;
use crate::first::scene::moment::Moment;
use crate::first::view::{Readout, Row};
use crate::say::format::{self, Rounding};
use crate::say::names::inline_extension_name;

/// Speed below which somebody may count as hanging, m/s.
const STILL_M_PER_S: f64 = 0.1;
/// How far the force may then be from his weight, as a part of it.
const STILL_FORCE_RATIO: f64 = 0.15;
/// Time around the lowest point that counts as being there, s.
const LOWEST_S: f64 = 0.02;

/// The values at `time_s`, s, from the first fall on. After the motion everybody hangs at rest, as
/// the drawing shows it; times before it are its beginning.
pub fn readout(told: &Told<'_>, time_s: f64) -> Readout {
    let t = told.voice.texts();
    let units = told.voice.units;
    let last_s = told.outcome.traces.as_ref().map_or(0.0, |traces| {
        traces.interval_s * traces.frames.saturating_sub(1) as f64
    });
    let time_s = if time_s.is_finite() {
        time_s.max(0.0)
    } else {
        0.0
    };
    let moment = Moment::at(told.case, Some(told.outcome), time_s);
    let time_s = time_s.min(last_s.max(0.0));
    let tension_n = moment.tension_n.unwrap_or(told.outcome.rest.tension_max_n);
    let time = format::time(time_s);
    let tension = format::force(units, tension_n);
    let row = |label: &str, value: &str| Row {
        label: label.to_owned(),
        value: value.to_owned(),
    };
    let mut rows = vec![row(t.line_tension, &tension)];
    let mut spoken = vec![(t.say.spoken_line)(&time, &tension)];
    let fallen = told.outcome.workers.iter().zip(&told.case.workers);
    for (i, (result, worker)) in fallen.enumerate() {
        let Some(fall_time_s) = worker.fall_time_s else {
            continue;
        };
        let Some(now) = moment.workers.get(i) else {
            continue;
        };
        let name = (t.say.worker)(i + 1);
        let force = format::force(units, now.force_n.max(0.0));
        let weight_n = worker.mass_kg * GRAVITY_M_PER_S2;
        let still = now.speed_m_per_s.abs() < STILL_M_PER_S
            && (now.force_n - weight_n).abs() < STILL_FORCE_RATIO * weight_n;
        let near = |instant_s: f64| (time_s - instant_s).abs() < LOWEST_S;
        let phase = if time_s < fall_time_s {
            t.phase_standing
        } else if now.phase.caught == 0.0 {
            t.phase_free_fall
        } else if near(result.time_first_lowest_s) || near(result.time_lowest_s) {
            t.phase_lowest
        } else if time_s < result.time_first_lowest_s {
            t.phase_arrest
        } else if still {
            t.phase_hanging
        } else {
            t.phase_rebound
        };
        rows.push(row(&(t.say.of_worker)(t.arrest_force, &name), &force));
        spoken.push((t.say.spoken_worker)(
            &(t.say.worker_label)(i + 1),
            phase,
            &force,
        ));
    }
    let governing = told.focus();
    if let Some(worker) = moment.workers.get(governing) {
        let label = (t.say.of_worker)(t.soles_below_line, &(t.say.worker)(governing + 1));
        let depth = format::length_rounded(units, worker.soles_m, Rounding::Up);
        rows.push(row(&label, &depth));
    }
    if let Some(absorber) = told.case.line.inline_absorber {
        let inline_m = moment.inline_m[0] + moment.inline_m[1];
        let extension = format::length_rounded(units, inline_m, Rounding::Up);
        rows.push(row(inline_extension_name(t, absorber.place), &extension));
    }
    Readout {
        time,
        rows,
        spoken: spoken.join(" "),
    }
}
