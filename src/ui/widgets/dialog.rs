//! Dialogs: a box in front of the place, with its question and its keys.

use super::{
    dialog_box::{boxed, listed, say, text_box},
    dialog_lists::{choose_reading, details, explain, kept, pick_job},
    hand_picture,
};
use crate::app::keymap::rows_for_help;
use crate::app::screens::spoiling::{kept_words, shorter_words};
use crate::app::state::{Choice, Dialog, OnDisk, OpenJob, Prompt, Question, State, said_of};
use crate::domain::{
    cutting::Job,
    log::EdgeId,
    piece::PieceId,
    roof::EdgeKind,
    settings::{Setting, Settings},
    tape::{Unit, exact_with_unit},
    words::{CAUTIONS, WORDS},
};
use crate::ui::pen::{Pen, broken, clipped};
use crate::ui::theme::Role;
use std::borrow::Cow;

/// Draws the dialog that stands in front, if one does.
pub fn draw(pen: &mut Pen<'_>, state: &State) {
    match &state.dialog {
        None => {}
        Some(Dialog::Help { scroll }) => help(pen, state, *scroll),
        Some(Dialog::Cautions) => cautions(pen),
        Some(Dialog::Prompt {
            what,
            text,
            offered,
            recent,
        }) => match what {
            Prompt::OpenJob => pick_job(pen, state, "open which job?", *recent, text),
            Prompt::BringRack => {
                pick_job(pen, state, "bring the offcuts of which job?", *recent, text);
            }
            _ => {
                let (title, words) = match what {
                    Prompt::WriteSheet(edge) => sheet_words(state, *edge),
                    _ => prompt_words(what, state.job()),
                };
                text_box(pen, &title, (text, *offered), &words);
            }
        },
        Some(Dialog::Choice { what, row }) => choice(pen, state, *what, *row),
        Some(Dialog::Question(question)) => {
            let (title, words) = question_words(question, state.open.as_ref());
            say(pen, title, &words);
        }
        Some(Dialog::Kept {
            states,
            row,
            is_asked,
            ..
        }) => kept(pen, states, *row, *is_asked),
        Some(Dialog::Details { edge, row, text }) => {
            if let Some(edge) = state.job().and_then(|job| job.edge(*edge)) {
                details(pen, edge, *row, text.as_deref());
            }
        }
    }
}

/// What a text is typed for, and what to know about it.
// Over 60 lines: a sentence a prompt.
fn prompt_words(what: &Prompt, open: Option<&Job>) -> (Cow<'static, str>, Cow<'static, str>) {
    let (title, words) = match what {
        Prompt::FoundWidths(whole) => {
            let is_mm = open.is_some_and(|job| job.settings.unit() == Unit::Millimetre);
            let example = if is_mm {
                "775; 460; B7"
            } else {
                "30 1/2; 18; B7"
            };
            let words = format!(
                "Width at the nose, Enter, width at the back, Enter. With a colour lot all in one: {example}"
            );
            let title = format!("its widths, {} end whole", whole.word());
            return (title.into(), words.into());
        }
        Prompt::Rename(_) => ("its new name", ""),
        Prompt::NewJob => {
            let usual = Settings::default();
            let settings = open.map_or(&usual, |job| &job.settings);
            let (units, one_key) = (Setting::Units.said(settings), Setting::OneKey);
            // The first Enter at the Bench would do more than anyone expects.
            let enter = match one_key.said(settings) {
                usually if usually == one_key.said(&usual) => String::new(),
                said => format!(", {} {said}", one_key.label()),
            };
            let from = match open {
                Some(job) => format!("All settings are taken over from {}:", job.name),
                None => "It starts with the usual settings:".to_owned(),
            };
            let words =
                format!("{from} {units}{enter}, and so on. Look them over here (F6) first.");
            return ("what is the new job called?".into(), words.into());
        }
        Prompt::Duplicate => (
            "what is the copy called?",
            "Log, settings and what is done are copied; the present job stays as it is.",
        ),
        Prompt::CorrectBy(_) => (
            "how much shorter or longer?",
            "The amount alone, such as 1/8; whether shorter or longer is asked next.",
        ),
        Prompt::SpoiledShorter(asked) => {
            let words = shorter_words(&asked.saved, open);
            return ("by how much is it shorter than that?".into(), words.into());
        }
        Prompt::OffcutWidths(_) => (
            "how wide is this offcut?",
            "Enter: these widths stand; in a job with lots its lot is next. Else its width at the nose; at the back; its lot. What it was promised to comes from it only where it still fits.",
        ),
        Prompt::OverLaid(_) => (
            "the gap over the laid pieces?",
            "Read like the course: its bottom, Enter, its top, Enter. Where the edge runs out below an end: * and how far up the course.",
        ),
        Prompt::Find => (
            "find which piece?",
            "A label such as H2-5, or a part of a hip's name.",
        ),
        Prompt::Several => (
            "mark how many, then cut, then bend?",
            "From the piece in hand on, up to the first whose offcut is still to come. Enter with nothing typed: the rest of this hip.",
        ),
        Prompt::Readings => (
            "take readings from which file?",
            "A CSV file, the same one again as it grows: what the bench corrected stands. A name alone lies beside this job. What is offered is typed over; Backspace changes its end.",
        ),
        Prompt::SaveElsewhere => (
            "save in which file from now on?",
            "A path that is not taken yet, or a folder: on another disk, on a stick. Type over it; Backspace changes its end.",
        ),
        // They list the recent jobs instead; that of the sheet says of which edges.
        Prompt::OpenJob | Prompt::BringRack | Prompt::WriteSheet(_) => ("", ""),
    };
    (title.into(), words.into())
}

