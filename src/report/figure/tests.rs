//! What holds for every figure.
