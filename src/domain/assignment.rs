//! The cheapest way to give every source a target of its own.
//!
//! Successive shortest paths with prices (Kuhn 1955, Munkres 1957; in the form
//! of Jonker and Volgenant 1987): the sources are settled one after another,
//! each by a cheapest path of exchanges to a free target. The prices keep every
//! remaining cost at or above zero and every settled pair at zero, which is the
//! proof that the sum is the least: no other choice can get below the sum of
//! all prices. Exact, in whole numbers. Own code: the libraries at hand want a
//! full square of costs and pay for pairs that are not allowed.

/// What stands for a pair that is not allowed, and for a target not yet
/// reached; far above any sum of costs.
const FAR: i64 = i64::MAX / 8;

/// The costs of every source with every target.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Costs {
    costs: Vec<i64>,
    sources: usize,
    targets: usize,
}

impl Costs {
    /// `cost` says what each pair costs, or nothing where it is not allowed.
    #[must_use]
    pub fn of(
        sources: &[usize],
        targets: &[usize],
        cost: impl Fn(usize, usize) -> Option<i64>,
    ) -> Self {
        let row = |source: &usize| {
            let source = *source;
            let cost = &cost;
            targets
                .iter()
                .map(move |target| cost(source, *target).unwrap_or(FAR))
        };
        Self {
            costs: sources.iter().flat_map(row).collect(),
            sources: sources.len(),
            targets: targets.len(),
        }
    }

    /// The place of the target that each source gets, at the least sum of
    /// costs; `None` where not every source can get one.
    #[must_use]
    pub fn cheapest(&self) -> Option<Vec<usize>> {
        if self.sources > self.targets {
            return None;
        }
        if self.sources == 0 {
            return Some(Vec::new());
        }
        let rows: Vec<&[i64]> = self.costs.chunks(self.targets).collect();
        let mut market = Market::new(rows.len(), self.targets);
        for source in 0..rows.len() {
            market.settle(source, &rows)?;
        }
        Some(market.target_of)
    }
}

/// What is known of one target.
#[derive(Clone, Copy, Debug)]
struct Target {
    price: i64,
    source: Option<usize>,
    /// The cost of the cheapest path found to it so far, and its last source.
    far: i64,
    from: usize,
    reached: bool,
}

struct Market {
    source_prices: Vec<i64>,
    /// The target each source has; of no meaning for one not yet settled.
    target_of: Vec<usize>,
    targets: Vec<Target>,
    /// The targets reached by the present search, nearest first.
    reached: Vec<usize>,
}

impl Market {
    fn new(sources: usize, targets: usize) -> Self {
        let target = Target {
            price: 0,
            source: None,
            far: FAR,
            from: 0,
            reached: false,
        };
        Self {
            source_prices: vec![0; sources],
            target_of: vec![0; sources],
            targets: vec![target; targets],
            reached: Vec::with_capacity(targets),
        }
    }

    /// Gives `source` a target, exchanging others where that is cheapest.
    fn settle(&mut self, source: usize, costs: &[&[i64]]) -> Option<()> {
        for target in &mut self.targets {
            target.far = FAR;
            target.reached = false;
        }
        self.reached.clear();
        let (mut at, mut far) = (source, 0);
        let end = loop {
            let (nearest, near) = self.look_on(at, far, costs.get(at)?)?;
            let target = self.targets.get_mut(nearest)?;
            far = near;
            match target.source {
                None => break nearest,
                Some(next) => {
                    target.reached = true;
                    self.reached.push(nearest);
                    at = next;
                }
            }
        };
        self.reprice(source, far)?;
        self.exchange(source, end)
    }

    /// Looks from `source`, which lies `far` off, at every target; the nearest
    /// not yet reached and how far it lies.
    fn look_on(&mut self, source: usize, far: i64, costs: &[i64]) -> Option<(usize, i64)> {
        let base = far - self.source_prices.get(source)?;
        let mut nearest = None;
        let mut near = FAR / 2;
        for (at, (cost, target)) in costs.iter().zip(&mut self.targets).enumerate() {
            if target.reached {
                continue;
            }
            let there = base + cost - target.price;
            if there < target.far {
                target.far = there;
                target.from = source;
            }
            if target.far < near {
                near = target.far;
                nearest = Some(at);
            }
        }
        nearest.map(|at| (at, near))
    }

    /// Moves the prices so that the path of length `far` costs nothing.
    fn reprice(&mut self, source: usize, far: i64) -> Option<()> {
        *self.source_prices.get_mut(source)? += far;
        for at in &self.reached {
            let target = self.targets.get_mut(*at)?;
            let saved = far - target.far;
            target.price -= saved;
            *self.source_prices.get_mut(target.source?)? += saved;
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
            let before = std::mem::replace(self.target_of.get_mut(from)?, at);
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
    fn least(rows: &[Vec<Option<i64>>], taken: &mut Vec<usize>) -> Option<i64> {
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
                (Some(one), Some(other)) => Some(i64::min(one, other)),
                (one, other) => one.or(other),
            };
        }
        best
    }

    #[test]
    fn a_source_without_a_target_left_is_told() {
        let costs = Costs::of(&[0, 1], &[0, 1], |_, target| (target == 0).then_some(1));
        assert_eq!(costs.cheapest(), None);
        assert_eq!(Costs::of(&[0], &[], |_, _| None).cheapest(), None);
        assert_eq!(Costs::of(&[], &[0], |_, _| None).cheapest(), Some(vec![]));
    }

    proptest! {
        #[test]
        fn prop_no_other_way_is_cheaper(
            rows in proptest::collection::vec(
                proptest::collection::vec(proptest::option::weighted(0.7, 0_i64..9), 5), 0..5),
        ) {
            let sources: Vec<_> = (0..rows.len()).collect();
            let costs = Costs::of(&sources, &[0, 1, 2, 3, 4], |s, t| rows[s][t]);
            let found = costs.cheapest();
            let sum = found.as_ref().map(|of_source| {
                of_source.iter().enumerate().map(|(s, t)| rows[s][*t].unwrap()).sum::<i64>()
            });
            prop_assert_eq!(sum, least(&rows, &mut Vec::new()));
        }
    }
}
