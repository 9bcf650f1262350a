//! Every screen drawn into cells: sample jobs, sizes, themes.

use crate::support::{Program, drawn, job_with_hip, put, text_of};
use bendmark::app::place::{Glyphs, Look};
use bendmark::domain::{
    bench::Stage,
    log::{CourseNumber, EdgeId},
    measure::{Hand, Name},
    piece::{At, Mark, Marks},
    roof::EdgeKind,
    settings::Setting,
    tape::print,
};
use bendmark::storage::{files::RealFs, keeping::load};
use bendmark::ui::theme::{Colours, Role, Theme};
use ratatui::style::Modifier;
use std::path::Path;

const PLACES: [&str; 5] = ["<f2>", "<f3>", "<f4>", "<f5>", "<f6>"];

#[test]
fn both_sample_jobs_are_drawn_at_every_place() {
    for name in ["alder-court-inches", "brook-meadow-millimetres"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-jobs/{name}.ron"));
        let job = load(&RealFs, &path).unwrap().job;
        let mut program = Program::with(job);
        for (columns, rows) in [(80, 24), (120, 40)] {
            for place in PLACES {
                program.press(place).press("<esc>");
                let screen = program.screen(columns, rows);
                assert!(screen.lines().count() > 10, "{screen}");
            }
        }
    }
}

#[test]
fn the_bench_shows_marks_side_lie_and_stock() {
    let mut program = Program::with(job_with_hip(3, Hand::Right));
    program.press("<f4><enter>");
    insta::assert_snapshot!(program.screen(80, 24));
}

#[test]
fn the_log_shows_the_roof_with_the_eave_at_the_bottom() {
    let mut program = Program::with(job_with_hip(3, Hand::Right));
    program.press("<f3><tab>13-5/8");
    insta::assert_snapshot!(program.screen(80, 24));
}

#[test]
fn hips_shows_what_is_left() {
    let mut program = Program::with(job_with_hip(3, Hand::Right));
    program.press("<f4><enter><enter><enter><f2>");
    insta::assert_snapshot!(program.screen(80, 24));
}

/// The rows of a screen right of the line that stands beside the list.
fn beside_the_list(screen: &str) -> Vec<&str> {
    let right = screen.lines().filter_map(|row| row.split_once('\u{2502}'));
    right.map(|(_, right)| right).collect()
}

#[test]
fn log_and_job_cut_nothing_short_in_either_sample_and_name_every_edge_whole() {
    for name in ["alder-court-inches", "brook-meadow-millimetres"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-jobs/{name}.ron"));
        let job = load(&RealFs, &path).unwrap().job;
        let names: Vec<String> = job
            .edges()
            .iter()
            .map(|edge| edge.name.to_string())
            .collect();
        let mut program = Program::with(job);
        for (columns, rows) in [(80, 24), (120, 40)] {
            program.press("<f3><home>");
            for name in &names {
                let screen = program.screen(columns, rows);
                assert!(!screen.contains(".."), "{screen}");
                // The name stands whole: in one row or broken between words.
                let list: Vec<&str> = screen
                    .lines()
                    .filter_map(|row| row.split_once('\u{2502}'))
                    .map(|(left, _)| left.get(5..).unwrap_or("").trim_end())
                    .collect();
                let words: Vec<&str> = list.iter().flat_map(|row| row.split("  ")).collect();
                let said = words
                    .join(" ")
                    .split_whitespace()
                    .collect::<Vec<_>>()
                    .join(" ");
                let plain = |text: &str| text.split_whitespace().all(|word| said.contains(word));
                assert!(plain(name), "{name}\n{screen}");
                let title = beside_the_list(&screen)[..2].join("");
                let title = title.split_whitespace().collect::<Vec<_>>().join(" ");
                assert!(title.starts_with(name), "{title}");
                program.press("<down>");
            }
            program.press("<f6>");
            for _ in 0..40 {
                let screen = program.screen(columns, rows);
                assert!(!screen.contains(".."), "{screen}");
                program.press("<down>");
            }
        }
    }
}

