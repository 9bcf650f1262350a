//! Pages and tables read by somebody else's readers: a browser's parser
//! (html5ever, by way of scraper), a strict XML parser (roxmltree), and
//! Python's csv module where there is one.

use crate::bench::{SAMPLES, sample};
use bendmark::domain::cutting::Job;
use bendmark::domain::measure::{Hand, Name};
use bendmark::domain::roof::EdgeKind;
use bendmark::sheet::{
    csv::{columns, csv},
    form::Form,
    form_html::form_html,
    html::html,
    json::json,
    layout::{Boxes, Layout, Pages},
    rows::Rows,
};
use roxmltree::{Document, ParsingOptions};
use scraper::{Html, Selector};
use serde_json::Value;
use std::io::Write;
use std::process::{Command, Stdio};

/// Names that would break out of a page that does not write them out.
fn nasty(mut job: Job) -> Job {
    job.name = Name::or("</title><script>alert(1)</script> & \"co\"", "?");
    let id = job.edges()[0].id;
    job.edge_mut(id).unwrap().name = Name::or("<b>]]>&amp;' North", "?");
    job
}

fn pages() -> Vec<String> {
    let mut jobs: Vec<Job> = SAMPLES.map(sample).into();
    jobs.push(nasty(sample(SAMPLES[0])));
    jobs.push(Job::new(Name::or("Empty", "?"), jobs[0].settings));
    let forms = jobs.iter().map(|job| form_html(&Form::of(job, &[], None)));
    jobs.iter()
        .flat_map(|job| Pages::ALL.map(|pages| whole(job, pages)))
        .chain(forms)
        .collect()
}

fn whole(job: &Job, pages: Pages) -> String {
    let layout = Layout {
        pages,
        boxes: Boxes::EveryStep,
        printed_at: Some("2026-11-26 14:05".to_owned()),
        ..Layout::default()
    };
    html(&Rows::of(job), &layout)
}

/// The document of a page, read as strict XML.
pub(crate) fn strict(page: &str) -> Document<'_> {
    let options = ParsingOptions {
        allow_dtd: true,
        ..ParsingOptions::default()
    };
    Document::parse_with_options(page, options).expect("well-formed")
}

#[test]
fn a_browsers_parser_finds_nothing_wrong_in_any_page() {
    for page in pages() {
        let document = Html::parse_document(&page);
        assert_eq!(document.errors, Vec::<std::borrow::Cow<'_, str>>::new());
    }
}

#[test]
fn a_strict_parser_reads_the_same_words_as_a_browsers() {
    for page in pages() {
        let document = Html::parse_document(&page);
        let body = Selector::parse("body").unwrap();
        let lax: String = document
            .select(&body)
            .flat_map(|body| body.text())
            .collect();
        let strict = strict(&page);
        let body = strict.descendants().find(|node| node.has_tag_name("body"));
        let words: String = body
            .unwrap()
            .descendants()
            .filter(|node| node.is_text())
            .filter_map(|node| node.text())
            .collect();
        assert_eq!(lax.trim(), words.trim());
    }
}

#[test]
fn no_page_asks_for_anything_or_runs_anything() {
    for page in pages() {
        let document = strict(&page);
        for node in document.descendants().filter(|node| node.is_element()) {
            let name = node.tag_name().name();
            let asks = [
                "script", "link", "img", "iframe", "object", "a", "use", "image",
            ];
            assert!(!asks.contains(&name), "{name}");
            for attribute in node.attributes() {
                assert!(!attribute.name().starts_with("on"), "{attribute:?}");
                assert!(
                    !["src", "href"].contains(&attribute.name()),
                    "{attribute:?}"
                );
                let value = attribute.value();
                assert!(
                    !value.contains("url(") || value.starts_with("url(#k"),
                    "{value}"
                );
            }
        }
        assert!(!page.contains("@import") && !page.contains("@font-face"));
    }
}

/// What Python's csv module reads, as JSON; none where there is no Python.
fn read_by_python(text: &str) -> Option<Vec<Vec<String>>> {
    const PROGRAM: &str = "import csv,io,json,sys\n\
        text=sys.stdin.buffer.read().decode('utf-8-sig')\n\
        print(json.dumps(list(csv.reader(io.StringIO(text,newline='')))))";
    let mut child = Command::new("python3")
        .args(["-c", PROGRAM])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .ok()?;
    let mut input = child.stdin.take().unwrap();
    input.write_all(text.as_bytes()).unwrap();
    drop(input);
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success());
    Some(serde_json::from_slice(&output.stdout).unwrap())
}

