#!/bin/bash
# Workers, two presses at once, Ctrl-C, --why, and what costs nothing.
set -u
. "$(dirname "$0")/lib/setting.sh"
make_content "$work/content" 300
press "$work/one" "$work/content" -j1
check $? 'the content compiles on one worker'
for j in 2 5; do
    press "$work/j$j" "$work/content" -j$j && same "$work/j$j" "$work/one"
    check $? "the same bytes on $j workers"
done
env LC_ALL=tr_TR.UTF-8 LANG=de_DE.UTF-8 TZ=Pacific/Auckland "$dariole" press -C "$work/content" -o "$work/place" -q >"$work/log" 2>&1
[ $? -le 1 ] && same "$work/place" "$work/one"
check $? 'the same bytes in another locale and time zone'
mkdir "$work/elsewhere" && cp -r "$work/content" "$work/elsewhere/content"
press "$work/moved" "$work/elsewhere/content" && same "$work/moved" "$work/one"
check $? 'the same bytes from another place'

# two presses on one OUT
press "$work/both" "$work/content" & first=$!
"$dariole" press -C "$work/content" -o "$work/both" -q >"$work/second" 2>&1
second=$?
wait "$first"
first=$?
[ "$first" -eq 0 ] && [ "$second" -le 1 ] && same "$work/both" "$work/one"
check $? "two presses at once ($first, $second)"
rm -rf "$work/both"
"$dariole" press -C "$work/content" -o "$work/both" -q -j1 2>"$work/log" & first=$!
for _ in $(seq 200); do [ -e "$work/both/.dariole/journal" ] && break; sleep 0.01; done
kill -STOP "$first"
"$dariole" press -C "$work/content" -o "$work/both" -q 2>"$work/second" & second=$!
sleep 1
kill -CONT "$first"
wait "$first"
wait "$second"
status=$?
grep -q 'another press is at work' "$work/second" && [ "$status" -le 1 ]
check $? 'the second press says that it waits'
same "$work/both" "$work/one"
check $? 'and finds all made'

# Ctrl-C
broken=0 whole=0
for i in 1 2 3 4 5 6 7 8; do
    rm -rf "$work/stopped"
    "$dariole" press -C "$work/content" -o "$work/stopped" -j2 >/dev/null 2>"$work/log" & pid=$!
    for _ in $(seq 200); do grep -qs fragments/ "$work/stopped/.dariole/manifest" && break; sleep 0.005; done
    sleep "0.0$i"
    case $((i % 2)) in 0) kill -INT "$pid" ;; 1) kill -TERM "$pid" ;; esac
    wait "$pid"
    status=$?
    # shellcheck disable=SC2015
    [ "$status" -eq 143 ] || [ "$status" -eq 130 ] && grep -q '^dariole: stopped; [0-9]* of' "$work/log" || continue
    left=$(sed -n 's/^dariole: stopped; \([0-9]*\) of.*/\1/p' "$work/log")
    [ "$left" -eq 0 ] || whole=$((whole + 1))
    find "$work/stopped" -name '*.tmp' | grep -q . && broken=$((broken + 1))
    made=$("$dariole" press -C "$work/content" -o "$work/stopped" 2>&1 >/dev/null | sed -n 's/.* published; \([0-9]*\) made.*/\1/p')
    [ "${made:-none}" = "$left" ] && [ "$made" -lt 314 ] && same "$work/stopped" "$work/one" || broken=$((broken + 1))
done
echo "# $whole of 8 were stopped at work"
check $((whole < 1)) 'a signal stops a press and is said'
check "$broken" 'a stopped press keeps a whole ledger: the next one makes only the rest'

# --why, and nothing to do
why() { "$dariole" press -C "$work/content" -o "$work/one" -q --why 2>"$work/log" | grep -v ': other posts fit beside it$'; }
why >"$work/why"
[ ! -s "$work/why" ]
check $? 'nothing to do: --why says nothing'
if command -v strace >/dev/null 2>&1; then
    strace -f -e trace=open,openat -o "$work/trace" "$dariole" press -C "$work/content" -o "$work/one" -q
    ! grep -q '\.md"\|fragments/\|\.html"' "$work/trace"
    check $? 'nothing to do: no post and no output is opened'
fi
before=$(find "$work/one" -type f -newermt '2000-01-01' -printf '%p %i %T@\n' | grep -v /.dariole/ | sort)
"$dariole" press -C "$work/content" -o "$work/one" -q
after=$(find "$work/one" -type f -newermt '2000-01-01' -printf '%p %i %T@\n' | grep -v /.dariole/ | sort)
[ "$before" = "$after" ]
check $? 'nothing to do: no output is written'
mkdir -p "$work/content/tables"
printf 'phases:\n  strict:\n    groups:\n      lactose: {grams: 0.7, source: "a test", basis: practice}\n' >"$work/content/tables/limits.yaml"
why >"$work/why"
[ "$(grep /more/ "$work/why" | cut -d: -f1 | tr '\n' ' ')" = 'content/more/post-000037.md content/more/post-000137.md content/more/post-000237.md ' ]
check $? 'a limit of lactose: the posts with milk are made again, no other'
[ "$(grep -c 'more/.*: changed in the tables: limit:strict/lactose, limit:wider/lactose$' "$work/why")" -eq 3 ]
check $? 'a limit of lactose: --why names it'
sed -i 's/0.7,/0.70,  /; s/^/  /; 1i # a remark' "$work/content/tables/limits.yaml"
why >"$work/why"
[ ! -s "$work/why" ]
check $? 'other spelling, same value: nothing is made again'
touch "$work"/content/posts/*.md
why >"$work/why"
[ ! -s "$work/why" ]
check $? 'posts that are only touched: nothing is made again'
echo x >>"$work/one/data/nettle-soup.json"
why >"$work/why"
[ "$(cat "$work/why")" = 'content/posts/nettle-soup.md: an output was missing or changed by another hand' ]
check $? 'a damaged output: its post is made again'

# last good output
printf 'no front matter\n' >"$work/content/posts/nettle-soup.md"
cp -r "$work/one/fragments" "$work/fragments"
"$dariole" press -C "$work/content" -o "$work/one" >/dev/null 2>"$work/log"
[ $? -eq 1 ] && grep -q '^1 post cannot be read; its last good output stays$' "$work/log" && diff -r -q "$work/fragments" "$work/one/fragments" >/dev/null
check $? 'a post that cannot be read any more keeps its last good output'
rm "$work/content/posts/nettle-soup.md"
press "$work/one" "$work/content" && [ ! -e "$work/one/fragments/nettle-soup.html" ] && [ ! -e "$work/one/data/nettle-soup.json" ] && [ ! -e "$work/one/preview/nettle-soup.html" ]
check $? 'a removed post: its outputs go'

# one worker's post with a name that fails does not stop the rest: see limits.sh; two posts of one slug:
cp "$work/content/posts/quinoa-porridge.md" "$work/content/more/quinoa-porridge.md"
"$dariole" press -C "$work/content" -o "$work/one" >/dev/null 2>"$work/log"
grep -q 'posts/quinoa-porridge.md.*error: .*content/more/quinoa-porridge.md.*\[slug-twice\]' "$work/log"
check $? 'two posts of one slug: the second is told and not published'
echo "1..$n"
