//! Files of monthly means, in the forms people have them.

use approx::assert_relative_eq;
use dewmargin::climate::MonthlyMean;

use super::{hours, read, year};

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// Twelve rows: month `n` (from 1) at 40 + `n` °F and 80 %.
fn rows(row: impl Fn(usize) -> String) -> String {
    (1..=12).map(|n| row(n) + "\n").collect()
}

fn assert_is_the_year(months: &[MonthlyMean; 12]) {
    for (index, month) in months.iter().enumerate() {
        let fahrenheit = 41.0 + index as f64;
        assert_relative_eq!(
            month.temperature.as_fahrenheit(),
            fahrenheit,
            epsilon = 1e-9
        );
        assert_relative_eq!(month.humidity().as_fraction(), 0.8, max_relative = 1e-9);
    }
}

#[test]
fn the_same_year_in_many_forms() {
    let plain = rows(|n| format!("{n},{},80", 40 + n));
    let reversed: String = (1..=12)
        .rev()
        .map(|n| format!("{n},{},80\n", 40 + n))
        .collect();
    let named = rows(|n| format!("{},{},80", MONTHS[n - 1], 40 + n));
    let short = rows(|n| format!("{},{},80", &MONTHS[n - 1][..3], 40 + n));
    let metric = rows(|n| {
        format!(
            "{n};{};80,0",
            format!("{:.10}", (8 + n) as f64 / 1.8).replace('.', ",")
        )
    });
    let own = rows(|n| format!("{n},{} °F,80 %", 40 + n));
    let fractions = rows(|n| format!("{n},{},0.8", 40 + n));
    let turned = rows(|n| format!("80,x,{n},{}", 40 + n));
    let forms = [
        format!("month,temperature (F),humidity (%)\n{plain}"),
        format!("month,temperature (F),humidity (%)\n{reversed}"),
        format!(
            "\u{feff}Month,Temperature F,Humidity %\r\n{}",
            named.replace('\n', "\r\n")
        ),
        format!("month,temp_F,rh_pct\n{short}"),
        format!("month,temperature,humidity\nunits,°F,%\n{plain}"),
        format!("month,temperature,humidity\n,F,%\n{plain}"),
        format!("Month;Temperature [°C];Humidity [%]\n{metric}"),
        format!("month,temperature,humidity\n{own}"),
        format!("month,temperature (F),humidity (fraction)\n{fractions}"),
        format!(
            "# from the airport\n\nStation 7,,\nmonth,temperature (F),humidity (%)\n\n{plain}\n\n"
        ),
        format!("RH (%),remark,Month,Dry bulb (F)\n{turned}"),
        format!(
            "month\ttemperature (F)\thumidity (%)\n{}",
            plain.replace(',', "\t")
        ),
    ];
    for text in forms {
        let climate = read("data/coast.csv", &text).unwrap_or_else(|error| panic!("{text}{error}"));
        assert_is_the_year(&climate.months);
        assert_eq!((climate.name.as_str(), climate.zone), ("coast", None));
        assert_eq!(climate.origin, "coast.csv: monthly means");
        assert_eq!((climate.design_night, climate.notes.len()), (None, 0));
    }
}

#[test]
fn a_degree_sign_in_another_encoding_is_passed_over() {
    let mut bytes = b"month,temperature (\xb0F),humidity (%)\n".to_vec();
    bytes.extend(rows(|n| format!("{n},{},80", 40 + n)).bytes());
    let total = bytes.len() as u64;
    let climate =
        dewmargin::climate::read_csv_from("coast.csv", &bytes[..], total, &mut |_, _| {}).unwrap();
    assert_is_the_year(&climate.months);
}

#[test]
fn dew_points_and_vapor_pressures_do_as_well() {
    // Saturation at 10 °C by the ISO 13788 formula, computed elsewhere (check-values §1).
    for (header, value) in [
        ("dew point (C)", "10"),
        ("Dew-point (F)", "50"),
        ("vapor pressure (Pa)", "1227.31"),
        ("vapor pressure (hPa)", "12.2731"),
    ] {
        let text = format!(
            "month,temperature (C),{header}\n{}",
            rows(|n| format!("{n},20,{value}"))
        );
        for month in read("coast.csv", &text).unwrap().months {
            assert_relative_eq!(month.vapor_pressure.as_pa(), 1_227.31, epsilon = 0.01);
        }
    }
}

#[test]
fn hours_in_many_forms_give_the_same_months() {
    let keep = |_: usize, row: String| Some(row);
    let iso = year("time,temperature (C),humidity (%)", keep);
    let parts: String = hours()
        .map(|(month, day, hour)| format!("2013,{},{day},{hour},{}.5,80\n", month + 1, month + 1))
        .collect();
    let parts = format!("year,month,day,hour,temp (C),humid (%)\n{parts}");
    let short: String = hours()
        .map(|(month, day, hour)| {
            format!("{:02}/{day:02} {hour:02},{}.5,80\n", month + 1, month + 1)
        })
        .collect();
    let short = format!("date,temperature,humidity\nunits,C,%\n{short}");
    for text in [iso, parts, short] {
        let climate = read("coast.csv", &text).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(climate.origin, "coast.csv: 8760 hours averaged");
        assert_eq!(climate.notes, Vec::<String>::new());
        for (index, month) in climate.months.iter().enumerate() {
            let celsius = index as f64 + 1.5;
            assert_relative_eq!(month.temperature.as_celsius(), celsius, max_relative = 1e-9);
            assert_relative_eq!(month.humidity().as_fraction(), 0.8, max_relative = 1e-9);
        }
        let night = climate.design_night.expect("a night");
        assert_relative_eq!(night.temperature.as_celsius(), 1.5, max_relative = 1e-9);
    }
}

#[test]
fn hours_are_averaged_as_vapor_pressure() {
    // Half the hours 20 °C and 50 %, half 0 °C and 100 %: (1168.48 + 610.5) / 2 Pa.
    let text = year("time,temperature (C),humidity (%)", |index, row| {
        let (stamp, _) = row.split_once(',').expect("cells");
        Some(match index % 2 {
            0 => format!("{stamp},20,50"),
            _ => format!("{stamp},0,100"),
        })
    });
    let climate = read("coast.csv", &text).unwrap();
    for month in climate.months {
        assert_relative_eq!(month.temperature.as_celsius(), 10.0, max_relative = 1e-9);
        assert_relative_eq!(month.vapor_pressure.as_pa(), 889.49, epsilon = 0.01);
    }
}
