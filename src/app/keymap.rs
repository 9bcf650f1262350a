//! One table of keys: what each does where, its label, and its words.
//!
//! The key bar, the help page and docs/keys.md are all made from it. Within a
//! scope the first rows matter most: the key bar is pruned from the end.
//!
//! Over 400 lines: one table, a row a key.

use super::{
    key::{Code, Key},
    message::Message,
    place::Place,
    press::{Direction, Press},
    state::{Choice, Dialog, LogFocus, Prompt, Question, State},
};
use crate::domain::bench::{SpoiledBy, Stage};

/// Where a key means something.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Scope {
    LogEdges,
    LogCourses,
    Bench,
    Hips,
    Rack,
    Job,
    Field,
    TextDialog,
    ChoiceDialog,
    /// Every explanation of a doubt.
    AskDoubt,
    /// A page to read.
    Page,
    AskDelete,
    AskRunsOut,
    AskSameFigures,
    AskQuit,
    /// Whether to work on a file that is not as it was saved.
    AskOdd,
    /// Whether to go back to a state that is kept.
    AskGoBack,
    /// Later work of this job lies elsewhere.
    AskLater,
    /// What becomes of a piece that no longer fits.
    AskMisfit,
    /// What of a spoiled piece is usable.
    AskSpoiled,
    AskCorrection,
    /// What becomes of a file that another program has changed.
    AskChanged,
    /// Any place, outside fields and dialogs.
    Outside,
    /// Everywhere, even in fields and dialogs.
    Everywhere,
}

impl Scope {
    /// All of them, in the order docs/keys.md lists them, and what it calls them.
    #[rustfmt::skip] // One row a line, to be read as a table.
    pub const ALL: [(Self, &str); 24] = [
        (Self::LogEdges, "Log, among the hips"),
        (Self::LogCourses, "Log, among the readings"),
        (Self::Bench, "Bench"),
        (Self::Hips, "Hips"),
        (Self::Rack, "Rack"),
        (Self::Job, "Job"),
        (Self::Field, "While a figure is typed"),
        (Self::TextDialog, "While a name or path is typed"),
        (Self::ChoiceDialog, "While something is chosen"),
        (Self::AskDoubt, "Asked what a doubtful reading is"),
        (Self::Page, "On a page to read"),
        (Self::AskDelete, "Asked whether to delete"),
        (Self::AskRunsOut, "Asked whether a line runs out"),
        (Self::AskSameFigures, "Asked about an edge with another one's figures"),
        (Self::AskQuit, "Asked whether to leave unsaved"),
        (Self::AskOdd, "Asked about a file that is not as it was saved"),
        (Self::AskSpoiled, "Asked what of a spoiled piece is usable"),
        (Self::AskCorrection, "Asked whether a course read again is cut shorter or longer again"),
        (Self::AskMisfit, "Asked about a piece that no longer fits"),
        (Self::AskGoBack, "Asked whether to go back to an earlier version"),
        (Self::AskLater, "Told that later work of the job lies elsewhere"),
        (Self::AskChanged, "Asked about a file that another program has changed"),
        (Self::Outside, "At every place"),
        (Self::Everywhere, "Everywhere, even while typing"),
    ];
}

/// One row of the table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Binding {
    pub scope: Scope,
    /// The keys; any of them does.
    pub codes: &'static [Code],
    pub press: Press,
    pub key: &'static str,
    /// What it does, in a word or two.
    pub says: &'static str,
    /// Whether it belongs in the key bar, and not on the help page alone.
    pub is_in_bar: bool,
}

const fn row(
    scope: Scope,
    codes: &'static [Code],
    press: Press,
    key: &'static str,
    says: &'static str,
) -> Binding {
    Binding {
        scope,
        codes,
        press,
        key,
        says,
        is_in_bar: true,
    }
}

/// A row for the help page alone.
const fn quiet(row: Binding) -> Binding {
    Binding {
        is_in_bar: false,
        ..row
    }
}

const DONE: &[Code] = &[Code::Enter, Code::Char(' ')];
const ENTER: &[Code] = &[Code::Enter];
const ESC: &[Code] = &[Code::Esc];
const BACKSPACE: &[Code] = &[Code::Backspace];
const CTRL_U: &[Code] = &[Code::Ctrl('u')];
const UP: Press = Press::Move(Direction::Up);
const DOWN: Press = Press::Move(Direction::Down);
const LEFT: Press = Press::Move(Direction::Left);
const RIGHT: Press = Press::Move(Direction::Right);

