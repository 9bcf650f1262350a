//! A sheet that grows and changes while the bench corrects the log.
//!
//! The rule stands here a second time, as a table and as a model that knows
//! nothing of the program's own: what is said and logged are plain numbers.
//!
//! Over 400 lines: the table and the model stand beside what they are held to.

use crate::jobs::cases;
use bendmark::domain::{
    bench::Progress,
    cutting::{CutList, Job, two_readings},
    log::{Course, CourseNumber, CourseShift, Edge, Reading},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::Settings,
};
use bendmark::storage::{
    job_file::{decode, encode},
    readings::{Imported, import},
};
use proptest::prelude::*;

fn job() -> Job {
    Job::new(Name::or("Cedar Lane", "?"), Settings::default())
}

fn number(course: u32) -> CourseNumber {
    CourseNumber::new(course).unwrap()
}

fn inches(inches: i64) -> Option<Reading> {
    Reading::new(Length::from_inches(inches)).ok()
}

fn plain(reading: Option<Reading>) -> Option<i64> {
    reading.map(|reading| reading.length().nm() / 25_400_000)
}

/// A cell of the sheet; blank where it says nothing.
fn cell(figure: Option<i64>) -> String {
    figure.map_or_else(String::new, |figure| figure.to_string())
}

/// `job` with rows of `edge,kind,hand,course,bottom,top,runs_out,height`.
fn sheet(job: &Job, rows: &str) -> Imported {
    let csv = format!("edge,kind,hand,course,bottom,top,runs_out,height\n{rows}");
    import(job, csv.as_bytes()).unwrap()
}

fn first(job: &Job) -> &Edge {
    &job.edges()[0]
}

/// Types a course at the bench; nothing in it takes it out.
fn type_in(job: &mut Job, change: impl FnOnce(&mut Course), course: u32) {
    let id = first(job).id;
    let edge = job.edge_mut(id).unwrap();
    let unread = Course::unread(number(course));
    let mut typed = edge.course(number(course)).copied().unwrap_or(unread);
    change(&mut typed);
    if typed.is_blank() {
        edge.remove(number(course));
    } else {
        edge.put(typed);
    }
}

/// `last said, sheet now, log now -> log then, whether it is two readings`, the
/// figures in inches and `-` for none.
const TABLE: &str = "
    -  -  -  ->  -  one
    -  -  7  ->  7  one
    5  -  5  ->  5  one
    5  -  7  ->  7  one
    5  -  -  ->  -  one
    5  5  5  ->  5  one
    5  5  7  ->  7  one
    5  5  -  ->  -  one
    -  6  -  ->  6  one
    -  6  6  ->  6  one
    -  6  7  ->  7  two
    5  6  5  ->  6  one
    5  6  -  ->  6  one
    5  6  6  ->  6  one
    5  6  7  ->  7  two
";

#[test]
fn each_row_of_the_table_comes_out_for_every_figure() {
    for row in TABLE.lines().filter(|row| !row.trim().is_empty()) {
        let words: Vec<&str> = row.split_whitespace().collect();
        let [said, now, log, _, then, two] = words[..] else {
            panic!("{row}");
        };
        let [said, now, log, then] = [said, now, log, then].map(|word| word.parse().ok());
        for figure in 0..4 {
            check_row(row, figure, [said, now, log, then], two == "two");
        }
    }
}

/// One row of the table for the figure in that column of the sheet.
fn check_row(row: &str, figure: usize, [said, now, log, then]: [Option<i64>; 4], two: bool) {
    let line = |figures: Option<i64>| {
        let cells: Vec<String> = (0..4)
            .map(|at| cell(figures.filter(|_| at == figure)))
            .collect();
        format!("H,hip,left,1,{}\n", cells.join(","))
    };
    let mut job = sheet(&job(), &line(said)).job;
    type_in(
        &mut job,
        |course| *at(course, figure) = log.and_then(inches),
        1,
    );
    let before = two_readings(&job);
    assert_eq!(before, Vec::<String>::new(), "{row}");
    let imported = sheet(&job, &line(now));
    let course = first(&imported.job).course(number(1)).copied();
    let mut course = course.unwrap_or(Course::unread(number(1)));
    assert_eq!(
        plain(*at(&mut course, figure)),
        then,
        "figure {figure}: {row}"
    );
    let found = two_readings(&imported.job);
    assert_eq!(found.len(), usize::from(two), "figure {figure}: {row}");
    let taken = imported.added + imported.changed;
    assert_eq!(taken, usize::from(then != log), "figure {figure}: {row}");
    // The same sheet again changes no byte.
    let again = sheet(&imported.job, &line(now)).job;
    assert_eq!(encode(&again), encode(&imported.job), "{row}");
}

