//! The drawing, looked at through a recording of what was drawn.

use footroom_core::case::{Below, BelowKind, Case, GearKind, InlineAbsorber, InlinePlace};
use footroom_core::demo::demo;
use footroom_core::solve::{Doubt, Options, Outcome, solve};

use super::layout::{Layout, Surroundings};
use super::moment::Moment;
use super::recording::Recording;
use super::stack::{Ladder, PARTS};
use super::surface::{Align, Face, Point, Rect, Surface};
use super::theme::Theme;
use super::{Added, SceneView, draw};
use crate::say::format::{Lang, Units};
use crate::say::texts;

fn solved(case: &Case) -> Outcome {
    let options = Options {
        traces: true,
        ..Options::default()
    };
    match solve(case, options) {
        Ok(outcome) => outcome,
        Err(faults) => panic!("the case has faults: {faults:?}"),
    }
}

/// Cases that differ in what the drawing has to cope with.
fn cases() -> Vec<(&'static str, Case)> {
    let below = |kind, from_m, to_m, height_m| Below {
        kind,
        from_m,
        to_m,
        height_m,
    };
    let mut one = demo();
    one.workers.truncate(1);
    let mut short = demo();
    short.line.spans_m = vec![18.0];
    let mut inline = demo();
    inline.line.inline_absorber = Some(InlineAbsorber::default());
    let mut inline_left = inline.clone();
    let mut inline_both = inline.clone();
    for (case, place) in [
        (&mut inline_left, InlinePlace::Left),
        (&mut inline_both, InlinePlace::Both),
    ] {
        let absorber = case.line.inline_absorber.as_mut().expect("there");
        absorber.place = place;
    }
    let mut deep = demo();
    deep.site.beam_top_m = 60.0;
    let mut small = demo();
    small.line.spans_m = vec![4.0];
    for (worker, place) in small.workers.iter_mut().zip([1.0, 1.4, 3.0]) {
        worker.position_m = place;
    }
    let mut standing = demo();
    standing.workers[2].fall_time_s = None;
    standing.workers[0].fall_time_s = Some(0.5);
    let mut retracting = demo();
    for worker in &mut retracting.workers {
        worker.gear.kind = GearKind::SelfRetracting;
    }
    let mut crowded = demo();
    crowded.workers.extend(demo().workers);
    for (i, worker) in crowded.workers.iter_mut().enumerate() {
        worker.position_m = 10.0 + 0.5 * i as f64;
    }
    let mut many = demo();
    many.line.spans_m = vec![9.0; 8];
    many.site.below = vec![
        below(BelowKind::Structure, -2.0, 3.0, 1.5),
        below(BelowKind::Access, 3.5, 6.0, 3.0),
        below(BelowKind::Stack, 7.0, 9.0, 1.0),
        below(BelowKind::Vehicle, 10.0, 16.0, 2.9),
        below(BelowKind::Other, 12.0, 19.5, 2.8),
    ];
    let mut low = demo();
    low.line.height_above_beam_m = 0.3;
    vec![
        ("demo", demo()),
        ("one", one),
        ("short", short),
        ("inline", inline),
        ("inline left", inline_left),
        ("inline both", inline_both),
        ("deep", deep),
        ("small", small),
        ("standing", standing),
        ("retracting", retracting),
        ("crowded", crowded),
        ("many", many),
        ("low", low),
    ]
}

/// Every other case is drawn with something that the tolerances add.
fn added(name: &str) -> Option<Added> {
    name.len().is_multiple_of(2).then_some(Added {
        length_m: 0.13,
        name: "tolerances, stiff corner",
    })
}

fn record(
    case: &Case,
    outcome: Option<&Outcome>,
    time_s: f64,
    size: (f64, f64),
    words: (Units, Lang),
) -> Recording {
    record_with(case, outcome, time_s, size, words, None)
}

fn record_with(
    case: &Case,
    outcome: Option<&Outcome>,
    time_s: f64,
    size: (f64, f64),
    words: (Units, Lang),
    tolerance: Option<Added>,
) -> Recording {
    drawn(case, outcome, time_s, size, words, tolerance).0
}

