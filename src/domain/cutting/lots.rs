//! Colour lots on a plane: where two meet in one course, and where another one
//! begins. All edges of a plane bound the same courses, whichever end they are.

use super::{cut_list::CutList, job::Job};
use crate::domain::{
    bench::Progress,
    log::{CourseNumber, Edge},
    measure::Name,
};
use std::collections::{BTreeMap, BTreeSet};

/// What is to be said of a job's lots.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Lots {
    /// Two lots in one course: it shows for as long as the roof lies.
    pub doubts: Vec<String>,
    /// Another lot from a course on.
    pub notes: Vec<String>,
}

/// Whether no lot is said of `edge`, or of its first courses, in a job that has lots:
/// whoever opens a panel for it would guess.
pub fn lacks_lot(job: &Job, edge: &Edge) -> bool {
    let mut lots = job.edges().iter().flat_map(|edge| edge.lots());
    edge.lot.is_none() && lots.any(|lot| lot.is_some())
}

type ByCourse<'a> = BTreeMap<CourseNumber, BTreeSet<&'a Name>>;

impl Lots {
    /// The lots of `job`: of a marked piece the one it was marked from, else its
    /// edge's. Pieces without a lot say nothing.
    pub fn of(job: &Job, progress: &Progress, list: &CutList) -> Self {
        Self::where_plane(job, progress, list, |_| true)
    }

    /// What is to be said of the lots on one plane.
    pub fn on(plane: &Name, job: &Job, progress: &Progress, list: &CutList) -> Self {
        Self::where_plane(job, progress, list, |its| its == plane)
    }

    fn where_plane(
        job: &Job,
        progress: &Progress,
        list: &CutList,
        wanted: impl Fn(&Name) -> bool,
    ) -> Self {
        let mut planes: BTreeMap<&Name, ByCourse<'_>> = BTreeMap::new();
        let named = |edge: &Edge| edge.plane.as_ref().is_some_and(&wanted);
        let edges = job.edges().iter().filter(|edge| named(edge));
        let edges: BTreeMap<_, _> = edges.map(|edge| (edge.id, edge)).collect();
        for piece in &list.pieces {
            let Some(edge) = edges.get(&piece.id.edge) else {
                continue;
            };
            let lot = match progress.done(piece.id) {
                Some(done) => done.lot.as_ref(),
                None => edge.lot_of(piece.id.course),
            };
            if let Some((lot, plane)) = lot.zip(edge.plane.as_ref()) {
                let courses = planes.entry(plane).or_default();
                courses.entry(piece.id.course).or_default().insert(lot);
            }
        }
        let mut lots = Self::default();
        for (plane, courses) in planes {
            lots.add_plane(plane, &courses);
        }
        lots
    }

    fn add_plane(&mut self, plane: &Name, courses: &ByCourse<'_>) {
        let mut mixed = courses.iter().filter(|(_, lots)| lots.len() > 1);
        if let Some((course, lots)) = mixed.next() {
            let more = match mixed.count() {
                0 => String::new(),
                count => format!(" and {count} more"),
            };
            let lots: Vec<&str> = lots.iter().map(|lot| lot.as_str()).collect();
            let lots = lots.join(", ");
            self.doubts.push(format!(
                "roof side {plane}: two lots in one course ({lots}), course {course}{more}"
            ));
            return;
        }
        let mut before = None;
        for (course, lots) in courses {
            let lot = lots.first();
            if before.is_some() && lot != before {
                let lot = lot.map_or("", |lot| lot.as_str());
                let words = format!("roof side {plane}: lot {lot} from course {course} on");
                self.notes.push(words);
            }
            before = lot;
        }
    }
}
