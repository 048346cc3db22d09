//! The fall explained: why two cases differ, guess first, questions for a trainee, the talk.

pub mod film;
pub mod guess;
pub mod handout;
pub mod learn;
pub mod talk;
pub mod why;
