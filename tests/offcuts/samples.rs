//! The table in docs/offcuts.md: what the plan saves on the sample jobs.
//!
//! `BENDMARK_WRITE_DOCS=1` writes it anew.

use crate::outside::first_fit;
use bendmark::domain::{bench::Progress, cutting::CutList, stock::LeftToCut};
use bendmark::storage::{files::RealFs, keeping::load};
use std::path::Path;

const START: &str = "<!-- table: made by tests/offcuts/samples.rs -->\n";
const END: &str = "<!-- end of table -->";

#[test]
fn the_table_in_the_docs_is_what_the_sample_jobs_come_to() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut table = "| sample job | pieces | new panels, nothing used again | first-fit in cutting order | planned | offcuts waiting at most |\n|---|---|---|---|---|---|\n".to_owned();
    for file in ["alder-court-inches", "brook-meadow-millimetres"] {
        let path = root.join(format!("sample-jobs/{file}.ron"));
        let job = load(&RealFs, &path).unwrap().job;
        let list = CutList::of(&job, &Progress::of(job.events()));
        let left: Vec<LeftToCut> = list
            .pieces
            .iter()
            .map(|piece| LeftToCut {
                id: piece.id,
                spec: piece.spec,
                lot: job
                    .edge(piece.id.edge)
                    .and_then(|edge| edge.lot_of(piece.id.course).cloned()),
            })
            .collect();
        let (pieces, planned) = (left.len(), list.plan.new_panels());
        let by_first_fit = first_fit(&left, &[], job.settings.spare);
        assert!(planned <= by_first_fit && by_first_fit <= pieces);
        table.push_str(&format!(
            "| {} | {pieces} | {pieces} | {by_first_fit} | {planned} | {} |\n",
            job.name,
            list.plan.most_on_rack()
        ));
    }
    let page = root.join("docs/offcuts.md");
    let text = std::fs::read_to_string(&page).unwrap();
    let (before, rest) = text.split_once(START).unwrap();
    let (old, after) = rest.split_once(END).unwrap();
    if std::env::var_os("BENDMARK_WRITE_DOCS").is_some() {
        std::fs::write(&page, format!("{before}{START}{table}{END}{after}")).unwrap();
    } else {
        assert_eq!(old, table);
    }
}
