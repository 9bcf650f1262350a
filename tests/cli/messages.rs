//! What is said in plain words, whatever brings it about: spreadsheets' files,
//! odd file names, wrong usage, a disk's refusals.

use super::Bench;

/// Words of programmers, which have no business in a message.
const NOT_FOR_USERS: [&str; 22] = [
    "struct ",
    "enum ",
    "variant",
    "identifier",
    "os error",
    "entity",
    "utf-8 sequence",
    "string",
    "integer",
    "boolean",
    "float",
    "option",
    "tuple",
    "parse",
    "invalid digit",
    "argument",
    "RON",
    "recursion",
    "unit ",
    "newtype",
    "`",
    "..=",
];

#[track_caller]
fn plain(said: &str) {
    // The usage line names its parts as every command's help does.
    let said = said.replace("[OPTIONS]", "");
    for word in NOT_FOR_USERS {
        assert!(!said.contains(word), "{word}: {said}");
    }
}

#[test]
fn no_programmers_words_are_said_of_a_damaged_file() {
    let bench = Bench::with_readings();
    let whole = bench.read("roof.ron");
    std::fs::remove_file(bench.0.path().join("roof.ron.bak")).unwrap();
    let _ = std::fs::remove_dir_all(bench.0.path().join("copies"));
    let mut seen = std::collections::BTreeSet::new();
    let mut edits: Vec<String> = [
        ("bottom: ", "bottom: x"),
        ("bottom: ", "bottom: \"1\""),
        ("kind: Hip", "kind: 5"),
        ("kind: Hip", "kind: \"Hip\""),
        ("edges: [", "edges: {"),
        ("edges: [", "edges: 5 ["),
        ("name: \"", "name: 5 \""),
        ("name: \"", "name: \"\\q"),
        ("(id: 1", "Course(id: 1"),
        ("(id: 1", "(id: -1"),
        ("(id: 1", "(id: 1.5"),
        ("(id: 1", "(r#id: 1"),
        ("(id: 1", "(i-d: 1"),
        ("(id: 1", "(id: 99999999999999999999"),
        ("(id: 1", "(id: true"),
        ("(id: 1", "(id: 0x"),
        ("version: 2", "version: \"2\""),
        ("version: 2", "version: 2.5"),
        ("settings: (", "settings: /* ("),
        ("by_kind: {", "by_kind: ["),
        ("allowance: Along(", "allowance: Along "),
        ("hand: Left", "hand: ["),
        ("hand: Left", "hand: ()"),
        ("hand: Left", "hand: 'L'"),
        ("least_turn_up: ", "least_turn_up: None"),
        ("next_edge: ", "next_edge: ["),
        ("name: \"", "name: Some(\""),
        ("(id: 1", "[id: 1"),
    ]
    .into_iter()
    .map(|(from, to)| whole.replacen(from, to, 1))
    .collect();
    edits.extend((1..60).map(|part| {
        let cut = whole.len() * part / 60;
        whole[..cut].to_owned()
    }));
    edits.extend([
        String::new(),
        "x".to_owned(),
        "(".repeat(5_000),
        "edge,kind".to_owned(),
    ]);
    for edit in edits {
        assert_ne!(edit, whole);
        bench.write("roof.ron", &edit);
        let said = bench.run(&["sheet", "roof.ron"]);
        plain(&said.err);
        seen.insert(said.err);
    }
    assert!(seen.len() > 30, "{seen:#?}");
}

