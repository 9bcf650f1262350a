//! From a key at the bench to "saved", for a job of 400 pieces of which half
//! are done: the whole way through the program, its planning and the saver's
//! thread included, against serialising the same job with ron and the bare
//! recipe on its bytes. And what a job of 60,000 pieces takes.

use crate::measure::Ratio;
use crate::plain_job::PlainJob;
use bendmark::app::{
    effect::{Effect, ToSave},
    key::{Code, Key, Millis},
    keymap::key_to_message,
    message::{Message, Opened},
    place::{Glyphs, Look, Place, ScreenSize},
    state::State,
    update::update,
};
use bendmark::domain::{
    bench::Utc,
    cutting::Job,
    log::{Course, CourseNumber, End, Reading},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::Settings,
};
use bendmark::shell::{saving::Saver, terminal::Input};
use bendmark::storage::files::RealFs;
use bendmark::storage::job_file::{decode, encode};
use bendmark::storage::keeping::{OpenFile, load};
use bendmark::ui::frame::render;
use bendmark::ui::theme::{Colours, Theme};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::Instant;

const COURSES: usize = 20;

pub(crate) fn ratio() -> Ratio {
    let folder = folder();
    let path = folder.join("key.ron");
    for old in [path.clone(), path.with_extension("ron.bak")] {
        let _ = std::fs::remove_file(old);
    }
    let mut program = Program::open(&path, job(400));
    for _ in 0..800 {
        program.press(Code::Enter);
    }
    let mut buffer = Buffer::empty(Rect::new(0, 0, 120, 40));
    program.save_and_wait();
    let plain = PlainJob::of(&std::fs::read(&path).unwrap());
    let bare = folder.join("bare-key.ron");
    std::fs::write(&bare, "").unwrap();
    Ratio::of(
        "key to \"saved\", 400 pieces / ron and the bare recipe",
        1.7,
        || {
            program.press(Code::Enter);
            draw(&program.state, &mut buffer);
            program.save_and_wait();
        },
        || plain.bare_recipe(&bare),
    )
}

/// What a job of 60,000 pieces takes, in ms; nothing is claimed of it.
pub(crate) fn large_job() -> Vec<(String, f64)> {
    let mut all = Vec::new();
    let path = folder().join("large.ron");
    for old in [path.clone(), path.with_extension("ron.bak")] {
        let _ = std::fs::remove_file(old);
    }
    let mut said = |what: &str, start: Instant| {
        all.push((what.to_owned(), start.elapsed().as_secs_f64() * 1e3));
    };
    let bytes = encode(&job(60_000)).unwrap();
    std::fs::write(&path, &bytes).unwrap();
    let start = Instant::now();
    let loaded = load(&RealFs, &path).unwrap();
    said(
        &format!("read from a file of {} KB", bytes.len() / 1_000),
        start,
    );
    let start = Instant::now();
    let mut state = opened(&path, loaded.job);
    said("opened, all pieces and offcuts planned", start);
    let mut buffer = Buffer::empty(Rect::new(0, 0, 120, 40));
    for place in Place::ALL {
        state.place = place;
        let start = Instant::now();
        draw(&state, &mut buffer);
        said(&format!("{} drawn at 120x40", place.word()), start);
    }
    let taken = OpenFile::take(&path, None);
    let taken = taken.map_err(|(error, _)| error).unwrap();
    let bendmark::storage::keeping::Held::ByUs(mut file) = taken.held else {
        panic!("nobody else has it");
    };
    state.place = Place::Bench;
    state.dialog = None;
    state.bench.cautions_read = true;
    let start = Instant::now();
    press(&mut state, Code::Enter, 1);
    said("the first key at the bench", start);
    let start = Instant::now();
    let bytes = encode(state.open.as_ref().unwrap().job()).unwrap();
    file.save(&bytes, &[], None).unwrap();
    said("saved", start);
    assert_eq!(decode(&bytes).unwrap().job, *state.open.unwrap().job());
    all
}

fn folder() -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("speed");
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// Hips of twenty courses, one piece each, the figures to a sixteenth.
pub(crate) fn job(pieces: usize) -> Job {
    let mut job = Job::new(Name::or("Speed", "?"), Settings::default());
    for edge in 0..pieces / COURSES {
        let hand = [Hand::Left, Hand::Right][edge % 2];
        let id = job.add_edge(Name::or(&format!("Hip {edge}"), "?"), EdgeKind::Hip, hand);
        let sixteenth = Length::from_nm(1_587_500);
        let log = (1..=COURSES).map(|number| {
            let over = (edge * 7 + number * 3) % 64;
            let over = sixteenth.times(i64::try_from(over).unwrap());
            let read = |inches: i64| Reading::new(sixteenth.times(16 * inches) + over).ok();
            Course::unread(CourseNumber::new(u32::try_from(number).unwrap()).unwrap())
                .with(End::Bottom, read(34))
                .with(End::Top, read(22))
        });
        job.edge_mut(id).unwrap().put_all(log);
    }
    job
}

pub(crate) fn opened(path: &Path, job: Job) -> State {
    let mut state = State::new(ScreenSize {
        columns: 120,
        rows: 40,
    });
    state.hold_ms = 0;
    state.now = Some(Utc(1_790_000_000));
    state.bench.cautions_read = true;
    update(
        &mut state,
        Message::Opened(Box::new(Opened {
            path: path.to_owned(),
            job,
            odd: None,
            later: None,
            read_only: None,
        })),
    );
    state
}

pub(crate) fn draw(state: &State, buffer: &mut Buffer) {
    let theme = Theme::new(Look::Sun, Colours::Set, Glyphs::Blocks);
    render(state, &theme, buffer.area, buffer);
}

pub(crate) fn press(state: &mut State, code: Code, at: u64) -> Vec<Effect> {
    let key = Key {
        code,
        at: Millis(at),
    };
    let message = key_to_message(state, key).unwrap();
    update(state, message)
}

/// The program without its terminal: state, saver and file.
struct Program {
    state: State,
    saver: Saver,
    inputs: Receiver<Input>,
    order: Option<ToSave>,
    keys: u64,
}

impl Program {
    fn open(path: &Path, job: Job) -> Self {
        let file = OpenFile::make(path, &encode(&job).unwrap()).unwrap();
        let (sender, inputs) = channel();
        let saver = Saver::start(sender, folder());
        saver.swap(Some(file));
        let mut state = opened(path, job);
        state.place = Place::Bench;
        Self {
            state,
            saver,
            inputs,
            order: None,
            keys: 0,
        }
    }

    fn press(&mut self, code: Code) {
        self.keys += 1;
        for effect in press(&mut self.state, code, self.keys) {
            if let Effect::SaveJob(order) = effect {
                self.order = Some(order);
            }
        }
    }

    fn save_and_wait(&mut self) {
        self.saver.save(self.order.take().expect("a change"));
        self.saver.frame_drawn();
        match self.inputs.recv().unwrap() {
            Input::Saver(Message::Saved(change)) => {
                update(&mut self.state, Message::Saved(change));
            }
            other => panic!("{other:?}"),
        }
    }
}
