#!/usr/bin/python3
"""The chances of whole portions, of the larder's own foods, against NumPy's random draws; and the best
and worst of choices against one post for each way. Prints TAP."""
import itertools
import json
import os
import subprocess
import tempfile

import numpy as np

os.chdir(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", ".."))
PORTIONS, DRAWS, SLACK = 500, 40000, 0.02
Z95 = 1.6448536269514722
random = np.random.default_rng(20261129)
FOODS = """rolled oats|carrots|zucchini|potatoes|strawberries|tomatoes|white rice|cheddar|butter|onion|
garlic|honey|apple|wheat flour|chickpeas|walnuts|almonds|mushrooms|spinach|red capsicum|whole milk|plain
yoghurt|lentils|beetroot|broccoli|sweet potato|pumpkin|raspberries|orange|firm tofu|peanut butter|leek|
celery|mango|cherries|cashews|green beans|cucumber|eggplant|parsnip""".replace("\n", "").split("|")
count = 0


def told(good, name, detail=""):
    global count
    count += 1
    print(f"{'ok' if good else 'not ok'} {count} - {name}")
    if not good:
        print(f"# {detail}")


def worksheet(folder, ingredients, portions):
    with open(os.path.join(folder, "posts", "a.md"), "w", encoding="utf-8") as post:
        post.write("---\ntitle: A\nportions: %d\nmeasures: au\ningredients:\n" % portions)
        post.writelines(f"  - {line}\n" for line in ingredients)
        post.write("---\n\n## Method\n1. Mix.\n")
    run = subprocess.run(["build/dariole", "worksheet", "-C", folder, "--json", os.path.join(folder, "posts", "a.md")],
                         capture_output=True, text=True)
    return json.loads(run.stdout)


def draw(span, n):
    low, mid, high = span["low"], span["mid"], span["high"]
    if low >= high:
        return np.full(n, mid)
    if low == 0:
        p = random.random(n)
        return np.where(p < 0.5, mid * 2 * p, mid + (high - mid) * (2 * p - 1))
    z = random.standard_normal(n)
    return mid * np.exp(z * np.where(z < 0, np.log(mid / low), np.log(high / mid)) / Z95)


counted, own = set(), set()
PARTS = {"oligosaccharides": ("fructan", "galacto-oligosaccharide"), "polyols": ("sorbitol", "mannitol")}


def loads_of(sheet):
    """g of each group, by food, drawn; a food's figure is one figure in all its lines"""
    contents, loads, classes = {}, {}, {}
    own.clear()
    counted.clear()  # in a sitting: what was looked for and not found counts nothing
    for line in sheet["lines"]:
        for helping in line["options"][0]:
            food = helping["food"]
            if food is None or helping["portion"] is None:
                return None, None
            amount = draw(helping["portion"], DRAWS)
            classes[food] = helping["class"]
            for group, g in helping["groups"].items():
                if group in PARTS and g["content"] is None:
                    continue
                if group in PARTS:
                    own.add((food, group))
                if (food, group) not in contents:
                    contents[food, group] = draw(g["content"], DRAWS) if g["content"] else np.zeros(DRAWS)
                loads[food, group] = loads.get((food, group), 0) + amount * contents[food, group] / 100
                if g["kind"] != "below":
                    counted.add((food, group))
    for food in classes:
        for group, (first, second) in PARTS.items():
            loads.setdefault((food, group), loads[food, first] + loads[food, second])
    return loads, classes


def chance_drawn(limit, loads, by_class):
    """of being over one limit"""
    if limit["scope"] == "sitting":
        share = np.zeros(DRAWS)
        for food, g in counted:
            whole = next((sum_ for sum_, parts in PARTS.items() if g in parts), None)
            if g != "lactose" and (whole is None or (food, whole) not in own):
                share = share + loads[food, g] / limit["limit"]
    elif limit["scope"] == "portion":
        share = sum(load for (food, g), load in loads.items() if g == limit["group"]) / limit["limit"]
    else:
        share = sum(loads[food, limit["group"]] for food in limit["foods"]) / limit["limit"]
    return float(np.mean(share > 1)), share


def portions(folder):
    worst, held, where = {}, 0, {}
    for _ in range(PORTIONS):
        names = random.choice(FOODS, size=random.integers(2, 9), replace=False)
        scale = 10 ** random.uniform(0, 1.6)
        lines = []
        for name in names:
            grams = max(1, round(scale * random.uniform(0.3, 4)))
            lines.append(f"{grams} g {name}" if random.random() < 0.6 else f"{random.integers(1, 4)} tbsp {name}")
        sheet = worksheet(folder, lines, 1)
        loads, classes = loads_of(sheet)
        if loads is None:
            continue
        for limit in sheet["phases"][0]["limits"]:
            if len({classes[f] for f in limit["foods"]}) > 1:  # adds as shares of several limits
                continue
            drawn, share = chance_drawn(limit, loads, classes)
            off = abs(drawn - limit["chance"])
            # a distribution that has mass at one point has no chance there to compare
            if np.std(share) < 1e-9:
                continue
            held += 1
            if off > worst.get(limit["scope"], -1):
                worst[limit["scope"]], where[limit["scope"]] = off, (lines, limit, drawn)
    for scope, off in sorted(worst.items()):
        told(off <= SLACK, f"limits of a {scope}: {held} in all, the chance furthest off by {off:.4f}", where[scope])


def choices(folder):
    """worst and best, against one post for each way to settle the choices"""
    wrong, held = [], 0
    order = ["within", "close", "unknown", "over"]
    for _ in range(40):
        rows = [[f"{random.integers(5, 60)} g {name}" for name in random.choice(FOODS, size=random.integers(1, 4), replace=False)]
                for _ in range(random.integers(2, 5))]
        whole = worksheet(folder, [" or ".join(row) for row in rows], 2)["phases"][0]
        ways = [worksheet(folder, list(way), 2)["phases"][0]["standing"] for way in itertools.product(*rows)]
        held += len(ways)
        expected = (max(ways, key=order.index), min(ways, key=order.index))
        if (whole["standing"], whole["best-standing"]) != expected:
            wrong.append((rows, whole["standing"], whole["best-standing"], expected))
    told(not wrong, f"worst and best of 40 dishes with choices are those of their {held} ways", wrong[:2])


with tempfile.TemporaryDirectory() as folder:
    os.mkdir(os.path.join(folder, "posts"))
    portions(folder)
    choices(folder)
print(f"1..{count}")
