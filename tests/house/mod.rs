//! The rules of the house, held against the source.

mod imports;
mod words;

use std::fs;
use std::path::{Path, PathBuf};

use dewmargin::document::{Node, Value};
use serde_json::Value as Json;

use crate::support::{repository, run, stdout};

const MOST_LINES: usize = 400;

/// Every file with that ending below a folder, with its path from the repository's root.
fn files(folder: &str, ending: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut open: Vec<PathBuf> = vec![repository().join(folder)];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|end| end == ending) {
                let text = fs::read_to_string(&path).expect("UTF-8");
                let name = path.strip_prefix(repository()).unwrap_or(Path::new(""));
                found.push((name.display().to_string().replace('\\', "/"), text));
            }
        }
    }
    found.sort();
    assert!(
        !found.is_empty(),
        "no {ending} in {}",
        repository().display()
    );
    found
}

#[test]
fn files_fit_a_reader() {
    let long: Vec<String> = files("src", "rs")
        .into_iter()
        .chain(files("tests", "rs"))
        .map(|(path, text)| (path, text.lines().count()))
        .filter(|(_, lines)| *lines > MOST_LINES)
        .map(|(path, lines)| format!("{path}: {lines} lines"))
        .collect();
    assert!(long.is_empty(), "{}", long.join("\n"));
}

/// The YAML of an example as an editor would hand it to a validator.
fn as_json(node: &Node) -> Json {
    match &node.value {
        Value::Empty => Json::Null,
        Value::Text(text) => match text.as_str() {
            "true" => Json::Bool(true),
            "false" => Json::Bool(false),
            number if number.parse::<i64>().is_ok() => number.parse::<i64>().ok().into(),
            text => text.into(),
        },
        Value::List(items) => items.iter().map(as_json).collect(),
        Value::Map(entries) => {
            let pair = |(key, value): &(Node, Node)| match &key.value {
                Value::Text(name) => (name.clone(), as_json(value)),
                other => panic!("a key that is {}", other.kind()),
            };
            Json::Object(entries.iter().map(pair).collect())
        }
    }
}

#[test]
fn the_schema_takes_every_example_and_no_unknown_key() {
    let schema: Json = serde_json::from_str(&stdout(&run(&["schema"]))).expect("JSON");
    jsonschema::meta::validate(&schema).expect("a valid schema");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    let odd = files("tests/input/computes", "yaml");
    for (path, text) in files("examples", "yaml").into_iter().chain(odd) {
        let mut project = as_json(&dewmargin::document::parse(&path, &text).expect("YAML"));
        let problems: Vec<String> = validator
            .iter_errors(&project)
            .map(|error| format!("{path}: {error} at {}", error.instance_path()))
            .collect();
        assert!(problems.is_empty(), "{}", problems.join("\n"));

        let object = project.as_object_mut().expect("a block");
        object.insert("varients".into(), Json::Null);
        assert!(!validator.is_valid(&project), "{path} with an unknown key");
        let object = project.as_object_mut().expect("a block");
        object.remove("varients");
        assert!(validator.is_valid(&project));
        let assemblies = project["assemblies"].as_object_mut().expect("assemblies");
        let first = assemblies.values_mut().next().expect("one");
        first["layers"][0]["thicknes"] = "1/2 in".into();
        assert!(
            !validator.is_valid(&project),
            "{path} with an unknown key deep inside"
        );
    }
}
