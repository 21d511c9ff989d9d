//! The PDF under tools from outside; skipped, with a word, where one isn't installed.

use std::path::{Path, PathBuf};
use std::process::Command;

use dewmargin::report::figure;

use super::pdf::{info, packet};

/// What a tool prints, its errors too; nothing where it isn't installed.
fn tool(name: &str, arguments: &[&str], file: &Path) -> Option<(bool, String)> {
    let run = Command::new(name).args(arguments).arg(file).output();
    let Ok(output) = run else {
        eprintln!("skipped: `{name}` isn't installed");
        return None;
    };
    let mut text = String::from_utf8_lossy(&output.stdout).into_owned();
    text.push_str(&String::from_utf8_lossy(&output.stderr));
    Some((output.status.success(), text))
}

fn written() -> (tempfile::TempDir, PathBuf, usize) {
    let folder = tempfile::tempdir().expect("a folder");
    let sheets = packet();
    let path = folder.path().join("packet.pdf");
    std::fs::write(&path, figure::pdf(&sheets, &info()).expect("written")).expect("a file");
    (folder, path, sheets.len())
}

#[test]
fn its_structure_is_sound() {
    let (_folder, path, _) = written();
    if let Some((sound, text)) = tool("qpdf", &["--check"], &path) {
        assert!(
            sound && text.contains("No syntax or stream encoding errors"),
            "{text}"
        );
    }
}

#[test]
fn its_fonts_are_embedded_subsets_with_unicode() {
    let (_folder, path, _) = written();
    let Some((_, text)) = tool("pdffonts", &[], &path) else {
        return;
    };
    let fonts: Vec<&str> = text.lines().skip(2).collect();
    assert_eq!(fonts.len(), 2, "{text}");
    for font in fonts {
        assert!(font.contains("DejaVuSans"), "{font}");
        assert!(!font.contains("Type 3"), "{font}");
        // Columns: emb sub uni.
        assert!(font.contains("yes yes yes"), "{font}");
    }
}

/// Words with one space between them.
fn spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn every_label_of_every_sheet_is_found() {
    let (_folder, path, _) = written();
    let run = Command::new("pdftotext")
        .arg("-raw")
        .arg(&path)
        .arg("-")
        .output();
    let Ok(output) = run else {
        eprintln!("skipped: `pdftotext` isn't installed");
        return;
    };
    let text = spaced(&String::from_utf8_lossy(&output.stdout));
    let mut count = 0;
    for sheet in packet() {
        let svg = sheet.svg();
        for label in super::texts(&svg) {
            let label = spaced(&plain(label));
            assert!(text.contains(&label), "`{label}` isn't in\n{text}");
            count += 1;
        }
    }
    assert!(count > 1000, "{count} labels");
    for sign in ["°", "²", "·", "−", "±", "subfloor"] {
        assert!(text.contains(sign), "{sign}");
    }
}

/// Text as it was before it was escaped.
fn plain(escaped: &str) -> String {
    let signs = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&amp;", "&"),
    ];
    signs
        .into_iter()
        .fold(escaped.to_owned(), |text, (entity, sign)| {
            text.replace(entity, sign)
        })
}

#[test]
fn search_finds_words_as_they_are_laid_out() {
    let (_folder, path, _) = written();
    for order in [&["-layout"][..], &[]] {
        let run = Command::new("pdftotext")
            .args(order)
            .arg(&path)
            .arg("-")
            .output();
        let Ok(output) = run else {
            eprintln!("skipped: `pdftotext` isn't installed");
            return;
        };
        let text = String::from_utf8_lossy(&output.stdout);
        for words in [
            "subfloor",
            "side flange",
            "Room air condenses below",
            "printed at full size",
        ] {
            assert!(
                text.contains(words),
                "{order:?}: `{words}` isn't in\n{text}"
            );
        }
    }
}

#[test]
fn its_pages_are_counted_named_and_drawn() {
    let (folder, path, count) = written();
    if let Some((_, text)) = tool("pdfinfo", &[], &path) {
        let says = |key: &str, value: &str| {
            let line = text.lines().find(|line| line.starts_with(key));
            assert!(
                line.is_some_and(|line| line.contains(value)),
                "{key}: {text}"
            );
        };
        says("Pages", &count.to_string());
        says("Title", "Fern Hollow cabin & <script>");
        says("Author", "A. Designer");
        says("Tagged", "yes");
        says("Encrypted", "no");
        says("Page size", "792 x 612 pts (letter)");
    }
    let prefix = folder.path().join("page");
    let run = Command::new("pdftoppm")
        .args(["-r", "50", "-gray"])
        .arg(&path)
        .arg(&prefix)
        .output();
    let Ok(output) = run else {
        eprintln!("skipped: `pdftoppm` isn't installed");
        return;
    };
    assert!(output.status.success() && output.stderr.is_empty());
    let images: Vec<PathBuf> = std::fs::read_dir(folder.path())
        .expect("a folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|end| end == "pgm"))
        .collect();
    assert_eq!(images.len(), count);
    for image in images {
        let bytes = std::fs::read(&image).expect("an image");
        let dark = bytes.iter().filter(|byte| **byte < 128).count();
        assert!(dark > bytes.len() / 200, "{} is empty", image.display());
    }
}
