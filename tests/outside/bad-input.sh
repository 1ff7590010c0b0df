#!/bin/bash
# Input that no recipe should be: a finding each, the other posts still compile, the exit status as
# designed, and what was good before stays. Prints TAP.
set -u
. "$(dirname "$0")/lib/setting.sh"
good='---\ntitle: Soup\nportions: 2\ningredients:\n  - 200 g carrots\n  - 1 tsp salt\n---\n## Method\n\n1. Boil the carrots with the salt for 10 minutes.\n'

# bad NAME RULE: the file $work/c/bad.md must give that rule, and soup.md must compile beside it
bad() {
    rm -rf "$work/out"
    "$dariole" press -C "$work/c" -o "$work/out" >"$work/log" 2>&1
    status=$?
    check $((status != 1)) "$1: exit status 1 (was $status)"
    grep -qE "bad\.md:[0-9]+:[0-9]+: (error|warning): .*\[$2\]|bad\.md: .*\[$2\]" "$work/log"
    check $? "$1: [$2] with file and line"
    [ -s "$work/out/fragments/soup.html" ] && [ -s "$work/out/data/soup.json" ]
    check $? "$1: the other post compiles"
    "$dariole" proof -C "$work/c" >"$work/log" 2>&1
    [ $? -eq 1 ] && grep -qE "bad\.md:[0-9]+:[0-9]+: (error|warning): .*\[$2\]|bad\.md: .*\[$2\]" "$work/log" &&
        grep -q '^2 posts: ' "$work/log"
    check $? "$1: proof says so too, and proofs both"
}
mkdir -p "$work/c/posts"
printf '%b' "$good" >"$work/c/posts/soup.md"
b=$work/c/posts/bad.md
head='---\ntitle: Bad\nportions: 2\n'
list='ingredients:\n  - 200 g carrots\n'
tail='---\n## Method\n\n1. Boil the carrots.\n'

: >"$b"; bad 'zero bytes' file-empty
printf 'Just prose.\n' >"$b"; bad 'no front matter' front-matter-missing
printf '%b' "$head$list" >"$b"; bad 'unclosed front matter' front-matter-unclosed
printf '%b' "${head}${list}colour: red\n$tail" >"$b"; bad 'an unknown key' key-unknown
printf '%b' "${head}portions: 3\n$list$tail" >"$b"; bad 'a key twice' key-twice
printf '%b' "${head}claims: {a: 1}\n$list$tail" >"$b"; bad 'a wrong type' value-wrong-type
printf '%b' "---\nportions: 2\n$list$tail" >"$b"; bad 'no title' title-missing
printf '%b' "---\ntitle: Bad\n$list$tail" >"$b"; bad 'no yield' yield-missing
printf '%b' "$head$tail" >"$b"; bad 'no ingredients' ingredients-missing
printf '%b' "${head}\tsummary: x\n$list$tail" >"$b"; bad 'a tab' yaml-broken
yaml() { printf '%b' "$1" >"$b"; bad "$2" "$3"; }
yaml "${head}summary: A tart: with leeks\n$list$tail" 'a second colon' yaml-broken
grep -q 'in quotes: summary: "Two words' "$work/log"; check $? 'a second colon: says to quote'
yaml "${head}ingredients:\n- 200 g carrots\n  - 2 eggs\n$tail" 'a line further in' line-runs-on
grep -q 'bad.md:6:3: error: “- 2 eggs”' "$work/log"; check $? 'a line further in: told where its dash is'
yaml "${head}ingredients:\n  - For the base:\n    - 200 g carrots\n$tail" 'a part with a dash' value-wrong-type
yaml "${head}preptime: 5 min\n$list$tail" 'a key from habit' key-unknown
grep -q 'did you mean “times”' "$work/log"; check $? 'a key from habit: names ours'
printf '%b' "---\ntitle: \xff\xfe\nportions: 2\n$list$tail" >"$b"; bad 'bad UTF-8' not-utf-8
{ printf '%b' "${head}keywords: "; printf '[%.0s' {1..10000}; printf ']%.0s' {1..10000}; printf '%b' "\n$list$tail"; } >"$b"
bad 'nesting 10,000 deep' yaml-too-deep
{
    printf '%b' "$head"
    echo 'keywords:'
    echo '  a0: &a0 [x, x, x, x, x, x, x, x, x, x]'
    for i in $(seq 1 12); do
        p=$((i - 1))
        echo "  a$i: &a$i [*a$p, *a$p, *a$p, *a$p, *a$p, *a$p, *a$p, *a$p, *a$p]"
    done
    printf '%b' "$list$tail"
} >"$b"
bad 'an alias bomb' yaml-too-large
{ printf '%b' "$head$list$tail"; head -c 52428800 /dev/zero | tr '\0' 'x'; } >"$b"; bad 'a file of 50 MB' file-too-large
{ printf '%b' "$head$list---\n## Method\n\n"; printf '> %.0s' {1..20000}; echo 'deep'; printf '%.0s- ' {1..20000}; echo 'deep'; } >"$b"
timeout 60 "$dariole" press -C "$work/c" -o "$work/out" >"$work/log" 2>&1
check $(($? > 1)) 'a body nested 20,000 deep'
{ printf '%b' "$head"; echo 'ingredients:'; for i in $(seq 1 4000); do echo "  - $i g carrots or $((i % 50)) g leek (optional)"; done; printf '%b' "$tail"; } >"$b"
(ulimit -v 1000000; timeout 20 "$dariole" press -C "$work/c" -o "$work/out" >"$work/log" 2>&1)
check $(($? > 1)) '4,000 choices: in the time and the memory of a long recipe'
printf 'x' >"$b"; rm -rf "$work/out"
timeout 20 "$dariole" proof "$work/c/posts/nowhere.md" "$work/c/posts/soup.md" >"$work/log" 2>&1
[ $? -eq 3 ] && grep -q '^1 post: ' "$work/log" && grep -q 'nowhere.md: No such file' "$work/log"
check $? 'proof of a post that is not there: exit status 3, the other is proofed'

