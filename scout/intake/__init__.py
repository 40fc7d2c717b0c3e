"""Files from outside, turned into checked records."""
