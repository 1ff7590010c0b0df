#!/bin/bash
# What is wrong in a blog's own tables is told where it stands, by the name of the row, with what was
# read, what is wanted and what mends it: tests/tables/KIND.yaml against KIND.findings. UPDATE=1
# writes the latter anew. Prints TAP.
set -u
cd "$(dirname "$0")/../.." || exit 3
dariole=$PWD/${DARIOLE:-build/dariole}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DARIOLE_TABLES=$PWD/content/tables XDG_CACHE_HOME=$work/cache
n=0
for table in tests/tables/*.yaml; do
    kind=$(basename "$table" .yaml)
    case $kind in
    foods) own=tables/foods/own.yaml ;;
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
    n=$((n + 1))
    if [ "$status" -eq 1 ] && diff "tests/tables/$kind.findings" "$work/findings" >"$work/diff"; then
        echo "ok $n - $kind"
    else
        echo "not ok $n - $kind (status $status)"
        sed 's/^/# /' "$work/diff" "$work/errors" | head -n 20
    fi
done

# every verb that reads the tables tells it
rm -rf "$work/c"
mkdir -p "$work/c/tables" "$work/c/posts"
cp tests/tables/limits.yaml "$work/c/tables/limits.yaml"
printf -- '---\ntitle: Soup\nportions: 2\ningredients: [200 g carrots]\n---\n## Method\n\n1. Boil the carrots.\n' >"$work/c/posts/soup.md"
for verb in "press -o $work/out" proof weigh 'larder carrot' "worksheet $work/c/posts/soup.md" "impact --against $PWD/content/tables"; do
    read -r name rest <<<"$verb"
    read -ra more <<<"$rest"
    "$dariole" "$name" -C "$work/c" "${more[@]}" >"$work/all" 2>&1 </dev/null
    n=$((n + 1))
    if grep -q 'limits.yaml:7:30: error: .*strict/fructan' "$work/all"; then
        echo "ok $n - $name tells what is wrong in the tables"
    else
        echo "not ok $n - $name tells what is wrong in the tables"
        head -n 3 "$work/all" | sed 's/^/# /'
    fi
done
