#!/usr/bin/env bash
# The solver in three dimensions at 1e5, 1e6 and 4e6 cells, each in a process of its own, so that its
# peak of memory is its own.
#
#   benches/volume.sh [RUNS]
set -euo pipefail
cd "$(dirname "$0")/.."
cargo bench --bench volume --no-run --quiet
for cells in 1e5 1e6 4e6; do
  cargo bench --bench volume --quiet -- "$cells" "${1:-3}"
done
