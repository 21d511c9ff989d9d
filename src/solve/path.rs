//! From an assembly to its paths: cavity, framing, and each metal strip.
//!
//! Framing of layers that lie next to each other, of the same material and share, is taken as the
//! same members running through; anything else crosses, and the shares multiply. Below joists that
//! a proud frame raises, their path runs on through what fills the bay. A strip's path
//! is the layers above it, the metal, and the outer film: steel that reaches cold air
//! short-circuits what lies below it.

use super::piece::{Piece, fill_piece, metal_piece, piece};
use crate::model::{AirSpace, Assembly, Content, Framing, Layer, Openness, Strip};
use crate::physics::heat::Direction;
use crate::quantity::{Length, Share};

/// What a path goes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathKind {
    /// Between the members.
    Cavity,
    /// Through members of at least one layer.
    Framing,
    /// Through the metal strip of that index.
    Strip(usize),
}

/// One way through an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// `cavity`, `framing`, or the strip's name.
    pub name: String,
    /// What it goes through.
    pub kind: PathKind,
    /// Its share of the area.
    pub share: Share,
    /// Its layers, inside to outside, what lies beyond a ventilated gap left out.
    pub pieces: Vec<Piece>,
    /// Whether it ends at a ventilated air space, so that the outer film is that of still air.
    pub ends_at_ventilated_air: bool,
}

/// How many layers of an assembly are computed: what lies outside a ventilated gap is left out.
#[must_use]
pub fn counted_layers(assembly: &Assembly, openness: Openness) -> usize {
    let is_open = |layer: &Layer| match layer.content {
        Content::Air(AirSpace::Ventilated) => true,
        Content::Air(AirSpace::Vented) => openness == Openness::Open,
        _ => false,
    };
    assembly
        .layers
        .iter()
        .position(is_open)
        .unwrap_or(assembly.layers.len())
}

/// The paths of an assembly, their shares adding up to one.
#[must_use]
pub fn paths(assembly: &Assembly, openness: Openness, direction: Direction) -> Vec<Path> {
    let counted = counted_layers(assembly, openness);
    let ventilated = counted < assembly.layers.len();
    let in_strips: f64 = assembly
        .strips
        .iter()
        .map(|strip| strip.share.as_fraction())
        .sum();
    let mut paths = Vec::new();
    for combination in combinations(&assembly.layers[..counted]) {
        let pieces = combination.pieces(&assembly.layers[..counted], direction);
        let kind = if combination.members == 0 {
            PathKind::Cavity
        } else {
            PathKind::Framing
        };
        paths.push(Path {
            name: combination.name(&assembly.layers[..counted]),
            kind,
            share: Share::from_fraction(combination.share * (1.0 - in_strips)),
            pieces,
            ends_at_ventilated_air: ventilated,
        });
    }
    for (index, strip) in assembly.strips.iter().enumerate() {
        paths.extend(strip_paths(assembly, index, strip, direction));
    }
    paths
}

/// The paths through one strip: one, or several where a layer above it is framed.
fn strip_paths(
    assembly: &Assembly,
    index: usize,
    strip: &Strip,
    direction: Direction,
) -> Vec<Path> {
    let above = &assembly.layers[..=strip.under];
    let several = combinations(above).len() > 1;
    let path = |combination: Combination| {
        let mut pieces = combination.pieces(above, direction);
        for layer in &strip.over {
            let piece = piece(layer, None, &layer.content, direction);
            pieces.push(piece);
        }
        pieces.push(metal_piece(strip));
        let name = match several {
            false => strip.name.clone(),
            true => format!("{}, {}", strip.name, combination.name(above)),
        };
        Path {
            name,
            kind: PathKind::Strip(index),
            share: Share::from_fraction(combination.share * strip.share.as_fraction()),
            pieces,
            ends_at_ventilated_air: false,
        }
    };
    combinations(above).into_iter().map(path).collect()
}

/// The strip's path as often drawn and wrong: the metal in series with everything below it.
#[must_use]
pub fn strip_in_series(
    assembly: &Assembly,
    strip: &Strip,
    openness: Openness,
    direction: Direction,
) -> Vec<Piece> {
    let counted = counted_layers(assembly, openness);
    let cavity = Combination {
        members: 0,
        share: 1.0,
        groups: Vec::new(),
    };
    let mut pieces = cavity.pieces(&assembly.layers[..counted], direction);
    let below = pieces.split_off((strip.under + 1).min(pieces.len()));
    let over = strip
        .over
        .iter()
        .map(|layer| piece(layer, None, &layer.content, direction));
    pieces.extend(over);
    pieces.push(metal_piece(strip));
    pieces.extend(below);
    pieces
}

