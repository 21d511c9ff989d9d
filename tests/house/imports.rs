//! Who may import whom.

use super::files;

/// Which module may use which others of ours; `main` and `lib` stand outside the table.
const MAY_USE: &[(&str, &[&str])] = &[
    ("quantity", &[]),
    ("error", &["quantity"]),
    ("document", &["quantity", "error"]),
    ("material", &["quantity", "error", "document"]),
    ("climate", &["quantity", "error", "document", "physics"]),
    (
        "model",
        &["quantity", "error", "material", "climate", "physics"],
    ),
    ("physics", &["quantity"]),
    ("solve", &["physics", "model", "quantity", "error"]),
    ("check", &["solve", "model", "physics", "quantity"]),
    (
        "report",
        &["check", "solve", "model", "quantity", "material"],
    ),
    (
        "input",
        &[
            "model", "material", "climate", "quantity", "error", "document", "physics",
        ],
    ),
    (
        "cli",
        &[
            "input", "report", "check", "model", "material", "quantity", "error",
        ],
    ),
];

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
    let Some((_, allowed)) = MAY_USE.iter().find(|(name, _)| *name == module) else {
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
        let a_module = MAY_USE.iter().any(|(known, _)| *known == name);
        if name != module && !(a_module && allowed.contains(&name.as_str())) {
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
