//! What a generated detail was drawn from, kept so that it can be drawn again with a change.

use super::{CrossMembers, DetailCase, EdgeProblem, FloorEdge, RoofEdge};
use crate::model::Assembly;

/// What a generated detail was drawn from.
#[derive(Clone, Debug, PartialEq)]
pub enum DetailPlan {
    /// Floor and wall at the steel frame.
    FloorEdge(Box<FloorEdge>),
    /// Steel members under the floor on a pitch.
    CrossMembers(Box<CrossMembers>),
    /// Wall and roof above the room.
    RoofEdge(Box<RoofEdge>),
}

impl DetailPlan {
    /// The assemblies it is drawn from, what carries the steel first.
    #[must_use]
    pub fn assemblies(&self) -> Vec<&Assembly> {
        match self {
            Self::FloorEdge(edge) => vec![&edge.floor, &edge.wall],
            Self::CrossMembers(members) => vec![&members.floor],
            Self::RoofEdge(edge) => vec![&edge.roof, &edge.wall],
        }
    }

    /// The same, to be changed.
    pub fn assemblies_mut(&mut self) -> Vec<&mut Assembly> {
        match self {
            Self::FloorEdge(edge) => vec![&mut edge.floor, &mut edge.wall],
            Self::CrossMembers(members) => vec![&mut members.floor],
            Self::RoofEdge(edge) => vec![&mut edge.roof, &mut edge.wall],
        }
    }

    fn draw(&self) -> Result<DetailCase, EdgeProblem> {
        match self {
            Self::FloorEdge(edge) => edge.draw(),
            Self::CrossMembers(members) => members.draw(),
            Self::RoofEdge(edge) => edge.draw(),
        }
    }
}

impl DetailCase {
    /// What it is asked for by: its name, or what an edge drawn without being asked shares with the
    /// same edge at other walls.
    #[must_use]
    pub fn subject(&self) -> &str {
        self.assumed
            .as_ref()
            .map_or(&self.name, |edge| &edge.subject)
    }

    /// The floor and the strip of it that it was generated to show; `None` where the file draws the
    /// detail itself.
    #[must_use]
    pub fn shows(&self) -> Option<(&str, &str)> {
        let (floor, strip) = match self.plan.as_ref()? {
            DetailPlan::FloorEdge(edge) => (&edge.floor, edge.flange),
            DetailPlan::CrossMembers(members) => (&members.floor, members.strip),
            DetailPlan::RoofEdge(_) => return None,
        };
        let strip = floor.strips.get(strip)?;
        Some((&floor.name, &strip.name))
    }

    /// Whether the house has an outside corner where this edge meets another like it: an edge of the floor
    /// or the roof does unless the file says that it has none.
    #[must_use]
    pub fn has_corner(&self) -> bool {
        match &self.plan {
            Some(DetailPlan::FloorEdge(edge)) => edge.corner,
            Some(DetailPlan::RoofEdge(edge)) => edge.corner,
            Some(DetailPlan::CrossMembers(_)) | None => false,
        }
    }

    /// The same detail drawn again after `change` was made to the assemblies behind it; it is told
    /// which of [`DetailPlan::assemblies`] it has before it. A detail that the file draws itself
    /// hangs on no assembly and stays as it is.
    ///
    /// # Errors
    /// What can't be built with that change.
    ///
    /// # Example
    /// ```
    /// use dewmargin::quantity::Length;
    ///
    /// let text = include_str!("../../../examples/cabin-floor-edge.yaml");
    /// let project = dewmargin::input::resolve_text("edge.yaml", text).unwrap();
    /// let detail = project.details.iter().find(|detail| {
    ///     detail.variant.as_deref() == Some("proud, foam to the plate")
    /// }).unwrap();
    /// let thicker = detail.redrawn(|_, assembly| match assembly.place_of("flange foam") {
    ///     Some(place) => *assembly = assembly.with_thickness(place, Length::from_m(0.0508)),
    ///     None => {}
    /// }).unwrap();
    /// assert!(thicker.height > detail.height);
    /// ```
    pub fn redrawn(
        &self,
        mut change: impl FnMut(usize, &mut Assembly),
    ) -> Result<Self, EdgeProblem> {
        self.replanned(|plan| {
            let assemblies = plan.assemblies_mut().into_iter().enumerate();
            assemblies.for_each(|(n, assembly)| change(n, assembly));
        })
    }

    /// The same after `change` was made to the plan itself.
    ///
    /// # Errors
    /// As [`DetailCase::redrawn`].
    pub fn replanned(&self, change: impl FnOnce(&mut DetailPlan)) -> Result<Self, EdgeProblem> {
        let Some(mut plan) = self.plan.clone() else {
            return Ok(self.clone());
        };
        change(&mut plan);
        Ok(Self {
            points: self.points.clone(),
            assumed: self.assumed.clone(),
            ..plan.draw()?
        })
    }
}
