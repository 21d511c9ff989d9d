//! Build-ups given by their resistances alone, as published examples print them.

use std::sync::Arc;

use dewmargin::material::VaporRate;
use dewmargin::model::{
    AirState, Assembly, AssemblyKind, Conditions, Content, Film, Films, Framing, Layer, Spread,
    Substance, SurfaceOffsets,
};
use dewmargin::quantity::{
    Conductivity, Length, Permeability, RelativeHumidity, Share, Temperature, ThermalResistance,
};
use dewmargin::solve::profile::{Boundary, Slab, SlabHeat};
use dewmargin::solve::{Transmittance, solve};

/// Air at a temperature in °C and a relative humidity as a fraction.
pub(crate) fn air(celsius: f64, humidity: f64) -> AirState {
    AirState {
        temperature: Temperature::from_celsius(celsius),
        humidity: RelativeHumidity::from_fraction(humidity),
    }
}

/// A layer of a path: m²·K/W and m²·s·Pa/kg.
pub(crate) fn slab(resistance: f64, vapor_resistance: f64) -> Slab {
    Slab {
        heat: SlabHeat::Fixed(ThermalResistance::from_si(resistance)),
        vapor_resistance,
        by_humidity: Vec::new(),
    }
}

/// Room air, outdoor air and thermal films in m²·K/W; no vapor films.
pub(crate) fn boundary(
    indoor: AirState,
    outdoor: AirState,
    (inside, outside): (f64, f64),
) -> Boundary {
    Boundary {
        indoor,
        outdoor,
        interior_film: ThermalResistance::from_si(inside),
        exterior_film: ThermalResistance::from_si(outside),
        interior_vapor_film: 0.0,
        exterior_vapor_film: 0.0,
    }
}

/// A solid by its conductivity in W/(m·K).
pub(crate) fn solid(label: &str, conductivity: f64) -> Substance {
    Substance {
        own_thickness: None,
        label: label.into(),
        kind: None,
        board: None,
        air_permeable: false,
        conductivity: Some(Conductivity::from_si(conductivity)),
        by_temperature: Vec::new(),
        conductivity_spread: Spread::NONE,
        vapor: VaporRate::PerThickness(Permeability::from_si(1.0e-11)),
        by_humidity: Vec::new(),
        vapor_spread: Spread::NONE,
        density: None,
        areal_density: None,
        mold: None,
        prices: Vec::new(),
        sources: Vec::new(),
    }
}

/// A layer by its thickness in m and its conductivity in W/(m·K).
pub(crate) fn measured(name: &str, thickness: f64, conductivity: f64) -> Layer {
    Layer {
        name: name.into(),
        content: Content::Solid(Arc::new(solid(name, conductivity))),
        thickness: Length::from_m(thickness),
        resistance: None,
        bonded: false,
        bond_is_promised: false,
        built_in_water: false,
        drains: false,
        framing: None,
    }
}

/// A layer by its resistance in m²·K/W.
pub(crate) fn layer(name: &str, resistance: f64) -> Layer {
    let resistance = Some(ThermalResistance::from_si(resistance));
    Layer {
        resistance,
        ..measured(name, 0.1, 1.0)
    }
}

/// Crosses a layer with members of a resistance in m²·K/W over their share of the area.
pub(crate) fn framed(layer: Layer, member_resistance: f64, share: f64) -> Layer {
    let framing = Framing {
        substance: Arc::new(solid("member", layer.thickness.as_m() / member_resistance)),
        share: Share::from_fraction(share),
        members: None,
        crosswise: false,
        clear_below: Length::from_m(0.0),
    };
    Layer {
        framing: Some(framing),
        ..layer
    }
}

/// A wall with its films in m²·K/W.
pub(crate) fn wall(layers: Vec<Layer>, (inside, outside): (f64, f64)) -> Assembly {
    let film = |resistance| Film {
        resistance: Some(ThermalResistance::from_si(resistance)),
        permeance: None,
    };
    Assembly {
        name: "wall".into(),
        kind: AssemblyKind::Wall,
        layers,
        strips: Vec::new(),
        films: Films {
            handbook: false,
            inside: film(inside),
            outside: film(outside),
        },
        surface_offsets: SurfaceOffsets::default(),
        proud: false,
        rise: Length::from_m(0.0),
        notes: Vec::new(),
    }
}

/// 20 °C inside, 0 °C outside.
pub(crate) fn ordinary_winter() -> Conditions {
    Conditions {
        indoor: air(20.0, 0.4),
        winter_mean: air(0.0, 0.8),
        design_night: None,
        year: None,
    }
}

/// The U-values of an assembly, W/(m²·K).
pub(crate) fn transmittance(assembly: &Assembly) -> Transmittance {
    solve(assembly, &ordinary_winter()).ends[0].transmittance
}
