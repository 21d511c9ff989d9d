//! Where the room's humidity comes from.

use super::Derivation;
use super::air::{self, SATURATION};
use super::formula::{Term, constant};
use super::sheet::Sheet;
use crate::model::{AirState, Household, RoomVapor, Stop};
use crate::quantity::{Dimension, Pressure, RelativeHumidity, Style, UnitSystem};

/// `room humidity`, on the winter mean.
pub(super) fn derive(stop: &Stop, place: &str, style: Style) -> Derivation {
    let source = match stop.indoor.vapor {
        RoomVapor::Humidity(_) => "stated in the file",
        RoomVapor::Class(_) => "ISO 13788, humidity classes (from memory)",
        RoomVapor::Balance(_) => {
            "water balance of a ventilated room in the steady state (analytic; ISO 13788 has the \
             same link)"
        }
    };
    let mut sheet = Sheet::new(
        style,
        place,
        "Humidity of the room air on the winter mean".into(),
        "How humid is the room, and what makes it so?",
        &format!("{source}; {SATURATION}"),
    );
    let room = stop.conditions.indoor;
    match stop.indoor.vapor {
        RoomVapor::Humidity(humidity) => {
            let named = ("φ_i", "relative humidity as a fraction, stated in the file");
            sheet.given(named, Dimension::Ratio, humidity.as_fraction());
            if let Some(household) = stop.indoor.household {
                sheet.note("Below: what the household would give; it isn't used");
                balance(&mut sheet, stop, household, None);
            }
        }
        RoomVapor::Class(_) => class(&mut sheet, stop),
        RoomVapor::Balance(household) => {
            balance(&mut sheet, stop, household, Some(room.humidity));
        }
    }
    sheet.done()
}

fn saturated(air: AirState) -> Pressure {
    let humidity = RelativeHumidity::from_fraction(1.0);
    AirState { humidity, ..air }.vapor_pressure()
}

/// The excess over outdoor air that the class allows.
fn class(sheet: &mut Sheet, stop: &Stop) {
    let (room, outdoor) = (stop.conditions.indoor, stop.conditions.winter_mean);
    let outside = air::state(sheet, "e", "outdoor air, winter mean", outdoor);
    let excess = room.vapor_pressure() - outdoor.vapor_pressure();
    let words = "excess over outdoor air by the humidity class at that outdoor temperature";
    let excess = sheet.given(("Δp", words), Dimension::Pascal, excess.as_pa());
    let pressure = outside.pressure.f() + excess.f();
    let solved = room.vapor_pressure().as_pa();
    let p = sheet.computed(
        ("p_i", "vapor pressure of the room"),
        Dimension::Pascal,
        solved,
        &pressure,
    );
    humidity(sheet, room, &p, room.humidity);
}

fn humidity(sheet: &mut Sheet, room: AirState, pressure: &Term, solved: RelativeHumidity) {
    let theta = air::temperature(sheet, "i", "room air", room);
    let saturation = air::saturation(sheet, "i", &theta, room.temperature, saturated(room));
    let formula = pressure.f() / saturation.f();
    let named = ("φ_i", "relative humidity of the room as a fraction");
    sheet.result(named, Dimension::Ratio, solved.as_fraction(), &formula);
}

/// Water given off against what ventilation carries away. `used`: the humidity reckoned with, where
/// it is this one.
fn balance(sheet: &mut Sheet, stop: &Stop, household: Household, used: Option<RelativeHumidity>) {
    let (room, outdoor) = (stop.conditions.indoor, stop.conditions.winter_mean);
    let ventilation = household.ventilation.as_m3_per_s();
    if ventilation <= 0.0 {
        sheet.note(
            "Nothing ventilates: the humidity rises until the coldest surface takes the water",
        );
        return;
    }
    let outside = air::state(sheet, "e", "outdoor air, winter mean", outdoor);
    let words = "water given off by people, cooking, heater and laundry, by their published rates";
    let water = sheet.given(
        ("G", words),
        Dimension::WaterFlow,
        household.water.as_kg_per_s(),
    );
    let words = "outdoor air brought in";
    let mut flow = sheet.given(("V", words), Dimension::AirFlow, ventilation);
    if sheet.style.units == UnitSystem::Imperial {
        let formula = constant("1.699011 m³/h", 1.699_011) * flow.f() / constant("1 cfm", 1.0);
        let named = ("V_h", "the same in m³/h");
        flow = sheet.computed(named, Dimension::AirFlowMetric, ventilation, &formula);
    }
    let kelvin = room.temperature.as_celsius() + 273.15;
    let named = ("T_i", "room temperature, absolute");
    let t = sheet.given(named, Dimension::Kelvin, kelvin);
    let undiminished = household.pressure(room.temperature, outdoor.vapor_pressure());
    let excess = undiminished - outdoor.vapor_pressure();
    let gas = constant("461.5 J/kg·K", 461.5);
    let formula = water.f() / flow.f() * gas * t.f();
    let named = ("Δp", "excess over outdoor air");
    let excess = sheet.computed(named, Dimension::Pascal, excess.as_pa(), &formula);
    let formula = outside.pressure.f() + excess.f();
    let named = ("p_i", "vapor pressure of the room, if nothing condensed");
    let solved = undiminished.as_pa();
    let p = sheet.computed(named, Dimension::Pascal, solved, &formula);
    let cap = household.cap(room.temperature, outdoor.temperature);
    let words = "saturation at the room's coldest surface, which takes what is over it";
    sheet.given(("p_cap", words), Dimension::Pascal, cap.as_pa());
    match (undiminished <= cap, used) {
        (true, Some(used)) => humidity(sheet, room, &p, used),
        (true, None) => {
            let share = solved / saturated(room).as_pa();
            humidity(sheet, room, &p, RelativeHumidity::from_fraction(share));
        }
        (false, _) => {
            let named = (
                "p_i",
                "vapor pressure of the room, held down by that surface",
            );
            let held = sheet.given(named, Dimension::Pascal, cap.as_pa());
            let share = cap.as_pa() / saturated(room).as_pa();
            humidity(sheet, room, &held, RelativeHumidity::from_fraction(share));
        }
    }
}
