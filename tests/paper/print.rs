//! The pages printed by a browser: Chromium where it is installed, its PDF read
//! by Poppler's pdftotext where that is. Where one is not, the test says
//! "skipped".
//!
//! Over 400 lines: reading a printed page, and all that is asked of one.

use crate::bench::{SAMPLES, sample};
use bendmark::domain::{cutting::Job, measure::Name};
use bendmark::sheet::{
    form::Form,
    form_html::form_html,
    html::html,
    layout::{Boxes, Layout, Pages},
    rows::Rows,
};
use bendmark::storage::readings::import;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The margin asked for is 12 mm, in points; a rounding is let through.
const MARGIN: f64 = 12.0 / 25.4 * 72.0 - 0.5;

/// The smallest print taken for legible, as a word's box is high, in points:
/// the pictures' words, 3.4 mm.
const LEAST_HIGH: f64 = 8.0;

/// A printed word and where it stands, in points from the upper left.
struct Word {
    text: String,
    x: [f64; 2],
    y: [f64; 2],
}

/// A printed page.
struct Page {
    wide: f64,
    high: f64,
    words: Vec<Word>,
}

impl Page {
    fn text(&self) -> String {
        let words: Vec<&str> = self.words.iter().map(|word| word.text.as_str()).collect();
        words.join(" ")
    }
}

pub(crate) fn chromium() -> Option<&'static str> {
    ["chromium", "chromium-browser", "google-chrome"]
        .into_iter()
        .find(|name| runs(name, "--version"))
}

/// Without a window, and without looking for anything on a network.
pub(crate) const HEADLESS: [&str; 8] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
];

fn runs(program: &str, option: &str) -> bool {
    let mut command = Command::new(program);
    command
        .arg(option)
        .stdout(Stdio::null())
        .stderr(Stdio::null());
    command.status().is_ok_and(|status| status.success())
}

