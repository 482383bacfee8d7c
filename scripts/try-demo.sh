#!/usr/bin/env bash
# Runs the demo as a user would, twice over the same data, and looks at what it says and leaves.
set -euo pipefail

DATA_DIRECTORY=$(mktemp -d)
export DATA_DIRECTORY PORT=$((20000 + RANDOM % 20000))
output=$DATA_DIRECTORY.out
trap 'rm -rf "$DATA_DIRECTORY" "$output"' EXIT

for run in first second; do
  # A session of its own, so that the interrupt reaches the demo as Ctrl-C in a terminal does.
  setsid npm run --silent demo >"$output" 2>&1 &
  group=$!
  for _ in $(seq 1 120); do
    grep -q 'Ctrl-C stops it' "$output" && break
    kill -0 "$group" 2>/dev/null || break
    sleep 0.5
  done
  cat "$output"
  grep -q 'between Room 12 and Room 13 on trunk A' "$output"
  curl --fail --silent --show-error "http://127.0.0.1:$PORT/health/ready"
  kill -INT -- "-$group"
  wait "$group" || true
  if pgrep -f "$DATA_DIRECTORY" >/dev/null; then
    echo "the $run run left processes behind:" >&2
    pgrep -af "$DATA_DIRECTORY" >&2
    exit 1
  fi
done
echo 'The demo ran twice and left nothing running.'