/// Of which edges the sheet is, and what its name says.
fn sheet_words(state: &State, edge: Option<EdgeId>) -> (Cow<'static, str>, Cow<'static, str>) {
    const FORM: &str = "The end of its name says the form: .html to print, .txt, .csv or .json. A taken name gets a number. Type over it; Backspace changes its end.";
    let open = state.open.as_ref();
    let named = |edge: EdgeId| {
        open.map_or_else(String::new, |open| {
            format!("{}, {}", open.labels.edge(edge), open.edge_name(edge))
        })
    };
    let of = match (edge, state.edge_to_write()) {
        (Some(edge), _) => format!("Of {} ALONE. Tab: of all. ", named(edge)),
        (None, Some(one)) => format!("Of ALL edges. Tab: of {} alone. ", named(one)),
        (None, None) => String::new(),
    };
    let title = "write the cut sheet to which file?";
    (title.into(), format!("{of}{FORM}").into())
}

/// What is asked, and the keys that answer it.
// Over 60 lines: a sentence a question.
fn question_words(
    question: &Question,
    open: Option<&OpenJob>,
) -> (&'static str, Cow<'static, str>) {
    match question {
        Question::DeleteEdge(edge) => {
            let name = open.map_or("", |open| open.edge_name(*edge));
            let begun = match open.map_or(0, |open| open.marked_of(*edge)) {
                0 => String::new(),
                1 => " 1 piece of it is marked already.".to_owned(),
                count => format!(" {count} pieces of it are marked already."),
            };
            let words =
                format!("Delete {name} with all its readings?{begun} y deletes it, Esc keeps it.");
            ("delete", words.into())
        }
        Question::RunsOut { at, .. } => {
            let course = at.course;
            let words = format!(
                "0 at course {course}: does the line leave the course before it gets there? Enter: no, it ends right at the line. o or *: yes, type how far up it runs out. Esc: take the 0 back."
            );
            ("does it run out?", words.into())
        }
        Question::SameFigures { what, .. } => {
            let words = format!("{what} y takes them as edges of their own, Esc takes nothing of the file.");
            ("one edge under two names?", words.into())
        }
        Question::QuitUnsaved => {
            let why = match open.map(|open| &open.saved) {
                Some(OnDisk::No(why)) => why.as_str(),
                _ => "the last change is not on the disk yet",
            };
            let there = open.and_then(|open| open.rescued.as_ref());
            let leaving = there.map_or_else(
                || "y leaves and loses what is not saved".to_owned(),
                |path| format!("y leaves; the work stays in \"{}\"", crate::domain::measure::shown(&path.to_string_lossy())),
            );
            let words = format!(
                "NOT SAVED: {why}. Esc stays, s tries to save again, f saves in another file, {leaving}."
            );
            ("leave without saving?", words.into())
        }
        Question::ChangedOutside => (
            "changed by another program",
            "The file of this job is not the one that was read or saved here: another program has written it. Nothing is overwritten. y keeps what is on the screen and puts the other file aside, o opens the other file and keeps what is on the screen beside it, f saves what is on the screen in another file, Esc decides later.".into(),
        ),
        Question::Spoiled(asked) => {
            let words = open.map_or_else(String::new, |open| {
                let label = open.labels.piece(asked.piece);
                let kept = kept_words(open, asked.piece, &asked.saved);
                let why = match asked.why {
                    Some(why) => format!("Spoiled by: {}. Press its key again to take that back.", why.word()),
                    None => "By what, if you like: r a reading, m a mark, c the cut, b the bend, d dropped.".to_owned(),
                };
                format!("{label}. {kept} Esc: it is not spoiled. {why}")
            });
            ("spoiled: what of it is usable?", words.into())
        }
        Question::CorrectionHolds(at) => {
            let words = open.map_or_else(String::new, |open| {
                let (course, name) = (at.course, open.edge_name(at.edge));
                let said = open.progress.correction(at.edge, course);
                let said = said_of(said, &open.job().settings);
                format!("The pieces of {name} are cut {said}. Is course {course} cut {said} also from its new reading? y: yes, {said} again. n: no, as read. The answer holds for each course of it that is read again. Esc: asked again at the next; until then {said}.")
            });
            ("a course read again", words.into())
        }
        Question::NoLongerFits(piece) => {
            let words = open.and_then(|open| misfit_words(open, *piece));
            ("this piece no longer fits the log", words.unwrap_or_default().into())
        }
        Question::LaterWork(what) => {
            let words = format!("{what}. v lists all that is kept, to look and to go back to; Esc goes on with the file as it is.");
            ("later work of this job", words.into())
        }
        Question::OpenedOdd { why, .. } => {
            let words = format!("{why}. y works on it as it was read, v lists all that is kept of this job, Esc leaves the file alone.");
            ("this job's file", words.into())
        }
    }
}

