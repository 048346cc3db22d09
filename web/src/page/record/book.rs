//! The site book: inspections and the daily log, kept on the device and exchanged as a file.
//!
//! A JSON text of its own, see [`Book::text`]: versioned, read strictly and whole. Each entry
//! carries the name of its job, so that one book serves several lines.

use crate::page::record::calendar::is_date;
use crate::page::record::inspection::POINTS;
use crate::wire::case_json::{Entries, expected, number};
use crate::wire::json::{self, Json, JsonFault, Kind, Reason, Writer};

/// Name of the first entry of a book's text; its value is the version.
pub const MARK: &str = "footroom_site";

/// Version of the present format.
pub const VERSION: u32 = 1;

/// Most characters of a typed text.
pub const TEXT_MAX: usize = 200;

/// Most entries of a log: five years of one line, every day.
pub const LOG_MAX: usize = 2_000;

/// Most jobs with an inspection.
pub const JOBS_MAX: usize = 200;

/// What an inspection found at a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Found {
    /// In order.
    Pass,
    /// Not in order: the line is not used.
    Fail,
    /// There is no such thing on this line.
    NotApplicable,
}

/// Keys of [`Found`].
pub const FOUND: [(&str, Found); 3] = [
    ("pass", Found::Pass),
    ("fail", Found::Fail),
    ("not_applicable", Found::NotApplicable),
];

/// A point that was looked at or noted upon.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Looked {
    /// Place in [`POINTS`].
    pub point: usize,
    /// What was found; `None`: only a note so far.
    pub found: Option<Found>,
    /// The note; may be empty.
    pub note: String,
}

/// The latest inspection of a line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Inspection {
    /// Name of the job.
    pub job: String,
    /// Day, as 2026-03-04; empty: not said.
    pub date: String,
    /// Who looked; may be empty.
    pub name: String,
    /// What was found, in the order of the points.
    pub looked: Vec<Looked>,
}

impl Inspection {
    /// What was found at a point.
    pub fn at(&self, point: usize) -> Option<&Looked> {
        self.looked.iter().find(|l| l.point == point)
    }

    /// The points that were not in order.
    pub fn failed(&self) -> impl Iterator<Item = &Looked> {
        self.looked.iter().filter(|l| l.found == Some(Found::Fail))
    }
}

/// How a tension that was read compares with the one expected at that temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Compared {
    /// Within the tolerance.
    Within,
    /// Within the tolerance, by a reading that is not precise enough alone.
    Vague,
    /// Too little.
    Below,
    /// Too much.
    Above,
    /// The reading does not tell, or there is none.
    NotTold,
}

/// Keys of [`Compared`].
pub const COMPARED: [(&str, Compared); 5] = [
    ("within", Compared::Within),
    ("vague", Compared::Vague),
    ("below", Compared::Below),
    ("above", Compared::Above),
    ("not_told", Compared::NotTold),
];

/// A day of the log, as it was read and judged then.
#[derive(Clone, Debug, PartialEq)]
pub struct LogEntry {
    /// Name of the job.
    pub job: String,
    /// Day, as 2026-03-04.
    pub date: String,
    /// Who read; may be empty.
    pub name: String,
    /// Temperature of the rope, K.
    pub temperature_k: Option<f64>,
    /// Weight hung at mid-span, N.
    pub weight_n: Option<f64>,
    /// Movement under it, m.
    pub movement_m: Option<f64>,
    /// Number of swings that were timed.
    pub swings: Option<u32>,
    /// Their time, s.
    pub time_s: Option<f64>,
    /// Tension read, N.
    pub tension_n: Option<f64>,
    /// Tension expected at that temperature, N.
    pub expected_n: Option<f64>,
    /// How the two compare.
    pub compared: Compared,
    /// A remark; may be empty.
    pub note: String,
}

impl LogEntry {
    /// Whether something was read on the line.
    pub fn is_read(&self) -> bool {
        self.movement_m.is_some() || self.time_s.is_some()
    }
}

/// All that is kept.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Book {
    /// The latest inspection of each job.
    pub inspections: Vec<Inspection>,
    /// The log, the earliest day first.
    pub log: Vec<LogEntry>,
}

