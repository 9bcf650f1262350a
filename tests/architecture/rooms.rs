//! No file of the house leads back to itself, and a room names only rooms
//! before it.
//!
//! A room is a folder; a layer is a room of the house. The order is that of the
//! `mod` lines in the file above: each `mod.rs` lists what is in it in reading
//! order, so what is named stands above what names it. A name that a `mod.rs`
//! passes on is followed to the file that defines it.

use crate::source::{Segments, Source, read};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Which file names which.
type Arrows = BTreeMap<String, BTreeSet<String>>;

struct House {
    files: BTreeMap<String, Source>,
    /// The file of each module.
    rooms: BTreeMap<Segments, String>,
}

impl House {
    /// The files that are in the house: each named by a `mod` line of the one
    /// above it. What is there for tests only is not.
    fn of(mut files: BTreeMap<String, Source>) -> Self {
        let mut within = BTreeSet::from([Segments::new()]);
        for source in files.values() {
            let child = |name: &String| [&source.module[..], std::slice::from_ref(name)].concat();
            within.extend(source.children.iter().map(child));
        }
        files.retain(|_, source| within.contains(&source.module));
        let rooms = files
            .iter()
            .map(|(file, source)| (source.module.clone(), file.clone()))
            .collect();
        Self { files, rooms }
    }

    fn planted(files: &[(&str, &str)]) -> Self {
        let parsed = files
            .iter()
            .map(|(file, text)| ((*file).to_owned(), Source::parsed(file, text)));
        Self::of(parsed.collect())
    }

    /// The file that defines what `path` leads to.
    fn definer(&self, path: &[String]) -> Option<&str> {
        // A name passed on from room to room is passed on a few times at most.
        let mut path = path.to_vec();
        for _ in 0..9 {
            let depth = (0..=path.len())
                .rev()
                .find(|depth| self.rooms.contains_key(&path[..*depth]))?;
            let file = self.rooms.get(&path[..depth])?;
            let source = self.files.get(file)?;
            let Some(next) = path.get(depth) else {
                return Some(file);
            };
            if source.defines.contains(next) {
                return Some(file);
            }
            let Some(to) = source.brings.get(next) else {
                // An associated item, or a name of another crate.
                return Some(file);
            };
            path = to.iter().chain(&path[depth + 1..]).cloned().collect();
        }
        None
    }

    fn arrows(&self) -> Arrows {
        let named = |(file, source): (&String, &Source)| {
            let to = source.names.iter().filter_map(|path| self.definer(path));
            let to = to.filter(|to| to != file).map(str::to_owned).collect();
            (file.clone(), to)
        };
        self.files.iter().map(named).collect()
    }

    /// The files that name each other in a circle: all that is left when files
    /// that name none, or that none names, are taken away until nothing changes.
    fn circles(&self) -> BTreeSet<String> {
        let mut arrows = self.arrows();
        loop {
            let named: BTreeSet<String> = arrows.values().flatten().cloned().collect();
            let gone: BTreeSet<String> = arrows
                .iter()
                .filter(|(file, to)| to.is_empty() || !named.contains(*file))
                .map(|(file, _)| file.clone())
                .collect();
            if gone.is_empty() {
                return named;
            }
            arrows.retain(|file, _| !gone.contains(file));
            for to in arrows.values_mut() {
                to.retain(|file| !gone.contains(file));
            }
        }
    }

    /// Every arrow against the order of the `mod` lines, as `from -> to`.
    fn against_the_order(&self) -> BTreeSet<String> {
        let mut found = BTreeSet::new();
        for (from, targets) in self.arrows() {
            for to in targets {
                if !self.is_in_order(&from, &to) {
                    found.insert(format!("{from} -> {to}"));
                }
            }
        }
        found
    }

    fn is_in_order(&self, from: &str, to: &str) -> bool {
        let (from, to) = (&self.files[from].module, &self.files[to].module);
        let shared = from.iter().zip(to).take_while(|(one, other)| one == other);
        let shared = shared.count();
        match (from.get(shared), to.get(shared)) {
            // A `mod.rs` passes on what is in it.
            (None, _) => true,
            // What is in a room does not name its `mod.rs`.
            (Some(_), None) => false,
            (Some(from_room), Some(to_room)) => {
                let above = &self.files[&self.rooms[&from[..shared]]];
                let place = |room: &String| above.children.iter().position(|child| child == room);
                place(to_room) < place(from_room)
            }
        }
    }
}

