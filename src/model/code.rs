//! The code a project goes by, as far as its prescriptive tables are held against it.

use crate::climate::Zone;

/// What the prescriptive tables are entered with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Code {
    /// Whether the file asks for the tables at all, by a `code:` block.
    pub asked: bool,
    /// The edition; `None` where the file doesn't state one.
    pub edition: Option<Edition>,
    /// The climate zone; `None` where neither the file nor the climate says.
    pub zone: Option<Zone>,
}

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
    /// Every edition, the oldest first.
    pub const ALL: [Self; 3] = [Self::Irc2009, Self::Irc2012To2018, Self::Irc2021];

    /// The words used in files, where letter case doesn't matter.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("IRC 2009", Self::Irc2009),
        ("IRC 2012", Self::Irc2012To2018),
        ("IRC 2015", Self::Irc2012To2018),
        ("IRC 2018", Self::Irc2012To2018),
        ("IRC 2021", Self::Irc2021),
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