#[test]
// Over 60 lines: a line a way to go wrong.
fn no_programmers_words_are_said_of_wrong_usage() {
    let bench = Bench::with_readings();
    let all = [
        "frob x",
        "sheet",
        "sheet a b",
        "sheet --frob",
        "sheet --outpt x",
        "sheet a --format x",
        "sheet a --width x",
        "sheet a --width",
        "sheet --to-do --to-do a",
        "sheet a --force",
        "form a --courses 1000",
        "form a --courses x",
        "completions",
        "sheet a --format=",
        "sheet a --to-do=3",
        "x sheet a",
        "new a --panel-width x",
        "new a --blade=",
    ];
    let mut text = String::new();
    for args in all {
        let said = bench.refused(2, &args.split(' ').collect::<Vec<_>>());
        plain(&said);
        text += &format!("{args}\n  {}\n", said.lines().next().unwrap());
    }
    insta::assert_snapshot!(text, @r#"
    frob x
      bendmark: "x" is not known here, expected what --help lists
    sheet
      bendmark: <JOB> is missing, expected it
    sheet a b
      bendmark: "b" is not known here, expected what --help lists
    sheet --frob
      bendmark: "--frob" is not known here, expected what --help lists
    sheet --outpt x
      bendmark: "--outpt" is not known here, expected --output perhaps
    sheet a --format x
      bendmark: --format <FORMAT>: "x", expected one of text, csv, json, html
    sheet a --width x
      bendmark: --width <COLUMNS>: "x", expected a whole number
    sheet a --width
      bendmark: --width <COLUMNS>: nothing is given, expected something
    sheet --to-do --to-do a
      bendmark: --to-do is given twice, expected once
    sheet a --force
      bendmark: --output <FILE> is missing, expected it
    form a --courses 1000
      bendmark: --courses <N>: "1000", expected a whole number 1 to 200
    form a --courses x
      bendmark: --courses <N>: "x", expected a whole number
    completions
      bendmark: <SHELL> is missing, expected it
    sheet a --format=
      bendmark: --format <FORMAT>: nothing is given, expected one of text, csv, json, html
    sheet a --to-do=3
      bendmark: --to-do: "3", expected nothing behind it
    x sheet a
      bendmark: "sheet" stands behind a job, expected it first: bendmark sheet JOB
    new a --panel-width x
      bendmark: --panel-width: "x" is not a length, expected one such as 13 5/8, 13.625 or 346 mm
    new a --blade=
      bendmark: --blade: "" is not one of the choices, expected right or left
    "#);
}

#[cfg(unix)]
#[test]
fn no_programmers_words_are_said_of_what_the_disk_refuses() {
    use std::os::unix::fs::symlink;
    let bench = Bench::with_readings();
    let root = bench.0.path();
    symlink("loop", root.join("loop")).unwrap();
    std::fs::create_dir(root.join("folder")).unwrap();
    for args in [
        ["sheet", "loop", "--to-do"],
        ["sheet", "folder", "--to-do"],
        ["sheet", "roof.ron/x", "--to-do"],
        ["import", "roof.ron", "loop"],
        ["import", "roof.ron", "nothing.csv"],
        ["import", "roof.ron", "/dev/null"],
        ["new", "no/such/folder.ron", "--name=x"],
        ["new", "loop", "--name=x"],
        ["sheet", "roof.ron", "--output=no/such.txt"],
    ] {
        plain(&bench.refused(1, &args));
    }
    let full = std::fs::OpenOptions::new().write(true).open("/dev/full");
    if let Ok(full) = full {
        let mut command = bench.command(&["sheet", "roof.ron"]);
        let output = command.stdout(full).output().unwrap();
        let said = String::from_utf8(output.stderr).unwrap();
        insta::assert_snapshot!(said, @"bendmark: the output could not be written: the disk is full, make room or save under another path");
        plain(&said);
    }
}

#[test]
fn a_bad_column_is_named_by_number_and_letter() {
    let bench = Bench::with_readings();
    let mut text = String::new();
    for header in [
        "edge,kind,hend,course,bottom,top",
        "edge,kind,hand,course,bottom,top,,,,,,,,,,,,,,,,,,,,,,,,,",
        "edge,kind,hand,course,bottom,top,top",
        "edge,kind,hand,course,bottom",
    ] {
        bench.write("new.csv", &format!("{header}\nNorth hip,hip,left,3,9,8\n"));
        text += &bench.refused(1, &["import", "roof.ron", "new.csv"]);
    }
    insta::assert_snapshot!(text, @r#"
    bendmark: "new.csv": line 1: column 3 (C) is named "hend", which is not known, expected edge,kind,hand,course,bottom,top, and height, runs_out, to, slope, other_slope, corner, plane, lot, reads_to, tape_end where there are any
    bendmark: "new.csv": line 1: column 7 (G) has no name, expected edge,kind,hand,course,bottom,top, and height, runs_out, to, slope, other_slope, corner, plane, lot, reads_to, tape_end where there are any
    bendmark: "new.csv": line 1: column 7 (G) is "top", and so is column 6 (F), expected each once
    bendmark: "new.csv": line 1: no column top, expected edge,kind,hand,course,bottom,top
    "#);
}

#[test]
fn of_many_bad_rows_twenty_are_printed_and_the_rest_counted() {
    let bench = Bench::with_readings();
    let rows = "x,hip,left,zero,1,1\n".repeat(500);
    bench.write(
        "new.csv",
        &format!("edge,kind,hand,course,bottom,top\n{rows}"),
    );
    let said = bench.refused(1, &["import", "roof.ron", "new.csv"]);
    let lines: Vec<&str> = said.lines().collect();
    assert_eq!(lines.len(), 22, "{said}");
    assert!(
        lines[0].ends_with("500 bad rows, nothing was imported"),
        "{said}"
    );
    assert!(lines[21].ends_with("and 480 more"), "{said}");
}

#[test]
fn what_spreadsheets_write_is_imported_as_it_is() {
    let rows =
        "edge;kind;hand;course;bottom;top\r\nEast h\u{ef}p;hip;left;1;13\u{a0}5/8;9\u{bd}\r\n";
    let wide = |bytes: fn(u16) -> [u8; 2]| -> Vec<u8> {
        let units = std::iter::once(0xFEFF).chain(rows.encode_utf16());
        units.flat_map(bytes).collect()
    };
    for file in [
        wide(u16::to_le_bytes),
        wide(u16::to_be_bytes),
        format!("sep=;\r\n{rows}").into_bytes(),
        format!("\u{FEFF}sep=;\r\n{rows}").into_bytes(),
    ] {
        let bench = Bench::with_readings();
        std::fs::write(bench.0.path().join("new.csv"), file).unwrap();
        let said = bench.done(&["import", "roof.ron", "new.csv"]);
        assert!(said.contains("courses added: 1, "), "{said}");
        let sheet = bench.done(&["sheet", "roof.ron", "--format", "csv"]);
        assert!(sheet.contains("East h\u{ef}p,hip,left,1,1"), "{sheet}");
    }
}

#[test]
fn a_date_made_by_a_spreadsheet_is_named_with_the_fraction_it_was() {
    let bench = Bench::with_readings();
    let header = "edge,kind,hand,course,bottom,top\n";
    for date in ["5-Aug", "08-May", "5. Aug", "2026-05-08"] {
        bench.write(
            "new.csv",
            &format!("{header}North hip,hip,left,3,{date},8\n"),
        );
        let said = bench.refused(1, &["import", "roof.ron", "new.csv"]);
        let named = format!("line 2: bottom: \"{date}\": the spreadsheet made a date of 5/8, ");
        assert!(said.contains(&named), "{said}");
    }
}

/// A line end or an escape in a file's name reaches neither the terminal nor a
/// page.
#[cfg(unix)]
#[test]
fn control_characters_in_file_names_are_not_passed_on() {
    let bench = Bench::with_readings();
    let root = bench.0.path();
    let odd = "ro\nof\u{1b}[2J\u{202e}.ron";
    std::fs::copy(root.join("roof.ron"), root.join(odd)).unwrap();
    std::fs::copy(root.join("readings.csv"), root.join("a\n\u{1b}[1m.csv")).unwrap();
    let missing = "no\n\u{1b}[2J.ron";
    let check = |said: &super::Said| {
        for text in [&said.out, &said.err] {
            let hidden =
                |letter: char| letter.is_control() && letter != '\n' || letter == '\u{202e}';
            assert!(!text.contains(hidden), "{text:?}");
            for line in text.lines().filter(|line| line.contains("of\u{FFFD}[2J")) {
                assert!(line.contains("ro\u{FFFD}of\u{FFFD}[2J"), "{text:?}");
            }
            assert!(
                !text.contains("ro\nof") && !text.contains("no\n"),
                "{text:?}"
            );
        }
    };
    let page = root.join("p\n\u{1b}.txt");
    let page = format!("--output={}", page.display());
    for args in [
        vec!["import", odd, "a\n\u{1b}[1m.csv"],
        vec!["import", odd, missing],
        vec!["import", missing, "readings.csv"],
        vec!["sheet", missing],
        vec!["sheet", odd, &page],
        vec!["sheet", odd, &page],
        vec!["check", odd],
        vec!["versions", odd],
        vec!["new", odd],
        vec!["new", missing],
        vec!["sheet", odd, "--edge", "a\n\u{1b}"],
        vec!["sheet", odd, "--a\n\u{1b}"],
        vec!["sheet", odd, "--format", "a\n\u{1b}"],
    ] {
        check(&bench.run(&args));
    }
    // From a copy, which the page says in every format.
    bench.edit(odd);
    for format in ["text", "csv", "json", "html"] {
        check(&bench.run(&["sheet", odd, "--format", format]));
        check(&bench.run(&["form", odd]));
    }
    std::fs::write(root.join(odd), "damaged").unwrap();
    for format in ["text", "csv", "json", "html"] {
        check(&bench.run(&["sheet", odd, "--format", format]));
    }
    check(&bench.run(&["import", odd, "readings.csv"]));
}
