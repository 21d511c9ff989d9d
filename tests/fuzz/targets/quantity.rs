//! Any text as any quantity: it is refused, or it reads as a finite number that prints.
#![no_main]

use dewmargin::quantity::{
    ArealDensity, Conductivity, Currency, Date, Density, HumidityClass, Length, Offset, Permeability, Permeance,
    Pitch, Quantity, RelativeHumidity, Share, SpecificHeat, Temperature, TemperatureDifference,
    ThermalResistance, Thickness, Ventilation, inches,
};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    if let Ok(length) = Length::read(text) {
        assert!(length.as_m().is_finite() && length.as_m() > 0.0);
        let _ = inches(length);
    }
    if let Ok(resistance) = ThermalResistance::read(text) {
        assert!(resistance.as_si().is_finite() && resistance.as_si() >= 0.0);
    }
    if let Ok(temperature) = Temperature::read(text) {
        assert!(temperature.as_celsius().is_finite());
    }
    if let Ok(humidity) = RelativeHumidity::read(text) {
        assert!((0.0..=1.0).contains(&humidity.as_fraction()));
    }
    if let Ok(permeance) = Permeance::read(text) {
        assert!(permeance.as_si().is_finite() && permeance.as_si() >= 0.0);
    }
    let _ = (Conductivity::read(text), Permeability::read(text), Density::read(text));
    let _ = (ArealDensity::read(text), SpecificHeat::read(text), Share::read(text));
    let _ = (TemperatureDifference::read(text), Thickness::read(text), Offset::read(text));
    let _ = (Ventilation::read(text), Pitch::read(text), Date::read(text));
    let _ = (HumidityClass::read(text), Currency::read(text));
});
