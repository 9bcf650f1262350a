//! The log that is filled in on a phone: what is typed with the page's own keys is
//! given to the program.

use crate::bench::{Bench, SAMPLES, sample};
use crate::phone::{browser, driven, driven_at, driven_in};
use crate::readers::{nasty, strict};
use crate::support::Program;
use bendmark::domain::{cutting::Job, log::Reading, tape::Unit};
use bendmark::sheet::{form::Form, form_fill::form_fill};
use bendmark::storage::job_file::{decode, encode};

/// Courses 1 to 11 of a hip that narrows by 12 1/2 in a course, bottom and top,
/// with another panel where there is room; the 12th runs out.
fn hip() -> Vec<[String; 2]> {
    let written = |halves: u32| match halves % 4 {
        0 | 2 => format!("{}", halves / 2),
        1 => format!("{}-1/2", halves / 2),
        _ => format!("{}.5", halves / 2),
    };
    (0..11)
        .map(|at| 29 + (290 - 25 * at - 29) % 92)
        .map(|bottom| [bottom, bottom - 25].map(written))
        .collect()
}

/// Scripts that type the hip and a short course of a rake behind it; between them
/// the page is closed, in the middle of a figure, and opened again.
fn types_it() -> [String; 2] {
    let readings = |courses: &[[String; 2]]| {
        let texts: Vec<_> = courses.as_flattened().iter().collect();
        let texts: Vec<String> = texts.iter().map(|text| format!("\"{text}\"")).collect();
        format!("readings({});\n", texts.join(", "))
    };
    let (below, above) = (readings(&hip()[..6]), readings(&hip()[6..]));
    let first = format!(
        r##"
press("#kinds [data-kind=hip][data-hand=left]");
write("#name", "East, \"long\" hip");
write("[data-column=slope]", "6 in 12");
press("nav [data-view=readings]");
{below}
keys("7");
out("begun");
"##
    );
    let then = format!(
        r##"
// The figure that was begun is still there: rub it out.
press("#keys [data-do=rub]");
{above}
readings("7-1/2");
press("#others [data-do=runs_out]");
readings("8-3/8");
press("nav [data-view=edge]");
press("[data-do=new]");
press("#kinds [data-kind=rake][data-hand=right]");
press("section [data-view=readings]");
readings("20-5/8");
press("#others [data-do=height]");
readings("9-15/16", "21");
csv();
"##
    );
    [first, then]
}

/// The same at the screen.
fn typed_at_the_screen(job: Job) -> Job {
    let mut program = Program::with(job);
    program.press("<f3>a14nEast, \"long\" hip<enter>");
    for [bottom, top] in hip() {
        program.press(&format!("{bottom}<enter>{top}<enter>"));
    }
    program.press("7-1/2<enter>o8-3/8<enter>");
    program.press("a3620-5/8<enter>21<enter><down>c9-15/16<enter>");
    let mut job = program.job().clone();
    let id = job.edges()[0].id;
    let slope = bendmark::domain::log::EdgeDetail::Slope;
    slope.set(job.edge_mut(id).unwrap(), "6 in 12").unwrap();
    job
}

#[test]
fn twelve_courses_typed_on_the_phone_and_imported_give_the_sheet_of_those_typed_at_the_screen() {
    let Some(browser) = browser() else { return };
    let bench = Bench::new();
    bench.done(&["new", "roof.ron", "--name", "Roof"]);
    let job = decode(bench.read("roof.ron").as_bytes()).unwrap().job;
    let screen = encode(&typed_at_the_screen(job)).unwrap();
    std::fs::write(bench.path("screen.ron"), screen).unwrap();
    let page = bench.done(&["form", "roof.ron", "--format", "html", "--fill"]);
    let folder = tempfile::tempdir().unwrap();
    let typed = |script: &String| driven_in(folder.path(), browser, &page, "", script);
    let [begun, csv] = types_it().each_ref().map(typed);
    assert_eq!(begun, "begun");
    assert!(csv.contains("\"East, \"\"long\"\" hip\",hip,left,12,7 1/2,,,8 3/8,"));
    // Another job's page in the same browser begins blank.
    bench.done(&["new", "other.ron", "--name", "Other"]);
    let other = bench.done(&["form", "other.ron", "--format", "html", "--fill"]);
    let blank = driven_in(folder.path(), browser, &other, "", "csv();");
    assert_eq!(blank, "edge,kind,hand,course,bottom,top\n");
    bench.write("log.csv", &csv);
    bench.done(&["import", "roof.ron", "log.csv"]);
    let json = |job: &str| bench.done(&["sheet", job, "--format", "json"]);
    assert_eq!(json("roof.ron"), json("screen.ron"));
}