fn drawn(
    case: &Case,
    outcome: Option<&Outcome>,
    time_s: f64,
    size: (f64, f64),
    words: (Units, Lang),
    tolerance: Option<Added>,
) -> (Recording, Option<Layout>) {
    let mut recording = Recording::default();
    let layout = draw(
        &mut recording,
        &SceneView {
            case,
            outcome,
            time_s,
            width_px: size.0,
            height_px: size.1,
            dpr: 1.0,
            theme: &Theme::default(),
            texts: texts::of(words.1),
            units: words.0,
            lang: words.1,
            focus: None,
            tolerance,
            cropped: size.0 < 500.0,
            type_px: None,
            names: None,
            window: None,
        },
    );
    (recording, layout)
}

#[test]
fn no_text_touches_another_or_a_line_or_leaves_the_sheet() {
    let sizes = [
        (1200.0, 640.0),
        (690.0, 500.0),
        (358.0, 440.0),
        (1920.0, 900.0),
        (716.0, 250.0),
        (1183.0, 275.0),
        // Low sheets: no lengths, no levels.
        (716.0, 195.0),
        (650.0, 160.0),
        (480.0, 130.0),
    ];
    let words = [
        (Units::Metric, Lang::En),
        (Units::Us, Lang::En),
        (Units::Metric, Lang::Es),
    ];
    for (name, case) in cases() {
        let outcome = solved(&case);
        let governing = &outcome.workers[outcome.governing_worker];
        let times = [0.0, 0.3, 0.62, 0.75, governing.time_lowest_s, 99.0];
        for size in sizes {
            for word in words {
                for time in times {
                    let seen = record_with(&case, Some(&outcome), time, size, word, added(name));
                    let place = format!("{name} at {time} s, {size:?}, {word:?}");
                    let least = if size.1 < 200.0 { 1 } else { 5 };
                    assert!(seen.texts.len() > least, "{place}: {:?}", seen.texts);
                    check_texts(&seen, &place);
                }
            }
        }
    }
}

fn check_texts(seen: &Recording, place: &str) {
    let sheet = Rect {
        x: 0.0,
        y: 0.0,
        w: seen.size.0,
        h: seen.size.1,
    };
    for (i, a) in seen.texts.iter().enumerate() {
        assert!(sheet.holds(&a.area), "{place}: {a:?} leaves the sheet");
        for b in &seen.texts[i + 1..] {
            assert!(!a.area.meets(&b.area), "{place}: {a:?} touches {b:?}");
        }
        for stroke in seen.strokes.iter().filter(|s| !s.hatch) {
            for &(from, to) in &stroke.parts {
                assert!(
                    !a.area.crossed_by(from, to),
                    "{place}: {a:?} is crossed from {from:?} to {to:?} in {}",
                    stroke.colour
                );
            }
        }
    }
}

#[test]
fn the_ladder_at_the_lowest_instant_is_the_stack_to_the_last_bit() {
    for (name, case) in cases() {
        let outcome = solved(&case);
        for (i, worker) in outcome.workers.iter().enumerate() {
            if !worker.fell {
                continue;
            }
            let moment = Moment::at(&case, Some(&outcome), worker.time_lowest_s);
            let ladder = Ladder::at(&case, Some(&outcome), &moment, i, worker.time_lowest_s, 0.0)
                .unwrap_or_else(|| panic!("{name}: no ladder"));
            assert!(ladder.lowest);
            assert_eq!(
                ladder.edges_m[PARTS].to_bits(),
                worker.stack.required_m.to_bits(),
                "{name}, worker {i}"
            );
        }
    }
}

