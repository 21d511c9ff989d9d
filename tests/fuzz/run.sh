#!/usr/bin/env bash
# Fuzzes one target for some seconds, with a stable compiler: coverage comes from LLVM's own pass.
#
#   tests/fuzz/run.sh TARGET [SECONDS]      quantity, project, climate or check; default 60 s
#
# What it finds stays in tests/fuzz/found/TARGET, the inputs it keeps in tests/fuzz/corpus/TARGET.
set -euo pipefail
cd "$(dirname "$0")"
target=$1
seconds=${2:-60}

export RUSTFLAGS="-Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
-Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
-Ccodegen-units=1 --cfg fuzzing"
host=$(rustc -vV | sed -n 's/^host: //p')
cargo build --release --quiet --target "$host" --bin "$target"

mkdir -p "corpus/$target" "found/$target"
case $target in
    project | check) cp ../../examples/*.yaml "corpus/$target/" ;;
    climate) cp seeds/*.csv "corpus/$target/" ;;
    quantity) cp seeds/*.txt "corpus/$target/" ;;
esac
"${CARGO_TARGET_DIR:-target}/$host/release/$target" "corpus/$target" \
    -dict=words.dict -max_total_time="$seconds" -timeout="${FUZZ_TIMEOUT:-20}" -rss_limit_mb=1500 -max_len=8192 \
    -artifact_prefix="found/$target/" -print_final_stats=1
