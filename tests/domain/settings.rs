//! Every figure of a job's settings can be changed by a row of the table.

use bendmark::domain::settings::{RawSettings, Setting, Settings};
use std::collections::BTreeSet;

/// The fields of the settings, as they print: one a line.
fn fields(settings: &RawSettings) -> Vec<String> {
    let printed = format!("{settings:#?}");
    let mut fields: Vec<String> = Vec::new();
    for line in printed.lines() {
        let starts = line.starts_with("    ") && !line[4..].starts_with([' ', '}', ']', ')']);
        match fields.last_mut() {
            Some(last) if !starts => last.push_str(line),
            _ => fields.push(line.to_owned()),
        }
    }
    fields
        .into_iter()
        .filter(|field| field.starts_with("    "))
        .collect()
}

#[test]
fn every_figure_of_the_settings_has_a_row_in_the_table() {
    let settings = Settings::default();
    let before = fields(&settings);
    let mut changed = BTreeSet::new();
    for setting in Setting::ALL {
        let mut words: Vec<String> = setting.choices().into_iter().map(str::to_owned).collect();
        words.extend(["1", "3", "17", "40"].map(str::to_owned));
        for word in words {
            let Ok(after) = setting.set(&settings, &word) else {
                continue;
            };
            let pairs = before.iter().zip(fields(&after)).enumerate();
            changed.extend(pairs.filter(|(_, (was, is))| *was != is).map(|(at, _)| at));
        }
    }
    let unreached = before
        .iter()
        .enumerate()
        .filter(|(at, _)| !changed.contains(at));
    let unreached: Vec<_> = unreached.map(|(_, field)| field).collect();
    assert!(unreached.is_empty(), "no row sets {unreached:#?}");
    assert!(before.len() > 15, "{before:#?}");
}