#[test]
fn the_logs_rows_stand_under_their_headings_without_a_hole() {
    let mut program = Program::with(job_with_hip(3, Hand::Right));
    program.press("<f3><tab>");
    for (columns, rows) in [(80, 24), (120, 40)] {
        let screen = program.screen(columns, rows);
        let right = beside_the_list(&screen);
        let heading = right.iter().position(|row| row.contains("bottom")).unwrap();
        let numbers: Vec<&str> = right[heading + 1..heading + 5]
            .iter()
            .map(|row| row.split_whitespace().next().unwrap_or(""))
            .collect();
        assert_eq!(numbers, ["4", "3", "2", "1"], "{screen}");
        assert!(right[heading + 5].contains('\u{2500}'), "{screen}");
    }
}

/// The key bar is the only other thing that tells which list has the keys.
#[test]
fn only_the_list_that_has_the_keys_shows_the_sign_and_the_other_ones_row_is_bold() {
    const HIP: &str = "H1  Hip 1";
    const READING: &str = "36 3/4";
    let looks = [Look::Sun, Look::Dark].into_iter();
    let looks = looks.flat_map(|look| [Glyphs::Blocks, Glyphs::Ascii].map(|glyphs| (look, glyphs)));
    for ((look, glyphs), (columns, rows)) in looks.zip([(80, 24), (120, 40)].into_iter().cycle()) {
        for (focus, [has, has_not]) in [("", [HIP, READING]), ("<tab>", [READING, HIP])] {
            let mut program = Program::with(job_with_hip(3, Hand::Right));
            program.state.preferences.look = look;
            program.press("<f3><tab><end><down><esc>").press(focus);
            let buffer = program.buffer(columns, rows, glyphs);
            let screen = text_of(&buffer);
            let signs = screen.replace("->", "").replace("< >", "");
            assert_eq!(signs.matches('>').count(), 1, "{screen}");
            assert!(screen.contains(&format!(">{has}")), "{screen}");
            let style = |words: &str| {
                let mut lines = screen.lines().enumerate();
                let found = lines.find_map(|(y, line)| Some((line.split_once(words)?.0, y)));
                let (before, y) = found.unwrap();
                let at = (before.chars().count() as u16, y as u16);
                buffer[at].style()
            };
            let theme = Theme::new(look, Colours::Set, glyphs);
            assert_eq!(style(has).bg, theme.style(Role::Selected).bg);
            assert_eq!(style(has_not).bg, theme.style(Role::Strong).bg);
            let modifier = style(has_not).add_modifier;
            assert!(modifier.contains(Modifier::BOLD), "{screen}");
        }
    }
}

/// A label that is too long runs into its value.
#[test]
fn no_label_of_a_setting_reaches_its_value() {
    for setting in Setting::ALL {
        let label = setting.line();
        assert!(label.chars().count() < 30, "{label}");
    }
}

#[test]
fn job_shows_its_settings_in_groups_with_one_line_about_the_selected_one() {
    let mut program = Program::with(job_with_hip(3, Hand::Right));
    program.press("<f6><right><right><right>");
    insta::assert_snapshot!(program.screen(80, 24));
    program.press("<left><enter>1 1/2<enter>");
    insta::assert_snapshot!(program.screen(110, 30));
}

/// A figure cut short passes for another one: 6 for 6 1/4.
#[test]
fn hips_shows_whole_figures_at_every_width() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs/alder-court-inches.ron");
    let mut program = Program::with(load(&RealFs, &path).unwrap().job);
    program.press("<f2>v");
    for columns in 60..=200 {
        let screen = program.screen(columns, 24);
        for figures in [
            "nose 18 3/4         back 6 1/4",
            "nose 39 11/16       back 27 3/16",
        ] {
            assert!(screen.contains(figures), "{columns} columns\n{screen}");
        }
        let side = screen.contains("whole end 4 11/16 up");
        assert!(side || screen.contains(".."), "{columns} columns\n{screen}");
        assert!(side || columns < 66, "{columns} columns\n{screen}");
    }
}

