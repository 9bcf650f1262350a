//! How a wrong reading likely came about.

/// A likely cause, in the trade's words.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Cause {
    /// The two readings of a course, or the two columns of an edge, exchanged.
    Swapped,
    /// The tape was started at its 1 and the inch not taken off again.
    InchTooMuch,
    /// An inch taken off of a tape that was started at its end.
    InchShort,
    FootDropped,
    FootAdded,
    /// Ten inches, or ten or a hundred millimetres, too many or too few.
    TenOff,
    /// Two neighbouring digits of the whole number exchanged.
    DigitsExchanged,
    /// The fraction read back from the next inch: 1/8 for 7/8.
    WrongSide,
    /// The tape was held wrong at one course line: two readings are off alike.
    PlacementOff,
    /// A reading was left out or written twice: all later ones moved by one.
    LeftOutOrTwice,
    /// The readings, or the slopes, are those of the edge's other side.
    SlopesExchanged,
    WrongKind,
    CourseForgotten,
    /// Read to the last panel's edge where the lap line is due.
    PanelEdge,
    /// Read to the lap line where the last panel's edge is due.
    LapLine,
    /// Two neighbouring courses, each in the other's place.
    CoursesExchanged,
    /// A digit typed by its neighbour.
    AdjacentKey,
    Centimetres,
    /// The highest course written as course 1, and so down to the eave.
    FromTheRidge,
    /// The gap has room for another full panel.
    AnotherPanelFits,
    /// The boards of the plane's two edges meet below it.
    AbovePeak,
    /// Both gaps of the course together.
    WiderThanPlane,
    /// Millimetres written where inches are expected, or inches for millimetres.
    OtherUnit,
    Unknown,
}

impl Cause {
    /// As the screens and the sheet say it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Swapped => "bottom and top swapped",
            Self::InchTooMuch => "an inch too much",
            Self::InchShort => "an inch short",
            Self::FootDropped => "a foot dropped",
            Self::FootAdded => "a foot added",
            Self::TenOff => "a wrong ten",
            Self::DigitsExchanged => "digits exchanged",
            Self::WrongSide => "fraction counted backwards",
            Self::PlacementOff => "one hold of the tape off",
            Self::LeftOutOrTwice => "left out or written twice",
            Self::SlopesExchanged => "slopes exchanged",
            Self::WrongKind => "wrong kind",
            Self::CourseForgotten => "a course forgotten",
            Self::PanelEdge => "read to the panel's edge",
            Self::LapLine => "read to the lap line",
            Self::CoursesExchanged => "courses exchanged",
            Self::AdjacentKey => "adjacent key",
            Self::Centimetres => "centimetres",
            Self::FromTheRidge => "written from the ridge down",
            Self::AnotherPanelFits => "another panel fits",
            Self::WiderThanPlane => "wider than the roof side",
            Self::AbovePeak => "no roof there",
            Self::OtherUnit => "other unit",
            Self::Unknown => "cause not clear",
        }
    }
}
