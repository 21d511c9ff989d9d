//! How quantities are written in files: the spellings of their units, and what is believed of them.

use crate::quantity::scale::Scale;
use crate::quantity::unit;

/// Of what no file states.
pub(super) const NONE: Scale = Scale {
    units: &[],
    expected: "",
    range: (0.0, 0.0, ""),
};

pub(super) const TEMPERATURE: Scale = Scale {
    // A first look with factor 1; the offset of °F can't be a factor.
    units: &[(&["f", "degf", "c", "degc"], 1.0)],
    expected: "a temperature such as `68 F` or `20 °C`",
    range: (-60.0, 70.0, "-76 °F to 158 °F (-60 °C to 70 °C)"),
};

pub(super) const CONDUCTIVITY: Scale = Scale {
    units: &[
        (&["w/mk"], 1.0),
        (&["btuin/hft2f", "btuin/hrft2f"], unit::BTU_INCH),
        (&["btu/hftf", "btu/hrftf"], unit::BTU_PER_FOOT),
    ],
    expected: "a conductivity such as `0.029 W/mK` or `0.2 Btu·in/(h·ft²·°F)`",
    range: (1e-4, 1e4, "0.0001 to 10000 W/(m·K)"),
};

pub(super) const PERMEANCE: Scale = Scale {
    units: &[
        (&["perm", "perms", "usperm", "usperms"], unit::PERM),
        (&["kg/sm2pa", "kg/m2spa", "kg/pasm2"], 1.0),
        (&["ng/sm2pa", "ng/m2spa", "ng/pasm2"], 1e-12),
    ],
    expected: "a permeance such as `0.7 perm` or `40 ng/(s·m²·Pa)`",
    range: (0.0, 1e-6, "0 to 17000 perm"),
};

pub(super) const PERMEABILITY: Scale = Scale {
    units: &[
        (
            &["permin", "permsin", "perminch", "perminches", "permin."],
            unit::PERM_INCH,
        ),
        (&["kg/mspa", "kg/smpa", "kg/pasm"], 1.0),
        (&["ng/mspa", "ng/smpa", "ng/pasm"], 1e-12),
    ],
    expected: "a permeability such as `2 perm-in` or `2.9 ng/(m·s·Pa)`",
    range: (0.0, 1e-9, "0 to 680 perm-in"),
};

pub(super) const DENSITY: Scale = Scale {
    units: &[
        (&["kg/m3"], 1.0),
        (&["lb/ft3", "pcf"], unit::POUND_PER_CUBIC_FOOT),
    ],
    expected: "a density such as `30 lb/ft3` or `480 kg/m3`",
    range: (0.1, 25_000.0, "0.1 to 25000 kg/m³"),
};

pub(super) const AREAL_DENSITY: Scale = Scale {
    units: &[
        (&["kg/m2"], 1.0),
        (&["lb/ft2", "psf"], unit::POUND_PER_SQUARE_FOOT),
        (&["g/m2"], 1e-3),
    ],
    expected: "a weight per area such as `2 lb/ft2` or `10 kg/m2`",
    range: (0.0, 5_000.0, "0 to 5000 kg/m²"),
};

pub(super) const SPECIFIC_HEAT: Scale = Scale {
    units: &[
        (&["j/kgk"], 1.0),
        (&["kj/kgk"], 1e3),
        (&["btu/lbf"], unit::BTU_PER_POUND),
    ],
    expected: "a specific heat such as `0.39 Btu/(lb·°F)` or `1630 J/kgK`",
    range: (10.0, 10_000.0, "10 to 10000 J/(kg·K)"),
};

pub(super) const HUMIDITY: Scale = Scale {
    units: &[(&["%", "%rh", "percent"], 0.01)],
    expected: "a relative humidity such as `60 %`",
    range: (0.0, 1.0, "0 % to 100 %"),
};

pub(super) const SHARE: Scale = Scale {
    units: &[(&["%", "percent"], 0.01)],
    expected: "a share of the area such as `25 %`",
    range: (0.0, 1.0, "0 % to 100 %"),
};

pub(super) const DIFFERENCE: Scale = Scale {
    units: &[
        (&["k", "c", "degc"], 1.0),
        (&["f", "degf"], unit::FAHRENHEIT_DEGREE),
    ],
    expected: "a temperature difference such as `5 K` or `9 F`",
    range: (-200.0, 200.0, "-200 K to 200 K"),
};

pub(super) const AREA: Scale = Scale {
    units: &[
        (&["m2", "sqm"], 1.0),
        (&["ft2", "sqft", "squarefeet"], unit::SQUARE_FOOT),
        (&["in2", "sqin"], unit::INCH * unit::INCH),
    ],
    expected: "an area such as `176 ft2` or `16 m2`",
    range: (
        1e-4,
        1e6,
        "0.001 ft² to 10 million ft² (0.0001 to 1000000 m²)",
    ),
};

pub(super) const MASS: Scale = Scale {
    units: &[
        (&["kg"], 1.0),
        (&["lb", "lbs", "pound", "pounds"], unit::POUND),
    ],
    expected: "a weight such as `180 lb` or `80 kg`",
    range: (1e-3, 1e6, "0.01 lb to 2 million lb (0.001 to 1000000 kg)"),
};