/// A typed text without white space around it and no longer than it may be.
pub fn trimmed(text: &str) -> String {
    text.trim().chars().take(TEXT_MAX).collect()
}

impl Inspection {
    /// What was found and noted at a point; nothing where nothing was said.
    fn said(&self, point: usize) -> (Option<Found>, &str) {
        self.at(point)
            .map_or((None, ""), |l| (l.found, l.note.as_str()))
    }

    /// Says something of a point in place of what was said.
    fn say(&mut self, point: usize, found: Option<Found>, note: &str) {
        self.looked.retain(|l| l.point != point);
        if found.is_some() || !note.is_empty() {
            let place = self.looked.partition_point(|l| l.point < point);
            let note = note.to_owned();
            self.looked.insert(place, Looked { point, found, note });
        }
    }

    /// Whether nothing is said in it.
    fn is_empty(&self) -> bool {
        self.date.is_empty() && self.name.is_empty() && self.looked.is_empty()
    }

    /// Takes over what another inspection of the same job says; what failed stays so.
    fn lay_over(&mut self, other: &Inspection, stay: &mut Vec<usize>) {
        for (text, new) in [(&mut self.date, &other.date), (&mut self.name, &other.name)] {
            if !new.is_empty() {
                text.clone_from(new);
            }
        }
        for looked in &other.looked {
            let (was, noted) = self.said(looked.point);
            let found = match (was, looked.found) {
                (Some(Found::Fail), Some(new)) if new != Found::Fail => {
                    stay.push(looked.point);
                    was
                }
                (was, new) => new.or(was),
            };
            let note = if looked.note.is_empty() {
                noted.to_owned()
            } else {
                looked.note.clone()
            };
            self.say(looked.point, found, &note);
        }
    }
}

/// Of two changes of the same thing: the other's where only that is one, else mine.
fn changed<T: PartialEq>(base: T, mine: T, theirs: T) -> T {
    if mine == base { theirs } else { mine }
}

/// An inspection as [`Book::merged`] brings it together; `None`: nobody has it any more.
fn merged_inspection(
    base: Option<&Inspection>,
    mine: Option<&Inspection>,
    theirs: Option<&Inspection>,
    stay: &mut Vec<usize>,
) -> Option<Inspection> {
    let job = &mine.or(theirs)?.job;
    let none = Inspection::default();
    let gone = mine.is_none() || theirs.is_none();
    let [base, mine, theirs] = [base, mine, theirs].map(|i| i.unwrap_or(&none));
    let mut both = Inspection {
        job: job.clone(),
        date: changed(&base.date, &mine.date, &theirs.date).clone(),
        name: changed(&base.name, &mine.name, &theirs.name).clone(),
        looked: Vec::new(),
    };
    for point in 0..POINTS.len() {
        let [was, here, there] = [base, mine, theirs].map(|i| i.said(point));
        let mut found = changed(was.0, here.0, there.0);
        let both_changed = here.0 != was.0 && there.0 != was.0;
        if both_changed && there.0 == Some(Found::Fail) && found != there.0 {
            found = there.0;
            stay.push(point);
        }
        both.say(point, found, changed(was.1, here.1, there.1));
    }
    // What one of them has taken away is gone, unless the other has said something new.
    (!gone || !both.is_empty()).then_some(both)
}

/// The entries of `all` that are not in `others`, each as often as it is missing there.
fn without<'a>(all: &'a [LogEntry], others: &[LogEntry]) -> Vec<&'a LogEntry> {
    let mut left: Vec<&LogEntry> = others.iter().collect();
    let missing = all.iter().filter(|entry| {
        let found = left.iter().position(|other| other == entry);
        found.map(|place| left.swap_remove(place)).is_none()
    });
    missing.collect()
}

impl Book {
    /// The latest inspection of a job.
    pub fn inspection(&self, job: &str) -> Option<&Inspection> {
        self.inspections.iter().find(|i| i.job == job)
    }

