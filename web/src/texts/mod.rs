//! What the page says, in each of its languages: one key a sentence.
//!
//! Every language fills the same structure, so a text that is missing in one of them does not
//! compile. Texts with numbers in them are functions of the numbers as already formatted.

mod en;
mod es;

use crate::format::Lang;

/// The texts of one language.
pub fn of(lang: Lang) -> &'static Texts {
    match lang {
        Lang::En => &en::TEXTS,
        Lang::Es => &es::TEXTS,
    }
}

/// Declares [`Texts`] once, with the list of its keys for the page.
macro_rules! texts {
    ($($(#[$doc:meta])* $key:ident,)*) => {
        /// Fixed texts, one field a key.
        #[derive(Debug)]
        pub struct Texts {
            $($(#[$doc])* pub $key: &'static str,)*
        }

        impl Texts {
            /// Every key with its text, in the order of declaration.
            pub fn entries(&self) -> Vec<(&'static str, &'static str)> {
                vec![$((stringify!($key), self.$key),)*]
            }
        }
    };
}

texts! {
    /// The caution that stands on every screen and every sheet.
    caution,
    // scene
}
