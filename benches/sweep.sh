#!/usr/bin/env bash
# Times `dewmargin sweep` as a whole process: 100,000 combinations of a wall of seven layers with a
# year, all checks of assemblies at nominal values, rows written to a table.
#
#   benches/sweep.sh [CSV]        the table goes to a folder of its own unless one is named
#
# Prints wall time, CPU time by combination and the greatest memory. Target: 3 s on two cores, which
# is 60 µs of CPU each. Beside it, the yearly balance alone as a NumPy batch:
#   python3 benches/year_batch.py batch 20000
set -euo pipefail
cd "$(dirname "$0")/.."
target=${CARGO_TARGET_DIR:-target}
cargo build --release --quiet
ours="$target/release/dewmargin"
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
table=${1:-$folder/rows.csv}
cat > "$folder/wall.yaml" <<'YAML'
indoor: {heating: 68 F, cooling: 75 F, humidity: 50 %}
climate: wet-coast
code: {edition: IRC 2018}
assemblies:
  wall:
    kind: wall
    layers:
      - {name: lining, material: painted gypsum board, thickness: 1/2 in}
      - {name: studs, material: R-13 batt, thickness: 3-1/2 in, framing: {material: spruce-pine-fir, share: 25 %}}
      - {name: sheathing, material: plywood, thickness: 1/2 in}
      - {name: wrap, material: housewrap}
      - {name: outside foam, material: XPS, thickness: 1 in}
      - {name: rain screen, air: ventilated, thickness: 3/4 in}
      - {name: siding, material: cedar siding}
sweep:
  of: wall
  axes:
    outside foam: {layer: outside foam, thickness: {from: 0.25 mm, to: 100 mm, step: 0.25 mm}}
    room humidity: {humidity: {from: 30.16 %, to: 70 %, step: 0.16 %}}
YAML
TIMEFORMAT='%R s wall, %U s user'
time "$ours" sweep "$folder/wall.yaml" -o "$table" --again | head -1
rows=$(($(wc -l < "$table") - 1))
# Highest resident memory, where the system tells it.
if [ -x /usr/bin/time ]; then
    /usr/bin/time -f '%U s user, %M KiB at most' "$ours" sweep "$folder/wall.yaml" -o "$table" --again > "$folder/out"
fi
echo "$rows combinations"