#[test]
fn names_that_would_break_out_of_the_page_come_back_as_they_are() {
    let Some(browser) = browser() else { return };
    let job = nasty(sample(SAMPLES[0]));
    let page = form_fill(&Form::of(&job, &[], None));
    let script = "window.alert = () => out('broken out');\n\
        press('nav [data-view=readings]'); readings('1', '2'); csv();";
    let csv = driven(browser, &page, "", script);
    let edges = &mut csv::Reader::from_reader(csv.as_bytes()).into_records();
    let row = edges.next().unwrap().unwrap();
    assert_eq!(&row[0], job.edges()[0].name.as_str());
    assert_eq!(&row[4], "1");
}

/// A script that types each text key by key, presses `next`, and hands over what was
/// said where that went no further, or else the text's cell of the CSV.
fn types_each(texts: &[&str]) -> String {
    format!(
        r##"
press("nav [data-view=readings]");
const rub = (text) => Array.from(text).forEach(() => press("#keys [data-do=rub]"));
const said = {texts:?}.map((text) => {{
  keys(text);
  next();
  if (found("#asked").textContent.includes("tape at the eave")) {{
    const words = found("#said").textContent;
    rub(text);
    return words;
  }}
  press("[data-course=\"1\"][data-figure=bottom]");
  press("nav [data-view=csv]");
  const cell = found("#csv").value.split("\n")[1].split(",").slice(-2)[0];
  press("nav [data-view=readings]");
  rub(text);
  return "read " + cell;
}});
out(said.join("\n"));
"##
    )
}

/// A length reads the same by the program, what is none is said in the program's
/// words and handed over as it is.
#[test]
fn a_figure_is_read_and_refused_on_the_phone_as_the_program_does() {
    let Some(browser) = browser() else { return };
    let inches = "13-5/8 5/8 13.625 13.5/8 0 .5 5. 0-0/2 007-04/08 3937 3938 13-5/7 1/128 \
        13-9/8 8/8 13-5/0 -5 -0 --5 -1/2 5..5 13-5 . - / 5/ /8 1-2-3/4 0.333333 0.33333 \
        99999999999 13-5/64";
    let millimetres = "346 346.5 .5 346.0000001 100000 100001 3.4.6 .";
    let samples = [
        (SAMPLES[0], Unit::Inch, inches),
        (SAMPLES[1], Unit::Millimetre, millimetres),
    ];
    for (name, unit, texts) in samples {
        let texts: Vec<&str> = texts.split_whitespace().collect();
        let page = form_fill(&Form::of(&sample(name), &[], None));
        let said = driven(browser, &page, "", &types_each(&texts));
        assert_eq!(said.lines().count(), texts.len());
        for (text, said) in texts.iter().zip(said.lines()) {
            match Reading::parse(text, unit) {
                Ok(reading) => {
                    let cell = said.strip_prefix("read ").expect(said);
                    assert_eq!(Reading::parse(cell, unit), Ok(reading), "{text}: {cell}");
                    assert!(!cell.contains(['-', '+']), "{cell}");
                }
                Err(error) => {
                    assert_eq!(said, format!("{error}; type it anew, or next keeps it"));
                }
            }
        }
    }
}

#[test]
fn a_browser_that_keeps_nothing_says_so_at_once_and_the_csv_is_there_all_the_same() {
    let Some(browser) = browser() else { return };
    let page = form_fill(&Form::of(&sample(SAMPLES[0]), &[], None));
    let script = "const lost = found('#lost').textContent;\n\
        press('nav [data-view=readings]'); readings('1', '2');\n\
        press('nav [data-view=csv]'); out(lost + found('#csv').value);";
    for broken in [
        "Storage.prototype.setItem = () => {};",
        "Object.defineProperty(window, 'localStorage', { get() { throw Error('no'); } });",
    ] {
        let said = driven(browser, &page, broken, script);
        assert!(said.starts_with("This browser keeps nothing"), "{said}");
        assert!(said.contains(",1,1,2\n"), "{said}");
    }
    // The banner is hidden where it keeps it: there is nothing to find.
    let kept = "out(String(document.querySelector('#lost').hidden));";
    assert_eq!(driven(browser, &page, "", kept), "true");
}

