#!/bin/bash
# Round-ups and menus through presses: made again when a post that they name changes, comes or goes, and
# then just as a clean press makes them; nothing to do where nothing changed.
set -u
. "$(dirname "$0")/lib/setting.sh"
posts=$work/content/posts
mkdir -p "$posts"
post() { # post NAME FIRST-KEYS LINE
    printf -- '---\ntitle: The %s\npublished: 2026-01-02\nserves: 2\n%singredients:\n  - %s\n---\n## Method\n1. Boil it for 10 minutes.\n' \
        "$1" "$2" "$3" >"$posts/$1.md"
}
post rice '' '150 g rice'
post polenta 'slug: yellow-polenta
' '100 g polenta'
post carrots 'eaten-with: [rice]
' '200 g carrots'
post alone '' '100 g quinoa'
printf -- '---\ntitle: Three plain suppers\npublished: 2026-02-01\nclaims: [vegan]\ngathers: [rice, yellow-polenta, later]\n---\nPlain.\n' >"$posts/plain.md"
again() { # again NAME N: a press that makes N posts, and leaves what a clean one does
    press "$work/one" "$work/content" --fail-on none --why
    local ok=$?
    got=$(grep '^content/posts/[a-z]*.md: ' "$work/log" | grep -vc ': other posts fit beside it$')
    rm -rf "$work/clean"
    press "$work/clean" "$work/content" --fail-on none
    [ "$ok" -eq 0 ] && [ "$got" -eq "$2" ] && same "$work/one" "$work/clean"
    check $? "$1"
}
again 'a first press makes all' 5
again 'then nothing' 0
post rice '' '160 g rice'
again 'a member changes: it, its round-up, and the menu that names it' 3
post alone '' '110 g quinoa'
again 'a post that nobody names changes: it alone' 1
post later '' '50 g millet'
again 'a member comes: it and its round-up' 2
post polenta 'slug: golden
' '100 g polenta'
again 'a member goes by another slug: it and its round-up' 2
rm "$posts/later.md"
again 'a member goes: its round-up' 1
post rice 'draft: yes
' '160 g rice'
again 'a member becomes a draft' 3
mkdir -p "$work/content/tables"
printf 'phases:\n  strict:\n    groups:\n      fructan: {grams: 0.19, scope: food, source: "a test", basis: practice}\n' >"$work/content/tables/limits.yaml"
press "$work/one" "$work/content" --fail-on none
rm -rf "$work/clean"
press "$work/clean" "$work/content" --fail-on none && same "$work/one" "$work/clean"
check $? 'a limit reaches a round-up through its members'

# a member that breaks the promise in one choice alone
printf -- '---\ntitle: The alone\npublished: 2026-01-02\nserves: 2\ningredients:\n  - 110 g quinoa\n  - 2 tbsp olive oil or butter\n---\n## Method\n1. Boil the quinoa for 10 minutes and stir in the oil or butter.\n' >"$posts/alone.md"
sed 's/gathers: .*/gathers: [alone, carrots]/; s/title: .*/title: Two plain suppers/' "$posts/plain.md" >"$posts/two.md"
"$dariole" proof -C "$work/content" posts/two.md >"$work/told" 2>&1
grep -q 'two.md:.*The alone:.*vegan.*butter.*\[claim-on-choice\]' "$work/told"
check $? 'a promise that one choice of one member breaks is told, with the member and the choice'
again 'and the rest stands' 2

# links between posts lead to the slugs that they have, and dead ones are told
rm -rf "$work/content/tables"
post rice '' '160 g [rice](rice.md)'
printf 'With [polenta](polenta.md), [*later*](../posts/later.md#notes) or [that](https://example.org/a.md).\n' >>"$posts/rice.md"
linked() { # linked NAME WANTED: what the page of rice links to, and what is told
    press "$work/one" "$work/content" --fail-on none
    rm -rf "$work/clean"
    "$dariole" press -C "$work/content" -o "$work/clean" --fail-on none >/dev/null 2>"$work/told"
    got="$(grep -v dl-beside "$work/one/fragments/rice.html" | grep -o 'href="[^"#]*html[^"]*"' | sort -u | cut -d'"' -f2 | tr '\n' ' ')$(grep -o 'rice.md:[0-9:]*: warning: the link.*leads to no post' "$work/told")"
    same "$work/one" "$work/clean" && [ "$got" = "$2" ]
    check $? "$1"
    [ "$got" = "$2" ] || echo "# $got"
}
linked 'a link to a file leads to its slug; a dead one is told' 'golden.html later.html#notes rice.html rice.md:10:39: warning: the link “../posts/later.md#notes” leads to no post'
post later '' '50 g millet'
linked 'the post comes: the link is no longer dead' 'golden.html later.html#notes rice.html '
post later 'slug: much-later
' '50 g millet'
linked 'it takes another slug: the link leads there' 'golden.html much-later.html#notes rice.html '
post later 'draft: yes
' '50 g millet'
linked 'it becomes a draft: the link is dead' 'golden.html later.html#notes rice.html rice.md:10:39: warning: the link “../posts/later.md#notes” leads to no post'

# a post that cannot be read keeps its page; mended, it names its neighbours as they are by then
beside=$(grep -l dl-beside "$work/one"/fragments/*.html | head -n 1)
broken=$posts/$(basename "$beside" .html).md
named=$(grep -o 'dl-beside.*' "$beside" | grep -o 'href="[^"]*' | head -n 1 | sed 's/.*\///; s/.*"//; s/\.html$//')
cp "$broken" "$work/kept.md"
sed -i '2s/^/[/' "$broken"
sed -i 's/^title: /title: Now /' "$posts/$named.md"
press "$work/one" "$work/content" --fail-on none
cp "$work/kept.md" "$broken"
press "$work/one" "$work/content" --fail-on none
rm -rf "$work/clean"
press "$work/clean" "$work/content" --fail-on none
same "$work/one" "$work/clean" && grep -q 'dl-beside.*>Now ' "$beside"
check $? 'a post that is mended names its neighbours by their new titles'
echo "1..$n"
