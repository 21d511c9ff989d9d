//! Names of the packet's files: plain, and under 60 characters.

use crate::cli::listed::List;
use crate::cli::written::File;
use crate::model::Project;
use crate::report::packet::PacketSheet;

/// Most characters of a name's own words.
const LONGEST: usize = 40;
/// A name as part of a file name: letters, digits and points of plain ASCII, joined by hyphens.
fn plain(name: &str) -> String {
    let words = name.split(|c: char| !(c.is_ascii_alphanumeric() || c == '.'));
    let words = words.map(|word| word.trim_matches('.'));
    let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
    let name: String = words.join("-").chars().take(LONGEST).collect();
    name.trim_matches(['-', '.']).to_owned()
}

/// `fern-hollow-cabin-packet.pdf`
pub(super) fn bound(project: &Project) -> String {
    format!("{}.pdf", whole(project))
}

/// `fern-hollow-cabin-packet.html`
pub(super) fn page(project: &Project) -> String {
    format!("{}{PAGE}", whole(project))
}

/// How the page's name ends; nothing else in a packet does so.
const PAGE: &str = ".html";

fn whole(project: &Project) -> String {
    match plain(&project.title).to_lowercase() {
        name if name.is_empty() => "packet".to_owned(),
        name => format!("{name}-packet"),
    }
}

/// `02-A-5.1-floor.pdf`: in the packet's order wherever files are sorted by name.
pub(super) fn of_sheet(sheet: &PacketSheet, n: usize, ending: &str) -> String {
    let title = plain(&sheet.title.to_lowercase());
    let number = plain(&sheet.number);
    let number: String = number.chars().take(10).collect();
    let parts = [format!("{:02}", n + 1), number, title];
    let parts: Vec<&str> = parts
        .iter()
        .map(String::as_str)
        .filter(|part| !part.is_empty())
        .collect();
    format!("{}.{ending}", parts.join("-"))
}

/// The list of files with the sheet each holds.
pub(super) fn list<'a>(project: &'a Project, sheets: &[PacketSheet], made: &[File]) -> List<'a> {
    let line = |(n, (name, _)): (usize, &File)| {
        // The bound file comes first, then one after the other in the sheets' order.
        let sheet = n
            .checked_sub(1)
            .and_then(|n| sheets.get(n % sheets.len().max(1)));
        let words = match sheet {
            _ if name.ends_with(PAGE) => "all of it on one page, to read on a screen".to_owned(),
            Some(sheet) => format!("{} {}", sheet.number, sheet.title),
            None => "all sheets, bound".to_owned(),
        };
        format!("{name}: {words}")
    };
    List {
        name: "contents.txt".to_owned(),
        title: &project.title,
        mark: "permit packet by dewmargin",
        lines: made.iter().enumerate().map(line).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_plain_and_short() {
        assert_eq!(plain("floor, 1 of 2"), "floor-1-of-2");
        assert_eq!(plain("../../etc/passwd"), "etc-passwd");
        assert_eq!(plain("<script>&é山"), "script");
        assert!(plain(&"a b".repeat(100)).len() <= LONGEST);
    }
}
