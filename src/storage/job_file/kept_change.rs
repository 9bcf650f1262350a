//! A change that can be taken back or done again, one line each.
//!
//! Its fields are those of the job, but only what the change touched: the rows
//! and edges as they were, and the numbers of those that were not there.

use super::{
    course::{CourseTwin, SaidTwin},
    doubt::EndTwin,
    edge::EdgeTwin,
    error::DecodeError,
    fact::EventTwin,
    number::NumberTwin,
    offcut::PieceTwin,
    range::course_number,
    settings::{SettingsToday, bare},
};
use crate::domain::{
    bench::BenchEvent,
    cutting::{Change, Delta, EdgeDelta, KeptChange, NamedChange, ReadingAt, Rows, Spot},
    log::{CourseNumber, EdgeId, End},
    measure::{Name, cleaned},
    settings::{Setting, Settings},
};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::collections::BTreeMap;

#[derive(Serialize, Deserialize)]
#[serde(rename = "Change", deny_unknown_fields)]
pub(super) struct KeptTwin<'a> {
    #[serde(borrow)]
    words: Cow<'a, str>,
    at: SpotTwin<'a>,
    /// How many facts of the bench there were before it.
    #[serde(default, skip_serializing_if = "is_zero")]
    after: usize,
    /// The facts of a key press at the bench that was taken back.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    press: Vec<EventTwin>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    name: Option<Cow<'a, str>>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    settings: Option<SettingsToday>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    next_edge: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    order: Option<Vec<u32>>,
    /// How many of the edges' numbers stay, and those to be put behind them.
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    numbers: Option<(usize, Vec<NumberTwin>)>,
    #[serde(default, borrow, skip_serializing_if = "Vec::is_empty")]
    edges: Vec<EdgeTwin<'a>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    courses: Vec<CourseTwin>,
    /// Edge and number of courses that are to be taken out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    no_courses: Vec<(u32, u32)>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    said: Vec<SaidTwin>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    not_said: Vec<(u32, u32)>,
    /// Facts that name a piece otherwise, by their place in `events`, from 0.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    events: Vec<(usize, EventTwin)>,
}

