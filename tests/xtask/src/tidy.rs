//! Rules of the house that no compiler knows.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use anyhow::{Context as _, bail};
use xshell::{Shell, cmd};

use crate::{circles, test_files};

/// All that may lie at the top, beside dotfiles.
const TOP: [&str; 10] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "demo-data",
    "migrations",
    "src-tauri",
    "tests",
    "ui",
];

/// Lines at which a source file has more than one idea in it; checks are lists
/// of cases and may be longer.
const LONGEST: usize = 700;

/// The one long source file that nobody writes by hand.
const GENERATED: &str = "src-tauri/words/src/say.rs";

/// Names for files that say nothing about what is in them.
const EMPTY_NAMES: [&str; 4] = ["helpers", "misc", "util", "utils"];

/// What a migration may not do: an older app reads the same file.
const NOT_ADDITIVE: [&str; 5] = [
    "DROP TABLE",
    "DROP COLUMN",
    "RENAME TO",
    "RENAME COLUMN",
    "DELETE FROM",
];

/// Packages that only the shell may need.
const SHELL_ONLY: [&str; 4] = ["tauri ", "wry ", "gtk ", "webkit2gtk "];

/// Checks every file that Git knows or would take in.
pub fn check(shell: &Shell) -> anyhow::Result<()> {
    let mut faults = Vec::new();
    let listed = cmd!(
        shell,
        "git ls-files -z --cached --others --exclude-standard"
    )
    .quiet()
    .read()
    .context("the files are listed by git: run this in a clone")?;
    let names = || {
        listed
            .split('\0')
            .filter(|name| !name.is_empty() && shell.path_exists(name))
    };
    for name in names() {
        check_name(name, &mut faults);
        // Pictures and other bytes have no lines.
        if let Ok(text) = shell.read_file(name) {
            check_text(name, &text, &mut faults);
        }
    }
    check_test_files(shell, names(), &mut faults)?;
    check_circles(shell, names(), &mut faults)?;
    check_migration_numbers(&names().collect::<Vec<_>>(), &mut faults);
    check_members_without_window(shell, &mut faults)?;
    if faults.is_empty() {
        return Ok(());
    }
    bail!("the house is untidy:\n  {}", faults.join("\n  "));
}

/// No two folders of a crate lean on each other, by whatever way.
fn check_circles<'n>(
    shell: &Shell,
    names: impl Iterator<Item = &'n str>,
    faults: &mut Vec<String>,
) -> anyhow::Result<()> {
    let mut crates: BTreeMap<&str, BTreeMap<String, String>> = BTreeMap::new();
    for name in names.filter(|name| name.ends_with(".rs")) {
        let below = name.strip_prefix("src-tauri/").unwrap_or_default();
        let Some((member, file)) = below.split_once("/src/") else {
            continue;
        };
        let sources = crates.entry(member).or_default();
        sources.insert(file.to_owned(), shell.read_file(name)?);
    }
    for (member, sources) in crates {
        let leanings = circles::leanings(&sources).context(member.to_owned())?;
        for (folder, on) in &leanings {
            let on: Vec<&str> = on.iter().map(String::as_str).collect();
            println!("{member}: {folder} -> {}", on.join(", "));
        }
        if let Some(circle) = circles::circle(&leanings) {
            faults.push(format!(
                "src-tauri/{member}: these lean on each other: {}",
                circle.join(" -> ")
            ));
        }
    }
    Ok(())
}

fn check_test_files<'n>(
    shell: &Shell,
    names: impl Iterator<Item = &'n str>,
    faults: &mut Vec<String>,
) -> anyhow::Result<()> {
    let mut sources = BTreeMap::new();
    for name in names.filter(|name| name.starts_with("tests/") && name.ends_with(".rs")) {
        sources.insert(PathBuf::from(name), shell.read_file(name)?);
    }
    let manifest = shell.read_file("tests/Cargo.toml")?;
    for file in test_files::forgotten(&manifest, &sources) {
        faults.push(format!(
            "{}: no test reaches it; name it in tests/Cargo.toml or declare it with mod",
            file.display()
        ));
    }
    Ok(())
}

fn check_name(name: &str, faults: &mut Vec<String>) {
    let top = name.split('/').next().unwrap_or(name);
    if !top.starts_with('.') && !TOP.contains(&top) {
        faults.push(format!("{name}: '{top}' has no place at the top level"));
    }
    let stem = Path::new(name).file_stem().unwrap_or_default();
    let folder = Path::new(name).parent().and_then(Path::file_name);
    for part in [Some(stem), folder].into_iter().flatten() {
        if EMPTY_NAMES.iter().any(|empty| part == *empty) {
            faults.push(format!("{name}: name it after what is in it"));
        }
    }
}