#[test]
fn the_ladder_grows_with_the_fall_and_meets_the_soles() {
    let case = demo();
    let outcome = solved(&case);
    let focus = outcome.governing_worker;
    let lowest_s = outcome.workers[focus].time_first_lowest_s;
    let mut last = 0.0;
    for i in 0..=40 {
        let time_s = lowest_s * f64::from(i) / 40.0;
        let moment = Moment::at(&case, Some(&outcome), time_s);
        let ladder = Ladder::at(&case, Some(&outcome), &moment, focus, time_s, 0.0)
            .unwrap_or_else(|| panic!("no ladder at {time_s}"));
        for pair in ladder.edges_m.windows(2) {
            assert!(pair[1] >= pair[0], "{time_s}: {:?}", ladder.edges_m);
        }
        assert!(ladder.edges_m[PARTS] >= last - 1e-9);
        last = ladder.edges_m[PARTS];
        if !ladder.lowest {
            assert!((ladder.edges_m[PARTS - 1] - moment.workers[focus].soles_m).abs() < 1e-9);
        }
    }
}

#[test]
fn drawing_and_ladder_have_one_scale() {
    for (name, case) in cases() {
        let outcome = solved(&case);
        let focus = outcome.governing_worker;
        let time_s = outcome.workers[focus].time_lowest_s;
        for (size, cropped) in [((1200.0, 640.0), false), ((358.0, 440.0), true)] {
            let room = Surroundings {
                window: None,
                sheet: Rect {
                    x: 0.0,
                    y: 0.0,
                    w: size.0,
                    h: size.1,
                },
                top_px: 40.0,
                bottom_px: 40.0,
                ladder_px: 80.0,
                edge_px: 10.0,
                tolerance_m: 0.0,
            };
            let layout = Layout::new(&case, Some(&outcome), focus, cropped, &room);
            let required_m = outcome.workers[focus].stack.required_m;
            let high = layout.depth_y(required_m) - layout.depth_y(0.0);
            let wide = layout.x(3.0 + required_m) - layout.x(3.0);
            assert!((high - wide).abs() < 1e-6, "{name}: {high} and {wide}");
        }
        // And as drawn: the boxes of the bar stand one on the other down to the required depth.
        let seen = record(
            &case,
            Some(&outcome),
            time_s,
            (1200.0, 640.0),
            (Units::Metric, Lang::En),
        );
        let stack = outcome.workers[focus].stack;
        let scale = bar_scale(&seen, stack.dring_to_sole_m, stack.lanyard_m);
        assert!(
            scale.is_some(),
            "{name}: no two boxes in the ratio of the stack"
        );
    }
}

/// Scale of the bar: px per m of a box of one length that has a box of the other above it, in the
/// same column.
fn bar_scale(seen: &Recording, first_m: f64, second_m: f64) -> Option<f64> {
    let boxes: Vec<(f64, f64, f64)> = seen
        .strokes
        .iter()
        .filter(|s| s.parts.len() == 4)
        .map(|s| {
            let (a, c) = (s.parts[0].0, s.parts[2].0);
            (a.x, c.x - a.x, c.y - a.y)
        })
        .collect();
    boxes.iter().find_map(|&(x, w, h)| {
        let scale = h / first_m;
        boxes
            .iter()
            .any(|&(x2, w2, h2)| {
                x == x2 && w == w2 && (h2 - second_m * scale).abs() < 1e-6 && h2 != h
            })
            .then_some(scale)
    })
}

#[test]
fn workers_stand_on_the_beam_before_they_fall_and_when_they_do_not() {
    let mut case = demo();
    case.workers[0].fall_time_s = Some(0.8);
    case.workers[2].fall_time_s = None;
    let outcome = solved(&case);
    let height_m = case.line.height_above_beam_m;
    let early = Moment::at(&case, Some(&outcome), 0.7);
    assert_eq!(early.workers[0].soles_m, height_m);
    assert!(early.workers[1].soles_m > height_m + 1.0);
    let late = Moment::at(&case, Some(&outcome), 99.0);
    assert!(late.workers[0].soles_m > height_m + 1.0);
    assert_eq!(late.workers[2].soles_m, height_m);
    assert_eq!(late.workers[2].phase.falling, 0.0);
}

