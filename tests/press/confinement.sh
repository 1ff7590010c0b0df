#!/bin/bash
# A press and a proof confine themselves to the folders that they were given. Copies of the program with
# one check taken out show that the confinement holds by itself: unconfined they reach out of OUT and of the
# content folder, confined they do not. Where the kernel has no Landlock, that is said and passed over.
set -u
. "$(dirname "$0")/lib/setting.sh"
unset DARIOLE_UNCONFINED
make_content "$work/content" 4
press "$work/clean" "$work/content"
check $? 'the content compiles'
built=$(dirname "$dariole")
libraries=$(pkg-config --libs yaml-0.1 libcmark jansson libxxhash libseccomp)

# without CHECK FILE SED: a copy of the program whose file was changed so
without() {
    sed -E "$3" "src/$2" >"$work/changed.c"
    cmp -s "src/$2" "$work/changed.c" && return 1
    # shellcheck disable=SC2086 # a list of words
    cc -std=c11 -D_POSIX_C_SOURCE=200809L -Isrc -w -O1 -o "$work/$1" "$work/changed.c" "$built/main.o" \
        "$built/libdariole.a" -Wl,--build-id $libraries -lunistring -lm -pthread >"$work/log" 2>&1
}
cc -O1 -o "$work/forge" tests/press/lib/forge.c -lxxhash
without slugs press/outputs.c '/^outputs_slug\(/,/^}/c outputs_slug(struct slice slug) { return slug.length > 0; }'
check $? 'a copy that believes every slug'
without beneath press/beneath.c '/^beneath_open\(/,/^}/c beneath_open(int folder, const char *path, int flags) { return openat(folder, path, flags | O_CLOEXEC); }
/^beneath_stat\(/,/^}/c beneath_stat(int folder, const char *path, struct stat *s) { return fstatat(folder, path, s, 0) == 0; }'
check $? 'a copy that follows every path'

files=no calls=no
"$dariole" --version -v >"$work/held"
grep -q '^confined: files by Landlock' "$work/held" && files=yes
grep -q '^confined: calls by seccomp' "$work/held" && calls=yes
echo "# files are confined: $files; calls: $calls"

# removes COMMAND...: whether a press with a forged manifest removes a file beside OUT
removes() {
    rm -rf "$work/out" "$work/victim"
    mkdir "$work/victim"
    cp -r --preserve=timestamps "$work/clean" "$work/out"
    echo 'of somebody else' >"$work/victim/x.json"
    "$work/forge" manifest "$work/out/.dariole/manifest" "$work/victim/x" 'data/*.json'
    rm "$work/out/.dariole/ledger"
    "$@" press -C "$work/content" -o "$work/out" -q >"$work/log" 2>&1
    [ ! -e "$work/victim/x.json" ]
}
removes env DARIOLE_UNCONFINED=1 "$work/slugs"
check $? 'unconfined, the copy removes a file beside OUT'
if [ "$files" = yes ]; then
    ! removes "$work/slugs" && same "$work/out" "$work/clean"
    check $? 'confined, it does not, and makes what it should'
fi

# publishes COMMAND...: whether a picture that is a link gets a secret published
mkdir -p "$work/own/posts" "$work/own/images" "$work/secrets"
printf '\x89PNG\r\n\x1a\nof somebody else' >"$work/secrets/y.png"
ln -s "$work/secrets/y.png" "$work/own/images/link.png"
sed 's|^title: .*|title: A bowl\nimage: {file: images/link.png, alt: A bowl.}|; /^image:/{/A bowl/!d}; /^slug:/d' content/posts/quinoa-porridge.md >"$work/own/posts/bowl.md"
publishes() {
    rm -rf "$work/ownout"
    "$@" press -C "$work/own" -o "$work/ownout" -q >"$work/log" 2>&1
    grep -rqs 'of somebody else' "$work/ownout"
}
publishes env DARIOLE_UNCONFINED=1 "$work/beneath"
check $? 'unconfined, the copy publishes a file from outside the content folder'
# opens COMMAND...: whether proof opens it
opens() {
    strace -f -qq -o "$work/trace" "$@" proof -C "$work/own" >"$work/log" 2>&1
    grep -q 'link.png", [^)]*) = [0-9]' <(grep -v -e O_PATH -e newfstatat "$work/trace")
}
if [ "$files" = yes ]; then
    ! publishes "$work/beneath"
    check $? 'confined, it does not'
    if command -v strace >/dev/null 2>&1; then
        opens env DARIOLE_UNCONFINED=1 "$work/beneath" && ! opens "$work/beneath"
        check $? 'nor does proof read it'
    fi
