//! Faults on order, for the tests that run the real program: a panic where
//! `BENDMARK_FAULT` names the place. Without that variable nothing is done.

/// Panics if the tests ordered it for `place`.
pub(crate) fn at(place: &str) {
    let ordered = std::env::var_os("BENDMARK_FAULT").is_some_and(|order| order == place);
    #[expect(clippy::panic, reason = "the tests ask for one")]
    if ordered {
        panic!("ordered by BENDMARK_FAULT");
    }
}
