//! Amounts in few words: how far from its limit, and by what that could be off.

use super::phrase::Words;
use crate::check::mold::{LIMIT, over_where_worst};
use crate::check::{Detail, Finding, On, Status, When};
use crate::quantity::{ArealDensity, Style, TemperatureDifference, fixed, month_name};
use crate::study::{Part, Subject};

/// From this share of a margin on, its error bar is told with it.
const COUNTS: f64 = 0.5;

/// The time that decides: of what its bar leaves open the winter mean, which the bar is held against.
pub(super) fn decides(finding: &Finding) -> When {
    match finding.on {
        Some(On::Tolerance) => When::WinterMean,
        _ => finding.when(),
    }
}

/// The margin at the time that decides: `5.3 °F under`, `0.3 ± 1.2 °F clear of`.
pub(in crate::report) fn margin_words(finding: &Finding, style: Style) -> Option<String> {
    let margin = margin(finding)?;
    let side = match margin.as_kelvin() > 0.0 {
        true => "clear of",
        false => "under",
    };
    Some(format!("{} {side}", with_bar(finding, margin, style)))
}

fn margin(finding: &Finding) -> Option<TemperatureDifference> {
    let when = decides(finding);
    let times = finding.times()?;
    let found = times.all().find(|(at, _)| *at == when);
    found.map(|(_, margin)| margin)
}

/// The size of a margin, with its error bar where that isn't small beside it.
pub(super) fn with_bar(finding: &Finding, margin: TemperatureDifference, style: Style) -> String {
    let size = TemperatureDifference::from_kelvin(margin.as_kelvin().abs());
    let bar = finding.bar().filter(|bar| *bar > COUNTS * size.as_kelvin());
    match bar {
        Some(bar) => style.difference_with_bar(size, bar),
        None => style.show(size),
    }
}

impl Words<'_> {
    /// What else a part that depends hangs on: of each thing the finding that comes first, with its
    /// number: `also on material: studs / sheathing 96 % humid in January; on mold: …`.
    pub(super) fn also(self) -> Option<String> {
        if self.part.status.severity() != 1 {
            return None;
        }
        let told = self.part.speaking()?;
        let others = self.others();
        let line = |finding: &&Finding| {
            let on = finding.on.map_or("", On::words);
            let site = self
                .part
                .site_of(finding)
                .filter(|_| finding.site != told.site);
            let own = [time(finding), site.map(str::to_owned)];
            let own = own.into_iter().flatten().map(|words| format!(", {words}"));
            format!("on {on}: {}{}", self.few(finding), own.collect::<String>())
        };
        let lines: Vec<String> = others.iter().map(line).collect();
        (!lines.is_empty()).then(|| format!("also {}", lines.join("; ")))
    }

    /// The same in names: `also on material, mold`; of a part that fails `depends too, on tightness`.
    pub(super) fn also_by_name(self) -> Option<String> {
        let on = self.others().into_iter().filter_map(|finding| finding.on);
        let names: Vec<&str> = on.map(On::words).collect();
        let word = match self.part.status.severity() {
            2 => "depends too, on",
            _ => "also on",
        };
        (!names.is_empty()).then(|| format!("{word} {}", names.join(", ")))
    }

    /// Of each further thing that a part hangs on the finding that comes first.
    fn others(&self) -> Vec<&Finding> {
        let told = self.part.speaking();
        let mut hangs_on: Vec<Option<On>> = match (self.part.status.severity(), told) {
            (1, Some(told)) => vec![told.on],
            (2, Some(_)) => Vec::new(),
            _ => return Vec::new(),
        };
        let mut others = Vec::new();
        for finding in &self.part.verdict.findings {
            if finding.status.severity() == 1 && !hangs_on.contains(&finding.on) {
                hangs_on.push(finding.on);
                others.push(finding);
            }
        }
        others
    }

    /// Place and amount.
    fn few(self, finding: &Finding) -> String {
        let amount = amount(finding, self.style);
        match (&finding.detail, self.place(finding)) {
            (Detail::AirSeal(spots), _) => {
                format!("{} without an air seal", self.sealed(finding, spots))
            }
            (_, place) if place.is_empty() => amount,
            (_, place) => format!("{place} {amount}"),
        }
    }

    /// The part's amount in few words, behind what it hangs on: `on tightness: 24.3 °F under dew point`.
    pub(super) fn alone(self) -> String {
        let Some(finding) = self.part.speaking() else {
            return match self.part.subject {
                Subject::House(house) => super::phrase::of_house(house, self.style),
                _ => String::new(),
            };
        };
        let on = finding
            .on
            .map_or_else(String::new, |on| format!("on {}: ", on.words()));
        let site = self.part.site_of(finding);
        let site = site.map_or_else(String::new, |site| format!(", {site}"));
        format!("{on}{}{site}", amount(finding, self.style))
    }
}

