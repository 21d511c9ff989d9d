//! The permit packet: what every sheet says, laid out on paper.

mod assembly;
mod boxes;
mod calculation;
mod content;
mod cover;
mod detail;
mod house;
mod html;
mod materials;
mod notes;
mod tables;
mod words;

pub(in crate::report) use calculation::line as step_line;
pub(in crate::report) use content::{Calculation, Chapter, Group, Item, Table, Width};

pub use calculation::Calculations;
pub use html::page;

pub use super::figure::Paper;
use super::figure::{Drawing, Look, Setting, draw_sheets, lacks, shown_of};
use crate::check::plan_review::Missing;
use crate::model::{Assembly, DetailCase, Project};
use crate::quantity::{Date, Style, UnitSystem};
use crate::study::{Judged, JudgedBoxes, JudgedDetail, JudgedHouse};
use calculation::Worked;
use cover::Cover;
use words::Sources;

/// What a packet is made from.
#[derive(Clone, Copy)]
pub struct Contents<'a> {
    /// The project.
    pub project: &'a Project,
    /// Its assemblies, judged.
    pub judged: &'a [Judged<'a>],
    /// Its details, judged.
    pub details: &'a [JudgedDetail<'a>],
    /// Its details in three dimensions, judged.
    pub volumes: &'a [JudgedBoxes<'a>],
    /// Its house, judged, as drawn or under the packet's variant; `None` where the file has none.
    pub house: Option<&'a JudgedHouse<'a>>,
    /// What a plan reviewer will ask for.
    pub missing: &'a [Missing],
    /// Variants of the file that aren't in the packet.
    pub left_out: &'a [String],
    /// Parts of the file that aren't asked for.
    pub omitted: &'a [String],
    /// Which hand calculations it has.
    pub calculations: Calculations,
}

/// How a packet looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Form {
    /// The paper.
    pub paper: Paper,
    /// The reader's units.
    pub style: Style,
    /// Hatching and color.
    pub look: Look,
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
    let cover = cover(contents, form.style, !form.paper.is_large());
    let setting = Setting {
        paper: form.paper,
        style: form.style,
        look: form.look,
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

/// The day a packet's files are dated: the one stated, else the first of the century, so that the
/// same input gives the same bytes.
#[must_use]
pub fn date(project: &Project) -> Option<Date> {
    project.title_data.date.or(Date::new(2000, 1, 1))
}

/// Whether the sheets' lettering has a character.
#[must_use]
pub fn has_letter(character: char) -> bool {
    lacks(character.encode_utf8(&mut [0; 4])).is_empty()
}

/// The smallest scale of sections and details: 1/2 in to the foot, or 1:20.
fn smallest(form: Form) -> f64 {
    match form.style.units {
        UnitSystem::Imperial => 24.0,
        UnitSystem::Metric => 20.0,
    }
}

/// The room that a section or a detail always has on a sheet, mm: as on letter paper.
const ROOM: (f64, f64) = (90.0, 75.0);

/// Whether an assembly's section fits a sheet at a standard scale.
#[must_use]
pub fn section_fits(assembly: &Assembly, form: Form) -> bool {
    assembly.thickness().as_m() * 1e3 <= ROOM.1 * smallest(form)
}

/// Whether a detail fits a sheet at a standard scale.
#[must_use]
pub fn detail_fits(case: &DetailCase, form: Form) -> bool {
    let (width, height) = shown_of(case);
    let fits = |meters: f64, room: f64| meters * 1e3 <= room * smallest(form);
    fits(width, ROOM.0) && fits(height, ROOM.1)
}

/// The cover; where the sheets' title blocks have no room for a stamp, it has.
fn cover<'a>(contents: &Contents<'a>, style: Style, stamp: bool) -> Cover<'a> {
    Cover {
        project: contents.project,
        judged: contents.judged,
        details: contents.details,
        volumes: contents.volumes,
        house: contents.house,
        missing: contents.missing,
        left_out: contents.left_out,
        omitted: contents.omitted,
        style,
        stamp,
    }
}

/// Every chapter but the cover: each subject with its hand calculations, then what holds for all.
fn chapters<'a>(contents: &Contents<'a>, style: Style) -> Vec<Chapter<'a>> {
    let mut said = Said {
        style,
        worked: Worked::new(
            contents.calculations,
            contents.judged,
            contents.details,
            style,
        ),
        sources: Sources::default(),
    };
    let mut chapters: Vec<Chapter<'a>> = Vec::new();
    for one in contents.judged {
        chapters.push(assembly::chapter(one, &mut said));
    }
    for one in contents.details {
        chapters.push(detail::chapter(one, &mut said));
    }
    for one in contents.volumes {
        chapters.push(boxes::chapter(one, &mut said));
    }
    if let Some(one) = contents.house {
        chapters.push(house::chapter(one, &mut said));
    }
    chapters.push(notes::chapter(contents, &said.sources, style));
    chapters
}

/// What is said once in a packet, chapter after chapter.
struct Said<'a> {
    style: Style,
    worked: Worked<'a>,
    sources: Sources,
}
