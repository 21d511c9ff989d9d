//! Edges of the house: psi by a detail or stated, the length they run, the strip they stand for.

use super::heat::transmittance;
use super::heat_part::{Basis, HeatPart, HeatPartKind, Size};
use super::layout::Layout;
use crate::model::drawn::{DetailCase, DetailKind};
use crate::model::house::{Edge, EdgePsi, EdgeRun, HouseCase};
use crate::model::{Assembly, Conditions};
use crate::solve::conduction::{Estimate, Precision};
use crate::solve::detail::{DetailFailure, DetailResult, solve_detail_case};

/// A strip of the floor beside the edges that stand for it.
#[derive(Clone, Debug, PartialEq)]
pub struct StripShare {
    /// The floor.
    pub floor: String,
    /// The strip.
    pub strip: String,
    /// The edges.
    pub edges: Vec<String>,
    /// What the edges lose, W/K.
    pub by_detail: f64,
    /// What the strip would add to U·A by the middle of the bracket, W/K.
    pub by_bracket: f64,
    /// Length of the edges, m.
    pub edge_length: f64,
    /// Length of the strip, m.
    pub strip_length: f64,
}

/// psi of a detail on a stop's winter mean.
#[derive(Clone, Debug, PartialEq)]
pub struct DetailPsi {
    /// By inside dimensions, W/(m·K); `None` where it couldn't be solved or has nothing to be
    /// counted against.
    pub value: Option<Estimate>,
    /// Whether every error bar of the detail is within what was asked for.
    pub settled: bool,
}

impl DetailPsi {
    /// From what was solved.
    #[must_use]
    pub fn of(solved: &Result<DetailResult, DetailFailure>) -> Self {
        let result = solved.as_ref().ok();
        Self {
            value: result.and_then(|result| result.psi),
            settled: result.is_some_and(DetailResult::settled),
        }
    }

    /// Solves the detail for it.
    #[must_use]
    pub fn solve(detail: &DetailCase, conditions: &Conditions) -> Self {
        Self::of(&solve_detail_case(
            detail,
            conditions,
            &Precision::default(),
        ))
    }
}

/// What tells psi of the details along the edges, so that none is solved twice.
pub type PsiOf<'p> = dyn Fn(&DetailCase) -> DetailPsi + Sync + 'p;

/// An edge with its psi.
pub(super) struct SolvedEdge {
    pub(super) part: HeatPart,
    /// The floor and the strip that it stands for.
    pub(super) strip: Option<(String, String)>,
    pub(super) settled: bool,
}

impl SolvedEdge {
    pub(super) fn of(
        case: &HouseCase<'_>,
        layout: Option<&Layout>,
        edge: &Edge,
        psi_of: &PsiOf<'_>,
    ) -> Self {
        let length = length_of(case, layout, edge);
        let floor = case.house.shell.as_ref().map(|shell| shell.floor.clone());
        let named = edge
            .instead_of
            .clone()
            .and_then(|strip| Some((floor?, strip)));
        let mut part = HeatPart {
            name: edge.name.clone(),
            kind: HeatPartKind::Edge,
            size: Size::Length(length.unwrap_or(0.0)),
            value: None,
            bar: 0.0,
            basis: Basis::Unknown,
        };
        let (mut strip, mut settled) = (named, true);
        match &edge.psi {
            EdgePsi::Stated(psi) => {
                part.value = Some(psi.as_si());
                part.basis = Basis::Stated;
            }
            EdgePsi::Detail(name) => {
                if let Some(detail) = case.detail(name) {
                    strip = strip.or_else(|| detail.shows_strip.clone());
                    let solved = psi_of(detail);
                    settled = solved.settled;
                    let psi = solved.value;
                    let twice = detail.kind == DetailKind::CrossMembers;
                    let factor = if twice { 2.0 } else { 1.0 };
                    part.value = psi.as_ref().map(|psi| factor * psi.value);
                    part.bar = psi.map_or(0.0, |psi| factor * psi.bar);
                    part.basis = Basis::Detail { twice };
                }
            }
        }
        part.value = part.value.filter(|_| length.is_some());
        // Without its psi the edge can't stand for anything: the strip stays in the U-value.
        let strip = strip.filter(|_| part.value.is_some());
        Self {
            part,
            strip,
            settled,
        }
    }
}

/// A strip beside all edges that stand for it.
pub(super) fn share(
    strip: &str,
    edges: &[SolvedEdge],
    floor: &Assembly,
    area: f64,
    conditions: &Conditions,
) -> Option<StripShare> {
    let found = floor.strips.iter().find(|one| one.name == strip)?;
    let is_ours = |edge: &&SolvedEdge| {
        let own = edge.strip.as_ref();
        own.is_some_and(|own| own.0 == floor.name && own.1 == strip)
    };
    let ours: Vec<&SolvedEdge> = edges.iter().filter(is_ours).collect();
    let (with, ..) = transmittance(floor, &[], conditions);
    let (without, ..) = transmittance(floor, &[strip.to_owned()], conditions);
    Some(StripShare {
        floor: floor.name.clone(),
        strip: strip.to_owned(),
        edges: ours.iter().map(|edge| edge.part.name.clone()).collect(),
        by_detail: ours.iter().map(|edge| edge.part.loss()).sum(),
        by_bracket: (with - without) * area,
        edge_length: ours.iter().map(|edge| edge.part.size.number()).sum(),
        strip_length: found.share.as_fraction() * area / found.width.as_m(),
    })
}

/// How far an edge runs, by inside measures, m.
fn length_of(case: &HouseCase<'_>, layout: Option<&Layout>, edge: &Edge) -> Option<f64> {
    match &edge.run {
        EdgeRun::Length(length) => Some(length.as_m()),
        EdgeRun::Along(sides) => {
            let (shell, layout) = case.house.shell.as_ref().zip(layout)?;
            let of = |side| shell.length_within(side, &layout.insets);
            Some(sides.iter().map(|side| of(*side)).sum())
        }
    }
}
