#!/usr/bin/env bash
# Times `dewmargin check` of one wall (year, drying, corners, flip values) as a whole process, start
# to exit, against a program that only reads its arguments. The two run in turns, so that a busy
# moment hits both.
#
#   benches/process.sh [RUNS]        default 1000 of each; prints medians and their ratio
#
# Target: under 20 ms.
set -euo pipefail
cd "$(dirname "$0")/.."
runs=${1:-1000}
target=${CARGO_TARGET_DIR:-target}

cargo build --release --quiet
cargo build --release --quiet --manifest-path benches/empty-clap/Cargo.toml \
    --target-dir "$target/empty-clap"
ours="$target/release/dewmargin"
empty="$target/empty-clap/release/empty-clap"
wall="examples/cabin-wall.yaml"
of_it="--variant polyethylene"

median() { sort -g | awk '{ v[NR] = $1 } END { print v[int((NR + 1) / 2)] }'; }

if command -v hyperfine > /dev/null; then
    # Without a shell in between, in turns of 40.
    times=$(mktemp -d)
    trap 'rm -rf "$times"' EXIT
    for _ in $(seq $(((runs + 39) / 40))); do
        for program in "$empty" "$ours"; do
            arguments=""
            if [ "$program" = "$ours" ]; then arguments=$of_it; fi
            hyperfine -N --style none --warmup 3 --runs 40 --export-json "$times/turn.json" \
                "'$program' check $wall $arguments" 2> /dev/null
            awk '/"times"/ { on = 1; next } /\]/ { on = 0 } on { print $1 * 1e6 }' \
                "$times/turn.json" >> "$times/$(basename "$program")"
        done
    done
    a=$(median < "$times/empty-clap")
    b=$(median < "$times/dewmargin")
else
    # The shell's own fork counts in both here, which makes the ratio smaller than it is.
    now() { local t=${EPOCHREALTIME/,/.}; stamp=${t/./}; }
    took() { # program → $elapsed in µs
        now; local start=$stamp
        "$1" check "$wall" ${2:-} > /dev/null
        now; elapsed=$((stamp - start))
    }
    of_empty=() of_ours=()
    for _ in $(seq "$runs"); do
        took "$empty"; of_empty+=("$elapsed")
        took "$ours" "$of_it"; of_ours+=("$elapsed")
    done
    a=$(printf '%s\n' "${of_empty[@]}" | median)
    b=$(printf '%s\n' "${of_ours[@]}" | median)
fi
awk -v a="$a" -v b="$b" -v n="$runs" 'BEGIN {
    printf "empty program  median %.2f ms of %d runs\n", a / 1000, n
    printf "dewmargin      median %.2f ms of %d runs\n", b / 1000, n
    printf "ratio          %.2f\n", b / a
}'
