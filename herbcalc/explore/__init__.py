"""Panels to play with, one module a topic; a lesson raises each in one short line.

Every panel function of a topic module is re-exported here and listed in ``__all__``:
the tests and the benchmark walk that list.
"""

__all__ = []
