//! Runs every case of `tests/domain/cases/pieces.txt`, for both hands.
//!
//! A check is a function that gets the case, the hand and the job built from
//! its rows: the core's own figures, then the same through the files, the sheet
//! and the screen.
//!
//! Over 400 lines: one check after another on the same cases.

mod lie;
mod table;

use crate::support::{drawn, drops};
use bendmark::domain::{
    bench::{Fact, MarkedStock, Progress, Stage},
    cutting::{CutList, Fit, Job},
    log::{Course, CourseNumber, EdgeId, Reading},
    measure::{Hand, Name},
    piece::{At, Ends, Lie, Marks, PieceId, PieceSpec, length_mm},
    roof::EdgeKind,
    tape::parse,
};
use bendmark::sheet::{json::json, rows::Rows};
use bendmark::storage::job_file::{decode, encode};
use bendmark::storage::readings::import;
use table::{Case, Piece, cases, number};

/// What every case goes through.
const CHECKS: [fn(&Case, Hand, &Job); 5] = [
    check_core,
    check_files,
    check_sheet,
    check_screen,
    check_lie,
];

#[test]
fn every_case_comes_out_as_worked_by_hand_for_both_hands() {
    let cases = cases();
    assert!(cases.len() >= 35, "only {} cases were read", cases.len());
    for case in &cases {
        for hand in Hand::BOTH {
            let job = job(case, hand);
            for check in CHECKS {
                check(case, hand, &job);
            }
        }
    }
}

/// Every kind of piece is in the table, so that no later change drops one.
#[test]
fn the_table_has_every_kind_of_edge_mark_and_lie() {
    let text = include_str!("cases/pieces.txt");
    for word in [
        "log   hip",
        "log   valley",
        "log   rake",
        "bend none",
        "cut none",
        "bend far-side",
        "bend hand-side",
        "table kept",
        "table offcut",
        "table none",
        "across",
        "by    ",
        "turn-up 1.6",
        "tape-end hard",
        "read-to panel-edge",
        "blade left",
        "panel-height",
    ] {
        assert!(text.contains(word), "{word}");
    }
}

/// The derivations stand on cases: each one they name is in the table.
#[test]
fn every_case_named_in_the_formulas_is_in_the_table() {
    let names: Vec<_> = cases().into_iter().map(|case| case.name).collect();
    let text = include_str!("../../docs/formulas.md").replace('\n', " ");
    let mut count = 0;
    // Without case: a sentence may begin with it.
    for part in text.to_lowercase().split("*case* \"").skip(1) {
        let (quoted, _) = part.split_once('"').unwrap();
        let named = |name: &String| name.to_lowercase().contains(quoted);
        assert!(names.iter().any(named), "{quoted}");
        count += 1;
    }
    assert!(count >= 10, "only {count} found");
}

/// What was marked before the correction was said keeps its figures.
#[test]
fn a_correction_touches_only_pieces_not_yet_marked() {
    let case = Case {
        log: vec!["hip, 1, 24, 12".to_owned(), "hip, 2, 36, 24".to_owned()],
        ..Case::default()
    };
    let mut job = job(&case, Hand::Left);
    let first = CutList::of(&job, &Progress::default());
    let done = &first.pieces[0];
    let spec = Box::new(done.spec);
    let marked = Fact::Marked {
        written: None,
        piece: done.id,
        spec,
        stock: MarkedStock::New { panel: 1 },
        lot: None,
    };
    job.record(vec![marked], None);
    let (edge, by) = (EdgeId(1), case.length("1/8"));
    job.record(vec![Fact::Corrected { edge, by }], None);
    let then = CutList::of(&job, &Progress::of(job.events()));
    assert_eq!(then.pieces[0].spec, done.spec);
    assert_eq!(
        then.pieces[1].spec.bend,
        first.pieces[1].spec.bend.moved(by)
    );
}

