//! Every step of the Bench, on the program's own screens: how large what has to be
//! read at two metres is, and how often it is taken for something else there.

use super::*;
use crate::support::{Program, drawn_in, put, text_of};
use bendmark::domain::bench::Stage;
use bendmark::domain::measure::{Hand, Name};
use bendmark::domain::piece::{Nose, Part};
use bendmark::domain::roof::{Bend, EdgeKind};
use bendmark::storage::{files::RealFs, keeping::load::load};
use bendmark::ui::widgets::digit_size::{of_figures, of_words};
use std::path::Path;

/// What is asked of everything that is read at two metres.
const LEAST_ARCMIN: f64 = 30.0;
const MOST_WRONG: f64 = 1.0;

/// The rows above a step: the header, whose piece it is.
const ABOVE: u16 = 2;

/// The sample job with a valley at the Bench, the cautions read.
fn bench() -> Program {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs/alder-court-inches.ron");
    let mut job = load(&RealFs, &path).unwrap().job;
    let valley = job.add_edge(Name::or("Yard", "?"), EdgeKind::Valley, Hand::Left);
    put(&mut job, valley, 1, "14", "26");
    put(&mut job, valley, 2, "22", "34");
    let mut program = Program::with(job);
    program.press("<f4><enter>");
    program
}

/// What a step shows of one piece, and its screen.
#[derive(Clone)]
struct Step {
    shows: &'static str,
    screen: Buffer,
}

/// The screens of a step of pieces of every sort, each once: for every size.
fn steps(stage: Stage) -> Vec<((u16, u16), Glyphs, Vec<Step>)> {
    let mut program = bench();
    let mut seen: Vec<&'static str> = Vec::new();
    let mut all: Vec<_> = everywhere()
        .map(|(size, glyphs)| (size, glyphs, Vec::new()))
        .collect();
    let count = program.state.open.as_ref().unwrap().list.pieces.len();
    for _ in 0..count {
        let plain = |program: &Program| {
            let piece = program.state.piece_in_hand().unwrap();
            let plain = piece.spec.near.is_none() && piece.spec.across.is_none();
            // Its label has room for whole cells everywhere.
            let plain = plain && piece.id.number == 1;
            plain && piece.lie(Hand::Right).is_some() && !program.state.bench.shows_marks
        };
        if !plain(&program) {
            program.press("<right>");
            continue;
        }
        let mut keys = 0;
        while program.state.piece_in_hand().unwrap().stage < stage && keys < 4 {
            program.press("<enter>");
            keys += 1;
        }
        let piece = program.state.piece_in_hand().unwrap();
        let lie = piece.lie(program.job().settings.blade).unwrap();
        let shows = match piece.stage {
            Stage::ToMark => piece.spec.hand.word(),
            Stage::ToCut => match (lie.nose, lie.on_table) {
                (Nose::Away, Part::Kept) => "TURN, OFFCUT DROPS",
                (Nose::Away, Part::Offcut) => "TURN, PIECE DROPS",
                (Nose::Toward, Part::Kept) => "AS IT LIES, OFFCUT DROPS",
                (Nose::Toward, Part::Offcut) => "AS IT LIES, PIECE DROPS",
            },
            Stage::ToBend => match piece.spec.kind.bend() {
                Bend::Up => "UP",
                Bend::Down => "DOWN",
            },
            Stage::ToStack | Stage::Stacked => "label",
        };
        let is_new = !seen.contains(&shows) || shows == "label" && seen.len() < 6;
        if piece.stage == stage && is_new {
            seen.push(shows);
            for (size, glyphs, steps) in &mut all {
                let screen = program.buffer(size.0, size.1, *glyphs);
                steps.push(Step { shows, screen });
            }
        }
        program.press(&"u".repeat(keys)).press("<right>");
    }
    all
}

/// Every size, in blocks and in ASCII.
fn everywhere() -> impl Iterator<Item = ((u16, u16), Glyphs)> {
    let both = [Glyphs::Blocks, Glyphs::Ascii];
    SCREENS
        .into_iter()
        .flat_map(move |size| both.map(|glyphs| (size, glyphs)))
}