/// Every key of the program, but for plain characters typed into a field.
#[rustfmt::skip] // One row a line, to be read as a table.
pub const TABLE: &[Binding] = &[
    // Log, among the hips.
    row(Scope::LogEdges, ENTER, Press::Confirm, "Enter", "readings"),
    row(Scope::LogEdges, &[Code::Char('m')], Press::ChooseReading, "m", "two readings"),
    row(Scope::LogEdges, &[Code::Char('a')], Press::Add, "a", "add a hip"),
    row(Scope::LogEdges, &[Code::Char('n')], Press::Rename, "n", "name"),
    row(Scope::LogEdges, &[Code::Char('<'), Code::Char('>')], Press::ChangeHand, "< >", "hand"),
    row(Scope::LogEdges, &[Code::Char('s')], Press::Details, "s", "slopes, lot"),
    row(Scope::LogEdges, &[Code::Char('g')], Press::TakeReadings, "g", "from a file"),
    row(Scope::LogEdges, &[Code::Char('d')], Press::Explain, "d", "doubt"),
    row(Scope::LogEdges, &[Code::Delete], Press::Delete, "Del", "delete"),
    row(Scope::LogEdges, &[Code::Char('-')], Press::Earlier, "-", "cut earlier"),
    row(Scope::LogEdges, &[Code::Char('+')], Press::Later, "+", "cut later"),
    quiet(row(Scope::LogEdges, &[Code::Tab], Press::Switch, "Tab", "the other list")),
    // Log, among the readings.
    row(Scope::LogCourses, ENTER, Press::Confirm, "Enter", "next"),
    row(Scope::LogCourses, &[Code::Char('m')], Press::ChooseReading, "m", "two readings"),
    row(Scope::LogCourses, &[Code::Char('o'), Code::Char('*')], Press::RunsOut, "o *", "runs out"),
    row(Scope::LogCourses, &[Code::Char('f')], Press::TakeSuggestion, "f", "as suggested"),
    row(Scope::LogCourses, &[Code::Char('x')], Press::MeasuredAgain, "x", "it stands"),
    row(Scope::LogCourses, &[Code::Char('d')], Press::Explain, "d", "doubt"),
    quiet(row(Scope::LogCourses, &[Code::Char('e')], Press::ShowExpected, "e", "show what is expected")),
    row(Scope::LogCourses, &[Code::Char('c')], Press::ShortCourse, "c", "short course"),
    row(Scope::LogCourses, &[Code::Char('b')], Press::BoardToBoard, "b", "board to board"),
    quiet(row(Scope::LogCourses, &[Code::Char('l')], Press::StrikeLine, "l", "strike a line for two pieces")),
    row(Scope::LogCourses, &[Code::Delete], Press::Clear, "Del", "clear"),
    row(Scope::LogCourses, &[Code::Tab], Press::Switch, "Tab", "hips"),
    quiet(row(Scope::LogCourses, &[Code::Char('+')], Press::PutIn, "+", "put a course in here, those above move up")),
    quiet(row(Scope::LogCourses, &[Code::Char('-')], Press::TakeOut, "-", "take this course out, those above move down")),
    row(Scope::LogCourses, &[Code::Char('v')], Press::View, "v", "by line"),
    row(Scope::LogCourses, &[Code::Char('s')], Press::Details, "s", "slopes, lot"),
    row(Scope::LogCourses, &[Code::Char('g')], Press::TakeReadings, "g", "from a file"),
    quiet(row(Scope::LogCourses, &[Code::Char('a')], Press::Add, "a", "add a hip")),
    quiet(row(Scope::LogCourses, &[Code::Char('n')], Press::Rename, "n", "name")),
    quiet(row(Scope::LogCourses, ESC, Press::Back, "Esc", "back to the hips")),
    // Bench.
    row(Scope::Bench, DONE, Press::Confirm, "Enter", "done, next"),
    row(Scope::Bench, ESC, Press::Back, "Esc", "one at a time again"),
    row(Scope::Bench, &[Code::Char('x')], Press::Spoiled, "x", "spoiled"),
    quiet(row(Scope::Bench, &[Code::Char('v')], Press::ShowMarks, "v", "the marks, at a step without them")),
    row(Scope::Bench, &[Code::Char('c')], Press::Correct, "c", "longer, shorter"),
    row(Scope::Bench, &[Code::Left, Code::Up], LEFT, "<-", "before"),
    row(Scope::Bench, &[Code::Right, Code::Down], RIGHT, "->", "after"),
    row(Scope::Bench, &[Code::Char('g')], Press::OffcutGone, "g", "offcut gone"),
    row(Scope::Bench, &[Code::Char('n')], Press::NextMisfit, "n", "no longer fits"),
    row(Scope::Bench, &[Code::Char('m')], Press::SecondTrip, "m", "second trip"),
    row(Scope::Bench, &[Code::Char('/')], Press::Find, "/", "find"),
    row(Scope::Bench, &[Code::Char('s')], Press::Several, "s", "several"),
    quiet(row(Scope::Bench, &[Code::Char('e')], Press::Pause, "e", "pause: the next step's time does not count")),
    quiet(row(Scope::Bench, &[Code::PageUp], Press::Move(Direction::PageUp), "PgUp", "hip before")),
    quiet(row(Scope::Bench, &[Code::PageDown], Press::Move(Direction::PageDown), "PgDn", "hip after")),
    // Hips.
    row(Scope::Hips, DONE, Press::Confirm, "Enter", "to the bench"),
    row(Scope::Hips, &[Code::Tab], Press::Switch, "Tab", "hips, pieces"),
    row(Scope::Hips, &[Code::Char('v')], Press::View, "v", "plan, list"),
    row(Scope::Hips, &[Code::Char('n')], Press::NextMisfit, "n", "no longer fits"),
    row(Scope::Hips, &[Code::Char('/')], Press::Find, "/", "find"),
    quiet(row(Scope::Hips, ESC, Press::Back, "Esc", "back to the hips")),
    // Rack.
    row(Scope::Rack, &[Code::Char('a')], Press::Add, "a", "one found"),
    row(Scope::Rack, &[Code::Char('d')], Press::Throw, "d", "throw away"),
    row(Scope::Rack, &[Code::Char('m')], Press::Used, "m", "mark as used"),
    row(Scope::Rack, &[Code::Char('e')], Press::Measure, "e", "size, lot"),
    row(Scope::Rack, &[Code::Char('o')], Press::Bring, "o", "from another job"),
    // Job.
    row(Scope::Job, DONE, Press::Confirm, "Enter", "change"),
    row(Scope::Job, &[Code::Char('n')], Press::NewJob, "n", "new"),
    row(Scope::Job, &[Code::Char('o')], Press::OpenJob, "o", "open"),
    row(Scope::Job, &[Code::Char('d')], Press::Duplicate, "d", "duplicate"),
    row(Scope::Job, &[Code::Char('v')], Press::ListKept, "v", "versions"),
    // Fields and dialogs.
    row(Scope::Field, ENTER, Press::Confirm, "Enter", "accept"),
    row(Scope::Field, BACKSPACE, Press::Erase, "Backspace", "erase"),
    row(Scope::Field, ESC, Press::Back, "Esc", "leave as it was"),
    quiet(row(Scope::Field, CTRL_U, Press::EraseAll, "Ctrl-U", "erase all")),
    quiet(row(Scope::Field, &[Code::Home, Code::End, Code::PageUp, Code::PageDown, Code::Insert, Code::Up, Code::Down, Code::Left, Code::Right], Press::NumLockOff, "Home End PgUp PgDn, arrows", "says that NumLock is off")),
    row(Scope::TextDialog, ENTER, Press::Confirm, "Enter", "accept"),
    row(Scope::TextDialog, &[Code::Tab], Press::Switch, "Tab", "sheet of one hip, of all"),
    row(Scope::TextDialog, BACKSPACE, Press::Erase, "Backspace", "erase"),
    row(Scope::TextDialog, CTRL_U, Press::EraseAll, "Ctrl-U", "erase all"),
    row(Scope::TextDialog, ESC, Press::Back, "Esc", "leave as it was"),
    row(Scope::ChoiceDialog, ENTER, Press::Confirm, "Enter", "choose"),
    row(Scope::ChoiceDialog, ESC, Press::Back, "Esc", "leave as it was"),
    row(Scope::AskDoubt, ENTER, Press::Confirm, "Enter", "take it"),
    row(Scope::AskDoubt, &[Code::Char('f')], Press::TakeSuggestion, "f", "the first"),
    row(Scope::AskDoubt, &[Code::Char('x')], Press::MeasuredAgain, "x", "it stands"),
    row(Scope::AskDoubt, ESC, Press::Back, "Esc", "leave as it was"),
    row(Scope::Page, &[Code::Enter, Code::Char(' '), Code::Esc, Code::Char('h'), Code::F(1)], Press::Confirm, "Enter", "read, go on"),
    row(Scope::AskDelete, &[Code::Char('y')], Press::Yes, "y", "yes, delete it"),
    row(Scope::AskDelete, ESC, Press::Back, "Esc", "no, keep it"),
    row(Scope::AskRunsOut, ENTER, Press::Confirm, "Enter", "no, it ends at the line"),
    row(Scope::AskRunsOut, &[Code::Char('o'), Code::Char('*')], Press::RunsOut, "o *", "yes, it runs out lower"),
    quiet(row(Scope::AskRunsOut, ESC, Press::Back, "Esc", "no")),
    row(Scope::AskSameFigures, &[Code::Char('y')], Press::Yes, "y", "yes, take them"),
    row(Scope::AskSameFigures, ESC, Press::Back, "Esc", "no, take nothing"),
    row(Scope::AskQuit, ESC, Press::Back, "Esc", "stay"),
    row(Scope::AskQuit, &[Code::Char('s')], Press::SaveAgain, "s", "try to save again"),
    row(Scope::AskQuit, &[Code::Char('f')], Press::SaveElsewhere, "f", "save in another file"),
    row(Scope::AskQuit, &[Code::Char('y')], Press::Yes, "y", "leave without saving"),
    row(Scope::AskOdd, &[Code::Char('y')], Press::Yes, "y", "yes, work on it"),
    row(Scope::AskOdd, &[Code::Char('v')], Press::ListKept, "v", "list all that is kept"),
    row(Scope::AskSpoiled, ENTER, Press::Confirm, "Enter", "keep that"),
    row(Scope::AskSpoiled, &[Code::Char('-')], Press::Shorter, "-", "shorter"),
    row(Scope::AskSpoiled, &[Code::Char('0')], Press::Nothing, "0", "nothing"),
    row(Scope::AskSpoiled, ESC, Press::Back, "Esc", "not spoiled"),
    row(Scope::AskSpoiled, &[Code::Char('r')], Press::Because(SpoiledBy::Reading), "r m c b d", "by what"),
    quiet(row(Scope::AskSpoiled, &[Code::Char('m')], Press::Because(SpoiledBy::Mark), "m", "by a mark")),
    quiet(row(Scope::AskSpoiled, &[Code::Char('c')], Press::Because(SpoiledBy::Cut), "c", "by the cut")),
    quiet(row(Scope::AskSpoiled, &[Code::Char('b')], Press::Because(SpoiledBy::Bend), "b", "by the bend")),
    quiet(row(Scope::AskSpoiled, &[Code::Char('d')], Press::Because(SpoiledBy::Dropped), "d", "dropped")),
    row(Scope::AskCorrection, &[Code::Char('y')], Press::Yes, "y", "yes, shorter or longer again"),
    row(Scope::AskCorrection, &[Code::Char('n')], Press::Nothing, "n", "no, as read"),
    row(Scope::AskCorrection, ESC, Press::Back, "Esc", "ask again next time"),
    row(Scope::AskMisfit, &[Code::Char('m')], Press::Again, "m", "do it again"),
    row(Scope::AskMisfit, &[Code::Char('s')], Press::LeaveIt, "s", "leave it as it is"),
    row(Scope::AskMisfit, ESC, Press::Back, "Esc", "decide later"),
    row(Scope::AskGoBack, &[Code::Char('y')], Press::Yes, "y", "yes, go back to it"),
    row(Scope::AskGoBack, ESC, Press::Back, "Esc", "no, back to the list"),
    row(Scope::AskLater, &[Code::Char('v')], Press::ListKept, "v", "list all that is kept"),
    row(Scope::AskLater, ESC, Press::Back, "Esc", "go on with this one"),
    row(Scope::AskChanged, ESC, Press::Back, "Esc", "decide later"),
    row(Scope::AskChanged, &[Code::Char('y')], Press::Yes, "y", "keep what is on the screen"),
    row(Scope::AskChanged, &[Code::Char('o')], Press::OpenJob, "o", "open the other"),
    row(Scope::AskChanged, &[Code::Char('f')], Press::SaveElsewhere, "f", "save in another file"),
    row(Scope::AskOdd, ESC, Press::Back, "Esc", "no, leave it alone"),
    // At every place.
    row(Scope::Outside, &[Code::Char('u'), Code::Backspace], Press::Undo, "u Bksp", "undo"),
    row(Scope::Outside, &[Code::Char('h')], Press::Help, "h", "help"),
    row(Scope::Outside, &[Code::Char('q')], Press::Quit, "q", "quit"),
    quiet(row(Scope::Outside, &[Code::Char('y')], Press::Redo, "y", "redo")),
    quiet(row(Scope::Outside, &[Code::Char('w')], Press::Cautions, "w", "cautions")),
    quiet(row(Scope::Outside, &[Code::Char('t')], Press::ChangeLook, "t", "sun or dark")),
    quiet(row(Scope::Outside, &[Code::Char('z')], Press::ChangeGlyphs, "z", "blocks or plain ASCII")),
    quiet(row(Scope::Outside, &[Code::Char('k')], Press::SaveAgain, "k", "save again; READ ONLY: open for work")),
    quiet(row(Scope::Outside, &[Code::Char('f')], Press::SaveElsewhere, "f", "save in another file")),
    row(Scope::Outside, &[Code::Char('p')], Press::WriteSheet, "p", "sheet to a file"),
    quiet(row(Scope::Outside, &[Code::Char('i')], Press::Go(Place::Hips), "i", "Hips")),
    quiet(row(Scope::Outside, &[Code::Char('l')], Press::Go(Place::Log), "l", "Log")),
    quiet(row(Scope::Outside, &[Code::Char('b')], Press::Go(Place::Bench), "b", "Bench")),
    quiet(row(Scope::Outside, &[Code::Char('r')], Press::Go(Place::Rack), "r", "Rack")),
    quiet(row(Scope::Outside, &[Code::Char('j')], Press::Go(Place::Job), "j", "Job")),
    quiet(row(Scope::Outside, &[Code::Up], UP, "Up", "move up")),
    quiet(row(Scope::Outside, &[Code::Down], DOWN, "Down", "move down")),
    quiet(row(Scope::Outside, &[Code::Left], LEFT, "Left", "move left")),
    quiet(row(Scope::Outside, &[Code::Right], RIGHT, "Right", "move right")),
    quiet(row(Scope::Outside, &[Code::PageUp], Press::Move(Direction::PageUp), "PgUp", "a page up")),
    quiet(row(Scope::Outside, &[Code::PageDown], Press::Move(Direction::PageDown), "PgDn", "a page down")),
    quiet(row(Scope::Outside, &[Code::Home], Press::Move(Direction::First), "Home", "to the first")),
    quiet(row(Scope::Outside, &[Code::End], Press::Move(Direction::Last), "End", "to the last")),
    // Everywhere.
    quiet(row(Scope::Everywhere, &[Code::F(1)], Press::Help, "F1", "help")),
    quiet(row(Scope::Everywhere, &[Code::F(2)], Press::Go(Place::Hips), "F2", "Hips")),
    quiet(row(Scope::Everywhere, &[Code::F(3)], Press::Go(Place::Log), "F3", "Log")),
    quiet(row(Scope::Everywhere, &[Code::F(4)], Press::Go(Place::Bench), "F4", "Bench")),
    quiet(row(Scope::Everywhere, &[Code::F(5)], Press::Go(Place::Rack), "F5", "Rack")),
    quiet(row(Scope::Everywhere, &[Code::F(6)], Press::Go(Place::Job), "F6", "Job")),
    quiet(row(Scope::Field, &[Code::Ctrl('z')], Press::Undo, "Ctrl-Z", "undo")),
    quiet(row(Scope::Outside, &[Code::Ctrl('z')], Press::Undo, "Ctrl-Z", "undo")),
    quiet(row(Scope::Field, &[Code::Ctrl('y')], Press::Redo, "Ctrl-Y", "redo")),
    quiet(row(Scope::Outside, &[Code::Ctrl('y')], Press::Redo, "Ctrl-Y", "redo")),
    quiet(row(Scope::Everywhere, &[Code::Ctrl('c')], Press::Quit, "Ctrl-C", "quit")),
];