#[test]
fn the_csv_that_is_seen_is_what_is_copied_and_shared() {
    let Some(browser) = browser() else { return };
    let page = form_fill(&Form::of(&sample(SAMPLES[0]), &[], None));
    let before = "const had = {};\n\
        Object.defineProperty(navigator, 'clipboard', { value: {\n\
          writeText: (text) => { had.copied = text; return Promise.resolve(); } } });\n\
        navigator.canShare = (what) => what.files.length === 1;\n\
        navigator.share = (what) => { had.shared = what.files[0]; return Promise.resolve(); };";
    let script = "press('nav [data-view=readings]'); readings('1-1/2', '2');\n\
        press('nav [data-view=csv]'); press('[data-do=copy]'); press('[data-do=share]');\n\
        had.shared.text().then((text) => {\n\
          const seen = found('#csv').value;\n\
          out(had.shared.name + ' ' + (seen === text) + ' ' + (seen === had.copied) + '\\n' + seen);\n\
        });";
    let said = driven(browser, &page, before, script);
    let (same, csv) = said.split_once('\n').unwrap();
    assert_eq!(same, "log.csv true true");
    assert!(csv.ends_with(",1,1 1/2,2\n"), "{csv}");
    // Where nothing can be shared, no key says so.
    let none = "delete Navigator.prototype.share;";
    let hidden = "out(String(document.querySelector('[data-do=share]').hidden));";
    assert_eq!(driven(browser, &page, none, hidden), "true");
}

/// On a small phone too, and with the longest message: nobody scrolls for a key.
#[test]
fn every_key_is_in_sight_and_large_on_a_small_phone() {
    let Some(browser) = browser() else { return };
    let page = form_fill(&Form::of(&sample(SAMPLES[0]), &[], None));
    let script = "press('nav [data-view=readings]'); keys('13-5/7'); next();\n\
        const boxes = Array.from(document.querySelectorAll('#keys button, #others button, nav button'))\n\
          .map((key) => key.getBoundingClientRect());\n\
        const small = boxes.filter((box) => box.height < 44 || box.width < 70).length;\n\
        const cut = boxes.filter((box) => box.bottom > innerHeight || box.right > innerWidth).length;\n\
        out([innerHeight, boxes.length, small, cut].join(' '));";
    // The browser's own bars take 143 pixels of each: the page has 497 to 701.
    for size in ["390,844", "390,760", "390,700", "360,640"] {
        let said = driven_at(size, browser, &page, script);
        assert!(said.ends_with(" 23 0 0"), "{size}: {said}");
    }
}

/// The next readings land in cells of their own, also after the page was closed.
#[test]
fn a_refused_figure_is_rubbed_out_or_typed_anew_and_never_written_on() {
    let Some(browser) = browser() else { return };
    let page = form_fill(&Form::of(&sample(SAMPLES[0]), &[], None));
    let folder = tempfile::tempdir().unwrap();
    let typed = |script: &str| driven_in(folder.path(), browser, &page, "", script);
    let refused = "press('nav [data-view=readings]'); readings('33-5/7');\n";
    let said = typed(&format!("{refused} out(found('#figure').textContent);"));
    assert_eq!(said, "33-5/7");
    let said = typed("keys('2'); out(found('#figure').textContent); readings('1-1/2', '8');");
    assert_eq!(said, "2");
    let csv = typed("csv();");
    assert!(csv.contains(",1,21 1/2,8\n"), "{csv}");
    let rubbed = "press('[data-course=\"2\"][data-figure=bottom]'); readings('33-5/7');\n\
        press('#keys [data-do=rub]'); keys('8'); next(); readings('9'); csv();";
    let csv = typed(rubbed);
    assert!(csv.contains(",2,33 5/8,9\n"), "{csv}");
}

#[test]
fn why_a_figure_is_refused_stands_large_below_it_and_the_edge_large_above() {
    let Some(browser) = browser() else { return };
    let page = form_fill(&Form::of(&sample(SAMPLES[0]), &[], None));
    let script = "press('nav [data-view=readings]'); readings('33-5/7');\n\
        const size = (what) => { const style = getComputedStyle(found(what));\n\
          return parseFloat(style.fontSize) >= 18 && Number(style.fontWeight) >= 700; };\n\
        const box = (what) => found(what).getBoundingClientRect();\n\
        out([size('#where b'), size('#where span'), size('#said'),\n\
          Math.abs(box('#said').top - box('#figure').bottom) < 8, box('#said').bottom <= innerHeight,\n\
          found('#where').textContent].join(' '));";
    for size in ["390,844", "360,640"] {
        let said = driven_at(size, browser, &page, script);
        let edge = "North slope, north-east hiphip, RIGHT hand";
        assert_eq!(said, format!("true true true true true {edge}"), "{size}");
    }
}

#[test]
fn what_the_job_has_of_an_edge_is_said_at_it_and_the_page_stays_blank() {
    let Some(browser) = browser() else { return };
    let job = sample(SAMPLES[0]);
    let page = form_fill(&Form::of(&job, &[], None));
    let script = "press('nav [data-view=readings]'); const where = found('#where-how').textContent;\n\
        press('nav [data-view=edge]'); out(where + '|' + found('#edges button small').textContent\n\
          + '|' + found('#edge-how').textContent); csv();";
    let courses = job.edges()[0].courses().len();
    let words = format!("already in the job: {courses} courses");
    let said = driven(browser, &page, "", script);
    assert!(
        said.split('|').all(|said| said.starts_with(&words)),
        "{said}"
    );
    assert_eq!(said.split('|').count(), 3, "{said}");
    assert_eq!(
        driven(browser, &page, "", "csv();"),
        "edge,kind,hand,course,bottom,top\n"
    );
}

