//! Hips: the roof as a plan with every course's stage and the pieces of one edge
//! below, or the edges as a list.

use super::{hips_list, hips_pieces};
use crate::app::state::{HipsAs, HipsFocus, OpenJob, State};
use crate::domain::{
    bench::Stage,
    cutting::{LotPanels, PanelsToCarry},
    roof::EdgeKind,
};
use crate::picture::roof_plan::sides_of;
use crate::ui::{
    drawing::{
        roof_plan::{self, RoofPlan},
        roof_plan_signs::{self as sign_of, Signs},
    },
    pen::{Pen, clipped, columns},
    theme::Role,
    widgets::piece_words::misfit_count,
};

/// From this height on, the plan leaves so many rows for the pieces below it.
const TALL: u16 = 34;
const ROWS_FOR_PIECES: u16 = 10;

/// Draws the place.
pub fn draw(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let edges = open.job().edges();
    let left = open.list.left();
    let carry = open.panels_to_carry();
    let misfit = misfit_count(open).unwrap_or_default();
    let room = pen.width().saturating_sub(columns(&misfit) + 2);
    let words = counts(open, &carry, room);
    pen.text(1, 0, Role::Strong, &clipped(&words, usize::from(room)));
    pen.text_right(1, 0, Role::Strong, &misfit);
    if left > 0
        && let Some(time) = open.time_left(None)
    {
        pen.text(1, 1, Role::Text, &format!("what is left takes {time}"));
    }
    lots(pen, open, &carry);
    if edges.is_empty() {
        pen.text(1, 2, Role::Text, "No hip yet: a adds one in the Log (F3).");
        return;
    }
    let (width, height) = (pen.width(), pen.height());
    let mut below = pen.part(0, 2, width, height.saturating_sub(2));
    match state.hips.shown_as {
        HipsAs::Plan => plan(&mut below, state, open),
        HipsAs::List | HipsAs::Staircase => hips_list::draw(&mut below, state, open, &carry),
    }
}

/// Pieces and panels left in so many columns: what was spoiled is not cut off, and
/// the kinds are told by every label.
fn counts(open: &OpenJob, carry: &PanelsToCarry, room: u16) -> String {
    let heading = heading(open.job().edges().iter().map(|edge| edge.kind));
    let (left, all) = (open.list.left(), open.list.pieces.len());
    let more = open.job().settings.carry_more;
    let spoiled = match open.progress.spoiled() {
        0 => String::new(),
        count => format!(", {count} spoiled"),
    };
    if left == 0 && all > 0 {
        return format!("{heading}: {}{spoiled}", all_done(open));
    }
    let (to_open, of) = (more.on(carry.left), more.on(carry.whole_job));
    let panels = format!("{to_open} of {of} panels to open{spoiled}");
    // With many pieces cut at both ends not every choice of sides is tried.
    let fewer = if open.list.plan.every_way {
        ""
    } else {
        ", maybe fewer"
    };
    let ways = [
        format!("{heading}: {left} of {all} pieces left, {panels}{fewer}"),
        format!("{left} of {all} pieces left, {panels}{fewer}"),
        format!("{left} of {all} pieces left, {panels}"),
        format!("{left} of {all} left, {panels}"),
    ];
    let fits = ways.iter().find(|words| columns(words) <= room);
    fits.or(ways.last()).cloned().unwrap_or_default()
}

/// What came of it where nothing is left, and what is not read all the same.
fn all_done(open: &OpenJob) -> String {
    let pieces = match open.list.pieces.len() {
        1 => "the piece is stacked".to_owned(),
        count => format!("all {count} pieces are stacked"),
    };
    let panels = match open.progress.panels().len() {
        1 => "1 panel opened".to_owned(),
        count => format!("{count} panels opened"),
    };
    match open.list.holes().count() {
        0 => format!("{pieces}, {panels}"),
        1 => format!("{pieces}, 1 course NOT READ, {panels}"),
        count => format!("{pieces}, {count} courses NOT READ, {panels}"),
    }
}

