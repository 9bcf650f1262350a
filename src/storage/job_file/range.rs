//! What the figures of a file may be, and what is said of one that is not.

use crate::domain::{
    bench::MarkedStock,
    log::{CourseNumber, EdgeId},
    measure::{Length, Name, SkewLine},
    piece::{Panel, PieceId},
    stock::OffcutNumber,
};

/// Figures of a marked piece may lie this far out: a flat line across a low
/// course leaves a reading's range by far, but no roof.
pub(super) const FARTHEST: Length = Length::LONGEST.times(100);

/// The least that a panel or a rise measures.
pub(super) const LEAST: Length = Length::from_nm(1);

pub(super) fn within(what: &str, value: Length, least: Length, most: Length) -> Result<(), String> {
    if value < least || value > most {
        Err(format!(
            "{what} of {} nm is out of range, expected {} to {}",
            value.nm(),
            least.nm(),
            most.nm()
        ))
    } else {
        Ok(())
    }
}

/// A line with a rise.
pub(super) fn line_in(at_nose: Length, at_rise: Length, rise: Length) -> Result<SkewLine, String> {
    within("at_nose", at_nose, -FARTHEST, FARTHEST)?;
    within("at_rise", at_rise, -FARTHEST, FARTHEST)?;
    within("rise", rise, LEAST, Length::LONGEST)?;
    Ok(SkewLine {
        at_nose,
        at_rise,
        rise,
    })
}

/// A panel with a width and a height.
pub(super) fn panel_in(width: Length, height: Length) -> Result<Panel, String> {
    within("panel_width", width, LEAST, Length::LONGEST)?;
    within("panel_height", height, LEAST, Length::LONGEST)?;
    Ok(Panel { width, height })
}

/// What a piece was marked on, with numbers from which can be counted up.
pub(super) fn stock_in(stock: MarkedStock) -> Result<MarkedStock, String> {
    if let MarkedStock::Offcut { offcut, .. } = stock {
        offcut_number(offcut.0)?;
    }
    if let Some(panel) = stock.panel() {
        counted("panel", panel)?;
    }
    Ok(stock)
}

pub(super) fn piece_id(edge: u32, course: u32, piece: u32) -> Result<PieceId, String> {
    if piece == 0 {
        return Err("piece 0 is out of range, expected 1 or more".to_owned());
    }
    Ok(PieceId {
        edge: EdgeId(edge),
        course: course_number(course)?,
        number: piece,
    })
}

/// The course of that number.
pub(super) fn course_number(number: u32) -> Result<CourseNumber, String> {
    CourseNumber::new(number).ok_or_else(|| {
        format!(
            "course {number} is out of range, expected 1 to {}",
            CourseNumber::LAST
        )
    })
}

/// Numbers are counted up from the last one, so the highest leave no room.
pub(super) fn offcut_number(number: u32) -> Result<OffcutNumber, String> {
    counted("offcut", number).map(OffcutNumber)
}

fn counted(what: &str, number: u32) -> Result<u32, String> {
    const MOST: u32 = 1_000_000_000;
    if (1..=MOST).contains(&number) {
        Ok(number)
    } else {
        Err(format!(
            "{what} {number} is out of range, expected 1 to {MOST}"
        ))
    }
}

/// A colour lot, where one is given.
pub(super) fn lot_in(lot: Option<String>) -> Result<Option<Name>, String> {
    lot.map(|lot| Name::new(&lot).map_err(|error| format!("lot: {error}")))
        .transpose()
}
