//! Readings as CSV.
//!
//! Over 400 lines: one claim a test, each with the file that shows it.

use bendmark::domain::{
    cutting::Job,
    log::{CourseNumber, Edge, EdgeDetail, End},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::{Setting, Settings},
};
use bendmark::storage::readings::{ImportError, Imported, import};

const HEADER: &str = "edge,kind,hand,course,bottom,top\n";

fn job() -> Job {
    Job::new(Name::or("Cedar Lane", "?"), Settings::default())
}

fn with(rows: &str) -> Result<Imported, ImportError> {
    import(&job(), format!("{HEADER}{rows}").as_bytes())
}

fn named<'j>(job: &'j Job, name: &str) -> &'j Edge {
    let mut edges = job.edges().iter();
    edges.find(|edge| edge.name.as_str() == name).unwrap()
}

fn reading(job: &Job, edge: &str, course: u32, end: End) -> Option<Length> {
    let edge = named(job, edge);
    let course = edge.course(CourseNumber::new(course).unwrap()).unwrap();
    course.reading(end).map(|reading| reading.length())
}

#[test]
fn rows_make_edges_and_courses_with_lengths_in_the_jobs_unit() {
    let imported =
        with("North,hip,left,1,13 5/8,346mm\nNorth,Hip,Left,2,,9\nSouth,hip,right,1,7,8\n")
            .unwrap();
    let Imported {
        job,
        added,
        skipped,
        new_edges,
        filled_in,
        changed,
        same_figures,
    } = imported;
    assert_eq!((added, skipped, new_edges, filled_in), (3, 0, 2, 0));
    assert_eq!((changed, same_figures), (0, Vec::new()));
    assert_eq!(
        reading(&job, "North", 1, End::Bottom),
        Some(Length::from_64ths(13 * 64 + 40))
    );
    assert_eq!(
        reading(&job, "North", 1, End::Top),
        Some(Length::from_mm(346))
    );
    assert_eq!(reading(&job, "North", 2, End::Bottom), None);
    assert_eq!(job.edges()[1].hand, Hand::Right);

    let mm = Setting::Units.set(&Settings::default(), "mm").unwrap();
    let job = Job::new(Name::or("x", "?"), mm);
    let csv = format!("{HEADER}North,hip,left,1,346,\"346,5\"\n");
    let job = import(&job, csv.as_bytes()).unwrap().job;
    assert_eq!(
        reading(&job, "North", 1, End::Top),
        Some(Length::from_um(346_500))
    );
}

#[test]
fn columns_go_by_name_and_a_byte_order_mark_and_crlf_do_no_harm() {
    let csv = "\u{FEFF} Top ,height,edge,runs_out,hand,kind,bottom,course\r\n,7,N,3,left,hip,20,4\r\n,,,,,,,\r\n";
    let job = import(&job(), csv.as_bytes()).unwrap().job;
    let course = job.edges()[0].courses()[0];
    assert_eq!(course.number.get(), 4);
    let inches = |reading: Option<bendmark::domain::log::Reading>| {
        reading.map(|reading| reading.length().nm() / 25_400_000)
    };
    assert_eq!(inches(course.bottom), Some(20));
    assert_eq!(inches(course.top), None);
    assert_eq!(inches(course.height), Some(7));
    assert_eq!(inches(course.runs_out), Some(3));
}

#[test]
fn what_is_logged_with_the_same_figures_is_skipped() {
    let rows = "North,hip,left,1,13,9\nNorth,hip,left,1,13.0,9\nNorth,hip,left,2,9,5\n";
    let first = with(rows).unwrap();
    assert_eq!((first.added, first.skipped), (2, 1));
    let again = import(&first.job, format!("{HEADER}{rows}").as_bytes()).unwrap();
    assert_eq!((again.added, again.skipped, again.new_edges), (0, 3, 0));
    assert_eq!(again.job, first.job);
}

#[test]
fn a_row_with_blank_figures_says_nothing() {
    let first = with("North,hip,left,1,,\n").unwrap();
    assert_eq!((first.added, first.skipped, first.new_edges), (0, 1, 1));
    assert!(named(&first.job, "North").courses().is_empty());
    let csv = format!("{HEADER}North,hip,left,1,13,9\n");
    let filled = import(&first.job, csv.as_bytes()).unwrap();
    assert_eq!(filled.added, 1);
    assert_eq!(
        reading(&filled.job, "North", 1, End::Top),
        Some(Length::from_inches(9))
    );
    let again = format!("{HEADER}North,hip,left,1,,\n");
    assert_eq!(
        import(&filled.job, again.as_bytes()).unwrap().job,
        filled.job
    );
}

