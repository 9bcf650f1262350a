//! The pieces a gap asks for, as plain figures the bench can work from.
//!
//! [`pieces_of_gap`] applies the trade's rule for gaps wider than one panel
//! serves: piece `k = 0, 1, ...` of a course has the widths `b - k C`,
//! `t - k C`; the last is the first whose **bend** line stays within the panel
//! at both ends. It does not say where the marks stand: [`crate::domain::piece`] does.

use crate::domain::{
    log::{CourseNumber, EdgeId, End, Gap},
    measure::{Hand, Length, Polygon, SkewLine},
    roof::EdgeKind,
    settings::Settings,
    tape::{Division, print_with_unit},
};

/// Which piece is meant: the edge, the course, and the place in the course
/// counted 1 from the field.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct PieceId {
    /// The edge it is cut to.
    pub edge: EdgeId,
    /// The course it fills.
    pub course: CourseNumber,
    /// 1 for the piece beside the field, 2 for the next one out.
    pub number: u32,
}

/// The stock a piece is cut from, as it lies before the cut.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Panel {
    /// Overall width.
    pub width: Length,
    /// From nose to back; of one that is cut across for a short course as far as
    /// the marks go, to the course's own height.
    pub height: Length,
}

impl Panel {
    /// Its outline, `x` from the whole end, `y` from the nose.
    pub fn outline(&self) -> Polygon {
        Polygon::rectangle(self.width, self.height)
    }
}

/// All that the bench needs to know of one piece.
///
/// A piece that has been marked stores this as it was; later readings and
/// settings only touch pieces not yet marked.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct PieceSpec {
    /// What sort of edge it is cut to.
    pub kind: EdgeKind,
    /// The side of it that stays whole.
    pub hand: Hand,
    /// The bend line: finished widths at the nose and `rise` (the course's
    /// height) up from it.
    pub bend: SkewLine,
    /// How far beyond the bend line it is cut, along the panel's edge.
    pub allowance: Length,
    /// What it is cut from.
    pub panel: Panel,
    /// Where the panel is cut across first, up from the nose: a short course
    /// for which the panel is too high.
    pub across: Option<Length>,
    /// The other end, of a piece cut at both: `kind`, `bend` and `allowance` are
    /// those of its far end then, and `hand` is the tape's side.
    pub near: Option<NearEnd>,
}

/// The end at the tape's side of a piece that is cut at both.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct NearEnd {
    /// The edge at this end, then the one at the far end.
    pub edges: [EdgeId; 2],
    pub kind: EdgeKind,
    /// Its bend line, from the tape's side.
    pub bend: SkewLine,
    /// How far nearer than its bend line it is cut, along the panel's edge.
    pub allowance: Length,
}

impl NearEnd {
    /// The cut line: the bend line moved toward the tape's side.
    pub fn cut(&self) -> SkewLine {
        self.bend.moved(-self.allowance)
    }
}

impl PieceSpec {
    /// Up to where there is a piece: where it is cut across, else its back.
    pub fn top(&self) -> Length {
        self.across.unwrap_or(self.panel.height)
    }

    /// What its panel is cut down to before it is marked, over the ridge's
    /// leg too; the whole panel where it is not cut across.
    pub fn blank(&self) -> Panel {
        Panel {
            height: self.top(),
            ..self.panel
        }
    }

    /// The cut line: the bend line moved out by the allowance along the edge.
    pub fn cut(&self) -> SkewLine {
        self.bend.moved(self.allowance)
    }

    /// The angle of both lines from square, in degrees, `0..90`:
    /// `atan(|b - t| / h)`.
    pub fn skew_deg(&self) -> f64 {
        self.bend.lean().abs().atan().to_degrees()
    }

    /// How high the leg stands, square to the bend line: `a / hypot(1, lean)`.
    pub fn leg(&self) -> Length {
        standing(self.allowance, self.bend.lean())
    }
}

/// How high a leg stands whose allowance along the edge is `along`.
pub fn standing(along: Length, lean: f64) -> Length {
    Length::rounded_from_mm(along.mm() / lean.hypot(1.0))
}