#[test]
fn an_outside_reader_gets_the_same_values_from_the_csv_as_from_the_json() {
    let mut named = sample(SAMPLES[0]);
    for (edge, name) in named.edges().to_vec().iter().zip([
        "=1+1",
        "@SUM(A1)",
        "Ober, \"links\"",
        "Südseite; West",
        "-3",
        "\u{FF1D}1+1",
    ]) {
        named.edge_mut(edge.id).unwrap().name = Name::or(name, "?");
    }
    for job in [sample(SAMPLES[0]), sample(SAMPLES[1]), named] {
        let Some(rows) = read_by_python(&csv(&Rows::of(&job)).unwrap()) else {
            eprintln!("skipped: no python3 to read the CSV with");
            return;
        };
        let sheet: Value = serde_json::from_str(&json(&Rows::of(&job))).unwrap();
        assert_eq!(rows[0], columns(&Rows::of(&job)));
        let pieces = sheet["pieces"].as_array().unwrap();
        assert_eq!(rows.len() - 1, pieces.len());
        for (row, piece) in rows[1..].iter().zip(pieces) {
            agree(row, piece);
        }
    }
}

#[track_caller]
fn agree(row: &[String], piece: &Value) {
    let name = piece["edge"].as_str().unwrap();
    let risky = name.starts_with(['=', '+', '-', '@', '\u{FF1D}']);
    let expected = if risky {
        format!("'{name}")
    } else {
        name.to_owned()
    };
    assert_eq!(row[0], expected);
    assert!(!row[0].starts_with(['=', '+', '-', '@']));
    for (column, key) in [
        (1, "kind"),
        (2, "hand"),
        (13, "on_table"),
        (14, "nose"),
        (16, "stock"),
        (17, "stage"),
    ] {
        assert_eq!(row[column], piece[key].as_str().unwrap());
    }
    for (column, key) in [(3, "course"), (4, "piece"), (15, "panel")] {
        let number = piece[key]
            .as_u64()
            .map_or_else(String::new, |number| number.to_string());
        assert_eq!(row[column], number);
    }
    // Of a piece cut at both ends the far end stands first, the near one last.
    for (column, line, end) in [
        (5, "bend", "far"),
        (9, "cut", "far"),
        (19, "near_bend", "near"),
        (23, "near_cut", "near"),
    ] {
        let marks = piece[line.trim_start_matches("near_")].as_array().unwrap();
        let mut marks = marks.iter().filter(|mark| match mark.get("end") {
            Some(said) => said == end,
            None => end == "far",
        });
        for at in (column..).step_by(2).take(2) {
            if at >= row.len() {
                continue;
            }
            let mark = marks.next().unwrap_or(&Value::Null);
            assert_eq!(row[at], mark["at"].as_str().unwrap_or(""));
            assert_eq!(row[at + 1].parse().ok(), mark["mm"].as_f64());
        }
        assert_eq!(marks.next(), None);
    }
}

#[test]
fn a_mark_for_the_encoding_stands_only_before_names_that_need_it() {
    let mut job = Job::new(Name::or("x", "?"), sample(SAMPLES[0]).settings);
    let edge = job.add_edge(Name::or("North", "?"), EdgeKind::Hip, Hand::Left);
    assert!(csv(&Rows::of(&job)).unwrap().starts_with("edge,"));
    job.edge_mut(edge).unwrap().name = Name::or("Süd", "?");
    let course = sample(SAMPLES[0]).edges()[0].courses()[0];
    job.edge_mut(edge).unwrap().put(course);
    assert!(csv(&Rows::of(&job)).unwrap().starts_with("\u{FEFF}edge,"));
}