/// Eight edges, the first piece spoiled and one that no longer fits.
fn eight_edges() -> Program {
    let mut job = job_with_hip(3, Hand::Left);
    for (at, kind) in EdgeKind::ALL.into_iter().cycle().take(7).enumerate() {
        let name = format!("Barn and garage {} {}", kind.word(), at + 2);
        let id = job.add_edge(Name::or(&name, "?"), kind, Hand::BOTH[at % 2]);
        put(&mut job, id, 1, "30", "17 1/2");
    }
    let mut program = Program::with(job);
    program.press("<f4><enter><enter><enter>xc<enter><enter><enter><f6><home>");
    while program.state.setting() != Some(Setting::ReadTo) {
        program.press("<down>");
    }
    program.press("<enter><f2>");
    program
}

#[test]
fn what_was_spoiled_and_what_no_longer_fits_stand_whole_in_hips() {
    let mut program = eight_edges();
    for columns in 80..=120 {
        let screen = program.screen(columns, 24);
        let counts = screen.lines().nth(1).unwrap();
        for words in [" panels to open, 1 spoiled", " 1 NO LONGER FITS: n"] {
            assert!(counts.contains(words), "{columns}: {screen}");
        }
    }
}

#[test]
fn once_every_piece_is_stacked_hips_says_what_came_of_it() {
    let mut job = job_with_hip(3, Hand::Left);
    job.edge_mut(EdgeId(1)).unwrap().lot = Name::new("Slate 7").ok();
    job.settings = Setting::OneKey.set(&job.settings, "piece").unwrap();
    let mut program = Program::with(job.clone());
    program.press("<f2>");
    assert!(program.screen(80, 24).contains("carry Slate 7: 3"));
    program.press("<f4><enter><enter>xc<enter><enter><enter><enter><enter><f2>");
    let screen = program.screen(80, 24);
    let words = "hips: all 3 pieces are stacked, 4 panels opened, 1 spoiled";
    assert!(screen.contains(words), "{screen}");
    for stale in ["carry", "to open", "left takes", "pieces left"] {
        assert!(!screen.contains(stale), "{stale}: {screen}");
    }
    // A course between that nobody read is not done.
    job.edge_mut(EdgeId(1))
        .unwrap()
        .remove(CourseNumber::new(2).unwrap());
    let mut program = Program::with(job);
    program.press("<f4><enter><enter><enter><f2>");
    let screen = program.screen(80, 24);
    let words = "hips: all 2 pieces are stacked, 1 course NOT READ, 2 panels opened";
    assert!(screen.contains(words), "{screen}");
}

