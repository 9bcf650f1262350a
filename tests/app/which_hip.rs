//! Where nothing but the rows tells of a slip, both hips of a side are named, and `d`
//! leads to the one for which more speaks.

use crate::support::{Program, put};
use bendmark::domain::{
    cutting::{Job, doubt_words},
    log::EdgeId,
    measure::{Hand, Name},
    roof::EdgeKind,
    settings::Settings,
};
use bendmark::sheet::{json::json, rows::Rows};

/// Two hips of a side in no bond, whose gaps are together 24 in less from row to row but
/// for whole covers of 46 in. Course 5 of the right one was read 2 in short; that the
/// left one's was is less likely, since there another panel would fit.
fn told_by_the_row_alone() -> Job {
    let mut job = Job::new(Name::or("Roof", "?"), Settings::default());
    let left = [30, 52, 17, 40, 59, 25, 33, 48, 20];
    let right = [40, 40, 51, 50, 53 - 2, 17, 31, 38, 42];
    let sides = [("Left", Hand::Right, left), ("Right", Hand::Left, right)];
    for (name, hand, bottoms) in sides {
        let id = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, hand);
        job.edge_mut(id).unwrap().plane = Name::new("South").ok();
        for (number, bottom) in (1..).zip(bottoms) {
            put(
                &mut job,
                id,
                number,
                &bottom.to_string(),
                &(bottom - 12).to_string(),
            );
        }
    }
    job
}

#[test]
fn a_doubt_that_may_be_at_either_hip_says_so_and_d_leads_to_the_likelier() {
    let mut program = Program::with(told_by_the_row_alone());
    let words = |program: &Program| {
        let open = program.state.open.as_ref().unwrap();
        let division = open.job().settings.division;
        let doubts = open.doubts.iter();
        let words = doubts.map(|found| (found.edge.0, doubt_words(&found.doubt, division)));
        words.collect::<Vec<_>>()
    };
    let place = "course 5, both readings likely 2 in too short (read to the panel's edge)";
    let both = [
        (1, format!("{place}; likelier at Right")),
        (2, format!("{place}; or at Left")),
    ];
    assert_eq!(words(&program), both);
    // From the eave of the left hip its own doubt would be the next one.
    program.press("<f3><tab><home>d");
    assert_eq!(program.state.log.edge, Some(EdgeId(2)));
    // Opened, the list of what it may be names the other hip too.
    program.press("d");
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("or at Left: if so, x here, then d leads there"),
        "{screen}"
    );
    program.press("<esc>");
    let sheet = json(&Rows::of(program.state.job().unwrap()));
    let sheet: serde_json::Value = serde_json::from_str(&sheet).unwrap();
    let others = sheet["doubtful"].as_array().unwrap().iter();
    let others: Vec<_> = others
        .map(|doubt| (&doubt["or_edge"], &doubt["or_edge_is_likelier"]))
        .collect();
    assert_eq!(
        others,
        [
            (&"Right".into(), &true.into()),
            (&"Left".into(), &false.into())
        ]
    );
    // With it put right nothing is odd at either.
    program.press("f");
    assert_eq!(words(&program), []);
    program.press("u");
    assert_eq!(words(&program), both);
    // Measured again at the right hip, it is the left one's turn, and only its own.
    program.press("<home>dx");
    assert_eq!(words(&program), [(1, place.to_owned())]);
    program.press("<home>d");
    assert_eq!(program.state.log.edge, Some(EdgeId(1)));
}
