//! A derivation while it is written: every number is printed once and stands so in all later steps.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::formula::{Formula, Term};
use super::{Amount, Derivation, Step};
use crate::quantity::{Dimension, Printed, Style, UnitSystem};

pub(super) struct Sheet {
    pub(super) style: Style,
    derivation: Derivation,
    /// The unit last printed for every letter.
    units: RefCell<BTreeMap<String, &'static str>>,
}

/// A symbol with the words for it.
pub(super) type Named<'a> = (&'a str, &'a str);

impl Sheet {
    pub(super) fn new(
        style: Style,
        place: &str,
        title: String,
        answers: &str,
        source: &str,
    ) -> Self {
        Self {
            style,
            derivation: Derivation {
                place: place.to_owned(),
                title,
                answers: answers.to_owned(),
                source: source.to_owned(),
                steps: Vec::new(),
                notes: Vec::new(),
                materials: Vec::new(),
            },
            units: RefCell::default(),
        }
    }

    pub(super) fn done(self) -> Derivation {
        self.derivation
    }

    pub(super) fn note(&mut self, text: impl Into<String>) {
        let text = text.into();
        if !self.derivation.notes.contains(&text) {
            self.derivation.notes.push(text);
        }
    }

    /// Where the values of a material come from.
    pub(super) fn material(&mut self, text: String) {
        if !self.derivation.materials.contains(&text) {
            self.derivation.materials.push(text);
        }
    }

    /// A number for a formula that needs no step of its own.
    pub(super) fn term(&self, symbol: &str, measure: Dimension, si: f64) -> Term {
        Term {
            symbol: symbol.to_owned(),
            printed: measure.given(si, self.style),
        }
    }

    /// An input: what the file says, what a table gives.
    pub(super) fn given(
        &mut self,
        (symbol, words): Named<'_>,
        measure: Dimension,
        si: f64,
    ) -> Term {
        let term = self.term(symbol, measure, si);
        let other = self.in_other_units(measure, si);
        self.push((symbol, words), None, &term.printed, other);
        term
    }

    /// A value on the way, with the formula that gives it. Printed are as many digits of the solved
    /// value, SI, as the numbers printed before it reproduce.
    pub(super) fn computed(
        &mut self,
        named: Named<'_>,
        measure: Dimension,
        si: f64,
        formula: &Formula,
    ) -> Term {
        let solved = measure.formula_value(si, self.style);
        let printed = on_the_way(measure, solved, formula.value(), self.style);
        let other = self.in_other_units(measure, si);
        self.push(named, Some(formula), &printed, other);
        Term {
            symbol: named.0.to_owned(),
            printed,
        }
    }

    /// What was asked for: as [`Sheet::computed`], to the digits that are worth telling.
    pub(super) fn result(
        &mut self,
        named: Named<'_>,
        measure: Dimension,
        si: f64,
        formula: &Formula,
    ) -> Term {
        let solved = measure.formula_value(si, self.style);
        let printed = to_the_last_digit(measure, solved, formula.value(), self.style);
        let other = self.in_other_units(measure, si);
        self.push(named, Some(formula), &printed, other);
        if let Some(step) = self.derivation.steps.last_mut() {
            step.is_result = true;
        }
        Term {
            symbol: named.0.to_owned(),
            printed,
        }
    }

    /// A solver's value with its error bar, SI.
    pub(super) fn solved(
        &mut self,
        (symbol, words): Named<'_>,
        measure: Dimension,
        si: f64,
        bar: f64,
    ) -> Term {
        let unit = match measure {
            Dimension::Temperature => Dimension::Difference.formula_unit(self.style),
            other => other.formula_unit(self.style),
        };
        let number = match measure {
            Dimension::Temperature => self.style.error_bar_number(bar),
            other => other.told(bar, self.style).number,
        };
        let words = format!("{words}; error bar {number} {unit}");
        self.given((symbol, &words), measure, si)
    }

