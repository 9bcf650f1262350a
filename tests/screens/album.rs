//! Every place in every stage: whole as a snapshot at 80x24, by what must hold at
//! larger sizes and in plain ASCII; and every size there is without a panic.

use crate::support::{Program, inches, put, text_of};
use bendmark::app::place::Glyphs;
use bendmark::domain::{
    cutting::Job,
    log::{Course, CourseNumber, Reading, SetAside},
    measure::{Hand, Name},
    roof::EdgeKind,
    settings::Settings,
};
use ratatui::buffer::{Buffer, Cell};
use ratatui::style::Color;
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
    // Three pieces wide, since a wall stood in the way: measured again, it stands.
    for wide in [north, south] {
        let wide = job.edge_mut(wide).unwrap();
        let stands = SetAside::of_course(wide, CourseNumber::new(4).unwrap());
        wide.set_aside.push(stands);
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
    ("Hips as a list", "v"),
    ("Log, among the hips", "<f3>"),
    ("Log, a doubtful course", "<tab>d"),
    ("Log, every explanation", "d"),
    ("Log, while typing", "<esc>13 5/8"),
    ("Log, by line", "<esc>v"),
    ("Log, what is expected", "ve"),
    ("Log, slopes and lot", "<tab>s"),
    ("Log, which hand", "<esc>a2"),
    ("Log, delete", "<esc><del>"),
    ("Bench, cautions", "<esc><f4>"),
    ("Bench, to mark", "<enter>"),
    ("Bench, to cut", "<enter>"),
    ("Bench, to bend", "<enter>"),
    ("Bench, to stack", "<enter>"),
    ("Bench, after one is stacked", "<enter>"),
    ("Bench, a corner off", "/h1-3<enter>"),
    ("Bench, a full panel", "/h1-4<enter>"),
    ("Bench, a triangle", "/h1-7<enter>"),
    ("Bench, a doubtful one", "/h1-5<enter>"),
    ("Bench, a short course", "/h2-7<enter>"),
    ("Bench, from an offcut", "/h2-1<enter>"),
    ("Bench, a valley", "/v1-1<enter>"),
    ("Bench, no cut", "/r1-2<enter>"),
    ("Bench, shorter or longer", "c"),
    ("Bench, by how much", "-1/8"),
    ("Bench, what of it is usable", "<esc><end>/h1-1<enter>x"),
    ("Bench, spoiled", "<enter>"),
    ("Rack", "<f5>"),
    ("Rack, one found", "a6"),
    ("Job", "<esc><f6>"),
    ("Job, a figure typed", "<down><down>49"),
    ("Help", "<esc>h"),
];

/// Every page's cells at a size, with its title.
fn cells(columns: u16, rows: u16, glyphs: Glyphs) -> Vec<(&'static str, Buffer)> {
    let mut program = Program::with(job());
    let page = |(title, keys): &(&'static str, &str)| {
        program.press(keys);
        (*title, program.buffer(columns, rows, glyphs))
    };
    PAGES.iter().map(page).collect()
}

/// Every page at a size as text, with its title.
fn pages(columns: u16, rows: u16, glyphs: Glyphs) -> Vec<(&'static str, String)> {
    let pages = cells(columns, rows, glyphs).into_iter();
    pages.map(|(title, page)| (title, text_of(&page))).collect()
}

#[test]
fn every_place_in_every_stage_at_80x24() {
    let mut album = String::new();
    for (title, page) in pages(80, 24, Glyphs::Blocks) {
        write!(album, "== {title}\n{page}\n\n").unwrap();
    }
    insta::assert_snapshot!(album);
}

#[test]
fn nothing_of_the_album_is_clipped_on_the_least_usual_screen() {
    for (columns, rows) in [(80, 24), (120, 40)] {
        for (title, page) in pages(columns, rows, Glyphs::Blocks) {
            assert!(!page.contains(".."), "{title}\n{page}");
        }
    }
}

/// The letters and digits of a page, without what is drawn.
fn words(page: &str) -> Vec<&str> {
    let between = |c: char| !(c.is_alphanumeric() || "/'\"".contains(c));
    page.split(between)
        .filter(|word| word.contains(char::is_alphanumeric))
        .collect()
}

/// What stands in front: a dialog hides other parts of the place at each size.
fn in_front(page: &str) -> String {
    let lines: Vec<Vec<char>> = page.lines().map(|line| line.chars().collect()).collect();
    let at = |c: char, line: &Vec<char>| line.iter().position(|d| *d == c);
    let top = lines.iter().enumerate().find_map(|(row, line)| {
        let left = at('┌', line)?;
        (line.get(left + 2) == Some(&' ')).then(|| (row, left, at('┐', line).unwrap()))
    });
    let Some((top, left, right)) = top else {
        return page.to_owned();
    };
    let below = lines[top..]
        .iter()
        .position(|line| line.get(left) == Some(&'└'));
    let bottom = top + below.unwrap();
    let cut = |line: &Vec<char>| line.iter().take(right).skip(left).collect::<String>();
    lines[top..bottom]
        .iter()
        .map(cut)
        .collect::<Vec<_>>()
        .join("\n")
}

