//! The sentences that every readable form of the sheet shares.
//!
//! Text and HTML say the same in the same words; neither is known here.

use super::rows::{EdgeRows, Row, Rows, Shown};
use crate::domain::{
    cutting::{CutPiece, Labels, Note, doubt_words},
    log::{Edge, PanelsLie, ReadTo, TapeEnd},
    measure::{Hand, Length},
    piece::{At, Lie, LineAt, Mark, Nose, Part, PieceId, leg_trouble},
    roof::EdgeKind,
    settings::{Allowance, BenchOrder, LayingOrder, Settings, StackTurned},
    tape::{Division, Unit, exact_with_unit, print_with_unit},
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

/// What a `+` or `-` behind a figure means.
fn figures(settings: &Settings) -> String {
    format!(
        "to {} {}; + or - means that the exact one is more than a quarter of that above or below",
        settings.division.word(),
        settings.unit().word()
    )
}

/// Why an edge has no piece on the sheet.
fn no_piece(edge: &Edge) -> &'static str {
    if edge.courses().is_empty() {
        "nothing read yet"
    } else {
        "nothing left to do: every piece is stacked"
    }
}

/// The settings that bear on the sheet, each behind what it is about.
pub(super) fn settings(sheet: &Rows<'_>) -> Vec<(String, String)> {
    let settings = &sheet.job.settings;
    let unit = settings.unit();
    let fixed = |word: &str, words| (word.to_owned(), words);
    let here = |kind: &EdgeKind| sheet.edges.iter().any(|edge| edge.edge.kind == *kind);
    let legs = EdgeKind::ALL.into_iter().filter(here);
    let mut all = vec![
        fixed("readings", readings(settings, unit) + board_to_board(sheet)),
        fixed("panel", panel(settings, unit)),
    ];
    all.extend(legs.map(|kind| (format!("{}s", kind.word()), leg(settings, kind, unit))));
    all.push(fixed("bench", bench(settings)));
    all.push(fixed("figures", figures(settings)));
    all
}

/// What is to be known of an edge before its pieces: how it was corrected, what
/// is wrong or doubtful about it, behind its sign, and why it has no piece.
pub(super) fn edge_notes(rows: &EdgeRows<'_>, settings: &Settings) -> Vec<(&'static str, String)> {
    let (edge, division) = (rows.edge, settings.division);
    let corrected =
        (rows.correction != Length::ZERO).then(|| correction(rows.correction, division));
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
    let marked = row
        .lines()
        .any(|line| line.bend.is_some() || line.cut.is_some());
    [
        ("lines", marked.then(|| lines(row, division))),
        ("table", tables(row, labels)),
        ("rest", labels.rest(&piece.rest)),
    ]
    .into_iter()
    .filter_map(|(about, words)| Some((about, words?)))
    .collect()
}

/// How readings are taken in this job.
fn readings(settings: &Settings, unit: Unit) -> String {
    let to = match settings.panels_lie {
        PanelsLie::NotSaid => read_to(settings.read_to, settings, unit),
        lie => {
            let over = if lie == PanelsLie::OverLeft {
                "left"
            } else {
                "right"
            };
            let [left, right] = Hand::BOTH.map(|hand| {
                let to = lie.reads_to(hand).unwrap_or(settings.read_to);
                format!("{}-hand edges {}", hand.word(), read_to(to, settings, unit))
            });
            format!("looking up, each panel lies over its {over} neighbour: {left}, {right}")
        }
    };
    format!("{to}; {}", held(settings.tape_end))
}

/// That some courses are read otherwise, whatever is said of the tape's end.
fn board_to_board(sheet: &Rows<'_>) -> &'static str {
    let mut courses = sheet.edges.iter().flat_map(|edge| edge.edge.courses());
    if courses.any(|course| course.to.is_some()) {
        "; courses from board to board are read hard, the clearance of both edges taken off"
    } else {
        ""
    }
}

fn read_to(to: ReadTo, settings: &Settings, unit: Unit) -> String {
    match to {
        ReadTo::LapLine => "to the side-lap line".to_owned(),
        ReadTo::PanelEdge => format!(
            "to the edge of the last panel, so the side lap of {} is added",
            exact_with_unit(settings.side_lap, unit)
        ),
    }
}

const fn held(end: TapeEnd) -> &'static str {
    match end {
        TapeEnd::HeldOff => "tape end held off the board, so nothing is taken off",
        TapeEnd::Hard => "tape end hard against the board, so the clearance is taken off",
    }
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

/// The panel's sizes.
fn panel(settings: &Settings, unit: Unit) -> String {
    let say = |length| exact_with_unit(length, unit);
    format!(
        "{} wide, side lap {}, exposure {}, nose to back flange {}",
        say(settings.panel_width),
        say(settings.side_lap),
        say(settings.exposure),
        say(settings.panel_height())
    )
}

/// How pieces of `kind` are bent, and how far beyond the bend line they are cut.
fn leg(settings: &Settings, kind: EdgeKind, unit: Unit) -> String {
    let say = |length| exact_with_unit(length, unit);
    let of_kind = settings.kind(kind);
    let allowance = match of_kind.allowance {
        Allowance::Along(along) => format!("allowance {} along the edge", say(along)),
        Allowance::Standing(height) => {
            format!("{} {} as it stands", kind.bend().leg(), say(height))
        }
    };
    let clearance = match settings.tape_end {
        TapeEnd::HeldOff => String::new(),
        TapeEnd::Hard => format!(", clearance {} taken off", say(of_kind.clearance)),
    };
    format!("bent {}, {allowance}{clearance}", kind.bend().word())
}

/// How the bench works.
fn bench(settings: &Settings) -> String {
    let order = match settings.bench_order {
        BenchOrder::CutFirst => "cut, then bend",
        BenchOrder::BendFirst => "bend, then cut",
    };
    let laid = match settings.laying {
        LayingOrder::RidgeDown => "from the ridge down",
        LayingOrder::EaveUp => "from the eave up",
    };
    let turned = match settings.stack_turned {
        StackTurned::No => "not turned over",
        StackTurned::Yes => "turned over",
    };
    format!(
        "blade at the {} end of the table; {order}; laid {laid}, stack {turned} on the way up",
        settings.blade.word()
    )
}

/// Left-hand pieces go to an edge at the right end of its courses.
pub(super) fn hand(hand: Hand) -> String {
    format!(
        "{}-hand pieces, for the {} end of the courses seen from the eave; tape from the {}",
        hand.word(),
        hand.other().word(),
        hand.word()
    )
}

/// By how much an edge was corrected.
fn correction(by: Length, division: Division) -> String {
    let which = if by < Length::ZERO {
        "shorter"
    } else {
        "longer"
    };
    format!(
        "corrected after a trial on the roof: {} {which}, for pieces not yet marked then",
        print_with_unit(by.abs(), division)
    )
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
fn lines(row: &Row, division: Division) -> String {
    let skew = format!("{:.2} deg from square", row.skew_deg);
    let leg = row.piece.spec.kind.bend().leg();
    let whole = !row
        .notes
        .iter()
        .any(|note| matches!(note, Note::NoCut { .. }));
    if row.bend.is_some() && whole {
        format!(
            "{skew}; {leg} {} as it stands",
            print_with_unit(row.turn_up, division)
        )
    } else {
        skew
    }
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
    format!("{part} stays on the table, nose {nose}")
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
