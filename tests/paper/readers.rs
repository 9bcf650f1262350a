//! Pages and tables read by somebody else's readers: a browser's parser
//! (html5ever, by way of scraper), a strict XML parser (roxmltree), and
//! Python's csv module where there is one.

use crate::bench::{SAMPLES, sample};
use bendmark::domain::cutting::Job;
use bendmark::domain::measure::{Hand, Name};
use bendmark::domain::piece::LineAt;
use bendmark::domain::roof::EdgeKind;
use bendmark::domain::tape::Unit;
use bendmark::sheet::{
    csv::{columns, csv},
    form::Form,
    form_fill::form_fill,
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
pub(crate) fn nasty(mut job: Job) -> Job {
    job.name = Name::or("</title><script>alert(1)</script>\u{2028} & \"co\"", "?");
    let id = job.edges()[0].id;
    job.edge_mut(id).unwrap().name = Name::or("<b>]]>&amp;' \"North\",\u{2028}</script>", "?");
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

/// And the one that is filled in, which alone runs a script.
fn all_pages() -> Vec<String> {
    let job = nasty(sample(SAMPLES[0]));
    let fill = form_fill(&Form::of(&job, &[], None));
    pages().into_iter().chain([fill]).collect()
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
    for page in all_pages() {
        let document = Html::parse_document(&page);
        assert_eq!(document.errors, Vec::<std::borrow::Cow<'_, str>>::new());
    }
}

#[test]
fn a_strict_parser_reads_the_same_words_as_a_browsers() {
    for page in all_pages() {
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
        // The marks round a script, which a reader of XML does not hand on.
        let bare = |words: &str| words.replace("//<![CDATA[", "//").replace("//]]>", "//");
        assert_eq!(bare(lax.trim()), bare(words.trim()));
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
            agree(&rows[0], row, piece);
            units_agree(&rows[0], row, &job);
        }
    }
}

#[track_caller]
fn agree(heads: &[String], row: &[String], piece: &Value) {
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
            let is_near = heads[at].starts_with("near_");
            if end == "near" && !is_near {
                continue;
            }
            let mark = marks.next().unwrap_or(&Value::Null);
            assert_eq!(row[at], mark["at"].as_str().unwrap_or(""));
            assert_eq!(row[at + 1].parse().ok(), mark["mm"].as_f64());
        }
        assert_eq!(marks.next(), None);
    }
}

/// The columns in the job's own units give the columns in mm to half a division,
/// and no cell is one of which a spreadsheet makes a date.
#[track_caller]
fn units_agree(heads: &[String], row: &[String], job: &Job) {
    let of = |name: &str| {
        let at = heads.iter().position(|head| head == name);
        row[at.unwrap_or_else(|| panic!("{name} of {heads:?}"))].as_str()
    };
    let unit = job.settings.unit();
    assert_eq!(of("unit"), unit.word());
    let half = job.settings.division.step().mm() / 2.0;
    for line in ["bend", "cut"] {
        for number in 1..=4 {
            let name = format!("{line}_{number}");
            let (own, mm) = (of(&name), of(&format!("{name}_mm")));
            assert_eq!(own.is_empty(), mm.is_empty(), "{name}");
            if own.is_empty() {
                continue;
            }
            assert!(!own.contains('/') || own.contains(' '), "{name}: {own}");
            let off = own_mm(own, unit) - mm.parse::<f64>().unwrap();
            assert!(off.abs() <= half + 1e-6, "{name}: {own} {mm}");
        }
    }
    let leg = own_mm(of("leg"), unit) - of("leg_mm").parse::<f64>().unwrap();
    assert!(leg.abs() <= half + 0.06, "{}", of("leg"));
}

/// `18 3/4` or `346.5` in mm, by schoolbook arithmetic.
fn own_mm(text: &str, unit: Unit) -> f64 {
    let number = |text: &str| match text.split_once('/') {
        Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
        None => text.parse::<f64>().unwrap(),
    };
    let sum: f64 = text.split(' ').map(number).sum();
    match unit {
        Unit::Inch => sum * 25.4,
        Unit::Millimetre => sum,
    }
}

