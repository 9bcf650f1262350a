//! What a spreadsheet last said of a course, and what becomes of a figure that
//! it says anew.
//!
//! A sheet grows while the bench works, and both may correct a figure. What the
//! sheet said is kept beside the log, so that it is known which of the two has
//! changed. A figure that both have changed is two readings: the log's stays in
//! force until somebody who has looked at the roof chooses.

use super::course::{Course, CourseNumber, End, Reading};
use crate::domain::tape::{Unit, exact_with_unit};

/// One of the figures that are read of a course.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum CourseFigure {
    /// The gap at the line below.
    Bottom,
    /// The gap at the line above.
    Top,
    /// How far up the edge's line leaves the course.
    RunsOut,
    /// A short course's own height.
    Height,
}

impl CourseFigure {
    /// Every one, as a course holds them.
    pub const ALL: [Self; 4] = [Self::Bottom, Self::Top, Self::RunsOut, Self::Height];

    /// What it is called.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Bottom => "bottom",
            Self::Top => "top",
            Self::RunsOut => "runs out",
            Self::Height => "height",
        }
    }

    /// The reading beside which it stands in the Log.
    pub const fn end(self) -> End {
        match self {
            Self::Bottom => End::Bottom,
            Self::Top | Self::RunsOut | Self::Height => End::Top,
        }
    }

    /// It, as `course` has it.
    pub const fn of(self, course: &Course) -> Option<Reading> {
        match self {
            Self::Bottom => course.bottom,
            Self::Top => course.top,
            Self::RunsOut => course.runs_out,
            Self::Height => course.height,
        }
    }

    const fn put(self, course: &mut Course, reading: Option<Reading>) {
        match self {
            Self::Bottom => course.bottom = reading,
            Self::Top => course.top = reading,
            Self::RunsOut => course.runs_out = reading,
            Self::Height => course.height = reading,
        }
    }
}

/// What a sheet last said of one course.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SheetSaid {
    /// Its figures; what it never said is missing.
    pub course: Course,
    /// The figures of which sheet and log had each another, nobody having
    /// chosen yet, in rising order.
    pub two: Vec<CourseFigure>,
}

/// What a row came to.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Took {
    /// It said nothing that was new to the log.
    Nothing,
    /// A figure is two readings now, and none was taken.
    Two,
    /// A figure of it is in the log now.
    Figures,
}

/// A figure of which the log and a sheet have each another.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TwoReadings {
    /// Of which course.
    pub course: CourseNumber,
    /// Which of its figures.
    pub figure: CourseFigure,
    /// The log's, which is in force.
    pub log: Option<Reading>,
    /// What the sheet last said.
    pub sheet: Reading,
}

impl TwoReadings {
    /// In words: `two readings of course 4 top: 13 in in the log, 14 in in the
    /// sheet`.
    pub fn words(&self, unit: Unit) -> String {
        let Self {
            course,
            figure,
            log,
            sheet,
        } = self;
        let say = |reading: Reading| exact_with_unit(reading.length(), unit);
        let log = log.map_or_else(|| "not read".to_owned(), say);
        format!(
            "two readings of course {course} {}: the log has {log}, the sheet {}",
            figure.word(),
            say(*sheet)
        )
    }
}

impl SheetSaid {
    /// Nothing said yet.
    pub const fn nothing(number: CourseNumber) -> Self {
        Self {
            course: Course::unread(number),
            two: Vec::new(),
        }
    }

    /// The very figures of `course` said, by nobody otherwise.
    pub const fn just(course: &Course) -> Self {
        Self {
            course: Course {
                to: None,
                reads_to: None,
                trip: None,
                ..*course
            },
            two: Vec::new(),
        }
    }

    /// Whether that is so.
    pub fn is(&self, course: &Course) -> bool {
        self.two.is_empty() && *self == Self::just(course)
    }

