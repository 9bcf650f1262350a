//! Where the lines and courses of one side of the roof stand in its columns.

use super::roof_plan_signs::cell_width;
use crate::picture::roof_plan::{CourseRows, PlanEdge};
use crate::ui::theme::Theme;

/// Of a whole side, kept for the edges' two lines, their pointers and the number of
/// a course.
const KEPT: u16 = 7;

/// One side with its edges and columns.
pub(super) struct Side {
    pub(super) left: Option<PlanEdge>,
    pub(super) right: Option<PlanEdge>,
    pub(super) width: u16,
}

impl Side {
    pub(super) fn edges(&self) -> impl Iterator<Item = &PlanEdge> {
        self.left.iter().chain(&self.right)
    }

    /// How far its edges may lean so that their courses do not meet.
    pub(super) fn room_to_lean(&self, rows: &CourseRows, theme: &Theme) -> u16 {
        let each = u16::try_from(rows.each).unwrap_or(1);
        let wide = |edge: &PlanEdge| each * (cell_width(edge, rows.each, theme) + 1) - 1;
        let free = self.edges().map(wide).fold(self.width, u16::saturating_sub);
        let ends = u16::try_from(self.edges().count()).unwrap_or(1);
        free.saturating_sub(KEPT) / ends.max(1)
    }

    /// The columns of its two lines in `row`; of half a side the one line and where
    /// it ends in the field.
    pub(super) fn span(&self, rows: &CourseRows, row: u16, most: u16) -> (u16, u16) {
        let inset = |edge: &PlanEdge| 1 + rows.inset(edge.kind, row, most);
        let from = self.left.as_ref().map_or(0, inset);
        let to = self.right.as_ref().map_or(0, inset);
        (from, self.width.saturating_sub(1 + to))
    }

    pub(super) fn has_course(&self, number: u32) -> bool {
        let mut reaches = self.edges().filter_map(|edge| edge.reach);
        reaches.any(|(first, last)| (first..=last).contains(&number))
    }

    pub(super) fn has_line(&self, edge: &PlanEdge, rows: &CourseRows, row: u16) -> bool {
        let lowest = rows.lowest_in(row);
        let reach = edge.reach;
        reach.is_some_and(|(first, last)| lowest <= last && first < lowest + rows.each)
    }

    /// Whether a piece runs across it in that course.
    pub(super) fn joins(&self, number: u32) -> bool {
        let joined = |edge: &PlanEdge| {
            let mut courses = edge.courses.iter();
            courses.any(|course| course.number.get() == number && course.joined)
        };
        let ends = self.left.as_ref().zip(self.right.as_ref());
        ends.is_some_and(|(left, right)| joined(left) && joined(right))
    }

    /// The row of its highest course, where that is in sight.
    pub(super) fn top_row(&self, rows: &CourseRows) -> Option<u16> {
        let reaches = self.edges().filter_map(|edge| edge.reach);
        let highest = reaches.map(|(_, last)| last).max()?;
        Some(rows.place_of(highest)?.0)
    }
}
