//! The permit packet: what every sheet says, laid out on paper.

mod assembly;
mod content;
mod cover;
mod detail;
mod tables;
mod words;

pub(in crate::report) use content::{Chapter, Group, Item, Table};

pub use super::figure::Paper;
use super::figure::{Drawing, Setting, draw_sheets};
use super::{Judged, JudgedDetail};
use crate::check::plan_review::Missing;
use crate::model::Project;
use crate::quantity::Style;
use cover::Cover;

/// What a packet is made from.
#[derive(Clone, Copy)]
pub struct Contents<'a> {
    /// The project.
    pub project: &'a Project,
    /// Its assemblies, judged.
    pub judged: &'a [Judged<'a>],
    /// Its details, judged.
    pub details: &'a [JudgedDetail<'a>],
    /// What a plan reviewer will ask for.
    pub missing: &'a [Missing],
    /// Variants of the file that aren't in the packet.
    pub left_out: &'a [String],
}

/// How a packet looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Form {
    /// The paper.
    pub paper: Paper,
    /// The reader's units.
    pub style: Style,
}

/// One sheet of the packet.
#[derive(Clone, Debug, PartialEq)]
pub struct PacketSheet {
    /// Its number, such as `A-5.1`.
    pub number: String,
    /// Its title, such as `floor, 1 of 2`.
    pub title: String,
    /// The scale of what is drawn on it; empty where nothing is to scale.
    pub scale: String,
    /// The sheet.
    pub drawing: Drawing,
}

/// Every sheet of a packet in order, the cover first.
#[must_use]
pub fn sheets(contents: &Contents<'_>, form: Form) -> Vec<PacketSheet> {
    let chapters = chapters(contents, form.style);
    let cover = Cover {
        project: contents.project,
        judged: contents.judged,
        details: contents.details,
        missing: contents.missing,
        left_out: contents.left_out,
        style: form.style,
    };
    let setting = Setting {
        paper: form.paper,
        style: form.style,
    };
    let drawn = draw_sheets(
        contents.project,
        &chapters,
        |listed| cover.chapter(listed),
        setting,
    );
    let sheet = drawn.into_iter().map(|one| PacketSheet {
        number: one.number,
        title: one.title,
        scale: one.scale,
        drawing: one.drawing,
    });
    sheet.collect()
}

/// Every chapter but the cover.
fn chapters<'a>(contents: &Contents<'a>, style: Style) -> Vec<Chapter<'a>> {
    let project = contents.project;
    let assemblies = contents.judged.iter();
    let details = contents.details.iter();
    let assemblies = assemblies.map(|one| assembly::chapter(project, one, style));
    let details = details.map(|one| detail::chapter(project, one, style));
    assemblies.chain(details).collect()
}
