//! What several test crates share: a program without a terminal, driven by
//! keys written as text, and jobs to drive it with.

#![allow(
    dead_code,
    unreachable_pub,
    reason = "each test crate uses a part of it"
)]

pub mod svg;

use bendmark::app::{
    effect::{Effect, ToSave},
    key::{Code, Key, Millis},
    keymap::key_to_message,
    message::{Message, Opened},
    place::{Glyphs, Look, ScreenSize},
    state::State,
    update::update,
};
use bendmark::domain::{
    bench::Utc,
    cutting::Job,
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Length, Name},
    piece::Part,
    roof::EdgeKind,
    settings::Settings,
    tape::Unit,
};
use bendmark::ui::frame::render;
use bendmark::ui::pen::Pen;
use bendmark::ui::theme::{Colours, Theme};
use bendmark::ui::widgets::digits::{self, DotSize};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::path::PathBuf;

/// The program without a terminal. Saves are answered at once unless told not.
pub struct Program {
    pub state: State,
    pub effects: Vec<Effect>,
    pub saves_fail: Option<String>,
    clock: u64,
}

impl Program {
    pub fn without_job() -> Self {
        let mut state = State::new(ScreenSize {
            columns: 80,
            rows: 24,
        });
        state.hold_ms = 0;
        Self {
            state,
            effects: Vec::new(),
            saves_fail: None,
            clock: 0,
        }
    }

    pub fn with(job: Job) -> Self {
        let mut program = Self::without_job();
        program.take(Message::Opened(Box::new(Opened {
            path: PathBuf::from("/jobs/test.ron"),
            job,
            odd: None,
            later: None,
            read_only: None,
        })));
        program.effects.clear();
        program
    }

    pub fn job(&self) -> &Job {
        self.state.open.as_ref().expect("a job is open").job()
    }

    pub fn take(&mut self, message: Message) {
        for effect in update(&mut self.state, message) {
            let answer = match &effect {
                Effect::SaveJob(ToSave { change, .. }) => Some(match &self.saves_fail {
                    None => Message::Saved(*change),
                    Some(why) => Message::NotSaved(*change, why.clone()),
                }),
                _ => None,
            };
            self.effects.push(effect);
            if let Some(answer) = answer {
                self.take(answer);
            }
        }
    }

    /// Presses the keys that `text` spells: characters, and `<enter>`, `<f4>`,
    /// `<ctrl-z>` and the like.
    pub fn press(&mut self, text: &str) -> &mut Self {
        for code in codes(text) {
            self.clock += 1_000;
            self.press_at(code, self.clock);
        }
        self
    }

    pub fn press_at(&mut self, code: Code, at: u64) {
        self.clock = at;
        self.state.now = Some(Utc(i64::try_from(at / 1_000).unwrap()));
        let key = Key {
            code,
            at: Millis(at),
        };
        if let Some(message) = key_to_message(&self.state, key) {
            self.take(message);
        }
    }

    /// The screen as text, rows without their blank ends.
    pub fn screen(&mut self, columns: u16, rows: u16) -> String {
        let buffer = self.buffer(columns, rows, Glyphs::Blocks);
        text_of(&buffer)
    }

    pub fn buffer(&mut self, columns: u16, rows: u16, glyphs: Glyphs) -> Buffer {
        self.state.size = ScreenSize { columns, rows };
        let theme = Theme::new(self.state.preferences.look, Colours::Set, glyphs);
        let area = Rect::new(0, 0, columns, rows);
        let mut buffer = Buffer::empty(area);
        render(&self.state, &theme, area, &mut buffer);
        buffer
    }
}

pub fn text_of(buffer: &Buffer) -> String {
    let width = usize::from(buffer.area.width);
    let rows: Vec<String> = buffer
        .content
        .chunks(width)
        .map(|cells| {
            let row: String = cells.iter().map(|cell| cell.symbol()).collect();
            row.trim_end().to_owned()
        })
        .collect();
    rows.join("\n")
}

pub fn codes(text: &str) -> Vec<Code> {
    let mut codes = Vec::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        if let Some((name, after)) = rest.strip_prefix('<').and_then(|r| r.split_once('>')) {
            codes.push(named(name));
            rest = after;
        } else {
            codes.push(Code::Char(c));
            rest = &rest[c.len_utf8()..];
        }
    }
    codes
}

fn named(name: &str) -> Code {
    match name {
        "enter" => Code::Enter,
        "esc" => Code::Esc,
        "backspace" => Code::Backspace,
        "del" => Code::Delete,
        "tab" => Code::Tab,
        "left" => Code::Left,
        "right" => Code::Right,
        "up" => Code::Up,
        "down" => Code::Down,
        "home" => Code::Home,
        "end" => Code::End,
        "pgup" => Code::PageUp,
        "pgdn" => Code::PageDown,
        other => match other.strip_prefix("ctrl-") {
            Some(letter) => Code::Ctrl(letter.chars().next().unwrap()),
            None => Code::F(other.strip_prefix('f').unwrap().parse().unwrap()),
        },
    }
}

/// A job with one hip of `courses` courses that narrow by 12 1/2 in each.
pub fn job_with_hip(courses: u32, hand: Hand) -> Job {
    let mut job = Job::new(Name::or("Mill Lane", "?"), Settings::default());
    let edge = job.add_edge(Name::or("Hip 1", "?"), EdgeKind::Hip, hand);
    for number in 1..=courses {
        // A half bond: the joints of every other course are half a cover over.
        let bottom = if number % 2 == 1 { "36 3/4" } else { "24 1/4" };
        let top = if number % 2 == 1 { "24 1/4" } else { "11 3/4" };
        put(&mut job, edge, number, bottom, top);
    }
    job
}

pub fn put(job: &mut Job, edge: EdgeId, number: u32, bottom: &str, top: &str) {
    let read = |text: &str| Some(Reading::parse(text, Unit::Inch).unwrap());
    let course = Course::unread(CourseNumber::new(number).unwrap())
        .with(End::Bottom, read(bottom))
        .with(End::Top, read(top));
    job.edge_mut(edge).unwrap().put(course);
}

pub fn inches(text: &str) -> Length {
    bendmark::domain::tape::parse(text, Unit::Inch).unwrap()
}

/// The first row of `text` as it is drawn large on a screen of 80x24.
pub fn drawn(text: &str) -> String {
    drawn_in(text, DotSize::Half)
}

/// The same in another size.
pub fn drawn_in(text: &str, size: DotSize) -> String {
    let theme = Theme::new(Look::Sun, Colours::Set, Glyphs::Blocks);
    let area = Rect::new(0, 0, 80, size.rows());
    let mut buffer = Buffer::empty(area);
    digits::draw(&mut Pen::new(&mut buffer, &theme, area), 0, 0, text, size);
    let row: String = (0..area.width).map(|x| buffer[(x, 0)].symbol()).collect();
    row.trim_end().to_owned()
}

/// What drops where `part` lies on the table, as the Bench says it.
pub const fn drops(part: Part) -> &'static str {
    match part {
        Part::Kept => "OFFCUT DROPS",
        Part::Offcut => "PIECE DROPS",
    }
}
