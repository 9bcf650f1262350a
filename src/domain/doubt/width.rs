//! Gaps that are odd for the panel, whatever their lean.
//!
//! Not a doubt by itself: a wide gap filled with full panels and a triangle at
//! the ridge are both honest readings. The log may say it beside the course.

use crate::domain::{
    log::{Edge, Gap},
    settings::Settings,
};

/// What is odd about a gap.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum OddWidth {
    /// Finished widths of a panel or more at both ends: another full panel fits.
    AnotherPanelFits,
    /// A finished width under the side lap: the last full panel, which reaches
    /// one side lap past its side-lap line, would not have lain there.
    UnderTheLap,
}

/// What is odd about the raw `gap` of a course of `edge` (common practice).
pub fn odd_width(gap: &Gap, edge: &Edge, settings: &Settings) -> Option<OddWidth> {
    let narrow = gap.bottom.min(gap.top) + settings.added_to_reading(edge);
    if narrow >= settings.panel_width {
        Some(OddWidth::AnotherPanelFits)
    } else if narrow < settings.side_lap {
        Some(OddWidth::UnderTheLap)
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        log::EdgeId,
        measure::{Hand, Length, Name},
        roof::EdgeKind,
    };

    #[track_caller]
    fn check(bottom: i64, top: i64, expected: Option<OddWidth>) {
        let gap = Gap {
            bottom: Length::from_inches(bottom),
            top: Length::from_inches(top),
        };
        let name = Name::or("A", "A");
        let edge = Edge::new(EdgeId(1), name, EdgeKind::Hip, Hand::Left);
        let odd = odd_width(&gap, &edge, &Settings::default());
        assert_eq!(odd, expected, "{bottom} {top}");
    }

    #[test]
    fn only_the_narrower_end_tells_whether_a_panel_fits() {
        check(60, 47, None);
        check(60, 48, Some(OddWidth::AnotherPanelFits));
        check(14, 2, None);
        check(13, 1, Some(OddWidth::UnderTheLap));
    }
}
