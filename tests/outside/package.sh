#!/bin/bash
# The source packed and unpacked builds Debian's package; lintian finds nothing in it; it holds what is
# promised, works where it is installed, and goes without rest. `make check-package` does the same in a
# Debian that has nothing else. Prints TAP.
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
        [ -f "$work/log" ] && tail -n 8 "$work/log" | cut -c 1-300 | sed 's/^/# /'
    fi
}

# from a tarball without a repository around it, without optimisation
tools/package dist >"$work/log" 2>&1
check $? 'the source is packed'
tarball=$(tail -n 1 "$work/log")
sum=$(sha256sum <"$tarball")
tools/package dist >"$work/log" 2>&1 && [ "$(sha256sum <"$tarball")" = "$sum" ]
check $? 'twice the same bytes'
tar -x -C "$work" -f "$tarball" && mv "$work"/dariole-* "$work/source"
(cd "$work/source" && GIT_CEILING_DIRECTORIES=$work DEB_BUILD_OPTIONS='noopt noautodbgsym parallel=2' SOURCE_DATE_EPOCH=1700000000 tools/package deb) >"$work/log" 2>&1
check $? "the source that was packed builds the package"
deb=$(ls "$work"/source/build/package/dariole_*.deb)
lintian --fail-on error,warning,info --allow-root "$work"/source/build/package/*.changes >"$work/log" 2>&1
check $? 'lintian finds nothing'
dpkg-deb -c "$deb" | awk '{ print $6 }' >"$work/log"
for file in usr/bin/dariole usr/share/dariole/tables/limits.yaml usr/share/dariole/tables/foods/fruit.yaml usr/share/dariole/schemas/foods.schema.json \
    usr/share/dariole/pre-commit usr/share/dariole/dariole.mk usr/share/man/man1/dariole.1.gz usr/share/man/man5/dariole-post.5.gz \
    usr/share/man/man5/dariole-tables.5.gz usr/share/bash-completion/completions/dariole usr/share/doc/dariole/copyright usr/share/doc/dariole/README.md.gz; do
    grep -qx "./$file" "$work/log"
    check $? "it holds $file"
done
needs=$(dpkg-deb -f "$deb" Depends)
missing=
for library in $(ldd build/dariole 2>/dev/null | awk '$2 == "=>" { print $1 }' | sed -E 's/\.so\.([0-9]).*/\1/; s/^lib(c|m)6$/libc6/' | sort -u); do
    grep -qE "(^|, )${library%%[0-9]*}-?[0-9.]*" <<<"$needs" || missing="$missing $library"
done
echo "$needs:$missing" >"$work/log"
[ -z "$missing" ]
check $? 'it depends on all that the program loads'

# installed beneath a folder of its own, whose list of packages is empty: what it depends on is the machine's
root=$work/root
mkdir -p "$root/var/lib/dpkg/info" "$root/var/lib/dpkg/updates" && : >"$root/var/lib/dpkg/status"
at_root() { fakeroot dpkg --root="$root" --force-depends --force-not-root --force-script-chrootless --log=/dev/null "$@" >"$work/log" 2>&1; }
at_root -i "$deb"
check $? 'it is installed'
mkdir "$work/home" && cd "$work/home" || exit 3
export HOME=$work/home
unset DARIOLE_TABLES XDG_CACHE_HOME
dariole=$root/usr/bin/dariole
"$dariole" begin blog >"$work/log" 2>&1 && "$dariole" press -C blog -o site >"$work/log" 2>&1 && [ -s site/recipes.json ]
check $? 'installed, it begins a blog and presses it'
git init -q blog && install -m 755 "$root/usr/share/dariole/pre-commit" blog/.git/hooks/pre-commit
sed -i 's/^title:/tittle:/' blog/posts/*.md
! (cd blog && git add -A && PATH=$root/usr/bin:$PATH git -c user.name=a -c user.email=a@example.org commit -qm one) >"$work/log" 2>&1 && grep -q 'tittle' "$work/log"
check $? 'its hook holds back a post with a mistake'
bash -c ". $root/usr/share/bash-completion/completions/dariole; COMP_WORDS=(dariole wor) COMP_CWORD=1; _dariole dariole wor dariole; echo \"\${COMPREPLY[*]}\"" >"$work/log" 2>&1
grep -qx worksheet "$work/log"
check $? 'its completion completes'
zcat "$root/usr/share/man/man1/dariole.1.gz" | mandoc -T lint -W error >"$work/log" 2>&1
check $? 'its manual is read'
cd / && at_root -P dariole
check $? 'it is removed'
find "$root" -mindepth 1 -not -path "$root/var/*" -not -path "$root/var" >"$work/log"
[ ! -s "$work/log" ]
check $? 'nothing of it is left'
echo "1..$n"