    /// The same, to be changed; `None` when there is room for no other job.
    fn inspection_mut(&mut self, job: &str) -> Option<&mut Inspection> {
        let known = self.inspections.iter().position(|i| i.job == job);
        let place = match known {
            Some(place) => place,
            None if self.inspections.len() < JOBS_MAX => {
                self.inspections.push(Inspection {
                    job: job.to_owned(),
                    ..Inspection::default()
                });
                self.inspections.len() - 1
            }
            None => return None,
        };
        self.inspections.get_mut(place)
    }

    /// Says day and name of an inspection; a day that is none is left out.
    pub fn sign(&mut self, job: &str, date: &str, name: &str) {
        if let Some(inspection) = self.inspection_mut(job) {
            inspection.date = if is_date(date) {
                date.to_owned()
            } else {
                String::new()
            };
            inspection.name = trimmed(name);
        }
    }

    /// Takes what was found at a point, by the keys of [`POINTS`] and [`FOUND`]; another key for
    /// what was found means nothing yet. `None`: there is no such point, or no room.
    pub fn look(&mut self, job: &str, point: &str, found: &str, note: &str) -> Option<()> {
        let point = POINTS.iter().position(|p| p.key == point)?;
        let found = FOUND.iter().find(|(key, _)| *key == found).map(|(_, f)| *f);
        let note = trimmed(note);
        self.inspection_mut(job)?.say(point, found, &note);
        Some(())
    }

    /// Forgets the inspection of a job, so that a new one can begin; what failed stays so until
    /// somebody has looked at it again.
    pub fn clear(&mut self, job: &str) {
        for inspection in self.inspections.iter_mut().filter(|i| i.job == job) {
            inspection.date.clear();
            inspection.name.clear();
            inspection.looked.retain(|l| l.found == Some(Found::Fail));
        }
        self.inspections.retain(|i| i.job != job || !i.is_empty());
    }

    /// Enters a day; false when the log is full.
    pub fn enter(&mut self, entry: LogEntry) -> bool {
        if self.log.len() >= LOG_MAX {
            return false;
        }
        let place = self.log.partition_point(|e| e.date <= entry.date);
        self.log.insert(place, entry);
        true
    }

    /// Takes an entry out, by its place in the log.
    pub fn remove(&mut self, place: usize) {
        if place < self.log.len() {
            self.log.remove(place);
        }
    }

    /// Places in the log of the entries of a job.
    pub fn places(&self, job: &str) -> Vec<usize> {
        let all = self.log.iter().enumerate();
        all.filter(|(_, e)| e.job == job).map(|(i, _)| i).collect()
    }

    /// Takes another book in: entries that are not here yet, and inspections. A later one, by its
    /// day, takes the place of that of the same job; any other is laid over it point by point, and a
    /// point that failed here stays so. `None`, and nothing is changed, when there is not room for
    /// all; else the points that stay failed although the other book says otherwise.
    pub fn take_in(&mut self, other: Book) -> Option<Vec<usize>> {
        let mut both = self.clone();
        let mut stay = Vec::new();
        for entry in other.log {
            if !both.log.contains(&entry) && !both.enter(entry) {
                return None;
            }
        }
        for inspection in other.inspections {
            let place = both.inspection_mut(&inspection.job)?;
            // Days of a calendar in this form are in the order of their letters; none is before all.
            if inspection.date > place.date {
                *place = inspection;
            } else {
                place.lay_over(&inspection, &mut stay);
            }
        }
        *self = both;
        Some(stay)
    }

    /// What two tabs (or copies of the page) have made of one book, brought together: `base` is the
    /// book that both began with, `mine` this tab's, `theirs` the other's, written before. Each day,
    /// name, point, note and entry that only one has changed is his; where both have changed the
    /// same, the latest change, which is mine, goes before the other, but for a point: when one of
    /// them says that it failed, it has failed. Only who saw that it failed can so undo it.
    ///
    /// Gives the points that stay failed against `mine` too; `None` when there is no room for all.
    pub fn merged(base: &Book, mine: &Book, theirs: &Book) -> Option<(Book, Vec<usize>)> {
        let mut both = Self::default();
        let mut stay = Vec::new();
        let mine_only = mine.inspections.iter();
        let mine_only = mine_only.filter(|i| theirs.inspection(&i.job).is_none());
        for Inspection { job, .. } in theirs.inspections.iter().chain(mine_only) {
            let (base, mine) = (base.inspection(job), mine.inspection(job));
            if let Some(merged) = merged_inspection(base, mine, theirs.inspection(job), &mut stay) {
                *both.inspection_mut(job)? = merged;
            }
        }
        // A day is never changed, only entered and taken out; alike ones are told apart by number.
        let mut gone = without(&base.log, &mine.log);
        for entry in &theirs.log {
            match gone.iter().position(|g| *g == entry) {
                Some(place) => {
                    gone.remove(place);
                }
                None => both.enter(entry.clone()).then_some(())?,
            }
        }
        for entry in without(&mine.log, &base.log) {
            both.enter(entry.clone()).then_some(())?;
        }
        Some((both, stay))
    }

