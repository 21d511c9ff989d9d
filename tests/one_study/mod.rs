//! One study, one truth: which number speaks, and that every way to tell it tells the same.

mod numbers;
mod rules;
mod screens;
