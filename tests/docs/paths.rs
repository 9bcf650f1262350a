//! What README and docs name in backticks as a place in the tree is there.

use std::fs;
use std::path::{Path, PathBuf};

const LAYERS: [&str; 7] = [
    "domain", "picture", "sheet", "app", "ui", "storage", "shell",
];
const TOPS: [&str; 6] = ["src", "tests", "docs", "sample-jobs", ".ci", ".cargo"];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn pages() -> Vec<PathBuf> {
    let mut pages = vec![root().join("README.md"), root().join("DEVELOPERS.md")];
    for entry in fs::read_dir(root().join("docs")).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|end| end == "md") {
            pages.push(path);
        }
    }
    pages
}

/// The words in backticks and outside blocks of code.
fn quoted(page: &str) -> Vec<&str> {
    let outside = page.split("```").step_by(2);
    outside
        .flat_map(|text| text.split('`').skip(1).step_by(2))
        .collect()
}

/// Whether a file or folder of that name stands below `folder`; a module may be
/// named without its ending.
fn stands(folder: &Path, path: &str) -> bool {
    let place = folder.join(path.trim_end_matches('/'));
    place.exists() || place.extension().is_none() && place.with_extension("rs").exists()
}

/// What `page` names as a place in the tree that is not there: `tests/app`,
/// `domain/piece/spec.rs`, `tests/x.rs::name`, `storage::keeping::save`.
fn missing(page: &str) -> Vec<&str> {
    let is_missing = |word: &&str| {
        let word = word.trim_start_matches("crate::");
        if word.contains([' ', '*', '<', '{', '$']) {
            return false;
        }
        // Behind a file's name stands a test of it, which others look for.
        let file = word.split_once(".rs::").map_or(word, |(file, _)| file);
        let top = file.split(['/', ':']).next().unwrap_or("");
        if TOPS.contains(&top) && file.contains('/') {
            return !stands(root(), file);
        }
        if !LAYERS.contains(&top) || !file.contains(['/', ':']) {
            return false;
        }
        if file.contains('/') {
            return !stands(&root().join("src"), file);
        }
        // Of a path in code its rooms, its file and a function at its end; of
        // what else stands in a file the compiler knows.
        let is_room = |part: &&str| part.starts_with(|c: char| c.is_lowercase());
        let rooms: Vec<&str> = file.split("::").take_while(is_room).collect();
        let src = root().join("src");
        let is_verb = rooms
            .split_last()
            .is_some_and(|(verb, above)| above.len() > 1 && defines(&src, &above.join("/"), verb));
        !stands(&src, &rooms.join("/")) && !is_verb
    };
    quoted(page).into_iter().filter(is_missing).collect()
}

/// Whether a file, or one of a room's files, has a public function of that name.
fn defines(src: &Path, place: &str, name: &str) -> bool {
    let files = match src.join(place) {
        room if room.is_dir() => crate::sources::sources(&room),
        file => vec![file.with_extension("rs")],
    };
    let texts = files
        .iter()
        .filter_map(|file| fs::read_to_string(file).ok());
    let heads = [format!("fn {name}("), format!("fn {name}<")];
    texts
        .flat_map(|text| text.lines().map(str::to_owned).collect::<Vec<_>>())
        .any(|line| line.starts_with("pub ") && heads.iter().any(|head| line.contains(head)))
}

#[test]
fn every_place_named_in_the_docs_is_there() {
    for page in pages() {
        let text = fs::read_to_string(&page).unwrap();
        assert_eq!(missing(&text), Vec::<&str>::new(), "{}", page.display());
    }
}

#[test]
fn a_planted_place_that_is_not_there_is_found() {
    let there = "`src/domain` `domain/piece/spec.rs` `domain/log` `tests/app` `storage::keeping::save` \
                 `app::update::update` `docs/guide.md` `a/b` `tests/docs/paths.rs::any_test` `ui::frame::render`";
    assert_eq!(missing(there), Vec::<&str>::new());
    let gone = "`src/domain/piece.rs` `domain/plan.rs` `tests/nowhere` `storage::savings::save` `shell::loop` \
                `domain::edge` `domain::stock::plans` `app::update::updated` `crate::domain::logs::Edge` `domain/piece/spec.txt`";
    assert_eq!(missing(gone), quoted(gone));
    assert_eq!(missing("```\n`domain/plan.rs`\n```"), Vec::<&str>::new());
}

/// The tests that `page` names by file and function and that are not there.
fn missing_tests(page: &str) -> Vec<&str> {
    let is_missing = |word: &&str| {
        let Some((file, name)) = word.split_once(".rs::") else {
            return false;
        };
        let text = fs::read_to_string(root().join(format!("{file}.rs"))).unwrap_or_default();
        !text.contains(&format!("fn {name}("))
    };
    quoted(page).into_iter().filter(is_missing).collect()
}

#[test]
fn every_test_named_in_the_docs_is_in_the_file_that_is_named() {
    for page in pages() {
        let text = fs::read_to_string(&page).unwrap();
        assert_eq!(
            missing_tests(&text),
            Vec::<&str>::new(),
            "{}",
            page.display()
        );
    }
    let here = "`tests/docs/paths.rs::every_place_named_in_the_docs_is_there`";
    assert_eq!(missing_tests(here), Vec::<&str>::new());
    let gone = "`tests/docs/paths.rs::nothing` `tests/nowhere.rs::at_all`";
    assert_eq!(missing_tests(gone), quoted(gone));
}
