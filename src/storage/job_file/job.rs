//! The job file as serde reads and writes it, and version 1 as it is read.
//!
//! The log is one list for all edges, so that each course is one line that says
//! which edge it belongs to: short to read, and a change shows as one line.

use super::{
    edge::EdgeTwin,
    error::DecodeError,
    fact::EventTwin,
    range::course_number,
    settings::{ReadToSaid, SettingsTwin, SettingsV1, bare, optional},
    version::VERSION,
};
use crate::domain::{
    cutting::Job,
    log::{Course, CourseFigure, Edge, EdgeId, Reading, SheetSaid},
    measure::{Length, Name},
    settings::{RawSettings, Settings},
};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::collections::HashMap;

#[derive(Serialize, Deserialize)]
#[serde(rename = "Job", deny_unknown_fields)]
pub(super) struct JobTwin<'a, S = SettingsToday> {
    version: u32,
    #[serde(borrow)]
    name: Cow<'a, str>,
    settings: S,
    next_edge: u32,
    #[serde(borrow)]
    edges: Vec<EdgeTwin<'a>>,
    courses: Vec<CourseTwin>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    said: Vec<SaidTwin>,
    events: Vec<EventTwin>,
    /// How often the job was changed.
    #[serde(default, skip_serializing_if = "is_none_yet")]
    changes: u64,
}

