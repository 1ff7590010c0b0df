#!/bin/bash
# What the program costs, as ratios in one run: `make bench`. POSTS=N for other than 10,000 posts,
# LARGE=0 leaves out the 100,000, which need 8 GB in BENCH_DIR (build/bench). Times are user + system,
# the least of five runs where nothing is written; wall time where it says so. Nothing is deleted
# before the last rows: ext4 is slow to make files for some seconds after many were deleted.
set -u
cd "$(dirname "$0")/../.." || exit 3
posts=${POSTS:-10000}
large=${LARGE:-100000}
b=build/bench
mkdir -p "$b"
flags="-O2 -std=c11 -D_POSIX_C_SOURCE=200809L"
# shellcheck disable=SC2086
cc $flags -o "$b/posts" tests/bench/posts.c || exit 3
# shellcheck disable=SC2046,SC2086
cc $flags -o "$b/floor" tests/bench/floor.c $(pkg-config --cflags --libs yaml-0.1 libcmark) || exit 3
# shellcheck disable=SC2086
cc $flags -o "$b/cost" tests/bench/cost.c || exit 3
packages="yaml-0.1 libcmark jansson libxxhash libseccomp"
# shellcheck disable=SC2046,SC2086
cc $flags -Isrc -o "$b/reckon" tests/bench/reckon.c build/libdariole.a $(pkg-config --cflags --libs $packages) -lunistring -lm -pthread || exit 3
# shellcheck disable=SC2046,SC2086
cc $flags -Isrc -o "$b/judge" tests/bench/judge.c build/libdariole.a $(pkg-config --cflags --libs $packages) -lunistring -lm -pthread || exit 3
work=$(mktemp -d "${BENCH_DIR:-$b}/run-XXXXXX") || exit 3
sleep 6 # see above: another run may just have ended
trap 'rm -rf "$work"' EXIT
dariole=$PWD/build/dariole
export DARIOLE_TABLES=$PWD/content/tables XDG_CACHE_HOME=$work/cache

# cost COMMAND...: sets cpu and wall in ms, peak in KiB
cost() {
    "$b/cost" "$work/cost" "$@" >/dev/null 2>"$work/err"
    read -r cpu wall peak <"$work/cost"
}
least() { # least COMMAND...: the least of five
    local i best=
    for i in 1 2 3 4 5; do
        cost "$@"
        [ -z "$best" ] || [ "${cpu%.*}" -lt "${best%.*}" ] && best=$cpu best_wall=$wall
    done
    cpu=$best wall=$best_wall
}
ratio() { awk -v a="$1" -v b="$2" 'BEGIN { printf "%.2f", a / b }'; }
row() { printf '%-58s %10s  %-10s %s\n' "$1" "$2" "$3" "${4:-}"; }
press() { "$dariole" press -C "$work/content" -o "$work/$1" -q "${@:2}"; }