#[test]
fn bad_numbers_draw_something_finite() {
    let bad = [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -1.0e300,
        1.0e300,
        0.0,
    ];
    let good = demo();
    let outcome = solved(&good);
    let sizes = [(1200.0, 640.0), (358.0, 440.0)];
    type Spoil = fn(&mut Case, f64);
    let spoilers: [Spoil; 12] = [
        |c, v| c.line.spans_m = vec![v, 9.0, v],
        |c, v| c.line.height_above_beam_m = v,
        |c, v| c.line.pretension_n = v,
        |c, v| c.workers[1].position_m = v,
        |c, v| c.workers[1].dring_height_m = v,
        |c, v| c.workers[1].harness_stretch_m = v,
        |c, v| c.workers[1].gear.length_m = v,
        |c, v| c.site.beam_top_m = v,
        |c, v| c.site.beam_depth_m = v,
        |c, v| c.site.reach_m = v,
        |c, v| c.site.below[0].from_m = v,
        |c, v| c.site.below[0].height_m = v,
    ];
    for value in bad {
        for spoil in spoilers {
            let mut case = demo();
            spoil(&mut case, value);
            for size in sizes {
                for (known, time) in [(None, 0.0), (Some(&outcome), 0.7), (Some(&outcome), 99.0)] {
                    let seen = record(&case, known, time, size, (Units::Metric, Lang::En));
                    assert_eq!(seen.bad, 0, "{value} at {time}, {size:?}");
                    assert_eq!(seen.open_clips(), 0);
                }
            }
        }
        let mut wrong = outcome.clone();
        if let Some(traces) = wrong.traces.as_mut() {
            traces.drop_m.fill(value);
            traces.node_deflection_m.fill(value);
            traces.interval_s = value;
        }
        wrong.workers[1].stack.required_m = value;
        wrong.workers[1].stack.available_m = value;
        wrong.governing_worker = usize::MAX;
        for size in sizes.into_iter().chain([(0.0, value), (value, 300.0)]) {
            let seen = record(&good, Some(&wrong), 0.7, size, (Units::Us, Lang::Es));
            assert_eq!(seen.bad, 0, "outcome with {value}");
        }
        let seen = record(
            &good,
            Some(&outcome),
            value,
            sizes[0],
            (Units::Us, Lang::En),
        );
        assert_eq!(seen.bad, 0, "time {value}");
    }
    let empty = Case::default();
    let seen = record(
        &empty,
        Some(&outcome),
        0.5,
        sizes[0],
        (Units::Metric, Lang::En),
    );
    assert_eq!(seen.bad, 0);
}

#[test]
fn footroom_is_said_in_words_and_a_lack_is_crossed_out() {
    let has = |seen: &Recording, word: &str| seen.texts.iter().any(|t| t.text.contains(word));
    let crossed = |seen: &Recording| {
        let warning = Theme::default().warning;
        seen.strokes
            .iter()
            .filter(|s| s.hatch && s.colour == warning)
            .count()
    };
    for size in [(1200.0, 640.0), (358.0, 440.0), (716.0, 180.0)] {
        let words = (Units::Metric, Lang::En);
        let fits = demo();
        let seen = record(&fits, Some(&solved(&fits)), 0.0, size, words);
        assert!(has(&seen, "to spare") && crossed(&seen) == 0, "{size:?}");
        let mut short = demo();
        short.line.spans_m = vec![18.0];
        short.site.beam_top_m -= 0.5;
        let seen = record(&short, Some(&solved(&short)), 0.0, size, words);
        assert!(has(&seen, "short by") && crossed(&seen) >= 4, "{size:?}");
    }
}

