//! The thicknesses in which things are sold: `materials/sold.yaml`.

use super::{Kind, Library, Material};
use crate::document::{At, FromNode, Named, Word, parse, record};
use crate::quantity::Length;

const SOLD: &str = include_str!("../../materials/sold.yaml");

record! {
    /// One list.
    pub struct SoldText {
        /// Whether it stands for the depth of layers with framing, whatever fills them.
        "framed" framed: optional At<bool>,
        /// The library's materials it is for, by id.
        "materials" materials: required Vec<At<Word>>,
        /// The thicknesses.
        "thicknesses" thicknesses: required Vec<At<Length>> ["0.001 mm", "78.75 in"],
        /// Where the list comes from.
        "source" source: required At<Word>,
    }
}

/// Thicknesses something is sold in.
#[derive(Clone, Debug, PartialEq)]
pub struct Sold {
    /// What the list is of, such as `rigid foam boards`.
    pub name: String,
    /// The thicknesses, rising.
    pub thicknesses: Vec<Length>,
    /// Where the list comes from.
    pub source: String,
}

/// The list for a layer of that material; for the depth of one with framing, that of lumber.
/// `None` where the library knows none.
///
/// # Example
/// ```
/// use dewmargin::material::{Library, sold};
/// let xps = Library::new().find("XPS").unwrap();
/// let boards = sold(&xps, false).unwrap();
/// assert_eq!(boards.name, "rigid foam boards");
/// assert!((boards.thicknesses[0].as_m() - 0.0127).abs() < 1e-9); // 1/2 in
/// ```
#[must_use]
pub fn sold(material: &Material, framed: bool) -> Option<Sold> {
    let lists = lists()?.entries;
    let suits = |list: &SoldText| match framed {
        true => list.framed.as_ref().is_some_and(|at| at.value),
        false => list.materials.iter().any(|id| id.value.0 == material.id),
    };
    let (name, list) = lists.into_iter().find(|(_, list)| suits(list))?;
    Some(Sold {
        name: name.value.0,
        thicknesses: list.thicknesses.iter().map(|at| at.value).collect(),
        source: list.source.value.0,
    })
}

/// The insulation boards of those names or ids that thicknesses are known of: foam and other insulation
/// that doesn't stick by itself, as sprayed foam does. Others of the library aren't read for it.
#[must_use]
pub fn boards(library: &Library, names: &[&str]) -> Vec<(Material, Vec<Length>)> {
    let lists = lists().map_or_else(Vec::new, |lists| lists.entries);
    let plain = lists.into_iter().filter(|(_, list)| list.framed.is_none());
    let all = plain.flat_map(|(_, list)| {
        let sold: Vec<Length> = list.thicknesses.iter().map(|at| at.value).collect();
        let materials = list.materials.into_iter();
        materials.map(move |id| (id.value.0, sold.clone()))
    });
    let board = |(id, sold): (String, Vec<Length>)| {
        let may_be = library.may_be_called(&id, names);
        let found = may_be.then(|| library.find(&id))??;
        let is_it = |name: &&str| found.id == *name || found.name == *name;
        names.iter().find(|name| is_it(name))?;
        let insulates = matches!(found.kind, Kind::Foam | Kind::Insulation) && !found.bonded;
        insulates.then_some((found, sold))
    };
    all.filter_map(board).collect()
}

fn lists() -> Option<Named<SoldText>> {
    let tree = parse("materials/sold.yaml", SOLD).ok()?;
    Named::from_node(&tree, &mut Vec::new())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::material::Library;

    #[test]
    fn every_list_is_of_the_library_and_rises() {
        let lists = lists().unwrap();
        assert!(lists.unreadable.is_empty() && lists.entries.len() > 5);
        let library = Library::new();
        for (name, list) in lists.entries {
            assert!(list.complete, "{}", name.value.0);
            for id in list.materials {
                let found = library.find(&id.value.0);
                assert_eq!(found.map(|found| found.id), Some(id.value.0));
            }
            let rises = |pair: &[At<Length>]| pair[0].value < pair[1].value;
            assert!(list.thicknesses.windows(2).all(rises), "{}", name.value.0);
            assert!(list.thicknesses[0].value.as_m() > 0.0);
        }
    }

    #[test]
    fn a_framed_layer_is_as_deep_as_lumber() {
        let foam = Library::new().find("closed-cell spray foam").unwrap();
        assert_eq!(sold(&foam, true).unwrap().name, "dressed lumber");
        assert_ne!(sold(&foam, false).unwrap().name, "dressed lumber");
    }
}
