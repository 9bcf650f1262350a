//! Readings from a spreadsheet: CSV rows into a job's log.
//!
//! All or nothing: every bad row is reported, and the job comes back changed
//! only where there is none. It judges no reading by its geometry; doubts are
//! the domain's matter.

use super::{
    alike::{SameFigures, bare, same_figures},
    detail::Details,
    encoding::text_of,
    header::layout,
    records::{Next, Records},
    row::{Columns, Row, figures},
    runs_to::{Known, RunsTo},
    tally::Tally,
};
use crate::domain::{
    cutting::Job,
    log::{Course, CourseNumber, Edge, EdgeId},
    measure::{Hand, Name},
    roof::EdgeKind,
    tape::Unit,
};

use super::error::{BadRow, ImportError};
use crate::storage::job_file::MOST_PIECES;

use csv::ByteRecord;
use std::cell::RefCell;
use std::collections::HashMap;
use std::collections::hash_map::Entry;

/// How many bad rows are kept with their text; any more are counted.
const MOST_BAD: usize = 20;

/// The most courses or edges that a file may add: no job holds more pieces.
const MOST_NEW: usize = MOST_PIECES;

/// The most ways of writing names that are kept to be known again at once.
const MOST_CELLS: usize = 2 * MOST_NEW;

/// What an import came to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Imported {
    pub job: Job,
    /// How many courses were added to the log.
    pub added: usize,
    /// How many courses of the log got a figure, or another one.
    pub changed: usize,
    /// How many rows said nothing, or nothing that was new.
    pub skipped: usize,
    pub new_edges: usize,
    /// How many edges of the job were given a slope, corner, plane or lot that
    /// they did not have.
    pub filled_in: usize,
    /// The edges that may be another one under a second name: not to be taken
    /// without asking.
    pub same_figures: Vec<SameFigures>,
}

/// `job` with the readings of `csv` added.
///
/// # Errors
/// [`ImportError`] with every bad row; nothing is added then.
pub fn import(job: &Job, csv: &[u8]) -> Result<Imported, ImportError> {
    let csv = text_of(csv)?;
    let layout = layout(&csv)?;
    let mut records = Records::of(layout.rows, layout.delimiter, layout.lines);
    let mut record = ByteRecord::new();
    let columns = match records.next(&mut record)? {
        Next::Row(line) => Columns::of(&record, line)?,
        Next::TooLarge(line, what) => return Err(ImportError::Header { line, what }),
        Next::End => return Err(ImportError::NoHeader),
    };
    let mut log = Log::of(job, &columns);
    loop {
        match records.next(&mut record)? {
            Next::Row(_) if record.iter().all(<[u8]>::is_empty) => {}
            Next::Row(line) => {
                if let Err(what) = log.take(&record, line) {
                    log.refuse(line, what);
                }
                log.holds(line)?;
            }
            Next::TooLarge(line, what) => log.refuse(line, what),
            Next::End => return log.into_imported(),
        }
    }
}

/// An edge as the job or the file's first row of it has it.
struct Slot<'j> {
    name: Name,
    kind: EdgeKind,
    hand: Hand,
    /// The job's own, if it has one.
    edge: Option<&'j Edge>,
    details: Details,
}

/// The job's log with what has been read so far.
struct Log<'j> {
    job: &'j Job,
    columns: &'j Columns,
    unit: Unit,
    slots: Vec<Slot<'j>>,
    /// Slots by name.
    places: HashMap<Name, usize>,
    /// Slots by name without case and spaces.
    bare: HashMap<String, usize>,
    /// Slots by the cell as it is written, so that a name is cleaned only once.
    cells: HashMap<Vec<u8>, usize>,
    /// What the file adds, by slot and number, and in which line.
    new: HashMap<(usize, CourseNumber), (Course, u64)>,
    /// To which edges the file's courses run.
    runs_to: RunsTo,
    skipped: usize,
    bad: Vec<BadRow>,
    more: usize,
}