    /// The book as text.
    pub fn text(&self) -> String {
        let mut w = Writer::default();
        self.write(&mut w);
        w.finish()
    }

    /// Writes the book as a value.
    pub(crate) fn write(&self, w: &mut Writer) {
        w.open('{');
        w.name(MARK);
        w.word(&VERSION.to_string());
        w.name("inspections");
        w.open('[');
        for inspection in &self.inspections {
            write_inspection(w, inspection);
        }
        w.close(']');
        w.name("log");
        w.open('[');
        for entry in &self.log {
            write_entry(w, entry);
        }
        w.close(']');
        w.close('}');
    }

    /// Reads a book's text from its JSON; the version has been looked at.
    ///
    /// # Errors
    /// The first value that does not fit, and its place.
    pub fn of_json(json: &Json) -> Result<Self, JsonFault> {
        let mut entries = Entries::of(json)?;
        let mut book = Self::default();
        entries.need(MARK)?;
        for item in list(entries.need("inspections")?, JOBS_MAX)? {
            let inspection = read_inspection(item)?;
            if book.inspection(&inspection.job).is_some() {
                return Err(JsonFault {
                    at: item.at,
                    reason: Reason::Twice(inspection.job),
                });
            }
            book.inspections.push(inspection);
        }
        for item in list(entries.need("log")?, LOG_MAX)? {
            book.enter(read_entry(item)?);
        }
        entries.finish()?;
        Ok(book)
    }

    /// The book of a text.
    ///
    /// # Errors
    /// What is no JSON, or not that of a book of this version, and its place.
    pub fn from_text(text: &str) -> Result<Self, JsonFault> {
        let json = json::read(text.as_bytes())?;
        versioned(&json, MARK, VERSION)?;
        Self::of_json(&json)
    }
}

/// Looks at the version of a text that the device keeps.
pub(crate) fn versioned(json: &Json, mark: &'static str, version: u32) -> Result<(), JsonFault> {
    let found = Entries::of(json)?.need(mark)?;
    match number(found) {
        Ok(found) if found == f64::from(version) => Ok(()),
        _ => Err(expected(found)),
    }
}

pub(crate) fn list(json: &Json, most: usize) -> Result<&[Json], JsonFault> {
    match &json.kind {
        Kind::List(items) if items.len() <= most => Ok(items),
        _ => Err(expected(json)),
    }
}

fn text(json: &Json) -> Result<String, JsonFault> {
    match &json.kind {
        Kind::Text(text) if text.chars().count() <= TEXT_MAX => Ok(text.clone()),
        _ => Err(expected(json)),
    }
}

fn date(json: &Json, may_be_empty: bool) -> Result<String, JsonFault> {
    let text = text(json)?;
    if is_date(&text) || (may_be_empty && text.is_empty()) {
        Ok(text)
    } else {
        Err(expected(json))
    }
}

/// A number of a range, or null.
fn optional(json: &Json, min: f64, max: f64) -> Result<Option<f64>, JsonFault> {
    match json.kind {
        Kind::Null => Ok(None),
        Kind::Number(value) if (min..=max).contains(&value) => Ok(Some(value)),
        _ => Err(expected(json)),
    }
}

/// One of the keys.
fn key<T: Copy>(json: &Json, keys: &[(&str, T)]) -> Result<T, JsonFault> {
    let Kind::Text(text) = &json.kind else {
        return Err(expected(json));
    };
    let found = keys.iter().find(|(key, _)| key == text);
    found.map(|(_, value)| *value).ok_or_else(|| expected(json))
}

