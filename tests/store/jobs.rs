//! Jobs to be stored: one with every field in use, and random ones.
//!
//! Over 400 lines: every field of a job, and a random one for each.

use bendmark::domain::{
    bench::{
        Asked, BenchEvent, CutRest, Fact, GoneBy, MarkedStock, SavedOffcut, SpoiledBy, Utc,
        WrittenCourse,
    },
    cutting::{EdgeNumber, EdgeNumbers, Job, NamedChange, Spot},
    log::{
        self, Course, CourseFigure, CourseNumber, CourseShift, Edge, EdgeId, End, LaterLot,
        PanelsLie, ReadTo, Reading, SetAside, SheetSaid, Struck, TapeEnd, Trip,
    },
    measure::{Hand, Length, Name, SkewLine},
    piece::{NearEnd, Panel, PieceId, PieceSpec},
    roof::{ByKind, Corner, EdgeKind, RoofLine, Slope, SlopeForm},
    settings::{
        Allowance, BenchOrder, BenderFolds, KindSettings, LayingOrder, Minutes, OneKey,
        RawSettings, SecondTrip, Setting, Settings, SparePerCent, StackTurned,
    },
    stock::{Offcut, OffcutNumber},
    tape::Division,
};
use proptest::prelude::*;
use proptest::sample::select;
use std::collections::BTreeSet;

/// How many random cases a property is tried on.
pub(crate) fn cases(few: u32) -> ProptestConfig {
    let asked = std::env::var("BENDMARK_CASES").ok();
    ProptestConfig::with_cases(asked.and_then(|cases| cases.parse().ok()).unwrap_or(few))
}

fn mm(mm: i64) -> Length {
    Length::from_mm(mm)
}

fn read(mm: i64) -> Option<Reading> {
    Reading::new(Length::from_mm(mm)).ok()
}

fn number(number: u32) -> CourseNumber {
    CourseNumber::new(number).unwrap()
}

/// A job in which no field has its default.
// Over 60 lines: every field is set.
pub(crate) fn full_job() -> Job {
    let mut job = with_every_field();
    let mut before = job.clone();
    let [hip, valley] = [0, 1].map(|at| before.edges()[at].id);
    before.name = Name::or("Before", "?");
    before.settings = Settings::default();
    before.add_edge(Name::or("Gone again", "?"), EdgeKind::Rake, Hand::Left);
    before.shift_courses(hip, CourseShift::In(number(1)));
    before.edge_mut(hip).unwrap().said.clear();
    let edge = before.edge_mut(valley).unwrap();
    edge.put(Course::unread(number(77)));
    edge.said = vec![SheetSaid::nothing(number(2))];
    edge.said[0].course.bottom = read(500);
    let named = |words: &str, spot| NamedChange {
        words: words.to_owned(),
        spot,
    };
    job.keep_change(&before, named("all of it", Spot::Rack));
    let fact = Fact::Gone {
        offcut: OffcutNumber(3),
        by: GoneBy::Thrown,
    };
    job.record(vec![fact], Some(Utc(1_800_000_000)));
    let undone = job.undo(|_| named("offcut 3 gone", Spot::Setting(Setting::Blade)));
    assert!(undone.is_some());
    job
}

