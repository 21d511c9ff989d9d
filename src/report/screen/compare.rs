//! The first screen of `compare`: the options of one whole project, one below the other.

use super::brief::{grouped, too, with_bar};
use super::check::air;
use super::phrase::{Words, of_house};
use super::{CAUTION, Columns, Line, ROWS, Row, Screen, counted, tally};
use crate::check::{self, Finding, Status};
use crate::quantity::{Length, Mass, Style, TemperatureDifference, fixed};
use crate::report::Text;
use crate::report::trade_off::cost;
use crate::study::trade_off::{ColumnKind, Part as Of, TradeOff, trade_off};
use crate::study::{Choice, Part, Study, Subject, best_of};

/// One option with what is told of it.
struct Told<'s> {
    name: &'s str,
    status: Status,
    /// What was found of its worst part.
    decides: String,
    /// At which site, when, by which method; the same without the method.
    grounds: [Option<String>; 2],
    /// What else that part hangs on.
    also: Option<String>,
    /// The other parts of the same word, and the wood at the steel.
    beside: Option<String>,
    /// All parts of its word in few words.
    briefly: String,
    /// The worst of them in few words, and how many there are.
    worst: String,
    costs: String,
}

/// How much is told of the options.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Telling {
    WithCosts,
    WithoutCosts,
    WithoutAlso,
    OthersBriefly,
    WithoutMethod,
    AllBriefly,
    WorstBriefly,
}

impl Told<'_> {
    /// What is told of it, in paragraphs.
    fn told(&self, telling: Telling) -> Vec<String> {
        let briefly = match self.status.severity() {
            2 => telling >= Telling::AllBriefly,
            1 => telling >= Telling::OthersBriefly,
            _ => false,
        };
        match (briefly, telling) {
            (true, Telling::WorstBriefly) => return vec![self.worst.clone()],
            (true, _) => return vec![self.briefly.clone()],
            (false, _) => {}
        }
        let also = self
            .also
            .as_ref()
            .filter(|_| telling < Telling::WithoutAlso);
        let ground = &self.grounds[usize::from(telling >= Telling::WithoutMethod)];
        let all = std::iter::once(&self.decides)
            .chain(ground)
            .chain(also)
            .chain(&self.beside);
        let decides: Vec<&str> = all.map(String::as_str).collect();
        let costs = Some(self.costs.clone()).filter(|_| telling == Telling::WithCosts);
        std::iter::once(decides.join("; ")).chain(costs).collect()
    }
}

/// The first screen of `compare` on a file called `file`, set to a width.
#[must_use]
pub fn compare_screen(study: &Study<'_>, file: &str, style: Style, width: usize) -> Screen {
    let choices = study.choices();
    let parts: Vec<Vec<Part<'_>>> = choices
        .iter()
        .map(|choice| study.parts(choice.variant.as_deref()))
        .collect();
    let costs = trade_off(study);
    let row = |(n, parts): (usize, &'_ Vec<Part<'_>>)| {
        let name = choices[n].variant.as_deref().unwrap_or("as drawn");
        let costs = costs_of(costs.as_ref(), n, style);
        row(study, name, parts, (&choices[n], &costs), style)
    };
    let rows: Vec<Told<'_>> = parts.iter().enumerate().map(row).collect();
    let best = best_of(&choices).filter(|_| choices.len() > 1);
    let told = |telling| {
        let more = more(&rows, &apart(&rows, &parts, telling), file);
        screen(study, &rows, best, telling, (&more, style, width))
    };
    let tellings = [
        Telling::WithCosts,
        Telling::WithoutCosts,
        Telling::WithoutAlso,
        Telling::OthersBriefly,
        Telling::WithoutMethod,
        Telling::AllBriefly,
    ];
    let mut screens = tellings.into_iter().map(told);
    let fitting = screens.find(|screen| screen.lines.len() <= ROWS);
    fitting.unwrap_or_else(|| told(Telling::WorstBriefly))
}