fn at(course: &mut Course, figure: usize) -> &mut Option<Reading> {
    match figure {
        0 => &mut course.bottom,
        1 => &mut course.top,
        2 => &mut course.runs_out,
        _ => &mut course.height,
    }
}

#[test]
fn what_the_log_of_version_1_holds_was_never_said_by_a_sheet() {
    let old = decode(include_bytes!("version_1.ron")).unwrap().job;
    assert!(old.edges().iter().all(|edge| edge.said.is_empty()));
}

#[test]
fn two_readings_are_said_with_both_figures_and_stay_until_one_is_chosen() {
    let mut job = sheet(&job(), "H,hip,left,1,20,16,,\nH,hip,left,2,16,12,,\n").job;
    type_in(&mut job, |course| course.top = inches(13), 2);
    let grown = "H,hip,left,1,20,16,,\nH,hip,left,2,16,11,,\nH,hip,left,3,12,8,,\n";
    let imported = sheet(&job, grown);
    assert_eq!(
        (imported.added, imported.changed, imported.skipped),
        (1, 0, 1)
    );
    let said = two_readings(&imported.job);
    insta::assert_snapshot!(said.join("\n"), @"H: two readings of course 2 top: the log has 13 in, the sheet 11 in");
    let again = sheet(&imported.job, grown).job;
    assert_eq!(again, imported.job);

    let two = first(&again).two_readings().next().unwrap();
    for (sheets, expected) in [(false, 13), (true, 11)] {
        let mut job = again.clone();
        let id = first(&job).id;
        job.edge_mut(id).unwrap().choose(&two, sheets);
        assert_eq!(two_readings(&job), Vec::<String>::new());
        let top = first(&job).course(number(2)).unwrap().top;
        assert_eq!(plain(top), Some(expected));
        // What was chosen stands when the same sheet comes again.
        assert_eq!(sheet(&job, grown).job, job);
    }
}

#[test]
fn the_log_typed_as_the_sheet_says_is_one_reading_again() {
    let mut job = sheet(&job(), "H,hip,left,1,20,16,,\n").job;
    type_in(&mut job, |course| course.top = inches(13), 1);
    let mut job = sheet(&job, "H,hip,left,1,20,11,,\n").job;
    assert_eq!(two_readings(&job).len(), 1);
    type_in(&mut job, |course| course.top = inches(11), 1);
    assert_eq!(two_readings(&job).len(), 0);
}

/// What a course with a bottom of 5 holds as `top` and `runs_out`.
#[track_caller]
fn check_out(
    rows: &[&str],
    typed: Option<(Option<i64>, Option<i64>)>,
    expected: (i64, i64),
    two: usize,
) {
    let (last, before) = rows.split_last().unwrap();
    let line = |row: &str| format!("H,hip,left,1,5,{row},\n");
    let mut job = before
        .iter()
        .fold(job(), |job, row| sheet(&job, &line(row)).job);
    if let Some((top, runs_out)) = typed {
        type_in(
            &mut job,
            |course| {
                (course.top, course.runs_out) = (top.and_then(inches), runs_out.and_then(inches))
            },
            1,
        );
    }
    let job = sheet(&job, &line(last)).job;
    let course = first(&job).courses()[0];
    let [top, runs_out] = [course.top, course.runs_out].map(|figure| plain(figure).unwrap_or(-1));
    assert_eq!(((top, runs_out), two_readings(&job).len()), (expected, two));
}

#[test]
fn a_reading_and_runs_out_take_each_others_place_only_where_the_sheet_said_both() {
    // `top,runs_out`; -1 for none.
    check_out(&["1,", ",7"], None, (-1, 7), 0);
    check_out(&[",7", "1,"], None, (1, -1), 0);
    check_out(&["1,", ",7", "1,"], None, (1, -1), 0);
    check_out(&["1,", ",7"], Some((Some(2), None)), (2, -1), 1);
    check_out(&[",7", "1,"], Some((None, Some(6))), (-1, 6), 1);
    check_out(&["1,", "2,"], Some((None, Some(6))), (-1, 6), 1);
    check_out(&["1,", "1,"], Some((None, Some(6))), (-1, 6), 0);
    check_out(&["1,7", "1,7"], None, (1, 7), 0);
}

