//! What can be bought, and how thin and thick is looked at.

use super::text::SizedLayer;
use super::{Entry, Start, sized_in};
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::material::sold;
use crate::model::{Assembly, Content, Layer, LayerPlace, SizedPart};
use crate::quantity::{Length, Offset, Thickness, inches, unit::INCH};

/// A thickness to resolve a new layer with; every other one is set on the model.
pub(super) const START: Thickness = Thickness::Length(Length::from_m(INCH));
/// More thicknesses than a dealer's list has.
const MOST_SOLD: usize = 50;

/// Material, thicknesses sold with their source, least and greatest looked at.
type Stock = (String, Vec<Length>, String, (Length, Length));

impl Entry<'_> {
    pub(super) fn stock(
        &self,
        (start, parts): (&Start, &[SizedPart]),
        within: &[Word],
        problems: &mut Problems,
    ) -> Option<Stock> {
        let name = self.layer_name();
        let (assembly, place) = sized_in(parts, within, &name.value.0)?;
        let layer = assembly.layer_at(place)?;
        self.hangs_on_its_thickness(layer, problems)?;
        let (sold, source) = match &self.text.sold {
            Some(list) => (
                self.own_list(list, problems)?,
                "this file's list".to_owned(),
            ),
            None => self.common_list(layer, self.material(start, within), problems)?,
        };
        let between = self.between(assembly, place, &sold, problems)?;
        let label = match &layer.content {
            Content::Solid(substance) => substance.label.clone(),
            Content::Air(_) => "air".to_owned(),
        };
        let material = match &self.text.layer {
            SizedLayer::New(new) => new.material.value.0.clone(),
            SizedLayer::Named(_) => label,
        };
        Some((material, sold, source, between))
    }

    /// The material as the file writes it.
    fn material<'a>(&'a self, start: &'a Start, within: &[Word]) -> Option<&'a At<Word>> {
        let name = match &self.text.layer {
            SizedLayer::New(new) => return Some(&new.material),
            SizedLayer::Named(name) => name,
        };
        let holders = start.assemblies.iter();
        let holders = holders.filter(|(at, _)| within.contains(&at.value));
        let layers = holders.flat_map(|(_, text)| {
            let strips = text.strips.iter().flatten();
            let over = strips.flat_map(|strip| strip.over.iter().flatten());
            text.layers.iter().chain(over)
        });
        let mut named = layers.filter(|layer| layer.name.value == name.value);
        named.next().and_then(|layer| layer.material.as_ref())
    }

    /// A thickness that changes nothing can't be sized.
    fn hangs_on_its_thickness(&self, layer: &Layer, problems: &mut Problems) -> Option<()> {
        let name = &layer.name;
        let wrong = match &layer.content {
            Content::Air(_) => None,
            Content::Solid(substance) if substance.own_thickness.is_some() => Some((
                format!("`{name}` is a batt: it comes at a thickness of its own"),
                "expected a board, a foam or a fill",
            )),
            Content::Solid(_) if layer.resistance.is_some() => Some((
                format!("`{name}` has a stated `r-value`: its thickness changes nothing"),
                "expected a layer with a material or a conductivity",
            )),
            Content::Solid(substance) if substance.conductivity.is_none() => Some((
                format!("`{name}` is a sheet: its thickness changes nothing"),
                "expected a layer with a conductivity",
            )),
            Content::Solid(_) => None,
        };
        let Some((message, label)) = wrong else {
            return Some(());
        };
        problems.push(Problem::at(self.layer_name().span, message).expected(label));
        None
    }

    fn own_list(&self, list: &[At<Length>], problems: &mut Problems) -> Option<Vec<Length>> {
        if list.is_empty() || list.len() > MOST_SOLD {
            let message = match list.len() {
                0 => "the list under `sold:` is empty".to_owned(),
                count => format!("the list under `sold:` has {count} thicknesses"),
            };
            let span = list.first().map_or(self.name.span, |at| at.span);
            let label = "expected 1 to 50 thicknesses, such as `[1 in, 2 in]`";
            problems.push(Problem::at(span, message).expected(label));
            return None;
        }
        let mut sold: Vec<Length> = list.iter().map(|at| at.value).collect();
        sold.sort_by(|a, b| a.as_m().total_cmp(&b.as_m()));
        sold.dedup();
        Some(sold)
    }

    fn common_list(
        &self,
        layer: &Layer,
        material: Option<&At<Word>>,
        problems: &mut Problems,
    ) -> Option<(Vec<Length>, String)> {
        let framed = layer.framing.is_some();
        let material = material.and_then(|name| self.bases.library.find(&name.value.0));
        let list = material.and_then(|material| sold(&material, framed));
        if let Some(list) = list {
            let source = format!("{}, {}", list.name, list.source);
            return Some((list.thicknesses, source));
        }
        let message = format!("no thicknesses are known that `{}` is sold in", layer.name);
        let label = "expected `sold:` with those you can buy, such as `[1 in, 2 in]`";
        problems.push(Problem::at(self.layer_name().span, message).expected(label));
        None
    }

    fn between(
        &self,
        assembly: &Assembly,
        place: LayerPlace,
        sold: &[Length],
        problems: &mut Problems,
    ) -> Option<(Length, Length)> {
        let (thinnest, thickest) = (*sold.first()?, *sold.last()?);
        let optional = assembly.can_do_without(place);
        let Some(given) = &self.text.between else {
            let from = if optional {
                Length::from_m(0.0)
            } else {
                thinnest
            };
            return Some((from, thickest))
                .filter(|(from, to)| from < to)
                .or(Some((Length::from_m(0.5 * thinnest.as_m()), thickest)));
        };
        let mut refuse = |message: String, label: &str| {
            let span = given.first().map_or(self.name.span, |at| at.span);
            problems.push(Problem::at(span, message).expected(label));
            None
        };
        let [from, to] = given.as_slice() else {
            if !self.text.complete {
                return None;
            }
            let label = "expected the least and the greatest: `[0 in, 4 in]`";
            return refuse("`between:` takes two thicknesses".into(), label);
        };
        let meters = |at: &At<Offset>| at.value.as_m();
        if meters(from) < 0.0 || meters(to) <= meters(from) {
            let message = "`between:` runs backward or below nothing".to_owned();
            return refuse(message, "expected the least first, then a greater one");
        }
        if meters(from) == 0.0 && !optional {
            let message = format!("`{}` can't be left out", self.layer_name().value.0);
            return refuse(message, "expected more than 0 here");
        }
        let (from, to) = (Length::from_m(meters(from)), Length::from_m(meters(to)));
        if !sold.iter().any(|one| from <= *one && *one <= to) {
            let message = match from.as_m() {
                0.0 => format!("nothing is sold up to {}", inches(to)),
                _ => format!("nothing is sold from {} to {}", inches(from), inches(to)),
            };
            let label = format!("sold from {} to {}", inches(thinnest), inches(thickest));
            let problem = Problem::at(given[0].span, message).expected(label);
            problems.push(problem.help("widen `between:`, or give your own list under `sold:`"));
            return None;
        }
        Some((from, to))
    }
}