/// A correction is no slip; a short course's height that was put right is one.
#[test]
fn what_was_marked_otherwise_is_told_from_what_was_corrected_since() {
    let case = Case {
        log: vec!["hip, 1, 24, 12".to_owned(), "hip, 2, 20, 14, 7".to_owned()],
        ..Case::default()
    };
    let mut job = job(&case, Hand::Left);
    let list = CutList::of(&job, &Progress::default());
    for (panel, piece) in (1..).zip(&list.pieces) {
        let marked = Fact::Marked {
            written: None,
            piece: piece.id,
            spec: Box::new(piece.spec),
            stock: MarkedStock::New { panel },
            lot: None,
        };
        job.record(vec![marked], None);
    }
    let by = case.length("1/2");
    job.record(
        vec![Fact::Corrected {
            edge: EdgeId(1),
            by,
        }],
        None,
    );
    let fits = |job: &Job| -> Vec<Fit> {
        let list = CutList::of(job, &Progress::of(job.events()));
        list.pieces.iter().map(|piece| piece.fit.clone()).collect()
    };
    assert_eq!(fits(&job), [Fit::AsAsked, Fit::AsAsked]);
    let course = Course {
        height: Some(Reading::parse("9", case.settings.unit()).unwrap()),
        ..*job
            .edge(EdgeId(1))
            .unwrap()
            .course(CourseNumber::new(2).unwrap())
            .unwrap()
    };
    job.edge_mut(EdgeId(1)).unwrap().put(course);
    let now = fits(&job);
    let misfits = now.iter().filter(|fit| fit.misfit().is_some());
    assert_eq!(misfits.count(), 1, "{now:?}");
    assert!(now.contains(&Fit::AsAsked), "{now:?}");
}

/// The job that the case's rows make, its correction said.
fn job(case: &Case, hand: Hand) -> Job {
    let mut job = Job::new(Name::or(&case.name, "case"), case.settings);
    let text = case.csv(hand);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    for row in reader.records() {
        let row = row.unwrap();
        let name = Name::or(&row[0], "edge");
        let kind = EdgeKind::ALL
            .into_iter()
            .find(|kind| kind.word() == &row[1]);
        let known = job.edges().iter().find(|edge| edge.name == name);
        let known = known.map(|edge| edge.id);
        let id = known.unwrap_or_else(|| job.add_edge(name, kind.expect("a kind"), hand));
        let course = course(case, row.iter().skip(3));
        job.edge_mut(id).unwrap().put(course);
    }
    if let Some(by) = &case.by {
        let edge = EdgeId(1);
        let by = parse(by, case.settings.unit()).unwrap();
        job.record(vec![Fact::Corrected { edge, by }], None);
    }
    job
}

fn course<'a>(case: &Case, mut cells: impl Iterator<Item = &'a str>) -> Course {
    let number = cells.next().unwrap().parse().unwrap();
    let mut course = Course::unread(CourseNumber::new(number).unwrap());
    let mut read = || {
        let cell = cells.next().filter(|cell| !cell.is_empty())?;
        Some(Reading::parse(cell, case.settings.unit()).unwrap())
    };
    course.bottom = read();
    course.top = read();
    course.height = read();
    course.runs_out = read();
    course
}

/// The core's own figures, from the cutting list down to the marks.
fn check_core(case: &Case, hand: Hand, job: &Job) {
    let list = CutList::of(job, &Progress::of(job.events()));
    let place = format!("{} ({} hand)", case.name, hand.word());
    for expected in &case.pieces {
        let id = PieceId {
            edge: EdgeId(1),
            course: CourseNumber::new(expected.course).unwrap(),
            number: expected.number,
        };
        let found = list
            .piece(id)
            .unwrap_or_else(|| panic!("{place}: no piece {id:?}"));
        assert_eq!(found.spec.hand, hand, "{place}");
        check_piece(case, &place, expected, &found.spec);
    }
    assert_eq!(list.pieces.len(), case.pieces.len(), "{place}: {list:?}");
    let division = case.settings.division;
    let none = list
        .empty
        .iter()
        .map(|empty| (empty.course.get(), empty.why.words(division)));
    assert_eq!(none.collect::<Vec<_>>(), case.none, "{place}");
}

/// The job survives its file, and the same log comes in as CSV.
fn check_files(case: &Case, hand: Hand, job: &Job) {
    let decoded = decode(&encode(job).unwrap()).unwrap();
    assert_eq!(decoded.job, *job, "{}", case.name);
    let empty = Job::new(Name::or(&case.name, "case"), case.settings);
    let mut imported = import(&empty, case.csv(hand).as_bytes()).unwrap().job;
    // What the sheet said is kept too; the job was typed.
    for edge in job.edges() {
        imported.edge_mut(edge.id).unwrap().said.clear();
    }
    assert_eq!(imported.edges(), job.edges(), "{}", case.name);
}

