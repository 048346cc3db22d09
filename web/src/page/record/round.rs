//! The morning's round: the lines that are kept, each with its answer, what was last read on it, what
//! failed, and what is open today.

use footroom_core::anywhere::Anywhere;
use footroom_core::case::Case;
use footroom_core::fit::Row;
use footroom_core::standing::Mark;
use serde::Serialize;

use crate::first::lines::{mark_key, sign};
use crate::first::view::FootroomKind;
use crate::page::compare::shelf::{self, Stand};
use crate::page::compare::solved::Solved;
use crate::page::fit::anywhere;
use crate::page::plan::remarks::do_not_use;
use crate::page::record::book::{Book, Compared, LogEntry};
use crate::page::record::inspection;
use crate::page::record::lines::{Lines, Taken};
use crate::page::record::paper::{compared_text, failed};
use crate::say::faults::Voice;

/// The lines of the device, with what a worker beside the page found of each.
#[derive(Debug, Default)]
pub struct Round {
    /// Those that are kept.
    pub lines: Lines,
    answers: Vec<LineAnswer>,
}

/// What was found of a case.
#[derive(Debug)]
struct LineAnswer {
    case: Case,
    /// How it stands; `None`: there is no result.
    row: Option<Row>,
    /// The worst anywhere on its line; `None`: it is waited for.
    anywhere: Option<Anywhere>,
}

/// The list as the page shows it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LinesView {
    /// A row a line, in the order of the round.
    pub rows: Vec<LineRow>,
    /// How many lines there are, and on how many something is open today.
    pub tally: String,
    /// The line on the page: `kept`, `new`, or `other`, another case of its name is kept.
    pub shown: &'static str,
}

/// A line in the list.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LineRow {
    /// Name of the job.
    pub title: String,
    /// That it is not to be used, and why, by its answer and by what was found on the site; empty: nothing
    /// says so.
    pub stop: String,
    /// Tells the mark in black and white too.
    pub sign: &'static str,
    /// Its footroom in words.
    pub footroom: String,
    /// Its strength in words.
    pub strength: String,
    /// The least room anywhere on it, in words.
    pub anywhere: String,
    /// The worst mark of the three, see [`crate::first::view::AnswerLine::mark`].
    pub mark: &'static str,
    /// Whether its answer is still waited for.
    pub waiting: bool,
    /// Whether the worst anywhere on it is.
    pub looking: bool,
    /// The last reading: day and verdict.
    pub reading: String,
    /// What is open today.
    pub open: String,
    /// Whether it is the line on the page.
    pub shown: bool,
}

/// The next line of the round.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct NextLine {
    /// Its place in the list.
    pub place: usize,
    /// Name of the command that opens it.
    pub text: String,
}

/// What a day has of a line.
struct Day<'a> {
    /// The last reading.
    last: Option<&'a LogEntry>,
    /// The last reading that told the tension, precise enough by itself.
    told: Option<&'a LogEntry>,
    /// One of today told the tension.
    read: bool,
    /// Points that failed when they were last looked at, each with its note.
    failed: Vec<String>,
    /// Points that were not looked at today.
    open: usize,
    /// Points there are.
    points: usize,
}

impl<'a> Day<'a> {
    fn of(voice: Voice, case: &Case, book: &'a Book, today: &str) -> Self {
        let of_job = || {
            book.log
                .iter()
                .filter(|e| e.job == case.title && e.is_read())
        };
        let telling = of_job().rfind(|e| e.compared != Compared::NotTold);
        // What is not precise enough alone takes back no warning.
        let told = of_job().rfind(|e| !matches!(e.compared, Compared::NotTold | Compared::Vague));
        let points = inspection::of(case);
        let inspection = book.inspection(&case.title);
        let found = |&&place: &&usize| inspection.and_then(|i| i.at(place)?.found);
        let of_today = inspection.is_some_and(|i| i.date == today);
        let open = points.iter().filter(|p| !of_today || found(p).is_none());
        Self {
            last: of_job().next_back(),
            told,
            read: telling.is_some_and(|e| e.date == today),
            // Its first line says what follows from it.
            failed: failed(voice, case, book).into_iter().skip(1).collect(),
            open: open.count(),
            points: points.len(),
        }
    }

