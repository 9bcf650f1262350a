//! Which parts fit beside which: a bipartite graph held as rows of bits.
//!
//! Rows stand for one side (what keeps the left edge), columns for the other.
//! Bits make the search for a matching fast: 64 columns are looked at in one
//! step. It does not know why two parts fit.

use foldhash::HashMap;
use std::hash::Hash;

/// Columns in one word.
const WORD: usize = 64;

/// A bipartite graph between rows and columns, both counted from 0.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct FitGraph {
    bits: Vec<u64>,
    rows: usize,
    columns: usize,
    words: usize,
}

impl FitGraph {
    /// The graph of which pairs of `rows` and `columns` fit.
    pub fn of<R, C>(rows: &[R], columns: &[C], fits: impl Fn(&R, &C) -> bool) -> Self {
        Self::with_alike(rows, columns, |_| None::<()>, fits)
    }

    /// The same where rows of which the same is said are `alike`: what fits one of
    /// them fits all. On a large roof many pieces have the same lines.
    pub fn with_alike<R, C, K: Eq + Hash>(
        rows: &[R],
        columns: &[C],
        alike: impl Fn(&R) -> Option<K>,
        fits: impl Fn(&R, &C) -> bool,
    ) -> Self {
        let words = columns.len().div_ceil(WORD);
        let mut bits = Vec::with_capacity(words * rows.len());
        let mut known: HashMap<K, usize> = HashMap::default();
        for row in rows {
            let start = bits.len();
            let first = alike(row).map_or(start, |key| *known.entry(key).or_insert(start));
            if first < start {
                bits.extend_from_within(first..first + words);
                continue;
            }
            bits.extend(columns.chunks(WORD).map(|chunk| {
                let word = |word, (at, column)| word | u64::from(fits(row, column)) << at;
                (0_u32..).zip(chunk).fold(0_u64, word)
            }));
        }
        Self {
            bits,
            rows: rows.len(),
            columns: columns.len(),
            words,
        }
    }

    /// How many rows.
    pub const fn rows(&self) -> usize {
        self.rows
    }

    /// How many columns.
    pub const fn columns(&self) -> usize {
        self.columns
    }

    /// Whether `row` and `column` fit.
    pub fn fits(&self, row: usize, column: usize) -> bool {
        column < self.columns && self.row(row).has(column)
    }

    /// The columns that fit `row`.
    pub fn row(&self, row: usize) -> Bits<'_> {
        let from = row.saturating_mul(self.words);
        Bits(self.bits.get(from..from + self.words).unwrap_or(&[]))
    }

    /// The same graph with rows for columns.
    pub fn turned(&self) -> Self {
        let words = self.rows.div_ceil(WORD);
        let mut bits = vec![0_u64; words * self.columns];
        for row in 0..self.rows {
            for column in self.row(row).iter() {
                if let Some(word) = bits.get_mut(column * words + row / WORD) {
                    *word |= 1 << (row % WORD);
                }
            }
        }
        Self {
            bits,
            rows: self.columns,
            columns: self.rows,
            words,
        }
    }
}

/// A set of columns.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Bits<'a>(&'a [u64]);

impl Bits<'_> {
    /// Whether `at` is among them.
    pub fn has(&self, at: usize) -> bool {
        let word = self.0.get(at / WORD).copied().unwrap_or(0);
        word >> (at % WORD) & 1 == 1
    }

    /// Each of them, rising.
    pub fn iter(&self) -> impl Iterator<Item = usize> + '_ {
        (0..).zip(self.0).flat_map(|(at, word)| ones(at, *word))
    }

    /// Each of them below `end`, falling.
    pub fn below(&self, end: usize) -> impl Iterator<Item = usize> + '_ {
        let words = self.0.get(..end.div_ceil(WORD)).unwrap_or(self.0);
        let falling = (0..words.len()).rev().zip(words.iter().rev());
        let all = falling.flat_map(|(at, word)| {
            let mirrored = ones(0, word.reverse_bits());
            mirrored.map(move |bit| (at + 1) * WORD - 1 - bit)
        });
        all.skip_while(move |at| *at >= end)
    }

    /// Each of them not below `start`, rising.
    pub fn from(&self, start: usize) -> impl Iterator<Item = usize> + '_ {
        let word = start / WORD;
        let later = (word..).zip(self.0.iter().skip(word));
        let all = later.flat_map(|(at, word)| ones(at, *word));
        all.skip_while(move |at| *at < start)
    }

    /// The first that is in `set` too.
    pub fn first_in(&self, set: &BitSet) -> Option<usize> {
        let (at, word) = (0..)
            .zip(self.0.iter().zip(&set.0).map(|(mine, other)| mine & other))
            .find(|(_, word)| *word != 0)?;
        ones(at, word).next()
    }
}

