//! Who may import whom.

use super::files;
use crate::support::repository;

/// The heading of the table in DEVELOPERS.md that says who may import whom.
const HEADING: &str = "## Who may import whom";

/// Which module may use which others of ours, as DEVELOPERS.md has it; `main` and `lib` stand
/// outside the table.
fn may_use() -> Vec<(String, Vec<String>)> {
    let path = repository().join("DEVELOPERS.md");
    let text = std::fs::read_to_string(path).expect("DEVELOPERS.md");
    let table = text.split(HEADING).nth(1).expect("the table");
    let rows = table.lines().filter(|line| line.starts_with("| "));
    // Below the heading and the rule.
    let rows = rows.skip(1).filter(|line| !line.contains("---"));
    let rows: Vec<(String, Vec<String>)> = rows
        .map(|row| {
            let cells: Vec<&str> = row.split('|').map(str::trim).collect();
            let names = cells[2].split(',').map(|name| name.trim().to_owned());
            let names = names.filter(|name| name != "std");
            (cells[1].to_owned(), names.collect())
        })
        .collect();
    assert!(rows.len() >= 13, "the table was read: {rows:?}");
    rows
}

/// The source without comments, doc comments and what stands in unit tests.
fn code(text: &str) -> String {
    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
    let lines = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    lines.collect::<Vec<_>>().join("\n")
}

/// The names behind each `crate::`, those in braces too.
fn imports(code: &str) -> Vec<String> {
    let mut names = Vec::new();
    for part in code.split("crate::").skip(1) {
        let list = match part.strip_prefix('{') {
            Some(rest) => top_level(rest),
            None => vec![part],
        };
        let word = |text: &str| {
            let text = text.trim_start();
            let end = text.find(|c: char| !c.is_alphanumeric() && c != '_');
            text[..end.unwrap_or(text.len())].to_owned()
        };
        names.extend(list.into_iter().map(word).filter(|name| !name.is_empty()));
    }
    names
}

/// The items of a brace list, split at the commas outside inner braces.
fn top_level(text: &str) -> Vec<&str> {
    let (mut depth, mut start, mut items) = (0, 0, Vec::new());
    for (at, c) in text.char_indices() {
        match c {
            '{' => depth += 1,
            '}' if depth == 0 => {
                items.push(&text[start..at]);
                return items;
            }
            '}' => depth -= 1,
            ',' if depth == 0 => {
                items.push(&text[start..at]);
                start = at + 1;
            }
            _ => {}
        }
    }
    items
}

/// What in a file breaks the import table.
fn forbidden_imports(path: &str, text: &str) -> Vec<String> {
    let Some(module) = path.strip_prefix("src/") else {
        return Vec::new();
    };
    // Unit tests may start from a file's text.
    if path.ends_with("/tests.rs") || path.contains("/tests/") {
        return Vec::new();
    }
    let module = module.split(['/', '.']).next().unwrap_or_default();
    if ["main", "lib"].contains(&module) {
        return Vec::new();
    }
    let table = may_use();
    let Some((_, allowed)) = table.iter().find(|(name, _)| *name == module) else {
        return vec![format!("{path}: `{module}` isn't in the import table")];
    };
    let code = code(text);
    // `super` can climb out of a module as `crate` can.
    let depth = path.matches('/').count() - usize::from(path.ends_with("/mod.rs"));
    let mut wrong = Vec::new();
    if code.contains(&"super::".repeat(depth)) {
        wrong.push(format!(
            "{path}: `super` climbs out of `{module}`: write `crate::`"
        ));
    }
    for name in imports(&code) {
        let a_module = table.iter().any(|(known, _)| *known == name);
        if name != module && !(a_module && allowed.contains(&name)) {
            wrong.push(format!("{path}: `{module}` may not use `{name}`"));
        }
    }
    wrong
}

#[test]
fn nobody_imports_a_later_stage() {
    let wrong: Vec<String> = files("src", "rs")
        .iter()
        .flat_map(|(path, text)| forbidden_imports(path, text))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The names of public functions in a folder that begin with one of these words.
fn public_functions(folder: &str, words: &[&str]) -> Vec<String> {
    let mut names = Vec::new();
    for (_, text) in files(folder, "rs") {
        for rest in code(&text).split("pub fn ").skip(1) {
            let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_');
            let name = &rest[..end.unwrap_or(rest.len())];
            if words.iter().any(|word| name.starts_with(word)) {
                names.push(name.to_owned());
            }
        }
    }
    names
}

/// What of `called` a source calls.
fn calls(text: &str, called: &[String]) -> Vec<String> {
    let code = code(text);
    let is_called = |name: &&String| {
        let call = format!("{name}(");
        let mut calls = code.match_indices(&call);
        let whole = |at: usize| {
            let before = code[..at].chars().next_back();
            !before.is_some_and(|c| c.is_alphanumeric() || c == '_')
        };
        calls.any(|(at, _)| whole(at))
    };
    called.iter().filter(is_called).cloned().collect()
}

/// `report` computes nothing: it neither solves nor judges. The study does, once.
#[test]
fn report_neither_solves_nor_judges() {
    let words = ["solve", "judge", "hand_checks", "dry_out"];
    let mut called = public_functions("src/solve", &words);
    called.extend(public_functions("src/check", &words));
    assert!(called.len() > 10, "{called:?}");
    let mut wrong = Vec::new();
    for (path, text) in files("src/report", "rs") {
        if path.contains("/tests") {
            continue;
        }
        let ours: Vec<String> = functions_of(&text);
        let found = calls(&text, &called);
        let found = found.into_iter().filter(|name| !ours.contains(name));
        wrong.extend(found.map(|name| format!("{path} calls {name}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(calls("let a = solve_to(x);", &called), ["solve_to"]);
}

/// Functions a source defines itself: a name of its own is not a call of another's.
fn functions_of(text: &str) -> Vec<String> {
    let code = code(text);
    let names = code.split("fn ").skip(1).map(|rest| {
        let end = rest.find(|c: char| !c.is_alphanumeric() && c != '_');
        rest[..end.unwrap_or(rest.len())].to_owned()
    });
    names.collect()
}

#[test]
fn the_import_test_can_fail() {
    let found = |path, text| forbidden_imports(path, text).len();
    assert_eq!(found("src/solve/path.rs", "use crate::report::Judged;"), 1);
    assert_eq!(
        found("src/solve/path.rs", "let x = crate::check::judge();"),
        1
    );
    assert_eq!(
        found(
            "src/physics/heat.rs",
            "use crate::{quantity::{A, B}, model};"
        ),
        1
    );
    assert_eq!(
        found(
            "src/check/year.rs",
            "use super::super::input::read_project;"
        ),
        1
    );
    assert_eq!(
        found("src/report/figure/svg.rs", "use crate::physics::heat;"),
        1
    );
    assert_eq!(found("src/novelty.rs", ""), 1);
    assert_eq!(
        found(
            "src/error.rs",
            "// use crate::cli;\nuse crate::quantity::Length;"
        ),
        0
    );
    assert_eq!(
        found(
            "src/solve/path.rs",
            "use super::profile::Slab;\nuse crate::solve::solve;"
        ),
        0
    );
    assert_eq!(
        found(
            "src/solve/path.rs",
            "#[cfg(test)]\nmod tests { use crate::input; }"
        ),
        0
    );
}
