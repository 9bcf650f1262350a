//! The job file's last line: `// checksum 1a2b3c4d`, a CRC-32 over every byte
//! before that line.
//!
//! It finds damage and edits; it does not stop anybody from forging a file.

use std::fmt::Write;

/// What the last line begins with; the number follows in eight hex digits.
const MARK: &str = "// checksum ";
/// The whole line: mark, digits, newline.
const LINE: usize = MARK.len() + 8 + 1;

/// Whether a file is as it was saved.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Seal {
    Whole,
    /// There is no checksum line at the end: edited by hand or damaged.
    Missing,
    /// The checksum belongs to other content: edited by hand or damaged.
    Mismatch,
}

/// Adds the checksum line; `text` ends with a newline.
pub(super) fn seal(text: &mut String) {
    let sum = crc32fast::hash(text.as_bytes());
    // Writing to a text cannot fail.
    let _ = writeln!(text, "{MARK}{sum:08x}");
}

/// What the last line says of what is before it.
pub(super) fn seal_of(bytes: &[u8]) -> Seal {
    let Some((content, line)) = bytes.split_at_checked(bytes.len().saturating_sub(LINE)) else {
        return Seal::Missing;
    };
    let own_line = content.is_empty() || content.ends_with(b"\n");
    let digits = line
        .strip_prefix(MARK.as_bytes())
        .and_then(|rest| rest.strip_suffix(b"\n"));
    match digits {
        Some(digits) if own_line => {
            if digits == format!("{:08x}", crc32fast::hash(content)).as_bytes() {
                Seal::Whole
            } else {
                Seal::Mismatch
            }
        }
        _ => Seal::Missing,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sealed_text_is_whole_and_any_other_is_not() {
        let mut text = "(version: 1)\n".to_owned();
        seal(&mut text);
        assert_eq!(seal_of(text.as_bytes()), Seal::Whole);
        assert_eq!(
            seal_of(text.replace('1', "2").as_bytes()),
            Seal::Mismatch,
            "{text}"
        );
        assert_eq!(seal_of(text.trim_end().as_bytes()), Seal::Missing);
        assert_eq!(seal_of(b"(version: 1)\n"), Seal::Missing);
        assert_eq!(seal_of(b""), Seal::Missing);
    }

    // The check value of this CRC over the digits 1 to 9 is in the catalogue of
    // parametrised CRC algorithms as CRC-32/ISO-HDLC (from memory).
    #[test]
    fn the_checksum_is_the_one_of_the_published_check_value() {
        let mut text = "123456789".to_owned();
        seal(&mut text);
        assert_eq!(text, "123456789// checksum cbf43926\n");
    }
}