#[test]
fn an_odd_figure_is_named_with_the_csv_and_handed_over_as_it_is() {
    let Some(browser) = browser() else { return };
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    let page = bench.done(&["form", "roof.ron", "--format", "html", "--fill"]);
    let script = "press('#kinds [data-kind=hip][data-hand=left]');\n\
        press('nav [data-view=readings]'); readings('20-5/7'); next(); readings('8');\n\
        press('nav [data-view=csv]'); out(found('#odd').textContent + '\\n' + found('#csv').value);";
    let said = driven(browser, &page, "", script);
    let (odd, csv) = said.split_once('\n').unwrap();
    assert!(
        odd.starts_with("Hip 1, course 1, bottom: \"20-5/7\" has a fraction no tape shows"),
        "{odd}"
    );
    bench.write("log.csv", csv);
    let refused = bench.refused(1, &["import", "roof.ron", "log.csv"]);
    assert!(refused.contains("\"20-5/7\" has a fraction"), "{refused}");
}

/// The two hips of one end of a roof, as the guide has them.
const PEAK: &str = "\
edge,kind,hand,course,bottom,top,slope,plane
East hip,hip,left,1,20,7 1/2,6 in 12,South end
East hip,hip,left,2,32 1/2,20,,
West hip,hip,right,1,22 1/2,10,6 in 12,South end
West hip,hip,right,2,31,18 1/2,,
";

#[test]
fn courses_from_board_to_board_are_those_typed_at_the_screen() {
    let Some(browser) = browser() else { return };
    let bench = Bench::new();
    bench.done(&["new", "peak.ron", "--name", "Peak"]);
    bench.write("peak.csv", PEAK);
    bench.done(&["import", "peak.ron", "peak.csv"]);
    let mut program = Program::with(decode(bench.read("peak.ron").as_bytes()).unwrap().job);
    program.press("<f3><enter>b37<enter>12<enter>b12<enter>o6-11/16<enter>");
    std::fs::write(bench.path("screen.ron"), encode(program.job()).unwrap()).unwrap();
    let page = bench.done(&["form", "peak.ron", "--format", "html", "--fill"]);
    let script = "press('nav [data-view=readings]');\n\
        press('[data-course=\"2\"][data-figure=top]'); next();\n\
        press('#others [data-do=to]'); press('#to-edges [data-to=\"1\"]');\n\
        readings('37', '12');\n\
        press('#others [data-do=to]'); press('#to-edges [data-to=\"1\"]');\n\
        readings('12'); press('#others [data-do=runs_out]'); readings('6-11/16'); csv();";
    bench.write("log.csv", &driven(browser, &page, "", script));
    bench.done(&["import", "peak.ron", "log.csv"]);
    let json = |job: &str| bench.done(&["sheet", job, "--format", "json"]);
    assert_eq!(json("peak.ron"), json("screen.ron"));
}

/// The text of the page's scripts, as a strict reader has it.
fn scripts(page: &str) -> Vec<String> {
    let document = strict(page);
    let scripts = document.descendants();
    let scripts = scripts.filter(|node| node.tag_name().name() == "script");
    scripts
        .map(|node| node.text().unwrap().to_owned())
        .collect()
}

#[test]
fn the_page_has_one_script_and_asks_for_nothing() {
    let page = form_fill(&Form::of(&nasty(sample(SAMPLES[0])), &[], None));
    let document = strict(&page);
    for node in document.descendants().filter(|node| node.is_element()) {
        let name = node.tag_name().name();
        assert!(!["link", "img", "iframe", "object", "a", "form"].contains(&name));
        for attribute in node.attributes() {
            let name = attribute.name();
            assert!(!name.starts_with("on") && !["src", "href", "style"].contains(&name));
        }
    }
    assert!(page.contains("default-src 'none'; script-src 'unsafe-inline';"));
    let scripts_of_it = scripts(&page);
    assert_eq!(scripts_of_it.len(), 1);
    let job = Job::new(sample(SAMPLES[0]).name, sample(SAMPLES[0]).settings);
    // The same whatever the job is: nothing of it is in the script.
    assert_eq!(
        scripts(&form_fill(&Form::of(&job, &[], None))),
        scripts_of_it
    );
    for word in [
        "fetch",
        "XMLHttpRequest",
        "import(",
        "innerHTML",
        "eval",
        "http",
        "</",
        "]]>",
    ] {
        assert!(!scripts_of_it[0].contains(word), "{word}");
    }
}
