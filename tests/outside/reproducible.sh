#!/bin/bash
# The same source gives the same bytes of the program and of all that is installed, in whatever folder it is
# built, and the same posts give the same outputs. Nothing made says in which folder it was made. Prints TAP.
set -u
cd "$(dirname "$0")/../.." || exit 3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
n=0
check() { # check STATUS NAME
    n=$((n + 1))
    if [ "$1" -eq 0 ]; then
        echo "ok $n - $2"
    else
        echo "not ok $n - $2"
        [ -f "$work/log" ] && tail -n 5 "$work/log" | cut -c 1-300 | sed 's/^/# /'
    fi
}

# build FOLDER SETTING...: a copy of the source, built there without optimisation and installed
build() {
    mkdir -p "$1"
    cp -R Makefile src tools content schemas "$1"
    (cd "$1" && shift && env -u MAKEFLAGS "$@" make -s -j2 CC="${CC:-cc}" CFLAGS='-O0 -g' all &&
        make -s CC="${CC:-cc}" CFLAGS='-O0 -g' DESTDIR="$PWD/root" PREFIX=/usr install) >"$work/log" 2>&1
}
one=$work/one two=$work/a/much/longer/name/of/a/folder
build "$one" TZ=UTC LC_ALL=C && build "$two" TZ=Pacific/Auckland LC_ALL=C.UTF-8 HOME=/nonexistent
check $? 'the source builds in two folders'
cmp "$one/build/dariole" "$two/build/dariole" >"$work/log" 2>&1
check $? 'both builds are the same bytes'
diff -r "$one/root" "$two/root" >"$work/log" 2>&1
check $? 'so is all that is installed'
! grep -rlF "$work" "$one/root" >"$work/log"
check $? 'nothing installed says where it was built'

# the same site, pressed in two places by two users' settings
for place in "$one" "$two"; do
    mkdir -p "$place/blog" && cp -R content "$place/blog/content"
    # a mistake in a table of the site's own and one in those of the program are told in findings
    printf 'foods:\n  bad: {name: bad}\n' >"$place/blog/content/tables/foods/bad.yaml" 2>/dev/null
    (cd "$place/blog" && env HOME="$place" XDG_CACHE_HOME="$place/cache" TMPDIR="$place" DARIOLE_TABLES="$place/root/usr/share/dariole/tables" \
        "$place/root/usr/bin/dariole" press -C "$place/blog/content" -o "$place/site") >"$work/log" 2>&1
    [ $? -le 1 ]
    check $? 'the site is pressed'
done
diff -r --exclude=.dariole "$one/site" "$two/site" >"$work/log"
check $? 'both sites are the same bytes'
! grep -rlaF -e "$work" -e "$PWD" "$one/site" "$two/site" >"$work/log"
check $? 'no output says where it was made, nor does what is remembered'
! grep -rlawF -e "$(id -un)@" -e "$(hostname 2>/dev/null || echo no-name-of-a-machine)" "$one/site" >"$work/log"
check $? 'nor on which machine, nor by whom'
echo "1..$n"
