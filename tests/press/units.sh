#!/bin/bash
# A unit that stands in no line of a post, but in the words of its remedies, changes: the post changes
# with it, as in a press into an empty folder.
set -u
. "$(dirname "$0")/lib/setting.sh"
mkdir -p "$work/content/posts" "$work/content/tables"
unit() { printf 'regions:\n  au:\n    units:\n      %s: {mid: %s, source: "a test", basis: practice}\n' "$1" "$2" >"$work/content/tables/measures.yaml"; }

# over LINE PORTIONS WORD: a post over a limit, whose remedy says less of the line's food
over() {
    cat >"$work/content/posts/dish.md" <<POST
---
title: A dish
portions: $2
measures: au
ingredients:
  - $1
  - 1 tsp salt
---
## Method

1. Stir the $3 with the salt.
POST
    rm -rf "$work/out"
    unit tbsp 20
    press "$work/out" "$work/content"
    cp "$work/out/findings.sarif" "$work/before"
    unit tbsp 17
    press "$work/out" "$work/content"
    ! cmp -s "$work/before" "$work/out/findings.sarif"
    check $? "$1 for $2: the finding speaks of the spoons of today"
    rm -rf "$work/clean"
    press "$work/clean" "$work/content"
    same "$work/out" "$work/clean"
    check $? "$1 for $2: as a press into an empty folder"
}

over '1½ cups cooked chickpeas' 6 chickpeas
over '1 cup cooked chickpeas' 4 chickpeas
over '1 cup cooked lentils' 3 lentils
exit 0
