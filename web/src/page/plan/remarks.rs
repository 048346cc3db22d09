//! What has to stand beside the answer wherever it is shown, printed or kept: what is not met, every
//! warning, what was not evaluated, and that the line is not to be used.
//!
//! Every sheet with an answer takes this list and leaves nothing of it out. Where it is empty nothing
//! is said: that nothing was found is no permission.

use footroom_core::anywhere::Anywhere;
use footroom_core::check;
use footroom_core::standing::Mark;

use crate::first::answer::Told;
use crate::first::view::{AnswerLine, FootroomKind};
use crate::order::sort;
use crate::page::plan::view::{CheckRow, VerdictKind};
use crate::say::faults::Voice;
use crate::say::names::subject_name;

/// What has to stand beside the answer.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Remarks {
    /// Why the line is not to be used, in short; empty: the calculation gives no reason.
    pub do_not_use: Vec<String>,
    /// The checks that are not met, the parts first: number, what is required, name.
    pub not_met: Vec<String>,
    /// The lines of the answer behind the room: strength, where it is not among what is not met, and
    /// the worst anywhere on the line.
    pub lines: Vec<String>,
    /// The warnings: what the answer says of what may not be relied on, and of what else happens.
    pub warnings: Vec<String>,
    /// How many checks are not met, and how many were not evaluated.
    pub tally: String,
}

/// A check that is not met, for all whom it concerns.
pub(crate) struct NotMet<'a> {
    /// The check that is furthest from what it asks.
    pub(crate) check: &'a check::Check,
    /// Its row.
    pub(crate) row: &'a CheckRow,
    /// Its name, with all whom it concerns.
    pub(crate) label: String,
}

/// Why a line is not to be used, by what is calculated of it; empty: the calculation gives no reason.
/// `here`: how it stands as the crew stands; `not_met`: that checks are not met; `anywhere`: how the
/// worst anywhere on it stands, once that is known.
pub(crate) fn do_not_use(
    voice: Voice,
    (kind, here): (FootroomKind, Mark),
    not_met: Option<String>,
    anywhere: Option<Mark>,
) -> Vec<String> {
    let o = voice.office();
    let mut why = Vec::new();
    match kind {
        FootroomKind::Unknown => why.push(o.stop_unknown.to_owned()),
        FootroomKind::Short => why.push(o.stop_short.to_owned()),
        FootroomKind::Spare => {}
    }
    why.extend(not_met);
    if here < Mark::Fails && anywhere.is_some_and(|mark| mark >= Mark::Fails) {
        why.push(o.stop_anywhere.to_owned());
    }
    why
}

impl Told<'_> {
    /// What has to stand beside the answer.
    pub fn remarks(&self) -> Remarks {
        let o = self.voice.office();
        let checks = self.checks();
        let rows = self.check_rows(&checks);
        let answer = self.answer();
        let not_met: Vec<String> = self
            .not_met(&checks, &rows)
            .iter()
            .map(|one| self.not_met_text(one))
            .collect();
        let failed = |row: &&CheckRow| row.verdict_kind == VerdictKind::DoesNotMeet;
        let count = rows.iter().filter(failed).count();
        let not_met_text = (count > 0).then(|| (o.say.stop_not_met)(count));
        let do_not_use = do_not_use(
            self.voice,
            (answer.kind, self.standing().mark()),
            not_met_text,
            self.anywhere.map(Anywhere::mark),
        );
        let say = self.voice.texts().say.answer_line;
        let told = |line: &AnswerLine| !(line.key == "strength" && count > 0);
        let lines = answer.lines.iter().skip(1).filter(|line| told(line));
        let lines = lines.map(|line| {
            let said = if line.key == "anywhere" && self.anywhere.is_none_or(|a| a.tried == 0) {
                // What is printed does not go on looking.
                (self.voice.form().say.problem)(&line.heading, o.anywhere_open)
            } else {
                say(&line.heading, &line.number, &line.word)
            };
            // Where the worst is where the crew stands, the place is no news.
            let news = line.key != "anywhere" || line.show.is_some();
            let text = if news && !line.text.is_empty() {
                format!("{said}; {}.", line.text)
            } else {
                format!("{said}.")
            };
            format!("{} {text}", line.sign).trim_start().to_owned()
        });
        let lines = lines.collect();
        let tally = self.checks_tally(&checks);
        Remarks {
            do_not_use,
            not_met,
            lines,
            warnings: answer.doubts,
            tally: format!("{}: {tally}.", self.voice.texts().view_checks),
        }
    }

    /// The checks that are not met, the parts first; one name for all whom a check concerns.
    pub(crate) fn not_met<'c>(
        &self,
        checks: &'c [check::Check],
        rows: &'c [CheckRow],
    ) -> Vec<NotMet<'c>> {
        let names = self.check_names(checks);
        let failed = checks.iter().zip(rows).zip(names);
        let failed = failed.filter(|((_, row), _)| row.verdict_kind == VerdictKind::DoesNotMeet);
        // Checks with one name and limit, and all whom they concern.
        let mut kinds: Vec<(String, Vec<(&check::Check, &CheckRow)>)> = Vec::new();
        for ((check, row), name) in failed {
            let like = kinds.iter_mut().find(|(known, same)| {
                *known == name
                    && same.iter().all(|(other, _)| {
                        other.key == check.key && other.capacity == check.capacity
                    })
            });
            match like {
                Some((_, same)) => same.push((check, row)),
                None => kinds.push((name, vec![(check, row)])),
            }
        }
        let mut not_met: Vec<NotMet<'c>> = Vec::new();
        for (name, mut same) in kinds {
            let mut subjects: Vec<String> = Vec::new();
            for (check, _) in &same {
                let subject = subject_name(self.voice, check.subject);
                if !subject.is_empty() && !subjects.contains(&subject) {
                    subjects.push(subject);
                }
            }
            let label = if subjects.is_empty() {
                name
            } else {
                (self.voice.texts().say.of_worker)(&name, &subjects.join(", "))
            };
            let ratio = |check: &check::Check| check.ratio.unwrap_or(0.0);
            sort(&mut same, |a, b| ratio(a.0) < ratio(b.0));
            if let Some(&(check, row)) = same.first() {
                not_met.push(NotMet { check, row, label });
            }
        }
        let part = |one: &NotMet<'_>| one.check.set == check::CheckSet::Part;
        sort(&mut not_met, |a, b| part(a) && !part(b));
        not_met
    }

    /// A check that is not met in a line: number, what is required, name.
    fn not_met_text(&self, one: &NotMet<'_>) -> String {
        let say = &self.voice.office().say;
        let row = one.row;
        let text = match one.check.kind {
            check::Kind::RatioAtLeast => (say.of_required)(&row.ratio, &row.required, &one.label),
            check::Kind::AtMost => (say.over_limit)(&row.demand, &row.capacity, &one.label),
            check::Kind::AtLeast => (say.under_limit)(&row.demand, &row.capacity, &one.label),
        };
        // In black and white it is told by its sign too.
        format!("✗ {text}")
    }
}
