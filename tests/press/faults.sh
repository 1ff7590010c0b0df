#!/bin/bash
# Every allocation and every write made to fail in turn: never a torn output, a wrong ledger or a
# crash; exit 3 with one line, or the failure did not matter. The press over a state that stands is
# the one tried, so that old and new outputs meet. With many calls, those behind the first ones are
# tried at random: SEED=N repeats a run. A post that failed stands as it was in what gathers all
# posts, so preview/index.html may be of neither state.
set -u
. "$(dirname "$0")/lib/setting.sh"
seed=${SEED:-$RANDOM}
echo "# SEED=$seed"
RANDOM=$seed
cc -shared -fPIC -O1 -o "$work/faults.so" tests/press/lib/faults.c -ldl
make_content "$work/a" 4
rm "$work"/a/posts/[a-m]*.md
cp -r "$work/a" "$work/b"
mkdir "$work/one" "$work/two"
mv "$work/a" "$work/one/content"
mv "$work/b" "$work/two/content"
sed -i 's/^title: /title: Another /' "$work"/two/content/posts/[n-q]*.md
rm "$work/two/content/more/post-000003.md"
printf 'phases:\n  strict:\n    groups:\n      sorbitol: {grams: 0.15, source: "a test", basis: practice}\n' >"$work/two/content/tables/limits.yaml"
press "$work/clean-a" "$work/one/content"
check $? 'the first state compiles'
mv "$XDG_CACHE_HOME" "$work/cache-a"
press "$work/clean-b" "$work/two/content"
check $? 'the second state compiles'

# one KIND N ARGUMENT...: one press with the N-th call failing; what it did wrong goes to the log
one() {
    local kind=$1 at=$2 status lines unlike
    shift 2
    rm -rf "$work/out" "$XDG_CACHE_HOME"
    cp -r --preserve=timestamps "$work/clean-a" "$work/out"
    cp -r --preserve=timestamps "$work/cache-a" "$XDG_CACHE_HOME"
    env FAULT="$kind" FAULT_AT="$at" "$@" FAULT_COUNT="$work/count" LD_PRELOAD="$work/faults.so" \
        "$dariole" press -C "$work/two/content" -o "$work/out" -q -j1 >"$work/said" 2>&1
    status=$?
    lines=$(grep -c . "$work/said")
    if [ "$status" -gt 3 ] || [ "$status" -eq 2 ]; then
        echo "$kind $at: status $status"
    elif [ "$status" -eq 3 ] && { [ "$lines" -ne 1 ] || ! grep -q '^dariole: ..*' "$work/said"; }; then
        echo "$kind $at: $lines lines: $(head -n 2 "$work/said")"
    elif [ "$status" -le 1 ] && ! same "$work/out" "$work/clean-b"; then
        echo "$kind $at: status $status, but outputs differ: $(head -n 1 "$work/log")"
    fi
    for s in a b; do
        unlike_but_beside "$work/out" "$work/clean-$s" | grep -v '^./preview/index.html$' >"$work/unlike-$s"
    done
    unlike=$(comm -12 "$work/unlike-a" "$work/unlike-b" | head -n 1)
    [ -n "$unlike" ] && echo "$kind $at: $unlike is torn"
    press "$work/out" "$work/two/content" || echo "$kind $at: the next press fails: $(head -n 1 "$work/log")"
    same "$work/out" "$work/clean-b" || echo "$kind $at: after the next press: $(head -n 1 "$work/log")"
}

# all KIND MOST NAME ARGUMENT...: no more than MOST calls are tried
all() {
    local kind=$1 most=$2 name=$3 count at tried=0
    shift 3
    one "$kind" 0 "$@" >"$work/wrong"
    count=$(cat "$work/count")
    at=1
    while [ "$at" -le "$count" ]; do
        one "$kind" "$at" "$@" >>"$work/wrong"
        tried=$((tried + 1))
        if [ "$at" -gt $((most / 2)) ] && [ "$count" -gt "$most" ]; then
            at=$((at + 1 + RANDOM % (4 * (count - most / 2) / most + 1)))
        else
            at=$((at + 1))
        fi
    done
    echo "# $tried of $count calls were made to fail"
    head -n 8 "$work/wrong" >"$work/log"
    [ ! -s "$work/wrong" ] && [ "$tried" -gt 20 ]
    check $? "$name"
}
all write 400 'each write, rename and flush fails in turn'
all write 40 'each write fails, and all that follow' FAULT_ON=1
# most allocations of a small press are the confinement's, of which a few stand for all
all malloc 200 'each allocation fails in turn' DARIOLE_UNCONFINED=1
all malloc 30 'each allocation fails, and all that follow' DARIOLE_UNCONFINED=1 FAULT_ON=1
all malloc 60 'each allocation fails in turn, with those of the confinement'
echo "1..$n"