#[track_caller]
fn check(what: &str, size: (u16, u16), cuts: &[Buffer]) {
    for cut in cuts {
        let whole = Rect::new(0, 0, cut.area.width, cut.area.height);
        let page = Page::of(&cut_out(cut, whole), size.1);
        let seen = f64::from(page.drawn_height()) * ARCMIN;
        assert!(seen >= LEAST_ARCMIN, "{what} at {size:?}: {seen:.1} arcmin");
    }
    for wrong in errors(Eye::SUN, size.1, cuts) {
        assert!(wrong <= MOST_WRONG, "{what} at {size:?}: {wrong:.2} %");
    }
}

#[test]
fn the_four_figures_and_the_side_are_read_at_two_metres() {
    for (size, _, steps) in steps(Stage::ToMark) {
        assert_eq!(steps.len(), 2, "both hands");
        let letters: Vec<Buffer> = steps
            .iter()
            .map(|step| {
                let x = if step.shows == "right" {
                    size.0 - 15
                } else {
                    5
                };
                cut_out(&step.screen, Rect::new(x, ABOVE, 10, 7))
            })
            .collect();
        check("the side", size, &letters);
        for Step { screen, shows } in &steps {
            let text = text_of(screen);
            let figure = of_figures(size.1);
            for mark in ["bend 1, ", "bend 2, ", "cut 3, ", "cut 4, "] {
                let row = text.lines().position(|line| line.contains(mark)).unwrap();
                let line: Vec<char> = text.lines().nth(row).unwrap().chars().collect();
                let heads = line.iter().collect::<String>();
                let before = heads.split(mark).next().unwrap().chars().count();
                // The figure begins two columns before its edge's name.
                let x = before.saturating_sub("BACK  ".len() + 1);
                let y = u16::try_from(row).unwrap() + 1;
                let x = u16::try_from(x).unwrap();
                let place = Rect::new(x, y, 3 * 12, figure.rows());
                let seen = arcmin_of(screen, place);
                assert!(
                    seen >= LEAST_ARCMIN,
                    "{mark}{shows}, {size:?}: {seen:.1}\n{text}"
                );
            }
        }
    }
}

#[test]
fn whether_to_turn_it_and_what_drops_are_read_at_two_metres() {
    for (size, glyphs, steps) in steps(Stage::ToCut) {
        assert!(steps.len() >= 3, "{} lies", steps.len());
        let words = of_words(size.1);
        let one_of = |begins: &str| steps.iter().find(|step| step.shows.starts_with(begins));
        let turns = ["TURN", "AS IT LIES"].map(|word| {
            let screen = &one_of(word).unwrap().screen;
            cut_out(screen, Rect::new(1, ABOVE, 56, words.rows()))
        });
        check("turn or not", size, &turns);
        let drops = ["OFFCUT DROPS", "PIECE DROPS"].map(|word| {
            let step = steps.iter().find(|step| step.shows.ends_with(word));
            let screen = &step.unwrap().screen;
            let y = match glyphs {
                Glyphs::Blocks => {
                    let first = drawn_in(word, words);
                    text_of(screen)
                        .lines()
                        .position(|line| line.contains(&first))
                        .unwrap()
                }
                // Above the words below it.
                Glyphs::Ascii => {
                    let text = text_of(screen);
                    let below = text.lines().position(|line| line.contains("Let it fall"));
                    below.unwrap() - usize::from(words.rows())
                }
            };
            let y = u16::try_from(y).unwrap();
            cut_out(screen, Rect::new(1, y, 70, words.rows()))
        });
        check("what drops", size, &drops);
    }
}

#[test]
fn up_or_down_is_read_at_two_metres() {
    for (size, _, steps) in steps(Stage::ToBend) {
        let ways: Vec<Buffer> = steps
            .iter()
            .map(|step| cut_out(&step.screen, Rect::new(1, ABOVE, 46, 7)))
            .collect();
        assert_eq!(ways.len(), 2, "up and down");
        check("up or down", size, &ways);
    }
}

#[test]
fn the_label_is_read_at_two_metres() {
    for (size, _, steps) in steps(Stage::ToStack) {
        let labels: Vec<Buffer> = steps
            .iter()
            .map(|step| cut_out(&step.screen, Rect::new(1, ABOVE + 2, size.0.min(90) - 2, 7)))
            .collect();
        assert!(labels.len() > 4, "{} labels", labels.len());
        check("the label", size, &labels);
    }
}
