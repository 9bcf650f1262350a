//! Any bytes as a job file: refused in words, or a job that can be planned, put
//! on a sheet and stored again as it was.
#![no_main]

use bendmark::sheet::{
    csv::csv,
    json::json,
    rows::Rows,
    text::{WIDTH, text},
};
use bendmark::storage::job_file::{decode, encode};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    match decode(bytes) {
        Ok(read) => {
            let again = encode(&read.job).expect("what was read can be written");
            assert_eq!(decode(&again).expect("and read").job, read.job);
            let rows = Rows::of(&read.job);
            let _ = (text(&rows, WIDTH), csv(&rows), json(&rows));
        }
        Err(error) => assert!(error.to_string().len() < 10_000),
    }
});
