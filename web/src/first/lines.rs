//! The three lines of the answer: room, strength, anywhere; and what follows from the worst of them.
//!
//! What they say comes from [`footroom_core::standing`] and [`footroom_core::anywhere`]; that the mark
//! of the answer is the worst of theirs is [`footroom_core::anywhere::answer_mark`].

use footroom_core::answer::Unknown;
use footroom_core::anywhere::{
    Anywhere, DELAY_MAX_S, DELAY_STEP_S, Found, Posed, When, Who, answer_mark,
};
use footroom_core::case::{Case, CrewMoves};
use footroom_core::standing::{Mark, Standing, Strength};

use crate::first::answer::{DASH, Told};
use crate::first::view::AnswerLine;
use crate::first::whole_steps::MARGIN;
use crate::say::faults::Voice;
use crate::say::format::{self, Rounding};
use crate::say::names::{check_name, subject_name};

/// The key of a mark, as the page's scripts know it.
pub fn mark_key(mark: Mark) -> &'static str {
    match mark {
        Mark::Holds => "holds",
        Mark::Open => "open",
        Mark::Fails => "fails",
        Mark::Unknown => "unknown",
    }
}

/// Tells a mark in black and white too.
pub(crate) fn sign(mark: Mark) -> &'static str {
    match mark {
        Mark::Holds => "",
        Mark::Open => "?",
        Mark::Fails => "✗",
        Mark::Unknown => "✗",
    }
}

/// The lines with the worst mark of them.
pub(crate) struct Lines {
    pub(crate) lines: Vec<AnswerLine>,
    pub(crate) mark: Mark,
}

impl Lines {
    /// The first of the lines with the worst mark.
    pub(crate) fn worst(&self) -> Option<&AnswerLine> {
        let key = mark_key(self.mark);
        self.lines.iter().find(|line| line.mark == key)
    }
}

impl Told<'_> {
    /// How the case stands where its crew does.
    pub fn standing(&self) -> Standing {
        self.assessment.standing(self.case)
    }

    /// The three lines. Until the worst anywhere is known, and the answer whole, nothing is said to
    /// hold.
    pub(crate) fn lines(&self) -> Lines {
        let standing = self.standing();
        let lines = vec![
            self.room_line(&standing),
            strength_line(self.voice, &standing),
            anywhere_line(self.voice, self.case, self.anywhere),
        ];
        let mark = answer_mark(&standing, self.anywhere);
        Lines { lines, mark }
    }

    /// The worst of the lines in a line.
    pub fn headline(&self) -> String {
        let lines = self.lines();
        lines.worst().map_or_else(String::new, |line| {
            (self.voice.texts().say.answer_line)(&line.heading, &line.number, &line.word)
        })
    }

    fn room_line(&self, standing: &Standing) -> AnswerLine {
        let t = self.voice.texts();
        let mut line = line(self.voice, "room", t.line_room, standing.room_mark());
        if standing.footroom_m.is_none() {
            let because = self.assessment.decisive_doubt().map(|d| self.doubt(d));
            line.text = because.unwrap_or_default();
        } else if let Some(governing) = self.governing() {
            let shown = self.shown(&governing);
            let worker = self.worker(governing.worker);
            line.number = shown.footroom_text();
            (line.word, line.text) = if shown.footroom < 0 {
                let (required, available) =
                    (shown.text(shown.required), shown.text(shown.available));
                let needs = (t.say.needs)(&worker, &required, &available);
                (t.word_short.to_owned(), needs)
            } else {
                let under = (t.say.under)(&worker, &shown.text(shown.parts[MARGIN]));
                (t.word_spare.to_owned(), under)
            };
        }
        line
    }

    /// What a view about the falls as given says where the worst is elsewhere; `None`: it is not, or it
    /// is still looked for.
    pub fn elsewhere(&self) -> Option<String> {
        let line = anywhere_line(self.voice, self.case, self.anywhere);
        let line = Some(line).filter(|line| line.show.is_some())?;
        let said = (self.voice.texts().say.answer_line)(&line.heading, &line.number, &line.word);
        Some((self.voice.office().say.elsewhere)(&said))
    }

    /// What was tried for the third line, and why; empty while it is not known.
    pub fn anywhere_note(&self) -> String {
        let Some(found) = self.anywhere.filter(|_| cfg!(feature = "office")) else {
            return String::new();
        };
        let o = self.voice.office();
        // The line says that it could not be looked for.
        if found.tried == 0 {
            return String::new();
        }
        let (most, step) = (format::time(DELAY_MAX_S), format::time(DELAY_STEP_S));
        let mut said = vec![
            o.anywhere_why.to_owned(),
            (o.say.anywhere_tried)(found.tried, &most, &step),
        ];
        if self.case.crew_moves == CrewMoves::Freely {
            said.push(o.anywhere_freely.to_owned());
        }
        if let Some(first) = &found.first_unresolved {
            said.push((o.say.anywhere_unresolved)(
                found.unresolved,
                &posed(self.voice, self.case, first),
            ));
        }
        said.join(" ")
    }
}

