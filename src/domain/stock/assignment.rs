//! The cheapest way to give every source a target of its own.
//!
//! Successive shortest paths with prices (Kuhn 1955, Munkres 1957; Edmonds and
//! Karp 1972): the sources are settled one after another, each by a cheapest
//! path of exchanges to a free target. The prices keep every remaining cost at
//! or above zero and every settled pair at zero, which is the proof that the
//! sum is the least: no other choice can get below the sum of all prices.
//!
//! A target's price only ever falls from zero, so an offer is never nearer than
//! its cost says. With offers in rising order a search stops looking at a
//! source as soon as one costs more than the nearest free target found so far;
//! that makes it fast where costs are distances, as here. Exact, in whole
//! numbers. Own code: the libraries at hand want a full square of costs and
//! look at all of it.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// What stands for a target not yet reached.
const FAR: usize = usize::MAX;

/// A target that a source may get, and what that costs.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub(super) struct Offer {
    /// What it costs; far below the largest number there is.
    pub cost: usize,
    /// The target, from 0.
    pub target: usize,
}

/// The target that each source gets at the least sum of costs, given what is
/// offered to each in rising order of cost, and how many targets there are;
/// `None` where not every source can get one.
pub(super) fn cheapest(offers: &[Vec<Offer>], targets: usize) -> Option<Vec<usize>> {
    let mut assignment = Assignment::new(offers.len(), targets);
    for source in 0..offers.len() {
        assignment.settle(source, offers)?;
    }
    Some(
        assignment
            .sources
            .iter()
            .map(|source| source.target)
            .collect(),
    )
}

#[derive(Clone, Copy, Default, Debug)]
struct Source {
    price: usize,
    /// Of no meaning before it is settled.
    target: usize,
}

#[derive(Clone, Copy, Debug)]
struct Target {
    /// How far its price has fallen.
    fallen: usize,
    source: Option<usize>,
    /// The cost of the cheapest path found to it so far, and its last source.
    far: usize,
    from: usize,
}

/// Sources and targets while they are given to each other.
struct Assignment {
    sources: Vec<Source>,
    targets: Vec<Target>,
    /// The targets of which the present search knows a path.
    seen: Vec<usize>,
    /// Those taken from the heap: no path to them is shorter.
    reached: Vec<usize>,
    /// Targets seen, by how far they were then.
    heap: BinaryHeap<Reverse<(usize, usize)>>,
}

impl Assignment {
    fn new(sources: usize, targets: usize) -> Self {
        let target = Target {
            fallen: 0,
            source: None,
            far: FAR,
            from: 0,
        };
        Self {
            sources: vec![Source::default(); sources],
            targets: vec![target; targets],
            seen: Vec::new(),
            reached: Vec::new(),
            heap: BinaryHeap::new(),
        }
    }

    /// Gives `source` a target, exchanging others where that is cheapest.
    fn settle(&mut self, source: usize, offers: &[Vec<Offer>]) -> Option<()> {
        for seen in self.seen.drain(..) {
            self.targets.get_mut(seen)?.far = FAR;
        }
        self.reached.clear();
        self.heap.clear();
        let mut free = (FAR, None);
        let (mut at, mut far) = (source, 0);
        loop {
            self.look_from(at, far, offers.get(at)?, &mut free)?;
            let Some((target, near)) = self.nearest().filter(|(_, near)| *near < free.0) else {
                break;
            };
            self.reached.push(target);
            far = near;
            at = self.targets.get(target)?.source?;
        }
        self.reprice(source, free.0)?;
        self.exchange(source, free.1?)
    }

