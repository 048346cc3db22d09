//! What the page keeps on the device, when more than one tab writes it.
//!
//! Each thing is a text under a key. A tab that changes it hands over three texts: the one that it
//! began with, its own, and the one that stands there now; [`merge`] makes one of them. What is
//! counted one by one (points, days, layouts, marks) is merged one by one, the latest change of each
//! goes before; of what is one whole the latest stays. A text that cannot be read is nobody's
//! change: it is named, so that it can be kept under another key before its place is written.

use serde::Serialize;

use crate::page::compare::layouts_link::{self, LAYOUTS_MAX, Layout, Set};
use crate::page::explain::guess;
use crate::page::record::book::Book;
use crate::page::record::lines::Lines;
use crate::wire::case_json;

/// The shape for TypeScript.
pub const TYPESCRIPT: &str = r#"
export interface KeptText {
  text: string;
  aside: boolean;
  full: boolean;
  stay: number[];
}
"#;

/// What is kept, by the last part of its key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeptKind {
    /// Inspections and log.
    Site,
    /// The lines of a site.
    Lines,
    /// The layouts to compare.
    Layouts,
    /// The tally of guesses.
    Guesses,
    /// The case kept for the view that tells why two cases differ.
    Case,
    /// Words that are only added: the lessons that were answered.
    Words,
}

/// Keys of [`KeptKind`].
pub const KINDS: [(&str, KeptKind); 6] = [
    ("site", KeptKind::Site),
    ("lines", KeptKind::Lines),
    ("layouts", KeptKind::Layouts),
    ("guesses", KeptKind::Guesses),
    ("kept-case", KeptKind::Case),
    ("learnt", KeptKind::Words),
];

/// What is to stand under the key.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct KeptText {
    /// The text.
    pub text: String,
    /// Whether what stands there now is to be kept under another key first: it cannot be read, or
    /// not all of it has room beside mine.
    pub aside: bool,
    /// Whether there is not room for all.
    pub full: bool,
    /// Points of the inspection that stay failed, though mine says otherwise.
    pub stay: Vec<usize>,
}

/// Whether a text can be read.
pub fn reads(kind: KeptKind, text: &str) -> bool {
    match kind {
        KeptKind::Site => Book::from_text(text).is_ok(),
        KeptKind::Lines => Lines::from_text(text).is_ok(),
        KeptKind::Layouts => layouts_link::decode(text).is_ok(),
        KeptKind::Guesses => guess::tally(text).is_some(),
        KeptKind::Case => case_json::from_text(text).is_ok(),
        KeptKind::Words => text.split_whitespace().all(|w| w.parse::<u32>().is_ok()),
    }
}

/// Brings a change together with what stands there: `base`, what the tab began with, `mine`, what it
/// makes of it, `stored`, what stands under the key now.
pub fn merge(kind: KeptKind, base: Option<&str>, mine: &str, stored: Option<&str>) -> KeptText {
    let whole = KeptText {
        text: mine.to_owned(),
        ..KeptText::default()
    };
    let Some(stored) = stored.filter(|stored| *stored != mine) else {
        return whole;
    };
    if !reads(kind, stored) {
        return KeptText {
            aside: true,
            ..whole
        };
    }
    // What this tab has seen there.
    if Some(stored) == base {
        return whole;
    }
    // This tab has changed nothing, or has had nothing yet.
    if base.is_some_and(|base| base == mine) || !reads(kind, mine) {
        return KeptText {
            text: stored.to_owned(),
            ..KeptText::default()
        };
    }
    let base = base.filter(|base| reads(kind, base));
    match kind {
        KeptKind::Site => site(base, mine, stored),
        KeptKind::Lines => lines(base, mine, stored),
        KeptKind::Layouts => layouts(base, mine, stored),
        KeptKind::Guesses => Some(KeptText {
            text: guess::merged_tally(base.unwrap_or_default(), mine, stored),
            ..KeptText::default()
        }),
        KeptKind::Case => None,
        KeptKind::Words => Some(KeptText {
            text: words(mine, stored),
            ..KeptText::default()
        }),
    }
    .unwrap_or(whole)
}

fn site(base: Option<&str>, mine: &str, stored: &str) -> Option<KeptText> {
    let theirs = Book::from_text(stored).ok()?;
    let mine = Book::from_text(mine).ok()?;
    let base = base.and_then(|base| Book::from_text(base).ok());
    let merged = Book::merged(&base.unwrap_or_default(), &mine, &theirs);
    Some(match merged {
        Some((book, stay)) => KeptText {
            text: book.text(),
            stay,
            ..KeptText::default()
        },
        // Nothing of what stands there goes; the tab says that its own is not kept.
        None => KeptText {
            text: stored.to_owned(),
            full: true,
            ..KeptText::default()
        },
    })
}

