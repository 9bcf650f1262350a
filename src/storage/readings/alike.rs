//! What may be one edge under two names: names that differ too little, and
//! edges with the same figures.

use crate::domain::{
    cutting::Job,
    log::{Course, CourseNumber, Edge, EdgeId, Reading},
    measure::Name,
};
use foldhash::HashMap;
use std::collections::HashSet;

/// From so many courses on, the same figures all the way up are no chance.
const ENOUGH: usize = 4;

/// An edge that has all its figures as another one has them.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct SameFigures {
    pub edge: Name,
    pub as_edge: Name,
}

impl std::fmt::Display for SameFigures {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { edge, as_edge } = self;
        write!(
            f,
            "\"{edge}\": same figures as \"{as_edge}\": another name?"
        )
    }
}

/// A name without case and spaces.
pub(super) fn bare(name: &str) -> String {
    let shown = name.chars().filter(|c| !c.is_whitespace());
    shown.flat_map(char::to_lowercase).collect()
}

/// What is compared of a course.
type Figures = (CourseNumber, [Option<Reading>; 4]);

fn figures(course: &Course) -> Figures {
    let Course {
        number,
        bottom,
        top,
        runs_out,
        height,
        to: _,
        reads_to: _,
        trip: _,
    } = *course;
    (number, [bottom, top, runs_out, height])
}

fn read(edge: &Edge) -> impl Iterator<Item = &Course> {
    edge.courses().iter().filter(|course| !course.is_blank())
}

/// The edges among `touched` all of whose figures another edge has too.
pub(super) fn same_figures(job: &Job, touched: &HashSet<EdgeId>) -> Vec<SameFigures> {
    let many = |edge: &&Edge| read(edge).count() >= ENOUGH;
    let asked = job.edges().iter().map(AsRef::as_ref);
    let asked = asked.filter(|edge: &&Edge| touched.contains(&edge.id));
    let asked: Vec<&Edge> = asked.filter(many).collect();
    if asked.is_empty() {
        return Vec::new();
    }
    let mut having: HashMap<Figures, Vec<&Edge>> = HashMap::default();
    for edge in job.edges() {
        for course in read(edge) {
            having.entry(figures(course)).or_default().push(edge);
        }
    }
    let found = asked.into_iter().filter_map(|edge| {
        let others = read(edge).filter_map(|course| having.get(&figures(course)));
        let fewest = others.min_by_key(|others| others.len())?;
        let other = fewest
            .iter()
            .find(|other| is_another(edge, other, touched))?;
        Some(SameFigures {
            edge: edge.name.clone(),
            as_edge: other.name.clone(),
        })
    });
    found.collect()
}

/// Whether `other` has all the figures of `edge`; of two edges that both have
/// just been read the later one is asked about.
fn is_another(edge: &Edge, other: &Edge, touched: &HashSet<EdgeId>) -> bool {
    let has = |course: &Course| other.course(course.number) == Some(course);
    let later = other.id > edge.id
        && touched.contains(&other.id)
        && read(edge).count() == read(other).count();
    edge.id != other.id && !later && read(edge).all(has)
}
