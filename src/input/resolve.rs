//! From the text of a project to the model. All validation lies here and in [`super::layer`]:
//! after it, every value is valid.

use std::collections::BTreeSet;

use super::assumed::{Drawn, Unasked};
use super::assumed_roof::roof_edges;
use super::cases::{Bases, Cases};
use super::house::{Known, house};
use super::layer;
use super::prices;
use super::schema::{AssemblyText, FilmText, FilmsText, OuterSurfaceText, ProjectText};
use super::size;
use super::sound;
use super::stock;
use super::strip;
use super::surroundings::{Files, Surroundings};
use super::sweep::{self, Around};
use super::title::title_data;
use crate::document::{At, Problems, Word};
use crate::error::Problem;
use crate::material::{Library, one_of};
use crate::model::{Assembly, AssemblyKind, Film, Films, Layer, Project, Strip, SurfaceOffsets};
use crate::quantity::{Length, TemperatureDifference, UnitSystem};

/// Resolves a project. `None` or any problem means that it can't be used.
pub(super) fn resolve(
    read: ProjectText,
    file: &str,
    source: &str,
    files: &mut Files<'_>,
    problems: &mut Problems,
) -> Option<Project> {
    let heating = read.indoor.as_ref().map(|indoor| indoor.heating.span);
    let units = spoken(heating.and_then(|span| source.get(span.start..span.end)));
    let mut library = Library::new();
    let materials = read.materials.unwrap_or_default();
    for name in materials.unreadable {
        library.set_aside(name.0);
    }
    for (name, text) in materials.entries {
        match text.resolve(&name.value.0, problems) {
            Some(material) => library.add(material),
            None => library.set_aside(name.value.0),
        }
    }
    let currency = read
        .prices
        .as_ref()
        .and_then(|text| prices::price(text, &mut library, problems));
    if read.assemblies.entries.is_empty() && read.assemblies.unreadable.is_empty() {
        problems.push(Problem::whole("this file has no assemblies"));
    }
    let mut cases = Cases::default();
    let bases = Bases {
        library: &library,
        assemblies: read.assemblies,
        details: read.details.unwrap_or_default(),
        units,
    };
    let variants = read.variants.unwrap_or_default().entries;
    let readable = bases.resolve(&variants, &mut cases, problems);
    let Cases {
        assemblies: cases,
        mut details,
        volumes,
    } = cases;
    if let Some(text) = &read.prices {
        prices::one_thickness(text, &library, &cases, problems);
    }
    let house = read.house.and_then(|text| {
        let known = Known {
            library: &library,
            assemblies: &bases.assemblies,
            details: &bases.details,
            cases: &cases,
            drawn: &details,
        };
        house(&text, &known, problems)
    });
    let surroundings = Surroundings {
        indoor: read.indoor,
        outdoor: read.outdoor,
        climates: read.climate.map_or_else(Vec::new, |climates| climates.0),
        code: read.code,
        complete: read.complete && readable,
    };
    let stops = surroundings.stops(files, problems);
    let unasked = Unasked::of(&library, &cases, &details);
    let sizings = size::sizings(
        read.size.unwrap_or_default(),
        (&bases, unasked.as_ref()),
        &variants,
        stops.as_deref().unwrap_or_default(),
        problems,
    );
    let around = Around {
        stops: stops.as_deref().unwrap_or_default(),
        surroundings: &surroundings,
    };
    let sweeps = sweep::sweeps(read.sweep, &bases, &around, files, problems);
    let mut unasked = unasked.map_or_else(Drawn::default, |unasked| unasked.all(&cases, &details));
    if let Some(house) = &house {
        let of_roof = roof_edges(house, &cases, &details);
        unasked.details.extend(of_roof.details);
        unasked.undrawn.extend(of_roof.undrawn);
    }
    details.extend(unasked.details);
    let title_data = title_data(read.project, problems);
    Some(Project {
        title: match title_data.title.as_str() {
            "" => "untitled".into(),
            title => title.into(),
        },
        title_data,
        stock: stock::stock(&library, &cases, &details),
        file: file.rsplit(['/', '\\']).next().unwrap_or(file).to_owned(),
        stops: stops?,
        cases,
        details,
        volumes,
        undrawn: unasked.undrawn,
        sizings,
        sweeps,
        house,
        currency,
        units,
    })
}

