//! The temperature at which the air at a surface stands at 80 %.

use super::air;
use super::formula::{Term, constant};
use super::sheet::Sheet;
use crate::model::AirState;
use crate::quantity::{Dimension, RelativeHumidity, Temperature};

/// The steps from room air, whose temperature stands already, to the mold limit.
pub(super) fn limit(sheet: &mut Sheet, room: AirState, indoor: Term, solved: Temperature) -> Term {
    let air = air::vapor(sheet, "i", "room air", room, indoor);
    let saturated = AirState {
        temperature: solved,
        humidity: RelativeHumidity::from_fraction(1.0),
    };
    let most = saturated.vapor_pressure();
    let formula = air.pressure.f() / constant("0.8", 0.8);
    let named = (
        "p_max",
        "saturation pressure at which that vapor stands at 80 %",
    );
    let p = sheet.computed(named, Dimension::Pascal, most.as_pa(), &formula);
    air::dew_point(sheet, "max", (&p, most), solved)
}