/// When it crosses, where that is a cold spell.
fn time(finding: &Finding) -> Option<String> {
    finding.times()?;
    match decides(finding) {
        When::WinterMean => None,
        When::ColdestMonth(month) => Some(month_name(month).to_owned()),
        When::DesignNight => Some("design night".to_owned()),
    }
}

/// How much, without the place.
fn amount(finding: &Finding, style: Style) -> String {
    if let Some(margin) = margin_words(finding, style) {
        return format!("{margin} {}", finding.check.against);
    }
    match &finding.detail {
        Detail::Year(year) if year.never_dry => "never dry".to_owned(),
        Detail::Year(year) => {
            let water = |kg: f64| style.water(ArealDensity::from_si(kg));
            let limit = year.limit.map_or_else(String::new, |(limit, _)| {
                format!(", limit {}", water(limit))
            });
            format!("gathers {}{limit}", water(year.peak))
        }
        Detail::MoldIndex(mold) => {
            let index = fixed(mold.first.max(mold.last), 1);
            match over_where_worst(finding) {
                "" => format!("index {index}, limit {}", fixed(LIMIT, 0)),
                over => format!("index {index}{over}"),
            }
        }
        Detail::Closest { humidity, month } => {
            let percent = fixed(humidity * 100.0, 0);
            format!("{percent} % humid in {}", month_name(*month))
        }
        Detail::Drying(drying) => match drying.days {
            Some(days) => format!("{} days to dry", fixed(days, 0)),
            None => "not dry in five years".to_owned(),
        },
        _ => finding.title().to_owned(),
    }
}

/// Parts that depend, each with its amount, under what they hang on and their site:
/// `on tightness, high plain: wall 24.3 °F, roof 9.8 °F under dew point`.
pub(super) fn grouped(parts: &[&Part<'_>], style: Style) -> Vec<String> {
    let mut groups: Vec<(String, Vec<&Part<'_>>)> = Vec::new();
    for part in parts {
        let on = part.on.map(|on| format!("on {}", on.words()));
        let finding = part.speaking();
        let site = finding.and_then(|finding| part.site_of(finding));
        let head: Vec<String> = on.into_iter().chain(site.map(str::to_owned)).collect();
        let head = head.join(", ");
        match groups.iter_mut().find(|(other, _)| *other == head) {
            Some((_, members)) => members.push(part),
            None => groups.push((head, vec![part])),
        }
    }
    let line = |(head, members): &(String, Vec<&Part<'_>>)| {
        let told = members_told(members, style);
        match head.is_empty() {
            true => told,
            false => format!("{head}: {told}"),
        }
    };
    groups.iter().map(line).collect()
}

/// The members of a group with their amounts; what all of them are under, once.
fn members_told(members: &[&Part<'_>], style: Style) -> String {
    let under = |part: &&Part<'_>| {
        let finding = part.speaking()?;
        let margin = margin(finding).filter(|margin| margin.as_kelvin() <= 0.0)?;
        let size = with_bar(finding, margin, style);
        Some((format!("{} {size}", part.name), finding.check.against))
    };
    let all: Option<Vec<(String, &str)>> = members.iter().map(under).collect();
    if let Some(all) = all.filter(|all| all.iter().all(|(_, limit)| *limit == all[0].1)) {
        let limit = all[0].1;
        let sizes: Vec<String> = all.into_iter().map(|(words, _)| words).collect();
        return format!("{} under {limit}", sizes.join(", "));
    }
    let each = members
        .iter()
        .map(|part| match (part.subject, part.speaking()) {
            (Subject::House(house), _) => {
                format!("{}: {}", part.name, super::phrase::of_house(house, style))
            }
            (_, Some(finding)) => format!("{} {}", part.name, amount(finding, style)),
            _ => part.name.to_owned(),
        });
    each.collect::<Vec<_>>().join("; ")
}

/// `depends too, on tightness: wall 24.3 °F, roof 9.8 °F under dew point`: the parts of an option's
/// word beside its worst.
pub(super) fn too(status: Status, others: &[&Part<'_>], style: Style) -> Option<String> {
    let verb = match status.severity() {
        2 => "fails too: ",
        1 => "depends too, ",
        _ => return None,
    };
    (!others.is_empty()).then(|| format!("{verb}{}", grouped(others, style).join("; ")))
}