/// How many of the panels to carry are of which colour lot.
fn lots(pen: &mut Pen<'_>, open: &OpenJob, carry: &PanelsToCarry) {
    let more = open.job().settings.carry_more;
    let of_lot = |panels: &LotPanels| {
        let lot = panels.lot.as_ref();
        let lot = lot.map_or("no lot", |lot| lot.as_str());
        format!("{lot}: {}", more.on(panels.left))
    };
    let lots: Vec<String> = carry.by_lot(open.job()).iter().map(of_lot).collect();
    // Once all is stacked there is nothing to carry.
    if !lots.is_empty() && open.list.left() > 0 {
        let room = usize::from(pen.width().saturating_sub(42));
        let words = clipped(&format!("carry {}", lots.join(", ")), room);
        pen.text_right(1, 1, Role::Strong, &words);
    }
}

/// `hips, valleys`, whatever kinds there are.
pub fn heading(kinds: impl Iterator<Item = EdgeKind> + Clone) -> String {
    let words: Vec<_> = EdgeKind::ALL
        .into_iter()
        .filter(|kind| kinds.clone().any(|other| other == *kind))
        .collect();
    let none = words.is_empty();
    let shown = if none { &EdgeKind::ALL[..] } else { &words };
    let words: Vec<_> = shown
        .iter()
        .map(|kind| format!("{}s", kind.word()))
        .collect();
    words.join(", ")
}

/// The plan, its words, and the selected edge's pieces as far as there is room.
fn plan(pen: &mut Pen<'_>, state: &State, open: &OpenJob) {
    let Some(edge) = state.edge_in_hips() else {
        return;
    };
    let (width, height) = (pen.width(), pen.height());
    let pieces = open.pieces_of(edge);
    let now = state.piece_in_hips().and_then(|at| pieces.get(at));
    let now = now.map(|piece| piece.id);
    let kept = if height >= TALL { ROWS_FOR_PIECES } else { 0 };
    // Beside the plan the row of its words and the line above the pieces.
    let room = height.saturating_sub(roof_plan::BESIDE + 2 + kept);
    let sides = sides_of(open.job());
    let among_edges = state.hips.focus == HipsFocus::Edges;
    let selected = (edge, among_edges, now);
    let mut plan = RoofPlan::of(open, &sides, selected, (width - 1, room));
    let mut said = sight_words(&plan);
    if !said.is_empty() {
        plan.fit_in(room.saturating_sub(1));
        said = sight_words(&plan);
    }
    let rows = plan.rows.rows + roof_plan::BESIDE;
    let signs = plan.draw(&mut pen.part(1, 0, width - 1, rows));
    let mut y = rows;
    if !said.is_empty() {
        pen.text(1, y, Role::Text, &said);
        y += 1;
    }
    pen.text(
        1,
        y,
        Role::Text,
        &words_of_signs(pen, &signs, plan.rows.each),
    );
    let mut below = pen.part(0, y + 1, width, height.saturating_sub(y + 1));
    hips_pieces::draw(&mut below, state, open, edge);
}

/// Where among the sides and courses one is, where not all are in sight, and how
/// two courses stand in a row.
fn sight_words(plan: &RoofPlan<'_>) -> String {
    let mut words = Vec::new();
    let rows = plan.rows;
    if plan.shown() < plan.of {
        words.push(format!("side {} of {}", plan.at + 1, plan.of));
    }
    if (rows.first, rows.last()) != (1, rows.highest) {
        words.push(format!("course {} of {}", rows.now, rows.highest));
    }
    if rows.each == 2 {
        words.push("two a row, the lower one outside".to_owned());
    }
    words.join("; ")
}

/// What the signs of the plan mean; those that do not stand in it are left out.
fn words_of_signs(pen: &Pen<'_>, signs: &Signs, each: u32) -> String {
    let fill = |stage| {
        let sign = sign_of::sign(stage, pen.theme());
        String::from(sign).repeat(if each == 1 { 2 } else { 1 })
    };
    let mut words = vec![
        format!("{} mark", fill(Stage::ToMark)),
        "C cut".to_owned(),
        "B bend".to_owned(),
        "S stack".to_owned(),
        format!("{} stacked", fill(Stage::Stacked)),
    ];
    for (sign, word) in [
        (sign_of::MISFIT, "no longer fits"),
        (sign_of::DOUBT, "doubt"),
        (sign_of::UNREAD, "not read"),
        (sign_of::TWO, "two readings"),
        (sign_of::NOTHING, "no piece"),
        (sign_of::MORE, "and more"),
    ] {
        if signs.contains(&sign) {
            words.push(format!("{sign} {word}"));
        }
    }
    let wide = words.join("  ");
    match columns(&wide) < pen.width() {
        true => wide,
        false => words.join(" "),
    }
}