#[derive(Serialize, Deserialize)]
#[serde(transparent)]
pub(super) struct SettingsToday(#[serde(with = "SettingsTwin")] RawSettings);

/// In version 1 each kind of edge has a field of its own.
#[derive(Deserialize)]
#[serde(transparent)]
pub(super) struct SettingsOfV1(#[serde(with = "SettingsV1")] RawSettings);

impl From<SettingsToday> for RawSettings {
    fn from(settings: SettingsToday) -> Self {
        settings.0
    }
}

impl From<SettingsOfV1> for RawSettings {
    fn from(settings: SettingsOfV1) -> Self {
        settings.0
    }
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "Course", deny_unknown_fields)]
struct CourseTwin {
    edge: u32,
    course: u32,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    bottom: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    top: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    runs_out: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    height: Option<Length>,
    /// The edge at its other end.
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    to: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    reads_to: Option<ReadToSaid>,
    /// A sheet last said these very figures.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    as_said: bool,
}

/// What a sheet last said of a course, where the log has other figures.
#[derive(Serialize, Deserialize)]
#[serde(rename = "Said", deny_unknown_fields)]
struct SaidTwin {
    edge: u32,
    course: u32,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    bottom: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    top: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    runs_out: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    height: Option<Length>,
    /// The figures of which the log has another, nobody having chosen.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    two: Vec<FigureTwin>,
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
enum FigureTwin {
    Bottom,
    Top,
    RunsOut,
    Height,
}

// serde hands the field over by reference.
#[allow(clippy::trivially_copy_pass_by_ref)]
const fn is_none_yet(changes: &u64) -> bool {
    *changes == 0
}

/// About how many bytes a job takes, so that its text is not moved as it grows.
pub(super) fn expected_bytes(job: &Job) -> usize {
    let courses: usize = job.edges().iter().map(|edge| edge.courses().len()).sum();
    let said: usize = job.edges().iter().map(|edge| edge.said.len()).sum();
    2_000 + job.edges().len() * 150 + (courses + said) * 90 + job.events().len() * 130
}

impl<'a> JobTwin<'a> {
    pub(super) fn of(job: &'a Job) -> Self {
        Self {
            version: VERSION,
            name: Cow::Borrowed(job.name.as_str()),
            settings: SettingsToday(*job.settings),
            next_edge: job.next_edge(),
            edges: job.edges().iter().map(|edge| EdgeTwin::of(edge)).collect(),
            courses: job
                .edges()
                .iter()
                .flat_map(|edge| {
                    let courses = edge.courses().iter();
                    courses.map(|course| CourseTwin {
                        as_said: edge
                            .said_of(course.number)
                            .is_some_and(|said| said.is(course)),
                        ..CourseTwin::of(edge.id, course)
                    })
                })
                .collect(),
            said: job
                .edges()
                .iter()
                .flat_map(|edge| {
                    let otherwise = edge.said.iter().filter(|said| {
                        let course = edge.course(said.course.number);
                        !course.is_some_and(|course| said.is(course))
                    });
                    otherwise.map(|said| SaidTwin::of(edge.id, said))
                })
                .collect(),
            events: job.events().iter().map(EventTwin::of).collect(),
            changes: job.changes(),
        }
    }
}

impl<S: Into<RawSettings>> JobTwin<'_, S> {
    pub(super) fn checked(self) -> Result<Job, DecodeError> {
        let name = Name::new(&self.name).map_err(|error| DecodeError::value("the job", error))?;
        let settings = Settings::checked(self.settings.into())
            .map_err(|error| DecodeError::value("settings", error))?;
        // An edge gets it, and the one after it is written then.
        if self.next_edge == 0 || self.next_edge == u32::MAX {
            let why = format!(
                "{} is out of range, expected 1 to {}",
                self.next_edge,
                u32::MAX - 1
            );
            return Err(DecodeError::value("next_edge", why));
        }
        let edges = edges(self.edges, self.courses, self.said, self.next_edge)?;
        let events = (1..)
            .zip(self.events)
            .map(|(count, event)| event.checked(count, self.next_edge))
            .collect::<Result<_, _>>()?;
        let mut job = Job::from_parts(name, settings, edges, self.next_edge, events)
            .map_err(|error| DecodeError::value("edges", error))?;
        job.set_changes(self.changes);
        Ok(job)
    }
}

impl CourseTwin {
    fn of(edge: EdgeId, course: &Course) -> Self {
        let Course {
            number,
            bottom,
            top,
            runs_out,
            height,
            to,
            reads_to,
        } = course;
        Self {
            edge: edge.0,
            course: number.get(),
            bottom: bottom.map(Reading::length),
            top: top.map(Reading::length),
            runs_out: runs_out.map(Reading::length),
            height: height.map(Reading::length),
            to: to.map(|edge| edge.0),
            reads_to: reads_to.map(ReadToSaid),
            as_said: false,
        }
    }

    fn checked(&self, edge: &Name) -> Result<Course, DecodeError> {
        let place = || format!("course {} of \"{edge}\"", self.course);
        let number = course_number(self.course)
            .map_err(|what| DecodeError::value(format!("edge \"{edge}\""), what))?;
        let reading = |what: &str, length: Option<Length>| {
            let Some(length) = length else {
                return Ok(None);
            };
            Reading::new(length).map(Some).map_err(|_| {
                let nm = length.nm();
                let most = Length::LONGEST.nm();
                DecodeError::value(
                    place(),
                    format!("{what} of {nm} nm is out of range, expected 0 to {most}"),
                )
            })
        };
        Ok(Course {
            number,
            bottom: reading("bottom", self.bottom)?,
            top: reading("top", self.top)?,
            runs_out: reading("runs_out", self.runs_out)?,
            height: reading("height", self.height)?,
            to: self.to.map(EdgeId),
            reads_to: self.reads_to.as_ref().map(|said| said.0),
        })
    }
}

impl SaidTwin {
    fn of(edge: EdgeId, said: &SheetSaid) -> Self {
        let SheetSaid { course, two } = said;
        let CourseTwin {
            edge,
            course,
            bottom,
            top,
            runs_out,
            height,
            to: _,
            reads_to: _,
            as_said: _,
        } = CourseTwin::of(edge, course);
        Self {
            edge,
            course,
            bottom,
            top,
            runs_out,
            height,
            two: two.iter().copied().map(FigureTwin::of).collect(),
        }
    }

    fn checked(&self, edge: &Name) -> Result<SheetSaid, DecodeError> {
        let course = CourseTwin {
            edge: self.edge,
            course: self.course,
            bottom: self.bottom,
            top: self.top,
            runs_out: self.runs_out,
            height: self.height,
            to: None,
            reads_to: None,
            as_said: false,
        };
        let course = course.checked(edge)?;
        let two: Vec<_> = self.two.iter().copied().map(FigureTwin::figure).collect();
        let said = |figure: &CourseFigure| figure.of(&course).is_some();
        if two.is_sorted_by(|one, other| one < other) && two.iter().all(said) {
            return Ok(SheetSaid { course, two });
        }
        let place = format!("said of course {} of \"{edge}\"", self.course);
        let what = format!(
            "two of {:?} is out of order or names a figure that is not said, expected figures that are, each once, from Bottom to Height",
            self.two
        );
        Err(DecodeError::value(place, what))
    }
}

impl FigureTwin {
    const fn of(figure: CourseFigure) -> Self {
        match figure {
            CourseFigure::Bottom => Self::Bottom,
            CourseFigure::Top => Self::Top,
            CourseFigure::RunsOut => Self::RunsOut,
            CourseFigure::Height => Self::Height,
        }
    }

    const fn figure(self) -> CourseFigure {
        match self {
            Self::Bottom => CourseFigure::Bottom,
            Self::Top => CourseFigure::Top,
            Self::RunsOut => CourseFigure::RunsOut,
            Self::Height => CourseFigure::Height,
        }
    }
}

/// The edges with their courses, in whatever order the file has them.
fn edges(
    heads: Vec<EdgeTwin<'_>>,
    courses: Vec<CourseTwin>,
    said: Vec<SaidTwin>,
    next_edge: u32,
) -> Result<Vec<Edge>, DecodeError> {
    let mut edges = Vec::with_capacity(heads.len());
    let mut places = HashMap::with_capacity(heads.len());
    for head in heads {
        let edge = head.checked()?;
        let id = edge.id.0;
        if places.insert(id, edges.len()).is_some() {
            let what = format!("two edges have the id {id}, expected each once");
            return Err(DecodeError::value("edges", what));
        }
        edges.push((edge, Vec::new()));
    }
    for course in courses {
        let place = places.get(&course.edge).copied();
        let Some((edge, log)) = place.and_then(|place| edges.get_mut(place)) else {
            let what = format!("edge {} is not in the file's edges", course.edge);
            let place = format!("course {}", course.course);
            return Err(DecodeError::value(place, what));
        };
        if let Some(to) = course
            .to
            .filter(|to| *to == course.edge || !(1..next_edge).contains(to))
        {
            let what =
                format!("to edge {to}, expected another edge, 1 or more and below next_edge");
            let place = format!("course {} of \"{}\"", course.course, edge.name);
            return Err(DecodeError::value(place, what));
        }
        let as_said = course.as_said;
        let course = course.checked(&edge.name)?;
        if as_said {
            edge.said.push(SheetSaid::just(&course));
        }
        log.push(course);
    }
    for said in said {
        let place = places.get(&said.edge).copied();
        let Some((edge, _)) = place.and_then(|place| edges.get_mut(place)) else {
            let what = format!("edge {} is not in the file's edges", said.edge);
            let place = format!("said of course {}", said.course);
            return Err(DecodeError::value(place, what));
        };
        let said = said.checked(&edge.name)?;
        edge.said.push(said);
    }
    edges
        .into_iter()
        .map(|(edge, log)| with_log(edge, log))
        .collect()
}

fn with_log(mut edge: Edge, log: Vec<Course>) -> Result<Edge, DecodeError> {
    edge.said.sort_by_key(|said| said.course.number);
    let numbers = edge.said.iter().map(|said| said.course.number);
    if !numbers.is_sorted_by(|one, other| one < other) {
        let place = format!("edge \"{}\"", edge.name);
        let what = "a course is in said twice, expected each once";
        return Err(DecodeError::value(place, what));
    }
    let count = log.len();
    edge.put_all(log);
    if edge.courses().len() == count {
        return Ok(edge);
    }
    let place = format!("edge \"{}\"", edge.name);
    let what = "a course is in the log twice, expected each once";
    Err(DecodeError::value(place, what))
}