fn line(voice: Voice, key: &'static str, heading: &str, mark: Mark) -> AnswerLine {
    AnswerLine {
        key,
        heading: heading.to_owned(),
        sign: sign(mark),
        number: DASH.to_owned(),
        word: voice.texts().word_unknown.to_owned(),
        text: String::new(),
        mark: mark_key(mark),
        show: None,
    }
}

/// What is said of the strength.
pub(crate) fn strength_line(voice: Voice, standing: &Standing) -> AnswerLine {
    let t = voice.texts();
    let mark = standing.strength_mark();
    let mut line = line(voice, "strength", t.line_strength, mark);
    if standing.unknown.is_some() {
        return line;
    }
    let weakest = standing.strength.map(|s| part(voice, &s));
    let (parts, parts_words) = (t.say.parts_open)(standing.parts_open);
    let (limits, limits_words) = (t.say.limits_open)(standing.limits_not_met);
    let mut also: Vec<String> = Vec::new();
    match standing.strength {
        Some(strength) if standing.parts_failing > 0 || standing.limits_not_met == 0 => {
            (line.number, line.word) = ratio(voice, &strength);
            also.extend(weakest);
            if standing.limits_not_met > 0 {
                also.push(format!("{limits} {limits_words}"));
            }
        }
        _ if standing.limits_not_met > 0 => {
            (line.number, line.word) = (limits, limits_words.to_owned());
            also.extend(
                standing
                    .first_limit
                    .map(|key| check_name(voice, key).to_owned()),
            );
            if let Some((strength, name)) = standing.strength.as_ref().zip(weakest) {
                let (ratio, of) = ratio(voice, strength);
                also.push(format!("{name} {ratio} {of}"));
            }
        }
        _ => {
            (line.number, line.word) = (parts.clone(), parts_words.to_owned());
        }
    }
    if standing.parts_open > 0 && line.number != parts {
        also.push(format!("{parts} {parts_words}"));
    }
    if standing.absorber_used_up {
        also.push([t.an_absorber, " ", t.word_deployed].concat());
    }
    also.retain(|text| !text.is_empty());
    line.text = also.join("; ");
    line
}

/// A ratio and the required one.
fn ratio(voice: Voice, strength: &Strength) -> (String, String) {
    let (ratio, required) = format::strength(strength);
    (ratio, (voice.texts().say.of_ratio)(&required))
}

/// A part, and which.
fn part(voice: Voice, strength: &Strength) -> String {
    let name = check_name(voice, strength.key);
    match subject_name(voice, strength.subject) {
        of if of.is_empty() => name.to_owned(),
        of => (voice.texts().say.of_worker)(name, &of),
    }
}

