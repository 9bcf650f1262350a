//! How much more is carried up than is needed.

/// How much more to carry than is needed, in whole per cent, up to 100.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub struct SparePerCent(u8);

impl SparePerCent {
    /// The most: twice what is needed.
    pub const MOST: u8 = 100;

    /// `per_cent` more, where that is in `0..=100`.
    pub const fn new(per_cent: u8) -> Option<Self> {
        if per_cent <= Self::MOST {
            Some(Self(per_cent))
        } else {
            None
        }
    }

    /// In per cent.
    pub const fn get(self) -> u8 {
        self.0
    }

    /// So many panels with the spare, part of a panel counting as one.
    pub fn on(self, panels: usize) -> usize {
        panels + (panels * usize::from(self.0)).div_ceil(100)
    }
}
