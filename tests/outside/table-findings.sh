#!/bin/bash
# What is wrong in a blog's own tables is told where it stands, by the name of the row, with what was
# read, what is wanted and what mends it: tests/tables/KIND.yaml against KIND.findings. UPDATE=1
# writes the latter anew. Prints TAP.
set -u
. "$(dirname "$0")/lib/setting.sh"
for table in tests/tables/*.yaml; do
    kind=$(basename "$table" .yaml)
    case $kind in
    foods | labels) own=tables/foods/own.yaml ;;
    site | list) own=site.yaml ;;
    *) own=tables/$kind.yaml ;;
    esac
    rm -rf "$work/c"
    mkdir -p "$work/c/posts" "$work/c/tables/foods"
    cp "$table" "$work/c/$own"
    (cd "$work" && "$dariole" proof -C c) >"$work/all" 2>"$work/errors"
    status=$?
    grep -v '^  *|\|^ *[0-9]* |\|\^' "$work/all" >"$work/findings"
    [ -n "${UPDATE:-}" ] && cp "$work/findings" "tests/tables/$kind.findings"
    diff "tests/tables/$kind.findings" "$work/findings" >"$work/log"
    same=$?
    cat "$work/errors" >>"$work/log"
    [ "$status" -eq 1 ] && [ "$same" -eq 0 ]
    check $? "$kind (status $status)"
done

# every verb that reads the tables tells it
rm -rf "$work/c"
mkdir -p "$work/c/tables" "$work/c/posts"
cp tests/tables/limits.yaml "$work/c/tables/limits.yaml"
printf -- '---\ntitle: Soup\nportions: 2\ningredients: [200 g carrots]\n---\n## Method\n\n1. Boil the carrots.\n' >"$work/c/posts/soup.md"
for verb in "press -o $work/out" proof weigh 'larder carrot' "worksheet $work/c/posts/soup.md" "impact --against $PWD/content/tables"; do
    read -r name rest <<<"$verb"
    read -ra more <<<"$rest"
    "$dariole" "$name" -C "$work/c" "${more[@]}" >"$work/log" 2>&1 </dev/null
    grep -q 'limits.yaml:7:24: error: .*strict/fructan' "$work/log"
    check $? "$name tells what is wrong in the tables"
done