echo "$posts posts; $(nproc) cores; $(uname -sr)"
row 'what' 'ratio' 'to reach' ''
reckoned=$("$b/reckon")
row 'reckoning of one post / 200 microseconds' "$(echo "$reckoned" | awk '{ sub(".*median ", ""); printf "%.2f", $1 / 200 }')" '<= 1.00' "$reckoned"
# shellcheck disable=SC2046
judged=$("$b/judge" $(grep -l '^ingredients:' content/posts/*.md))
row 'judging of one post / 100 microseconds' "$(echo "$judged" | awk '{ sub(".*mean ", ""); printf "%.2f", $1 / 100 }')" '<= 1.00' "$judged"

# the tables for one line: the quickest of many runs, less what the program costs without them
quickest() { # quickest COMMAND...: microseconds, wall
    local i best=999999999 begun spent
    for i in $(seq 60); do
        begun=${EPOCHREALTIME/[.,]/}
        "$@" >/dev/null
        spent=$((${EPOCHREALTIME/[.,]/} - begun))
        [ "$spent" -lt "$best" ] && best=$spent
    done
    echo "$best"
}
quickest "$dariole" weigh '1 cup rice' >/dev/null
loading=$(($(quickest "$dariole" weigh '1 cup rice') - $(quickest "$dariole" --version)))
row "warm tables for one weigh / 5 ms" "$(ratio "$loading" 5000)" '<= 1.00' "$loading us, wall"
mkdir -p "$work/content"
"$b/posts" "$work/content/posts" "$posts"
press tables >/dev/null 2>&1 & pid=$!; sleep 0.5; kill -INT "$pid" 2>/dev/null; wait "$pid" 2>/dev/null

# each twice by turns, the least counts: what else the machine does falls on both
twice() { # twice NAME COMMAND...: OUT-N in the command is another folder each time
    local i name=$1
    shift
    cpu_of[$name]='' wall_of[$name]=''
    for i in 1 2; do
        cost "${@//OUT-N/$work/$name-$i}"
        [ -n "${cpu_of[$name]}" ] && [ "${cpu%.*}" -ge "${cpu_of[$name]%.*}" ] && continue
        cpu_of[$name]=$cpu wall_of[$name]=$wall peak_of[$name]=$peak
    done
}
declare -A cpu_of wall_of peak_of
twice floor "$b/floor" "$work/content/posts" OUT-N
twice one "$dariole" press -C "$work/content" -o OUT-N -q -j1
mv "$work/one-2" "$work/one"
size() { find "$work/one/$1" -type f ! -name index.html -printf '%s\n' | awk '{ s += $1 } END { printf "%d", s / NR }'; }
# shellcheck disable=SC2046
twice sized "$b/floor" "$work/content/posts" OUT-N $(size fragments) $(size data) $(size preview)
# shellcheck disable=SC2046
twice renamed "$b/floor" "$work/content/posts" OUT-N $(size fragments) $(size data) $(size preview) renamed
twice two "$dariole" press -C "$work/content" -o OUT-N -q -j2
floor=${cpu_of[floor]} sized=${cpu_of[sized]} one=${cpu_of[one]} two=${cpu_of[two]}
one_wall=${wall_of[one]} two_wall=${wall_of[two]} peak_posts=${peak_of[one]}
row 'full press, 1 worker / floor, files of the outputs'"'"' size' "$(ratio "$one" "$sized")" '<= 6.00' "$one ms / $sized ms"
row 'full press, 1 worker / floor, files of the posts'"'"' size' "$(ratio "$one" "$floor")" '' "$one ms / $floor ms"
row 'that floor with each file renamed into place / floor' "$(ratio "${cpu_of[renamed]}" "$sized")" '' "${cpu_of[renamed]} ms / $sized ms"
row '1 worker / 2 workers, wall' "$(ratio "$one_wall" "$two_wall")" '>= 1.70' "$one_wall ms / $two_wall ms"
row '2 workers / 1 worker, user + system' "$(ratio "$two" "$one")" ''

# every post with one blank line more: compiled anew, and no output changes. Work of the processor alone.
press one >/dev/null 2>&1
for workers in 1 2 1 2; do
    for post in "$work/content/posts"/*.md; do echo >>"$post"; done
    cost "$dariole" press -C "$work/content" -o "$work/one" -q "-j$workers"
    [ -n "${wall_of[same$workers]:-}" ] && [ "${wall%.*}" -ge "${wall_of[same$workers]%.*}" ] || wall_of[same$workers]=$wall
done
row 'the same outputs again: 1 worker / 2 workers, wall' "$(ratio "${wall_of[same1]}" "${wall_of[same2]}")" '>= 1.70' "${wall_of[same1]} ms / ${wall_of[same2]} ms"

# nothing to do, against git over the same tree: the posts and the site
press one >/dev/null 2>&1
git init -q "$work/git-posts" && cp -r "$work/content" "$work/git-posts/"
(cd "$work/git-posts" && git add -A && git -c user.name=b -c user.email=b@example.org commit -q -m b && git status >/dev/null)
git init -q "$work/git-all" && cp -r "$work/content" "$work/git-all/" && cp -r "$work/one" "$work/git-all/site" && rm -rf "$work/git-all/site/.dariole"
(cd "$work/git-all" && git add -A && git -c user.name=b -c user.email=b@example.org commit -q -m b && git status >/dev/null)
sleep 2
least git -C "$work/git-all" status
git_all=$cpu git_wall=$wall
least git -C "$work/git-posts" status
git_posts=$cpu
least "$dariole" press -C "$work/content" -o "$work/one" -q -j1
nothing=$cpu
row 'nothing to do / git status, posts and site' "$(ratio "$nothing" "$git_all")" '<= 2.50' "$nothing ms / $git_all ms"
row 'nothing to do / git status, posts alone' "$(ratio "$nothing" "$git_posts")" '' "$nothing ms / $git_posts ms"
least "$dariole" press -C "$work/content" -o "$work/one" -q -j2
row 'the same on 2 workers, wall' "$(ratio "$wall" "$git_wall")" '' "$wall ms / $git_wall ms"

mkdir -p "$work/content/tables/foods"
limit() { printf 'phases:\n  strict:\n    groups:\n      lactose: {grams: %s, source: "the bench", basis: practice}\n' "$1" >"$work/content/tables/limits.yaml"; }
limit 0.9
press one --why 2>/dev/null | grep -c limit >"$work/n"
best=
for grams in 0.8 0.85 0.7; do
    limit "$grams"
    cost "$dariole" press -C "$work/content" -o "$work/one" -q -j1
    [ -n "$best" ] && [ "${cpu%.*}" -ge "${best%.*}" ] || best=$cpu
done
cpu=$best
row "a limit that touches $(cat "$work/n") posts / nothing to do" "$(ratio "$cpu" "$nothing")" '<= 3.00' "$cpu ms / $nothing ms"
sed -n '/^  tempeh:/,/^  [a-z-]*:$/p' content/tables/foods/soy.yaml | sed '$d' >"$work/tempeh"
{ echo 'foods:'; sed 's/protein: [0-9.]*/protein: 20.5/' "$work/tempeh"; } >"$work/content/tables/foods/own.yaml"
cost "$dariole" press -C "$work/content" -o "$work/one" -q -j1 --why
row 'a food that touches posts / nothing to do' "$(ratio "$cpu" "$nothing")" '' "$cpu ms"

# round-ups: sixty dishes in one file, and posts that are gathered
gathered=$work/gathered/posts
mkdir -p "$gathered"
"$b/posts" "$gathered" 200
dishes() { # dishes: the first sixty posts as the dishes of one
    local i=0 post
    printf -- '---\ntitle: Sixty dishes\npublished: 2026-01-01\ndishes:\n'
    for post in $(find "$gathered" -name 'post-*.md' | sort | head -60); do
        i=$((i + 1))
        echo "  Dish $i:"
        sed -n '/^portions:/,/^times:/s/^/    /p' "$post"
    done
    echo '---'
    i=0
    for post in $(find "$gathered" -name 'post-*.md' | sort | head -60); do
        i=$((i + 1))
        printf '\n## Dish %d\n' "$i"
        sed -n '/^## Method/,/^## Notes/p' "$post" | grep -v '^## '
    done
}
gather() { # gather N: a round-up of so many posts
    printf -- '---\ntitle: Many posts\npublished: 2026-01-01\ngathers: [%s]\n---\nAll of them.\n' \
        "$(find "$gathered" -name 'post-*.md' -printf '%f\n' | sort | head -"$1" | sed 's/\.md$//' | paste -sd, -)"
}
dishes >"$gathered/sixty.md"
gather 7 >"$gathered/seven.md"
gather 200 >"$gathered/many.md"
for round in 'seven:a round-up of 7 posts' 'sixty:60 dishes in one file' 'many:a round-up of 200 posts'; do
    least "$dariole" proof -C "$work/gathered" --fail-on none "posts/${round%%:*}.md"
    case $round in many:*) reach='' ;; *) reach='<= 1.00' ;; esac
    row "proof of ${round#*:} / 50 ms" "$(ratio "$cpu" 50)" "$reach" "$cpu ms"
