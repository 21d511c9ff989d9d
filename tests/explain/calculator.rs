//! A calculator that reads the print: it knows nothing of the program's own formulas.

use std::collections::HashMap;

/// A line of a calculation as printed.
#[derive(Debug)]
pub(super) struct Line {
    pub(super) symbol: String,
    /// In symbols; empty where the value is given.
    pub(super) formula: String,
    /// With values put in; the result itself where a quantity is only passed on.
    pub(super) with_values: String,
    /// The digits of the result.
    pub(super) number: String,
    pub(super) unit: String,
}

/// The lines of a derivation's text that say `symbol = …`.
pub(super) fn lines(text: &str) -> Vec<Line> {
    let mut blocks: Vec<String> = Vec::new();
    let mut open = false;
    for line in text.lines().take_while(|line| *line != "  notes") {
        let indent = line.len() - line.trim_start().len();
        match (indent, open) {
            (4, false) => {
                blocks.push(line.trim().to_owned());
                open = true;
            }
            (4 | 6, true) => {
                let last = blocks.last_mut().expect("an open block");
                last.push(' ');
                last.push_str(line.trim());
            }
            _ => open = false,
        }
    }
    blocks.iter().filter_map(|block| line(block)).collect()
}

fn line(block: &str) -> Option<Line> {
    let parts: Vec<&str> = block.split(" = ").collect();
    // Behind the result stands the same in other units, in brackets.
    let plain = |result: &str| result.split(" (").next().unwrap_or_default().to_owned();
    let (formula, with_values, result) = match parts.as_slice() {
        [_, result] => ("", String::new(), plain(result)),
        [_, formula, result] => (*formula, plain(result), plain(result)),
        [_, formula, values, result] => (*formula, (*values).to_owned(), plain(result)),
        _ => return None,
    };
    let (number, unit) = result.split_once(' ').unwrap_or((&result, ""));
    Some(Line {
        symbol: parts[0].to_owned(),
        formula: formula.to_owned(),
        with_values,
        number: number.to_owned(),
        unit: unit.to_owned(),
    })
}

/// A number as printed, the true minus sign allowed.
pub(super) fn number(text: &str) -> Option<f64> {
    text.replace('−', "-").parse().ok()
}

/// One in the last place of a number as printed.
pub(super) fn last_place(number: &str) -> f64 {
    let decimals = number.split_once('.').map_or(0, |(_, part)| part.len());
    10_f64.powi(-i32::try_from(decimals).expect("few"))
}

/// What a formula comes to; `None` where it names a symbol that isn't known.
pub(super) fn evaluate(formula: &str, known: &HashMap<String, f64>) -> Option<f64> {
    let tokens = tokens(formula);
    let mut reader = Reader {
        tokens: &tokens,
        at: 0,
        known,
    };
    let value = reader.sum()?;
    assert_eq!(reader.at, tokens.len(), "all of `{formula}` is read");
    Some(value)
}

fn tokens(text: &str) -> Vec<String> {
    let spaced = text.replace('(', " ( ").replace(')', " ) ");
    spaced.split_whitespace().map(str::to_owned).collect()
}

struct Reader<'a> {
    tokens: &'a [String],
    at: usize,
    known: &'a HashMap<String, f64>,
}

impl Reader<'_> {
    fn peek(&self) -> &str {
        self.tokens.get(self.at).map_or("", String::as_str)
    }

    fn takes(&mut self, word: &str) -> bool {
        let is_it = self.peek() == word;
        self.at += usize::from(is_it);
        is_it
    }

    fn sum(&mut self) -> Option<f64> {
        let mut value = self.product()?;
        loop {
            if self.takes("+") {
                value += self.product()?;
            } else if self.takes("−") {
                value -= self.product()?;
            } else {
                return Some(value);
            }
        }
    }

    fn product(&mut self) -> Option<f64> {
        let mut value = self.whole()?;
        loop {
            if self.takes("·") {
                value *= self.whole()?;
            } else if self.takes("/") {
                value /= self.whole()?;
            } else {
                return Some(value);
            }
        }
    }

    fn whole(&mut self) -> Option<f64> {
        let word = self.peek().to_owned();
        self.at += 1;
        if word == "(" {
            let value = self.sum()?;
            assert!(self.takes(")"), "a bracket is closed");
            return Some(value);
        }
        if let Some(value) = number(&word) {
            // What stands right behind a number is its unit.
            let next = self.peek();
            let is_unit = !matches!(next, "" | "+" | "−" | "·" | "/" | "(" | ")");
            self.at += usize::from(is_unit);
            return Some(value);
        }
        let function = match word.as_str() {
            "exp" => f64::exp,
            "ln" => f64::ln,
            "sqrt" => f64::sqrt,
            "tanh" => f64::tanh,
            symbol => return self.known.get(symbol).copied(),
        };
        assert!(self.takes("("), "{word} has its bracket");
        let value = self.sum()?;
        assert!(self.takes(")"), "a bracket is closed");
        Some(function(value))
    }
}

#[test]
fn the_calculator_calculates() {
    let none = HashMap::new();
    let value = |text: &str| evaluate(text, &none).expect("numbers only");
    assert!((value("20 °C − (20 °C − (−5 °C)) · 0.3 m²K/W / 1.5 m²K/W") - 15.0).abs() < 1e-12);
    assert!((value("610.5 Pa · exp(17.269 · 20 °C / (237.3 °C + 20 °C))") - 2336.95).abs() < 0.01);
    assert!((value("8 / 2 / 2 − 1 − 1") - 0.0).abs() < 1e-12);
    assert_eq!(evaluate("R1 + 2", &none), None);
    let known = HashMap::from([("R1".to_owned(), 3.0)]);
    assert_eq!(evaluate("R1 + 2", &known), Some(5.0));
}

#[test]
fn lines_are_found_in_the_print() {
    let text = "title\n\n  words\n    R1 = t / λ\n      = 1 m / 2 W/mK\n      = 0.500 m²K/W (2.8 R)\n  \
                words\n    θ_i = 20 °C (68 °F)\n  told\n    3520 cells\n";
    let found = lines(text);
    assert_eq!(found.len(), 2, "{found:?}");
    assert_eq!(found[0].with_values, "1 m / 2 W/mK");
    assert_eq!(
        (found[0].number.as_str(), found[0].unit.as_str()),
        ("0.500", "m²K/W")
    );
    assert_eq!(last_place(&found[0].number), 1e-3);
    assert_eq!(
        (found[1].formula.as_str(), found[1].number.as_str()),
        ("", "20")
    );
}
