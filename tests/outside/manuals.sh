#!/bin/bash
# The manual pages against mandoc's lint, the shell scripts against shellcheck. Prints TAP.
set -u
cd "$(dirname "$0")/../.." || exit 3
n=0
say() { # say STATUS NAME OUTPUT
    n=$((n + 1))
    if [ "$1" -eq 0 ]; then
        echo "ok $n - $2"
    else
        echo "not ok $n - $2"
        echo "$3" | head -n 12 | sed 's/^/# /'
    fi
}
for page in tools/man/*.[15]; do
    found=$(mandoc -T lint -W warning "$page" 2>&1)
    say $? "$page passes mandoc's lint" "$found"
done
while read -r script; do
    found=$(shellcheck -x -P SCRIPTDIR "$script" 2>&1)
    say $? "$script passes shellcheck" "$found"
done < <(git ls-files | while read -r f; do head -c 20 "$f" | grep -qE '^#!.*(ba)?sh' && echo "$f"; done)
for verb in press proof weigh worksheet impact larder begin rules; do
    build/dariole "$verb" --help >/dev/null 2>&1
    say $? "dariole $verb --help" "exit $?"
    grep -q "dariole $verb\|Cm $verb" tools/man/dariole.1
    say $? "dariole(1) names $verb" ""
done