    fn is_open(&self) -> bool {
        !self.read || self.open > 0
    }

    /// Why the line is not to be used: `why` by its answer, then by what was found on it; empty: nothing
    /// says so.
    fn stop(&self, voice: Voice, mut why: Vec<String>) -> String {
        let r = voice.record();
        let outside = |e: &&LogEntry| matches!(e.compared, Compared::Below | Compared::Above);
        if self.told.filter(outside).is_some() {
            why.push(r.found_outside.to_owned());
        }
        if !self.failed.is_empty() {
            why.push((r.say.lines_failed)(self.failed.len()));
            why.extend(self.failed.iter().cloned());
        }
        if why.is_empty() {
            return String::new();
        }
        format!("{}: {}", r.do_not_use, why.join(" "))
    }

    fn reading(&self, voice: Voice) -> String {
        let r = voice.record();
        self.last.map_or_else(
            || r.lines_not_read.to_owned(),
            |e| (r.say.lines_last)(&e.date, compared_text(r, e)),
        )
    }

    fn open(&self, voice: Voice) -> String {
        let r = voice.record();
        let mut open = Vec::new();
        if !self.read {
            open.push(r.lines_reading.to_owned());
        }
        if self.open > 0 {
            open.push((r.say.lines_points)(self.open, self.points));
        }
        if open.is_empty() {
            return r.lines_done.to_owned();
        }
        (r.say.lines_open_today)(&open.join(", "))
    }
}

/// Name of a job as it is shown.
pub fn name(voice: Voice, title: &str) -> String {
    match title.trim() {
        "" => voice.record().lines_unnamed.to_owned(),
        name => name.to_owned(),
    }
}

/// What has become of the lines of a file, in words.
pub fn taken_text(voice: Voice, taken: &Taken) -> String {
    let r = voice.record();
    let mut said = vec![(r.say.lines_taken)(taken.added, taken.newer, taken.same)];
    if !taken.beside.is_empty() {
        let names: Vec<String> = taken.beside.iter().map(|t| name(voice, t)).collect();
        said.push((r.say.lines_both)(&names.join("; ")));
    }
    said.join(" ")
}

impl Round {
    fn answer(&self, case: &Case) -> Option<&LineAnswer> {
        self.answers.iter().find(|a| a.case == *case)
    }

    /// Takes in what a worker found of a line, see [`Solved::numbers`]; anything else means that it
    /// has no result.
    pub fn take_in(&mut self, place: usize, numbers: &[f64]) {
        let Some(line) = self.lines.lines.get(place) else {
            return;
        };
        let kept = &self.lines;
        self.answers
            .retain(|a| a.case != line.case && kept.place(&a.case).is_some());
        self.answers.push(LineAnswer {
            case: line.case.clone(),
            row: Solved::from_numbers(numbers).map(|solved| solved.row),
            anywhere: None,
        });
    }

    /// Takes in what was found to be the worst anywhere on a line, as numbers; false: it is not about
    /// that.
    pub fn take_anywhere(&mut self, place: usize, numbers: &[f64]) -> bool {
        let case = self.lines.lines.get(place).map(|line| &line.case);
        let answer = case.and_then(|case| self.answers.iter_mut().find(|a| a.case == *case));
        let found = answer.and_then(|a| {
            a.anywhere = anywhere::from_numbers(&a.case, numbers);
            a.anywhere.as_ref()
        });
        found.is_some()
    }

    /// The list; `shown`: the case on the page; `today`, as 2026-03-04.
    pub fn view(&self, voice: Voice, shown: &Case, book: &Book, today: &str) -> LinesView {
        let r = voice.record();
        let mut open = 0;
        let rows = self.lines.lines.iter().map(|line| {
            let day = Day::of(voice, &line.case, book, today);
            open += usize::from(day.is_open());
            self.row(voice, &line.case, &day, line.case == *shown)
        });
        let rows: Vec<LineRow> = rows.collect();
        LinesView {
            tally: (r.say.lines_tally)(rows.len(), open),
            rows,
            shown: if self.lines.place(shown).is_some() {
                "kept"
            } else if self.lines.has_other(shown) {
                "other"
            } else {
                "new"
            },
        }
    }