/// The words that the small screen says more often than the larger one: most
/// rows have no word of their own, so that it stands somewhere is not enough.
fn lost(small: &str, large: &str) -> Vec<String> {
    let [small, large] = [small, large].map(|page| in_front(page).to_lowercase());
    // What is out of sight there is in sight here.
    let counts = |line: &&str| !line.ends_with(" more below") && !line.ends_with(" more above");
    let small = small.lines().filter(counts).collect::<Vec<_>>().join("\n");
    // Two dots end what was cut short.
    let whole = small
        .split_whitespace()
        .filter(|word| !word.ends_with(".."));
    let small = whole.collect::<Vec<_>>().join(" ");
    let mut there = words(&large);
    let mut is_lost = |word: &&str| match there.iter().position(|other| other == word) {
        Some(at) => {
            there.swap_remove(at);
            false
        }
        None => true,
    };
    let lost = words(&small).into_iter().filter(|word| is_lost(word));
    lost.map(str::to_owned).collect()
}

/// The captions under a picture that stands alone, for which a wide, low screen
/// has no rows: the rows above and below the pictures say the same.
const CAPTIONS: [&str; 4] = [
    "tape from the LEFT, whole end",
    "tape from the RIGHT, whole end",
    "OFFCUT stays  PIECE drops: hold it",
    "PIECE stays  OFFCUT drops: hold it",
];

/// Which marks have a large figure beside or below their label.
fn figures(page: &str) -> Vec<&'static str> {
    let lines: Vec<Vec<char>> = page.lines().map(|line| line.chars().collect()).collect();
    let has_figure = |label: &&str| {
        let mut labels = (0..).zip(page.lines());
        let found = labels.find_map(|(row, line)| {
            let (before, _) = line.split_once(label)?;
            // A figure begins below its heading, right of the tape's side.
            let at = before.chars().count();
            Some((
                row,
                if at > 16 {
                    at.saturating_sub(36).max(16)
                } else {
                    0
                },
            ))
        });
        found.is_some_and(|(row, left)| {
            let near = lines.iter().skip(row).take(3);
            near.flat_map(|line| line.iter().skip(left).take(76))
                .any(|c| "▀▄█".contains(*c))
        })
    };
    let labels = ["bend 1", "bend 2", "cut 3", "cut 4"];
    labels.into_iter().filter(has_figure).collect()
}

/// A larger screen says all that a small one says: its words, its keys, the
/// place at the top, the key bar at the bottom.
#[test]
fn a_larger_screen_says_all_that_a_small_one_says() {
    for (columns, rows) in [(100, 30), (120, 40), (160, 50)] {
        let small = pages(80, 24, Glyphs::Blocks);
        for ((title, small), (_, large)) in
            small.into_iter().zip(pages(columns, rows, Glyphs::Blocks))
        {
            let at = format!("{title} at {columns}x{rows}");
            let said = match rows {
                30 => CAPTIONS
                    .iter()
                    .fold(small.clone(), |page, caption| page.replace(caption, "")),
                _ => small.clone(),
            };
            assert_eq!(
                lost(&said, &large),
                Vec::<String>::new(),
                "{at}\n{small}\n{large}"
            );
            // What stands in front lies over the figures, at each size over others.
            if !["Bench, cautions", "Bench, shorter or longer"].contains(&title) {
                assert_eq!(figures(&small), figures(&large), "{at}\n{large}");
            }
            let lines: Vec<&str> = large.lines().collect();
            assert!(lines.len() <= usize::from(rows), "{at}");
            assert!(
                lines
                    .iter()
                    .all(|line| line.chars().count() <= usize::from(columns)),
                "{at}"
            );
            assert!(
                lines[0].contains("Quarry Close") && lines[0].contains("F2 Hips"),
                "{at}\n{large}"
            );
            let bar = words(small.lines().last().unwrap());
            let large_bar = words(lines[lines.len() - 1]);
            assert_eq!(
                lines.len(),
                usize::from(rows),
                "{at}: no key bar at the bottom\n{large}"
            );
            assert!(
                bar.iter().all(|word| large_bar.contains(word)),
                "{at}: {bar:?} {large_bar:?}"
            );
        }
    }
}

/// The rows of a page on which anything stands: figures in ASCII are blanks with
/// ink and paper exchanged.
fn drawn_rows(page: &Buffer) -> Vec<usize> {
    let is_drawn = |cell: &Cell| cell.symbol() != " " || cell.bg == Color::Black;
    let rows = page.content.chunks(usize::from(page.area.width));
    let drawn = (0..).zip(rows).filter(|(_, row)| row.iter().any(is_drawn));
    drawn.map(|(row, _)| row).collect()
}

/// Plain ASCII has the same words at the same places, drawn otherwise.
#[test]
fn plain_ascii_says_the_same_in_ascii_alone() {
    for (columns, rows) in [(80, 24), (120, 40)] {
        let in_blocks = cells(columns, rows, Glyphs::Blocks);
        let in_ascii = cells(columns, rows, Glyphs::Ascii);
        for ((title, in_blocks), (_, in_ascii)) in in_blocks.into_iter().zip(in_ascii) {
            let [blocks, ascii] = [&in_blocks, &in_ascii].map(text_of);
            assert!(ascii.is_ascii(), "{title}:\n{ascii}");
            for (in_blocks, in_ascii) in blocks.lines().zip(ascii.lines()) {
                assert_eq!(words(in_blocks), words(in_ascii), "{title}");
            }
            assert_eq!(
                drawn_rows(&in_blocks),
                drawn_rows(&in_ascii),
                "{title}:\n{ascii}"
            );
        }
    }
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
