//! Every doubt of a job: edge by edge, then the courses that run from board to
//! board, which two edges judge together.

use super::{doubtful::EdgeDoubt, from_board_to_board::lean_at_end, job::Job};
use crate::domain::{
    doubt::{
        BoardToBoard, Doubt, OtherEnd, PlaneAbove, RowOfGaps, Scatter, Witness, check, check_above,
        check_both_ends,
    },
    log::{Course, CourseNumber, Edge, EdgeId},
    measure::{Length, Name},
};
use std::{
    collections::{BTreeSet, HashMap},
    sync::Arc,
};

/// All doubts of a job, in the order of its edges.
pub fn doubts_of(job: &Job) -> Vec<EdgeDoubt> {
    let settings = &job.settings;
    let edges = || job.edges().iter().map(Arc::as_ref);
    let scatter = Scatter::of_job(edges(), settings);
    let mut planes: HashMap<&Name, Vec<&Edge>> = HashMap::new();
    for edge in edges() {
        if let Some(plane) = &edge.plane {
            planes.entry(plane).or_default().push(edge);
        }
    }
    let joined = joined(job);
    let by_edge = edges().map(|edge| {
        let plane = edge.plane.as_ref().and_then(|plane| planes.get(plane));
        let (other, broken) = plane.map_or((None, Vec::new()), |plane| other_end(plane, edge));
        let other = other.map(|edge| OtherEnd {
            edge,
            broken: &broken,
        });
        let witness = Witness { scatter, other };
        (edge.id, check(edge, settings, &edge.set_aside, &witness))
    });
    let mut by_edge: HashMap<EdgeId, Vec<Doubt>> = by_edge.collect();
    let at_joined = edges().filter(|edge| joined.contains_key(&edge.id));
    let doubted: BTreeSet<(EdgeId, CourseNumber)> = at_joined
        .flat_map(|edge| touched(edge, by_edge.get(&edge.id)))
        .collect();
    let mut all = Vec::new();
    for edge in edges() {
        let courses = edge.courses().iter();
        let courses: Vec<_> = courses
            .filter_map(|course| seen(job, edge, course, &doubted))
            .collect();
        let both = check_both_ends(edge, &courses, settings, scatter);
        let others = joined.get(&edge.id).into_iter().flatten();
        let above = others.flat_map(|other| above_peak(job, edge, *other));
        let above: Vec<Doubt> = above.collect();
        let is_above = |course| above.iter().any(|doubt| doubt.course == Some(course));
        let no_course = |doubt: &Doubt| doubt.course.is_some_and(is_above);
        let edge = edge.id;
        let doubts = by_edge.remove(&edge).unwrap_or_default();
        // What is wrong with a course that cannot be there is nothing to ask.
        let doubts = doubts.into_iter().chain(both);
        let doubts: Vec<_> = doubts.filter(|doubt| !no_course(doubt)).collect();
        let doubts = doubts.into_iter().chain(above);
        all.extend(doubts.map(|doubt| EdgeDoubt { edge, doubt }));
    }
    told_at_both(&mut all);
    all
}

/// The courses of `edge` that its own doubts are about.
fn touched<'a>(
    edge: &'a Edge,
    doubts: Option<&'a Vec<Doubt>>,
) -> impl Iterator<Item = (EdgeId, CourseNumber)> + 'a {
    let doubts = doubts.into_iter().flatten();
    let numbers = edge.courses().iter().map(|course| course.number);
    let touched = move |number: &CourseNumber| doubts.clone().any(|it| it.touches(*number));
    numbers.filter(touched).map(|number| (edge.id, number))
}

/// "Or at the other edge" is said only while that one says it, too: not once it was
/// measured again there.
fn told_at_both(all: &mut [EdgeDoubt]) {
    let told = |found: &EdgeDoubt| Some((found.edge, found.doubt.or_at.as_ref()?.edge));
    let both: BTreeSet<(EdgeId, EdgeId)> = all.iter().filter_map(told).collect();
    for found in all {
        let edge = found.edge;
        found
            .doubt
            .or_at
            .take_if(|or_at| !both.contains(&(or_at.edge, edge)));
    }
}

/// The edge at the other end of the courses of `edge`, and in which of them a
/// third edge of the plane breaks the row, as a valley's or a dormer's does.
fn other_end<'a>(plane: &[&'a Edge], edge: &Edge) -> (Option<&'a Edge>, Vec<CourseNumber>) {
    let on_plane = || plane.iter().copied().filter(|other| other.id != edge.id);
    let has = |other: &Edge, course: &Course| other.course(course.number).is_some();
    let shares = |other: &Edge| {
        let courses = edge.courses().iter();
        courses.filter(|course| has(other, course)).count()
    };
    let other_hand = on_plane().filter(|other| other.hand != edge.hand);
    let Some(end) = other_hand.max_by_key(|other| shares(other)) else {
        return (None, Vec::new());
    };
    let thirds: Vec<&Edge> = on_plane().filter(|third| third.id != end.id).collect();
    let broken = edge.courses().iter().filter(|course| {
        let mut thirds = thirds.iter();
        thirds.any(|third| has(third, course))
    });
    (Some(end), broken.map(|course| course.number).collect())
}

