//! Undo and redo across restarts: whatever was done in whatever order, each step
//! back and forward gives the job byte for byte, but for the count of changes,
//! which never falls, and the line of changes itself.
//!
//! What should come is a list of files, kept as the changes are made; it knows
//! nothing of how the program goes back.

use crate::support::{Program, job_with_hip};
use bendmark::domain::{
    cutting::{History, Job, Shift, Spot},
    log::{Course, CourseNumber, CourseShift, Edge, EdgeId, Reading, SetAside, Struck, TapeEnd},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::Setting,
};
use bendmark::storage::{
    job_file::{Seal, decode, encode},
    readings::import,
};
use proptest::prelude::*;

/// The file of a job without count and line.
fn plain(job: &Job) -> Vec<u8> {
    let mut job = job.clone();
    job.set_changes(0);
    job.set_history(History::new());
    encode(&job).unwrap()
}

/// What is done to the job: which, where and how much, each by a number that is
/// made to fit.
#[derive(Clone, Copy, Debug)]
enum Step {
    Paper(u8, u32, u32, i64),
    /// Keys at the Bench or the Rack that come to one change at most.
    Bench(&'static str),
    Undo(u8),
    Redo(u8),
    Restart,
}

fn steps(most: usize) -> impl Strategy<Value = Vec<Step>> {
    let keys = proptest::sample::select(vec![
        "<f4><enter>",
        "<f4><enter>",
        "<f4><enter>",
        "<f4><enter>",
        "<f4>x",
        "<f4>c-1/8<enter>",
        "<f4>c3/4<enter>",
        "<f4>g1",
        "<f4><right>",
        "<f4><pgdn>",
        "<f5>a6<enter>40;40<enter>",
        "<f5>d",
    ]);
    let step = prop_oneof![
        8 => (0..PAPER, 0..4_u32, 1..7_u32, 0..40_i64).prop_map(|(what, edge, course, by)| Step::Paper(what, edge, course, by)),
        6 => keys.prop_map(Step::Bench),
        3 => (1..6_u8).prop_map(Step::Undo),
        2 => (1..6_u8).prop_map(Step::Redo),
        2 => Just(Step::Restart),
    ];
    proptest::collection::vec(step, 1..most)
}

/// How many sorts of change on paper there are.
const PAPER: u8 = 16;

fn read(by: i64) -> Option<Reading> {
    Reading::new(Length::from_inches(10 + by)).ok()
}

/// One change on paper of that sort.
fn change(job: &mut Job, what: u8, edge: u32, number: u32, by: i64) {
    let course = CourseNumber::new(number).unwrap();
    let ids: Vec<EdgeId> = job.edges().iter().map(|edge| edge.id).collect();
    let name = |what: &str| Name::or(&format!("{what} {by}"), "?");
    let hand = [Hand::Left, Hand::Right][usize::from(by % 2 == 0)];
    match what {
        0 => {
            job.add_edge(name("Edge"), EdgeKind::ALL[edge as usize % 3], hand);
            return;
        }
        1 => {
            let mut settings = *job.settings;
            let text = if by % 3 == 0 { "14" } else { "14 1/2" };
            Setting::Exposure.write(&mut settings, text).unwrap();
            job.settings = bendmark::domain::settings::Settings::checked(settings).unwrap();
            return;
        }
        2 => {
            job.name = name("Job");
            return;
        }
        3 | 4 => {
            let rows = |edge: u32| format!("E{edge},hip,left,{number},{},{}\n", 20 + by, 12 + by);
            let csv = format!(
                "edge,kind,hand,course,bottom,top\n{}{}",
                rows(edge),
                rows(edge + 1)
            );
            *job = import(job, csv.as_bytes()).unwrap().job;
            return;
        }
        _ => {}
    }
    let Some(id) = ids.get(edge as usize % ids.len().max(1)).copied() else {
        return;
    };
    let shift = [CourseShift::In(course), CourseShift::Out(course)][usize::from(by % 2 == 0)];
    match what {
        5 => drop(job.remove_edge(id)),
        6 => drop(job.shift_edge(id, [Shift::Earlier, Shift::Later][usize::from(by % 2 == 0)])),
        7 => drop(job.shift_courses(id, shift)),
        _ => change_edge(job.edge_mut(id).unwrap(), what, course, by),
    }
}

fn change_edge(edge: &mut Edge, what: u8, course: CourseNumber, by: i64) {
    match what {
        8 => edge.name = Name::or(&format!("Again {by}"), "?"),
        9 => edge.set_aside.push(SetAside::Edge {
            off: Length::from_mm(by),
        }),
        10 => edge.set_aside.clear(),
        11 => {
            let struck = read(by).map(|was| Struck {
                course,
                end: bendmark::domain::log::End::Top,
                was,
            });
            edge.struck.extend(struck);
        }
        12 => edge.tape_end = (by % 2 == 0).then_some(TapeEnd::Hard),
        13 => drop(edge.remove(course)),
        14 => {
            let two = edge.two_readings().next();
            if let Some(two) = two {
                edge.choose(&two, by % 2 == 0);
            }
        }
        _ => edge.put(Course {
            bottom: read(by + 5),
            top: read(by),
            ..Course::unread(course)
        }),
    }
}

/// The program, the files that undo and redo should bring, and which of them is
/// now.
struct Line {
    program: Program,
    files: Vec<Vec<u8>>,
    now: usize,
    /// Changes on paper and at the bench, undos, redos and restarts so far.
    counts: [usize; 5],
}

impl Line {
    fn of(job: Job) -> Self {
        let files = vec![plain(&job)];
        let mut line = Self {
            program: Program::with(job),
            files,
            now: 0,
            counts: [0; 5],
        };
        line.program.state.bench.cautions_read = true;
        line
    }

