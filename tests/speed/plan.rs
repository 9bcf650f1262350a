//! Planning the offcuts, graph included, against the outside library's maximum
//! matching alone on the same graph, made beforehand; and a new plan after an
//! event against drawing full frames.

use bendmark::domain::{
    log::{CourseNumber, EdgeId},
    measure::{Hand, Length, SkewLine},
    piece::{Panel, PieceId, PieceSpec},
    roof::EdgeKind,
    stock::{LeftToCut, Offcut, OffcutNumber, Plan, Promise, RackOffcut, Rest, share_a_panel},
};
use petgraph::algo::maximum_matching;
use petgraph::graph::UnGraph;
use ratatui::Terminal;
use ratatui::TerminalOptions;
use ratatui::Viewport;
use ratatui::backend::CrosstermBackend;
use ratatui::layout::Rect;
use ratatui::widgets::Paragraph;
use std::time::Instant;

/// What is timed, how many times the time allowed for comparison it takes, and
/// the most that may be.
pub(crate) fn ratios() -> Vec<(String, f64, f64)> {
    let frame = seconds(200, full_frame());
    let mut ratios = Vec::new();
    for pieces in [400, 4_000] {
        let left = roof(pieces);
        let graph = explicit_graph(&left);
        let runs = if pieces > 1_000 { 3 } else { 30 };
        let planning = seconds(runs, || Plan::of(&left, &[], Length::ZERO).new_panels());
        let runs = if pieces > 1_000 { 1 } else { runs };
        let matching = seconds(runs, || maximum_matching(&graph).edges().count());
        ratios.push((
            format!("plan {pieces} pieces / outside matching alone"),
            planning / matching,
            1.0,
        ));
    }
    let (left, rack) = after_an_event(roof(400));
    let again = seconds(30, || Plan::of(&left, &rack, Length::ZERO).new_panels());
    let name = "new plan after an event at 400 pieces / frame of 120x40";
    ratios.push((name.to_owned(), again / frame, 100.0));
    ratios
}

/// The least of so many runs, in seconds.
fn seconds<T>(runs: usize, mut run: impl FnMut() -> T) -> f64 {
    let once = |_| {
        let start = Instant::now();
        std::hint::black_box(run());
        start.elapsed().as_secs_f64()
    };
    (0..runs).map(once).fold(f64::INFINITY, f64::min)
}

/// Draws a full frame in which every cell has changed.
pub(crate) fn full_frame() -> impl FnMut() {
    let area = Rect::new(0, 0, 120, 40);
    let viewport = Viewport::Fixed(area);
    let backend = CrosstermBackend::new(std::io::sink());
    let mut terminal = Terminal::with_options(backend, TerminalOptions { viewport }).unwrap();
    let texts = ["x", "o"].map(|cell| vec![cell.repeat(120); 40].join("\n"));
    let mut drawn = 0;
    move || {
        drawn += 1;
        let text = texts[drawn % 2].as_str();
        let draw = |frame: &mut ratatui::Frame<'_>| {
            frame.render_widget(Paragraph::new(text), area);
        };
        terminal.draw(draw).unwrap();
    }
}

/// A large roof of hips and valleys in courses of twelve, cut from the eave up.
/// Every fourth gap is wider than a panel. Figures follow a fixed sequence
/// without pattern (Knuth's multiplier), readings to a sixteenth of an inch.
fn roof(pieces: usize) -> Vec<LeftToCut> {
    let mut state = 20_260_801_u64;
    let mut next = |below: i64| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        i64::try_from(state >> 40).unwrap() % below
    };
    let mut left = Vec::new();
    for edge in 0.. {
        let kind = [
            EdgeKind::Hip,
            EdgeKind::Hip,
            EdgeKind::Hip,
            EdgeKind::Valley,
        ][edge % 4];
        let hand = Hand::BOTH[usize::try_from(next(2)).unwrap()];
        // Sixteenths of an inch over an exposure of 14 in: 6 in 12 to 12 in 12.
        let step = 158 + next(42);
        let step = if kind == EdgeKind::Valley {
            -step
        } else {
            step
        };
        for course in 1..=12 {
            let wide = if next(4) == 0 { 46 * 16 } else { 0 };
            let bottom = 32 + next(46 * 16) + wide - step.min(0);
            let lines = (bottom, bottom - step + next(3) - 1);
            for (number, spec) in (1..).zip(pieces_of(kind, hand, lines)) {
                let edge = EdgeId(u32::try_from(edge).unwrap());
                let course = CourseNumber::new(course).unwrap();
                let id = PieceId {
                    edge,
                    course,
                    number,
                };
                left.push(LeftToCut {
                    id,
                    spec,
                    lot: None,
                });
                if left.len() == pieces {
                    return left;
                }
            }
        }
    }
    left
}

/// The pieces of a gap, in sixteenths, by the rule for wide gaps.
fn pieces_of(kind: EdgeKind, hand: Hand, (mut bottom, mut top): (i64, i64)) -> Vec<PieceSpec> {
    let sixteenths = |count| Length::from_64ths(4 * count);
    let panel = Panel {
        width: Length::from_inches(48),
        height: Length::from_inches(14),
    };
    let mut pieces = Vec::new();
    loop {
        let bend = SkewLine {
            at_nose: sixteenths(bottom),
            at_rise: sixteenths(top),
            rise: Length::from_inches(14),
        };
        let allowance = Length::from_inches(2);
        let piece = PieceSpec {
            kind,
            hand,
            bend,
            allowance,
            panel,
            across: None,
            near: None,
        };
        if piece.cut().at_nose.max(piece.cut().at_rise) > Length::ZERO {
            pieces.push(piece);
        }
        if bottom.max(top) <= 48 * 16 {
            return pieces;
        }
        bottom -= 46 * 16;
        top -= 46 * 16;
    }
}

fn explicit_graph(left: &[LeftToCut]) -> UnGraph<(), ()> {
    let mut graph = UnGraph::new_undirected();
    let nodes: Vec<_> = left.iter().map(|_| graph.add_node(())).collect();
    for (at, one) in left.iter().enumerate() {
        for (other, node) in left.iter().zip(&nodes).skip(at + 1) {
            if share_a_panel(&one.spec, &other.spec, Length::ZERO) {
                graph.add_edge(nodes[at], *node, ());
            }
        }
    }
    graph
}

/// The same roof after a quarter of it was cut as planned: the offcuts kept
/// lie promised on the rack, and the oldest of them was just thrown away.
fn after_an_event(left: Vec<LeftToCut>) -> (Vec<LeftToCut>, Vec<RackOffcut>) {
    let plan = Plan::of(&left, &[], Length::ZERO);
    let cut = left.len() / 4;
    let gone: Vec<_> = left[..cut].iter().map(|piece| piece.id).collect();
    let kept = plan.pieces[..cut]
        .iter()
        .zip(&left)
        .filter_map(|(planned, piece)| {
            let Rest::KeptFor { piece: other, .. } = planned.rest else {
                return None;
            };
            (!gone.contains(&other)).then_some((piece, other))
        });
    let rack = (1..).zip(kept).filter_map(|(number, (piece, other))| {
        Some(RackOffcut {
            number: OffcutNumber(number),
            offcut: Offcut::left_by(&piece.spec)?,
            lot: None,
            promise: Some(Promise {
                piece: other,
                since: number,
            }),
        })
    });
    let rack = rack.skip(1).collect();
    (left[cut..].to_vec(), rack)
}