fn check_text(name: &str, text: &str, faults: &mut Vec<String>) {
    let source = [".rs", ".ts", ".svelte", ".sql", ".css", ".py", ".mjs"]
        .iter()
        .any(|ending| name.ends_with(ending));
    let may_be_long = name == GENERATED || name.starts_with("tests/");
    if source && !may_be_long && text.lines().count() > LONGEST {
        faults.push(format!("{name}: over {LONGEST} lines; one idea a file"));
    }
    for (number, line) in text.lines().enumerate() {
        let mut fault = |what: &str| faults.push(format!("{name}:{}: {what}", number + 1));
        if names_a_machine(line) && name != "Cargo.lock" {
            fault("names a path or a host of one machine");
        }
        if source && unfinished(line) {
            fault("is not finished");
        }
        if name.ends_with(".rs") && says_nothing(line) {
            fault("a doc that says nothing: name the thing, with its unit or range");
        }
        // What people read, in their language, stands in folders of words.
        if name.ends_with(".rs") && !name.contains("/words/") && !line.is_ascii() {
            fault("is not ASCII");
        }
    }
    if name.starts_with("migrations/") && name.ends_with(".sql") {
        check_migration(name, text, faults);
    }
}

/// A home folder, or the address in a lock file of whoever wrote it.
fn names_a_machine(line: &str) -> bool {
    let home = ["root", "home", "work", "Users"].iter().any(|folder| {
        let path = format!("/{folder}/");
        line.match_indices(&path).any(|(at, _)| {
            let before = line[..at].chars().next_back();
            before.is_none_or(|letter| !letter.is_alphanumeric() && !".$}".contains(letter))
        })
    });
    let resolved = line.trim_start().strip_prefix(r#""resolved":"#);
    home || resolved.is_some_and(|address| address.trim_start().starts_with(r#""http"#))
}

/// Whether a doc repeats what stands under it anyway.
fn says_nothing(line: &str) -> bool {
    const EMPTY: [&str; 14] = [
        "By whom",
        "Its id",
        "Of what",
        "Of whom",
        "One",
        "The other",
        "To",
        "Told",
        "What",
        "When",
        "Where",
        "Which",
        "Whose",
        "Who",
    ];
    let doc = line.trim_start().strip_prefix("/// ");
    doc.and_then(|doc| doc.strip_suffix('.'))
        .is_some_and(|doc| EMPTY.contains(&doc))
}

fn unfinished(line: &str) -> bool {
    // In two pieces, or this file would be its own fault.
    [
        ("TO", "DO"),
        ("FIX", "ME"),
        ("todo", "!("),
        ("unimplemented", "!("),
    ]
    .iter()
    .any(|(start, end)| {
        line.match_indices(start)
            .any(|(at, _)| line[at + start.len()..].starts_with(end))
    })
}

fn check_migration(name: &str, text: &str, faults: &mut Vec<String>) {
    let sql: String = text
        .lines()
        .map(|line| line.split("--").next().unwrap_or_default())
        .flat_map(|line| [line, "\n"])
        .collect();
    for statement in sql.split(';').map(str::trim) {
        let words = statement.split_whitespace().collect::<Vec<_>>().join(" ");
        let words = words.to_uppercase();
        if let Some(taken) = NOT_ADDITIVE.iter().find(|taken| words.contains(**taken)) {
            faults.push(format!("{name}: {taken} is not additive"));
        }
        let sqlite = !name.contains("postgres");
        if sqlite && words.starts_with("CREATE TABLE") && !words.ends_with("STRICT") {
            let ends_strict = words.contains(") STRICT");
            if !ends_strict {
                faults.push(format!("{name}: a table is not STRICT"));
            }
        }
    }
}

/// Migrations of a folder are numbered 1, 2, 3... without a gap.
fn check_migration_numbers(names: &[&str], faults: &mut Vec<String>) {
    let mut migrations: Vec<&Path> = names
        .iter()
        .map(Path::new)
        .filter(|name| {
            name.starts_with("migrations") && name.extension().is_some_and(|end| end == "sql")
        })
        .collect();
    migrations.sort();
    for folder in migrations.chunk_by(|one, next| one.parent() == next.parent()) {
        for (place, name) in folder.iter().enumerate() {
            let stem = name.file_stem().unwrap_or_default().to_string_lossy();
            let number = stem
                .split(['_', '-'])
                .next()
                .and_then(|digits| digits.parse().ok());
            if number != Some(place + 1) {
                faults.push(format!(
                    "{}: number {} is expected here",
                    name.display(),
                    place + 1
                ));
            }
        }
    }
}

/// The program must build where there is no `WebKit`: nothing but the shell may
/// bring it in.
fn check_members_without_window(shell: &Shell, faults: &mut Vec<String>) -> anyhow::Result<()> {
    let needed = cmd!(
        shell,
        "cargo tree --locked --quiet --prefix none --edges normal,build,dev"
    )
    .quiet()
    .read()?;
    for package in SHELL_ONLY {
        if needed.lines().any(|line| line.starts_with(package)) {
            faults.push(format!(
                "Cargo.toml: a default member needs {package}, which only the shell may"
            ));
        }
    }
    Ok(())
}
