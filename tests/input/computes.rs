//! Odd input that isn't wrong: it gets a right answer.

use crate::input::files_in;
use crate::support::{code, nulls, program, repository, stderr, stdout};

#[test]
fn odd_buildings_compute_with_finite_numbers() {
    let files = files_in(&repository().join("tests/input/computes"));
    assert!(!files.is_empty());
    for file in files {
        let name = file.file_name().expect("a name");
        for format in ["text", "json"] {
            let output = program("tests/input/computes")
                .arg("check")
                .arg(name)
                .args(["--format", format])
                .output()
                .expect("the program starts");
            let shown = format!("{}, {format}", name.display());
            assert_eq!(stderr(&output), "", "{shown}");
            assert!([0, 1].contains(&code(&output)), "{shown}");
            let text = stdout(&output);
            let words: Vec<&str> = text
                .split(|c: char| !c.is_alphabetic())
                .filter(|word| ["NaN", "inf", "Infinity"].contains(word))
                .collect();
            assert!(words.is_empty(), "{shown}: {words:?}\n{text}");
            if format == "text" {
                let odd = |line: &&str| line.chars().count() > 100 || *line != line.trim_end();
                let odd: Vec<&str> = text.lines().filter(odd).collect();
                assert!(
                    odd.is_empty(),
                    "{shown}: too wide, or blanks at the end: {odd:?}"
                );
            }
            if format == "json" {
                let report = serde_json::from_str(&text).expect("JSON");
                assert_eq!(nulls(&report, ""), Vec::<String>::new(), "{shown}");
            }
        }
    }
}

/// With 0 perm on both sides nothing gets in: steel is a perfect barrier.
#[test]
fn steel_lets_no_vapor_through() {
    let output = program("tests/input/computes")
        .args(["check", "steel-everywhere.yaml", "--format", "json"])
        .output()
        .expect("the program starts");
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let profile = &report["cases"][0]["solutions"][0]["paths"][0]["winter_mean"];
    assert_eq!(profile["vapor_in_kg_per_m2_s"].as_f64(), Some(0.0));
    assert_eq!(profile["vapor_out_kg_per_m2_s"].as_f64(), Some(0.0));
}

/// A wall that is colder inside has its heat flowing in.
#[test]
fn heat_flows_inward_in_summer() {
    let output = program("tests/input/computes")
        .args(["check", "summer.yaml", "--format", "json"])
        .output()
        .expect("the program starts");
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let paths = &report["cases"][0]["solutions"][0]["paths"];
    for path in paths.as_array().expect("paths") {
        let flux = path["winter_mean"]["heat_flux_w_per_m2"].as_f64();
        assert!(flux.expect("a number") < 0.0);
    }
}
