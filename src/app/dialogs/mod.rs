//! Keys in a dialog: choosing, typing, saying yes or going back.

pub mod sheet;
pub mod choosing;
pub mod saving;
pub mod kept;
pub mod answers;
pub mod pasting;
