//! Texts of the trade: the cautions and the list of words.

mod caution;
mod glossary;

pub use caution::CAUTIONS;
pub use glossary::WORDS;
