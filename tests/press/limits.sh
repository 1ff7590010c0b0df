#!/bin/bash
# The machine fails: a full disk, a file-size limit, folders that cannot be written, a post that goes
# while it is read. Exit 3 and one line; what was good stays good, and the next press mends all.
set -u
. "$(dirname "$0")/lib/setting.sh"
make_content "$work/content" 26
press "$work/clean" "$work/content"
check $? 'the content compiles'

# fails STATUS NAME: the log of a press that must fail with one line
fails() {
    [ "$1" -eq 3 ] && [ "$(grep -c . "$work/log")" -eq 1 ] && grep -q '^dariole: ..*' "$work/log"
    check $? "$2: exit 3 and one line (was $1)"
}
mended() { # mended NAME
    press "$work/out" "$work/content" && same "$work/out" "$work/clean"
    check $? "$1: the next press mends all"
}

for blocks in 1 4 16 40 100; do
    rm -rf "$work/out"
    (ulimit -f "$blocks" && press "$work/out" "$work/content")
    fails $? "a limit of $blocks KiB a file"
    mended "a limit of $blocks KiB a file"
done

press "$work/out" "$work/content"
sed -i 's/^title: /title: New /' "$work"/content/more/*.md
(ulimit -f 16 && press "$work/out" "$work/content")
fails $? 'a limit over outputs that stand'
sed -i 's/^title: New /title: /' "$work"/content/more/*.md
mended 'a limit over outputs that stand'

mkdir "$work/small"
if mount -t tmpfs -o size=600k,nr_inodes=2000 none "$work/small" 2>/dev/null; then
    press "$work/small/out" "$work/content"
    fails $? 'a full disk'
    mount -o remount,size=64m "$work/small"
    press "$work/small/out" "$work/content" && same "$work/small/out" "$work/clean"
    check $? 'a full disk: the next press with room mends all'
    sed -i 's/^title: /title: New /' "$work"/content/more/*.md
    mount -o remount,ro "$work/small"
    press "$work/small/out" "$work/content"
    fails $? 'a disk that cannot be written'
    sed -i 's/^title: New /title: /' "$work"/content/more/*.md
    same "$work/small/out" "$work/clean"
    check $? 'a disk that cannot be written: what stood stands'
    umount "$work/small"
else
    echo "# no tmpfs can be mounted here: the full disk is tried by file-size limits alone"
fi

: >"$work/file"
press "$work/file" "$work/content"
fails $? 'OUT is a file'
press "$work/file/out" "$work/content"
fails $? 'OUT lies in a file'
rm -rf "$work/out" && mkdir "$work/out" && : >"$work/out/data"
press "$work/out" "$work/content"
fails $? 'a folder of OUT is a file'
rm -rf "$work/out" && mkdir -p "$work/out/fragments/nettle-soup.html" && echo mine >"$work/out/fragments/nettle-soup.html/kept"
"$dariole" press -C "$work/content" -o "$work/out" -q >"$work/log" 2>&1
fails $? 'an output is a folder with a file in it'
grep -qx mine "$work/out/fragments/nettle-soup.html/kept"
check $? 'an output is a folder: what lies in it stays'
[ -f "$work/out/fragments/post-000001.html" ] && [ -f "$work/out/data/quinoa-porridge.json" ]
check $? 'an output is a folder: the others are made'
rm -r "$work/out/fragments/nettle-soup.html"
mended 'an output is a folder'
rm "$work/out/fragments/nettle-soup.html" && mkdir "$work/out/fragments/nettle-soup.html"
mended 'an output is an empty folder, which gives way'
press "$work/out" "$work/none"
fails $? 'there is no content folder'
press /proc/none "$work/content"
fails $? 'OUT cannot be made'

# a post that goes while it is read, and one that cannot be read
cc -shared -fPIC -O1 -o "$work/faults.so" tests/press/lib/faults.c -ldl
rm -rf "$work/out"
# the file is taken away from within the program, which may not write there
DARIOLE_UNCONFINED=1 FAULT=vanish FAULT_NAME=posts/nettle-soup.md LD_PRELOAD=$work/faults.so \
    "$dariole" press -C "$work/content" -o "$work/out" -q >"$work/log" 2>&1
status=$?
[ "$status" -le 1 ] && [ ! -e "$work/content/posts/nettle-soup.md" ]
check $? "a post that goes as it is opened is a post that is not there (was $status)"
rm -rf "$work/without"
press "$work/without" "$work/content" && same "$work/out" "$work/without"
check $? 'a post that goes: the others are what they are without it'
cp content/posts/nettle-soup.md "$work/content/posts/"
mended 'a post that goes'
touch "$work/content/posts/nettle-soup.md"
FAULT=unreadable FAULT_NAME=posts/nettle-soup.md LD_PRELOAD=$work/faults.so \
    "$dariole" press -C "$work/content" -o "$work/out" -q >"$work/log" 2>&1
fails $? 'a post that may not be read'
grep -q 'posts/nettle-soup.md: ' "$work/log"
check $? 'a post that may not be read: the line names it'
diff -r -q --exclude=.dariole "$work/out" "$work/clean" >"$work/log"
check $? 'a post that may not be read: its last good output stays'
mended 'a post that may not be read'
echo "1..$n"