/// The units that a file speaks: those its heating is set in.
fn spoken(heating: Option<&str>) -> UnitSystem {
    let heating = heating.unwrap_or_default().trim_end_matches(['"', '\'']);
    match heating.to_lowercase().ends_with('f') {
        true => UnitSystem::Imperial,
        false => UnitSystem::Metric,
    }
}

/// An assembly, if everything it needs is there.
pub(super) fn assembly(
    name: &At<Word>,
    text: &AssemblyText,
    library: &Library,
    problems: &mut Problems,
) -> Option<Assembly> {
    let kinds = [
        ("wall", AssemblyKind::Wall),
        ("floor", AssemblyKind::Floor),
        ("roof", AssemblyKind::Roof),
    ];
    let kind = text
        .kind
        .as_ref()
        .and_then(|word| one_of(word, &kinds, "kind of assembly", problems));
    let films = films(text.films.as_ref(), problems);
    let frames = [("flush", false), ("proud", true)];
    let proud = match &text.frame {
        None => Some(false),
        Some(word) => one_of(word, &frames, "frame", problems),
    };
    unique_names(text, problems);
    let layers: Vec<Option<Layer>> = text
        .layers
        .iter()
        .map(|layer| layer::layer(layer, library, problems))
        .collect();
    if text.layers.is_empty() {
        let message = format!("assembly `{}` has no layers", name.value.0);
        problems.push(Problem::at(name.span, message).expected("expected at least one layer"));
        return None;
    }
    // Strips are looked at even where a layer is wrong: they go by the layers' names.
    let names: Vec<&str> = text
        .layers
        .iter()
        .map(|layer| layer.name.value.0.as_str())
        .collect();
    let strips: Vec<Option<Strip>> = text
        .strips
        .iter()
        .flatten()
        .map(|strip| strip::strip(strip, &names, library, problems))
        .collect();
    let layers = layers.into_iter().collect::<Option<Vec<_>>>()?;
    let strips = strips.into_iter().collect::<Option<Vec<_>>>()?;
    sound::sound(name, &layers, &strips, problems)?;
    let written = Assembly {
        name: name.value.0.clone(),
        kind: kind?,
        layers,
        strips,
        films: films?,
        surface_offsets: text
            .outer_surface
            .as_ref()
            .map_or_else(SurfaceOffsets::default, offsets),
        proud: proud?,
        rise: Length::from_m(0.0),
        notes: Vec::new(),
    };
    Some(written.settled())
}

fn unique_names(text: &AssemblyText, problems: &mut Problems) {
    let strips = text.strips.iter().flatten();
    let over = strips.clone().flat_map(|strip| strip.over.iter().flatten());
    let names = text.layers.iter().map(|layer| &layer.name);
    let names = names
        .chain(strips.map(|strip| &strip.name))
        .chain(over.map(|layer| &layer.name));
    let mut seen = BTreeSet::new();
    for name in names {
        if !seen.insert(&name.value.0) {
            let message = format!("the name `{}` stands twice in this assembly", name.value.0);
            problems.push(Problem::at(name.span, message).expected("expected a name of its own"));
        }
    }
}

fn films(text: Option<&FilmsText>, problems: &mut Problems) -> Option<Films> {
    let Some(text) = text else {
        return Some(Films::default());
    };
    let words = [("iso-6946", false), ("handbook", true)];
    let handbook = match &text.values {
        None => Some(false),
        Some(word) => one_of(word, &words, "source of films", problems),
    };
    // Everything is looked at before the first thing missing ends it: all problems at once.
    let inside = film(text.inside.as_ref(), problems);
    let outside = film(text.outside.as_ref(), problems);
    Some(Films {
        handbook: handbook?,
        inside: inside?,
        outside: outside?,
    })
}

