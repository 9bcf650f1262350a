//! What is expected of a course from board to board, against the roof in space:
//! two hips as the lines in which three planes meet, cut by the course lines.

use bendmark::domain::{
    cutting::{ExpectedEnd, Job, doubts_of, expected_end},
    doubt::expected_readings,
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Length, Name},
    roof::{Corner, EdgeKind, RoofLine, Slope},
    settings::Settings,
};

type Vector = [f64; 3];

fn cross([a, b, c]: Vector, [x, y, z]: Vector) -> Vector {
    [b * z - c * y, c * x - a * z, a * y - b * x]
}

fn dot(one: Vector, other: Vector) -> f64 {
    one.iter().zip(other).map(|(one, other)| one * other).sum()
}

/// How far in from its end of the eave a hip stands, `up` inches up the slope: the
/// line in which this side (rise `here` in 12, its eave along x) meets the one
/// beyond the corner, followed to that height. Not the program's formula.
fn hip(here: f64, beyond: f64, corner: f64, up: f64) -> f64 {
    let (here, beyond, corner) = (here / 12.0, beyond / 12.0, corner.to_radians());
    let side = [0.0, -here, 1.0];
    let neighbour = [-beyond * corner.sin(), beyond * corner.cos(), 1.0];
    let line = cross(side, neighbour);
    let length = here.hypot(1.0);
    let up_the_slope = [0.0, 1.0 / length, here / length];
    line[0] * up / dot(line, up_the_slope)
}

/// A hip end: its slope, then the slope and the corner at either end.
struct Roof {
    here: f64,
    ends: [(f64, f64); 2],
    /// Along the eave.
    wide: f64,
}

impl Roof {
    fn width(&self, up: f64) -> f64 {
        let ends = self.ends.iter();
        let gone = ends.map(|(beyond, corner)| hip(self.here, *beyond, *corner, up));
        self.wide - gone.sum::<f64>()
    }
}

const ROOFS: [Roof; 4] = [
    Roof {
        here: 7.0,
        ends: [(7.0, 90.0), (7.0, 90.0)],
        wide: 130.0,
    },
    Roof {
        here: 6.0,
        ends: [(9.0, 90.0), (4.0, 90.0)],
        wide: 150.0,
    },
    Roof {
        here: 8.0,
        ends: [(8.0, 120.0), (5.0, 75.0)],
        wide: 95.0,
    },
    Roof {
        here: 4.0,
        ends: [(12.0, 135.0), (4.0, 90.0)],
        wide: 70.0,
    },
];

fn number(course: u32) -> CourseNumber {
    CourseNumber::new(course).unwrap()
}

#[expect(clippy::cast_possible_truncation, reason = "a few metres in nm")]
fn length(inches: f64) -> Length {
    Length::from_nm((inches * 25_400_000.0).round() as i64)
}

fn inches(length: Length) -> f64 {
    length.mm() / 25.4
}

/// The two hips of a roof; `slopes` says whether the second one's are given.
fn job(roof: &Roof, slopes: bool) -> Job {
    let mut job = Job::new(Name::or("Hip end", "?"), Settings::default());
    let slope = |rise: f64| Slope::parse(&format!("{rise} in 12")).unwrap();
    let hands = Hand::BOTH.into_iter().zip(roof.ends);
    for (hand, (beyond, corner)) in hands {
        let id = job.add_edge(Name::or(hand.word(), "?"), EdgeKind::Hip, hand);
        let edge = job.edge_mut(id).unwrap();
        if id == EdgeId(1) || slopes {
            edge.roof = RoofLine {
                slope: Some(slope(roof.here)),
                other: Some(slope(beyond)),
                corner: Corner::parse(&format!("{corner}")).unwrap(),
            };
        }
    }
    job
}

fn put(job: &mut Job, course: Course) {
    let to = Some(EdgeId(2));
    let course = Course { to, ..course };
    job.edge_mut(EdgeId(1)).unwrap().put(course);
}

fn expected(job: &Job, course: u32, end: End) -> Option<ExpectedEnd> {
    let edge = job.edge(EdgeId(1)).unwrap();
    expected_end(job, edge, number(course), end, &doubts_of(job))
}

