//! What program this is: its version, the commit it was made from, and the
//! system it was made for.

/// As `--version` says it, behind the name.
pub const VERSION: &str = concat!(
    env!("CARGO_PKG_VERSION"),
    " (",
    env!("BENDMARK_COMMIT"),
    ", ",
    env!("BENDMARK_TARGET"),
    ")"
);
