//! The cut sheet as plain text, to print and pin up at the bench.
//!
//! At most [`WIDTH`] columns. Lengths stand as the job's tape shows them; a
//! `+` or `-` follows where the exact figure is more than a quarter division
//! off.

use super::page::Page;
use super::rows::{EdgeRows, Row, Rows};
use crate::domain::caution::CAUTIONS;
use crate::domain::doubtful::{doubt_words, doubts_of_edge};
use crate::domain::edge::EdgeKind;
use crate::domain::hand::Hand;
use crate::domain::job::Job;
use crate::domain::label::Labels;
use crate::domain::length::Length;
use crate::domain::lie::{Nose, Part};
use crate::domain::marks::{At, Mark};
use crate::domain::note::Note;
use crate::domain::progress::Stage;
use crate::domain::settings::{
    Allowance, BenchOrder, LayingOrder, ReadTo, Settings, StackTurned, TapeEnd,
};
use crate::domain::tape::{Division, Unit, exact_with_unit, print_with_unit};
use crate::domain::turn_up::leg_trouble;

/// Columns of the page.
pub const WIDTH: usize = 80;

/// The cut sheet of `job` as text.
#[must_use]
pub fn text(job: &Job) -> String {
    let sheet = Rows::of(job);
    let mut page = Page::new(WIDTH);
    page.put("CUT SHEET  ", job.name.as_str());
    page.blank();
    settings(&mut page, &sheet);
    page.blank();
    cautions(&mut page);
    for edge in &sheet.edges {
        page.blank();
        edge_text(&mut page, edge, &sheet);
    }
    page.into_text()
}

fn cautions(page: &mut Page) {
    page.put("", "Take care");
    for caution in CAUTIONS {
        page.put("  - ", caution);
    }
}

fn settings(page: &mut Page, sheet: &Rows<'_>) {
    let settings = &sheet.job.settings;
    let unit = settings.unit();
    page.put("readings    ", &readings(settings, unit));
    page.put("panel       ", &panel(settings, unit));
    for kind in EdgeKind::ALL {
        if sheet.job.edges().iter().any(|edge| edge.kind == kind) {
            let lead = format!("{:<12}", format!("{}s", kind.word()));
            page.put(&lead, &leg(settings, kind, unit));
        }
    }
    page.put("bench       ", &bench(settings));
    page.put(
        "figures     ",
        &format!(
            "to {} {}; + or - means that the exact one is more than a quarter of that above or below",
            settings.division.word(),
            unit.word()
        ),
    );
    let panels = sheet.panels;
    page.put(
        "pieces      ",
        &format!(
            "{}, {} of them stacked; new panels: {}",
            panels.pieces,
            sheet.at_stage(Stage::Stacked),
            panels.new
        ),
    );
}

fn readings(settings: &Settings, unit: Unit) -> String {
    let to = match settings.read_to {
        ReadTo::LapLine => "to the side-lap line".to_owned(),
        ReadTo::PanelEdge => format!(
            "to the edge of the last panel, so the side lap of {} is added",
            exact_with_unit(settings.side_lap, unit)
        ),
    };
    let end = match settings.tape_end {
        TapeEnd::HeldOff => "tape end held off the board, so nothing is taken off",
        TapeEnd::Hard => "tape end hard against the board, so the clearance is taken off",
    };
    format!("{to}; {end}")
}

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

fn edge_text(page: &mut Page, edge: &EdgeRows<'_>, sheet: &Rows<'_>) {
    let settings = &sheet.job.settings;
    let division = settings.division;
    let kind = edge.edge.kind;
    page.put(
        &format!(
            "{}  {}  ",
            kind.word().to_uppercase(),
            sheet.labels.edge(edge.edge.id)
        ),
        edge.edge.name.as_str(),
    );
    page.put("  ", &hand(edge.edge.hand));
    if edge.correction != Length::ZERO {
        page.put("  ", &correction(edge.correction, division));
    }
    if let Some(trouble) = leg_trouble(edge.edge, settings) {
        page.put("  ! ", &trouble.words(division));
    }
    for doubt in doubts_of_edge(edge.edge, settings) {
        page.put("  ? ", &doubt_words(&doubt, division));
    }
    if edge.rows.is_empty() && edge.empty.is_empty() {
        page.put("  ", "nothing read yet");
    }
    for row in &edge.rows {
        page.blank();
        row_text(page, row, &sheet.labels, division);
    }
    if !edge.empty.is_empty() {
        page.blank();
    }
    for empty in &edge.empty {
        let lead = format!("  no piece for course {}: ", empty.course);
        page.put(&lead, &empty.why.words(division));
    }
}

/// Left-hand pieces go to an edge at the right end of its courses.
fn hand(hand: Hand) -> String {
    format!(
        "{}-hand pieces, for the {} end of the courses seen from the eave; tape from the {}",
        hand.word(),
        hand.other().word(),
        hand.word()
    )
}

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

fn row_text(page: &mut Page, row: &Row, labels: &Labels, division: Division) {
    let piece = &row.piece;
    let number = match piece.id.number {
        1 => String::new(),
        number => format!(", piece {number}"),
    };
    let left = format!(
        "{:<10} course {}{number}, tape from the {}",
        row.label,
        piece.id.course,
        piece.spec.hand.word()
    );
    let right = format!(
        "{}   {:>8}",
        match piece.stock.panel() {
            Some(panel) => format!("{}, panel {panel}", piece.stock.word()),
            None => piece.stock.word().to_owned(),
        },
        piece.stage.word()
    );
    page.apart(&left, &right);
    if piece.stock.offcut().is_some() {
        page.put("  from  ", &labels.stock(&piece.stock));
    }
    for note in &row.notes {
        page.put("  ! ", &note.words(piece.spec.kind, division));
    }
    for (lead, ends) in [("  bend  ", row.bend), ("  cut   ", row.cut)] {
        if let Some(ends) = ends {
            let [nose_end, back_end] = ends.map(|end| mark(end, division));
            page.pair(lead, &nose_end, 36, &back_end);
        }
    }
    if row.bend.is_some() || row.cut.is_some() {
        page.put("  lines ", &lines(row, division));
    }
    if let Some(lie) = row.lie {
        page.put("  table ", &table(lie.on_table, lie.nose));
    }
    if let Some(rest) = labels.rest(&piece.rest) {
        page.put("  rest  ", &rest);
    }
}

fn mark(mark: Mark, division: Division) -> String {
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
