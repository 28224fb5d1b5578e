"""Times scipy's make_smoothing_spline on the readings of a file; says ms a run and how many knots."""
import sys
import time

import numpy as np
from scipy.interpolate import make_smoothing_spline

x, y = np.loadtxt(sys.argv[1], delimiter=",", unpack=True)
times = []
for _ in range(int(sys.argv[2])):
    start = time.perf_counter()
    spline = make_smoothing_spline(x, y)
    times.append(1000 * (time.perf_counter() - start))
print(np.median(times), min(times), max(times), len(np.unique(spline.t)))
