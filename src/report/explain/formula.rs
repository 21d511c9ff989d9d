//! A formula once: from it come the symbols, the same with values put in, and what a calculator
//! gives for the numbers as printed.

use std::cell::RefCell;
use std::ops::{Add, Div, Mul, Sub};

use crate::quantity::Printed;

/// A quantity that stands in a formula: its symbol, and its number as printed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Term {
    pub(super) symbol: String,
    pub(super) printed: Printed,
}

/// A formula of terms and plain numbers.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Formula {
    Term(Term),
    /// A constant of the formula itself, with the text that stands for it.
    Constant(&'static str, f64),
    Sum(Vec<Formula>),
    Difference(Box<Formula>, Box<Formula>),
    Product(Box<Formula>, Box<Formula>),
    Quotient(Box<Formula>, Box<Formula>),
    Call(Function, Box<Formula>),
}

/// A key of the calculator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Function {
    Exp,
    Ln,
    Sqrt,
    Tanh,
}

impl Function {
    fn name(self) -> &'static str {
        match self {
            Self::Exp => "exp",
            Self::Ln => "ln",
            Self::Sqrt => "sqrt",
            Self::Tanh => "tanh",
        }
    }

    fn of(self, value: f64) -> f64 {
        match self {
            Self::Exp => libm::exp(value),
            Self::Ln => libm::log(value),
            Self::Sqrt => libm::sqrt(value),
            Self::Tanh => libm::tanh(value),
        }
    }
}

/// How tightly a formula holds together, so that brackets stand only where they are needed.
#[derive(PartialEq, PartialOrd)]
enum Tightness {
    Sum,
    Product,
    Whole,
}

impl Term {
    /// The term as a formula.
    pub(super) fn f(&self) -> Formula {
        Formula::Term(self.clone())
    }
}

/// A constant written as it is meant to be read.
pub(super) fn constant(text: &'static str, value: f64) -> Formula {
    Formula::Constant(text, value)
}

/// e to the power of a formula.
pub(super) fn exp(of: Formula) -> Formula {
    Formula::Call(Function::Exp, Box::new(of))
}

/// The natural logarithm of a formula.
pub(super) fn ln(of: Formula) -> Formula {
    Formula::Call(Function::Ln, Box::new(of))
}

/// The square root of a formula.
pub(super) fn sqrt(of: Formula) -> Formula {
    Formula::Call(Function::Sqrt, Box::new(of))
}

/// The hyperbolic tangent of a formula.
pub(super) fn tanh(of: Formula) -> Formula {
    Formula::Call(Function::Tanh, Box::new(of))
}

/// A sum of several terms.
pub(super) fn sum(of: impl IntoIterator<Item = Formula>) -> Formula {
    let mut parts: Vec<Formula> = of.into_iter().collect();
    match parts.len() {
        1 => parts.remove(0),
        _ => Formula::Sum(parts),
    }
}

impl Formula {
    /// What a calculator gives for the numbers as printed.
    pub(super) fn value(&self) -> f64 {
        match self {
            Self::Term(term) => term.printed.value,
            Self::Constant(_, value) => *value,
            Self::Sum(parts) => parts.iter().map(Self::value).sum(),
            Self::Difference(a, b) => a.value() - b.value(),
            Self::Product(a, b) => a.value() * b.value(),
            Self::Quotient(a, b) => a.value() / b.value(),
            Self::Call(function, of) => function.of(of.value()),
        }
    }

    /// In symbols.
    pub(super) fn symbols(&self) -> String {
        self.write(&|term| term.symbol.clone())
    }

    /// With values and units put in; what is below zero stands in brackets.
    pub(super) fn with_values(&self) -> String {
        self.write(&|term| value_of(term, true))
    }

    /// The same with units only where they are wanted; asked term by term, from the left.
    pub(super) fn in_brief(&self, has_unit: &dyn Fn(&Term) -> bool) -> String {
        self.write(&|term| value_of(term, has_unit(term)))
    }

