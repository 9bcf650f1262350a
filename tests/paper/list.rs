//! What the bench list says beside its figures: the log marks, the lengths of
//! edges, what is out of the ordinary.

use crate::bench::{SAMPLES, sample};
use crate::support::Program;
use bendmark::domain::{
    cutting::Job,
    log::{Course, End, Reading},
    measure::{Length, Name},
    roof::EdgeKind,
    settings::{Setting, Settings},
};
use bendmark::sheet::{
    html::html,
    layout::{Boxes, Layout, Pages},
    log_mark::LogMark,
    rows::{Choice, Rows, Shown},
};
use bendmark::storage::readings::import;

fn marks(job: &Job, choice: &Choice) -> Vec<String> {
    let rows = Rows::of(job).only(choice);
    let edges = rows.edges.iter();
    edges
        .map(|edge| LogMark::of(edge, &rows).to_string())
        .collect()
}

#[test]
fn a_log_mark_changes_with_its_own_edges_figures_and_with_nothing_else() {
    let job = sample(SAMPLES[0]);
    let all = Choice::default();
    let before = marks(&job, &all);
    let mut different = before.clone();
    different.sort();
    different.dedup();
    assert_eq!(different.len(), before.len(), "{before:?}");
    // Work at the bench, and a sheet of what is left.
    let mut program = Program::with(job.clone());
    program.press("<f4><enter><enter><enter><enter><enter><enter><enter>");
    assert_eq!(marks(program.job(), &all), before);
    let left = Choice {
        edges: Vec::new(),
        shown: Shown::Left,
    };
    assert_eq!(marks(program.job(), &left), before);
    // One reading of one edge, by a sixteenth.
    let mut changed = job.clone();
    let edge = changed.edge_mut(job.edges()[1].id).unwrap();
    let course: Course = edge.courses()[2];
    let was = course.bottom.unwrap().length();
    let read = Reading::new(was + Length::from_64ths(4)).ok();
    edge.put(course.with(End::Bottom, read));
    let after = marks(&changed, &all);
    let differ = before
        .iter()
        .zip(&after)
        .map(|(before, after)| before != after);
    assert_eq!(
        differ.collect::<Vec<_>>(),
        [false, true, false, false, false, false]
    );
    // A setting that moves the cut lines changes all.
    let mut wider = job;
    let allowance = Setting::Along(EdgeKind::Hip);
    wider.settings = allowance.set(&wider.settings, "2 1/2").unwrap();
    let after = marks(&wider, &all);
    assert!(
        before
            .iter()
            .zip(&after)
            .all(|(before, after)| before != after)
    );
}

/// The rafter tables on a framing square (from memory): at 6 in 12 a common rafter is
/// 13.42 in long for each foot of run, a hip or valley 18.00.
#[test]
fn a_hip_is_as_long_as_the_framing_square_says() {
    let mut job = Job::new(Name::or("Long", "?"), Settings::default());
    job.settings = Setting::Exposure.set(&job.settings, "13.42").unwrap();
    let rows: String = (1..=10)
        .map(|course| {
            format!(
                "East,hip,left,{course},{},{},6 in 12\n",
                140 - 12 * course,
                128 - 12 * course
            )
        })
        .collect();
    let csv = format!("edge,kind,hand,course,bottom,top,slope\n{rows}");
    let job = import(&job, csv.as_bytes()).unwrap().job;
    let page = html(&Rows::of(&job), &Layout::default());
    // 180 in and a hair, up to the next inch.
    assert!(page.contains(">15 ft 1 in<"), "{page}");
    assert!(page.contains("hips 15 ft 1 in."));
}

#[test]
fn only_pieces_out_of_the_ordinary_have_pictures_of_their_own() {
    let plain = "edge,kind,hand,course,bottom,top\nEast,hip,left,1,30,18\nEast,hip,left,2,18,6\n";
    let job = Job::new(Name::or("Plain", "?"), Settings::default());
    let page = |csv: &str| {
        let job = import(&job, csv.as_bytes()).unwrap().job;
        html(&Rows::of(&job), &Layout::default())
    };
    let page_of_plain = page(plain);
    assert!(!page_of_plain.contains("page odd"));
    // The two ways to lie of this hip.
    assert_eq!(page_of_plain.matches("<svg ").count(), 2, "{page_of_plain}");
    for odd in [
        "East,hip,left,3,60,48,,",
        "East,hip,left,3,20,,9,",
        "West,hip,right,3,20,14,,7",
    ] {
        let head = "edge,kind,hand,course,bottom,top,runs_out,height\n";
        let csv = format!("{head}East,hip,left,1,30,18,,\nEast,hip,left,2,18,6,,\n{odd}\n");
        assert!(page(&csv).contains("page odd"), "{odd}");
    }
}

#[test]
fn boxes_are_crossed_up_to_where_the_piece_stands() {
    let job = Job::new(Name::or("Boxes", "?"), Settings::default());
    let csv = "edge,kind,hand,course,bottom,top\nEast,hip,left,1,30,18\n";
    let job = import(&job, csv.as_bytes()).unwrap().job;
    let boxes = |program: &Program, boxes: Boxes| -> String {
        let layout = Layout {
            boxes,
            pages: Pages::List,
            ..Layout::default()
        };
        let page = html(&Rows::of(program.job()), &layout);
        let cells = page.split("<i class=\"box\">").skip(1);
        cells
            .map(|cell| if cell.starts_with('x') { 'x' } else { '-' })
            .collect()
    };
    let mut program = Program::with(job);
    program.press("<f4><enter>");
    for (every, done) in [
        ("----", "-"),
        ("x---", "-"),
        ("xx--", "-"),
        ("xxx-", "-"),
        ("xxxx", "x"),
    ] {
        assert_eq!(boxes(&program, Boxes::EveryStep), every);
        assert_eq!(boxes(&program, Boxes::Done), done);
        program.press("<enter>");
    }
}
