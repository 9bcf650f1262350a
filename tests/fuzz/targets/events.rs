//! A whole job whose event list is mutated: facts left out, doubled, put in another
//! order, figures changed. It opens, or is refused by name.
#![no_main]

mod judge;

use judge::{judge, sealed};
use libfuzzer_sys::fuzz_target;

/// A job with every sort of fact in it.
const WHOLE: &str = include_str!("../seeds/job_file/changes.ron");

fuzz_target!(|bytes: &[u8]| {
    let lines: Vec<&str> = WHOLE.lines().collect();
    let from = lines.iter().position(|line| line.trim() == "events: [");
    let from = from.expect("the job has events") + 1;
    let count = lines[from..].iter().position(|line| line.trim() == "],");
    let to = from + count.expect("the list ends");
    let mut events: Vec<String> = lines[from..to].iter().map(|line| line.to_string()).collect();
    for edit in bytes.chunks_exact(4).take(60) {
        let [what, one, other, figure] = [edit[0], edit[1], edit[2], edit[3]];
        if events.is_empty() {
            break;
        }
        let (one, other) = (usize::from(one) % events.len(), usize::from(other) % events.len());
        match what % 5 {
            0 => drop(events.remove(one)),
            1 if events.len() < 400 => events.insert(other, events[one].clone()),
            2 => events.swap(one, other),
            3 => {
                let digits: Vec<usize> = events[one]
                    .char_indices()
                    .filter_map(|(at, c)| c.is_ascii_digit().then_some(at))
                    .collect();
                if let Some(at) = digits.get(usize::from(figure) % digits.len().max(1)) {
                    let digit = char::from(b'0' + figure % 10).to_string();
                    events[one].replace_range(*at..=*at, &digit);
                }
            }
            _ => {
                // One fact begins as another does.
                let cut = |line: &str| line.find(',').unwrap_or(line.len());
                let begin = events[other][..cut(&events[other])].to_owned();
                let end = events[one][cut(&events[one])..].to_owned();
                events[one] = begin + &end;
            }
        }
    }
    let mut all: Vec<&str> = lines[..from].to_vec();
    all.extend(events.iter().map(String::as_str));
    all.extend(&lines[to..]);
    judge(&sealed((all.join("\n") + "\n").as_bytes()), 2);
});
