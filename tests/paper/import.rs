//! Readings as other programs write them, and an import looked at first.

use crate::bench::Bench;

const PLAIN: &str = "\
edge,kind,hand,course,bottom,top
Süd,hip,left,1,600.5,302
Süd,hip,left,2,302,4.5
";

fn job_from(csv: &str) -> String {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron", "--units", "mm", "--panel-width", "1220"]);
    bench.write("log.csv", csv);
    bench.done(&["import", "roof.ron", "log.csv"]);
    bench.read("roof.ron")
}

#[test]
fn every_way_a_spreadsheet_writes_the_same_rows_gives_the_same_job() {
    let expected = job_from(PLAIN);
    let semicolons = PLAIN.replace(',', ";").replace('.', ",");
    for csv in [
        semicolons.clone(),
        format!("\u{FEFF}{PLAIN}"),
        PLAIN.replace('\n', "\r\n"),
        format!("\u{FEFF}{}", semicolons.replace('\n', "\r\n")),
        PLAIN.replace("600.5", "\"600,5\""),
    ] {
        assert_eq!(job_from(&csv), expected, "{csv}");
    }
}

#[test]
fn a_bad_row_among_semicolons_is_named_by_its_line() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    bench.write(
        "log.csv",
        "edge;kind;hand;course;bottom;top\r\nA;hip;left;1;12,5;1/2\r\nA;hip;left;2;12,5,5;1\r\n",
    );
    insta::assert_snapshot!(bench.refused(1, &["import", "roof.ron", "log.csv", "--dry-run"]));
}

#[test]
fn a_dry_run_says_what_would_change_and_what_would_be_doubtful_and_writes_nothing() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    let rows = |from: u32, to: u32| -> String {
        (from..=to)
            .map(|course| {
                // Course 5 was read with an inch burned off the bottom.
                let bottom = 100 - 12 * course + u32::from(course == 5);
                format!("North,hip,left,{course},{bottom},{}\n", 88 - 12 * course)
            })
            .collect()
    };
    let head = "edge,kind,hand,course,bottom,top\n";
    bench.write("first.csv", &(head.to_owned() + &rows(1, 3)));
    bench.write(
        "more.csv",
        &format!("{head}{}West,rake,right,1,30,30\n", rows(1, 7)),
    );
    bench.done(&["import", "roof.ron", "first.csv"]);
    let before = bench.read("roof.ron");
    insta::assert_snapshot!(bench.done(&["import", "roof.ron", "more.csv", "--dry-run"]));
    assert_eq!(bench.read("roof.ron"), before);
}
