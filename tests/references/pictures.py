"""Thinning and thresholds by scikit-image; the tests in quiltpath-core's raster hold the numbers.

    pip install scikit-image
    python3 tests/references/pictures.py

For each seed a picture is made by whole numbers alone, so that both sides have the same one: bars
and dots of a pen along random ways. Points come from a linear congruential generator (Knuth's MMIX
numbers). Printed are, for thinning, parts, holes and pixels that stay; for the threshold of
Sauvola, how many pixels are ink.
"""

import numpy
import skimage
from skimage.filters import threshold_sauvola
from skimage.measure import label
from skimage.morphology import thin

SIDE = 160


class Dice:
    def __init__(self, seed):
        self.state = seed

    def below(self, limit):
        self.state = (self.state * 6364136223846793005 + 1442695040888963407) % 2**64
        return (self.state >> 33) % limit


def picture(seed):
    dice = Dice(seed)
    cells = numpy.zeros((SIDE, SIDE), dtype=bool)
    pen = 2 + dice.below(5)
    for _ in range(3 + dice.below(6)):
        x, y = (2 * pen + dice.below(SIDE - 4 * pen) for _ in range(2))
        right, down = (dice.below(7) - 3 for _ in range(2))
        for step in range(20 + dice.below(60)):
            for by in range(-pen, pen + 1):
                for across in range(-pen, pen + 1):
                    inside = across * across + by * by <= pen * pen
                    if inside and 1 <= y + by < SIDE - 1 and 1 <= x + across < SIDE - 1:
                        cells[y + by, x + across] = True
            if step % 8 == 7:
                right, down = (dice.below(7) - 3 for _ in range(2))
            x, y = (x + right) % SIDE, (y + down) % SIDE
    return cells


def greys(seed, cells):
    """Ink and paper with a shade across and noise, all of whole numbers."""
    dice = Dice(seed + 1000)
    out = numpy.zeros((SIDE, SIDE), dtype=numpy.uint8)
    for y in range(SIDE):
        for x in range(SIDE):
            light = 235 - (x + y) // 4 + dice.below(9)
            out[y, x] = light * 2 // 3 if cells[y, x] else light
    return out


print("skimage", skimage.__version__)
for seed in range(1, 13):
    cells = picture(seed)
    line = thin(cells)
    parts = label(cells, connectivity=2).max()
    holes = label(~cells, connectivity=1).max() - 1
    assert parts == label(line, connectivity=2).max()
    assert holes == label(~line, connectivity=1).max() - 1
    print(f"({seed}, {parts}, {holes}, {line.sum()}),")
for seed in range(1, 5):
    grey = greys(seed, picture(seed))
    ink = grey < threshold_sauvola(grey, window_size=17, k=0.2, r=128)
    # Near the edge windows are filled up there and cut here.
    print(f"({seed}, {ink[8:-8, 8:-8].sum()}),")