#[test]
fn no_reading_is_refused_for_its_geometry() {
    let csv = "edge,kind,hand,course,bottom,top,height,runs_out\nN,hip,left,1,0,400,0,0\nN,hip,left,9,900,0,700,800\n";
    assert_eq!(import(&job(), csv.as_bytes()).unwrap().added, 2);
}

#[test]
fn every_bad_row_is_reported_with_its_line() {
    let mut job = job();
    job.add_edge(Name::or("South", "?"), EdgeKind::Hip, Hand::Right);
    let rows = "North,hip,left,1,13,9\n\
        \n\
        North,ridge,port,zero,13 5/7,x\n\
        North,hip,left,1,13,8\n\
        North,hip,right,3,13,8\n\
        South,hip,left,3,13,8\n\
        South,hip,right,3\n\
        ,hip,left,3,13,8\n\
        West,valley,left,100000,-1,101 m\n\
        \"open,hip,left,1,1,1\n";
    let csv = [HEADER.as_bytes(), rows.as_bytes()].concat();
    let error = import(&job, &csv).unwrap_err();
    insta::assert_snapshot!(error, @r#"
    8 bad rows, nothing was imported
    line 4: kind: "ridge" is no kind of edge, expected hip, valley or rake; hand: "port" is no hand, expected left or right; course: "zero" is no course number, expected 1 to 99999; bottom: "13 5/7" has a fraction no tape shows exactly, expected halves, 4ths, 8ths, 16ths, 32nds or 64ths; top: "x" is not a length, expected one such as 13 5/8, 13.625 or 346 mm
    line 5: course 1 of "North" is on line 2 already with bottom 13, top 9, the row says bottom 13, top 8
    line 6: edge "North" is a left-hand hip, the row says right-hand hip
    line 7: edge "South" is a right-hand hip, the row says left-hand hip
    line 8: 4 cells, expected 6 as in the header
    line 9: edge: a name needs at least one letter or digit that shows
    line 10: course: "100000" is no course number, expected 1 to 99999; bottom: "-1" is below zero, expected zero or more; top: "101 m" is over 100 m, expected at most 100 m
    line 11: 1 cell, expected 6 as in the header: a quote may not be closed
    "#);
}

#[test]
fn text_that_is_not_utf_8_is_a_bad_row() {
    let csv = [HEADER.as_bytes(), b"N\xE9e,hip,left,1,1,1\n"].concat();
    insta::assert_snapshot!(import(&job(), &csv).unwrap_err(), @r#"
    1 bad row, nothing was imported
    line 2: column 1 (A): "N�e" is not UTF-8 text, expected the file saved as UTF-8
    "#);
}

#[test]
fn a_header_that_is_not_right_is_quoted() {
    let say = |csv: &str| import(&job(), csv.as_bytes()).unwrap_err().to_string();
    insta::assert_snapshot!(say(""), @"the file is empty, expected a header line such as edge,kind,hand,course,bottom,top");
    insta::assert_snapshot!(say("edge,kind,hand,course,bottom,top,colour\u{202E}\n"), @r#"line 1: column 7 (G) is named "colour", which is not known, expected edge,kind,hand,course,bottom,top, and height, runs_out, to, slope, other_slope, corner, plane, lot, reads_to, tape_end where there are any"#);
    insta::assert_snapshot!(say("edge,kind,hand,course,bottom,top,edge\n"), @r#"line 1: column 7 (G) is "edge", and so is column 1 (A), expected each once"#);
    insta::assert_snapshot!(say("edge,kind,course,bottom\n"), @"line 1: no column hand, top, expected edge,kind,hand,course,bottom,top");
}

/// Rows that say more of their edge: behind the readings stand
/// `slope,other_slope,corner,plane,lot`.
fn details(job: &Job, rows: &str) -> Result<Imported, ImportError> {
    let header = "edge,kind,hand,course,bottom,top,slope,other_slope,corner,plane,lot";
    import(job, format!("{header}\n{rows}").as_bytes())
}

/// What the edge of that name has beside its readings, blanks for nothing.
fn said(job: &Job, edge: &str) -> [String; 5] {
    let edge = named(job, edge);
    let [said @ .., _, _] = EdgeDetail::ALL.map(|detail| detail.text(edge));
    said
}

const ALL_OF_NORTH: &str = "North,hip,left,1,13,9,4 1/2,26.57 deg,135,North slope,Slate 7\n";
const SAID_OF_NORTH: [&str; 5] = [
    "4.5 in 12",
    "26.57 deg",
    "135 deg",
    "North slope",
    "Slate 7",
];
const NOTHING_SAID: [&str; 5] = ["", "", "90 deg", "", ""];

#[test]
fn the_first_row_of_an_edge_that_says_something_of_it_gives_it() {
    let rows = "North,hip,left,1,40,36,,,,,\n\
        South,hip,right,1,13,9,,,,,\n\
        North,hip,left,2,36,32,4 1/2,,135,,\n\
        North,hip,left,3,32,28,,26.57 deg,,North slope,Slate 7\n";
    let imported = details(&job(), rows).unwrap();
    assert_eq!(said(&imported.job, "North"), SAID_OF_NORTH);
    assert_eq!(said(&imported.job, "South"), NOTHING_SAID);
    assert_eq!((imported.new_edges, imported.filled_in), (2, 0));
}

#[test]
fn a_later_row_may_say_nothing_or_the_same_written_otherwise() {
    let same = "North,hip,left,3,8,7,4.5/12,26.57\u{b0},135 deg, North slope ,Slate\u{200B} 7\n";
    let rows = format!("{ALL_OF_NORTH}North,hip,left,2,9,8,,,,,\n{same}{same}");
    let imported = details(&job(), &rows).unwrap();
    assert_eq!(said(&imported.job, "North"), SAID_OF_NORTH);
    assert_eq!((imported.added, imported.skipped), (3, 1));
}

#[test]
fn a_later_row_that_says_something_else_is_a_bad_row_quoting_both() {
    let rows = format!(
        "{ALL_OF_NORTH}\
        North,hip,left,2,9,8,4,,,,\n\
        North,hip,left,3,9,8,,26.58 deg,,,\n\
        North,hip,left,4,9,8,,,90,,\n\
        North,hip,left,5,9,8,,,,north slope,\n\
        North,hip,left,6,9,8,,,,,Slate 8\n\
        North,hip,left,1,13,8,50 %,,,,Slate 8\n"
    );
    insta::assert_snapshot!(details(&job(), &rows).unwrap_err(), @r#"
    6 bad rows, nothing was imported
    line 3: slope of "North" is "4.5 in 12" on line 2 already, the row says "4 in 12"
    line 4: other_slope of "North" is "26.57 deg" on line 2 already, the row says "26.58 deg"
    line 5: corner of "North" is "135 deg" on line 2 already, the row says "90 deg"
    line 6: plane of "North" is "North slope" on line 2 already, the row says "north slope"
    line 7: lot of "North" is "Slate 7" on line 2 already, the row says "Slate 8"
    line 8: slope of "North" is "4.5 in 12" on line 2 already, the row says "50 %"; lot of "North" is "Slate 7" on line 2 already, the row says "Slate 8"; course 1 of "North" is on line 2 already with bottom 13, top 9, the row says bottom 13, top 8
    "#);
}

#[test]
fn a_square_corner_that_a_row_has_said_stands() {
    let rows = "North,hip,left,1,13,9,,,90,,\nNorth,hip,left,2,9,8,,,135,,\n";
    insta::assert_snapshot!(details(&job(), rows).unwrap_err(), @r#"
    1 bad row, nothing was imported
    line 3: corner of "North" is "90 deg" on line 2 already, the row says "135 deg"
    "#);
}

#[test]
fn what_the_jobs_edge_has_already_may_be_said_again_and_changes_nothing() {
    let first = details(&job(), ALL_OF_NORTH).unwrap().job;
    let again = details(&first, ALL_OF_NORTH).unwrap();
    assert_eq!((again.added, again.skipped, again.filled_in), (0, 1, 0));
    assert_eq!(again.job, first);
    let silent = details(&first, "North,hip,left,2,9,8,,,,,\n").unwrap();
    assert_eq!((silent.added, silent.filled_in), (1, 0));
    assert_eq!(said(&silent.job, "North"), SAID_OF_NORTH);
}

#[test]
fn what_the_jobs_edge_has_otherwise_is_a_bad_row_quoting_both() {
    let job = details(&job(), ALL_OF_NORTH).unwrap().job;
    let rows = "North,hip,left,1,13,9,6,,90,,\n\
        North,hip,left,1,13,9,,6,,South slope,Slate 8\n\
        North,hip,left,1,13,9,4 1/2,,135,,\n\
        North,hip,left,1,13,9,6,,,,\n";
    insta::assert_snapshot!(details(&job, rows).unwrap_err(), @r#"
    3 bad rows, nothing was imported
    line 2: slope of "North" is "4.5 in 12" in the job already, the row says "6 in 12"; corner of "North" is "135 deg" in the job already, the row says "90 deg"
    line 3: other_slope of "North" is "26.57 deg" in the job already, the row says "6 in 12"; plane of "North" is "North slope" in the job already, the row says "South slope"; lot of "North" is "Slate 7" in the job already, the row says "Slate 8"
    line 5: slope of "North" is "4.5 in 12" in the job already, the row says "6 in 12"
    "#);
}

#[test]
fn what_the_jobs_edge_lacks_is_filled_in() {
    let mut before = job();
    let id = before.add_edge(Name::or("North", "?"), EdgeKind::Hip, Hand::Left);
    let rows = "North,hip,left,1,13,9,4 1/2,,,,Slate 7\n";
    let first = details(&before, rows).unwrap();
    assert_eq!((first.added, first.new_edges, first.filled_in), (1, 0, 1));
    assert_eq!(
        said(&first.job, "North"),
        ["4.5 in 12", "", "90 deg", "", "Slate 7"]
    );

    // The readings are there already; a corner of 90 degrees is none given.
    let second = details(&first.job, ALL_OF_NORTH).unwrap();
    assert_eq!((second.added, second.skipped, second.filled_in), (0, 1, 1));
    assert_eq!(said(&second.job, "North"), SAID_OF_NORTH);
    assert_eq!(second.job.edges()[0].id, id);
    assert_eq!(
        second.job.edges()[0].courses(),
        first.job.edges()[0].courses()
    );
}

#[test]
fn of_two_edges_of_one_name_the_first_is_filled_in() {
    let mut before = job();
    for _ in 0..2 {
        before.add_edge(Name::or("North", "?"), EdgeKind::Hip, Hand::Left);
    }
    let imported = details(&before, ALL_OF_NORTH).unwrap();
    let slopes = imported
        .job
        .edges()
        .iter()
        .map(|edge| edge.roof.slope.is_some());
    assert_eq!(slopes.collect::<Vec<_>>(), [true, false]);
}

#[test]
fn what_is_no_slope_corner_or_name_is_reported_with_all_else_in_its_row() {
    let rows = "North,hip,left,1,13,9,steep,85 deg,180,\u{200B},\u{202E}\n\
        North,hip,left,zero,13,9,0,,square,,\n\
        North,hip,left,2,13,9,6,,,,\n";
    insta::assert_snapshot!(details(&job(), rows).unwrap_err(), @r#"
    2 bad rows, nothing was imported
    line 2: slope: "steep" is not a slope, expected one such as 6, 6 in 12, 26.57 deg or 50 %; other_slope: "85 deg" is no roof's slope, expected more than 0 and less than 85 degrees; corner: "180" is no corner of two eaves, expected 15 to 165 degrees; plane: a name needs at least one letter or digit that shows; lot: a name needs at least one letter or digit that shows
    line 3: course: "zero" is no course number, expected 1 to 99999; slope: "0" is no roof's slope, expected more than 0 and less than 85 degrees; corner: "square" is not an angle, expected degrees such as 90 or 135
    "#);
}

#[test]
fn one_column_alone_will_do_for_what_is_said_of_an_edge() {
    for (column, cell, at) in [
        ("slope", "6", 0),
        ("OTHER_SLOPE", "6", 1),
        ("corner", "135", 2),
        ("Plane", "P", 3),
        (" lot ", "L", 4),
    ] {
        let csv = format!("{column},{HEADER}{cell},North,hip,left,1,13,9\n");
        let job = import(&job(), csv.as_bytes()).unwrap().job;
        let said = said(&job, "North");
        for (place, text) in said.iter().enumerate() {
            assert_eq!(
                text != NOTHING_SAID[place],
                place == at,
                "{column}: {said:?}"
            );
        }
    }
}

#[test]
fn of_many_bad_rows_twenty_are_kept_and_the_rest_are_counted() {
    let rows = "x\n".repeat(100_003);
    match with(&rows) {
        Err(ImportError::Rows { bad, more }) => {
            assert_eq!((bad.len(), more), (20, 99_983));
            assert_eq!(bad[19].line, 21);
        }
        other => panic!("{:?}", other.map(|imported| imported.added)),
    }
}

#[test]
fn of_bad_rows_found_at_the_end_the_first_by_line_are_kept() {
    // What a course runs to is known to be missing only when all is read.
    let good = "A,hip,left,1,,,\n".replace(",,,", ",9,9,Nowhere");
    let header = "edge,kind,hand,course,bottom,top,to\n";
    let csv = format!("{header}{good}{}", "x\n".repeat(30));
    let Err(ImportError::Rows { bad, more }) = import(&job(), csv.as_bytes()) else {
        panic!("bad rows were taken");
    };
    assert_eq!((bad.len(), more, bad[0].line), (20, 11, 2));
}

/// The same text in each encoding a spreadsheet writes.
fn utf_16(text: &str, bytes: fn(u16) -> [u8; 2]) -> Vec<u8> {
    std::iter::once(0xFEFF)
        .chain(text.encode_utf16())
        .flat_map(bytes)
        .collect()
}

#[test]
fn utf_16_in_either_order_of_bytes_is_read() {
    let text = format!("{HEADER}N\u{e9}e \u{1F3E0},hip,left,1,13\u{bd},9\r\n");
    for file in [
        utf_16(&text, u16::to_le_bytes),
        utf_16(&text, u16::to_be_bytes),
    ] {
        let log = import(&job(), &file).unwrap().job;
        assert!(
            log.edges()
                .iter()
                .any(|edge| edge.name.as_str() == "N\u{e9}e \u{1F3E0}")
        );
    }
    // As a spreadsheet writes it: parted by tabs.
    let tabs = utf_16(&text.replace(',', "\t"), u16::to_le_bytes);
    assert_eq!(import(&job(), &tabs).unwrap().added, 1);
}

#[test]
fn utf_16_that_cannot_be_read_is_named() {
    let say = |csv: &[u8]| import(&job(), csv).unwrap_err().to_string();
    let whole = utf_16(HEADER, u16::to_le_bytes);
    insta::assert_snapshot!(say(&whole[2..]), @"the text is UTF-16 without a mark that says so, expected the file saved as UTF-8");
    insta::assert_snapshot!(say(&whole[..9]), @"the text is UTF-16 and damaged or cut off, expected the file whole, or saved as UTF-8");
    insta::assert_snapshot!(say(b"\xFF\xFE\x00\xD8a\x00"), @"the text is UTF-16 and damaged or cut off, expected the file whole, or saved as UTF-8");
}

#[test]
fn a_first_line_may_say_what_parts_the_columns() {
    for (said, sign) in [
        ("sep=;", ";"),
        ("\"sep=;\"", ";"),
        ("SEP=,", ","),
        ("sep=\t", "\t"),
    ] {
        let rows = format!("{HEADER}North,hip,left,2,13 5/8,9\n").replace(',', sign);
        for end in ["\n", "\r\n"] {
            let csv = format!("{said}{end}{rows}");
            assert_eq!(import(&job(), csv.as_bytes()).unwrap().added, 1, "{said}");
        }
    }
    let bad = format!("sep=,\n{HEADER}x\n");
    let error = import(&job(), bad.as_bytes()).unwrap_err().to_string();
    assert!(
        error.ends_with("line 3: 1 cell, expected 6 as in the header"),
        "{error}"
    );
    let error = import(&job(), b"sep=#\nedge\n").unwrap_err().to_string();
    insta::assert_snapshot!(error, @r#"line 1: "sep=#" parts no columns, expected sep=, with a comma, a semicolon or a tab"#);
}

#[test]
fn a_date_that_a_spreadsheet_made_is_named_in_its_row() {
    let row = "North,hip,left,2,5-Aug,2026-05-08\n";
    insta::assert_snapshot!(with(row).unwrap_err(), @r#"
    1 bad row, nothing was imported
    line 2: bottom: "5-Aug": the spreadsheet made a date of 5/8, expected it as text: set its cells to text and write it again; top: "2026-05-08": the spreadsheet made a date of 5/8, expected it as text: set its cells to text and write it again
    "#);
    let row = "North,hip,left,2,12,9,12-Jun,06-Dec,,,\n";
    insta::assert_snapshot!(details(&job(), row).unwrap_err(), @r#"
    1 bad row, nothing was imported
    line 2: slope: "12-Jun": the spreadsheet made a date of 6/12, expected it as text: set its cells to text and write it again; other_slope: "06-Dec": the spreadsheet made a date of 6/12, expected it as text: set its cells to text and write it again
    "#);
}

#[test]
fn blanks_that_do_not_break_and_fractions_of_one_letter_are_read() {
    let log = with("North,hip,left,2,13\u{a0}5/8,9\u{bd}\n").unwrap().job;
    let at = |end| reading(&log, "North", 2, end).map(Length::nm);
    assert_eq!(
        (at(End::Bottom), at(End::Top)),
        (Some(346_075_000), Some(241_300_000))
    );
}

#[test]
fn a_row_too_large_to_be_one_of_readings_is_passed_over_and_told() {
    let wide = ",".repeat(2_000);
    let long = format!("\"{}", "x\n".repeat(40_000));
    let rows =
        format!("North,hip,left,1,13,9\n{wide}\nNorth,hip,left,2\n{wide}\n\nWest,hip\n{long}");
    insta::assert_snapshot!(with(&rows).unwrap_err(), @r"
    5 bad rows, nothing was imported
    line 3: 2001 cells, expected at most 1000
    line 4: 4 cells, expected 6 as in the header
    line 5: 2001 cells, expected at most 1000
    line 7: 2 cells, expected 6 as in the header
    line 8: a row of 80001 bytes, expected at most 65536: a quote may not be closed
    ");
    insta::assert_snapshot!(import(&job(), wide.as_bytes()).unwrap_err(), @"line 1: 2001 cells, expected at most 1000");
}

#[test]
fn quotes_in_a_row_that_is_not_too_large_are_read_as_ever() {
    // Inch marks within a cell, doubled quotes, and a line end in a name.
    let name = format!("\"North \"\"a\"\",\n{}\"", " ".repeat(2_000));
    let rows = format!("{name},hip,left,1,13 5/8\",9\"\n");
    assert_eq!(with(&rows).unwrap().added, 1);
}

#[test]
fn more_courses_or_edges_than_any_job_holds_stop_the_reading() {
    let one: String = (1..=100_001)
        .map(|at| format!("E{},hip,left,{},13,9\n", at / 50_000, at % 50_000 + 1))
        .collect();
    insta::assert_snapshot!(with(&one).unwrap_err(), @"line 100002: more than 100000 courses, expected at most as many: split the job in two; nothing was imported");
    let many: String = (1..=100_001)
        .map(|at| format!("E{at},hip,left,1,,\n"))
        .collect();
    insta::assert_snapshot!(with(&many).unwrap_err(), @"line 100002: more than 100000 new edges, expected at most as many: split the job in two; nothing was imported");
}

/// One edge from the top down, and many edges: neither may take the square of
/// its rows, which would be minutes here.
#[test]
fn a_hundred_thousand_rows_in_one_edge_or_in_many_are_no_matter() {
    let rows: String = (1..=99_999)
        .rev()
        .map(|course| format!("North,hip,left,{course},13,9\n"))
        .collect();
    let log = with(&rows).unwrap().job;
    assert!(
        log.edges()[0]
            .courses()
            .is_sorted_by_key(|course| course.number)
    );
    let rows: String = (1..=50_000)
        .map(|edge| format!("{edge},hip,left,1,13,9\n"))
        .collect();
    assert_eq!(with(&rows).unwrap().new_edges, 50_000);
    let rows: String = (1..=50_000)
        .map(|edge| format!("{edge},hip,left,1,13,9,6,7,100,P{edge},L\n"))
        .collect();
    let first = details(&job(), &rows).unwrap();
    assert_eq!(details(&first.job, &rows).unwrap().skipped, 50_000);
}
