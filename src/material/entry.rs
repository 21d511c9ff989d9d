//! How a material is written: in the library's files and in a project's `materials:` block alike.

use serde_json::{Value as Json, json};

use super::mold_entry::MoldEntry;
use super::{Board, Kind, Material, Measured, MoldOn, Tag, Vapor};
use crate::document::{At, FromNode, Node, Problems, Range, Value, Word, record};
use crate::error::{Problem, Span, did_you_mean};
use crate::quantity::{
    ArealDensity, Conductivity, Density, Length, Permeability, Permeance, Quantity, QuantityError,
    RelativeHumidity, SheetMetal, SpecificHeat, Temperature,
};

/// Vapor transmission of a material: by thickness, or of a sheet as it comes.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub enum VaporRate {
    /// Permeability: the permeance follows from the thickness.
    PerThickness(Permeability),
    /// Permeance of the whole sheet, coating or faced board.
    PerSheet(Permeance),
}

impl VaporRate {
    /// The SI number: kg/(m·s·Pa) by thickness, kg/(s·m²·Pa) per sheet.
    #[must_use]
    pub fn as_si(self) -> f64 {
        match self {
            Self::PerThickness(value) => value.as_si(),
            Self::PerSheet(value) => value.as_si(),
        }
    }

    /// Whether it holds per thickness.
    #[must_use]
    pub fn is_per_thickness(self) -> bool {
        matches!(self, Self::PerThickness(_))
    }
}

impl Quantity for VaporRate {
    const EXPECTED: &'static str =
        "a permeability such as `2 perm-in` or a permeance such as `0.7 perm`";

    fn read(text: &str) -> Result<Self, QuantityError> {
        if let Ok(value) = Permeability::read(text) {
            return Ok(Self::PerThickness(value));
        }
        Permeance::read(text)
            .map(Self::PerSheet)
            .map_err(|error| QuantityError {
                message: error.message.replace(Permeance::EXPECTED, Self::EXPECTED),
                ..error
            })
    }
}

record! {
    /// A value with its range and source.
    pub struct ValueText {
        /// The value to compute with.
        "nominal" nominal: required At<Word>,
        /// The least value among specimens.
        "low" low: optional At<Word>,
        /// The greatest value among specimens.
        "high" high: optional At<Word>,
        /// Where it comes from.
        "source" source: optional At<Word>,
        /// `seen`, `from memory`, `computed`, `common practice` or `given`.
        "tag" tag: optional At<Word>,
        /// The relative humidity a vapor value holds at.
        "at" at: optional At<RelativeHumidity> ["0 %", "100 %"],
        /// Conductivity at mean temperatures, coldest first.
        "by-temperature" by_temperature: optional Vec<PointText>,
    }
}

record! {
    /// A conductivity at one mean temperature.
    pub struct PointText {
        /// The layer's mean temperature.
        "mean" mean: required At<Temperature> ["-60 °C", "70 °C"],
        /// The conductivity there.
        "value" value: required At<Conductivity> ["0.001 W/mK", "500 W/mK"],
    }
}

/// A value written short, `0.12 W/mK`, or as a block with range and source.
#[derive(Clone, Debug, PartialEq)]
pub struct Valued<T> {
    measured: Measured<T>,
    by_temperature: Vec<(Temperature, Conductivity)>,
    span: Span,
}

impl<T: Quantity + PartialOrd> FromNode for Valued<T> {
    const MEASURED: bool = At::<T>::MEASURED;

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        Self::read(node, &At::<T>::from_node, problems)
    }

    fn from_node_within(node: &Node, range: Range, problems: &mut Problems) -> Option<Self> {
        let one =
            |node: &Node, problems: &mut Problems| At::from_node_within(node, range, problems);
        Self::read(node, &one, problems)
    }

    fn schema_within(range: Range) -> Json {
        json!({"anyOf": [At::<T>::schema_within(range), ValueText::schema()]})
    }

    fn expected() -> String {
        T::EXPECTED.into()
    }

    fn schema() -> Json {
        json!({"anyOf": [At::<T>::schema(), ValueText::schema()]})
    }
}

