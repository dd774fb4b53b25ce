//! Which folder of a crate leans on which other, and where they lean on each other.
//!
//! A folder (or a file beside the crate's root) leans on those that it names in a `use`
//! or a path. What the root itself declares counts for nobody: it knows all of them.
//! What stands in the call of a macro is not read, nor are tests.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use syn::visit::{self, Visit};
use syn::{Attribute, ItemMod, ItemUse, UseTree, Visibility};

/// Folders of a crate, each with those that it leans on.
pub type Leanings = BTreeMap<String, BTreeSet<String>>;

/// The place of a module: the names on the way from the crate's root.
type Place = Vec<String>;

/// Reads what the folders of a crate lean on, out of its sources (path below `src`, and
/// text).
///
/// # Errors
/// When a source is no Rust.
pub fn leanings(sources: &BTreeMap<String, String>) -> syn::Result<Leanings> {
    let mut modules = BTreeMap::new();
    for (path, text) in sources {
        let mut read = Read::default();
        read.visit_file(&syn::parse_file(text)?);
        modules.insert(place(path), read);
    }
    let mut found = Leanings::new();
    for (from, read) in &modules {
        let Some(folder) = from.first() else { continue };
        for path in &read.paths {
            if let Some(to) = home(&modules, from, path, 0)
                && to != *folder
            {
                found.entry(folder.clone()).or_default().insert(to);
            }
        }
    }
    Ok(found)
}

/// A circle of folders, from one back to the same; none where there is none.
pub fn circle(leanings: &Leanings) -> Option<Vec<String>> {
    let mut without = BTreeSet::new();
    leanings
        .keys()
        .find_map(|folder| walk(leanings, folder, &mut Vec::new(), &mut without))
}

fn walk(
    leanings: &Leanings,
    folder: &str,
    way: &mut Vec<String>,
    without: &mut BTreeSet<String>,
) -> Option<Vec<String>> {
    if let Some(begin) = way.iter().position(|passed| passed == folder) {
        let mut circle = way.split_off(begin);
        circle.push(folder.to_owned());
        return Some(circle);
    }
    if without.contains(folder) {
        return None;
    }
    way.push(folder.to_owned());
    for next in leanings.get(folder).into_iter().flatten() {
        if let Some(circle) = walk(leanings, next, way, without) {
            return Some(circle);
        }
    }
    way.pop();
    without.insert(folder.to_owned());
    None
}

fn place(path: &str) -> Place {
    let mut place: Place = Path::new(path)
        .with_extension("")
        .iter()
        .map(|part| part.to_string_lossy().into_owned())
        .collect();
    if place
        .last()
        .is_some_and(|last| ["mod", "lib", "main"].contains(&last.as_str()))
    {
        place.pop();
    }
    place
}

/// The folder in which a path ends, as written in a module.
fn home(
    modules: &BTreeMap<Place, Read>,
    from: &Place,
    path: &[String],
    followed: usize,
) -> Option<String> {
    /// Longer ways through re-exports are circles themselves.
    const MOST_FOLLOWED: usize = 8;
    let mut at = from.clone();
    let mut rest = path;
    match rest.first().map(String::as_str) {
        Some("crate") => {
            at.clear();
            rest = &rest[1..];
        }
        Some("self") => rest = &rest[1..],
        Some("super") => {
            while rest.first().is_some_and(|part| part == "super") {
                at.pop();
                rest = &rest[1..];
            }
        }
        // Another crate, unless it is a module of this one's.
        first => {
            at.push(first?.to_owned());
            if !modules.contains_key(&at) {
                return None;
            }
            rest = &rest[1..];
        }
    }
    while let Some(next) = rest.first() {
        at.push(next.clone());
        if !modules.contains_key(&at) {
            at.pop();
            break;
        }
        rest = &rest[1..];
    }
    if let (Some(name), Some(read)) = (rest.first(), modules.get(&at))
        && let Some(shown) = read.shown.get(name)
        && followed < MOST_FOLLOWED
        && let Some(home) = home(modules, &at, shown, followed + 1)
    {
        return Some(home);
    }
    at.into_iter().next()
}