fn print(browser: &str, folder: &Path, page: &str) -> PathBuf {
    let (source, target) = (folder.join("page.html"), folder.join("page.pdf"));
    std::fs::write(&source, page).unwrap();
    let profile = tempfile::tempdir().unwrap();
    let output = Command::new(browser)
        .args(HEADLESS)
        .arg("--no-pdf-header-footer")
        .arg(format!("--user-data-dir={}", profile.path().display()))
        .arg(format!("--print-to-pdf={}", target.display()))
        .arg(&source)
        .output()
        .unwrap();
    assert!(
        target.exists(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    target
}

fn pages(pdf: &Path) -> Vec<Page> {
    let output = Command::new("pdftotext")
        .arg("-bbox")
        .arg(pdf)
        .arg("-")
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    let document = crate::readers::strict(&text);
    let number = |node: roxmltree::Node<'_, '_>, name: &str| -> f64 {
        node.attribute(name).unwrap().parse().unwrap()
    };
    let of_name = |node: &roxmltree::Node<'_, '_>, name: &str| node.tag_name().name() == name;
    document
        .descendants()
        .filter(|node| of_name(node, "page"))
        .map(|page| Page {
            wide: number(page, "width"),
            high: number(page, "height"),
            words: page
                .children()
                .filter(|node| of_name(node, "word"))
                .map(|word| Word {
                    text: word.text().unwrap_or_default().to_owned(),
                    x: [number(word, "xMin"), number(word, "xMax")],
                    y: [number(word, "yMin"), number(word, "yMax")],
                })
                .collect(),
        })
        .collect()
}

#[track_caller]
fn nothing_is_cut_off(page: &Page) {
    for word in &page.words {
        let inside = word.x[0] >= MARGIN - 1.0
            && word.x[1] <= page.wide - MARGIN + 1.0
            && word.y[0] >= MARGIN - 3.0
            && word.y[1] <= page.high - MARGIN + 3.0;
        assert!(inside, "{}: {:?} {:?}", word.text, word.x, word.y);
        let high = word.y[1] - word.y[0];
        assert!(high >= LEAST_HIGH, "{} is {high} points high", word.text);
    }
}

#[track_caller]
fn size_is(page: &Page, (wide, high): (f64, f64)) {
    let off = (page.wide - wide).abs() + (page.high - high).abs();
    assert!(off < 2.0, "{} x {}", page.wide, page.high);
}

/// Every piece's label and marks stand on one page, and each edge begins one.
fn sheet_is_whole(job: &Job, printed: &[Page]) {
    let rows = Rows::of(job);
    let texts: Vec<String> = printed.iter().map(Page::text).collect();
    for edge in &rows.edges {
        let head = format!(
            "{} {}: {}",
            edge.edge.kind.word().to_uppercase(),
            rows.labels.edge(edge.edge.id),
            edge.edge.name
        );
        let begins = texts.iter().filter(|text| text.starts_with(&head));
        assert_eq!(begins.count(), 1, "{head}");
        for row in rows.rows_of(edge) {
            // Smaller, the label also stands where an offcut is kept for it.
            let label = row.label.split(' ').next().unwrap();
            let heads = printed.iter().flat_map(|page| &page.words);
            let heads = heads.filter(|word| word.text == label && word.y[1] - word.y[0] > 15.0);
            assert_eq!(heads.count(), 1, "{label}");
        }
    }
    let first = &texts[0];
    for words in [
        "Panels to open:",
        "Doubtful readings",
        "Settings",
        "Take care",
    ] {
        assert!(first.contains(words), "{words}");
    }
    let cut: usize = rows
        .edges
        .iter()
        .flat_map(|edge| rows.rows_of(edge))
        .map(|row| row.cuts().count())
        .sum();
    let drawn: usize = texts
        .iter()
        .map(|text| text.matches("at the shear").count())
        .sum();
    assert_eq!(drawn, cut);
    // At least two pieces to a page, or paper is wasted.
    assert!(printed.len() <= 1 + rows.edges.len() + rows.panels.pieces / 2);
}

#[test]
fn the_pages_print_whole_and_legible_on_a4_and_letter() {
    let Some(browser) = printer() else { return };
    let folder = tempfile::tempdir().unwrap();
    let papers = [("A4", (595.0, 842.0)), ("letter", (612.0, 792.0))];
    for (name, (paper, size)) in SAMPLES.into_iter().zip(papers) {
        let job = sample(name);
        let layout = Layout {
            pages: Pages::Pictures,
            ..Layout::default()
        };
        let page = html(&Rows::of(&job), &layout);
        let printed = printed(browser, folder.path(), &page, paper);
        printed.iter().for_each(|page| {
            size_is(page, size);
            nothing_is_cut_off(page);
            nothing_overlaps(page);
        });
        sheet_is_whole(&job, &printed);
    }
    for (paper, size) in papers {
        let job = Job::new(Name::or("Blank", "?"), sample(SAMPLES[0]).settings);
        let form = form_html(&Form::of(&job, &[], None));
        let printed = printed(browser, folder.path(), &form, paper);
        assert_eq!(printed.len(), 2, "a first page and one for the edge");
        size_is(&printed[1], size);
        printed.iter().for_each(nothing_is_cut_off);
        assert!(printed[1].text().contains("over course 16"));
    }
}

/// The browser, where it and what reads its PDF are installed.
fn printer() -> Option<&'static str> {
    let browser = chromium();
    if browser.is_none() {
        eprintln!("skipped: no Chromium to print with");
    }
    if !runs("pdftotext", "-v") || !runs("pdftohtml", "-v") {
        eprintln!("skipped: no pdftotext or pdftohtml to read the PDF with");
        return None;
    }
    browser
}

/// Eight hips of sixteen plain pieces.
fn of_128_pieces() -> Job {
    let mut rows = "edge,kind,hand,course,bottom,top\n".to_owned();
    for edge in 1..=8 {
        let hand = if edge % 2 == 0 { "left" } else { "right" };
        for course in 1..=16 {
            // Odd sixteenths, the widest figures there are.
            let bottom = 10 + (course * 7 + edge) % 23;
            rows += &format!(
                "Hip number {edge} of the long north roof,hip,{hand},{course},{bottom} 15/16,{} 13/16\n",
                bottom - 8
            );
        }
    }
    let job = Job::new(
        Name::or("A job of 128 pieces", "?"),
        sample(SAMPLES[0]).settings,
    );
    import(&job, rows.as_bytes()).unwrap().job
}

/// A job whose sheet is printed, with the boxes it is printed with.
#[test]
fn the_bench_list_prints_on_few_whole_pages_with_large_figures_on_a4_and_letter() {
    let Some(browser) = printer() else { return };
    let folder = tempfile::tempdir().unwrap();
    let jobs = [
        (sample(SAMPLES[0]), Boxes::Done),
        (sample(SAMPLES[1]), Boxes::EveryStep),
        (of_128_pieces(), Boxes::Done),
    ];
    for (paper, size) in [("A4", (595.0, 842.0)), ("letter", (612.0, 792.0))] {
        for (job, boxes) in &jobs {
            let layout = Layout {
                boxes: *boxes,
                printed_at: Some("2026-11-26 14:05".to_owned()),
                ..Layout::default()
            };
            let page = html(&Rows::of(job), &layout);
            let printed = printed(browser, folder.path(), &page, paper);
            list_is_whole(job, &page, &printed, size);
            printed.iter().for_each(nothing_overlaps);
            let pdf = folder.path().join("page.pdf");
            let letters = letter_sizes(&pdf);
            figures_are_largest(job, &letters);
            words_at_a_figure_are_large(&page, &letters);
        }
    }
}

fn list_is_whole(job: &Job, page: &str, printed: &[Page], size: (f64, f64)) {
    printed.iter().for_each(|page| {
        size_is(page, size);
        nothing_is_cut_off(page);
    });
    // As many as were meant: none ran over, so none was broken.
    let meant = page.matches("<section").count();
    let name = &job.name;
    assert_eq!(printed.len(), meant, "{name}");
    let rows = Rows::of(job);
    let odd = page.split("page odd").skip(1);
    let odd_pictures: usize = odd.map(|page| page.matches("<svg ").count()).sum();
    let lists = rows.edges.iter().map(|edge| edge.count().div_ceil(18));
    let most = 1 + lists.sum::<usize>() + odd_pictures.div_ceil(6);
    assert!(printed.len() <= most, "{name}: {} of {most}", printed.len());
    for (number, page) in (1..).zip(printed).skip(1) {
        let text = page.text();
        let run = format!("page {number}, {name}, printed 2026-11-26 14:05");
        assert!(text.contains(&run), "{text}");
    }
    for edge in &rows.edges {
        let short = rows.labels.edge(edge.edge.id);
        let head = format!("HIP {short}: {}", edge.edge.name);
        let pages = printed.iter().filter(|page| page.text().starts_with(&head));
        let texts: Vec<String> = pages.map(Page::text).collect();
        assert!(!texts.is_empty(), "{head}");
        for text in &texts {
            let hand = edge.edge.hand.word().to_uppercase();
            assert!(text.contains(&format!("{hand} hand: tape from the {hand}")));
        }
    }
}

/// Every letter of a PDF's text with its size in points, word by word.
fn letter_sizes(pdf: &Path) -> Vec<(String, f64)> {
    let output = Command::new("pdftohtml")
        .args(["-xml", "-i", "-stdout", "-zoom", "3"])
        .arg(pdf)
        .output()
        .unwrap();
    let text = String::from_utf8(output.stdout).unwrap();
    // What it writes is no sound XML where bold and links cross.
    let attribute = |line: &str, name: &str| -> Option<String> {
        let (_, rest) = line.split_once(&format!(" {name}=\""))?;
        Some(rest.split('"').next()?.to_owned())
    };
    let mut sizes = std::collections::HashMap::new();
    let mut words = Vec::new();
    for line in text.lines() {
        if line.trim_start().starts_with("<fontspec") && !line.contains("#ffffff") {
            let size: f64 = attribute(line, "size").unwrap().parse().unwrap();
            sizes.insert(attribute(line, "id").unwrap(), size / 3.0);
        } else if line.starts_with("<text") {
            // The white border of a picture's words is drawn, not written.
            let Some(size) = sizes.get(&attribute(line, "font").unwrap()) else {
                continue;
            };
            let content = line.split_once('>').unwrap().1;
            let content = content
                .replace("<b>", "")
                .replace("</b>", "")
                .replace("</text>", "");
            words.push((content.trim().to_owned(), *size));
        }
    }
    words
}

/// The figures of the list are 16 points or more, and nothing on its pages but the
/// first one's heading is larger.
fn figures_are_largest(job: &Job, letters: &[(String, f64)]) {
    let is_figure = |text: &str| {
        !text.is_empty()
            && text
                .chars()
                .all(|c| c.is_ascii_digit() || " /.+-".contains(c))
    };
    let figures: Vec<_> = letters
        .iter()
        .filter(|(text, size)| is_figure(text) && *size > 14.0)
        .collect();
    let rows = Rows::of(job);
    let of_edges = rows.edges.iter().flat_map(|edge| rows.rows_of(edge));
    let marks: usize = of_edges
        .flat_map(|row| row.lines().collect::<Vec<_>>())
        .map(|line| 2 * (usize::from(line.bend.is_some()) + usize::from(line.cut.is_some())))
        .sum();
    // Two that touch the same rule are read as one text.
    assert!(figures.len() * 2 >= marks, "{} of {marks}", figures.len());
    for (text, size) in &figures {
        assert!(*size >= 16.0, "{text} is {size} points");
    }
    let least = figures
        .iter()
        .map(|(_, size)| *size)
        .fold(f64::MAX, f64::min);
    for (text, size) in letters {
        let is_title = text.contains("Cut sheet") || text.contains(job.name.as_str());
        assert!(
            is_title || is_figure(text) || *size < least,
            "{text}: {size}"
        );
    }
}

/// No two words stand on each other; a word's box is as high as its line, so some of
/// that is let through.
#[track_caller]
fn nothing_overlaps(page: &Page) {
    let shares = |one: [f64; 2], other: [f64; 2]| one[1].min(other[1]) - one[0].max(other[0]);
    for (at, word) in page.words.iter().enumerate() {
        // The white border of a picture's word is that word once more.
        let others = page.words[at + 1..].iter();
        for other in others.filter(|other| other.text != word.text) {
            let high = (word.y[1] - word.y[0]).min(other.y[1] - other.y[0]);
            let is_on = shares(word.x, other.x) > 0.5 && shares(word.y, other.y) > 0.35 * high;
            assert!(
                !is_on,
                "{} {:?} {:?} on {} {:?} {:?}",
                word.text, word.x, word.y, other.text, other.x, other.y
            );
        }
    }
}

/// What says that a figure is measured up an end, and what is written on an offcut, are
/// read from where the figures are.
fn words_at_a_figure_are_large(page: &str, letters: &[(String, f64)]) {
    let list = page.split("page odd").next().unwrap();
    let up = letters.iter().filter(|(text, _)| text.contains("UP "));
    let sizes: Vec<f64> = up.map(|(_, size)| *size).collect();
    assert_eq!(sizes.is_empty(), !list.contains(">UP "));
    assert!(sizes.iter().all(|size| *size >= 10.0), "{sizes:?}");
    let write = letters.iter().filter(|(text, _)| text.starts_with("write"));
    let sizes: Vec<f64> = write.map(|(_, size)| *size).collect();
    assert!(
        !sizes.is_empty() && sizes.iter().all(|size| *size >= 9.5),
        "{sizes:?}"
    );
}

fn printed(browser: &str, folder: &Path, page: &str, paper: &str) -> Vec<Page> {
    let page = page.replacen(
        "</style>",
        &format!("@page {{ size: {paper}; }}\n</style>"),
        1,
    );
    pages(&print(browser, folder, &page))
}
