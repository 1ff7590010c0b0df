#!/bin/bash
# Where the read tables are kept between runs: in the user's own cache folder, for any OUT and every verb,
# never in OUT, where others may write; and nothing is amiss where they can be kept nowhere.
set -u
. "$(dirname "$0")/lib/setting.sh"
make_content "$work/content" 4
unset XDG_CACHE_HOME
export HOME=$work/home
store=$HOME/.cache/dariole
mkdir -m 700 "$HOME"
state() { find "$1" -name 'tables-*' -printf '%f %i %m %u\n' | sort; }
count() { find "$1" -name 'tables-*' 2>/dev/null | wc -l; }
ask() {
    "$dariole" proof -C "$work/content"
    "$dariole" larder -C "$work/content" carrot
    "$dariole" impact -C "$work/content" --try 'lactose 0.5 g'
    "$dariole" impact -C "$work/content" --against content/tables
}

press "$work/one" "$work/content"
check $? 'a first press'
[ "$(count "$store")" -eq 2 ] && [ "$(count "$work/one")" -eq 0 ]
check $? 'two images stand in the cache folder, none beside the outputs'
[ "$(find "$store" -type f -printf '%m ' -o -type d -printf '%m ')" = '700 600 600 ' ] && [ "$(stat -c %a "$HOME/.cache")" = 700 ]
check $? 'no one else may read them'
state "$store" >"$work/before"
press "$work/two" "$work/content" && same "$work/one" "$work/two" && state "$store" | cmp -s - "$work/before"
check $? 'another OUT takes them as they are'
ask >"$work/warm" 2>&1
state "$store" | cmp -s - "$work/before"
check $? 'so do the verbs without one, and tables asked for in passing leave none behind'
if command -v strace >/dev/null 2>&1; then
    strace -f -e trace=openat -o "$work/trace" "$dariole" larder carrot >/dev/null 2>&1
    [ "$(grep -c 'O_CREAT' "$work/trace")" -eq 0 ] && [ "$(grep -c 'foods/spice.*yaml' "$work/trace")" -le 1 ]
    check $? 'a warm run writes nothing and reads each table once, for its digest'
fi

# images that are not what they say
bad=0
for file in "$store"/*; do
    for at in 0 8 20 40 100 4000 60000; do
        printf 'x' | dd of="$file" bs=1 seek="$at" conv=notrunc 2>/dev/null
        rm -rf "${work:?}/out"
        press "$work/out" "$work/content" && same "$work/out" "$work/one" || bad=$((bad + 1))
    done
    : >"$file"
    rm -rf "${work:?}/out"
    press "$work/out" "$work/content" && same "$work/out" "$work/one" || bad=$((bad + 1))
done
check "$bad" 'damaged images: the same outputs'
[ "$(state "$store" | cut -d' ' -f1,3)" = "$(cut -d' ' -f1,3 "$work/before")" ]
check $? 'and they are whole again'
if [ "$(id -u)" -eq 0 ]; then
    state "$store" >"$work/before"
    chown 12345 "$store"/*
    rm -rf "${work:?}/out"
    press "$work/out" "$work/content" && same "$work/out" "$work/one" && [ -z "$(find "$store" -user 12345)" ]
    check $? 'images of another user are not read, and are written anew'
    chown 12345 "$store"
    rm -rf "${work:?}/out"
    press "$work/out" "$work/content" && same "$work/out" "$work/one" && [ "$(count "$work/out/.dariole")" -eq 0 ]
    check $? 'a folder of another user is not used'
    chown 0 "$store"
fi
rm -rf "${work:?}/out"
mv "$store" "$work/elsewhere" && ln -s "$work/elsewhere" "$store"
press "$work/out" "$work/content" && same "$work/out" "$work/one" && [ "$(count "$work/elsewhere")" -eq 2 ] && [ "$(count "$work/out/.dariole")" -eq 0 ]
check $? 'a link in its place is not followed'
rm "$store"

# nowhere to keep them
rm -rf "${work:?}/out"
env -u HOME "$dariole" press -C "$work/content" -o "$work/out" -q >"$work/log" 2>&1
[ $? -le 1 ] && same "$work/out" "$work/one" && [ "$(count "$work/out")" -eq 0 ]
check $? 'no home: they are kept nowhere'
rm -rf "${work:?}/out"
: >"$store"
press "$work/out" "$work/content" && [ ! -s "$work/log" ] && same "$work/out" "$work/one" && [ "$(count "$work/out")" -eq 0 ]
check $? 'a file in the way: the same, and nothing is said of it'
HOME=/proc/nowhere
ask >"$work/cold" 2>&1
cmp "$work/cold" "$work/warm" >"$work/log" 2>&1
check $? 'without images every verb says the same'

# a disk that is full
if mkdir "$work/small" && mount -t tmpfs -o size=1m none "$work/small" 2>/dev/null; then
    rm -rf "${work:?}/out"
    HOME=$work/small press "$work/out" "$work/content" && same "$work/out" "$work/one" && [ -z "$(find "$work/small" -name '*-foods*')" ]
    status=$?
    umount "$work/small"
    check $status 'a full disk: nothing half written is left'
else
    echo "# no tmpfs can be mounted here: the full disk is not tried"
fi
echo "1..$n"
