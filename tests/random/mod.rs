//! Random valid projects through the program: no number that isn't one, nothing that isn't settled, no
//! panic, nothing without end.
//!
//! `RANDOM_PROJECTS=5000 RANDOM_SEED=1 cargo test random` makes as many from that seed on; a project that
//! goes wrong is printed with its seed. `RANDOM_FOLDER=folder` writes them there instead,
//! for `tests/random/run.py`, which runs a program on them and tells the longest and the largest.

mod assemblies;
mod project;

use std::time::{Duration, Instant};

use crate::support::{code, program, stderr, stdout};
use project::{Project, project};

/// The first seed where none is asked for, and how many projects.
const SEED: u64 = 20_261_127;
const COUNT: u64 = 12;
/// Longer than anything may take: this is a bound, not a measurement.
const BOUND: Duration = Duration::from_secs(60);

fn asked(name: &str, usual: u64) -> u64 {
    let text = std::env::var(name).ok();
    text.and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// Runs the commands on a project; what is wrong with what they gave.
fn wrong(project: &Project, commands: &[&[&str]]) -> Option<String> {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("p.yaml"), &project.text).expect("written");
    commands.iter().find_map(|command| {
        let start = Instant::now();
        let mut program = program(".");
        program.current_dir(folder.path());
        let output = program.args(*command).output().expect("the program starts");
        let told = stdout(&output);
        let is_ended = matches!(output.status.code(), Some(0 | 1));
        let is_number = |word: &str| word.trim_matches(|c: char| !c.is_alphabetic()) == "NaN";
        let trouble = match () {
            () if !is_ended => format!("ended with {:?}\n{}", output.status, stderr(&output)),
            () if told.split_whitespace().any(is_number) => "printed NaN".to_owned(),
            () if start.elapsed() > BOUND => format!("took {:?}", start.elapsed()),
            () => return None,
        };
        Some(format!("{command:?} {trouble}"))
    })
}

#[test]
fn random_projects_are_checked() {
    let (seed, count) = (asked("RANDOM_SEED", SEED), asked("RANDOM_PROJECTS", COUNT));
    let seeds = seed..seed + count;
    if let Ok(folder) = std::env::var("RANDOM_FOLDER") {
        return write(seeds, &folder);
    }
    for seed in seeds {
        let project = project(seed);
        let mut commands: Vec<&[&str]> = vec![&["check", "p.yaml", "--full"]];
        // Every third through the other commands as well.
        if seed % 3 == 0 {
            commands.extend([
                &["compare", "p.yaml"][..],
                &["check", "p.yaml", "--format", "json"],
                &["explain", "p.yaml"],
                &["plot", "p.yaml", "-o", "plots"],
            ]);
            if project.sized {
                commands.push(&["size", "p.yaml"]);
            }
            if project.swept {
                commands.push(&["sweep", "p.yaml", "-o", "table.csv"]);
            }
        }
        if let Some(trouble) = wrong(&project, &commands) {
            panic!("project of seed {seed}: {trouble}\n\n{}", project.text);
        }
    }
}

/// Writes projects instead of running anything on them.
fn write(seeds: std::ops::Range<u64>, folder: &str) {
    for seed in seeds {
        let path = std::path::Path::new(folder).join(format!("{seed}.yaml"));
        std::fs::write(path, project(seed).text).expect("written");
    }
}

/// The same seed gives the same project, so that a failure can be found again.
#[test]
fn a_seed_gives_the_same_project() {
    assert_eq!(project(7).text, project(7).text);
    assert_ne!(project(7).text, project(8).text);
    let output = program(".")
        .arg("schema")
        .output()
        .expect("the program starts");
    assert_eq!(code(&output), 0);
    let schema: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let validator = jsonschema::validator_for(&schema).expect("a schema");
    for seed in 0..200 {
        let project = project(seed);
        let read: serde_json::Value = serde_yaml::from_str(&project.text).expect("YAML");
        assert!(
            validator.is_valid(&read),
            "project of seed {seed}\n{}",
            project.text
        );
    }
}
