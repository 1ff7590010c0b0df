# What tests of the program from outside share: a folder to work in, the repository's tables, TAP.
cd "$(dirname "$0")/../.." || exit 3
dariole=$PWD/${DARIOLE:-build/dariole}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DARIOLE_TABLES=$PWD/content/tables XDG_CACHE_HOME=$work/cache
n=0

check() { # check STATUS NAME: the end of the log is told where it fails
    n=$((n + 1))
    if [ "$1" -eq 0 ]; then
        echo "ok $n - $2"
    else
        echo "not ok $n - $2"
        tail -n 8 "$work/log" | cut -c 1-300 | sed 's/^/# /'
    fi
}
