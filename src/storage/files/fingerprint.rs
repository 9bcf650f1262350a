//! What a file's content comes to in two numbers, to see whether another
//! program has changed it.
//!
//! It is not proof against anybody who means to deceive.

/// Length and CRC-32 of a content.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Fingerprint {
    bytes: usize,
    crc: u32,
}

impl Fingerprint {
    /// That of `content`.
    pub fn of(content: &[u8]) -> Self {
        Self {
            bytes: content.len(),
            crc: crc32fast::hash(content),
        }
    }
}
