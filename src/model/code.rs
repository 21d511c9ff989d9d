//! The code a project goes by, as far as its prescriptive tables are held against it.

/// Editions of the residential code whose tables are known here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edition {
    /// IRC 2009.
    Irc2009,
    /// IRC 2012, 2015 and 2018: the same tables.
    Irc2012To2018,
    /// IRC 2021.
    Irc2021,
}

impl Edition {
    /// The words used in files.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("irc 2009", Self::Irc2009),
        ("irc 2012", Self::Irc2012To2018),
        ("irc 2015", Self::Irc2012To2018),
        ("irc 2018", Self::Irc2012To2018),
        ("irc 2021", Self::Irc2021),
    ];

    /// What it is called in reports.
    #[must_use]
    pub fn title(self) -> &'static str {
        match self {
            Self::Irc2009 => "IRC 2009",
            Self::Irc2012To2018 => "IRC 2012 to 2018",
            Self::Irc2021 => "IRC 2021",
        }
    }
}

/// A zone of the code's map.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Zone {
    /// 1, the hottest, to 8.
    pub number: u8,
    /// Mild and damp at a coast: the marine half of zone 4.
    pub marine: bool,
    /// Moisture regime: `A` moist, `B` dry, `C` marine; `None` where it isn't stated.
    pub moist: Option<char>,
}

/// What the file says about the code.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Code {
    /// The edition; `None` where it isn't stated.
    pub edition: Option<Edition>,
    /// The zone; `None` where it isn't stated.
    pub zone: Option<Zone>,
}
