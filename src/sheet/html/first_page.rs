//! The first page: what to carry, how many pieces, what is doubtful, the
//! settings and the cautions.

use crate::domain::bench::Stage;
use crate::domain::cutting::{CutPiece, doubt_words, odd_planes};
use crate::domain::measure::Length;
use crate::domain::roof::EdgeKind;
use crate::domain::words::CAUTIONS;
use crate::sheet::edge_length::{bought, edge_length};
use crate::sheet::layout::Layout;
use crate::sheet::log_mark::LogMark;
use crate::sheet::markup::{element, list, pairs, plain};
use crate::sheet::rows::{EdgeRows, Rows, Shown};
use crate::sheet::{settings_words, words};

/// How many lines of doubts, holes and misfits the page has room for, of each.
const MOST: usize = 8;

/// The first page of `sheet`.
pub(super) fn first_page(sheet: &Rows<'_>, layout: &Layout) -> String {
    let mut page = plain("h1", "", &format!("Cut sheet: {}", sheet.job.name)) + "\n";
    if let Some(words) = words::file(sheet) {
        page.push_str(&plain("p", "note", &words));
    }
    let printed = words::printed(layout);
    page.push_str(&printed.map_or_else(String::new, |words| plain("p", "", &words)));
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
        page.push_str(&list("", some(lines)));
    }
    page.push_str(&doubts(sheet));
    page.push_str(&holes(sheet));
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
        "Panels to open: {} for what is left, {} opened so far; buy {} for the whole job ({spare}){for_spoiled}{}",
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
        [
            "pieces",
            "stacked",
            "new panels",
            "about so long",
            "log mark",
        ],
    );
    let head = element("thead", "", &head);
    let rows: String = sheet.edges.iter().map(|edge| count(edge, sheet)).collect();
    let all = sheet.panels;
    let last = count_row(
        "th",
        ["", "on this sheet", ""],
        [
            all.pieces.to_string(),
            sheet.at_stage(Stage::Stacked).to_string(),
            all.new.to_string(),
            String::new(),
            String::new(),
        ],
    );
    let body = element("tbody", "", &(rows + &last));
    let stale = "A page with another log mark than here was printed before a reading or a setting changed: take it down.";
    element("table", "counts", &(head + "\n" + &body))
        + &plain("p", "", &boards(sheet))
        + &plain("p", "", stale)
        + "\n"
}

/// The length of all edges of each kind, for boards and caps.
fn boards(sheet: &Rows<'_>) -> String {
    let unit = sheet.job.settings.unit();
    let kinds = EdgeKind::ALL.into_iter().filter_map(|kind| {
        let of_kind = sheet.edges.iter().filter(|edge| edge.edge.kind == kind);
        let lengths = of_kind.map(|edge| edge_length(edge.edge, sheet.job));
        let (known, unknown): (Vec<_>, Vec<_>) = lengths.partition(Option::is_some);
        let all: Length = known.into_iter().flatten().sum();
        let unknown = match unknown.len() {
            0 => String::new(),
            count => format!(" and {count} of unknown length"),
        };
        let is_any = all > Length::ZERO;
        is_any.then(|| format!("{}s {}{unknown}", kind.word(), bought(all, unit)))
    });
    let kinds: Vec<String> = kinds.collect();
    match kinds.is_empty() {
        true => String::new(),
        false => format!(
            "For boards and caps, as far up as the log goes: {}.",
            kinds.join(", ")
        ),
    }
}

fn count_row(cell: &str, words: [&str; 3], figures: [impl ToString; 5]) -> String {
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
    let long = edge_length(edge.edge, sheet.job);
    let unit = sheet.job.settings.unit();
    let figures = [
        edge.count().to_string(),
        stacked.to_string(),
        new.to_string(),
        long.map_or_else(String::new, |long| bought(long, unit)),
        LogMark::of(edge, sheet).to_string(),
    ];
    count_row("td", words, figures) + "\n"
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
    head + &list("note", some(all)) + "\n"
}

/// The courses that owe a piece and are not read.
fn holes(sheet: &Rows<'_>) -> String {
    let division = sheet.job.settings.division;
    let holes = sheet.edges.iter().flat_map(|edge| {
        let short = sheet.labels.edge(edge.edge.id);
        let holes = edge.holes(division);
        holes.map(move |(course, why)| format!("{short} course {course}: {why}"))
    });
    let all = some(holes);
    match all.is_empty() {
        true => String::new(),
        false => plain("h3", "", "Holes in the log") + &list("note", all) + "\n",
    }
}

/// The first of them, and how many more there are: the pages of the edges have
/// them all, and this one is one page.
fn some(all: impl IntoIterator<Item = String>) -> Vec<String> {
    let mut all = all.into_iter();
    let mut first: Vec<String> = all.by_ref().take(MOST).collect();
    match all.count() {
        0 => {}
        more => first.push(format!("and {more} more: each edge's pages have all")),
    }
    first
}

fn settings(sheet: &Rows<'_>) -> String {
    let box_of = pairs("facts", settings_words::settings(sheet));
    plain("h3", "", "Settings") + &element("div", "boxed", &box_of) + "\n"
}