/// What is wrong with a piece, where it lies, and what the keys do about it.
fn misfit_words(open: &OpenJob, id: PieceId) -> Option<String> {
    let piece = open.piece(id)?;
    let misfit = piece.fit.misfit()?;
    let label = open.labels.piece(id);
    let words = misfit.words(open.job().settings.division);
    let lies = open.stack_place(id).map_or_else(String::new, |from_top| {
        let name = open.edge_name(id.edge);
        format!(
            " It lies in the stack of {name}, {}.",
            from_the_top(from_top)
        )
    });
    let remedy = misfit.remedy.word();
    Some(format!(
        "{label}: {words}.{lies} m: {remedy}. s: leave it as it is, until the log changes once more. Esc: decide later."
    ))
}

/// `on top`, `third from the top`.
fn from_the_top(place: usize) -> String {
    match place {
        1 => "on top".to_owned(),
        2 => "second from the top".to_owned(),
        3 => "third from the top".to_owned(),
        place => format!("{place}th from the top"),
    }
}

// Over 60 lines: a sentence a choice.
fn choice(pen: &mut Pen<'_>, state: &State, what: Choice, row: Option<usize>) {
    match what {
        Choice::Kind => choose_kind(pen, row),
        Choice::Hand { kind, .. } => {
            let mut inner = boxed(pen, 66, 11, "to which side of it do its panels lie?");
            let words = format!("Stand at the eave and look up the {}:", kind.word());
            inner.text(1, 0, Role::Text, &words);
            let hand = row.map(Choice::side);
            hand_picture::draw(&mut inner, 1, 1, kind, hand);
        }
        Choice::FoundWhole => {
            let chosen = row.map_or_else(String::new, |row| {
                let whole = Choice::side(row).word().to_uppercase();
                format!("   Now: {whole}")
            });
            let words = format!(
                "Which end of the offcut is whole, face up and the nose toward you? 4 or <- left, 6 or -> right.{chosen}"
            );
            say(pen, "an offcut found on site", &words);
        }
        Choice::Correct(edge) => {
            let open = state.open.as_ref();
            let name = open.map_or("", |open| open.edge_name(edge));
            let words = format!(
                "How did the first pieces of {name} come out on the roof? Too LONG: press - and the rest is made shorter. Too SHORT: press + and the rest is made longer. Digits begin how much."
            );
            say(pen, "shorter or longer?", &words);
        }
        Choice::CorrectBy(edge, by) => {
            let words = state.open.as_ref().map_or_else(String::new, |open| {
                let by = exact_with_unit(by, open.job().settings.unit());
                let name = open.edge_name(edge);
                format!("{by}, and how did the first pieces of {name} come out on the roof? Too LONG: press - and the rest is made {by} SHORTER. Too SHORT: press + and the rest is made {by} LONGER.")
            });
            say(pen, "shorter or longer?", &words);
        }
        Choice::Lying(_) => {
            let words = "1: in a PILE, each on the one before; the top one is taken first, and those cut make a new pile. 2: SIDE BY SIDE, the first is taken first. Either way they go onto the stack in laying order.";
            say(pen, "how do the marked panels lie?", words);
        }
        Choice::TwoReadings { edge, course } => {
            if let Some(open) = &state.open
                && let Some(two) = open.two_at(edge, course)
            {
                choose_reading(pen, two, row, open.job().settings.unit());
            }
        }
        Choice::Doubt { edge, course } => {
            if let Some(open) = &state.open
                && let Some(doubt) = open.doubt_at(edge, course)
            {
                explain(pen, doubt, row, open.job().settings.division);
            }
        }
    }
}

