//! How a finished drawing looks: with or without material hatching, in color or in black alone.

use super::drawing::{At, Drawing, Mark, Rgb};
use super::hatch;
use super::sheet::{BAND, DAMP, FAINT, PAPER, WET};
use plotters::style::RGBColor;

/// How drawings look.
///
/// # Example
/// ```
/// use dewmargin::quantity::{Style, UnitSystem};
/// use dewmargin::report::figure;
/// use dewmargin::study::Study;
///
/// let text = include_str!("../../../examples/cabin-floor.yaml");
/// let project = dewmargin::input::resolve_text("cabin-floor.yaml", text).unwrap();
/// let style = Style { units: UnitSystem::Imperial };
/// let drawing = figure::section(&project, &Study::of(&project).assemblies[0], style);
/// let look = figure::Look { mono: true, ..figure::Look::default() };
/// assert!(!drawing.looking(look).svg().contains("#9a3b12"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// Whether materials are hatched. Without it outlines and solid metal are left; what is wet,
    /// frozen or drying is hatched in any case.
    pub hatching: bool,
    /// Whether only black on white is used, without gray.
    pub mono: bool,
}

impl Default for Look {
    fn default() -> Self {
        Self {
            hatching: true,
            mono: false,
        }
    }
}

const BLACK: Rgb = (0, 0, 0);
const WHITE: Rgb = (255, 255, 255);
/// From one dot of the margin band to the next, and half a dot.
const DOTS: (i32, i32) = (140, 9);
/// The same in the darkest tint of humidity.
const DENSE: (i32, i32) = (100, 8);
/// Dashes of a hatching and the gaps between them; lines shorter than the third stay whole.
const BROKEN: (f64, f64) = (140.0, 60.0);
const SHORT: i32 = 200;
/// A membrane's dashes: their length, and the gap after each.
const DASHES: (i32, i32) = (110, 60);

impl Drawing {
    /// The same drawing in another look.
    #[must_use]
    pub fn looking(mut self, look: Look) -> Self {
        self.marks = look.over(self.marks);
        self
    }
}

impl Look {
    /// Marks as they look.
    pub(super) fn over(self, marks: Vec<Mark>) -> Vec<Mark> {
        let shown = marks.into_iter().flat_map(|mark| match mark {
            Mark::Hatching(marks) if self.hatching => {
                let marks = if self.mono {
                    marks.into_iter().map(broken).collect()
                } else {
                    marks
                };
                vec![Mark::Hatching(self.over(marks))]
            }
            Mark::Hatching(_) => Vec::new(),
            mark if self.mono => vec![in_black(mark)],
            mark => vec![mark],
        });
        shown.collect()
    }
}

/// Light lines of a hatching broken into dashes, so that without gray they still stand back behind
/// what is drawn over them; crosses and points stay whole.
fn broken(mark: Mark) -> Mark {
    let (lines, color, width) = match mark {
        Mark::Line {
            points,
            color,
            width,
        } if is(color, FAINT) => (vec![points], color, width),
        Mark::Lines {
            lines,
            color,
            width,
        } if is(color, FAINT) => (lines, color, width),
        other => return other,
    };
    let dashed = |line: Vec<At>| match &line[..] {
        [one, other] if (one.0 - other.0).abs().max((one.1 - other.1).abs()) < SHORT => vec![line],
        _ => hatch::dashes(&line, BROKEN),
    };
    Mark::Lines {
        lines: lines.into_iter().flat_map(dashed).collect(),
        color,
        width,
    }
}