fn lines(base: Option<&str>, mine: &str, stored: &str) -> Option<KeptText> {
    let read = |text: &str| Lines::from_text(text).ok();
    let base = base.and_then(read).unwrap_or_default();
    let merged = Lines::merged(&base, &read(mine)?, &read(stored)?);
    Some(KeptText {
        full: merged.is_none(),
        // As for the book: what stands there stays.
        text: merged.map_or_else(|| stored.to_owned(), |lines| lines.text(None)),
        ..KeptText::default()
    })
}

/// Layouts are told apart by name and case; their footrooms may have been computed again.
fn same(a: &Layout, b: &Layout) -> bool {
    a.name == b.name && a.case == b.case
}

/// The layouts of `all` that are not among `others`, each as often as it is missing there.
fn without(all: &[Layout], others: &[Layout]) -> Vec<Layout> {
    let mut left: Vec<&Layout> = others.iter().collect();
    let mut missing = all.to_vec();
    missing.retain(|layout| {
        let found = left.iter().position(|other| same(other, layout));
        found.map(|place| left.swap_remove(place)).is_none()
    });
    missing
}

fn layouts(base: Option<&str>, mine: &str, stored: &str) -> Option<KeptText> {
    let read = |text: &str| layouts_link::decode(text).ok();
    let (mine, theirs) = (read(mine)?, read(stored)?);
    let base = base.and_then(read).unwrap_or_default();
    let gone = without(&base.layouts, &mine.layouts);
    let mut all = without(&theirs.layouts, &gone);
    all.extend(without(&mine.layouts, &base.layouts));
    // Both may have added the same.
    let mut once: Vec<Layout> = Vec::new();
    for layout in all {
        if !once.iter().any(|other| same(other, &layout)) {
            once.push(layout);
        }
    }
    let full = once.len() > LAYOUTS_MAX;
    let set = Set {
        model: mine.model,
        layouts: if full { mine.layouts } else { once },
    };
    Some(KeptText {
        text: layouts_link::encode(&set)?,
        aside: full,
        full,
        stay: Vec::new(),
    })
}

