"""The shipped knowledge, read once for all tests of a process: it is a second's work, and no test changes it."""

from functools import cache

from scout import paths
from scout.knowledge.base import Knowledge
from scout.knowledge.load import load_knowledge


@cache
def shipped_knowledge() -> Knowledge:
    """Return what `load_knowledge` makes of the shipped folder, without a compiled copy."""
    return load_knowledge(paths.knowledge_folder())