// Over 60 lines: every field.
fn with_every_field() -> Job {
    let mut job = full_job_of_version_1();
    job.set_changes(39);
    let mut settings = *job.settings;
    settings.panels_lie = PanelsLie::OverRight;
    settings.least_flat = Some(mm(40));
    settings.second_trip = SecondTrip::Yes;
    settings.shear_opens = Some(mm(260));
    settings.bender_folds = BenderFolds::UpOnly;
    job.settings = Settings::checked(settings).unwrap();
    let [hip, valley] = [0, 1].map(|at| job.edges()[at].id);
    let mut said = SheetSaid::nothing(number(5));
    (said.course.bottom, said.course.runs_out) = (read(100), read(190));
    (said.course.top, said.course.height) = (read(1), read(220));
    said.two = vec![CourseFigure::Top, CourseFigure::RunsOut];
    let numbered = [(hip, EdgeKind::Hip, 2), (valley, EdgeKind::Valley, 1)];
    let numbered = numbered.map(|(edge, kind, number)| EdgeNumber { edge, kind, number });
    job.set_numbers(EdgeNumbers::of(numbered.to_vec()));
    let edge = job.edge_mut(hip).unwrap();
    edge.said = vec![said];
    edge.later_lots = vec![LaterLot {
        from: number(5),
        lot: Name::or("Slate 9", "?"),
    }];
    let edge = job.edge_mut(valley).unwrap();
    edge.put(Course {
        to: Some(hip),
        bottom: read(640),
        ..Course::unread(number(9))
    });
    edge.put(Course {
        reads_to: Some(ReadTo::LapLine),
        trip: Some(Trip::Second(log::SecondTrip {
            from: 3,
            bottom: read(210),
            top: read(20),
            runs_out: read(360),
        })),
        ..Course::unread(number(8))
    });
    edge.put(Course {
        trip: Some(Trip::First),
        ..Course::unread(number(7))
    });
    edge.reads_to = Some(ReadTo::LapLine);
    edge.tape_end = Some(TapeEnd::HeldOff);
    let piece = piece(valley, 9, 1);
    let line = |at_nose, at_rise| SkewLine {
        at_nose: mm(at_nose),
        at_rise: mm(at_rise),
        rise: mm(369),
    };
    let spec = PieceSpec {
        kind: EdgeKind::Hip,
        hand: Hand::Left,
        bend: line(700, 400),
        allowance: mm(51),
        panel: Panel {
            width: mm(1_330),
            height: mm(410),
        },
        across: None,
        near: Some(NearEnd {
            edges: [valley, hip],
            kind: EdgeKind::Valley,
            bend: line(60, 380),
            allowance: mm(60),
        }),
    };
    let marked = Fact::Marked {
        written: Some(WrittenCourse {
            course: CourseNumber::FIRST,
            before: 1,
        }),
        piece,
        spec: Box::new(spec),
        stock: MarkedStock::New { panel: 8 },
        lot: None,
    };
    job.record(vec![marked], Some(Utc(1_790_001_000)));
    job.record(vec![Fact::FirstCut(piece)], None);
    let again = Fact::ReadAgain {
        edge: hip,
        course: number(5),
        corrected: false,
    };
    job.record(vec![again], None);
    let facts = misfits(piece, line(640, 340), line(70, 380));
    facts
        .into_iter()
        .for_each(|fact| job.record(vec![fact], None));
    job
}

/// What is done about a piece that no longer fits.
fn misfits(piece: PieceId, bend: SkewLine, near: SkewLine) -> Vec<Fact> {
    let near = Some(near);
    let asked = Asked::Lines { bend, near };
    let kept = Some(SavedOffcut {
        number: OffcutNumber(9),
        offcut: offcut(),
        promised: piece,
    });
    vec![
        Fact::BendStruck { piece, bend },
        Fact::Stays { piece, asked },
        Fact::Stays {
            piece,
            asked: Asked::Otherwise,
        },
        Fact::TakenBack { piece, kept },
        Fact::TakenBack { piece, kept: None },
        Fact::Paused,
        Fact::Spoiled {
            piece,
            saved: Vec::new(),
            why: Some(SpoiledBy::Bend),
        },
        Fact::Measured {
            offcut: OffcutNumber(9),
            at_nose: mm(500),
            at_back: mm(-20),
            lot: Some(Name::new("Slate 7").unwrap()),
        },
    ]
}

