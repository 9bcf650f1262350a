//! Where the blade stands, where it enters and where to stop, read back from
//! the cells of both hands, both ends of the table, and forms of all kinds.

use super::at_shear;
use super::cells::{Box, find, picture, text};
use super::snapshots::spec;
use bendmark::app::place::Glyphs;
use bendmark::domain::measure::Hand;
use bendmark::domain::piece::{At, Lie, Mark, Marks, Nose, Part, PieceSpec};

/// One piece at one table.
struct Scene {
    spec: PieceSpec,
    blade: Hand,
    lie: Lie,
    cut: [Mark; 2],
    cells: Vec<Vec<char>>,
    panel: Box,
}

fn scenes() -> Vec<Scene> {
    let forms = [
        (30, 18),
        (17, 5),
        (10, 24),
        (20, 20),
        (36, 30),
        (52, 40),
        (5, -9),
        (40, 52),
    ];
    let mut scenes = Vec::new();
    for (bottom, top) in forms {
        for hand in Hand::BOTH {
            for blade in Hand::BOTH {
                let spec = spec(hand, bottom, top);
                let marks = Marks::of(&spec);
                let cells = picture(
                    &at_shear(&spec, None, blade).unwrap(),
                    76,
                    20,
                    Glyphs::Blocks,
                );
                scenes.push(Scene {
                    spec,
                    blade,
                    lie: Lie::of(marks.kept.area(), marks.left.area(), hand, blade),
                    cut: marks.cut.unwrap(),
                    panel: Box::of(&cells),
                    cells,
                });
            }
        }
    }
    scenes
}

impl Scene {
    /// In cells from the upper left corner of the page.
    fn place(&self, mark: Mark) -> (f64, f64) {
        let point = mark.point(self.spec.panel.width, self.spec.panel.height);
        let across = point.x.mm() / self.spec.panel.width.mm() * self.panel.columns() as f64;
        let up = point.y.mm() / self.spec.panel.height.mm() * self.panel.rows() as f64;
        let (left, right) = (self.panel.left as f64, (self.panel.right + 1) as f64);
        let (top, bottom) = (self.panel.top as f64, (self.panel.bottom + 1) as f64);
        let whole_at_left = (self.spec.hand == Hand::Left) == (self.lie.nose == Nose::Toward);
        let x = if whole_at_left {
            left + across
        } else {
            right - across
        };
        let y = if self.lie.nose == Nose::Toward {
            bottom - up
        } else {
            top + up
        };
        (x, y)
    }

    /// The cut's end nearest to you, and the other: by where they are on the
    /// page.
    fn entry_and_exit(&self) -> [Mark; 2] {
        let [one, other] = self.cut;
        if self.place(one).1 > self.place(other).1 {
            [one, other]
        } else {
            [other, one]
        }
    }
}

#[test]
fn the_words_say_which_part_stays() {
    for scene in scenes() {
        let (stays, drops) = match scene.lie.on_table {
            Part::Kept => ("PIECE stays", "OFFCUT drops"),
            Part::Offcut => ("OFFCUT stays", "PIECE drops"),
        };
        let (x, _) = find(&scene.cells, stays).unwrap();
        let (other, _) = find(&scene.cells, drops).unwrap();
        assert_eq!(
            x < other,
            scene.blade == Hand::Right,
            "{}",
            text(&scene.cells)
        );
    }
}

#[test]
fn the_table_ends_at_the_blade_and_what_drops_is_beyond_it() {
    for scene in scenes() {
        let shown = text(&scene.cells);
        let row = &scene.cells[scene.panel.bottom + 2];
        let blade = row.iter().position(|c| *c == '║').unwrap();
        let table = row.iter().position(|c| *c == '═').unwrap();
        assert_eq!(table < blade, scene.blade == Hand::Right, "{shown}");
        let [entry, _] = scene.entry_and_exit();
        let (x, _) = scene.place(entry);
        assert!((blade as f64 + 0.5 - x).abs() <= 1.0, "{shown}");
        // The middle of what is filled, the piece, is on the table's side of the
        // middle of what is not, where the piece stays there.
        let Box {
            left,
            right,
            top,
            bottom,
        } = scene.panel;
        let middle = |full: bool| {
            let here: Vec<f64> = (top..=bottom)
                .flat_map(|y| (left..=right).map(move |x| (x, y)))
                .filter(|(x, y)| (scene.cells[*y][*x] == '█') == full)
                .map(|(x, _)| x as f64)
                .collect();
            here.iter().sum::<f64>() / here.len() as f64
        };
        let stays = scene.lie.on_table == Part::Kept;
        assert_eq!(
            middle(true) < middle(false),
            (scene.blade == Hand::Right) == stays,
            "{shown}"
        );
    }
}

#[test]
fn the_blade_enters_square_to_the_edge_nearest_to_you() {
    for scene in scenes() {
        let [entry, _] = scene.entry_and_exit();
        let (x, y) = scene.place(entry);
        let shown = text(&scene.cells);
        let (rows, columns, wanted) = match entry.at {
            At::Nose | At::Back => {
                let below = scene.panel.bottom + 1;
                (below..=below, around(x), '^')
            }
            // Beside the panel, at the side on which the entry lies.
            _ if x > 38.0 => (
                around(y),
                scene.panel.right + 1..=scene.panel.right + 1,
                '<',
            ),
            _ => (around(y), scene.panel.left - 1..=scene.panel.left - 1, '>'),
        };
        let found = rows
            .flat_map(|y| columns.clone().map(move |x| (x, y)))
            .any(|(x, y)| scene.cells[y][x] == wanted);
        assert!(found, "{entry:?}\n{shown}");
    }
}

/// The cells within one of a place.
fn around(at: f64) -> std::ops::RangeInclusive<usize> {
    let nearest = at.floor() as usize;
    nearest.saturating_sub(1)..=nearest + 1
}

#[test]
fn the_stop_is_three_quarters_of_the_way_from_the_entry() {
    for scene in scenes() {
        let [(_, y0), (_, y1)] = scene.entry_and_exit().map(|mark| scene.place(mark));
        let wanted = y0 + (y1 - y0) * 0.75;
        let (_, row) = find(&scene.cells, "stop").unwrap();
        assert!(
            (row as f64 + 0.5 - wanted).abs() <= 1.0,
            "{}",
            text(&scene.cells)
        );
    }
}
