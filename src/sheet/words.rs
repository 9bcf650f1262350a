//! The sentences that every readable form of the sheet shares.
//!
//! Text and HTML say the same in the same words; neither is known here.

use super::layout::Layout;
use super::rows::{EdgeRows, Row, Rows, Shown};
use super::settings_words::{held, read_to};
use crate::domain::{
    cutting::{CutPiece, Job, Labels, Note, doubt_words, lacks_lot},
    log::{Edge, TapeEnd},
    piece::{At, Lie, LineAt, Mark, Nose, Part, PieceId, leg_trouble},
    roof::EdgeKind,
    settings::Settings,
    tape::{Division, exact_with_unit, print_with_unit},
};

/// The new panels of each colour lot, a line each; nothing where no lot is named.
pub(super) fn lots(sheet: &Rows<'_>) -> Vec<String> {
    let more = sheet.job.settings.carry_more;
    let lots = sheet.carry.by_lot(sheet.job).into_iter();
    lots.map(|panels| {
        let lot = panels.lot.as_ref();
        let lot = lot.map_or("without a lot".to_owned(), |lot| format!("of lot {lot}"));
        format!(
            "{lot}: {} for what is left, {} for the whole job",
            more.on(panels.left),
            more.on(panels.whole_job)
        )
    })
    .collect()
}

/// By what pieces were spoiled, where that was said: `spoiled by: cut 2, dropped 1`.
pub(super) fn spoiled_by(sheet: &Rows<'_>) -> Option<String> {
    let counts = sheet.spoiled_by.iter();
    let counts: Vec<String> = counts
        .map(|(why, count)| format!("{} {count}", why.word()))
        .collect();
    (!counts.is_empty()).then(|| format!("spoiled by: {}", counts.join(", ")))
}

/// How many marked pieces of the sheet no longer fit the log, in words; empty
/// where all do.
pub(super) fn misfits(sheet: &Rows<'_>) -> String {
    match sheet.misfits().count() {
        0 => String::new(),
        1 => "1 NO LONGER FITS".to_owned(),
        count => format!("{count} NO LONGER FIT"),
    }
}

/// What is said on every page of a sheet that was made from an unusual file.
pub(super) fn file(sheet: &Rows<'_>) -> Option<String> {
    let odd = sheet.file.as_ref()?;
    Some(format!("NOT FROM THE JOB'S FILE AS IT WAS SAVED: {odd}"))
}

/// When the page is printed.
pub(super) fn printed(layout: &Layout) -> Option<String> {
    let at = layout.printed_at.as_ref()?;
    Some(format!("printed {at}"))
}

/// Which way the pieces of an edge are bent, how far, and how high their legs stand.
pub(super) fn edge_bend(edge: &EdgeRows<'_>, sheet: &Rows<'_>) -> String {
    let (of, division) = (edge.edge, sheet.job.settings.division);
    let bend = of.kind.bend();
    let known = of.roof.slope.and_then(|_| of.roof.bend_deg(of.kind));
    let to = known.map_or_else(String::new, |deg| {
        format!(" to {deg:.0} deg: {:.0} short of square", 90.0 - deg)
    });
    let pieces = || {
        sheet
            .pieces_of(edge)
            .filter(|piece| piece.spec.near.is_none())
    };
    let [least, most] = [
        pieces().map(|piece| piece.spec.leg()).min(),
        pieces().map(|piece| piece.spec.leg()).max(),
    ];
    let legs = least.zip(most).map_or_else(String::new, |legs| {
        let [least, most] = [legs.0, legs.1].map(|leg| print_with_unit(leg, division));
        // A hair over and a hair under the same mark are one height here.
        let bare = |leg: &str| leg.replace(['+', '-'], "");
        match (least == most, bare(&least) == bare(&most)) {
            (true, _) => format!("; leg {least} high, square"),
            (_, true) => format!("; leg {} high, square", bare(&least)),
            _ => format!("; leg {least} to {most} high, square"),
        }
    });
    format!("bend {}{to}{legs}", bend.word().to_uppercase())
}

/// Why an edge has no piece on the sheet.
fn no_piece(edge: &Edge) -> &'static str {
    if edge.courses().is_empty() {
        "nothing read yet"
    } else {
        "nothing left to do: every piece is stacked"
    }
}

/// What is to be known of an edge before its pieces: how it was corrected, what
/// is wrong or doubtful about it, behind its sign, and why it has no piece.
pub(super) fn edge_notes(rows: &EdgeRows<'_>, sheet: &Rows<'_>) -> Vec<(&'static str, String)> {
    let settings = &sheet.job.settings;
    let (edge, division) = (rows.edge, settings.division);
    let corrected = rows.corrected.words(&sheet.labels, division);
    let no_lot = no_lot(edge, sheet.job).map(|words| ("! ", words.to_owned()));
    let trouble = leg_trouble(edge, settings).map(|trouble| ("! ", trouble.words(division)));
    let two = edge.two_readings();
    let two = two.map(|two| {
        let words = two.words(settings.unit());
        ("! ", format!("{words}: HELD, choose one in the Log first"))
    });
    let doubts = rows.doubts.iter();
    let doubts = doubts.map(|doubt| ("? ", doubt_words(doubt, division)));
    let bare = rows.count() == 0 && rows.empty.is_empty() && rows.left_out.is_empty();
    let corrected = corrected.map(|words| ("", words));
    let exception = exception(edge, settings).map(|words| ("", words));
    let before = exception
        .into_iter()
        .chain(corrected)
        .chain(no_lot)
        .chain(trouble)
        .chain(two)
        .chain(doubts);
    before
        .chain(bare.then(|| ("", no_piece(edge).to_owned())))
        .collect()
}