/// The JSON sheet has the marks, the lie and the areas worked by hand.
fn check_sheet(case: &Case, hand: Hand, job: &Job) {
    let sheet: serde_json::Value = serde_json::from_str(&json(&Rows::of(job))).unwrap();
    let pieces = sheet["pieces"].as_array().unwrap();
    assert_eq!(pieces.len(), case.pieces.len(), "{}", case.name);
    for expected in &case.pieces {
        let place = format!("{}, {}.{}", case.name, expected.course, expected.number);
        let piece = pieces
            .iter()
            .find(|piece| piece["course"] == expected.course && piece["piece"] == expected.number)
            .unwrap_or_else(|| panic!("{place}: not on the sheet"));
        assert_eq!(piece["hand"], hand.word(), "{place}");
        for (what, text) in &expected.parts {
            match what.as_str() {
                "bend" | "cut" => check_json_ends(case, &place, &piece[what], text),
                "table" => {
                    let words: Vec<_> = text.split(' ').collect();
                    let nose = match (words.as_slice(), hand) {
                        ([_, left, _], Hand::Left) => left,
                        ([_, _, right], Hand::Right) => right,
                        _ => &"none",
                    };
                    assert_eq!(piece["on_table"], words[0], "{place}");
                    assert_eq!(piece["nose"], *nose, "{place}");
                }
                "kept" | "left" => {
                    let key = if what == "kept" {
                        "kept_mm2"
                    } else {
                        "offcut_mm2"
                    };
                    let found = piece[key].as_f64().unwrap();
                    assert!((found - case.mm2(text)).abs() <= 0.051, "{place}: {what}");
                }
                _ => {}
            }
        }
    }
}

fn check_json_ends(case: &Case, place: &str, found: &serde_json::Value, text: &str) {
    let expected: Vec<_> = text.split(',').filter(|text| *text != "none").collect();
    let found = found.as_array().unwrap();
    assert_eq!(found.len(), expected.len(), "{place}");
    for (found, expected) in found.iter().zip(expected) {
        let (at, position) = expected.trim().split_once(' ').unwrap();
        assert_eq!(found["at"], at.replace('-', " "), "{place}");
        let mm = found["mm"].as_f64().unwrap();
        assert!((mm - case.length(position).mm()).abs() < 1e-6, "{place}");
    }
}

/// The Bench shows each piece's label, hand and cut marks.
fn check_screen(case: &Case, hand: Hand, job: &Job) {
    let mut program = crate::support::Program::with(job.clone());
    program.press("<f4><enter>");
    let count = case.pieces.len();
    for _ in 0..count {
        if program.screen(80, 24).contains("ACROSS FIRST") {
            program.press("<enter>");
        }
        let piece = program.state.piece_in_hand().unwrap().clone();
        let screen = program.screen(80, 24);
        let place = format!("{}, {:?}\n{screen}", case.name, piece.id);
        assert!(screen.contains(&hand.word().to_uppercase()), "{place}");
        let marks = Marks::of(&piece.spec);
        // The upper marks of a short course stand where the ridge's turn-up bends.
        let spec = &piece.spec;
        let lower = spec.across.is_some_and(|across| across > spec.panel.height);
        let word = |at: At| match at {
            At::Back if lower => "AT ".to_owned(),
            at => at.said().to_uppercase(),
        };
        let bends = (1..).zip(marks.bend.into_iter().flatten());
        let cuts = (3..).zip(marks.cut.into_iter().flatten());
        let named = bends
            .map(|mark| ("bend", mark))
            .chain(cuts.map(|mark| ("cut", mark)));
        for (what, (number, mark)) in named {
            let (at, what) = (word(mark.at), format!("  {what} {number}, "));
            let heads = |line: &str| {
                let before = line.split_once(&what).map(|(before, _)| before);
                before.is_some_and(|before| before.contains(&at))
            };
            assert!(screen.lines().any(heads), "{at}{what}: {place}");
        }
        // Then the cut, where there is one.
        program.press("<enter>");
        let screen = program.screen(80, 24);
        let stage = program.state.piece_in_hand().unwrap().stage;
        match piece.lie(case.settings.blade).map(|lie| lie.on_table) {
            None => assert_ne!(stage, Stage::ToCut, "{place}"),
            Some(part) => {
                let drops = drawn(drops(part));
                assert!(screen.contains(&drops), "{drops}: {place}\n{screen}");
                program.press("<enter>");
            }
        }
        program.press("<right>");
    }
}

