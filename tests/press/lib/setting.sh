# What the tests of the press share: a folder to work in, a content folder of 40 posts, TAP.
cd "$(dirname "$0")/../.." || exit 3
dariole=$PWD/${DARIOLE:-build/dariole}
root=$PWD
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export DARIOLE_TABLES=$root/content/tables XDG_CACHE_HOME=$work/cache
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

# make_content FOLDER POSTS: the demo's posts and some of the bench's
make_content() {
    mkdir -p "$1/posts" "$1/tables/foods"
    cp content/posts/*.md "$1/posts/"
    [ -x "$work/posts" ] || cc -O1 -std=c11 -D_POSIX_C_SOURCE=200809L -o "$work/posts" tests/bench/posts.c
    "$work/posts" "$1/more" "$2"
}

# press OUT CONTENT ARGUMENT...: its status is that of the program, 1 counts as good
press() {
    local out=$1 content=$2
    shift 2
    "$dariole" press -C "$content" -o "$out" -q "$@" >"$work/log" 2>&1
    local status=$?
    [ "$status" -eq 1 ] && status=0
    return "$status"
}

# same ONE OTHER: the same outputs, byte for byte, and nothing left lying about
same() {
    diff -r -q --exclude=.dariole "$1" "$2" >"$work/log" 2>&1 && ! left "$1"
}

# left OUT: whether a temporary file or a journal was left
left() {
    find "$1" \( -name '.dariole-*' -o -name journal \) | grep -q .
}

# unlike_but_beside OUT CLEAN: outputs of posts that differ in more than the line of what fits beside
# them, which is exchanged once all posts are in place
unlike_but_beside() {
    local name
    (cd "$1" && diff -r -q --exclude='.dariole*' . "$2") | sed -n 's/^Files \([^ ]*\) and .* differ$/\1/p' |
        grep -E '^./(fragments|data|preview)/' | sort | while read -r name; do
        cmp -s <(sed 's/<p class="dl-beside">.*<\/p>//; /^$/d' "$1/$name") \
            <(sed 's/<p class="dl-beside">.*<\/p>//; /^$/d' "$2/$name") || echo "$name"
    done
}
