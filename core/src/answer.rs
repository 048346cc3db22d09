//! The answer to a case: its footroom, or why that cannot be known.
//!
//! Which doubt takes a number away and which stands beside it is said here and nowhere else. What is
//! asked of one run is asked by [`Outcome::unknown`]; the answer over all runs is
//! [`Assessment::answer`](crate::assess::Assessment::answer), and a [`Finding`](crate::fit::Finding) of all runs has the same.

use crate::outcome::{Doubt, Outcome};

/// Why a footroom says nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
#[cfg_attr(feature = "serde", serde(rename_all = "snake_case"))]
pub enum Unknown {
    /// The line would break.
    LineBreaks,
    /// The line grows steeper than the model describes.
    TooSteep,
    /// The energies of a run do not add up.
    LedgerOpen,
    /// A motion did not come to its lowest point.
    NotFinished,
    /// A swing ends deeper than the stack counts.
    SwingsBelowStack,
}

impl Unknown {
    /// All of them; of several that apply the first is the one that is said.
    pub const EACH: [Self; 5] = [
        Self::LineBreaks,
        Self::TooSteep,
        Self::LedgerOpen,
        Self::NotFinished,
        Self::SwingsBelowStack,
    ];
}

impl Doubt {
    /// Why this doubt takes the footroom away; `None`: it stands beside the number.
    pub fn takes_away(&self) -> Option<Unknown> {
        // No arm for the rest: a new doubt does not compile until it is decided here.
        match self {
            Doubt::BeyondBreaking { .. } => Some(Unknown::LineBreaks),
            Doubt::TooSteep { .. } => Some(Unknown::TooSteep),
            Doubt::LedgerOpen { .. } => Some(Unknown::LedgerOpen),
            Doubt::NotFinished { .. } => Some(Unknown::NotFinished),
            Doubt::SwingsBelowStack { .. } => Some(Unknown::SwingsBelowStack),
            Doubt::AbsorberUsedUp { .. }
            | Doubt::InlineAbsorberUsedUp { .. }
            | Doubt::RetractingBelowDring { .. }
            | Doubt::FreeFallRaised { .. }
            | Doubt::Strikes { .. } => None,
        }
    }
}

/// Among doubts the one that takes the number away and is said, see [`Unknown::EACH`]; `None`: no
/// doubt does.
pub fn decisive(doubts: &[Doubt]) -> Option<&Doubt> {
    Unknown::EACH
        .into_iter()
        .find_map(|why| doubts.iter().find(|d| d.takes_away() == Some(why)))
}

/// Why a footroom with these doubts says nothing; `None`: it is known.
pub(crate) fn unknown(doubts: &[Doubt], footroom_m: f64) -> Option<Unknown> {
    let not_a_number = (!footroom_m.is_finite()).then_some(Unknown::NotFinished);
    decisive(doubts)
        .and_then(Doubt::takes_away)
        .or(not_a_number)
}

impl Outcome {
    /// Why the footroom of this run says nothing; `None`: nothing in this run takes it away.
    pub fn unknown(&self) -> Option<Unknown> {
        unknown(&self.doubts, self.footroom_m)
    }
}
