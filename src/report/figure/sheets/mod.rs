//! Chapters laid out on sheets of paper, each with its border and title block.

mod flow;
mod frame;
mod paper;
mod piece;
mod table;

pub(in crate::report) use frame::{conditions, stated};
pub use paper::Paper;

use super::drawing::Drawing;
use super::look::Look;
use super::sheet::Sheet;
use crate::model::Project;
use crate::quantity::Style;
use crate::report::packet::Chapter;
use flow::Filled;

/// What sheets are drawn for.
#[derive(Clone, Copy)]
pub(in crate::report) struct Setting {
    /// The paper.
    pub(in crate::report) paper: Paper,
    /// The reader's units.
    pub(in crate::report) style: Style,
    /// Hatching and color.
    pub(in crate::report) look: Look,
}

/// A sheet of the packet.
pub(in crate::report) struct Drawn {
    /// Its number, such as `A-5.1`.
    pub(in crate::report) number: String,
    /// Its title.
    pub(in crate::report) title: String,
    /// The scale of what is drawn on it, in words; empty where nothing is to scale.
    pub(in crate::report) scale: String,
    /// The sheet itself.
    pub(in crate::report) drawing: Drawing,
}

/// How one sheet is listed before it is drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::report) struct Listed {
    /// Its number.
    pub(in crate::report) number: String,
    /// Its title, with which part of how many where a chapter takes several.
    pub(in crate::report) title: String,
    /// Its scale in words.
    pub(in crate::report) scale: String,
}

/// A chapter put onto pages.
struct Paged<'a, 'c> {
    chapter: &'c Chapter<'a>,
    pages: Vec<Filled<'a>>,
}

impl<'a, 'c> Paged<'a, 'c> {
    fn new(chapter: &'c Chapter<'a>, setting: Setting) -> Self {
        let area = frame::area(chapter, setting.paper);
        let magnify = setting.paper.magnify();
        let pages = flow::fill(chapter, area, magnify, setting.style);
        Self { chapter, pages }
    }

    fn listed(&self, prefix: &str, from: usize) -> Vec<Listed> {
        let count = self.pages.len();
        let each = self.pages.iter().enumerate().map(|(n, page)| Listed {
            number: number(prefix, from + n),
            title: match count {
                1 => self.chapter.name.clone(),
                _ => format!("{}, {} of {count}", self.chapter.name, n + 1),
            },
            scale: page.scale(),
        });
        each.collect()
    }
}

/// `A-5.1`, or `1` without a prefix.
fn number(prefix: &str, n: usize) -> String {
    match prefix.is_empty() {
        true => (n + 1).to_string(),
        false => format!("{prefix}.{n}"),
    }
}

/// Draws all sheets. The cover is made from the list of sheets, its own first.
pub(in crate::report) fn draw<'a>(
    project: &Project,
    chapters: &[Chapter<'a>],
    cover: impl Fn(&[Listed]) -> Chapter<'a>,
    setting: Setting,
) -> Vec<Drawn> {
    let prefix = &project.title_data.sheet_prefix;
    let paged: Vec<Paged<'_, '_>> = chapters
        .iter()
        .map(|one| Paged::new(one, setting))
        .collect();
    let list = |cover_pages: &[Listed]| -> Vec<Listed> {
        let mut all = cover_pages.to_vec();
        for chapter in &paged {
            let next = chapter.listed(prefix, all.len());
            all.extend(next);
        }
        all
    };
    // How many sheets the cover takes hangs on the list, which has the cover's sheets in it: once
    // more settles it, since the list then keeps its length.
    let first = cover(&list(&[]));
    let first = Paged::new(&first, setting).listed(prefix, 0);
    let all = list(&first);
    let cover = cover(&all);
    let cover = Paged::new(&cover, setting);
    let all = list(&cover.listed(prefix, 0));
    let total = all.len();
    let mut drawn: Vec<Drawn> = Vec::new();
    for chapter in std::iter::once(&cover).chain(&paged) {
        for (n, page) in chapter.pages.iter().enumerate() {
            let Some(listed) = all.get(drawn.len()) else {
                continue;
            };
            let page_of = frame::Page {
                number: &listed.number,
                count: (drawn.len() + 1, total),
                title: &listed.title,
                continued: n > 0,
                scale: match listed.scale.is_empty() {
                    true => "none",
                    false => &listed.scale,
                },
            };
            let drawing = sheet(project, chapter.chapter, page, &page_of, setting);
            drawn.push(Drawn {
                number: listed.number.clone(),
                title: listed.title.clone(),
                scale: listed.scale.clone(),
                drawing,
            });
        }
    }
    drawn
}

fn sheet(
    project: &Project,
    chapter: &Chapter<'_>,
    filled: &Filled<'_>,
    page: &frame::Page<'_>,
    setting: Setting,
) -> Drawing {
    let mut sheet = Sheet::with(setting.paper.units(), setting.look);
    frame::draw(&mut sheet, project, chapter, page, setting);
    filled.draw(&mut sheet);
    let title = format!("{} {}: {}", page.number, project.title, page.title);
    let mut drawing = sheet.finish(&title, &filled.words()).drawing;
    drawing.magnify = setting.paper.magnify();
    drawing.paper = setting.paper.size();
    drawing
}
