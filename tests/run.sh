#!/usr/bin/env bash
# Builds everything and runs every test. Installs what is missing with apt when it may; says what it skips otherwise.
#   --require-everything   nothing may be skipped
# Ends with a line "N passed, N failed", with ", N skipped" where something was.
set -uo pipefail
cd "$(dirname "$0")/.."
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 MSBUILDDISABLENODEREUSE=1
require=0
[ "${1:-}" = "--require-everything" ] && require=1
passed=0 failed=0 skipped=0
skip() { echo "skipped: $1"; skipped=$((skipped + 1)); }
fail() { echo "FAILED: $1"; failed=$((failed + 1)); }
has() { command -v "$1" >/dev/null 2>&1; }

# --- what the tests need beside the SDK: compiler for the board's firmware, the simulator it runs on, a broker --------
packages=""
has gcc || packages="$packages gcc libc6-dev"
has make || packages="$packages make"
has avr-gcc || packages="$packages gcc-avr"
[ -e /usr/lib/avr/include/avr/io.h ] || packages="$packages avr-libc"
[ -e /usr/include/simavr/sim_avr.h ] || packages="$packages libsimavr-dev libelf-dev"
[ -x /usr/sbin/mosquitto ] || has mosquitto || packages="$packages mosquitto"
has mosquitto_sub || packages="$packages mosquitto-clients"
has chromium || has chromium-browser || has google-chrome || packages="$packages chromium"
if [ -n "$packages" ]; then
  if has apt-get && [ "$(id -u)" = 0 ]; then
    echo "installing:$packages"
    apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq $packages >/dev/null \
      || echo "could not install:$packages"
  else
    echo "missing, and no right to install them:$packages"
  fi
fi
[ -x /usr/sbin/mosquitto ] || has mosquitto || echo "skipped: the tests of telemetry against a real broker (no mosquitto)"
has chromium || has chromium-browser || has google-chrome || echo "skipped: the reports opened in a real browser (no chromium)"
has dotnet || { echo "the .NET 10 SDK is missing: install it and run this again"; echo "0 passed, 1 failed"; exit 1; }

# --- the firmware: portable core on this machine with sanitizers, then the real binary --------------------------------
board=0
if has gcc && has make; then
  if out=$(make -s -C shared/board test 2>&1); then
    echo "$out" | tail -n 1
    passed=$((passed + $(echo "$out" | grep -oE '[0-9]+ passed' | tail -n 1 | grep -oE '[0-9]+')))
  else
    echo "$out"; fail "the firmware's core on this machine"
  fi
  # A fixed budget; make -C shared/board fuzz SEED=2 LINES=100000000 for hours.
  if out=$(make -s -C shared/board fuzz SEED=1 LINES=100000 2>&1); then
    passed=$((passed + 1))
  else
    echo "$out"; fail "fuzzing the firmware's side of the line"
  fi
else
  skip "the firmware's core (no gcc or make)"
fi
if has avr-gcc && [ -e /usr/include/simavr/sim_avr.h ]; then
  if make -s -C shared/board firmware; then board=1; else fail "building the firmware"; fi
else
  skip "the real firmware on a simulated processor (no avr-gcc or libsimavr)"
fi

# --- everything in C# -------------------------------------------------------------------------------------------------
results=$(mktemp -d); trap 'rm -rf "$results"' EXIT
dotnet build RigControl.sln -c Release -v q --nologo || { fail "the build"; echo "$passed passed, $failed failed"; exit 1; }
for project in tests/*.Tests/*.csproj; do
  name=$(basename "$project" .csproj)
  case "$name" in
    *Board.Tests|*EndToEnd.Tests) [ "$board" = 1 ] || { skip "$name (needs the firmware)"; continue; } ;;
  esac
  log="$results/$name.log"
  dotnet test --project "$project" -c Release --no-build >"$log" 2>&1
  code=$?
  total_passed=$(grep -oE 'succeeded: [0-9]+' "$log" | tail -n 1 | grep -oE '[0-9]+' || echo 0)
  total_failed=$(grep -oE 'failed: [0-9]+' "$log" | tail -n 1 | grep -oE '[0-9]+' || echo 0)
  total_skipped=$(grep -oE 'skipped: [0-9]+' "$log" | tail -n 1 | grep -oE '[0-9]+' || echo 0)
  echo "$name: ${total_passed:-0} passed, ${total_failed:-0} failed"
  passed=$((passed + ${total_passed:-0})) failed=$((failed + ${total_failed:-0})) skipped=$((skipped + ${total_skipped:-0}))
  if [ "$code" != 0 ] || [ "${total_passed:-0}" = 0 ]; then
    cat "$log"
    [ "${total_failed:-0}" = 0 ] && fail "$name ended with code $code and ${total_passed:-0} passes"
  fi
done

if [ "$require" = 1 ] && [ "$skipped" != 0 ]; then
  fail "$skipped skipped where nothing may be"
fi
[ "$passed" = 0 ] && failed=$((failed + 1))
if [ "$skipped" != 0 ]; then
  echo "$passed passed, $failed failed, $skipped skipped"
else
  echo "$passed passed, $failed failed"
fi
[ "$failed" = 0 ]
