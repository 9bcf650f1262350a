//! Drawing the state into a buffer of cells; nothing here changes anything.
//!
//! Pure: it names no terminal, file or clock. Read in this order.

pub mod theme;
pub mod pen;
pub mod drawing;
pub mod widgets;
pub mod screens;
pub mod frame;