/// One choice of cavity or member for every group of framed layers.
struct Combination {
    /// Bit per group: set where the path runs through the members.
    members: u32,
    share: f64,
    /// For every layer, the group of framing it belongs to.
    groups: Vec<Option<usize>>,
}

impl Combination {
    fn in_member(&self, layer: usize) -> bool {
        self.groups
            .get(layer)
            .copied()
            .flatten()
            .is_some_and(|group| self.members >> group & 1 == 1)
    }

    fn pieces(&self, layers: &[Layer], direction: Direction) -> Vec<Piece> {
        let of = |(n, layer): (usize, &Layer)| match &layer.framing {
            Some(framing) if self.in_member(n) => member_pieces(layer, n, framing, direction),
            _ => vec![piece(layer, Some(n), &layer.content, direction)],
        };
        layers.iter().enumerate().flat_map(of).collect()
    }

    fn name(&self, layers: &[Layer]) -> String {
        if self.members == 0 {
            return "cavity".into();
        }
        let group_count = self
            .groups
            .iter()
            .flatten()
            .max()
            .map_or(0, |last| last + 1);
        if group_count == 1 {
            return "framing".into();
        }
        let first_of = |group: usize| {
            let layer = self.groups.iter().position(|g| *g == Some(group));
            layer.map_or("", |n| layers[n].name.as_str())
        };
        let names = (0..group_count)
            .filter(|g| self.members >> g & 1 == 1)
            .map(first_of);
        format!("framing of {}", names.collect::<Vec<_>>().join(" and "))
    }
}

/// A layer along its members: as deep as they are, and what fills it where they end short of it.
fn member_pieces(layer: &Layer, n: usize, framing: &Framing, direction: Direction) -> Vec<Piece> {
    let whole = layer.thickness.as_m();
    let below = framing.clear_below.as_m().min(whole);
    let of_depth = |depth: f64| Layer {
        thickness: Length::from_m(depth),
        ..layer.clone()
    };
    let mut pieces = Vec::new();
    if whole == 0.0 || below < whole {
        let content = Content::Solid(framing.substance.clone());
        let member = piece(&of_depth(whole - below), Some(n), &content, direction);
        pieces.push(Piece {
            name: format!("{} framing", layer.name),
            ..member
        });
    }
    if below > 0.0 {
        pieces.push(fill_piece(&of_depth(below), whole, n, direction));
    }
    pieces
}

