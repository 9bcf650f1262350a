//! Keys in a dialog: choosing, typing, saying yes or going back.

pub mod choosing;
pub mod answers;
pub mod edge_changes;
pub mod paper;
pub mod safekeeping;