/// What of that the file of version 1 could hold.
// Over 60 lines: every field is set.
pub(crate) fn full_job_of_version_1() -> Job {
    let settings = RawSettings {
        division: Division::HalfMillimetre,
        panel_width: mm(1_330),
        side_lap: mm(80),
        exposure: mm(369),
        panel_height: Some(mm(410)),
        panels_lie: PanelsLie::NotSaid,
        read_to: ReadTo::PanelEdge,
        tape_end: TapeEnd::Hard,
        kinds: ByKind::of(|edge| match edge {
            EdgeKind::Hip => kind(Allowance::Standing(mm(45)), 6),
            EdgeKind::Valley => kind(Allowance::Along(mm(60)), 7),
            EdgeKind::Rake => kind(Allowance::Along(mm(50)), 8),
        }),
        valley_depth: Some(mm(55)),
        least_turn_up: mm(41),
        ridge_turn_up: mm(31),
        sliver: Some(mm(90)),
        least_flat: None,
        tolerance: mm(9),
        spare: mm(12),
        carry_more: SparePerCent::new(15).unwrap(),
        blade: Hand::Left,
        laying: LayingOrder::EaveUp,
        stack_turned: StackTurned::Yes,
        second_trip: SecondTrip::No,
        shear_opens: None,
        bender_folds: BenderFolds::BothWays,
        bench_order: BenchOrder::BendFirst,
        one_key: OneKey::Piece,
        pause: Minutes(45),
    };
    let name = Name::new("Gräfenhof \"2\" \\ barn").unwrap();
    let mut job = Job::new(name, Settings::checked(settings).unwrap());
    let gone = job.add_edge(Name::or("Gone", "?"), EdgeKind::Rake, Hand::Left);
    let hip = job.add_edge(Name::or("North hip", "?"), EdgeKind::Hip, Hand::Left);
    let valley = job.add_edge(Name::or("Yard valley", "?"), EdgeKind::Valley, Hand::Right);
    job.remove_edge(gone);
    let edge = job.edge_mut(hip).unwrap();
    edge.put_all(courses());
    edge.roof = RoofLine {
        slope: Slope::parse("4 1/2").ok(),
        other: Slope::parse("26.57 deg").ok(),
        corner: Corner::parse("112.5").unwrap(),
    };
    edge.plane = Name::new("North slope").ok();
    edge.lot = Name::new("Slate 7").ok();
    edge.set_aside = vec![
        SetAside::Course {
            course: number(1),
            bottom: Some(mm(900)),
            top: None,
        },
        SetAside::Placement {
            course: number(1),
            top: Some(mm(700)),
            bottom: Some(mm(650)),
        },
        SetAside::Edge { off: mm(-31) },
    ];
    edge.struck = vec![Struck {
        course: number(1),
        end: End::Top,
        was: read(725).unwrap(),
    }];
    let edge = job.edge_mut(valley).unwrap();
    edge.put(Course::unread(number(3)));
    edge.roof.slope = Slope::parse("58 %").ok();
    record(&mut job, hip);
    // Kinds were not counted apart then.
    job.set_numbers(EdgeNumbers::default());
    job
}

fn kind(allowance: Allowance, clearance: i64) -> KindSettings {
    KindSettings {
        allowance,
        clearance: mm(clearance),
    }
}

fn courses() -> [Course; 2] {
    [
        Course {
            number: number(1),
            bottom: read(900),
            top: read(700),
            runs_out: None,
            height: None,
            to: None,
            reads_to: None,
            trip: None,
        },
        Course {
            number: number(5),
            bottom: read(100),
            top: None,
            runs_out: read(180),
            height: read(220),
            to: None,
            reads_to: None,
            trip: None,
        },
    ]
}

fn piece(edge: EdgeId, course: u32, number_: u32) -> PieceId {
    PieceId {
        edge,
        course: number(course),
        number: number_,
    }
}

fn offcut() -> Offcut {
    Offcut {
        whole: Hand::Right,
        panel: Panel {
            width: mm(1_330),
            height: mm(410),
        },
        limit: SkewLine {
            at_nose: mm(379),
            at_rise: mm(1_299),
            rise: mm(369),
        },
    }
}

fn record(job: &mut Job, edge: EdgeId) {
    let presses = [worked(edge), racked(edge)].concat();
    for (at, facts) in (1_790_000_000..).zip(presses) {
        // Now and then the clock was not known.
        let at = (at % 5 != 1).then_some(Utc(at));
        job.record(facts, at);
    }
}