/// A mark in black or white. The margin band and what is wet become dots and a membrane dashes; other fillings
/// go to what they are nearer to.
fn in_black(mark: Mark) -> Mark {
    match mark {
        Mark::Line {
            points,
            color,
            width,
        } => Mark::Line {
            points,
            color: of_line(color),
            width,
        },
        Mark::Lines {
            lines,
            color,
            width,
        } => Mark::Lines {
            lines,
            color: of_line(color),
            width,
        },
        Mark::Fill { from, to, color }
            if is(color, BAND) || is(color, WET) || is(color, DAMP[1]) =>
        {
            dotted(&box_of(from, to), DOTS)
        }
        Mark::Fill { from, to, color } if is(color, DAMP[2]) => dotted(&box_of(from, to), DENSE),
        Mark::Fill { from, to, color } if is(color, FAINT) => dashed(from, to),
        Mark::Fill { from, to, color } => Mark::Fill {
            from,
            to,
            color: of_filling(color),
        },
        Mark::Polygon { points, color } if is(color, BAND) || is(color, WET) => {
            dotted(&points, DOTS)
        }
        Mark::Polygon { points, color } => Mark::Polygon {
            points,
            color: of_filling(color),
        },
        Mark::Outline {
            from,
            to,
            color,
            width,
        } => Mark::Outline {
            from,
            to,
            color: of_line(color),
            width,
        },
        Mark::Disc { at, radius, color } => Mark::Disc {
            at,
            radius,
            color: of_filling(color),
        },
        Mark::Ring {
            at,
            radius,
            color,
            width,
        } => Mark::Ring {
            at,
            radius,
            color: of_line(color),
            width,
        },
        Mark::Words {
            at,
            text,
            size,
            face,
            color,
            anchor,
        } => Mark::Words {
            at,
            text,
            size,
            face,
            color: of_line(color),
            anchor,
        },
        Mark::Hatching(marks) => Mark::Hatching(marks),
    }
}

fn is((red, green, blue): Rgb, color: RGBColor) -> bool {
    RGBColor(red, green, blue) == color
}

/// Lines and words are black, unless they take something away.
fn of_line(color: Rgb) -> Rgb {
    if is(color, PAPER) { WHITE } else { BLACK }
}

fn of_filling((red, green, blue): Rgb) -> Rgb {
    let bright = u32::from(red) * 30 + u32::from(green) * 59 + u32::from(blue) * 11;
    if bright > 12_750 { WHITE } else { BLACK }
}

fn box_of(from: At, to: At) -> [At; 4] {
    [from, (to.0, from.1), to, (from.0, to.1)]
}

/// Dots in staggered rows inside a polygon: from one to the next, and half of one.
fn dotted(corners: &[At], (apart, half): (i32, i32)) -> Mark {
    let mut lines = Vec::new();
    for row in hatch::parallel(corners, (0.0, f64::from(apart), 0.0)) {
        let [(one, y), (other, _)] = row[..] else {
            continue;
        };
        let (left, right) = (one.min(other) + half, one.max(other) - half);
        let offset = if y.div_euclid(apart) % 2 == 0 {
            0
        } else {
            apart / 2
        };
        let first = (left - offset).div_euclid(apart) + 1;
        let places = (first..).map(|n| n * apart + offset);
        for x in places.take_while(|x| *x <= right) {
            lines.push(vec![(x - half, y), (x + half, y)]);
        }
    }
    Mark::Lines {
        lines,
        color: BLACK,
        width: 2 * half.unsigned_abs(),
    }
}

/// A sheet as dashes along its longer side, as thick as it is.
fn dashed(from: At, to: At) -> Mark {
    let (width, height) = (to.0 - from.0, to.1 - from.1);
    let lies = width >= height;
    let (start, end) = if lies { (from.0, to.0) } else { (from.1, to.1) };
    let middle = if lies {
        i32::midpoint(from.1, to.1)
    } else {
        i32::midpoint(from.0, to.0)
    };
    let point = |at: i32| if lies { (at, middle) } else { (middle, at) };
    let starts = (0..).map(|n| start + n * (DASHES.0 + DASHES.1));
    let dashes = starts.take_while(|at| *at < end);
    Mark::Lines {
        lines: dashes
            .map(|at| vec![point(at), point((at + DASHES.0).min(end))])
            .collect(),
        color: BLACK,
        width: width.min(height).unsigned_abs(),
    }
}
