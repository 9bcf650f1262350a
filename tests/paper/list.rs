//! What the bench list says beside its figures: the log marks, the lengths of
//! edges, what is out of the ordinary.

use crate::bench::{SAMPLES, sample};
use crate::support::{Program, job_with_hip, put};
use bendmark::domain::{
    cutting::Job,
    log::{Course, End, Reading},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::{Setting, Settings},
};
use bendmark::sheet::{
    html::html,
    layout::{Boxes, Layout, Pages},
    log_mark::LogMark,
    rows::{Choice, Rows, Shown},
    text::text,
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

/// A course between a hip and a valley, so that its piece is cut at both ends.
const BOTH_ENDS: &str = "edge,kind,hand,course,bottom,top,slope,to\n\
    East,hip,left,1,28,28,6 in 12,West\nWest,valley,right,2,40,52 1/2,6 in 12,\n";

/// Pages of pictures alone, each with how many pieces it has.
#[test]
fn five_pieces_out_of_the_ordinary_go_on_a_page_and_no_page_has_one_picture_row_alone() {
    let page = html(&Rows::of(&sample(SAMPLES[0])), &Layout::default());
    for list in page.split("<section class=\"page list\">").skip(1) {
        assert!(list.contains("<table class=\"bench\">"), "{list}");
    }
    let pages = page.split("page odd").skip(1);
    let pieces: Vec<usize> = pages
        .map(|page| page.matches("<article class=\"one\"").count())
        .collect();
    assert_eq!(pieces[..4], [5; 4], "{pieces:?}");
    // Those cut at both ends have three pictures each.
    assert!(pieces.len() <= 10, "{pieces:?}");
}

/// At 12 1/2 and at 12 3/4 in a course of 14, two inches along stand 1.492 and 1.479 in
/// high: 1 1/2 and 1 1/2- on the tape.
#[test]
fn legs_that_are_one_height_on_the_tape_are_said_once() {
    let mut job = job_with_hip(1, Hand::Left);
    let edge = job.edges()[0].id;
    put(&mut job, edge, 2, "24 1/4", "11 1/2");
    for page in [
        text(&Rows::of(&job), 80),
        html(&Rows::of(&job), &Layout::default()),
    ] {
        assert!(page.contains("leg 1 1/2 in high, square"), "{page}");
        assert!(!page.contains("in to 1 1/2"), "{page}");
    }
}

/// The lines of pieces cut at both ends, named behind each `tag`, stand in the order in
/// which they are cut.
fn first_before_second(page: &str, tag: &str) {
    let names = page.match_indices(tag).map(|(at, _)| &page[at..at + 40]);
    let names: Vec<_> = names.filter(|name| name.contains(" line, ")).collect();
    assert!(!names.is_empty());
    for pair in names.chunks(2) {
        let in_turn = pair[0].contains("1st<") && pair[1].contains("2nd<");
        assert!(in_turn, "{pair:?}");
    }
}

#[test]
fn a_piece_cut_at_both_ends_stands_in_the_order_of_work_and_each_picture_names_its_line() {
    let both = Job::new(Name::or("Both", "?"), Settings::default());
    let both = import(&both, BOTH_ENDS.as_bytes()).unwrap().job;
    for job in [sample(SAMPLES[0]), both] {
        let rows = Rows::of(&job);
        for pages in Pages::ALL {
            let layout = Layout {
                pages,
                ..Layout::default()
            };
            let page = html(&rows, &layout);
            let turns: Vec<_> = page.match_indices(" line, ").collect();
            let turn = |at: usize| page[at..].split('<').next().unwrap().to_owned();
            let shear = page
                .match_indices(">at the shear, ")
                .map(|(at, _)| turn(at));
            let shear: Vec<_> = shear.collect();
            assert!(
                turns.len() >= 4 && !shear.is_empty(),
                "{turns:?} {shear:?} {pages:?}"
            );
            for pair in shear.chunks(2) {
                assert!(pair[0].ends_with(" line, 1st"), "{pair:?}");
                assert!(pair[1].ends_with(" line, 2nd"), "{pair:?}");
                assert_ne!(pair[0][..18], pair[1][..18], "{pair:?}");
            }
        }
        let full = Layout {
            pages: Pages::Pictures,
            ..Layout::default()
        };
        first_before_second(&html(&rows, &full), "<p class=\"note\">");
        first_before_second(&html(&rows, &Layout::default()), "<b>");
    }
}

#[test]
fn a_figure_up_an_end_says_so_before_it_in_a_box_and_in_every_text() {
    let rows = sample(SAMPLES[0]);
    let rows = Rows::of(&rows);
    let page = html(&rows, &Layout::default());
    assert!(page.contains("<div class=\"up\"><span>UP whole end</span><b>4 11/16</b></div>"));
    assert!(page.contains("<div class=\"up\"><span>UP other end</span><b>2 7/16</b></div>"));
    for width in [80, 42] {
        let text = text(&rows, width);
        assert!(text.contains(" UP 4 11/16"), "{text}");
        assert!(
            text.contains("  UP whole end: bend 4 11/16, cut 6 15/16\n"),
            "{text}"
        );
    }
}

#[test]
fn the_pictures_of_the_list_have_no_numbers_and_those_beside_numbered_figures_have() {
    let job = sample(SAMPLES[0]);
    let numbers = |pages: Pages| {
        let layout = Layout {
            pages,
            ..Layout::default()
        };
        let page = html(&Rows::of(&job), &layout);
        let words = page
            .split("</text>")
            .filter_map(|text| text.rsplit_once('>'));
        words
            .filter(|(_, word)| word.parse::<u32>().is_ok())
            .count()
    };
    assert_eq!(numbers(Pages::List), 0);
    assert!(numbers(Pages::Pictures) > 300);
}

#[test]
fn no_line_is_broken_inside_a_label_or_a_lot() {
    let mut job = sample(SAMPLES[0]);
    for edge in job.edges().to_vec() {
        job.edge_mut(edge.id).unwrap().lot = Some(Name::or("Slate 7", "?"));
    }
    let page = html(&Rows::of(&job), &Layout::default());
    let words = "<span><i class=\"whole\">panel 1</i>, <i class=\"whole\">lot Slate 7</i></span>\
        <span><i class=\"whole\">write H2-7 L</i></span>";
    assert!(page.contains(words));
    assert!(page.contains("offcut of <i class=\"whole\">H1-1 R</i>"));
    assert!(page.contains("i.whole { white-space: nowrap; }"));
}

#[test]
fn an_edge_without_a_lot_says_so_where_others_have_one() {
    let mut job = sample(SAMPLES[0]);
    let forms = |job: &Job| {
        let rows = Rows::of(job);
        let pages = Pages::ALL.map(|pages| {
            let layout = Layout {
                pages,
                ..Layout::default()
            };
            html(&rows, &layout)
        });
        let all = pages
            .into_iter()
            .chain([80, 42].map(|width| text(&rows, width)));
        all.map(|page| page.matches("no lot said").count())
            .collect::<Vec<_>>()
    };
    for edge in job.edges().to_vec() {
        job.edge_mut(edge.id).unwrap().lot = None;
    }
    assert!(forms(&job).iter().all(|count| *count == 0));
    let id = job.edges()[0].id;
    job.edge_mut(id).unwrap().lot = Some(Name::or("A", "?"));
    let others = job.edges().len() - 1;
    assert!(forms(&job).iter().all(|count| *count >= others));
}

#[test]
fn a_correction_names_the_courses_that_have_it() {
    let rows: String = (1..=8)
        .map(|course| {
            format!(
                "East,hip,left,{course},{},{}\n",
                50 - 5 * course,
                45 - 5 * course
            )
        })
        .collect();
    let csv = format!("edge,kind,hand,course,bottom,top\n{rows}");
    let job = Job::new(Name::or("Trial", "?"), Settings::default());
    let job = import(&job, csv.as_bytes()).unwrap().job;
    let said = |program: &Program| {
        let text = text(&Rows::of(program.job()), 200);
        let line = text.lines().find(|line| line.contains("corrected after"));
        line.map(|line| line.trim().to_owned())
    };
    let mut program = Program::with(job);
    assert_eq!(said(&program), None);
    // Two are stacked and one is marked when the first of them came out too long.
    let stacked = "<enter><enter><enter><enter>";
    program.press(&format!("<f4><enter>{stacked}{stacked}<enter>c1/8<enter>-"));
    let after = "corrected after a trial on the roof: 1/8 in shorter in courses 4 to 8; the others are as they were read";
    assert_eq!(said(&program).as_deref(), Some(after));
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
