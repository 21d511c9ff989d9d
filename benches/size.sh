#!/usr/bin/env bash
# Times `dewmargin size` as a whole process, start to exit: a detail in two dimensions, and an
# assembly with and without drying among its targets.
#
#   benches/size.sh [RUNS]        default 30 of each; prints medians and least times
#
# Targets: a detail under 500 ms, an assembly under 20 ms.
set -euo pipefail
cd "$(dirname "$0")/.."
runs=${1:-30}
target=${CARGO_TARGET_DIR:-target}
cargo build --release --quiet
ours="$target/release/dewmargin"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
file=examples/cabin-size.yaml
sed 's/, dry-within-the-year: true//' "$file" > "$folder/heat.yaml"

timed() { # what, file, entry
    local started ended
    for _ in $(seq "$runs"); do
        started=${EPOCHREALTIME/./}
        "$ours" size "$2" --entry "$3" > /dev/null || [ $? -eq 1 ]
        ended=${EPOCHREALTIME/./}
        echo $((ended - started))
    done | sort -n | awk -v what="$1" '{ v[NR] = $1 / 1000 } END {
        printf "%-42s median %7.1f ms  least %7.1f ms\n", what, v[int((NR + 1) / 2)], v[1] }'
}

timed "detail, winter mean" "$file" "foam over the flange"
timed "detail, winter mean and design night" "$file" "foam for the design night"
timed "detail, no thickness does" "$file" "foam under the finish floor"
timed "assembly, leak margin and drying" "$file" "boards outside of the sheathing"
timed "assembly, leak margin" "$folder/heat.yaml" "boards outside of the sheathing"