/// An option: its worst part, what was found of it, where, and what the option costs.
fn row<'s>(
    study: &Study<'_>,
    name: &'s str,
    parts: &[Part<'_>],
    (choice, costs): (&Choice, &str),
    style: Style,
) -> Told<'s> {
    let Some(worst) = parts.first() else {
        return Told {
            name,
            status: Status::Pass,
            decides: String::new(),
            grounds: [None, None],
            also: None,
            beside: None,
            briefly: String::new(),
            worst: String::new(),
            costs: costs.to_owned(),
        };
    };
    let speaking = worst.speaking();
    let words = |part| Words { study, part, style };
    let said = match (worst.subject, speaking) {
        (Subject::House(house), _) => of_house(house, style),
        (_, Some(finding)) if worst.status.severity() > 0 => words(worst).phrase(finding),
        _ => words(worst).passes(),
    };
    let alike = |part: &&Part<'_>| part.status.severity() == worst.status.severity();
    let alike: Vec<&Part<'_>> = parts.iter().filter(alike).collect();
    let finding = speaking.filter(|_| worst.status.severity() > 0);
    let grounds = [
        finding.map(|finding| words(worst).ground(finding)),
        finding.map(|finding| words(worst).site_and_time(finding)),
    ];
    let others = too(worst.status, &alike[1..], style);
    let wood = at_the_steel(choice, parts, &alike, style);
    let beside: Vec<String> = others.into_iter().chain(wood).collect();
    Told {
        name,
        status: worst.status,
        decides: format!("{}: {said}", worst.name),
        grounds: grounds.map(|said| said.filter(|said| !said.is_empty())),
        also: words(worst).also(),
        beside: (!beside.is_empty()).then(|| beside.join("; ")),
        briefly: grouped(&alike, style).join("; "),
        worst: worst_of(&alike, style),
        costs: costs.to_owned(),
    }
}