/// `course 5`, `course 5, piece 2`.
pub(super) fn course(id: PieceId) -> String {
    match id.number {
        1 => format!("course {}", id.course),
        number => format!("course {}, piece {number}", id.course),
    }
}

/// `new, panel 3`: the kind of stock and its panel.
pub(super) fn stock(piece: &CutPiece) -> String {
    match piece.stock.panel() {
        Some(panel) => format!("{}, panel {panel}", piece.stock.word()),
        None => piece.stock.word().to_owned(),
    }
}

/// What is said of a piece below its marks, each behind what it is about.
pub(super) fn facts(row: &Row, labels: &Labels, division: Division) -> Vec<(&'static str, String)> {
    let piece = &row.piece;
    [
        ("lines", lines(row, division)),
        ("table", tables(row, labels)),
        ("rest", labels.rest(&piece.rest)),
    ]
    .into_iter()
    .filter_map(|(about, words)| Some((about, words?)))
    .collect()
}

/// How this edge is read, where that is an exception.
fn exception(edge: &Edge, settings: &Settings) -> Option<String> {
    let unit = settings.unit();
    let to = edge.reads_to.map(|to| read_to(to, settings, unit));
    // The edges' line names a clearance only where the whole job is read hard.
    let end = edge.tape_end.map(|end| match end {
        TapeEnd::HeldOff => held(end).to_owned(),
        TapeEnd::Hard => {
            let clearance = exact_with_unit(settings.kind(edge.kind).clearance, unit);
            format!("{} ({clearance})", held(end))
        }
    });
    let words: Vec<_> = to.into_iter().chain(end).collect();
    (!words.is_empty()).then(|| format!("read {}", words.join("; ")))
}

/// To which side of an edge its pieces lie, and so their hand.
pub(super) fn hand(edge: &Edge) -> String {
    let hand = edge.hand.word();
    let up = match edge.kind {
        EdgeKind::Hip => "looking up the hip",
        EdgeKind::Valley => "looking up the valley",
        EdgeKind::Rake => "looking up the rake",
    };
    format!(
        "{up}, these panels lie to its {}: {hand} hand, tape from the {hand}",
        hand.to_uppercase()
    )
}

/// `no lot said`, where others have one.
fn no_lot(edge: &Edge, job: &Job) -> Option<&'static str> {
    lacks_lot(job, edge).then_some(match edge.later_lots.is_empty() {
        true => "no lot said",
        false => "no lot said for the first courses",
    })
}

/// One mark as the tape shows it: `nose 12 1/2 in`.
pub(super) fn mark(mark: Mark, division: Division) -> String {
    let position = print_with_unit(mark.position, division);
    match mark.at {
        At::Nose | At::Back => format!("{} {position}", mark.at.word()),
        At::FarSide | At::HandSide => {
            format!("{} {position} up from the nose", mark.at.word())
        }
    }
}

/// The height a leg stands is left out where the note about it says how high.
fn lines(row: &Row, division: Division) -> Option<String> {
    let said = row
        .notes
        .iter()
        .any(|note| matches!(note, Note::NoCut { .. }));
    let stands = || print_with_unit(row.leg, division);
    (row.bend.is_some() && !said).then(|| format!("leg height {}, square", stands()))
}

/// How the panel lies at each cut.
fn tables(row: &Row, labels: &Labels) -> Option<String> {
    let cut = |(at, lie): (LineAt, Lie)| {
        let words = table(lie.on_table, lie.nose);
        let line = line_name(row, at, labels);
        line.map_or(words.clone(), |line| format!("{line}: {words}"))
    };
    let cuts: Vec<_> = row.cuts().map(cut).collect();
    (!cuts.is_empty()).then(|| cuts.join("; then "))
}

/// `the H1 line`, of a piece cut at both ends.
pub(super) fn line_name(row: &Row, at: LineAt, labels: &Labels) -> Option<String> {
    let edge = row.edge_at(at)?;
    Some(format!("the {} line", labels.edge(edge)))
}

/// As which of the cuts a line is cut, from 0; those that are not cut come last.
pub(super) fn turn(row: &Row, at: LineAt) -> usize {
    let place = row.cuts().position(|(line, _)| line == at);
    place.unwrap_or(usize::MAX)
}

/// `H1 line, 1st`: the same with its turn among the cuts.
pub(super) fn line_in_turn(row: &Row, at: LineAt, labels: &Labels) -> Option<String> {
    let edge = labels.edge(row.edge_at(at)?);
    let turn = match turn(row, at) {
        0 => ", 1st",
        1 => ", 2nd",
        _ => "",
    };
    Some(format!("{edge} line{turn}"))
}

/// Which part stays on the table, and how it lies.
fn table(part: Part, nose: Nose) -> String {
    let part = match part {
        Part::Kept => "the piece",
        Part::Offcut => "the offcut",
    };
    let nose = match nose {
        Nose::Toward => "toward you",
        Nose::Away => "away from you",
    };
    format!("big part on the table: {part}, nose {nose}")
}

/// That a better choice of sides may exist, where not every one was tried.
pub(super) const fn sides(sheet: &Rows<'_>) -> &'static str {
    if sheet.every_way {
        ""
    } else {
        "; so many are cut at both ends that their sides were chosen one at a time: fewer panels may do"
    }
}

/// How many panels were opened for pieces that were spoiled: no piece on the sheet
/// comes from them as new ones. 0 where the sheet shows only a part.
pub(super) fn for_spoiled(sheet: &Rows<'_>) -> usize {
    let whole = sheet.shown == Shown::Every && sheet.edges.len() == sheet.job.edges().len();
    match sheet.panels.spoiled {
        0 => 0,
        _ if !whole => 0,
        _ => sheet.carry.whole_job.saturating_sub(sheet.panels.new),
    }
}
