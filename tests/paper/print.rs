//! The pages printed by a browser: Chromium where it is installed, its PDF read
//! by Poppler's pdftotext where that is. Where one is not, the test says
//! "skipped".

use crate::bench::{SAMPLES, sample};
use bendmark::domain::{cutting::Job, measure::Name};
use bendmark::sheet::{form::Form, form_html::form_html, html::html, rows::Rows};
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

fn chromium() -> Option<&'static str> {
    ["chromium", "chromium-browser", "google-chrome"]
        .into_iter()
        .find(|name| runs(name, "--version"))
}

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
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--no-pdf-header-footer",
        ])
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
        "New panels to carry:",
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
        .map(|text| text.matches("at the cutter").count())
        .sum();
    assert_eq!(drawn, cut);
    // At least two pieces to a page, or paper is wasted.
    assert!(printed.len() <= 1 + rows.edges.len() + rows.panels.pieces / 2);
}

#[test]
fn the_pages_print_whole_and_legible_on_a4_and_letter() {
    let Some(browser) = chromium() else {
        eprintln!("skipped: no Chromium to print with");
        return;
    };
    if !runs("pdftotext", "-v") {
        eprintln!("skipped: no pdftotext to read the PDF with");
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    let papers = [("A4", (595.0, 842.0)), ("letter", (612.0, 792.0))];
    for (name, (paper, size)) in SAMPLES.into_iter().zip(papers) {
        let job = sample(name);
        let printed = printed(browser, folder.path(), &html(&Rows::of(&job)), paper);
        printed.iter().for_each(|page| {
            size_is(page, size);
            nothing_is_cut_off(page);
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

fn printed(browser: &str, folder: &Path, page: &str, paper: &str) -> Vec<Page> {
    let page = page.replacen(
        "</style>",
        &format!("@page {{ size: {paper}; }}\n</style>"),
        1,
    );
    pages(&print(browser, folder, &page))
}