/// A piece from the mark to the stack.
fn worked(edge: EdgeId) -> Vec<Vec<Fact>> {
    let piece = piece(edge, 1, 2);
    let spec = Box::new(PieceSpec {
        kind: EdgeKind::Hip,
        hand: Hand::Left,
        bend: SkewLine {
            at_nose: mm(900),
            at_rise: mm(-20),
            rise: mm(369),
        },
        allowance: mm(51),
        panel: Panel {
            width: mm(1_330),
            height: mm(410),
        },
        across: Some(mm(251)),
        near: None,
    });
    let marked = Fact::Marked {
        written: None,
        piece,
        spec,
        stock: MarkedStock::New { panel: 7 },
        lot: Name::new("Slate 7").ok(),
    };
    let cut = Fact::Cut {
        piece,
        rest: CutRest::Kept {
            offcut: OffcutNumber(1),
            promised: self::piece(edge, 5, 1),
        },
    };
    let by = mm(-3);
    vec![
        vec![marked, cut],
        vec![Fact::Bent(piece)],
        vec![Fact::Stacked(piece)],
        vec![Fact::Corrected { edge, by }],
    ]
}

/// What offcuts go through, a spoiled piece among it.
// Over 60 lines: every fact of an offcut.
fn racked(edge: EdgeId) -> Vec<Vec<Fact>> {
    let piece = piece(edge, 5, 1);
    let spec = Box::new(PieceSpec {
        kind: EdgeKind::Hip,
        hand: Hand::Left,
        bend: SkewLine {
            at_nose: mm(100),
            at_rise: mm(0),
            rise: mm(220),
        },
        allowance: mm(51),
        panel: Panel {
            width: mm(1_330),
            height: mm(410),
        },
        across: None,
        near: None,
    });
    let number = OffcutNumber;
    let found = |at, lot| Fact::Found {
        number: number(at),
        offcut: offcut(),
        lot,
    };
    let marked = |stock| Fact::Marked {
        written: None,
        piece,
        spec: spec.clone(),
        stock,
        lot: None,
    };
    let saved = SavedOffcut {
        number: number(4),
        offcut: offcut(),
        promised: piece,
    };
    let promised = |piece| Fact::Promised {
        offcut: number(1),
        piece,
    };
    vec![
        vec![found(2, Name::new("Slate 7").ok()), found(3, None)],
        vec![marked(MarkedStock::Offcut {
            offcut: number(2),
            panel: None,
        })],
        vec![Fact::Cut {
            piece,
            rest: CutRest::Waste,
        }],
        vec![Fact::Spoiled {
            piece,
            saved: vec![saved],
            why: None,
        }],
        vec![promised(None)],
        vec![promised(Some(piece))],
        vec![marked(MarkedStock::Offcut {
            offcut: number(1),
            panel: Some(7),
        })],
        vec![Fact::Spoiled {
            piece,
            saved: Vec::new(),
            why: None,
        }],
        vec![Fact::Gone {
            offcut: number(3),
            by: GoneBy::Thrown,
        }],
        vec![Fact::Gone {
            offcut: number(4),
            by: GoneBy::Used,
        }],
    ]
}

fn length(least_mm: i64, most_mm: i64) -> impl Strategy<Value = Length> {
    (least_mm * 1_000_000..=most_mm * 1_000_000).prop_map(Length::from_nm)
}

fn reading() -> impl Strategy<Value = Option<Reading>> {
    proptest::option::of(length(0, 100_000))
        .prop_map(|length| length.and_then(|length| Reading::new(length).ok()))
}

fn hand() -> impl Strategy<Value = Hand> {
    select(Hand::BOTH.to_vec())
}

fn edge_kind() -> impl Strategy<Value = EdgeKind> {
    select(EdgeKind::ALL.to_vec())
}

fn kind_settings() -> impl Strategy<Value = KindSettings> {
    (any::<bool>(), length(0, 300), length(0, 100)).prop_map(|(along, allowance, clearance)| {
        KindSettings {
            allowance: if along {
                Allowance::Along(allowance)
            } else {
                Allowance::Standing(allowance)
            },
            clearance,
        }
    })
}