fn house() -> House {
    House::of(read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src")))
}

#[test]
fn no_file_leads_back_to_itself() {
    assert_eq!(house().circles(), BTreeSet::new());
}

#[test]
fn a_room_names_only_rooms_before_it() {
    assert_eq!(house().against_the_order(), BTreeSet::new());
}

/// Layers of two rooms that are in order, and what a plant adds to one file.
const SOUND: [(&str, &str); 6] = [
    ("lib.rs", "pub mod low; pub mod high;"),
    ("low/mod.rs", "pub mod first; pub mod second;"),
    (
        "low/first/mod.rs",
        "mod one; mod two; pub use one::One; pub use two::Two;",
    ),
    ("low/first/one.rs", "pub struct One;"),
    (
        "low/first/two.rs",
        "use super::one::One; pub struct Two(One);",
    ),
    (
        "low/second.rs",
        "use crate::low::first::Two; pub struct Last(pub Two);",
    ),
];

#[track_caller]
fn planted(file: &str, more: &str, circle: &[&str], against: &[&str]) {
    let text = format!(
        "{}\n{more}",
        SOUND
            .iter()
            .find(|(name, _)| *name == file)
            .map_or("", |(_, text)| text)
    );
    let mut files: Vec<(&str, &str)> = SOUND
        .into_iter()
        .filter(|(name, _)| *name != file)
        .collect();
    files.push((
        "high.rs",
        "use crate::low::second::Last; pub fn f(_: Last) {}",
    ));
    files.retain(|(name, _)| *name != file);
    files.push((file, &text));
    let house = House::planted(&files);
    let words = |found: BTreeSet<String>| found.into_iter().collect::<Vec<_>>();
    assert_eq!(words(house.circles()), circle, "{more}");
    assert_eq!(words(house.against_the_order()), against, "{more}");
}

#[test]
fn a_house_in_order_has_no_breach() {
    planted("low/second.rs", "", &[], &[]);
    planted("low/second.rs", "// use crate::high::f;", &[], &[]);
    planted(
        "low/second.rs",
        "#[cfg(test)] mod tests { use crate::high::f; }",
        &[],
        &[],
    );
    planted(
        "low/second.rs",
        "mod inner { use super::super::first::One; }",
        &[],
        &[],
    );
}

#[test]
fn a_planted_circle_is_found_through_what_a_room_passes_on() {
    planted(
        "low/first/one.rs",
        "use crate::low::first::Two; fn f(_: Two) {}",
        &["low/first/one.rs", "low/first/two.rs"],
        &["low/first/one.rs -> low/first/two.rs"],
    );
    planted(
        "low/first/one.rs",
        "fn f() -> crate::low::second::Last { todo() }",
        &["low/first/one.rs", "low/first/two.rs", "low/second.rs"],
        &["low/first/one.rs -> low/second.rs"],
    );
    planted(
        "low/first/one.rs",
        "fn f() { println!(\"{:?}\", super::two::Two::new()); }",
        &["low/first/one.rs", "low/first/two.rs"],
        &["low/first/one.rs -> low/first/two.rs"],
    );
}

#[test]
fn a_planted_arrow_to_a_later_room_or_layer_is_found() {
    planted("high.rs", "use crate::low::first::One;", &[], &[]);
    planted(
        "low/second.rs",
        "use crate::high; fn f() { high::f() }",
        &["high.rs", "low/second.rs"],
        &["low/second.rs -> high.rs"],
    );
    planted("low/first/mod.rs", "pub struct Shared;", &[], &[]);
    planted(
        "low/first/two.rs",
        "mod inner { use crate::low::first; }",
        &["low/first/mod.rs", "low/first/two.rs"],
        &["low/first/two.rs -> low/first/mod.rs"],
    );
}