/// Every figure of the bench list, as a browser's parser reads the page, is what the
/// JSON says the tape shows, and that is its millimetres to half a division.
#[test]
fn every_figure_of_the_bench_list_is_that_of_the_json() {
    let mut figures = 0;
    for name in SAMPLES {
        let job = sample(name);
        let document = Html::parse_document(&whole(&job, Pages::List));
        let select = |text: &str| Selector::parse(text).unwrap();
        let (piece, label) = (select("table.bench > tbody"), select("td.c-label > b"));
        let lines = [("bend", select("td.bend")), ("cut", select("td.cut"))];
        let (figure, side) = (select("b"), select("span"));
        let sheet: Value = serde_json::from_str(&json(&Rows::of(&job))).unwrap();
        let pieces = sheet["pieces"].as_array().unwrap();
        let rows: Vec<_> = document.select(&piece).collect();
        assert_eq!(rows.len(), pieces.len());
        let made = Rows::of(&job);
        let made = made.edges.iter().flat_map(|edge| made.rows_of(edge));
        let first_cuts: Vec<_> = made
            .map(|row| row.cuts().next().map_or(LineAt::Near, |(line, _)| line))
            .collect();
        for ((row, piece), first) in rows.iter().zip(pieces).zip(&first_cuts) {
            let label: String = row.select(&label).flat_map(|label| label.text()).collect();
            let course = piece["course"].to_string();
            assert!(label.contains(&format!("-{course}")), "{label}: {piece}");
            for (line, cells) in &lines {
                let marks = piece[line].as_array().unwrap();
                let cells: Vec<_> = row
                    .select(cells)
                    .filter(|cell| cell.select(&figure).next().is_some())
                    .collect();
                assert_eq!(cells.len(), marks.len(), "{label} {line}");
                // Of two lines the list has the one that is cut first above, the JSON
                // the near one.
                let marks: Vec<_> = match (*first == LineAt::Far, marks.len()) {
                    (true, 4) => [2, 3, 0, 1].map(|at| &marks[at]).into(),
                    _ => marks.iter().collect(),
                };
                for (nth, (cell, mark)) in cells.iter().zip(marks).enumerate() {
                    let text = |of: &Selector| -> String {
                        cell.select(of).flat_map(|found| found.text()).collect()
                    };
                    assert_eq!(text(&figure), mark["tape"].as_str().unwrap(), "{label}");
                    let expected = match mark["at"].as_str().unwrap() {
                        "nose" if nth % 2 == 0 => "",
                        "back" if nth % 2 == 1 => "",
                        "nose" => "ON nose",
                        "back" => "ON back",
                        "far side" => "UP other end",
                        _ => "UP whole end",
                    };
                    assert_eq!(text(&side), expected, "{label}");
                    shows(&text(&figure), mark["mm"].as_f64().unwrap(), &job);
                    figures += 1;
                }
            }
        }
    }
    assert!(figures > 600, "{figures}");
}

/// What the tape shows is right to half a division, and its sign to a quarter.
#[track_caller]
fn shows(text: &str, mm: f64, job: &Job) {
    let step = job.settings.division.step().mm();
    let bare = text.trim_end_matches(['+', '-']);
    let over = (mm - own_mm(bare, job.settings.unit())) / step;
    assert!(over.abs() <= 0.5 + 1e-4, "{text} for {mm}");
    assert_eq!(text.ends_with('+'), over > 0.25 + 1e-6, "{text} for {mm}");
    assert_eq!(text.ends_with('-'), over < -0.25 - 1e-6, "{text} for {mm}");
}

/// The columns that were there before the sheet was made anew have the same figures
/// to the last digit, of a file of version 1 too: `before` was written by the program
/// of that day.
#[test]
fn the_figures_of_before_are_the_figures_of_now() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    for name in SAMPLES.into_iter().chain(["version_1"]) {
        let job = match name {
            "version_1" => {
                let bytes = std::fs::read(folder.join("store/version_1.ron")).unwrap();
                bendmark::storage::job_file::decode(&bytes).unwrap().job
            }
            name => sample(name),
        };
        let before = std::fs::read_to_string(folder.join(format!("paper/before/{name}.csv")));
        let before = before.unwrap();
        let now = csv(&Rows::of(&job)).unwrap();
        let read = |text: &str| -> Vec<Vec<String>> {
            let mut reader = ::csv::ReaderBuilder::new();
            let reader = reader
                .has_headers(false)
                .from_reader(text.as_bytes())
                .into_records();
            let records = reader.map(Result::unwrap);
            records
                .map(|row| row.iter().map(str::to_owned).collect())
                .collect()
        };
        let (before, now) = (read(&before), read(&now));
        assert_eq!(before.len(), now.len(), "{name}");
        for (before, now) in before.iter().zip(&now) {
            assert_eq!(before[..], now[..before.len()], "{name}");
        }
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