fn settings() -> impl Strategy<Value = Settings> {
    let optional = proptest::option::of;
    let lengths = (
        length(200, 5_000),
        length(0, 100),
        length(50, 2_000),
        optional(length(50, 2_000)),
        optional(length(0, 500)),
        length(0, 300),
        length(0, 300),
        optional(length(0, 200)),
        length(1, 100),
        length(0, 100),
    );
    let kinds = (kind_settings(), kind_settings(), kind_settings());
    let division = select(Division::ALL.to_vec());
    let more = (0..=SparePerCent::MOST).prop_map(|more| SparePerCent::new(more).unwrap());
    (lengths, kinds, division, more, any::<[bool; 7]>()).prop_map(
        |(lengths, kinds, division, carry_more, choices)| {
            let (panel_width, side_lap, exposure, panel_height, valley_depth, ..) = lengths;
            let (.., least, ridge, sliver, tolerance, spare) = lengths;
            let (hip, valley, rake) = kinds;
            let [read_to, tape_end, blade, laying, turned, order, pace] = choices;
            fn pick<T>(first: bool, one: T, other: T) -> T {
                if first { one } else { other }
            }
            let raw = RawSettings {
                division,
                panel_width,
                side_lap,
                exposure,
                panel_height,
                panels_lie: PanelsLie::OverLeft,
                read_to: pick(read_to, ReadTo::LapLine, ReadTo::PanelEdge),
                tape_end: pick(tape_end, TapeEnd::HeldOff, TapeEnd::Hard),
                kinds: ByKind::of(|kind| match kind {
                    EdgeKind::Hip => hip,
                    EdgeKind::Valley => valley,
                    EdgeKind::Rake => rake,
                }),
                valley_depth,
                least_turn_up: least,
                ridge_turn_up: ridge,
                sliver,
                least_flat: sliver,
                tolerance,
                spare,
                carry_more,
                blade: pick(blade, Hand::Left, Hand::Right),
                laying: pick(laying, LayingOrder::RidgeDown, LayingOrder::EaveUp),
                stack_turned: pick(turned, StackTurned::No, StackTurned::Yes),
                second_trip: pick(turned, SecondTrip::No, SecondTrip::Yes),
                shear_opens: sliver,
                bender_folds: pick(pace, BenderFolds::BothWays, BenderFolds::UpOnly),
                bench_order: pick(order, BenchOrder::CutFirst, BenchOrder::BendFirst),
                one_key: pick(pace, OneKey::Step, OneKey::Piece),
                pause: Minutes(30),
            };
            Settings::checked(raw).expect("drawn from the ranges that are taken")
        },
    )
}

fn course() -> impl Strategy<Value = Course> {
    let readings = (reading(), reading(), reading(), reading());
    let to = proptest::option::of((1_u32..=4).prop_map(EdgeId));
    (1_u32..=99_999, readings, to).prop_map(|(at, (bottom, top, runs_out, height), to)| Course {
        number: number(at),
        bottom,
        top,
        runs_out,
        height,
        to,
        // Any, and often none.
        reads_to: (at % 3 == 0).then_some(ReadTo::PanelEdge),
        trip: match at % 5 {
            0 => Some(Trip::First),
            1 => Some(Trip::Second(log::SecondTrip {
                from: 2 + at % 7,
                bottom: top,
                top: bottom,
                runs_out,
            })),
            _ => None,
        },
    })
}

fn name() -> impl Strategy<Value = Name> {
    // Letters from everywhere, among them such as join their neighbours.
    "(\\PC|[\u{600}\u{301}\"\\\\\u{AC00}\u{1100}]){1,70}".prop_map(|text| Name::or(&text, "job"))
}

fn slope() -> impl Strategy<Value = Option<Slope>> {
    // Up to where each form reaches 85 degrees.
    let forms = [
        (SlopeForm::RiseIn12, 13_716_000_i64),
        (SlopeForm::Degrees, 8_499_999),
        (SlopeForm::PerCent, 114_300_000),
    ];
    let one = select(forms.to_vec())
        .prop_flat_map(|(form, most)| (1..=most).prop_map(move |parts| Slope::new(form, parts)));
    proptest::option::of(one.prop_map(|slope| slope.expect("within its form's range")))
}

