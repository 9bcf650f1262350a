//! Texts of the trade: the cautions, the list of words, and how texts go onto
//! rows without parting a length.

mod caution;
mod glossary;
mod rows;

pub use caution::CAUTIONS;
pub use glossary::WORDS;
pub use rows::rows;
