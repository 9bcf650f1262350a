//! Every place in every stage, at three sizes and in plain ASCII, as snapshots;
//! and every size there is without a panic.

use crate::support::{Program, inches, put, text_of};
use bendmark::app::place::Glyphs;
use bendmark::domain::{
    cutting::Job,
    log::{Course, CourseNumber, Reading},
    measure::{Hand, Name},
    roof::EdgeKind,
    settings::Settings,
};
use std::fmt::Write;

/// A job with every form of piece: plain, wide, corner off, triangle, short
/// course, valley, rake, a doubt, and offcuts of both hands.
fn job() -> Job {
    let mut job = Job::new(Name::or("Quarry Close", "?"), Settings::default());
    let north = job.add_edge(Name::or("North", "?"), EdgeKind::Hip, Hand::Left);
    let south = job.add_edge(Name::or("South", "?"), EdgeKind::Hip, Hand::Right);
    for (number, (bottom, top)) in (1..).zip([
        ("20", "7 1/2"),
        ("33", "20 1/2"),
        ("56", "43 1/2"),
        ("110", "97 1/2"),
        ("24", "12 1/2"),
        ("30", "17 1/2"),
    ]) {
        put(&mut job, north, number, bottom, top);
        put(
            &mut job,
            south,
            number,
            bottom,
            if number == 5 { "11 1/2" } else { top },
        );
    }
    let mut out = Course::unread(CourseNumber::new(7).unwrap());
    out.bottom = Reading::new(inches("9")).ok();
    out.runs_out = Reading::new(inches("10 1/16")).ok();
    job.edge_mut(north).unwrap().put(out);
    let mut short = Course::unread(CourseNumber::new(7).unwrap());
    short.bottom = Reading::new(inches("22")).ok();
    short.top = Reading::new(inches("15 3/4")).ok();
    short.height = Reading::new(inches("7")).ok();
    job.edge_mut(south).unwrap().put(short);
    let valley = job.add_edge(Name::or("Yard", "?"), EdgeKind::Valley, Hand::Left);
    put(&mut job, valley, 1, "10", "22 1/2");
    let rake = job.add_edge(Name::or("Gable", "?"), EdgeKind::Rake, Hand::Right);
    put(&mut job, rake, 1, "12", "12");
    put(&mut job, rake, 2, "47", "47");
    job
}

/// What is pressed, one after another, and what it shows.
const PAGES: &[(&str, &str)] = &[
    ("Hips, nothing begun", ""),
    ("Hips as a staircase", "v"),
    ("Log, among the hips", "<f3>"),
    ("Log, a doubtful course", "<tab>d"),
    ("Log, every explanation", "d"),
    ("Log, while typing", "<esc>13 5/8"),
    ("Log, by line", "<esc>v"),
    ("Log, what is expected", "ve"),
    ("Log, slopes and lot", "<tab>s"),
    ("Log, which hand", "<esc>a2"),
    ("Log, delete", "<esc>d"),
    ("Bench, cautions", "<esc><f4>"),
    ("Bench, to mark", "<enter>"),
    ("Bench, to cut", "<enter>"),
    ("Bench, to bend", "<enter>"),
    ("Bench, to stack", "<enter>"),
    ("Bench, after one is stacked", "<enter>"),
    ("Bench, a corner off", "/1-3<enter>"),
    ("Bench, a full panel", "/1-4<enter>"),
    ("Bench, a triangle", "/1-7<enter>"),
    ("Bench, a doubtful one", "/1-5<enter>"),
    ("Bench, a short course", "/2-7<enter>"),
    ("Bench, from an offcut", "/2-1<enter>"),
    ("Bench, a valley", "/3-1<enter>"),
    ("Bench, no cut", "/4-2<enter>"),
    ("Bench, shorter or longer", "c"),
    ("Bench, by how much", "-1/8"),
    ("Bench, spoiled", "<esc><end>/1-1<enter>x"),
    ("Rack", "<f5>"),
    ("Rack, one found", "a6"),
    ("Job", "<esc><f6>"),
    ("Job, a figure typed", "<down><down>49"),
    ("Help", "<esc>h"),
];

fn album(columns: u16, rows: u16, glyphs: Glyphs) -> String {
    let mut program = Program::with(job());
    let mut album = String::new();
    for (title, keys) in PAGES {
        program.press(keys);
        let page = text_of(&program.buffer(columns, rows, glyphs));
        assert!(
            glyphs == Glyphs::Blocks || page.is_ascii(),
            "{title}:\n{page}"
        );
        write!(album, "== {title}\n{page}\n\n").unwrap();
    }
    album
}

#[test]
fn every_place_in_every_stage_at_80x24() {
    insta::assert_snapshot!(album(80, 24, Glyphs::Blocks));
}

#[test]
fn every_place_in_every_stage_at_120x40() {
    insta::assert_snapshot!(album(120, 40, Glyphs::Blocks));
}

#[test]
fn every_place_in_every_stage_at_160x50() {
    insta::assert_snapshot!(album(160, 50, Glyphs::Blocks));
}

#[test]
fn every_place_in_every_stage_in_plain_ascii() {
    insta::assert_snapshot!(album(80, 24, Glyphs::Ascii));
}

/// All sizes with `BENDMARK_CASES`; every seventh of them else, a page each.
#[test]
fn no_page_panics_at_any_size() {
    let every = if std::env::var_os("BENDMARK_CASES").is_some() {
        1
    } else {
        7
    };
    let mut program = Program::with(job());
    for (at, (_, keys)) in PAGES.iter().enumerate() {
        program.press(keys);
        for columns in (1..=130_u16).filter(|columns| (usize::from(*columns) + at) % every == 0) {
            for rows in (1..=45_u16).filter(|rows| (usize::from(*rows) + at) % every == 0) {
                program.buffer(columns, rows, Glyphs::Blocks);
            }
        }
    }
}
