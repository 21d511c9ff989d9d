//! Variants: a named set of changes to a base, made on the text before it is resolved.

use super::layer::missing_name;
use super::schema::{AddText, AssemblyText, ChangeText, Several};
use crate::document::{At, Problems, Word};
use crate::error::Problem;

/// The assembly with a variant's changes made, in the order replace, remove, add.
pub(super) fn changed(
    base: &AssemblyText,
    change: &ChangeText,
    problems: &mut Problems,
) -> AssemblyText {
    let mut assembly = base.clone();
    if let Some(frame) = &change.frame {
        assembly.frame = Some(frame.clone());
    }
    for replacement in items(change.replace.as_ref()) {
        match position(&assembly, &replacement.layer, problems) {
            Some(n) => assembly.layers[n] = replacement.with.clone(),
            None => continue,
        }
    }
    for name in items(change.remove.as_ref()) {
        remove(&mut assembly, name, problems);
    }
    for addition in items(change.add.as_ref()) {
        add(&mut assembly, addition, problems);
    }
    assembly
}

fn items<T>(several: Option<&Several<T>>) -> impl Iterator<Item = &T> {
    several.into_iter().flat_map(|several| &several.0)
}

fn position(assembly: &AssemblyText, name: &At<Word>, problems: &mut Problems) -> Option<usize> {
    let found = assembly
        .layers
        .iter()
        .position(|layer| layer.name.value == name.value);
    if found.is_none() {
        let known = assembly
            .layers
            .iter()
            .map(|layer| layer.name.value.0.as_str());
        problems.push(missing_name("layer", name, known));
    }
    found
}

fn remove(assembly: &mut AssemblyText, name: &At<Word>, problems: &mut Problems) {
    if let Some(strips) = &mut assembly.strips
        && let Some(n) = strips
            .iter()
            .position(|strip| strip.name.value == name.value)
    {
        strips.remove(n);
        return;
    }
    if let Some(n) = position(assembly, name, problems) {
        assembly.layers.remove(n);
    }
}

fn add(assembly: &mut AssemblyText, addition: &AddText, problems: &mut Problems) {
    match (&addition.over, &addition.inside_of, &addition.outside_of) {
        (Some(name), None, None) => {
            let strips = assembly.strips.get_or_insert_with(Vec::new);
            match strips
                .iter_mut()
                .find(|strip| strip.name.value == name.value)
            {
                Some(strip) => strip
                    .over
                    .get_or_insert_with(Vec::new)
                    .push(addition.layer.clone()),
                None => {
                    let known: Vec<String> = strips
                        .iter()
                        .map(|strip| strip.name.value.0.clone())
                        .collect();
                    problems.push(missing_name(
                        "strip",
                        name,
                        known.iter().map(String::as_str),
                    ));
                }
            }
        }
        (None, Some(name), None) => {
            if let Some(n) = position(assembly, name, problems) {
                assembly.layers.insert(n, addition.layer.clone());
            }
        }
        (None, None, Some(name)) => {
            if let Some(n) = position(assembly, name, problems) {
                assembly.layers.insert(n + 1, addition.layer.clone());
            }
        }
        _ => {
            let message = format!("where does layer `{}` go?", addition.layer.name.value.0);
            let label = "expected one of `over:`, `inside-of:` or `outside-of:` beside it";
            problems.push(Problem::at(addition.layer.name.span, message).expected(label));
        }
    }
}