/// The allowance along the edge that makes a leg stand `standing` high.
pub fn along(standing: Length, lean: f64) -> Length {
    Length::rounded_from_mm(standing.mm() * lean.hypot(1.0))
}

/// Why a course has no pieces, or none yet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum CourseTrouble {
    /// One of the readings is missing.
    NotRead(End),
    /// Both readings are missing.
    Unread,
    /// A line that runs out must do so above the course's foot and, in a
    /// course read at the top, below its head.
    RunsOutNowhere,
    /// The course is said to be higher than the panel: a short one by its own
    /// height, any other by the exposure.
    TooHigh {
        height: Length,
        /// What the panel has.
        panel: Length,
    },
    /// The course is said to have no height.
    NoHeight,
    /// The line is so flat that it leaves the course far beyond any roof.
    TooFlat,
    /// The edge leaves nothing to fill.
    NothingToCut,
    /// Cut at both ends: how much each of them leans is known of neither the log
    /// nor the slopes.
    NoLean,
    /// Cut at both ends: the edge that it runs to is no longer in the job.
    NoOtherEdge,
    /// Cut at both ends: nothing is left at the bottom.
    NoWidthBelow,
    /// Cut at both ends: the two bend lines need so much width.
    TooWide { needs: Length },
}

impl CourseTrouble {
    /// In words, with lengths on the tape `division`.
    pub fn words(&self, division: Division) -> String {
        match self {
            Self::NotRead(end) => format!("{} not read yet", end.word()),
            Self::Unread => "not read yet".to_owned(),
            Self::RunsOutNowhere => {
                "runs out at no height within the course: read that again".to_owned()
            }
            Self::TooHigh { height, panel } => format!(
                "course height {} is over the panel's {}",
                print_with_unit(*height, division),
                print_with_unit(*panel, division)
            ),
            Self::NoHeight => "course height 0: read that again".to_owned(),
            Self::TooFlat => "the line runs out too low to mark: read that again".to_owned(),
            Self::NothingToCut => "no gap here: no piece".to_owned(),
            Self::NoLean => "give the slopes: which end leans how much is not known".to_owned(),
            Self::NoOtherEdge => {
                "the edge it runs to is gone: say anew where it runs to".to_owned()
            }
            Self::NoWidthBelow => "no width at the bottom: read that again".to_owned(),
            Self::TooWide { needs } => format!(
                "too wide for one panel (the bend lines need {}): strike a line up the course where a side lap shall be; read both ends to it, one to the lap line, the other as to the panel's edge",
                print_with_unit(*needs, division)
            ),
        }
    }
}

/// What a course of one edge has in common for all of its pieces.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct CourseFrame {
    /// What sort of edge it is.
    pub kind: EdgeKind,
    /// The hand of its pieces.
    pub hand: Hand,
    /// The course's own height, where it is short.
    pub short: Option<Length>,
    /// The allowance along the edge.
    pub allowance: Length,
}

/// The pieces that fill `gap` (finished widths), in the order they are laid.
///
/// ```text
///   field |<---- C ---->|<---- C ---->|
///         |   piece 1   |   piece 2  /|
///         |  (full)     |  (last)   / |
///         +-------------+----------+--+
/// ```
///
/// # Errors
/// [`CourseTrouble`] where the course's height does not fit the panel, the line
/// is too flat, or nothing is left to cut.
pub fn pieces_of_gap(
    gap: Gap,
    frame: &CourseFrame,
    settings: &Settings,
) -> Result<Vec<PieceSpec>, CourseTrouble> {
    let CourseHeight {
        rise,
        panel,
        across,
    } = course_height(frame.short, settings)?;
    if gap.bottom.abs() > Length::LONGEST || gap.top.abs() > Length::LONGEST {
        return Err(CourseTrouble::TooFlat);
    }
    let first = PieceSpec {
        kind: frame.kind,
        hand: frame.hand,
        bend: SkewLine {
            at_nose: gap.bottom,
            at_rise: gap.top,
            rise,
        },
        allowance: frame.allowance,
        panel,
        across,
        near: None,
    };
    let mut pieces = Vec::new();
    let mut piece = first;
    while piece.bend.at_nose.max(piece.bend.at_rise) > panel.width {
        pieces.push(piece);
        piece.bend = piece.bend.moved(-settings.cover());
    }
    let cut = piece.cut();
    if cut.at_nose.max(cut.x(panel.height)) > Length::ZERO {
        pieces.push(piece);
    }
    if pieces.is_empty() {
        return Err(CourseTrouble::NothingToCut);
    }
    Ok(pieces)
}

