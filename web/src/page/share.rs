//! What is given away: the case, the layouts or the talk, as an address and as a code, each with the
//! room that it opens, the units and the language.
//!
//! The room stands last in the address: a page that does not know it opens the plan.

use serde::Serialize;

use crate::page::Page;
use crate::page::compare::layouts_link;
use crate::page::compare::shelf;
use crate::page::record::qr::Code;
use crate::wire::notes::Notes;

/// Where a link with layouts leads: the view that compares them.
const LAYOUTS_ROOM: &str = "&room=decide.compare";
/// Where the link of the talk leads: to its first step, on the screen.
pub(crate) const TALK_ROOM: &str = "&room=explain.talk.start";

/// The room that the code of a sheet opens: that of today's reading, or that of the checks.
pub fn room_of_sheet(kind: &str) -> &'static str {
    match kind {
        "tag" => "&room=site",
        "record" => "&room=file",
        _ => "",
    }
}

/// What can be given away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Given {
    /// The shown case.
    Case,
    /// The layouts side by side.
    Layouts,
    /// The talk about the shown case.
    Talk,
}

/// All of them by their keys.
pub const GIVEN: [(&str, Given); 3] = [
    ("case", Given::Case),
    ("layouts", Given::Layouts),
    ("talk", Given::Talk),
];

/// What is shown of one of them.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct ShareView {
    /// The address; empty: there is none to give.
    pub address: String,
    /// The address as a code to scan, a drawing; empty: there is none.
    pub code: String,
    /// What it opens, or why there is no address or no code.
    pub note: String,
    /// Whether it is better sent as a file.
    pub file: bool,
}

impl Page {
    /// A set of layouts as a link, without `#`: with the page's units and language.
    pub fn set_link(&self, set: &str) -> String {
        format!("{set}{}", self.notes_in(&Notes::default()))
    }

    /// What is shown of what is given away. `room`: that of the page, as its address has it; `kept`: the
    /// set of layouts that the device keeps, for as long as none stands on the shelf; `address`: that of
    /// the page, without a fragment.
    pub fn share(&self, given: Given, room: &str, kept: &str, address: &str) -> ShareView {
        let o = self.voice().office();
        let (fragment, note) = match given {
            Given::Case => (
                self.link().map(|link| format!("{link}{room}")),
                o.share_opens_case,
            ),
            Given::Talk => (
                self.link().map(|link| format!("{link}{TALK_ROOM}")),
                o.share_opens_talk,
            ),
            Given::Layouts => (self.shared_set(kept), o.share_opens_layouts),
        };
        let Some(fragment) = fragment else {
            let note = match given {
                Given::Layouts if self.shelf.is_empty() => o.share_no_layouts,
                Given::Layouts => self.voice().decide().fit_running,
                _ => o.share_no_result,
            };
            return ShareView {
                note: note.to_owned(),
                ..ShareView::default()
            };
        };
        let address = format!("{address}#{fragment}");
        // Where a link may be cut off on its way the whole set may be lost; a case is refused then.
        let too_long = (given == Given::Layouts)
            .then(|| shelf::too_long(self.voice(), &address))
            .flatten();
        if let Some(note) = too_long {
            return ShareView {
                note,
                file: true,
                ..ShareView::default()
            };
        }
        match Code::of(&address) {
            Some(code) => ShareView {
                code: code.svg(o.share_code),
                note: note.to_owned(),
                address,
                file: false,
            },
            None => ShareView {
                address,
                note: o.share_no_code.to_owned(),
                file: true,
                ..ShareView::default()
            },
        }
    }

