//! The edges a panel is cut to: hips, valleys and rakes, with their log.
//!
//! An edge knows its name, kind, hand and courses as they were read. It does
//! not know the panel or the bench: widths become pieces in [`crate::domain::piece`].

use super::{
    course::{Course, CourseNumber, EdgeId, End, Reading},
    set_aside::SetAside,
    taken::{ReadTo, TapeEnd},
};
use crate::domain::measure::{Hand, Length, Name};
use crate::domain::roof::{Corner, EdgeKind, RoofLine};

/// A reading that gave way to a suggestion: struck through, still to be read.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Struck {
    /// Of which course.
    pub course: CourseNumber,
    /// Which of its two.
    pub end: End,
    /// As it was written.
    pub was: Reading,
}

/// A hip, valley or rake with the readings of its courses.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Edge {
    /// What the program calls it.
    pub id: EdgeId,
    /// What the cutter calls it.
    pub name: Name,
    /// What sort of edge it is.
    pub kind: EdgeKind,
    /// The hand of its pieces.
    pub hand: Hand,
    /// The slopes beside it and the corner of its eaves, as far as known.
    pub roof: RoofLine,
    /// The roof plane it bounds, where somebody named it.
    pub plane: Option<Name>,
    /// The colour lot its panels come from; colours are not mixed on a plane.
    pub lot: Option<Name>,
    /// To what it is read, where that is an exception.
    pub reads_to: Option<ReadTo>,
    /// How the tape's end is held at it, where that is an exception.
    pub tape_end: Option<TapeEnd>,
    /// Doubts that were answered "measured again, it stands".
    pub set_aside: Vec<SetAside>,
    /// Readings that gave way to a suggestion, as they were written.
    pub struck: Vec<Struck>,
    /// Its courses, in rising order, each number once: [`Edge::put`] keeps that.
    /// In sight of the crate for a pattern that must forget no field.
    pub(crate) courses: Vec<Course>,
}

impl Edge {
    /// An edge without any reading.
    pub const fn new(id: EdgeId, name: Name, kind: EdgeKind, hand: Hand) -> Self {
        Self {
            id,
            name,
            kind,
            hand,
            roof: RoofLine {
                slope: None,
                other: None,
                corner: Corner::SQUARE,
            },
            plane: None,
            lot: None,
            reads_to: None,
            tape_end: None,
            set_aside: Vec::new(),
            struck: Vec::new(),
            courses: Vec::new(),
        }
    }

    /// This edge as a suggestion left it, what it was before struck through.
    #[must_use]
    pub fn with_struck(mut self, before: &Self) -> Self {
        for course in before.courses() {
            let now = self.course(course.number);
            let gone = End::BOTH.into_iter().filter_map(|end| {
                let was = course.reading(end)?;
                let changed = now.and_then(|now| now.reading(end)) != Some(was);
                changed.then_some(Struck {
                    course: course.number,
                    end,
                    was,
                })
            });
            let gone: Vec<Struck> = gone.collect();
            self.struck.extend(gone);
        }
        self
    }

    /// The courses, in rising order.
    pub fn courses(&self) -> &[Course] {
        &self.courses
    }

    /// The course of that number.
    pub fn course(&self, number: CourseNumber) -> Option<&Course> {
        let at = self.place_of(number).ok()?;
        self.courses.get(at)
    }

    /// The reading at `end` of a course, where it is read.
    pub fn reading(&self, number: CourseNumber, end: End) -> Option<Length> {
        let reading = self.course(number)?.reading(end)?;
        Some(reading.length())
    }

    /// Puts `course` in its place, over one of the same number.
    pub fn put(&mut self, course: Course) {
        match self.place_of(course.number) {
            Ok(at) => {
                if let Some(place) = self.courses.get_mut(at) {
                    *place = course;
                }
            }
            Err(at) => self.courses.insert(at, course),
        }
    }

    /// Puts many courses in their places in one go; the last of a number stays.
    pub fn put_all(&mut self, courses: impl IntoIterator<Item = Course>) {
        self.courses.extend(courses);
        // Stable, so among equal numbers the later one comes last.
        self.courses.sort_by_key(|course| course.number);
        self.courses.dedup_by(|later, earlier| {
            let same = later.number == earlier.number;
            if same {
                *earlier = *later;
            }
            same
        });
    }

    /// Takes the course of that number out of the log.
    pub fn remove(&mut self, number: CourseNumber) -> Option<Course> {
        let at = self.place_of(number).ok()?;
        Some(self.courses.remove(at))
    }

    /// The number after the last course's; 1 for an edge not yet read.
    pub fn next_course(&self) -> CourseNumber {
        self.courses
            .last()
            .map_or(CourseNumber::FIRST, |course| course.number.next())
    }

    fn place_of(&self, number: CourseNumber) -> Result<usize, usize> {
        self.courses
            .binary_search_by_key(&number, |course| course.number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        log::{End, Reading},
        measure::Length,
    };

    #[test]
    fn many_courses_put_at_once_come_out_as_one_by_one() {
        let courses = [3, 1, 2, 1, 3]
            .into_iter()
            .zip(1..)
            .map(|(number, inches)| {
                let number = CourseNumber::new(number).unwrap();
                let reading = Reading::new(Length::from_inches(inches)).ok();
                Course::unread(number).with(End::Top, reading)
            });
        let edge = || Edge::new(EdgeId(1), Name::or("A", "?"), EdgeKind::Hip, Hand::Left);
        let (mut one_by_one, mut at_once) = (edge(), edge());
        for course in courses.clone() {
            one_by_one.put(course);
        }
        at_once.put_all(courses);
        assert_eq!(at_once, one_by_one);
        assert_eq!(at_once.courses().len(), 3);
    }
}
