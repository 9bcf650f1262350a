//! Hips worked by hand: the default panel (W 48, lap 2, so C 46, E 14).

use bendmark::domain::{
    doubt::{Doubt, Witness, check},
    log::{Course, CourseNumber, Edge, EdgeId, Reading, SetAside},
    measure::{Hand, Length, Name},
    roof::{EdgeKind, RoofLine, Slope},
    settings::Settings,
    tape::{Unit, parse},
};

pub(crate) fn inches(text: &str) -> Length {
    parse(text, Unit::Inch).unwrap()
}

pub(crate) fn number(number: u32) -> CourseNumber {
    CourseNumber::new(number).unwrap()
}

pub(crate) fn read(text: &str) -> Option<Reading> {
    (text != "-").then(|| Reading::new(inches(text)).unwrap())
}

/// An edge from lines of `bottom top [runs-out [height]]`, `-` for not read.
pub(crate) fn edge(kind: EdgeKind, courses: &[&str]) -> Edge {
    let mut edge = Edge::new(EdgeId(1), Name::or("North", "?"), kind, Hand::Left);
    for (line, at) in courses.iter().zip(1..) {
        let mut words = line.split(' ').chain(std::iter::repeat("-"));
        let mut next = || read(words.next().unwrap());
        edge.put(Course {
            number: number(at),
            bottom: next(),
            top: next(),
            runs_out: next(),
            height: next(),
            to: None,
            reads_to: None,
            trip: None,
        });
    }
    edge
}

pub(crate) fn hip(courses: &[&str]) -> Edge {
    edge(EdgeKind::Hip, courses)
}

pub(crate) fn unknown() -> RoofLine {
    RoofLine::default()
}

pub(crate) fn slope(text: &str) -> RoofLine {
    RoofLine::even(Slope::parse(text).unwrap())
}

/// The edge beside that roof.
pub(crate) fn beside(edge: &Edge, roof: RoofLine) -> Edge {
    let mut edge = edge.clone();
    edge.roof = roof;
    edge
}

pub(crate) fn doubts(edge: &Edge, roof: RoofLine) -> Vec<Doubt> {
    check_alone(&beside(edge, roof), &Settings::default(), &[])
}

#[track_caller]
pub(crate) fn the_one(edge: &Edge, roof: RoofLine) -> Doubt {
    let doubts = doubts(edge, roof);
    assert_eq!(doubts.len(), 1, "{doubts:#?}");
    doubts.into_iter().next().unwrap()
}

#[track_caller]
pub(crate) fn none(edge: &Edge, roof: RoofLine) {
    assert_eq!(doubts(edge, roof), []);
}

/// A hip that narrows by 9 3/4 a course, with joints of every sort; course 4
/// should read 21 5/8 over 11 7/8.
pub(crate) const CLEAN: [&str; 7] = [
    "34.5 24.75",
    "17.125 7.375",
    "52 42.25",
    "21.625 11.875",
    "45.25 35.5",
    "30.125 20.375",
    "14.75 5",
];

pub(crate) fn with(at: usize, course: &'static str) -> Edge {
    let mut courses = CLEAN;
    courses[at - 1] = course;
    hip(&courses)
}

/// Joints of 16 in at every course line, 9 3/4 a course: 24 3/4 less 16 is
/// 8 3/4, and so on, a cover of 46 more where the last full panel is another.
pub(crate) const REGULAR: [&str; 7] = [
    "34.5 24.75",
    "54.75 45",
    "29 19.25",
    "49.25 39.5",
    "23.5 13.75",
    "43.75 34",
    "18 8.25",
];

/// What is doubtful about an edge of which nothing but its log is known.
pub(crate) fn check_alone(edge: &Edge, settings: &Settings, set_aside: &[SetAside]) -> Vec<Doubt> {
    check(edge, settings, set_aside, &Witness::none(edge, settings))
}
