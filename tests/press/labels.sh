#!/bin/bash
# A food by its packet stands in a post as any food: in the verdict, the allergens, the claims, the worksheet,
# the nutrition; a changed packet, and a changed figure of what is in it, make the posts that hold it again
# and no others, as a press into an empty folder would. Prints TAP.
set -u
. "$(dirname "$0")/lib/setting.sh"
mkdir -p "$work/content/posts" "$work/content/tables/foods"
cp tests/labels/tables/foods/ingredients.yaml "$work/content/tables/foods/a.yaml"
post() { # post SLUG LINE CLAIMS
    printf -- '---\ntitle: %s\nportions: 1\nmeasures: uk\nclaims: [%s]\ningredients:\n  - %s\n  - 100 g water\n---\n## Method\n\n1. Stir.\n' "$1" "$3" "$2" >"$work/content/posts/$1.md"
}
post broth '10 g Brook stock' 'vegan, gluten-free'
post strong '60 g Brook stock' 'vegan, egg-free'
post sweet '10 g sugar' 'vegan'
packet() { sed "s/onion powder (3 %)/onion powder ($1)/" tests/labels/stock.yaml >"$work/content/tables/foods/b.yaml"; }
made() { grep -o '^[0-9]* posts*, [0-9]* published; [0-9]* made' "$work/log" | tail -n 1 | grep -o '[0-9]* made'; }
again() { "$dariole" press -C "$work/content" -o "$work/out" >"$work/log" 2>&1; }

packet '3 %'
again
# 10 g hold at most 3.5 % x 30 % of it = 0.105 g of fructan; 60 g at the least 0.15, 0.3 and 0.45 g
! grep -q 'broth.md.*portion' "$work/log"
check $? 'a little of it is within'
grep -q 'strong.md:.*Brook stock: one portion is over the limits, with 0.3 g of fructan' "$work/log"
check $? 'much of it is over by the least that the packet lets be'
page=$work/out/fragments/broth.html
grep -q 'celery' "$page" && grep -q 'packet, March 2026' "$page"
check $? 'the page names its allergens, and the packet among the sources'
! grep -q 'broth.md.*claim' "$work/log"
check $? 'what the packet claims holds'
grep -q 'strong.md.*egg-free.*claim' "$work/log"
check $? 'what it may contain is told of a claim'
"$dariole" worksheet -C "$work/content" "$work/content/posts/broth.md" >"$work/sheet" 2>&1
grep -q 'at most' "$work/sheet" && grep -q 'the most that its list lets be' "$work/sheet"
check $? 'the worksheet says what its bound rests on'
! grep -q '"calories"' "$work/out/data/broth.json"
check $? 'no energy where the packet gives none'

packet '6 %'
again
[ "$(made)" = '2 made' ]
check $? "a changed packet makes the posts that hold it ($(made))"
press "$work/clean" "$work/content"
same "$work/out" "$work/clean"
check $? 'as a press into an empty folder'
cp -r "$work/content/tables" "$work/against"
sed -i 's/onion powder (6 %)/onion powder (0.2 %)/; s/onion powder (0.2 %), CELERY seed, sugar/CELERY seed, sugar, onion powder (0.2 %)/' "$work/against/foods/b.yaml"
"$dariole" impact -C "$work/content" --against "$work/against" >"$work/told" 2>&1
cp "$work/told" "$work/log"
grep -q 'because of: food:brook-stock' "$work/told" && grep -q '^2 of 3 posts would change' "$work/told"
check $? 'impact tells what another packet does'
sed -i 's/fructan: {low: 10, mid: 20, high: 30/fructan: {low: 1, mid: 2, high: 3/' "$work/content/tables/foods/a.yaml"
again
[ "$(made)" = '2 made' ]
check $? "a changed figure of an ingredient makes them again ($(made))"
! grep -q 'strong.md.*portion-over' "$work/log"
check $? 'and their verdict follows it'
rm "$work/content/tables/foods/b.yaml"
again
grep -q 'broth.md.*Brook stock.*food-unknown' "$work/log"
check $? 'without its packet the food is unknown'