/// The scopes that hold now, the nearest first.
pub fn scopes(state: &State) -> Vec<Scope> {
    match &state.dialog {
        Some(dialog) => vec![dialog_scope(dialog), Scope::Everywhere],
        None => scopes_behind(state),
    }
}

/// The scopes of the place itself, whatever dialog stands in front of it.
fn scopes_behind(state: &State) -> Vec<Scope> {
    if state.is_typing() {
        return vec![Scope::Field, Scope::Everywhere];
    }
    let here = match (state.place, state.log.focus) {
        (Place::Hips, _) => Scope::Hips,
        (Place::Log, LogFocus::Edges) => Scope::LogEdges,
        (Place::Log, LogFocus::Courses) => Scope::LogCourses,
        (Place::Bench, _) => Scope::Bench,
        (Place::Rack, _) => Scope::Rack,
        (Place::Job, _) => Scope::Job,
    };
    vec![here, Scope::Outside, Scope::Everywhere]
}

const fn dialog_scope(dialog: &Dialog) -> Scope {
    match dialog {
        Dialog::Help { .. } | Dialog::Cautions => Scope::Page,
        Dialog::Prompt { .. } | Dialog::Details { .. } => Scope::TextDialog,
        Dialog::Kept { is_asked: true, .. } => Scope::AskGoBack,
        Dialog::Choice {
            what: Choice::Doubt { .. },
            ..
        } => Scope::AskDoubt,
        Dialog::Choice { .. } | Dialog::Kept { .. } => Scope::ChoiceDialog,
        Dialog::Question(question) => match question {
            Question::DeleteEdge(_) => Scope::AskDelete,
            Question::RunsOut { .. } => Scope::AskRunsOut,
            Question::SameFigures { .. } => Scope::AskSameFigures,
            Question::QuitUnsaved => Scope::AskQuit,
            Question::ChangedOutside => Scope::AskChanged,
            Question::OpenedOdd { .. } => Scope::AskOdd,
            Question::LaterWork(_) => Scope::AskLater,
            Question::NoLongerFits(_) => Scope::AskMisfit,
            Question::Spoiled(_) => Scope::AskSpoiled,
            Question::CorrectionHolds(_) => Scope::AskCorrection,
        },
    }
}