#[test]
fn a_list_of_hips_that_goes_on_says_where() {
    let mut program = eight_edges();
    program.press("v");
    let screen = program.screen(80, 24);
    assert!(screen.contains(" more "), "{screen}");
    program.press("<home>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("\n      1 more below\n"), "{screen}");
    program.press("<end>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("\n      1 more above\n"), "{screen}");
    assert!(!program.screen(120, 40).contains(" more "));
}

#[test]
fn below_half_a_side_stands_its_whole_name_or_none() {
    let mut program = eight_edges();
    for columns in 80..=160 {
        let screen = program.screen(columns, 40);
        let eave = screen.lines().find(|row| row.contains("\u{2550}\u{2550}"));
        let eave = eave.unwrap_or_else(|| panic!("{columns}: {screen}"));
        assert!(!eave.contains(".."), "{columns}: {screen}");
    }
    assert!(
        program.screen(160, 40).contains(" Hip 1 \u{2550}"),
        "a short name has room"
    );
}

#[test]
fn a_hand_is_chosen_by_a_drawing_seen_from_the_eave() {
    let mut program = Program::with(job_with_hip(1, Hand::Right));
    program.press("<f3>a<enter>");
    insta::assert_snapshot!(program.screen(80, 24));
}

#[test]
fn no_size_leads_to_a_panic() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    let mut place = PLACES.iter().cycle();
    for columns in 1..=130 {
        for rows in (1..=45).skip(columns as usize % 7).step_by(7) {
            program.press(place.next().unwrap());
            program.screen(columns, rows);
        }
    }
}

/// Four figures, each whole, from the least size on.
#[test]
fn the_bench_shows_every_mark_at_every_size() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs/alder-court-inches.ron");
    let mut program = Program::with(load(&RealFs, &path).unwrap().job);
    program.press("<f4><enter>");
    for _ in 0..17 {
        if program.screen(80, 24).contains("ACROSS FIRST") {
            program.press("<enter>");
        }
        let piece = program.state.piece_in_hand().unwrap();
        let marks = Marks::of(&piece.spec);
        let is_across = piece.spec.across.is_some();
        let wanted: Vec<String> = (1..=2)
            .filter(|_| marks.bend.is_some())
            .map(|number| format!("bend {number}"))
            .chain(
                (3..=4)
                    .filter(|_| marks.cut.is_some())
                    .map(|number| format!("cut {number}")),
            )
            .collect();
        for columns in [60, 66, 72, 80, 92, 100, 120, 160] {
            for rows in [18, 20, 22, 24, 30, 40, 50] {
                let screen = program.screen(columns, rows);
                for words in &wanted {
                    assert!(
                        screen.contains(words),
                        "{words}, {columns}x{rows}\n{screen}"
                    );
                }
                // Whatever else is said of it, what is flattened stands there.
                // Cut across, the panel has lost its back flange.
                let crosses = |mark: Mark| match mark.at {
                    At::Back => !is_across,
                    at => at == At::Nose,
                };
                let lines = marks.bend.into_iter().chain(marks.cut).flatten();
                if columns >= 80 && rows >= 24 {
                    let said = screen.contains("FLATTEN");
                    let is_crossed = lines.into_iter().any(crosses);
                    assert_eq!(said, is_crossed, "{columns}x{rows}\n{screen}");
                }
                // With the unit.
                let unit = |line: &&str| line.contains(" in");
                let count = screen.lines().filter(unit).count();
                assert!(count >= wanted.len(), "{count}, {columns}x{rows}\n{screen}");
            }
        }
        program.press("<right>");
    }
}

/// What a step does not need is not on it, or somebody marks by it again: the marks
/// are one key away.
#[test]
fn the_marks_stand_at_the_mark_step_alone() {
    let mut program = Program::with(job_with_hip(3, Hand::Right));
    program.press("<f4><enter>");
    let spec = program.state.piece_in_hand().unwrap().spec;
    let marks = Marks::of(&spec);
    let division = program.job().settings.division;
    let all = marks.bend.into_iter().chain(marks.cut).flatten();
    let figures: Vec<String> = all
        .map(|mark| print(mark.position, division))
        .map(|figure| drawn(figure.trim_end_matches(['+', '-'])))
        .collect();
    let heads = ["bend 1", "bend 2", "cut 3", "cut 4"];
    let shown = |program: &mut Program| {
        let screen = program.screen(80, 24);
        let figures = figures
            .iter()
            .filter(|figure| screen.contains(*figure))
            .count();
        figures + heads.iter().filter(|head| screen.contains(**head)).count()
    };
    assert_eq!(shown(&mut program), 8);
    for stage in [Stage::ToCut, Stage::ToBend, Stage::ToStack] {
        program.press("<enter>");
        assert_eq!(program.state.piece_in_hand().unwrap().stage, stage);
        assert_eq!(shown(&mut program), 0, "{}", program.screen(80, 24));
        program.press("v");
        assert_eq!(shown(&mut program), 8, "{}", program.screen(80, 24));
        program.press("v");
        assert_eq!(shown(&mut program), 0);
    }
}
