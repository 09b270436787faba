"""The task that sillspan_bench wrote: stiffness, wheels, effects, and the library's answer and time."""

import os
import sys
import time

import numpy as np
import scipy.sparse as sparse


class Task:
    def __init__(self, folder):
        def array(name):
            return np.load(os.path.join(folder, name + ".npy"))

        def rows(name, columns):
            first = array(name + "_first")
            shape = (len(first) - 1, columns)
            return sparse.csr_matrix((array(name + "_value"), array(name + "_column"), first), shape=shape)

        self.folder = folder
        # Lower band: band[i - j, j] = K[i, j].
        self.band = np.ascontiguousarray(array("stiffness").T)
        self.order = self.band.shape[1]
        self.least, self.most = array("least"), array("most")
        # Positions by degrees of freedom, effects by degrees of freedom; and what wheels do to effects in
        # their own element, positions by effects.
        self.wheels = rows("wheels", self.order)
        self.effects = rows("effects", self.order)
        self.direct = rows("direct", self.effects.shape[0])
        self.library_seconds = float(array("library_seconds")[0])

    def report(self, name, seconds, least, most):
        """One row of the table, and whether the answers agree: relative to the largest of each effect."""
        scale = np.maximum(np.abs(self.least), np.abs(self.most))
        worst = max(
            np.max(np.abs(least - self.least) / scale), np.max(np.abs(most - self.most) / scale)
        )
        ratio = seconds / self.library_seconds
        print(f"| {name} | {seconds:.1f} | {ratio:.0f} times as long | {worst:.1e} |")
        if not worst < 1e-6:
            sys.exit(f"{name}: its answers are not those of the library")


def clock():
    """Seconds of the processor, as sillspan_bench counts them."""
    return time.process_time()