fn roof() -> impl Strategy<Value = RoofLine> {
    let corner = prop_oneof![Just(9_000_000), 1_500_000_i64..=16_500_000];
    (slope(), slope(), corner).prop_map(|(slope, other, corner)| RoofLine {
        slope,
        other,
        corner: Corner::new(corner).unwrap(),
    })
}

fn set_aside() -> impl Strategy<Value = SetAside> {
    let figures = || proptest::option::of(length(0, 100_000));
    let course = || (1_u32..=99_999).prop_map(number);
    prop_oneof![
        (course(), figures(), figures()).prop_map(|(course, bottom, top)| SetAside::Course {
            course,
            bottom,
            top
        }),
        (course(), figures(), figures()).prop_map(|(course, top, bottom)| SetAside::Placement {
            course,
            top,
            bottom
        }),
        length(-9_000, 9_000).prop_map(|off| SetAside::Edge { off }),
    ]
}

fn struck() -> impl Strategy<Value = Struck> {
    let end = prop_oneof![Just(End::Bottom), Just(End::Top)];
    (1_u32..=99_999, end, length(0, 100_000)).prop_map(|(course, end, was)| Struck {
        course: number(course),
        end,
        was: Reading::new(was).unwrap(),
    })
}

fn said() -> impl Strategy<Value = Vec<SheetSaid>> {
    let one = (
        course(),
        proptest::sample::subsequence(CourseFigure::ALL.to_vec(), 0..=4),
    )
        .prop_map(|(course, mut two)| {
            let course = Course {
                to: None,
                reads_to: None,
                trip: None,
                ..course
            };
            two.retain(|figure| figure.of(&course).is_some());
            SheetSaid { course, two }
        });
    proptest::collection::vec(one, 0..4).prop_map(|mut said| {
        said.sort_by_key(|said| said.course.number);
        said.dedup_by_key(|said| said.course.number);
        said
    })
}

fn edge() -> impl Strategy<Value = Edge> {
    let optional = proptest::option::of;
    let courses = proptest::collection::vec(course(), 0..6);
    let about = (roof(), optional(name()), optional(name()));
    let answers = (
        proptest::collection::vec(set_aside(), 0..3),
        proptest::collection::vec(struck(), 0..3),
        said(),
    );
    let exceptions = (
        proptest::option::of(select(ReadTo::ALL.to_vec())),
        proptest::option::of(select(TapeEnd::ALL.to_vec())),
    );
    (
        name(),
        edge_kind(),
        hand(),
        about,
        courses,
        answers,
        exceptions,
    )
        .prop_map(
            |(name, kind, hand, (roof, plane, lot), courses, answers, exceptions)| {
                let mut edge = Edge::new(EdgeId(1), name, kind, hand);
                (edge.roof, edge.plane, edge.lot) = (roof, plane, lot);
                (edge.set_aside, edge.struck, edge.said) = answers;
                edge.reads_to = exceptions.0;
                edge.tape_end = exceptions.1;
                for course in courses {
                    edge.put(course);
                }
                edge
            },
        )
}

fn spec() -> impl Strategy<Value = PieceSpec> {
    let lengths = (
        length(-9_000, 100_000),
        length(-9_000, 100_000),
        length(1, 2_000),
        length(0, 600_000),
        length(200, 5_000),
        length(50, 2_000),
        proptest::option::of(length(1, 2_000)),
    );
    (edge_kind(), hand(), lengths).prop_map(|(kind, hand, lengths)| {
        let (at_nose, at_rise, rise, allowance, width, height, across) = lengths;
        PieceSpec {
            kind,
            hand,
            bend: SkewLine {
                at_nose,
                at_rise,
                rise,
            },
            allowance,
            panel: Panel { width, height },
            across,
            near: None,
        }
    })
}

/// A piece with, at times, a near end to another edge as well.
fn marked_spec() -> impl Strategy<Value = (PieceId, PieceSpec)> {
    let near = (
        edge_kind(),
        length(-9_000, 100_000),
        length(-9_000, 100_000),
        length(0, 600_000),
        any::<bool>(),
    );
    (any_piece(), spec(), proptest::option::of(near)).prop_map(|(piece, mut spec, near)| {
        spec.near = near.map(|(kind, at_nose, at_rise, allowance, stands_near)| {
            let mut edges = [piece.edge, EdgeId(5 - piece.edge.0)];
            if !stands_near {
                edges.reverse();
            }
            let rise = spec.bend.rise;
            let bend = SkewLine {
                at_nose,
                at_rise,
                rise,
            };
            NearEnd {
                edges,
                kind,
                bend,
                allowance,
            }
        });
        (piece, spec)
    })
}

