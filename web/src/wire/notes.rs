//! What a link carries at its end beside case and talk, or beside layouts: small choices of the reader's
//! page, each behind an `&` as `key=value`, in the order in which they were set.
//!
//! `v1.CASE.&draws=7`, or `v1.CASE.t1.TALK&draws=7`: behind a case always after a point, so that a page
//! that knows nothing of them still opens it; `c3.LAYOUTS&units=us` behind a set. They are no matter of
//! the answer, so what cannot be read among them is left out and the rest taken; what a page does not
//! know it keeps and hands on.
//!
//! [`UNITS`] and [`LANGUAGE`] say in which voice the sender's page spoke; the page's script asks for them
//! before it opens anything, as it does for the room, which stands last: `&room=site.set-up`.

use crate::wire::link;

/// Most notes that a link may have.
const NOTES_MAX: usize = 16;
/// Most characters of a key, and of a value.
const LONGEST: usize = 32;

/// Key of the units of the sender's page: `metric` or `us`.
pub const UNITS: &str = "units";
/// Key of the language of the sender's page: `en` or `es`.
pub const LANGUAGE: &str = "language";

/// The notes of a link.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Notes(Vec<(String, String)>);

impl Notes {
    /// Those of a link, with or without its `#`. Of two with one key the first counts.
    pub fn of(link: &str) -> Self {
        let mut notes = Self::default();
        for note in link::halves(link.trim_end()).1.split('&') {
            if let Some((key, value)) = note.split_once('=')
                && notes.get(key).is_none()
            {
                notes.set(key, value);
            }
        }
        notes
    }

    /// The value of a key.
    pub fn get(&self, key: &str) -> Option<&str> {
        let found = self.0.iter().find(|(k, _)| k == key);
        found.map(|(_, value)| value.as_str())
    }

    /// Sets a value: small letters for the key; letters, digits, `-` and `_` for the value, at most
    /// 32 of them. Anything else, and a seventeenth key, is not taken.
    pub fn set(&mut self, key: &str, value: &str) {
        let small = |text: &str, of: fn(&u8) -> bool| {
            (1..=LONGEST).contains(&text.len()) && text.as_bytes().iter().all(of)
        };
        let in_value = |b: &u8| b.is_ascii_alphanumeric() || matches!(b, b'-' | b'_');
        if !small(key, u8::is_ascii_lowercase) || !small(value, in_value) {
            return;
        }
        let room = self.0.len() < NOTES_MAX;
        match self.0.iter_mut().find(|(k, _)| k == key) {
            Some((_, there)) => value.clone_into(there),
            None if room => self.0.push((key.to_owned(), value.to_owned())),
            None => {}
        }
    }

    /// As they stand in a link; empty: there are none.
    pub fn text(&self) -> String {
        let mut text = String::new();
        for (key, value) in &self.0 {
            text.push('&');
            text.push_str(key);
            text.push('=');
            text.push_str(value);
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_go_there_and_back_in_their_order() {
        let mut notes = Notes::default();
        assert_eq!(notes.text(), "");
        for (key, value) in [("units", "us"), ("draws", "7"), ("units", "metric")] {
            notes.set(key, value);
        }
        assert_eq!(notes.text(), "&units=metric&draws=7");
        for link in [
            "v1.abc.",
            "#v1.abc.t1.def",
            " v1.abc.t1.def",
            "c3.abc",
            "v1.abc",
        ] {
            let link = format!("{link}{}\n", notes.text());
            assert_eq!(Notes::of(&link), notes, "{link}");
        }
    }

    #[test]
    fn what_is_no_note_is_left_out_and_the_rest_taken() {
        let read = |text: &str| Notes::of(&format!("v1.abc.{text}")).text();
        assert_eq!(
            read("&draws=7&&=&x&Y=1&y=&z=<b>&a=1&draws=8&b=é"),
            "&draws=7&a=1"
        );
        let long = "x".repeat(33);
        assert_eq!(read(&format!("&a={long}&{long}=1&b=2")), "&b=2");
        let many: String = (b'a'..=b'z')
            .map(|k| format!("&{}=1", char::from(k)))
            .collect();
        assert_eq!(read(&many).len(), 16 * 4);
        for none in [
            "",
            "v1",
            "v1.",
            "v1.abc",
            "v1.abc.t1.def",
            "c4.abc",
            "v1.abc.&",
            "v1.abc.&draws=",
        ] {
            assert_eq!(Notes::of(none), Notes::default(), "{none}");
        }
    }
}