done

# the cost of a post, and memory, as posts grow in number. The floor beside it tells what the machine's
# memory and files alone make of so many.
lesser() { # lesser OUT COMMAND...: of two runs; the first also wakes memory that was not used before
    local run best="" out=$1
    shift
    for run in 1 2; do
        cost "$@"
        [ -n "$best" ] && [ "${cpu%.*}" -ge "${best%.*}" ] || best=$cpu
        [ "$run" = 2 ] || { rm -rf "$out"; sleep 10; }
    done
    cpu=$best
}
for count in 1000 "$large"; do
    [ "$count" -eq 0 ] && continue
    mkdir -p "$work/content-$count"
    "$b/posts" "$work/content-$count/posts" "$count"
    # shellcheck disable=SC2046
    lesser "$work/floor-$count" "$b/floor" "$work/content-$count/posts" "$work/floor-$count" $(size fragments) $(size data) $(size preview)
    bare=$cpu
    [ "$count" -eq 1000 ] || { rm -rf "$work/floor-$count"; sleep 10; }
    lesser "$work/many-$count" "$dariole" press -C "$work/content-$count" -o "$work/many-$count" -q -j1
    each=$(ratio "$cpu" "$count")
    limit_kib=$((65536 + count))
    row "$count posts: peak memory / (64 MB + 1 KB a post)" "$(ratio "$peak" "$limit_kib")" '<= 1.00' "$peak KiB"
    if [ "$count" -eq 1000 ]; then
        small=$cpu small_bare=$bare
    else
        growth() { awk -v a="$1" -v n="$count" -v b="$2" 'BEGIN { printf "%.2f", a / n / (b / 1000) }'; }
        row "time of a post at $count / at 1000" "$(growth "$cpu" "$small")" '<= 1.15' "$each ms a post"
        row "the same of the floor" "$(growth "$bare" "$small_bare")" '' "$(ratio "$bare" "$count") ms a post"
    fi
done
row "$posts posts: peak memory / (64 MB + 1 KB a post)" "$(ratio "$peak_posts" $((65536 + posts)))" '<= 1.00' "$peak_posts KiB"
