//! A tree of source files, parsed: what each file defines and which paths it
//! names.
//!
//! Paths in `use` lines, in code and inside macros count; comments, texts and
//! what is compiled for tests only do not.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use syn::visit::{self, Visit};

/// A path as segments.
pub(crate) type Segments = Vec<String>;

/// One parsed file.
pub(crate) struct Source {
    /// Its module, from the crate's root: `["domain", "log", "edge"]`.
    pub(crate) module: Segments,
    /// The files below it, in the order of its `mod` lines.
    pub(crate) children: Vec<String>,
    /// What it defines at its top.
    pub(crate) defines: BTreeSet<String>,
    /// What its `use` lines bring in: name, and path from the crate's root.
    pub(crate) brings: BTreeMap<String, Segments>,
    /// Every path that it names, from the crate's root.
    pub(crate) names: BTreeSet<Segments>,
    /// Its `use` statements.
    pub(crate) uses: usize,
}

/// The module of a file below `src`, such as `domain/log/mod.rs`.
pub(crate) fn module_of(file: &str) -> Segments {
    let mut module: Segments = file
        .trim_end_matches(".rs")
        .split('/')
        .map(str::to_owned)
        .collect();
    if module
        .last()
        .is_some_and(|last| last == "mod" || last == "lib")
    {
        module.pop();
    }
    module
}

impl Source {
    pub(crate) fn parsed(file: &str, text: &str) -> Self {
        let parsed = syn::parse_file(text).unwrap_or_else(|error| panic!("{file}: {error}"));
        let mut reader = Reader {
            source: Self {
                module: module_of(file),
                children: Vec::new(),
                defines: BTreeSet::new(),
                brings: BTreeMap::new(),
                names: BTreeSet::new(),
                uses: 0,
            },
            inside: Vec::new(),
        };
        for item in &parsed.items {
            reader.declared(item);
        }
        reader.visit_file(&parsed);
        reader.source
    }
}

/// Every file below `folder`, parsed, by its path there.
pub(crate) fn read(folder: &Path) -> BTreeMap<String, Source> {
    let files = crate::sources::sources(folder).into_iter();
    files
        .map(|path| {
            let text = std::fs::read_to_string(&path).unwrap();
            let file = path.strip_prefix(folder).unwrap().display().to_string();
            let source = Source::parsed(&file, &text);
            (file, source)
        })
        .collect()
}

struct Reader {
    source: Source,
    /// The modules written out inside the file that the reader is in.
    inside: Segments,
}

fn is_for_tests(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg")
            && attribute
                .parse_args::<syn::Ident>()
                .is_ok_and(|word| word == "test")
    })
}

impl Reader {
    fn declared(&mut self, item: &syn::Item) {
        use syn::Item;
        let name = match item {
            Item::Const(item) => &item.ident,
            Item::Enum(item) => &item.ident,
            Item::Fn(item) => &item.sig.ident,
            Item::Static(item) => &item.ident,
            Item::Struct(item) => &item.ident,
            Item::Trait(item) => &item.ident,
            Item::Type(item) => &item.ident,
            Item::Mod(item) if is_for_tests(&item.attrs) => return,
            Item::Mod(item) if item.content.is_none() => {
                self.source.children.push(item.ident.to_string());
                return;
            }
            Item::Mod(item) => &item.ident,
            _ => return,
        };
        self.source.defines.insert(name.to_string());
    }

    /// `path` from the crate's root, where it leads into the crate at all.
    fn rooted(&self, path: &[String]) -> Option<Segments> {
        let (first, rest) = path.split_first()?;
        let mut at = self.source.module.clone();
        at.extend(self.inside.iter().cloned());
        match first.as_str() {
            "crate" => return Some(rest.to_vec()),
            "self" => {}
            "super" => {
                at.pop();
                let supers = rest.iter().take_while(|word| *word == "super").count();
                at.truncate(at.len().saturating_sub(supers));
                at.extend(rest.iter().skip(supers).cloned());
                return Some(at);
            }
            child if self.inside.is_empty() && self.source.children.iter().any(|c| c == child) => {
                at.push(child.to_owned());
            }
            _ => return None,
        }
        at.extend(rest.iter().cloned());
        Some(at)
    }

    fn name(&mut self, path: &[String]) {
        if let Some(path) = self.rooted(path) {
            self.source.names.insert(path);
        }
    }

    fn bring(&mut self, before: &mut Segments, tree: &syn::UseTree) {
        match tree {
            syn::UseTree::Path(path) => {
                before.push(path.ident.to_string());
                self.bring(before, &path.tree);
                before.pop();
            }
            syn::UseTree::Name(name) => self.bring_as(before, &name.ident, &name.ident),
            syn::UseTree::Rename(name) => self.bring_as(before, &name.ident, &name.rename),
            syn::UseTree::Group(group) => {
                for tree in &group.items {
                    self.bring(before, tree);
                }
            }
            syn::UseTree::Glob(_) => self.name(&before.clone()),
        }
    }

    fn bring_as(&mut self, before: &[String], name: &syn::Ident, shown: &syn::Ident) {
        let mut path = before.to_vec();
        if name != "self" {
            path.push(name.to_string());
        }
        let Some(path) = self.rooted(&path) else {
            return;
        };
        if self.inside.is_empty() {
            let shown = match (shown == "self", path.last()) {
                (true, Some(last)) => last.clone(),
                _ => shown.to_string(),
            };
            self.source.brings.insert(shown, path.clone());
        }
        self.source.names.insert(path);
    }
}

impl<'ast> Visit<'ast> for Reader {
    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        if is_for_tests(&item.attrs) {
            return;
        }
        if item.content.is_some() {
            self.inside.push(item.ident.to_string());
        }
        visit::visit_item_mod(self, item);
        if item.content.is_some() {
            self.inside.pop();
        }
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        if !is_for_tests(&item.attrs) {
            self.source.uses += 1;
            self.bring(&mut Vec::new(), &item.tree);
        }
    }

    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        if !is_for_tests(&item.attrs) {
            visit::visit_item_fn(self, item);
        }
    }

    /// `pub(in crate::app)` says who may name it and names nothing.
    fn visit_visibility(&mut self, _: &'ast syn::Visibility) {}

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let segments: Segments = path
            .segments
            .iter()
            .map(|segment| segment.ident.to_string())
            .collect();
        if segments.len() > 1 {
            self.name(&segments);
        }
        visit::visit_path(self, path);
    }

    /// What stands in a macro is no path to the parser: it is read word by word.
    fn visit_macro(&mut self, item: &'ast syn::Macro) {
        let text = item.tokens.to_string();
        let words: Vec<&str> = text.split_whitespace().collect();
        for (at, word) in words.iter().enumerate() {
            let start = word.trim_start_matches(|c: char| !c.is_alphanumeric());
            if start != "crate" && start != "super" {
                continue;
            }
            let mut path = vec![start.to_owned()];
            for pair in words[at + 1..]
                .chunks_exact(2)
                .take_while(|pair| pair[0] == "::")
            {
                path.push(
                    pair[1]
                        .chars()
                        .take_while(|c| c.is_alphanumeric() || *c == '_')
                        .collect(),
                );
            }
            self.name(&path);
        }
        visit::visit_macro(self, item);
    }
}
