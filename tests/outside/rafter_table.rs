//! The skew of pieces against what is printed on framing squares.
//!
//! A roof is built in space: the eave runs along `x`, the roof side climbs with
//! `y`, the hip runs up over the corner. Where the hip meets each course line is
//! found by that geometry alone; readings to a straight field make the log, and
//! the core turns the log into pieces.
//!
//! ```text
//!   seen from above                     the roof side, laid flat
//!   |        . hip                      |<- reading ->\
//!   |      .   (δ from the eave)        |              \  up one course: the
//!   |    .                              |<-- reading -->\ hip moves E cos θ / tan δ
//!   +--.------------ eave, x
//! ```

use bendmark::domain::{
    bench::Progress,
    cutting::course_pieces,
    log::{Course, CourseNumber, Edge, EdgeId, End, Reading},
    measure::{Hand, Length, Name},
    piece::{PieceSpec, allowance_of},
    roof::EdgeKind,
    settings::Settings,
};

/// "How To Make A Common Rafter For Any Width Structure", step 4: the first
/// line of the framing square, common rafter per foot of run at 2 to 18 in 12.
const COMMON_PER_FOOT: [(u32, f64); 17] = [
    (2, 12.17),
    (3, 12.37),
    (4, 12.65),
    (5, 13.00),
    (6, 13.42),
    (7, 13.89),
    (8, 14.42),
    (9, 15.00),
    (10, 15.62),
    (11, 16.28),
    (12, 16.97),
    (13, 17.69),
    (14, 18.44),
    (15, 19.21),
    (16, 20.00),
    (17, 20.81),
    (18, 21.63),
];

/// A roof corner as it stands: this side's and the other side's rise in 12, and
/// the angle between the two eaves in plan, in degrees.
#[derive(Clone, Copy)]
struct Corner {
    this: f64,
    other: f64,
    plan: f64,
}

impl Corner {
    const fn square(rise: f64) -> Self {
        Self {
            this: rise,
            other: rise,
            plan: 90.0,
        }
    }

    /// How far the hip moves along the eave per unit of plan depth. The heights
    /// of both planes are equal on the hip: with this eave on `y = 0` and the
    /// other running off at `plan`, `m1 y = m2 (x sin ω - y cos ω)` (the second
    /// factor is the distance from the other eave, in plan).
    fn moves_per_depth(self) -> f64 {
        let (m1, m2) = (self.this / 12.0, self.other / 12.0);
        let plan = self.plan.to_radians();
        (m1 / m2 + plan.cos()) / plan.sin()
    }

    /// Where the hip stands along course line `course` (0 is the eave) from
    /// the corner, for courses `exposure` high up the slope.
    fn hip_at(self, course: u32, exposure: Length) -> f64 {
        let pitch = (self.this / 12.0).atan();
        let depth = f64::from(course) * exposure.mm() * pitch.cos();
        depth * self.moves_per_depth()
    }

    /// The pieces of ten courses whose field ends in a straight line, at the
    /// eave `reach` from the corner.
    fn pieces(self) -> Vec<PieceSpec> {
        let settings = Settings::default();
        let edge = self.log(&settings);
        let allowance = allowance_of(&edge, &settings);
        edge.courses()
            .iter()
            .flat_map(|course| {
                course_pieces(&edge, course, &settings, allowance, &Progress::default()).unwrap()
            })
            .collect()
    }

    fn log(self, settings: &Settings) -> Edge {
        let name = Name::or("East", "hip");
        let mut edge = Edge::new(EdgeId(1), name, EdgeKind::Hip, Hand::Left);
        let far = self.hip_at(10, settings.exposure).max(0.0) + 300.0;
        let gap = |line| {
            let mm = far - self.hip_at(line, settings.exposure);
            Reading::new(Length::rounded_from_mm(mm)).ok()
        };
        for number in 1..=10 {
            let course = Course::unread(CourseNumber::new(number).unwrap());
            let course = course.with(End::Bottom, gap(number - 1));
            edge.put(course.with(End::Top, gap(number)));
        }
        edge
    }
}

#[track_caller]
fn every_skew(corner: Corner, expected: f64, within: f64) {
    let pieces = corner.pieces();
    assert!(pieces.len() >= 10);
    for piece in pieces {
        let skew = piece.skew_deg();
        assert!((skew - expected).abs() < within, "{skew} for {expected}");
    }
}