fn choose_kind(pen: &mut Pen<'_>, row: Option<usize>) {
    let mut inner = boxed(pen, 44, 5, "what is added?");
    for (number, (at, kind)) in (1..).zip(EdgeKind::ALL.into_iter().enumerate()) {
        let bent = kind.bend().word();
        let is_here = row == Some(at);
        let words = format!("{number}  {:<8} bent {bent}", kind.word());
        listed(&mut inner, number, is_here, &words);
    }
}

fn cautions(pen: &mut Pen<'_>) {
    let width = usize::from(72.min(pen.width().saturating_sub(2))).saturating_sub(3);
    let rows: usize = CAUTIONS.iter().map(|text| broken(text, width).len()).sum();
    let rows = u16::try_from(rows).unwrap_or(u16::MAX);
    let mut inner = boxed(pen, 72, rows + 2, "before you cut");
    let mut y = 0;
    for text in CAUTIONS {
        inner.text(1, y, Role::Strong, "*");
        y = inner.wrapped(3, y, Role::Text, text);
    }
    inner.text(
        1,
        y + 1,
        Role::Strong,
        "Enter: read, go on.   w shows this again.",
    );
}

/// The keys that matter here, then the words.
fn help(pen: &mut Pen<'_>, state: &State, scroll: usize) {
    let keys = rows_for_help(state);
    let mut rows: Vec<(Role, &str, String)> = keys
        .iter()
        .map(|row| (Role::Text, row.key, row.says.to_owned()))
        .collect();
    rows.push((Role::Text, "", String::new()));
    rows.push((Role::Strong, "WORDS", String::new()));
    let width = usize::from(64.min(pen.width().saturating_sub(2))).saturating_sub(23);
    for (word, meaning) in WORDS {
        for (at, line) in broken(meaning, width).into_iter().enumerate() {
            rows.push((Role::Text, if at == 0 { word } else { "" }, line));
        }
    }
    let height = u16::try_from(rows.len() + 2).unwrap_or(u16::MAX);
    let most = pen.height().saturating_sub(4);
    let mut inner = boxed(pen, 64, height.min(most), "keys and words here");
    let room = usize::from(inner.height().saturating_sub(2));
    let start = scroll.min(rows.len().saturating_sub(room));
    for (y, (role, head, says)) in (0..).zip(rows.iter().skip(start).take(room)) {
        inner.text(1, y, Role::Strong, &clipped(head, 20));
        inner.text(22, y, *role, says);
    }
    let last = inner.height().saturating_sub(1);
    let more = if rows.len() > room {
        "arrows scroll, Enter goes back"
    } else {
        "Enter goes back"
    };
    inner.text(1, last, Role::Strong, more);
}
