//! The permit packet, from the program's own run.

mod browser;
mod calculations;
mod command;
mod escape;
mod house;
mod html;
mod sheets;

use std::path::{Path, PathBuf};

use tempfile::TempDir;

use crate::support::{code, program, repository, stderr};

/// The whole project.
pub(crate) fn cabin() -> PathBuf {
    repository().join("examples/cabin.yaml")
}

/// A project whose every word looks like markup.
pub(crate) fn typed() -> PathBuf {
    repository().join("tests/packet/typed.yaml")
}

/// A packet in a folder of its own.
pub(crate) fn packet(file: &Path, options: &[&str]) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    again(file, options, folder.path());
    folder
}

/// The packet once more in the same folder.
pub(crate) fn again(file: &Path, options: &[&str], folder: &Path) {
    let mut command = program(".");
    command.arg("packet").arg(file).arg("-o").arg(folder);
    let output = command.args(options).output().expect("the program starts");
    assert_eq!(code(&output), 0, "{}", stderr(&output));
}

/// The files of a packet that end so, by name.
pub(crate) fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).expect("a folder");
    let paths = entries.map(|entry| entry.expect("an entry").path());
    let mut files: Vec<PathBuf> = paths
        .filter(|path| path.to_string_lossy().ends_with(ending))
        .collect();
    files.sort();
    files
}

/// The packet's page.
pub(crate) fn page(folder: &Path) -> String {
    let pages = files(folder, ".html");
    assert_eq!(pages.len(), 1, "{pages:?}");
    std::fs::read_to_string(&pages[0]).expect("UTF-8")
}

/// What stands between tags, as a reader sees it, each text on a line; style, titles and
/// descriptions too.
pub(crate) fn words(markup: &str) -> String {
    let mut words = String::new();
    for part in markup.split('<') {
        words.push_str(part.split_once('>').map_or("", |(_, text)| text));
        words.push('\n');
    }
    let signs = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&amp;", "&"),
    ];
    let plain = |text: String, (entity, sign): (&str, &str)| text.replace(entity, sign);
    signs.into_iter().fold(words, plain)
}

/// An example's file.
pub(crate) fn example(name: &str) -> PathBuf {
    repository().join("examples").join(name)
}
