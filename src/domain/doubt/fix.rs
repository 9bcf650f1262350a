//! What taking a suggestion does to the log.
//!
//! Nothing is ever taken by itself: the caller asks, and keeps what was
//! written before (a copy of the edge, for undo).

use crate::domain::log::{Course, CourseNumber, Edge, End, Reading};
use crate::domain::measure::Length;
use crate::domain::roof::EdgeKind;
use crate::domain::tape::Unit;

/// The change a suggestion stands for.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Fix {
    Reading {
        course: CourseNumber,
        end: End,
        to: Length,
    },
    Swap {
        course: CourseNumber,
    },
    /// Make the top of a course and the bottom of the next one shorter.
    Placement {
        /// The course below the line at which the tape was held wrong.
        course: CourseNumber,
        /// By how much; below zero makes them longer.
        by: Length,
    },
    /// A reading was left out: from this place on, all readings move one on,
    /// and the place stays unread.
    MakeRoom {
        /// Of which course the missing one is.
        course: CourseNumber,
        end: End,
    },
    /// A reading was written twice: it goes, and all later ones move one back.
    StrikeOut {
        /// In which course the repeat stands.
        course: CourseNumber,
        end: End,
    },
    /// Make both readings of these courses shorter.
    Both {
        first: CourseNumber,
        last: CourseNumber,
        /// By how much; below zero makes them longer.
        by: Length,
    },
    /// Each of two neighbouring courses takes the other's readings.
    Exchange {
        below: CourseNumber,
    },
    /// The readings from the last course to the first, as if read from the eave.
    TurnOver,
    SwapColumns,
    /// Exchange this side's slope with the other one's: not in the log.
    ExchangeSlopes,
    Kind(EdgeKind),
    /// Every figure of the edge was written so, and taken for one of that unit.
    ReadIn(WrittenIn, Unit),
    /// A course was forgotten above this one: not in the log alone.
    CourseBetween {
        below: CourseNumber,
    },
    /// The boards meet below this course: it goes out of the log.
    NoCourse {
        course: CourseNumber,
        meets_in: CourseNumber,
    },
    /// Nothing better is known than to measure again.
    MeasureAgain,
}

impl Fix {
    /// The edge with the suggestion taken; `None` where the log and the kind
    /// stay as they are, or the figures would not be readings.
    pub fn taken(self, edge: &Edge) -> Option<Edge> {
        let mut fixed = edge.clone();
        match self {
            Self::Reading { course, end, to } => put(&mut fixed, course, end, to)?,
            Self::Swap { course } => fixed.put(swapped(edge.course(course)?)),
            Self::Placement { course, by } => {
                for (course, end) in [(course, End::Top), (course.next(), End::Bottom)] {
                    put(&mut fixed, course, end, edge.reading(course, end)? - by)?;
                }
            }
            Self::MakeRoom { course, end } => {
                fixed = move_on(edge, course, end, |figures| figures.insert(0, None));
            }
            Self::StrikeOut { course, end } => {
                fixed = move_on(edge, course, end, |figures| {
                    figures.push(None);
                    figures.remove(0);
                });
            }
            Self::Both { first, last, by } => {
                let those = |course: &&Course| (first..=last).contains(&course.number);
                for course in edge.courses().iter().filter(those) {
                    fixed.put(course.each(|read| Reading::new(read.length() - by).ok())?);
                }
            }
            Self::Exchange { below } => {
                let (low, high) = (*edge.course(below)?, *edge.course(below.next())?);
                fixed.put(Course {
                    number: below,
                    ..high
                });
                fixed.put(Course {
                    number: below.next(),
                    ..low
                });
            }
            Self::TurnOver => {
                let numbers = edge.courses().iter().map(|course| course.number);
                for (course, number) in edge.courses().iter().rev().zip(numbers) {
                    fixed.put(Course { number, ..*course });
                }
            }
            Self::SwapColumns => {
                for course in edge.courses() {
                    fixed.put(swapped(course));
                }
            }
            Self::Kind(kind) => fixed.kind = kind,
            Self::NoCourse { course, .. } => fixed.courses.retain(|it| it.number != course),
            Self::ReadIn(written, unit) => {
                let meant = |read: Reading| Reading::new(written.meant(read.length(), unit)).ok();
                for course in edge.courses() {
                    fixed.put(course.each(meant)?);
                }
            }
            Self::ExchangeSlopes | Self::CourseBetween { .. } | Self::MeasureAgain => return None,
        }
        Some(fixed)
    }
}

/// In what a figure was written that was taken for one of the job's unit.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum WrittenIn {
    Inches,
    Millimetres,
    Centimetres,
}

impl WrittenIn {
    pub(super) const ALL: [Self; 3] = [Self::Millimetres, Self::Inches, Self::Centimetres];