    /// Looks from `source`, which lies `far` off, at what is offered to it;
    /// `free` is the nearest free target so far.
    fn look_from(
        &mut self,
        source: usize,
        far: usize,
        offers: &[Offer],
        free: &mut (usize, Option<usize>),
    ) -> Option<()> {
        let price = self.sources.get(source)?.price;
        for offer in offers {
            // A path over this offer or a later one is at least so long.
            if far + offer.cost >= free.0.saturating_add(price) {
                break;
            }
            let target = self.targets.get_mut(offer.target)?;
            let there = far + offer.cost + target.fallen - price;
            if there >= target.far || there >= free.0 {
                continue;
            }
            if target.far == FAR {
                self.seen.push(offer.target);
            }
            target.far = there;
            target.from = source;
            if target.source.is_none() {
                *free = (there, Some(offer.target));
            } else {
                self.heap.push(Reverse((there, offer.target)));
            }
        }
        Some(())
    }

    /// The nearest target seen and not yet reached, and how far it lies.
    fn nearest(&mut self) -> Option<(usize, usize)> {
        loop {
            let Reverse((near, target)) = self.heap.pop()?;
            // One that was seen again from nearer by is in the heap twice.
            if self.targets.get(target)?.far == near {
                return Some((target, near));
            }
        }
    }

    /// Moves the prices so that the path of length `far` costs nothing.
    fn reprice(&mut self, source: usize, far: usize) -> Option<()> {
        if far == FAR {
            return None;
        }
        self.sources.get_mut(source)?.price += far;
        for at in &self.reached {
            let target = self.targets.get_mut(*at)?;
            let saved = far - target.far;
            target.fallen += saved;
            self.sources.get_mut(target.source?)?.price += saved;
        }
        Some(())
    }

    /// Gives each target on the path that ends at `end` the source before it.
    fn exchange(&mut self, source: usize, end: usize) -> Option<()> {
        let mut at = end;
        loop {
            let target = self.targets.get_mut(at)?;
            let from = target.from;
            target.source = Some(from);
            let before = std::mem::replace(&mut self.sources.get_mut(from)?.target, at);
            if from == source {
                return Some(());
            }
            at = before;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The least sum over all ways, tried one by one.
    fn least(rows: &[Vec<Option<usize>>], taken: &mut Vec<usize>) -> Option<usize> {
        let Some(row) = rows.get(taken.len()) else {
            return Some(0);
        };
        let mut best = None;
        for (at, cost) in row.iter().enumerate() {
            let Some(cost) = cost.filter(|_| !taken.contains(&at)) else {
                continue;
            };
            taken.push(at);
            let sum = least(rows, taken).map(|rest| rest + cost);
            taken.pop();
            best = match (best, sum) {
                (Some(one), Some(other)) => Some(usize::min(one, other)),
                (one, other) => one.or(other),
            };
        }
        best
    }

    #[test]
    fn a_source_without_a_target_left_is_told() {
        let only = vec![Offer { cost: 1, target: 0 }];
        assert_eq!(cheapest(&[only.clone(), only], 1), None);
        assert_eq!(cheapest(&[vec![]], 1), None);
        assert_eq!(cheapest(&[], 0), Some(vec![]));
    }

    proptest! {
        #[test]
        fn prop_no_other_way_is_cheaper(
            rows in proptest::collection::vec(
                proptest::collection::vec(proptest::option::weighted(0.7, 0_usize..9), 6), 0..6),
        ) {
            let offers: Vec<_> = rows.iter().map(|row| {
                let offer = |(target, cost): (usize, &Option<usize>)| cost.map(|cost| Offer { cost, target });
                let mut offers: Vec<_> = row.iter().enumerate().filter_map(offer).collect();
                offers.sort();
                offers
            }).collect();
            let sum = cheapest(&offers, 6).map(|found| {
                let mut taken = found.clone();
                taken.sort_unstable();
                taken.dedup();
                assert_eq!(taken.len(), rows.len(), "a target is given twice");
                found.iter().enumerate().map(|(source, target)| rows[source][*target].unwrap()).sum::<usize>()
            });
            prop_assert_eq!(sum, least(&rows, &mut Vec::new()));
        }
    }
}
