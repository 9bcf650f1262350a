//! The job file as serde reads and writes it; of an older version as it is read,
//! with settings of its own.
//!
//! The log is one list for all edges, so that each course is one line that says
//! which edge it belongs to: short to read, and a change shows as one line.

use super::{
    course::{CourseTwin, SaidTwin},
    edge::EdgeTwin,
    error::DecodeError,
    fact::EventTwin,
    number::{self, NumberTwin},
    settings::SettingsToday,
    version::VERSION,
};
use crate::domain::{
    cutting::{History, Job},
    log::{Course, Edge, SheetSaid},
    measure::Name,
    settings::{RawSettings, Settings},
};
use serde::de::IgnoredAny;
use serde::{Deserialize, Deserializer, Serialize};
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
    /// Of edges that were counted by their kind.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    numbers: Vec<NumberTwin>,
    #[serde(borrow)]
    edges: Vec<EdgeTwin<'a>>,
    courses: Vec<CourseTwin>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    said: Vec<SaidTwin>,
    events: Vec<EventTwin>,
    /// How often the job was changed.
    #[serde(default, skip_serializing_if = "is_none_yet")]
    changes: u64,
    /// The line of changes, where it is not as it was written.
    #[serde(default, skip_serializing, deserialize_with = "passed_over")]
    undo: bool,
    #[serde(default, skip_serializing, deserialize_with = "passed_over")]
    redo: bool,
}

/// That something is there, whatever it is.
fn passed_over<'de, D: Deserializer<'de>>(deserializer: D) -> Result<bool, D::Error> {
    IgnoredAny::deserialize(deserializer).map(|_| true)
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
            numbers: job.numbers().rows().iter().map(NumberTwin::of).collect(),
            edges: job.edges().iter().map(|edge| EdgeTwin::of(edge)).collect(),
            courses: job
                .edges()
                .iter()
                .flat_map(|edge| {
                    let courses = edge.courses().iter();
                    courses.map(|course| {
                        let mut twin = CourseTwin::of(edge.id, course);
                        let said = edge.said_of(course.number);
                        twin.as_said = said.is_some_and(|said| said.is(course));
                        twin
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
            undo: false,
            redo: false,
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
        let numbers = number::checked(self.numbers, self.next_edge)?;
        let mut job = Job::from_parts(name, settings, edges, self.next_edge, events)
            .map_err(|error| DecodeError::value("edges", error))?;
        job.set_numbers(numbers);
        job.set_changes(self.changes);
        if self.undo || self.redo {
            job.set_history(History::cut_off());
        }
        Ok(job)
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
