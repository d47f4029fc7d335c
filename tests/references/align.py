"""Affine maps and smoothing thin-plate splines by scipy; the tests of quiltpath-core's align hold them.

    pip install scipy
    python3 tests/references/align.py

Marks lie in the unit square, where both sides solve. scipy's kernel is r^2 log r, and so is ours.
Printed are, for some places, where the affine map of all marks and the splines of three
smoothnesses take them.
"""

import numpy
import scipy
from scipy.interpolate import RBFInterpolator

MARKS = numpy.array([(0, 0), (1, 0), (1, 1), (0, 1), (0.5, 0.1), (0.3, 0.8), (0.9, 0.4)])
READ = numpy.array(
    [(2.01, 3.0), (3.02, 2.98), (3.01, 4.03), (1.98, 4.0), (2.5, 3.13), (2.29, 3.82), (2.93, 3.37)]
)
PLACES = numpy.array([(0.5, 0.5), (0.1, 0.9), (1.2, -0.1)])

print("scipy", scipy.__version__)
rows = numpy.c_[numpy.ones(len(MARKS)), MARKS]
affine = numpy.linalg.lstsq(rows, READ, rcond=None)[0]
print("affine", (numpy.c_[numpy.ones(len(PLACES)), PLACES] @ affine).round(12).tolist())
for smooth in (0.0, 0.001, 0.1):
    spline = RBFInterpolator(MARKS, READ, kernel="thin_plate_spline", smoothing=smooth, degree=1)
    print(smooth, spline(PLACES).round(12).tolist())
