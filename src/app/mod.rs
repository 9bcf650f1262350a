//! What the program is doing: state, keys, messages, updates, orders.
//!
//! Pure: [`keymap::key_to_message`] turns a key into a message,
//! [`update::update`] changes the state and returns orders, and nothing here
//! draws, reads a clock or touches a file. Read in this order.

pub mod key;
pub mod message;
pub mod effect;
pub mod field;
pub mod dialog;
pub mod history;
pub mod open_job;
pub mod screens;
pub mod state;
pub mod choosing;
pub mod edge_changes;
pub mod answers;
pub mod keymap;
pub mod safekeeping;
pub mod paper;
pub mod update;