fn key_of<T: PartialEq>(keys: &[(&'static str, T)], value: &T) -> &'static str {
    let found = keys.iter().find(|(_, v)| v == value);
    found.map_or("", |(key, _)| key)
}

impl Found {
    /// Its key.
    pub fn key(self) -> &'static str {
        key_of(&FOUND, &self)
    }
}

fn write_inspection(w: &mut Writer, inspection: &Inspection) {
    w.open('{');
    for (name, text) in [
        ("job", &inspection.job),
        ("date", &inspection.date),
        ("name", &inspection.name),
    ] {
        w.name(name);
        w.text(text);
    }
    w.name("looked");
    w.open('[');
    for looked in &inspection.looked {
        w.open('{');
        w.name("point");
        w.text(POINTS.get(looked.point).map_or("", |p| p.key));
        w.name("found");
        match looked.found {
            Some(found) => w.text(found.key()),
            None => w.word("null"),
        }
        w.name("note");
        w.text(&looked.note);
        w.close('}');
    }
    w.close(']');
    w.close('}');
}

fn read_inspection(json: &Json) -> Result<Inspection, JsonFault> {
    let mut entries = Entries::of(json)?;
    let mut inspection = Inspection {
        job: text(entries.need("job")?)?,
        date: date(entries.need("date")?, true)?,
        name: text(entries.need("name")?)?,
        looked: Vec::new(),
    };
    for item in list(entries.need("looked")?, POINTS.len())? {
        let mut inner = Entries::of(item)?;
        let at = inner.need("point")?;
        let name = text(at)?;
        let Some(point) = POINTS.iter().position(|p| p.key == name) else {
            return Err(JsonFault {
                at: at.at,
                reason: Reason::Unknown(name),
            });
        };
        if inspection.at(point).is_some() {
            return Err(JsonFault {
                at: at.at,
                reason: Reason::Twice(name),
            });
        }
        let found = inner.need("found")?;
        let found = match found.kind {
            Kind::Null => None,
            _ => Some(key(found, &FOUND)?),
        };
        let note = text(inner.need("note")?)?;
        inner.finish()?;
        let place = inspection.looked.partition_point(|l| l.point < point);
        inspection
            .looked
            .insert(place, Looked { point, found, note });
    }
    entries.finish()?;
    Ok(inspection)
}

/// The numbers of an entry, with their ranges.
const NUMBERS: [(&str, f64, f64); 7] = [
    ("temperature_k", 173.15, 373.15),
    ("weight_n", 0.0, 1.0e4),
    ("movement_m", 0.0, 100.0),
    ("swings", 1.0, 500.0),
    ("time_s", 0.0, 1.0e4),
    ("tension_n", 0.0, 1.0e7),
    ("expected_n", 0.0, 1.0e7),
];

fn write_entry(w: &mut Writer, e: &LogEntry) {
    w.open('{');
    for (name, text) in [
        ("job", e.job.as_str()),
        ("date", e.date.as_str()),
        ("name", e.name.as_str()),
        ("note", e.note.as_str()),
        ("compared", key_of(&COMPARED, &e.compared)),
    ] {
        w.name(name);
        w.text(text);
    }
    let numbers = [
        e.temperature_k,
        e.weight_n,
        e.movement_m,
        e.swings.map(f64::from),
        e.time_s,
        e.tension_n,
        e.expected_n,
    ];
    for ((name, ..), value) in NUMBERS.iter().zip(numbers) {
        w.name(name);
        match value {
            Some(value) => w.number(value),
            None => w.word("null"),
        }
    }
    w.close('}');
}

fn read_entry(json: &Json) -> Result<LogEntry, JsonFault> {
    let mut entries = Entries::of(json)?;
    let mut numbers = [None; NUMBERS.len()];
    for (place, &(name, min, max)) in numbers.iter_mut().zip(&NUMBERS) {
        let value = entries.need(name)?;
        *place = optional(value, min, max)?;
        if name == "swings" && place.is_some_and(|n| n.fract() != 0.0) {
            return Err(expected(value));
        }
    }
    let [
        temperature_k,
        weight_n,
        movement_m,
        swings,
        time_s,
        tension_n,
        expected_n,
    ] = numbers;
    let entry = LogEntry {
        job: text(entries.need("job")?)?,
        date: date(entries.need("date")?, false)?,
        name: text(entries.need("name")?)?,
        note: text(entries.need("note")?)?,
        compared: key(entries.need("compared")?, &COMPARED)?,
        temperature_k,
        weight_n,
        movement_m,
        swings: swings.map(|n| n as u32),
        time_s,
        tension_n,
        expected_n,
    };
    entries.finish()?;
    Ok(entry)
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use proptest::prelude::*;

    pub(crate) fn entry(job: &str, date: &str) -> LogEntry {
        LogEntry {
            job: job.to_owned(),
            date: date.to_owned(),
            name: "R. \"Q\"".to_owned(),
            temperature_k: Some(293.15),
            weight_n: Some(100.0),
            movement_m: Some(0.052),
            swings: None,
            time_s: None,
            tension_n: Some(4_312.7),
            expected_n: Some(4_400.0),
            compared: Compared::Within,
            note: String::new(),
        }
    }

    fn point(key: &str) -> usize {
        let found = POINTS.iter().position(|p| p.key == key);
        found.expect("a point")
    }

    fn full() -> Book {
        let mut book = Book::default();
        book.sign("B4", "2026-03-04", " N. N. ");
        book.look("B4", "rope_rust", "fail", "rust at post 2")
            .expect("a point");
        book.look("B4", "rope_wires", "pass", "").expect("a point");
        book.look("B4", "edge", "", "to be looked at")
            .expect("a point");
        assert!(book.enter(entry("B4", "2026-03-05")));
        assert!(book.enter(entry("B4", "2026-03-04")));
        assert!(book.enter(entry("C1", "2026-03-04")));
        book
    }

    /// The fullest book is within what is read at all.
    #[test]
    fn the_fullest_book_is_read() {
        let points = POINTS.len();
        let values = 4 + JOBS_MAX * (5 + 4 * points) + LOG_MAX * (1 + 5 + NUMBERS.len());
        assert!(values <= json::VALUES_MAX, "{values}");
        let mut book = Book::default();
        for job in 0..JOBS_MAX {
            let job = format!("{job} {}", "j".repeat(40));
            book.sign(&job, "2026-03-04", "N. N.");
            for point in POINTS {
                book.look(&job, point.key, "fail", "rust at post 2")
                    .expect("a point");
            }
        }
        for day in 0..LOG_MAX {
            let date = format!("2026-{:02}-{:02}", 1 + day % 12, 1 + day % 28);
            assert!(book.enter(entry("B4", &date)));
        }
        let text = book.text();
        assert!(text.len() < json::BYTES_MAX, "{}", text.len());
        let (read, steps) = crate::wire::steps::counted(|| Book::from_text(&text));
        assert_eq!(read, Ok(book));
        assert!(steps < 100 * text.len() as u64, "{steps} of {}", text.len());
    }

    #[test]
    fn a_book_comes_back_as_it_was() {
        let book = full();
        assert_eq!(Book::from_text(&book.text()), Ok(book.clone()));
        assert_eq!(
            Book::from_text(&Book::default().text()),
            Ok(Book::default())
        );
        assert_eq!(book.places("B4"), [0, 2]);
        let inspection = book.inspection("B4").expect("signed");
        assert_eq!(
            (inspection.name.as_str(), inspection.looked.len()),
            ("N. N.", 3)
        );
        assert_eq!(inspection.failed().count(), 1);
        // Points stand in their order.
        assert!(
            inspection
                .looked
                .windows(2)
                .all(|l| l[0].point < l[1].point)
        );
    }

    #[test]
    fn what_was_found_can_be_changed_and_taken_back() {
        let mut book = full();
        book.look("B4", "rope_rust", "pass", "").expect("a point");
        assert_eq!(book.inspection("B4").map(|i| i.failed().count()), Some(0));
        book.look("B4", "rope_rust", "", " ").expect("a point");
        assert_eq!(book.inspection("B4").map(|i| i.looked.len()), Some(2));
        assert!(book.look("B4", "no_such", "pass", "").is_none());
        let looked = |book: &mut Book, found| book.look("B4", "rope_sag", found, "two turns");
        looked(&mut book, "fail").expect("a point");
        book.sign("B4", "2026-03-04", "A");
        book.clear("B4");
        let anew = book.inspection("B4").expect("what failed");
        assert_eq!((anew.looked.len(), anew.failed().count()), (1, 1));
        assert!(anew.date.is_empty() && anew.name.is_empty());
        assert_eq!(anew.looked[0].note, "two turns");
        looked(&mut book, "pass").expect("a point");
        book.clear("B4");
        assert!(book.inspection("B4").is_none());
        book.remove(99);
        book.remove(0);
        assert_eq!(book.log.len(), 2);
    }

    #[test]
    fn taking_in_adds_what_is_new_and_never_half() {
        let mut book = full();
        let mut other = full();
        other.enter(entry("B4", "2026-03-06"));
        other
            .look("B4", "rope_rust", "pass", "replaced")
            .expect("a point");
        other.look("B4", "edge", "pass", "").expect("a point");
        // Of the same day: what failed here stays so, and is told; the rest is taken.
        let rust = point("rope_rust");
        assert_eq!(book.take_in(other.clone()), Some(vec![rust]));
        assert_eq!(book.log.len(), 4);
        let taken = book.inspection("B4").expect("signed");
        assert_eq!(taken.said(rust), (Some(Found::Fail), "replaced"));
        assert_eq!(
            taken.said(point("edge")),
            (Some(Found::Pass), "to be looked at")
        );
        // A later inspection takes its place.
        let mut later = other.clone();
        later.sign("B4", "2026-03-06", "N. N.");
        assert_eq!(book.take_in(later.clone()), Some(Vec::new()));
        assert_eq!(book.inspections, later.inspections);
        let mut crowded = Book::default();
        for day in 0..LOG_MAX {
            assert!(crowded.enter(LogEntry {
                time_s: Some(day as f64),
                ..entry("B4", "2026-01-01")
            }));
        }
        let before = crowded.clone();
        assert!(!crowded.enter(entry("B4", "2026-01-02")));
        assert_eq!(crowded.take_in(other), None);
        assert_eq!(crowded, before);
    }

    /// Two tabs begin with one book: one marks a point as failed, the other, opened before, writes a
    /// name. Whichever writes last, both are kept.
    #[test]
    fn a_fail_survives_a_tab_that_did_not_see_it() {
        let base = full();
        let wires = point("rope_wires");
        let mut one = base.clone();
        one.look("B4", "rope_wires", "fail", "three broken wires")
            .expect("a point");
        let mut two = base.clone();
        two.sign("B4", "2026-03-04", "R. R.");
        for (mine, theirs) in [(&two, &one), (&one, &two)] {
            let (both, stay) = Book::merged(&base, mine, theirs).expect("room");
            let inspection = both.inspection("B4").expect("signed");
            assert_eq!(inspection.said(wires).0, Some(Found::Fail));
            assert_eq!(inspection.said(wires).1, "three broken wires");
            assert_eq!(inspection.name, "R. R.");
            assert_eq!(both.log, base.log);
            assert!(stay.is_empty());
        }
        // Both have looked at the point: a tab that did not see the fail cannot undo it, and is told.
        for word in ["pass", "not_applicable", ""] {
            let mut blind = base.clone();
            blind.look("B4", "rope_wires", word, "").expect("a point");
            let (both, stay) = Book::merged(&base, &blind, &one).expect("room");
            assert_eq!(
                both.inspection("B4").expect("signed").said(wires).0,
                Some(Found::Fail),
                "{word}"
            );
            // In the base it had passed: to say so again is no change.
            assert_eq!(stay.len(), usize::from(word != "pass"), "{word}");
        }
        let mut cleared = base.clone();
        cleared.clear("B4");
        let (both, stay) = Book::merged(&base, &cleared, &one).expect("room");
        let left = both.inspection("B4").expect("what failed");
        assert_eq!(left.looked.len(), left.failed().count());
        assert_eq!((left.looked.len(), stay), (2, vec![wires]));
        // Who has seen it can.
        let mut seen = one.clone();
        seen.look("B4", "rope_wires", "pass", "wires replaced")
            .expect("a point");
        let (both, _) = Book::merged(&one, &seen, &one).expect("room");
        assert_eq!(both, seen);
        let (both, _) = Book::merged(&one, &one, &seen).expect("room");
        assert_eq!(both, seen);
    }

    #[test]
    fn days_entered_and_taken_out_in_two_tabs_are_so_in_both() {
        let mut base = full();
        base.enter(entry("B4", "2026-03-05"));
        let mut one = base.clone();
        one.enter(entry("B4", "2026-03-07"));
        one.enter(entry("B4", "2026-03-07"));
        let mut two = base.clone();
        let twice = base.log.iter().position(|e| e.date == "2026-03-05");
        two.remove(twice.expect("an entry"));
        two.enter(entry("C1", "2026-03-08"));
        let mut wanted = one.clone();
        wanted.remove(twice.expect("an entry"));
        wanted.enter(entry("C1", "2026-03-08"));
        for (mine, theirs) in [(&one, &two), (&two, &one)] {
            let merged = Book::merged(&base, mine, theirs);
            assert_eq!(merged, Some((wanted.clone(), Vec::new())));
        }
        // Both begin the same inspection anew.
        let mut cleared = base.clone();
        cleared.clear("B4");
        let merged = Book::merged(&base, &cleared, &cleared);
        assert_eq!(merged, Some((cleared.clone(), Vec::new())));
        let merged = Book::merged(&base, &base, &cleared);
        assert_eq!(merged, Some((cleared, Vec::new())));
        // What has no room is not taken in part.
        let mut full = Book::default();
        for _ in 0..LOG_MAX {
            full.enter(entry("B4", "2026-01-01"));
        }
        let none = Book::default();
        assert_eq!(Book::merged(&none, &base, &full), None);
    }

    #[test]
    fn every_cut_is_noticed() {
        let text = full().text();
        for end in 0..text.len() {
            assert!(Book::from_text(&text[..end]).is_err(), "cut at {end}");
        }
    }

    #[test]
    fn content_is_read_strictly_and_the_place_is_named() {
        let good = full().text();
        let fault = |from: &str, to: &str| {
            assert!(good.contains(from), "{from}");
            let text = good.replacen(from, to, 1);
            let fault = Book::from_text(&text).expect_err(to);
            assert!(fault.at > 0 && fault.at <= text.len(), "{fault:?}");
            fault.reason
        };
        assert_eq!(fault("\"note\"", "\"nota\""), Reason::Missing("note"));
        assert_eq!(
            fault("\"log\":", "\"more\":1,\"log\":"),
            Reason::Unknown("more".into())
        );
        assert_eq!(fault("2026-03-05", "2026-02-29"), Reason::Kind);
        assert_eq!(fault("\"within\"", "\"fine\""), Reason::Kind);
        assert_eq!(fault("293.15", "-1"), Reason::Kind);
        assert_eq!(fault("\"swings\":null", "\"swings\":2.5"), Reason::Kind);
        assert_eq!(
            fault("rope_rust", "rope_dust"),
            Reason::Unknown("rope_dust".into())
        );
        assert_eq!(
            fault("rope_rust", "rope_wires"),
            Reason::Twice("rope_wires".into())
        );
        assert_eq!(
            fault("\"footroom_site\":1", "\"footroom_site\":2"),
            Reason::Kind
        );
        assert_eq!(fault("\"footroom_site\":1,", ""), Reason::Missing(MARK));
        let long = "x".repeat(TEXT_MAX + 1);
        assert_eq!(fault("rust at post 2", &long), Reason::Kind);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn any_texts_and_numbers_come_back(job in "(?s).{0,40}", note in "(?s).{0,40}", tension in 0.0..1.0e6f64) {
            let mut book = Book::default();
            book.look(&job, "edge", "fail", &note);
            book.enter(LogEntry { tension_n: Some(tension), note: trimmed(&note), ..entry(&job, "2026-03-04") });
            prop_assert_eq!(Book::from_text(&book.text()), Ok(book.clone()));
        }
    }
}