#[test]
fn a_runs_out_that_is_chosen_takes_the_reading_at_its_end_away() {
    let mut job = sheet(&job(), "H,hip,left,1,5,1,,\n").job;
    type_in(&mut job, |course| course.top = inches(2), 1);
    let mut job = sheet(&job, "H,hip,left,1,5,,7,\n").job;
    let two = first(&job).two_readings().next().unwrap();
    let id = first(&job).id;
    job.edge_mut(id).unwrap().choose(&two, true);
    let course = first(&job).courses()[0];
    assert_eq!((plain(course.bottom), plain(course.top)), (Some(5), None));
    assert_eq!(plain(course.runs_out), Some(7));
}

#[test]
fn a_name_that_differs_only_by_case_or_spaces_is_a_bad_row_quoting_both() {
    let mut job = job();
    job.add_edge(Name::or("North hip", "?"), EdgeKind::Hip, Hand::Left);
    let csv = "edge,kind,hand,course,bottom,top\n\
        north hip,hip,left,1,13,9\n\
        NorthHip,hip,left,1,13,9\n\
        North hip,hip,left,1,13,9\n\
        South,hip,left,1,13,9\n\
        SOUTH,hip,left,2,9,5\n";
    insta::assert_snapshot!(import(&job, csv.as_bytes()).unwrap_err(), @r#"
    3 bad rows, nothing was imported
    line 2: edge: "north hip" differs from "North hip" only by case or spaces, expected that name or a name of its own
    line 3: edge: "NorthHip" differs from "North hip" only by case or spaces, expected that name or a name of its own
    line 6: edge: "SOUTH" differs from "South" only by case or spaces, expected that name or a name of its own
    "#);
    // Two edges that a job has already are two.
    job.add_edge(Name::or("north hip", "?"), EdgeKind::Hip, Hand::Left);
    let csv = "edge,kind,hand,course,bottom,top\nnorth hip,hip,left,1,13,9\n";
    let imported = import(&job, csv.as_bytes()).unwrap();
    assert_eq!(imported.job.edges()[1].courses().len(), 1);
}

#[test]
fn a_sheet_keeps_its_own_numbers_where_a_course_was_put_in_at_the_bench() {
    let rows = "Hip 1,hip,left,1,60,50,,\nHip 1,hip,left,2,50,40,,\n";
    let mut job = sheet(&job(), rows).job;
    let id = first(&job).id;
    assert!(job.shift_courses(id, CourseShift::In(number(2))));
    assert_eq!(
        plain(first(&job).course(number(3)).unwrap().bottom),
        Some(50)
    );
    let again = sheet(&job, rows);
    assert_eq!(encode(&again.job).unwrap(), encode(&job).unwrap());
}

#[test]
fn names_that_would_be_cut_never_join_two_edges() {
    let long = "x".repeat(60);
    let csv = format!(
        "edge,kind,hand,course,bottom,top\n{long}a,hip,left,1,13,9\n{long}b,hip,left,2,9,5\n"
    );
    insta::assert_snapshot!(import(&job(), csv.as_bytes()).unwrap_err(), @r#"
    2 bad rows, nothing was imported
    line 2: edge: "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx..." is longer than a name, expected at most 60 characters, or two names may be cut to one
    line 3: edge: "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx..." is longer than a name, expected at most 60 characters, or two names may be cut to one
    "#);
    let csv = format!("edge,kind,hand,course,bottom,top\n {long} ,hip,left,1,13,9\n");
    assert_eq!(import(&job(), csv.as_bytes()).unwrap().new_edges, 1);
}

/// Rows of one edge with so many courses, 4 in narrower each.
fn rows(edge: &str, courses: u32) -> String {
    let row = |course| {
        format!(
            "{edge},hip,left,{course},{},{},,\n",
            60 - 4 * course,
            56 - 4 * course
        )
    };
    (1..=courses).map(row).collect()
}

#[test]
fn from_four_courses_on_the_same_figures_are_asked_about() {
    let said = |job: &Job, rows: &str| -> Vec<String> {
        let same = sheet(job, rows).same_figures;
        same.iter().map(ToString::to_string).collect()
    };
    let one = sheet(&job(), &rows("H1", 6)).job;
    assert_eq!(said(&one, &rows("H2", 3)), Vec::<String>::new());
    let asked = ["\"H2\": same figures as \"H1\": another name?"];
    assert_eq!(said(&one, &rows("H2", 4)), asked);
    assert_eq!(said(&job(), &(rows("H1", 4) + &rows("H2", 4))), asked);
    assert_eq!(
        said(&job(), &(rows("H1", 4) + &rows("H2", 6))),
        ["\"H1\": same figures as \"H2\": another name?"]
    );
    // One figure apart, it is an edge of its own.
    let other = rows("H2", 4).replace(",4,44,40", ",4,44,40 1/8");
    assert_eq!(said(&one, &other), Vec::<String>::new());
    // What was taken is not asked about again by the same sheet.
    let both = sheet(&one, &rows("H2", 4)).job;
    assert_eq!(said(&both, &rows("H2", 4)), Vec::<String>::new());
}

#[test]
fn how_many_marked_pieces_no_longer_fit_is_counted() {
    let job = sheet(&job(), &rows("H", 4)).job;
    let list = CutList::of(&job, &Progress::of(job.events()));
    assert_eq!(list.no_longer_fit(), 0);
}

/// The model: what the sheet last said and the log has of one figure.
#[derive(Clone, Copy, Default, Debug)]
struct Figure {
    said: Option<i64>,
    log: Option<i64>,
    two: bool,
}

impl Figure {
    fn sheet(&mut self, now: Option<i64>) {
        if now.is_none() || now == self.said {
            return;
        }
        let untouched = self.log.is_none() || self.log == self.said;
        self.two = !untouched && self.log != now;
        if untouched {
            self.log = now;
        }
        self.said = now;
    }

    fn is_two(&self) -> bool {
        self.two && self.log != self.said
    }

    fn choose(&mut self, sheets: bool) {
        if sheets {
            self.log = self.said;
        }
        self.two = false;
    }
}

/// What happens to a job, one thing after another.
#[derive(Clone, Debug)]
enum Step {
    /// A version of the sheet: bottom, top and height of each course it names.
    Sheet(Vec<(u32, [Option<i64>; 3])>),
    /// A figure typed, or taken out.
    Typed(u32, usize, Option<i64>),
    /// Two readings, the sheet's chosen or the log's.
    Chosen(u32, usize, bool),
    /// Saved and opened again.
    Reopened,
}

const COURSES: u32 = 4;

fn steps() -> impl Strategy<Value = Vec<Step>> {
    // Few figures, so that sheet and bench often come to the same one.
    let figure = || proptest::option::weighted(0.8, 10_i64..14);
    let course = || 1..=COURSES;
    let row = (course(), [figure(), figure(), figure()]);
    let version = proptest::collection::vec(row, 1..6).prop_map(|mut rows| {
        rows.sort_by_key(|(course, _)| *course);
        rows.dedup_by_key(|(course, _)| *course);
        Step::Sheet(rows)
    });
    let step = prop_oneof![
        4 => version,
        4 => (course(), 0..3_usize, figure()).prop_map(|(course, at, to)| Step::Typed(course, at, to)),
        2 => (course(), 0..3_usize, any::<bool>()).prop_map(|(course, at, sheets)| Step::Chosen(course, at, sheets)),
        1 => Just(Step::Reopened),
    ];
    proptest::collection::vec(step, 1..14)
}

/// Bottom, top and height as the columns and the model have them.
fn of_model(course: &mut Course, figure: usize) -> &mut Option<Reading> {
    at(course, [0, 1, 3][figure])
}

fn apply(job: &mut Job, model: &mut [[Figure; 3]], step: &Step) {
    match step {
        Step::Sheet(version) => {
            let row = |(course, [bottom, top, height]): &(u32, [Option<i64>; 3])| {
                format!(
                    "H,hip,left,{course},{},{},,{}\n",
                    cell(*bottom),
                    cell(*top),
                    cell(*height)
                )
            };
            let rows: String = version.iter().map(row).collect();
            *job = sheet(job, &rows).job;
            let again = sheet(job, &rows).job;
            assert_eq!(encode(&again), encode(job));
            for (course, figures) in version {
                for (figure, now) in model[*course as usize - 1].iter_mut().zip(figures) {
                    figure.sheet(*now);
                }
            }
        }
        Step::Typed(course, figure, to) => {
            type_in(
                job,
                |typed| *of_model(typed, *figure) = to.and_then(inches),
                *course,
            );
            model[*course as usize - 1][*figure].log = *to;
        }
        Step::Chosen(course, figure, sheets) => {
            let places = ["bottom", "top", "height"];
            let two = first(job)
                .two_readings()
                .find(|two| two.course == number(*course) && two.figure.word() == places[*figure]);
            let known = &mut model[*course as usize - 1][*figure];
            assert_eq!(two.is_some(), known.is_two());
            if let Some(two) = two {
                known.choose(*sheets);
                let id = first(job).id;
                job.edge_mut(id).unwrap().choose(&two, *sheets);
            }
        }
        Step::Reopened => *job = decode(&encode(job).unwrap()).unwrap().job,
    }
}

proptest! {
    #![proptest_config(cases(128))]

    #[test]
    fn prop_random_orders_of_sheets_and_bench_edits_agree_with_the_model(steps in steps()) {
        let mut job = job();
        job.add_edge(Name::or("H", "?"), EdgeKind::Hip, Hand::Left);
        let mut model = vec![[Figure::default(); 3]; COURSES as usize];
        for step in &steps {
            apply(&mut job, &mut model, step);
            for (course, figures) in (1..).zip(&model) {
                let logged = first(&job).course(number(course)).copied();
                let mut logged = logged.unwrap_or(Course::unread(number(course)));
                for (at, figure) in figures.iter().enumerate() {
                    prop_assert_eq!(plain(*of_model(&mut logged, at)), figure.log);
                }
            }
            let two = model.iter().flatten().filter(|figure| figure.is_two());
            prop_assert_eq!(first(&job).two_readings().count(), two.count());
        }

    }
}

mod board_to_board {
    use super::*;
    use bendmark::domain::log::EdgeId;

    const TWO: &str =
        "edge,kind,hand,course,bottom,top,to\nEast,hip,left,1,45,34,\nWest,hip,right,1,45,34,\n";

    fn fresh() -> Job {
        Job::new(Name::or("Peak", "?"), Settings::default())
    }

    fn why(job: &Job, rows: &str) -> String {
        let error = import(job, rows.as_bytes()).unwrap_err();
        error.to_string()
    }

    #[test]
    fn a_row_says_to_which_edge_its_course_runs_wherever_that_edge_stands() {
        let rows = "edge,kind,hand,course,bottom,top,to\nEast,hip,left,9,40,15,West\nEast,hip,left,10,20,meet 11.2,West\nWest,hip,right,1,45,34,\n";
        let job = import(&fresh(), rows.as_bytes()).unwrap().job;
        let course = |number| {
            let number = CourseNumber::new(number).unwrap();
            *job.edges()[0].course(number).unwrap()
        };
        assert_eq!(course(9).to, Some(EdgeId(2)));
        assert_eq!((course(10).to, course(10).top), (Some(EdgeId(2)), None));
        assert!(course(10).runs_out.is_some());
        // The same sheet again changes nothing.
        let again = import(&job, rows.as_bytes()).unwrap();
        assert_eq!((&again.job, again.added, again.changed), (&job, 0, 0));
    }

    #[test]
    fn what_does_not_run_to_an_edge_of_the_other_hand_is_a_bad_row() {
        let row = |row: &str| why(&fresh(), &format!("{TWO}{row}\n"));
        insta::assert_snapshot!(row("East,hip,left,9,40,15,Wst"), @r#"
        1 bad row, nothing was imported
        line 4: to: "Wst" is no edge of the job or the file
        "#);
        insta::assert_snapshot!(row("East,hip,left,9,40,15,East"), @r#"
        1 bad row, nothing was imported
        line 4: to: "East" has pieces of the same hand, expected an edge of the other
        "#);
        insta::assert_snapshot!(row("East,hip,left,9,40,meet 11.2,"), @r#"
        1 bad row, nothing was imported
        line 4: top: "meet 11.2", expected only where the column to names another edge, and no runs_out
        "#);
        insta::assert_snapshot!(row("East,hip,left,9,40,15,West\nEast,hip,left,9,40,15,West end"), @r#"
        1 bad row, nothing was imported
        line 5: course 9 of "East" runs to "West" on line 4 already, the row says "West end"
        "#);
    }

    #[test]
    fn a_course_that_is_read_elsewhere_takes_no_readings_of_its_own() {
        let row = |row: &str| why(&fresh(), &format!("{TWO}{row}\n"));
        insta::assert_snapshot!(row("East,hip,left,9,40,15,West\nWest,hip,right,9,40,15,"), @r#"
        1 bad row, nothing was imported
        line 5: course 9 is read from board to board at "East", expected no readings of it here
        "#);
        let job = import(
            &fresh(),
            format!("{TWO}East,hip,left,9,40,15,West\n").as_bytes(),
        );
        let job = job.unwrap().job;
        let later = "edge,kind,hand,course,bottom,top\nWest,hip,right,9,40,15\n";
        insta::assert_snapshot!(why(&job, later), @r#"
        1 bad row, nothing was imported
        line 2: course 9 is read from board to board at "East", expected no readings of it here
        "#);
        let own = "edge,kind,hand,course,bottom,top,to\nEast,hip,left,1,,,West\n";
        let job = import(&fresh(), TWO.as_bytes()).unwrap().job;
        insta::assert_snapshot!(why(&job, own), @r#"
        1 bad row, nothing was imported
        line 2: course 1 of "East" runs to "West", which has readings of its own there: clear them first
        "#);
    }
}
