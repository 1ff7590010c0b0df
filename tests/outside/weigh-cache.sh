#!/bin/bash
# The tables that a single `weigh` keeps and finds again: a warm run says what a cold one does, and a
# damaged or missing cache does no harm. What loading costs is told by `make bench`. TAP.
set -u
cd "$(dirname "$0")/../.." || exit 3
dariole=${DARIOLE:-build/dariole}
XDG_CACHE_HOME=$(mktemp -d) || exit 3
export XDG_CACHE_HOME
trap 'rm -r "$XDG_CACHE_HOME"' EXIT

number=0
say() { # say NAME WANTED GOT
    number=$((number + 1))
    if [ -n "$2" ] && [ "$2" = "$3" ]; then echo "ok $number - $1"; else echo "not ok $number - $1"; fi
}
cold=$("$dariole" weigh --json '1 cup rice')
kept=$(ls "$XDG_CACHE_HOME"/dariole 2>/dev/null)
say 'a cold run keeps the tables' yes "${kept:+yes}"
say 'cold and warm say the same' "$cold" "$("$dariole" weigh --json '1 cup rice')"
say 'a warm run keeps nothing anew' "$kept" "$(ls "$XDG_CACHE_HOME"/dariole)"
for file in "$XDG_CACHE_HOME"/dariole/*; do printf 'x' | dd of="$file" bs=1 seek=5000 conv=notrunc 2>/dev/null; done
say 'a damaged cache is not trusted' "$cold" "$("$dariole" weigh --json '1 cup rice')"
for file in "$XDG_CACHE_HOME"/dariole/*; do truncate -s 3T "$file"; done
say 'a cache beyond all memory is passed over' "$cold" "$("$dariole" weigh --json '1 cup rice')"
say 'without a cache folder it goes on' "$cold" "$(XDG_CACHE_HOME=/proc/nowhere HOME=/proc/nowhere "$dariole" weigh --json '1 cup rice')"
echo "1..$number"
