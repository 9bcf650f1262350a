//! The kinds of slip of the whole-roof simulation, and the causes that name each.
//!
//! The list is common practice's and the bench's own; none of it is taken from
//! the checker. What each does stands in `whole_roof_slips`.

macro_rules! slips {
    ($($slip:ident: $words:literal, [$($cause:literal),*];)+) => {
        /// One kind of slip.
        #[derive(Clone, Copy, PartialEq, Eq, Debug)]
        pub(crate) enum Slip { $($slip,)+ }

        impl Slip {
            pub(crate) const ALL: [Self; [$($words),+].len()] = [$(Self::$slip),+];

            pub(crate) fn words(self) -> &'static str {
                match self { $(Self::$slip => $words,)+ }
            }

            /// The causes, as the program words them, that name it; none where it
            /// has no name there.
            pub(crate) fn causes(self) -> &'static [&'static str] {
                match self { $(Self::$slip => &[$($cause),*],)+ }
            }
        }
    };
}

// The one table of slips: words, and the causes that name them. Causes the
// program does not know yet are counted as not named.
slips! {
    Swapped: "bottom and top swapped", ["bottom and top swapped"];
    InchBurned: "an inch too much", ["an inch too much"];
    FootDropped: "a foot dropped", ["a foot dropped"];
    FootAdded: "a foot added", ["a foot added"];
    TenOff: "a wrong ten", ["a wrong ten"];
    DigitsExchanged: "digits exchanged", ["digits exchanged"];
    WrongSide: "fraction counted backwards", ["fraction counted backwards"];
    // One more or less of a digit is an inch, or ten: the same figure.
    AdjacentKey: "adjacent key", ["adjacent key", "an inch too much", "an inch short", "a wrong ten"];
    Centimetres: "centimetres written", ["centimetres", "other unit"];
    DigitLeftOut: "a digit left out", [];
    DigitTwice: "a digit typed twice", [];
    FractionLeftOut: "the fraction left out", [];
    OneToPanelEdge: "one reading to the panel's edge", ["read to the panel's edge"];
    OneLineUp: "top read a line too high", ["a course forgotten"];
    OnePlacement: "one placement off", ["one hold of the tape off"];
    LeftOut: "a reading left out", ["left out or written twice"];
    WrittenTwice: "a reading written twice", ["left out or written twice"];
    BothToPanelEdge: "a course to the panel's edge", ["read to the panel's edge"];
    BothTwoShort: "both readings 2 in short", ["read to the panel's edge"];
    BothFootShort: "both a foot short", ["a foot dropped"];
    BothFootLong: "both a foot long", ["a foot added"];
    BothInchOff: "both an inch off", ["an inch too much", "an inch short"];
    BothTenOff: "both ten off", ["a wrong ten"];
    BothPanelLong: "both a cover long", ["another panel fits"];
    PanelEdgeFrom: "panel's edge from a course on", ["read to the panel's edge"];
    Skipped: "a course skipped", ["a course forgotten", "a course skipped"];
    CourseTwice: "a course written twice", ["a course written twice"];
    Exchanged: "two courses exchanged", ["courses exchanged"];
    EndsExchanged: "a course's two ends exchanged", [];
    ColumnsSwapped: "columns swapped", ["bottom and top swapped"];
    FromRidge: "numbered from the ridge down", ["written from the ridge down"];
    FromRidgeAll: "all written from the ridge down", ["written from the ridge down", "bottom and top swapped"];
    WrongKind: "hip typed as a valley", ["wrong kind"];
    HipForRake: "hip or valley typed as a rake", ["wrong kind"];
    OtherUnit: "other unit", ["other unit"];
    PanelEdgeAll: "whole edge to the panel's edge", ["read to the panel's edge"];
    SidesExchanged: "the plane's two ends exchanged", [];
    SlopesExchanged: "slopes exchanged", ["slopes exchanged"];
    SlopeWrong: "slope typed 3 in 12 off", [];
}

impl Slip {
    /// Whether it is one of what is known of the roof, not of the readings.
    pub(crate) fn needs_slope(self) -> bool {
        matches!(self, Self::SlopesExchanged | Self::SlopeWrong)
    }
}