/// `14 parts, the worst: gable 5.3 °F under dew point`.
fn worst_of(alike: &[&Part<'_>], style: Style) -> String {
    let worst = grouped(alike.get(..1).unwrap_or_default(), style).join("; ");
    match alike.len() {
        0 | 1 => worst,
        more => format!("{more} parts, the worst: {worst}"),
    }
}

/// The margin of the wood at the steel, which ranks the options, where another finding decides.
fn at_the_steel(
    choice: &Choice,
    parts: &[Part<'_>],
    told: &[&Part<'_>],
    style: Style,
) -> Option<String> {
    let is_wood = |finding: &Finding| {
        finding.check == &check::steel_wood::CHECK || finding.check == &check::detail::WOOD
    };
    let mut speaking = told.iter().filter_map(|part| part.speaking());
    let is_told = speaking.any(|finding| finding.status.severity() > 0 && is_wood(finding));
    let margin = choice.wood_margin.filter(|_| !is_told)?;
    let mut findings = parts.iter().flat_map(|part| &part.verdict.findings);
    let of_it = |finding: &&Finding| {
        let own = finding.margin.map(TemperatureDifference::as_kelvin);
        is_wood(finding) && finding.status != Status::Note && own == Some(margin)
    };
    let size = TemperatureDifference::from_kelvin(margin.abs());
    let size = match findings.find(of_it) {
        Some(finding) => with_bar(finding, size, style),
        None => style.show(size),
    };
    let side = if margin > 0.0 { "clear of" } else { "under" };
    Some(format!("wood at the steel {size} {side} dew point"))
}

/// What an option costs: inches, pounds, money, and the U of what it changes.
fn costs_of(costs: Option<&TradeOff>, option: usize, style: Style) -> String {
    let Some(costs) = costs else {
        return String::new();
    };
    let mut words: Vec<String> = Vec::new();
    for table in &costs.tables {
        for column in &table.columns {
            let value = &column.values[option];
            let said = match (&table.part, column.kind) {
                (Of::Whole, ColumnKind::HeadRoomLost) => {
                    value.known.map(|(low, _)| match low.abs() < 1e-6 {
                        true => "no head room lost".to_owned(),
                        false => {
                            format!("{} of head room", style.measure(Length::from_m(low.abs())))
                        }
                    })
                }
                (Of::Whole, ColumnKind::Width) => value
                    .known
                    .map(|(low, _)| format!("{} wide", style.measure(Length::from_m(low)))),
                (Of::Whole, ColumnKind::Weight) => {
                    value.known.map(|(low, _)| style.show(Mass::from_kg(low)))
                }
                (Of::Whole, ColumnKind::Price) => costs
                    .currency
                    .zip(value.known)
                    .map(|(currency, (low, _))| format!("{} {}", currency.code(), fixed(low, 0))),
                (Of::Assembly(name), ColumnKind::Transmittance) => {
                    Some(format!("U of {name} {}", cost(column.kind, value, style)))
                }
                _ => None,
            };
            words.extend(said);
        }
    }
    words.join("; ")
}

fn screen(
    study: &Study<'_>,
    rows: &[Told<'_>],
    best: Option<usize>,
    telling: Telling,
    (more, style, width): (&str, Style, usize),
) -> Screen {
    let columns = Columns::of_options(rows.iter().map(|row| row.name), width);
    let mut screen = Screen::default();
    let severities: Vec<u8> = rows.iter().map(|row| row.status.severity()).collect();
    let best_name = best.map(|n| rows[n].name);
    screen.say(&verdict(study, &severities, best_name), width);
    screen.say(&air(study, style), width);
    screen.blank();
    let by_name = |row: &&Told<'_>| telling >= Telling::OthersBriefly && row.status == Status::Pass;
    let (named, told): (Vec<&Told<'_>>, Vec<&Told<'_>>) = rows.iter().partition(by_name);
    let told = told.into_iter().map(|one| Row {
        name: one.name.to_owned(),
        status: one.status,
        told: one.told(telling),
    });
    screen
        .lines
        .extend(columns.rows(&told.collect::<Vec<Row>>()));
    if !named.is_empty() {
        let names: Vec<&str> = named.iter().map(|row| row.name).collect();
        let count = counted(names.len(), "option", "options");
        let names = [names.join("; ")];
        screen
            .lines
            .extend(columns.row(&[&count], Status::Pass, &names));
    }
    screen.blank();
    if best.is_some() {
        let rule = format!("{}; the whole project each", Choice::RULE);
        screen.lines.extend(columns.aside("rule", &rule));
    }
    screen.lines.extend(columns.aside("more", more));
    screen.lines.push(Line::plain(CAUTION));
    screen
}

/// What to ask next.
fn more(rows: &[Told<'_>], apart: &[&str], file: &str) -> String {
    let none_passes = rows.iter().all(|row| row.status == Status::Fail);
    let parts = match apart {
        [] => "--part NAME, or --full".to_owned(),
        [part, ..] => {
            format!("--part \"{part}\" tells apart what stands in one row; or --full")
        }
    };
    match (rows.len(), none_passes) {
        (0 | 1, _) => {
            format!("nothing to compare: add `variants:` to the file; dewmargin check {file}")
        }
        (_, true) => format!("what would mend it: dewmargin check {file}; {parts}"),
        _ => format!("{parts}; dewmargin check {file}"),
    }
}

/// The parts that come out differently under options of which the same is told.
fn apart<'p>(rows: &[Told<'_>], parts: &'p [Vec<Part<'_>>], telling: Telling) -> Vec<&'p str> {
    let said: Vec<_> = rows
        .iter()
        .map(|row| (row.status, row.told(telling)))
        .collect();
    let found = |part: &'_ Part<'_>| -> Vec<_> {
        let each = part.verdict.findings.iter();
        each.map(|one| (one.check, one.status, one.slack)).collect()
    };
    let mut names: Vec<&str> = Vec::new();
    for n in 0..rows.len() {
        for m in (0..n).filter(|m| said[*m] == said[n]) {
            for part in &parts[n] {
                let mut others = parts[m].iter().filter(|other| other.name == part.name);
                let differs = others.any(|other| found(other) != found(part));
                if differs && !names.contains(&part.name) {
                    names.push(part.name);
                }
            }
        }
    }
    names
}

/// The verdict as the first screen opens with it.
#[must_use]
pub fn compare_verdict(study: &Study<'_>) -> Text {
    let choices = study.choices();
    let best = best_of(&choices).filter(|_| choices.len() > 1);
    let severities = choices.iter().map(|choice| {
        let parts = study.parts(choice.variant.as_deref());
        parts.first().map_or(0, |part| part.status.severity())
    });
    let severities: Vec<u8> = severities.collect();
    let best = best.map(|n| choices[n].variant.as_deref().unwrap_or("as drawn"));
    let mut text = Text::default();
    text.say(0, verdict(study, &severities, best));
    text
}

/// `Fern Hollow cabin, as drawn and 3 variants: 2 fail, 2 depend; best: proud, foam under the plate`
fn verdict(study: &Study<'_>, severities: &[u8], best: Option<&str>) -> String {
    let told = tally(severities.iter().copied());
    let best_word = match severities.iter().all(|severity| *severity == 2) {
        true => "least bad",
        false => "best",
    };
    let best = best.map_or_else(String::new, |name| format!("; {best_word}: {name}"));
    let settled = match study.settled() {
        true => "",
        false => super::UNSETTLED,
    };
    let options = match severities.len() {
        0 | 1 => "as drawn".to_owned(),
        more => format!("as drawn and {}", counted(more - 1, "variant", "variants")),
    };
    format!("{}, {options}: {told}{best}{settled}", study.project.title)
}
