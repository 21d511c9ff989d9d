//! The main results against sources outside this project.
//!
//! Every expected value stands with its source, how that is known (seen, computed by a named
//! library, analytic, from memory) and where the tolerance comes from. `README.md` beside this
//! file is the table of all cases with the deviations measured.

mod air_space;
mod condensation;
mod conduction;
mod house;
mod materials;
mod moist_air;
mod mold_index;
mod room;
mod sizing;
mod transmittance;
mod units;
mod volume;
mod year;

/// How far a result may lie from the published one, and who says so.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Tolerance {
    /// In the unit of the compared numbers.
    pub(crate) absolute: f64,
    /// Where the tolerance comes from.
    pub(crate) why: &'static str,
}

/// Half a unit of the last printed decimal.
pub(crate) fn printed(decimals: i32) -> Tolerance {
    // A hair more, so that a printed 5 in the next place may round either way.
    let absolute = 0.5 * 10_f64.powi(-decimals) * (1.0 + 1e-9);
    Tolerance {
        absolute,
        why: "half a unit of the last printed digit",
    }
}

/// Compares a case, named with its unit, or says why it can't be compared.
fn compare(
    (case, unit): (&str, &str),
    got: f64,
    want: f64,
    tolerance: Tolerance,
) -> Result<String, String> {
    let Tolerance { absolute, why } = tolerance;
    if !absolute.is_finite() || absolute <= 0.0 {
        return Err(format!("{case}: a tolerance of {absolute} {unit} is none"));
    }
    if why.trim().is_empty() {
        return Err(format!("{case}: the tolerance has no reason"));
    }
    if !got.is_finite() || !want.is_finite() {
        return Err(format!("{case}: got {got}, want {want} {unit}"));
    }
    let difference = got - want;
    let line = format!(
        "{case} | got {got:.6e} | want {want:.6e} | difference {difference:+.2e} {unit} | allowed {absolute:.2e}: {why}"
    );
    if approx::abs_diff_eq!(got, want, epsilon = absolute) {
        Ok(line)
    } else {
        Err(line)
    }
}

/// Holds a result against a published one. `cargo test -- --nocapture` prints what was compared.
#[track_caller]
pub(crate) fn close(case: (&str, &str), got: f64, want: f64, tolerance: Tolerance) {
    match compare(case, got, want, tolerance) {
        Ok(line) => eprintln!("{line}"),
        Err(line) => panic!("{line}"),
    }
}

/// The rows of a table under this folder, its comment lines and its header left out.
pub(crate) fn rows(table: &str) -> Vec<Vec<f64>> {
    let data = table.lines().filter(|line| !line.starts_with('#')).skip(1);
    data.map(|line| {
        line.split(',')
            .map(|cell| cell.trim().parse().expect("a number"))
            .collect()
    })
    .collect()
}

mod tests {
    use super::{Tolerance, compare, printed, rows};

    const WHY: &str = "a test of the helper";

    #[test]
    fn close_fails_when_it_should() {
        let kelvin = ("case", "K");
        let tolerance = |absolute, why| Tolerance { absolute, why };
        assert!(compare(kelvin, 1.0, 1.05, tolerance(0.1, WHY)).is_ok());
        let refused = [
            (1.0, 1.2, tolerance(0.1, WHY)),
            (1.2, 1.0, tolerance(0.1, WHY)),
            (1.0, 1.0, tolerance(0.0, WHY)),
            (1.0, 1.0, tolerance(-0.1, WHY)),
            (1.0, 1.0, tolerance(f64::NAN, WHY)),
            (1.0, 1.0, tolerance(f64::INFINITY, WHY)),
            (1.0, 1.0, tolerance(0.1, " ")),
            (f64::NAN, 1.0, tolerance(0.1, WHY)),
            (1.0, f64::NAN, tolerance(0.1, WHY)),
            (f64::INFINITY, f64::INFINITY, tolerance(0.1, WHY)),
        ];
        for (got, want, tolerance) in refused {
            assert!(
                compare(kelvin, got, want, tolerance).is_err(),
                "{got} {want} {tolerance:?}"
            );
        }
    }

    #[test]
    fn a_failure_names_case_numbers_and_unit() {
        let told = compare(("eaves", "W"), 2.0, 1.0, printed(1)).unwrap_err();
        for part in ["eaves", "2.0", "1.0", "+1.00e0 W", "last printed digit"] {
            assert!(told.contains(part), "`{part}` is missing in: {told}");
        }
    }

    #[test]
    fn tables_lose_their_comments_and_header_only() {
        assert_eq!(
            rows("# from somewhere\na,b\n1,2\n-3,4.5\n"),
            [[1.0, 2.0], [-3.0, 4.5]]
        );
    }
}
