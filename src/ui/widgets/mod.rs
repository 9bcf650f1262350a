//! Parts that more than one screen draws with.

mod faces;
pub mod digits;
pub mod large_label;
pub mod digit_size;
pub mod hand_picture;
mod dialog_box;
mod dialog_lists;
pub mod dialog;
pub mod key_bar;
pub mod mark_figures;
pub mod piece_words;
pub mod stage_bar;
