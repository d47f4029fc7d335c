"""Fewest passes and thread cuts of invented quilts as an integer program, solved by HiGHS.

Run once with scipy (PyPI): python3 program.py > quilts.json

Everything is in fractions, so that nothing is decided by rounding. A window may begin wherever an
edge of an atom passes its upper or its lower edge. For each atom one window is chosen that
reaches it; a join is passed when both its atoms are in one window; a ring that is wholly in one window
is one run all the same. First the fewest windows, then the fewest runs with these, with one more
and with two more.
"""

import json
import random
import sys
from fractions import Fraction

import numpy
from scipy.optimize import LinearConstraint, milp
from scipy.sparse import coo_array


def solve(cost, rows, whole):
    """Least value with every variable from 0 to 1; a row is (coefficients, least, most)."""
    at = [(r, v, c) for r, (row, _, _) in enumerate(rows) for v, c in row]
    places = ([a[0] for a in at], [a[1] for a in at])
    matrix = coo_array(([a[2] for a in at], places), shape=(len(rows), len(cost)))
    limits = LinearConstraint(matrix, [r[1] for r in rows], [r[2] for r in rows])
    options = {"mip_rel_gap": 0.0, "time_limit": 120}
    found = milp(cost, constraints=limits, bounds=(0, 1), integrality=whole, options=options)
    if found.status != 0:
        raise RuntimeError(found.message)
    return round(found.fun)


def program(atoms, joins, rings, throat):
    edges = {top for top, _ in atoms} | {bottom - throat for _, bottom in atoms}
    tops = sorted(edges)
    reached = [
        [w for w, top in enumerate(tops) if top <= a and b <= top + throat] for a, b in atoms
    ]
    count = len(tops)
    # Windows that reach the same atoms are one.
    serves = {}
    for w in range(count):
        serves.setdefault(frozenset(a for a, ws in enumerate(reached) if w in ws), w)
    kept = list(serves.values())
    number = {w: k for k, w in enumerate(kept)}
    reached = [[number[w] for w in ws if w in number] for ws in reached]
    count = len(kept)

    none = numpy.inf
    cover = [([(w, 1) for w in ws], 1, none) for ws in reached]
    passes = solve([1] * count, cover, [1] * count)

    cost, whole, rows = [0] * count, [1] * count, []
    chosen = []
    for ws in reached:
        own = {}
        for w in ws:
            own[w] = len(cost)
            cost.append(0)
            whole.append(1)
            rows.append(([(own[w], 1), (w, -1)], -none, 0))
        rows.append(([(v, 1) for v in own.values()], 1, 1))
        chosen.append(own)
    passed = {}
    for k, (a, b) in enumerate(joins):
        for w in chosen[a].keys() & chosen[b].keys():
            v = passed[k, w] = len(cost)
            cost.append(-1)
            whole.append(0)
            rows.append(([(v, 1), (chosen[a][w], -1)], -none, 0))
            rows.append(([(v, 1), (chosen[b][w], -1)], -none, 0))
    for ring in rings:
        for w in range(count):
            own = [passed[k, w] for k in ring if (k, w) in passed]
            if len(own) == len(ring):
                v = len(cost)
                cost.append(1)
                whole.append(0)
                rows.append(([(v, -1)] + [(p, 1) for p in own], -none, len(ring) - 1))
    cuts = []
    for more in range(3):
        most = ([(w, 1) for w in range(count)], 0, passes + more)
        cuts.append(len(atoms) + solve(cost, rows + [most], whole))
    return passes, cuts


def side(start, end, repeats):
    pitch = Fraction(end - start, repeats)
    return [[start + k * pitch, start + (k + 1) * pitch] for k in range(repeats)]


def quilt(chance):
    width, height = chance.randint(30, 60), chance.randint(40, 90)
    throat = chance.choice([14, 16, 18, 20, 22])
    atoms, joins, rings = [], [], []
    inset = 0
    for _ in range(chance.choice([1, 2, 2, 3])):
        band = chance.choice([3, 4, 5, 6])
        corner = chance.choice(["leg", "block", "open"])
        deep = Fraction(chance.randint(4 * band, 4 * throat - 20), 4) if corner == "leg" else band
        deep = min(deep, Fraction(height - 2 * inset, 3))
        top, bottom = inset, height - inset
        down = bottom - top - 2 * deep
        numbers = [max(1, round(down / chance.choice([4, 5, 6, 7]))) for _ in range(2)]
        while any(down / n > throat for n in numbers):
            numbers = [n + 1 for n in numbers]
        across = max(1, round((width - 2 * inset - 2 * deep) / 5))
        upper, lower = [top, top + band], [bottom - band, bottom]
        pieces = [
            ("corner", [[top, top + deep]]),
            ("side", [upper] * across),
            ("corner", [[top, top + deep]]),
            ("side", side(top + deep, bottom - deep, numbers[0])),
            ("corner", [[bottom - deep, bottom]]),
            ("side", [lower] * across),
            ("corner", [[bottom - deep, bottom]]),
            ("side", side(top + deep, bottom - deep, numbers[1])[::-1]),
        ]
        whole = corner == "leg"
        ring, first, last = [], len(atoms), None
        for kind, spans in pieces:
            if kind == "corner" and corner == "open":
                last = None
                continue
            for k, span in enumerate(spans):
                if last is not None and (k > 0 or whole):
                    ring.append(len(joins))
                    joins.append([last, len(atoms)])
                last = len(atoms)
                atoms.append(span)
        if whole:
            ring.append(len(joins))
            joins.append([last, first])
            rings.append(ring)
        inset += band + 1
    return atoms, joins, rings, Fraction(throat)


def main():
    chance = random.Random(20)
    quilts = []
    while len(quilts) < 40:
        atoms, joins, rings, throat = quilt(chance)
        passes, cuts = program(atoms, joins, rings, throat)
        print(len(quilts), len(atoms), passes, cuts, file=sys.stderr)
        quilts.append(
            {
                "throat": float(throat),
                "atoms": [[float(y) for y in span] for span in atoms],
                "joins": joins,
                "passes": passes,
                "cuts": cuts,
            }
        )
    print("[")
    print(",\n".join(json.dumps(quilt, separators=(",", ":")) for quilt in quilts))
    print("]")


main()
