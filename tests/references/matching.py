"""The least weight of pairing random points, by networkx.

The tests of quiltpath-core's graph/matching.rs hold it.

    pip install networkx
    python3 tests/references/matching.py

Prints a row for each number of points: the number, and the sum of the distances in the pairs.
Points come from a linear congruential generator (Knuth's MMIX numbers), so that both sides have the
same ones.
"""

import math

import networkx


def points(count):
    state = count
    numbers = []
    for _ in range(2 * count):
        state = (state * 6364136223846793005 + 1442695040888963407) % 2**64
        numbers.append((state >> 33) / 2**31 * 1000.0)
    return list(zip(numbers[::2], numbers[1::2]))


def least(count):
    places = points(count)
    graph = networkx.Graph()
    for a in range(count):
        for b in range(a):
            graph.add_edge(a, b, weight=math.dist(places[a], places[b]))
    pairs = networkx.min_weight_matching(graph)
    assert 2 * len(pairs) == count
    return sum(graph[a][b]["weight"] for a, b in pairs)


for count in (50, 100, 200, 400, 600):
    print(f"({count}, {least(count):.9f}),", flush=True)
