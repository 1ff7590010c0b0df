#!/bin/bash
# A blog's own serves: a changed one makes the posts that hold the food again and no others, as a press
# into an empty folder would; what it would do is told before. Prints TAP.
set -u
. "$(dirname "$0")/lib/setting.sh"
mkdir -p "$work/content/posts" "$work/content/tables"
post() { # post SLUG LINE
    printf -- '---\ntitle: %s\nportions: 1\nmeasures: au\ningredients:\n  - %s\n  - 1 tsp sugar\n---\n## Method\n\n1. Stir.\n' "$1" "$2" >"$work/content/posts/$1.md"
}
post berries '60 g blueberries'
post dried '10 g dried blueberries'
post carrots '60 g carrots'
serves() { printf 'source: our dietitian\n%s\n' "$1" >"$work/content/tables/serves.yaml"; }
made() { grep -o '^[0-9]* posts*, [0-9]* published; [0-9]* made' "$work/log" | tail -n 1 | grep -o '[0-9]* made'; }

press "$work/out" "$work/content"
serves 'blueberry: 40 g'
"$dariole" press -C "$work/content" -o "$work/out" >"$work/log" 2>&1
[ "$(made)" = '1 made' ]
check $? 'a new serve makes the post that holds the food, not its dried form'
grep -q 'blueberries: one portion is over the limits, with 60 g, 150 % of the serve of 40 g' "$work/log"
check $? 'its portion is held against the serve'
grep -q 'our dietitian' "$work/out/fragments/berries.html"
check $? 'the page says whose serve it is'
"$dariole" impact -C "$work/content" --try 'blueberry serve 80 g' >"$work/told" 2>&1
grep -q 'strict: over -> within' "$work/told" && grep -q '^1 of 3 posts would change' "$work/told"
check $? 'a serve that is tried'
grep -q 'the serve of blueberry 1.50 -> 0.75' "$work/told"
check $? 'and how much of the serve the portion is, before and after'
serves 'blueberry: 80 g'
"$dariole" press -C "$work/content" -o "$work/out" >"$work/log" 2>&1
[ "$(made)" = '1 made' ] && ! grep -q 'berries.md.*portion-over' "$work/log"
check $? 'a changed serve makes that post again'
press "$work/clean" "$work/content"
same "$work/out" "$work/clean"
check $? 'as a press into an empty folder'
rm "$work/content/tables/serves.yaml"
printf 'food,grams,phase,source\nblueberries,40,strict,"a list, licensed"\nzzz,1,,\n' >"$work/content/tables/serves.csv"
"$dariole" press -C "$work/content" -o "$work/out" >"$work/log" 2>&1
grep -q 'serves.csv:3:.*the larder has no “zzz”' "$work/log" && grep -q '150 % of the serve of 40 g' "$work/log" &&
    grep -q 'a list, licensed' "$work/out/fragments/berries.html"
check $? 'the same from comma-separated values, with a finding for a name that is not known'
echo "1..$n"