fn any_piece() -> impl Strategy<Value = PieceId> {
    (1_u32..=4, 1_u32..=99_999, 1_u32..=9)
        .prop_map(|(edge, course, number)| piece(EdgeId(edge), course, number))
}

/// What panels and offcuts are numbered with.
const MOST: u32 = 1_000_000_000;

fn offcut_number() -> impl Strategy<Value = OffcutNumber> {
    (1..=MOST).prop_map(OffcutNumber)
}

fn any_offcut() -> impl Strategy<Value = Offcut> {
    (spec(), hand()).prop_map(|(spec, whole)| Offcut {
        whole,
        panel: spec.panel,
        limit: spec.bend,
    })
}

fn stock() -> impl Strategy<Value = MarkedStock> {
    let panel = proptest::option::of(1..=MOST);
    prop_oneof![
        (1..=MOST).prop_map(|panel| MarkedStock::New { panel }),
        (offcut_number(), panel).prop_map(|(offcut, panel)| MarkedStock::Offcut { offcut, panel }),
    ]
}

fn rest() -> impl Strategy<Value = CutRest> {
    prop_oneof![
        (offcut_number(), any_piece())
            .prop_map(|(offcut, promised)| CutRest::Kept { offcut, promised }),
        Just(CutRest::Waste),
    ]
}

fn saved() -> impl Strategy<Value = SavedOffcut> {
    (offcut_number(), any_offcut(), any_piece()).prop_map(|(number, offcut, promised)| {
        SavedOffcut {
            number,
            offcut,
            promised,
        }
    })
}

fn fact() -> impl Strategy<Value = Fact> {
    prop_oneof![bench_fact(), rack_fact()]
}

fn written() -> impl Strategy<Value = Option<WrittenCourse>> {
    let written = (1_u32..=99_999, 0_u8..3).prop_map(|(course, before)| WrittenCourse {
        course: number(course),
        before,
    });
    proptest::option::of(written)
}

fn bench_fact() -> impl Strategy<Value = Fact> {
    let lot = proptest::option::of(name());
    let named = proptest::option::of(name());
    let saved = proptest::collection::vec(saved(), 0..3);
    let why = proptest::option::of(select(SpoiledBy::ALL.to_vec()));
    prop_oneof![
        (marked_spec(), stock(), lot, written()).prop_map(
            |((piece, spec), stock, lot, written)| Fact::Marked {
                written,
                piece,
                spec: Box::new(spec),
                stock,
                lot,
            }
        ),
        any_piece().prop_map(Fact::FirstCut),
        (any_piece(), rest()).prop_map(|(piece, rest)| Fact::Cut { piece, rest }),
        any_piece().prop_map(Fact::Bent),
        any_piece().prop_map(Fact::Stacked),
        (any_piece(), saved, why).prop_map(|(piece, saved, why)| Fact::Spoiled {
            piece,
            saved,
            why
        }),
        (1_u32..=4, length(-100, 100)).prop_map(|(edge, by)| Fact::Corrected {
            edge: EdgeId(edge),
            by
        }),
        (1_u32..=4, 1_u32..9, any::<bool>()).prop_map(|(edge, course, corrected)| {
            Fact::ReadAgain {
                edge: EdgeId(edge),
                course: CourseNumber::new(course).unwrap(),
                corrected,
            }
        }),
        misfit_fact(),
        Just(Fact::Paused),
        (offcut_number(), length(-100, 100), length(-100, 100), named).prop_map(
            |(offcut, at_nose, at_back, lot)| Fact::Measured {
                offcut,
                at_nose,
                at_back,
                lot,
            }
        ),
    ]
}