/// What `key` means here, if anything.
pub fn key_to_message(state: &State, key: Key) -> Option<Message> {
    let scopes = scopes(state);
    let press = match state.size.is_enough() {
        true => bound(&scopes, key.code).or_else(|| typed(&scopes, key.code))?,
        false => unseen(state, key.code)?,
    };
    Some(Message::Pressed(press, key.at))
}

/// What a key does while the window is too small to show what it does: it saves,
/// it quits, and answers whether to quit unsaved.
fn unseen(state: &State, code: Code) -> Option<Press> {
    let is_asked = matches!(state.dialog, Some(Dialog::Question(Question::QuitUnsaved)));
    let press = match is_asked {
        true => bound(&[Scope::AskQuit, Scope::Everywhere], code),
        false => bound(&[Scope::Outside, Scope::Everywhere], code),
    }?;
    let asked = is_asked && matches!(press, Press::Yes | Press::Back);
    (asked || matches!(press, Press::SaveAgain | Press::Quit)).then_some(press)
}

fn bound(scopes: &[Scope], code: Code) -> Option<Press> {
    let row_in = |scope: &Scope| {
        let mut rows = TABLE.iter();
        rows.find(|row| row.scope == *scope && row.codes.contains(&code))
    };
    scopes.iter().find_map(row_in).map(|row| row.press)
}

