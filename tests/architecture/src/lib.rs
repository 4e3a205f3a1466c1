//! Which file of a crate takes what from which other: its `use` items and paths, read by a parser.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use syn::visit::{self, Visit};
use syn::{Attribute, Item, ItemMod, ItemUse, UseTree, Visibility};

/// Every Rust file below a folder.
///
/// # Panics
/// When it cannot be read.
pub fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path()) {
        if entry.is_dir() {
            found.extend(files(&entry));
        } else if entry.extension().is_some_and(|ending| ending == "rs") {
            found.push(entry);
        }
    }
    found
}

/// A module of the crate: its name from the root on, joined by `::`; the root is empty.
type Module = String;

/// One file as far as imports go.
#[derive(Default)]
struct Source {
    /// Names that it hands on from elsewhere, with the whole path there.
    handed_on: BTreeMap<String, Vec<String>>,
    /// Modules of which it hands on everything.
    all_of: Vec<Vec<String>>,
    /// The names that are defined in it.
    defined: BTreeSet<String>,
    /// The paths that it takes, from the root of the crate on.
    taken: BTreeSet<Vec<String>>,
}

/// The files of a crate and what they take from each other.
pub struct Imports {
    arrows: BTreeMap<Module, BTreeMap<Module, BTreeSet<String>>>,
    count: usize,
}

impl Imports {
    /// Of a crate's source folder.
    ///
    /// # Panics
    /// When a file in it cannot be read or parsed.
    pub fn of(source: &Path) -> Self {
        let mut sources: BTreeMap<Module, Source> = BTreeMap::new();
        for file in files(source) {
            let inside = file.strip_prefix(source).expect("inside").with_extension("");
            let mut module: Vec<String> = inside.iter().map(|part| part.to_string_lossy().into_owned()).collect();
            if module.last().is_some_and(|last| ["mod", "lib", "main"].contains(&last.as_str())) {
                module.pop();
            }
            // Tests may look at whatever they test.
            if module.iter().any(|part| part == "tests") {
                continue;
            }
            let text = std::fs::read_to_string(&file).expect("a file");
            let parsed = syn::parse_file(&text).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
            let mut reader = Reader { inside: module.clone(), source: Source::default(), names: BTreeMap::new() };
            reader.visit_file(&parsed);
            sources.insert(module.join("::"), reader.source);
        }
        let count = sources.len();
        let mut arrows: BTreeMap<Module, BTreeMap<Module, BTreeSet<String>>> = BTreeMap::new();
        for (module, file) in &sources {
            for path in &file.taken {
                if let Some((to, name)) = resolved(&sources, path, 0)
                    && to != *module
                {
                    arrows.entry(module.clone()).or_default().entry(to).or_default().insert(name);
                }
            }
        }
        Self { arrows, count }
    }

    /// How many files were read.
    pub fn files(&self) -> usize {
        self.count
    }

    /// What a file takes from others.
    pub fn from(&self, file: &str) -> impl Iterator<Item = (&String, Vec<&str>)> {
        let to = self.arrows.get(file).into_iter().flatten();
        to.map(|(to, names)| (to, names.iter().map(String::as_str).collect()))
    }

    /// Groups of files of which each needs every other one.
    pub fn circles(&self) -> Vec<BTreeSet<String>> {
        let reached: BTreeMap<&str, BTreeSet<&str>> =
            self.arrows.keys().map(|from| (from.as_str(), self.reached(from))).collect();
        let mut circles: Vec<BTreeSet<String>> = Vec::new();
        for (from, reached_from) in &reached {
            let back = |to: &&&str| reached.get(**to).is_some_and(|reached| reached.contains(from));
            let circle: BTreeSet<String> = reached_from.iter().filter(back).map(|to| (*to).to_owned()).collect();
            if !circle.is_empty() && !circles.contains(&circle) {
                circles.push(circle);
            }
        }
        circles
    }

    fn reached(&self, from: &str) -> BTreeSet<&str> {
        let (mut reached, mut open) = (BTreeSet::new(), vec![from]);
        while let Some(file) = open.pop() {
            for to in self.arrows.get(file).into_iter().flat_map(BTreeMap::keys) {
                if reached.insert(to.as_str()) {
                    open.push(to);
                }
            }
        }
        reached
    }
}

/// The file in which the thing that a path names is defined, and its name there.
fn resolved(sources: &BTreeMap<Module, Source>, path: &[String], depth: usize) -> Option<(Module, String)> {
    if depth > 8 {
        return None;
    }
    let deepest = (0..=path.len()).rev().find(|&length| sources.contains_key(&path[..length].join("::")))?;
    let module = path[..deepest].join("::");
    let source = &sources[&module];
    // A module as such is taken as far as something of it is named.
    let name = path.get(deepest)?;
    if source.defined.contains(name) {
        return Some((module, name.clone()));
    }
    if let Some(from) = source.handed_on.get(name) {
        let rest = [&from[..], &path[deepest + 1..]].concat();
        return resolved(sources, &rest, depth + 1);
    }
    source.all_of.iter().find_map(|from| {
        let whole = [&from[..], &path[deepest..]].concat();
        resolved(sources, &whole, depth + 1).filter(|(to, name)| sources[to].defined.contains(name))
    })
}

/// Reads one file.
struct Reader {
    inside: Vec<String>,
    source: Source,
    /// What its `use` items bring in, by the name here.
    names: BTreeMap<String, Vec<String>>,
}

