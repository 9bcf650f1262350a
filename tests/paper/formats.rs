//! Every format of both sample jobs, as a snapshot.

use crate::bench::{SAMPLES, sample};
use bendmark::domain::{bench::Stage, roof::EdgeKind};
use bendmark::sheet::{
    csv::csv,
    form::Form,
    form_html::form_html,
    form_text::form_text,
    html::html,
    json::json,
    layout::{Layout, Pages},
    rows::{Choice, Rows, Shown},
    text::{NARROWEST, WIDTH, text},
};
use unicode_width::UnicodeWidthStr;

#[test]
fn every_format_of_both_sample_jobs_is_as_it_was() {
    for name in SAMPLES {
        let job = sample(name);
        let form = Form::of(&job, &[], None);
        let pictures = Layout {
            pages: Pages::Pictures,
            ..Layout::default()
        };
        for (format, written) in [
            ("text", text(&Rows::of(&job), WIDTH)),
            ("pocket", text(&Rows::of(&job), NARROWEST)),
            ("csv", csv(&Rows::of(&job)).unwrap()),
            ("json", json(&Rows::of(&job))),
            ("html", html(&Rows::of(&job), &Layout::default())),
            ("html_pictures", html(&Rows::of(&job), &pictures)),
            ("form", form_text(&form, 80)),
            ("form_html", form_html(&form)),
        ] {
            insta::assert_snapshot!(format!("{name}_{format}"), written);
        }
    }
}

#[test]
fn no_text_is_wider_than_asked_for() {
    for name in SAMPLES {
        let job = sample(name);
        for width in [NARROWEST, 57, 80, 132] {
            let sheet = text(&Rows::of(&job), width);
            let form = form_text(&Form::of(&job, &[], None), width);
            for line in sheet.lines().chain(form.lines()) {
                assert!(line.width() <= width, "{width}: {line}");
            }
        }
    }
}

#[test]
fn no_line_ends_within_a_length() {
    let is_figure = |word: &str| {
        let bare = word.trim_matches(|c: char| "(+-".contains(c));
        !bare.is_empty() && bare.chars().all(|c| c.is_ascii_digit() || "/.".contains(c))
    };
    let goes_on = |word: &str| {
        let bare = word.trim_matches(|c: char| !c.is_alphanumeric());
        ["in", "mm"].contains(&bare) || word.split_once('/').is_some_and(|(top, _)| is_figure(top))
    };
    for name in SAMPLES {
        let job = sample(name);
        for width in 42..=90 {
            let sheet = text(&Rows::of(&job), width);
            let form = form_text(&Form::of(&job, &[], None), width);
            for text in [sheet, form] {
                let lines: Vec<&str> = text.lines().collect();
                for pair in lines.windows(2) {
                    let last = pair[0].split_whitespace().last().unwrap_or("");
                    let first = pair[1].split_whitespace().next().unwrap_or("");
                    assert!(!(is_figure(last) && goes_on(first)), "at {width}: {pair:?}");
                }
            }
        }
    }
}

#[test]
fn the_blank_log_draws_the_kind_of_its_edge() {
    let mut job = sample(SAMPLES[0]);
    let hip = job.edges()[1].id;
    for (kind, row, edge) in [
        (
            EdgeKind::Hip,
            "|___|___|___|____\\\n",
            "60.0\" y1=\"28.0\" x2=\"42.0",
        ),
        (
            EdgeKind::Valley,
            "|___|___|_/\n",
            "42.0\" y1=\"28.0\" x2=\"60.0",
        ),
        (
            EdgeKind::Rake,
            "|___|___|___|_|\n",
            "51.0\" y1=\"28.0\" x2=\"51.0",
        ),
    ] {
        job.edge_mut(hip).unwrap().kind = kind;
        let form = Form::of(&job, &[hip], None);
        let text = form_text(&form, 80);
        assert!(text.contains(row), "{text}");
        let html = form_html(&form);
        let page = html.split("class=\"page\"").nth(1).unwrap();
        assert!(page.contains(edge), "{page}");
    }
}

#[test]
fn what_is_left_of_one_edge_keeps_its_labels_and_panels() {
    let job = sample(SAMPLES[0]);
    let all = Rows::of(&job);
    let edge = job.edges()[1].id;
    let choice = Choice {
        edges: vec![edge],
        shown: Shown::Left,
    };
    let some = Rows::of(&job).only(&choice);
    assert_eq!(some.edges.len(), 1);
    let expected: Vec<_> = all
        .rows_of(&all.edges[1])
        .filter(|row| row.piece.stage != Stage::Stacked)
        .collect();
    assert_eq!(some.rows_of(&some.edges[0]).collect::<Vec<_>>(), expected);
    assert_eq!(some.panels.pieces, expected.len());
    assert_eq!(some.carry, all.carry);
}

#[test]
fn a_form_has_one_line_per_tape_placement_in_the_order_it_is_taken() {
    let job = sample(SAMPLES[0]);
    let form = Form::of(&job, &[], None);
    for edge in &form.edges {
        let lines: Vec<_> = edge.placements().collect();
        assert_eq!(lines.len(), edge.courses as usize + 1);
        assert_eq!((lines[0].top_of, lines[0].bottom_of), (None, Some(1)));
        assert_eq!((lines[3].top_of, lines[3].bottom_of), (Some(3), Some(4)));
        let last = lines.last().unwrap();
        assert_eq!((last.top_of, last.bottom_of), (Some(edge.courses), None));
    }
}
