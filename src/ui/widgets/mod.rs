//! Parts that more than one screen draws with.

pub mod big_digits;
pub mod dialog;
pub mod hand_picture;
pub mod key_bar;
pub mod stage_bar;
