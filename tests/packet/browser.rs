//! The page under tools from outside; skipped, with a word, where one isn't installed.

use std::path::{Path, PathBuf};
use std::process::Command;

use super::{cabin, files, packet, page, typed};

/// tidy takes the titles of SVG for the page's own, which have no `id`.
const TAKEN_FOR_THE_PAGES: &str = "<title> proprietary attribute \"id\"";

#[test]
fn the_markup_is_valid() {
    for file in [cabin(), typed()] {
        let folder = packet(&file, &["--html"]);
        let path = &files(folder.path(), ".html")[0];
        let Ok(output) = Command::new("tidy").args(["-q", "-e"]).arg(path).output() else {
            eprintln!("skipped: `tidy` isn't installed");
            return;
        };
        let said = String::from_utf8_lossy(&output.stderr);
        let wrong: Vec<&str> = said
            .lines()
            .filter(|line| !line.contains(TAKEN_FOR_THE_PAGES))
            .collect();
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }
}

/// A browser that can be run without a screen.
fn browser(arguments: &[&str], file: &Path) -> Option<String> {
    let home = tempfile::tempdir().expect("a folder");
    for name in ["chromium", "chromium-browser", "google-chrome"] {
        let run = Command::new(name)
            .args([
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--hide-scrollbars",
            ])
            .arg(format!("--user-data-dir={}", home.path().display()))
            .args(arguments)
            .arg(format!("file://{}", file.display()))
            .output();
        match run {
            Ok(output) if output.status.success() => {
                return Some(String::from_utf8_lossy(&output.stdout).into_owned());
            }
            Ok(output) => eprintln!("`{name}` doesn't run here: {}", output.status),
            Err(_) => {}
        }
    }
    eprintln!("skipped: there is no Chromium that runs");
    None
}

/// Measures the page in a frame: how wide it is, what reaches over its right edge by itself, how
/// many scripts there are, and its title.
const MEASURE: &str = r#"<script>onload = () => {
  const over = [...document.querySelectorAll("body *")].filter(e =>
    !e.closest(".scroll") && !e.closest(".skip") &&
    e.getBoundingClientRect().right > innerWidth + 1);
  const said = [innerWidth, document.documentElement.scrollWidth, over.length,
    document.querySelectorAll("script").length, document.querySelectorAll("img").length,
    document.title];
  parent.document.body.append("MEASURED" + said.join("|") + "MEASURED");
}</script></body>"#;

/// The page in frames of these widths, each with a script of ours, since a browser's own window
/// doesn't get as narrow as a phone.
fn framed(page: &str, widths: &[u32], folder: &Path) -> PathBuf {
    let (before, policy) = page.split_once("<meta http-equiv=").expect("a policy");
    let (_, after) = policy.split_once('>').expect("its end");
    let measured = format!("{before}{after}").replace("</body>", MEASURE);
    let quoted = measured.replace('&', "&amp;").replace('"', "&quot;");
    let frame = |width: &u32| {
        format!(
            "<iframe style=\"width:{width}px;height:800px;border:0\" srcdoc=\"{quoted}\"></iframe>"
        )
    };
    let frames: String = widths.iter().map(frame).collect();
    let path = folder.join("frames.html");
    std::fs::write(&path, format!("<!DOCTYPE html><title>x</title>{frames}")).expect("written");
    path
}

#[test]
fn no_width_makes_the_page_scroll_sideways() {
    let widths = [320, 360, 768, 1280];
    for file in [cabin(), typed()] {
        let folder = packet(&file, &["--html"]);
        let path = framed(&page(folder.path()), &widths, folder.path());
        let Some(shown) = browser(&["--window-size=1400,900", "--dump-dom"], &path) else {
            return;
        };
        let said = shown.split("MEASURED").skip(1).step_by(2);
        let mut seen: Vec<u32> = Vec::new();
        for words in said.filter(|words| words.matches('|').count() >= 5) {
            let parts: Vec<&str> = words.splitn(6, '|').collect();
            let number = |n: usize| parts[n].parse::<u32>().expect("a number");
            assert!(number(1) <= number(0), "{words}");
            assert_eq!(number(2), 0, "something reaches over the edge: {words}");
            assert_eq!(
                (number(3), number(4)),
                (1, 0),
                "scripts and images: {words}"
            );
            seen.push(number(0));
        }
        seen.sort_unstable();
        assert_eq!(seen, widths, "{}", file.display());
    }
}

#[test]
fn a_print_has_the_folded_calculations() {
    let folder = packet(&cabin(), &["--html"]);
    let html = &files(folder.path(), ".html")[0];
    let pdf = folder.path().join("print.pdf");
    let to = format!("--print-to-pdf={}", pdf.display());
    if browser(&["--no-pdf-header-footer", &to], html).is_none() {
        return;
    }
    let Ok(output) = Command::new("pdftotext").arg(&pdf).arg("-").output() else {
        eprintln!("skipped: `pdftotext` isn't installed");
        return;
    };
    let text = String::from_utf8_lossy(&output.stdout);
    assert!(
        text.contains("film at the room's surface"),
        "folded on paper"
    );
}
