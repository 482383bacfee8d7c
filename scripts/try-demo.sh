#!/usr/bin/env bash
# Runs the demo as a user would, twice over the same data, and looks at what it says and leaves.
set -euo pipefail

DATA_DIRECTORY=$(mktemp -d)
export DATA_DIRECTORY PORT=$((20000 + RANDOM % 20000))
output=$DATA_DIRECTORY.out
group=
stop_and_clean() {
  [ -z "$group" ] || kill -INT -- "-$group" 2>/dev/null || true
  [ -z "$group" ] || wait "$group" || true
  rm -rf "$DATA_DIRECTORY" "$output"
}
trap stop_and_clean EXIT

for run in first second; do
  # A session of its own, so that the interrupt reaches the demo as Ctrl-C in a terminal does.
  setsid npm run --silent demo >"$output" 2>&1 &
  group=$!
  # Ten minutes at most: this is no speed test, and the machine may be busy.
  for _ in $(seq 1 1200); do
    grep -q 'Ctrl-C stops it' "$output" && break
    kill -0 "$group" 2>/dev/null || break
    sleep 0.5
  done
  cat "$output"
  grep -q 'Ctrl-C stops it' "$output" || { echo "the $run run did not come to serve" >&2; exit 1; }
  grep -q 'between Room 12 and Room 13 on trunk A' "$output"
  grep -q 'goes, .* there until' "$output"
  grep -q 'promised by .*, planned .*, .*[0-9] %' "$output"
  curl --fail --silent --show-error "http://127.0.0.1:$PORT/health/ready"
  # The site pass that it printed opens a page.
  pass=$(grep -o "http://127.0.0.1:$PORT/pass#[A-Za-z0-9_-]*" "$output")
  curl --fail --silent --show-error "${pass%#*}" | grep -q '<title>Report silent rooms</title>'
  kill -INT -- "-$group"
  wait "$group" || true
  group=
  if pgrep -f "$DATA_DIRECTORY" >/dev/null; then
    echo "the $run run left processes behind:" >&2
    pgrep -af "$DATA_DIRECTORY" >&2
    exit 1
  fi
done
echo 'The demo ran twice and left nothing running.'
