#!/bin/bash
# Killed at 200 random moments, a press leaves nothing torn: every output is whole, and the next press
# gives what a press into an empty folder gives, though the ledger may be lost besides. The content goes to and fro between two states, in
# which posts, a limit and a food differ. SEED=N repeats a run.
set -u
. "$(dirname "$0")/lib/setting.sh"
seed=${SEED:-$RANDOM}
echo "# SEED=$seed"
RANDOM=$seed
make_content "$work/a/content" 26
cp -r "$work/a" "$work/b"
b=$work/b/content
sed -i 's/^title: /title: Another /' "$b"/more/post-00000[0-9].md
rm "$b"/more/post-00001[0-3].md
cp "$b/more/post-000020.md" "$b/more/post-000090.md"
mv "$b/more/post-000015.md" "$b/posts/moved.md"
printf 'phases:\n  strict:\n    groups:\n      sorbitol: {grams: 0.15, source: "a test", basis: practice}\n' >"$b/tables/limits.yaml"
for s in a b; do press "$work/clean-$s" "$work/$s/content"; done
check $? 'both states compile'
diff -r -q "$work/clean-a" "$work/clean-b" >/dev/null
check $(($? == 0)) 'they differ'

# whole: every output is that of one state or of the other
whole() {
    for s in a b; do
        unlike_but_beside "$work/out" "$work/clean-$s" >"$work/unlike-$s"
    done
    [ -z "$(comm -12 "$work/unlike-a" "$work/unlike-b")" ]
}
start=${EPOCHREALTIME/[.,]/}
press "$work/timed" "$work/a/content" -j2
most=$(((${EPOCHREALTIME/[.,]/} - start) * 12 / 10))
torn=0 different=0 killed=0 now=a
for _ in $(seq 200); do
    [ "$now" = a ] && now=b || now=a
    [ $((RANDOM % 8)) -eq 0 ] && rm -rf "$work/out"
    "$dariole" press -C "$work/$now/content" -o "$work/out" -q -j2 >/dev/null 2>&1 &
    pid=$!
    sleep "$(printf '0.%06d' $((most * (RANDOM % 1000) / 1000 % 1000000)))"
    kill -9 "$pid" 2>/dev/null && killed=$((killed + 1))
    wait "$pid" 2>/dev/null
    mkdir -p "$work/out"
    whole || torn=$((torn + 1))
    [ $((RANDOM % 4)) -eq 0 ] && rm -f "$work/out/.dariole/ledger"
    press "$work/out" "$work/$now/content"
    same "$work/out" "$work/clean-$now" || { different=$((different + 1)); cp "$work/log" "$work/first" 2>/dev/null; }
done
echo "# $killed of 200 were killed at work"
check $((killed < 50)) 'many presses were killed at work'
check "$torn" 'no output was ever torn'
[ -f "$work/first" ] && cp "$work/first" "$work/log"
check "$different" 'the press after a kill gives what a clean one gives'
echo "1..$n"