/// Plain characters and arrows where no row of the table has them.
fn typed(scopes: &[Scope], code: Code) -> Option<Press> {
    match (scopes.first()?, code) {
        // A page says that it takes no such key.
        (
            Scope::Field | Scope::TextDialog | Scope::ChoiceDialog | Scope::AskDoubt | Scope::Page,
            Code::Char(c),
        ) => Some(Press::Type(c)),
        (Scope::LogCourses | Scope::LogEdges | Scope::Job, Code::Char(c))
            if c.is_ascii_digit() || c == '.' =>
        {
            Some(Press::Type(c))
        }
        // Arrows mean there what they mean at a place.
        (
            Scope::TextDialog | Scope::ChoiceDialog | Scope::AskDoubt | Scope::Page,
            Code::Up | Code::Down | Code::Left | Code::Right,
        )
        | (Scope::Page, Code::PageUp | Code::PageDown) => bound(&[Scope::Outside], code),
        _ => None,
    }
}

/// The rows that hold now, the nearest scope first.
pub fn rows_now(state: &State) -> impl Iterator<Item = &'static Binding> {
    rows_in(scopes(state))
}

/// Whether a key has anything to do just now; the key bar leaves out those
/// that have not.
pub fn matters(state: &State, row: &Binding) -> bool {
    match (row.scope, row.press) {
        (Scope::LogCourses, Press::TakeSuggestion | Press::MeasuredAgain) => {
            state.doubt_in_log().is_some()
        }
        (Scope::AskDoubt, Press::TakeSuggestion) => {
            let doubt = state.doubt_in_log();
            doubt.is_some_and(|(_, doubt)| !doubt.is_even)
        }
        (Scope::TextDialog, Press::Switch) => matches!(
            state.dialog,
            Some(Dialog::Prompt { what: Prompt::WriteSheet(edge), .. })
                if edge.is_some() || state.edge_to_write().is_some()
        ),
        (_, Press::ChooseReading) => {
            let open = state.open.as_ref();
            open.is_some_and(|open| !open.two.is_empty())
        }
        (_, Press::Explain) => {
            let open = state.open.as_ref();
            open.is_some_and(|open| !open.doubts.is_empty())
        }
        (_, Press::NextMisfit) => {
            let open = state.open.as_ref();
            open.is_some_and(|open| open.list.no_longer_fit() > 0)
        }
        (Scope::Bench, Press::Back) => state.several().is_some(),
        (Scope::Bench, Press::Confirm) => {
            let open = state.open.as_ref();
            open.is_none_or(|open| open.list.left() > 0)
        }
        // They still move; finding by number matters more.
        (Scope::Bench, Press::Move(_)) => state.several().is_none(),
        (Scope::Bench, Press::SecondTrip) => {
            let piece = state.piece_in_hand();
            piece.is_some_and(|piece| piece.id.number > 1 && piece.stage == Stage::ToMark)
        }
        (Scope::Bench, Press::OffcutGone) => state.offcut_in_hand().is_some(),
        (Scope::Rack, Press::Throw | Press::Used | Press::Measure) => {
            state.offcut_on_rack().is_some()
        }
        _ => true,
    }
}

