//! The house on its trailer: what of the road's limits and the rating is left, seen at a glance.
//!
//! Answers first, then both views at one scale with the height stack beside them, the width stack
//! enlarged, and the weight as a bar. Only what the study knows is drawn: no wheels, no sills.

mod answer;
mod beyond;
mod chain;
mod end;
mod load;
mod paper;
mod shape;
mod side;
mod stack;
#[cfg(test)]
mod tests;
mod views;

use super::hatch;
use super::legend::{Item, patch};
use super::lettering::wrap;
use super::room::Room;
use super::scale::Scale;
use super::sheet::{Figure, GRAY, INK, LINE, Lettering, SIZE, Sheet};
use super::title::{Frame, LETTER};
use crate::check::house::{TONGUE, WEIGHT, WIDTH};
use crate::model::Project;
use crate::quantity::Style;
use crate::report::house::words;
use crate::study::JudgedHouse;
use answer::Answers;
use load::Load;
use stack::Stack;
use views::{RULE, Views};

/// From this width on terms stand in both units.
const WIDE: i32 = 18_000;
/// Between the parts of the figure.
const APART: i32 = 450;
/// The least height given to the views.
const LEAST: i32 = 21_000;

/// What its lines mean.
pub(super) const LEGEND: &[Item] = &[
    ("limit of road or rating", |sheet, (x, y)| {
        sheet.dashes(&[(x, y), (x + 900, y)], RULE.0, INK, RULE.1);
    }),
    ("beyond it", |sheet, at| hatch::beyond(sheet, &patch(at))),
    (
        "top of what stands above the roof, its place not stated",
        |sheet, (x, y)| {
            sheet.dashes(&[(x, y), (x + 900, y)], (120.0, 90.0), INK, 18);
        },
    ),
];

/// Draws it.
pub(super) fn draw(project: &Project, one: &JudgedHouse<'_>, style: Style) -> Figure {
    let word = one.verdict.status.word();
    let sites = "Road limits and the rating are those stated in the file.";
    let cautions = [words::CAUTIONS[0], words::CAUTIONS[1], words::CAUTIONS[3]];
    let frame = Frame::about(project, &one.name(), word, sites, []);
    let frame = frame.with_legend(LEGEND).with_cautions(&cautions);
    let room = Room::within(&frame);
    let body = Body::new(one, Part::All, style, room);
    let size = room.sheet_height(body.height());
    let mut sheet = Sheet::new((LETTER.0, size));
    body.draw(&mut sheet);
    let foot = body.scale().map(|scale| scale.foot_of("views"));
    frame.draw(&mut sheet, size, &foot.unwrap_or_default());
    let title = format!("{}: {}", project.title, one.name());
    sheet.finish(&title, &in_words(one, Part::All, style))
}

/// Which part of the figure: small paper hasn't room for all of it at once.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// All of it.
    All,
    /// The answers and both views.
    Views,
    /// The width stack.
    Width,
    /// The weight.
    Weight,
}

/// How much stands around the views, less and less where they would have no room.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Around {
    /// The answers, and the length's sum.
    All,
    /// The answers.
    Answers,
    /// The margins alone.
    Margins,
    /// Nothing: the sheet's face tells.
    Nothing,
}

/// The figure in the room it is given.
pub(super) struct Body<'a> {
    room: Room,
    answers: Option<Answers>,
    views: Option<Views<'a>>,
    stack: Option<Stack>,
    load: Option<Load>,
    notes: Vec<String>,
}

impl<'a> Body<'a> {
    /// Lays it out; where the height is given with as much around the views as leaves room for them.
    pub(super) fn new(one: &'a JudgedHouse<'a>, part: Part, style: Style, room: Room) -> Self {
        let all = Self::with(one, part, Around::All, style, room);
        if !room.strict || part != Part::Views || all.height() <= room.height {
            return all;
        }
        let less = [Around::Answers, Around::Margins, Around::Nothing];
        let mut bodies = less.map(|around| Self::with(one, part, around, style, room));
        let fits = bodies.iter().position(|body| body.height() <= room.height);
        bodies.swap(0, fits.unwrap_or(2));
        let [body, ..] = bodies;
        body
    }