    fn row(&self, voice: Voice, case: &Case, day: &Day<'_>, shown: bool) -> LineRow {
        let answer = self.answer(case);
        let row = answer.and_then(|a| a.row.as_ref());
        let anywhere = answer.and_then(|a| a.anywhere.as_ref());
        let (t, r, running) = (voice.texts(), voice.record(), voice.decide().fit_running);
        let stand = row.map_or_else(
            || Stand {
                footroom: answer.map_or(running, |_| t.word_unknown).to_owned(),
                strength: String::new(),
                anywhere: String::new(),
                mark: answer.map_or(Mark::Open, |_| Mark::Unknown),
                marks: [mark_key(Mark::Open); 3],
            },
            |row| shelf::stand(voice, case, row, anywhere),
        );
        let why = answer.map_or_else(Vec::new, |_| match row {
            Some(row) => {
                let standing = &row.finding.standing;
                let kind = match standing.room_mark() {
                    Mark::Unknown => FootroomKind::Unknown,
                    Mark::Fails => FootroomKind::Short,
                    Mark::Holds | Mark::Open => FootroomKind::Spare,
                };
                let not_met = (standing.parts_failing + standing.limits_not_met > 0)
                    .then(|| r.lines_not_met.to_owned());
                let elsewhere = anywhere.map(Anywhere::mark);
                do_not_use(voice, (kind, standing.mark()), not_met, elsewhere)
            }
            None => vec![voice.office().stop_unknown.to_owned()],
        });
        LineRow {
            title: name(voice, &case.title),
            stop: day.stop(voice, why),
            sign: sign(stand.mark),
            footroom: stand.footroom,
            strength: stand.strength,
            anywhere: stand.anywhere,
            mark: mark_key(stand.mark),
            waiting: answer.is_none(),
            looking: row.is_some() && anywhere.is_none(),
            reading: day.reading(voice),
            open: day.open(voice),
            shown,
        }
    }

