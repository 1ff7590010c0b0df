#!/bin/bash
# A folder, a pipe or a link to nothing in place of a table: told at once with exit status 3, by every
# verb, and the last good output stays whole. Prints TAP.
set -u
. "$(dirname "$0")/lib/setting.sh"
mkdir -p "$work/c/posts" "$work/c/tables/foods"
cat >"$work/c/posts/soup.md" <<'POST'
---
title: Soup
portions: 2
ingredients: [200 g carrots, 1 tsp salt]
---
## Method

1. Boil the carrots with the salt for 10 minutes.
POST
"$dariole" press -C "$work/c" -o "$work/out" -q 2>"$work/log"
cp -r "$work/out" "$work/kept"
for file in tables/words.yaml tables/measures.yaml tables/limits.yaml tables/cooking.yaml tables/cautions.yaml tables/sources.yaml tables/swaps.yaml tables/serves.yaml tables/serves.csv tables/foods/own.yaml site.yaml; do
    for kind in folder pipe link; do
        case $kind in
        folder) mkdir "$work/c/$file" ;;
        pipe) mkfifo "$work/c/$file" ;;
        link) ln -s "$work/nowhere" "$work/c/$file" ;;
        esac
        for verb in press proof weigh larder worksheet; do
            case $verb in
            press) set -- press -C "$work/c" -o "$work/out" -q ;;
            larder) set -- larder -C "$work/c" carrot ;;
            worksheet) set -- worksheet -C "$work/c" "$work/c/posts/soup.md" ;;
            *) set -- "$verb" -C "$work/c" ;;
            esac
            timeout 20 "$dariole" "$@" >/dev/null 2>"$work/log" </dev/null
            status=$?
            [ "$status" -eq 3 ] && grep -q "$file cannot be read: " "$work/log" &&
                diff -r -x .dariole "$work/out" "$work/kept" >"$work/diff"
            check $? "$verb, a $kind as $file (status $status)"
        done
        rm -rf "${work:?}/c/$file"
    done
done
