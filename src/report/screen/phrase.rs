//! What was found in a phrase: the number and its place, and under it where, when and how it came about.

use super::brief::{decides, margin_words, with_bar};
use crate::check::{self, Detail, Finding, HouseFinding, On, SealedSpot, Status, When};
use crate::quantity::{Style, TemperatureDifference, fixed, month_name, month_short};
use crate::study::{JudgedHouse, Part, Study, Subject};

/// What is told of one part.
#[derive(Clone, Copy)]
pub(super) struct Words<'s> {
    /// What the part is of.
    pub(super) study: &'s Study<'s>,
    /// The part.
    pub(super) part: &'s Part<'s>,
    /// The reader's units.
    pub(super) style: Style,
}

impl<'s> Words<'s> {
    /// The finding in a phrase, with what it hangs on before it.
    pub(super) fn phrase(self, finding: &Finding) -> String {
        let said = self.said(finding);
        match finding.on {
            Some(on) if finding.status.severity() == 1 => format!("on {}: {said}", on.words()),
            _ => said,
        }
    }

    /// What was found, without what it hangs on.
    fn said(self, finding: &Finding) -> String {
        let style = self.style;
        if let Detail::AirSeal(spots) = &finding.detail {
            let need = if spots.len() == 1 { "needs" } else { "need" };
            return format!("{need} an air seal: {}", self.sealed(finding, spots));
        }
        if let Some(words) = self.by_temperature(finding) {
            return words;
        }
        let at = self.place(finding);
        let conditions = &self.study.project.stops[finding.site].conditions;
        finding.briefly(&at, conditions, style)
    }

    /// `rim joist 5.3 °F, plate 2.1 °F under dew point; in a cold spell sheathing`.
    pub(super) fn sealed(self, finding: &Finding, spots: &[SealedSpot]) -> String {
        let is_under = |spot: &&SealedSpot| spot.margin.as_kelvin() <= 0.0;
        let (under, others): (Vec<&SealedSpot>, Vec<&SealedSpot>) =
            spots.iter().partition(is_under);
        if under.is_empty() || finding.on == Some(On::Tolerance) {
            // The coldest one speaks, at the time that it crosses.
            let coldest = self.place(finding);
            let amount = margin_words(finding, self.style).unwrap_or_default();
            let rest = spots.iter().map(|spot| spot.part.as_str());
            let rest: Vec<&str> = rest.filter(|part| *part != coldest).collect();
            let rest = match rest.is_empty() {
                true => String::new(),
                false => format!("; less {}", rest.join(", ")),
            };
            return format!("{coldest} {amount} {}{rest}", finding.check.against);
        }
        let each = under.iter().map(|spot| {
            let size = TemperatureDifference::from_kelvin(-spot.margin.as_kelvin());
            format!("{} {}", spot.part, self.style.show(size))
        });
        let each = each.collect::<Vec<_>>().join(", ");
        let names: Vec<&str> = others.iter().map(|spot| spot.part.as_str()).collect();
        let rest = match names.is_empty() {
            true => String::new(),
            false => format!("; in a cold spell {}", names.join(", ")),
        };
        format!("{each} under dew point{rest}")
    }

    /// Where it was found: the wood at the steel has the name that the detail gives it, also where a
    /// check looks at it through the layers.
    pub(super) fn place(self, finding: &Finding) -> String {
        let Some(place) = &finding.place else {
            return String::new();
        };
        match finding.detail {
            Detail::Spot(_) | Detail::AirSeal(_) => place.path.clone(),
            _ => self
                .wood_of_the_detail(finding)
                .unwrap_or(&place.plane)
                .to_owned(),
        }
    }

