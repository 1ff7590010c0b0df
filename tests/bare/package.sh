#!/bin/bash
# The package in a Debian that has nothing else: `make check-package`, as root, with debootstrap. It is
# installed by apt with what it depends on, does the job of README's "In a code host's job", and is removed
# without rest. Prints TAP. MIRROR= and SUITE= name another archive than Debian's, another release.
set -u
cd "$(dirname "$0")/../.." || exit 3
n=0
check() { # check STATUS NAME
    n=$((n + 1))
    if [ "$1" -eq 0 ]; then
        echo "ok $n - $2"
    else
        echo "not ok $n - $2"
        tail -n 12 "$work/log" | cut -c 1-300 | sed 's/^/# /'
        failed=1
    fi
}
failed=0
work=$(mktemp -d)
bare=$work/bare
trap 'umount "$bare/proc" 2>/dev/null; rm -rf --one-file-system "$work"' EXIT
inside() { env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive chroot "$bare" "$@"; }
# what apt and dpkg keep for themselves, and the kernel's own, are no rest of a package
files() { inside find / -xdev -not -path '/proc*' -not -path '/var/cache/*' -not -path '/var/log/*' -not -path '/var/lib/apt/*' -not -path '/var/lib/dpkg/*' -not -path '/tmp/*' -not -path '/root/*' | LC_ALL=C sort; }

deb=$(find build/package -name 'dariole_*.deb' | head -n 1)
[ -n "$deb" ] || { echo 'make deb first' >&2; exit 3; }
debootstrap --variant=minbase "${SUITE:-bookworm}" "$bare" "${MIRROR:-http://deb.debian.org/debian}" >"$work/log" 2>&1
check $? 'a bare Debian is there'
mount -t proc proc "$bare/proc"
inside apt-get update -qq >"$work/log" 2>&1
cp "$deb" "$bare/tmp/"
files >"$work/before"
inside dpkg-query -W >"$work/packages-before"

# the job of the README, its lines as they stand there
# shellcheck disable=SC2016 # a pattern
sed -n '/^## In a code host/,/^## /{/^```sh$/,/^```$/{/^```/d;p}}' README.md >"$bare/tmp/job"
[ "$(wc -l <"$bare/tmp/job")" -eq 6 ]
check $? 'the README has a job of six lines'
inside sh -c 'cd /tmp && apt-get install -y -qq ./dariole_*.deb && dariole begin blog' >"$work/log" 2>&1
check $? 'the package is installed, and begins a blog'
inside sh -c 'cd /tmp && PUBLISHED=/tmp/published sh -eu ./job' >"$work/log" 2>&1
check $? 'the job of the README runs'
inside sh -c 'test -s /tmp/published/recipes.json && grep -q sarif /tmp/findings.sarif && ! test -e /tmp/published/.dariole' >"$work/log" 2>&1
check $? 'it publishes the site and tells findings'
inside sh -c 'cd /tmp && sed -i "s/^title:/tittle:/" blog/posts/*.md && PUBLISHED=/tmp/published sh -eu ./job' >"$work/log" 2>&1
[ $? -eq 1 ] && inside grep -q '"level":"error"' /tmp/findings.sarif
check $? 'with a mistake in a post the job fails, and tells it'
inside dariole --version -v >"$work/log" 2>&1
sed 's/^/# /' "$work/log"
inside apt-get purge -y -qq --auto-remove dariole >"$work/log" 2>&1
check $? 'it is removed'
files >"$work/after"
diff "$work/before" "$work/after" >"$work/log"
check $? 'no file of it is left'
inside dpkg-query -W >"$work/packages-after"
diff "$work/packages-before" "$work/packages-after" >"$work/log"
check $? 'nor a package that came with it'
echo "1..$n"
exit "$failed"