    /// The layouts on the shelf, or those that the device keeps, as the end of an address; `None`: there
    /// are none, or they are still waited for.
    fn shared_set(&self, kept: &str) -> Option<String> {
        let set = match self.shelf.is_empty() {
            true => layouts_link::decode(kept)
                .ok()
                .filter(|set| !set.layouts.is_empty())
                .map(|_| kept.trim().to_owned()),
            false => self.shelf.text(),
        };
        set.map(|set| format!("{}{LAYOUTS_ROOM}", self.set_link(&set)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::first::desk::opened;
    use crate::page::compare::layouts_link::Layout;
    use crate::page::compare::layouts_link::tests::four;
    use crate::page::compare::shelf::Shelf;
    use crate::page::compare::solved::Solved;
    use crate::page::explain::talk::Talk;
    use crate::page::explain::talk::script::Step;
    use crate::say::faults::{Voice, link_fault};
    use crate::say::format::{Lang, Units};
    use crate::wire::link;
    use crate::wire::notes::{LANGUAGE, UNITS};
    use footroom_core::demo::demo;
    use proptest::prelude::*;
    use proptest::test_runner::TestRunner;
    use std::cell::RefCell;
    use std::sync::LazyLock;

    const AT: &str = "https://example.org/line/";

    fn page_of(voice: Voice) -> Page {
        let mut page = Page::new(voice.lang, voice.units);
        page.finish_all();
        page
    }

    /// What the page's script takes of an address before it opens it: the room at its end.
    fn room_taken(fragment: &str) -> (String, String) {
        let Some(at) = fragment.find("&room=") else {
            return (fragment.to_owned(), String::new());
        };
        let inside = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '.' | '-');
        let rest = &fragment[at + "&room=".len()..];
        let end = rest.find(|c| !inside(c)).unwrap_or(rest.len());
        let without = format!("{}{}", &fragment[..at], &rest[end..]);
        (without, rest[..end].to_owned())
    }

    /// What the workers find of the layouts.
    fn solved() -> &'static [Vec<f64>] {
        static SOLVED: LazyLock<Vec<Vec<f64>>> = LazyLock::new(|| {
            let solve = |layout: &Layout| Solved::of(&layout.case).expect("no faults").numbers();
            four().layouts.iter().map(solve).collect()
        });
        &SOLVED
    }

    /// Opens a set that the workers have solved.
    fn with_layouts(page: &mut Page) -> String {
        let set = layouts_link::encode(&four()).expect("finite");
        page.open_set(&set).expect("a set");
        page.finish_all();
        for i in 0..4 {
            assert!(page.shelf.take_in(i, &solved()[i]));
        }
        set
    }

    /// Units, language, room, the seed of the draws, the plan of the talk and the case come back together.
    #[test]
    fn all_that_a_link_says_goes_there_and_back() {
        let sender = RefCell::new(page_of(Voice::ALL[0]));
        let rooms = ["", "&room=site", "&room=decide.compare", "&room=file"];
        let chosen = (
            prop::sample::select(Voice::ALL.to_vec()),
            0_u32..100_000,
            prop::option::of("[a-z ]{1,20}[a-z]"),
            prop::sample::select(rooms.to_vec()),
            prop::sample::select(vec![Given::Case, Given::Talk]),
        );
        let config = ProptestConfig {
            failure_persistence: None,
            ..ProptestConfig::default()
        };
        let goes = |(voice, seed, sentence, room, given): (Voice, u32, Option<String>, &str, _)| {
            let mut sender = sender.borrow_mut();
            sender.set_units(voice.units);
            sender.set_language(voice.lang);
            sender.notes.set("draws", &seed.to_string());
            let sentence = sentence.unwrap_or_default();
            sender.talk().0.plan_mut().say(Step::One, &sentence);
            let shown = sender.share(given, room, "", AT);
            let fragment = shown.address.strip_prefix(AT).unwrap_or_default();
            let (fragment, room_read) = room_taken(fragment);
            let expected = if given == Given::Talk {
                TALK_ROOM
            } else {
                room
            };
            prop_assert_eq!(room_read.as_str(), expected.trim_start_matches("&room="));
            let said = Notes::of(&fragment);
            prop_assert_eq!(said.get(UNITS).and_then(Units::from_key), Some(voice.units));
            prop_assert_eq!(
                said.get(LANGUAGE).and_then(Lang::from_key),
                Some(voice.lang)
            );
            let seed = seed.to_string();
            prop_assert_eq!(said.get("draws"), Some(seed.as_str()));
            let (opened, _) = opened(&fragment).expect("an own link");
            prop_assert_eq!(&opened.case, sender.case());
            let mut talk = Talk::default();
            talk.open_link(&fragment).expect("its own plan");
            prop_assert_eq!(talk.plan(), sender.talk().0.plan());
            prop_assert!(!shown.code.is_empty() && !shown.file);
            Ok(())
        };
        let ran = TestRunner::new(config).run(&chosen, goes);
        ran.unwrap_or_else(|fault| panic!("{fault}"));
    }

    /// A set goes with units, language and its room; opened, its first layout is the shown case.
    #[test]
    fn layouts_go_with_their_voice_and_the_first_of_them_is_shown() {
        for voice in Voice::ALL {
            let mut page = page_of(voice);
            let empty = page.share(Given::Layouts, "", "", AT);
            assert_eq!(empty.note, voice.office().share_no_layouts);
            assert!(empty.address.is_empty() && empty.code.is_empty());
            // The set that the device keeps stands in for the shelf until that is looked at.
            let kept = layouts_link::encode(&four()).expect("finite");
            let given = page.share(Given::Layouts, "", &kept, AT);
            assert!(given.address.starts_with(&format!("{AT}#{kept}&units=")));
            let set = with_layouts(&mut page);
            assert_eq!(page.case(), &four().layouts[0].case);
            let shown = page.share(Given::Layouts, "&room=plan", "", AT);
            let fragment = shown
                .address
                .strip_prefix(&format!("{AT}#"))
                .expect("the page's");
            assert!(fragment.ends_with("&room=decide.compare"), "{fragment}");
            let (link, _) = room_taken(fragment);
            let said = Notes::of(&link);
            assert_eq!(said.get(UNITS), Some(voice.units.key()));
            assert_eq!(said.get(LANGUAGE), Some(voice.lang.key()));
            let again = layouts_link::decode(&link).expect("a set");
            assert!(
                again
                    .layouts
                    .iter()
                    .map(|l| &l.case)
                    .eq(four().layouts.iter().map(|l| &l.case))
            );
            assert!(page.set_link(&set).starts_with(&set));
            // Said of which layout the answer at the top is; another case is none of them.
            let looks = page.compared().looks;
            assert!(looks.contains("as planned"), "{looks}");
            page.load_layout(1);
            assert!(page.compared().looks.contains("no post"));
            page.set("workers.count", "1", 0.0).expect("path");
            let other = (voice.decide().say.compare_above)(None);
            assert!(page.compared().looks.ends_with(&other));
            assert!(page.compared().sent.contains("4") && page.compared().sent.contains("B4"));
        }
    }

    /// What is too long for an address is said, and goes as a file.
    #[test]
    fn what_is_too_long_is_said_and_goes_as_a_file() {
        for voice in Voice::ALL {
            let mut page = page_of(voice);
            with_layouts(&mut page);
            let long = format!("{AT}{}", "x".repeat(1_900));
            let set = page.share(Given::Layouts, "", "", &long);
            assert!(set.file && set.address.is_empty() && set.code.is_empty());
            assert!(set.note.contains("2,000"), "{}", set.note);
            let long = format!("{AT}{}", "x".repeat(2_900));
            let case = page.share(Given::Case, "", "", &long);
            assert!(case.file && case.code.is_empty() && case.address.starts_with(&long));
            assert_eq!(case.note, voice.office().share_no_code);
        }
    }

    /// A link that is cut at any byte opens the same, without what stands behind the cut, or is refused in
    /// words; nothing else is ever shown.
    #[test]
    fn a_link_that_is_cut_anywhere_says_so_or_opens_the_same() {
        let mut sender = page_of(Voice::ALL[1]);
        sender.notes.set("draws", "7");
        let (talk, _) = sender.talk();
        talk.plan_mut().say(Step::One, "Watch the truck.");
        let plan = talk.plan().clone();
        let whole = sender.link().expect("solved") + "&room=explain.talk.start";
        let ends = link::halves(&whole).0.len();
        let begins = link::part(&whole).expect("a talk").0;
        for end in 0..whole.len() {
            let (cut, _) = room_taken(&whole[..end]);
            let Ok((shown, _)) = opened(&cut) else {
                assert!(end < begins - 1, "cut at {end}");
                for voice in [Voice::ALL[0], Voice::ALL[3]] {
                    let mut reader = Page::empty(voice.lang, voice.units);
                    let said = reader.open_link(&cut).expect_err("as above");
                    let blank = reader.view().blank;
                    assert!(said.len() > 10 && blank, "cut at {end}: {said}");
                }
                continue;
            };
            assert!(
                end >= begins - 1 && shown.case == *sender.case(),
                "cut at {end}"
            );
            // The talk is whole, or refused; cut right before it there is none.
            let mut talk = Talk::default();
            let taken = talk.open_link(&cut);
            assert_eq!(taken.is_ok(), end >= ends || end <= begins, "cut at {end}");
            assert_eq!(talk.plan() == &plan, end >= ends, "cut at {end}");
            for voice in Voice::ALL {
                let said = taken.as_ref().err().map(|fault| link_fault(voice, fault));
                assert!(said.is_none_or(|said| said.len() > 10), "cut at {end}");
            }
        }
    }

    /// The same of layouts: from the first letter on, so that `c` alone is a link that was cut.
    #[test]
    fn layouts_that_are_cut_anywhere_say_so_or_open_the_same() {
        let set = layouts_link::encode(&four()).expect("finite");
        let whole = format!("{}{LAYOUTS_ROOM}", page_of(Voice::ALL[1]).set_link(&set));
        for end in 1..whole.len() {
            let (cut, _) = room_taken(&whole[..end]);
            if let Ok(shelf) = Shelf::open(&cut) {
                assert!(end >= set.len(), "cut at {end}");
                let cases = (0..5).map(|i| shelf.case(i));
                let sent = four();
                let sent = sent.layouts.iter().map(|l| Some(&l.case));
                assert!(cases.eq(sent.chain([None])), "cut at {end}");
                continue;
            }
            for voice in [Voice::ALL[0], Voice::ALL[3]] {
                let mut reader = Page::empty(voice.lang, voice.units);
                // As the page's script tells one from the other.
                let opened = match cut.contains('.') {
                    true => reader.open_set(&cut),
                    false => reader.open_link(&cut),
                };
                let said = opened.expect_err("as above");
                assert!(end < set.len(), "cut at {end}: {said}");
                let nothing = reader.view().blank && reader.shelf.is_empty();
                assert!(said.len() > 10 && nothing, "cut at {end}: {said}");
                if end < 3 {
                    assert_eq!(said, voice.form().link_truncated);
                }
            }
        }
    }

    /// Layouts over a case of one's own can be had back from; damaged ones leave it where it is.
    #[test]
    fn damaged_layouts_leave_the_case_and_good_ones_can_be_had_back_from() {
        for voice in Voice::ALL {
            let mut page = page_of(voice);
            page.set("workers.count", "1", 0.0).expect("path");
            let own = page.case().clone();
            let set = layouts_link::encode(&four()).expect("finite");
            let said = page.open_set(&set[..90]).expect_err("cut");
            assert!(said.ends_with(voice.form().link_kept), "{said}");
            assert!(*page.case() == own && page.shelf.is_empty());
            page.open_set(&set).expect("a set");
            assert_eq!(page.case(), &demo());
            assert!(page.undo() && *page.case() == own);
            // A set of nothing shows the example where there is no case.
            let nothing = layouts_link::encode(&Default::default()).expect("finite");
            let mut first = Page::empty(voice.lang, voice.units);
            first.open_set(&nothing).expect("a set");
            assert!(!first.view().blank && first.shelf.is_empty());
        }
    }
}