/// Which edges have a course that was read from board to board between them.
fn joined(job: &Job) -> HashMap<EdgeId, BTreeSet<EdgeId>> {
    let mut joined: HashMap<EdgeId, BTreeSet<EdgeId>> = HashMap::new();
    for edge in job.edges() {
        for other in edge.courses().iter().filter_map(|course| course.to) {
            joined.entry(edge.id).or_default().insert(other);
            joined.entry(other).or_default().insert(edge.id);
        }
    }
    joined
}

/// The courses of `edge` for which its plane, as wide as courses read from board to
/// board between it and `other` say, has no room.
fn above_peak(job: &Job, edge: &Edge, other: EdgeId) -> Vec<Doubt> {
    let Some(other) = job.edge(other) else {
        return Vec::new();
    };
    let read = [(edge, other), (other, edge)]
        .into_iter()
        .flat_map(|(at, to)| {
            let courses = at.courses().iter();
            courses.filter(move |course| course.to == Some(to.id))
        });
    let planes = read.filter_map(|course| plane_above(job, [edge, other], course));
    let planes: Vec<PlaneAbove> = planes.collect();
    let rows = edge.courses().iter().map(|course| {
        let there = other.course(course.number).map(|course| (other, course));
        let ends = std::iter::once((edge, course)).chain(there);
        let gaps = ends.filter_map(|(edge, course)| finished_bottom(job, edge, course));
        RowOfGaps {
            course: *course,
            gaps: gaps.sum(),
        }
    });
    check_above(edge, &rows.collect::<Vec<_>>(), &planes, &job.settings)
}

/// How much of its bottom line a course read at one edge alone takes there.
fn finished_bottom(job: &Job, edge: &Edge, course: &Course) -> Option<Length> {
    let bottom = course.bottom.filter(|_| course.to.is_none())?;
    Some(bottom.length() + job.settings.added_to_course(edge, course))
}

/// What `course`, read from board to board of two edges, says of the plane above it.
fn plane_above(job: &Job, edges: [&Edge; 2], course: &Course) -> Option<PlaneAbove> {
    let exposure = job.settings.exposure;
    let narrows = |height: Length| {
        let step = |edge: &Edge| {
            Some(
                lean_at_end(job, edge)?
                    .lean
                    .over(height, exposure)
                    .over_the_course(),
            )
        };
        let [one, other] = edges.map(step);
        Some(one? + other?)
    };
    if course.runs_out.is_some() && course.top.is_none() {
        return Some(PlaneAbove::met_in(course.number));
    }
    let in_a_course = narrows(exposure)?;
    // Edges that hardly lean meet nowhere that this can tell.
    let leans = in_a_course > job.settings.tolerance.times(4);
    leans.then_some(PlaneAbove {
        at_top: course.top?.length(),
        narrows: in_a_course,
        ..PlaneAbove::met_in(course.number)
    })
}

/// What is seen of `course`, where it runs to another edge and both its readings
/// and both leans are known. What is `doubted` below it tells nothing.
fn seen(
    job: &Job,
    edge: &Edge,
    course: &Course,
    doubted: &BTreeSet<(EdgeId, CourseNumber)>,
) -> Option<BoardToBoard> {
    let other = job.edge(course.to?)?;
    let height = course.height_in(job.settings.exposure);
    let gap = course.gap(height)?;
    let step = |edge: &Edge| {
        let lean = lean_at_end(job, edge)?.lean;
        let lean = lean.over(height, job.settings.exposure);
        Some(lean.over_the_course())
    };
    let narrows = step(edge)? + step(other)?;
    let below = course.number.before();
    let tells = [edge, other]
        .iter()
        .all(|edge| !doubted.contains(&(edge.id, below)));
    let off = match course.runs_out.filter(|_| course.top.is_none()) {
        // Up to where the boards meet it narrows by its whole bottom.
        Some(meet) => gap.bottom - narrows.scaled(meet.length(), height),
        None => (gap.bottom - gap.top) - narrows,
    };
    Some(BoardToBoard {
        course: *course,
        off,
        bottom_off: off_from_below(job, [edge, other], course.number, gap.bottom).filter(|_| tells),
    })
}

/// How much longer than the course below lets expect `bottom` is. From lap line
/// to lap line lie `n` covers less one side lap, whatever `n` is.
fn off_from_below(
    job: &Job,
    edges: [&Edge; 2],
    number: CourseNumber,
    bottom: Length,
) -> Option<Length> {
    let below = number.before();
    if below == number {
        return None;
    }
    let [edge, other] = edges;
    let to_other = |edge: &Edge, to: &Edge| {
        let course = edge
            .course(below)
            .filter(|course| course.to == Some(to.id))?;
        Some(course.top?.length())
    };
    if let Some(top) = to_other(edge, other).or_else(|| to_other(other, edge)) {
        return Some(bottom - top);
    }
    // Read hard at either board here, as the job says there.
    let finished = |edge: &Edge| {
        let course = edge.course(below).filter(|course| course.to.is_none())?;
        let top = course.top?.length() + job.settings.added_to_course(edge, course);
        Some(top + job.settings.kind(edge.kind).clearance)
    };
    let cover = job.settings.cover();
    let expected = finished(edge)? + finished(other)? - job.settings.side_lap;
    let off = (bottom - expected).modulo(cover);
    Some(if off + off > cover { off - cover } else { off })
}
