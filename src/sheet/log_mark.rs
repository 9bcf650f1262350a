//! A short mark of an edge's figures, so that a stale page on the wall is seen.
//!
//! Four letters that follow from the figures of the edge's pieces and from
//! nothing else: a page with another mark than a page printed now was printed
//! before a reading or a setting changed. What is done at the bench changes no
//! mark. Two different edges may have the same mark once in a million; it
//! guards against a slip, not against a forger.

use super::rows::{EdgeRows, Rows};
use crate::domain::{
    measure::{Length, SkewLine},
    piece::PieceSpec,
};
use std::fmt;

/// The letters of a mark: no two of them look alike on dirty paper.
const LETTERS: [char; 32] = [
    'A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'J', 'K', 'L', 'M', 'N', 'P', 'R', 'S', 'T', 'U', 'V',
    'W', 'X', 'Y', '2', '3', '4', '5', '6', '7', '8', '9', 'Q', 'Z',
];

/// The mark of some figures: FNV-1a, 64 bits, of which 20 are said.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct LogMark(u64);

impl LogMark {
    /// The mark of all pieces of `edge`, whichever of them are on the sheet.
    pub fn of(edge: &EdgeRows<'_>, sheet: &Rows<'_>) -> Self {
        let mut mark = Self(0xcbf2_9ce4_8422_2325);
        for piece in sheet.every_piece_of(edge) {
            mark.take(sheet.labels.piece(piece.id).as_bytes());
            mark.spec(&piece.spec);
        }
        mark
    }

    fn spec(&mut self, spec: &PieceSpec) {
        let PieceSpec {
            kind,
            hand,
            bend,
            allowance,
            panel,
            across,
            near,
        } = spec;
        self.take(kind.word().as_bytes());
        self.take(hand.word().as_bytes());
        self.line(bend);
        [*allowance, panel.width, panel.height]
            .into_iter()
            .chain(*across)
            .for_each(|length| self.length(length));
        if let Some(near) = near {
            self.take(near.kind.word().as_bytes());
            self.line(&near.bend);
            self.length(near.allowance);
        }
    }

    fn line(&mut self, line: &SkewLine) {
        [line.at_nose, line.at_rise, line.rise]
            .into_iter()
            .for_each(|length| self.length(length));
    }

    fn length(&mut self, length: Length) {
        self.take(&length.nm().to_le_bytes());
    }

    fn take(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
}

impl fmt::Display for LogMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // The low bits of this sum are its weakest.
        let bits = self.0 ^ (self.0 >> 32);
        (0..4).try_for_each(|letter| {
            let at = usize::try_from((bits >> (5 * letter)) & 31).unwrap_or(0);
            write!(f, "{}", LETTERS.get(at).copied().unwrap_or('A'))
        })
    }
}
