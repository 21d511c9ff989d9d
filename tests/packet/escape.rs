//! What looks like markup is shown as typed: on the page, on SVG sheets, in the PDF.

use std::process::Command;

use super::{files, packet, page, typed, words};

/// What the file says, each with the markup it must never become.
const TYPED: [&str; 8] = [
    "<script>alert(1)</script> & \"q\" 'a' ]]>",
    "<img src=x onerror=alert(2)>",
    "&lt;b&gt; \"quoted\"",
    "1 </title></style> Lane <!-- `code` -->",
    "]]> & <!--",
    "<b>coast",
    "wall </svg> & \"w\"",
    "a & b ]]>",
];

/// Nothing of the user's is a tag: only the page's own are left.
const NEVER: [&str; 9] = [
    "<script", "<img", "<b>", "<u>", "<i>", "<em>", "<x>", "<!--", "]]></",
];

fn shows(words: &str, typed: &str) -> bool {
    words.contains(typed)
}

#[test]
fn the_page_shows_it() {
    let folder = packet(&typed(), &["--html", "--variant", "<em>more"]);
    let page = page(folder.path());
    for markup in NEVER {
        assert!(!page.contains(markup), "{markup}");
    }
    // Style and title end once: at the page's own, before the figures' titles.
    assert_eq!(page.matches("</style>").count(), 1);
    assert_eq!(
        page.matches("<svg ").count(),
        page.matches("</svg>").count()
    );
    let words = words(&page);
    for typed in TYPED
        .iter()
        .chain(&["<em>more", "<u>שלום", "<x>&", "\"q\" 'p'", "<A&"])
    {
        assert!(shows(&words, typed), "{typed}");
    }
    // What no document may hold is told apart, not dropped.
    assert!(words.contains("bell\u{FFFD}") && !page.contains('\u{FFFE}'));
}

#[test]
fn svg_sheets_show_it() {
    let folder = packet(&typed(), &["--svg", "--paper", "letter"]);
    let sheets = files(folder.path(), ".svg");
    assert!(sheets.len() > 3);
    let mut all = String::new();
    for sheet in &sheets {
        let svg = std::fs::read_to_string(sheet).expect("UTF-8");
        for markup in NEVER {
            assert!(!svg.contains(markup), "{markup} in {}", sheet.display());
        }
        all.push_str(&words(&svg));
    }
    // Lines are broken on sheets; the next one follows.
    let all = all.split_whitespace().collect::<Vec<_>>().join(" ");
    for typed in TYPED.iter().chain(&["<u>שלום", "bell\u{FFFD}"]) {
        assert!(shows(&all, typed), "{typed}");
    }
}

#[test]
fn svg_sheets_are_well_formed() {
    let folder = packet(&typed(), &["--svg"]);
    for sheet in files(folder.path(), ".svg") {
        let run = Command::new("xmllint").arg("--noout").arg(&sheet).output();
        let Ok(output) = run else {
            eprintln!("skipped: `xmllint` isn't installed");
            return;
        };
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{}: {said}", sheet.display());
    }
}

#[test]
fn the_pdf_shows_it() {
    let folder = packet(&typed(), &[]);
    let bound = files(folder.path(), "-packet.pdf");
    let run = Command::new("pdftotext")
        .arg("-raw")
        .arg(&bound[0])
        .arg("-")
        .output();
    let Ok(output) = run else {
        eprintln!("skipped: `pdftotext` isn't installed");
        return;
    };
    let text = String::from_utf8_lossy(&output.stdout);
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for typed in TYPED.iter().chain(&["bell\u{FFFD}", "שלום"]) {
        assert!(shows(&text, typed), "{typed} isn't in the text");
    }
}
