"""What a careful script does first: factor once, solve for the trucks of each position, keep the extremes.

Positions go through the solver in blocks, which is faster than one by one.
"""

import sys

import numpy as np
from scipy.linalg import cho_solve_banded, cholesky_banded

from task import Task, clock

BLOCK = 256

task = Task(sys.argv[1])
start = clock()
factor = cholesky_banded(task.band, lower=True)
count = task.effects.shape[0]
least, most = np.zeros(count), np.zeros(count)
wheels = task.wheels.T.tocsc()
direct = task.direct.tocsr()
for first in range(0, wheels.shape[1], BLOCK):
    u = cho_solve_banded((factor, True), wheels[:, first : first + BLOCK].toarray(), check_finite=False)
    values = task.effects @ u + direct[first : first + BLOCK].T.toarray()
    np.minimum(least, values.min(axis=1), out=least)
    np.maximum(most, values.max(axis=1), out=most)
task.report("factor once, solve for each position", clock() - start, least, most)
