#!/usr/bin/env bash
# Our conduction solver beside general-purpose peers: prints a table of medians and ratios.
#
#   benches/conduction/run.sh [ROUNDS]
#
# Builds faer (some minutes the first time) in a workspace of its own. Peers in Python are run if
# $PYTHON (default python3) has them: scikit-sparse, pyamg, scikit-fem; those it lacks are left
# out. One thread, the same matrix, residual 1e-8, all peers in turn in every round.
set -euo pipefail
cd "$(dirname "$0")"
rounds=${1:-3}
python=${PYTHON:-python3}
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
cargo build --release --quiet
ours=${CARGO_TARGET_DIR:-target}/release/conduction-bench
has() { "$python" -c "import $1" 2>/dev/null; }
for cells in 1e4 1e5 1e6; do "$ours" matrix $cells "$scratch/$cells"; done
for _ in $(seq "$rounds"); do
  for cells in 1e4 1e5 1e6; do
    case $cells in 1e4) many=20 few=5 ;; 1e5) many=10 few=3 ;; *) many=5 few=1 ;; esac
    "$ours" ours $cells $many
    "$ours" faer $cells $few
    if has sksparse; then "$python" peers.py cholmod "$scratch/$cells" $cells $few; fi
    if has pyamg; then "$python" peers.py pyamg "$scratch/$cells" $cells $few; fi
    "$ours" whole $cells $many
    if has skfem && [ $cells != 1e6 ]; then "$python" peers.py scikit-fem $cells $few; fi
  done
done >"$scratch/times" 2>"$scratch/notes"
sort "$scratch/notes" | uniq -c | sort -rn | head -40 >&2
"$python" peers.py table "$scratch/times"
