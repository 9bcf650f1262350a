//! All that is doubtful about one edge, without what was answered.

use super::{
    courses::Courses,
    given::Given,
    line::{Basis, EdgeLine},
    other_unit,
    plane_end::{End, PlaneEnd},
    reach::EdgeLog,
    rows::OtherEnd,
    scatter::Scatter,
    verdict::Doubt,
    width::odd_widths,
};
use crate::domain::log::{Edge, SetAside};
use crate::domain::settings::Settings;

/// What the rest of the job says of an edge.
#[derive(Clone, Copy, Debug)]
pub struct Witness<'a> {
    /// How the tape reads.
    pub scatter: Scatter,
    /// The other edge of its plane.
    pub other: Option<OtherEnd<'a>>,
}

impl Witness<'_> {
    /// An edge of which nothing but its own log is known.
    pub fn none(edge: &Edge, settings: &Settings) -> Self {
        Self {
            scatter: Scatter::of_job(std::iter::once(edge), settings),
            other: None,
        }
    }
}

/// What is doubtful about `edge`, a whole edge first, then going up; without
/// what was set aside. Judged on the readings as they were written.
pub fn check(
    edge: &Edge,
    settings: &Settings,
    set_aside: &[SetAside],
    witness: &Witness<'_>,
) -> Vec<Doubt> {
    let given = Given::of(edge, settings, witness.scatter);
    let other = witness.other.map(|end| {
        let given = Given::of(end.edge, settings, witness.scatter);
        (end, EdgeLog::of(end.edge, settings), given)
    });
    let doubts = judged(edge, &given, set_aside, other.as_ref());
    // What a course forgotten there explains is not asked of this edge: dear to find
    // out, and of no use where nothing but its own line speaks against it.
    let by_other = |doubt: &Doubt| !matches!(doubt.basis, Basis::Own | Basis::Roof | Basis::Kind);
    let other = other.filter(|_| doubts.iter().any(by_other));
    let forgotten = other.and_then(|(end, log, given)| {
        let with_room = with_what_it_forgot(end, &log, given)?;
        Some((end, with_room, given))
    });
    match forgotten {
        Some(other) => judged(edge, &given, set_aside, Some(&other)),
        None => doubts,
    }
}

/// The doubts about `edge` where the other edge of its plane has this log.
fn judged(
    edge: &Edge,
    given: &Given<'_>,
    set_aside: &[SetAside],
    other: Option<&(OtherEnd<'_>, EdgeLog, Given<'_>)>,
) -> Vec<Doubt> {
    let settings = given.settings;
    let log = EdgeLog::of(edge, settings);
    let this = End::of(edge, &log, *given);
    let plane = other
        .map(|(end, log, given)| PlaneEnd::of(this, End::of(end.edge, log, *given), end.broken));
    let courses = Courses {
        edge,
        log: &log,
        given: *given,
        line: this.line,
        plane: plane.as_ref(),
    };
    let is_answered = |doubt: &Doubt| {
        set_aside
            .iter()
            .any(|answer| answer.answers(doubt, edge, settings.tolerance))
    };
    let other_unit = other_unit::find(courses.log, &courses.given);
    if let Some(doubt) = other_unit.filter(|doubt| !is_answered(doubt)) {
        return vec![doubt];
    }
    let mut doubts = match courses.up_to_one_left_out() {
        Some((mut below, left_out)) if !is_answered(&left_out) => {
            below.push(left_out);
            below
        }
        // Measured again, nothing is left out: the courses above count too.
        _ => with_odd_widths(courses.none_left_out(), odd_widths(edge, given)),
    };
    doubts.retain(|doubt| !is_answered(doubt));
    doubts
}

/// The log of a plane's other edge with room for a course that was forgotten there, as
/// its own joints tell; none where they do not.
fn with_what_it_forgot(end: OtherEnd<'_>, log: &EdgeLog, given: Given<'_>) -> Option<EdgeLog> {
    let forgotten = Courses {
        edge: end.edge,
        log,
        given,
        line: EdgeLine::of_log(log, &given),
        plane: None,
    }
    .forgotten()?;
    let mut answers = end.edge.set_aside.iter();
    if answers.any(|answer| answer.answers(&forgotten, end.edge, given.settings.tolerance)) {
        return None;
    }
    let mut numbers = log.reaches.iter().map(|reach| reach.number);
    let below = numbers.position(|number| Some(number) == forgotten.course)?;
    Some(log.with_room_above(below))
}

/// The doubts, and going up with them those of widths that nothing else tells of.
fn with_odd_widths(mut doubts: Vec<Doubt>, odd: Vec<Doubt>) -> Vec<Doubt> {
    for odd in odd {
        let touches = |doubt: &Doubt| odd.course.is_some_and(|course| doubt.touches(course));
        if !doubts.iter().any(touches) {
            doubts.push(odd);
        }
    }
    doubts.sort_by_key(|doubt| doubt.course);
    doubts
}

/// What the courses of `edge` are judged by as its log stands.
pub fn basis(edge: &Edge, settings: &Settings) -> Basis {
    match EdgeLine::of(edge, settings) {
        Some(line) => line.basis,
        None if edge.roof.trend(edge.kind).is_some() => Basis::Kind,
        None => Basis::Nothing,
    }
}