fn words(mine: &str, stored: &str) -> String {
    let mut all: Vec<&str> = stored.split_whitespace().collect();
    for word in mine.split_whitespace() {
        if !all.contains(&word) {
            all.push(word);
        }
    }
    all.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::view::shapes::agrees;
    use crate::page::record::book::Found;
    use footroom_core::demo::demo;

    fn kind(key: &str) -> KeptKind {
        let found = KINDS.iter().find(|(k, _)| *k == key);
        found.expect("a kind").1
    }

    fn set(names: &[&str]) -> String {
        let layouts = names.iter().map(|name| Layout {
            name: (*name).to_owned(),
            footroom_m: 0.5,
            case: demo(),
        });
        let set = Set {
            model: 1,
            layouts: layouts.collect(),
        };
        layouts_link::encode(&set).expect("finite")
    }

    fn names(text: &str) -> Vec<String> {
        let set = layouts_link::decode(text).expect("a set");
        set.layouts.into_iter().map(|l| l.name).collect()
    }

    #[test]
    fn typescript_declares_what_is_sent() {
        let sent = serde_json::to_value(KeptText::default()).expect("plain");
        agrees(TYPESCRIPT, "KeptText", &sent);
    }

    #[test]
    fn a_fail_in_one_tab_and_a_name_in_another_are_both_kept() {
        let base = Book::default().text();
        let of = |change: &dyn Fn(&mut Book)| {
            let mut book = Book::default();
            change(&mut book);
            book.text()
        };
        let fail = of(&|book| {
            book.look("B4", "edge", "fail", "sharp").expect("a point");
        });
        let name = of(&|book| book.sign("B4", "2026-03-04", "N. N."));
        for (mine, stored) in [(&name, &fail), (&fail, &name)] {
            for base in [None, Some(base.as_str())] {
                let kept = merge(kind("site"), base, mine, Some(stored));
                let book = Book::from_text(&kept.text).expect("a book");
                let inspection = book.inspection("B4").expect("both");
                assert_eq!(inspection.name, "N. N.");
                assert_eq!(inspection.failed().count(), 1);
                assert_eq!(inspection.looked[0].found, Some(Found::Fail));
                assert!(!kept.aside && !kept.full && kept.stay.is_empty());
            }
        }
    }

    #[test]
    fn what_cannot_be_read_is_kept_aside_under_every_key() {
        let good = [
            ("site", Book::default().text()),
            ("layouts", set(&["a"])),
            ("guesses", "0.1000 -0.2000".to_owned()),
            ("kept-case", case_json::to_text(&demo()).expect("finite")),
            ("learnt", "0 3".to_owned()),
        ];
        let lines = Lines::default().text(None);
        let good = [&good[..], &[("lines", lines)]].concat();
        assert_eq!(good.len(), KINDS.len());
        for (key, mine) in good {
            assert!(reads(kind(key), &mine), "{key}");
            let kept = merge(kind(key), None, &mine, Some("{\"half"));
            assert!(kept.aside && kept.text == mine, "{key}: {kept:?}");
            // As it was seen when the page was opened, too.
            for seen in ["{\"less", "{\"half"] {
                let kept = merge(kind(key), Some(seen), &mine, Some("{\"half"));
                assert!(kept.aside && kept.text == mine, "{key}: {kept:?}");
            }
            // Nothing there, or nothing new there.
            for stored in [None, Some(mine.as_str())] {
                let kept = merge(kind(key), None, &mine, stored);
                assert_eq!(kept.text, mine, "{key}");
                assert!(!kept.aside, "{key}");
            }
        }
    }

    /// Two tabs keep a line each: the one that writes last has the other's too, and a full list takes
    /// nothing of another tab's away.
    #[test]
    fn lines_of_two_tabs_are_both_kept() {
        use crate::page::record::lines::LINES_MAX;
        use crate::page::record::lines::tests::named;
        let text = |names: &[String]| {
            let mut lines = Lines::default();
            for name in names {
                lines.keep(&named(name), 1.0);
            }
            lines.text(None)
        };
        let names = |text: &str| {
            let lines = Lines::from_text(text).expect("lines").lines;
            let names = lines.into_iter().map(|line| line.case.title);
            names.collect::<Vec<_>>()
        };
        let of = |names: &[&str]| text(&names.iter().map(|n| (*n).to_owned()).collect::<Vec<_>>());
        let base = of(&["B4"]);
        let kept = merge(
            KeptKind::Lines,
            Some(&base),
            &of(&["B4", "B5"]),
            Some(&of(&["B4", "C1"])),
        );
        assert!(!kept.full && !kept.aside);
        assert_eq!(names(&kept.text), ["B4", "C1", "B5"]);
        let many: Vec<String> = (0..LINES_MAX).map(|i| i.to_string()).collect();
        let kept = merge(KeptKind::Lines, None, &of(&["B5"]), Some(&text(&many)));
        assert!(kept.full && kept.text == text(&many));
    }

    #[test]
    fn a_tab_that_has_had_nothing_yet_takes_what_another_wrote() {
        let stored = [
            ("site", Book::default().text()),
            ("layouts", set(&["a"])),
            ("guesses", "0.1000".to_owned()),
            ("kept-case", case_json::to_text(&demo()).expect("finite")),
            ("learnt", "0 3".to_owned()),
        ];
        for (key, stored) in stored {
            let kept = merge(kind(key), None, "", Some(&stored));
            assert_eq!(kept.text, stored, "{key}");
        }
    }

    #[test]
    fn layouts_added_and_taken_away_in_two_tabs_are_so_in_both() {
        let base = set(&["a", "b"]);
        let kept = merge(
            KeptKind::Layouts,
            Some(&base),
            &set(&["b", "c"]),
            Some(&set(&["a", "b", "d"])),
        );
        assert_eq!(names(&kept.text), ["b", "d", "c"]);
        assert!(!kept.aside && !kept.full);
        // Five have no room: mine stay on the page, theirs are not lost.
        let kept = merge(
            KeptKind::Layouts,
            Some(&base),
            &set(&["a", "b", "c"]),
            Some(&set(&["a", "b", "d", "e"])),
        );
        assert_eq!(names(&kept.text), ["a", "b", "c"]);
        assert!(kept.aside && kept.full);
    }

    #[test]
    fn marks_and_lessons_of_two_tabs_are_all_counted() {
        let guesses = |base, mine, stored| merge(KeptKind::Guesses, base, mine, Some(stored)).text;
        assert_eq!(
            guesses(Some("0.1000"), "0.1000 0.2000", "0.1000 0.3000"),
            "0.1000 0.3000 0.2000"
        );
        assert_eq!(guesses(None, "0.2000", "0.3000"), "0.3000 0.2000");
        // Cleared in one, guessed on in the other.
        assert_eq!(guesses(Some("0.1000"), "", "0.1000 0.3000"), "0.3000");
        let learnt = |mine, stored| merge(KeptKind::Words, Some("0"), mine, Some(stored)).text;
        assert_eq!(learnt("0 2", "0 1"), "0 1 2");
    }
}
