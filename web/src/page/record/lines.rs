//! The lines of a site that are kept on the device, and how they travel as one file.
//!
//! A JSON text of its own, see [`Lines::text`]: versioned, read strictly and whole. What is known of
//! each from day to day stands in the site book, by the name of its job. No answer is kept: it is
//! calculated of the case where it is shown.

use footroom_core::case::Case;
use footroom_core::constants::MODEL_VERSION;

use crate::page::record::book::{self, Book, list, versioned};
use crate::wire::case_json::{self, Entries, expected, number};
use crate::wire::json::{self, Json, JsonFault, Kind, Reason, Writer};

/// Name of the first entry of the text; its value is the version.
pub const MARK: &str = "footroom_lines";

/// Version of the present format.
pub const VERSION: u32 = 1;

/// Most lines that are kept: one site has a handful.
pub const LINES_MAX: usize = 40;

/// Latest instant at which a line can have been kept, s since 1970 began: in the year 5138.
const KEPT_MAX_S: f64 = 1.0e11;

/// A line that is kept.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptLine {
    /// Its case.
    pub case: Case,
    /// When it was kept, whole s since 1970 began, in UTC.
    pub kept_s: f64,
}

/// Those that are kept, in the order of the round.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lines {
    /// No case twice.
    pub lines: Vec<KeptLine>,
}

/// Which line of a text a fault is in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// Counted from 1.
    pub line: usize,
    /// Name of its job, as far as it can be read.
    pub name: String,
}

/// What cannot be read, and in which line; `None`: in none of them.
pub type LinesFault = (Option<Place>, JsonFault);

/// What has become of the lines of a file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Taken {
    /// How many are new here.
    pub added: usize,
    /// How many were here, kept earlier.
    pub newer: usize,
    /// How many were here, kept as late or later.
    pub same: usize,
    /// Names of those that now stand beside another case of the same name.
    pub beside: Vec<String>,
}

/// An instant as it is kept, from ms.
pub fn kept_s(now_ms: f64) -> f64 {
    let seconds = (now_ms / 1_000.0).floor();
    if seconds.is_nan() {
        0.0
    } else {
        seconds.clamp(0.0, KEPT_MAX_S)
    }
}

impl Lines {
    /// Place of a case.
    pub fn place(&self, case: &Case) -> Option<usize> {
        self.lines.iter().position(|line| line.case == *case)
    }

    /// Whether another case of the same name is kept.
    pub fn has_other(&self, case: &Case) -> bool {
        let other = |line: &KeptLine| line.case.title == case.title && line.case != *case;
        self.lines.iter().any(other)
    }

    /// Keeps a case as the last of the lines; where it is one of them already, it stays in its place
    /// as kept now. False: there is no room.
    pub fn keep(&mut self, case: &Case, kept_s: f64) -> bool {
        if let Some(place) = self.place(case) {
            if let Some(line) = self.lines.get_mut(place) {
                line.kept_s = line.kept_s.max(kept_s);
            }
            return true;
        }
        if self.lines.len() >= LINES_MAX {
            return false;
        }
        self.lines.push(KeptLine {
            case: case.clone(),
            kept_s,
        });
        true
    }

    /// Keeps a case in place of the first other one of the same name; without one as
    /// [`Lines::keep`] does.
    pub fn keep_instead(&mut self, case: &Case, kept_s: f64) -> bool {
        let other = |line: &&mut KeptLine| line.case.title == case.title && line.case != *case;
        if self.place(case).is_none()
            && let Some(line) = self.lines.iter_mut().find(other)
        {
            *line = KeptLine {
                case: case.clone(),
                kept_s,
            };
            return true;
        }
        self.keep(case, kept_s)
    }

    /// Takes a line out, by its place.
    pub fn remove(&mut self, place: usize) {
        if place < self.lines.len() {
            self.lines.remove(place);
        }
    }

