//! What the route tells of a site: its verdict, its air, and three measures against their limits.

use super::super::water::worst_water;
use crate::check::{self, Check, Detail, Finding, Status};
use crate::model::{AirState, MonthState};
use crate::quantity::{ArealDensity, Dimension, Style, fixed, month_name};
use crate::study::Judged;

/// Days a wetting may take; as many are followed at most.
const DAYS: (f64, f64) = (365.0, 1825.0);

/// One site.
pub(super) struct Site {
    /// Its name.
    pub(super) name: String,
    /// How the case comes out there.
    pub(super) status: Status,
    /// Whether its verdict is that of the whole route.
    pub(super) decides: bool,
    /// What speaks there.
    pub(super) because: String,
    /// The air there.
    pub(super) air: String,
    /// The measures, as many and in the order of [`HEADINGS`].
    pub(super) measures: [Measure; 3],
}

/// What the measures are.
pub(super) const HEADINGS: [&str; 3] = [
    "least leak margin over the dew point",
    "most water in the year",
    "1 kg/m² (3.3 oz/ft²) dries; limit 365 days",
];

/// A number against its limit.
pub(super) struct Measure {
    /// The number, in the reader's unit; `None` where there is none.
    pub(super) value: Option<f64>,
    /// Its limit, in the same.
    pub(super) limit: Option<f64>,
    /// The number as it is read.
    pub(super) words: String,
    /// Where it is, and what belongs to it.
    pub(super) at: String,
}

impl Measure {
    fn none(words: &str) -> Self {
        Self {
            value: None,
            limit: None,
            words: "–".into(),
            at: words.into(),
        }
    }
}

impl Site {
    /// A case at one site.
    pub(super) fn new(at: &Judged<'_>, decides: bool, style: Style) -> Self {
        let name = match at.stop().name.is_empty() {
            true => "stop".to_owned(),
            false => at.stop().name.clone(),
        };
        Self {
            name,
            status: at.verdict.status,
            decides,
            because: because(at),
            air: air(at, style),
            measures: [leak(at, style), water(at, style), drying(at)],
        }
    }

    /// All of it in words.
    pub(super) fn in_words(&self) -> String {
        let measures = HEADINGS.iter().zip(&self.measures);
        let measures: Vec<String> = measures
            .map(|(what, measure)| format!("{what} {} ({})", measure.words, measure.at))
            .collect();
        format!(
            "{}: {}, {}; {}; {}.",
            self.name,
            self.status.word(),
            self.because,
            measures.join("; "),
            self.air
        )
    }
}

fn place(finding: &Finding) -> String {
    let place = finding.place.as_ref();
    place.map_or_else(String::new, |place| place.plane.clone())
}

/// The check that speaks, and where.
pub(super) fn because(at: &Judged<'_>) -> String {
    let speaks = at.verdict.speaking();
    speaks.map_or_else(String::new, |finding| match place(finding) {
        place if place.is_empty() => finding.title().to_owned(),
        place => format!("{} at {place}", finding.title()),
    })
}

/// The air in winter and in the warmest month.
fn air(at: &Judged<'_>, style: Style) -> String {
    let conditions = &at.stop().conditions;
    let say = |air: AirState| {
        let pressure = style.show(air.vapor_pressure());
        format!("{}, {pressure}", style.show(air.temperature))
    };
    let mut words = format!(
        "winter mean {}; room {}",
        say(conditions.winter_mean),
        say(conditions.indoor)
    );
    if let Some(months) = &conditions.year {
        let (month, state) = warmest(months);
        let cooled = if state.cooled { ", cooled" } else { "" };
        words += &format!("; {} {}{cooled}", month_name(month), say(state.outdoor));
    }
    words
}

fn warmest(months: &[MonthState; 12]) -> (usize, &MonthState) {
    let celsius = |n: usize| months[n].outdoor.temperature.as_celsius();
    let all = 0..12;
    let month = all.max_by(|a, b| celsius(*a).total_cmp(&celsius(*b)));
    let month = month.unwrap_or(0);
    (month, &months[month])
}

fn found<'a>(at: &'a Judged<'_>, check: &Check) -> Option<&'a Finding> {
    let mut findings = at.verdict.findings.iter();
    findings.find(|finding| finding.check == check)
}

/// The margin of the air-leak check.
fn leak(at: &Judged<'_>, style: Style) -> Measure {
    let finding = found(at, &check::air_leak::CHECK);
    let margin = finding.and_then(|finding| Some((finding, finding.margin?)));
    let Some((finding, margin)) = margin else {
        return Measure::none("nothing that matters is reached");
    };
    Measure {
        value: Some(style.value(margin)),
        limit: Some(0.0),
        words: style.margin(margin),
        at: place(finding),
    }
}

/// The worst place's peak against its limit, and by when it is dry.
fn water(at: &Judged<'_>, style: Style) -> Measure {
    let print = |kg: f64| style.water(ArealDensity::from_si(kg));
    let Some(finding) = worst_water(at) else {
        return Measure::none("nothing condenses inside");
    };
    let place = place(finding);
    match &finding.detail {
        Detail::Year(detail) => {
            let against = match detail.limit {
                Some((limit, _)) => format!("limit {}", print(limit)),
                None => "counted, not judged".into(),
            };
            let fate = match (detail.never_dry, detail.dry_by) {
                (true, _) => ", never dry".to_owned(),
                (false, Some(month)) => format!(", dry by {}", month_name(month)),
                (false, None) => String::new(),
            };
            let value = |kg: f64| Dimension::Water.value(kg, style);
            Measure {
                value: Some(value(detail.peak)),
                limit: detail.limit.map(|(limit, _)| value(limit)),
                words: print(detail.peak),
                at: format!("{against}{fate}; {place}"),
            }
        }
        Detail::Closest { humidity, month } => Measure {
            value: Some(0.0),
            limit: None,
            words: "none".into(),
            at: format!(
                "at most {} % humidity, in {}; {place}",
                fixed(100.0 * humidity, 0),
                month_name(*month)
            ),
        },
        _ => Measure::none("can't be judged in full"),
    }
}

/// When 1 kg/m² is gone, and from where it takes longest.
fn drying(at: &Judged<'_>) -> Measure {
    let Some(finding) = found(at, &check::drying::CHECK) else {
        return Measure::none("not reckoned");
    };
    let Detail::Drying(detail) = &finding.detail else {
        return Measure::none("nothing inside that has to dry");
    };
    let place = place(finding);
    let (value, words, at) = match (detail.days, detail.month) {
        (Some(days), Some(month)) => (
            days,
            format!("{} days", fixed(days, 0)),
            format!(
                "by {}; {place}",
                check::drying::when(detail.start, days, month)
            ),
        ),
        _ => (
            DAYS.1,
            "never".into(),
            format!("not gone in five years; {place}"),
        ),
    };
    Measure {
        value: Some(value),
        limit: Some(DAYS.0),
        words,
        at,
    }
}
