//! `dewmargin plot FILE -o DIR`

use super::arguments::{PlotOptions, style};
use super::distinct::distinct;
use super::listed::{List, write_listed};
use super::output::out;
use super::reading::read_project;
use super::written::File;
use crate::error::Error;
use crate::quantity::Style;
use crate::report::figure::{
    Best, Drawing, Look, comparison, detail, detail_comparison, house, months, route, section, year,
};
use crate::study::{Study, best_of};

pub(super) fn run(options: &PlotOptions) -> Result<u8, Error> {
    let project = read_project(&options.file)?;
    let study = Study::of(&project);
    let judged = &study.assemblies;
    let style = style(options.units, &project);
    let stem = options
        .file
        .file_stem()
        .map_or_else(String::new, |stem| stem.to_string_lossy().into_owned());
    // Everything is drawn before the first file is written.
    let mut drawings: Vec<(String, Drawing)> = judged
        .iter()
        .map(|one| {
            let drawing = section(&project, one, style);
            (format!("{stem}-{}.svg", plain(&one.case.name())), drawing)
        })
        .collect();
    for one in judged {
        let name = plain(&one.case.name());
        let more = [
            ("year", year(&project, one, style)),
            ("months", months(&project, one, style)),
            ("route", route(&project, one, style)),
        ];
        for (what, drawing) in more {
            drawings.extend(drawing.map(|drawing| (format!("{stem}-{name}-{what}.svg"), drawing)));
        }
    }
    let choices = study.choices();
    let best = best_of(&choices).filter(|_| choices.len() > 1);
    let best = Best(best.map(|n| choices[n].variant.as_deref()));
    if judged.len() > 1 {
        let drawing = comparison(&project, judged, best, style);
        drawings.push((format!("{stem}-compared.svg"), drawing));
    }
    drawings.extend(of_details(&study, &stem, best, style));
    drawings.extend(study.houses.iter().map(|one| {
        let name = match one.case.variant {
            None => "house".to_owned(),
            Some(_) => plain(&one.name()),
        };
        (format!("{stem}-{name}.svg"), house(&project, one, style))
    }));
    let look = Look::from(options.look);
    let mut files: Vec<File> = drawings
        .into_iter()
        .map(|(name, drawing)| (name, drawing.looking(look).svg().into_bytes()))
        .collect();
    distinct(&mut files);
    let folder = &options.output;
    let names: Vec<String> = files.iter().map(|(name, _)| name.clone()).collect();
    let list = List {
        name: format!("{stem}-pictures.txt"),
        title: &project.title,
        mark: "pictures by dewmargin",
        lines: names.clone(),
    };
    write_listed(folder, files, &list)?;
    for name in names.iter().chain([&list.name]) {
        out(&format!("{}\n", folder.join(name).display()))?;
    }
    Ok(0)
}

/// Every detail, then all of them side by side.
fn of_details(
    study: &Study<'_>,
    stem: &str,
    best: Best<'_>,
    style: Style,
) -> Vec<(String, Drawing)> {
    let (project, details) = (study.project, &study.details);
    let each = details.iter().map(|one| {
        let name = plain(&one.case.full_name());
        (format!("{stem}-{name}.svg"), detail(project, one, style))
    });
    let mut drawings: Vec<(String, Drawing)> = each.collect();
    let compared = detail_comparison(project, details, best, style);
    drawings.extend(compared.map(|drawing| (format!("{stem}-details-compared.svg"), drawing)));
    drawings
}

/// A name as part of a file name: letters and digits joined by hyphens.
fn plain(name: &str) -> String {
    let words = name
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty());
    let name = words.collect::<Vec<_>>().join("-").to_lowercase();
    name.chars().take(50).collect()
}
