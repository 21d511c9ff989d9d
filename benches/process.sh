#!/usr/bin/env bash
# Times `dewmargin check examples/cabin-wall.yaml` as a whole process, start to exit, against a
# program that only reads its arguments. The two run in turns, so that a busy moment hits both.
#
#   benches/process.sh [RUNS]        default 1001 of each; prints medians and their ratio
#
# Target: at most 3 times the empty program, and under 10 ms.
set -euo pipefail
cd "$(dirname "$0")/.."
runs=${1:-1001}
target=${CARGO_TARGET_DIR:-target}

cargo build --release --quiet
cargo build --release --quiet --manifest-path benches/empty-clap/Cargo.toml \
    --target-dir "$target/empty-clap"
ours="$target/release/dewmargin"
empty="$target/empty-clap/release/empty-clap"
section=examples/cabin-wall.yaml

# Microseconds since the epoch, without starting a process; some locales print a comma.
now() { local t=${EPOCHREALTIME/,/.}; stamp=${t/./}; }
took() { # program → $elapsed in µs
    now; local start=$stamp
    "$1" check "$section" > /dev/null
    now; elapsed=$((stamp - start))
}
median() { sort -n | awk '{ v[NR] = $1 } END { print v[int((NR + 1) / 2)] }'; }

for _ in $(seq 20); do took "$empty"; took "$ours"; done # warm up
of_empty=() of_ours=()
for _ in $(seq "$runs"); do
    took "$empty"; of_empty+=("$elapsed")
    took "$ours"; of_ours+=("$elapsed")
done
a=$(printf '%s\n' "${of_empty[@]}" | median)
b=$(printf '%s\n' "${of_ours[@]}" | median)
awk -v a="$a" -v b="$b" -v n="$runs" 'BEGIN {
    printf "empty program  median %.2f ms over %d runs\n", a / 1000, n
    printf "dewmargin      median %.2f ms over %d runs\n", b / 1000, n
    printf "ratio          %.2f\n", b / a
}'
