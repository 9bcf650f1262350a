//! Everything doubtful in a job's log, edge by edge, in words.
//!
//! The rules are in [`crate::domain::doubt`]; what was set aside is left out.

use super::job::Job;
use crate::domain::{
    doubt::{self, Basis, Cause, Doubt, DoubtedReading, Fix, OrAt, Suspect, Witness, WrittenIn},
    log::{CourseNumber, Edge, EdgeId, SetAside},
    measure::{Length, Name},
    roof::{EdgeKind, SameHand, planes_of_one_hand},
    settings::Settings,
    tape::{Division, Unit, print_with_unit},
};

/// A doubt, with the edge it is about.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct EdgeDoubt {
    pub edge: EdgeId,
    pub doubt: Doubt,
}

/// The doubts about one edge by its own log, without those set aside.
pub fn doubts_of_edge_alone(edge: &Edge, settings: &Settings) -> Vec<Doubt> {
    doubt::check(
        edge,
        settings,
        &edge.set_aside,
        &Witness::none(edge, settings),
    )
}

/// Whether a doubt about this course was answered "it stands", and its figures
/// are still the ones that were measured again.
pub fn is_let_stand(edge: &Edge, number: CourseNumber) -> bool {
    let answers = [
        SetAside::of_course(edge, number),
        SetAside::of_placement(edge, number),
        SetAside::of_placement(edge, number.before()),
    ];
    edge.set_aside.iter().any(|answer| answers.contains(answer))
}

/// Where the log and a sheet have each another figure, in words.
pub fn two_readings(job: &Job) -> Vec<String> {
    let unit = job.settings.unit();
    let of_edge = |edge: &Edge| -> Vec<String> {
        let two = edge.two_readings();
        two.map(|two| format!("{}: {}", edge.name, two.words(unit)))
            .collect()
    };
    job.edges().iter().flat_map(|edge| of_edge(edge)).collect()
}

/// The edges nobody can judge yet, in words: too few courses, and no slope.
pub fn not_judged(job: &Job) -> Vec<String> {
    let not_judged = job.edges().iter().filter_map(|edge| {
        let basis = doubt::basis(edge, &job.settings);
        let too_little = matches!(basis, Basis::Kind | Basis::Nothing);
        (too_little && !edge.courses().is_empty())
            .then(|| format!("{}: {}", edge.name, basis.words()))
    });
    not_judged.collect()
}

/// The planes whose edges of one hand cannot all be true, in words.
pub fn odd_planes(job: &Job) -> Vec<String> {
    odd_where_plane(job, |_| true)
}

/// The same of one plane.
pub fn odd_plane(job: &Job, plane: &Name) -> Vec<String> {
    odd_where_plane(job, |its| its == plane)
}

fn odd_where_plane(job: &Job, wanted: impl Fn(&Name) -> bool) -> Vec<String> {
    let named = job.edges().iter().filter_map(|edge| {
        let plane = edge.plane.as_ref().filter(|plane| wanted(plane))?;
        Some((plane, edge.hand, &**edge))
    });
    let words = |SameHand { plane, hand, edges }: SameHand<&Name, &Edge>| {
        let clashes = |edge: &&&Edge| {
            let mut others = edges.iter().filter(|other| other.id != edge.id);
            others.any(|other| clash(edge, other))
        };
        let clashing = edges.iter().filter(clashes);
        let names: Vec<&str> = clashing.map(|edge| edge.name.as_str()).collect();
        let (count, hand, names) = (names.len(), hand.word(), names.join(", "));
        (count > 0).then(|| format!(
            "roof side {plane} has {count} {hand}-hand edges ({names}): commonly one of each hand, look at their hands again"
        ))
    };
    planes_of_one_hand(named)
        .into_iter()
        .filter_map(words)
        .collect()
}

/// Whether two edges of one hand cannot both bound one plane: a course has one
/// outer end of a hand. Beside a dormer or another wing it has a valley's end
/// as well, and edges of other courses are one above the other (common practice).
fn clash(one: &Edge, other: &Edge) -> bool {
    let has_valley = [one, other]
        .iter()
        .any(|edge| edge.kind == EdgeKind::Valley);
    let is_bare = one.courses().is_empty() || other.courses().is_empty();
    let shares = |edge: &Edge| {
        let mut courses = edge.courses().iter();
        courses.any(|course| other.course(course.number).is_some())
    };
    !has_valley && (is_bare || shares(one))
}

/// Where a doubt points: `course 4 top`, `course 4 top and course 5 bottom`.
pub fn place_words(doubt: &Doubt, reading: DoubtedReading) -> String {
    match (doubt.course, reading) {
        (Some(course), _) if matches!(doubt.fix, Fix::CourseBetween { .. }) => {
            between_words(course)
        }
        (Some(_), DoubtedReading::Both) => both_words(doubt),
        (Some(course), DoubtedReading::Placement) => {
            format!("course {course} top and course {} bottom", course.next())
        }
        (Some(course), reading) => format!("course {course} {}", reading.said()),
        (None, _) => "all of the edge".to_owned(),
    }
}

fn between_words(below: CourseNumber) -> String {
    format!("between course {below} and course {}", below.next())
}

