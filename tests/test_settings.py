"""The site's settings hold where the site is served."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
# A server's thread has little room; readings of some years make a table of hundreds.
LARGE_TABLE = """
import threading
import starting.settings
import numpy as np

def solve() -> None:
    sides = np.random.default_rng(1).normal(size=(300, 300))
    np.linalg.solve(sides @ sides.T + 9 * np.eye(300), sides)

threading.stack_size(512 * 1024)
thread = threading.Thread(target=solve)
thread.start()
thread.join()
"""


def test_many_readings_do_not_end_the_process_that_plans_them() -> None:
    told = {**os.environ, "PYTHONPATH": str(ROOT)}
    told.pop("OPENBLAS_NUM_THREADS", None)  # the settings of this run set it already
    done = subprocess.run(
        [sys.executable, "-c", LARGE_TABLE], cwd=ROOT, env=told, check=False
    )
    assert done.returncode == 0
