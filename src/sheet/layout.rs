//! How a sheet is laid out, beside what is on it.

/// Columns of a page of text where no other width is asked for.
pub const WIDTH: usize = 80;

/// Which pages a sheet as HTML has.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Pages {
    /// The bench list: a line a piece, a page an edge.
    #[default]
    List,
    /// Every piece with its pictures, about three a page.
    Pictures,
}

impl Pages {
    /// Both of them.
    pub const ALL: [Self; 2] = [Self::List, Self::Pictures];
}

/// Which boxes a line of the bench list has to tick.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum Boxes {
    /// One, for done.
    #[default]
    Done,
    /// One each for marked, cut, bent and stacked.
    EveryStep,
}

/// How a sheet is laid out; what a form has no use for is passed over.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub struct Layout {
    /// Columns of text.
    pub width: usize,
    /// The pages of HTML.
    pub pages: Pages,
    /// The boxes of the bench list as HTML.
    pub boxes: Boxes,
    /// The day and time that is printed on a page, in words; none is where nobody
    /// says it.
    pub printed_at: Option<String>,
}

impl Default for Layout {
    fn default() -> Self {
        Self {
            width: WIDTH,
            pages: Pages::List,
            boxes: Boxes::Done,
            printed_at: None,
        }
    }
}