    fn with(
        one: &'a JudgedHouse<'a>,
        part: Part,
        around: Around,
        style: Style,
        room: Room,
    ) -> Self {
        let is_in = |which: Part| part == Part::All || part == which;
        let (width, magnify) = (room.width, room.magnify);
        let answers = (is_in(Part::Views) && around != Around::Nothing)
            .then(|| Answers::new(one, style, width, around == Around::Margins));
        let stack = is_in(Part::Width).then(|| Stack::new(one, style, width, magnify));
        let load = is_in(Part::Weight).then(|| Load::new(one, style, width, !room.strict));
        let notes = match part {
            Part::All => wrap(&without(one).join(" "), SIZE, false, width),
            // They stand beside the figure.
            _ => Vec::new(),
        };
        let mut body = Self {
            room,
            answers,
            views: None,
            stack: stack.flatten(),
            load,
            notes,
        };
        if is_in(Part::Views) {
            let least = if room.strict { 1 } else { LEAST };
            let free = (room.height - body.height() - APART).max(least);
            let sum = around == Around::All;
            body.views = Views::new(one, style, (width, free), magnify, sum);
        }
        body
    }

    /// Whether there is anything to show.
    pub(super) fn is_empty(&self) -> bool {
        self.height() <= 0
    }

    /// The scale of the views, where there are any.
    pub(super) fn scale(&self) -> Option<Scale> {
        self.views.as_ref().map(Views::scale)
    }

    /// The height it takes.
    pub(super) fn height(&self) -> i32 {
        let parts = [
            self.answers.as_ref().map(Answers::height),
            self.views.as_ref().map(Views::height),
            self.stack.as_ref().map(Stack::height),
            self.load.as_ref().map(Load::height),
        ];
        let parts = parts.into_iter().flatten().map(|height| height + APART);
        let notes = LINE * i32::try_from(self.notes.len()).unwrap_or(0);
        parts.sum::<i32>() - APART + notes
    }

    /// Draws it.
    pub(super) fn draw(&self, sheet: &mut Sheet) {
        let Room { left, mut top, .. } = self.room;
        if let Some(answers) = &self.answers {
            answers.draw(sheet, (left, top));
            top += answers.height() + APART;
        }
        if let Some(views) = &self.views {
            views.draw(sheet, (left, top));
            top += views.height() + APART;
        }
        if let Some(stack) = &self.stack {
            stack.draw(sheet, (left, top));
            top += stack.height() + APART;
        }
        if let Some(load) = &self.load {
            load.draw(sheet, (left, top));
            top += load.height() + SIZE;
        }
        for line in &self.notes {
            sheet.text(line, (left, top), Lettering::PLAIN.color(GRAY));
            top += LINE;
        }
    }
}

/// What isn't drawn since the file doesn't tell it.
pub(in crate::report) fn without(one: &JudgedHouse<'_>) -> Vec<String> {
    let mut notes = Vec::new();
    if one.case.house.shell.is_none() {
        return vec!["Without measures there are no views to draw.".to_owned()];
    }
    notes.push(
        "Frame, wheels and tongue are drawn as what is known of them: the frame's top, and the places \
         of axles and coupler along the road."
            .to_owned(),
    );
    if one.case.house.trailer.deck_height.is_none() {
        notes.push("How high the frame's top lies isn't stated: heights are above it.".to_owned());
    }
    if side::has_placed(one) {
        notes.push("Openings are shown by their width and place; sills aren't stated.".to_owned());
    }
    let names = side::left_out(one);
    if !names.is_empty() {
        let names = names.join(", ");
        notes.push(format!(
            "Not drawn, since their places along a wall aren't stated: {names}."
        ));
    }
    notes.extend(words::not_stated(one));
    notes
}

/// The figure in words.
pub(super) fn in_words(one: &JudgedHouse<'_>, part: Part, style: Style) -> String {
    let findings = one.worst_first().into_iter();
    let told = findings.filter(|finding| match part {
        Part::All | Part::Views => true,
        Part::Width => finding.check == &WIDTH,
        Part::Weight => finding.check == &WEIGHT || finding.check == &TONGUE,
    });
    let each = told.map(|finding| {
        let word = finding.status.word();
        format!(
            "{}, computed: {word}. {}",
            finding.check.title,
            finding.sentence(style)
        )
    });
    let views = match part {
        _ if one.case.house.shell.is_none() => "The weight of the house as a bar.",
        Part::All => {
            "The house across and along to one scale against the road's limits, what stands out \
             beyond the deck enlarged, its weight as a bar."
        }
        Part::Views => "The house across and along to one scale against the road's limits.",
        Part::Width => "What stands out beyond the deck, enlarged, against the road's width.",
        Part::Weight => "The weight of house and trailer as a bar against the rating.",
    };
    std::iter::once(views.to_owned())
        .chain(each)
        .collect::<Vec<_>>()
        .join(" ")
}
