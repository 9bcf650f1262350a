//! Any bytes as a job file: refused in words, or a job that can be planned, put
//! on a sheet and stored again as it was.
#![no_main]

mod judge;

use judge::{judge, sealed};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    judge(bytes, 100);
    judge(&sealed(bytes), 100);
});