    /// Takes the lines of a file in. The same case is kept once, with the later instant; another
    /// case of the same name stands beside it. `None`, and nothing is changed, when there is not room
    /// for all.
    pub fn take_in(&mut self, other: Lines) -> Option<Taken> {
        let mut both = self.clone();
        let mut taken = Taken::default();
        for line in other.lines {
            match both.place(&line.case).and_then(|i| both.lines.get_mut(i)) {
                Some(here) if here.kept_s < line.kept_s => {
                    here.kept_s = line.kept_s;
                    taken.newer += 1;
                }
                Some(_) => taken.same += 1,
                None => {
                    if both.has_other(&line.case) {
                        taken.beside.push(line.case.title.clone());
                    }
                    both.keep(&line.case, line.kept_s).then_some(())?;
                    taken.added += 1;
                }
            }
        }
        *self = both;
        Some(taken)
    }

    /// What two tabs have made of the same lines, brought together: `base`, what both began with,
    /// `mine` this tab's, `theirs` the other's, written before. What one has taken out is gone, what
    /// one has kept is there. `None`: there is not room for all.
    pub fn merged(base: &Lines, mine: &Lines, theirs: &Lines) -> Option<Lines> {
        let mut both = theirs.clone();
        let gone =
            |line: &KeptLine| base.place(&line.case).is_some() && mine.place(&line.case).is_none();
        both.lines.retain(|line| !gone(line));
        for line in &mine.lines {
            let theirs_gone =
                base.place(&line.case).is_some() && theirs.place(&line.case).is_none();
            if !theirs_gone {
                both.keep(&line.case, line.kept_s).then_some(())?;
            }
        }
        Some(both)
    }

    /// The lines as text: `book`, inspections and log, where they go along.
    pub fn text(&self, book: Option<&Book>) -> String {
        let mut w = Writer::default();
        w.open('{');
        w.name(MARK);
        w.word(&VERSION.to_string());
        w.name("model");
        w.word(&MODEL_VERSION.to_string());
        w.name("lines");
        w.open('[');
        for line in &self.lines {
            w.open('{');
            w.name("kept_s");
            w.number(line.kept_s);
            w.name("case");
            case_json::write(&line.case, &mut w);
            w.close('}');
        }
        w.close(']');
        if let Some(book) = book {
            w.name("site");
            book.write(&mut w);
        }
        w.close('}');
        w.finish()
    }

    /// Reads a text from its JSON; the version has been looked at. The faults of the cases are for
    /// [`Case::faults`].
    ///
    /// # Errors
    /// The first value that does not fit, its place, and in which line it is.
    pub fn of_json(json: &Json) -> Result<(Self, Option<Book>), LinesFault> {
        let mut all = Self::default();
        let mut at = None;
        match all.read(json, &mut at) {
            Ok(book) => Ok((all, book)),
            Err(fault) => Err((at, fault)),
        }
    }

    /// The same; `at`: the line that is being read. Gives the book that goes along.
    fn read(&mut self, json: &Json, at: &mut Option<Place>) -> Result<Option<Book>, JsonFault> {
        let mut entries = Entries::of(json)?;
        entries.need(MARK)?;
        let model = entries.need("model")?;
        let version = number(model)?;
        if version.fract() != 0.0 || !(0.0..=f64::from(u32::MAX)).contains(&version) {
            return Err(expected(model));
        }
        for (i, item) in list(entries.need("lines")?, LINES_MAX)?.iter().enumerate() {
            let line = i + 1;
            let name = name_of(item);
            *at = Some(Place { line, name });
            let line = read_line(item, version as u32)?;
            if self.place(&line.case).is_some() {
                let reason = Reason::Twice(line.case.title);
                return Err(JsonFault {
                    at: item.at,
                    reason,
                });
            }
            self.lines.push(line);
        }
        *at = None;
        let book = match entries.take("site") {
            Some(site) => {
                versioned(site, book::MARK, book::VERSION)?;
                Some(Book::of_json(site)?)
            }
            None => None,
        };
        entries.finish()?;
        Ok(book)
    }

