//! Writes drawings as one PDF document, a page for each, at their true size on paper.
//!
//! Lines and fillings are vectors, text is text: it can be searched, selected and copied, and the
//! two faces of the font are embedded as far as they are used. The document is checked by its
//! writer against PDF/A-2b (it can be kept and opened without this program) and PDF/UA-1 (it is
//! tagged: text in the order it was drawn, the picture in words).

mod info;
mod marks;

use krilla::configure::{Accessibility, Archival, Configuration, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::Point;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::tagging::{Tag, TagGroup, TagTree};
use krilla::{Document, SerializeSettings};

use super::drawing::Drawing;
pub use info::{Info, Unwritten};
use marks::{Fonts, Page, clean};

/// Points (1/72 in) in a millimeter.
const POINTS: f64 = 72.0 / 25.4;

/// The drawings as one PDF document, a page each; the same drawings and the same `info` give the
/// same bytes.
///
/// A page is as large as its drawing's paper, and the outline names it by the drawing's title.
/// One unit of the page is 1/72 in.
///
/// # Errors
/// Where there is no drawing, or one is larger than a PDF's page may be (5 m).
///
/// # Example
/// ```
/// use dewmargin::quantity::{Date, Style, UnitSystem};
/// use dewmargin::report::figure;
/// use dewmargin::study::Study;
///
/// let text = include_str!("../../../../examples/cabin-floor.yaml");
/// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
/// let style = Style { units: UnitSystem::Imperial };
/// let sheet = figure::section(&project, &Study::of(&project).assemblies[0], style);
/// let info = figure::Info {
///     title: "Fern Hollow cabin".into(),
///     author: "A. Designer".into(),
///     subject: "Floor section".into(),
///     date: Date::new(2026, 3, 14).unwrap(),
/// };
/// let bytes = figure::pdf(&[sheet], &info).unwrap();
/// assert!(bytes.starts_with(b"%PDF-1.7"));
/// ```
pub fn pdf(sheets: &[Drawing], info: &Info) -> Result<Vec<u8>, Unwritten> {
    if sheets.is_empty() {
        return Err(Unwritten("there is no sheet to write".into()));
    }
    // What the standards for keeping and for accessibility refuse (a page larger than they allow,
    // for one) is still a document that can be printed.
    kept().map_or_else(
        || write(sheets, info, Configuration::default()),
        |standards| {
            write(sheets, info, standards)
                .or_else(|_| write(sheets, info, Configuration::default()))
        },
    )
}

/// PDF/A-2b and PDF/UA-1.
fn kept() -> Option<Configuration> {
    let standards = ConfigurationBuilder::new()
        .with_archival_validator(Archival::A2_B)
        .with_accessibility_validator(Accessibility::UA1);
    standards.finish().ok()
}

fn write(
    sheets: &[Drawing],
    info: &Info,
    configuration: Configuration,
) -> Result<Vec<u8>, Unwritten> {
    let fonts = Fonts::read().ok_or_else(|| Unwritten("the font can't be read".into()))?;
    let mut document = Document::new_with(SerializeSettings {
        configuration,
        ..SerializeSettings::default()
    });
    let mut outline = Outline::new();
    let mut tags = TagTree::new().with_lang(Some("en-US".into()));
    for (n, sheet) in sheets.iter().enumerate() {
        let size = sheet.paper();
        let points = |mm: f64| (mm * POINTS) as f32;
        let settings = PageSettings::from_wh(points(size.0), points(size.1));
        let settings = settings.ok_or_else(|| Unwritten(format!("sheet {} is empty", n + 1)))?;
        let mut page = document.start_page_with(settings);
        let mut section = TagGroup::new(Tag::Section);
        let mut surface = page.surface();
        for group in Page::new(sheet, &fonts).draw(&mut surface) {
            section.push(group);
        }
        surface.finish();
        page.finish();
        tags.push(section);
        let upper_left = XyzDestination::new(n, Point::from_xy(0.0, 0.0));
        outline.push_child(OutlineNode::new(clean(&sheet.title), upper_left));
    }
    document.set_outline(outline);
    document.set_tag_tree(tags);
    document.set_metadata(info.metadata());
    let written = document.finish();
    written.map_err(|error| Unwritten(format!("the PDF can't be written: {error:?}")))
}
