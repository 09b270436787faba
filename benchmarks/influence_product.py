"""What a script does that knows Betti's theorem: influence fields of all effects, times the wheels as a sparse matrix."""

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
effects = task.effects.T.tocsc()
direct = task.direct.tocsc()
for first in range(0, count, BLOCK):
    fields = cho_solve_banded((factor, True), effects[:, first : first + BLOCK].toarray(), check_finite=False)
    values = task.wheels @ fields + direct[:, first : first + BLOCK].toarray()
    part = slice(first, first + values.shape[1])
    least[part] = np.minimum(0.0, values.min(axis=0))
    most[part] = np.maximum(0.0, values.max(axis=0))
task.report("influence fields, sparse product", clock() - start, least, most)
