//! What can be typed. Help, completions and the manual page come from these definitions.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use crate::model::Project;
use crate::quantity::{Style, UnitSystem};
use crate::report::figure::Look;
use crate::report::packet::{Calculations, Paper};

/// Where a wall, floor or roof meets cold steel: does it stay above the dew point?
#[derive(Debug, Parser)]
#[command(
    name = "dewmargin",
    version,
    arg_required_else_help = true,
    max_term_width = 100
)]
#[command(
    after_help = "Exit codes: 0 done, 1 a check failed, 2 the input can't be used, \
    3 the output can't be written, 4 interrupted, or nothing fails and a solver didn't reach its \
    tolerance.\n\
    Results are estimates: not structural; local codes govern."
)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub(super) command: Command,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Judge every assembly of a file: verdict first, then the numbers, then the reasons
    Check(CheckOptions),
    /// Set variants and assemblies side by side and say which is best
    Compare(CompareOptions),
    /// Find how thick a layer has to be: the least that meets the targets, and the board to buy
    Size(SizeOptions),
    /// Judge every combination of thicknesses, materials, humidities, climates: one row each
    Sweep(SweepOptions),
    /// Fit on the road, weight and heat loss of the whole house, every term to be added up by hand
    House(HouseOptions),
    /// Print how a number of the report came about, to be redone by hand
    Explain(ExplainOptions),
    /// Draw sections, and where there is a climate its year, its months and the route, as SVG files
    Plot(PlotOptions),
    /// Draw the permit packet: sheets to scale with their title block
    Packet(PacketOptions),
    /// List, search or show materials with their sources
    Materials(MaterialOptions),
    /// Print the JSON schema of the project file, for editors
    Schema,
    /// Print a completion script for your shell
    Completions {
        /// bash, zsh, fish, elvish or powershell
        shell: clap_complete::Shell,
    },
    /// Print the manual page (roff, for `man`)
    Manual,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(super) enum Units {
    /// Inches, °F, R-values, perms
    Imperial,
    /// Millimeters, °C, m²·K/W
    Metric,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For reading
    Text,
    /// For other programs, SI units in the key names
    Json,
}

#[derive(Debug, Args)]
pub(super) struct ReportOptions {
    /// Units of the report [default: those the file speaks]
    #[arg(long)]
    units: Option<Units>,
    /// How the result is printed
    #[arg(long, default_value = "text")]
    pub(super) format: Format,
}

#[derive(Debug, Args)]
pub(super) struct CheckOptions {
    /// The project file, or `-` for standard input
    pub(super) file: PathBuf,
    /// Exit 1 on `depends` as well as on `fail`
    #[arg(long)]
    pub(super) strict: bool,
    /// Judge only this variant; `as drawn` for the assemblies without changes
    #[arg(long, value_name = "NAME")]
    pub(super) variant: Option<String>,
    #[command(flatten)]
    pub(super) told: ToldOptions,
    #[command(flatten)]
    pub(super) report: ReportOptions,
}

/// How much is told.
#[derive(Debug, Args)]
pub(super) struct ToldOptions {
    /// Tell all of this part, such as `wall`, `floor edge` or `house`
    #[arg(long, value_name = "NAME")]
    pub(super) part: Option<String>,
    /// Tell everything: numbers, months, reasons and sources of every part
    #[arg(long, conflicts_with = "part")]
    pub(super) full: bool,
}

#[derive(Debug, Args)]
pub(super) struct SizeOptions {
    /// The project file, with a `size:` block
    pub(super) file: PathBuf,
    /// Only this entry of the block
    #[arg(long, value_name = "NAME")]
    pub(super) entry: Option<String>,
    /// Size for this room humidity, such as `60 %`, instead of the file's
    #[arg(long, value_name = "HUMIDITY")]
    pub(super) humidity: Option<String>,
    /// Exit 1 where the targets are met at nominal values alone, too
    #[arg(long)]
    pub(super) strict: bool,
    #[command(flatten)]
    pub(super) report: ReportOptions,
}

#[derive(Debug, Args)]
pub(super) struct SweepOptions {
    /// The project file, with a `sweep:` block
    pub(super) file: PathBuf,
    /// The table, .csv or .json; what is there of it is kept, and the rest is computed
    #[arg(short, long, value_name = "TABLE")]
    pub(super) output: PathBuf,
    /// Which entry of the block, where there are several
    #[arg(long, value_name = "NAME")]
    pub(super) entry: Option<String>,
    /// Draw it as well, as an SVG file: lines over one axis, a map over the first two
    #[arg(long, value_name = "FILE")]
    pub(super) plot: Option<PathBuf>,
    #[command(flatten)]
    pub(super) look: LookOptions,
    /// Write over a table that is there, or whatever else bears that name
    #[arg(long)]
    pub(super) again: bool,
    /// Units of the table [default: those the file speaks]
    #[arg(long)]
    pub(super) units: Option<Units>,
}

#[derive(Debug, Args)]
pub(super) struct ExplainOptions {
    /// The project file
    pub(super) file: PathBuf,
    /// What to explain, as the report names it, such as `floor / U`, `floor / cavity` or `dew point`;
    /// without it, everything that can be asked is listed
    #[arg(value_name = "WHERE")]
    pub(super) place: Vec<String>,
    /// Only this variant; `as drawn` for the assemblies without changes
    #[arg(long, value_name = "NAME")]
    pub(super) variant: Option<String>,
    /// Units of the calculation [default: those the file speaks]
    #[arg(long)]
    pub(super) units: Option<Units>,
}