    /// The symbols of its terms, from the left.
    pub(super) fn terms(&self) -> Vec<String> {
        let found = RefCell::new(Vec::new());
        self.write(&|term| {
            found.borrow_mut().push(term.symbol.clone());
            String::new()
        });
        found.into_inner()
    }

    fn write(&self, term: &dyn Fn(&Term) -> String) -> String {
        let inside = |part: &Self, least: Tightness| {
            let text = part.write(term);
            match part.tightness() < least {
                true => format!("({text})"),
                false => text,
            }
        };
        match self {
            Self::Term(one) => term(one),
            Self::Constant(text, _) => (*text).to_owned(),
            Self::Sum(parts) => {
                let parts: Vec<String> = parts.iter().map(|part| part.write(term)).collect();
                parts.join(" + ")
            }
            Self::Difference(a, b) => {
                format!("{} − {}", a.write(term), inside(b, Tightness::Product))
            }
            Self::Product(a, b) => format!(
                "{} · {}",
                inside(a, Tightness::Product),
                inside(b, Tightness::Product)
            ),
            Self::Quotient(a, b) => format!(
                "{} / {}",
                inside(a, Tightness::Product),
                inside(b, Tightness::Whole)
            ),
            Self::Call(function, of) => format!("{}({})", function.name(), of.write(term)),
        }
    }

    fn tightness(&self) -> Tightness {
        match self {
            Self::Sum(_) | Self::Difference(..) => Tightness::Sum,
            Self::Product(..) | Self::Quotient(..) => Tightness::Product,
            Self::Term(_) | Self::Constant(..) | Self::Call(..) => Tightness::Whole,
        }
    }
}

/// A term's number, with its unit where it is wanted.
fn value_of(term: &Term, with_unit: bool) -> String {
    let printed = &term.printed;
    let text = match with_unit && !printed.unit.is_empty() {
        true => format!("{} {}", printed.number, printed.unit),
        false => printed.number.clone(),
    };
    match printed.value < 0.0 {
        true => format!("({text})"),
        false => text,
    }
}

impl Add for Formula {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        match self {
            Self::Sum(mut parts) => {
                parts.push(other);
                Self::Sum(parts)
            }
            first => Self::Sum(vec![first, other]),
        }
    }
}

impl Sub for Formula {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::Difference(Box::new(self), Box::new(other))
    }
}

impl Mul for Formula {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::Product(Box::new(self), Box::new(other))
    }
}

impl Div for Formula {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        Self::Quotient(Box::new(self), Box::new(other))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn term(symbol: &str, number: &str, value: f64) -> Formula {
        let printed = Printed {
            number: number.into(),
            unit: "K",
            value,
        };
        Formula::Term(Term {
            symbol: symbol.into(),
            printed,
        })
    }

    #[test]
    fn brackets_stand_where_they_are_needed() {
        let [a, b, c] = [
            term("a", "8", 8.0),
            term("b", "−3", -3.0),
            term("c", "2", 2.0),
        ];
        let formula = a.clone() - (a.clone() - b.clone()) * c.clone() / (a.clone() * c.clone());
        assert_eq!(formula.symbols(), "a − (a − b) · c / (a · c)");
        assert_eq!(
            formula.with_values(),
            "8 K − (8 K − (−3 K)) · 2 K / (8 K · 2 K)"
        );
        assert_eq!(formula.terms(), ["a", "a", "b", "c", "a", "c"]);
        assert_eq!(
            formula.in_brief(&|term| term.symbol == "c"),
            "8 − (8 − (−3)) · 2 K / (8 · 2 K)"
        );
        assert!((formula.value() - (8.0 - 11.0 * 2.0 / 16.0)).abs() < 1e-12);
        let nested = a.clone() - (b + c.clone());
        assert_eq!(nested.symbols(), "a − (b + c)");
        assert_eq!(exp(a / c).symbols(), "exp(a / c)");
    }
}