# what XML and HTML forbid is kept out of them, however it is written
printf '%b' '---\ntitle: "A \\uFFFE\\uFFFF\\u0008 ]]> soup"\npublished: 2026-01-01\nportions: 2\n' "$list$tail" '\nHi &#xFFFE; &#xFFFF; &#xFDD0; &#x1F; ]]> there \xef\xbf\xbe.\n' >"$b"
"$dariole" press -C "$work/c" -o "$work/out" >"$work/log" 2>&1
xmllint --noout "$work/out/feed.xml" >"$work/log" 2>&1
check $? 'noncharacters and control codes: the Atom feed stays XML'
iconv -f UTF-8 -t UTF-8 "$work/out/fragments/bad.html" >"$work/log" 2>&1 && ! grep -qP '[\x{FFFE}\x{FFFF}\x{FDD0}]' "$work/out/fragments/bad.html"
check $? 'noncharacters: the fragment stays UTF-8 and HTML'
printf 'address: "javascript:alert(1)//"\n' >"$work/c/site.yaml"
"$dariole" press -C "$work/c" -o "$work/out" >"$work/log" 2>&1
grep -q 'site.yaml:1:11: error: .*table-row-wrong' "$work/log" && ! grep -rq javascript: "$work/out/preview" "$work/out/feed.xml"
check $? 'an address of the site that is a script: told, and not published'
rm "$work/c/site.yaml"
printf 'x' >"$b"; rm -rf "$work/out"

# the last good output stays whole when a post breaks
printf '%b' "$head$list$tail" >"$b"
"$dariole" press -C "$work/c" -o "$work/out" >"$work/log" 2>&1
cp "$work/out/fragments/bad.html" "$work/kept.html"
printf '%b' "$head$list" >"$b"
"$dariole" press -C "$work/c" -o "$work/out" >"$work/log" 2>&1
check $(($? != 1)) 'a post that breaks: exit status 1'
cmp -s "$work/out/fragments/bad.html" "$work/kept.html"
check $? 'a post that breaks: its last good output stays'

# wrong use is 2, a machine that fails is 3
"$dariole" press --nonsense >"$work/log" 2>&1; check $(($? != 2)) 'an unknown option is wrong use'
"$dariole" nonsense >"$work/log" 2>&1; check $(($? != 2)) 'an unknown verb is wrong use'
"$dariole" press -C "$work/nowhere" -o "$work/out" >"$work/log" 2>&1; check $(($? != 3)) 'no such content folder'
"$dariole" press -C "$work/c" -o /proc/nowhere/out >"$work/log" 2>&1; check $(($? != 3)) 'an output folder that cannot be made'
"$dariole" proof -C "$work/c" "$work/c/posts/none.md" >"$work/log" 2>&1; check $(($? != 3)) 'proof of a post that is not there'
"$dariole" weigh --measures mars '1 cup water' >"$work/log" 2>&1; check $(($? != 2)) 'measures of nowhere'
"$dariole" proof -C "$work/c" --fail-on none >"$work/log" 2>&1; check $? 'a fail level of none: exit status 0'
exit 0
