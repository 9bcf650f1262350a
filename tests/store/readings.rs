//! Readings as CSV.

use bendmark::domain::course::{CourseNumber, End};
use bendmark::domain::edge::EdgeKind;
use bendmark::domain::hand::Hand;
use bendmark::domain::job::Job;
use bendmark::domain::length::Length;
use bendmark::domain::name::Name;
use bendmark::domain::setting::Setting;
use bendmark::domain::settings::Settings;
use bendmark::storage::readings_csv::{ImportError, Imported, import};

const HEADER: &str = "edge,kind,hand,course,bottom,top\n";

fn job() -> Job {
    Job::new(Name::or("Cedar Lane", "?"), Settings::default())
}

fn with(rows: &str) -> Result<Imported, ImportError> {
    import(&job(), format!("{HEADER}{rows}").as_bytes())
}

fn reading(job: &Job, edge: &str, course: u32, end: End) -> Option<Length> {
    let edge = job.edge_named(&Name::new(edge).unwrap()).unwrap();
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
    } = imported;
    assert_eq!((added, skipped, new_edges), (3, 0, 2));
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
    let inches = |reading: Option<bendmark::domain::course::Reading>| {
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
fn a_course_of_which_nothing_is_written_yet_is_filled() {
    let first = with("North,hip,left,1,,\n").unwrap();
    assert_eq!(first.added, 1);
    let again = format!("{HEADER}North,hip,left,1,,\n");
    assert_eq!(import(&first.job, again.as_bytes()).unwrap().skipped, 1);
    let csv = format!("{HEADER}North,hip,left,1,13,9\n");
    let filled = import(&first.job, csv.as_bytes()).unwrap();
    assert_eq!(filled.added, 1);
    assert_eq!(
        reading(&filled.job, "North", 1, End::Top),
        Some(Length::from_inches(9))
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
fn a_course_in_the_log_with_other_figures_is_a_bad_row() {
    let job = with("North,hip,left,1,13 5/8,9\n").unwrap().job;
    let csv = format!("{HEADER}North,hip,left,1,13 5/8,\nNorth,hip,left,2,9,5\n");
    insta::assert_snapshot!(import(&job, csv.as_bytes()).unwrap_err(), @r#"
    1 bad row, nothing was imported
    line 2: course 1 of "North" is in the log already with bottom 13 5/8, top 9, the row says bottom 13 5/8, top not read
    "#);
}

#[test]
fn text_that_is_not_utf_8_is_a_bad_row() {
    let csv = [HEADER.as_bytes(), b"N\xE9e,hip,left,1,1,1\n"].concat();
    insta::assert_snapshot!(import(&job(), &csv).unwrap_err(), @r#"
    1 bad row, nothing was imported
    line 2: "N�e" is not UTF-8 text, expected the file saved as UTF-8
    "#);
}

#[test]
fn a_header_that_is_not_right_is_quoted() {
    let say = |csv: &str| import(&job(), csv.as_bytes()).unwrap_err().to_string();
    insta::assert_snapshot!(say(""), @"the file is empty, expected a header line such as edge,kind,hand,course,bottom,top");
    insta::assert_snapshot!(say("edge,kind,hand,course,bottom,top,colour\u{202E}\n"), @r#"line 1: unknown column "colour", expected edge,kind,hand,course,bottom,top, and height, runs_out where there are any"#);
    insta::assert_snapshot!(say("edge,kind,hand,course,bottom,top,edge\n"), @r#"line 1: column "edge" is there twice, expected each once"#);
    insta::assert_snapshot!(say("edge,kind,course,bottom\n"), @"line 1: no column hand, top, expected edge,kind,hand,course,bottom,top");
    insta::assert_snapshot!(say("edge;kind;hand;course;bottom;top\n"), @r#"line 1: unknown column "edge;kind;hand;course;bottom;top", expected edge,kind,hand,course,bottom,top, and height, runs_out where there are any"#);
}

#[test]
fn of_a_hundred_thousand_bad_rows_the_text_is_kept_and_of_more_the_count() {
    let rows = "x\n".repeat(100_003);
    match with(&rows) {
        Err(ImportError::Rows { bad, more }) => {
            assert_eq!((bad.len(), more), (100_000, 3));
            assert_eq!(bad[99_999].line, 100_001);
        }
        other => panic!("{:?}", other.map(|imported| imported.added)),
    }
}

/// One edge from the top down, and many edges: neither may take the square of
/// its rows, which would be minutes here.
#[test]
fn a_hundred_thousand_rows_in_one_edge_or_in_many_are_no_matter() {
    let rows: String = (1..=99_999)
        .rev()
        .map(|course| format!("North,hip,left,{course},13,9\n"))
        .collect();
    let job = with(&rows).unwrap().job;
    assert!(
        job.edges()[0]
            .courses()
            .is_sorted_by_key(|course| course.number)
    );
    let rows: String = (1..=50_000)
        .map(|edge| format!("{edge},hip,left,1,13,9\n"))
        .collect();
    assert_eq!(with(&rows).unwrap().new_edges, 50_000);
}
