//! Whatever a person types in Log or Job, and whatever a CSV row says, the
//! pieces stay pieces: no panic, no negative area, no mark off the panel.

use crate::support::{Program, job_with_hip};
use bendmark::domain::{
    bench::Progress,
    cutting::{CutList, Job},
    measure::{Area, Length, Name},
    piece::{At, Marks},
    settings::Settings,
};
use bendmark::sheet::{
    csv::csv,
    json::json,
    rows::Rows,
    text::{WIDTH, text},
};
use bendmark::storage::readings::import;
use proptest::prelude::*;

/// Figures as people and slipping fingers type them.
fn any_figure() -> impl Strategy<Value = String> {
    prop_oneof![
        "[0-9]{1,3}",
        "[0-9]{1,3} [0-9]{1,2}/(2|4|8|16)",
        "[0-9]{1,2}[.][0-9]{1,4}",
        Just("0".to_owned()),
        Just("48".to_owned()),
        Just("46".to_owned()),
        "[0-9]{1,5}",
        "[0-9]{1,3}(mm|cm|m|in)",
        "[-+/. 0-9]{0,8}",
    ]
}

fn any_keys() -> impl Strategy<Value = String> {
    let figure = any_figure().prop_map(|figure| format!("{figure}<enter>"));
    let runs_out = any_figure().prop_map(|figure| format!("o{figure}<enter>"));
    let short = any_figure().prop_map(|figure| format!("s{figure}<enter>"));
    let correct = any_figure().prop_map(|figure| format!("<f4><esc>c-{figure}<enter><esc><f3>"));
    let setting = (0..26_usize, any_figure()).prop_map(|(down, figure)| {
        format!(
            "<f6><home>{}<enter>{figure}<enter><esc><f3>",
            "<down>".repeat(down)
        )
    });
    let go = proptest::sample::select(vec![
        "<up>",
        "<down>",
        "<left>",
        "<right>",
        "<esc>",
        "<tab>",
        "<del>",
        "<enter>",
        "u",
        "a24<enter>",
        "a36<enter>",
        "<f4><enter><enter><f3>",
        "e<right><enter>",
    ])
    .prop_map(str::to_owned);
    prop_oneof![4 => figure, 1 => runs_out, 1 => short, 1 => correct, 2 => setting, 3 => go]
}

fn all_is_well(job: &Job) -> Result<(), TestCaseError> {
    let list = CutList::of(job, &Progress::of(job.events()));
    for piece in &list.pieces {
        let marks = Marks::of(&piece.spec);
        let panel = piece.spec.panel;
        let whole = panel.outline().area();
        prop_assert!(marks.kept.area() >= Area::default());
        prop_assert!(marks.left.area() >= Area::default());
        prop_assert_eq!(marks.kept.area() + marks.left.area(), whole);
        for mark in marks.bend.into_iter().chain(marks.cut).flatten() {
            let most = match mark.at {
                At::Nose | At::Back => panel.width,
                At::FarSide | At::HandSide => panel.height,
            };
            prop_assert!(mark.position >= Length::ZERO && mark.position <= most);
        }
    }
    prop_assert!(!json(&Rows::of(job)).is_empty() && csv(&Rows::of(job)).is_ok());
    prop_assert!(!text(&Rows::of(job), WIDTH).is_empty());
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases(64), ..ProptestConfig::default() })]

    #[test]
    fn prop_nothing_typed_in_log_or_job_makes_an_impossible_piece(
        keys in proptest::collection::vec(any_keys(), 0..40)
    ) {
        let mut program = Program::with(job_with_hip(2, bendmark::domain::measure::Hand::Left));
        program.press("<f3><tab>");
        for key in keys {
            program.press(&key);
            program.screen(80, 24);
        }
        all_is_well(program.job())?;
    }

    #[test]
    fn prop_no_csv_row_makes_an_impossible_piece(
        rows in proptest::collection::vec(
            (1..9_u32, any_figure(), any_figure(), any_figure(), any_figure(), 0..4_u8), 0..8),
        kind in proptest::sample::select(vec!["hip", "valley", "rake"]),
    ) {
        let mut job = Job::new(Name::or("Typed", "?"), Settings::default());
        for (course, bottom, top, height, runs_out, which) in rows {
            // A row with both readings, or one that runs out; short or not.
            let height = if which & 1 == 1 { height } else { String::new() };
            let (top, runs_out) = match (which & 2 == 2, kind) {
                (true, _) => (String::new(), runs_out),
                (false, _) => (top, String::new()),
            };
            let file = format!(
                "edge,kind,hand,course,bottom,top,height,runs_out\nA,{kind},left,{course},\"{bottom}\",\"{top}\",\"{height}\",\"{runs_out}\"\n"
            );
            if let Ok(imported) = import(&job, file.as_bytes()) {
                job = imported.job;
            }
        }
        all_is_well(&job)?;
    }
}

fn cases(usual: u32) -> u32 {
    std::env::var("BENDMARK_CASES")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(usual)
}
