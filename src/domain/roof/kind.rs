//! The kinds of edges: hips, valleys and rakes.

use std::ops::{Index, IndexMut};

/// The one table of kinds: a new kind is a row here. What else it needs,
/// the compiler or a test asks for.
macro_rules! kinds {
    ($($(#[$doc:meta])* $kind:ident: $word:literal, $title:literal, $letter:literal, $bend:expr, $trend:expr;)+) => {
        /// What sort of roof edge it is.
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
        pub enum EdgeKind {
            $($(#[$doc])* $kind,)+
        }

        impl EdgeKind {
            /// Every kind, in the order in which they are offered.
            pub const ALL: [Self; [$($word),+].len()] = [$(Self::$kind),+];

            /// `hip`: on screens, sheets and in the CSV.
            pub const fn word(self) -> &'static str {
                match self { $(Self::$kind => $word,)+ }
            }

            /// `Hip`: begins the usual name of an edge.
            pub const fn title(self) -> &'static str {
                match self { $(Self::$kind => $title,)+ }
            }

            /// `H`: begins the labels written on pieces.
            pub const fn letter(self) -> &'static str {
                match self { $(Self::$kind => $letter,)+ }
            }

            /// Which way the leg beyond the bend line goes.
            pub const fn bend(self) -> Bend {
                match self { $(Self::$kind => $bend,)+ }
            }

            /// Which way its courses go between two even slopes; `None` for one
            /// that runs square to the courses.
            pub const fn usual_trend(self) -> Option<Trend> {
                match self { $(Self::$kind => $trend,)+ }
            }
        }
    };
}

kinds! {
    /// The outer ridge between two roof planes; bent up against the hip board.
    Hip: "hip", "Hip", "H", Bend::Up, Some(Trend::Narrows);
    /// The inner trough between two roof planes; bent down.
    Valley: "valley", "Valley", "V", Bend::Down, Some(Trend::Widens);
    /// The sloping end of a gable; square, bent up.
    Rake: "rake", "Rake", "R", Bend::Up, None;
}

impl EdgeKind {
    /// `hip, valley or rake`.
    pub fn any_of() -> String {
        let [others @ .., last] = Self::ALL.map(Self::word);
        format!("{} or {last}", others.join(", "))
    }
}

/// One value for each kind of edge.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct ByKind<T>([T; EdgeKind::ALL.len()]);

impl<T> ByKind<T> {
    /// What `of` gives for each kind.
    pub fn of(of: impl FnMut(EdgeKind) -> T) -> Self {
        Self(EdgeKind::ALL.map(of))
    }
}

#[expect(clippy::indexing_slicing, reason = "it holds one value a kind")]
impl<T> Index<EdgeKind> for ByKind<T> {
    type Output = T;
    fn index(&self, kind: EdgeKind) -> &T {
        &self.0[kind as usize]
    }
}

#[expect(clippy::indexing_slicing, reason = "it holds one value a kind")]
impl<T> IndexMut<EdgeKind> for ByKind<T> {
    fn index_mut(&mut self, kind: EdgeKind) -> &mut T {
        &mut self.0[kind as usize]
    }
}

/// Which way an edge leaves the courses as they go up.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Trend {
    /// The courses narrow going up: the lean is above zero.
    Narrows,
    /// They widen: the lean is below zero.
    Widens,
}

/// Which way a piece is bent.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Bend {
    /// Against the hip board or the rake.
    Up,
    /// Into the valley.
    Down,
}

impl Bend {
    /// `up` or `down`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Up => "up",
            Self::Down => "down",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_kind_has_a_word_and_a_letter_of_its_own() {
        let count = EdgeKind::ALL.len();
        assert_eq!(
            HashSet::from(EdgeKind::ALL.map(EdgeKind::word)).len(),
            count
        );
        assert_eq!(
            HashSet::from(EdgeKind::ALL.map(EdgeKind::letter)).len(),
            count
        );
        for kind in EdgeKind::ALL {
            assert_eq!(kind.title().to_lowercase(), kind.word());
            assert!(kind.title().starts_with(kind.letter()));
        }
    }
}