    fn wood_of_the_detail(self, finding: &Finding) -> Option<&'s str> {
        let Subject::Detail(one) = self.part.subject else {
            return None;
        };
        let (floor, _) = one.case.shows()?;
        let floor = self.study.assembly(floor, one.case.variant.as_deref())?;
        let (path, plane) = floor
            .plane_of(finding)
            .filter(|_| finding.strip.is_some())?;
        let mut wood = self.part.verdict.findings.iter();
        let wood = wood.find(|other| {
            let in_cut = matches!(&other.detail, Detail::Spot(spot) if !spot.is_at_corner());
            other.check == &check::detail::WOOD && in_cut
        })?;
        let place = wood
            .place
            .as_ref()
            .filter(|_| path.roles[plane].wood_at_steel)?;
        Some(&place.path)
    }

    /// Temperatures against the dew point of the room air, or against the mold limit.
    fn by_temperature(self, finding: &Finding) -> Option<String> {
        let amount = margin_words(finding, self.style)?;
        let in_winter = decides(finding) == When::WinterMean;
        let at = finding.value.filter(|_| in_winter);
        let at = at.map_or_else(String::new, |at| format!(" {},", self.style.show(at)));
        let leaks =
            finding.check == &check::air_leak::CHECK || finding.check == &check::detail::LEAK;
        let leaks = match finding.on {
            Some(On::Tightness | On::ColdSpell) if leaks => " if air leaks",
            _ => "",
        };
        let place = self.place(finding);
        Some(format!(
            "{place}{at} {amount} {}{leaks}",
            finding.check.against
        ))
    }

    /// Where, when and by which method: `high plain, winter mean; two-dimensional detail`.
    pub(super) fn ground(self, finding: &Finding) -> String {
        let method = match (&finding.detail, self.part.subject) {
            (Detail::Spot(spot), _) if spot.is_at_corner() => Some("corner in three dimensions"),
            (Detail::Spot(spot), _) if spot.is_in_boxes() => Some("detail in three dimensions"),
            (Detail::Spot(_) | Detail::AirSeal(_), _) => Some("two-dimensional detail"),
            (_, Subject::Assembly(_)) if finding.strip.is_some() => Some("hand-check"),
            _ => None,
        };
        let all = [
            self.site_and_time(finding),
            method.unwrap_or_default().to_owned(),
        ];
        let said: Vec<String> = all.into_iter().filter(|words| !words.is_empty()).collect();
        said.join("; ")
    }

    /// `high plain, design night −12.0 °F`.
    pub(super) fn site_and_time(self, finding: &Finding) -> String {
        let site = self.part.site_of(finding).map(str::to_owned);
        let month = match &finding.detail {
            Detail::Spot(spot) => spot.month,
            Detail::Mold(mold) => Some(mold.month),
            Detail::Month(month) => Some(*month),
            _ => None,
        };
        let when = decides(finding);
        let by_temperature = finding.times().is_some();
        let time = by_temperature.then(|| match (month, when) {
            (Some(month), _) | (None, When::ColdestMonth(month)) => month_name(month).to_owned(),
            (None, When::WinterMean) => "winter mean".to_owned(),
            (None, When::DesignNight) => match self.part.design_night_of(finding) {
                Some(night) => format!("design night {}", self.style.show(night)),
                None => "design night".to_owned(),
            },
        });
        let said: Vec<String> = site.into_iter().chain(time).collect();
        said.join(", ")
    }

    /// A pass in a line: when it is dry, and the margin that is least.
    pub(super) fn passes(self) -> String {
        let part = self.part;
        let findings = part.verdict.findings.iter();
        let mut words = Vec::new();
        let mut judged = findings.filter(|finding| finding.status != Status::Note);
        let drying = judged.find_map(|finding| match &finding.detail {
            Detail::Drying(drying) => Some((finding, drying.days.zip(drying.month)?)),
            _ => None,
        });
        let least = part.speaking().filter(|finding| finding.margin.is_some());
        if let Some((finding, (days, month))) = drying {
            // Two sites in one line have each its name.
            let elsewhere = least.is_none_or(|least| least.site != finding.site);
            let site = part.site_of(finding).filter(|_| elsewhere);
            words.push(format!(
                "dries in {} days, by {}{}",
                fixed(days, 0),
                month_short(month),
                site.map_or_else(String::new, |site| format!(", {site}"))
            ));
        }
        if let Some(finding) = least {
            let site = part.site_of(finding).map(|site| format!(", {site}"));
            words.push(format!(
                "margin {} at {}{}",
                with_bar(finding, finding.margin.unwrap_or_default(), self.style),
                self.place(finding),
                site.unwrap_or_default()
            ));
        }
        if words.is_empty() {
            words.push("nothing here that water harms".to_owned());
        }
        let promises = match part.subject {
            Subject::Detail(one) => one.case.promises(),
            Subject::Boxes(one) => one.case.promises(),
            Subject::Assembly(one) => one.result().promises(),
            Subject::House(_) => Vec::new(),
        };
        if !promises.is_empty() {
            words.push(format!(
                "rests on what is promised: {}",
                promises.join(", ")
            ));
        }
        words.join("; ")
    }
}

/// What is told of the house: what fails or isn't known, else its measures against their limits.
pub(super) fn of_house(house: &JudgedHouse<'_>, style: Style) -> String {
    let all = house.worst_first();
    let worst = house.verdict.status.severity();
    let of_word = |finding: &&&HouseFinding| finding.status.severity() == worst;
    let told: Vec<String> = all
        .iter()
        .filter(of_word)
        .filter(|finding| worst > 0 || finding.limit.is_some())
        .filter_map(|finding| measure(finding, style))
        .collect();
    match told.is_empty() {
        true => "no limit is stated".to_owned(),
        false => told.join(", "),
    }
}

fn measure(finding: &HouseFinding, style: Style) -> Option<String> {
    let print = |si: f64| (finding.check.print)(si, style);
    let title = finding.check.title;
    match (finding.value, finding.limit) {
        (Some(value), Some(limit)) => Some(format!("{title} {} of {}", print(value), print(limit))),
        (_, Some(_)) => Some(format!("{title} isn't known")),
        _ => None,
    }
}