/// What is said of the worst anywhere on the line; `None`: it is still looked for.
pub(crate) fn anywhere_line(voice: Voice, case: &Case, anywhere: Option<&Anywhere>) -> AnswerLine {
    let t = voice.texts();
    // It is looked for by the whole program, which also tells of it.
    let Some(found) = anywhere.filter(|_| cfg!(feature = "office")) else {
        let mut line = line(voice, "anywhere", t.line_anywhere, Mark::Open);
        line.number = "…".to_owned();
        line.word = t.still_looking.to_owned();
        return line;
    };
    let mut line = line(voice, "anywhere", t.line_anywhere, found.mark());
    let Some(worst) = found.worst() else {
        if found.tried == 0 {
            line.text = voice.decide().fit_failed.to_owned();
        }
        return line;
    };
    let o = voice.office();
    let standing = &worst.finding.standing;
    let mut said = vec![posed(voice, case, &worst.posed)];
    if standing.unknown.is_some() {
        (line.number, line.word) = (DASH.to_owned(), t.word_breaks.to_owned());
    } else if standing.room_mark() < Mark::Fails && standing.strength_mark() == Mark::Fails {
        // There is room, and the strength decides: that is the number, and the room goes with it.
        let strong = strength_line(voice, standing);
        (line.number, line.word) = (strong.number, strong.word);
        if let Some(at) = &found.room {
            let (number, word) = anywhere_room(voice, found);
            let room = format!("{number} {word}");
            said.push(if at.posed == worst.posed {
                (o.say.anywhere_room)(&room)
            } else {
                (o.say.anywhere_room_at)(&room, &posed(voice, case, &at.posed))
            });
        }
    } else {
        (line.number, line.word) = anywhere_room(voice, found);
        if let Some((at, strength)) = found.strength.as_ref().zip(found.weakest()) {
            let (ratio, required) = format::strength(&strength);
            said.push(if at.posed == worst.posed {
                (o.say.anywhere_strength)(&ratio, &required)
            } else {
                (o.say.anywhere_strength_at)(&ratio, &required, &posed(voice, case, &at.posed))
            });
        }
    }
    line.text = said.join("; ");
    line.show = (!is_here(case, worst)).then(|| t.show_worst.to_owned());
    line
}

/// The least room anywhere and its word; that the line would break, where it would.
pub(crate) fn anywhere_room(voice: Voice, found: &Anywhere) -> (String, String) {
    let t = voice.texts();
    if (found.each()).any(|one| one.finding.unknown == Some(Unknown::LineBreaks)) {
        return (DASH.to_owned(), t.word_breaks.to_owned());
    }
    match found.footroom_m() {
        None => (DASH.to_owned(), t.word_unknown.to_owned()),
        Some(m) if m < 0.0 => (
            format::length_rounded(voice.units, -m, Rounding::Up),
            t.word_short.to_owned(),
        ),
        Some(m) => (
            format::length_rounded(voice.units, m, Rounding::Down),
            t.word_spare.to_owned(),
        ),
    }
}

/// It is the case as given.
fn is_here(case: &Case, found: &Found) -> bool {
    found.posed.case(case) == *case
}

/// Who falls, and where.
fn posed(voice: Voice, case: &Case, posed: &Posed) -> String {
    let (t, o) = (voice.texts(), voice.office());
    if *posed == Posed::given(case) {
        return o.anywhere_here.to_owned();
    }
    let count = case.workers.len();
    let who = match (posed.who, posed.when) {
        (Who::One { worker }, _) => (o.say.scenario_one)(&(t.say.worker)(worker + 1)),
        (Who::First { count: 1 }, _) => (o.say.scenario_one)(&(t.say.worker)(1)),
        (Who::First { count: n }, When::InTurn { delay_s, reversed }) => {
            let delay = format::time(delay_s);
            if n >= count {
                (o.say.scenario_in_turn)(&delay, reversed)
            } else {
                (o.say.anywhere_first_in_turn)(n, &delay, reversed)
            }
        }
        (Who::First { count: n }, _) if n >= count => o.scenario_together.to_owned(),
        (Who::First { count: n }, _) => (o.say.anywhere_first)(n),
    };
    let falls = posed.position_m.iter().zip(&case.workers).enumerate();
    let falls: Vec<(f64, f64)> = falls
        .filter(|(i, _)| posed.who.falls(*i))
        .map(|(_, (&at, worker))| (at, at - worker.position_m))
        .collect();
    let (mut least, mut most) = (f64::INFINITY, f64::NEG_INFINITY);
    for &(at, _) in &falls {
        (least, most) = (least.min(at), most.max(at));
    }
    // Moved along the line, or standing otherwise.
    if falls
        .windows(2)
        .any(|pair| (pair[0].1 - pair[1].1).abs() > 1e-6)
    {
        let units = voice.units;
        let place = |&(at, _): &(f64, f64)| format::length_rounded(units, at, Rounding::Nearest);
        let places: Vec<String> = falls.iter().map(place).collect();
        return (o.say.anywhere_places)(&who, &places.join(", "));
    }
    let middle = format::length_rounded(voice.units, 0.5 * (least + most), Rounding::Nearest);
    (o.say.anywhere_at)(&who, &middle, most > least)
}
