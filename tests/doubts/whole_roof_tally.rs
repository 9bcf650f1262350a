//! Counts of the whole-roof simulation and its tables.

use crate::whole_roof_job::{Clean, Ends, Seen};
use crate::whole_roof_kinds::Slip;
use crate::whole_roof_plane::{Laid, Rows};

#[expect(clippy::cast_precision_loss, reason = "counts of a test")]
pub(crate) fn share(part: u64, of: u64) -> f64 {
    100.0 * part as f64 / of.max(1) as f64
}

/// The line under a table's head.
pub(crate) fn rule(columns: usize) -> String {
    format!("|{}", "---|".repeat(columns))
}

/// How a plane is logged and laid.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Cell {
    pub(crate) ends: Ends,
    pub(crate) slope_given: bool,
    pub(crate) rows: Rows,
    pub(crate) laid: Laid,
}

impl Cell {
    fn words(self) -> String {
        let slope = if self.slope_given {
            "given"
        } else {
            "not given"
        };
        let (ends, rows, laid) = (self.ends.word(), self.rows.word(), self.laid.word());
        format!("{ends} | {slope} | {rows} | {laid}")
    }
}

/// What came of the slips of one kind.
#[derive(Clone, Copy, Default, Debug)]
pub(crate) struct Slips {
    pub(crate) made: u64,
    pub(crate) found: u64,
    at_its_edge: u64,
    reading: u64,
    pub(crate) first: u64,
    first_two: u64,
    pub(crate) cause: u64,
    elsewhere: u64,
    readings: u64,
}

impl Slips {
    pub(crate) fn count(&mut self, seen: Seen, readings: u64) {
        self.made += 1;
        self.found += u64::from(seen.found);
        self.at_its_edge += u64::from(seen.at_its_edge);
        self.reading += u64::from(seen.reading);
        self.first += u64::from(seen.first);
        self.first_two += u64::from(seen.first_two);
        self.cause += u64::from(seen.cause);
        self.elsewhere += seen.elsewhere;
        self.readings += readings;
    }

    fn and(mut self, other: &Self) -> Self {
        self.made += other.made;
        self.found += other.found;
        self.at_its_edge += other.at_its_edge;
        self.reading += other.reading;
        self.first += other.first;
        self.first_two += other.first_two;
        self.cause += other.cause;
        self.elsewhere += other.elsewhere;
        self.readings += other.readings;
        self
    }

    fn percent(&self, part: u64) -> String {
        if self.made == 0 {
            return "-".to_owned();
        }
        format!("{:.1}", share(part, self.made))
    }
}

/// What came of planes without a slip.
#[derive(Clone, Copy, Default, Debug)]
pub(crate) struct Planes {
    planes: u64,
    with_doubt: u64,
    edges: u64,
    edges_with_doubt: u64,
    pub(crate) readings: u64,
    pub(crate) doubts: u64,
    replaced: u64,
    named: u64,
}

impl Planes {
    pub(crate) fn count(&mut self, clean: Clean) {
        self.planes += 1;
        self.with_doubt += u64::from(clean.doubts > 0);
        self.edges += clean.of_edges;
        self.edges_with_doubt += clean.edges;
        self.readings += clean.of_readings;
        self.doubts += clean.doubts;
        self.replaced += clean.replaced;
        self.named += clean.named;
    }

    pub(crate) fn and(mut self, other: &Self) -> Self {
        self.planes += other.planes;
        self.with_doubt += other.with_doubt;
        self.edges += other.edges;
        self.edges_with_doubt += other.edges_with_doubt;
        self.readings += other.readings;
        self.doubts += other.doubts;
        self.replaced += other.replaced;
        self.named += other.named;
        self
    }

    fn columns(&self) -> String {
        format!(
            "{} | {:.2} | {:.2} | {:.2} | {:.0} | {:.0}",
            self.planes,
            share(self.with_doubt, self.planes),
            share(self.edges_with_doubt, self.edges),
            100.0 * share(self.doubts, self.readings),
            share(self.replaced, self.doubts),
            share(self.named, self.doubts),
        )
    }
}

/// Everything at one reading error.
#[derive(Clone, Default, Debug)]
pub(crate) struct Tables {
    pub(crate) slips: Vec<(Cell, Slip, Slips)>,
    pub(crate) planes: Vec<(Cell, Planes)>,
}

impl Tables {
    pub(crate) fn slips_in(&mut self, cell: Cell, slip: Slip) -> &mut Slips {
        let is = |(c, s, _): &(Cell, Slip, Slips)| (*c, *s) == (cell, slip);
        let at = self.slips.iter().position(is);
        let at = at.unwrap_or_else(|| {
            self.slips.push((cell, slip, Slips::default()));
            self.slips.len() - 1
        });
        &mut self.slips[at].2
    }

    pub(crate) fn planes_in(&mut self, cell: Cell) -> &mut Planes {
        let at = self.planes.iter().position(|(c, _)| *c == cell);
        let at = at.unwrap_or_else(|| {
            self.planes.push((cell, Planes::default()));
            self.planes.len() - 1
        });
        &mut self.planes[at].1
    }

    /// All slips of the cells that `is` takes.
    pub(crate) fn sum(&self, slip: Slip, is: impl Fn(Cell) -> bool) -> Slips {
        let these = self.slips.iter();
        let these = these.filter(|(cell, each, _)| *each == slip && is(*cell));
        these.fold(Slips::default(), |sum, (.., slips)| sum.and(slips))
    }