#[derive(Debug, Args)]
pub(super) struct CompareOptions {
    /// The project files
    #[arg(required = true)]
    pub(super) files: Vec<PathBuf>,
    #[command(flatten)]
    pub(super) told: ToldOptions,
    #[command(flatten)]
    pub(super) report: ReportOptions,
}

#[derive(Debug, Args)]
pub(super) struct PlotOptions {
    /// The project file
    pub(super) file: PathBuf,
    /// The folder the drawings go to; it is made where there is none
    #[arg(short, long, value_name = "DIR")]
    pub(super) output: PathBuf,
    /// Units of the drawings [default: those the file speaks]
    #[arg(long)]
    pub(super) units: Option<Units>,
    #[command(flatten)]
    pub(super) look: LookOptions,
}

#[derive(Clone, Copy, Debug, Args)]
pub(super) struct LookOptions {
    /// Black and white only, without gray
    #[arg(long)]
    mono: bool,
    /// Leave out the hatching of materials; what is wet stays marked
    #[arg(long)]
    no_hatching: bool,
}

impl From<LookOptions> for Look {
    fn from(options: LookOptions) -> Self {
        Self {
            hatching: !options.no_hatching,
            mono: options.mono,
        }
    }
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(super) enum WhichCalculations {
    /// The dew point, U of each assembly, and the place that decides in each
    Deciding,
    /// Everything that `explain` knows
    All,
    /// None
    None,
}

impl From<WhichCalculations> for Calculations {
    fn from(which: WhichCalculations) -> Self {
        match which {
            WhichCalculations::Deciding => Self::Deciding,
            WhichCalculations::All => Self::All,
            WhichCalculations::None => Self::None,
        }
    }
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(super) enum PaperSize {
    /// 8-1/2 by 11 in
    Letter,
    /// 11 by 17 in
    #[value(name = "11x17")]
    Tabloid,
    /// 24 by 36 in
    #[value(name = "24x36")]
    Large,
    /// 210 by 297 mm
    #[value(name = "A4")]
    A4,
    /// 297 by 420 mm
    #[value(name = "A3")]
    A3,
    /// 594 by 841 mm
    #[value(name = "A1")]
    A1,
}

impl From<PaperSize> for Paper {
    fn from(size: PaperSize) -> Self {
        match size {
            PaperSize::Letter => Self::Letter,
            PaperSize::Tabloid => Self::Tabloid,
            PaperSize::Large => Self::Large,
            PaperSize::A4 => Self::A4,
            PaperSize::A3 => Self::A3,
            PaperSize::A1 => Self::A1,
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct PacketOptions {
    /// The project file
    pub(super) file: PathBuf,
    /// The folder the packet goes to; it is made where there is none
    #[arg(short, long, value_name = "DIR")]
    pub(super) output: PathBuf,
    /// The paper, lying down [default: 24x36, or A1 where the units are metric]
    #[arg(long, value_name = "SIZE", ignore_case = true)]
    pub(super) paper: Option<PaperSize>,
    /// Units that come first [default: those the file speaks]
    #[arg(long)]
    pub(super) units: Option<Units>,
    /// Draw this variant instead of what the file draws
    #[arg(long, value_name = "NAME")]
    pub(super) variant: Option<String>,
    #[command(flatten)]
    pub(super) look: LookOptions,
    /// Draw only this part, such as `wall`, `floor edge` or `house`; may be given several times
    #[arg(long, value_name = "NAME")]
    pub(super) only: Vec<String>,
    /// The hand calculations it has
    #[arg(long, value_name = "WHICH", default_value = "deciding")]
    pub(super) calculations: WhichCalculations,
    /// Write the sheets as SVG as well
    #[arg(long)]
    pub(super) svg: bool,
    /// Write one page to read on a screen as well: a single file that needs no network
    #[arg(long)]
    pub(super) html: bool,
    /// Exit 1 where a plan reviewer will ask for something that the file doesn't say
    #[arg(long)]
    pub(super) strict: bool,
    /// Make the packet again whenever the file changes
    #[arg(long)]
    pub(super) watch: bool,
}

#[derive(Debug, Args)]
pub(super) struct HouseOptions {
    /// The project file
    pub(super) file: PathBuf,
    /// Tell only of this variant; `as drawn` for the house without changes
    #[arg(long, value_name = "NAME")]
    pub(super) variant: Option<String>,
    #[command(flatten)]
    pub(super) report: ReportOptions,
}

#[derive(Debug, Args)]
pub(super) struct MaterialOptions {
    /// A material's name, or a part of one to search for; nothing lists them all
    pub(super) name: Vec<String>,
    /// Units of the values
    #[arg(long, default_value = "imperial")]
    pub(super) units: Units,
}

/// The style asked for, or the one the file speaks.
pub(super) fn style(asked: Option<Units>, project: &Project) -> Style {
    Style {
        units: asked.map_or(project.units, UnitSystem::from),
    }
}

impl ReportOptions {
    pub(super) fn style(&self, project: &Project) -> Style {
        style(self.units, project)
    }
}

impl From<Units> for UnitSystem {
    fn from(units: Units) -> Self {
        match units {
            Units::Imperial => Self::Imperial,
            Units::Metric => Self::Metric,
        }
    }
}
