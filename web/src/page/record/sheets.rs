//! The sheets beside the record: one page for the line's tag and the gang box, and the list of who
//! heard the toolbox talk.

use footroom_core::case::GearKind;
use footroom_core::field::Quantity;

use crate::page::record::drawing;
use crate::page::record::paper::{Block, BlockKind, Paper, Sheet, Source};
use crate::say::format;

/// Rows for names on the sign-in sheet; one less below the lines of the answer, five where it says that the line is not to be used.
const NAMES: usize = 18;

/// One page: the answer, what it holds for, how the line is set and read, the rescue in brief.
pub fn tag(source: &Source<'_>) -> Paper {
    let r = source.texts();
    let mut blocks = vec![source.heading(r.tag_title)];
    let alert = source.alert();
    let height_px = source.drawing_height_px(alert.is_some(), [300.0, 240.0]);
    blocks.extend(alert);
    blocks.push(source.answer(false));
    blocks.push(Block {
        svg: drawing::lowest(source.told, source.measure, "tag", 560.0, height_px),
        ..Block::new(BlockKind::Drawing, r.drawing_heading)
    });
    blocks.push(
        Block::table(r.holds_heading, &[r.col_input, r.col_value], holds(source)).styled("holds"),
    );
    if let Some(set_up) = source.set_up() {
        let mut tables = set_up.tables.into_iter();
        if let Some(mut figures) = tables.next() {
            // Figure and value; the remarks are in the record.
            figures.head.truncate(2);
            for row in &mut figures.rows {
                row.truncate(2);
            }
            blocks.push(Block::of_table(figures).styled("figures"));
        }
        // The code fills the place beside the figures.
        blocks.extend(source.code(r.code_note_tag));
        blocks.extend(tables.next().map(Block::of_table));
    }
    let lines = [r.tag_stop, r.rescue_suspension].map(str::to_owned);
    blocks.push(Block::text(r.tag_stop_heading, lines.to_vec()));
    blocks.push(Block::to_write("", &[r.tag_put_up, r.tag_next, r.tag_call]).styled("sign"));
    Paper {
        kind: "tag",
        title: r.tag_title.to_owned(),
        sheets: vec![Sheet { blocks }],
        foot: source.foot(),
    }
}

/// What the answer holds for, in the inputs that a crew can see or change.
pub fn holds(source: &Source<'_>) -> Vec<Vec<String>> {
    let r = source.texts();
    let voice = source.voice();
    let case = source.case();
    let length = |m: f64| format::field_text_with_unit(Quantity::Length, voice.units, m);
    let label = |name: &str| {
        voice
            .form()
            .fields
            .find(name)
            .map_or("", |text| text.label)
            .to_owned()
    };
    let each = |value: &dyn Fn(usize) -> String| {
        let texts: Vec<String> = (0..case.workers.len()).map(value).collect();
        // One for all, or one for each in the order of the crew.
        match texts.split_first() {
            Some((first, rest)) if rest.iter().all(|text| text == first) => first.clone(),
            _ => texts.join(" · "),
        }
    };
    let spans: Vec<String> = case.line.spans_m.iter().map(|&m| length(m)).collect();
    let mut rows = vec![
        vec![r.holds_users.to_owned(), case.workers.len().to_string()],
        vec![
            r.holds_places.to_owned(),
            each(&|i| length(case.workers[i].position_m)),
        ],
        vec![
            label("workers.mass_kg"),
            each(&|i| format::mass(voice.units, case.workers[i].mass_kg)),
        ],
    ];
    rows.push(vec![
        voice.form().gear_label.to_owned(),
        each(&|i| gear(source, i)),
    ]);
    rows.push(vec![label("line.spans_m"), spans.join(" + ")]);
    rows.push(vec![
        label("line.height_above_beam_m"),
        length(case.line.height_above_beam_m),
    ]);
    for thing in &case.site.below {
        rows.push(vec![
            crate::say::names::below_name(voice, thing.kind).to_owned(),
            (r.say.holds_below)(
                &length(thing.height_m),
                &length(thing.from_m),
                &length(thing.to_m),
            ),
        ]);
    }
    rows
}

/// What connects a worker to the line, with the length that counts.
fn gear(source: &Source<'_>, worker: usize) -> String {
    let voice = source.voice();
    let (r, form) = (source.texts(), voice.form());
    let gear = &source.case().workers[worker].gear;
    let length = |m: f64| format::field_text_with_unit(Quantity::Length, voice.units, m);
    match gear.kind {
        GearKind::Lanyard => format!("{} {}", form.gear_lanyard, length(gear.length_m)),
        GearKind::SelfRetracting => {
            (r.say.holds_retracting)(form.gear_self_retracting, &length(gear.lock_distance_m))
        }
    }
}

/// The sign-in sheet of the toolbox talk: what is said, and who heard it.
pub fn sign_in(source: &Source<'_>) -> Paper {
    let r = source.texts();
    let told = source.told;
    let answer = told.answer();
    let hanging = &told.outcome.hanging;
    let lowest = hanging.soles_above_m.iter().zip(&told.outcome.workers);
    let lowest = lowest
        .filter(|(_, w)| w.fell)
        .map(|(m, _)| *m)
        .fold(f64::INFINITY, f64::min);
    let remarks = told.remarks();
    let first = [&[answer.sentence], remarks.lines.as_slice()]
        .concat()
        .join(" ");
    let mut topics: Vec<String> = source.stale.map(str::to_owned).into_iter().collect();
    topics.extend([first, told.reasons()]);
    topics.extend(remarks.not_met);
    topics.extend(remarks.warnings);
    topics.push(remarks.tally);
    if lowest.is_finite() && !told.is_unknown() {
        let units = source.voice().units;
        topics.push(
            if format::length_steps(units, lowest, format::Rounding::Down) > 0 {
                let text = format::length_rounded(units, lowest, format::Rounding::Down);
                (r.say.talk_hanging)(&text)
            } else {
                r.talk_at_lower_level.to_owned()
            },
        );
    }
    topics.extend(r.talk_topics.iter().map(|&text| text.to_owned()));
    topics.retain(|text| !text.is_empty());
    let mut blocks = vec![source.heading(r.sign_in_title)];
    let alert = source.alert();
    let stopped = alert.is_some();
    blocks.extend(alert);
    blocks.push(Block::to_write("", &[r.talk_date, r.talk_place, r.talk_by]).styled("sign"));
    blocks.push(Block::text(r.talk_heading, topics).styled("list"));
    let names = if stopped { NAMES - 5 } else { NAMES - 1 };
    // Two lines more, in the head and above the answer.
    let names = source.stale.map_or(names, |_| names - 2);
    let rows =
        (1..=names).map(|n| vec![n.to_string(), String::new(), String::new(), String::new()]);
    blocks.push(
        Block {
            lines: vec![r.talk_signing.to_owned()],
            ..Block::table(
                r.talk_names,
                &["", r.col_name, r.talk_trade, r.talk_signature],
                rows.collect(),
            )
        }
        .styled("names"),
    );
    Paper {
        kind: "sign_in",
        title: r.sign_in_title.to_owned(),
        sheets: vec![Sheet { blocks }],
        foot: source.foot(),
    }
}
