#!/bin/bash
# A writer's day: a new blog pressed at once, the hook before a commit, pressing on saving, proof from an
# editor, installing. Prints TAP.
set -u
cd "$(dirname "$0")/../.." || exit 3
root=$PWD
export DARIOLE=${DARIOLE:-$root/build/dariole}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
n=0
check() { # check STATUS NAME
    n=$((n + 1))
    if [ "$1" -eq 0 ]; then
        echo "ok $n - $2"
    else
        echo "not ok $n - $2"
        tail -n 5 "$work/log" | sed 's/^/# /'
    fi
}

"$DARIOLE" begin "$work/blog" >"$work/log" 2>&1
check $? 'begin makes a blog'
"$DARIOLE" press -C "$work/blog" -o "$work/out" >"$work/log" 2>&1
check $? 'which can be pressed at once'
"$DARIOLE" begin "$work/blog" >"$work/log" 2>&1
check $(($? != 3)) 'begin overwrites nothing'
post=posts/carrot-and-ginger-soup.md

# the hook looks at what is staged, not at the working copy
cd "$work" || exit 3
git init -q .
git config user.name tester
git config user.email tester@example.org
mkdir -p .git/hooks
install -m 755 "$root/tools/pre-commit" .git/hooks/pre-commit
export CONTENT=blog
git add blog
git commit -qm 'Begin' >"$work/log" 2>&1
check $? 'the hook lets a sound post pass'
cp "blog/$post" sound.md
sed -i 's/^portions:.*/colour: blue/' "blog/$post"
git add "blog/$post"
cp sound.md "blog/$post"
git commit -qm 'Broken as staged' >"$work/log" 2>&1
check $(($? == 0)) 'the hook stops a post that is broken as staged, though mended since'
grep -q 'key-unknown' "$work/log"
check $? 'and says why'
git add "blog/$post"
sed -i 's/^portions:.*/colour: blue/' "blog/$post"
sed -i '$a\
Eat it hot.' sound.md
git commit -q --allow-empty -m 'Sound as staged' >"$work/log" 2>&1
check $? 'the hook lets a post pass that is sound as staged, though broken since'
cp sound.md "blog/$post"
git add blog
git commit -qm 'Sound' >"$work/log" 2>&1
printf -- '---\ntitle: Two of them\ngathers: [carrot-and-ginger-soup]\n---\nBoth.\n' >blog/posts/two.md
git add -A && CONTENT=blog git -c user.name=w -c user.email=w@example.org commit -q -m two >"$work/log" 2>&1
git mv "blog/$post" blog/posts/other-name.md
CONTENT=blog git -c user.name=w -c user.email=w@example.org commit -q -m moved >"$work/log" 2>&1
check $(($? == 0)) 'the hook stops a post that goes while a round-up gathers it'
git mv blog/posts/other-name.md "blog/$post"
sed -i 's/^phase: .*/phase: lax/' blog/site.yaml
git commit -qam 'A setting that is wrong' >"$work/log" 2>&1
check $(($? == 0)) 'the hook stops a setting that is wrong'
git checkout -q HEAD -- blog/site.yaml
DARIOLE=nowhere/dariole git commit -q --allow-empty -m 'No program' >"$work/log" 2>&1
check $(($? == 0)) 'the hook lets nothing pass where there is no program'
CONTENT=nowhere git commit -q --allow-empty -m 'Elsewhere' >"$work/log" 2>&1
check $(($? == 0)) 'the hook lets nothing pass where it finds no posts to check'

# a site's Makefile: pages are made anew when their fragment did change
cat >Makefile <<MAKE
include $root/tools/dariole.mk
all: page.html
page.html: page.in \$(DARIOLE_OUT)/fragments/carrot-and-ginger-soup.html
	sed -e '/@RECIPE@/{r \$(DARIOLE_OUT)/fragments/carrot-and-ginger-soup.html' -e 'd}' page.in >\$@
MAKE
printf '<main>\n@RECIPE@\n</main>\n' >page.in
make DARIOLE="$DARIOLE" DARIOLE_CONTENT=blog >"$work/log" 2>&1 && grep -q '<article' page.html
check $? 'the Makefile fragment presses, and a bare make makes the page'
make DARIOLE="$DARIOLE" DARIOLE_CONTENT=blog >"$work/log" 2>&1 && ! grep -q '^sed' "$work/log"
check $? 'the Makefile fragment leaves a page whose fragment did not change'
cat >pattern.mk <<MAKE
include $root/tools/dariole.mk
all: carrot-and-ginger-soup.page
%.page: \$(DARIOLE_OUT)/fragments/%.html
	cp \$< \$@