    /// A value of a solver or a table, with text for what no formula on one line can say.
    pub(super) fn told(&mut self, words: &str, number: impl Into<String>, unit: &str) {
        let result = Amount {
            number: number.into(),
            unit: unit.to_owned(),
        };
        self.derivation.steps.push(Step {
            symbol: String::new(),
            words: words.to_owned(),
            formula: String::new(),
            with_values: String::new(),
            in_brief: result.to_string(),
            uses: Vec::new(),
            result,
            other: None,
            is_result: false,
        });
    }

    fn push(
        &mut self,
        (symbol, words): Named<'_>,
        formula: Option<&Formula>,
        printed: &Printed,
        other: Option<Amount>,
    ) {
        let text = |write: fn(&Formula) -> String| formula.map(write).unwrap_or_default();
        let in_brief = self.in_brief(symbol, formula, printed);
        self.derivation.steps.push(Step {
            symbol: symbol.to_owned(),
            words: words.to_owned(),
            formula: text(Formula::symbols),
            with_values: text(Formula::with_values),
            in_brief,
            uses: formula.map(Formula::terms).unwrap_or_default(),
            result: Amount::from(printed),
            other,
            is_result: false,
        });
    }

    /// The step on one line, a unit only where it is news.
    fn in_brief(&self, symbol: &str, formula: Option<&Formula>, printed: &Printed) -> String {
        let is_news = |symbol: &str, unit: &'static str| {
            let before = self.units.borrow_mut().insert(letter(symbol), unit);
            before != Some(unit)
        };
        let mut parts = vec![symbol.to_owned()];
        if let Some(formula) = formula {
            let has_unit = |term: &Term| is_news(&term.symbol, term.printed.unit);
            parts.extend([formula.symbols(), formula.in_brief(&has_unit)]);
        }
        let amount = Amount::from(printed);
        parts.push(match is_news(symbol, printed.unit) {
            true => amount.to_string(),
            false => amount.number,
        });
        parts.dedup();
        parts.join(" = ")
    }

    /// The same value for who reads the other units; `None` where there are none.
    fn in_other_units(&self, measure: Dimension, si: f64) -> Option<Amount> {
        let imperial = Style {
            units: UnitSystem::Imperial,
        };
        let (measure, style) = match measure {
            Dimension::Pascal => (Dimension::Pressure, imperial),
            Dimension::Celsius => (Dimension::Temperature, imperial),
            other => (other, self.style.other()),
        };
        let differs = measure.formula_unit(style) != measure.formula_unit(style.other());
        differs.then(|| {
            let value = measure.formula_value(si, style);
            let decimals = measure.result_decimals(value);
            Amount::from(&measure.with_decimals(value, decimals, style))
        })
    }
}

/// What a symbol begins with: `R` of `R3b,2`.
fn letter(symbol: &str) -> String {
    symbol.chars().take_while(|c| c.is_alphabetic()).collect()
}

/// The most decimals at which the recomputed value is within a unit of the last digit printed.
fn on_the_way(measure: Dimension, solved: f64, recomputed: f64, style: Style) -> Printed {
    let most = measure.most_decimals(solved).saturating_sub(1);
    let at = |decimals: usize| {
        let printed = measure.with_decimals(solved, decimals, style);
        let unit = libm::pow(10.0, -(decimals as f64));
        ((recomputed - printed.value).abs() <= 0.75 * unit).then_some(printed)
    };
    let found = (0..=most).rev().find_map(at);
    found.unwrap_or_else(|| measure.with_decimals(solved, most, style))
}

/// The decimals wanted, or the nearest to them at which the recomputed value rounds to the same.
fn to_the_last_digit(measure: Dimension, solved: f64, recomputed: f64, style: Style) -> Printed {
    let wanted = measure.result_decimals(solved);
    let at = |decimals: usize| {
        let print = |value| measure.with_decimals(value, decimals, style);
        let printed = print(solved);
        (printed.number == print(recomputed).number).then_some(printed)
    };
    let order = [wanted, wanted + 1].into_iter().chain((0..wanted).rev());
    let found = order.into_iter().find_map(at);
    found.unwrap_or_else(|| measure.with_decimals(solved, wanted, style))
}
