//! What a formula's documentation says, and what never stands in a file.

use super::files;

/// Public functions whose documentation lacks a part.
fn undocumented(path: &str, text: &str) -> Vec<String> {
    let lines: Vec<&str> = text.lines().collect();
    let mut wrong = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        let line = line.trim_start();
        if !["pub fn ", "pub const fn "]
            .iter()
            .any(|start| line.starts_with(start))
        {
            continue;
        }
        let above = lines[..at].iter().rev().map(|line| line.trim_start());
        let about: Vec<&str> = above
            .take_while(|line| line.starts_with("///") || line.starts_with("#["))
            .collect();
        let starts = |what: &str| about.iter().any(|line| line.starts_with(what));
        let example = about.iter().any(|line| line.trim_end() == "/// ```")
            && starts("/// # use dewmargin::");
        for (there, part) in [
            (starts("/// Source: "), "Source:"),
            (starts("/// Valid: "), "Valid:"),
            (example, "an example"),
        ] {
            if !there {
                wrong.push(format!("{path}:{}: no {part}", at + 1));
            }
        }
    }
    wrong
}

#[test]
fn every_formula_names_its_source_its_range_and_an_example() {
    let files = files("src/physics", "rs");
    let functions: usize = files
        .iter()
        .map(|(_, text)| text.matches("\npub fn ").count())
        .sum();
    assert!(functions > 10, "{functions} formulas");
    let wrong: Vec<String> = files
        .iter()
        .flat_map(|(path, text)| undocumented(path, text))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_documentation_test_can_fail() {
    let bare = "/// Heat.\n#[must_use]\npub fn heat() {}\n";
    assert_eq!(undocumented("x.rs", bare).len(), 3);
    let good = "/// Source: ISO 6946.\n/// Valid: d > 0.\n/// ```\n/// # use dewmargin::physics;\n\
                /// ```\npub fn heat() {}\n";
    assert_eq!(undocumented("x.rs", good), Vec::<String>::new());
}

/// What never stands in a file, written in halves so that this file passes too.
fn forbidden_words(path: &str, text: &str) -> Vec<String> {
    let unfinished = [
        ["TO", "DO"],
        ["FIX", "ME"],
        ["dbg", "!("],
        ["todo", "!("],
        ["unimplemented", "!("],
        ["#[ig", "nore"],
    ];
    let british = [
        ["vap", "our"],
        ["col", "our"],
        ["mou", "ld"],
        ["gr", "ey"],
        ["met", "re"],
    ];
    // The standard library's are not the same to the last bit on every machine; `libm` is.
    let inexact = [
        [".ex", "p()"],
        [".l", "n()"],
        [".pow", "f("],
        [".log", "10("],
        [".log", "2("],
        [".exp", "2("],
        [".si", "n()"],
        [".co", "s()"],
        [".tan", "h()"],
        ["f64::ex", "p"],
        ["f64::l", "n"],
        ["f64::pow", "f"],
    ];
    let mut wrong = Vec::new();
    for (at, line) in text.lines().enumerate() {
        let lower = line.to_lowercase();
        let mut words: Vec<String> = unfinished.iter().map(|word| word.concat()).collect();
        words.retain(|word| line.contains(word.as_str()));
        words.extend(
            british
                .iter()
                .map(|word| word.concat())
                .filter(|word| lower.contains(word.as_str())),
        );
        if path.starts_with("src/") {
            let functions = inexact.iter().map(|word| word.concat());
            words.extend(functions.filter(|word| line.contains(word.as_str())));
        }
        for word in words {
            wrong.push(format!("{path}:{}: `{word}`", at + 1));
        }
    }
    wrong
}

#[test]
fn no_loose_ends_no_foreign_spelling_no_inexact_functions() {
    let mut wrong = Vec::new();
    for (folder, ending) in [
        ("src", "rs"),
        ("tests", "rs"),
        ("benches", "rs"),
        ("materials", "yaml"),
        ("examples", "yaml"),
        ("tests", "yaml"),
    ] {
        for (path, text) in files(folder, ending) {
            wrong.extend(forbidden_words(&path, &text));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_word_test_can_fail() {
    let text = [
        "// TO",
        "DO: col",
        "our\nlet e = x.ex",
        "p();\n#[ig",
        "nore]",
    ]
    .concat();
    assert_eq!(forbidden_words("src/x.rs", &text).len(), 4);
    assert_eq!(
        forbidden_words("src/x.rs", "let e = libm::exp(x);").len(),
        0
    );
}