    pub(crate) fn clean(&self, is: impl Fn(Cell) -> bool) -> Planes {
        let these = self.planes.iter().filter(|(cell, _)| is(*cell));
        these.fold(Planes::default(), |sum, (_, planes)| sum.and(planes))
    }

    fn by_slip(&self, ends: Ends, lines: &mut Vec<String>) {
        let word = ends.word();
        lines.push(format!(
            "| slip, {word} | found: straight | running | alternating | random | reading first: regular | random | figure first: regular | random | among two: regular | random | cause among two: regular | random | elsewhere in 10,000 |"
        ));
        lines.push(rule(14));
        for slip in Slip::ALL {
            let of = |rows: Rows| self.sum(slip, |cell| cell.ends == ends && cell.rows == rows);
            let found = Rows::ALL.map(|rows| of(rows).percent(of(rows).found));
            let regular = |regular: bool| {
                let is = |cell: Cell| (cell.rows == Rows::Random) != regular;
                self.sum(slip, |cell| cell.ends == ends && is(cell))
            };
            let bonds = [regular(true), regular(false)];
            let each = |part: fn(&Slips) -> u64| {
                let percent = bonds.map(|slips| slips.percent(part(&slips)));
                percent.join(" | ")
            };
            let cause = if slip.causes().is_empty() {
                "no name | no name".to_owned()
            } else {
                each(|slips| slips.cause)
            };
            let all = bonds[0].and(&bonds[1]);
            lines.push(format!(
                "| {} | {} | {} | {} | {} | {cause} | {:.1} |",
                slip.words(),
                found.join(" | "),
                each(|slips| slips.reading),
                each(|slips| slips.first),
                each(|slips| slips.first_two),
                100.0 * share(all.elsewhere, all.readings),
            ));
        }
        lines.push(String::new());
    }

    /// The slips that a slope makes easier or harder to find.
    fn by_slope(&self, lines: &mut Vec<String>) {
        let head = Ends::ALL.map(|ends| format!("{}, given | not given", ends.word()));
        lines.push(format!("| found, by slope | {} |", head.join(" | ")));
        lines.push(rule(7));
        for slip in Slip::ALL {
            let sums = Ends::ALL.map(|ends| {
                [true, false].map(|given| {
                    self.sum(slip, |cell| cell.ends == ends && cell.slope_given == given)
                })
            });
            let differs = |[given, not]: &[Slips; 2]| {
                let found = |slips: &Slips| share(slips.found, slips.made);
                (found(given) - found(not)).abs() > 2.0
            };
            if sums.iter().any(differs) {
                let percent = sums.map(|sums| sums.map(|slips| slips.percent(slips.found)));
                let percent = percent.map(|sums| sums.join(" | ")).join(" | ");
                lines.push(format!("| {} | {percent} |", slip.words()));
            }
        }
        lines.push(String::new());
    }

    fn without_slip(&self, each: bool, lines: &mut Vec<String>) {
        let head = "jobs without a slip | with a doubt % | edges with one % | doubts in 10,000 readings | of these another figure offered % | by a slip with a name %";
        lines.push(format!("| ends | slope | rows | laid | {head} |"));
        lines.push(rule(10));
        let cells = self.planes.iter().filter(|_| each);
        lines.extend(
            cells.map(|(cell, planes)| format!("| {} | {} |", cell.words(), planes.columns())),
        );
        for ends in Ends::ALL {
            for laid in Laid::ALL {
                for random in [false, true] {
                    let sum = self.clean(|cell| {
                        let rows = (cell.rows == Rows::Random) == random;
                        rows && cell.ends == ends && cell.laid == laid
                    });
                    let rows = if random { "random" } else { "regular" };
                    let (ends, laid) = (ends.word(), laid.word());
                    lines.push(format!(
                        "| {ends} | both | {rows} | {laid} | {} |",
                        sum.columns()
                    ));
                }
            }
        }
        lines.push(String::new());
    }

    /// Every cell by itself.
    fn each(&self, lines: &mut Vec<String>) {
        lines.push("| ends | slope | rows | laid | slip | slips | found % | at its edge % | first % | among two % | cause % | elsewhere in 10,000 |".to_owned());
        lines.push(rule(12));
        for (cell, slip, slips) in &self.slips {
            let parts = [
                slips.found,
                slips.at_its_edge,
                slips.first,
                slips.first_two,
                slips.cause,
            ];
            lines.push(format!(
                "| {} | {} | {} | {} | {:.2} |",
                cell.words(),
                slip.words(),
                slips.made,
                parts.map(|part| slips.percent(part)).join(" | "),
                100.0 * share(slips.elsewhere, slips.readings),
            ));
        }
        lines.push(String::new());
    }

    /// All tables; every cell by itself too where `each`.
    pub(crate) fn text(&self, head: &str, each: bool) -> String {
        let mut lines = vec![head.to_owned(), String::new()];
        self.without_slip(each, &mut lines);
        for ends in Ends::ALL {
            self.by_slip(ends, &mut lines);
        }
        self.by_slope(&mut lines);
        if each {
            self.each(&mut lines);
        }
        lines.join("\n")
    }
}
