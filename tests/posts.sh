#!/bin/bash
# Posts and what they must give: beside tests/posts/NAME.md stand NAME.findings (what `proof` says),
# and where the output matters NAME.html (the fragment) and NAME.json (the data). Prints TAP.
# UPDATE=1 writes the expected files anew; look at them before you commit.
set -u
cd "$(dirname "$0")/posts" || exit 3
dariole=../../${DARIOLE:-build/dariole}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
n=0

# same EXPECTED GOT NAME
same() {
    n=$((n + 1))
    [ -n "${UPDATE:-}" ] && cp "$2" "$1"
    if cmp -s "$1" "$2"; then
        echo "ok $n - $3"
    else
        echo "not ok $n - $3"
        diff -u "$1" "$2" 2>&1 | head -n 20 | sed 's/^/# /'
    fi
}

export DARIOLE_TABLES=$PWD/../../content/tables XDG_CACHE_HOME=$work/cache NO_COLOR=1
"$dariole" press -C . -o "$work/site" -j 1 >/dev/null 2>"$work/log"
for post in *.md; do
    name=${post%.md}
    "$dariole" proof -C . "$post" >"$work/findings" 2>"$work/err"
    status=$?
    echo "exit $status" >>"$work/findings"
    same "$name.findings" "$work/findings" "findings of $name"
    [ -f "$name.html" ] && same "$name.html" "$work/site/fragments/$name.html" "fragment of $name"
    [ -f "$name.json" ] && same "$name.json" "$work/site/data/$name.json" "data of $name"
done
exit 0