impl<'j> Log<'j> {
    fn of(job: &'j Job, columns: &'j Columns) -> Self {
        let mut log = Self {
            job,
            columns,
            unit: job.settings.unit(),
            slots: Vec::new(),
            places: HashMap::new(),
            bare: HashMap::new(),
            cells: HashMap::new(),
            new: HashMap::new(),
            runs_to: RunsTo::default(),
            skipped: 0,
            bad: Vec::new(),
            more: 0,
        };
        for edge in job.edges() {
            // Of two edges of one name the first is meant.
            if !log.places.contains_key(&edge.name) {
                log.add_slot(edge.name.clone(), edge.kind, edge.hand, Some(edge));
            }
        }
        log
    }

    fn add_slot(
        &mut self,
        name: Name,
        kind: EdgeKind,
        hand: Hand,
        edge: Option<&'j Edge>,
    ) -> usize {
        let place = self.slots.len();
        self.places.insert(name.clone(), place);
        self.bare.entry(bare(name.as_str())).or_insert(place);
        self.slots.push(Slot {
            name,
            kind,
            hand,
            edge,
            details: Details::default(),
        });
        place
    }

    /// Whether a job could still hold what has been read up to `line`: where it
    /// could not, the rest is not read either.
    fn holds(&self, line: u64) -> Result<(), ImportError> {
        let most = MOST_NEW;
        let edges = self.slots.len() - self.job.edges().len().min(self.slots.len());
        let counts = [("courses", self.new.len()), ("new edges", edges)];
        match counts.into_iter().find(|(_, count)| *count > most) {
            Some((what, _)) => Err(ImportError::TooMuch { line, what, most }),
            None => Ok(()),
        }
    }

    fn take(&mut self, record: &ByteRecord, line: u64) -> Result<(), String> {
        let row = Row::of(record, self.columns, self.unit)?;
        let place = self.slot(&row)?;
        let Some(slot) = self.slots.get_mut(place) else {
            return Ok(());
        };
        if slot.kind != row.kind || slot.hand != row.hand {
            return Err(other_edge(slot, &row));
        }
        let mut wrong = Vec::new();
        slot.details
            .take(row.details, line, &slot.name, slot.edge, &mut wrong);
        let at = (place, row.course.number);
        let (name, to) = (slot.name.clone(), row.to);
        if let Err(what) = self.take_course(place, row.course, to, line) {
            wrong.push(what);
        }
        wrong.extend(self.runs_to.say(at, &name, to, line).err());
        if wrong.is_empty() {
            Ok(())
        } else {
            Err(wrong.join("; "))
        }
    }

    fn take_course(
        &mut self,
        place: usize,
        course: Course,
        to: &str,
        line: u64,
    ) -> Result<(), String> {
        if course.is_blank() && to.is_empty() {
            self.skipped += 1;
            return Ok(());
        }
        let (known, known_line) = match self.new.entry((place, course.number)) {
            Entry::Vacant(entry) => {
                entry.insert((course, line));
                return Ok(());
            }
            Entry::Occupied(entry) => *entry.get(),
        };
        if known == course {
            self.skipped += 1;
            return Ok(());
        }
        let Some(slot) = self.slots.get(place) else {
            return Ok(());
        };
        let place = format!("on line {known_line}");
        Err(other_figures(
            &slot.name, &place, &known, &course, self.unit,
        ))
    }

    /// The slot of the row's edge; a new one where nobody has it yet.
    fn slot(&mut self, row: &Row<'_>) -> Result<usize, String> {
        if let Some(slot) = self.cells.get(row.edge.as_bytes()) {
            return Ok(*slot);
        }
        let name = Name::new(row.edge).map_err(|error| format!("edge: {error}"))?;
        if Name::would_cut(row.edge) {
            let most = Name::LONGEST;
            return Err(format!(
                "edge: \"{name}...\" is longer than a name, expected at most {most} characters, or two names may be cut to one"
            ));
        }
        let slot = match self.places.get(&name) {
            Some(slot) => *slot,
            None => {
                self.differs(&name)?;
                self.add_slot(name, row.kind, row.hand, None)
            }
        };
        if self.cells.len() < MOST_CELLS {
            self.cells.insert(row.edge.as_bytes().to_vec(), slot);
        }
        Ok(slot)
    }

