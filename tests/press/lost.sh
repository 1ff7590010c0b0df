#!/bin/bash
# What a press remembers may be lost when it is cut off: killed before each write, rename and removal
# in turn, with the ledger then gone, cut off or changed, and a post renamed and one removed in the same
# step, the next press gives what a clean one gives, and the writer's own files stay. Many calls: those
# behind the first ones are tried at random. SEED=N repeats a run.
set -u
. "$(dirname "$0")/lib/setting.sh"
seed=${SEED:-$RANDOM}
echo "# SEED=$seed"
RANDOM=$seed
cc -shared -fPIC -O1 -o "$work/faults.so" tests/press/lib/faults.c -ldl
make_content "$work/one/content" 4
rm "$work"/one/content/posts/[a-m]*.md
cp -r content/images "$work/one/content/images"
cp -r "$work/one" "$work/two"
two=$work/two/content
sed -i 's/^title: /title: Another /' "$two"/posts/[n-q]*.md
mv "$two/more/post-000003.md" "$two/posts/moved.md"
mv "$two/posts/rhubarb-ginger-jam.md" "$two/posts/jam.md"
rm "$two/posts/teff-pancakes.md"
printf 'regions-apart: yes\n' >"$two/tables/site.yaml"
cp -r "$work/two" "$work/three"
three=$work/three/content
mv "$three/posts/moved.md" "$three/posts/moved-again.md"
mv "$three/posts/quinoa-porridge.md" "$three/posts/porridge.md"
rm "$three/posts/jam.md"
rm "$three/tables/site.yaml"
for s in one two three; do press "$work/clean-$s" "$work/$s/content" || break; done
check $? 'three states compile'
own=(fragments/own.html images/own.svg data/post-000001.own.json)
for s in one three; do for file in "${own[@]}"; do echo 'of the writer' >"$work/clean-$s/$file"; done; done

# lose WHAT: the ledger or another file in OUT/.dariole is gone, cut off or changed
lose() {
    local file=$work/out/.dariole/$1 size
    [ -f "$file" ] || return 0
    size=$(stat -c %s "$file")
    case $((RANDOM % 4)) in
    0) rm "$file" ;;
    1) truncate -s $((RANDOM * 7 % (size + 1))) "$file" ;;
    2) : >"$file" ;;
    3) printf '\377\001\376' | dd of="$file" bs=1 seek=$((RANDOM * 7 % (size + 1))) conv=notrunc status=none ;;
    esac
}

# killed N: a press from the first state to the second, killed before its N-th change of the disk
killed() {
    rm -rf "$work/out"
    cp -r --preserve=timestamps "$work/clean-one" "$work/out"
    FAULT=kill FAULT_AT=$1 FAULT_COUNT=$work/count LD_PRELOAD=$work/faults.so \
        "$dariole" press -C "$two" -o "$work/out" -q -j1 >/dev/null 2>&1
}

# next NAME: the press after that
next() {
    press "$work/out" "$three" || echo "$1: the next press fails: $(head -n 1 "$work/log")"
    same "$work/out" "$work/clean-three" || echo "$1: $(head -n 1 "$work/log")"
}
killed 0
count=$(cat "$work/count")
tried=0
: >"$work/wrong"
for ((at = 1; at <= count && tried < 90; at += at < 40 ? 1 : 1 + RANDOM % (1 + count / 40))); do
    tried=$((tried + 1))
    { killed "$at"; } 2>/dev/null
    lose ledger
    next "killed before change $at" >>"$work/wrong"
done
echo "# a press was killed before $tried of $count changes of the disk"
[ "$tried" -gt 30 ] && [ ! -s "$work/wrong" ]
status=$?
cp "$work/wrong" "$work/log"
check "$status" 'killed anywhere and the ledger lost: the next press gives what a clean one gives'

: >"$work/wrong"
for what in ledger manifest 'ledger manifest'; do
    for _ in 1 2 3 4 5 6; do
        killed 0
        for file in $what; do lose "$file"; done
        next "$what" >>"$work/wrong"
    done
done
killed 0
rm -r "$work/out/.dariole"
next '.dariole' >>"$work/wrong"
[ ! -s "$work/wrong" ]
status=$?
cp "$work/wrong" "$work/log"
check "$status" 'ledger, manifest, both or all of it lost or damaged: the same'

# nothing tells whose these are
killed 0
rm -r "$work/out/.dariole" "$work/out/catalogue.json"
"$dariole" press -C "$three" -o "$work/out" -q 2>"$work/log"
grep -q "^dariole: .* was lost or damaged, .*: data/jam.json, .*fragments/jam.*, images/own.svg" "$work/log" &&
    [ "$(wc -l <"$work/log")" -eq 1 ]
check $? 'what nobody can tell for ours stays, and is named in one line'
"$dariole" press -C "$three" -o "$work/out" -q 2>"$work/log"
[ ! -s "$work/log" ]
check $? 'once'
rm -rf "$work/out"
mkdir -p "$work/out/images"
echo 'of the writer' >"$work/out/images/own.svg"
"$dariole" press -C "$three" -o "$work/out" -q 2>"$work/log"
[ ! -s "$work/log" ] && [ -f "$work/out/images/own.svg" ]
check $? 'a first press says nothing of files that were there before it'

# the writer takes outputs away with their post, and later has a file of that name
rm "$three/posts/porridge.md" "$work/out"/*/porridge.*
"$dariole" press -C "$three" -o "$work/out" -q 2>"$work/log"
rm "$work/out/.dariole/ledger"
echo 'of the writer' >"$work/out/fragments/porridge.html"
"$dariole" press -C "$three" -o "$work/out" -q 2>"$work/log"
[ -f "$work/out/fragments/porridge.html" ] && [ ! -f "$work/out/data/porridge.json" ]
check $? 'what was taken away by hand is ours no longer, whatever is lost later'
echo "1..$n"
