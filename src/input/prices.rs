//! The `prices:` block: what materials cost, in one currency.

use serde_json::{Value as Json, json};

use super::layer::unknown_material;
use super::schema::Several;
use crate::document::{At, FromNode, Named, Node, Problems, Word};
use crate::error::Problem;
use crate::material::{Library, Material};
use crate::model::{Case, Content, Layer, Substance};
use crate::quantity::{Currency, Length, Price, PriceBasis, inches};

/// A currency, and under each material's name its price, or a list of prices by thickness.
#[derive(Clone, Debug, PartialEq)]
#[allow(unreachable_pub)]
pub struct PricesText {
    pub(super) currency: Option<At<Word>>,
    pub(super) materials: Vec<(At<Word>, Vec<At<Price>>)>,
    /// Whether all of it could be read.
    pub(super) complete: bool,
}

const CURRENCY: &str = "currency";

impl FromNode for PricesText {
    fn expected() -> String {
        "a block with `currency: USD` and prices by material".into()
    }

    fn from_node(node: &Node, problems: &mut Problems) -> Option<Self> {
        let before = problems.len();
        let named = Named::<PriceNode>::from_node(node, problems)?;
        let mut text = Self {
            currency: None,
            materials: Vec::new(),
            complete: false,
        };
        for (name, PriceNode(node)) in named.entries {
            if name.value.0 == CURRENCY {
                text.currency = At::from_node(&node, problems);
            } else if let Some(prices) = Several::<At<Price>>::from_node(&node, problems) {
                text.materials.push((name, prices.0));
            }
        }
        text.complete = problems.len() == before;
        Some(text)
    }

    fn schema() -> Json {
        json!({
            "type": "object",
            "properties": {CURRENCY: {
                "type": "string",
                "description": "Three letters, such as `USD`.",
            }},
            "additionalProperties": Several::<At<Price>>::schema(),
        })
    }
}

/// What stands behind a name: the currency or prices, as the name tells.
struct PriceNode(Node);

impl FromNode for PriceNode {
    fn expected() -> String {
        String::new()
    }

    fn from_node(node: &Node, _: &mut Problems) -> Option<Self> {
        Some(Self(node.clone()))
    }

    fn schema() -> Json {
        json!({})
    }
}

/// Gives the library's materials their prices. The currency of all of them.
pub(super) fn price(
    text: &PricesText,
    library: &mut Library,
    problems: &mut Problems,
) -> Option<Currency> {
    let currency = currency(text, problems);
    let mut priced: Vec<Material> = Vec::new();
    for (name, prices) in &text.materials {
        let Some(mut material) = library.find(&name.value.0) else {
            if !library.is_set_aside(&name.value.0) {
                problems.push(not_there(name, library));
            }
            continue;
        };
        if priced.iter().any(|other| other.id == material.id) {
            let message = format!("`{}` is priced under two names", material.name);
            let label = "expected its prices in one list";
            problems.push(Problem::at(name.span, message).expected(label));
            continue;
        }
        material.prices = prices.iter().map(|at| at.value).collect();
        twice(name, prices, problems);
        priced.push(material);
    }
    for material in priced {
        library.add(material);
    }
    currency
}

fn not_there(name: &At<Word>, library: &Library) -> Problem {
    let near = library.nearest(&name.value.0);
    let help = near.map(|near| format!("did you mean `{near}`?"));
    Problem::at(name.span, unknown_material(name))
        .expected("not in the library, nor under `materials:`")
        .maybe_help(help)
}

/// Two prices for one thickness.
fn twice(name: &At<Word>, prices: &[At<Price>], problems: &mut Problems) {
    for (n, price) in prices.iter().enumerate() {
        if prices[..n].iter().any(|one| one.value.meets(&price.value)) {
            let message = format!("`{}` has two prices for the same thickness", name.value.0);
            let label = "expected one price, or each with its own `at …`";
            problems.push(Problem::at(price.span, message).expected(label));
        }
    }
}

/// The one currency, from `currency:` or from the prices themselves.
fn currency(text: &PricesText, problems: &mut Problems) -> Option<Currency> {
    let stated = match &text.currency {
        None => None,
        Some(word) => Some(read(word, problems)?),
    };
    let mut found = stated;
    for price in text.materials.iter().flat_map(|(_, prices)| prices) {
        match (found, price.value.currency()) {
            (None, None) if !text.complete => return None,
            (None, None) => {
                let label = "expected `currency: USD` or another at the top of `prices:`";
                let message = "a price without a currency";
                problems.push(Problem::at(price.span, message).expected(label));
                return None;
            }
            (None, own) => found = own,
            (Some(one), Some(other)) if one != other => {
                let message = format!("two currencies: `{}` beside `{}`", other.code(), one.code());
                let label = "expected one currency in a file";
                problems.push(Problem::at(price.span, message).expected(label));
                return None;
            }
            _ => {}
        }
    }
    found
}

fn read(word: &At<Word>, problems: &mut Problems) -> Option<Currency> {
    let found = Currency::read(&word.value.0);
    if found.is_none() {
        let upper = Currency::read(&word.value.0.to_uppercase());
        let message = format!("`{}` isn't a currency", word.value.0);
        let problem =
            Problem::at(word.span, message).expected("expected three letters such as `USD`");
        let help = upper.map(|upper| format!("did you mean `{}`?", upper.code()));
        problems.push(problem.maybe_help(help));
    }
    found
}

/// A price by area without a thickness holds only where the material has but one.
pub(super) fn one_thickness(
    text: &PricesText,
    library: &Library,
    cases: &[Case],
    problems: &mut Problems,
) {
    for (name, prices) in &text.materials {
        let any = |price: &&At<Price>| price.value.basis() == PriceBasis::Area { at: None };
        let Some(price) = prices.iter().find(any) else {
            continue;
        };
        let Some(material) = library.find(&name.value.0) else {
            continue;
        };
        let used = thicknesses(cases, &material.name);
        if used.len() > 1 {
            let list: Vec<String> = used.iter().map(|one| inches(*one)).collect();
            let (last, others) = list
                .split_last()
                .map_or(("", &[][..]), |(l, o)| (l.as_str(), o));
            let message = format!(
                "`{}` is used {} and {last} thick: which of them does this price hold for?",
                name.value.0,
                others.join(", "),
            );
            let label = format!("expected a list, with `… at {last}` and so on behind each price");
            problems.push(Problem::at(price.span, message).expected(label));
        }
    }
}

/// Every thickness that a material is used at, rising.
fn thicknesses(cases: &[Case], label: &str) -> Vec<Length> {
    let mut found: Vec<Length> = Vec::new();
    let mut add = |substance: &Substance, thickness: Length| {
        let near = |one: &Length| (one.as_m() - thickness.as_m()).abs() < 5e-5;
        if substance.label == label && !found.iter().any(near) {
            found.push(thickness);
        }
    };
    let mut add_layer = |layer: &Layer| {
        if let Content::Solid(substance) = &layer.content {
            add(substance, layer.thickness);
        }
        if let Some(framing) = &layer.framing {
            add(&framing.substance, layer.thickness);
        }
    };
    for assembly in cases.iter().map(|case| &case.assembly) {
        assembly.layers.iter().for_each(&mut add_layer);
        let over = assembly.strips.iter().flat_map(|strip| &strip.over);
        over.for_each(&mut add_layer);
    }
    for strip in cases.iter().flat_map(|case| &case.assembly.strips) {
        add(&strip.metal, strip.thickness);
    }
    found.sort_by(|a, b| a.as_m().total_cmp(&b.as_m()));
    found
}