MAKE
make -f pattern.mk DARIOLE="$DARIOLE" DARIOLE_CONTENT=blog >"$work/log" 2>&1 && [ -s build/recipes/fragments/carrot-and-ginger-soup.html ]
check $? 'make keeps a fragment that a pattern asked for'
sleep 0.1
sed -i 's/Boil/Simmer/; s/^title: .*/title: Another soup/' "blog/$post"
make DARIOLE="$DARIOLE" DARIOLE_CONTENT=blog >"$work/log" 2>&1 && grep -q '^sed' "$work/log" && grep -q 'Another soup' page.html
check $? 'the Makefile fragment makes a page whose fragment changed'
cp sound.md "blog/$post"
cd "$root" || exit 3

# an editor's buffer on standard input
# a post is named as it lies here, or in the content folder
(cd "$work" && "$DARIOLE" proof -C blog "$post" && "$DARIOLE" proof -C blog "blog/$post" && "$DARIOLE" worksheet -C blog "$post" | grep -q '^blog/') >"$work/log" 2>&1
check $? 'a post may be named within the content folder'
! "$DARIOLE" proof -C "$work/blog" posts/none.md >"$work/log" 2>&1 && grep -q 'proof: posts/none.md:' "$work/log"
check $? 'a post that is nowhere is named as it was given'
"$DARIOLE" proof -C "$work/blog" --format json - <"$work/sound.md" >"$work/found" 2>"$work/log"
check $? 'proof reads standard input'
jq -e 'type == "array"' "$work/found" >/dev/null 2>"$work/log"
check $? 'and answers in JSON'
sed 's/^title:.*/tittle: x/' "$work/sound.md" | "$DARIOLE" proof -C "$work/blog" - >"$work/log" 2>&1
check $(($? != 1)) 'proof of a broken buffer exits 1'
grep -q 'standard-input.md:2:1: error' "$work/log"
check $? 'with the line and column in the buffer'
"$DARIOLE" proof -C "$work/blog" --fail-on note >"$work/log" 2>&1
check $(($? != 1)) 'proof --fail-on note exits 1 for a note'

mkdir -p "$work/old/posts"
for i in 1 2 3; do sed "s/^title:.*/title: Soup $i/; s/^  - 1 tbsp lemon juice/  - 2 cloves garlic/" "$work/sound.md" >"$work/old/posts/soup-$i.md"; done
cp "$work/sound.md" "$work/old/posts"
"$DARIOLE" proof -C "$work/old" --by-cause >"$work/found" 2>"$work/log"
grep -q ' 3 over' "$work/found" && grep -q '^ *3 posts error *garlic over a limit' "$work/found"
check $? 'proof --by-cause tells what decides most posts'

# from the folder itself, paths lead from there
(cd "$work/blog" && "$DARIOLE" press -C . -o "$work/here" >"$work/log" 2>&1)
grep -q '^posts/carrot-and-ginger-soup.md:' "$work/log" && grep -q '"uri": *"posts/carrot-and-ginger-soup.md"' "$work/here/findings.sarif"
check $? 'press -C . names posts as they lie beneath'
(cd "$work/blog" && "$DARIOLE" proof -C . >"$work/log" 2>&1)
grep -q '^posts/carrot-and-ginger-soup.md:' "$work/log"
check $? 'and so does proof'

# press --watch presses again when a post is saved
sed 's/^title:.*/title: Second/' "$work/blog/$post" >"$work/blog/posts/second.md"
"$DARIOLE" press -C "$work/blog" -o "$work/watched" --watch >"$work/log" 2>&1 &
watcher=$!
for _ in $(seq 100); do [ -s "$work/watched/catalogue.json" ] && break; sleep 0.05; done
sleep 0.2
sed -i 's/^title:.*/title: Saved anew/' "$work/blog/$post"
for _ in $(seq 100); do grep -qs 'Saved anew' "$work/watched/catalogue.json" && break; sleep 0.05; done
grep -qs 'Saved anew' "$work/watched/catalogue.json"
check $? 'press --watch presses what is saved'
[ "$(grep -c 'carrot-and-ginger-soup.md:.*\[' "$work/log")" -ge 2 ] && [ "$(grep -c 'second.md:.*\[' "$work/log")" -eq 1 ]
check $? 'and prints the findings of that alone'
kill "$watcher"
wait "$watcher" 2>/dev/null

# installed, it finds its tables wherever it is called from
make -s install DESTDIR="$work/root" PREFIX=/opt/d >"$work/log" 2>&1
check $? 'make install'
(cd "$work" && "$work/root/opt/d/bin/dariole" weigh --measures au '1 tbsp tahini') >"$work/log" 2>&1
check $? 'the installed program weighs'
for f in share/man/man1/dariole.1 share/man/man5/dariole-post.5 share/dariole/tables/limits.yaml share/dariole/schemas/foods.schema.json share/dariole/dariole.mk; do
    [ -s "$work/root/opt/d/$f" ]
    check $? "installed: $f"
done
exit 0
