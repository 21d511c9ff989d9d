//! What stands in JSON: a number that isn't one is told apart from what isn't known.
//!
//! JSON has no word for either infinity or for what is no number; the library that writes it would put
//! `null`, which here says *not known*. So whatever isn't finite becomes [`NO_NUMBER`], at which the guard before
//! the output ends the run.

use serde_json::Value;

use crate::quantity::NO_NUMBER;

/// What can be a value in a report.
pub(super) trait Leaf {
    fn leaf(&self) -> Value;
}

impl Leaf for f64 {
    fn leaf(&self) -> Value {
        match self.is_finite() {
            true => Value::from(*self),
            false => Value::from(NO_NUMBER.to_string()),
        }
    }
}

macro_rules! plain {
    ($($kind:ty),*) => {
        $(impl Leaf for $kind {
            fn leaf(&self) -> Value {
                Value::from(self.clone())
            }
        })*
    };
}
plain!(bool, u8, u32, u64, usize, i32, &str, String, Value);

impl<T: Leaf> Leaf for Option<T> {
    fn leaf(&self) -> Value {
        self.as_ref().map_or(Value::Null, Leaf::leaf)
    }
}

impl<T: Leaf> Leaf for &T {
    fn leaf(&self) -> Value {
        (*self).leaf()
    }
}

impl<T: Leaf> Leaf for Vec<T> {
    fn leaf(&self) -> Value {
        self.iter().map(Leaf::leaf).collect()
    }
}

impl<T: Leaf, const N: usize> Leaf for [T; N] {
    fn leaf(&self) -> Value {
        self.iter().map(Leaf::leaf).collect()
    }
}

/// An object of keys and values, or a single value; an object in an object is written with this macro again.
macro_rules! json {
    ({ $($key:literal: $value:expr),* $(,)? }) => {{
        let mut object = serde_json::Map::new();
        $(object.insert($key.to_owned(), $crate::report::leaf::Leaf::leaf(&$value));)*
        serde_json::Value::Object(object)
    }};
    ($value:expr) => {
        $crate::report::leaf::Leaf::leaf(&$value)
    };
}
pub(super) use json;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_number_is_no_null() {
        let report = json!({"a": f64::NAN, "b": [Some(f64::INFINITY)], "c": None::<f64>, "d": 1.5});
        assert_eq!(report["a"], NO_NUMBER.to_string());
        assert_eq!(report["b"][0], NO_NUMBER.to_string());
        assert!(report["c"].is_null());
        assert_eq!(report["d"], 1.5);
    }
}