#[derive(Serialize, Deserialize)]
#[serde(rename = "Spot")]
enum SpotTwin<'a> {
    Reading(u32, u32, #[serde(with = "EndTwin")] End),
    Edge(u32),
    Piece(PieceTwin),
    Rack,
    /// By its option.
    Setting(#[serde(borrow)] Cow<'a, str>),
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks for it")]
const fn is_zero(after: &usize) -> bool {
    *after == 0
}

impl<'a> KeptTwin<'a> {
    pub(super) fn of(kept: &'a KeptChange) -> Self {
        let NamedChange { words, spot } = kept.named();
        let empty = Self {
            words: Cow::Borrowed(words),
            at: SpotTwin::of(*spot),
            after: kept.facts(),
            press: Vec::new(),
            name: None,
            settings: None,
            next_edge: None,
            numbers: None,
            order: None,
            edges: Vec::new(),
            courses: Vec::new(),
            no_courses: Vec::new(),
            said: Vec::new(),
            not_said: Vec::new(),
            events: Vec::new(),
        };
        match kept.change() {
            Change::Paper(delta) => empty.with(delta),
            Change::Bench(events) => Self {
                press: events.iter().map(EventTwin::of).collect(),
                ..empty
            },
        }
    }

    fn with(mut self, delta: &'a Delta) -> Self {
        let Delta {
            name,
            settings,
            next_edge,
            numbers,
            order,
            edges,
            facts,
        } = delta;
        self.name = name.as_ref().map(|name| Cow::Borrowed(name.as_str()));
        self.settings = settings.map(|settings| SettingsToday(*settings));
        self.next_edge = *next_edge;
        let numbers = numbers.as_ref();
        self.numbers =
            numbers.map(|(alike, then)| (*alike, then.iter().map(NumberTwin::of).collect()));
        let ids = |order: &Vec<EdgeId>| order.iter().map(|edge| edge.0).collect();
        self.order = order.as_ref().map(ids);
        for edge in edges {
            let EdgeDelta {
                id,
                head,
                courses,
                said,
            } = edge;
            self.edges.extend(head.as_deref().map(EdgeTwin::of));
            for (number, course) in courses {
                match course {
                    Some(course) => self.courses.push(CourseTwin::of(*id, course)),
                    None => self.no_courses.push((id.0, number.get())),
                }
            }
            for (number, said) in said {
                match said {
                    Some(said) => self.said.push(SaidTwin::of(*id, said)),
                    None => self.not_said.push((id.0, number.get())),
                }
            }
        }
        let facts = facts.iter();
        self.events = facts.map(|(at, fact)| (*at, EventTwin::of(fact))).collect();
        self
    }

    /// The change, where its figures are in range. Whether it fits the job is
    /// seen by going through it.
    pub(super) fn checked(self) -> Result<KeptChange, DecodeError> {
        let at = self.at.checked()?;
        let words = shown(&self.words);
        let events = self.press.into_iter();
        let events: Vec<_> = events.map(event).collect::<Result<_, _>>()?;
        let change = if events.is_empty() {
            let settings = self.settings.map(|settings| settings.into());
            let name = self.name.map(|name| Name::new(&name));
            let facts = self.events.into_iter();
            Change::Paper(Box::new(Delta {
                name: name.transpose().map_err(bad)?,
                settings: settings.map(Settings::checked).transpose().map_err(bad)?,
                next_edge: self.next_edge,
                numbers: self
                    .numbers
                    .map(|(alike, then)| (alike, then.into_iter().map(NumberTwin::row).collect())),
                order: self
                    .order
                    .map(|order| order.into_iter().map(EdgeId).collect()),
                edges: edges(
                    self.edges,
                    &self.courses,
                    &self.no_courses,
                    &self.said,
                    &self.not_said,
                )?,
                facts: facts
                    .map(|(at, fact)| Ok((at, event(fact)?)))
                    .collect::<Result<_, DecodeError>>()?,
            }))
        } else {
            Change::Bench(events)
        };
        let named = NamedChange { words, spot: at };
        Ok(KeptChange::new(named, self.after, change))
    }
}

/// What is put into each edge.
fn edges(
    heads: Vec<EdgeTwin<'_>>,
    courses: &[CourseTwin],
    no_courses: &[(u32, u32)],
    said: &[SaidTwin],
    not_said: &[(u32, u32)],
) -> Result<Vec<EdgeDelta>, DecodeError> {
    let nameless = Name::or("edge", "edge");
    let mut edges = BTreeMap::new();
    let mut of = |edge: u32, put: &mut dyn FnMut(&mut EdgeDelta)| {
        let id = EdgeId(edge);
        put(edges.entry(id).or_insert_with(|| EdgeDelta {
            id,
            head: None,
            courses: Rows::new(),
            said: Rows::new(),
        }));
    };
    for head in heads {
        let head = Box::new(head.checked()?);
        of(head.id.0, &mut |edge| edge.head = Some(head.clone()));
    }
    for row in courses {
        let course = row.checked(&nameless)?;
        let put = (course.number, Some(course));
        of(row.edge, &mut |edge| edge.courses.push(put));
    }
    for (edge, number) in no_courses {
        let number = course_number(*number).map_err(bad)?;
        of(*edge, &mut |edge| edge.courses.push((number, None)));
    }
    for row in said {
        let said = row.checked(&nameless)?;
        let number: CourseNumber = said.course.number;
        of(row.edge, &mut |edge| {
            edge.said.push((number, Some(said.clone())));
        });
    }
    for (edge, number) in not_said {
        let number = course_number(*number).map_err(bad)?;
        of(*edge, &mut |edge| edge.said.push((number, None)));
    }
    let edges = edges.into_values().map(|mut edge| {
        edge.courses.sort_by_key(|row| row.0);
        edge.said.sort_by_key(|row| row.0);
        edge
    });
    Ok(edges.collect())
}

/// The fact, where its figures are in range; of its edges nothing is known yet.
fn event(fact: EventTwin) -> Result<BenchEvent, DecodeError> {
    fact.checked(1, u32::MAX)
}

/// Words fit to be shown: none of them may reach a terminal unclean.
fn shown(words: &str) -> String {
    const MOST_BYTES: usize = 200;
    const MOST_WORDS: usize = 40;
    let plain = |byte| matches!(byte, b' '..=b'~');
    if words.len() <= MOST_BYTES && words.bytes().all(plain) {
        return words.to_owned();
    }
    let words = words.split_whitespace().take(MOST_WORDS);
    words.map(cleaned).collect::<Vec<_>>().join(" ")
}

fn bad(what: impl std::fmt::Display) -> DecodeError {
    DecodeError::value("a change", what)
}

impl SpotTwin<'_> {
    fn of(spot: Spot) -> Self {
        match spot {
            Spot::Reading(ReadingAt { edge, course, end }) => {
                Self::Reading(edge.0, course.get(), end)
            }
            Spot::Edge(edge) => Self::Edge(edge.0),
            Spot::Piece(piece) => Self::Piece(PieceTwin::of(piece)),
            Spot::Rack => Self::Rack,
            Spot::Setting(setting) => Self::Setting(Cow::Borrowed(setting.option())),
        }
    }

    fn checked(self) -> Result<Spot, DecodeError> {
        Ok(match self {
            Self::Reading(edge, course, end) => Spot::Reading(ReadingAt {
                edge: EdgeId(edge),
                course: course_number(course).map_err(bad)?,
                end,
            }),
            Self::Edge(edge) => Spot::Edge(EdgeId(edge)),
            Self::Piece(piece) => Spot::Piece(piece.checked().map_err(bad)?),
            Self::Rack => Spot::Rack,
            Self::Setting(option) => {
                let mut all = Setting::ALL.into_iter();
                let setting = all.find(|setting| setting.option() == option);
                Spot::Setting(setting.ok_or_else(|| bad("no such setting"))?)
            }
        })
    }
}
