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
    place.exists() || place.with_extension("rs").exists()
}

/// What `page` names as a place in the tree that is not there: `tests/app`,
/// `domain/piece/spec.rs`, `tests/x.rs::name`, `storage::keeping::save`.
fn missing(page: &str) -> Vec<&str> {
    let is_missing = |word: &&str| {
        let word = *word;
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
        // Of a path in code its rooms and files; what they hold is the compiler's.
        let is_room = |part: &&str| part.starts_with(|c: char| c.is_lowercase());
        let rooms: Vec<&str> = file.split("::").take_while(is_room).collect();
        let whole = rooms.join("/");
        let above = rooms[..rooms.len() - 1].join("/");
        let src = root().join("src");
        let stands_above = rooms.len() > 2 && stands(&src, &above);
        let is_verb = rooms.len() == 2 && defines(&src.join(rooms[0]), rooms[1]);
        !(stands(&src, &whole) || stands_above || is_verb)
    };
    quoted(page).into_iter().filter(is_missing).collect()
}

/// Whether a file right below the layer's folder has a function of that name.
fn defines(layer: &Path, name: &str) -> bool {
    let files = crate::sources::sources(layer);
    let text = files.iter().map(|file| fs::read_to_string(file).unwrap());
    text.into_iter()
        .any(|text| text.contains(&format!("pub fn {name}")))
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
    let gone = "`src/domain/piece.rs` `domain/plan.rs` `tests/nowhere` `storage::savings::save` `shell::loop`";
    assert_eq!(missing(gone).len(), 5);
    assert_eq!(missing("```\n`domain/plan.rs`\n```"), Vec::<&str>::new());
}