impl<T: Quantity + PartialOrd> Valued<T> {
    fn read(
        node: &Node,
        one: &dyn Fn(&Node, &mut Problems) -> Option<At<T>>,
        problems: &mut Problems,
    ) -> Option<Self> {
        if !matches!(node.value, Value::Map(_)) {
            let nominal = one(node, problems)?.value;
            let measured = Measured {
                nominal,
                low: None,
                high: None,
                source: String::new(),
                tag: Tag::Given,
                at: None,
            };
            return Some(Self {
                measured,
                by_temperature: Vec::new(),
                span: node.span,
            });
        }
        let text = ValueText::from_node(node, problems)?;
        let span = text.nominal.span;
        let mut quantity = |word: &At<Word>| {
            let value = Value::Text(word.value.0.clone());
            let span = word.span;
            one(&Node { value, span }, problems).map(|at| at.value)
        };
        let nominal: T = quantity(&text.nominal)?;
        let low = text.low.as_ref().and_then(&mut quantity);
        let high = text.high.as_ref().and_then(quantity);
        if low.is_some_and(|low| low > nominal) || high.is_some_and(|high| high < nominal) {
            let message = format!("`{}` lies outside its own range", text.nominal.value.0);
            problems.push(Problem::at(span, message).expected("expected low ≤ nominal ≤ high"));
            return None;
        }
        let tag = match &text.tag {
            None => Tag::Given,
            Some(word) => one_of(word, &Tag::WORDS, "tag", problems)?,
        };
        let source = text
            .source
            .map_or_else(String::new, |source| source.value.0);
        let measured = Measured {
            nominal,
            low,
            high,
            source,
            tag,
            at: text.at.map(|at| at.value),
        };
        let points = text.by_temperature.unwrap_or_default();
        let by_temperature: Vec<_> = points
            .iter()
            .map(|p| (p.mean.value, p.value.value))
            .collect();
        if by_temperature.windows(2).any(|pair| pair[0].0 >= pair[1].0) {
            let message = "the temperatures of `by-temperature` don't rise";
            problems.push(Problem::at(span, message).expected("expected the coldest first"));
            return None;
        }
        Some(Self {
            measured,
            by_temperature,
            span,
        })
    }
}

