#!/bin/bash
# What a hostile post, table or file name says reaches a terminal as words alone: no escape, no bell, no
# turned line, from any verb, on either stream.
set -u
cd "$(dirname "$0")/../.." || exit 3
dariole=$PWD/build/dariole
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DARIOLE_TABLES=$PWD/content/tables XDG_CACHE_HOME=$work/cache
n=0
mkdir -p "$work/blog/posts" "$work/blog/tables/foods" "$work/other"
bad='\e[31mX\a\u009b2JY\u202eZ\r'
raw=$(printf '\033[31mX\aY\302\2332J\342\200\256')
cat >"$work/blog/posts/bad.md" <<POST
---
title: "Soup $bad"
summary: "$bad"
portions: 2
measures: us
author: "$bad"
ingredients:
  "Part $bad":
    - "1 cup rice $bad"
    - "2 cups zorblat $bad"
    - "1 cup milk or $bad"
claims: ["vegan $bad", vegan]
"key$bad": 1
answers: {image-missing: "$bad"}
---
## Method $raw

1. Stir the rice $raw for 5 minutes. ![$raw](a.png)
POST
cp "$work/blog/posts/bad.md" "$work/blog/posts/bad$raw.md"
cat >"$work/blog/tables/foods/$raw.yaml" <<TABLE
zorblat:
  name: "zorblat $bad"
  names: ["zorb $bad"]
  class: "$bad"
  forms: {"$bad": {density: {mid: 1, source: "$bad", basis: practice}}}
TABLE
printf 'phases:\n  strict:\n    groups:\n      lactose: {grams: 0.01, scope: portion, source: "%s", basis: practice}\n' "$bad" >"$work/other/limits.yaml"
clean() { # clean NAME COMMAND...
    local name=$1
    shift
    "$@" >"$work/said" 2>&1 </dev/null
    n=$((n + 1))
    if [ -s "$work/said" ] && ! grep -qaP '[\x00-\x08\x0b-\x1f\x7f]|\xc2[\x80-\x9f]|\xe2\x80[\x8e\x8f\xa8-\xae]|\xe2\x81[\xa6-\xa9]' "$work/said"; then
        echo "ok $n - $name"
    else
        echo "not ok $n - $name"
        grep -aP '[\x00-\x08\x0b-\x1f\x7f]|\xc2[\x80-\x9f]|\xe2\x80[\x8e\x8f\xa8-\xae]' "$work/said" | head -n 4 | cat -v | cut -c 1-200 | sed 's/^/# /'
    fi
}
cd "$work" || exit 3
clean proof "$dariole" proof -C blog
clean 'proof --explain of a post' "$dariole" proof -C blog --explain blog/posts/bad.md
clean press "$dariole" press -C blog -o out
clean 'press --why' "$dariole" press -C blog -o out --anew --why
clean weigh "$dariole" weigh -C blog "1 cup $raw rice" "$raw" "2 cups zorb $raw"
clean 'weigh --post' "$dariole" weigh -C blog --post blog/posts/bad.md
clean larder "$dariole" larder -C blog zorblat
clean 'larder of words' "$dariole" larder -C blog "$raw"
clean worksheet "$dariole" worksheet -C blog blog/posts/bad.md
clean 'worksheet --steps' "$dariole" worksheet -C blog --steps blog/posts/bad.md
clean impact "$dariole" impact -C blog --against other
clean 'impact --try' "$dariole" impact -C blog --try "$raw fructan 1 g"
clean sitting "$dariole" sitting -C blog bad "bad$raw"
clean 'no such post' "$dariole" worksheet -C blog "$raw.md"
clean 'no such option' "$dariole" press "--$raw"
clean 'no such rule' "$dariole" rules "$raw"
clean 'no such verb' "$dariole" "$raw"
for verb in proof weigh worksheet larder impact sitting begin; do clean "no such option of $verb" "$dariole" "$verb" "--$raw" "$raw"; done
rm -rf out
mkdir -p "out/fragments" && : >"out/fragments/bad.html" && : >"out/fragments/$raw.html"
clean 'a first press' "$dariole" press -C blog -o out
"$dariole" press -C blog -o out -q --take-over >/dev/null 2>&1
rm -rf out/.dariole && printf 'x' >>out/fragments/bad.html
clean 'what nobody knows' "$dariole" press -C blog -o out -q --take-over
echo "1..$n"
