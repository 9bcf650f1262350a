//! The piece of a course that runs from board to board: which edge is near, how
//! each end leans, and what both take off.

use super::{
    doubtful::{EdgeDoubt, doubts_of_edge_alone},
    job::Job,
};
use crate::domain::{
    bench::Progress,
    doubt::{Doubt, DoubtedReading},
    log::{Course, CourseNumber, Edge, End, Gap},
    measure::{Hand, Length},
    piece::{
        CourseTrouble, EndLean, PieceEnd, PieceSpec, allowance_of, level, own_step,
        piece_of_both_ends,
    },
};

/// How much an end leans, and how that is known.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct KnownLean {
    pub lean: EndLean,
    /// It is the level of the job's other edges of that kind.
    pub by_others: bool,
}

/// The piece of `course`, which stands at `edge`, with the tape pulled from each
/// side: first from that of the edge's own hand.
///
/// # Errors
/// [`CourseTrouble`] where it cannot be told, for each side.
pub(super) fn pieces_of(
    job: &Job,
    edge: &Edge,
    course: &Course,
    gap: Gap,
    progress: &Progress,
) -> [Result<PieceSpec, CourseTrouble>; 2] {
    let of_hand = |tape: Hand| {
        let other = course.to.and_then(|to| job.edge(to));
        let other = other.ok_or(CourseTrouble::NoOtherEdge)?;
        // A left-hand piece ends at an edge on its right: that is the far one.
        let (near, far) = if tape == edge.hand {
            (other, edge)
        } else {
            (edge, other)
        };
        let short = course.height.map(|height| height.length());
        let height = short.unwrap_or(job.settings.exposure);
        let end = |edge: &Edge| {
            let known = lean_at_end(job, edge).ok_or(CourseTrouble::NoLean)?;
            let lean = known.lean.over(height, job.settings.exposure);
            Ok(PieceEnd {
                edge: edge.id,
                kind: edge.kind,
                lean,
                allowance: allowance_of(edge, &job.settings),
            })
        };
        // Read hard at both boards, whatever is said of the tape elsewhere.
        let added: Length = [edge, other]
            .map(|edge| {
                progress.correction(edge.id, course.number) - job.settings.kind(edge.kind).clearance
            })
            .into_iter()
            .sum();
        let finished = Gap {
            bottom: gap.bottom + added,
            top: gap.top + added,
        };
        piece_of_both_ends(
            finished,
            [end(near)?, end(far)?],
            tape,
            short,
            &job.settings,
        )
    };
    [edge.hand, edge.hand.other()].map(of_hand)
}

/// How much a full course narrows at `edge`: by its own level, else by its
/// slopes, else by the job's other edges of that kind; a rake else is square.
pub fn lean_at_end(job: &Job, edge: &Edge) -> Option<KnownLean> {
    let of_its_own = |lean| KnownLean {
        lean,
        by_others: false,
    };
    if let Some(step) = step_by_log(job, edge) {
        return Some(of_its_own(EndLean::Known(step)));
    }
    if edge.kind.usual_trend().is_none() {
        return Some(of_its_own(EndLean::Square));
    }
    let by_slope = edge.roof.lean(edge.kind);
    if let Some(lean) = by_slope {
        let step = Length::rounded_from_mm(lean * job.settings.exposure.mm());
        return Some(of_its_own(EndLean::Known(step)));
    }
    let others = job
        .edges()
        .iter()
        .filter(|other| other.id != edge.id && other.kind == edge.kind);
    let others = others.filter_map(|other| step_by_log(job, other)).collect();
    Some(KnownLean {
        lean: EndLean::Known(level(others)?),
        by_others: true,
    })
}

/// What is expected at one end of a course from board to board.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ExpectedEnd {
    Reading(Length),
    /// The boards meet so far up the course.
    Meet(Length),
}

/// What is expected at `end` of the course that runs from `edge` to another one:
/// by its other end, else by the top of the course below, from board to board too,
/// and by how both edges lean. Nothing where the lean of either is only that of
/// other edges, or where what it would follow from is among `doubts`.
pub fn expected_end(
    job: &Job,
    edge: &Edge,
    number: CourseNumber,
    end: End,
    doubts: &[EdgeDoubt],
) -> Option<ExpectedEnd> {
    let course = edge.course(number)?;
    let other = job.edge(course.to?)?;
    let read = |at: &Edge, course: &Course, end: End| {
        let about = doubts.iter().filter(|found| found.edge == at.id);
        let mut about = about.filter(|found| found.doubt.touches(course.number));
        let sound = !about.any(|found| is_about(&found.doubt, course.number, end));
        Some(course.reading(end)?.length()).filter(|_| sound)
    };
    let from_below = || {
        let below = number.before();
        let mut ends = [(edge, other), (other, edge)].into_iter();
        ends.find_map(|(at, to)| {
            let course = at.course(below).filter(|it| it.to == Some(to.id))?;
            read(at, course, End::Top).filter(|_| below < number)
        })
    };
    let height = course.height_in(job.settings.exposure);
    let narrows = narrows(job, [edge, other], height)?;
    if end == End::Bottom {
        let by_meeting = || {
            let meet = course.runs_out.filter(|_| course.top.is_none())?;
            Some(narrows.scaled(meet.length(), height))
        };
        let bottom = read(edge, course, End::Top).map(|top| top + narrows);
        let bottom = bottom.or_else(by_meeting).or_else(from_below)?;
        return (bottom >= Length::ZERO).then_some(ExpectedEnd::Reading(bottom));
    }
    let bottom = match course.bottom {
        Some(_) => read(edge, course, End::Bottom)?,
        None => from_below()?,
    };
    let top = bottom - narrows;
    Some(match top < Length::ZERO {
        true => ExpectedEnd::Meet(bottom.scaled(height, narrows)),
        false => ExpectedEnd::Reading(top),
    })
}

/// Whether `doubt`, which touches `course`, is about its reading at `end`.
fn is_about(doubt: &Doubt, course: CourseNumber, end: End) -> bool {
    match doubt.reading {
        DoubtedReading::Bottom => end == End::Bottom,
        DoubtedReading::Top => end == End::Top,
        // The top of the course below the line, the bottom of the one above it.
        DoubtedReading::Placement => (doubt.course == Some(course)) == (end == End::Top),
        DoubtedReading::Both => true,
        DoubtedReading::Edge => false,
    }
}

/// How much the plane narrows from both its edges over `height`, where the lean of
/// each is known of itself.
fn narrows(job: &Job, edges: [&Edge; 2], height: Length) -> Option<Length> {
    let step = |edge: &Edge| {
        let known = lean_at_end(job, edge).filter(|known| !known.by_others)?;
        let lean = known.lean.over(height, job.settings.exposure);
        Some(lean.over_the_course())
    };
    let [one, other] = edges.map(step);
    Some(one? + other?)
}

/// The edge's own level, without the courses that are doubted.
fn step_by_log(job: &Job, edge: &Edge) -> Option<Length> {
    let doubts = doubts_of_edge_alone(edge, &job.settings);
    own_step(edge, &job.settings, |course| {
        doubts.iter().all(|doubt| !doubt.touches(course))
    })
}