/// An absorber in the line is drawn at each end where one is and nowhere else, folded before the fall
/// and open after it, two of them together by what both have given.
#[test]
fn an_absorber_in_the_line_is_drawn_at_its_end() {
    let colour = Theme::default().absorber;
    for (name, case) in cases() {
        let Some(absorber) = case.line.inline_absorber else {
            continue;
        };
        let outcome = solved(&case);
        let length_m: f64 = case.line.spans_m.iter().sum();
        let later_s = case.motion.duration_s + 1.0;
        let mut widths = Vec::new();
        for time_s in [0.0, later_s] {
            let moment = Moment::at(&case, Some(&outcome), time_s);
            let given_m = if time_s > 0.0 {
                outcome.history.inline_extension_m
            } else {
                0.0
            };
            let [left_m, right_m] = moment.inline_m;
            assert!((left_m + right_m - given_m).abs() < 1.0e-12, "{name}");
            let words = (Units::Metric, Lang::En);
            let size = (1200.0, 640.0);
            let (seen, layout) = drawn(&case, Some(&outcome), time_s, size, words, None);
            let layout = layout.expect("the drop");
            let (from, to) = (layout.x(0.0), layout.x(length_m));
            // Nearer than the first worker, as far as one reaches that has given 1.2 m.
            let near = 2.2 * layout.px_per_m;
            let mut reach = [0.0_f64; 2];
            for stroke in seen
                .strokes
                .iter()
                .filter(|s| s.colour == colour && !s.hatch)
            {
                let xs = stroke.parts.iter().flat_map(|(a, b)| [a.x, b.x]);
                let ys = stroke.parts.iter().flat_map(|(a, b)| [a.y, b.y]);
                let high = ys.fold(f64::INFINITY, f64::min);
                // Personal absorbers hang below the line.
                if high > layout.depth_y(0.0) + 0.5 * layout.px_per_m {
                    continue;
                }
                let (low, high) = xs.fold((f64::INFINITY, 0.0_f64), |(low, high), x| {
                    (low.min(x), high.max(x))
                });
                if low >= from && high <= from + near {
                    reach[0] = reach[0].max(high - from);
                } else if low >= to - near && high <= to {
                    reach[1] = reach[1].max(to - low);
                }
            }
            for end in [0, 1] {
                let there = absorber.place.is_at(end);
                assert_eq!(reach[end] > 0.0, there, "{name}, end {end}, {time_s} s");
            }
            widths.push(reach);
        }
        for end in [0, 1].into_iter().filter(|&end| absorber.place.is_at(end)) {
            let given_m = outcome.history.inline_end_extension_m[end];
            let opened = widths[1][end] > widths[0][end] + 1.0;
            assert_eq!(opened, given_m > 0.1, "{name}, end {end}: {given_m} m");
        }
    }
}

/// Of two absorbers each is drawn with what it has given once both have given all.
#[test]
fn two_absorbers_share_what_they_have_given() {
    let mut case = demo();
    case.line.spans_m = vec![6.0; 3];
    for (worker, place_m) in case.workers.iter_mut().zip([1.0, 2.0, 3.0]) {
        worker.position_m = place_m;
    }
    case.line.inline_absorber = Some(InlineAbsorber {
        place: InlinePlace::Both,
        yield_force_n: 9_000.0,
        ..InlineAbsorber::default()
    });
    let mut outcome = solved(&case);
    let each_m = outcome.history.inline_end_extension_m;
    assert!(each_m[0] > 0.05, "{each_m:?}");
    let later_s = case.motion.duration_s + 1.0;
    let shown = |outcome: &Outcome| Moment::at(&case, Some(outcome), later_s).inline_m;
    for (drawn_m, given_m) in shown(&outcome).into_iter().zip(each_m) {
        assert!((drawn_m - given_m).abs() < 1.0e-9, "{drawn_m} {given_m}");
    }
    // Where it is not known which gave what, by halves.
    outcome.history.inline_end_extension_m = [0.0; 2];
    let [left_m, right_m] = shown(&outcome);
    assert!(left_m == right_m && left_m > 0.0);
}

