//! What every target for job files asks of bytes.

use bendmark::domain::{
    bench::BenchEvent,
    cutting::{Job, NamedChange, Spot},
};
use bendmark::sheet::{
    csv::csv,
    json::json,
    rows::Rows,
    text::{WIDTH, text},
};
use bendmark::storage::job_file::{decode, encode};

const MARK: &[u8] = b"// checksum ";

/// `bytes` with the checksum that belongs to them: a line of changes is only taken
/// from a file whose checksum is right.
pub fn sealed(bytes: &[u8]) -> Vec<u8> {
    let content = bytes.windows(MARK.len()).rposition(|at| at == MARK);
    let content = &bytes[..content.unwrap_or(bytes.len())];
    let mut sealed = content.to_vec();
    if !sealed.ends_with(b"\n") {
        sealed.push(b'\n');
    }
    let sum = crc32fast::hash(&sealed);
    sealed.extend_from_slice(MARK);
    sealed.extend_from_slice(format!("{sum:08x}\n").as_bytes());
    sealed
}

/// Refused in words, or a job that can be planned, put on a sheet, undone so often
/// and stored again as it was.
pub fn judge(bytes: &[u8], undos: usize) {
    match decode(bytes) {
        Ok(mut read) => {
            is_written_as_it_is(&read.job);
            let rows = Rows::of(&read.job);
            let _ = (text(&rows, WIDTH), csv(&rows), json(&rows));
            for _ in 0..undos / 2 {
                if read.job.redo().is_none() {
                    break;
                }
                is_written_as_it_is(&read.job);
            }
            for _ in 0..undos {
                let named = |_: &[BenchEvent]| NamedChange {
                    words: String::new(),
                    spot: Spot::Rack,
                };
                // A correction taken back may leave more pieces than are saved.
                if read.job.undo(named).is_none() || encode(&read.job).is_err() {
                    break;
                }
                is_written_as_it_is(&read.job);
            }
        }
        Err(error) => assert!(error.to_string().len() < 10_000),
    }
}

fn is_written_as_it_is(job: &Job) {
    let again = encode(job).expect("what was read can be written");
    assert_eq!(decode(&again).expect("and read").job, *job);
}