    /// The lines of a text that the device keeps.
    ///
    /// # Errors
    /// What is no JSON, or not that of lines of this version, and its place.
    pub fn from_text(text: &str) -> Result<Self, JsonFault> {
        let json = json::read(text.as_bytes())?;
        versioned(&json, MARK, VERSION)?;
        match Self::of_json(&json) {
            Ok((lines, _)) => Ok(lines),
            Err((_, fault)) => Err(fault),
        }
    }
}

fn read_line(json: &Json, model: u32) -> Result<KeptLine, JsonFault> {
    let mut entries = Entries::of(json)?;
    let kept = entries.need("kept_s")?;
    let kept_s = number(kept)?;
    if kept_s.fract() != 0.0 || !(0.0..=KEPT_MAX_S).contains(&kept_s) {
        return Err(expected(kept));
    }
    let case = case_json::read(entries.need("case")?, model)?;
    entries.finish()?;
    Ok(KeptLine { case, kept_s })
}

/// Name of the job of a line that may be damaged; empty where it has none.
fn name_of(json: &Json) -> String {
    let entry = |json: &'_ Json, name: &str| match &json.kind {
        Kind::Object(entries) => {
            let found = entries.iter().find(|(other, _)| other == name);
            found.map(|(_, value)| value.clone())
        }
        _ => None,
    };
    let title = entry(json, "case").and_then(|case| entry(&case, "title"));
    match title.map(|title| title.kind) {
        Some(Kind::Text(title)) => title.chars().take(footroom_core::case::TEXT_MAX).collect(),
        _ => String::new(),
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::page::record::book::tests::entry;
    use crate::page::record::book::{Found, Inspection, JOBS_MAX, LOG_MAX, Looked};
    use crate::page::record::inspection::POINTS;
    use footroom_core::case::{Below, TEXT_MAX};
    use footroom_core::constants::{BELOW_MAX, SPANS_MAX, WORKERS_MAX};
    use footroom_core::demo::demo;
    use proptest::collection::vec;
    use proptest::prelude::*;

    pub(crate) fn named(title: &str) -> Case {
        Case {
            title: title.to_owned(),
            ..demo()
        }
    }

    fn lines(titles: &[&str]) -> Lines {
        let mut lines = Lines::default();
        for title in titles {
            assert!(lines.keep(&named(title), 1_000.0));
        }
        lines
    }

    fn titles(lines: &Lines) -> Vec<&str> {
        lines.lines.iter().map(|l| l.case.title.as_str()).collect()
    }

    #[test]
    fn the_same_case_is_kept_once_and_another_of_its_name_beside_it_or_instead() {
        let mut kept = lines(&["B4", "B5"]);
        assert!(kept.keep(&named("B4"), 2_000.0));
        assert_eq!(
            (titles(&kept), kept.lines[0].kept_s),
            (vec!["B4", "B5"], 2_000.0)
        );
        // As it was kept before: a clock that was set back makes nothing older.
        assert!(kept.keep(&named("B4"), 500.0) && kept.lines[0].kept_s == 2_000.0);
        let mut slack = named("B4");
        slack.line.pretension_n = 3_000.0;
        assert!(kept.has_other(&slack) && !kept.has_other(&named("B5")));
        let mut beside = kept.clone();
        assert!(beside.keep(&slack, 3_000.0));
        assert_eq!(titles(&beside), ["B4", "B5", "B4"]);
        assert!(kept.keep_instead(&slack, 3_000.0));
        assert_eq!(
            (titles(&kept), kept.place(&slack)),
            (vec!["B4", "B5"], Some(0))
        );
        assert!(kept.keep_instead(&named("C1"), 1.0));
        kept.remove(9);
        kept.remove(0);
        assert_eq!(titles(&kept), ["B5", "C1"]);
        let mut full = Lines::default();
        for i in 0..LINES_MAX {
            assert!(full.keep(&named(&i.to_string()), 0.0));
        }
        let before = full.clone();
        assert!(!full.keep(&named("more"), 0.0) && full.keep(&named("7"), 0.0));
        assert_eq!(full.take_in(lines(&["3", "more"])), None);
        assert_eq!(full, before);
    }

    /// A line of a file takes the place of the same case only when it is newer; another case of the
    /// same name stands beside it; what was done is counted.
    #[test]
    fn lines_of_a_file_replace_only_what_is_older() {
        let mut kept = lines(&["B4", "B5"]);
        let mut file = lines(&["B5", "C1"]);
        file.keep(&named("B4"), 5_000.0);
        let mut slack = named("B5");
        slack.line.pretension_n = 3_000.0;
        file.keep(&slack, 10.0);
        let taken = kept.take_in(file.clone()).expect("room");
        let wanted = Taken {
            added: 2,
            newer: 1,
            same: 1,
            beside: vec!["B5".to_owned()],
        };
        assert_eq!(taken, wanted);
        assert_eq!(titles(&kept), ["B4", "B5", "C1", "B5"]);
        assert_eq!(kept.lines[0].kept_s, 5_000.0);
        // Once more: nothing is new.
        let before = kept.clone();
        let again = kept.take_in(file).expect("room");
        assert_eq!((again.added, again.newer, again.same), (0, 0, 4));
        assert_eq!(kept, before);
    }

    /// Two tabs begin with the same lines: whichever writes last, both changes stand.
    #[test]
    fn the_last_of_two_tabs_does_not_lose_the_lines_of_the_other() {
        let base = lines(&["B4", "B5", "C1"]);
        let mut one = base.clone();
        one.keep(&named("D1"), 9.0);
        one.remove(0);
        let mut two = base.clone();
        two.keep(&named("E1"), 9.0);
        for (mine, theirs) in [(&one, &two), (&two, &one)] {
            let both = Lines::merged(&base, mine, theirs).expect("room");
            let mut all = titles(&both);
            all.sort_unstable();
            assert_eq!(all, ["B5", "C1", "D1", "E1"]);
        }
        // Nothing was there before: all of both.
        let none = Lines::default();
        let both = Lines::merged(&none, &lines(&["B4"]), &lines(&["B4", "B5"])).expect("room");
        assert_eq!(titles(&both), ["B4", "B5"]);
        let mut full = Lines::default();
        for i in 0..LINES_MAX {
            full.keep(&named(&i.to_string()), 0.0);
        }
        assert_eq!(Lines::merged(&none, &lines(&["B4"]), &full), None);
    }

    /// The fullest lines with the fullest book are within what is read at all.
    #[test]
    fn the_fullest_lines_and_book_are_read() {
        let mut case = named(&"j".repeat(TEXT_MAX));
        case.line.spans_m = vec![3.0; SPANS_MAX];
        case.workers = vec![case.workers[0]; WORKERS_MAX];
        let below = Below {
            from_m: 1.0,
            to_m: 2.0,
            height_m: 1.0,
            ..case.site.below[0]
        };
        case.site.below = vec![below; BELOW_MAX];
        let mut all = Lines::default();
        for i in 0..LINES_MAX {
            case.site.margin_m = 0.5 + 0.01 * i as f64;
            assert!(all.keep(&case, 1.7e9));
        }
        let mut book = Book::default();
        for job in 0..JOBS_MAX {
            book.inspections.push(Inspection {
                job: format!("{job} {}", "j".repeat(40)),
                date: "2026-03-04".to_owned(),
                name: "N. N.".to_owned(),
                looked: (0..POINTS.len())
                    .map(|point| Looked {
                        point,
                        found: Some(Found::Fail),
                        note: "rust".to_owned(),
                    })
                    .collect(),
            });
        }
        for _ in 0..LOG_MAX {
            assert!(book.enter(entry("B4", "2026-03-04")));
        }
        let text = all.text(Some(&book));
        assert!(text.len() < json::BYTES_MAX, "{}", text.len());
        let json = json::read(text.as_bytes()).expect("within the limits");
        assert_eq!(Lines::of_json(&json), Ok((all, Some(book))));
    }

    #[test]
    fn a_fault_names_its_line() {
        let good = lines(&["B4", "B5", "C1"]).text(Some(&Book::default()));
        let fault = |from: &str, to: &str| {
            let places: Vec<usize> = good.match_indices(from).map(|(at, _)| at).collect();
            // In the last line where there are several.
            let at = *places.last().expect(from);
            let text = format!("{}{to}{}", &good[..at], &good[at + from.len()..]);
            match json::read(text.as_bytes()) {
                Ok(json) => Lines::of_json(&json).expect_err(to),
                Err(fault) => (None, fault),
            }
        };
        let third = |name: &str| {
            Some(Place {
                line: 3,
                name: name.to_owned(),
            })
        };
        let (place, found) = fault("\"kept_s\":1000.0", "\"kept_s\":-1");
        assert_eq!((place, found.reason), (third("C1"), Reason::Kind));
        let (place, found) = fault("\"pretension_n\"", "\"__proto__\"");
        assert_eq!(place, third("C1"));
        assert!(
            matches!(found.reason, Reason::Missing(_) | Reason::Unknown(_)),
            "{found:?}"
        );
        let (place, found) = fault("\"title\":\"C1\"", "\"title\":\"B5\"");
        assert_eq!(
            (place, found.reason),
            (third("B5"), Reason::Twice("B5".into()))
        );
        let (place, found) = fault("\"title\":\"C1\"", "\"title\":7");
        assert_eq!((place, found.reason), (third(""), Reason::Kind));
        for (from, to) in [
            ("\"site\":", "\"sight\":"),
            ("\"footroom_site\":1", "\"footroom_site\":2"),
        ] {
            assert_eq!(fault(from, to).0, None, "{to}");
        }
        let (place, found) = fault("\"log\":[]", "\"log\":7");
        assert_eq!((place, found.reason), (None, Reason::Kind));
        for (mark, reason) in [
            ("\"footroom_lines\":2", Reason::Kind),
            ("\"footroom_line\":1", Reason::Missing(MARK)),
        ] {
            let text = good.replacen("\"footroom_lines\":1", mark, 1);
            assert_eq!(Lines::from_text(&text).expect_err(mark).reason, reason);
        }
        for end in 0..good.len() {
            assert!(Lines::from_text(&good[..end]).is_err(), "cut at {end}");
        }
    }

    #[test]
    fn an_instant_is_kept_in_whole_seconds() {
        assert_eq!(kept_s(1_772_582_400_999.0), 1_772_582_400.0);
        for (no_time, kept) in [(f64::NAN, 0.0), (-5.0, 0.0), (f64::INFINITY, KEPT_MAX_S)] {
            assert_eq!(kept_s(no_time), kept);
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        /// List, file, list: the same, to the last bit.
        #[test]
        fn any_lines_come_back_from_their_file(
            given in vec(("[^\\x00-\\x1f]{0,20}", 0.0..1.0e11f64, 1.0..9.0e3f64), 0..6),
            note in "(?s).{0,40}",
        ) {
            let mut kept = Lines::default();
            let mut book = Book::default();
            for (title, at, pretension_n) in given {
                let mut case = named(&title);
                case.line.pretension_n = pretension_n;
                kept.keep(&case, kept_s(1_000.0 * at));
                book.look(&title, "edge", "fail", &note);
                book.enter(entry(&title, "2026-03-04"));
            }
            prop_assert_eq!(Lines::from_text(&kept.text(None)), Ok(kept.clone()));
            let text = kept.text(Some(&book));
            let json = json::read(text.as_bytes()).expect("an own text");
            prop_assert_eq!(Lines::of_json(&json), Ok((kept.clone(), Some(book))));
            // Taken in where nothing is: the same lines.
            let mut other = Lines::default();
            let taken = other.take_in(kept.clone()).expect("room");
            prop_assert_eq!(taken.added, kept.lines.len());
            prop_assert_eq!(other, kept);
        }
    }
}