fi

# what the confinement must leave as it was
rm -rf "$work/shared" "$work/linked" && mkdir -p "$work/shared/foods" "$work/linked/tables"
mkdir "$work/linked/posts" && cp content/posts/quinoa-porridge.md "$work/linked/posts/"
printf 'phases:\n  strict:\n    groups:\n      fructan: {grams: 0.001, source: "a test", basis: practice}\n' >"$work/shared/limits.yaml"
printf "foods:\n  zorblat: {name: zorblat, class: other, forms: {whole: {}}}\n" >"$work/shared/foods/own.yaml"
ln -s "$work/shared/limits.yaml" "$work/linked/tables/limits.yaml"
ln -s ../../shared/foods "$work/linked/tables/foods"
press "$work/linkedout" "$work/linked" && [ "$("$dariole" larder -C "$work/linked" zorblat | grep -c zorblat)" -gt 0 ] && grep -q 'the limit of 0\.001 g' "$work/linkedout/findings.sarif"
check $? 'tables that are links to other folders are read'
"$dariole" proof --fail-on none -C "$work/linked" "$work/own/posts/bowl.md" content/posts/nettle-soup.md >"$work/log" 2>&1 && grep -q nettle-soup "$work/log" && grep -q bowl.md "$work/log"
check $? 'proof reads posts that lie elsewhere'
(cd "$work/own/posts" && cp "$root/content/posts/quinoa-porridge.md" here.md && "$dariole" proof --fail-on none -C "$work/linked" here.md >"$work/log" 2>&1)
check $? "and those that lie here"
rm "$work/own/posts/here.md"
env XDG_CACHE_HOME="$work/newcache" "$dariole" proof --fail-on none -C "$work/linked" >"$work/log" 2>&1
[ "$(find "$work/newcache/dariole" -name 'tables-*' | wc -l)" -eq 2 ]
check $? 'the tables are kept in a cache folder that was not there'
mkdir "$work/within" && cp -r "$work/content" "$work/within/" && press "$work/within/content/public" "$work/within/content" && press "$work/within/content/public" "$work/within/content" && same "$work/within/content/public" "$work/clean"
check $? 'OUT may lie in the content folder'
rm -rf "$work/watched"
"$dariole" press -C "$work/linked" -o "$work/watched/site" --watch >"$work/log" 2>&1 &
watcher=$!
for _ in $(seq 200); do [ -s "$work/watched/site/dariole.css" ] && break; sleep 0.05; done
sleep 0.2
rm -r "$work/watched" && sed -i 's/^title:.*/title: Saved anew/' "$work/linked/posts/quinoa-porridge.md"
for _ in $(seq 200); do grep -qs 'Saved anew' "$work/watched/site/catalogue.json" && break; sleep 0.05; done
grep -qs 'Saved anew' "$work/watched/site/catalogue.json"
check $? '--watch makes an OUT that was removed'
kill -TERM "$watcher"
wait "$watcher"
[ $? -eq 143 ]
check $? 'and ends when it is asked to'
if command -v strace >/dev/null 2>&1; then # a kernel with neither
    rm -rf "$work/out"
    strace -f -qq -o "$work/trace" -e trace=landlock_create_ruleset,seccomp,prctl \
        -e inject=landlock_create_ruleset,seccomp,prctl:error=ENOSYS "$dariole" press -C "$work/content" -o "$work/out" -q >"$work/log" 2>&1
    grep -q ENOSYS "$work/trace" && same "$work/out" "$work/clean"
    check $? 'where the kernel can confine nothing, all is made as ever'
    strace -f -qq -o "$work/trace" -e inject=landlock_create_ruleset,seccomp,prctl:error=ENOSYS "$dariole" --version -v >"$work/log" 2>&1
    grep -q '^confined: no files' "$work/log" && grep -q '^confined: no calls' "$work/log"
    check $? 'and --version -v says so'
fi
echo "1..$n"