/// A set of columns that can be changed.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct BitSet(Vec<u64>);

impl BitSet {
    /// Every number below `count`.
    pub fn below(count: usize) -> Self {
        let mut words = vec![u64::MAX; count / WORD];
        if !count.is_multiple_of(WORD) {
            words.push((1 << (count % WORD)) - 1);
        }
        Self(words)
    }

    /// Whether `at` is in it.
    pub fn has(&self, at: usize) -> bool {
        Bits(&self.0).has(at)
    }

    /// Puts `at` into it.
    pub fn insert(&mut self, at: usize) {
        if let Some(word) = self.0.get_mut(at / WORD) {
            *word |= 1 << (at % WORD);
        }
    }

    /// Takes `at` out of it.
    pub fn remove(&mut self, at: usize) {
        if let Some(word) = self.0.get_mut(at / WORD) {
            *word &= !(1 << (at % WORD));
        }
    }

    /// Takes all of `these` out of it, telling each one that was in it.
    pub fn take(&mut self, these: Bits<'_>, mut each: impl FnMut(usize)) {
        for (at, (mine, other)) in (0..).zip(self.0.iter_mut().zip(these.0)) {
            let taken = *mine & other;
            *mine &= !other;
            ones(at, taken).for_each(&mut each);
        }
    }
}

/// The places of the bits of the `at`-th word, rising.
fn ones(at: usize, mut word: u64) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        if word == 0 {
            return None;
        }
        let bit = usize::try_from(word.trailing_zeros()).unwrap_or(0);
        word &= word - 1;
        Some(at * WORD + bit)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn turning_a_graph_twice_gives_it_back() {
        let rows: Vec<usize> = (0..70).collect();
        let columns: Vec<usize> = (0..130).collect();
        let graph = FitGraph::of(&rows, &columns, |row, column| (row * 7 + column) % 5 == 0);
        let turned = graph.turned();
        assert!(graph.fits(1, 128) && turned.fits(128, 1));
        assert!(!graph.fits(1, 127) && !graph.fits(1, 133) && !graph.fits(70, 0));
        assert_eq!(turned.turned(), graph);
    }

    #[test]
    fn a_row_is_walked_from_any_place_in_both_directions() {
        let columns: Vec<usize> = (0..200).collect();
        let graph = FitGraph::of(&[()], &columns, |(), column| column % 21 == 0);
        for place in [0, 1, 63, 64, 65, 105, 128, 190, 200] {
            let (before, after): (Vec<_>, Vec<_>) = graph.row(0).iter().partition(|at| *at < place);
            assert_eq!(graph.row(0).from(place).collect::<Vec<_>>(), after);
            let falling: Vec<_> = graph.row(0).below(place).collect();
            assert_eq!(falling.into_iter().rev().collect::<Vec<_>>(), before);
        }
    }

    #[test]
    fn what_is_taken_from_a_set_is_told_once() {
        let columns: Vec<usize> = (0..70).collect();
        let graph = FitGraph::of(&[()], &columns, |(), column| *column % 33 == 0);
        let mut set = BitSet::below(70);
        assert!(set.has(69) && !set.has(70));
        set.remove(33);
        let mut taken = Vec::new();
        set.take(graph.row(0), |at| taken.push(at));
        assert_eq!(taken, [0, 66]);
        assert_eq!(graph.row(0).first_in(&set), None);
        set.insert(66);
        assert_eq!(graph.row(0).first_in(&set), Some(66));
    }
}
