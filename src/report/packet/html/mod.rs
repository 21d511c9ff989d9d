//! The packet as one page to read on a screen: the same chapters, the same figures.
//!
//! Nothing is fetched and nothing runs: the browser is told so by the page's own policy. Every word
//! goes through [`typed`], so that what the file says stands on the page as typed.

mod group;
mod table;

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::content::Chapter;
use super::{Contents, Look};
use crate::model::Project;
use crate::quantity::Style;
use crate::report::figure::{conditions, escape, stated};

/// How the page looks: on paper and on a screen, light and dark.
const CSS: &str = include_str!("page.css");
/// No script, no request; only the page's own style.
const POLICY: &str =
    "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/// The packet as one HTML page.
///
/// It needs no other file, no network and no script, and says what the sheets say: the cover first,
/// then every assembly and detail, the house, the hand calculations, the materials. Figures are
/// part of it as SVG. The same input gives the same bytes.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::figure::Look;
/// use dewmargin::report::packet::{Calculations, Contents, page};
/// use dewmargin::study::Study;
///
/// let text = include_str!("../../../../examples/cabin-wall.yaml");
/// let project = dewmargin::input::resolve_text("cabin-wall.yaml", text).unwrap();
/// let (judged, details) = (Study::of(&project).assemblies, Study::of(&project).details);
/// let contents = Contents {
///     project: &project,
///     judged: &judged,
///     details: &details,
///     volumes: &[],
///     house: None,
///     missing: &[],
///     left_out: &[],
///     omitted: &[],
///     calculations: Calculations::Deciding,
/// };
/// let style = Style { units: UnitSystem::Imperial };
/// let page = page(&contents, style, Look::default());
/// assert!(page.starts_with("<!DOCTYPE html>") && page.contains("</svg>"));
/// assert!(!page.contains("<script"));
/// ```
#[must_use]
pub fn page(contents: &Contents<'_>, style: Style, look: Look) -> String {
    let project = contents.project;
    let cover = super::cover(contents, style, false).chapter(&[]);
    let chapters = super::chapters(contents, style);
    let setting = Setting {
        project,
        style,
        look,
    };
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            (head(&cover.title))
            body {
                a.skip href="#packet" { "Skip to the packet" }
                (header(project, &cover))
                (list(&cover, &chapters))
                main #packet tabindex="-1" {
                    @let entries = conditions(project, None, style);
                    (chapter(&cover, 0, facts(&entries), setting))
                    @for (n, one) in (1..).zip(&chapters) {
                        @let opening = opening(one, setting);
                        (chapter(one, n, opening, setting))
                    }
                }
                footer { p { (typed(&project.file)) " · dewmargin " (env!("CARGO_PKG_VERSION")) } }
            }
        }
    };
    let mut page = page.into_string();
    page.push('\n');
    page
}

/// What parts of the page are made for.
#[derive(Clone, Copy)]
struct Setting<'a> {
    project: &'a Project,
    style: Style,
    look: Look,
}

/// Words as typed, between tags or in quotes.
fn typed(words: &str) -> PreEscaped<String> {
    PreEscaped(escape(words))
}

fn head(title: &str) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            meta http-equiv="Content-Security-Policy" content=(POLICY);
            title { (typed(title)) }
            style { (PreEscaped(CSS)) }
        }
    }
}

/// Title, verdict, what decides; then what a title block says.
fn header(project: &Project, cover: &Chapter<'_>) -> Markup {
    let data = &project.title_data;
    let date = data.date.map_or_else(String::new, |date| date.to_string());
    let entries = [
        ("address", stated(&data.address)),
        ("owner", stated(&data.owner)),
        ("drawn by", stated(&data.designer)),
        ("date", stated(&date)),
        ("revision", stated(&data.revision)),
    ];
    html! {
        header {
            p.kind { "Permit packet" }
            h1 { bdi { (typed(&cover.title)) } }
            (face(cover))
            (facts(&entries))
        }
        "\n"
    }
}

/// The verdict's word and what decides.
fn face(chapter: &Chapter<'_>) -> Markup {
    html! {
        @if chapter.word.is_some() || !chapter.face.is_empty() {
            p.face {
                @if let Some(word) = chapter.word { (verdict(word)) " " }
                (typed(&chapter.face))
            }
        }
        @if !chapter.facts.is_empty() {
            ul.numbers { @for one in &chapter.facts { li { (typed(one)) } } }
        }
    }
}

/// A verdict's word: its border says it as well.
fn verdict(word: &str) -> Markup {
    html! { strong class={ "word " (typed(word)) } { (typed(word)) } }
}

/// Captions with what is stated; what has no caption stands below.
fn facts(entries: &[(&'static str, String)]) -> Markup {
    let (plain, named): (Vec<_>, Vec<_>) = entries.iter().partition(|(name, _)| name.is_empty());
    html! {
        dl.facts {
            @for (name, words) in named {
                dt { (name) } dd { bdi { (typed(words)) } }
            }
        }
        @for (_, words) in plain { p.note { (typed(words)) } }
    }
}

/// Where to go on the page.
fn list(cover: &Chapter<'_>, chapters: &[Chapter<'_>]) -> Markup {
    html! {
        nav aria-labelledby="list" {
            h2 #list { "Contents" }
            ol {
                @for (n, one) in (0..).zip(std::iter::once(cover).chain(chapters)) {
                    li {
                        a href={ "#part-" (n) } { bdi { (typed(&one.name)) } }
                        @if let Some(word) = one.word.filter(|_| n > 0) { " " (verdict(word)) }
                    }
                }
            }
        }
        "\n"
    }
}

/// What stands under a chapter's title: its verdict and the conditions it holds for.
fn opening(chapter: &Chapter<'_>, setting: Setting<'_>) -> Markup {
    html! {
        (face(chapter))
        @if let Some(stop) = chapter.stop {
            (facts(&conditions(setting.project, Some(stop), setting.style)))
        }
    }
}

fn chapter(chapter: &Chapter<'_>, n: usize, opening: Markup, setting: Setting<'_>) -> Markup {
    let title = &chapter.name;
    html! {
        section id={ "part-" (n) } aria-labelledby={ "title-" (n) } {
            h2 id={ "title-" (n) } { bdi { (typed(title)) } }
            (opening)
            @for (place, one) in chapter.groups.iter().enumerate() {
                (group::group(one, title, &format!("figure-{n}-{place}"), setting))
            }
        }
        "\n"
    }
}
