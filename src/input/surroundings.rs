//! Climates, room air and code: where and how a project is judged.

use std::path::Path;

use super::household::indoor;
use super::surroundings_text::{
    AirText, ClimateBlock, ClimateText, CodeText, IndoorText, MonthText, OutdoorText,
};
use super::title::{AnyText, one_line};
use crate::climate::{BUILT_IN, Climate, MonthlyMean, NightAir, read_csv};
use crate::document::{At, Problems, Word};
use crate::error::{Error, Problem, Span};
use crate::material::one_of;
use crate::model::{AirState, ClimateSource, Code, Conditions, Edition, Indoor, Stop};
use crate::quantity::{month_in, month_name};

/// Most stops of a route.
const MOST_STOPS: usize = 24;

/// Reading the files a project names.
pub(super) struct Files<'a> {
    /// The project file, as it was named to the system; a text's name where it is no file.
    pub(super) project: &'a Path,
    /// Told how many bytes of how many are read.
    pub(super) progress: &'a mut dyn FnMut(u64, u64),
    /// What is wrong in the first file that can't be used, with its own lines.
    pub(super) wrong: Option<Error>,
}

/// What the file says of the surroundings.
pub(super) struct Surroundings {
    pub(super) indoor: Option<IndoorText>,
    pub(super) outdoor: Option<OutdoorText>,
    pub(super) climates: Vec<ClimateText>,
    pub(super) code: Option<CodeText>,
    /// Whether all of the file could be read: what is missing after a mistake isn't a second one.
    pub(super) complete: bool,
}

impl Surroundings {
    /// The stops, if everything they need is there.
    pub(super) fn stops(
        &self,
        files: &mut Files<'_>,
        problems: &mut Problems,
    ) -> Option<Vec<Stop>> {
        let indoor = self.indoor.as_ref().and_then(|text| indoor(text, problems));
        let code = self.code.as_ref().map(|text| code(text, problems));
        let climates: Vec<Option<(Climate, ClimateSource)>> = self
            .climates
            .iter()
            .map(|text| climate(text, files, problems))
            .collect();
        let stops = self.sound(problems);
        let code = match code {
            None => Code::default(),
            Some(code) => code?,
        };
        let (indoor, ()) = (indoor?, stops?);
        if let Some(outdoor) = &self.outdoor {
            return on_winter_mean(outdoor, indoor, code, problems).map(|stop| vec![stop]);
        }
        let single = climates.len() == 1;
        climates
            .into_iter()
            .map(|climate| {
                let (climate, source) = climate?;
                // On a route every stop has a zone of its own.
                let stated = code.zone.filter(|_| single);
                let code = Code {
                    zone: stated.or(climate.zone),
                    ..code
                };
                let mut notes = climate.notes.clone();
                notes.extend(cooler_dries(&indoor, &climate));
                Some(Stop {
                    conditions: Conditions::in_climate(&indoor, &climate),
                    name: climate.name,
                    origin: with_source(climate.origin, &source),
                    source,
                    notes,
                    code,
                    indoor,
                })
            })
            .collect::<Option<Vec<_>>>()
            .map(told_apart)
    }

    /// Outdoor air is given once: by a climate, or by a winter mean.
    fn sound(&self, problems: &mut Problems) -> Option<()> {
        let refuse = |problems: &mut Problems, span: Option<Span>, message: &str, label: &str| {
            // A problem of the whole file has no caret to write the expectation under.
            problems.push(match span {
                Some(span) => Problem::at(span, message).expected(label),
                None => Problem::whole(message).help(label),
            });
            None
        };
        let names = BUILT_IN.join(", ");
        match (&self.outdoor, self.climates.len()) {
            (None, 0) if !self.complete => None,
            (None, 0) => refuse(
                problems,
                None,
                "this file says nothing of the outdoor air",
                &format!("add `climate:` ({names}, or your own) or `outdoor:`"),
            ),
            (Some(outdoor), 1..) => refuse(
                problems,
                Some(outdoor.winter_mean.temperature.span),
                "the outdoor air is given twice, by `climate:` and by `outdoor:`",
                "expected one of the two: a climate brings its own winter mean and design night",
            ),
            (_, n) if n > MOST_STOPS => refuse(
                problems,
                self.climates.get(MOST_STOPS).map(ClimateText::span),
                &format!("this route has {n} stops"),
                &format!("expected at most {MOST_STOPS} climates: this is one too many"),
            ),
            _ => Some(()),
        }
    }
}

