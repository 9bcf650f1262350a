//! A version 0 of the job file, made up for the tests: how an older version is
//! read. It had inches in sixteenths, one hip, and no settings.

use bendmark::domain::{
    cutting::Job,
    log::{Course, CourseNumber, End, Reading},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::Settings,
};
use bendmark::storage::job_file::Older;
use serde::{Deserialize, Serialize};

/// What a program that has a version 0 behind it would keep in `OLDER`.
pub const READERS: &[Older] = &[Older { version: 0, read }];

/// The whole of it, frozen: nothing here follows what later versions do.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct JobV0 {
    version: u32,
    called: String,
    /// Bottom and top of each course from the eave up, in sixteenths.
    hip: Vec<(i64, i64)>,
}

fn read(text: &str) -> Result<Job, String> {
    let old: JobV0 = ron::from_str(text).map_err(|error| error.to_string())?;
    let name = Name::new(&old.called).map_err(|error| error.to_string())?;
    let mut job = Job::new(name, Settings::default());
    let hip = job.add_edge(Name::or("Hip 1", "?"), EdgeKind::Hip, Hand::Left);
    for (number, (bottom, top)) in (1..).zip(old.hip) {
        let number = CourseNumber::new(number).ok_or("too many courses")?;
        let course = Course::unread(number)
            .with(End::Bottom, Some(sixteenths(bottom)?))
            .with(End::Top, Some(sixteenths(top)?));
        job.edge_mut(hip).ok_or("no hip")?.put(course);
    }
    Ok(job)
}

fn sixteenths(count: i64) -> Result<Reading, String> {
    let nm = count
        .checked_mul(1_587_500)
        .ok_or("a reading is out of range")?;
    Reading::new(Length::from_nm(nm)).map_err(|_| "a reading is out of range".to_owned())
}

/// A file of that version, as it was saved then.
pub fn file(called: &str) -> Vec<u8> {
    let mut text = format!("(version: 0, called: \"{called}\", hip: [(588, 388), (388, 188)])\n");
    let sum = crc32fast::hash(text.as_bytes());
    text.push_str(&format!("// checksum {sum:08x}\n"));
    text.into_bytes()
}
