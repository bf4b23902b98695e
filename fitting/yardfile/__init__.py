"""The yard file's part of bodies and tack: its shape, reading it, writing it."""

from fitting.yardfile.place import ROOT, Place, YardFileError

__all__ = ["ROOT", "Place", "YardFileError"]