/// Griffith, *Carpentry*, section 28: the side cut of a jack is 12 on the tongue
/// and the common rafter's length per foot on the blade. The same angle lies
/// between the hip and square on the roof's surface.
#[test]
fn a_hips_skew_is_the_side_cut_of_jacks_at_every_printed_rise() {
    for (rise, printed) in COMMON_PER_FOOT {
        let expected = (12.0 / printed).atan().to_degrees();
        every_skew(Corner::square(f64::from(rise)), expected, 0.02);
    }
}

/// Readings lie at most half a nanometre off, over a course of 14 in: what is
/// left against `tan = cos θ` is far below a millionth of a degree.
#[test]
fn a_hips_skew_is_the_arc_tangent_of_cos_theta() {
    for rise in 2..=18 {
        let theta = (f64::from(rise) / 12.0).atan();
        let expected = theta.cos().atan().to_degrees();
        every_skew(Corner::square(f64::from(rise)), expected, 1e-6);
    }
}

/// Hodgson, *The ABC of the Steel Square and Its Uses*, seventh line under 8:
/// figures 12 and 10, marking on the 10 side, give the cut of sheathing and
/// shingles in valley or hip. The square's figures are rounded: 0.043 degrees.
#[test]
fn at_8_in_12_the_skew_is_the_printed_cut_of_shingles() {
    every_skew(
        Corner::square(8.0),
        (10.0_f64 / 12.0).atan().to_degrees(),
        0.05,
    );
}

/// The one trap: `tan = cos θ` is measured from square (up the slope); from the
/// course line it is the complement. At 12 in 12 they are 35.2644 and 54.7356
/// degrees (computed from the rule above; 19.5 apart), at 3 in 12 only 1.7
/// apart, so that a swap passes a test on a low roof.
#[test]
fn skew_is_measured_from_square_and_not_from_the_course_line() {
    every_skew(Corner::square(12.0), 35.2644, 1e-4);
    let apart = |rise| {
        let skew = Corner::square(rise).pieces()[0].skew_deg();
        (90.0 - skew) - skew
    };
    assert!((apart(12.0) - 19.5).abs() < 0.05);
    assert!((apart(3.0) - 1.7).abs() < 0.05);
}

/// Published worked examples of irregular hips: the angle on the roof's surface
/// between the up-slope line and the hip. "Irregular Valley Roof" and
/// "Irregular Roof" (framing mathematics), "Jack Compound Calculations".
#[test]
fn unequal_slopes_give_the_published_angles_on_both_sides() {
    let corner = |this, other, plan| Corner { this, other, plan };
    every_skew(corner(12.0, 8.0, 90.0), 46.68614, 1e-5);
    every_skew(corner(8.0, 12.0, 90.0), 29.01714, 1e-5);
    every_skew(corner(8.0, 14.0, 90.0), 90.0 - 64.57091, 1e-5);
    every_skew(corner(14.0, 8.0, 90.0), 90.0 - 41.28481, 1e-5);
    every_skew(corner(10.0, 11.0, 90.0), 34.92979, 1e-5);
    every_skew(corner(11.0, 10.0, 90.0), 39.03754, 1e-5);
}

/// Hodgson, *The ABC of the Steel Square*, an unequal pitch (figures 60 to 62):
/// a building of 18 by 28 ft with a rise of 9 ft; the side cuts are "14 on the
/// tongue and the length of the short common rafter on the blade", and "9 on
/// the tongue" with the long one.
#[test]
fn an_old_books_unequal_pitch_gives_its_side_cuts() {
    let (short, long) = (9.0_f64.hypot(9.0), 14.0_f64.hypot(9.0));
    let steep = Corner {
        this: 12.0,
        other: 12.0 * 9.0 / 14.0,
        plan: 90.0,
    };
    every_skew(steep, (14.0 / short).atan().to_degrees(), 1e-6);
    let flat = Corner {
        this: steep.other,
        other: steep.this,
        plan: 90.0,
    };
    every_skew(flat, (9.0 / long).atan().to_degrees(), 1e-6);
}

/// Computed: 6 in 12 beside 12 in 12 at a corner of 135 degrees leans -0.262,
/// so its courses widen going up.
#[test]
fn a_true_hip_can_widen_going_up() {
    let corner = Corner {
        this: 6.0,
        other: 12.0,
        plan: 135.0,
    };
    for piece in corner.pieces() {
        assert!((piece.bend.lean() + 0.262).abs() < 0.0005);
    }
}
