#!/usr/bin/python3
"""Foods by their packets: the four worked labels give the blocks beside them, and what a label lets be is
what SciPy's linear programs find over all amounts that keep to it: of those four, written down here once
more, and of labels drawn at random, whose true amounts must lie within. Prints TAP."""
import json
import math
import os
import random
import subprocess
import tempfile

import yaml
from scipy.optimize import linprog

os.chdir(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", ".."))
PROGRAM, BLOG = "build/dariole", "tests/labels"
OFF, LEAN, SMALL = 0.2, 0.8, 2  # as the manual page says them
GROUPS = ["lactose", "excess-fructose", "fructan", "galacto-oligosaccharide", "sorbitol", "mannitol"]
count = 0


def told(good, name, detail=""):
    global count
    count += 1
    print(f"{'ok' if good else 'not ok'} {count} - {name}")
    if not good:
        print(f"# {detail}")


larder = yaml.safe_load(open(f"{BLOG}/tables/foods/ingredients.yaml"))["foods"]
by_name = {f["name"]: f for f in larder.values()}


def content(name, group, end):
    if name not in by_name:  # nobody knows: anything, but no lactose without milk
        return 100 if end == "high" and group != "lactose" else 0
    figure = by_name[name]["per-100-g"].get(group, {})
    return figure.get(end, 0)


def nutrient(name, which):
    return by_name.get(name, {}).get("nutrients", {}).get(which, 0)


def rows_of(parts, declared, region, head):
    """parts: (name, least %, most %, the number of the part that it is in, small, any order within)"""
    n = len(parts)
    upper, bounds, equal, sums = [], [], [], []

    def at_most(weights, bound):
        row = [0.0] * n
        for i, w in weights.items():
            row[i] = w
        upper.append(row)
        bounds.append(bound)

    def exactly(weights, bound):
        row = [0.0] * n
        for i, w in weights.items():
            row[i] = w
        equal.append(row)
        sums.append(bound)

    outside = [i for i in range(n) if parts[i][3] is None]
    exactly({i: 1 for i in outside}, 100)
    for i, (name, least, most, within, small, loose) in enumerate(parts):
        children = [k for k in range(n) if parts[k][3] == i]
        if children:
            exactly({**{k: 1 for k in children}, i: -1}, 0)
        siblings = [k for k in range(i) if parts[k][3] == within]
        if small:
            at_most({i: 1}, small)
        elif within is None and outside.index(i) >= head:
            at_most({i: 1}, SMALL)
        elif siblings and (within is None or not parts[within][5]):
            at_most({i: 1, siblings[-1]: -1}, 0)
        if most < 100:
            at_most({i: 1}, most)
        if least > 0 and within is None:
            at_most({i: -1}, -least)
        elif least > 0:
            at_most({i: -1, within: least / 100}, 0)
    leaves = [i for i in range(n) if not any(parts[k][3] == i for k in range(n))]
    for which, value in declared.items():
        if which == "carbohydrate" and region not in ("us", "ca"):
            amounts = {i: nutrient(parts[i][0], which) - nutrient(parts[i][0], "fibre") for i in leaves}
        elif which == "sodium":
            amounts = {i: nutrient(parts[i][0], "sodium-mg") / 1000 for i in leaves}
        else:
            amounts = {i: nutrient(parts[i][0], which) for i in leaves}
        at_most({i: LEAN / 100 * v for i, v in amounts.items()}, value)
    return upper, bounds, equal, sums, leaves


def ends(parts, declared, region, weight):
    """least and most of a sum over all that the label lets be"""
    outside = sum(p[3] is None for p in parts)
    heads = range(outside + 1) if region in ("uk", "eu") else [outside]
    least, most = math.inf, -math.inf
    for head in heads:
        upper, bounds, equal, sums, leaves = rows_of(parts, declared, region, head)
        weights = [weight(parts[i][0]) / 100 if i in leaves else 0 for i in range(len(parts))]
        for sign in (1, -1):
            r = linprog([-sign * w for w in weights], A_ub=upper or None, b_ub=bounds or None, A_eq=equal, b_eq=sums)
            if r.status == 0 and sign == 1:
                most = max(most, -r.fun)
            elif r.status == 0:
                least = min(least, r.fun)
    return least, most


def left_by(declared, low, region, group):
    """what the declared figures leave to a group"""
    if group in ("lactose", "excess-fructose"):
        return declared.get("sugars", math.inf)
    if "carbohydrate" not in declared:
        return math.inf
    most = declared["carbohydrate"] - low.get("sugars", 0)
    if group in ("fructan", "galacto-oligosaccharide") and region not in ("us", "ca"):
        most += declared.get("fibre", math.inf)
    return max(most, 0)


def declare(nutrition, per=100):
    high, low = {}, {}
    for key, value in nutrition.items():
        digits = len(str(value).partition(".")[2])
        half = 0.5 / 10**digits
        name, times = ("sodium", 0.4) if key == "salt" else (key, 1)
        high[name] = (float(value) * (1 + OFF) + half) * times * 100 / per
        low[name] = max(float(value) * (1 - OFF) - half, 0) * times * 100 / per
    return high, low


def held(name, food, parts, high, low, region):
    """the program's bounds of a food against SciPy's"""
    wrong = []
    for group in GROUPS:
        _, most = ends(parts, high, region, lambda n: content(n, group, "high"))
        most = min(most, left_by(high, low, region, group), 100)
        least = ends(parts, high, region, lambda n: content(n, group, "mid"))[0]
        bound = food["bounds"].get(group, {}).get("high", 0)
        figure = food["per-100-g"].get(group, {}).get("mid", 0)
        if not (most - 0.001 <= bound <= most * 1.011 + 0.001 or (most < 0.001 and bound == 0)):
            wrong.append(f"{group} at most {bound}, SciPy {most}")
        if group == "excess-fructose":
            continue  # its least is none where another ingredient may bring more glucose
        if not (least * 0.989 - 0.001 <= figure <= least + 0.001):
            wrong.append(f"{group} at least {figure}, SciPy {least}")
    told(not wrong, name, "; ".join(wrong))


def blocks(path):
    return subprocess.run([PROGRAM, "larder", "-C", BLOG, "--label", path], capture_output=True, text=True)


def foods_of(path, ids):
    """the program's own foods of a file of labels, as objects"""
    found = {}
    with tempfile.TemporaryDirectory() as blog:
        os.makedirs(f"{blog}/tables/foods")
        for at, source in (("1", f"{BLOG}/tables/foods/ingredients.yaml"), ("2", path)):
            with open(f"{blog}/tables/foods/{at}.yaml", "w") as out:
                out.write(open(source).read())
        for one in ids:
            r = subprocess.run([PROGRAM, "larder", "-C", blog, "--json", one], capture_output=True, text=True)
            found[one] = json.loads(r.stdout)
    return found


words = yaml.safe_load(open("content/tables/words.yaml"))["lists"]
shipped = set()
for name in os.listdir("content/tables/foods"):
    shipped |= set(yaml.safe_load(open(f"content/tables/foods/{name}"))["foods"])
strays = {w: f for w, f in words["label-aliases"]["words"].items() if f not in shipped}
told(not strays, "every alias of packets stands for a food of the larder", strays)

for name in ("stock", "curry-paste", "bread", "bar", "powder"):
    r = blocks(f"{BLOG}/{name}.yaml")
    told(r.returncode == 0 and r.stdout == open(f"{BLOG}/{name}.block").read(), f"{name} gives its block", r.stdout)

r = blocks("tests/tables/labels.yaml")
told(r.returncode == 0 and "order-broken:" in r.stdout and "nan" not in r.stdout and "inf" not in r.stdout,
     "a packet that contradicts itself is bounded by its own figures alone", r.stdout)


def item(name, least=0, most=100, within=None, small=None, loose=False):
    return (name, least, most, within, small, loose)


WORKED = {
    "brook-stock": ("stock", "uk", 100, {"fat": "11", "carbohydrate": "25", "sugars": "3.0", "fibre": "1.0", "salt": "46"}, [
        item("salt"), item("maize starch"), item("yeast extract"), item("palm oil"), item("onion powder", 2.5, 3.5),
        item("celery seed"), item("sugar")]),
    "moon-curry-paste": ("curry-paste", "au", 100, {"carbohydrate": "11", "sugars": "4", "fibre": "5"}, [
        item("lemongrass", 27.5, 28.5), item("shallot"), item("garlic", 11.5, 12.5), item("salt"), item("galangal"),
        item("zaffer essence")]),
    "mill-loaf": ("bread", "eu", 100, {"carbohydrate": "43", "sugars": "3.0", "fibre": "6.2", "fat": "6", "protein": "3.1",
                                       "salt": "1.1"}, [
        item("water"), item("flour mix", 39.5, 40.5), item("rice flour", within=1), item("tapioca starch", within=1),
        item("potato starch", within=1), item("oils", loose=True), item("sunflower oil", within=5),
        item("palm oil", within=5), item("psyllium husk"), item("egg white powder"), item("inulin", 2.45, 2.55),
        item("yeast"), item("sugar"), item("salt")]),
    "peak-bar": ("bar", "us", 40, {"carbohydrate": "26", "sugars": "14", "fibre": "3", "fat": "7", "protein": "4"}, [
        item("date"), item("almond"), item("honey"), item("puffed rice"), item("salt", small=2)]),
}
for one, (path, region, per, nutrition, parts) in WORKED.items():
    high, low = declare(nutrition, per)
    food = foods_of(f"{BLOG}/{path}.yaml", [one])[one]
    held(f"{one}: as SciPy has it", food, parts, high, low, region)

# at random: true amounts first, then what a packet would say of them
draw = random.Random(20261128)
KNOWN = sorted(set(by_name) - {"water"})
made, text = {}, "foods:\n"
for number in range(24):
    region = draw.choice(["uk", "au", "us"])
    names = draw.sample(KNOWN, draw.randint(2, 9)) + (["strange powder"] if number % 4 == 0 else [])
    amounts = sorted((draw.expovariate(1) ** 1.5 for _ in names), reverse=True)
    amounts = [100 * a / sum(amounts) for a in amounts]
    parts, said = [], []
    for name, amount in zip(names, amounts):
        if draw.random() < 0.3:
            digits = draw.choice([0, 1])
            shown = f"{amount:.{digits}f}"
            half = 0.5 / 10**digits
            parts.append(item(name, max(float(shown) - half, 0), float(shown) + half))
            said.append(f"{name} {shown}%")
        else:
            parts.append(item(name))
            said.append(name)
        if region == "au" and name == "shallot":  # a spring onion, there
            said[-1] = said[-1].replace("shallot", "eschalot")
    nutrition = {}
    for which in ("fat", "sugars"):
        if draw.random() < 0.5:
            nutrition[which] = f"{sum(a * nutrient(n, which) / 100 for n, a in zip(names, amounts)):.1f}"
    nutrition = {k: v for k, v in nutrition.items() if float(v) > 0}
    one = f"made-{number}"
    made[one] = (region, nutrition, parts, amounts)
    text += (f"  {one}:\n    name: made {number}\n    label:\n      source: drawn\n      region: {region}\n"
             f"      nutrition: {{{', '.join(f'{k}: {v}' for k, v in nutrition.items())}}}\n"
             f"      ingredients: \"{', '.join(said)}\"\n")
with tempfile.NamedTemporaryFile("w", suffix=".yaml") as file:
    file.write(text)
    file.flush()
    foods = foods_of(file.name, list(made))
for one, (region, nutrition, parts, amounts) in made.items():
    high, low = declare(nutrition)
    held(f"{one}: {len(parts)} ingredients, {region}", foods[one], parts, high, low, region)
    outside = [p["ingredient"] for p, a in zip(foods[one]["label"], amounts)
               if not p["least"] - 0.02 <= a <= p["most"] + 0.02]
    told(not outside, f"{one}: the true amounts lie within", outside)
print(f"1..{count}")