/// The picture at the shear shows the lie that stands on the sheet, small and
/// large.
fn check_lie(case: &Case, hand: Hand, job: &Job) {
    let mut program = crate::support::Program::with(job.clone());
    program.press("<f4><enter>");
    for piece in &case.pieces {
        let place = format!(
            "{} ({} hand), {}.{}",
            case.name,
            hand.word(),
            piece.course,
            piece.number
        );
        if program.screen(80, 24).contains("ACROSS FIRST") {
            program.press("<enter>");
        }
        program.press("<enter>");
        lie::check(&mut program, (80, 24), &place);
        lie::check(&mut program, (120, 40), &place);
        program.press("u<right>");
    }
}

fn check_piece(case: &Case, place: &str, expected: &Piece, spec: &PieceSpec) {
    let marks = Marks::of(spec);
    let (width, height) = (spec.panel.width, spec.panel.height);
    let place = format!("{place}, piece {}.{}", expected.course, expected.number);
    let near = |found: f64, text: &str, within: f64, what: &str| {
        assert!(
            (found - number(text)).abs() <= within,
            "{place}: {what} {found} for {text}"
        );
    };
    for (what, text) in &expected.parts {
        match what.as_str() {
            "bend" => check_ends(case, &place, marks.bend, text),
            "cut" => check_ends(case, &place, marks.cut, text),
            "kept" | "left" => {
                let part = if what == "kept" {
                    &marks.kept
                } else {
                    &marks.left
                };
                let (found, expected) = (part.area().mm2(), case.mm2(text));
                assert!(
                    (found - expected).abs() < 1e-3,
                    "{place}: {what} {found} for {expected}"
                );
            }
            "table" => assert_eq!(lie_words(case, spec, &marks), *text, "{place}"),
            "skew" => near(spec.skew_deg(), text, 0.005, what),
            "long" => {
                let (bend, cut) = text.split_once(' ').unwrap();
                near(length_mm(marks.bend, width, height), bend, 0.05, what);
                near(length_mm(marks.cut, width, height), cut, 0.05, what);
            }
            "stands" => near(spec.leg().mm(), text, 0.05, what),
            "across" => {
                let across = (text != "none").then(|| case.length(text));
                assert_eq!(spec.across, across, "{place}");
            }
            _ => panic!("{place}: no such part: {what}"),
        }
    }
}

fn check_ends(case: &Case, place: &str, ends: Option<Ends>, text: &str) {
    let found: Vec<_> = ends
        .into_iter()
        .flatten()
        .map(|end| (end.at.word(), end.position))
        .collect();
    let expected: Vec<_> = text
        .split(',')
        .filter(|text| *text != "none")
        .map(|text| {
            let (at, position) = text.trim().split_once(' ').unwrap();
            (at.replace('-', " "), case.length(position))
        })
        .collect();
    let expected: Vec<_> = expected
        .iter()
        .map(|(at, position)| (at.as_str(), *position))
        .collect();
    assert_eq!(found, expected, "{place}");
}

/// The part on the table and where the nose points for a left-hand and for a
/// right-hand piece of these figures; `none` where nothing is cut.
fn lie_words(case: &Case, spec: &PieceSpec, marks: &Marks) -> String {
    if marks.cut.is_none() {
        return "none".to_owned();
    }
    let lie = |hand| {
        Lie::of(
            marks.kept.area(),
            marks.left.area(),
            hand,
            case.settings.blade,
        )
    };
    let [left, right] = Hand::BOTH.map(lie);
    assert_eq!(left.on_table, lie(spec.hand).on_table);
    format!(
        "{} {} {}",
        left.on_table.word(),
        left.nose.word(),
        right.nose.word()
    )
}