/// `course 4, both readings`, `courses 4 to 9, both readings`.
fn both_words(doubt: &Doubt) -> String {
    match doubt.fix {
        Fix::Both { first, last, .. } if first < last => {
            format!("courses {first} to {last}, both readings")
        }
        _ => match doubt.course {
            Some(course) => format!("course {course}, both readings"),
            None => "both readings".to_owned(),
        },
    }
}

/// A doubt with its best explanation and the next best, in one sentence; either of
/// them where nothing speaks for one.
pub fn doubt_words(doubt: &Doubt, division: Division) -> String {
    let mut words = match either_words(doubt, division) {
        Some(either) => either,
        None => one_or_words(doubt, division),
    };
    if let Some(other) = doubt.or_at.as_ref().map(or_at_words) {
        words.push_str(&format!("; {other}"));
    }
    words
}

/// `course 3: either top likely 33 1/8 in (an inch too much) or bottom likely ...`.
fn either_words(doubt: &Doubt, division: Division) -> Option<String> {
    let second = doubt.others.first().filter(|_| doubt.is_even)?;
    let [first, second] = [&doubt.likeliest, second].map(|suspect| {
        let likely = suspect_words(suspect, division);
        format!("{} {likely}", suspect.reading.said())
    });
    let course = doubt.course?;
    Some(format!("course {course}: either {first} or {second}"))
}

fn one_or_words(doubt: &Doubt, division: Division) -> String {
    let place = place_words(doubt, doubt.reading);
    let mut words = format!("{place} {}", suspect_words(doubt, division));
    // The same figure in the same place by another cause adds nothing, nor does the
    // same change, which two readings may stand for.
    let told = |other: &&Suspect| {
        let same = other.reading == doubt.reading && other.likely == doubt.likely;
        same || (other.fix == doubt.fix && matches!(other.fix, Fix::Swap { .. }))
    };
    if let Some(second) = doubt.others.iter().find(|other| !told(other)) {
        let likely = suspect_words(second, division);
        let place = match second.fix {
            Fix::CourseBetween { below } => between_words(below),
            _ => second.reading.said().to_owned(),
        };
        words.push_str(&format!("; or {place} {likely}"));
    }
    words
}

/// `likelier at South hip`, where the other edge of the roof side may be meant.
pub fn or_at_words(OrAt { name, likelier, .. }: &OrAt) -> String {
    let than = if *likelier { "likelier" } else { "or" };
    format!("{than} at {name}")
}

/// What one explanation says: `likely 12 5/8 in (an inch too much)`.
pub fn suspect_words(suspect: &Suspect, division: Division) -> String {
    let cause = suspect.cause.words();
    let length = |length| print_with_unit(length, division);
    let likely = suspect.likely;
    match (suspect.reading, suspect.fix) {
        (_, Fix::CourseBetween { .. }) => {
            format!("likely {cause}: those above it move up by one")
        }
        (_, Fix::Swap { course }) => format!("likely {cause}, course {course}"),
        (_, Fix::SwapColumns) => format!("likely {cause}, in every course"),
        (_, Fix::MakeRoom { .. }) => "likely left out: later readings move on".to_owned(),
        (_, Fix::StrikeOut { .. }) => {
            "likely written twice: it goes, later readings move back".to_owned()
        }
        (_, Fix::Placement { by, .. }) => {
            let way = if by < Length::ZERO { "short" } else { "long" };
            let (by, top) = (length(by.abs()), length(likely));
            format!("likely {by} too {way}, top {top} ({cause})")
        }
        (_, Fix::Kind(kind)) => format!("likely {cause}: leans as a {}", kind.word()),
        (_, Fix::ReadIn(written, unit)) => {
            let taken = match unit {
                Unit::Inch => WrittenIn::Inches,
                Unit::Millimetre => WrittenIn::Millimetres,
            };
            format!("likely {}, written as {}", written.word(), taken.word())
        }
        (_, Fix::Both { by, .. }) if suspect.cause == Cause::AnotherPanelFits => {
            format!("{cause}: laid, both are {} less", length(by))
        }
        (_, Fix::Both { by, .. }) => {
            let way = if by < Length::ZERO { "short" } else { "long" };
            format!("likely {} too {way} ({cause})", length(by.abs()))
        }
        (_, Fix::MeasureAgain) if suspect.cause == Cause::WiderThanPlane => {
            format!("{cause}: only {} of it is left there", length(likely))
        }
        (_, Fix::NoCourse { meets_in, .. }) => {
            format!("{cause}: the boards of both edges meet in course {meets_in}")
        }
        (_, Fix::Exchange { below }) => {
            let above = below.next();
            format!("likely exchanged: courses {below} and {above} have each other's")
        }
        (_, Fix::TurnOver) => format!("likely {cause}"),
        (_, Fix::ExchangeSlopes) => format!("likely {cause}"),
        (DoubtedReading::Edge, _) => {
            let narrows = likely >= Length::ZERO;
            let way = if narrows { "narrows" } else { "widens" };
            let step = length(likely.abs());
            format!("{way} {step} a course by the slope, not as read ({cause})")
        }
        (_, _) => format!("likely {} ({cause})", length(likely)),
    }
}
