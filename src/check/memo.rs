//! What was solved at single ends and corners of the materials' ranges, once for all checks.

use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

use crate::model::{Assembly, Case, Conditions, Property, Stop};
use crate::solve::{Again, AssemblyResult, Extent, StripFactors};

/// Which end of its spread a property is at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum End {
    /// Its nominal value.
    Nominal,
    /// The least.
    Low,
    /// The greatest.
    High,
}

impl End {
    pub(super) fn of(high: bool) -> Self {
        match high {
            true => Self::High,
            false => Self::Low,
        }
    }
}

/// How much is solved.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Depth {
    /// As [`Extent::Winter`].
    Winter,
    /// As [`Extent::Heat`].
    Heat,
    /// As [`Extent::Year`].
    Year,
    /// As [`Extent::Drying`] of every plane.
    Drying,
}

impl Depth {
    /// The drying of the named plane alone, where one is named.
    pub(super) fn extent<'p>(self, plane: Option<(&'p str, usize)>) -> Extent<'p> {
        match self {
            Self::Winter => Extent::Winter,
            Self::Heat => Extent::Heat,
            Self::Year => Extent::Year,
            Self::Drying => Extent::Drying(plane),
        }
    }
}

/// By how much is solved and by the ends.
type Known = HashMap<(Depth, Vec<End>), Rc<AssemblyResult>>;

/// Results that are kept at most: an assembly of many layers has many ends.
const MOST: usize = 512;

/// A case with its properties, and what was solved of it.
pub(super) struct Memo<'a> {
    pub(super) case: &'a Case,
    pub(super) stop: &'a Stop,
    pub(super) properties: Vec<Property>,
    known: RefCell<Known>,
    again: RefCell<Again>,
}

impl<'a> Memo<'a> {
    pub(super) fn new(case: &'a Case, stop: &'a Stop, shown: &[Option<StripFactors>]) -> Self {
        Self {
            case,
            stop,
            properties: case.assembly.properties(),
            known: RefCell::default(),
            again: RefCell::new(Again::new(&stop.conditions, shown)),
        }
    }

    /// Every property at its nominal value.
    pub(super) fn nominal(&self) -> Vec<End> {
        vec![End::Nominal; self.properties.len()]
    }

    /// The assembly with properties of its materials moved, solved.
    pub(super) fn moved(&self, assembly: &Assembly, extent: Extent<'_>) -> AssemblyResult {
        self.again.borrow_mut().solve(assembly, extent)
    }

    /// The same in other air.
    pub(super) fn moved_in(
        &self,
        conditions: &Conditions,
        assembly: &Assembly,
        extent: Extent<'_>,
    ) -> AssemblyResult {
        let mut again = self.again.borrow_mut();
        again.solve_in(conditions, assembly, extent)
    }

    /// The assembly with its properties at these ends, solved.
    pub(super) fn at(&self, depth: Depth, ends: &[End]) -> Rc<AssemblyResult> {
        let key = (depth, ends.to_vec());
        if let Some(known) = self.known.borrow().get(&key) {
            return Rc::clone(known);
        }
        let mut assembly = self.case.assembly.clone();
        for (property, end) in self.properties.iter().zip(ends) {
            match end {
                End::Nominal => {}
                End::Low => assembly.multiply(property, property.spread.low),
                End::High => assembly.multiply(property, property.spread.high),
            }
        }
        let result = self.moved(&assembly, depth.extent(None));
        let result = Rc::new(result);
        let mut known = self.known.borrow_mut();
        if known.len() < MOST {
            known.insert(key, Rc::clone(&result));
        }
        result
    }
}
