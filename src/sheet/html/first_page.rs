//! The first page: what to carry, how many pieces, what is doubtful, the
//! settings and the cautions.

use crate::domain::bench::Stage;
use crate::domain::cutting::{CutPiece, doubt_words, odd_planes};
use crate::domain::words::CAUTIONS;
use crate::sheet::markup::{element, list, pairs, plain};
use crate::sheet::rows::{EdgeRows, Rows, Shown};
use crate::sheet::words;

/// The first page of `sheet`.
pub(super) fn first_page(sheet: &Rows<'_>) -> String {
    let mut page = plain("h1", "", &format!("Cut sheet: {}", sheet.job.name)) + "\n";
    if let Some(words) = words::file(sheet) {
        page.push_str(&plain("p", "note", &words));
    }
    if sheet.shown == Shown::Left {
        page.push_str(&plain("p", "note", "Only what is not stacked yet."));
    }
    page.push_str(&carry(sheet));
    page.push_str(&counts(sheet));
    let misfits = words::misfits(sheet);
    if !misfits.is_empty() {
        page.push_str(&plain("p", "note", &misfits));
        let division = sheet.job.settings.division;
        let lines = sheet.misfits();
        let lines = lines.map(|(_, piece, misfit)| {
            let label = sheet.labels.piece(piece.id);
            format!("{label}: {}", misfit.words(division))
        });
        page.push_str(&list("", lines));
    }
    page.push_str(&doubts(sheet));
    page.push_str(&settings(sheet));
    page.push_str(&plain("h3", "", "Take care"));
    page.push_str(&list("", CAUTIONS.map(str::to_owned)));
    element("section", "", &format!("\n{page}\n")) + "\n"
}

fn carry(sheet: &Rows<'_>) -> String {
    let more = sheet.job.settings.carry_more;
    let spare = match more.get() {
        0 => "no spare".to_owned(),
        per_cent => format!("{per_cent} per cent spare in it"),
    };
    // The whole job's panels hold them already.
    let for_spoiled = match words::for_spoiled(sheet) {
        0 => String::new(),
        count => format!(", {count} of them opened for what was spoiled"),
    };
    let words = format!(
        "New panels to carry: {} for what is left, {} opened so far; buy {} for the whole job ({spare}){for_spoiled}{}",
        more.on(sheet.carry.left),
        sheet.carry.opened(),
        more.on(sheet.carry.whole_job),
        words::sides(sheet),
    );
    let lots = words::lots(sheet);
    let lots = match lots.is_empty() {
        true => String::new(),
        false => list("", lots),
    };
    let by = words::spoiled_by(sheet).map_or_else(String::new, |by| plain("p", "", &by));
    plain("p", "carry", &words) + &by + &lots + "\n"
}

fn counts(sheet: &Rows<'_>) -> String {
    let head = count_row(
        "th",
        ["", "edge", "hand"],
        ["pieces", "stacked", "new panels"],
    );
    let head = element("thead", "", &head);
    let rows: String = sheet.edges.iter().map(|edge| count(edge, sheet)).collect();
    let all = sheet.panels;
    let last = count_row(
        "th",
        ["", "on this sheet", ""],
        [all.pieces, sheet.at_stage(Stage::Stacked), all.new],
    );
    let body = element("tbody", "", &(rows + &last));
    element("table", "counts", &(head + "\n" + &body)) + "\n"
}

fn count_row(cell: &str, words: [&str; 3], figures: [impl ToString; 3]) -> String {
    let words = words.map(|word| plain(cell, "", word)).concat();
    let figures = figures.map(|figure| plain(cell, "n", &figure.to_string()));
    element("tr", "", &(words + &figures.concat()))
}

fn count(edge: &EdgeRows<'_>, sheet: &Rows<'_>) -> String {
    let with = |fits: fn(&&CutPiece) -> bool| sheet.pieces_of(edge).filter(fits).count();
    let stacked = with(|piece| piece.stage == Stage::Stacked);
    let new = with(|piece| piece.stock.offcut().is_none());
    let short = sheet.labels.edge(edge.edge.id);
    let name = edge.edge.name.as_str();
    let words = [&short, name, edge.edge.hand.word()];
    count_row("td", words, [edge.count(), stacked, new]) + "\n"
}

fn doubts(sheet: &Rows<'_>) -> String {
    let settings = &sheet.job.settings;
    let mut all = Vec::new();
    for edge in &sheet.edges {
        for doubt in &edge.doubts {
            let words = doubt_words(doubt, settings.division);
            all.push(format!("{}: {words}", edge.edge.name));
        }
    }
    all.extend(odd_planes(sheet.job));
    let head = plain("h3", "", "Doubtful readings");
    if all.is_empty() {
        return head + &plain("p", "", "None.") + "\n";
    }
    head + &list("note", all) + "\n"
}

fn settings(sheet: &Rows<'_>) -> String {
    plain("h3", "", "Settings") + &pairs("facts", words::settings(sheet)) + "\n"
}
