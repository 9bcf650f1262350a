//! Counts of one cell of the table, and how they are printed.

/// What came of the slips of one cell.
#[derive(Clone, Copy, Default, Debug)]
pub(crate) struct Tally {
    pub(crate) slips: u64,
    /// Pointed out in the right course.
    pub(crate) found: u64,
    /// Slips of 5/8 in and more.
    pub(crate) large: u64,
    pub(crate) large_found: u64,
    /// The right reading, within 1/8 in, stands first.
    pub(crate) first: u64,
    /// ... or among the first two.
    pub(crate) first_two: u64,
    /// The right cause among the first two.
    pub(crate) cause: u64,
    pub(crate) clean_readings: u64,
    pub(crate) clean_doubted: u64,
}

impl Tally {
    pub(crate) const HEAD: &str = "| slope | joints | slip | slips | found % | of 5/8 in and more % | right reading first % | among two % | cause among two % | clean readings doubted |\n|---|---|---|---|---|---|---|---|---|---|";

    #[expect(clippy::cast_precision_loss, reason = "counts of a test")]
    pub(crate) fn share(&self, part: u64) -> f64 {
        100.0 * part as f64 / self.slips.max(1) as f64
    }

    pub(crate) fn add(&mut self, other: &Self) {
        let Self {
            slips,
            found,
            large,
            large_found,
            first,
            first_two,
            cause,
            clean_readings,
            clean_doubted,
        } = other;
        self.slips += slips;
        self.found += found;
        self.large += large;
        self.large_found += large_found;
        self.first += first;
        self.first_two += first_two;
        self.cause += cause;
        self.clean_readings += clean_readings;
        self.clean_doubted += clean_doubted;
    }

    #[expect(clippy::cast_precision_loss, reason = "counts of a test")]
    pub(crate) fn line(&self, slope: &str, joints: &str, slip: &str) -> String {
        let large = 100.0 * self.large_found as f64 / self.large.max(1) as f64;
        format!(
            "| {slope} | {joints} | {slip} | {} | {:.3} | {large:.3} | {:.2} | {:.2} | {:.2} | {} of {} |",
            self.slips,
            self.share(self.found),
            self.share(self.first),
            self.share(self.first_two),
            self.share(self.cause),
            self.clean_doubted,
            self.clean_readings
        )
    }
}
