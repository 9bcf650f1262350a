//! The file's text as UTF-8: spreadsheets also write UTF-16, with a mark in
//! front that says in which order the bytes stand.

use super::error::ImportError;
use std::borrow::Cow;

const MARK: &[u8] = b"\xEF\xBB\xBF";

/// What is in `file` behind its mark, as UTF-8 where it is UTF-16. Any other
/// encoding is for the cells to find.
pub(super) fn text_of(file: &[u8]) -> Result<Cow<'_, [u8]>, ImportError> {
    match file {
        [0xFF, 0xFE, rest @ ..] => wide(rest, u16::from_le_bytes),
        [0xFE, 0xFF, rest @ ..] => wide(rest, u16::from_be_bytes),
        // Plain letters have one byte of zero each, which no other text has.
        [0, _, ..] | [_, 0, ..] => Err(ImportError::NoMark),
        _ => Ok(Cow::Borrowed(file.strip_prefix(MARK).unwrap_or(file))),
    }
}

fn wide(bytes: &[u8], unit: impl Fn([u8; 2]) -> u16) -> Result<Cow<'_, [u8]>, ImportError> {
    let (pairs, odd) = bytes.as_chunks::<2>();
    if !odd.is_empty() {
        return Err(ImportError::CutUtf16);
    }
    // As much as plain letters take; others make it grow.
    let mut text = String::with_capacity(pairs.len());
    for letter in char::decode_utf16(pairs.iter().map(|pair| unit(*pair))) {
        text.push(letter.map_err(|_| ImportError::CutUtf16)?);
    }
    Ok(Cow::Owned(text.into_bytes()))
}
