//! A list called `ALL` lists every variant of its enum: a new one is asked for.

use crate::sources::sources;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use syn::{ImplItem, Item};

/// The enums of `text` that have an `ALL` of their own, and which of their
/// variants it lacks. One written by a macro, from the same rows as the enum,
/// needs no check.
fn lacking(text: &str) -> Vec<(String, BTreeSet<String>)> {
    let parsed = syn::parse_file(text).unwrap();
    let mut found = Vec::new();
    for item in &parsed.items {
        let Item::Impl(block) = item else { continue };
        let syn::Type::Path(of) = &*block.self_ty else {
            continue;
        };
        let all = block.items.iter().find_map(|item| match item {
            ImplItem::Const(item) if item.ident == "ALL" => Some(&item.expr),
            _ => None,
        });
        let variants = parsed.items.iter().find_map(|item| match item {
            Item::Enum(item) if of.path.is_ident(&item.ident) => Some(&item.variants),
            _ => None,
        });
        let (Some(all), Some(variants)) = (all, variants) else {
            continue;
        };
        let mut listed = Listed(BTreeSet::new());
        syn::visit::Visit::visit_expr(&mut listed, all);
        let names = variants.iter().map(|variant| variant.ident.to_string());
        let lacking = names.filter(|name| !listed.0.contains(name)).collect();
        found.push((of.path.segments[0].ident.to_string(), lacking));
    }
    found
}

struct Listed(BTreeSet<String>);

impl<'ast> syn::visit::Visit<'ast> for Listed {
    fn visit_path(&mut self, path: &'ast syn::Path) {
        self.0.extend(
            path.segments
                .iter()
                .map(|segment| segment.ident.to_string()),
        );
    }
}

#[test]
fn every_list_of_all_lists_all() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut lists = 0;
    for file in sources(&src) {
        for (name, lacking) in lacking(&fs::read_to_string(&file).unwrap()) {
            assert_eq!(lacking, BTreeSet::new(), "{name} in {}", file.display());
            lists += 1;
        }
    }
    assert!(lists >= 4, "{lists} lists");
    let planted = "enum A { B, C } impl A { const ALL: [(Self, u8); 1] = [(Self::B, 1)]; }";
    assert_eq!(
        lacking(planted),
        [("A".to_owned(), BTreeSet::from(["C".to_owned()]))]
    );
}

/// Calls of a system that the standard library has not stand where they are read
/// in one go; all else is safe.
#[test]
fn only_the_calls_of_windows_are_unsafe() {
    let allowed = [
        "shell/outside/windows_console.rs",
        "storage/files/windows.rs",
    ];
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let is_unsafe = |path: &&PathBuf| {
        let text = fs::read_to_string(path).unwrap();
        text.contains("unsafe_code") || text.contains("unsafe {")
    };
    let found = sources(&src).into_iter();
    let found: Vec<PathBuf> = found.filter(|path| is_unsafe(&path)).collect();
    let allowed = allowed.map(|file| src.join(file));
    assert_eq!(found, allowed);
}
