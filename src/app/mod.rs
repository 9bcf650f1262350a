//! What the program is doing: state, keys, messages, updates, orders.
//!
//! Pure: [`keymap::key_to_message`] turns a key into a message,
//! [`update::update`] changes the state and returns orders, and nothing here
//! draws, reads a clock or touches a file. Read in this order: a file names
//! only those above it.

pub mod key;
pub mod place;
pub mod press;
pub mod effect;
pub mod message;
pub mod state;
pub mod record;
pub mod go;
pub mod keymap;
pub mod screens;
pub mod dialogs;
pub mod update;