    fn job(&self) -> &Job {
        self.program.job()
    }

    fn run(&mut self, step: Step) -> Result<(), TestCaseError> {
        let before = self.job().clone();
        match step {
            Step::Paper(what, edge, course, by) => {
                self.program.press("<esc><esc><esc>");
                let open = self.program.state.open.as_mut().unwrap();
                let (words, spot) = (format!("change {what}"), Spot::Rack);
                let done = |job: &mut Job| change(job, what, edge, course, by);
                if what == 7 {
                    open.renumber(words, spot, done);
                } else {
                    open.edit(words, spot, done);
                }
                self.keep(&before)?;
            }
            Step::Bench(keys) => {
                self.program.press("<esc><esc><esc>").press(keys);
                self.keep(&before)?;
            }
            Step::Undo(count) => (0..count).try_for_each(|_| self.undo())?,
            Step::Redo(count) => (0..count).try_for_each(|_| self.redo())?,
            Step::Restart => self.restart()?,
        }
        Ok(())
    }

    /// A change that was made, where one was.
    fn keep(&mut self, before: &Job) -> Result<(), TestCaseError> {
        let file = plain(self.job());
        if file == plain(before) {
            return Ok(());
        }
        prop_assert!(self.job().changes() > before.changes());
        self.files.truncate(self.now + 1);
        self.files.push(file);
        self.now += 1;
        let at_bench = self.job().events().len() != before.events().len();
        self.counts[usize::from(at_bench)] += 1;
        Ok(())
    }

    fn undo(&mut self) -> Result<(), TestCaseError> {
        let undone = self.program.state.open.as_mut().unwrap().undo();
        prop_assert_eq!(undone.is_some(), self.now > 0);
        self.now = self.now.saturating_sub(1);
        self.counts[2] += usize::from(undone.is_some());
        self.is_as_it_should()
    }

    fn redo(&mut self) -> Result<(), TestCaseError> {
        let redone = self.program.state.open.as_mut().unwrap().redo();
        prop_assert_eq!(redone.is_some(), self.now + 1 < self.files.len());
        self.now += usize::from(redone.is_some());
        self.counts[3] += usize::from(redone.is_some());
        self.is_as_it_should()
    }

    fn is_as_it_should(&self) -> Result<(), TestCaseError> {
        prop_assert_eq!(
            String::from_utf8(plain(self.job())).unwrap(),
            std::str::from_utf8(&self.files[self.now]).unwrap()
        );
        Ok(())
    }

    fn restart(&mut self) -> Result<(), TestCaseError> {
        let file = encode(self.job()).unwrap();
        let read = decode(&file).unwrap();
        prop_assert_eq!(read.seal, Seal::Whole);
        prop_assert_eq!(&read.job, self.job());
        prop_assert!(!read.job.history().is_cut());
        let again = encode(&read.job).unwrap();
        prop_assert_eq!(
            String::from_utf8(again).unwrap(),
            String::from_utf8(file).unwrap()
        );
        self.program = Program::with(read.job);
        self.program.state.bench.cautions_read = true;
        self.counts[4] += 1;
        self.is_as_it_should()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: crate::keys::cases(64), ..ProptestConfig::default() })]

    #[test]
    fn prop_undo_and_redo_give_the_job_back_byte_for_byte_across_restarts(
        steps in steps(40)
    ) {
        let mut line = Line::of(job_with_hip(3, Hand::Right));
        for step in steps {
            line.run(step)?;
        }
        // All the way back, and all the way forward again, with restarts between.
        while line.now > 0 {
            line.undo()?;
            if line.now.is_multiple_of(3) {
                line.restart()?;
            }
        }
        line.undo()?;
        while line.now + 1 < line.files.len() {
            line.redo()?;
            if line.now.is_multiple_of(3) {
                line.restart()?;
            }
        }
        line.redo()?;
        let counts = [1].into_iter().chain(line.counts);
        let all = TOTAL.with(|total| {
            total.set(std::array::from_fn(|at| total.get()[at] + counts.clone().nth(at).unwrap_or(0)));
            total.get()
        });
        if all[0].is_multiple_of(1_000) {
            println!("histories, on paper, at the bench, undos, redos, restarts: {all:?}");
        }
    }
}

thread_local! {
    static TOTAL: std::cell::Cell<[usize; 6]> = const { std::cell::Cell::new([0; 6]) };
}
