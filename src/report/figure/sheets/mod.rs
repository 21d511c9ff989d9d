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
    /// Its number, such as `A-5.01`.
    pub(in crate::report) number: String,
    /// Its title.
    pub(in crate::report) title: String,
    /// The scale of what is drawn on it, in words; empty where nothing is to scale.
    pub(in crate::report) scale: String,
    /// The sheet itself.
    pub(in crate::report) drawing: Drawing,
}

/// A chapter's part of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::report) struct Part {
    /// The chapter's name.
    pub(in crate::report) chapter: String,
    /// The scale of what is drawn, in words; empty where nothing is.
    pub(in crate::report) scale: String,
}

/// How one sheet is listed before it is drawn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::report) struct Listed {
    /// Its number.
    pub(in crate::report) number: String,
    /// What stands on it.
    pub(in crate::report) parts: Vec<Part>,
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

    fn panels(&self) -> impl Iterator<Item = Panel<'a, '_>> {
        let count = self.pages.len();
        let each = self.pages.iter().enumerate();
        each.map(move |(n, page)| Panel {
            chapter: self.chapter,
            page,
            part: (n, count),
        })
    }
}

/// A page on a panel of a sheet, and which of the chapter's pages it is.
#[derive(Clone, Copy)]
struct Panel<'a, 'p> {
    chapter: &'p Chapter<'a>,
    page: &'p Filled<'a>,
    part: (usize, usize),
}

impl Panel<'_, '_> {
    fn title(&self) -> String {
        match self.part {
            (_, 1) => self.chapter.name.clone(),
            (n, count) => format!("{}, {} of {count}", self.chapter.name, n + 1),
        }
    }
}

/// How the sheet that these panels stand on is listed.
fn listed(panels: &[Panel<'_, '_>], number: &str) -> Listed {
    let mut scales: Vec<String> = Vec::new();
    let mut parts: Vec<Part> = Vec::new();
    for panel in panels {
        let scale = panel.page.scale();
        parts.push(Part {
            chapter: panel.chapter.name.clone(),
            scale: scale.clone(),
        });
        if !scale.is_empty() && !scales.contains(&scale) {
            scales.push(scale);
        }
    }
    let titles: Vec<String> = panels.iter().map(Panel::title).collect();
    Listed {
        number: number.to_owned(),
        parts,
        title: titles.join("; "),
        scale: scales.join("; "),
    }
}

/// Every sheet as it is listed: the panels one after another, as many on a sheet as the paper has.
fn list(panels: &[Panel<'_, '_>], prefix: &str, paper: Paper) -> Vec<Listed> {
    let sheets = panels.chunks(paper.panels()).enumerate();
    sheets
        .map(|(n, panels)| listed(panels, &number(prefix, n)))
        .collect()
}

/// `A-5.01`, or `1` without a prefix.
fn number(prefix: &str, n: usize) -> String {
    match prefix.is_empty() {
        true => (n + 1).to_string(),
        false => format!("{prefix}.{n:02}"),
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
    let with_cover = |cover: &Chapter<'a>| -> Vec<Listed> {
        let cover = Paged::new(cover, setting);
        let all: Vec<Panel<'_, '_>> = cover
            .panels()
            .chain(paged.iter().flat_map(Paged::panels))
            .collect();
        list(&all, prefix, setting.paper)
    };
    // How many sheets the cover takes hangs on the list, which has the cover's sheets in it: once
    // more settles it, since the list then keeps its length.
    let first = with_cover(&cover(&[]));
    let second = with_cover(&cover(&first));
    let cover = cover(&second);
    let cover = Paged::new(&cover, setting);
    let all: Vec<Panel<'_, '_>> = cover
        .panels()
        .chain(paged.iter().flat_map(Paged::panels))
        .collect();
    let listed = list(&all, prefix, setting.paper);
    let total = listed.len();
    let sheets = all.chunks(setting.paper.panels()).zip(listed).enumerate();
    let drawn = sheets.map(|(n, (panels, listed))| {
        let page = frame::Page {
            number: &listed.number,
            count: (n + 1, total),
            title: &listed.title,
            scale: match listed.scale.is_empty() {
                true => "none",
                false => &listed.scale,
            },
        };
        let drawing = sheet(project, panels, &page, setting);
        Drawn {
            number: listed.number,
            title: listed.title,
            scale: listed.scale,
            drawing,
        }
    });
    drawn.collect()
}

fn sheet(
    project: &Project,
    panels: &[Panel<'_, '_>],
    page: &frame::Page<'_>,
    setting: Setting,
) -> Drawing {
    let mut sheet = Sheet::with(setting.paper.units(), setting.look);
    let stops = panels.iter().map(|panel| panel.chapter.stop);
    frame::draw(&mut sheet, project, stops, page, setting);
    let mut words = Vec::new();
    for (n, panel) in panels.iter().enumerate() {
        frame::title(
            &mut sheet,
            panel.chapter,
            panel.part.0 > 0,
            setting.paper,
            n,
        );
        panel.page.draw(&mut sheet, frame::shift(setting.paper, n));
        words.push(panel.page.words());
    }
    words.retain(|words| !words.is_empty());
    let title = format!("{} {}: {}", page.number, project.title, page.title);
    let mut drawing = sheet.finish(&title, &words.join(" ")).drawing;
    drawing.magnify = setting.paper.magnify();
    drawing.paper = setting.paper.size();
    drawing
}
