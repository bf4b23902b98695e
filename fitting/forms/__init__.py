"""Forms of the yard, its horses and its tack."""

from fitting.forms.base import KeptForm, OnceForm, YardFormRenderer

__all__ = ["KeptForm", "OnceForm", "YardFormRenderer"]
