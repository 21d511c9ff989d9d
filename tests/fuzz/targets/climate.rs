//! Any bytes as a climate's CSV: twelve months that can be, or problems with their lines.
#![no_main]

use dewmargin::climate::read_csv_from;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    match read_csv_from("c.csv", bytes, bytes.len() as u64, &mut |_, _| {}) {
        Ok(climate) => {
            for month in &climate.months {
                assert!(month.temperature.as_celsius().is_finite());
                assert!(month.vapor_pressure.as_pa().is_finite());
            }
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
});