/// What is taken of a cooled room whose humidity follows the outdoors and isn't stated.
fn cooler_dries(indoor: &Indoor, climate: &Climate) -> Option<String> {
    let cooled = climate
        .months
        .iter()
        .any(|month| indoor.is_cooled(month.temperature));
    let taken = indoor
        .cooled_at_most()
        .filter(|_| indoor.cooled_humidity.is_none())?;
    cooled.then(|| {
        format!(
            "while cooled the room is taken at {:.0} % at most, since its cooler dries it (common \
             practice): `cooling: {{temperature: 75 F, humidity: 60 %}}` states it",
            taken.as_fraction() * 100.0
        )
    })
}

fn code(text: &CodeText, problems: &mut Problems) -> Option<Code> {
    let edition = match &text.edition {
        None => None,
        Some(word) => Some(one_of(word, &Edition::WORDS, "edition", problems)?),
    };
    Some(Code {
        asked: true,
        edition,
        zone: text.zone.as_ref().map(|at| at.value),
    })
}

fn air(text: &AirText) -> AirState {
    AirState {
        temperature: text.temperature.value,
        humidity: text.humidity.value,
    }
}

fn on_winter_mean(
    text: &OutdoorText,
    indoor: Indoor,
    code: Code,
    problems: &mut Problems,
) -> Option<Stop> {
    if let Some(night) = &text.design_night
        && night.temperature.value > text.winter_mean.temperature.value
    {
        let message = "the design night is warmer than the winter mean";
        let label = "expected the colder of the two here";
        problems.push(Problem::at(night.temperature.span, message).expected(label));
        return None;
    }
    let night = text.design_night.as_ref().map(air);
    let source = source(text.source.as_ref(), problems);
    Some(Stop {
        name: String::new(),
        origin: with_source("given in this file".into(), &source),
        source,
        notes: Vec::new(),
        code,
        conditions: Conditions::on_winter_mean(&indoor, air(&text.winter_mean), night),
        indoor,
    })
}

fn source(text: Option<&AnyText>, problems: &mut Problems) -> ClimateSource {
    let stated = text.map(|text| one_line("source", text, problems));
    match stated.filter(|source| !source.is_empty()) {
        Some(source) => ClimateSource::Stated(source),
        None => ClimateSource::NotStated,
    }
}

/// `given in this file, source: <as stated>`.
fn with_source(origin: String, source: &ClimateSource) -> String {
    match source {
        ClimateSource::Stated(source) => format!("{origin}, source: {source}"),
        _ => origin,
    }
}

/// Numbers stops of the same name, so that the worst one can be told.
fn told_apart(mut stops: Vec<Stop>) -> Vec<Stop> {
    for n in 1..stops.len() {
        let plain = stops[n].name.clone();
        let mut number = 2;
        while stops[..n].iter().any(|before| before.name == stops[n].name) {
            stops[n].name = format!("{plain} ({number})");
            number += 1;
        }
    }
    stops
}

fn climate(
    text: &ClimateText,
    files: &mut Files<'_>,
    problems: &mut Problems,
) -> Option<(Climate, ClimateSource)> {
    match text {
        ClimateText::Named(name) => named(name, files, problems),
        ClimateText::Block(block, span) => {
            let source = source(block.source.as_ref(), problems);
            let mut climate = match (&block.file, &block.months) {
                (Some(name), None) => from_file(name, files, problems)?,
                (None, Some(months)) => written_out(block, months, *span, problems)?,
                (Some(name), Some(_)) => {
                    let message = "this climate is given twice, by a file and by its months";
                    problems.push(Problem::at(name.span, message).expected("keep one of them"));
                    return None;
                }
                (None, None) => {
                    if block.complete {
                        let message = "a climate block needs its months";
                        let label = "expected `months:` with twelve rows, or `file:`";
                        let built_in = block.name.as_ref().and_then(short_form);
                        problems.push(
                            Problem::at(*span, message)
                                .expected(label)
                                .maybe_help(built_in),
                        );
                    }
                    return None;
                }
            };
            if let Some(name) = &block.name {
                climate.name = name.value.0.clone();
            }
            climate.zone = block.zone.as_ref().map(|at| at.value).or(climate.zone);
            if let Some(night) = &block.design_night {
                climate.design_night = Some(NightAir {
                    temperature: night.temperature.value,
                    humidity: night.humidity.value,
                });
                let winter = climate.winter_mean().0;
                if night.temperature.value > winter {
                    let message = "the design night is warmer than the three coldest months";
                    let label = "expected a colder one here";
                    problems.push(Problem::at(night.temperature.span, message).expected(label));
                    return None;
                }
            }
            Some((climate, source))
        }
    }
}