impl Reader {
    /// A path as it is written, from the root of the crate on; none where it leads out of the crate.
    fn whole(&self, path: &[String]) -> Option<Vec<String>> {
        let mut base = self.inside.clone();
        let mut rest = path;
        match path.first()?.as_str() {
            "crate" => (base, rest) = (Vec::new(), &path[1..]),
            "self" => rest = &path[1..],
            "super" => {
                while rest.first().is_some_and(|first| first == "super") {
                    base.pop()?;
                    rest = &rest[1..];
                }
            }
            first => {
                if let Some(from) = self.names.get(first) {
                    (base, rest) = (from.clone(), &path[1..]);
                }
            }
        }
        Some([&base[..], rest].concat())
    }

    fn use_tree(&mut self, tree: &UseTree, before: &[String], public: bool) {
        match tree {
            UseTree::Path(path) => self.use_tree(&path.tree, &[before, &[path.ident.to_string()]].concat(), public),
            UseTree::Group(group) => group.items.iter().for_each(|tree| self.use_tree(tree, before, public)),
            UseTree::Name(name) if name.ident == "self" => self.used(before, before.last().cloned(), public),
            UseTree::Name(name) => {
                self.used(&[before, &[name.ident.to_string()]].concat(), Some(name.ident.to_string()), public);
            }
            UseTree::Rename(rename) => {
                self.used(&[before, &[rename.ident.to_string()]].concat(), Some(rename.rename.to_string()), public);
            }
            UseTree::Glob(_) if public => {
                let from = self.whole(before);
                self.source.all_of.extend(from);
            }
            UseTree::Glob(_) => self.used(before, None, false),
        }
    }

    fn used(&mut self, path: &[String], as_name: Option<String>, public: bool) {
        let Some(from) = self.whole(path) else { return };
        let Some(name) = as_name else { return };
        if public {
            self.source.handed_on.insert(name.clone(), from.clone());
        } else {
            self.source.taken.insert(from.clone());
        }
        self.names.insert(name, from);
    }
}

fn is_for_tests(attributes: &[Attribute]) -> bool {
    let is_test = |attribute: &Attribute| {
        attribute.path().is_ident("cfg") && attribute.parse_args::<syn::Ident>().is_ok_and(|name| name == "test")
    };
    attributes.iter().any(is_test)
}

impl<'ast> Visit<'ast> for Reader {
    fn visit_file(&mut self, file: &'ast syn::File) {
        for item in &file.items {
            let name = match item {
                Item::Const(item) => &item.ident,
                Item::Enum(item) => &item.ident,
                Item::Fn(item) => &item.sig.ident,
                Item::Static(item) => &item.ident,
                Item::Struct(item) => &item.ident,
                Item::Trait(item) => &item.ident,
                Item::Type(item) => &item.ident,
                // A list of names is an enum that a macro writes.
                Item::Macro(item) => {
                    self.declared_by_macro(&item.mac.tokens.to_string());
                    continue;
                }
                _ => continue,
            };
            self.source.defined.insert(name.to_string());
        }
        // What is brought in first, so that paths that begin with it are known.
        for item in &file.items {
            if let Item::Use(item) = item
                && !is_for_tests(&item.attrs)
            {
                self.use_tree(&item.tree, &[], !matches!(item.vis, Visibility::Inherited));
            }
        }
        visit::visit_file(self, file);
    }

    fn visit_item(&mut self, item: &'ast Item) {
        let attributes = match item {
            Item::Fn(item) => &item.attrs,
            Item::Impl(item) => &item.attrs,
            Item::Mod(item) => &item.attrs,
            _ => return visit::visit_item(self, item),
        };
        if !is_for_tests(attributes) {
            visit::visit_item(self, item);
        }
    }

    fn visit_item_mod(&mut self, item: &'ast ItemMod) {
        if let Some((_, items)) = &item.content {
            self.inside.push(item.ident.to_string());
            for item in items {
                self.visit_item(item);
            }
            self.inside.pop();
        }
    }

    fn visit_item_use(&mut self, item: &'ast ItemUse) {
        if matches!(item.vis, Visibility::Inherited) && !is_for_tests(&item.attrs) {
            self.use_tree(&item.tree, &[], false);
        }
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let segments: Vec<String> = path.segments.iter().map(|segment| segment.ident.to_string()).collect();
        if segments.len() > 1 {
            let from = self.whole(&segments);
            self.source.taken.extend(from);
        }
        visit::visit_path(self, path);
    }

    /// Macros hide paths from the parser; those in plain words are read all the same.
    fn visit_macro(&mut self, item: &'ast syn::Macro) {
        // Words of their own stay apart: an attribute behind a component's name is no part of it.
        let text = item.tokens.to_string().replace(" :: ", "::");
        for word in text.split(|c: char| !(c.is_alphanumeric() || c == '_' || c == ':')) {
            let segments: Vec<String> = word.split("::").map(str::to_owned).collect();
            if segments.len() > 1 && segments.iter().all(|segment| !segment.is_empty()) {
                let from = self.whole(&segments);
                self.source.taken.extend(from);
            }
        }
    }
}

impl Reader {
    fn declared_by_macro(&mut self, tokens: &str) {
        let words: Vec<&str> = tokens.split_whitespace().collect();
        for pair in words.windows(2).filter(|pair| ["enum", "struct"].contains(&pair[0])) {
            self.source.defined.insert(pair[1].to_owned());
        }
    }
}
