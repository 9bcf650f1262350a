//! Any bytes as readings: every bad row is said, or they are in a job that can
//! be stored.
#![no_main]

use bendmark::domain::{cutting::Job, measure::Name, settings::Settings};
use bendmark::storage::{job_file::{decode, encode}, readings::import};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let job = Job::new(Name::or("x", "x"), Settings::default());
    match import(&job, bytes) {
        Ok(imported) => {
            let file = encode(&imported.job).expect("what was read can be written");
            assert_eq!(decode(&file).expect("and read").job, imported.job);
            let again = import(&imported.job, bytes).expect("the same rows are no news");
            assert_eq!((again.added, again.new_edges), (0, 0));
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
});