fn film(text: Option<&FilmText>, problems: &mut Problems) -> Option<Film> {
    let Some(text) = text else {
        return Some(Film::default());
    };
    let (permeance, resistance) = (text.permeance.as_ref(), text.resistance.as_ref());
    let tight = permeance.filter(|at| at.value.as_si() == 0.0);
    let bare = resistance.filter(|at| at.value.as_si() == 0.0);
    problems.extend(tight.map(|at| {
        Problem::at(at.span, "a film that lets no vapor through isn't air")
            .expected("expected more than 0 perm")
    }));
    problems.extend(bare.map(|at| {
        Problem::at(at.span, "a film without resistance isn't air")
            .expected("expected more than R-0")
    }));
    (tight.is_none() && bare.is_none()).then(|| Film {
        resistance: resistance.map(|at| at.value),
        permeance: permeance.map(|at| at.value),
    })
}

fn offsets(text: &OuterSurfaceText) -> SurfaceOffsets {
    let of =
        |at: &Option<At<TemperatureDifference>>| at.as_ref().map(|at| at.value).unwrap_or_default();
    SurfaceOffsets {
        sun_in_winter: of(&text.sun_in_winter),
        sun_in_summer: of(&text.sun_in_summer),
        night_sky: of(&text.night_sky),
    }
}

#[cfg(test)]
mod tests {
    use crate::input::resolve_text;
    use approx::assert_abs_diff_eq;

    fn project(layers: &str) -> crate::model::Project {
        let text = format!(
            "indoor: {{heating: 68 F, humidity: 50 %}}\n\
             outdoor: {{winter-mean: {{temperature: 41 F, humidity: 82 %}}}}\n\
             assemblies: {{wall: {{kind: wall, layers: [{layers}]}}}}\n"
        );
        resolve_text("test.yaml", &text).unwrap()
    }

    #[test]
    fn a_batt_in_a_deeper_space_keeps_its_own_resistance() {
        let project = project("{name: bay, material: R-21 batt, thickness: 70 in}");
        let assembly = &project.cases[0].assembly;
        let r = assembly.layers[0].resistance.unwrap().as_si() / crate::quantity::unit::R_VALUE;
        assert_abs_diff_eq!(r, 21.0, epsilon = 0.01);
        assert_eq!(assembly.notes.len(), 1);
    }

    #[test]
    fn a_batt_at_its_own_thickness_is_left_alone() {
        let project = project("{name: bay, material: R-21 batt, thickness: 5-1/2 in}");
        assert!(project.cases[0].assembly.notes.is_empty());
    }

    // Source: sheet metal gauge chart (check-values §7): 20 gauge is 0.0359, 0.0396 or 0.0320 in.
    #[test]
    fn a_sheets_gauge_goes_by_what_its_entry_says() {
        for (chart, inches) in [
            ("steel", 0.0359),
            ("galvanized", 0.0396),
            ("aluminum", 0.0320),
        ] {
            let text = format!(
                "indoor: {{heating: 68 F, humidity: 50 %}}\n\
                 outdoor: {{winter-mean: {{temperature: 41 F, humidity: 82 %}}}}\n\
                 materials: {{galvanized trough: {{kind: metal, gauge: {chart}, vapor: 0 perm}}}}\n\
                 assemblies: {{floor: {{kind: floor, layers: [\
                 {{name: pan, material: galvanized trough, thickness: 20 ga}}]}}}}\n"
            );
            let project = resolve_text("test.yaml", &text).unwrap();
            let pan = project.cases[0].assembly.layers[0].thickness;
            assert_abs_diff_eq!(pan.as_m() / 0.0254, inches, epsilon = 1e-12);
        }
    }
}