fn misfit_fact() -> impl Strategy<Value = Fact> {
    let lines = (marked_spec(), proptest::option::of(marked_spec()));
    let asked = lines.prop_map(|((_, spec), near)| Asked::Lines {
        bend: spec.bend,
        near: near.map(|(_, spec)| spec.bend),
    });
    let asked = prop_oneof![asked, Just(Asked::Otherwise)];
    let kept = proptest::option::of(saved());
    prop_oneof![
        (any_piece(), kept).prop_map(|(piece, kept)| Fact::TakenBack { piece, kept }),
        (any_piece(), marked_spec()).prop_map(|(piece, (_, spec))| Fact::BendStruck {
            piece,
            bend: spec.bend
        }),
        (any_piece(), asked).prop_map(|(piece, asked)| Fact::Stays { piece, asked }),
    ]
}

fn rack_fact() -> impl Strategy<Value = Fact> {
    let lot = proptest::option::of(name());
    let by = select(vec![GoneBy::Thrown, GoneBy::Used]);
    let piece = proptest::option::of(any_piece());
    prop_oneof![
        (offcut_number(), any_offcut(), lot).prop_map(|(number, offcut, lot)| Fact::Found {
            number,
            offcut,
            lot
        }),
        (offcut_number(), by).prop_map(|(offcut, by)| Fact::Gone { offcut, by }),
        (offcut_number(), piece).prop_map(|(offcut, piece)| Fact::Promised { offcut, piece }),
    ]
}

fn event() -> impl Strategy<Value = BenchEvent> {
    let at = proptest::option::of(any::<i64>());
    (at, any::<bool>(), fact()).prop_map(|(at, joined, fact)| BenchEvent {
        at: at.map(Utc),
        joined,
        fact,
    })
}

/// Any job at all.
pub(crate) fn any_job() -> impl Strategy<Value = Job> {
    let edges = proptest::collection::vec(edge(), 0..5);
    let events = proptest::collection::vec(event(), 0..8);
    let spare = 0_u32..1_000;
    (name(), settings(), edges, events, spare).prop_map(
        |(name, settings, mut edges, events, spare)| {
            for (id, edge) in (1..).zip(&mut edges) {
                edge.id = EdgeId(id);
                let courses = edge.courses().to_vec().into_iter();
                // No course runs to its own edge.
                edge.put_all(courses.map(|course| Course {
                    to: course.to.filter(|to| *to != EdgeId(id)),
                    ..course
                }));
            }
            edges.reverse();
            // Ids 1 to 4 are given out whatever edges are still there.
            Job::from_parts(name, settings, edges, 5 + spare, events).unwrap()
        },
    )
}

/// A setting left at its default may not be written at all, so nothing else would
/// ask for it.
#[test]
fn no_setting_of_the_full_job_is_as_a_new_job_has_it() {
    let (full, new) = (full_job().settings, Settings::default());
    for setting in Setting::ALL.map(|setting| setting.in_use(&full)) {
        assert_ne!(setting.text(&full), setting.text(&new), "{setting:?}");
    }
}

/// What is written in a file is explained on its page: a new field is asked for.
#[test]
fn the_page_of_the_job_file_names_every_field() {
    let page = include_str!("../../docs/job-file.md");
    let text =
        String::from_utf8(bendmark::storage::job_file::encode(&full_job()).unwrap()).unwrap();
    let is_part = |c: char| c.is_alphanumeric() || c == '_';
    let named: BTreeSet<&str> = page
        .split('`')
        .skip(1)
        .step_by(2)
        .flat_map(|code| code.split(|c| !is_part(c)))
        .collect();
    let mut missing = BTreeSet::new();
    for (at, _) in text.match_indices(": ") {
        let before = &text[..at];
        let start = before.rfind(|c: char| !is_part(c));
        let field = &before[start.map_or(0, |start| start + 1)..];
        // A choice begins with a capital.
        let is_field = field.starts_with(|c: char| c.is_ascii_lowercase());
        if is_field && !named.contains(field) {
            missing.insert(field.to_owned());
        }
    }
    assert!(
        missing.is_empty(),
        "docs/job-file.md does not name {missing:?}"
    );
}