pub(super) const LINEAR_TRANSMITTANCE: Scale = Scale {
    units: &[
        (&["w/mk"], 1.0),
        (&["btu/hftf", "btu/hrftf"], unit::BTU_PER_FOOT),
    ],
    expected: "a linear transmittance such as `0.05 W/mK` or `0.03 Btu/(h·ft·°F)`",
    range: (-10.0, 100.0, "-10 to 100 W/(m·K)"),
};

pub(super) const POINT_TRANSMITTANCE: Scale = Scale {
    units: &[
        (&["w/k"], 1.0),
        (&["btu/hf", "btu/hrf"], unit::BTU_PER_HOUR_DEGREE),
    ],
    expected: "a point transmittance such as `0.002 W/K` or `0.004 Btu/(h·°F)`",
    range: (0.0, 100.0, "0 to 100 W/K"),
};

pub(super) const VOLUME: Scale = Scale {
    units: &[
        (&["m3", "cum", "cubicmeters", "cubicmeter"], 1.0),
        (
            &["ft3", "cuft", "cubicfeet", "cubicfoot", "cf"],
            unit::CUBIC_FOOT,
        ),
        (&["l", "liter", "liters"], 1e-3),
    ],
    expected: "a volume such as `1500 ft3` or `45 m3`",
    range: (
        1e-3,
        1e6,
        "0.04 ft³ to 35 million ft³ (0.001 to 1000000 m³)",
    ),
};

pub(super) const AIR_FLOW: Scale = Scale {
    units: &[
        (&["cfm", "ft3/min", "cuft/min"], unit::CFM),
        (&["m3/h", "m3/hr"], 1.0 / 3_600.0),
        (&["l/s"], 1e-3),
        (&["m3/s"], 1.0),
    ],
    expected: "a flow of air such as `30 cfm`, `50 m3/h` or `14 L/s`",
    range: (0.0, 100.0, "0 to 200000 cfm"),
};

pub(super) const AIR_CHANGES: Scale = Scale {
    units: &[(
        &["ach", "1/h", "/h", "airchanges", "airchangesperhour"],
        1.0,
    )],
    expected: "air changes per hour such as `0.5 ach`",
    range: (0.0, 1_000.0, "0 to 1000 ach"),
};

pub(super) const POWER: Scale = Scale {
    units: &[
        (&["w", "watt", "watts"], 1.0),
        (&["kw"], 1e3),
        (&["btu/h", "btu/hr", "btuh"], unit::BTU_PER_HOUR),
    ],
    expected: "a rate of heat such as `2 kW` or `7000 Btu/h`",
    range: (0.0, 1e7, "0 to 10000 kW"),
};

pub(super) const MASS_FLOW: Scale = Scale {
    units: &[
        (
            &["pints/day", "pint/day", "pt/day"],
            unit::PINT_OF_WATER / 86_400.0,
        ),
        (&["kg/day", "kg/d", "l/day"], 1.0 / 86_400.0),
        (&["lb/day"], unit::POUND / 86_400.0),
        (&["g/h"], 1e-3 / 3_600.0),
        (&["kg/h"], 1.0 / 3_600.0),
        (&["kg/s"], 1.0),
    ],
    expected: "an amount of water by time such as `10 pints/day` or `5 kg/day`",
    range: (0.0, 1.0, "0 to 180000 pints/day"),
};

pub(super) const LENGTH: Scale = Scale {
    units: &[
        (&["in", "inch", "inches", "\""], unit::INCH),
        (&["ft", "foot", "feet", "'"], unit::FOOT),
        (&["mil", "mils"], unit::INCH / 1000.0),
        (&["mm"], 1e-3),
        (&["cm"], 1e-2),
        (&["m"], 1.0),
    ],
    expected: "a length such as `5.5 in`, `3/4 in`, `8 ft 2 in` or `140 mm`",
    range: (1e-6, 1_000.0, "0.001 mm (0.04 mil) to 1000 m"),
};

pub(super) const RESISTANCE: Scale = Scale {
    units: &[
        (&["m2k/w"], 1.0),
        (&["hft2f/btu", "hrft2f/btu"], unit::R_VALUE),
    ],
    expected: "a thermal resistance such as `R-13` or `RSI 2.3`",
    range: (0.0, 568.0 * unit::R_VALUE, "R-0 to R-568 (RSI 0 to 100)"),
};

pub(super) const TRANSMITTANCE: Scale = Scale {
    units: &[
        (&["w/m2k"], 1.0),
        (&["btu/hft2f", "btu/hrft2f"], unit::U_VALUE),
    ],
    expected: "a transmittance such as `U-0.30`, `0.30 Btu/(h·ft²·°F)` or `1.7 W/m2K`",
    range: (0.01, 100.0, "U-0.002 to U-17.6 (0.01 to 100 W/(m²·K))"),
};

pub(super) const COUNT: Scale = Scale {
    units: &[(&[""], 1.0)],
    expected: "a number such as `2` or `1.5`, from 0 to 100",
    range: (0.0, 100.0, "0 to 100"),
};

pub(super) const FACTOR: Scale = Scale {
    units: &[(&[""], 1.0)],
    expected: "a number between 0 and 1 such as `0.7`",
    range: (1e-6, 1.0 - 1e-6, "more than 0 and less than 1"),
};

pub(super) const DAYS: Scale = Scale {
    units: &[(&["", "days", "day", "d"], 1.0)],
    expected: "a number of days such as `200`, from 1 to 3650",
    range: (1.0, 3_650.0, "1 to 3650 days"),
};
