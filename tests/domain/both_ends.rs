//! Pieces cut at both ends, worked by hand, for both tape sides and both blades.
//!
//! W 48, exposure and panel height 14, allowance 2, no clearance, five courses
//! at each edge that lean 12 1/2 over 14, unless a case says otherwise. The
//! course stands at the far edge, whose hand is the tape's side then.
//!
//! Over 400 lines: the cases and what each goes through.

use crate::support::{Program, drawn, drops};
use bendmark::domain::{
    bench::Progress,
    cutting::{CutList, CutNow, CutPiece, Job, Note, notes_of},
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Length, NM_PER_INCH, Name, Polygon},
    piece::{At, CourseTrouble, Ends, LineAt, Marks},
    roof::EdgeKind::{self, Hip, Rake, Valley},
    settings::{Allowance, RawSettings, Setting, Settings},
};
use bendmark::sheet::{json::json, rows::Rows};
use bendmark::storage::job_file::{decode, encode};
use bendmark::storage::readings::import;

/// A case; lengths in inches, whole or with a fraction of any denominator.
struct Case {
    name: &'static str,
    near: (EdgeKind, &'static str),
    far: (EdgeKind, &'static str),
    panel_height: &'static str,
    clearance: &'static str,
    /// The course's own height and the ridge's turn-up.
    short: Option<(&'static str, &'static str)>,
    bottom: &'static str,
    /// The top, or `meet` and how far up the boards do.
    top: &'static str,
    /// Near cut, near bend, far bend, far cut: the nose end, then the back end.
    marks: [&'static str; 4],
    /// Square inches, where they were worked out.
    kept: Option<&'static str>,
    tip: Option<&'static str>,
}

const USUAL: Case = Case {
    name: "",
    near: (Hip, "12 1/2"),
    far: (Hip, "12 1/2"),
    panel_height: "14",
    clearance: "0",
    short: None,
    bottom: "",
    top: "",
    marks: [""; 4],
    kept: None,
    tip: None,
};

// Over 60 lines: one case after another.
fn cases() -> Vec<Case> {
    vec![
        Case {
            name: "40, 15",
            bottom: "40",
            top: "15",
            // d1 = d2 = 12 1/2; x0 = 2. Kept: (44 + 31 1/2 - 12 1/2) / 2 * 14 = 441.
            marks: [
                "nose 0, back 12 1/2",
                "nose 2, back 14 1/2",
                "nose 42, back 29 1/2",
                "nose 44, back 31 1/2",
            ],
            kept: Some("441"),
            ..USUAL
        },
        Case {
            name: "40 1/2, 15 1/2, clearance 1/4 at either end",
            clearance: "1/4",
            bottom: "40 1/2",
            top: "15 1/2",
            marks: [
                "nose 0, back 12 1/2",
                "nose 2, back 14 1/2",
                "nose 42, back 29 1/2",
                "nose 44, back 31 1/2",
            ],
            kept: Some("441"),
            ..USUAL
        },
        Case {
            name: "far lean 9",
            far: (Hip, "9"),
            bottom: "40",
            top: "18 1/2",
            marks: [
                "nose 0, back 12 1/2",
                "nose 2, back 14 1/2",
                "nose 42, back 33",
                "nose 44, back 35",
            ],
            kept: Some("465 1/2"),
            ..USUAL
        },
        Case {
            name: "far lean 9, a top 1/2 less: 1/4 to each end",
            far: (Hip, "9"),
            bottom: "40",
            top: "18",
            marks: [
                "nose 0, back 12 3/4",
                "nose 2, back 14 3/4",
                "nose 42, back 32 3/4",
                "nose 44, back 34 3/4",
            ],
            ..USUAL
        },
        Case {
            name: "panel height 15",
            panel_height: "15",
            bottom: "40",
            top: "15",
            marks: [
                "nose 0, back 13 11/28",
                "nose 2, back 15 11/28",
                "nose 42, back 28 17/28",
                "nose 44, back 30 17/28",
            ],
            ..USUAL
        },
        Case {
            name: "near rake",
            near: (Rake, ""),
            bottom: "30",
            top: "17 1/2",
            marks: [
                "none",
                "nose 2, back 2",
                "nose 32, back 19 1/2",
                "nose 34, back 21 1/2",
            ],
            kept: Some("388 1/2"),
            ..USUAL
        },
        Case {
            name: "hip, far valley",
            far: (Valley, "-12 1/2"),
            bottom: "28",
            top: "28",
            marks: [
                "nose 0, back 12 1/2",
                "nose 2, back 14 1/2",
                "nose 30, back 42 1/2",
                "nose 32, back 44 1/2",
            ],
            ..USUAL
        },
        Case {
            name: "valley, far hip",
            near: (Valley, "-12 1/2"),
            bottom: "28",
            top: "28",
            marks: [
                "nose 12 1/2, back 0",
                "nose 14 1/2, back 2",
                "nose 42 1/2, back 30",
                "nose 44 1/2, back 32",
            ],
            ..USUAL
        },
        Case {
            name: "far valley 34, 34: both legs taper",
            far: (Valley, "-12 1/2"),
            bottom: "34",
            top: "34",
            // The far cut would pass 48 by 2 1/2: all moves 1 1/4 to the tape.
            marks: [
                "hand side 1 2/5, back 11 1/4",
                "nose 3/4, back 13 1/4",
                "nose 34 3/4, back 47 1/4",
                "nose 36 3/4, far side 12 3/5",
            ],
            ..USUAL
        },
        Case {
            name: "46, 21",
            bottom: "46",
            top: "21",
            marks: [
                "hand side 1 3/25, back 11 1/2",
                "nose 1, back 13 1/2",
                "nose 47, back 34 1/2",
                "far side 1 3/25, back 36 1/2",
            ],
            ..USUAL
        },
        Case {
            name: "a triangle",
            clearance: "1/4",
            bottom: "20",
            top: "meet 11 1/5",
            // wb 19 1/2, wt -5 1/2: the bends meet 19 1/2 * 14 / 25 up.
            marks: [
                "nose 0, back 12 1/2",
                "nose 2, back 14 1/2",
                "nose 21 1/2, back 9",
                "nose 23 1/2, back 11",
            ],
            kept: Some("150.15"),
            tip: Some("10 23/25"),
            ..USUAL
        },
        Case {
            name: "short, with a ridge turn-up",
            short: Some(("7", "1")),
            bottom: "30",
            top: "17 1/2",
            marks: [
                "nose 0, back 6 1/4",
                "nose 2, back 8 1/4",
                "nose 32, back 25 3/4",
                "nose 34, back 27 3/4",
            ],
            ..USUAL
        },
    ]
}

/// Exact, then to the nearest nanometre.
fn inches(text: &str) -> Length {
    let (sign, text) = text.strip_prefix('-').map_or((1, text), |text| (-1, text));
    let mut nm = 0;
    for part in text.split(' ') {
        if let Some((over, under)) = part.split_once('/') {
            let (over, under): (i64, i64) = (over.parse().unwrap(), under.parse().unwrap());
            nm += (2 * over * NM_PER_INCH + under) / (2 * under);
        } else {
            nm += part.parse::<i64>().unwrap() * NM_PER_INCH;
        }
    }
    Length::from_nm(sign * nm)
}

fn read(length: Length) -> Option<Reading> {
    Some(Reading::new(length).unwrap())
}

fn number(course: u32) -> CourseNumber {
    CourseNumber::new(course).unwrap()
}

/// The far edge is edge 1, the near one edge 2; course 9 runs from board to
/// board.
fn job(case: &Case, tape: Hand, blade: Hand) -> Job {
    let mut raw = RawSettings {
        exposure: Length::from_inches(14),
        panel_height: Some(inches(case.panel_height)),
        blade,
        ..RawSettings::default()
    };
    raw.ridge_turn_up = case.short.map_or(Length::ZERO, |(_, up)| inches(up));
    for kind in EdgeKind::ALL {
        raw.kinds[kind].clearance = inches(case.clearance);
        raw.kinds[kind].allowance = Allowance::Along(Length::from_inches(2));
    }
    let mut job = Job::new(Name::or(case.name, "case"), Settings::checked(raw).unwrap());
    for ((kind, step), hand) in [(case.far, tape), (case.near, tape.other())] {
        let id = job.add_edge(Name::or(hand.word(), "?"), kind, hand);
        if step.is_empty() {
            continue;
        }
        for course in 1..=5 {
            // Wide enough to share no panel: nothing turns the piece then.
            let (wide, step) = (Length::from_inches(45), inches(step));
            let bottom = wide + step.min(Length::ZERO);
            let course = Course::unread(number(course))
                .with(End::Bottom, read(bottom))
                .with(End::Top, read(bottom - step));
            job.edge_mut(id).unwrap().put(course);
        }
    }
    let meet = case.top.strip_prefix("meet ");
    let course = Course {
        bottom: read(inches(case.bottom)),
        top: meet.map_or_else(|| read(inches(case.top)), |_| None),
        runs_out: meet.and_then(|up| read(inches(up))),
        height: case.short.and_then(|(height, _)| read(inches(height))),
        to: Some(EdgeId(2)),
        ..Course::unread(number(9))
    };
    job.edge_mut(EdgeId(1)).unwrap().put(course);
    job
}

/// The same log as a spreadsheet has it; the tape shows decimals of an inch.
fn csv(case: &Case, tape: Hand) -> String {
    let mut csv = "edge,kind,hand,course,bottom,top,height,to\n".to_owned();
    let tenth = |text: &str| {
        let nm = inches(text).nm();
        assert_eq!(nm * 1_000 % NM_PER_INCH, 0, "{text}");
        let thousandths = nm * 1_000 / NM_PER_INCH;
        format!("{}.{:03}", thousandths / 1_000, thousandths % 1_000)
    };
    for ((kind, step), hand) in [(case.far, tape), (case.near, tape.other())] {
        let (name, kind) = (hand.word(), kind.word());
        if hand == tape {
            let top = case.top.strip_prefix("meet ");
            let top = top.map_or_else(|| tenth(case.top), |up| format!("meet {}", tenth(up)));
            let height = case
                .short
                .map_or(String::new(), |(height, _)| tenth(height));
            let (bottom, to) = (tenth(case.bottom), tape.other().word());
            csv += &format!("{name},{kind},{name},9,{bottom},{top},{height},{to}\n");
        }
        if step.is_empty() {
            csv += &format!("{name},{kind},{name},1,,,,\n");
            continue;
        }
        let (bottom, top) = match step.strip_prefix('-') {
            Some(wider) => (45.0 - number_of(wider), 45.0),
            None => (45.0, 45.0 - number_of(step)),
        };
        for course in 1..=5 {
            csv += &format!("{name},{kind},{name},{course},{bottom},{top},,\n");
        }
    }
    csv
}

fn number_of(text: &str) -> f64 {
    inches(text).mm() / 25.4
}

fn both(list: &CutList) -> &CutPiece {
    let mut pieces = list.pieces.iter();
    pieces.find(|piece| piece.spec.near.is_some()).unwrap()
}

fn words(ends: Option<Ends>) -> String {
    let mark = |mark: bendmark::domain::piece::Mark| (mark.at.word(), mark.position);
    format!("{:?}", ends.map(|ends| ends.map(mark)))
}

fn expected(text: &str) -> String {
    let marks: Vec<_> = text
        .split(", ")
        .filter_map(|mark| {
            let digit = mark.find(|c: char| c.is_ascii_digit())?;
            Some((mark[..digit].trim(), inches(&mark[digit..])))
        })
        .collect();
    let ends: Option<[_; 2]> = marks.try_into().ok();
    format!("{ends:?}")
}

fn square_inches(area: bendmark::domain::measure::Area) -> f64 {
    area.mm2() / 645.16
}

#[test]
fn every_case_comes_out_for_both_tape_sides_and_both_blades() {
    for case in cases() {
        for (tape, blade) in [
            (Hand::Left, Hand::Right),
            (Hand::Right, Hand::Right),
            (Hand::Left, Hand::Left),
            (Hand::Right, Hand::Left),
        ] {
            let job = job(&case, tape, blade);
            let place = format!(
                "{}, tape {}, blade {}",
                case.name,
                tape.word(),
                blade.word()
            );
            check_core(&case, tape, &job, &place);
            let again = decode(&encode(&job).unwrap()).unwrap().job;
            assert_eq!(again, job, "{place}");
            let empty = Job::new(job.name.clone(), job.settings);
            let imported = import(&empty, csv(&case, tape).as_bytes()).unwrap().job;
            for (ours, theirs) in job.edges().iter().zip(imported.edges()) {
                assert_eq!(ours.courses(), theirs.courses(), "{place}");
            }
            check_sheet(&case, tape, &job, &place);
            check_bench(tape, &job, &place);
        }
    }
}

fn check_core(case: &Case, tape: Hand, job: &Job, place: &str) {
    let list = CutList::of(job, &Progress::default());
    assert_eq!(list.empty, [], "{place}");
    let piece = both(&list);
    assert_eq!(piece.spec.hand, tape, "{place}");
    let marks = Marks::of(&piece.spec);
    let near = marks.near.as_ref().unwrap();
    let found = [near.cut, near.bend, marks.bend, marks.cut].map(words);
    assert_eq!(found, case.marks.map(expected), "{place}");
    assert_eq!(near.tip, case.tip.map(inches), "{place}");
    if let Some(kept) = case.kept {
        let found = square_inches(marks.kept.area());
        let (whole, fraction) = kept.split_once(' ').unwrap_or((kept, "0/1"));
        let (over, under) = fraction.split_once('/').unwrap();
        let numbers = [whole, over, under].map(|text| text.parse::<f64>().unwrap());
        let kept = numbers[0] + numbers[1] / numbers[2];
        assert!((found - kept).abs() < 1e-6, "{place}: {found} for {kept}");
    }
    // What is kept and what each cut takes off make up the panel, but for a tip.
    let whole = Polygon::rectangle(piece.spec.panel.width, piece.spec.panel.height).area();
    let parts = marks.kept.area() + marks.left.area() + near.left.area();
    if near.tip.is_none() {
        assert!((whole - parts).mm2().abs() < 1e-3, "{place}");
    } else {
        assert!(parts < whole, "{place}");
    }
}

fn check_sheet(case: &Case, tape: Hand, job: &Job, place: &str) {
    let sheet: serde_json::Value = serde_json::from_str(&json(&Rows::of(job))).unwrap();
    let pieces = sheet["pieces"].as_array().unwrap();
    let piece = pieces.iter().find(|piece| piece["course"] == 9).unwrap();
    assert_eq!(piece["hand"], tape.word(), "{place}");
    assert_eq!(piece["to"], tape.other().word(), "{place}");
    assert_eq!(piece["kind"], case.far.0.word(), "{place}");
    let ends = |line: &str, end: &str| {
        let marks = piece[line].as_array().unwrap().iter();
        let marks = marks.filter(|mark| mark["end"] == end);
        let marks: Vec<_> = marks
            .map(|mark| {
                let mm = mark["mm"].as_f64().unwrap();
                (mark["at"].as_str().unwrap(), Length::rounded_from_mm(mm))
            })
            .collect();
        let ends: Option<[_; 2]> = marks.try_into().ok();
        format!("{ends:?}")
    };
    let found = [
        ends("cut", "near"),
        ends("bend", "near"),
        ends("bend", "far"),
        ends("cut", "far"),
    ];
    assert_eq!(found, case.marks.map(expected), "{place}");
}

/// Two pages for the marks, a key for each cut, two pages for the bends.
fn check_bench(tape: Hand, job: &Job, place: &str) {
    let mut program = Program::with(job.clone());
    let list = CutList::of(job, &Progress::default());
    let id = both(&list).id;
    let label = program.state.open.as_ref().unwrap().labels.piece(id);
    assert!(label.contains('+') && label.ends_with("-9"), "{label}");
    let digits = label.split('-').next().unwrap()[1..2].to_owned() + "-9";
    program.press(&format!("<f4><enter>/{digits}<enter>"));
    let spec = program.state.piece_in_hand().unwrap().spec;
    assert!(spec.near.is_some(), "{place}");
    let marks = Marks::of(&spec);
    if program.screen(80, 24).contains("ACROSS FIRST") {
        program.press("<enter>");
    }
    let side = format!("YOUR {}", tape.word().to_uppercase());
    for line in marks.lines() {
        let first = if line.at == LineAt::Near { 1 } else { 5 };
        let screen = program.screen(80, 24);
        // A doubt has its mark where the words stand.
        let said = screen.contains(&side) || screen.contains("DOUBTFUL");
        assert!(said, "{place}\n{screen}");
        for (number, mark) in (first..).zip(line.bend.unwrap()) {
            let upper = spec.across.is_some_and(|across| across > spec.panel.height);
            let word = match mark.at {
                At::Back if upper => "AT 7 UP".to_owned(),
                at => at.said().to_uppercase(),
            };
            let words = format!("{word}  bend {number}, ");
            assert!(screen.contains(&words), "{words}: {place}\n{screen}");
        }
        if line.cut.is_some() {
            let cut = format!("cut {}, ", first + 2);
            assert!(screen.contains(&cut), "{cut}: {place}\n{screen}");
        }
        program.press("<enter>");
    }
    for made in [false, true].into_iter().take(marks.cuts().len()) {
        let piece = program.state.piece_in_hand().unwrap().clone();
        assert_eq!(piece.first_cut, made, "{place}");
        let cut = CutNow::of(&spec, piece.stock.offcut(), made).unwrap();
        assert_eq!(piece.cut_now(), Some(cut.clone()), "{place}");
        let screen = program.screen(80, 24);
        let drops = drawn(drops(cut.lie(job.settings.blade).on_table));
        assert!(screen.contains(&drops), "{place}\n{screen}");
        program.press("<enter>");
    }
    program.press("<enter><enter><enter>");
    let open = program.state.open.as_ref().unwrap();
    let done = open.progress.done(id).unwrap();
    assert!(done.first_cut == (marks.cuts().len() > 1), "{place}");
    assert!(done.cut && done.bent && done.stacked, "{place}");
}

#[test]
fn two_lines_that_need_more_than_a_panel_are_refused_with_what_they_need() {
    let case = Case {
        far: (Valley, "-12 1/2"),
        bottom: "36",
        top: "36",
        ..USUAL
    };
    for tape in Hand::BOTH {
        let list = CutList::of(&job(&case, tape, Hand::Right), &Progress::default());
        let why = list.empty.first().map(|empty| empty.why);
        let needs = inches("48 1/2");
        assert_eq!(why, Some(CourseTrouble::TooWide { needs }));
    }
}

/// Under the job's least flat between two bends the bender has no hold.
#[test]
fn where_the_flat_gets_too_narrow_it_is_bent_by_hand() {
    let case = Case {
        bottom: "40",
        top: "15",
        ..USUAL
    };
    let mut job = job(&case, Hand::Left, Hand::Right);
    let by_hand = |job: &Job| {
        let list = CutList::of(job, &Progress::default());
        let piece = both(&list);
        let notes = notes_of(piece, &Marks::of(&piece.spec), &job.settings);
        notes.into_iter().find_map(|note| match note {
            Note::BendByHand(up) => {
                Some(note.words(Hip, job.settings.division) + &format!(" {up:?}"))
            }
            _ => None,
        })
    };
    assert_eq!(by_hand(&job), None);
    // 40 - 25 y / 14 is 20 at 11 1/5 up.
    job.settings = Setting::LeastFlat.set(&job.settings, "20").unwrap();
    let words = by_hand(&job).unwrap();
    let expected = format!("from 11 3/16 in up: bend by hand {:?}", inches("11 1/5"));
    assert_eq!(words, expected);
    job.settings = Setting::LeastFlat.set(&job.settings, "15").unwrap();
    assert_eq!(by_hand(&job), None);
}