    /// The next line after the one on the page that has no reading of today yet, and after the last
    /// the first again; `None`: all others have one.
    pub fn next(&self, voice: Voice, shown: &Case, book: &Book, today: &str) -> Option<NextLine> {
        let lines = &self.lines.lines;
        let after = self.lines.place(shown).map_or(0, |place| place + 1);
        let places = (after..lines.len()).chain(0..after.min(lines.len()));
        let unread = |place: usize| {
            let case = &lines.get(place)?.case;
            let read = case == shown || Day::of(voice, case, book, today).read;
            (!read).then_some(NextLine {
                place,
                text: (voice.record().say.lines_next)(&name(voice, &case.title)),
            })
        };
        places.into_iter().find_map(unread)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::fit;
    use crate::page::record::book::tests::entry;
    use crate::page::record::inspection::POINTS;
    use crate::page::record::lines::tests::named;
    use crate::say::format::{Lang, Units};
    use footroom_core::anywhere::Looking;

    const TODAY: &str = "2026-03-05";

    fn round(titles: &[&str]) -> Round {
        let mut round = Round::default();
        for title in titles {
            assert!(round.lines.keep(&named(title), 1.0));
        }
        round
    }

    fn inspected(book: &mut Book, case: &Case, date: &str) {
        book.sign(&case.title, date, "");
        for place in inspection::of(case) {
            book.look(&case.title, POINTS[place].key, "pass", "")
                .expect("a point");
        }
    }

    /// What is open today counts by day: yesterday's reading and inspection are none of today.
    #[test]
    fn what_is_open_today_is_said_of_each_line() {
        for voice in Voice::ALL {
            let r = voice.record();
            let round = round(&["B4", "B5", "", "C1"]);
            let mut book = Book::default();
            inspected(&mut book, &named("B4"), TODAY);
            book.enter(entry("B4", TODAY));
            inspected(&mut book, &named("B5"), "2026-03-04");
            book.enter(LogEntry {
                compared: Compared::Below,
                ..entry("B5", "2026-03-04")
            });
            book.look("B5", "rope_rust", "fail", "at post 2")
                .expect("a point");
            // A word in the log is no reading.
            let word = LogEntry {
                movement_m: None,
                tension_n: None,
                compared: Compared::NotTold,
                ..entry("C1", TODAY)
            };
            book.enter(word.clone());
            let view = round.view(voice, &named("B5"), &book, TODAY);
            let points = inspection::of(&named("B5")).len();
            assert_eq!(view.shown, "kept");
            assert_eq!(view.tally, (r.say.lines_tally)(4, 3));
            let [b4, b5, none, c1] = view.rows.as_slice() else {
                panic!("{view:?}")
            };
            assert_eq!(
                (b4.open.as_str(), b4.stop.as_str(), b4.shown),
                (r.lines_done, "", false)
            );
            assert_eq!(b4.reading, (r.say.lines_last)(TODAY, r.compared_within));
            assert!(b5.stop.ends_with("(at post 2)"), "{}", b5.stop);
            assert!(b5.stop.starts_with(r.do_not_use) && b5.shown, "{}", b5.stop);
            assert!(
                b5.stop.contains(r.found_outside) && b5.stop.contains(&(r.say.lines_failed)(1))
            );
            let open = [
                r.lines_reading.to_owned(),
                (r.say.lines_points)(points, points),
            ]
            .join(", ");
            assert_eq!(b5.open, (r.say.lines_open_today)(&open));
            assert_eq!(
                (none.title.as_str(), none.reading.as_str()),
                (r.lines_unnamed, r.lines_not_read)
            );
            assert_eq!(
                (c1.reading.as_str(), &c1.open),
                (r.lines_not_read, &none.open)
            );
            // A reading that is not precise enough alone takes back no warning either.
            let poor = LogEntry {
                compared: Compared::Vague,
                ..entry("B5", "2026-03-04")
            };
            book.enter(poor);
            let again = round.view(voice, &named("B5"), &book, TODAY);
            assert_eq!(again.rows[1].stop, b5.stop);
            assert!(again.rows[1].reading.contains(r.compared_vague));
            // A reading that does not tell leaves the reading open, and takes back no warning.
            let vague = LogEntry {
                compared: Compared::NotTold,
                ..entry("B5", TODAY)
            };
            book.enter(vague);
            let again = round.view(voice, &named("B5"), &book, TODAY);
            assert_eq!(again.rows[1].stop, b5.stop);
            assert_eq!(again.rows[1].open, b5.open);
            book.enter(entry("B5", TODAY));
            book.look("B5", "rope_rust", "pass", "").expect("a point");
            book.sign("B5", TODAY, "");
            let again = round.view(voice, &named("B5"), &book, TODAY);
            assert_eq!(
                (again.rows[1].stop.as_str(), again.rows[1].open.as_str()),
                ("", r.lines_done)
            );
            let other = Case {
                invented: !named("B4").invented,
                ..named("B4")
            };
            assert_eq!(round.view(voice, &other, &book, TODAY).shown, "other");
            assert_eq!(round.view(voice, &named("D1"), &book, TODAY).shown, "new");
        }
    }

    /// The round goes from one line to the next that was not read today, and ends when all were.
    #[test]
    fn the_round_goes_on_to_the_next_line_that_was_not_read() {
        let round = round(&["B4", "B5", "C1"]);
        let voice = Voice::ALL[0];
        let mut book = Book::default();
        let next = |shown: &str, book: &Book| {
            let next = round.next(voice, &named(shown), book, TODAY);
            next.map(|next| round.lines.lines[next.place].case.title.clone())
        };
        let some = |title: &str| Some(title.to_owned());
        assert_eq!(next("B4", &book), some("B5"));
        assert_eq!(next("C1", &book), some("B4"));
        assert_eq!(next("not kept", &book), some("B4"));
        book.enter(entry("B5", "2026-03-04"));
        assert_eq!(next("B4", &book), some("B5"));
        book.enter(entry("B5", TODAY));
        assert_eq!(next("B4", &book), some("C1"));
        book.enter(entry("C1", TODAY));
        assert_eq!((next("B4", &book), next("C1", &book)), (None, some("B4")));
        assert_eq!(
            Round::default().next(voice, &named("B4"), &book, TODAY),
            None
        );
    }

    /// The answer of a line is that of the worker, in the words of the layouts; until then it waits.
    #[test]
    fn each_line_has_the_answer_of_its_case() {
        let voice = Voice {
            lang: Lang::En,
            units: Units::Metric,
        };
        let mut round = round(&["B4"]);
        let mut alone = named("B5");
        alone.workers.truncate(1);
        assert!(round.lines.keep(&alone, 1.0));
        let book = Book::default();
        let rows = |round: &Round| round.view(voice, &named("B4"), &book, TODAY).rows;
        assert!(
            rows(&round)
                .iter()
                .all(|row| row.waiting && !row.looking && row.mark == "open")
        );
        let solved = Solved::of(&alone).expect("a case without faults");
        round.take_in(1, &solved.numbers());
        round.take_in(9, &solved.numbers());
        let row = rows(&round).remove(1);
        assert!(!row.waiting && row.looking, "{row:?}");
        let stand = shelf::stand(voice, &alone, &solved.row, None);
        assert_eq!(
            (&row.footroom, &row.strength),
            (&stand.footroom, &stand.strength)
        );
        let mut looking = Looking::new(&alone).expect("a case without faults");
        while !fit::anywhere::advance(&mut looking).done {}
        let found = looking.found().expect("done");
        assert!(round.take_anywhere(1, &fit::anywhere::numbers(&found)));
        assert!(!round.take_anywhere(0, &fit::anywhere::numbers(&found)));
        let row = rows(&round).remove(1);
        let stand = shelf::stand(voice, &alone, &solved.row, Some(&found));
        assert!(!row.looking && row.anywhere == stand.anywhere && row.mark == mark_key(stand.mark));
        // One whose checks are not met is not to be used: as its sheets say it, and before the worst anywhere
        // on it is known.
        let crew = named("B4");
        let solved = Solved::of(&crew).expect("a case without faults");
        let standing = &solved.row.finding.standing;
        assert!(standing.parts_failing + standing.limits_not_met > 0);
        round.take_in(0, &solved.numbers());
        let assessment =
            footroom_core::assess::assess(&crew, Default::default()).expect("no faults");
        let told = crate::first::answer::Told::of(voice, &crew, &assessment);
        assert!(!told.remarks().do_not_use.is_empty());
        let r = voice.record();
        let stop = rows(&round).remove(0).stop;
        assert!(
            stop.starts_with(r.do_not_use) && stop.contains(r.lines_not_met),
            "{stop}"
        );
        // Beside what was found on it.
        let mut failed = Book::default();
        failed
            .look("B4", "rope_rust", "fail", "at post 2")
            .expect("a point");
        let both = round.view(voice, &crew, &failed, TODAY).rows.remove(0).stop;
        assert!(
            both.starts_with(&stop) && both.ends_with("(at post 2)"),
            "{both}"
        );
        // What a worker cannot solve has no result, and says so.
        round.take_in(0, &[]);
        assert!(rows(&round)[0].stop.contains(voice.office().stop_unknown));
        let row = rows(&round).remove(0);
        assert_eq!(
            (row.footroom.as_str(), row.mark, row.waiting),
            ("no result", "unknown", false)
        );
        // Answers are of the case, not of the place.
        round.lines.remove(0);
        assert_eq!(rows(&round)[0].anywhere, stand.anywhere);
    }

    #[test]
    fn what_became_of_a_file_is_said_in_full() {
        for voice in Voice::ALL {
            let taken = Taken {
                added: 2,
                newer: 1,
                same: 3,
                beside: vec!["B5".to_owned(), " ".to_owned()],
            };
            let said = taken_text(voice, &taken);
            for part in ["2", "1", "3", "B5", voice.record().lines_unnamed] {
                assert!(said.contains(part), "{said}");
            }
            let plain = taken_text(
                voice,
                &Taken {
                    beside: Vec::new(),
                    ..taken
                },
            );
            assert!(said.starts_with(&plain) && said != plain);
        }
    }
}