/// Paths that a module names, and those that it shows under a name of its own.
#[derive(Default)]
struct Read {
    paths: Vec<Vec<String>>,
    shown: BTreeMap<String, Vec<String>>,
}

impl Read {
    fn take_use(&mut self, tree: &UseTree, mut way: Vec<String>, shown: bool) {
        match tree {
            UseTree::Path(path) => {
                way.push(path.ident.to_string());
                self.take_use(&path.tree, way, shown);
            }
            UseTree::Group(group) => {
                for tree in &group.items {
                    self.take_use(tree, way.clone(), shown);
                }
            }
            UseTree::Glob(_) => self.paths.push(way),
            UseTree::Name(name) => {
                way.push(name.ident.to_string());
                self.named(name.ident.to_string(), way, shown);
            }
            UseTree::Rename(renamed) => {
                way.push(renamed.ident.to_string());
                self.named(renamed.rename.to_string(), way, shown);
            }
        }
    }

    fn named(&mut self, name: String, way: Vec<String>, shown: bool) {
        if shown {
            self.shown.insert(name, way.clone());
        }
        self.paths.push(way);
    }
}

impl<'ast> Visit<'ast> for Read {
    fn visit_item_use(&mut self, item: &'ast ItemUse) {
        let shown = !matches!(item.vis, Visibility::Inherited);
        self.take_use(&item.tree, Vec::new(), shown);
    }

    fn visit_item_mod(&mut self, item: &'ast ItemMod) {
        if !item.attrs.iter().any(is_for_tests) {
            visit::visit_item_mod(self, item);
        }
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let names = || path.segments.iter().map(|part| part.ident.to_string());
        if names()
            .next()
            .is_some_and(|first| ["crate", "super"].contains(&first.as_str()))
        {
            self.paths.push(names().collect());
        }
        visit::visit_path(self, path);
    }
}

fn is_for_tests(attribute: &Attribute) -> bool {
    attribute.path().is_ident("cfg")
        && attribute
            .parse_args::<syn::Path>()
            .is_ok_and(|path| path.is_ident("test"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(sources: &[(&str, &str)]) -> Leanings {
        let sources = sources
            .iter()
            .map(|(path, text)| ((*path).to_owned(), (*text).to_owned()))
            .collect();
        leanings(&sources).expect("is Rust")
    }

    #[test]
    fn a_folder_leans_on_what_it_names_in_any_way() {
        let found = read(&[
            ("lib.rs", "mod a; mod b; mod c; pub use b::Shown as Known;"),
            ("a/mod.rs", "mod deep;"),
            (
                "a/deep.rs",
                "use crate::Known; use super::super::c::{Two, self};",
            ),
            (
                "b.rs",
                "pub struct Shown; use std::fmt; use rusqlite::params;",
            ),
            ("c.rs", "fn work() { crate::b::work(); }"),
        ]);
        let leans = |on: &[&str]| on.iter().map(|name| (*name).to_owned()).collect();
        assert_eq!(found["a"], leans(&["b", "c"]));
        assert_eq!(found["c"], leans(&["b"]));
        assert!(!found.contains_key("b"));
        assert_eq!(circle(&found), None);
    }

    #[test]
    fn a_circle_is_named_from_end_to_end_and_tests_close_none() {
        let round = read(&[
            ("lib.rs", "mod a; mod b; mod c;"),
            ("a.rs", "use crate::b::B;"),
            ("b.rs", "use crate::c::C;"),
            ("c/mod.rs", "mod own;"),
            ("c/own.rs", "use crate::a::A;"),
        ]);
        assert_eq!(circle(&round).expect("a circle"), ["a", "b", "c", "a"]);
        let tested = read(&[
            ("lib.rs", "mod a; mod b;"),
            ("a.rs", "use crate::b::B;"),
            ("b.rs", "#[cfg(test)] mod tests { use crate::a::A; }"),
        ]);
        assert_eq!(circle(&tested), None);
    }
}
