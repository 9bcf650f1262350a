//! The real program on a real disk on which things go wrong.
//!
//! `cargo test --test terminal faults -- --nocapture` prints each message. What a machine
//! does not allow (mounting a small disk, say) is skipped with the reason.

mod barred;
pub(crate) mod bench;
mod disks;
mod endings;
mod hostile;
mod injected;
mod kill_loop;
mod two_windows;
mod versions;
