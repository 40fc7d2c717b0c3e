"""Bedwalk: walk the beds, say what is wrong, act, and see next time whether it worked."""
