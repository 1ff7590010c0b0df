#!/bin/bash
# Many small sites side by side, as README's "More than one machine" says: GNU parallel presses 50 of them,
# one task is killed in the middle, the others end as they should, and the one that was killed, done
# again, gives the same bytes. All of them share one folder where the read tables are kept.
set -u
. "$(dirname "$0")/lib/setting.sh"
command -v parallel >/dev/null || { echo 'not ok 1 - GNU parallel is there'; exit 1; }
cc -shared -fPIC -O1 -o "$work/faults.so" tests/press/lib/faults.c -ldl
make_content "$work/content" 4
posts=("$work"/content/posts/*.md)
for i in $(seq 50); do
    mkdir -p "$work/sites/site-$i/posts" "$work/clean"
    for k in 0 1 2; do
        sed "s/^title: .*/& of site $i/" "${posts[$(((i * 3 + k) % ${#posts[@]}))]}" >"$work/sites/site-$i/posts/post-$k.md"
    done
    press "$work/clean/site-$i" "$work/sites/site-$i" || echo "site $i cannot be pressed" >>"$work/wrong"
done
[ ! -s "$work/wrong" ]
check $? '50 sites are pressed one after the other'
rm -rf "$XDG_CACHE_HOME"

# the press of one site ends as by kill -9 in the midst of its outputs
cat >"$work/task" <<'END'
if [ "$1" = "$KILLED" ] && mkdir "$OUT.killed" 2>/dev/null; then
    export LD_PRELOAD=$FAULTS FAULT=kill FAULT_AT=26
fi
exec "$DARIOLE" press -C "$SITES/$1" -o "$OUT/$1" -j 1 -q
END
export KILLED=site-17 SITES=$work/sites OUT=$work/out FAULTS=$work/faults.so DARIOLE=$dariole
ls "$SITES" >"$work/list"
parallel -j 4 --joblog "$work/joblog" sh "$work/task" {} :::: "$work/list" >"$work/log" 2>&1
failed=$?
statuses() { awk 'NR > 1 { print $7 + $8 }' "$work/joblog" | sort -n | uniq -c | awk '{ printf "%s x %s; ", $1, $2 }'; }
statuses >"$work/log"
[ "$failed" -ge 1 ] && [ "$(awk 'NR > 1 && ($7 == 137 || $8 == 9)' "$work/joblog" | wc -l)" -eq 1 ] && grep -q 'site-17$' <(awk '$7 == 137 || $8 == 9' "$work/joblog")
check $? "the task that was killed is told by its exit status"
awk 'NR > 1 && $7 > 1 && $7 != 137' "$work/joblog" >"$work/log"
[ ! -s "$work/log" ]
check $? 'no other task failed'
[ -e "$OUT/site-17/.dariole/journal" ] && ! same "$OUT/site-17" "$work/clean/site-17"
check $? 'what it left is not whole'
parallel -j 4 --resume-failed --joblog "$work/joblog" sh "$work/task" {} :::: "$work/list" >"$work/log" 2>&1
# a site with findings ends with 1, which parallel takes for a failure and tries again as well
[ "$(awk '$NF == "site-17" { status = $7; tries++ } END { print tries, (status <= 1) }' "$work/joblog")" = '2 1' ]
check $? 'it is done again by itself'
same "$OUT" "$work/clean"
check $? 'all sites are what they are when pressed one by one'
ls "$XDG_CACHE_HOME/dariole" >"$work/log"
[ "$(grep -c '^tables-' "$work/log")" -eq "$(wc -l <"$work/log")" ] && ! grep -q '\.new$' "$work/log"
check $? 'and what they share is left whole'
echo "1..$n"
