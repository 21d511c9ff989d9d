//! From what a reader asks to what can be told.
//!
//! A place is a few parts between slashes: `floor / cavity / subfloor / bay`. Letter case, blanks
//! and hyphens don't matter, `:` and `>` separate as well as `/`, and parts may be left out as long
//! as the last one stands: `floor / subfloor / bay`. As drawn comes before the variants.

use super::Entry;

/// The most derivations printed for one question.
const MOST: usize = 4;

/// What came of a question.
pub enum Asked<'a, 'b> {
    /// One or a few.
    Found(Vec<&'b Entry<'a>>),
    /// More than can be meant.
    TooMany(Vec<&'b Entry<'a>>),
    /// Nothing.
    Nothing,
}

/// Whether what is asked fits a place, both in parts.
type Fits = fn(&[String], &[String]) -> bool;

/// Looks for what is asked.
///
/// # Example
/// ```
/// use dewmargin::report::explain;
/// use dewmargin::study::Study;
///
/// let text = include_str!("../../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("cabin-wall.yaml", text).unwrap();
/// let judged = Study::of(&project).assemblies;
/// let entries = explain::entries(&judged, &[]);
/// let explain::Asked::Found(found) = explain::find(&entries, "Wall 2x6/U") else { panic!() };
/// assert_eq!(found[0].place, "wall 2x6 / U");
/// ```
#[must_use]
pub fn find<'a, 'b>(all: &'b [Entry<'a>], wanted: &str) -> Asked<'a, 'b> {
    let asked = parts(wanted);
    let stages: [Fits; 3] = [same, ends_alike, contains];
    for stage in stages {
        let matches = |entry: &&Entry<'a>| {
            std::iter::once(&entry.place)
                .chain(&entry.also)
                .any(|place| stage(&asked, &parts(place)))
        };
        let found: Vec<&Entry<'a>> = all.iter().filter(matches).collect();
        if !found.is_empty() {
            return few(found);
        }
    }
    Asked::Nothing
}

/// As drawn before the variants.
fn few<'a, 'b>(mut found: Vec<&'b Entry<'a>>) -> Asked<'a, 'b> {
    if found.iter().any(|entry| entry.variant.is_none()) {
        found.retain(|entry| entry.variant.is_none());
    }
    match found.len() <= MOST {
        true => Asked::Found(found),
        false => Asked::TooMany(found),
    }
}

/// Lower-case parts without needless blanks.
fn parts(place: &str) -> Vec<String> {
    let plain = |part: &str| {
        let words = part.split(|c: char| c.is_whitespace() || matches!(c, '-' | '_'));
        let words: Vec<&str> = words.filter(|word| !word.is_empty()).collect();
        words.join(" ").to_lowercase()
    };
    let parts = place.split(['/', ':', '>']).map(plain);
    parts.filter(|part| !part.is_empty()).collect()
}

fn same(asked: &[String], place: &[String]) -> bool {
    asked == place
}

/// Every part in order, the last one at the end.
fn ends_alike(asked: &[String], place: &[String]) -> bool {
    asked.last() == place.last() && in_order(asked, place, |a, b| a == b)
}

/// Every part in order, each within a part of the place.
fn contains(asked: &[String], place: &[String]) -> bool {
    in_order(asked, place, |a, b| b.contains(a.as_str()))
}

fn in_order(asked: &[String], place: &[String], fits: impl Fn(&String, &String) -> bool) -> bool {
    let mut rest = place.iter();
    !asked.is_empty() && asked.iter().all(|part| rest.any(|other| fits(part, other)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("Floor/Cavity", true, true)]
    #[case("floor : cavity", true, true)]
    #[case("cavity", false, true)]
    #[case("floor", false, false)]
    #[case("floor / cav", false, false)]
    fn parts_may_be_left_out_but_the_last(
        #[case] asked: &str,
        #[case] is_same: bool,
        #[case] alike: bool,
    ) {
        let (asked, place) = (parts(asked), parts("floor / cavity"));
        assert_eq!(same(&asked, &place), is_same);
        assert_eq!(ends_alike(&asked, &place), alike);
        assert!(contains(&asked, &place));
    }
}
