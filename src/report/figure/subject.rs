//! Figures as parts of a sheet: each drawn into the room it is given, its scale and legend below.

use super::drawing::Drawing;
use super::legend::{self, Item};
use super::lettering::wrap;
use super::look::Look;
use super::room::Room;
use super::scale::Scale;
use super::sheet::{GRAY, INK, LINE, Lettering, Point, SIZE, Sheet};
use super::title::WIDTH;
use super::{calendar, detail, house, section};
use crate::quantity::{Length, Style, UnitSystem};
use crate::study::{Judged, JudgedDetail, JudgedHouse};

/// What a figure shows.
#[derive(Clone, Copy)]
pub(in crate::report) enum Subject<'a> {
    /// The section of an assembly.
    Section(&'a Judged<'a>),
    /// The year of an assembly.
    Year(&'a Judged<'a>),
    /// A detail.
    Detail(&'a JudgedDetail<'a>),
    /// The temperature of the floor's surface at a detail.
    Curve(&'a JudgedDetail<'a>),
    /// The outside corner of a detail.
    Corner(&'a JudgedDetail<'a>),
    /// The house across and along against the road's limits.
    House(&'a JudgedHouse<'a>),
    /// Its width stack.
    WidthStack(&'a JudgedHouse<'a>),
    /// Its weight.
    Weight(&'a JudgedHouse<'a>),
}

/// A figure laid out.
enum Body<'a> {
    Section(section::Body<'a>),
    Year(calendar::Body<'a>),
    Detail(detail::Body, &'a JudgedDetail<'a>),
    Curve(&'a JudgedDetail<'a>),
    Corner(detail::corner::Body, &'a JudgedDetail<'a>),
    House(Box<house::Body<'a>>),
}

/// A figure with what stands under it, ready to be drawn.
pub(in crate::report) struct Laid<'a> {
    body: Body<'a>,
    room: Room,
    /// The scale, where the figure has one.
    pub(in crate::report) scale: Option<Scale>,
    /// The figure in words.
    pub(in crate::report) words: String,
    foot: String,
    legend: &'static [Item],
}

/// Height of the scale bar with its numbers.
const BAR: i32 = 1650;
/// Between a figure and what stands under it.
const APART: i32 = 200;

impl<'a> Subject<'a> {
    /// Lays it out; `None` where there is nothing to show, such as a year without a climate.
    pub(in crate::report) fn laid(self, style: Style, room: Room) -> Option<Laid<'a>> {
        let legend = match self {
            Self::Section(_) => legend::SECTION,
            Self::Year(_) => calendar::LEGEND,
            Self::Detail(_) => detail::LEGEND,
            Self::House(_) => house::LEGEND,
            Self::Curve(_) | Self::Corner(_) | Self::WidthStack(_) | Self::Weight(_) => &[],
        };
        let under = match self {
            Self::Section(_) | Self::Detail(_) | Self::Corner(_) | Self::House(_) => APART + BAR,
            Self::Year(_) => APART + LINE,
            Self::Curve(_) | Self::WidthStack(_) | Self::Weight(_) => 0,
        };
        let under = under + legend::height(legend, room.width);
        let free = Room {
            height: (room.height - under).max(1),
            ..room
        };
        let (body, scale, words, foot) = match self {
            Self::Section(one) => {
                let body = section::Body::new(one, style, free);
                let words = body.words(one.verdict.status.word(), style);
                let (scale, foot) = (body.scale(), body.scale().foot());
                (Body::Section(body), Some(scale), words, foot)
            }
            Self::Year(one) => {
                let body = calendar::Body::new(one, style, free)?;
                let words = calendar::in_words(one, style);
                (
                    Body::Year(body),
                    None,
                    words,
                    calendar::unit_words(style, free.width),
                )
            }
            Self::Detail(one) => {
                let body = detail::Body::new(one, style, free);
                let words = detail::words(one, one.verdict.status.word(), style);
                let scale = body.scale();
                let foot = scale.foot_of("section");
                (Body::Detail(body, one), Some(scale), words, foot)
            }
            Self::Curve(one) => {
                detail::floor_curve_height(one)?;
                let words = "The temperature of the floor's surface from the wall inward.";
                (Body::Curve(one), None, words.to_owned(), String::new())
            }
            Self::Corner(one) => {
                let body = detail::corner::Body::new(one, style, free)?;
                let words = detail::corner::in_words(one, style);
                let (scale, foot) = (body.scale(), body.scale().foot_of("corner"));
                (Body::Corner(body, one), Some(scale), words, foot)
            }
            Self::House(one) => of_house(one, house::Part::Views, style, free)?,
            Self::WidthStack(one) => of_house(one, house::Part::Width, style, free)?,
            Self::Weight(one) => of_house(one, house::Part::Weight, style, free)?,
        };
        Some(Laid {
            body,
            room,
            scale,
            words,
            foot,
            legend,
        })
    }
}

