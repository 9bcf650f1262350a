//! The first page: what to carry, how many pieces, what is doubtful, the
//! settings and the cautions.

use crate::domain::{
    bench::Stage,
    cutting::{doubt_words, doubts_of_edge, odd_planes},
    roof::EdgeKind,
    words::CAUTIONS,
};
use crate::sheet::markup::{element, list, pairs, plain};
use crate::sheet::rows::{EdgeRows, Rows, Shown};
use crate::sheet::words;

/// The first page of `sheet`.
pub(super) fn first_page(sheet: &Rows<'_>) -> String {
    let mut page = plain("h1", "", &format!("Cut sheet: {}", sheet.job.name)) + "\n";
    if sheet.shown == Shown::Left {
        page.push_str(&plain("p", "note", "Only what is not stacked yet."));
    }
    page.push_str(&carry(sheet));
    page.push_str(&counts(sheet));
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
    let words = format!(
        "New panels to carry: {} for what is left, {} for the whole job ({spare}){}",
        more.on(sheet.carry.left),
        more.on(sheet.carry.whole_job),
        words::for_spoiled(sheet),
    );
    plain("p", "carry", &words) + "\n"
}

fn counts(sheet: &Rows<'_>) -> String {
    let head = ["", "edge", "hand"]
        .map(|word| plain("th", "", word))
        .concat()
        + &["pieces", "stacked", "new panels"]
            .map(|word| plain("th", "n", word))
            .concat();
    let head = element("thead", "", &element("tr", "", &head));
    let rows: String = sheet.edges.iter().map(|edge| count(edge, sheet)).collect();
    let all = sheet.panels;
    let last = plain("th", "", "")
        + &plain("th", "", "on this sheet")
        + &plain("th", "", "")
        + &plain("th", "n", &all.pieces.to_string())
        + &plain("th", "n", &sheet.at_stage(Stage::Stacked).to_string())
        + &plain("th", "n", &all.new.to_string());
    let body = element("tbody", "", &(rows + &element("tr", "", &last)));
    element("table", "counts", &(head + "\n" + &body)) + "\n"
}

fn count(edge: &EdgeRows<'_>, sheet: &Rows<'_>) -> String {
    let stacked = edge
        .rows
        .iter()
        .filter(|row| row.piece.stage == Stage::Stacked);
    let new = edge
        .rows
        .iter()
        .filter(|row| row.piece.stock.offcut().is_none());
    let cells = plain("td", "", &sheet.labels.edge(edge.edge.id))
        + &plain("td", "", edge.edge.name.as_str())
        + &plain("td", "", edge.edge.hand.word())
        + &plain("td", "n", &edge.rows.len().to_string())
        + &plain("td", "n", &stacked.count().to_string())
        + &plain("td", "n", &new.count().to_string());
    element("tr", "", &cells) + "\n"
}

fn doubts(sheet: &Rows<'_>) -> String {
    let settings = &sheet.job.settings;
    let mut all = Vec::new();
    for edge in &sheet.edges {
        for doubt in doubts_of_edge(edge.edge, settings) {
            let words = doubt_words(&doubt, settings.division);
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
    let settings = &sheet.job.settings;
    let unit = settings.unit();
    let mut rows = vec![
        ("readings".to_owned(), words::readings(settings, unit)),
        ("panel".to_owned(), words::panel(settings, unit)),
    ];
    for kind in EdgeKind::ALL {
        if sheet.edges.iter().any(|edge| edge.edge.kind == kind) {
            let word = format!("{}s", kind.word());
            rows.push((word, words::leg(settings, kind, unit)));
        }
    }
    rows.push(("bench".to_owned(), words::bench(settings)));
    rows.push(("figures".to_owned(), words::figures(settings)));
    plain("h3", "", "Settings") + &pairs("facts", rows) + "\n"
}
