#!/bin/bash
# The one direction of the rooms: a room includes headers of rooms to its left and of base. Prints TAP.
set -u
cd "$(dirname "$0")/../../src" || exit 3
rooms=(base read tables reckon judge compile write press commands)
n=0
for i in "${!rooms[@]}"; do
    room=${rooms[$i]}
    allowed=$(IFS='|'; echo "${rooms[*]:0:i+1}")
    wrong=$(grep -nHE '^#include "[a-z]+/' "$room"/*.[ch] | grep -vE "#include \"($allowed)/")
    n=$((n + 1))
    if [ -z "$wrong" ]; then
        echo "ok $n - $room includes only what stands left of it"
    else
        echo "not ok $n - $room includes only what stands left of it"
        echo "# ${wrong//$'\n'/$'\n# '}"
    fi
    while read -r file; do
        n=$((n + 1))
        if [ -f "${file%.c}.h" ] || [ "$room" = commands ]; then
            echo "ok $n - $file has its header"
        else
            echo "not ok $n - $file has its header"
        fi
    done < <(ls "$room"/*.c)
done
n=$((n + 1))
wrong=$(grep -nE '^static [^(]*;|^static [^(]*= ' ./*/*.c | grep -vE 'static (const|_Thread_local struct arena \*lent)|const [a-z]+\[' )
if [ -z "$wrong" ]; then
    echo "ok $n - no global state but constants"
else
    echo "not ok $n - no global state but constants"
    echo "# ${wrong//$'\n'/$'\n# '}"
fi

# files that include each other, by whatever way, cannot be read one after the other
n=$((n + 1))
wrong=$(grep -HoE '^#include "[a-z]+/[a-z0-9_]+\.h"' ./*/*.[ch] | sed -E 's#^\./([^:]*)\.[ch]:\#include "([^"]*)\.h"#\1 \2#' | awk '$1 != $2' | sort -u | tsort 2>&1 >/dev/null | grep -v 'contains a loop' | sed 's/^tsort: //' | tr '\n' ' ')
if [ -z "$wrong" ]; then
    echo "ok $n - no circle of includes"
else
    echo "not ok $n - no circle of includes"
    echo "# $wrong"
fi