/// A part of the house's figure: it, the scale of its views, its words, its foot; `None` where there is
/// nothing to show.
fn of_house<'a>(
    one: &'a JudgedHouse<'a>,
    part: house::Part,
    style: Style,
    room: Room,
) -> Option<(Body<'a>, Option<Scale>, String, String)> {
    let body = house::Body::new(one, part, style, room);
    if body.is_empty() {
        return None;
    }
    let scale = body.scale();
    let foot = scale.map_or_else(String::new, |scale| scale.foot_of("views"));
    Some((
        Body::House(Box::new(body)),
        scale,
        house::in_words(one, part, style),
        foot,
    ))
}

/// The height a figure gets on a sheet of its own, if it doesn't need more.
const HEIGHT: i32 = 18_000;
/// Empty edge of a sheet of its own.
const EDGE: i32 = 150;
const ON_SCREEN: &str = "drawn in proportion. A screen isn't to scale: measure by the bar.";

impl<'a> Subject<'a> {
    /// The figure alone, as wide as on letter paper, for a screen; `None` where there is nothing to
    /// show.
    pub(in crate::report) fn drawing(
        self,
        title: &str,
        style: Style,
        look: Look,
    ) -> Option<Drawing> {
        let room = Room {
            left: EDGE,
            top: EDGE,
            width: match self {
                Self::Curve(_) => WIDTH / 2,
                _ => WIDTH,
            },
            height: HEIGHT,
            magnify: 1.0,
            // The numbers of a detail stand in tables.
            strict: matches!(self, Self::Detail(_)),
        };
        let mut laid = self.laid(style, room)?;
        match self {
            Self::Section(_) => laid.foot = format!("Layers {ON_SCREEN}"),
            Self::Detail(_) => laid.foot = format!("Section {ON_SCREEN}"),
            Self::Corner(_) => laid.foot = format!("Corner {ON_SCREEN}"),
            Self::House(_) if laid.scale.is_some() => laid.foot = format!("Views {ON_SCREEN}"),
            Self::House(_) | Self::WidthStack(_) | Self::Weight(_) => {}
            Self::Year(_) | Self::Curve(_) => {}
        }
        let mut sheet = Sheet::with((room.width + 2 * EDGE, laid.height() + 2 * EDGE), look);
        laid.draw(&mut sheet, style);
        Some(sheet.finish(title, &laid.words).drawing)
    }
}

impl Body<'_> {
    /// What stands under the words of the scale: layers and places that a detail's drawing leaves out.
    fn remark(&self) -> String {
        match self {
            Self::Detail(body, one) => {
                let remark = [detail::left_out(one), body.elsewhere(one)];
                remark.join(" ").trim().to_owned()
            }
            _ => String::new(),
        }
    }
}