#[test]
fn what_cannot_be_said_is_not_drawn() {
    let mut steep = demo();
    steep.line.inline_absorber = Some(InlineAbsorber::default());
    let mut outcome = solved(&steep);
    outcome.doubts = vec![Doubt::TooSteep {
        slope: 0.9,
        slope_max: 0.5,
    }];
    let lowest_s = outcome.workers[outcome.governing_worker].time_lowest_s;
    for size in [(1200.0, 640.0), (358.0, 440.0)] {
        for time_s in [0.0, lowest_s] {
            let words = (Units::Metric, Lang::En);
            let seen = record(&steep, Some(&outcome), time_s, size, words);
            let has = |word: &str| seen.texts.iter().any(|t| t.text.contains(word));
            assert!(has("no result"), "{size:?}");
            assert!(!has("short by") && !has("to spare") && !has("required"));
            check_texts(&seen, &format!("no result, {size:?}, {time_s} s"));
        }
    }
}

/// What is drawn on the back, call by call.
#[derive(Default)]
struct BackLog {
    on: bool,
    state: bool,
    calls: Vec<String>,
}

impl BackLog {
    fn log(&mut self, call: String) {
        if self.on {
            self.calls.push(call);
        }
    }
}

impl Surface for BackLog {
    fn begin(&mut self, _: f64, _: f64, _: f64, _: &str) {}
    fn begin_back(&mut self, state: bool) {
        self.on = true;
        self.state = state;
    }
    fn end_back(&mut self) {
        self.on = false;
    }
    fn path(&mut self) {
        self.log("path".into());
    }
    fn move_to(&mut self, p: Point) {
        self.log(format!("move {p:?}"));
    }
    fn line_to(&mut self, p: Point) {
        self.log(format!("line {p:?}"));
    }
    fn curve_to(&mut self, c: Point, p: Point) {
        self.log(format!("curve {c:?} {p:?}"));
    }
    fn circle(&mut self, centre: Point, radius_px: f64) {
        self.log(format!("circle {centre:?} {radius_px}"));
    }
    fn rect(&mut self, r: Rect) {
        self.log(format!("rect {r:?}"));
    }
    fn close(&mut self) {
        self.log("close".into());
    }
    fn fill(&mut self, colour: &str) {
        self.log(format!("fill {colour}"));
    }
    fn stroke(&mut self, colour: &str, width_px: f64, dash: &[f64]) {
        self.log(format!("stroke {colour} {width_px} {dash:?}"));
    }
    fn clip(&mut self) {
        self.log("clip".into());
    }
    fn unclip(&mut self) {
        self.log("unclip".into());
    }
    fn text(&mut self, text: &str, p: Point, _: Align, _: Face, _: &str) {
        self.log(format!("text {text} {p:?}"));
    }
    fn text_width(&self, text: &str, face: Face) -> f64 {
        0.6 * face.size_px * text.chars().count() as f64
    }
}

/// The canvas copies the back as long as only the instant changes.
#[test]
fn the_back_is_the_same_at_every_instant() {
    let theme = Theme::default();
    for (name, case) in cases() {
        let outcome = solved(&case);
        let back = |time_s| {
            let mut log = BackLog::default();
            let view = SceneView {
                case: &case,
                outcome: Some(&outcome),
                time_s,
                width_px: 690.0,
                height_px: 500.0,
                dpr: 1.0,
                theme: &theme,
                texts: texts::of(Lang::Es),
                units: Units::Us,
                lang: Lang::Es,
                focus: None,
                tolerance: None,
                cropped: false,
                type_px: None,
                names: None,
                window: None,
            };
            draw(&mut log, &view);
            (log.state, log.calls)
        };
        let lowest_s = outcome.workers[outcome.governing_worker].time_lowest_s;
        let firsts = [back(0.0), back(lowest_s)];
        assert!(firsts[0].1.len() > 40, "{name}: {}", firsts[0].1.len());
        for time_s in [0.3, 0.6, 0.61, 0.9, 1.4, 2.04, 5.9, 9.0] {
            let now = back(time_s);
            let same = firsts.iter().find(|first| first.0 == now.0);
            assert_eq!(Some(&now), same, "{name} at {time_s} s");
        }
    }
}
