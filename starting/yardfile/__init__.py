"""A whole yard as one file: reading it, loading it, writing it."""

from fitting.yardfile import YardFileError
from starting.yardfile.dumping import dump_yard
from starting.yardfile.loading import YardThereError, load_yard

__all__ = ["YardFileError", "YardThereError", "dump_yard", "load_yard"]