    /// Whether a name nobody has yet is another than all there are.
    fn differs(&self, name: &Name) -> Result<(), String> {
        let known = self.bare.get(&bare(name.as_str()));
        match known.and_then(|place| self.slots.get(*place)) {
            None => Ok(()),
            Some(slot) => Err(format!(
                "edge: \"{name}\" differs from \"{}\" only by case or spaces, expected that name or a name of its own",
                slot.name
            )),
        }
    }

    /// Settles to which edges the courses run; new edges get their ids in turn.
    fn run_to_edges(&mut self) {
        let mut next = self.job.next_edge()..;
        let edges = self.slots.iter().map(|slot| Known {
            name: &slot.name,
            hand: slot.hand,
            id: match slot.edge {
                Some(edge) => edge.id,
                None => EdgeId(next.next().unwrap_or(u32::MAX)),
            },
        });
        let edges: Vec<_> = edges.collect();
        let runs_to = std::mem::take(&mut self.runs_to);
        let bad = runs_to.settle(self.job, &edges, &mut self.new);
        self.bad.extend(bad);
        self.bad
            .sort_by(|one, other| (one.line, &one.what).cmp(&(other.line, &other.what)));
        self.more += self.bad.len().saturating_sub(MOST_BAD);
        self.bad.truncate(MOST_BAD);
    }

    fn refuse(&mut self, line: u64, what: String) {
        if self.bad.len() < MOST_BAD {
            self.bad.push(BadRow { line, what });
        } else {
            self.more += 1;
        }
    }

    fn into_imported(mut self) -> Result<Imported, ImportError> {
        self.run_to_edges();
        if !self.bad.is_empty() {
            return Err(ImportError::Rows {
                bad: self.bad,
                more: self.more,
            });
        }
        let mut logs = vec![Vec::new(); self.slots.len()];
        for ((slot, _), (course, _)) in &self.new {
            if let Some(log) = logs.get_mut(*slot) {
                log.push(*course);
            }
        }
        let mut job = self.job.clone();
        let (mut new_edges, mut filled_in) = (0, 0);
        let mut changes = HashMap::new();
        let tally = RefCell::new(Tally {
            skipped: self.skipped,
            ..Tally::default()
        });
        for (slot, rows) in self.slots.into_iter().zip(logs) {
            let more = slot.details.is_more();
            let id = if let Some(edge) = slot.edge {
                filled_in += usize::from(more);
                edge.id
            } else {
                new_edges += 1;
                job.add_edge(slot.name, slot.kind, slot.hand)
            };
            if more || !rows.is_empty() {
                let tally = &tally;
                changes.insert(id, move |edge: &mut Edge| {
                    slot.details.write(edge);
                    tally.borrow_mut().take(edge, rows);
                });
            }
        }
        job.change_edges(changes);
        let tally = tally.into_inner();
        Ok(Imported {
            added: tally.added,
            changed: tally.changed,
            skipped: tally.skipped,
            new_edges,
            filled_in,
            same_figures: same_figures(&job, &tally.touched),
            job,
        })
    }
}

fn other_edge(slot: &Slot<'_>, row: &Row<'_>) -> String {
    format!(
        "edge \"{}\" is a {}-hand {}, the row says {}-hand {}",
        slot.name,
        slot.hand.word(),
        slot.kind.word(),
        row.hand.word(),
        row.kind.word()
    )
}

/// `place` is `in the log` or `on line 4`.
fn other_figures(name: &Name, place: &str, known: &Course, row: &Course, unit: Unit) -> String {
    format!(
        "course {} of \"{name}\" is {place} already with {}, the row says {}",
        row.number,
        figures(known, unit),
        figures(row, unit)
    )
}
