#!/bin/bash
# Facts of the trade, as common practice, each through `dariole weigh`: two measures on one line that
# a cook's book gives must agree; the one that the published figures contradict must be told. TAP.
set -u
cd "$(dirname "$0")/../.." || exit 3
dariole=${DARIOLE:-build/dariole}
n=0

told() { "$dariole" weigh --measures "$1" --json "$2" | grep -c '"rule":"measures-disagree"'; }

agrees() { # agrees REGION LINE
    n=$((n + 1))
    if "$dariole" weigh --measures "$1" --json "$2" | grep -q '"food":"' && [ "$(told "$1" "$2")" -eq 0 ]; then
        echo "ok $n - $1: $2"
    else
        echo "not ok $n - $1: $2"
        "$dariole" weigh --measures "$1" "$2" | sed 's/^/# /'
    fi
}

differs() {
    n=$((n + 1))
    if [ "$(told "$1" "$2")" -eq 1 ]; then
        echo "ok $n - $1: told that it disagrees: $2"
    else
        echo "not ok $n - $1: told that it disagrees: $2"
        "$dariole" weigh --measures "$1" "$2" | sed 's/^/# /'
    fi
}

agrees au '½ cup (110 g) firmly packed brown sugar'
agrees us '1/2 cup (110 g) packed brown sugar'
agrees au '½ cup (125 mL) almond milk'
agrees au '½ cup (125 mL) soy milk'
agrees au '¼ cup (60 g) coconut milk'
agrees au '¼ cup (60 g) coconut yoghurt'
agrees au '⅓ cup (60 g) chocolate chips'
agrees us '1 cup (81 g) rolled oats'
agrees us '1 cup (90 g) rolled oats'
# published: 81 to 90 g a cup
differs us '1 cup (120 g) rolled oats'
differs au '1 cup (120 g) rolled oats'
# two Australian tablespoons hold 40 mL of berries, 24 g or so; US ones 18 g
differs us '2 tbsp (30 g) blueberries'
agrees us '1 cup (200 g) granulated sugar'
agrees au '1 cup (220 g) caster sugar'
agrees us '1 stick (113 g) butter'
agrees uk '1 pint (568 mL) milk'
agrees us '1 cup (240 ml) water'
differs au '1 cup (500 g) plain flour'
echo "1..$n"
