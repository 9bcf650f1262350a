//! The edges a panel is cut to: hips, valleys and rakes, with their log.
//!
//! An edge knows its name, kind, hand and courses as they were read. It does
//! not know the panel or the bench: widths become pieces in [`crate::domain::piece`].

use super::{
    course::{Course, CourseNumber, EdgeId, End, Reading},
    course_shift::CourseShift,
    said::{SheetSaid, Took, TwoReadings},
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

/// Another colour lot from a course on.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct LaterLot {
    /// The first course of it.
    pub from: CourseNumber,
    pub lot: Name,
}

/// A hip, valley or rake with the readings of its courses.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Edge {
    /// What the program calls it.
    pub id: EdgeId,
    /// What the shear calls it.
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
    /// Where another lot begins on the way up, in rising order.
    pub later_lots: Vec<LaterLot>,
    /// To what it is read, where that is an exception.
    pub reads_to: Option<ReadTo>,
    /// How the tape's end is held at it, where that is an exception.
    pub tape_end: Option<TapeEnd>,
    /// Doubts that were answered "measured again, it stands".
    pub set_aside: Vec<SetAside>,
    /// Readings that gave way to a suggestion, as they were written.
    pub struck: Vec<Struck>,
    /// What a spreadsheet last said of its courses, in rising order, each number
    /// once; empty while nothing was imported.
    pub said: Vec<SheetSaid>,
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
            later_lots: Vec::new(),
            reads_to: None,
            tape_end: None,
            set_aside: Vec::new(),
            struck: Vec::new(),
            said: Vec::new(),
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

    /// The colour lot of a course, where it was named.
    pub fn lot_of(&self, course: CourseNumber) -> Option<&Name> {
        let mut from_above = self.later_lots.iter().rev();
        let later = from_above.find(|later| later.from <= course);
        later.map_or(self.lot.as_ref(), |later| Some(&later.lot))
    }

    /// Its colour lots from the eave up, `None` where the first was not named.
    pub fn lots(&self) -> impl Iterator<Item = Option<&Name>> {
        let later = self.later_lots.iter().map(|later| Some(&later.lot));
        std::iter::once(self.lot.as_ref()).chain(later)
    }

    /// How many readings were taken of it.
    pub fn readings(&self) -> usize {
        let taken = |course: &Course| {
            let ends = End::BOTH.into_iter();
            ends.filter(|end| course.reading(*end).is_some()).count()
        };
        self.courses.iter().map(taken).sum()
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

    /// What a sheet last said of the course of that number.
    pub fn said_of(&self, number: CourseNumber) -> Option<&SheetSaid> {
        let said = |said: &SheetSaid| said.course.number;
        let at = self.said.binary_search_by_key(&number, said).ok()?;
        self.said.get(at)
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

    /// Puts a course in or takes one out; what is known of a course goes with it.
    pub fn shift_courses(&mut self, shift: CourseShift) {
        self.courses
            .retain_mut(|course| at(shift, &mut course.number));
        self.struck
            .retain_mut(|struck| at(shift, &mut struck.course));
        for later in &mut self.later_lots {
            later.from = shift.moved(later.from).unwrap_or(later.from);
        }
        // Two begin at one course where the one between was taken out.
        self.later_lots.reverse();
        self.later_lots.dedup_by_key(|later| later.from);
        self.later_lots.reverse();
        self.set_aside.retain_mut(|answer| match answer {
            SetAside::Course { course, .. } | SetAside::Placement { course, .. } => {
                at(shift, course)
            }
            SetAside::Edge { .. } => true,
        });
    }

    /// The number after the last course's; 1 for an edge not yet read.
    pub fn next_course(&self) -> CourseNumber {
        self.courses
            .last()
            .map_or(CourseNumber::FIRST, |course| course.number.next())
    }

    /// Takes many rows of a sheet, each course once; says what each came to.
    pub fn take_rows(&mut self, mut rows: Vec<Course>) -> Vec<(CourseNumber, Took)> {
        rows.sort_by_key(|row| row.number);
        let (mut said, mut taken, mut came_to) = (Vec::new(), Vec::new(), Vec::new());
        let mut before = std::mem::take(&mut self.said).into_iter().peekable();
        for row in rows {
            let below = |said: &SheetSaid| said.course.number < row.number;
            said.extend(std::iter::from_fn(|| before.next_if(below)));
            let mut its = before
                .next_if(|said| said.course.number == row.number)
                .unwrap_or(SheetSaid::nothing(row.number));
            let logged = self.course(row.number).copied();
            let mut now = logged.unwrap_or(Course::unread(row.number));
            let took = its.take(&row, &mut now);
            if took == Took::Figures {
                taken.push(now);
            }
            came_to.push((row.number, took));
            if !its.course.is_blank() {
                said.push(its);
            }
        }
        said.extend(before);
        self.said = said;
        if !taken.is_empty() {
            self.put_all(taken);
        }
        came_to
    }

    /// The figures of which the log and a sheet have each another.
    pub fn two_readings(&self) -> impl Iterator<Item = TwoReadings> {
        let open = self.said.iter().filter(|said| !said.two.is_empty());
        open.flat_map(|said| said.two_readings(self.course(said.course.number)))
    }

    /// Chooses one of two readings: the sheet's where `sheets`, else the log's.
    pub fn choose(&mut self, two: &TwoReadings, sheets: bool) {
        let narrow = End::narrow(self.kind);
        let logged = self.course(two.course).copied();
        let mut now = logged.unwrap_or(Course::unread(two.course));
        let mut said = self.said.iter_mut();
        if let Some(said) = said.find(|said| said.course.number == two.course) {
            said.choose(two.figure, sheets, narrow, &mut now);
        }
        if !now.is_blank() {
            self.put(now);
        }
    }

    fn place_of(&self, number: CourseNumber) -> Result<usize, usize> {
        self.courses
            .binary_search_by_key(&number, |course| course.number)
    }
}

/// Whether the course stays at all; its number is then the new one.
fn at(shift: CourseShift, number: &mut CourseNumber) -> bool {
    let moved = shift.moved(*number);
    *number = moved.unwrap_or(*number);
    moved.is_some()
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