/// The rows of the place behind a help page, as the page lists them.
pub fn rows_for_help(state: &State) -> Vec<&'static Binding> {
    rows_in(scopes_behind(state)).collect()
}

/// The rows of `scopes`; a key that a nearer scope takes for itself is not
/// offered twice.
fn rows_in(scopes: Vec<Scope>) -> impl Iterator<Item = &'static Binding> {
    TABLE.iter().filter(move |row| {
        let is_its = |code: &Code| bound(&scopes, *code) == Some(row.press);
        scopes.contains(&row.scope) && row.codes.iter().any(is_its)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_key_means_two_things_in_one_scope() {
        for (at, row) in TABLE.iter().enumerate() {
            for other in TABLE.iter().skip(at + 1).filter(|o| o.scope == row.scope) {
                for code in row.codes {
                    assert!(!other.codes.contains(code), "{row:?} and {other:?}");
                }
            }
        }
    }

    /// Enter on the last reading leads to the hips: what is pressed next was meant
    /// for the readings, and must not turn a hip round.
    #[test]
    fn the_key_for_the_hand_means_nothing_else_at_any_place() {
        let asks = TABLE.iter().filter(|row| row.press == Press::ChangeHand);
        for code in asks.flat_map(|row| row.codes) {
            let rows = TABLE.iter().filter(|row| row.codes.contains(code));
            assert!(rows.clone().all(|row| row.press == Press::ChangeHand));
        }
    }

    #[test]
    fn nothing_is_deleted_by_the_key_that_asks() {
        let asks = |press| TABLE.iter().filter(move |row| row.press == press);
        for ask in asks(Press::Delete) {
            for yes in asks(Press::Yes) {
                assert!(ask.codes.iter().all(|code| !yes.codes.contains(code)));
            }
        }
    }
}
