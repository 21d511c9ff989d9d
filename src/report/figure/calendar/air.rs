//! The head of the calendar: the months, the air outdoors and in the room.

use super::super::sheet::{FAINT, GRAY, INK, LINE, Lettering, Sheet};
use super::across::Across;
use super::cells::APART;
use crate::model::{AirState, AssemblyKind, MonthState};
use crate::quantity::{Dimension, Style, fixed, month_short};

/// Under the months' names, and under the air.
const GAP: i32 = 170;

/// The lines of one side's air, with what stands before them.
struct Side {
    words: [String; 2],
    numbers: [[String; 12]; 2],
}

impl Side {
    fn new(
        name: &str,
        months: &[MonthState; 12],
        of: fn(&MonthState) -> AirState,
        style: Style,
    ) -> Self {
        let whole = |value: f64| fixed(value, 0).replace('-', "−");
        let air = |n: usize| of(&months[n]);
        let temperature = |n: usize| whole(style.value(air(n).temperature));
        let humidity = |n: usize| whole(style.value(air(n).humidity));
        let unit = Dimension::Temperature.unit(style);
        Self {
            words: [format!("{name}, {unit}"), "humidity, %".to_owned()],
            numbers: [
                std::array::from_fn(temperature),
                std::array::from_fn(humidity),
            ],
        }
    }
}

/// The height of the head.
pub(super) fn height(across: &Across, months: &[MonthState; 12]) -> i32 {
    let sides = 2 * (2 + i32::from(across.stacked));
    let cooled = i32::from(months.iter().any(|month| month.cooled));
    LINE * (1 + sides + cooled) + 2 * GAP
}

/// Draws it.
pub(super) fn draw(
    sheet: &mut Sheet,
    across: &Across,
    top: i32,
    months: &[MonthState; 12],
    (kind, style): (AssemblyKind, Style),
) {
    let mut y = top + LINE * 3 / 4;
    let names = std::array::from_fn(|n| month_short(n).to_owned());
    let bold = Lettering::PLAIN.bold();
    match fits(&names, across.cell(), bold) {
        true => numbers(sheet, across, y, &names, bold),
        false => numbers(
            sheet,
            across,
            y,
            &names.map(|name| name[..1].to_owned()),
            bold,
        ),
    }
    y += LINE / 4 + GAP / 2;
    rule(sheet, across, y, INK);
    y += GAP / 2;
    // The air that the section begins with stands next to it.
    let outdoors = Side::new("outdoors", months, |month| month.outdoor, style);
    let room = Side::new("room", months, |month| month.indoor, style);
    let sides = match kind {
        AssemblyKind::Roof => [room, outdoors],
        _ => [outdoors, room],
    };
    for side in sides {
        y = self::side(sheet, across, y, &side);
    }
    if months.iter().any(|month| month.cooled) {
        y += LINE;
        cooled(sheet, across, y - LINE, months);
    }
    rule(sheet, across, y + GAP / 2, FAINT);
}

fn rule(sheet: &Sheet, across: &Across, y: i32, color: plotters::style::RGBColor) {
    let (left, right) = (across.names.0, across.words.1);
    sheet.line(vec![(left, y), (right, y)], color, 14);
}

/// The air of one side; returns where the next may begin.
fn side(sheet: &mut Sheet, across: &Across, top: i32, side: &Side) -> i32 {
    let base = |y: i32| y + LINE * 3 / 4;
    let (plain, gray) = (Lettering::PLAIN, Lettering::PLAIN.color(GRAY));
    let mut y = top;
    if across.stacked {
        let words = side.words.join("; ");
        let room = across.names.1 - across.names.0;
        sheet.text(&plain.fit(&words, room), (across.names.0, base(y)), plain);
        y += LINE;
    }
    for ((words, line), set) in side.words.iter().zip(&side.numbers).zip([plain, gray]) {
        if !across.stacked {
            sheet.text(words, (across.names.0, base(y)), set);
        }
        numbers(sheet, across, base(y), line, set);
        y += LINE;
    }
    y
}

fn fits(line: &[String; 12], room: i32, set: Lettering) -> bool {
    line.iter().all(|words| set.width(words) + APART <= room)
}

/// What belongs to the months on one line: of every month, or of as many as there is room for.
fn numbers(sheet: &mut Sheet, across: &Across, base: i32, line: &[String; 12], set: Lettering) {
    let every = [1, 2, 3, 4, 6, 12_usize];
    let room = |every: usize| across.cell() * i32::try_from(every).unwrap_or(1);
    let found = every
        .into_iter()
        .find(|every| fits(line, room(*every), set));
    let Some(every) = found else { return };
    for (place, month) in across
        .months
        .months()
        .filter(|(place, _)| place % every == every / 2)
    {
        let half = set.width(&line[month]) / 2 + 1;
        let (low, high) = (across.months.ends.0 + half, across.months.ends.1 - half);
        let x = across.months.middle(place).clamp(low, high.max(low));
        sheet.text(&line[month], (x, base), set.centered());
    }
}

/// The months in which the house is cooled, by a line under them and a word.
fn cooled(sheet: &mut Sheet, across: &Across, top: i32, months: &[MonthState; 12]) {
    let is_cooled = |place: usize| months[(across.months.start + place) % 12].cooled;
    let base = top + LINE * 3 / 4;
    let word = Lettering::PLAIN.color(GRAY).centered();
    let half = word.width("cooled") / 2 + 60;
    let mut place = 0;
    while place < 12 {
        let end = (place..12).find(|n| !is_cooled(*n)).unwrap_or(12);
        if end > place {
            let (left, right) = (across.months.edge(place) + 80, across.months.edge(end) - 80);
            let (low, high) = (across.months.ends.0 + half, across.months.ends.1 - half);
            let x = ((left + right) / 2).clamp(low, high.max(low));
            let y = base - LINE / 4;
            for (from, to) in [(left, x - half), (x + half, right)] {
                if to > from {
                    sheet.line(vec![(from, y), (to, y)], GRAY, 18);
                }
            }
            if sheet.is_free(Sheet::would_take("cooled", (x, base), word)) {
                sheet.text("cooled", (x, base), word);
            }
        }
        place = end.max(place) + 1;
    }
}