    /// `inches`, `millimetres` or `centimetres`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Inches => "inches",
            Self::Millimetres => "millimetres",
            Self::Centimetres => "centimetres",
        }
    }

    pub(super) const fn one(self) -> Length {
        match self {
            Self::Inches => Length::from_inches(1),
            Self::Millimetres => Length::from_mm(1),
            Self::Centimetres => Length::from_mm(10),
        }
    }

    /// The figure of `read`, taken for one in `unit`, as it was meant.
    pub(super) fn meant(self, read: Length, unit: Unit) -> Length {
        let taken = match unit {
            Unit::Inch => Self::Inches,
            Unit::Millimetre => Self::Millimetres,
        };
        read.scaled(self.one(), taken.one())
    }
}

fn put(edge: &mut Edge, number: CourseNumber, end: End, to: Length) -> Option<()> {
    let reading = Reading::new(to).ok()?;
    let course = edge.course(number)?.with(end, Some(reading));
    edge.put(course);
    Some(())
}

fn swapped(course: &Course) -> Course {
    Course {
        bottom: course.top,
        top: course.bottom,
        ..*course
    }
}

/// `change` made to the row of figures from the one at `end` of `course` up,
/// while the courses follow one another; one to spare may come in above.
fn move_on(
    edge: &Edge,
    course: CourseNumber,
    end: End,
    change: impl FnOnce(&mut Vec<Option<Reading>>),
) -> Edge {
    let above = edge.courses().iter().filter(|each| each.number >= course);
    let row = above.zip(course.get()..);
    let row = row.take_while(|(each, number)| each.number.get() == *number);
    let places = row.flat_map(|(each, _)| End::BOTH.map(|end| (each.number, end)));
    let mut places: Vec<_> = places.filter(|place| *place >= (course, end)).collect();
    let read = |(number, end): &(CourseNumber, End)| edge.course(*number)?.reading(*end);
    let mut figures = places.iter().map(read).collect();
    change(&mut figures);
    let spare = places.last().map(|(last, _)| (last.next(), End::Bottom));
    places.extend(spare.filter(|spare| !places.contains(spare)));
    let mut moved = edge.clone();
    for ((number, end), reading) in places.into_iter().zip(figures) {
        let course = moved.course(number).copied();
        let course = course.unwrap_or(Course::unread(number)).with(end, reading);
        if course.is_blank() {
            moved.remove(number);
        } else {
            moved.put(course);
        }
    }
    moved
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        log::EdgeId,
        measure::{Hand, Name},
    };

    fn edge(readings: &[i64]) -> Edge {
        let mut edge = Edge::new(EdgeId(1), Name::or("North", "?"), EdgeKind::Hip, Hand::Left);
        for (pair, number) in readings.chunks(2).zip(1..) {
            let mut course = Course::unread(CourseNumber::new(number).unwrap());
            for (inches, end) in pair.iter().zip(End::BOTH) {
                course = course.with(end, Reading::new(Length::from_inches(*inches)).ok());
            }
            edge.put(course);
        }
        edge
    }

    fn number(number: u32) -> CourseNumber {
        CourseNumber::new(number).unwrap()
    }

    #[test]
    fn room_is_made_for_a_reading_left_out() {
        let fix = Fix::MakeRoom {
            course: number(1),
            end: End::Top,
        };
        let fixed = fix.taken(&edge(&[30, 40, 28, 35, 23])).unwrap();
        let mut expected = edge(&[30, 0, 40, 28, 35, 23]);
        expected.put(expected.course(number(1)).unwrap().with(End::Top, None));
        assert_eq!(fixed, expected);
        let full = fix.taken(&edge(&[30, 40, 28, 35])).unwrap();
        assert_eq!(
            full.course(number(3)).unwrap().bottom.unwrap().length(),
            Length::from_inches(35)
        );
    }

    #[test]
    fn a_reading_written_twice_is_struck_out() {
        let fix = Fix::StrikeOut {
            course: number(1),
            end: End::Top,
        };
        let fixed = fix.taken(&edge(&[30, 30, 18, 40, 28])).unwrap();
        assert_eq!(fixed, edge(&[30, 18, 40, 28]));
    }

    #[test]
    fn a_placement_moves_the_readings_on_both_sides_of_the_line() {
        let fix = Fix::Placement {
            course: number(1),
            by: Length::from_inches(1),
        };
        let fixed = fix.taken(&edge(&[30, 19, 41, 28])).unwrap();
        assert_eq!(fixed, edge(&[30, 18, 40, 28]));
    }

    #[test]
    fn columns_swapped_twice_are_as_before() {
        let before = edge(&[30, 18, 40, 28]);
        let once = Fix::SwapColumns.taken(&before).unwrap();
        assert_eq!(once, edge(&[18, 30, 28, 40]));
        assert_eq!(Fix::SwapColumns.taken(&once), Some(before));
    }

    #[test]
    fn a_fix_of_the_roof_or_of_no_course_leaves_the_log_alone() {
        let edge = edge(&[30, 18]);
        let nowhere = Fix::Swap { course: number(7) };
        assert_eq!(nowhere.taken(&edge), None);
        assert_eq!(Fix::ExchangeSlopes.taken(&edge), None);
    }
}