/// How a built-in climate is written, where a block names one.
fn short_form(name: &At<Word>) -> Option<String> {
    let built_in = Climate::built_in(&name.value.0)?.name;
    Some(format!("for the built-in one write `climate: {built_in}`"))
}

fn named(
    name: &At<Word>,
    files: &mut Files<'_>,
    problems: &mut Problems,
) -> Option<(Climate, ClimateSource)> {
    if let Some(climate) = Climate::built_in(&name.value.0) {
        return Some((climate, ClimateSource::Invented));
    }
    if name.value.0.contains(['.', '/', '\\']) {
        let climate = from_file(name, files, problems)?;
        return Some((climate, ClimateSource::NotStated));
    }
    let message = format!("unknown climate `{}`", name.value.0);
    let near = Climate::nearest_built_in(&name.value.0);
    let known = format!(
        "expected {}, or the name of a CSV file",
        BUILT_IN.join(", ")
    );
    let problem = Problem::at(name.span, message).expected(known);
    problems.push(problem.maybe_help(near.map(|near| format!("did you mean `{near}`?"))));
    None
}

/// A CSV file, from the project file's folder. What is wrong in it is reported there.
fn from_file(name: &At<Word>, files: &mut Files<'_>, problems: &mut Problems) -> Option<Climate> {
    if let Some(help) = short_form(name) {
        let message = format!("`{}` is built in, not a file", name.value.0);
        problems.push(Problem::at(name.span, message).help(help));
        return None;
    }
    let folder = files.project.parent().unwrap_or(Path::new(""));
    let path = folder.join(&name.value.0);
    if path == files.project {
        let message = format!("`{}` is this file itself", name.value.0);
        let label = "expected a CSV file of monthly means or hours";
        problems.push(Problem::at(name.span, message).expected(label));
        return None;
    }
    match read_csv(&path, files.progress) {
        Ok(climate) => Some(climate),
        Err(error) => {
            files.wrong.get_or_insert(error);
            None
        }
    }
}

fn written_out(
    block: &ClimateBlock,
    rows: &[MonthText],
    span: Span,
    problems: &mut Problems,
) -> Option<Climate> {
    let before = problems.len();
    let mut months: [Option<MonthlyMean>; 12] = [None; 12];
    for row in rows {
        let Some(month) = month_in(&row.month.value.0) else {
            let message = format!("`{}` isn't a month", row.month.value.0);
            let label = "expected a name such as `January` or a number from 1 to 12";
            problems.push(Problem::at(row.month.span, message).expected(label));
            continue;
        };
        let mean = MonthlyMean::new(row.temperature.value, row.humidity.value);
        if months[month].replace(mean).is_some() {
            let message = format!("{} stands twice", month_name(month));
            problems.push(Problem::at(row.month.span, message).expected("keep one of them"));
        }
    }
    let missing: Vec<&str> = (0..12)
        .filter(|month| months[*month].is_none())
        .map(month_name)
        .collect();
    if block.complete && problems.len() == before && !missing.is_empty() {
        let message = format!("this climate lacks {}", missing.join(", "));
        problems.push(Problem::at(span, message).expected("expected twelve months"));
    }
    let months = months.into_iter().collect::<Option<Vec<_>>>()?;
    let months: [MonthlyMean; 12] = months.try_into().ok()?;
    (problems.len() == before)
        .then(|| Climate::from_months("own climate", "given in this file", months))
}
