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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn part_of_a_spare_panel_counts_as_one() {
        let spare = |per_cent| SparePerCent::new(per_cent).unwrap();
        assert_eq!(spare(0).on(41), 41);
        assert_eq!(spare(10).on(40), 44);
        assert_eq!(spare(10).on(41), 46);
        assert_eq!(spare(1).on(1), 2);
        assert_eq!(spare(5).on(0), 0);
        assert_eq!(spare(100).on(7), 14);
        assert_eq!(SparePerCent::new(101), None);
    }
}