#[track_caller]
fn near(found: Option<ExpectedEnd>, reading: f64) {
    let Some(ExpectedEnd::Reading(found)) = found else {
        panic!("{found:?} for {reading}");
    };
    let off = (inches(found) - reading).abs();
    assert!(off < 0.001, "{} for {reading}", inches(found));
}

/// Course by course up to the peak, with only its bottom read, its top is where
/// both hips stand; where they meet below it, that is said with how far up.
#[test]
fn the_top_of_a_course_from_board_to_board_is_narrower_by_what_both_hips_take() {
    for roof in &ROOFS {
        let exposure = inches(Settings::default().exposure);
        let mut met = false;
        for course in
            (1..60).take_while(|course| roof.width(f64::from(course - 1) * exposure) > 0.0)
        {
            let up = f64::from(course - 1) * exposure;
            let (bottom, top) = (roof.width(up), roof.width(up + exposure));
            let mut job = job(roof, true);
            let unread = Course::unread(number(course));
            let read = |inches| Reading::new(length(inches)).ok();
            put(&mut job, unread.with(End::Bottom, read(bottom)));
            let found = expected(&job, course, End::Top);
            if top >= 0.0 {
                near(found, top);
                put(&mut job, unread.with(End::Top, read(top)));
                near(expected(&job, course, End::Bottom), bottom);
                // The course above begins where this one ends.
                put(&mut job, Course::unread(number(course + 1)));
                near(expected(&job, course + 1, End::Bottom), top);
                continue;
            }
            // In the straight lines of the hips, where nothing is left.
            let meet = exposure * bottom / (bottom - top);
            assert!((roof.width(up + meet)).abs() < 1e-9);
            let Some(ExpectedEnd::Meet(found)) = found else {
                panic!("{found:?}");
            };
            assert!((inches(found) - meet).abs() < 0.001);
            let met_up = Reading::new(length(meet)).ok();
            put(
                &mut job,
                Course {
                    runs_out: met_up,
                    ..unread
                },
            );
            near(expected(&job, course, End::Bottom), bottom);
            met = true;
        }
        assert!(met, "{} in wide", roof.wide);
    }
}

#[test]
fn where_the_other_hips_lean_is_only_that_of_other_hips_nothing_is_expected() {
    let mut job = job(&ROOFS[0], false);
    let five = job.add_edge(Name::or("Far", "?"), EdgeKind::Hip, Hand::Left);
    for course in 1..=5 {
        let read = |inches| Reading::new(length(inches)).ok();
        let course = Course::unread(number(course))
            .with(End::Bottom, read(30.0))
            .with(End::Top, read(18.0));
        job.edge_mut(five).unwrap().put(course);
    }
    let course = Course::unread(number(1)).with(End::Bottom, Reading::new(length(40.0)).ok());
    put(&mut job, course);
    assert_eq!(expected(&job, 1, End::Top), None);
}

/// A course above one from board to board, or above a line struck up the course,
/// does not go on from there as if that were a joint of the bond.
#[test]
fn no_bottom_is_expected_from_a_top_that_is_no_joint() {
    let roof = &ROOFS[0];
    let mut plain = job(roof, true);
    let read = |inches: f64| Reading::new(length(inches)).ok();
    for course in 1..=6_u32 {
        let bottom = 46.0 - 12.0 * f64::from(course % 2);
        let course = Course::unread(number(course))
            .with(End::Bottom, read(bottom))
            .with(End::Top, read(bottom - 12.0875));
        plain.edge_mut(EdgeId(1)).unwrap().put(course);
    }
    let bottom_above = |job: &Job| {
        let edge = job.edge(EdgeId(1)).unwrap();
        let rows = expected_readings(edge, &job.settings, number(7), None);
        rows[6].bottom
    };
    assert!(bottom_above(&plain).is_some());
    for change in [
        |course: &mut Course| course.to = Some(EdgeId(2)),
        |course: &mut Course| course.reads_to = Some(bendmark::domain::log::ReadTo::PanelEdge),
    ] {
        let mut job = plain.clone();
        let edge = job.edge_mut(EdgeId(1)).unwrap();
        let mut top = *edge.course(number(6)).unwrap();
        change(&mut top);
        edge.put(top);
        assert_eq!(bottom_above(&job), None);
    }
}
