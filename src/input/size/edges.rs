//! Edges that no detail of the file shows: a layer that lies there is sized with them too, since at
//! an edge the strip's own path can't tell how thick is enough.

use super::{Entry, Start};
use crate::document::Word;
use crate::input::assumed::{Drawn, at_edge};
use crate::input::detail::shown_by;
use crate::input::resolve::assembly;
use crate::model::{Assembly, AssemblyKind, DetailCase};

impl Entry<'_> {
    /// Whether a detail can be held against any target.
    pub(super) fn asks_of_details(&self) -> bool {
        let targets = &self.text.targets;
        targets.leak_margin.is_some() || targets.temperature_factor.is_some()
    }

    /// The edges of the assemblies the layer is in; where it lies over strips, those of these.
    pub(super) fn edges(&self, start: &Start, within: &[Word]) -> Vec<DetailCase> {
        let Some(unasked) = self.unasked else {
            return Vec::new();
        };
        // What is wrong in an assembly is told where it is resolved.
        let library = self.bases.library;
        let all = start.assemblies.iter();
        let all: Vec<Assembly> = all
            .filter_map(|(name, text)| assembly(name, text, library, &mut Vec::new()))
            .collect();
        let shown: Vec<(&str, &str)> = start
            .details
            .iter()
            .filter_map(|(_, text)| shown_by(text))
            .map(|(floor, strip)| (floor.0.as_str(), strip.0.as_str()))
            .collect();
        let walls = all.iter().filter(|one| one.kind == AssemblyKind::Wall);
        let walls: Vec<&Assembly> = walls.collect();
        let layer = &self.layer_name().value.0;
        let mut drawn = Drawn::default();
        for floor in all
            .iter()
            .filter(|one| within.iter().any(|w| w.0 == one.name))
        {
            let lies_over = |strip: usize| {
                let mut over = floor.strips[strip].over.iter();
                over.any(|one| one.name == *layer)
            };
            let is_over_any = (0..floor.strips.len()).any(lies_over);
            for strip in at_edge(floor) {
                let is_shown = shown.contains(&(&floor.name, &floor.strips[strip].name));
                if !is_shown && (lies_over(strip) || !is_over_any) {
                    let variant = Some(self.name.value.0.as_str());
                    unasked.draw((variant, floor, strip), &walls, &mut drawn);
                }
            }
        }
        drawn.details
    }
}