/// Reads one of a few words.
pub(crate) fn one_of<T: Copy>(
    word: &At<Word>,
    words: &[(&'static str, T)],
    what: &str,
    problems: &mut Problems,
) -> Option<T> {
    let found = words
        .iter()
        .find(|(known, _)| known.eq_ignore_ascii_case(&word.value.0));
    if found.is_none() {
        let names: Vec<&str> = words.iter().map(|(known, _)| *known).collect();
        let near = did_you_mean(&word.value.0, names.iter().copied());
        let problem = Problem::at(word.span, format!("unknown {what} `{}`", word.value.0))
            .expected(format!("expected one of {}", names.join(", ")))
            .maybe_help(near.map(|near| format!("did you mean `{near}`?")));
        problems.push(problem);
    }
    found.map(|(_, value)| *value)
}

record! {
    /// Vapor transmission at three mean relative humidities.
    pub struct VaporText {
        /// About 25 to 30 %.
        "dry" dry: optional Valued<VaporRate>,
        /// About 50 %: the nominal value.
        "mid" mid: required Valued<VaporRate>,
        /// 75 to 90 %.
        "damp" damp: optional Valued<VaporRate>,
    }
}

/// Vapor written short, `2 perm-in`, or as a block by humidity.
#[derive(Clone, Debug, PartialEq)]
pub struct VaporEntry(Vapor);

impl FromNode for VaporEntry {
    fn expected() -> String {
        VaporRate::EXPECTED.into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        if !matches!(node.value, Value::Map(_)) {
            let mid = Valued::<VaporRate>::from_node(node, problems)?.measured;
            return Some(Self(Vapor {
                dry: None,
                mid,
                damp: None,
            }));
        }
        let text = VaporText::from_node(node, problems)?;
        let span = text.mid.span;
        let vapor = Vapor {
            dry: text.dry.map(|value| value.measured),
            mid: text.mid.measured,
            damp: text.damp.map(|value| value.measured),
        };
        let by_thickness = vapor.mid.nominal.is_per_thickness();
        let others = vapor.dry.iter().chain(&vapor.damp);
        if others
            .into_iter()
            .any(|value| value.nominal.is_per_thickness() != by_thickness)
        {
            let message = "dry, mid and damp mix permeability and permeance";
            problems.push(Problem::at(span, message).expected("expected one kind for all three"));
            return None;
        }
        Some(Self(vapor))
    }

    fn schema() -> Json {
        json!({"anyOf": [At::<VaporRate>::schema(), VaporText::schema()]})
    }
}

record! {
    /// A material of your own, or one of the library's with your values.
    pub struct MaterialText {
        /// What it is called in reports.
        "name" name: optional At<Word>,
        /// Other names it is found by.
        "aliases" aliases: optional Vec<At<Word>>,
        /// `wood`, `panel`, `insulation`, `foam`, `metal`, `membrane`, `lining`, `flooring`, `cladding`, `masonry` or `seal`.
        "kind" kind: required At<Word>,
        /// The board it is to the code's tables: `gypsum` or `fiberboard`.
        "board" board: optional At<Word>,
        /// The chart its sheet gauges go by: `steel`, `galvanized` or `aluminum`.
        "gauge" gauge: optional At<Word>,
        /// Whether air moves through it (fibrous insulation).
        "air-permeable" air_permeable: optional At<bool>,
        /// Whether air can't get around it by nature (sprayed, self-adhered).
        "bonded" bonded: optional At<bool>,
        /// The thickness it comes in, for sheets.
        "thickness" thickness: optional At<Length> ["0.001 mm", "78.75 in"],
        /// Mass per volume.
        "density" density: optional Valued<Density> ["1 kg/m³", "23000 kg/m³"],
        /// Mass per area, for sheets.
        "areal-density" areal_density: optional Valued<ArealDensity> ["0 kg/m²", "1000 kg/m²"],
        /// Thermal conductivity; left out for sheets of negligible resistance.
        "conductivity" conductivity: optional Valued<Conductivity> ["0.001 W/mK", "500 W/mK"],
        /// Specific heat capacity.
        "specific-heat" specific_heat: optional Valued<SpecificHeat> ["100 J/kgK", "5000 J/kgK"],
        /// Vapor permeability, or permeance of a sheet.
        "vapor" vapor: required VaporEntry,
        /// How readily mold grows on it; left out, what its kind makes likely.
        "mold" mold: optional MoldEntry,
        /// What a user should know.
        "note" note: optional At<Word>,
    }
}

/// What was read of a key that may be left out: `None` where it was wrong.
fn given<T>(read: Option<Option<T>>) -> Option<Option<T>> {
    match read {
        Some(read) => read.map(Some),
        None => Some(None),
    }
}

impl MaterialText {
    /// The material, if its kind is a known one.
    pub fn resolve(self, id: &str, problems: &mut Problems) -> Option<Material> {
        let kind = one_of(&self.kind, &Kind::WORDS, "kind", problems);
        let board = self
            .board
            .as_ref()
            .map(|word| one_of(word, &Board::WORDS, "board", problems));
        let gauge = self
            .gauge
            .as_ref()
            .map(|word| one_of(word, &SheetMetal::WORDS, "gauge chart", problems));
        let mold = self.mold.map(|entry| entry.resolve(problems));
        let (kind, board, gauge, mold) = (kind?, given(board)?, given(gauge)?, given(mold)?);
        let word = |at: At<Word>| at.value.0;
        let (conductivity, by_temperature) = match self.conductivity {
            Some(value) => (Some(value.measured), value.by_temperature),
            None => (None, Vec::new()),
        };
        Some(Material {
            id: id.to_owned(),
            name: self.name.map_or_else(|| id.to_owned(), word),
            aliases: self
                .aliases
                .unwrap_or_default()
                .into_iter()
                .map(word)
                .collect(),
            kind,
            board,
            gauge,
            air_permeable: self.air_permeable.is_some_and(|at| at.value),
            bonded: self.bonded.is_some_and(|at| at.value),
            thickness: self.thickness.map(|at| at.value),
            density: self.density.map(|value| value.measured),
            areal_density: self.areal_density.map(|value| value.measured),
            conductivity,
            by_temperature,
            specific_heat: self.specific_heat.map(|value| value.measured),
            vapor: self.vapor.0,
            mold: mold.or_else(|| MoldOn::of_kind(kind, board)),
            note: self.note.map(word),
            prices: Vec::new(),
        })
    }
}