/// What a course's height makes of its panel.
pub(super) struct CourseHeight {
    /// Where the upper reading holds.
    pub(super) rise: Length,
    pub(super) panel: Panel,
    pub(super) across: Option<Length>,
}

/// A short course's panel is cut across where the ridge's leg ends and
/// marked up to the course's height. One that leaves nothing to cut off there
/// stays whole, and is marked at its own back like any other. No panel is lower
/// than its course: a piece of it would leave a gap below the next one.
///
/// # Errors
/// [`CourseTrouble`] where it is no height or over the panel's.
pub(super) fn course_height(
    short: Option<Length>,
    settings: &Settings,
) -> Result<CourseHeight, CourseTrouble> {
    let full = settings.panel_height();
    let panel = |height| Panel {
        width: settings.panel_width,
        height,
    };
    let rise = short.unwrap_or(settings.exposure);
    if rise <= Length::ZERO {
        return Err(CourseTrouble::NoHeight);
    }
    if rise > full {
        return Err(CourseTrouble::TooHigh {
            height: rise,
            panel: full,
        });
    }
    match short {
        None => Ok(CourseHeight {
            rise,
            panel: panel(full),
            across: None,
        }),
        Some(short) => {
            let across = Some(short + settings.ridge_turn_up).filter(|across| *across < full);
            Ok(CourseHeight {
                rise,
                panel: panel(if across.is_some() { short } else { full }),
                across,
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(b: i64, t: i64) -> Gap {
        Gap {
            bottom: Length::from_inches(b),
            top: Length::from_inches(t),
        }
    }

    fn frame() -> CourseFrame {
        CourseFrame {
            kind: EdgeKind::Hip,
            hand: Hand::Left,
            short: None,
            allowance: Length::from_inches(2),
        }
    }

    #[track_caller]
    fn check(gap: Gap, expected: &[(i64, i64)]) {
        let pieces = pieces_of_gap(gap, &frame(), &Settings::default()).unwrap_or_default();
        let widths: Vec<_> = pieces
            .iter()
            .map(|piece| {
                let inch = Length::from_inches(1).nm();
                (
                    piece.bend.at_nose.nm() / inch,
                    piece.bend.at_rise.nm() / inch,
                )
            })
            .collect();
        assert_eq!(widths, expected);
    }

    // The default panel is 48 in wide and covers 46.
    #[test]
    fn a_gap_that_fits_one_panel_is_one_piece() {
        check(inches(48, 36), &[(48, 36)]);
    }

    #[test]
    fn a_wider_gap_is_passed_on_by_one_cover_at_a_time() {
        check(inches(49, 37), &[(49, 37), (3, -9)]);
        check(inches(110, 98), &[(110, 98), (64, 52), (18, 6)]);
    }

    #[test]
    fn a_gap_with_no_width_left_beyond_the_cut_is_no_piece() {
        assert_eq!(
            pieces_of_gap(inches(-2, -14), &frame(), &Settings::default()),
            Err(CourseTrouble::NothingToCut)
        );
        check(inches(-1, -13), &[(-1, -13)]);
    }

    #[test]
    fn a_short_course_is_cut_across_and_holds_its_own_height() {
        let frame = CourseFrame {
            short: Some(Length::from_inches(7)),
            ..frame()
        };
        let pieces = pieces_of_gap(inches(20, 14), &frame, &Settings::default());
        let piece = pieces.ok().and_then(|pieces| pieces.first().copied());
        assert_eq!(
            piece.map(|p| (p.panel.height, p.bend.rise, p.across)),
            Some((
                Length::from_inches(7),
                Length::from_inches(7),
                Some(Length::from_inches(7))
            ))
        );
    }
}