impl Laid<'_> {
    fn body_height(&self) -> i32 {
        match &self.body {
            Body::Section(body) => body.height(),
            Body::Year(body) => body.height(),
            Body::Detail(body, _) => body.height(),
            Body::Curve(one) => detail::floor_curve_height(one).unwrap_or(0),
            Body::Corner(body, _) => body.height(),
            Body::House(body) => body.height(),
        }
    }

    /// The height it takes with what stands under it.
    pub(in crate::report) fn height(&self) -> i32 {
        let under = match (self.scale, self.foot.is_empty()) {
            (Some(_), _) => APART + BAR,
            (None, false) => APART + LINE,
            (None, true) if self.legend.is_empty() => 0,
            (None, true) => APART,
        };
        self.body_height() + under + legend::height(self.legend, self.room.width)
    }

    /// Draws it.
    pub(super) fn draw(&self, sheet: &mut Sheet, style: Style) {
        match &self.body {
            Body::Section(body) => body.draw(sheet, style),
            Body::Year(body) => body.draw(sheet, style),
            Body::Detail(body, one) => body.draw(sheet, one, style),
            Body::Curve(one) => detail::floor_curve(sheet, self.room, one, style),
            Body::Corner(body, one) => body.draw(sheet, one, style),
            Body::House(body) => body.draw(sheet),
        }
        let Room { left, top, .. } = self.room;
        let mut y = top + self.body_height() + APART;
        match self.scale {
            Some(scale) => {
                let middle = y + 620;
                bar(sheet, (left, middle), scale, style);
                self.beside_bar(sheet, (left + BAR_WIDTH + 1800, middle));
                y += BAR;
            }
            None if self.foot.is_empty() => {}
            None => {
                let at = (left, y + SIZE * 8 / 10);
                sheet.text(&self.foot, at, Lettering::PLAIN.color(GRAY));
                y += LINE;
            }
        }
        legend::draw(sheet, (left, y + SIZE), self.room.width, self.legend);
    }
}

impl Laid<'_> {
    /// The words for the scale beside its bar, then what else is said of the figure, in as many lines as
    /// they need there.
    fn beside_bar(&self, sheet: &mut Sheet, (x, middle): Point) {
        let set = |words: &str| wrap(words, SIZE, false, self.room.right() - x);
        let mut lines = set(&self.foot);
        lines.extend(set(&self.body.remark()));
        let above = LINE * i32::try_from(lines.len().saturating_sub(1)).unwrap_or(0) / 2;
        let mut baseline = middle + SIZE * 36 / 100 - above;
        for line in lines {
            sheet.text(&line, (x, baseline), Lettering::PLAIN);
            baseline += LINE;
        }
    }
}

/// The longest a scale bar gets.
const BAR_WIDTH: i32 = 6500;

/// A bar in the reader's unit above and in the other below, so that a copy that was shrunk can
/// still be measured.
fn bar(sheet: &mut Sheet, (x, y): Point, scale: Scale, style: Style) {
    for (units, y, up) in [(style.units, y, true), (style.other().units, y, false)] {
        let step = step(scale, units);
        let width = scale.on_paper(step).round() as i32;
        let count = (BAR_WIDTH / width.max(1)).clamp(1, 4);
        let edge = |n: i32| x + width * n;
        let (from, to) = match up {
            true => (y - 130, y),
            false => (y, y + 130),
        };
        for n in 0..count {
            if (n % 2 == 0) == up {
                sheet.fill((edge(n), from), (edge(n + 1), to), INK);
            }
        }
        sheet.outline((x, from), (edge(count), to), INK, 18);
        let all = Length::from_m(step.as_m() * f64::from(count));
        let end = Style { units }.show(all);
        let baseline = match up {
            true => from - 70,
            false => to + SIZE * 73 / 100 + 70,
        };
        sheet.text("0", (x, baseline), Lettering::PLAIN);
        sheet.text(&end, (edge(count), baseline), Lettering::PLAIN.right());
    }
}

/// The longest round length of which one takes at most half of the bar.
fn step(scale: Scale, units: UnitSystem) -> Length {
    let steps: &[f64] = match units {
        UnitSystem::Imperial => &[120.0, 60.0, 36.0, 24.0, 12.0, 6.0, 3.0, 2.0, 1.0, 0.5],
        UnitSystem::Metric => &[2000.0, 1000.0, 500.0, 200.0, 100.0, 50.0, 20.0, 10.0, 5.0],
    };
    let unit = match units {
        UnitSystem::Imperial => 0.0254,
        UnitSystem::Metric => 1e-3,
    };
    let mut lengths = steps.iter().map(|n| Length::from_m(n * unit));
    let fits = |length: &Length| scale.on_paper(*length) <= f64::from(BAR_WIDTH) / 2.0;
    let found = lengths.clone().find(fits);
    found.or_else(|| lengths.next_back()).unwrap_or_default()
}
