#!/bin/bash
# Check values of the trade: each of these, alone in a portion, stands within in the strict phase. All of
# them are common practice, no source: where composition says otherwise the table is looked at, and what
# was found is written here. Prints TAP.
cd "$(dirname "$0")/../.." || exit 2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/posts"
n=0
standing() {
    printf -- '---\ntitle: A\nportions: 1\nmeasures: %s\ningredients:\n  - %s\n---\n\n## Method\n1. Serve.\n' "${region:-au}" "$1" >"$work/posts/a.md"
    build/dariole worksheet -C "$work" --json "$work/posts/a.md" | sed 's/.*"phases":\[{"id":"strict"[^{]*"standing":"\([a-z]*\)".*/\1/'
}
within() { # within LINE [ELSE REASON]: ELSE is how it stands, and why
    local is wanted=${2:-within}
    is=$(standing "$1")
    n=$((n + 1))
    [ "$is" = "$wanted" ] && echo "ok $n - $1: $is${3:+ ($3)}" || echo "not ok $n - $1: $is, not $wanted"
}
within '40 g blueberries'
within '4 medium strawberries'
within '28 g puffed rice cakes'
within '⅓ cup popping corn, popped'
within '30 g ripe avocado'
within '60 g tinned coconut milk'
region=us within '2 tbsp peanut butter'
# where a spoon is 20 mL, 2 hold about 43 g, a third more than the 32 g that the value means
within '2 tbsp peanut butter' close 'of 20 mL each'
within '2 tbsp maple syrup'
within '1 tbsp chia seeds'
echo "1..$n"
