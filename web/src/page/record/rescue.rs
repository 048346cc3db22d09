//! What a rescue plan has to answer, with what the case tells of it. The plan itself is the
//! qualified person's.

use footroom_core::field::Quantity;

use crate::first::answer::{DASH, Told};
use crate::page::record::paper::{Block, BlockKind};
use crate::say::format::{self, Rounding};

/// Where everybody hangs after the fall, and the questions with lines to write upon.
pub fn blocks(told: &Told<'_>) -> Vec<Block> {
    let voice = told.voice;
    let r = voice.record();
    let hanging = &told.outcome.hanging;
    let known = !told.is_unknown();
    let fell = told
        .outcome
        .workers
        .iter()
        .enumerate()
        .filter(|(_, w)| w.fell);
    let shown = |metres: Option<&f64>| match metres {
        Some(&m) if known => format::length_rounded(voice.units, m, Rounding::Nearest),
        _ => DASH.to_owned(),
    };
    // Nobody hangs lower than what is below: who would, comes to rest on it.
    let above = |metres: Option<&f64>| match metres {
        Some(&m) if known && format::length_steps(voice.units, m, Rounding::Down) <= 0 => {
            r.rescue_at_lower_level.to_owned()
        }
        Some(&m) if known => format::length_rounded(voice.units, m, Rounding::Down),
        _ => DASH.to_owned(),
    };
    let rows = fell.map(|(i, _)| {
        let worker = told.case.workers.get(i);
        vec![
            (voice.texts().say.worker_label)(i + 1),
            worker.map_or(DASH.to_owned(), |w| {
                format::field_text_with_unit(Quantity::Length, voice.units, w.position_m)
            }),
            worker.map_or(DASH.to_owned(), |w| format::mass(voice.units, w.mass_kg)),
            shown(hanging.drop_m.get(i)),
            above(hanging.soles_above_m.get(i)),
        ]
    });
    let table = Block {
        lines: vec![r.rescue_note.to_owned(), r.rescue_suspension.to_owned()],
        ..Block::table(
            r.rescue_heading,
            &[
                r.rescue_worker,
                r.rescue_place,
                r.rescue_mass,
                r.rescue_below_standing,
                r.rescue_soles,
            ],
            rows.collect(),
        )
    };
    let questions = r.rescue_questions.iter().map(|&text| text.to_owned());
    let lines = Block {
        lines: questions.collect(),
        ..Block::new(BlockKind::Lines, "")
    };
    vec![table, lines.styled("questions")]
}
