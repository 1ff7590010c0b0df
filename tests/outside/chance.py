#!/usr/bin/python3
"""The arithmetic of distributions against NumPy's random draws and SciPy's closed forms. Prints TAP."""
import os
import subprocess

import numpy as np
from scipy import stats

os.chdir(os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", ".."))
PORTIONS, DRAWS = 600, 60000
ASKED = [0.05, 0.2, 0.5, 0.8, 0.95]
Z95 = stats.norm.ppf(0.95)
random = np.random.default_rng(20261128)
count = 0



def calculate(program):
    """what tests/outside/chance.c prints for a program of it"""
    run = subprocess.run(["build/outside/chance"], input=program, capture_output=True, text=True, check=True)
    return [float(x) for x in run.stdout.split()]


def told(good, name, detail=""):
    global count
    count += 1
    print(f"{'ok' if good else 'not ok'} {count} - {name}")
    if not good:
        print(f"# {detail}")


def draw_range(low, mid, high, n):
    """two-sided about the median: log-normal, or rectangular where low is 0"""
    if low == 0:
        p = random.random(n)
        return np.where(p < 0.5, mid * 2 * p, mid + (high - mid) * (2 * p - 1))
    z = random.standard_normal(n)
    return mid * np.exp(z * np.where(z < 0, np.log(mid / low), np.log(high / mid)) / Z95)


def draw_samples(mean, sd, n):
    sigma2 = np.log(1 + (sd / mean) ** 2)
    return random.lognormal(np.log(mean) - sigma2 / 2, np.sqrt(sigma2), n)


def some_figure(n):
    """a content per g of some kind: its program and its draws"""
    kind = random.integers(0, 5)
    mid = 10 ** random.uniform(-3, -0.7)
    if kind == 0:
        sd = mid * random.uniform(0.05, 1.2)
        return f"{mid:.17g} {sd:.17g} samples", draw_samples(mid, sd, n)
    if kind == 1:
        low, high = mid / random.uniform(1.05, 6), mid * random.uniform(1.05, 6)
        return f"{low:.17g} {mid:.17g} {high:.17g} range", draw_range(low, mid, high, n)
    if kind == 2:
        high = mid * random.uniform(1.1, 6)
        return f"0 {mid:.17g} {high:.17g} range", draw_range(0, mid, high, n)
    if kind == 3:
        return f"{mid / 4:.17g} below", random.uniform(0, mid / 4, n)
    return f"{mid:.17g} exact", np.full(n, mid)


def some_amount(n):
    """g of one line: weighed, by spoon, or counted"""
    kind = random.integers(0, 3)
    mid = 10 ** random.uniform(0, 2.5)
    if kind == 0:
        return f"{mid:.17g} exact", np.full(n, mid)
    low, high = mid / random.uniform(1.02, 1.6), mid * random.uniform(1.02, 1.6)
    program = f"{low:.17g} {mid:.17g} {high:.17g} range"
    if kind == 1:
        return program, draw_range(low, mid, high, n)
    pieces = int(random.integers(2, 9))
    return (f"{program} {pieces} draws",
            sum(draw_range(low, mid, high, n) for _ in range(pieces)))


def some_serve(n):
    """one food: the sum of its lines times its content"""
    program, amount = some_amount(n)
    if random.random() < 0.3:
        more, other = some_amount(n)
        program, amount = f"{program} {more} sum", amount + other
    figure, content = some_figure(n)
    return f"{program} {figure} product", amount * content


def some_portion(n):
    program, load = some_serve(n)
    for _ in range(int(random.integers(0, 10))):
        more, other = some_serve(n)
        program, load = f"{program} {more} sum", load + other
    return program, load


def portions():
    programs, spread = [], []
    for _ in range(PORTIONS):
        program, load = some_portion(DRAWS)
        limits = np.quantile(load, 1 - np.array(ASKED))
        sharp = np.ptp(load) <= 1e-9 * load[0]
        spread.append(not sharp)
        programs.append(" ".join([program] + [f"{x:.17g} over" for x in limits] + ["drop"]))
    chances = np.array(calculate("\n".join(programs))).reshape(PORTIONS, len(ASKED))[spread]
    wide = [program for program, some in zip(programs, spread) if some]
    told(len(chances) >= 500, f"{len(chances)} random portions have a spread")
    for column, asked in enumerate(ASKED):
        off = np.abs(chances[:, column] - asked)
        told(off.max() <= 0.02, f"where {DRAWS} draws are over with {asked:.0%} of them: "
             f"furthest off by {off.max():.4f}, on average by {off.mean():.4f}",
             f"portion {wide[int(np.argmax(off))]}")


def closed_forms():
    """a product of log-normals is log-normal; one and two rectangular ones have plain areas"""
    worst = 0
    for _ in range(200):
        sigmas = random.uniform(0.02, 1.2, 3)
        mids = 10 ** random.uniform(-2, 2, 3)
        program = " ".join(f"{m * np.exp(-Z95 * s):.17g} {m:.17g} {m * np.exp(Z95 * s):.17g} range"
                           for m, s in zip(mids, sigmas)) + " product product"
        whole = stats.lognorm(np.sqrt((sigmas ** 2).sum()), scale=mids.prod())
        limits = whole.ppf([0.02, 0.05, 0.2, 0.5, 0.8, 0.95, 0.98])
        got = calculate(program + "".join(f" {x:.17g} over" for x in limits))
        worst = max(worst, np.abs(np.array(got) - whole.sf(limits)).max())
    told(worst <= 0.01, f"200 products of three log-normals: furthest off by {worst:.4f}")
    limits = [0.1, 0.5, 1, 1.5, 1.9]
    got = calculate("1 below 1 below sum" + "".join(f" {x} over" for x in limits))
    exact = stats.triang(0.5, scale=2).sf(limits)
    worst = np.abs(np.array(got) - exact).max()
    told(worst <= 0.01, f"two rectangular ones make a triangle: furthest off by {worst:.4f}", f"{got} {exact}")


def additive_examples():
    """JCGM 101:2008, clause 9.2, four quantities of mean 0 added (the intervals from memory of it:
    normal +-3.92, rectangular +-3.88, one of them ten times as wide +-17.0); here all are moved up
    so that none is negative, and SciPy's quadrature tells the probability that lies above."""
    wide = np.sqrt(3)
    four = f"{2 * wide:.17g} below " * 4 + "sum sum sum "
    low, high = calculate(four + "0.025 quantile 0.975 quantile")
    told(abs((high - low) / 2 - 3.88) < 0.04, f"9.2.3, rectangular: +-{(high - low) / 2:.2f}")
    ten = f"{2 * wide:.17g} below " * 3 + f"{20 * wide:.17g} below sum sum sum "
    low, high = calculate(ten + "0.025 quantile 0.975 quantile")
    told(abs((high - low) / 2 - 17.0) < 0.17, f"9.2.4, one of them wider: +-{(high - low) / 2:.2f}")
    # a log-normal of mean 1000 and deviation 1 is a normal but for one part in a thousand
    low, high = calculate("1000 1 samples " * 4 + "sum sum sum 0.025 quantile 0.975 quantile")
    told(abs((high - low) / 2 - 3.92) < 0.04, f"9.2.2, normal: +-{(high - low) / 2:.2f}")


def numbers_after(source, words):
    text = source.split(words)[1].split("{", 1)[1].replace("{", "").split("}")[0]
    return np.array([float(x) for x in text.replace("\n", " ").split(",")])


def table_of_the_normal():
    source = open("src/reckon/normal.c").read()
    points = np.arange(-20, 21) * 0.16
    off = np.abs(numbers_after(source, "normal_below[NORMAL_POINTS] =") - stats.norm.cdf(points)).max()
    told(off < 1e-15, "the normal's distribution function is SciPy's")
    for name, first, stride in (("fine", 0, 2), ("usual", 0, 4), ("coarse", 4, 8)):
        values = numbers_after(source, f"struct nodes normal_{name} =")
        exact = stats.norm.pdf(points[first::stride][:int(values[0])])
        told(values[1] == first and values[2] == stride and values[0] == len(exact)
             and np.abs(values[3:] - exact / exact.sum()).max() < 1e-15, f"the {name} nodes are SciPy's")


closed_forms()
additive_examples()
table_of_the_normal()
portions()
print(f"1..{count}")
