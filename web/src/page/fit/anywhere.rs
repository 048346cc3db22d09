//! The worst anywhere on the line, looked for beside the page, and its way back as plain numbers.

use footroom_core::anywhere::{Anywhere, Found, Looking, Posed, When, Who};
use footroom_core::case::Case;
use serde::Serialize;

use crate::page::carried::{NO_FINDING, Numbers, of_finding};

/// Cases that are tried in one call: some 10 to 60 ms of the demonstration.
const A_CALL: u32 = 8;

/// How far it is, and in the end what was found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Looked {
    /// Cases tried.
    pub made: u32,
    /// Cases to try, as far as is known.
    pub of: u32,
    /// There is no other.
    pub done: bool,
    /// What [`from_numbers`] takes, once it is done.
    pub numbers: Vec<f64>,
}

/// Goes on with a search.
pub fn advance(looking: &mut Looking) -> Looked {
    let mut progress = looking.progress();
    for _ in 0..A_CALL {
        if !progress.done {
            progress = looking.advance();
        }
    }
    Looked {
        made: progress.made,
        of: progress.of,
        done: progress.done,
        numbers: looking.found().as_ref().map_or_else(Vec::new, numbers),
    }
}

/// What was found as plain numbers.
pub fn numbers(found: &Anywhere) -> Vec<f64> {
    let mut out = Numbers::default();
    of_anywhere(&mut found.clone(), &mut out);
    out.values
}

/// What was found for a case from its numbers; `None`: they are not all of them, or of another crew. No
/// numbers at all: it could not be looked for, so nothing was tried and nothing is known.
pub fn from_numbers(case: &Case, values: &[f64]) -> Option<Anywhere> {
    let mut numbers = Numbers::read(values);
    let mut found = Anywhere {
        room: None,
        strength: None,
        other: None,
        tried: 0,
        unresolved: 0,
        first_unresolved: None,
    };
    if values.is_empty() {
        return Some(found);
    }
    of_anywhere(&mut found, &mut numbers);
    let crew = |found: &Found| found.posed.position_m.len() == case.workers.len();
    (numbers.all_read() && found.each().all(crew)).then_some(found)
}

fn of_anywhere(found: &mut Anywhere, n: &mut Numbers) {
    let Anywhere {
        room,
        strength,
        other,
        tried,
        unresolved,
        first_unresolved,
    } = found;
    for one in [room, strength, other] {
        let mut known = one.is_some();
        n.flag(&mut known);
        if known {
            let nothing = || Found {
                posed: NOWHERE,
                finding: NO_FINDING,
            };
            let Found { posed, finding } = one.get_or_insert_with(nothing);
            of_posed(posed, n);
            of_finding(finding, n);
        }
    }
    for number in [tried, unresolved] {
        let mut count = *number as usize;
        n.count(&mut count);
        *number = u32::try_from(count).unwrap_or(u32::MAX);
    }
    let mut known = first_unresolved.is_some();
    n.flag(&mut known);
    if known {
        of_posed(first_unresolved.get_or_insert(NOWHERE), n);
    }
}

/// Before it is read.
const NOWHERE: Posed = Posed {
    who: Who::First { count: 0 },
    when: When::AsGiven,
    position_m: Vec::new(),
};

fn of_posed(posed: &mut Posed, n: &mut Numbers) {
    let (mut alone, mut of) = match posed.who {
        Who::One { worker } => (true, worker),
        Who::First { count } => (false, count),
    };
    n.flag(&mut alone);
    n.count(&mut of);
    posed.who = if alone {
        Who::One { worker: of }
    } else {
        Who::First { count: of }
    };
    let (mut kind, mut by_s, mut back) = match posed.when {
        When::AsGiven => (0, 0.0, false),
        When::Together => (1, 0.0, false),
        When::InTurn { delay_s, reversed } => (2, delay_s, reversed),
    };
    n.count(&mut kind);
    n.number(&mut by_s);
    n.flag(&mut back);
    posed.when = match kind {
        0 => When::AsGiven,
        1 => When::Together,
        _ => When::InTurn {
            delay_s: by_s,
            reversed: back,
        },
    };
    n.list(&mut posed.position_m);
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::view::Answer;
    use crate::page::Page;
    use crate::say::format::{Lang, Units};
    use footroom_core::demo::demo;

    #[test]
    fn what_was_found_comes_back_as_it_was() {
        let mut case = demo();
        case.workers[1].mass_kg += 12.0;
        for breaking_n in [64_000.0, 12_000.0] {
            case.line.rope.breaking_force_n = Some(breaking_n);
            let mut looking = Looking::new(&case).expect("a case without faults");
            let mut calls = 0;
            let looked = loop {
                let looked = advance(&mut looking);
                calls += 1;
                assert!(looked.done || looked.numbers.is_empty());
                if looked.done {
                    break looked;
                }
            };
            let found = looking.found().expect("done");
            assert_eq!(from_numbers(&case, &looked.numbers), Some(found.clone()));
            assert!(calls > 5 && found.tried == looked.made);
            let short = &looked.numbers[..looked.numbers.len() - 1];
            assert_eq!(from_numbers(&case, short), None);
            let mut fewer = case.clone();
            fewer.workers.pop();
            assert_eq!(from_numbers(&fewer, &looked.numbers), None);
        }
    }

    /// What no worker could look for is not looked for any more, nothing is said to hold, and the words
    /// say why; what is known of the crew where it stands goes before it.
    #[test]
    fn what_could_not_be_looked_for_is_said() {
        for lang in [Lang::En, Lang::Es] {
            let mut page = Page::new(lang, Units::Metric);
            page.finish_all();
            let before = page.view().answer;
            let line = |answer: &Answer| answer.lines[2].clone();
            assert_eq!(line(&before).number, "…");
            assert!(page.take_anywhere(&[]));
            let after = page.view().answer;
            let voice = page.voice();
            assert_eq!(line(&after).word, voice.texts().word_unknown);
            assert_eq!(line(&after).text, voice.decide().fit_failed);
            assert_eq!(line(&after).mark, "open");
            assert_eq!(after.headline, before.headline);
            let told = page.told().expect("an answer");
            assert_eq!(told.anywhere_note(), "");
            let printed = told.remarks().lines.join(" ");
            assert!(printed.contains(voice.office().anywhere_open), "{printed}");
        }
    }
}
