//! Rack: the offcuts that wait for a later piece.

use crate::app::state::{OpenJob, State};
use crate::domain::bench::Stage;
use crate::domain::cutting::CutPiece;
use crate::domain::log::Edge;
use crate::domain::piece::PieceId;
use crate::domain::stock::RackOffcut;
use crate::domain::tape::{Division, print};
use crate::ui::pen::{Pen, first_in_sight};
use crate::ui::theme::Role;
use std::sync::Arc;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let rack = open.rack();
    let plan = &open.list.plan;
    let words = format!(
        "{} on the rack; at most {} will wait there at once",
        match rack.len() {
            1 => "1 offcut".to_owned(),
            count => format!("{count} offcuts"),
        },
        plan.most_on_rack().max(rack.len())
    );
    pen.text(1, 0, Role::Strong, &words);
    let words = format!(
        "left to mark: {} pieces from {} new panels, {} from offcuts; spoiled so far: {}",
        plan.new_panels() + plan.from_offcuts(),
        plan.new_panels(),
        plan.from_offcuts(),
        open.progress.spoiled()
    );
    pen.text(1, 1, Role::Text, &words);
    if rack.is_empty() {
        let words = "An offcut the plan has a use for is put here when its panel is cut; a adds one found on site.";
        pen.wrapped(1, 3, Role::Text, words);
        return;
    }
    let heads = " offcut  whole end   at nose    at back    lot         kept for";
    pen.text(0, 3, Role::Text, heads);
    let place = format!("{} of {}", state.rack.offcut + 1, rack.len());
    pen.text_right(1, 0, Role::Text, &place);
    let rows = usize::from(pen.height().saturating_sub(4));
    let start = first_in_sight(state.rack.offcut, rack.len(), rows);
    for (y, (at, (offcut, kept_for))) in (4..).zip(rack.iter().enumerate().skip(start).take(rows)) {
        let role = Role::of_row(at == state.rack.offcut);
        let kept_for = kept_for.map(|piece: PieceId| open.labels.piece(piece));
        let division = open.job().settings.division;
        let use_of_it = kept_for.unwrap_or_else(|| unused(open, offcut));
        pen.row(y, role, &row(offcut, &use_of_it, division));
        if at == state.rack.offcut {
            pen.text(0, y, role, ">");
        }
    }
}

/// What is said of an offcut that the plan has no use for: it is no waste where
/// a piece would come from it, of its own colour lot or of another.
fn unused(open: &OpenJob, offcut: &RackOffcut) -> String {
    let spare = open.job().settings.spare;
    let fits =
        |piece: &CutPiece| piece.stage == Stage::ToMark && offcut.offcut.serves(&piece.spec, spare);
    let lot_of = |piece: &CutPiece| {
        let edge = open.job().edge(piece.id.edge)?;
        edge.lot_of(piece.id.course).cloned()
    };
    let of_edge = |edge: &Arc<Edge>| open.list.pieces_of(edge.id).filter(|piece| fits(piece));
    let all: Vec<_> = open.job().edges().iter().flat_map(of_edge).collect();
    let own = all.iter().find(|piece| lot_of(piece) == offcut.lot);
    let Some(piece) = own.or(all.first()) else {
        return "nothing: throw it away".to_owned();
    };
    let label = open.labels.piece(piece.id);
    match lot_of(piece) {
        // Its panel is opened anyway.
        lot if lot == offcut.lot => format!("a spare for {label}"),
        Some(lot) => format!("fits {label}, lot {lot}"),
        None => format!("fits {label}, no lot"),
    }
}

fn row(offcut: &RackOffcut, use_of_it: &str, division: Division) -> String {
    let [at_nose, at_back] = offcut.offcut.widths();
    let lot = offcut.lot.as_ref().map_or("-", |lot| lot.as_str());
    format!(
        " {:>4}    {:<10}  {:<9}  {:<9}  {lot:<10.10}  {}",
        offcut.number.0,
        offcut.offcut.whole.word(),
        print(at_nose, division),
        print(at_back, division),
        use_of_it
    )
}
