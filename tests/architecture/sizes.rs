//! How long files and functions are, how much is imported, what is explained.

use crate::source::read;
use crate::sources::sources;
use std::fs;
use std::path::Path;

/// The functions whose body has more than 60 lines of code and that do not say
/// why in the line before, each by its first line.
fn long_functions(text: &str) -> Vec<&str> {
    let lines: Vec<&str> = text.lines().collect();
    let indent = |line: &str| line.len() - line.trim_start().len();
    let is_function = |line: &str| {
        let words: Vec<&str> = line.split_whitespace().take(4).collect();
        let at = words.iter().position(|word| *word == "fn");
        at.is_some_and(|at| {
            words[..at]
                .iter()
                .all(|word| *word == "const" || word.starts_with("pub"))
        })
    };
    let mut long = Vec::new();
    for (at, line) in lines
        .iter()
        .enumerate()
        .filter(|(_, line)| is_function(line))
    {
        let ends = |other: &&str| indent(other) == indent(line) && other.trim() == "}";
        let Some(length) = lines[at..].iter().position(ends) else {
            continue;
        };
        let opens = lines[at..].iter().position(|line| line.ends_with('{'));
        let body = at + opens.unwrap_or(0) + 1;
        let code = lines[body.min(at + length)..at + length]
            .iter()
            .filter(|line| !line.trim().is_empty() && !line.trim_start().starts_with("//"))
            .count();
        let says = at > 0 && lines[at - 1].trim_start().starts_with("// Over 60 lines: ");
        if code > 60 && !says {
            long.push(*line);
        }
    }
    long
}

#[test]
fn a_function_over_60_lines_says_why() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for file in [sources(&root.join("src")), sources(&root.join("tests"))].concat() {
        let text = fs::read_to_string(&file).unwrap();
        assert_eq!(
            long_functions(&text),
            Vec::<&str>::new(),
            "{}",
            file.display()
        );
    }
    let body = "    let x = 1;\n".repeat(61);
    assert_eq!(
        long_functions(&format!("fn f() {{\n{body}}}\n")),
        ["fn f() {"]
    );
    let said = format!("// Over 60 lines: a list.\npub fn f() {{\n{body}}}\n");
    assert_eq!(long_functions(&said), Vec::<&str>::new());
}

#[test]
fn a_file_over_400_lines_says_why() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for file in [sources(&root.join("src")), sources(&root.join("tests"))].concat() {
        let text = fs::read_to_string(&file).unwrap();
        let is_long = text.lines().count() > 400;
        let says = text
            .lines()
            .any(|line| line.starts_with("//! Over 400 lines: "));
        assert_eq!(is_long, says, "{}", file.display());
    }
}

/// Lines of code of a source file: no blanks, comments, or tests at its end.
fn code_lines(text: &str) -> usize {
    let code = text.split("#[cfg(test)]\nmod ").next().unwrap();
    let lines = code.lines().map(str::trim);
    lines
        .filter(|line| !line.is_empty() && !line.starts_with("//"))
        .count()
}

#[test]
fn at_most_40_use_statements_stand_in_1000_lines_of_code() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let uses: usize = read(&src).values().map(|source| source.uses).sum();
    let files = sources(&src)
        .into_iter()
        .filter(|file| !file.ends_with("tests.rs"));
    let code: usize = files
        .map(|file| code_lines(&fs::read_to_string(file).unwrap()))
        .sum();
    assert!(
        uses * 1000 <= code * 40,
        "{uses} use statements in {code} lines of code"
    );
}

/// What is public in `text` and does not say what it is.
fn unexplained(text: &str) -> Vec<String> {
    use syn::{ImplItem, Item, Visibility};
    let says = |attributes: &[syn::Attribute]| {
        attributes
            .iter()
            .any(|attribute| attribute.path().is_ident("doc"))
    };
    let is_public = |visibility: &Visibility| matches!(visibility, Visibility::Public(_));
    let parsed = syn::parse_file(text).unwrap();
    let mut found = Vec::new();
    if !says(&parsed.attrs) {
        found.push("the file".to_owned());
    }
    for item in &parsed.items {
        let (attributes, visibility, name) = match item {
            Item::Const(item) => (&item.attrs, &item.vis, &item.ident),
            Item::Enum(item) => (&item.attrs, &item.vis, &item.ident),
            Item::Fn(item) => (&item.attrs, &item.vis, &item.sig.ident),
            Item::Struct(item) => (&item.attrs, &item.vis, &item.ident),
            Item::Trait(item) => (&item.attrs, &item.vis, &item.ident),
            Item::Type(item) => (&item.attrs, &item.vis, &item.ident),
            Item::Impl(item) if item.trait_.is_none() => {
                for member in &item.items {
                    if let ImplItem::Fn(member) = member
                        && is_public(&member.vis)
                        && !says(&member.attrs)
                    {
                        found.push(member.sig.ident.to_string());
                    }
                }
                continue;
            }
            _ => continue,
        };
        if is_public(visibility) && !says(attributes) {
            found.push(name.to_string());
        }
    }
    found
}

/// Fields and variants explain themselves by their names; the lint that asks
/// for docs would ask for theirs too.
#[test]
fn every_file_and_public_noun_and_verb_says_what_it_is() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for file in sources(&src) {
        if file.ends_with("main.rs") || file.ends_with("tests.rs") {
            continue;
        }
        let text = fs::read_to_string(&file).unwrap();
        assert_eq!(
            unexplained(&text),
            Vec::<String>::new(),
            "{}",
            file.display()
        );
    }
    let planted = "//! A file.\npub struct A; impl A { pub fn b() {} }\n/// Said.\npub fn c() {}";
    assert_eq!(unexplained(planted), ["A", "b"]);
}