/// Groups framed layers into members that run through, then lists every way past them.
fn combinations(layers: &[Layer]) -> Vec<Combination> {
    let mut groups: Vec<Option<usize>> = Vec::with_capacity(layers.len());
    let mut shares: Vec<f64> = Vec::new();
    for (n, layer) in layers.iter().enumerate() {
        let group = layer.framing.as_ref().map(|framing| {
            let before = n
                .checked_sub(1)
                .and_then(|b| layers[b].framing.as_ref().zip(groups[b]));
            match before {
                Some((other, group)) if framing.continues(other) => group,
                _ => {
                    shares.push(framing.share.as_fraction());
                    shares.len() - 1
                }
            }
        });
        groups.push(group);
    }
    (0..1_u32 << shares.len())
        .map(|members| {
            let share = |(group, share): (usize, &f64)| match members >> group & 1 {
                1 => *share,
                _ => 1.0 - share,
            };
            let share = shares.iter().enumerate().map(share).product();
            Combination {
                members,
                share,
                groups: groups.clone(),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::resolve_text;
    use crate::quantity::unit::INCH;
    use crate::solve::solve;
    use approx::assert_relative_eq;

    /// A deck on joists in two layers of foam, 1 in of foam over the flange, the frame proud.
    fn floor(frame: &str) -> crate::model::Project {
        let text = format!(
            "indoor: {{heating: 68 F, humidity: 50 %}}
outdoor: {{winter-mean: {{temperature: 41 F, humidity: 82 %}}}}
materials:
  deck: {{kind: panel, conductivity: 0.1 W/mK, density: 500 kg/m3, vapor: 1 perm-in}}
  fill: {{kind: foam, conductivity: 0.025 W/mK, density: 30 kg/m3, vapor: 1 perm-in}}
  fir: {{kind: wood, conductivity: 0.125 W/mK, density: 450 kg/m3, vapor: 1 perm-in}}
assemblies:
  floor:
    kind: floor
    frame: {frame}
    layers:
      - {{name: subfloor, material: deck, thickness: 1 in}}
      - {{name: bay, material: fill, thickness: 5 in, framing: {{material: fir, share: 10 %}}}}
      - {{name: lining, material: fill, thickness: 2 in}}
    strips:
      - name: flange
        metal: carbon steel
        thickness: 1/4 in
        width: 4 in
        across: 80 in
        under: subfloor
        over: [{{name: flange foam, material: fill, thickness: 1 in, bonded: true}}]
"
        );
        resolve_text("floor.yaml", &text).expect("a sound file")
    }

    // By hand, R in in/(W/(m·K)): the joist of 5 in, 1 in of the bay's foam below it, the lining.
    #[test]
    fn a_raised_joist_keeps_its_depth_and_foam_lies_below_it() {
        let project = floor("proud");
        let (case, conditions) = (&project.cases[0], &project.stops[0].conditions);
        let result = solve(&case.assembly, conditions);
        let framing = &result.ends[0].paths[1];
        let pieces = framing.path.pieces.iter();
        let pieces: Vec<(&str, i64)> = pieces
            .map(|piece| {
                let inches = piece.thickness.as_m() / INCH;
                (piece.name.as_str(), libm::round(inches * 1e6) as i64)
            })
            .collect();
        let wanted = [
            ("subfloor", 1_000_000),
            ("bay framing", 5_000_000),
            ("bay", 1_000_000),
            ("lining", 2_000_000),
        ];
        assert_eq!(pieces, wanted);
        let names = [
            "floor surface",
            "subfloor / bay framing",
            "bay framing / bay",
            "bay / lining",
            "lining / outdoors",
        ];
        assert_eq!(framing.plane_names[..], names);
        let films = 0.17 + 0.04;
        let cavity = INCH * (1.0 / 0.1 + 6.0 / 0.025 + 2.0 / 0.025) + films;
        let member = INCH * (1.0 / 0.1 + 5.0 / 0.125 + 1.0 / 0.025 + 2.0 / 0.025) + films;
        let total = |n: usize| result.ends[0].paths[n].winter.total_resistance.as_si();
        assert_relative_eq!(total(0), cavity, max_relative = 1e-12);
        assert_relative_eq!(total(1), member, max_relative = 1e-12);
        // Isothermal planes: 5 in with joists, 1 in and the lining without, the metal beside them.
        let beside = INCH * (1.0 / (0.9 * 0.025 / 5.0 + 0.1 * 0.125 / 5.0) + 3.0 / 0.025) + 0.04;
        let steel = project.cases[0].assembly.strips[0].metal.conductivity;
        let steel = steel.expect("steel conducts").as_si();
        let metal = INCH * (1.0 / 0.025 + 0.25 / steel) + 0.04;
        let share = 4.0 / 80.0;
        let lower = 0.17 + INCH / 0.1 + 1.0 / (share / metal + (1.0 - share) / beside);
        let by_planes = result.ends[0].transmittance.isothermal_planes;
        assert_relative_eq!(by_planes, 1.0 / lower, max_relative = 1e-12);
        // kg/m³ × in: the deck, foam beside and below the joists, the joists of 5 in, the lining.
        let weight = INCH * (500.0 + 30.0 * (0.9 * 6.0 + 0.1) + 450.0 * 0.1 * 5.0 + 30.0 * 2.0);
        assert_relative_eq!(
            result.weight.expect("every density is known").as_si(),
            weight,
            max_relative = 1e-12
        );
    }

    // A flush frame leaves joists as deep as their bay, and taking the proud one back does too.
    #[test]
    fn flush_joists_fill_their_bay() {
        let [flush, proud] = ["flush", "proud"].map(floor);
        let depth = |layer: &Layer| layer.member_depth().expect("joists").as_m() / INCH;
        assert_relative_eq!(depth(&flush.cases[0].assembly.layers[1]), 5.0);
        let raised = &proud.cases[0].assembly;
        assert_relative_eq!(depth(&raised.layers[1]), 5.0, max_relative = 1e-12);
        assert_relative_eq!(
            depth(&raised.unsettled().layers[1]),
            5.0,
            max_relative = 1e-12
        );
    }
}
