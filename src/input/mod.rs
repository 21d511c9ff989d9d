//! From a project file to the model: reading, resolving, and every problem with its place.

mod assumed;
mod assumed_roof;
mod cases;
mod detail;
mod house;
mod household;
mod layer;
mod prices;
mod resolve;
mod schema;
mod size;
mod sound;
mod stock;
mod strip;
mod substance;
mod surroundings;
mod surroundings_text;
mod sweep;
mod title;
mod variant;

use std::fs::File;
use std::io::Read;
use std::path::Path;

use surroundings::Files;

use crate::document::{FromNode, MAX_FILE_BYTES, parse};
use crate::error::Error;
use crate::model::Project;

/// Reads and resolves a project file.
///
/// # Errors
/// When the file can't be read, isn't YAML, or holds anything that can't be used; all problems
/// found are reported together.
pub fn read_project(path: &Path) -> Result<Project, Error> {
    read_project_with(path, &mut |_, _| {})
}

/// Reads and resolves a project file; `progress` is told how many bytes of how many are read of a
/// climate file that the project names.
///
/// # Errors
/// As [`read_project`].
pub fn read_project_with(
    path: &Path,
    progress: &mut dyn FnMut(u64, u64),
) -> Result<Project, Error> {
    let name = path.display().to_string();
    let text = read_text(path, &name)?;
    resolve(&name, path, &text, progress)
}

/// Resolves a project given as text; `file` is what messages call it.
///
/// # Errors
/// As [`read_project`].
///
/// # Example
/// ```
/// let text = "
/// indoor: {heating: 68 F, humidity: 50 %}
/// outdoor: {winter-mean: {temperature: 41 F, humidity: 82 %}}
/// assemblies:
///   wall:
///     kind: wall
///     layers: [{name: sheathing, material: plywod, thickness: 1/2 in}]
/// ";
/// let error = dewmargin::input::resolve_text("wall.yaml", text).unwrap_err();
/// assert_eq!(error.problems[0].message, "unknown material `plywod`");
/// ```
pub fn resolve_text(file: &str, text: &str) -> Result<Project, Error> {
    resolve(file, Path::new(file), text, &mut |_, _| {})
}

fn resolve(
    file: &str,
    path: &Path,
    text: &str,
    progress: &mut dyn FnMut(u64, u64),
) -> Result<Project, Error> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let tree = parse(file, text)?;
    let mut problems = Vec::new();
    let mut files = Files {
        project: path,
        progress,
        wrong: None,
    };
    let project = match schema::ProjectText::from_node(&tree, &mut problems) {
        Some(read) => resolve::resolve(read, file, text, &mut files, &mut problems),
        None => None,
    };
    match (project, files.wrong) {
        (Some(project), _) if problems.is_empty() => Ok(project),
        (_, Some(wrong)) if problems.is_empty() => Err(wrong),
        _ => Err(Error::in_text(file, text, problems)),
    }
}

/// The JSON schema of a project file, for editors.
#[must_use]
pub fn json_schema() -> serde_json::Value {
    let mut schema = schema::ProjectText::schema();
    if let Some(object) = schema.as_object_mut() {
        object.insert(
            "$schema".into(),
            "https://json-schema.org/draft/2020-12/schema".into(),
        );
        object.insert("title".into(), "dewmargin project file".into());
    }
    schema
}

/// The name that stands for standard input.
const STANDARD_INPUT: &str = "-";

fn read_text(path: &Path, name: &str) -> Result<String, Error> {
    let refuse = |message: &str, help: Option<&str>| {
        Err(Error::input(name, message, help.map(str::to_owned)))
    };
    if path == Path::new(STANDARD_INPUT) {
        return text_of(std::io::stdin().lock(), name);
    }
    let metadata = match std::fs::metadata(path) {
        Ok(metadata) => metadata,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            return refuse(
                "there is no such file",
                Some("check the name and the folder"),
            );
        }
        Err(error) => return refuse(&format!("this file can't be opened: {error}"), None),
    };
    if metadata.is_dir() {
        return refuse(
            "this is a folder, not a project file",
            Some("name a .yaml file in it"),
        );
    }
    if !metadata.is_file() {
        return refuse(
            "this is no regular file",
            Some("name a .yaml file, or `-` for standard input"),
        );
    }
    match File::open(path) {
        Ok(file) => text_of(file, name),
        Err(error) => refuse(&format!("this file can't be opened: {error}"), None),
    }
}

/// The text that a source holds, no more of it read than a project may have.
fn text_of(source: impl Read, name: &str) -> Result<String, Error> {
    let refuse = |message: &str, help: Option<&str>| {
        Err(Error::input(name, message, help.map(str::to_owned)))
    };
    let mut bytes = Vec::new();
    let limit = MAX_FILE_BYTES as u64 + 1;
    if let Err(error) = source.take(limit).read_to_end(&mut bytes) {
        return refuse(&format!("this file can't be read: {error}"), None);
    }
    if bytes.len() > MAX_FILE_BYTES {
        return refuse(
            "this file is over 1 MiB, far more than a project needs",
            None,
        );
    }
    match String::from_utf8(bytes) {
        Ok(text) if text.contains('\0') => {
            refuse("this isn't a text file", Some("save it as UTF-8 text"))
        }
        Ok(text) if text.trim().is_empty() => {
            refuse("this file is empty", Some("start from a file in examples/"))
        }
        Ok(text) => Ok(text),
        Err(_) => refuse("this isn't a text file", Some("save it as UTF-8 text")),
    }
}

#[cfg(test)]
mod tests {
    use super::json_schema;
    use crate::document::UNBOUNDED;
    use serde_json::Value;

    /// Where in the schema a number has no range, and how many numbers have one.
    fn walk(schema: &Value, path: &str, unbounded: &mut Vec<String>, bounded: &mut usize) {
        match schema {
            Value::Object(parts) => {
                let is = |key: &str, word: &str| {
                    parts
                        .get(key)
                        .and_then(Value::as_str)
                        .is_some_and(|text| text.contains(word))
                };
                if is("$comment", UNBOUNDED) {
                    unbounded.push(path.to_owned());
                }
                *bounded +=
                    usize::from(is("description", " From ") && !parts.contains_key("properties"));
                for (key, part) in parts {
                    walk(part, &format!("{path}/{key}"), unbounded, bounded);
                }
            }
            Value::Array(parts) => {
                for part in parts {
                    walk(part, path, unbounded, bounded);
                }
            }
            _ => {}
        }
    }

    // A key declared by `record!` doesn't compile without; this finds those read by hand, and ranges
    // whose ends can't be read.
    #[test]
    fn every_number_of_a_project_has_a_range() {
        let (mut unbounded, mut bounded) = (Vec::new(), 0);
        walk(&json_schema(), "", &mut unbounded, &mut bounded);
        assert_eq!(unbounded, Vec::<String>::new());
        assert!(bounded > 90, "the walk finds {bounded} numbers");
    }
}