    /// Takes what a sheet's `row` says, figure by figure, into `log`:
    ///
    /// | the row | the log | then |
    /// |---|---|---|
    /// | blank | any | it says nothing |
    /// | as last said | any | skipped: a correction at the bench stands |
    /// | new | the same | nothing to take |
    /// | new | as last said, or nothing | taken |
    /// | new | changed at the bench | two readings, the log's in force |
    ///
    /// A reading and "runs out" at its place say the same thing in two ways:
    /// each takes the place of the other where the sheet said that too, and is
    /// two readings where the bench did.
    pub fn take(&mut self, row: &Course, log: &mut Course) -> Took {
        let (said, was) = (self.course, *log);
        let mut took = Took::Nothing;
        // Which edge it runs to is no figure: the first to say it is heard.
        if log.to.is_none() && row.to.is_some() {
            log.to = row.to;
            took = Took::Figures;
        }
        for figure in CourseFigure::ALL {
            let Some(sheet) = figure.of(row) else {
                continue;
            };
            if figure.of(&said) == Some(sheet) {
                continue;
            }
            self.two.retain(|two| *two != figure);
            figure.put(&mut self.course, Some(sheet));
            let now = figure.of(&was);
            if now == Some(sheet) {
                continue;
            }
            let rival = rival(figure, row, &was);
            let changed = |figure: CourseFigure| figure.of(&was) != figure.of(&said);
            if now.is_some() && changed(figure) || rival.is_some_and(changed) {
                self.two.push(figure);
                took = took.max(Took::Two);
                continue;
            }
            figure.put(log, Some(sheet));
            took = Took::Figures;
            if let Some(rival) = rival {
                rival.put(log, None);
                rival.put(&mut self.course, None);
            }
        }
        self.two.sort_unstable();
        took
    }

    /// The figures that log and sheet have each otherwise; `log` is the log's
    /// course.
    pub fn two_readings(&self, log: Option<&Course>) -> impl Iterator<Item = TwoReadings> {
        let log = log.copied().unwrap_or(Course::unread(self.course.number));
        self.two.iter().filter_map(move |figure| {
            let (sheet, log) = (figure.of(&self.course)?, figure.of(&log));
            (log != Some(sheet)).then_some(TwoReadings {
                course: self.course.number,
                figure: *figure,
                log,
                sheet,
            })
        })
    }

    /// One of two readings was chosen: the sheet's where `sheets`. `narrow` is
    /// the end at which the edge runs out.
    pub fn choose(&mut self, figure: CourseFigure, sheets: bool, narrow: End, log: &mut Course) {
        self.two.retain(|two| *two != figure);
        let Some(reading) = figure.of(&self.course).filter(|_| sheets) else {
            return;
        };
        match figure {
            CourseFigure::Bottom => *log = log.with(End::Bottom, Some(reading)),
            CourseFigure::Top => *log = log.with(End::Top, Some(reading)),
            CourseFigure::RunsOut => {
                if log.bottom.is_some() && log.top.is_some() {
                    *log = log.with(narrow, None);
                }
                log.runs_out = Some(reading);
            }
            CourseFigure::Height => log.height = Some(reading),
        }
    }
}

/// What in the log says in another way what the row says by `figure`: a "runs
/// out" where the reading is missing, or a reading where the row says "runs
/// out" instead.
const fn rival(figure: CourseFigure, row: &Course, log: &Course) -> Option<CourseFigure> {
    match figure {
        CourseFigure::Bottom if is_out(row, log) && log.bottom.is_none() && log.top.is_some() => {
            Some(CourseFigure::RunsOut)
        }
        CourseFigure::Top if is_out(row, log) && log.top.is_none() && log.bottom.is_some() => {
            Some(CourseFigure::RunsOut)
        }
        CourseFigure::RunsOut if log.bottom.is_some() && log.top.is_some() => {
            match (row.bottom, row.top) {
                (None, Some(_)) => Some(CourseFigure::Bottom),
                (Some(_), None) => Some(CourseFigure::Top),
                // With both, or at an end not said: the log's readings are in force.
                _ => None,
            }
        }
        _ => None,
    }
}

const fn is_out(row: &Course, log: &Course) -> bool {
    log.runs_out.is_some() && row.runs_out.is_none()
}
