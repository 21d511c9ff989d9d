//! What a check says.

use std::cmp::Reverse;

use super::fact::Detail;
use super::kind::Check;
use super::on::On;
use super::range::Range;
use super::times::{Times, When};
use crate::quantity::{Temperature, TemperatureDifference};

/// How a finding, or a whole assembly, comes out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Clear of its limit.
    Pass,
    /// Hangs on airtightness, or only the design night crosses the limit.
    Depends,
    /// Over the limit.
    Fail,
    /// Nothing to judge, something to know.
    Note,
    /// Can't be judged with what is given; counts as depends.
    Unknown,
}

impl Status {
    /// Every status, for reading them back.
    pub const ALL: [Self; 5] = [
        Self::Pass,
        Self::Depends,
        Self::Fail,
        Self::Note,
        Self::Unknown,
    ];

    /// The word printed everywhere.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Depends => "depends",
            Self::Fail => "fail",
            Self::Note => "note",
            Self::Unknown => "unknown",
        }
    }

    /// 0 pass or note, 1 depends or unknown, 2 fail.
    #[must_use]
    pub fn severity(self) -> u8 {
        match self {
            Self::Pass | Self::Note => 0,
            Self::Depends | Self::Unknown => 1,
            Self::Fail => 2,
        }
    }
}

/// Where a finding lies.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The path's name.
    pub path: String,
    /// The plane's name.
    pub plane: String,
}

/// One check's result.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Which check.
    pub check: &'static Check,
    /// How it came out.
    pub status: Status,
    /// What it hangs on where it is `depends` or `unknown`.
    pub on: Option<On>,
    /// The strip it is about; `None` for cavity and framing, and in details.
    pub strip: Option<String>,
    /// Where its value was least favorable.
    pub place: Option<Place>,
    /// Temperature there on the winter mean.
    pub value: Option<Temperature>,
    /// The temperature it is held against.
    pub limit: Option<Temperature>,
    /// Value minus limit on the winter mean.
    pub margin: Option<TemperatureDifference>,
    /// The same in the coldest month, 0 is January, where that is looked at.
    pub month_margin: Option<(usize, TemperatureDifference)>,
    /// The same on the design night.
    pub night_margin: Option<TemperatureDifference>,
    /// Water condensing there, kg/(m²·s), for diffusion.
    pub condensing_flow: Option<f64>,
    /// What this check has to say beyond temperatures.
    pub detail: Detail,
    /// θ_i − θ_e at the time that decides, by which margins of different sites are compared; the
    /// verdict fills it in.
    pub span: Option<TemperatureDifference>,
    /// Which site of the project it is of, counted from 0; the study fills it in.
    pub site: usize,
    /// Distance from the limit in the check's own unit, positive where it is kept; `None` where
    /// there is nothing to measure.
    pub slack: Option<f64>,
    /// At the corners of the materials' ranges, where the check hangs on them.
    pub range: Option<Box<Range>>,
    /// Where the limit comes from.
    pub source: &'static str,
    /// What would help, where that is certain.
    pub help: Option<String>,
}

impl Finding {
    /// A finding with nothing but its status; the check fills in the rest. What a `depends` or an
    /// `unknown` hangs on is what isn't looked at, unless the check says better.
    pub(super) fn new(check: &'static Check, status: Status, source: &'static str) -> Self {
        Self {
            check,
            status,
            on: (status.severity() == 1).then_some(On::NotLookedAt),
            strip: None,
            place: None,
            value: None,
            limit: None,
            margin: None,
            month_margin: None,
            night_margin: None,
            condensing_flow: None,
            detail: Detail::None,
            span: None,
            site: 0,
            slack: None,
            range: None,
            source,
            help: None,
        }
    }

    /// The margins at the three times, where it has any.
    #[must_use]
    pub fn times(&self) -> Option<Times> {
        Some(Times {
            winter: self.margin?,
            month: self.month_margin,
            night: self.night_margin,
        })
    }

    /// When the status came about: the first time at which the limit is crossed, else the winter
    /// mean.
    #[must_use]
    pub fn when(&self) -> When {
        let crossed = self.times().and_then(|times| times.crossed());
        match (crossed, self.status.severity()) {
            (Some(when), 1..) => when,
            _ => When::WinterMean,
        }
    }

    /// Whether it is the same check of the same thing, at whatever site.
    #[must_use]
    pub fn is_alike(&self, other: &Self) -> bool {
        let path = |one: &Self| one.place.as_ref().map(|place| place.path.clone());
        self.check == other.check
            && self.strip == other.strip
            && (!self.check.by_place
                || path(self) == path(other)
                    && (path(self).is_some() || self.detail == other.detail))
    }

    /// Whether it came out worse, or further over its limit, than the same check elsewhere.
    #[must_use]
    pub fn is_worse_than(&self, other: &Self) -> bool {
        let severity = |one: &Self| one.status.severity();
        (severity(self), self.excess()) > (severity(other), other.excess())
    }

    /// Whether it leads before another: worse, earlier among the checks, further over its limit.
    pub(crate) fn comes_before(&self, other: &Self) -> bool {
        let by_rank = self.rank().cmp(&other.rank());
        by_rank
            .then(other.excess().total_cmp(&self.excess()))
            .is_lt()
    }

    /// Worst first, then the checks in order; what isn't looked at comes last of its word.
    pub(super) fn rank(&self) -> (Reverse<u8>, bool, usize) {
        let last = self.on == Some(On::NotLookedAt) && self.check == &super::unseen::CHECK;
        let severity = match self.status {
            Status::Note => 0,
            status => status.severity(),
        };
        (Reverse(severity), last, self.check.order())
    }

    /// How far over its limit, comparable within one check: temperatures as K over θ_i − θ_e, the
    /// others as their check measures them; negative where it is kept.
    #[must_use]
    pub fn excess(&self) -> f64 {
        let by_temperature = self.times().map(|times| {
            let when = self.when();
            let margin = times.all().find(|(at, _)| *at == when);
            let margin = margin.map_or(times.winter, |(_, margin)| margin);
            let span = self.span.map_or(1.0, |span| span.as_kelvin().abs());
            -margin.as_kelvin() / span.max(1e-3)
        });
        by_temperature.unwrap_or_else(|| self.slack.map_or(f64::NEG_INFINITY, |slack| -slack))
    }
}
