#!/bin/sh
# Feeds every reader for so many seconds each (60 unless told) and keeps what reaches further in target/fuzz/corpus.
# What stops a reader lies in target/fuzz/found: put it into tests/fuzz/corpus, where every test run replays it.
# Any compiler will do: nothing here asks for a nightly one, since there is no unsafe code to be watched.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
target=${CARGO_TARGET_DIR:-$here/../../target}/fuzz
seconds=${1:-60}
# Coverage as libFuzzer wants it.
export RUSTFLAGS="--cfg fuzzing -Cpasses=sancov-module -Cllvm-args=-sanitizer-coverage-level=4 \
 -Cllvm-args=-sanitizer-coverage-inline-8bit-counters -Cllvm-args=-sanitizer-coverage-pc-table \
 -Cllvm-args=-sanitizer-coverage-trace-compares -Ccodegen-units=1 -Cdebug-assertions -Coverflow-checks"
host=$(rustc -vV | sed -n 's/^host: //p')
CARGO_TARGET_DIR=$target cargo build --release --target "$host" --manifest-path "$here/Cargo.toml"
for folder in "$here"/corpus/*; do
  reader=$(basename "$folder")
  mkdir -p "$target/corpus/$reader" "$target/found"
  echo "$reader:"
  VELAMEN_READER=$reader "$target/$host/release/readers" "$target/corpus/$reader" "$folder" \
    -max_total_time="$seconds" -timeout=20 -rss_limit_mb=1500 -max_len=20000 -print_final_stats=1 \
    -artifact_prefix="$target/found/$reader-"
done
